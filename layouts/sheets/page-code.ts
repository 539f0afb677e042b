/** The code on a sheet to point a phone at: the page on the club's site that says the same. */

import { drawQr } from "../../scripts/figures/qr.ts";
import type { Address } from "../../scripts/views/addresses.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";

/** Nothing where the club names no site. */
export function pageCode({ address, words }: SheetFacts, page: Address, name: string): Html | undefined {
	if (address === undefined) return undefined;
	const href = `${address}${page}`;
	const said = { title: words.sheets.code, description: `${name}, ${href}` };
	return html`<a class="code" href="${href}">${raw(drawQr(href, said))}</a>`;
}
