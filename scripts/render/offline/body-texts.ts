/**
 * The texts of a drill that the search looks for last, out of the text of the drill's own page: a device
 * that keeps the pages indexes them itself, and need not fetch an index as large as all drills.
 *
 * The build makes the index both ways and sends its own where the two differ, so a page written in
 * another way costs kilobytes and never a result.
 */

import type { Html } from "../html.ts";
import { isPageText, readView } from "../page-text.ts";
import type { DrillView } from "../views/drill.ts";

/** As `SearchDocument` has them. */
export interface BodyTexts {
	readonly cues: readonly string[];
	readonly faults: readonly string[];
	readonly body: string;
}

/** What the search knows of a drill's page. */
type DrillTexts = Pick<DrillView, "title" | "summary" | "cues" | "faults" | "levels" | "body">;

const NOTHING: DrillTexts = {
	title: "",
	summary: undefined,
	cues: [],
	faults: [],
	levels: [],
	body: { text: "" },
};

let last: { readonly text: string; readonly view: DrillTexts } | undefined;

/** The texts of a drill's page; none of a page that does not come as its text. */
export function drillViewOf(text: string): DrillTexts {
	// Makers read the same pages one after the other.
	if (last?.text !== text) {
		last = { text, view: isPageText(text) ? (readView(text) as DrillTexts) : NOTHING };
	}
	return last.view;
}

export function bodyTextsOf({ cues, faults, levels, body }: DrillTexts): BodyTexts {
	const words = ({ text }: Pick<Html, "text">) => wordsIn(text);
	return {
		cues: cues.map(words),
		faults: faults.map(({ see, say }) => `${words(see)}. ${words(say)}`),
		body: [body, ...levels.flatMap(({ how }) => how ?? [])].map(words).join(" "),
	};
}

const NAMED: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"' };

/** The words of markup. Elements within a line join what they stand between; others part it. */
export function wordsIn(markup: string): string {
	return markup
		.replace(/<img [^>]*?alt="([^"]*)"[^>]*>/g, "$1")
		.replace(/<\/?(?:a|code|del|em|s|span|strong)(?: [^>]*)?>/g, "")
		.replace(/<[^>]*>/g, " ")
		.replace(/&(?:#(\d+)|(\w+));/g, (whole, digits: string | undefined, name: string | undefined) =>
			digits === undefined ? (NAMED[name ?? ""] ?? whole) : String.fromCodePoint(Number(digits)),
		);
}
