/**
 * A week that has no plan yet, as something that can be chosen: the blocks of the planned week nearest to
 * it, or, where none is planned, a block for each apparatus of each class, and every drill that the
 * weeks before it have prepared.
 */

import { getOrMake } from "../compute/get-or-make.ts";
import { groupsOf } from "../compute/groups.ts";
import { Library } from "../compute/meeting-order.ts";
import { groupWorks } from "../compute/work.ts";
import { withWeeks } from "../link/join-records.ts";
import type { ApparatusPlan, Block, Curriculum, Id, LinkedDrill, WeekPlan } from "../model.ts";
import { Choices, type Seat } from "./choices.ts";

/** The teaching weeks of the term that no file plans. */
export function emptyWeeks({ term, weeks }: Curriculum): readonly number[] {
	const planned = new Set(weeks.map(({ week }) => week));
	return Array.from({ length: term.weeks }, (_, i) => i + 1).filter((week) => !planned.has(week));
}

/** Why a week cannot be planned, in words; undefined where it can. */
export function cannotPlan(curriculum: Curriculum): string | undefined {
	if (groupsOf(curriculum).some(({ rotation }) => rotation.length > 0)) return undefined;
	return "No class has a rotation, so nobody says who comes and what they do. Write classes in _data/term.yaml.";
}

/** The curriculum with a draft of an empty week, which `choicesFor` then fills. */
export function withDraft(curriculum: Curriculum, week: number): Curriculum {
	const nearest = [...curriculum.weeks]
		.sort((a, b) => Math.abs(a.week - week) - Math.abs(b.week - week) || a.week - b.week)
		.at(0);
	const file = `content/weeks/week-${String(week).padStart(2, "0")}.md`;
	const start = { file, line: 1, column: 1 };
	const draft: WeekPlan = {
		id: `week-${String(week).padStart(2, "0")}`,
		week,
		theme: `Week ${week}`,
		apparatus: nearest === undefined ? fromClasses(curriculum) : nearest.apparatus.map(likeThat),
		body: "",
		source: { file, place: () => start, bodyPlace: () => start },
	};
	return withWeeks(
		curriculum,
		[...curriculum.weeks, draft].sort((a, b) => a.week - b.week),
	);
}

/** The same blocks, without what was said of them in that week. */
function likeThat({ apparatus, blocks }: ApparatusPlan): ApparatusPlan {
	return {
		apparatus,
		blocks: blocks.map(({ note: _note, keep: _keep, dose: _dose, ...block }) => ({
			...block,
			doses: new Map(),
			stations: block.stations.map(({ drill }) => ({ drill })),
		})),
	};
}

/** Stations of a block that nobody has planned yet. */
const STATIONS = 3;

/** For each apparatus and level a block of as many minutes as the classes that come there have for it. */
function fromClasses(curriculum: Curriculum): readonly ApparatusPlan[] {
	return [...curriculum.apparatus.keys()].flatMap((apparatus): readonly ApparatusPlan[] => {
		const blocks: Block[] = [];
		for (const level of curriculum.levels.keys()) {
			const groups = groupsOf(curriculum).filter(
				({ rotation, levels }) => rotation.includes(apparatus) && levels.includes(level),
			);
			const drills = [...curriculum.drills.values()].filter(
				(drill) => drill.apparatus.includes(apparatus) && drill.levels.has(level),
			);
			if (groups.length === 0 || drills.length === 0) continue;
			const minutes = groups.map(({ class: one, rotation }) => {
				const all = (one.minutes ?? 60) - one.warmUp - one.coolDown - one.between * (rotation.length - 1);
				return Math.floor(all / rotation.length);
			});
			const stations = drills.slice(0, STATIONS).map(({ id }) => ({ drill: id }));
			blocks.push({
				number: blocks.length + 1,
				kind: stations.length === 1 ? "drill" : "stations",
				stations,
				choose: 1,
				minutes: Math.max(1, Math.min(...minutes)),
				show: 0,
				change: 0.5,
				levels: [level],
				sessions: [],
				doses: new Map(),
				path: ["apparatus", apparatus, "blocks", blocks.length],
			});
		}
		return blocks.length === 0 ? [] : [{ apparatus, blocks }];
	});
}

/** How much two seeds may differ in what they like: less than a change. */
const TASTE = 0.002;

/** Every drill that may be done in the draft: what comes before it is done by then. */
export function choicesFor(curriculum: Curriculum, week: number, seed: number): Choices {
	const choices = new Choices(curriculum, {
		scope: { week },
		empty: new Set([week]),
		taste: (seat, drill) =>
			TASTE * chance(`${seed} ${seat.part.apparatus} ${seat.part.block.number} ${seat.station} ${drill}`),
		without: new Set(["exchange", "weeks", "move", "split", "add"]),
	});
	const isPrepared = preparedBefore(choices.curriculum, week);
	for (const seat of choices.seatsIn(week)) {
		const all = choices.candidates(seat);
		for (const drill of all) if (isPrepared(seat, drill)) choices.want(seat, drill);
		const draft = choices.curriculum.drills.get(seat.part.block.stations[seat.station]?.drill ?? "");
		if (draft !== undefined) choices.want(seat, draft);
	}
	return choices;
}

/** A number from 0 to 1 that is the same for the same words: FNV-1a. */
function chance(words: string): number {
	let hash = 0x811c9dc5;
	for (let i = 0; i < words.length; i++) hash = Math.imul(hash ^ words.charCodeAt(i), 0x01000193) >>> 0;
	return hash / 0xffffffff;
}

/** Whether the gymnasts of a seat have done by a week what a drill asks for. */
function preparedBefore(curriculum: Curriculum, week: number): (seat: Seat, drill: LinkedDrill) => boolean {
	const library = new Library(curriculum);
	const times = new Map<string, number>();
	const reps = new Map<string, number>();
	const add = (to: Map<string, number>, key: string, by: number) => void to.set(key, (to.get(key) ?? 0) + by);
	for (const work of groupWorks(curriculum)) {
		if (work.week >= week) continue;
		for (const { drill, done = 0 } of work.blocks.flatMap(({ stations }) => stations)) {
			const gymnasts = work.group.gymnastsId;
			add(times, `${gymnasts} drill ${drill.id}`, 1);
			add(reps, `${gymnasts} drill ${drill.id}`, done);
			for (const [skill, count] of library.skillsDoneIn(drill)) {
				add(times, `${gymnasts} skill ${skill}`, 1);
				add(reps, `${gymnasts} skill ${skill}`, done * count);
			}
		}
	}
	const asks = new Map<string, ReturnType<Library["asksOf"]>>();
	return ({ part }, drill) =>
		part.groups.every(({ group }) => {
			const level: Id | undefined = group.levels.find(
				(one) => part.levels.includes(one) && drill.levels.has(one),
			);
			if (level === undefined || times.has(`${group.gymnastsId} drill ${drill.id}`)) return true;
			return getOrMake(asks, `${drill.id} ${level}`, () => library.asksOf(drill, level)).every(
				({ isEntry, rule, kind, id, wanted }) =>
					isEntry ||
					((rule === "ready" ? reps : times).get(`${group.gymnastsId} ${kind} ${id}`) ?? 0) >= wanted,
			);
		});
}
