/**
 * Options typed without two hyphens of their own, through the real `npm run`: npm keeps them for itself.
 *
 * What npm does with them is in its documentation, "npm run-script": "any options … must come after --".
 */

import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { keptByNpm } from "../../scripts/commands/npm-options.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";

/** `npm run` as it is typed, in a folder, without what an npm around this test has set. */
function npm(args: readonly string[], cwd = REPOSITORY) {
	const env = Object.fromEntries(
		Object.entries(process.env).filter(([name]) => !/^(npm_|INIT_CWD$|NODE_OPTIONS$|VITEST)/i.test(name)),
	);
	const { status, stdout, stderr } = spawnSync("npm", args, { cwd, encoding: "utf8", env });
	return { status, stdout, stderr };
}

const KEPT: readonly (readonly [typed: readonly string[], told: string])[] = [
	[["check", "--club=../x"], "npm run check -- --club ../x"],
	[["check", "--club", "../x"], "npm run check -- --club ../x"],
	[["check", "--json"], "npm run check -- --json"],
	[["check", "--what-if=changes.yaml"], "npm run check -- --what-if changes.yaml"],
	[["rename", "drill:a", "b", "--write"], "npm run rename -- drill:a b --write"],
	[["move", "week", "4", "6", "--write"], "npm run move -- week 4 6 --write"],
	[["build", "--no-print", "--out=../my site"], 'npm run build -- --out "../my site" --no-print'],
	[["print", "class-sheets", "--week", "3"], "npm run print -- class-sheets --week 3"],
	[["print", "class-sheets", "--class=mon"], "npm run print -- class-sheets --class mon"],
	[["import", "a.csv", "--map", "map.yaml"], "npm run import -- a.csv --map map.yaml"],
	[["export", "--to=../y"], "npm run export -- --to ../y"],
	[["new", "drill", "--title=Long sit"], 'npm run new -- drill --title "Long sit"'],
	[["serve", "--port=3000"], "npm run serve -- --port 3000"],
	// What stands behind the two hyphens arrived, and is part of what to type.
	[["check", "--json", "--", "--club", "x"], "npm run check -- --club x --json"],
];

describe("an option that npm kept", () => {
	it.each(KEPT)("%j ends with 2 and says what to type", (typed, told) => {
		const { status, stdout, stderr } = npm(["run", "--silent", ...typed]);
		expect(stderr).toContain(`\n  ${told}\n`);
		expect(stdout).not.toContain("no errors");
		expect(status).toBe(2);
	});

	it("several without their values are told without a guess at which is whose", () => {
		const { status, stderr } = npm(["run", "--silent", "print", "labels", "--week", "3", "--level", "one"]);
		expect(stderr).toContain("npm kept --week, --level for itself");
		expect(stderr).toContain("  npm run print -- labels --week <week> --level <id>\n");
		expect(status).toBe(2);
	});

	it("one more argument than a command takes says where options go", () => {
		const { status, stderr } = npm(["run", "--silent", "check", "../x"]);
		expect(stderr).toContain("npm run check -- --club ../my-club");
		expect(status).toBe(2);
	});
});

describe("what was not typed does not count", () => {
	const OPTIONS = [
		{ long: "--json", flags: "--json", required: false },
		{ long: "--club", flags: "--club <dir>", required: true },
	];
	const RUN = { npm_lifecycle_script: "node scripts/commands/main.ts check", npm_lifecycle_event: "check" };

	it.each([
		["a settings file", { ...RUN, npm_config_json: "true" }, "json=true\n"],
		["the environment", { ...RUN, npm_config_json: "true", NPM_CONFIG_JSON: "true" }, ""],
		["a test under npm", { ...RUN, npm_config_json: "true", npm_lifecycle_script: "vitest run" }, ""],
		["no npm at all", { npm_config_json: "true" }, ""],
	])("from %s", (_what, env, settings) => {
		expect(keptByNpm(OPTIONS, [], env, "/home/kim/handbook", settings)).toBeUndefined();
	});

	it("but does where it was typed", () => {
		const env = { ...RUN, npm_config_json: "true" };
		expect(keptByNpm(OPTIONS, [], env, "/home/kim/handbook", "")).toContain("npm run check -- --json");
	});

	it("nor does what the command was given as well", () => {
		const env = { ...RUN, npm_config_json: "true" };
		expect(keptByNpm(OPTIONS, ["--json"], env, "/home/kim/handbook", "")).toBeUndefined();
	});
});

describe("folders", () => {
	it("are meant from where the command was typed, and told at its end", () => {
		const dir = clubCopy();
		const { status, stdout } = npm(
			["--prefix", REPOSITORY, "run", "--silent", "check", "--", "--club", "."],
			dir,
		);
		expect(stdout).toMatch(new RegExp(`^4 drills, 1 week: no errors.*Marrowby Gym Club, in ${dir}\n$`));
		expect(status).toBe(0);
	});

	it("an output and a list of changes as well", () => {
		const dir = clubCopy();
		const from = mkdtempSync(join(tmpdir(), "typed-"));
		onTestFinished(() => rmSync(from, { recursive: true, force: true }));
		mkdirSync(join(from, "lists"));
		writeFileSync(join(from, "lists/drills.csv"), "title,apparatus,levels\nNew one,floor,Junior\n");
		const run = (...args: readonly string[]) =>
			npm(["--prefix", REPOSITORY, "run", "--silent", ...args, "--club", dir], from);
		expect(run("export", "--", "--to", "out").stdout).toContain("files to out: ");
		expect(existsSync(join(from, "out/handbook.xlsx"))).toBe(true);
		const { stdout } = run("import", "--", "lists/drills.csv");
		expect(stdout).toContain("1 file to make");
		expect(stdout.trimEnd().split("\n").at(-1)).toBe(`Marrowby Gym Club, in ${dir}`);
	});

	it.each([
		["rename", ["drill:rock", "rocking"]],
		["undo", []],
		["upgrade", []],
		["new", ["guide", "--title", "House rules"]],
		["move", ["week", "1", "1"]],
	])("%s names the club and its folder last", (name, args) => {
		const dir = clubCopy();
		const { stdout } = npm(["run", "--silent", name, "--", ...args, "--club", dir]);
		expect(stdout.trimEnd().split("\n").at(-1)).toBe(`Marrowby Gym Club, in ${dir}`);
	});

	it("a folder with errors is named as well", () => {
		const dir = clubCopy();
		writeFileSync(join(dir, "content/drills/floor/rock.md"), "no front matter\n");
		const { stdout, status } = npm(["run", "--silent", "check", "--", "--club", dir]);
		expect(stdout.trimEnd().split("\n").at(-1)).toBe(`Marrowby Gym Club, in ${dir}`);
		expect(status).toBe(1);
	});
});
