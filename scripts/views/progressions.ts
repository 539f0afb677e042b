/**
 * What is easier and what is harder than a drill: pure, from the drills themselves.
 *
 * Easier are the drills it comes after, then drills for one of its skills that a level below its
 * lowest can do. Harder are the drills that come after it, then drills for one of its skills that a
 * level above its highest does. Near ones first: on a shared apparatus, then with more skills and
 * shapes in common, then by the club's order.
 */

import { getOrMake } from "../compute/get-or-make.ts";
import type { Id, LinkedDrill, LinkedSkill } from "../model.ts";

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
	readonly drill: Id;
	readonly rank: number;
}

/** What decides how near a drill is, with ids as numbers: comparing those is most of the work. */
interface Traits {
	readonly lowest: number;
	readonly highest: number;
	readonly apparatus: readonly number[];
	readonly skills: readonly number[];
	readonly shapes: readonly number[];
}

/** Drills of the same traits, and so equally near to any other, by the club's order. */
interface Alike extends Traits {
	readonly members: Candidate[];
}

/**
 * Steps down and up from any drill, at most `most` each, or all that are written; a drill that fits
 * both ways is left out. Drills of a skill are looked at by what they have alike, once for each skill that
 * is asked for: a large library has many more drills than kinds of them, and a device makes few pages.
 */
export function progressionsIn(source: ProgressionSource, most = 5): (drill: LinkedDrill) => Progressions {
	const numbers = new Map<Id, number>();
	const groups = new Map<string, Alike>();
	const groupOf = new Map<Id, Alike>();
	const group = (drill: LinkedDrill): Alike => {
		const traits = traitsOf(source, drill, numbers);
		const alike = getOrMake(groups, JSON.stringify(Object.values(traits)), () => ({
			...traits,
			members: [],
		}));
		alike.members.push({ drill: drill.id, rank: source.drillRank.get(drill.id) ?? 0 });
		return alike;
	};
	const bySkill = new Map<Id, ReadonlySet<Alike>>();
	// Drills that are alike have the same skills: with the first of these all of a group are found.
	const groupsOf = (skill: Id) =>
		getOrMake(bySkill, skill, () => {
			const drills = (source.skills.get(skill)?.drills ?? []).flatMap((id) => source.drills.get(id) ?? []);
			return new Set(drills.map((drill) => getOrMake(groupOf, drill.id, () => group(drill))));
		});
	return (drill) => {
		const own = traitsOf(source, drill, numbers);
		const easier = new Nearest(most - drill.after.length);
		const harder = new Nearest(most - drill.next.length);
		const named = new Set<Id>([drill.id, ...drill.after, ...drill.next, ...drill.partners]);
		const seen = new Set<Alike>();
		for (const skill of drill.skills) {
			for (const group of groupsOf(skill)) {
				const below = group.lowest < own.lowest;
				const above = group.highest > own.highest;
				// A group comes once for each skill in common.
				if (below === above || seen.has(group)) continue;
				seen.add(group);
				const near = nearness(own, group);
				const nearest = below ? easier : harder;
				// After the first that is too far the others of its group are too, since their rank is lower.
				for (const other of group.members) if (!named.has(other.drill) && !nearest.offer(other, near)) break;
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
	readonly #most: number;
	readonly #kept: { readonly other: Candidate; readonly near: number }[] = [];

	constructor(most: number) {
		this.#most = most;
	}

	get drills(): readonly Id[] {
		return this.#kept.map(({ other }) => other.drill);
	}

	/** Whether it is among the nearest so far. Each is offered once. */
	offer(other: Candidate, near: number): boolean {
		if (this.#most <= 0) return false;
		const last = this.#kept.at(-1);
		const full = this.#kept.length >= this.#most;
		if (full && last !== undefined && !isBefore(near, other, last)) return false;
		if (full) this.#kept.pop();
		const at = this.#kept.findIndex((kept) => isBefore(near, other, kept));
		this.#kept.splice(at < 0 ? this.#kept.length : at, 0, { other, near });
		return true;
	}
}

function isBefore(
	near: number,
	other: Candidate,
	kept: { readonly other: Candidate; readonly near: number },
): boolean {
	return near > kept.near || (near === kept.near && other.rank < kept.other.rank);
}

function nearness(a: Traits, b: Traits): number {
	return (
		(shared(a.apparatus, b.apparatus) > 0 ? 100 : 0) +
		10 * shared(a.skills, b.skills) +
		shared(a.shapes, b.shapes)
	);
}

function shared(a: readonly number[], b: readonly number[]): number {
	let count = 0;
	for (const id of a) if (b.includes(id)) count++;
	return count;
}

/** @param numbers of the ids seen so far; new ones are added */
function traitsOf({ levelRank }: ProgressionSource, drill: LinkedDrill, numbers: Map<Id, number>): Traits {
	let lowest = Number.POSITIVE_INFINITY;
	let highest = Number.NEGATIVE_INFINITY;
	for (const level of drill.levels.keys()) {
		const rank = levelRank.get(level) ?? 0;
		lowest = Math.min(lowest, rank);
		highest = Math.max(highest, rank);
	}
	const numbersOf = (ids: readonly Id[]) =>
		ids.map((id) => {
			const number = numbers.get(id) ?? numbers.size;
			numbers.set(id, number);
			return number;
		});
	return {
		lowest,
		highest,
		apparatus: numbersOf(drill.apparatus),
		skills: numbersOf(drill.skills),
		shapes: numbersOf(drill.shapes),
	};
}
