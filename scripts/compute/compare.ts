/**
 * Two plans beside each other: what was added, removed, renamed and changed, and what that did to
 * coverage, time, equipment, load and findings.
 *
 * Steps: things of equal content under another id are paired as renamed; things of the same id are
 * compared field by field, after the renamed ids, items of lists where they fit best; rows of the
 * computed tables are compared by what they are about; findings by their code and what they are about.
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
	/** Levels, apparatus and the like under another id; what names them has not changed by that. */
	readonly renamedOthers: readonly { readonly kind: RecordedKind; readonly from: Id; readonly to: Id }[];
	readonly numbers: readonly NumberChange[];
	/** By what they are about: one that says something else of the same thing is changed, not gone and come. */
	readonly findings: {
		readonly gone: readonly RecordedFinding[];
		readonly come: readonly RecordedFinding[];
		readonly changed: readonly { readonly before: RecordedFinding; readonly after: RecordedFinding }[];
	};
}

/** New ids by the old ones, for each kind of thing. */
type NewIds = ReadonlyMap<RecordedKind, ReadonlyMap<Id, Id>>;

/** What the ids in a field, a column or the keys of a map stand for. */
export const KIND_OF_FIELD: Readonly<Record<string, RecordedKind>> = {
	drill: "drill",
	after: "drill",
	partner: "drill",
	level: "level",
	levels: "level",
	doses: "level",
	heights: "level",
	apparatus: "apparatus",
	rotation: "apparatus",
	skill: "skill",
	skills: "skill",
	performs: "skill",
	needs: "skill",
	opposite: "skill",
	shape: "shape",
	shapes: "shape",
	sequence: "shape",
	item: "equipment",
	equipment: "equipment",
	class: "class",
	sameAs: "class",
};
/** Maps of which the keys are ids. */
const KEYED = new Set(["levels", "doses", "heights"]);
/** Kinds whose entries may get another id; weeks are their numbers, guides are read by their words. */
const RENAMED_KINDS = ["level", "apparatus", "shape", "skill", "equipment", "class"] as const;

