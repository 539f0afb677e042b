/**
 * Judges the data of one file by its schema, and turns the validator's errors into problems.
 *
 * A value that may have several forms fails each form's rules at once; the author meant one of them.
 * So: where something inside the value is wrong, only that is said; where only the outer form is
 * wrong, the forms are said together, once.
 */

import type { ErrorObject } from "ajv";
import type { DataPath, SourceFile } from "../model.ts";
import type { Place } from "../place.ts";
import { type Problem, problem } from "../problems.ts";
import { nearestName } from "../read/nearest-name.ts";
import { cureFor } from "./cures.ts";
import { FORMATS, isPortable, STANDARD_FORMATS, validatorOf } from "./schemas.ts";

/** The problems of a file's data; none means that it has the form its schema describes. */
export function judgeData(file: SourceFile): readonly Problem[] {
	const validate = validatorOf(file.kind);
	if (validate(file.data)) return [];
	return withoutMisspelt(relevant(validate.errors ?? [])).map((error) => asProblem(file, error));
}

/** Whether the value at a path of a file's data, and all inside it, has the form it should. */
export function soundPartsOf(file: SourceFile): (path: DataPath) => boolean {
	const validate = validatorOf(file.kind);
	validate(file.data);
	const faults = (validate.errors ?? []).map(({ instancePath }) => pathOf(instancePath));
	return (path) => !faults.some((fault) => path.every((step, i) => fault[i] === step));
}

/** A required field that is there under a misspelt name is one mistake: the misspelling. */
function withoutMisspelt(errors: readonly ErrorObject[]): readonly ErrorObject[] {
	const meant = new Set(
		errors
			.filter((e) => e.keyword === "additionalProperties")
			.map((e) => `${e.instancePath} ${nearestField(e)}`),
	);
	return errors.filter(
		(e) => e.keyword !== "required" || !meant.has(`${e.instancePath} ${String(e.params.missingProperty)}`),
	);
}

function nearestField(error: ErrorObject): string | undefined {
	return nearestName(String(error.params.additionalProperty), fieldsOf(error));
}

function fieldsOf(error: ErrorObject): readonly string[] {
	return Object.keys((error.parentSchema?.properties as object | undefined) ?? {});
}

/** Drops what only says that another form of a value was not met. */
function relevant(errors: readonly ErrorObject[]): readonly ErrorObject[] {
	const choices = errors.filter((e) => e.keyword === "anyOf" || e.keyword === "oneOf");
	const kept = new Set(errors);
	for (const choice of choices) {
		const here = errors.filter((e) => e !== choice && e.instancePath === choice.instancePath && kept.has(e));
		const deeper = errors.some((e) => e.instancePath.startsWith(`${choice.instancePath}/`));
		if (choice.keyword === "oneOf") {
			// Which one of several fields: only the choice itself is worth saying.
			for (const e of here) if (e.keyword === "required" && e.schemaPath.includes("/oneOf/")) kept.delete(e);
			continue;
		}
		const sharper = here.some((e) => !["type", "anyOf"].includes(e.keyword));
		for (const e of here) if (e.keyword === "type" && (deeper || sharper || choice !== e)) kept.delete(e);
		if (deeper || sharper) kept.delete(choice);
	}
	const seen = new Set<string>();
	return errors.filter((e) => {
		if (!kept.has(e)) return false;
		// A key that is no id is said once, by its pattern; a text that is empty once, by its length.
		if (e.keyword === "propertyNames") return false;
		if (e.keyword === "pattern" && e.data === "") return false;
		const key = `${e.instancePath} ${e.keyword} ${JSON.stringify(e.params)}`;
		if (seen.has(key)) return false;
		seen.add(key);
		return true;
	});
}

function asProblem(file: SourceFile, error: ErrorObject): Problem {
	const path = pathOf(error.instancePath);
	const where = path.length === 0 ? "" : `${fieldName(path)}: `;
	type More = Parameters<typeof problem>[3];
	const wrongValue = (what: string, more?: More) =>
		problem("H106", file.place(path), `${where}${shown(error.data)} ${what}.`, more);
	// A missing field would stand below the key that holds it, or on the first line of the fields.
	const ofHolder = (code: "H105" | "H106", what: string, more?: More) =>
		problem(code, file.place(path, "key"), where + what, more);
	switch (error.keyword) {
		case "additionalProperties": {
			const name = String(error.params.additionalProperty);
			const nearest = nearestField(error);
			return problem("H104", file.place([...path, name], "key"), `${where}There is no field \`${name}\`.`, {
				nearest,
				...(nearest === undefined ? { fix: `The fields here are: ${fieldsOf(error).join(", ")}.` } : {}),
			});
		}
		case "required": {
			const name = String(error.params.missingProperty);
			const fix = `Add \`${name}:\`${exampleOf(error, name)}.`;
			return ofHolder("H105", `The field \`${name}\` is missing.`, { fix });
		}
		case "oneOf":
			return Array.isArray(error.params.passingSchemas)
				? ofHolder("H106", "A block holds one of `drill`, `stations` and `options`.")
				: ofHolder("H105", "The block has no `drill`, `stations` or `options`.", {
						fix: "Add `drill:` with a drill's id, or `stations:` or `options:` with a list.",
					});
		case "pattern":
			if (error.propertyName !== undefined)
				return badId(file.place([...path, error.propertyName], "key"), error.propertyName);
			return typeof error.data === "string" && error.schema !== "\\S"
				? badId(file.place(path), error.data)
				: problem("H106", file.place(path), `${where}There is nothing but blanks here.`);
		case "enum": {
			const allowed = (error.params.allowedValues as readonly unknown[]).map(String);
			const nearest = typeof error.data === "string" ? nearestName(error.data, allowed) : undefined;
			return wrongValue(`is none of ${listed(allowed)}`, cureOf(error, path) ?? { nearest });
		}
		case "format": {
			const name = String(error.params.format);
			const wants = FORMATS[name]?.wants ?? STANDARD_FORMATS[name] ?? name;
			return wrongValue(`is not ${wants}`, cureOf(error, path) ?? { fix: `Write ${wants}.` });
		}
		case "type":
		case "anyOf": {
			if (path.length === 0) {
				const wants = Array.isArray(error.data) ? "fields, not a list" : "a list, not fields";
				const what = error.data === null ? "The file holds nothing." : `This file should hold ${wants}.`;
				return problem("H112", file.place([]), what);
			}
			const what = error.data === null ? "stands behind it; it wants" : "is not";
			return wrongValue(`${what} ${formsOf(error)}`, cureOf(error, path));
		}
		default: {
			const [what, fix] = ruleOf(error);
			return wrongValue(what, { fix });
		}
	}
}

