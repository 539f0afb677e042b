/** Two plans compared: by meaning, and the same whichever way round they are. */

import { mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readPlan } from "../../scripts/commands/read-plan.ts";
import { type Comparison, compare } from "../../scripts/compute/compare.ts";
import { recordOf } from "../../scripts/compute/plan-record.ts";
import { openFolder } from "../../scripts/files/folder.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { RECORDED_KINDS } from "../../scripts/model.ts";
import { dataFiles, RECORD_FILE } from "../../scripts/site/data-files.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";
import { handbook } from "../run-command.ts";

const WEEK = "content/weeks/week-1.md";
const ROCK = "content/drills/floor/rock.md";

function edit(dir: string, file: string, from: string | RegExp, to: string): void {
	const text = readFileSync(join(dir, file), "utf8");
	const changed = text.replace(from, to);
	expect(changed).not.toBe(text);
	writeFileSync(join(dir, file), changed);
}

function opened(dir: string) {
	const { handbook, problems } = openHandbook(dir);
	if (handbook === undefined) throw new Error(JSON.stringify(problems));
	return handbook;
}

/** Base club against a copy of it that was changed. */
function compared(change: (dir: string) => void): { there: Comparison; back: Comparison } {
	const [before, dir] = [opened(clubCopy()), clubCopy()];
	change(dir);
	const after = opened(dir);
	const [old, now] = [before, after].map((handbook) => recordOf(handbook, handbook.edition));
	if (old === undefined || now === undefined) throw new Error("two plans");
	return { there: compare(old, now), back: compare(now, old) };
}

const NONE = { added: [], removed: [], changed: [] };

