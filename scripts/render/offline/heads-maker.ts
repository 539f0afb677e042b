/**
 * Makes the search's first two files of the drills' pages: titles and summaries stand there already.
 *
 *   startText   what the pages do not say: names, tags, the order of the drills, other names
 *   HeadsMaker  that and the pages → both files, before the edition is ready, since a coach searches first
 */

import type { HeadStart, SummariesFile } from "../search/engine.ts";
import { readHeadText, writeHeadText } from "../search/head-text.ts";
import { packNumbers, unpackNumbers } from "../search/numbers.ts";
import { HEAD_FILE, SUMMARIES_FILE } from "../search/search-files.ts";
import { apart } from "./apart.ts";
import { drillViewOf, wordsIn } from "./body-texts.ts";

import type { MadeFile, Maker } from "./makers.ts";
import { drillOf } from "./packs.ts";

/** Where it stands in an edition; a host has it only within a pack. */
export const START = "search/start.json";

interface StartFile extends HeadStart {
	/**
	 * The order of the drills, packed: for each its place among all ids by the alphabet, as the step from
	 * the one before: twice the step forward less one, or twice the step back and one more.
	 */
	readonly order: string;
	/** Other names, with tabs between, of the drills that have any, by their place in the order. */
	readonly aliases: Readonly<Record<number, string>>;
}

/** What a device needs beside the drills' pages to make the first file. */
export function startText(headText: string): string {
	const { drills, ...start } = readHeadText(headText);
	const lines = drills.map((line) => line.split("\t"));
	const ids = lines.map(([, id = ""]) => id.replaceAll(" ", "-"));
	const places = new Map([...ids].sort().map((id, i) => [id, i]));
	let before = -1;
	const steps = ids.map((id) => {
		const place = places.get(id) ?? 0;
		const step = place - before - 1;
		before = place;
		return step >= 0 ? step * 2 : -step * 2 - 1;
	});
	const aliases: Record<number, string> = {};
	lines.forEach(([, , ...names], drill) => {
		if (names.length > 0) aliases[drill] = names.join("\t");
	});
	return JSON.stringify({ ...start, order: packNumbers(steps), aliases } satisfies StartFile);
}

interface DrillHead {
	readonly title: string;
	readonly summary: string;
}

export class HeadsMaker implements Maker {
	readonly name = "heads";
	readonly isEarly = true;
	readonly #drills = new Map<string, DrillHead>();
	#start: string | undefined;

	mayMake(path: string): boolean {
		return path === HEAD_FILE || path === SUMMARIES_FILE;
	}

	read(path: string, text: string): void {
		const drill = drillOf(path);
		if (drill !== undefined) {
			const { title, summary } = drillViewOf(text);
			this.#drills.set(
				drill,
				apart({ title: oneLine(title), summary: oneLine(wordsIn(summary?.text ?? "")) }),
			);
		} else if (path === START) this.#start = text;
	}

	*files(): Generator<readonly MadeFile[]> {
		if (this.#start === undefined) return;
		const { order, aliases, ...start } = JSON.parse(this.#start) as StartFile;
		const ids = [...this.#drills.keys()].sort();
		let place = -1;
		const inOrder = unpackNumbers(order).map((step) => {
			place += 1 + (step % 2 === 0 ? step / 2 : -(step + 1) / 2);
			return ids[place] ?? "";
		});
		const heads = inOrder.map((id) => this.#drills.get(id) ?? { title: "", summary: "" });
		const drills = inOrder.map((id, drill) =>
			[heads[drill]?.title ?? "", id.replaceAll("-", " "), ...(aliases[drill]?.split("\t") ?? [])].join("\t"),
		);
		const summaries: SummariesFile = { summaries: heads.map(({ summary }) => summary) };
		yield [
			[HEAD_FILE, writeHeadText({ ...start, drills })],
			[SUMMARIES_FILE, JSON.stringify(summaries)],
		];
	}
}

function oneLine(text: string): string {
	return text.replace(/\s+/g, " ").trim();
}
