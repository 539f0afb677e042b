/**
 * Two plans beside each other: what was added, removed, renamed and changed, and what that did to
 * coverage, time, equipment, load and findings.
 *
 * Steps: drills of equal content under another id are paired as renamed; things of the same id are
 * compared field by field, after the renamed ids; rows of the computed tables are compared by what
 * they are about; findings by their code and words.
 */

import type { Cell, Curriculum, Finding, Id, Table } from "../model.ts";
import type { Measured } from "./measure.ts";
import { rounded } from "./tables.ts";

/** One field that differs; a side is undefined where the field is not there. Lists are by position. */
export interface FieldChange {
	/** Names and list positions from the top, joined by dots; positions count from 1. */
	readonly field: string;
	readonly before: unknown;
	readonly after: unknown;
}

export interface ThingChange {
	/** A drill's id, or a week's number as text. */
	readonly id: string;
	readonly fields: readonly FieldChange[];
}

export interface ThingsCompared {
	readonly added: readonly string[];
	readonly removed: readonly string[];
	readonly changed: readonly ThingChange[];
}

/** One number of a computed table that differs; a side is undefined where its row is not there. */
export interface NumberChange {
	readonly table: string;
	/** What the row is about, by column. */
	readonly row: Readonly<Record<string, Cell>>;
	readonly column: string;
	readonly before: number | undefined;
	readonly after: number | undefined;
}

export interface Comparison {
	readonly drills: ThingsCompared & { readonly renamed: readonly { readonly from: Id; readonly to: Id }[] };
	readonly weeks: ThingsCompared;
	readonly numbers: readonly NumberChange[];
	readonly findings: { readonly gone: readonly Finding[]; readonly come: readonly Finding[] };
}

/** Columns of whole numbers that say what a row is about and are no measure. */
const ROW_NUMBERS = new Set(["week"]);

/** Fields that linking works out or that only say where a thing was written. */
const NOT_WRITTEN = new Set(["source", "path", "partners", "next", "planned"]);

/** Fields that hold ids of drills. */
const DRILL_FIELDS = new Set(["drill", "after", "partner"]);

/** Compares two plans by meaning. The order of files and of fields does not matter; that of lists does. */
export function compare(before: Measured, after: Measured): Comparison {
	const renamed = renamedDrills(before.curriculum, after.curriculum);
	const names = new Map(renamed.map(({ from, to }) => [from, to]));
	const drillsBefore = new Map(
		[...before.curriculum.drills].map(([id, drill]) => [names.get(id) ?? id, written(drill, names)]),
	);
	const drillsAfter = new Map(
		[...after.curriculum.drills].map(([id, drill]) => [id, written(drill, new Map())]),
	);
	return {
		drills: { ...things(drillsBefore, drillsAfter), renamed },
		weeks: things(weeksOf(before.curriculum, names), weeksOf(after.curriculum, new Map())),
		numbers: numberChanges(before.tables, after.tables),
		findings: {
			gone: without(before.findings, after.findings),
			come: without(after.findings, before.findings),
		},
	};
}

/** Drills that are gone and have exactly one new drill of equal content, and are the only one it equals. */
function renamedDrills(before: Curriculum, after: Curriculum): readonly { from: Id; to: Id }[] {
	const byContent = (from: Curriculum, other: Curriculum): ReadonlyMap<string, readonly Id[]> =>
		Map.groupBy(
			[...from.drills.keys()].filter((id) => !other.drills.has(id)),
			(id) => JSON.stringify(written(from.drills.get(id), new Map())),
		);
	const come = byContent(after, before);
	return [...byContent(before, after)].flatMap(([content, gone]) => {
		const [from] = gone;
		const [to, ...more] = come.get(content) ?? [];
		return from === undefined || to === undefined || gone.length > 1 || more.length > 0 ? [] : [{ from, to }];
	});
}

function weeksOf({ weeks }: Curriculum, names: ReadonlyMap<Id, Id>): ReadonlyMap<string, unknown> {
	return new Map(weeks.map((week) => [String(week.week), written(week, names)]));
}

