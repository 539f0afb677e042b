/**
 * Holds a shape's drawn angles against what its name says it is.
 *
 * Only four words are held against anything, because only these have published borders (`classify`):
 * straight, pike, tuck, straddle, and what is piked, tucked or straddled. They count as whole words of
 * the name or an alias; "straight-arm" is one word and says nothing about the hips.
 */

import type { Shape } from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import { classify, type Position, STRADDLE_BORDER, TRAMPOLINE_BORDER } from "./classify.ts";

type Word = Position["position"] | "straddle";

const WORDS: Readonly<Record<string, Word>> = {
	straight: "straight",
	pike: "pike",
	piked: "pike",
	tuck: "tuck",
	tucked: "tuck",
	straddle: "straddle",
	straddled: "straddle",
};

const TRAMPOLINE = "FIG Trampoline Code of Points, §14.6, 2013–16";
const AEROBIC = "FIG Aerobic code, edition not known";

const BORDERS: Readonly<Record<Word, string>> = {
	straight: `more than ${TRAMPOLINE_BORDER} degrees between trunk and thigh (${TRAMPOLINE})`,
	pike: `at most ${TRAMPOLINE_BORDER} degrees at the hip and more than ${TRAMPOLINE_BORDER} at the knee (${TRAMPOLINE})`,
	tuck: `at most ${TRAMPOLINE_BORDER} degrees at the hip and at the knee (${TRAMPOLINE})`,
	straddle: `at least ${STRADDLE_BORDER} degrees between the legs (${AEROBIC})`,
};

/** A warning for each shape that is named one position and drawn as another. */
export function misnamedShapes(shapes: readonly Shape[]): readonly Problem[] {
	return shapes.flatMap((shape) => {
		const { angles, source, path } = shape;
		const drawn = angles && classify(angles);
		if (drawn === undefined) return [];
		const named = namedPositions(shape);
		const positions = named.filter(({ word }) => word !== "straddle");
		const wrong = [
			// A shape that several names call differently is right where one of them is.
			...(positions.some(({ word }) => word === drawn.position) ? [] : positions.slice(0, 1)),
			...(drawn.straddle ? [] : named.filter(({ word }) => word === "straddle").slice(0, 1)),
		];
		return wrong.map(({ word, name, at }) => {
			const is = word === "straddle" ? "with the legs closer together" : `as ${position(drawn)}`;
			return problem(
				"H212",
				source.place([...path, ...at]),
				`“${name}” is drawn ${is}: ${word} means ${BORDERS[word]}.`,
			);
		});
	});
}

function position({ position: is, straddle }: Position): string {
	const name = is === "straight" ? "straight" : `a ${is}`;
	return straddle && is !== "straight" ? `${name} with straddled legs` : name;
}

function namedPositions({ name, aliases }: Shape) {
	const names: readonly { readonly name: string; readonly at: readonly (string | number)[] }[] = [
		{ name, at: ["name"] },
		...aliases.map((alias, i) => ({ name: alias, at: ["aliases", i] })),
	];
	return names.flatMap((one) =>
		one.name
			.toLowerCase()
			.split(/[\s,;/()]+/)
			.flatMap((word) => {
				const position = Object.hasOwn(WORDS, word) ? WORDS[word] : undefined;
				return position === undefined ? [] : [{ word: position, ...one }];
			}),
	);
}
