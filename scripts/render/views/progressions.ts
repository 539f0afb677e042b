/**
 * What is easier and what is harder than a drill: pure, from the drills themselves.
 *
 * Easier are the drills it comes after, then drills for one of its skills that a level below its
 * lowest can do. Harder are the drills that come after it, then drills for one of its skills that a
 * level above its highest does. Near ones first: on a shared apparatus, then with more skills and
 * shapes in common, then by the club's order.
 */

import type { Id, LinkedDrill, LinkedSkill } from "../../model.ts";

export interface Progressions {
	/** The step is `written` where a drill says so in `after`, `level` where skill and level say so. */
	readonly easier: readonly Step[];
	readonly harder: readonly Step[];
}

export interface Step {
	readonly drill: Id;
	readonly because: "written" | "level";
}

export interface ProgressionSource {
	readonly drills: ReadonlyMap<Id, LinkedDrill>;
	readonly skills: ReadonlyMap<Id, Pick<LinkedSkill, "drills">>;
	/** 0 for the lowest level. */
	readonly levelRank: ReadonlyMap<Id, number>;
	/** Place in the club's order. */
	readonly drillRank: ReadonlyMap<Id, number>;
}

/** Steps down and up from a drill, at most `most` each; a drill that fits both ways is left out. */
export function progressionsOf(source: ProgressionSource, drill: LinkedDrill, most = 5): Progressions {
	const own = span(source, drill);
	const easier: LinkedDrill[] = [];
	const harder: LinkedDrill[] = [];
	const seen = new Set<Id>([drill.id, ...drill.after, ...drill.next, ...drill.partners]);
	for (const skill of drill.skills) {
		for (const id of source.skills.get(skill)?.drills ?? []) {
			if (seen.has(id)) continue;
			seen.add(id);
			const other = source.drills.get(id);
			if (other === undefined) continue;
			const range = span(source, other);
			const below = range.lowest < own.lowest;
			const above = range.highest > own.highest;
			if (below && !above) easier.push(other);
			if (above && !below) harder.push(other);
		}
	}
	return {
		easier: steps(drill.after, near(source, drill, easier), most),
		harder: steps(drill.next, near(source, drill, harder), most),
	};
}

function steps(written: readonly Id[], others: readonly LinkedDrill[], most: number): readonly Step[] {
	return [
		...written.map((drill): Step => ({ drill, because: "written" })),
		...others.map((drill): Step => ({ drill: drill.id, because: "level" })),
	].slice(0, Math.max(most, written.length));
}

function near(
	source: ProgressionSource,
	drill: LinkedDrill,
	others: readonly LinkedDrill[],
): readonly LinkedDrill[] {
	return others
		.map((other) => ({ other, near: nearness(drill, other), rank: source.drillRank.get(other.id) ?? 0 }))
		.sort((a, b) => b.near - a.near || a.rank - b.rank)
		.map(({ other }) => other);
}

function nearness(a: LinkedDrill, b: LinkedDrill): number {
	const shared = (x: readonly Id[], y: readonly Id[]) => x.reduce((n, id) => n + (y.includes(id) ? 1 : 0), 0);
	return (
		(shared(a.apparatus, b.apparatus) > 0 ? 100 : 0) +
		10 * shared(a.skills, b.skills) +
		shared(a.shapes, b.shapes)
	);
}

function span({ levelRank }: ProgressionSource, drill: LinkedDrill) {
	let lowest = Number.POSITIVE_INFINITY;
	let highest = Number.NEGATIVE_INFINITY;
	for (const level of drill.levels.keys()) {
		const rank = levelRank.get(level) ?? 0;
		lowest = Math.min(lowest, rank);
		highest = Math.max(highest, rank);
	}
	return { lowest, highest };
}
