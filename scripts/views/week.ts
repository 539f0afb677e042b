/**
 * Weeks: the page of one, one apparatus in one, and the sheet of a class in one.
 */

import { dateOf, isClosed } from "../compute/calendar.ts";
import { closedWith, coachesFor, mostToACoach } from "../compute/coaches.ts";
import { equipmentFor } from "../compute/equipment.ts";
import { type Group, groupsOfClass } from "../compute/groups.ts";
import { levelsOfClass } from "../compute/levels-of.ts";
import { type SetOutRow, setOutRows } from "../compute/set-out.ts";
import { classTime, drillTime } from "../compute/time.ts";
import { type BlockWork, type StationWork, workOf } from "../compute/work.ts";
import type { ApparatusPlan, Block, ClubClass, Curriculum, Finding, Id, WeekPlan } from "../model.ts";
import { type Address, addressOf, classSheetAddress, weekApparatusAddress } from "./addresses.ts";
import { type DrillCore, drillCore, levelsInOrder } from "./drill.ts";
import { findingLines } from "./findings.ts";
import { floorPlanView } from "./floor-plan.ts";
import type { Html } from "./html.ts";
import { type Link, linksTo, linkTo } from "./links.ts";
import { directionRow } from "./measures/balance.ts";
import { clashViews } from "./measures/equipment.ts";
import { loadRow } from "./measures/load.ts";
import { timeRow } from "./measures/time.ts";
import { skillsOfDay } from "./reported.ts";
import { setOutFor } from "./set-out.ts";
import type { SiteIndex } from "./site-index.ts";
import { suggestionViews } from "./suggested.ts";
import { capital, clockWords, minutesOfDay } from "./words.ts";

/** A week as lists show it. */
export type WeekLine = ReturnType<typeof weekLine>;

export type ClassInWeek = ReturnType<typeof classInWeek>;

export interface Station {
	readonly drill: Link;
	readonly summary: Html | undefined;
	readonly note: Html | undefined;
	readonly core: DrillCore;
	/** Minutes at this drill by level, and the levels that share them. */
	readonly minutes: readonly { readonly levels: readonly Link[]; readonly minutes: number }[];
	/** Gymnasts of the class at this drill at a time; undefined without a class. */
	readonly gymnasts: number | undefined;
	/** Turns each of them gets; undefined without a class or a turn. */
	readonly turns: number | undefined;
	/** Seconds from the end of a turn to the next; undefined without a class or a turn. */
	readonly wait: number | undefined;
	/** The repetitions planned and those that the turns give, where they are fewer. */
	readonly fits: { readonly planned: number; readonly fits: number; readonly turns: number } | undefined;
}

export type BlockView = ReturnType<typeof blockView>;

export type PlannedWeek = ReturnType<typeof plannedWeek>;

export type WeekView = ReturnType<typeof weekView>;

export type PlannedApparatus = ReturnType<typeof plannedApparatus>;

export type WeekApparatusView = ReturnType<typeof weekApparatusView>;

export type ClassSheetView = ReturnType<typeof classSheetView>;

/** One apparatus of the rotation. */
export type ClassStop = ReturnType<typeof stopsOf>[number];

/** A week as a line of a list, written for the page at an address. */
export function weekLine(site: SiteIndex, page: Address, week: WeekPlan) {
	const dates = site.datesOf(week.week);
	return {
		id: week.id,
		link: { to: addressOf({ kind: "week", id: week.id }), name: site.words.week(week.week) },
		number: week.week,
		theme: site.inline(page, week.theme),
		from: dates?.monday,
		to: dates?.sunday,
		dates: dates === undefined ? "" : `${site.words.date(dates.monday)} – ${site.words.date(dates.sunday)}`,
		apparatus: week.apparatus.map((plan) => apparatusLine(site, page, week, plan)),
		classes: site.curriculum.term.classes.map((group) => classInWeek(site, week, group)),
	};
}

