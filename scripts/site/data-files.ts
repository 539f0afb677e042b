/**
 * The data files: every measure's tables as CSV (RFC 4180), the calendar, findings and the whole
 * handbook as JSON.
 *
 * Numbers are rounded to at most three decimals with a point and no trailing zeros; an unknown value
 * is an empty field. Lines end with CRLF, as the standard has it.
 */

import Papa from "papaparse";
import { calendarIcs, type SheetAddress } from "../compute/calendar.ts";
import type { Measured } from "../compute/measure.ts";
import { type PlanRecord, recordOf } from "../compute/plan-record.ts";
import { rounded } from "../compute/tables.ts";
import { ownPackage } from "../files/program.ts";
import type { Cell, ClubEdition, Curriculum, Finding, Table } from "../model.ts";
import { editionRecord, OUTPUT_RECORD } from "../read/club-edition.ts";
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
const HANDBOOK_FORMAT = 1;

/** What a later plan is held against. */
export const RECORD_FILE = "data/record.json";

/** All data files of a handbook. */
export function dataFiles(measured: Measured, words: Words, edition: ClubEdition): readonly OutputFile[] {
	const csv = [...measured.tables.values()].map((table) => ({
		path: `data/${table.name}.csv`,
		text: asCsv(table),
	}));
	return [
		...csv,
		{ path: "data/findings.json", text: json(measured.findings.map(findingRecord)) },
		{
			path: "data/calendar.ics",
			text: calendarIcs(measured.curriculum, words, sheetOf(measured.curriculum), edition),
		},
		{ path: OUTPUT_RECORD, text: editionRecord(edition) },
		{ path: "data/handbook.json", text: json(handbookRecord(measured.curriculum, edition), "") },
		{ path: "data/handbook.schema.json", text: `${JSON.stringify(schema, null, "\t")}\n` },
		{ path: RECORD_FILE, text: `${JSON.stringify(recordOf(measured, edition))}\n` },
	];
}

/** The plan that such a file records; undefined where it is none. */
export function recordIn(bytes: Buffer): PlanRecord | undefined {
	try {
		const data: unknown = JSON.parse(bytes.toString("utf8"));
		const isRecord =
			typeof data === "object" && data !== null && "format" in data && data.format === 1 && "things" in data;
		return isRecord ? (data as unknown as PlanRecord) : undefined;
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

function handbookRecord(curriculum: Curriculum, edition: ClubEdition) {
	const { club, term, targets, levels, apparatus, shapes, skills, equipment, drills, weeks, guides } =
		curriculum;
	return {
		$schema: "handbook.schema.json",
		format: HANDBOOK_FORMAT,
		program: ownPackage(),
		edition,
		club,
		term,
		targets,
		levels,
		apparatus,
		shapes,
		skills,
		equipment,
		drills,
		weeks,
		guides,
	};
}

/** JSON with maps as objects and without the places in files, which are for tools of the author. */
function json(value: unknown, indent = "\t"): string {
	const plain = (key: string, part: unknown): unknown => {
		if (key === "source" || key === "path") return undefined;
		if (part instanceof Map)
			return [...part.values()].every(isIdentified) ? [...part.values()] : Object.fromEntries(part);
		return part;
	};
	return `${JSON.stringify(value, plain, indent)}\n`;
}

function isIdentified(value: unknown): boolean {
	return typeof value === "object" && value !== null && "id" in value && "source" in value;
}
