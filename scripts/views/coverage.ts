/**
 * Coverage tables as pages: one for each table, and one for each choice of level and apparatus.
 *
 * Every choice is a page of its own, so filters are links and work without JavaScript. A cell names
 * its list of drills by an anchor; the lists stand below the table. Heat is a cell's place between
 * nothing and the largest cell of its table, in ten steps, for each measure.
 */

import { type CoverageCell, type CoverageKind, type Covered, coverage } from "../compute/coverage.ts";
import { DIRECTIONS } from "../compute/tables.ts";
import type { Exposure, Id } from "../model.ts";
import type { Words } from "../words/words.ts";
import { addressOf, weekApparatusAddress } from "./addresses.ts";
import { type Label, type Link, linkTo, type Names } from "./links.ts";
import { capital } from "./words.ts";

export interface CoverageTableKind {
	readonly id: keyof Words["coverage"]["tables"];
	readonly by: "week" | "level" | "apparatus";
	readonly kind: CoverageKind;
	/** The data file that holds the same numbers in full. */
	readonly file: string;
}

/** The tables of the site, in the order of its index. */
export const COVERAGE_TABLES: readonly CoverageTableKind[] = [
	table("week-shape"),
	table("week-skill"),
	table("week-direction"),
	table("level-shape"),
	table("level-skill"),
	table("apparatus-shape"),
];

/** What the pages are made of: of a site only this, so that a device with a plan can make them as well. */
export interface CoverageSite {
	readonly curriculum: Names &
		Covered["curriculum"] & { readonly weeks: readonly { readonly id: Id; readonly week: number }[] };
	readonly handbook: Covered;
	readonly words: Pick<
		Words,
		| "allApparatus"
		| "allLevels"
		| "coverage"
		| "destinations"
		| "directions"
		| "heads"
		| "noDirection"
		| "week"
	>;
	readonly weekByNumber: ReadonlyMap<number, { readonly id: Id }>;
}

export interface Choice {
	readonly level?: Id;
	readonly apparatus?: Id;
}

export type CoverageView = ReturnType<typeof coverageView>;

export interface CoverageRow {
	readonly head: Link;
	readonly cells: readonly CellView[];
	readonly total: CellView;
}

export type Measure = "minutes" | "drills" | "share" | "repetitions";

export interface CellView {
	/** The id of its list; undefined for a cell without drills, and for totals. */
	readonly anchor: string | undefined;
	/** Row and column in words. */
	readonly name: string;
	/** In the order of `measures`; undefined where there is nothing to show. */
	readonly values: readonly (number | undefined)[];
	/** 0 to 9 in the order of `measures`. */
	readonly heat: readonly number[];
}

/** What the cells of a row were counted from. */
export interface RowLists {
	readonly name: string;
	readonly cells: readonly CellList[];
}

/** What a cell was counted from. */
type CellList = ReturnType<typeof listOf>;

export function coverageAddress(table: CoverageTableKind, { level, apparatus }: Choice = {}): string {
	const at = level === undefined ? "" : `level/${level}/`;
	return `coverage/${table.id}/${at}${apparatus === undefined ? "" : `apparatus/${apparatus}/`}`;
}

/** Where the drills of a cell of a week's table are listed. */
export function cellAddress(kind: CoverageKind, week: number, thing: Id, choice: Choice = {}): string {
	const found = COVERAGE_TABLES.find((one) => one.by === "week" && one.kind === kind);
	if (found === undefined) throw new Error(`No table of weeks counts by ${kind}.`);
	return `${coverageAddress(found, choice)}#week-${week}--${thing}`;
}

/** Every choice a table has: its rows are not a filter as well. */
export function choicesOf(site: CoverageSite, table: CoverageTableKind): readonly Choice[] {
	const levels = table.by === "level" ? [] : [...site.curriculum.levels.keys()];
	const places = table.by === "apparatus" ? [] : [...site.curriculum.apparatus.keys()];
	return [undefined, ...levels].flatMap((level) =>
		[undefined, ...places].map((apparatus) => ({
			...(level === undefined ? {} : { level }),
			...(apparatus === undefined ? {} : { apparatus }),
		})),
	);
}

