/**
 * What a class sheet has for the hall: the way into the view of one block at a time, the timer of a
 * stations block, the list of what to set out.
 *
 * The view of one block is made of anchors alone: a block that the address names stands by itself on
 * the screen, with the ways to the block before and after within reach of the thumb. It needs no
 * program, and the browser's own way back leads back.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { SetOut } from "../../scripts/render/views/set-out.ts";
import type { BlockView, ClassStop } from "../../scripts/render/views/week.ts";
import { apparatusIcon } from "./icons.ts";

/** The anchor of a block on a class sheet. */
export function blockAnchor(stop: ClassStop, block: BlockView): string {
	return `block-${stop.id}-${block.number}`;
}

/** The keys at the head of a class sheet. */
export function hallKeys(stops: readonly ClassStop[]): Html {
	const [first] = inOrder(stops);
	return html`<p class="hall-keys">${first && html`<a class="button one-block" href="#${first.anchor}">Block by block</a>`}
<button class="button type-switch" type="button" hidden>Large type</button></p>`;
}

/** The ways from a block to the one before, the one after, and back to the whole sheet. */
export function blockWays(stops: readonly ClassStop[], stop: ClassStop, block: BlockView): Html {
	const all = inOrder(stops);
	const at = all.findIndex(({ anchor }) => anchor === blockAnchor(stop, block));
	const before = all[at - 1];
	const after = all[at + 1];
	return html`<nav class="block-ways" aria-label="From block ${at + 1} of ${all.length}">
${before ? html`<a class="prev" href="#${before.anchor}"><span class="way"><span aria-hidden="true">←</span> Before</span><b>${before.title}</b></a>` : html`<span></span>`}
<a class="whole" href="#at-${stop.id}"><span class="way">${at + 1} of ${all.length}</span><b>Whole sheet</b></a>
${after ? html`<a class="next" href="#${after.anchor}"><span class="way">Next <span aria-hidden="true">→</span></span><b>${after.title}</b></a>` : html`<span></span>`}
</nav>`;
}

/** Every block of the class in the order of the clock. */
function inOrder(stops: readonly ClassStop[]) {
	return stops.flatMap((stop) =>
		stop.blocks.map((block) => {
			const [only] = block.stations;
			const title =
				block.stations.length > 1 || only === undefined
					? `${stop.apparatus.name}, ${block.stations.length} stations`
					: only.drill.name;
			return { anchor: blockAnchor(stop, block), title };
		}),
	);
}

/**
 * The timer of a block with several stations, hidden until a program brings it to life; nothing where
 * the changes leave no time for work. Seconds at a station are the plan's own, not rounded.
 */
export function stationTimer(block: BlockView, anchor: string, apparatus: string): Html | undefined {
	const { stations, change } = block;
	const work = stations[0]?.minutes[0]?.minutes ?? 0;
	if (stations.length < 2 || work <= 0) return undefined;
	return html`<section class="station-timer" id="${anchor}-timer" aria-label="Station timer, ${apparatus}, block ${block.number}" data-stations="${stations.length}" data-work="${work * 60}" data-change="${change * 60}" hidden>
<p class="timer-face"><span class="timer-words"></span> <span class="timer-clock"></span></p>
<div class="timer-keys"><button class="timer-go" type="button">Start</button><button class="timer-skip" type="button">Skip</button><button class="timer-reset" type="button">Reset</button><button class="timer-sound" type="button" aria-pressed="false">Sound</button><button class="timer-vibration" type="button" aria-pressed="false">Buzz</button></div>
<p class="timer-status sr" role="status"></p>
</section>`;
}

/** What to set out, by apparatus; a program adds boxes to tick, kept for this sheet on the device. */
export function setOutLists(sheet: string, lists: readonly SetOut[]): Html {
	return html`<div data-ticks="${sheet}">
<div class="set-out">${lists.map(
		({ id, apparatus, items }) => html`<div><h3>${apparatusIcon(id, apparatus.name)} ${apparatus.name}</h3>
<ul class="setup">${items.map(
			(item) =>
				html`<li data-tick="${id}/${item.id}"><span class="count">${item.needed}</span> <span class="thing">${item.name}${item.stored && html` <span class="small">${item.stored}</span>`}${item.owned !== undefined && item.owned < item.needed && html` <strong class="short">the club owns ${item.owned}</strong>`}</span></li>`,
		)}</ul></div>`,
	)}</div>
<p class="tick-foot" hidden><span class="tick-count" role="status"></span> <button class="button tick-clear" type="button">Clear the ticks</button></p>
</div>`;
}
