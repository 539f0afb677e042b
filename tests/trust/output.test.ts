/**
 * The published folder is always one whole edition, whatever happens to a build. A sample of what
 * `npm run trust` runs whole; every test here fails when its protection is taken out.
 */

import { spawn, spawnSync } from "node:child_process";
import {
	existsSync,
	lstatSync,
	mkdirSync,
	readdirSync,
	readFileSync,
	rmSync,
	statSync,
	symlinkSync,
	writeFileSync,
} from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { OutputBusy } from "../../scripts/commands/claim-output.ts";
import { OutputConflict, Staging } from "../../scripts/commands/publish.ts";
import { clubCopy } from "../open-fixture.ts";
import {
	inScratch,
	killAtEveryCall,
	killAtRandom,
	killBuilds,
	leftBehind,
	missingOthers,
	putOthers,
	REPOSITORY,
	refuseFromEach,
	runBuild,
	wholeEdition,
} from "./output-faults.ts";
import { publishOne } from "./publish-editions.ts";
import { faults } from "./tally.ts";
import { buildBesideServe, buildTogether } from "./together.ts";

describe("a build that is killed", () => {
	it.each(["KILL", "TEAR"] as const)(
		"at any single change (%s) leaves one whole edition, and nothing for good",
		async (how) => {
			const tally = await killAtEveryCall(how, ["published, with others' files"], 9);
			expect(faults([tally])).toEqual([]);
			expect(tally.tried).toBeGreaterThan(4);
		},
	);

	it("at random moments leaves one whole edition", { timeout: 400_000 }, async () => {
		expect(faults([await killAtRandom(5, 20270104)])).toEqual([]);
	});

	it("in the middle of the whole command leaves one whole edition", { timeout: 400_000 }, async () => {
		expect(faults([await killBuilds(1, 7)])).toEqual([]);
	});
});

describe("a disk that is full", () => {
	it("at any change leaves the last edition and says so without a stack trace", async () => {
		expect(faults([await refuseFromEach("ENOSPC", ["published, with others' files"], 15)])).toEqual([]);
	});

	it("stops the command with one plain message", async () => {
		await inScratch((dir) => {
			const out = join(dir, "site");
			const { status, stderr } = runBuild(clubCopy(), out, {
				NODE_OPTIONS: `--import=${new URL("./fault-at-call.ts", import.meta.url).href}`,
				FAULT: "ENOSPC",
				FAULT_AT: "40",
				FAULT_IN: dir,
			});
			expect(status).toBe(2);
			expect(stderr).toContain("error: no space left on device");
			expect(stderr).toContain("Make room on the drive");
			expect(stderr).not.toMatch(/^\s+at /m);
			expect(existsSync(out)).toBe(false);
			expect(readdirSync(dir)).toEqual([]);
		});
	});

	const canMount =
		spawnSync("unshare", ["-rm", "mount", "-t", "tmpfs", "none", "/mnt"], { timeout: 10_000 }).status === 0;
	it.runIf(canMount)("for real, on a drive of 400 kB, leaves the last edition", async () => {
		await inScratch((dir) => {
			const script = [
				`mount -t tmpfs -o size=400k none ${dir}`,
				`node tests/trust/publish-editions.ts ${dir}/site 1 1`,
				`node scripts/commands/main.ts build --no-print --club tests/fixtures/base-club --out ${dir}/site; echo status $?`,
				`echo $(cat ${dir}/site/index.html)`,
				`ls -A ${dir}/.site.editions | wc -l`,
			].join("\n");
			const { stdout, stderr } = spawnSync("unshare", ["-rm", "sh", "-c", script], {
				cwd: REPOSITORY,
				encoding: "utf8",
				timeout: 100_000,
				killSignal: "SIGKILL",
				env: { ...process.env, PATH: `${join(REPOSITORY, "node_modules/.bin")}:${process.env.PATH ?? ""}` },
			});
			// The last edition, and beside it the list of its files: nothing of the one that found no room.
			expect(stdout).toContain("status 2\n1\n2\n");
			expect(stderr).toContain("error: no space left on device");
			expect(stderr).not.toMatch(/^\s+at /m);
		});
	});
});

describe("a target that cannot be written", () => {
	it("leaves the last edition and says so", async () => {
		expect(faults([await refuseFromEach("EROFS", ["published"], 15)])).toEqual([]);
	});
});

