/**
 * What an edition is made of, as the worker carries it in its own text: so the browser's check for a
 * changed worker is the check for a new edition.
 */

import type { ClubEdition } from "../model.ts";

/** A file that is fetched under its own address, as fonts are. */
export interface ListedFile {
	/** From the root of the site. */
	readonly path: string;
	/** As `hashName` gives it. */
	readonly hash: string;
}

export interface EditionList {
	/** The name that pages say. */
	readonly edition: string;
	readonly issued: ClubEdition;
	/** Names these very bytes: pages can differ under the same content, when the program changed. */
	readonly release: string;
	/** What pages are made of (records.ts): names of the files of records, and their hashes. */
	readonly records: readonly (readonly [name: string, hash: string])[];
	/** Hashes of bundles: the same files together (`columns.ts`), for a device that has few of them. */
	readonly bundles: readonly string[];
	/** What pages load: styles, programs, fonts. */
	readonly files: readonly ListedFile[];
	/** The program that makes pages of records, from the root of the site. */
	readonly program: string;
	/** Kept one by one afterwards: pages that devices do not make, what moves figures, and the club's pictures, each in one size. */
	readonly later: readonly ListedFile[];
}

/** Where the worker stands: at the root, since a worker's scope is its folder. */
export const WORKER_FILE = "worker.js";

/** Where records and the program stand, from the root of the site. */
export const OFFLINE_FOLDER = "offline/";

/** The file of records, or bundle of them, with a hash. */
export function recordsPath(hash: string): string {
	return `${OFFLINE_FOLDER}${hash}.json`;
}

/** Files of records as one text: JSON has no line ends of its own. */
export function bundled(texts: readonly string[]): string {
	return texts.join("\n");
}

/** Letters that make a text two bytes a letter: read and parsed in twice the time, at every first page. */
const WIDE = /[\u0100-\uffff]/g;

/** JSON with those as it may write them, by their numbers. */
export function escapeWide(json: string): string {
	return json.replace(WIDE, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

export function unbundled(text: string): readonly string[] {
	return text.split("\n");
}

/** Letters of a hash that are kept: 80 bits of SHA-256. */
export const HASH_LENGTH = 20;

/** What pages and worker say to each other. */
export type ToWorker =
	/** Take the edition that waits. */
	| { readonly kind: "change" }
	/** Fetch what may come later, or was taken away, and tell how things stand. */
	| { readonly kind: "continue" };

export type FromWorker =
	| { readonly kind: "taking"; readonly edition: string; readonly done: number; readonly of: number }
	| { readonly kind: "failed"; readonly edition: string; readonly why: string }
	| { readonly kind: "kept"; readonly edition: string; readonly missing: number };
