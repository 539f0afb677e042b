/**
 * Exposures counted a second time from the source files, by code that shares nothing with the
 * program: another YAML library (`yaml`, in its failsafe schema: all text), its own splitting of front matter, its own
 * reading of the rules in the authoring format. The result must equal exposures.csv to the letter.
 *
 * Then every coverage table counted again from exposures.csv by a SQL engine (SQLite, as sql.js),
 * which knows only the drills' shapes, skills, what they perform, and direction.
 */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import initSqlJs, { type Database } from "sql.js";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { openHandbook } from "../../scripts/handbook.ts";
import { asCsv } from "../../scripts/site/data-files.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";

const CLUBS: readonly (readonly [string, string])[] = [
	["the demo club", REPOSITORY],
	["one station of several counts for a level", join(FIXTURES, "clubs/one-station-counts")],
	["a drill on two apparatus, ids that are numbers", join(FIXTURES, "clubs/two-apparatus")],
	["ten drills with the required fields only", join(FIXTURES, "clubs/ten-drills")],
];

describe.each(CLUBS)("%s", (_name, base) => {
	const dir = () => clubCopy(undefined, base);

	it("gives the same exposures to a second reader", () => {
		const club = dir();
		const { handbook, problems } = openHandbook(club);
		expect(problems.filter((p) => p.severity === "error")).toEqual([]);
		expect(csvOf(handbook, "exposures")).toBe(recount(club));
	});

	it("gives the same coverage to a SQL engine", async () => {
		const { handbook } = openHandbook(dir());
		if (handbook === undefined) throw new Error("the club has errors");
		const db = await database(csvOf(handbook, "exposures"), readLibrary(handbook.clubDir));
		const order = {
			level: [...handbook.curriculum.levels.keys()],
			apparatus: [...handbook.curriculum.apparatus.keys()],
			shape: [...handbook.curriculum.shapes.keys()],
			skill: [...handbook.curriculum.skills.keys()],
			direction: ["forward", "backward", "sideways", "none"],
		};
		for (const kind of ["shape", "skill", "direction"] as const) {
			const rows = db.exec(`
				SELECT e.week, e.level, e.apparatus, t.thing,
					COUNT(DISTINCT e.drill), SUM(e.minutes)
					${kind === "direction" ? "" : ", SUM(e.minutes / n.many), SUM(e.repetitions)"}
				FROM exposures e
				JOIN things t ON t.drill = e.drill AND t.kind = '${kind}'
				JOIN (SELECT drill, COUNT(*) AS many FROM things WHERE kind = '${kind}' GROUP BY drill) n ON n.drill = e.drill
				GROUP BY e.week, e.level, e.apparatus, t.thing`)[0]?.values;
			const ranked = (rows ?? []).sort(
				(a, b) =>
					Number(a[0]) - Number(b[0]) ||
					order.level.indexOf(String(a[1])) - order.level.indexOf(String(b[1])) ||
					order.apparatus.indexOf(String(a[2])) - order.apparatus.indexOf(String(b[2])) ||
					order[kind].indexOf(String(a[3])) - order[kind].indexOf(String(b[3])),
			);
			const ours = csvOf(handbook, `coverage-${kind}s`)
				.trim()
				.split("\r\n")
				.slice(1)
				.map((l) => l.split(","));
			expect(ours.map((row) => row.slice(0, 5))).toEqual(ranked.map((row) => row.slice(0, 5).map(String)));
			for (const [i, row] of ours.entries()) {
				for (const column of kind === "direction" ? [5] : [5, 6, 7]) {
					const theirs = ranked[i]?.[column];
					if (theirs === null || theirs === undefined) expect(row[column]).toBe("");
					else expect(Number(row[column])).toBeCloseTo(Number(theirs), 2);
				}
			}
		}
	});
});

describe("the columns of the data files", () => {
	it("are those of the format, exactly", () => {
		const { handbook } = openHandbook(clubCopy());
		const head = (name: string) => csvOf(handbook, name).split("\r\n")[0];
		expect(head("exposures")).toBe("week,level,apparatus,block,drill,minutes,repetitions");
		expect(head("coverage-shapes")).toBe("week,level,apparatus,shape,drills,minutes,share,repetitions");
		expect(head("coverage-skills")).toBe("week,level,apparatus,skill,drills,minutes,share,repetitions");
		expect(head("coverage-directions")).toBe("week,level,apparatus,direction,drills,minutes");
	});
});

function csvOf(handbook: ReturnType<typeof openHandbook>["handbook"], name: string): string {
	const table = handbook?.tables.get(name);
	if (table === undefined) throw new Error(`no table ${name}`);
	return asCsv(table);
}

// ---- the second reader: nothing below uses the program ----

interface Dose {
	readonly sets?: string;
	readonly reps?: string;
}

interface Library {
	readonly drills: ReadonlyMap<string, Record<string, unknown>>;
}

function frontMatter(file: string): Record<string, unknown> {
	const [, matter = ""] = readFileSync(file, "utf8").split(/^---\s*$/m);
	return parse(matter, { schema: "failsafe" }) as Record<string, unknown>;
}

