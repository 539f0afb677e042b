/** Where the search's files stand, from the root of the site, in the order in which they are wanted. */

export const HEAD_FILE = "search/heads.txt";
export const SUMMARIES_FILE = "search/summaries.json";
export const TEXTS_FILE = "search/texts.json";
