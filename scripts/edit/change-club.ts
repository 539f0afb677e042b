/**
 * A change list written into all of a club's files. Beside the changes of blocks (change-texts.ts):
 *   - replace: {drill: kick, with: kick-wall, weeks: 4-6}        in the plans; weeks left out = in all
 *   - merge: {drill: kick-2, into: kick}                         whatever names the first names the second; its file goes
 *   - insert-week: {at: 3, theme: Landings, like: 2}             later weeks move on; like: left out = an empty plan
 *   - close: 2027-02-15/2027-02-19                               days on which nobody has a class
 *   - cancel: {class: mon, on: 2027-01-11}                       one class on one day
 *   - change: {thing: level:level-1, name: Ducklings}            fields of a thing; null takes one out
 *   - rename: {thing: drill:kick, to: kick-wall}                 another id, everywhere
 *   - set: {block: 5/beam/1, note: Slowly}                       any field of a block; null takes one out
 * Changes are made in order, each on what those before it left.
 */

import { ID_KINDS, type IdKind } from "../link/reference-fields.ts";
import { type DataKind, type DataPath, type Id, LIST_FILES, type PlanChange } from "../model.ts";
import { type Data, isData } from "../read/data.ts";
import { explainYaml } from "../read/explain-yaml.ts";
import { nearestName } from "../read/nearest-name.ts";
import { parseYaml } from "../read/parse-yaml.ts";
import { changeTexts } from "./change-texts.ts";
import { type ClubTexts, idOf, kindOf, type Splice, spliced } from "./club-texts.ts";
import { EditRefused, readPlace, weekPath } from "./move-block.ts";
import { moveWeek } from "./move-week.ts";
import { idPlaces, knownIds, linkWords } from "./references.ts";
import { renameIds } from "./rename-ids.ts";
import { dataIn, writeData } from "./write-data.ts";

/** Changes of blocks: how each is written, and whether it is. */
const PLAN_CHANGES: Readonly<Record<string, readonly [example: string, fits: (what: unknown) => boolean]>> = {
	add: [
		"{week: 3, apparatus: beam, block: {drill: kick, minutes: 10}}",
		(what) => isData(what) && typeof what.apparatus === "string" && isData(what.block),
	],
	remove: ["3/beam/2", (what) => typeof what === "string"],
	move: ["{from: 3/beam/2, to: 3/beam/1}", (what) => hasTexts(what, ["from", "to"])],
	swap: ["{block: 3/beam/2, drill: kick}", (what) => hasTexts(what, ["block", "drill"])],
	exchange: ["[3/beam/2, 4/beam/1]", (what) => Array.isArray(what) && what.length === 2],
	split: [
		"{block: 3/beam/2, after: 1, minutes: [6, 6]}",
		(what) =>
			hasTexts(what, ["block"]) &&
			typeof what.after === "number" &&
			Array.isArray(what.minutes) &&
			what.minutes.length === 2,
	],
};
const CLUB_CHANGES: Readonly<Record<string, (texts: ClubTexts, what: unknown) => ClubTexts>> = {
	replace,
	merge,
	"insert-week": insertWeek,
	close,
	cancel,
	change,
	rename,
	set: setBlock,
};

/** The changes of a list, as they are written. Throws `EditRefused` naming those that are none, from 1. */
export function changesIn(list: string): readonly Data[] {
	const changes = itemsOf(list);
	refuse(changes.flatMap((one, i) => faultOf(one, i) ?? []));
	return changes as readonly Data[];
}

function itemsOf(list: string): readonly unknown[] {
	const text = list.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n");
	const parsed = parseYaml(text);
	if (!parsed.ok) {
		refuse(
			explainYaml(text).map(({ line, column, what, fix = "" }) =>
				`Line ${line}, column ${column}: ${what} ${fix}`.trimEnd(),
			),
		);
	} else if (Array.isArray(parsed.data)) return parsed.data as readonly unknown[];
	throw new EditRefused(
		"The change list is not a YAML list. Each change is a line like `- close: 2027-02-15`.",
	);
}

function refuse(faults: readonly string[], rest?: ClubTexts): void {
	if (faults.length > 0) throw new EditRefused(faults.join("\n"), rest);
}

