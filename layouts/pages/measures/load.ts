/**
 * Load: landings and hand contacts of each group, week by week. A count for planning.
 */

import { type Html, html } from "../../../scripts/views/html.ts";
import type { LoadView } from "../../../scripts/views/measures/load.ts";
import { barChart } from "../../parts/charts.ts";
import { sign } from "../../parts/icons.ts";
import { loadHeads, loadRow } from "../../parts/load-table.ts";
import { measureFoot, measureTop, nothingPlanned, scrollTable } from "../../parts/measure-parts.ts";
import { a, type PageContext, section } from "../../parts/page.ts";

export function loadPage(ctx: PageContext, view: LoadView): Html {
	const { words } = ctx;
	const say = words.load;
	return html`${measureTop(ctx, view.head)}
<div class="safety"><p>${sign("caution")}<strong>${say.notMedical}</strong> ${say.caution}</p></div>
${view.head.empty && nothingPlanned(ctx)}
${view.groups.map(({ id, group, charts, rows }) =>
	section(
		`group-${id}`,
		a(ctx, group),
		html`<div class="pictures">${charts.map(
			({ what, bars }, i) =>
				html`<div><h3>${say.kinds[what]}</h3>${barChart(
					ctx,
					{ parts: [say.kinds[what]], bars },
					{
						title: say.chartTitle[what](group.name),
						description: say.chartDescription,
						idPrefix: `load-${id}-${i + 1}`,
					},
				)}</div>`,
		)}</div>
${scrollTable(
	say.tableOf(group.name),
	[words.heads.week, ...loadHeads(ctx)],
	rows.map((row) => loadRow(ctx, row, row.week, `load--${id}--${row.number}`)),
)}`,
	),
)}
${measureFoot(ctx, view.head)}`;
}
