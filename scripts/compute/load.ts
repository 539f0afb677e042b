/**
 * Load: landings and hand contacts that a gymnast of each group really does in a week, what was planned
 * of them, and the step from the weeks before.
 *
 * Steps: contacts × what is done of every drill, added up; the whole dose beside it; then each week over
 * the mean of the up to three calendar weeks before it within the term. A closed week, and a week in
 * which the group does nothing, count 0: children come back from a break to what their bodies did not do.
 *
 * A count for planning, not a medical measure. Landings and hand contacts are counted in studies of
 * young gymnasts (wrist pain: DiFiori et al. 1996, 2002). The club's own target decides which step is
 * listed; no step is called safe or unsafe, since bands for such ratios (Gabbett 2016) have been
 * strongly criticised (Impellizzeri et al. 2020).
 */

import type { Curriculum, Finding, Id } from "../model.ts";
import type { Words } from "../words/words.ts";
import { teachingWeeks } from "./calendar.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import { onceEach } from "./get-or-make.ts";
import type { Group } from "./groups.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, drillName, groupName } from "./names.ts";
import { rounded, tableOf } from "./tables.ts";
import { type GroupWork, groupWorks } from "./work.ts";

/** Calendar weeks that a week is held against. */
const WEEKS_BEFORE = 3;

export interface GroupLoad {
	readonly week: number;
	readonly group: Group;
	readonly landings: number;
	readonly hands: number;
	readonly plannedLandings: number;
	readonly plannedHands: number;
	/** This week over the mean before; undefined in the first week and where that mean is 0. */
	readonly landingsStep: number | undefined;
	readonly handsStep: number | undefined;
	/** Minutes of drills that say nothing of contacts, and of all. */
	readonly unknownMinutes: number;
	readonly minutes: number;
	/** What each drill adds, most first. */
	readonly drills: readonly { readonly drill: Id; readonly landings: number; readonly hands: number }[];
}

/** Each group in each week in which it does something, by week, then as in the term. */
export const groupLoads = onceEach((curriculum: Curriculum) =>
	groupLoadsIn(curriculum, groupWorks(curriculum)),
);

/** The same of any works. */
export function groupLoadsIn(curriculum: Curriculum, works: readonly GroupWork[]): readonly GroupLoad[] {
	const sums = works.map(({ week, group, blocks }) => {
		const drills = new Map<Id, { landings: number; hands: number }>();
		const sum = { landings: 0, hands: 0, plannedLandings: 0, plannedHands: 0, unknownMinutes: 0, minutes: 0 };
		for (const { drill, minutes, planned, done = 1 } of blocks.flatMap((b) => b.stations)) {
			sum.minutes += minutes;
			const { contacts } = drill;
			if (contacts === undefined) {
				sum.unknownMinutes += minutes;
				continue;
			}
			const own = drills.get(drill.id) ?? { landings: 0, hands: 0 };
			drills.set(drill.id, own);
			own.landings += contacts.landings * done;
			own.hands += contacts.hands * done;
			sum.landings += contacts.landings * done;
			sum.hands += contacts.hands * done;
			sum.plannedLandings += contacts.landings * (planned ?? done);
			sum.plannedHands += contacts.hands * (planned ?? done);
		}
		return { week, group, ...sum, drills };
	});
	const byKey = new Map(sums.map((sum) => [`${sum.group.name} ${sum.week}`, sum]));
	return sums.map((sum): GroupLoad => {
		const step = (of: "landings" | "hands"): number | undefined => {
			const weeks = weeksBefore(curriculum, sum.week);
			if (weeks.length === 0) return undefined;
			const sumBefore = weeks.reduce<number>(
				(total, week) =>
					total + (week === undefined ? 0 : (byKey.get(`${sum.group.name} ${week}`)?.[of] ?? 0)),
				0,
			);
			return sumBefore === 0 ? undefined : sum[of] / (sumBefore / weeks.length);
		};
		return {
			...sum,
			landingsStep: step("landings"),
			handsStep: step("hands"),
			drills: [...sum.drills]
				.map(([drill, contacts]) => ({ drill, ...contacts }))
				.sort((a, b) => b.landings + b.hands - (a.landings + a.hands)),
		};
	});
}

/** The calendar weeks that a week's load is held against: numbers of teaching weeks, undefined for one that is closed. */
export function weeksBefore(curriculum: Curriculum, week: number): readonly (number | undefined)[] {
	const at = placeInCalendar(curriculum, week);
	return calendarOf(curriculum).slice(Math.max(0, at - WEEKS_BEFORE), at);
}

/** Which calendar week of the term a teaching week is, from 0. */
export function placeInCalendar(curriculum: Curriculum, week: number): number {
	return calendarOf(curriculum).indexOf(week);
}

const MILLISECONDS_A_WEEK = 7 * 24 * 60 * 60 * 1000;

