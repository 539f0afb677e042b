/**
 * Joins printed segments into one PDF without losing what a plain page copy loses: the structure
 * tree, and the links inside the binder.
 *
 *   1. every object of every segment moves over under a new number
 *   2. the pages hang under one page tree, in order, with the exact size of the paper
 *   3. the structure trees hang under one root, their keys shifted so that none meets another
 *   4. links to the placeholder host become links to named destinations, made from measured spots
 *   5. outline, page labels, title, language and dates are written anew, so that the same content
 *      gives the same bytes
 */

import {
	PDFArray,
	type PDFContext,
	PDFDict,
	PDFDocument,
	PDFHexString,
	PDFName,
	PDFNull,
	PDFNumber,
	type PDFObject,
	PDFRawStream,
	PDFRef,
	PDFStream,
	PDFString,
} from "pdf-lib";
import { type Assembled, LINK_HOST } from "./assemble.ts";
import type { Paper } from "./paper.ts";
import { POINTS } from "./points.ts";
import type { Segment } from "./print-segments.ts";
import { savePdf } from "./save-pdf.ts";
import type { Sheets } from "./section.ts";

/** What is added to the printed segments. */
export interface Additions {
	/** A text that travels in the PDF. */
	readonly attachment?: { readonly name: string; readonly text: string };
	/** The editions at the foot of leaves: for each of the words a right page and a left one. */
	readonly issues?: { readonly words: readonly string[]; readonly pdf: Uint8Array };
}

/** What a joined file is made of and named by. */
type JoinedLeaves = Pick<Assembled, "leaves" | "targets">;
type JoinedSheets = Pick<Sheets, "title" | "language" | "date">;

/** Joins the segments. Throws where a segment is not what the browser prints. */
export async function joinSegments(
	segments: readonly Segment[],
	assembled: JoinedLeaves,
	sheets: JoinedSheets,
	paper: Paper,
	{ attachment, issues }: Additions = {},
): Promise<Uint8Array> {
	const binder = await PDFDocument.create({ updateMetadata: false });
	const { context, catalog } = binder;
	const pageTree = catalog.get(PDFName.of("Pages"));
	if (!(pageTree instanceof PDFRef)) throw new Error("A new document has a page tree.");
	const pages: PDFRef[] = [];
	const tree = new StructureTree(context);

	for (const [number, segment] of segments.entries()) {
		const source = await PDFDocument.load(segment.pdf, { updateMetadata: false });
		const shift = context.largestObjectNumber;
		moveObjects(source.context, context, shift);
		const own = source.getPages();
		if (own.length !== segment.leaves) {
			throw new Error(`A segment of ${segment.leaves} leaves was printed on ${own.length} pages.`);
		}
		for (const page of own) {
			const ref = PDFRef.of(page.ref.objectNumber + shift);
			const moved = context.lookup(ref, PDFDict);
			moved.set(PDFName.of("Parent"), pageTree);
			moved.set(PDFName.of("MediaBox"), context.obj([0, 0, paper.width * POINTS, paper.height * POINTS]));
			for (const inherited of ["Resources", "Rotate"]) {
				const value = page.node.getInheritableAttribute(PDFName.of(inherited));
				if (value !== undefined) moved.set(PDFName.of(inherited), movedObject(value, context, shift));
			}
			pages.push(ref);
		}
		const root = source.catalog.get(PDFName.of("StructTreeRoot"));
		if (root instanceof PDFRef)
			tree.take(PDFRef.of(root.objectNumber + shift), pages.slice(-own.length), number);
		removeTreesOf(source, context, shift);
	}

	if (issues !== undefined) await stampIssues(context, pages, assembled, issues);
	const pageRoot = context.lookup(pageTree, PDFDict);
	pageRoot.set(PDFName.of("Kids"), context.obj(pages));
	pageRoot.set(PDFName.of("Count"), PDFNumber.of(pages.length));
	tree.finish(catalog);
	turnLinks(context);
	catalog.set(PDFName.of("Names"), destinations(context, segments, pages, paper));
	catalog.set(PDFName.of("PageLabels"), pageLabels(context, assembled));
	const outline = outlineOf(context, assembled);
	if (outline !== undefined) catalog.set(PDFName.of("Outlines"), outline);
	catalog.set(PDFName.of("PageMode"), PDFName.of("UseOutlines"));
	catalog.set(PDFName.of("Lang"), PDFString.of(sheets.language));
	catalog.set(PDFName.of("ViewerPreferences"), context.obj({ DisplayDocTitle: true }));
	const date = new Date(`${sheets.date}T00:00:00Z`);
	binder.setTitle(sheets.title);
	binder.setLanguage(sheets.language);
	binder.setCreationDate(date);
	binder.setModificationDate(date);
	if (attachment !== undefined) {
		await binder.attach(new TextEncoder().encode(attachment.text), attachment.name, {
			mimeType: "application/json",
			creationDate: date,
			modificationDate: date,
		});
	}
	return savePdf(binder);
}

