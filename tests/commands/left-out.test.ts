/**
 * What a workbook hides or strikes out does not come in, and is told with its place.
 *
 * `hidden-and-struck.xlsx` was made with openpyxl 3.1.5, a library of another language; the second
 * workbook is made here, with write-excel-file.
 */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import writeXlsxFile from "write-excel-file/node";
import { readClubSheets } from "../../scripts/commands/spreadsheet/read-club-sheets.ts";
import { readSheets } from "../../scripts/commands/spreadsheet/read-sheets.ts";
import { readClub } from "../../scripts/read/read-club.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

async function imported(name: string, bytes: Buffer) {
	const club = readClub(clubCopy()).files;
	const { files, notes } = readClubSheets(await readSheets(name, bytes), club);
	const drills = new Map(
		files.flatMap(({ kind, id, data }) => (kind === "drill" ? [[id, data as Record<string, unknown>]] : [])),
	);
	return { drills, told: notes.map(({ row, column, what }) => [row, column, what]) };
}

describe("a workbook with hidden and struck-out parts", () => {
	const file = join(FIXTURES, "workbooks/hidden-and-struck.xlsx");

	it("brings in what is seen, and nothing else", async () => {
		const { drills } = await imported("plan.xlsx", readFileSync(file));
		expect([...drills.keys()]).toEqual(["long-sit", "dish-hold", "tuck-roll-rock", "straddle-sit"]);
		// The heading says minutes, the field is in seconds.
		expect(drills.get("long-sit")).toMatchObject({ hold: 120, cues: ["Toes long"] });
		expect(drills.get("dish-hold")).toMatchObject({ hold: 30 });
		expect(drills.get("dish-hold")).not.toHaveProperty("cues");
		expect(drills.get("long-sit")).not.toHaveProperty("caution");
	});

	it("tells each thing that it leaves out, at its place", async () => {
		const { told } = await imported("plan.xlsx", readFileSync(file));
		for (const note of [
			[5, undefined, "the row is hidden and left out"],
			[6, undefined, "the row is struck out and left out"],
			[7, "F", "the cell is struck out and left out"],
			[8, "B", "the cell is struck out and left out"],
			[10, undefined, "the row is hidden and left out"],
			[undefined, "G", "the column is hidden and left out"],
		])
			expect(told).toContainEqual(note);
		expect(told.filter(([, , what]) => what === "the sheet is hidden and left out")).toHaveLength(2);
		expect(told.filter(([row]) => row === 9 || row === 11)).toEqual([]);
	});
});

it("a row that another library struck out is left out as well", async () => {
	const cell = (value: string, strikethrough = false) => ({
		value,
		...(strikethrough ? { textDecoration: { strikethrough: true } } : {}),
	});
	const bytes = await writeXlsxFile(
		[
			["Drill", "Apparatus", "Levels"].map((value) => cell(value)),
			["Neck bridge", "floor", "Junior"].map((value) => cell(value, true)),
			["Log roll", "floor", "Junior"].map((value) => cell(value)),
		],
		{ sheet: "Drills" },
	).toBuffer();
	const { drills, told } = await imported("plan.xlsx", bytes);
	expect([...drills.keys()]).toEqual(["log-roll"]);
	expect(told).toContainEqual([2, undefined, "the row is struck out and left out"]);
});
