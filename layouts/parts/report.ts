/**
 * Where a coach says what came of a class: a place in each block, and one at the end of the sheet with the
 * skills of the day. Empty and hidden until a program brings them to life; without one there is nothing to
 * tap, since nothing could be kept.
 */

import { markOf } from "../../scripts/records/report.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { SkillOfDay } from "../../scripts/views/reported.ts";
import type { BlockView, ClassSheetView, ClassStop } from "../../scripts/views/week.ts";
import { emergencyKey } from "./emergency.ts";
import { a, type PageContext } from "./page.ts";

/** The place of a block's taps. */
export function blockReport(stop: ClassStop, { number, minutes, stations }: BlockView): Html {
	const mark = markOf(stations.map(({ core }) => core.id));
	const group = stop.key === stop.id ? "" : stop.key.slice(0, -stop.id.length - 1);
	return html`<div class="report" data-apparatus="${stop.id}" data-block="${number}" data-mark="${mark}" data-minutes="${minutes}"${group && html` data-group="${group}"`} hidden></div>`;
}

/** The way to the end of the class, which a program shows. */
export function reportWay(ctx: PageContext, className: string): Html {
	return html`<a class="${className} report-way" href="#taught" hidden>${ctx.words.hall.howItWent}</a>`;
}

/** The end of a class: how it went as a whole, and how many can do what. */
export function classReport(ctx: PageContext, view: ClassSheetView): Html {
	const say = ctx.words.hall;
	const { contact } = ctx.page.frame;
	const mail = contact?.includes("@") ? contact : undefined;
	const last = view.stops.at(-1);
	const drills = view.stops.flatMap(({ blocks }) => blocks).flatMap(({ stations }) => stations);
	const said = new Set(drills.flatMap(({ core }) => core.criteria.map(({ skill }) => skill.to)));
	return html`<section class="part class-end" hidden><article class="block" id="taught" tabindex="-1" aria-labelledby="taught-title" data-week="${view.week.id}"${mail && html` data-mail="${mail}"`}>
<div class="block-body">
<h2 id="taught-title"><span>${say.howItWent}</span></h2>
<p class="small">${say.keptHere}</p>
<div class="report-all"></div>
${
	view.skills.length > 0 &&
	html`<h3>${say.howMany}</h3>
<ul class="can">${view.skills.map((one) => skillItem(ctx, one, said))}</ul>`
}
<div class="report-send" id="taught-send"></div>
</div>
</article>
<nav class="block-ways" aria-label="${say.howItWent}">${emergencyKey(ctx)}<span></span>${last && html`<a class="whole" href="#at-${last.key}"><b>${say.whole}</b></a>`}<a class="next" href="#taught-send"><b>${say.toSend}</b></a></nav></section>`;
}

/** What must be seen of a skill that a drill of the sheet performs is said with the drill: a program shows it here. */
function skillItem(
	ctx: PageContext,
	{ skill, link, group, groupName, gymnasts, criteria }: SkillOfDay,
	said: ReadonlySet<string>,
): Html {
	return html`<li data-skill="${skill}" data-of="${gymnasts}"${group && html` data-group="${group}"`}><h4>${groupName && html`${groupName}${ctx.words.colon}`}${a(ctx, link)}</h4>${criteria.length > 0 && !said.has(link.to) && html`<ul class="small">${criteria.map((line) => html`<li>${line}</li>`)}</ul>`}</li>`;
}
