/** Floor plans of an apparatus in a week, large enough to hang beside it. */

import { weekApparatusAddress } from "../../scripts/views/addresses.ts";
import { html } from "../../scripts/views/html.ts";
import type { PlanSheetView } from "../../scripts/views/sheets/plan-sheet.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import { floorPlanFigure, floorPlanNote } from "../parts/floor-plan.ts";
import { pageCode } from "./page-code.ts";
import { inSentence } from "./pieces.ts";
import type { Drawn } from "./sheet-file.ts";
import { pouredPiece, stepsFrom } from "./side.ts";

/** The plans of all blocks of stations. */
export function planSheet(facts: SheetFacts, { week, apparatus, plans }: PlanSheetView): Drawn {
	const { words } = facts;
	const say = words.planSheet;
	const { id, name } = apparatus;
	// What is said of all stays with the last: no side has it alone.
	const note = floorPlanNote(
		words,
		plans.map(({ plan }) => plan),
	);
	return {
		html: pouredPiece(facts, {
			kind: "plan-sheet",
			bound: true,
			head: html`<div class="with-code"><header class="head"><p class="when">${words.week(week.number)} · ${week.theme}</p><h1>${name} <span>${say.plans}</span></h1></header>${pageCode(facts, weekApparatusAddress(week.id, id), name)}</div>`,
			again: html`<header class="again"><b>${name}</b> ${say.plansOfWeek(week.number)}</header>`,
			items: [
				...plans.map(({ minutes, levels, plan }, i) => {
					const who = levels.length === 0 ? words.allLevels : inSentence(levels);
					return html`<section class="item"><h2>${words.block.numbered(plan.block)} <span>${words.min(minutes)} · ${who}</span></h2>${floorPlanFigure(words, plan, { idPrefix: `${week.id}-${id}-${plan.block}`, upright: false })}${i === plans.length - 1 && note}</section>`;
				}),
			],
		}),
		// Two plans often share a side; a large one has its own.
		most: plans.length,
		steps: stepsFrom(1, 0.8),
	};
}
