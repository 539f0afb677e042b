/**
 * The moves that change lists are made of: exchange two blocks, part a block's stations, leave one out,
 * give a block minutes, add one, lower a dose. None of them is tried here: mend-trial.ts does that.
 */

import type {
	Block,
	Curriculum,
	DoseNumbers,
	Finding,
	Id,
	LinkedDrill,
	PlanChange,
	Station,
	WeekPlan,
	WrittenBlock,
} from "../model.ts";
import type { doseOf } from "./dose-of.ts";
import { onceEach } from "./get-or-make.ts";
import { groupsOf, isThere } from "./groups.ts";
import { likeness } from "./likeness.ts";
import { nameOfSpot, type Spot, writtenBlock, writtenStations } from "./plan-changes.ts";
import { classTime } from "./time.ts";
import { groupWorks, groupWorksIn, workOf } from "./work.ts";

export type Edits = readonly PlanChange[];

export function setFields(spot: Spot, fields: WrittenBlock): PlanChange {
	return { set: { block: nameOfSpot(spot), ...fields } };
}

/** A block more, at a number or after all others. */
export function addAt(
	{ week, apparatus, number }: Omit<Spot, "number"> & Partial<Spot>,
	block: WrittenBlock,
): PlanChange {
	return { add: { week, apparatus, ...(number === undefined ? {} : { at: number }), block } };
}

function moveTo(from: Spot, to: Spot): PlanChange {
	return { move: { from: nameOfSpot(from), to: nameOfSpot(to) } };
}

/** A block and where it stands. */
export interface Place {
	readonly plan: WeekPlan;
	readonly block: Block;
	readonly spot: Spot;
	readonly others: readonly Block[];
}

/** As many are tried: blocks in place of another, drills, weeks. */
export const TRIED = 4;

/** The block of an address. */
export function placeAt(curriculum: Curriculum, { week, apparatus, number }: Spot): Place | undefined {
	const plan = curriculum.weeks.find((one) => one.week === week);
	const blocks = plan?.apparatus.find((one) => one.apparatus === apparatus)?.blocks ?? [];
	const block = blocks[number - 1];
	if (plan === undefined || block === undefined) return undefined;
	return { plan, block, spot: { week, apparatus, number }, others: blocks.filter((one) => one !== block) };
}

/** The block that a finding points at; undefined where it is of no one block. */
export function placeOfFinding(curriculum: Curriculum, { path, about }: Finding): Place | undefined {
	const [, apparatus, blocks, at] = path;
	if (about.week === undefined || blocks !== "blocks") return undefined;
	if (typeof apparatus !== "string" || typeof at !== "number") return undefined;
	return placeAt(curriculum, { week: about.week, apparatus, number: at + 1 });
}

/** Whose blocks, and where; all where it is not said. */
export interface Whose {
	readonly week?: number | undefined;
	readonly class?: Id | undefined;
	readonly group?: string | undefined;
	readonly apparatus?: Id | undefined;
}

/** Blocks that a class or a group does in a week, each once. */
export function placesOf(curriculum: Curriculum, { week, class: one, group, apparatus }: Whose) {
	const works = groupWorksIn(curriculum, week ?? 0).filter(
		(work) =>
			(one === undefined || work.group.class.id === one) &&
			(group === undefined || work.group.name === group),
	);
	const blocks = works
		.flatMap((work) => work.blocks)
		.filter((work) => apparatus === undefined || work.apparatus === apparatus);
	return [...Map.groupBy(blocks, ({ block }) => block).values()].flatMap(([work]) => {
		const place =
			work && placeAt(curriculum, { week: week ?? 0, apparatus: work.apparatus, number: work.block.number });
		return work === undefined || place === undefined ? [] : [{ ...place, work }];
	});
}

