/**
 * spacing, practice, reach, load, coaches (and what closes with fewer), set-out, time and equipment
 * counted a second time by a SQL engine (SQLite, as sql.js) from the exposures and the plan's plain facts,
 * on the demo club, the fixture clubs and random ones.
 */

import { join } from "node:path";
import fc from "fast-check";
import initSqlJs, { type Database, type SqlJsStatic, type SqlValue } from "sql.js";
import { describe, expect, it } from "vitest";
import { teachingWeeks } from "../../scripts/compute/calendar.ts";
import { closedWith, coachesRows } from "../../scripts/compute/coaches.ts";
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
	["groups side by side", join(FIXTURES, "clubs/groups-side-by-side")],
	["a coach is missing", join(FIXTURES, "clubs/a-coach-is-missing")],
];

const SPACING = `
	WITH taught AS (
		SELECT DISTINCT t.kind, t.id, e.level, e.week FROM exposure e JOIN trains t ON t.drill = e.drill
	), gaps AS (
		SELECT *, week - LAG(week) OVER (PARTITION BY kind, id, level ORDER BY week) AS gap FROM taught
	)
	SELECT kind, id, level, COUNT(*), MIN(week), MAX(week), MAX(gap) FROM gaps GROUP BY kind, id, level`;

/**
 * What each group does at each station: the first of its levels, in the club's order, that the block
 * names and the drill offers, in a meeting that is its own.
 */
const DOES = `
	able AS (
		SELECT g.grp, g.class, g.gymnasts, g.coaches, s.*, gl.level,
			ROW_NUMBER() OVER (PARTITION BY g.grp, s.week, s.apparatus, s.block, s.station ORDER BY gl.rank) AS first
		FROM station s
		JOIN rotation r ON r.apparatus = s.apparatus
		JOIN grp g ON g.grp = r.grp
		JOIN meets m ON m.grp = g.grp AND m.week = s.week
		JOIN grp_level gl ON gl.grp = g.grp
		JOIN block_level bl ON bl.week = s.week AND bl.apparatus = s.apparatus AND bl.block = s.block
			AND bl.level = gl.level
		JOIN offers o ON o.drill = s.drill AND o.level = gl.level
		WHERE NOT EXISTS (SELECT 1 FROM block_session x
				WHERE x.week = s.week AND x.apparatus = s.apparatus AND x.block = s.block)
			OR EXISTS (SELECT 1 FROM block_session x
				WHERE x.week = s.week AND x.apparatus = s.apparatus AND x.block = s.block AND x.session = g.session)
	), counted AS (
		SELECT *, COUNT(*) OVER (PARTITION BY grp, week, apparatus, block) AS n FROM able WHERE first = 1
	), here AS (
		SELECT c.*,
			(c.gymnasts + (CASE c.kind WHEN 'options' THEN 1 ELSE c.n END) - 1)
				/ (CASE c.kind WHEN 'options' THEN 1 ELSE c.n END) AS at_drill,
			MAX(0, (c.minutes - c.show - (CASE c.kind WHEN 'options' THEN 0 ELSE c.n - 1 END) * c.change) / c.n) AS each,
			CASE c.kind WHEN 'options' THEN MIN(1.0, c.choose * 1.0 / c.n) ELSE 1.0 END AS share,
			COALESCE(d.sets, o.sets) AS sets, COALESCE(d.reps, o.reps) AS reps,
			o.seconds, o.at_once, o.turn_reps, o.landings, o.hands, o.spotters, o.watched
		FROM counted c
		JOIN offers o ON o.drill = c.drill AND o.level = c.level
		LEFT JOIN dose d ON d.week = c.week AND d.apparatus = c.apparatus AND d.block = c.block AND d.level = c.level
	), turned AS (
		SELECT *, CAST(60 * each * MIN(at_once, at_drill) / (at_drill * seconds) + 1e-9 AS INT) AS turns,
			CASE WHEN sets IS NULL AND reps IS NULL THEN NULL
				ELSE COALESCE(sets, 1) * COALESCE(reps, 1) * share END AS planned
		FROM here
	), practised AS (
		SELECT *, turns * COALESCE(turn_reps, reps, 1) AS fits,
			CASE WHEN planned IS NULL THEN turns * COALESCE(turn_reps, reps, 1)
				WHEN turns IS NULL THEN planned
				ELSE MIN(planned, turns * COALESCE(turn_reps, reps, 1)) END AS done
		FROM turned
	)`;

