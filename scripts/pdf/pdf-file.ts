/**
 * Finds the objects of a PDF by its cross-reference table or stream, as the browser and this program
 * write them: one section, no encryption, no earlier versions within the file.
 *
 * An object is read when it is asked for, so that looking at pages costs nothing for tags.
 */

import { inflateSync } from "node:zlib";
import { entriesOf, itemsOf, referred } from "./pdf-text.ts";

/** An object as it is written. */
export interface PdfObject {
	/** Its value, or the dictionary of its stream; Latin-1. */
	readonly text: string;
	/** The stream's bytes, packed as they are. */
	readonly stream?: Uint8Array;
}

/** Where an object is: at an offset of its own, or at a place in a stream of objects. */
export type ObjectPlace =
	| { readonly offset: number }
	| { readonly container: number; readonly position: number };

/** Objects of a stream of objects, in their order. */
type Packed = readonly { readonly number: number; readonly text: string }[];

export class PdfFile {
	/** The entries of the trailer. */
	readonly trailer: ReadonlyMap<string, string>;
	readonly #bytes: Buffer;
	readonly #places: Places;
	/** Offsets of the objects that have one, in order, then that of the cross-reference. */
	readonly #offsets: Float64Array;
	readonly #packed = new Map<number, Packed>();

	/** Throws where the bytes are no such PDF. */
	constructor(bytes: Uint8Array) {
		this.#bytes = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
		const tail = this.#bytes.subarray(-1024).toString("latin1");
		const start = Number(/startxref\s+(\d+)\s+%%EOF\s*$/.exec(tail)?.[1] ?? Number.NaN);
		if (!(start < bytes.length)) throw new Error("A PDF ends without saying where its objects are.");
		const isTable = this.#bytes.subarray(start, start + 4).toString("latin1") === "xref";
		// Needed to read the cross-reference itself, which has no object after it.
		this.#offsets = Float64Array.of(start, bytes.length);
		const { trailer, places } = isTable ? this.#table(start) : this.#stream(start);
		if (trailer.has("Prev")) throw new Error("A PDF holds earlier versions of itself.");
		this.trailer = trailer;
		this.#places = places;
		const offsets = places.kinds.reduce(
			(found: number[], kind, number) => {
				if (kind === 1) found.push(places.where[number] ?? 0);
				return found;
			},
			[start],
		);
		this.#offsets = Float64Array.from(offsets).sort();
	}

