/**
 * From saving a file to the page: `serve` on a club of 1,000 drills, or as many as the argument says.
 * Prints the milliseconds from the write to the page with the change, which is asked for when the server tells
 * that it is another, for eleven changes of a drill and of a week, with the server's processor time where the
 * system tells it, and the time to a problem on the page and back.
 */

import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openHandbook } from "../../scripts/handbook.ts";
import { writeLargeClub } from "./large-club.ts";

const REPOSITORY = fileURLToPath(new URL("../../", import.meta.url));
const drills = Number(process.argv[2] ?? 1000);
const demo = openHandbook(REPOSITORY).handbook;
if (demo === undefined) throw new Error("the demo has errors");
const dir = mkdtempSync(join(tmpdir(), "club-"));
writeLargeClub(demo, dir, { drills, words: 330 });
const port = 8000 + (process.pid % 1000);
const server = spawn(
	process.execPath,
	["scripts/commands/main.ts", "serve", "--club", dir, "--port", String(port)],
	{ cwd: REPOSITORY, stdio: "ignore" },
);
try {
	const drill = [...demo.curriculum.drills.values()][0];
	if (drill === undefined) throw new Error("the demo has no drill");
	const until = async (address: string, words: string): Promise<number> => {
		const started = performance.now();
		for (;;) {
			try {
				const response = await fetch(`http://localhost:${port}${address}`, {
					headers: { accept: "text/html" },
				});
				if ((await response.text()).includes(words)) return performance.now() - started;
			} catch {
				// Not listening yet.
			}
			await new Promise((resolve) => setTimeout(resolve, 5));
		}
	};
	/** Asks for the page as a browser does: whenever the server says that it is to be loaded again. */
	const afterReload = async (change: () => void, address: string, words: string): Promise<number> => {
		const told = new WebSocket(`ws://localhost:${port}`);
		await new Promise((resolve) => told.addEventListener("open", resolve));
		const started = performance.now();
		const shown = new Promise<number>((resolve) => {
			told.addEventListener("message", async ({ data }) => {
				if (JSON.parse(data).type !== "eleventy.reload") return;
				await until(address, words);
				resolve(performance.now() - started);
			});
		});
		change();
		const time = await shown;
		told.close();
		return time;
	};
	/** Milliseconds, in steps of ten. */
	const processor = (): number => {
		const file = `/proc/${server.pid}/stat`;
		const [user, system] = existsSync(file) ? readFileSync(file, "utf8").split(" ").slice(13, 15) : [];
		return 10 * (Number(user) + Number(system));
	};
	const drillPage = `/drills/${drill.id}/`;
	console.log(`${drills} drills: the first page after ${Math.round(await until(drillPage, "<h1"))} ms`);
	const drillFile = join(dir, "content/drills", drill.apparatus[0] ?? "", `${drill.id}.md`);
	for (const [what, file, page, line] of [
		["a drill", drillFile, drillPage, "title"],
		["a week", join(dir, "content/weeks/week-03.md"), "/weeks/week-03/", "theme"],
	] as const) {
		const sound = readFileSync(file, "utf8");
		const times: number[] = [];
		const before = processor();
		for (let i = 0; i < 11; i++) {
			const text = sound.replace(new RegExp(`^${line}: .*$`, "m"), `${line}: Change number ${i}x`);
			times.push(await afterReload(() => writeFileSync(file, text), page, `Change number ${i}x`));
			await new Promise((resolve) => setTimeout(resolve, 200));
		}
		const used = Math.round((processor() - before) / times.length);
		writeFileSync(file, sound);
		const sorted = times.sort((a, b) => a - b).map(Math.round);
		console.log(
			`${what}, from save to page: ${sorted[5]} ms in the middle, ${sorted[0]} to ${sorted[10]} ms; ${used} ms of processor`,
		);
	}
	const sound = readFileSync(drillFile, "utf8");
	writeFileSync(drillFile, sound.replace(/^shapes: .*$/m, 'shapes: ["no-such-shape"]'));
	console.log(`a problem on the page: ${Math.round(await until(drillPage, "H201"))} ms`);
	writeFileSync(drillFile, sound);
	console.log(`and mended: ${Math.round(await until(drillPage, "preview-bar"))} ms`);
} finally {
	server.kill("SIGKILL");
	rmSync(dir, { recursive: true, force: true });
}
