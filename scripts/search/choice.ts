/**
 * What a coach has asked for, words and filters, and how it stands in an address:
 * `?q=shoulders&shape=hollow&shape=arch&level=level-2`, or `?like=boat-rocks` for more like one drill;
 * `?q=bars&word=bars` looks for bars as a word, where it would be a filter.
 */

/** What drills are filtered by, in the order in which the page offers them. */
export const FACETS = [
	"shape",
	"level",
	"apparatus",
	"skill",
	"direction",
	"week",
	"equipment",
	"minutes",
] as const;
export type Facet = (typeof FACETS)[number];

/** Values chosen of each facet. A drill fits when it has any of a facet's values, for every facet. */
export type Filters = Partial<Readonly<Record<Facet, readonly string[]>>>;

export interface Choice {
	readonly words: string;
	readonly filters: Filters;
	/** The id of a drill that the drills should be like. */
	readonly like?: string;
	/** Words that are no filter, though they could be one. */
	readonly asText?: readonly string[];
}

export const NO_CHOICE: Choice = { words: "", filters: {} };

const WORDS = "q";
const LIKE = "like";
const AS_TEXT = "word";

/** Reads an address's query string. What is unknown or empty in it is passed over. */
export function readChoice(query: string): Choice {
	const parameters = new URLSearchParams(query);
	const filters: Partial<Record<Facet, readonly string[]>> = {};
	for (const facet of FACETS) {
		const values = [...new Set(parameters.getAll(facet).filter((value) => value !== ""))];
		if (values.length > 0) filters[facet] = values;
	}
	const like = parameters.get(LIKE) ?? "";
	const asText = [...new Set(parameters.getAll(AS_TEXT).filter((words) => words !== ""))];
	return {
		words: parameters.get(WORDS) ?? "",
		filters,
		...(like === "" ? {} : { like }),
		...(asText.length === 0 ? {} : { asText }),
	};
}

/** Writes a query string with its `?`, or nothing for an empty choice. */
export function writeChoice({ words, filters, like, asText = [] }: Choice): string {
	const parameters = new URLSearchParams();
	if (words.trim() !== "") parameters.set(WORDS, words);
	if (like !== undefined) parameters.set(LIKE, like);
	for (const text of asText) parameters.append(AS_TEXT, text);
	for (const facet of FACETS) {
		for (const value of filters[facet] ?? []) parameters.append(facet, value);
	}
	const text = parameters.toString();
	return text === "" ? "" : `?${text}`;
}

export function isChosen(filters: Filters, facet: Facet, value: string): boolean {
	return filters[facet]?.includes(value) ?? false;
}

/** The filters with one value put in if it was out, and out if it was in. */
export function toggled(filters: Filters, facet: Facet, value: string): Filters {
	const before = filters[facet] ?? [];
	const values = before.includes(value) ? before.filter((other) => other !== value) : [...before, value];
	const { [facet]: _, ...others } = filters;
	return values.length === 0 ? others : { ...others, [facet]: values };
}

export function countChosen(filters: Filters): number {
	return FACETS.reduce((sum, facet) => sum + (filters[facet]?.length ?? 0), 0);
}
