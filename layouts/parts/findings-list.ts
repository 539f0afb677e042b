/**
 * Findings beside the thing they are about.
 */

import type { FindingLine } from "../../scripts/views/findings.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { a, inlineCode, inWords, type PageContext } from "./page.ts";

/** A list of findings; nothing for none. */
export function findingsList(ctx: PageContext, lines: readonly FindingLine[]): Html | undefined {
	if (lines.length === 0) return undefined;
	return html`<ul class="findings">${lines.map((line) => findingItem(ctx, line))}</ul>`;
}

/** One finding; `more` is said under what to do. */
export function findingItem(ctx: PageContext, line: FindingLine, more?: Html): Html {
	return html`<li class="finding ${line.weight === "serious" ? "serious" : ""}">
<p>${a(ctx, { to: `author-guide/#${line.code}`, name: line.code }, "code")} <span class="weight">${ctx.words.weights[line.weight]}</span> ${line.what}</p>
<p class="small">${inlineCode(line.fix)}</p>${more}
<p class="small">${line.about.length > 0 && html`${inWords(ctx, line.about)} · `}<code>${line.file}:${line.line}</code>${line.field === "" ? "" : html`, <code>${line.field}</code>`}</p>
</li>`;
}
