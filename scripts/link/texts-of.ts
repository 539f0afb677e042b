/** Every text of a club in which `[[links]]` may stand, each with the way back to its place. */

import type { DataPath, Entry, Place, Records, Source } from "../model.ts";

export interface TextAt {
	readonly text: string;
	/** The place of a line and column of the text, both from 0. */
	readonly placeOf: (line: number, column: number) => Place;
}

export function textsOf(records: Records): readonly TextAt[] {
	const texts: TextAt[] = [];
	const field = (text: string | undefined, source: Source, path: DataPath): void => {
		// A field may be folded over several lines: its start is the nearest sure place.
		if (text?.includes("[[")) texts.push({ text, placeOf: () => source.place(path) });
	};
	const body = (text: string, source: Source): void => {
		if (text.includes("[[")) texts.push({ text, placeOf: (line, column) => source.bodyPlace(line, column) });
	};

	for (const drill of records.drills) {
		const { source } = drill;
		field(drill.title, source, ["title"]);
		field(drill.summary, source, ["summary"]);
		field(drill.spotting, source, ["spotting"]);
		field(drill.caution, source, ["caution"]);
		for (const [level, dose] of drill.levels) field(dose.do, source, ["levels", level, "do"]);
		for (const [i, cue] of drill.cues.entries()) field(cue, source, ["cues", i]);
		for (const [i, fault] of drill.faults.entries()) {
			field(fault.see, source, ["faults", i, "see"]);
			field(fault.say, source, ["faults", i, "say"]);
		}
		for (const [i, { caption }] of drill.media.entries()) field(caption, source, ["media", i, "caption"]);
		body(drill.body, source);
	}
	for (const week of records.weeks) {
		const { source } = week;
		field(week.theme, source, ["theme"]);
		for (const plan of week.apparatus) {
			field(plan.focus, source, ["apparatus", plan.apparatus, "focus"]);
			for (const block of plan.blocks) {
				field(block.note, source, [...block.path, "note"]);
				for (const [i, station] of block.stations.entries()) {
					field(station.note, source, [...block.path, "stations", i, "note"]);
				}
			}
		}
		body(week.body, source);
	}
	for (const guide of records.guides) body(guide.body, guide.source);
	const described: readonly (Entry & { readonly description?: string })[] = [
		...records.levels,
		...records.shapes,
		...records.skills,
	];
	for (const thing of described) field(thing.description, thing.source, [...thing.path, "description"]);
	return texts;
}
