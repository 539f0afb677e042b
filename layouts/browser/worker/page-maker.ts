/**
 * Makes a page of its text, as the build does, when it is opened. The page is as a reader needs it:
 * without what its head says to services.
 */

import { addressFile } from "../../../scripts/render/addresses.ts";
import { oneByte } from "../../../scripts/render/html.ts";
import { forReader } from "../../../scripts/render/offline/for-reader.ts";
import { readPage, readShared, type SharedFacts } from "../../../scripts/render/page-text.ts";
import * as english from "../../../scripts/words/en.ts";
import type { Words } from "../../../scripts/words/words.ts";
import { mainOf } from "../../pages/kinds-on-devices.ts";
import { documentWith } from "../../parts/document.ts";

let last: { readonly text: string; readonly facts: SharedFacts } | undefined;

/**
 * @param text the page's
 * @param shared what all pages share, as text
 */
export function makePage(text: string, shared: string): string {
	// Pages are opened one after the other, and what they share stays the same.
	if (last?.text !== shared) last = { text: shared, facts: readShared(shared, english as Words) };
	const page = readPage(text, last.facts);
	const whole = documentWith(mainOf, page, () => {
		throw new Error(`No page of the kind ${page.kind} has code in it.`);
	});
	return forReader({ path: addressFile(page.address), text: oneByte(whole) });
}
