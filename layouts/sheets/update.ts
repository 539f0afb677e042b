/** The sheet in front of an update. */

import { html } from "../../scripts/views/html.ts";
import type { UpdateView } from "../../scripts/views/sheets/update.ts";
import type { Words } from "../../scripts/words/words.ts";
import { sheetHead } from "./pieces.ts";
import type { SheetSection } from "./section.ts";

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
<p class="lead">${say.leaves(view.out, view.in)} ${say.to(view.to)}</p>
<ol>
${say.steps.map((step) => html`<li>${step}</li>`)}
</ol>
<p>${say.bars}</p>
<table class="plan"><thead><tr><th scope="col">${say.done}</th><th scope="col">${say.section}</th><th scope="col">${say.takeOut}</th><th scope="col">${say.putIn}</th></tr></thead>
<tbody>${view.rows.map(
					({ section, takeOut, putIn, place }) =>
						html`<tr><td><span style="display:inline-block;width:11px;height:11px;border:1.2px solid #000"></span></td><th scope="row">${section}</th><td>${takeOut}</td><td>${putIn}${place !== undefined && html`<br><span class="small">${place}</span>`}</td></tr>`,
				)}</tbody></table>
${view.otherLook && html`<p>${say.look}</p>`}`,
			},
		],
		targets: [{ id: "part-update", title: say.title, depth: 1 }],
	};
}
