/**
 * The cells of plans drawn as grids to blocks of weeks, and to the drills that only the plan names.
 *
 * Minutes that stand nowhere are shared out of what an area has: the heading's, the mapping's, or what a
 * class's time comes to by its rotation. Where there is none of these, the drills are left out and told.
 * A drill that nobody has listed is made, for the levels of the sheet or all, and told; one that is spelt
 * nearly like a known one is not.
 */

import { weekOn } from "../../compute/calendar.ts";
import type { Id, Term } from "../../model.ts";
import { idFrom } from "../../validate/judge-data.ts";
import type { WrittenFile } from "./club-sheets.ts";
import type { Mapping, Note } from "./find-table.ts";
import { type CellDrill, drillsInCell, isNoDrill, sharedOut, titleOf } from "./grid-cells.ts";
import type { KnownThings } from "./known-things.ts";
import type { Grid, GridCell } from "./plan-grid.ts";
import type { BlockDraft, DraftFile } from "./read-club-sheets.ts";
import type { Sheet } from "./read-sheets.ts";

type Fields = Readonly<Record<string, unknown>>;

/** Where a block belongs, and the sheet and row it comes from. */
export interface BlockSpot {
	readonly week: number;
	readonly theme?: string | undefined;
	readonly apparatus: Id;
	readonly from: string;
}

interface PlacedDrill extends CellDrill {
	readonly id: Id;
	readonly cell: GridCell;
}

interface PlacedBlock {
	readonly cell: GridCell;
	readonly block: BlockDraft;
}

type Say = (cell: GridCell, weight: Note["weight"], what: string) => void;

interface NewDrill {
	readonly title: string;
	readonly apparatus: Set<Id>;
	readonly levels: Set<Id>;
	readonly from: string;
}

export class GridPlans {
	readonly #known: KnownThings;
	readonly #mapping: Mapping;
	readonly #classes: readonly Fields[];
	readonly #tell: (note: Note) => void;
	readonly #unknown: (kind: "apparatus" | "drill", words: string) => void;
	readonly #made = new Map<Id, NewDrill>();
	/** Areas whose drills have no minutes. */
	readonly withoutMinutes = new Set<Id>();

	constructor(
		known: KnownThings,
		mapping: Mapping,
		club: readonly WrittenFile[],
		tell: (note: Note) => void,
		unknown: (kind: "apparatus" | "drill", words: string) => void,
	) {
		this.#unknown = unknown;
		this.#known = known;
		this.#mapping = mapping;
		this.#tell = tell;
		const term = club.find(({ kind }) => kind === "term")?.data as Fields | undefined;
		this.#classes = Array.isArray(term?.classes) ? (term.classes as readonly Fields[]) : [];
	}

