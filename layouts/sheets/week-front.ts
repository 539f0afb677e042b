/** The first side of a week's packet: theme, the director's note, what each apparatus is about, who comes when. */

import { dateOf, isClosed } from "../../scripts/compute/calendar.ts";
import type { WeekPlan } from "../../scripts/model.ts";
import { html } from "../../scripts/views/html.ts";
import { weekView } from "../../scripts/views/week.ts";
import { minutesOfDay } from "../../scripts/views/words.ts";
import { drawnApparatus } from "../parts/icons.ts";
import type { SheetPiece } from "./sheet-file.ts";
import { inSentence, pouredPiece, type SheetMaker, stepsFrom } from "./side.ts";

/** The overview of a week. */
export function weekFront(maker: SheetMaker, week: WeekPlan): SheetPiece {
	const { site } = maker;
	const { curriculum, words } = site;
	const view = weekView(site, week);
	const classes = [...curriculum.term.classes].sort(
		(a, b) =>
			(dateOf(curriculum.term, week.week, a) ?? "").localeCompare(
				dateOf(curriculum.term, week.week, b) ?? "",
			) || (minutesOfDay(a.start) ?? 0) - (minutesOfDay(b.start) ?? 0),
	);
	const name = words.week(week.week);
	return {
		title: words.sheets.weekAndTheme(week.week, site.handbook.markdown.plain(week.theme)),
		label: name,
		html: pouredPiece(maker, {
			kind: "week-front",
			bound: true,
			head: html`<header class="head"><p class="when">${view.dates}</p><h1>${name} <span>${view.theme}</span></h1></header>`,
			again: html`<header class="again"><b>${name}</b> ${view.theme}</header>`,
			items: [
				...(week.body.trim() === "" ? [] : [html`<div class="item prose">${view.body}</div>`]),
				html`<section class="item"><h2>${words.weekPage.byApparatus}</h2><table><tbody>${view.plans.map(
					({ apparatus, blocks }) =>
						html`<tr><th scope="row">${drawnApparatus(apparatus.id)} ${apparatus.link.name}<br><span>${words.sheets.blocksAndMinutes(blocks.length, apparatus.minutes)}</span></th><td>${apparatus.focus && html`<p class="focus">${apparatus.focus}</p>`}<ul>${blocks.map(
							({ minutes, drills, levels }) =>
								html`<li><b>${words.min(minutes)}</b> ${inSentence(drills.map(({ name }) => name))}${levels.length > 0 && html` <i>(${inSentence(levels.map(({ name }) => name))})</i>`}</li>`,
						)}</ul></td></tr>`,
				)}</tbody></table></section>`,
				...(classes.length === 0
					? []
					: [
							html`<section class="item"><h2>${words.destinations.classes}</h2><table><thead><tr><th scope="col">${words.heads.class}</th><th scope="col">${words.equipmentMeasure.when}</th><th scope="col">${words.classes.gymnasts}</th><th scope="col">${words.sheets.rotation}</th></tr></thead><tbody>${classes.map(
								(group) => {
									const date = dateOf(curriculum.term, week.week, group);
									const closed = date !== undefined && isClosed(curriculum.term, date);
									const names = group.rotation.map((id) => curriculum.apparatus.get(id)?.name ?? id);
									return html`<tr><th scope="row">${group.name}</th><td>${date !== undefined && words.date(date)} ${closed ? html`<b>${words.classes.closed}</b>` : group.start}</td><td>${group.gymnasts}</td><td>${names.join(", ")}</td></tr>`;
								},
							)}</tbody></table></section>`,
						]),
			],
		}),
		most: 2,
		steps: stepsFrom(1.08, 0.8),
		words: [
			site.handbook.markdown.plain(week.theme),
			...view.plans.flatMap(({ blocks }) => blocks.flatMap(({ drills }) => drills.map(({ name }) => name))),
			...classes.map(({ name }) => name),
		],
		safety: [],
		place: week.source.place(["theme"]),
	};
}