const PRACTICE = `
	WITH ${DOES}
	SELECT week, grp, apparatus, block, drill, SUM(turns), SUM(planned), SUM(fits), SUM(done)
	FROM practised GROUP BY week, grp, apparatus, block, drill`;

const REACH = `
	WITH ${DOES}, met AS (
		SELECT t.kind, t.id, p.grp, p.week, p.each,
			CASE WHEN t.kind = 'shape' THEN NULL WHEN t.performs > 0 THEN COALESCE(p.done, 0) * t.performs ELSE 0 END AS performed,
			CASE WHEN t.kind = 'shape' THEN NULL WHEN t.performs > 0 THEN 0 ELSE COALESCE(p.done, 0) END AS prepared
		FROM practised p JOIN trains t ON t.drill = p.drill
	), weeks AS (
		SELECT kind, id, grp, week, week - LAG(week) OVER (PARTITION BY kind, id, grp ORDER BY week) AS gap
		FROM (SELECT DISTINCT kind, id, grp, week FROM met)
	)
	SELECT m.kind, m.id, m.grp, w.many, SUM(m.each), SUM(m.performed), SUM(m.prepared), w.first, w.last, w.gap
	FROM met m JOIN (
		SELECT kind, id, grp, COUNT(*) AS many, MIN(week) AS first, MAX(week) AS last, MAX(gap) AS gap
		FROM weeks GROUP BY kind, id, grp
	) w ON w.kind = m.kind AND w.id = m.id AND w.grp = m.grp
	GROUP BY m.kind, m.id, m.grp`;

/** Calendar weeks before: place in the calendar, closed weeks among them. */
const LOAD = `
	WITH ${DOES}, total AS (
		SELECT week, grp,
			SUM(COALESCE(landings, 0) * COALESCE(done, 1)) AS landings,
			SUM(COALESCE(hands, 0) * COALESCE(done, 1)) AS hands,
			SUM(COALESCE(landings, 0) * COALESCE(planned, done, 1)) AS planned_landings,
			SUM(COALESCE(hands, 0) * COALESCE(planned, done, 1)) AS planned_hands
		FROM practised GROUP BY week, grp
	), placed AS (
		SELECT t.*, c.place FROM total t JOIN calendar c ON c.week = t.week
	)
	SELECT t.week, t.grp, t.landings, t.hands, t.planned_landings, t.planned_hands,
		CASE WHEN t.place > 0 THEN t.landings / NULLIF((SELECT SUM(b.landings) * 1.0 / MIN(3, t.place) FROM placed b
			WHERE b.grp = t.grp AND b.place BETWEEN t.place - 3 AND t.place - 1), 0) END,
		CASE WHEN t.place > 0 THEN t.hands / NULLIF((SELECT SUM(b.hands) * 1.0 / MIN(3, t.place) FROM placed b
			WHERE b.grp = t.grp AND b.place BETWEEN t.place - 3 AND t.place - 1), 0) END
	FROM placed t`;

const COACHES = `
	WITH ${DOES}, asked AS (
		SELECT *, CASE WHEN spotters = 0 AND watched THEN 1 ELSE 0 END AS eyes FROM practised
	), blocks AS (
		SELECT week, grp, apparatus, block, coaches, kind, SUM(spotters) AS hands, SUM(eyes) AS eyes
		FROM asked WHERE kind <> 'options' GROUP BY week, grp, apparatus, block
		UNION ALL
		SELECT week, grp, apparatus, block, coaches, kind, spotters, eyes FROM (
			SELECT *, ROW_NUMBER() OVER (
				PARTITION BY week, grp, apparatus, block ORDER BY spotters + eyes DESC, station
			) AS most FROM asked WHERE kind = 'options'
		) WHERE most = 1
	)
	SELECT week, grp, apparatus, block, hands, eyes, hands + (eyes > 0), coaches FROM blocks`;

