/**
 * The class sheet: one class in one week on the two sides of one leaf, for a coach who has five minutes.
 *
 * First what saves lives and minutes: the clock, what to set out, whom to call. Then every station in
 * the order of the rotation. What has to make room does so in order of importance: space and type, down
 * to what can be read at arm's length, then the figures, then all but the first fault of a drill; cues,
 * doses, spotting and caution never. What still does not fit one leaf is shown whole, on further ones.
 */

import { classSheetAddress } from "../../scripts/views/addresses.ts";
import type { DrillCore, LevelText, SetUp } from "../../scripts/views/drill.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { SetOut } from "../../scripts/views/set-out.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import type { ClassSheetView, ClassStop, Station } from "../../scripts/views/week.ts";
import { capital } from "../../scripts/views/words.ts";
import type { Words } from "../../scripts/words/words.ts";
import { cueList, levelText, safetyLines } from "../parts/drill-parts.ts";
import { stationLabel } from "../parts/floor-plan.ts";
import { carriedList, coachesLine, fewerCoaches, stationsOrOptions } from "../parts/hall.ts";
import { drawnApparatus, drawnSign } from "../parts/icons.ts";
import type { Nothing } from "../parts/nothing.ts";
import { pageCode } from "./page-code.ts";
import { figureStrip, inOneLine, inSentence, namesBefore, wayOf } from "./pieces.ts";
import type { Drawn, SheetStep } from "./sheet-file.ts";
import { pouredPiece, stepsFrom } from "./side.ts";

/** From roomy to tight; in the tightest, less is shown. None is smaller than 8.5 pt: what needs more room gets a further leaf. */
const STEPS: readonly SheetStep[] = [
	...stepsFrom(1.24, 0.96),
	{ scale: 0.945, detail: 3 },
	{ scale: 0.945, detail: 2 },
	{ scale: 0.945, detail: 1 },
];

export function classLeaf(facts: SheetFacts, view: ClassSheetView): Drawn {
	const { words } = facts;
	const when = [view.dateWords, hoursOf(view)].filter((part) => part !== "").join(" · ");
	return {
		html: pouredPiece(facts, {
			kind: "class-leaf",
			bound: true,
			head: html`<div class="with-code">${classHead(facts, view, when)}${pageCode(facts, classSheetAddress(view.classId, view.week.id), view.name)}</div>`,
			again: html`<header class="again"><b>${view.name}</b> ${words.ofWeek(view.week.number)} <span>${when}</span></header><p class="on"></p>`,
			items: [
				...view.stops.flatMap((stop) => stopItems(words, stop, view.levels.length > 1)),
				endItem(words, view),
			],
			columns: 2,
		}),
		most: 2,
		leaves: true,
		steps: STEPS,
	};
}

/** From when to when it meets, as far as that is known. */
export function hoursOf({ start, end }: Pick<ClassSheetView, "start" | "end">): string {
	return end === "" ? start : `${start}–${end}`;
}

/** What saves lives and minutes: the clock, what to set out, whom to call. */
export function classHead({ words, emergency }: SheetFacts, view: ClassSheetView, when: string): Html {
	const {
		name,
		levels,
		week,
		closed,
		gymnasts,
		coaches,
		ages,
		warmUp,
		coolDown,
		planned,
		available,
		warmUpClock,
		coolDownClock,
		endClock,
		stops,
		setOut,
		// Said by `fewerCoaches`.
		fewer: _fewer,
		// In `when`.
		day: _day,
		date: _date,
		dateWords: _dateWords,
		start: _start,
		end: _end,
		// For the running clock of the page, and for links.
		classId: _classId,
		timezone: _timezone,
		previous: _previous,
		next: _next,
		// What the director weighs: a substitute coach has five minutes.
		activeShare: _activeShare,
		still: _still,
		findings: _findings,
		// Check sheets ask for them.
		skills: _skills,
		...rest
	} = view;
	rest satisfies Nothing;
	const who = [
		words.counts.gymnasts(gymnasts),
		...(coaches === undefined ? [] : [words.counts.coaches(coaches)]),
		...(ages === undefined ? [] : [words.ages(...ages)]),
		inSentence(levels),
	];
	const { classLeaf: say, classSheet: said } = words;
	return html`<header class="head"><p class="when">${when}</p><h1>${name} <span>${words.ofWeek(week.number)}</span></h1>
<p class="theme">${week.theme}</p><p class="who">${who.join(" · ")} · ${said.planned(planned, available)}</p></header>
${closed && html`<p class="closed"><b>${said.closedDay}</b></p>`}
<ol class="clock">${warmUp > 0 && clockStop(words, warmUpClock, say.gather, warmUp)}${stops.map(
		(stop) =>
			html`<li><time>${stop.clock}</time><b>${drawnApparatus(stop.id)} ${stop.name}</b><span>${words.min(stop.minutes)}</span></li>`,
	)}${coolDown > 0 && clockStop(words, coolDownClock, said.coolDown, coolDown)}<li class="end"><time>${endClock}</time><b>${said.end}</b></li></ol>
<div class="first"><p>${drawnSign("caution")}<b>${said.before}</b> ${say.before} ${fewerCoaches(words, view)}</p>${emergency !== undefined && html`<p>${drawnSign("about")}<b>${words.sheets.emergency}</b> ${emergency}</p>`}</div>
${setOut.length > 0 && html`<section class="set-out"><h2>${words.setOut.title}</h2>${setOut.map((one) => setOutLine(words, one))}</section>`}`;
}

