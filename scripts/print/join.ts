/**
 * Joins printed segments into one PDF without losing what a plain page copy loses: the structure
 * tree, and the links inside the binder.
 *
 *   1. every segment becomes a piece, with numbers of its own; pieces of an earlier run, of the same
 *      segment and the same numbers, come from the cache                                place-segment
 *   2. the editions at the foot become forms, which the pages know by fixed numbers
 *   3. what the pieces have in common is written anew: the trees of pages, tags and named places,
 *      outline, page labels, title, language and dates
 *   4. the pieces are written one after the other, then that, then where everything is     pdf-piece
 *
 * Numbers depend on the present segments alone, so the same content gives the same bytes, whatever
 * was in the cache.
 */

import type { Paper } from "../../layouts/sheets/paper.ts";
import type { Sheets } from "../../layouts/sheets/section.ts";
import { PdfFile } from "../pdf/pdf-file.ts";
import { fileOf, PieceWriter } from "../pdf/pdf-piece.ts";
import { dictionaryOf, entriesOf, literal, referred, refTo, withReferences, words } from "../pdf/pdf-text.ts";
import { POINTS } from "../pdf/points.ts";
import { escapeHtml } from "../views/html.ts";
import type { Assembled } from "./assemble.ts";
import { basesOf, COMMON, type PlacedSegment, placeSegment, type SegmentPlace } from "./place-segment.ts";
import type { Segment } from "./print-segments.ts";

/** What is added to the printed segments. */
export interface Additions {
	/** A text that travels in the PDF. */
	readonly attachment?: { readonly name: string; readonly text: string };
	/** The editions at the foot of leaves: for each of the words a right page and a left one. */
	readonly issues?: Editions;
}

export interface Editions {
	readonly words: readonly string[];
	readonly pdf: Uint8Array;
}

/** What a joined file is made of and named by. */
type JoinedLeaves = Pick<Assembled, "leaves" | "targets">;
/** Without a date the file says none of itself. */
type JoinedSheets = Pick<Sheets, "title" | "language"> & Partial<Pick<Sheets, "date">>;

/** A way to have a segment placed: here and now, or by a thread, or from the cache. */
export type Placing = (segment: Segment, place: SegmentPlace) => Promise<PlacedSegment>;

const placedHere: Placing = async (segment, place) => placeSegment(await segment.pdf(), place);

export interface Joined {
	readonly pdf: Uint8Array;
	/** The segments as they are in it. */
	readonly placed: readonly PlacedSegment[];
}

/** Joins the segments. Throws where a segment is not what the browser prints. */
export async function joinSegments(
	segments: readonly Segment[],
	assembled: JoinedLeaves,
	sheets: JoinedSheets,
	paper: Paper,
	{ attachment, issues }: Additions = {},
	placing: Placing = placedHere,
): Promise<Joined> {
	const editions = issues?.words ?? [];
	const { bases, next } = basesOf(segments, editions.length);
	const placed = await Promise.all(
		segments.map((segment, i) => {
			const leaves = assembled.leaves.slice(segment.first, segment.first + segment.leaves);
			const forms = leaves.map((leaf) => formOf(leaf, editions));
			return placing(segment, { base: bases[i] ?? 0, paper, forms });
		}),
	);
	const common = new CommonPart(next);
	const { writer } = common;
	if (issues !== undefined) addEditions(common, issues, paper);
	const pages = placed.flatMap((segment) => segment.pages);
	writer.add(
		COMMON.pageTree,
		dictionaryOf({
			Type: "/Pages",
			Kids: `[${placed.map(({ node }) => refTo(node)).join(" ")}]`,
			Count: pages.length,
		}),
	);
	const isTagged = addStructure(common, placed);
	const moment = sheets.date === undefined ? undefined : `(D:${sheets.date.replaceAll("-", "")})`;
	const attached = attachment === undefined ? undefined : addAttachment(common, attachment, moment);
	const outline = addOutline(common, assembled);
	writer.add(
		COMMON.catalog,
		dictionaryOf({
			Type: "/Catalog",
			Pages: refTo(COMMON.pageTree),
			StructTreeRoot: isTagged ? refTo(COMMON.structure) : undefined,
			MarkInfo: isTagged ? "<</Marked true>>" : undefined,
			Names: dictionaryOf({
				Dests: refTo(addDestinations(common, segments, pages, paper)),
				EmbeddedFiles: attached?.names,
			}),
			AF: attached?.list,
			PageLabels: refTo(common.add(pageLabels(assembled))),
			Outlines: outline === undefined ? undefined : refTo(outline),
			PageMode: "/UseOutlines",
			Metadata: refTo(addMetadata(common, sheets)),
			Lang: literal(sheets.language),
			ViewerPreferences: "<</DisplayDocTitle true>>",
		}),
	);
	const information = common.add(
		dictionaryOf({ Title: words(sheets.title), CreationDate: moment, ModDate: moment }),
	);
	const rest = writer.finish(common.take());
	const pdf = fileOf([...placed, rest], { Root: refTo(COMMON.catalog), Info: refTo(information) }, rest.next);
	return { pdf, placed };
}

