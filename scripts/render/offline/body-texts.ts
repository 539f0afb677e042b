/**
 * The texts of a drill that the search looks for last, read back from the drill's own page: a device
 * that keeps the pages indexes them itself, and need not fetch an index as large as all drills.
 *
 * The build makes the index both ways and sends its own where the two differ, so a page written in
 * another way costs kilobytes and never a result.
 */

/** As `SearchDocument` has them. */
export interface BodyTexts {
	readonly cues: readonly string[];
	readonly faults: readonly string[];
	readonly body: string;
}

/** What a level does of which nothing is written. */
const UNWRITTEN = "As described.";

/** The texts of a drill's page. */
export function bodyTextsOf(page: string): BodyTexts {
	const cues = /<ul class="cues">(.*?)<\/ul>/s.exec(page)?.[1] ?? "";
	const faults = /<dl class="faults">(.*?)<\/dl>/s.exec(page)?.[1] ?? "";
	const ways = /<ul class="ways">(.*?)<\/ul>/s.exec(page)?.[1] ?? "";
	const how = /<h2 id="how">.*?<div class="prose">(.*?)<\/div>\n<\/section>/s.exec(page)?.[1] ?? "";
	const done = all(ways, /<span class="how">(.*?)<\/span>(?= <span class="dose">|<\/li>)/gs);
	return {
		cues: all(cues, /<li>(.*?)<\/li>/gs).map(wordsIn),
		faults: Array.from(
			faults.matchAll(
				/<dt><span class="label">[^<]*<\/span> (.*?)<\/dt><dd><span class="label">[^<]*<\/span> (.*?)<\/dd>/gs,
			),
			([, see = "", say = ""]) => `${wordsIn(see)}. ${wordsIn(say)}`,
		),
		body: [how, ...done.filter((way) => way !== UNWRITTEN)].map(wordsIn).join(" "),
	};
}

function all(markup: string, pattern: RegExp): readonly string[] {
	return Array.from(markup.matchAll(pattern), ([, found = ""]) => found);
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
