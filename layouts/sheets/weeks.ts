/**
 * A week's sheets: what the week is about, then for each apparatus what to set up and what to do.
 */

import { isLong } from "../../scripts/figures/floor-plan.ts";
import { weekApparatusAddress } from "../../scripts/views/addresses.ts";
import type { FloorPlanView } from "../../scripts/views/floor-plan.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { BinderView, WeekLeaves, WeekOverview } from "../../scripts/views/sheets/binder.ts";
import type { BlockView, PlannedApparatus, Station } from "../../scripts/views/week.ts";
import type { Words } from "../../scripts/words/words.ts";
import { cueList, safetyLines } from "../parts/drill-parts.ts";
import { floorPlanFigure, floorPlanNote } from "../parts/floor-plan.ts";
import { stationsOrOptions } from "../parts/hall.ts";
import { drawnSign } from "../parts/icons.ts";
import type { Nothing } from "../parts/nothing.ts";
import { figureStrip, inSentence, namesBefore, shapeFigure, sheetHead, wayOf } from "./pieces.ts";
import { linkIn, pageList, pageOf, placeOf, targetsOf, withPages } from "./references.ts";
import type { SheetSection } from "./section.ts";

export function weekSection(binder: BinderView, leaves: WeekLeaves, slot: number): SheetSection {
	const { words } = binder;
	const { link, number, theme, source, parts } = leaves;
	const { anchor, label } = placeOf(binder, link.to);
	const title = words.sheets.weekAndTheme(number, theme);
	const planned = leaves.apparatus.map((view) => view());
	return {
		title,
		tab: label,
		slot,
		parts: [
			{
				label,
				head: words.week(number),
				html: html`${weekSheet(binder, leaves.overview())}${inFlows([
					...planned.flatMap((view) => apparatusSheet(binder, view)),
					{
						long: false,
						html: html`${floorPlanNote(
							words,
							planned.flatMap(({ plans }) => plans),
						)}`,
					},
				])}`,
				runs: true,
			},
		],
		targets: [
			{ id: anchor, title, words: theme, depth: 1, source },
			...targetsOf(
				binder,
				parts.map((part) => ({ link: part, source })),
			),
		],
	};
}

function weekSheet(binder: BinderView, { week, weeks, shapes, skills, classes }: WeekOverview): Html {
	const { words } = binder;
	const say = words.weekSheet;
	const { from, to } = week;
	const over = html`${say.of(week.number, weeks)}${from !== undefined && to !== undefined && html` · ${words.sheets.span(words.date(from), words.date(to, "long"))}`}`;
	return html`<div class="week-front">${sheetHead(placeOf(binder, week.link.to).anchor, over, week.theme)}
${week.body.text !== "" && html`<div class="prose lead-prose">${withPages(binder, week.body)}</div>`}
<section class="whole"><h2>${words.weekPage.byApparatus}</h2><table class="plan">
<thead><tr><th scope="col">${words.heads.apparatus}</th><th scope="col">${say.focus}</th><th scope="col" class="number">${words.heads.minutes}</th><th scope="col">${say.page}</th></tr></thead>
<tbody>${week.apparatus.map(
		({ link, focus, minutes }) =>
			html`<tr><th scope="row">${linkIn(binder, link)}</th><td>${focus}</td><td class="number">${words.number(minutes)}</td><td>${pageOf(binder, link.to)}</td></tr>`,
	)}</tbody></table></section>
${classTable(binder, classes)}
${
	shapes.length > 0 &&
	html`<section><h2>${say.shapes}</h2><ul class="figures">${shapes.map(
		({ shape, drills }) =>
			html`<li>${shapeFigure(shape, `${week.id}-${shape.id}`, 48)}<span>${shape.name}</span><span class="small">${words.counts.drills(drills)}</span></li>`,
	)}</ul></section>`
}
${skills.length > 0 && html`<section><h2>${say.skills}</h2><div class="skills-run">${pageList(binder, skills)}</div></section>`}</div>`;
}

function classTable({ words }: BinderView, classes: WeekOverview["classes"]): Html | undefined {
	const say = words.weekSheet;
	if (classes.length === 0) return undefined;
	return html`<section class="whole"><h2>${say.classes}</h2><table class="plan">
<thead><tr><th scope="col">${words.heads.class}</th><th scope="col">${words.equipmentMeasure.when}</th><th scope="col">${words.sheets.rotation}</th><th scope="col" class="number">${say.minutesPlanned}</th></tr></thead>
<tbody>${classes.map(
		({ link, dateWords, start, rotation, planned, available }) =>
			html`<tr><th scope="row">${link.name}</th><td class="keep">${dateWords}${start !== "" && ` ${start}`}</td><td>${inSentence(rotation)}</td><td class="number">${say.minutesOf(planned, available)}</td></tr>`,
	)}</tbody></table></section>`;
}

/**
 * What flows over the columns of a week, and what has the width of the page: what flows before it ends above
 * it, and goes on below.
 */
type Flowing = { readonly long: boolean; readonly html: Html };

function inFlows(pieces: readonly Flowing[]): readonly Html[] {
	const flows: Flowing[] = [];
	for (const piece of pieces) {
		const last = flows.at(-1);
		if (last === undefined || last.long || piece.long) flows.push(piece);
		else flows[flows.length - 1] = { long: false, html: html`${last.html}${piece.html}` };
	}
	return flows.map(({ long, html: own }) => (long ? own : html`<div class="flow">${own}</div>`));
}

