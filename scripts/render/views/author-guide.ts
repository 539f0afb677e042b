/**
 * The author guide: every file a club writes, every field of it from the schemas, and every problem
 * code from the catalogue. Nothing here is written twice: the schemas and the catalogue are printed.
 */

import { dump } from "js-yaml";
import type { FileKind } from "../../model.ts";
import { CATALOGUE, type CatalogueEntry } from "../../problems.ts";
import { COMMON_SCHEMA, SCHEMAS } from "../../validate/schemas.ts";

export interface AuthorGuideView {
	readonly files: readonly FileGuide[];
	readonly stages: readonly {
		readonly title: string;
		readonly codes: readonly ({ readonly code: string } & CatalogueEntry)[];
	}[];
}

export interface FileGuide {
	readonly kind: FileKind;
	readonly file: string;
	readonly description: string;
	readonly fields: readonly FieldGuide[];
}

export interface FieldGuide {
	/** Its name after the names of what it stands in: `faults.see`. */
	readonly name: string;
	readonly required: boolean;
	/** What may be written there, in words. */
	readonly form: string;
	readonly description: string;
	/** YAML. */
	readonly examples: readonly string[];
}

const FILES: Readonly<Record<FileKind, string>> = {
	drill: "content/drills/<apparatus>/<id>.md",
	week: "content/weeks/<id>.md",
	guide: "content/guides/<id>.md",
	club: "_data/club.yaml",
	term: "_data/term.yaml",
	targets: "_data/targets.yaml",
	levels: "_data/levels.yaml",
	apparatus: "_data/apparatus.yaml",
	shapes: "_data/shapes.yaml",
	skills: "_data/skills.yaml",
	equipment: "_data/equipment.yaml",
};

const STAGES: readonly (readonly [string, string])[] = [
	["H1", "Reading and checking a file"],
	["H2", "How files refer to each other"],
	["H3", "What the plan adds up to"],
	["H4", "Printing"],
];

/** The parts of JSON Schema that our schemas use. */
interface Schema {
	readonly $ref?: string;
	readonly type?: string | readonly string[];
	readonly title?: string;
	readonly description?: string;
	readonly examples?: readonly unknown[];
	readonly enum?: readonly string[];
	readonly format?: string;
	readonly minimum?: number;
	readonly exclusiveMinimum?: number;
	readonly maximum?: number;
	readonly default?: unknown;
	readonly required?: readonly string[];
	readonly properties?: Readonly<Record<string, Schema>>;
	readonly additionalProperties?: boolean | Schema;
	readonly items?: Schema;
	readonly anyOf?: readonly Schema[];
	readonly definitions?: Readonly<Record<string, Schema>>;
}

/** The shared definitions, with references among themselves that hold from any other schema as well. */
const COMMON: Schema = JSON.parse(
	JSON.stringify(COMMON_SCHEMA).replaceAll('"#/definitions/', '"common.schema.json#/definitions/'),
);

/** The whole guide, from the schemas and the catalogue. */
export function authorGuideView(): AuthorGuideView {
	const codes = Object.entries(CATALOGUE) as readonly (readonly [string, CatalogueEntry])[];
	return {
		files: Array.from(SCHEMAS, ([kind, schema]) => fileGuide(kind, schema as Schema)),
		stages: STAGES.map(([prefix, title]) => ({
			title,
			codes: codes.filter(([code]) => code.startsWith(prefix)).map(([code, entry]) => ({ code, ...entry })),
		})).filter((stage) => stage.codes.length > 0),
	};
}

function fileGuide(kind: FileKind, root: Schema): FileGuide {
	const top = root.items === undefined ? root : resolve(root, root.items);
	return {
		kind,
		file: FILES[kind],
		description: (root.description ?? "").replace(/^[^:]*\.(yaml|md): ?/, ""),
		fields: fieldsOf(root, top, "", 0),
	};
}