function clockStop(words: Words, clock: string, what: string, minutes: number): Html {
	return html`<li class="quiet"><time>${clock}</time><b>${what}</b><span>${words.min(minutes)}</span></li>`;
}

/** An apparatus's props, by where they are kept: the walk to the store room is made once. */
function setOutLine(words: Words, { apparatus, items }: SetOut): Html {
	const places = Map.groupBy(items, ({ stored }) => stored ?? "");
	return html`<p><b class="at" data-before="${words.classLeaf.setOut}">${apparatus.name}</b>${words.colon}${Array.from(places, ([stored, own], i) => html`${i > 0 && words.semicolon}${own.map(({ name, needed }, j) => html`${j > 0 && ", "}<span class="keep"><b>${words.number(needed)}</b> ${name}</span>`)}${stored !== "" && html` <i>(${stored})</i>`}`)}</p>`;
}

/** How the stations of a stop are laid, where it is not one after the other. */
export interface StopLaying {
	/** It begins a side of its own, unless all of it stands on the one before. */
	readonly starts: boolean;
	readonly plan: (block: ClassStop["blocks"][number]) => Html | undefined;
}

/** The first station of a stop carries its head, the first of a block the block's. */
export function stopItems(
	words: Words,
	stop: ClassStop,
	severalLevels: boolean,
	laying?: StopLaying,
): readonly Html[] {
	const head = html`<h2 class="stop"><time>${stop.clock}</time> ${drawnApparatus(stop.id)} ${stop.name} <span>${words.min(stop.minutes)}</span></h2>${carriedList(words, stop)}${stop.focus && html`<p class="focus">${stop.focus}</p>`}`;
	return stop.blocks.flatMap((block, i) => {
		const several = block.stations.length > 1;
		const top = html`${i === 0 && head}${blockHeadOf(words, block)}`;
		const plan = laying?.plan(block);
		const stations = block.stations.map((station, j) => {
			const own = stationItem(words, station, severalLevels, several ? stationLabel(j) : undefined);
			return html`${j === 0 && plan === undefined && top}${own}`;
		});
		// A plan is an item of its own: with a station it may be higher than a small side.
		return (plan === undefined ? stations : [html`${top}${plan}`, ...stations]).map(
			(own, j) =>
				html`<div class="item"${laying?.starts === true && i === 0 && j === 0 && html` data-start`}${(i > 0 || j > 0) && html` data-on="${words.classLeaf.goesOn(stop.apparatus.name)}"`}>${own}</div>`,
		);
	});
}

function blockHeadOf(words: Words, block: ClassStop["blocks"][number]): Html {
	const {
		clock,
		until,
		minutes,
		note,
		stations,
		kind,
		choose,
		change,
		show,
		// Said by `coachesLine`.
		coaches: _coaches,
		// The clock is its name here; a class's stations are its levels'.
		number: _number,
		levels: _levels,
		...rest
	} = block;
	rest satisfies Nothing;
	// A class shares itself out evenly, so that every station of a block has the same.
	const [each] = stations;
	const shared = [
		stationsOrOptions(words, block),
		...(each?.minutes[0] === undefined ? [] : [words.block.minEach(each.minutes[0].minutes)]),
		...(each?.gymnasts === undefined ? [] : [words.classLeaf.atEach(each.gymnasts)]),
		kind === "options" ? words.block.choose(choose) : words.sheets.toChange(change),
	];
	const coaching = coachesLine(words, block);
	return html`<p class="block"><time>${clock}–${until}</time> <b>${words.min(minutes)}</b>${stations.length > 1 && ` · ${shared.join(", ")}`}${show > 0 && ` · ${words.block.show(show)}`}</p>${coaching && html`<p class="coaching">${coaching}</p>`}${note && html`<p class="note">${note}</p>`}`;
}

