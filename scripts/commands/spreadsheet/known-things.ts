/**
 * What words of a spreadsheet stand for: the club's own things, and the entries and drills of the sheets.
 */

import { type FileKind, type Id, LIST_FILES } from "../../model.ts";
import { nearestName } from "../../read/nearest-name.ts";
import { idFrom } from "../../validate/judge-data.ts";
import { ID_PATTERN } from "../../validate/schemas.ts";
import { fold, type RefKind } from "./cells.ts";
import type { WrittenFile } from "./club-sheets.ts";
import { foldHeading } from "./columns.ts";
import type { Mapping } from "./find-table.ts";
import { otherNamesOf } from "./more-headings.ts";

type Fields = Readonly<Record<string, unknown>>;

/** Words longer than these name nothing. */
const LONGEST_NAME = 200;

/** What words stand for: ids, names and aliases of each kind, without case, accents and plurals. */
export class KnownThings {
	readonly #words = new Map<RefKind, Map<string, Id>>();
	readonly #ids = new Map<RefKind, Set<Id>>();
	readonly #rows = new Map<Id, string>();
	/** Kinds that are listed in a file of their own, so that no new id may be made. */
	readonly #closed = new Set<RefKind>(["drill"]);
	readonly #mapping: Mapping;

	constructor(club: readonly WrittenFile[], mapping: Mapping) {
		this.#mapping = mapping;
		for (const [kind, file] of Object.entries(LIST_FILES) as [RefKind, FileKind][]) {
			const own = club.find((f) => f.kind === file);
			if (own === undefined || !Array.isArray(own.data)) continue;
			this.close(kind);
			for (const { id, name, aliases } of own.data as readonly Fields[]) {
				this.learn(kind, String(id), [String(name), ...((aliases as readonly string[] | undefined) ?? [])]);
			}
		}
		for (const { kind, id, data } of club) {
			if (kind === "drill") this.learn("drill", id, [String((data as Fields | null)?.title ?? "")]);
		}
	}

	close(kind: RefKind): void {
		this.#closed.add(kind);
	}

	learn(kind: RefKind, id: Id, names: readonly string[], row?: string): void {
		const words = this.#words.get(kind) ?? new Map<string, Id>();
		this.#words.set(kind, words);
		this.#ids.set(kind, (this.#ids.get(kind) ?? new Set()).add(id));
		for (const name of [id, ...names]) {
			const folded = foldHeading(name);
			// The first to have a name keeps it.
			if (folded !== "" && !words.has(folded)) words.set(folded, id);
		}
		if (row !== undefined) this.#rows.set(id, row);
	}

	/** Where in the sheets a drill comes from. */
	rowOf(id: Id): string | undefined {
		return this.#rows.get(id);
	}

	nearest(kind: RefKind, words: string): string | undefined {
		const known = this.#words.get(kind) ?? new Map<string, Id>();
		const folded = foldHeading(words);
		// A word cut short is nearer than one misspelt: Tramp for Trampette.
		const longer = folded.length < 3 ? [] : [...known.keys()].filter((name) => name.startsWith(folded));
		const name = longer.length === 1 ? longer[0] : nearestName(folded, known.keys());
		return name === undefined ? undefined : known.get(name);
	}

	/** A thing that is there already, by an id, a name, a usual other name, or a range of levels. */
	find(kind: RefKind, words: string): readonly Id[] | undefined {
		if (words.length > LONGEST_NAME || words.trim() === "") return undefined;
		const said = this.#said(kind, words);
		if (said !== undefined) return said.length === 0 ? undefined : said;
		if (kind === "level") return this.#levels(foldHeading(words), fold(words), this.all(kind));
		if (kind !== "apparatus") return undefined;
		const others = otherNamesOf(fold(words)).flatMap((name) => {
			const id = this.#words.get(kind)?.get(foldHeading(name));
			return id === undefined ? [] : [id];
		});
		const several = new Set(others);
		return several.size === 1 ? [...several] : undefined;
	}

	all(kind: RefKind): readonly Id[] {
		return [...(this.#ids.get(kind) ?? [])];
	}

	refer(kind: RefKind, words: string): readonly Id[] | undefined {
		if (words.length > LONGEST_NAME) return undefined;
		if (kind === "skill or drill") {
			// An id before a name, a skill before a drill; only a skill may be made.
			const knows = (one: RefKind): boolean => this.#ids.get(one)?.has(words) === true;
			const names = (one: RefKind): boolean => this.#words.get(one)?.has(foldHeading(words)) === true;
			const isDrill = !knows("skill") && (knows("drill") || (!names("skill") && names("drill")));
			return this.refer(isDrill ? "drill" : "skill", words);
		}
		const said = this.#said(kind, words) ?? this.find(kind, words);
		if (said !== undefined) return said;
		// Where a club has no file for a kind, an id stands for a thing; a list of words is none.
		if (
			this.#closed.has(kind) ||
			words.length > 40 ||
			(/[/&+]|\sand\s/i.test(words) && !ID_PATTERN.test(words))
		)
			return undefined;
		const made = ID_PATTERN.test(words) ? words : idFrom(words);
		if (made === undefined) return undefined;
		this.learn(kind, made, [words]);
		return [made];
	}

	/** What an id, the mapping or a name says outright; none where the mapping says that it is nothing. */
	#said(kind: RefKind, words: string): readonly Id[] | undefined {
		if (this.#ids.get(kind)?.has(words) === true) return [words];
		const mapped = this.#mapping.values.get(kind)?.get(fold(words));
		if (mapped !== undefined) return mapped === "" ? [] : mapped.split(/[;,]\s*/);
		const named = this.#words.get(kind)?.get(foldHeading(words));
		return named === undefined ? undefined : [named];
	}

	/** All levels; levels from one to another; a level by its first letter and number. */
	#levels(folded: string, words: string, all: readonly Id[]): readonly Id[] | undefined {
		if (all.length > 0 && /^(all|all level|everyone|everybody|whole group)$/.test(folded)) return all;
		const short = this.#one(words, all);
		if (short !== undefined) return [short];
		const range = /^(\D*?)\s*(\d+)\s*(?:to\s)?\s*(?:\D*?)\s*(\d+)$/.exec(words);
		if (range === null) return undefined;
		const first = this.#one(`${range[1]} ${range[2]}`, all);
		const last = this.#one(`${range[1]} ${range[3]}`, all);
		if (first === undefined || last === undefined) return undefined;
		const [from, to] = [all.indexOf(first), all.indexOf(last)];
		return from <= to ? all.slice(from, to + 1) : undefined;
	}

	/** One level by its name, or by its first letter and number. */
	#one(words: string, all: readonly Id[]): Id | undefined {
		const found = this.#words.get("level")?.get(foldHeading(words));
		if (found !== undefined) return found;
		const short = /^(\p{L})\s*(\d+)$/u.exec(fold(words));
		const fitting = all.filter(
			(id) => short !== null && new RegExp(`^${short[1]}[a-z]*-${short[2]}$`).test(id),
		);
		return fitting.length === 1 ? fitting[0] : undefined;
	}
}