/** A class in a week: when, and where its sheet is. */
export function classInWeek(site: SiteIndex, week: WeekPlan, group: ClubClass) {
	const { term } = site.curriculum;
	const date = dateOf(term, week.week, group);
	const start = minutesOfDay(group.start);
	return {
		id: group.id,
		link: { to: classSheetAddress(group.id, week.id), name: group.name },
		day: group.day === undefined ? "" : site.words.days[group.day],
		shortDay: group.day === undefined ? "" : site.words.shortDays[group.day],
		date,
		dateWords: date === undefined ? "" : site.words.date(date),
		closed: date !== undefined && isClosed(term, date, group),
		start: start === undefined ? "" : clockWords(start),
		end: start === undefined || group.minutes === undefined ? "" : clockWords(start + group.minutes),
		levels: linksTo(site.curriculum, "level", levelsOfClass(site.curriculum, group)),
	};
}

export function plannedWeek(site: SiteIndex, week: WeekPlan) {
	const { curriculum } = site;
	const page = addressOf({ kind: "week", id: week.id });
	return {
		...weekLine(site, page, week),
		body: site.block(page, week.body),
		plans: week.apparatus.map((plan) => ({
			apparatus: apparatusLine(site, page, week, plan),
			blocks: plan.blocks.map((block) => ({
				number: block.number,
				kind: block.kind,
				minutes: block.minutes,
				levels: linksTo(curriculum, "level", block.levels),
				drills: linksTo(
					curriculum,
					"drill",
					block.stations.map((s) => s.drill),
				),
			})),
		})),
	};
}

export function weekView(site: SiteIndex, week: WeekPlan) {
	const { curriculum } = site;
	const [previous, next] = neighbours(curriculum.weeks, week, () => true);
	return {
		...plannedWeek(site, week),
		load: site.measures.loadsIn(week.week).map((load) => loadRow(site, load)),
		/** Of the classes that have something to do. */
		times: curriculum.term.classes.flatMap((group) => {
			const time = classTime(curriculum, week, group);
			const sheet = { to: classSheetAddress(group.id, week.id), name: group.name };
			return time.blocks.length === 0 ? [] : [{ class: sheet, row: timeRow(site, time) }];
		}),
		directions: site.measures.balancesIn(week.week).map((balance) => ({
			apparatus: {
				to: weekApparatusAddress(week.id, balance.apparatus),
				name: linkTo(curriculum, "apparatus", balance.apparatus).name,
			},
			row: directionRow(site, balance),
		})),
		clashes: clashViews(site, week.week),
		/** What each level lacks on each apparatus, and the drills that would close it. */
		suggestions: suggestionViews(
			site,
			week.week,
			[...curriculum.apparatus.keys()].filter((id) => week.apparatus.some((plan) => plan.apparatus === id)),
		),
		findings: findingLines(site, site.findings.week.get(week.week) ?? []),
		previous: previous && {
			to: addressOf({ kind: "week", id: previous.id }),
			name: site.words.week(previous.week),
		},
		next: next && { to: addressOf({ kind: "week", id: next.id }), name: site.words.week(next.week) },
		file: week.source.file,
	};
}

export function plannedApparatus(site: SiteIndex, week: WeekPlan, plan: ApparatusPlan) {
	const { curriculum } = site;
	const page = weekApparatusAddress(week.id, plan.apparatus);
	const own = apparatusLine(site, page, week, plan);
	return {
		id: plan.apparatus,
		week: weekLine(site, page, week),
		apparatus: linkTo(curriculum, "apparatus", plan.apparatus),
		focus: own.focus,
		minutes: own.minutes,
		blocks: plan.blocks.map((block) => blockView(site, page, week, plan, block, undefined)),
		/** Of each block of stations. */
		plans: plan.blocks.flatMap((block) => floorPlanView(curriculum, week, plan, block, site.words) ?? []),
		equipment: equipmentFor(curriculum, plan).map(({ item, needed, owned, drills }) => ({
			item: linkTo(curriculum, "equipment", item),
			needed,
			owned,
			stored: curriculum.equipment.get(item)?.stored,
			/** The drills that use the most of it at once. */
			drills: linksTo(curriculum, "drill", drills),
		})),
	};
}

