/**
 * Renames ids everywhere: the file or the entry itself, every field that names it, every link in a
 * text, and the folder of an apparatus's drills. Several at once may trade places.
 */

import type { IdKind } from "../link/reference-fields.ts";
import { type Id, isPageKind, type LinkKind } from "../model.ts";
import { type ClubTexts, idOf, kindOf, type Splice, spliced } from "./club-texts.ts";
import { idPlaces, type KnownIds, knownIds, linkTarget, linkWords } from "./references.ts";

export interface Renaming {
	readonly kind: IdKind;
	readonly from: Id;
	readonly to: Id;
}

/** The club's texts with ids renamed; texts that name none of them are the same strings. */
export function renameIds(texts: ClubTexts, renamings: readonly Renaming[]): ClubTexts {
	const before = knownIds(texts);
	const after = renamedIds(before, renamings);
	const newId = (kind: IdKind, id: Id): Id =>
		renamings.find((one) => one.kind === kind && one.from === id)?.to ?? id;
	const result = new Map<string, string>();
	for (const [path, text] of texts) {
		const splices: Splice[] = [];
		for (const place of idPlaces(path, text, before)) {
			const id = newId(place.kind, place.id);
			const words = place.isLink
				? link(place.written, place.kind as LinkKind, id, after)
				: scalar(place.written, id);
			if (words !== place.written) splices.push({ start: place.start, end: place.end, text: words });
		}
		result.set(newPath(path, newId), spliced(text, splices));
	}
	return result;
}

function renamedIds(before: KnownIds, renamings: readonly Renaming[]): KnownIds {
	return new Map(
		Array.from(before, ([kind, ids]) => {
			const own = renamings.filter((one) => one.kind === kind);
			const gone = new Set(own.map(({ from }) => from));
			return [kind, new Set([...[...ids].filter((id) => !gone.has(id)), ...own.map(({ to }) => to)])];
		}),
	);
}

/** The written reference of a link, with the spaces around it, where it still leads to the same thing. */
function link(written: string, kind: LinkKind, id: Id, after: KnownIds): string {
	const [, lead = "", reference = "", trail = ""] = /^(\s*)(.*?)(\s*)$/.exec(written) ?? [];
	const now = linkTarget(reference, after);
	if (now?.kind === kind && now.id === id) return written;
	return lead + (reference.includes(":") ? `${kind}:${id}` : linkWords(kind, id, after)) + trail;
}

/** Quotes stay; an id that YAML would read as something else than text gets some. */
function scalar(written: string, id: Id): string {
	const quote = /^["']/.exec(written)?.[0];
	if (quote !== undefined) return quote + id + quote;
	return /^(true|false|null)$/.test(id) ? `"${id}"` : id;
}

function newPath(path: string, newId: (kind: IdKind, id: Id) => Id): string {
	const kind = kindOf(path);
	const parts = path.split("/");
	if (kind === "drill" && parts.length === 4) parts[2] = newId("apparatus", parts[2] ?? "");
	if (kind !== undefined && isPageKind(kind)) parts[parts.length - 1] = `${newId(kind, idOf(path))}.md`;
	return parts.join("/");
}