	/** The numbers of all objects in use, in order. */
	numbers(): readonly number[] {
		return this.#places.kinds.reduce((found: number[], kind, number) => {
			if (kind !== 0) found.push(number);
			return found;
		}, []);
	}

	/** Where an object is; undefined where there is none of that number. */
	place(number: number): ObjectPlace | undefined {
		const { kinds, where, positions } = this.#places;
		const at = where[number] ?? 0;
		if (kinds[number] === 1) return { offset: at };
		if (kinds[number] === 2) return { container: at, position: positions[number] ?? 0 };
		return undefined;
	}

	/** An object by its number. Throws where it is not at its place. */
	object(number: number): PdfObject {
		const place = this.place(number);
		if (place === undefined) throw new Error(`A PDF lacks its object ${number}.`);
		if ("offset" in place) {
			return this.#objectAt(number, place.offset);
		}
		const found = this.packed(place.container)[place.position];
		if (found?.number !== number) throw new Error(`The object ${number} of a PDF is not at its place.`);
		return { text: found.text };
	}

	/** The objects of a stream of objects. */
	packed(container: number): Packed {
		const known = this.#packed.get(container);
		if (known !== undefined) return known;
		const { text, stream } = this.object(container);
		const entries = entriesOf(text);
		if (stream === undefined || entries.get("Type") !== "/ObjStm") {
			throw new Error(`The object ${container} of a PDF holds no others.`);
		}
		const content = unpackedStream(entries, stream).toString("latin1");
		const first = Number(entries.get("First"));
		const numbers = content.slice(0, first).trim().split(/\s+/).map(Number);
		if (numbers.length !== 2 * Number(entries.get("N"))) {
			throw new Error(`The object ${container} of a PDF holds more or fewer than it says.`);
		}
		const packed = Array.from({ length: numbers.length / 2 }, (_, i) => ({
			number: numbers[2 * i] ?? 0,
			text: content.slice(first + (numbers[2 * i + 1] ?? 0), first + (numbers[2 * i + 3] ?? Infinity)).trim(),
		}));
		this.#packed.set(container, packed);
		return packed;
	}

	/** A value, or the text of the object that it refers to. */
	value(value: string | undefined): string | undefined {
		const number = referred(value);
		return number === undefined ? value : this.object(number).text;
	}

	/** The numbers of all pages, in order, with the nodes of the tree that they hang in. */
	pages(): { readonly pages: readonly number[]; readonly nodes: readonly number[] } {
		const pages: number[] = [];
		const nodes: number[] = [];
		const seen = new Set<number>();
		const visit = (value: string | undefined) => {
			const number = referred(value);
			if (number === undefined || seen.has(number)) throw new Error("A page tree of a PDF is broken.");
			seen.add(number);
			const entries = entriesOf(this.object(number).text);
			if (entries.get("Type") === "/Page") {
				pages.push(number);
				return;
			}
			nodes.push(number);
			for (const kid of itemsOf(this.value(entries.get("Kids")) ?? "")) visit(kid);
		};
		visit(entriesOf(this.value(this.trailer.get("Root")) ?? "").get("Pages"));
		return { pages, nodes };
	}

	/** A page's entry, or the one it has from the nodes above it. */
	inherited(page: number, name: string): string | undefined {
		for (let at: number | undefined = page; at !== undefined; ) {
			const entries = entriesOf(this.object(at).text);
			const value = entries.get(name);
			if (value !== undefined) return value;
			at = referred(entries.get("Parent"));
		}
		return undefined;
	}

	/** The first offset after one. */
	#endOf(offset: number): number {
		let low = 0;
		let high = this.#offsets.length;
		while (low < high) {
			const middle = (low + high) >> 1;
			if ((this.#offsets[middle] ?? 0) > offset) high = middle;
			else low = middle + 1;
		}
		return this.#offsets[low] ?? this.#bytes.length;
	}

	#objectAt(number: number, offset: number): PdfObject {
		const end = this.#endOf(offset);
		const head = `${number} 0 obj`;
		const bytes = this.#bytes;
		if (bytes.subarray(offset, offset + head.length).toString("latin1") !== head) {
			throw new Error(`The object ${number} of a PDF is not at its place.`);
		}
		const last = bytes.subarray(offset, end).lastIndexOf("endobj");
		if (last < 0) throw new Error(`The object ${number} of a PDF has no end.`);
		const body = bytes.subarray(offset + head.length, offset + last);
		for (let at = body.indexOf("stream"); at >= 0; at = body.indexOf("stream", at + 1)) {
			const text = body.subarray(0, at).toString("latin1").trim();
			if (!text.startsWith("<<") || !text.endsWith(">>")) continue;
			const length = Number(this.value(entriesOf(text).get("Length")));
			const from = at + 6 + (body[at + 6] === 13 ? 2 : 1);
			if (/^\s*endstream\s*$/.test(body.subarray(from + length).toString("latin1"))) {
				return { text, stream: body.subarray(from, from + length) };
			}
		}
		return { text: body.toString("latin1").trim() };
	}

	/** ISO 32000-1, 7.5.4. */
	#table(start: number): Read {
		const text = this.#bytes.subarray(start).toString("latin1");
		const end = text.indexOf("trailer");
		const trailer = entriesOf(text.slice(end + 7, text.lastIndexOf("startxref")));
		const places = noPlaces(Number(trailer.get("Size")));
		let next = 0;
		for (const [, a = "", b = "", kind] of text.slice(4, end).matchAll(/(\d+) (\d+)(?: ([nf]))?/g)) {
			if (kind === undefined) next = Number(a);
			else {
				if (kind === "n") {
					if (Number(b) !== 0) throw new Error("A PDF has objects of a second generation.");
					places.kinds[next] = 1;
					places.where[next] = Number(a);
				}
				next++;
			}
		}
		return { trailer, places };
	}

	/** ISO 32000-1, 7.5.8. */
	#stream(start: number): Read {
		const number = Number(/^\d+/.exec(this.#bytes.subarray(start, start + 12).toString("latin1"))?.[0]);
		const { text, stream } = this.#objectAt(number, start);
		const trailer = entriesOf(text);
		if (stream === undefined || trailer.get("Type") !== "/XRef") {
			throw new Error("A PDF does not say where its objects are.");
		}
		const [w0 = 0, w1 = 0, w2 = 0] = itemsOf(trailer.get("W") ?? "").map(Number);
		const rows = unpackedStream(trailer, stream);
		const index = itemsOf(trailer.get("Index") ?? `[0 ${trailer.get("Size")}]`).map(Number);
		const places = noPlaces(Number(trailer.get("Size")));
		let at = 0;
		for (let i = 0; i + 1 < index.length; i += 2) {
			const first = index[i] ?? 0;
			const count = index[i + 1] ?? 0;
			for (let k = first; k < first + count; k++, at += w0 + w1 + w2) {
				if (at + w0 + w1 + w2 > rows.length) throw new Error("A PDF names fewer objects than it says.");
				places.kinds[k] = w0 === 0 ? 1 : rows.readUIntBE(at, w0);
				places.where[k] = rows.readUIntBE(at + w0, w1);
				places.positions[k] = w2 === 0 ? 0 : rows.readUIntBE(at + w0 + w1, w2);
			}
		}
		return { trailer, places };
	}
}

