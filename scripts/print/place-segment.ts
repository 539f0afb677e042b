/**
 * Turns a printed segment into a piece of the binder.
 *
 *   1. every object gets its number plus the base, which is this segment's own in the binder
 *   2. the pages hang under a node of the segment's own, with the exact size of the paper
 *   3. the edition at the foot is laid over each page that carries one: a form, by its fixed number,
 *      painted after the page's own content, outside its structure
 *   4. links to the placeholder host become links to named destinations
 *   5. the keys by which pages find their tags, and the names of table cells, are made of the base,
 *      so that none meets another's
 *   6. tags are written as readers want them                                       readable-tags
 *   7. what the browser wrote for the whole document (catalogue, trees) is left out
 *
 * A piece depends on the segment, the base and the forms alone: where neither changes, it keeps its
 * bytes, whatever else is in the binder.
 */

import type { Paper } from "../../layouts/sheets/paper.ts";
import { PdfFile } from "../pdf/pdf-file.ts";
import { type Piece, PieceWriter } from "../pdf/pdf-piece.ts";
import {
	dictionaryOf,
	entriesOf,
	itemsOf,
	literal,
	literalText,
	referred,
	refTo,
	withReferences,
} from "../pdf/pdf-text.ts";
import { POINTS } from "../pdf/points.ts";
import { readableTags } from "../pdf/readable-tags.ts";
import { LINK_HOST } from "./assemble.ts";
import { headAndBytes, withHead } from "./sheet-cache.ts";

/** The numbers of what all pieces have in common. */
export const COMMON = {
	catalog: 1,
	pageTree: 2,
	structure: 3,
	/** Stands before a page's own content, and after it. */
	beforeContent: 4,
	afterContent: 5,
	/** The one document that all tags are in. */
	document: 6,
	/** Editions: for each a form for right pages, then one for left pages. */
	firstForm: 7,
} as const;

/** A segment as a piece of the binder, and by which numbers the rest of the binder knows it. */
export interface PlacedSegment extends Piece {
	/** The node that its pages hang under. */
	readonly node: number;
	readonly pages: readonly number[];
	/** The tops of its structure tree; none where it has no tags. */
	readonly tops: readonly number[];
	/** Its part of the tree that leads from keys to tags. */
	readonly parents: { readonly node: number; readonly last: number } | undefined;
	/** Its part of the tree of named cells. */
	readonly ids: { readonly node: number; readonly first: string; readonly last: string } | undefined;
}

/** Where a segment goes. */
export interface SegmentPlace {
	readonly base: number;
	readonly paper: Pick<Paper, "width" | "height">;
	/** For each page the number of the form that carries its edition, 0 for none. */
	readonly forms: readonly number[];
}

/** Streams that are the file's own business. */
const HOLDS_OBJECTS = /\/Type\s*\/(?:ObjStm|XRef)\b/;

/** Numbers are dealt out in such steps. */
const STEP = 1024;

/** How many numbers a segment's own objects take, and what is added to them at most. */
function needed(size: number): number {
	return size + 8 + Math.ceil(size / 100);
}

/**
 * The base of each segment, and the first number after all of them. A segment gets a tenth more than it
 * needs, in full steps: one that changes a little seldom shifts those after it.
 */
export function basesOf(
	segments: readonly { readonly size: number }[],
	editions: number,
): { readonly bases: readonly number[]; readonly next: number } {
	let next = Math.ceil((COMMON.firstForm + 2 * editions) / STEP) * STEP;
	const bases = segments.map(({ size }) => {
		const base = next;
		next += Math.ceil((needed(size) * 1.1) / STEP) * STEP;
		return base;
	});
	return { bases, next };
}

