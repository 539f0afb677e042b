/** Bundled programs, kept for the next build: they depend on this program alone, and on the language. */

import { keep, readKeptJson } from "./kept.ts";
import { programFingerprint } from "./program-fingerprint.ts";

/** Texts by what they are called. */
export type Bundles = Readonly<Record<string, string>>;

/** Bundles of a few versions of the program, in a few languages. */
const MOST = 12;

/** The bundles of this name as they were made by this very program, else made now. */
export async function keptBundles(name: string, make: () => Promise<Bundles>): Promise<Bundles> {
	const file = `bundles/${name}.${programFingerprint().slice(0, 16)}.json`;
	const known = readKeptJson(file);
	if (typeof known === "object" && known !== null) return known as Bundles;
	const made = await make();
	keep(file, JSON.stringify(made), MOST);
	return made;
}