/** A block in place of another of the same length and levels, and that in place of the first; the first few that can. */
export function* exchanges(
	curriculum: Curriculum,
	{ block, spot }: Place,
	isMeant: (week: number) => boolean,
): Iterable<Edits> {
	let tried = 0;
	for (const plan of curriculum.weeks.filter(({ week }) => isMeant(week))) {
		const blocks = plan.apparatus.find(({ apparatus }) => apparatus === spot.apparatus)?.blocks ?? [];
		const here = plan.week === spot.week;
		const other = blocks.find(
			(one) =>
				one !== block &&
				(here || one.minutes === block.minutes) &&
				String(one.levels) === String(block.levels) &&
				String(one.sessions) === String(block.sessions) &&
				!one.stations.some(({ drill }) => block.stations.some((station) => station.drill === drill)),
		);
		if (other === undefined) continue;
		yield exchange(spot, { ...spot, week: plan.week, number: other.number });
		if (++tried === TRIED) return;
	}
}

/** Two blocks in each other's place. */
export function exchange(one: Spot, other: Spot): Edits {
	if (one.week !== other.week || one.apparatus !== other.apparatus) {
		return [moveTo(one, other), moveTo({ ...other, number: other.number + 1 }, one)];
	}
	const [first, last] = one.number < other.number ? [one, other] : [other, one];
	const back: Edits = [moveTo({ ...last, number: last.number - 1 }, first)];
	return [moveTo(first, last), ...(last.number - first.number > 1 ? back : [])];
}

/** Each station that is named in a block of its own after the others, in its share of the minutes. */
export function* apart({ block, spot }: Place, stations: Iterable<number>): Iterable<Edits> {
	const n = block.stations.length;
	if (block.kind !== "stations" || n < 2) return;
	const minutes = Math.max(1, Math.floor(block.minutes / n));
	for (const number of stations) {
		const station = block.stations[number - 1];
		const rest = block.stations.filter((_, i) => i !== number - 1);
		if (station === undefined || !leavesSome({ ...block, stations: rest }, block.minutes - minutes)) continue;
		const { note: _blocks, ...as } = block;
		const note = station.note === undefined ? {} : { note: station.note };
		const own: Block = {
			...as,
			kind: "drill",
			stations: [{ drill: station.drill }],
			minutes,
			show: 0,
			...note,
		};
		yield [
			setFields(spot, { ...writtenStations("stations", rest), minutes: block.minutes - minutes }),
			addAt({ ...spot, number: spot.number + 1 }, writtenBlock(own)),
		];
	}
}

/** A block's stations dealt out, in the order given, to two blocks one after the other. */
export function halves({ block, spot }: Place, order: readonly number[]): Edits {
	if (block.kind !== "stations" || order.length < 4) return [];
	const half = (of: 0 | 1): readonly Station[] => {
		const dealt = new Set(order.filter((_, i) => i % 2 === of));
		return block.stations.filter((_, i) => dealt.has(i + 1));
	};
	const minutes = Math.floor(block.minutes / 2);
	const second: Block = { ...block, stations: half(1), minutes, show: 0 };
	if (!leavesSome(second, minutes) || !leavesSome({ ...block, stations: half(0) }, minutes)) return [];
	return [
		setFields(spot, { ...writtenStations("stations", half(0)), minutes: block.minutes - minutes }),
		addAt({ ...spot, number: spot.number + 1 }, writtenBlock(second)),
	];
}

/** A block without some of its stations or options; where none would stay, the plan without the block. */
export function leftOut(
	{ block, spot, others }: Place,
	is: (station: Station, number: number) => boolean,
): Edits {
	const rest = block.stations.filter((station, i) => !is(station, i + 1));
	if (rest.length === block.stations.length) return [];
	const [only] = rest;
	if (only !== undefined && rest.length === 1 && block.kind === "options") {
		// One option is none: the block is of that drill.
		const { note: _blocks, ...as } = block;
		const note = only.note === undefined ? {} : { note: only.note };
		const own: Block = { ...as, kind: "drill", stations: [{ drill: only.drill }], choose: 1, ...note };
		return [{ remove: nameOfSpot(spot) }, addAt(spot, writtenBlock(own))];
	}
	if (only !== undefined) return [setFields(spot, writtenStations(block.kind, rest))];
	// An apparatus with nothing on it is for the director to take out.
	return others.length === 0 ? [] : [{ remove: nameOfSpot(spot) }];
}

