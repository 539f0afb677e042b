/**
 * Text and markup kept apart by type: `html` escapes every value that is not already `Html`.
 *
 * Page functions build `Html` from `html` templates; only the engine that writes files asks for its
 * text. Markup from elsewhere (rendered Markdown, figures) comes in through `raw`, in few places.
 */

/** Markup that is safe to write as it stands. */
export class Html {
	readonly text: string;
	constructor(text: string) {
		this.text = text;
	}
	toString(): string {
		return this.text;
	}
}

/** What a template may hold: nothing is written for undefined, null and false. */
export type HtmlValue = Html | string | number | undefined | null | false | readonly HtmlValue[];

/** A template whose values are escaped, unless they are `Html` themselves; lists are joined. */
export function html(strings: TemplateStringsArray, ...values: readonly HtmlValue[]): Html {
	let text = strings[0] ?? "";
	for (let i = 0; i < values.length; i++) text += write(values[i]) + (strings[i + 1] ?? "");
	return new Html(text);
}

/** Takes markup as it is: for output of the Markdown renderer and of the figures, never for a club's text. */
export function raw(markup: string): Html {
	return new Html(markup);
}

/** Escapes text for an element's content or a quoted attribute. */
export function escapeHtml(text: string): string {
	return SPECIAL.test(text) ? text.replace(/[&<>"']/g, (c) => ESCAPES[c] ?? c) : text;
}

const SPECIAL = /[&<>"']/;

const ESCAPES: Readonly<Record<string, string>> = {
	"&": "&amp;",
	"<": "&lt;",
	">": "&gt;",
	'"': "&quot;",
	"'": "&#39;",
};

function write(value: HtmlValue): string {
	if (value === undefined || value === null || value === false) return "";
	if (value instanceof Html) return value.text;
	if (typeof value === "string") return escapeHtml(value);
	if (typeof value === "number") return String(value);
	let text = "";
	for (const item of value) text += write(item);
	return text;
}
