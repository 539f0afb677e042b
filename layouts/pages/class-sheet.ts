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
	fewerCoaches,
	hallKeys,
	setOutLists,
	stationTimer,
} from "../parts/hall.ts";
import { apparatusIcon, sign } from "../parts/icons.ts";
import type { Nothing } from "../parts/nothing.ts";
import { a, beside, chips, minutesMark, type PageContext, section } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";
import { blockReport, classReport } from "../parts/report.ts";

/** Long: it is the page from top to bottom, and names each field of its view. */
export function classSheetPage(ctx: PageContext, view: ClassSheetView): Html {
	const {
		classId,
		name,
		levels,
		week,
		date,
		dateWords,
		timezone,
		closed,
		start,
		end,
		gymnasts,
		coaches,
		ages,
		warmUp,
		coolDown,
		planned,
		available,
		activeShare,
		still,
		warmUpClock,
		coolDownClock,
		endClock,
		stops,
		// Said by `fewerCoaches`.
		fewer: _fewer,
		setOut,
		skills: _skills,
		findings: found,
		previous,
		next,
		// In `dateWords`.
		day: _day,
		...rest
	} = view;
	rest satisfies Nothing;
	const findings = findingsList(ctx, found);
	const missing = fewerCoaches(ctx.words, view);
	const { words } = ctx;
	const say = words.classSheet;
	const who = [
		words.counts.gymnasts(gymnasts),
		...(coaches === undefined ? [] : [words.counts.coaches(coaches)]),
		...(ages === undefined ? [] : [words.ages(ages[0], ages[1])]),
	];
	const over = available !== undefined && planned > available;
	return html`<p class="eyebrow">${[dateWords, end === "" ? start : `${start}–${end}`].filter((x) => x !== "").join(" · ")}</p>
<h1 data-class="${classId}"${date && html` data-class-date="${date}" data-timezone="${timezone}"`}>${name} <span class="of">${words.ofWeek(week.number)}</span></h1>
<p class="lead">${a(ctx, week.link)}${words.colon}${week.theme}</p>
${chips(ctx, levels)}
<p>${who.join(" · ")} · <span class="${over ? "short" : ""}">${say.planned(planned, available)}</span>${activeShare !== undefined && html` · <span class="${still ? "short" : ""}">${a(ctx, { to: "measures/time/", name: say.moving(words.percent(Math.round(activeShare * 100) / 100)) })}</span>`}</p>
${closed && html`<p class="closed-day"><strong>${say.closedDay}</strong></p>`}
${beside(ctx, previous, next, say.besides(name))}
${hallKeys(ctx, stops)}
<div class="safety usual-box"><p>${sign("caution")}<strong>${say.before}</strong> ${say.beforeRest}</p>${missing && html`<p>${missing}</p>`}</div>
${section(
	"run",
	say.glance,
	html`<ol class="run">
${warmUp > 0 && html`<li data-from="${warmUpClock}"><time>${warmUpClock}</time> <span>${say.warmUp}</span> ${minutesMark(ctx, warmUp)}</li>`}
${stops.map(
	(stop) =>
		html`<li data-from="${stop.clock}"><time>${stop.clock}</time> <a href="#at-${stop.key}">${apparatusIcon(stop.id)} ${stop.name}</a> ${minutesMark(ctx, stop.minutes)}</li>`,
)}
${coolDown > 0 && html`<li data-from="${coolDownClock}"><time>${coolDownClock}</time> <span>${say.coolDown}</span> ${minutesMark(ctx, coolDown)}</li>`}
<li class="end" data-from="${endClock}"><time>${endClock}</time> <span>${say.end}</span></li>
</ol>`,
)}
${setOut.length > 0 && section("set-out", words.setOut.title, setOutLists(ctx, ctx.page.address, setOut))}
${
	stops.length === 0
		? html`<p class="empty">${say.nothing}</p>`
		: stops.map((stop) =>
				section(
					`at-${stop.key}`,
					html`${apparatusIcon(stop.id)} ${stop.name}`,
					html`${carriedList(words, stop)}${stop.focus && html`<p class="focus">${stop.focus}</p>`}
${stop.blocks.map((block) => {
	const id = blockAnchor(stop, block);
	const clock = { from: block.clock, until: block.until };
	const hall = {
		timer: stationTimer(ctx, block, id, stop.name),
		report: blockReport(stop, block),
	};
	return [blockCard(ctx, block, id, clock, hall), blockWays(ctx, stops, stop, block)];
})}`,
				),
			)
}
${stops.length > 0 && classReport(ctx, view)}
${heightsNote(
	ctx,
	stops.flatMap((stop) => stop.blocks),
)}
${findings && section("findings", words.findingsPage.found, findings)}
${printLinks(ctx, [{ file: SHEET_FILES.classSheet(week.id, classId), words: words.prints.classSheet }])}`;
}
