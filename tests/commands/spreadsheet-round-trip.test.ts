/**
 * import(export(club)) = club: for random clubs full of awkward texts, through CSV and through XLSX,
 * and for the demo club through the commands.
 *
 * Equal means equal records: what the measures, the pages and the binder are made from.
 */

import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it, onTestFinished } from "vitest";
import { exportCommand } from "../../scripts/commands/export.ts";
import { importCommand } from "../../scripts/commands/import.ts";
import type { Run } from "../../scripts/commands/run.ts";
import { clubSheets, type WrittenFile } from "../../scripts/commands/spreadsheet/club-sheets.ts";
import { COLUMNS } from "../../scripts/commands/spreadsheet/columns.ts";
import { readClubSheets } from "../../scripts/commands/spreadsheet/read-club-sheets.ts";
import { readSheets } from "../../scripts/commands/spreadsheet/read-sheets.ts";
import { csvOf, workbookOf } from "../../scripts/commands/spreadsheet/write-sheets.ts";
import { clubFileText } from "../../scripts/commands/write-club-file.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import type { SourceFile } from "../../scripts/model.ts";
import { parseYaml } from "../../scripts/read/parse-yaml.ts";
import { splitPage } from "../../scripts/read/split-page.ts";
import {
	acceptedFrom,
	clubFrom,
	drillFrom,
	entriesFrom,
	guideFrom,
	targetsFrom,
	termFrom,
	weekFrom,
	wordsFrom,
} from "../../scripts/validate/build-records.ts";
import { SCHEMAS, validatorOf } from "../../scripts/validate/schemas.ts";
import { REPOSITORY } from "../open-fixture.ts";

const LEVELS = ["beginners", "level-1", "level-2"];
const LANDMARK = fc.constantFrom("knee", "hip", "reach");
const APPARATUS = ["floor", "beam", "low-bar"];
const SHAPES = ["hollow", "arch"];
const SKILLS = ["roll", "jump"];
const EQUIPMENT = ["mat", "beanbag", "7"];
const PURPOSES = ["strength", "game"];

/** Texts that spreadsheets, CSV and YAML each have a way to spoil. */
const text = fc
	.oneof(
		fc.constantFrom(
			"=1+1",
			"'=1+1",
			"''@sum",
			"+44",
			"-5",
			"@home",
			"'tis",
			'"quoted"',
			"[not data]",
			"{a: b}",
			'["looks like data"]',
			"a; b, c | d",
			"one\ntwo",
			"- dash first",
			"1. first",
			"true",
			"null",
			"007",
			"1e5",
			"12",
			"2027-01-04",
			"16:30",
			"43000",
			"é – “quotes” … 漢字 🤸",
			"hard\u00a0space",
			"tab\there",
			"sep=;",
			"see | say",
			"a -> b",
			"# not a comment",
			"colon: here",
			"trailing ",
			" leading",
			"_x000D_",
			"once misread: \ufffd",
			"<b>&amp;</b>",
			"100%",
			"3 x 4",
			"8 min",
			"10's hold",
		),
		fc.string({ minLength: 1, maxLength: 30, unit: "grapheme" }),
	)
	// What a club folder cannot hold in the first place: empty texts, control characters.
	.filter((t) => /\S/.test(t) && !/[\p{Cc}\p{Cs}\p{Cn}]/u.test(t.replace(/[\n\t]/g, "")));

const ids = (from: readonly string[], minLength = 0) => fc.subarray([...from], { minLength });
const whole = fc.integer({ min: 0, max: 40 });
const amount = fc.constantFrom(0, 0.5, 1, 2.25, 30);
const list = <T>(of: fc.Arbitrary<T>) => fc.array(of, { minLength: 1, maxLength: 3 });
const optional = <T>(required: readonly string[], fields: { [K in keyof T]: fc.Arbitrary<T[K]> }) =>
	fc.record(fields, { requiredKeys: required as (keyof T)[] });

