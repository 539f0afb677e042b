/**
 * What is known of a printed binder beside its PDF: the file's name, and what other stages ask of it.
 */

import type { Folder } from "../files/folder.ts";
import type { ClubEdition } from "../model.ts";
import { editionId } from "../views/sheets/edition.ts";
import type { BinderFile } from "../views/term.ts";

/** The binder in a file of an output, if it is there and of this edition. */
export function binderOf(out: Folder, pdfFile: string, edition: ClubEdition): BinderFile | undefined {
	try {
		const { size = 0 } = out.info(pdfFile) ?? {};
		if (size === 0) return undefined;
		const said: unknown = JSON.parse(out.readText(editionFile(pdfFile)));
		if (typeof said !== "object" || said === null || !("edition" in said && "leaves" in said))
			return undefined;
		if (said.edition !== editionId(edition) || !Array.isArray(said.leaves)) return undefined;
		return { pages: 2 * said.leaves.length, size: Math.max(1, Math.round(size / 100_000)) / 10 };
	} catch {
		return undefined;
	}
}

/** Where the edition of a printed file is written. */
export function editionFile(pdfFile: string): string {
	return pdfFile.replace(/(\.pdf)?$/, ".edition.json");
}
