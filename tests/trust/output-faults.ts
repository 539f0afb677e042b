/**
 * Faults while an output is published, and what stands there afterwards.
 *
 *   killAtEveryCall   kill -9 before, or in the middle of, each single change of the file system that
 *                     publishing makes
 *   killAtRandom      kill -9 at random moments while one edition after the other is published
 *   killBuilds        kill -9 at random moments of the real `build` command
 *   refuseFromEach    a full disk, and a target that cannot be written, from each change on
 *
 * After each: what is published is one whole edition, the old or the new; what somebody else put there
 * is there; the next run succeeds and leaves nothing behind.
 */

import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
	chmodSync,
	cpSync,
	existsSync,
	lstatSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	statSync,
	symlinkSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { runCommand } from "../../scripts/commands/command-line.ts";
import { outputFault } from "../../scripts/commands/output-folder.ts";
import { filesOf, publishOne } from "./publish-editions.ts";
import { count, newTally, seeded, type Tally } from "./tally.ts";

export const REPOSITORY = fileURLToPath(new URL("../../", import.meta.url));
const PUBLISHER = fileURLToPath(new URL("./publish-editions.ts", import.meta.url));
const FAULTS = pathToFileURL(fileURLToPath(new URL("./fault-at-call.ts", import.meta.url))).href;
export const MAIN = join(REPOSITORY, "scripts/commands/main.ts");

/** What somebody else has in the output: files, in folders of ours and in their own, and a link. */
const OTHERS: ReadonlyMap<string, string> = new Map([
	["CNAME", "handbook.example"],
	["drills/notes.txt", "not ours"],
	["their/own/page.html", "not ours either"],
]);

/** How the output stands before the fault. */
export type Before = "nothing" | "published" | "published, with others' files" | "an empty folder";

/** A scratch folder for the length of a function. */
export async function inScratch<T>(use: (dir: string) => Promise<T> | T): Promise<T> {
	const dir = mkdtempSync(join(tmpdir(), "trust-"));
	try {
		return await use(dir);
	} finally {
		rmSync(dir, { recursive: true, force: true });
	}
}

export function publishEdition(out: string, edition: number, fault: Readonly<Record<string, string>> = {}) {
	return spawnSync(process.execPath, ["--import", FAULTS, PUBLISHER, out, String(edition), "1"], {
		encoding: "utf8",
		timeout: 100_000,
		killSignal: "SIGKILL",
		env: { ...process.env, FAULT_IN: dirname(out), ...fault },
	});
}

function prepare(out: string, before: Before): void {
	if (before === "published" || before === "published, with others' files") publishOne(out, 1);
	if (before === "published, with others' files") putOthers(out);
	if (before === "an empty folder") mkdirSync(out);
}

export function putOthers(out: string): void {
	for (const [path, text] of OTHERS) {
		mkdirSync(dirname(join(out, path)), { recursive: true });
		writeFileSync(join(out, path), text);
	}
	symlinkSync("CNAME", join(out, "link-to-cname"));
	mkdirSync(join(out, "their/empty"), { mode: 0o700 });
	chmodSync(join(out, "their"), 0o710);
	chmodSync(join(out, "their/own/page.html"), 0o600);
}

/** Others' files that are gone or changed. */
export function missingOthers(out: string): readonly string[] {
	const missing = [...OTHERS]
		.filter(([path, text]) => textOf(join(out, path)) !== text)
		.map(([path]) => path);
	const modes: readonly (readonly [string, number])[] = [
		["their/empty", 0o700],
		["their", 0o710],
		["their/own/page.html", 0o600],
	];
	for (const [path, mode] of modes) {
		const info = statSync(join(out, path), { throwIfNoEntry: false });
		if (info === undefined || (info.mode & 0o777) !== mode) missing.push(`${path} as it was`);
	}
	return isLink(join(out, "link-to-cname")) ? missing : [...missing, "link-to-cname"];
}

function isLink(path: string): boolean {
	return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() ?? false;
}

function textOf(file: string): string | undefined {
	return existsSync(file) ? readFileSync(file, "utf8") : undefined;
}

/** Which edition of `filesOf` an output is; undefined where it is none, or not whole. */
export function wholeEdition(out: string): number | undefined {
	const text = textOf(join(out, "index.html"));
	if (text === undefined) return undefined;
	const wanted = filesOf(Number(text));
	const there = filesBelow(out).filter((path) => !OTHERS.has(path) && path !== "link-to-cname");
	const whole =
		there.length === wanted.size && there.every((path) => textOf(join(out, path)) === wanted.get(path));
	return whole ? Number(text) : undefined;
}

function filesBelow(dir: string): readonly string[] {
	if (!existsSync(dir)) return [];
	return readdirSync(dir, { recursive: true, withFileTypes: true })
		.filter((entry) => !entry.isDirectory())
		.map((entry) => relative(dir, join(entry.parentPath, entry.name)));
}

