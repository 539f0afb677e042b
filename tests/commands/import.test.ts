/**
 * `import` of a spreadsheet as clubs keep them, through the command: what a dry run says, what is
 * written, that nothing is overwritten, what a mapping file changes, and texts that look like formulas.
 *
 * The whole report and every file written are in expected/messy-import.txt; run with
 * UPDATE_EXPECTED=1 to write it anew.
 */

import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it, onTestFinished } from "vitest";
import { importCommand } from "../../scripts/commands/import.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { messyCsv, messyWorkbook, ROWS } from "./messy-spreadsheet.ts";
import { textsIn } from "./texts-in.ts";

const EXPECTED = fileURLToPath(new URL("expected/messy-import.txt", import.meta.url));

/** A club with levels and apparatus, and with a log roll of its own, which the spreadsheet has as well. */
const LOG_ROLL = "---\n# ours\ntitle: Log roll\napparatus: floor\nlevels: [beginners]\n---\nAs we do it.\n";
const CLUB: Readonly<Record<string, string>> = {
	"_data/club.yaml": "name: Harbour Lane Gymnastics\n",
	"_data/levels.yaml":
		"- {id: beginners, name: Beginners}\n- {id: level-1, name: Level 1}\n- {id: level-2, name: Level 2}\n",
	"_data/apparatus.yaml":
		"- {id: warm-up, name: Warm-up}\n- {id: floor, name: Floor}\n- {id: beam, name: Beam}\n- {id: bars, name: Bars}\n- {id: vault, name: Vault}\n",
	"content/drills/floor/log-roll.md": LOG_ROLL,
};

function folderOf(files: Readonly<Record<string, string | Buffer>>): string {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	for (const [path, text] of Object.entries(files)) {
		mkdirSync(dirname(join(dir, path)), { recursive: true });
		writeFileSync(join(dir, path), text);
	}
	return dir;
}

interface Wish {
	readonly write?: boolean;
	readonly json?: boolean;
	readonly map?: string;
}

/** Imports a file of the given name and bytes into a club folder. */
async function bring(club: string, name: string, bytes: Buffer | string, wish: Wish = {}) {
	const desk = folderOf({ [name]: bytes, ...(wish.map === undefined ? {} : { "words.yaml": wish.map }) });
	const lines: string[] = [];
	const status = await importCommand(
		{
			clubDir: club,
			outDir: join(club, "_site"),
			now: new Date("2026-11-30T12:00:00Z"),
			out: { line: (line) => void lines.push(line), colour: false },
			progress: { stream: { write: () => undefined }, live: false },
		},
		{
			files: [join(desk, name)],
			...(wish.map === undefined ? {} : { map: join(desk, "words.yaml") }),
			write: wish.write ?? false,
			json: wish.json ?? false,
		},
	);
	return { status, said: lines.join("\n") };
}

const inWindows = messyCsv();
const asText = new TextDecoder("windows-1252").decode(inWindows);
const utf16 = (text: string) => Buffer.from(text, "utf16le");
let workbook: Buffer;
beforeAll(async () => {
	workbook = await messyWorkbook();
});

/** The spreadsheet as each program would save it. */
const SAVED: readonly (readonly [how: string, name: string, bytes: () => Buffer])[] = [
	["as a workbook", "drills.xlsx", () => workbook],
	["as CSV in Windows-1252", "drills.csv", () => inWindows],
	["as CSV in UTF-8 with a mark", "drills.csv", () => Buffer.from(`\ufeff${asText}`)],
	["as CSV in UTF-16, little end first", "drills.csv", () => utf16(`\ufeff${asText}`)],
	["as CSV in UTF-16, big end first", "drills.csv", () => utf16(`\ufeff${asText}`).swap16()],
	["as CSV in UTF-16 without a mark", "drills.csv", () => utf16(asText)],
];

