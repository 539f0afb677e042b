/**
 * Reads the finished PDF back and holds it against what should be on paper. Nothing here trusts the
 * steps before it: the pages, their words and their links are taken from the PDF itself.
 *
 *   1. every page has the size of the paper, and there is a page for each leaf
 *   2. nothing is painted in the punched margin or where printers do not print            H403
 *   3. nothing stands outside its text area, no line is cut, no page is empty but a back   H403
 *   4. every word of the sheets was laid out once, and is on its page once                H403
 *   5. every page carries its number, every link lands on the page that carries the printed
 *      number and the words it was to lead to                                             H404
 *   6. every drill's title, cues, faults, spotting, caution and doses stand on its card exactly
 *      once, and on the pages of its card                                                 H403, H411
 *   7. what had to be broken or set smaller to fit is named                               H405
 *   8. all words are large enough, lie on no others, and every letter has a shape         H406 to H408
 *   9. what a reader shows beside the pages, their numbers and the outline, is right      H404
 *
 * Comparing letters takes longest. Of a section or a segment in which nothing was found it is kept, by
 * all that went into the comparison and the text of the checks themselves; links are checked each time.
 */

import type { Paper } from "../../layouts/sheets/paper.ts";
import type { Sheets } from "../../layouts/sheets/section.ts";
import { valuesAt } from "../compute/drill-at.ts";
import type { Measured } from "../compute/measure.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";
import type { LinkedDrill } from "../model.ts";
import type { Place } from "../place.ts";
import { type Code, type Problem, problem } from "../problems.ts";
import type { MarkdownRenderer } from "../views/markdown.ts";
import { doseWords } from "../views/words.ts";
import type { Words } from "../words/words.ts";
import type { Assembled, Leaf } from "./assemble.ts";
import { flawsOf, isTooSmallForSafety, LEAST_SAFETY_POINTS, largestType } from "./legible.ts";
import { hasWords, isFromTheRight, lettersMissing, lettersOf, textOf } from "./letters.ts";
import { type PageDigest, SLACK } from "./page-digest.ts";
import type { Segment } from "./print-segments.ts";
import type { ReadBinder } from "./read-segments.ts";
import { digestOf, type SheetCache } from "./sheet-cache.ts";

export interface Verification {
	/** The PDF as it is being read back: what needs no pages is checked meanwhile. */
	readonly read: Promise<ReadBinder>;
	readonly sheets: Sheets;
	readonly assembled: Assembled;
	readonly segments: readonly Segment[];
	/** The editions that leaves carry, as they were printed. */
	readonly editions: readonly string[];
	readonly paper: Paper;
	readonly handbook: Measured & { readonly markdown: MarkdownRenderer; readonly words: Words };
	/** For what cannot be placed in a file. */
	readonly elsewhere: Place;
	/** Where it is kept what was found sound. */
	readonly cache: SheetCache;
	/** What these leaves were taken from, where they are a choice: all sheets before layout, all leaves after it. */
	readonly whole?: { readonly sheets: Sheets; readonly assembled: Assembled } | undefined;
}

/** The same, read to its end. */
type Finished = Omit<Verification, "read"> & { readonly read: ReadBinder };

/** What was found of a finished binder. */
export interface Verdict {
	/** None where it is sound. */
	readonly problems: readonly Problem[];
	/** Positions of leaves that lack a safety text of theirs, and that nobody may coach from. */
	readonly unsafe: ReadonlySet<number>;
	/** Sides with next to nothing on them: a few lines that went overleaf. */
	readonly short: number;
}

/** Of a side's text area: what ends above that is short. Common practice is a quarter of a page at least. */
const SHORT = 0.25;

/** Holds a finished binder against what it was to be. */
export async function verifyBinder(verification: Verification): Promise<Verdict> {
	const { assembled, cache } = verification;
	// It is waited for below, and fails there.
	verification.read.catch(() => undefined);
	const found = new Finder(verification);
	const verdicts = new Verdicts(cache, programFingerprint());
	for (const id of assembled.missing) found.tell("H404", 0, `Something refers to ${id}, which is nowhere`);
	checkSections(verification, found, verdicts);
	const read = await verification.read;
	if (read.pages.length !== assembled.leaves.length) {
		found.tell("H404", 0, `The binder has ${read.pages.length} pages instead of ${assembled.leaves.length}`);
		return found;
	}
	const finished: Finished = { ...verification, read };
	found.short = assembled.leaves.filter(
		({ blank, label }, i) => !blank && label !== "" && (read.pages[i]?.filled ?? 1) < SHORT,
	).length;
	checkPages(finished, found, verdicts);
	checkEditions(finished, found);
	checkFile(finished, found);
	checkLinks(finished, found);
	checkDrills(finished, found);
	if (verification.whole === undefined) return found;
	const whole = { ...verification, ...verification.whole };
	const before = new Finder(whole);
	checkSections(whole, before, verdicts);
	return { problems: [...before.problems, ...found.problems], unsafe: found.unsafe, short: found.short };
}

