/**
 * Writes the packs of a site whose files come one after the other.
 *
 *   1. a file is cut into tokens when it comes, and only their numbers are kept; those that a device may
 *      make of others (makers.ts) are put aside
 *   2. after the last one the makers make theirs: where each file of a maker comes out as it was written,
 *      what it makes them from is packed in place of them
 *   3. all are matched, and packs and bundles are written
 */

import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { createContext, runInContext } from "node:vm";
import { isPageText } from "../page-text.ts";
import { type Bundle, HASH_LENGTH, packPath } from "./edition-list.ts";
import { forReader } from "./for-reader.ts";
import { type Maker, type MakersScope, madeFiles } from "./makers.ts";
import { isLater, Packing, type PackOptions, type SiteFile } from "./pack-pages.ts";
import { bundlePacks } from "./packs.ts";
import { SHARED_FILE } from "./page-makers.ts";
import { PLAN } from "./plan-file.ts";

export interface PackWriterOptions extends PackOptions {
	/** The folder of the site; every file lies there by the time that the packs are written. */
	readonly siteDir: string;
	/** The program with the makers, as devices get it. */
	readonly program: string;
	/** The plan, as devices make tables of it (plan-file.ts). */
	readonly plan: string;
	/** What all pages share, as devices make pages of their texts with it (page-text.ts); undefined where none come as texts. */
	readonly shared: string | undefined;
}

/** What is told at the end; packs and bundles lie in the folder by then. */
export interface WrittenPacks {
	/** Hashes of packs that a reader needs first. */
	readonly first: readonly string[];
	readonly later: readonly string[];
	readonly bundles: { readonly packs: readonly Bundle[]; readonly later: readonly Bundle[] };
	/** The makers whose files devices make. */
	readonly makers: readonly string[];
	/** The program that they make files and pages by. */
	readonly program: string;
}

/**
 * Characters of a bundle: a handbook of a thousand drills in one, since compression gains by it. Larger ones
 * gain no more, as compression looks back over some four million, and begin anew where a net breaks off.
 */
const BUNDLE = 6_000_000;

/** Takes the files of a site in any order, and writes its packs. */
export class PackWriter {
	readonly #packing: Packing;
	readonly #options: PackWriterOptions;
	readonly #makers: readonly Maker[];
	/** Hashes of the files that may be made, as a reader needs them. */
	readonly #aside = new Map<string, string>();

	constructor(options: PackWriterOptions) {
		this.#options = options;
		this.#packing = new Packing(options);
		this.#makers = makersOf(options.program);
		if (options.shared !== undefined) this.add({ path: SHARED_FILE, text: options.shared });
	}

	/** Throws where the file holds a sign that packs use. */
	add(file: SiteFile): void {
		const { path, text } = file;
		for (const maker of this.#makers) maker.read(path, text);
		// Whether it is packed is known when all have gone by; a page's text is what its page is made of.
		const mayBeMade = !isPageText(text) && this.#makers.some((maker) => maker.mayMake(path));
		if (mayBeMade) this.#aside.set(path, hashName(forReader(file)));
		else this.#packing.add(file);
	}

	write(): WrittenPacks {
		const makers = this.#make();
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
			makers,
			program: this.#options.program,
		};
	}

	/** Adds what was put aside, or what it is made from; gives the makers that make all theirs as they are. */
	#make(): readonly string[] {
		const { plan, siteDir } = this.#options;
		/** What devices make files of, beside what the site has anyway; each goes with a maker. */
		const ingredients: readonly (SiteFile & { readonly maker: string })[] = [
			{ maker: "tables", path: PLAN, text: plan },
		];
		for (const { path, text } of ingredients) for (const maker of this.#makers) maker.read(path, text);
		const made = new Map<string, readonly string[]>();
		const failed = new Set<string>();
		for (const { maker, files } of madeFiles(this.#makers)) {
			const areSame = files.every(([path, text]) => this.#aside.get(path) === hashName(text));
			if (!areSame) failed.add(maker.name);
			made.set(maker.name, [...(made.get(maker.name) ?? []), ...files.map(([path]) => path)]);
		}
		for (const name of failed) made.delete(name);
		const isMade = new Set([...made.values()].flat());
		for (const path of this.#aside.keys()) {
			if (!isMade.has(path)) {
				this.#packing.add({ path, text: readFileSync(join(siteDir, path), "utf8") });
			}
		}
		for (const ingredient of ingredients) if (made.has(ingredient.maker)) this.#packing.add(ingredient);
		return [...made.keys()];
	}

	#write(text: string): string {
		const hash = hashName(text);
		writeFileSync(join(this.#options.siteDir, packPath(hash)), text);
		return hash;
	}
}

/** What a device has when it has run the program: apart, since it writes into what is global. */
function makersOf(program: string): readonly Maker[] {
	const scope: MakersScope = {};
	runInContext(program, createContext(scope));
	return scope.handbookMakers?.() ?? [];
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
