/**
 * `new`: a drill, a week, a guide, a skill, or a whole club folder, with only the fields that matter
 * and comments that teach the next ones; or what editors need to complete the ids of the club.
 *
 * On a terminal it asks for what was not said, with suggestions of what the club has; elsewhere it
 * never asks, and says which flags are missing. A file that is there is never written over.
 */

import { basename, join, relative, resolve } from "node:path";
import { FilesChanged, makeChanges } from "../edit/make-changes.ts";
import { makeFolder, openFolder } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
import { openHandbook } from "../handbook.ts";
import type { FileKind, Id } from "../model.ts";
import { parseYaml } from "../read/parse-yaml.ts";
import { readClub } from "../read/read-club.ts";
import { idFrom } from "../validate/judge-data.ts";
import { ID_PATTERN, isPortable } from "../validate/schemas.ts";
import { type Ask, type Choice, terminalAsk } from "./ask.ts";
import { mend } from "./edit-club.ts";
import { EDITOR_FOLDER, EDITOR_SCHEMAS, hasEditorFiles, writeEditorFiles } from "./editor-files.ts";
import { hostKindFiles, hostNext } from "./host-files.ts";
import { HOST_KINDS, type HostKind, type NewKind } from "./new-kinds.ts";
import { clubFolderFiles, drillText, guideText, skillEntry, weekText } from "./new-texts.ts";
import { clubPackage, installedFrom, isInstalled, PACKAGE_FILE } from "./own-package.ts";
import { reportProblems } from "./report.ts";
import type { Run } from "./run.ts";
import type { WrittenFile } from "./spreadsheet/club-sheets.ts";
import { drillPath } from "./write-club-file.ts";

/** What the flags said; lists as they were typed, separated by commas. */
export interface NewOptions {
	readonly kind: NewKind;
	/** The folder of a new club; of a host, its kind. */
	readonly folder?: string;
	readonly id?: string;
	readonly title?: string;
	readonly apparatus?: string;
	readonly levels?: string;
	readonly shapes?: string;
	readonly skills?: string;
	readonly week?: string;
	readonly theme?: string;
	readonly name?: string;
	readonly starts?: string;
	readonly weeks?: string;
}

type KindOfFlag = "apparatus" | "levels" | "shapes" | "skills";

/** What a field may be, and how it is asked for. */
interface Field {
	readonly flag: keyof NewOptions;
	readonly question: string;
	/** What may be chosen; any text where it is left out. */
	readonly choices?: readonly Choice[];
	readonly several?: boolean;
	/** Why an answer will not do. */
	readonly fault?: (answer: string) => string | undefined;
	/** Taken where nobody can be asked. */
	readonly usual?: string;
	/** Whether only a flag says it. */
	readonly unasked?: boolean;
}

/** Wrong use that a person can mend: told, and the command ends with 2. */
class Refused extends Error {}

/** @returns 0 where it was written; 2 where a flag is missing or wrong, or the file is there already */
export async function newCommand(
	run: Run,
	options: NewOptions,
	ask: Ask | undefined = process.stdin.isTTY && process.stdout.isTTY ? terminalAsk() : undefined,
): Promise<number> {
	try {
		if (options.kind !== "club") mend(run);
		const { dir, files } = await makers[options.kind](run, options, ask);
		makeFolder(dir);
		if (files.length > 0)
			makeChanges(
				dir,
				`new ${options.kind}`,
				files.map(({ text, ...file }) => ({ ...file, after: text })),
			);
		for (const { path } of files) {
			const file = join(dir, path);
			run.out.line(`wrote ${relative(process.cwd(), file) || file}`);
		}
		const isForEditors = options.kind === "club" || options.kind === "editor";
		if (isForEditors || hasEditorFiles(dir)) writeEditorFiles(dir, openHandbook(dir).handbook);
		if (isForEditors) run.out.line(`wrote ${relative(process.cwd(), join(dir, EDITOR_FOLDER))}, for editors`);
		if (options.kind === "host") for (const line of hostNext(hostKindOf(options))) run.out.line(line);
		if (options.kind === "club") {
			const [first] = files;
			const folder = first === undefined ? "" : relative(process.cwd(), resolve(options.folder ?? "")) || ".";
			run.out.line(
				isInstalled()
					? `Next, in ${folder}: npm install, then npm run check and npm run serve.`
					: `Next: npm run check -- --club ${folder}, then npm run serve -- --club ${folder}.`,
			);
		}
		return 0;
	} catch (error) {
		if (error instanceof Refused) run.out.line(error.message);
		else if (error instanceof FilesChanged) {
			run.out.line(`${error.paths.join(", ")} is there already. Nothing is written over.`);
		} else if (error instanceof Error && /^(Exit|Abort)PromptError$/.test(error.name)) {
			run.out.line("Nothing was written.");
		} else throw error;
		return 2;
	}
}

