/**
 * The binder's sheets in their order: cover, contents, guides, weeks, drills, shapes, skills,
 * coverage, equipment, index.
 */

import { html } from "../../scripts/views/html.ts";
import { editionNameOf } from "../../scripts/words/words.ts";
import { indexSection } from "./back-index.ts";
import { drillSections } from "./drills.ts";
import { editionId } from "./edition.ts";
import { type ContentsLine, contentsSection, coverSection, guidesSection } from "./front.ts";
import { pageReference } from "./page-reference.ts";
import { type PlaceKind, placesOf } from "./places.ts";
import { shapesSection, skillsSection } from "./reference.ts";
import type { SheetSection, Sheets } from "./section.ts";
import type { SheetSource } from "./source.ts";
import { coverageSection, equipmentSection } from "./tables.ts";
import { weekSections } from "./weeks.ts";

/** Tabs down the edge; with more sections than this they start again at the top. */
const MOST_SLOTS = 18;

/** All sheets of a handbook. */
export function binderSheets(source: SheetSource): Sheets {
	const { words } = source;
	const { club, term, weeks, apparatus } = source.curriculum;
	const places = placesOf(source);
	const wanted = 1 + weeks.length + apparatus.size + 5;
	const slots = Math.min(MOST_SLOTS, wanted);
	const slot = (position: number) => position % slots;
	const afterWeeks = 1 + weeks.length;
	const afterDrills = afterWeeks + apparatus.size;

	const order = [...apparatus.keys()];
	const body = [
		guidesSection(source, places, slot(0)),
		...weekSections(source, places, (week) => slot(1 + weeks.indexOf(week))),
		...drillSections(source, places, ({ id }) => slot(afterWeeks + order.indexOf(id))),
		shapesSection(source, places, slot(afterDrills)),
		skillsSection(source, places, slot(afterDrills + 1)),
		coverageSection(source, places, slot(afterDrills + 2)),
		equipmentSection(source, places, slot(afterDrills + 3)),
		indexSection(source, places, slot(afterDrills + 4)),
	].filter((section): section is SheetSection => section !== undefined);

	const edition = words.binder.edition(editionNameOf(source));
	return {
		title: `${club.name}${words.colon}${term.name}`,
		language: club.language,
		foot: `${club.name} · ${term.name}`,
		edition: { id: editionId(source.edition), words: edition },
		date: source.edition.date,
		blank: words.binder.blank,
		withheld: words.sheets.withheld,
		slots,
		sections: [coverSection(source, edition), contentsSection(source, contentsOf(body)), ...body],
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
				page: pageReference(id, labelAt(section, id), 99),
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
	const kinds: readonly PlaceKind[] = ["week-apparatus", "guide"];
	return kinds.some((kind) => id.startsWith(`${kind}-`)) || /^(coverage|equipment|set-up|part)-/.test(id);
}
