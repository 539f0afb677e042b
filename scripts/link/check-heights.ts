/** Checks the set-up heights of drills: each belongs to levels that do the drill, named by their ids. */

import type { Drill, Level } from "../model.ts";
import { type Problem, problem } from "../problems.ts";

export function misplacedHeights(drills: readonly Drill[], levels: readonly Level[]): readonly Problem[] {
	return drills.flatMap((drill) =>
		Array.from(drill.heights).flatMap(([what, height]): readonly Problem[] => {
			if (typeof height === "string") return levelInWords(drill, what, height, levels);
			const known = new Set(levels.map(({ id }) => id));
			return [...height.keys()]
				.filter((level) => known.has(level) && !drill.levels.has(level))
				.map((level) =>
					problem(
						"H217",
						drill.source.place(["heights", what, level], "key"),
						`“${what}” has a height for \`${level}\`, a level that \`${drill.id}\` does not offer.`,
					),
				);
		}),
	);
}

/** A level that is named in words alone: the program cannot know that the height is not for the others. */
function levelInWords(
	drill: Drill,
	what: string,
	landmark: string,
	levels: readonly Level[],
): readonly Problem[] {
	const words = plainWords(what);
	const named = levels.find(({ id, name }) =>
		[id, name].some((one) => plainWords(one).trim() !== "" && words.includes(plainWords(one))),
	);
	if (named === undefined) return [];
	return [
		problem(
			"H216",
			drill.source.place(["heights", what], "key"),
			`“${what}” names ${named.name}, but its height is shown to every level.`,
			{
				fix: `Write the thing once and the level under it, as in \`heights: {box: {${named.id}: ${landmark}}}\`.`,
			},
		),
	];
}

/** Its words in lower case with a space around each, one and many alike: "Juniors" is " junior ". */
function plainWords(text: string): string {
	const words = text
		.toLowerCase()
		.split(/[^\p{L}\p{N}]+/u)
		.filter((word) => word !== "");
	return ` ${words.map((word) => word.replace(/(?<=..)s$/, "")).join(" ")} `;
}