	/** Puts the drills of all cells where they belong. */
	add(
		sheet: Sheet,
		{ cells, isList, headings, unknown, unplaced }: Grid,
		put: (spot: BlockSpot, block: BlockDraft) => void,
	): void {
		const tell = (weight: Note["weight"], what: string, row?: number, column?: string): void =>
			this.#tell({
				sheet: sheet.name,
				weight,
				what,
				...(row === undefined ? {} : { row }),
				...(column === undefined ? {} : { column }),
			});
		for (const { column, words } of unknown) {
			const nearest = this.#known.nearest("apparatus", words);
			this.#unknown("apparatus", words);
			tell(
				"unclear",
				`the column “${words}” is no area, week or level that is known, and is left out${nearest === undefined ? "" : `; did you mean \`${nearest}\`?`}`,
				headings,
				column,
			);
		}
		for (const row of unplaced) tell("unclear", "a row without its week or area is left out", row);
		// What stands under each other for one week and area shares its minutes.
		const key = ({ week, apparatus, levels }: GridCell) => `${week} ${apparatus} ${levels.join(" ")}`;
		for (const together of Map.groupBy(cells, key).values()) {
			const say: Say = (cell, weight, what) => tell(weight, what, cell.row, cell.column);
			const apart = !isList && together.every(({ own }) => own !== undefined);
			for (const group of apart ? together.map((cell) => [cell]) : [together]) {
				for (const { cell, block } of this.#blocksOf(group, isList, sheet.name, say)) {
					const from = `${sheet.name}, row ${cell.row}`;
					put({ week: cell.week, theme: cell.theme, apparatus: cell.apparatus, from }, block);
				}
			}
		}
	}

	/** The drills that only plans name. */
	drills(): readonly DraftFile[] {
		return Array.from(this.#made, ([id, { title, apparatus, levels, from }]) => ({
			kind: "drill",
			id,
			data: {
				title,
				apparatus: apparatus.size === 1 ? [...apparatus][0] : [...apparatus],
				levels: [...levels],
			},
			body: "",
			from,
		}));
	}

	#blocksOf(cells: readonly GridCell[], isList: boolean, sheet: string, say: Say): readonly PlacedBlock[] {
		const drills = cells.flatMap((cell) => {
			const read = drillsInCell(cell.text, (words) => this.#known.find("drill", words)?.[0]);
			return read.flatMap((drill): readonly PlacedDrill[] => {
				if (drill.told !== undefined) say(cell, "note", drill.told);
				const id = drill.id ?? this.#newDrill(drill, cell, sheet, (weight, what) => say(cell, weight, what));
				if (id === undefined) return [];
				this.#usedIn(id, cell);
				// In a list the minutes of a row are its drill's.
				const minutes = drill.minutes ?? (isList && read.length === 1 ? cell.own : undefined);
				return [{ ...drill, id, cell, ...(minutes === undefined ? {} : { minutes }) }];
			});
		});
		const minutes = this.#minutesOf(drills, isList, say);
		return drills.flatMap((drill, i): readonly PlacedBlock[] => {
			const own = minutes[i];
			if (own === undefined) return [];
			const { cell } = drill;
			const words = [drill.note, keptWords(drill), cell.note].filter((text) => text !== undefined);
			for (const told of drill.dose?.told ?? [])
				say(cell, "note", `dose “${drill.doseWords}”: ${told}; the words are kept as a note`);
			const { sets, reps, hold } = drill.dose ?? {};
			const dose = Object.fromEntries(
				Object.entries({ sets, reps, hold }).filter(([, value]) => value !== undefined),
			);
			const block: BlockDraft = {
				number: undefined,
				kind: "drill",
				stations: [{ drill: drill.id }],
				levels: cell.levels.length === 0 ? undefined : cell.levels,
				note: words.length === 0 ? undefined : words.join(". "),
				rest: { minutes: own, ...(drill.dose === undefined ? {} : { dose }) },
			};
			return [{ cell, block }];
		});
	}

	/** A drill that only plans name is for every area and level they name it in. */
	#usedIn(id: Id, { apparatus, levels }: GridCell): void {
		const made = this.#made.get(id);
		made?.apparatus.add(apparatus);
		for (const level of levels) made?.levels.add(level);
	}

	/** The id of a drill that the plan alone names; undefined where it is none, or nearly another. */
	#newDrill(
		{ words }: CellDrill,
		cell: GridCell,
		sheet: string,
		say: (weight: Note["weight"], what: string) => void,
	): Id | undefined {
		if (isNoDrill(words)) {
			say(
				"note",
				`“${words}” is no drill and is left out; days without classes stand as \`closed\` in _data/term.yaml`,
			);
			return undefined;
		}
		const said = this.#known.refer("drill", words);
		if (said !== undefined) return said[0];
		const nearest = this.#known.nearest("drill", words);
		if (nearest !== undefined) {
			this.#unknown("drill", words);
			say(
				"unclear",
				`there is no drill “${words}”; did you mean \`${nearest}\`? It is left out; a new drill wants a row in a list of drills`,
			);
			return undefined;
		}
		const levels = cell.levels.length > 0 ? cell.levels : this.#known.all("level");
		const id = words.length > 60 ? undefined : idFrom(words);
		if (id === undefined || levels.length === 0) {
			say(
				"unclear",
				levels.length === 0
					? `“${words}” is no drill of the club, and cannot be made one before there are levels`
					: `“${words.slice(0, 60)}” is no drill of the club, and too long to be the name of one; it is left out`,
			);
			return undefined;
		}
		const made = this.#made.get(id) ?? {
			title: titleOf(words),
			apparatus: new Set<Id>(),
			levels: new Set<Id>(),
			from: `${sheet}, row ${cell.row}`,
		};
		if (!this.#made.has(id)) {
			this.#made.set(id, made);
			this.#known.learn("drill", id, [made.title]);
			say(
				"note",
				`“${made.title}” is in no list of drills; a new drill is made, for ${cell.levels.length > 0 ? "the sheet's level" : "all levels"}: look it through`,
			);
		}
		for (const level of levels) made.levels.add(level);
		return id;
	}

	#minutesOf(drills: readonly PlacedDrill[], isList: boolean, say: Say): readonly (number | undefined)[] {
		const own = drills.map(({ minutes }) => minutes);
		const open = drills.filter(({ minutes }) => minutes === undefined);
		const [first] = open;
		if (first === undefined) return own;
		const { cell } = first;
		const names = open.map(({ words }) => `“${words}”`).join(", ");
		const said =
			cell.minutes ?? (isList ? undefined : drills.find((one) => one.cell.own !== undefined)?.cell.own);
		const whole = said === undefined ? this.#areaMinutes(cell) : { minutes: said, why: "" };
		if (whole === undefined) {
			this.withoutMinutes.add(cell.apparatus);
			say(
				cell,
				"unclear",
				`${names}: no minutes stand in the plan, and no class says how long it is on ${cell.apparatus}; write \`minutes: {${cell.apparatus}: 15}\` into a mapping file`,
			);
			return own;
		}
		const left = whole.minutes - own.reduce<number>((sum, minutes) => sum + (minutes ?? 0), 0);
		if (left <= 0) {
			say(cell, "unclear", `the other drills take all ${whole.minutes} minutes; ${names} is left out`);
			return own;
		}
		const shares = [...sharedOut(left, open.length)];
		if (open.length > 1) {
			const each = [...new Set(shares)].sort((a, b) => b - a).join(" or ");
			say(
				cell,
				"note",
				`${left} minutes${whole.why} are shared out over ${open.length} drills: ${each} for each`,
			);
		} else if (whole.why !== "") say(cell, "note", `${left} minutes${whole.why} are taken for it`);
		return own.map((minutes) => minutes ?? shares.shift());
	}

	/** How long an area has: by the mapping, or by the shortest of the classes that go there. */
	#areaMinutes({
		apparatus,
		levels,
	}: GridCell): { readonly minutes: number; readonly why: string } | undefined {
		const said = this.#mapping.minutes.get(apparatus) ?? this.#mapping.minutes.get("");
		if (said !== undefined) return { minutes: said, why: " of the mapping" };
		const times = this.#classes.flatMap((one) => {
			const rotation = Array.isArray(one.rotation) ? one.rotation.map(String) : [];
			const own = [one.level ?? []].flat().map(String);
			const fits = levels.length === 0 || own.length === 0 || own.some((level) => levels.includes(level));
			if (!fits || typeof one.minutes !== "number") return [];
			const [before, after, between] = [one["warm-up"], one["cool-down"], one.between].map((n) =>
				typeof n === "number" ? n : 0,
			);
			if (apparatus === "warm-up" && (before ?? 0) > 0) return [before ?? 0];
			if (!rotation.includes(apparatus)) return [];
			const work = one.minutes - (before ?? 0) - (after ?? 0) - (between ?? 0) * (rotation.length - 1);
			return [Math.floor(work / rotation.length)];
		});
		const least = Math.min(...times.filter((minutes) => minutes > 0));
		return Number.isFinite(least) ? { minutes: least, why: " of the class's time" } : undefined;
	}
}

/** Words of a dose that its numbers do not say. */
function keptWords({ dose, doseWords }: CellDrill): string | undefined {
	if (dose === undefined || doseWords === undefined) return undefined;
	return dose.eachSide || dose.told.length > 0 ? doseWords : undefined;
}

/** The teaching week that a day lies in, by a term as it is written; undefined where it lies in none. */
export function weeksOfTerm(written: Fields | undefined): (day: string) => number | undefined {
	const { starts, weeks, closed, classes } = written ?? {};
	if (typeof starts !== "string" || typeof weeks !== "number") return () => undefined;
	const term = {
		starts,
		weeks,
		closed: (Array.isArray(closed) ? closed.map(String) : []).map((text) => {
			const [from = "", to = from] = text.split("/");
			return { from, to };
		}),
		classes: Array.isArray(classes) ? classes : [],
	} as unknown as Term;
	return (day) => {
		const week = weekOn(term, day);
		return week !== undefined && week.monday <= day ? week.week : undefined;
	};
}
