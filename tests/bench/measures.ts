/**
 * Benchmark: all measures of a generated club of 1,000 drills and 40 weeks. Prints medians; asserts
 * nothing. Run with `node tests/bench/measures.ts`.
 */

import { calendarIcs } from "../../scripts/compute/calendar.ts";
import { exposuresOf } from "../../scripts/compute/exposures.ts";
import { MEASURES, measure } from "../../scripts/compute/measures.ts";
import { suggestions } from "../../scripts/compute/suggest.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { build, type Draft, type WeekDraft } from "../compute/build-curriculum.ts";

const WORDS = wordsFor("en");

const DRILLS = 1000;
const WEEKS = 40;
const ROUNDS = 15;

const levels = ["l1", "l2", "l3", "l4"];
const apparatus = ["warm-up", "floor", "vault", "bars", "beam", "trampoline"];
const shapes = Array.from({ length: 24 }, (_, i) => `shape-${i}`);
const skills = Array.from({ length: 80 }, (_, i) => ({
	id: `skill-${i}`,
	levels: levels.slice(i % 4),
	needs: i < 4 ? [] : [`skill-${i - 4}`],
	pattern: (["landing", "rotation", "spring", "swing"] as const)[i % 4] ?? "landing",
}));
const equipment = Array.from({ length: 40 }, (_, i) => ({ id: `item-${i}`, owned: 2 + (i % 9) }));

/** The same numbers on every run and machine (Lehmer's generator, MINSTD). */
let state = 20_270_104;
const below = (n: number): number => {
	state = (state * 48_271) % 2_147_483_647;
	return state % n;
};
const pick = <T>(list: readonly T[]): T => {
	const found = list[below(list.length)];
	if (found === undefined) throw new Error("nothing to pick from");
	return found;
};

const drills = Array.from({ length: DRILLS }, (_, i) => ({
	id: `drill-${i}`,
	apparatus: [apparatus[i % apparatus.length] ?? "floor"],
	levels: Object.fromEntries(levels.slice(below(3)).map((level) => [level, { sets: 2, reps: 3 + below(5) }])),
	shapes: [...new Set([pick(shapes), pick(shapes)])],
	skills: [...new Set([pick(skills).id, pick(skills).id])],
	direction: pick(["forward", "backward", "sideways", "none"] as const),
	turn: { seconds: 10 + below(30), atOnce: 1 + below(4) },
	contacts: { landings: below(3), hands: below(3) },
	equipment: [
		{ item: pick(equipment).id, count: 1 + below(2), per: "station" as const },
		{ item: pick(equipment).id, count: 1, per: "gymnast" as const },
	],
	reviewed: "2025-01-06",
	...(i % 3 === 0 && i >= 6 ? { after: [`drill-${i - 6}`] } : {}),
}));

const weeks = Object.fromEntries(
	Array.from({ length: WEEKS }, (_, w): [number, WeekDraft] => [
		w + 1,
		Object.fromEntries(
			apparatus.map((place, a) => {
				const here = () =>
					`drill-${a + apparatus.length * below(Math.floor((DRILLS - a) / apparatus.length))}`;
				return [
					place,
					[
						{ drill: here(), minutes: 6 },
						{ stations: [here(), here(), here(), here()], minutes: 16 },
						{ drill: here(), minutes: 5, levels: [pick(levels)] },
					],
				];
			}),
		),
	]),
);

const draft: Draft = {
	levels,
	apparatus,
	shapes,
	skills,
	equipment,
	drills,
	weeks,
	term: { starts: "2027-01-04", weeks: WEEKS, closed: [{ from: "2027-02-15", to: "2027-02-19" }] },
	classes: Array.from({ length: 12 }, (_, i) => ({
		id: `class-${i}`,
		levels: i % 4 === 3 ? ["l1", "l2"] : [levels[i % 4] ?? "l1"],
		day: (["monday", "tuesday", "thursday"] as const)[i % 3] ?? "monday",
		start: `${16 + (i % 3)}:${i % 2 === 0 ? "00" : "30"}`,
		minutes: 120,
		warmUp: 5,
		coolDown: 5,
		gymnasts: 8 + i,
		rotation: [...apparatus.slice(i % 6), ...apparatus.slice(0, i % 6)],
	})),
	targets: {
		shapeWeeks: 5,
		skillWeeks: 4,
		shapeGap: 5,
		skillGap: 6,
		pairDirections: true,
		activeShare: 0.5,
		loadStep: 1.5,
		reviewMonths: 18,
	},
};

const ms = (values: readonly number[]): string => {
	const sorted = [...values].sort((a, b) => a - b);
	return `${(sorted[Math.floor(sorted.length / 2)] ?? 0).toFixed(1).padStart(8)} ms`;
};

/**
 * Medians over rounds, each on a curriculum of its own, so that nothing remembered helps: by the clock,
 * and by the processor, which a busy machine disturbs less.
 */
function time(name: string, run: (curriculum: ReturnType<typeof build>) => unknown, rounds = ROUNDS): void {
	const clock: number[] = [];
	const processor: number[] = [];
	for (let round = 0; round < rounds; round++) {
		const curriculum = build(draft);
		const used = process.cpuUsage();
		const start = performance.now();
		run(curriculum);
		clock.push(performance.now() - start);
		const { user, system } = process.cpuUsage(used);
		processor.push((user + system) / 1000);
	}
	const first = `${(clock[0] ?? 0).toFixed(1)} ms`;
	console.log(`${name.padEnd(28)} clock ${ms(clock)}   processor ${ms(processor)}   first ${first}`);
}

const { exposures, findings } = measure(build(draft));
console.log(
	`${DRILLS} drills, ${WEEKS} weeks, ${exposures.length} exposures, ${findings.length} findings; medians of ${ROUNDS}, Node ${process.version}`,
);
// Tables and findings are counted when they are asked for.
time("all measures", (curriculum) => {
	const { tables, findings } = measure(curriculum);
	return [tables, findings];
});
time("exposures", exposuresOf);
for (const one of MEASURES) {
	time(one.name, (curriculum) => {
		const counted = { curriculum, exposures };
		return [one.tables(counted), one.findings(counted, WORDS)];
	});
}
time("calendar.ics", (curriculum) => calendarIcs(curriculum, WORDS));
time(
	"suggestions for every week",
	(curriculum) => {
		const suggest = suggestions({ curriculum, exposures });
		const all = curriculum.weeks.flatMap(({ week }) =>
			levels.flatMap((level) => apparatus.map((place) => suggest(week, level, place))),
		);
		const cut = all.filter((s) => !s.exact).length;
		console.log(`${all.length} suggestions, ${cut} of them cut short`);
	},
	1,
);