/** One more than the largest number of a PDF's objects. */
export function objectCount(pdf: Uint8Array): number {
	return Number(new PdfFile(pdf).trailer.get("Size"));
}

/** What a cross-reference says. */
interface Read {
	readonly trailer: ReadonlyMap<string, string>;
	readonly places: Places;
}

/** By an object's number: 0 for none, 1 for an offset, 2 for a stream of objects and a position in it. */
interface Places {
	readonly kinds: Uint8Array;
	readonly where: Uint32Array;
	readonly positions: Uint32Array;
}

/** The largest number that an object may have: ISO 32000-1, Annex C. */
const MOST_OBJECTS = 8_388_607;

function noPlaces(size: number): Places {
	if (!(size > 0 && size <= MOST_OBJECTS)) throw new Error("A PDF does not say how many objects it has.");
	return { kinds: new Uint8Array(size), where: new Uint32Array(size), positions: new Uint32Array(size) };
}

/** A stream's content. Throws where it is packed in a way that neither the browser nor this program uses. */
export function unpackedStream(entries: ReadonlyMap<string, string>, stream: Uint8Array): Buffer {
	const filter = entries.get("Filter");
	if (filter === undefined) return Buffer.from(stream);
	if (filter !== "/FlateDecode") throw new Error(`A stream is packed in an unknown way: ${filter}.`);
	const content = inflateSync(stream);
	const parameters = entriesOf(entries.get("DecodeParms") ?? "<<>>");
	if (parameters.get("Predictor") === undefined) return content;
	return withoutPrediction(content, Number(parameters.get("Columns") ?? 1));
}

/** Rows of which each says how it differs from the one above it: the PNG filter "Up", and "None". */
function withoutPrediction(content: Buffer, columns: number): Buffer {
	const rows = Math.floor(content.length / (columns + 1));
	const plain = Buffer.alloc(rows * columns);
	for (let row = 0; row < rows; row++) {
		const kind = content[row * (columns + 1)];
		if (kind !== 0 && kind !== 2) throw new Error("A stream is packed with an unknown prediction.");
		for (let i = 0; i < columns; i++) {
			const above = kind === 0 || row === 0 ? 0 : (plain[(row - 1) * columns + i] ?? 0);
			plain[row * columns + i] = (content[row * (columns + 1) + 1 + i] ?? 0) + above;
		}
	}
	return plain;
}
