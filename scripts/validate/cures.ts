/**
 * What to write instead: the cure for a value that is not of the form its field has, in the author's own
 * words where they can be turned into it. Nothing is changed; a cure is only told.
 */

import type { ErrorObject } from "ajv";
import type { DataPath } from "../model.ts";
import { nearestName } from "../read/nearest-name.ts";

/** Words that stand for a term of the format, in small letters. */
export const TERMS: Readonly<Record<string, string>> = {
	mon: "monday",
	tue: "tuesday",
	tues: "tuesday",
	wed: "wednesday",
	weds: "wednesday",
	thu: "thursday",
	thur: "thursday",
	thurs: "thursday",
	fri: "friday",
	sat: "saturday",
	sun: "sunday",
	lundi: "monday",
	mardi: "tuesday",
	mercredi: "wednesday",
	jeudi: "thursday",
	vendredi: "friday",
	samedi: "saturday",
	dimanche: "sunday",
	forwards: "forward",
	fwd: "forward",
	backwards: "backward",
	bwd: "backward",
	sideway: "sideways",
	lateral: "sideways",
	"each side": "each",
	"both sides": "each",
	left: "lead",
	right: "lead",
};

/** Names of languages that have words here, as people write them. */
const LANGUAGE_TAGS: Readonly<Record<string, string>> = {
	english: "en",
	anglais: "en",
	uk: "en",
	gb: "en",
	french: "fr",
	français: "fr",
	francais: "fr",
};

/** The sentence that says what to write; undefined where nothing fits. */
export function cureFor(
	{ keyword, params, schema, parentSchema, data }: ErrorObject,
	path: DataPath,
): string | undefined {
	const name = path.findLast((step) => typeof step === "string");
	const field = typeof name === "string" && path.at(-1) === name ? `${name}: ` : "";
	const write = (value: string | undefined) =>
		value === undefined ? undefined : `Write \`${field}${value}\`.`;
	if (keyword === "enum") {
		const allowed = (params.allowedValues as readonly unknown[]).map(String);
		return write(termFor(data, allowed));
	}
	if (keyword === "format") return write(formatted(String(params.format), String(data)));
	if (keyword === "minimum" || keyword === "maximum") return undefined;
	if (keyword !== "type" && keyword !== "anyOf") return undefined;
	if (data === null) return `Write a value behind \`${name ?? ""}:\`, or take the line out.`;
	const forms = formsIn(keyword === "anyOf" ? { anyOf: schema } : parentSchema);
	if (typeof data === "string" || typeof data === "number") {
		const onlyNumber = forms.size === 1 && (forms.has("number") || forms.has("integer"));
		return (
			write(fromText(String(data), forms, name)) ?? (onlyNumber ? "Write one number, in figures." : undefined)
		);
	}
	if (Array.isArray(data)) return write(fromList(data, forms));
	if (forms.has("array") && name === "levels") return undefined;
	return undefined;
}

function termFor(data: unknown, allowed: readonly string[]): string | undefined {
	const word = String(data).trim().toLowerCase();
	if (allowed.includes(word)) return word;
	const term = TERMS[word];
	if (term !== undefined && allowed.includes(term)) return term;
	const ignoringCase = allowed.find((one) => one.toLowerCase() === word);
	return ignoringCase ?? (word.length < 3 ? undefined : nearestName(word, allowed));
}

function formatted(format: string, text: string): string | undefined {
	if (format === "clock") return clockFrom(text);
	if (format === "date" || format === "day-or-interval") return dateFrom(text);
	if (format === "language") return LANGUAGE_TAGS[text.trim().toLowerCase()];
	if (format === "web-address" && /^[\w-]+(\.[\w-]+)+(\/|$)/.test(text)) return `https://${text}`;
	return undefined;
}

/** 9:00, 4.30pm, 16h30, 1630 as HH:MM in quotes. */
function clockFrom(text: string): string | undefined {
	const [, hour = "", minute = "00", half = ""] =
		/^(\d{1,2})(?:\s*[:.h]\s*(\d{2})|(\d{2}))?\s*([ap])?\.?m?\.?\s*$/i
			.exec(text.replace(/^(\d{1,2})(\d{2})$/, "$1:$2"))
			?.filter((_, i) => i !== 3) ?? [];
	if (hour === "") return undefined;
	const hours = (Number(hour) % (half === "" ? 24 : 12)) + (/p/i.test(half) ? 12 : 0);
	return Number(hour) < 24 && Number(minute) < 60
		? `"${String(hours).padStart(2, "0")}:${minute}"`
		: undefined;
}

/** A day written day first, or month first, as year-month-day; both where either may be meant. */
function dateFrom(text: string): string | undefined {
	const [, first = "", second = "", year = ""] =
		/^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/.exec(text.trim()) ?? [];
	const short = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(text.trim());
	const iso = (month: string, day: string, of = year) =>
		`${of}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
	if (short !== null && text.trim().length < 10) return iso(short[2] ?? "", short[3] ?? "", short[1]);
	if (year === "") return undefined;
	const [a, b] = [Number(first), Number(second)];
	if (a > 12 && b <= 12) return iso(second, first);
	if (b > 12 && a <= 12) return iso(first, second);
	if (a > 12 || b > 12) return undefined;
	return a === b ? iso(second, first) : `${iso(second, first)}\` or \`${iso(first, second)}`;
}

