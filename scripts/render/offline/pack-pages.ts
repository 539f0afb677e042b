/**
 * Puts the files of a site into packs, each as new text and copies (packs.ts).
 *
 *   normalise   the way to the root, the edition's name and a drill's own id become signs, so that texts
 *               are equal at every depth, and a new edition alone changes none
 *   sources     which files others may copy from, in an order: lines of lists, drills
 *   place       which pack a file lies in: what changes together lies together
 *   match       for each file in order, the longest run of tokens that came before, else new text
 *
 * The same files give the same packs, byte for byte.
 */

import { isPageText } from "../page-text.ts";
import { forReader } from "./for-reader.ts";
import {
	byRank,
	byUse,
	type Copy,
	drillOf,
	EDITION,
	hashOf,
	holdsSign,
	keysOf,
	OWN,
	ROOT,
	Sections,
	type WrittenFile,
	wayUp,
	writeCopy,
	writeFile,
	writePack,
} from "./packs.ts";
import { apart, Beginnings, TokenNumbers, TokenRow } from "./token-tables.ts";

/** A text file of the site. */
export interface SiteFile {
	/** From the root of the site. */
	readonly path: string;
	readonly text: string;
}

export interface PackOptions {
	/** The edition's name, as pages say it. */
	readonly edition: string;
	/** Weeks by id: their pages and class sheets repeat each other, and lie in packs of their own. */
	readonly weeks: readonly string[];
	/** How many packs the pages of single things are spread over. */
	readonly slots: number;
}

/** Copies shorter than this, in characters, cost more than they save. */
const LEAST = 40;
/** Places remembered for the same beginning. */
const MOST_PLACES = 24;

/** A line that stands on so many pages is a source. */
const OFTEN = 3;

/**
 * What is read at a desk, by the director or her editor. It comes after the rest, which is what a hall needs: first
 * of all a coach has to be able to teach.
 */
const LATER = new Set(["author-guide", "coverage", "findings", "measures", "schemas", "term"]);

/** Whether a pack, by its name, may come after the others. */
export function isLater(name: string): boolean {
	return name.startsWith("later ");
}

/**
 * Packs for a number of drills: about eight drills to each, and what belongs to them. The more there
 * are, the less one changed drill brings; each costs the worker, which lists it, some ten bytes.
 */
export function slotsFor(drills: number): number {
	let slots = 16;
	while (slots < 256 && drills > slots * 8) slots *= 2;
	return slots;
}

/**
 * Packs by name, the name only an order. Throws where a file holds a sign that packs use.
 */
export function packFiles(files: Iterable<SiteFile>, options: PackOptions): ReadonlyMap<string, string> {
	const packing = new Packing(options);
	for (const file of files) packing.add(file);
	return packing.packs();
}

/** What is packed: of its text only the numbers of its tokens are kept. */
interface Cut {
	readonly path: string;
	/** Let go when it is matched. */
	numbers: Int32Array;
}

const NOTHING = new Int32Array(0);

/** Takes the files of a site one after the other, in any order, and packs them when they are all there. */
export class Packing {
	readonly #options: PackOptions;
	readonly #repeated = new Repeated();
	readonly #numbers = new TokenNumbers();
	readonly #files: Cut[] = [];

	constructor(options: PackOptions) {
		this.#options = options;
	}

	/** Throws where the file holds a sign that packs use. */
	add(file: SiteFile): void {
		const text = normalised(file, this.#options.edition);
		this.#repeated.read(file.path, text);
		this.#cut(file.path, text);
	}

	/** Packs by name, the name only an order. Ends the packing. */
	packs(): ReadonlyMap<string, string> {
		for (const [path, text] of this.#repeated.sources()) this.#cut(path, text);
		const ordered = this.#files.map((file) => ({
			...file,
			rank: rankOf(file.path),
			pack: placeOf(file.path, this.#options),
		}));
		const sources = ordered.filter(({ rank }) => rank !== undefined).sort(byRank);
		const others = ordered.filter(({ rank }) => rank === undefined).sort(withinPack);
		const pathsOf = (later: boolean) =>
			ordered.filter(({ pack }) => isLater(pack) === later).map(({ path }) => path);
		const tokensOf = (cut: readonly Cut[]) => cut.reduce((sum, { numbers }) => sum + numbers.length, 0);
		const ofPacks = Array.from(Map.groupBy(others, ({ pack }) => pack).values(), tokensOf);
		const room = tokensOf(sources) + Math.max(0, ...ofPacks);
		const matcher = new Matcher(keysOf(pathsOf(false), pathsOf(true)), this.#numbers, room);
		const packs = new Map<string, WrittenFile[]>();
		let last: string | undefined;
		this.#files.length = 0;
		for (const file of [...sources, ...others]) {
			const { path, numbers, rank, pack } = file;
			if (rank === undefined && pack !== last) {
				matcher.forgetPack();
				last = pack;
			}
			const written = writeFile({ path, rank, parts: matcher.match(path, numbers, rank !== undefined) });
			file.numbers = NOTHING;
			const packed = packs.get(pack);
			if (packed === undefined) packs.set(pack, [written]);
			else packed.push(written);
		}
		return new Map(Array.from(packs, ([name, packed]) => [name, writePack(packed.sort(byUse))]));
	}

	#cut(path: string, text: string): void {
		this.#files.push({ path, numbers: this.#numbers.of(text) });
	}
}

