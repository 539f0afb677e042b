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
export function withoutCode(text: string): string {
	const blank = (part: string): string => part.replace(/[^\n]/g, " ");
	const unescaped = text
		.replace(/^( {0,3})(`{3,}|~{3,})[^\n]*\n[\s\S]*?(?:^ {0,3}\2[^\n]*$|$(?![\s\S]))/gm, blank)
		.replace(/\\[^\n]/g, blank);
	let plain = "";
	let done = 0;
	for (const [from, to] of codeSpans(unescaped)) {
		plain += unescaped.slice(done, from) + blank(unescaped.slice(from, to));
		done = to;
	}
	return plain + unescaped.slice(done);
}

/**
 * Where code spans begin and end: a run of backticks up to the next run of the same length. One pattern
 * for this would try every pair of runs, which a page full of backticks makes very many.
 */
function codeSpans(text: string): readonly (readonly [number, number])[] {
	const runs = [...text.matchAll(/`+/g)].map((run) => ({ from: run.index, length: run[0].length }));
	const closing: (number | undefined)[] = [];
	const nextOfLength = new Map<number, number>();
	for (let i = runs.length - 1; i >= 0; i--) {
		const length = runs[i]?.length ?? 0;
		closing[i] = nextOfLength.get(length);
		nextOfLength.set(length, i);
	}
	const spans: [number, number][] = [];
	for (let i = 0; i < runs.length; i++) {
		const end = runs[closing[i] ?? -1];
		const start = runs[i];
		if (start === undefined || end === undefined) continue;
		spans.push([start.from, end.from + end.length]);
		i = closing[i] ?? i;
	}
	return spans;
}
