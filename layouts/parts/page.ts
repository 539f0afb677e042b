/**
 * What a page function is given, and the small pieces that every page is made of.
 */

import { HOME, wayTo } from "../../scripts/views/addresses.ts";
import { type Html, type HtmlValue, html, raw } from "../../scripts/views/html.ts";
import { isLeftOut } from "../../scripts/views/left-out.ts";
import type { Label, Link } from "../../scripts/views/links.ts";
import type { FrameFacts, KindFacts, PageFacts } from "../../scripts/views/pages.ts";
import type { Words } from "../../scripts/words/words.ts";

/** A page as its parts see it. */
export interface ShownPage extends PageFacts {
	readonly kind: string;
	readonly facts: KindFacts;
	readonly frame: FrameFacts;
}

export interface PageContext {
	readonly page: ShownPage;
	/** The words that are not the club's, in the handbook's language. */
	readonly words: Words;
	/** The reference from this page to a page or file, given from the root of the site. */
	way(to: string): string;
	/** Code as highlighted markup, in a `pre`. */
	highlight(language: string, code: string): Html;
	/** What the page's strips place, by names that hold on all pages; each is drawn once, at its end. */
	readonly drawn: Map<string, { readonly id: string; readonly element: string }>;
}

/** The context of a page. The page that is shown at any address counts its ways from the root of the host. */
export function contextOf(page: ShownPage, highlight: PageContext["highlight"]): PageContext {
	const isFolder = page.address === HOME || page.address.endsWith("/");
	const way = (to: string) => (isFolder ? wayTo(page.address, to) : page.frame.root + to);
	return { page, words: page.frame.words, way, highlight, drawn: new Map() };
}

/** A link; words alone where it leads nowhere, or to what this site does without. */
export function a(ctx: PageContext, link: Label, className?: string): Html {
	if (link.to === undefined || isLeftOut(ctx.page.frame.leaveOut, link.to)) return html`${link.name}`;
	return html`<a href="${ctx.way(link.to)}"${className === undefined ? "" : html` class="${className}"`}>${link.name}</a>`;
}

/** A link that says nothing but where to find more: nothing where this site does without that. */
export function more(ctx: PageContext, link: Link): Html | undefined {
	return isLeftOut(ctx.page.frame.leaveOut, link.to) ? undefined : a(ctx, link);
}

/** Links without those to what this site does without. */
export function kept<T extends Link>(ctx: PageContext, links: readonly T[]): readonly T[] {
	return links.filter(({ to }) => !isLeftOut(ctx.page.frame.leaveOut, to));
}

/** A part of a page under a heading, with an anchor. */
export function section(id: string, title: HtmlValue, body: HtmlValue): Html {
	return html`<section class="part" aria-labelledby="${id}">
<h2 id="${id}"><span>${title}</span></h2>
${body}
</section>`;
}

/** A fold that opens without JavaScript. */
export function fold(summary: HtmlValue, body: HtmlValue, open = false): Html {
	return html`<details${open ? raw(" open") : ""}><summary>${summary}</summary>${body}</details>`;
}

/** Links as chips in a row; nothing for none. */
export function chips(ctx: PageContext, links: readonly Link[], label?: string): Html | undefined {
	if (links.length === 0) return undefined;
	const list = html`<ul class="chips">${links.map((link) => html`<li>${a(ctx, link, "chip")}</li>`)}</ul>`;
	return label === undefined
		? list
		: html`<div class="labelled"><span class="label">${label}</span>${list}</div>`;
}

/** Facts as terms and their values; those without a value are left out. */
export function facts(pairs: readonly (readonly [string, HtmlValue])[]): Html | undefined {
	const known = pairs.filter(
		([, value]) => value !== undefined && value !== "" && value !== false && value !== null,
	);
	if (known.length === 0) return undefined;
	return html`<dl class="facts">${known.map(([term, value]) => html`<div><dt>${term}</dt><dd>${value}</dd></div>`)}</dl>`;
}

/** The way to the page before and the page after. */
export function beside(
	ctx: PageContext,
	previous: Link | undefined,
	next: Link | undefined,
	label: string,
): Html | undefined {
	if (previous === undefined && next === undefined) return undefined;
	return html`<nav class="beside" aria-label="${label}">
${previous && html`<a class="prev" rel="prev" href="${ctx.way(previous.to)}"><span aria-hidden="true">←</span> ${previous.name}</a>`}
${next && html`<a class="next" rel="next" href="${ctx.way(next.to)}">${next.name} <span aria-hidden="true">→</span></a>`}
</nav>`;
}

/** Minutes as they stand beside a block: the number large. */
export function minutesMark({ words }: PageContext, minutes: number): Html {
	return html`<span class="minutes"><b>${words.number(minutes)}</b> ${words.minuteSign}</span>`;
}

/** Links in a sentence, with commas. */
export function inWords(ctx: PageContext, links: readonly Link[]): Html {
	// The word joiner keeps a comma with the link before it, also where links are boxes of their own.
	return html`${links.map((link, i) => html`${i === 0 ? "" : "\u2060, "}${a(ctx, link)}`)}`;
}

/** Words between backquotes as code: schemas, the catalogue and findings use no other markup. */
export function inlineCode(text: string): Html {
	return html`${text.split("`").map((part, i) => (i % 2 === 1 ? html`<code>${part}</code>` : part))}`;
}
