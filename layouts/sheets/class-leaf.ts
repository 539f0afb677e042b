/**
 * The class sheet: one class in one week on the two sides of one leaf, for a coach who has five minutes.
 *
 * First what saves lives and minutes: the clock, what to set out, whom to call. Then every station in
 * the order of the rotation. What has to make room does so in order of importance: space and type, then
 * the figures, then all but the first fault of a drill; cues, doses, spotting and caution never.
 */

import type { ClubClass, WeekPlan } from "../../scripts/model.ts";
import type { SheetPiece, SheetStep } from "../../scripts/print/sheet-file.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import type { SetOut } from "../../scripts/render/views/set-out.ts";
import {
	type ClassSheetView,
	type ClassStop,
	classSheetView,
	type Station,
} from "../../scripts/render/views/week.ts";
import { counted, shortNumber } from "../../scripts/render/views/words.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { stationLabel } from "../parts/floor-plan.ts";
import { apparatusIcon, sign } from "../parts/icons.ts";
import { figureStrip, pouredPiece, type SheetMaker, safetyLines, stepsFrom, wordsOfDrill } from "./side.ts";

const WORDS = {
	before:
		"Check the set-up and the matting, count the group, keep those who wait clear of landings. Spot only what you are trained to spot.",
	leftOut:
		"To fit this leaf, only the first thing to look for is printed for each drill; the rest is on the drill's card.",
} as const;

/** From roomy to tight, 5.7 pt; in the tightest, less is shown. */
const STEPS: readonly SheetStep[] = [
	...stepsFrom(1.24, 0.88),
	{ scale: 0.88, detail: 2 },
	{ scale: 0.84, detail: 2 },
	{ scale: 0.8, detail: 2 },
	{ scale: 0.8, detail: 1 },
	{ scale: 0.76, detail: 1 },
	{ scale: 0.73, detail: 1 },
	{ scale: 0.73, detail: 0 },
	{ scale: 0.7, detail: 0 },
	{ scale: 0.67, detail: 0 },
	{ scale: 0.65, detail: 0 },
	{ scale: 0.63, detail: 0 },
];

/** The leaf of a class in a week. */
export function classLeaf(maker: SheetMaker, week: WeekPlan, group: ClubClass): SheetPiece {
	const view = classSheetView(maker.site, week, group);
	const when = [view.dateWords, hours(view)].filter((words) => words !== "").join(" · ");
	const title = `${view.name}, week ${week.week}`;
	return {
		title,
		label: `${view.name} W${week.week}`,
		html: pouredPiece(maker, {
			kind: "class-leaf",
			bound: true,
			head: headOf(maker, view, when),
			again: html`<header class="again"><b>${view.name}</b> week ${week.week} <span>${when}</span></header>`,
			items: [...view.stops.flatMap((stop) => stopItems(view, stop)), endItem(view)],
			columns: 2,
		}),
		most: 2,
		steps: STEPS,
		words: [title.replace(",", ""), ...mustHave(maker, view)],
		place: week.source.place(["apparatus"]),
	};
}

function hours({ start, end }: Pick<ClassSheetView, "start" | "end">): string {
	return end === "" ? start : `${start}–${end}`;
}

function headOf({ site }: SheetMaker, view: ClassSheetView, when: string): Html {
	const who = [
		counted(view.gymnasts, "gymnast"),
		...(view.coaches === undefined ? [] : [counted(view.coaches, "coach", "coaches")]),
		...(view.ages === undefined ? [] : [`ages ${view.ages[0]} to ${view.ages[1]}`]),
		view.levels.map(({ name }) => name).join(", "),
	];
	const { emergency } = site.curriculum.club;
	return html`<header class="head"><p class="when">${when}</p><h1>${view.name} <span>week ${view.week.number}</span></h1>
<p class="theme">${view.week.theme}</p><p class="who">${who.join(" · ")} · planned ${shortNumber(view.planned)}${view.available !== undefined && ` of ${shortNumber(view.available)}`} min</p></header>
${view.closed && html`<p class="closed"><b>The club is closed on this day.</b></p>`}
<ol class="clock">${view.warmUp > 0 && clockStop(view.warmUpClock, "Gather", view.warmUp)}${view.stops.map(
		(stop) =>
			html`<li><time>${stop.clock}</time><b>${apparatusIcon(stop.id, stop.apparatus.name)} ${stop.apparatus.name}</b><span>${shortNumber(stop.minutes)} min</span></li>`,
	)}${view.coolDown > 0 && clockStop(view.coolDownClock, "Cool down", view.coolDown)}<li class="end"><time>${view.endClock}</time><b>End</b></li></ol>
<div class="first"><p>${sign("caution")}<b>Before you start.</b> ${WORDS.before}</p>${emergency !== undefined && html`<p>${sign("about")}<b>In an emergency.</b> ${emergency}</p>`}</div>
${view.setOut.length > 0 && html`<section class="set-out"><h2>Set out</h2>${view.setOut.map(setOutLine)}</section>`}`;
}

function clockStop(clock: string, words: string, minutes: number): Html {
	return html`<li class="quiet"><time>${clock}</time><b>${words}</b><span>${shortNumber(minutes)} min</span></li>`;
}

