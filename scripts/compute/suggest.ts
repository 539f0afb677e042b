/**
 * Suggestions: the fewest library drills that close the gaps of a week within its free minutes.
 *
 * Steps for one level on one apparatus in one week: find the gaps (shapes and skills that are due and
 * not met that week, a missing direction); find the library's drills for that level and apparatus that
 * keep the order if they are added after what is planned there; weigh each by the minutes it is
 * likely to take; choose. The choice closes as many gaps as the free minutes allow, with as few drills,
 * then as few minutes, as possible: exactly, by trying them, or greedily where that takes too long.
 */

import { originalOf } from "../link/join-records.ts";
import type { Curriculum, Direction, Exposure, Id, LinkedDrill } from "../model.ts";
import { bodyDirection, directionBalances } from "./balance.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";
import { groupsOf } from "./groups.ts";
import type { Counted } from "./measure.ts";
import { type Library, libraryOf } from "./meeting-order.ts";
import { compare, firstTimes, rotationsOf } from "./order.ts";
import { gapWanted, type SpacedKind, type Spacing, spacings, weeksWanted } from "./spacing.ts";
import { timeWithoutNew } from "./time.ts";
import { groupWorks } from "./work.ts";

/** Something a week lacks. */
export type Gap =
	| {
			readonly kind: SpacedKind;
			readonly id: Id;
			/** Never met by this level in the term; met in too few weeks; within a gap that is too long. */
			readonly because: "untrained" | "too few weeks" | "too long a gap";
	  }
	| { readonly kind: "direction"; readonly id: Direction; readonly because: "unmatched" };

/** Why a gap stays open. */
export type OpenReason =
	/** No drill of the library for this level and apparatus closes it, but for what the week has already. */
	| "no drill"
	/** Every drill that would close it comes before what it is built on. */
	| "order"
	/** The drills that would close it do not fit into the free minutes beside those chosen. */
	| "minutes";

export interface SuggestedDrill {
	readonly drill: Id;
	/** What it is likely to take: see `likelyMinutes`. */
	readonly minutes: number;
	readonly closes: readonly Gap[];
}

export interface Suggestion {
	/** Undefined where no class of the level says its minutes: then nothing is too long. */
	readonly freeMinutes: number | undefined;
	readonly gaps: readonly Gap[];
	readonly drills: readonly SuggestedDrill[];
	readonly open: readonly { readonly gap: Gap; readonly reason: OpenReason }[];
	/** Whether no smaller choice closes as much; false where the search was cut short. */
	readonly exact: boolean;
}

/** Minutes for a drill where the term plans nothing to judge by. A common length of a block. */
const DEFAULT_MINUTES = 5;

/**
 * Suggestions of a curriculum: a function of week, level and apparatus. What they all need is counted
 * once, so asking for every week is cheap.
 */