/** Remembers of what no problem was found, by all that went into the check and the check itself. */
class Verdicts {
	readonly #cache: SheetCache;
	readonly #check: string;

	constructor(cache: SheetCache, check: string) {
		this.#cache = cache;
		this.#check = check;
	}

	/** Does a check, unless the same was done before and found nothing. */
	unlessSound(ingredients: readonly string[], found: Finder, check: () => void): void {
		const name = ["sound", this.#check, ...ingredients];
		if (this.#cache.find(name) !== undefined) return;
		const before = found.problems.length;
		check();
		if (found.problems.length === before) this.#cache.put(name, SOUND);
	}
}

const SOUND = new TextEncoder().encode("sound");

/** Collects problems with the place in the club folder that a leaf was made from. */
class Finder {
	readonly problems: Problem[] = [];
	readonly unsafe = new Set<number>();
	short = 0;
	readonly #verification: Verification;

	constructor(verification: Verification) {
		this.#verification = verification;
	}

	/** @param after the id that stands last before it, where that is known better than by page */
	tell(code: Code, leaf: number, what: string, after?: string): void {
		this.problems.push(problem(code, this.#place(leaf, after), `${what}${this.#onPage(leaf)}.`));
	}

	#onPage(position: number): string {
		const label = this.#verification.assembled.leaves[position]?.label ?? "";
		return label === "" ? "" : ` (page ${label})`;
	}

	/** The last target with a source on the leaf, or before it in its section. */
	#place(position: number, after?: string): Place {
		const { assembled, elsewhere } = this.#verification;
		const known = after === undefined ? undefined : assembled.targets.get(after)?.source;
		if (known !== undefined) return known.place([]);
		const section = assembled.leaves[position]?.section;
		let place = elsewhere;
		for (const target of assembled.targets.values()) {
			if (target.source === undefined || target.leaf > position) continue;
			if (assembled.leaves[target.leaf]?.section === section) place = target.source.place([]);
		}
		return place;
	}
}

/** Holds the pages of a section against its markup before it was laid out. */
function checkSections({ sheets, assembled }: Verification, found: Finder, verdicts: Verdicts): void {
	for (const [number, section] of sheets.sections.entries()) {
		const leaves = assembled.leaves.filter((leaf) => leaf.section === number && !leaf.blank);
		const markup = section.parts.map(({ html }) => html.text);
		const pages = leaves.map(({ text }) => text);
		verdicts.unlessSound(["section", digestOf(markup), digestOf(pages)], found, () => {
			const wanted = lettersOf(markup.map(textOf).join(" "));
			const there = lettersOf(
				pages.map((text) => textOf(text.replace(REFERENCE_WORDS, "").replace(REPEATED_HEAD, ""))).join(" "),
			);
			const first = assembled.leaves.findIndex((leaf) => leaf.section === number);
			const lost = lettersMissing(wanted, there);
			if (lost !== "")
				found.tell("H403", first, `Letters of "${section.title}" were lost in laying out: ${lost}`);
			const twice = lettersMissing(there, wanted);
			if (twice !== "")
				found.tell("H403", first, `Letters of "${section.title}" were laid out more than once: ${twice}`);
		});
	}
}

/** Numbers of pages, which layout filled in; those that have shifted since an earlier edition are marked. */
export const REFERENCE_WORDS =
	/(?<=<span class="ref-word"(?: data-to="[^"]*")?>)(?:[^<]|<span data-changed="">[^<]*<\/span>)*/g;
/** Heads of tables that go on overleaf. */
export const REPEATED_HEAD = /<thead class="again">[\s\S]*?<\/thead>/g;

function checkPages({ assembled, segments, read, paper }: Finished, found: Finder, verdicts: Verdicts): void {
	for (const { first, leaves } of segments) {
		const positions = Array.from({ length: leaves }, (_, i) => first + i);
		const ingredients = positions.flatMap((position) => {
			const { label = "", text = "" } = assembled.leaves[position] ?? {};
			return [label, text, JSON.stringify(read.pages[position])];
		});
		verdicts.unlessSound(["pages", JSON.stringify(paper), digestOf(ingredients)], found, () => {
			for (const position of positions) {
				const page = read.pages[position];
				const leaf = assembled.leaves[position];
				if (page !== undefined && leaf !== undefined) checkPage(page, leaf, position, paper, found);
			}
		});
	}
	for (const { first, measures } of segments) {
		for (const { leaf, words, after, edge, drawing } of measures.spills) {
			const where = edge === "area" ? "stands outside the text area" : "runs over the edge of its cell";
			found.tell(drawing ? "H409" : "H403", first + leaf, `"${words}" ${where}`, after);
		}
	}
}

/** Flaws of one kind on a page that are told; the rest is counted. */
const TOLD = 3;

function checkPage(page: PageDigest, leaf: Leaf, position: number, paper: Paper, found: Finder): void {
	if (Math.abs(page.width - paper.width) > SLACK || Math.abs(page.height - paper.height) > SLACK) {
		found.tell(
			"H403",
			position,
			`A page is ${page.width} × ${page.height} px, not the size of ${paper.name}`,
		);
	}
	if (page.isPaintedOutside) {
		found.tell("H409", position, "A drawing or a line reaches into the punched margin or to the very edge");
	}
	for (const words of page.outside) {
		found.tell("H403", position, `"${words}" stands in the punched margin or at the very edge`);
	}
	const wanted = lettersOf(textOf(leaf.text));
	const lost = lettersMissing(wanted, page.letters);
	if (lost !== "") found.tell("H403", position, `Letters that were laid out are not on paper: ${lost}`);
	// The numbers of a list are the browser's own, so figures are not counted here.
	const more = lettersMissing(page.letters.replace(/\p{N}/gu, ""), wanted);
	if (more !== "") found.tell("H403", position, `Letters are on paper that were not laid out: ${more}`);
	if (page.letters === "" && !/<(svg|img)\b/.test(leaf.text)) found.tell("H403", position, "A page is empty");
	for (const [code, whats] of flawsOf(page.illegible)) {
		for (const what of whats.slice(0, TOLD)) found.tell(code, position, what);
		if (whats.length > TOLD) found.tell(code, position, `${whats.length - TOLD} more such places`);
	}
	checkSqueezed(leaf, position, found);
	if (leaf.label !== "" && !carries(page.foot, leaf.label)) {
		found.tell("H404", position, `The page's number ${leaf.label} is not at its foot`);
	}
}

/** Whether a page's number stands at its foot. */
function carries(foot: string, label: string): boolean {
	return foot.includes(label) || (isForeign(label) && hasWords(lettersOf(foot), label));
}

/** Whether a name in a page's number has letters that the sheets' own font lacks: another font's are read back apart. */
function isForeign(label: string): boolean {
	return /(?!\p{Script=Latin})\p{L}/u.test(label);
}

/** A page's number for comparing, without spaces and without the order of directions where those may be lost. */
function numberKey(label: string): string {
	if (!isForeign(label)) return label;
	const letters = lettersOf(label);
	return isFromTheRight(label) ? [...letters].sort().join("") : letters;
}

/** Editions are laid over the pages: each stands at the foot, whole, and nothing else with it. */
function checkEditions({ assembled, read, editions }: Finished, found: Finder): void {
	editions.forEach((words, i) => {
		for (const [which, side] of (["right", "left"] as const).entries()) {
			const position = assembled.leaves.findIndex((leaf) => leaf.issue === words && leaf.side === side);
			const page = read.editions[2 * i + which];
			if (position < 0) continue;
			if (page === undefined || !lettersOf(page.foot).includes(lettersOf(words))) {
				found.tell("H403", position, `"${words}" is not at the foot`);
			} else if (page.letters !== "") {
				found.tell("H403", position, `"${words}" stands where text is`);
			}
			for (const one of page?.outside ?? []) {
				found.tell("H403", position, `"${one}" stands in the punched margin or at the very edge`);
			}
			if (page?.isPaintedOutside === true) {
				found.tell("H403", position, "Something stands in the punched margin or at the very edge");
			}
		}
	});
}

/** What a reader shows beside the pages: the number of each, and the outline. */
function checkFile({ assembled, read }: Finished, found: Finder): void {
	assembled.leaves.forEach(({ prefix, number }, position) => {
		const label = `${prefix} ${number}`;
		if (read.labels[position] !== label) {
			found.tell("H404", position, `A reader shows ${read.labels[position] ?? "no number"} for ${label}`);
		}
	});
	const wanted = [...assembled.targets.values()].filter(({ title }) => title !== "");
	wanted.forEach(({ id, title, leaf }, i) => {
		const line = read.outline[i];
		if (line === undefined || lettersOf(line.title) !== lettersOf(title) || line.destination !== id) {
			found.tell("H404", leaf, `The outline does not lead to "${title}" where it should`);
		}
	});
	if (read.outline.length > wanted.length)
		found.tell("H404", 0, "The outline has lines that nothing asked for");
}

/** What the layout marked as not fitting as it is written. A card may go on overleaf. */
function checkSqueezed({ text }: Leaf, position: number, found: Finder): void {
	let after: string | undefined;
	for (const [tag, name = ""] of text.matchAll(/<([a-z][a-z0-9]*)\b[^>]*>/g)) {
		after = /\sid="([^"]*)"/.exec(tag)?.[1] ?? after;
		const classes = /\sclass="([^"]*)"/.exec(tag)?.[1]?.split(" ") ?? [];
		const what = WHAT[classes.includes("tall-row") ? "tr" : name] ?? "A piece that should stay whole";
		if (classes.includes("too-wide")) {
			found.tell("H405", position, `${what} is wider than the page, and was set smaller`, after);
		}
		if (
			classes.includes("too-tall") &&
			name !== "article" &&
			name !== "section" &&
			!tag.includes("data-split-from")
		) {
			found.tell("H405", position, `${what} is longer than a page, and goes on overleaf`, after);
		}
	}
}

