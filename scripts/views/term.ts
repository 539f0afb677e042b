/**
 * The term at a glance: weeks across, and what each of them trains down, as a picture and as a table.
 *
 * One page for all levels and one for each, so that the choice is a link and works without JavaScript.
 */

import type { CoverageTable } from "../compute/coverage.ts";
import { type SpacedKind, type Spacing, widestGap } from "../compute/spacing.ts";
import type { MatrixCell, MatrixRow, TermMatrix } from "../figures/term-matrix.ts";
import type { Id, Targets } from "../model.ts";
import type { Words } from "../words/words.ts";
import { type Address, addressOf } from "./addresses.ts";
import { type CoverageSite, cellAddress } from "./coverage.ts";
import { type Link, linkTo } from "./links.ts";
import type { MeasureIndex } from "./measure-index.ts";

/** What the pages are made of: of a site only this, so that a device with a plan can make them as well. */
export interface TermSite extends Pick<CoverageSite, "weekByNumber"> {
	readonly curriculum: Omit<CoverageSite["curriculum"], "skills"> & {
		readonly skills: ReadonlyMap<Id, { readonly name: string; readonly apparatus: readonly Id[] }>;
		readonly targets: Pick<Targets, "shapeWeeks" | "skillWeeks" | "shapeGap" | "skillGap">;
		readonly term: { readonly name: string; readonly weeks: number };
	};
	readonly measures: Pick<MeasureIndex, "coverage"> & {
		standings(kind: SpacedKind, level: Id): readonly TermStanding[];
		standingsOf(kind: SpacedKind, id: Id): readonly TermStanding[];
	};
	readonly words: Pick<
		Words,
		"allLevels" | "anywhere" | "counts" | "destinations" | "ofWeek" | "term" | "week"
	>;
}

/** Of how a thing stands at a level. */
export interface TermStanding {
	readonly spacing: Pick<Spacing, "id" | "level">;
	readonly tooFew: boolean;
	readonly tooFar: boolean;
}

/** The binder that lies beside the site, of the same edition. */
export interface BinderFile {
	readonly pages: number;
	/** In megabytes, to a tenth. */
	readonly size: number;
}

export type TermView = ReturnType<typeof termView>;

export interface TermKind {
	readonly kind: SpacedKind;
	/** Undefined where the club has no such things. */
	readonly matrix: TermMatrix | undefined;
	readonly weeks: readonly { readonly number: number; readonly link: Link | undefined }[];
	readonly groups: readonly { readonly name: string | undefined; readonly rows: readonly TermRow[] }[];
	readonly weeksWanted: number | undefined;
	readonly gapWanted: number | undefined;
	/** The data file with the same minutes by level and apparatus. */
	readonly file: string;
}

export interface TermRow {
	readonly id: Id;
	readonly link: Link;
	/** In how many weeks it is met. */
	readonly met: number;
	readonly longestGap: number | undefined;
	/** For a level: whether a target is missed. */
	readonly tooFew: boolean;
	/** For all levels: no level meets it for longer than the target. */
	readonly tooFar: boolean;
	/** For all levels: the levels that miss a target. */
	readonly missedBy: readonly Link[];
	/** One for each week. */
	readonly cells: readonly ({ readonly minutes: number; readonly link: Link } | undefined)[];
}

const KINDS: readonly SpacedKind[] = ["shape", "skill"];

export function termAddress(level?: Id): Address {
	return level === undefined ? "term/" : `term/level/${level}/`;
}

/** A page of the overview, as the list of pages has it. */
export interface TermPage {
	readonly address: Address;
	readonly title: string;
	readonly description?: () => string;
	/** The pages above it. */
	readonly crumbs: readonly Link[];
	readonly view: () => TermView;
}

/** The overview of all levels, and that of each. */
export function termPages(site: TermSite, binder?: BinderFile): readonly TermPage[] {
	const { term, levels } = site.curriculum;
	const all: Link = { to: termAddress(), name: site.words.destinations.termOverview };
	return [
		{
			address: all.to,
			title: all.name,
			description: () => site.words.term.pageDescription(term.name),
			crumbs: [],
			view: () => termView(site, undefined, binder),
		},
		...Array.from(
			levels,
			([id, { name }]): TermPage => ({
				address: termAddress(id),
				title: `${all.name}, ${name}`,
				crumbs: [all],
				view: () => termView(site, id, binder),
			}),
		),
	];
}

/** The overview of a level, or of all. */
function termView(site: TermSite, level?: Id, binder?: BinderFile) {
	const { curriculum } = site;
	const option = (name: string, own: Id | undefined) => ({
		link: { to: termAddress(own), name },
		chosen: own === level,
	});
	return {
		term: curriculum.term.name,
		/** The level in words; undefined for all. */
		level: level === undefined ? undefined : linkTo(curriculum, "level", level).name,
		levels: [
			option(site.words.allLevels, undefined),
			...Array.from(curriculum.levels, ([id, { name }]) => option(name, id)),
		],
		kinds: KINDS.map((kind) => termKind(site, kind, level)),
		/** No week is planned. */
		empty: curriculum.weeks.length === 0,
		binder,
	};
}

