/**
 * `compare`: what differs between two club folders, by meaning, and what that did; and
 * `check --what-if`, the same for a plan and a change list. Writes nothing.
 */

import { readFileSync } from "node:fs";
import { type Comparison, compare, type NumberChange, type ThingsCompared } from "../compute/compare.ts";
import { FACTS, recordOf } from "../compute/plan-record.ts";
import { ChangeFault, changePlan } from "../edit/change-plan.ts";
import { openHandbook } from "../handbook.ts";
import { RECORDED_KINDS } from "../model.ts";
import { readPlan } from "./read-plan.ts";
import { count, type Output, reportProblems } from "./report.ts";
import { clubAndFolder } from "./said-of-club.ts";

/** Letters of what the club says of itself: an emergency text is told to its end. */
const MOST_OF_FACT = 2000;
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
	{ json }: { readonly json: boolean },
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
	tell(compare(before, after), out, json);
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
	{ json }: { readonly json: boolean },
): number {
	const wrong = (text: string): number => {
		out.line(json ? JSON.stringify({ error: text }) : `error: ${text}`);
		return 2;
	};
	let list: string;
	try {
		list = readFileSync(listFile, "utf8");
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
		const after = openHandbook(clubDir, { change: (files) => changePlan(files, list) });
		if (after.handbook === undefined) return showProblems(after);
		tell(
			compare(
				recordOf(before.handbook, before.handbook.edition),
				recordOf(after.handbook, after.handbook.edition),
			),
			out,
			json,
		);
		return 0;
	} catch (error) {
		if (error instanceof ChangeFault) return wrong(error.message);
		throw error;
	}
}

function tell(found: Comparison, out: Output, json: boolean): void {
	if (json) out.line(JSON.stringify(found, null, "\t"));
	else report(found, out);
}

function report({ facts, things, renamed, numbers, findings }: Comparison, out: Output): void {
	// What moves people comes first: when there is a class, and what to do in an emergency.
	for (const kind of FACTS) {
		for (const { field, before, after } of facts[kind]) {
			out.line(`${kind}: ${field}: ${shown(before, MOST_OF_FACT)} → ${shown(after, MOST_OF_FACT)}`);
		}
	}
	reportThings("class", things.class, out);
	for (const { from, to } of renamed) out.line(`drill ${from} is now ${to}`);
	for (const kind of RECORDED_KINDS) if (kind !== "class") reportThings(kind, things[kind], out);
	for (const { code, what } of findings.gone) out.line(`no longer found: ${code}  ${what}`);
	for (const { code, what } of findings.come) out.line(`newly found: ${code}  ${what}`);
	const largest = [...numbers].sort((a, b) => stepOf(b) - stepOf(a));
	for (const { table, row, column, before, after } of largest.slice(0, SHOWN)) {
		const about = Object.entries(row).map(([name, cell]) => `${name} ${cell}`);
		out.line(`${table}: ${about.join(", ")}: ${column} ${before ?? "none"} → ${after ?? "none"}`);
	}
	if (numbers.length > SHOWN) out.line(`… and ${numbers.length - SHOWN} smaller changes, with --json`);
	const changes = (of: ThingsCompared): string =>
		`${of.added.length} added, ${of.removed.length} removed, ${of.changed.length} changed`;
	out.line(
		`${FIRST.map(({ name, kind }) => (facts[kind].length > 0 ? `${name} changed. ` : "")).join("")}Classes: ${changes(things.class)}. Drills: ${changes(things.drill)}, ${renamed.length} renamed. Weeks: ${changes(things.week)}. ${count(numbers.length, "number")} changed. Findings: ${findings.gone.length} gone, ${findings.come.length} new.`,
	);
}

const FIRST = [
	{ kind: "club", name: "Club" },
	{ kind: "term", name: "Term" },
	{ kind: "targets", name: "Targets" },
] as const;

function stepOf({ before = 0, after = 0 }: NumberChange): number {
	return Math.abs(after - before);
}

function reportThings(noun: string, { added, removed, changed }: ThingsCompared, out: Output): void {
	for (const id of added) out.line(`${noun} ${id} is new`);
	for (const id of removed) out.line(`${noun} ${id} is gone`);
	for (const { id, fields } of changed) {
		out.line(`${noun} ${id} changed`);
		for (const { field, before, after } of fields) {
			out.line(`    ${field}: ${shown(before)} → ${shown(after)}`);
		}
	}
}

/** A value on one line, not too long. */
function shown(value: unknown, most = 80): string {
	if (value === undefined) return "none";
	if (isInterval(value)) return value.from === value.to ? value.from : `${value.from}/${value.to}`;
	const text = typeof value === "string" ? value.replace(/\s+/g, " ").trim() : JSON.stringify(value);
	return text.length > most ? `${text.slice(0, most - 1)}…` : text;
}

function isInterval(value: unknown): value is { readonly from: string; readonly to: string } {
	return typeof value === "object" && value !== null && "from" in value && "to" in value;
}
