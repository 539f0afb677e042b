/**
 * What the search knows of a language: how to take endings off, which words say nothing, and which
 * spellings sound alike. One entry for each language; a language without one is searched by whole
 * words and their beginnings, which is sound, only less forgiving.
 *
 * To add a language: import its stemmer (each is a file of its own, about 1–10 kB), name its words.
 */

import { stemmer as stemEnglish } from "@orama/stemmers/english";

export interface SearchLanguage {
	/** Takes the ending off a folded word: `rolling` → `roll`. */
	stem(word: string): string;
	/** Words that say nothing by themselves. They still count inside a name (`squat on`). */
	readonly stopWords: ReadonlySet<string>;
	/** Other ways to write a word, as folded words on both sides. */
	readonly spellings: ReadonlyMap<string, string>;
	/** What coaches shorten → the words it stands for. Common practice; nobody publishes a list. */
	readonly abbreviations: ReadonlyMap<string, string>;
	/** Words that say that what follows must not be there. */
	readonly negations: ReadonlySet<string>;
	/** Words between two of a kind: level 1 and 2. */
	readonly and: ReadonlySet<string>;
	/** Folded words that sound alike have the same sound. */
	sound(word: string): string;
}

/** The language of a BCP 47 tag, by its first part. */
export function searchLanguage(tag: string): SearchLanguage {
	return LANGUAGES.get(tag.toLowerCase().split("-")[0] ?? "") ?? PLAIN;
}

const PLAIN: SearchLanguage = {
	stem: (word) => word,
	stopWords: new Set(),
	spellings: new Map(),
	abbreviations: new Map(),
	negations: new Set(),
	and: new Set(),
	sound: (word) => word,
};

const ENGLISH_STOP_WORDS =
	"a an and any are as at be been being but by can could did do does doing done during each for from get gets getting " +
	"give go goes going good had has have having he her hers him his how i if in into is it its just let lets like " +
	"make makes me more most much my need needs no not of on one or our ours out own please she should show so some " +
	"something anything someone than that the their them then there these they thing things this those to too under up us " +
	"use using very want wants was we were what when where which while who why will with would you your yours " +
	"drill drills exercise exercises idea ideas";

/**
 * British and American pairs, and figures that coaches write for words. Both sides of a pair end as
 * the right-hand word, in the index and in the query alike.
 */
const ENGLISH_SPELLINGS: readonly (readonly [string, string])[] = [
	["center", "centre"],
	["grey", "gray"],
	["colour", "color"],
	["favourite", "favorite"],
	["programme", "program"],
	["1/2", "half"],
	["1/4", "quarter"],
	["3/4", "threequarter"],
	// Faults are written as they happen and asked for as they are: the arms bend, bent arms.
	["bent", "bend"],
	["thrown", "throw"],
	["fallen", "fall"],
	["sunk", "sink"],
	["leant", "lean"],
	["feet", "foot"],
];

/** Short for skills, directions, apparatus and kit, as coaches of the English language write them. */
const ENGLISH_ABBREVIATIONS: readonly (readonly [string, string])[] = [
	["hs", "handstand"],
	["hst", "handstand"],
	["cw", "cartwheel"],
	["ro", "round off"],
	["bhs", "back handspring"],
	["fhs", "front handspring"],
	["bwo", "back walkover"],
	["fwo", "front walkover"],
	["bhc", "back hip circle"],
	["fhc", "front hip circle"],
	["fwd", "forward"],
	["fw", "forward"],
	["bwd", "backward"],
	["bw", "backward"],
	["bkwd", "backward"],
	["ub", "bars"],
	["bb", "beam"],
	["fx", "floor"],
	["vt", "vault"],
	["wu", "warm up"],
	["hb", "high bar"],
	["lb", "low bar"],
	["lvl", "level"],
	["wk", "week"],
	["wks", "weeks"],
];

/** The same in French. */
const FRENCH_ABBREVIATIONS: readonly (readonly [string, string])[] = [
	["atr", "appui tendu renverse"],
	["av", "avant"],
	["avt", "avant"],
	["arr", "arriere"],
	["niv", "niveau"],
	["sem", "semaine"],
	["rav", "roulade avant"],
	["rar", "roulade arriere"],
];

const FRENCH_STOP_WORDS =
	"a au aux avec ce ces cette comme dans de des donc du elle en entre est et eux il ils je la le les leur leurs lui ma " +
	"mais me mes mon ne nos notre nous on ou par pour qu que qui sa se ses son sur ta te tes ton tu un une vos votre vous " +
	"d l c j m n s t y exercice exercices educatif educatifs";

const LANGUAGES: ReadonlyMap<string, SearchLanguage> = new Map([
	[
		"en",
		{
			stem: stemEnglish,
			stopWords: new Set(ENGLISH_STOP_WORDS.split(" ")),
			spellings: new Map(ENGLISH_SPELLINGS),
			abbreviations: new Map(ENGLISH_ABBREVIATIONS),
			negations: new Set(["no", "not", "without"]),
			and: new Set(["and", "or"]),
			sound: soundEnglish,
		},
	],
	[
		"fr",
		{
			...PLAIN,
			stem: withoutPlural,
			stopWords: new Set(FRENCH_STOP_WORDS.split(" ")),
			abbreviations: new Map(FRENCH_ABBREVIATIONS),
			negations: new Set(["sans", "aucun", "aucune"]),
			and: new Set(["et", "ou"]),
		},
	],
]);

/** French names are asked for in the plural and in the singular: `barres` and `barre`. */
function withoutPlural(word: string): string {
	return word.length > 3 ? word.replace(/[sx]$/, "") : word;
}

/** Consonants by their sound, the first letter kept, other vowels dropped: `arabesk` and `arabesque` agree. */
function soundEnglish(word: string): string {
	const sounds = word
		.replace(/^(?:kn|gn)/, "n")
		.replace(/^wr/, "r")
		.replace(/qu?e?$/, "k")
		.replace(/qu/g, "k")
		.replace(/ph/g, "f")
		.replace(/wh/g, "w")
		.replace(/gh/g, "")
		.replace(/dg(?=[eiy])/g, "j")
		.replace(/g(?=[eiy])/g, "j")
		.replace(/c(?=[eiy])/g, "s")
		.replace(/ck|c/g, "k")
		.replace(/x/g, "ks")
		.replace(/z/g, "s");
	return (
		(sounds[0] ?? "") +
		sounds
			.slice(1)
			.replace(/[aeiouyhw]/g, "")
			.replace(/(.)\1+/g, "$1")
	);
}