const WHAT: Readonly<Record<string, string>> = {
	table: "A table",
	tr: "A row of a table",
	pre: "A block of preformatted text",
	figure: "A figure",
	li: "An entry of a list",
};

function checkLinks({ assembled, read }: Finished, found: Finder): void {
	const { pages, destinations } = read;
	const numbers = new Set(
		assembled.leaves.map(({ label }) => label).flatMap((label) => (label === "" ? [] : numberKey(label))),
	);
	const lands = new Map<string, boolean>();
	/** Whether the words of a target are on the page that its destination leads to. */
	const isThere = (id: string, target: number, words: string): boolean => {
		const known = lands.get(id) ?? hasWords(pages[target]?.letters ?? "", words);
		lands.set(id, known);
		return known;
	};
	pages.forEach((page, position) => {
		const text = assembled.leaves[position]?.text ?? "";
		const wanted = new Map<string, number>();
		for (const [, id = ""] of text.matchAll(/<span class="ref-word" data-to="([^"]*)">/g)) {
			wanted.set(id, (wanted.get(id) ?? 0) + 1);
		}
		for (const { destination, printed } of page.links) {
			if (destination === undefined) continue;
			const target = destinations.get(destination);
			const there = target === undefined ? undefined : pages[target];
			const known = assembled.targets.get(destination);
			if (target === undefined || there === undefined || known === undefined) {
				found.tell("H404", position, `A link to ${destination} leads nowhere`);
				continue;
			}
			if (!isThere(destination, target, known.words ?? known.title)) {
				found.tell("H404", position, `A link to "${known.title}" leads to a page without these words`);
			}
			const number = assembled.leaves[target]?.label ?? "";
			// Other links are words; a number that came out as no number at all is missed below.
			const key = numberKey(printed);
			if (!numbers.has(key)) continue;
			if (key !== numberKey(number) || !carries(there.foot, number)) {
				found.tell("H404", position, `"${known.title}" is said to be on ${printed}, and is on ${number}`);
			} else wanted.set(destination, (wanted.get(destination) ?? 0) - 1);
		}
		for (const [id, count] of wanted) {
			if (count > 0) found.tell("H404", position, `A page number that leads to ${id} could not be read back`);
		}
	});
}