describe("compare", () => {
	it("finds nothing where only the writing differs", async () => {
		const { there } = compared((dir) => {
			edit(dir, ROCK, "direction: forward\n", "");
			edit(dir, ROCK, "title:", "# first\ndirection: 'forward'\ntitle:");
		});
		expect(there).toEqual({
			facts: { club: [], term: [], targets: [] },
			things: Object.fromEntries(RECORDED_KINDS.map((kind) => [kind, NONE])),
			renamed: [],
			renamedOthers: [],
			numbers: [],
			findings: { gone: [], come: [], changed: [] },
		});
	});

	it("tells closed days, the term, classes and what the club says of itself", async () => {
		const { there, back } = compared((dir) => {
			edit(dir, "_data/term.yaml", "weeks: 1", "weeks: 2\nclosed: [2027-01-04, 2027-01-12/2027-01-13]");
			edit(dir, "_data/term.yaml", "day: monday", "day: wednesday");
			edit(dir, "_data/club.yaml", /$/, "\nemergency: Ring 112\n");
		});
		const [one, two] = [
			{ from: "2027-01-04", to: "2027-01-04" },
			{ from: "2027-01-12", to: "2027-01-13" },
		];
		expect(there.facts).toEqual({
			club: [{ field: "emergency", before: undefined, after: "Ring 112" }],
			term: [
				{ field: "weeks", before: 1, after: 2 },
				{ field: "closed", before: undefined, after: one },
				{ field: "closed", before: undefined, after: two },
			],
			targets: [],
		});
		expect(there.things.class.changed).toEqual([
			{ id: "mon", fields: [{ field: "day", before: "monday", after: "wednesday" }] },
		]);
		expect(back.facts.term.map(({ before, after }) => [before, after])).toEqual([
			[2, 1],
			[one, undefined],
			[two, undefined],
		]);
	});

	it("says nothing of what an older record does not hold", async () => {
		const handbook = opened(clubCopy());
		const { facts, ...older } = recordOf(handbook, handbook.edition);
		expect(facts?.term).toMatchObject({ weeks: 1, starts: "2027-01-04" });
		expect(compare(older, recordOf(handbook, handbook.edition)).facts).toEqual({
			club: [],
			term: [],
			targets: [],
		});
	});

	it("names the changed field and what it did to the minutes", async () => {
		const { there, back } = compared((dir) =>
			edit(dir, WEEK, "drill: rock, minutes: 10", "drill: rock, minutes: 14"),
		);
		expect(there.things.week).toEqual({
			...NONE,
			changed: [{ id: "1", fields: [{ field: "apparatus.1.blocks.1.minutes", before: 10, after: 14 }] }],
		});
		expect(there.things.drill).toEqual(NONE);
		const skill = there.numbers.find(
			(n) => n.table.includes("skill") && n.row.level === "junior" && n.column === "minutes",
		);
		expect((skill?.after ?? 0) - (skill?.before ?? 0)).toBe(4);
		expect(back.numbers).toHaveLength(there.numbers.length);
	});

	it("sees a renamed drill as renamed, and not as a change of what names it", async () => {
		const { there, back } = compared((dir) => {
			renameSync(join(dir, ROCK), join(dir, "content/drills/floor/rocking.md"));
			edit(dir, WEEK, "drill: rock,", "drill: rocking,");
			edit(dir, WEEK, "[[rock]]", "[[rock-back]]");
			edit(dir, "content/drills/floor/wedge-roll.md", "[rock]", "[rocking]");
		});
		expect(there.things.drill).toEqual(NONE);
		expect(there.renamed).toEqual([{ from: "rock", to: "rocking" }]);
		expect(back.things.drill).toEqual(NONE);
		expect(back.renamed).toEqual([{ from: "rocking", to: "rock" }]);
		expect(there.things.week.changed.flatMap((w) => w.fields.map((f) => f.field))).toEqual(["body"]);
		expect(there.numbers).toEqual([]);
	});

	it("knows a level under another name or id as the same one, in what is found as well", async () => {
		const { there, back } = compared((dir) =>
			edit(dir, "_data/levels.yaml", "name: Junior", "name: Ducklings"),
		);
		for (const one of [there, back]) {
			expect(one.things.level.changed).toHaveLength(1);
			expect([one.things.drill, one.things.week, one.things.class]).toEqual([NONE, NONE, NONE]);
			expect(one.findings).toEqual({ gone: [], come: [], changed: [] });
		}
		const { there: other } = compared((dir) => {
			for (const file of readdirSync(dir, { recursive: true, encoding: "utf8" })) {
				if (!/\.(md|yaml)$/.test(file)) continue;
				const text = readFileSync(join(dir, file), "utf8");
				writeFileSync(join(dir, file), text.replace(/\bjunior\b/g, "ducklings"));
			}
		});
		expect(other.renamedOthers).toEqual([{ kind: "level", from: "junior", to: "ducklings" }]);
		expect([other.things.level, other.things.drill, other.things.class]).toEqual([NONE, NONE, NONE]);
		expect(other.numbers).toEqual([]);
	});

	it("tells a finding that says something else of the same thing as changed", async () => {
		const before = opened(clubCopy());
		const old = recordOf(before, before.edition);
		const about = { week: 1, skill: "roll" };
		const finding = (what: string) => ({ code: "H303" as const, weight: "note" as const, what, about });
		const now = { ...old, findings: [...old.findings, finding("in no week"), finding("and twice")] };
		const was = { ...old, findings: [...old.findings, finding("in 1 week"), finding("and twice")] };
		expect(compare(was, now).findings).toEqual({
			gone: [],
			come: [],
			changed: [{ before: finding("in 1 week"), after: finding("in no week") }],
		});
	});

	it("sees a block put in early as one block more, and an entry of a list by its name", async () => {
		const { there } = compared((dir) => {
			edit(dir, WEEK, /^( +)- \{ ?drill: rock, minutes: 10/m, "$1- {drill: rock, minutes: 2}\n$&");
			edit(dir, "_data/levels.yaml", "name:", "name: The");
		});
		const [week, ...more] = there.things.week.changed;
		expect(more).toEqual([]);
		expect(week?.fields).toHaveLength(1);
		expect(week?.fields[0]).toMatchObject({ field: "apparatus.1.blocks.1", before: undefined });
		expect(there.things.level.changed[0]?.fields[0]?.field).toBe("name");
	});

	it("reads an earlier plan from the record that a build leaves, the same as from its folder", async () => {
		const handbook = opened(clubCopy());
		const out = openFolder(mkdtempSync(join(tmpdir(), "record-")));
		for (const { path, text } of dataFiles(handbook, handbook.words, handbook.edition)) out.write(path, text);
		const whole = JSON.parse(JSON.stringify(recordOf(handbook, handbook.edition)));
		for (const place of ["", RECORD_FILE]) {
			const { record } = readPlan(out.place(place));
			expect(record).toEqual(whole);
			expect(Object.keys(record?.things.drill ?? {})).toEqual(Object.keys(whole.things.drill));
		}
		rmSync(out.place("data/drills-0.json"));
		expect(readPlan(out.place(RECORD_FILE)).record).toBeUndefined();
	});

	it("tells what is new, and the other way round what is gone", async () => {
		const { there, back } = compared((dir) => {
			edit(dir, WEEK, /^ {2}beam:\n.*\n.*\n/m, "");
			rmSync(join(dir, "content/drills/beam/beam-stand.md"));
		});
		expect(there.things.drill.removed).toEqual(["beam-stand"]);
		expect(back.things.drill.added).toEqual(["beam-stand"]);
		expect(there.findings.come).toEqual(back.findings.gone);
		expect(there.findings.gone).toEqual(back.findings.come);
	});
});

describe("the command", () => {
	const run = (...args: readonly string[]) => handbook(["compare", ...args]);

	it("says it in words and as JSON, and ends with 0", async () => {
		const [before, after] = [clubCopy(), clubCopy()];
		edit(after, WEEK, "theme: Round shapes", "theme: Round and long");
		const text = await run(before, after);
		expect(text.status).toBe(0);
		expect(text.stdout).toContain("    Theme: Round shapes → Round and long\n");
		const json = JSON.parse((await run(before, after, "--json")).stdout) as Comparison;
		expect(json.things.week.changed).toEqual([
			{ id: "1", fields: [{ field: "theme", before: "Round shapes", after: "Round and long" }] },
		]);
	});

	it("ends with 1 where a folder has errors, and 2 where it is not there", async () => {
		const broken = await run(clubCopy(), clubCopy(join(FIXTURES, "problems/H201")));
		expect(broken.status).toBe(1);
		expect(broken.stdout).toContain("H201");
		expect((await run("no/such/folder")).status).toBe(2);
	});
});
