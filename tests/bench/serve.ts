/**
 * From saving a file to the page: `serve` on a club of 1,000 drills, or as many as the argument says.
 * Prints the milliseconds from the write to the moment the page holds the change, for eleven changes
 * of a drill and of a week, and the time to a problem on the page and back.
 */

import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
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
	const drillPage = `/drills/${drill.id}/`;
	console.log(`${drills} drills: the first page after ${Math.round(await until(drillPage, "<h1"))} ms`);
	const drillFile = join(dir, "content/drills", drill.apparatus[0] ?? "", `${drill.id}.md`);
	for (const [what, file, page, line] of [
		["a drill", drillFile, drillPage, "title"],
		["a week", join(dir, "content/weeks/week-03.md"), "/weeks/week-03/", "theme"],
	] as const) {
		const sound = readFileSync(file, "utf8");
		const times: number[] = [];
		for (let i = 0; i < 11; i++) {
			writeFileSync(file, sound.replace(new RegExp(`^${line}: .*$`, "m"), `${line}: Change number ${i}x`));
			times.push(await until(page, `Change number ${i}x`));
			await new Promise((resolve) => setTimeout(resolve, 200));
		}
		writeFileSync(file, sound);
		const sorted = times.sort((a, b) => a - b).map(Math.round);
		console.log(
			`${what}, from save to page: ${sorted[5]} ms in the middle, ${sorted[0]} to ${sorted[10]} ms`,
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
