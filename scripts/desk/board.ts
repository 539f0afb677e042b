/**
 * The plan as the desk shows it: weeks, areas, blocks, and for each level and class what the measures
 * count of a week. Nothing is counted here by a rule of its own: minutes, coaches, order, set-out and load
 * are those of scripts/compute.
 */

import type {
	Board,
	BoardArea,
	BoardBlock,
	BoardClass,
	BoardWeek,
	ClassWeek,
	LevelWeek,
	Trained,
} from "../../layouts/desk/api.ts";
import { dateOf, meets, teachingWeeks } from "../compute/calendar.ts";
import { coachesRows } from "../compute/coaches.ts";
import { coverage } from "../compute/coverage.ts";
import { groupsOf } from "../compute/groups.ts";
import { levelsOfClass } from "../compute/levels-of.ts";
import { groupLoads } from "../compute/load.ts";
import { orderRows } from "../compute/meeting-order.ts";
import { reach } from "../compute/reach.ts";
import { setOutRows } from "../compute/set-out.ts";
import { classTime } from "../compute/time.ts";
import { groupWorksIn } from "../compute/work.ts";
import type { Block, ClubClass, Curriculum, Exposure, Id, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import type { DeskPlan } from "./desk.ts";

/** Shapes and skills that are shown of a week, those with the most minutes. */
const MOST_TRAINED = 8;

export function boardOf(handbook: DeskPlan): Board {
	const { curriculum, words } = handbook;
	const { term } = curriculum;
	const named = (things: ReadonlyMap<Id, { readonly id: Id; readonly name: string }>) =>
		Array.from(things.values(), ({ id, name }) => ({ id, name }));
	const planned = new Map(curriculum.weeks.map((plan) => [plan.week, plan]));
	const last = Math.max(term.weeks, ...planned.keys());
	const counts = new WeekCounts(handbook);
	return {
		levels: named(curriculum.levels),
		classes: term.classes.map((one) => boardClass(curriculum, one)),
		areas: named(curriculum.apparatus),
		meetings: Math.max(1, ...groupsOf(curriculum).map(({ session }) => session)),
		weeks: Array.from({ length: last }, (_, i) => boardWeek(counts, planned.get(i + 1), i + 1, words)),
	};
}

function boardClass(curriculum: Curriculum, one: ClubClass): BoardClass {
	const rows = reach(curriculum).filter(({ group }) => group.class.id === one.id);
	const met = (kind: "shape" | "skill") =>
		new Set(rows.filter((row) => row.kind === kind).map(({ id }) => id)).size;
	const levels = levelsOfClass(curriculum, one);
	const rotations = one.groups.length > 0 ? one.groups.map(({ rotation }) => rotation) : [one.rotation];
	const skills = [...curriculum.skills.values()].filter(
		(skill) => skill.levels.length === 0 || skill.levels.some((level) => levels.includes(level)),
	);
	return {
		id: one.id,
		name: one.name,
		rotation: [...new Set(rotations.flat())],
		reach: {
			shapes: met("shape"),
			ofShapes: curriculum.shapes.size,
			skills: skills.filter(({ id }) => rows.some((row) => row.kind === "skill" && row.id === id)).length,
			ofSkills: skills.length,
		},
	};
}

function boardWeek(counts: WeekCounts, plan: WeekPlan | undefined, week: number, words: Words): BoardWeek {
	const { curriculum } = counts.handbook;
	const dates = teachingWeeks(curriculum.term)[week - 1];
	const days = dates && `${words.date(dates.monday, "short")} – ${words.date(dates.sunday, "short")}`;
	const own = plan && {
		id: plan.id,
		file: plan.source.file,
		areas: plan.apparatus.map(
			({ apparatus, focus, blocks }): BoardArea => ({
				area: apparatus,
				...(focus === undefined ? {} : { focus }),
				blocks: blocks.map((block) => boardBlock(counts, week, apparatus, block)),
			}),
		),
		byLevel: Object.fromEntries(
			Array.from(curriculum.levels.keys(), (level) => [level, counts.ofLevel(week, level)]),
		),
		byClass: Object.fromEntries(
			curriculum.term.classes.map((one) => [one.id, counts.ofClass(plan, one)] as const),
		),
	};
	return {
		week,
		theme: plan?.theme ?? "",
		...(days === undefined ? {} : { days }),
		...(own ?? { areas: [], byLevel: {}, byClass: {} }),
	};
}

function boardBlock(counts: WeekCounts, week: number, area: Id, block: Block): BoardBlock {
	const { drills } = counts.handbook.curriculum;
	const { kind, minutes, show, change, choose, levels, sessions, dose, doses, keep, note } = block;
	return {
		at: `${week}/${area}/${block.number}`,
		kind,
		minutes,
		show,
		change,
		choose,
		levels,
		sessions,
		...(dose === undefined ? {} : { dose }),
		doses: Object.fromEntries(doses),
		keep: keep === true,
		...(note === undefined ? {} : { note }),
		stations: block.stations.map(({ drill, note: own, at, landmark }) => {
			const where = landmark ?? at;
			return {
				drill,
				title: drills.get(drill)?.title ?? drill,
				...(own === undefined ? {} : { note: own }),
				...(where === undefined ? {} : { at: where }),
			};
		}),
		countsFor: counts.levelsOf(week, area, block.number),
		classes: counts.classesOf(week, block),
	};
}

/** What the measures count, looked up by week. */
class WeekCounts {
	readonly handbook: DeskPlan;
	readonly #exposures: ReadonlyMap<number, readonly Exposure[]>;
	readonly #coaches: ReadonlyMap<string, ReturnType<typeof coachesRows>>;
	readonly #setOut: ReadonlyMap<string, ReturnType<typeof setOutRows>>;
	readonly #loads: ReadonlyMap<string, ReturnType<typeof groupLoads>>;
	readonly #order: ReadonlyMap<string, ReturnType<typeof orderRows>>;

	constructor(handbook: DeskPlan) {
		const { curriculum } = handbook;
		this.handbook = handbook;
		this.#exposures = Map.groupBy(handbook.exposures, ({ week }) => week);
		this.#coaches = Map.groupBy(coachesRows(curriculum), (row) => `${row.week} ${row.group.class.id}`);
		this.#setOut = Map.groupBy(setOutRows(curriculum), (row) => `${row.week} ${row.class}`);
		this.#loads = Map.groupBy(groupLoads(curriculum), (row) => `${row.week} ${row.group.class.id}`);
		this.#order = Map.groupBy(
			orderRows(curriculum).filter(({ met }) => met === "no"),
			(row) => `${row.week} ${row.group.class.id}`,
		);
	}

	levelsOf(week: number, area: Id, number: number): readonly Id[] {
		const here = (this.#exposures.get(week) ?? []).filter(
			(one) => one.apparatus === area && one.block === number,
		);
		return [...new Set(here.map(({ level }) => level))];
	}

	classesOf(week: number, block: Block): readonly Id[] {
		const works = groupWorksIn(this.handbook.curriculum, week);
		const own = works.filter(({ blocks }) => blocks.some((one) => one.block === block));
		return [...new Set(own.map(({ group }) => group.class.id))];
	}

	ofLevel(week: number, level: Id): LevelWeek {
		const { curriculum } = this.handbook;
		const exposures = (this.#exposures.get(week) ?? []).filter((one) => one.level === level);
		const blocks = new Map(
			curriculum.weeks
				.filter((plan) => plan.week === week)
				.flatMap(({ apparatus }) => apparatus)
				.flatMap((plan) =>
					plan.blocks.map((block) => [`${plan.apparatus} ${block.number}`, block.minutes] as const),
				),
		);
		const own = new Set(exposures.map(({ apparatus, block }) => `${apparatus} ${block}` as const));
		return {
			minutes: sum([...own].map((key) => blocks.get(key) ?? 0)),
			trains: this.#trained(exposures),
		};
	}

	ofClass(plan: WeekPlan, one: ClubClass): ClassWeek {
		const { curriculum, words } = this.handbook;
		const { week } = plan;
		const key = `${week} ${one.id}`;
		const time = classTime(curriculum, plan, one);
		const date = dateOf(curriculum.term, week, one);
		const loads = this.#loads.get(key) ?? [];
		const most = (of: (load: (typeof loads)[number]) => number | undefined): number =>
			Math.max(0, ...loads.map((load) => of(load) ?? 0));
		const setOut = this.#setOut.get(key) ?? [];
		const works = groupWorksIn(curriculum, week).filter(({ group }) => group.class.id === one.id);
		const [landingsStep, handsStep] = [most((l) => l.landingsStep), most((l) => l.handsStep)];
		const exposures = works.flatMap(({ blocks }) =>
			blocks.flatMap(({ apparatus, block, stations }) =>
				stations.map(({ drill, level, minutes }) => ({
					week,
					level,
					apparatus,
					block: block.number,
					drill: drill.id,
					minutes,
				})),
			),
		);
		return {
			meets: meets(curriculum.term, week, one),
			...(date === undefined ? {} : { date: words.date(date, "short") }),
			planned: time.planned,
			...(time.available === undefined ? {} : { available: time.available }),
			...(time.activeShare === undefined ? {} : { activeShare: time.activeShare }),
			newDrills: time.newDrills.length,
			landings: most((l) => l.landings),
			hands: most((l) => l.hands),
			...(landingsStep > 0 ? { landingsStep } : {}),
			...(handsStep > 0 ? { handsStep } : {}),
			shortOfCoaches: (this.#coaches.get(key) ?? []).filter(
				({ needed, present }) => present !== undefined && needed > present,
			).length,
			outOfOrder: (this.#order.get(key) ?? []).length,
			missing: setOut.filter((row) => row.missing.length > 0).length,
			carried: setOut.filter((row) => row.carried.length > 0).length,
			trains: this.#trained(exposures),
		};
	}

	#trained(exposures: readonly Exposure[]): readonly Trained[] {
		const { curriculum } = this.handbook;
		const rows = (["shape", "skill"] as const).flatMap((kind) => {
			const names = kind === "shape" ? curriculum.shapes : curriculum.skills;
			const table = coverage({ curriculum, exposures }, kind, "week");
			return Array.from(table.columns, ([id, { minutes }]) => ({ name: names.get(id)?.name ?? id, minutes }));
		});
		return rows.sort((a, b) => b.minutes - a.minutes).slice(0, MOST_TRAINED);
	}
}

function sum(numbers: readonly number[]): number {
	return numbers.reduce((a, b) => a + b, 0);
}
