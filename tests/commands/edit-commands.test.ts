/**
 * Rename, move, undo, next-term and compare as a person runs them: each is first only shown, then made,
 * then taken back to the same bytes; comments, order and spaces stay.
 */

import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";
import { handbook as command } from "../run-command.ts";

async function handbook(...args: readonly string[]) {
	const { status, stdout } = await command(args);
	return { status, stdout };
}

/** The bytes of what the club writes: the program's own record of changes is left out. */
function written(dir: string): Readonly<Record<string, string>> {
	return Object.fromEntries(
		["content", "_data"].flatMap((part) =>
			readdirSync(join(dir, part), { recursive: true, withFileTypes: true })
				.filter((entry) => entry.isFile())
				.map((entry) => join(entry.parentPath, entry.name))
				.sort()
				.map((file) => [file.slice(dir.length + 1), readFileSync(file, "latin1")] as const),
		),
	);
}

/** The demo club, with a comment and odd spaces in a plan, as a person leaves them. */
function club(): string {
	const dir = clubCopy(undefined, REPOSITORY);
	const file = join(dir, "content/weeks/week-03.md");
	const text = readFileSync(file, "utf8");
	writeFileSync(file, text.replace(/^apparatus:$/m, "apparatus:   # in the order of the hall\r"));
	expect(readFileSync(file, "utf8")).not.toBe(text);
	return dir;
}

const lines = (files: Readonly<Record<string, string>>) => Object.values(files).join("\n").split("\n").sort();

describe("a change of the club's files", () => {
	it.each([
		["rename", ["rename", "drill:plank-clock", "clock-plank"]],
		["move block", ["move", "block", "3/beam/2", "5/beam/1"]],
		["move week", ["move", "week", "3", "6"]],
		["move week --swap", ["move", "week", "3", "6", "--swap"]],
	])("%s is shown, then made, then taken back to the same bytes", async (_what, args) => {
		const dir = club();
		const before = written(dir);

		const shown = await handbook(...args, "--club", dir);
		expect(shown.status).toBe(0);
		expect(shown.stdout).toMatch(/^[1-9]\d* files? would change\. Nothing was written; --write makes/m);
		expect(written(dir)).toEqual(before);
		expect(existsSync(join(dir, ".handbook"))).toBe(false);

		const made = await handbook(...args, "--write", "--club", dir);
		expect(made.status).toBe(0);
		const after = written(dir);
		expect(after).not.toEqual(before);
		// What was shown is what was made: the same lines, but for the one before the club's name.
		const linesOf = (text: string) => text.trim().split("\n").toSpliced(-2, 1);
		expect(linesOf(made.stdout)).toEqual(linesOf(shown.stdout));
		expect(Object.values(after).join("\n")).toContain("apparatus:   # in the order of the hall\r");
		expect((await handbook("check", "--club", dir)).status).toBe(0);

		expect((await handbook("undo", "--club", dir)).stdout).toContain(`Took back: ${args.join(" ")} (`);
		expect(written(dir)).toEqual(before);
	});

	it("moving a block moves its lines and no other letter", async () => {
		const dir = club();
		const before = written(dir);
		await handbook("move", "block", "3/beam/2", "5/beam/1", "--write", "--club", dir);
		const after = written(dir);
		expect(lines(after)).toEqual(lines(before));
		const changed = Object.keys(after).filter((file) => after[file] !== before[file]);
		expect(changed).toEqual(["content/weeks/week-03.md", "content/weeks/week-05.md"]);
	});

	it("a renamed drill is named anew wherever it stood, and nothing else is touched", async () => {
		const dir = club();
		const before = written(dir);
		await handbook("rename", "drill:plank-clock", "clock-plank", "--write", "--club", dir);
		const expected = Object.fromEntries(
			Object.entries(before).map(([file, text]) => [
				file.replace("plank-clock", "clock-plank"),
				text.replaceAll("plank-clock", "clock-plank"),
			]),
		);
		expect(written(dir)).toEqual(expected);
	});

	it("ends with 2 where there is no such thing, and writes nothing", async () => {
		const dir = club();
		const before = written(dir);
		expect((await handbook("rename", "no-such-thing", "x", "--write", "--club", dir)).status).toBe(2);
		expect(await handbook("move", "week", "3", "soon", "--write", "--club", dir)).toEqual({
			status: 2,
			stdout: "`soon` is no number of a week.\n",
		});
		expect(written(dir)).toEqual(before);
	});
});

