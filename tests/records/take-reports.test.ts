/**
 * Reports into the club's files: a term of the demo, reported by ten coaches over bad nets. Every tap
 * arrives once, the order does not matter, and what was planned and taught agrees with a recount by SQL.
 */

import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import initSqlJs from "sql.js";
import { describe, expect, it } from "vitest";
import { teachingWeeks } from "../../scripts/compute/calendar.ts";
import { groupsOfClass, isThere } from "../../scripts/compute/groups.ts";
import { asRecords } from "../../scripts/compute/tables.ts";
import { taughtOf } from "../../scripts/compute/taught.ts";
import { workOf } from "../../scripts/compute/work.ts";
import { changePlan } from "../../scripts/edit/change-plan.ts";
import type { ClubTexts } from "../../scripts/edit/club-texts.ts";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { markOf, type Report, readReports } from "../../scripts/records/report.ts";
import { takeReports } from "../../scripts/records/take-reports.ts";
import { demoHandbook } from "../demo.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";
import { playedTerm } from "./play-term.ts";

const demo = demoHandbook();

function shuffled<T>(list: readonly T[], random: () => number): readonly T[] {
	return list
		.map((one) => [random(), one] as const)
		.toSorted(([a], [b]) => a - b)
		.map(([, one]) => one);
}

/** Taken in several sittings, as files come in. */
function takenInParts(texts: ClubTexts, messages: readonly string[], sittings: number): ClubTexts {
	const size = Math.ceil(messages.length / sittings);
	let now = texts;
	for (let i = 0; i < messages.length; i += size) {
		const { reports, faults } = readReports(messages.slice(i, i + size).join("\n"));
		expect(faults).toEqual([]);
		now = takeReports(demo.curriculum, now, reports).texts;
	}
	return now;
}

const taughtIn = (texts: ClubTexts) => [...texts].filter(([path]) => path.startsWith("_data/taught/"));

