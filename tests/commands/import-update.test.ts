/**
 * A spreadsheet that comes a second time: what only the sheet changed is taken, what only the folder changed
 * stays, and where both did both are told; comments and form of the files stay, and `undo` takes it back.
 */

import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { exportCommand } from "../../scripts/commands/export.ts";
import { type ImportOptions, importCommand } from "../../scripts/commands/import.ts";
import { undo } from "../../scripts/commands/undo.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { quietRun } from "./quiet-run.ts";
import { textsIn } from "./texts-in.ts";

const LOG_ROLL = `---
# the first roll
title: Log roll # ours
apparatus: floor
levels: [level-1]
reps: 5
turn: {seconds: 10, at-once: 2}
cues:
  - Long and thin
  # said by everybody
  - Roll with the hips
---
As we do it.
`;
const WEEK = `---
week: 1
theme: Rolling
apparatus:
  floor:
    blocks:
      # gently
      - drill: log-roll
        minutes: 5
      - {drill: egg-rock, minutes: 6}
---
`;
const CLUB: Readonly<Record<string, string>> = {
	"_data/club.yaml": "name: Harbour Lane Gymnastics\nformat: 1\n",
	"_data/levels.yaml":
		"# from the little ones up\n- {id: level-1, name: Level 1}\n- {id: level-2, name: Level 2}\n",
	"_data/apparatus.yaml": "- {id: floor, name: Floor}\n",
	"_data/term.yaml":
		"name: Spring\nstarts: 2027-01-04\nweeks: 1\nclasses:\n  # the small hall\n  - id: mon\n    name: Monday\n    day: monday\n    start: '16:30'\n    gymnasts: 10\n",
	"content/drills/floor/log-roll.md": LOG_ROLL,
	"content/drills/floor/egg-rock.md":
		"---\ntitle: Egg rock\napparatus: floor\nlevels: [level-1]\nreps: 8\n---\n",
	"content/weeks/week-01.md": WEEK,
};

function folderOf(files: Readonly<Record<string, string>>): string {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	for (const [path, text] of Object.entries(files)) {
		mkdirSync(dirname(join(dir, path)), { recursive: true });
		writeFileSync(join(dir, path), text);
	}
	return dir;
}

/** A club whose spreadsheets were handed out. */
async function handedOut() {
	const club = folderOf(CLUB);
	const desk = mkdtempSync(join(tmpdir(), "desk-"));
	onTestFinished(() => rmSync(desk, { recursive: true, force: true }));
	expect(await exportCommand(quietRun(club).run, { to: desk, replace: true, json: false })).toBe(0);
	const edit = (file: string, from: string, to: string) => {
		const text = readFileSync(join(desk, file), "utf8");
		expect(text).toContain(from);
		writeFileSync(join(desk, file), text.replace(from, to));
	};
	const change = (path: string, from: string, to: string) => {
		const text = readFileSync(join(club, path), "utf8");
		expect(text).toContain(from);
		writeFileSync(join(club, path), text.replace(from, to));
	};
	const bring = async (
		files: readonly string[],
		more: Partial<Pick<ImportOptions, "write" | "preferSheet" | "remove">> = {},
	) => {
		const { run, lines } = quietRun(club);
		const status = await importCommand(run, {
			files: files.map((file) => join(desk, file)),
			update: true,
			json: false,
			write: false,
			...more,
		});
		return { status, said: lines.join("\n") };
	};
	return { club, desk, edit, change, bring };
}

