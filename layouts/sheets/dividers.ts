/**
 * Divider leaves: the section's name large, what is behind it, and a tab at the outer edge to be folded or cut,
 * each a step lower than the one before.
 */

import { html } from "../../scripts/views/html.ts";
import type { DividersView } from "../../scripts/views/sheets/dividers.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import { pageCode } from "./page-code.ts";
import type { Drawn } from "./sheet-file.ts";
import { AS_DESIGNED, fixedPiece } from "./side.ts";

/** Tabs down an edge; the next one begins again at the top. */
const TABS = 9;

export function dividerSheets(facts: SheetFacts, { dividers }: DividersView): Drawn {
	const sides = dividers.map(
		(
			{ label, title, page, holds },
			i,
		) => html`<div class="tab" style="--at:${i % TABS}"><span>${label}</span></div>
<div class="area box"><header class="head">${pageCode(facts, page, title)}<p class="label">${label}</p><h1>${title}</h1></header>
<ul class="holds">${holds.map((one) => html`<li>${one}</li>`)}</ul></div>`,
	);
	return { html: fixedPiece(facts, "dividers bound", sides, true), most: sides.length, steps: AS_DESIGNED };
}
