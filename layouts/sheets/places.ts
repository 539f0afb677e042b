/**
 * Where everything stands: the label of the pages a thing is printed on, known before any page is
 * laid out, so that a reference can leave room for it. The letters are those of the handbook's language.
 *
 *   G 2          guides and levels
 *   W3 1         week 3
 *   W3 · Floor 2 the floor in week 3
 *   D · Floor 12 the floor's drills
 *   S 4, K 3     shapes, skills
 *   C 2, E 1     coverage, equipment
 *   X 1          index
 */

import type { Apparatus, Curriculum, Id, LinkedDrill, LinkKind, WeekPlan } from "../../scripts/model.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { Words } from "../../scripts/words/words.ts";
import { longestNumber, pageReference } from "./page-reference.ts";
import type { SheetSource } from "./source.ts";

/** The sections that are one part each, by the names of their labels. */
const PARTS = ["contents", "guides", "shapes", "skills", "coverage", "equipment", "index"] as const;

/** What can be referred to beyond what `[[id]]` links to. */
export type PlaceKind = LinkKind | "part" | "week-apparatus";

export interface Places {
	/** The words that are not the club's. */
	readonly words: Words;
	/** The `id` attribute of a thing's place. */
	id(kind: PlaceKind, id: Id): string;
	/** Whether the thing has a place in the binder. */
	has(kind: PlaceKind, id: Id): boolean;
	/** The page of a thing; nothing where it has no place. */
	page(kind: PlaceKind, id: Id): Html | undefined;
	/** Characters that the number of a thing's page may have; 0 where it has no place. */
	numberLength(kind: PlaceKind, id: Id): number;
	/** A thing's name that leads to its place. */
	link(kind: PlaceKind, id: Id, words: string): Html;
	/** A club's line of text. */
	inline(text: string): Html;
	/** A club's paragraphs; what they link to gets its page behind it. */
	block(text: string, topHeading?: number): Html;
}

/** The drills printed under an apparatus: those that name it first. */
export function drillsOf(curriculum: Curriculum, apparatus: Id): readonly LinkedDrill[] {
	return [...curriculum.drills.values()].filter((drill) => drill.apparatus[0] === apparatus);
}

export function drillLabel({ pageLabels }: Words, apparatus: Apparatus): string {
	return `${pageLabels.drills} · ${shortName(apparatus)}`;
}

export function weekApparatusLabel({ pageLabels }: Words, week: WeekPlan, apparatus: Apparatus): string {
	return `${pageLabels.week(week.week)} · ${shortName(apparatus)}`;
}

/** A name that fits a page's number: the apparatus's own, or the words of it that do. */
function shortName({ name }: Pick<Apparatus, "name">): string {
	if (name.length <= LONGEST_NAME) return name;
	const words = name.split(" ");
	while (words.length > 1 && words.join(" ").length > LONGEST_NAME) words.pop();
	return words.join(" ").slice(0, LONGEST_NAME);
}

const LONGEST_NAME = 14;

/** Finds every thing's place. */
export function placesOf(source: SheetSource): Places {
	const { curriculum, markdown, words } = source;
	const labels = words.pageLabels;
	const known = new Map<string, { readonly label: string; readonly most: number }>();
	const add = (kind: PlaceKind, id: Id, label: string, things: number) =>
		// No thing takes three pages on average, and a section has a few pages more.
		known.set(placeId(kind, id), { label, most: 3 * things + 8 });

	for (const id of curriculum.guides.keys()) add("guide", id, labels.guides, curriculum.guides.size + 2);
	for (const id of curriculum.levels.keys()) add("level", id, labels.guides, curriculum.guides.size + 2);
	for (const week of curriculum.weeks) {
		add("week", week.id, labels.week(week.week), 0);
		for (const plan of week.apparatus) {
			const apparatus = curriculum.apparatus.get(plan.apparatus);
			if (apparatus === undefined) continue;
			const stations = plan.blocks.reduce((sum, block) => sum + block.stations.length, 0);
			add(
				"week-apparatus",
				`${week.id}-${plan.apparatus}`,
				weekApparatusLabel(words, week, apparatus),
				stations,
			);
		}
	}
	for (const apparatus of curriculum.apparatus.values()) {
		const drills = drillsOf(curriculum, apparatus.id);
		add("apparatus", apparatus.id, drillLabel(words, apparatus), drills.length);
		for (const drill of drills) add("drill", drill.id, drillLabel(words, apparatus), drills.length);
	}
	for (const id of curriculum.shapes.keys()) add("shape", id, labels.shapes, curriculum.shapes.size);
	for (const id of curriculum.skills.keys()) add("skill", id, labels.skills, curriculum.skills.size);
	for (const id of curriculum.equipment.keys()) {
		add("equipment", id, labels.equipment, curriculum.weeks.length + 2);
	}
	const coverageTables = (curriculum.levels.size + 1) * 2;
	for (const id of PARTS) {
		add("part", id, labels[id], id === "coverage" ? coverageTables * 2 : 30);
	}

	const has = (kind: PlaceKind, id: Id) => known.has(placeId(kind, id));
	const pageOf = (place: string): Html | undefined => {
		const found = known.get(place);
		return found === undefined ? undefined : pageReference(place, found.label, found.most);
	};
	const href = (target: { readonly kind: PlaceKind; readonly id: Id }) =>
		has(target.kind, target.id) ? `#${placeId(target.kind, target.id)}` : undefined;
	return {
		words,
		id: placeId,
		has,
		page: (kind, id) => pageOf(placeId(kind, id)),
		numberLength: (kind, id) => {
			const found = known.get(placeId(kind, id));
			return found === undefined ? 0 : longestNumber(found.label, found.most).length;
		},
		link: (kind, id, words) =>
			has(kind, id) ? html`<a href="#${placeId(kind, id)}">${words}</a>` : html`${words}`,
		inline: (text) => markdown.inline(text, href),
		block: (text, topHeading = 3) =>
			raw(
				markdown
					.block(text, href, topHeading)
					.text.replace(
						/<a href="#([^"]+)">[\s\S]*?<\/a>/g,
						(link: string, place: string) => `${link} ${pageOf(place)?.text ?? ""}`,
					),
			),
	};
}

function placeId(kind: PlaceKind, id: Id): string {
	return `${kind}-${id}`;
}
