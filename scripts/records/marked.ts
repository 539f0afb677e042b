/**
 * Texts of the club as markup, in the records: a device shows them, and carries no reader of Markdown.
 *
 *   body            is its markup, after a mark
 *   other texts     stay as they are; those whose markup is not the same stand beside the record with it
 *   links           have the kind and id of what they lead to, and no name: a drill that is called
 *                   something else changes no other record. The page that shows them fills both in
 */

import type { LinkTarget } from "../model.ts";
import { escapeHtml, raw } from "../views/html.ts";
import type { MarkdownRenderer } from "../views/markdown.ts";

/** A text and its markup. */
export type Marked = readonly [text: string, markup: string];

type Resolve = (reference: string) => LinkTarget | undefined;

/** No text of a club has this letter: YAML refuses it. */
const MARK = "\u0001";
const LINK = new RegExp(`<a href="${MARK}([a-z]+:[^"]+)">(${MARK}?)`, "g");

const placeholder = ({ kind, id }: LinkTarget) => `${MARK}${kind}:${id}`;

/** What links stand for, with a mark for its name. */
export function withoutNames(resolve: Resolve): Resolve {
	return (reference) => {
		const target = resolve(reference);
		return target && { ...target, name: MARK };
	};
}

export function markedBody(body: string, markdown: MarkdownRenderer): string {
	const { text } = markdown.block(body, placeholder);
	return text === "" ? "" : MARK + text;
}

/** The texts in a record that are not shown as they are written. */
export function markedTexts(record: object, markdown: MarkdownRenderer): readonly Marked[] {
	return [...new Set(textsIn(record))].flatMap((text): readonly Marked[] => {
		const { text: markup } = markdown.inline(text, placeholder);
		return markup === escapeHtml(text) && markdown.plain(text) === text ? [] : [[text, markup]];
	});
}

/** Every text of a record but its body, and not where it was read from. */
function textsIn(value: unknown): readonly string[] {
	if (typeof value === "string") return [value];
	if (typeof value !== "object" || value === null) return [];
	if (Array.isArray(value) || value instanceof Map) return [...value].flatMap(textsIn);
	return Object.entries(value).flatMap(([name, part]) =>
		name === "body" || name === "source" || name === "marked" ? [] : textsIn(part),
	);
}

/** Shows prepared texts; one that is not among them is shown as it is written. */
export function renderMarked(marked: ReadonlyMap<string, string>, resolve: Resolve): MarkdownRenderer {
	const linked = (markup: string, href: Parameters<MarkdownRenderer["inline"]>[1]) =>
		markup.replace(LINK, (_, reference: string, nameless: string) => {
			const target = resolve(reference);
			if (target === undefined) throw new Error(`nothing is called ${reference}`);
			return `<a href="${escapeHtml(href(target) ?? "")}">${nameless === "" ? "" : escapeHtml(target.name).replaceAll("&#39;", "'")}`;
		});
	return {
		block: (body, href) => raw(linked(body.slice(MARK.length), href)),
		inline: (text, href) => {
			const markup = marked.get(text);
			return raw(markup === undefined ? escapeHtml(text) : linked(markup, href));
		},
		plain: (text) => {
			const markup = text.startsWith(MARK) ? text.slice(MARK.length) : marked.get(text);
			return markup === undefined ? text : wordsIn(linked(markup, () => undefined));
		},
	};
}

const INSIDE_WORDS = /<\/?(?:a|code|em|s|span|strong)\b[^>]*>/g;
const CHARACTERS: Readonly<Record<string, string>> = {
	"&amp;": "&",
	"&lt;": "<",
	"&gt;": ">",
	"&quot;": '"',
};

/** The words alone, as Markdown's own reader gives them. */
function wordsIn(markup: string): string {
	return markup
		.replace(INSIDE_WORDS, "")
		.replace(/<[^>]+>/g, " ")
		.replace(/&(?:amp|lt|gt|quot);/g, (name) => CHARACTERS[name] ?? name)
		.replace(/\s+/g, " ")
		.trim();
}
