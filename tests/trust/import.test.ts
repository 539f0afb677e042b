/**
 * Spreadsheets that would break `import`: too large, packed too small, cells far away, quotes without end,
 * names that some systems have no file of. Each ends in a line or in files, however long it is; nothing
 * is written outside, and nothing that Windows could not hold.
 */

import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateRawSync } from "node:zlib";
import { describe, expect, it, onTestFinished } from "vitest";
import { importCommand } from "../../scripts/commands/import.ts";
import { readSheets, UnreadableSheet } from "../../scripts/commands/spreadsheet/read-sheets.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { explainYaml } from "../../scripts/read/explain-yaml.ts";
import { parseYaml } from "../../scripts/read/parse-yaml.ts";
import { messyWorkbook } from "../commands/messy-spreadsheet.ts";
import { textsIn } from "../commands/texts-in.ts";
import { clubCopy } from "../open-fixture.ts";

async function bring(name: string, bytes: Buffer | string, write = true) {
	const club = clubCopy();
	const desk = mkdtempSync(join(tmpdir(), "desk-"));
	onTestFinished(() => rmSync(desk, { recursive: true, force: true }));
	const file = join(desk, name);
	writeFileSync(file, bytes);
	const lines: string[] = [];
	const before = textsIn(club);
	const status = await importCommand(
		{
			clubDir: club,
			outDir: join(club, "_site"),
			out: { line: (line) => void lines.push(line), colour: false },
			progress: { stream: { write: () => undefined }, live: false },
			now: new Date("2027-01-04T09:00:00Z"),
		},
		{ files: [file], write, json: false },
	);
	const after = textsIn(club);
	const made = [...after.keys()].filter((path) => !before.has(path));
	for (const [path, text] of before) expect([path, after.get(path)]).toEqual([path, text]);
	return { club, status, said: lines.join("\n"), made };
}

/** A zip file of parts; `size` is what its directory says a part unpacks to. */
function zip(parts: readonly (readonly [string, Buffer])[]): Buffer {
	const bodies: Buffer[] = [];
	const directory: Buffer[] = [];
	let at = 0;
	for (const [name, packed] of parts) {
		const local = Buffer.alloc(30 + name.length);
		local.writeUInt32LE(0x04034b50, 0);
		local.writeUInt16LE(20, 4);
		local.writeUInt16LE(8, 8);
		local.writeUInt32LE(packed.length, 18);
		local.writeUInt16LE(name.length, 26);
		local.write(name, 30, "latin1");
		const entry = Buffer.alloc(46 + name.length);
		entry.writeUInt32LE(0x02014b50, 0);
		entry.writeUInt16LE(20, 6);
		entry.writeUInt16LE(8, 10);
		entry.writeUInt32LE(packed.length, 20);
		entry.writeUInt16LE(name.length, 28);
		entry.writeUInt32LE(at, 42);
		entry.write(name, 46, "latin1");
		bodies.push(local, packed);
		directory.push(entry);
		at += local.length + packed.length;
	}
	const list = Buffer.concat(directory);
	const end = Buffer.alloc(22);
	end.writeUInt32LE(0x06054b50, 0);
	end.writeUInt16LE(parts.length, 8);
	end.writeUInt16LE(parts.length, 10);
	end.writeUInt32LE(list.length, 12);
	end.writeUInt32LE(at, 16);
	return Buffer.concat([...bodies, list, end]);
}

/** A workbook with one sheet of this XML. */
function workbook(sheet: string | Buffer, others: readonly (readonly [string, Buffer])[] = []): Buffer {
	const pack = (text: string | Buffer) => (typeof text === "string" ? deflateRawSync(text) : text);
	return zip([
		[
			"[Content_Types].xml",
			pack('<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>'),
		],
		[
			"xl/workbook.xml",
			pack(
				'<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Drills" sheetId="1" r:id="rId1"/></sheets></workbook>',
			),
		],
		[
			"xl/_rels/workbook.xml.rels",
			pack(
				'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
			),
		],
		["xl/worksheets/sheet1.xml", pack(sheet)],
		...others,
	]);
}

const sheetOf = (cells: Readonly<Record<string, string>>) =>
	`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${Object.entries(
		cells,
	)
		.map(
			([at, text]) =>
				`<row r="${/\d+/.exec(at)?.[0]}"><c r="${at}" t="inlineStr"><is><t>${text}</t></is></c></row>`,
		)
		.join("")}</sheetData></worksheet>`;

/** A megabyte of blanks, packed, so many times over; each size is packed once. */
function bomb(megabytes: number): Buffer {
	const packed =
		bombs.get(megabytes) ?? deflateRawSync(Buffer.alloc(megabytes * 1_000_000, 32), { level: 1 });
	bombs.set(megabytes, packed);
	return packed;
}
const bombs = new Map<number, Buffer>();

