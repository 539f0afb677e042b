/**
 * Coverage tables and equipment lists. A table with more columns than a page holds is split by
 * columns; widths are set by hand, so that nothing is ever cut off at the edge.
 */

import { type CoverageTable, coverage } from "../../scripts/compute/coverage.ts";
import { equipmentFor } from "../../scripts/compute/equipment.ts";
import { agesOfLevel, LANDMARKS, landmarkHeights, landmarksOf } from "../../scripts/compute/heights.ts";
import type { Id, WeekPlan } from "../../scripts/model.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { capital } from "../../scripts/views/words.ts";
import { paperOf } from "./paper.ts";
import { columns, evenRuns, sheetHead } from "./pieces.ts";
import type { Places } from "./places.ts";
import type { SheetPart, SheetSection, SheetTarget } from "./section.ts";
import type { SheetSource } from "./source.ts";

/** Weeks that fit beside the names on an upright page, and on one that lies on its side. */
const UPRIGHT_WEEKS = 12;
const MOST_WEEKS = 40;

/** Pixels that all weeks of a table share on an upright page. */
const UPRIGHT_ROOM = 440;

/** Pixels of the names, where the page lies on its side, and of the last column. */
const NAMES = 150;
const TOTAL = 44;

/** Columns that fit beside the names: apparatus. */
const MOST_APPARATUS = 6;

export function coverageSection(source: SheetSource, places: Places, slot: number): SheetSection | undefined {
	const { levels, shapes, skills, weeks } = source.curriculum;
	if (weeks.length === 0) return undefined;
	const { words } = source;
	const say = words.binderTables;
	const { coverage: name } = words.destinations;
	const targets: SheetTarget[] = [{ id: places.id("part", "coverage"), title: name, depth: 1 }];
	const parts: SheetPart[] = [];
	const things = { shape: shapes, skill: skills } as const;
	for (const kind of ["shape", "skill"] as const) {
		if (things[kind].size === 0) continue;
		const all = { id: undefined, name: say.allLevels };
		for (const level of [all, ...levels.values()]) {
			const table = coverage(
				source,
				kind,
				"week",
				(exposure) => level.id === undefined || exposure.level === level.id,
			);
			const id = `coverage-${kind}-${level.id ?? "all"}`;
			const title = say.weeksAnd[kind](level.name);
			targets.push({ id, title, depth: 2 });
			parts.push({
				label: words.pageLabels.coverage,
				head: title,
				wide: weeks.length > UPRIGHT_WEEKS,
				html: html`${parts.length === 0 && html`<span id="${places.id("part", "coverage")}"></span>`}${sheetHead(
					id,
					name,
					title,
					level.id === undefined ? say.drillsLead : say.minutesLead,
				)}${weekTables(source, [...things[kind].values()], words.things[kind].one, table, level.id === undefined)}`,
			});
		}
	}
	if (parts.length === 0) return undefined;
	return { title: name, tab: name, slot, parts, targets };
}

function weekTables(
	{ curriculum: { weeks, club }, words }: SheetSource,
	things: readonly { readonly id: Id; readonly name: string }[],
	heading: string,
	table: CoverageTable,
	showDrills: boolean,
): Html {
	const runs = evenRuns(weeks, MOST_WEEKS);
	const room = weeks.length > UPRIGHT_WEEKS ? paperOf(club).areaHeight - NAMES - TOTAL : UPRIGHT_ROOM;
	return html`${runs.map((run, position) => {
		// The sum stands once, behind the last weeks.
		const isLast = position === runs.length - 1;
		const width = Math.floor(room / Math.max(10, run.length));
		const dense = width < 30 && "dense";
		return html`<table class="grid ${dense}">${columns([undefined, ...run.map(() => width), ...(isLast ? [TOTAL] : [])])}<thead><tr><th scope="col">${heading}</th>${run.map((week) => html`<th scope="col" class="number">${week.week}</th>`)}${isLast && html`<th scope="col" class="number">${showDrills ? words.binderTables.weeks : capital(words.minuteSign)}</th>`}</tr></thead>
<tbody>${things.map(({ id, name }) => {
			const cellOf = (week: WeekPlan) => table.cells.get(String(week.week))?.get(id);
			const cells = run.map(cellOf);
			const taught = weeks.map(cellOf).filter((cell) => cell !== undefined);
			const total = showDrills ? taught.length : taught.reduce((sum, cell) => sum + cell.minutes, 0);
			return html`<tr><th scope="row">${name}</th>${cells.map((cell) => {
				if (cell === undefined) return html`<td class="none"></td>`;
				const value = showDrills ? cell.drills.length : cell.minutes;
				const weight = showDrills ? cell.drills.length : cell.minutes / 5;
				return html`<td class="number shade-${Math.min(3, Math.max(1, Math.ceil(weight)))}">${showDrills ? value : wholeMinutes(value)}</td>`;
			})}${isLast && html`<td class="number total">${total === 0 ? "" : showDrills ? total : wholeMinutes(total)}</td>`}</tr>`;
		})}</tbody></table>`;
	})}`;
}

/** Minutes as whole ones; what is there but rounds to nothing is one. */
function wholeMinutes(minutes: number): string {
	return String(Math.max(1, Math.round(minutes)));
}

