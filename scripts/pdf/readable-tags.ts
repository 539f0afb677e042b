/**
 * The tags of a printed segment as PDF/UA wants them (ISO 14289-1, with the standard structure types of
 * ISO 32000-1, 14.8.4): browsers write one for every box, and leave out what lists and drawings need.
 *
 *   1. the document's own tag becomes a part: the whole file has one document              join
 *   2. a figure without words of its own, which only holds a drawing and its caption, is a group
 *   3. boxes that mean nothing give way to what is in them; text that stands in no paragraph is one
 *   4. what a point of a list says stands in the body of the point
 *
 * Objects keep their numbers; a body takes the number of its point, and the point that of a box that gave way.
 */

import type { PdfFile } from "./pdf-file.ts";
import { dictionaryOf, entriesOf, itemsOf, referred, refTo } from "./pdf-text.ts";

export interface ReadableTags {
	/** The tags as they are to be written, by number. */
	readonly texts: ReadonlyMap<number, string>;
	/** All tags that the browser wrote. */
	readonly written: ReadonlySet<number>;
	/** The number by which a tag is known now; that of what it was in, for a box that gave way. */
	readonly numberOf: (number: number) => number;
}

interface Tag {
	readonly entries: Map<string, string>;
	type: string;
	parent: number;
	kids: readonly string[];
}

/** Tags in which text may stand by itself. */
const HOLDS_TEXT = new Set(
	"NonStruct P H1 H2 H3 H4 H5 H6 TD TH LBody LI Lbl Link Caption Strong Em Span Code Note Figure".split(" "),
);
/** Tags that stand within a line. */
const IN_LINE = new Set("Link Span Strong Em Code Figure Note".split(" "));

/** @param structure the number of the root of the tags */
export function readableTags(file: PdfFile, structure: number, size: number): ReadableTags {
	const tree = new TagTree(file, size);
	for (const number of tree.written) tree.rename(number, structure);
	for (const number of tree.written) if (tree.tags.get(number)?.parent === structure) tree.rebuild(number);
	return {
		texts: tree.texts(),
		written: tree.written,
		numberOf: (number) => tree.numberOf(number),
	};
}

class TagTree {
	readonly tags = new Map<number, Tag>();
	readonly written: ReadonlySet<number>;
	/** Of boxes that gave way, what they were in. */
	readonly #instead = new Map<number, number>();
	/** Points of lists have numbers from the file's size on, until those that became free are known. */
	readonly #size: number;
	#points = 0;

	constructor(file: PdfFile, size: number) {
		this.#size = size;
		for (const number of file.numbers()) {
			const { text, stream } = file.object(number);
			if (stream !== undefined || !text.includes("/StructElem")) continue;
			const entries = entriesOf(text);
			if (entries.get("Type") !== "/StructElem") continue;
			const kids = entries.get("K");
			const page = entries.get("Pg");
			const list =
				file.value(kids)?.startsWith("[") === true ? itemsOf(file.value(kids) ?? "[]") : [kids ?? []].flat();
			this.tags.set(number, {
				entries,
				type: entries.get("S")?.slice(1) ?? "",
				parent: referred(entries.get("P")) ?? 0,
				// A mark is known by its page wherever it comes to hang.
				kids: list.map((kid) =>
					/^\d+$/.test(kid) && page !== undefined ? `<</Type /MCR /Pg ${page} /MCID ${kid}>>` : kid,
				),
			});
		}
		this.written = new Set(this.tags.keys());
	}

	/** Gives a tag the type that it is known by before anything moves. */
	rename(number: number, structure: number): void {
		const tag = this.tags.get(number);
		if (tag === undefined) return;
		if (tag.parent === structure && tag.type === "Document") tag.type = "Part";
		if (tag.type === "Figure" && !tag.entries.has("Alt")) tag.type = "Div";
		const above = this.tags.get(tag.parent);
		if (tag.type === "Caption" && above?.type === "Figure" && !above.entries.has("Alt")) tag.type = "P";
		if (tag.type === "Caption" && above?.type === "Div") tag.type = "P";
	}

	/** Rebuilds what is in a tag; gives what takes its place in the one above. */
	rebuild(number: number): string {
		const tag = this.tags.get(number);
		if (tag === undefined) return refTo(number);
		tag.kids = tag.kids.flatMap((kid): readonly string[] => {
			const own = referred(kid);
			const below = own === undefined ? undefined : this.tags.get(own);
			if (own === undefined || below === undefined) return [kid];
			const place = this.rebuild(own);
			if (below.type !== "NonStruct") return [place];
			const hasText = below.kids.some((one) => this.#tag(one) === undefined);
			if (hasText && !HOLDS_TEXT.has(tag.type)) {
				below.type = this.#isLine(below) ? "P" : "Div";
				return [place];
			}
			for (const one of below.kids) {
				const moved = this.#tag(one);
				if (moved !== undefined) moved.parent = number;
			}
			this.tags.delete(own);
			this.#instead.set(own, number);
			return below.kids;
		});
		if (tag.type === "P" && !this.#isLine(tag)) tag.type = "Div";
		return tag.type === "LI" ? this.#withBody(number, tag) : refTo(number);
	}

	/** Puts what a point says into a body, which keeps the point's number. */
	#withBody(number: number, point: Tag): string {
		const isLabel = (kid: string) => this.#tag(kid)?.type === "Lbl";
		if (this.#points >= this.#instead.size || point.kids.some((kid) => this.#tag(kid)?.type === "LBody"))
			return refTo(number);
		const own = this.#size + this.#points++;
		const labels = point.kids.filter(isLabel);
		for (const kid of labels) {
			const label = this.#tag(kid);
			if (label !== undefined) label.parent = own;
		}
		this.tags.set(own, {
			entries: new Map([["Type", "/StructElem"]]),
			type: "LI",
			parent: point.parent,
			kids: [...labels, refTo(number)],
		});
		point.type = "LBody";
		point.parent = own;
		point.kids = point.kids.filter((kid) => !isLabel(kid));
		return refTo(own);
	}

	#tag(kid: string): Tag | undefined {
		const number = referred(kid);
		return number === undefined ? undefined : this.tags.get(number);
	}

	#isLine({ kids }: Tag): boolean {
		return kids.every((kid) => {
			const tag = this.#tag(kid);
			return tag === undefined || IN_LINE.has(tag.type);
		});
	}

	numberOf(number: number): number {
		let at = number;
		for (let next = this.#instead.get(at); next !== undefined; next = this.#instead.get(at)) at = next;
		if (at < this.#size) return at;
		// There are at least as many as there are points.
		return [...this.#instead.keys()][at - this.#size] ?? at;
	}

	texts(): ReadonlyMap<number, string> {
		const texts = new Map<number, string>();
		for (const [number, { entries, type, parent, kids }] of this.tags) {
			entries.set("S", `/${type}`);
			entries.set("P", refTo(parent));
			entries.set("K", `[${kids.join(" ")}]`);
			texts.set(number, dictionaryOf(entries));
		}
		return texts;
	}
}