export function suggestions(counted: Counted): (week: number, level: Id, apparatus: Id) => Suggestion {
	const { curriculum, exposures } = counted;
	const spacingOf = Map.groupBy(
		spacings(counted).filter((s) => s.expected),
		(s) => s.level,
	);
	const missing = new Map(
		directionBalances(counted).flatMap((b) =>
			b.lacking.map((one) => [`${b.week} ${b.apparatus} ${one.level}`, one.missing] as const),
		),
	);
	const byLevel = Map.groupBy(exposures, (e) => e.level);
	const minutes = likelyMinutes(counted);
	const orders = new Map<Id, KeepsOrder>();
	const offerAt = (level: Id, apparatus: Id): Offer =>
		getOrMake(offersOf(originalOf(curriculum)), `${level} ${apparatus}`, () => {
			const drills = [...curriculum.drills.values()];
			const able = drills.filter((one) => one.levels.has(level) && one.apparatus.includes(apparatus));
			return offerOf(able);
		});

	return (week, level, apparatus) => {
		const offer = offerAt(level, apparatus);
		const gaps = gapsOf(
			curriculum,
			spacingOf.get(level) ?? [],
			week,
			offer,
			missing.get(`${week} ${apparatus} ${level}`),
		);
		const own = byLevel.get(level) ?? [];
		const keepsOrder = getOrMake(orders, level, () => orderOf(curriculum, level, own));
		const planned = new Set(own.filter((e) => e.week === week).map((e) => e.drill));
		const able = offer.drills.flatMap((drill) => {
			if (planned.has(drill.id)) return [];
			const closed = gaps.flatMap((gap, i) => (closes(curriculum, drill, gap) ? [i] : []));
			return closed.length === 0 ? [] : [{ drill, closes: closed }];
		});
		const candidates = able
			.filter(({ drill }) => keepsOrder(drill, week, apparatus))
			.map((one) => ({
				drill: one.drill.id,
				closes: one.closes,
				cost: minutes(one.drill.id, level, apparatus),
			}));
		const free = freeMinutes(curriculum, week, level, apparatus);
		const chosen = fewestCovering(gaps.length, candidates, free ?? Number.POSITIVE_INFINITY);
		const taken = new Set<number>();
		const drills = chosen.picks.flatMap((pick) => {
			const candidate = candidates[pick];
			if (candidate === undefined) return [];
			// Each gap is put down to the first drill that closes it.
			const own = candidate.closes.filter((gap) => !taken.has(gap));
			for (const gap of own) taken.add(gap);
			const gapsClosed = own.flatMap((gap) => gaps[gap] ?? []);
			return [{ drill: candidate.drill, minutes: candidate.cost, closes: gapsClosed }];
		});
		const open = gaps.flatMap((gap, i) => {
			if (taken.has(i)) return [];
			const isIn = (all: readonly { readonly closes: readonly number[] }[]) =>
				all.some((one) => one.closes.includes(i));
			const reason: OpenReason = isIn(candidates) ? "minutes" : isIn(able) ? "order" : "no drill";
			return [{ gap, reason }];
		});
		return { week, level, apparatus, freeMinutes: free, gaps, drills, open, exact: chosen.exact };
	};
}

/** Whatever is planned, the library has the same. */
const offersOf = onceEach((_original: Curriculum) => new Map<string, Offer>());

/** What the library has for a level on an apparatus. */
interface Offer {
	readonly drills: readonly LinkedDrill[];
	/** What those drills train. */
	readonly shape: ReadonlySet<Id>;
	readonly skill: ReadonlySet<Id>;
}

function offerOf(drills: readonly LinkedDrill[]): Offer {
	return {
		drills,
		shape: new Set(drills.flatMap((d) => d.shapes)),
		skill: new Set(drills.flatMap((d) => d.skills)),
	};
}

/**
 * The gaps of a week: what the library could train on this apparatus at this level, is not met that
 * week, and is due: never met in the term, met in fewer weeks than the target, or inside a gap longer
 * than the target. Then the direction the apparatus lacks.
 */
function gapsOf(
	curriculum: Curriculum,
	level: readonly Spacing[],
	week: number,
	offer: Offer,
	direction: "forward" | "backward" | undefined,
): readonly Gap[] {
	const gaps: Gap[] = [];
	for (const { kind, id, taught } of level) {
		if (!offer[kind].has(id) || taught.includes(week)) continue;
		const because = dueBecause(taught, week, weeksWanted(curriculum, kind), gapWanted(curriculum, kind));
		if (because !== undefined) gaps.push({ kind, id, because });
	}
	if (
		direction !== undefined &&
		curriculum.targets.pairDirections === true &&
		offer.drills.some((drill) => bodyDirection(curriculum, drill) === direction)
	) {
		gaps.push({ kind: "direction", id: direction, because: "unmatched" });
	}
	return gaps;
}

