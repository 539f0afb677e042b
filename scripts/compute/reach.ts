/**
 * Reach: what each group really meets of every shape and skill over the term.
 *
 * Steps: take the work of each group; give every drill's minutes to the shapes and skills it names, its
 * repetitions to the skills that it performs (as often as a complex names them) or else prepares; note
 * the weeks. A level that is in no class reaches nothing; an apparatus that a group never visits gives
 * it nothing.
 */

import type { Curriculum, Id, LinkedDrill, LinkedSkill } from "../model.ts";
import { finding } from "./finding.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";
import { type Group, groupsOf } from "./groups.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, groupName } from "./names.ts";
import { tableOf } from "./tables.ts";
import { type GroupWork, groupWorks } from "./work.ts";

export interface ReachRow {
	readonly kind: "shape" | "skill";
	readonly id: Id;
	readonly group: Group;
	/** Weeks it is met in, ascending. */
	readonly weeks: readonly number[];
	readonly minutes: number;
	/** Repetitions of the skill itself; undefined for shapes. */
	readonly performed: number | undefined;
	/** Repetitions of drills that only prepare it; undefined for shapes. */
	readonly prepared: number | undefined;
	readonly first: number;
	readonly last: number;
	/** The largest difference between one of its weeks and the next; undefined with one week. */
	readonly longestGap: number | undefined;
}

/** How often one repetition of a drill performs each skill: once, or as often as its complex names it. */
export function performedBy(drill: Pick<LinkedDrill, "performs" | "elements">): ReadonlyMap<Id, number> {
	const counts = new Map<Id, number>(drill.performs.map((skill) => [skill, 1]));
	const named = new Map<Id, number>();
	for (const { skill, count } of drill.elements) {
		if (skill !== undefined) named.set(skill, (named.get(skill) ?? 0) + count);
	}
	for (const [skill, count] of named) counts.set(skill, count);
	return counts;
}

/** Shapes before skills, in the club's order, then by group as in the term. */
export const reach = onceEach((curriculum: Curriculum) => reachIn(curriculum, groupWorks(curriculum)));

/** The same of any works. */
export function reachIn(curriculum: Curriculum, works: readonly GroupWork[]): readonly ReachRow[] {
	// By a group's name: what was worked out for an earlier plan of the term has its own objects.
	const tallies = {
		shape: new Map<Id, Map<string, Tally>>(),
		skill: new Map<Id, Map<string, Tally>>(),
	};
	const tallyOf = (kind: ReachRow["kind"], id: Id, group: Group): Tally =>
		getOrMake(
			getOrMake(tallies[kind], id, () => new Map<string, Tally>()),
			group.name,
			() => new Tally(),
		);
	/** Each skill that a drill names, with how often it performs it; 0 where it prepares it. */
	const skills = new Map(
		[...curriculum.drills.values()].map((drill) => {
			const named = new Map<Id, number>(drill.skills.map((skill) => [skill, 0]));
			for (const [skill, count] of performedBy(drill)) named.set(skill, count);
			return [drill.id, named];
		}),
	);
	for (const { week, group, blocks } of works) {
		for (const { stations } of blocks) {
			for (const { drill, minutes, done = 0 } of stations) {
				for (const shape of drill.shapes) tallyOf("shape", shape, group).add(week, minutes);
				for (const [skill, count] of skills.get(drill.id) ?? []) {
					const tally = tallyOf("skill", skill, group);
					tally.add(week, minutes);
					if (count === 0) tally.prepared += done;
					else tally.performed += done * count;
				}
			}
		}
	}
	return (["shape", "skill"] as const).flatMap((kind) =>
		[...(kind === "shape" ? curriculum.shapes : curriculum.skills).keys()].flatMap((id) =>
			groupsOf(curriculum).flatMap(
				(group) => tallies[kind].get(id)?.get(group.name)?.row(kind, id, group) ?? [],
			),
		),
	);
}

class Tally {
	minutes = 0;
	performed = 0;
	prepared = 0;
	readonly #weeks = new Set<number>();

	add(week: number, minutes: number): void {
		this.minutes += minutes;
		this.#weeks.add(week);
	}

