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

interface Candidate {
	readonly drill: LinkedDrill;
	readonly lowest: number;
	readonly highest: number;
	readonly rank: number;
}

/**
 * Steps down and up from any drill, at most `most` each, or all that are written; a drill that fits
 * both ways is left out. What is asked for every drill of a club is worked out once, here.
 */
export function progressionsIn(source: ProgressionSource, most = 5): (drill: LinkedDrill) => Progressions {
	const candidates = new Map<Id, Candidate>();
	for (const drill of source.drills.values()) candidates.set(drill.id, candidateOf(source, drill));
	const bySkill = new Map<Id, readonly Candidate[]>();
	for (const [skill, { drills }] of source.skills) {
		bySkill.set(
			skill,
			drills.flatMap((id) => candidates.get(id) ?? []),
		);
	}
	return (drill) => {
		const own = candidates.get(drill.id) ?? candidateOf(source, drill);
		const easier = new Nearest(drill, most - drill.after.length);
		const harder = new Nearest(drill, most - drill.next.length);
		const named = new Set<Id>([drill.id, ...drill.after, ...drill.next, ...drill.partners]);
		for (const skill of drill.skills) {
			for (const other of bySkill.get(skill) ?? []) {
				const below = other.lowest < own.lowest;
				const above = other.highest > own.highest;
				if (below === above || named.has(other.drill.id)) continue;
				(below ? easier : harder).offer(other);
			}
		}
		return { easier: steps(drill.after, easier.drills), harder: steps(drill.next, harder.drills) };
	};
}

function steps(written: readonly Id[], others: readonly Id[]): readonly Step[] {
	return [
		...written.map((drill): Step => ({ drill, because: "written" })),
		...others.map((drill): Step => ({ drill, because: "level" })),
	];
}

/** Keeps the nearest few of many without sorting them all. */
class Nearest {
	readonly #to: LinkedDrill;
	readonly #most: number;
	readonly #kept: { readonly other: Candidate; readonly near: number }[] = [];

	constructor(to: LinkedDrill, most: number) {
		this.#to = to;
		this.#most = most;
	}

	get drills(): readonly Id[] {
		return this.#kept.map(({ other }) => other.drill.id);
	}

	offer(other: Candidate): void {
		if (this.#most <= 0) return;
		const near = nearness(this.#to, other.drill);
		const last = this.#kept.at(-1);
		const full = this.#kept.length >= this.#most;
		if (full && last !== undefined && !isBefore(near, other, last)) return;
		// A drill comes once for each skill in common.
		if (this.#kept.some((kept) => kept.other === other)) return;
		if (full) this.#kept.pop();
		const at = this.#kept.findIndex((kept) => isBefore(near, other, kept));
		this.#kept.splice(at < 0 ? this.#kept.length : at, 0, { other, near });
	}
}

function isBefore(
	near: number,
	other: Candidate,
	kept: { readonly other: Candidate; readonly near: number },
): boolean {
	return near > kept.near || (near === kept.near && other.rank < kept.other.rank);
}

function nearness(a: LinkedDrill, b: LinkedDrill): number {
	return (
		(shared(a.apparatus, b.apparatus) > 0 ? 100 : 0) +
		10 * shared(a.skills, b.skills) +
		shared(a.shapes, b.shapes)
	);
}

function shared(a: readonly Id[], b: readonly Id[]): number {
	let count = 0;
	for (const id of a) if (b.includes(id)) count++;
	return count;
}

function candidateOf({ levelRank, drillRank }: ProgressionSource, drill: LinkedDrill): Candidate {
	let lowest = Number.POSITIVE_INFINITY;
	let highest = Number.NEGATIVE_INFINITY;
	for (const level of drill.levels.keys()) {
		const rank = levelRank.get(level) ?? 0;
		lowest = Math.min(lowest, rank);
		highest = Math.max(highest, rank);
	}
	return { drill, lowest, highest, rank: drillRank.get(drill.id) ?? 0 };
}
