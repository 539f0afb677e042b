/**
 * A club's files and those of its libraries as one: source files → source files, as if all were written in
 * the club's folder.
 *
 *   name     what the club's own files name, and what `take` lists
 *   follow   each of these is taken of the libraries that have it, and what it names itself is followed in
 *            turn; a page that nobody names is not even read
 *   join     where club and library have the same id the club's fields come before the library's
 *   trim     levels and apparatus are the club's: what a library says for others is left out, and so is
 *            what its pages say of drills that are for nobody here
 *
 * Plans, terms, targets and words of a library are its own, and not taken.
 */

import { sha256 } from "../files/hash.ts";
import { parseReference } from "../link/join-records.ts";
import { findLinks } from "../link/link-syntax.ts";
import { type IdKind, type Reference, referencesIn } from "../link/reference-fields.ts";
import { textsOf } from "../link/texts-of.ts";
import {
	type DataKind,
	type FileKind,
	type Id,
	LINK_KINDS,
	LIST_FILES,
	type Origin,
	type SourceFile,
} from "../model.ts";
import type { Problem } from "../problems.ts";
import { type Data, isData } from "../read/data.ts";
import type { ReadClub } from "../read/read-club.ts";
import { isWhole, joinPages, joinParts, listFile, type Part, partsOf, withData } from "./join-files.ts";
import { type Layer, type LayerCaches, layersOf } from "./layers.ts";

/** Lists whose entries are taken one by one, as they are named. */
const LISTS: ReadonlyMap<IdKind, DataKind> = new Map(
	Object.entries(LIST_FILES) as [keyof typeof LIST_FILES, DataKind][],
);

/** Which of these there are is said by the club, where it has a list of its own. */
const CLUBS_OWN: ReadonlySet<DataKind> = new Set<DataKind>(["levels", "apparatus"]);

export interface JoinedClub {
	readonly read: ReadClub;
	/** Where things come from that a library has, by `kind:id`. */
	readonly origins: ReadonlyMap<string, Origin>;
	/** The libraries' folders, nearest first. */
	readonly libraries: readonly string[];
	/** What libraries say of each thing that is taken, before the club's own word; by `kind:id`. */
	readonly theirs: ReadonlyMap<string, Theirs>;
}

/** A thing as the libraries have it, trimmed to the club. */
export interface Theirs {
	/** The nearest library that says something of it. */
	readonly library: string;
	readonly data: Data;
	/** The text behind a page's front matter. */
	readonly body: string;
}

/** Joins what was read with the libraries that the club file names; reads nothing where it names none. */
export function joinLibraries(read: ReadClub, clubDir: string, caches: LayerCaches = new Map()): JoinedClub {
	const clubFile = read.files.find(({ kind }) => kind === "club");
	const { layers, problems } = layersOf(clubDir, clubFile, caches);
	if (layers.length === 0) {
		return {
			read: { ...read, problems: [...read.problems, ...problems] },
			origins: new Map(),
			libraries: [],
			theirs: new Map(),
		};
	}
	const joiner = new Joiner(read.files, layers);
	joiner.follow();
	return {
		read: {
			...read,
			files: joiner.files(),
			problems: [...read.problems, ...problems, ...layers.flatMap((layer) => taken(layer.faults()))],
			fingerprint: sha256([read.fingerprint, ...joiner.said()]),
		},
		origins: joiner.origins,
		libraries: layers.map(({ dir }) => dir),
		theirs: joiner.theirs,
	};
}

/** A library's files are all read for this club, so what is wrong with one of them is told once. */
function taken(faults: readonly Problem[]): readonly Problem[] {
	return [...new Map(faults.map((one) => [JSON.stringify([one.code, one.place]), one])).values()];
}

class Joiner {
	readonly origins = new Map<string, Origin>();
	readonly theirs = new Map<string, Theirs>();
	readonly #own: readonly SourceFile[];
	readonly #layers: readonly Layer[];
	/** Pages by `drill:id`, entries by `shape:id`. */
	readonly #pages = new Map<string, SourceFile>();
	readonly #parts = new Map<string, Part>();
	/** Entries of each layer's list, the club's own first. */
	readonly #lists = new Map<DataKind, readonly ReadonlyMap<Id, Part>[]>();
	readonly #seen = new Set<string>();
	readonly #forUs = new Map<Id, boolean>();
	readonly #queue: (readonly [kinds: readonly IdKind[], id: Id])[] = [];

