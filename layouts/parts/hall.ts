/**
 * What a class sheet has for the hall: the way into the view of one block at a time, the timer of a
 * stations block, the list of what to set out.
 *
 * The view of one block is made of anchors alone: a block that the address names stands by itself on
 * the screen, with the ways to the block before and after within reach of the thumb. It needs no
 * program, and the browser's own way back leads back.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { SetOut } from "../../scripts/views/set-out.ts";
import type { BlockView, ClassSheetView, ClassStop } from "../../scripts/views/week.ts";
import { capital } from "../../scripts/views/words.ts";
import type { Words } from "../../scripts/words/words.ts";
import { emergencyKey } from "./emergency.ts";
import { stationLabel } from "./floor-plan.ts";
import { apparatusIcon } from "./icons.ts";
import type { Nothing } from "./nothing.ts";
import type { PageContext } from "./page.ts";
import { reportWay } from "./report.ts";

export function blockAnchor(stop: ClassStop, block: BlockView): string {
	return `block-${stop.key}-${block.number}`;
}

export function hallKeys(ctx: PageContext, stops: readonly ClassStop[]): Html {
	const say = ctx.words.hall;
	const [first] = inOrder(ctx, stops);
	return html`<p class="hall-keys">${first && html`<a class="button one-block" href="#${first.anchor}">${say.blockByBlock}</a>`}
<button class="button type-switch" type="button" hidden>${ctx.words.frame.largeType}</button>${first && reportWay(ctx, "button")}</p>`;
}

/** How many stations a block has, or how many options to choose from. */
export function stationsOrOptions(words: Words, block: BlockView): string {
	const { length } = block.stations;
	return block.kind === "options" ? words.block.options(length) : words.counts.stations(length);
}

/** What is carried to an apparatus at the change, and what cannot be; nothing where all of it stands. */
export function carriedList(words: Words, { carried, missing }: ClassStop): Html | undefined {
	if (carried.length === 0 && missing.length === 0) return undefined;
	const say = words.setOut;
	return html`<ul class="carried">${carried.map(
		({ count, item, from, clock, adults }) => html`<li>${say.carry(count, item, from, clock, adults)}</li>`,
	)}${missing.map(({ count, item }) => html`<li><strong class="short">${say.missing(count, item)}</strong></li>`)}</ul>`;
}

/** Who stands where in a block, in a sentence or two; what is needed, where there are too few. */
export function coachesLine(words: Words, block: BlockView): string | undefined {
	const { coaches, stations } = block;
	if (coaches === undefined) return undefined;
	const say = words.block;
	const { places, alone, present, needed, hands, watched } = coaches;
	if (present === undefined) return say.coachesAsked(needed, hands, watched);
	if (present < needed) return say.coachesShort(needed, hands, watched, present);
	const named = (those: readonly number[]): readonly string[] => those.map(stationLabel);
	const isAlone = !places.some(({ does }) => does === "walks");
	return [
		...places.map(({ coach, does, stations: those }) =>
			stations.length === 1 ? say.coachHere[does](coach) : say.coachAt[does](coach, named(those)),
		),
		...(isAlone && alone.length > 0 && block.kind !== "options" ? [say.alone(named(alone))] : []),
	].join(" ");
}

/** What is left out with one coach fewer than planned; nothing where nothing is. */
export function fewerCoaches(words: Words, { fewer }: ClassSheetView): Html | undefined {
	if (fewer.length === 0) return undefined;
	const say = words.fewerCoaches;
	return html`<b>${say.title}</b> ${say.rules}${fewer.map(({ part, coaches, gymnasts, closed, ...rest }) => {
		rest satisfies Nothing;
		const places = closed.map(({ clock, apparatus, stations }) =>
			say.at(clock, apparatus, stations.map(stationLabel)),
		);
		return html`${part !== undefined && html` <b>${capital(part)}${words.colon.trimEnd()}</b>`}${coaches === 0 && ` ${say.nobody}`}${gymnasts !== undefined && ` ${say.ratio(coaches, gymnasts)}`}${places.length > 0 && ` ${say.leftOut(places)}`}`;
	})}`;
}

/** The ways from a block to the one before, the one after, and back to the whole sheet. */
export function blockWays(
	ctx: PageContext,
	stops: readonly ClassStop[],
	stop: ClassStop,
	block: BlockView,
): Html {
	const say = ctx.words.hall;
	const all = inOrder(ctx, stops);
	const at = all.findIndex(({ anchor }) => anchor === blockAnchor(stop, block));
	const before = all[at - 1];
	const after = all[at + 1];
	return html`<nav class="block-ways" aria-label="${say.fromBlock(at + 1, all.length)}">
${emergencyKey(ctx)}
${before ? html`<a class="prev" href="#${before.anchor}"><span>${say.before}</span><b>${before.title}</b></a>` : html`<span></span>`}
<a class="whole" href="#at-${stop.key}"><span>${say.oneOf(at + 1, all.length)}</span><b>${say.whole}</b></a>
${after ? html`<a class="next" href="#${after.anchor}"><span>${say.next}</span><b>${after.title}</b></a>` : reportWay(ctx, "next")}
</nav>`;
}

/** Every block of the class in the order of the clock. */
function inOrder({ words }: PageContext, stops: readonly ClassStop[]) {
	return stops.flatMap((stop) =>
		stop.blocks.map((block) => {
			const [only] = block.stations;
			const title =
				block.stations.length > 1 || only === undefined
					? `${stop.name}, ${stationsOrOptions(words, block)}`
					: only.drill.name;
			return { anchor: blockAnchor(stop, block), title };
		}),
	);
}

/**
 * The timer of a block with several stations, empty and hidden until a program brings it to life; nothing
 * where the changes leave no time for work. Seconds at a station are the plan's own, not rounded.
 */
export function stationTimer(
	ctx: PageContext,
	block: BlockView,
	anchor: string,
	apparatus: string,
): Html | undefined {
	const { stations, change } = block;
	const say = ctx.words.hall;
	const work = stations[0]?.minutes[0]?.minutes ?? 0;
	if (stations.length < 2 || work <= 0) return undefined;
	return html`<section class="station-timer" id="${anchor}-timer" aria-label="${say.timer(ctx.words.blockAt(apparatus, block.number))}" data-stations="${stations.length}" data-work="${work * 60}" data-change="${change * 60}" hidden></section>`;
}

/** What to set out, by apparatus; a program adds boxes to tick, kept for this sheet on the device. */
export function setOutLists(ctx: PageContext, sheet: string, lists: readonly SetOut[]): Html {
	return html`<div data-ticks="${sheet}">
<div class="set-out">${lists.map(
		({ id, apparatus, items }) => html`<div><h3>${apparatusIcon(id)} ${apparatus.name}</h3>
<ul class="setup">${items.map(
			(item) =>
				html`<li data-tick="${id}/${item.id}"><b>${item.needed}</b> <span>${item.name}${item.stored && html` <span class="small">${item.stored}</span>`}${item.owned !== undefined && item.owned < item.needed && html` <strong class="short">${ctx.words.setOut.owns(item.owned)}</strong>`}</span></li>`,
		)}</ul></div>`,
	)}</div>
<p class="tick-foot" hidden><span class="tick-count" role="status"></span> <button class="button tick-clear" type="button">${ctx.words.setOut.clear}</button></p>
</div>`;
}
