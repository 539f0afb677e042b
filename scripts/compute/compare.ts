/**
 * Two plans beside each other: what was added, removed, renamed and changed, and what that did to
 * coverage, time, equipment, load and findings.
 *
 * Steps: drills of equal content under another id are paired as renamed; things of the same id are
 * compared field by field, after the renamed ids, items of lists where they fit best; rows of the
 * computed tables are compared by what they are about; findings by their code and words.
 */

import { diffArrays } from "diff";
import type { Id } from "../model.ts";
import { RECORDED_KINDS, type RecordedKind } from "../model.ts";
import {
	FACTS,
	type PlanRecord,
	type RecordedFacts,
	type RecordedFinding,
	type RecordedTable,
	type Written,
} from "./plan-record.ts";

/** One field that differs; a side is undefined where the field or the item is not there. */
export interface FieldChange {
	/**
	 * Names and list positions from the top, joined by dots; positions count from 1, in the later plan,
	 * and in the earlier one for an item that is gone.
	 */
	readonly field: string;
	readonly before: unknown;
	readonly after: unknown;
}

export interface ThingChange {
	/** An id, or a week's number as text. */
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
	readonly row: Readonly<Record<string, string | number | null>>;
	readonly column: string;
	readonly before: number | undefined;
	readonly after: number | undefined;
}

export interface Comparison {
	/** What the club, the term and the targets say otherwise; a closed day is one change, there or gone. */
	readonly facts: Readonly<Record<RecordedFacts, readonly FieldChange[]>>;
	readonly things: Readonly<Record<RecordedKind, ThingsCompared>>;
	/** Drills under another id; they are neither added nor removed. */
	readonly renamed: readonly { readonly from: Id; readonly to: Id }[];
	readonly numbers: readonly NumberChange[];
	readonly findings: {
		readonly gone: readonly RecordedFinding[];
		readonly come: readonly RecordedFinding[];
	};
}

/** Fields that hold ids of drills. */
const DRILL_FIELDS = new Set(["drill", "after", "partner"]);

/** Compares two plans by meaning. The order of files and of fields does not matter; that of lists does. */
export function compare(before: PlanRecord, after: PlanRecord): Comparison {
	const renamed = renamedDrills(before.things.drill, after.things.drill);
	const names = new Map(renamed.map(({ from, to }) => [from, to]));
	const compared = RECORDED_KINDS.map((kind) => {
		const old = new Map(
			Object.entries(before.things[kind]).map(([id, thing]) => [
				kind === "drill" ? (names.get(id) ?? id) : id,
				withNames(thing, names),
			]),
		);
		return [kind, thingsCompared(old, new Map(Object.entries(after.things[kind])))] as const;
	});
	return {
		facts: Object.fromEntries(
			FACTS.map((kind) => [kind, factChanges(before.facts?.[kind], after.facts?.[kind])]),
		) as Record<RecordedFacts, readonly FieldChange[]>,
		things: Object.fromEntries(compared) as Record<RecordedKind, ThingsCompared>,
		renamed,
		numbers: numberChanges(before.tables, after.tables),
		findings: {
			gone: without(before.findings, after.findings),
			come: without(after.findings, before.findings),
		},
	};
}

/** Nothing is known of a side whose record was kept before facts were. */
function factChanges(before: Written | undefined, after: Written | undefined): readonly FieldChange[] {
	if (before === undefined || after === undefined) return [];
	const { closed: closedBefore, ...old } = before;
	const { closed: closedAfter, ...now } = after;
	return [...fieldChanges(old, now, ""), ...dayChanges(asList(closedBefore), asList(closedAfter))];
}

/** Closed days by what they are, not by their place in the list. */
function dayChanges(before: readonly unknown[], after: readonly unknown[]): readonly FieldChange[] {
	const only = (days: readonly unknown[], others: readonly unknown[]) => {
		const known = new Set(others.map((day) => JSON.stringify(day)));
		return days.filter((day) => !known.has(JSON.stringify(day)));
	};
	return [
		...only(before, after).map((day) => ({ field: "closed", before: day, after: undefined })),
		...only(after, before).map((day) => ({ field: "closed", before: undefined, after: day })),
	];
}

function asList(value: unknown): readonly unknown[] {
	return Array.isArray(value) ? value : [];
}

/** Drills that are gone and have exactly one new drill of equal content, and are the only one it equals. */
function renamedDrills(
	before: Readonly<Record<Id, Written>>,
	after: Readonly<Record<Id, Written>>,
): readonly { from: Id; to: Id }[] {
	const byContent = (from: Readonly<Record<Id, Written>>, other: Readonly<Record<Id, Written>>) =>
		Map.groupBy(
			Object.keys(from).filter((id) => other[id] === undefined),
			(id) => JSON.stringify(from[id]),
		);
	const come = byContent(after, before);
	return [...byContent(before, after)].flatMap(([content, gone]) => {
		const [from] = gone;
		const [to, ...more] = come.get(content) ?? [];
		return from === undefined || to === undefined || gone.length > 1 || more.length > 0 ? [] : [{ from, to }];
	});
}

