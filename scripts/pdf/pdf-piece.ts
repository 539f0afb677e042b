/**
 * A stretch of a PDF: objects in a row, written one after the other, that keep their bytes wherever in
 * the file the stretch comes to stand.
 *
 *   1. objects with a stream are written as they are
 *   2. the others are packed together in streams of objects
 *   3. where each object is goes into the file's cross-reference: a place from the start of the stretch
 */

import { deflateSync } from "node:zlib";
import { dictionaryOf } from "./pdf-text.ts";

/** Objects packed together: packing each few apart takes longer and comes out larger. */
const OBJECTS_OF_A_STREAM = 500;

export interface Piece {
	readonly bytes: Uint8Array;
	/**
	 * Four numbers for each object: its own number; 1 and the offset from the start of the piece, and 0;
	 * or 2, the number of the stream that holds it, and its position in there.
	 */
	readonly places: Uint32Array;
}

/** Takes objects, and writes them as a piece. */
export class PieceWriter {
	readonly #chunks: Uint8Array[] = [];
	readonly #places: number[] = [];
	/** What is to be packed: each list in streams of its own. */
	readonly #packed: { readonly number: number; readonly text: string }[][] = [[]];
	#length = 0;

	/** An object without a stream. */
	add(number: number, text: string): void {
		this.#packed.at(-1)?.push({ number, text });
	}

	/** What is added from here on is packed apart: whoever needs some objects reads all of a stream. */
	packApart(): void {
		this.#packed.push([]);
	}

	/** An object without a stream, which is not packed together with others. */
	addPlain(number: number, text: string): void {
		this.#places.push(number, 1, this.#length, 0);
		this.#write(Buffer.from(`${number} 0 obj\n${text}\nendobj\n`, "latin1"));
	}

	/** An object with a stream, packed already if its dictionary says so. */
	addStream(number: number, dictionary: string, content: Uint8Array): void {
		this.#places.push(number, 1, this.#length, 0);
		this.#write(Buffer.from(`${number} 0 obj\n${dictionary}\nstream\n`, "latin1"));
		this.#write(content);
		this.#write(Buffer.from("\nendstream\nendobj\n", "latin1"));
	}

	/** Packs a stream and adds it. */
	addPacked(
		number: number,
		entries: Readonly<Record<string, string | number | undefined>>,
		content: Uint8Array,
	): void {
		const packed = deflateSync(content);
		const dictionary = dictionaryOf({ ...entries, Filter: "/FlateDecode", Length: packed.length });
		this.addStream(number, dictionary, packed);
	}

	/**
	 * The piece.
	 *
	 * @param first a number for the first stream of objects; as many follow as there are
	 */
	finish(first: number): Piece & { readonly next: number } {
		let container = first;
		const streams = this.#packed.flatMap((objects) =>
			Array.from({ length: Math.ceil(objects.length / OBJECTS_OF_A_STREAM) }, (_, i) =>
				objects.slice(i * OBJECTS_OF_A_STREAM, (i + 1) * OBJECTS_OF_A_STREAM),
			),
		);
		for (const held of streams) {
			let offset = 0;
			const head = held.map(({ number, text }) => {
				const line = `${number} ${offset}`;
				offset += text.length + 1;
				return line;
			});
			const start = `${head.join(" ")}\n`;
			const content = Buffer.from(`${start}${held.map(({ text }) => text).join("\n")}\n`, "latin1");
			this.addPacked(container, { Type: "/ObjStm", N: held.length, First: start.length }, content);
			held.forEach(({ number }, position) => {
				this.#places.push(number, 2, container, position);
			});
			container++;
		}
		return {
			bytes: Buffer.concat(this.#chunks, this.#length),
			places: Uint32Array.from(this.#places),
			next: container,
		};
	}

	#write(bytes: Uint8Array): void {
		this.#chunks.push(bytes);
		this.#length += bytes.length;
	}
}

/** Bytes of a row of the cross-reference: what it is, where, and at which position there. */
const ROW = [1, 4, 2] as const;
const ROW_LENGTH = 7;

/** A PDF's first lines: with bytes above 127 for programs that ask whether it is text. */
const HEAD = Buffer.from("%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n", "latin1");

/**
 * A file of pieces. No two of them may use the same number.
 *
 * @param trailer entries of the trailer: the catalogue and the information
 * @param free a number for the cross-reference, above all others
 */
export function fileOf(
	pieces: readonly Piece[],
	trailer: Readonly<Record<string, string>>,
	free: number,
): Uint8Array {
	const size = free + 1;
	const rows = Buffer.alloc(size * ROW_LENGTH);
	// Free numbers lead to no next one, and are never used again: ISO 32000-1, 7.5.4.
	for (let number = 0; number < size; number++) rows.writeUInt16BE(0xffff, number * ROW_LENGTH + 5);
	const isTaken = (row: number) => rows[row] !== 0;
	let start = HEAD.length;
	for (const { bytes, places } of pieces) {
		for (let i = 0; i < places.length; i += 4) {
			const [number = 0, kind = 0, where = 0, position = 0] = places.subarray(i, i + 4);
			const row = number * ROW_LENGTH;
			if (number >= free || isTaken(row)) throw new Error(`The object ${number} stands in a PDF twice.`);
			rows[row] = kind;
			rows.writeUInt32BE(kind === 1 ? start + where : where, row + 1);
			rows.writeUInt16BE(position, row + 5);
		}
		start += bytes.length;
	}
	const last = free * ROW_LENGTH;
	rows[last] = 1;
	rows.writeUInt32BE(start, last + 1);
	rows.writeUInt16BE(0, last + 5);
	const packed = deflateSync(predicted(rows));
	const dictionary = dictionaryOf({
		Type: "/XRef",
		Size: size,
		W: `[${ROW.join(" ")}]`,
		...trailer,
		Filter: "/FlateDecode",
		DecodeParms: dictionaryOf({ Predictor: 12, Columns: ROW_LENGTH }),
		Length: packed.length,
	});
	return Buffer.concat([
		HEAD,
		...pieces.map(({ bytes }) => bytes),
		Buffer.from(`${free} 0 obj\n${dictionary}\nstream\n`, "latin1"),
		packed,
		Buffer.from(`\nendstream\nendobj\nstartxref\n${start}\n%%EOF\n`, "latin1"),
	]);
}

/** Where the first piece of a file begins. */
export const FIRST_OFFSET = HEAD.length;

/** Each row as what it differs by from the one above it (the PNG filter "Up"): rows are much alike. */
function predicted(rows: Buffer): Buffer {
	const count = rows.length / ROW_LENGTH;
	const out = Buffer.alloc(count * (ROW_LENGTH + 1));
	for (let row = 0; row < count; row++) {
		const to = row * (ROW_LENGTH + 1);
		const from = row * ROW_LENGTH;
		out[to] = 2;
		for (let i = 0; i < ROW_LENGTH; i++) {
			const above = row === 0 ? 0 : (rows[from - ROW_LENGTH + i] ?? 0);
			out[to + 1 + i] = (rows[from + i] ?? 0) - above;
		}
	}
	return out;
}