function fieldsOf(root: Schema, schema: Schema, prefix: string, depth: number): readonly FieldGuide[] {
	return Object.entries(schema.properties ?? {}).flatMap(([name, own]) => {
		const field = resolve(root, own);
		const path = prefix + name;
		return [
			{
				name: path,
				required: schema.required?.includes(name) ?? false,
				form: formOf(root, field),
				description: field.description ?? "",
				examples: (field.examples ?? []).map((example) => exampleYaml(name, example)),
			},
			...(depth > 4 ? [] : innerFields(root, field, path, depth)),
		];
	});
}

/** The fields of what stands inside a field: of a map, of each item of a list, of each value by id. */
function innerFields(root: Schema, field: Schema, path: string, depth: number): readonly FieldGuide[] {
	const forms = [field, ...(field.anyOf ?? [])].map((form) => resolve(root, form));
	return forms.flatMap((form) => {
		const item = form.items === undefined ? undefined : resolve(root, form.items);
		const inside = item === undefined ? [] : [item, ...(item.anyOf ?? []).map((v) => resolve(root, v))];
		const byId =
			typeof form.additionalProperties === "object" ? resolve(root, form.additionalProperties) : undefined;
		const values = byId === undefined ? [] : [byId, ...(byId.anyOf ?? []).map((v) => resolve(root, v))];
		return [
			...fieldsOf(root, form, `${path}.`, depth + 1),
			...inside.flatMap((item) => fieldsOf(root, item, `${path}[].`, depth + 1)),
			...values.flatMap((value) => fieldsOf(root, value, `${path}.<id>.`, depth + 1)),
		];
	});
}

/** Follows a reference; what stands beside it (a description of its own) comes first. */
function resolve(root: Schema, schema: Schema): Schema {
	if (schema.$ref === undefined) return schema;
	const [file, pointer = ""] = schema.$ref.split("#");
	let found: unknown = file === "" ? root : COMMON;
	for (const key of pointer.split("/").filter((part) => part !== "")) {
		found = (found as Readonly<Record<string, unknown>>)[key];
	}
	const { $ref: _, ...own } = schema;
	return { ...resolve(root, found as Schema), ...own };
}

function formOf(root: Schema, schema: Schema): string {
	if (schema.enum !== undefined) return schema.enum.join(", ");
	if (schema.anyOf !== undefined)
		return [...new Set(schema.anyOf.map((s) => formOf(root, resolve(root, s))))].join(", or ");
	if (schema.format === "date") return "date";
	if (schema.format === "clock") return "time of day";
	if (schema.format === "day-or-interval") return "date or interval";
	const types = Array.isArray(schema.type) ? (schema.type as readonly string[]) : [schema.type ?? "anything"];
	if (types.includes("array"))
		return `list of ${schema.items === undefined ? "anything" : formOf(root, resolve(root, schema.items))}`;
	if (types.includes("object"))
		return typeof schema.additionalProperties === "object" ? "map by name" : "fields";
	if (types.includes("string") && types.includes("integer")) return "id";
	if (types.includes("boolean")) return "true or false";
	if (types.includes("null")) return "nothing";
	if (types.includes("integer") || types.includes("number")) {
		return `${types.includes("integer") ? "whole number" : "number"}${rangeOf(schema)}`;
	}
	return "text";
}

function rangeOf({ minimum, exclusiveMinimum, maximum }: Schema): string {
	// A hundred thousand and the like only keep slips of the finger out; they tell an author nothing.
	const most = maximum !== undefined && maximum < 100_000 ? maximum : undefined;
	if (exclusiveMinimum !== undefined)
		return most === undefined ? ` above ${exclusiveMinimum}` : ` above ${exclusiveMinimum}, to ${most}`;
	if (minimum === undefined) return most === undefined ? "" : ` to ${most}`;
	return most === undefined ? ` from ${minimum}` : `, ${minimum} to ${most}`;
}

function exampleYaml(name: string, example: unknown): string {
	return dump({ [name]: example }, { lineWidth: 90, flowLevel: 3, noRefs: true }).trim();
}
