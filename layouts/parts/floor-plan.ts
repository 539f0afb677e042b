/**
 * A floor plan as pages and sheets show it: the drawing, the equipment list as its legend, and what its
 * signs and sizes mean. No links, so that it prints as it stands.
 */

import { drawFloorPlan, isLong } from "../../scripts/figures/floor-plan.ts";
import type { FloorPlanView } from "../../scripts/views/floor-plan.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import { capital } from "../../scripts/views/words.ts";
import type { Words } from "../../scripts/words/words.ts";

export interface FloorPlanOptions {
	/** Keeps the drawing's ids apart from others on the page; letters, digits and hyphens. */
	readonly idPrefix: string;
	/** Long, narrow plans stand upright, for a phone. */
	readonly upright: boolean;
}

/** The label of a station, the same on its card and on the plan. */
export function stationLabel(position: number): string {
	return String(position + 1);
}

/** The plan of one block of stations. */
export function floorPlanFigure(
	words: Words,
	view: FloorPlanView,
	{ idPrefix, upright }: FloorPlanOptions,
): Html {
	const say = words.floorPlan;
	const standing = upright && isLong(view.plan);
	const { svg, legend, beyond } = drawFloorPlan(view.plan, {
		title: say.title(words.ofBlock(view.apparatus, view.week, view.block)),
		description: "",
		idPrefix,
		format: words.number,
		words: say.drawing,
		stations: view.stations.map(({ name }, i) => ({ label: stationLabel(i), name })),
		equipment: view.equipment,
		...(view.coaches && { coaches: view.coaches.spots }),
		upright: standing,
	});
	const landing = view.plan.stations.some(({ props }) => props.some((prop) => prop.landing));
	const runs = view.plan.stations.some(({ run }) => run !== undefined);
	const after = view.plan.stations.some(({ runOut }) => runOut !== undefined);
	const label = (number: number) => stationLabel(number - 1);
	const signs = [
		...(landing ? [say.landing, say.free(view.free.landing)] : []),
		...(view.plan.stations.length > 1 ? [say.arrows] : []),
		...(beyond ? [say.beyond] : []),
		...(runs ? [say.run] : []),
		...(after ? [say.runOut] : []),
		...(view.waits ? [say.queue] : []),
		...(view.coaches
			? [
					say.coaches(
						view.coaches.group,
						view.coaches.spots.map(({ coach, does, stations }) => say.coach(coach, does, stations)),
					),
				]
			: []),
		...(view.plan.walls.length > 0 ? [say.walls] : []),
		...(view.plan.landmarks.length > 0 ? [say.landmarks] : []),
		...(view.blocked.length > 0
			? [say.noWay(view.blocked.map(({ from, to }) => say.fromTo(label(from), label(to))))]
			: []),
	].join(words.semicolon);
	return html`<figure class="plan-figure${standing && " upright"}">
<div class="plan-drawing">${raw(svg)}</div>
<figcaption>
<ol class="plan-stations">${view.stations.map(({ name }, i) => html`<li><b>${stationLabel(i)}</b> ${name}</li>`)}</ol>
${
	legend.length > 0 &&
	html`<ul class="plan-legend">${legend.map(
		({ name, count, stations, symbol }) =>
			html`<li>${raw(symbol)}<span><b>${words.number(count)}</b> ${name} <span class="small">(${stations.join(", ")})</span></span></li>`,
	)}</ul>`
}
${signs !== "" && html`<p class="small">${capital(signs)}.</p>`}
</figcaption>
</figure>`;
}

/** Where the places and sizes of these plans are from; once under all of a page's plans. */
export function floorPlanNote(words: Words, views: readonly FloorPlanView[]): Html | undefined {
	const [first] = views;
	if (first === undefined) return undefined;
	const say = words.floorPlan;
	const placed = views.some(({ plan }) => plan.stations.some(({ written }) => !written));
	const published = new Map<string, Set<string>>();
	for (const { source, items } of views.flatMap(({ sources }) => sources)) {
		published.set(source, new Set([...(published.get(source) ?? []), ...items]));
	}
	const sizes = Array.from(published, ([source, items]) => say.published([...items].join(", "), source));
	const sentences = [placed && say.placed, ...sizes, say.common(first.free.between)].filter(
		(sentence) => sentence !== false,
	);
	return html`<p class="small source">${say.plans} ${sentences.join(" ")}</p>`;
}
