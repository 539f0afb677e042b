/**
 * The inventory: what the club owns, where it is kept, what the term needs.
 */

import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import type { EquipmentListView } from "../../scripts/views/equipment.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { a, type PageContext } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";

export function equipmentListPage(ctx: PageContext, view: EquipmentListView): Html {
	const say = ctx.words.equipmentPage;
	const name = ctx.words.destinations.equipment;
	return html`<h1>${name}</h1>
${printLinks(
	ctx,
	view.weeks.map(({ link, number }) => ({
		file: SHEET_FILES.storeRoom(link.to.split("/")[1] ?? ""),
		words: ctx.words.prints.storeRoomOf(number),
	})),
)}
${
	view.items.length === 0
		? html`<p class="empty">${say.none(html`<code>_data/equipment.yaml</code>`)}</p>`
		: html`<section class="scroll" tabindex="0" aria-label="${name}"><table>
<thead><tr><th scope="col">${say.item}</th><th scope="col">${say.owned}</th><th scope="col">${say.mostNeeded}</th><th scope="col">${ctx.words.destinations.drills}</th><th scope="col" class="left">${say.kept}</th></tr></thead>
<tbody>${view.items.map(
				({ link, owned, most, drills, stored }) =>
					html`<tr><th scope="row">${a(ctx, link)}</th><td>${owned ?? "–"}</td><td${owned !== undefined && most !== undefined && most > owned ? html` class="short"` : ""}>${most ?? "–"}</td><td>${drills}</td><td class="left">${stored ?? "–"}</td></tr>`,
			)}</tbody></table></section>`
}`;
}
