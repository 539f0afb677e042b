/**
 * Tries bad clubs in a process of their own, watched from outside, and counts how they end.
 *
 * Run with an IPC channel (`fork`) it is that process: for every kind and seed it is told, it spoils a
 * club, opens it as every command does, reports its problems, makes its data files and now and then all
 * its pages, and says what it saw. All reading of files is recorded and held against what is allowed.
 */

import { fork } from "node:child_process";
import fs, { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { createRequire, syncBuiltinESMExports } from "node:module";
import { tmpdir } from "node:os";
import { join, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { BAD_KINDS, chance, SpoiltClub } from "./bad-clubs.ts";
import { count, type Ending, newTally, seeded, type Tally } from "./tally.ts";

const REPOSITORY = fileURLToPath(new URL("../../", import.meta.url));
const CPU_LIMIT_S = 10;
/** For what waits for ever: what works too long is told by its processor time, however busy the machine is. */
const WALL_LIMIT_MS = 240_000;
const MEMORY_LIMIT_MB = 1024;
const SECRET_TEXT = "a secret that nothing may read";

interface Order {
	readonly kind: number;
	readonly seed: number;
}

interface Report {
	readonly endings: readonly (readonly [Ending, string])[];
}

/** The kinds with a folder of the demo in place of the small club: one try in so many. */
const DEMO_EVERY = 25;
/** One try in so many writes all pages. */
const PAGES_EVERY = 8;

if (process.send !== undefined && process.argv[1] === fileURLToPath(import.meta.url)) await work();

async function work(): Promise<void> {
	const scratch = realpathSync(mkdtempSync(join(tmpdir(), "trust-")));
	process.on("exit", () => rmSync(scratch, { recursive: true, force: true }));
	const outside = join(scratch, "outside");
	mkdirSync(outside);
	writeFileSync(
		join(outside, "secret.md"),
		`---\ntitle: ${SECRET_TEXT}\napparatus: floor\nlevels: [junior]\n---\n`,
	);
	const clubs = {
		small: new SpoiltClub(join(REPOSITORY, "tests/fixtures/base-club"), join(scratch, "small")),
		demo: new SpoiltClub(REPOSITORY, join(scratch, "demo")),
	};
	const { openClub } = await import("../../scripts/commands/open-club.ts");
	const { cachePlace } = await import("../../scripts/files/places.ts");
	const { reportProblems } = await import("../../scripts/commands/report.ts");
	const { dataFiles } = await import("../../scripts/site/data-files.ts");
	const { searchFiles } = await import("../../scripts/search/build-search.ts");
	const { html } = await import("../../scripts/views/html.ts");
	const { sitePages } = await import("../../layouts/pages/site-pages.ts");
	const { documentOf } = await import("../../layouts/parts/frame.ts");
	const caches = cachePlace().path;
	const read = watchReading();

	const tryOne = async ({ kind, seed }: Order): Promise<Report> => {
		const bad = BAD_KINDS[kind];
		if (bad === undefined) throw new RangeError(`no kind ${kind}`);
		const endings: [Ending, string][] = [];
		const by = chance(seed, seeded(seed * 7919 + kind));
		const club = seed % DEMO_EVERY === DEMO_EVERY - 1 ? clubs.demo : clubs.small;
		const note = `seed ${seed}`;
		try {
			bad.spoil(club, by, outside);
			read.clear();
			const before = process.cpuUsage();
			const said: string[] = [];
			const told: string[] = [];
			const { problems, opened } = await openClub(club.dir, { keep: false });
			reportProblems(problems, club.dir, { line: (text) => told.push(text), colour: false });
			if (opened !== undefined) {
				const { handbook, media } = opened;
				for (const { text } of [
					...dataFiles(handbook, handbook.words, handbook.edition),
					...searchFiles(handbook),
				])
					said.push(text);
				if (seed % PAGES_EVERY === 0) {
					for (const page of sitePages(handbook, { media }))
						said.push(documentOf(page, (_, code) => html`${code}`));
				}
			}
			const { user, system } = process.cpuUsage(before);
			const outsiders = read.paths().filter((path) => !isAllowed(path, club.dir, caches));
			if ((user + system) / 1e6 > CPU_LIMIT_S)
				endings.push(["hung", `${note}: ${((user + system) / 1e6).toFixed(1)} s`]);
			if (opened === undefined && problems.every((p) => p.severity !== "error"))
				endings.push(["lost", `${note}: no handbook and no error`]);
			if (bad.must === true && problems.length === 0) endings.push(["lost", `${note}: nothing was said`]);
			for (const { place, what, fix } of problems) {
				if (!(place.line >= 1 && place.column >= 1 && what !== "" && fix !== ""))
					endings.push(["lost", `${note}: a problem without place or words`]);
			}
			if (outsiders.length > 0) endings.push(["leaked", `${note}: read ${outsiders.slice(0, 3).join(", ")}`]);
			if ("canary" in globalThis || "canary" in {})
				endings.push(["leaked", `${note}: code ran, or every object was changed`]);
			if (hasControls(told.join("\n")))
				endings.push(["leaked", `${note}: a control character reached the terminal`]);
			if ([...told, ...said].some((text) => text.includes(SECRET_TEXT)))
				endings.push(["leaked", `${note}: the secret was shown`]);
			const rss = process.memoryUsage.rss() / 2 ** 20;
			if (rss > MEMORY_LIMIT_MB) endings.push(["leaked", `${note}: ${Math.round(rss)} MB of memory`]);
		} catch (error) {
			endings.push([
				"crashed",
				`${note}: ${error instanceof Error ? (error.stack ?? "").split("\n").slice(0, 4).join(" ") : String(error)}`,
			]);
		} finally {
			Reflect.deleteProperty(globalThis, "canary");
			club.restore();
		}
		return { endings };
	};

	process.on("message", (order: Order) => void tryOne(order).then((report) => process.send?.(report)));
	process.on("disconnect", () => process.exit());
	process.send?.("ready");
}

/** Characters that would steer a terminal or turn its text around; line ends are its own. */
function hasControls(text: string): boolean {
	return /[\u202a-\u202e\u2066-\u2069]/.test(text) || /\p{Cc}/u.test(text.replace(/[\t\n]/g, ""));
}

/** The club's folder, what is kept for its user, this program and what it stands on, which may be linked from elsewhere. */
function isAllowed(path: string, clubDir: string, caches: string): boolean {
	const real = realOf(path);
	const own = [
		clubDir,
		realOf(caches),
		REPOSITORY.replace(/\/$/, ""),
		realOf(join(REPOSITORY, "node_modules")),
	];
	return own.some((folder) => real === folder || real.startsWith(folder + sep));
}

function realOf(path: string): string {
	try {
		return realpathSync.native(path);
	} catch {
		return path;
	}
}

/** Records the paths of all reading, opening and listing of files. */
function watchReading(): { paths(): readonly string[]; clear(): void } {
	const seen = new Set<string>();
	const note = (path: unknown): void => {
		if (typeof path === "string") seen.add(path);
		else if (path instanceof URL) seen.add(fileURLToPath(path));
	};
	const watch = (holder: object, name: string): void => {
		const original = Reflect.get(holder, name) as (...args: readonly unknown[]) => unknown;
		const watched = (...args: readonly unknown[]): unknown => {
			note(args[0]);
			return original.apply(holder, [...args]);
		};
		Reflect.set(holder, name, Object.assign(watched, original));
	};
	for (const name of [
		"readFileSync",
		"openSync",
		"readdirSync",
		"createReadStream",
		"readFile",
		"open",
		"readdir",
		"writeFileSync",
		"mkdirSync",
		"copyFileSync",
		"renameSync",
	])
		watch(fs, name);
	for (const name of ["readFile", "open", "readdir", "writeFile", "mkdir"]) watch(fs.promises, name);
	for (const name of ["exec", "execFile", "execFileSync", "spawn", "spawnSync", "fork"]) {
		// A program that is started is noted as a path outside, so it counts as a leak.
		const programs = createRequire(import.meta.url)("node:child_process") as object;
		const original = Reflect.get(programs, name) as (...args: readonly unknown[]) => unknown;
		Reflect.set(programs, name, (...args: readonly unknown[]) => {
			seen.add(`/started/${String(args[0])}`);
			return original.apply(programs, [...args]);
		});
	}
	syncBuiltinESMExports();
	return { paths: () => [...seen], clear: () => seen.clear() };
}

/** How many tries each kind gets of a number in all. */
function sharesOf(total: number): readonly number[] {
	const sum = BAD_KINDS.reduce((all, { share = 1 }) => all + share, 0);
	return BAD_KINDS.map(({ share = 1 }) => Math.max(1, Math.ceil((total * share) / sum)));
}

/** Tries at least `total` bad clubs, the same for the same first seed; costly kinds fewer times. */
export async function tryBadClubs(total: number, firstSeed: number): Promise<readonly Tally[]> {
	const shares = sharesOf(total);
	const tallies: Tally[] = [];
	let worker = await hire();
	for (const [kind, { kind: name }] of BAD_KINDS.entries()) {
		const tally = newTally(name);
		for (let i = 0; i < (shares[kind] ?? 0); i++) {
			tally.tried++;
			const seed = firstSeed + i;
			const report = await worker.order({ kind, seed });
			if (typeof report === "string") {
				count(tally, report === "hung" ? "hung" : "crashed", `seed ${seed}: the process ${report}`);
				worker = await hire();
			} else for (const [ending, note] of report.endings) count(tally, ending, note);
		}
		tallies.push(tally);
	}
	worker.dismiss();
	return tallies;
}

interface Worker {
	/** The report, "hung" where it took too long, or how the process ended. */
	order(order: Order): Promise<Report | string>;
	dismiss(): void;
}

async function hire(): Promise<Worker> {
	const child = fork(fileURLToPath(import.meta.url), [], {
		execArgv: [`--max-old-space-size=${MEMORY_LIMIT_MB}`],
	});
	let answer: (value: Report | string) => void = () => undefined;
	await new Promise((resolve) => child.once("message", resolve));
	child.on("message", (report: Report) => answer(report));
	child.on("exit", (code, signal) => answer(`ended with ${signal ?? code}`));
	return {
		order: (order) =>
			new Promise((resolve) => {
				const timer = setTimeout(() => {
					resolve("hung");
					child.kill("SIGKILL");
				}, WALL_LIMIT_MS);
				answer = (value) => {
					clearTimeout(timer);
					resolve(value);
				};
				child.send(order);
			}),
		dismiss: () => child.disconnect(),
	};
}
