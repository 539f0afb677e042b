/**
 * One change of a plan in words, for a page and for the terminal: what it is about, and what stood there
 * before and stands there now, in the handbook's words and by the names of things.
 */

import { type FieldChange, KIND_OF_FIELD } from "../compute/compare.ts";
import type { PlanRecord, Written } from "../compute/plan-record.ts";
import type { Block, Id, RecordedKind, Term } from "../model.ts";
import type { Words } from "../words/words.ts";

/** One difference: what it is about, and what stood there before and stands there now. */
export interface ChangeLine {
	readonly about: string;
	readonly before: string | undefined;
	readonly after: string | undefined;
}

export type NameOf = (kind: RecordedKind, id: Id) => string;

/** Letters of a text that is shown as it was and as it is. */
const MOST_LETTERS = 160;

/** What changes are told with. */
export interface Telling {
	readonly words: Words;
	readonly nameOf: NameOf;
	/** Markdown as plain words. */
	readonly plain: (text: string) => string;
}

/** Each changed field as a whole, in the order of its names: a list of which one item changed is told as a list. */
export function factLines(
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
export function closedLine(
	{ words }: Telling,
	{ before, after }: FieldChange,
	classesOf: (days: Term["closed"][number]) => readonly string[],
): ChangeLine {
	const side = (days: unknown): string | undefined => {
		if (days === undefined) return undefined;
		const { from, to } = days as Term["closed"][number];
		const date =
			from === to ? words.date(from, "full") : words.fromTo(words.date(from, "full"), words.date(to, "full"));
		const classes = classesOf({ from, to });
		return classes.length === 0 ? date : `${date} (${words.and(classes)})`;
	};
	return { about: words.whatChanged.termFields.closed ?? "", before: side(before), after: side(after) };
}

/** The apparatus of a week's plan, before and now, by their places in it. */
export function planAt(before: PlanRecord, after: PlanRecord, number: Id) {
	const idsOf = (record: PlanRecord): readonly Id[] => {
		const plans = record.things.week[number]?.apparatus;
		return Array.isArray(plans) ? plans.map((plan: { apparatus: Id }) => plan.apparatus) : [];
	};
	return { before: idsOf(before), after: idsOf(after) };
}

/** A change of a week: where its field stands on an apparatus, that is named first. */
export function planLine(
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

export function lineOf(
	telling: Telling,
	change: FieldChange,
	names: Readonly<Record<string, string>>,
): ChangeLine {
	const [top = ""] = change.field.split(".");
	const written = top.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
	const about = names[top] ?? telling.words.desk.fieldNames[written] ?? written;
	return { about, ...sidesOf(telling, change) };
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
	if (typeof fields.from === "string" && typeof fields.to === "string") {
		const [from, to] = [words.date(fields.from, "full"), words.date(fields.to, "full")];
		return from === to ? from : words.fromTo(from, to);
	}
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
