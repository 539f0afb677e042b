/**
 * Makes the search's last file of the pages of an edition, as they go by.
 */

import { type HeadFile, writeBodies } from "../search/engine.ts";
import { readHeadText } from "../search/head-text.ts";
import { type BodyTexts, bodyTextsOf } from "./body-texts.ts";
import { HEAD } from "./edition-list.ts";

const NONE: BodyTexts = { cues: [], faults: [], body: "" };

export class BodiesMaker {
	readonly #texts = new Map<string, BodyTexts>();
	#head: HeadFile | undefined;

	/** Reads a file of the site, if it is one that counts. */
	read(path: string, text: string): void {
		const drill = /^drills\/([^/]+)\/index\.html$/.exec(path)?.[1];
		if (drill !== undefined) this.#texts.set(drill, apart(bodyTextsOf(text)));
		else if (path === HEAD) this.#head = readHeadText(text);
	}

	/** The file's text, once all pages have gone by; undefined without the search's first file. */
	write(): string | undefined {
		if (this.#head === undefined) return undefined;
		// The second part of a drill's line is its id, with spaces for hyphens.
		const ids = this.#head.drills.map((line) => line.split("\t")[1]?.replaceAll(" ", "-") ?? "");
		return JSON.stringify(
			writeBodies(
				this.#head,
				ids.map((id) => this.#texts.get(id) ?? NONE),
			),
		);
	}
}

/** The same texts in memory of their own: pieces that were cut from a page would keep the whole page. */
function apart(texts: BodyTexts): BodyTexts {
	return JSON.parse(JSON.stringify(texts)) as BodyTexts;
}