function hostKindOf({ folder }: NewOptions): HostKind {
	const kind = HOST_KINDS.find((one) => one === folder);
	if (kind !== undefined) return kind;
	const listed = HOST_KINDS.join(", ");
	throw new Refused(
		folder === undefined
			? `Say for which kind of host: new host, then one of ${listed}.`
			: `${folder} is none of the kinds of hosts: ${listed}.`,
	);
}

interface ToWrite {
	/** From the folder. */
	readonly path: string;
	readonly text: string;
	/** The text of a file that is there, and gets an entry more, all else in it unchanged. */
	readonly before?: string;
}

interface Written {
	/** The club's folder. */
	readonly dir: string;
	readonly files: readonly ToWrite[];
}

type Maker = (run: Run, options: NewOptions, ask: Ask | undefined) => Promise<Written>;

const makers: Readonly<Record<NewKind, Maker>> = {
	async drill({ clubDir, out }, options, ask) {
		const club = whatItHas(clubDir, out);
		const said = await answers(
			[
				{ flag: "title", question: "What is the drill called?", fault: untitled },
				club.some("apparatus", "Where is it done?"),
				club.some("levels", "Which levels is it for?"),
				club.any("shapes", "Which body shapes does it train?"),
				club.any("skills", "Which skills does it lead to?"),
				idField(club.ids("drill"), "drill"),
			],
			options,
			ask,
		);
		const id = idOf(said, club.ids("drill"), "drill", out);
		const [folder = ""] = listOf(said.apparatus);
		const text = drillText({
			title: said.title ?? "",
			apparatus: listOf(said.apparatus),
			levels: listOf(said.levels),
			shapes: listOf(said.shapes),
			skills: listOf(said.skills),
			schema: club.schema("drill", 3),
		});
		return { dir: clubDir, files: [{ path: drillPath(folder, id), text }] };
	},

	async week({ clubDir, out }, options, ask) {
		const club = whatItHas(clubDir, out);
		const planned = club.files.flatMap(({ kind, data }) =>
			kind === "week" ? [Number((data as { week?: unknown } | null)?.week)] : [],
		);
		const term = club.files.find(({ kind }) => kind === "term")?.data as
			| { weeks?: unknown }
			| null
			| undefined;
		const last = typeof term?.weeks === "number" ? term.weeks : 60;
		const next = String(Math.max(0, ...planned.filter(Number.isFinite)) + 1);
		const said = await answers(
			[
				{
					flag: "week",
					question: "Which week of the term?",
					usual: next,
					fault: (answer) => {
						const number = Number(answer);
						if (!Number.isInteger(number) || number < 1 || number > last)
							return `A week is a whole number from 1 to ${last}, as many as the term has.`;
						return planned.includes(number) ? `Week ${number} is planned already.` : undefined;
					},
				},
				{ flag: "theme", question: "What is the week about?", fault: untitled },
				club.some("apparatus", "Which apparatus are planned?"),
				idField(club.ids("week"), "week"),
			],
			options,
			ask,
		);
		const number = Number(said.week);
		const id = said.id ?? `week-${String(number).padStart(2, "0")}`;
		const drills = club.files.flatMap(({ kind, id: drill, data }) =>
			kind === "drill"
				? [{ id: drill, apparatus: listed((data as { apparatus?: unknown } | null)?.apparatus) }]
				: [],
		);
		const text = weekText({
			week: number,
			theme: said.theme ?? "",
			apparatus: listOf(said.apparatus).map((apparatus) => ({
				id: apparatus,
				drill: drills.find((drill) => drill.apparatus.includes(apparatus))?.id,
			})),
			schema: club.schema("week", 2),
		});
		return { dir: clubDir, files: [{ path: `content/weeks/${id}.md`, text }] };
	},

	async guide({ clubDir, out }, options, ask) {
		const club = whatItHas(clubDir, out);
		const said = await answers(
			[
				{ flag: "title", question: "What is the guide called?", fault: untitled },
				idField(club.ids("guide"), "guide"),
			],
			options,
			ask,
		);
		const id = idOf(said, club.ids("guide"), "guide", out);
		const text = guideText({ title: said.title ?? "", schema: club.schema("guide", 2) });
		return { dir: clubDir, files: [{ path: `content/guides/${id}.md`, text }] };
	},

	async skill({ clubDir, out }, options, ask) {
		const club = whatItHas(clubDir, out);
		const said = await answers(
			[
				{ flag: "title", question: "What is the skill called?", fault: untitled },
				club.any("apparatus", "Where is it done?"),
				club.any("levels", "Which levels learn it?"),
				idField(club.ids("skills"), "skill"),
			],
			options,
			ask,
		);
		const id = idOf(said, club.ids("skills"), "skill", out);
		const path = "_data/skills.yaml";
		const folder = openFolder(clubDir);
		const entry = skillEntry({
			id,
			name: said.title ?? "",
			apparatus: listOf(said.apparatus),
			levels: listOf(said.levels),
		});
		if (!folder.has(path)) {
			const used = club.used("skills").filter((skill) => skill !== id);
			if (used.length > 0) {
				throw new Refused(
					`There is no _data/skills.yaml yet, so the skills that drills name (${used.slice(0, 6).join(", ")}) stand for themselves. Make the file with an entry for each first; a list that leaves them out would be at fault.`,
				);
			}
			const text = `${club.modeline("skills", 1)}# Skills: what the drills lead to.\n${entry}`;
			return { dir: clubDir, files: [{ path, text }] };
		}
		const before = folder.readText(path);
		const text = `${before.replace(/\n*$/, "\n")}${entry}`;
		const read = parseYaml(text);
		if (!read.ok || !Array.isArray(read.data)) {
			throw new Refused("_data/skills.yaml is not a list that an entry can be added to. Run `check` first.");
		}
		return { dir: clubDir, files: [{ path, text, before }] };
	},

	async host({ clubDir, out }, options) {
		const kind = hostKindOf(options);
		const isWorkflow = kind === "pages" || kind === "clubs";
		if (isWorkflow && !openFolder(clubDir).has(PACKAGE_FILE)) {
			throw new Refused(
				`There is no ${PACKAGE_FILE} in this folder, from which a workflow would know which program to install. \`new club\` of an installed program writes one.`,
			);
		}
		const club =
			kind === "clubs" ? undefined : whatItHas(clubDir, out).files.find((one) => one.kind === "club");
		const { site } = (club?.data ?? {}) as { readonly site?: unknown };
		return { dir: clubDir, files: hostKindFiles(kind, site) };
	},

	async editor({ clubDir, out }) {
		whatItHas(clubDir, out);
		return { dir: clubDir, files: [] };
	},

	async club(_run, options, ask) {
		const said = await answers(
			[
				{
					flag: "folder",
					question: "Into which folder?",
					fault: (answer) => (answer.trim() === "" ? "A folder needs a name." : undefined),
				},
				{ flag: "name", question: "What is the club called?", fault: untitled },
				{
					flag: "levels",
					question: "Which levels has it, lowest first? (names with commas)",
					usual: "Beginners, Level 1, Level 2",
				},
				{
					flag: "apparatus",
					question: "Which apparatus? (names with commas)",
					usual: "Warm-up, Floor, Vault, Bars, Beam",
				},
				{
					flag: "starts",
					question: "On which Monday does the term start? (as 2027-01-04)",
					fault: notMonday,
				},
				{
					flag: "weeks",
					question: "How many teaching weeks has it?",
					usual: "10",
					fault: (answer) => (/^([1-9]|[1-5]\d|60)$/.test(answer) ? undefined : "A term has 1 to 60 weeks."),
				},
			],
			options,
			ask,
		);
		const folder = resolve(said.folder ?? "");
		const files = clubFolderFiles({
			name: said.name ?? "",
			levels: named(said.levels),
			apparatus: named(said.apparatus),
			starts: said.starts ?? "",
			weeks: Number(said.weeks),
		});
		const inTheWay = files.filter(({ path }) => givenKind(join(folder, path)) !== undefined);
		if (inTheWay.length > 0) {
			throw new Refused(
				`${basename(folder)} holds ${inTheWay
					.slice(0, 4)
					.map(({ path }) => path)
					.join(", ")} already. Nothing is written over: name an empty folder.`,
			);
		}
		return { dir: folder, files: [...files, ...packageOf(said.name ?? "", folder)] };
	},
};

