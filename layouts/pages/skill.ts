/**
 * One skill: what it needs, what it leads to, and the drills on the way.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { SkillView } from "../../scripts/render/views/skill.ts";
import { progressionPicture } from "../parts/charts.ts";
import { drillCards } from "../parts/drill-parts.ts";
import { findingsList } from "../parts/findings-list.ts";
import { a, chips, facts, inWords, type PageContext, section } from "../parts/page.ts";
import { spacingTable } from "../parts/spacing-table.ts";

/** The page of a skill. */
export function skillPage(ctx: PageContext, view: SkillView): Html {
	const findings = findingsList(ctx, view.findings);
	const some = (links: SkillView["needs"]) => links.length > 0 && inWords(ctx, links);
	return html`<h1>${view.name}</h1>
${view.description && html`<p class="lead">${view.description}</p>`}
${view.aliases.length > 0 && html`<p class="small">Also called ${view.aliases.join(", ")}.</p>`}
${chips(ctx, view.apparatus, "On")}
${chips(ctx, view.levels, "For")}
${facts([
	["Needs first", some(view.needs)],
	["Leads to", some(view.leadsTo)],
	["Opposite", some(view.opposites)],
	["Pattern", view.pattern],
	["Direction", view.direction],
])}
${
	view.drills.length === 0
		? html`<p class="empty">No drill leads to this skill yet.</p>`
		: view.drills.map(({ level, lines }, i) =>
				section(`from-${i + 1}`, html`From ${a(ctx, level)}`, drillCards(ctx, lines, "h3")),
			)
}
${
	view.around.length > 1 &&
	section(
		"progression",
		"On the way",
		progressionPicture(ctx, view.around, {
			title: `What comes before ${view.name}, and what it leads to`,
			description:
				"From the easy at the top to the hard at the bottom. The list under this picture has the same in words.",
			idPrefix: "map",
			focus: view.id,
		}),
	)
}
${spacingTable(ctx, view.spacing)}
${findings && section("findings", "What the measures find", findings)}`;
}
