/** The file that `--since` names, and what is wrong with it in a line. */

import { EditionFault, readEdition } from "../print/edition.ts";
import type { Edition } from "../views/sheets/edition.ts";
import type { Output } from "./report.ts";

/** The edition; null where there is none in the file, which is then said. */
export async function readSince(file: string, out: Output): Promise<Edition | null> {
	try {
		return await readEdition(file);
	} catch (error) {
		if (!(error instanceof EditionFault)) throw error;
		out.line(`${error.message} Name the .edition.json beside an earlier binder, or that binder's PDF.`);
		return null;
	}
}
