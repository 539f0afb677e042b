/**
 * A link as views carry it: where it leads, as a path from the root of the site, and its words.
 * The page that writes it makes the path relative.
 */

import type { Id, LinkKind } from "../model.ts";
import type { Words } from "../words/words.ts";
import { type Address, addressOf } from "./addresses.ts";

export interface Link {
	/** A page's address, with a fragment where it has one, or a file, from the root of the site. */
	readonly to: Address;
	readonly name: string;
}

/** Words that may lead somewhere. */
export interface Label {
	readonly to?: Address;
	readonly name: string;
}

/** A week has a number where others have a name. */
export type NamedKind = Exclude<LinkKind, "week">;

type Named = ReadonlyMap<Id, { readonly name: string }>;
type Titled = ReadonlyMap<Id, { readonly title: string }>;

/** What names are looked up in: of a curriculum only this. */
export interface Names {
	readonly drills: Titled;
	readonly guides: Titled;
	readonly skills: Named;
	readonly shapes: Named;
	readonly apparatus: Named;
	readonly levels: Named;
	readonly equipment: Named;
}

export function weekLink(words: Words, week: { readonly id: Id; readonly week: number }): Link {
	return { to: addressOf({ kind: "week", id: week.id }), name: words.week(week.week) };
}

/** A link to a thing of the curriculum, by its own name; its id where nothing has it. */
export function linkTo(curriculum: Names, kind: NamedKind, id: Id): Link {
	return { to: addressOf({ kind, id }), name: nameOf(curriculum, kind, id) };
}

/** The same for several, in the order given. */
export function linksTo(curriculum: Names, kind: NamedKind, ids: Iterable<Id>): readonly Link[] {
	return Array.from(ids, (id) => linkTo(curriculum, kind, id));
}

/** What a thing is called. */
function nameOf(curriculum: Names, kind: NamedKind, id: Id): string {
	switch (kind) {
		case "drill":
			return curriculum.drills.get(id)?.title ?? id;
		case "guide":
			return curriculum.guides.get(id)?.title ?? id;
		case "skill":
			return curriculum.skills.get(id)?.name ?? id;
		case "shape":
			return curriculum.shapes.get(id)?.name ?? id;
		case "apparatus":
			return curriculum.apparatus.get(id)?.name ?? id;
		case "level":
			return curriculum.levels.get(id)?.name ?? id;
		case "equipment":
			return curriculum.equipment.get(id)?.name ?? id;
	}
}
