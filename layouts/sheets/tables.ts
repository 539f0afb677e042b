/**
 * Coverage tables and equipment lists. A table with more columns than a page holds is split by
 * columns; widths are set by hand, so that nothing is ever cut off at the edge.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type {
	BinderView,
	CoverageLeaf,
	EquipmentLeaves,
	EquipmentOfWeek,
	ReachLeaf,
} from "../../scripts/views/sheets/binder.ts";
import { capital } from "../../scripts/views/words.ts";
import { paperOf } from "./paper.ts";
import { columns, evenRuns, sheetHead } from "./pieces.ts";
import { placeOf } from "./references.ts";
import type { SheetSection, SheetTarget } from "./section.ts";

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

export function coverageSection(binder: BinderView, slot: number): SheetSection | undefined {
	const { coverage, words } = binder;
	if (coverage.length === 0) return undefined;
	const say = words.binderTables;
	const { coverage: name } = words.destinations;
	const tables = coverage.map((leaf) => ({
		leaf,
		id: `coverage-${leaf.kind}-${leaf.level?.id ?? "all"}`,
		title: say.weeksAnd[leaf.kind](leaf.level?.name ?? say.allLevels),
	}));
	return {
		title: name,
		tab: name,
		slot,
		parts: [
			{
				label: words.pageLabels.coverage,
				head: name,
				runs: true,
				wide: tables.some(({ leaf }) => leaf.weeks.length > UPRIGHT_WEEKS),
				html: html`<div class="run-on"><span id="part-coverage"></span>${tables.map(
					({ leaf, id, title }) =>
						html`${sheetHead(
							id,
							name,
							title,
							leaf.level === undefined ? say.drillsLead : say.minutesLead,
						)}${weekTables(binder, leaf)}`,
				)}${binder.reach.map((leaf) => reachTables(binder, leaf))}${findingsSheet(binder)}</div>`,
			},
		],
		targets: [
			{ id: "part-coverage", title: name, depth: 1 },
			...tables.map(({ id, title }) => ({ id, title, depth: 2 as const })),
			...binder.reach.map(({ kind }) => ({ id: `reach-${kind}`, title: say.reach[kind], depth: 2 as const })),
			{ id: "coverage-findings", title: words.destinations.findings, depth: 2 },
		],
	};
}

/** Drills of all levels together, else the minutes of one. */
function weekTables({ club, words }: BinderView, { kind, level, weeks, rows }: CoverageLeaf): Html {
	const showDrills = level === undefined;
	const room = weeks.length > UPRIGHT_WEEKS ? paperOf(club).areaHeight - NAMES - TOTAL : UPRIGHT_ROOM;
	const runs = evenRuns(weeks, MOST_WEEKS);
	let from = 0;
	return html`${runs.map((run, position) => {
		const first = from;
		from += run.length;
		// The sum stands once, behind the last weeks.
		const isLast = position === runs.length - 1;
		const width = Math.floor(room / Math.max(10, run.length));
		const dense = width < 30 && "dense";
		return html`<table class="grid ${dense}">${columns([undefined, ...run.map(() => width), ...(isLast ? [TOTAL] : [])])}<thead><tr><th scope="col">${words.things[kind].one}</th>${run.map((week) => html`<th scope="col" class="number">${week}</th>`)}${isLast && html`<th scope="col" class="number">${showDrills ? words.binderTables.weeks : capital(words.minuteSign)}</th>`}</tr></thead>
<tbody>${rows.map(({ name, cells, total }) => {
			const sum = showDrills ? total.weeks : total.minutes;
			return html`<tr><th scope="row">${name}</th>${cells.slice(first, from).map((cell) => {
				if (cell === undefined) return html`<td class="none"></td>`;
				const weight = showDrills ? cell.drills : cell.minutes / 5;
				return html`<td class="number shade-${Math.min(3, Math.max(1, Math.ceil(weight)))}">${showDrills ? cell.drills : wholeMinutes(cell.minutes)}</td>`;
			})}${isLast && html`<td class="number total">${sum === 0 ? "" : showDrills ? sum : wholeMinutes(sum)}</td>`}</tr>`;
		})}</tbody></table>`;
	})}`;
}

