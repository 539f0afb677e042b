/** Leaves to put behind the tabs of a binder: one for each section, with what is behind it. */

import { NOWHERE } from "../../problems.ts";
import { addressOf } from "../addresses.ts";
import type { SiteIndex } from "../site-index.ts";
import { capital } from "../words.ts";
import { binderPlaces, drillsUnder } from "./places.ts";
import type { PieceOf } from "./sheet.ts";

export interface DividersView {
	readonly dividers: readonly {
		/** What the numbers of its pages begin with. */
		readonly label: string;
		readonly title: string;
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
			holds: [...Array.from(guides.values(), ({ title }) => plain(title)), destinations.levels],
		},
		...weeks.map((week) => ({
			label: labels.week(week.week),
			title: words.sheets.weekAndTheme(week.week, plain(week.theme)),
			holds: week.apparatus.map((plan) => apparatus.get(plan.apparatus)?.name ?? plan.apparatus),
		})),
		...Array.from(apparatus.values(), ({ id, name }) => ({
			label: places.at(addressOf({ kind: "apparatus", id }))?.label ?? "",
			title: words.drillCards.on(name),
			holds: drillsUnder(curriculum, id).map(({ title }) => plain(title)),
		})),
		{
			label: labels.shapes,
			title: destinations.shapes,
			holds: Array.from(shapes.values(), ({ name }) => name),
		},
		{
			label: labels.skills,
			title: destinations.skills,
			holds: Array.from(skills.values(), ({ name }) => name),
		},
		{
			label: labels.coverage,
			title: destinations.coverage,
			holds: weeks.length === 0 ? [] : [words.binderTables.reach.skill, destinations.findings],
		},
		{
			label: labels.equipment,
			title: destinations.equipment,
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
