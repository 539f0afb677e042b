/**
 * Ten plans in the shapes in which clubs keep theirs, made up for the tests: grids both ways, one sheet a
 * week, a level or an area, lists, a table copied from a word processor as text and as HTML; with a title
 * above, merged cells, doses in words, closed weeks, and what is struck out or hidden.
 */

import writeXlsxFile from "write-excel-file/node";

type Row = readonly (string | number | null)[];

export interface ClubPlan {
	readonly how: string;
	readonly file: string;
	readonly bytes: () => Promise<Buffer | string>;
}

function csv(rows: readonly Row[], sign = ","): string {
	const cell = (value: string | number | null) => {
		const text = String(value ?? "");
		return /[",;\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
	};
	return rows.map((row) => row.map(cell).join(sign)).join("\r\n");
}

async function workbook(sheets: Readonly<Record<string, readonly Row[]>>): Promise<Buffer> {
	return writeXlsxFile(
		Object.entries(sheets).map(([sheet, rows]) => ({
			sheet,
			data: rows.map((row) =>
				row.map((value) =>
					value === null ? null : { value, type: typeof value === "number" ? Number : String },
				),
			),
		})) as Parameters<typeof writeXlsxFile>[0] & readonly [],
	).toBuffer();
}

const WEEKS_DOWN: readonly Row[] = [
	["Spring term plan – all groups", null, null, null, null],
	[],
	["Week", "Theme", "Floor (15 min)", "Bars", "Beam"],
	[1, "Rolling", "Log roll 5 min\nEgg rock", "Long hang", "Beam walk, Relevé walk"],
	[
		2,
		"Upside down",
		"Bridge – 2 × 30 s hold\nLog roll (on wedge)",
		"Long hang 3x10s; Cast",
		"Beam walk 4 lengths",
	],
	[3, null, "Half term", "closed", "-"],
	[4, "Show what we know", "Egg rock 3 sets of 5 each side\nJump and land", "Cast 10 to 12", "Beam wlak"],
];

const HTML = `<html xmlns:o="urn:schemas-microsoft-com:office:office"><head><style>td{}</style></head><body>
<h2>Week 5 &ndash; Swing</h2>
<table border=1><tr><th>Area</th><th>What we do</th><th>Min</th></tr>
<tr><td rowspan=2>Floor</td><td><p>Egg rock</p></td><td>8</td></tr>
<tr><td><p>Log&nbsp;roll</p></td><td>7</td></tr>
<tr><td>Bars</td><td><s>Cast</s> Long hang</td><td>15</td></tr>
<tr style='display:none'><td>Bars</td><td>Neck bridge (do not use)</td><td>5</td></tr>
<tr><td>Beam</td><td><ul><li>Beam walk</li><li>Relev&eacute; walk</li></ul></td><td>15</td></tr>
</table></body></html>`;

export const PLANS: readonly ClubPlan[] = [
	{ how: "weeks down, areas across", file: "spring.csv", bytes: async () => csv(WEEKS_DOWN) },
	{
		how: "areas down, weeks across",
		file: "plan.csv",
		bytes: async () =>
			csv(
				[
					["Area", "Minutes", "Week 1", "Week 2: Landings"],
					["Warm-up", null, "Jump and land", "Egg rock; Jump and land"],
					["Floor", 20, "Log roll + Egg rock", "Bridge (12)\nLog roll"],
					["Beam", 12, "Beam walk", "Relevé walk"],
				],
				";",
			),
	},
	{
		how: "one sheet a week, areas across",
		file: "weeks.xlsx",
		bytes: () =>
			workbook({
				"Week 1": [
					["Floor", "Bars", "Beam"],
					["Log roll", "Long hang", "Beam walk"],
					["Egg rock", "Cast", null],
				],
				"Week 2": [
					["Floor", "Bars", "Beam"],
					["Bridge 5 min", "Cast 5 min", "Relevé walk 5 min"],
				],
			}),
	},
	{
		how: "one sheet a level, weeks down",
		file: "levels.xlsx",
		bytes: () =>
			workbook({
				"Level 1": [
					["Level 1 – spring"],
					["Wk", "Floor", "Beam"],
					["1", "Log roll", "Beam walk"],
					["2", "Egg rock", "Beam walk 2 × 3 e/s"],
				],
				"Level 2": [
					["Wk", "Floor", "Beam"],
					["1", "Bridge", "Relevé walk"],
					["2", "Handstand shapes on the wall", "Relevé walk"],
				],
				Costs: [
					["What", "Price"],
					["Chalk", 12],
				],
			}),
	},
	{
		how: "a list in French",
		file: "programme.csv",
		bytes: async () =>
			csv(
				[
					["Semaine", "Agrès", "Exercice", "Durée", "Niveau", "Remarque"],
					[1, "Sol", "Log roll", "8 min", "Level 1", "doucement"],
					[1, null, "Egg rock", "7 mn", "Level 1", null],
					[1, "Poutre", "Beam walk", "10", null, null],
					[2, "Barres", "Cast", "1/4 h", null, null],
				],
				";",
			),
	},
	{
		how: "a table copied from a word processor, as text with tabs",
		file: "copied.txt",
		bytes: async () =>
			["\tWeek 1\tWeek 2", "Floor 15'\tLog roll\tEgg rock", "Bars 10'\tLong hang\tCast 2-3 x 5"].join("\n"),
	},
	{ how: "a table copied from a word processor, as HTML", file: "copied.html", bytes: async () => HTML },
	{
		how: "weeks and levels down, areas across",
		file: "both.csv",
		bytes: async () =>
			csv([
				["Week", "Level", "Floor", "Bars", "Notes"],
				["Week 1", "L1", "Log roll", "Long hang", "new children"],
				[null, "L2", "Bridge", "Cast", null],
				["Week 2", "L1", "Egg rock", "Long hang 1:30", null],
				[null, "L2", "Bridge", "Cast", null],
			]),
	},
	{
		how: "one week alone, as a list",
		file: "Week 3.csv",
		bytes: async () =>
			csv([
				["Area", "Activity", "Time", "How many"],
				["Floor", "Log roll", "6 min", "3 sets of 5"],
				["Floor", "Egg rock", "9 min", "until it is quiet"],
				["Tramp", "Jump and land", "10 min", "2x6"],
			]),
	},
	{
		how: "one sheet an area, weeks down and levels across",
		file: "areas.xlsx",
		bytes: () =>
			workbook({
				Floor: [
					["Week", "Level 1", "Level 2"],
					[1, "Log roll 10 min", "Bridge 10 min"],
					[2, "Egg rock 10 min", "Bridge 10 min"],
				],
				Beam: [
					["w/c", "Level 1", "Level 2"],
					["04/01/2027", "Beam walk", "Relevé walk"],
					["2027-01-11", "Beam walk", "Relevé walk"],
				],
			}),
	},
];
