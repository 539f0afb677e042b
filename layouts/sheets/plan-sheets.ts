/** Floor plans of an apparatus in a week, large enough to hang beside it. */

import type { ApparatusPlan, WeekPlan } from "../../scripts/model.ts";
import type { SheetPiece } from "../../scripts/print/sheet-file.ts";
import { html } from "../../scripts/render/html.ts";
import { floorPlanView } from "../../scripts/render/views/floor-plan.ts";
import { shortNumber } from "../../scripts/render/views/words.ts";
import { floorPlanFigure, floorPlanNote } from "../parts/floor-plan.ts";
import { pouredPiece, type SheetMaker, stepsFrom } from "./side.ts";

/** The plans of all blocks of stations; undefined where there is none. */
export function planSheet(maker: SheetMaker, week: WeekPlan, plan: ApparatusPlan): SheetPiece | undefined {
	const { curriculum } = maker.site;
	const views = plan.blocks.flatMap((block) => {
		const view = floorPlanView(curriculum, week, plan, block);
		return view === undefined ? [] : [{ block, view }];
	});
	if (views.length === 0) return undefined;
	const name = curriculum.apparatus.get(plan.apparatus)?.name ?? plan.apparatus;
	const title = `Floor plans: ${name}, week ${week.week}`;
	return {
		title,
		label: `${name} plan W${week.week}`,
		html: pouredPiece(maker, {
			kind: "plan-sheet",
			bound: true,
			head: html`<header class="head"><p class="when">Week ${week.week} · ${maker.site.inline("", week.theme)}</p><h1>${name} <span>floor plans</span></h1></header>`,
			again: html`<header class="again"><b>${name}</b> floor plans, week ${week.week}</header>`,
			items: [
				...views.map(({ block, view }) => {
					const levels = block.levels.map((level) => curriculum.levels.get(level)?.name ?? level);
					return html`<section class="item"><h2>Block ${block.number} <span>${shortNumber(block.minutes)} min · ${levels.length === 0 ? "All levels" : levels.join(", ")}</span></h2>${floorPlanFigure(maker.site.words, view, { idPrefix: `${week.id}-${plan.apparatus}-${block.number}`, upright: false })}</section>`;
				}),
				html`<div class="item">${floorPlanNote(
					maker.site.words,
					views.map(({ view }) => view),
				)}</div>`,
			],
		}),
		most: Math.ceil(views.length / 2),
		steps: stepsFrom(1, 0.8),
		words: views.flatMap(({ view }) => [
			...view.stations.map(({ name: station }) => station),
			...view.equipment.map(({ name: item, count }) => `${count} ${item}`),
		]),
		place: week.source.place(["apparatus", plan.apparatus]),
	};
}
