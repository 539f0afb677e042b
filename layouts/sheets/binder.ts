/**
 * The binder's sheets in their order: cover, contents, guides, weeks, drills, shapes, skills,
 * coverage, equipment, index.
 */

import { html } from "../../scripts/views/html.ts";
import type { BinderView } from "../../scripts/views/sheets/binder.ts";
import type { Volume } from "../../scripts/views/sheets/edition.ts";
import { indexSection } from "./back-index.ts";
import { drillSection } from "./drills.ts";
import { addedSection, type ContentsLine, contentsSection, coverSection, guidesSection } from "./front.ts";
import { pageReference } from "./page-reference.ts";
import { shapesSection, skillsSection } from "./reference.ts";
import type { SheetSection, Sheets } from "./section.ts";
import { coverageSection, equipmentSection } from "./tables.ts";
import { weekSection } from "./weeks.ts";

/** Tabs down the edge; with more sections than this they start again at the top. */
const MOST_SLOTS = 18;

/** All sheets of a binder; those of another volume are not printed with it. */
export function binderSheets(binder: BinderView, volume: Volume = "binder"): Sheets {
	const { club, drills, edition, date, term, weeks, words } = binder;
	const wanted = 1 + weeks.length + drills.length + 5;
	const slots = Math.min(MOST_SLOTS, wanted);
	let position = 0;
	// A section that a club has no use for keeps its slot.
	const slot = () => position++ % slots;
	const parts: readonly (readonly [SheetSection | undefined, Volume])[] = [
		[guidesSection(binder, slot()), "library"],
		...weeks.map((week) => [weekSection(binder, week, slot()), "binder"] as const),
		...drills.map((leaves) => [drillSection(binder, leaves, slot()), "library"] as const),
		[shapesSection(binder, slot()), "library"],
		[skillsSection(binder, slot()), "library"],
		[coverageSection(binder, slot()), "director"],
		[equipmentSection(binder, slot()), "director"],
		[indexSection(binder, slot()), "director"],
	];
	const body = parts.flatMap(([section, own]) => {
		if (section === undefined) return [];
		return volume === "binder" || own === volume ? [section] : [{ ...section, unprinted: true }];
	});
	const printed = body.filter(({ unprinted }) => unprinted !== true);
	const name = words.binder.volumes[volume];
	return {
		volume,
		title: `${club.name}${words.colon}${term}${volume === "binder" ? "" : `, ${name}`}`,
		language: club.language,
		foot: `${club.name} · ${term}`,
		edition,
		date,
		continued: words.binderTables.continued("%"),
		blank: words.binder.blank,
		withheld: words.sheets.withheld,
		slots,
		listed: binder.listed,
		sections: [
			coverSection(binder, volume),
			contentsSection(binder, contentsOf(printed)),
			// Behind the contents, and not in them: they stay as they are. It goes where the cards go.
			volume === "director" ? undefined : addedSection(binder),
			...body,
		].filter((section) => section !== undefined),
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
	return /^(week-apparatus|guide|coverage|reach|equipment|set-up|part)-/.test(id);
}