export function weekApparatusView(site: SiteIndex, week: WeekPlan, plan: ApparatusPlan) {
	const planned = plannedApparatus(site, week, plan);
	const has = (other: WeekPlan) => other.apparatus.some((p) => p.apparatus === plan.apparatus);
	const [previous, next] = neighbours(site.curriculum.weeks, week, has);
	const way = (other: WeekPlan | undefined): Link | undefined =>
		other && { to: weekApparatusAddress(other.id, plan.apparatus), name: site.words.week(other.week) };
	return {
		...planned,
		/** What each level lacks here this week, and the drills that would close it. */
		suggestions: suggestionViews(site, week.week, [plan.apparatus]),
		/** The same apparatus in the weeks before and after. */
		previous: way(previous),
		next: way(next),
		others: planned.week.apparatus.filter((other) => other.id !== plan.apparatus),
	};
}

/** The sheet of a class in a week, with a running clock from the class's start (or from 00:00 without one). */
export function classSheetView(site: SiteIndex, week: WeekPlan, group: ClubClass) {
	const { curriculum } = site;
	const page = classSheetAddress(group.id, week.id);
	const time = classTime(curriculum, week, group);
	const begin = minutesOfDay(group.start) ?? 0;
	const groups = groupsOfClass(curriculum, group);
	const carrying = setOutRows(curriculum).filter((row) => row.week === week.week && row.class === group.id);
	const stops = groups.flatMap((part) => stopsOf(site, page, week, part, carrying, groups.length > 1));
	const end = begin + time.planned;
	const own = classInWeek(site, week, group);
	const [previous, next] = neighbours(curriculum.weeks, week, () => true);
	const sheet = (other: WeekPlan | undefined): Link | undefined =>
		other && { to: classSheetAddress(group.id, other.id), name: site.words.week(other.week) };
	const about = (f: Finding) => f.about.week === undefined || f.about.week === week.week;
	return {
		classId: group.id,
		name: group.name,
		levels: own.levels,
		week: weekLine(site, page, week),
		day: own.day,
		timezone: curriculum.club.timezone,
		date: own.date,
		dateWords: own.date === undefined ? own.day : site.words.date(own.date, "full"),
		closed: own.closed,
		start: own.start,
		end: own.end,
		gymnasts: group.gymnasts,
		coaches: group.coaches,
		ages: group.ages,
		warmUp: group.warmUp,
		coolDown: group.coolDown,
		planned: time.planned,
		available: time.available,
		/** Minutes in which a gymnast moves, over the class's minutes. */
		activeShare: time.activeShare,
		/** Under the club's target. */
		still: timeRow(site, time).still,
		warmUpClock: clockWords(begin),
		coolDownClock: clockWords(end - group.coolDown),
		endClock: clockWords(end),
		stops,
		/** What each group has to leave out with one coach fewer than planned; only those that have to. */
		fewer: groups.flatMap((part) => fewerCoachesView(curriculum, week, part) ?? []),
		/** What stands ready, by apparatus in the order of the rotation. */
		setOut: setOutFor(site, week, group),
		/** What its coach is asked about at the end. */
		skills: skillsOfDay(site, page, week, group),
		findings: findingLines(site, (site.findings.class.get(group.id) ?? []).filter(about)),
		previous: sheet(previous),
		next: sheet(next),
	};
}

