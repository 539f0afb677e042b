/**
 * One apparatus in one week: what to set out, and every block in full.
 */

import { SHEET_FILES } from "../../scripts/render/addresses.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import { measureLink } from "../../scripts/render/views/measures/measure-page.ts";
import type { WeekApparatusView } from "../../scripts/render/views/week.ts";
import { shortNumber } from "../../scripts/render/views/words.ts";
import { blockCard, heightsNote } from "../parts/block.ts";
import { floorPlanFigure, floorPlanNote } from "../parts/floor-plan.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { scrollTable } from "../parts/measure-parts.ts";
import { a, beside, fold, inWords, type PageContext, section } from "../parts/page.ts";
import { type PrintLink, printLinks } from "../parts/print-links.ts";
import { suggestionList } from "../parts/suggestion-list.ts";

/** The page of one apparatus in one week. */
export function weekApparatusPage(ctx: PageContext, view: WeekApparatusView): Html {
	return html`<p class="eyebrow">${view.week.dates}</p>
<h1>${apparatusIcon(view.id, view.apparatus.name)} ${view.apparatus.name} <span class="of">week ${view.week.number}</span></h1>
<p class="lead">${view.focus ?? view.week.theme}</p>
${beside(ctx, view.previous, view.next, `${view.apparatus.name} in the weeks before and after`)}
${printLinks(ctx, apparatusPrints(view))}
${
	view.equipment.length > 0 &&
	section(
		"set-out",
		"Set out",
		html`<ul class="setup">${view.equipment.map(
			({ item, needed, owned, stored }) =>
				html`<li><span class="count">${needed}</span> ${a(ctx, item)}${stored && html` <span class="small">${stored}</span>`}${owned !== undefined && owned < needed && html` <strong class="short">the club owns ${owned}</strong>`}</li>`,
		)}</ul>
${fold("Needed against owned", [
	scrollTable(
		"Equipment needed and owned",
		["Item", "Needed", "Owned", html`<span class="left">For</span>`],
		view.equipment.map(
			({ item, needed, owned, drills }) =>
				html`<tr><th scope="row">${a(ctx, item)}</th><td class="${owned !== undefined && owned < needed ? "short" : ""}">${shortNumber(needed)}</td><td>${owned === undefined ? "–" : shortNumber(owned)}</td><td class="left">${inWords(ctx, drills)}</td></tr>`,
		),
	),
	html`<p class="small">Stations add up, blocks follow each other and the largest wins. ${a(ctx, measureLink("equipment"))} has every week.</p>`,
])}`,
	)
}
${section(
	"blocks",
	html`Blocks, ${shortNumber(view.minutes)} min`,
	view.blocks.length === 0
		? html`<p class="empty">No block is planned here.</p>`
		: view.blocks.map((block) => {
				const plan = view.plans.find((one) => one.block === block.number);
				const id = `block-${block.number}`;
				const drawn = plan && floorPlanFigure(plan, { idPrefix: `${id}-plan`, upright: true });
				return blockCard(ctx, block, id, undefined, undefined, drawn);
			}),
)}
${heightsNote(view.blocks)}
${floorPlanNote(view.plans)}
${
	view.suggestions.length > 0 &&
	section("suggestions", "What would close gaps", [
		html`<p class="small">The fewest drills of the library that train here what is due and not met this week, within the free minutes and in order.</p>`,
		suggestionList(ctx, view.suggestions, ({ level }) => level.name),
	])
}
${
	view.others.length > 0 &&
	section(
		"others",
		"Elsewhere this week",
		html`<ul class="tiles">${view.others.map((other) => html`<li><a class="tile" href="${ctx.way(other.link.to)}">${apparatusIcon(other.id, other.link.name)}<span>${other.link.name}</span></a></li>`)}</ul>`,
	)
}
<p>${a(ctx, { to: `apparatus/${view.id}/`, name: `All drills on ${view.apparatus.name}` })}</p>`;
}

function apparatusPrints({ id, week: { link } }: WeekApparatusView): readonly PrintLink[] {
	const week = link.to.split("/")[1] ?? "";
	return [
		{ file: SHEET_FILES.stationCards(week, id, 2), words: "Station cards, two to a sheet" },
		{ file: SHEET_FILES.stationCards(week, id, 4), words: "four to a sheet" },
		{ file: SHEET_FILES.floorPlans(week, id), words: "Floor plans" },
	];
}
