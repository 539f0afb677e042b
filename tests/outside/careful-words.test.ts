/**
 * What the demo's drills, plans and guides may never tell a coach or a child.
 *
 * Each rule names what it stands on. Where no published source was found it is common practice among
 * coaches and says so. A rule reads sentences, so it finds the plain cases and stands for no reading
 * by somebody who must answer for the words; local codes and licensed practice come first.
 */

import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { REPOSITORY } from "../open-fixture.ts";

/** One text somebody reads, and where it stands. */
interface Said {
	readonly file: string;
	readonly field: string;
	readonly text: string;
}

interface Page {
	readonly file: string;
	readonly front: Readonly<Record<string, unknown>>;
	readonly said: readonly Said[];
}

/** Ids, numbers and figures, and what a fault looks like: nothing here tells anybody to do something. */
const NOT_TOLD = new Set([
	"see",
	"sequence",
	"heights",
	"equipment",
	"skills",
	"after",
	"shapes",
	"partner",
	"aliases",
]);

const pages = readdirSync(join(REPOSITORY, "content"), { recursive: true, encoding: "utf8" })
	.filter((name) => name.endsWith(".md"))
	.sort()
	.map((name) => pageOf(join(REPOSITORY, "content", name)));
const drills = pages.filter(({ front }) => "levels" in front);
const said = pages.flatMap((page) => page.said);

/** Weight on the arms is no grip: only what a hand does to somebody's wrist is. */
const HOLDS_A_WRIST =
	/\b(hold|holds|holding|take|takes|taking|grip|grips|grab|grabs|catch|catches|hands? (on|at|round))\b.*\bwrists?\b/i;
/** Somebody who is a child, as helper. */
const A_CHILD = /\b(partners?|friends?|helpers?|(another|other|older|waiting) (child|children|gymnasts?))\b/i;
const HELPS =
	/\b(spots?(?! marker)|holds?|held|holding(?! on)|lifts?|carr(y|ies)|catch(es)?|press(es)?|pushes|pulls?|steady|steadies|supports?)\b/i;
const NOT = /\b(not|never|no|nobody|no one|nor|without|against)\b/i;
const HEAD_DOWN = /\b(top|crown) of (the|your|her) head\b|\bon(to)? (the|your|her) (head|neck)\b/i;
/** What a standing gymnast carries there is no weight. */
const BALANCED = /\bbeanbag\b/;
const CHIN_IN =
	/\bchin (is )?(in|tucked)\b|\btuck(s|ed|ing)? (the|your|her) chin\b|\bchin (to|on)( the| your| her)? chest\b/i;
/** Chin in by any of the words that the drills use for it. */
const ROUND_NECK = new RegExp(
	`${CHIN_IN.source}|\\blook at your (tummy|belly button|knees)\\b|\\bknees to nose\\b|\\blook at the knees\\b`,
	"i",
);

test("the whole demo is read", () => {
	expect(drills).toHaveLength(178);
	expect(said.filter(({ field }) => field === "caution").length).toBeGreaterThan(150);
	expect(said.filter(({ field }) => field === "spotting").length).toBeGreaterThan(100);
	// Every note of every plan, counted a second time as lines of text.
	const notes = pages.map(({ file }) => readFileSync(file, "utf8").match(/^ +(- )?note: ./gm)?.length ?? 0);
	const read = said.filter(({ field }) => field === "note").length;
	expect(read).toBe(notes.reduce((sum, count) => sum + count, 0));
	expect(read).toBeGreaterThan(0);
});

describe("the rules find what they are for", () => {
	test.each([
		["a wrist", HOLDS_A_WRIST, "Take the nearer wrist for first tries from the high beam."],
		["a wrist", HOLDS_A_WRIST, "One hand on the near wrist and one on the back"],
		["a child", A_CHILD, "Bounce three times with a partner's hands"],
		["the head", HEAD_DOWN, "Push to the top of the head, pause"],
		["the chin", CHIN_IN, "Heels, seat, back and head arrive together, chin tucked."],
	])("%s: %s", (_what, rule, sentence) => {
		expect(sentence).toMatch(rule);
	});
});

// Common practice: a held wrist turns or stops a moving body at its smallest joint. The club's own guide
// on spotting says the same.
test("nobody is told to hold a wrist", () => {
	expect(sentences(said, (sentence) => HOLDS_A_WRIST.test(sentence) && !NOT.test(sentence))).toEqual([]);
});