/** Compares two plans by meaning. The order of files and of fields does not matter; that of lists does. */
export function compare(before: PlanRecord, after: PlanRecord): Comparison {
	const renamedOthers = RENAMED_KINDS.flatMap((kind) =>
		renamedThings(before.things[kind], after.things[kind]).map((one) => ({ kind, ...one })),
	);
	const others = new Map<RecordedKind, Map<Id, Id>>(
		RENAMED_KINDS.map((kind) => [
			kind,
			new Map(renamedOthers.flatMap((one) => (one.kind === kind ? [[one.from, one.to] as const] : []))),
		]),
	);
	// A drill whose level has another id is the same drill.
	const drillsBefore = Object.fromEntries(
		Object.entries(before.things.drill).map(([id, drill]) => [id, withNames(drill, others) as Written]),
	);
	const renamed = renamedThings(drillsBefore, after.things.drill);
	const names: NewIds = new Map([...others, ["drill", new Map(renamed.map(({ from, to }) => [from, to]))]]);
	const compared = RECORDED_KINDS.map((kind) => {
		const old = new Map(
			Object.entries(before.things[kind]).map(([id, thing]) => [
				names.get(kind)?.get(id) ?? id,
				withNames(thing, names),
			]),
		);
		return [kind, thingsCompared(old, new Map(Object.entries(after.things[kind])))] as const;
	});
	const things = Object.fromEntries(compared) as Record<RecordedKind, ThingsCompared>;
	// That a week is new or gone says by itself that its numbers are.
	const whole = new Set([...things.week.added, ...things.week.removed]);
	return {
		facts: Object.fromEntries(
			FACTS.map((kind) => [kind, factChanges(before.facts?.[kind], after.facts?.[kind])]),
		) as Record<RecordedFacts, readonly FieldChange[]>,
		things,
		renamed,
		renamedOthers,
		numbers: numberChanges(before.tables, after.tables, names).filter(
			({ row }) => !whole.has(String(row.week)),
		),
		findings: findingChanges(before, after, names),
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

/** Things that are gone and have exactly one new one of equal content, and are the only one it equals. */
function renamedThings(
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

/** A thing with what it names under the new ids. */
function withNames(thing: Written, names: NewIds): unknown {
	const idOf = (id: string, field: string): string =>
		names.get(KIND_OF_FIELD[field] ?? "week")?.get(id) ?? id;
	const renamed = (value: unknown, field: string): unknown => {
		if (typeof value === "string") return idOf(value, field);
		if (Array.isArray(value)) return value.map((part) => renamed(part, field));
		if (!isRecord(value)) return value;
		const entries = Object.entries(value).map(([key, part]): [string, unknown] =>
			KEYED.has(field) ? [idOf(key, field), renamed(part, "")] : [key, renamed(part, key)],
		);
		return Object.fromEntries(KEYED.has(field) ? entries.sort(([x], [y]) => (x < y ? -1 : 1)) : entries);
	};
	return [...names.values()].every(({ size }) => size === 0) ? thing : renamed(thing, "");
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
	names: NewIds,
): readonly NumberChange[] {
	return after.filter(isCompared).flatMap((table) => {
		const isKey = table.columns.map((name) => table.keys.includes(name));
		const keyed = (rows: RecordedTable["rows"]) =>
			new Map(rows.map((row) => [JSON.stringify(row.filter((_, i) => isKey[i])), row]));
		const renamed = (cell: string | number | null, column: string) =>
			typeof cell === "string" ? newId(cell, column, names) : cell;
		const rowsBefore = before.find(({ name }) => name === table.name)?.rows ?? [];
		const old = keyed(
			rowsBefore.map((row) =>
				row.map((cell, i) => (isKey[i] ? renamed(cell, table.columns[i] ?? "") : cell)),
			),
		);
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

/** The id that a thing named in a column has now; a group is named class/group. */
function newId(id: string, column: string, names: NewIds): string {
	if (column !== "group") return names.get(KIND_OF_FIELD[column] ?? "week")?.get(id) ?? id;
	const [group = "", ...part] = id.split("/");
	return [names.get("class")?.get(group) ?? group, ...part].join("/");
}

/**
 * Findings by their code and what they are about, each as often as it is there. A name that has changed is
 * no change of what is found.
 */
function findingChanges(before: PlanRecord, after: PlanRecord, names: NewIds): Comparison["findings"] {
	const wordsNow = namesNow(before, after, names);
	const old = before.findings.map((finding) => ({
		finding,
		key: identityOf(finding, names),
		what: wordsNow(finding.what),
	}));
	const left = Map.groupBy(old, ({ key }) => key);
	const open: RecordedFinding[] = [];
	// What says the same is paired first; what is left of the same identity has changed.
	for (const finding of after.findings) {
		const alike = left.get(identityOf(finding)) ?? [];
		const same = alike.findIndex(({ what }) => what === finding.what);
		if (same >= 0) alike.splice(same, 1);
		else open.push(finding);
	}
	const changed: { readonly before: RecordedFinding; readonly after: RecordedFinding }[] = [];
	const come = open.filter((finding) => {
		const [first] = left.get(identityOf(finding))?.splice(0, 1) ?? [];
		if (first !== undefined) changed.push({ before: first.finding, after: finding });
		return first === undefined;
	});
	const taken = new Set([...left.values()].flat().map(({ finding }) => finding));
	return { gone: before.findings.filter((finding) => taken.has(finding)), come, changed };
}

function identityOf({ code, about }: RecordedFinding, names: NewIds = new Map()): string {
	const parts = Object.entries(about)
		.map(([name, id]) => `${name} ${typeof id === "string" ? newId(id, name, names) : id}`)
		.sort();
	return [code, ...parts].join(", ");
}

/** Words with the names of things as they are now. */
function namesNow(before: PlanRecord, after: PlanRecord, names: NewIds): (text: string) => string {
	const pairs = RECORDED_KINDS.flatMap((kind) =>
		kind === "week"
			? []
			: Object.entries(before.names[kind]).flatMap(([id, name]) => {
					const now = after.names[kind][names.get(kind)?.get(id) ?? id];
					return now === undefined || now === name || name === "" ? [] : [[name, now] as const];
				}),
	).sort(([a], [b]) => b.length - a.length);
	return (text) => pairs.reduce((words, [name, now]) => words.replaceAll(name, now), text);
}
