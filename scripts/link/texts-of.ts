/** Every text of a file in which `[[links]]` may stand, each with the way back to its place. */

import type { DataPath, Place, SourceFile } from "../model.ts";

export interface TextAt {
	readonly text: string;
	/** The place of a line and column of the text, both from 0. */
	readonly placeOf: (line: number, column: number) => Place;
}

/** Fields that hold words to read, or lists of such. */
const PROSE: ReadonlySet<string> = new Set([
	"title",
	"summary",
	"cues",
	"see",
	"say",
	"spotting",
	"caution",
	"do",
	"caption",
	"theme",
	"focus",
	"note",
	"description",
]);

/** The texts of a file that hold a link; the file may be at fault. */
export function textsOf(file: SourceFile): readonly TextAt[] {
	const texts: TextAt[] = [];
	const visit = (value: unknown, path: DataPath, isProse: boolean): void => {
		if (typeof value === "string") {
			// A field may be folded over several lines: its start is the nearest sure place.
			if (isProse && value.includes("[[")) texts.push({ text: value, placeOf: () => file.place(path) });
		} else if (Array.isArray(value)) {
			for (const [i, item] of value.entries()) visit(item, [...path, i], isProse);
		} else if (typeof value === "object" && value !== null) {
			for (const [key, item] of Object.entries(value)) visit(item, [...path, key], PROSE.has(key));
		}
	};
	visit(file.data, [], false);
	if (file.body.includes("[["))
		texts.push({ text: file.body, placeOf: (line, column) => file.bodyPlace(line, column) });
	return texts;
}
