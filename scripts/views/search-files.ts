/** Where the search's files stand, from the root of the site, in the order in which they are wanted. */

export const HEAD_FILE = "search/heads.txt";
export const SUMMARIES_FILE = "search/summaries.json";

/** Drills whose texts share a file: a changed drill changes one of them. */
const TEXTS_TOGETHER = 64;
const MOST_TEXT_FILES = 16;

/** The files of texts of so many drills, and the drills in each, by their places in the handbook's order. */
export function textFiles(drills: number): readonly { path: string; from: number; to: number }[] {
	const size = Math.max(TEXTS_TOGETHER, Math.ceil(drills / MOST_TEXT_FILES));
	return Array.from({ length: Math.ceil(drills / size) }, (_, i) => ({
		path: `search/texts-${i}.json`,
		from: i * size,
		to: (i + 1) * size,
	}));
}