it.each(["content/drills", "_data/new/sheets"])(
	"export writes nothing into the club's own %s",
	async (own) => {
		const club = folderOf(CLUB);
		const before = textsIn(club);
		const { run, lines } = quietRun(club);
		expect(await exportCommand(run, { to: join(club, own), replace: true, json: false })).toBe(2);
		expect(lines.join("\n")).toMatch(/lies in the club's own (content|_data)\/.*name a folder beside it\.$/);
		expect(textsIn(club)).toEqual(before);
		// Beside it, a check finds nothing that it does not know.
		expect(await exportCommand(run, { to: join(club, "sheets"), replace: true, json: false })).toBe(0);
		expect(openHandbook(club).problems).toEqual([]);
	},
);

describe("import --update", () => {
	it("says nothing of a spreadsheet that nobody touched", async () => {
		const { bring } = await handedOut();
		const { status, said } = await bring([
			"drills.csv",
			"plan.csv",
			"weeks.csv",
			"levels.csv",
			"term.csv",
			"classes.csv",
		]);
		expect(said).toMatch(/^0 files to make, \d+ the same already\.$/);
		expect(status).toBe(0);
	});

	it("takes what the sheet changed where it stands, and `undo` takes it back", async () => {
		const { club, edit, bring } = await handedOut();
		const before = textsIn(club);
		edit("drills.csv", "Log roll", "Pencil roll");
		edit("drills.csv", ",5,", ",6,");
		edit("drills.csv", ",10,2,", ",12,2,");
		edit("plan.csv", ",5,", ",7,");
		edit("classes.csv", "16:30", "17:00");
		edit("levels.csv", "Level 2,", "Ducklings,");
		const files = ["drills.csv", "plan.csv", "weeks.csv", "levels.csv", "term.csv", "classes.csv"];
		const dry = await bring(files);
		expect(textsIn(club)).toEqual(before);
		expect(dry.said).toContain(
			"drill log-roll\n  title: Log roll → Pencil roll\n  reps: 5 → 6\n  turn seconds: 10 → 12",
		);
		expect(dry.said).toContain("classes mon\n  start: 16:30 → 17:00");
		expect(dry.said).toContain("levels level-2\n  name: Level 2 → Ducklings");
		expect(dry.said).toContain("4 to change");
		expect((await bring(files, { write: true })).status).toBe(0);
		const after = textsIn(club);
		expect(after.get("content/drills/floor/log-roll.md")).toBe(
			LOG_ROLL.replace("title: Log roll", "title: Pencil roll")
				.replace("reps: 5", "reps: 6")
				.replace("seconds: 10", "seconds: 12"),
		);
		expect(after.get("content/weeks/week-01.md")).toBe(WEEK.replace("minutes: 5", "minutes: 7"));
		expect(after.get("_data/term.yaml")).toContain("# the small hall");
		expect(after.get("_data/term.yaml")).toContain("start: '17:00'");
		expect(after.get("_data/levels.yaml")).toContain("# from the little ones up");
		expect(openHandbook(club).problems.filter(({ severity }) => severity === "error")).toEqual([]);
		const { run } = quietRun(club);
		expect(undo(run)).toBe(0);
		expect(textsIn(club)).toEqual(before);
	});

	it("keeps what the folder changed since, and tells both where both did", async () => {
		const { club, edit, change, bring } = await handedOut();
		change("content/drills/floor/log-roll.md", "reps: 5", "reps: 7");
		change("content/drills/floor/egg-rock.md", "reps: 8", "reps: 9");
		edit("drills.csv", ",5,", ",6,");
		const { status, said } = await bring(["drills.csv"], { write: true });
		expect(status).toBe(1);
		expect(said).toContain(
			"drill log-roll\n  reps: changed on both sides; it was 5\n    in the sheet: 6\n    in the folder: 7",
		);
		expect(said).toContain("drill egg-rock\n  reps: changed in the folder since, and kept: 9");
		expect(readFileSync(join(club, "content/drills/floor/log-roll.md"), "utf8")).toContain("reps: 7");
		// Told once: the folder's word stands from now on.
		expect((await bring(["drills.csv"])).said).toContain("reps: changed in the folder since, and kept: 7");
	});

	it("takes the sheet's word where it is preferred, and empties what it empties", async () => {
		const { club, edit, change, bring } = await handedOut();
		change("content/drills/floor/log-roll.md", "reps: 5", "reps: 7");
		edit("drills.csv", ",5,", ",,");
		await bring(["drills.csv"], { write: true, preferSheet: true });
		const text = readFileSync(join(club, "content/drills/floor/log-roll.md"), "utf8");
		expect(text).toBe(LOG_ROLL.replace("reps: 5\n", ""));
	});

	it("looks only at the columns that a sheet has, and tells what is no longer in it", async () => {
		const { club, desk, bring } = await handedOut();
		writeFileSync(join(desk, "some.csv"), "id,reps\nlog-roll,12\n");
		const { said } = await bring(["some.csv"], { write: true });
		expect(said).toContain("drill log-roll\n  reps: 5 → 12");
		expect(said).toContain("drill egg-rock is no longer in the sheet: it stays in the folder");
		expect(readFileSync(join(club, "content/drills/floor/log-roll.md"), "utf8")).toBe(
			LOG_ROLL.replace("reps: 5", "reps: 12"),
		);
	});

	it("takes out what the sheet has no longer only where that is asked for, and `undo` brings it back", async () => {
		const { club, desk, edit, change, bring } = await handedOut();
		change("content/weeks/week-01.md", "      - {drill: egg-rock, minutes: 6}\n", "");
		const before = textsIn(club);
		const rows = readFileSync(join(desk, "drills.csv"), "utf8").split("\r\n");
		writeFileSync(join(desk, "drills.csv"), rows.filter((row) => !row.includes("egg-rock")).join("\r\n"));
		edit("levels.csv", "level-2,Level 2", "");
		const files = ["drills.csv", "levels.csv"];
		const told = await bring(files, { write: true });
		expect(told.said).toContain("drill egg-rock is no longer in the sheet: it stays in the folder");
		expect(told.said).toContain("2 things no longer in the sheet: --remove takes out what nothing names.");
		expect(textsIn(club)).toEqual(before);
		const dry = await bring(files, { remove: true });
		expect(dry.said).toContain("levels level-2 is no longer in the sheet: taken out of the folder");
		expect(dry.said).toMatch(/2 to take out.*Nothing is written yet/);
		expect(textsIn(club)).toEqual(before);
		expect((await bring(files, { remove: true, write: true })).said).toContain("2 taken out");
		const after = textsIn(club);
		expect(after.has("content/drills/floor/egg-rock.md")).toBe(false);
		expect(after.get("_data/levels.yaml")).toBe(
			"# from the little ones up\n- {id: level-1, name: Level 1}\n",
		);
		// What is out is not told again.
		expect((await bring(files)).said).not.toContain("no longer");
		expect(undo(quietRun(club).run)).toBe(0);
		expect(textsIn(club)).toEqual(before);
	});

	it("takes nothing out that is still named, nor what the folder changed since", async () => {
		const { club, desk, change, bring } = await handedOut();
		const before = textsIn(club);
		const [heads = "", ...rows] = readFileSync(join(desk, "drills.csv"), "utf8").split("\r\n");
		writeFileSync(
			join(desk, "drills.csv"),
			[heads, ...rows.filter((row) => !row.includes("egg-rock"))].join("\r\n"),
		);
		const named = await bring(["drills.csv"], { remove: true, write: true });
		expect(named.status).toBe(1);
		expect(named.said).toContain("content/weeks/week-01.md: H201");
		expect(named.said).toContain("Nothing was written.");
		expect(textsIn(club)).toEqual(before);
		change("content/weeks/week-01.md", "      - {drill: egg-rock, minutes: 6}\n", "");
		change("content/drills/floor/egg-rock.md", "reps: 8", "reps: 9");
		const changed = await bring(["drills.csv"], { remove: true, write: true });
		expect(changed.said).toContain(
			"drill egg-rock is no longer in the sheet: changed in the folder since, and kept",
		);
		expect(textsIn(club).has("content/drills/floor/egg-rock.md")).toBe(true);
		await bring(["drills.csv"], { remove: true, preferSheet: true, write: true });
		expect(textsIn(club).has("content/drills/floor/egg-rock.md")).toBe(false);
	});

	it("takes an area out of a week whose rows are gone", async () => {
		const { club, desk, bring } = await handedOut();
		writeFileSync(
			join(club, "_data/apparatus.yaml"),
			"- {id: floor, name: Floor}\n- {id: mats, name: Mats}\n",
		);
		writeFileSync(
			join(club, "content/drills/floor/log-roll.md"),
			LOG_ROLL.replace("apparatus: floor", "apparatus: [floor, mats]"),
		);
		writeFileSync(
			join(club, "content/weeks/week-01.md"),
			WEEK.replace("  floor:", "  mats:\n    blocks:\n      - {drill: log-roll, minutes: 4}\n  floor:"),
		);
		expect(await exportCommand(quietRun(club).run, { to: desk, replace: true, json: false })).toBe(0);
		const rows = readFileSync(join(desk, "plan.csv"), "utf8").split("\r\n");
		writeFileSync(join(desk, "plan.csv"), rows.filter((row) => !row.includes("mats")).join("\r\n"));
		expect((await bring(["plan.csv"])).said).toContain("week 1, mats is no longer in the sheet");
		await bring(["plan.csv"], { remove: true, write: true });
		expect(readFileSync(join(club, "content/weeks/week-01.md"), "utf8")).toBe(WEEK);
	});

	it("adds an entry to a list, and an area to a week", async () => {
		const { club, desk, bring } = await handedOut();
		writeFileSync(join(desk, "levels.csv"), "id,name\nlevel-1,Level 1\nlevel-2,Level 2\nlevel-3,Level 3\n");
		await bring(["levels.csv"], { write: true });
		expect(textsIn(club).get("_data/levels.yaml")).toBe(
			`${CLUB["_data/levels.yaml"]}- id: level-3\n  name: Level 3\n`,
		);
	});
});
