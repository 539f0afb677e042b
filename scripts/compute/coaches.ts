/**
 * Coaches: whose hands and eyes each block asks for, against the coaches who are there.
 *
 * Steps: add up the spotters of the stations that count for a group; one coach more where a station is
 * to be watched and nobody spots it; of options the one that asks for most. Then say who stands where.
 *
 * How many coaches a class must have is for the club and its governing body; the ratios that some
 * publish are a target of the club's own (NSPCC 2013: ages 4 to 8 1:6, 9 to 12 1:8, 13 to 18 1:10).
 */

import type { Curriculum, Finding, Id } from "../model.ts";
import type { Words } from "../words/words.ts";
import { isWatched } from "./drill-at.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import { onceEach } from "./get-or-make.ts";
import { type Group, groupsOf } from "./groups.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, apparatusName, groupName } from "./names.ts";
import { tableOf } from "./tables.ts";
import { type BlockWork, groupWorks, type StationWork } from "./work.ts";

export interface CoachesRow {
	readonly week: number;
	readonly group: Group;
	readonly block: BlockWork;
	readonly apparatus: Id;
	/** Coaches whose hands are needed. */
	readonly hands: number;
	/** Stations to be watched that nobody spots. */
	readonly watched: number;
	/** Coaches that the block asks for. */
	readonly needed: number;
	readonly present: number | undefined;
	/** Who stands where, where there are enough. */
	readonly places: readonly CoachPlace[];
	/** Stations that run with nobody at them and nobody who has to look. */
	readonly alone: readonly number[];
}

/** One coach of the group in a block, from 1: the stations she spots at, or walks between and watches. */
export interface CoachPlace {
	readonly coach: number;
	readonly does: "spots" | "watches" | "walks";
	/** Station numbers; of a coach who walks, those that nobody else is at. */
	readonly stations: readonly number[];
}

/** Each group and block, by week, then as in the term, in the order of the blocks. */
export const coachesRows = onceEach((curriculum: Curriculum): readonly CoachesRow[] =>
	groupWorks(curriculum).flatMap(({ week, group, blocks }) =>
		blocks.map((block) => ({
			week,
			group,
			block,
			apparatus: block.apparatus,
			...coachesFor(block, group.coaches),
		})),
	),
);

/** What one block asks of a group's coaches. */
export function coachesFor(
	{ block, stations }: Pick<BlockWork, "block" | "stations">,
	present: number | undefined,
): Pick<CoachesRow, "hands" | "watched" | "needed" | "present" | "places" | "alone"> {
	if (block.kind !== "options") return asked(stations, present);
	// One of them is done at a time: the plan has to hold whichever is chosen.
	const each = stations.map((station) => asked([station], present));
	return each.reduce((most, one) => (one.needed > most.needed ? one : most), each[0] ?? asked([], present));
}

function asked(
	stations: readonly StationWork[],
	present: number | undefined,
): Pick<CoachesRow, "hands" | "watched" | "needed" | "present" | "places" | "alone"> {
	const spotted = stations.filter(({ drill }) => (drill.spotters ?? 0) > 0);
	const watched = stations.filter(({ drill }) => (drill.spotters ?? 0) === 0 && isWatched(drill));
	const alone = stations.filter(({ drill }) => (drill.spotters ?? 0) === 0 && !isWatched(drill));
	const hands = spotted.reduce((sum, { drill }) => sum + (drill.spotters ?? 0), 0);
	const needed = hands + (watched.length > 0 ? 1 : 0);
	const numbers = (list: readonly StationWork[]): readonly number[] => list.map(({ station }) => station);
	const spots = spotted.flatMap(({ station, drill }) =>
		Array.from(
			{ length: drill.spotters ?? 0 },
			(): Omit<CoachPlace, "coach"> => ({ does: "spots", stations: [station] }),
		),
	);
	const free = (present ?? 0) - hands;
	const others: readonly Omit<CoachPlace, "coach">[] =
		free <= 0
			? []
			: watched.length > 0
				? [
						{ does: "watches", stations: numbers(watched) },
						...(free > 1 && alone.length > 0 ? [{ does: "walks" as const, stations: numbers(alone) }] : []),
					]
				: alone.length > 0
					? [{ does: "walks", stations: numbers(alone) }]
					: [];
	const enough = present !== undefined && needed <= present;
	return {
		hands,
		watched: watched.length,
		needed,
		present,
		places: enough ? [...spots, ...others].map((place, i) => ({ coach: i + 1, ...place })) : [],
		alone: numbers(alone),
	};
}

