/**
 * Benchmark: mending. A right term (the demo's, mended first) is damaged by swaps that a seed chooses, and
 * mended again; then one week, and a club of 1,000 drills and 40 weeks. Prints seconds of the clock and of
 * the processor (solver and measures together), and asserts nothing.
 * Run with `node tests/bench/solve.ts [faults …]`, `… large [seconds]`, or `… live` for what one change of
 * the plan takes to be counted, as a desk asks for it.
 */

import { compareFindings } from "../../scripts/compute/compare-findings.ts";
import { measure } from "../../scripts/compute/measures.ts";
import { changedPlan } from "../../scripts/compute/plan-changes.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { withWeeks } from "../../scripts/link/join-records.ts";
import type { Curriculum } from "../../scripts/model.ts";
import { changesOf } from "../../scripts/solve/apply.ts";
import { Choices, type Scope } from "../../scripts/solve/choices.ts";
import { inComponents } from "../../scripts/solve/components.ts";
import { type Mended, mend } from "../../scripts/solve/mend.ts";
import { Solver } from "../../scripts/solve/solver.ts";
import { numbersFrom } from "../solve/small-club.ts";

/** Milliseconds of the processor, so that a limit means the same on a busy machine. */
function now(): number {
	const { user, system } = process.cpuUsage();
	return (user + system) / 1000;
}

/** Other drills on so many seats. */
export function damaged(curriculum: Curriculum, faults: number, seed: number): Curriculum {
	const below = numbersFrom(seed);
	const choices = new Choices(curriculum);
	const seats = choices.seats.filter((seat) => choices.candidates(seat).length > 0);
	const swaps = new Map<string, string>();
	while (swaps.size < faults) {
		const seat = seats[below(seats.length)];
		const able = seat === undefined ? [] : choices.candidates(seat);
		const drill = able[below(able.length)];
		if (seat === undefined || drill === undefined) continue;
		const { plan, apparatus, block } = seat.part;
		swaps.set(`${plan.week}/${apparatus}/${block.number}/${seat.station}`, drill.id);
	}
	const weeks = curriculum.weeks.map((week) => ({
		...week,
		apparatus: week.apparatus.map((plan) => ({
			...plan,
			blocks: plan.blocks.map((block) => ({
				...block,
				stations: block.stations.map((station, i) => {
					const drill = swaps.get(`${week.week}/${plan.apparatus}/${block.number}/${i}`);
					return drill === undefined ? station : { ...station, drill };
				}),
			})),
		})),
	}));
	return withWeeks(curriculum, weeks);
}

async function timed(
	name: string,
	curriculum: Curriculum,
	seconds: number,
	scope: Scope = {},
): Promise<Mended> {
	const solver = new Solver();
	const [started, before] = [performance.now(), now()];
	const choices = new Choices(curriculum, { scope });
	// The solver has a clock alone: how much longer a second of the processor takes beside other work.
	const busy = (): number => Math.max(1, (performance.now() - started) / (now() - before));
	const mended = await mend(choices, {
		solve: inComponents(
			(program, wish) => solver.solve(program, { ...wish, seconds: wish.seconds * busy() }),
			now,
		),
		isAsked: ({ about }) => scope.week === undefined || about.week === scope.week,
		seconds,
		now,
	});
	const processor = ((now() - before) / 1000).toFixed(1);
	await solver.end();
	const clock = ((performance.now() - started) / 1000).toFixed(1);
	console.log(
		`${name}: ${mended.before.length} causes → ${mended.after.length}, ${changesOf(choices, mended.chosen).length} changes, proof ${mended.proof} (${mended.status}), price ${mended.price.toFixed(2)}, bound ${mended.bound.toFixed(2)}; clock ${clock} s, processor ${processor} s; ${mended.size.rows} rows, ${mended.size.choices} choices; solver ${Math.round(mended.size.memory / 2 ** 20)} MB, process ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`,
	);
	return mended;
}

/** The demo with so many drills and weeks: copies under other ids, and its weeks again and again. */
function enlarged(demo: Curriculum, drills: number, weeks: number): Curriculum {
	const own = [...demo.drills.values()];
	const all = Array.from({ length: drills }, (_, i) => {
		const drill = own[i % own.length];
		const round = Math.floor(i / own.length);
		return drill === undefined || round === 0
			? drill
			: { ...drill, id: `${drill.id}-${round + 1}`, planned: [] };
	}).filter((drill) => drill !== undefined);
	const curriculum = {
		...demo,
		term: { ...demo.term, weeks, closed: [] },
		drills: new Map(all.map((drill) => [drill.id, drill])),
	};
	const plans = Array.from({ length: weeks }, (_, i) => ({
		...demo.weeks[i % demo.weeks.length],
		week: i + 1,
	}));
	return withWeeks(curriculum, plans as Curriculum["weeks"]);
}

/** Milliseconds of the processor for changes made one after the other, each on top of those before it. */
function live(name: string, curriculum: Curriculum): void {
	let measured = measure(curriculum);
	const before = measured.findings.length;
	const places = curriculum.weeks.flatMap(({ week, apparatus }) =>
		apparatus.flatMap((on) =>
			on.blocks.map(({ number, minutes }) => ({ block: `${week}/${on.apparatus}/${number}`, minutes })),
		),
	);
	const below = numbersFrom(7);
	const times = Array.from({ length: 40 }, () => {
		const place = places[below(places.length)];
		const started = now();
		const longer = { block: place?.block ?? "", minutes: (place?.minutes ?? 0) + 1 };
		const after = measure(changedPlan(measured.curriculum, [{ set: longer }]));
		compareFindings(measured.findings, after.findings);
		measured = after;
		return now() - started;
	}).sort((a, b) => a - b);
	const at = (share: number): string => (times[Math.floor(share * (times.length - 1))] ?? 0).toFixed(0);
	console.log(
		`${name}, a block's minutes changed 40 times: ${at(0.5)} ms each in the middle, ${at(0.9)} ms nine of ten, ${at(1)} ms at most; findings ${before} → ${measured.findings.length}`,
	);
}

async function main(): Promise<void> {
	const { handbook } = openHandbook(".");
	if (handbook === undefined) throw new Error("The demo has errors.");
	const { curriculum } = handbook;
	if (process.argv[2] === "live") {
		live("The demo", curriculum);
		live("1,000 drills and 40 weeks", enlarged(curriculum, 1000, 40));
		return;
	}
	if (process.argv[2] === "large") {
		const large = damaged(enlarged(curriculum, 1000, 40), 20, 7);
		const worse = damaged(enlarged(curriculum, 1000, 40), 200, 7);
		await timed("1,000 drills and 40 weeks, a week", worse, 60, { week: 8 });
		await timed("1,000 drills and 40 weeks, the term", large, Number(process.argv[3] ?? 300));
		return;
	}
	const right = await timed("the demo's term", curriculum, 120);
	const faults = process.argv.length > 2 ? process.argv.slice(2).map(Number) : [5, 20, 60];
	for (const count of faults) await timed(`${count} faults`, damaged(right.curriculum, count, 7), 120);
	await timed("one week of 20 faults", damaged(right.curriculum, 20, 7), 60, { week: 8 });
}

if (import.meta.main) await main();
