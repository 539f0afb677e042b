/**
 * One skill: what it needs, what it leads to, and the drills on the way.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { SkillView } from "../../scripts/views/skill.ts";
import { capital } from "../../scripts/views/words.ts";
import { drillCards } from "../parts/drill-parts.ts";
import { findingsList } from "../parts/findings-list.ts";
import { a, chips, facts, inWords, type PageContext, section } from "../parts/page.ts";
import { progressionPicture } from "../parts/progression-picture.ts";
import { spacingTable } from "../parts/spacing-table.ts";

export function skillPage(ctx: PageContext, view: SkillView): Html {
	const findings = findingsList(ctx, view.findings);
	const { words } = ctx;
	const say = words.skills;
	const some = (links: SkillView["needs"]) => links.length > 0 && inWords(ctx, links);
	return html`<h1>${view.name}</h1>
${view.description && html`<p class="lead">${view.description}</p>`}
${view.aliases.length > 0 && html`<p class="small">${words.alsoCalled(view.aliases.join(", "))}</p>`}
${chips(ctx, view.apparatus, words.drill.on)}
${chips(ctx, view.levels, words.drill.forLevels)}
${facts([
	[say.needs, some(view.needs)],
	[say.leadsTo, some(view.leadsTo)],
	[say.opposite, some(view.opposites)],
	[say.pattern, view.pattern && capital(words.patterns[view.pattern])],
	[words.drill.direction, view.direction && capital(words.directions[view.direction])],
])}
${
	view.criteria.length > 0 &&
	section("criteria", say.criteria, html`<ul>${view.criteria.map((line) => html`<li>${line}</li>`)}</ul>`)
}
${view.pattern && html`<p class="small source">${say.patternSource}</p>`}
${
	view.drills.length === 0
		? html`<p class="empty">${say.noDrill}</p>`
		: view.drills.map(({ level, lines }, i) =>
				section(`from-${i + 1}`, html`${words.fromLevel(a(ctx, level))}`, drillCards(ctx, lines)),
			)
}
${
	view.around.length > 1 &&
	section(
		"progression",
		say.onTheWay,
		progressionPicture(ctx, view.around, {
			title: say.mapTitle(view.name),
			description: say.mapDescription,
			idPrefix: "map",
			focus: view.id,
		}),
	)
}
${spacingTable(ctx, view.spacing)}
${findings && section("findings", words.findingsPage.found, findings)}`;
}
