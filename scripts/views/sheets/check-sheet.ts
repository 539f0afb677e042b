/** Blank skill check sheets: the skills of a level, and what must be seen of each. */

import type { Level, LinkedSkill } from "../../model.ts";
import { type Address, addressOf } from "../addresses.ts";
import { criteriaOf } from "../drill.ts";
import type { Html } from "../html.ts";
import type { SiteIndex } from "../site-index.ts";
import type { PieceOf } from "./sheet.ts";

export interface CheckSheetView {
	readonly level: string;
	/** The level's page. */
	readonly page: Address;
	/** To be learnt, by apparatus. */
	readonly skills: readonly {
		readonly name: string;
		/** Where it is done; undefined for anywhere. */
		readonly apparatus: string | undefined;
		readonly criteria: readonly { readonly line: Html; readonly letters: number }[];
	}[];
}

/** The check sheet of a level; undefined where no skill is to be learnt. */
export function checkSheet(site: SiteIndex, level: Level): PieceOf<"check-sheet"> | undefined {
	const { curriculum, words } = site;
	const skills = [...curriculum.skills.values()].filter(
		(skill) => skill.levels.includes(level.id) && !level.entry.includes(skill.id),
	);
	if (skills.length === 0) return undefined;
	const order = [...curriculum.apparatus.keys()];
	const rank = ({ apparatus: [first = ""] }: LinkedSkill) =>
		(order.indexOf(first) + order.length + 1) % (order.length + 1);
	return {
		kind: "check-sheet",
		title: words.checkSheet.title(level.name),
		label: words.pageLabels.check(level.name),
		view: {
			level: level.name,
			page: addressOf({ kind: "level", id: level.id }),
			skills: skills
				.toSorted((a, b) => rank(a) - rank(b))
				.map(({ id, name, apparatus: [first = ""], criteria }) => ({
					name,
					apparatus: curriculum.apparatus.get(first)?.name,
					criteria: criteriaOf(site, "", id).map((line, i) => ({
						line,
						letters: criteria[i]?.length ?? 0,
					})),
				})),
		},
		words: skills.map(({ name }) => name),
		safety: [],
		place: level.source.place(level.path),
	};
}
