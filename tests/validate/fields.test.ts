/** The author guide can only be as good as the schemas: every field has a meaning, and an example where one is wanted. */

import { Ajv } from "ajv";
import addFormats from "ajv-formats";
import { describe, expect, it } from "vitest";
import { COMMON_SCHEMA, FORMATS, SCHEMAS } from "../../scripts/validate/schemas.ts";
import { authorGuideView, type FieldGuide } from "../../scripts/views/author-guide.ts";
import { wordsFor } from "../../scripts/words/words.ts";

const FILES = authorGuideView(wordsFor("en")).files;
const FIELDS = FILES.flatMap(({ kind, fields }) =>
	fields.map((field) => [`${kind}.${field.name}`, field, fields] as const),
);

/** A choice whose values are listed, or a number whose meaning tells its unit, shows by itself what to write. */
function isSelfEvident({ form }: FieldGuide): boolean {
	return /^`|^(?:whole )?number\b/.test(form) && !form.includes(", or ");
}

/** Whether the example of a field in which this one stands shows it: `turn` shows `turn.seconds`. */
function isShownAbove({ name }: FieldGuide, fields: readonly FieldGuide[]): boolean {
	const own = name.split(".").at(-1)?.replace("[]", "") ?? "";
	return fields.some(
		(other) =>
			/^[.[]/.test(name.slice(other.name.length)) &&
			name.startsWith(other.name) &&
			other.examples.some((example) => new RegExp(`(?:^|[\\s{-])${own}:`, "m").test(example)),
	);
}

describe("every field of every file", () => {
	it("is in the guide", () => {
		expect(FILES.map(({ kind }) => kind).sort()).toEqual([...SCHEMAS.keys()].sort());
		expect(FIELDS.length).toBeGreaterThan(150);
	});

	it.each(["en", "fr"])("has a meaning (%s)", (language) => {
		const without = authorGuideView(wordsFor(language)).files.flatMap(({ kind, fields }) =>
			fields.filter(({ description }) => description.trim().length < 5).map(({ name }) => `${kind}.${name}`),
		);
		expect(without).toEqual([]);
	});

	it("has an example, unless its form says all or a field around it shows it", () => {
		const without = FIELDS.filter(
			([, field, fields]) =>
				field.examples.length === 0 && !isSelfEvident(field) && !isShownAbove(field, fields),
		).map(([name, { form }]) => `${name} (${form})`);
		expect(without).toEqual([]);
	});
});

describe("every example", () => {
	const ajv = new Ajv({ allErrors: true, allowUnionTypes: true, strict: false });
	// ajv-formats is CommonJS; under ESM its function is the module's `default`.
	(addFormats as unknown as { default: (a: Ajv, formats: string[]) => void }).default(ajv, ["date"]);
	for (const [name, { test }] of Object.entries(FORMATS)) ajv.addFormat(name, test);
	const all = [COMMON_SCHEMA, ...SCHEMAS.values()] as readonly { readonly $id: string }[];
	for (const schema of all) ajv.addSchema(schema);
	const examples = all.flatMap((schema) => examplesIn(schema, `${schema.$id}#`));

	it("is one that its own field takes", () => {
		expect(examples.length).toBeGreaterThan(70);
		for (const { at, example } of examples) {
			const validate = ajv.compile({ $ref: at });
			expect(validate(example), `${at}: ${JSON.stringify(validate.errors)}`).toBe(true);
		}
	});
});

/** The examples of a schema, each with the JSON pointer of what it is an example of. */
function examplesIn(
	schema: unknown,
	at: string,
): readonly { readonly at: string; readonly example: unknown }[] {
	if (typeof schema !== "object" || schema === null) return [];
	const own = (schema as { readonly examples?: unknown }).examples;
	const here = Array.isArray(own) ? own.map((example: unknown) => ({ at, example })) : [];
	const inside = Object.entries(schema)
		.filter(([key]) => key !== "examples")
		.flatMap(([key, value]) => examplesIn(value, `${at}/${key}`));
	return [...here, ...inside];
}
