/** The first side of a week's packet: theme, the director's note, what each apparatus is about, who comes when. */

import { addressOf } from "../../scripts/views/addresses.ts";
import { html } from "../../scripts/views/html.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import type { WeekFrontView } from "../../scripts/views/sheets/week-front.ts";
import { drawnApparatus } from "../parts/icons.ts";
import { pageCode } from "./page-code.ts";
import { inSentence } from "./pieces.ts";
import type { Drawn } from "./sheet-file.ts";
import { pouredPiece, stepsFrom } from "./side.ts";

export function weekFront(facts: SheetFacts, { week, classes }: WeekFrontView): Drawn {
	const { words } = facts;
	const name = words.week(week.number);
	return {
		html: pouredPiece(facts, {
			kind: "week-front",
			bound: true,
			head: html`<div class="with-code"><header class="head"><p class="when">${week.dates}</p><h1>${name} <span>${week.theme}</span></h1></header>${pageCode(facts, addressOf({ kind: "week", id: week.id }), name)}</div>`,
			again: html`<header class="again"><b>${name}</b> ${week.theme}</header>`,
			items: [
				...(week.body.text === "" ? [] : [html`<div class="item prose">${week.body}</div>`]),
				html`<section class="item"><h2>${words.weekPage.byApparatus}</h2><table><tbody>${week.plans.map(
					({ apparatus, blocks }) =>
						html`<tr><th scope="row">${drawnApparatus(apparatus.id)} ${apparatus.link.name}<br><span>${words.sheets.blocksAndMinutes(blocks.length, apparatus.minutes)}</span></th><td>${apparatus.focus && html`<p class="focus">${apparatus.focus}</p>`}<ul>${blocks.map(
							({ minutes, drills, levels }) =>
								html`<li><b>${words.min(minutes)}</b> ${inSentence(drills)}${levels.length > 0 && html` <i>(${inSentence(levels)})</i>`}</li>`,
						)}</ul></td></tr>`,
				)}</tbody></table></section>`,
				...(classes.length === 0
					? []
					: [
							html`<section class="item"><h2>${words.destinations.classes}</h2><table><thead><tr><th scope="col">${words.heads.class}</th><th scope="col">${words.equipmentMeasure.when}</th><th scope="col">${words.classes.gymnasts}</th><th scope="col">${words.sheets.rotation}</th></tr></thead><tbody>${classes.map(
								({ link, dateWords, closed, start, gymnasts, rotation }) =>
									html`<tr><th scope="row">${link.name}</th><td>${dateWords} ${closed ? html`<b>${words.classes.closed}</b>` : start}</td><td>${gymnasts}</td><td>${inSentence(rotation)}</td></tr>`,
							)}</tbody></table></section>`,
						]),
			],
		}),
		most: 2,
		steps: stepsFrom(1.08, 0.8),
	};
}
