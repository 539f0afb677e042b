/** Small random clubs in which every plan can be tried, and the mending of them. */

import { exposuresOf } from "../../scripts/compute/exposures.ts";
import { keptPast } from "../../scripts/compute/taught.ts";
import type { Curriculum, WeekPlan } from "../../scripts/model.ts";
import { applied, asWritten } from "../../scripts/solve/apply.ts";
import { Choices, type ChoicesOptions } from "../../scripts/solve/choices.ts";
import { type Mended, mend, type Solve } from "../../scripts/solve/mend.ts";
import { type Chosen, priceOf } from "../../scripts/solve/model.ts";
import { brokenCases, type Case } from "../../scripts/solve/rules.ts";
import { build, type DrillDraft } from "../compute/build-curriculum.ts";

/** The same numbers on every run and machine (Lehmer's generator, MINSTD). */
export function numbersFrom(seed: number): (n: number) => number {
	let state = (seed * 7919) % 2_147_483_647 || 1;
	for (let i = 0; i < 3; i++) state = (state * 48_271) % 2_147_483_647;
	return (n) => {
		state = (state * 48_271) % 2_147_483_647;
		return state % n;
	};
}

/** Only drills change. */
export const SWAPS_ONLY: ChoicesOptions = {
	without: new Set(["minutes", "exchange", "weeks", "move", "split", "add"]),
};

/** Two weeks, two places, three to five drills in each, and every rule in force. */
export function smallClub(seed: number): Curriculum {
	const below = numbersFrom(seed);
	const pick = <T>(list: readonly T[]): T => list[below(list.length)] as T;
	const ids = Array.from({ length: 3 + below(2) }, (_, i) => `d${i}`);
	const skills = ["roll", "hold", "jump"];
	const drills = ids.map(
		(id, i): DrillDraft => ({
			id,
			levels: ["junior"],
			apparatus: below(3) === 0 ? ["floor"] : ["floor", "beam"],
			shapes: [pick(["tuck", "arch"])],
			skills: [pick(skills)],
			...(below(3) === 0 ? { performs: [pick(skills)] } : {}),
			...(i > 0 && below(2) === 0 ? { after: [`d${below(i)}`] } : {}),
			...(i > 0 && below(4) === 0 ? { ready: [{ drill: `d${below(i)}`, reps: 3 + below(6) }] } : {}),
			direction: pick(["forward", "backward", "none"] as const),
			sets: 1 + below(3),
			reps: 1 + below(4),
			turn: { seconds: 10 + below(40), atOnce: 1 + below(4) },
			contacts: { landings: 1 + below(3), hands: 1 + below(3) },
			spotters: below(3),
			equipment: [{ item: "mat", count: 1 + below(2), per: "station" }],
			...(below(3) === 0 ? { heights: new Map([["box", pick(["knee", "hip", "chest"] as const)]]) } : {}),
		}),
	);
	const drillFor = (apparatus: string) =>
		pick(drills.filter((drill) => drill.apparatus?.includes(apparatus)).map(({ id }) => id)) ?? "d0";
	const week = () => {
		const pair = [drillFor("floor"), drillFor("floor")];
		const isPair = below(4) === 0 && pair[0] !== pair[1];
		return {
			floor: isPair ? [{ stations: pair, minutes: 12 }] : [{ drill: drillFor("floor"), minutes: 6 }],
			...(drills.some((drill) => drill.apparatus?.includes("beam"))
				? { beam: [{ drill: drillFor("beam"), minutes: 5 + below(6) }] }
				: {}),
		};
	};
	// What is planned somewhere and never done by the class is a finding; that it is planned nowhere is none.
	drills.push({ id: "shown", levels: ["junior"], apparatus: ["hall"], skills, shapes: [] });
	const club = build({
		apparatus: ["floor", "beam", "hall"],
		shapes: ["tuck", "arch"],
		skills: [
			{ id: "roll", levels: ["junior"] },
			{ id: "hold", levels: ["junior"], needs: below(2) === 0 ? ["roll"] : [] },
			{ id: "jump", levels: [] },
		],
		equipment: [
			{ id: "mat", owned: 2 + below(2), adults: 1 },
			{ id: "box", range: [20, 60 + 10 * below(4)], step: 10 },
		],
		drills,
		weeks: {
			1: { ...week(), hall: [{ drill: "shown", minutes: 5 }] },
			2: week(),
			...(below(2) === 0 ? { 4: { floor: [{ drill: drillFor("floor"), minutes: 8 }] } } : {}),
		},
		term: { weeks: 4 },
		classes: [
			{
				id: "c",
				rotation: ["floor", "beam"],
				gymnasts: 4 + below(4),
				coaches: 1 + below(2),
				minutes: 30,
				ages: [7, 9],
				day: "monday",
				start: "16:00",
			},
		],
		targets: {
			shapeWeeks: 2,
			skillWeeks: 2,
			pairDirections: below(2) === 0,
			activeShare: 0.2 + below(3) / 10,
			loadStep: 1.5,
			landings: 20,
			newDrills: 2,
			skillReps: 4,
		},
	});
	// Of every third club coaches report that the first week was missed, or cut short.
	const { id, source, apparatus: places } = club.weeks[0] as WeekPlan;
	const done = seed % 2 === 0 ? ({ done: "not-done" } as const) : ({ done: "shortened", lost: 3 } as const);
	const blocks = places.flatMap(({ apparatus, blocks: [first] }) =>
		first === undefined
			? []
			: [{ apparatus, block: 1, drills: first.stations.map(({ drill }) => drill), path: [], ...done }],
	);
	const report = { week: id, class: "c", blocks, skills: [], source, path: [] };
	const reported = seed % 3 === 0 ? keptPast({ ...club, taught: [report] }, "2000-01-01") : club;
	return {
		...reported,
		weeks: reported.weeks.map((plan) => ({
			...plan,
			apparatus: plan.apparatus.map((on) =>
				on.apparatus === "hall" ? { ...on, blocks: on.blocks.map((one) => ({ ...one, keep: true })) } : on,
			),
		})),
	};
}