function termKind(site: TermSite, kind: SpacedKind, level: Id | undefined): TermKind {
	const { curriculum } = site;
	const table = site.measures.coverage(kind, level);
	const weeks = weeksOf(site);
	const things = kind === "shape" ? curriculum.shapes : curriculum.skills;
	const standings = new Map(
		level === undefined
			? []
			: site.measures.standings(kind, level).map((standing) => [standing.spacing.id, standing]),
	);
	const ids = [...things.keys()].filter((id) =>
		level === undefined ? site.measures.standingsOf(kind, id).length > 0 : standings.has(id),
	);
	const targets = curriculum.targets;
	const gapWanted = kind === "shape" ? targets.shapeGap : targets.skillGap;
	const rows = ids.map((id) => termRow(site, kind, id, level, standings.get(id), table, weeks, gapWanted));
	const groups = kind === "shape" ? [{ name: undefined, rows }] : byApparatus(site, rows);
	return {
		kind,
		matrix: matrixOf(site.words, weeks, groups, gapWanted),
		weeks,
		groups,
		weeksWanted: kind === "shape" ? targets.shapeWeeks : targets.skillWeeks,
		gapWanted,
		file: `data/coverage-${kind}s.csv`,
	};
}

/** Every week of the term, and those planned beyond it. */
function weeksOf(site: TermSite): TermKind["weeks"] {
	const { term, weeks } = site.curriculum;
	const last = Math.max(term.weeks, ...weeks.map((week) => week.week));
	return Array.from({ length: last }, (_, i) => {
		const plan = site.weekByNumber.get(i + 1);
		return {
			number: i + 1,
			link: plan && { to: addressOf({ kind: "week", id: plan.id }), name: site.words.week(i + 1) },
		};
	});
}

function termRow(
	site: TermSite,
	kind: SpacedKind,
	id: Id,
	level: Id | undefined,
	standing: TermStanding | undefined,
	table: CoverageTable,
	weeks: TermKind["weeks"],
	gapWanted: number | undefined,
): TermRow {
	const { curriculum } = site;
	const link = linkTo(curriculum, kind, id);
	const cells = weeks.map(({ number }) => {
		const cell = table.cells.get(String(number))?.get(id);
		if (cell === undefined) return undefined;
		const to = cellAddress(kind, number, id, level === undefined ? {} : { level });
		return { minutes: cell.minutes, link: { to, name: `${link.name}, ${site.words.ofWeek(number)}` } };
	});
	const met = weeks.flatMap(({ number }, i) => (cells[i] === undefined ? [] : [number]));
	const gap = widestGap(met);
	const longestGap = gap && gap[1] - gap[0];
	const missedBy =
		level === undefined
			? site.measures
					.standingsOf(kind, id)
					.filter(({ tooFew, tooFar }) => tooFew || tooFar)
					.map(({ spacing }) => ({
						to: termAddress(spacing.level),
						name: linkTo(curriculum, "level", spacing.level).name,
					}))
			: [];
	return {
		id,
		link,
		met: met.length,
		longestGap,
		tooFew: standing?.tooFew ?? false,
		tooFar:
			level === undefined
				? gapWanted !== undefined && longestGap !== undefined && longestGap > gapWanted
				: (standing?.tooFar ?? false),
		missedBy,
		cells,
	};
}

/** Skills by the first apparatus they name; those that name none come last. */
function byApparatus(site: TermSite, rows: readonly TermRow[]): TermKind["groups"] {
	const { curriculum } = site;
	const placeOf = (id: Id) => curriculum.skills.get(id)?.apparatus[0] ?? "";
	const groups = Map.groupBy(rows, (row) => placeOf(row.id));
	return [...curriculum.apparatus.keys(), ""].flatMap((place) => {
		const own = groups.get(place);
		const name = place === "" ? site.words.anywhere : linkTo(curriculum, "apparatus", place).name;
		return own === undefined ? [] : [{ name, rows: own }];
	});
}

function matrixOf(
	words: Pick<Words, "counts" | "week">,
	weeks: TermKind["weeks"],
	groups: TermKind["groups"],
	mostGap: number | undefined,
): TermMatrix | undefined {
	const rows: MatrixRow[] = [];
	const cells: MatrixCell[] = [];
	for (const group of groups) {
		for (const row of group.rows) {
			rows.push({
				id: row.id,
				name: row.link.name,
				href: row.link.to,
				...(group.name === undefined ? {} : { group: group.name }),
			});
			row.cells.forEach((cell, i) => {
				const week = weeks[i]?.number;
				if (cell === undefined || week === undefined) return;
				const value = Math.round(cell.minutes);
				cells.push({ row: row.id, week, value, words: words.counts.minutes(value), href: cell.link.to });
			});
		}
	}
	if (rows.length === 0 || weeks.length === 0) return undefined;
	return {
		weeks: weeks.map(({ number, link }) => ({
			week: number,
			name: words.week(number),
			...(link === undefined ? {} : { href: link.to }),
		})),
		rows,
		cells,
		...(mostGap === undefined ? {} : { mostGap }),
	};
}

/** "at least 3 weeks; at most 5 from one to the next", as far as the club has targets. */
export function spacingTarget(
	{ term, semicolon }: Pick<Words, "term" | "semicolon">,
	weeks: number | undefined,
	gap: number | undefined,
): string | undefined {
	const parts = [
		...(weeks === undefined ? [] : [term.atLeast(weeks)]),
		...(gap === undefined ? [] : [term.atMost(gap)]),
	];
	return parts.length === 0 ? undefined : parts.join(semicolon);
}
