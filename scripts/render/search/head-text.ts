/**
 * The search's first file as text: a line that all drills need (names, compounds, tags), then a line for
 * each drill. It is opened while it comes in, so that over a weak net little is left to do at its end.
 */

import { type HeadFile, type HeadStart, SearchIndex } from "./engine.ts";

/** Writes the file. */
export function writeHeadText({ drills, ...start }: HeadFile): string {
	return [JSON.stringify(start satisfies HeadStart), ...drills].join("\n");
}

/** Reads it back, all at once. */
export function readHeadText(text: string): HeadFile {
	const [start = "", ...drills] = text.split("\n");
	return { ...(JSON.parse(start) as HeadStart), drills };
}

/** Opens the search from pieces of the file, each as it comes; they may end anywhere. Throws where the file is cut off. */
export async function openWhileReading(pieces: AsyncIterable<string>): Promise<SearchIndex> {
	let index: SearchIndex | undefined;
	let rest = "";
	const take = (line: string) => {
		if (index === undefined) index = new SearchIndex(JSON.parse(line) as HeadStart);
		else index.addDrill(line);
	};
	for await (const piece of pieces) {
		const lines = (rest + piece).split("\n");
		rest = lines.pop() ?? "";
		for (const line of lines) take(line);
	}
	take(rest);
	if (index?.isWhole !== true) throw new RangeError("The search's first file is cut off.");
	return index;
}