/**
 * The stations that close where so many coaches are left: with those that ask for as many hands or fewer
 * (of equals, the earlier), they are too much for them. A choice is made of one option at a time.
 */
const closedWhere = (left: number): string => `
	WITH ${DOES}, asked AS (
		SELECT *, CASE WHEN spotters = 0 AND watched THEN 1 ELSE 0 END AS eyes FROM practised
	), open AS (
		SELECT *,
			SUM(spotters) OVER (
				PARTITION BY week, grp, apparatus, block ORDER BY spotters, station ROWS UNBOUNDED PRECEDING
			) AS hands_open,
			MAX(eyes) OVER (PARTITION BY week, grp, apparatus, block) AS eyes_open
		FROM asked
	)
	SELECT week, grp, apparatus, block, station + 1 FROM open
	WHERE CASE kind WHEN 'options' THEN spotters + eyes ELSE hands_open + eyes_open END > ${left}`;

/**
 * What groups of a class use at the same minute adds up, on one apparatus (together) and on all of them (at
 * once); it is greatest at some block's beginning. The clock is counted anew from warm-up, minutes and ways.
 */
const SET_OUT = `
	WITH ${DOES}, stations AS (
		SELECT h.week, h.grp, h.class, h.apparatus, h.block, h.station, h.kind, u.item,
			SUM(u.count * CASE u.per WHEN 'gymnast' THEN h.at_drill ELSE 1 END) AS needed
		FROM here h JOIN uses u ON u.drill = h.drill AND u.level = h.level
		GROUP BY h.week, h.grp, h.apparatus, h.block, h.station, u.item
	), needs AS (
		SELECT week, grp, class, apparatus, block, item,
			CASE kind WHEN 'options' THEN MAX(needed) ELSE SUM(needed) END AS needed
		FROM stations GROUP BY week, grp, apparatus, block, item
	), lasting AS (
		SELECT h.week, h.grp, h.class, h.apparatus, h.block, h.minutes, r.place,
			SUM(h.minutes) OVER line AS worked, DENSE_RANK() OVER (PARTITION BY h.week, h.grp ORDER BY r.place) AS visit
		FROM (SELECT DISTINCT week, grp, class, apparatus, block, minutes FROM here) h
		JOIN rotation r ON r.grp = h.grp AND r.apparatus = h.apparatus
		WINDOW line AS (PARTITION BY h.week, h.grp ORDER BY r.place, h.block)
	), span AS (
		SELECT l.week, l.grp, l.class, l.apparatus, l.block,
			c.warm_up + l.worked - l.minutes + c.way * (l.visit - 1) AS starts,
			c.warm_up + l.worked + c.way * (l.visit - 1) AS ends
		FROM lasting l JOIN class c ON c.class = l.class
	), moment AS (
		SELECT s.week, s.class, s.grp, s.apparatus, s.block, o.apparatus AS other, n.item, SUM(n.needed) AS needed
		FROM span s
		JOIN span o ON o.week = s.week AND o.class = s.class
			AND CASE WHEN o.grp = s.grp THEN o.apparatus = s.apparatus AND o.block = s.block
				ELSE o.starts <= s.starts AND s.starts < o.ends END
		JOIN needs n ON n.week = o.week AND n.grp = o.grp AND n.apparatus = o.apparatus AND n.block = o.block
		GROUP BY s.week, s.class, s.grp, s.apparatus, s.block, o.apparatus, n.item
	), areas AS (
		SELECT week, class, item, other, MAX(needed) AS needed FROM moment GROUP BY week, class, item, other
	), minutes AS (
		SELECT week, class, item, SUM(needed) AS needed FROM moment GROUP BY week, class, item, grp, apparatus, block
	)
	SELECT a.week, a.class, a.item, SUM(a.needed),
		(SELECT MAX(m.needed) FROM minutes m WHERE m.week = a.week AND m.class = a.class AND m.item = a.item), i.owned
	FROM areas a JOIN item i ON i.item = a.item GROUP BY a.week, a.class, a.item HAVING SUM(a.needed) > 0`;

