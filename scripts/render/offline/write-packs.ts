/**
 * Writes the packs of a site whose files come one after the other.
 *
 * A file is cut into tokens when it comes, and only their numbers are kept; after the last one all are
 * matched, and packs and bundles are written.
 */

import { createHash } from "node:crypto";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { BodiesMaker } from "./bodies-maker.ts";
import { BODIES, type Bundle, HASH_LENGTH, packPath } from "./edition-list.ts";
import { isLater, Packing, type PackOptions, type SiteFile } from "./pack-pages.ts";
import { bundlePacks } from "./packs.ts";

export interface PackWriterOptions extends PackOptions {
	/** The folder of the site. */
	readonly siteDir: string;
}

/** What is told at the end; packs and bundles lie in the folder by then. */
export interface WrittenPacks {
	/** Hashes of packs that a reader needs first. */
	readonly first: readonly string[];
	readonly later: readonly string[];
	readonly bundles: { readonly packs: readonly Bundle[]; readonly later: readonly Bundle[] };
	/** Whether a page has letters that the smaller font lacks. */
	readonly isExtended: boolean;
	/** Whether the search's last file, made of the pages, is the one that the build made of the content. */
	readonly canMakeBodies: boolean;
}

/** Characters of a bundle: large, since compression gains by it, and some, so that not all begins anew. */
const BUNDLE = 1_500_000;

/** Takes the files of a site in any order, and writes its packs. */
export class PackWriter {
	readonly #packing: Packing;
	readonly #maker = new BodiesMaker();
	readonly #siteDir: string;
	#isExtended = false;
	#bodies: string | undefined;

	constructor(options: PackWriterOptions) {
		this.#siteDir = options.siteDir;
		this.#packing = new Packing(options);
	}

	/** Throws where the file holds a sign that packs use. */
	add(file: SiteFile): void {
		const { path, text } = file;
		this.#isExtended ||= hasExtendedLetters(text);
		this.#maker.read(path, text);
		// Whether it is packed is known when all pages have gone by.
		if (path === BODIES) this.#bodies = text;
		else this.#packing.add(file);
	}

	write(): WrittenPacks {
		const made = this.#maker.write();
		const bodies = this.#bodies;
		const canMakeBodies = made !== undefined && made === bodies;
		if (bodies !== undefined && !canMakeBodies) this.#packing.add({ path: BODIES, text: bodies });
		const inOrder = [...this.#packing.packs()].sort(([a], [b]) => (a < b ? -1 : 1));
		const first = inOrder.filter(([name]) => !isLater(name)).map(([, text]) => text);
		const later = inOrder.filter(([name]) => isLater(name)).map(([, text]) => text);
		const bundled = (texts: readonly string[]): readonly Bundle[] =>
			inBundles(texts).map((together) => ({
				hash: this.#write(bundlePacks(together)),
				packs: together.length,
			}));
		return {
			first: first.map((text) => this.#write(text)),
			later: later.map((text) => this.#write(text)),
			bundles: { packs: bundled(first), later: bundled(later) },
			isExtended: this.#isExtended,
			canMakeBodies,
		};
	}

	#write(text: string): string {
		const hash = hashName(text);
		writeFileSync(join(this.#siteDir, packPath(hash)), text);
		return hash;
	}
}

/** Texts that follow each other, as many as make a bundle of its usual size. */
function inBundles(texts: readonly string[]): readonly (readonly string[])[] {
	const bundles: string[][] = [];
	let size = Number.POSITIVE_INFINITY;
	for (const text of texts) {
		if (size + text.length > BUNDLE) {
			bundles.push([]);
			size = 0;
		}
		bundles.at(-1)?.push(text);
		size += text.length;
	}
	return bundles;
}

/** The name of what is in a file: letters of its SHA-256. */
export function hashName(content: string | Uint8Array): string {
	return createHash("sha256").update(content).digest("hex").slice(0, HASH_LENGTH);
}

/** Whether a page, in which letters beyond Latin-1 are references, has one that the smaller font lacks. */
function hasExtendedLetters(text: string): boolean {
	for (let at = text.indexOf("&#"); at >= 0; at = text.indexOf("&#", at + 2)) {
		const code = Number.parseInt(text.slice(at + 2, at + 8), 10);
		if ((code >= 0x100 && code <= 0x2ba) || (code >= 0x1e00 && code <= 0x1eff)) return true;
	}
	return false;
}