describe.each(SAVED)("a messy spreadsheet %s", (_how, name, bytes) => {
	it("changes nothing in a dry run", async () => {
		const club = folderOf(CLUB);
		const before = textsIn(club);
		const { status, said } = await bring(club, name, bytes());
		expect(textsIn(club)).toEqual(before);
		expect(status).toBe(1);
		expect(said).toContain("47 files to make, 1 kept, 6 unclear and left out. Nothing is written yet");
	});

	it("writes new files alone, and nothing a second time", async () => {
		const club = folderOf(CLUB);
		const before = textsIn(club);
		const dry = await bring(club, name, bytes(), { json: true });
		const planned = (JSON.parse(dry.said) as { files: { path: string; state: string }[] }).files;
		expect((await bring(club, name, bytes(), { write: true })).status).toBe(1);
		const after = textsIn(club);
		for (const [path, text] of before) expect([path, after.get(path)]).toEqual([path, text]);
		// What was announced is what was made.
		const made = [...after.keys()].filter((path) => !before.has(path));
		expect(made).toEqual(
			planned
				.filter(({ state }) => state === "new")
				.map(({ path }) => path)
				.sort(),
		);
		expect(made).toHaveLength(47);
		const again = await bring(club, name, bytes(), { write: true });
		expect(again.said).toContain("0 files written, 47 the same already, 1 kept");
		expect(textsIn(club)).toEqual(after);
	});

	it("becomes a handbook without a problem, the same for every way of saving", async () => {
		const club = folderOf(CLUB);
		await bring(club, name, bytes(), { write: true });
		const { problems, handbook } = openHandbook(club);
		expect(problems).toEqual([]);
		expect(handbook?.curriculum.drills.size).toBe(48);
		const reference = folderOf(CLUB);
		await bring(reference, "drills.xlsx", workbook, { write: true });
		// Windows-1252 has no hyphen that holds words together; the CSV has a plain one in its place.
		const plain = (dir: string) =>
			Array.from(textsIn(dir), ([path, text]) => [path, text.replaceAll("\u2011", "-")]);
		expect(plain(club)).toEqual(plain(reference));
	});
});

describe("the messy spreadsheet", () => {
	it("has sixty rows", () => {
		expect(ROWS).toHaveLength(60);
	});

	it("is read as the expected output says", async () => {
		const club = folderOf(CLUB);
		const { said } = await bring(club, "drills.xlsx", workbook, { write: true });
		const files = [...textsIn(club)].filter(([path]) => CLUB[path] === undefined);
		const text = `${said.trim()}\n\n${files.map(([path, content]) => `=== ${path}\n${content}`).join("\n")}`;
		if (process.env.UPDATE_EXPECTED === "1" && process.env.CI === undefined) {
			mkdirSync(dirname(EXPECTED), { recursive: true });
			writeFileSync(EXPECTED, text);
		}
		expect(text).toBe(readFileSync(EXPECTED, "utf8"));
	});

	it("keeps what a cell said, whatever a spreadsheet would have made of it", async () => {
		const club = folderOf(CLUB);
		await bring(club, "drills.csv", inWindows, { write: true });
		const drills = openHandbook(club).handbook?.curriculum.drills;
		expect(drills?.get("rebound-x-3")).toMatchObject({ title: "=Rebound= x 3", cues: ["+ stiff ankles"] });
		expect(drills?.get("straddle-over-a-beanbag-line")).toMatchObject({ cues: ["-legs wide"] });
		expect(drills?.get("egg-rock")?.title).toBe("“Egg” rock");
		// A merged apparatus, several values in a cell, a dose in one cell, a fault with a dash.
		expect(drills?.get("swing-and-drop")).toMatchObject({ apparatus: ["bars"], shapes: ["hollow", "arch"] });
		expect(drills?.get("rock-to-stand")).toMatchObject({
			sets: 3,
			reps: 4,
			faults: [{ see: "Hands push behind", say: "reach past the toes" }],
		});
		// Days as a date, as text with slashes, as a number of days, and in words.
		expect(drills?.get("animal-walks-round-the-room")?.reviewed).toBe("2026-09-14");
		expect(drills?.get("star-pencil-star-jumps")?.reviewed).toBe("2026-09-14");
		expect(drills?.get("cartwheel-along-a-line")?.reviewed).toBe("2026-09-15");
		expect(drills?.get("wrist-and-ankle-rocks")?.reviewed).toBe("2026-09-15");
		// What could be two dates is left out, and the drill is made.
		expect(drills?.get("tuck-stand-tuck")?.reviewed).toBeUndefined();
	});
});