/**
 * The numbers of the stations that close where this many coaches are there, one at least: the one that asks
 * for most hands first, of equals the later, until those left have their hands and a coach to watch.
 */
export function closedWith(
	coaches: number,
	{ block, stations }: Pick<BlockWork, "block" | "stations">,
): readonly number[] {
	const isTooMuch = (open: readonly StationWork[]): boolean => asked(open, undefined).needed > coaches;
	if (block.kind === "options")
		return stations.filter((one) => isTooMuch([one])).map(({ station }) => station);
	const hands = ({ drill }: StationWork): number => drill.spotters ?? 0;
	const closing = stations.toSorted((a, b) => hands(b) - hands(a) || b.station - a.station);
	let count = 0;
	while (isTooMuch(closing.slice(count))) count++;
	return closing
		.slice(0, count)
		.map(({ station }) => station)
		.sort((a, b) => a - b);
}

/** The most gymnasts that the club's ratios give one coach of this group: the strictest that its ages fall under. */
export function mostToACoach({ targets }: Curriculum, { class: { ages } }: Group): number | undefined {
	const bands = (targets.ratio ?? []).filter(
		(band) => ages !== undefined && band.ages[0] <= ages[1] && ages[0] <= band.ages[1],
	);
	return bands.length === 0 ? undefined : Math.min(...bands.map(({ gymnasts }) => gymnasts));
}

/** coaches.csv, and H331 and H339. */
export const coachesMeasure: Measure = {
	name: "coaches",
	tables: ({ curriculum }) => [
		tableOf(curriculum, "coaches", coachesRows(curriculum), {
			week: (r) => r.week,
			group: (r) => r.group.name,
			apparatus: (r) => r.apparatus,
			block: (r) => r.block.block.number,
			hands: (r) => r.hands,
			watched: (r) => r.watched,
			needed: (r) => r.needed,
			present: (r) => r.present,
		}),
	],
	findings: ({ curriculum }, words) => [
		...coachesRows(curriculum).flatMap((row) => shortOf(curriculum, row, words)),
		...groupsOf(curriculum).flatMap((group) => overRatio(curriculum, group, words)),
	],
};

function shortOf(curriculum: Curriculum, row: CoachesRow, words: Words): readonly Finding[] {
	const { week, group, block, apparatus, hands, watched, needed, present } = row;
	if (present === undefined || needed <= present) return [];
	const say = words.findings.hall;
	const asking = block.stations
		.filter(({ drill }) => (drill.spotters ?? 0) > 0 || isWatched(drill))
		.map(({ drill }) => drill.title);
	return [
		finding(
			words,
			"H331",
			"serious",
			say.coachesShort(
				{ week, apparatus: apparatusName(curriculum, apparatus), block: block.block.number },
				groupName(words, group),
				{ needed, hands, watched, present },
			),
			{ source: sourceOfWeek(curriculum, week), path: block.block.path },
			{ week, apparatus, ...aboutGroup(group) },
			say.coachesFix(asking),
		),
	];
}

/** A group that has too few coaches for the club's ratio. */
function overRatio(curriculum: Curriculum, group: Group, words: Words): readonly Finding[] {
	const { ages, path } = group.class;
	const { coaches, gymnasts } = group;
	const most = mostToACoach(curriculum, group);
	if (coaches === undefined || ages === undefined || most === undefined) return [];
	if (gymnasts <= most * coaches + 1e-9) return [];
	return [
		finding(
			words,
			"H339",
			"serious",
			words.findings.hall.ratio(groupName(words, group), gymnasts, coaches, `${ages[0]}–${ages[1]}`, most),
			{ source: curriculum.term.source, path },
			aboutGroup(group),
		),
	];
}
