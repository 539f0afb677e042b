/**
 * The sheet of one class in one week: the rotation in order, with a running clock.
 */

import { SHEET_FILES } from "../../scripts/render/addresses.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import type { ClassSheetView } from "../../scripts/render/views/week.ts";
import { counted, shortNumber } from "../../scripts/render/views/words.ts";
import { blockCard, heightsNote } from "../parts/block.ts";
import { findingsList } from "../parts/findings-list.ts";
import { blockAnchor, blockWays, hallKeys, setOutLists, stationTimer } from "../parts/hall.ts";
import { apparatusIcon, sign } from "../parts/icons.ts";
import { a, beside, chips, type PageContext, section } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";
import { percent } from "../parts/time-table.ts";

/** The page of a class sheet. */
export function classSheetPage(ctx: PageContext, view: ClassSheetView): Html {
	const findings = findingsList(ctx, view.findings);
	const who = [
		counted(view.gymnasts, "gymnast"),
		...(view.coaches === undefined ? [] : [counted(view.coaches, "coach", "coaches")]),
		...(view.ages === undefined ? [] : [`ages ${view.ages[0]} to ${view.ages[1]}`]),
	];
	const over = view.available !== undefined && view.planned > view.available;
	return html`<p class="eyebrow">${[view.dateWords, view.end === "" ? view.start : `${view.start}–${view.end}`].filter((x) => x !== "").join(" · ")}</p>
<h1 data-class="${view.classId}"${view.date && html` data-class-date="${view.date}" data-timezone="${view.timezone}"`}>${view.name} <span class="of">week ${view.week.number}</span></h1>
<p class="lead">${a(ctx, view.week.link)}: ${view.week.theme}</p>
${chips(ctx, view.levels)}
<p>${who.join(" · ")} · <span class="${over ? "short" : ""}">planned ${shortNumber(view.planned)}${view.available !== undefined && html` of ${shortNumber(view.available)}`} min</span>${view.activeShare !== undefined && html` · <a href="${ctx.way("measures/time/")}"><span class="${view.still ? "short" : ""}">moving ${percent(view.activeShare)}</span></a>`}</p>
${view.closed && html`<p class="closed-day"><strong>The club is closed on this day.</strong></p>`}
${beside(ctx, view.previous, view.next, `${view.name} in the weeks before and after`)}
${hallKeys(view.stops)}
${printLinks(ctx, [{ file: SHEET_FILES.classSheet(weekOf(view), view.classId), words: "This sheet on one leaf" }])}
<div class="safety usual-box"><p>${sign("caution")}<strong>Before you start.</strong> Check the set-up and the matting, count the group, and keep waiting gymnasts clear of landings. Spot only what you are trained to spot.</p></div>
${section(
	"run",
	"The class at a glance",
	html`<ol class="run">
${view.warmUp > 0 && html`<li data-from="${view.warmUpClock}"><time>${view.warmUpClock}</time> <span>Gather and warm up</span> <span class="minutes"><b>${shortNumber(view.warmUp)}</b> min</span></li>`}
${view.stops.map(
	(stop) =>
		html`<li data-from="${stop.clock}"><time>${stop.clock}</time> <a href="#at-${stop.id}">${apparatusIcon(stop.id, stop.apparatus.name)} ${stop.apparatus.name}</a> <span class="minutes"><b>${shortNumber(stop.minutes)}</b> min</span></li>`,
)}
${view.coolDown > 0 && html`<li data-from="${view.coolDownClock}"><time>${view.coolDownClock}</time> <span>Cool down</span> <span class="minutes"><b>${shortNumber(view.coolDown)}</b> min</span></li>`}
<li class="end" data-from="${view.endClock}"><time>${view.endClock}</time> <span>End</span></li>
</ol>`,
)}
${view.setOut.length > 0 && section("set-out", "Set out", setOutLists(ctx.page.address, view.setOut))}
${
	view.stops.length === 0
		? html`<p class="empty">Nothing is planned on the apparatus of this class's rotation.</p>`
		: view.stops.map((stop) =>
				section(
					`at-${stop.id}`,
					html`${apparatusIcon(stop.id, stop.apparatus.name)} ${stop.apparatus.name}`,
					html`${stop.focus && html`<p class="focus">${stop.focus}</p>`}
${
	stop.blocks.length === 0
		? html`<p class="empty">No block here is for this class's levels.</p>`
		: stop.blocks.map((block) => {
				const id = blockAnchor(stop, block);
				const clock = { from: block.clock, until: block.until };
				const hall = { timer: stationTimer(block, id, stop.apparatus.name) };
				return [blockCard(ctx, block, id, clock, hall), blockWays(view.stops, stop, block)];
			})
}`,
				),
			)
}
${heightsNote(view.stops.flatMap((stop) => stop.blocks))}
${findings && section("findings", "What the measures find", findings)}`;
}

/** The id of a view's week: its page is named by it. */
function weekOf({ week }: ClassSheetView): string {
	return week.link.to.split("/")[1] ?? "";
}
