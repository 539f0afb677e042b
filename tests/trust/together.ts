/**
 * Commands that run at the same time on one folder, and what comes of it.
 *
 *   buildTogether      several builds on one output at once: each publishes whole, or steps back and says so
 *   buildBesideServe   a build of a club that is being served and written in: the preview answers all the
 *                      while and shows what was written, and the output is one whole edition
 */

import { spawn } from "node:child_process";
import { cpSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { ownOutput } from "../../scripts/commands/note-edition.ts";
import { buildHere, fingerprint, inScratch, leftBehind, MAIN, REPOSITORY } from "./output-faults.ts";
import { count, newTally, type Tally } from "./tally.ts";

interface Ended {
	readonly status: number | null;
	readonly said: string;
}

function start(args: readonly string[]) {
	const child = spawn(process.execPath, [MAIN, ...args], { cwd: REPOSITORY });
	let said = "";
	for (const stream of [child.stdout, child.stderr]) {
		stream.on("data", (data) => {
			said += String(data);
		});
	}
	const ended = new Promise<Ended>((resolve) => child.once("close", (status) => resolve({ status, said })));
	return { child, ended, said: () => said };
}

function baseClub(dir: string): string {
	const club = join(dir, "club");
	cpSync(join(REPOSITORY, "tests/fixtures/base-club"), club, { recursive: true });
	return club;
}

/** Changes the club, so that the next build has something to write. */
function writeOn(club: string, line: string): void {
	const file = join(club, "content/drills/floor/rock.md");
	writeFileSync(file, `${readFileSync(file, "utf8")}\n${line}\n`);
}

function isPublished(out: string, line: string): boolean {
	const page = join(out, "drills/rock/index.html");
	return existsSync(page) && readFileSync(page, "utf8").includes(line);
}

export async function buildTogether(times: number, builds = 2): Promise<Tally> {
	const tally = newTally("builds on one output at once");
	await inScratch(async (dir) => {
		const club = baseClub(dir);
		const out = join(dir, "site");
		for (let i = 0; i < times; i++) {
			tally.tried++;
			writeOn(club, `Written ${i}.`);
			const args = ["build", "--no-print", "--club", club, "--out", out];
			const endings = await Promise.all(Array.from({ length: builds }, () => start(args).ended));
			for (const { status, said } of endings) {
				const steptBack = status === 2 && said.includes("Another build is writing to this folder");
				if (status !== 0 && !steptBack) count(tally, "crashed", `${i}: ended with ${status}: ${said}`);
			}
			if (endings.every(({ status }) => status !== 0)) count(tally, "lost", `${i}: no build published`);
			const first = fingerprint(out);
			if (!isPublished(out, `Written ${i}.`)) count(tally, "lost", `${i}: it is not published`);
			const { status, said } = await buildHere(club, out);
			if (status !== 0 || fingerprint(out) !== first) count(tally, "lost", `${i}: not whole: ${said}`);
			if (leftBehind(out).length > 0)
				count(tally, "leaked", `${i}: left behind: ${leftBehind(out).join(", ")}`);
		}
	});
	return tally;
}

export async function buildBesideServe(times: number): Promise<Tally> {
	const tally = newTally("a build beside `serve`");
	await inScratch(async (dir) => {
		const club = baseClub(dir);
		const serving = start(["serve", "--port", "0", "--club", club]);
		try {
			const root = await until(() => /http:\/\/[^/\s]+\//.exec(serving.said())?.[0]);
			if (root === undefined) throw new Error(`serve did not start: ${serving.said()}`);
			const shows = async (words: string): Promise<boolean> => {
				const page = await fetch(new URL("drills/rock/", root));
				if (page.status !== 200) count(tally, "crashed", `serve answers with ${page.status}`);
				return (await page.text()).includes(words);
			};
			for (let i = 0; i < times; i++) {
				tally.tried++;
				writeOn(club, `Written ${i}.`);
				const building = start(["build", "--no-print", "--club", club]);
				let isBuilding = true;
				void building.ended.then(() => {
					isBuilding = false;
				});
				while (isBuilding) {
					await shows("");
					await pause(20);
				}
				const { status, said } = await building.ended;
				if (status !== 0) count(tally, "crashed", `${i}: the build ended with ${status}: ${said}`);
				const out = ownOutput(club);
				const first = fingerprint(out);
				if (!isPublished(out, `Written ${i}.`)) count(tally, "lost", `${i}: it is not published`);
				if ((await buildHere(club, out)).status !== 0 || fingerprint(out) !== first)
					count(tally, "lost", `${i}: no whole edition stands`);
				if (leftBehind(out).length > 0) count(tally, "leaked", `${i}: ${leftBehind(out).join(", ")}`);
				const isShown = await until(async () => (await shows(`Written ${i}.`)) || undefined);
				if (isShown !== true) count(tally, "hung", `${i}: the preview does not show what was written`);
			}
		} finally {
			serving.child.kill("SIGTERM");
			const { status, said } = await serving.ended;
			if (status !== 0) count(tally, "crashed", `serve ended with ${status}: ${said}`);
		}
	});
	return tally;
}

/** What a question gives when it gives something; undefined where it gives nothing for minutes, however busy the machine is. */
async function until<T>(ask: () => T | undefined | Promise<T | undefined>): Promise<T | undefined> {
	const end = performance.now() + 240_000;
	while (performance.now() < end) {
		const given = await ask();
		if (given !== undefined) return given;
		await pause(50);
	}
	return undefined;
}
