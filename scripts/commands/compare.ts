/**
 * `compare`: what differs between two club folders, by meaning, and what that did; and
 * `check --what-if`, the same for a plan and a change list. Writes nothing.
 */

import { readFileSync } from "node:fs";
import { type Comparison, compare, type ThingsCompared } from "../compute/compare.ts";
import { ChangeFault, changePlan } from "../edit/change-plan.ts";
import { openHandbook } from "../handbook.ts";
import { findingRecord } from "../render/data-files.ts";
import { count, type Output, reportProblems } from "./report.ts";

/** Changed numbers shown in the terminal; all of them are in `--json`. */
const SHOWN = 40;

/** @returns 0 where both folders could be read, whatever differs; 1 where one has errors */
export function compareFolders(
	earlier: string,
	later: string,
	out: Output,
	{ json }: { readonly json: boolean },
): number {
	const before = openHandbook(earlier);
	const after = openHandbook(later);
	if (before.handbook === undefined || after.handbook === undefined) {
		const sides = [
			{ folder: earlier, ...before },
			{ folder: later, ...after },
		].filter(({ handbook }) => handbook === undefined);
		if (json) {
			out.line(
				JSON.stringify({ broken: sides.map(({ folder, problems }) => ({ folder, problems })) }, null, "\t"),
			);
			return 1;
		}
		for (const { folder, problems } of sides) {
			out.line(`${folder} has errors, so it cannot be compared:`);
			reportProblems(problems, folder, out);
		}
		return 1;
	}
	tell(compare(before.handbook, after.handbook), out, json);
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
		tell(compare(before.handbook, after.handbook), out, json);
		return 0;
	} catch (error) {
		if (error instanceof ChangeFault) return wrong(error.message);
		throw error;
	}
}

function tell(found: Comparison, out: Output, json: boolean): void {
	if (!json) {
		report(found, out);
		return;
	}
	const { gone, come } = found.findings;
	const findings = { gone: gone.map(findingRecord), come: come.map(findingRecord) };
	out.line(JSON.stringify({ ...found, findings }, null, "\t"));
}

function report({ drills, weeks, numbers, findings }: Comparison, out: Output): void {
	for (const { from, to } of drills.renamed) out.line(`drill ${from} is now ${to}`);
	reportThings("drill", drills, out);
	reportThings("week", weeks, out);
	for (const { code, what } of findings.gone) out.line(`no longer found: ${code}  ${what}`);
	for (const { code, what } of findings.come) out.line(`newly found: ${code}  ${what}`);
	for (const { table, row, column, before, after } of numbers.slice(0, SHOWN)) {
		const about = Object.entries(row).map(([name, cell]) => `${name} ${cell}`);
		out.line(`${table}: ${about.join(", ")}: ${column} ${before ?? "none"} → ${after ?? "none"}`);
	}
	if (numbers.length > SHOWN) out.line(`… and ${numbers.length - SHOWN} more changed numbers, with --json`);
	const changes = (of: ThingsCompared): string =>
		`${of.added.length} added, ${of.removed.length} removed, ${of.changed.length} changed`;
	out.line(
		`Drills: ${changes(drills)}, ${drills.renamed.length} renamed. Weeks: ${changes(weeks)}. ${count(numbers.length, "number")} changed. Findings: ${findings.gone.length} gone, ${findings.come.length} new.`,
	);
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
function shown(value: unknown): string {
	if (value === undefined) return "none";
	const text = typeof value === "string" ? value.replace(/\s+/g, " ").trim() : JSON.stringify(value);
	return text.length > 80 ? `${text.slice(0, 79)}…` : text;
}
