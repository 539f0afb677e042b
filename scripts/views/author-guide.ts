/**
 * The author guide: every file a club writes, every field of it from the schemas, and every problem
 * code from the catalogue. Nothing here is written twice: the schemas and the catalogue are printed.
 */

import { dump } from "js-yaml";
import { type FileKind, isPageKind } from "../model.ts";
import { severityOf } from "../problems.ts";
import { resolved, SCHEMAS, type Schema } from "../validate/schemas.ts";
import type { Words } from "../words/words.ts";

export type AuthorGuideView = ReturnType<typeof authorGuideView>;

/** What a director types, by what it is for, in the order of a term; ids are those of the demo club. */
export const COMMANDS = {
	new: [
		'npm run new -- drill --title "Seat drop to stand" --apparatus floor --levels beginners,level-1',
		'npm run new -- club ../my-club --name "My Gymnastics Club" --starts 2027-01-04',
		"npm run new -- host nginx",
	],
	editor: ["npm run new -- editor"],
	import: [
		"npm run import -- drills.xlsx",
		"npm run import -- drills.xlsx --map words.yaml --write",
		"npm run import -- drills.xlsx --update",
		"npm run import -- drills.xlsx --update --remove",
	],
	check: ["npm run check"],
	serve: ["npm run serve", "npm run serve -- --read-only"],
	whatIf: ["npm run check -- --what-if changes.yaml"],
	mend: ["npm run mend -- --week 3", "npm run mend -- --finding H303 --list changes.yaml"],
	plan: ["npm run plan -- --seed 2"],
	taught: ["npm run taught -- reports/*.txt", "npm run taught -- reports/*.txt --write"],
	apply: ["npm run apply -- changes.yaml", "npm run apply -- changes.yaml --write"],
	accept: ['npm run accept -- H311 --week 4 --reason "Short bear walks; hands rest in week 5."'],
	rename: ["npm run rename -- drill:bar-quiet-hang bar-long-hang"],
	move: ["npm run move -- block 3/beam/2 5/beam/1", "npm run move -- week 4 6 --swap"],
	undo: ["npm run undo"],
	export: ["npm run export -- --to spreadsheets"],
	compare: ["npm run compare -- ../last-term ."],
	library: [
		"npm run compare -- --library",
		"npm run compare -- --library --take skill:rock --keep drill:roll-down-wedge",
	],
	since: ["npm run build -- --since ../last-term"],
	nextTerm: ["npm run next-term -- --to ../spring-term --starts 2027-04-19 --closed 2027-05-31/2027-06-04"],
	update: ["npm run update", "npm run update -- --write"],
	print: [
		"npm run print",
		"npm run print -- class-sheets --week 3",
		"npm run print -- station-cards --week 3 --apparatus beam --up 4",
		"npm run print -- update-packet --since old-binder.edition.json",
	],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type CommandUse = keyof typeof COMMANDS;

/** A mapping file for `import`. */
export const MAPPING_EXAMPLE = `columns:
  Initials: skip
  Where we do it: apparatus
values:
  levels:
    Tots: beginners`;

/** A change list for \`check --what-if\`, made in order; a block is named week/apparatus/number. */
export const CHANGES_EXAMPLE = `- add: {week: 5, apparatus: beam, at: 2, block: {drill: beam-side-steps, minutes: 6}}
- remove: 5/beam/3
- move: {from: 3/beam/2, to: 5/beam/1}
- set: {block: 5/beam/1, minutes: 8}
- swap: {block: 3/beam/1, station: 2, drill: beam-passe-stand}
- exchange: [3/floor/1, 3/floor/2]
- split: {block: 3/floor/4, after: 2, minutes: [15, 15]}`;

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

function fileOf(kind: FileKind): string {
	if (kind === "taught") return "_data/taught/<week>.yaml";
	if (!isPageKind(kind)) return `_data/${kind}.yaml`;
	return kind === "drill" ? "content/drills/<apparatus>/<id>.md" : `content/${kind}s/<id>.md`;
}

type FormWords = Words["authorGuide"]["forms"];

/** The whole guide, from the schemas and the catalogue. */
export function authorGuideView(words: Words) {
	const codes = Object.entries(words.catalogue);
	return {
		files: Array.from(SCHEMAS, ([kind, schema]) => fileGuide(words, kind, schema as Schema)),
		stages: Object.entries(words.authorGuide.stages)
			.map(([prefix, title]) => ({
				title,
				codes: codes
					.filter(([code]) => code.startsWith(prefix))
					.map(([code, entry]) => ({ code, severity: severityOf(code), ...entry })),
			}))
			.filter((stage) => stage.codes.length > 0),
	};
}

function fileGuide(words: Words, kind: FileKind, root: Schema) {
	const top = root.items === undefined ? root : resolved(root, root.items);
	return {
		kind,
		file: fileOf(kind),
		description: words.fields[kind] ?? (root.description ?? "").replace(/^[^:]*\.(yaml|md): ?/, ""),
		fields: fieldsOf(words, root, top, "", 0).map((field) => ({
			...field,
			description: words.fields[`${kind}.${field.name}`] ?? field.description,
		})),
	};
}

function fieldsOf(
	words: Words,
	root: Schema,
	schema: Schema,
	prefix: string,
	depth: number,
): readonly FieldGuide[] {
	return Object.entries(schema.properties ?? {}).flatMap(([name, own]) => {
		const field = resolved(root, own);
		const path = prefix + name;
		return [
			{
				name: path,
				required: schema.required?.includes(name) ?? false,
				form: formOf(words.authorGuide.forms, root, field),
				description: field.description ?? "",
				examples: (field.examples ?? []).map((example) => exampleYaml(name, example)),
			},
			...(depth > 4 ? [] : innerFields(words, root, field, path, depth)),
		];
	});
}

/** The fields of what stands inside a field: of a map, of each item of a list, of each value by id. */
function innerFields(
	words: Words,
	root: Schema,
	field: Schema,
	path: string,
	depth: number,
): readonly FieldGuide[] {
	const forms = [field, ...(field.anyOf ?? [])].map((form) => resolved(root, form));
	return forms.flatMap((form) => {
		const item = form.items === undefined ? undefined : resolved(root, form.items);
		const inside = item === undefined ? [] : [item, ...(item.anyOf ?? []).map((v) => resolved(root, v))];
		const byId =
			typeof form.additionalProperties === "object" ? resolved(root, form.additionalProperties) : undefined;
		const values = byId === undefined ? [] : [byId, ...(byId.anyOf ?? []).map((v) => resolved(root, v))];
		return [
			...fieldsOf(words, root, form, `${path}.`, depth + 1),
			...inside.flatMap((item) => fieldsOf(words, root, item, `${path}[].`, depth + 1)),
			...values.flatMap((value) => fieldsOf(words, root, value, `${path}.<id>.`, depth + 1)),
		];
	});
}

function formOf(say: FormWords, root: Schema, schema: Schema): string {
	if (schema.enum !== undefined) return schema.enum.map((value) => `\`${value}\``).join(", ");
	if (schema.anyOf !== undefined)
		return [...new Set(schema.anyOf.map((s) => formOf(say, root, resolved(root, s))))].join(`, ${say.or} `);
	if (schema.format === "date") return say.date;
	if (schema.format === "clock") return say.clock;
	if (schema.format === "day-or-interval") return say.dateOrInterval;
	const types = Array.isArray(schema.type) ? (schema.type as readonly string[]) : [schema.type ?? "anything"];
	if (types.includes("array"))
		return say.listOf(
			schema.items === undefined ? say.anything : formOf(say, root, resolved(root, schema.items)),
		);
	if (types.includes("object"))
		return typeof schema.additionalProperties === "object" ? say.mapByName : say.fields;
	if (types.includes("string") && types.includes("integer")) return say.id;
	if (types.includes("boolean")) return say.truth;
	if (types.includes("null")) return say.nothing;
	if (types.includes("integer") || types.includes("number")) {
		return `${types.includes("integer") ? say.whole : say.number}${rangeOf(say, schema)}`;
	}
	return say.text;
}

function rangeOf(say: FormWords, { minimum, exclusiveMinimum, maximum }: Schema): string {
	// A hundred thousand and the like only keep slips of the finger out; they tell an author nothing.
	const most = maximum !== undefined && maximum < 100_000 ? maximum : undefined;
	if (exclusiveMinimum !== undefined)
		return ` ${most === undefined ? say.above(exclusiveMinimum) : say.aboveTo(exclusiveMinimum, most)}`;
	if (minimum === undefined) return most === undefined ? "" : ` ${say.to(most)}`;
	return most === undefined ? ` ${say.from(minimum)}` : `, ${say.between(minimum, most)}`;
}

function exampleYaml(name: string, example: unknown): string {
	return dump({ [name]: example }, { lineWidth: 90, flowLevel: 3, noRefs: true }).trim();
}