/** The pages of a table, that of everything first. */
export function coveragePages(site: CoverageSite, table: CoverageTableKind) {
	const { title: name, question } = site.words.coverage.tables[table.id];
	const top: Link = { to: "coverage/", name: site.words.destinations.coverage };
	return choicesOf(site, table).map((choice) => {
		const chosen = choiceWords(site, choice);
		return {
			address: coverageAddress(table, choice),
			title: [name, ...chosen].join(", "),
			description: () => question,
			/** The pages above it. */
			crumbs: chosen.length === 0 ? [top] : [top, { to: coverageAddress(table), name }],
			view: () => coverageView(site, table, choice),
		};
	});
}

function choiceWords({ curriculum }: CoverageSite, { level, apparatus }: Choice): readonly string[] {
	return [
		...(level === undefined ? [] : [linkTo(curriculum, "level", level).name]),
		...(apparatus === undefined ? [] : [linkTo(curriculum, "apparatus", apparatus).name]),
	];
}

/** One table for one choice. */
export function coverageView(site: CoverageSite, table: CoverageTableKind, choice: Choice) {
	const { handbook } = site;
	const keep = (e: Exposure) =>
		(choice.level === undefined || e.level === choice.level) &&
		(choice.apparatus === undefined || e.apparatus === choice.apparatus);
	const sums = coverage(handbook, table.kind, table.by, keep);
	const measures: readonly Measure[] =
		table.kind === "direction" ? ["minutes", "drills"] : ["minutes", "drills", "share", "repetitions"];

	const { all } = site.words.coverage;
	const things = columnsOf(site, table.kind);
	// A skill has many columns; those that nothing trains are named below the table instead.
	const columns = table.kind === "skill" ? things.filter(({ id }) => sums.columns.has(id)) : things;
	const missing = things.filter(({ id }) => !sums.columns.has(id)).map(({ link }) => link);
	const largest = measures.map((measure) => {
		let most = 0;
		for (const row of sums.cells.values())
			for (const cell of row.values()) most = Math.max(most, amountOf(cell, measure) ?? 0);
		return most;
	});

	const lists: RowLists[] = [];
	const view = (
		name: string,
		cell: CoverageCell | undefined,
		anchor: string | undefined,
		heated: boolean,
	): CellView => {
		const values = measures.map((measure) => (cell === undefined ? undefined : amountOf(cell, measure)));
		return {
			anchor: cell === undefined ? undefined : anchor,
			name,
			values,
			heat: values.map((value, i) => (heated ? heatOf(value, largest[i] ?? 0) : 0)),
		};
	};
	const rows = rowsOf(site, table.by).map(({ key, link }): CoverageRow => {
		const row = sums.cells.get(key);
		const cells: CellList[] = [];
		lists.push({ name: link.name, cells });
		return {
			head: link,
			total: view(`${link.name}, ${all}`, sums.rows.get(key), undefined, false),
			cells: columns.map((column) => {
				const cell = row?.get(column.id);
				// Ids never hold two hyphens in a row, so no two cells share an anchor.
				const anchor = `${table.by}-${key}--${column.id}`;
				const name = `${link.name}, ${column.link.name}`;
				if (cell !== undefined) cells.push(listOf(site, table, anchor, name, cell));
				return view(name, cell, anchor, true);
			}),
		};
	});
	return {
		table,
		columns: columns.map(({ link }) => link),
		rows,
		foot: {
			cells: columns.map(({ id, link }) =>
				view(`${all}, ${link.name}`, sums.columns.get(id), undefined, false),
			),
			total: view(all, sums.all.exposures.length === 0 ? undefined : sums.all, undefined, false),
		},
		filters: filtersOf(site, table, choice),
		/** The choice in words; empty for everything. */
		choice: choiceWords(site, choice),
		/** Of each row that has any. */
		lists: lists.filter(({ cells }) => cells.length > 0),
		file: `data/${table.file}.csv`,
		measures,
		/** Columns that nothing in this choice trains. */
		missing,
		others: COVERAGE_TABLES.filter((other) => other !== table).map((other) => ({
			to: coverageAddress(other),
			name: site.words.coverage.tables[other.id].title,
		})),
	};
}

