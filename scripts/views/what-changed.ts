/**
 * What changed since an earlier edition, for coaches: first when and where there is a class and what to
 * do in an emergency; then weeks and drills, in the words of the plan; then what that did to minutes, equipment, load and findings.
 */

import { classesWithin } from "../compute/calendar.ts";
import { compare, type FieldChange, type NumberChange, type ThingsCompared } from "../compute/compare.ts";
import { type PlanRecord, type RecordedFinding, recordOf, type Written } from "../compute/plan-record.ts";
import type { Block, Id, RecordedKind, Term } from "../model.ts";
import { editionNameOf, type Words } from "../words/words.ts";
import { addressOf } from "./addresses.ts";
import type { Label } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export interface WhatChangedView {
	readonly since: { readonly edition: string | undefined; readonly term: string };
	readonly nothing: boolean;
	/** What the club says of itself, the emergency words first. */
	readonly club: readonly ChangeLine[];
	/** Weeks, start and closed days. */
	readonly term: readonly ChangeLine[];
	readonly classes: ChangedThings;
	readonly drills: ChangedThings & {
		readonly renamed: readonly { readonly from: string; readonly to: Label }[];
	};
	readonly weeks: ChangedThings;
	/** Levels, apparatus, shapes, skills, equipment and guides that differ, by kind. */
	readonly others: readonly { readonly kind: RecordedKind; readonly names: readonly string[] }[];
	readonly findings: {
		readonly gone: readonly RecordedFinding[];
		readonly come: readonly RecordedFinding[];
	};
	readonly numbers: readonly NumberLine[];
	/** Numbers beyond those listed. */
	readonly more: number;
}

export interface ChangedThings {
	readonly added: readonly Label[];
	readonly removed: readonly string[];
	readonly changed: readonly { readonly link: Label; readonly lines: readonly ChangeLine[] }[];
}

/** One difference: what it is about, and what stood there before and stands there now. */
export interface ChangeLine {
	readonly about: string;
	readonly before: string | undefined;
	readonly after: string | undefined;
}

export interface NumberLine {
	readonly table: string;
	readonly about: string;
	readonly column: string;
	readonly before: string;
	readonly after: string;
}

/** Numbers listed, the largest steps first. */
const MOST_NUMBERS = 40;
/** Letters of a text that is shown as it was and as it is. */
const MOST_LETTERS = 160;

const OTHER_KINDS = ["level", "apparatus", "shape", "skill", "equipment", "guide"] as const;

/** The page that says what changed since `before`. */
export function whatChangedView(site: SiteIndex, before: PlanRecord): WhatChangedView {
	const { handbook, words } = site;
	const after = recordOf(handbook, handbook.edition);
	const { facts, things, renamed, numbers, findings } = compare(before, after);
	const nameOf = (kind: RecordedKind, id: Id): string =>
		after.names[kind][id] ?? before.names[kind][id] ?? id;
	const telling = { words, nameOf, plain: (text: string) => handbook.markdown.plain(text) };
	const weekName = (number: Id): string => `${words.week(number)}: ${nameOf("week", number)}`;
	const drillLink = (id: Id): Label => ({ to: addressOf({ kind: "drill", id }), name: nameOf("drill", id) });
	const classLink = (id: Id): Label => ({ to: `classes/${id}/`, name: nameOf("class", id) });
	const weekLabel = (number: Id): Label => {
		const plan = site.weekByNumber.get(Number(number));
		return { name: weekName(number), ...(plan && { to: addressOf({ kind: "week", id: plan.id }) }) };
	};
	const others = OTHER_KINDS.map((kind) => ({
		kind,
		names: changedNames(things[kind], (id) => nameOf(kind, id)),
	}));
	const largest = [...numbers].sort((a, b) => stepOf(b) - stepOf(a));
	return {
		since: {
			edition:
				typeof before.edition === "string" ? undefined : editionNameOf({ edition: before.edition, words }),
			term: before.term,
		},
		nothing:
			facts.club.length + facts.term.length === 0 &&
			[things.class, things.drill, things.week].every(isSame) &&
			renamed.length === 0 &&
			others.every(({ names }) => names.length === 0),
		club: factLines(telling, before.facts?.club, after.facts?.club, facts.club, words.whatChanged.clubFields),
		term: [
			...factLines(
				telling,
				before.facts?.term,
				after.facts?.term,
				facts.term.filter(({ field }) => field !== "closed"),
				words.whatChanged.termFields,
			),
			...facts.term.flatMap((change) => (change.field === "closed" ? [closedLine(site, change)] : [])),
		],
		classes: {
			added: things.class.added.map(classLink),
			removed: things.class.removed.map((id) => before.names.class[id] ?? id),
			changed: things.class.changed.map(({ id, fields }) => ({
				link: classLink(id),
				lines: factLines(
					telling,
					before.things.class[id],
					after.things.class[id],
					fields,
					words.whatChanged.classFields,
				),
			})),
		},
		drills: {
			...thingsOf(
				things.drill,
				drillLink,
				(id) => before.names.drill[id] ?? id,
				(change) => lineOf(telling, change, words.whatChanged.drillFields),
			),
			renamed: renamed.map(({ from, to }) => ({ from: before.names.drill[from] ?? from, to: drillLink(to) })),
		},
		weeks: thingsOf(things.week, weekLabel, weekName, (change, number) =>
			planLine(telling, change, planAt(before, after, number)),
		),
		others: others.filter(({ names }) => names.length > 0),
		findings,
		numbers: largest.slice(0, MOST_NUMBERS).map((one) => numberLine(words, one, nameOf)),
		more: Math.max(0, numbers.length - MOST_NUMBERS),
	};
}

