/**
 * The class sheet: one class in one week on the two sides of one leaf, for a coach who has five minutes.
 *
 * First what saves lives and minutes: the clock, what to set out, whom to call. Then every station in
 * the order of the rotation. What has to make room does so in order of importance: space and type, down
 * to what can be read at arm's length, then the figures, then all but the first fault of a drill; cues,
 * doses, spotting and caution never. What still does not fit one leaf is shown whole, on further ones.
 */

import type { ClubClass, Id, WeekPlan } from "../../scripts/model.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import type { SetOut } from "../../scripts/views/set-out.ts";
import {
	type ClassSheetView,
	type ClassStop,
	classSheetView,
	type Station,
} from "../../scripts/views/week.ts";
import type { Words } from "../../scripts/words/words.ts";
import { stationLabel } from "../parts/floor-plan.ts";
import { carriedList, coachesLine, stationsOrOptions, stopName } from "../parts/hall.ts";
import { drawnApparatus, drawnSign } from "../parts/icons.ts";
import type { SheetPiece, SheetStep } from "./sheet-file.ts";
import {
	figureStrip,
	pouredPiece,
	type SheetMaker,
	safetyLines,
	safetyOfDrill,
	stepsFrom,
	wordsOfDrill,
} from "./side.ts";

/** From roomy to tight; in the tightest, less is shown. None is smaller than 8.5 pt: what needs more room gets a further leaf. */
const STEPS: readonly SheetStep[] = [
	...stepsFrom(1.24, 0.96),
	{ scale: 0.945, detail: 3 },
	{ scale: 0.945, detail: 2 },
	{ scale: 0.945, detail: 1 },
];

/** The leaf of a class in a week. */
export function classLeaf(maker: SheetMaker, week: WeekPlan, group: ClubClass): SheetPiece {
	const { words } = maker.site;
	const view = classSheetView(maker.site, week, group);
	const when = [view.dateWords, hours(view)].filter((part) => part !== "").join(" · ");
	const ofWeek = words.ofWeek(week.week);
	const title = `${view.name}, ${ofWeek}`;
	return {
		title,
		label: words.pageLabels.inWeek(view.name, week.week),
		html: pouredPiece(maker, {
			kind: "class-leaf",
			bound: true,
			head: headOf(maker, view, when),
			again: html`<header class="again"><b>${view.name}</b> ${ofWeek} <span>${when}</span></header><p class="on"></p>`,
			items: [...view.stops.flatMap((stop) => stopItems(words, view, stop)), endItem(words, view)],
			columns: 2,
		}),
		most: 2,
		leaves: true,
		steps: STEPS,
		words: [title.replace(",", ""), ...mustHave(maker, view)],
		safety: safetyOf(maker, view),
		place: week.source.place(["apparatus"]),
	};
}

function hours({ start, end }: Pick<ClassSheetView, "start" | "end">): string {
	return end === "" ? start : `${start}–${end}`;
}

function headOf({ site: { words, curriculum } }: SheetMaker, view: ClassSheetView, when: string): Html {
	const who = [
		words.counts.gymnasts(view.gymnasts),
		...(view.coaches === undefined ? [] : [words.counts.coaches(view.coaches)]),
		...(view.ages === undefined ? [] : [words.ages(...view.ages)]),
		view.levels.map(({ name }) => name).join(", "),
	];
	const { emergency } = curriculum.club;
	const { classLeaf: say, classSheet: said } = words;
	return html`<header class="head"><p class="when">${when}</p><h1>${view.name} <span>${words.ofWeek(view.week.number)}</span></h1>
<p class="theme">${view.week.theme}</p><p class="who">${who.join(" · ")} · ${said.planned(view.planned, view.available)}</p></header>
${view.closed && html`<p class="closed"><b>${said.closedDay}</b></p>`}
<ol class="clock">${view.warmUp > 0 && clockStop(words, view.warmUpClock, say.gather, view.warmUp)}${view.stops.map(
		(stop) =>
			html`<li><time>${stop.clock}</time><b>${drawnApparatus(stop.id)} ${stopName(words, stop)}</b><span>${words.min(stop.minutes)}</span></li>`,
	)}${view.coolDown > 0 && clockStop(words, view.coolDownClock, said.coolDown, view.coolDown)}<li class="end"><time>${view.endClock}</time><b>${said.end}</b></li></ol>
<div class="first"><p>${drawnSign("caution")}<b>${said.before}</b> ${say.before}</p>${emergency !== undefined && html`<p>${drawnSign("about")}<b>${words.sheets.emergency}</b> ${emergency}</p>`}</div>
${view.setOut.length > 0 && html`<section class="set-out"><h2>${words.setOut.title}</h2>${view.setOut.map((one) => setOutLine(words, one))}</section>`}`;
}

