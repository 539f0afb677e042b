/**
 * Shapes and skills, each with where it stands in the curriculum and the drills that train it.
 */

import type { Id, LinkedDrill, LinkedShape, LinkedSkill } from "../../scripts/model.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { capital } from "../../scripts/views/words.ts";
import { evenRuns, named, namedDrills, pageList, pageRun, shapeFigure, sheetHead } from "./pieces.ts";
import type { Places } from "./places.ts";
import type { SheetSection } from "./section.ts";
import type { SheetSource } from "./source.ts";

/** Entries laid out in one go. */
const ENTRIES = 40;

export function shapesSection(source: SheetSource, places: Places, slot: number): SheetSection | undefined {
	const shapes = [...source.curriculum.shapes.values()];
	if (shapes.length === 0) return undefined;
	const { binder: say, destinations, pageLabels } = source.words;
	const title = destinations.shapes;
	return {
		title,
		tab: title,
		slot,
		parts: [
			{
				label: pageLabels.shapes,
				head: title,
				html: html`${sheetHead(places.id("part", "shapes"), "", title, say.shapesLead)}${shapes.map((shape) => shapeEntry(source, places, shape))}`,
			},
		],
		targets: [
			{ id: places.id("part", "shapes"), title, depth: 1 },
			...shapes.map(({ id, name, source: written }) => ({
				id: places.id("shape", id),
				title: name,
				depth: 2 as const,
				source: written,
			})),
		],
	};
}

function shapeEntry(source: SheetSource, places: Places, shape: LinkedShape): Html {
	return html`<section class="entry shape"><div class="shape-head whole">${shape.angles !== undefined && shapeFigure(shape, `shape-figure-${shape.id}`, 84)}<div><h2 id="${places.id("shape", shape.id)}">${shape.name}</h2>
${shape.description !== undefined && html`<p>${places.inline(shape.description)}</p>`}
${also(source, shape.aliases)}</div></div>
${drillList(source, places, shape.drills)}</section>`;
}

export function skillsSection(source: SheetSource, places: Places, slot: number): SheetSection | undefined {
	const skills = [...source.curriculum.skills.values()];
	if (skills.length === 0) return undefined;
	const { binder: say, destinations, pageLabels } = source.words;
	const title = destinations.skills;
	const lead = skills.some(({ pattern }) => pattern !== undefined)
		? `${say.skillsLead}. ${source.words.skills.patternSource}`
		: say.skillsLead;
	const head = sheetHead(places.id("part", "skills"), "", title, lead);
	return {
		title,
		tab: title,
		slot,
		parts: evenRuns(skills, ENTRIES).map((run, i) => ({
			label: pageLabels.skills,
			head: title,
			html: html`${i === 0 && head}${run.map((skill) => skillEntry(source, places, skill))}`,
		})),
		targets: [
			{ id: places.id("part", "skills"), title, depth: 1 },
			...skills.map(({ id, name, source: written }) => ({
				id: places.id("skill", id),
				title: name,
				depth: 2 as const,
				source: written,
			})),
		],
	};
}

function skillEntry(source: SheetSource, places: Places, skill: LinkedSkill): Html {
	const { words } = source;
	const { apparatus, levels, skills } = source.curriculum;
	const names = (ids: readonly Id[], things: Parameters<typeof named>[1]) =>
		named(ids, things)
			.map(({ name }) => name)
			.join(", ");
	const facts = [
		names(skill.apparatus, apparatus),
		names(skill.levels, levels),
		skill.pattern === undefined ? "" : words.patterns[skill.pattern],
		skill.direction === undefined || skill.direction === "none" ? "" : words.directions[skill.direction],
	].filter((fact) => fact !== "");
	const run = (name: string, ids: readonly Id[]) =>
		ids.length > 0 &&
		html`<p class="small"><b>${name}</b> ${pageRun(places, "skill", named(ids, skills))}</p>`;
	return html`<section class="entry"><div class="whole"><h2 id="${places.id("skill", skill.id)}">${skill.name}</h2>
${facts.length > 0 && html`<p class="small">${capital(facts.join(" · "))}</p>`}
${skill.description !== undefined && html`<p>${places.inline(skill.description)}</p>`}
${skill.criteria.length > 0 && html`<p class="small"><b>${words.skills.criteria}</b> ${skill.criteria.map((line, i) => html`${i > 0 && " · "}${places.inline(line)}`)}</p>`}${also(source, skill.aliases)}${run(words.binder.needs, skill.needs)}${run(words.drill.leadsTo, skill.leadsTo)}${run(words.binder.otherWay, skill.opposites)}</div>
${drillList(source, places, skill.drills)}</section>`;
}

function also({ words }: SheetSource, aliases: readonly string[]): Html | undefined {
	return aliases.length === 0
		? undefined
		: html`<p class="small"><b>${words.drill.alsoCalled}</b> ${aliases.join(", ")}</p>`;
}

function drillList(source: SheetSource, places: Places, ids: readonly Id[]): Html {
	if (ids.length === 0) return html`<p class="small">${source.words.binder.noDrill}</p>`;
	const drills = ids.flatMap((id): readonly LinkedDrill[] => {
		const found = source.curriculum.drills.get(id);
		return found === undefined ? [] : [found];
	});
	return pageList(
		places,
		"drill",
		namedDrills(
			drills.map(({ id }) => id),
			source.curriculum.drills,
			source,
		),
	);
}