/** What is wrong with a change as it is written; undefined where nothing is. */
function faultOf(change: unknown, index: number): string | undefined {
	const all = [...Object.keys(PLAN_CHANGES), ...Object.keys(CLUB_CHANGES)];
	const [name, ...more] = isData(change) ? Object.keys(change) : [];
	const at = `Change ${index + 1}:`;
	if (name === undefined || more.length > 0) return `${at} a change has one of the names ${all.join(", ")}.`;
	if (!all.includes(name)) {
		const nearest = nearestName(name, all);
		return `${at} \`${name}\` is none of ${all.join(", ")}.${nearest === undefined ? "" : ` Did you mean \`${nearest}\`?`}`;
	}
	const [example, fits] = PLAN_CHANGES[name] ?? [];
	if (fits === undefined || fits((change as Data)[name])) return undefined;
	return `${at} \`${name}\` is written as in \`- ${name}: ${example}\`.`;
}

/** Whether a change is of more than the blocks of the plan. */
export function isClubChange(change: Data): boolean {
	return Object.keys(change).some((name) => PLAN_CHANGES[name] === undefined);
}

/**
 * The texts with all changes made, one after the other. Throws `EditRefused` naming each change that cannot
 * be, from 1, with the texts that the others make.
 */
export function changeClub(texts: ClubTexts, list: string): ClubTexts {
	const faults: string[] = [];
	const after = itemsOf(list).reduce<ClubTexts>((before, one, i) => {
		const fault = faultOf(one, i);
		try {
			if (fault === undefined) return changed(before, one as Data);
			faults.push(fault);
		} catch (error) {
			if (!(error instanceof EditRefused)) throw error;
			faults.push(`Change ${i + 1}: ${error.message}`);
		}
		return before;
	}, texts);
	if (faults.length > 1) faults.push("Each was tried without those above: one may follow from another.");
	refuse(faults, after);
	return after;
}

function changed(texts: ClubTexts, change: Data): ClubTexts {
	const [name = ""] = Object.keys(change);
	const own = CLUB_CHANGES[name];
	return own === undefined ? changeTexts(texts, [change as unknown as PlanChange]) : own(texts, change[name]);
}

function replace(texts: ClubTexts, what: unknown): ClubTexts {
	const { drill, with: other, weeks } = fieldsOf("replace", what, ["drill", "with", "weeks"]);
	const known = knownIds(texts);
	const [from, to] = drillIds(texts, drill, other);
	const wanted = weeks === undefined ? undefined : weeksIn(weeks);
	let count = 0;
	const changed = new Map(texts);
	for (const [path, text] of texts) {
		if (kindOf(path) !== "week" || (wanted !== undefined && !wanted.has(numberOf(path, text)))) continue;
		const places = idPlaces(path, text, known).filter(
			(place) => place.kind === "drill" && place.id === from && !place.isLink,
		);
		count += places.length;
		changed.set(
			path,
			spliced(
				text,
				places.map(({ start, end }): Splice => ({ start, end, text: to })),
			),
		);
	}
	if (count === 0) {
		throw new EditRefused(`\`${from}\` is planned nowhere${wanted === undefined ? "" : " in these weeks"}.`);
	}
	return changed;
}

function merge(texts: ClubTexts, what: unknown): ClubTexts {
	const { drill, into } = fieldsOf("merge", what, ["drill", "into"]);
	const [from, to] = drillIds(texts, drill, into);
	if (from === to) throw new EditRefused("`merge` takes two drills.");
	const known = knownIds(texts);
	const changed = new Map<string, string>();
	for (const [path, text] of texts) {
		if (kindOf(path) === "drill" && idOf(path) === from) continue;
		const places = idPlaces(path, text, known).filter(({ kind, id }) => kind === "drill" && id === from);
		changed.set(
			path,
			spliced(
				text,
				places.map(
					({ start, end, isLink }): Splice => ({
						start,
						end,
						text: isLink ? linkWords("drill", to, known) : to,
					}),
				),
			),
		);
	}
	return changed;
}

function insertWeek(texts: ClubTexts, what: unknown): ClubTexts {
	const { at, theme, like } = fieldsOf("insert-week", what, ["at", "theme", "like"]);
	if (typeof at !== "number" || !Number.isInteger(at) || at < 1 || typeof theme !== "string") {
		throw new EditRefused(
			"`insert-week` needs the number it will have, and a theme, as in `{at: 3, theme: Landings}`.",
		);
	}
	const source = like === undefined ? undefined : texts.get(weekPath(texts, Number(like)));
	const weeks = [...texts].flatMap(([path, text]) => (kindOf(path) === "week" ? [numberOf(path, text)] : []));
	const later = weeks.filter((week) => week >= at).sort((a, b) => b - a);
	let moved: ClubTexts = texts;
	for (const week of later) moved = moveWeek(moved, week, week + 1, false);
	const path = `content/weeks/week-${String(at).padStart(2, "0")}.md`;
	if (moved.has(path)) throw new EditRefused(`${path} is there already, with another week in it.`);
	const empty = `---\nweek: ${at}\ntheme: ${JSON.stringify(theme)}\napparatus: {}\n---\n`;
	const text =
		source === undefined
			? empty
			: edited(path, source, [
					{ path: ["week"], value: at },
					{ path: ["theme"], value: theme },
				]);
	const term = termPath(moved);
	const count = Number(dataOf(term, moved).weeks);
	return new Map(moved)
		.set(path, text)
		.set(term, edited(term, moved.get(term) ?? "", [{ path: ["weeks"], value: count + 1 }]));
}