function clockStop(words: Words, clock: string, what: string, minutes: number): Html {
	return html`<li class="quiet"><time>${clock}</time><b>${what}</b><span>${words.min(minutes)}</span></li>`;
}

/** An apparatus's props, by where they are kept: the walk to the store room is made once. */
function setOutLine(words: Words, { apparatus, items }: SetOut): Html {
	const places = Map.groupBy(items, ({ stored }) => stored ?? "");
	return html`<p><b class="at" data-before="${words.classLeaf.setOut}">${apparatus.name}</b> ${Array.from(places, ([stored, own], i) => html`${i > 0 && words.semicolon}${own.map(({ name, needed }, j) => html`${j > 0 && ", "}<span class="keep"><b>${words.number(needed)}</b> ${name}</span>`)}${stored !== "" && html` <i>(${stored})</i>`}`)}</p>`;
}

/** The first station of a stop carries its head, the first of a block the block's. */
function stopItems(words: Words, view: ClassSheetView, stop: ClassStop): readonly Html[] {
	const head = html`<h2 class="stop"><time>${stop.clock}</time> ${drawnApparatus(stop.id)} ${stopName(words, stop)} <span>${words.min(stop.minutes)}</span></h2>${carriedList(words, stop)}${stop.focus && html`<p class="focus">${stop.focus}</p>`}`;
	return stop.blocks.flatMap((block, i) => {
		const several = block.stations.length > 1;
		// A class shares itself out evenly, so that every station of a block has the same.
		const [each] = block.stations;
		const shared = [
			stationsOrOptions(words, block),
			...(each?.minutes[0] === undefined ? [] : [words.block.minEach(each.minutes[0].minutes)]),
			...(each?.gymnasts === undefined ? [] : [words.classLeaf.atEach(each.gymnasts)]),
			block.kind === "options" ? words.block.choose(block.choose) : words.sheets.toChange(block.change),
		];
		const coaching = coachesLine(words, block);
		const blockHead = html`<p class="block"><time>${block.clock}–${block.until}</time> <b>${words.min(block.minutes)}</b>${several && ` · ${shared.join(", ")}`}</p>${coaching && html`<p class="coaching">${coaching}</p>`}${block.note && html`<p class="note">${block.note}</p>`}`;
		return block.stations.map(
			(station, j) =>
				html`<div class="item"${(i > 0 || j > 0) && html` data-on="${words.classLeaf.goesOn(stop.apparatus.name)}"`}>${i === 0 && j === 0 && head}${j === 0 && blockHead}${drillItem(words, view, station, several ? stationLabel(j) : undefined)}</div>`,
		);
	});
}

