/**
 * Blank skill check sheets: rows for a coach to write names into by hand, a column for each skill of
 * the level. No name is ever in the handbook, and nothing about health belongs on the sheet.
 */

import type { Id, Level, LinkedSkill } from "../../scripts/model.ts";
import type { SheetPiece } from "../../scripts/print/sheet-file.ts";
import { html } from "../../scripts/render/html.ts";
import { evenRuns } from "./pieces.ts";
import { AS_DESIGNED, fixedPiece, type SheetMaker } from "./side.ts";

/** Columns and rows of a side. */
const MOST_SKILLS = 17;
const ROWS = 20;

const MARKS = [
	["/", "with help, or on the lower set-up"],
	["×", "alone and safely, once"],
	["⊗", "alone and safely, in two classes or more"],
	["", "not seen yet: leave it empty"],
] as const;

const NO_HEALTH =
	"First names or initials are enough. Write nothing about health, injuries or the family here; such things go to the person the club has named for them. Keep the sheet where only coaches see it, and destroy it when the club's own rules say so.";

/** The check sheet of a level; undefined where no skill is to be learnt. */
export function checkSheet(maker: SheetMaker, level: Level): SheetPiece | undefined {
	const { curriculum } = maker.site;
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
		return html`<div class="area box"><header class="head"><p class="when">${curriculum.term.name}${runs.length > 1 && ` · sheet ${i + 1} of ${runs.length}`}</p><h1>${level.name} <span>skill check</span></h1>
<p class="fields"><span>Class</span><span>Coach</span><span>Dates</span></p></header>
<table class="checks"><thead><tr><td></td>${Array.from(groups, ([id, own]) => html`<th scope="colgroup" colspan="${own.length}" class="group">${curriculum.apparatus.get(id)?.name ?? "Anywhere"}</th>`)}</tr>
<tr><th scope="col" class="name">Name</th>${Array.from(groups.values()).flatMap((own) => own.map((skill, j) => html`<th scope="col" class="skill${j === 0 && " start"}"><span>${skill.name}</span></th>`))}</tr></thead>
<tbody>${Array.from({ length: ROWS }, (_, row) => html`<tr><td class="name">${row + 1}</td>${Array.from(groups.values()).flatMap((own) => own.map((_, j) => html`<td${j === 0 && html` class="start"`}></td>`))}</tr>`)}</tbody></table>
<dl class="marks">${MARKS.map(([mark, words]) => html`<div><dt>${markSign(mark)}</dt><dd>${words}</dd></div>`)}</dl>
<p class="small">A mark says what was seen on a day, never what a gymnast is. ${NO_HEALTH}</p></div>`;
	});
	return {
		title: `Skill check: ${level.name}`,
		label: `Check ${level.name}`,
		html: fixedPiece(maker, "check-sheet", sides, true),
		most: sides.length,
		steps: AS_DESIGNED,
		words: skills.map(({ name }) => name),
		place: level.source.place(level.path),
	};
}

/** Drawn, not written: a font may lack the signs. */
function markSign(mark: string) {
	const line = mark === "" ? "" : mark === "/" ? "M5 15L15 5" : "M5 15L15 5M5 5L15 15";
	return html`<svg viewBox="0 0 20 20" aria-hidden="true"><rect x="0.500" y="0.500" width="19" height="19" fill="none" stroke="#000"/>${line !== "" && html`<path d="${line}" stroke="#000" stroke-width="1.600" fill="none"/>`}${mark === "⊗" && html`<circle cx="10" cy="10" r="8" fill="none" stroke="#000" stroke-width="1.200"/>`}</svg>`;
}