const needs = ids(EQUIPMENT, 1).chain((items) =>
	fc
		.tuple(
			...items.map(() =>
				fc.oneof(whole, fc.record({ count: whole, per: fc.constantFrom("station", "gymnast") })),
			),
		)
		.map((list) => Object.fromEntries(items.map((item, i) => [item, list[i] ?? 1]))),
);
const heights = fc.dictionary(text, fc.constantFrom("knee", "hip", "reach"), {
	minKeys: 1,
	maxKeys: 2,
	noNullPrototype: true,
});
const turn = optional(["seconds"], {
	seconds: fc.integer({ min: 1, max: 90 }),
	"at-once": fc.integer({ min: 1, max: 9 }),
	reps: fc.integer({ min: 1, max: 9 }),
});
const contacts = optional(["landings"], { landings: amount, hands: amount });
const sequence = list(
	fc.oneof(
		fc.constantFrom(...SHAPES),
		fc.constant({ shape: "arch", on: "mat", tilt: -90, angles: { hip: 90, left: { knee: 40 } } }),
	),
);
/** What a level may say in place of the drill. */
const manner = {
	sets: whole,
	reps: whole,
	hold: amount,
	"hold-of": fc.constantFrom("rep", "set", "last"),
	turn,
	contacts,
	equipment: needs,
	heights,
	sequence,
	spotting: text,
	caution: text,
	spotters: fc.integer({ min: 0, max: 3 }),
	watch: fc.boolean(),
	easier: list(text),
	harder: list(text),
	run: amount,
	"run-out": amount,
};
const dose = fc.oneof(
	optional([], { do: text, sets: whole, reps: whole, hold: amount }),
	optional([], { do: text, ...manner }),
);

const drillData = optional(["title", "apparatus", "levels"], {
	title: text.filter((t) => !t.includes("\n")),
	apparatus: fc.oneof(fc.constantFrom(...APPARATUS), ids(APPARATUS, 1)),
	levels: fc.oneof(
		ids(LEVELS, 1),
		ids(LEVELS, 1).chain((levels) =>
			fc
				.tuple(...levels.map(() => fc.option(dose)))
				.map((doses) => Object.fromEntries(levels.map((level, i) => [level, doses[i] ?? null]))),
		),
	),
	summary: text,
	aliases: list(text),
	shapes: ids(SHAPES),
	skills: ids(SKILLS),
	...manner,
	performs: ids(SKILLS),
	elements: list(
		fc.oneof(
			fc.record({
				skill: fc.constantFrom(...SKILLS),
				count: fc.integer({ min: 1, max: 4 }),
				turn: fc.constant("half"),
			}),
			fc.record({ text }),
		),
	),
	ready: list(
		fc.oneof(
			fc.record({ skill: fc.constantFrom(...SKILLS), reps: fc.constantFrom(1, 12) }),
			fc.record({ drill: fc.constant("d0"), reps: fc.constantFrom(1, 12) }),
			text,
		),
	),
	purpose: ids(PURPOSES),
	after: ids(["d0", "d1"]),
	direction: fc.constantFrom("forward", "backward", "sideways", "none"),
	partner: fc.constant("d1"),
	sides: fc.constantFrom("both", "each", "lead"),
	heights: fc.dictionary(
		text,
		fc.oneof(
			LANDMARK,
			fc.dictionary(fc.constantFrom(...LEVELS), LANDMARK, { minKeys: 1, noNullPrototype: true }),
		),
		{ minKeys: 1, maxKeys: 2, noNullPrototype: true },
	),
	cues: list(text),
	faults: list(fc.record({ see: text, say: text })),
	media: list(optional(["file", "alt"], { file: text, alt: text, caption: text, poster: text })),
	reviewed: fc.constantFrom("2026-09-14", "2024-02-29"),
});

const numbers = optional([], { sets: whole, reps: whole, hold: amount }).filter(
	(one) => Object.keys(one).length > 0,
);
const common = {
	minutes: amount,
	show: amount,
	levels: fc.oneof(fc.constantFrom(...LEVELS), ids(LEVELS, 1)),
	note: text,
	session: fc.oneof(fc.integer({ min: 1, max: 3 }), fc.constantFrom([1], [2, 3])),
	dose: fc.oneof(numbers, fc.record({ beginners: numbers, "level-1": numbers })),
};
const block = (drills: readonly string[]) =>
	fc.oneof(
		optional(["drill", "minutes"], { drill: fc.constantFrom(...drills), ...common }),
		optional(["options", "minutes"], {
			options: fc.array(optional(["drill"], { drill: fc.constantFrom(...drills), note: text }), {
				minLength: 2,
				maxLength: 3,
			}),
			choose: fc.integer({ min: 1, max: 2 }),
			...common,
		}),
		optional(["stations", "minutes"], {
			stations: list(
				optional(["drill"], {
					drill: fc.constantFrom(...drills),
					note: text,
					at: fc.oneof(fc.tuple(amount, amount), text),
				}),
			),
			change: amount,
			...common,
		}),
	);

