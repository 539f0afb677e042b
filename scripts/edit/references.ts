/**
 * Where a club's files name things by their ids: in the fields of front matter and data files, as keys
 * of maps, and in the `[[links]]` of texts.
 */

import { onceEach } from "../compute/get-or-make.ts";
import { findLinks } from "../link/link-syntax.ts";
import { ID_KINDS, type IdKind, kindsOfField } from "../link/reference-fields.ts";
import { type FileKind, type Id, LINK_KINDS, type LinkKind } from "../model.ts";
import { type ClubTexts, idOf, kindOf } from "./club-texts.ts";
import { placeFile } from "./yaml-places.ts";

/** One place in a text where an id stands. */
export interface IdPlace {
	readonly kind: IdKind;
	readonly id: Id;
	readonly start: number;
	readonly end: number;
	/** What stands there: an id, perhaps in quotes, or what stands before the bar of a link. */
	readonly written: string;
	readonly isLink: boolean;
}

export type KnownIds = ReadonlyMap<IdKind, ReadonlySet<Id>>;

const PAGE_KINDS: readonly FileKind[] = ["drill", "week", "guide"];

/**
 * Every place of a text that names an id. A link is given the kind it leads to among the known ids;
 * one that leads nowhere is left out.
 */
export function idPlaces(path: string, text: string, known: KnownIds): readonly IdPlace[] {
	const kind = kindOf(path);
	if (kind === undefined) return [];
	const { scalars, body } = placeFile(path, text);
	const places: IdPlace[] = [];
	for (const { path: at, isKey, value, start, end } of scalars) {
		const kinds = kindsOfField(kind, at, isKey);
		// Where two kinds of things may stand, it is the one that has the id.
		const found = kinds.find((one) => known.get(one)?.has(value) === true) ?? kinds[0];
		if (found !== undefined) {
			places.push({ kind: found, id: value, start, end, written: text.slice(start, end), isLink: false });
		} else if (!isKey && value.includes("[[")) places.push(...linkPlaces(text, start, end, known));
	}
	return [...places, ...linkPlaces(text, body, text.length, known)];
}

/** The ids that a club's files give: by names of files, and by the `id` of entries. All of them are taken apart once. */
export const knownIds = onceEach((texts: ClubTexts): KnownIds => {
	const known = new Map<IdKind, Set<Id>>(ID_KINDS.map((kind) => [kind, new Set()]));
	const add = (kind: IdKind, id: Id) => known.get(kind)?.add(id);
	for (const path of texts.keys()) {
		const kind = kindOf(path);
		if (kind !== undefined && PAGE_KINDS.includes(kind)) add(kind as IdKind, idOf(path));
	}
	// Where a drill or a skill may stand, a drill that has a file is no new skill.
	const drills: KnownIds = new Map([["drill", known.get("drill") ?? new Set<Id>()]]);
	for (const [path, text] of texts) {
		for (const place of idPlaces(path, text, drills)) {
			// A club without lists has the ids that its drills use; drills and guides are their files alone.
			if (place.kind !== "drill" && place.kind !== "week" && place.kind !== "guide")
				add(place.kind, place.id);
		}
	}
	return known;
});

/** The kind and id that a link's reference leads to: `kind:id`, or the first kind that has the id. */
export function linkTarget(
	reference: string,
	known: KnownIds,
): { readonly kind: IdKind; readonly id: Id } | undefined {
	const [before = "", after] = reference.split(":");
	if (after !== undefined) {
		const kind = LINK_KINDS.find((one) => one === before.trim());
		const id = after.trim();
		return kind !== undefined && known.get(kind)?.has(id) === true ? { kind, id } : undefined;
	}
	const id = before.trim();
	const kind = LINK_KINDS.find((one) => known.get(one)?.has(id) === true);
	return kind && { kind, id };
}

function linkPlaces(text: string, from: number, to: number, known: KnownIds): readonly IdPlace[] {
	const part = text.slice(from, to);
	const starts = [0];
	for (let i = part.indexOf("\n"); i >= 0; i = part.indexOf("\n", i + 1)) starts.push(i + 1);
	return findLinks(part).flatMap(({ reference, line, column }) => {
		const target = linkTarget(reference, known);
		if (target === undefined) return [];
		const inner = from + (starts[line] ?? 0) + column + 2;
		const written = /^[^|\]]*/.exec(text.slice(inner))?.[0] ?? "";
		return [{ ...target, start: inner, end: inner + written.length, written, isLink: true }];
	});
}

/** Links by kind that a reader would write: `kind:id` only where the id alone leads elsewhere. */
export function linkWords(kind: LinkKind, id: Id, known: KnownIds): string {
	const alone = linkTarget(id, known);
	return alone?.kind === kind ? id : `${kind}:${id}`;
}