/** A thing as plain data of what its author wrote, its own id left out, drills under their new ids. */
function written(thing: unknown, names: ReadonlyMap<Id, Id>): unknown {
	const plain = (value: unknown, field: string): unknown => {
		if (typeof value === "string") return DRILL_FIELDS.has(field) ? (names.get(value) ?? value) : value;
		if (Array.isArray(value)) return value.map((part) => plain(part, field));
		if (value instanceof Map) return sorted([...value].map(([key, part]) => [String(key), plain(part, "")]));
		if (typeof value !== "object" || value === null) return value;
		return sorted(
			Object.entries(value)
				.filter(([key]) => !NOT_WRITTEN.has(key))
				.map(([key, part]) => [key, plain(part, key)]),
		);
	};
	const data = plain(thing, "");
	if (!isRecord(data)) return data;
	const { id: _own, ...rest } = data;
	return rest;
}

function sorted(entries: readonly (readonly [string, unknown])[]): Readonly<Record<string, unknown>> {
	return Object.fromEntries([...entries].sort(([a], [b]) => (a < b ? -1 : 1)));
}

function things(before: ReadonlyMap<string, unknown>, after: ReadonlyMap<string, unknown>): ThingsCompared {
	const changed = [...after].flatMap(([id, now]) => {
		if (!before.has(id)) return [];
		const fields = fieldChanges(before.get(id), now, "");
		return fields.length > 0 ? [{ id, fields }] : [];
	});
	return {
		added: [...after.keys()].filter((id) => !before.has(id)),
		removed: [...before.keys()].filter((id) => !after.has(id)),
		changed,
	};
}

function fieldChanges(before: unknown, after: unknown, field: string): readonly FieldChange[] {
	const within = (key: string): string => (field === "" ? key : `${field}.${key}`);
	if (Array.isArray(before) && Array.isArray(after)) {
		return Array.from({ length: Math.max(before.length, after.length) }, (_, index) =>
			fieldChanges(before[index], after[index], within(String(index + 1))),
		).flat();
	}
	if (isRecord(before) && isRecord(after)) {
		const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
		return keys.flatMap((key) => fieldChanges(before[key], after[key], within(key)));
	}
	return JSON.stringify(before) === JSON.stringify(after) ? [] : [{ field, before, after }];
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
	return typeof value === "object" && value !== null && !Array.isArray(value);
}

function numberChanges(
	before: ReadonlyMap<string, Table>,
	after: ReadonlyMap<string, Table>,
): readonly NumberChange[] {
	return [...after.values()].filter(isCompared).flatMap((table) => {
		const isKey = table.columns.map((c) => c.order !== "number" || ROW_NUMBERS.has(c.name));
		const keyed = (rows: Table["rows"]) =>
			new Map(rows.map((row) => [JSON.stringify(row.filter((_, i) => isKey[i])), row]));
		const old = keyed(before.get(table.name)?.rows ?? []);
		const now = keyed(table.rows);
		return [...new Set([...old.keys(), ...now.keys()])].flatMap((key) => {
			const about = old.get(key) ?? now.get(key) ?? [];
			const row = Object.fromEntries(
				table.columns.flatMap((c, i) => (isKey[i] ? [[c.name, about[i]] as const] : [])),
			);
			return table.columns.flatMap(({ name }, i) => {
				if (isKey[i]) return [];
				const [was, is] = [asNumber(old.get(key)?.[i]), asNumber(now.get(key)?.[i])];
				return was === is ? [] : [{ table: table.name, row, column: name, before: was, after: is }];
			});
		});
	});
}

function isCompared({ name }: Table): boolean {
	return name.startsWith("coverage") || name === "time" || name === "equipment" || name === "load";
}

function asNumber(cell: Cell): number | undefined {
	return typeof cell === "number" ? rounded(cell) : undefined;
}

/** The findings of one side that the other has not, each as often as it is more. */
function without(all: readonly Finding[], taken: readonly Finding[]): readonly Finding[] {
	const key = ({ code, what }: Finding): string => `${code} ${what}`;
	const left = new Map<string, number>();
	for (const one of taken) left.set(key(one), (left.get(key(one)) ?? 0) + 1);
	return all.filter((one) => {
		const more = left.get(key(one)) ?? 0;
		left.set(key(one), more - 1);
		return more <= 0;
	});
}