/** An apparatus's props, by where they are kept: the walk to the store room is made once. */
function setOutLine({ apparatus, items }: SetOut): Html {
	const places = Map.groupBy(items, ({ stored }) => stored ?? "");
	return html`<p><b class="at">${apparatus.name}</b> ${Array.from(places, ([stored, own], i) => html`${i > 0 && "; "}${own.map(({ name, needed }, j) => html`${j > 0 && ", "}<span class="keep"><b>${needed}</b> ${name}</span>`)}${stored !== "" && html` <i>(${stored})</i>`}`)}</p>`;
}

/** The first station of a stop carries its head, the first of a block the block's. */
function stopItems(view: ClassSheetView, stop: ClassStop): readonly Html[] {
	const head = html`<h2 class="stop"><time>${stop.clock}</time> ${apparatusIcon(stop.id, stop.apparatus.name)} ${stop.apparatus.name} <span>${shortNumber(stop.minutes)} min</span></h2>${stop.focus && html`<p class="focus">${stop.focus}</p>`}`;
	if (stop.blocks.length === 0) {
		return [html`<div class="item">${head}<p>No block here is for this class's levels.</p></div>`];
	}
	return stop.blocks.flatMap((block, i) => {
		const several = block.stations.length > 1;
		// A class shares itself out evenly, so that every station of a block has the same.
		const [each] = block.stations;
		const shared = [
			counted(block.stations.length, "station"),
			...(each?.minutes[0] === undefined ? [] : [`${shortNumber(each.minutes[0].minutes)} min each`]),
			...(each?.gymnasts === undefined ? [] : [`${counted(each.gymnasts, "gymnast")} at each`]),
			`${shortNumber(block.change)} min to change`,
		];
		const blockHead = html`<p class="block"><time>${block.clock}–${block.until}</time> <b>${shortNumber(block.minutes)} min</b>${several && ` · ${shared.join(", ")}`}</p>${block.note && html`<p class="note">${block.note}</p>`}`;
		return block.stations.map(
			(station, j) =>
				html`<div class="item">${i === 0 && j === 0 && head}${j === 0 && blockHead}${drillItem(view, station, several ? stationLabel(j) : undefined)}</div>`,
		);
	});
}

function drillItem(view: ClassSheetView, station: Station, number: string | undefined): Html {
	const { core } = station;
	const severalLevels = view.levels.length > 1;
	const { turn } = core.setUp;
	const turns = [
		...(station.turns === undefined ? [] : [`About ${counted(station.turns, "turn")} each`]),
		...(turn === undefined
			? []
			: [`${shortNumber(turn.seconds)} s a turn, ${counted(turn.atOnce, "gymnast")} at a time`]),
	];
	return html`<article class="drill"><h3>${number !== undefined && html`<span class="no">${number}</span>`}${station.drill.name}</h3>
<div class="strip">${figureStrip(core.figures)}</div>
${station.note && html`<p class="note">${station.note}</p>`}
${core.levels.map(({ level, how, dose }) => html`<p class="way">${severalLevels && html`<b>${level.name}:</b> `}${how ?? "As described."}${dose !== "" && html` <b class="dose">${dose}</b>`}</p>`)}
${core.cues.length > 0 && html`<ul class="cues">${core.cues.map((cue) => html`<li>${cue}</li>`)}</ul>`}
${core.faults.map(({ see, say }, i) => html`<p class="look${i > 0 && " more"}"><b>See</b> ${see} <b>Say</b> ${say}</p>`)}
${safetyLines(core.safety)}
<p class="props">${propsOf(station)}${turns.length > 0 && html`<span>${turns[0]}${turns.slice(1).map((words) => html`<span class="turn">, ${words}</span>`)}</span>`}</p></article>`;
}

function propsOf({ core }: Station): Html {
	const { equipment, heights } = core.setUp;
	return html`${equipment.map(({ item, count, per }, i) => html`${i > 0 && ", "}${count} ${item.name}${per === "gymnast" && " each"}`)}${equipment.length > 0 && ". "}${heights.map(
		({ what, landmark, ranges }) =>
			html`${what} at ${wordsFor("en").landmarks[landmark]}${ranges[0] !== undefined && ` (${Math.round(ranges[0].low)}–${Math.round(ranges[0].high)} cm)`}. `,
	)}`;
}

function endItem(view: ClassSheetView): Html {
	return html`<div class="item last">${view.coolDown > 0 && html`<p class="block"><time>${view.coolDownClock}–${view.endClock}</time> <b>Cool down</b>, count the group, put everything back.</p>`}<p class="left-out">${WORDS.leftOut}</p></div>`;
}

/** Taken from the club's own records, not from the markup. */
function mustHave(maker: SheetMaker, view: ClassSheetView): readonly string[] {
	const { emergency } = maker.site.curriculum.club;
	return [
		...(emergency === undefined ? [] : [emergency]),
		...view.stops.flatMap((stop) => [
			`${stop.clock} ${stop.apparatus.name}`,
			...stop.blocks.flatMap((block) =>
				block.stations.flatMap((station) =>
					wordsOfDrill(
						maker,
						station.core.id,
						station.core.levels.map(({ level }) => level.to.split("/")[1] ?? ""),
					),
				),
			),
		]),
	];
}
