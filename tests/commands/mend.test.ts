/** `mend` and `plan` as a director uses them: found, asked about, written, taken back. */

import { spawn } from "node:child_process";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { whatIf } from "../../scripts/commands/compare.ts";
import { type MendOptions, mendCommand } from "../../scripts/commands/mend.ts";
import { planCommand } from "../../scripts/commands/plan.ts";
import type { Run } from "../../scripts/commands/run.ts";
import { undo } from "../../scripts/commands/undo.ts";
import { changeTexts } from "../../scripts/edit/change-texts.ts";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { changeList } from "../../scripts/edit/write-changes.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { writeDraft } from "../compute/write-draft.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";

function club(name = "plans-to-mend"): { readonly dir: string; readonly run: Run; readonly said: string[] } {
	const dir = clubCopy(undefined, join(FIXTURES, "clubs", name));
	const said: string[] = [];
	const run: Run = {
		clubDir: dir,
		outDir: join(dir, "_site"),
		now: new Date("2026-11-30T12:00:00Z"),
		out: { line: (text) => said.push(text), colour: false },
		progress: { stream: { write: () => undefined }, live: false },
	};
	return { dir, run, said };
}

const USUAL: MendOptions = { plans: 1, timeLimit: 60, write: false, json: false };

/** What gymnasts are not ready for, or not looked after in. */
const SAFETY: MendOptions = { ...USUAL, finding: "safety" };

function findingsIn(dir: string) {
	return openHandbook(dir).handbook?.findings ?? [];
}

