/**
 * Blank skill check sheets: rows for a coach to write names into by hand, a column for each skill of
 * the level, and on the sides after it what must be seen of each. No name is ever in the handbook, and nothing about health belongs on the sheet.
 */

import type { Id, Level, LinkedSkill } from "../../scripts/model.ts";
import { criteriaOf } from "../../scripts/views/drill.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { evenRuns } from "./pieces.ts";
import type { SheetPiece } from "./sheet-file.ts";
import { AS_DESIGNED, fixedPiece, type SheetMaker } from "./side.ts";

/** Columns and rows of a side. */
const MOST_SKILLS = 17;
const ROWS = 20;
/** Lines of what must be seen that the two columns of a side hold, and letters in one of them. */
const LINES = 96;
const LETTERS = 46;

const MARKS = [
	["helped", "/"],
	["once", "×"],
	["twice", "⊗"],
	["notSeen", ""],
] as const;

/** The check sheet of a level; undefined where no skill is to be learnt. */
export function checkSheet(maker: SheetMaker, level: Level): SheetPiece | undefined {
	const { curriculum, words } = maker.site;
	const say = words.checkSheet;
	const skills = [...curriculum.skills.values()].filter(
		(skill) => skill.levels.includes(level.id) && !level.entry.includes(skill.id),
	);
	if (skills.length === 0) return undefined;
	const place = (skill: LinkedSkill): Id => skill.apparatus[0] ?? "";
	const order = [...curriculum.apparatus.keys()];
	const rank = (skill: LinkedSkill) => (order.indexOf(place(skill)) + order.length + 1) % (order.length + 1);
	const sorted = [...skills].sort((a, b) => rank(a) - rank(b));
	const runs = evenRuns(sorted, MOST_SKILLS);
	const sides = runs.map((run, i) => {
		const groups = Map.groupBy(run, place);
		return html`<div class="area box"><header class="head"><p class="when">${curriculum.term.name}${runs.length > 1 && ` · ${say.sheetOf(i + 1, runs.length)}`}</p><h1>${level.name} <span>${say.check}</span></h1>
<p class="fields"><span>${words.heads.class}</span><span>${say.coach}</span><span>${say.dates}</span></p></header>
<table class="checks"><thead><tr><td></td>${Array.from(groups, ([id, own]) => html`<th scope="colgroup" colspan="${own.length}" class="group">${curriculum.apparatus.get(id)?.name ?? words.anywhere}</th>`)}</tr>
<tr><th scope="col" class="name">${say.name}</th>${Array.from(groups.values()).flatMap((own) => own.map((skill, j) => html`<th scope="col" class="skill${j === 0 && " start"}"><span>${skill.name}</span></th>`))}</tr></thead>
<tbody>${Array.from({ length: ROWS }, (_, row) => html`<tr><td class="name">${row + 1}</td>${Array.from(groups.values()).flatMap((own) => own.map((_, j) => html`<td${j === 0 && html` class="start"`}></td>`))}</tr>`)}</tbody></table>
<dl class="marks">${MARKS.map(([meaning, mark]) => html`<div><dt>${markSign(mark)}</dt><dd>${say.marks[meaning]}</dd></div>`)}</dl>
<p class="small">${say.mark} ${say.noHealth}</p></div>`;
	});
	const criteria = sorted.flatMap((skill) => {
		const lines = criteriaOf(maker.site, "", skill.id);
		return lines.length === 0 ? [] : [{ skill, lines }];
	});
	const seen = bySide(criteria).map(
		(
			run,
		) => html`<div class="area box"><header class="head"><p class="when">${curriculum.term.name}</p><h1>${level.name} <span>${words.skills.criteria}</span></h1></header>
<dl class="criteria">${run.map(({ skill, lines }) => html`<div><dt>${skill.name}</dt>${lines.map((line) => html`<dd>${line}</dd>`)}</div>`)}</dl></div>`,
	);
	return {
		title: say.title(level.name),
		label: words.pageLabels.check(level.name),
		html: fixedPiece(maker, "check-sheet", [...sides, ...seen], true),
		most: sides.length + seen.length,
		steps: AS_DESIGNED,
		words: skills.map(({ name }) => name),
		safety: [],
		place: level.source.place(level.path),
	};
}

interface Criteria {
	readonly skill: LinkedSkill;
	readonly lines: readonly Html[];
}

/** Skills as many to a side as their lines leave room for. */
function bySide(criteria: readonly Criteria[]): readonly (readonly Criteria[])[] {
	const sides: Criteria[][] = [];
	let left = 0;
	for (const one of criteria) {
		const needs = one.skill.criteria.reduce((sum, { length }) => sum + Math.ceil(length / LETTERS), 2);
		if (needs > left) {
			sides.push([]);
			left = LINES;
		}
		sides.at(-1)?.push(one);
		left -= needs;
	}
	return sides;
}

/** Drawn, not written: a font may lack the signs. */
function markSign(mark: string) {
	const line = mark === "" ? "" : mark === "/" ? "M5 15L15 5" : "M5 15L15 5M5 5L15 15";
	return html`<svg viewBox="0 0 20 20" aria-hidden="true"><rect x="0.500" y="0.500" width="19" height="19" fill="none" stroke="#000"/>${line !== "" && html`<path d="${line}" stroke="#000" stroke-width="1.600" fill="none"/>`}${mark === "⊗" && html`<circle cx="10" cy="10" r="8" fill="none" stroke="#000" stroke-width="1.200"/>`}</svg>`;
}