type NameOf = (kind: RecordedKind, id: Id) => string;

/** What changes are told with. */
interface Telling {
	readonly words: Words;
	readonly nameOf: NameOf;
	/** Markdown as plain words. */
	readonly plain: (text: string) => string;
}

function thingsOf(
	{ added, removed, changed }: ThingsCompared,
	linkOf: (id: Id) => Label,
	nameBefore: (id: Id) => string,
	line: (change: FieldChange, id: Id) => ChangeLine,
): ChangedThings {
	return {
		added: added.map(linkOf),
		removed: removed.map(nameBefore),
		changed: changed.map(({ id, fields }) => ({
			link: linkOf(id),
			lines: fields.map((change) => line(change, id)),
		})),
	};
}

/** Each changed field as a whole, in the order of its names: a list of which one item changed is told as a list. */
function factLines(
	telling: Telling,
	before: Written | undefined,
	after: Written | undefined,
	changes: readonly FieldChange[],
	names: Readonly<Record<string, string>>,
): readonly ChangeLine[] {
	const order = Object.keys(names);
	const changed = new Set(changes.map(({ field }) => field.split(".")[0] ?? ""));
	const fields = [
		...order.filter((field) => changed.has(field)),
		...[...changed].filter((field) => !order.includes(field)),
	];
	return fields.map((field) => ({
		about: names[field] ?? field,
		...sidesOf(telling, { field, before: before?.[field], after: after?.[field] }),
	}));
}

/** A closed day with the classes that fall out, or are held again. */
function closedLine({ handbook, words }: SiteIndex, { before, after }: FieldChange): ChangeLine {
	const side = (days: unknown): string | undefined => {
		if (days === undefined) return undefined;
		const { from, to } = days as Term["closed"][number];
		const date =
			from === to ? words.date(from, "full") : words.fromTo(words.date(from, "full"), words.date(to, "full"));
		const classes = classesWithin(handbook.curriculum.term, { from, to }).map(({ name }) => name);
		return classes.length === 0 ? date : `${date} (${words.and(classes)})`;
	};
	return { about: words.whatChanged.termFields.closed ?? "", before: side(before), after: side(after) };
}

/** The apparatus of a week's plan, before and now, by their places in it. */
function planAt(before: PlanRecord, after: PlanRecord, number: Id) {
	const idsOf = (record: PlanRecord): readonly Id[] => {
		const plans = record.things.week[number]?.apparatus;
		return Array.isArray(plans) ? plans.map((plan: { apparatus: Id }) => plan.apparatus) : [];
	};
	return { before: idsOf(before), after: idsOf(after) };
}

/** A change of a week: where its field stands on an apparatus, that is named first. */
function planLine(
	telling: Telling,
	change: FieldChange,
	plan: { readonly before: readonly Id[]; readonly after: readonly Id[] },
): ChangeLine {
	const { words, nameOf } = telling;
	const [first, place, ...rest] = change.field.split(".");
	if (first !== "apparatus" || place === undefined) {
		return lineOf(telling, change, words.whatChanged.weekFields);
	}
	const ids = change.after === undefined && rest.length === 0 ? plan.before : plan.after;
	const name = nameOf("apparatus", ids[Number(place) - 1] ?? "");
	const [part, block, field] = rest;
	const about =
		part === undefined
			? name
			: part === "blocks" && block !== undefined
				? `${words.blockAt(name, Number(block))}${field === undefined ? "" : `, ${words.whatChanged.blockFields[field] ?? field}`}`
				: `${name}, ${words.whatChanged.weekFields[part] ?? part}`;
	return { about, ...sidesOf(telling, change) };
}

function lineOf(telling: Telling, change: FieldChange, names: Readonly<Record<string, string>>): ChangeLine {
	const [top = ""] = change.field.split(".");
	return { about: names[top] ?? top, ...sidesOf(telling, change) };
}

