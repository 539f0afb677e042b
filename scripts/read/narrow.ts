/**
 * Texts with one byte a character, where their characters allow it.
 *
 * A text has two bytes a character as soon as one of them is beyond Latin-1, and so has everything that
 * is cut from it or made of it, whatever is in that. Pages are made of many such pieces: a dash in one
 * data file would double the memory of most of them.
 */

/** A text without a character beyond Latin-1. Browsers, which make one page at a time, are spared it. */
export function narrow(text: string): string {
	return typeof Buffer === "undefined" ? text : Buffer.from(text, "latin1").toString("latin1");
}

/** The same value with its texts narrow, as far as they can be: records and lists that YAML gives. */
export function narrowed(value: unknown): unknown {
	if (typeof value === "string") return BEYOND.test(value) ? value : narrow(value);
	if (typeof value !== "object" || value === null) return value;
	if (Array.isArray(value)) return value.map(narrowed);
	return Object.fromEntries(Object.entries(value).map(([key, one]) => [narrowed(key), narrowed(one)]));
}

export const BEYOND = /[^\0-\xff]/;
