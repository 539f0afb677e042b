/**
 * The desk's own API: what its page asks for, and what it is answered. All routes stand under
 * `/desk/api/`, speak JSON, and are open to the page of this start alone (desk-server.ts).
 *
 *   GET  state              everything: plan, findings, problems, drafts, what undo and redo would do
 *   GET  drills             the drills, to search
 *   GET  things?kind=       what there is of a kind, and where it is written
 *   GET  file?path=         a file: text, data, problems, and the draft of it
 *   GET  form?kind=         the fields of a form, from the schema
 *   GET  events             news, as server-sent events: files that changed, tasks
 *   POST plan               changes of the plan, as a change list has them → what came of them
 *   POST try                the same without writing
 *   POST weeks, new-week    a week moved, two swapped; a week planned, from nothing or like another
 *   POST undo, redo         the last change of the folder taken back, by whatever command; made again
 *   POST mends              the changes that are sure to mend a finding
 *   POST accept             a finding let stand, with its reason
 *   POST solve              the fewest changes that mend a week, found by the solver; told by events
 *   POST since              what is other now than in the last edition, and which editions are printed
 *   POST check              a text, or data written into one → text, data, problems; nothing is kept
 *   POST draft, drop-draft  what is typed, kept on this machine
 *   POST save               a file saved, if it is still what the form was opened with
 *   POST name               an id and a file for something new
 *   POST rename, replace, retire   an id everywhere; a drill by another wherever it is planned; a thing gone
 *   POST merge, taught      a drill into another; what coaches reported; try-merge and try-taught write nothing
 *   POST picture?name=      a picture, as bytes, into content/media
 *   POST run, stop          build or print, all, sheets, or changed leaves, told by events; a task stopped
 *
 * A change answers 200 with its outcome; 409 where it was not made, with the reason and what would be wrong.
 */

import { join, relative, resolve, sep } from "node:path";
import type {
	FileText,
	Offer,
	Outcome,
	PrintedEdition,
	Refusal,
	SinceEdition,
	TaskNews,
} from "../../layouts/desk/api.ts";
import { mendOf } from "../compute/mend.ts";
import { accept } from "../edit/accept.ts";
import { changeClub } from "../edit/change-club.ts";
import { changeTexts } from "../edit/change-texts.ts";
import { type ClubTexts, idOf, kindOf } from "../edit/club-texts.ts";
import { EditRefused, weekPath } from "../edit/move-block.ts";
import { moveWeek } from "../edit/move-week.ts";
import { renameIds } from "../edit/rename-ids.ts";
import { dataIn, freshText, writeData } from "../edit/write-data.ts";
import { openFolder } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
import { sha256 } from "../files/hash.ts";
import { type Curriculum, type FileKind, type Finding, isPageKind, type PlanChange } from "../model.ts";
import { readEdition } from "../print/edition.ts";
import { editionFile } from "../print/edition-file.ts";
import { MEDIA_FOLDER, readClub } from "../read/read-club.ts";
import { idFrom } from "../validate/judge-data.ts";
import { isPortable, SCHEMAS } from "../validate/schemas.ts";
import { SHEET_FILES } from "../views/addresses.ts";
import { changeWords } from "./change-words.ts";
import { type Desk, isWeek, Refused } from "./desk.ts";
import { dropDraft, keepDraft } from "./drafts.ts";
import { keyedFindings } from "./finding-lines.ts";
import { formOf } from "./form-fields.ts";
import { problemLine } from "./problem-lines.ts";
import { judged, type Requests } from "./requests.ts";
import { takeTaught } from "./take-taught.ts";
import { Tasks } from "./tasks.ts";
import { drillLines, fileText, isListed, parts, problemsWith, thingsOf } from "./things.ts";

export interface Reply {
	readonly status: 200 | 400 | 403 | 404 | 409;
	readonly body: unknown;
}

/** Seconds that the solver is given. */
const SOLVE_SECONDS = 30;

const PICTURE = /^[a-z0-9]+(-[a-z0-9]+)*\.(jpe?g|png|webp|avif|gif)$/;

export class DeskApi {
	readonly #desk: Desk;
	readonly #outDir: string;
	readonly tasks: Tasks;