function sidesOf(telling: Telling, { field, before, after }: FieldChange) {
	const last = field.split(".").findLast((name) => !/^\d+$/.test(name)) ?? "";
	const side = (value: unknown) => (value === undefined ? undefined : shown(telling, value, last));
	return { before: side(before), after: side(after) };
}

/** Fields that hold a club's own words; what else is text is an id or a term. */
const TEXTS = new Set(
	"title summary aliases cues see say do note theme focus body spotting caution alt caption name description file reviewed emergency contact easier harder text landmark".split(
		" ",
	),
);
/** What a block says of itself that its drills and minutes say already. */
const UNSAID = new Set(["number", "kind", "file"]);

/** A value in a few words: a text cut short, a block by its drills and minutes, a thing by its name. */
function shown(telling: Telling, value: unknown, field: string): string {
	const { words, nameOf, plain } = telling;
	if (typeof value === "number") return words.number(value, 2);
	if (typeof value === "string") {
		if (!TEXTS.has(field)) return termOf(telling, value, field);
		const text = plain(value).replace(/\s+/g, " ").trim();
		// Nobody may have to guess at the end of what to do in an emergency.
		return field !== "emergency" && text.length > MOST_LETTERS ? `${text.slice(0, MOST_LETTERS - 1)}…` : text;
	}
	if (Array.isArray(value)) return value.map((item) => shown(telling, item, field)).join(", ");
	if (typeof value !== "object" || value === null) return value === true ? "✓" : "–";
	const fields = value as Readonly<Record<string, unknown>>;
	if (Array.isArray(fields.stations) && typeof fields.minutes === "number") {
		const drills = fields.stations.map(({ drill }: { drill: Id }) => nameOf("drill", drill));
		return `${words.and(drills)} (${words.min(fields.minutes)})`;
	}
	return Object.entries(fields)
		.filter(([name]) => !UNSAID.has(name))
		.map(([name, part]) => {
			const text = shown(telling, part, name);
			// Doses by level stand under the level's name.
			return field === "levels" || field === "doses" ? `${nameOf("level", name)}: ${text}` : text;
		})
		.filter((text) => text !== "")
		.join(", ");
}

/** An id by the name of what has it, a term of the format in the handbook's words. */
function termOf({ words, nameOf }: Telling, value: string, field: string): string {
	if (field === "day") return words.days[value as keyof Words["days"]] ?? value;
	if (field === "starts") return words.date(value, "full");
	if (field === "direction") return words.directions[value as keyof Words["directions"]] ?? value;
	if (field === "kind") return words.whatChanged.blockKinds[value as Block["kind"]] ?? value;
	if (field === "sides") return words.sides[value as keyof Words["sides"]] ?? value;
	const kind = KIND_OF_FIELD[field];
	return kind === undefined ? value : nameOf(kind, value);
}

const KIND_OF_FIELD: Readonly<Record<string, RecordedKind>> = {
	apparatus: "apparatus",
	levels: "level",
	rotation: "apparatus",
	shapes: "shape",
	sequence: "shape",
	shape: "shape",
	skills: "skill",
	skill: "skill",
	performs: "skill",
	sameAs: "class",
	after: "drill",
	partner: "drill",
	drill: "drill",
	equipment: "equipment",
	item: "equipment",
};

function changedNames(
	{ added, removed, changed }: ThingsCompared,
	nameOf: (id: Id) => string,
): readonly string[] {
	return [...added, ...changed.map(({ id }) => id), ...removed].map(nameOf);
}

function isSame({ added, removed, changed }: ThingsCompared): boolean {
	return added.length + removed.length + changed.length === 0;
}

function stepOf({ before = 0, after = 0 }: NumberChange): number {
	return Math.abs(after - before);
}

function numberLine(
	words: Words,
	{ table, row, column, before, after }: NumberChange,
	nameOf: NameOf,
): NumberLine {
	const say = words.whatChanged;
	const about = Object.entries(row).map(([name, cell]) => {
		if (name === "week") return words.week(String(cell));
		if (name === "direction") return words.directions[cell as keyof Words["directions"]] ?? String(cell);
		if (name === "group") {
			const [one = "", part] = String(cell).split("/");
			return part === undefined ? nameOf("class", one) : words.groupOf(nameOf("class", one), part);
		}
		return nameOf(name === "item" ? "equipment" : (name as RecordedKind), String(cell));
	});
	const share = column === "active-share";
	const number = (value: number | undefined) =>
		value === undefined ? "–" : share ? words.percent(value) : words.number(value, 2);
	return {
		table: say.tables[table] ?? table,
		about: about.join(", "),
		column: say.columns[column] ?? column,
		before: number(before),
		after: number(after),
	};
}
