/**
 * The data files: every measure's tables as CSV (RFC 4180), the calendar, findings and the whole
 * handbook as JSON.
 *
 * Numbers are rounded to at most three decimals with a point and no trailing zeros; an unknown value
 * is an empty field. Lines end with CRLF, as the standard has it.
 */

import { posix } from "node:path";
import Papa from "papaparse";
import { calendarIcs, type SheetAddress } from "../compute/calendar.ts";
import type { Measured } from "../compute/measure.ts";
import {
	besideDrills,
	type PlanRecord,
	type RecordBesideDrills,
	recordOf,
	withDrills,
} from "../compute/plan-record.ts";
import { rounded } from "../compute/tables.ts";
import type { Folder } from "../files/folder.ts";
import { ownPackage } from "../files/program.ts";
import type { Cell, ClubEdition, Curriculum, Finding, Id, Table } from "../model.ts";
import { editionRecord, OUTPUT_RECORD } from "../read/club-edition.ts";
import { inShards } from "../records/shards.ts";
import { classSheetAddress } from "../views/addresses.ts";
import { placeOf } from "../views/finding-places.ts";
import type { Words } from "../words/words.ts";
import schema from "./handbook.schema.json" with { type: "json" };

/** A file to write: its path from the root of the output. */
export interface OutputFile {
	readonly path: string;
	readonly text: string;
}

/** The form of handbook.json: another number where a field goes or means something else. */
const HANDBOOK_FORMAT = 2;

/** What a later plan is held against. */
export const RECORD_FILE = "data/record.json";

/** All data files of a handbook. */
export function dataFiles(measured: Measured, words: Words, edition: ClubEdition): readonly OutputFile[] {
	const csv = [...measured.tables.values()].map((table) => ({
		path: `data/${table.name}.csv`,
		text: asCsv(table),
	}));
	const drills = inShards([...measured.curriculum.drills.values()]).map((own, i) => ({
		name: `drills-${i}.json`,
		text: json(own, ""),
	}));
	const drillFiles = drills.map(({ name }) => name);
	return [
		...csv,
		...drills.map(({ name, text }) => ({ path: `data/${name}`, text })),
		{ path: "data/findings.json", text: json(measured.findings.map(findingRecord)) },
		{
			path: "data/calendar.ics",
			text: calendarIcs(measured.curriculum, words, sheetOf(measured.curriculum), edition),
		},
		{ path: OUTPUT_RECORD, text: editionRecord(edition) },
		{ path: "data/handbook.json", text: json(handbookRecord(measured.curriculum, edition, drillFiles), "") },
		{ path: "data/handbook.schema.json", text: `${JSON.stringify(schema, null, "\t")}\n` },
		{
			path: RECORD_FILE,
			text: `${JSON.stringify(besideDrills(recordOf(measured, edition), drillFiles))}\n`,
		},
	];
}

/**
 * The plan that such a file records; undefined where it is none.
 * @param file its path in the folder: its drills stand beside it, or in it as earlier versions wrote it
 */
export function recordIn(folder: Folder, file: string): PlanRecord | undefined {
	const jsonOf = (path: string): unknown => JSON.parse(folder.read(path).toString("utf8"));
	try {
		const data = jsonOf(file);
		if (typeof data !== "object" || data === null || !("format" in data) || !("things" in data))
			return undefined;
		if (data.format === 1) return data as unknown as PlanRecord;
		if (data.format !== 2) return undefined;
		const record = data as unknown as RecordBesideDrills;
		const beside = (name: string): unknown => {
			const path = posix.join(posix.dirname(file), name);
			return folder.has(path) ? jsonOf(path) : undefined;
		};
		const drills = record.drills.map(beside);
		// edition.json may be newer: whatever is printed since is noted there as well.
		const whole = beside("handbook.json") as { readonly edition?: unknown } | undefined;
		const edition = whole?.edition ?? beside("edition.json");
		if (edition === undefined || drills.includes(undefined)) return undefined;
		return withDrills(record, drills.flat() as { id: Id }[], edition as ClubEdition);
	} catch (error) {
		if (error instanceof SyntaxError) return undefined;
		throw error;
	}
}

/** Where a class's sheet is published: on the club's own site, for weeks that are planned. */
function sheetOf({ club, weeks }: Curriculum): SheetAddress {
	return (week, group) => {
		const plan = weeks.find((w) => w.week === week);
		if (club.site === undefined || plan === undefined) return undefined;
		return new URL(classSheetAddress(group.id, plan.id), club.site.replace(/\/?$/, "/")).href;
	};
}

/** A table as CSV text. */
export function asCsv({ columns, rows }: Table): string {
	const lines = [columns.map((c) => c.name), ...rows.map((row) => row.map(written))];
	return `${Papa.unparse(lines, { newline: "\r\n" })}\r\n`;
}

function written(cell: Cell): string {
	if (cell === undefined) return "";
	return typeof cell === "number" ? String(rounded(cell)) : cell;
}

/** A finding with its place looked up, as it stands in findings.json. */
export function findingRecord(finding: Finding) {
	const { code, weight, what, why, fix, about } = finding;
	const { file, line, column } = placeOf(finding);
	return { code, weight, what, why, fix, file, line, column, about };
}

/** @param drills the files that they stand in: one changed drill changes a small file */
function handbookRecord(curriculum: Curriculum, edition: ClubEdition, drills: readonly string[]) {
	const { club, term, targets, levels, apparatus, shapes, skills, equipment, weeks, guides } = curriculum;
	// Each drill names its own; the lists of them would be the largest part.
	const listed = <T extends object>(things: ReadonlyMap<Id, T & { readonly drills: unknown }>) =>
		Array.from(things.values(), ({ drills: _, ...thing }) => thing);
	return {
		$schema: "handbook.schema.json",
		format: HANDBOOK_FORMAT,
		program: ownPackage(),
		edition,
		club,
		term,
		targets,
		levels: [...levels.values()],
		apparatus: [...apparatus.values()],
		shapes: listed(shapes),
		skills: listed(skills),
		equipment: listed(equipment),
		drills,
		weeks,
		guides: [...guides.values()],
	};
}

/** JSON with maps as objects and without the places in files, which are for tools of the author. */
function json(value: unknown, indent = "\t"): string {
	const plain = (key: string, part: unknown): unknown => {
		if (key === "source" || key === "path") return undefined;
		return part instanceof Map ? Object.fromEntries(part) : part;
	};
	return `${JSON.stringify(value, plain, indent)}\n`;
}
