/**
 * A build over an earlier one: the site is the same, byte for byte, as one that was built without it,
 * whatever was changed in between; files that did not change are the very files they were, so that who
 * uploads a site sends what changed; and where nothing changed, nothing is written.
 */

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
import { join, relative } from "node:path";
import { afterAll, describe, expect, it, onTestFinished } from "vitest";
import { fingerprintOf, programFingerprint } from "../../scripts/files/program-fingerprint.ts";
import { CLUB_RECORD, OUTPUT_RECORD } from "../../scripts/read/club-edition.ts";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { handbook } from "../run-command.ts";

const work = mkdtempSync(join(tmpdir(), "again-"));
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

interface Built {
	/** Every file of the site by its path, as text of single bytes. */
	readonly files: ReadonlyMap<string, string>;
	readonly times: ReadonlyMap<string, number>;
	/** What the command said. */
	readonly said: string;
}

async function built(club: string): Promise<Built> {
	const out = `${club}-site`;
	const { status, stdout } = await handbook(["build", "--no-print", "--club", club, "--out", out]);
	expect(status, stdout).toBe(0);
	const paths = readdirSync(out, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => relative(out, join(entry.parentPath, entry.name)));
	return {
		files: new Map(paths.map((path) => [path, readFileSync(join(out, path), "latin1")])),
		times: new Map(paths.map((path) => [path, statSync(join(out, path)).mtimeMs])),
		said: stdout,
	};
}

/** Files that are others than they were, the list of all files left out. */
function changedFiles(before: Built, now: Built): readonly string[] {
	return [...now.files].flatMap(([path, text]) =>
		path === RECORDS_OF_FILES || before.files.get(path) === text ? [] : [path],
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

const RECORDS_OF_FILES = ".handbook-files.json";

const CHANGES: readonly (readonly [what: string, change: (club: string) => void])[] = [
	["a shape's angles", edit("_data/shapes.yaml", "hip: 55", "hip: 70")],
	["the number of a week", edit("content/weeks/week-3.md", "week: 3", "week: 2")],
	["the club's name", edit("_data/club.yaml", "Marrowby", "Farrowby")],
	["the picture's words", edit("content/drills/floor/everything.md", "A wedge on a mat.", "A wedge.")],
	[
		"how many drills there are",
		(club) => {
			const folder = join(club, "content/drills/floor");
			writeFileSync(join(folder, "rock-more.md"), readFileSync(join(folder, "rock.md"), "utf8"));
		},
	],
];

/** One club, built again and again over what was there. */
describe("a build over an earlier one", () => {
	const club = freshClub();
	let last: Built;

	/** The site of another folder with the same content, built for the first time. */
	async function cold(): Promise<Built> {
		const other = join(work, `cold-${folders++}`);
		cpSync(club, other, { recursive: true, filter: (from) => !from.includes(".handbook-cache") });
		// The number of the edition is no matter of the content: the other folder has it from its record.
		copyFileSync(join(`${club}-site`, OUTPUT_RECORD), join(other, CLUB_RECORD));
		return built(other);
	}

	it("writes nothing where nothing changed, and says so", { timeout: 60_000 }, async () => {
		const first = await built(club);
		expect(first.said).not.toContain("Nothing has changed");
		last = await built(club);
		expect(last.said).toContain("Nothing has changed");
		expect(last.files).toEqual(first.files);
		expect(last.times).toEqual(first.times);
	});

	it("makes anew what somebody changed or took away", { timeout: 90_000 }, async () => {
		const sound = last.files;
		const page = join(`${club}-site`, "drills/rock/index.html");
		const { atime, mtime } = statSync(page);
		const text = readFileSync(page, "utf8");
		writeFileSync(page, text.replace("Rock", "Mock"));
		expect((await built(club)).files).toEqual(sound);
		// Of another size, at the same time.
		writeFileSync(page, `${text} `);
		utimesSync(page, atime, mtime);
		expect((await built(club)).files).toEqual(sound);
		rmSync(page);
		last = await built(club);
		expect(last.files).toEqual(sound);
	});

	it("changes few pages for the text of one drill", { timeout: 60_000 }, async () => {
		edit("content/drills/floor/rock.md", /$/, "\nRock on, quietly.\n")(club);
		const now = await built(club);
		const pages = changedFiles(last, now).filter((path) => path.endsWith(".html"));
		// The page that says the edition's name, and the drill's own.
		expect(pages).toContain("about/index.html");
		expect(pages).toContain("drills/rock/index.html");
		expect(pages.length).toBeLessThan(10);
		last = now;
	});

	it.each(CHANGES)("is the same after a change of %s", { timeout: 60_000 }, async (_, change) => {
		change(club);
		const now = await built(club);
		expect(now.files).toEqual((await cold()).files);
		const changed = new Set(changedFiles(last, now));
		expect(changed.size).toBeGreaterThan(0);
		for (const [path, time] of last.times)
			if (!changed.has(path) && now.times.has(path) && path !== RECORDS_OF_FILES)
				expect(now.times.get(path), path).toBe(time);
		last = now;
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

it("page functions look no place up: devices do not have it", () => {
	const folders = ["layouts/pages", "layouts/parts"].map((folder) => join(REPOSITORY, folder));
	// Where a page is written is said in the list of kinds, and asked for by the preview alone.
	const withoutWritten = (text: string) => text.replace(/\bwritten: \(\) => .*/g, "");
	const texts = folders.flatMap((folder) =>
		readdirSync(folder, { recursive: true })
			.map(String)
			.filter((name) => name.endsWith(".ts"))
			.map((name) => [name, withoutWritten(readFileSync(join(folder, name), "utf8"))] as const),
	);
	expect(texts.length).toBeGreaterThan(40);
	expect(
		texts.filter(([, text]) => /\.source\.|(?<!say)\.(place|bodyPlace)\(/.test(text)).map(([name]) => name),
	).toEqual([]);
});
