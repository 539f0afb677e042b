/**
 * What stands in one cell of a plan: drills, each with its minutes and its dose where it has them.
 *
 * "Log roll 5 min" · "Rocking 3x5; Log roll" · "• Bridge (on block) – 2 × 30 s hold". What is known as a
 * drill's name is looked for first, so that figures in names stay in them; whatever is left over and is
 * no minutes and no dose is a word for the block.
 */

import { numberOf } from "./amounts.ts";
import { fold } from "./cells.ts";
import { type ReadDose, readDose } from "./dose-words.ts";

export interface CellDrill {
	/** The drill's name as it stands there. */
	readonly words: string;
	/** Its id, where the club has it. */
	readonly id?: string;
	readonly minutes?: number;
	readonly dose?: ReadDose;
	/** The words of the dose, which may say more than its numbers. */
	readonly doseWords?: string;
	readonly note?: string;
	/** How something was read. */
	readonly told?: string;
}

type KnownDrill = (words: string) => string | undefined;

/** Names that are words for no drill: the club is closed, or nothing is planned. */
const NO_DRILL =
	/^(?:closed|club closed|no (?:class|classes|gym|training|session)|half[ -]?term|(?:bank |public )?holidays?|easter|christmas|vacances|ferm[eé]|f[eé]ri[eé]|rel[aâ]che|pas de cours|no\w* planned|tbc|tba|\?+|[-–—]+|n\/?a|x)\.?$/i;

export function isNoDrill(words: string): boolean {
	return NO_DRILL.test(words.trim());
}

export function drillsInCell(text: string, known: KnownDrill): readonly CellDrill[] {
	return text
		.split(/\n|;|•/)
		.map((piece) => piece.replace(/^\s*(?:[-*–]|\d+[.)](?=\s))\s*/, "").trim())
		.filter((piece) => /[\p{L}\p{N}?–—-]/u.test(piece))
		.flatMap((piece) => partsOf(piece, known).map((part) => drillIn(part, known)));
}

/** A piece as it is, or its parts where they are drills: all known, or names joined by commas or plus. */
function partsOf(piece: string, known: KnownDrill): readonly string[] {
	const whole = drillIn(piece, known);
	if (whole.id !== undefined && whole.note === undefined) return [piece];
	const joints = [/\s*[,+]\s*(?=\D)/, /\s+[/&]\s+|\s+(?:and|then|et|puis)\s+/i];
	for (const [i, joint] of joints.entries()) {
		const parts = piece.split(joint).filter((part) => part.trim() !== "");
		if (parts.length < 2) continue;
		const drills = parts.map((part) => drillIn(part, known));
		if (drills.every(({ id }) => id !== undefined)) return parts;
		if (whole.id !== undefined) continue;
		const isName = (words: string) => /^\p{L}[^.!?]{2,48}$/u.test(words);
		if (i === 0 && drills.every(({ words }) => isName(words)) && !/\(/.test(piece)) return parts;
	}
	return [piece];
}

function drillIn(piece: string, known: KnownDrill): CellDrill {
	const whole = known(piece);
	if (whole !== undefined) return { words: piece, id: whole };
	const { rest, minutes, told } = withoutMinutes(piece);
	const more = { ...(minutes === undefined ? {} : { minutes }), ...(told === undefined ? {} : { told }) };
	const bare = known(rest);
	if (bare !== undefined) return { words: rest, id: bare, ...more };
	return { ...nameAndRest(rest, known), ...more };
}

/** Minutes of a piece: with their unit anywhere, or one number in brackets at its end. */
function withoutMinutes(piece: string): {
	readonly rest: string;
	readonly minutes?: number;
	readonly told?: string;
} {
	const unit =
		/[\s,:–(-]*(\d+(?:[.,]\d+)?\s*½?|½)\s*(?:min(?:ute)?s?|mn|['′])(?![\p{L}'′])\.?\s*\)?(?!\s*(?:hold|held|tenu))/iu.exec(
			piece,
		);
	if (unit !== null && !/(?:[x×]|sets? of|hold)\s*$/i.test(piece.slice(0, unit.index))) {
		const minutes = numberOf(unit[1] ?? "");
		const rest = `${piece.slice(0, unit.index)} ${piece.slice(unit.index + unit[0].length)}`;
		if (typeof minutes === "number") return { rest: trimmed(rest), minutes };
	}
	const bracket = /\(\s*(\d{1,2})\s*\)$/.exec(piece);
	if (bracket === null) return { rest: trimmed(piece) };
	return {
		rest: trimmed(piece.slice(0, bracket.index)),
		minutes: Number(bracket[1]),
		told: "a number in brackets behind a drill is taken as its minutes",
	};
}

/** The longest known name at the start or the end of a text, and what else it says. */
function nameAndRest(text: string, known: KnownDrill): CellDrill {
	const starts = Array.from(text.matchAll(/[\s,:;(–—-]+/g), ({ index, 0: { length } }) => ({
		index,
		length,
	}));
	for (const { index, length } of starts.toReversed()) {
		const id = known(text.slice(0, index));
		if (id !== undefined)
			return { words: text.slice(0, index), id, ...saidBehind(text.slice(index + length), text) };
	}
	for (const { index, length } of starts) {
		const words = text.slice(index + length);
		const id = known(words);
		const dose = readDose(text.slice(0, index));
		if (id !== undefined && dose !== undefined) return { words, id, dose, doseWords: text.slice(0, index) };
	}
	// A name that is new: the dose behind it is whatever reads as one.
	for (const { index, length } of starts) {
		const behind = text.slice(index + length).replace(/\)$/, "");
		if (index < 3 || !/^(?:hold\s+)?[\d½]/i.test(behind)) continue;
		const dose = readDose(behind);
		if (dose !== undefined) return { words: trimmed(text.slice(0, index)), dose, doseWords: behind };
	}
	return { words: trimmed(text) };
}

/** What follows a known name: a dose, or a word for the block. */
function saidBehind(rest: string, text: string): Pick<CellDrill, "dose" | "doseWords" | "note"> {
	const words = rest
		.replace(/^\((.*)\)$/, "$1")
		.replace(text.includes("(") ? /\)$/ : /$^/, "")
		.trim();
	if (words === "") return {};
	const dose = readDose(words);
	return dose === undefined ? { note: words } : { dose, doseWords: words };
}

function trimmed(text: string): string {
	return text
		.replace(/\s+/g, " ")
		.replace(/^[\s,:;–—-]+|[\s,:;–—(-]+$/g, "")
		.trim();
}

/** Whole minutes shared out over so many drills, the first ones getting what is left over. */
export function sharedOut(minutes: number, drills: number): readonly number[] {
	const each = Math.floor(minutes / drills);
	// Under a minute each, or with a half: tenths.
	if (each === 0 || !Number.isInteger(minutes))
		return Array.from({ length: drills }, () => Math.round((minutes / drills) * 10) / 10);
	return Array.from({ length: drills }, (_, i) => each + (i < minutes - each * drills ? 1 : 0));
}

/** A name as a title, when a drill is made of it. */
export function titleOf(words: string): string {
	const text = words.replace(/\s+/g, " ").trim();
	return fold(text) === text ? text.charAt(0).toUpperCase() + text.slice(1) : text;
}
