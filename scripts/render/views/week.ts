/**
 * Weeks: the page of one, one apparatus in one, and the sheet of a class in one.
 */

import type { ApparatusPlan, Block, ClubClass, Finding, Id, WeekPlan } from "../../model.ts";
import { type Address, addressOf, classSheetAddress, weekApparatusAddress } from "../addresses.ts";
import type { Html } from "../html.ts";
import { type DrillCore, drillCore, levelsInOrder } from "./drill.ts";
import { type FindingLine, findingLines } from "./findings.ts";
import { type Link, linksTo, linkTo } from "./links.ts";
import { blocksFor, levelsOfClass, type SiteIndex, type TableRow } from "./site-index.ts";
import { clockWords, dateWords, dayName, minutesOfDay } from "./words.ts";

/** A week as lists show it. */
export interface WeekLine {
	readonly link: Link;
	readonly number: number;
	readonly theme: Html | undefined;
	readonly from: string | undefined;
	readonly to: string | undefined;
	readonly dates: string;
	readonly apparatus: readonly ApparatusLine[];
	readonly classes: readonly ClassInWeek[];
}

export interface ApparatusLine {
	readonly id: Id;
	readonly link: Link;
	readonly focus: Html | undefined;
	readonly minutes: number;
}

export interface ClassInWeek {
	readonly link: Link;
	readonly day: string;
	readonly date: string | undefined;
	readonly dateWords: string;
	readonly closed: boolean;
	readonly start: string;
	readonly end: string;
	readonly levels: readonly Link[];
}

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
}

export interface BlockView {
	readonly number: number;
	readonly kind: "drill" | "stations";
	readonly minutes: number;
	readonly change: number;
	readonly note: Html | undefined;
	/** The levels it names; empty means all. */
	readonly levels: readonly Link[];
	readonly stations: readonly Station[];
}

export interface WeekView extends WeekLine {
	readonly body: Html;
	readonly plans: readonly {
		readonly apparatus: ApparatusLine;
		readonly blocks: readonly {
			readonly number: number;
			readonly minutes: number;
			readonly levels: readonly Link[];
			readonly drills: readonly Link[];
			readonly kind: "drill" | "stations";
		}[];
	}[];
	readonly load: readonly { readonly level: Link; readonly row: TableRow }[];
	readonly findings: readonly FindingLine[];
	readonly previous: Link | undefined;
	readonly next: Link | undefined;
	readonly file: string;
}

export interface WeekApparatusView {
	readonly id: Id;
	readonly week: WeekLine;
	readonly apparatus: Link;
	readonly focus: Html | undefined;
	readonly minutes: number;
	readonly blocks: readonly BlockView[];
	readonly equipment: readonly {
		readonly item: Link;
		readonly needed: number;
		readonly owned: number | undefined;
		readonly stored: string | undefined;
	}[];
	/** The same apparatus in the weeks before and after. */
	readonly previous: Link | undefined;
	readonly next: Link | undefined;
	/** The other apparatus of the week. */
	readonly others: readonly ApparatusLine[];
}

export interface ClassSheetView {
	readonly name: string;
	readonly levels: readonly Link[];
	readonly week: WeekLine;
	readonly day: string;
	readonly date: string | undefined;
	readonly dateWords: string;
	readonly closed: boolean;
	readonly start: string;
	readonly end: string;
	readonly gymnasts: number;
	readonly coaches: number | undefined;
	readonly ages: readonly [number, number] | undefined;
	readonly warmUp: number;
	readonly coolDown: number;
	readonly planned: number;
	readonly available: number | undefined;
	readonly warmUpClock: string;
	readonly coolDownClock: string;
	readonly endClock: string;
	readonly stops: readonly ClassStop[];
	readonly findings: readonly FindingLine[];
	readonly previous: Link | undefined;
	readonly next: Link | undefined;
}

/** One apparatus of the rotation. */
export interface ClassStop {
	readonly id: Id;
	readonly apparatus: Link;
	readonly focus: Html | undefined;
	readonly clock: string;
	readonly minutes: number;
	readonly blocks: readonly (BlockView & { readonly clock: string; readonly until: string })[];
}

