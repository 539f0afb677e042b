/**
 * What stands in front: the cover with how to use the binder on its back, the contents, and the
 * club's guides with its levels.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { LevelCore } from "../../scripts/views/level.ts";
import type { BinderView } from "../../scripts/views/sheets/binder.ts";
import type { Volume } from "../../scripts/views/sheets/edition.ts";
import { drawnSign } from "../parts/icons.ts";
import { inSentence, shapeFigure, sheetHead } from "./pieces.ts";
import { linkIn, pageLine, pageOf, pageRun, placeOf, targetsOf, withPages } from "./references.ts";
import type { SheetSection } from "./section.ts";

/** The first and last day of the term, as far as it has dates. */
function termDates({ cover: { dates, weeks }, words }: BinderView): string {
	if (dates === undefined) return words.counts.weeks(weeks);
	return words.binder.dates(weeks, words.date(dates.from, "long"), words.date(dates.to, "long"));
}

/** The cover, and on its back how the binder works. */
export function coverSection(binder: BinderView, volume: Volume): SheetSection {
	const { club, cover: shown, edition, term, words } = binder;
	const { binder: say, pageLabels } = words;
	const title = say.volumes[volume];
	const caution = (name: string, text: string) => html`<p>${drawnSign("caution")}<b>${name}</b> ${text}</p>`;
	const emergency = club.emergency !== undefined && caution(words.sheets.emergency, club.emergency);
	const cover = html`<div class="cover">
<p class="cover-club">${shown.logo && html`<img src="${shown.logo}" alt=""> `}${club.name}</p>
<h1 id="part-cover">${title}</h1>
<p class="cover-term">${term}</p>
<p class="cover-dates">${termDates(binder)}</p>
<div class="cover-figures">${shown.shapes.map((shape, i) => shapeFigure(shape, `cover-${i}`, 120))}</div>
<div class="cover-foot">
<p class="cover-edition">${edition.words}</p>
${emergency && html`<div class="safety">${emergency}</div>`}
</div></div>`;
	// The other volumes' pages are named in this one, too.
	const key = [
		[pageLabels.guides, say.parts.guides],
		[pageLabels.week(shown.exampleWeek), say.parts.week(shown.exampleWeek)],
		[pageLabels.drills, say.parts.drills],
		[`${pageLabels.shapes}, ${pageLabels.skills}`, say.parts.things],
		[`${pageLabels.coverage}, ${pageLabels.equipment}`, say.parts.tables],
		[pageLabels.index, say.parts.index],
	];
	const use = html`<div class="use">${sheetHead("how-to-use", title, say.use)}
<p class="lead">${say.useLead}</p>
<h2>${say.finding}</h2>
<p>${say.findingHow}</p>
<table class="key"><tbody>
${key.map(([label, what]) => html`<tr><th scope="row">${label}</th><td>${what}</td></tr>\n`)}</tbody></table>
<h2>${say.inHall}</h2>
<ol>
${say.inHallHow.map((step) => html`<li>${step}</li>\n`)}</ol>
<h2>${say.changing}</h2>
<p>${say.changingHow}</p>
<div class="safety">${caution(say.safety, say.caution)}${emergency}</div>
${(club.contact !== undefined || club.site !== undefined) && html`<p class="small">${say.corrections(club.contact, club.site)}</p>`}
</div>`;
	return {
		title,
		tab: "",
		slot: undefined,
		bare: true,
		parts: [
			{ label: pageLabels.cover, head: "", html: cover },
			{ label: pageLabels.cover, head: "", html: use },
		],
		targets: [{ id: "part-cover", title, depth: 1 }],
	};
}

export interface ContentsLine {
	readonly depth: 1 | 2;
	readonly words: string;
	readonly link: Html;
	readonly page: Html | undefined;
}

export function contentsSection({ words }: BinderView, lines: readonly ContentsLine[]): SheetSection {
	const title = words.binder.contents;
	return {
		title,
		tab: "",
		slot: undefined,
		parts: [
			{
				label: words.pageLabels.contents,
				head: title,
				html: html`${sheetHead("part-contents", "", title)}<ul class="contents">${lines.map(
					({ depth, link, page }) => pageLine(link, page, `depth-${depth}`),
				)}</ul>`,
			},
		],
		targets: [{ id: "part-contents", title, depth: 1 }],
	};
}

/**
 * Drills that an earlier edition did not have, with everything that would list them: its own lists, and its
 * index, stay as they are.
 */
export function addedSection(binder: BinderView): SheetSection | undefined {
	const { additions, words } = binder;
	if (additions.length === 0) return undefined;
	const { binder: say, drill: said, pageLabels } = words;
	return {
		title: say.added,
		tab: "",
		slot: undefined,
		parts: [
			{
				label: pageLabels.added,
				head: say.added,
				html: html`${sheetHead("part-added", "", say.added, say.addedLead)}${additions.map(
					({
						link,
						apparatus,
						levels,
						shapes,
						skills,
					}) => html`<section class="entry whole"><h2>${linkIn(binder, link)} ${pageOf(binder, link.to)}</h2>
<p class="small">${inSentence(apparatus)} · ${inSentence(levels)}</p>
${[[said.shapes, pageRun(binder, shapes)] as const, [said.leadsTo, pageRun(binder, skills)] as const].map(
	([name, run]) => run && html`<p class="small"><b>${name}</b> ${run}</p>`,
)}</section>`,
				)}`,
			},
		],
		targets: [{ id: "part-added", title: say.added, depth: 1 }],
	};
}

/** The club's guides, each from a new page, then its levels. */
export function guidesSection(binder: BinderView, slot: number): SheetSection | undefined {
	const { guides, levels } = binder;
	if (guides.length === 0 && levels.length === 0) return undefined;
	const { binder: say, destinations, pageLabels } = binder.words;
	const start = html`<span id="part-guides"></span>`;
	const texts = guides.map(
		({ link, title, body }) =>
			html`${sheetHead(placeOf(binder, link.to).anchor, say.guidesAndLevels, title)}<div class="prose">${withPages(binder, body)}</div>`,
	);
	const levelSheet = html`${sheetHead("part-levels", say.guidesAndLevels, destinations.levels)}${levels.map(
		(
			level,
		) => html`<section class="entry whole"><h2 id="${placeOf(binder, level.link.to).anchor}">${level.name}</h2>
${level.description !== undefined && html`<p>${level.description}</p>`}
${arrivesWith(binder, level)}</section>`,
	)}`;
	return {
		title: say.guidesAndLevels,
		tab: destinations.guides,
		slot,
		parts: [
			{
				label: pageLabels.guides,
				head: guides[0]?.title ?? destinations.levels,
				html: html`<div class="run-on">${start}${texts}${levelSheet}</div>`,
				runs: true,
			},
		],
		targets: [
			{ id: "part-guides", title: say.guidesAndLevels, depth: 1 },
			...targetsOf(binder, guides),
			{ id: "part-levels", title: destinations.levels, depth: 2 },
		],
	};
}

function arrivesWith(binder: BinderView, { entry }: LevelCore): Html | undefined {
	const { binder: say, semicolon } = binder.words;
	const runs = [pageRun(binder, entry.skills), pageRun(binder, entry.drills)].filter(
		(run) => run !== undefined,
	);
	if (runs.length === 0) return undefined;
	return html`<p class="small"><b>${say.arriveWith}</b> ${runs.map((run, i) => html`${i > 0 && semicolon}${run}`)}</p>`;
}