function apparatusSheet(binder: BinderView, view: PlannedApparatus): readonly Flowing[] {
	const { id, week, apparatus, focus, minutes, blocks, equipment, plans, ...rest } = view;
	rest satisfies Nothing;
	const { words } = binder;
	const say = words.weekSheet;
	const { anchor } = placeOf(binder, weekApparatusAddress(week.id, id));
	const planOf = new Map(plans.map((plan) => [plan.block, plan]));
	const flowing = (own: Html) => ({ long: false, html: own });
	return [
		flowing(html`<div class="whole area-head">${sheetHead(anchor, "", apparatus.name, focus)}
<p class="small total">${say.inAll(blocks.length, minutes)}</p>
${
	equipment.length > 0 &&
	html`<section class="set-up"><h2>${say.setUp}</h2> <p>${equipment.map(
		({ item, needed, stored }, i) =>
			html`${i > 0 && words.semicolon}<b>${words.number(needed)}</b> ${item.name}${stored !== undefined && html` <i>(${stored})</i>`}`,
	)}</p></section>`
}</div>`),
		...blocks.flatMap((block): readonly Flowing[] => {
			const plan = planOf.get(block.number);
			const own = plan && planRow(binder, plan, `plan-${week.id}-${id}-${block.number}`);
			const long = plan !== undefined && isWide(plan);
			const stations = block.stations.map((station, i) =>
				stationSheet(binder, station, block.kind === "drill" ? undefined : i + 1),
			);
			const head = blockHead(binder, block);
			if (long)
				return [{ long, html: html`<div class="whole">${head}${own}</div>` }, flowing(html`${stations}`)];
			// A head is never parted from what it heads.
			const first = own ?? stations[0];
			const others = own === undefined ? stations.slice(1) : stations;
			return [flowing(html`<div class="${own === undefined && "whole"}">${head}${first}</div>${others}`)];
		}),
	];
}

function planRow({ words }: BinderView, view: FloorPlanView, idPrefix: string): Html {
	return html`<div class="plan-row${isWide(view) && " long"}">${floorPlanFigure(words, view, { idPrefix, upright: false })}</div>`;
}

/** The longest floor that a column has room for, in metres with its border and what stays clear. */
const IN_COLUMN = 17;

/** Whether a plan needs the page's whole width. */
function isWide({ plan, free }: FloorPlanView): boolean {
	return isLong(plan) || plan.length + 2 * Math.max(plan.border, free.landing) > IN_COLUMN;
}

function blockHead({ words }: BinderView, block: BlockView): Html {
	const {
		kind,
		minutes,
		change,
		choose,
		show,
		note,
		levels,
		stations,
		// The order on the sheet is its number.
		number: _number,
		// Who stands where is a class's, and stands on its sheet.
		coaches: _coaches,
		...rest
	} = block;
	rest satisfies Nothing;
	const what = kind === "drill" ? words.weekSheet.together : stationsOrOptions(words, block);
	const how = [
		...(kind === "stations" && stations.length > 1 ? [words.sheets.toChange(change)] : []),
		...(kind === "options" ? [words.block.choose(choose)] : []),
		...(show > 0 ? [words.block.show(show)] : []),
	];
	return html`<header class="block-head"><span class="minutes"><b>${words.number(minutes)}</b> ${words.minuteSign}</span><h2>${what}</h2><span class="who">${levels.length === 0 ? words.allLevels : inSentence(levels)}</span>${how.map((one) => html`<span class="change">${one}</span>`)}</header>${note && html`<p class="note">${note}</p>`}`;
}

function stationSheet(binder: BinderView, station: Station, number: number | undefined): Html {
	const {
		drill,
		note,
		core: { levels, cues, safety, strips },
		// The rest of the drill is on its card, whose page is named here; the rest of the station is a class's.
		summary: _summary,
		minutes: _minutes,
		gymnasts: _gymnasts,
		turns: _turns,
		wait: _wait,
		fits: _fits,
		...rest
	} = station;
	rest satisfies Nothing;
	const { words } = binder;
	const isWritten = safety[0].says !== "nothing-written";
	return html`<div class="station whole"><h3>${number !== undefined && html`<span class="station-number">${number}</span>`}<span>${linkIn(binder, drill)}</span><span class="see">${pageOf(binder, drill.to)}</span></h3>
${note && html`<p class="note">${note}</p>`}
${levels.map((way) => html`<p class="way"><b>${way.level.name}</b> ${wayOf(words, way)}</p>`)}
<div class="station-body">${stationFigures(words, strips())}${cueList(cues)}</div>
${isWritten && html`<div class="safety">${safetyLines(words, safety, undefined, drawnSign)}</div>`}</div>`;
}

/** The figures of a station as its levels do it: one strip, or one for each way. */
function stationFigures(words: Words, strips: ReturnType<Station["core"]["strips"]>): Html {
	return html`${strips.map(({ levels, figures }) => {
		const strip = figureStrip(words, figures);
		return (
			strip &&
			html`<div class="strip">${levels.length > 0 && html`<b class="of-levels">${namesBefore(words, levels)}</b>`}${strip}</div>`
		);
	})}`;
}
