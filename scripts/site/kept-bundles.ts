/** Bundled programs, kept for the next build: they depend on this program alone, and on the language. */

import { programCache } from "../files/cache.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";

/** Texts by what they are called. */
export type Bundles = Readonly<Record<string, string>>;

/** Bundles of a few versions of the program, in a few languages. */
const MOST = 12;

/** The bundles of this name as they were made by this very program, else made now. */
export async function keptBundles(name: string, make: () => Promise<Bundles>): Promise<Bundles> {
	const file = `${name}.${programFingerprint().slice(0, 16)}.json`;
	const cache = programCache("bundles");
	const known = cache.findJson(file);
	if (typeof known === "object" && known !== null) return known as Bundles;
	const made = await make();
	cache.put(file, Buffer.from(JSON.stringify(made)));
	cache.leave(MOST);
	return made;
}