/** The stops of a group on its way where it does something this week; each is reached when the way from the one before is over. */
function stopsOf(
	site: SiteIndex,
	page: Address,
	week: WeekPlan,
	group: Group,
	carrying: readonly SetOutRow[],
	isOneOfSeveral: boolean,
) {
	const { curriculum } = site;
	const work = workOf(curriculum, week, group);
	const begin = minutesOfDay(group.class.start) ?? 0;
	const part = group.name.slice(group.class.id.length + 1);
	return work.stays.flatMap(({ apparatus: id, blocks: own }) => {
		const plan = week.apparatus.find((p) => p.apparatus === id);
		const [first, last] = [own[0], own.at(-1)];
		if (plan === undefined || first === undefined || last === undefined) return [];
		const { from } = first;
		const { to } = last;
		const { name } = linkTo(curriculum, "apparatus", id);
		const who = isOneOfSeveral ? `${capital(group.part ?? "")}${site.words.colon}` : "";
		return [
			{
				id,
				/** Names the stop on its page: the apparatus, with the group where the class has several. */
				key: isOneOfSeveral ? `${part}-${id}` : id,
				apparatus: { to: weekApparatusAddress(week.id, id), name },
				/** The apparatus, after the group where the class has several. */
				name: `${who}${name}`,
				focus: site.inline(page, plan.focus),
				clock: clockWords(begin + from),
				minutes: to - from,
				/** What is carried here at the change, or is missing. */
				carried: carrying.flatMap(({ item, carried }) =>
					carried
						.filter((one) => one.to === id && one.at === from)
						.map(({ count, from: where, at, adults }) => ({
							count,
							item: linkTo(curriculum, "equipment", item).name,
							from: linkTo(curriculum, "apparatus", where).name,
							/** By when it must stand. */
							clock: clockWords(begin + at),
							/** Adults who carry one. */
							adults,
						})),
				),
				missing: carrying.flatMap(({ item, missing }) =>
					missing
						.filter(({ apparatus }) => apparatus === id)
						.map(({ count }) => ({ item: linkTo(curriculum, "equipment", item).name, count })),
				),
				blocks: own.map((one) => ({
					...blockView(site, page, week, plan, one.block, { group, work: one }),
					clock: clockWords(begin + one.from),
					until: clockWords(begin + one.to),
				})),
			},
		];
	});
}

/** A block with its stations; for a class, only the stations and the ways of its levels. */
function blockView(
	site: SiteIndex,
	page: Address,
	week: WeekPlan,
	plan: ApparatusPlan,
	block: Block,
	taken: { readonly group: Group; readonly work: BlockWork } | undefined,
) {
	const { curriculum } = site;
	const wanted = taken?.group.levels ?? [...curriculum.levels.keys()];
	const levels = wanted.filter((level) => block.levels.length === 0 || block.levels.includes(level));
	return {
		number: block.number,
		kind: block.kind,
		minutes: block.minutes,
		change: block.change,
		/** Of its minutes, those for showing it. */
		show: block.show,
		/** How many of the options are done. */
		choose: block.choose,
		note: site.inline(page, block.note),
		/** Undefined without a class, and where nothing is asked of the coaches. */
		coaches: taken && coachesView(taken.work, taken.group.coaches),
		/** The levels it names; empty means all. */
		levels: linksTo(curriculum, "level", block.levels),
		stations: block.stations.flatMap((station, i) => {
			const drill = curriculum.drills.get(station.drill);
			const work = taken?.work.stations.find((one) => one.station === i + 1);
			if (drill === undefined || (taken !== undefined && work === undefined)) return [];
			const time = work && drillTime(work);
			const offered = levelsInOrder(site, drill).filter((level) => levels.includes(level));
			return [
				{
					drill: linkTo(curriculum, "drill", drill.id),
					summary: site.inline(page, drill.summary),
					note: site.inline(page, station.note),
					core: drillCore(site, page, drill, offered, taken?.group.class.ages, block),
					minutes:
						time === undefined
							? minutesByLevel(site, week, plan, block, drill.id, offered)
							: [{ levels: [], minutes: time.minutes }],
					gymnasts: time?.gymnasts,
					turns: time?.turns,
					wait: time?.wait,
					fits: work && fitsOf(work),
				},
			];
		}),
	};
}