const DRILLS = ["d0", "d1", "d2"];

const body = fc.oneof(
	fc.constant(""),
	fc.constantFrom("Words.\n", "- a\n- b\n", "no line end", "\n\nspace\n\n", "    code\n", "=SUM(A1)\n"),
	text.map((t) => `${t}\n`),
);

const file = (
	kind: WrittenFile["kind"],
	id: string,
	data: fc.Arbitrary<unknown>,
	words: fc.Arbitrary<string> = fc.constant(""),
) => fc.record({ kind: fc.constant(kind), id: fc.constant(id), data, body: words });

const named = (all: readonly string[], more: Readonly<Record<string, fc.Arbitrary<unknown>>>) =>
	fc.tuple(
		...all.map((id) =>
			fc.record({ id: fc.constant(id), name: text, ...more }, { requiredKeys: ["id", "name"] as never[] }),
		),
	);

const club: fc.Arbitrary<readonly WrittenFile[]> = fc.tuple(
	file("levels", "levels", named(LEVELS, { description: text, order: whole, entry: ids([...SKILLS, "d0"]) })),
	file(
		"apparatus",
		"apparatus",
		named(APPARATUS, {
			plan: fc.constant([12, 8.5]),
			groups: fc.integer({ min: 1, max: 3 }),
			walls: fc.constant(["end", "left"]),
			landmarks: fc.tuple(fc.record({ name: text, at: fc.constant([2, 3.5]) })),
		}),
	),
	file(
		"shapes",
		"shapes",
		named(SHAPES, {
			aliases: list(text),
			angles: fc.constantFrom({ hip: 90, trunk: -10 }, { shoulder: 0, right: { knee: 90 } }),
			tilt: fc.constantFrom(-90, 0),
			view: fc.constant("front"),
			base: fc.constant("hands-and-feet"),
		}),
	),
	file(
		"skills",
		"skills",
		named(SKILLS, {
			needs: fc.constant(["roll"]),
			pattern: fc.constant("landing"),
			levels: ids(LEVELS, 1),
			opposite: fc.constant("jump"),
			direction: fc.constant("forward"),
			criteria: list(text),
		}),
	),
	file(
		"equipment",
		"equipment",
		named(EQUIPMENT, {
			owned: whole,
			stored: text,
			size: fc.constant([2, 1.5]),
			height: amount,
			range: fc.constant([90, 170]),
			step: fc.constant(2.5),
			thickness: amount,
			adults: fc.integer({ min: 0, max: 4 }),
		}),
	),
	file(
		"club",
		"club",
		fc.record({ name: text, format: fc.constant(1), paper: fc.constant("A4"), emergency: text }),
	),
	file(
		"term",
		"term",
		fc.record({
			name: text,
			starts: fc.constant("2027-01-04"),
			weeks: fc.constant(6),
			closed: fc.constant(["2027-02-15/2027-02-19", "2027-03-01"]),
			between: amount,
			classes: fc.tuple(
				fc.record({
					id: fc.constant("mon"),
					name: text,
					level: ids(LEVELS, 1),
					start: fc.constant("16:30"),
					ages: fc.constant([5, 7]),
					rotation: ids(APPARATUS, 1),
					between: amount,
					"same-as": fc.constant("tue"),
					groups: fc.constant([
						{ id: "red", level: "beginners", gymnasts: 7, coaches: 1, rotation: ["floor", "beam"] },
						{ id: "blue", gymnasts: 5 },
					]),
				}),
			),
		}),
	),
	file(
		"targets",
		"targets",
		fc.record({
			"active-share": fc.constant(0.5),
			"pair-directions": fc.boolean(),
			"skill-reps": whole,
			ratio: fc.constant({ "4-8": 6, "9-12": 8 }),
			landings: amount,
			"new-drills": whole,
			"arrives-with": fc.integer({ min: 1, max: 10 }).map((tenths) => tenths / 10),
		}),
	),
	file("purposes", "purposes", named(PURPOSES, { aliases: list(text), order: whole })),
	file(
		"accepted",
		"accepted",
		list(
			optional(["finding", "reason"], {
				finding: fc.constantFrom("H309", "H331"),
				about: fc.constantFrom({ week: 3 }, { class: "mon", group: "mon/red", drill: "d0", skill: "roll" }),
				reason: text,
				until: fc.constant("2027-03-19"),
			}),
		),
	),
	file("words", "words", list(optional(["say", "not"], { say: text, not: list(text), note: text }))),
	...DRILLS.map((id) => file("drill", id, drillData, body)),
	...[1, 3].map((number) =>
		file(
			"week",
			`week-${number}`,
			fc.record({
				week: fc.constant(number),
				theme: text,
				apparatus: ids(APPARATUS).chain((apparatus) =>
					fc
						.tuple(
							...apparatus.map(() =>
								optional(["blocks"], { focus: text, blocks: fc.array(block(DRILLS), { maxLength: 3 }) }),
							),
						)
						.map((plans) => Object.fromEntries(apparatus.map((id, i) => [id, plans[i]]))),
				),
			}),
			body,
		),
	),
	file("guide", "house-rules", optional(["title"], { title: text, order: whole }), body),
);

