/**
 * How long the desk takes to answer a change: made in the texts, read, counted, held against what was found
 * before, and written. `node tests/bench/desk.ts [CLUB …]`; the demo club, where none is said. The club's
 * folder is copied first. Printed: the median and the slowest of the changes, and the median of the processor.
 */

import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Desk } from "../../scripts/desk/desk.ts";
import { DeskApi } from "../../scripts/desk/desk-api.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import type { PlanChange } from "../../scripts/model.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { REPOSITORY } from "../open-fixture.ts";

const ROUNDS = 8;

for (const club of process.argv.length > 2 ? process.argv.slice(2) : [REPOSITORY]) {
	const dir = mkdtempSync(join(tmpdir(), "desk-bench-"));
	for (const part of ["content", "_data"]) cpSync(join(club, part), join(dir, part), { recursive: true });
	const started = performance.now();
	const desk = new Desk({
		clubDir: dir,
		outDir: join(dir, "_site"),
		readOnly: false,
		now: () => new Date(),
		words: wordsFor("en"),
		open: openHandbook,
	});
	const api = new DeskApi(desk, join(dir, "_site"), () => undefined);
	const board = desk.state().board;
	const opened = performance.now() - started;
	const times = new Map<string, number[]>();
	/** Of the processor alone, where others work on the machine as well. */
	const cores = new Map<string, number[]>();
	const timed = async (name: string, route: string, body: object): Promise<void> => {
		const at = performance.now();
		const used = process.cpuUsage();
		const reply = await api.post(route, body);
		const text = JSON.stringify(reply?.body);
		if (reply?.status !== 200) throw new Error(`${name}: ${text}`);
		times.set(name, [...(times.get(name) ?? []), performance.now() - at]);
		const { user, system } = process.cpuUsage(used);
		cores.set(name, [...(cores.get(name) ?? []), (user + system) / 1000]);
	};
	const blocks = (board?.weeks ?? []).flatMap(({ areas }) => areas.flatMap((area) => area.blocks));
	const plan = (name: string, change: PlanChange) =>
		timed(name, "plan", { revision: desk.revision, what: name, changes: [change] });
	for (let round = 0; round < ROUNDS; round++) {
		const block = blocks[Math.floor((blocks.length * round) / ROUNDS)];
		if (block === undefined) continue;
		const [week = "", area = ""] = block.at.split("/");
		await plan("minutes", { set: { block: block.at, minutes: block.minutes + 1 } });
		await timed("undo", "undo", {});
		await timed("redo", "redo", {});
		await plan("move in the week", { move: { from: block.at, to: `${week}/${area}/1` } });
		await timed("undo", "undo", {});
	}
	const drills = desk.plan?.curriculum.drills.size ?? 0;
	console.log(`${club}: ${drills} drills, ${blocks.length} blocks; opened in ${Math.round(opened)} ms`);
	for (const [name, all] of times) {
		const [sorted, own] = [all, cores.get(name) ?? []].map((one) => one.toSorted((a, b) => a - b));
		const of = (list: readonly number[] = [], at = list.length >> 1) => Math.round(list[at] ?? 0);
		console.log(
			`  ${name.padEnd(18)} ${of(sorted)} ms, slowest ${of(sorted, all.length - 1)} ms; processor ${of(own)} ms`,
		);
	}
	rmSync(dir, { recursive: true, force: true });
}