function normalised(file: SiteFile, edition: string): string {
	const { path } = file;
	const text = isPageText(file.text) ? file.text : forReader(file);
	if (holdsSign(text)) throw new RangeError(`${path} holds a control character`);
	const up = wayUp(path);
	const isPage = path.endsWith(".html");
	const drill = drillOf(path);
	// All at once: each step of its own would copy the page.
	const signs: Sign[] = [];
	if (drill !== undefined) {
		signs.push({ part: `"drills/${drill}/"`, sign: `"drills/${OWN}/"` });
		signs.push({ part: `/${drill}.md`, sign: `/${OWN}.md` });
	}
	if (edition !== "") signs.push({ part: edition, sign: EDITION });
	// Only as the beginning of a whole attribute: a way within a text stays as it is.
	if (isPage && up !== "") signs.push({ part: `"${up}`, sign: `"${ROOT}` });
	return replaced(text, signs);
}

/** What stands in place of a part of a text, everywhere. */
interface Sign {
	readonly part: string;
	readonly sign: string;
}

/** A text with some of its parts replaced, none of which lies in another. */
function replaced(text: string, signs: readonly Sign[]): string {
	const next = signs.map((sign) => ({ ...sign, at: text.indexOf(sign.part) }));
	const pieces: string[] = [];
	let from = 0;
	for (;;) {
		let first: (typeof next)[number] | undefined;
		for (const one of next) if (one.at >= 0 && (first === undefined || one.at < first.at)) first = one;
		if (first === undefined) break;
		pieces.push(text.slice(from, first.at), first.sign);
		from = first.at + first.part.length;
		for (const one of next) if (one.at >= 0 && one.at < from) one.at = text.indexOf(one.part, from);
	}
	if (pieces.length === 0) return text;
	pieces.push(text.slice(from));
	return pieces.join("");
}

/** A drill as a line of a list, in the text of a page (`DrillLine` of views/drill.ts). */
const LINE =
	/\{"link":\{"to":"(drills\/[^"]+\/)","name":"(?:[^"\\]|\\.)*"\},(?:"summary":"(?:[^"\\]|\\.)*",)?"apparatus":\[[^\]]*\],"levels":\[[^\]]*\]/g;

/** Lines of lists that stand on many pages alike, found as they go by: each becomes a source of its own. */
class Repeated {
	readonly #lines = new Map<string, { readonly drill: string; times: number }>();

	read(path: string, text: string): void {
		if (!isPageText(text) || LATER.has(path.split("/")[0] ?? "")) return;
		for (const [line, drill = ""] of text.matchAll(LINE)) {
			const known = this.#lines.get(line);
			if (known === undefined) this.#lines.set(apart(line), { drill: apart(drill), times: 1 });
			else known.times++;
		}
	}

	/** By a path of its own: of each drill the line that most pages have. */
	*sources(): Generator<readonly [path: string, text: string]> {
		const most = new Map<string, { line: string; times: number }>();
		for (const [line, { drill, times }] of [...this.#lines].sort(([a], [b]) => (a < b ? -1 : 1))) {
			if (times >= OFTEN && times > (most.get(drill)?.times ?? 0)) most.set(drill, { line, times });
		}
		for (const [drill, { line }] of most) yield [`${drill}#`, line];
	}
}

function rankOf(path: string): number | undefined {
	if (path.includes("#")) return 0;
	return drillOf(path) === undefined ? undefined : 1;
}

/** The name of a file's pack. */
function placeOf(path: string, { weeks, slots }: PackOptions): string {
	const folders = path.split("/").slice(0, -1);
	const [first = "", second = ""] = folders;
	if (LATER.has(first)) return `later ${first}/${second}`;
	const week =
		first === "weeks" || first === "classes"
			? folders.slice(1).find((name) => weeks.includes(name))
			: undefined;
	if (week !== undefined) return `week ${week}`;
	if (first === "assets" || first === "search") return first;
	if (first === "drills" && second !== "") return `drills ${hashOf(second) % slots}`;
	// Lists of drills are large, and would come with every drill that shares their pack; and a new drill
	// changes many of them, so that few should bring others along.
	const family = folders.length > 1 ? `${first}/${second}` : first;
	return `pages ${hashOf(family) % (slots * 2)}`;
}

interface Placed {
	readonly path: string;
	readonly pack: string;
}

/** By pack; in it pages of a week come before the sheets that are made of them. */
function withinPack(a: Placed, b: Placed): number {
	if (a.pack !== b.pack) return a.pack < b.pack ? -1 : 1;
	return byUse(a, b);
}

/** A file that others copy from. */
interface Known {
	readonly key: string;
	/** Where its tokens begin and end among all that are remembered. */
	readonly begin: number;
	readonly end: number;
	/** Of a source that is whole. */
	sections?: Sections;
}

/** Tokens that stand somewhere one after the other. */
interface Run {
	readonly file: Known;
	/** The first of them, among all that are remembered. */
	readonly from: number;
	readonly count: number;
}

/** A file that is being matched. */
interface Matched extends Known {
	/** Where each token begins in its text, and where the text ends. */
	readonly starts: Uint32Array;
}

/** Finds runs of tokens that came before. */
class Matcher {
	readonly #keys: ReadonlyMap<string, string>;
	readonly #numbers: TokenNumbers;
	/** The tokens of all sources one file after the other, then those of the pack's files. */
	readonly #tokens: TokenRow;
	#sourcesEnd = 0;
	readonly #ofSources = new Beginnings<Known>(MOST_PLACES);
	#ofPack = new Beginnings<Known>(MOST_PLACES);

