/**
 * The search's data files: the handbook's drills as the engine sees them, indexed and written compactly.
 */

import { DIRECTIONS } from "../compute/tables.ts";
import type { Handbook } from "../handbook.ts";
import type { Exposure, Id } from "../model.ts";
import { HEAD_FILE, SUMMARIES_FILE, textFiles } from "../views/search-files.ts";
import type { Filters } from "./choice.ts";
import {
	type FacetValue,
	NO_EQUIPMENT,
	type SearchData,
	type SearchDocument,
	type SearchOptions,
	searchData,
	type TextsFile,
} from "./engine.ts";
import { writeHeadText } from "./head-text.ts";
import { searchPages } from "./search-pages.ts";

/** Planned minutes in three bands: `short` is under 5, `medium` 5 to 10, `long` above. */
const MINUTES = ["short", "medium", "long"] as const;

type SearchSource = Pick<Handbook, "curriculum" | "exposures" | "markdown" | "words">;

/** The data files of the search, to be written into the site. */
export function searchFiles(handbook: SearchSource): readonly { path: string; text: string }[] {
	return filesOf(searchDataOf(handbook));
}

/** What is searched, as it is written. */
export function filesOf({ head, summaries, texts }: SearchData): readonly { path: string; text: string }[] {
	return [
		{ path: HEAD_FILE, text: writeHeadText(head) },
		{ path: SUMMARIES_FILE, text: JSON.stringify(summaries) },
		...textFiles(texts.drills.length).map(({ path, from, to }) => ({
			path,
			text: JSON.stringify({ drills: texts.drills.slice(from, to) } satisfies TextsFile),
		})),
	];
}

/** What is searched: made by the build, and the same by a device that has the curriculum. */
function searchDataOf(handbook: SearchSource): SearchData {
	return searchData(searchDocuments(handbook), searchOptions(handbook), searchPages(handbook));
}

/** Every drill of the handbook, in its order. */
export function searchDocuments({
	curriculum,
	exposures,
	markdown,
}: SearchSource): readonly SearchDocument[] {
	const minutes = minutesByDrill(exposures);
	return [...curriculum.drills.values()].map((drill): SearchDocument => {
		const facets: Filters = {
			shape: drill.shapes,
			level: [...drill.levels.keys()],
			apparatus: drill.apparatus,
			skill: drill.skills,
			direction: drill.direction === undefined ? [] : [drill.direction],
			week: [...new Set(drill.planned.map((occurrence) => String(occurrence.week)))],
			equipment: drill.equipment.length === 0 ? [NO_EQUIPMENT] : drill.equipment.map((need) => need.item),
			minutes: [...(minutes.get(drill.id) ?? [])],
		};
		const ways = [...drill.levels.values()].flatMap((dose) => dose.do ?? []);
		return {
			id: drill.id,
			title: markdown.plain(drill.title),
			aliases: drill.aliases.map((alias) => markdown.plain(alias)),
			summary: markdown.plain(drill.summary ?? ""),
			facets,
			cues: drill.cues.map((cue) => markdown.plain(cue)),
			faults: drill.faults.map(({ see, say }) => ({ see: markdown.plain(see), say: markdown.plain(say) })),
			body: [markdown.plain(drill.body), ...ways.map((way) => markdown.plain(way))].join(" "),
		};
	});
}

export function searchOptions({
	curriculum,
	words,
}: Pick<SearchSource, "curriculum" | "words">): SearchOptions {
	return {
		language: curriculum.club.language,
		values: {
			shape: [...curriculum.shapes.values()].map(facetValue),
			level: [...curriculum.levels.values()].map((level) => ({
				...facetValue(level),
				aliases: [...shortForms(level.name), idWords(level.id)],
			})),
			apparatus: [...curriculum.apparatus.values()].map((apparatus) => ({
				...facetValue(apparatus),
				aliases: [idWords(apparatus.id)],
			})),
			skill: [...curriculum.skills.values()].map(facetValue),
			direction: DIRECTIONS.map((id) => ({ id, ...words.filterValues.directions[id] })),
			week: [...new Set(curriculum.weeks.map((week) => week.week))]
				.sort((a, b) => a - b)
				.map((week) => ({ id: String(week), name: words.week(week), aliases: shortForms(words.week(week)) })),
			equipment: [
				{ id: NO_EQUIPMENT, ...words.filterValues.noEquipment },
				...[...curriculum.equipment.values()].map(facetValue),
			],
			minutes: MINUTES.map((id) => ({ id, name: words.filterValues.minutes[id], aliases: [] })),
		},
	};
}

function facetValue(entry: {
	readonly id: Id;
	readonly name: string;
	readonly aliases?: readonly string[];
}): FacetValue {
	return { id: entry.id, name: entry.name, aliases: entry.aliases ?? [] };
}

/** A level and an apparatus go by their ids as well: the area named `Warm-up area` is `warm-up`. */
function idWords(id: Id): string {
	return id.replaceAll("-", " ");
}

/** Coaches shorten a level of a word and a number: `Level 2` is `L2` and `level2`. */
function shortForms(name: string): readonly string[] {
	const [, word, number] = /^(\p{L}+)\s+(\d+)$/u.exec(name) ?? [];
	return word === undefined || number === undefined ? [] : [`${word[0]}${number}`, `${word}${number}`];
}

function minutesByDrill(exposures: readonly Exposure[]): ReadonlyMap<Id, ReadonlySet<string>> {
	const bands = new Map<Id, Set<string>>();
	for (const { drill, minutes } of exposures) {
		const band = minutes < 5 ? "short" : minutes <= 10 ? "medium" : "long";
		const found = bands.get(drill);
		if (found === undefined) bands.set(drill, new Set([band]));
		else found.add(band);
	}
	return bands;
}
