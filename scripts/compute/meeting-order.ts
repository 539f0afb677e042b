/**
 * Order: whether each group has met what a drill builds on before it first does the drill.
 *
 * Steps: lay everything the same gymnasts do in a row, by week, meeting of the week, rotation and block;
 * at the first time of each drill ask for every `after` (never excused by a skill, only by `entry` or by
 * not being offered to the level), for every `needs` of a skill that it performs, and for every `ready`.
 * Stations of one block are at the same time: none of them comes before another.
 */

import type { Curriculum, Id, LinkedDrill } from "../model.ts";
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
	/** Whether the library has no drill that performs the needed skill, so that preparing it counts. */
	readonly byPreparing?: boolean;
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

const known = new WeakMap<Curriculum, readonly OrderRow[]>();

/** By group as in the term, then in the order in which the drills are first done. */
export function orderRows(curriculum: Curriculum): readonly OrderRow[] {
	const before = known.get(curriculum);
	if (before !== undefined) return before;
	const library = new Library(curriculum);
	const hasClasses = curriculum.term.classes.length > 0;
	const all = hasClasses ? groupsOf(curriculum) : levelsAsGroups(curriculum);
	const works = hasClasses ? groupWorks(curriculum) : worksOfGroups(curriculum, all);
	const rows = [...Map.groupBy(all, (group) => group.gymnastsId).values()].flatMap((groups) => {
		const sessions = new Map(groups.map((group) => [group, group.session]));
		const own = works
			.filter((work) => sessions.has(work.group))
			.sort((a, b) => a.week - b.week || (sessions.get(a.group) ?? 0) - (sessions.get(b.group) ?? 0));
		return rowsOf(curriculum, library, own);
	});
	const rank = new Map(all.map((group, i) => [group, i]));
	const sorted = rows
		.map((row, i) => ({ row, i }))
		.sort((a, b) => (rank.get(a.row.group) ?? 0) - (rank.get(b.row.group) ?? 0) || a.i - b.i)
		.map(({ row }) => row);
	known.set(curriculum, sorted);
	return sorted;
}

/** What the library can do, asked once. */
export class Library {
	readonly performs: ReadonlyMap<Id, ReadonlyMap<Id, number>>;
	readonly performed: ReadonlySet<Id>;
	/** A club that says nowhere what is performed is asked by what its drills prepare. */
	readonly saysPerformed: boolean;
	readonly #done = new Map<LinkedDrill, ReadonlySet<Id>>();

	constructor(curriculum: Curriculum) {
		const drills = [...curriculum.drills.values()];
		this.performs = new Map(drills.map((drill) => [drill.id, performedBy(drill)]));
		this.performed = new Set([...this.performs.values()].flatMap((skills) => [...skills.keys()]));
		this.saysPerformed = this.performed.size > 0;
	}

	/** The skills whose `needs` a drill asks for. */
	skillsOf(drill: LinkedDrill): Iterable<Id> {
		return this.saysPerformed ? (this.performs.get(drill.id)?.keys() ?? []) : drill.skills;
	}

	/** Skills that count as done with a drill. */
	skillsDoneIn(drill: LinkedDrill | undefined): ReadonlySet<Id> {
		if (drill === undefined) return new Set();
		const before = this.#done.get(drill);
		if (before !== undefined) return before;
		const named = [...drill.skills, ...(this.performs.get(drill.id)?.keys() ?? [])];
		const done = new Set(named.filter((skill) => this.countOf(drill, skill) > 0));
		this.#done.set(drill, done);
		return done;
	}

	/** Repetitions of a skill in one of the drill: performed, or prepared where nothing performs it. */
	countOf(drill: LinkedDrill, skill: Id): number {
		const count = this.performs.get(drill.id)?.get(skill);
		if (count !== undefined) return count;
		return !this.performed.has(skill) && drill.skills.includes(skill) ? 1 : 0;
	}
}

function rowsOf(curriculum: Curriculum, library: Library, works: readonly GroupWork[]): readonly OrderRow[] {
	const moments: readonly Moment[] = works.flatMap((work) => work.blocks.map((block) => ({ work, block })));
	const firstOf = firstWeeks(library, moments);
	/** What was done before the present block: times of each drill, repetitions of each drill and skill. */
	const times = new Map<Id, number>();
	const drillReps = new Map<Id, number>();
	const skillTimes = new Map<Id, number>();
	const skillReps = new Map<Id, number>();
	const add = (map: Map<Id, number>, id: Id, count: number): void =>
		void map.set(id, (map.get(id) ?? 0) + count);
	const rows: OrderRow[] = [];
	for (const { work, block } of moments) {
		for (const station of block.stations) {
			if (times.has(station.drill.id)) continue;
			const { drill, level } = station;
			const entry = new Set(curriculum.levels.get(level)?.entry ?? []);
			const at = {
				group: work.group,
				drill: drill.id,
				level,
				week: work.week,
				apparatus: block.apparatus,
				block: block.block.number,
			};
			const judge = (had: number, wanted: number, id: Id): OrderRow["met"] =>
				had >= wanted ? "yes" : entry.has(id) ? "entry" : "no";
			for (const id of drill.after) {
				if (curriculum.drills.get(id)?.levels.has(level) !== true) continue;
				const had = times.get(id) ?? 0;
				const row = { had, wanted: 1, met: judge(had, 1, id), later: firstOf.get(`drill ${id}`) };
				rows.push({ ...at, rule: "after", id, kind: "drill", ...row });
			}
			const asked = new Set<Id>();
			for (const skill of library.skillsOf(drill)) {
				if (entry.has(skill)) continue;
				for (const need of curriculum.skills.get(skill)?.needs ?? []) {
					// The drill that performs both does the one within the other.
					if (asked.has(need) || library.countOf(drill, need) > 0) continue;
					asked.add(need);
					const had = skillTimes.get(need) ?? 0;
					const row = { had, wanted: 1, met: judge(had, 1, need), later: firstOf.get(`skill ${need}`) };
					const byPreparing = library.saysPerformed && !library.performed.has(need);
					rows.push({
						...at,
						rule: "needs",
						id: need,
						kind: "skill",
						skill,
						...(byPreparing ? { byPreparing } : {}),
						...row,
					});
				}
			}
			for (const gate of drill.ready) {
				if (gate.text !== undefined) continue;
				for (const kind of ["drill", "skill"] as const) {
					const id = gate[kind];
					if (id === undefined) continue;
					const had = (kind === "drill" ? drillReps : skillReps).get(id) ?? 0;
					const row = {
						had,
						wanted: gate.reps,
						met: judge(had, gate.reps, id),
						later: firstOf.get(`${kind} ${id}`),
					};
					rows.push({ ...at, rule: "ready", id, kind, ...row });
				}
			}
		}
		for (const { drill, done = 0 } of block.stations) {
			add(times, drill.id, 1);
			add(drillReps, drill.id, done);
			for (const skill of library.skillsDoneIn(drill)) {
				add(skillTimes, skill, 1);
				add(skillReps, skill, done * library.countOf(drill, skill));
			}
		}
	}
	return rows;
}

function firstWeeks(library: Library, moments: readonly Moment[]): ReadonlyMap<string, number> {
	const first = new Map<string, number>();
	for (const { work, block } of moments) {
		for (const { drill } of block.stations) {
			for (const key of [
				`drill ${drill.id}`,
				...[...library.skillsDoneIn(drill)].map((skill) => `skill ${skill}`),
			]) {
				if (!first.has(key)) first.set(key, work.week);
			}
		}
	}
	return first;
}
