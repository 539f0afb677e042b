/**
 * The one door from Eleventy to the scripts: the edition that the build command laid ready, or,
 * where Eleventy runs alone, the handbook of the current folder.
 */

import { type Edition, takeEdition } from "../scripts/render/edition.ts";

export default async function handbook(): Promise<Edition> {
	const offered = takeEdition();
	if (offered !== undefined) return offered;
	// Who was offered an edition needs none of these, and they take half a second.
	const [{ openHandbook }, { highlightCode }, { sitePages }] = await Promise.all([
		import("../scripts/handbook.ts"),
		import("../scripts/render/highlight-code.ts"),
		import("../scripts/render/site.ts"),
	]);
	const { handbook: opened, problems } = openHandbook(process.cwd(), { highlight: highlightCode });
	if (opened === undefined) {
		const errors = problems.filter((problem) => problem.severity === "error");
		const lines = errors.map(({ code, place, what }) => `${place.file}:${place.line} ${code} ${what}`);
		throw new Error(`The club folder has errors:\n${lines.join("\n")}`);
	}
	return { pages: sitePages(opened) };
}
