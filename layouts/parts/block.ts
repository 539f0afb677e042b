/**
 * A block of a week's plan in full: its drill, or its stations side by side.
 */

import { type Html, html, raw } from "../../scripts/render/html.ts";
import type { BlockView, Station } from "../../scripts/render/views/week.ts";
import { counted, shortNumber } from "../../scripts/render/views/words.ts";
import {
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
import { a, fold, inWords, type PageContext } from "./page.ts";

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
	const title =
		first === undefined
			? `Block ${block.number}`
			: several
				? `${block.stations.length} stations`
				: a(ctx, first.drill);
	return html`<article class="block" id="${id}"${hall && raw(` tabindex="-1"`)} aria-labelledby="${id}-title"${clock && html` data-from="${clock.from}" data-until="${clock.until}"`}>
<p class="clock">${clock && html`<time>${clock.from}</time>`}<span class="minutes"><b>${shortNumber(block.minutes)}</b> min</span></p>
<div class="block-body">
<h3 id="${id}-title">${title}</h3>
${block.note && html`<p class="note">${block.note}</p>`}
${block.levels.length > 0 && html`<p class="small">For ${inWords(ctx, block.levels)}</p>`}
${first === undefined && html`<p>No level here does this block.</p>`}
${several && html`<p class="small">Rotate; ${shortNumber(block.change)} min for each change.</p>`}
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
export function heightsNote(blocks: readonly BlockView[]): Html | undefined {
	const shown = blocks.some(({ stations }) => stations.some(({ core }) => hasHeights(core.setUp)));
	return shown ? heightsSource() : undefined;
}

function stationBody(ctx: PageContext, station: Station, timed: boolean): Html {
	const { core } = station;
	const setUp = setUpList(ctx, core.setUp);
	const faults = faultList(core.faults);
	const group = [
		...(timed
			? station.minutes.map(({ levels, minutes }) =>
					station.minutes.length === 1
						? `${shortNumber(minutes)} min each`
						: `${shortNumber(minutes)} min for ${levels.map((l) => l.name).join(", ")}`,
				)
			: []),
		...(station.gymnasts === undefined ? [] : [`${counted(station.gymnasts, "gymnast")} here`]),
		...(station.turns === undefined ? [] : [`about ${counted(station.turns, "turn")} each`]),
		...(station.wait === undefined || station.wait === 0
			? []
			: [`${shortNumber(station.wait)} s between turns`]),
	];
	return html`${station.note && html`<p class="note">${station.note}</p>`}
${group.length > 0 && html`<p class="small">${group.join(" · ")}</p>`}
${shapeStrip(ctx, core.figures)}
${levelWays(ctx, core.levels)}
${cueList(core.cues)}
${safetyBox(ctx, core.safety)}
${
	(setUp !== undefined || faults !== undefined) &&
	html`<div class="folds">${faults && fold("Watch for", faults, true)}${setUp && fold("Set-up", setUp, true)}</div>`
}`;
}
