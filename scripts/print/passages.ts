/**
 * Passages of a sheet: paragraphs, points, rows of a table, headings, figures. Pure.
 *
 * An edition remembers a code for each, so that a later one can say which passages are new to a
 * reader, wherever on the pages they came to stand. Codes are made from what is printed: ids and
 * addresses are left out, and the numbers in references are told apart elsewhere.
 */

import type { Sheets } from "../../layouts/sheets/section.ts";
import { sha256 } from "../files/hash.ts";
import { raw } from "../views/html.ts";
import type { PassageCodes } from "../views/sheets/edition.ts";
import { matchSequences } from "./match-sequences.ts";

/** Length of a passage's code. */
const CODE_LENGTH = 8;

/** Attributes that the printer's own marks are made with. */
export const CHANGED = "data-changed";
const REMOVED_BEFORE = "data-removed-before";
const REMOVED_AFTER = "data-removed-after";

interface Passage {
	/** Where an attribute can be written into its tag. */
	readonly at: number;
	readonly code: string;
}

/** Elements that are a passage where they stand in no other. */
const PASSAGES = new Set("p li tr h1 h2 h3 h4 dt dd figure header svg pre".split(" "));

const TAG = /<(\/?)([a-zA-Z][\w-]*)((?:"[^"]*"|[^">])*)>/g;

/** The passages of a part's markup, in order. */
function passagesOf(markup: string): readonly Passage[] {
	const found: Passage[] = [];
	let name: string | undefined;
	let start = 0;
	let at = 0;
	let depth = 0;
	for (const { 0: tag, 1: slash, 2: tagName = "", 3: rest = "", index } of markup.matchAll(TAG)) {
		if (name === undefined) {
			if (slash !== "" || !PASSAGES.has(tagName) || rest.endsWith("/")) continue;
			name = tagName;
			start = index;
			at = index + 1 + tagName.length;
			depth = 1;
		} else if (tagName === name && !rest.endsWith("/")) {
			depth += slash === "" ? 1 : -1;
			if (depth > 0) continue;
			found.push({ at, code: codeOf(markup.slice(start, index + tag.length)) });
			name = undefined;
		}
	}
	return found;
}

function codeOf(markup: string): string {
	const content = printedContent(markup.replace(REFERENCES, ""));
	return sha256(content, "base64url").slice(0, CODE_LENGTH);
}

/** A reference's number, and the room that is kept for it. */
const REFERENCES = /<span class="ref-(room|word)"[^>]*>[^<]*<\/span>/g;

/** Markup without what nobody sees on paper: ids, addresses, and the printer's own marks. */
export function printedContent(markup: string): string {
	return markup.replace(UNSEEN, "");
}

const UNSEEN =
	/ (?:id|href|headers|data-to|aria-labelledby|aria-describedby|data-changed|data-removed-before|data-removed-after)="[^"]*"/g;

/** The codes of all parts. */
export function passageCodes(sheets: Sheets): PassageCodes {
	const codes = new Map<string, string>();
	for (const { label, html } of sheets.sections.flatMap(({ parts }) => parts)) {
		const own = passagesOf(html.text)
			.map(({ code }) => code)
			.join("");
		codes.set(label, (codes.get(label) ?? "") + own);
	}
	return Object.fromEntries(codes);
}

/**
 * The sheets with marks at what an earlier edition did not have: `data-changed` on new passages, and
 * `data-removed-before` or `-after` on a passage beside which others stood. A part that is new as a
 * whole has none. Marks take no room.
 */
export function markChanges(sheets: Sheets, earlier: PassageCodes): Sheets {
	const byLabel = new Map<string, { readonly passages: readonly Passage[]; readonly markup: string }[]>();
	for (const { label, html } of sheets.sections.flatMap(({ parts }) => parts)) {
		const parts = byLabel.get(label) ?? [];
		parts.push({ passages: passagesOf(html.text), markup: html.text });
		byLabel.set(label, parts);
	}
	const marked = new Map<string, string[]>();
	for (const [label, parts] of byLabel) {
		const codes = parts.flatMap(({ passages }) => passages.map(({ code }) => code));
		const before = earlier[label];
		const marks = before === undefined ? [] : marksOf(codesIn(before), codes);
		let from = 0;
		marked.set(
			label,
			parts.map(({ passages, markup }) => {
				const own = marks.slice(from, from + passages.length);
				from += passages.length;
				return withMarks(markup, passages, own);
			}),
		);
	}
	return {
		...sheets,
		sections: sheets.sections.map((section) => ({
			...section,
			parts: section.parts.map((part) => ({ ...part, html: raw(marked.get(part.label)?.shift() ?? "") })),
		})),
	};
}

function codesIn(joined: string): readonly string[] {
	return Array.from({ length: Math.floor(joined.length / CODE_LENGTH) }, (_, i) =>
		joined.slice(i * CODE_LENGTH, (i + 1) * CODE_LENGTH),
	);
}

/** The attributes of each new passage. */
function marksOf(before: readonly string[], now: readonly string[]): readonly string[] {
	const matches = matchSequences(before, now);
	const marks = matches.map((match): string => (match === undefined ? ` ${CHANGED}=""` : ""));
	let expected = 0;
	matches.forEach((match, i) => {
		if (match === undefined) return;
		// Where new passages took the place of old ones, they carry the mark.
		const isReplaced = i > 0 && matches[i - 1] === undefined;
		if (match > expected && !isReplaced) marks[i] = `${marks[i] ?? ""} ${REMOVED_BEFORE}=""`;
		expected = match + 1;
	});
	const last = now.length - 1;
	if (expected < before.length && matches[last] !== undefined) {
		marks[last] = `${marks[last] ?? ""} ${REMOVED_AFTER}=""`;
	}
	return marks;
}

function withMarks(markup: string, passages: readonly Passage[], marks: readonly string[]): string {
	let text = "";
	let from = 0;
	passages.forEach(({ at }, i) => {
		const mark = marks[i] ?? "";
		if (mark === "") return;
		text += markup.slice(from, at) + mark;
		from = at;
	});
	return text + markup.slice(from);
}
