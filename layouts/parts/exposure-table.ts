/**
 * What the term gives each level of a drill, as a table.
 */

import type { DrillView } from "../../scripts/views/drill.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { scrollTable } from "./measure-parts.ts";
import { a, inWords, more, type PageContext } from "./page.ts";

/** The exposures of a drill, added up by level, with its load where it says its contacts. */
export function exposureTable(ctx: PageContext, { exposure, contacts }: DrillView): Html {
	const loaded = contacts !== undefined;
	const { words } = ctx;
	const { heads } = words;
	const table = scrollTable(
		words.exposure.table,
		[
			heads.level,
			heads.times,
			heads.minutes,
			heads.reps,
			...(loaded ? [heads.landings, heads.hands] : []),
			html`<span class="left">${heads.weeks}</span>`,
		],
		exposure.map(
			({ level, times, minutes, repetitions, landings, hands, weeks }) =>
				html`<tr><th scope="row">${a(ctx, level)}</th><td>${times}</td><td>${words.number(minutes)}</td><td>${repetitions === undefined ? "–" : words.number(repetitions)}</td>${
					loaded && html`<td>${words.number(landings ?? 0)}</td><td>${words.number(hands ?? 0)}</td>`
				}<td class="left weeks">${inWords(ctx, weeks)}</td></tr>`,
		),
	);
	return html`${table}${
		contacts &&
		html`<p class="small">${words.exposure.one(words.drill.contacts(contacts.landings, contacts.hands))} ${words.load.notMedical} ${more(ctx, { to: "measures/load/", name: words.exposure.load })}</p>`
	}`;
}