/** Why a thing met in those weeks is due in another; undefined where it is not. */
function dueBecause(
	taught: readonly number[],
	week: number,
	leastWeeks: number | undefined,
	longestGap: number | undefined,
): "untrained" | "too few weeks" | "too long a gap" | undefined {
	if (taught.length === 0) return "untrained";
	const before = taught.findLast((w) => w < week);
	const after = taught.find((w) => w > week);
	if (
		longestGap !== undefined &&
		before !== undefined &&
		after !== undefined &&
		after - before > longestGap
	) {
		return "too long a gap";
	}
	return leastWeeks !== undefined && taught.length < leastWeeks ? "too few weeks" : undefined;
}

function closes(curriculum: Curriculum, drill: LinkedDrill, gap: Gap): boolean {
	if (gap.kind === "shape") return drill.shapes.includes(gap.id);
	if (gap.kind === "skill") return drill.skills.includes(gap.id);
	return bodyDirection(curriculum, drill) === gap.id;
}

/**
 * Minutes that no class of the level which visits the apparatus has planned in a week: the least of
 * theirs, never below 0. Undefined where none of them says its minutes.
 */
export function freeMinutes(
	curriculum: Curriculum,
	week: number,
	level: Id,
	apparatus: Id,
): number | undefined {
	const plan = curriculum.weeks.find((w) => w.week === week);
	const classes = new Set(
		groupsOf(curriculum)
			.filter((group) => group.rotation.includes(apparatus) && group.levels.includes(level))
			.map((group) => group.class),
	);
	const free = [...classes].flatMap((group) => {
		if (group.minutes === undefined) return [];
		const planned =
			plan === undefined ? group.warmUp + group.coolDown : timeWithoutNew(curriculum, plan, group).planned;
		return [Math.max(0, group.minutes - planned)];
	});
	return free.length === 0 ? undefined : Math.min(...free);
}

/**
 * What a drill is likely to take, judged by the club's own plan: the median of its minutes wherever the
 * term does it; else of all drills of that level on that apparatus; else five.
 */
function likelyMinutes({ exposures }: Counted): (drill: Id, level: Id, apparatus: Id) => number {
	const timed = exposures.filter(({ minutes }) => minutes > 0);
	const medians = (keyOf: (exposure: Exposure) => string) =>
		new Map(Array.from(Map.groupBy(timed, keyOf), ([key, own]) => [key, median(own.map((e) => e.minutes))]));
	const ofDrill = medians(({ drill }) => drill);
	const atPlace = medians(({ level, apparatus }) => `${level} ${apparatus}`);
	return (drill, level, apparatus) =>
		ofDrill.get(drill) ?? atPlace.get(`${level} ${apparatus}`) ?? DEFAULT_MINUTES;
}

type KeepsOrder = (drill: LinkedDrill, week: number, apparatus: Id) => boolean;

/**
 * Whether a drill added after everything planned on an apparatus in a week would be met after all that
 * it is built on, for every group of the level. The rules are those of the order measure: `after` counts
 * unless gymnasts arrive with it or their level is not offered it; so does what the skills it performs
 * need, unless it performs that too, and what it says must come before the first try. A drill that the
 * level does earlier already is always in order.
 */
