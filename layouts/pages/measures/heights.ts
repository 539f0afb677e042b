/**
 * Heights: centimetres at each landmark, for each class and by age.
 */

import { type Html, html } from "../../../scripts/render/html.ts";
import type { HeightsView } from "../../../scripts/render/views/measures/heights.ts";
import { capital, counted } from "../../../scripts/render/views/words.ts";
import { rangeBars } from "../../parts/charts.ts";
import { LANDMARK_WORDS } from "../../parts/drill-parts.ts";
import { sign } from "../../parts/icons.ts";
import { measureFoot, measureTop, pictureAndTable, scrollTable } from "../../parts/measure-parts.ts";
import { a, fold, inWords, type PageContext, section } from "../../parts/page.ts";

const cm = (value: number): string => String(Math.round(value));

/** The page of heights. */
export function heightsPage(ctx: PageContext, view: HeightsView): Html {
	return html`${measureTop(ctx, view.head)}
<div class="safety"><p>${sign("caution")}<strong>For children every figure is approximate.</strong> ${view.caution}</p></div>
${
	view.classes.length > 0 &&
	section(
		"classes",
		"By class",
		html`<p class="small">In cm, from the 5th percentile of the youngest to the 95th of the oldest; bare feet, standing tall.</p>
${scrollTable(
	"Heights by class, in centimetres",
	["Class", "Ages", ...(view.classes[0]?.ranges ?? []).map(({ landmark }) => capital(landmark))],
	view.classes.map(
		({ id, link, ages, ranges }) =>
			html`<tr id="heights--${id}"><th scope="row">${a(ctx, link)}</th><td>${ages[0]}–${ages[1]}</td>${ranges.map(({ low, high }) => html`<td>${cm(low)}–${cm(high)}</td>`)}</tr>`,
	),
)}`,
	)
}
${[...view.landmarks].reverse().map(({ heights, drills }) => {
	const name = capital(LANDMARK_WORDS[heights.landmark]);
	return section(
		`at-${heights.landmark}`,
		name,
		html`<p class="small">${heights.share === 1 ? "Stature" : `Stature × ${Math.round(heights.share * 1000) / 1000}`}; ${heights.source}.</p>
${pictureAndTable(
	rangeBars(
		{
			marks: ["median, girls", "median, boys"],
			unit: "cm",
			ranges: heights.ages.map(({ years, low, high, medianGirls, medianBoys }) => ({
				name: `Age ${years}`,
				low,
				high,
				marks: [medianGirls, medianBoys],
			})),
		},
		{
			title: `${name} by age, in cm`,
			description: "From the 5th to the 95th percentile. The table beside this picture has the same numbers.",
			idPrefix: `chart-${heights.landmark}`,
		},
	),
	scrollTable(
		`${name} by age, in centimetres`,
		["Age", "5th percentile", "Median, girls", "Median, boys", "95th percentile"],
		heights.ages.map(
			({ years, low, medianGirls, medianBoys, high }) =>
				html`<tr id="${heights.landmark}--${years}"><th scope="row">${years}</th>${[low, medianGirls, medianBoys, high].map((value) => html`<td>${cm(value)}</td>`)}</tr>`,
		),
	),
)}
${drills.length > 0 && fold(`Used by ${counted(drills.length, "drill")}`, html`<p>${inWords(ctx, drills)}</p>`)}`,
	);
})}
${measureFoot(ctx, view.head)}`;
}
