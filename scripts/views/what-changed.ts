/**
 * What changed since an earlier edition, for coaches: first when and where there is a class and what to
 * do in an emergency; then weeks and drills, in the words of the plan; then what that did to minutes, equipment, load and findings.
 */

import { classesWithin } from "../compute/calendar.ts";
import {
	type Comparison,
	compare,
	type FieldChange,
	type NumberChange,
	type ThingsCompared,
} from "../compute/compare.ts";
import { followWeeks, runsOf } from "../compute/moved-weeks.ts";
import { type PlanRecord, recordOf } from "../compute/plan-record.ts";
import type { Id, RecordedKind } from "../model.ts";
import { editionNameOf } from "../words/edition-name.ts";
import type { Words } from "../words/words.ts";
import { addressOf } from "./addresses.ts";
import type { Label } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";
import {
	type ChangeLine,
	closedLine,
	factLines,
	lineOf,
	type NameOf,
	planAt,
	planLine,
	type Telling,
} from "./tell-changes.ts";

export type WhatChangedView = ReturnType<typeof whatChangedView>;

export interface ChangedThings {
	readonly added: readonly Label[];
	readonly removed: readonly string[];
	readonly changed: readonly { readonly link: Label; readonly lines: readonly ChangeLine[] }[];
}

/** Numbers listed, the largest steps first. */
const MOST_NUMBERS = 40;
/** Fields that authors keep for themselves. */
const NOT_FOR_COACHES = new Set(["reviewed", "aliases", "fromLibrary", "library"]);
/** What a coach needs of what the club says of itself. */
const CLUB_FOR_COACHES = new Set(["emergency", "emergencyGuide", "place", "contact", "name"]);

const OTHER_KINDS = ["level", "apparatus", "shape", "skill", "equipment", "guide"] as const;

/** The page that says what changed since `before`. */
export function whatChangedView(site: SiteIndex, earlier: PlanRecord) {
	const { handbook, words } = site;
	const { whatChanged: say } = words;
	const after = recordOf(handbook, handbook.edition);
	const { before, moved } = followWeeks(earlier, after);
	const { facts, things, renamed, numbers, findings } = forCoaches(compare(before, after));
	const nameOf = (kind: RecordedKind, id: Id): string =>
		after.names[kind][id] ?? before.names[kind][id] ?? id;
	const telling: Telling = { words, nameOf, plain: (text: string) => handbook.markdown.plain(text) };
	const weekName = (number: Id): string => `${words.week(number)}: ${nameOf("week", number)}`;
	const drillLink = (id: Id): Label => ({ to: addressOf({ kind: "drill", id }), name: nameOf("drill", id) });
	const classLink = (id: Id): Label => ({ to: `classes/${id}/`, name: nameOf("class", id) });
	const weekLabel = (number: Id): Label => {
		const plan = site.weekByNumber.get(Number(number));
		return { name: weekName(number), ...(plan && { to: addressOf({ kind: "week", id: plan.id }) }) };
	};
	const classesOf = (days: Parameters<typeof classesWithin>[1]) =>
		classesWithin(handbook.curriculum.term, days).map(({ name }) => name);
	const others = OTHER_KINDS.map((kind) => ({
		kind,
		names: changedNames(
			things[kind],
			(id) => nameOf(kind, id),
			(id) => before.names[kind][id],
		),
	}));
	const largest = [...numbers].sort((a, b) => stepOf(b) - stepOf(a));
	return {
		since: {
			edition:
				typeof before.edition === "string" ? undefined : editionNameOf({ edition: before.edition, words }),
			/** Weeks, start and closed days. */
			term: before.term,
		},
		nothing:
			facts.club.length + facts.term.length + moved.length === 0 &&
			[things.class, things.drill, things.week].every(isSame) &&
			renamed.every(({ from, to }) => before.names.drill[from] === nameOf("drill", to)) &&
			others.every(({ names }) => names.length === 0),
		/** What the club says of itself, the emergency words first. */
		club: factLines(telling, before.facts?.club, after.facts?.club, facts.club, say.clubFields),
		term: termLines(telling, before, after, facts.term, classesOf),
		classes: {
			added: things.class.added.map(classLink),
			removed: things.class.removed.map((id) => before.names.class[id] ?? id),
			changed: things.class.changed.map(({ id, fields }) => ({
				link: classLink(id),
				lines: factLines(telling, before.things.class[id], after.things.class[id], fields, say.classFields),
			})),
		},
		drills: {
			...thingsOf(
				things.drill,
				drillLink,
				(id) => before.names.drill[id] ?? id,
				(change) => lineOf(telling, change, say.drillFields),
			),
			// An id is the authors' own matter; a coach reads names.
			renamed: renamed.flatMap(({ from, to }) => {
				const name = before.names.drill[from] ?? from;
				return name === nameOf("drill", to) ? [] : [{ from: name, to: drillLink(to) }];
			}),
		},
		weeks: {
			...thingsOf(things.week, weekLabel, weekName, (change, number) =>
				planLine(telling, change, planAt(before, after, number)),
			),
			/** Weeks that have another number, those side by side in one line. */
			moved: runsOf(moved).map(({ from, to }) => say.movedWeeks(from, to)),
		},
		/** Levels, apparatus, shapes, skills, equipment and guides that differ, by kind. */
		others: others.filter(({ names }) => names.length > 0),
		findings,
		numbers: largest.slice(0, MOST_NUMBERS).map((one) => numberLine(words, one, nameOf)),
		/** Numbers beyond those listed. */
		more: Math.max(0, numbers.length - MOST_NUMBERS),
	};
}

