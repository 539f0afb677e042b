/** What the sheets of the binder are written with: links to places in it, and pages as references. */

import type { Source } from "../../scripts/model.ts";
import type { Address } from "../../scripts/views/addresses.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import type { BinderView } from "../../scripts/views/sheets/binder.ts";
import type { BinderPlace } from "../../scripts/views/sheets/places.ts";
import { pageReference } from "./page-reference.ts";
import type { SheetTarget } from "./section.ts";

/** The place of what has a page on the site at an address. Throws where it has none in the binder. */
export function placeOf({ places }: BinderView, to: Address): BinderPlace {
	const place = places.at(to);
	if (place === undefined) throw new Error(`The binder has no place for ${to}.`);
	return place;
}

/** The page of a thing; nothing where it has no place. */
export function pageOf({ places }: BinderView, to: Address): Html | undefined {
	const place = places.at(to);
	return place && pageReference(place);
}

/** A thing's name, or other words, that lead to its place. */
export function linkIn({ places }: BinderView, { to, name }: Link, words?: string): Html {
	const place = places.at(to);
	const said = words ?? place?.name ?? name;
	return place === undefined ? html`${said}` : html`<a href="#${place.anchor}">${said}</a>`;
}

/** A club's paragraphs; what they link to gets its page behind it. */
export function withPages({ places }: BinderView, prose: Html): Html {
	return raw(
		prose.text.replace(/<a href="#([^"]+)">[\s\S]*?<\/a>/g, (link: string, anchor: string) => {
			const place = places.named(anchor);
			return `${link} ${place === undefined ? "" : pageReference(place).text}`;
		}),
	);
}

/** What the outline and references of a section lead to below its own name: things, at their places. */
export function targetsOf(
	binder: BinderView,
	things: readonly { readonly link: Link; readonly title?: string; readonly source: Source }[],
): readonly SheetTarget[] {
	return things.map(({ link, title = link.name, source }) => {
		return { id: placeOf(binder, link.to).anchor, title, depth: 2, source };
	});
}

/** A line of a list that ends in a page. */
export function pageLine(words: Html, page: Html | undefined, className = ""): Html {
	return html`<li class="page-line ${className}"><span class="page-line-words">${words}</span><span class="page-line-dots"></span>${page}</li>`;
}

/** Things with their pages, in two columns. */
export function pageList(binder: BinderView, things: readonly Link[]): Html {
	return html`<ul class="page-list">${things.map((thing) => pageLine(linkIn(binder, thing), pageOf(binder, thing.to)))}</ul>`;
}

/** Names with a page behind each, in a running line; nothing for none. */
export function pageRun(binder: BinderView, things: readonly Link[]): Html | undefined {
	if (things.length === 0) return undefined;
	return html`${things.map(
		(thing, i) =>
			html`${i > 0 && binder.words.semicolon}<span class="run">${linkIn(binder, thing)} ${pageOf(binder, thing.to)}</span>`,
	)}`;
}
