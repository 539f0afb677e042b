/** What every SVG picture shares: its head, with words for those who cannot see it, and its ink. */

/** Ink and paper as attribute values: they follow the page's colours, dark mode and print. */
export const INK = "currentColor";
export const PAPER = "var(--figure-paper,Canvas)";
/** What is further away, and who helps: a grey that stands off light and dark paper alike (3:1, WCAG 2.2). */
export const FAR = "var(--figure-far,gray)";

export interface PictureWords {
	/** A short name, as plain text; may be empty where a caption stands beside the picture. */
	readonly title: string;
	/** What the picture shows, as plain text. */
	readonly description: string;
	/**
	 * Makes the ids unique in their page; letters, digits and hyphens. Without it the words stand in an
	 * attribute, and the same picture is the same text wherever it stands.
	 */
	readonly idPrefix?: string;
}

export interface Words extends PictureWords {
	readonly idPrefix: string;
}

/** An `<svg>` around `content`, named by its own title and description. `viewBox` in drawing units. */
export function picture(
	words: PictureWords,
	className: string,
	viewBox: readonly [left: number, top: number, width: number, height: number],
	size: { readonly width: number | string; readonly height: number | string },
	content: string,
): string {
	const head =
		`<svg xmlns="http://www.w3.org/2000/svg" class="${className}" viewBox="${viewBox.join(" ")}" ` +
		`width="${size.width}" height="${size.height}" role="img" `;
	if (words.idPrefix === undefined) {
		const title = words.title === "" ? "" : `${words.title}. `;
		return `${head}aria-label="${escaped(title + words.description)}">${content}</svg>`;
	}
	const title = `${words.idPrefix}-title`;
	const description = `${words.idPrefix}-desc`;
	return (
		`${head}aria-labelledby="${escaped(title)} ${escaped(description)}">` +
		`<title id="${escaped(title)}">${escaped(words.title)}</title>` +
		`<desc id="${escaped(description)}">${escaped(words.description)}</desc>${content}</svg>`
	);
}

/** Text made safe for SVG, inside elements and between double quotes. */
export function escaped(text: string): string {
	return text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

/** A length as it is written in a picture: rounded to a tenth of a drawing unit. */
export function tenth(value: number): number {
	return Math.round(value * 10) / 10;
}
