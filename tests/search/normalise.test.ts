import fc from "fast-check";
import { expect, test } from "vitest";
import { findCompounds, fold, Normaliser, slipsBetween, wordsOf } from "../../scripts/search/normalise.ts";

test("folding takes case, accents, ligatures and curly apostrophes off", () => {
	expect(fold("Passé ŒUVRE Straße Ångström")).toBe("passe oeuvre strasse angstrom");
	expect(wordsOf("The coach’s relevé-walk, 2 × 3/4!")).toEqual([
		"the",
		"coach",
		"releve",
		"walk",
		"2",
		"3/4",
	]);
});

test("folding twice is folding once", () => {
	fc.assert(fc.property(fc.string({ unit: "grapheme" }), (text) => fold(fold(text)) === fold(text)));
});

test("compounds are what is tied anywhere, and in heads neighbours that stand joined elsewhere", () => {
	const compounds = findCompounds(
		["Push-up hold", "Bean bag toss", "Beanbag carry", "Log roll"],
		["See-saw. Log roll; logroll."],
	);
	expect([...compounds.keys()].sort()).toEqual(["beanbag", "pushup", "seesaw"]);
});

test("slips count swapped neighbours once and agree with a table made without shortcuts", () => {
	expect(slipsBetween("handstnad", "handstand", 3)).toBe(1);
	expect(slipsBetween("brige", "bridge", 3)).toBe(1);
	expect(slipsBetween("kip", "cartwheel", 2)).toBe(3);
	const word = fc.string({ unit: fc.constantFrom("a", "b", "c"), maxLength: 7 });
	fc.assert(
		fc.property(word, word, fc.integer({ min: 0, max: 4 }), (a, b, limit) => {
			expect(slipsBetween(a, b, limit)).toBe(Math.min(slowSlips(a, b), limit + 1));
			expect(slipsBetween(a, b, limit)).toBe(slipsBetween(b, a, limit));
		}),
	);
});

/** Optimal string alignment by its definition. */
function slowSlips(a: string, b: string): number {
	if (a === "" || b === "") return a.length + b.length;
	const [x, y] = [a.slice(0, -1), b.slice(0, -1)];
	const ways = [slowSlips(x, b) + 1, slowSlips(a, y) + 1, slowSlips(x, y) + (a.at(-1) === b.at(-1) ? 0 : 1)];
	if (a.length > 1 && b.length > 1 && a.at(-1) === b.at(-2) && a.at(-2) === b.at(-1)) {
		ways.push(slowSlips(a.slice(0, -2), b.slice(0, -2)) + 1);
	}
	return Math.min(...ways);
}

test("a language without rules is searched by whole words", () => {
	const terms = (language: string) => {
		const found: string[] = [];
		const normaliser = new Normaliser({ language, concepts: [], compounds: new Map() });
		normaliser.eachTerm(
			"The rolls",
			() => false,
			(term) => found.push(term),
		);
		return found;
	};
	expect(terms("xx")).toEqual(["the", "rolls"]);
	expect(terms("en-GB")).toEqual(["roll"]);
});
