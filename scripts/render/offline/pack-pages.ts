/**
 * Puts the files of a site into packs, each page as new text and copies (packs.ts).
 *
 *   normalise   the way to the root and the edition's name become signs, so that frames are equal at
 *               every depth, and a new edition alone changes no page
 *   sources     which files others may copy from, in an order: the frame, cards, drills
 *   place       which pack a file lies in: what changes together lies together
 *   match       for each file in order, the longest run of tokens that came before, else new text
 *
 * The same files give the same packs, byte for byte.
 */

import {
	byRank,
	type Copy,
	EDITION,
	hashOf,
	holdsSign,
	keysOf,
	mailedTitle,
	type PackedFile,
	ROOT,
	Sections,
	Starts,
	subjectOf,
	TITLE,
	wayUp,
	writeCopy,
	writePack,
} from "./packs.ts";

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

/** The page that everyone copies the frame from: it hardly ever changes. */
const FRAME_PAGE = "about/index.html";

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

/** Packs by name, the name only an order. Throws where a file holds a sign that packs use. */
export function packFiles(files: readonly SiteFile[], options: PackOptions): ReadonlyMap<string, string> {
	const texts = new Map(files.map((file) => [file.path, normalised(file, options.edition)]));
	for (const [path, text] of [...linesIn(texts), ...bodiesIn(texts)]) texts.set(path, text);
	const ordered = Array.from(texts, ([path, text]) => ({
		path,
		text,
		rank: rankOf(path),
		pack: placeOf(path, options),
	}));
	const sources = ordered.filter(({ rank }) => rank !== undefined).sort(byRank);
	const others = ordered.filter(({ rank }) => rank === undefined).sort(withinPack);
	const pathsOf = (later: boolean) =>
		ordered.filter(({ pack }) => isLater(pack) === later).map(({ path }) => path);
	const matcher = new Matcher(keysOf(pathsOf(false), pathsOf(true)));
	const packs = new Map<string, PackedFile[]>();
	let last: string | undefined;
	for (const { path, text, rank, pack } of [...sources, ...others]) {
		if (rank === undefined && pack !== last) {
			matcher.forgetPack();
			last = pack;
		}
		const parts = matcher.match(path, text, rank !== undefined);
		const packed = packs.get(pack);
		if (packed === undefined) packs.set(pack, [{ path, rank, parts }]);
		else packed.push({ path, rank, parts });
	}
	return new Map(Array.from(packs, ([name, packed]) => [name, writePack(packed.sort(byUse))]));
}

/** A page as a reader needs it: without what its head says to services that show or list it. */
export function forReader({ path, text }: SiteFile): string {
	if (!path.endsWith(".html")) return text;
	return text
		.replace(/<meta (?:property="og:|name="twitter:)[^>]*>\n?/g, "")
		.replace(/<script type="application\/ld\+json">.*?<\/script>/gs, "");
}

function normalised(file: SiteFile, edition: string): string {
	const { path } = file;
	const text = forReader(file);
	if (holdsSign(text)) throw new RangeError(`${path} holds a control character`);
	const up = wayUp(path);
	const mailed = mailedTitle(text);
	const untitled = mailed === undefined ? text : text.replace(subjectOf(mailed), subjectOf(TITLE));
	const named = edition === "" ? untitled : untitled.replaceAll(edition, EDITION);
	// Only as the beginning of a whole attribute: a way within a text stays as it is.
	return up === "" || !path.endsWith(".html") ? named : named.replaceAll(`"${up}`, `"${ROOT}`);
}

const DRILL_LINK = new RegExp(`href="${ROOT}(drills/[^/"]+/)"`);

