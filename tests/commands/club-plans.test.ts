/**
 * Plans as clubs keep them, each brought in and out again: what a dry run says and the weeks it makes stand
 * in expected/club-plans.txt (UPDATE_EXPECTED=1 writes it anew); the handbook made of them has no error,
 * and what `export` writes of it is read back as the same.
 */

import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it, onTestFinished } from "vitest";
import { importCommand } from "../../scripts/commands/import.ts";
import { clubSheets } from "../../scripts/commands/spreadsheet/club-sheets.ts";
import { drillsInCell } from "../../scripts/commands/spreadsheet/grid-cells.ts";
import { readClubSheets } from "../../scripts/commands/spreadsheet/read-club-sheets.ts";
import { readSheets } from "../../scripts/commands/spreadsheet/read-sheets.ts";
import { workbookOf } from "../../scripts/commands/spreadsheet/write-sheets.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { parseYaml } from "../../scripts/read/parse-yaml.ts";
import { readClub } from "../../scripts/read/read-club.ts";
import { type ClubPlan, PLANS } from "./club-plans.ts";
import { quietRun } from "./quiet-run.ts";
import { textsIn } from "./texts-in.ts";

const EXPECTED = fileURLToPath(new URL("expected/club-plans.txt", import.meta.url));

const drill = (title: string, apparatus: string) =>
	`---\ntitle: ${title}\napparatus: ${apparatus}\nlevels: [level-1, level-2]\n---\n`;
const CLUB: Readonly<Record<string, string>> = {
	"_data/club.yaml": "name: Harbour Lane Gymnastics\nformat: 1\n",
	"_data/levels.yaml": "- {id: level-1, name: Level 1}\n- {id: level-2, name: Level 2}\n",
	"_data/apparatus.yaml": ["Warm-up", "Floor", "Bars", "Beam", "Trampette"]
		.map((name) => `- {id: ${name.toLowerCase()}, name: ${name}}\n`)
		.join(""),
	"_data/term.yaml":
		"name: Spring\nstarts: 2027-01-04\nweeks: 6\nclasses:\n  - {id: mon, name: Monday, day: monday, start: '16:30', minutes: 60, warm-up: 10, cool-down: 5, gymnasts: 10, coaches: 2, rotation: [floor, bars, beam]}\n",
	"content/drills/log-roll.md": drill("Log roll", "floor"),
	"content/drills/egg-rock.md": drill("Egg rock", "[floor, warm-up]"),
	"content/drills/bridge.md": drill("Bridge", "floor"),
	"content/drills/jump-and-land.md": drill("Jump and land", "[floor, warm-up, trampette]"),
	"content/drills/long-hang.md": drill("Long hang", "bars"),
	"content/drills/cast.md": drill("Cast", "bars"),
	"content/drills/beam-walk.md": drill("Beam walk", "beam"),
	"content/drills/releve-walk.md": drill("Relevé walk", "beam"),
};

function folderOf(files: Readonly<Record<string, string | Buffer>>): string {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	for (const [path, text] of Object.entries(files)) {
		mkdirSync(dirname(join(dir, path)), { recursive: true });
		writeFileSync(join(dir, path), text);
	}
	return dir;
}

/** Imports a plan for good; gives what was said. */
async function bring(club: string, { file, bytes }: ClubPlan): Promise<string> {
	const desk = folderOf({ [file]: await bytes() });
	const { run, lines } = quietRun(club);
	await importCommand(run, { files: [join(desk, file)], write: true, json: false });
	return lines.join("\n").trim();
}

/** The weeks of a club, a line an apparatus. */
function planOf(club: string): readonly string[] {
	const { handbook, problems } = openHandbook(club);
	expect(problems.filter(({ severity }) => severity === "error")).toEqual([]);
	return (handbook?.curriculum.weeks ?? []).flatMap(({ week, theme, apparatus }) => [
		`week ${week}: ${theme}`,
		...apparatus.map(({ apparatus: area, blocks }) => {
			const said = blocks.map(({ stations, minutes, levels = [], dose, note }) =>
				[
					stations.map((station) => station.drill).join(" | "),
					`${minutes}'`,
					...(dose === undefined ? [] : [JSON.stringify(dose)]),
					...levels,
					...(note === undefined ? [] : [`(${note})`]),
				].join(" "),
			);
			return `  ${area}: ${said.join(", ")}`;
		}),
	]);
}

