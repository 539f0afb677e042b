/**
 * One piece of equipment: where it is kept, where it is needed.
 */

import type { EquipmentView } from "../../scripts/views/equipment.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { drillCards } from "../parts/drill-parts.ts";
import { a, facts, type PageContext, section } from "../parts/page.ts";

export function equipmentPage(ctx: PageContext, view: EquipmentView): Html {
	const say = ctx.words.equipmentPage;
	return html`<h1>${view.name}</h1>
${facts([
	[say.owned, view.owned],
	[say.kept, view.stored],
	[ctx.words.drill.alsoCalled, view.aliases.length > 0 && view.aliases.join(", ")],
])}
${
	view.uses.length > 0 &&
	section(
		"needed",
		say.neededIn,
		html`<ul class="planned">${view.uses.map(
			({ link, apparatus, needed }) =>
				html`<li><span class="count">${needed}</span> ${a(ctx, { to: link.to, name: `${link.name}, ${apparatus}` })}</li>`,
		)}</ul>`,
	)
}
${section("drills", ctx.words.destinations.drills, view.drills.length === 0 ? html`<p class="empty">${say.noDrill}</p>` : drillCards(ctx, view.drills))}`;
}