/** A week as a line of a list, written for the page at an address. */
export function weekLine(site: SiteIndex, page: Address, week: WeekPlan): WeekLine {
	const monday = site.dates.monday(week.week);
	const sunday = site.dates.sunday(week.week);
	return {
		link: { to: addressOf({ kind: "week", id: week.id }), name: `Week ${week.week}` },
		number: week.week,
		theme: site.inline(page, week.theme),
		from: monday,
		to: sunday,
		dates:
			monday === undefined || sunday === undefined
				? ""
				: `${dateWords(monday, site.language)} – ${dateWords(sunday, site.language)}`,
		apparatus: week.apparatus.map((plan) => apparatusLine(site, page, week, plan)),
		classes: site.curriculum.term.classes.map((group) => classInWeek(site, week, group)),
	};
}

/** A class in a week: when, and where its sheet is. */
export function classInWeek(site: SiteIndex, week: WeekPlan, group: ClubClass): ClassInWeek {
	const when = site.dates.dateOf(week.week, group);
	const start = minutesOfDay(group.start);
	return {
		link: { to: classSheetAddress(group.id, week.id), name: group.name },
		day: group.day === undefined ? "" : dayName(group.day),
		date: when?.date,
		dateWords: when === undefined ? "" : dateWords(when.date, site.language),
		closed: when?.closed ?? false,
		start: start === undefined ? "" : clockWords(start),
		end: start === undefined || group.minutes === undefined ? "" : clockWords(start + group.minutes),
		levels: linksTo(site.curriculum, "level", levelsOfClass(site.curriculum, group)),
	};
}

/** The page of one week. */
export function weekView(site: SiteIndex, week: WeekPlan): WeekView {
	const { curriculum } = site;
	const page = addressOf({ kind: "week", id: week.id });
	const line = weekLine(site, page, week);
	const [previous, next] = neighbours(curriculum.weeks, week, () => true);
	const load = site.rows("load", ["week"]).get(String(week.week)) ?? [];
	return {
		...line,
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
		load: load.map((row) => ({ level: linkTo(curriculum, "level", String(row.level)), row })),
		findings: findingLines(site, site.findings.week.get(week.week) ?? []),
		previous: previous && { to: addressOf({ kind: "week", id: previous.id }), name: `Week ${previous.week}` },
		next: next && { to: addressOf({ kind: "week", id: next.id }), name: `Week ${next.week}` },
		file: week.source.file,
	};
}

/** The page of one apparatus in one week. */
export function weekApparatusView(site: SiteIndex, week: WeekPlan, plan: ApparatusPlan): WeekApparatusView {
	const { curriculum } = site;
	const page = weekApparatusAddress(week.id, plan.apparatus);
	const line = weekLine(site, page, week);
	const has = (other: WeekPlan) => other.apparatus.some((p) => p.apparatus === plan.apparatus);
	const [previous, next] = neighbours(curriculum.weeks, week, has);
	const way = (other: WeekPlan | undefined): Link | undefined =>
		other && { to: weekApparatusAddress(other.id, plan.apparatus), name: `Week ${other.week}` };
	const own = apparatusLine(site, page, week, plan);
	return {
		id: plan.apparatus,
		week: line,
		apparatus: linkTo(curriculum, "apparatus", plan.apparatus),
		focus: own.focus,
		minutes: own.minutes,
		blocks: plan.blocks.map((block) => blockView(site, page, week, plan, block, undefined)),
		equipment: (site.rows("equipment", ["week", "apparatus"]).get(`${week.week} ${plan.apparatus}`) ?? []).map(
			(row) => ({
				item: linkTo(curriculum, "equipment", String(row.item)),
				needed: Number(row.needed ?? 0),
				owned: typeof row.owned === "number" ? row.owned : undefined,
				stored: curriculum.equipment.get(String(row.item))?.stored,
			}),
		),
		previous: way(previous),
		next: way(next),
		others: line.apparatus.filter((other) => other.id !== plan.apparatus),
	};
}