/**
 * Groups work at the same time: a class lasts as long as the longest, its shares are means over gymnasts, and
 * its new drills are those of the group that meets most. Classes joined by same-as are the same gymnasts.
 */
const TIME = `
	WITH ${DOES}, worked AS (
		SELECT grp, class, week, SUM(minutes) AS minutes, COUNT(DISTINCT apparatus) AS visited
		FROM (SELECT DISTINCT grp, class, week, apparatus, block, minutes FROM here) GROUP BY grp, week
	), moved AS (
		SELECT grp, week, SUM(CASE WHEN seconds IS NULL THEN 0 ELSE each * MIN(1.0, at_once * 1.0 / at_drill) END) AS minutes,
			SUM(CASE WHEN seconds IS NULL THEN each ELSE 0 END) AS unknown
		FROM here GROUP BY grp, week
	), firsts AS (
		SELECT g.gymnasts_id, h.drill, MIN(h.week * 100 + g.session) AS first
		FROM here h JOIN grp g ON g.grp = h.grp GROUP BY g.gymnasts_id, h.drill
	), one AS (
		SELECT w.week, w.class, w.minutes + c.way * (w.visited - 1) AS lasts,
			g.gymnasts, g.gymnasts * (c.warm_up + m.minutes) AS moving, g.gymnasts * m.unknown AS unknown,
			(SELECT COUNT(*) FROM firsts f WHERE f.gymnasts_id = g.gymnasts_id AND f.first = w.week * 100 + g.session) AS new
		FROM worked w JOIN moved m ON m.grp = w.grp AND m.week = w.week
		JOIN grp g ON g.grp = w.grp JOIN class c ON c.class = w.class
	), whole AS (
		SELECT week, class, MAX(lasts) AS lasts, MAX(new) AS new,
			SUM(moving) * 1.0 / SUM(gymnasts) AS moving, SUM(unknown) * 1.0 / SUM(gymnasts) AS unknown
		FROM one GROUP BY week, class
	)
	SELECT w.week, w.class, c.warm_up + w.lasts + c.cool_down, c.available,
		CASE WHEN c.available - w.unknown > 1e-9 THEN w.moving / (c.available - w.unknown) END,
		w.unknown / c.available, w.new
	FROM whole w JOIN class c ON c.class = w.class`;

/** Which group does which station at which level, met or not: the list of an apparatus is by the plan. */
const PLANNED_FOR = `
	able AS (
		SELECT g.grp, g.place, g.gymnasts, s.week, s.apparatus, s.block, s.station, s.kind, gl.level,
			ROW_NUMBER() OVER (PARTITION BY g.grp, s.week, s.apparatus, s.block, s.station ORDER BY gl.rank) AS first
		FROM station s
		JOIN rotation r ON r.apparatus = s.apparatus
		JOIN grp g ON g.grp = r.grp
		JOIN grp_level gl ON gl.grp = g.grp
		JOIN block_level bl ON bl.week = s.week AND bl.apparatus = s.apparatus AND bl.block = s.block
			AND bl.level = gl.level
		JOIN offers o ON o.drill = s.drill AND o.level = gl.level
	), counted AS (
		SELECT *, CASE kind WHEN 'options' THEN 1
			ELSE COUNT(*) OVER (PARTITION BY grp, week, apparatus, block) END AS n FROM able WHERE first = 1
	), largest AS (
		SELECT *, (gymnasts + n - 1) / n AS at_drill, ROW_NUMBER() OVER (
			PARTITION BY week, apparatus, block, station, level ORDER BY gymnasts DESC, place
		) AS rank FROM counted
	)`;

