/** Unpacks what packages hold compressed (Brotli, RFC 7932) into a folder, bit by bit: it may be large. */

import { createReadStream, createWriteStream } from "node:fs";
import { pipeline } from "node:stream/promises";
import { createBrotliDecompress } from "node:zlib";
import { extract } from "tar-fs";
import type { Folder } from "./folder.ts";

/** One file, which may be run as a program. */
export async function unpackProgram(archive: string, folder: Folder, path: string): Promise<void> {
	const to = createWriteStream(folder.place(path), { flags: "wx", mode: 0o700 });
	await pipeline(createReadStream(archive), createBrotliDecompress(), to);
}

/** A tar archive. */
export async function unpackFolder(archive: string, folder: Folder, path: string): Promise<void> {
	folder.makeFolder(path);
	await pipeline(createReadStream(archive), createBrotliDecompress(), extract(folder.place(path)));
}