/** How the folder says which version of this program it uses; a checkout has no version to name. */
function packageOf(club: string, folder: string): readonly ToWrite[] {
	if (!isInstalled()) return [];
	const there = givenKind(join(folder, PACKAGE_FILE)) === "file";
	const before = there ? openFolder(folder).readText(PACKAGE_FILE) : undefined;
	const text = clubPackage(club, folder, installedFrom(), before);
	return [{ path: PACKAGE_FILE, text, ...(before === undefined ? {} : { before }) }];
}

type Answers = Partial<Record<keyof NewOptions, string>>;

/** The answer to each field: from its flag, else asked for, else what is usual. All wrong flags are told, before anything is asked. */
async function answers(
	fields: readonly Field[],
	options: NewOptions,
	ask: Ask | undefined,
): Promise<Answers> {
	const faults = fields.flatMap((field): readonly string[] => {
		const given = options[field.flag]?.trim();
		const fault = given === undefined ? undefined : faultOf(field, given);
		return fault === undefined ? [] : [`${flagOf(field.flag)}: ${fault}`];
	});
	const missing = fields.filter(
		({ flag, usual, unasked }) =>
			options[flag] === undefined && ask === undefined && usual === undefined && unasked !== true,
	);
	if (missing.length > 0) {
		const list = missing.map(({ flag, question, choices = [] }) => {
			const some = choices.slice(0, 8).map(({ id }) => id);
			return `  ${flagOf(flag)}  ${question}${some.length > 0 ? ` One or more of: ${some.join(", ")}${choices.length > 8 ? " …" : ""}` : ""}`;
		});
		faults.push(`This is no terminal to ask on, and these are missing:`, ...list);
	}
	if (faults.length > 0) throw new Refused(faults.join("\n"));
	const said: Answers = {};
	for (const field of fields) {
		const { flag, question, choices = [], several = false, usual, unasked } = field;
		const given = options[flag]?.trim();
		if (given !== undefined) said[flag] = given;
		else if (unasked === true) continue;
		else if (ask !== undefined) {
			said[flag] = await ask({
				question,
				choices,
				several,
				usual,
				fault: (answer) => faultOf(field, answer),
			});
		} else if (usual !== undefined) said[flag] = usual;
	}
	return said;
}

