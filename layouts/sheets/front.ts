/**
 * What stands in front: the cover with how to use the binder on its back, the contents, and the
 * club's guides with its levels.
 */

import { teachingWeeks } from "../../scripts/compute/calendar.ts";
import type { SheetSection } from "../../scripts/print/section.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import { counted, dateWords, joined } from "../../scripts/render/views/words.ts";
import { sign } from "../parts/icons.ts";
import { named, pageLine, pageRun, shapeFigure, sheetHead, USUAL_CAUTION } from "./pieces.ts";
import { LABELS, type Places } from "./places.ts";
import type { SheetSource } from "./source.ts";

const BINDER = "Coaching binder";
const HOW_TO_USE = "How to use this binder";
const IN_AN_EMERGENCY = "In an emergency";
const CONTENTS = "Contents";
const GUIDES = "Guides and levels";
const LEVELS = "Levels";

/** The first and last day of the term, as far as it has dates. */
function termDates(source: SheetSource): string {
	const { term, club } = source.curriculum;
	const weeks = teachingWeeks(term);
	const first = weeks[0]?.monday;
	const last = weeks.at(-1)?.sunday;
	if (first === undefined || last === undefined) return counted(term.weeks, "week");
	return `${counted(term.weeks, "week")}, ${yearWords(first, club.language)} to ${yearWords(last, club.language)}`;
}

/** "4 January 2027". */
export function yearWords(iso: string, language: string): string {
	return dateWords(iso, language, "full").replace(/^\p{L}+,? /u, "");
}

/** The cover, and on its back how the binder works. */
export function coverSection(source: SheetSource, edition: string): SheetSection {
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
<h1 id="part-cover">${BINDER}</h1>
<p class="cover-term">${term.name}</p>
<p class="cover-dates">${termDates(source)}</p>
<div class="cover-figures">${shown.map((shape, i) => shape && shapeFigure(shape, `cover-${i}`, 120))}</div>
<div class="cover-foot">
<p class="cover-edition">${edition}</p>
${club.emergency !== undefined && html`<div class="safety"><p>${sign("caution")}<b>${IN_AN_EMERGENCY}.</b> ${club.emergency}</p></div>`}
</div></div>`;
	const example = weeks[0]?.week ?? 3;
	const use = html`<div class="use">${sheetHead("how-to-use", BINDER, HOW_TO_USE)}
<p class="lead">Take out the week you teach, with the drill cards it names. Everything on paper is also on the club's site; where the two differ, the newer edition is right.</p>
<h2>Finding a page</h2>
<p>Pages are numbered within their section, so that a changed section can be replaced without the rest. The number stands at the outer foot of every page, the section at the tab.</p>
<table class="key"><tbody>
<tr><th scope="row">G</th><td>guides and levels</td></tr>
<tr><th scope="row">W${example}</th><td>week ${example}: what it trains, its classes, then one set of pages for each apparatus</td></tr>
<tr><th scope="row">D</th><td>the drill cards, apparatus by apparatus</td></tr>
<tr><th scope="row">S, K</th><td>shapes and skills, with the drills that train them</td></tr>
<tr><th scope="row">C, E</th><td>what the term covers; equipment to set up, and where it is kept</td></tr>
<tr><th scope="row">X</th><td>the index</td></tr>
</tbody></table>
<h2>In the hall</h2>
<ol>
<li>Open the week at your apparatus. The box at the top lists what to set up.</li>
<li>Read the blocks from top to bottom: minutes at the left, then the stations of the block, each with the way every level does it, what to say, and how to keep it safe.</li>
<li>Turn to the drill card for the faults to look for, and for what comes before and after.</li>
</ol>
<h2>Changing a section</h2>
<p>Pages whose number starts the same fill whole leaves of their own. Take them out, put the new ones in, and compare the edition at the foot. A side that is left blank says so.</p>
<div class="safety"><p>${sign("caution")}<b>Safety.</b> ${USUAL_CAUTION}</p>${
		club.emergency !== undefined &&
		html`<p>${sign("caution")}<b>${IN_AN_EMERGENCY}.</b> ${club.emergency}</p>`
	}</div>
${(club.contact !== undefined || club.site !== undefined) && html`<p class="small">${joined([club.contact === undefined ? "" : `Corrections to ${club.contact}`, club.site === undefined ? "" : `site: ${club.site}`].filter((words) => words !== ""))}.</p>`}
</div>`;
	return {
		title: BINDER,
		tab: "",
		slot: undefined,
		bare: true,
		parts: [
			{ label: "Cover", head: "", html: cover },
			{ label: "Cover", head: "", html: use },
		],
		targets: [{ id: "part-cover", title: BINDER, depth: 1 }],
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

export function contentsSection(lines: readonly ContentsLine[]): SheetSection {
	return {
		title: CONTENTS,
		tab: "",
		slot: undefined,
		parts: [
			{
				label: LABELS.contents,
				head: CONTENTS,
				html: html`${sheetHead("part-contents", "", CONTENTS)}<ul class="contents">${lines.map(
					({ depth, link, page }) => pageLine(link, page, `depth-${depth}`),
				)}</ul>`,
			},
		],
		targets: [{ id: "part-contents", title: CONTENTS, depth: 1 }],
	};
}

/** The club's guides, each from a new page, then its levels. */
export function guidesSection(source: SheetSource, places: Places, slot: number): SheetSection | undefined {
	const { guides, levels, skills } = source.curriculum;
	if (guides.size === 0 && levels.size === 0) return undefined;
	const start = html`<span id="${places.id("part", "guides")}"></span>`;
	const parts = [...guides.values()].map((guide, i) => ({
		label: LABELS.guides,
		head: source.markdown.plain(guide.title),
		html: html`${i === 0 && start}${sheetHead(places.id("guide", guide.id), GUIDES, places.inline(guide.title))}<div class="prose">${places.block(guide.body, 2)}</div>`,
	}));
	const levelPart = {
		label: LABELS.guides,
		head: LEVELS,
		html: html`${parts.length === 0 && start}${sheetHead("part-levels", GUIDES, LEVELS)}${[
			...levels.values(),
		].map(
			(level) => html`<section class="entry whole"><h2 id="${places.id("level", level.id)}">${level.name}</h2>
${level.description !== undefined && html`<p>${places.inline(level.description)}</p>`}
${level.entry.length > 0 && html`<p class="small"><b>Gymnasts arrive with</b> ${pageRun(places, "skill", named(level.entry, skills))}</p>`}</section>`,
		)}`,
	};
	return {
		title: GUIDES,
		tab: "Guides",
		slot,
		parts: [...parts, levelPart],
		targets: [
			{ id: places.id("part", "guides"), title: GUIDES, depth: 1 },
			...[...guides.values()].map((guide) => ({
				id: places.id("guide", guide.id),
				title: source.markdown.plain(guide.title),
				depth: 2 as const,
				source: guide.source,
			})),
			{ id: "part-levels", title: LEVELS, depth: 2 },
		],
	};
}
