/**
 * The `[[id]]` and `[[id|words]]` links of a club's text: one pattern for checking and for rendering.
 *
 * `[[kind:id]]` names the kind where two kinds share an id; without it the kinds are asked in the
 * order of LINK_KINDS.
 */

/** A link at the start of a text: 1 is the reference, 2 the words. */
export const LINK_AT_START = /^\[\[([^[\]|\n]+)(?:\|([^[\]\n]+))?\]\]/;

/** A link found in a text. Line and column count from 0. */
export interface FoundLink {
	readonly reference: string;
	readonly line: number;
	readonly column: number;
}

/** All links of a Markdown text, leaving out what stands in code or behind a backslash. */
export function findLinks(text: string): readonly FoundLink[] {
	if (!text.includes("[[")) return [];
	const found: FoundLink[] = [];
	for (const [line, words] of withoutCode(text).split("\n").entries()) {
		for (const match of words.matchAll(/\[\[([^[\]|\n]+)(?:\|([^[\]\n]+))?\]\]/g)) {
			found.push({ reference: (match[1] ?? "").trim(), line, column: match.index });
		}
	}
	return found;
}

/** The text with fenced code, code spans and escaped characters blanked, so that places stay. */
function withoutCode(text: string): string {
	const blank = (part: string): string => part.replace(/[^\n]/g, " ");
	return text
		.replace(/^( {0,3})(`{3,}|~{3,})[^\n]*\n[\s\S]*?(?:^ {0,3}\2[^\n]*$|$(?![\s\S]))/gm, blank)
		.replace(/\\[^\n]/g, blank)
		.replace(/(`+)(?!`)[\s\S]*?[^`]\1(?!`)/g, blank);
}
