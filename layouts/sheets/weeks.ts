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
import { figureStrip, inSentence, levelRows, namesBefore, shapeFigure, sheetHead } from "./pieces.ts";
import { linkIn, pageList, pageOf, placeOf, withPages } from "./references.ts";
import type { SheetSection } from "./section.ts";

export function weekSection(binder: BinderView, leaves: WeekLeaves, slot: number): SheetSection {
	const { words } = binder;
	const { link, number, theme, source, parts } = leaves;
	const { anchor, label } = placeOf(binder, link.to);
	const title = words.sheets.weekAndTheme(number, theme);
	return {
		title,
		tab: label,
		slot,
		parts: [
			{ label, head: words.week(number), html: weekSheet(binder, leaves.overview()) },
			...leaves.apparatus.map((planned, i) => ({
				label: placeOf(binder, parts[i]?.to ?? "").label,
				head: parts[i]?.name ?? "",
				html: apparatusSheet(binder, planned()),
			})),
		],
		targets: [
			{ id: anchor, title, words: theme, depth: 1, source },
			...parts.map(({ to, name }) => ({
				id: placeOf(binder, to).anchor,
				title: name,
				depth: 2 as const,
				source,
			})),
		],
	};
}

function weekSheet(binder: BinderView, { week, weeks, shapes, skills, classes }: WeekOverview): Html {
	const { words } = binder;
	const say = words.weekSheet;
	const { from, to } = week;
	const over = html`${say.of(week.number, weeks)}${from !== undefined && to !== undefined && html` · ${words.sheets.span(words.date(from), words.date(to, "long"))}`}`;
	return html`${sheetHead(placeOf(binder, week.link.to).anchor, over, week.theme)}
${week.body.text !== "" && html`<div class="prose lead-prose">${withPages(binder, week.body)}</div>`}
<section class="whole"><h2>${words.weekPage.byApparatus}</h2><table class="plan">
<thead><tr><th scope="col">${words.heads.apparatus}</th><th scope="col">${say.focus}</th><th scope="col" class="number">${words.heads.minutes}</th><th scope="col">${say.page}</th></tr></thead>
<tbody>${week.apparatus.map(
		({ link, focus, minutes }) =>
			html`<tr><th scope="row">${linkIn(binder, link)}</th><td>${focus}</td><td class="number">${words.number(minutes)}</td><td>${pageOf(binder, link.to)}</td></tr>`,
	)}</tbody></table></section>
${
	shapes.length > 0 &&
	html`<section><h2>${say.shapes}</h2><ul class="figures">${shapes.map(
		({ shape, drills }) =>
			html`<li>${shapeFigure(shape, `${week.id}-${shape.id}`, 48)}<span>${shape.name}</span><span class="small">${words.counts.drills(drills)}</span></li>`,
	)}</ul></section>`
}
${skills.length > 0 && html`<section><h2>${say.skills}</h2><div class="skills-run">${pageList(binder, skills)}</div></section>`}
${classTable(binder, classes)}`;
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

function apparatusSheet(binder: BinderView, view: PlannedApparatus): Html {
	const { id, week, apparatus, focus, minutes, blocks, equipment, plans, ...rest } = view;
	rest satisfies Nothing;
	const { words } = binder;
	const say = words.weekSheet;
	const { anchor } = placeOf(binder, weekApparatusAddress(week.id, id));
	return html`${sheetHead(anchor, html`${words.week(week.number)} · ${week.theme}`, apparatus.name, focus)}
${
	equipment.length > 0 &&
	html`<section class="set-up whole"><h2>${say.setUp}</h2><ul>${equipment.map(
		({ item, needed, stored }) =>
			html`<li><b>${words.number(needed)}</b> ${item.name}${stored !== undefined && html`<span class="small"> ${stored}</span>`}</li>`,
	)}</ul></section>`
}
<p class="small total">${say.inAll(blocks.length, minutes)}</p>
${blocks.map((block) => blockSheet(binder, block))}
${plansOf(binder, plans, `plan-${week.id}-${id}`)}`;
}

/** The floor plans of the apparatus, the words beside each; a long one has the width of the page. What is said of all stays with the last. */
function plansOf(
	{ words }: BinderView,
	plans: PlannedApparatus["plans"],
	idPrefix: string,
): Html | undefined {
	if (plans.length === 0) return undefined;
	return html`<section class="floor-plans"><h2>${words.weekSheet.plans}</h2>${plans.map(
		(view, i) =>
			html`<div class="plan-row whole${isWide(view) && " long"}"><h3>${words.block.numbered(view.block)}</h3>${floorPlanFigure(words, view, { idPrefix: `${idPrefix}-${view.block}`, upright: false })}${i === plans.length - 1 && floorPlanNote(words, plans)}</div>`,
	)}</section>`;
}

/** Metres of floor that are at least 7.5 mm each beside a legend (print.css): 12 m are 90 mm. */
const BESIDE_LEGEND = 14.5;

/** Whether a plan needs the page's whole width: long, or with its border and what stays clear too wide. */
function isWide({ plan, free }: FloorPlanView): boolean {
	return isLong(plan) || plan.length + 2 * Math.max(plan.border, free.landing) > BESIDE_LEGEND;
}

function blockSheet(binder: BinderView, block: BlockView): Html {
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
	const { words } = binder;
	const what = kind === "drill" ? words.weekSheet.together : stationsOrOptions(words, block);
	const how = [
		...(kind === "stations" && stations.length > 1 ? [words.sheets.toChange(change)] : []),
		...(kind === "options" ? [words.block.choose(choose)] : []),
		...(show > 0 ? [words.block.show(show)] : []),
	];
	const head = html`<header class="block-head"><span class="minutes"><b>${words.number(minutes)}</b> ${words.minuteSign}</span><h2>${what}</h2><span class="who">${levels.length === 0 ? words.allLevels : inSentence(levels)}</span>${how.map((one) => html`<span class="change">${one}</span>`)}</header>${note && html`<p class="note">${note}</p>`}`;
	return html`<section class="block">${stations.map((station, i) =>
		stationSheet(binder, station, kind === "drill" ? undefined : i + 1, i === 0 ? head : undefined),
	)}</section>`;
}

/** The first station carries its block's head, so that the two are never parted. */
function stationSheet(
	binder: BinderView,
	station: Station,
	number: number | undefined,
	head: Html | undefined,
): Html {
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
	return html`<div class="station whole">${head}<h3>${number !== undefined && html`<span class="station-number">${number}</span>`}${linkIn(binder, drill)}<span class="see">${words.weekSheet.card} ${pageOf(binder, drill.to)}</span></h3>
${note && html`<p class="note">${note}</p>`}
<div class="station-body"><div>${levelRows(words, levels)}${stationFigures(words, strips())}</div><div>${cueList(cues)}</div></div>
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