// Common practice, and what the club's guide promises: the hands that help are a coach's.
test("no child spots or holds another", () => {
	const hands = said.filter(({ field }) => field !== "note");
	expect(
		sentences(hands, (sentence) => A_CHILD.test(sentence) && HELPS.test(sentence) && !NOT.test(sentence)),
	).toEqual([]);
	const spotting = said.filter(({ field }) => field === "spotting");
	expect(sentences(spotting, (sentence) => A_CHILD.test(sentence))).toEqual([]);
	expect(
		sentences(said, (sentence) => /\b(partner|friend)'s (hands?|fingers|grip|arms?)\b/i.test(sentence)),
	).toEqual([]);
});

// Common practice: outside a headstand no weight goes onto the head or the neck; in a headstand most of
// it is on the hands, and somebody with a neck complaint takes no part.
test("no text puts weight on a head or a neck", () => {
	const others = pages.filter((page) => !uses(page, ({ shape }) => shape === "headstand"));
	const told = others.flatMap((page) => page.said);
	expect(
		sentences(
			told,
			(sentence) => HEAD_DOWN.test(sentence) && !NOT.test(sentence) && !BALANCED.test(sentence),
		),
	).toEqual([]);
});

test("every headstand keeps the weight on the hands and leaves sore necks out", () => {
	const headstands = drills.filter((page) => uses(page, ({ shape }) => shape === "headstand"));
	expect(headstands.length).toBeGreaterThan(1);
	for (const { file, front, said: own } of headstands) {
		expect(front.caution, file).toMatch(/neck/);
		expect(front.caution, file).toMatch(/no one with a neck complaint takes part/);
		expect(own.map(({ text }) => text).join(" "), file).toMatch(/weight on the hands|heavy hands/i);
	}
});

// Common practice: in a body that turns over stretched and lands flat the head stays between the arms,
// since a chin that goes in bends the line and sends the seat or the neck first.
test("no chin goes in where a stretched body lands flat on its back", () => {
	const flat = drills.filter((page) =>
		uses(page, ({ shape, base, tilt }) => shape === "straight" && base === "back" && tilt === -90),
	);
	expect(flat.map(({ file }) => file)).toHaveLength(4);
	const told = flat.flatMap((page) => page.said);
	expect(sentences(told, (sentence) => CHIN_IN.test(sentence) && !NOT.test(sentence))).toEqual([]);
	for (const { file, said: own } of flat)
		expect(own.map(({ text }) => text).join(" "), file).toMatch(
			/between (the|your) arms|head never tucks|head between/i,
		);
});

// Common practice: a roll is done over a round neck and back.
test("every tucked roll over the shoulders says that the chin goes in", () => {
	const rolls = drills.filter((page) =>
		uses(page, ({ shape, base }) => shape === "tuck" && base === "shoulders"),
	);
	expect(rolls.length).toBeGreaterThan(8);
	const without = rolls.filter(({ said: own }) => !own.some(({ text }) => ROUND_NECK.test(text)));
	expect(without.map(({ file }) => file)).toEqual([]);
});

// Common practice: a knee is straight, never pressed back into its end, and bent in every landing.
test("nobody is told to lock the knees", () => {
	expect(
		sentences(said, (sentence) => /\b(lock(s|ed)?\b.*\bknees?|knees?\b.*\block(s|ed)?)\b/i.test(sentence)),
	).toEqual([]);
});

// Ophea (2024), Ontario Physical Activity Safety Standards in Education, gymnastics: no jump from above
// one's own chest height onto thin mats. That a panel mat is thin, and that a landing from any block, box
// or raised beam has a thick one, is the club's own rule.
test("whoever jumps down from something lands on a thick mat", () => {
	const down = drills.filter((page) => {
		const phases = phasesOf(page);
		const raised = phases.some(({ on }) => on === "block" || on === "box");
		return raised && phases.at(-1)?.on === "mat" && phases.at(-1)?.shape === "landing-squat";
	});
	expect(down.length).toBeGreaterThan(8);
	for (const { file, front } of down)
		expect(Object.keys(front.equipment ?? {}), file).toContain("landing-mat");
	const chest = drills.filter(({ front }) =>
		Object.values(front.heights ?? {}).some((one) => one === "head" || one === "reach"),
	);
	const jumps = chest.filter((page) =>
		phasesOf(page).some(({ shape, base }) => shape === "straight" && base === "air"),
	);
	for (const { file, front } of jumps)
		expect(Object.keys(front.equipment ?? {}), file).toContain("landing-mat");
});

// Common practice, and the first of the club's house rules in the hall: nobody crosses a run.
test("nobody is sent across a run or a landing", () => {
	const across =
		/\b(cross(es|ing)?|across|back along|through) (the|a) (runway|run-up|run|landing|landing mat)\b/i;
	expect(sentences(said, (sentence) => across.test(sentence) && !NOT.test(sentence))).toEqual([]);
});

/** The texts of one file, taken from its front matter and its body. */
function pageOf(path: string): Page {
	const file = relative(REPOSITORY, path);
	const [, front = "", body = ""] = /^---\n(.*?)\n---\n(.*)$/s.exec(readFileSync(path, "utf8")) ?? [];
	const fields: Readonly<Record<string, unknown>> = parse(front);
	return { file, front: fields, said: [...textsOf(fields, file, ""), { file, field: "body", text: body }] };
}

function textsOf(value: unknown, file: string, field: string): readonly Said[] {
	if (typeof value === "string") return [{ file, field, text: value }];
	if (Array.isArray(value)) return value.flatMap((one) => textsOf(one, file, field));
	if (typeof value !== "object" || value === null) return [];
	return Object.entries(value).flatMap(([key, one]) => (NOT_TOLD.has(key) ? [] : textsOf(one, file, key)));
}

/** The sentences that break a rule, each with its file. */
function sentences(texts: readonly Said[], breaks: (sentence: string) => boolean): readonly string[] {
	return texts.flatMap(({ file, field, text }) =>
		text
			.split(/(?<=[.?!;:])\s|\n/)
			.filter(breaks)
			.map((sentence) => `${file}, ${field}: ${sentence}`),
	);
}

interface Phase {
	readonly shape?: string;
	readonly base?: string;
	readonly on?: string;
	readonly tilt?: number;
}

function phasesOf({ front }: Page): readonly Phase[] {
	const { sequence } = front;
	if (!Array.isArray(sequence)) return [];
	return sequence.map((one: string | Phase) => (typeof one === "string" ? { shape: one } : one));
}

function uses(page: Page, fits: (phase: Phase) => boolean): boolean {
	const { shapes } = page.front;
	const named: readonly Phase[] = Array.isArray(shapes) ? shapes.map((shape: string) => ({ shape })) : [];
	return [...phasesOf(page), ...named].some(fits);
}
