/**
 * Times what a device does for its first page after the worker slept: read the program, open the records,
 * make one page. Each run is a process of its own, so that nothing is compiled or kept.
 *
 *   node tests/bench/first-page.ts SITE [runs]
 *
 * SITE is a built site. Prints milliseconds of this machine's processor, all threads, and the same four
 * times for an old phone: for a drill, then for a class sheet, each made first. Browsers keep the program
 * compiled, so its line is not in the sum.
 */

import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { runInThisContext } from "node:vm";
import type { DeviceScope } from "../../scripts/records/device.ts";
import { type EditionList, recordsPath } from "../../scripts/records/edition-list.ts";

const PHONE = 4;
const [site = "", count = "20", page] = process.argv.slice(2);
if (page === undefined) measure(Number(count));
else console.log(JSON.stringify(once(page)));

function measure(runs: number): void {
	const pages = readdirSync(site, { recursive: true })
		.map((path) => String(path).split(sep).join("/"))
		.sort();
	for (const [kind, form] of [
		["drill", /^drills\/[^/]+\/index\.html$/],
		["class sheet", /^classes\/[^/]+\/[^/]+\/index\.html$/],
	] as const) {
		const own = pages.filter((path) => form.test(path));
		const times = Array.from({ length: runs }, (_, i) => {
			const path = own[Math.floor((i * own.length) / runs)] ?? "";
			const args = [fileURLToPath(import.meta.url), site, "1", path];
			return JSON.parse(execFileSync(process.execPath, args, { encoding: "utf8" })) as Times;
		});
		const of = (value: (one: Times) => number, share: number) => {
			const sorted = times.map(value).sort((a, b) => a - b);
			return sorted[Math.min(runs - 1, Math.floor(share * runs))] ?? 0;
		};
		const sum = ({ open, make }: Times) => open + make;
		const line = (share: number) =>
			`program ${of((one) => one.program, share).toFixed(0)}, open ${of((one) => one.open, share).toFixed(0)}, page ${of((one) => one.make, share).toFixed(0)}; open and page ${of(sum, share).toFixed(0)}, on a phone ${(PHONE * of(sum, share)).toFixed(0)}`;
		console.log(`${kind}, ${runs} runs: median ${line(0.5)}; 95 of 100 ${line(0.95)}`);
	}
}

interface Times {
	readonly program: number;
	readonly open: number;
	readonly make: number;
}

function once(path: string): Times {
	const read = (file: string) => readFileSync(join(site, file), "utf8");
	const [, text = "{}"] = /HANDBOOK_EDITION=(\{.*?\});/s.exec(read("worker.js")) ?? [];
	const list = JSON.parse(text) as EditionList;
	const program = read(list.program);
	const texts = new Map(list.records.map(([name, hash]) => [name, read(recordsPath(hash))]));
	const timed = <T>(run: () => T): readonly [number, T] => {
		const before = process.cpuUsage();
		const result = run();
		const { user, system } = process.cpuUsage(before);
		return [(user + system) / 1000, result];
	};
	const [compiled] = timed(() => runInThisContext(program));
	const { handbookOf } = globalThis as DeviceScope;
	if (handbookOf === undefined) throw new Error("the program hands nothing over");
	const [open, handbook] = timed(() => handbookOf((name) => texts.get(name), list.issued));
	const [make, made] = timed(() => handbook.page(path));
	if (made === undefined) throw new Error(`${path} is made by the build`);
	return { program: compiled, open, make };
}