/** The sheet of a class in a week, with a running clock from the class's start (or from 00:00 without one). */
export function classSheetView(site: SiteIndex, week: WeekPlan, group: ClubClass): ClassSheetView {
	const { curriculum } = site;
	const page = classSheetAddress(group.id, week.id);
	const levels = levelsOfClass(curriculum, group);
	const begin = minutesOfDay(group.start) ?? 0;
	let clock = begin + group.warmUp;
	const stops: ClassStop[] = [];
	for (const id of group.rotation) {
		const plan = week.apparatus.find((p) => p.apparatus === id);
		if (plan === undefined) continue;
		const arrived = clock;
		const blocks = blocksFor(plan, curriculum.drills, levels).map((block) => {
			const from = clock;
			clock += block.minutes;
			return {
				...blockView(site, page, week, plan, block, group),
				clock: clockWords(from),
				until: clockWords(clock),
			};
		});
		stops.push({
			id,
			apparatus: { to: weekApparatusAddress(week.id, id), name: linkTo(curriculum, "apparatus", id).name },
			focus: site.inline(page, plan.focus),
			clock: clockWords(arrived),
			minutes: clock - arrived,
			blocks,
		});
	}
	const own = classInWeek(site, week, group);
	const [previous, next] = neighbours(curriculum.weeks, week, () => true);
	const sheet = (other: WeekPlan | undefined): Link | undefined =>
		other && { to: classSheetAddress(group.id, other.id), name: `Week ${other.week}` };
	const about = (f: Finding) => f.about.week === undefined || f.about.week === week.week;
	return {
		name: group.name,
		levels: own.levels,
		week: weekLine(site, page, week),
		day: own.day,
		date: own.date,
		dateWords: own.date === undefined ? own.day : dateWords(own.date, site.language, "full"),
		closed: own.closed,
		start: own.start,
		end: own.end,
		gymnasts: group.gymnasts,
		coaches: group.coaches,
		ages: group.ages,
		warmUp: group.warmUp,
		coolDown: group.coolDown,
		planned: clock + group.coolDown - begin,
		available: group.minutes,
		warmUpClock: clockWords(begin),
		coolDownClock: clockWords(clock),
		endClock: clockWords(clock + group.coolDown),
		stops,
		findings: findingLines(site, (site.findings.class.get(group.id) ?? []).filter(about)),
		previous: sheet(previous),
		next: sheet(next),
	};
}

/** A block with its stations; for a class, only the stations and ways of its levels. */
function blockView(
	site: SiteIndex,
	page: Address,
	week: WeekPlan,
	plan: ApparatusPlan,
	block: Block,
	group: ClubClass | undefined,
): BlockView {
	const { curriculum } = site;
	const wanted = group === undefined ? [...curriculum.levels.keys()] : levelsOfClass(curriculum, group);
	const levels = wanted.filter((level) => block.levels.length === 0 || block.levels.includes(level));
	const stations = block.stations.flatMap((station) => {
		const drill = curriculum.drills.get(station.drill);
		if (drill === undefined) return [];
		const offered = levelsInOrder(site, drill).filter((level) => levels.includes(level));
		return offered.length === 0 && group !== undefined ? [] : [{ station, drill, offered }];
	});
	const gymnasts = group === undefined ? undefined : Math.ceil(group.gymnasts / Math.max(1, stations.length));
	return {
		number: block.number,
		kind: block.kind,
		minutes: block.minutes,
		change: block.change,
		note: site.inline(page, block.note),
		levels: linksTo(curriculum, "level", block.levels),
		stations: stations.map(({ station, drill, offered }) => {
			const byMinutes = new Map<number, Id[]>();
			for (const level of offered) {
				const e = site.exposure(week.week, plan.apparatus, block.number, drill.id, level);
				if (e === undefined) continue;
				const same = byMinutes.get(e.minutes);
				if (same === undefined) byMinutes.set(e.minutes, [level]);
				else same.push(level);
			}
			const minutes = Array.from(byMinutes, ([value, ids]) => ({
				levels: linksTo(curriculum, "level", ids),
				minutes: value,
			}));
			// A class of several levels rotates together, so its turns follow the shortest stay.
			const stay = minutes.length === 0 ? undefined : Math.min(...minutes.map((m) => m.minutes));
			return {
				drill: linkTo(curriculum, "drill", drill.id),
				summary: site.inline(page, drill.summary),
				note: site.inline(page, station.note),
				core: drillCore(site, page, drill, offered),
				minutes,
				gymnasts,
				turns:
					drill.turn === undefined || gymnasts === undefined || stay === undefined
						? undefined
						: Math.floor((60 * stay * drill.turn.atOnce) / (gymnasts * drill.turn.seconds)),
			};
		}),
	};
}

function apparatusLine(site: SiteIndex, page: Address, week: WeekPlan, plan: ApparatusPlan): ApparatusLine {
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