describe("a file that somebody writes meanwhile, or that is not the club's to read", () => {
	it("is kept, and named", async () => {
		// A folder of the apparatus holds a file of that name which is no drill.
		const club = folderOf({ ...CLUB, "content/drills/bars/long-hang.md": "notes of the bars coach" });
		const { status, said } = await bring(club, "drills.csv", inWindows, { write: true });
		expect(status).toBe(1);
		expect(said).toContain("There already with other content, and kept:");
		expect(said).toContain("content/drills/bars/long-hang.md");
		expect(textsIn(club).get("content/drills/bars/long-hang.md")).toBe("notes of the bars coach");
		expect(textsIn(club).get("content/drills/floor/log-roll.md")).toBe(LOG_ROLL);
	});
});

describe("a mapping file", () => {
	it("says what headings and words stand for, and which columns to leave out", async () => {
		const club = folderOf(CLUB);
		const map = "columns:\n  Initials: skip\nvalues:\n  levels:\n    Tots: beginners\n";
		const { said } = await bring(club, "drills.csv", inWindows, { write: true, map });
		expect(said).not.toContain("Initials");
		expect(said).not.toContain("Tots");
		expect(said).toContain("48 files written, 1 kept, 3 unclear and left out.");
		expect(openHandbook(club).handbook?.curriculum.drills.get("squat-turn")?.levels.has("beginners")).toBe(
			true,
		);
	});

	it("names sheets and columns that have names of the club's own", async () => {
		const csv = "Übung,Wo,Wer,Merke\nLange Rolle,Boden,Kinder,Lang bleiben\n";
		const club = folderOf(CLUB);
		expect((await bring(club, "liste.csv", csv)).said).toContain("no row of headings was found");
		const map = `sheets: {liste: drills}
columns: {Übung: title, Wo: apparatus, Wer: levels, Merke: cues}
values: {apparatus: {Boden: floor}, levels: {Kinder: [beginners, level-1]}}
`;
		const { status, said } = await bring(club, "liste.csv", csv, { write: true, map });
		expect(said).toContain("1 file written.");
		expect(status).toBe(0);
		expect(textsIn(club).get("content/drills/floor/lange-rolle.md")).toBe(
			"---\ntitle: Lange Rolle\napparatus: floor\nlevels: [beginners, level-1]\ncues: [Lang bleiben]\n---\n",
		);
	});

	it.each([
		[
			"a part that there is not",
			"colums: {A: title}\n",
			"`colums` is none of `sheets`, `columns`, `values`, `minutes`",
		],
		["a kind of sheet that there is not", "sheets: {A: wishes}\n", "`wishes` is no kind of sheet"],
		["a text", "title\n", "is not a mapping"],
	])("with %s ends with 2 and writes nothing", async (_what, map, words) => {
		const club = folderOf(CLUB);
		const before = textsIn(club);
		const { status, said } = await bring(club, "drills.csv", inWindows, { write: true, map });
		expect(status).toBe(2);
		expect(said).toContain(words);
		expect(textsIn(club)).toEqual(before);
	});
});

describe("a text that looks like a formula", () => {
	it.each(["=1+1", "=HYPERLINK(A1)", "+44 1234", "-5 to 5", "@home"])(
		"%s stays the text it is",
		async (odd) => {
			const club = folderOf(CLUB);
			const csv = `title,apparatus,levels,summary\nOdd one,floor,beginners,"${odd}"\n`;
			expect((await bring(club, "drills.csv", csv, { write: true })).status).toBe(0);
			expect(openHandbook(club).handbook?.curriculum.drills.get("odd-one")?.summary).toBe(odd);
		},
	);
});

describe("a file that is no spreadsheet", () => {
	it.each([
		["an old workbook", "drills.xls", "Save it as .xlsx or .csv first"],
		["a workbook that is cut short", "drills.xlsx", "cannot be read as a workbook"],
	])("%s ends with 2 and says what to do", async (_what, name, words) => {
		const club = folderOf(CLUB);
		const before = textsIn(club);
		const { status, said } = await bring(club, name, workbook.subarray(0, 900), { write: true });
		expect(status).toBe(2);
		expect(said).toContain(words);
		expect(textsIn(club)).toEqual(before);
	});
});
