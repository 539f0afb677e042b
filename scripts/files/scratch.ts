/** A folder for one piece of work, in the system's folder for such, gone when the work is done. */

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Folder, openFolder } from "./folder.ts";

export function inScratchFolder<T>(name: string, work: (folder: Folder) => T): T {
	const { folder, remove } = openScratch(name);
	try {
		return work(folder);
	} finally {
		remove();
	}
}

/** For work that ends elsewhere: whoever opens it removes it. */
export function openScratch(name: string): { readonly folder: Folder; readonly remove: () => void } {
	const folder = openFolder(mkdtempSync(join(tmpdir(), `${name}-`)));
	return { folder, remove: () => rmSync(folder.path, { recursive: true, force: true }) };
}