const EQUIPMENT = `
	WITH ${PLANNED_FOR}, by_level AS (
		SELECT s.week, s.apparatus, s.block, s.station, s.kind, u.item,
			SUM(u.count * CASE u.per WHEN 'gymnast' THEN COALESCE(l.at_drill, 1) ELSE 1 END) AS needed
		FROM station s
		JOIN block_level bl ON bl.week = s.week AND bl.apparatus = s.apparatus AND bl.block = s.block
		JOIN uses u ON u.drill = s.drill AND u.level = bl.level
		LEFT JOIN largest l ON l.week = s.week AND l.apparatus = s.apparatus AND l.block = s.block
			AND l.station = s.station AND l.level = bl.level AND l.rank = 1
		GROUP BY s.week, s.apparatus, s.block, s.station, bl.level, u.item
	), stations AS (
		SELECT week, apparatus, block, station, kind, item, MAX(needed) AS needed FROM by_level
		GROUP BY week, apparatus, block, station, item
	), blocks AS (
		SELECT week, apparatus, block, item,
			CASE kind WHEN 'options' THEN MAX(needed) ELSE SUM(needed) END AS needed
		FROM stations GROUP BY week, apparatus, block, item
	)
	SELECT b.week, b.apparatus, b.item, MAX(b.needed), i.owned
	FROM blocks b JOIN item i ON i.item = b.item GROUP BY b.week, b.apparatus, b.item`;

describe.each(CLUBS)("%s", (_name, base) => {
	it("has the same tables for a SQL engine", async () => {
		const { handbook } = openHandbook(clubCopy(undefined, base));
		if (handbook === undefined) throw new Error("the club has errors");
		compare(handbook, await initSqlJs());
	});
});

