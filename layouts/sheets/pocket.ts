/**
 * The pocket edition: a class's week, area by area.
 *
 * First the clock, what to set out, whom to call. Then each area begins a leaf of its own, unless all of it
 * stands on what is left of the one before: its clock and who stands where at the head, then its stations in
 * type of 9.5 to 10 pt. Where that takes more sides than it should, the first thing to look for at each station
 * is shown and the rest is on its card.
 */

import { html } from "../../scripts/views/html.ts";
import type { PocketView } from "../../scripts/views/sheets/pocket.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import { floorPlanFigure } from "../parts/floor-plan.ts";
import { classHead, endItem, hoursOf, stopItems } from "./class-leaf.ts";
import { pageCode } from "./page-code.ts";
import type { Drawn } from "./sheet-file.ts";
import { pouredPiece, stepsFrom } from "./side.ts";

/** Areas, and the cool-down with the first of them, share six sides in most weeks; more is no fault. */
const SIDES = 6;

export function pocketPiece(facts: SheetFacts, { sheet, page, plans }: PocketView): Drawn {
	const { words } = facts;
	const when = [sheet.dateWords, hoursOf(sheet)].filter((part) => part !== "").join(" · ");
	return {
		html: pouredPiece(facts, {
			kind: "class-leaf pocket",
			bound: true,
			head: html`<div class="with-code">${classHead(facts, sheet, when)}${pageCode(facts, page, sheet.name)}</div>`,
			again: html`<header class="again"><b>${sheet.name}</b> ${words.ofWeek(sheet.week.number)} <span>${when}</span></header><p class="on"></p>`,
			items: [
				...sheet.stops.flatMap((stop) =>
					stopItems(words, stop, sheet.levels.length > 1, {
						starts: true,
						plan: (block) => {
							const plan = plans.get(stop.id)?.get(block.number);
							const idPrefix = `pocket-${sheet.week.id}-${stop.key}-${block.number}`;
							return plan && floorPlanFigure(words, plan, { idPrefix, upright: false });
						},
					}),
				),
				endItem(words, sheet),
			],
			columns: 2,
		}),
		most: SIDES,
		leaves: true,
		steps: [
			...stepsFrom(1.12, 1.06, 0.02),
			...stepsFrom(1.12, 1.06, 0.02).map((step) => ({ ...step, detail: 2 as const })),
		],
	};
}