function orderOf(curriculum: Curriculum, level: Id, exposures: readonly Exposure[]): KeepsOrder {
	const entry = new Set(curriculum.levels.get(level)?.entry ?? []);
	const library = libraryOf(curriculum);
	const skillsDoneIn = (id: Id): Iterable<Id> => {
		const drill = curriculum.drills.get(id);
		return drill === undefined ? [] : library.skillsDoneIn(drill).keys();
	};
	const rotations = rotationsOf(curriculum, level).map((rank) => ({
		rank,
		drills: firstTimes(exposures, (e) => [e.drill], rank),
		skills: firstTimes(exposures, (e) => skillsDoneIn(e.drill), rank),
	}));
	const doneBefore = doneReps(curriculum, library, level, exposures);
	return (drill, week, apparatus) => {
		const at: Exposure = {
			week,
			level,
			apparatus,
			block: Number.MAX_SAFE_INTEGER,
			drill: drill.id,
			minutes: 0,
		};
		return rotations.every(({ rank, skills, drills }) => {
			const met = (times: ReadonlyMap<Id, Exposure>, id: Id): boolean => {
				const first = times.get(id);
				return first !== undefined && compare(first, at, rank) < 0;
			};
			if (met(drills, drill.id)) return true;
			const needsMet = [...library.skillsOf(drill)].every(
				(id) =>
					entry.has(id) ||
					(curriculum.skills.get(id)?.needs ?? []).every(
						(need) => entry.has(need) || library.countOf(drill, need) > 0 || met(skills, need),
					),
			);
			return (
				needsMet &&
				drill.after.every(
					(id) => entry.has(id) || curriculum.drills.get(id)?.levels.has(level) !== true || met(drills, id),
				) &&
				drill.ready.every(
					(gate) =>
						gate.text !== undefined ||
						[gate.drill, gate.skill].every(
							(id) => id === undefined || entry.has(id) || doneBefore(id, week) >= gate.reps,
						),
				)
			);
		});
	};
}

/**
 * Repetitions of a drill or skill that are done before a week: by the group of the level that does the
 * fewest; as planned where the level is in no class. The week itself is left out, to be careful.
 */
function doneReps(
	curriculum: Curriculum,
	library: Library,
	level: Id,
	exposures: readonly Exposure[],
): (id: Id, week: number) => number {
	const groups = groupsOf(curriculum).filter((group) => group.levels.includes(level));
	const all =
		groups.length === 0
			? [exposures.map((e) => ({ week: e.week, drill: e.drill, reps: e.repetitions ?? 0 }))]
			: groups.map((group) =>
					groupWorks(curriculum)
						.filter((work) => work.group.gymnastsId === group.gymnastsId)
						.flatMap(({ week, blocks }) =>
							blocks.flatMap(({ stations }) =>
								stations.map(({ drill, done = 0 }) => ({ week, drill: drill.id, reps: done })),
							),
						),
				);
	return (id, week) =>
		Math.min(
			...all.map((rows) =>
				rows.reduce((sum, row) => {
					const drill = curriculum.drills.get(row.drill);
					if (row.week >= week || drill === undefined) return sum;
					return sum + row.reps * (drill.id === id ? 1 : library.countOf(drill, id));
				}, 0),
			),
		);
}

/** A set that covers some of the elements 0 … n − 1, at a cost. */
export interface CoverCandidate {
	readonly closes: readonly number[];
	readonly cost: number;
}

export interface Cover {
	/** Positions of the chosen candidates, ascending. */
	readonly picks: readonly number[];
	/** How many elements they cover. */
	readonly covered: number;
	readonly cost: number;
	/** Whether it was proved that nothing is better. */
	readonly exact: boolean;
}

/** Search steps after which the best choice found so far is taken. */
const STEP_LIMIT = 20_000;

/**
 * The choice that covers the most elements within the budget, with the fewest candidates, then at the
 * least cost. Exact within the step limit; beyond it at least as good as greedy.
 *
 * Each step takes the open element with the fewest candidates and tries each of them, the largest first;
 * one that was tried is out of what follows, so the last branch leaves the element open. A branch is cut where the largest and cheapest, over and over, would not beat the best.
 */