	row(kind: ReachRow["kind"], id: Id, group: Group): ReachRow {
		const weeks = [...this.#weeks].sort((a, b) => a - b);
		const gaps = weeks.slice(1).map((week, i) => week - (weeks[i] ?? week));
		return {
			kind,
			id,
			group,
			weeks,
			minutes: this.minutes,
			performed: kind === "shape" ? undefined : this.performed,
			prepared: kind === "shape" ? undefined : this.prepared,
			first: weeks[0] ?? 0,
			last: weeks.at(-1) ?? 0,
			longestGap: gaps.length === 0 ? undefined : Math.max(...gaps),
		};
	}
}

/** reach.csv, and H338 and H343. */
export const reachMeasure: Measure = {
	name: "reach",
	tables: ({ curriculum }) => [
		tableOf(curriculum, "reach", reach(curriculum), {
			kind: (r) => r.kind,
			id: (r) => r.id,
			group: (r) => r.group.name,
			weeks: (r) => r.weeks.length,
			minutes: (r) => r.minutes,
			performed: (r) => r.performed,
			prepared: (r) => r.prepared,
			first: (r) => r.first,
			last: (r) => r.last,
			"longest-gap": (r) => r.longestGap,
		}),
	],
	findings: ({ curriculum }, words) => {
		const say = words.findings.hall;
		return seldomReached(curriculum).map(({ skill, group, performed, prepared, wanted }) => {
			const who = groupName(words, group);
			const at = { source: curriculum.term.source, path: group.class.path };
			const about = { skill: skill.id, ...aboutGroup(group) };
			if (wanted === undefined)
				return finding(words, "H343", "worth a look", say.notReached(who, skill.name), at, about);
			const what =
				performed === 0
					? say.repsNever(who, skill.name, prepared, wanted)
					: say.reps(who, skill.name, performed, prepared, wanted);
			return finding(words, "H338", "worth a look", what, at, about);
		});
	},
};

/** A skill that a group learns and does not do at all, or less often than is wanted. */
export interface SeldomReached {
	readonly skill: LinkedSkill;
	readonly group: Group;
	readonly performed: number;
	readonly prepared: number;
	/** Undefined where the group does not meet it at all. */
	readonly wanted: number | undefined;
}

/** Skill by skill, in the club's order, then by group as in the term. */
export function seldomReached(curriculum: Curriculum): readonly SeldomReached[] {
	return [...curriculum.skills.values()].flatMap((skill) =>
		groupsOf(curriculum).flatMap((group) => {
			// A level of the group learns it; who arrives with it need not be taught.
			const isLearned = group.levels.some(
				(level) =>
					skill.levels.includes(level) && curriculum.levels.get(level)?.entry.includes(skill.id) !== true,
			);
			return isLearned && group.rotation.length > 0 ? tooSeldom(curriculum, skill, group) : [];
		}),
	);
}

/** What the same gymnasts do on another day counts too. */
function tooSeldom(curriculum: Curriculum, skill: LinkedSkill, group: Group): readonly SeldomReached[] {
	const own = reachOf(curriculum).get(`skill ${skill.id} ${group.gymnastsId}`) ?? [];
	// What no class is taught is for the levels' own targets to say.
	if (own.length === 0) {
		// Who does nothing all term is told that, and not each skill.
		const isThere = groupWorks(curriculum).some((work) => work.group.gymnastsId === group.gymnastsId);
		if (!isThere) return [];
		const isPlanned = skill.drills.some((drill) => (curriculum.drills.get(drill)?.planned.length ?? 0) > 0);
		return isPlanned ? [{ skill, group, performed: 0, prepared: 0, wanted: undefined }] : [];
	}
	const wanted = curriculum.targets.skillReps;
	const performed = own.reduce((sum, row) => sum + (row.performed ?? 0), 0);
	const prepared = own.reduce((sum, row) => sum + (row.prepared ?? 0), 0);
	return wanted === undefined || performed >= wanted ? [] : [{ skill, group, performed, prepared, wanted }];
}

/** The rows of the same gymnasts, by `kind id gymnasts`. */
export const reachOf = onceEach((curriculum: Curriculum) =>
	Map.groupBy(reach(curriculum), (row) => `${row.kind} ${row.id} ${row.group.gymnastsId}`),
);