export function equipmentSection(
	source: SheetSource,
	places: Places,
	slot: number,
): SheetSection | undefined {
	const { equipment, weeks } = source.curriculum;
	if (equipment.size === 0) return undefined;
	const { words } = source;
	const say = words.binderTables;
	const { equipment: name } = words.destinations;
	const { weekByWeek } = words.classes;
	const label = words.pageLabels.equipment;
	const targets: SheetTarget[] = [
		{ id: places.id("part", "equipment"), title: name, depth: 1 },
		{ id: "equipment-owned", title: say.owned, depth: 2 },
	];
	const parts: SheetPart[] = [{ label, head: say.owned, html: storeRoom(source, places) }];
	const heights = heightTable(source);
	if (heights !== undefined) {
		parts.push({ label, head: say.heights, html: heights });
		targets.push({ id: "set-up-heights", title: say.heights, depth: 2 });
	}
	if (weeks.length > 0) {
		parts.push({
			label,
			head: weekByWeek,
			html: html`${sheetHead("equipment-weeks", name, weekByWeek, say.weeksLead)}${weeks.map((week) => weekEquipment(source, week))}`,
		});
		targets.push({ id: "equipment-weeks", title: weekByWeek, depth: 2 });
	}
	return { title: name, tab: name, slot, parts, targets };
}

function storeRoom(source: SheetSource, places: Places): Html {
	const { destinations, equipmentPage: say, binderTables } = source.words;
	const items = [...source.curriculum.equipment.values()];
	return html`<span id="${places.id("part", "equipment")}"></span>${sheetHead("equipment-owned", destinations.equipment, binderTables.owned)}
<table class="register stock">${columns([230, 64, undefined, 56])}<thead><tr><th scope="col">${say.item}</th><th scope="col" class="number">${say.owned}</th><th scope="col">${say.kept}</th><th scope="col" class="number">${destinations.drills}</th></tr></thead>
<tbody>${items.map(
		(item) =>
			html`<tr><th scope="row" id="${places.id("equipment", item.id)}">${item.name}${item.aliases.length > 0 && html`<span class="small"> ${item.aliases.join(", ")}</span>`}</th><td class="number">${item.owned}</td><td>${item.stored}</td><td class="number">${item.drills.length}</td></tr>`,
	)}</tbody></table>`;
}

function heightTable(source: SheetSource): Html | undefined {
	const { words } = source;
	const { levels, term } = source.curriculum;
	const used = new Set([...source.curriculum.drills.values()].flatMap((drill) => [...landmarksOf(drill)]));
	const rows = [...levels.values()].flatMap((level) => {
		const ages = agesOfLevel(term.classes, level.id);
		return ages === undefined ? [] : [{ level, ages }];
	});
	const landmarks = LANDMARKS.filter(({ landmark }) => used.has(landmark));
	if (rows.length === 0 || landmarks.length === 0) return undefined;
	return html`${sheetHead("set-up-heights", words.destinations.equipment, words.binderTables.heights, words.binderTables.heightsLead)}
<table class="register">${columns([undefined, 96, ...landmarks.map(() => 86)])}<thead><tr><th scope="col">${words.heads.level}</th><th scope="col">${words.classes.ages}</th>${landmarks.map(({ landmark }) => html`<th scope="col" class="number">${capital(words.landmarkNames[landmark])}</th>`)}</tr></thead>
<tbody>${rows.map(
		({ level, ages }) =>
			html`<tr><th scope="row">${level.name}</th><td>${words.classes.fromTo(...ages)}</td>${landmarks.map(
				({ landmark }) => {
					const heights = landmarkHeights(landmark, ages);
					return html`<td class="number">${heights && `${Math.round(heights.low)}–${Math.round(heights.high)}`}</td>`;
				},
			)}</tr>`,
	)}</tbody></table>
<p class="small">${words.setUp.heightsCaution} ${words.setUp.source}</p>`;
}

function weekEquipment(source: SheetSource, week: WeekPlan): Html {
	const { words } = source;
	const { apparatus, equipment } = source.curriculum;
	const lists = week.apparatus.map((plan) => ({
		name: apparatus.get(plan.apparatus)?.name ?? plan.apparatus,
		lines: new Map(equipmentFor(source.curriculum, plan).map((line) => [line.item, line.needed])),
	}));
	const items = [...equipment.values()].filter(({ id }) => lists.some(({ lines }) => lines.has(id)));
	const title = html`<h2>${words.sheets.weekAndTheme(week.week, source.markdown.plain(week.theme))}</h2>`;
	if (items.length === 0) return html`<section>${title}<p>${words.binderTables.nothing}</p></section>`;
	return html`<section>${title}${evenRuns(lists, MOST_APPARATUS).map(
		(
			run,
		) => html`<table class="grid">${columns([undefined, ...run.map(() => 70), 62])}<thead><tr><th scope="col">${words.counts.items(items.length)}</th>${run.map(({ name }) => html`<th scope="col" class="number">${name}</th>`)}<th scope="col" class="number">${words.equipmentPage.owned}</th></tr></thead>
<tbody>${items
			.filter(({ id }) => run.some(({ lines }) => lines.has(id)))
			.map(
				(item) =>
					html`<tr><th scope="row">${item.name}</th>${run.map(({ lines }) => html`<td class="number">${lines.has(item.id) && words.number(lines.get(item.id) ?? 0)}</td>`)}<td class="number total">${item.owned}</td></tr>`,
			)}</tbody></table>`,
	)}</section>`;
}
