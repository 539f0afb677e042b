/**
 * Markdown to markup: CommonMark with tables, with `[[id]]` links, and without what could run or
 * load anything.
 *
 * Intended differences from CommonMark (a test lists them by example): raw HTML is shown as text;
 * links lead only to http, https, mailto, the same page or a path; a picture becomes its words,
 * since pictures belong under `media`; `[[id]]` is a link of ours.
 */

import MarkdownIt from "markdown-it";
import { LINK_AT_START } from "../link/link-syntax.ts";
import type { LinkTarget } from "../model.ts";
import { escapeHtml, type Html, raw } from "./html.ts";

/** The address to link to; undefined writes the words alone. */
export type Href = (target: LinkTarget) => string | undefined;

export interface MarkdownRenderer {
	/**
	 * Paragraphs, lists, tables …
	 *
	 * @param topHeading the level, 1 to 6, that the text's highest heading gets, so that it fits its page;
	 * "as written" leaves headings alone
	 */
	block(text: string, href: Href, topHeading?: number | "as written"): Html;
	/** A line of text: a title, a cue. */
	inline(text: string, href: Href): Html;
	/** The words alone, for search, attributes and titles. */
	plain(text: string): string;
}

export interface MarkdownOptions {
	readonly resolve: (reference: string) => LinkTarget | undefined;
	/** Turns fenced code into highlighted markup; undefined or "" leaves it plain. */
	readonly highlight?: (code: string, language: string) => string;
}

interface Env {
	readonly href: Href;
	readonly topHeading: number | "as written";
}

type Engine = InstanceType<typeof MarkdownIt>;

/** Text without any of these is the same as Markdown and as words. */
const MARKED = /[\\`*_[\]<>&!~\n]/;

export function createMarkdown(options: MarkdownOptions): MarkdownRenderer {
	const md = engine(options);
	return {
		block: (text, href, topHeading = 2) =>
			raw(text.trim() === "" ? "" : md.render(text, { href, topHeading } satisfies Env)),
		inline: (text, href) =>
			raw(
				MARKED.test(text) ? md.renderInline(text, { href, topHeading: 1 } satisfies Env) : escapeHtml(text),
			),
		plain: (text) => (MARKED.test(text) ? plainText(md, text) : text),
	};
}

function engine({ resolve, highlight }: MarkdownOptions): Engine {
	const md = new MarkdownIt({
		html: false,
		linkify: false,
		typographer: false,
		...(highlight ? { highlight } : {}),
	});
	md.validateLink = isHarmless;
	md.inline.ruler.before("link", "handbook_link", (state, silent) => {
		if (state.src.charCodeAt(state.pos) !== OPENING) return false;
		const match = LINK_AT_START.exec(state.src.slice(state.pos, state.posMax));
		if (match === null) return false;
		const target = resolve((match[1] ?? "").trim());
		if (target === undefined) return false;
		if (!silent) {
			const words = match[2]?.trim() ?? target.name;
			const address = (state.env as Partial<Env>).href?.(target);
			if (address === undefined) state.push("text", "", 0).content = words;
			else {
				state.push("link_open", "a", 1).attrs = [["href", address]];
				state.push("text", "", 0).content = words;
				state.push("link_close", "a", -1);
			}
		}
		state.pos += match[0].length;
		return true;
	});
	md.core.ruler.push("heading_levels", (state) => {
		const headings = state.tokens.filter((t) => t.type === "heading_open" || t.type === "heading_close");
		const highest = Math.min(...headings.map((t) => Number(t.tag.slice(1))));
		const top = (state.env as Partial<Env>).topHeading ?? "as written";
		const shift = top === "as written" ? 0 : top - highest;
		for (const heading of headings) {
			heading.tag = `h${Math.min(6, Math.max(1, Number(heading.tag.slice(1)) + shift))}`;
		}
	});
	md.renderer.rules.image = (tokens, index) => escapeHtml(tokens[index]?.content ?? "");
	md.renderer.rules.table_open = () => '<div class="table-scroll" tabindex="0"><table>\n';
	md.renderer.rules.table_close = () => "</table></div>\n";
	return md;
}

const OPENING = "[".charCodeAt(0);

/** Whether a link leads to the web, to mail, or to a place on the site: never to code or to data. */
function isHarmless(url: string): boolean {
	const address = url.trim();
	if (/^\/[/\\]/.test(address) || address.includes("\\")) return false;
	return /^(https?:\/\/|mailto:)/i.test(address) || !/^[a-z][a-z0-9+.-]*:/i.test(address);
}

function plainText(md: Engine, text: string): string {
	const words: string[] = [];
	for (const token of md.parse(text, {})) {
		if (token.type === "fence" || token.type === "code_block") words.push(token.content, " ");
		for (const child of token.children ?? []) {
			if (child.type === "softbreak" || child.type === "hardbreak") words.push(" ");
			else if (child.type === "text" || child.type === "code_inline" || child.type === "image")
				words.push(child.content);
		}
		if (token.nesting !== 1) words.push(" ");
	}
	return words.join("").replace(/\s+/g, " ").trim();
}
