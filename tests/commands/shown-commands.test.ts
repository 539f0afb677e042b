/**
 * The commands that the author guide and the README show: each exists with the options it is shown
 * with, and those that end by themselves do what is said, on a copy of the demo club.
 */

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
import { join, sep } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { ownOutput } from "../../scripts/commands/note-edition.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { CHANGES_EXAMPLE, COMMANDS, MAPPING_EXAMPLE } from "../../scripts/views/author-guide.ts";
import { VOLUMES } from "../../scripts/views/sheets/edition.ts";
import { SHEET_KINDS } from "../../scripts/views/sheets/sheet.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { handbook } from "../run-command.ts";
import { messyWorkbook } from "./messy-spreadsheet.ts";

const SCRIPTS = (
	JSON.parse(readFileSync(join(REPOSITORY, "package.json"), "utf8")) as { scripts: Record<string, string> }
).scripts;

const inGuide: readonly string[] = Object.values(COMMANDS).flat();
const inReadme = readFileSync(join(REPOSITORY, "README.md"), "utf8")
	.split("\n")
	.flatMap((line) => /^(?:npm ci && )?(npm run \S.*?)(?:\s+#.*)?$/.exec(line)?.[1] ?? [])
	.map((line) => line.trim())
	// No command of the program but one that makes it: tried in tests/pack/.
	.filter((line) => !line.startsWith("npm run pack "));

/** The name of the npm script, and what is handed to it. */
function wordsOf(shown: string): { readonly name: string; readonly args: readonly string[] } {
	const [, name = "", rest = ""] = /^npm run (\S+)(?: -- (.*))?$/.exec(shown) ?? [];
	return {
		name,
		args: Array.from(rest.matchAll(/"([^"]*)"|(\S+)/g), ([, quoted, bare]) => quoted ?? bare ?? ""),
	};
}

async function run(args: readonly string[], cwd: string) {
	const { status, stdout, stderr } = await handbook(args, { cwd });
	// Paths are said as the system writes them.
	return { status, said: (stdout + stderr).replaceAll(sep, "/") };
}

describe("a command that is shown", () => {
	it("is there at all", async () => {
		expect(inGuide.length).toBeGreaterThan(15);
		expect(inReadme.length).toBeGreaterThan(10);
	});

	it.each([...new Set([...inGuide, ...inReadme])])(
		"%s: has an npm script, and its options",
		async (shown) => {
			const { name, args } = wordsOf(shown);
			expect(SCRIPTS[name]?.replace(/ --max-semi-space-size=\d+/, "")).toBe(
				`node scripts/run.mjs scripts/commands/main.ts ${name}`,
			);
			const part = name === "move" ? args.slice(0, 1) : [];
			const { status, said } = await run([name, ...part, "--help"], REPOSITORY);
			expect(status).toBe(0);
			for (const option of args.filter((arg) => arg.startsWith("--")))
				expect(said).toMatch(new RegExp(`${option}\\b`));
		},
	);
});

describe("what the guide says can be printed", () => {
	it.each(["en", "fr"])("is what can be printed (%s)", async (language) => {
		const named = Object.keys(wordsFor(language).authorGuide.commands.sheets);
		expect(named.sort()).toEqual([...VOLUMES, "update-packet", ...SHEET_KINDS].sort());
	});
});

/** A folder with a club in `here`, the demo unless another is named, a plan of last term beside it, and the files that are named. */
async function desk(club = REPOSITORY): Promise<{ readonly here: string }> {
	const parent = mkdtempSync(join(tmpdir(), "desk-"));
	onTestFinished(() => rmSync(parent, { recursive: true, force: true }));
	const here = join(parent, "here");
	for (const folder of [here, join(parent, "last-term")]) {
		mkdirSync(folder);
		cpSync(clubCopy(undefined, club), folder, { recursive: true });
	}
	writeFileSync(join(here, "drills.xlsx"), await messyWorkbook());
	writeFileSync(join(here, "words.yaml"), MAPPING_EXAMPLE);
	writeFileSync(join(here, "changes.yaml"), CHANGES_EXAMPLE);
	return { here };
}

describe("on the demo club", () => {
	/** What each shows that it did; a spreadsheet with something unclear ends with 1, as its help says. */
	const shown: readonly (readonly [command: string, status: number, says: RegExp])[] = [
		[COMMANDS.new[0], 0, /^wrote content\/drills\/floor\/seat-drop-to-stand\.md/],
		[COMMANDS.new[1], 0, /wrote \.\.\/my-club\/_data\/club\.yaml/],
		[COMMANDS.new[2], 0, /wrote hosting\/nginx\/handbook\.conf/],
		[COMMANDS.import[0], 1, /Nothing is written yet: add --write/],
		[COMMANDS.import[1], 1, /files written/],
		[COMMANDS.check[0], 0, /178 drills, 10 weeks: no errors/],
		[COMMANDS.accept[0], 0, /^Accepts 1 finding:/],
		[COMMANDS.import[2], 1, /Nothing is written yet: add --write/],
		[COMMANDS.apply[0], 0, /2 files would change\. Nothing was written; --write makes the change\./],
		[COMMANDS.apply[1], 0, /2 files changed\. `undo` takes it back\./],
		[COMMANDS.whatIf[0], 0, /numbers changed\. Findings: \d+ gone, \d+ new\./],
		[COMMANDS.plan[0], 0, /Every week of the term has its plan\./],
		[COMMANDS.rename[0], 0, /6 files would change\. Nothing was written; --write makes the change\./],
		[COMMANDS.move[0], 0, /2 files would change\. Nothing was written/],
		[COMMANDS.move[1], 0, /2 files would change\. Nothing was written/],
		[COMMANDS.export[0], 0, /^wrote 17 files to spreadsheets/],
		[COMMANDS.compare[0], 0, /^Classes: 0 added, 0 removed, 0 changed/],
		[COMMANDS.nextTerm[0], 0, /Nothing was written; --write makes/],
	];

	it.each(shown)("%s", async (command, status, says) => {
		const { here } = await desk();
		const { name, args } = wordsOf(command);
		const ended = await run([name, ...args], here);
		expect(ended.said).toMatch(says);
		expect(ended.status).toBe(status);
	});

	it("a change is made with --write and taken back by undo, to the letter", async () => {
		const { here } = await desk();
		const before = texts(here);
		const { args } = wordsOf(COMMANDS.rename[0]);
		expect(await run(["rename", ...args, "--write"], here)).toMatchObject({ status: 0 });
		const { problems, handbook } = openHandbook(here);
		expect(problems).toEqual([]);
		expect(handbook?.curriculum.drills.has("bar-long-hang")).toBe(true);
		expect(texts(here)).not.toEqual(before);
		expect(await run([wordsOf(COMMANDS.undo[0]).name], here)).toMatchObject({ status: 0 });
		expect(texts(here)).toEqual(before);
	});
});

it("a page of what changed is built on a small club", async () => {
	const { here } = await desk(join(FIXTURES, "base-club"));
	const { name, args } = wordsOf(COMMANDS.since[0]);
	const { status } = await run([name, ...args, "--no-print"], here);
	expect(status).toBe(0);
	expect(existsSync(join(ownOutput(here), "what-changed/index.html"))).toBe(true);
});

function texts(club: string): ReadonlyMap<string, string> {
	return new Map(
		["content", "_data"].flatMap((folder) =>
			readdirSync(join(club, folder), { recursive: true, withFileTypes: true })
				.filter((entry) => entry.isFile())
				.map((entry) => join(entry.parentPath, entry.name))
				.sort()
				.map((file) => [file.slice(club.length + 1), readFileSync(file, "latin1")] as const),
		),
	);
}