function drillItem(words: Words, view: ClassSheetView, station: Station, number: string | undefined): Html {
	const { classLeaf: say, drill: said } = words;
	const { core } = station;
	const severalLevels = view.levels.length > 1;
	const { turns: each } = core.setUp;
	const turns = [
		...(station.turns === undefined ? [] : [say.turnsEach(station.turns)]),
		...each.map(({ seconds, atOnce, levels }) => `${namesBefore(words, levels)}${say.turn(seconds, atOnce)}`),
	];
	const { fits } = station;
	const { easier, harder } = core.adapt;
	return html`<article class="drill"><h3>${number !== undefined && html`<span class="no">${number}</span>`}${station.drill.name}</h3>
<div class="strip">${figureStrip(words, core.figures)}</div>
${station.note && html`<p class="note">${station.note}</p>`}
${core.levels.map(({ level, how, dose }) => html`<p class="way">${severalLevels && html`<b>${level.name}${words.colon.trimEnd()}</b> `}${how ?? said.asDescribed}${dose !== "" && html` <b class="dose">${dose}</b>`}</p>`)}
${fits && html`<p class="fits"><b>${words.block.fits(fits.planned, fits.fits, fits.turns)}</b></p>`}
${core.cues.length > 0 && html`<ul class="cues">${core.cues.map((cue) => html`<li>${cue}</li>`)}</ul>`}
${core.faults.map((fault, i) => html`<p class="look${i > 0 && " more"}"><b>${said.see}</b> ${fault.see} <b>${said.say}</b> ${fault.say}</p>`)}
${adaptLine(said.easier, easier)}${adaptLine(said.harder, harder)}${core.criteria.map(({ skill, lines }) => adaptLine(words.sheets.seenOf(skill.name), lines))}${safetyLines(words, core.safety)}
<p class="props">${propsOf(words, station)}${turns.length > 0 && html`<span>${turns[0]}${turns.slice(1).map((more) => html`<span class="turn">, ${more}</span>`)}</span>`}</p></article>`;
}

function adaptLine(name: string, lines: readonly Html[]): Html | undefined {
	if (lines.length === 0) return undefined;
	return html`<p class="look adapt"><b>${name}</b> ${lines.map((line, i) => html`${i > 0 && " · "}${line}`)}</p>`;
}

function propsOf(words: Words, { core }: Station): Html {
	const { classLeaf: say } = words;
	const { equipment, heights } = core.setUp;
	return html`${equipment.map(({ item, count, per, levels }, i) => html`${i > 0 && ", "}${namesBefore(words, levels)}${per === "gymnast" ? say.propsEach(count, item.name) : say.props(count, item.name)}`)}${equipment.length > 0 && ". "}${heights.map(
		({ what, landmark, levels, ranges: [range] }) =>
			html`${say.height(levels.length === 0 ? what : `${what} (${levels.map(({ name }) => name).join(", ")})`, landmark, range && [Math.round(range.low), Math.round(range.high)])} `,
	)}`;
}

function endItem({ classLeaf: say, classSheet }: Words, view: ClassSheetView): Html {
	return html`<div class="item last">${view.coolDown > 0 && html`<p class="block"><time>${view.coolDownClock}–${view.endClock}</time> ${say.putBack(html`<b>${classSheet.coolDown}</b>`)}</p>`}<p class="left-out">${say.leftOut}</p></div>`;
}

function namesBefore(words: Words, levels: readonly Link[]): string {
	return levels.length === 0 ? "" : `${levels.map(({ name }) => name).join(", ")}${words.colon}`;
}

function levelsOf({ core }: Station): readonly Id[] {
	return core.levels.map(({ level }) => level.to.split("/")[1] ?? "");
}

/** Taken from the club's own records, not from the markup. */
function mustHave(maker: SheetMaker, view: ClassSheetView): readonly string[] {
	return view.stops.flatMap((stop) => [
		`${stop.clock} ${stopName(maker.site.words, stop)}`,
		...stop.blocks.flatMap((block) =>
			block.stations.flatMap((station) =>
				wordsOfDrill(maker, station.core.id, levelsOf(station), Number.POSITIVE_INFINITY, block.written),
			),
		),
	]);
}

function safetyOf(maker: SheetMaker, view: ClassSheetView): readonly string[] {
	const { emergency } = maker.site.curriculum.club;
	return [
		...(emergency === undefined ? [] : [emergency]),
		...view.stops.flatMap(({ blocks }) =>
			blocks.flatMap(({ stations }) =>
				stations.flatMap((one) => safetyOfDrill(maker, one.core.id, levelsOf(one))),
			),
		),
	];
}