/** A thing with drills under their new ids. */
function withNames(thing: Written, names: ReadonlyMap<Id, Id>): unknown {
	const renamed = (value: unknown, field: string): unknown => {
		if (typeof value === "string") return DRILL_FIELDS.has(field) ? (names.get(value) ?? value) : value;
		if (Array.isArray(value)) return value.map((part) => renamed(part, field));
		if (!isRecord(value)) return value;
		return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, renamed(part, key)]));
	};
	return names.size === 0 ? thing : renamed(thing, "");
}

function thingsCompared(
	before: ReadonlyMap<string, unknown>,
	after: ReadonlyMap<string, unknown>,
): ThingsCompared {
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
	const within = (key: string | number): string => (field === "" ? String(key) : `${field}.${key}`);
	if (Array.isArray(before) && Array.isArray(after)) return listChanges(before, after, within);
	if (isRecord(before) && isRecord(after)) {
		const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
		return keys.flatMap((key) => fieldChanges(before[key], after[key], within(key)));
	}
	return JSON.stringify(before) === JSON.stringify(after) ? [] : [{ field, before, after }];
}

/** Items that are equal stay together; what stands between them is changed in order, then added or gone. */
function listChanges(
	before: readonly unknown[],
	after: readonly unknown[],
	within: (key: number) => string,
): readonly FieldChange[] {
	const changes: FieldChange[] = [];
	let [old, now] = [0, 0];
	let gone: unknown[] = [];
	const settle = (come: readonly unknown[]): void => {
		const pairs = Math.max(gone.length, come.length);
		for (let i = 0; i < pairs; i++) {
			if (i >= come.length)
				changes.push({ field: within(old - gone.length + i + 1), before: gone[i], after: undefined });
			else if (i >= gone.length)
				changes.push({ field: within(now + i + 1), before: undefined, after: come[i] });
			else changes.push(...fieldChanges(gone[i], come[i], within(now + i + 1)));
		}
		gone = [];
	};
	const key = (item: unknown) => JSON.stringify(numberless(item));
	for (const part of diffArrays(before.map(key), after.map(key))) {
		const { count } = part;
		if (part.removed) {
			gone = before.slice(old, old + count);
			old += count;
		} else if (part.added) {
			settle(after.slice(now, now + count));
			now += count;
		} else {
			settle([]);
			old += count;
			now += count;
		}
	}
	settle([]);
	return changes;
}

/** A block without its number, which only says where it stands. */
function numberless(item: unknown): unknown {
	if (!isRecord(item)) return item;
	const { number: _number, ...rest } = item;
	return rest;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
	return typeof value === "object" && value !== null && !Array.isArray(value);
}

function numberChanges(
	before: readonly RecordedTable[],
	after: readonly RecordedTable[],
): readonly NumberChange[] {
	return after.filter(isCompared).flatMap((table) => {
		const isKey = table.columns.map((name) => table.keys.includes(name));
		const keyed = (rows: RecordedTable["rows"]) =>
			new Map(rows.map((row) => [JSON.stringify(row.filter((_, i) => isKey[i])), row]));
		const old = keyed(before.find(({ name }) => name === table.name)?.rows ?? []);
		const now = keyed(table.rows);
		return [...new Set([...old.keys(), ...now.keys()])].flatMap((key) => {
			const about = old.get(key) ?? now.get(key) ?? [];
			const row = Object.fromEntries(
				table.columns.flatMap((name, i) => (isKey[i] ? [[name, about[i] ?? null] as const] : [])),
			);
			return table.columns.flatMap((name, i) => {
				if (isKey[i]) return [];
				const [was, is] = [asNumber(old.get(key)?.[i]), asNumber(now.get(key)?.[i])];
				return was === is ? [] : [{ table: table.name, row, column: name, before: was, after: is }];
			});
		});
	});
}

function isCompared({ name }: RecordedTable): boolean {
	return name.startsWith("coverage") || name === "time" || name === "equipment" || name === "load";
}

function asNumber(cell: string | number | null | undefined): number | undefined {
	return typeof cell === "number" ? cell : undefined;
}

/** The findings of one side that the other has not, each as often as it is more. */
function without(
	all: readonly RecordedFinding[],
	taken: readonly RecordedFinding[],
): readonly RecordedFinding[] {
	const key = ({ code, what }: RecordedFinding): string => `${code} ${what}`;
	const left = new Map<string, number>();
	for (const one of taken) left.set(key(one), (left.get(key(one)) ?? 0) + 1);
	return all.filter((one) => {
		const more = left.get(key(one)) ?? 0;
		left.set(key(one), more - 1);
		return more <= 0;
	});
}
