/**
 * What a club wrote and what was counted from it, as plain data: kept beside a handbook as
 * `data/record.json` (its drills in files beside it), so that a later plan can be held against it when the folder has long changed.
 */

import {
	type Cell,
	type ClubEdition,
	type Finding,
	type Id,
	RECORDED_KINDS,
	type RecordedKind,
} from "../model.ts";
import type { Measured } from "./measure.ts";
import { rounded } from "./tables.ts";

export interface RecordedTable {
	readonly name: string;
	readonly columns: readonly string[];
	/** Columns that say what a row is about; the others are numbers counted for it. */
	readonly keys: readonly string[];
	/** `null` stands for an empty cell. */
	readonly rows: readonly (readonly (string | number | null)[])[];
}

export interface RecordedFinding extends Pick<Finding, "code" | "weight" | "what" | "about"> {}

/** Format 1. Written by `build` and `next-term`, read by `compare` and `build --since`. */
export interface PlanRecord {
	readonly format: 1;
	/** In records of before editions had numbers a hash alone. */
	readonly edition: ClubEdition | string;
	readonly club: string;
	readonly term: string;
	/** Every thing as its author wrote it, its own id left out: by kind, then by id (a week by its number). */
	readonly things: Readonly<Record<RecordedKind, Readonly<Record<Id, Written>>>>;
	/** What a thing is called: a title, a name, a theme. */
	readonly names: Readonly<Record<RecordedKind, Readonly<Record<Id, string>>>>;
	/** What the club and the term say of themselves; not in records that were kept before it was. */
	readonly facts?: Readonly<Record<RecordedFacts, Written>>;
	readonly tables: readonly RecordedTable[];
	readonly findings: readonly RecordedFinding[];
}

/** A record as a build leaves it: drills and the edition, which change most, stand in files beside it. */
export interface RecordBesideDrills extends Omit<PlanRecord, "format" | "edition"> {
	readonly format: 2;
	readonly drills: readonly string[];
}

/** @param files the names of the files of drills */
export function besideDrills(
	{ edition: _, ...record }: PlanRecord,
	files: readonly string[],
): RecordBesideDrills {
	return { ...record, format: 2, things: { ...record.things, drill: {} }, drills: files };
}

/** The whole record again, of drills as the data has them. */
export function withDrills(
	{ drills: _, ...record }: RecordBesideDrills,
	drills: readonly { readonly id: Id }[],
	edition: ClubEdition,
): PlanRecord {
	const byId = new Map(drills.map((drill) => [drill.id, writtenOf(drill)]));
	const drill = Object.fromEntries(Object.keys(record.names.drill).map((id) => [id, byId.get(id) ?? {}]));
	return { ...record, format: 1, edition, things: { ...record.things, drill } };
}

/** What there is one of in a club. A term's classes are things of their own. */
export const FACTS = ["club", "term", "targets"] as const;
export type RecordedFacts = (typeof FACTS)[number];

/** Plain data whose fields stand in the order of their names. */
export type Written = Readonly<Record<string, unknown>>;

/** Columns of whole numbers that say what a row is about and are no measure. */
const ROW_NUMBERS = new Set(["week"]);

/** Fields that linking works out or that only say where a thing was written. */
const NOT_WRITTEN = new Set(["id", "source", "path", "partners", "next", "planned", "drills", "week"]);

/** The record of a plan. */
export function recordOf(
	{ curriculum, tables, findings }: Measured,
	edition: ClubEdition | string,
): PlanRecord {
	const { club, term, targets, drills, weeks, guides, levels, apparatus, shapes, skills, equipment } =
		curriculum;
	const kinds: Readonly<Record<RecordedKind, ReadonlyMap<Id, object>>> = {
		drill: drills,
		week: new Map(weeks.map((week) => [String(week.week), week])),
		level: levels,
		apparatus,
		shape: shapes,
		skill: skills,
		equipment,
		class: new Map(term.classes.map((group) => [group.id, group])),
		guide: guides,
	};
	const byKind = <T>(of: (thing: object) => T) =>
		Object.fromEntries(
			RECORDED_KINDS.map((kind) => [
				kind,
				Object.fromEntries(Array.from(kinds[kind], ([id, thing]) => [id, of(thing)])),
			]),
		) as Record<RecordedKind, Record<Id, T>>;
	return {
		format: 1,
		edition,
		club: club.name,
		term: term.name,
		things: byKind(writtenOf),
		names: byKind((thing) => {
			const { title, name, theme } = thing as Readonly<Partial<Record<"title" | "name" | "theme", string>>>;
			return title ?? name ?? theme ?? "";
		}),
		facts: {
			club: writtenOf(club),
			term: writtenOf({ ...term, classes: undefined }),
			targets: writtenOf(targets),
		},
		tables: Array.from(tables.values(), ({ name, columns, rows }) => ({
			name,
			columns: columns.map((column) => column.name),
			keys: columns.filter((c) => c.order !== "number" || ROW_NUMBERS.has(c.name)).map((c) => c.name),
			rows: rows.map((row) => row.map(recorded)),
		})),
		findings: findings.map(({ code, weight, what, about }) => ({ code, weight, what, about })),
	};
}

function recorded(cell: Cell): string | number | null {
	if (cell === undefined) return null;
	return typeof cell === "number" ? rounded(cell) : cell;
}

function writtenOf(thing: object): Written {
	const plain = (value: unknown): unknown => {
		if (Array.isArray(value)) return value.map(plain);
		if (value instanceof Map) return sorted([...value].map(([key, part]) => [String(key), plain(part)]));
		if (typeof value !== "object" || value === null) return value;
		return sorted(
			Object.entries(value)
				.filter(([key, part]) => part !== undefined && !["source", "path"].includes(key))
				.map(([key, part]) => [key, plain(part)]),
		);
	};
	return sorted(
		Object.entries(thing)
			.filter(([key, part]) => part !== undefined && !NOT_WRITTEN.has(key))
			.map(([key, part]) => [key, plain(part)]),
	);
}

function sorted(entries: readonly (readonly [string, unknown])[]): Written {
	return Object.fromEntries([...entries].sort(([a], [b]) => (a < b ? -1 : 1)));
}
