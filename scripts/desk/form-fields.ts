/**
 * Forms made of the schemas: labels and helps are theirs, in the club's language, and a field that holds
 * ids says of what, so that they are picked by name.
 */

import type { Field, FieldForm } from "../../layouts/desk/api.ts";
import { kindsOfField } from "../link/reference-fields.ts";
import type { DataPath, FileKind } from "../model.ts";
import { resolved, SCHEMAS, type Schema } from "../validate/schemas.ts";
import type { Words } from "../words/words.ts";

/** What only the board changes, and what no director writes. */
const LEFT_OUT: ReadonlySet<string> = new Set(["week.apparatus", "club.format"]);

/** Texts of more than a line. */
const LONG: ReadonlySet<string> = new Set([
	"summary",
	"description",
	"spotting",
	"caution",
	"emergency",
	"note",
	"do",
	"reason",
]);

/** The fields of a page, a data file, or an entry of one. */
export function formOf(kind: FileKind, words: Words): readonly Field[] {
	const root = SCHEMAS.get(kind) as Schema | undefined;
	if (root === undefined) return [];
	const maker = new FormMaker(kind, root, words);
	return root.items === undefined
		? maker.fields(root, [], kind)
		: maker.fields(maker.resolved(root.items), [0], kind);
}

class FormMaker {
	readonly #kind: FileKind;
	readonly #root: Schema;
	readonly #words: Words;

	constructor(kind: FileKind, root: Schema, words: Words) {
		this.#kind = kind;
		this.#root = root;
		this.#words = words;
	}

	/** @param name the names from the top, as the author guide writes them */
	fields(schema: Schema, at: DataPath, name: string): readonly Field[] {
		return Object.entries(schema.properties ?? {}).flatMap(([own, written]) => {
			const full = `${name}.${own}`;
			if (LEFT_OUT.has(full)) return [];
			const field = this.resolved(written);
			return [
				{
					name: own,
					label: this.#label(own),
					help: plainText(this.#words.fields[full] ?? field.description ?? ""),
					required: schema.required?.includes(own) ?? false,
					form: this.#form(field, [...at, own], full, own),
				},
			];
		});
	}

	resolved(schema: Schema): Schema {
		return resolved(this.#root, schema);
	}

	#label(name: string): string {
		return this.#words.desk.fieldNames[name] ?? sentence(name);
	}

	#form(schema: Schema, at: DataPath, full: string, name: string): FieldForm {
		const types = typeof schema.type === "string" ? [schema.type] : (schema.type ?? []);
		if (schema.anyOf !== undefined) return this.#either(schema, at, full, name);
		if (schema.enum !== undefined) {
			const { directions, days, patterns, desk } = this.#words;
			const names: Readonly<Record<string, string>> = {
				...directions,
				...days,
				...patterns,
				...desk.choices,
			};
			const of = schema.enum.map((id) => ({ id, name: names[id] ?? sentence(id) }));
			return { is: "choice", of };
		}
		if (types.includes("array")) return this.#list(schema, at, full, name);
		if (types.includes("object")) return this.#object(schema, at, full);
		if (types.includes("boolean")) return { is: "yes" };
		if (types.includes("string")) {
			const kinds = kindsOfField(this.#kind, at, false);
			if (types.includes("integer") && kinds.length > 0 && at.at(-1) !== "id") return { is: "id", kinds };
			const { format } = schema;
			return { is: "text", long: LONG.has(name), ...(format === undefined ? {} : { format }) };
		}
		const { minimum, exclusiveMinimum, maximum } = schema;
		const least = minimum ?? exclusiveMinimum;
		return {
			is: "number",
			whole: types.includes("integer"),
			...(least === undefined ? {} : { least }),
			...(maximum === undefined ? {} : { most: maximum }),
		};
	}

	#list(schema: Schema, at: DataPath, full: string, name: string): FieldForm {
		const item = this.resolved(schema.items ?? {});
		const kinds = kindsOfField(this.#kind, at, false);
		if (kinds.length > 0 && item.pattern !== undefined) return { is: "ids", kinds, oneAlone: false };
		const of = this.#form(item, [...at, 0], `${full}[]`, name);
		return schema.minItems === 2 && schema.maxItems === 2 ? { is: "pair", of } : { is: "list", of };
	}

	#object(schema: Schema, at: DataPath, full: string): FieldForm {
		if (typeof schema.additionalProperties !== "object")
			return { is: "group", fields: this.fields(schema, at, full) };
		const value = this.resolved(schema.additionalProperties);
		const kinds = kindsOfField(this.#kind, [...at, "x"], true);
		return { is: "map", kinds, of: this.#form(value, [...at, "x"], `${full}.<id>`, "") };
	}

	#either(schema: Schema, at: DataPath, full: string, name: string): FieldForm {
		// Nothing behind a name is what no form writes.
		const written = (schema.anyOf ?? [])
			.map((one) => this.resolved(one))
			.filter(({ type }) => type !== "null");
		const forms = written.map((one) => this.#form(one, at, full, name));
		const [first, second] = forms;
		if (first !== undefined && forms.length === 1) return first;
		if (forms.length === 2 && first?.is === "id" && second?.is === "ids")
			return { is: "ids", kinds: first.kinds, oneAlone: true };
		return { is: "either", forms };
	}
}

/** Backquotes are for code; a form has none. */
function plainText(text: string): string {
	return text.replaceAll("`", "");
}

function sentence(name: string): string {
	const words = name.replaceAll("-", " ");
	return words.charAt(0).toUpperCase() + words.slice(1);
}
