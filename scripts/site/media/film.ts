/**
 * Videos as they are served: the club's own bytes, with what says where, when and on what they were taken
 * made empty in place. Nothing moves, so no position inside the file has to be changed.
 *
 * MP4 is a tree of boxes (ISO/IEC 14496-12): `udta`, `meta` and `uuid` become `free` boxes of the same
 * size. WebM is a tree of elements (RFC 8794, RFC 9559): `Tags` becomes `Void`. Pictures and sound are not
 * touched. Rotation stands in the track's matrix, which stays.
 */

export interface Film {
	readonly bytes: Uint8Array;
	readonly type: "video/mp4" | "video/webm";
	/** As it is shown, in pixels; undefined where the file does not say. */
	readonly width: number | undefined;
	readonly height: number | undefined;
}

/** Reads a video and empties its metadata. Throws an `Error` with words for its author where it is broken. */
export function cleanFilm(original: Uint8Array): Film {
	const bytes = Buffer.from(original);
	return bytes.subarray(4, 8).toString("latin1") === "ftyp" ? cleanMp4(bytes) : cleanWebm(bytes);
}

const BROKEN = "ends in the middle of a part";

interface Box {
	readonly type: string;
	/** Where its content begins and ends. */
	readonly from: number;
	readonly to: number;
	/** Where its type stands. */
	readonly typeAt: number;
}

function* boxesIn(bytes: Buffer, start: number, end: number): Generator<Box> {
	let at = start;
	while (at + 8 <= end) {
		let size = bytes.readUInt32BE(at);
		let from = at + 8;
		if (size === 1) {
			if (at + 16 > end) throw new Error(BROKEN);
			size = Number(bytes.readBigUInt64BE(at + 8));
			from = at + 16;
		} else if (size === 0) size = end - at;
		if (size < from - at || at + size > end) throw new Error(BROKEN);
		yield { type: bytes.subarray(at + 4, at + 8).toString("latin1"), from, to: at + size, typeAt: at + 4 };
		at += size;
	}
}

/** Boxes that hold what the film is taken with, where and by whom. */
const ABOUT = new Set(["udta", "meta", "uuid"]);
/** Boxes whose children are looked at. */
const INSIDE = new Set(["moov", "trak", "mdia", "minf", "stbl", "moof", "traf"]);

function cleanMp4(bytes: Buffer): Film {
	let hasMovie = false;
	let size: { readonly width: number; readonly height: number } | undefined;
	const visit = (start: number, end: number): void => {
		for (const { type, from, to, typeAt } of boxesIn(bytes, start, end)) {
			if (ABOUT.has(type)) {
				bytes.write("free", typeAt, "latin1");
				bytes.fill(0, from, to);
			}
			if (type === "moov") hasMovie = true;
			if (type === "tkhd") size ??= sizeOfTrack(bytes.subarray(from, to));
			if (INSIDE.has(type)) visit(from, to);
		}
	};
	visit(0, bytes.length);
	if (!hasMovie) throw new Error("has no list of its pictures");
	return { bytes, type: "video/mp4", width: size?.width, height: size?.height };
}

/** The track's size in whole pixels, turned as its matrix says; undefined for sound. */
function sizeOfTrack(header: Buffer): { width: number; height: number } | undefined {
	const matrix = header[0] === 1 ? 52 : 40;
	if (header.length < matrix + 44) throw new Error(BROKEN);
	const width = header.readUInt32BE(matrix + 36) >>> 16;
	const height = header.readUInt32BE(matrix + 40) >>> 16;
	if (width === 0 || height === 0) return undefined;
	const lying = header.readInt32BE(matrix) === 0 && header.readInt32BE(matrix + 4) !== 0;
	return lying ? { width: height, height: width } : { width, height };
}

/** Ids of EBML and Matroska elements. */
const ID = {
	segment: 0x18538067,
	tags: 0x1254c367,
	tracks: 0x1654ae6b,
	entry: 0xae,
	video: 0xe0,
	width: 0xb0,
	height: 0xba,
} as const;
const PARENTS: ReadonlySet<number> = new Set([ID.segment, ID.tracks, ID.entry, ID.video]);
const VOID = 0xec;

function cleanWebm(bytes: Buffer): Film {
	let width: number | undefined;
	let height: number | undefined;
	let hasSegment = false;
	const visit = (start: number, end: number): void => {
		let at = start;
		while (at < end) {
			const idLength = lengthOf(bytes[at] ?? 0);
			const from = at + idLength;
			const sizeLength = lengthOf(bytes[from] ?? 0);
			if (idLength > 4 || sizeLength > 8 || from + sizeLength > end) throw new Error(BROKEN);
			const id = bytes.readUIntBE(at, idLength);
			const content = from + sizeLength;
			const size = sizeAt(bytes, from, sizeLength);
			const to = size === undefined ? end : content + size;
			if (to > end) throw new Error(BROKEN);
			if (id === ID.tags) makeVoid(bytes, at, to);
			else if (id === ID.width && to - content <= 4) width ??= bytes.readUIntBE(content, to - content);
			else if (id === ID.height && to - content <= 4) height ??= bytes.readUIntBE(content, to - content);
			else if (PARENTS.has(id)) {
				if (id === ID.segment) hasSegment = true;
				visit(content, to);
			} else if (size === undefined) return; // A live recording's cluster: nothing follows that can be found.
			at = to;
		}
	};
	visit(0, bytes.length);
	if (!hasSegment) throw new Error("has no list of its pictures");
	return { bytes, type: "video/webm", width, height };
}

/** The length of a variable-length number, from the zeros its first byte begins with; 9 where there is none. */
function lengthOf(first: number): number {
	return Math.clz32(first) - 24 + 1;
}

/** A size without its marker bit; undefined where all bits are set, which means unknown. */
function sizeAt(bytes: Buffer, at: number, length: number): number | undefined {
	let value = (bytes[at] ?? 0) & ((1 << (8 - length)) - 1);
	let unknown = value === (1 << (8 - length)) - 1;
	for (let i = 1; i < length; i++) {
		const byte = bytes[at + i] ?? 0;
		if (byte !== 0xff) unknown = false;
		value = value * 256 + byte;
	}
	return unknown ? undefined : value;
}

/** Turns an element into one that says nothing, of the same length. An element of `Tags` has five bytes or more. */
function makeVoid(bytes: Buffer, at: number, to: number): void {
	const total = to - at;
	const sizeLength = Math.min(8, total - 1);
	const size = BigInt(total - 1 - sizeLength);
	bytes.fill(0, at, to);
	bytes[at] = VOID;
	const marked = size | (1n << BigInt(7 * sizeLength));
	for (let i = 0; i < sizeLength; i++) {
		bytes[at + 1 + i] = Number((marked >> BigInt(8 * (sizeLength - 1 - i))) & 0xffn);
	}
}
