/**
 * Our schemas judged by a second validator (@cfworker/json-schema, JSON Schema draft-07): on records
 * generated from each schema, sound ones and ones broken by one change, both must say the same.
 *
 * Source of the rules: JSON Schema draft-07, json-schema.org. Formats of our own are left out of the
 * comparison, since the standard lets a validator ignore formats it does not know.
 */

import { type Schema, Validator } from "@cfworker/json-schema";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { FileKind } from "../../scripts/model.ts";
import { COMMON_SCHEMA, SCHEMAS, validatorOf } from "../../scripts/validate/schemas.ts";

type Json = Record<string, unknown>;

const OWN_FORMATS = new Set(["clock", "colour", "day-or-interval", "language", "timezone", "web-address"]);

/** A schema without our own formats, so that both validators judge the same rules. */
function withoutOwnFormats(schema: unknown): unknown {
	if (Array.isArray(schema)) return schema.map(withoutOwnFormats);
	if (typeof schema !== "object" || schema === null) return schema;
	return Object.fromEntries(
		Object.entries(schema)
			.filter(([key, value]) => !(key === "format" && OWN_FORMATS.has(String(value))))
			.map(([key, value]) => [key, withoutOwnFormats(value)]),
	);
}

function second(kind: FileKind): Validator {
	const validator = new Validator(withoutOwnFormats(SCHEMAS.get(kind)) as Schema, "7", false);
	validator.addSchema(COMMON_SCHEMA as Schema, "common.schema.json");
	return validator;
}

/** Values that a field may hold, sound or not: small, and near what the schemas ask for. */
const value: fc.Arbitrary<unknown> = fc.letrec((tie) => ({
	any: fc.oneof(
		{ depthSize: "small" },
		fc.constantFrom(
			"floor",
			"level-1",
			"Bad Id",
			"",
			"  ",
			"forward",
			"knee",
			"2027-01-04",
			"2027-02-30",
			"16:30",
		),
		fc.integer({ min: -2, max: 70 }),
		fc.constantFrom(0, 0.5, 1.25, -1, true, false, null, 100001),
		fc.array(tie("any"), { maxLength: 3 }),
		fc.dictionary(
			fc.constantFrom(
				"count",
				"per",
				"do",
				"sets",
				"reps",
				"hold",
				"seconds",
				"at-once",
				"see",
				"say",
				"id",
				"name",
				"blocks",
				"drill",
				"minutes",
				"floor",
				"level-1",
				"Nope",
			),
			tie("any"),
			{ maxKeys: 3 },
		),
	),
})).any;

/** A sound record of each kind, from which broken ones are made. */
const SOUND: Readonly<Record<FileKind, unknown>> = {
	drill: {
		title: "A",
		apparatus: "floor",
		levels: { "level-1": { do: "x", sets: 2 }, "level-2": null },
		equipment: { mat: 1, bag: { count: 2, per: "gymnast" } },
		heights: { bar: "knee" },
		turn: { seconds: 10 },
		faults: [{ see: "a", say: "b" }],
		reviewed: "2026-01-01",
	},
	week: {
		week: 1,
		theme: "T",
		apparatus: {
			floor: {
				blocks: [
					{ drill: "a", minutes: 3 },
					{ stations: [{ drill: "b", at: [1, 2] }], minutes: 5, levels: ["x"] },
				],
			},
		},
	},
	guide: { title: "G", order: 1 },
	club: { name: "C", paper: "A4" },
	term: {
		name: "T",
		starts: "2027-01-04",
		weeks: 3,
		classes: [{ id: "c", ages: [5, 7], rotation: ["floor"] }],
	},
	targets: { "shape-weeks": 3, "active-share": 0.5 },
	levels: [{ id: "a", name: "A", entry: ["s"] }],
	apparatus: [{ id: "a", name: "A", plan: [1, 2] }],
	shapes: [
		{ id: "a", name: "A", angles: { hip: 90, left: { knee: 10 } }, view: "side", tilt: 10, base: "feet" },
	],
	skills: [{ id: "a", name: "A", needs: ["b"], pattern: "swing", levels: "x" }],
	equipment: [{ id: 7, name: "A", owned: 3, range: [90, 170], step: 5 }],
	purposes: [{ id: "strength", name: "Strength" }],
	accepted: [{ finding: "H309", about: { week: 6, class: "c" }, reason: "R", until: "2027-01-01" }],
	words: [{ say: "tummy", not: ["belly"], note: "N" }],
	taught: [
		{
			class: "c",
			from: "k3f9a2b81c",
			blocks: [{ apparatus: "floor", block: 1, drills: ["b"], done: "shortened", lost: 5 }],
			skills: [{ skill: "s", of: 8, alone: 5 }],
		},
	],
};

describe.each([...SCHEMAS.keys()])("the schema of %s", (kind) => {
	const validator = second(kind);
	const ours = validatorOf(kind);
	const properties = fieldNames(kind);

	it("takes the sound record, in both validators", () => {
		expect(ours(SOUND[kind]), JSON.stringify(ours.errors)).toBe(true);
		expect(validator.validate(SOUND[kind])).toMatchObject({ valid: true });
	});

	it("is judged alike on 400 changed records", () => {
		let good = 0;
		let bad = 0;
		fc.assert(
			fc.property(
				fc.constantFrom(...properties, "nonsense"),
				value,
				fc.boolean(),
				(field, changed, remove) => {
					const record = structuredClone(SOUND[kind]);
					const target = (Array.isArray(record) ? record[0] : record) as Json;
					if (remove) delete target[field];
					else target[field] = changed;
					const expected = validator.validate(record).valid;
					// A difference in our own formats alone is not a difference in the schema.
					const verdict =
						ours(record) ||
						(ours.errors ?? []).every(
							(e) => e.keyword === "format" && OWN_FORMATS.has(String(e.params.format)),
						);
					if (expected) good++;
					else bad++;
					expect(verdict, JSON.stringify({ record, errors: ours.errors })).toBe(expected);
				},
			),
			{ numRuns: 400, seed: 20270104 },
		);
		expect(good).toBeGreaterThan(10);
		expect(bad).toBeGreaterThan(10);
	});
});

function fieldNames(kind: FileKind): readonly string[] {
	const schema = SCHEMAS.get(kind) as { properties?: Json; definitions?: { item?: { properties?: Json } } };
	return Object.keys(schema.properties ?? schema.definitions?.item?.properties ?? {});
}
