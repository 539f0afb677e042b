/**
 * Order: whether each group has met what a drill builds on before it first does the drill.
 *
 * Steps: lay everything the same gymnasts do in a row, by week, meeting of the week, rotation and block;
 * at the first time of each drill ask for every `after` (never excused by a skill, only by `entry` or by
 * not being offered to the level), for every `needs` of a skill that it performs, and for every `ready`.
 * Stations of one block are at the same time: none of them comes before another.
 */

import { originalOf } from "../link/join-records.ts";
import type { Curriculum, Id, LinkedDrill } from "../model.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";
import { type Group, groupsOf, levelsAsGroups } from "./groups.ts";
import { performedBy } from "./reach.ts";
import { type BlockWork, type GroupWork, groupWorks, worksOfGroups } from "./work.ts";

export interface OrderRow {
	readonly group: Group;
	/** The drill that is done for the first time, where. */
	readonly drill: Id;
	readonly level: Id;
	readonly week: number;
	readonly apparatus: Id;
	readonly block: number;
	readonly rule: "after" | "needs" | "ready";
	/** The drill or skill that is asked for. */
	readonly id: Id;
	readonly kind: "drill" | "skill";
	/** The skill whose `needs` asks. */
	readonly skill?: Id;
	/** Repetitions asked for by `ready`, times done before in the others; and what there was of them before. */
	readonly had: number;
	readonly wanted: number;
	readonly met: "yes" | "entry" | "no";
	/** The week in which what is asked for is first done after all; undefined where it never is. */
	readonly later: number | undefined;
}

interface Moment {
	readonly work: GroupWork;
	readonly block: BlockWork;
}

/** By group as in the term, then in the order in which the drills are first done. */
export const orderRows = onceEach((curriculum: Curriculum): readonly OrderRow[] => {
	const hasClasses = curriculum.term.classes.length > 0;
	const all = hasClasses ? groupsOf(curriculum) : levelsAsGroups(curriculum);
	const works = hasClasses ? groupWorks(curriculum) : worksOfGroups(curriculum, all);
	return orderRowsIn(curriculum, all, works);
});

/** The same of any works of these groups. */
export function orderRowsIn(
	curriculum: Curriculum,
	all: readonly Group[],
	works: readonly GroupWork[],
): readonly OrderRow[] {
	const library = libraryOf(curriculum);
	const rows = [...Map.groupBy(works, ({ group }) => group.gymnastsId).values()].flatMap((own) =>
		rowsOf(
			library,
			own.sort((a, b) => a.week - b.week || a.group.session - b.group.session),
		),
	);
	const rank = new Map(all.map((group, i) => [group, i]));
	return rows.sort((a, b) => (rank.get(a.group) ?? 0) - (rank.get(b.group) ?? 0));
}

/** Something that must have been done before a drill is done for the first time. */
export interface Ask extends Pick<OrderRow, "rule" | "id" | "kind" | "skill" | "wanted"> {
	/** Whether the level arrives with it. */
	readonly isEntry: boolean;
}

/** What the library can do, asked once. */
export class Library {
	readonly performs: ReadonlyMap<Id, ReadonlyMap<Id, number>>;
	readonly performed: ReadonlySet<Id>;
	/** A club that says nowhere what is performed is asked by what its drills prepare. */
	readonly saysPerformed: boolean;
	readonly #done = new Map<Id, ReadonlyMap<Id, number>>();

	readonly #curriculum: Curriculum;

	constructor(curriculum: Curriculum) {
		this.#curriculum = curriculum;
		const drills = [...curriculum.drills.values()];
		this.performs = new Map(drills.map((drill) => [drill.id, performedBy(drill)]));
		this.performed = new Set([...this.performs.values()].flatMap((skills) => [...skills.keys()]));
		this.saysPerformed = this.performed.size > 0;
	}

	/** The skills whose `needs` a drill asks for. */
	skillsOf(drill: LinkedDrill): Iterable<Id> {
		return this.saysPerformed ? (this.performs.get(drill.id)?.keys() ?? []) : drill.skills;
	}

