/**
 * Benchmark: clubs that stand on one library.
 *
 *   node tests/bench/libraries.ts [--drills 10000] [--used 300] [--clubs 50] [--rounds 3]
 *
 * Prints what it costs to build a club that uses some drills of a large library, beside the same club with
 * the same drills in its own folder, in turns; then the time of so many clubs one after the other, each with
 * drills of its own choice. Nothing here is asserted.
 */

import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { clubResults } from "../../scripts/files/places.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { writeLargeClub } from "./large-club.ts";
import { type Figures, run } from "./run-process.ts";

const REPOSITORY = fileURLToPath(new URL("../../", import.meta.url));
/** Words of a drill in all its fields. */
const WORDS = 125;
/** What says nothing of drills, and is each club's own. */
const OWN_DATA = ["term.yaml", "targets.yaml", "accepted.yaml"];
const LISTS = ["levels", "apparatus", "shapes", "skills", "equipment", "purposes"];

const { values } = parseArgs({
	options: {
		drills: { type: "string", default: "10000" },
		used: { type: "string", default: "300" },
		clubs: { type: "string", default: "50" },
		rounds: { type: "string", default: "3" },
	},
});
const [drills, used, clubs, rounds] = [values.drills, values.used, values.clubs, values.rounds].map(
	Number,
) as [number, number, number, number];

const dir = mkdtempSync(join(tmpdir(), "libraries-"));
process.on("exit", () => rmSync(dir, { recursive: true, force: true }));
const library = join(dir, "library");
const demo = opened(REPOSITORY);
writeLargeClub(demo, library, { drills, words: WORDS });
const all = [...opened(library).curriculum.drills.keys()].filter((id) => !demo.curriculum.drills.has(id));

const sharing = writeClub("sharing", 0);
const whole = ownFolder(sharing);
const pairs: (readonly [Figures, Figures])[] = [];
for (let round = 0; round < rounds; round++) pairs.push([await build(sharing), await build(whole)]);
const { size } = opened(sharing).curriculum.drills;
const of = (figures: readonly Figures[]) =>
	`${middle(figures.map(({ cpu }) => cpu)).toFixed(1)} s of processor, ${middle(figures.map(({ mib }) => mib)).toFixed(0)} MiB`;
console.log(`${size} of ${drills} drills from a library: ${of(pairs.map(([one]) => one))}`);
console.log(`the same in the club's own folder:  ${of(pairs.map(([, one]) => one))}`);
console.log(
	`processor time, ratio of neighbours: ${pairs.map(([a, b]) => (a.cpu / b.cpu).toFixed(2)).join(" ")}`,
);

const figures: Figures[] = [];
for (let i = 1; i <= clubs; i++) figures.push(await build(writeClub(`club-${i}`, i)));
const sum = (value: (figure: Figures) => number) => figures.reduce((total, one) => total + value(one), 0);
console.log(
	`${clubs} clubs, one after the other: ${(sum(({ seconds }) => seconds) / 60).toFixed(1)} min, ${(sum(({ cpu }) => cpu) / clubs).toFixed(1)} s of processor each, ${Math.max(...figures.map(({ mib }) => mib)).toFixed(0)} MiB at most`,
);

function opened(club: string): Handbook {
	const { handbook, problems } = openHandbook(club);
	if (handbook === undefined) throw new Error(`${club}: ${problems[0]?.what}`);
	return handbook;
}

/** A club with the demo's weeks, which takes drills of the library, others than its neighbours do. */
function writeClub(name: string, turn: number): string {
	const club = join(dir, name);
	mkdirSync(join(club, "_data"), { recursive: true });
	cpSync(join(library, "content/weeks"), join(club, "content/weeks"), { recursive: true });
	for (const file of OWN_DATA) cpSync(join(library, "_data", file), join(club, "_data", file));
	const more = Math.max(0, used - demo.curriculum.drills.size);
	const take = Array.from({ length: more }, (_, i) => `drill:${all[(turn * more + i * 7) % all.length]}`);
	writeFileSync(
		join(club, "_data/club.yaml"),
		`name: ${name}\nlibraries: [{from: ../library, take: [${take.join(", ")}]}]\n`,
	);
	return club;
}

/** The same club with everything in its own folder. */
function ownFolder(club: string): string {
	const { drills: taken, guides } = opened(club).curriculum;
	const own = join(dir, "whole");
	cpSync(club, own, { recursive: true });
	writeFileSync(join(own, "_data/club.yaml"), "name: whole\n");
	for (const list of LISTS) cpSync(join(library, `_data/${list}.yaml`), join(own, `_data/${list}.yaml`));
	for (const { source } of [...taken.values(), ...guides.values()]) {
		const path = source.file.replace(/^.*?(content\/)/, "$1");
		mkdirSync(dirname(join(own, path)), { recursive: true });
		cpSync(join(library, path), join(own, path));
	}
	return own;
}

async function build(club: string): Promise<Figures> {
	const out = join(dir, "out");
	for (const made of [out, join(dir, ".out.editions"), clubResults(club)])
		rmSync(made, { recursive: true, force: true });
	const args = ["--max-semi-space-size=8", "scripts/commands/main.ts", "build", "--no-print"];
	return run(process.execPath, [...args, "--club", club, "--out", out], REPOSITORY);
}

function middle(list: readonly number[]): number {
	return list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;
}