describe("next-term and compare", () => {
	it("next-term is shown, then made beside this term, which keeps its bytes; compare says what differs", async () => {
		const dir = club();
		const before = written(dir);
		const home = mkdtempSync(join(tmpdir(), "terms-"));
		onTestFinished(() => rmSync(home, { recursive: true, force: true }));
		const to = join(home, "summer");
		const args = ["next-term", "--club", dir, "--to", to, "--starts", "2027-04-19", "--weeks", "8"];

		expect(await handbook(...args)).toMatchObject({ status: 0 });
		expect(readdirSync(home)).toEqual([]);
		expect((await handbook(...args, "--write")).stdout).toContain(`Wrote ${to}.`);
		expect(written(dir)).toEqual(before);
		expect(readdirSync(home)).toEqual(["summer"]);
		expect((await handbook("check", "--club", to)).status).toBe(0);
		const next = written(to);
		expect(next["content/weeks/week-03.md"]).toContain("apparatus:   # in the order of the hall\r");
		expect(next["content/drills/warm-up/plank-clock.md"]).toBe(
			before["content/drills/warm-up/plank-clock.md"],
		);
		// A folder that is there is not written over.
		expect((await handbook(...args, "--write")).status).toBe(2);
		expect(written(to)).toEqual(next);

		const compared = await handbook("compare", dir, to);
		expect(compared.status).toBe(0);
		expect(compared.stdout).toMatch(
			/^term: Term: .*\nterm: Starts: Monday, 4 January 2027 → Monday, 19 April 2027\nterm: Weeks: 10 → 8\nterm: Closed: Monday, 15 February 2027 to Saturday, 20 February 2027 \(.*\) → none\nweek 9 \(.*\) is gone\nweek 10 \(.*\) is gone\n/,
		);
		expect(compared.stdout).toContain("Drills: 0 added, 0 removed, 0 changed, 0 renamed.");
		expect((await handbook("compare", dir, dir)).stdout).toBe(
			"Classes: 0 added, 0 removed, 0 changed. Drills: 0 added, 0 removed, 0 changed, 0 renamed. Weeks: 0 added, 0 removed, 0 changed. 0 numbers changed. Findings: 0 gone, 0 new.\n" +
				`Quillmere Gymnastics Club, in ${dir}; compared with it: Quillmere Gymnastics Club, in ${dir}\n`,
		);
		expect([written(dir), written(to)]).toEqual([before, next]);
	});

	it("compare tells a closed day first, and which two folders it compared", async () => {
		const [before, after] = [clubCopy(), clubCopy()];
		const term = join(after, "_data/term.yaml");
		writeFileSync(
			term,
			readFileSync(term, "utf8")
				.replace(/^weeks: 1$/m, "weeks: 2\nclosed: [2027-01-04]")
				.replace("16:00", "17:15"),
		);
		const { status, stdout } = await handbook("compare", before, after);
		const said = stdout.trimEnd().split("\n");
		expect(status).toBe(0);
		expect(said.slice(0, 4)).toEqual([
			"term: Weeks: 1 → 2",
			"term: Closed: none → Monday, 4 January 2027 (Monday group)",
			"class mon (Monday group) changed",
			"    Start: 16:00 → 17:15",
		]);
		expect(said.at(-2)).toContain("Term changed. Classes: 0 added, 0 removed, 1 changed. Drills: 0 added");
		expect(said.at(-1)).toBe(
			`Marrowby Gym Club, in ${before}; compared with it: Marrowby Gym Club, in ${after}`,
		);
	});

	it("compare knows a renamed drill as the same drill", async () => {
		const dir = club();
		const earlier = clubCopy(undefined, dir);
		await handbook("rename", "drill:plank-clock", "clock-plank", "--write", "--club", dir);
		const { stdout } = await handbook("compare", earlier, dir);
		expect(stdout).toContain("drill plank-clock is now clock-plank\n");
		expect(stdout).toContain("Drills: 0 added, 0 removed,");
	});
});
