/**
 * spacing, load, time and equipment counted a second time by a SQL engine (SQLite, as sql.js) from the
 * exposures and the plan's plain facts, on the demo club and the fixture clubs.
 */

import { join } from "node:path";
import fc from "fast-check";
import initSqlJs, { type Database, type SqlJsStatic, type SqlValue } from "sql.js";
import { describe, expect, it } from "vitest";
import type { Measured } from "../../scripts/compute/measure.ts";
import { measure } from "../../scripts/compute/measures.ts";
import { rounded } from "../../scripts/compute/tables.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { build, type Draft } from "./build-curriculum.ts";
import { club } from "./random-club.ts";

const CLUBS: readonly (readonly [string, string])[] = [
	["the demo club", REPOSITORY],
	["the base club", join(FIXTURES, "base-club")],
	["one station of several counts for a level", join(FIXTURES, "clubs/one-station-counts")],
	["a drill on two apparatus", join(FIXTURES, "clubs/two-apparatus")],
	["ten drills", join(FIXTURES, "clubs/ten-drills")],
];

const SPACING = `
	WITH taught AS (
		SELECT DISTINCT t.kind, t.id, e.level, e.week FROM exposure e JOIN trains t ON t.drill = e.drill
	), gaps AS (
		SELECT *, week - LAG(week) OVER (PARTITION BY kind, id, level ORDER BY week) AS gap FROM taught
	)
	SELECT kind, id, level, COUNT(*), MIN(week), MAX(week), MAX(gap) FROM gaps GROUP BY kind, id, level`;

const LOAD = `
	WITH total AS (
		SELECT e.week, e.level,
			SUM(COALESCE(c.landings, 0) * COALESCE(e.repetitions, 1)) AS landings,
			SUM(COALESCE(c.hands, 0) * COALESCE(e.repetitions, 1)) AS hands
		FROM exposure e LEFT JOIN contacts c ON c.drill = e.drill
		GROUP BY e.week, e.level
	)
	SELECT t.week, t.level, t.landings, t.hands,
		CASE WHEN t.week > 3 THEN t.landings / NULLIF((SELECT SUM(b.landings) / 3.0 FROM total b
			WHERE b.level = t.level AND b.week BETWEEN t.week - 3 AND t.week - 1), 0) END,
		CASE WHEN t.week > 3 THEN t.hands / NULLIF((SELECT SUM(b.hands) / 3.0 FROM total b
			WHERE b.level = t.level AND b.week BETWEEN t.week - 3 AND t.week - 1), 0) END
	FROM total t`;

/** Which class does which station: its level is named by the block and offered by the drill. */
const DOES = `
	does AS (
		SELECT DISTINCT g.class, g.warm_up, g.cool_down, g.available, g.gymnasts,
			s.week, s.apparatus, s.block, s.station, s.drill, s.minutes, s.change
		FROM station s
		JOIN rotation r ON r.apparatus = s.apparatus
		JOIN class g ON g.class = r.class
		JOIN class_level cl ON cl.class = g.class
		JOIN block_level bl ON bl.week = s.week AND bl.apparatus = s.apparatus AND bl.block = s.block
			AND bl.level = cl.level
		JOIN offers o ON o.drill = s.drill AND o.level = cl.level
	), counted AS (
		SELECT *, COUNT(*) OVER (PARTITION BY class, week, apparatus, block) AS n FROM does
	), here AS (
		SELECT *, (gymnasts + n - 1) / n AS at_drill, MAX(0, (minutes - (n - 1) * change) / n) AS each FROM counted
	)`;

const TIME = `
	WITH ${DOES}, worked AS (
		SELECT class, week, SUM(minutes) AS minutes
		FROM (SELECT DISTINCT class, week, apparatus, block, minutes FROM here) GROUP BY class, week
	), moved AS (
		SELECT h.class, h.week, SUM(h.each * MIN(1.0, COALESCE(t.at_once * 1.0 / h.at_drill, 1.0))) AS minutes
		FROM here h LEFT JOIN turn t ON t.drill = h.drill GROUP BY h.class, h.week
	)
	SELECT w.week, w.class, g.warm_up + w.minutes + g.cool_down, g.available, (g.warm_up + m.minutes) / g.available
	FROM worked w JOIN moved m ON m.class = w.class AND m.week = w.week JOIN class g ON g.class = w.class`;

const EQUIPMENT = `
	WITH ${DOES}, largest AS (
		SELECT week, apparatus, block, station, at_drill,
			ROW_NUMBER() OVER (PARTITION BY week, apparatus, block, station ORDER BY h.gymnasts DESC, g.place) AS rank
		FROM here h JOIN class g ON g.class = h.class
	), blocks AS (
		SELECT s.week, s.apparatus, s.block, u.item,
			SUM(u.count * CASE u.per WHEN 'gymnast' THEN COALESCE(l.at_drill, 1) ELSE 1 END) AS needed
		FROM station s JOIN uses u ON u.drill = s.drill
		LEFT JOIN largest l ON l.week = s.week AND l.apparatus = s.apparatus AND l.block = s.block
			AND l.station = s.station AND l.rank = 1
		GROUP BY s.week, s.apparatus, s.block, u.item
	)
	SELECT b.week, b.apparatus, b.item, MAX(b.needed), i.owned
	FROM blocks b JOIN item i ON i.item = b.item GROUP BY b.week, b.apparatus, b.item`;

