/**
 * A week's sheets: what the week is about, then for each apparatus what to set up and what to do.
 */

import { dateOf, meets, teachingWeeks } from "../../scripts/compute/calendar.ts";
import { type CoverageCell, coverage } from "../../scripts/compute/coverage.ts";
import { drillAt, valuesAt } from "../../scripts/compute/drill-at.ts";
import { equipmentFor } from "../../scripts/compute/equipment.ts";
import { type FloorPlan, FREE_SPACE } from "../../scripts/compute/placing.ts";
import { classTime } from "../../scripts/compute/time.ts";
import { isLong } from "../../scripts/figures/floor-plan.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { movementOf, stripDescription, stripTitle } from "../../scripts/figures/support.ts";
import type {
	ApparatusPlan,
	Block,
	Id,
	LinkedDrill,
	LinkedShape,
	Station,
	WeekPlan,
} from "../../scripts/model.ts";
import type { SheetPart, SheetSection } from "../../scripts/print/section.ts";
import { type Html, html, raw } from "../../scripts/render/html.ts";
import { floorPlanView } from "../../scripts/render/views/floor-plan.ts";
import { floorPlanFigure, floorPlanNote } from "../parts/floor-plan.ts";
import {
	beforeLevels,
	cueList,
	levelRows,
	named,
	pageList,
	safetyBox,
	shapeFigure,
	sheetHead,
} from "./pieces.ts";
import { type Places, weekApparatusLabel } from "./places.ts";
import type { SheetSource } from "./source.ts";

/** All weeks' coverage, worked out once. */
export interface WeekCoverage {
	readonly shapes: ReadonlyMap<Id, CoverageCell>;
	readonly skills: ReadonlyMap<Id, CoverageCell>;
}

export function weekSections(
	source: SheetSource,
	places: Places,
	slotOf: (week: WeekPlan) => number,
): readonly SheetSection[] {
	const { words } = source;
	const shapes = coverage(source, "shape", "week").cells;
	const skills = coverage(source, "skill", "week").cells;
	return source.curriculum.weeks.map((week) => {
		const key = String(week.week);
		const trained = { shapes: shapes.get(key) ?? new Map(), skills: skills.get(key) ?? new Map() };
		const plans = week.apparatus.flatMap((plan) => {
			const apparatus = source.curriculum.apparatus.get(plan.apparatus);
			return apparatus === undefined ? [] : [{ plan, apparatus }];
		});
		const theme = source.markdown.plain(week.theme);
		const title = words.sheets.weekAndTheme(week.week, theme);
		const label = words.pageLabels.week(week.week);
		return {
			title,
			tab: label,
			slot: slotOf(week),
			parts: [
				{ label, head: words.week(week.week), html: weekSheet(source, places, week, trained) },
				...plans.map(
					({ plan, apparatus }): SheetPart => ({
						label: weekApparatusLabel(words, week, apparatus),
						head: apparatus.name,
						html: apparatusSheet(source, places, week, plan, apparatus.name),
					}),
				),
			],
			targets: [
				{
					id: places.id("week", week.id),
					title,
					words: theme,
					depth: 1,
					source: week.source,
				},
				...plans.map(({ plan, apparatus }) => ({
					id: places.id("week-apparatus", `${week.id}-${plan.apparatus}`),
					title: apparatus.name,
					depth: 2 as const,
					source: week.source,
				})),
			],
		};
	});
}

