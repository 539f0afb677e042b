/** Leaves to put behind the tabs of a binder: one for each section, with what is behind it. */

import { NOWHERE } from "../../problems.ts";
import { type Address, addressOf } from "../addresses.ts";
import type { SiteIndex } from "../site-index.ts";
import { capital } from "../words.ts";
import { binderPlaces, drillsUnder } from "./places.ts";
import type { PieceOf } from "./sheet.ts";

export interface DividersView {
	readonly dividers: readonly {
		/** What the numbers of its pages begin with. */
		readonly label: string;
		readonly title: string;
		/** On the site. */
		readonly page: Address;
		/** What is in it, in its order. */
		readonly holds: readonly string[];
	}[];
}

/** All of a club's dividers, in the order of its binder. */
export function dividers(site: SiteIndex): PieceOf<"dividers"> | undefined {
	const { curriculum, handbook, words } = site;
	const { apparatus, equipment, guides, shapes, skills, weeks } = curriculum;
	const plain = (text: string) => handbook.markdown.plain(text);
	const places = binderPlaces(curriculum, handbook.markdown, words);
	const { destinations, pageLabels: labels } = words;
	const all: DividersView["dividers"] = [
		{
			label: labels.guides,
			title: words.binder.guidesAndLevels,
			page: "guides/",
			holds: [...Array.from(guides.values(), ({ title }) => plain(title)), destinations.levels],
		},
		...weeks.map((week) => ({
			label: labels.week(week.week),
			title: words.sheets.weekAndTheme(week.week, plain(week.theme)),
			page: addressOf({ kind: "week", id: week.id }),
			holds: week.apparatus.map((plan) => apparatus.get(plan.apparatus)?.name ?? plan.apparatus),
		})),
		...Array.from(apparatus.values(), ({ id, name }) => ({
			label: places.at(addressOf({ kind: "apparatus", id }))?.label ?? "",
			title: words.drillCards.on(name),
			page: addressOf({ kind: "apparatus", id }),
			holds: drillsUnder(curriculum, id).map(({ title }) => plain(title)),
		})),
		{
			label: labels.shapes,
			title: destinations.shapes,
			page: "shapes/",
			holds: Array.from(shapes.values(), ({ name }) => name),
		},
		{
			label: labels.skills,
			title: destinations.skills,
			page: "skills/",
			holds: Array.from(skills.values(), ({ name }) => name),
		},
		{
			label: labels.coverage,
			title: destinations.coverage,
			page: "coverage/",
			holds: weeks.length === 0 ? [] : [words.binderTables.reach.skill, destinations.findings],
		},
		{
			label: labels.equipment,
			title: destinations.equipment,
			page: "equipment/",
			holds: equipment.size === 0 ? [] : [words.binderTables.owned, words.binderTables.heights],
		},
	];
	const used = all.filter(({ holds }) => holds.length > 0);
	const [first] = used;
	if (first === undefined) return undefined;
	return {
		kind: "dividers",
		title: capital(words.sheets.dividers),
		label: words.sheets.dividers,
		view: { dividers: used },
		words: used.map(({ title }) => title),
		safety: [],
		place: NOWHERE,
	};
}