/** The number of the form that a leaf's edition is, 0 where it carries none. */
function formOf({ issue, side }: JoinedLeaves["leaves"][number], editions: readonly string[]): number {
	const position = editions.indexOf(issue);
	if (issue === "" || position < 0) return 0;
	return COMMON.firstForm + 2 * position + (side === "right" ? 0 : 1);
}

/** What the pieces have in common, with numbers above theirs. */
class CommonPart {
	readonly writer = new PieceWriter();
	#next: number;

	constructor(first: number) {
		this.#next = first;
	}

	/** A number that nothing has yet, or the first of several. */
	take(count = 1): number {
		const number = this.#next;
		this.#next += count;
		return number;
	}

	/** An object, which gets the next number. */
	add(text: string): number {
		const number = this.take();
		this.writer.add(number, text);
		return number;
	}
}

/** Pages with an edition at their foot, each as a form: its content, and the fonts that it uses. */
function addEditions(common: CommonPart, { pdf }: Editions, paper: Paper): void {
	const { writer } = common;
	const file = new PdfFile(pdf);
	const { pages, nodes } = file.pages();
	const base = common.take(Number(file.trailer.get("Size")));
	const moved = (text: string) => withReferences(text, (number) => base + number);
	const leftOut = new Set<number | undefined>([
		...pages,
		...nodes,
		referred(file.trailer.get("Root")),
		referred(file.trailer.get("Info")),
	]);
	pages.forEach((page, position) => {
		const contents = referred(entriesOf(file.object(page).text).get("Contents"));
		const { text, stream } = contents === undefined ? { text: "", stream: undefined } : file.object(contents);
		if (stream === undefined) throw new Error("A printed page has one stream of content.");
		leftOut.add(contents);
		const form = entriesOf(text);
		form.set("Type", "/XObject");
		form.set("Subtype", "/Form");
		form.set("BBox", `[0 0 ${paper.width * POINTS} ${paper.height * POINTS}]`);
		form.set("Resources", moved(file.inherited(page, "Resources") ?? "<<>>"));
		writer.addStream(COMMON.firstForm + position, dictionaryOf(form), stream);
	});
	for (const number of file.numbers()) {
		if (leftOut.has(number)) continue;
		const { text, stream } = file.object(number);
		if (stream === undefined) writer.add(base + number, moved(text));
		else writer.addStream(base + number, moved(text), stream);
	}
	const bytes = (commands: string) => Buffer.from(commands, "latin1");
	const before = bytes("q\n");
	const after = bytes("\nQ /Artifact BMC /Edition Do EMC\n");
	writer.addStream(COMMON.beforeContent, dictionaryOf({ Length: before.length }), before);
	writer.addStream(COMMON.afterContent, dictionaryOf({ Length: after.length }), after);
}

/** One structure tree made of several; false where no segment has one. */
function addStructure({ writer }: CommonPart, placed: readonly PlacedSegment[]): boolean {
	const tops = placed.flatMap((segment) => segment.tops);
	if (tops.length === 0) return false;
	writer.add(
		COMMON.document,
		dictionaryOf({
			Type: "/StructElem",
			S: "/Document",
			P: refTo(COMMON.structure),
			K: `[${tops.map(refTo).join(" ")}]`,
		}),
	);
	const parents = placed.flatMap((segment) => segment.parents ?? []);
	const ids = placed.flatMap((segment) => segment.ids ?? []);
	const kids = (nodes: readonly { readonly node: number }[]) =>
		`<</Kids [${nodes.map(({ node }) => refTo(node)).join(" ")}]>>`;
	writer.add(
		COMMON.structure,
		dictionaryOf({
			Type: "/StructTreeRoot",
			K: `[${refTo(COMMON.document)}]`,
			ParentTree: kids(parents),
			ParentTreeNextKey: Math.max(-1, ...parents.map(({ last }) => last)) + 1,
			IDTree: ids.length === 0 ? undefined : kids(ids),
		}),
	);
	return true;
}

/** What the file says of itself (XMP, ISO 16684-1), and that it is meant to keep to PDF/UA-1 (ISO 14289-1, 5). */
function addMetadata(common: CommonPart, { title, language, date }: JoinedSheets): number {
	const number = common.take();
	const content = Buffer.from(
		`<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><dc:title><rdf:Alt><rdf:li xml:lang="x-default">${escapeHtml(title)}</rdf:li></rdf:Alt></dc:title><dc:language><rdf:Bag><rdf:li>${escapeHtml(language)}</rdf:li></rdf:Bag></dc:language>${date === undefined ? "" : `<xmp:CreateDate>${date}</xmp:CreateDate><xmp:ModifyDate>${date}</xmp:ModifyDate>`}<pdfuaid:part>1</pdfuaid:part></rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>`,
		"utf8",
	);
	// As it is, so that whoever looks for it finds it without unpacking.
	common.writer.addStream(
		number,
		dictionaryOf({ Type: "/Metadata", Subtype: "/XML", Length: content.length }),
		content,
	);
	return number;
}

