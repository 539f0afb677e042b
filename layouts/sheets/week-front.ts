/** The first side of a week's packet: theme, the director's note, what each apparatus is about, who comes when. */

import { dateOf, isClosed } from "../../scripts/compute/calendar.ts";
import type { WeekPlan } from "../../scripts/model.ts";
import type { SheetPiece } from "../../scripts/print/sheet-file.ts";
import { html } from "../../scripts/render/html.ts";
import { weekView } from "../../scripts/render/views/week.ts";
import { counted, dateWords, minutesOfDay, shortNumber } from "../../scripts/render/views/words.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { inSentence, pouredPiece, type SheetMaker, stepsFrom } from "./side.ts";

/** The overview of a week. */
export function weekFront(maker: SheetMaker, week: WeekPlan): SheetPiece {
	const { site } = maker;
	const { curriculum } = site;
	const view = weekView(site, week);
	const classes = [...curriculum.term.classes].sort(
		(a, b) =>
			(dateOf(curriculum.term, week.week, a) ?? "").localeCompare(
				dateOf(curriculum.term, week.week, b) ?? "",
			) || (minutesOfDay(a.start) ?? 0) - (minutesOfDay(b.start) ?? 0),
	);
	const title = `Week ${week.week}: ${site.handbook.markdown.plain(week.theme)}`;
	return {
		title,
		label: `Week ${week.week}`,
		html: pouredPiece(maker, {
			kind: "week-front",
			bound: true,
			head: html`<header class="head"><p class="when">${view.dates}</p><h1>Week ${week.week} <span>${view.theme}</span></h1></header>`,
			again: html`<header class="again"><b>Week ${week.week}</b> ${view.theme}</header>`,
			items: [
				...(week.body.trim() === "" ? [] : [html`<div class="item prose">${view.body}</div>`]),
				html`<section class="item"><h2>By apparatus</h2><table><tbody>${view.plans.map(
					({ apparatus, blocks }) =>
						html`<tr><th scope="row">${apparatusIcon(apparatus.id, apparatus.link.name)} ${apparatus.link.name}<br><span>${counted(blocks.length, "block")}, ${shortNumber(apparatus.minutes)} min</span></th><td>${apparatus.focus && html`<p class="focus">${apparatus.focus}</p>`}<ul>${blocks.map(
							({ minutes, drills, levels }) =>
								html`<li><b>${shortNumber(minutes)} min</b> ${inSentence(drills.map(({ name }) => name))}${levels.length > 0 && html` <i>(${inSentence(levels.map(({ name }) => name))})</i>`}</li>`,
						)}</ul></td></tr>`,
				)}</tbody></table></section>`,
				...(classes.length === 0
					? []
					: [
							html`<section class="item"><h2>Classes</h2><table><thead><tr><th scope="col">Class</th><th scope="col">When</th><th scope="col">Gymnasts</th><th scope="col">Order of apparatus</th></tr></thead><tbody>${classes.map(
								(group) => {
									const date = dateOf(curriculum.term, week.week, group);
									const closed = date !== undefined && isClosed(curriculum.term, date);
									const names = group.rotation.map((id) => curriculum.apparatus.get(id)?.name ?? id);
									return html`<tr><th scope="row">${group.name}</th><td>${date !== undefined && dateWords(date, site.language)} ${closed ? html`<b>closed</b>` : group.start}</td><td>${group.gymnasts}</td><td>${names.join(", ")}</td></tr>`;
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
		place: week.source.place(["theme"]),
	};
}
