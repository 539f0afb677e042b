/**
 * One apparatus in one week: what to set out, and every block in full.
 */

import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { measureLink } from "../../scripts/views/measures/measure-page.ts";
import type { WeekApparatusView } from "../../scripts/views/week.ts";
import type { Words } from "../../scripts/words/words.ts";
import { blockCard, heightsNote } from "../parts/block.ts";
import { floorPlanFigure, floorPlanNote } from "../parts/floor-plan.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { scrollTable } from "../parts/measure-parts.ts";
import type { Nothing } from "../parts/nothing.ts";
import { a, beside, fold, inWords, type PageContext, section } from "../parts/page.ts";
import { type PrintLink, printLinks } from "../parts/print-links.ts";
import { suggestionList } from "../parts/suggestion-list.ts";

/** Long: it is the page from top to bottom, and names each field of its view. */
export function weekApparatusPage(ctx: PageContext, view: WeekApparatusView): Html {
	const {
		id,
		week,
		apparatus,
		focus,
		blocks,
		plans,
		equipment,
		suggestions,
		previous,
		next,
		others,
		minutes,
		...rest
	} = view;
	rest satisfies Nothing;
	const { words } = ctx;
	const say = words.weekApparatus;
	return html`<p class="eyebrow">${week.dates}</p>
<h1>${apparatusIcon(id)} ${apparatus.name} <span class="of">${words.ofWeek(week.number)}</span></h1>
<p class="lead">${focus ?? week.theme}</p>
${beside(ctx, previous, next, words.classSheet.besides(apparatus.name))}
${
	equipment.length > 0 &&
	section(
		"set-out",
		words.setOut.title,
		html`<ul class="setup">${equipment.map(
			({ item, needed, owned, stored }) =>
				html`<li><b>${needed}</b> ${a(ctx, item)}${stored && html` <span class="small">${stored}</span>`}${owned !== undefined && owned < needed && html` <strong class="short">${words.setOut.owns(owned)}</strong>`}</li>`,
		)}</ul>
${fold(say.neededOwned, [
	scrollTable(
		say.neededOwnedTable,
		[
			words.equipmentPage.item,
			words.equipmentPage.needed,
			words.equipmentPage.owned,
			html`<span class="left">${words.drill.forLevels}</span>`,
		],
		equipment.map(
			({ item, needed, owned, drills }) =>
				html`<tr><th scope="row">${a(ctx, item)}</th><td class="${owned !== undefined && owned < needed ? "short" : ""}">${words.number(needed)}</td><td>${owned === undefined ? "–" : words.number(owned)}</td><td class="left">${inWords(ctx, drills)}</td></tr>`,
		),
	),
	html`<p class="small">${say.addedUp(a(ctx, measureLink(words, "equipment")))}</p>`,
])}`,
	)
}
${section(
	"blocks",
	say.blocks(minutes),
	blocks.length === 0
		? html`<p class="empty">${say.noBlock}</p>`
		: blocks.map((block) => {
				const plan = plans.find((one) => one.block === block.number);
				const anchor = `block-${block.number}`;
				const drawn = plan && floorPlanFigure(ctx.words, plan, { idPrefix: `${anchor}-plan`, upright: true });
				return blockCard(ctx, block, anchor, undefined, undefined, drawn);
			}),
)}
${heightsNote(ctx, blocks)}
${floorPlanNote(ctx.words, plans)}
${
	suggestions.length > 0 &&
	section("suggestions", words.suggestions.title, [
		html`<p class="small">${words.suggestions.here}</p>`,
		suggestionList(ctx, suggestions, ({ level }) => level.name),
	])
}
${
	others.length > 0 &&
	section(
		"others",
		say.elsewhere,
		html`<ul class="tiles">${others.map((other) => html`<li><a class="tile" href="${ctx.way(other.link.to)}">${apparatusIcon(other.id)}<span>${other.link.name}</span></a></li>`)}</ul>`,
	)
}
${printLinks(ctx, apparatusPrints(words, view))}
<p>${a(ctx, { to: `apparatus/${id}/`, name: say.allDrills(apparatus.name) })}</p>`;
}

function apparatusPrints(
	{ prints }: Words,
	{ id, week: { id: week } }: WeekApparatusView,
): readonly PrintLink[] {
	return [
		{ file: SHEET_FILES.stationCards(week, id, 2), words: prints.cardsByTwo },
		{ file: SHEET_FILES.stationCards(week, id, 4), words: prints.cardsByFour },
		{ file: SHEET_FILES.floorPlans(week, id), words: prints.floorPlans },
	];
}