function fitsOf({ planned, fits, turns }: StationWork): Station["fits"] {
	if (planned === undefined || fits === undefined || turns === undefined) return undefined;
	return fits < planned - 1e-9 ? { planned, fits, turns } : undefined;
}

/** Nothing where a block asks for no coach: anybody may stand anywhere. */
function coachesView(work: BlockWork, present: number | undefined) {
	const { places, alone, hands, watched, needed } = coachesFor(work, present);
	if (needed === 0) return undefined;
	const shown = (numbers: readonly number[]) => indexesOf(work, numbers);
	return {
		places: places.map((place) => ({ ...place, stations: shown(place.stations) })),
		/** Stations with nobody at them: neither hands nor eyes are needed there. */
		alone: shown(alone),
		hands,
		watched,
		needed,
		present,
	};
}

/** Nothing where all can go on with one coach fewer, and where the plan does not say how many there are. */
function fewerCoachesView(curriculum: Curriculum, week: WeekPlan, group: Group) {
	const { blocks } = workOf(curriculum, week, group);
	if (group.coaches === undefined || blocks.length === 0) return undefined;
	const coaches = group.coaches - 1;
	const begin = minutesOfDay(group.class.start) ?? 0;
	const most = coaches * (mostToACoach(curriculum, group) ?? Number.POSITIVE_INFINITY);
	const closing = coaches === 0 ? [] : blocks.map((work) => ({ work, closed: closedWith(coaches, work) }));
	const view = {
		/** The group, where the class has several. */
		part: group.part,
		/** Those who are left; without any, nothing more is said. */
		coaches,
		/** As many as the club's ratio then allows; undefined where all may come. */
		gymnasts: coaches > 0 && most < group.gymnasts ? most : undefined,
		closed: closing.flatMap(({ work, closed }) =>
			closed.length === 0
				? []
				: {
						clock: clockWords(begin + work.from),
						apparatus: linkTo(curriculum, "apparatus", work.apparatus).name,
						/** Empty where the whole block is left out. */
						stations: closed.length === work.stations.length ? [] : indexesOf(work, closed),
					},
		),
	};
	return coaches > 0 && view.gymnasts === undefined && view.closed.length === 0 ? undefined : view;
}

/** Where these stations stand among those that the group does. */
function indexesOf({ stations }: BlockWork, numbers: readonly number[]): readonly number[] {
	return numbers.map((number) => stations.findIndex(({ station }) => station === number));
}

/** Levels share a station differently where some of the stations are not theirs. */
function minutesByLevel(
	site: SiteIndex,
	week: WeekPlan,
	plan: ApparatusPlan,
	block: Block,
	drill: Id,
	levels: readonly Id[],
): Station["minutes"] {
	const byMinutes = new Map<number, Id[]>();
	for (const level of levels) {
		const exposure = site.exposure(week.week, plan.apparatus, block.number, drill, level);
		if (exposure === undefined) continue;
		const same = byMinutes.get(exposure.minutes);
		if (same === undefined) byMinutes.set(exposure.minutes, [level]);
		else same.push(level);
	}
	return Array.from(byMinutes, ([minutes, ids]) => ({
		levels: linksTo(site.curriculum, "level", ids),
		minutes,
	}));
}

function apparatusLine(site: SiteIndex, page: Address, week: WeekPlan, plan: ApparatusPlan) {
	return {
		id: plan.apparatus,
		link: {
			to: weekApparatusAddress(week.id, plan.apparatus),
			name: linkTo(site.curriculum, "apparatus", plan.apparatus).name,
		},
		focus: site.inline(page, plan.focus),
		minutes: plan.blocks.reduce((sum, block) => sum + block.minutes, 0),
	};
}

function neighbours(
	weeks: readonly WeekPlan[],
	week: WeekPlan,
	fits: (other: WeekPlan) => boolean,
): readonly [WeekPlan | undefined, WeekPlan | undefined] {
	const at = weeks.indexOf(week);
	return [weeks.slice(0, at).findLast(fits), weeks.slice(at + 1).find(fits)];
}