function faultOf(field: Field, answer: string): string | undefined {
	return field.fault?.(answer) ?? unknownChoice(field, answer);
}

/** As it is typed: the folder of a new club has no flag. */
function flagOf(flag: keyof NewOptions): string {
	return flag === "folder" ? "<folder>" : `--${flag}`;
}

/** Where a club lists its things, an id that is not in the list is a slip. */
function unknownChoice({ choices = [], several }: Field, answer: string): string | undefined {
	if (several !== true || choices.length === 0) return undefined;
	const known = choices.map(({ id }) => id);
	const unknown = listOf(answer).filter((id) => !known.includes(id));
	if (unknown.length === 0) return undefined;
	return `${quoted(unknown)} ${unknown.length === 1 ? "is" : "are"} none of ${known.join(", ")}.`;
}

function quoted(ids: readonly Id[]): string {
	return ids.map((id) => `\`${id}\``).join(", ");
}

function untitled(answer: string): string | undefined {
	return idFrom(answer) === undefined ? "A name needs at least one letter or figure." : undefined;
}

function notIds(answer: string): string | undefined {
	return listOf(answer).length === 0 ? "At least one is needed." : notIdsOrNone(answer);
}

function notIdsOrNone(answer: string): string | undefined {
	const odd = listOf(answer).filter((id) => !ID_PATTERN.test(id));
	if (odd.length === 0) return undefined;
	return `${quoted(odd)} cannot be an id: lower-case letters and figures in words joined by hyphens.`;
}

