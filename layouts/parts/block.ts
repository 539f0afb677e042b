/**
 * A block of a week's plan in full: its drill, or its stations side by side.
 */

import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { BlockView, Station } from "../../scripts/views/week.ts";
import {
	adaptList,
	criteriaList,
	cueList,
	faultList,
	hasHeights,
	heightsSource,
	levelWays,
	safetyBox,
	setUpList,
} from "./drill-parts.ts";
import { shapeStrip } from "./figures.ts";
import { stationLabel } from "./floor-plan.ts";
import { coachesLine, stationsOrOptions } from "./hall.ts";
import type { Nothing } from "./nothing.ts";
import { a, fold, inWords, minutesMark, type PageContext } from "./page.ts";

/** What a class sheet adds to a block. */
export interface BlockInHall {
	readonly timer: Html | undefined;
	/** Where the coach says what came of it. */
	readonly report?: Html;
}

/** `id` is the anchor; `clock` stands beside the block on a class sheet. */
export function blockCard(
	ctx: PageContext,
	block: BlockView,
	id: string,
	clock?: { readonly from: string; readonly until: string },
	hall?: BlockInHall,
	plan?: Html,
): Html {
	const { number, kind, minutes, change, show, choose, note, coaches, levels, stations, ...rest } = block;
	rest satisfies Nothing;
	const [first] = stations;
	const several = stations.length > 1;
	const say = ctx.words.block;
	const coaching = coachesLine(ctx.words, block);
	const isShort = coaches?.present !== undefined && coaches.present < coaches.needed;
	const title =
		first === undefined
			? say.numbered(number)
			: several
				? stationsOrOptions(ctx.words, block)
				: a(ctx, first.drill);
	return html`<article class="block" id="${id}"${hall && raw(` tabindex="-1"`)} aria-labelledby="${id}-title"${clock && html` data-from="${clock.from}" data-until="${clock.until}"`}>
<p class="clock">${clock && html`<time>${clock.from}</time>`}${minutesMark(ctx, minutes)}</p>
<div class="block-body">
<h3 id="${id}-title">${title}</h3>
${note && html`<p class="note">${note}</p>`}
${levels.length > 0 && html`<p class="small">${say.forLevels(inWords(ctx, levels))}</p>`}
${first === undefined && html`<p>${say.nobody}</p>`}
${several && html`<p class="small">${kind === "options" ? say.choose(choose) : say.rotate(change)}</p>`}
${show > 0 && html`<p class="small">${say.show(show)}</p>`}
${coaching && html`<p class="coaching">${isShort ? html`<strong class="short">${coaching}</strong>` : coaching}</p>`}
${hall?.timer}
${plan}
${hall && several && stationWays(block, id)}
${
	several
		? html`<ol class="stations">${stations.map(
				(station, i) =>
					html`<li id="${stationAnchor(id, i)}"><h4><b>${stationLabel(i)}</b> ${a(ctx, station.drill)}</h4>${stationBody(ctx, station, true)}</li>`,
			)}</ol>`
		: first && stationBody(ctx, first, false)
}
${hall?.report}
</div>
</article>`;
}

/** Straight to each station: a block of four is several screens of a phone. */
function stationWays(block: BlockView, id: string): Html {
	return html`<ul class="chips station-ways">${block.stations.map((station, i) => html`<li><a class="chip" href="#${stationAnchor(id, i)}">${stationLabel(i)}<span class="sr">, ${station.drill.name}</span></a></li>`)}</ul>`;
}

function stationAnchor(id: string, i: number): string {
	return `${id}-station-${i + 1}`;
}

/** Where the heights of these blocks come from; nothing where none is shown. */
export function heightsNote(ctx: PageContext, blocks: readonly BlockView[]): Html | undefined {
	const shown = blocks.some(({ stations }) => stations.some(({ core }) => hasHeights(core.setUp)));
	return shown ? heightsSource(ctx) : undefined;
}

function stationBody(ctx: PageContext, station: Station, timed: boolean): Html {
	const {
		note,
		minutes,
		gymnasts,
		turns,
		wait,
		fits,
		core: {
			levels,
			cues,
			faults,
			setUp,
			safety,
			adapt,
			criteria,
			figures,
			// In the heading, which leads to the drill.
			id: _id,
			title: _title,
			// One level's figures stand for all here.
			strips: _strips,
			...coreRest
		},
		drill: _drill,
		// On the drill's page.
		summary: _summary,
		...rest
	} = station;
	rest satisfies Nothing;
	coreRest satisfies Nothing;
	const say = ctx.words.block;
	const { setUp: setUpTitle, watchFor } = ctx.words.drill;
	const group = [
		...(timed
			? minutes.map(({ levels: those, minutes: each }) =>
					minutes.length === 1 ? say.minEach(each) : say.minFor(each, those.map((l) => l.name).join(", ")),
				)
			: []),
		...(gymnasts === undefined ? [] : [say.here(gymnasts)]),
		...(turns === undefined ? [] : [say.turnsEach(turns)]),
		...(wait === undefined || wait === 0 ? [] : [say.wait(wait)]),
	];
	const folds = [
		folded(watchFor, faultList(ctx, faults, false), true),
		folded(setUpTitle, setUpList(ctx, setUp), true),
		folded(say.easierHarder, adaptList(ctx, adapt)),
		folded(ctx.words.skills.criteria, criteriaList(ctx, criteria)),
	].filter((one) => one !== undefined);
	return html`${note && html`<p class="note">${note}</p>`}
${group.length > 0 && html`<p class="small">${group.join(" · ")}</p>`}
${shapeStrip(ctx, figures)}
${levelWays(ctx, levels)}
${fits && html`<p class="fits"><strong class="short">${say.fits(fits.planned, fits.fits, fits.turns)}</strong></p>`}
${cueList(cues)}
${safetyBox(ctx, safety)}
${folds.length > 0 && html`<div class="folds">${folds}</div>`}`;
}

function folded(title: string, body: Html | undefined, open = false): Html | undefined {
	return body && fold(title, body, open);
}
