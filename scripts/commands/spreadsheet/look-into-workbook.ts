/**
 * Looks through a workbook before it is read: how much it unpacks to, and how far apart its cells stand.
 *
 * A file of a few kilobytes may unpack to gigabytes, and one cell in the last row and column of a sheet
 * makes a table of seventeen thousand million cells. Each part is unpacked piece by piece here, and nothing
 * of it is kept, so that this takes hardly any memory. The directory of the parts is read as the format's
 * description has it (PKWARE, .ZIP File Format Specification 6.3.10, sections 4.3.7, 4.3.12 and 4.3.16).
 */

import { createInflateRaw } from "node:zlib";
import { UnreadableSheet } from "./unreadable-sheet.ts";

/** Bytes of all parts together: some 200,000 rows of ten cells. */
const MOST_BYTES = 150_000_000;
/** A part larger than this that was packed to less than a hundredth is no table that people filled in. */
const LARGE = 10_000_000;
const MOST_PACKED = 100;
/** Cells of the smallest table that holds all of a sheet's. */
const MOST_CELLS = 20_000_000;

interface Part {
	readonly name: string;
	readonly packed: Buffer;
	readonly isDeflated: boolean;
}

/** Throws UnreadableSheet where a workbook unpacks to too much, or is no workbook. */
export async function lookIntoWorkbook(name: string, bytes: Buffer): Promise<void> {
	let left = MOST_BYTES;
	for (const part of partsOf(name, bytes)) {
		const isSheet = /^xl\/worksheets\/[^/]+\.xml$/i.test(part.name);
		const corner = new Corner();
		let size = 0;
		for await (const piece of unpacked(name, part)) {
			size += piece.length;
			left -= piece.length;
			if (left < 0 || (size > LARGE && size > part.packed.length * MOST_PACKED)) {
				throw new UnreadableSheet(
					`${name} unpacks to far more than it should: ${part.name} alone is over ${Math.floor(size / 1_000_000)} MB. Copy the table into a new workbook, or save it as .csv.`,
				);
			}
			if (isSheet) corner.see(piece);
		}
		if (corner.rows * corner.columns > MOST_CELLS) {
			throw new UnreadableSheet(
				`${name}: a cell stands far away from the others, at ${corner.cell}, so that the table would have ${corner.rows} rows and ${corner.columns} columns. Delete what stands there, and save the workbook again.`,
			);
		}
	}
}

/** The last row and column that cells of a sheet stand in. */
class Corner {
	rows = 0;
	columns = 0;
	/** The cell that made the table grow last. */
	cell = "";
	#before = "";

	see(piece: Buffer): void {
		const text = this.#before + piece.toString("latin1");
		for (const [, letters = "", row = ""] of text.matchAll(/ r="([A-Z]{1,3})(\d{1,7})"/g)) {
			const column = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
			if (Number(row) <= this.rows && column <= this.columns) continue;
			this.rows = Math.max(this.rows, Number(row));
			this.columns = Math.max(this.columns, column);
			this.cell = letters + row;
		}
		// A cell's place may be cut in two.
		this.#before = text.slice(-20);
	}
}

async function* unpacked(name: string, { packed, isDeflated }: Part): AsyncGenerator<Buffer> {
	if (!isDeflated) {
		yield packed;
		return;
	}
	const stream = createInflateRaw();
	stream.end(packed);
	try {
		for await (const piece of stream) yield piece as Buffer;
	} catch (error) {
		if (error instanceof UnreadableSheet) throw error;
		throw damaged(name);
	} finally {
		stream.destroy();
	}
}

/** The parts by the directory at the end of the file. */
function partsOf(name: string, bytes: Buffer): readonly Part[] {
	const end = bytes.lastIndexOf("PK\x05\x06", undefined, "latin1");
	if (end < 0 || end + 22 > bytes.length) throw damaged(name);
	const count = bytes.readUInt16LE(end + 10);
	let at = bytes.readUInt32LE(end + 16);
	const parts: Part[] = [];
	try {
		for (let i = 0; i < count; i++) {
			if (bytes.readUInt32LE(at) !== 0x02014b50) throw damaged(name);
			const method = bytes.readUInt16LE(at + 10);
			const size = bytes.readUInt32LE(at + 20);
			const nameLength = bytes.readUInt16LE(at + 28);
			const local = bytes.readUInt32LE(at + 42);
			const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
			if (start + size > bytes.length) throw damaged(name);
			parts.push({
				name: bytes.toString("utf8", at + 46, at + 46 + nameLength),
				packed: bytes.subarray(start, start + size),
				isDeflated: method === 8,
			});
			at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
		}
	} catch (error) {
		// A place beyond the end of the file.
		if (error instanceof RangeError) throw damaged(name);
		throw error;
	}
	return parts;
}

function damaged(name: string): UnreadableSheet {
	return new UnreadableSheet(
		`${name} cannot be read as a workbook: it is cut short or damaged. Open it and save it again as .xlsx.`,
	);
}
