/**
 * Icons that come often on a page are drawn once, in a picture that takes no room, and placed from there:
 * a class sheet says at every block what each sign means.
 */

const ICON = /<svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">(.*?)<\/svg>/g;

/** Fewer are no longer than what would place them. */
const OFTEN = 3;

/** The document with its frequent icons placed; `</main>` ends what it shows. */
export function shareIcons(document: string): string {
	const counts = new Map<string, number>();
	for (const [, drawn = ""] of document.matchAll(ICON)) counts.set(drawn, (counts.get(drawn) ?? 0) + 1);
	const often = [...counts].filter(([, count]) => count >= OFTEN).map(([drawn]) => drawn);
	if (often.length === 0) return document;
	const ids = new Map(often.map((drawn, i) => [drawn, `icon-${i + 1}`]));
	const symbols = Array.from(
		ids,
		([drawn, id]) => `<symbol id="${id}" viewBox="0 0 24 24">${drawn}</symbol>`,
	);
	const defs = `<svg class="bodies" width="0" height="0" aria-hidden="true" focusable="false"><defs>${symbols.join("")}</defs></svg>`;
	return document
		.replace(ICON, (icon, drawn: string) => {
			const id = ids.get(drawn);
			return id === undefined
				? icon
				: `<svg class="icon" aria-hidden="true" focusable="false"><use href="#${id}"/></svg>`;
		})
		.replace("</main>", () => `${defs}\n</main>`);
}