function checkDrills({ sheets, whole, assembled, handbook, read: { pages } }: Finished, found: Finder): void {
	const cards = cardsOf(whole?.sheets ?? sheets);
	// Cards begin a page or follow another on it: one that goes on overleaf ends before the next page of cards.
	const starts = [
		...new Set([...cards.keys()].flatMap((id) => assembled.targets.get(id)?.leaf ?? [])),
	].toSorted((a, b) => a - b);
	const endOf = new Map(
		starts.map((start, i) => {
			const next = starts[i + 1];
			const section = assembled.leaves[start]?.section;
			return [
				start,
				next !== undefined && assembled.leaves[next]?.section === section
					? next - 1
					: assembled.leaves.findLastIndex((leaf) => leaf.section === section),
			];
		}),
	);
	for (const drill of handbook.curriculum.drills.values()) {
		const id = `drill-${drill.id}`;
		const target = assembled.targets.get(id);
		const card = cards.get(id);
		if (target === undefined || card === undefined) {
			found.tell("H403", 0, `The card of "${drill.title}" is missing`);
			continue;
		}
		const last = endOf.get(target.leaf) ?? target.leaf;
		const own = pages.slice(target.leaf, last + 1);
		const text = own.map((page) => page.letters).join("");
		const wanted = wordsOnCard(drill, handbook);
		for (const { tag, words } of wanted) {
			const letters = lettersOf(words);
			const times = wanted.filter((one) => one.tag === tag && lettersOf(one.words) === letters).length;
			const there = card.filter((one) => one.tag === tag && one.letters === letters).length;
			if (there === 0 || !hasWords(text, words)) {
				const isSafety = tag === SAFETY_TAG;
				if (isSafety) for (let leaf = target.leaf; leaf <= last; leaf++) found.unsafe.add(leaf);
				const what = `The card of "${drill.title}" lacks the words "${words}"`;
				found.tell(isSafety ? "H411" : "H403", target.leaf, what, id);
			} else if (
				tag === SAFETY_TAG &&
				own.some((page) => isTooSmallForSafety(largestType(page, words) ?? 100))
			) {
				found.tell(
					"H406",
					target.leaf,
					`"${words}" is in less than ${LEAST_SAFETY_POINTS} pt, and is safety text`,
					id,
				);
			} else if (there !== times) {
				found.tell(
					"H403",
					target.leaf,
					`The card of "${drill.title}" has the words "${words}" ${there} times instead of ${times}`,
					id,
				);
			}
		}
	}
}

