/**
 * Fetches what an edition is made of, and believes nothing: a hall's network may answer every address
 * with a page of its own, and a host may be half way through publishing.
 */

import { fromColumns } from "../../scripts/records/columns.ts";
import { HASH_LENGTH, type ListedFile, recordsPath } from "../../scripts/records/edition-list.ts";

/** Where a larger share of the records is missing, bundles are taken. */
const FEW = 0.5;
/** Requests at a time: what browsers allow to one host over HTTP/1.1. */
const AT_ONCE = 6;

/**
 * Puts files into a cache, each under the address given for it; those already there are left.
 *
 * @param addressOf the address to fetch a file from
 * @param keyOf the address to keep it under
 * @param progress told after each file
 * Throws at the first file that cannot be fetched or is not the one listed; what came before stays, so
 * that another try goes on from there.
 */
export async function takeFiles(
	cache: Cache,
	files: readonly ListedFile[],
	addressOf: (file: ListedFile) => string,
	keyOf: (file: ListedFile) => string,
	progress: (done: number) => void = () => undefined,
): Promise<void> {
	let next = 0;
	let done = 0;
	let failed = false;
	const lane = async () => {
		for (let file = files[next++]; file !== undefined && !failed; file = files[next++]) {
			try {
				if ((await cache.match(keyOf(file))) === undefined) {
					await cache.put(keyOf(file), await fetchListed(addressOf(file), file));
				}
			} catch (error) {
				failed = true;
				throw error;
			}
			progress(++done);
		}
	};
	// What is on its way still counts for another try.
	const lanes = await Promise.allSettled(Array.from({ length: AT_ONCE }, lane));
	for (const result of lanes) if (result.status === "rejected") throw result.reason;
}

/**
 * Puts files of records into a cache. A device that has few of them takes them in bundles, which are
 * smaller together; one that lacks some takes those.
 */
export async function takeRecords(
	cache: Cache,
	records: readonly ListedFile[],
	bundles: readonly string[],
	addressOf: (file: ListedFile) => string,
	keyOf: (file: ListedFile) => string,
	progress: (done: number) => void = () => undefined,
): Promise<void> {
	const known = new Set((await cache.keys()).map(({ url }) => url));
	const missing = records.filter((file) => !known.has(keyOf(file)));
	if (missing.length > records.length * FEW) {
		const files = bundles.map((hash): ListedFile => ({ path: recordsPath(hash), hash }));
		const share = records.length / files.length;
		await takeFiles(cache, files, addressOf, keyOf, (done) => progress(Math.floor(done * share)));
		const taken = await Promise.all(files.map(async (file) => (await cache.match(keyOf(file)))?.text()));
		const texts = fromColumns(taken.map((text) => text ?? "[]"));
		await Promise.all(records.map((file, i) => cache.put(keyOf(file), new Response(texts[i]))));
		for (const file of files) await cache.delete(keyOf(file));
	}
	await takeFiles(cache, records, addressOf, keyOf, progress);
}

/** The file with the hash that is listed; asked for a second time past the browser's own cache. */
async function fetchListed(address: string, file: ListedFile): Promise<Response> {
	let why = "";
	for (const cache of ["default", "reload"] as const) {
		const response = await fetch(address, { cache, credentials: "same-origin" });
		if (!response.ok) {
			why = `${file.path}: ${response.status}`;
			continue;
		}
		const body = await response.arrayBuffer();
		if ((await hashOf(body)) !== file.hash) {
			why = `${file.path} is not the file of this edition`;
			continue;
		}
		const type = response.headers.get("Content-Type") ?? "application/octet-stream";
		return new Response(body, { headers: { "Content-Type": type } });
	}
	throw new Error(why);
}

/** As the build names files by what is in them. */
async function hashOf(body: ArrayBuffer): Promise<string> {
	const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
	return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0"))
		.join("")
		.slice(0, HASH_LENGTH);
}