function notMonday(answer: string): string | undefined {
	const date = new Date(`${answer}T00:00:00Z`);
	if (
		!/^\d{4}-\d\d-\d\d$/.test(answer) ||
		Number.isNaN(date.getTime()) ||
		!date.toISOString().startsWith(answer)
	) {
		return "Write the day as 2027-01-04.";
	}
	return date.getUTCDay() === 1 ? undefined : `${answer} is not a Monday.`;
}

function listOf(text: string | undefined): readonly Id[] {
	return [...new Set((text ?? "").split(/[,;\s]+/).filter((id) => id !== ""))];
}

function listed(value: unknown): readonly Id[] {
	return (Array.isArray(value) ? value : [value]).map(String);
}

/** Names to things with ids; two names that give one id are one thing. */
function named(text: string | undefined): readonly Choice[] {
	const things = (text ?? "").split(/[,;]/).flatMap((word) => {
		const id = idFrom(word);
		return id === undefined ? [] : [[id, word.trim()] as const];
	});
	if (things.length === 0) throw new Refused("At least one level and one apparatus are needed.");
	return Array.from(new Map(things), ([id, name]) => ({ id, name }));
}

/** The id that a flag may say. */
function idField(taken: ReadonlySet<Id>, what: string): Field {
	return {
		flag: "id",
		question: "",
		unasked: true,
		fault: (id) => {
			if (taken.has(id)) return `there is a ${what} \`${id}\` already.`;
			if (ID_PATTERN.test(id) && isPortable(id)) return undefined;
			const nearest = idFrom(id);
			return `\`${id}\` cannot be an id.${nearest === undefined ? "" : ` Did you mean \`${nearest}\`?`}`;
		},
	};
}

/** The id that was asked for, or one made from the title; a title that is taken gets a number, and that is told. */
function idOf({ id, title = "" }: Answers, taken: ReadonlySet<Id>, what: string, out: Run["out"]): Id {
	if (id !== undefined) return id;
	const wanted = idFrom(title) ?? what;
	let free = wanted;
	for (let n = 2; taken.has(free); n++) free = `${wanted}-${n}`;
	if (free !== wanted) out.line(`There is a ${what} \`${wanted}\` already; this one is \`${free}\`.`);
	return free;
}

/** What a club folder has, as far as it can be read. */
function whatItHas(clubDir: string, out: Run["out"]) {
	const { files, problems } = readClub(clubDir);
	const errors = problems.filter(({ severity }) => severity === "error");
	if (errors.length > 0) {
		reportProblems(errors, clubDir, out);
		throw new Refused("Mend this first, so that nothing is named twice.");
	}
	const list = (kind: FileKind): readonly Choice[] => {
		const data = files.find((file) => file.kind === kind)?.data;
		if (!Array.isArray(data)) return [];
		return (data as readonly { readonly id?: unknown; readonly name?: unknown }[]).map(({ id, name }) => ({
			id: String(id),
			name: String(name ?? id),
		}));
	};
	const schema = (kind: FileKind, depth: number): string | undefined =>
		hasEditorFiles(clubDir) ? `${"../".repeat(depth)}${EDITOR_SCHEMAS}/${kind}.schema.json` : undefined;
	const several = (flag: KindOfFlag, question: string) => ({
		flag,
		question,
		choices: list(flag),
		several: true,
	});
	return {
		files: files as readonly WrittenFile[],
		/** The field for things of a kind, of which one is needed at least; and for those that may be left out. */
		some: (flag: KindOfFlag, question: string): Field => ({ ...several(flag, question), fault: notIds }),
		any: (flag: KindOfFlag, question: string): Field => ({
			...several(flag, question),
			fault: notIdsOrNone,
			usual: "",
		}),
		ids: (kind: FileKind): ReadonlySet<Id> =>
			new Set(
				kind === "skills"
					? list("skills").map(({ id }) => id)
					: files.filter((file) => file.kind === kind).map(({ id }) => id),
			),
		/** Ids that drills use of a kind. */
		used: (field: string): readonly Id[] => [
			...new Set(
				files.flatMap(({ kind, data }) => {
					const value =
						kind === "drill" ? (data as Readonly<Record<string, unknown>> | null)?.[field] : undefined;
					return value === undefined ? [] : listed(value);
				}),
			),
		],
		schema,
		modeline: (kind: FileKind, depth: number): string => {
			const path = schema(kind, depth);
			return path === undefined ? "" : `# yaml-language-server: $schema=${path}\n`;
		},
	};
}
