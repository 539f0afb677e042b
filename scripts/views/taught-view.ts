/**
 * What was taught, for the director alone (but for sums that the club publishes): what is to be looked at, what came of each group's weeks, where
 * minutes went, who can do what, and what coaches say of a drill. Devices have none of it.
 *
 * What coaches typed is text and stays text: it is never read as Markdown.
 */

import { groupLoads, groupLoadsIn } from "../compute/load.ts";
import { groupName } from "../compute/names.ts";
import { FEWEST, learned, minutesLost, type TaughtBlock, taughtOf } from "../compute/taught.ts";
import { type Kept, keptByWeeks, keptOverBreaks } from "../compute/taught-spacing.ts";
import type { Share } from "../compute/wilson.ts";
import type { BlockReport, Id } from "../model.ts";
import { classSheetAddress, TAUGHT_SUMS } from "./addresses.ts";
import { findingLines } from "./findings.ts";
import { type Link, linkTo } from "./links.ts";
import { filesOf } from "./measures/measure-page.ts";
import type { SiteIndex } from "./site-index.ts";

export type { Kept, Share };

/** Something that a coach wrote, or wants looked at. */
export interface CoachLine {
	readonly sheet: Link;
	/** Empty for the class as a whole. */
	readonly block: string;
	readonly look: BlockReport["look"];
	readonly felt: BlockReport["felt"];
	/** As it was typed. */
	readonly note: string | undefined;
}

export type TaughtView = ReturnType<typeof taughtView>;

export function taughtView(site: SiteIndex) {
	const { curriculum, handbook } = site;
	const { weeks } = taughtOf(curriculum);
	const taughtLoads = new Map(
		groupLoadsIn(curriculum, taughtOf(curriculum).works).map((row) => [`${row.week} ${row.group.name}`, row]),
	);
	const loads = new Map(groupLoads(curriculum).map((row) => [`${row.week} ${row.group.name}`, row]));
	const last = Math.max(0, ...weeks.map(({ week }) => week));
	const kept = keptOverBreaks(curriculum);
	return {
		/** Class-weeks that somebody reported, of those that there are until the last reported week. */
		reported: weeks.length,
		of: [...loads.values()].filter(({ week }) => week <= last).length,
		lines: coachLines(site),
		weeks: weeks.map(({ week, group, blocks }) => {
			const [planned, taught] = [loads, taughtLoads].map((all) => all.get(`${week} ${group.name}`));
			const sum = (of: (block: TaughtBlock) => number) =>
				blocks.reduce((total, block) => total + of(block), 0);
			return {
				sheet: sheetOf(site, week, group.class.id, groupName(site.words, group)),
				minutes: sum(({ work }) => work.block.minutes),
				taught: sum(({ work, lost }) => work.block.minutes - lost),
				notDone: sum(({ share }) => (share <= 0 ? 1 : 0)),
				shortened: sum(({ share }) => (share > 0 && share < 1 ? 1 : 0)),
				landings: [planned?.landings ?? 0, taught?.landings ?? 0] as const,
				hands: [planned?.hands ?? 0, taught?.hands ?? 0] as const,
			};
		}),
		lost: minutesLost(curriculum),
		skills: [...Map.groupBy(learned(curriculum), ({ skill }) => skill)].map(([skill, rows]) => ({
			skill: linkTo(curriculum, "skill", skill),
			weeks: rows.map(({ week, of, alone, helped, share }) => ({
				week: weekOf(site, week),
				of,
				alone,
				helped,
				share,
			})),
		})),
		/** Skills that a group was asked about before and after at least one week without them. */
		kept: kept.map(({ group, ...row }) => ({
			...row,
			skill: linkTo(curriculum, "skill", row.after.skill),
			name: groupName(site.words, group),
		})),
		/** The same by the length of the break. */
		keptByWeeks: keptByWeeks(kept),
		fewest: FEWEST,
		/** Where the club publishes sums. */
		sums: curriculum.club.taughtSums ? { to: TAUGHT_SUMS, name: site.words.about.sums.title } : undefined,
		findings: findingLines(
			site,
			handbook.findings.filter(({ code }) => ["H350", "H351", "H352", "H353"].includes(code)),
		),
		files: filesOf(
			site,
			[...handbook.tables.keys()].filter((name) => /^(?:taught-|learned$|kept$|minutes-lost$)/.test(name)),
		),
	};
}

/** What the coaches' site shows, where the club says so. */
export type TaughtSumsView = ReturnType<typeof taughtSumsView>;

export function taughtSumsView({ curriculum, handbook }: SiteIndex) {
	const { skills = [], lost = [] } = handbook.sums ?? {};
	return {
		skills: skills.map((row) => ({ ...row, skill: linkTo(curriculum, "skill", row.skill) })),
		lost,
		fewest: FEWEST,
	};
}

/** What coaches say of a drill: how often its blocks were too easy, right, too hard, and their lines. */
export interface SaidOfDrill {
	readonly felt: Readonly<Record<NonNullable<BlockReport["felt"]>, number>>;
	readonly lines: readonly CoachLine[];
}

/** Undefined where nobody said anything. */
export function saidOfDrill(site: SiteIndex, drill: Id): SaidOfDrill | undefined {
	const { curriculum } = site;
	const felt = { "too-easy": 0, right: 0, "too-hard": 0 };
	const isOfDrill = ({ drills }: BlockReport): boolean => drills.includes(drill);
	for (const report of curriculum.taught) {
		for (const said of report.blocks) if (said.felt !== undefined && isOfDrill(said)) felt[said.felt]++;
	}
	const lines = coachLines(site, isOfDrill);
	return lines.length + felt["too-easy"] + felt.right + felt["too-hard"] === 0 ? undefined : { felt, lines };
}

/** What is to be looked at first, then what was only written; by week. */
function coachLines(site: SiteIndex, wanted?: (said: BlockReport) => boolean): readonly CoachLine[] {
	const { curriculum, words } = site;
	const numbers = new Map(curriculum.weeks.map(({ id, week }) => [id, week]));
	const lines = curriculum.taught.flatMap((report) => {
		const week = numbers.get(report.week) ?? 0;
		const own = curriculum.term.classes.find(({ id }) => id === report.class);
		const sheet = sheetOf(site, week, report.class, own?.name ?? report.class);
		const whole =
			report.note === undefined || wanted !== undefined
				? []
				: [{ sheet, block: "", look: undefined, felt: undefined, note: report.note }];
		const blocks = report.blocks
			.filter((said) => (said.look ?? said.note) !== undefined && (wanted?.(said) ?? true))
			.map(({ apparatus, block, look, felt, note }) => ({
				sheet,
				block: words.blockAt(linkTo(curriculum, "apparatus", apparatus).name, block),
				look,
				felt,
				note,
			}));
		return [...blocks, ...whole].map((line) => ({ week, line }));
	});
	const rank = ({ look }: CoachLine): number => (look === "near-miss" ? 0 : look === "equipment" ? 1 : 2);
	return lines.sort((a, b) => rank(a.line) - rank(b.line) || a.week - b.week).map(({ line }) => line);
}

function sheetOf(site: SiteIndex, week: number, own: Id, name: string): Link {
	const plan = site.weekByNumber.get(week);
	return {
		to: classSheetAddress(own, plan?.id ?? ""),
		name: `${name}, ${site.words.ofWeek(week)}`,
	};
}

function weekOf(site: SiteIndex, week: number): Link {
	return { to: `weeks/${site.weekByNumber.get(week)?.id ?? ""}/`, name: site.words.week(week) };
}