	constructor(own: readonly SourceFile[], layers: readonly Layer[]) {
		this.#own = own;
		this.#layers = layers;
	}

	/** Takes everything that the club's own files lead to. */
	follow(): void {
		for (const file of this.#own) {
			this.#enqueue(file);
			if (file.kind === "drill" || file.kind === "guide") this.#queue.push([[file.kind], file.id]);
		}
		for (const [kind, list] of LISTS) {
			const [own, ...others] = this.#listsOf(list);
			const ids =
				own?.size === 0 && CLUBS_OWN.has(list)
					? others.flatMap((one) => [...one.keys()])
					: [...(own?.keys() ?? [])];
			for (const id of ids) this.#queue.push([[kind], id]);
		}
		for (const layer of this.#layers) {
			if (layer.take === "all") {
				for (const id of layer.pages("guide")) this.#queue.push([["guide"], id]);
				for (const id of layer.pages("drill")) if (this.#isForUs(id)) this.#queue.push([["drill"], id]);
			} else for (const one of layer.take) this.#queue.push(named(one));
		}
		for (let next = this.#queue.pop(); next !== undefined; next = this.#queue.pop()) {
			const [kinds, id] = next;
			for (const kind of kinds) if (this.#take(kind, id)) break;
		}
	}

	/** All files: those of the club that libraries do not touch, and what came of joining. */
	files(): readonly SourceFile[] {
		const lists = [...new Set(LISTS.values())].flatMap((list) => this.#listFile(list));
		const pages = [...this.#pages.values()];
		const joined = new Set([...lists, ...pages].map(({ kind, id }) => `${kind}:${id}`));
		const others = this.#own.filter(({ kind, id }) => !joined.has(`${kind}:${id}`));
		return [...others, ...lists, ...pages];
	}

	/** All that was taken, for the edition. */
	said(): readonly string[] {
		const pages = [...this.#pages].map(([key, { data, body }]) => JSON.stringify([key, data, body]));
		const parts = [...this.#parts].map(([key, { data }]) => JSON.stringify([key, data]));
		return [...pages, ...parts].sort();
	}

	/** Takes a thing, if anybody has it; says whether somebody does. */
	#take(kind: IdKind, id: Id): boolean {
		const key = `${kind}:${id}`;
		if (this.#seen.has(key)) return true;
		const list = LISTS.get(kind);
		const found =
			kind === "drill" || kind === "guide"
				? this.#takePage(kind, id)
				: list !== undefined && this.#takePart(kind, list, id);
		if (found) this.#seen.add(key);
		return found;
	}

	#takePage(kind: "drill" | "guide", id: Id): boolean {
		const own = this.#own.find((file) => file.kind === kind && file.id === id);
		if (own !== undefined && isWhole(own.data)) {
			this.#pages.set(`${kind}:${id}`, withData(own, withoutMark(own.data)));
			return true;
		}
		const { joined, used } = this.#ofLibraries(kind, id);
		if (joined === undefined) return own !== undefined;
		const trimmed = withData(
			joined,
			this.#trimmed(kind, withoutMark(joined.data)),
			this.#unlinked(joined.body),
		);
		const data = trimmed.data as Data;
		this.theirs.set(`${kind}:${id}`, { library: used[0]?.layer.name ?? "", data, body: trimmed.body });
		const page = own === undefined ? trimmed : joinPages(own, trimmed);
		this.#pages.set(`${kind}:${id}`, page);
		this.#note(
			`${kind}:${id}`,
			used.map(({ layer, file }) => ({ layer, data: file.data })),
			own?.data,
			own?.body,
		);
		this.#enqueue(page);
		return true;
	}

	/** A page as the libraries have it, and which of them. */
	#ofLibraries(kind: "drill" | "guide", id: Id) {
		const having = this.#layers.flatMap((layer) => {
			const file = layer.page(kind, id);
			return file === undefined ? [] : [{ layer, file }];
		});
		const wholeAt = having.findIndex(({ file }) => isWhole(file.data));
		const used = wholeAt < 0 ? having : having.slice(0, wholeAt + 1);
		const joined = used
			.map(({ file }) => file)
			.reduceRight<SourceFile | undefined>(
				(under, file) => (under === undefined ? file : joinPages(file, under)),
				undefined,
			);
		return { joined, used };
	}

	/** Whether a drill is for one of the club's levels, and done where it has something to do it on. */
	#isForUs(id: Id): boolean {
		const known = this.#forUs.get(id);
		if (known !== undefined) return known;
		const { joined } = this.#ofLibraries("drill", id);
		const data = joined?.data;
		const fits =
			!isData(data) ||
			(hasSome(data.levels, this.#idsOf("levels")) && hasSome(data.apparatus, this.#idsOf("apparatus")));
		const is =
			this.#own.some((file) => file.kind === "drill" && file.id === id) || (joined !== undefined && fits);
		this.#forUs.set(id, is);
		return is;
	}

	/** Whether somebody has this drill, and not for us. */
	#isForOthers(id: unknown): boolean {
		const name = String(id);
		return this.#layers.some((layer) => layer.page("drill", name) !== undefined) && !this.#isForUs(name);
	}

	/** A text whose links to drills that are for nobody here are plain words. */
	#unlinked(text: string): string {
		if (!text.includes("[[")) return text;
		return text.replace(
			/\[\[([^[\]|\n]+)(?:\|([^[\]\n]+))?\]\]/g,
			(link, reference: string, words?: string) => {
				const { kind = "drill", id } = parseReference(reference.trim());
				if (kind !== "drill" || !this.#isForOthers(id)) return link;
				const { joined } = this.#ofLibraries("drill", id);
				return words ?? (isData(joined?.data) ? String(joined.data.title ?? id) : id);
			},
		);
	}

	/** The same for all texts of a page's fields. */
	#unlinkedIn(value: unknown): unknown {
		if (typeof value === "string") return this.#unlinked(value);
		if (Array.isArray(value)) return value.map((one) => this.#unlinkedIn(one));
		if (!isData(value)) return value;
		return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, this.#unlinkedIn(one)]));
	}

	#takePart(kind: IdKind, list: DataKind, id: Id): boolean {
		const [own, ...others] = this.#listsOf(list);
		const mine = own?.get(id);
		// A list of the club's own says which levels and apparatus there are.
		if (mine === undefined && CLUBS_OWN.has(list) && (own?.size ?? 0) > 0) return false;
		const having = others.flatMap((parts, i) => {
			const part = parts.get(id);
			const layer = this.#layers[i];
			return part === undefined || layer === undefined ? [] : [{ layer, part }];
		});
		const under = having
			.map(({ part }) => part)
			.reduceRight<Part | undefined>(
				(below, part) => (below === undefined ? part : joinParts(part, below)),
				undefined,
			);
		if (under === undefined) {
			if (mine === undefined) return false;
			this.#parts.set(`${kind}:${id}`, mine);
			return true;
		}
		const fitting = { ...under, data: this.#trimmed(list, under.data) as Data };
		this.theirs.set(`${kind}:${id}`, { library: having[0]?.layer.name ?? "", data: fitting.data, body: "" });
		const part = mine === undefined ? fitting : joinParts(mine, fitting);
		this.#parts.set(`${kind}:${id}`, part);
		if (mine === undefined || !isWhole(mine.data)) {
			this.#note(
				`${kind}:${id}`,
				having.map(({ layer, part: { data } }) => ({ layer, data })),
				mine?.data,
			);
		}
		const [first] = part.from;
		if (first !== undefined) this.#enqueue(listFile(list, first.file, [part]));
		return true;
	}

