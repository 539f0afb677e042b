/**
 * handbook.json of the demo and of a small club, held against the schema that is published with it by two
 * validators (Ajv and @cfworker/json-schema, JSON Schema draft-07); and broken ones, which both refuse.
 */

import { type Schema, Validator } from "@cfworker/json-schema";
import { Ajv } from "ajv";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { csvFor, withNames } from "../../scripts/site/count-tables.ts";
import { dataFiles } from "../../scripts/site/data-files.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";

function filesOf(dir: string) {
	const { handbook } = openHandbook(dir);
	if (handbook === undefined) throw new Error("no handbook");
	const files = dataFiles(handbook, handbook.words, handbook.edition);
	const json = (name: string) => JSON.parse(files.find(({ path }) => path === `data/${name}`)?.text ?? "");
	const data = json("handbook.json");
	return { handbook, data, drills: data.drills.map(json), schema: json("handbook.schema.json") };
}

const { data: demo, drills, schema, handbook } = filesOf(REPOSITORY);
const first = new Ajv({ allErrors: true, strict: false }).compile(schema as object);
const second = new Validator(schema as Schema, "7", false);

describe("handbook.json", () => {
	it("is what its schema says, for both validators", () => {
		expect([first(demo), first.errors]).toEqual([true, null]);
		expect(second.validate(demo).errors).toEqual([]);
		const { data } = filesOf(clubCopy());
		expect([first(data), second.validate(data).valid]).toEqual([true, true]);
		expect(demo).toMatchObject({ $schema: "handbook.schema.json", format: 2 });
	});

	it("names files that hold every drill once, each as the schema says", () => {
		const schemaOfDrills = { definitions: schema.definitions, ...schema.definitions.drills };
		const valid = new Ajv({ strict: false }).compile(schemaOfDrills);
		expect(drills.length).toBeGreaterThan(1);
		expect(drills.every((own: unknown) => valid(own))).toBe(true);
		const other = new Validator(schemaOfDrills as Schema, "7", false);
		expect(drills.every((own: unknown) => other.validate(own).valid)).toBe(true);
		const ids = drills.flat().map(({ id }: { id: string }) => id);
		expect(ids.toSorted()).toEqual([...handbook.curriculum.drills.keys()].toSorted());
		const [{ title: _, ...untitled }] = drills.flat();
		expect([valid([untitled]), other.validate([untitled]).valid]).toEqual([false, false]);
	});

	it.each([
		["another format", (data: typeof demo) => Object.assign(data, { format: 1 })],
		["drills in a file of another name", (data: typeof demo) => data.drills.push("../drills.json")],
		[
			"a week whose block has no minutes",
			(data: typeof demo) => delete data.weeks[0].apparatus[0].blocks[0].minutes,
		],
		[
			"a class that starts at no hour",
			(data: typeof demo) => Object.assign(data.term.classes[0], { start: "9:00" }),
		],
	])("is refused by both with %s", (_what, spoil) => {
		const data = structuredClone(demo);
		spoil(data);
		expect([first(data), second.validate(data).valid]).toEqual([false, false]);
	});
});

describe("counts for a spreadsheet", () => {
	it("have names beside ids, and the signs of the club's language", () => {
		const table = handbook.tables.get("time");
		if (table === undefined) throw new Error("no table of time");
		const named = withNames(table, handbook.curriculum);
		const at = named.headings.indexOf("class name");
		expect(handbook.curriculum.term.classes.map(({ name }) => name)).toContain(named.rows[0]?.[at]);
		const [english, french] = ["en", "fr"].map((language) =>
			Papa.parse<string[]>(csvFor(language, named).slice(1)),
		);
		expect([english?.meta.delimiter, french?.meta.delimiter]).toEqual([",", ";"]);
		expect(french?.data.map((row) => row.map((cell) => cell.replace(/^(-?\d+),(\d+)$/, "$1.$2")))).toEqual(
			english?.data,
		);
		expect(csvFor("fr", named)).toMatch(/;\d+,\d/);
	});
});