/** Throws where a segment is not what the browser prints. */
export function placeSegment(pdf: Uint8Array, { base, paper, forms }: SegmentPlace): PlacedSegment {
	const file = new PdfFile(pdf);
	const { pages, nodes } = file.pages();
	if (pages.length !== forms.length) {
		throw new Error(`A segment of ${forms.length} leaves was printed on ${pages.length} pages.`);
	}
	const size = Number(file.trailer.get("Size"));
	const node = base + size;
	const parentsNode = node + 1;
	const idsNode = node + 2;

	const rootNumber = referred(file.trailer.get("Root"));
	const catalog = entriesOf(file.value(file.trailer.get("Root")) ?? "");
	const structure = referred(catalog.get("StructTreeRoot"));
	const root = structure === undefined ? undefined : entriesOf(file.object(structure).text);
	const parents = flatTree(file, root?.get("ParentTree"), "Nums");
	const ids = flatTree(file, root?.get("IDTree"), "Names");
	const leftOut = new Set(
		[
			rootNumber,
			structure,
			referred(file.trailer.get("Info")),
			referred(catalog.get("Dests")),
			...nodes,
			...parents.nodes,
			...ids.nodes,
		].filter((number) => number !== undefined),
	);
	const isNode = new Set(nodes);
	const tags = structure === undefined ? undefined : readableTags(file, structure, size);
	const numberOf = (number: number) => tags?.numberOf(number) ?? number;
	const moved = (text: string) =>
		withReferences(text, (number) => {
			if (number === structure) return COMMON.document;
			return isNode.has(number) ? node : base + numberOf(number);
		});

	const writer = new PieceWriter();
	// Readers look through the page tree first: they find it without unpacking tags.
	writer.addPlain(
		node,
		dictionaryOf({
			Type: "/Pages",
			Parent: refTo(COMMON.pageTree),
			Kids: `[${pages.map((page) => refTo(base + page)).join(" ")}]`,
			Count: pages.length,
		}),
	);
	pages.forEach((page, i) => {
		writer.add(base + page, pageText(file, page, moved, { base, paper, form: forms[i] ?? 0 }));
		leftOut.add(page);
	});
	writer.packApart();
	const annotations = annotationsOf(file, pages);
	const names = new CellNames(base);
	for (const number of file.numbers()) {
		if (leftOut.has(number) || tags?.written.has(number) === true) continue;
		const { text, stream } = file.object(number);
		if (stream !== undefined) {
			if (!HOLDS_OBJECTS.test(text)) writer.addStream(base + number, moved(formText(text, base)), stream);
		} else if (annotations.has(number)) {
			writer.add(base + number, moved(annotationText(file, text, base)));
		} else writer.add(base + number, moved(text));
	}
	for (const [number, text] of tags?.texts ?? []) {
		const own = base + numberOf(number);
		writer.add(own, moved(names.rename(text, own)));
	}

	const parentNumbers = parents.pairs.map(([key, value]) => [base + Number(key), moved(value)] as const);
	const placed = {
		node,
		pages: pages.map((page) => base + page),
		tops: topsOf(file, root).map((top) => base + top),
		parents: addParents(writer, parentsNode, parentNumbers),
		ids: addIds(writer, idsNode, names),
	};
	return { ...writer.finish(idsNode + 1), ...placed };
}

function annotationsOf(file: PdfFile, pages: readonly number[]): ReadonlySet<number> {
	const annotations = new Set<number>();
	for (const page of pages) {
		for (const item of itemsOf(file.value(entriesOf(file.object(page).text).get("Annots")) ?? "[]")) {
			const number = referred(item);
			if (number === undefined) throw new Error("A link of a printed page is no object of its own.");
			annotations.add(number);
		}
	}
	return annotations;
}

/** What tags belong to the marks of each page. */
function addParents(
	writer: PieceWriter,
	node: number,
	pairs: readonly (readonly [number, string])[],
): PlacedSegment["parents"] {
	if (pairs.length === 0) return undefined;
	const keys = pairs.map(([key]) => key);
	const last = Math.max(...keys);
	writer.add(
		node,
		dictionaryOf({
			Limits: `[${Math.min(...keys)} ${last}]`,
			Nums: `[${pairs.map(([key, value]) => `${key} ${value}`).join(" ")}]`,
		}),
	);
	return { node, last };
}

/** The names of tags, by which the cells of tables call their heads. */
function addIds(writer: PieceWriter, node: number, { elements }: CellNames): PlacedSegment["ids"] {
	const named = elements.toSorted((a, b) => (a.name < b.name ? -1 : 1));
	const [first, last] = [named[0]?.name, named.at(-1)?.name];
	if (first === undefined || last === undefined) return undefined;
	writer.add(
		node,
		dictionaryOf({
			Limits: `[${literal(first)} ${literal(last)}]`,
			Names: `[${named.map(({ name, element }) => `${literal(name)} ${refTo(element)}`).join(" ")}]`,
		}),
	);
	return { node, first, last };
}

/** The topmost tags. */
function topsOf(file: PdfFile, root: ReadonlyMap<string, string> | undefined): readonly number[] {
	const kids = file.value(root?.get("K"));
	if (root === undefined || kids === undefined) return [];
	return (kids.startsWith("[") ? itemsOf(kids) : [root.get("K")]).flatMap((kid) => referred(kid) ?? []);
}