/** The calendar weeks of the term in order: the number of the teaching week, undefined for one that is closed. */
const calendarOf = onceEach((curriculum: Curriculum): readonly (number | undefined)[] => {
	const teaching = teachingWeeks(curriculum.term);
	const start = teaching[0]?.monday;
	const last = Math.max(curriculum.term.weeks, ...curriculum.weeks.map((plan) => plan.week));
	// Without a date every week follows the one before.
	if (start === undefined || curriculum.term.starts === undefined)
		return Array.from({ length: last }, (_, i) => i + 1);
	const weeks: (number | undefined)[] = [];
	for (const { week, monday } of teaching) {
		const place = Math.round((Date.parse(monday) - Date.parse(curriculum.term.starts)) / MILLISECONDS_A_WEEK);
		while (weeks.length < place) weeks.push(undefined);
		weeks.push(week);
	}
	return weeks;
});

/** load.csv, and H311 and H340. */
export const loadMeasure: Measure = {
	name: "load",
	tables: ({ curriculum }) => [
		tableOf(curriculum, "load", groupLoads(curriculum), {
			week: (l) => l.week,
			group: (l) => l.group.name,
			landings: (l) => l.landings,
			hands: (l) => l.hands,
			"planned-landings": (l) => l.plannedLandings,
			"planned-hands": (l) => l.plannedHands,
			"landings-step": (l) => l.landingsStep,
			"hands-step": (l) => l.handsStep,
		}),
	],
	findings: ({ curriculum }, words) => {
		const loads = groupLoads(curriculum);
		// Groups that do the same have one cause.
		const same = Map.groupBy(
			loads.flatMap((load) => steppedOver(curriculum, load) ?? []),
			({ load: { week }, over, most }) =>
				[week, most?.drill, ...over.map(({ of, value, step }) => `${of} ${value} ${rounded(step)}`)].join(
					" ",
				),
		);
		return [
			...[...same.values()].flatMap((all) => stepped(curriculum, all, words)),
			...loads.flatMap((load) => overMost(curriculum, load, words)),
		];
	},
};

/** The kinds of contacts of which a group does more than the target allows after the weeks before. */
export function stepsOver(
	{ landingsStep, handsStep }: Pick<GroupLoad, "landingsStep" | "handsStep">,
	target: number,
): readonly { readonly of: "landings" | "hands"; readonly step: number }[] {
	const kinds = [
		{ of: "landings", step: landingsStep },
		{ of: "hands", step: handsStep },
	] as const;
	return kinds.flatMap(({ of, step }) => (step !== undefined && step > target + 1e-9 ? [{ of, step }] : []));
}

interface Stepped {
	readonly load: GroupLoad;
	/** What is over the target. */
	readonly over: readonly {
		readonly of: "landings" | "hands";
		readonly value: number;
		readonly step: number;
	}[];
	/** The drill that adds most of the first of it. */
	readonly most: GroupLoad["drills"][number] | undefined;
}

/** A load with a step over the club's target; undefined where it has none. */
function steppedOver({ targets }: Curriculum, load: GroupLoad): Stepped | undefined {
	const target = targets.loadStep;
	if (target === undefined) return undefined;
	const over = stepsOver(load, target).map(({ of, step }) => ({ of, value: load[of], step }));
	const [first] = over;
	if (first === undefined) return undefined;
	return { load, over, most: [...load.drills].sort((a, b) => b[first.of] - a[first.of])[0] };
}

function stepped(curriculum: Curriculum, all: readonly Stepped[], words: Words): readonly Finding[] {
	const say = words.findings.load;
	const [one] = all;
	const [first] = one?.over ?? [];
	if (one === undefined || first === undefined) return [];
	const { load, over, most } = one;
	const before = weeksBefore(curriculum, load.week).length;
	return [
		finding(
			words,
			"H311",
			"worth a look",
			say.step(
				all.map(({ load: { group } }) => groupName(words, group)),
				load.week,
				over.map(({ of, value, step }) => say[of](value, step, before)),
				curriculum.targets.loadStep ?? 0,
			),
			placeOf(curriculum, load, most?.drill),
			{
				week: load.week,
				...(all.length === 1 ? aboutGroup(load.group) : {}),
				...(most === undefined ? {} : { drill: most.drill }),
			},
			most === undefined
				? undefined
				: (first.of === "landings" ? say.spreadLandings : say.spreadHands)(
						drillName(curriculum, most.drill),
						most[first.of],
					),
			all.length,
		),
	];
}

function overMost(curriculum: Curriculum, load: GroupLoad, words: Words): readonly Finding[] {
	const target = curriculum.targets.landings;
	if (target === undefined || load.landings <= target + 1e-9) return [];
	const most = [...load.drills].sort((a, b) => b.landings - a.landings)[0];
	return [
		finding(
			words,
			"H340",
			"worth a look",
			words.findings.hall.landings(
				groupName(words, load.group),
				load.week,
				load.landings,
				target,
				drillName(curriculum, most?.drill ?? ""),
			),
			placeOf(curriculum, load, most?.drill),
			{
				week: load.week,
				...aboutGroup(load.group),
				...(most === undefined ? {} : { drill: most.drill }),
			},
		),
	];
}

/** The block in which the group first does a drill in the week. */
function placeOf(curriculum: Curriculum, { week, group }: GroupLoad, drill: Id | undefined) {
	const work = groupWorks(curriculum).find((one) => one.week === week && one.group === group);
	const block = work?.blocks.find(({ stations }) => stations.some((station) => station.drill.id === drill));
	return { source: sourceOfWeek(curriculum, week), path: block?.block.path ?? ["apparatus"] };
}