function close(texts: ClubTexts, what: unknown): ClubTexts {
	return withDay(texts, [], dayOf(what));
}

function cancel(texts: ClubTexts, what: unknown): ClubTexts {
	const { class: group, on } = fieldsOf("cancel", what, ["class", "on"]);
	const term = termPath(texts);
	return withDay(texts, ["classes", entryAt(dataOf(term, texts).classes, "class", String(group))], dayOf(on));
}

/** One more closed day, of the term or of a class, in the order of days. */
function withDay(texts: ClubTexts, at: DataPath, day: string): ClubTexts {
	const term = termPath(texts);
	const owner = at.reduce<unknown>(
		(data, step) => (data as Record<string | number, unknown>)[step],
		dataOf(term, texts),
	);
	const days = ((owner as Data).closed ?? []) as readonly string[];
	if (days.includes(day)) throw new EditRefused(`${day} is closed already.`);
	const value = [...days, day].sort();
	return new Map(texts).set(term, edited(term, texts.get(term) ?? "", [{ path: [...at, "closed"], value }]));
}

function change(texts: ClubTexts, what: unknown): ClubTexts {
	if (!isData(what) || typeof what.thing !== "string") {
		throw new EditRefused(
			"`change` takes a thing and its fields, as in `{thing: level:level-1, name: Ducklings}`.",
		);
	}
	const { thing, ...fields } = what;
	const { path, at } = placeOfThing(texts, String(thing));
	const edits = Object.entries(fields).flatMap(([name, value]): readonly FieldEdit[] =>
		value === null ? [{ path: [...at, name] }] : [{ path: [...at, name], value }],
	);
	return new Map(texts).set(path, edited(path, texts.get(path) ?? "", edits));
}

const LISTS: Readonly<Record<string, DataKind>> = LIST_FILES;

/** Where a thing is written: drill:kick, week:3, level:level-1, class:mon, or term, club, targets alone. */
function placeOfThing(texts: ClubTexts, thing: string): { readonly path: string; readonly at: DataPath } {
	const [kind = "", id] = thing.split(":");
	if (id === undefined && ["term", "club", "targets"].includes(kind))
		return { path: dataPath(texts, kind), at: [] };
	if (kind === "week") return { path: weekPath(texts, Number(id)), at: [] };
	if (kind === "drill" || kind === "guide") {
		const path = [...texts.keys()].find((one) => kindOf(one) === kind && idOf(one) === id);
		if (path === undefined) throw noThing(kind, String(id), knownIds(texts).get(kind) ?? new Set());
		return { path, at: [] };
	}
	if (kind === "class") {
		const path = termPath(texts);
		return { path, at: ["classes", entryAt(dataOf(path, texts).classes, kind, String(id))] };
	}
	const list = LISTS[kind];
	if (list === undefined) {
		throw new EditRefused(
			`\`${thing}\` names nothing: write drill:, guide:, week:, class:, ${Object.keys(LISTS).join(":, ")}: and an id, or term, club or targets.`,
		);
	}
	const path = dataPath(texts, list);
	return { path, at: [entryAt(dataOf(path, texts), kind, String(id))] };
}

function rename(texts: ClubTexts, what: unknown): ClubTexts {
	const { thing, to } = fieldsOf("rename", what, ["thing", "to"]);
	const [kind = "", id = ""] = String(thing).split(":");
	if (!(ID_KINDS as readonly string[]).includes(kind)) {
		throw new EditRefused(`\`${String(thing)}\`: write the kind before the id, as in drill:log-roll.`);
	}
	const known = knownIds(texts).get(kind as IdKind) ?? new Set<Id>();
	if (!known.has(id)) throw noThing(kind, id, known);
	if (known.has(String(to))) throw new EditRefused(`There is a ${kind} \`${String(to)}\` already.`);
	return renameIds(texts, [{ kind: kind as IdKind, from: id, to: String(to) }]);
}