	/** @param room how many tokens the sources and the largest pack have */
	constructor(keys: ReadonlyMap<string, string>, numbers: TokenNumbers, room: number) {
		this.#keys = keys;
		this.#numbers = numbers;
		this.#tokens = new TokenRow(room);
	}

	/** What came before in other packs is no longer to be copied, unless it was a source. */
	forgetPack(): void {
		this.#ofPack = new Beginnings(MOST_PLACES);
		this.#tokens.length = this.#sourcesEnd;
	}

	/** The parts of a file; it can be copied from afterwards. */
	match(path: string, numbers: Int32Array, isSource: boolean): readonly string[] {
		const begin = this.#tokens.length;
		this.#tokens.add(numbers);
		const end = this.#tokens.length;
		const own: Known = { key: this.#keys.get(path) ?? "", begin, end };
		const here: Matched = { ...own, starts: this.#startsOf(numbers) };
		const known = isSource ? this.#ofSources : this.#ofPack;
		const parts: string[] = [];
		let run: Run | undefined;
		let before: Copy | undefined;
		let literal = 0;
		for (let i = 0; i < numbers.length; ) {
			const longest = this.#longest(here, i, run);
			known.add(this.#tokens.at(begin + i), this.#tokens.at(begin + i + 1), own, begin + i);
			if (longest === undefined) {
				i++;
				continue;
			}
			const { file, from, count } = longest;
			const token = from - file.begin;
			const copy = { key: file.key, from: file.sections?.nameOf(token) ?? token, count };
			parts.push(this.#numbers.textOf(numbers, literal, i), writeCopy(copy, before));
			run = longest;
			before = copy;
			i += count;
			literal = i;
		}
		parts.push(this.#numbers.textOf(numbers, literal, numbers.length));
		if (isSource) {
			own.sections = new Sections(numbers.length, (token) =>
				this.#numbers.beginsSection(numbers[token] as number),
			);
			this.#sourcesEnd = end;
		}
		return parts;
	}

	#startsOf(numbers: Int32Array): Uint32Array {
		const starts = new Uint32Array(numbers.length + 1);
		let at = 0;
		for (let i = 0; i < numbers.length; i++) {
			at += this.#numbers.lengthOf(numbers[i] as number);
			starts[i + 1] = at;
		}
		return starts;
	}

	#longest(here: Matched, at: number, before: Run | undefined): Run | undefined {
		const { starts } = here;
		const own = starts.length - 1;
		const tokens = this.#tokens.row;
		const mine = here.begin + at;
		const one = tokens[mine] as number;
		const two = mine + 1 < here.end ? (tokens[mine + 1] as number) : 0;
		const begin = starts[at] as number;
		// Tokens that a run must have to be long enough, and later to be longer than the best so far: most
		// places are turned down by the last of them, and what lies before it need not be looked at.
		let least = 1;
		while (at + least < own && (starts[at + least] as number) - begin < LEAST - 1) least++;
		let best: Run | undefined;
		let most = LEAST - 1;
		let bestFollows = false;
		const behind = before === undefined ? Number.POSITIVE_INFINITY : before.from + before.count;
		const behindEnd = before?.file.end ?? 0;
		for (const places of [this.#ofPack, this.#ofSources]) {
			for (let place = places.first(one, two); place >= 0; place = places.after(place)) {
				const from = places.tokenAt(place);
				// To go on where the copy before ended is the shortest to write.
				const follows = from >= behind && from < behindEnd;
				const wanted = best !== undefined && (!follows || bestFollows) ? least + 1 : least;
				if (tokens[from + wanted - 1] !== tokens[mine + wanted - 1]) continue;
				const file = places.fileAt(place);
				// Of the file itself, only what is written already; of a source, not beyond a section, since
				// what grows at its end would then part the run.
				const inSection = file.sections?.endOf(from - file.begin);
				const last =
					file.begin === here.begin ? mine : inSection === undefined ? file.end : file.begin + inSection;
				const limit = Math.min(last - from, here.end - mine);
				if (limit < wanted) continue;
				let count = 0;
				while (count < limit && tokens[from + count] === tokens[mine + count]) count++;
				const worth = (starts[at + count] as number) - begin + (follows ? 0.5 : 0);
				if (worth > most) {
					most = worth;
					best = { file, from, count };
					least = count;
					bestFollows = follows;
				}
			}
		}
		return best;
	}
}
