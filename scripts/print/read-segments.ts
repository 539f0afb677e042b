/**
 * Reads a joined binder back piece by piece, from the bytes that are to be written.
 *
 *   1. the cross-reference of the whole says where the objects of each piece are, and the page tree
 *      which of its nodes are pages of the binder, in which order
 *   2. a piece's bytes and the places of its objects, as the whole has them, make a small document;
 *      threads read those side by side: every object, all that is painted, all links
 *   3. a piece that was read before, with the same bytes and places, comes from the cache
 *   4. what the pieces have in common is read from the whole every time: every object, and by another
 *      library the number of pages, the destinations, the labels and the outline
 *   5. the editions, printed apart, are read apart
 *
 * So memory does not grow with the binder, and an unchanged section is not read again.
 */

import type { Paper } from "../../layouts/sheets/paper.ts";
import { sha256 } from "../files/hash.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";
import { PdfFile } from "../pdf/pdf-file.ts";
import { FIRST_OFFSET, fileOf, type Piece, PieceWriter } from "../pdf/pdf-piece.ts";
import { dictionaryOf, entriesOf, itemsOf, referred, refTo } from "../pdf/pdf-text.ts";
import type { Leaf } from "./assemble.ts";
import type { Editions, Joined } from "./join.ts";
import type { PageDigest } from "./page-digest.ts";
import type { PdfThreads } from "./pdf-threads.ts";
import { COMMON } from "./place-segment.ts";
import type { ReadFile } from "./read-back.ts";
import type { SheetCache } from "./sheet-cache.ts";

export interface JoinedBinder extends Joined {
	readonly leaves: readonly Pick<Leaf, "issue" | "side">[];
	/** As they are at the foot of leaves: for each of the words a right page and a left one. */
	readonly issues: Editions;
	readonly paper: Paper;
}

/** A binder as it was read back. */
export interface ReadBinder extends Omit<ReadFile, "pages"> {
	readonly pages: readonly PageDigest[];
	/** Pages with nothing but an edition: for each of the words a right page and a left one. */
	readonly editions: readonly PageDigest[];
}

/** Reads a binder. Throws where it is not a PDF, or something in it is not at its place. */
export async function readJoined(
	binder: JoinedBinder,
	cache: SheetCache,
	threads: PdfThreads,
): Promise<ReadBinder> {
	const { pdf, paper, leaves, issues } = binder;
	const file = threads.file(pdf);
	// It is waited for below, unless something fails before.
	file.catch(() => undefined);
	const digests = async (
		bytes: readonly Uint8Array[],
		sides: readonly Leaf["side"][],
		document: () => Uint8Array,
	): Promise<readonly PageDigest[]> => {
		const ingredients = ["read", programFingerprint(), JSON.stringify([paper, sides]), sha256(bytes)];
		const content = await cache.keep(ingredients, async () => {
			const read = await threads.pages(document, sides, paper);
			return new TextEncoder().encode(JSON.stringify(read));
		});
		return JSON.parse(new TextDecoder().decode(content));
	};
	const whole = new PdfFile(pdf);
	const cut = cutFile(whole, binder);
	let position = 0;
	const pieces = cut.map(({ piece, nodes, pages }) => {
		const sides = leaves.slice(position, position + pages).map(({ side }) => side);
		position += pages;
		return digests([piece.bytes, bytesOf(piece.places)], sides, () =>
			smallFile(piece, { nodes, pages }, issues.words),
		);
	});
	const [read, editions, ...segments] = await Promise.all([
		file,
		issues.words.length === 0
			? []
			: digests(
					[issues.pdf],
					issues.words.flatMap(() => ["right" as const, "left" as const]),
					() => issues.pdf,
				),
		...pieces,
	]);
	const pages = segments.flat();
	if (read.pages !== pages.length) {
		throw new Error(`The binder has ${read.pages} pages, and its pieces ${pages.length}.`);
	}
	const { destinations, labels, outline } = read;
	return { pages, editions, destinations, labels, outline };
}

interface CutPiece {
	readonly piece: Piece;
	/** The nodes of the page tree that are in it. */
	readonly nodes: readonly number[];
	readonly pages: number;
}

/** The pieces as the whole has them. Throws where an object of the rest, or a page, is not where it should be. */
function cutFile(whole: PdfFile, { pdf, placed }: JoinedBinder): readonly CutPiece[] {
	const root = entriesOf(whole.object(COMMON.pageTree).text);
	const nodes = itemsOf(root.get("Kids") ?? "").flatMap((kid) => referred(kid) ?? []);
	const numbers = whole.numbers();
	let at = 0;
	let offset = FIRST_OFFSET;
	/** Goes on to a number; what is passed belongs to no piece, and is read here. */
	const goTo = (number: number) => {
		for (let next = numbers[at]; next !== undefined && next < number; next = numbers[++at])
			whole.object(next);
	};
	const order: number[] = [];
	const cut = placed.map((segment): CutPiece => {
		const own = segment.places;
		let [lowest, highest] = [Infinity, 0];
		for (let i = 0; i < own.length; i += 4) {
			lowest = Math.min(lowest, own[i] ?? 0);
			highest = Math.max(highest, own[i] ?? 0);
		}
		goTo(lowest);
		const end = offset + segment.bytes.length;
		const places: number[] = [];
		for (let number = numbers[at]; number !== undefined && number <= highest; number = numbers[++at]) {
			const place = whole.place(number);
			if (place === undefined) continue;
			if ("container" in place) places.push(number, 2, place.container, place.position);
			else if (place.offset >= offset && place.offset < end) places.push(number, 1, place.offset - offset, 0);
			else throw new Error(`The object ${number} of a PDF is not at its place.`);
		}
		const inside = nodes.filter((node) => node >= lowest && node <= highest);
		order.push(...inside);
		const bytes = pdf.subarray(offset, end);
		offset = end;
		return { piece: { bytes, places: Uint32Array.from(places) }, nodes: inside, pages: segment.pages.length };
	});
	goTo(Infinity);
	if (order.join() !== nodes.join())
		throw new Error("The pages of the binder are not in the order of its pieces.");
	return cut;
}

function bytesOf({ buffer, byteOffset, byteLength }: Uint32Array): Uint8Array {
	return new Uint8Array(buffer, byteOffset, byteLength);
}

/** A document of one piece; where its pages carry editions, they carry nothing. */
function smallFile(
	piece: Piece,
	{ nodes, pages }: Pick<CutPiece, "nodes" | "pages">,
	editions: readonly string[],
): Uint8Array {
	let free = COMMON.firstForm + 2 * editions.length;
	for (let i = 0; i < piece.places.length; i += 4) free = Math.max(free, (piece.places[i] ?? 0) + 1);
	const writer = new PieceWriter();
	writer.add(COMMON.catalog, dictionaryOf({ Type: "/Catalog", Pages: refTo(COMMON.pageTree) }));
	writer.add(
		COMMON.pageTree,
		dictionaryOf({ Type: "/Pages", Kids: `[${nodes.map(refTo).join(" ")}]`, Count: pages }),
	);
	const nothing = new Uint8Array();
	for (const number of [COMMON.beforeContent, COMMON.afterContent]) {
		writer.addStream(number, "<</Length 0>>", nothing);
	}
	for (let i = 0; i < 2 * editions.length; i++) {
		const form = dictionaryOf({ Type: "/XObject", Subtype: "/Form", BBox: "[0 0 1 1]", Length: 0 });
		writer.addStream(COMMON.firstForm + i, form, nothing);
	}
	const common = writer.finish(free);
	return fileOf([piece, common], { Root: refTo(COMMON.catalog) }, common.next);
}