function weekSheet(source: SheetSource, places: Places, week: WeekPlan, trained: WeekCoverage): Html {
	const { words } = source;
	const say = words.weekSheet;
	const { term, apparatus, shapes, skills } = source.curriculum;
	const dates = teachingWeeks(term)[week.week - 1];
	const over = html`${say.of(week.week, term.weeks)}${dates && html` · ${words.sheets.span(words.date(dates.monday), words.date(dates.sunday, "long"))}`}`;
	const figures = [...shapes.values()].filter(({ id }) => trained.shapes.has(id));
	const taught = [...skills.values()].filter(({ id }) => trained.skills.has(id));
	return html`${sheetHead(places.id("week", week.id), over, places.inline(week.theme))}
${week.body.trim() !== "" && html`<div class="prose lead-prose">${places.block(week.body, 3)}</div>`}
<section class="whole"><h2>${words.weekPage.byApparatus}</h2><table class="plan">
<thead><tr><th scope="col">${words.heads.apparatus}</th><th scope="col">${say.focus}</th><th scope="col" class="number">${words.heads.minutes}</th><th scope="col">${say.page}</th></tr></thead>
<tbody>${week.apparatus.map((plan) => {
		const minutes = plan.blocks.reduce((sum, block) => sum + block.minutes, 0);
		const key = `${week.id}-${plan.apparatus}`;
		return html`<tr><th scope="row">${places.link("week-apparatus", key, apparatus.get(plan.apparatus)?.name ?? plan.apparatus)}</th><td>${plan.focus !== undefined && places.inline(plan.focus)}</td><td class="number">${words.number(minutes)}</td><td>${places.page("week-apparatus", key)}</td></tr>`;
	})}</tbody></table></section>
${figures.length > 0 && html`<section><h2>${say.shapes}</h2><ul class="figures">${figures.map((shape) => shapeTile(source, week, shape, trained.shapes.get(shape.id)))}</ul></section>`}
${
	taught.length > 0 &&
	html`<section><h2>${say.skills}</h2><div class="skills-run">${pageList(
		places,
		"skill",
		named(
			taught.map(({ id }) => id),
			skills,
		),
	)}</div></section>`
}
${classTable(source, week)}`;
}

function shapeTile(
	{ words }: SheetSource,
	week: WeekPlan,
	shape: LinkedShape,
	cell: CoverageCell | undefined,
): Html {
	return html`<li>${shape.angles === undefined ? "" : shapeFigure(shape, `${week.id}-${shape.id}`, 48)}<span>${shape.name}</span><span class="small">${words.counts.drills(cell?.drills.length ?? 0)}</span></li>`;
}

function classTable(source: SheetSource, week: WeekPlan): Html | undefined {
	const { curriculum, words } = source;
	const say = words.weekSheet;
	const { term, apparatus } = curriculum;
	const rows = term.classes.filter((group) => meets(term, week.week, group));
	if (rows.length === 0) return undefined;
	return html`<section class="whole"><h2>${say.classes}</h2><table class="plan">
<thead><tr><th scope="col">${words.heads.class}</th><th scope="col">${words.equipmentMeasure.when}</th><th scope="col">${words.sheets.rotation}</th><th scope="col" class="number">${say.minutesPlanned}</th></tr></thead>
<tbody>${rows.map((group) => {
		const date = dateOf(term, week.week, group);
		const time = classTime(curriculum, week, group);
		const rotation = group.rotation.map((id) => apparatus.get(id)?.name ?? id).join(", ");
		return html`<tr><th scope="row">${group.name}</th><td class="keep">${date !== undefined && words.date(date)}${group.start !== undefined && ` ${group.start}`}</td><td>${rotation}</td><td class="number">${say.minutesOf(time.planned, group.minutes)}</td></tr>`;
	})}</tbody></table></section>`;
}

function apparatusSheet(
	source: SheetSource,
	places: Places,
	week: WeekPlan,
	plan: ApparatusPlan,
	name: string,
): Html {
	const { curriculum, words } = source;
	const say = words.weekSheet;
	const minutes = plan.blocks.reduce((sum, block) => sum + block.minutes, 0);
	const lines = equipmentFor(curriculum, plan);
	return html`${sheetHead(
		places.id("week-apparatus", `${week.id}-${plan.apparatus}`),
		html`${words.week(week.week)} · ${places.inline(week.theme)}`,
		name,
		plan.focus !== undefined && places.inline(plan.focus),
	)}
${
	lines.length > 0 &&
	html`<section class="set-up whole"><h2>${say.setUp}</h2><ul>${lines.map((line) => {
		const item = curriculum.equipment.get(line.item);
		return html`<li><b>${words.number(line.needed)}</b> ${item?.name ?? line.item}${item?.stored !== undefined && html`<span class="small"> ${item.stored}</span>`}</li>`;
	})}</ul></section>`
}
<p class="small total">${say.inAll(plan.blocks.length, minutes)}</p>
${plan.blocks.map((block) => blockSheet(source, places, block))}
${planSection(source, week, plan)}`;
}

