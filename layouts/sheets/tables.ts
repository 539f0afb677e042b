/**
 * Coverage tables and equipment lists. A table with more columns than a page holds is split by
 * columns; widths are set by hand, so that nothing is ever cut off at the edge.
 */

import { type CoverageTable, coverage } from "../../scripts/compute/coverage.ts";
import { equipmentFor } from "../../scripts/compute/equipment.ts";
import { agesOfLevel, LANDMARKS, landmarkHeights } from "../../scripts/compute/heights.ts";
import type { Id, WeekPlan } from "../../scripts/model.ts";
import { paperOf } from "../../scripts/print/paper.ts";
import type { SheetPart, SheetSection, SheetTarget } from "../../scripts/print/section.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import { capital, counted, shortNumber } from "../../scripts/render/views/words.ts";
import { columns, evenRuns, sheetHead } from "./pieces.ts";
import { LABELS, type Places } from "./places.ts";
import type { SheetSource } from "./source.ts";

const COVERAGE = "Coverage";
const EQUIPMENT = "Equipment";
const STORE_ROOM = "What the club owns";
const HEIGHTS = "Set-up heights";

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
	const targets: SheetTarget[] = [{ id: places.id("part", "coverage"), title: COVERAGE, depth: 1 }];
	const parts: SheetPart[] = [];
	const things = { shape: shapes, skill: skills } as const;
	for (const kind of ["shape", "skill"] as const) {
		if (things[kind].size === 0) continue;
		const noun = `Weeks and ${kind}s`;
		const all = { id: undefined, name: "all levels" };
		for (const level of [all, ...levels.values()]) {
			const table = coverage(
				source,
				kind,
				"week",
				(exposure) => level.id === undefined || exposure.level === level.id,
			);
			const id = `coverage-${kind}-${level.id ?? "all"}`;
			const title = `${noun}: ${level.name}`;
			targets.push({ id, title, depth: 2 });
			parts.push({
				label: LABELS.coverage,
				head: title,
				wide: weeks.length > UPRIGHT_WEEKS,
				html: html`${parts.length === 0 && html`<span id="${places.id("part", "coverage")}"></span>`}${sheetHead(
					id,
					COVERAGE,
					title,
					level.id === undefined
						? "Different drills in each week, whatever the level; a last column for the weeks that train it"
						: "Minutes in each week; a drill that names several counts in full for each",
				)}${weekTables(source, [...things[kind].values()], capital(kind), table, level.id === undefined)}`,
			});
		}
	}
	if (parts.length === 0) return undefined;
	return { title: COVERAGE, tab: COVERAGE, slot, parts, targets };
}

