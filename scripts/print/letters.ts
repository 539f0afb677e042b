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

/** Letters and figures alone, in small letters: what hyphens, spaces and ligatures do not change. */
export function lettersOf(text: string): string {
	return text
		.normalize("NFKC")
		.toLowerCase()
		.replace(/[^\p{L}\p{N}]/gu, "");
}

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
