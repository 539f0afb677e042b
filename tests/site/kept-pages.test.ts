/**
 * Pages taken from the site before: the site is the same, byte for byte, as one that was built without
 * them, whatever was changed in between.
 */

import { execFile } from "node:child_process";
import {
	copyFileSync,
	cpSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	statSync,
	utimesSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { promisify } from "node:util";
import { afterAll, describe, expect, it, onTestFinished } from "vitest";
import { CLUB_RECORD, OUTPUT_RECORD } from "../../scripts/read/club-edition.ts";
import { type PagesList, pagesListOf, readPagesList } from "../../scripts/render/pages-list.ts";
import { fingerprintOf, programFingerprint } from "../../scripts/render/program-fingerprint.ts";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";

const work = mkdtempSync(join(tmpdir(), "kept-pages-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

let folders = 0;
function freshClub(): string {
	const club = join(work, `club-${folders++}`);
	cpSync(join(FIXTURES, "clubs/full-pages"), club, {
		recursive: true,
		filter: (from) => !from.includes(".handbook-cache"),
	});
	return club;
}

/** Every file of a built site by its path, as text of single bytes. */
async function built(club: string): Promise<ReadonlyMap<string, string>> {
	const out = `${club}-site`;
	await promisify(execFile)(
		process.execPath,
		[join(REPOSITORY, "scripts/commands/main.ts"), "build", "--no-print", "--club", club, "--out", out],
		{ cwd: REPOSITORY },
	);
	return new Map(
		readdirSync(out, { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile())
			.map((entry) => {
				const file = join(entry.parentPath, entry.name);
				return [relative(out, file), readFileSync(file, "latin1")];
			}),
	);
}

function listFile(club: string): string {
	return pagesListOf(club, `${club}-site`);
}

function listOf(club: string): PagesList {
	const list = readPagesList(listFile(club));
	if (list === undefined) throw new Error("there is no list of pages");
	return list;
}

/** Times of all pages' files. */
function timesOf(club: string): ReadonlyMap<string, number> {
	return new Map(
		Object.keys(listOf(club).pages).map((path) => [path, statSync(join(`${club}-site`, path)).mtimeMs]),
	);
}

/** Pages that were written anew, by their texts. */
function newIn(club: string, before: PagesList): readonly string[] {
	const now = listOf(club);
	return Object.keys(now.pages).filter(
		(path) => now.of !== before.of || now.pages[path]?.[0] !== before.pages[path]?.[0],
	);
}

function edit(file: string, from: string | RegExp, to: string): (club: string) => void {
	return (club) => {
		const path = join(club, file);
		const text = readFileSync(path, "utf8");
		const changed = text.replace(from, to);
		expect(changed).not.toBe(text);
		writeFileSync(path, changed);
	};
}

const CHANGES: readonly (readonly [what: string, change: (club: string) => void, few: boolean])[] = [
	["nothing", () => undefined, true],
	["a drill's text", edit("content/drills/floor/rock.md", /$/, "\nRock on, quietly.\n"), true],
	["a drill's title", edit("content/drills/floor/rock.md", /^title: .*$/m, "title: Rocking"), true],
	// Pages draw shapes out of what they share.
	["a shape's name", edit("_data/shapes.yaml", "name: Tuck", "name: Small ball"), false],
	["a shape's angles", edit("_data/shapes.yaml", "hip: 55", "hip: 70"), false],
	["the number of a week", edit("content/weeks/week-3.md", "week: 3", "week: 2"), true],
	["the club's name", edit("_data/club.yaml", "Marrowby", "Farrowby"), false],
	["the order of the levels", edit("_data/levels.yaml", /^(.*)\n(.*)\n/, "$2\n$1\n"), true],
	["the ages of a class", edit("_data/term.yaml", "ages: [6, 9]", "ages: [5, 12]"), true],
	["the number of a thing", edit("_data/equipment.yaml", "owned: 4", "owned: 1"), true],
	["the picture's words", edit("content/drills/floor/everything.md", "A wedge on a mat.", "A wedge."), true],
	[
		"how many drills there are",
		(club) => {
			const folder = join(club, "content/drills/floor");
			writeFileSync(join(folder, "rock-more.md"), readFileSync(join(folder, "rock.md"), "utf8"));
		},
		true,
	],
];

describe("a build with pages of an earlier one", () => {
	it.each(CHANGES)("is the same after a change of %s", { timeout: 60_000 }, async (_, change, few) => {
		const club = freshClub();
		await built(club);
		const before = listOf(club);
		const times = timesOf(club);
		change(club);
		const cold = freshClub();
		change(cold);
		const warm = await built(club);
		// The number of the edition is no matter of pages that are kept: the other folder has it from its record.
		copyFileSync(join(`${club}-site`, OUTPUT_RECORD), join(cold, CLUB_RECORD));
		expect(warm).toEqual(await built(cold));
		// Otherwise there would be nothing to hold against each other.
		const all = Object.keys(before.pages).length;
		if (few) expect(newIn(club, before).length).toBeLessThan(all);
		else expect(newIn(club, before).length).toBe(all);
		const changed = new Set(newIn(club, before));
		const now = timesOf(club);
		// What was taken is the file that it was: who uploads the site need not send it again.
		for (const [path, time] of times)
			if (!changed.has(path) && now.has(path)) expect(now.get(path), path).toBe(time);
	});

	it("makes few pages anew for the text of one drill", { timeout: 60_000 }, async () => {
		const club = freshClub();
		await built(club);
		const before = listOf(club);
		const [, [, change]] = CHANGES as unknown as [unknown, (typeof CHANGES)[number]];
		change(club);
		await built(club);
		// The page that says the edition's name, and those that show the drill.
		const pages = newIn(club, before);
		expect(pages).toContain("about/index.html");
		expect(pages).toContain("drills/rock/index.html");
		expect(pages.length).toBeLessThan(10);
	});

	it("makes anew what somebody changed, what is missing, and everything without a list", {
		timeout: 90_000,
	}, async () => {
		const club = freshClub();
		const sound = await built(club);
		const page = join(`${club}-site`, "drills/rock/index.html");
		const { atime, mtime } = statSync(page);
		const text = readFileSync(page, "utf8");
		writeFileSync(page, text.replace("Rock", "Mock"));
		expect(await built(club)).toEqual(sound);
		// Of another size, at the same time.
		writeFileSync(page, `${text} `);
		utimesSync(page, atime, mtime);
		expect(await built(club)).toEqual(sound);
		rmSync(page);
		expect(await built(club)).toEqual(sound);
		const list = listFile(club);
		writeFileSync(list, '{"of": 7, "pages');
		expect(await built(club)).toEqual(sound);
		// Of another program: its pages may be others.
		writeFileSync(list, JSON.stringify({ ...listOf(club), of: "another" }));
		expect(await built(club)).toEqual(sound);
		// A file where the folder would be: nothing can be noted, and nothing fails.
		rmSync(dirname(list), { recursive: true });
		writeFileSync(dirname(list), "");
		expect(await built(club)).toEqual(sound);
	});
});

it("the program's fingerprint tells every change of a file, and not where the program stands", () => {
	const program = () => {
		const dir = mkdtempSync(join(tmpdir(), "program-"));
		onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
		for (const [file, text] of [
			["scripts/print/letters.ts", "one"],
			["layouts/styles/site.css", "two"],
			["package-lock.json", "{}"],
		] as const) {
			mkdirSync(join(dir, file, ".."), { recursive: true });
			writeFileSync(join(dir, file), text);
		}
		return dir;
	};
	const before = fingerprintOf(program());
	expect(fingerprintOf(program())).toBe(before);
	for (const file of [
		"scripts/print/letters.ts",
		"layouts/styles/site.css",
		"package-lock.json",
		"scripts/new.ts",
	]) {
		const dir = program();
		writeFileSync(join(dir, file), "another");
		expect(fingerprintOf(dir), file).not.toBe(before);
	}
	expect(programFingerprint()).toBe(fingerprintOf(REPOSITORY));
});

it("page functions look no place up: the text of a page does not have it", () => {
	const folders = ["layouts/pages", "layouts/parts"].map((folder) => join(REPOSITORY, folder));
	const texts = folders.flatMap((folder) =>
		readdirSync(folder, { recursive: true })
			.map(String)
			.filter((name) => name.endsWith(".ts"))
			.map((name) => [name, readFileSync(join(folder, name), "utf8")] as const),
	);
	expect(texts.length).toBeGreaterThan(40);
	expect(
		texts.filter(([, text]) => /\.source\.|(?<!say)\.(place|bodyPlace)\(/.test(text)).map(([name]) => name),
	).toEqual([]);
});
