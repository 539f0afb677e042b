/**
 * Order: what each level meets first, what it builds on, and the pictures of what leads to what.
 */

import { type Html, html } from "../../../scripts/views/html.ts";
import type { OrderNeed, OrderView } from "../../../scripts/views/measures/order.ts";
import { measureFoot, measureTop, nothingPlanned, scrollTable } from "../../parts/measure-parts.ts";
import { a, fold, type PageContext, section } from "../../parts/page.ts";
import { progressionPicture } from "../../parts/progression-picture.ts";

export function orderPage(ctx: PageContext, view: OrderView): Html {
	const { words } = ctx;
	const say = words.order;
	return html`${measureTop(ctx, view.head)}
${view.head.empty && nothingPlanned(ctx)}
${
	!view.head.empty &&
	view.levels.map(({ id, level, rows, checked, wrong }) =>
		section(
			`level-${id}`,
			a(ctx, level),
			rows.length === 0
				? html`<p class="empty">${say.none}</p>`
				: html`<p class="small">${say.checked(checked, wrong)}</p>
${scrollTable(
	say.tableOf(level.name),
	[
		words.things.skill.one,
		html`<span class="left">${say.first}</span>`,
		html`<span class="left">${say.builtOn}</span>`,
	],
	rows.map(
		(row) =>
			html`<tr id="skill--${row.skill.to.split("/")[1]}--${id}"><th scope="row">${a(ctx, row.skill)}</th><td class="left">${row.first === undefined ? say.notThisTerm : a(ctx, row.first)}${row.arrives && html` <span class="small">${say.arrives}</span>`}</td><td class="left">${row.needs.length === 0 ? "–" : row.needs.map((need, i) => html`${i === 0 ? "" : ", "}${needWords(ctx, need)}`)}</td></tr>`,
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
		say.pictures,
		html`<p class="small">${say.note}</p>
${view.maps.map(({ id, apparatus, skills }) => {
	const name = apparatus?.name ?? words.anywhere;
	return fold(
		html`${name} <span class="small">${words.counts.skills(skills.length)}</span>`,
		progressionPicture(ctx, skills, {
			title: say.mapTitle(name),
			description: say.mapDescription,
			idPrefix: `map-${id}`,
		}),
	);
})}`,
	)
}
${measureFoot(ctx, view.head)}`;
}

function needWords(ctx: PageContext, { skill, met, wrong }: OrderNeed): Html {
	const say = ctx.words.order;
	const when = met === undefined ? say.notTaught : met === "arrives" ? say.arrives : ctx.words.ofWeek(met);
	return html`${a(ctx, skill)} <span class="${wrong ? "short" : "small"}">${when}${wrong && `, ${say.tooLate}`}</span>`;
}
