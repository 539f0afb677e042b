/**
 * The stages' one rule: a stage imports earlier stages, the model and the problem catalogue, and
 * nothing later. `layouts/` is a stage too, and is given views: it imports nothing that reads, links or
 * counts. Read off the import lines themselves.
 */

import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";
import { REPOSITORY } from "./open-fixture.ts";

const STAGES = [
	"files",
	"words",
	"read",
	"validate",
	"link",
	"libraries",
	"compute",
	"solve",
	"edit",
	"figures",
	"views",
	"search",
	"records",
	"layouts",
	"site",
	"pdf",
	"print",
	"desk",
	"commands",
];

/** Pure stages run in a browser too: no files, no clock. */
const PURE = ["words", "compute", "figures", "views", "search", "layouts"];

/** Stages that need no `Handbook`: it is opened by what comes after them. */
const BEFORE_THE_HANDBOOK = STAGES.slice(0, STAGES.indexOf("figures") + 1);

/** What markup and the programs of browsers may be made of. */
const FOR_LAYOUTS = ["words", "figures", "views", "search", "records", "layouts"];

/** Folders under `scripts/` and `layouts/`, one within the other. */
const DEEPEST = 3;

const files = ["scripts", "layouts"]
	.flatMap((folder) =>
		readdirSync(join(REPOSITORY, folder), { recursive: true }).map((file) => join(folder, String(file))),
	)
	.filter((file) => /\.tsx?$/.test(file) && !file.endsWith(".d.ts"))
	.map((file) => file.split(sep).join("/"));

/** The stage of a file; undefined for those of the domain: the model, places, problems, the handbook. */
function stageOf(file: string): string | undefined {
	const [top, folder, ...rest] = file.split("/");
	if (top === "layouts") return "layouts";
	return rest.length === 0 ? undefined : folder;
}

function importsOf(file: string): readonly { readonly to: string; readonly typeOnly: boolean }[] {
	const text = readFileSync(join(REPOSITORY, file), "utf8");
	return [...text.matchAll(/^\s*(?:import|export)\s+(type\s)?[^;]*?from\s+"([^"]+)"/gm)].map((m) => {
		const from = m[2] ?? "";
		const to = from.startsWith(".")
			? relative(".", join(dirname(file), from))
					.split(sep)
					.join("/")
			: from;
		return { to, typeOnly: m[1] !== undefined };
	});
}

describe("the stages", () => {
	it("are the folders of scripts/, and layouts/", () => {
		const folders = new Set(files.map(stageOf).filter((stage) => stage !== undefined));
		expect([...folders].sort()).toEqual([...STAGES].sort());
	});

	it.each(files)("%s is at most three folders deep", (file) => {
		expect(file.split("/").length - 1).toBeLessThanOrEqual(DEEPEST);
	});

	it.each(files.filter((file) => stageOf(file) !== undefined))("%s imports nothing later", (file) => {
		const stage = stageOf(file) ?? "";
		for (const { to, typeOnly } of importsOf(file)) {
			if (to === "scripts/handbook.ts") {
				expect(BEFORE_THE_HANDBOOK, `${file} → ${to}`).not.toContain(stage);
				expect(typeOnly || stage === "commands", `${file} → ${to}`).toBe(true);
			}
			const target = /^(scripts|layouts)\//.test(to) ? stageOf(to) : undefined;
			if (target === undefined) continue;
			expect(STAGES.indexOf(target), `${file} → ${to}`).toBeLessThanOrEqual(STAGES.indexOf(stage));
			if (stage === "layouts") expect(FOR_LAYOUTS, `${file} → ${to}`).toContain(target);
		}
	});

	it("do not go round: the model, places and problems", () => {
		expect(importsOf("scripts/place.ts")).toEqual([]);
		expect(importsOf("scripts/problems.ts").map(({ to }) => to)).toEqual(["scripts/place.ts"]);
	});

	it.each(files.filter((file) => PURE.includes(stageOf(file) ?? "")))("%s is pure", (file) => {
		for (const { to } of importsOf(file)) expect(to).not.toMatch(/^node:/);
		if (/^layouts\/(browser|worker|desk)\//.test(file)) return;
		const text = readFileSync(join(REPOSITORY, file), "utf8");
		expect(text).not.toMatch(/\bDate\.now\(|new Date\(\)|Math\.random\(|\bprocess\./);
	});
});