/** Copies every object of a document under its number plus the shift. */
function moveObjects(from: PDFContext, to: PDFContext, shift: number): void {
	for (const [ref, object] of from.enumerateIndirectObjects()) {
		to.assign(PDFRef.of(ref.objectNumber + shift), movedObject(object, to, shift));
	}
}

function movedObject(object: PDFObject, to: PDFContext, shift: number): PDFObject {
	if (object instanceof PDFRef) return PDFRef.of(object.objectNumber + shift);
	if (object instanceof PDFArray) {
		const array = PDFArray.withContext(to);
		for (const item of object.asArray()) array.push(movedObject(item, to, shift));
		return array;
	}
	if (object instanceof PDFRawStream) {
		return PDFRawStream.of(movedDict(object.dict, to, shift), object.contents);
	}
	if (object instanceof PDFStream) throw new Error("A segment holds a stream that was made, not read.");
	if (object instanceof PDFDict) return movedDict(object, to, shift);
	return object;
}

function movedDict(dict: PDFDict, to: PDFContext, shift: number): PDFDict {
	const moved = PDFDict.withContext(to);
	for (const [key, value] of dict.entries()) moved.set(key, movedObject(value, to, shift));
	return moved;
}

/** A segment's own catalogue, page tree, information and destinations have no use any more. */
function removeTreesOf(source: PDFDocument, context: PDFContext, shift: number): void {
	const { Root, Info } = source.context.trailerInfo;
	for (const object of [Root, Info, source.catalog.get(PDFName.of("Dests"))]) {
		if (object instanceof PDFRef) context.delete(PDFRef.of(object.objectNumber + shift));
	}
	const visit = (node: PDFObject | undefined) => {
		if (!(node instanceof PDFRef)) return;
		const dict = source.context.lookup(node);
		if (!(dict instanceof PDFDict) || dict.get(PDFName.of("Type")) !== PDFName.of("Pages")) return;
		for (const kid of dict.lookup(PDFName.of("Kids"), PDFArray).asArray()) visit(kid);
		context.delete(PDFRef.of(node.objectNumber + shift));
	};
	visit(source.catalog.get(PDFName.of("Pages")));
}

/**
 * Lays an edition over each page that carries one: the page it was printed on becomes a form, which is
 * painted after the page's own content, outside its structure.
 */