describe("import(export(club)) = club", () => {
	it("through CSV, for random clubs", async () => {
		await fc.assert(
			fc.asyncProperty(club, async (files) => {
				expectSound(files);
				const sheets = clubSheets(files).map((sheet) => ({
					name: `${sheet.title.toLowerCase()}.csv`,
					bytes: Buffer.from(csvOf(sheet)),
				}));
				const read = await Promise.all(sheets.map(({ name, bytes }) => readSheets(name, bytes)));
				expectSame(files, readClubSheets(read.flat(), []));
			}),
			{ numRuns: 60, endOnFailure: true },
		);
	});

	it("through one workbook, for random clubs", async () => {
		await fc.assert(
			fc.asyncProperty(club, async (files) => {
				const bytes = await workbookOf(clubSheets(files));
				expectSame(files, readClubSheets(await readSheets("handbook.xlsx", bytes), []));
			}),
			{ numRuns: 25, endOnFailure: true },
		);
	});

	it("through CSV, where a week's theme and words are names of areas", async () => {
		const csv = {
			apparatus: "id,name\nbeam,Beam\nvault,Vault\n",
			weeks: "id,week,theme,text\nweek-1,1,Beam,Vault\nsummer,2,Vault,Beam\n",
		};
		const sheets = Object.entries(csv).map(([name, text]) => readSheets(`${name}.csv`, Buffer.from(text)));
		const { files, notes } = readClubSheets((await Promise.all(sheets)).flat(), []);
		expect(notes).toEqual([]);
		expect(files.flatMap(({ kind, id, body }) => (kind === "week" ? [[id, body]] : []))).toEqual([
			["week-1", "Vault\n"],
			["summer", "Beam\n"],
		]);
	});

	it.each(["handbook.xlsx", "csv"])("for the demo, with the commands (%s)", async (format) => {
		const [spreadsheets, empty] = [scratch(), scratch()];
		expect(await exportCommand(quiet(REPOSITORY), { to: spreadsheets, replace: false, json: false })).toBe(0);
		const files = [...COLUMNS.keys()]
			.map((kind) =>
				kind === "drill" || kind === "week" || kind === "guide" ? `${kind}s.csv` : `${kind}.csv`,
			)
			// A sheet that would hold nothing is not written.
			.filter((name) => format !== "csv" || existsSync(join(spreadsheets, name)));
		const brought = format === "csv" ? files : [format];
		const options = { files: brought.map((name) => join(spreadsheets, name)), json: false };
		expect(await importCommand(quiet(empty), { ...options, write: true })).toBe(0);
		const [before, after] = [openHandbook(REPOSITORY), openHandbook(empty)];
		expect(after.problems).toEqual([]);
		expect(withoutSource(after.handbook?.curriculum)).toEqual(withoutSource(before.handbook?.curriculum));
		// A second time there is nothing to do, and nothing is touched.
		const lines: string[] = [];
		expect(await importCommand(quiet(empty, lines), { ...options, write: true })).toBe(0);
		expect(lines.at(-1)).toMatch(/^0 files written, \d+ the same already\.$/);
	});
});

