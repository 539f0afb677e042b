/** Highlights fenced code for the author guide and for guides: classes on spans, no inline style. */

import { pairedShortcode } from "@11ty/eleventy-plugin-syntaxhighlight";
import { escapeHtml } from "../views/html.ts";

/**
 * Languages that are highlighted. The plugin hands code of a language it does not know through
 * unescaped, so no other name may reach it.
 */
const LANGUAGES: ReadonlySet<string> = new Set(["yaml", "markdown", "json", "csv", "bash"]);

/** Markup of a whole `<pre>`; any other language is left plain. */
export function highlightCode(code: string, language: string): string {
	if (!LANGUAGES.has(language)) return `<pre><code>${escapeHtml(code)}</code></pre>`;
	return pairedShortcode(code, language, undefined, { lineSeparator: "\n" });
}
