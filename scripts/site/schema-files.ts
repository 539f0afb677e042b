/**
 * The JSON Schemas as files: published with the handbook under `schemas/`, and written into a club
 * folder, where editors find them.
 *
 * Each stands alone: the definitions that the schemas share are put into each that uses them, so that
 * an editor needs one file and no network. Formats that only this program knows are left to it, with
 * their meaning in the description.
 */

import type { FileKind } from "../model.ts";
import { COMMON_SCHEMA, FORMATS, SCHEMAS } from "../validate/schemas.ts";
import type { OutputFile } from "./data-files.ts";

type Json = Readonly<Record<string, unknown>>;

/** Where the schemas stand, from the root of the site. */
export const SCHEMA_FOLDER = "schemas";

/** The files in a club folder that each kind's schema is for. */
export const SCHEMA_FILES_OF: readonly (readonly [FileKind, readonly string[]])[] = [
	["drill", ["content/drills/**/*.md"]],
	["week", ["content/weeks/*.md"]],
	["guide", ["content/guides/*.md"]],
	...[...SCHEMAS.keys()].flatMap((kind): readonly (readonly [FileKind, readonly string[]])[] =>
		kind === "drill" || kind === "week" || kind === "guide"
			? []
			: [[kind, [`_data/${kind}.yaml`, `_data/${kind}.yml`]]],
	),
];

/** The file of a kind's schema. */
function schemaFile(kind: FileKind): string {
	return `${kind}.schema.json`;
}

/**
 * All schemas, each with what it needs.
 *
 * @param site the address of the published handbook, which makes a schema's id an address that leads to it
 */
export function schemaFiles(folder: string, site?: string): readonly OutputFile[] {
	return Array.from(SCHEMAS, ([kind, schema]) => {
		const path = `${folder}/${schemaFile(kind)}`;
		const whole = standalone(schema as Json);
		const known = site === undefined ? whole : { ...whole, $id: new URL(path, new URL("./", site)).href };
		return { path, text: `${JSON.stringify(known, null, "\t")}\n` };
	});
}

/** A schema that refers to nothing outside itself. */
function standalone(schema: Json): Json {
	const { definitions: shared = {} } = COMMON_SCHEMA as { readonly definitions?: Json };
	const own = (schema.definitions ?? {}) as Json;
	const whole = inside(schema) as Json;
	const used = new Map<string, unknown>();
	const collect = (value: unknown): void => {
		for (const [, name = ""] of JSON.stringify(value).matchAll(/"#\/definitions\/([A-Za-z-]+)"/g)) {
			if (used.has(name) || name in own) continue;
			const definition = inside(shared[name]);
			used.set(name, definition);
			collect(definition);
		}
	};
	collect(whole);
	const definitions = { ...((whole.definitions ?? {}) as Json), ...Object.fromEntries(used) };
	return Object.keys(definitions).length === 0 ? whole : { ...whole, definitions };
}

/**
 * References to the shared definitions as references inside, and no format of our own. What stands
 * beside a reference, which draft-07 lets a program overlook, is put together with what it refers to.
 */
function inside(value: unknown): unknown {
	if (Array.isArray(value)) return value.map(inside);
	if (typeof value !== "object" || value === null) return value;
	const { $ref, ...beside } = value as Json;
	if (typeof $ref === "string") {
		const [file, pointer = ""] = $ref.split("#");
		const shared = (COMMON_SCHEMA as { readonly definitions: Json }).definitions[
			pointer.replace("/definitions/", "")
		];
		if (Object.keys(beside).length === 0) return { $ref: `#${pointer}` };
		if (file === "") return { allOf: [{ $ref }], ...(inside(beside) as Json) };
		return { ...(inside(shared) as Json), ...(inside(beside) as Json) };
	}
	return Object.fromEntries(
		Object.entries(value)
			.filter(([key, inner]) => !(key === "format" && typeof inner === "string" && inner in FORMATS))
			.map(([key, inner]) => [key, inside(inner)]),
	);
}