function readLibrary(club: string): Library {
	const files = readdirSync(join(club, "content/drills"), { recursive: true }).map(String);
	const drills = files
		.filter((f) => f.endsWith(".md"))
		.map(
			(f) =>
				[f.replace(/^.*\//, "").replace(/\.md$/, ""), frontMatter(join(club, "content/drills", f))] as const,
		);
	return { drills: new Map(drills) };
}

function idsOf(club: string, file: string): readonly string[] | undefined {
	try {
		const items = parse(readFileSync(join(club, "_data", file), "utf8"), { schema: "failsafe" }) as {
			id: string;
			order?: string;
		}[];
		return items
			.map((item, i) => ({ id: item.id, order: Number(item.order ?? i + 1) }))
			.sort((a, b) => a.order - b.order)
			.map(({ id }) => id);
	} catch {
		return undefined;
	}
}

function recount(club: string): string {
	const { drills } = readLibrary(club);
	const offers = (drill: Record<string, unknown>): readonly string[] =>
		Array.isArray(drill.levels) ? drill.levels.map(String) : Object.keys(drill.levels as object);
	const levels = idsOf(club, "levels.yaml") ?? [...new Set([...drills.values()].flatMap(offers))];
	const apparatus = idsOf(club, "apparatus.yaml") ?? [
		...new Set([...drills.values()].flatMap((d) => [d.apparatus].flat().map(String))),
	];
	const lines: { key: readonly number[]; drill: string; text: string }[] = [];
	let weekFiles: string[] = [];
	try {
		weekFiles = readdirSync(join(club, "content/weeks")).filter((f) => f.endsWith(".md"));
	} catch {
		weekFiles = [];
	}
	for (const file of weekFiles) {
		const plan = frontMatter(join(club, "content/weeks", file));
		for (const [place, { blocks }] of Object.entries(
			plan.apparatus as Record<string, { blocks: Record<string, unknown>[] }>,
		)) {
			for (const [b, block] of blocks.entries()) {
				const options = block.options as { drill: unknown }[] | undefined;
				const stations = (block.stations as { drill: unknown }[] | undefined) ??
					options ?? [{ drill: block.drill }];
				const named = block.levels === undefined ? levels : [block.levels].flat().map(String);
				for (const level of named) {
					const here = stations
						.map((s) => String(s.drill))
						.filter((id) => offers(drills.get(id) ?? {}).includes(level));
					const n = here.length;
					if (n === 0) continue;
					// Options stand in place of each other: nobody changes, and each counts its part of the block.
					const changes = options === undefined ? (n - 1) * Number(block.change ?? 0.5) : 0;
					const each = Math.max(0, (Number(block.minutes) - Number(block.show ?? 0) - changes) / n);
					const share = options === undefined ? 1 : Math.min(1, Number(block.choose ?? 1) / n);
					for (const id of new Set(here)) {
						const drill = drills.get(id) ?? {};
						const times = here.filter((h) => h === id).length;
						const own = Array.isArray(drill.levels)
							? {}
							: ((drill.levels as Record<string, Dose | null>)[level] ?? {});
						// A block's own dose, for all its levels or by level, stands before the drill's.
						const written = (block.dose ?? {}) as Dose & Record<string, Dose | undefined>;
						const planned = "sets" in written || "reps" in written ? written : (written[level] ?? {});
						const sets = planned.sets ?? own.sets ?? (drill.sets as string | undefined);
						const reps = planned.reps ?? own.reps ?? (drill.reps as string | undefined);
						const repetitions =
							sets === undefined && reps === undefined
								? ""
								: String(Number((Number(sets ?? 1) * Number(reps ?? 1) * times * share).toFixed(3)));
						const minutes = String(Number((each * times).toFixed(3)));
						lines.push({
							key: [Number(plan.week), levels.indexOf(level), apparatus.indexOf(place), b + 1],
							drill: id,
							text: [plan.week, level, place, b + 1, id, minutes, repetitions].join(","),
						});
					}
				}
			}
		}
	}
	lines.sort((a, b) => {
		for (const [i, value] of a.key.entries()) if (value !== b.key[i]) return value - (b.key[i] ?? 0);
		return a.drill < b.drill ? -1 : a.drill > b.drill ? 1 : 0;
	});
	return `${["week,level,apparatus,block,drill,minutes,repetitions", ...lines.map((l) => l.text)].join("\r\n")}\r\n`;
}

async function database(exposures: string, { drills }: Library): Promise<Database> {
	const SQL = await initSqlJs();
	const db = new SQL.Database();
	db.run(
		"CREATE TABLE exposures (week INT, level TEXT, apparatus TEXT, block INT, drill TEXT, minutes REAL, repetitions REAL)",
	);
	db.run("CREATE TABLE things (drill TEXT, kind TEXT, thing TEXT, UNIQUE (drill, kind, thing))");
	for (const line of exposures.trim().split("\r\n").slice(1)) {
		const cells = line.split(",");
		db.run(
			"INSERT INTO exposures VALUES (?, ?, ?, ?, ?, ?, ?)",
			cells.map((c, i) => (i === 6 && c === "" ? null : c)),
		);
	}
	for (const [id, drill] of drills) {
		for (const [kind, value] of [
			["shape", drill.shapes],
			// What is performed is prepared too, in a chain of elements as well.
			[
				"skill",
				[
					drill.skills ?? [],
					drill.performs ?? [],
					((drill.elements ?? []) as { skill?: unknown }[]).flatMap((e) => e.skill ?? []),
				].flat(),
			],
			["direction", drill.direction],
		] as const) {
			for (const thing of value === undefined ? [] : [value].flat()) {
				db.run("INSERT OR IGNORE INTO things VALUES (?, ?, ?)", [id, kind, String(thing)]);
			}
		}
	}
	return db;
}
