/**
 * A floor plan as pages and sheets show it: the drawing, the equipment list as its legend, and what its
 * signs and sizes mean. No links, so that it prints as it stands.
 */

import { FREE_SPACE } from "../../scripts/compute/placing.ts";
import { drawFloorPlan, isLong } from "../../scripts/figures/floor-plan.ts";
import { type Html, html, raw } from "../../scripts/render/html.ts";
import type { FloorPlanView } from "../../scripts/render/views/floor-plan.ts";
import { capital, shortNumber } from "../../scripts/render/views/words.ts";

const WORDS = {
	plan: "Floor plan",
	landing: "hatched: landing area",
	free: `dotted: ${shortNumber(FREE_SPACE.landing)} m that should stay free around it`,
	arrows: "arrows: rotation",
	plans: "Floor plans are drawn to scale.",
	placed: "Stations without a written place are placed where there is room.",
	published: (items: string, source: string) => `Size of ${items}: ${source}.`,
	common: `Other sizes, and the free space (${shortNumber(FREE_SPACE.between)} m between stations), are common practice; local codes and the makers' instructions come first.`,
} as const;

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
export function floorPlanFigure(view: FloorPlanView, { idPrefix, upright }: FloorPlanOptions): Html {
	const standing = upright && isLong(view.plan);
	const { svg, legend } = drawFloorPlan(view.plan, {
		title: `${WORDS.plan}: ${view.title}`,
		description: "",
		idPrefix,
		format: shortNumber,
		stations: view.stations.map(({ name }, i) => ({ label: stationLabel(i), name })),
		equipment: view.equipment,
		upright: standing,
	});
	const landing = view.plan.stations.some(({ props }) => props.some((prop) => prop.landing));
	const signs = [...(landing ? [WORDS.landing, WORDS.free] : []), WORDS.arrows].join("; ");
	return html`<figure class="plan-figure${standing && " upright"}">
<div class="plan-drawing">${raw(svg)}</div>
<figcaption>
<ol class="plan-stations">${view.stations.map(({ name }, i) => html`<li><b>${stationLabel(i)}</b> ${name}</li>`)}</ol>
${
	legend.length > 0 &&
	html`<ul class="plan-legend">${legend.map(
		({ name, count, stations, symbol }) =>
			html`<li>${raw(symbol)}<span><b>${shortNumber(count)}</b> ${name} <span class="small">(${stations.join(", ")})</span></span></li>`,
	)}</ul>`
}
<p class="small">${capital(signs)}.</p>
</figcaption>
</figure>`;
}

/** Where the places and sizes of these plans are from; once under all of a page's plans. */
export function floorPlanNote(views: readonly FloorPlanView[]): Html | undefined {
	if (views.length === 0) return undefined;
	const placed = views.some(({ plan }) => plan.stations.some(({ written }) => !written));
	const published = new Map<string, Set<string>>();
	for (const { source, items } of views.flatMap(({ sources }) => sources)) {
		published.set(source, new Set([...(published.get(source) ?? []), ...items]));
	}
	const sizes = Array.from(published, ([source, items]) => WORDS.published([...items].join(", "), source));
	const sentences = [placed && WORDS.placed, ...sizes, WORDS.common].filter((words) => words !== false);
	return html`<p class="small source">${WORDS.plans} ${sentences.join(" ")}</p>`;
}