describe("random clubs", () => {
	it("have the same tables for a SQL engine", async () => {
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
		["practice", PRACTICE],
		["reach", REACH],
		["load", LOAD],
		["coaches", COACHES],
		["set-out", SET_OUT],
		["time", TIME],
		["equipment", EQUIPMENT],
	] as const) {
		const recount = (db.exec(query)[0]?.values ?? []).map(line).sort();
		const table = measured.tables.get(name);
		const ours = (table?.rows ?? []).map((row) => line(row.map((cell) => cell ?? null))).sort();
		expect(table?.name).toBe(name);
		expect(ours, name).toEqual(recount);
	}
	for (const left of [1, 2]) {
		const closed = coachesRows(measured.curriculum).flatMap(({ week, group, block, apparatus }) =>
			closedWith(left, block).map((station) =>
				line([week, group.name, apparatus, block.block.number, station]),
			),
		);
		const recount = (db.exec(closedWhere(left))[0]?.values ?? []).map(line);
		expect(closed.sort(), `with ${left} left`).toEqual(recount.sort());
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
	table("trains", "drill, kind, id, performs INT", [
		...drills.flatMap((d) => d.shapes.map((id) => [d.id, "shape", id, 0])),
		...drills.flatMap((d) =>
			[...new Set([...d.skills, ...d.performs, ...d.elements.flatMap((e) => e.skill ?? [])])].map((id) => {
				const counts = d.elements.filter((e) => e.skill === id).map((e) => e.count);
				const inChain = counts.reduce((sum, count) => sum + count, 0);
				return [d.id, "skill", id, inChain > 0 ? inChain : d.performs.includes(id) ? 1 : 0];
			}),
		),
	]);
	table(
		"offers",
		"drill, level, sets REAL, reps REAL, seconds REAL, at_once INT, turn_reps INT, landings REAL, hands REAL, spotters INT, watched INT",
		drills.flatMap((d) =>
			[...d.levels].map(([level, own]) => {
				const turn = own.turn ?? d.turn;
				const contacts = own.contacts ?? d.contacts;
				const spotters = own.spotters ?? d.spotters ?? 0;
				return [
					d.id,
					level,
					own.sets ?? d.sets ?? null,
					own.reps ?? d.reps ?? null,
					turn?.seconds ?? null,
					turn?.atOnce ?? null,
					turn?.reps ?? null,
					contacts?.landings ?? null,
					contacts?.hands ?? null,
					spotters,
					(own.watch ?? d.watch ?? spotters > 0) ? 1 : 0,
				];
			}),
		),
	);
	table(
		"uses",
		"drill, level, item, count INT, per",
		drills.flatMap((d) =>
			[...d.levels].flatMap(([level, own]) =>
				(own.equipment ?? d.equipment).map((u) => [d.id, level, u.item, u.count, u.per]),
			),
		),
	);
	table(
		"item",
		"item, owned INT",
		[...curriculum.equipment.values()].map((i) => [i.id, i.owned ?? null]),
	);
	table(
		"class",
		"class, place INT, warm_up REAL, cool_down REAL, way REAL, available REAL, gymnasts INT",
		classes.map((c, i) => [c.id, i, c.warmUp, c.coolDown, c.between, c.minutes ?? null, c.gymnasts]),
	);
	const groups = classes.flatMap((c) =>
		c.groups.length === 0
			? [{ ...c, name: c.id, class: c }]
			: c.groups.map((g) => ({ ...g, name: `${c.id}/${g.id}`, class: c })),
	);
	// The same gymnasts on other days: their meetings of the week are numbered by day and hour.
	const week7 = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
	const moment = (c: (typeof classes)[number]): string =>
		`${week7.indexOf(c.day ?? "sunday")} ${c.start ?? ""}`;
	const sessionOf = (c: (typeof classes)[number]): number => {
		const root = c.sameAs ?? c.id;
		return classes.filter((o) => (o.sameAs ?? o.id) === root && moment(o) <= moment(c)).length;
	};
	table(
		"grp",
		"grp, gymnasts_id, class, place INT, session INT, gymnasts INT, coaches INT",
		groups.map((g, i) => [
			g.name,
			g.name.replace(g.class.id, g.class.sameAs ?? g.class.id),
			g.class.id,
			i,
			sessionOf(g.class),
			g.gymnasts,
			g.coaches ?? null,
		]),
	);
	table(
		"grp_level",
		"grp, level, rank INT",
		groups.flatMap((g) =>
			(g.levels.length === 0 ? levels : g.levels).map((l) => [g.name, l, levels.indexOf(l)]),
		),
	);
	table(
		"rotation",
		"grp, apparatus, place INT",
		groups.flatMap((g) => [...new Set(g.rotation)].map((a, i) => [g.name, a, i])),
	);
	const days = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
	const weeks = teachingWeeks(curriculum.term);
	const isClosed = (date: string) => curriculum.term.closed.some((c) => c.from <= date && date <= c.to);
	table(
		"meets",
		"grp, week INT",
		groups.flatMap((g) =>
			curriculum.weeks.flatMap(({ week }) => {
				const date = g.class.day && weeks[week - 1]?.days[days.indexOf(g.class.day)];
				return date !== undefined && isClosed(date) ? [] : [[g.name, week]];
			}),
		),
	);
	const monday = (date: string) => Date.parse(date) / (7 * 24 * 3_600_000);
	table(
		"calendar",
		"week INT, place INT",
		curriculum.term.starts === undefined || weeks.length === 0
			? curriculum.weeks.map(({ week }) => [week, week - 1])
			: weeks.map((w) => [w.week, Math.round(monday(w.monday) - monday(curriculum.term.starts ?? ""))]),
	);
	table(
		"dose",
		"week INT, apparatus, block INT, level, sets REAL, reps REAL",
		blocks.flatMap(({ week, apparatus, block }) =>
			levels.flatMap((level) => {
				const dose = block.doses.get(level) ?? block.dose;
				return dose === undefined
					? []
					: [[week, apparatus, block.number, level, dose.sets ?? null, dose.reps ?? null]];
			}),
		),
	);
	table(
		"block_session",
		"week INT, apparatus, block INT, session INT",
		blocks.flatMap(({ week, apparatus, block }) =>
			block.sessions.map((session) => [week, apparatus, block.number, session]),
		),
	);
	table(
		"station",
		"week INT, apparatus, block INT, station INT, drill, minutes REAL, change REAL, show REAL, kind, choose INT",
		blocks.flatMap(({ week, apparatus, block }) =>
			block.stations.map((s, i) => [
				week,
				apparatus,
				block.number,
				i,
				s.drill,
				block.minutes,
				block.change,
				block.show,
				block.kind,
				block.choose,
			]),
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
