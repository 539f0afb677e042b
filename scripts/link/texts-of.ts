/** Every text of a file that people read, each with the way back to its place; and those in which `[[links]]` stand. */

import type { SourceFile } from "../model.ts";
import type { Place } from "../place.ts";

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
	"easier",
	"harder",
	"ready",
	"text",
	"criteria",
	"reason",
]);

/** A file that was read stays the same for ever, and `serve` brings it again at every change of another. */
const known = new WeakMap<SourceFile, readonly TextAt[]>();

/** The texts of a file that hold a link; the file may be at fault. */
export function textsOf(file: SourceFile): readonly TextAt[] {
	const texts = known.get(file) ?? findTexts(file, (text) => text.includes("[["));
	known.set(file, texts);
	return texts;
}

/** Every text of a file that is read as words. */
export function proseOf(file: SourceFile): readonly TextAt[] {
	return findTexts(file, (text) => text !== "");
}

function findTexts(file: SourceFile, isWanted: (text: string) => boolean): readonly TextAt[] {
	const texts: TextAt[] = [];
	const path: (string | number)[] = [];
	const visit = (value: unknown, isProse: boolean): void => {
		if (typeof value === "string") {
			if (!isProse || !isWanted(value)) return;
			// A field may be folded over several lines: its start is the nearest sure place.
			const here = [...path];
			texts.push({ text: value, placeOf: () => file.place(here) });
		} else if (typeof value === "object" && value !== null) {
			const isList = Array.isArray(value);
			for (const key of Object.keys(value)) {
				path.push(isList ? Number(key) : key);
				visit(Reflect.get(value, key), isList ? isProse : PROSE.has(key));
				path.pop();
			}
		}
	};
	visit(file.data, false);
	if (isWanted(file.body))
		texts.push({ text: file.body, placeOf: (line, column) => file.bodyPlace(line, column) });
	return texts;
}
