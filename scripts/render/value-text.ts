/**
 * A value written out as text, so that two values with the same text show the same: what a kept page was
 * made from is held against it.
 *
 * Records of the club are written once, as a fingerprint. The file a record was read from counts by its
 * name alone: views look places up, and pages never do.
 */

import { hash } from "node:crypto";
import { Html } from "./html.ts";

/** Records that were written before; they are never changed. */
const known = new WeakMap<object, string>();

/** Throws for what text cannot stand for: a function, an object of an unknown class. */
export function valueText(value: unknown): string {
	switch (typeof value) {
		case "string":
			return `"${value.length}:${value}`;
		case "number":
			return Object.is(value, -0) ? "-0;" : `${value};`;
		case "boolean":
			return value ? "T" : "F";
		case "undefined":
			return "U";
		case "object":
			return value === null ? "N" : objectText(value);
		default:
			throw new TypeError(`text cannot stand for a ${typeof value}`);
	}
}

/** The fingerprint of a text: equal ones are of equal texts. */
export function fingerprint(text: string): string {
	return hash("sha256", text, "base64url");
}

function objectText(value: object): string {
	if (value instanceof Html) return `<${value.text.length}:${value.text}`;
	if (Array.isArray(value)) return `[${joined(value)}]`;
	if (value instanceof Map) {
		let text = "M";
		for (const [key, one] of value) text += valueText(key) + valueText(one);
		return `${text})`;
	}
	if (value instanceof Set) return `S${joined([...value])})`;
	const prototype: unknown = Object.getPrototypeOf(value);
	if (prototype !== Object.prototype && prototype !== null) {
		throw new TypeError(`text cannot stand for a ${value.constructor.name}`);
	}
	if (!("source" in value)) return fieldsText(value);
	const before = known.get(value);
	if (before !== undefined) return before;
	const text = `@${fingerprint(fieldsText(value))}`;
	known.set(value, text);
	return text;
}

function joined(values: readonly unknown[]): string {
	let text = "";
	for (const one of values) text += valueText(one);
	return text;
}

function fieldsText(value: object): string {
	let text = "{";
	for (const key of Object.keys(value)) {
		const one: unknown = Reflect.get(value, key);
		text += `${key}=`;
		text += key === "source" ? valueText(Reflect.get(Object(one), "file")) : valueText(one);
	}
	return `${text}}`;
}