/** A text that travels with the file, under its name. */
function addAttachment(
	common: CommonPart,
	{ name, text }: NonNullable<Additions["attachment"]>,
	moment: string | undefined,
): { readonly names: string; readonly list: string } {
	const content = Buffer.from(text, "utf8");
	const file = common.take();
	common.writer.addPacked(
		file,
		{
			Type: "/EmbeddedFile",
			Subtype: "/application#2Fjson",
			Params: dictionaryOf({ Size: content.length, CreationDate: moment, ModDate: moment }),
		},
		content,
	);
	const described = common.add(
		dictionaryOf({
			Type: "/Filespec",
			F: literal(name),
			UF: words(name),
			EF: dictionaryOf({ F: refTo(file) }),
		}),
	);
	return { names: `<</Names [${words(name)} ${refTo(described)}]>>`, list: `[${refTo(described)}]` };
}

/** Names in one node of the tree of destinations. */
const NAMES_OF_A_NODE = 200;

function addDestinations(
	common: CommonPart,
	segments: readonly Segment[],
	pages: readonly number[],
	paper: Paper,
): number {
	const spots = segments.flatMap(({ first, measures }) =>
		measures.spots.flatMap(({ id, leaf, top }) => {
			const page = pages[first + leaf];
			return page === undefined ? [] : [{ id, page, top }];
		}),
	);
	spots.sort((a, b) => (a.id < b.id ? -1 : 1));
	const kids: number[] = [];
	for (let from = 0; from < spots.length; from += NAMES_OF_A_NODE) {
		const held = spots.slice(from, from + NAMES_OF_A_NODE);
		const names = held.map(({ id, page, top }) => {
			const height = Math.round((paper.height - top + 6) * POINTS);
			return `${literal(id)} [${refTo(page)} /XYZ null ${height} null]`;
		});
		kids.push(
			common.add(
				dictionaryOf({
					Limits: `[${literal(held[0]?.id ?? "")} ${literal(held.at(-1)?.id ?? "")}]`,
					Names: `[${names.join("\n")}]`,
				}),
			),
		);
	}
	return common.add(kids.length === 0 ? "<</Names []>>" : `<</Kids [${kids.map(refTo).join(" ")}]>>`);
}

/** What a reader shows as a page's number: the label at its foot. */
function pageLabels({ leaves }: JoinedLeaves): string {
	const numbers = leaves.flatMap((leaf, position) => {
		const before = leaves[position - 1];
		const goesOn = before !== undefined && before.prefix === leaf.prefix && before.number + 1 === leaf.number;
		return goesOn ? [] : [`${position} <</S /D /P ${words(`${leaf.prefix} `)} /St ${leaf.number}>>`];
	});
	return `<</Nums [${numbers.join("\n")}]>>`;
}

interface OutlineNode {
	readonly title: string;
	readonly id: string;
	readonly kids: OutlineNode[];
}

/** Sections, their parts, and what is in them; only the sections are open. */
function addOutline(common: CommonPart, { targets }: JoinedLeaves): number | undefined {
	const top: OutlineNode[] = [];
	const inOrder = [...targets.values()].filter((target) => target.title !== "");
	for (const { id, title, depth } of inOrder) {
		let level = top;
		for (let at = 1; at < depth; at++) level = level.at(-1)?.kids ?? level;
		level.push({ title, id, kids: [] });
	}
	if (top.length === 0) return undefined;
	const root = common.take();
	/** Writes nodes that follow each other; returns the number of the first, whose others come next. */
	const write = (nodes: readonly OutlineNode[], parent: number): number => {
		const first = common.take(nodes.length);
		nodes.forEach(({ title, id, kids }, i) => {
			const below = kids.length === 0 ? undefined : write(kids, first + i);
			common.writer.add(
				first + i,
				dictionaryOf({
					Title: words(title),
					Parent: refTo(parent),
					Dest: literal(id),
					Prev: i === 0 ? undefined : refTo(first + i - 1),
					Next: i === nodes.length - 1 ? undefined : refTo(first + i + 1),
					...(below === undefined
						? {}
						: { First: refTo(below), Last: refTo(below + kids.length - 1), Count: -kids.length }),
				}),
			);
		});
		return first;
	};
	const first = write(top, root);
	common.writer.add(
		root,
		dictionaryOf({
			Type: "/Outlines",
			First: refTo(first),
			Last: refTo(first + top.length - 1),
			Count: top.length,
		}),
	);
	return root;
}
