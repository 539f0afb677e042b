/** A handful of drills written for the search's tests, with every kind of tag and some awkward words. */

import type { Facet, Filters } from "../../scripts/search/choice.ts";
import {
	createIndex,
	type FacetValue,
	type SearchDocument,
	type SearchIndex,
	type SearchOptions,
} from "../../scripts/search/engine.ts";

function value(id: string, name: string, ...aliases: string[]): FacetValue {
	return { id, name, aliases };
}

export const SMALL_VALUES: SearchOptions["values"] = {
	shape: [
		value("hollow", "Hollow", "dish", "banana"),
		value("front-plank", "Front plank", "push-up position"),
		value("handstand", "Handstand", "hand balance"),
		value("scale", "Front scale", "arabesque"),
		value("passe", "Passé", "stork"),
	],
	level: [
		value("beginners", "Beginners"),
		value("level-1", "Level 1", "L1"),
		value("level-2", "Level 2", "L2"),
	],
	apparatus: [value("floor", "Floor"), value("bars", "Bars"), value("beam", "Beam")],
	skill: [
		value("handstand", "Handstand"),
		value("kip", "Kip", "upstart"),
		value("squat-on", "Squat on", "crouch on"),
		value("shoulder-block", "Block from the shoulders", "block"),
	],
	direction: [value("forward", "Forward"), value("backward", "Backward")],
	week: [value("1", "Week 1"), value("2", "Week 2")],
	equipment: [
		value("landing-mat", "Landing mat (20 cm)", "crash mat"),
		value("foam-block", "Foam block (30 cm)", "block"),
		value("band", "Exercise band", "elastic"),
	],
	minutes: [value("short", "Under 5 minutes"), value("medium", "5 to 10 minutes")],
};

function drill(
	id: string,
	title: string,
	facets: Filters,
	rest: Partial<SearchDocument> = {},
): SearchDocument {
	return { id, title, aliases: [], summary: "", cues: [], faults: [], body: "", facets, ...rest };
}

export const SMALL_DRILLS: readonly SearchDocument[] = [
	drill(
		"boat-rocks",
		"Boat rocks",
		{
			shape: ["hollow"],
			level: ["beginners", "level-1"],
			apparatus: ["floor"],
			week: ["1"],
			minutes: ["short"],
		},
		{ summary: "Rocking on a rounded back.", cues: ["Ribs in"] },
	),
	drill(
		"plank-taps",
		"Plank taps",
		{ shape: ["front-plank"], level: ["level-1"], apparatus: ["floor"], direction: ["forward"] },
		{
			aliases: ["push-up taps"],
			summary: "Tap the shoulders in a straight plank.",
			faults: [{ see: "Hips sway", say: "Squeeze your seat." }],
		},
	),
	drill(
		"wall-handstand",
		"Handstand at the wall",
		{
			shape: ["handstand"],
			skill: ["handstand"],
			level: ["level-2"],
			apparatus: ["floor"],
			week: ["1", "2"],
		},
		{
			summary: "A tall line with the stomach to the wall.",
			cues: ["Grow to the roof"],
			faults: [{ see: "Elbows bend", say: "Lock them." }],
			body: "Walk up from a plank. A handstnad that leans is a banana.",
		},
	),
	drill(
		"band-kip",
		"Zip with a band",
		{
			shape: ["hollow"],
			skill: ["kip"],
			level: ["level-2"],
			apparatus: ["bars", "floor"],
			direction: ["forward"],
			equipment: ["band"],
			week: ["2"],
			minutes: ["medium"],
		},
		{ summary: "Press a band down along the legs.", cues: ["Pull your trousers up"] },
	),
	drill(
		"stork-stand",
		"Passé balance",
		{ shape: ["passe"], level: ["beginners", "level-1", "level-2"], apparatus: ["beam"] },
		{ summary: "Toe at the knee, tall standing leg.", body: "Nothing moves but the breath." },
	),
	drill(
		"scale-steps",
		"Scale and step back",
		{ shape: ["scale"], level: ["level-2"], apparatus: ["beam"], direction: ["backward"] },
		{ summary: "Lower the back leg and step backward to a lunge." },
	),
	drill(
		"hop-onto-block",
		"Hop onto the block",
		{
			skill: ["squat-on"],
			level: ["level-1"],
			apparatus: ["floor"],
			equipment: ["foam-block", "landing-mat"],
		},
		{ summary: "Straight arms, and the feet land between the hands.", aliases: ["bunny hop up"] },
	),
];

export const SMALL_OPTIONS: SearchOptions = { language: "en", values: SMALL_VALUES };

export function smallIndex(): SearchIndex {
	return createIndex(SMALL_DRILLS, SMALL_OPTIONS);
}

/** Ids of the drills found, best first. */
export function idsFor(index: SearchIndex, words: string, filters: Filters = {}): readonly string[] {
	return index.search(words, filters).hits.map((hit) => index.entries[hit.drill]?.id ?? "");
}

/** Ids of those that answer every part of the query. */
export function wholeIdsFor(index: SearchIndex, words: string): readonly string[] {
	const result = index.search(words);
	return result.hits.filter((hit) => hit.lacks.length === 0).map((hit) => index.entries[hit.drill]?.id ?? "");
}

/** Drills that fit filters, counted one by one, without the engine. */
export function fitting(
	drills: readonly SearchDocument[],
	filters: Filters,
	but?: Facet,
): readonly SearchDocument[] {
	return drills.filter((document) =>
		(Object.entries(filters) as [Facet, readonly string[]][]).every(
			([facet, values]) =>
				facet === but ||
				values.length === 0 ||
				values.some((id) => document.facets[facet]?.includes(id) ?? false),
		),
	);
}
