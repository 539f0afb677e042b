/**
 * Makes the search's last file of the pages of an edition, as they go by.
 */

import { type HeadFile, writeBodies } from "../search/engine.ts";
import { readHeadText } from "../search/head-text.ts";
import { BODIES_FILE, HEAD_FILE } from "../search/search-files.ts";
import { apart } from "./apart.ts";
import { type BodyTexts, bodyTextsOf, drillViewOf } from "./body-texts.ts";

import type { MadeFile, Maker } from "./makers.ts";
import { drillOf } from "./packs.ts";

const NONE: BodyTexts = { cues: [], faults: [], body: "" };

export class BodiesMaker implements Maker {
	readonly name = "bodies";
	readonly isEarly = false;
	readonly #texts = new Map<string, BodyTexts>();
	#head: HeadFile | undefined;

	mayMake(path: string): boolean {
		return path === BODIES_FILE;
	}

	read(path: string, text: string): void {
		const drill = drillOf(path);
		if (drill !== undefined) this.#texts.set(drill, apart(bodyTextsOf(drillViewOf(text))));
		else if (path === HEAD_FILE) this.#head = readHeadText(text);
	}

	*files(): Generator<readonly MadeFile[]> {
		if (this.#head === undefined) return;
		// The second part of a drill's line is its id, with spaces for hyphens.
		const ids = this.#head.drills.map((line) => line.split("\t")[1]?.replaceAll(" ", "-") ?? "");
		const texts = ids.map((id) => this.#texts.get(id) ?? NONE);
		yield [[BODIES_FILE, JSON.stringify(writeBodies(this.#head, texts))]];
	}
}
