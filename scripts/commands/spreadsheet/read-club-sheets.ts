/**
 * Sheets to the files of a club: what would be made, and what was unclear.
 *
 *   1. find the table in each sheet                                  find-table
 *   2. learn what words stand for: the club's own things, the entries and drills of the sheets
 *   3. entries, drills, weeks and guides, each cell by its form      cells
 *   4. hold each against its schema; a field that does not pass is left out and told
 *
 * Nothing is guessed: what can mean two things is left out and told with sheet, row and column.
 */

import { type FileKind, type Id, LIST_FILES } from "../../model.ts";
import { idFrom } from "../../validate/judge-data.ts";
import { ID_PATTERN, isPortable, validatorOf } from "../../validate/schemas.ts";
import { timeOf, unitInHeading } from "./amounts.ts";
import { type Cell, type CellContext, clean, fold, isFilled, type RefKind, readCell } from "./cells.ts";
import type { WrittenFile } from "./club-sheets.ts";
import { type Column, foldHeading, requiredOf, type SheetKind } from "./columns.ts";
import { readDose } from "./dose-words.ts";
import type { Seen, SeenSheet } from "./draft-mapping.ts";
import {
	closestHeadings,
	findTable,
	isSkipped,
	type Mapping,
	NO_MAPPING,
	type Note,
	type Table,
} from "./find-table.ts";
import { GridPlans, weeksOfTerm } from "./grid-plans.ts";
import { KnownThings } from "./known-things.ts";
import { findGrid, type Grid, type GridWords, seenIn } from "./plan-grid.ts";
import { letterOf, type Sheet } from "./read-sheets.ts";

export interface ReadSheets {
	readonly files: readonly DraftFile[];
	readonly notes: readonly Note[];
	/** What was seen, and what nothing is known of: for a mapping file to fill in. */
	readonly seen: Seen;
}

export interface DraftFile extends WrittenFile {
	/** The sheet and row it comes from. */
	readonly from: string;
}

type Fields = Record<string, unknown>;

/** Letters of a cell that is read as a dose. */
const LONGEST_DOSE = 120;

/** Reads a cell for its own sake: what is unclear in it is told another time. */
const QUIET: CellContext = { refer: () => undefined, unclear: () => undefined };

/** Nobody reads more hints than these; in a sheet of a hundred thousand rows each takes a while. */
const MOST_HINTS = 200;

function isId(words: string): boolean {
	return ID_PATTERN.test(words) && isPortable(words);
}

/** In which data file the things of a kind are listed. */
const LISTS: Readonly<Record<Exclude<RefKind, "drill" | "skill or drill">, FileKind>> = LIST_FILES;

/** Reads sheets into drafts of files. `club` is what the folder holds already. */
export function readClubSheets(
	sheets: readonly Sheet[],
	club: readonly WrittenFile[],
	mapping: Mapping = NO_MAPPING,
): ReadSheets {
	return new SheetReader(sheets, club, mapping).read();
}

class SheetReader {
	readonly #notes: Note[] = [];
	readonly #sheets: readonly Sheet[];
	readonly #mapping: Mapping;
	readonly #tables: Table[] = [];
	readonly #grids: { readonly sheet: Sheet; readonly grid: Grid }[] = [];
	readonly #known: KnownThings;
	readonly #club: readonly WrittenFile[];
	readonly #drillIds = new Map<Table, Map<number, Id>>();
	/** From where on a number is free, by the id that was wanted. */
	readonly #nextNumber = new Map<Id, number>();
	/** Hints still given: each is looked for among everything known. */
	#hintsLeft = MOST_HINTS;
	readonly #planned: GridPlans;
	readonly #unknown = new Map<string, Set<string>>();

