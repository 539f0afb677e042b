/**
 * The search's first file as text: a line of what all drills need (names, compounds, tags), then a line
 * for each drill. It is opened while it comes in, so that over a weak net little is left to do at its end.
 */

import { type DrillHead, type HeadFile, type HeadStart, SearchIndex } from "./engine.ts";

export function writeHeadText({ drills, ...start }: HeadFile): string {
	return [start satisfies HeadStart, ...drills].map((line) => JSON.stringify(line)).join("\n");
}

/** Opens the search from pieces of the file, each as it comes; they may end anywhere. Throws where the file is cut off. */
export async function openWhileReading(pieces: AsyncIterable<string>): Promise<SearchIndex> {
	let index: SearchIndex | undefined;
	let rest = "";
	const take = (line: string) => {
		if (index === undefined) index = new SearchIndex(JSON.parse(line) as HeadStart);
		else index.addDrill(JSON.parse(line) as DrillHead);
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
