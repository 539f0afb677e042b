/**
 * Groups: who works together. A class is one group, or has groups that work at the same time.
 *
 * Classes joined by `same-as` are the same gymnasts on several days: their meetings of a week are
 * numbered by day and hour, and what they have done before is known of them all.
 */

import type { Block, ClubClass, Curriculum, Id, Term } from "../model.ts";
import { meets, WEEKDAYS } from "./calendar.ts";
import { levelsOfClass } from "./levels-of.ts";

export interface Group {
	/** `class`, or `class/group`: its name in data files. */
	readonly name: string;
	/** What people call it in a class of several: the level's name that it is called after, else its own. */
	readonly part?: string;
	readonly class: ClubClass;
	/** In the club's order. */
	readonly levels: readonly Id[];
	readonly gymnasts: number;
	readonly coaches: number | undefined;
	readonly rotation: readonly Id[];
	/** Which meeting of the week this is for its gymnasts, from 1. */
	readonly session: number;
	/** The same for groups of the same gymnasts on other days. */
	readonly gymnastsId: string;
}

/** By the term: curricula that differ only in the plans of their weeks have the same groups. */
const known = new WeakMap<
	Term,
	{ readonly levels: Curriculum["levels"]; readonly groups: readonly Group[] }
>();

/** Every group, in the order of the classes. */
export function groupsOf(curriculum: Curriculum): readonly Group[] {
	const before = known.get(curriculum.term);
	if (before?.levels === curriculum.levels) return before.groups;
	const meetings = meetingsOf(curriculum.term);
	const groups = curriculum.term.classes.flatMap((one): readonly Group[] => {
		const { session, gymnastsId } = meetings.get(one.id) ?? { session: 1, gymnastsId: one.id };
		const common = { class: one, session };
		if (one.groups.length === 0) {
			return [
				{
					...common,
					name: one.id,
					levels: inOrder(curriculum, levelsOfClass(curriculum, one)),
					gymnasts: one.gymnasts,
					coaches: one.coaches,
					rotation: distinct(one.rotation),
					gymnastsId,
				},
			];
		}
		return one.groups.map((part) => ({
			...common,
			name: `${one.id}/${part.id}`,
			part: curriculum.levels.get(part.id)?.name ?? part.id,
			levels: inOrder(curriculum, part.levels.length === 0 ? [...curriculum.levels.keys()] : part.levels),
			gymnasts: part.gymnasts,
			coaches: part.coaches,
			rotation: distinct(part.rotation),
			gymnastsId: `${gymnastsId}/${part.id}`,
		}));
	});
	known.set(curriculum.term, { levels: curriculum.levels, groups });
	return groups;
}

/**
 * For a club without classes: each level as a group that visits every apparatus in the club's order.
 * It stands in no data file.
 */
export function levelsAsGroups(curriculum: Curriculum): readonly Group[] {
	const rotation = [...curriculum.apparatus.keys()];
	return [...curriculum.levels.values()].map(({ id, name }) => ({
		name: id,
		class: {
			id,
			name,
			levels: [id],
			warmUp: 0,
			coolDown: 0,
			between: 0,
			gymnasts: 1,
			rotation,
			groups: [],
			path: [],
		},
		levels: [id],
		gymnasts: 1,
		coaches: undefined,
		rotation,
		session: 1,
		gymnastsId: id,
	}));
}

export function groupsOfClass(curriculum: Curriculum, one: ClubClass): readonly Group[] {
	return groupsOf(curriculum).filter((group) => group.class === one);
}

/** Whether a block is for this meeting of the group's gymnasts. */
export function isOfSession(block: Block, group: Group): boolean {
	return block.sessions.length === 0 || block.sessions.includes(group.session);
}

/** Whether the group's class meets in a week, and goes anywhere. */
export function isThere(curriculum: Curriculum, week: number, group: Group): boolean {
	return group.rotation.length > 0 && meets(curriculum.term, week, group.class);
}

function meetingsOf(term: Term): ReadonlyMap<Id, { readonly session: number; readonly gymnastsId: string }> {
	const root = new Map(term.classes.map((one) => [one.id, one.id]));
	const rootOf = (id: Id): Id => {
		let at = id;
		for (let next = root.get(at); next !== undefined && next !== at; next = root.get(at)) at = next;
		return at;
	};
	for (const one of term.classes) {
		if (one.sameAs !== undefined && root.has(one.sameAs)) root.set(rootOf(one.id), rootOf(one.sameAs));
	}
	const day = (one: ClubClass): number =>
		one.day === undefined ? WEEKDAYS.length : WEEKDAYS.indexOf(one.day);
	const found = new Map<Id, { readonly session: number; readonly gymnastsId: string }>();
	for (const [gymnastsId, classes] of Map.groupBy(term.classes, (one) => rootOf(one.id))) {
		const byTime = [...classes].sort(
			(a, b) =>
				day(a) - day(b) ||
				((a.start ?? "") < (b.start ?? "") ? -1 : (a.start ?? "") > (b.start ?? "") ? 1 : 0),
		);
		for (const [i, one] of byTime.entries()) found.set(one.id, { session: i + 1, gymnastsId });
	}
	return found;
}

function inOrder(curriculum: Curriculum, levels: readonly Id[]): readonly Id[] {
	return [...curriculum.levels.keys()].filter((level) => levels.includes(level));
}

function distinct(ids: readonly Id[]): readonly Id[] {
	return [...new Set(ids)];
}
