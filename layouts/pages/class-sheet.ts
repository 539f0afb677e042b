/**
 * The sheet of one class in one week: the rotation in order, with a running clock.
 */

import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { ClassSheetView } from "../../scripts/views/week.ts";
import { blockCard, heightsNote } from "../parts/block.ts";
import { findingsList } from "../parts/findings-list.ts";
import {
	blockAnchor,
	blockWays,
	carriedList,
	hallKeys,
	setOutLists,
	stationTimer,
	stopName,
} from "../parts/hall.ts";
import { apparatusIcon, sign } from "../parts/icons.ts";
import { a, beside, chips, minutesMark, type PageContext, section } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";

/** The page of a class sheet. */
export function classSheetPage(ctx: PageContext, view: ClassSheetView): Html {
	const findings = findingsList(ctx, view.findings);
	const { words } = ctx;
	const say = words.classSheet;
	const who = [
		words.counts.gymnasts(view.gymnasts),
		...(view.coaches === undefined ? [] : [words.counts.coaches(view.coaches)]),
		...(view.ages === undefined ? [] : [words.ages(view.ages[0], view.ages[1])]),
	];
	const over = view.available !== undefined && view.planned > view.available;
	return html`<p class="eyebrow">${[view.dateWords, view.end === "" ? view.start : `${view.start}–${view.end}`].filter((x) => x !== "").join(" · ")}</p>
<h1 data-class="${view.classId}"${view.date && html` data-class-date="${view.date}" data-timezone="${view.timezone}"`}>${view.name} <span class="of">${words.ofWeek(view.week.number)}</span></h1>
<p class="lead">${a(ctx, view.week.link)}${words.colon}${view.week.theme}</p>
${chips(ctx, view.levels)}
<p>${who.join(" · ")} · <span class="${over ? "short" : ""}">${say.planned(view.planned, view.available)}</span>${view.activeShare !== undefined && html` · <a href="${ctx.way("measures/time/")}"><span class="${view.still ? "short" : ""}">${say.moving(words.percent(Math.round(view.activeShare * 100) / 100))}</span></a>`}</p>
${view.closed && html`<p class="closed-day"><strong>${say.closedDay}</strong></p>`}
${beside(ctx, view.previous, view.next, say.besides(view.name))}
${hallKeys(ctx, view.stops)}
<div class="safety usual-box"><p>${sign("caution")}<strong>${say.before}</strong> ${say.beforeRest}</p></div>
${section(
	"run",
	say.glance,
	html`<ol class="run">
${view.warmUp > 0 && html`<li data-from="${view.warmUpClock}"><time>${view.warmUpClock}</time> <span>${say.warmUp}</span> ${minutesMark(ctx, view.warmUp)}</li>`}
${view.stops.map(
	(stop) =>
		html`<li data-from="${stop.clock}"><time>${stop.clock}</time> <a href="#at-${stop.key}">${apparatusIcon(stop.id)} ${stopName(words, stop)}</a> ${minutesMark(ctx, stop.minutes)}</li>`,
)}
${view.coolDown > 0 && html`<li data-from="${view.coolDownClock}"><time>${view.coolDownClock}</time> <span>${say.coolDown}</span> ${minutesMark(ctx, view.coolDown)}</li>`}
<li class="end" data-from="${view.endClock}"><time>${view.endClock}</time> <span>${say.end}</span></li>
</ol>`,
)}
${view.setOut.length > 0 && section("set-out", words.setOut.title, setOutLists(ctx, ctx.page.address, view.setOut))}
${
	view.stops.length === 0
		? html`<p class="empty">${say.nothing}</p>`
		: view.stops.map((stop) =>
				section(
					`at-${stop.key}`,
					html`${apparatusIcon(stop.id)} ${stopName(words, stop)}`,
					html`${carriedList(words, stop)}${stop.focus && html`<p class="focus">${stop.focus}</p>`}
${stop.blocks.map((block) => {
	const id = blockAnchor(stop, block);
	const clock = { from: block.clock, until: block.until };
	const hall = { timer: stationTimer(ctx, block, id, stopName(words, stop)) };
	return [blockCard(ctx, block, id, clock, hall), blockWays(ctx, view.stops, stop, block)];
})}`,
				),
			)
}
${heightsNote(
	ctx,
	view.stops.flatMap((stop) => stop.blocks),
)}
${findings && section("findings", words.findingsPage.found, findings)}
${printLinks(ctx, [{ file: SHEET_FILES.classSheet(weekOf(view), view.classId), words: words.prints.classSheet }])}`;
}

/** The id of a view's week: its page is named by it. */
function weekOf({ week }: ClassSheetView): string {
	return week.link.to.split("/")[1] ?? "";
}
