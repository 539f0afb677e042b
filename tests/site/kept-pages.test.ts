/**
 * Pages kept from an earlier build: the site is the same, byte for byte, as one that was built without
 * them, whatever was changed in between.
 */

import { execFile } from "node:child_process";
import {
	cpSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { promisify } from "node:util";
import { afterAll, describe, expect, it, onTestFinished } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { raw } from "../../scripts/render/html.ts";
import { PageCache } from "../../scripts/render/page-cache.ts";
import { fingerprintOf, programFingerprint } from "../../scripts/render/program-fingerprint.ts";
import { sitePages } from "../../scripts/render/site.ts";
import { valueText } from "../../scripts/render/value-text.ts";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";

const work = mkdtempSync(join(tmpdir(), "kept-pages-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

const KEPT = ".handbook-cache/pages";

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

/** The keys of the pages that are kept. */
function keptIn(club: string): ReadonlyMap<string, string> {
	const index = JSON.parse(readFileSync(join(club, KEPT, "index.json"), "utf8")) as [
		string,
		{ key: string },
	][];
	return new Map(index.map(([address, { key }]) => [address, key]));
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
	["a shape's name", edit("_data/shapes.yaml", "name: Tuck", "name: Small ball"), true],
	["a shape's angles", edit("_data/shapes.yaml", "hip: 55", "hip: 70"), true],
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
		const before = keptIn(club);
		change(club);
		const cold = freshClub();
		change(cold);
		const warm = await built(club);
		expect(warm).toEqual(await built(cold));
		// Otherwise there would be nothing to hold against each other.
		const taken = [...keptIn(club)].filter(([address, key]) => before.get(address) === key).length;
		if (few) expect(taken).toBeGreaterThan(0);
		else expect(taken).toBe(0);
	});

	it("makes anew what is damaged or missing", { timeout: 60_000 }, async () => {
		const club = freshClub();
		const sound = await built(club);
		const texts = readdirSync(join(club, KEPT)).find((name) => name.endsWith(".pages")) ?? "";
		const file = join(club, KEPT, texts);
		const bytes = readFileSync(file);
		bytes[1000] = (bytes[1000] as number) ^ 1;
		writeFileSync(file, bytes);
		expect(await built(club)).toEqual(sound);
		rmSync(file);
		expect(await built(club)).toEqual(sound);
		writeFileSync(join(club, KEPT, "index.json"), '[["", {"key": 1}], 7');
		expect(await built(club)).toEqual(sound);
		rmSync(join(club, KEPT), { recursive: true });
		// A file where the folder would be: nothing can be kept, and nothing fails.
		writeFileSync(join(club, KEPT), "");
		expect(await built(club)).toEqual(sound);
		expect(existsSync(join(club, KEPT, "index.json"))).toBe(false);
	});
});

describe("the key of a page", () => {
	const { handbook } = openHandbook(`${FIXTURES}clubs/full-pages`);
	if (handbook === undefined) throw new Error("the fixture has errors");
	const dir = join(work, "cache");
	const keys = (program: string, edition: string, kept = false) => {
		const cache = new PageCache(dir, program, edition);
		return sitePages({ ...handbook, edition }, { kept }).map((page) => [
			page.kind,
			cache.keyOf(page, page.view),
		]);
	};

	it("is there for every kind of page", () => {
		expect(keys("program", "5ca1ab1e").filter(([, key]) => key === undefined)).toEqual([]);
	});

	it("is another for another program and for what the frame says, not for another edition alone", () => {
		const first = keys("program", "5ca1ab1e");
		const same = (others: typeof first) =>
			others.filter(([, key], i) => key === first[i]?.[1]).map(([kind]) => kind);
		expect(same(keys("another", "5ca1ab1e"))).toEqual([]);
		expect(same(keys("program", "5ca1ab1e", true))).toEqual([]);
		// The page about the handbook shows the edition itself.
		const kinds = first.map(([kind]) => kind).filter((kind) => kind !== "about");
		expect(same(keys("program", "0ddba115"))).toEqual(kinds);
	});

	it("takes pages out under the edition of the day", () => {
		const [page] = sitePages(handbook);
		if (page === undefined) throw new Error("no page");
		const write = new PageCache(dir, "program", "5ca1ab1e");
		write.keep("", "key", "<p>\xe9 5ca1ab1e</p>");
		write.close();
		const read = new PageCache(dir, "program", "0ddba115");
		expect(read.textOf("", "key")).toBe("<p>\xe9 0ddba115</p>");
		expect(read.textOf("", "another")).toBeUndefined();
		read.close();
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

it("two values have the same text only where they show the same", () => {
	const values = [
		undefined,
		null,
		"",
		"1",
		1,
		-1,
		0,
		-0,
		true,
		false,
		[],
		[[]],
		{},
		{ a: undefined },
		{ a: "b" },
		{ a: "b=" },
		["a", "b"],
		['a"1:b'],
		new Map([["a", "b"]]),
		new Map(),
		new Set(["a", "b"]),
		new Set(),
		raw("a"),
		"a",
		{ id: "a", source: { file: "x" } },
		{ id: "b", source: { file: "x" } },
		{ id: "a", source: { file: "y" } },
	];
	expect(new Set(values.map(valueText)).size).toBe(values.length);
	expect(() => valueText(() => 1)).toThrow(TypeError);
	expect(() => valueText(new Date())).toThrow(TypeError);
});

it("page functions look no place up: kept pages count a source by its name", () => {
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