	constructor(sheets: readonly Sheet[], club: readonly WrittenFile[], mapping: Mapping) {
		this.#club = club;
		this.#mapping = mapping;
		this.#known = new KnownThings(club, mapping);
		this.#planned = new GridPlans(
			this.#known,
			mapping,
			club,
			(note) => this.#notes.push(note),
			(kind, words) => this.#isUnknown(kind, words),
		);
		this.#sheets = sheets.filter((sheet) => !isSkipped(sheet, mapping));
		for (const sheet of this.#sheets) {
			for (const left of sheet.leftOut ?? [])
				this.#notes.push({ sheet: sheet.name, weight: "unclear", ...left });
		}
	}

	read(): ReadSheets {
		this.#findTables();
		for (const table of this.#of("drill")) this.#nameDrills(table);
		const drafts: DraftFile[] = [];
		for (const kind of Object.values(LISTS)) drafts.push(...this.#list(kind));
		drafts.push(
			...this.#single("club"),
			...this.#single("targets"),
			...this.#term(),
			...this.#unnamed("accepted"),
			...this.#unnamed("words"),
		);
		// One by one: a call takes only so many arguments.
		for (const table of this.#of("drill")) for (const drill of this.#drills(table)) drafts.push(drill);
		const weeks = this.#weeks();
		for (const drill of this.#planned.drills()) drafts.push(drill);
		for (const week of weeks) drafts.push(week);
		for (const table of this.#of("guide")) for (const guide of this.#guides(table)) drafts.push(guide);
		const files = drafts.flatMap((draft) => this.#sound(draft) ?? []);
		return { files, notes: this.#notes, seen: this.#seen() };
	}

	#seen(): Seen {
		const sheets = this.#sheets.map(({ title }): SeenSheet => {
			const table = this.#tables.find(({ sheet }) => sheet.title === title);
			const grid = this.#grids.find(({ sheet }) => sheet.title === title);
			const own = (table?.headings ?? []).flatMap((words, i) =>
				words === "" ? [] : [{ words, field: table?.columns[i]?.heading }],
			);
			return { title, kind: grid === undefined ? table?.kind : "grid", headings: own };
		});
		return {
			sheets,
			words: this.#unknown,
			minutes: this.#planned.withoutMinutes,
			known: new Map([...this.#unknown.keys()].map((kind) => [kind, this.#known.all(kind as RefKind)])),
		};
	}

	#isUnknown(kind: string, words: string): void {
		this.#unknown.set(kind, (this.#unknown.get(kind) ?? new Set()).add(words));
	}

	/**
	 * Lists first, whose names a grid's headings may be. A sheet that can be read as a grid is one, unless the
	 * mapping says what it is.
	 */
	#findTables(): void {
		const found = this.#sheets.map((sheet) => {
			const notes: Note[] = [];
			return { sheet, notes, table: findTable(sheet, this.#mapping, (note) => notes.push(note)) };
		});
		for (const { table } of found) if (table !== undefined) this.#tables.push(table);
		for (const kind of Object.values(LISTS)) this.#learnEntries(kind);
		const maybe = new Set<SheetKind>(["drill", "plan", "week"]);
		const words = gridWords(this.#known, this.#club);
		for (const { sheet, notes, table } of found) {
			const isSaid = this.#mapping.sheets.has(fold(sheet.title));
			const isTable = table !== undefined && (isSaid || !maybe.has(table.kind) || isWhole(table));
			const grid = isTable ? undefined : findGrid(sheet, words);
			if (grid !== undefined && !isRowOf(table, grid.headings)) {
				if (table !== undefined) this.#tables.splice(this.#tables.indexOf(table), 1);
				this.#grids.push({ sheet, grid });
			} else if (table !== undefined) this.#notes.push(...notes);
			else if (sheet.rows.some((row) => row.some(isFilled)))
				this.#notes.push({ sheet: sheet.name, weight: "unclear", what: noTable(sheet, words) });
		}
	}

	#of(kind: SheetKind): readonly Table[] {
		return this.#tables.filter((table) => table.kind === kind);
	}

	/** Says what is left out of a row. */
	#unclear(table: Table, row: number, what: string, column = -1): void {
		this.#note(table, row, what, column, "unclear");
	}

	/** Says how a row was read. */
	#note(table: Table, row: number, what: string, column: number, weight: Note["weight"] = "note"): void {
		const at = column < 0 ? {} : { column: letterOf(column) };
		this.#notes.push({ sheet: table.sheet.name, row, ...at, weight, what });
	}

	/** All fields of a row; cells that are unclear are told and left out. */
	#fields(table: Table, row: number, cells: readonly Cell[], skip: ReadonlySet<string> = new Set()): Fields {
		const fields: Fields = {};
		for (const [i, column] of table.columns.entries()) {
			if (column === undefined || skip.has(column.heading)) continue;
			const value = this.#value(table, row, i, column, cells[i] ?? null);
			if (value === undefined) continue;
			if (column.path.length === 0) fields[""] = value;
			else put(fields, column.path, value);
		}
		return fields;
	}

	#value(table: Table, row: number, index: number, column: Column, cell: Cell): unknown {
		const context: CellContext = {
			refer: (kind, words) => this.#known.refer(kind, words),
			...(column.unit === undefined ? {} : { unit: unitInHeading(table.headings[index] ?? "") }),
			unclear: (what) =>
				this.#unclear(table, row, `${column.heading}: ${what}${this.#hint(column, what)}`, index),
		};
		return readCell(column, cell, context);
	}

	/** The nearest known thing to the words that were not found. */
	#hint(column: Column, what: string): string {
		const words = /^there is no \w+ “(.*)”$/.exec(what)?.[1];
		const kind = column.form === "doses" ? "level" : column.form === "needs" ? "equipment" : column.of;
		if (words !== undefined && kind !== undefined) this.#isUnknown(kind, words);
		if (words === undefined || kind === undefined || this.#hintsLeft === 0) return "";
		this.#hintsLeft--;
		const nearest = this.#known.nearest(kind, words);
		return nearest === undefined ? "" : `; did you mean \`${nearest}\`?`;
	}

	#learnEntries(kind: FileKind): void {
		const ref = refKindOf(kind);
		for (const table of this.#of(kind)) {
			if (ref !== undefined) this.#known.close(ref);
			for (const { cells } of table.rows) {
				const { id, name, aliases } = this.#namesOf(table, cells);
				if (ref !== undefined && id !== undefined) this.#known.learn(ref, id, [name ?? "", ...aliases]);
			}
		}
	}

	/** Id, name and aliases of an entry's row, without telling what is unclear: that is told once, later. */
	#namesOf(table: Table, cells: readonly Cell[]) {
		const get = (heading: string): unknown => {
			const i = table.columns.findIndex((column) => column?.heading === heading);
			const column = table.columns[i];
			return column === undefined ? undefined : readCell(column, cells[i] ?? null, QUIET);
		};
		const name = get("name") as string | undefined;
		const own = get("id") as string | undefined;
		const id = own !== undefined && isId(own) ? own : idFrom(own ?? name ?? "");
		return { id, name, aliases: (get("aliases") as readonly string[] | undefined) ?? [] };
	}

	#list(kind: FileKind): readonly DraftFile[] {
		const tables = this.#of(kind);
		if (tables.length === 0) return [];
		const seen = new Set<Id>();
		const entries = tables.flatMap((table) =>
			table.rows.flatMap(({ number, cells }): readonly Fields[] => {
				const { id, name } = this.#namesOf(table, cells);
				const fields = this.#fields(table, number, cells);
				if (id === undefined || name === undefined) {
					this.#unclear(table, number, "a row without a name is left out");
					return [];
				}
				if (seen.has(id)) {
					this.#unclear(table, number, `\`${id}\` is there twice; the second is left out`);
					return [];
				}
				seen.add(id);
				return [{ ...fields, id, name }];
			}),
		);
		const from = tables[0]?.sheet.name ?? "";
		return entries.length === 0 ? [] : [{ kind, id: kind, data: entries.map(ordered), body: "", from }];
	}

	/** A list whose entries have no id. */
	#unnamed(kind: "accepted" | "words"): readonly DraftFile[] {
		const [first] = this.#of(kind);
		const entries = this.#of(kind).flatMap((table) =>
			table.rows.flatMap(({ number, cells }): readonly Fields[] => {
				const fields = this.#fields(table, number, cells);
				const missing = requiredOf(kind).filter((name) => fields[name] === undefined);
				if (missing.length === 0) return [fields];
				this.#unclear(table, number, `without a ${missing.join(" and a ")} the row is left out`);
				return [];
			}),
		);
		if (first === undefined || entries.length === 0) return [];
		return [{ kind, id: kind, data: entries, body: "", from: first.sheet.name }];
	}

	#single(kind: "club" | "targets"): readonly DraftFile[] {
		const [table] = this.#of(kind);
		const row = table?.rows[0];
		if (table === undefined || row === undefined) return [];
		return [
			{ kind, id: kind, data: this.#fields(table, row.number, row.cells), body: "", from: table.sheet.name },
		];
	}

	#term(): readonly DraftFile[] {
		const [table] = this.#of("term");
		const row = table?.rows[0];
		const classes = this.#of("classes").flatMap((own) =>
			own.rows.map(({ number, cells }) => this.#fields(own, number, cells)),
		);
		if (table === undefined || row === undefined) {
			const [own] = this.#of("classes");
			if (own !== undefined) {
				this.#notes.push({
					sheet: own.sheet.name,
					weight: "unclear",
					what: "classes belong to a term: a sheet `Term` with name, starts and weeks is missing",
				});
			}
			return [];
		}
		const term = this.#fields(table, row.number, row.cells);
		const data = classes.length === 0 ? term : { ...term, classes };
		return [{ kind: "term", id: "term", data, body: "", from: table.sheet.name }];
	}

	/** Gives every row of drills its id, before anything refers to them. */
	#nameDrills(table: Table): void {
		const ids = new Map<number, Id>();
		const at = table.columns.findIndex((column) => column?.heading === "title");
		const idAt = table.columns.findIndex((column) => column?.heading === "id");
		const rowsSeen = new Map<string, number>();
		for (const { number, cells } of table.rows) {
			const given = idAt < 0 ? "" : clean(String(cells[idAt] ?? ""));
			const title = at < 0 ? given : clean(String(cells[at] ?? "")).replaceAll("\n", " ");
			const filled = cells.filter(isFilled);
			if (filled.length === 1 && table.columns.filter((c) => c !== undefined).length > 1) {
				this.#heading(table, number, cells);
				continue;
			}
			const same = JSON.stringify(cells);
			const before = rowsSeen.get(same);
			if (before !== undefined) {
				this.#note(table, number, `the same as row ${before}; left out`, -1);
				continue;
			}
			rowsSeen.set(same, number);
			if (title === "") {
				this.#unclear(table, number, "a drill without a title is left out", at);
				continue;
			}
			if (at >= 0 && foldHeading(title) === foldHeading(table.columns[at]?.heading ?? "")) continue;
			const wanted = given !== "" && isId(given) ? given : idFrom(given === "" ? title : given);
			if (wanted === undefined) {
				this.#unclear(table, number, `no id can be made from “${title}”; give the row an id of its own`, at);
				continue;
			}
			const id = this.#freeId(wanted);
			if (id !== wanted) {
				const first = this.#known.rowOf(wanted);
				this.#note(table, number, `“${title}” is there already (${first}); made as \`${id}\``, at);
			}
			ids.set(number, id);
			this.#known.learn("drill", id, [title], `row ${number}`);
		}
		this.#drillIds.set(table, ids);
	}

	#freeId(wanted: Id): Id {
		let id = wanted;
		let n = this.#nextNumber.get(wanted) ?? 2;
		for (; this.#known.rowOf(id) !== undefined; n++) id = `${wanted}-${n}`;
		this.#nextNumber.set(wanted, n);
		return id;
	}

	/** A row with one cell: a heading between groups of drills, or something left behind. */
	#heading(table: Table, number: number, cells: readonly Cell[]): void {
		const at = cells.findIndex(isFilled);
		const words = clean(String(cells[at] ?? ""));
		this.#note(table, number, `“${words}” stands alone in its row; taken as a heading and left out`, at);
	}

	#drills(table: Table): readonly DraftFile[] {
		const ids = this.#drillIds.get(table) ?? new Map<number, Id>();
		const above = new CellsAbove(table, ["apparatus", "levels"]);
		return table.rows.flatMap(({ number, cells }): readonly DraftFile[] => {
			const id = ids.get(number);
			if (id === undefined) return [];
			const filled = above.fill(cells, (column, heading) =>
				this.#note(table, number, `${heading} is empty; taken from the cell above`, column),
			);
			const dose = this.#doseOf(table, number, filled);
			const { "": own, ...fields } = this.#fields(table, number, filled, new Set(["id", ...dose.taken]));
			Object.assign(fields, dose.fields);
			const body = [own, dose.kept].filter((text) => typeof text === "string").join("\n");
			// A sheet of some columns may be of drills that the club has.
			const there = this.#club.find((file) => file.kind === "drill" && file.id === id)?.data as
				| Fields
				| undefined;
			const columns = new Set(table.columns.map((column) => column?.heading));
			for (const name of requiredOf("drill")) {
				if (there?.[name] !== undefined && !columns.has(name)) fields[name] = there[name];
			}
			const missing = requiredOf("drill").filter((name) => fields[name] === undefined);
			if (missing.length > 0) {
				this.#unclear(
					table,
					number,
					`“${String(fields.title ?? id)}” has no ${missing.join(" and no ")} and is not made`,
				);
				return [];
			}
			const title = String(fields.title).replaceAll("\n", " ");
			const data = ordered({ ...fields, title, apparatus: oneOrList(fields.apparatus) });
			return [
				{
					kind: "drill",
					id,
					data,
					body,
					from: `${table.sheet.name}, row ${number}`,
				},
			];
		});
	}

	/**
	 * A dose in words, in one of the columns of numbers. What the fields cannot say, or nobody can read, is
	 * kept in the drill's text under its heading.
	 */
	#doseOf(table: Table, number: number, cells: readonly Cell[]) {
		const taken: string[] = [];
		const kept: string[] = [];
		const fields: Fields = {};
		for (const heading of ["sets", "reps", "hold"]) {
			const at = table.columns.findIndex((column) => column?.heading === heading);
			const cell = cells[at] ?? null;
			if (typeof cell !== "string" || clean(cell) === "" || clean(cell).length > LONGEST_DOSE) continue;
			const words = clean(cell);
			if (heading === "hold" ? typeof timeOf(words, "seconds") === "number" : /^\d+$/.test(words)) continue;
			// A heading that names a unit of time says what a bare number is.
			const dose = heading === "hold" && /^[\d.,\s½-]+$/.test(words) ? undefined : readDose(words);
			taken.push(heading);
			const { eachSide = false, told = [], ...amounts } = dose ?? {};
			if (dose === undefined || eachSide || told.length > 0) {
				kept.push(`${table.headings[at] ?? heading}: ${words}.`);
			}
			if (dose === undefined) {
				this.#unclear(
					table,
					number,
					`“${words.slice(0, 60)}” is no dose that can be counted; kept as words in the drill's text`,
					at,
				);
				continue;
			}
			for (const one of told)
				this.#note(table, number, `“${words}”: ${one}; the words are kept in the drill's text`, at);
			for (const [name, amount] of Object.entries(amounts)) fields[name] ??= amount;
			if (eachSide) fields.sides ??= "each";
		}
		return { taken, fields, kept: kept.length === 0 ? undefined : `${kept.join("\n")}\n` };
	}

	#weeks(): readonly DraftFile[] {
		const weeks = new Map<number, WeekDraft>();
		const weekOf = (number: number, from: string): WeekDraft => {
			const found = weeks.get(number);
			if (found !== undefined) return found;
			const made: WeekDraft = { number, apparatus: new Map(), body: "", from };
			weeks.set(number, made);
			return made;
		};
		for (const table of this.#of("week")) {
			for (const { number, cells } of table.rows) {
				const fields = this.#fields(table, number, cells);
				if (typeof fields.week !== "number") {
					this.#unclear(table, number, "a week without its number is left out");
					continue;
				}
				const week = weekOf(fields.week, `${table.sheet.name}, row ${number}`);
				const own = typeof fields.id === "string" && isId(fields.id) ? fields.id : undefined;
				if (own !== undefined) week.id = own;
				if (typeof fields.theme === "string") week.theme = fields.theme;
				if (typeof fields.keep === "boolean") week.keep = fields.keep;
				if (typeof fields[""] === "string") week.body = fields[""];
			}
		}
		for (const table of this.#of("plan")) this.#plan(table, weekOf);
		for (const { sheet, grid } of this.#grids) {
			this.#planned.add(sheet, grid, ({ week, theme, apparatus, from }, block) => {
				const own = weekOf(week, from);
				if (theme !== undefined) own.theme ??= theme;
				const plan = own.apparatus.get(apparatus) ?? { focus: undefined, blocks: [] };
				own.apparatus.set(apparatus, plan);
				plan.blocks.push(block);
			});
		}
		return [...weeks.values()]
			.sort((a, b) => a.number - b.number)
			.map(({ number, id, theme, keep, apparatus, body, from }) => {
				if (theme === undefined) {
					this.#notes.push({
						sheet: from,
						weight: "note",
						what: `week ${number} has no theme; “Week ${number}” stands there until you write one`,
					});
				}
				const plans = Object.fromEntries(
					Array.from(apparatus, ([name, { focus, blocks }]) => [
						name,
						{ ...(focus === undefined ? {} : { focus }), blocks: blocks.map(blockOf) },
					]),
				);
				return {
					kind: "week" as const,
					id: id ?? this.#weekId(number),
					data: {
						week: number,
						theme: theme ?? `Week ${number}`,
						...(keep === undefined ? {} : { keep }),
						apparatus: plans,
					},
					body,
					from,
				};
			});
	}

	/** The id of the club's own week of that number, else one made from the number. */
	#weekId(number: number): Id {
		const own = this.#club.find((f) => f.kind === "week" && (f.data as Fields | null)?.week === number);
		return own?.id ?? `week-${String(number).padStart(2, "0")}`;
	}

	#plan(table: Table, weekOf: (number: number, from: string) => WeekDraft): void {
		const above = new CellsAbove(table, ["week", "apparatus"]);
		for (const { number, cells } of table.rows) {
			const filled = above.fill(cells, (column, heading) =>
				this.#note(table, number, `${heading} is empty; taken from the cell above`, column),
			);
			const fields = this.#fields(table, number, filled);
			const { week, theme, apparatus, focus, block, kind, drill, at, "station note": stationNote } = fields;
			if (typeof week !== "number" || typeof apparatus !== "string") {
				this.#unclear(table, number, "without a week and an apparatus the row is left out");
				continue;
			}
			const own = weekOf(week, `${table.sheet.name}, row ${number}`);
			if (typeof theme === "string") own.theme ??= theme;
			const plan = own.apparatus.get(apparatus) ?? { focus: undefined, blocks: [] };
			own.apparatus.set(apparatus, plan);
			if (typeof focus === "string") plan.focus ??= focus;
			if (typeof drill !== "string") {
				if (this.#has(table, filled, ["drill", "minutes", "block"])) {
					this.#unclear(table, number, "without a drill the row is left out of the plan");
				}
				continue;
			}
			const station = {
				drill,
				...(stationNote === undefined ? {} : { note: stationNote }),
				...(at === undefined ? {} : { at }),
			};
			const running = plan.blocks.at(-1);
			if (typeof block === "number" && running?.number === block) {
				running.stations.push(station);
				if (running.kind === "drill") running.kind = "stations";
				continue;
			}
			if (typeof fields.minutes !== "number") {
				this.#unclear(table, number, `“${drill}” has no minutes and is left out of the plan`);
				continue;
			}
			plan.blocks.push({
				number: typeof block === "number" ? block : undefined,
				kind: kind === "stations" || kind === "options" ? kind : "drill",
				stations: [station],
				levels: fields.levels,
				note: fields.note,
				rest: {
					minutes: fields.minutes,
					show: fields.show,
					change: fields.change,
					choose: fields.choose,
					session: fields.session,
					dose: fields.dose,
					keep: fields.keep,
				},
			});
		}
	}

	#has(table: Table, cells: readonly Cell[], headings: readonly string[]): boolean {
		return table.columns.some(
			(column, i) =>
				column !== undefined && headings.includes(column.heading) && String(cells[i] ?? "").trim() !== "",
		);
	}

	#guides(table: Table): readonly DraftFile[] {
		return table.rows.flatMap(({ number, cells }): readonly DraftFile[] => {
			const { "": body, id: own, ...fields } = this.#fields(table, number, cells);
			const id = typeof own === "string" && isId(own) ? own : idFrom(String(own ?? fields.title ?? ""));
			if (id === undefined || fields.title === undefined) {
				this.#unclear(table, number, "a guide without a title is left out");
				return [];
			}
			const from = `${table.sheet.name}, row ${number}`;
			return [{ kind: "guide", id, data: fields, body: typeof body === "string" ? body : "", from }];
		});
	}

	/** The draft without fields that its schema does not take; undefined where a required one is among them. */
	#sound(draft: DraftFile): DraftFile | undefined {
		const validate = validatorOf(draft.kind);
		if (validate(draft.data)) return draft;
		const data = structuredClone(draft.data) as Fields;
		const required = requiredOf(draft.kind);
		for (const error of validate.errors ?? []) {
			const [, top = ""] = error.instancePath.split("/");
			const words = `${top === "" ? "" : `${top}: `}${error.message ?? "is not sound"}`;
			this.#notes.push({ sheet: draft.from, weight: "unclear", what: words });
			if (top === "" || required.includes(top) || Array.isArray(data)) return undefined;
			delete data[top];
		}
		return validate(data) ? { ...draft, data } : undefined;
	}
}

