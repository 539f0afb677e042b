/**
 * One drill: safety first, then what each level does, what to say and see, and where it leads.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import { NO_CHOICE, writeChoice } from "../../scripts/render/search/choice.ts";
import type { DrillLine, DrillView } from "../../scripts/render/views/drill.ts";
import { capital } from "../../scripts/render/views/words.ts";
import {
	adaptList,
	criteriaList,
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

/** The page of a drill. */
export function drillPage(ctx: PageContext, view: DrillView): Html {
	const say = ctx.words.drill;
	const cues = cueList(view.cues);
	const faults = faultList(ctx, view.faults, true);
	const adapt = adaptList(ctx, view.adapt);
	const criteria = criteriaList(ctx, view.criteria);
	const setUp = setUpList(ctx, view.setUp);
	const steps = (id: string, title: string, lines: readonly DrillLine[], className = "") =>
		lines.length > 0 &&
		html`<div class="step-group ${className}"><h3 id="${id}">${title}</h3>${drillCards(ctx, lines)}</div>`;
	const leads = [
		steps("easier", say.easier, view.easier),
		steps("harder", say.harder, view.harder),
		steps("partner", say.otherDirection, view.partners),
		steps("elsewhere", say.elsewhere, view.elsewhere, "wide"),
	].filter((group) => group !== false);
	return html`<h1>${view.title}</h1>
${view.summary && html`<p class="lead">${view.summary}</p>`}
${chips(ctx, view.apparatus, say.on)}
${chips(
	ctx,
	view.levels.map(({ level }) => level),
	say.forLevels,
)}
${view.figures.stances.length > 0 && html`<div class="large">${shapeStrip(ctx, view.figures)}</div>`}
${movingFigure(ctx, view.figures)}
${safetyBox(ctx, view.safety)}
${section("levels", say.levels, levelWays(ctx, view.levels))}
${adapt && section("adapt", ctx.words.block.easierHarder, adapt)}
${cues && section("cues", say.say, cues)}
${faults && section("faults", say.watchFor, faults)}
${criteria && section("criteria", ctx.words.skills.criteria, criteria)}
${setUp && section("set-up", say.setUp, [setUp, hasHeights(view.setUp) && heightsSource(ctx)])}
${view.body.text !== "" && section("how", say.how, html`<div class="prose">${view.body}</div>`)}
${
	view.media.length > 0 &&
	section(
		"media",
		say.pictures,
		view.media.map((medium) => mediumFigure(ctx, medium)),
	)
}
${
	leads.length > 0 &&
	section(
		"where-next",
		say.whereNext,
		html`<div class="steps">${leads}</div>
${
	view.shapes.length + view.skills.length > 0 &&
	html`<p>${say.moreLikeThis(html`<a href="${ctx.way(`search/${writeChoice({ ...NO_CHOICE, like: view.id })}`)}">${say.moreLikeThisLink}</a>`)}</p>`
}`,
	)
}
${
	view.planned.length > 0 &&
	section(
		"planned",
		say.plannedIn,
		html`<ul class="planned">${view.planned.map(
			({ week, apparatus, levels }) =>
				html`<li>${a(ctx, week)}${ctx.words.colon}${a(ctx, apparatus)} <span class="small">${levels.map((l) => l.name).join(", ")}</span></li>`,
		)}</ul>`,
	)
}
${view.exposure.length > 0 && section("exposure", say.overTerm, exposureTable(ctx, view))}
${section(
	"about-drill",
	say.about,
	facts([
		[say.shapes, view.shapes.length > 0 && inWords(ctx, view.shapes)],
		[say.leadsTo, view.skills.length > 0 && inWords(ctx, view.skills)],
		[say.direction, view.direction && capital(ctx.words.directions[view.direction])],
		[say.sides, view.sides && ctx.words.sides[view.sides]],
		[say.eachRepetition, view.contacts && say.contacts(view.contacts.landings, view.contacts.hands)],
		[say.alsoCalled, view.aliases.length > 0 && view.aliases.join(", ")],
		[
			say.reviewed,
			view.reviewed && html`<time datetime="${view.reviewed.iso}">${view.reviewed.words}</time>`,
		],
		[say.writtenIn, html`<code>${view.file}</code>`],
	]),
)}`;
}