function setBlock(texts: ClubTexts, what: unknown): ClubTexts {
	if (!isData(what)) throw new EditRefused("`set` takes a block and its fields.");
	const { block, ...fields } = what;
	const { week, apparatus, block: number } = readPlace(String(block));
	const path = weekPath(texts, week);
	const plan = (dataOf(path, texts).apparatus as Data | undefined)?.[apparatus] as Data | undefined;
	const blocks = (plan?.blocks ?? []) as readonly unknown[];
	if (number > blocks.length) {
		throw new EditRefused(`There is no block ${String(block)}; ${apparatus} has ${blocks.length} that week.`);
	}
	const edits = Object.entries(fields).map(
		([name, value]): FieldEdit => ({
			path: ["apparatus", apparatus, "blocks", number - 1, name],
			...(value === null ? {} : { value }),
		}),
	);
	return new Map(texts).set(path, edited(path, texts.get(path) ?? "", edits));
}

/** A field at a path; without a value it is taken out. */
interface FieldEdit {
	readonly path: DataPath;
	readonly value?: unknown;
}

function edited(path: string, text: string, edits: readonly FieldEdit[]): string {
	const data = structuredClone(dataIn(path, text));
	for (const edit of edits) put(data as Record<string, unknown>, edit.path, edit.value);
	return writeData(path, text, data);
}

function put(data: Record<string, unknown>, [step = "", ...rest]: DataPath, value: unknown): void {
	if (rest.length > 0) {
		data[step] ??= {};
		put(data[step] as Record<string, unknown>, rest, value);
	} else if (value === undefined) delete data[step];
	else data[step] = value;
}

function hasTexts(what: unknown, names: readonly string[]): what is Data {
	return isData(what) && names.every((name) => typeof what[name] === "string");
}

function fieldsOf(name: string, what: unknown, names: readonly string[]): Data {
	if (!isData(what)) throw new EditRefused(`\`${name}\` takes fields in braces: ${names.join(", ")}.`);
	const others = Object.keys(what).filter((field) => !names.includes(field));
	if (others.length === 0) return what;
	throw new EditRefused(`\`${others.join("`, `")}\`: \`${name}\` takes ${names.join(", ")}.`);
}

function drillIds(texts: ClubTexts, ...said: readonly [unknown, unknown]): readonly [Id, Id] {
	const known = knownIds(texts).get("drill") ?? new Set<Id>();
	const [one, other] = said.map((id) => String(id ?? "")) as [Id, Id];
	const unknown = [one, other].filter((id) => !known.has(id));
	if (unknown.length === 0) return [one, other];
	throw new EditRefused(unknown.map((id) => noThing("drill", id, known).message).join(" "));
}

function noThing(kind: string, id: string, known: Iterable<string>): EditRefused {
	const nearest = nearestName(id, known);
	return new EditRefused(
		`There is no ${kind} \`${id}\`.${nearest === undefined ? "" : ` Did you mean \`${nearest}\`?`}`,
	);
}

/** Weeks as 4, [4, 6] or 4-6. */
function weeksIn(said: unknown): ReadonlySet<number> {
	const parts = Array.isArray(said) ? said : [said];
	return new Set(
		parts.flatMap((part) => {
			const [, first, last] = /^(\d+)(?:\s*[-–]\s*(\d+))?$/.exec(String(part)) ?? [];
			if (first === undefined)
				throw new EditRefused(`\`${String(part)}\` is no week: write 4, [4, 6] or 4-6.`);
			const [from, to] = [Number(first), Number(last ?? first)];
			return Array.from({ length: Math.max(0, Math.min(60, to) - from + 1) }, (_, i) => from + i);
		}),
	);
}

function dayOf(said: unknown): string {
	const text = String(said ?? "");
	if (/^\d{4}-\d\d-\d\d(\/\d{4}-\d\d-\d\d)?$/.test(text)) return text;
	throw new EditRefused(`\`${text}\` is no day: write 2027-02-15, or 2027-02-15/2027-02-19.`);
}

function entryAt(list: unknown, kind: string, id: string): number {
	const entries = Array.isArray(list) ? (list as readonly Data[]) : [];
	const at = entries.findIndex((entry) => String(entry.id) === id);
	if (at >= 0) return at;
	throw noThing(
		kind,
		id,
		entries.map((entry) => String(entry.id)),
	);
}

function numberOf(path: string, text: string): number {
	return Number((dataIn(path, text) as Data).week);
}

function termPath(texts: ClubTexts): string {
	return dataPath(texts, "term");
}

function dataPath(texts: ClubTexts, name: string): string {
	const path = [`_data/${name}.yaml`, `_data/${name}.yml`].find((one) => texts.has(one));
	if (path === undefined) throw new EditRefused(`The club has no _data/${name}.yaml.`);
	return path;
}

function dataOf(path: string, texts: ClubTexts): Data {
	return (dataIn(path, texts.get(path) ?? "") ?? {}) as Data;
}
