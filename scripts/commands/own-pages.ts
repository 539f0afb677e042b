/** The pages of a club folder for Eleventy where it runs by itself, and not as the last stage of a build. */

import type { TemplatePages } from "../../layouts/pages/site.11ty.ts";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { openHandbook } from "../handbook.ts";
import { highlightCode } from "../site/highlight-code.ts";
import { templatePages } from "../site/write-pages.ts";

/** Throws where the folder has errors, and names each. */
export function ownPages(clubDir: string): TemplatePages {
	const { handbook, problems } = openHandbook(clubDir, { highlight: highlightCode });
	if (handbook === undefined) {
		const errors = problems.filter((problem) => problem.severity === "error");
		const lines = errors.map(({ code, place, what }) => `${place.file}:${place.line} ${code} ${what}`);
		throw new Error(`The club folder has errors:\n${lines.join("\n")}`);
	}
	return templatePages(sitePages(handbook));
}