	constructor(desk: Desk, outDir: string, tell: (task: TaskNews) => void) {
		this.#desk = desk;
		this.#outDir = outDir;
		this.tasks = new Tasks(tell);
	}

	get(route: string, query: URLSearchParams): Reply | undefined {
		const desk = this.#desk;
		const kind = query.get("kind") as FileKind;
		switch (route) {
			case "state":
				return ok(desk.state());
			case "drills":
				return ok(desk.plan === undefined ? [] : drillLines(desk.plan));
			case "things":
				return SCHEMAS.has(kind) ? ok(thingsOf(desk, kind)) : wrong("No such kind.");
			case "form":
				return SCHEMAS.has(kind) ? ok(formOf(kind, desk.words)) : wrong("No such kind.");
			case "file": {
				const asked = judged("drop-draft", { path: query.get("path") });
				return "fault" in asked ? wrong(asked.fault) : ok(fileText(desk, asked.request.path));
			}
			case "tasks":
				return ok(this.tasks.last);
			default:
				return undefined;
		}
	}

	async post(route: string, sent: unknown): Promise<Reply | undefined> {
		const routes: Readonly<Record<string, Handler>> = this.#routes;
		const handler = Object.hasOwn(routes, route) ? routes[route] : undefined;
		if (handler === undefined) return undefined;
		const asked = judged(handler.judge, sent);
		if ("fault" in asked) return wrong(asked.fault);
		try {
			return ok(await handler.answer(asked.request as never));
		} catch (error) {
			if (error instanceof Refused) return { status: 409, body: error.refusal };
			if (error instanceof EditRefused)
				return { status: 409, body: { refused: "wrong", words: error.message } satisfies Refusal };
			throw error;
		}
	}