describe("mend", () => {
	it("finds changes that --what-if agrees with, writes them, and they are taken back", {
		timeout: 60_000,
	}, async () => {
		const { dir, run, said } = club();
		const before = readTexts(dir);
		const list = join(dir, "changes.yaml");
		expect(await mendCommand(run, { ...SAFETY, list })).toBe(0);
		expect(readTexts(dir)).toEqual(before);
		const counted = said.find((line) => /^\d+ changes?\. Findings: /.test(line)) ?? "";
		const [, gone, come] = /Findings: (\d+) gone, (\d+) new/.exec(counted) ?? [];
		expect(Number(gone)).toBeGreaterThan(Number(come));
		expect(counted).toContain("Proved: no fewer changes do as much.");

		const asked: string[] = [];
		expect(whatIf(dir, list, { line: (text) => asked.push(text), colour: false }, { json: false })).toBe(0);
		expect(asked.at(-1)).toContain(`Findings: ${gone} gone, ${come} new`);

		const then = findingsIn(dir).length;
		expect(await mendCommand(run, { ...SAFETY, write: true })).toBe(0);
		expect(readTexts(dir)).not.toEqual(before);
		expect(findingsIn(dir)).toHaveLength(then - Number(gone) + Number(come));
		expect(undo(run)).toBe(0);
		expect(readTexts(dir)).toEqual(before);
	});

	it("is known to pages of the same plan, until something changes", { timeout: 60_000 }, async () => {
		const drill = (id: string, after: readonly string[] = []) => ({
			id,
			levels: ["one"],
			apparatus: ["floor"],
			after,
		});
		const dir = writeDraft({
			levels: ["one"],
			apparatus: ["floor"],
			drills: [drill("roll"), drill("roll-on", ["roll"])],
			weeks: {
				1: { floor: [{ drill: "roll-on", minutes: 6 }] },
				2: { floor: [{ drill: "roll", minutes: 6 }] },
			},
			term: { weeks: 2 },
			classes: [{ id: "monday", rotation: ["floor"], gymnasts: 6, minutes: 30, day: "monday" }],
		});
		onTestFinished(() => rmSync(dir, { recursive: true }));
		const run = { ...club().run, clubDir: dir };
		// Kept on the machine by every byte of the folder: an earlier run of this test is to be another club.
		const [week = ""] = [...readTexts(dir).keys()].filter((path) => path.startsWith("content/weeks/"));
		const addWords = (words: string) =>
			writeFileSync(join(dir, week), `${readFileSync(join(dir, week), "utf8")}\n${words}\n`);
		addWords(dir);
		const known = (taught = true) => openHandbook(dir, { taught }).handbook?.termMend() ?? [];
		// What one week needs says nothing of the term.
		await mendCommand(run, { ...USUAL, week: 1 });
		expect(known()).toEqual([]);
		const list = join(dir, "changes.yaml");
		expect(await mendCommand(run, { ...USUAL, list })).toBe(0);
		expect(known()).toHaveLength(1);
		// What is published is the same from every machine.
		expect(known(false)).toEqual([]);
		expect(readFileSync(list, "utf8").trim()).toBe(changeList(known()));
		addWords("Another word.");
		expect(known()).toEqual([]);
	});

	it("leaves alone what is kept", { timeout: 60_000 }, async () => {
		const { dir, run, said } = club();
		for (const path of readTexts(dir).keys()) {
			if (!path.startsWith("content/weeks/")) continue;
			const text = readFileSync(join(dir, path), "utf8");
			writeFileSync(join(dir, path), text.replace(/^week:/m, "keep: true\nweek:"));
		}
		expect(await mendCommand(run, { ...USUAL, json: true })).toBe(0);
		const { plans } = JSON.parse(said.join("\n")) as { plans: { changes: unknown[]; left: unknown[] }[] };
		expect(plans[0]?.changes).toEqual([]);
		expect(plans[0]?.left.length).toBeGreaterThan(0);
	});

	it("says which rules cannot hold together", { timeout: 60_000 }, async () => {
		const { dir, run, said } = club();
		for (const path of readTexts(dir).keys()) {
			if (!path.startsWith("content/weeks/")) continue;
			const text = readFileSync(join(dir, path), "utf8");
			writeFileSync(join(dir, path), text.replace(/^week:/m, "keep: true\nweek:"));
		}
		const [first] = findingsIn(dir).filter(({ code }) => code !== "H345");
		expect(await mendCommand(run, { ...USUAL, finding: first?.code ?? "H302" })).toBe(1);
		const at = said.findIndex((line) => /^(These cannot hold together|This cannot be had)/.test(line));
		expect(said[at + 1]).toContain(first?.code);
	});

	it.each(["en", "fr"] as const)("tells in sentences what cannot hold together, in %s", async (language) => {
		const drill = (id: string, shapes: readonly string[]) => ({
			id,
			shapes,
			levels: ["one"],
			apparatus: ["floor"],
		});
		const dir = writeDraft({
			levels: ["one"],
			apparatus: ["floor"],
			shapes: ["tuck", "handstand"],
			drills: [
				drill("roll", ["tuck"]),
				drill("rock", ["tuck"]),
				drill("ball", ["tuck"]),
				{ ...drill("kick-up", ["handstand"]), spotters: 3 },
			],
			weeks: { 1: { floor: [{ stations: ["roll", "rock", "ball"], minutes: 30 }] } },
			term: { weeks: 1 },
			classes: [
				{ id: "thursday", rotation: ["floor"], gymnasts: 9, coaches: 2, minutes: 30, day: "thursday" },
			],
			targets: { shapeWeeks: 1 },
		});
		onTestFinished(() => rmSync(dir, { recursive: true }));
		writeFileSync(join(dir, "_data/club.yaml"), `name: Club\nformat: 1\nlanguage: ${language}\n`);
		const { run, said } = club();
		expect(await mendCommand({ ...run, clubDir: dir }, { ...USUAL, finding: "H303" })).toBe(1);
		const told = said.slice(said.indexOf("These cannot hold together:") + 1);
		const one = (code: string) => told.find((line) => line.trim().startsWith(code)) ?? "";
		expect(one("H303")).toContain("handstand");
		// Three spotted stations' worth of hands, and two coaches on Thursday.
		expect(one("H331")).toMatch(
			language === "en" ? /thursday.*3 coaches needed.*2/i : /thursday.*3 entraîneurs.*2/i,
		);
	});

	it("ends at a first Ctrl-C with the best plan so far", { timeout: 180_000 }, async () => {
		// Two weeks in the wrong order, for one level: enough to be at it for a while.
		const dir = clubCopy(undefined, REPOSITORY);
		for (const [path, text] of changeTexts(readTexts(dir), [{ exchange: [2, 9] }]))
			writeFileSync(join(dir, path), text);
		const child = spawn(
			process.execPath,
			["scripts/commands/main.ts", "mend", "--level", "level-1", "--club", dir],
			{
				cwd: REPOSITORY,
				stdio: ["ignore", "pipe", "pipe"],
			},
		);
		let said = "";
		const worth: number[] = [];
		let isSent = false;
		child.stdout.on("data", (text) => {
			said += text;
		});
		child.stderr.on("data", (text) => {
			for (const [, number] of String(text).matchAll(/: worth ([\d.]+) so far/g)) worth.push(Number(number));
			const [first = 0] = worth;
			if (!isSent && worth.some((one) => one < first)) isSent = child.kill("SIGINT");
		});
		const code = await new Promise((resolve) => child.once("exit", resolve));
		expect(isSent).toBe(true);
		expect(code).toBe(0);
		expect(said).toMatch(/^- (swap|set|exchange|move|add|split): /m);
		expect(said).toMatch(/\d+ changes?\. Findings: [1-9]\d* gone, .*Stopped before it was proved/);
	});

	it("offers plans that differ", { timeout: 60_000 }, async () => {
		const { run, said } = club();
		expect(await mendCommand(run, { ...SAFETY, plans: 2, json: true })).toBe(0);
		const { plans } = JSON.parse(said.join("\n")) as { plans: { changes: unknown[] }[] };
		expect(plans.length).toBeGreaterThan(1);
		expect(new Set(plans.map(({ changes }) => JSON.stringify(changes))).size).toBe(plans.length);
	});

	it("ends with 2 for a week, class or level that is not there", async () => {
		const { run, said } = club();
		expect(await mendCommand(run, { ...USUAL, week: 55 })).toBe(2);
		expect(await mendCommand(run, { ...USUAL, class: "nobody" })).toBe(2);
		expect(await mendCommand(run, { ...USUAL, level: "none" })).toBe(2);
		expect(said.every((line) => line.startsWith("error: There is no "))).toBe(true);
	});
});

