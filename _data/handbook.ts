/**
 * The one door from Eleventy to the scripts: the edition that the build command laid ready, or,
 * where Eleventy runs alone, the handbook of the current folder.
 */

import { openHandbook } from "../scripts/handbook.ts";
import { type Edition, takeEdition } from "../scripts/render/edition.ts";
import { highlightCode } from "../scripts/render/highlight-code.ts";
import { sitePages } from "../scripts/render/site.ts";

export default function handbook(): Edition {
	const offered = takeEdition();
	if (offered !== undefined) return offered;
	const { handbook: opened, problems } = openHandbook(process.cwd(), { highlight: highlightCode });
	if (opened === undefined) {
		const errors = problems.filter((problem) => problem.severity === "error");
		const lines = errors.map(({ code, place, what }) => `${place.file}:${place.line} ${code} ${what}`);
		throw new Error(`The club folder has errors:\n${lines.join("\n")}`);
	}
	return { pages: sitePages(opened) };
}