	/** Skills that count as done with a drill, with their repetitions in one of it. */
	skillsDoneIn(drill: LinkedDrill): ReadonlyMap<Id, number> {
		return getOrMake(this.#done, drill.id, () => {
			const named = [...drill.skills, ...(this.performs.get(drill.id)?.keys() ?? [])];
			return new Map(
				named.flatMap((skill) => {
					const count = this.countOf(drill, skill);
					return count > 0 ? [[skill, count]] : [];
				}),
			);
		});
	}

	/** Everything that a drill asks for at a level, `after` before `needs` before `ready`. */
	asksOf(drill: LinkedDrill, level: Id): readonly Ask[] {
		const { drills, levels, skills } = this.#curriculum;
		const entry = levels.get(level)?.entry ?? [];
		const asks: Ask[] = [];
		const add = (ask: Omit<Ask, "isEntry">) => void asks.push({ ...ask, isEntry: entry.includes(ask.id) });
		for (const id of drill.after) {
			if (drills.get(id)?.levels.has(level)) add({ rule: "after", id, kind: "drill", wanted: 1 });
		}
		const asked = new Set<Id>();
		for (const skill of this.skillsOf(drill)) {
			if (entry.includes(skill)) continue;
			for (const id of skills.get(skill)?.needs ?? []) {
				// The drill that performs both does the one within the other.
				if (asked.has(id) || this.countOf(drill, id) > 0) continue;
				asked.add(id);
				add({ rule: "needs", id, kind: "skill", skill, wanted: 1 });
			}
		}
		for (const gate of drill.ready) {
			if (gate.text !== undefined) continue;
			for (const kind of ["drill", "skill"] as const) {
				const id = gate[kind];
				if (id !== undefined) add({ rule: "ready", id, kind, wanted: gate.reps });
			}
		}
		return asks;
	}

	/** Repetitions of a skill in one of the drill: performed, or prepared where nothing performs it. */
	countOf(drill: LinkedDrill, skill: Id): number {
		const count = this.performs.get(drill.id)?.get(skill);
		if (count !== undefined) return count;
		return !this.performed.has(skill) && drill.skills.includes(skill) ? 1 : 0;
	}
}

/** The plan asks nothing of it: trials of changes share one. */
export const libraryOf = (curriculum: Curriculum): Library => ofOriginal(originalOf(curriculum));
const ofOriginal = onceEach((original: Curriculum) => new Library(original));

function rowsOf(library: Library, works: readonly GroupWork[]): readonly OrderRow[] {
	const moments: readonly Moment[] = works.flatMap((work) => work.blocks.map((block) => ({ work, block })));
	const first = firstWeeks(library, moments);
	/** What was done before the present block. */
	const drills = new Map<Id, Done>();
	const skills = new Map<Id, Done>();
	const add = (to: Map<Id, Done>, id: Id, reps: number): void => {
		const done = getOrMake(to, id, () => ({ times: 0, reps: 0 }));
		done.times++;
		done.reps += reps;
	};
	const rows: OrderRow[] = [];
	for (const { work, block } of moments) {
		for (const station of block.stations) {
			if (drills.has(station.drill.id)) continue;
			const { drill, level } = station;
			const at = {
				group: work.group,
				drill: drill.id,
				level,
				week: work.week,
				apparatus: block.apparatus,
				block: block.block.number,
			};
			for (const { isEntry, ...ask } of library.asksOf(drill, level)) {
				const done = (ask.kind === "drill" ? drills : skills).get(ask.id);
				const had = (ask.rule === "ready" ? done?.reps : done?.times) ?? 0;
				const met = had >= ask.wanted ? "yes" : isEntry ? "entry" : "no";
				rows.push({ ...at, ...ask, had, met, later: first[ask.kind].get(ask.id) });
			}
		}
		for (const { drill, done = 0 } of block.stations) {
			add(drills, drill.id, done);
			for (const [skill, count] of library.skillsDoneIn(drill)) add(skills, skill, done * count);
		}
	}
	return rows;
}

/** How often something was done, and its repetitions. */
interface Done {
	times: number;
	reps: number;
}

/** The week in which each drill and each skill is first done. */
function firstWeeks(
	library: Library,
	moments: readonly Moment[],
): Readonly<Record<OrderRow["kind"], ReadonlyMap<Id, number>>> {
	const first = { drill: new Map<Id, number>(), skill: new Map<Id, number>() };
	for (const { work, block } of moments) {
		for (const { drill } of block.stations) {
			// A drill brings the same skills each time.
			if (first.drill.has(drill.id)) continue;
			first.drill.set(drill.id, work.week);
			for (const skill of library.skillsDoneIn(drill).keys()) {
				if (!first.skill.has(skill)) first.skill.set(skill, work.week);
			}
		}
	}
	return first;
}