/** Whether a table has every column it needs; weeks and themes may be the edge of a grid. */
function isWhole({ kind, columns }: Table): boolean {
	const has = (name: string) => columns.some((column) => column?.heading === name);
	return kind !== "week" && [...requiredOf(kind), ...(kind === "plan" ? ["drill"] : [])].every(has);
}

/** Whether a row reads as one of its table: what looks like a grid's headings there is the sheet's own data. */
function isRowOf(table: Table | undefined, row: number): boolean {
	const cells = table?.rows.find(({ number }) => number === row)?.cells;
	if (table === undefined || cells === undefined) return false;
	return requiredOf(table.kind).every((name) => {
		const at = table.columns.findIndex((column) => column?.heading === name);
		const column = table.columns[at];
		return column !== undefined && readCell(column, cells[at] ?? null, QUIET) !== undefined;
	});
}

/** Why a sheet without a table is left out, and how it can be read. */
function noTable(sheet: Sheet, words: GridWords): string {
	const plan = seenIn(sheet, words);
	const seen =
		closestHeadings(sheet) ?? (plan === undefined ? "it has no row of headings" : `it begins with ${plan}`);
	return `no row of headings was found that names a drill's title, apparatus and levels, a plan's week and drill, or areas and weeks: ${seen}; --map-out <file> writes a mapping to fill in`;
}