/** Bodies of strips, which every page that shows one draws at its end. */
const BODY = /<g id="(body-\w+)">.*?(?=\n<g id="body-|<\/defs>)/gs;

/** Bodies that many pages draw: each becomes a source of its own. */
function bodiesIn(texts: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
	const seen = new Map<string, { body: string; times: number }>();
	for (const text of texts.values()) {
		for (const [body, id = ""] of text.matchAll(BODY)) {
			const known = seen.get(id);
			if (known === undefined) seen.set(id, { body, times: 1 });
			else known.times++;
		}
	}
	const often = [...seen].filter(([, { times }]) => times >= OFTEN);
	return new Map(often.map(([id, { body }]) => [`bodies/${id}/#`, body]));
}

/** Lines about a drill that many pages list alike: each becomes a source of its own, beside its drill. */
function linesIn(texts: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
	const seen = new Map<string, { drill: string; times: number }>();
	for (const [path, text] of texts) {
		if (!path.endsWith(".html") || LATER.has(path.split("/")[0] ?? "")) continue;
		for (const [line] of text.matchAll(/<li[ >](?:(?!<\/?li[ >]).)*<\/li>/gs)) {
			const drill = DRILL_LINK.exec(line)?.[1];
			if (drill === undefined) continue;
			const known = seen.get(line);
			if (known === undefined) seen.set(line, { drill, times: 1 });
			else known.times++;
		}
	}
	// Of a drill's lines the most frequent one: others differ from it in a word or two.
	const most = new Map<string, { line: string; times: number }>();
	for (const [line, { drill, times }] of [...seen].sort(([a], [b]) => (a < b ? -1 : 1))) {
		if (times >= OFTEN && times > (most.get(drill)?.times ?? 0)) most.set(drill, { line, times });
	}
	return new Map(Array.from(most, ([drill, { line }]) => [`${drill}#`, line]));
}

function rankOf(path: string): number | undefined {
	if (path === FRAME_PAGE) return 0;
	if (path.includes("#")) return 1;
	return /^drills\/[^/]+\/index\.html$/.test(path) ? 2 : undefined;
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
	// Lists of drills are large, and would come with every drill that shares their pack.
	const family = folders.length > 1 ? `${first}/${second}` : first;
	return `pages ${hashOf(family) % Math.ceil(slots / 2)}`;
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

/** By path, so that what is alike stands together; what is made of others after them. */
function byUse(a: { readonly path: string }, b: { readonly path: string }): number {
	const sheet = (path: string) => Number(path.startsWith("classes/"));
	return sheet(a.path) - sheet(b.path) || (a.path < b.path ? -1 : 1);
}

interface Known {
	readonly key: string;
	/** Numbers of the tokens' texts. */
	readonly ids: readonly number[];
	readonly starts: readonly number[];
	readonly length: number;
	/** Of a source that is whole. */
	sections?: Sections;
}

interface Place {
	readonly file: Known;
	readonly token: number;
}

/** Tokens that stand there one after the other. */
interface Run extends Place {
	readonly count: number;
}

/** Finds runs of tokens that came before. */
class Matcher {
	readonly #keys: ReadonlyMap<string, string>;
	readonly #ids = new Map<string, number>();
	readonly #ofSources = new Map<number, Place[]>();
	#ofPack = new Map<number, Place[]>();

	constructor(keys: ReadonlyMap<string, string>) {
		this.#keys = keys;
	}

	/** What came before in other packs is no longer to be copied, unless it was a source. */
	forgetPack(): void {
		this.#ofPack = new Map();
	}

	/** The parts of a file; it can be copied from afterwards. */
	match(path: string, text: string, isSource: boolean): readonly string[] {
		const tokens = { text, starts: new Starts() };
		tokens.starts.cut(text, 0);
		const starts = Array.from({ length: tokens.starts.length }, (_, i) => tokens.starts.at(i) ?? 0);
		const ids = starts.map((start, i) => this.#idOf(text.slice(start, starts[i + 1])));
		const here: Known = { key: this.#keys.get(path) ?? "", ids, starts, length: text.length };
		const known = isSource ? this.#ofSources : this.#ofPack;
		const parts: string[] = [];
		let run: Run | undefined;
		let before: Copy | undefined;
		let literal = 0;
		for (let i = 0; i < ids.length; ) {
			const longest = this.#longest(here, i, run);
			remember(known, beginning(ids, i), { file: here, token: i });
			if (longest === undefined) {
				i++;
				continue;
			}
			const { file, token, count } = longest;
			const copy = { key: file.key, from: file.sections?.nameOf(token) ?? token, count };
			parts.push(text.slice(literal, starts[i]), writeCopy(copy, before));
			run = longest;
			before = copy;
			i += count;
			literal = starts[i] ?? text.length;
		}
		parts.push(text.slice(literal));
		if (isSource) here.sections = new Sections(tokens);
		return parts;
	}

	#longest(here: Known, at: number, before: Run | undefined): Run | undefined {
		const key = beginning(here.ids, at);
		let best: Run | undefined;
		let most = LEAST - 1;
		for (const places of [this.#ofPack.get(key), this.#ofSources.get(key)]) {
			for (const { file, token } of places ?? []) {
				let count = 0;
				// Of the file itself, only what is written already; of a source, not beyond a section, since
				// what grows at its end would then part the run.
				const end = file === here ? at : (file.sections?.endOf(token) ?? file.ids.length);
				const limit = Math.min(end - token, here.ids.length - at);
				while (count < limit && file.ids[token + count] === here.ids[at + count]) count++;
				const length = (here.starts[at + count] ?? here.length) - (here.starts[at] ?? 0);
				// To go on where the copy before ended is the shortest to write.
				const follows = before?.file === file && token >= before.token + before.count ? 0.5 : 0;
				if (length + follows > most) {
					most = length + follows;
					best = { file, token, count };
				}
			}
		}
		return best;
	}

	#idOf(token: string): number {
		let id = this.#ids.get(token);
		if (id === undefined) {
			id = this.#ids.size + 1;
			this.#ids.set(token, id);
		}
		return id;
	}
}

/** Two tokens as one number. */
function beginning(ids: readonly number[], at: number): number {
	return (ids[at] ?? 0) * 2 ** 26 + (ids[at + 1] ?? 0);
}

function remember(places: Map<number, Place[]>, key: number, place: Place): void {
	const known = places.get(key);
	if (known === undefined) places.set(key, [place]);
	else if (known.length < MOST_PLACES) known.push(place);
}
