/**
 * One week: what each apparatus does, the class sheets, the load, what the measures find.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { WeekView } from "../../scripts/render/views/week.ts";
import { shortNumber } from "../../scripts/render/views/words.ts";
import { findingsList } from "../parts/findings-list.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { a, beside, inWords, type PageContext, section } from "../parts/page.ts";
import { classRows } from "../parts/week-list.ts";

/** The page of a week. */
export function weekPage(ctx: PageContext, view: WeekView): Html {
	const findings = findingsList(ctx, view.findings);
	return html`<p class="eyebrow">${view.dates}</p>
<h1><span class="big-number">Week ${view.number}</span> ${view.theme}</h1>
${beside(ctx, view.previous, view.next, "Weeks before and after")}
${view.body.text !== "" && html`<div class="prose director">${view.body}</div>`}
${section(
	"apparatus",
	"By apparatus",
	html`<div class="plans">${view.plans.map(
		({ apparatus, blocks }) => html`<article class="plan">
<h3>${apparatusIcon(apparatus.id, apparatus.link.name)} ${a(ctx, apparatus.link)} <span class="small">${shortNumber(apparatus.minutes)} min</span></h3>
${apparatus.focus && html`<p class="focus">${apparatus.focus}</p>`}
<ol class="blocks">${blocks.map(
			(block) =>
				html`<li><span class="minutes"><b>${shortNumber(block.minutes)}</b> min</span><span>${block.kind === "stations" && html`<span class="label">Stations</span> `}${inWords(ctx, block.drills)}${block.levels.length > 0 && html` <span class="for">${inWords(ctx, block.levels)}</span>`}</span></li>`,
		)}</ol></article>`,
	)}</div>`,
)}
${view.classes.length > 0 && section("sheets", "Class sheets", classRows(ctx, view))}
${
	view.load.length > 0 &&
	section(
		"load",
		"Landings and hand contacts",
		html`<p class="small">For one gymnast who does everything planned for the level. A count for planning, not a medical measure. The step is this week over the mean of the three teaching weeks before.</p>
<section class="scroll" tabindex="0" aria-label="Landings and hand contacts by level"><table><thead><tr><th scope="col">Level</th><th scope="col">Landings</th><th scope="col">Step</th><th scope="col">Hands</th><th scope="col">Step</th></tr></thead><tbody>${view.load.map(
			({ level, row }) =>
				html`<tr><th scope="row">${a(ctx, level)}</th>${[
					"landings",
					"landings-step",
					"hands",
					"hands-step",
				].map((name) => {
					const value = row[name];
					return html`<td>${typeof value === "number" ? shortNumber(value) : "–"}</td>`;
				})}</tr>`,
		)}</tbody></table></section>`,
	)
}
${findings && section("findings", "What the measures find", findings)}
<p class="small">Written in <code>${view.file}</code>.</p>`;
}
