/**
 * Writes the plan as a device needs it (plan-file.ts).
 */

import type { SpacedKind } from "../../compute/spacing.ts";
import type { Handbook } from "../../handbook.ts";
import type { Id } from "../../model.ts";
import { SHEET_FILES } from "../addresses.ts";
import { frameFacts, type SiteOptions } from "../site.ts";
import { indexMeasures } from "../views/measure-index.ts";
import { type IdAndName, type PlanFile, STANDS } from "./plan-file.ts";

/** Writes the plan of a handbook whose pages are written with the same options. */
export function planText(
	handbook: Pick<
		Handbook,
		"curriculum" | "exposures" | "edition" | "findings" | "accepted" | "tables" | "words"
	>,
	options: SiteOptions,
): string {
	const { curriculum, exposures } = handbook;
	const { words: _words, printed, site: _site, ...frame } = frameFacts(handbook, options);
	const { shapeWeeks, skillWeeks, shapeGap, skillGap } = curriculum.targets;
	const measures = indexMeasures(handbook);
	const standings = (kind: SpacedKind, things: Iterable<Id>) =>
		Array.from(things, (id) => {
			const byLevel = new Map(measures.standingsOf(kind, id).map((one) => [one.spacing.level, one]));
			return Array.from(curriculum.levels.keys(), (level) => {
				const one = byLevel.get(level);
				if (one === undefined) return 0;
				return STANDS.there + (one.tooFew ? STANDS.tooFew : 0) + (one.tooFar ? STANDS.tooFar : 0);
			}).join("");
		});
	const drills = [...new Set(exposures.map(({ drill }) => drill))].flatMap(
		(id) => curriculum.drills.get(id) ?? [],
	);
	const names = (things: ReadonlyMap<Id, { readonly name: string }>) =>
		Array.from(things, ([id, { name }]): IdAndName => [id, name]);
	const [level, apparatus, shape, skill] = [
		curriculum.levels,
		curriculum.apparatus,
		curriculum.shapes,
		curriculum.skills,
	].map((things) => placesIn(things.keys())) as [Places, Places, Places, Places];
	const drill = placesIn(drills.map(({ id }) => id));
	const file: PlanFile = {
		frame: {
			...frame,
			printed: [SHEET_FILES.termOverview(), SHEET_FILES.binder()].filter((file) => printed.has(file)),
		},
		term: { name: curriculum.term.name, weeks: curriculum.term.weeks },
		...(options.binder === undefined ? {} : { binder: options.binder }),
		targets: {
			...(shapeWeeks === undefined ? {} : { shapeWeeks }),
			...(skillWeeks === undefined ? {} : { skillWeeks }),
			...(shapeGap === undefined ? {} : { shapeGap }),
			...(skillGap === undefined ? {} : { skillGap }),
		},
		levels: names(curriculum.levels),
		apparatus: names(curriculum.apparatus),
		shapes: names(curriculum.shapes),
		skills: Array.from(curriculum.skills.values(), (one) => [one.id, one.name, one.apparatus.map(apparatus)]),
		standings: {
			shape: standings("shape", curriculum.shapes.keys()),
			skill: standings("skill", curriculum.skills.keys()),
		},
		weeks: curriculum.weeks.map(({ id, week }) => [id, week]),
		drills: drills.map(({ id, title, shapes, skills, direction }) => [
			id,
			title,
			shapes.map(shape),
			skills.map(skill),
			...(direction === undefined ? ([] as const) : ([direction] as const)),
		]),
		exposures: exposures.map((one) => [
			one.week,
			level(one.level),
			apparatus(one.apparatus),
			one.block,
			drill(one.drill),
			one.minutes,
			...(one.repetitions === undefined ? ([] as const) : ([one.repetitions] as const)),
		]),
	};
	return JSON.stringify(file);
}

type Places = (id: Id) => number;

function placesIn(ids: Iterable<Id>): Places {
	const places = new Map(Array.from(ids, (id, i) => [id, i]));
	return (id) => places.get(id) ?? -1;
}
