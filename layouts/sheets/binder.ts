/**
 * The binder's sheets in their order: cover, contents, guides, weeks, drills, shapes, skills,
 * coverage, equipment, index.
 */

import { html } from "../../scripts/views/html.ts";
import type { BinderView } from "../../scripts/views/sheets/binder.ts";
import { indexSection } from "./back-index.ts";
import { drillSection } from "./drills.ts";
import { type ContentsLine, contentsSection, coverSection, guidesSection } from "./front.ts";
import { pageReference } from "./page-reference.ts";
import { shapesSection, skillsSection } from "./reference.ts";
import type { SheetSection, Sheets } from "./section.ts";
import { coverageSection, equipmentSection } from "./tables.ts";
import { weekSection } from "./weeks.ts";

/** Tabs down the edge; with more sections than this they start again at the top. */
const MOST_SLOTS = 18;

/** All sheets of a binder. */
export function binderSheets(binder: BinderView): Sheets {
	const { club, drills, edition, date, term, weeks, words } = binder;
	const wanted = 1 + weeks.length + drills.length + 5;
	const slots = Math.min(MOST_SLOTS, wanted);
	let position = 0;
	// A section that a club has no use for keeps its slot.
	const slot = () => position++ % slots;
	const body = [
		guidesSection(binder, slot()),
		...weeks.map((week) => weekSection(binder, week, slot())),
		...drills.map((leaves) => drillSection(binder, leaves, slot())),
		shapesSection(binder, slot()),
		skillsSection(binder, slot()),
		coverageSection(binder, slot()),
		equipmentSection(binder, slot()),
		indexSection(binder, slot()),
	].filter((section) => section !== undefined);
	return {
		title: `${club.name}${words.colon}${term}`,
		language: club.language,
		foot: `${club.name} · ${term}`,
		edition,
		date,
		blank: words.binder.blank,
		withheld: words.sheets.withheld,
		slots,
		sections: [coverSection(binder), contentsSection(binder, contentsOf(body)), ...body],
	};
}

/** Sections and their parts; single drills, shapes and skills are in the index. */
function contentsOf(sections: readonly SheetSection[]): readonly ContentsLine[] {
	return sections.flatMap((section) =>
		section.targets
			.filter(({ depth, id }) => depth === 1 || isPart(id))
			.map(({ id, title, depth }) => ({
				depth: depth === 1 ? (1 as const) : (2 as const),
				words: title,
				link: html`<a href="#${id}">${title}</a>`,
				page: pageReference({ anchor: id, label: labelAt(section, id), pages: 99 }),
			})),
	);
}

/** The label of the part in which an id stands. */
function labelAt(section: SheetSection, id: string): string {
	const part = section.parts.find(({ html: { text } }) => text.includes(`id="${id}"`));
	if (part === undefined) throw new Error(`Section "${section.title}" has no place ${id}.`);
	return part.label;
}

/** What the contents list below a section. */
function isPart(id: string): boolean {
	return /^(week-apparatus|guide|coverage|equipment|set-up|part)-/.test(id);
}
