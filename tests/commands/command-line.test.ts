/** The commands as a person runs them: exit codes, help, what is written and what is not. */

import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { ownOutput } from "../../scripts/commands/note-edition.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { handbook as command } from "../run-command.ts";
import { textsIn } from "./texts-in.ts";

/** The program as a process: once for a build, once for a print. */
function started(...args: readonly string[]) {
	const { status, stdout, stderr } = spawnSync(process.execPath, ["scripts/commands/main.ts", ...args], {
		cwd: REPOSITORY,
		encoding: "utf8",
		timeout: 100_000,
		killSignal: "SIGKILL",
	});
	return { status, stdout, stderr };
}

const handbook = (...args: readonly string[]) => command(args);

const broken = () => clubCopy(join(FIXTURES, "problems/H201"));

describe("help and wrong use", () => {
	it.each([
		["--help"],
		["check", "--help"],
		["compare", "--help"],
		["build", "--help"],
		["print", "--help"],
		["serve", "--help"],
	])("%s %s explains itself and ends with 0", async (...args) => {
		const { status, stdout } = await handbook(...args);
		expect(status).toBe(0);
		expect(stdout).toMatch(/Usage: handbook/);
	});

	it.each([
		["an unknown command", ["bake"]],
		["an unknown option", ["check", "--colour"]],
		["a club folder that is not there", ["check", "--club", "no/such/folder"]],
		["a port that is none", ["serve", "--port", "many"]],
		["an output over the club itself", ["build", "--club", ".", "--out", "."]],
		["an output inside the content", ["build", "--club", ".", "--out", "content/site"]],
	])("%s ends with 2 and says why", async (_what, args) => {
		const { status, stdout, stderr } = await handbook(...args);
		expect(status).toBe(2);
		expect(stdout + stderr).toMatch(/error: |would overwrite the club's own files\. Name another folder/);
	});
});

describe("check", () => {
	it("ends with 0 on a sound club and writes nothing", async () => {
		const dir = clubCopy();
		const before = readdirSync(dir, { recursive: true }).sort();
		const { status, stdout } = await handbook("check", "--club", dir);
		expect(stdout).toContain("4 drills, 1 week: no errors, 0 findings.");
		expect(status).toBe(0);
		expect(readdirSync(dir, { recursive: true }).sort()).toEqual(before);
	});

	it("ends with 1 on errors, quotes the line with a caret, and says what to do", async () => {
		const { status, stdout } = await handbook("check", "--club", broken());
		expect(status).toBe(1);
		expect(stdout).toContain("content/drills/floor/rock.md:7:10  error H201  There is no shape `holow`.");
		expect(stdout).toContain("   7 │ shapes: [holow, tuck]");
		expect(stdout).toMatch(/│ {10}\^/);
		expect(stdout).toContain("Did you mean `hollow`?");
		expect(stdout).toContain("2 errors in 1 file");
		expect(stdout).not.toContain("\u001b[");
	});

	it("gives problems and findings as JSON", async () => {
		const { status, stdout } = await handbook(
			"check",
			"--json",
			"--club",
			clubCopy(join(FIXTURES, "problems/H301")),
		);
		const { problems, findings } = JSON.parse(stdout) as {
			problems: unknown[];
			findings: { code: string; line: number }[];
		};
		expect(status).toBe(0);
		expect(problems).toEqual([]);
		expect(findings[0]).toMatchObject({ code: "H301", line: 8 });
	});
});

describe("build", () => {
	it("writes site and data, and nothing at all where the content has errors", async () => {
		const dir = clubCopy();
		const out = join(dir, "out");
		const good = await handbook("build", "--no-print", "--club", dir, "--out", out);
		expect(good.stdout).toMatch(/wrote \d+ pages and \d+ data files to /);
		expect(good.status).toBe(0);
		const first = textsIn(out, "latin1");
		expect(first.has("index.html")).toBe(true);
		expect(first.has("data/exposures.csv")).toBe(true);

		const file = join(dir, "content/drills/floor/rock.md");
		writeFileSync(file, readFileSync(file, "utf8").replace("tuck]", "tuk]"));
		const bad = await handbook("build", "--no-print", "--club", dir, "--out", out);
		expect(bad.status).toBe(1);
		expect(bad.stdout).toContain("the last good output stays");
		expect(textsIn(out, "latin1")).toEqual(first);
	});

	it("gives the same bytes twice, and keeps files that it did not write", async () => {
		const dir = clubCopy();
		const out = join(dir, "out");
		// What another club has left in the process is in no file of this one.
		const other = clubCopy(undefined, join(FIXTURES, "clubs/plans-to-mend"));
		expect((await handbook("build", "--no-print", "--club", other, "--out", join(other, "out"))).status).toBe(
			0,
		);
		expect((await handbook("build", "--no-print", "--club", dir, "--out", out)).status).toBe(0);
		const first = textsIn(out, "latin1");
		writeFileSync(join(out, "CNAME"), "handbook.example\n");
		mkdirSync(join(out, "extra"));
		writeFileSync(join(out, "extra/notes.txt"), "ours\n");
		// Where all is as it was, nothing is built.
		rmSync(join(out, "index.html"));
		expect(started("build", "--no-print", "--club", dir, "--out", out).status).toBe(0);
		const second = textsIn(out, "latin1");
		expect(second.get("CNAME")).toBe("handbook.example\n");
		expect(second.get("extra/notes.txt")).toBe("ours\n");
		second.delete("CNAME");
		second.delete("extra/notes.txt");
		expect(second).toEqual(first);
		expect(readdirSync(dir).sort()).toEqual([".out.editions", "_data", "content", "out"]);
	});

	it("does not overwrite somebody else's file", async () => {
		const dir = clubCopy();
		const out = join(dir, "out");
		mkdirSync(out);
		writeFileSync(join(out, "index.html"), "mine");
		const { status, stdout } = await handbook("build", "--no-print", "--club", dir, "--out", out);
		expect(status).toBe(2);
		expect(stdout).toContain("is not empty");
		expect(readFileSync(join(out, "index.html"), "utf8")).toBe("mine");
	});

	it("makes a handbook of ten drills that hold only the required fields", async () => {
		const dir = clubCopy(undefined, join(FIXTURES, "clubs/ten-drills"));
		const out = join(dir, "out");
		const { status, stdout } = await handbook("build", "--no-print", "--club", dir, "--out", out);
		expect(stdout).not.toMatch(/error|warning/);
		expect(status).toBe(0);
		expect(existsSync(join(out, "drills/drill-1/index.html"))).toBe(true);
		expect(existsSync(join(out, "levels/one/index.html"))).toBe(true);
	});
});

describe("print", () => {
	const club = join(FIXTURES, "clubs", "full-pages");

	it("explains every kind of sheet and its choices", async () => {
		const { stdout } = await handbook("print", "--help");
		for (const name of [
			"binder",
			"class-sheets",
			"week-packet",
			"station-cards",
			"floor-plans",
			"store-room",
			"labels",
			"check-sheets",
			"term-overview",
			"--week",
			"--class",
			"--level",
			"--apparatus",
			"--up",
		])
			expect(stdout).toContain(name);
	});

	it.each([
		[["class-sheet"], "There is no kind of sheet class-sheet. Did you mean class-sheets?"],
		[
			["class-sheets", "--class", "mons"],
			"There is no class mons. Did you mean mon? There are: mon, tue, open.",
		],
		[["labels", "--week", "9"], "There is no week 9. Did you mean 3? There are: 1, 3."],
		[["check-sheets", "--level", "seniors"], "There is no level seniors. Did you mean senior?"],
		[["station-cards", "--apparatus", "flor"], "There is no apparatus flor. Did you mean floor?"],
		[
			["term-overview", "--week", "1"],
			"--week has no meaning for term-overview; it goes with pocket, class-sheets,",
		],
		[["--class", "mon"], "--class has no meaning for binder; it goes with pocket, class-sheets."],
		[["pocket", "--class", "mon,nobody"], "There is no class nobody."],
		[["labels", "--paper", "A5"], "--paper has no meaning for labels; it goes with pocket."],
		[
			["pocket", "--bleed", "3mm"],
			"--bleed has no meaning for pocket; it goes with binder, library, director.",
		],
		[["labels", "--since", "x.json"], "--since has no meaning for labels; it goes with binder, library,"],
	])("%j ends with 2 and says what there is", async (args, words) => {
		const { status, stdout } = await handbook("print", ...args, "--club", club);
		expect(stdout).toContain(words);
		expect(status).toBe(2);
	});

	it("writes the sheet that was asked for, and no other", async () => {
		const dir = clubCopy(undefined, club);
		const { status, stdout } = started(
			"print",
			"class-sheets",
			"--week",
			"1",
			"--class",
			"mon",
			"--club",
			dir,
		);
		expect(stdout).toContain("print/weeks/week-1/class-sheets/mon.pdf");
		expect(status).toBe(0);
		const made = readdirSync(`${ownOutput(dir)}/`, { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile())
			.map(({ name }) => name)
			// What was printed is noted beside it.
			.filter((name) => name !== "sheets.json");
		expect(made.sort()).toEqual(["mon.pdf"]);
	});
});
