/**
 * Order: what each level meets first, what it builds on, and the pictures of what leads to what.
 */

import { type Html, html } from "../../../scripts/render/html.ts";
import type { OrderNeed, OrderView } from "../../../scripts/render/views/measures/order.ts";
import { counted } from "../../../scripts/render/views/words.ts";
import { progressionPicture } from "../../parts/charts.ts";
import { measureFoot, measureTop, nothingPlanned, scrollTable } from "../../parts/measure-parts.ts";
import { a, fold, type PageContext, section } from "../../parts/page.ts";

/** The page of order. */
export function orderPage(ctx: PageContext, view: OrderView): Html {
	return html`${measureTop(ctx, view.head)}
${view.head.empty && nothingPlanned(ctx)}
${
	!view.head.empty &&
	view.levels.map(({ id, level, rows, checked, wrong }) =>
		section(
			`level-${id}`,
			a(ctx, level),
			rows.length === 0
				? html`<p class="empty">No skill is taught or wanted at this level.</p>`
				: html`<p class="small">${counted(checked, "need")} of taught skills held against the plan: ${wrong === 0 ? "all are met first" : `${wrong} come too late`}.</p>
${scrollTable(
	`The order of skills at ${level.name}`,
	["Skill", html`<span class="left">First taught</span>`, html`<span class="left">Built on</span>`],
	rows.map(
		(row) =>
			html`<tr id="skill--${row.skill.to.split("/")[1]}--${id}"><th scope="row">${a(ctx, row.skill)}</th><td class="left">${row.first === undefined ? "not this term" : a(ctx, row.first)}${row.arrives && html` <span class="small">arrives with it</span>`}</td><td class="left">${row.needs.length === 0 ? "–" : row.needs.map((need, i) => html`${i === 0 ? "" : ", "}${needWords(ctx, need)}`)}</td></tr>`,
	),
	"tall",
)}`,
		),
	)
}
${
	view.maps.length > 0 &&
	section(
		"pictures",
		"What leads to what",
		html`<p class="small">From the easy at the top to the hard at the bottom, with the week in which each level is first taught it. A skill's own page shows its neighbours on every apparatus.</p>
${view.maps.map(({ id, apparatus, skills }) => {
	const name = apparatus?.name ?? "Anywhere";
	return fold(
		html`${name} <span class="small">${counted(skills.length, "skill")}</span>`,
		progressionPicture(ctx, skills, {
			title: `Skills on ${name}`,
			description: "What comes before what. The list under this picture has the same in words.",
			idPrefix: `map-${id}`,
		}),
	);
})}`,
	)
}
${measureFoot(ctx, view.head)}`;
}

function needWords(ctx: PageContext, { skill, met, wrong }: OrderNeed): Html {
	const when = met === undefined ? "not taught" : met === "arrives" ? "arrives with it" : `week ${met}`;
	return html`${a(ctx, skill)} <span class="${wrong ? "short" : "small"}">${when}${wrong && ", too late"}</span>`;
}
