/** Unpacks a file of `npm pack`, whose files all stand below `package/`. */

import { createReadStream } from "node:fs";
import { pipeline } from "node:stream/promises";
import { createGunzip } from "node:zlib";
import { extract } from "tar-fs";

export async function unpackTarball(file: string, to: string): Promise<void> {
	const map = (header: { name: string }) => {
		header.name = header.name.replace(/^package\//, "");
		return header;
	};
	await pipeline(createReadStream(file), createGunzip(), extract(to, { map }));
}
