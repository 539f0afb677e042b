/**
 * `compare`: what differs between two club folders, by meaning, and what that did; and
 * `check --what-if`, the same for a plan and a change list. Writes nothing.
 */

import { classesWithin } from "../compute/calendar.ts";
import {
	type Comparison,
	compare,
	type FieldChange,
	type NumberChange,
	type ThingsCompared,
} from "../compute/compare.ts";
import { followWeeks, type MovedWeek, runsOf } from "../compute/moved-weeks.ts";
import { type PlanRecord, type RecordedFacts, recordOf } from "../compute/plan-record.ts";
import { changeClub, changesIn, isClubChange } from "../edit/change-club.ts";
import { ChangeFault, changePlan } from "../edit/change-plan.ts";
import { readTexts } from "../edit/club-texts.ts";
import { EditRefused } from "../edit/move-block.ts";
import { readGiven } from "../files/given.ts";
import { openHandbook } from "../handbook.ts";
import { type ClubClass, RECORDED_KINDS, type RecordedKind, type Term } from "../model.ts";
import {
	type ChangeLine,
	closedLine,
	factLines,
	lineOf,
	planAt,
	planLine,
	type Telling,
} from "../views/tell-changes.ts";
import { wordsFor } from "../words/words.ts";
import { tryTexts } from "./edit-club.ts";
import { readPlan } from "./read-plan.ts";
import { count, type Output, reportProblems } from "./report.ts";
import { clubAndFolder } from "./said-of-club.ts";

/** Changed numbers shown in the terminal; all of them are in `--json`. */
const SHOWN = 40;

/**
 * @param earlier a club folder, an output folder, or a `record.json`
 * @returns 0 where both could be read, whatever differs; 1 where a folder has errors; 2 for no plan at all
 */
export function compareFolders(
	earlier: string,
	later: string,
	out: Output,
	{ json = false }: { readonly json?: boolean },
): number {
	const sides = [earlier, later].map((place) => ({ place, ...readPlan(place) }));
	const missing = sides.find(({ record, problems }) => record === undefined && problems.length === 0);
	if (missing !== undefined) {
		const text = `${missing.place} is no club folder and holds no record of one. Name a folder with content/, an output folder, or its data/record.json.`;
		out.line(json ? JSON.stringify({ error: text }) : `error: ${text}`);
		return 2;
	}
	const broken = sides.filter(({ record }) => record === undefined);
	if (broken.length > 0) {
		if (json) {
			out.line(
				JSON.stringify(
					{ broken: broken.map(({ place, problems }) => ({ folder: place, problems })) },
					null,
					"\t",
				),
			);
			return 1;
		}
		for (const { place, problems } of broken) {
			out.line(`${place} has errors, so it cannot be compared:`);
			reportProblems(problems, place, out);
		}
		return 1;
	}
	const [before, after] = sides.map(({ record }) => record);
	if (before === undefined || after === undefined) throw new Error("A plan was read and is not there.");
	tell(before, after, out, json);
	if (!json) {
		const named = sides.map(({ place, record }) => clubAndFolder(place, record?.club));
		out.line(named.join("; compared with it: "));
	}
	return 0;
}

/**
 * What a change list would do to a plan.
 * @returns 1 where the plan has errors, or would have; 2 where the list cannot be followed
 */
