/**
 * What an edition is made of, as the worker carries it in its own text: so the browser's check for a
 * changed worker is the check for a new edition.
 */

/** A file that is fetched under its own address, as fonts are. */
export interface ListedFile {
	/** From the root of the site. */
	readonly path: string;
	/** As `hashName` gives it. */
	readonly hash: string;
}

/** Packs together in one file, for a device that has none of them. */
export interface Bundle {
	readonly hash: string;
	/** So many packs, in the order of the list, after those of the bundle before. */
	readonly packs: number;
}

export interface EditionList {
	/** The name that pages say. */
	readonly edition: string;
	/** Names these very bytes: pages can differ under the same content, when the program changed. */
	readonly release: string;
	/** Packs that the edition is not ready without, by hash. */
	readonly packs: readonly string[];
	/** Packs that follow when it is ready. */
	readonly later: readonly string[];
	/** The same packs in bundles. */
	readonly bundles: { readonly packs: readonly Bundle[]; readonly later: readonly Bundle[] };
	/** Binary files that it is not ready without. */
	readonly files: readonly ListedFile[];
	/** The program that makes files of others (makers.ts), and what of it is used. */
	readonly program: string | undefined;
	readonly makers: readonly string[];
	/** The club's pictures, each in one size, kept one by one afterwards. */
	readonly pictures: readonly ListedFile[];
}

/** Where the worker stands: at the root, since a worker's scope is its folder. */
export const WORKER_FILE = "worker.js";

/** Where packs stand, from the root of the site. */
export const PACK_FOLDER = "offline/";

export function packPath(hash: string): string {
	return `${PACK_FOLDER}${hash}.txt`;
}

/** Letters of a hash that are kept: 80 bits of SHA-256. */
export const HASH_LENGTH = 20;

/** What pages and worker say to each other. */
export type ToWorker =
	/** Take the edition that waits. */
	| { readonly kind: "change" }
	/** Fetch what may come later, if it is not there yet, and tell how things stand. */
	| { readonly kind: "continue" };

export type FromWorker =
	| { readonly kind: "taking"; readonly edition: string; readonly done: number; readonly of: number }
	| { readonly kind: "failed"; readonly edition: string; readonly why: string }
	| { readonly kind: "kept"; readonly edition: string; readonly whole: boolean; readonly missing: number };
