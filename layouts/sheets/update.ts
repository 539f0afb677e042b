/** The sheet in front of an update: of the binder, of a volume, or of a pocket. */

import { NOWHERE } from "../../scripts/problems.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import type { UpdateView } from "../../scripts/views/sheets/update.ts";
import type { Words } from "../../scripts/words/words.ts";
import { sheetHead } from "./pieces.ts";
import type { SheetSection } from "./section.ts";
import type { SheetPiece } from "./sheet-file.ts";
import { pouredPiece, stepsFrom } from "./side.ts";

export function updateSection({ update: say }: Pick<Words, "update">, view: UpdateView): SheetSection {
	return {
		title: say.title,
		tab: "",
		slot: undefined,
		parts: [
			{
				label: say.label,
				head: say.title,
				html: html`${sheetHead("part-update", view.binder, say.title, say.from(view.from))}
${whatToDo(say, view)}
<p>${say.bars}</p>
${listOf(say, view)}
${view.otherLook && html`<p>${say.look}</p>`}`,
			},
		],
		targets: [{ id: "part-update", title: say.title, depth: 1 }],
	};
}

/** The same as a sheet of a pocket, whose weeks change whole: no bar stands beside what is new. */
export function updatePiece(facts: SheetFacts, view: UpdateView): SheetPiece {
	const { update: say } = facts.words;
	return {
		title: say.title,
		label: say.label,
		html: pouredPiece(facts, {
			kind: "update-sheet",
			bound: true,
			head: html`<header class="head"><p class="when">${view.binder}</p><h1>${say.title}</h1><p>${say.from(view.from)}</p></header>`,
			again: html`<header class="again"><b>${say.title}</b></header>`,
			items: [
				html`<div class="item prose">${whatToDo(say, view)}</div>`,
				html`<div class="item">${listOf(say, view)}</div>`,
			],
		}),
		most: 1,
		leaves: true,
		steps: stepsFrom(1.12, 1),
		words: view.rows.map(({ putIn }) => putIn),
		safety: [],
		place: NOWHERE,
	};
}

function whatToDo(say: Words["update"], view: UpdateView): Html {
	return html`<p class="lead">${say.leaves(view.out, view.in)} ${say.to(view.to)}</p>
<ol>
${say.steps.map((step) => html`<li>${step}</li>`)}
</ol>`;
}

function listOf(say: Words["update"], { rows }: UpdateView): Html {
	return html`<table class="plan"><thead><tr><th scope="col">${say.done}</th><th scope="col">${say.section}</th><th scope="col">${say.takeOut}</th><th scope="col">${say.putIn}</th></tr></thead>
<tbody>${rows.map(
		({ section, takeOut, putIn, place }) =>
			html`<tr><td><span style="display:inline-block;width:11px;height:11px;border:1.2px solid #000"></span></td><th scope="row">${section}</th><td>${takeOut}</td><td>${putIn}${place !== undefined && html`<br><span class="small">${place}</span>`}</td></tr>`,
	)}</tbody></table>`;
}
