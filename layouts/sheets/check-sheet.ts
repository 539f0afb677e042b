/**
 * Blank skill check sheets: rows for a coach to write names into by hand, a column for each skill of
 * the level, and on the sides after it what must be seen of each. No name is ever in the handbook, and nothing about health belongs on the sheet.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { CheckSheetView } from "../../scripts/views/sheets/check-sheet.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import { pageCode } from "./page-code.ts";
import { evenRuns } from "./pieces.ts";
import type { Drawn } from "./sheet-file.ts";
import { AS_DESIGNED, fixedPiece } from "./side.ts";

type Skill = CheckSheetView["skills"][number];

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

export function checkSheet(facts: SheetFacts, { level, page, skills }: CheckSheetView): Drawn {
	const runs = evenRuns(skills, MOST_SKILLS);
	const sides = [
		...runs.map((run, i) =>
			marksSide(facts, { level, page }, run, runs.length > 1 ? [i + 1, runs.length] : undefined),
		),
		...bySide(skills).map((run) => criteriaSide(facts, level, run)),
	];
	return { html: fixedPiece(facts, "check-sheet", sides, true), most: sides.length, steps: AS_DESIGNED };
}

/** A side to fill in; `sheet` is its place among several. */
function marksSide(
	facts: SheetFacts,
	{ level, page }: Pick<CheckSheetView, "level" | "page">,
	skills: readonly Skill[],
	sheet: readonly [number, number] | undefined,
): Html {
	const { term, words } = facts;
	const say = words.checkSheet;
	const groups = [...Map.groupBy(skills, ({ apparatus }) => apparatus)];
	/** Columns, a line before the first of each apparatus. */
	const columns = groups.flatMap(([, own]) => own.map(({ name }, i) => ({ name, starts: i === 0 })));
	return html`<div class="area box"><div class="with-code"><header class="head"><p class="when">${term}${sheet && ` · ${say.sheetOf(...sheet)}`}</p><h1>${level} <span>${say.check}</span></h1>
<p class="fields"><span>${words.heads.class}</span><span>${say.coach}</span><span>${say.dates}</span></p></header>${pageCode(facts, page, level)}</div>
<table class="checks"><thead><tr><td></td>${groups.map(([apparatus, own]) => html`<th scope="colgroup" colspan="${own.length}" class="group">${apparatus ?? words.anywhere}</th>`)}</tr>
<tr><th scope="col" class="name">${say.name}</th>${columns.map(({ name, starts }) => html`<th scope="col" class="skill${starts && " start"}"><span>${name}</span></th>`)}</tr></thead>
<tbody>${Array.from({ length: ROWS }, (_, row) => html`<tr><td class="name">${row + 1}</td>${columns.map(({ starts }) => html`<td${starts && html` class="start"`}><span class="tally"><i></i><i></i><i></i></span></td>`)}</tr>`)}</tbody></table>
<dl class="marks">${MARKS.map(([meaning, mark]) => html`<div><dt>${markSign(mark)}</dt><dd>${say.marks[meaning]}</dd></div>`)}</dl>
<p class="small">${say.mark} ${say.noHealth}</p></div>`;
}

function criteriaSide({ term, words }: SheetFacts, level: string, skills: readonly Skill[]): Html {
	return html`<div class="area box"><header class="head"><p class="when">${term}</p><h1>${level} <span>${words.skills.criteria}</span></h1></header>
<dl class="criteria">${skills.map(({ name, criteria }) => html`<div><dt>${name}</dt>${criteria.map(({ line }) => html`<dd>${line}</dd>`)}</div>`)}</dl></div>`;
}

/** Skills of which something must be seen, as many to a side as their lines leave room for. */
function bySide(skills: readonly Skill[]): readonly (readonly Skill[])[] {
	const sides: Skill[][] = [];
	let left = 0;
	for (const skill of skills) {
		if (skill.criteria.length === 0) continue;
		const needs = skill.criteria.reduce((sum, { letters }) => sum + Math.ceil(letters / LETTERS), 2);
		if (needs > left) {
			sides.push([]);
			left = LINES;
		}
		sides.at(-1)?.push(skill);
		left -= needs;
	}
	return sides;
}

/** Drawn, not written: a font may lack the signs. */
function markSign(mark: string) {
	const line = mark === "" ? "" : mark === "/" ? "M5 15L15 5" : "M5 15L15 5M5 5L15 15";
	return html`<svg viewBox="0 0 20 20" aria-hidden="true"><rect x="0.500" y="0.500" width="19" height="19" fill="none" stroke="#000"/>${line !== "" && html`<path d="${line}" stroke="#000" stroke-width="1.600" fill="none"/>`}${mark === "⊗" && html`<circle cx="10" cy="10" r="8" fill="none" stroke="#000" stroke-width="1.200"/>`}</svg>`;
}
