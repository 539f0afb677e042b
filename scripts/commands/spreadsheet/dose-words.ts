/**
 * Doses as coaches write them: 3 sets of 5 each side · 2 × 30 s hold · 10 to 12 · 4 lengths · 1:30.
 *
 *   1. what stands beside the numbers is taken off and kept: each side, lengths, in all
 *   2. numbers joined by x, × or "sets of" are sets, repetitions and a hold, in that order
 *   3. a time is a hold; one number alone is repetitions; of a range the larger, so that no load is too small
 *
 * What the fields cannot say (each side, a range, lengths) stays in the words, which are kept beside them.
 */

import { numberOf, timeOf } from "./amounts.ts";

export interface ReadDose {
	readonly sets?: number;
	readonly reps?: number;
	readonly hold?: number;
	/** The words say that it is done on each side. */
	readonly eachSide: boolean;
	/** How something was read that could have been read otherwise; the words are to be kept. */
	readonly told: readonly string[];
}

const EACH_SIDE =
	/\b(?:(?:on |for )?(?:each|ea|every|per)\.?\s*(?:side|leg|arm|foot|way|hand)s?|e\s*\/\s*s|both sides|(?:l|left)\s*(?:[+&/]|and)\s*(?:r|right)|(?:de |par )?(?:chaque|par) (?:c[oô]t[eé]|jambe|bras|main)|[gd]\s*[+&/]\s*[gd])(?![\p{L}])\.?/iu;
const EACH = /\b(?:each|ea|chacune?|chaque)\b\.?/i;
const STRETCHES =
	/\b(?:lengths?|laps?|widths?|pass(?:es)?|runs?|lines?|longueurs?|largeurs?|passages?|allers?(?:[- ]retours?)?)\b/i;
const IN_ALL = /\b(?:in (?:all|total)|total|altogether|au total|en tout)\b/i;
const HELD = /\b(?:holds?|held|hold for|tenir|tenue?s?|maintien|maintenir|isom[eé]trique|statique)\b/gi;
const COUNT_WORDS =
	/\b(?:goes|gos|go|reps?|repetitions?|r[eé]p[eé]titions?|r[eé]ps?|times|turns|tries|tours?|essais?|fois)\b\.?/gi;
const SETS_OF =
	/\s*(?:\b(?:sets?|rounds?|s[eé]ries?|circuits?)\b\.?\s*(?:of|de|d['’]|[x×*]|[:,-])?|[x×*])\s*/i;

/** The sets, repetitions and hold that words say; undefined where they say none, or may say two things. */
export function readDose(words: string): ReadDose | undefined {
	const told: string[] = [];
	let rest = ` ${words.trim()} `.replace(/\s+/g, " ");
	const take = (pattern: RegExp): boolean => {
		const without = rest.replace(pattern, " ");
		const found = without !== rest;
		rest = without;
		return found;
	};
	const twice = /^ (\d+)\s*\/\s*\1 $/.exec(rest)?.[1];
	if (twice !== undefined) return { reps: Number(twice), eachSide: true, told: ["one number for each side"] };
	const eachSide = take(EACH_SIDE);
	if (!eachSide && take(EACH)) told.push("“each” may be each side or each gymnast");
	const stretches = STRETCHES.exec(rest)?.[0];
	if (stretches !== undefined && take(STRETCHES)) told.push(`${stretches} are taken as repetitions`);
	if (take(IN_ALL)) told.push("the number is taken as it stands");
	const isHeld = take(HELD);
	take(COUNT_WORDS);
	rest = rest.replace(/^[\s,;:()–-]+|[\s,;:()–-]+$/g, "");
	if (rest === "") return undefined;
	const parts = rest.split(SETS_OF).map((part) => part.trim());
	const saysSets = /\b(?:sets?|rounds?|s[eé]ries?|circuits?)\b/i.test(rest);
	// "3 sets" alone, and the empty part behind it.
	if (parts.at(-1) === "") parts.pop();
	const amounts = parts.map((part) => amountOf(part, told, isHeld && part === parts.at(-1)));
	if (amounts.length === 0 || amounts.length > 3 || amounts.some((one) => one === undefined))
		return undefined;
	const read = inOrder(amounts as readonly OneAmount[], saysSets);
	return read === undefined ? undefined : { ...read, eachSide, told };
}

interface OneAmount {
	readonly count?: number;
	readonly seconds?: number;
}

function inOrder(
	amounts: readonly OneAmount[],
	saysSets: boolean,
): Pick<ReadDose, "sets" | "reps" | "hold"> | undefined {
	const [first = {}, second, third] = amounts;
	if (second === undefined) {
		if (first.seconds !== undefined) return { hold: first.seconds };
		if (first.count === undefined) return undefined;
		return saysSets ? { sets: first.count } : { reps: first.count };
	}
	if (first.count === undefined) return undefined;
	if (third === undefined) {
		// Two times thirty seconds: held once in each of two sets.
		if (second.seconds !== undefined) return { sets: first.count, reps: 1, hold: second.seconds };
		return second.count === undefined ? undefined : { sets: first.count, reps: second.count };
	}
	if (second.count === undefined) return undefined;
	const hold = third.seconds ?? third.count;
	return hold === undefined ? undefined : { sets: first.count, reps: second.count, hold };
}

function amountOf(part: string, told: string[], isHeld: boolean): OneAmount | undefined {
	const range = /^(\d+)\s*(?:-|–|—|to|à|a|ou|or)\s*(\d+)\s*(\D*)$/i.exec(part);
	if (range !== null) {
		const [, low = "", high = "", unit = ""] = range;
		if (Number(high) <= Number(low)) return undefined;
		const one = amountOf(`${high}${unit === "" ? "" : ` ${unit}`}`, told, isHeld);
		if (one !== undefined) told.push(`${low} to ${high} is taken as ${high}`);
		return one;
	}
	const plus = /^(\d+)\s*\+$/.exec(part)?.[1];
	if (plus !== undefined) {
		told.push(`${plus} or more is taken as ${plus}`);
		return { count: Number(plus) };
	}
	if (/^\d+$/.test(part)) return isHeld ? { seconds: Number(part) } : { count: Number(part) };
	// 5/3 may be left and right, or a fraction.
	if (/^\d+\s*\/\s*\d+$/.test(part)) return undefined;
	const count = numberOf(part);
	if (typeof count === "number" && !/[:hms'"′″]/i.test(part))
		return Number.isInteger(count) ? { count } : undefined;
	const seconds = timeOf(part, "seconds");
	return typeof seconds === "number" && seconds > 0 ? { seconds } : undefined;
}
