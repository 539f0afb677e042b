/**
 * One drill: safety first, then what each level does, what to say and see, and where it leads.
 */

import { NO_CHOICE, writeChoice } from "../../scripts/search/choice.ts";
import type { DrillLine, DrillView } from "../../scripts/views/drill.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { capital } from "../../scripts/views/words.ts";
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
import type { Nothing } from "../parts/nothing.ts";
import { a, chips, facts, inWords, type PageContext, section } from "../parts/page.ts";
import { saidOfDrillPart } from "./taught-page.ts";

/** Long: it is the page from top to bottom, and names each field of its view. */
export function drillPage(ctx: PageContext, view: DrillView): Html {
	const {
		id,
		title,
		summary,
		aliases,
		apparatus,
		levels,
		figures,
		safety,
		cues,
		faults,
		adapt,
		criteria,
		setUp,
		body,
		media,
		easier,
		harder,
		partners,
		elsewhere,
		shapes,
		skills,
		planned,
		exposure,
		direction,
		sides,
		contacts,
		// The foot of every page says it.
		origin: _origin,
		reviewed,
		said,
		file,
		// Among what is easier and harder.
		after: _after,
		next: _next,
		// One level's figures stand for all here.
		strips: _strips,
		...rest
	} = view;
	rest satisfies Nothing;
	const say = ctx.words.drill;
	const setUpShown = setUpList(ctx, setUp);
	const part = (id: string, title: string, shown: Html | undefined) => shown && section(id, title, shown);
	const steps = (id: string, title: string, lines: readonly DrillLine[], className = "") =>
		lines.length > 0 &&
		html`<div class="step-group ${className}"><h3 id="${id}">${title}</h3>${drillCards(ctx, lines)}</div>`;
	const leads = [
		steps("easier", say.easier, easier),
		steps("harder", say.harder, harder),
		steps("partner", say.otherDirection, partners),
		steps("elsewhere", say.elsewhere, elsewhere, "wide"),
	].filter((group) => group !== false);
	return html`<h1>${title}</h1>
${summary && html`<p class="lead">${summary}</p>`}
${chips(ctx, apparatus, say.on)}
${chips(
	ctx,
	levels.map(({ level }) => level),
	say.forLevels,
)}
${figures.stances.length > 0 && html`<div class="large">${shapeStrip(ctx, figures)}</div>`}
${movingFigure(ctx, figures)}
${safetyBox(ctx, safety)}
${section("levels", say.levels, levelWays(ctx, levels))}
${part("adapt", ctx.words.block.easierHarder, adaptList(ctx, adapt))}
${part("cues", say.say, cueList(cues))}
${part("faults", say.watchFor, faultList(ctx, faults, true))}
${said && saidOfDrillPart(ctx, said)}
${part("criteria", ctx.words.skills.criteria, criteriaList(ctx, criteria))}
${setUpShown && section("set-up", say.setUp, [setUpShown, hasHeights(setUp) && heightsSource(ctx)])}
${body.text !== "" && section("how", say.how, html`<div class="prose">${body}</div>`)}
${
	media.length > 0 &&
	section(
		"media",
		say.pictures,
		media.map((medium) => mediumFigure(ctx, medium)),
	)
}
${
	leads.length > 0 &&
	section(
		"where-next",
		say.whereNext,
		html`<div class="steps">${leads}</div>
${
	shapes.length + skills.length > 0 &&
	html`<p>${say.moreLikeThis(html`<a href="${ctx.way(`search/${writeChoice({ ...NO_CHOICE, like: id })}`)}">${say.moreLikeThisLink}</a>`)}</p>`
}`,
	)
}
${
	planned.length > 0 &&
	section(
		"planned",
		say.plannedIn,
		html`<ul class="planned">${planned.map(
			({ week, apparatus, levels }) =>
				html`<li>${a(ctx, week)}${ctx.words.colon}${a(ctx, apparatus)} <span class="small">${levels.map((l) => l.name).join(", ")}</span></li>`,
		)}</ul>`,
	)
}
${exposure.length > 0 && section("exposure", say.overTerm, exposureTable(ctx, view))}
${section(
	"about-drill",
	say.about,
	facts([
		[say.shapes, shapes.length > 0 && inWords(ctx, shapes)],
		[say.leadsTo, skills.length > 0 && inWords(ctx, skills)],
		[say.direction, direction && capital(ctx.words.directions[direction])],
		[say.sides, sides && ctx.words.sides[sides]],
		[say.eachRepetition, contacts && say.contacts(contacts.landings, contacts.hands)],
		[say.alsoCalled, aliases.length > 0 && aliases.join(", ")],
		[say.reviewed, reviewed && html`<time datetime="${reviewed.iso}">${reviewed.words}</time>`],
		[say.writtenIn, html`<code>${file}</code>`],
	]),
)}`;
}
