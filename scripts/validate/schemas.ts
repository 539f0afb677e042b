/**
 * The schemas, one for each kind of page and data file, and a validator for each.
 *
 * The JSON files are the single source of truth: types are generated from them, the author guide
 * prints them, and editors read them.
 */

import { Ajv, type ValidateFunction } from "ajv";
import addFormats from "ajv-formats";
import type { FileKind } from "../model.ts";
import { LANGUAGES } from "../words/words.ts";
import { HEX_COLOUR } from "./club-colours.ts";
import accepted from "./schemas/accepted.schema.json" with { type: "json" };
import apparatus from "./schemas/apparatus.schema.json" with { type: "json" };
import club from "./schemas/club.schema.json" with { type: "json" };
import common from "./schemas/common.schema.json" with { type: "json" };
import drill from "./schemas/drill.schema.json" with { type: "json" };
import equipment from "./schemas/equipment.schema.json" with { type: "json" };
import guide from "./schemas/guide.schema.json" with { type: "json" };
import levels from "./schemas/levels.schema.json" with { type: "json" };
import purposes from "./schemas/purposes.schema.json" with { type: "json" };
import shapes from "./schemas/shapes.schema.json" with { type: "json" };
import skills from "./schemas/skills.schema.json" with { type: "json" };
import targets from "./schemas/targets.schema.json" with { type: "json" };
import taught from "./schemas/taught.schema.json" with { type: "json" };
import term from "./schemas/term.schema.json" with { type: "json" };
import week from "./schemas/week.schema.json" with { type: "json" };
import words from "./schemas/words.schema.json" with { type: "json" };

/** The parts of JSON Schema that our schemas use. */
export interface Schema {
	readonly $ref?: string;
	readonly type?: string | readonly string[];
	readonly description?: string;
	readonly examples?: readonly unknown[];
	readonly enum?: readonly string[];
	readonly format?: string;
	readonly pattern?: string;
	readonly minimum?: number;
	readonly exclusiveMinimum?: number;
	readonly maximum?: number;
	readonly minItems?: number;
	readonly maxItems?: number;
	readonly required?: readonly string[];
	readonly properties?: Readonly<Record<string, Schema>>;
	readonly additionalProperties?: boolean | Schema;
	readonly items?: Schema;
	readonly anyOf?: readonly Schema[];
}

export const SCHEMAS: ReadonlyMap<FileKind, object> = new Map<FileKind, object>([
	["drill", drill],
	["week", week],
	["guide", guide],
	["club", club],
	["term", term],
	["targets", targets],
	["levels", levels],
	["apparatus", apparatus],
	["shapes", shapes],
	["skills", skills],
	["equipment", equipment],
	["purposes", purposes],
	["accepted", accepted],
	["words", words],
	["taught", taught],
]);

/** The definitions that the other schemas share. */
export const COMMON_SCHEMA: object = common;

/** The shared definitions, with references among themselves that hold from any other schema as well. */
const COMMON: Schema = JSON.parse(
	JSON.stringify(common).replaceAll('"#/definitions/', '"common.schema.json#/definitions/'),
);

/** Follows a reference in a schema; what stands beside it (a description of its own) comes first. */
export function resolved(root: Schema, schema: Schema): Schema {
	if (schema.$ref === undefined) return schema;
	const [file, pointer = ""] = schema.$ref.split("#");
	let found: unknown = file === "" ? root : COMMON;
	for (const key of pointer.split("/").filter((part) => part !== ""))
		found = (found as Readonly<Record<string, unknown>>)[key];
	const { $ref: _, ...own } = schema;
	return { ...resolved(root, found as Schema), ...own };
}

/** What an id looks like: lower-case letters and digits in words joined by hyphens. */
export const ID_PATTERN = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** Names that some operating systems keep for devices: such a file or folder could not be copied there. */
const RESERVED = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])$/;

/** Whether an id can name a file or a folder on every system. */
export function isPortable(id: string): boolean {
	return !RESERVED.test(id);
}

/** Formats of our own, beside `date`. Each says in words what it wants, for messages. */
export const FORMATS: Readonly<
	Record<string, { readonly test: (text: string) => boolean; readonly wants: string }>
> = {
	clock: { test: (text) => /^([01]\d|2[0-3]):[0-5]\d$/.test(text), wants: 'a time of day such as "16:30"' },
	colour: { test: (text) => HEX_COLOUR.test(text), wants: 'a colour such as "#7a1f3d", in quotes' },
	"day-or-interval": {
		test: (text) => /^\d{4}-\d\d-\d\d(\/\d{4}-\d\d-\d\d)?$/.test(text) && text.split("/").every(isDay),
		wants: "a date such as 2027-02-15, or an interval such as 2027-02-15/2027-02-19",
	},
	language: {
		test: (text) =>
			tryIntl(() => Intl.getCanonicalLocales(text)) &&
			LANGUAGES.includes(text.toLowerCase().split("-")[0] ?? ""),
		wants: "a language that the handbook has words for: en (English) or fr (French), or such as fr-CA",
	},
	timezone: {
		test: (text) => tryIntl(() => new Intl.DateTimeFormat("en", { timeZone: text })),
		wants: "a time zone by its IANA name, such as Europe/London",
	},
	"web-address": {
		test: (text) => /^https?:\/\//i.test(text) && URL.canParse(text),
		wants: "a web address that starts with https://",
	},
};

/** What the formats of the JSON Schema standard want, in words. */
export const STANDARD_FORMATS: Readonly<Record<string, string>> = {
	date: "a date that exists, written as 2027-01-04",
};

/** The validator of a kind. Compiled once, when first asked for. */
export function validatorOf(kind: FileKind): ValidateFunction {
	const known = validators.get(kind);
	if (known !== undefined) return known;
	const schema = SCHEMAS.get(kind);
	if (schema === undefined) throw new Error(`no schema for ${kind}`);
	const made = ajv().compile(schema);
	validators.set(kind, made);
	return made;
}

const validators = new Map<FileKind, ValidateFunction>();
let instance: Ajv | undefined;

function ajv(): Ajv {
	if (instance !== undefined) return instance;
	const made = new Ajv({ allErrors: true, verbose: true, allowUnionTypes: true, strictTypes: false });
	// ajv-formats is CommonJS; under ESM its function is the module's `default`.
	(addFormats as unknown as { default: (a: Ajv, formats: string[]) => void }).default(made, ["date"]);
	for (const [name, { test }] of Object.entries(FORMATS)) made.addFormat(name, test);
	made.addSchema(common);
	instance = made;
	return made;
}

function isDay(text: string): boolean {
	const [year, month, day] = text.split("-").map(Number);
	const date = new Date(Date.UTC(year ?? 0, (month ?? 1) - 1, day ?? 0));
	return date.toISOString().startsWith(text);
}

function tryIntl(make: () => unknown): boolean {
	try {
		make();
		return true;
	} catch {
		return false;
	}
}