describe("two builds at once", () => {
	it("never share the output: the second steps back, the first publishes", async () => {
		expect(faults([await buildTogether(1)])).toEqual([]);
	});

	it("go on beside `serve`, which shows the club all the while", async () => {
		expect(faults([await buildBesideServe(1)])).toEqual([]);
	});

	it("of several that claim at the same moment, the first by name waits for the others, and goes on", async () => {
		await inScratch(async (dir) => {
			const out = join(dir, "site");
			publishOne(out, 1);
			const editions = join(dir, ".site.editions");
			const [first, last] = ["0", "zzzz"].map((machine) => join(editions, `claim-${machine}-1-1`));
			if (first === undefined || last === undefined) throw new Error("no claims");
			writeFileSync(first, "");
			expect(() => publishOne(out, 2)).toThrow(OutputBusy);
			rmSync(first);
			// One that is at work does not step back.
			writeFileSync(last, "");
			expect(() => publishOne(out, 2)).toThrow(OutputBusy);
			const code = `process.stdout.write("soon"); setTimeout(() => require("node:fs").rmSync(${JSON.stringify(last)}), 200);`;
			const other = spawn(process.execPath, ["--eval", code]);
			await new Promise((resolve) => other.stdout.once("data", resolve));
			publishOne(out, 2);
			expect(wholeEdition(out)).toBe(2);
			expect(leftBehind(out)).toEqual([]);
		});
	});

	it("in one process, too", async () => {
		await inScratch((dir) => {
			const first = new Staging(join(dir, "site"));
			expect(() => new Staging(join(dir, "site"))).toThrow(OutputBusy);
			first.discard();
			publishOne(join(dir, "site"), 1);
			expect(wholeEdition(join(dir, "site"))).toBe(1);
		});
	});

	it("in two processes: the output is busy until the other ends, also by kill -9", async () => {
		await inScratch(async (dir) => {
			const out = join(dir, "site");
			publishOne(out, 1);
			const child = spawn(process.execPath, [
				fileURLToPath(new URL("./hold-output.ts", import.meta.url)),
				out,
			]);
			await new Promise((resolve) => child.stdout.once("data", resolve));
			expect(() => publishOne(out, 2)).toThrow(OutputBusy);
			expect(wholeEdition(out)).toBe(1);
			const ended = new Promise((resolve) => child.once("exit", resolve));
			child.kill("SIGKILL");
			await ended;
			publishOne(out, 2);
			expect(wholeEdition(out)).toBe(2);
			expect(leftBehind(out)).toEqual([]);
		});
	});

	it("count only while they run: a claim of a process that is gone, or whose number another has now, is void", async () => {
		await inScratch((dir) => {
			const out = join(dir, "site");
			const machine = hostname()
				.toLowerCase()
				.replace(/[^a-z0-9]/g, "")
				.slice(0, 40);
			mkdirSync(join(dir, ".site.editions"));
			writeFileSync(join(dir, ".site.editions", `claim-${machine}-999999999-1`), "");
			// The process of this number runs, but the claim is of one that started at another time.
			writeFileSync(join(dir, ".site.editions", `claim-${machine}-${process.ppid}-1`), "");
			publishOne(out, 1);
			expect(wholeEdition(out)).toBe(1);
			expect(leftBehind(out)).toEqual([]);
		});
	});
});

describe("files that somebody else put into the output", () => {
	it("stay, whatever they are, also those that came while a build was writing", async () => {
		await inScratch((dir) => {
			const out = join(dir, "site");
			publishOne(out, 1);
			putOthers(out);
			for (const edition of [2, 3, 4]) publishOne(out, edition);
			const staging = new Staging(out);
			staging.write("index.html", "5");
			writeFileSync(join(out, "late.txt"), "late");
			staging.publish();
			staging.discard();
			expect(missingOthers(out)).toEqual([]);
			expect(readFileSync(join(out, "late.txt"), "utf8")).toBe("late");
		});
	});

	it("with a link to the output, which stays a link", async () => {
		await inScratch((dir) => {
			publishOne(join(dir, "www"), 1);
			putOthers(join(dir, "www"));
			symlinkSync("www", join(dir, "site"));
			publishOne(join(dir, "site"), 2);
			expect(wholeEdition(join(dir, "www"))).toBe(2);
			expect(wholeEdition(join(dir, "site"))).toBe(2);
			expect(missingOthers(join(dir, "www"))).toEqual([]);
		});
	});

	it.each([
		["where a page of ours goes", "weeks/one.html"],
		["where a folder of ours goes", "weeks"],
		["below a page of ours", "weeks/one.html/inner.txt"],
	])("%s stop the build", async (_where, path) => {
		await inScratch((dir) => {
			const out = join(dir, "site");
			publishOne(out, 1);
			mkdirSync(join(out, path, ".."), { recursive: true });
			writeFileSync(join(out, path), "theirs");
			expect(() => publishOne(out, 2)).toThrow(OutputConflict);
			expect(readFileSync(join(out, path), "utf8")).toBe("theirs");
			expect(readFileSync(join(out, "index.html"), "utf8")).toBe("1");
			expect(leftBehind(out)).toEqual([]);
		});
	});
});

describe("a plain folder as the output", () => {
	it("takes the place of a link, is published anew as one, and leaves nothing beside it", async () => {
		await inScratch((dir) => {
			const out = join(dir, "site");
			const isNow = (edition: number, link: boolean) => {
				expect(lstatSync(out).isSymbolicLink()).toBe(link);
				expect(readFileSync(join(out, "index.html"), "utf8")).toContain(String(edition));
				const beside = readdirSync(join(dir, ".site.editions")).filter((name) => !name.startsWith("files-"));
				expect(beside).toHaveLength(link ? 1 : 0);
			};
			publishOne(out, 1);
			isNow(1, true);
			publishOne(out, 2, { plain: true });
			publishOne(out, 3, { plain: true });
			isNow(3, false);
			publishOne(out, 4);
			isNow(4, true);
		});
	});
});

describe("files that did not change", () => {
	it("keep their time and number, and those that did change do not touch the old ones", async () => {
		await inScratch((dir) => {
			const out = join(dir, "site");
			publishOne(out, 1);
			const before = statSync(join(out, "assets/site.css"));
			publishOne(out, 2);
			const after = statSync(join(out, "assets/site.css"));
			expect([after.ino, after.mtimeMs]).toEqual([before.ino, before.mtimeMs]);
			expect(wholeEdition(out)).toBe(2);
		});
	});
});