/** The floor plans of the apparatus, the words beside each; a long one has the width of the page. */
function planSection(source: SheetSource, week: WeekPlan, plan: ApparatusPlan): Html | undefined {
	const views = plan.blocks.flatMap(
		(block) => floorPlanView(source.curriculum, week, plan, block, source.words) ?? [],
	);
	if (views.length === 0) return undefined;
	return html`<section class="floor-plans"><h2>${source.words.weekSheet.plans}</h2>${views.map(
		(view) =>
			html`<div class="plan-row whole${isWide(view.plan) && " long"}"><h3>${source.words.block.numbered(view.block)}</h3>${floorPlanFigure(source.words, view, { idPrefix: `plan-${week.id}-${plan.apparatus}-${view.block}`, upright: false })}</div>`,
	)}${floorPlanNote(source.words, views)}</section>`;
}

/** Metres of floor that are at least 7.5 mm each beside a legend (print.css): 12 m are 90 mm. */
const BESIDE_LEGEND = 14.5;

/** Whether a plan needs the page's whole width: long, or with its border and what stays clear too wide. */
function isWide(plan: FloorPlan): boolean {
	return isLong(plan) || plan.length + 2 * Math.max(plan.border, FREE_SPACE.landing) > BESIDE_LEGEND;
}

function blockSheet(source: SheetSource, places: Places, block: Block): Html {
	const { words } = source;
	const { levels } = source.curriculum;
	const who =
		block.levels.length === 0
			? words.allLevels
			: named(block.levels, levels)
					.map(({ name }) => name)
					.join(", ");
	const head = html`<header class="block-head"><span class="minutes"><b>${words.number(block.minutes)}</b> ${words.minuteSign}</span><h2>${block.kind === "drill" ? words.weekSheet.together : block.kind === "options" ? words.block.options(block.stations.length) : words.counts.stations(block.stations.length)}</h2><span class="who">${who}</span>${block.kind === "stations" && block.stations.length > 1 && html`<span class="change">${words.sheets.toChange(block.change)}</span>`}${block.kind === "options" && html`<span class="change">${words.block.choose(block.choose)}</span>`}</header>${block.note !== undefined && html`<p class="note">${places.inline(block.note)}</p>`}`;
	return html`<section class="block">${block.stations.map((station, i) => stationSheet(source, places, block, station, i, i === 0 ? head : undefined))}</section>`;
}

/** The first station carries its block's head, so that the two are never parted. */
function stationSheet(
	source: SheetSource,
	places: Places,
	block: Block,
	station: Station,
	position: number,
	head: Html | undefined,
): Html {
	const drill = source.curriculum.drills.get(station.drill);
	if (drill === undefined) return html``;
	const offered = (level: Id) => block.levels.length === 0 || block.levels.includes(level);
	const levels = [...drill.levels.keys()].filter(offered);
	const hasSafety = levels
		.map((level) => drillAt(drill, level))
		.some(({ spotting, caution }) => spotting !== undefined || caution !== undefined);
	return html`<div class="station whole">${head}<h3>${block.kind !== "drill" && html`<span class="station-number">${position + 1}</span>`}${places.link("drill", drill.id, source.markdown.plain(drill.title))}<span class="see">${source.words.weekSheet.card} ${places.page("drill", drill.id)}</span></h3>
${station.note !== undefined && html`<p class="note">${places.inline(station.note)}</p>`}
<div class="station-body"><div>${levelRows(source, places, drill, offered, block)}${stationFigures(source, drill, levels)}</div><div>${cueList(places, drill.cues)}</div></div>
${hasSafety && safetyBox(source, places, drill, levels)}</div>`;
}

/** The figures of a station as its levels do it: one strip, or one for each way. */
function stationFigures(source: SheetSource, drill: LinkedDrill, levels: readonly Id[]): Html {
	const ways = valuesAt(drill, levels, ({ sequence }) => sequence);
	return html`${ways.map(({ levels: those }) => {
		// One strip shows the hands that any of its levels needs.
		const same = (those === "all" ? levels : those).map((level) => drillAt(drill, level));
		const [one = drill] = same.toSorted((a, b) => (b.helpers?.length ?? 0) - (a.helpers?.length ?? 0));
		const movement = movementOf(one, source.curriculum);
		if (movement.stances.length === 0) return undefined;
		const words = {
			title: stripTitle(movement, source.words),
			description: stripDescription(movement, source.words),
		};
		return html`<div class="strip">${those !== "all" && html`<b class="of-levels">${beforeLevels(source, those)}</b>`}${raw(drawStrip(movement, words, undefined, 0))}</div>`;
	})}`;
}