function weekTables(
	{ curriculum: { weeks, club } }: SheetSource,
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
		return html`<table class="grid ${dense}">${columns([undefined, ...run.map(() => width), ...(isLast ? [TOTAL] : [])])}<thead><tr><th scope="col">${heading}</th>${run.map((week) => html`<th scope="col" class="number">${week.week}</th>`)}${isLast && html`<th scope="col" class="number">${showDrills ? "Weeks" : "Min"}</th>`}</tr></thead>
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
	const targets: SheetTarget[] = [
		{ id: places.id("part", "equipment"), title: EQUIPMENT, depth: 1 },
		{ id: "equipment-owned", title: STORE_ROOM, depth: 2 },
	];
	const parts: SheetPart[] = [{ label: LABELS.equipment, head: STORE_ROOM, html: storeRoom(source, places) }];
	const heights = heightTable(source);
	if (heights !== undefined) {
		parts.push({ label: LABELS.equipment, head: HEIGHTS, html: heights });
		targets.push({ id: "set-up-heights", title: HEIGHTS, depth: 2 });
	}
	if (weeks.length > 0) {
		parts.push({
			label: LABELS.equipment,
			head: "Week by week",
			html: html`${sheetHead("equipment-weeks", EQUIPMENT, "Week by week", "What stands ready on each apparatus: stations of a block add up, and of several blocks the largest counts")}${weeks.map((week) => weekEquipment(source, week))}`,
		});
		targets.push({ id: "equipment-weeks", title: "Week by week", depth: 2 });
	}
	return { title: EQUIPMENT, tab: EQUIPMENT, slot, parts, targets };
}

function storeRoom(source: SheetSource, places: Places): Html {
	const items = [...source.curriculum.equipment.values()];
	return html`<span id="${places.id("part", "equipment")}"></span>${sheetHead("equipment-owned", EQUIPMENT, STORE_ROOM)}
<table class="register stock">${columns([230, 64, undefined, 56])}<thead><tr><th scope="col">Item</th><th scope="col" class="number">Owned</th><th scope="col">Kept</th><th scope="col" class="number">Drills</th></tr></thead>
<tbody>${items.map(
		(item) =>
			html`<tr><th scope="row" id="${places.id("equipment", item.id)}">${item.name}${item.aliases.length > 0 && html`<span class="small"> ${item.aliases.join(", ")}</span>`}</th><td class="number">${item.owned}</td><td>${item.stored}</td><td class="number">${item.drills.length}</td></tr>`,
	)}</tbody></table>`;
}

function heightTable(source: SheetSource): Html | undefined {
	const { levels, term } = source.curriculum;
	const used = new Set(
		[...source.curriculum.drills.values()].flatMap((drill) => [...drill.heights.values()]),
	);
	const rows = [...levels.values()].flatMap((level) => {
		const ages = agesOfLevel(term.classes, level.id);
		return ages === undefined ? [] : [{ level, ages }];
	});
	const landmarks = LANDMARKS.filter(({ landmark }) => used.has(landmark));
	if (rows.length === 0 || landmarks.length === 0) return undefined;
	return html`${sheetHead("set-up-heights", EQUIPMENT, HEIGHTS, "Centimetres from the floor to a landmark of the body, for the ages of each level's classes: smallest to largest")}
<table class="register">${columns([undefined, 96, ...landmarks.map(() => 86)])}<thead><tr><th scope="col">Level</th><th scope="col">Ages</th>${landmarks.map(({ landmark }) => html`<th scope="col" class="number">${capital(landmark)}</th>`)}</tr></thead>
<tbody>${rows.map(
		({ level, ages }) =>
			html`<tr><th scope="row">${level.name}</th><td>${ages[0]} to ${ages[1]}</td>${landmarks.map(
				({ landmark }) => {
					const heights = landmarkHeights(landmark, ages);
					return html`<td class="number">${heights && `${Math.round(heights.low)}–${Math.round(heights.high)}`}</td>`;
				},
			)}</tr>`,
	)}</tbody></table>
<p class="small">${source.words.setUp.heightsCaution} ${source.words.setUp.source}</p>`;
}

function weekEquipment(source: SheetSource, week: WeekPlan): Html {
	const { apparatus, equipment } = source.curriculum;
	const lists = week.apparatus.map((plan) => ({
		name: apparatus.get(plan.apparatus)?.name ?? plan.apparatus,
		lines: new Map(equipmentFor(source.curriculum, plan).map((line) => [line.item, line.needed])),
	}));
	const items = [...equipment.values()].filter(({ id }) => lists.some(({ lines }) => lines.has(id)));
	const title = html`<h2>Week ${week.week}: ${source.markdown.plain(week.theme)}</h2>`;
	if (items.length === 0) return html`<section>${title}<p>Nothing to set up.</p></section>`;
	return html`<section>${title}${evenRuns(lists, MOST_APPARATUS).map(
		(
			run,
		) => html`<table class="grid">${columns([undefined, ...run.map(() => 70), 62])}<thead><tr><th scope="col">${counted(items.length, "item")}</th>${run.map(({ name }) => html`<th scope="col" class="number">${name}</th>`)}<th scope="col" class="number">Owned</th></tr></thead>
<tbody>${items
			.filter(({ id }) => run.some(({ lines }) => lines.has(id)))
			.map(
				(item) =>
					html`<tr><th scope="row">${item.name}</th>${run.map(({ lines }) => html`<td class="number">${lines.has(item.id) && shortNumber(lines.get(item.id) ?? 0)}</td>`)}<td class="number total">${item.owned}</td></tr>`,
			)}</tbody></table>`,
	)}</section>`;
}