export function fewestCovering(
	elements: number,
	candidates: readonly CoverCandidate[],
	budget: number,
	stepLimit = STEP_LIMIT,
): Cover {
	let best = greedyCovering(elements, candidates, budget);
	let steps = 0;
	/** @param left candidates that are still to be tried */
	const search = (picks: readonly number[], open: ReadonlySet<number>, left: readonly number[]): void => {
		if (++steps > stepLimit) return;
		const covered = elements - open.size;
		const cost = picks.reduce((sum, at) => sum + costOf(at), 0);
		if (better({ covered, picks, cost }, best))
			best = { picks: [...picks].sort((a, b) => a - b), covered, cost, exact: false };
		const gains = new Map(
			left.flatMap((at): [number, readonly number[]][] => {
				const gained = candidates[at]?.closes.filter((e) => open.has(e)) ?? [];
				return gained.length > 0 && cost + costOf(at) <= budget + ROUNDING ? [[at, gained]] : [];
			}),
		);
		const ways = Map.groupBy(
			[...gains].flatMap(([at, gained]) => gained.map((e) => ({ at, e }))),
			({ e }) => e,
		);
		if (ways.size === 0) return;
		// If every further choice were the largest and the cheapest.
		const largest = Math.max(...[...gains.values()].map((gained) => gained.length));
		const cheapest = Math.min(...[...gains.keys()].map(costOf));
		const affordable = cheapest > 0 ? Math.floor((budget - cost) / cheapest + ROUNDING) : ways.size;
		const most = Math.min(ways.size, affordable * largest);
		const further = Math.ceil(most / largest);
		const length = picks.length + further;
		if (!better({ covered: covered + most, picks: { length }, cost: cost + further * cheapest }, best))
			return;
		const [, able] = [...ways].reduce((a, b) => (b[1].length < a[1].length ? b : a));
		const gainOf = (at: number) => gains.get(at)?.length ?? 0;
		const rest = new Set(gains.keys());
		for (const { at } of able.sort((a, b) => gainOf(b.at) - gainOf(a.at))) {
			rest.delete(at);
			search([...picks, at], open.difference(new Set(candidates[at]?.closes)), [...rest]);
		}
		// Without a budget, nothing is gained by leaving open what can be covered.
		if (Number.isFinite(budget)) search(picks, open, [...rest]);
	};
	const costOf = (at: number): number => candidates[at]?.cost ?? 0;
	search([], new Set(Array(elements).keys()), [...candidates.keys()]);
	return { ...best, exact: steps <= stepLimit };
}

/** Costs are sums of minutes, some of them quotients: less than this apart they are equal. */
const ROUNDING = 1e-9;

/**
 * The greedy choice: the candidate that covers the most of what is still open, the cheapest and then
 * the first of equals, until nothing more fits. Without a budget it needs at most H(d) times the fewest
 * candidates, d being the size of the largest and H the harmonic numbers (Chvátal 1979).
 */
export function greedyCovering(
	elements: number,
	candidates: readonly CoverCandidate[],
	budget: number,
): Cover {
	const open = new Set(Array.from({ length: elements }, (_, i) => i));
	const picks: number[] = [];
	let cost = 0;
	for (;;) {
		let best: { readonly pick: number; readonly gain: number; readonly cost: number } | undefined;
		for (const [pick, candidate] of candidates.entries()) {
			if (cost + candidate.cost > budget + ROUNDING) continue;
			const gain = new Set(candidate.closes.filter((e) => open.has(e))).size;
			if (gain === 0) continue;
			if (best === undefined || gain > best.gain || (gain === best.gain && candidate.cost < best.cost)) {
				best = { pick, gain, cost: candidate.cost };
			}
		}
		if (best === undefined) break;
		picks.push(best.pick);
		cost += best.cost;
		for (const e of candidates[best.pick]?.closes ?? []) open.delete(e);
	}
	return { picks: picks.sort((a, b) => a - b), covered: elements - open.size, cost, exact: false };
}

interface Worth {
	readonly covered: number;
	readonly picks: { readonly length: number };
	readonly cost: number;
}

function better(a: Worth, b: Worth): boolean {
	if (a.covered !== b.covered) return a.covered > b.covered;
	if (a.picks.length !== b.picks.length) return a.picks.length < b.picks.length;
	return a.cost < b.cost - ROUNDING;
}

function median(values: readonly number[]): number | undefined {
	if (values.length === 0) return undefined;
	const sorted = [...values].sort((a, b) => a - b);
	const middle = Math.floor(sorted.length / 2);
	const upper = sorted[middle] ?? 0;
	return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2;
}
