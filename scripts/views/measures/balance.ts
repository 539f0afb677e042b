/**
 * Balance as a page: directions for each week and apparatus, work without its counterpart, sides,
 * movement patterns.
 */

import {
	PATTERNS,
	type PatternTally,
	patternBalance,
	SIDES,
	sidesBalance,
	type Tally,
	unpaired,
} from "../../compute/balance.ts";
import { DIRECTIONS } from "../../compute/tables.ts";
import type { Direction, Id, Pattern } from "../../model.ts";
import { weekApparatusAddress } from "../addresses.ts";
import { cellAddress } from "../coverage.ts";
import { type Link, linksTo, linkTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { measureHead } from "./measure-head.ts";

export type BalanceView = ReturnType<typeof balanceView>;

export type DirectionRow = ReturnType<typeof directionRow>;

export interface DirectionCell {
	readonly direction: Direction;
	readonly minutes: number;
	/** Where its drills are listed; undefined without drills. */
	readonly link: Link | undefined;
}

/** Minutes of one level in each column, with the drills they were counted from. */
export interface TallyRow<Column extends string> {
	readonly id: Id;
	readonly level: Link;
	readonly cells: readonly {
		readonly column: Column;
		readonly minutes: number;
		readonly share: number | undefined;
		readonly drills: readonly Link[];
	}[];
}

export function balanceView(site: SiteIndex) {
	const { curriculum, handbook } = site;
	const byApparatus = Map.groupBy(site.measures.balances(), (balance) => balance.apparatus);
	return {
		head: measureHead(site, "balance"),
		apparatus: [...byApparatus].map(([id]) => {
			const rows = (byApparatus.get(id) ?? []).map((balance) => directionRow(site, balance));
			return {
				id,
				link: linkTo(curriculum, "apparatus", id),
				rows,
				bars: rows.map(({ week, number, cells }) => ({
					name: site.words.week(number),
					left: minutesOf(cells, "backward"),
					right: minutesOf(cells, "forward"),
					href: week.to,
				})),
			};
		}),
		sides: tallyRows(site, sidesBalance(handbook, "level"), SIDES),
		patterns: tallyRows<Pattern>(site, patternBalance(handbook, "level"), PATTERNS),
		unpaired: unpairedRows(site),
	};
}

/** One apparatus in one week, with links to what was counted. */
export function directionRow(
	site: SiteIndex,
	{
		week,
		apparatus,
		directions,
		missing,
	}: {
		readonly week: number;
		readonly apparatus: Id;
		readonly directions: ReadonlyMap<Direction, Tally>;
		readonly missing: "forward" | "backward" | undefined;
	},
) {
	const plan = site.weekByNumber.get(week);
	return {
		week: {
			to: plan === undefined ? "weeks/" : weekApparatusAddress(plan.id, apparatus),
			name: site.words.week(week),
		},
		number: week,
		missing,
		cells: DIRECTIONS.map((direction) => {
			const tally = directions.get(direction);
			const drills = tally?.drills.length ?? 0;
			return {
				direction,
				minutes: tally?.minutes ?? 0,
				link:
					drills === 0
						? undefined
						: { to: cellAddress("direction", week, direction, { apparatus }), name: direction },
			};
		}),
	};
}

function minutesOf(cells: readonly DirectionCell[], direction: Direction): number {
	return cells.find((cell) => cell.direction === direction)?.minutes ?? 0;
}

function tallyRows<Column extends string>(
	site: SiteIndex,
	rows: ReadonlyMap<string, ReadonlyMap<Column, Tally | PatternTally>>,
	columns: readonly Column[],
): readonly TallyRow<Column>[] {
	const { curriculum } = site;
	return [...curriculum.levels.keys()].flatMap((id) => {
		const row = rows.get(id);
		if (row === undefined) return [];
		return [
			{
				id,
				level: linkTo(curriculum, "level", id),
				cells: columns.map((column) => {
					const tally = row.get(column);
					return {
						column,
						minutes: tally?.minutes ?? 0,
						share: tally !== undefined && "share" in tally ? tally.share : undefined,
						drills: linksTo(curriculum, "drill", tally?.drills ?? []),
					};
				}),
			},
		];
	});
}

function unpairedRows(site: SiteIndex) {
	const { curriculum, handbook } = site;
	return [...Map.groupBy(unpaired(handbook), (one) => one.drill)].map(([drill, places]) => ({
		drill: linkTo(curriculum, "drill", drill),
		partners: linksTo(curriculum, "drill", new Set(places.flatMap(({ partners }) => partners))),
		levels: [...Map.groupBy(places, (one) => one.level)].map(([level, own]) => ({
			level: linkTo(curriculum, "level", level),
			weeks: own.map(({ week }) => week),
		})),
	}));
}