export function whatIf(
	clubDir: string,
	listFile: string,
	out: Output,
	{ json = false }: { readonly json?: boolean },
): number {
	const wrong = (text: string): number => {
		out.line(json ? JSON.stringify({ error: text }) : `error: ${text}`);
		return 2;
	};
	let list: string;
	try {
		list = readGiven(listFile).toString("utf8");
	} catch {
		return wrong(`The change list ${listFile} cannot be read.`);
	}
	const before = openHandbook(clubDir);
	const showProblems = ({ problems }: typeof before): number => {
		if (json) out.line(JSON.stringify({ problems }, null, "\t"));
		else
			for (const { code, place, what, fix } of problems) out.line(`${place.file}  ${code}  ${what}  ${fix}`);
		return 1;
	};
	if (before.handbook === undefined) return showProblems(before);
	try {
		// What only changes blocks is tried in memory; anything else on a copy of the texts.
		const isPlan = changesIn(list).every((one) => "set" in one || !isClubChange(one));
		const after = isPlan
			? openHandbook(clubDir, { change: (files) => changePlan(files, list) })
			: tryTexts(clubDir, changeClub(readTexts(clubDir), list));
		if (after.handbook === undefined) return showProblems(after);
		const records = [before.handbook, after.handbook].map((one) => recordOf(one, one.edition));
		const [now, then] = records as [PlanRecord, PlanRecord];
		tell(now, then, out, json);
		return 0;
	} catch (error) {
		if (error instanceof ChangeFault || error instanceof EditRefused) return wrong(error.message);
		throw error;
	}
}

function tell(earlier: PlanRecord, after: PlanRecord, out: Output, json: boolean): void {
	const { before, moved } = followWeeks(earlier, after);
	const found = compare(before, after);
	if (json) out.line(JSON.stringify({ ...found, movedWeeks: moved }, null, "\t"));
	else new Report(before, after, out).tell(found, moved);
}

/** A comparison in words, by the names of things. */
class Report {
	readonly #before: PlanRecord;
	readonly #after: PlanRecord;
	readonly #out: Output;
	readonly #telling: Telling;

