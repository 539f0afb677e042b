/**
 * Where everything stands in the binder: the label of the pages a thing is printed on, known before any
 * page is laid out, so that a reference can leave room for it. The letters are those of the handbook's
 * language.
 *
 *   G 2          guides and levels
 *   W3 7         week 3
 *   D · Floor 12 the floor's drills
 *   S 4, K 3     shapes, skills
 *   C 2, E 1     coverage, equipment
 *   X 1          index
 */

import type { Apparatus, Curriculum, Id, LinkedDrill } from "../../model.ts";
import type { Words } from "../../words/words.ts";
import { type Address, addressOf, weekApparatusAddress } from "../addresses.ts";
import type { NamedKind } from "../links.ts";
import type { MarkdownRenderer } from "../markdown.ts";

/** The place of a thing that has a page on the site. */
export interface BinderPlace {
	/** The `id` attribute of its place. */
	readonly anchor: string;
	/** What stands before the number of its page. */
	readonly label: string;
	/** The most pages that may have that label. */
	readonly pages: number;
	/** How references call it, in plain words. */
	readonly name: string;
}

export interface BinderPlaces {
	/** By the address of a thing's page on the site; undefined for what is not in the binder. */
	at(address: Address): BinderPlace | undefined;
	/** By its `id` attribute. */
	named(anchor: string): BinderPlace | undefined;
}

/** The drills printed under an apparatus: those that name it first. */
export function drillsUnder(curriculum: Curriculum, apparatus: Id): readonly LinkedDrill[] {
	return [...curriculum.drills.values()].filter((drill) => drill.apparatus[0] === apparatus);
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
export function binderPlaces(
	curriculum: Curriculum,
	markdown: MarkdownRenderer,
	{ pageLabels: labels }: Words,
): BinderPlaces {
	const { apparatus, equipment, guides, levels, shapes, skills, weeks } = curriculum;
	const places = new Map<Address, BinderPlace>();
	const add = (kind: NamedKind, id: Id, name: string, label: string, things: number) =>
		places.set(addressOf({ kind, id }), placeOf(`${kind}-${id}`, name, label, things));

	for (const { id, title } of guides.values())
		add("guide", id, markdown.plain(title), labels.guides, guides.size + 2);
	for (const { id, name } of levels.values()) add("level", id, name, labels.guides, guides.size + 2);
	for (const week of weeks) {
		const label = labels.week(week.week);
		const theme = markdown.plain(week.theme);
		const stations = week.apparatus
			.flatMap(({ blocks }) => blocks)
			.reduce((sum, block) => sum + block.stations.length, 0);
		places.set(addressOf({ kind: "week", id: week.id }), placeOf(`week-${week.id}`, theme, label, stations));
		for (const plan of week.apparatus) {
			const on = apparatus.get(plan.apparatus);
			if (on === undefined) continue;
			places.set(
				weekApparatusAddress(week.id, on.id),
				placeOf(`week-apparatus-${week.id}-${on.id}`, on.name, label, stations),
			);
		}
	}
	for (const on of apparatus.values()) {
		const own = drillsUnder(curriculum, on.id);
		const label = `${labels.drills} · ${shortName(on)}`;
		add("apparatus", on.id, on.name, label, own.length);
		for (const { id, title } of own) add("drill", id, markdown.plain(title), label, own.length);
	}
	for (const { id, name } of shapes.values()) add("shape", id, name, labels.shapes, shapes.size);
	for (const { id, name } of skills.values()) add("skill", id, name, labels.skills, skills.size);
	for (const { id, name } of equipment.values())
		add("equipment", id, name, labels.equipment, weeks.length + 2);
	const named = new Map(Array.from(places.values(), (place) => [place.anchor, place]));
	return { at: (address) => places.get(address), named: (anchor) => named.get(anchor) };
}

function placeOf(anchor: string, name: string, label: string, things: number): BinderPlace {
	// No thing takes three pages on average, and a section has a few pages more.
	return { anchor, name, label, pages: 3 * things + 8 };
}
