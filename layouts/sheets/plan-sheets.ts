/** Floor plans of an apparatus in a week, large enough to hang beside it. */

import type { ApparatusPlan, WeekPlan } from "../../scripts/model.ts";
import type { SheetPiece } from "../../scripts/print/sheet-file.ts";
import { html } from "../../scripts/render/html.ts";
import { floorPlanView } from "../../scripts/render/views/floor-plan.ts";
import { floorPlanFigure, floorPlanNote } from "../parts/floor-plan.ts";
import { pouredPiece, type SheetMaker, stepsFrom } from "./side.ts";

/** The plans of all blocks of stations; undefined where there is none. */
export function planSheet(maker: SheetMaker, week: WeekPlan, plan: ApparatusPlan): SheetPiece | undefined {
	const { curriculum, words } = maker.site;
	const say = words.planSheet;
	const views = plan.blocks.flatMap((block) => {
		const view = floorPlanView(curriculum, week, plan, block, words);
		return view === undefined ? [] : [{ block, view }];
	});
	if (views.length === 0) return undefined;
	const name = curriculum.apparatus.get(plan.apparatus)?.name ?? plan.apparatus;
	return {
		title: say.title(name, week.week),
		label: words.pageLabels.plan(name, week.week),
		html: pouredPiece(maker, {
			kind: "plan-sheet",
			bound: true,
			head: html`<header class="head"><p class="when">${words.week(week.week)} · ${maker.site.inline("", week.theme)}</p><h1>${name} <span>${say.plans}</span></h1></header>`,
			again: html`<header class="again"><b>${name}</b> ${say.plansOfWeek(week.week)}</header>`,
			items: [
				...views.map(({ block, view }) => {
					const levels = block.levels.map((level) => curriculum.levels.get(level)?.name ?? level);
					return html`<section class="item"><h2>${words.block.numbered(block.number)} <span>${words.min(block.minutes)} · ${levels.length === 0 ? words.allLevels : levels.join(", ")}</span></h2>${floorPlanFigure(words, view, { idPrefix: `${week.id}-${plan.apparatus}-${block.number}`, upright: false })}</section>`;
				}),
				html`<div class="item">${floorPlanNote(
					words,
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
		safety: [],
		place: week.source.place(["apparatus", plan.apparatus]),
	};
}