describe("plan", () => {
	const options = { seed: 1, timeLimit: 20, write: false, json: false };

	it("plans an empty week, the same for the same seed, and touches no other file", {
		timeout: 60_000,
	}, async () => {
		const { dir, run } = club();
		const weeks = [...readTexts(dir).keys()].filter((path) => path.startsWith("content/weeks/"));
		const [gone = ""] = weeks.slice(-1);
		rmSync(join(dir, gone));
		const before = readTexts(dir);
		expect(await planCommand(run, { ...options, write: true })).toBe(0);
		const after = readTexts(dir);
		const made = [...after.keys()].filter((path) => !before.has(path));
		expect(made.length).toBeGreaterThan(0);
		for (const [path, text] of before) expect(after.get(path)).toBe(text);
		expect(openHandbook(dir).problems.filter(({ severity }) => severity === "error")).toEqual([]);
		expect(undo(run)).toBe(0);
		expect(await planCommand(run, { ...options, write: true })).toBe(0);
		expect(readTexts(dir)).toEqual(after);
	});

	it("never touches a week that has its plan", async () => {
		const { run, said } = club();
		const week = openHandbook(run.clubDir).handbook?.curriculum.weeks[0]?.week ?? 1;
		expect(await planCommand(run, { ...options, week })).toBe(2);
		expect(said[0]).toContain(`Week ${week} has its plan`);
	});
});
