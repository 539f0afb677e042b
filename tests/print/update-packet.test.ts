/**
 * An update applied to the old binder gives the new one, leaf by leaf.
 *
 * The instructions are read off the printed sheet in front, as a coach reads them, and followed with
 * nothing else: leaves are known by the numbers at their foot. The result is held against the new
 * binder printed whole, in words and in pixels. Single changes are laid out and not printed, which takes a
 * tenth of the time: of each it is held against the old binder that the leaves which stay say what they
 * said, and that those which are replaced do not. All changes are then printed in two updates.
 */

import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SheetPiece } from "../../layouts/sheets/sheet-file.ts";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { updatePiece } from "../../layouts/sheets/update.ts";
import { makeFolder } from "../../scripts/files/folder.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { type Made, printBinder, withPrinter } from "../../scripts/print/binder.ts";
import { EditionFault, readEdition, updateBetween } from "../../scripts/print/edition.ts";
import { editionFile } from "../../scripts/print/edition-file.ts";
import { type PrintedUpdate, printUpdate } from "../../scripts/print/packet.ts";
import { printSheets, type SheetOptions } from "../../scripts/print/sheets.ts";
import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import type { Edition, Update, Volume } from "../../scripts/views/sheets/edition.ts";
import { singleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { updateView } from "../../scripts/views/sheets/update.ts";
import { FIXTURES } from "../open-fixture.ts";
import { openPrinter, threads } from "./open-printer.ts";
import { type PrintedPage, readPdf } from "./read-pdf.ts";
import { differences, openPictures, type Pictures } from "./render-pages.ts";
import { shorten } from "./short-club.ts";

const folder = mkdtempSync(join(tmpdir(), "update-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
/** What all prints here share; most have a page or two to print. */
const tools = {
	cacheDir: makeFolder(join(folder, "cache")),
	browser: await openPrinter(),
	threads,
	workers: 1,
};

/** Pixels in a point. */
const SCALE = 0.7;

/** The same club, after something was done to it. */
function openClub(name: string, change: (dir: string) => void): Handbook {
	const dir = join(folder, name);
	mkdirSync(dir);
	for (const part of [join(FIXTURES, "base-club"), join(FIXTURES, "clubs", "printed-binder")]) {
		for (const name of ["content", "_data"]) cpSync(join(part, name), join(dir, name), { recursive: true });
	}
	shorten(dir);
	change(dir);
	const { handbook, problems } = openHandbook(dir);
	if (handbook === undefined) throw new Error(JSON.stringify(problems.map(({ what }) => what)));
	return handbook;
}

function edit(dir: string, file: string, from: string | RegExp, to: string): void {
	const path = join(dir, file);
	const text = readFileSync(path, "utf8");
	const changed = text.replace(from, to);
	if (changed === text) throw new Error(`${file} has no ${from}`);
	writeFileSync(path, changed);
}

/** A leaf as it lies in a binder: its front page's number, both pages, and where their pictures are. */
interface Sheet {
	readonly label: string;
	readonly pages: readonly PrintedPage[];
	readonly pictures: Pictures;
	readonly first: number;
	readonly isNew: boolean;
}

async function sheetsOf(file: string, isNew = false): Promise<readonly Sheet[]> {
	const bytes = readFileSync(file);
	const { pages } = await readPdf(bytes);
	const pictures = await openPictures(bytes, SCALE);
	return Array.from({ length: Math.ceil(pages.length / 2) }, (_, i) => ({
		label: pages[2 * i]?.label ?? "",
		pages: pages.slice(2 * i, 2 * i + 2),
		pictures,
		first: 2 * i,
		isNew,
	}));
}

/** "D · Floor 3" as its part and its number. */
function parted(label: string): { readonly part: string; readonly number: number } {
	const at = label.lastIndexOf(" ");
	return { part: label.slice(0, at), number: Number(label.slice(at + 1)) };
}

interface Line {
	readonly out: string;
	readonly in: string;
}

/** The lines of the list, by the columns that its head names. */
function linesOf(front: readonly PrintedPage[]): readonly Line[] {
	const lines: { out: string; in: string }[] = [];
	for (const page of front) {
		const head = (words: string) => page.lines.find(({ text, y }) => text === words && y < page.height - 100);
		const out = head("Take out");
		const put = head("Put in");
		if (out === undefined || put === undefined) continue;
		const rows = new Map<number, { out: string; in: string }>();
		for (const { text, x, y } of page.lines) {
			if (y > out.y - 5 || y < 60 || x < out.x - 1) continue;
			const near = [...rows.keys()].find((other) => Math.abs(other - y) < 4) ?? y;
			const row = rows.get(near) ?? { out: "", in: "" };
			rows.set(near, row);
			if (x < put.x - 1) row.out += ` ${text}`;
			else row.in += ` ${text}`;
		}
		for (const [, row] of [...rows].sort(([a], [b]) => b - a)) {
			const last = lines.at(-1);
			// Both columns of a line say something; a row with an empty one goes on with the line before.
			if (last !== undefined && (row.out === "" || row.in === "")) {
				last.out += row.out;
				last.in += row.in;
			} else lines.push(row);
		}
	}
	return lines.map((line) => ({ out: tidy(line.out), in: tidy(line.in) }));
}

const tidy = (words: string) => words.replace(/\s+/g, " ").trim();

/** "W3 · Floor 1–4, 7–8": the numbers of the fronts of these leaves. */
function fronts(words: string): readonly string[] {
	const plain = words.replace(/ (behind|in front of) .*$/, "");
	if (plain === "nothing") return [];
	const match = /^(.*?) ([\d–, ]+)$/.exec(plain);
	if (match === null) return [`${plain} 1`];
	const [, part = "", numbers = ""] = match;
	return numbers.split(", ").flatMap((run) => {
		const [first = 0, last = first] = run.split("–").map(Number);
		return Array.from({ length: Math.floor((last - first) / 2) + 1 }, (_, i) => `${part} ${first + 2 * i}`);
	});
}

/** Follows the list: takes leaves out of the old binder, puts the new ones in. */
function applied(old: readonly Sheet[], packet: readonly Sheet[]): readonly Sheet[] {
	const isFront = ({ label }: Sheet) => label.startsWith("Update ");
	const list = linesOf(packet.filter(isFront).flatMap(({ pages }) => pages));
	const isOut = new Set(list.flatMap((line) => fronts(line.out)));
	const binder = old.filter(({ label }) => !isOut.has(label));
	expect(binder.length).toBe(old.length - isOut.size);
	const leaves = packet.filter((sheet) => !isFront(sheet));
	expect(leaves.map(({ label }) => label).sort()).toEqual(list.flatMap((line) => fronts(line.in)).sort());
	for (const leaf of leaves) {
		const { part, number } = parted(leaf.label);
		const before = binder.findLastIndex(({ label }) => {
			const other = parted(label);
			return other.part === part && other.number < number;
		});
		const after = binder.findIndex(({ label }) => parted(label).part === part);
		const line = list.find((one) => fronts(one.in).includes(leaf.label));
		const place = / behind (.*)$/.exec(line?.in ?? "")?.[1];
		const gap = old.findIndex(({ label }) => parted(label).part === part);
		let position: number;
		if (before >= 0) position = before + 1;
		else if (after >= 0) position = after;
		else if (place !== undefined) {
			const behind = binder.findIndex(
				({ label, pages }) =>
					label === place || pages.some((page) => page.label === place) || label === `${place} 1`,
			);
			expect(behind, `${leaf.label} behind ${place}`).toBeGreaterThanOrEqual(0);
			position = behind + 1;
		} else {
			// The whole part came out, so there is a gap where it was: behind the parts before it.
			expect(gap, leaf.label).toBeGreaterThanOrEqual(0);
			const stood = new Set(old.slice(0, gap).map(({ label }) => parted(label).part));
			position = binder.findLastIndex(({ label }) => stood.has(parted(label).part)) + 1;
		}
		binder.splice(position, 0, leaf);
	}
	return binder;
}

/** The words of a page without the edition at its foot and on the cover. */
const wordsOf = ({ text }: PrintedPage) => text.replace(/Edition [0-9a-f]{8} of \d+ \w+ \d+/g, "Edition");

const labelsOf = (sheets: readonly Sheet[]) => sheets.flatMap(({ pages }) => pages.map(({ label }) => label));
const textsOf = (sheets: readonly Sheet[]) => sheets.flatMap(({ pages }) => pages.map(({ text }) => text));

const labelsIn = ({ update }: PrintedUpdate) => update?.in.map(({ leaf }) => leaf.front) ?? [];

/** Adds drills like one that is there. */
function addDrills(dir: string, like: string, titles: readonly string[]): void {
	const text = readFileSync(join(dir, `content/drills/floor/${like}.md`), "utf8");
	for (const title of titles)
		writeFileSync(
			join(dir, `content/drills/floor/${title.toLowerCase().replaceAll(" ", "-")}.md`),
			text.replace(/^title: .*$/m, `title: ${title}`),
		);
}

/** Changes of the club, by name. */
const CHANGES = {
	cue: (dir) => edit(dir, "content/drills/floor/rock.md", "Heels to seat", "Look at the knees"),
	block: (dir) =>
		edit(
			dir,
			"content/weeks/week-1.md",
			"      - {drill: beam-stand, minutes: 10}",
			"      - {drill: beam-stand, minutes: 10}\n      - {drill: beam-stand, minutes: 5, note: With eyes closed}",
		),
	removed: (dir) => {
		rmSync(join(dir, "content/drills/floor/rock-back.md"));
		edit(dir, "content/weeks/week-1.md", /\n {10}- \{drill: rock-back.*\}/, "");
		edit(dir, "content/drills/floor/wedge-roll.md", "partner: rock-back\n", "");
	},
	added: (dir) => addDrills(dir, "rock-back", ["A new rock"]),
	long: (dir) => addDrills(dir, "long-talk", ["A new long talk", "Another new long talk"]),
	renamed: (dir) => {
		edit(dir, "content/weeks/week-1.md", "theme: Round shapes", "theme: Small and round");
		edit(dir, "content/drills/floor/rock.md", "title: Rock on the back", "title: Rocking chair");
	},
	parts: (dir) => {
		edit(
			dir,
			"content/weeks/week-2.md",
			/\n---\n?$/,
			"\n  beam:\n    blocks:\n      - {drill: beam-stand, minutes: 10}\n---\n",
		);
		edit(dir, "content/weeks/week-1.md", /\n {2}beam:\n {4}blocks:\n.*minutes: 10\}/, "");
	},
} as const satisfies Readonly<Record<string, (dir: string) => void>>;

type Change = keyof typeof CHANGES;

const changing =
	(...names: readonly Change[]) =>
	(dir: string): void => {
		for (const name of names) CHANGES[name](dir);
	};

/** The whole binder as it is laid out for an update, or without an earlier edition; nothing is printed. */
function laidOut(handbook: Handbook, since?: Edition, volume?: Volume): Promise<Made> {
	return withPrinter(
		handbook,
		{ outFile: "", since, volume: since?.volume ?? volume, ...tools },
		(printer) => printer.make(since !== undefined),
		(problems) => {
			throw new Error(JSON.stringify(problems));
		},
	);
}

/** What stands on each leaf, by its part and its place there. */
function saidBy({ assembled: { papers, leaves } }: Made): ReadonlyMap<string, string> {
	const words = (page: number) => leaves[page]?.html.replace(/<[^>]*>/g, " ").replace(/\s+/g, " ") ?? "";
	return new Map(papers.map((paper, i) => [keyOf(paper), `${words(2 * i)}|${words(2 * i + 1)}`] as const));
}

const keyOf = ({ part, number }: Edition["leaves"][number]) => `${part} ${number}`;

/**
 * What an update would replace. The leaves that stay in the binder say what they said in the old one, and
 * those that are replaced do not.
 */
async function replacing(handbook: Handbook, earlier: Edition, before: Made) {
	const made = await laidOut(handbook, earlier);
	expect(made.problems).toEqual([]);
	const update = updateBetween(earlier, made.edition);
	const [was, is] = [saidBy(before), saidBy(made)];
	const out = new Set(update.out.map(keyOf));
	for (const [leaf, words] of was) if (!out.has(leaf)) expect(is.get(leaf), leaf).toBe(words);
	const put = new Set(update.in.map(({ position }) => position));
	for (const { leaf, position } of update.in) {
		// The cover only names the edition, which may have the same words on one day; and a leaf that another
		// follows for the first time ends as one that goes on.
		if (leaf.front === "" || put.has(position + 1)) continue;
		expect(was.get(keyOf(leaf)), leaf.front).not.toBe(is.get(keyOf(leaf)));
	}
	return { made, out: update.out.map(({ front }) => front), labels: update.in.map(({ leaf }) => leaf.front) };
}

describe("an update", { timeout: 300_000 }, () => {
	let earlier: Edition;
	let before: Made;
	let old: readonly Sheet[];
	const oldFile = join(folder, "old.pdf");

	beforeAll(async () => {
		const handbook = openClub("before", () => undefined);
		const result = await printBinder(handbook, { outFile: oldFile, ...tools });
		expect(result.problems).toEqual([]);
		earlier = await readEdition(editionFile(oldFile));
		before = await laidOut(handbook);
		old = await sheetsOf(oldFile);
	});

	const replacedBy = (name: Change) => replacing(openClub(name, CHANGES[name]), earlier, before);

	/**
	 * Prints the update and the new binder, applies the one, and compares it with the other in words.
	 *
	 * @param closely in pixels too, and with the binder printed whole as if there were no earlier one
	 */
	async function check(name: string, change: (dir: string) => void, closely = false): Promise<PrintedUpdate> {
		const handbook = openClub(name, change);
		const outFile = join(folder, `${name}.update.pdf`);
		const printed = await printUpdate(handbook, earlier, { outFile, ...tools });
		expect(printed.problems).toEqual([]);
		const since = join(folder, `${name}.since.pdf`);
		await printBinder(handbook, { outFile: since, since: earlier, ...tools });
		const result = applied(old, await sheetsOf(outFile, true));

		const expected = await sheetsOf(since);
		expect(labelsOf(result)).toEqual(labelsOf(expected));
		expect(textsOf(result)).toEqual(textsOf(expected));
		if (closely) {
			await looksTheSame(result, expected);
			await saysTheSameAsOneFromToday(name, handbook, result);
		}
		for (const { pictures } of expected.slice(0, 1)) await pictures.close();
		expect(await readEdition(outFile)).toEqual(await readEdition(editionFile(outFile)));
		expect((await readEdition(since)).leaves).toEqual((await readEdition(outFile)).leaves);
		return printed;
	}

	/** The binder printed since the old edition is the same to the pixel, but for the bars. */
	async function looksTheSame(result: readonly Sheet[], expected: readonly Sheet[]): Promise<void> {
		for (const [i, sheet] of result.entries()) {
			const other = expected[i];
			if (other === undefined) throw new Error("as many leaves were compared above");
			for (const side of [0, 1]) {
				const picture = await sheet.pictures.page(sheet.first + side);
				const found = differences(picture, await other.pictures.page(other.first + side));
				const inBar = [...found.columns].filter((column) => !isBar(column / picture.width, side));
				expect(inBar, `${sheet.label}, side ${side}`).toEqual([]);
				if (!sheet.isNew) expect(found.pixels, `${sheet.label}, side ${side}`).toBe(0);
			}
		}
	}

	/** The binder printed whole today says the same on every page, but for the edition. */
	async function saysTheSameAsOneFromToday(
		name: string,
		handbook: Handbook,
		result: readonly Sheet[],
	): Promise<void> {
		const whole = join(folder, `${name}.pdf`);
		await printBinder(handbook, { outFile: whole, ...tools });
		const fresh = (await readPdf(readFileSync(whole))).pages;
		expect(labelsOf(result)).toEqual(fresh.map(({ label }) => label));
		expect(result.flatMap(({ pages }) => pages.map(wordsOf))).toEqual(fresh.map(wordsOf));
	}

	/** Where bars stand: between the text, 16 mm from the outer edge, and the tab, which ends 11.4 mm from it. */
	function isBar(share: number, side: number): boolean {
		const fromOuter = 210 * (side === 0 ? 1 - share : share);
		return fromOuter > 12 && fromOuter < 16;
	}

	it("replaces the leaves that show a changed cue, and no others", async () => {
		const printed = await check("cue", CHANGES.cue, true);
		expect(labelsIn(printed)).toEqual(["", "W1 1", "D · Floor 1"]);
		expect(printed.update?.out.map(({ front }) => front)).toEqual(["", "W1 1", "D · Floor 1"]);
	});

	it("puts a bar beside what is new, and beside nothing else", async () => {
		const bars = await barsOn(join(folder, "cue.update.pdf"), "D · Floor 1");
		const { pages } = await readPdf(readFileSync(join(folder, "cue.update.pdf")));
		const page = pages.find(({ label }) => label === "D · Floor 1");
		const cue = page?.lines.find(({ text }) => text.includes("Look at the knees"));
		if (page === undefined || cue === undefined) throw new Error("the cue is on its card");
		expect(bars.length).toBe(1);
		expect(bars[0]?.top).toBeLessThan(page.height - cue.y - 5);
		expect(bars[0]?.bottom).toBeGreaterThan(page.height - cue.y);
		expect((bars[0]?.bottom ?? 0) - (bars[0]?.top ?? 0)).toBeLessThan(24);
	});

	/** Stretches of black in the bars' strip of a page, in points from the top. */
	async function barsOn(
		file: string,
		label: string,
	): Promise<readonly { readonly top: number; readonly bottom: number }[]> {
		const sheet = (await sheetsOf(file)).find(({ pages }) => pages.some((page) => page.label === label));
		if (sheet === undefined) throw new Error(`${label} is not in ${file}`);
		const side = sheet.pages[0]?.label === label ? 0 : 1;
		const { width, height, grey } = await sheet.pictures.page(sheet.first + side);
		const bars: { top: number; bottom: number }[] = [];
		for (let row = 0; row < height; row++) {
			const isDark = Array.from({ length: width }, (_, column) => column).some(
				(column) => isBar(column / width, side) && (grey[row * width + column] ?? 255) < 128,
			);
			const last = bars.at(-1);
			if (!isDark) continue;
			if (last !== undefined && last.bottom >= row / SCALE) last.bottom = (row + 1) / SCALE;
			else bars.push({ top: row / SCALE, bottom: (row + 1) / SCALE });
		}
		await sheet.pictures.close();
		return bars;
	}

	it("replaces a week's leaves where a block was added", async () => {
		const { labels } = await replacedBy("block");
		expect(labels).toContain("W1 1");
		expect(labels.filter((label) => /^(W2|D)/.test(label))).toEqual([]);
	});

	it("replaces what a removed drill was on, and every reference", async () => {
		const { labels } = await replacedBy("removed");
		expect(labels).toContain("X 1");
		expect(labels).not.toContain("D · Beam 1");
	});

	it("changes at most three leaves for a drill more: the cover, a list of what was added, its card", async () => {
		const { labels } = await replacedBy("added");
		expect(labels.slice(0, 2)).toEqual(["", "N 1"]);
		expect(labels.length).toBe(3);
		expect(labels[2]).toMatch(/^D · Floor \d+$/);
	});

	it("leaves every other card where it is beside two long new drills", async () => {
		const { labels, made } = await replacedBy("long");
		for (const label of labels) expect(label).toMatch(/^(|N 1|D · Floor \d+)$/);
		for (const [id, label] of Object.entries(earlier.numbers)) {
			expect(made.edition.numbers[id], id).toBe(label);
		}
		expect(made.edition.drills).toEqual(earlier.drills);
	});

	it("follows a new title of a section and of a drill to every page that names it", async () => {
		const { labels } = await replacedBy("renamed");
		for (const label of ["Contents 1", "W1 1", "X 1"]) expect(labels).toContain(label);
	});

	it("has the leaves of a new part, and takes out those of one that is gone", async () => {
		const { labels, out } = await replacedBy("parts");
		expect(labels).toEqual(expect.arrayContaining(["W1 1", "W2 1"]));
		expect(out).toContain("W1 1");
	});

	it("gives the new binder where weeks and titles change, and a drill goes", async () => {
		await check("plan", changing("block", "removed", "renamed"));
	});

	it("gives the new binder where drills and parts come and go, and says where they belong", async () => {
		await check("parts-and-drills", changing("added", "long", "parts"));
		const { pages } = await readPdf(readFileSync(join(folder, "parts-and-drills.update.pdf")));
		const list = pages.find(({ label }) => label === "N 1");
		const card = pages.find(
			({ label, text }) => label.startsWith("D · Floor") && text.includes("A new rock"),
		);
		expect(list?.text).toContain(`A new rock ${card?.label}`);
	});

	it("is nothing where nothing that is printed has changed", async () => {
		const handbook = openClub("nothing", (dir) =>
			edit(
				dir,
				"content/drills/floor/rock.md",
				"cues: [Round back, Heels to seat]",
				'cues: ["Round back", "Heels to seat"]',
			),
		);
		const outFile = join(folder, "nothing.update.pdf");
		const printed = await printUpdate(handbook, earlier, { outFile, ...tools });
		expect(printed).toEqual({ problems: [], pages: 0, sections: 0, short: 0, update: { in: [], out: [] } });
		expect(readdirSync(folder)).not.toContain("nothing.update.pdf");
		// Printed whole since then, the binder is the old one to the byte, its date included.
		await printBinder(handbook, { outFile: join(folder, "nothing.pdf"), since: earlier, ...tools });
		expect(readFileSync(join(folder, "nothing.pdf")).equals(readFileSync(oldFile))).toBe(true);
	});

	it("goes on from an update that was put in", async () => {
		const since = await readEdition(join(folder, "cue.update.pdf"));
		const handbook = openClub("again", (dir) => {
			CHANGES.cue(dir);
			edit(dir, "content/drills/beam/beam-stand.md", "Stand tall.", "Stand tall and wait.");
		});
		const outFile = join(folder, "again.update.pdf");
		const printed = await printUpdate(handbook, since, { outFile, ...tools });
		expect(printed.problems).toEqual([]);
		expect(labelsIn(printed)).toEqual(["", "D · Beam 1"]);
		const { issues, leaves } = await readEdition(outFile);
		expect(issues.length).toBe(3);
		expect(new Set(leaves.map(({ issue }) => issue)).size).toBe(3);
	});

	it("refuses another paper", async () => {
		const handbook = openClub("letter", (dir) => edit(dir, "_data/club.yaml", "paper: A4", "paper: Letter"));
		await expect(
			printUpdate(handbook, earlier, { outFile: join(folder, "letter.pdf"), ...tools }),
		).rejects.toThrow(EditionFault);
	});

	it("refuses what is no edition, and says why", async () => {
		const file = join(folder, "some.json");
		const faults: readonly (readonly [string, RegExp])[] = [
			["{", /is not an edition file/],
			[JSON.stringify({ ...earlier, format: 2 }), /has the format 2/],
			[JSON.stringify({ ...earlier, leaves: [{ part: "W1" }] }), /is not an edition file/],
			["%PDF-1.4 and nothing more", /cannot be read as a PDF/],
		];
		for (const [text, why] of faults) {
			writeFileSync(file, text);
			await expect(readEdition(file)).rejects.toThrow(why);
		}
		await expect(readEdition(join(folder, "missing.json"))).rejects.toThrow(/cannot be read/);
	});
});

describe.each([
	{ volume: "library", leaves: { added: ["", "N 1", "D · Floor 3"], block: [], cue: ["", "D · Floor 1"] } },
	{ volume: "director", leaves: { added: [], block: ["", "C 1"], cue: [] } },
] as const)("an update of the volume $volume", { timeout: 300_000 }, ({ volume, leaves }) => {
	const oldFile = join(folder, `${volume}.pdf`);
	let earlier: Edition;
	let before: Made;
	beforeAll(async () => {
		const handbook = openClub(`${volume}-before`, () => undefined);
		expect((await printBinder(handbook, { outFile: oldFile, volume, ...tools })).problems).toEqual([]);
		earlier = await readEdition(oldFile);
		before = await laidOut(handbook, undefined, volume);
	});

	it.each(["added", "block", "cue"] as const)("replaces what is in it: %s", async (name) => {
		const handbook = openClub(`${volume}-${name}`, CHANGES[name]);
		expect((await replacing(handbook, earlier, before)).labels).toEqual(leaves[name]);
	});

	it("makes the new one of the old one", async () => {
		const handbook = openClub(`${volume}-after`, changing("added", "block", "cue"));
		const outFile = join(folder, `${volume}.update.pdf`);
		expect((await printUpdate(handbook, earlier, { outFile, ...tools })).problems).toEqual([]);
		const since = join(folder, `${volume}-after.pdf`);
		await printBinder(handbook, { outFile: since, volume, since: earlier, ...tools });
		const expected = await sheetsOf(since);
		const result = applied(await sheetsOf(oldFile), await sheetsOf(outFile, true));
		expect(labelsOf(result)).toEqual(labelsOf(expected));
		expect(textsOf(result)).toEqual(textsOf(expected));
		expect(await readEdition(outFile)).toEqual(await readEdition(since));
	});
});

describe("an update of a pocket", { timeout: 300_000 }, () => {
	const pocketFile = SHEET_FILES.pocket(["mon"]);
	const packetFile = SHEET_FILES.updatePacket("pocket-mon");

	/** Prints a pocket of the club's first class, whole or what has changed of it, as of an edition. */
	async function pocket(handbook: Handbook, outDir: string, name: string, look: Partial<SheetOptions> = {}) {
		const sheets = singleSheets(handbook, { kinds: ["pocket"], classes: ["mon"] });
		const { club } = handbook.curriculum;
		const edition = { id: name, words: `Edition ${name}` };
		const { earlier } = look;
		const packet = {
			path: packetFile,
			front: (update: Update, now: Edition) =>
				updatePiece(sheets.facts, updateView(handbook.words, update, earlier ?? now, now)),
		};
		const asked = look.packet === undefined ? look : { ...look, packet };
		return printSheets(drawSheets(sheets), { outDir, club, edition, ...tools, ...asked });
	}
	const PACKET = { path: packetFile, front: () => ({}) as SheetPiece };

	it.each([{}, { paper: "A5", twoUp: true }] as const)("changes the weeks that changed: %o", async (look) => {
		const outDir = join(folder, `pocket-${"paper" in look}`);
		const place = (file: string) => join(outDir, file);
		const before = openClub(`pocket-before-${"paper" in look}`, () => undefined);
		expect((await pocket(before, outDir, "1", look)).problems).toEqual([]);
		const earlier = await readEdition(place(pocketFile));
		const old = await sheetsOf(place(pocketFile));
		const handbook = openClub(`pocket-after-${"paper" in look}`, CHANGES.block);

		const printed = await pocket(handbook, outDir, "2", { ...look, earlier, packet: PACKET });
		expect(printed).toMatchObject({ problems: [], files: [packetFile] });
		const packet = await sheetsOf(place(packetFile), true);
		// The sheet in front, and at most three leaves of the week that changed.
		expect(packet.length).toBeGreaterThan(1);
		expect(packet.length).toBeLessThanOrEqual(4);
		await pocket(handbook, outDir, "2", { ...look, earlier });
		const expected = await sheetsOf(place(pocketFile));
		const result = applied(old, packet);
		// The back of the last leaf is blank, whether the file has a page for it or not.
		const printedOn = (sheets: readonly Sheet[]) =>
			sheets.flatMap(({ pages }) => pages.flatMap(({ label, text }) => (text === "" ? [] : [[label, text]])));
		expect(printedOn(result)).toEqual(printedOn(expected));
		// The other week still says that it is of the first edition.
		const editions = result.map(({ pages }) => /Edition \d/.exec(pages[0]?.text ?? "")?.[0]);
		expect(new Set(editions)).toEqual(new Set(["Edition 1", "Edition 2"]));
		expect(await readEdition(place(packetFile))).toEqual(await readEdition(place(pocketFile)));
		// What was put in is the present pocket: nothing is left to change.
		const now = await readEdition(place(packetFile));
		const again = await pocket(handbook, outDir, "3", { ...look, earlier: now, packet: PACKET });
		expect(again).toMatchObject({ problems: [], files: [] });
		await expect(
			pocket(handbook, outDir, "3", { paper: "Letter", earlier: now, packet: PACKET }),
		).rejects.toThrow(EditionFault);
	});
});