/** The value that a cell shows for a measure. */
function amountOf(cell: CoverageCell, measure: Measure): number | undefined {
	return measure === "drills" ? cell.drills.length : cell[measure];
}

/** 0 for nothing, else 1 to 9 by the part of the largest. */
export function heatOf(value: number | undefined, largest: number): number {
	if (value === undefined || value <= 0 || largest <= 0) return 0;
	return Math.min(9, Math.max(1, Math.ceil((value / largest) * 9)));
}

function table(id: CoverageTableKind["id"]): CoverageTableKind {
	const [by, kind] = id.split("-") as [CoverageTableKind["by"], CoverageKind];
	return { id, by, kind, file: `coverage-${kind}s` };
}

function columnsOf(
	{ curriculum, words }: CoverageSite,
	kind: CoverageKind,
): readonly { readonly id: Id; readonly link: Label }[] {
	if (kind === "direction")
		return DIRECTIONS.map((id) => ({
			id,
			link: { name: capital(id === "none" ? words.noDirection : words.directions[id]) },
		}));
	const things = kind === "shape" ? curriculum.shapes : curriculum.skills;
	return [...things.keys()].map((id) => ({ id, link: linkTo(curriculum, kind, id) }));
}

function rowsOf(
	site: CoverageSite,
	by: CoverageTableKind["by"],
): readonly { readonly key: string; readonly link: Link }[] {
	const { curriculum } = site;
	if (by === "week") {
		return curriculum.weeks.map((week) => ({
			key: String(week.week),
			link: { to: addressOf({ kind: "week", id: week.id }), name: site.words.week(week.week) },
		}));
	}
	const things = by === "level" ? curriculum.levels : curriculum.apparatus;
	return [...things.keys()].map((id) => ({ key: id, link: linkTo(curriculum, by, id) }));
}

function listOf(
	site: CoverageSite,
	table: CoverageTableKind,
	anchor: string,
	name: string,
	cell: CoverageCell,
) {
	const { curriculum } = site;
	return {
		anchor,
		name,
		/** The cell in the table that it belongs to. */
		cell: `cell-${anchor}`,
		lines: Array.from(
			Map.groupBy(cell.exposures, ({ drill }) => drill),
			([id, own]) => {
				const places = new Map<string, Link>();
				for (const e of own) {
					const week = site.weekByNumber.get(e.week);
					if (week === undefined) continue;
					const at = weekApparatusAddress(week.id, e.apparatus);
					const apparatus = linkTo(curriculum, "apparatus", e.apparatus).name;
					if (places.has(at)) continue;
					const name = table.by === "week" ? apparatus : `${site.words.week(e.week)}, ${apparatus}`;
					places.set(at, { to: `${at}#block-${e.block}`, name });
				}
				return {
					drill: linkTo(curriculum, "drill", id),
					places: [...places.values()],
					minutes: own.reduce((sum, e) => sum + e.minutes, 0),
				};
			},
		),
	};
}

function filtersOf(site: CoverageSite, table: CoverageTableKind, choice: Choice) {
	const { curriculum, words } = site;
	const { level: _level, ...withoutLevel } = choice;
	const { apparatus: _apparatus, ...withoutApparatus } = choice;
	const option = (name: string, to: Choice, chosen: boolean) => ({
		link: { to: coverageAddress(table, to), name },
		chosen,
	});
	const kinds = [
		{ kind: "level", things: curriculum.levels, all: words.allLevels, without: withoutLevel },
		{ kind: "apparatus", things: curriculum.apparatus, all: words.allApparatus, without: withoutApparatus },
	] as const;
	return kinds
		.filter(({ kind }) => table.by !== kind)
		.map(({ kind, things, all, without }) => ({
			name: words.heads[kind],
			options: [
				option(all, without, choice[kind] === undefined),
				...Array.from(things, ([id, { name }]) =>
					option(name, { ...choice, [kind]: id }, choice[kind] === id),
				),
			],
		}));
}
