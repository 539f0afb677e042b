/**
 * The inventory: what the club owns, where it is kept, what the term needs.
 */

import { SHEET_FILES } from "../../scripts/render/addresses.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import type { EquipmentListView } from "../../scripts/render/views/equipment.ts";
import { a, type PageContext } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";

/** The page of all equipment. */
export function equipmentListPage(ctx: PageContext, view: EquipmentListView): Html {
	return html`<h1>Equipment</h1>
${printLinks(
	ctx,
	view.weeks.map(({ link, number }) => ({
		file: SHEET_FILES.storeRoom(link.to.split("/")[1] ?? ""),
		words: `Store-room list of week ${number}`,
	})),
)}
${
	view.items.length === 0
		? html`<p class="empty">No equipment is written in <code>_data/equipment.yaml</code> yet.</p>`
		: html`<section class="scroll" tabindex="0" aria-label="Equipment"><table>
<thead><tr><th scope="col">Item</th><th scope="col">Owned</th><th scope="col">Most needed at one apparatus</th><th scope="col">Drills</th><th scope="col">Kept</th></tr></thead>
<tbody>${view.items.map(
				({ link, owned, most, drills, stored }) =>
					html`<tr><th scope="row">${a(ctx, link)}</th><td>${owned ?? "–"}</td><td${owned !== undefined && most !== undefined && most > owned ? html` class="short"` : ""}>${most ?? "–"}</td><td>${drills}</td><td class="left">${stored ?? "–"}</td></tr>`,
			)}</tbody></table></section>`
}`;
}