describe("a term of ten coaches", () => {
	// Since the first edition, the plan has moved blocks in five weeks.
	const first = openHandbook(REPOSITORY, {
		change: (files) =>
			changePlan(
				files,
				[1, 2, 3, 5, 7]
					.flatMap((week) => ["floor", "beam"].map((one) => `${week}/${one}`))
					.map((at) => `- move: {from: ${at}/1, to: ${at}/2}`)
					.join("\n"),
			),
	}).handbook as Handbook;
	const { last, sent, random } = playedTerm([first.curriculum, demo.curriculum], 20270104);
	const before = readTexts(REPOSITORY);
	const taken = takenInParts(before, sent, 7);
	const dir = () => {
		const club = clubCopy(undefined, REPOSITORY);
		for (const [path, text] of taughtIn(taken)) {
			mkdirSync(dirname(join(club, path)), { recursive: true });
			writeFileSync(join(club, path), text);
		}
		return club;
	};

	it("gives the same files whatever the order and however often", () => {
		expect(sent.length).toBeGreaterThan(last.length);
		expect(taughtIn(taken)).toHaveLength(8);
		for (const sittings of [1, 3, 11]) {
			const again = takenInParts(before, shuffled([...sent, ...sent], random), sittings);
			expect(taughtIn(again)).toEqual(taughtIn(taken));
		}
	});

	it("brings every tap of the last word of each coach, once", () => {
		const { handbook, problems } = openHandbook(dir(), { taught: true });
		expect(problems).toEqual([]);
		const taught = handbook?.curriculum.taught ?? [];
		const taps = (all: readonly { blocks: readonly object[]; skills: readonly object[] }[], key: string) =>
			all.reduce(
				(sum, one) =>
					sum + [...one.blocks, ...one.skills].filter((entry) => Object.hasOwn(entry, key)).length,
				0,
			);
		expect(taught).toHaveLength(last.length);
		for (const key of ["done", "lost", "cause", "felt", "alone", "helped"]) {
			expect(taps(taught, key), key).toBe(taps(last, key));
		}
		const all = (list: readonly (Pick<Report, "class" | "note" | "skills"> & { readonly week: string })[]) =>
			list
				.map(({ week, class: own, note, skills }) =>
					JSON.stringify([
						week,
						own,
						note,
						skills.map(({ skill, of, alone, helped }) => [skill, of, alone, helped]),
					]),
				)
				.sort();
		expect(all(taught)).toEqual(all(last));
		expect(handbook && taughtOf(handbook.curriculum).unplaced).toEqual([]);
	});

	it("is of no edition, and nothing of it is in what is published", () => {
		const club = dir();
		const published = openHandbook(club).handbook;
		expect(published?.curriculum.taught).toEqual([]);
		expect([...(published?.tables.keys() ?? [])].filter((name) => /taught|learned|lost/.test(name))).toEqual(
			[],
		);
		expect(published?.fingerprint).toBe(demo.fingerprint);
		expect(published?.findings.map(({ what }) => what)).toEqual(demo.findings.map(({ what }) => what));
	});

	it("agrees with a recount by SQL: practice, reach, load, minutes lost, who can do it, and what was kept", async () => {
		const handbook = openHandbook(dir(), { taught: true }).handbook as Handbook;
		const SQL = await initSqlJs();
		const db = new SQL.Database();
		db.run("create table said (week, grp, apparatus, mark, number, done, lost, cause, felt)");
		db.run("create table plan (week, grp, apparatus, number, mark, minutes)");
		db.run(
			"create table station (week, grp, apparatus, number, drill, station, minutes, done, landings, hands)",
		);
		db.run("create table trains (drill, kind, id, performs)");
		db.run("create table calendar (week, place)");
		db.run("create table skill (week, grp, skill, of, alone, helped)");
		const { curriculum } = handbook;
		const number = new Map(curriculum.weeks.map(({ id, week }) => [id, week]));
		for (const report of last) {
			const name = (group: string | undefined) =>
				group === undefined ? report.class : `${report.class}/${group}`;
			const week = number.get(report.week) ?? 0;
			for (const b of report.blocks)
				db.run("insert into said values (?,?,?,?,?,?,?,?,?)", [
					week,
					name(b.group),
					b.apparatus,
					b.mark,
					b.block,
					b.done ?? null,
					b.lost ?? null,
					b.cause ?? null,
					b.felt ?? null,
				]);
			for (const s of report.skills)
				db.run("insert into skill values (?,?,?,?,?,?)", [
					week,
					name(s.group),
					s.skill,
					s.of,
					s.alone,
					s.helped,
				]);
		}
		for (const plan of curriculum.weeks) {
			for (const group of curriculum.term.classes.flatMap((own) => groupsOfClass(curriculum, own))) {
				if (!isThere(curriculum, plan.week, group)) continue;
				for (const { apparatus, block, stations } of workOf(curriculum, plan, group).blocks) {
					db.run("insert into plan values (?,?,?,?,?,?)", [
						plan.week,
						group.name,
						apparatus,
						block.number,
						markOf(stations.map(({ drill }) => drill.id)),
						block.minutes,
					]);
					for (const s of stations)
						db.run("insert into station values (?,?,?,?,?,?,?,?,?,?)", [
							plan.week,
							group.name,
							apparatus,
							block.number,
							s.drill.id,
							s.station,
							s.minutes,
							s.done ?? null,
							s.drill.contacts?.landings ?? null,
							s.drill.contacts?.hands ?? null,
						]);
				}
			}
		}
		for (const drill of curriculum.drills.values()) {
			const chain = Map.groupBy(drill.elements, ({ skill }) => skill);
			for (const id of drill.shapes)
				db.run("insert into trains values (?, 'shape', ?, null)", [drill.id, id]);
			for (const id of new Set([
				...drill.skills,
				...drill.performs,
				...drill.elements.flatMap((e) => e.skill ?? []),
			])) {
				const times = (chain.get(id) ?? []).reduce((sum, { count }) => sum + count, 0);
				const performs = times || (drill.performs.includes(id) ? 1 : 0);
				db.run("insert into trains values (?, 'skill', ?, ?)", [drill.id, id, performs]);
			}
		}
		for (const { week, monday } of teachingWeeks(curriculum.term))
			db.run("insert into calendar values (?, julianday(?))", [week, monday]);
		const rows = (sql: string) =>
			(db.exec(sql)[0]?.values ?? []) as readonly (readonly (string | number | null)[])[];
		// Some are of blocks that have moved since.
		const [[moved]] =
			rows(`select count(*) from said where not exists (select 1 from plan where plan.week = said.week
			and plan.grp = said.grp and plan.apparatus = said.apparatus and plan.number = said.number and plan.mark = said.mark)`) as [
				[number],
			];
		expect(moved).toBeGreaterThan(20);
		const lost = `select plan.week, plan.grp, plan.apparatus, plan.number, plan.minutes,
			max(case done when 'not-done' then plan.minutes when 'shortened' then min(coalesce(lost, plan.minutes / 2.0), plan.minutes) else 0 end) lost,
			count(distinct cause) causes, max(cause) cause
			from plan join said using (week, grp, apparatus, mark)
			where plan.number = coalesce((select number from plan p where p.week = said.week and p.grp = said.grp
				and p.apparatus = said.apparatus and p.mark = said.mark order by p.number <> said.number, p.number limit 1), 0)
			group by 1, 2, 3, 4`;
		const records = (name: string) => asRecords(handbook.tables.get(name) ?? { name, columns: [], rows: [] });
		const near = (found: readonly (readonly unknown[])[], wanted: readonly (readonly unknown[])[]) => {
			const round = (all: readonly (readonly unknown[])[]) =>
				all
					.map((row) =>
						row
							.map((cell) => (typeof cell === "number" ? Math.round(cell * 1e6) / 1e6 : (cell ?? null)))
							.join(" "),
					)
					.sort();
			expect(found.length).toBeGreaterThan(0);
			expect(round(found)).toEqual(round(wanted));
		};
		near(
			records("taught-practice").map((r) => [
				r.week,
				r.group,
				r.drill,
				r.station,
				r.block,
				r.apparatus,
				r["taught-minutes"],
				r["taught-reps"],
			]),
			rows(`with lost as (${lost}) select s.week, s.grp, s.drill, s.station, s.number, s.apparatus,
				s.minutes * (1 - coalesce(lost.lost, 0) * 1.0 / p.minutes), s.done * (1 - coalesce(lost.lost, 0) * 1.0 / p.minutes)
				from station s join plan p using (week, grp, apparatus, number) left join lost using (week, grp, apparatus, number)
				where exists (select 1 from said where said.week = s.week and said.grp = s.grp)`),
		);
		near(
			records("minutes-lost").map((r) => [r.cause, r.minutes, r.blocks]),
			rows(
				`with lost as (${lost}) select case causes when 1 then cause end, sum(lost), count(*) from lost where lost > 0 group by 1`,
			),
		);
		near(
			records("learned").map((r) => [r.week, r.group, r.skill, r.of, r.alone, r.helped]),
			rows(`select week, grp, skill, of, alone, helped from (select *, row_number() over
				(partition by week, grp, skill order by alone * 1.0 / of, of desc, helped) n from skill) where n = 1`),
		);
		db.run(`create table practised as with lost as (${lost}) select s.*, 1 - coalesce(lost.lost, 0) * 1.0 / p.minutes share
			from station s join plan p using (week, grp, apparatus, number) left join lost using (week, grp, apparatus, number)`);
		const reach = (share: string) =>
			rows(`with met as (select kind, id, grp, week, minutes * ${share} minutes,
					case when performs > 0 then coalesce(done, 0) * ${share} * performs else performs end performed,
					case when performs > 0 then 0 when performs = 0 then coalesce(done, 0) * ${share} end prepared
					from practised join trains using (drill) where ${share} > 1e-9),
				weeks as (select kind, id, grp, week - lag(week) over (partition by kind, id, grp order by week) gap
					from (select distinct kind, id, grp, week from met)),
				gaps as (select kind, id, grp, max(gap) gap from weeks group by 1, 2, 3)
				select kind, id, grp, count(distinct week), sum(minutes), sum(performed), sum(prepared), gap
				from met join gaps using (kind, id, grp) group by 1, 2, 3`);
		const NAMES = ["weeks", "minutes", "performed", "prepared", "longest-gap"];
		const key = (r: Readonly<Record<string, unknown>>) => [r.kind, r.id, r.group];
		near(
			records("taught-reach").map((r) => [...key(r), ...NAMES.map((name) => r[name])]),
			reach("1"),
		);
		// What a group never met stands there with nothing.
		const met = records("taught-reach").filter((r) => r["taught-weeks"] !== 0);
		near(
			met.map((r) => [...key(r), ...NAMES.map((name) => r[`taught-${name}`])]),
			reach("share"),
		);
		const loads = (share: string) =>
			rows(`with total as (select week, grp,
				sum(coalesce(landings, 0) * coalesce(done * ${share}, 1)) landings, sum(coalesce(hands, 0) * coalesce(done * ${share}, 1)) hands
				from practised where ${share} > 1e-9 group by 1, 2),
			placed as (select total.*, (place - (select min(place) from calendar)) / 7 place from total join calendar using (week)),
			before as (select t.week, t.grp, min(3, t.place) many, sum(b.landings) landings, sum(b.hands) hands
				from placed t join placed b on b.grp = t.grp and b.place between t.place - 3 and t.place - 1 group by 1, 2)
			select t.week, t.grp, t.landings, t.hands, t.landings * b.many * 1.0 / nullif(b.landings, 0), t.hands * b.many * 1.0 / nullif(b.hands, 0)
			from placed t left join before b using (week, grp)`);
		const LOADS = ["landings", "hands", "landings-step", "hands-step"];
		const table = records("taught-load");
		near(
			table.map((r) => [r.week, r.group, ...LOADS.map((name) => r[name])]),
			loads("1"),
		);
		const taughtLoads = loads("share");
		const isTaught = new Set(taughtLoads.map(([week, group]) => `${week} ${group}`));
		near(
			table
				.filter((r) => isTaught.has(`${r.week} ${r.group}`))
				.map((r) => [r.week, r.group, ...LOADS.map((name) => r[`taught-${name}`])]),
			taughtLoads,
		);
		// By what is planned nobody is told that it was taught.
		expect(taughtLoads).not.toEqual(loads("1"));
		near(
			records("kept").map((r) => [
				r.skill,
				r.group,
				r.before,
				r["before-alone"],
				r.after,
				r["after-alone"],
				r["weeks-without"],
				r.kept,
			]),
			rows(`with counts as (select skill, week, grp, of, alone, place, lag(week) over own before,
					lag(of) over own before_of, lag(alone) over own before_alone, lag(place) over own before_place
				from (select *, row_number() over (partition by week, grp, skill order by alone * 1.0 / of, of desc, helped) n from skill)
				join calendar using (week) where n = 1 window own as (partition by skill, grp order by week))
			select skill, grp, before, before_alone, week, alone, (place - before_place) / 7 - 1,
				case when of >= before_of then min(before_alone, alone) end
			from counts where place - before_place > 7 and of >= 5 and before_of >= 5 and not exists (
				select 1 from practised p join trains t using (drill) where t.kind = 'skill' and t.id = skill and p.grp = counts.grp
				and share > 1e-9 and p.week > before and p.week < counts.week)`),
		);
		db.close();
	});

	it("leaves what a person corrected, comments and all, whatever comes in", () => {
		const [path = "", text = ""] = taughtIn(taken)[0] ?? [];
		const corrected = `${text.replace(/done: shortened/, "done: done")}# As the caretaker said.\n`;
		expect(corrected).not.toBe(text);
		const texts = new Map(taken).set(path, corrected);
		const reports = readReports(sent.join("\n")).reports;
		expect(takeReports(demo.curriculum, texts, reports).texts.get(path)).toBe(corrected);
		const later = last.filter(({ week }) => path.includes(week)).map((one) => ({ ...one, revision: 99 }));
		const after = takeReports(demo.curriculum, texts, later);
		expect(after.counts).toMatchObject({ newer: later.length - 1, corrected: 1 });
		expect(after.texts.get(path)).toContain("# As the caretaker said.");
		// Once more, so that what stays is not taken for new.
		expect(takeReports(demo.curriculum, after.texts, later).texts).toEqual(after.texts);
	});

	it("says what a coach names that this club has not", () => {
		const one = last[0] as Report;
		const took = (report: Report) => takeReports(demo.curriculum, before, [report]);
		expect(took({ ...one, week: "week-99" }).told).toEqual(["The plan has no week week-99: 1 left out."]);
		expect(took({ ...one, class: "nobody" }).told.join()).toContain("the term has no class nobody");
		expect(
			took({ ...one, skills: [{ skill: "nothing", of: 8, alone: 1, helped: 0 }] }).told.join(),
		).toContain("1 entries of things");
		const moved = took({ ...one, blocks: [{ apparatus: "floor", block: 9, mark: "zzz", done: "done" }] });
		expect(taughtIn(moved.texts)[0]?.[1]).toContain('mark: "zzz"');
	});
});
