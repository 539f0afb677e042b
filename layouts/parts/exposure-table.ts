/**
 * What the term gives each level of a drill, as a table.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { DrillView } from "../../scripts/render/views/drill.ts";
import { contactWords } from "../../scripts/render/views/measures/load.ts";
import { shortNumber } from "../../scripts/render/views/words.ts";
import { scrollTable } from "./measure-parts.ts";
import { a, inWords, type PageContext } from "./page.ts";

/** The exposures of a drill, added up by level, with its load where it says its contacts. */
export function exposureTable(ctx: PageContext, { exposure, contacts }: DrillView): Html {
	const loaded = contacts !== undefined;
	const table = scrollTable(
		"Planned over the term, by level",
		[
			"Level",
			"Times",
			"Minutes",
			"Reps",
			...(loaded ? ["Landings", "Hands"] : []),
			html`<span class="left">Weeks</span>`,
		],
		exposure.map(
			({ level, times, minutes, repetitions, landings, hands, weeks }) =>
				html`<tr><th scope="row">${a(ctx, level)}</th><td>${times}</td><td>${shortNumber(minutes)}</td><td>${repetitions === undefined ? "–" : shortNumber(repetitions)}</td>${
					loaded && html`<td>${shortNumber(landings ?? 0)}</td><td>${shortNumber(hands ?? 0)}</td>`
				}<td class="left weeks">${inWords(ctx, weeks)}</td></tr>`,
		),
	);
	return html`${table}${
		contacts &&
		html`<p class="small">One repetition: ${contactWords(contacts)}. A count for planning, not a medical measure. ${a(ctx, { to: "measures/load/", name: "The load of each week" })}</p>`
	}`;
}
