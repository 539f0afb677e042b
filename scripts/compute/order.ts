/**
 * Order: the easier thing before the harder one.
 *
 * For each level, everything a skill needs and everything a drill comes after must first be taught
 * in an earlier week, or earlier in the same week: by the rotation of each class of the level, then
 * by block. It is enough, too, that gymnasts arrive with it, or that the very drill that first
 * teaches the skill also teaches what it needs.
 */

import type { Curriculum, DataPath, Exposure, Finding, Id, Level, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import type { Counted, Measure } from "./measure.ts";

/** One thing taught before what it is built on. */
export interface OutOfOrder {
	readonly level: Id;
	readonly kind: "skill" | "drill";
	/** The thing taught too soon. */
	readonly id: Id;
	/** What should have come first. */
	readonly first: Id;
	/** Where the thing is first done. */
	readonly at: Exposure;
	/** Where what it is built on is first done; undefined where never. */
	readonly firstAt: Exposure | undefined;
	/** Classes whose rotation brings them the wrong way round; empty where it is so for every class. */
	readonly classes: readonly Id[];
}

export const orderMeasure: Measure = {
	name: "order",
	tables: () => [],
	findings: (counted, words) =>
		outOfOrder(counted).map((fault) => findingOf(counted.curriculum, fault, words)),
};

/** Everything a level meets before what it is built on, each pair once, by level then week. */
export function outOfOrder({ curriculum, exposures }: Counted): readonly OutOfOrder[] {
	const byLevel = Map.groupBy(exposures, (e) => e.level);
	return [...curriculum.levels.values()].flatMap((level) =>
		inLevel(curriculum, level, byLevel.get(level.id) ?? []),
	);
}

function inLevel(
	curriculum: Curriculum,
	level: Level,
	exposures: readonly Exposure[],
): readonly OutOfOrder[] {
	const entry = new Set(level.entry);
	const rotations = rotationsOf(curriculum, level.id);
	const perRotation = rotations.map(({ classes, rank }) => ({
		classes,
		...firstTimes(curriculum, exposures, rank),
		rank,
	}));
	const faults = new Map<string, OutOfOrder>();

	const check = (
		kind: OutOfOrder["kind"],
		id: Id,
		first: Id,
		timesOf: (r: (typeof perRotation)[number]) => ReadonlyMap<Id, readonly Exposure[]>,
		together: (at: readonly Exposure[]) => boolean,
	): void => {
		const wrong = perRotation.filter((rotation) => {
			const at = timesOf(rotation).get(id);
			const before = timesOf(rotation).get(first);
			if (at?.[0] === undefined || together(at)) return false;
			return before?.[0] === undefined || compare(before[0], at[0], rotation.rank) >= 0;
		});
		const shown = wrong[0];
		const at = shown && timesOf(shown).get(id)?.[0];
		if (shown === undefined || at === undefined) return;
		faults.set(`${kind} ${id} ${first}`, {
			level: level.id,
			kind,
			id,
			first,
			at,
			firstAt: timesOf(shown).get(first)?.[0],
			classes: wrong.length === perRotation.length ? [] : wrong.flatMap((r) => r.classes),
		});
	};

	for (const skill of curriculum.skills.values()) {
		if (entry.has(skill.id)) continue;
		for (const need of skill.needs) {
			if (entry.has(need)) continue;
			check(
				"skill",
				skill.id,
				need,
				(r) => r.skills,
				(at) => at.some((e) => curriculum.drills.get(e.drill)?.skills.includes(need)),
			);
		}
	}
	for (const drill of curriculum.drills.values()) {
		for (const first of drill.after) {
			const before = curriculum.drills.get(first);
			// A drill that this level is never offered cannot be asked of it.
			if (before === undefined || !before.levels.has(level.id)) continue;
			if (before.skills.length > 0 && before.skills.every((skill) => entry.has(skill))) continue;
			check(
				"drill",
				drill.id,
				first,
				(r) => r.drills,
				() => false,
			);
		}
	}
	return [...faults.values()].sort((a, b) => a.at.week - b.at.week);
}

export type Rank = (apparatus: Id) => number;

/** The different orders in which the classes of a level visit the apparatus. */
export function rotationsOf(
	curriculum: Curriculum,
	level: Id,
): readonly { readonly classes: readonly Id[]; readonly rank: Rank }[] {
	const standard = [...curriculum.apparatus.keys()];
	const classes = curriculum.term.classes.filter(
		(group) => group.rotation.length > 0 && (group.levels.length === 0 || group.levels.includes(level)),
	);
	if (classes.length === 0) return [{ classes: [], rank: rankIn(standard) }];
	return [...Map.groupBy(classes, (group) => group.rotation.join(" "))].map(([, groups]) => ({
		classes: groups.map((group) => group.id),
		rank: rankIn([...(groups[0]?.rotation ?? []), ...standard]),
	}));
}

function rankIn(order: readonly Id[]): Rank {
	const ranks = new Map<Id, number>();
	for (const id of order) if (!ranks.has(id)) ranks.set(id, ranks.size);
	return (apparatus) => ranks.get(apparatus) ?? ranks.size;
}

/** For each skill and drill, the exposures at the moment it is first done. */
export function firstTimes(curriculum: Curriculum, exposures: readonly Exposure[], rank: Rank) {
	const skills = new Map<Id, Exposure[]>();
	const drills = new Map<Id, Exposure[]>();
	const note = (map: Map<Id, Exposure[]>, id: Id, exposure: Exposure): void => {
		const first = map.get(id);
		const order = first?.[0] === undefined ? -1 : compare(exposure, first[0], rank);
		if (order < 0) map.set(id, [exposure]);
		else if (order === 0) first?.push(exposure);
	};
	for (const exposure of exposures) {
		note(drills, exposure.drill, exposure);
		for (const skill of curriculum.drills.get(exposure.drill)?.skills ?? []) note(skills, skill, exposure);
	}
	return { skills, drills };
}

/** Less than 0 where `a` comes before `b`; stations of one block are at the same time. */
export function compare(a: Exposure, b: Exposure, rank: Rank): number {
	return a.week - b.week || rank(a.apparatus) - rank(b.apparatus) || a.block - b.block;
}

function findingOf(curriculum: Curriculum, fault: OutOfOrder, words: Words): Finding {
	const say = words.findings.outOfOrder;
	const { level, kind, id, first, at, firstAt, classes } = fault;
	const nameOf = (thing: Id): string =>
		kind === "skill"
			? (curriculum.skills.get(thing)?.name ?? thing)
			: (curriculum.drills.get(thing)?.title ?? thing);
	const who = curriculum.levels.get(level)?.name ?? level;
	const when =
		firstAt === undefined
			? say.never
			: firstAt.week === at.week
				? say.laterSameWeek(classes.map((c) => classNames(curriculum, c)))
				: say.later(firstAt.week);
	const { source, path } = blockOf(curriculum, at);
	return {
		code: kind === "skill" ? "H301" : "H302",
		weight: kind === "skill" ? "serious" : "worth a look",
		what: say.what(who, nameOf(id), at.week, nameOf(first), when),
		why: kind === "skill" ? say.whySkill(nameOf(id), nameOf(first)) : say.whyDrill(nameOf(id), nameOf(first)),
		fix: kind === "skill" ? say.fixSkill(nameOf(first)) : say.fixDrill(nameOf(id), nameOf(first)),
		source,
		path,
		about: {
			week: at.week,
			level,
			apparatus: at.apparatus,
			drill: at.drill,
			...(kind === "skill" ? { skill: id } : {}),
		},
	};
}

/** The week's file and the place in it where an exposure was planned. */
export function blockOf(
	curriculum: Curriculum,
	{ week, apparatus, block }: Pick<Exposure, "week" | "apparatus" | "block">,
): { readonly source: WeekPlan["source"]; readonly path: DataPath } {
	const plan = curriculum.weeks.find((w) => w.week === week);
	const found = plan?.apparatus.find((p) => p.apparatus === apparatus)?.blocks[block - 1];
	if (plan === undefined || found === undefined)
		throw new Error(`no block ${block} on ${apparatus} in week ${week}`);
	return { source: plan.source, path: found.path };
}

function classNames(curriculum: Curriculum, id: Id): string {
	return curriculum.term.classes.find((c) => c.id === id)?.name ?? id;
}