	constructor(before: PlanRecord, after: PlanRecord, out: Output) {
		this.#before = before;
		this.#after = after;
		this.#out = out;
		const nameOf = (kind: RecordedKind, id: string): string =>
			after.names[kind][id] ?? before.names[kind][id] ?? id;
		// A link is told by its words, or by what it leads to.
		const plain = (text: string): string =>
			text.replace(/\[\[(?:\w+:)?([^\]|]+)(?:\|([^\]]+))?\]\]/g, (_link, id: string, words?: string) => {
				const kind = RECORDED_KINDS.find((one) => after.names[one][id.trim()] !== undefined);
				return words ?? (kind === undefined ? id : nameOf(kind, id.trim()));
			});
		this.#telling = { words: wordsFor("en"), nameOf, plain };
	}

	tell(
		{ facts, things, renamed, renamedOthers, numbers, findings }: Comparison,
		moved: readonly MovedWeek[],
	): void {
		const out = this.#out;
		// What moves people comes first: when there is a class, what to do in an emergency, and what is aimed at.
		this.#facts("term", facts.term);
		this.#things("class", things.class);
		this.#facts("club", facts.club);
		this.#facts("targets", facts.targets);
		for (const { kind, from, to } of renamedOthers) out.line(`${kind} ${from} is now ${to}`);
		for (const { from, to } of renamed) out.line(`drill ${from} is now ${to}`);
		for (const { from, to } of runsOf(moved)) out.line(this.#telling.words.whatChanged.movedWeeks(from, to));
		for (const kind of RECORDED_KINDS) if (kind !== "class") this.#things(kind, things[kind]);
		for (const { code, what } of findings.gone) out.line(`no longer found: ${code}  ${what}`);
		for (const { code, what } of findings.come) out.line(`newly found: ${code}  ${what}`);
		for (const { before, after } of findings.changed) {
			out.line(`found otherwise: ${after.code}  ${after.what}`);
			out.line(`    before: ${before.what}`);
		}
		this.#numbers(numbers);
		const changes = (of: ThingsCompared): string =>
			`${of.added.length} added, ${of.removed.length} removed, ${of.changed.length} changed`;
		const otherwise = findings.changed.length === 0 ? "" : `, ${findings.changed.length} changed`;
		out.line(
			`${FIRST.map(({ name, kind }) => (facts[kind].length > 0 ? `${name} changed. ` : "")).join("")}Classes: ${changes(things.class)}. Drills: ${changes(things.drill)}, ${renamed.length} renamed. Weeks: ${changes(things.week)}${moved.length === 0 ? "" : `, ${moved.length} with another number`}. ${count(numbers.length, "number")} changed. Findings: ${findings.gone.length} gone, ${findings.come.length} new${otherwise}.`,
		);
	}

	#facts(kind: RecordedFacts, changes: readonly FieldChange[]): void {
		const { whatChanged } = this.#telling.words;
		const names = { club: whatChanged.clubFields, term: whatChanged.termFields, targets: {} }[kind];
		const [days, fields] = [
			changes.filter(({ field }) => field === "closed"),
			changes.filter(({ field }) => field !== "closed"),
		];
		const [before, after] = [this.#before.facts?.[kind], this.#after.facts?.[kind]];
		for (const line of factLines(this.#telling, before, after, fields, names)) {
			this.#out.line(`${kind}: ${sides(line)}`);
		}
		for (const day of days) {
			this.#out.line(
				`${kind}: ${sides(closedLine(this.#telling, day, (closed) => this.#classesOn(closed)))}`,
			);
		}
	}

	/** The classes that a closed day takes, as either plan has them. */
	#classesOn({ from, to }: { readonly from: string; readonly to: string }): readonly string[] {
		const classes = Object.entries({ ...this.#before.things.class, ...this.#after.things.class });
		return classes.flatMap(([id, { day }]) => {
			const group = { id, day, path: [] } as unknown as ClubClass;
			const met = classesWithin({ classes: [group] } as unknown as Term, { from, to }).length > 0;
			return met ? [this.#telling.nameOf("class", id)] : [];
		});
	}

	#things(kind: RecordedKind, { added, removed, changed }: ThingsCompared): void {
		const name = (id: string): string => this.#nameOf(kind, id);
		for (const id of added) this.#out.line(`${name(id)} is new`);
		for (const id of removed) this.#out.line(`${name(id)} is gone`);
		for (const { id, fields } of changed) {
			const [only] = fields;
			// Another name is told in one line.
			if (fields.length === 1 && only?.field === "name") {
				this.#out.line(`${kind} ${id}: ${String(only.before)} is now called ${String(only.after)}`);
				continue;
			}
			this.#out.line(`${name(id)} changed`);
			for (const line of this.#linesOf(kind, id, fields)) this.#out.line(`    ${sides(line)}`);
		}
	}

	#linesOf(kind: RecordedKind, id: string, fields: readonly FieldChange[]): readonly ChangeLine[] {
		const { whatChanged } = this.#telling.words;
		if (kind === "week") {
			return fields.map((one) => planLine(this.#telling, one, planAt(this.#before, this.#after, id)));
		}
		const [before, after] = [this.#before.things[kind][id], this.#after.things[kind][id]];
		if (kind === "class") return factLines(this.#telling, before, after, fields, whatChanged.classFields);
		return fields.map((one) => lineOf(this.#telling, one, whatChanged.drillFields));
	}

	#nameOf(kind: RecordedKind, id: string): string {
		const name = this.#telling.nameOf(kind, id);
		return name === "" || name === id ? `${kind} ${id}` : `${kind} ${id} (${name})`;
	}

	#numbers(numbers: readonly NumberChange[]): void {
		const largest = [...numbers].sort((a, b) => stepOf(b) - stepOf(a));
		const { tables, columns } = this.#telling.words.whatChanged;
		for (const { table, row, column, before, after } of largest.slice(0, SHOWN)) {
			const about = Object.entries(row).map(([name, cell]) => `${name} ${cell}`);
			this.#out.line(
				`${tables[table] ?? table}: ${about.join(", ")}: ${columns[column] ?? column} ${before ?? "none"} → ${after ?? "none"}`,
			);
		}
		if (numbers.length > SHOWN)
			this.#out.line(`… and ${numbers.length - SHOWN} smaller changes, with --json`);
	}
}

const FIRST = [
	{ kind: "club", name: "Club" },
	{ kind: "term", name: "Term" },
	{ kind: "targets", name: "Targets" },
] as const;

function sides({ about, before, after }: ChangeLine): string {
	return `${about}: ${before ?? "none"} → ${after ?? "none"}`;
}

function stepOf({ before = 0, after = 0 }: NumberChange): number {
	return Math.abs(after - before);
}
