/**
 * Spacing as a page: for each level what it meets in which weeks, and a picture of what misses a target.
 */

import type { SpacedKind } from "../../compute/spacing.ts";
import type { MatrixCell, MatrixRow, TermMatrix } from "../../figures/term-matrix.ts";
import type { Id } from "../../model.ts";
import { addressOf } from "../addresses.ts";
import { cellAddress } from "../coverage.ts";
import { linkTo } from "../links.ts";
import type { Standing } from "../measure-index.ts";
import type { SiteIndex } from "../site-index.ts";
import { spacingTarget, termAddress } from "../term.ts";
import { measureHead } from "./measure-head.ts";

export type SpacingView = ReturnType<typeof spacingView>;

export type SpacingOfLevel = ReturnType<typeof spacingOfLevel>;

export interface SpacingOfKind {
	readonly kind: SpacedKind;
	readonly target: string | undefined;
	readonly met: number;
	readonly expected: number;
	/** How many of the expected miss a target. */
	readonly missed: number;
	readonly rows: readonly SpacingRow[];
}

type SpacingRow = ReturnType<typeof rowOf>;

export function spacingView(site: SiteIndex) {
	const levels = [...site.curriculum.levels.keys()];
	return {
		head: measureHead(site, "spacing"),
		/** What misses a target, by level; undefined where nothing does. */
		missing: (["shape", "skill"] as const).flatMap((kind) => {
			const matrix = missingMatrix(site, kind, levels);
			return matrix === undefined ? [] : [{ kind, matrix }];
		}),
		levels: levels.map((level) => spacingOfLevel(site, level)),
	};
}

/** One level's spacing. */
export function spacingOfLevel(site: SiteIndex, level: Id) {
	const { curriculum } = site;
	const link = linkTo(curriculum, "level", level);
	const { targets } = curriculum;
	return {
		id: level,
		level: link,
		/** The level's picture of the whole term. */
		picture: { to: termAddress(level), name: site.words.spacing.weekByWeek(link.name) },
		kinds: (["shape", "skill"] as const).map((kind) => {
			const standings = site.measures.standings(kind, level);
			const expected = standings.filter(({ spacing }) => spacing.expected);
			return {
				kind,
				target:
					kind === "shape"
						? spacingTarget(site.words, targets.shapeWeeks, targets.shapeGap)
						: spacingTarget(site.words, targets.skillWeeks, targets.skillGap),
				met: expected.filter(({ spacing }) => spacing.taught.length > 0).length,
				expected: expected.length,
				missed: expected.filter(misses).length,
				rows: standings.map((standing) => rowOf(site, standing)),
			};
		}),
	};
}

function rowOf(site: SiteIndex, standing: Standing) {
	const { kind, id, level, taught, first, last, longestGap, expected } = standing.spacing;
	return {
		/** Names the row on the page of the measure. */
		anchor: `${kind}--${id}--${level}`,
		link: linkTo(site.curriculum, kind, id),
		/** The weeks it is met in, each leading to its drills. */
		weeks: taught.map((week) => ({ to: cellAddress(kind, week, id, { level }), name: String(week) })),
		first,
		last,
		longestGap,
		expected,
		tooFew: standing.tooFew,
		tooFar: standing.tooFar,
	};
}

function misses({ tooFew, tooFar }: Standing): boolean {
	return tooFew || tooFar;
}

function missingMatrix(site: SiteIndex, kind: SpacedKind, levels: readonly Id[]): TermMatrix | undefined {
	const { curriculum } = site;
	const rows: MatrixRow[] = [];
	const cells: MatrixCell[] = [];
	for (const level of levels) {
		const group = linkTo(curriculum, "level", level).name;
		for (const { spacing } of site.measures.standings(kind, level).filter(misses)) {
			const link = linkTo(curriculum, kind, spacing.id);
			// A thing may be missing at several levels, and a picture names each row once.
			const row = `${spacing.id} ${level}`;
			rows.push({ id: row, name: link.name, href: link.to, group });
			for (const week of spacing.taught) {
				const minutes =
					site.measures.coverage(kind, level).cells.get(String(week))?.get(spacing.id)?.minutes ?? 0;
				cells.push({
					row,
					week,
					value: Math.round(minutes),
					words: `${site.words.counts.minutes(Math.round(minutes))}, ${group}`,
					href: cellAddress(kind, week, spacing.id, { level }),
				});
			}
		}
	}
	if (rows.length === 0) return undefined;
	const { term, weeks, targets } = curriculum;
	const mostGap = kind === "shape" ? targets.shapeGap : targets.skillGap;
	const last = Math.max(term.weeks, ...weeks.map(({ week }) => week));
	return {
		weeks: Array.from({ length: last }, (_, i) => {
			const plan = site.weekByNumber.get(i + 1);
			return {
				week: i + 1,
				name: site.words.week(i + 1),
				...(plan === undefined ? {} : { href: addressOf({ kind: "week", id: plan.id }) }),
			};
		}),
		rows,
		cells,
		...(mostGap === undefined ? {} : { mostGap }),
	};
}
