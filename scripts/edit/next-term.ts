/**
 * The club's texts for the next term: new dates in `_data/term.yaml`, everything else as it stands.
 * Plans stay as a first draft, or are left out; comments and the order of fields are kept.
 */

import { isScalar } from "yaml";
import { type ClubTexts, kindOf, type Splice, spliced } from "./club-texts.ts";
import { EditRefused } from "./move-block.ts";
import { nodeAt, type PlacedFile, placeFile } from "./yaml-places.ts";

export interface NextTerm {
	readonly name: string;
	/** ISO 8601 date of a Monday. */
	readonly starts: string;
	readonly weeks: number;
	/** ISO 8601 dates, or intervals of them. */
	readonly closed: readonly string[];
	/** Without the plans of this term. */
	readonly empty: boolean;
}

export interface NextTexts {
	readonly texts: ClubTexts;
	/** Week files that were left out, since the next term is shorter. */
	readonly left: readonly string[];
}

/** The texts of the next term. Throws `EditRefused` where the club has no term to follow. */
export function nextTerm(texts: ClubTexts, term: NextTerm): NextTexts {
	const path = [...texts.keys()].find((one) => kindOf(one) === "term");
	const text = path === undefined ? undefined : texts.get(path);
	if (path === undefined || text === undefined) {
		throw new EditRefused("The club has no _data/term.yaml, so there is no term to follow.");
	}
	const next = new Map<string, string>();
	const left: string[] = [];
	for (const [file, own] of texts) {
		// What was taught is of this term.
		if (kindOf(file) === "taught") continue;
		if (kindOf(file) === "week" && (term.empty || weekOf(file, own) > term.weeks)) left.push(file);
		else next.set(file, file === path ? withDates(path, text, term) : own);
	}
	return { texts: next, left };
}

function withDates(path: string, text: string, { name, starts, weeks, closed }: NextTerm): string {
	const file = placeFile(path, text);
	// Begins behind the colon of its name, where a list over several lines may begin.
	const days = ` [${closed.join(", ")}]`;
	const end = text.includes("\r\n") ? "\r\n" : "\n";
	const splices: Splice[] = [];
	const added: string[] = [];
	const set = (field: string, value: string): void => {
		const place = placeOf(file, field);
		if (place === undefined) added.push(`${field}: ${value.trim()}${end}`);
		else {
			// A list over several lines ends with its last line.
			const whole = text[place.end - 1] === "\n";
			splices.push({ start: place.start, end: place.end, text: whole ? value + end : value });
		}
	};
	set("name", JSON.stringify(name));
	set("starts", starts);
	set("weeks", String(weeks));
	if (closed.length > 0 || placeOf(file, "closed") !== undefined) set("closed", days);
	return spliced(text, splices).replace(/\s*$/, "") + end + added.join("");
}

/** Where a field's value stands in the text. A list is taken from behind the colon of its name to its last item. */
function placeOf({ document, offset, scalars }: PlacedFile, field: string) {
	const node = nodeAt(document, [field]);
	const name = scalars.find(({ isKey, path }) => isKey && path.length === 1 && path[0] === field);
	if (node?.range == null || name === undefined) return undefined;
	const [start, end] = node.range;
	return { start: isScalar(node) ? offset + start : name.end + 1, end: offset + end };
}

function weekOf(path: string, text: string): number {
	const node = nodeAt(placeFile(path, text).document, ["week"]);
	return isScalar(node) ? Number(node.value) : 0;
}