	/** The entries of a kind in each layer, the club's first. */
	#listsOf(list: DataKind): readonly ReadonlyMap<Id, Part>[] {
		const known = this.#lists.get(list);
		if (known !== undefined) return known;
		const own = this.#own.find(({ kind }) => kind === list);
		const files = [own, ...this.#layers.map((layer) => layer.data(list))];
		const lists = files.map(
			(file) => new Map((file === undefined ? [] : partsOf(file)).map((part) => [part.id, part])),
		);
		this.#lists.set(list, lists);
		return lists;
	}

	/** The joined list of a kind: the club's order, then the libraries'. */
	#listFile(list: DataKind): readonly SourceFile[] {
		const kind = [...LISTS].find(([, one]) => one === list)?.[0] ?? "";
		const lists = this.#listsOf(list);
		const own = this.#own.find((file) => file.kind === list);
		const ids = [...new Set(lists.flatMap((parts) => [...parts.keys()]))];
		const parts = ids.flatMap((id) => this.#parts.get(`${kind}:${id}`) ?? []);
		const first = own ?? parts[0]?.from[0]?.file;
		// A list whose form is wrong is left to the schema.
		if (first === undefined || parts.length === 0 || (own !== undefined && !isListOfThings(own.data)))
			return [];
		return [listFile(list, first, parts)];
	}