describe.each(CLUBS)("%s", (_name, base) => {
	it("has the same spacing, load, time and equipment for a SQL engine", async () => {
		const { handbook } = openHandbook(clubCopy(undefined, base));
		if (handbook === undefined) throw new Error("the club has errors");
		compare(handbook, await initSqlJs());
	});
});

describe("random clubs", () => {
	it("have the same spacing, load, time and equipment for a SQL engine", async () => {
		const SQL = await initSqlJs();
		let rows = 0;
		fc.assert(
			fc.property(club, (draft: Draft) => {
				const measured = measure(build(draft));
				compare(measured, SQL);
				rows += [...measured.tables.values()].reduce((sum, table) => sum + table.rows.length, 0);
			}),
			{ numRuns: 60 },
		);
		expect(rows).toBeGreaterThan(1000);
	});
});

function compare(measured: Measured, SQL: SqlJsStatic): void {
	const db = database(measured, SQL);
	for (const [name, query] of [
		["spacing", SPACING],
		["load", LOAD],
		["time", TIME],
		["equipment", EQUIPMENT],
	] as const) {
		const recount = (db.exec(query)[0]?.values ?? []).map(line).sort();
		const table = measured.tables.get(name);
		const ours = (table?.rows ?? []).map((row) => line(row.map((cell) => cell ?? null))).sort();
		expect(table?.name).toBe(name);
		expect(ours, name).toEqual(recount);
	}
	db.close();
}

function line(row: readonly SqlValue[]): string {
	return row.map((cell) => (typeof cell === "number" ? rounded(cell) : (cell ?? ""))).join(",");
}

function database({ curriculum, exposures }: Measured, SQL: SqlJsStatic): Database {
	const db = new SQL.Database();
	const table = (name: string, columns: string, rows: readonly (readonly SqlValue[])[]): void => {
		db.run(`CREATE TABLE ${name} (${columns})`);
		const insert = db.prepare(
			`INSERT INTO ${name} VALUES (${columns
				.split(",")
				.map(() => "?")
				.join(",")})`,
		);
		for (const row of rows) insert.run([...row]);
		insert.free();
	};
	const drills = [...curriculum.drills.values()];
	const levels = [...curriculum.levels.keys()];
	const classes = curriculum.term.classes;
	const blocks = curriculum.weeks.flatMap(({ week, apparatus }) =>
		apparatus.flatMap((plan) => plan.blocks.map((block) => ({ week, apparatus: plan.apparatus, block }))),
	);
	table(
		"exposure",
		"week INT, level, drill, repetitions REAL",
		exposures.map((e) => [e.week, e.level, e.drill, e.repetitions ?? null]),
	);
	table("trains", "drill, kind, id", [
		...drills.flatMap((d) => d.shapes.map((id) => [d.id, "shape", id])),
		...drills.flatMap((d) => d.skills.map((id) => [d.id, "skill", id])),
	]);
	table(
		"contacts",
		"drill, landings REAL, hands REAL",
		drills.flatMap((d) => (d.contacts === undefined ? [] : [[d.id, d.contacts.landings, d.contacts.hands]])),
	);
	table(
		"offers",
		"drill, level",
		drills.flatMap((d) => [...d.levels.keys()].map((level) => [d.id, level])),
	);
	table(
		"turn",
		"drill, at_once INT",
		drills.flatMap((d) => (d.turn === undefined ? [] : [[d.id, d.turn.atOnce]])),
	);
	table(
		"uses",
		"drill, item, count INT, per",
		drills.flatMap((d) => d.equipment.map((u) => [d.id, u.item, u.count, u.per])),
	);
	table(
		"item",
		"item, owned INT",
		[...curriculum.equipment.values()].map((i) => [i.id, i.owned ?? null]),
	);
	table(
		"class",
		"class, place INT, warm_up REAL, cool_down REAL, available REAL, gymnasts INT",
		classes.map((c, i) => [c.id, i, c.warmUp, c.coolDown, c.minutes ?? null, c.gymnasts]),
	);
	table(
		"class_level",
		"class, level",
		classes.flatMap((c) => (c.levels.length === 0 ? levels : c.levels).map((l) => [c.id, l])),
	);
	table(
		"rotation",
		"class, apparatus",
		classes.flatMap((c) => [...new Set(c.rotation)].map((a) => [c.id, a])),
	);
	table(
		"station",
		"week INT, apparatus, block INT, station INT, drill, minutes REAL, change REAL",
		blocks.flatMap(({ week, apparatus, block }) =>
			block.stations.map((s, i) => [week, apparatus, block.number, i, s.drill, block.minutes, block.change]),
		),
	);
	table(
		"block_level",
		"week INT, apparatus, block INT, level",
		blocks.flatMap(({ week, apparatus, block }) =>
			(block.levels.length === 0 ? levels : block.levels).map((l) => [week, apparatus, block.number, l]),
		),
	);
	return db;
}