function cureOf(error: ErrorObject, path: DataPath): { readonly fix: string } | undefined {
	const fix = cureFor(error, path);
	return fix === undefined ? undefined : { fix };
}

/** What a value of the right kind does that is out of bounds, and what to do about it. */
function ruleOf({ keyword, params, message }: ErrorObject): readonly [what: string, fix: string] {
	const limit = params.limit as number | undefined;
	switch (keyword) {
		case "minimum":
			return [`is less than ${limit}`, `Write ${limit} or more.`];
		case "maximum":
			return [`is more than ${limit}`, `Write ${limit} or less.`];
		case "exclusiveMinimum":
			return [`is not more than ${limit}`, `Write more than ${limit}.`];
		case "minLength":
		case "minItems":
		case "minProperties":
			return [
				keyword === "minLength" || limit === 1 ? "is empty" : `has fewer than ${limit} entries`,
				limit === 1 ? "Write something into it, or take the line out." : `Write ${limit} entries or more.`,
			];
		case "maxItems":
			return [`has more than ${limit} entries`, `Write at most ${limit} entries.`];
		default:
			return [
				`breaks the rule: ${message ?? keyword}`,
				"Write the value as the author guide shows for this field.",
			];
	}
}

function badId(place: Place, name: string): Problem {
	return problem("H107", place, `\`${name}\` cannot be an id.`, { nearest: idFrom(name) });
}

/** The id that a name would make: "Bear Walk" gives bear-walk; undefined where nothing is left of it. */
export function idFrom(name: string): string | undefined {
	const id = name
		.normalize("NFKD")
		.replace(/\p{M}/gu, "")
		.toLowerCase()
		.replace(/[^a-z0-9]+/g, "-")
		.replace(/^-|-$/g, "");
	if (id === "") return undefined;
	return isPortable(id) ? id : `${id}-1`;
}

function pathOf(pointer: string): DataPath {
	if (pointer === "") return [];
	return pointer
		.slice(1)
		.split("/")
		.map((part) => part.replace(/~1/g, "/").replace(/~0/g, "~"))
		.map((part) => (/^\d+$/.test(part) ? Number(part) : part));
}

/** A path as people read it: `levels › level-1 › reps`, list positions counted from 1. */
function fieldName(path: DataPath): string {
	return `\`${path.map((step) => (typeof step === "number" ? `no. ${step + 1}` : step)).join(" › ")}\``;
}

const FORM_WORDS: Readonly<Record<string, string>> = {
	string: "text",
	number: "a number",
	integer: "a whole number",
	boolean: "true or false",
	array: "a list",
	object: "a map of fields",
	null: "empty",
};

function formsOf(error: ErrorObject): string {
	const forms = new Set<string>();
	collectForms(error.keyword === "anyOf" ? { anyOf: error.schema } : error.parentSchema, forms);
	return forms.size === 0 ? "what belongs here" : listed([...forms], "or");
}

function collectForms(schema: unknown, forms: Set<string>): void {
	if (typeof schema !== "object" || schema === null) return;
	const { type, anyOf, $ref } = schema as { type?: unknown; anyOf?: unknown; $ref?: unknown };
	if (Array.isArray(anyOf)) for (const branch of anyOf) collectForms(branch, forms);
	if (typeof $ref === "string")
		forms.add(REF_WORDS[$ref.replace(/^.*\//, "")] ?? "what the author guide shows");
	for (const name of Array.isArray(type) ? type : [type]) {
		const words = typeof name === "string" ? FORM_WORDS[name] : undefined;
		if (words !== undefined && words !== "empty") forms.add(words);
	}
}

const REF_WORDS: Readonly<Record<string, string>> = {
	id: "an id",
	ids: "a list of ids",
	idOrIds: "an id or a list of ids",
	dose: "a map of fields",
	whole: "a whole number",
	amount: "a number",
	text: "text",
};

function shown(value: unknown): string {
	if (value === null) return "Nothing";
	if (Array.isArray(value)) return "A list";
	if (typeof value === "object") return "A map of fields";
	const text = String(value);
	if (text === "") return "The text";
	return `\`${text.length > 60 ? `${text.slice(0, 57)}…` : text}\``;
}

function listed(names: readonly string[], joint = "and"): string {
	if (names.length < 2) return names.join("");
	return `${names.slice(0, -1).join(", ")} ${joint} ${names.at(-1)}`;
}

function exampleOf(error: ErrorObject, name: string): string {
	const properties = error.parentSchema?.properties as
		| Record<string, { examples?: readonly unknown[] }>
		| undefined;
	const example = properties?.[name]?.examples?.[0];
	const written = Array.isArray(example) ? `[${example.join(", ")}]` : example;
	return written === undefined || typeof written === "object"
		? ""
		: `, for example \`${name}: ${String(written)}\``;
}