	/** What a library says for levels and apparatus that the club has not, left out. */
	#trimmed(kind: FileKind, data: unknown): unknown {
		if (!isData(data)) return data;
		const levels = this.#idsOf("levels");
		const apparatus = this.#idsOf("apparatus");
		const trim: Record<string, unknown> = { ...data };
		if (kind === "drill" || kind === "skills") {
			trim.levels = onlyKnown(data.levels, levels);
			trim.apparatus = onlyKnown(data.apparatus, apparatus);
		}
		if (kind === "drill" && isData(data.heights)) {
			trim.heights = Object.fromEntries(
				Object.entries(data.heights).map(([what, height]) => [what, onlyKnown(height, levels)]),
			);
		}
		if (kind === "drill") {
			const others = (one: unknown) => this.#isForOthers(isData(one) ? one.drill : one);
			for (const field of ["after", "ready", "elements"]) {
				const list = data[field];
				if (Array.isArray(list) && list.some(others)) trim[field] = list.filter((one) => !others(one));
			}
			if (data.partner !== undefined && others(data.partner)) trim.partner = undefined;
		}
		const said = Object.entries(trim).filter(([, value]) => value !== undefined);
		return Object.fromEntries(
			said.map(([field, value]) => [field, this.#hasLinks(value) ? this.#unlinkedIn(value) : value]),
		);
	}

	#hasLinks(value: unknown): boolean {
		return typeof value === "object" ? JSON.stringify(value).includes("[[") : String(value).includes("[[");
	}

	/** The ids that the club's own list has, else the libraries'; undefined where nobody has a list. */
	#idsOf(list: DataKind): ReadonlySet<Id> | undefined {
		const having = this.#listsOf(list).find((parts) => parts.size > 0);
		return having === undefined ? undefined : new Set(having.keys());
	}

	#note(
		key: string,
		having: readonly { readonly layer: Layer; readonly data: unknown }[],
		own: unknown,
		body = "",
	): void {
		const fields = isData(own) ? Object.keys(own).filter((field) => field !== "id") : [];
		this.origins.set(key, {
			from: having.map(({ layer: { name, licence } }) => ({
				name,
				...(licence === undefined ? {} : { licence }),
			})),
			changed: body.trim() === "" ? fields : [...fields, "text"],
		});
	}

	#enqueue(file: SourceFile): void {
		for (const { kinds, id } of referencesIn(file) as readonly Reference[]) this.#queue.push([kinds, id]);
		for (const { text } of textsOf(file))
			for (const { reference } of findLinks(text)) this.#queue.push(named(reference));
	}
}

/** What a text between `[[` and `]]`, or in `take`, may name. */
function named(reference: string): readonly [readonly IdKind[], Id] {
	const { kind, id } = parseReference(reference);
	return [kind === undefined ? LINK_KINDS : [kind], id];
}

function withoutMark(data: unknown): unknown {
	return isData(data)
		? Object.fromEntries(Object.entries(data).filter(([field]) => field !== "from-library"))
		: data;
}

function isListOfThings(data: unknown): boolean {
	return Array.isArray(data) && data.every(isData);
}

/** Whether one of these ids is known, or it cannot be told. */
function hasSome(value: unknown, known: ReadonlySet<Id> | undefined): boolean {
	if (known === undefined) return true;
	const ids = Array.isArray(value) ? value : isData(value) ? Object.keys(value) : [value];
	return ids.some((id) => known.has(String(id)));
}

/** Ids, a list of them or a map by them, without those that are not known; all of them where none is. */
function onlyKnown(value: unknown, known: ReadonlySet<Id> | undefined): unknown {
	if (known === undefined) return value;
	if (Array.isArray(value)) {
		const left = value.filter((id) => known.has(String(id)));
		return left.length === value.length || left.length === 0 ? value : left;
	}
	if (!isData(value)) return value;
	const left = Object.entries(value).filter(([id]) => known.has(id));
	return left.length === Object.keys(value).length || left.length === 0 ? value : Object.fromEntries(left);
}
