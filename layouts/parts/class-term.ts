/**
 * What a class really does of the skills of its levels over the term, as a table for each group.
 */

import type { ClassTermView, SkillOverTerm } from "../../scripts/views/class-term.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import { scrollTable } from "./measure-parts.ts";
import { a, type PageContext } from "./page.ts";

/** The tables under what they count. */
export function classTerm(ctx: PageContext, { groups, wanted }: ClassTermView): Html {
	const { classes: say, counts } = ctx.words;
	return html`<p class="small">${say.counted}${wanted !== undefined && ` ${say.wanted(counts.times(wanted))}`} <a href="${ctx.way("data/reach.csv")}" download>reach.csv</a></p>
${groups.map(({ name, skills }) => [name !== undefined && html`<h3>${name}</h3>`, table(ctx, name, skills, wanted !== undefined)])}`;
}

function table(
	ctx: PageContext,
	name: string | undefined,
	skills: readonly SkillOverTerm[],
	isJudged: boolean,
): Html {
	const { words } = ctx;
	const { classes: say, heads } = words;
	const number = (value: number | undefined): string => (value === undefined ? "–" : words.number(value));
	const link = (to: Link | undefined): Html | string => (to === undefined ? "–" : a(ctx, to));
	return scrollTable(
		name === undefined ? say.skillBySkill : `${say.skillBySkill}${words.colon}${name}`,
		[
			words.things.skill.one,
			say.performed,
			say.prepared,
			heads.weeks,
			heads.first,
			heads.last,
			heads.longestGap,
			...(isJudged ? [heads.missedBy] : []),
		],
		skills.map((one) => {
			const note = [
				...(one.arrives ? [say.arrives] : []),
				...(one.weeks === 0 ? [say.neverMet] : []),
				...(one.together === undefined ? [] : [say.together(one.together)]),
			].join(", ");
			const isShort = one.missedBy !== undefined && one.missedBy > 0;
			return html`<tr><th scope="row">${a(ctx, one.skill)}${note !== "" && html` <span class="small">${note}</span>`}</th><td>${words.number(one.performed)}</td><td>${words.number(one.prepared)}</td><td>${one.weeks}</td><td>${link(one.first)}</td><td>${link(one.last)}</td><td>${number(one.longestGap)}</td>${isJudged && html`<td${isShort && html` class="short"`}>${isShort ? number(one.missedBy) : "–"}</td>`}</tr>`;
		}),
	);
}
