/**
 * All skills by apparatus.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { SkillsView } from "../../scripts/views/skill.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { a, type PageContext, section } from "../parts/page.ts";

export function skillsPage(ctx: PageContext, view: SkillsView): Html {
	return html`<h1>${ctx.words.destinations.skills}</h1>
${view.groups.map(({ apparatus, id, skills }) =>
	section(
		`on-${id}`,
		html`${apparatusIcon(id)} ${apparatus}`,
		html`<ul class="rows">${skills.map(
			({ link, levels, drills }) =>
				html`<li>${a(ctx, link, "name")} <span class="small">${[ctx.words.counts.drills(drills), levels.map((l) => l.name).join(", ")].filter((x) => x !== "").join(" · ")}</span></li>`,
		)}</ul>`,
	),
)}`;
}
