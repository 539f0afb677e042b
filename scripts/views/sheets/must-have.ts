/**
 * What has to be on paper of a drill wherever it is coached from a sheet: taken from the club's own
 * records, so that a rendering that loses a word is found out.
 */

import { drillAt } from "../../compute/drill-at.ts";
import type { Block, Id } from "../../model.ts";
import { doseIn } from "../drill.ts";
import type { SiteIndex } from "../site-index.ts";
import { doseWords } from "../words.ts";

/** Its title, cues, and how some levels do it in a block. */
export function wordsOfDrill(
	{ curriculum, handbook, words }: SiteIndex,
	id: Id,
	levels: readonly Id[],
	block: Pick<Block, "dose" | "doses"> | undefined,
	cues = Number.POSITIVE_INFINITY,
): readonly string[] {
	const drill = curriculum.drills.get(id);
	if (drill === undefined) return [];
	const ways = levels.flatMap((level) => {
		const dose = drill.levels.get(level);
		if (dose === undefined) return [];
		return [dose.do ?? "", doseWords(words, drill, doseIn(block, level, dose))];
	});
	return [drill.title, ...drill.cues.slice(0, cues), ...ways.filter((way) => way !== "")].map((text) =>
		handbook.markdown.plain(text),
	);
}

/** What keeps people safe at it as some levels do it. */
export function safetyOfDrill(
	{ curriculum, handbook }: SiteIndex,
	id: Id,
	levels: readonly Id[],
): readonly string[] {
	const drill = curriculum.drills.get(id);
	if (drill === undefined) return [];
	const at = levels.length === 0 ? [drill] : levels.map((level) => drillAt(drill, level));
	const texts = new Set(at.flatMap(({ spotting, caution }) => [spotting, caution]));
	return [...texts].flatMap((words) => (words === undefined ? [] : [handbook.markdown.plain(words)]));
}