/** A block with more minutes: free ones, else those of a longer block beside it, of which no more than a third is taken. */
export function* withMinutes(curriculum: Curriculum, place: Place, minutes: number): Iterable<Edits> {
	const { plan, block, spot, others } = place;
	const set = setFields(spot, { minutes });
	const more = minutes - block.minutes;
	if (more <= 0) return;
	if (more <= spareMinutes(curriculum, plan, { block })) yield [set];
	for (const other of [...others].sort((a, b) => b.minutes - a.minutes).slice(0, TRIED)) {
		const left = other.minutes - more;
		if (left < (other.minutes * 2) / 3 || !leavesSome(other, left)) continue;
		yield [set, setFields({ ...spot, number: other.number }, { minutes: left })];
	}
}

/** Another dose for one level in a block of one drill; the other levels keep theirs. */
export function withDose(
	curriculum: Curriculum,
	{ block, spot }: Place,
	level: Id,
	dose: DoseNumbers,
): PlanChange {
	const levels = block.levels.length === 0 ? [...curriculum.levels.keys()] : block.levels;
	const { dose: forAll } = block;
	const doses = new Map(forAll === undefined ? block.doses : levels.map((one) => [one, forAll]));
	doses.set(level, { ...doses.get(level), ...dose });
	return setFields(spot, { dose: Object.fromEntries(doses) });
}

/** The most whole sets of no more repetitions than these, else one set of them; undefined where there is not one. */
export function atMost(
	{ sets, reps }: Pick<ReturnType<typeof doseOf>, "sets" | "reps">,
	repetitions: number,
): DoseNumbers | undefined {
	const whole = Math.floor(repetitions / (reps ?? 1));
	if (whole >= 1 && sets !== undefined) return { sets: Math.min(sets, whole) };
	const left = Math.floor(repetitions);
	return left < 1 ? undefined : { sets: 1, reps: left };
}

/** Whether showing and changing leave some of a block's minutes. */
export function leavesSome(
	{ kind, stations, show, change }: Pick<Block, "kind" | "stations" | "show" | "change">,
	minutes: number,
): boolean {
	return minutes > show + (kind === "stations" ? (stations.length - 1) * change : 0) + 1e-9;
}

/**
 * Minutes that every class has left in a week which does something of a block, or would of one added on
 * an apparatus for these levels; 0 where a class does not say its minutes, or nobody would do it.
 */
export function spareMinutes(
	curriculum: Curriculum,
	plan: WeekPlan,
	does: { readonly block: Block } | { readonly apparatus: Id; readonly levels: readonly Id[] },
): number {
	const groups = groupsOf(curriculum).filter((group) => isThere(curriculum, plan.week, group));
	const spare = groups
		.filter((group) =>
			"block" in does
				? workOf(curriculum, plan, group).blocks.some(({ block }) => block === does.block)
				: group.rotation.includes(does.apparatus) &&
					does.levels.some((level) => group.levels.includes(level)),
		)
		.map((group) => {
			const { planned, available } = classTime(curriculum, plan, group.class);
			return available === undefined ? 0 : available - planned;
		});
	return spare.length === 0 ? 0 : Math.max(0, Math.min(...spare));
}

/**
 * How a drill comes into a week: in a block more, whose minutes are free or taken from a longer one, or in
 * place of another drill, of which the one most like it is number 0.
 */
export type Way = "free" | "taken" | number;

/** In the order in which they are tried. */
export const WAYS: readonly Way[] = ["free", "taken", 0, 1];

/** Minutes of a block that is added, at most and at least; taken out of a block that has twice as many. */
const ADDED = { most: 5, least: 3, taken: 4 } as const;

/**
 * A block more in a week, of the first of the drills that all the levels have done before: so it comes
 * after all it builds on. Nothing where there is none, or no time.
 *
 * @param places the apparatus where it may be
 */
