/**
 * One drill: safety first, then what each level does, what to say and see, and where it leads.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import { NO_CHOICE, writeChoice } from "../../scripts/render/search/choice.ts";
import type { DrillLine, DrillView } from "../../scripts/render/views/drill.ts";
import { capital, shortNumber } from "../../scripts/render/views/words.ts";
import {
	cueList,
	drillCards,
	faultList,
	hasHeights,
	heightsSource,
	levelWays,
	safetyBox,
	setUpList,
} from "../parts/drill-parts.ts";
import { exposureTable } from "../parts/exposure-table.ts";
import { shapeStrip } from "../parts/figures.ts";
import { mediumFigure } from "../parts/media.ts";
import { movingFigure } from "../parts/motion.ts";
import { a, chips, facts, inWords, type PageContext, section } from "../parts/page.ts";
import { exercisePlan } from "../parts/share-head.ts";

/** The page of a drill. */
export function drillPage(ctx: PageContext, view: DrillView): Html {
	const cues = cueList(view.cues);
	const faults = faultList(view.faults);
	const setUp = setUpList(ctx, view.setUp);
	const steps = (id: string, title: string, lines: readonly DrillLine[], className = "") =>
		lines.length > 0 &&
		html`<div class="step-group ${className}"><h3 id="${id}">${title}</h3>${drillCards(ctx, lines)}</div>`;
	const leads = [
		steps("easier", "Easier", view.easier),
		steps("harder", "Harder", view.harder),
		steps("partner", "The other direction", view.partners),
		steps("elsewhere", "Same shapes elsewhere", view.elsewhere, "wide"),
	].filter((group) => group !== false);
	return html`<h1>${view.title}</h1>
${view.summary && html`<p class="lead">${view.summary}</p>`}
${chips(ctx, view.apparatus, "On")}
${chips(
	ctx,
	view.levels.map(({ level }) => level),
	"For",
)}
${shapeStrip(ctx, view.figures)}
${movingFigure(view.figures)}
${safetyBox(ctx, view.safety)}
${section("levels", "What each level does", levelWays(ctx, view.levels))}
${cues && section("cues", "Say", cues)}
${faults && section("faults", "Watch for", faults)}
${setUp && section("set-up", "Set-up", [setUp, hasHeights(view.setUp) && heightsSource()])}
${view.body.text !== "" && section("how", "How it goes", html`<div class="prose">${view.body}</div>`)}
${
	view.media.length > 0 &&
	section(
		"media",
		"Pictures",
		view.media.map((medium) => mediumFigure(ctx, medium)),
	)
}
${
	leads.length > 0 &&
	section(
		"where-next",
		"Where next",
		html`<div class="steps">${leads}</div>
${
	view.shapes.length + view.skills.length > 0 &&
	html`<p><a href="${ctx.way(`search/${writeChoice({ ...NO_CHOICE, like: view.id })}`)}">More like this</a>: the same shapes and skills, other apparatus or levels</p>`
}`,
	)
}
${
	view.planned.length > 0 &&
	section(
		"planned",
		"Planned in",
		html`<ul class="planned">${view.planned.map(
			({ week, apparatus, levels }) =>
				html`<li>${a(ctx, week)}: ${a(ctx, apparatus)} <span class="small">${levels.map((l) => l.name).join(", ")}</span></li>`,
		)}</ul>`,
	)
}
${view.exposure.length > 0 && section("exposure", "Over the term", exposureTable(ctx, view))}
${section(
	"about-drill",
	"About this drill",
	facts([
		["Shapes", view.shapes.length > 0 && inWords(ctx, view.shapes)],
		["Leads to", view.skills.length > 0 && inWords(ctx, view.skills)],
		["Direction", view.direction && capital(view.direction)],
		["Sides", view.sides],
		[
			"Each repetition",
			view.contacts &&
				`${shortNumber(view.contacts.landings)} landings, ${shortNumber(view.contacts.hands)} hand contacts`,
		],
		["Also called", view.aliases.length > 0 && view.aliases.join(", ")],
		["Reviewed", view.reviewed && html`<time datetime="${view.reviewed.iso}">${view.reviewed.words}</time>`],
		["Written in", html`<code>${view.file}</code>`],
	]),
)}
${exercisePlan(ctx, view)}`;
}