describe("plans as clubs keep them", () => {
	it("come in, each as it is kept", async () => {
		const told: string[] = [];
		for (const plan of PLANS) {
			const club = folderOf(CLUB);
			const said = await bring(club, plan);
			told.push(`== ${plan.how} (${plan.file})`, said, ...planOf(club), "");
		}
		const text = `${told.join("\n")}\n`;
		if (process.env.UPDATE_EXPECTED === "1") writeFileSync(EXPECTED, text);
		expect(text).toBe(readFileSync(EXPECTED, "utf8"));
		expect(text).not.toContain("neck-bridge");
	});

	it("go out again and are read back as the same", async () => {
		for (const plan of PLANS) {
			const club = folderOf(CLUB);
			await bring(club, plan);
			const { files } = readClub(club);
			const bytes = await workbookOf(clubSheets(files));
			const back = readClubSheets(await readSheets("handbook.xlsx", bytes), []);
			expect([plan.how, back.notes]).toEqual([plan.how, []]);
			expect(clubSheets(back.files)).toEqual(clubSheets(files));
		}
	});
});

describe("a mapping file to fill in", () => {
	it("says what was seen and what is missing, is taken when it is filled in, and never written over", async () => {
		const club = folderOf(CLUB);
		const desk = folderOf({
			"ours.csv":
				"Wk,Floor,Springs\n1,Log roll,Jump and land\n2,Egg rock,Jump and land\n3,Log roll,Jump and land\n",
		});
		const map = join(desk, "map.yaml");
		const files = [join(desk, "ours.csv")];
		const first = quietRun(club);
		expect(await importCommand(first.run, { files, mapOut: map, write: false, json: false })).toBe(1);
		expect(first.lines.join("\n")).toContain("the column “Springs” is no area");
		const draft = readFileSync(map, "utf8");
		expect(draft).toContain('"Springs": "?"');
		expect(draft).toContain("there are: warm-up, floor, bars, beam, trampette");
		expect(parseYaml(draft).ok).toBe(true);
		// As it is, it says nothing yet.
		const open = quietRun(club);
		expect(await importCommand(open.run, { files, map, write: false, json: false })).toBe(1);
		writeFileSync(
			map,
			`${draft.replace('"Springs": "?"', '"Springs": trampette')}minutes: {trampette: 12}\n`,
		);
		const filled = quietRun(club);
		expect(await importCommand(filled.run, { files, map, write: true, json: false })).toBe(0);
		expect(planOf(club)).toContain("  trampette: jump-and-land 12'");
		const again = quietRun(club);
		expect(await importCommand(again.run, { files, mapOut: map, write: false, json: false })).toBe(2);
		expect(textsIn(desk).get("map.yaml")).toContain("trampette: 12");
	});
});

describe("a cell of a plan", () => {
	const known = (words: string) =>
		({ "log roll": "log-roll", "10s hold": "10s-hold", bridge: "bridge" })[words.toLowerCase().trim()];
	it.each([
		["Log roll 5 min", [{ id: "log-roll", minutes: 5 }]],
		["5 min Log roll", [{ id: "log-roll", minutes: 5 }]],
		["Log roll (5)", [{ id: "log-roll", minutes: 5 }]],
		["10s hold", [{ id: "10s-hold" }]],
		["Log roll 3x5, Bridge", [{ id: "log-roll", doseWords: "3x5" }, { id: "bridge" }]],
		["3x10 Log roll", [{ id: "log-roll", doseWords: "3x10" }]],
		["Bridge – watch the hands", [{ id: "bridge", note: "watch the hands" }]],
		["Bridge 2 min hold", [{ id: "bridge", doseWords: "2 min hold" }]],
		["Level 2 routine", [{ words: "Level 2 routine" }]],
		["Donkey kicks 3x5", [{ words: "Donkey kicks", doseWords: "3x5" }]],
		["Stretch and talk", [{ words: "Stretch and talk" }]],
	])("%s", (text, drills) => {
		expect(drillsInCell(text, known)).toMatchObject(drills);
	});
});