export function onceMore(
	curriculum: Curriculum,
	plan: WeekPlan,
	levels: readonly Id[],
	drills: readonly LinkedDrill[],
	from: Way,
	places: readonly Id[] = plan.apparatus.map(({ apparatus }) => apparatus),
): Edits {
	if (typeof from === "number") {
		const swap = swapsIn(curriculum, plan, levels, drills, places)[from];
		return swap === undefined ? [] : [swap];
	}
	for (const apparatus of places) {
		const drill = drills.find(
			(one) =>
				one.apparatus.includes(apparatus) &&
				levels.every((level) => hasDone(curriculum, level, one.id, plan.week)),
		);
		if (drill === undefined) continue;
		const at = { week: plan.week, apparatus };
		if (from === "taken") {
			const blocks = plan.apparatus.find((one) => one.apparatus === apparatus)?.blocks ?? [];
			const [longest] = blocks
				.filter(
					(block) =>
						block.minutes >= 2 * ADDED.taken &&
						leavesSome(block, block.minutes - ADDED.taken) &&
						levels.every((level) => block.levels.length === 0 || block.levels.includes(level)),
				)
				.sort((a, b) => b.minutes - a.minutes);
			if (longest === undefined) continue;
			return [
				addAt(at, { drill: drill.id, minutes: ADDED.taken, levels }),
				setFields({ ...at, number: longest.number }, { minutes: longest.minutes - ADDED.taken }),
			];
		}
		const spare = Math.floor(spareMinutes(curriculum, plan, { apparatus, levels }));
		if (spare < ADDED.least) continue;
		return [addAt(at, { drill: drill.id, minutes: Math.min(ADDED.most, spare), levels })];
	}
	return [];
}

/** One of the drills in place of another, for the same levels: the most alike first. */
function swapsIn(
	curriculum: Curriculum,
	plan: WeekPlan,
	levels: readonly Id[],
	drills: readonly LinkedDrill[],
	places: readonly Id[],
): readonly PlanChange[] {
	const found = plan.apparatus.flatMap(({ apparatus, blocks }) => {
		if (!places.includes(apparatus) || plan.keep === true) return [];
		const able = drills.filter(
			(drill) =>
				drill.apparatus.includes(apparatus) &&
				levels.every((level) => hasDone(curriculum, level, drill.id, plan.week)),
		);
		return blocks.flatMap((block) => {
			const own = block.levels.length === 0 ? [...curriculum.levels.keys()] : block.levels;
			if (block.keep === true || !levels.every((level) => own.includes(level))) return [];
			return block.stations.flatMap((station, i) => {
				const written = curriculum.drills.get(station.drill);
				return able
					.filter(
						({ id, levels: offered }) =>
							own.every((level) => offered.has(level) === written?.levels.has(level)) &&
							block.stations.every(({ drill }) => drill !== id),
					)
					.map((drill) => ({
						like: written === undefined ? 0 : likeness(written, drill),
						swap: {
							block: nameOfSpot({ week: plan.week, apparatus, number: block.number }),
							...(block.kind === "drill" ? {} : { station: i + 1 }),
							drill: drill.id,
						},
					}));
			});
		});
	});
	return found.sort((a, b) => b.like - a.like).map(({ swap }) => ({ swap }));
}

/** Whether every group of a level that ever does a drill has done it before a week, and one has. */
export function hasDone(curriculum: Curriculum, level: Id, drill: Id, week: number): boolean {
	return (lastFirsts(curriculum).get(`${level} ${drill}`) ?? Number.POSITIVE_INFINITY) < week;
}

/** The week by which every group of a level that ever does a drill has done it, by `level drill`. */
const lastFirsts = onceEach((curriculum: Curriculum): ReadonlyMap<string, number> => {
	const seen = new Set<string>();
	const last = new Map<string, number>();
	for (const { week, group, blocks } of groupWorks(curriculum)) {
		for (const { level, drill } of blocks.flatMap((block) => block.stations)) {
			const key = `${group.name} ${level} ${drill.id}`;
			if (seen.has(key)) continue;
			seen.add(key);
			last.set(`${level} ${drill.id}`, week);
		}
	}
	return last;
});