/** What lies beside the output that a finished run should have cleaned up. */
export function leftBehind(out: string): readonly string[] {
	const editions = readdirSync(dirname(out)).filter(
		(name) => name.startsWith(".") && name.endsWith(".editions"),
	);
	const inside = editions.flatMap((name) => readdirSync(join(dirname(out), name)));
	// The edition that is published, and the list of its files.
	return inside.length > 2 || inside.filter((name) => !name.startsWith("files-")).length > 1 ? inside : [];
}

/** One run that may be hurt, then what stands, then a run that is not hurt. */
async function hurt(tally: Tally, before: Before, run: (out: string) => string | undefined): Promise<void> {
	tally.tried++;
	await inScratch((dir) => {
		const out = join(dir, "site");
		prepare(out, before);
		const crash = run(out);
		if (crash !== undefined) count(tally, "crashed", crash);
		const published = before.startsWith("published");
		const edition = wholeEdition(out);
		const nothingYet = !published && !existsSync(join(out, "index.html"));
		if (edition === undefined && !nothingYet) count(tally, "lost", `no whole edition stands (${before})`);
		const withOthers = before === "published, with others' files";
		if (withOthers && missingOthers(out).length > 0)
			count(tally, "lost", `gone: ${missingOthers(out).join(", ")}`);
		try {
			publishOne(out, 3);
		} catch (error) {
			count(tally, "crashed", `the next run: ${String(error)}`);
		}
		if (wholeEdition(out) !== 3) count(tally, "lost", `the next run did not publish (${before})`);
		if (withOthers && missingOthers(out).length > 0) {
			count(tally, "lost", `gone after the next run: ${missingOthers(out).join(", ")}`);
		}
		if (leftBehind(out).length > 0) count(tally, "leaked", `left behind: ${leftBehind(out).join(", ")}`);
	});
}

/** How many changing calls one publishing makes. */
async function callsFor(before: Before): Promise<number> {
	return inScratch((dir) => {
		const out = join(dir, "site");
		prepare(out, before);
		return Number(/calls=(\d+)/.exec(publishEdition(out, 2).stderr)?.[1] ?? Number.NaN);
	});
}

/**
 * @param how KILL before each change, TEAR in the middle of it
 * @param step every how many of the changes is tried
 */
export async function killAtEveryCall(
	how: "KILL" | "TEAR",
	befores: readonly Before[],
	step = 1,
): Promise<Tally> {
	const tally = newTally(`killed ${how === "KILL" ? "before" : "in the middle of"} every single change`);
	for (const before of befores) {
		const calls = await callsFor(before);
		for (let at = 1; at <= calls; at += step) {
			await hurt(tally, before, (out) => {
				const { signal } = publishEdition(out, 2, { FAULT: how, FAULT_AT: String(at) });
				return signal === "SIGKILL" ? undefined : `was not killed at ${at} of ${calls}`;
			});
		}
	}
	return tally;
}

export async function refuseFromEach(
	code: "ENOSPC" | "EROFS",
	befores: readonly Before[],
	step = 1,
): Promise<Tally> {
	const tally = newTally(
		code === "ENOSPC" ? "disk full from each change on" : "target read-only from each change on",
	);
	for (const before of befores) {
		const calls = await callsFor(before);
		for (let at = 1; at <= calls; at += step) {
			await hurt(tally, before, (out) => {
				const { signal, stderr, status } = publishEdition(out, 2, { FAULT: code, FAULT_AT: String(at) });
				if (signal !== null) return `ended by ${signal}`;
				if (/^\s+at /m.test(stderr)) return `a stack trace: ${stderr}`;
				return status === 0 || stderr.includes("error: ") ? undefined : `said nothing: ${stderr}`;
			});
		}
	}
	return tally;
}

/** @param seed chooses the moments */
export async function killAtRandom(times: number, seed: number): Promise<Tally> {
	const tally = newTally("killed at a random moment of publishing");
	const random = seeded(seed);
	await inScratch(async (dir) => {
		const out = join(dir, "site");
		let edition = 1;
		publishOne(out, edition);
		putOthers(out);
		for (let i = 0; i < times; i++) {
			tally.tried++;
			const child = spawn(process.execPath, [PUBLISHER, out, String(edition + 1), "100000"], {
				stdio: "ignore",
			});
			const ended = new Promise((resolve) => child.once("exit", resolve));
			// Starting takes a while; a publishing takes some milliseconds.
			await waitFor(() => wholeOrAny(out) > edition, 10_000);
			await new Promise((resolve) => setTimeout(resolve, random() * 60));
			child.kill("SIGKILL");
			await ended;
			const now = wholeEdition(out);
			if (now === undefined || now < edition) count(tally, "lost", `kill ${i}: no whole edition stands`);
			else edition = now;
			if (missingOthers(out).length > 0) count(tally, "lost", `kill ${i}: ${missingOthers(out).join(", ")}`);
		}
		if (publishEdition(out, edition + 1).status !== 0) count(tally, "crashed", "the run after the last kill");
		if (leftBehind(out).length > 0) count(tally, "leaked", `left behind: ${leftBehind(out).join(", ")}`);
	});
	return tally;
}

