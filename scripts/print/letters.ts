/** What two texts have in common whatever hyphens, spaces and markup do: their letters and figures. Pure. */

/** The words of markup as a page shows them: no drawings' titles, no rooms of references. */
export function textOf(markup: string): string {
	return markup
		.replace(/<(title|desc)\b[^>]*>[\s\S]*?<\/\1>/g, "")
		.replace(/<span class="ref-room"[^>]*>[^<]*<\/span>/g, "")
		.replace(/<[^>]*>/g, " ")
		.replace(/&(amp|lt|gt|quot|nbsp|#\d+|#x[0-9a-f]+);/gi, (_, name: string) => decoded(name));
}

const NAMED: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', nbsp: " " };

function decoded(name: string): string {
	const named = NAMED[name.toLowerCase()];
	if (named !== undefined) return named;
	const code = name.startsWith("#x") ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
	return String.fromCodePoint(code);
}

/**
 * Letters and figures alone, in small letters: what hyphens, spaces and ligatures do not change. Scripts in
 * which syllables have shapes of their own are left out: a PDF does not say letter by letter what these are.
 */
export function lettersOf(text: string): string {
	return text
		.normalize("NFKC")
		.toLowerCase()
		.replace(/[^\p{L}\p{N}]/gu, "")
		.replace(SYLLABLES, "");
}

const SYLLABLES =
	/[\p{Script=Devanagari}\p{Script=Bengali}\p{Script=Gurmukhi}\p{Script=Gujarati}\p{Script=Oriya}\p{Script=Tamil}\p{Script=Telugu}\p{Script=Kannada}\p{Script=Malayalam}\p{Script=Sinhala}\p{Script=Khmer}\p{Script=Myanmar}\p{Script=Tibetan}]/gu;

/** Whether a text has letters that cannot be told apart once they are on paper. */
export function hasSyllables(text: string): boolean {
	return text.search(SYLLABLES) >= 0;
}

/** Scripts that are written from the right. */
const FROM_THE_RIGHT =
	/[\p{Script=Arabic}\p{Script=Hebrew}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\p{Script=Adlam}]/u;

export function isFromTheRight(text: string): boolean {
	return FROM_THE_RIGHT.test(text);
}

/**
 * Whether words are among letters that were read back. Words of one direction stand as they are written.
 * Where directions mix, a line is painted in another order than it is read (Unicode Standard Annex 9):
 * there every word is looked for by itself.
 *
 * @param there letters as `lettersOf` gives them
 */
export function hasWords(there: string, words: string): boolean {
	if (there.includes(lettersOf(words))) return true;
	if (!isFromTheRight(words)) return false;
	return words.split(/\s+/).every((word) =>
		// Figures and foreign letters in a word have a place of their own as well.
		(word.match(RUNS) ?? []).every((run) => there.includes(lettersOf(run))),
	);
}

/** Runs of one direction. */
const RUNS = new RegExp(`${FROM_THE_RIGHT.source}+|[^${FROM_THE_RIGHT.source.slice(1, -1)}]+`, "gu");

/** Letters of the first text that the second has fewer of, each once. */
export function lettersMissing(wanted: string, there: string): string {
	const counts = new Map<string, number>();
	for (const letter of there) counts.set(letter, (counts.get(letter) ?? 0) + 1);
	const missing = new Set<string>();
	for (const letter of wanted) {
		const left = (counts.get(letter) ?? 0) - 1;
		counts.set(letter, left);
		if (left < 0) missing.add(letter);
	}
	return [...missing].join("");
}