function stationItem(
	words: Words,
	station: Station,
	severalLevels: boolean,
	number: string | undefined,
): Html {
	const {
		drill,
		note,
		core,
		turns,
		fits,
		// What is the same at each station stands at the block's head; how long one waits follows.
		minutes: _minutes,
		gymnasts: _gymnasts,
		wait: _wait,
		// The cues say it at the apparatus.
		summary: _summary,
		...rest
	} = station;
	rest satisfies Nothing;
	return html`<article class="drill"><h3>${number !== undefined && html`<span class="no">${number}</span>`}${drill.name}</h3>
${drillLines(words, core, { note, turns, fits, severalLevels })}</article>`;
}

function drillLines(
	words: Words,
	core: DrillCore,
	here: Pick<Station, "note" | "turns" | "fits"> & { readonly severalLevels: boolean },
): Html {
	const {
		levels,
		cues,
		faults,
		setUp,
		safety,
		adapt,
		criteria,
		figures,
		// The station's own heading.
		id: _id,
		title: _title,
		// One level's figures stand for all here.
		strips: _strips,
		...rest
	} = core;
	rest satisfies Nothing;
	const { note, turns, fits, severalLevels } = here;
	const { drill: said } = words;
	const adaptLine = (name: string, lines: readonly LevelText[]) =>
		look(
			name,
			lines.map((line) => levelText(words, line)),
		);
	return html`<div class="strip">${figureStrip(words, figures)}</div>
${note && html`<p class="note">${note}</p>`}
${levels.map((way) => html`<p class="way">${severalLevels && html`<b>${way.level.name}${words.colon.trimEnd()}</b> `}${wayOf(words, way)}</p>`)}
${fits && html`<p class="fits"><b>${words.block.fits(fits.planned, fits.fits, fits.turns)}</b></p>`}
${cueList(cues)}
${faults.map((fault, i) => html`<p class="look${i > 0 && " more"}"><b>${said.see}</b> ${fault.see} <b>${said.say}</b> ${fault.say}</p>`)}
${adaptLine(said.easier, adapt.easier)}${adaptLine(said.harder, adapt.harder)}${criteria.map(({ skill, lines }) => look(words.sheets.seenOf(skill.name), lines, "seen"))}<div class="safe">${safetyLines(words, safety, words.sheets.nothingWritten, drawnSign)}</div>
<p class="props">${propsOf(words, setUp, turns)}</p>`;
}

function look(name: string, lines: readonly Html[], kind = "adapt"): Html | undefined {
	if (lines.length === 0) return undefined;
	return html`<p class="look ${kind}"><b>${name}</b> ${inOneLine(lines)}</p>`;
}

/** What stands ready, how high, and how long a turn takes. */
function propsOf(
	words: Words,
	{ equipment, heights, turns, ...rest }: SetUp,
	turnsEach: number | undefined,
): Html {
	rest satisfies Nothing;
	const { classLeaf: say } = words;
	const each = [
		...(turnsEach === undefined ? [] : [say.turnsEach(turnsEach)]),
		...turns.map(
			({ seconds, atOnce, levels }) => `${namesBefore(words, levels)}${say.turn(seconds, atOnce)}`,
		),
	];
	return html`${equipment.map(({ item, count, per, levels }, i) => html`${i > 0 && ", "}${namesBefore(words, levels)}${per === "gymnast" ? say.propsEach(count, item.name) : say.props(count, item.name)}`)}${equipment.length > 0 && ". "}${heights.map(
		({ what, landmark, levels, ranges: [range] }) =>
			html`${say.height(capital(levels.length === 0 ? what : `${what} (${inSentence(levels)})`), landmark, range && [Math.round(range.low), Math.round(range.high)])} `,
	)}${each.length > 0 && html`<span>${each[0]}${each.slice(1).map((more) => html`<span class="turn">, ${more}</span>`)}</span>`}`;
}

export function endItem({ classLeaf: say, classSheet }: Words, view: ClassSheetView): Html {
	return html`<div class="item last">${view.coolDown > 0 && html`<p class="block"><time>${view.coolDownClock}–${view.endClock}</time> ${say.putBack(html`<b>${classSheet.coolDown}</b>`)}</p>`}<p class="left-out">${say.leftOut}</p></div>`;
}