/** Classes beside the names: their own names stand upright over narrow columns. */
const MOST_CLASSES = 9;
const CLASS_WIDTH = 54;

function reachTables({ words }: BinderView, { kind, groups, rows }: ReachLeaf): Html {
	const say = words.binderTables;
	const title = say.reach[kind];
	const runs = evenRuns(
		groups.map((name, at) => ({ name, at })),
		MOST_CLASSES,
	);
	const cellOf = (cell: ReachLeaf["rows"][number]["cells"][number]) => {
		if (cell === undefined) return html`<td class="none"></td>`;
		const rest =
			cell.performed === undefined
				? wholeMinutes(cell.minutes)
				: cell.performed > 0
					? Math.round(cell.performed)
					: `(${Math.round(cell.prepared ?? 0)})`;
		return html`<td class="number"><b>${cell.weeks.length}</b> ${rest}</td>`;
	};
	return html`${sheetHead(`reach-${kind}`, words.destinations.coverage, title, say.reachLead[kind])}${runs.map(
		(
			run,
		) => html`<table class="grid reach">${columns([undefined, ...run.map(() => CLASS_WIDTH)])}<thead><tr><th scope="col">${words.things[kind].one}</th>${run.map(({ name }) => html`<th scope="col" class="mark"><span>${name}</span></th>`)}</tr></thead>
<tbody>${rows.map(({ name, cells }) => html`<tr><th scope="row">${name}</th>${run.map(({ at }) => cellOf(cells[at]))}</tr>`)}</tbody></table>`,
	)}`;
}

/** What the measures find against the club's targets, and what the director accepts, with her reasons. */
function findingsSheet({ words, findings: { groups, accepted, count } }: BinderView): Html {
	const { findingsPage: say, destinations } = words;
	return html`${sheetHead("coverage-findings", destinations.coverage, destinations.findings, count === 0 ? say.allMet : say.against(count))}<div class="flow">${groups.map(
		({ harm, codes }) =>
			html`<section><h2>${say.harms[harm]}</h2>${codes.map(
				({ code, lines }) =>
					html`<h3>${words.catalogue[code].title}</h3><ul>${lines.map(({ what, fix }) => html`<li>${what} ${fix}</li>`)}</ul>`,
			)}</section>`,
	)}${
		accepted.length > 0 &&
		html`<section><h2>${say.accepted}</h2>${accepted.map(
			({ lines, reason, until }) =>
				html`<p><b>${say.reason}</b> ${reason}${until !== undefined && ` (${say.until(until)})`}</p><ul>${lines.map(({ what }) => html`<li>${what}</li>`)}</ul>`,
		)}</section>`
	}</div>`;
}

/** Minutes as whole ones; what is there but rounds to nothing is one. */
function wholeMinutes(minutes: number): string {
	return String(Math.max(1, Math.round(minutes)));
}

export function equipmentSection(binder: BinderView, slot: number): SheetSection | undefined {
	const { equipment, words } = binder;
	if (equipment.items.length === 0) return undefined;
	const say = words.binderTables;
	const { equipment: name } = words.destinations;
	const { weekByWeek } = words.classes;
	const label = words.pageLabels.equipment;
	const targets: SheetTarget[] = [
		{ id: "part-equipment", title: name, depth: 1 },
		{ id: "equipment-owned", title: say.owned, depth: 2 },
	];
	const sheets: Html[] = [storeRoom(binder, equipment)];
	const heights = heightTable(binder, equipment);
	if (heights !== undefined) {
		sheets.push(heights);
		targets.push({ id: "set-up-heights", title: say.heights, depth: 2 });
	}
	if (equipment.weeks.length > 0) {
		sheets.push(
			html`${sheetHead("equipment-weeks", name, weekByWeek, say.weeksLead)}${equipment.weeks.map((week) => weekEquipment(binder, week))}`,
		);
		targets.push({ id: "equipment-weeks", title: weekByWeek, depth: 2 });
	}
	const part = { label, head: say.owned, html: html`<div class="run-on">${sheets}</div>`, runs: true };
	return { title: name, tab: name, slot, parts: [part], targets };
}

