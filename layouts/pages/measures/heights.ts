/**
 * Heights: centimetres at each landmark, for each class and by age.
 */

import { type Html, html } from "../../../scripts/views/html.ts";
import type { HeightsView } from "../../../scripts/views/measures/heights.ts";
import { capital } from "../../../scripts/views/words.ts";
import { rangeBars } from "../../parts/charts.ts";
import { sign } from "../../parts/icons.ts";
import { measureFoot, measureTop, pictureAndTable, scrollTable } from "../../parts/measure-parts.ts";
import { a, fold, inWords, type PageContext, section } from "../../parts/page.ts";

const cm = (value: number): string => String(Math.round(value));

export function heightsPage(ctx: PageContext, view: HeightsView): Html {
	const { words } = ctx;
	const say = words.heights;
	return html`${measureTop(ctx, view.head)}
<div class="safety"><p>${sign("caution")}<strong>${say.approximate}</strong> ${words.setUp.heightsCaution}</p></div>
${
	view.classes.length > 0 &&
	section(
		"classes",
		say.byClass,
		html`<p class="small">${say.note}</p>
${scrollTable(
	say.classTable,
	[
		words.heads.class,
		words.classes.ages,
		...(view.classes[0]?.ranges ?? []).map(({ landmark }) => capital(words.landmarkNames[landmark])),
	],
	view.classes.map(
		({ id, link, ages, ranges }) =>
			html`<tr id="heights--${id}"><th scope="row">${a(ctx, link)}</th><td>${ages[0]}–${ages[1]}</td>${ranges.map(({ low, high }) => html`<td>${cm(low)}–${cm(high)}</td>`)}</tr>`,
	),
)}`,
	)
}
${[...view.landmarks].reverse().map(({ heights, drills }) => {
	const name = capital(words.landmarks[heights.landmark]);
	return section(
		`at-${heights.landmark}`,
		name,
		html`<p class="small">${say.share(heights.share, heights.landmark)}</p>
${pictureAndTable(
	rangeBars(
		ctx,
		{
			marks: [say.medianGirls, say.medianBoys],
			unit: "cm",
			ranges: heights.ages.map(({ years, low, high, medianGirls, medianBoys }) => ({
				name: say.age(years),
				low,
				high,
				marks: [medianGirls, medianBoys],
			})),
		},
		{
			title: say.chartTitle(name),
			description: say.chartDescription,
			idPrefix: `chart-${heights.landmark}`,
		},
	),
	scrollTable(
		say.ageTable(name),
		say.ageHeads,
		heights.ages.map(
			({ years, low, medianGirls, medianBoys, high }) =>
				html`<tr id="${heights.landmark}--${years}"><th scope="row">${years}</th>${[low, medianGirls, medianBoys, high].map((value) => html`<td>${cm(value)}</td>`)}</tr>`,
		),
	),
)}
${drills.length > 0 && fold(say.usedBy(drills.length), html`<p>${inWords(ctx, drills)}</p>`)}`,
	);
})}
${measureFoot(ctx, view.head)}`;
}
