/** What a reader sees or hears of a page: its text, and the attributes that are read aloud or shown. */

/** Everything in words, in the order of the page, without programs, styles and code. */
export function wordsOnPage(page: string): readonly string[] {
	const shown = page
		.replace(/<!--[\s\S]*?-->/g, "")
		.replace(/<(script|style|pre)\b[\s\S]*?<\/\1>/g, "")
		.replace(/<code\b[\s\S]*?<\/code>/g, "");
	const attributes = Array.from(
		shown.matchAll(
			/\s(?:aria-label|alt|title|placeholder|aria-description|data-label|data-before)="([^"]*)"|<meta (?:name="description"|property="og:(?:title|description|site_name|image:alt)") content="([^"]*)"/g,
		),
		([, attribute, meta]) => attribute ?? meta ?? "",
	);
	const texts = shown.split(/<[^>]*>/);
	return [...texts, ...attributes].map(plain).filter((text) => text !== "");
}

function plain(text: string): string {
	return text
		.replace(/&#(\d+);/g, (_, code) => String.fromCodePoint(Number(code)))
		.replace(/&[a-z]+;/g, " ")
		.replace(/\s+/g, " ")
		.trim();
}