/** What a plan breaks, by key. */
function casesOf(choices: Choices, chosen: Chosen): ReadonlyMap<string, Case> {
	const { curriculum, partOf } = applied(choices, chosen);
	const counted = { curriculum, exposures: exposuresOf(curriculum) };
	const cases = brokenCases({ counted, partOf, chosen: chosen.columns, forms: chosen.forms });
	return new Map(cases.map((one) => [one.key, one]));
}

export interface Best {
	readonly weight: number;
	readonly changes: number;
	readonly plans: number;
}

/** Tries every drill on every seat; the least weight of what is broken, then the fewest changes. */
export function bestOfAll(curriculum: Curriculum): Best {
	const choices = new Choices(curriculum, SWAPS_ONLY);
	for (const seat of choices.seats) for (const drill of choices.candidates(seat)) choices.want(seat, drill);
	const written = asWritten(choices);
	const before = casesOf(choices, written);
	let best: Best = { weight: Number.POSITIVE_INFINITY, changes: 0, plans: 0 };
	let plans = 0;
	const seats = choices.seats.map(({ columns }) => [...columns.values()]);
	const at = seats.map(() => 0);
	for (;;) {
		const columns = new Set(seats.flatMap((list, i) => list[at[i] ?? 0] ?? []));
		const chosen = { forms: written.forms, columns };
		const isTwice = choices.pieces.some((piece) =>
			piece.forms.some(({ parts }) =>
				parts.some(({ seats: own }) => {
					const drills = own.map(
						(seat) => [...seat.columns.values()].find((one) => columns.has(one))?.drill.id,
					);
					return new Set(drills).size < drills.length;
				}),
			),
		);
		if (!isTwice || priceOf(chosen) === 0) {
			plans++;
			const cases = casesOf(choices, chosen);
			const isAllowed = [...cases.values()].every(({ key, isHard }) => !isHard || before.has(key));
			const weight = [...cases.values()].reduce((sum, one) => sum + one.weight, 0);
			const changes = Math.floor(priceOf(chosen));
			if (isAllowed && (weight < best.weight || (weight === best.weight && changes < best.changes)))
				best = { weight, changes, plans };
		}
		let i = 0;
		while (i < at.length && (at[i] ?? 0) + 1 >= (seats[i]?.length ?? 0)) at[i++] = 0;
		if (i >= at.length) return { ...best, plans };
		at[i] = (at[i] ?? 0) + 1;
	}
}

/** @param partsFrom from more cases than this on part by part */
export function mendSwaps(curriculum: Curriculum, solve: Solve, partsFrom = 12): Promise<Mended> {
	const choices = new Choices(curriculum, SWAPS_ONLY);
	return mend(choices, {
		solve,
		isAsked: () => true,
		seconds: 60,
		partsFrom,
		now: () => performance.now(),
	});
}
