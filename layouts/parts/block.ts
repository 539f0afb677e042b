/**
 * A block of a week's plan in full: its drill, or its stations side by side.
 */

import { type Html, html, raw } from "../../scripts/render/html.ts";
import type { BlockView, Station } from "../../scripts/render/views/week.ts";
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
import { a, fold, inWords, minutesMark, type PageContext } from "./page.ts";

/** What a class sheet adds to a block. */
export interface BlockInHall {
	readonly timer: Html | undefined;
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
	const [first] = block.stations;
	const several = block.stations.length > 1;
	const say = ctx.words.block;
	const coaching = coachesLine(ctx.words, block);
	const isShort = block.coaches?.present !== undefined && block.coaches.present < block.coaches.needed;
	const title =
		first === undefined
			? say.numbered(block.number)
			: several
				? stationsOrOptions(ctx.words, block)
				: a(ctx, first.drill);
	return html`<article class="block" id="${id}"${hall && raw(` tabindex="-1"`)} aria-labelledby="${id}-title"${clock && html` data-from="${clock.from}" data-until="${clock.until}"`}>
<p class="clock">${clock && html`<time>${clock.from}</time>`}${minutesMark(ctx, block.minutes)}</p>
<div class="block-body">
<h3 id="${id}-title">${title}</h3>
${block.note && html`<p class="note">${block.note}</p>`}
${block.levels.length > 0 && html`<p class="small">${say.forLevels(inWords(ctx, block.levels))}</p>`}
${first === undefined && html`<p>${say.nobody}</p>`}
${several && html`<p class="small">${block.kind === "options" ? say.choose(block.choose) : say.rotate(block.change)}</p>`}
${block.show > 0 && html`<p class="small">${say.show(block.show)}</p>`}
${coaching && html`<p class="coaching">${isShort ? html`<strong class="short">${coaching}</strong>` : coaching}</p>`}
${hall?.timer}
${plan}
${hall && several && stationWays(block, id)}
${
	several
		? html`<ol class="stations">${block.stations.map(
				(station, i) =>
					html`<li id="${stationAnchor(id, i)}"><h4><span class="station-no">${stationLabel(i)}</span> ${a(ctx, station.drill)}</h4>${stationBody(ctx, station, true)}</li>`,
			)}</ol>`
		: first && stationBody(ctx, first, false)
}
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
	const { core } = station;
	const say = ctx.words.block;
	const setUp = setUpList(ctx, core.setUp);
	const faults = faultList(ctx, core.faults, false);
	const adapt = adaptList(ctx, core.adapt);
	const criteria = criteriaList(ctx, core.criteria);
	const group = [
		...(timed
			? station.minutes.map(({ levels, minutes }) =>
					station.minutes.length === 1
						? say.minEach(minutes)
						: say.minFor(minutes, levels.map((l) => l.name).join(", ")),
				)
			: []),
		...(station.gymnasts === undefined ? [] : [say.here(station.gymnasts)]),
		...(station.turns === undefined ? [] : [say.turnsEach(station.turns)]),
		...(station.wait === undefined || station.wait === 0 ? [] : [say.wait(station.wait)]),
	];
	return html`${station.note && html`<p class="note">${station.note}</p>`}
${group.length > 0 && html`<p class="small">${group.join(" · ")}</p>`}
${shapeStrip(ctx, core.figures)}
${levelWays(ctx, core.levels)}
${station.fits && html`<p class="fits"><strong class="short">${say.fits(station.fits.planned, station.fits.fits, station.fits.turns)}</strong></p>`}
${cueList(core.cues)}
${safetyBox(ctx, core.safety)}
${
	(setUp ?? faults ?? adapt ?? criteria) !== undefined &&
	html`<div class="folds">${faults && fold(ctx.words.drill.watchFor, faults, true)}${setUp && fold(ctx.words.drill.setUp, setUp, true)}${adapt && fold(say.easierHarder, adapt)}${criteria && fold(ctx.words.skills.criteria, criteria)}</div>`
}`;
}