const NUMBER_IN = /^(?:about|ca\.?|~)?\s*(\d+)(?:[.,](\d+))?\s*([a-zé×'"′″]*)\.?(?:\s.*)?$/i;

function fromText(text: string, forms: ReadonlySet<string>, name: string | undefined): string | undefined {
	const plain = text.trim();
	if (forms.has("boolean") && /^(yes|oui|y|x|on)$/i.test(plain)) return "true";
	if (forms.has("boolean") && /^(no|non|n|off)$/i.test(plain)) return "false";
	const range = /^(\d+)\s*(?:-|–|to|à)\s*(\d+)$/.exec(plain);
	if (forms.has("pair") && range !== null) return `[${range[1]}, ${range[2]}]`;
	if (forms.has("pair")) {
		const both = /^(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)(?:\s*m)?$/i.exec(plain);
		return both === null ? undefined : `[${both[1]}, ${both[2]}]`;
	}
	if ((forms.has("number") || forms.has("integer")) && range === null) {
		const [, whole = "", part, unit = ""] = NUMBER_IN.exec(plain) ?? [];
		if (whole !== "") {
			const number = Number(part === undefined ? whole : `${whole}.${part}`);
			return String(inUnit(number, unit, name ?? ""));
		}
	}
	if (forms.has("array") && plain !== "") {
		const isIds = forms.has("ids");
		const items = plain
			.split(isIds ? /\s*[,;]\s*|\s+(?:and|et)\s+/ : /\s*;\s*/)
			.filter((item) => item !== "");
		return `[${items.map((item) => (isIds ? item : inQuotes(item))).join(", ")}]`;
	}
	if (forms.has("counts")) {
		const items = plain
			.split(/\s*[,;]\s*/)
			.map((item) => /^(?:(\d+)\s*[x×]?\s*)?(.*?)(?:\s*[x×]\s*(\d+))?$/.exec(item));
		const pairs = items.map(
			(item) => `${(item?.[2] ?? "").toLowerCase().replace(/\s+/g, "-")}: ${item?.[1] ?? item?.[3] ?? 1}`,
		);
		return `{${pairs.join(", ")}}`;
	}
	return undefined;
}

/** A number in the unit of its field: minutes, or seconds for holds and turns. */
function inUnit(number: number, unit: string, name: string): number {
	const isMinutes = /^(m|min|mins|minutes?|mn|'|′)$/i.test(unit);
	const isHours = /^h/i.test(unit);
	const wantsSeconds = name === "hold" || name === "seconds";
	if (isHours) return number * (wantsSeconds ? 3600 : 60);
	return wantsSeconds && isMinutes ? number * 60 : number;
}

function fromList(list: readonly unknown[], forms: ReadonlySet<string>): string | undefined {
	if (forms.has("counts") && list.every((item) => typeof item === "string")) {
		return `{${list.map((item) => `${item}: 1`).join(", ")}}`;
	}
	const [only] = list;
	if (list.length === 1 && (typeof only === "string" || typeof only === "number") && !forms.has("array")) {
		return String(only);
	}
	return undefined;
}

function inQuotes(text: string): string {
	return /^[\p{L}][\p{L}\p{N} '’-]*$/u.test(text) ? text : JSON.stringify(text);
}

/** The forms that a schema takes, with what of a list or a map is told apart: ids, pairs, counts. */
function formsIn(schema: unknown): ReadonlySet<string> {
	const forms = new Set<string>();
	const look = (part: unknown): void => {
		if (typeof part !== "object" || part === null) return;
		const { type, anyOf, $ref, items, minItems, maxItems } = part as Readonly<Record<string, unknown>>;
		if (Array.isArray(anyOf)) for (const branch of anyOf) look(branch);
		for (const name of Array.isArray(type) ? type : [type]) if (typeof name === "string") forms.add(name);
		if (minItems === 2 && maxItems === 2) forms.add("pair");
		const ref = typeof $ref === "string" ? $ref.replace(/^.*\//, "") : "";
		if (/^(ids|idOrIds)$/.test(ref)) for (const form of ["array", "ids"]) forms.add(form);
		if (ref === "texts") forms.add("array");
		if (ref === "whole") forms.add("integer");
		if (ref === "amount") forms.add("number");
		const { anyOf: counts } = (part as { readonly additionalProperties?: { readonly anyOf?: unknown } })
			.additionalProperties ?? { anyOf: undefined };
		if (Array.isArray(counts) && JSON.stringify(counts[0]).includes("/whole")) forms.add("counts");
		const of = (items as { readonly $ref?: string } | undefined)?.$ref ?? "";
		if (of.endsWith("/id")) forms.add("ids");
	};
	look(schema);
	return forms;
}