interface WeekDraft {
	readonly number: number;
	id?: Id;
	theme?: string;
	keep?: boolean;
	readonly apparatus: Map<Id, { focus: string | undefined; readonly blocks: BlockDraft[] }>;
	body: string;
	readonly from: string;
}

export interface BlockDraft {
	readonly number: number | undefined;
	kind: "drill" | "stations" | "options";
	readonly stations: Fields[];
	readonly levels: unknown;
	readonly note: unknown;
	/** What is written as it is read. */
	readonly rest: Fields;
}

function blockOf({ kind, stations, levels, note, rest }: BlockDraft): Fields {
	const [first] = stations;
	// A word for the station of a block of one drill is a word for the block.
	const own = kind === "drill" ? (note ?? first?.note) : note;
	return clear({
		...(kind === "drill" ? { drill: first?.drill } : { [kind]: stations }),
		...rest,
		levels: oneOrList(levels),
		note: own,
	});
}

/** What words in a grid stand for: things the club or the sheets have, and weeks by the term's dates. */
function gridWords(known: KnownThings, club: readonly WrittenFile[]): GridWords {
	const own = club.find(({ kind }) => kind === "term")?.data as Fields | undefined;
	return {
		find: (kind, words) => known.find(kind, words),
		weekOn: weeksOfTerm(own),
	};
}

