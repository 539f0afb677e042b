/** `compare --library`: what a library changed is told, thing by thing, and taken or kept. */

import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it, onTestFinished } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { noteNew, SEEN_FILE } from "../../scripts/libraries/seen.ts";
import { FIXTURES } from "../open-fixture.ts";
import { handbook } from "../run-command.ts";

const WEDGE = "content/drills/floor/roll-down-wedge.md";

/** The club after it was built, and the federation's library after it was changed. */
function scene(): { readonly club: string; readonly federation: string } {
	const dir = mkdtempSync(join(tmpdir(), "libraries-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	cpSync(join(FIXTURES, "libraries"), dir, { recursive: true });
	const [club, federation] = [join(dir, "club"), join(dir, "federation")];
	noteNew(club, opened(club).theirs);
	expect(existsSync(join(club, SEEN_FILE))).toBe(true);
	const change = (file: string, from: string, to: string) => {
		const path = join(federation, file);
		const text = readFileSync(path, "utf8");
		expect(text).toContain(from);
		writeFileSync(path, text.replace(from, to));
	};
	change(WEDGE, "title: Roll down the wedge", "title: Roll down the slope\nsummary: Slowly.");
	change(WEDGE, "Roll down the slope, then", "Roll down in one line, then");
	change("content/drills/floor/rock-and-stand.md", "[Chin in, Heels to the seat]", "[Chin in]");
	change("_data/skills.yaml", "name: Rock on the back", "name: Rock");
	return { club, federation };
}

function opened(club: string) {
	const { problems, handbook: made } = openHandbook(club);
	expect(problems).toEqual([]);
	if (made === undefined) throw new Error("no handbook");
	return made;
}

it("tells what changed, and what the club says itself", async () => {
	const { club } = scene();
	const { stdout, status } = await handbook(["compare", "--library", club]);
	expect(status).toBe(0);
	expect(stdout).toContain("drill:roll-down-wedge, in Lakeside Region");
	expect(stdout).toContain("title: Roll down the wedge → Roll down the slope");
	expect(stdout).toContain("summary: nothing → Slowly.");
	expect(stdout).toContain(
		'cues: ["Chin in","Heels to the seat"] → ["Chin in"]  (yours stays: you say it yourself)',
	);
	expect(stdout).toContain("skill:rock, in Northern Federation");
	expect(stdout).toContain("3 changed since you looked");
	const checked = await handbook(["check", "--club", club]);
	expect(checked.stdout).toContain("3 things of your libraries changed since you looked");
});

it("takes one and keeps another, and says nothing more of them", async () => {
	const { club } = scene();
	const { status } = await handbook([
		"compare",
		"--library",
		club,
		"--take",
		"skill:rock,drill:rock-and-stand",
		"--keep",
		"drill:roll-down-wedge",
	]);
	expect(status).toBe(0);
	const { curriculum } = opened(club);
	expect(curriculum.skills.get("rock")?.name).toBe("Rock");
	expect(curriculum.drills.get("roll-down-wedge")).toMatchObject({
		title: "Roll down the wedge",
		body: "Roll down the slope, then onto the block.\n",
		shapes: ["tuck"],
	});
	expect(curriculum.drills.get("roll-down-wedge")?.summary).toBeUndefined();
	expect(readFileSync(join(club, WEDGE), "utf8")).toBe(
		"---\ntitle: Roll down the wedge\nsummary: null\n---\nRoll down the slope, then onto the block.\n",
	);
	const again = await handbook(["compare", "--library", club]);
	expect(again.stdout).toContain("nothing has changed since you looked");
});

it("keeps an entry of a list, with the club's own comments", async () => {
	const { club } = scene();
	writeFileSync(
		join(club, "_data/skills.yaml"),
		"# Ours.\n- id: forward-roll\n  description: As we teach it.\n",
	);
	await handbook(["compare", "--library", club, "--keep", "skill:rock"]);
	expect(readFileSync(join(club, "_data/skills.yaml"), "utf8")).toBe(
		"# Ours.\n- id: forward-roll\n  description: As we teach it.\n- id: rock\n  name: Rock on the back\n",
	);
	expect(opened(club).curriculum.skills.get("rock")?.name).toBe("Rock on the back");
});

it("refuses the name of what did not change, and writes nothing", async () => {
	const { club } = scene();
	const before = readFileSync(join(club, SEEN_FILE), "utf8");
	const { stdout, status } = await handbook(["compare", "--library", club, "--take", "drill:wave"]);
	expect(status).toBe(2);
	expect(stdout).toContain("Nothing changed of drill:wave");
	expect(readFileSync(join(club, SEEN_FILE), "utf8")).toBe(before);
});
