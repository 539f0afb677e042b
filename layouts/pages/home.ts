/**
 * Home: this week, chosen in the browser by the date; without JavaScript, all weeks.
 */

import type { HomeView } from "../../scripts/views/home.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { a, more, type PageContext, section } from "../parts/page.ts";
import { noWeeks, todaysSheets, weekCard, weekRows } from "../parts/week-list.ts";

export function homePage(ctx: PageContext, view: HomeView): Html {
	const { counts } = view;
	const say = ctx.words.home;
	const findings = more(ctx, { to: "findings/", name: ctx.words.counts.findings(counts.findings) });
	return html`<p class="eyebrow">${view.term}</p>
<h1>${say.title}</h1>
${view.weeks.length > 0 && todaysSheets(ctx, view.closures, view.timezone)}
<form class="find" role="search" action="${ctx.way("search/")}"><label for="find-q">${say.find}</label><div><input id="find-q" name="q" type="search" autocomplete="off" placeholder="${say.findExample}"><button type="submit">${ctx.words.destinations.search}</button></div></form>
${
	view.weeks.length === 0
		? noWeeks(ctx)
		: html`<div class="now" data-timezone="${view.timezone}">${view.weeks.map((week) => weekCard(ctx, week))}</div>`
}
${section(
	"by-apparatus",
	say.myApparatus,
	html`<ul class="tiles">${view.apparatus.map(({ id, link }) => html`<li><a class="tile" href="${ctx.way(link.to)}">${apparatusIcon(id)}<span>${link.name}</span></a></li>`)}</ul>`,
)}
${section(
	"by-level",
	say.myLevel,
	html`<ul class="tiles words">${view.levels.map((link) => html`<li><a class="tile" href="${ctx.way(link.to)}"><span>${link.name}</span></a></li>`)}</ul>`,
)}
${view.weeks.length > 0 && section("all-weeks", say.allWeeks, weekRows(ctx, view.weeks))}
${view.emergency && section("emergency", ctx.words.frame.inEmergency, html`<p class="emergency">${view.emergency}</p>`)}
${ctx.page.frame.changes && html`<p>${a(ctx, { to: ctx.page.frame.changes, name: ctx.words.whatChanged.link })}</p>`}
<p class="small">${a(ctx, { to: "drills/", name: ctx.words.counts.drills(counts.drills) })}, ${a(ctx, { to: "shapes/", name: ctx.words.counts.shapes(counts.shapes) })}, ${a(ctx, { to: "skills/", name: ctx.words.counts.skills(counts.skills) })}${findings && html`, ${findings}`}.</p>`;
}