describe("a workbook", () => {
	it.each([
		["in the last row and column", { A1: "Title", XFD1048576: "x" }],
		["in the last row and a far column", { A1: "Title", ZZ1048576: "x" }],
		["far to the right and far down, each alone", { XFD1: "x", A1048576: "y" }],
	])("with a cell %s is told, at once", async (_where, cells) => {
		const { status, said, made } = await bring("far.xlsx", workbook(sheetOf(cells)));
		expect(status).toBe(2);
		expect(said).toMatch(/far\.xlsx: a cell stands far away from the others, at [A-Z]+\d+/);
		expect(made).toEqual([]);
	});

	it.each([
		["of one sheet", () => workbook(bomb(1500))],
		["of texts", () => workbook(sheetOf({ A1: "Title" }), [["xl/sharedStrings.xml", bomb(1500)]])],
		[
			"of many small parts",
			() =>
				workbook(
					sheetOf({ A1: "Title" }),
					Array.from({ length: 40 }, (_, i) => [`xl/media/${i}.xml`, bomb(9)] as const),
				),
		],
		["of a part that nothing names", () => workbook(sheetOf({ A1: "Title" }), [["x", bomb(400)]])],
	])(
		"that unpacks to far too much, %s, is told and takes little memory",
		{ timeout: 120_000 },
		async (_how, make) => {
			const bytes = make();
			globalThis.gc?.();
			const before = process.memoryUsage.rss();
			let most = 0;
			const timer = setInterval(() => {
				most = Math.max(most, process.memoryUsage.rss());
			}, 5);
			const { status, said, made } = await bring("bomb.xlsx", bytes);
			clearInterval(timer);
			expect(status).toBe(2);
			expect(said).toContain("bomb.xlsx unpacks to far more than it should");
			expect(made).toEqual([]);
			expect((most - before) / 1e6).toBeLessThan(200);
		},
	);

	const whole = messyWorkbook();
	it.each([0, 3, 4, 30, 100, 0.3, 0.6, 0.9, 0.99, -1, -22])("cut off at %s is told", async (at) => {
		const bytes = await whole;
		const end = at < 0 ? bytes.length + at : at < 1 ? Math.floor(bytes.length * at) : at;
		const { status, said, made } = await bring("cut.xlsx", bytes.subarray(0, end));
		expect(status).toBe(2);
		expect(said).toMatch(/cut\.xlsx cannot be read as a workbook/);
		expect(made).toEqual([]);
	});

	it.each([
		["the count of its parts", 12],
		["the place of its directory", 6],
		["its last byte but two", 3],
	])("with another number in %s is told or read", async (_what, back) => {
		const bytes = Buffer.from(await whole);
		bytes[bytes.length - back] = 0xff;
		const { status } = await bring("odd.xlsx", bytes);
		expect([0, 1, 2]).toContain(status);
	});

	it("of nothing but a name is told", async () => {
		await expect(readSheets("x.xlsx", Buffer.from("no workbook"))).rejects.toThrow(UnreadableSheet);
		await expect(readSheets("x.csv", zip([]))).rejects.toThrow(UnreadableSheet);
	});
});

describe("a text file", () => {
	const rows = (n: number) => Array.from({ length: n }, (_, i) => `Drill ${i},floor,junior,Tuck\n`).join("");
	it.each([
		["in a title", '"Roll,floor,junior,Tuck\n'],
		["in levels", 'Roll,floor,"junior,Tuck\n'],
		["in the last column", 'Roll,floor,junior,"Tuck\n'],
	])("with a quote that is not closed %s is told with its row", async (_where, row) => {
		const { status, said, made } = await bring(
			"quote.csv",
			`Title,Apparatus,Levels,Cues\n${row}${rows(150_000)}`,
		);
		expect(status).toBe(2);
		expect(said).toMatch(/^quote\.csv: a cell of row 2 holds more than 32767 letters\. Most likely a quote/);
		expect(made).toEqual([]);
	});

	it.each([
		["blanks in a title", `Roll${" ".repeat(30_000)}x,floor,junior,Tuck`, /faults: “Tuck”/],
		[
			"figures in levels",
			`Roll,floor,${"1 ".repeat(15_000)},Tuck`,
			/levels: .* is 29999 letters long, too long to be read here/,
		],
		["blanks in levels", `Roll,floor,a${" ".repeat(30_000)}1x,Tuck`, /levels: .* is 30003 letters long/],
		["signs in faults", `Roll,floor,junior,a${" - ".repeat(10_000)}`, /faults: .* is 30000 letters long/],
		["dashes in apparatus", `Roll,${"-–".repeat(15_000)},junior,Tuck`, /apparatus: .* is 30000 letters long/],
		[
			"letters without a gap",
			`Roll,${"a".repeat(32_000)},junior,Tuck`,
			/apparatus: .* is 32000 letters long/,
		],
		[
			"a list without end",
			`Roll,floor,"${"x;".repeat(16_000)}",Tuck`,
			/a cell of row 2 holds more than 32767 letters/,
		],
	])("with thousands of %s is told in few short lines", async (_what, row, refused) => {
		const text = `Title,Apparatus,Levels,Faults\n${`${row}\n`.repeat(20)}`;
		const { said } = await bring("long.csv", text);
		expect(said).toMatch(refused);
		const lines = said.split("\n");
		expect(lines.length).toBeLessThan(10);
		expect(Math.max(...lines.map((line) => line.length))).toBeLessThan(200);
	});

	it("of 200,000 rows of one plan is read", { timeout: 400_000 }, async () => {
		const rows = Array.from(
			{ length: 200_000 },
			(_, i) => `${1 + (i % 5)},floor,${i % 3 === 0 ? `no such drill ${i}` : "rock"},5\n`,
		);
		const { status, said } = await bring("plan.csv", `Week,Apparatus,Drill,Minutes\n${rows.join("")}`, false);
		expect(status).toBe(1);
		expect(said).toContain("unclear and left out");
	});

	it("of 30,000 drills of one title is read, each with an id of its own", { timeout: 400_000 }, async () => {
		const text = `Title,Apparatus,Levels,Cues\n${Array.from({ length: 30_000 }, (_, i) => `Roll,floor,junior,Cue ${i}\n`).join("")}`;
		const { said } = await bring("same.csv", text, false);
		expect(said).toContain("30000 files to make");
	});
});

