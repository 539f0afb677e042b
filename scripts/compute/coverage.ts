/**
 * Coverage: what the exposures add up to, by two axes.
 *
 * One pass over the exposures puts each into the cells of the things its drill names. A drill with
 * two shapes gives its full minutes to both (`minutes`) and half to each (`share`), so shares over
 * all shapes add up to the scheduled minutes of drills that name shapes.
 */

import type { Cell, Exposure, Id, LinkedDrill, Table } from "../model.ts";
import { getOrMake } from "./get-or-make.ts";
import type { Counted, Measure } from "./measure.ts";
import { tableOf } from "./tables.ts";

/** What is covered. */
export type CoverageKind = "shape" | "skill" | "direction";

/** What one cell was counted from, and its sums. Minutes are minutes of the plan. */
export interface CoverageCell {
	/** Distinct drills, in the order they are met. */
	readonly drills: readonly Id[];
	readonly minutes: number;
	readonly share: number;
	/** Undefined where no exposure in the cell has repetitions. */
	readonly repetitions: number | undefined;
	readonly exposures: readonly Exposure[];
}

/** The key of a row: a week's number as text, or the id of a level or an apparatus. */
export type RowKey = string;

export interface CoverageTable {
	readonly cells: ReadonlyMap<RowKey, ReadonlyMap<Id, CoverageCell>>;
	/** All exposures of a row that name a thing of this kind. */
	readonly rows: ReadonlyMap<RowKey, CoverageCell>;
	/** All exposures of a column. */
	readonly columns: ReadonlyMap<Id, CoverageCell>;
	readonly all: CoverageCell;
}

/** What coverage is counted from: of a plan only this. */
export interface Covered {
	readonly curriculum: {
		readonly drills: ReadonlyMap<Id, Pick<LinkedDrill, "shapes" | "skills" | "direction">>;
	};
	readonly exposures: readonly Exposure[];
}

/** The things of a kind that a drill trains, each once. */
export function coveredBy(curriculum: Covered["curriculum"], drill: Id, kind: CoverageKind): readonly Id[] {
	const found = curriculum.drills.get(drill);
	if (found === undefined) return [];
	if (kind === "shape") return unique(found.shapes);
	if (kind === "skill") return unique(found.skills);
	return found.direction === undefined ? [] : [found.direction];
}

/**
 * Coverage of a kind of thing (columns) by week, level or apparatus (rows).
 *
 * Totals count each exposure once, whatever number of columns it stands in, so a row's minutes are
 * not the sum of its cells; its share is.
 */
export function coverage(
	{ curriculum, exposures }: Covered,
	kind: CoverageKind,
	by: "week" | "level" | "apparatus",
	keep: (exposure: Exposure) => boolean = () => true,
): CoverageTable {
	const cells = new Map<RowKey, Map<Id, Sum>>();
	const rows = new Map<RowKey, Sum>();
	const columns = new Map<Id, Sum>();
	const all = new Sum();
	for (const exposure of exposures) {
		if (!keep(exposure)) continue;
		const things = coveredBy(curriculum, exposure.drill, kind);
		if (things.length === 0) continue;
		const key = String(exposure[by]);
		const row = getOrMake(cells, key, () => new Map<Id, Sum>());
		const share = exposure.minutes / things.length;
		for (const thing of things) {
			getOrMake(row, thing, () => new Sum()).add(exposure, share);
			getOrMake(columns, thing, () => new Sum()).add(exposure, share);
		}
		getOrMake(rows, key, () => new Sum()).add(exposure, exposure.minutes);
		all.add(exposure, exposure.minutes);
	}
	return { cells, rows, columns, all };
}

/** coverage-shapes, coverage-skills and coverage-directions: one row per week, level, apparatus and thing. */
export const coverageMeasure: Measure = {
	name: "coverage",
	tables: (counted) => [
		fullTable(counted, "shape", "coverage-shapes"),
		fullTable(counted, "skill", "coverage-skills"),
		fullTable(counted, "direction", "coverage-directions"),
	],
	findings: () => [],
};

function fullTable({ curriculum, exposures }: Counted, kind: CoverageKind, name: string): Table {
	const sums: { readonly of: Exposure; readonly thing: Id; readonly sum: Sum }[] = [];
	// Exposures come by week, level and apparatus: a cell is full when the next begins.
	let cell = new Map<Id, Sum>();
	let last: Exposure | undefined;
	for (const exposure of exposures) {
		const { week, level, apparatus, minutes } = exposure;
		if (last?.week !== week || last.level !== level || last.apparatus !== apparatus) cell = new Map();
		last = exposure;
		const things = coveredBy(curriculum, exposure.drill, kind);
		for (const thing of things) {
			const sum = getOrMake(cell, thing, () => {
				const made = new Sum();
				sums.push({ of: exposure, thing, sum: made });
				return made;
			});
			sum.add(exposure, minutes / things.length);
		}
	}
	type Row = (typeof sums)[number];
	const more: Readonly<Record<string, (row: Row) => Cell>> = {
		share: ({ sum }) => sum.share,
		repetitions: ({ sum }) => sum.repetitions,
	};
	return tableOf(curriculum, name, sums, {
		week: ({ of }) => of.week,
		level: ({ of }) => of.level,
		apparatus: ({ of }) => of.apparatus,
		[kind]: ({ thing }) => thing,
		drills: ({ sum }) => sum.drills.length,
		minutes: ({ sum }) => sum.minutes,
		...(kind === "direction" ? {} : more),
	});
}

class Sum implements CoverageCell {
	minutes = 0;
	share = 0;
	repetitions: number | undefined = undefined;
	readonly exposures: Exposure[] = [];
	readonly #drills = new Set<Id>();

	get drills(): readonly Id[] {
		return [...this.#drills];
	}

	add(exposure: Exposure, share: number): void {
		this.minutes += exposure.minutes;
		this.share += share;
		if (exposure.repetitions !== undefined) {
			this.repetitions = (this.repetitions ?? 0) + exposure.repetitions;
		}
		this.exposures.push(exposure);
		this.#drills.add(exposure.drill);
	}
}

function unique(ids: readonly Id[]): readonly Id[] {
	return ids.length < 2 ? ids : [...new Set(ids)];
}