function wholeOrAny(out: string): number {
	return Number(textOf(join(out, "index.html")) ?? 0);
}

async function waitFor(done: () => boolean, most: number): Promise<void> {
	const until = performance.now() + most;
	while (!done() && performance.now() < until) await new Promise((resolve) => setTimeout(resolve, 2));
}

/** The real command on two versions of a small club, killed at moments from its start to its end. */
export async function killBuilds(times: number, seed: number): Promise<Tally> {
	const tally = newTally("`build` killed at a random moment");
	const random = seeded(seed);
	await inScratch(async (dir) => {
		const clubs = ["old", "new"].map((name) => {
			const club = join(dir, name);
			cpSync(join(REPOSITORY, "tests/fixtures/base-club"), club, { recursive: true });
			const file = join(club, "content/drills/floor/rock.md");
			writeFileSync(file, `${readFileSync(file, "utf8")}\nThe ${name} edition.\n`);
			return club;
		});
		const out = join(dir, "site");
		const whole = new Set<string>();
		const [old = "", other = ""] = clubs;
		if ((await buildHere(old, out)).status !== 0) throw new Error("It does not build.");
		whole.add(fingerprint(out));
		const started = performance.now();
		const { status, stdout, stderr } = runBuild(other, out);
		if (status !== 0) throw new Error(`It does not build: ${stdout}${stderr}`);
		whole.add(fingerprint(out));
		const long = performance.now() - started;
		putOthers(out);
		for (let i = 0; i < times; i++) {
			tally.tried++;
			const args = [MAIN, "build", "--no-print", "--club", clubs[i % 2] ?? "", "--out", out];
			const child = spawn(process.execPath, args, { cwd: REPOSITORY, stdio: "ignore" });
			const ended = new Promise((resolve) => child.once("exit", resolve));
			const timer = setTimeout(() => child.kill("SIGKILL"), random() * long * 1.05);
			await ended;
			clearTimeout(timer);
			if (!whole.has(fingerprint(out))) count(tally, "lost", `kill ${i}: no whole edition stands`);
			if (missingOthers(out).length > 0) count(tally, "lost", `kill ${i}: ${missingOthers(out).join(", ")}`);
			const fault = outputFault({ clubDir: clubs[i % 2] ?? "", outDir: out });
			if (fault !== undefined) count(tally, "crashed", `kill ${i}: the next build is refused: ${fault}`);
		}
		const last = await buildHere(old, out);
		if (last.status !== 0)
			count(tally, "crashed", `the build after the last kill: ${last.status}, ${last.said}`);
		if (leftBehind(out).length > 0) count(tally, "leaked", `left behind: ${leftBehind(out).join(", ")}`);
	});
	return tally;
}

/** A build in this process, where nothing happens to it: what is tried needs one of its own. */
export async function buildHere(club: string, out: string) {
	let said = "";
	const lines = { write: (text: string) => (said += text) };
	const status = await runCommand(["build", "--no-print", "--club", club, "--out", out], {
		stdout: lines,
		stderr: lines,
		env: process.env,
		home: REPOSITORY,
	});
	return { status, said };
}

export function runBuild(club: string, out: string, env: Readonly<Record<string, string>> = {}) {
	return spawnSync(process.execPath, [MAIN, "build", "--no-print", "--club", club, "--out", out], {
		cwd: REPOSITORY,
		encoding: "utf8",
		timeout: 100_000,
		killSignal: "SIGKILL",
		env: { ...process.env, ...env },
	});
}

/** Files that say which edition it is; those with hashes in their names follow from them. */
const NAMES_THE_EDITION: ReadonlySet<string> = new Set([
	"about/index.html",
	"assets/edition.js",
	"data/edition.json",
	"data/handbook.json",
	"data/record.json",
	"worker.js",
]);

/** A hash of all files of ours in an output, by path and bytes. */
export function fingerprint(out: string): string {
	const hash = createHash("sha256");
	for (const path of filesBelow(out).toSorted()) {
		if (OTHERS.has(path) || path === "link-to-cname") continue;
		hash.update(`${path}\0`);
		// An edition's number grows with every change, also with one back to what was.
		if (!NAMES_THE_EDITION.has(path)) hash.update(readFileSync(join(out, path))).update("\0");
	}
	return hash.digest("hex");
}