/** What the term says otherwise; closed days with the classes that they are of. */
function termLines(
	telling: Telling,
	before: PlanRecord,
	after: PlanRecord,
	changes: readonly FieldChange[],
	classesOf: Parameters<typeof closedLine>[2],
): readonly ChangeLine[] {
	const [closed, others] = [true, false].map((is) =>
		changes.filter(({ field }) => (field === "closed") === is),
	);
	const fields = telling.words.whatChanged.termFields;
	return [
		...factLines(telling, before.facts?.term, after.facts?.term, others ?? [], fields),
		...(closed ?? []).map((change) => closedLine(telling, change, classesOf)),
	];
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

/** Names of things that differ; one that is called otherwise by both of its names. */
function changedNames(
	{ added, removed, changed }: ThingsCompared,
	nameOf: (id: Id) => string,
	nameBefore: (id: Id) => string | undefined,
): readonly string[] {
	const both = changed.map(({ id }) => {
		const [old, now] = [nameBefore(id), nameOf(id)];
		return old === undefined || old === now ? now : `${old} → ${now}`;
	});
	return [...added.map(nameOf), ...both, ...removed.map(nameOf)];
}

/** A comparison without what only authors look at. */
function forCoaches({ things, facts, ...rest }: Comparison): Comparison {
	const top = ({ field }: FieldChange): string => field.split(".")[0] ?? "";
	const drills = things.drill.changed
		.map(({ id, fields }) => ({ id, fields: fields.filter((one) => !NOT_FOR_COACHES.has(top(one))) }))
		.filter(({ fields }) => fields.length > 0);
	return {
		...rest,
		facts: { ...facts, club: facts.club.filter((one) => CLUB_FOR_COACHES.has(top(one))) },
		things: { ...things, drill: { ...things.drill, changed: drills } },
	};
}

function isSame({ added, removed, changed }: ThingsCompared): boolean {
	return added.length + removed.length + changed.length === 0;
}

function stepOf({ before = 0, after = 0 }: NumberChange): number {
	return Math.abs(after - before);
}

function numberLine(words: Words, { table, row, column, before, after }: NumberChange, nameOf: NameOf) {
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
