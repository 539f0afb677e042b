/** The index, at the back. */

import { html } from "../../scripts/views/html.ts";
import type { BinderView } from "../../scripts/views/sheets/binder.ts";
import { sheetHead } from "./pieces.ts";
import { linkIn, pageLine, pageOf } from "./references.ts";
import type { SheetSection } from "./section.ts";

export function indexSection(binder: BinderView, slot: number): SheetSection | undefined {
	const { index, words } = binder;
	if (index.length === 0) return undefined;
	const { binder: say, pageLabels } = words;
	const groups = index.map(
		({ letter, terms }) =>
			html`<h2>${letter}</h2><ul>${terms.map(({ words: name, see, to }) =>
				pageLine(
					html`${linkIn(binder, { to, name }, name)}${see !== undefined && html` <i>${see}</i>`}`,
					pageOf(binder, to),
				),
			)}</ul>`,
	);
	return {
		title: say.index,
		tab: say.index,
		slot,
		parts: [
			{
				label: pageLabels.index,
				head: say.index,
				html: html`${sheetHead("part-index", "", say.index, say.indexLead)}<div class="index">${groups}</div>`,
			},
		],
		targets: [{ id: "part-index", title: say.index, depth: 1 }],
	};
}