async function stampIssues(
	context: PDFContext,
	pages: readonly PDFRef[],
	{ leaves }: JoinedLeaves,
	{ words, pdf }: NonNullable<Additions["issues"]>,
): Promise<void> {
	const source = await PDFDocument.load(pdf, { updateMetadata: false });
	const shift = context.largestObjectNumber;
	moveObjects(source.context, context, shift);
	const forms = source.getPages().map((page) => {
		const moved = context.lookup(PDFRef.of(page.ref.objectNumber + shift), PDFDict);
		const contents = moved.get(PDFName.of("Contents"));
		const stream = context.lookup(contents);
		if (!(contents instanceof PDFRef && stream instanceof PDFRawStream)) {
			throw new Error("A printed page has one stream of content.");
		}
		const form = PDFDict.withContext(context);
		for (const [key, value] of stream.dict.entries()) form.set(key, value);
		form.set(PDFName.of("Type"), PDFName.of("XObject"));
		form.set(PDFName.of("Subtype"), PDFName.of("Form"));
		const { width, height } = page.getSize();
		form.set(PDFName.of("BBox"), context.obj([0, 0, width, height]));
		const resources = page.node.getInheritableAttribute(PDFName.of("Resources"));
		if (resources !== undefined) form.set(PDFName.of("Resources"), movedObject(resources, context, shift));
		context.delete(contents);
		context.delete(PDFRef.of(page.ref.objectNumber + shift));
		return context.register(PDFRawStream.of(form, stream.contents));
	});
	removeTreesOf(source, context, shift);
	const before = context.register(context.stream("q\n"));
	const after = context.register(context.stream("\nQ /Artifact BMC /Edition Do EMC\n"));
	leaves.forEach(({ issue, side }, position) => {
		const form = forms[2 * words.indexOf(issue) + (side === "right" ? 0 : 1)];
		const ref = pages[position];
		if (issue === "" || form === undefined || ref === undefined) return;
		const page = context.lookup(ref, PDFDict);
		const contents = page.get(PDFName.of("Contents"));
		if (contents === undefined) throw new Error("A printed page has content.");
		const own = contents instanceof PDFArray ? contents.asArray() : [contents];
		page.set(PDFName.of("Contents"), context.obj([before, ...own, after]));
		// Pages of a segment may share their resources.
		const shared = page.lookup(PDFName.of("Resources"), PDFDict);
		const resources = PDFDict.withContext(context);
		for (const [key, value] of shared.entries()) resources.set(key, value);
		const objects = PDFDict.withContext(context);
		const others = shared.lookup(PDFName.of("XObject"));
		for (const [key, value] of others instanceof PDFDict ? others.entries() : []) objects.set(key, value);
		objects.set(PDFName.of("Edition"), form);
		resources.set(PDFName.of("XObject"), objects);
		page.set(PDFName.of("Resources"), resources);
	});
}

/** One structure tree made of several. */
class StructureTree {
	readonly #context: PDFContext;
	readonly #top: PDFRef;
	readonly #kids: PDFObject[] = [];
	/** Key and value of the parent tree, in order of the keys. */
	readonly #parents: PDFObject[] = [];
	readonly #named: { readonly name: string; readonly element: PDFObject }[] = [];
	#nextKey = 0;

	constructor(context: PDFContext) {
		this.#context = context;
		this.#top = context.nextRef();
	}

