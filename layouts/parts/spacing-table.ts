/**
 * How a shape or a skill is spread over the term, as a table.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { Spacing } from "../../scripts/render/views/spacing.ts";
import { a, type PageContext, section } from "./page.ts";

/** A part with the table; nothing where no level is taught it. */
export function spacingTable(ctx: PageContext, spacing: readonly Spacing[]): Html | undefined {
	if (spacing.length === 0) return undefined;
	return section(
		"spacing",
		"Over the term",
		html`<section class="scroll" tabindex="0" aria-label="Weeks at each level"><table>
<thead><tr><th scope="col">Level</th><th scope="col">Weeks</th><th scope="col">First</th><th scope="col">Last</th><th scope="col">Longest gap</th></tr></thead>
<tbody>${spacing.map(
			({ level, weeks, first, last, longestGap }) =>
				html`<tr><th scope="row">${a(ctx, level)}</th><td>${weeks}</td><td>${first ?? "–"}</td><td>${last ?? "–"}</td><td>${longestGap ?? "–"}</td></tr>`,
		)}</tbody></table></section>`,
	);
}
