/**
 * Pages of the site that are no drill, as the search sees them: classes, weeks, guides, and every shape,
 * skill, level, apparatus and piece of equipment.
 */

import type { Handbook } from "../handbook.ts";
import type { Id } from "../model.ts";
import { addressOf, weekApparatusAddress } from "../views/addresses.ts";
import type { SearchPage } from "./pages.ts";

export type PageSource = Pick<Handbook, "curriculum" | "markdown" | "words">;

export function searchPages({ curriculum, markdown, words }: PageSource): readonly SearchPage[] {
	const { facets, kinds, whenHurt } = words.searching;
	const named = (
		kind: "shape" | "level" | "apparatus" | "skill" | "equipment",
		entries: Iterable<{ readonly id: Id; readonly name: string; readonly aliases?: readonly string[] }>,
	) =>
		Array.from(entries, ({ id, name, aliases = [] }): SearchPage => {
			// What stands in brackets behind a name is its measure: nobody asks for that.
			const called = name.replace(/\s*\([^)]*\)\s*$/, "");
			return {
				address: addressOf({ kind, id }),
				name,
				kind: facets[kind],
				aliases: [...(called === name ? [] : [called]), ...aliases],
				words: "",
				text: "",
			};
		});
	const levelNames = (ids: readonly Id[]) => ids.map((id) => curriculum.levels.get(id)?.name ?? id).join(" ");
	const apparatusName = (id: Id) => curriculum.apparatus.get(id)?.name ?? id;
	return [
		{
			address: "about/",
			name: words.destinations.safety,
			kind: words.destinations.safety,
			aliases: [kinds.emergency],
			words: whenHurt,
			text: markdown.plain(curriculum.club.emergency ?? ""),
		},
		...Array.from(
			curriculum.guides.values(),
			({ id, title, body }): SearchPage => ({
				address: addressOf({ kind: "guide", id }),
				name: title,
				kind: kinds.guide,
				aliases: [],
				words: "",
				text: wordsOnce(markdown.plain(body)),
			}),
		),
		...curriculum.term.classes.map(
			({ id, name, day, levels }): SearchPage => ({
				address: `classes/${id}/`,
				name,
				kind: kinds.class,
				aliases: [],
				words: `${day === undefined ? "" : words.days[day]} ${levelNames(levels)}`,
				text: "",
			}),
		),
		...curriculum.weeks.map(
			({ id, week, theme, apparatus }): SearchPage => ({
				address: addressOf({ kind: "week", id }),
				name: `${words.week(week)}: ${markdown.plain(theme)}`,
				kind: facets.week,
				aliases: [words.week(week), markdown.plain(theme)],
				words: apparatus.map(({ apparatus: on }) => apparatusName(on)).join(" "),
				text: "",
			}),
		),
		...curriculum.weeks.flatMap(({ id, week, apparatus }) =>
			apparatus.map(
				({ apparatus: on }): SearchPage => ({
					address: weekApparatusAddress(id, on),
					name: `${words.week(week)}, ${apparatusName(on)}`,
					kind: facets.week,
					aliases: [],
					words: "",
					text: "",
				}),
			),
		),
		...named("level", curriculum.levels.values()),
		...named("apparatus", curriculum.apparatus.values()),
		...named("shape", curriculum.shapes.values()),
		...named("skill", curriculum.skills.values()),
		...named("equipment", curriculum.equipment.values()),
	];
}

/** Every word of a text once: it is found by them, and not shown. */
function wordsOnce(text: string): string {
	return [...new Set(text.toLowerCase().match(/[\p{L}\p{N}]+(?:['’-][\p{L}]+)*/gu))].join(" ");
}
