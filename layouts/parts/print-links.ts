/**
 * Ways from a page to the sheets that are printed from it. A build without print has none of them, so
 * only sheets that were made are linked.
 */

import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { BinderFile } from "../../scripts/views/term.ts";
import type { PageContext } from "./page.ts";

/** One sheet: its file from the root of the site, and what it is called here. */
export interface PrintLink {
	readonly file: string;
	readonly words: string;
}

/** The term's binder, with what it takes to fetch and to print it. */
export function binderLink({ words }: PageContext, binder: BinderFile | undefined): readonly PrintLink[] {
	if (binder === undefined) return [];
	return [{ file: SHEET_FILES.binder(), words: words.prints.binder(binder.pages, binder.size) }];
}

/** The sheets of a page in a row; nothing where none was made. */
export function printLinks(ctx: PageContext, links: readonly PrintLink[]): Html | undefined {
	const made = links.filter(({ file }) => ctx.page.frame.printed.has(file));
	if (made.length === 0) return undefined;
	return html`<div class="labelled to-print"><span class="label">${ctx.words.prints.label}</span><ul class="chips">${made.map(
		({ file, words }) =>
			html`<li><a class="chip" href="${ctx.way(file)}" type="application/pdf">${words}</a></li>`,
	)}</ul><span class="small">${ctx.words.prints.note}</span></div>`;
}
