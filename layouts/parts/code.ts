/**
 * Code in rendered Markdown, coloured by Eleventy's highlighter.
 */

import { type Html, raw } from "../../scripts/render/html.ts";
import type { PageContext } from "./page.ts";

/** Colours the fenced blocks that name a language; all other markup stays as it is. */
export function highlightBlocks(ctx: PageContext, body: Html): Html {
	if (!body.text.includes('<code class="language-')) return body;
	return raw(
		body.text.replace(
			/<pre><code class="language-([a-z0-9]+)">([^<]*)<\/code><\/pre>/g,
			(_, language: string, code: string) => ctx.highlight(language, unescape(code)).text,
		),
	);
}

function unescape(markup: string): string {
	return markup
		.replaceAll("&lt;", "<")
		.replaceAll("&gt;", ">")
		.replaceAll("&quot;", '"')
		.replaceAll("&#39;", "'")
		.replaceAll("&amp;", "&");
}