	/** A picture into the club's media folder. */
	picture(name: string, bytes: Uint8Array): Reply {
		if (this.#desk.readOnly) return { status: 403, body: { refused: "read-only", words: "" } };
		if (!PICTURE.test(name)) return wrong("A picture is named by lower-case words and .jpg, .png or .webp.");
		const club = openFolder(this.#desk.clubDir);
		const [, stem = "", ending = ""] = /^(.*)(\.[a-z]+)$/.exec(name) ?? [];
		let free = name;
		for (let n = 2; club.has(`${MEDIA_FOLDER}/${free}`); n++) {
			if (sha256(club.read(`${MEDIA_FOLDER}/${free}`)) === sha256(bytes)) return ok({ file: free });
			free = `${stem}-${n}${ending}`;
		}
		club.makeFolder(MEDIA_FOLDER);
		club.writeNew(`${MEDIA_FOLDER}/${free}`, bytes);
		return ok({ file: free });
	}

	readonly #routes = {
		plan: route("plan", (wish) => this.#plan(wish)),
		try: route("try", ({ changes }) => this.#desk.tryChange((texts) => changeTexts(texts, changes), isWeek)),
		weeks: route("weeks", ({ what, revision, from, to, swap }) =>
			this.#desk.change(what, revision, (texts) => moveWeek(texts, from, to, swap)),
		),
		"new-week": route("new-week", (wish) => this.#newWeek(wish)),
		undo: route("none", () => this.#desk.undo()),
		redo: route("none", () => this.#desk.redo()),
		mends: route("mends", ({ key }) => this.#mends(key)),
		accept: route("accept", (wish) => this.#accept(wish)),
		solve: route("solve", ({ week }) => this.#solve(week)),
		check: route("check", (wish) => this.#check(wish)),
		save: route("save", (wish) => this.#save(wish)),
		name: route("name", (wish) => this.#name(wish)),
		draft: route("draft", ({ path, base, text }) => {
			this.#desk.mayWrite();
			keepDraft(this.#desk.clubDir, { path, base, text, at: new Date().toISOString() });
			return {};
		}),
		"drop-draft": route("drop-draft", ({ path }) => {
			if (!this.#desk.readOnly) dropDraft(this.#desk.clubDir, path);
			return {};
		}),
		rename: route("rename", ({ kind, from, to, what }) =>
			this.#desk.change(what, undefined, (texts) => renameIds(texts, [{ kind, from, to }])),
		),
		replace: route("replace", (wish) => this.#replace(wish)),
		"try-merge": route("try-merge", (wish) => this.#desk.tryChange((texts) => merged(texts, wish))),
		merge: route("merge", ({ what, revision, ...wish }) =>
			this.#desk.change(what, revision, (texts) => merged(texts, wish)),
		),
		"try-taught": route("try-taught", ({ texts }) =>
			takeTaught(this.#soundCurriculum(), texts, (edit) => this.#desk.tryChange(edit)),
		),
		taught: route(
			"taught",
			({ texts, what, revision }) =>
				takeTaught(this.#soundCurriculum(), texts, (edit) => this.#desk.change(what, revision, edit)).outcome,
		),
		retire: route("retire", (wish) => this.#retire(wish)),
		since: route("none", async (): Promise<SinceEdition> => {
			const view = this.#desk.sinceEdition();
			const printed = await printedEditions(this.#outDir);
			return { ...(view === undefined ? {} : { view }), printed };
		}),
		run: route("run", (wish) => this.#run(wish)),
		stop: route("stop", ({ task }) => {
			this.tasks.stop(task);
			return {};
		}),
	};

	#plan({ changes, what, revision }: Requests["plan"]): Outcome {
		return this.#desk.change(what, revision, (texts) => changeTexts(texts, changes), isWeek);
	}

	#newWeek({ what, revision, week, theme, areas, like }: Requests["new-week"]): Outcome {
		const path = `content/weeks/week-${String(week).padStart(2, "0")}.md`;
		return this.#desk.change(
			what,
			revision,
			(texts) => {
				if (texts.has(path)) throw new EditRefused(`${path} is there already.`);
				const model = like === undefined ? undefined : weekPath(texts, like);
				if (model !== undefined) {
					const text = texts.get(model) ?? "";
					const data = dataIn(model, text) as Readonly<Record<string, unknown>>;
					return new Map(texts).set(path, writeData(model, text, { ...data, week, theme }));
				}
				const apparatus = Object.fromEntries((areas ?? []).map((area) => [area, { blocks: [] }]));
				return new Map(texts).set(path, freshText(path, { week, theme, apparatus }));
			},
			isWeek,
		);
	}

	#finding(key: string): Finding | undefined {
		return keyedFindings(this.#desk.plan?.findings ?? []).find(([own]) => own === key)?.[1];
	}

	/** What is sure to mend a finding. */
	#mends(key: string): Pick<Offer, "changes" | "words"> {
		const { plan } = this.#desk;
		const found = this.#finding(key);
		if (plan === undefined || found === undefined) return { changes: [], words: [] };
		const changes = mendOf(plan, found);
		return { changes, words: changes.map((change) => changeWords(plan, change)) };
	}

	#accept({ key, reason, until, what, revision }: Requests["accept"]): Outcome {
		const found = this.#finding(key);
		if (found === undefined) throw new EditRefused(this.#desk.words.desk.noSuchFinding);
		return this.#desk.change(
			what,
			revision,
			(texts) => accept(texts, { finding: found.code, about: found.about, reason, until }),
			(path) => kindOf(path) === "accepted",
		);
	}

	#solve(week: number): object {
		if (this.tasks.isRunning("solve"))
			throw new Refused({ refused: "busy", words: this.#desk.words.desk.busy });
		const { revision } = this.#desk;
		const args = ["mend", "--club", this.#desk.clubDir, "--week", String(week), "--json"];
		this.tasks.start("solve", [...args, "--time-limit", String(SOLVE_SECONDS)], (printed) => ({
			offer: this.#offer(printed, revision),
		}));
		return {};
	}

	#offer(printed: string, revision: string): Offer {
		const answer = JSON.parse(printed) as { readonly plans?: readonly [SolvedPlan?] };
		const plan = answer.plans?.[0];
		const handbook = this.#desk.plan;
		const { changes = [], status = "stopped", proof = "none" } = plan ?? {};
		if (handbook === undefined || changes.length === 0 || revision !== this.#desk.revision)
			return { changes: [], words: [], outcome: { come: [], gone: [], weeks: [] }, proof: "" };
		const { come, gone, state } = this.#desk.tryChange((texts) => changeTexts(texts, changes), isWeek);
		const say = this.#desk.words.desk;
		return {
			changes,
			words: changes.map((change) => changeWords(handbook, change)),
			outcome: { come, gone, weeks: state.weeks ?? [] },
			proof: status === "best" && proof === "all" ? say.proved : say.notProved,
		};
	}

	#check({ path, before = "", text, data, body }: Requests["check"]): Omit<FileText, "hash"> {
		const written =
			text ??
			(before.trim() === "" ? freshText(path, data, body ?? "") : writeData(path, before, data, body));
		return { path, problems: problemsWith(this.#desk, path, written), ...parts(path, written) };
	}

	#save({ path, base, text, what }: Requests["save"]): Outcome {
		const club = openFolder(this.#desk.clubDir);
		const theirs = club.info(path)?.kind === "file" ? club.readText(path) : undefined;
		const hash = theirs === undefined ? null : sha256(theirs);
		if (hash !== base) {
			throw new Refused({
				refused: "conflict",
				words: this.#desk.words.desk.changedMeanwhile(path),
				theirs: theirs ?? "",
				mine: text,
				...(hash === null ? {} : { hash }),
			});
		}
		const outcome = this.#desk.change(
			what,
			undefined,
			(texts) => new Map(texts).set(path, text),
			(own) => own === path,
		);
		dropDraft(this.#desk.clubDir, path);
		return { ...outcome, state: { ...outcome.state, drafts: this.#desk.state().drafts } };
	}

	/** An id that nothing has, and the file in which it is written. */
	#name({ kind, name, area }: Requests["name"]): { readonly id: string; readonly path: string } {
		const wanted = idFrom(name) ?? `${kind}-1`;
		const taken = new Set(thingsOf(this.#desk, kind).map(({ id }) => id));
		let id = wanted;
		for (let n = 2; taken.has(id); n++) id = `${wanted}-${n}`;
		if (kind === "drill") {
			const folder = area !== undefined && isPortable(area) ? `${area}/` : "";
			return { id, path: `content/drills/${folder}${id}.md` };
		}
		if (isPageKind(kind)) return { id, path: `content/${kind}s/${id}.md` };
		const file = readClub(this.#desk.clubDir, this.#desk.cache).files.find((one) => one.kind === kind);
		return { id, path: file?.file ?? `_data/${kind}.yaml` };
	}

	/** Another drill at every station where one is planned. */
	#replace({ drill, by, what, revision }: Requests["replace"]): Outcome {
		const handbook = this.#desk.plan;
		const changes = (handbook?.curriculum.weeks ?? []).flatMap(({ week, apparatus }) =>
			apparatus.flatMap((plan) =>
				plan.blocks.flatMap(({ number, kind, stations }): readonly PlanChange[] =>
					stations.flatMap((station, i) => {
						if (station.drill !== drill) return [];
						const block = `${week}/${plan.apparatus}/${number}`;
						return [{ swap: { block, drill: by, ...(kind === "drill" ? {} : { station: i + 1 }) } }];
					}),
				),
			),
		);
		if (changes.length === 0) throw new EditRefused(this.#desk.words.desk.notPlanned);
		return this.#plan({ changes, what, revision });
	}

	/** A page with its file; an entry out of its list. */
	#retire({ path, index, what }: Requests["retire"]): Outcome {
		const kind = kindOf(path);
		return this.#desk.change(
			what,
			undefined,
			(texts) => {
				const text = texts.get(path);
				if (text === undefined || kind === undefined) throw new EditRefused(`${path} is not there.`);
				const rest = new Map(texts);
				if (!isListed(kind)) {
					rest.delete(path);
					return rest;
				}
				const list = dataIn(path, text);
				if (!Array.isArray(list) || index === undefined || index >= list.length)
					throw new EditRefused(`${idOf(path)} has no such entry.`);
				return rest.set(path, writeData(path, text, list.toSpliced(index, 1)));
			},
			(own) => own === path,
		);
	}

	/** What the club is, where no file has errors: a report of what is only left out would be lost. */
	#soundCurriculum(): Curriculum {
		const { plan, problems, words } = this.#desk;
		const errors = problems.filter(({ severity }) => severity === "error").map(problemLine);
		if (plan !== undefined && errors.length === 0) return plan.curriculum;
		throw new Refused({ refused: "errors", words: words.desk.mendFirst, problems: errors });
	}

	#run(wish: Requests["run"]): object {
		this.#desk.mayWrite();
		if (PRINTING.some((task) => this.tasks.isRunning(task)))
			throw new Refused({ refused: "busy", words: this.#desk.words.desk.busy });
		const folders = ["--club", this.#desk.clubDir, "--out", this.#outDir];
		this.tasks.start(wish.task, [...commandOf(wish, this.#outDir), ...folders], (said) => ({
			printed: printedIn(said, this.#outDir),
		}));
		return {};
	}

	/** A printed file of the output, by its path there; undefined for anything else. */
	printed(path: string): Uint8Array | undefined {
		if (!/^print\/.+\.pdf$/.test(path) || givenKind(this.#outDir) !== "folder") return undefined;
		const out = openFolder(this.#outDir);
		return !out.leadsOut(path) && out.info(path)?.kind === "file" ? out.read(path) : undefined;
	}
}

/** The printed files that a command said it wrote, from the output. */
function printedIn(said: string, outDir: string): readonly string[] {
	const paths = Array.from(said.matchAll(/^wrote (.+\.pdf)(?:,.*)?$/gm), ([, path = ""]) => path);
	return paths.map((path) => relative(outDir, resolve(path)).replaceAll(sep, "/"));
}

/** Tasks that write into the output: one at a time. */
const PRINTING = ["build", "print", "packet", "sheets"] as const;

function commandOf(wish: Requests["run"], outDir: string): readonly string[] {
	switch (wish.task) {
		case "build":
			return ["build", "--no-print"];
		case "print":
			return ["build"];
		case "packet":
			return ["print", "update-packet", "--since", join(outDir, wish.since)];
		default: {
			const { sheets, week, class: group } = wish;
			return [
				...["print", sheets],
				...(week === undefined ? [] : ["--week", String(week)]),
				...(group === undefined ? [] : ["--class", group]),
			];
		}
	}
}

/** A drill named by another wherever it is named, and its file gone: as a change list has it. */
function merged(texts: ClubTexts, { drill, into }: Requests["try-merge"]): ClubTexts {
	return changeClub(texts, JSON.stringify([{ merge: { drill, into } }]));
}

/** Printed editions in an output, the newest first. */
async function printedEditions(outDir: string): Promise<readonly PrintedEdition[]> {
	if (givenKind(outDir) !== "folder") return [];
	const out = openFolder(outDir);
	const found = EDITIONS.flatMap(([of, file]) => {
		const info = out.info(file);
		return info?.kind === "file" ? [{ of, file, at: info.mtimeMs }] : [];
	});
	const read = found.map(async ({ of, file, at }) => {
		const { edition, issues } = await readEdition(out.place(file));
		return { of, file, at, words: issues.find(({ id }) => id === edition)?.words ?? edition };
	});
	const all = (await Promise.allSettled(read)).flatMap((one) =>
		one.status === "fulfilled" ? [one.value] : [],
	);
	return all.sort((a, b) => b.at - a.at).map(({ of, file, words }) => ({ of, file, words }));
}

const EDITIONS = [
	["binder", editionFile(SHEET_FILES.binder())],
	["packet", editionFile("print/update-packet.pdf")],
] as const;

interface SolvedPlan {
	readonly changes: readonly PlanChange[];
	readonly status: string;
	readonly proof: string;
}

/** A request, and what is answered to it. */
interface Handler {
	readonly judge: keyof Requests;
	readonly answer: (wish: never) => unknown;
}

function route<Name extends keyof Requests>(judge: Name, answer: (wish: Requests[Name]) => unknown) {
	return { judge, answer };
}

function ok(body: unknown): Reply {
	return { status: 200, body };
}

function wrong(words: string): Reply {
	return { status: 400, body: { refused: "wrong", words } satisfies Refusal };
}