describe("the columns of the spreadsheets", () => {
	it("cover every field of every schema", () => {
		for (const [kind, schema] of SCHEMAS) {
			// What coaches report comes from their devices, a file a week.
			if (kind === "taught") continue;
			const { properties, definitions } = schema as {
				properties?: object;
				definitions?: { item?: { properties?: object } };
			};
			const fields = Object.keys(properties ?? definitions?.item?.properties ?? {});
			const covered = new Set((COLUMNS.get(kind) ?? []).map(({ path }) => path[0]));
			// The plan of a week and the classes of a term have sheets of their own.
			const elsewhere = kind === "week" ? "apparatus" : kind === "term" ? "classes" : undefined;
			expect([kind, ...fields.filter((field) => field !== elsewhere && !covered.has(field))]).toEqual([kind]);
		}
	});
});

function expectSound(files: readonly WrittenFile[]): void {
	for (const { kind, data } of files) {
		const validate = validatorOf(kind);
		expect(validate(data), JSON.stringify(validate.errors)).toBe(true);
	}
}

/** The same records, by way of the text of each file. */
function expectSame(files: readonly WrittenFile[], read: ReturnType<typeof readClubSheets>): void {
	expect(read.notes).toEqual([]);
	expect(read.files.map(({ kind, id }) => `${kind} ${id}`).sort()).toEqual(
		files.map(({ kind, id }) => `${kind} ${id}`).sort(),
	);
	for (const { kind, id, data, body } of files) {
		const back = read.files.find((f) => f.kind === kind && f.id === id);
		const again = fileFromText(kind, id, clubFileText(kind, back?.data, back?.body ?? ""));
		expect(recordOf(again)).toEqual(recordOf(source({ kind, id, data, body: /\S/.test(body) ? body : "" })));
	}
}

function fileFromText(kind: WrittenFile["kind"], id: string, text: string): SourceFile {
	const isPage = kind === "drill" || kind === "week" || kind === "guide";
	const page = isPage ? splitPage(text) : { matter: text, body: "" };
	if (!("matter" in page)) throw new Error("no front matter");
	const parsed = parseYaml(page.matter);
	if (!parsed.ok) throw new Error("no YAML");
	return source({ kind, id, data: parsed.data, body: page.body });
}

function source(file: WrittenFile): SourceFile {
	const place = () => ({ file: file.id, line: 1, column: 1 });
	return { ...file, file: file.id, place, bodyPlace: place };
}

function recordOf(file: SourceFile): unknown {
	const { kind } = file;
	if (kind === "drill") return withoutSource(drillFrom(file));
	if (kind === "week") return withoutSource(weekFrom(file));
	if (kind === "guide") return withoutSource(guideFrom(file));
	if (kind === "club") return withoutSource(clubFrom(file));
	if (kind === "targets") return targetsFrom(file);
	if (kind === "term") return withoutSource(termFrom(file));
	if (kind === "accepted") return withoutSource(acceptedFrom(file));
	if (kind === "words") return wordsFrom(file);
	// What coaches reported is no part of the curriculum, and stays out of the workbook.
	if (kind === "taught") return undefined;
	return withoutSource(entriesFrom((one) => (one === kind ? file : undefined))[kind]);
}

/** Plain data without the places in files. Maps as lists of pairs, so that their order counts. */
function withoutSource(value: unknown): unknown {
	if (value instanceof Map) return Array.from(value, ([key, inner]) => [key, withoutSource(inner)]);
	if (Array.isArray(value)) return value.map(withoutSource);
	if (typeof value !== "object" || value === null) return typeof value === "function" ? undefined : value;
	return Object.fromEntries(
		Object.entries(value)
			.filter(([key]) => key !== "source")
			.map(([key, inner]) => [key, withoutSource(inner)]),
	);
}

function scratch(): string {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	return dir;
}

function quiet(clubDir: string, lines: string[] = []): Run {
	return {
		clubDir,
		outDir: join(clubDir, "_site"),
		now: new Date("2026-11-30T12:00:00Z"),
		out: { line: (line) => void lines.push(line), colour: false },
		progress: { stream: { write: () => undefined }, live: false },
	};
}
