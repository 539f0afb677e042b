/**
 * What stands in front: the cover with how to use the binder on its back, the contents, and the
 * club's guides with its levels.
 */

import { teachingWeeks } from "../../scripts/compute/calendar.ts";
import { entryOf } from "../../scripts/compute/levels-of.ts";
import type { Level } from "../../scripts/model.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { drawnSign } from "../parts/icons.ts";
import { named, namedDrills, pageLine, pageRun, shapeFigure, sheetHead } from "./pieces.ts";
import type { Places } from "./places.ts";
import type { SheetSection } from "./section.ts";
import type { SheetSource } from "./source.ts";

/** The first and last day of the term, as far as it has dates. */
function termDates(source: SheetSource): string {
	const { words } = source;
	const { term } = source.curriculum;
	const weeks = teachingWeeks(term);
	const first = weeks[0]?.monday;
	const last = weeks.at(-1)?.sunday;
	if (first === undefined || last === undefined) return words.counts.weeks(term.weeks);
	return words.binder.dates(term.weeks, words.date(first, "long"), words.date(last, "long"));
}

/** The cover, and on its back how the binder works. */
export function coverSection(source: SheetSource, edition: string): SheetSection {
	const { words } = source;
	const { binder: say, pageLabels } = words;
	const { club, term, shapes, weeks } = source.curriculum;
	const figures = [...shapes.values()].filter((shape) => shape.angles !== undefined);
	// A handful spread over the whole list, so that they differ.
	const step = Math.max(1, figures.length / COVER_FIGURES);
	const shown = Array.from(
		{ length: Math.min(COVER_FIGURES, figures.length) },
		(_, i) => figures[Math.floor(i * step)],
	);
	const cover = html`<div class="cover">
<p class="cover-club">${club.name}</p>
<h1 id="part-cover">${say.title}</h1>
<p class="cover-term">${term.name}</p>
<p class="cover-dates">${termDates(source)}</p>
<div class="cover-figures">${shown.map((shape, i) => shape && shapeFigure(shape, `cover-${i}`, 120))}</div>
<div class="cover-foot">
<p class="cover-edition">${edition}</p>
${club.emergency !== undefined && html`<div class="safety"><p>${drawnSign("caution")}<b>${words.sheets.emergency}</b> ${club.emergency}</p></div>`}
</div></div>`;
	const example = weeks[0]?.week ?? 3;
	const key = [
		[pageLabels.guides, say.parts.guides],
		[pageLabels.week(example), say.parts.week(example)],
		[pageLabels.drills, say.parts.drills],
		[`${pageLabels.shapes}, ${pageLabels.skills}`, say.parts.things],
		[`${pageLabels.coverage}, ${pageLabels.equipment}`, say.parts.tables],
		[pageLabels.index, say.parts.index],
	];
	const use = html`<div class="use">${sheetHead("how-to-use", say.title, say.use)}
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
<div class="safety"><p>${drawnSign("caution")}<b>${say.safety}</b> ${say.caution}</p>${
		club.emergency !== undefined &&
		html`<p>${drawnSign("caution")}<b>${words.sheets.emergency}</b> ${club.emergency}</p>`
	}</div>
${(club.contact !== undefined || club.site !== undefined) && html`<p class="small">${say.corrections(club.contact, club.site)}</p>`}
</div>`;
	return {
		title: say.title,
		tab: "",
		slot: undefined,
		bare: true,
		parts: [
			{ label: pageLabels.cover, head: "", html: cover },
			{ label: pageLabels.cover, head: "", html: use },
		],
		targets: [{ id: "part-cover", title: say.title, depth: 1 }],
	};
}

const COVER_FIGURES = 6;

/** A line of the contents. */
export interface ContentsLine {
	readonly depth: 1 | 2;
	readonly words: string;
	readonly link: Html;
	readonly page: Html | undefined;
}

export function contentsSection({ words }: SheetSource, lines: readonly ContentsLine[]): SheetSection {
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

/** The club's guides, each from a new page, then its levels. */
export function guidesSection(source: SheetSource, places: Places, slot: number): SheetSection | undefined {
	const { guides, levels, skills, drills } = source.curriculum;
	if (guides.size === 0 && levels.size === 0) return undefined;
	const { binder: say, destinations, pageLabels } = source.words;
	const start = html`<span id="${places.id("part", "guides")}"></span>`;
	const arrivesWith = (level: Level) => {
		const entry = entryOf(source.curriculum, level);
		const runs = [
			pageRun(places, "skill", named(entry.skills, skills)),
			pageRun(places, "drill", namedDrills(entry.drills, drills, source)),
		].filter(({ text }) => text !== "");
		return (
			runs.length > 0 &&
			html`<p class="small"><b>${say.arriveWith}</b> ${runs.map((run, i) => html`${i > 0 && places.words.semicolon}${run}`)}</p>`
		);
	};
	const parts = [...guides.values()].map((guide, i) => ({
		label: pageLabels.guides,
		head: source.markdown.plain(guide.title),
		html: html`${i === 0 && start}${sheetHead(places.id("guide", guide.id), say.guidesAndLevels, places.inline(guide.title))}<div class="prose">${places.block(guide.body, 2)}</div>`,
	}));
	const levelPart = {
		label: pageLabels.guides,
		head: destinations.levels,
		html: html`${parts.length === 0 && start}${sheetHead("part-levels", say.guidesAndLevels, destinations.levels)}${[
			...levels.values(),
		].map(
			(level) => html`<section class="entry whole"><h2 id="${places.id("level", level.id)}">${level.name}</h2>
${level.description !== undefined && html`<p>${places.inline(level.description)}</p>`}
${arrivesWith(level)}</section>`,
		)}`,
	};
	return {
		title: say.guidesAndLevels,
		tab: destinations.guides,
		slot,
		parts: [...parts, levelPart],
		targets: [
			{ id: places.id("part", "guides"), title: say.guidesAndLevels, depth: 1 },
			...[...guides.values()].map((guide) => ({
				id: places.id("guide", guide.id),
				title: source.markdown.plain(guide.title),
				depth: 2 as const,
				source: guide.source,
			})),
			{ id: "part-levels", title: destinations.levels, depth: 2 },
		],
	};
}
