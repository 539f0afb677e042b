/**
 * A field that a view gains has to be taken by every rendering of it, on a page and on paper: checked on
 * a copy of the program whose views have one field more.
 */

import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";

const copy = mkdtempSync(join(tmpdir(), "one-view-"));
afterAll(() => rmSync(copy, { recursive: true, force: true }));

/** What a type checker says of the program, by file: the fields that are not taken. */
function untaken(): readonly string[] {
	try {
		execFileSync(join(REPOSITORY, "node_modules/.bin/tsc"), ["--noEmit"], { cwd: copy, stdio: "pipe" });
		return [];
	} catch (error) {
		const said = error instanceof Error && "stdout" in error ? String(error.stdout) : "";
		const found = said.matchAll(/^(layouts\/\S+?)\(\d[\s\S]*?'(\w*Warning)'/gm);
		return [...new Set(Array.from(found, ([, file, field]) => `${file} ${field}`))].sort();
	}
}

it("is shown on a page and on paper, or the types say where it is not", () => {
	for (const part of ["scripts", "layouts", "tsconfig.json", "package.json"])
		cpSync(join(REPOSITORY, part), join(copy, part), { recursive: true });
	symlinkSync(join(REPOSITORY, "node_modules"), join(copy, "node_modules"), "dir");
	for (const [file, type, field] of [
		["drill.ts", "DrillCore", "drillWarning"],
		["drill.ts", "SetUp", "setUpWarning"],
		["week.ts", "BlockView", "blockWarning"],
		["week.ts", "Station", "stationWarning"],
		["week.ts", "ClassSheetView", "classWarning"],
		["week.ts", "PlannedApparatus", "apparatusWarning"],
	] as const) {
		const path = join(copy, "scripts/views", file);
		const text = readFileSync(path, "utf8");
		// A type of its own, or what the function of that name gives.
		const maker = type.charAt(0).toLowerCase() + type.slice(1);
		const grown = text.includes(`export interface ${type} {`)
			? text.replace(`export interface ${type} {`, (head) => `${head}\n\treadonly ${field}?: string;`)
			: text.replace(
					new RegExp(`^(?:export )?function ${maker}\\([\\s\\S]*?\\n\\treturn \\{\\n`, "m"),
					(head) => `${head}\t\t${field}: "",\n`,
				);
		expect(grown, type).not.toBe(text);
		writeFileSync(path, grown);
	}
	expect(untaken()).toEqual([
		"layouts/pages/class-sheet.ts classWarning",
		"layouts/pages/drill.ts drillWarning",
		"layouts/pages/week-apparatus.ts apparatusWarning",
		"layouts/parts/block.ts blockWarning",
		"layouts/parts/block.ts drillWarning",
		"layouts/parts/block.ts stationWarning",
		"layouts/parts/drill-parts.ts setUpWarning",
		"layouts/sheets/class-leaf.ts blockWarning",
		"layouts/sheets/class-leaf.ts classWarning",
		"layouts/sheets/class-leaf.ts drillWarning",
		"layouts/sheets/class-leaf.ts setUpWarning",
		"layouts/sheets/class-leaf.ts stationWarning",
		"layouts/sheets/drills.ts drillWarning",
		"layouts/sheets/drills.ts setUpWarning",
		"layouts/sheets/station-cards.ts drillWarning",
		"layouts/sheets/weeks.ts apparatusWarning",
		"layouts/sheets/weeks.ts blockWarning",
		"layouts/sheets/weeks.ts stationWarning",
	]);
});
