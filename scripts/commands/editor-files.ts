/**
 * What editors need to complete and check while one types, in a club's `.vscode` folder: the schemas, with
 * the ids that the club has; which schema goes with which files; and the same ids as snippets, which
 * complete in Markdown as well, where no schema reaches.
 *
 * They are made from the club and written anew by `new`, `build` and `serve`, so none of them is anybody's
 * own but the settings, which are written once.
 */

import { namesIn } from "../desk/things.ts";
import { openFolder } from "../files/folder.ts";
import type { Handbook } from "../handbook.ts";
import { kindsOfField } from "../link/reference-fields.ts";
import type { DataPath, FileKind } from "../model.ts";
import { readClub } from "../read/read-club.ts";
import { SCHEMA_FILES_OF, schemaFiles } from "../site/schema-files.ts";
import { SCHEMAS } from "../validate/schemas.ts";
import type { Run } from "./run.ts";

export const EDITOR_FOLDER = ".vscode";
export const EDITOR_SCHEMAS = `${EDITOR_FOLDER}/schemas`;
const SETTINGS = `${EDITOR_FOLDER}/settings.json`;
const SNIPPETS = `${EDITOR_FOLDER}/club.code-snippets`;

type Names = ReturnType<typeof namesIn>;
type Schema = Readonly<Record<string, unknown>>;

export function hasEditorFiles(clubDir: string): boolean {
	return openFolder(clubDir).has(EDITOR_SCHEMAS);
}

/** Writes them anew where the club has them; says so where that cannot be done. */
export function renewEditorFiles({ clubDir, out }: Pick<Run, "clubDir" | "out">, handbook: Handbook): void {
	try {
		if (hasEditorFiles(clubDir)) writeEditorFiles(clubDir, handbook);
	} catch (error) {
		const why = error instanceof Error && "code" in error ? String(error.code) : String(error);
		out.line(`What editors complete in ${EDITOR_FOLDER} could not be written anew (${why}).`);
	}
}

/** Writes those that say something else by now. Without a sound handbook there are no ids of classes. */
export function writeEditorFiles(clubDir: string, handbook: Handbook | undefined): void {
	const club = openFolder(clubDir);
	const names = namesIn(handbook, handbook === undefined ? readClub(clubDir).files : []);
	const kinds = [...SCHEMAS.keys()];
	const files = new Map([
		...(club.has(SETTINGS) ? [] : [[SETTINGS, editorSettings()] as const]),
		[SNIPPETS, snippets(names)] as const,
		...schemaFiles(EDITOR_SCHEMAS).map(({ path, text }, i) => {
			const schema = withIds(JSON.parse(text), kinds[i] ?? "drill", names);
			return [path, json(schema)] as const;
		}),
	]);
	for (const [path, text] of files) {
		if (!club.has(path) || club.readText(path) !== text) club.write(path, text);
	}
}

/** The schema of a kind of file with the club's ids offered wherever a field holds one. */
function withIds(root: Schema, kind: FileKind, names: Names): Schema {
	const offered = (kinds: readonly string[]): Schema | undefined => {
		const things = kinds.flatMap((one) => names[one] ?? []);
		return things.length === 0
			? undefined
			: { enum: things.map(({ id }) => id), enumDescriptions: things.map(({ name }) => name) };
	};
	/** An id that is not there yet is no mistake of form: `check` tells what is missing. */
	const orAny = (schema: Schema, ids: Schema | undefined): Schema =>
		ids === undefined ? schema : { ...schema, examples: undefined, anyOf: [ids, {}] };
	const inside = (written: Schema, at: DataPath): Schema => {
		const schema = resolved(root, written);
		const whole: Record<string, unknown> = { ...schema };
		const { properties, additionalProperties: others, items, anyOf, allOf } = schema;
		if (properties !== undefined) {
			const own = Object.entries(properties as Record<string, Schema>);
			whole.properties = Object.fromEntries(own.map(([name, one]) => [name, inside(one, [...at, name])]));
		}
		if (typeof others === "object") {
			whole.additionalProperties = inside(others as Schema, [...at, "x"]);
			whole.propertyNames = orAny(
				(schema.propertyNames ?? {}) as Schema,
				offered(kindsOfField(kind, [...at, "x"], true)),
			);
		}
		if (items !== undefined) whole.items = inside(items as Schema, [...at, 0]);
		if (anyOf !== undefined) whole.anyOf = (anyOf as Schema[]).map((one) => inside(one, at));
		if (allOf !== undefined) whole.allOf = (allOf as Schema[]).map((one) => inside(one, at));
		const isId = schema.pattern !== undefined && at.at(-1) !== "id";
		return isId ? orAny(whole, offered(kindsOfField(kind, at, false))) : whole;
	};
	const { definitions: _, ...whole } = inside(root, []);
	return whole;
}

function resolved(root: Schema, { $ref, ...own }: Schema): Schema {
	if (typeof $ref !== "string") return own;
	const found = (root.definitions as Readonly<Record<string, Schema>>)[$ref.replace("#/definitions/", "")];
	return { ...resolved(root, found ?? {}), ...own };
}

/** One snippet for each thing: found by its name and by its id, and written as the id. */
function snippets(names: Names): string {
	const all = Object.entries(names).flatMap(([kind, things]) =>
		things.map(({ id, name }) => [
			`${kind} ${id}`,
			{ scope: "markdown,yaml", prefix: [...new Set([id, name])], body: id, description: `${kind}: ${name}` },
		]),
	);
	return json(Object.fromEntries(all));
}

/** Which schema goes with which files; and that editors offer ids in Markdown without being asked. */
function editorSettings(): string {
	const schemas = SCHEMA_FILES_OF.map(([kind, files]) => [`./${EDITOR_SCHEMAS}/${kind}.schema.json`, files]);
	return json({
		"yaml.schemas": Object.fromEntries(schemas),
		"yaml.validate": true,
		"yaml.completion": true,
		"[markdown]": {
			"editor.quickSuggestions": { other: "on", comments: "on", strings: "on" },
			"editor.wordBasedSuggestions": "off",
		},
		"files.encoding": "utf8",
		"files.eol": "\n",
	});
}

function json(value: unknown): string {
	return `${JSON.stringify(value, null, "\t")}\n`;
}