/** A piece of text, with the element it stands in. */
interface Piece {
	readonly tag: string;
	readonly letters: string;
}

/** The pieces of every drill's card as the sheets have it, by the id of its heading. */
function cardsOf(sheets: Sheets): ReadonlyMap<string, readonly Piece[]> {
	const cards = new Map<string, readonly Piece[]>();
	for (const { parts } of sheets.sections) {
		for (const { html } of parts) {
			for (const [markup] of html.text.matchAll(/<article class="card [\s\S]*?<\/article>/g)) {
				const id = /<h2 id="([^"]*)"/.exec(markup)?.[1];
				if (id !== undefined) cards.set(id, piecesOf(markup));
			}
		}
	}
	return cards;
}

function piecesOf(markup: string): readonly Piece[] {
	return [...markup.matchAll(/<(h2|li|dt|dd|td|p)\b[^>]*>([\s\S]*?)<\/\1>/g)].map(
		([, tag = "", inside = ""]) => ({ tag, letters: lettersOf(textOf(inside)) }),
	);
}

/** What keeps people safe stands in paragraphs. */
const SAFETY_TAG = "p";

/** What a coach must find on a drill's card, with the element it stands in. */
function wordsOnCard(
	drill: LinkedDrill,
	{ curriculum, markdown, words: said }: Verification["handbook"],
): readonly { readonly tag: string; readonly words: string }[] {
	const plain = (words: string) => markdown.plain(words);
	const safety = (["spotting", "caution"] as const).flatMap((field) => {
		const texts = valuesAt(drill, [...drill.levels.keys()], (one) => one[field]).flatMap(
			({ value, levels }) => {
				if (value === undefined) return [];
				// What only some levels have stands after their names.
				const names =
					levels === "all"
						? ""
						: levels.map((id) => curriculum.levels.get(id)?.name ?? id).join(", ") + said.colon;
				return [names + plain(value)];
			},
		);
		return texts.length === 0 ? [] : [`${said.safety[field]} ${texts.join(" ")}`];
	});
	const ways = [...drill.levels.values()].map((dose) =>
		`${dose.do === undefined ? said.drill.asDescribed : plain(dose.do)} ${doseWords(said, drill, dose)}`.trim(),
	);
	return [
		{ tag: "h2", words: plain(drill.title) },
		...drill.cues.map((cue) => ({ tag: "li", words: plain(cue) })),
		...drill.faults.flatMap(({ see, say }) => [
			{ tag: "dt", words: plain(see) },
			{ tag: "dd", words: plain(say) },
		]),
		...safety.map((words) => ({ tag: SAFETY_TAG, words })),
		...ways.map((words) => ({ tag: "td", words })),
	];
}