	/** Takes over a moved tree, with the pages that belong to it. */
	take(rootRef: PDFRef, pages: readonly PDFRef[], segment: number): void {
		const context = this.#context;
		const root = context.lookup(rootRef, PDFDict);
		const base = this.#nextKey;
		for (const [key, value] of numberTree(context, root.get(PDFName.of("ParentTree")))) {
			this.#parents.push(PDFNumber.of(base + key), value);
			this.#nextKey = Math.max(this.#nextKey, base + key + 1);
		}
		const shiftKey = (dict: PDFDict, key: string) => {
			const value = dict.get(PDFName.of(key));
			if (value instanceof PDFNumber) dict.set(PDFName.of(key), PDFNumber.of(value.asNumber() + base));
		};
		for (const ref of pages) {
			const page = context.lookup(ref, PDFDict);
			shiftKey(page, "StructParents");
			const annotations = page.lookup(PDFName.of("Annots"));
			if (!(annotations instanceof PDFArray)) continue;
			for (let i = 0; i < annotations.size(); i++) shiftKey(annotations.lookup(i, PDFDict), "StructParent");
		}
		const seen = new Set<PDFDict>();
		// The browser counts on from one document of a page to the next; names must not tell.
		const numbers = new Map<string, number>();
		const name = (value: PDFString | PDFHexString) => {
			const words = value.decodeText();
			const number = numbers.get(words) ?? numbers.size;
			numbers.set(words, number);
			return `s${segment}-${number}`;
		};
		const visit = (ref: PDFObject | undefined) => {
			const element = ref instanceof PDFRef ? context.lookup(ref) : ref;
			if (element instanceof PDFArray) {
				for (const kid of element.asArray()) visit(kid);
				return;
			}
			if (!(element instanceof PDFDict) || seen.has(element)) return;
			seen.add(element);
			const id = element.get(PDFName.of("ID"));
			if (id instanceof PDFString || id instanceof PDFHexString) {
				const own = name(id);
				element.set(PDFName.of("ID"), PDFString.of(own));
				if (ref instanceof PDFRef) this.#named.push({ name: own, element: ref });
			}
			renameHeaders(element.lookup(PDFName.of("A")), name);
			visit(element.get(PDFName.of("K")));
		};
		const kids = root.get(PDFName.of("K"));
		const tops = kids instanceof PDFArray ? kids.asArray() : kids === undefined ? [] : [kids];
		for (const top of tops) {
			visit(top);
			context.lookup(top, PDFDict).set(PDFName.of("P"), this.#top);
			this.#kids.push(top);
		}
		for (const key of ["ParentTree", "IDTree"]) deleteTree(context, root.get(PDFName.of(key)));
		context.delete(rootRef);
	}

	/** Writes the joined root into the catalogue; nothing where no segment had a tree. */
	finish(catalog: PDFDict): void {
		if (this.#kids.length === 0) return;
		const context = this.#context;
		const names = this.#named
			.sort((a, b) => (a.name < b.name ? -1 : 1))
			.flatMap(({ name, element }) => [PDFString.of(name), element]);
		context.assign(
			this.#top,
			context.obj({
				Type: "StructTreeRoot",
				K: this.#kids,
				ParentTree: context.register(context.obj({ Nums: this.#parents })),
				ParentTreeNextKey: this.#nextKey,
				...(names.length === 0 ? {} : { IDTree: context.register(context.obj({ Names: names })) }),
			}),
		);
		catalog.set(PDFName.of("StructTreeRoot"), this.#top);
		catalog.set(PDFName.of("MarkInfo"), context.obj({ Marked: true }));
	}
}

/** Takes away the nodes of a number or name tree; what they lead to stays. */
function deleteTree(context: PDFContext, node: PDFObject | undefined): void {
	const dict = node === undefined ? undefined : context.lookup(node);
	if (!(dict instanceof PDFDict)) return;
	const kids = dict.lookup(PDFName.of("Kids"));
	if (kids instanceof PDFArray) for (const kid of kids.asArray()) deleteTree(context, kid);
	if (node instanceof PDFRef) context.delete(node);
}

/** The cells that a table cell names as its heads, by their new names. */
function renameHeaders(
	attributes: PDFObject | undefined,
	name: (value: PDFString | PDFHexString) => string,
): void {
	if (attributes instanceof PDFArray) {
		for (let i = 0; i < attributes.size(); i++) renameHeaders(attributes.lookup(i), name);
	}
	if (!(attributes instanceof PDFDict)) return;
	const headers = attributes.lookup(PDFName.of("Headers"));
	if (!(headers instanceof PDFArray)) return;
	for (let i = 0; i < headers.size(); i++) {
		const id = headers.lookup(i);
		if (id instanceof PDFString || id instanceof PDFHexString) headers.set(i, PDFString.of(name(id)));
	}
}

/** Keys and values of a number tree, in order. */
function numberTree(
	context: PDFContext,
	node: PDFObject | undefined,
): readonly (readonly [number, PDFObject])[] {
	const dict = node === undefined ? undefined : context.lookup(node);
	if (!(dict instanceof PDFDict)) return [];
	const kids = dict.lookup(PDFName.of("Kids"));
	if (kids instanceof PDFArray) return kids.asArray().flatMap((kid) => numberTree(context, kid));
	const numbers = dict.lookup(PDFName.of("Nums"));
	if (!(numbers instanceof PDFArray)) return [];
	const pairs: [number, PDFObject][] = [];
	for (let i = 0; i + 1 < numbers.size(); i += 2) {
		pairs.push([numbers.lookup(i, PDFNumber).asNumber(), numbers.get(i + 1)]);
	}
	return pairs;
}

/** Links to the placeholder host lead to the destination that their fragment names. */
function turnLinks(context: PDFContext): void {
	for (const [, object] of context.enumerateIndirectObjects()) {
		if (!(object instanceof PDFDict) || object.get(PDFName.of("Subtype")) !== PDFName.of("Link")) continue;
		const action = object.lookup(PDFName.of("A"));
		if (!(action instanceof PDFDict)) continue;
		const address = action.lookup(PDFName.of("URI"));
		if (!(address instanceof PDFString || address instanceof PDFHexString)) continue;
		const words = address.decodeText();
		if (!words.startsWith(LINK_HOST)) continue;
		object.delete(PDFName.of("A"));
		object.set(PDFName.of("Dest"), PDFString.of(words.slice(LINK_HOST.length)));
	}
}

function destinations(
	context: PDFContext,
	segments: readonly Segment[],
	pages: readonly PDFRef[],
	paper: Paper,
): PDFRef {
	const spots = segments.flatMap(({ first, measures }) =>
		measures.spots.map(({ id, leaf, top }) => ({ id, page: pages[first + leaf], top })),
	);
	spots.sort((a, b) => (a.id < b.id ? -1 : 1));
	const names = spots.flatMap(({ id, page, top }) =>
		page === undefined
			? []
			: [
					PDFString.of(id),
					context.obj([
						page,
						PDFName.of("XYZ"),
						PDFNull,
						PDFNumber.of(Math.round((paper.height - top + 6) * POINTS)),
						PDFNull,
					]),
				],
	);
	return context.register(context.obj({ Dests: context.register(context.obj({ Names: names })) }));
}

/** What a reader shows as a page's number: the label at its foot. */
function pageLabels(context: PDFContext, { leaves }: JoinedLeaves): PDFRef {
	const numbers: PDFObject[] = [];
	leaves.forEach((leaf, position) => {
		const before = leaves[position - 1];
		const goesOn = before !== undefined && before.prefix === leaf.prefix && before.number + 1 === leaf.number;
		if (goesOn) return;
		numbers.push(
			PDFNumber.of(position),
			context.obj({ S: "D", P: PDFHexString.fromText(`${leaf.prefix} `), St: leaf.number }),
		);
	});
	return context.register(context.obj({ Nums: numbers }));
}

interface OutlineNode {
	readonly title: string;
	readonly id: string;
	readonly kids: OutlineNode[];
}

/** Sections, their parts, and what is in them; only the sections are open. */
function outlineOf(context: PDFContext, { targets }: JoinedLeaves): PDFRef | undefined {
	const top: OutlineNode[] = [];
	const inOrder = [...targets.values()].filter((target) => target.title !== "");
	for (const { id, title, depth } of inOrder) {
		let level = top;
		for (let at = 1; at < depth; at++) level = level.at(-1)?.kids ?? level;
		level.push({ title, id, kids: [] });
	}
	if (top.length === 0) return undefined;
	const root = context.nextRef();
	const write = (nodes: readonly OutlineNode[], parent: PDFRef): readonly PDFRef[] => {
		const refs = nodes.map(() => context.nextRef());
		nodes.forEach((node, i) => {
			const ref = refs[i];
			if (ref === undefined) return;
			const kids = write(node.kids, ref);
			const previous = refs[i - 1];
			const next = refs[i + 1];
			const first = kids[0];
			const last = kids.at(-1);
			context.assign(
				ref,
				context.obj({
					Title: PDFHexString.fromText(node.title),
					Parent: parent,
					Dest: PDFString.of(node.id),
					...(previous === undefined ? {} : { Prev: previous }),
					...(next === undefined ? {} : { Next: next }),
					...(first === undefined || last === undefined
						? {}
						: { First: first, Last: last, Count: -kids.length }),
				}),
			);
		});
		return refs;
	};
	const refs = write(top, root);
	const first = refs[0];
	const last = refs.at(-1);
	if (first === undefined || last === undefined) return undefined;
	context.assign(root, context.obj({ Type: "Outlines", First: first, Last: last, Count: refs.length }));
	return root;
}
