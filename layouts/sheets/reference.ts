/**
 * Shapes and skills, each with where it stands in the curriculum and the drills that train it.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import type { BinderView, ShapeLeaf, SkillLeaf, Written } from "../../scripts/views/sheets/binder.ts";
import { capital } from "../../scripts/views/words.ts";
import type { Words } from "../../scripts/words/words.ts";
import type { Nothing } from "../parts/nothing.ts";
import { evenRuns, inOneLine, inSentence, shapeFigure, sheetHead } from "./pieces.ts";
import { pageList, pageRun, placeOf, targetsOf } from "./references.ts";
import type { SheetSection } from "./section.ts";

/** Entries laid out in one go. */
const ENTRIES = 80;

export function shapesSection(binder: BinderView, slot: number): SheetSection | undefined {
	const { shapes } = binder;
	if (shapes.length === 0) return undefined;
	const { binder: say, destinations, pageLabels } = binder.words;
	const title = destinations.shapes;
	return {
		title,
		tab: title,
		slot,
		parts: [
			{
				label: pageLabels.shapes,
				head: title,
				html: html`${sheetHead("part-shapes", "", title, say.shapesLead)}<div class="flow">${shapes.map((shape) => shapeEntry(binder, shape))}</div>`,
			},
		],
		targets: [{ id: "part-shapes", title, depth: 1 }, ...targetsOf(binder, shapes)],
	};
}

function shapeEntry(binder: BinderView, { shape, link, description, drills }: ShapeLeaf): Html {
	return html`<section class="entry shape"><div class="shape-head whole">${shapeFigure(shape, `shape-figure-${shape.id}`, 84)}<div><h2 id="${placeOf(binder, link.to).anchor}">${shape.name}</h2>
${description !== undefined && html`<p>${description}</p>`}
${also(binder.words, shape.aliases)}</div></div>
${drillList(binder, drills)}</section>`;
}

export function skillsSection(binder: BinderView, slot: number): SheetSection | undefined {
	const { skills, words } = binder;
	if (skills.length === 0) return undefined;
	const { binder: say, destinations, pageLabels } = words;
	const title = destinations.skills;
	const lead = skills.some(({ pattern }) => pattern !== undefined)
		? `${say.skillsLead}. ${words.skills.patternSource}`
		: say.skillsLead;
	const head = sheetHead("part-skills", "", title, lead);
	return {
		title,
		tab: title,
		slot,
		parts: evenRuns(skills, ENTRIES).map((run, i) => ({
			label: pageLabels.skills,
			head: title,
			html: html`${i === 0 && head}<div class="flow">${run.map((skill) => skillEntry(binder, skill))}</div>`,
		})),
		targets: [{ id: "part-skills", title, depth: 1 }, ...targetsOf(binder, skills)],
	};
}

function skillEntry(binder: BinderView, skill: Written<SkillLeaf>): Html {
	const {
		link,
		name,
		aliases,
		description,
		criteria,
		apparatus,
		levels,
		pattern,
		direction,
		needs,
		leadsTo,
		opposites,
		drills,
		source: _source,
		...rest
	} = skill;
	rest satisfies Nothing;
	const { words } = binder;
	const facts = [
		inSentence(apparatus),
		inSentence(levels),
		pattern === undefined ? "" : words.patterns[pattern],
		direction === undefined ? "" : words.directions[direction],
	].filter((fact) => fact !== "");
	const run = (name: string, things: readonly Link[]) =>
		things.length > 0 && html`<p class="small"><b>${name}</b> ${pageRun(binder, things)}</p>`;
	return html`<section class="entry"><div class="whole"><h2 id="${placeOf(binder, link.to).anchor}">${name}</h2>
${facts.length > 0 && html`<p class="small">${capital(facts.join(" · "))}</p>`}
${description !== undefined && html`<p>${description}</p>`}
${criteria.length > 0 && html`<p class="small"><b>${words.skills.criteria}</b> ${inOneLine(criteria)}</p>`}${also(words, aliases)}${run(words.binder.needs, needs)}${run(words.drill.leadsTo, leadsTo)}${run(words.binder.otherWay, opposites)}</div>
${drillList(binder, drills)}</section>`;
}

function also({ drill: say }: Words, aliases: readonly string[]): Html | undefined {
	if (aliases.length === 0) return undefined;
	return html`<p class="small"><b>${say.alsoCalled}</b> ${aliases.join(", ")}</p>`;
}

function drillList(binder: BinderView, drills: readonly Link[]): Html {
	if (drills.length === 0) return html`<p class="small">${binder.words.binder.noDrill}</p>`;
	return pageList(binder, drills);
}
