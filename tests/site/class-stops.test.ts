/** The stops of a class sheet: where the class does something this week; and heights by the names of things. */

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { drillView } from "../../scripts/views/drill.ts";
import { indexSite } from "../../scripts/views/site-index.ts";
import { classSheetView } from "../../scripts/views/week.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

const openClub = (dir: string) => {
	const { handbook } = openHandbook(dir);
	if (handbook === undefined) throw new Error("the club has errors");
	return indexSite(handbook);
};

it("leaves out what is planned there for another level only", () => {
	const dir = clubCopy(undefined, join(FIXTURES, "clubs/groups-side-by-side"));
	const week = join(dir, "content/weeks/week-1.md");
	writeFileSync(
		join(dir, "_data/levels.yaml"),
		"- {id: level-1, name: Level 1}\n- {id: level-2, name: Level 2}\n",
	);
	writeFileSync(
		week,
		readFileSync(week, "utf8").replace("drill: landing,", "drill: landing, levels: level-2,"),
	);
	const site = openClub(dir);
	const [plan] = site.curriculum.weeks;
	const [one] = site.curriculum.term.classes;
	if (plan === undefined || one === undefined) throw new Error("a week and a class");
	const stops = classSheetView(site, plan, one).stops.map(
		({ id, clock, minutes }) => `${clock} ${id} ${minutes}`,
	);
	// Floor, then the beam a minute later, for either group; nobody goes to the vault.
	expect(stops).toEqual(["16:00 floor 15", "16:16 beam 10", "16:00 floor 15", "16:16 beam 10"]);
});

it("says what is set to a height by its name, where it is written by its id", () => {
	const site = openClub(clubCopy(undefined, join(FIXTURES, "clubs/bar-at-two-heights")));
	const drill = site.curriculum.drills.get("hang");
	if (drill === undefined) throw new Error("no drill");
	expect(drillView(site, drill).setUp.heights.map(({ what }) => what)).toEqual(["Low bar"]);
});

it("calls the groups of its class by their own names alone, or by the level that one is called after", () => {
	const named = (groups: readonly [string, string]) => {
		const dir = clubCopy(undefined, join(FIXTURES, "clubs/two-levels-a-coach-each"));
		const term = join(dir, "_data/term.yaml");
		writeFileSync(
			term,
			readFileSync(term, "utf8")
				.replace("id: red", `id: ${groups[0]}`)
				.replace("id: blue", `id: ${groups[1]}`),
		);
		const site = openClub(dir);
		const [plan] = site.curriculum.weeks;
		const [one] = site.curriculum.term.classes;
		if (plan === undefined || one === undefined) throw new Error("a week and a class");
		return [...new Set(classSheetView(site, plan, one).stops.map(({ name }) => name.split(": ")[0]))];
	};
	expect(named(["level-1", "level-2"])).toEqual(["Level 1", "Level 2"]);
	expect(named(["red", "blue"])).toEqual(["Red", "Blue"]);
});
