/**
 * Writes the plan as a device needs it (plan-file.ts).
 */

import type { Handbook } from "../../handbook.ts";
import type { Id } from "../../model.ts";
import { frameFacts, type SiteOptions } from "../site.ts";
import type { IdAndName, PlanFile } from "./plan-file.ts";

/** Writes the plan of a handbook whose pages are written with the same options. */
export function planText(
	handbook: Pick<Handbook, "curriculum" | "exposures" | "edition" | "findings" | "words">,
	options: SiteOptions,
): string {
	const { curriculum, exposures } = handbook;
	const { words: _words, printed: _printed, site: _site, ...frame } = frameFacts(handbook, options);
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
		frame,
		levels: names(curriculum.levels),
		apparatus: names(curriculum.apparatus),
		shapes: names(curriculum.shapes),
		skills: names(curriculum.skills),
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
