/**
 * Editions: what a printed binder was, kept beside it so that a later one can say which leaves to
 * change. Pure, apart from reading the file.
 *
 *   1. an edition lists sections and leaves in their order; a leaf is two pages, known by its part's
 *      label and its place in that part, with the hash of what is printed on it
 *   2. a leaf carries at its foot the edition in which it last changed, as leaves of loose-leaf
 *      manuals do: printed since an earlier edition, an unchanged leaf keeps the one it had, so it
 *      comes out as it lies in the binder, and only a leaf that says something else is replaced
 *   3. the number of another page is a part of what is printed: where it shifts, the leaf changes
 *   4. the cover says which edition the binder is; it changes when any leaf does, and only then
 *
 * The same text is attached to the PDF, so that an old binder's file is enough to go on from.
 */

import { Ajv, type ValidateFunction } from "ajv";
import type { Sheets } from "../../layouts/sheets/section.ts";
import { readGiven } from "../files/given.ts";
import { getDocument } from "../pdf/pdf-library.ts";
import { escapeHtml, type Html, raw } from "../views/html.ts";
import {
	EDITION_FORMAT,
	type Edition,
	type EditionLeaf,
	type EditionMark,
	type Update,
} from "../views/sheets/edition.ts";
import schema from "./edition.schema.json" with { type: "json" };
import { matchSequences } from "./match-sequences.ts";

/** The name of an edition attached to a PDF. */
export const ATTACHMENT = "edition.json";

/** The leaves in which two editions differ. Moved leaves are taken out and put in again. */
export function updateBetween(earlier: Edition, now: Pick<Edition, "leaves">): Update {
	const key = ({ part, number, hash, issue }: EditionLeaf) => `${part}\n${number}\n${hash}\n${issue}`;
	const matches = matchSequences(earlier.leaves.map(key), now.leaves.map(key));
	const kept = new Set(matches);
	return {
		out: earlier.leaves.filter((_, position) => !kept.has(position)),
		in: now.leaves.flatMap((leaf, position) =>
			matches[position] === undefined ? [{ leaf, position, after: now.leaves[position - 1] }] : [],
		),
	};
}

/** The leaf's place in the binder, whatever is printed on it. */
function leafKey({ part, number }: Pick<EditionLeaf, "part" | "number">): string {
	return `${part}\n${number}`;
}

/**
 * Says in which edition each leaf last changed, and which edition the binder is.
 *
 * @param namesBinder whether a leaf says which edition the binder is
 */
export function issueLeaves(
	leaves: readonly (Omit<EditionLeaf, "issue"> & { readonly namesBinder: boolean })[],
	current: EditionMark,
	earlier: Edition | undefined,
): {
	readonly leaves: readonly EditionLeaf[];
	readonly issues: readonly EditionMark[];
	readonly edition: EditionMark;
} {
	const known = new Map(earlier?.leaves.map((leaf) => [leafKey(leaf), leaf]));
	const marks = new Map(earlier?.issues.map((mark) => [mark.id, mark]));
	const isChanged =
		earlier === undefined ||
		earlier.leaves.length !== leaves.length ||
		leaves.some((leaf, i) => {
			const before = earlier.leaves[i];
			return before === undefined || leafKey(before) !== leafKey(leaf) || before.hash !== leaf.hash;
		});
	const edition = isChanged ? current : (marks.get(earlier.edition) ?? current);
	const issued = leaves.map(({ namesBinder, ...leaf }): EditionLeaf => {
		const before = known.get(leafKey(leaf));
		const isKept = before?.hash === leaf.hash && !(namesBinder && isChanged);
		return { ...leaf, issue: isKept ? before.issue : current.id };
	});
	marks.set(current.id, current);
	const used = new Set([...issued.map(({ issue }) => issue), edition.id]);
	return { leaves: issued, issues: [...marks.values()].filter(({ id }) => used.has(id)), edition };
}

/** The sheets with their tabs where the earlier edition has them; new tabs follow the last one. */
export function keepTabs(sheets: Sheets, { slots, sections }: Edition): Sheets {
	const slotOf = new Map(sections.flatMap(({ tab, slot }) => (slot === null ? [] : [[tab, slot] as const])));
	if (slotOf.size === 0) return sheets;
	let next = Math.max(...slotOf.values()) + 1;
	return {
		...sheets,
		slots,
		sections: sheets.sections.map((section) =>
			section.slot === undefined ? section : { ...section, slot: slotOf.get(section.tab) ?? next++ % slots },
		),
	};
}

/** The sheets as those of an edition: where they say which edition the binder is, they say this one. */
export function nameEdition(sheets: Sheets, edition: EditionMark): Sheets {
	const own = escapeHtml(sheets.edition.words);
	const words = escapeHtml(edition.words);
	if (own === words) return sheets;
	const renamed = ({ text }: Html) => raw(text.replaceAll(own, words));
	return {
		...sheets,
		edition,
		sections: sheets.sections.map((section) => ({
			...section,
			parts: section.parts.map((part) => ({ ...part, html: renamed(part.html) })),
		})),
	};
}

export function editionText(edition: Edition): string {
	return `${JSON.stringify(edition, null, "\t")}\n`;
}

/** An edition's file could not be used. */
export class EditionFault extends Error {}

/** Reads an edition from its own file, or from a PDF that carries it. Throws EditionFault. */
export async function readEdition(file: string): Promise<Edition> {
	let bytes: Buffer;
	try {
		bytes = readGiven(file);
	} catch (error) {
		throw new EditionFault(`${file} cannot be read: ${error instanceof Error ? error.message : error}`);
	}
	const isPdf = bytes.subarray(0, 5).toString("latin1") === "%PDF-";
	const text = isPdf ? await attachedText(file, bytes) : bytes.toString("utf8");
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch {
		throw new EditionFault(`${file} is not an edition file.`);
	}
	if (isEdition(value)) return value;
	if (typeof value === "object" && value !== null && "format" in value && value.format !== EDITION_FORMAT) {
		throw new EditionFault(`${file} has the format ${value.format}; this program reads ${EDITION_FORMAT}.`);
	}
	throw new EditionFault(`${file} is not an edition file.`);
}

async function attachedText(file: string, bytes: Uint8Array): Promise<string> {
	const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0, disableFontFace: true });
	try {
		const document = await task.promise;
		const named = [...((await document.getAttachments()) ?? [])];
		const id = named.find(([, { filename }]) => filename === ATTACHMENT)?.[0];
		const found = id === undefined ? undefined : await document.getAttachmentContent(id);
		if (!(found instanceof Uint8Array)) throw new EditionFault(`${file} carries no edition.`);
		return new TextDecoder().decode(found);
	} catch (error) {
		if (error instanceof EditionFault) throw error;
		throw new EditionFault(`${file} cannot be read as a PDF.`);
	} finally {
		await task.destroy();
	}
}

let validate: ValidateFunction | undefined;

function isEdition(value: unknown): value is Edition {
	validate ??= new Ajv().compile(schema);
	return validate(value) === true;
}