function storeRoom(binder: BinderView, { items }: EquipmentLeaves): Html {
	const { destinations, equipmentPage: say, binderTables } = binder.words;
	return html`<span id="part-equipment"></span>${sheetHead("equipment-owned", destinations.equipment, binderTables.owned)}
<table class="register stock">${columns([230, 64, undefined, 56])}<thead><tr><th scope="col">${say.item}</th><th scope="col" class="number">${say.owned}</th><th scope="col">${say.kept}</th><th scope="col" class="number">${destinations.drills}</th></tr></thead>
<tbody>${items.map(
		({ link, aliases, owned, stored, drills }) =>
			html`<tr><th scope="row" id="${placeOf(binder, link.to).anchor}">${link.name}${aliases.length > 0 && html`<span class="small"> ${aliases.join(", ")}</span>`}</th><td class="number">${owned}</td><td>${stored}</td><td class="number">${drills}</td></tr>`,
	)}</tbody></table>`;
}

function heightTable(
	{ words }: BinderView,
	{ heights: { landmarks, rows } }: EquipmentLeaves,
): Html | undefined {
	if (rows.length === 0 || landmarks.length === 0) return undefined;
	return html`${sheetHead("set-up-heights", words.destinations.equipment, words.binderTables.heights, words.binderTables.heightsLead)}
<table class="register">${columns([undefined, 96, ...landmarks.map(() => 86)])}<thead><tr><th scope="col">${words.heads.level}</th><th scope="col">${words.classes.ages}</th>${landmarks.map((landmark) => html`<th scope="col" class="number">${capital(words.landmarkNames[landmark])}</th>`)}</tr></thead>
<tbody>${rows.map(
		({ level, ages, heights }) =>
			html`<tr><th scope="row">${level}</th><td>${words.classes.fromTo(...ages)}</td>${heights.map(
				(height) =>
					html`<td class="number">${height && `${Math.round(height.low)}–${Math.round(height.high)}`}</td>`,
			)}</tr>`,
	)}</tbody></table>
<p class="small">${words.setUp.heightsCaution} ${words.setUp.source}</p>`;
}

function weekEquipment({ words }: BinderView, { number, theme, apparatus, items }: EquipmentOfWeek): Html {
	const name = words.sheets.weekAndTheme(number, theme);
	const title = html`<h2>${name}</h2>`;
	if (items.length === 0) return html`<section>${title}<p>${words.binderTables.nothing}</p></section>`;
	const runs = evenRuns(
		apparatus.map((name, at) => ({ name, at })),
		MOST_APPARATUS,
	);
	return html`<section>${title}${runs.map(
		(
			run,
		) => html`<table class="grid">${columns([undefined, ...run.map(() => 70), 62])}<thead><tr><th scope="col">${words.counts.items(items.length)}</th>${run.map(({ name }) => html`<th scope="col" class="number">${name}</th>`)}<th scope="col" class="number">${words.equipmentPage.owned}</th></tr></thead>
<tbody>${items
			.filter(({ needed }) => run.some(({ at }) => needed[at] !== undefined))
			.map(({ name, owned, needed }) => {
				const cells = run.map(({ at }) => needed[at]);
				return html`<tr><th scope="row">${name}</th>${cells.map((count) => html`<td class="number">${count !== undefined && words.number(count)}</td>`)}<td class="number total">${owned}</td></tr>`;
			})}</tbody></table>`,
	)}</section>`;
}
