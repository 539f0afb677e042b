/**
 * What is known of a printed binder beside its PDF: the file's name, and what other stages ask of it.
 */

import { readFileSync, statSync } from "node:fs";
import type { ClubEdition } from "../model.ts";
import type { BinderFile } from "../render/views/term.ts";

/** What an edition is called in the file. */
export function editionId({ number, content }: ClubEdition): string {
	return `${number}-${content.slice(0, 8)}`;
}

/** The binder in a file, if it is there and of this edition. */
export function binderOf(pdfFile: string, edition: ClubEdition): BinderFile | undefined {
	try {
		const { size } = statSync(pdfFile);
		const said: unknown = JSON.parse(readFileSync(editionFile(pdfFile), "utf8"));
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