/** A page as it hangs in the binder. */
function pageText(
	file: PdfFile,
	number: number,
	moved: (text: string) => string,
	{ base, paper, form }: Pick<SegmentPlace, "base" | "paper"> & { readonly form: number },
): string {
	const page = entriesOf(file.object(number).text);
	for (const name of ["Resources", "Rotate"]) {
		const value = file.inherited(number, name);
		if (value !== undefined) page.set(name, value);
	}
	const contents = file.value(page.get("Contents"));
	const own = contents?.startsWith("[") === true ? itemsOf(contents) : [page.get("Contents") ?? ""];
	const resources = entriesOf(file.value(page.get("Resources")) ?? "<<>>");
	const objects = entriesOf(file.value(resources.get("XObject")) ?? "<<>>");
	for (const entries of [page, resources, objects]) {
		for (const [name, value] of entries) entries.set(name, moved(value));
	}
	page.set("MediaBox", `[0 0 ${paper.width * POINTS} ${paper.height * POINTS}]`);
	const key = page.get("StructParents");
	if (key !== undefined) page.set("StructParents", String(base + Number(key)));
	if (form === 0) return dictionaryOf(page);
	if (contents === undefined) throw new Error("A printed page has content.");
	page.set(
		"Contents",
		`[${[refTo(COMMON.beforeContent), ...own.map(moved), refTo(COMMON.afterContent)].join(" ")}]`,
	);
	objects.set("Edition", refTo(form));
	resources.set("XObject", dictionaryOf(objects));
	page.set("Resources", dictionaryOf(resources));
	return dictionaryOf(page);
}

/** A form in which there are marks, such as turned text, has its key for them as pages do. */
function formText(text: string, base: number): string {
	return text.replace(/\/StructParents (\d+)/, (_, key: string) => `/StructParents ${base + Number(key)}`);
}

/** A link: to the placeholder host it leads to the destination that its fragment names. */
function annotationText(file: PdfFile, text: string, base: number): string {
	const annotation = entriesOf(text);
	const key = annotation.get("StructParent");
	if (key !== undefined) annotation.set("StructParent", String(base + Number(key)));
	const action = file.value(annotation.get("A"));
	if (annotation.get("Subtype") === "/Link" && action !== undefined) {
		const address = literalText(entriesOf(action).get("URI"));
		if (address?.startsWith(LINK_HOST) === true) {
			annotation.delete("A");
			annotation.set("Dest", literal(address.slice(LINK_HOST.length)));
		}
	}
	return dictionaryOf(annotation);
}

/** Keys and values of a number or name tree, and the nodes that it is made of. */
function flatTree(
	file: PdfFile,
	top: string | undefined,
	kind: "Nums" | "Names",
): { readonly pairs: readonly (readonly [string, string])[]; readonly nodes: readonly number[] } {
	const pairs: [string, string][] = [];
	const nodes: number[] = [];
	const visit = (value: string) => {
		const number = referred(value);
		if (number !== undefined) nodes.push(number);
		const entries = entriesOf(file.value(value) ?? "");
		for (const kid of itemsOf(file.value(entries.get("Kids")) ?? "[]")) visit(kid);
		const items = itemsOf(file.value(entries.get(kind)) ?? "[]");
		for (let i = 0; i + 1 < items.length; i += 2) pairs.push([items[i] ?? "", items[i + 1] ?? ""]);
	};
	if (top !== undefined) visit(top);
	return { pairs, nodes };
}

/** Names of table cells, by which others call them their heads. */
class CellNames {
	readonly elements: { readonly name: string; readonly element: number }[] = [];
	readonly #numbers = new Map<string, number>();
	readonly #base: number;

	constructor(base: number) {
		this.#base = base;
	}

	/** An element with its own name, and those of its heads, by their new names. */
	rename(text: string, element: number): string {
		if (!text.includes("/ID") && !text.includes("/Headers")) return text;
		// Within a string a bracket follows a backslash, so these are the entries themselves.
		return text
			.replace(/\/ID\s*(\([^\\()]*\))/g, (_, name: string) => {
				const own = this.#name(name);
				this.elements.push({ name: own, element });
				return `/ID ${literal(own)}`;
			})
			.replace(
				/\/Headers\s*\[((?:\s*\([^\\()]*\))*)\s*\]/g,
				(_, list: string) =>
					`/Headers [${itemsOf(`[${list}]`)
						.map((name) => literal(this.#name(name)))
						.join(" ")}]`,
			);
	}

	/** The browser counts on from one document of a page to the next; names must not tell. */
	#name(written: string): string {
		const number = this.#numbers.get(written) ?? this.#numbers.size;
		this.#numbers.set(written, number);
		return `s${String(this.#base).padStart(8, "0")}-${String(number).padStart(6, "0")}`;
	}
}

/** A placed segment as bytes to be kept: its places stand before its own. */
export function packedSegment({ bytes, places, ...known }: PlacedSegment): Uint8Array {
	const list = new Uint8Array(Uint32Array.from(places).buffer);
	return withHead({ known, length: list.length }, Buffer.concat([list, bytes]));
}

/** The segment that was packed so. */
export function unpackedSegment(packed: Uint8Array): PlacedSegment {
	type Head = { readonly known: Omit<PlacedSegment, "bytes" | "places">; readonly length: number };
	const { head, bytes } = headAndBytes<Head>(packed);
	const { known, length } = head;
	// In a buffer of their own, where they begin at a multiple of their size; a slice of a Buffer is no copy.
	const list = new Uint8Array(bytes.subarray(0, length));
	return { ...known, places: new Uint32Array(list.buffer), bytes: bytes.subarray(length) };
}