describe("names", () => {
	const DEVICES = ["con", "prn", "aux", "nul", "com1", "COM9", "lpt1", "LPT3", "com0"];
	it.each(DEVICES)("a drill called %s gets a file that every system can hold", async (title) => {
		const { club, made } = await bring("drills.csv", `Title,Apparatus,Levels\n${title},floor,junior\n`);
		expect(made).toEqual([`content/drills/floor/${title.toLowerCase()}-1.md`]);
		expect(openHandbook(club).problems.filter(({ code }) => code === "H107")).toEqual([]);
	});

	it.each(["con", "nul", "com1"])("an id, a week and a guide called %s as well", async (id) => {
		const drills = await bring("drills.csv", `Id,Title,Apparatus,Levels\n${id},Roll,floor,junior\n`);
		expect(drills.made).toEqual([`content/drills/floor/${id}-1.md`]);
		for (const path of drills.made) expect(path).not.toMatch(/\/(con|nul|com1)(\.md)?($|\/)/);
	});

	it.each([
		"../../../etc/passwd",
		"..\\..\\windows\\system32",
		"/etc/passwd",
		"C:\\autoexec",
		"content/../../x",
		".git/hooks/pre-commit",
		"__proto__",
		"constructor",
		"a\u0000b",
		"~/.bashrc",
		"file:///etc/passwd",
		"-rf",
	])("a drill called %s stays in its folder", async (title) => {
		const { made, club } = await bring("drills.csv", `Title,Apparatus,Levels\n"${title}",floor,junior\n`);
		for (const path of made) expect(path).toMatch(/^content\/drills\/floor\/[a-z0-9]+(-[a-z0-9]+)*\.md$/);
		expect(readdirSync(join(club, "..")).filter((name) => /passwd|bashrc|system32/.test(name))).toEqual([]);
		expect(Object.keys({})).toEqual([]);
	});

	it.each(["../../x", "con", "__proto__", "/etc"])(
		"an apparatus called %s leads nowhere",
		async (apparatus) => {
			const { made } = await bring("drills.csv", `Title,Apparatus,Levels\nRoll,"${apparatus}",junior\n`);
			for (const path of made) expect(path).toMatch(/^content\/drills\/([a-z0-9]+(-[a-z0-9]+)*\/)?roll\.md$/);
			expect(made.join()).not.toMatch(/drills\/con\//);
		},
	);
});

describe("YAML that would not end", () => {
	it.each([
		["brackets", "[".repeat(60_000)],
		["braces", "{a: ".repeat(60_000)],
		["closed brackets", `${"[".repeat(30_000)}${"]".repeat(30_000)}`],
		["dashes", "- ".repeat(20_000)],
		[
			// As deep as a data file may be long: a megabyte.
			"a list within lists, by indents",
			Array.from({ length: 1400 }, (_, i) => `${" ".repeat(i)}-`).join("\n"),
		],
		["aliases of aliases", "a: &a [x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: [*b,*b,*b,*b,*b,*b,*b,*b]\n"],
	])("as %s gives few lines, with words", (_what, text) => {
		expect(parseYaml(text).ok).toBe(false);
		const faults = explainYaml(text);
		expect(faults.length).toBeLessThan(25);
		for (const { what } of faults) expect(what).not.toContain("call stack");
		if (/^[[{]/.test(text)) expect(faults).toHaveLength(1);
	});
});