/** Fills empty cells of some columns with what stands above: of merged cells only the first has a value. */
class CellsAbove {
	readonly #at: ReadonlyMap<number, string>;
	readonly #last = new Map<number, Cell>();

	constructor(table: Table, headings: readonly string[]) {
		this.#at = new Map(
			table.columns.flatMap((column, i) =>
				column !== undefined && headings.includes(column.heading) ? [[i, column.heading] as const] : [],
			),
		);
	}

	fill(cells: readonly Cell[], told: (column: number, heading: string) => void): readonly Cell[] {
		const filled = [...cells];
		for (const [i, heading] of this.#at) {
			const cell = filled[i] ?? null;
			if (isFilled(cell)) {
				this.#last.set(i, cell);
				continue;
			}
			const above = this.#last.get(i);
			if (above === undefined) continue;
			filled[i] = above;
			told(i, heading);
		}
		return filled;
	}
}

function refKindOf(kind: FileKind): RefKind | undefined {
	return (Object.entries(LISTS) as [RefKind, FileKind][]).find(([, file]) => file === kind)?.[0];
}

function put(fields: Fields, path: readonly string[], value: unknown): void {
	const [name = "", ...rest] = path;
	if (rest.length === 0) {
		fields[name] = value;
		return;
	}
	const inner = (fields[name] ?? {}) as Fields;
	put(inner, rest, value);
	fields[name] = inner;
}

function oneOrList(value: unknown): unknown {
	return Array.isArray(value) && value.length === 1 ? value[0] : value;
}

function clear(fields: Fields): Fields {
	return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}

/** Fields in the order of their columns: id and name first, as a person would write them. */
function ordered(fields: Fields): Fields {
	const { id, name, title, ...rest } = fields;
	return clear({ id, name, title, ...rest });
}
