/**
 * The stages' one rule: a stage imports earlier stages, the model and the problem catalogue, and
 * nothing later. Read off the import lines themselves.
 */

import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";
import { REPOSITORY } from "./open-fixture.ts";

const SCRIPTS = join(REPOSITORY, "scripts");
const STAGES = [
	"files",
	"words",
	"read",
	"validate",
	"link",
	"compute",
	"solve",
	"edit",
	"figures",
	"render",
	"print",
	"commands",
];

/** Pure stages run in a browser too: no files, no clock. */
const PURE = ["words", "compute", "figures"];

const files = readdirSync(SCRIPTS, { recursive: true })
	.map(String)
	.filter((f) => f.endsWith(".ts") && !f.endsWith(".d.ts"))
	.map((f) => f.split(sep).join("/"));

function importsOf(file: string): readonly { readonly from: string; readonly typeOnly: boolean }[] {
	const text = readFileSync(join(SCRIPTS, file), "utf8");
	return [...text.matchAll(/^\s*(?:import|export)\s+(type\s)?[^;]*?from\s+"([^"]+)"/gm)].map((m) => ({
		from: m[2] ?? "",
		typeOnly: m[1] !== undefined,
	}));
}

describe("the stages", () => {
	it("are the folders of scripts/", () => {
		const folders = new Set(files.filter((f) => f.includes("/")).map((f) => f.split("/")[0]));
		expect([...folders].sort()).toEqual([...STAGES].sort());
	});

	it.each(files.filter((f) => f.includes("/")))("%s imports nothing later", (file) => {
		const stage = STAGES.indexOf(file.split("/")[0] ?? "");
		for (const { from, typeOnly } of importsOf(file)) {
			if (!from.startsWith(".")) continue;
			const target = relative(SCRIPTS, join(SCRIPTS, dirname(file), from))
				.split(sep)
				.join("/");
			const targetStage = STAGES.indexOf(target.split("/")[0] ?? "");
			// The pipeline's own type, Handbook, is what render and print are given.
			if (target === "handbook.ts")
				expect(typeOnly || file.startsWith("commands/"), `${file} → ${target}`).toBe(true);
			else if (targetStage >= 0) expect(targetStage, `${file} → ${target}`).toBeLessThanOrEqual(stage);
		}
	});

	it.each(files.filter((f) => PURE.includes(f.split("/")[0] ?? "")))("%s is pure", (file) => {
		const text = readFileSync(join(SCRIPTS, file), "utf8");
		for (const { from } of importsOf(file)) expect(from).not.toMatch(/^node:/);
		expect(text).not.toMatch(/\bDate\.now\(|new Date\(\)|Math\.random\(|\bprocess\./);
	});
});
