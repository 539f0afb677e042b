/**
 * Load: landings and hand contacts of each level, week by week. A count for planning.
 */

import { type Html, html } from "../../../scripts/render/html.ts";
import type { LoadView } from "../../../scripts/render/views/measures/load.ts";
import { barChart } from "../../parts/charts.ts";
import { sign } from "../../parts/icons.ts";
import { loadHeads, loadRow } from "../../parts/load-table.ts";
import { measureFoot, measureTop, nothingPlanned, scrollTable } from "../../parts/measure-parts.ts";
import { a, type PageContext, section } from "../../parts/page.ts";

/** The page of load. */
export function loadPage(ctx: PageContext, view: LoadView): Html {
	return html`${measureTop(ctx, view.head)}
<div class="safety"><p>${sign("caution")}<strong>A count for planning, not a medical measure.</strong> It counts what is written, not how hard a landing is, how it is done, or how a gymnast is. No number and no step here is called safe or unsafe.</p></div>
${view.head.empty && nothingPlanned(ctx)}
${view.levels.map(({ id, level, charts, rows }) =>
	section(
		`level-${id}`,
		a(ctx, level),
		html`<div class="pictures">${charts.map(
			({ what, bars }, i) =>
				html`<div><h3>${what}</h3>${barChart(
					ctx,
					{ parts: [what], bars },
					{
						title: `${level.name}: ${what.toLowerCase()} by week`,
						description:
							"With the step over the mean of the three weeks before. The table below has the same numbers.",
						idPrefix: `load-${id}-${i + 1}`,
					},
				)}</div>`,
		)}</div>
${scrollTable(
	`${level.name}: landings and hand contacts by week`,
	["Week", ...loadHeads, html`<span class="left">Counted from</span>`],
	rows.map((row) => loadRow(ctx, row, row.week, `load--${id}--${row.number}`)),
)}`,
	),
)}
${measureFoot(ctx, view.head)}`;
}
