/**
 * Home: this week, chosen in the browser by the date; without JavaScript, all weeks.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { HomeView } from "../../scripts/render/views/home.ts";
import { counted } from "../../scripts/render/views/words.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { a, type PageContext, section } from "../parts/page.ts";
import { noWeeks, todaysSheets, weekCard, weekRows } from "../parts/week-list.ts";

/** The home page. */
export function homePage(ctx: PageContext, view: HomeView): Html {
	const { counts } = view;
	return html`<p class="eyebrow">${view.term}</p>
<h1>What do we teach today?</h1>
${view.weeks.length > 0 && todaysSheets(view.closures, view.timezone)}
<form class="find" role="search" action="${ctx.way("search/")}"><label for="find-q">Find a drill</label><div><input id="find-q" name="q" type="search" autocomplete="off" placeholder="hollow, Level 2, bars"><button type="submit">Search</button></div></form>
${
	view.weeks.length === 0
		? noWeeks(ctx)
		: html`<div class="now" data-timezone="${view.timezone}">${view.weeks.map((week) => weekCard(ctx, week))}</div>`
}
${section(
	"by-apparatus",
	"My apparatus",
	html`<ul class="tiles">${view.apparatus.map(({ id, link }) => html`<li><a class="tile" href="${ctx.way(link.to)}">${apparatusIcon(id, link.name)}<span>${link.name}</span></a></li>`)}</ul>`,
)}
${section(
	"by-level",
	"My level",
	html`<ul class="tiles words">${view.levels.map((link) => html`<li><a class="tile" href="${ctx.way(link.to)}"><span>${link.name}</span></a></li>`)}</ul>`,
)}
${view.weeks.length > 0 && section("all-weeks", "All weeks", weekRows(ctx, view.weeks))}
${view.emergency && section("emergency", "In an emergency", html`<p class="emergency">${view.emergency}</p>`)}
<p class="small">${a(ctx, { to: "drills/", name: counted(counts.drills, "drill") })}, ${a(ctx, { to: "shapes/", name: counted(counts.shapes, "shape") })}, ${a(ctx, { to: "skills/", name: counted(counts.skills, "skill") })}, ${a(ctx, { to: "findings/", name: counted(counts.findings, "finding") })}.</p>`;
}
