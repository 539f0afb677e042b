/**
 * Makes a site one that works without a network: records of the curriculum, the program that makes pages
 * of them, and the worker that takes both.
 *
 *   1. write each file of records under the hash of what is in it, so that one that did not change is not
 *      fetched again, and the same files in bundles, which compress better and are few, for first visits
 *   2. list what the edition is made of, and bundle the worker with that list in front
 *
 * Data files and the binder are downloads for a desk, and stay on the host.
 */

import { openFolder } from "../files/folder.ts";
import type { ClubEdition } from "../model.ts";
import { inColumns } from "../records/columns.ts";
import {
	type EditionList,
	type ListedFile,
	OFFLINE_FOLDER,
	recordsPath,
	WORKER_FILE,
} from "../records/edition-list.ts";
import { hashName } from "../records/hash-name.ts";
import { sizesForPhones } from "../records/picture-sizes.ts";
import type { RecordFile } from "../records/records.ts";
import { editionNameOf } from "../words/edition-name.ts";
import type { Words } from "../words/words.ts";
import { bundleProgram } from "./bundle-program.ts";

const KEPT = /\.(css|js|svg|webmanifest|woff2)$/;
const PICTURE = /^media\/.*\.(avif|gif|jpe?g|png|svg|webp)$/i;
/** The font for letters beyond Western European ones: kept where the handbook has any. */
const EXTENDED_FONT = "assets/text-latin-ext.woff2";
/** Letters that the smaller of the two fonts lacks; `site.css` has both ranges. Our own words have none of them. */
const EXTENDED = /[\u0100-\u0130\u0132-\u0151\u0154-\u02ba\u1e00-\u1eff]/;

/** Drawn figures are whole without it: it follows when the handbook can be read. */
const MOTION = "assets/motion.js";

export interface OfflineFacts {
	/** Pages say its name. */
	readonly edition: ClubEdition;
	readonly words: Words;
	readonly records: readonly RecordFile[];
	/** What pages load, and pictures, as paths from the root of the site; they lie there. */
	readonly others: readonly string[];
	/** Pages that devices do not make, by their files; they lie there. */
	readonly readyMade: readonly string[];
}

/** Adds records, program and worker to the site in a folder; gives the list that the worker takes. */
export async function writeOffline(siteDir: string, facts: OfflineFacts): Promise<EditionList> {
	const { edition: issued, words, records, others, readyMade } = facts;
	const isExtended = records.some(({ text }) => EXTENDED.test(text));
	const edition = editionNameOf(facts);
	const site = openFolder(siteDir);
	const write = (text: string): string => {
		const hash = hashName(text);
		site.write(recordsPath(hash), text);
		return hash;
	};
	const listed = (path: string): ListedFile => ({ path, hash: hashName(site.read(path)) });
	const making = await bundleProgram("make.ts", words);
	const program = `${OFFLINE_FOLDER}${hashName(making)}.js`;
	site.write(program, making);
	const parts = {
		records: records.map(({ name, text }) => [name, write(text)] as const),
		bundles: inColumns(records.map(({ text }) => text)).map(write),
		files: others
			.filter((path) => KEPT.test(path) && !PICTURE.test(path) && (path !== EXTENDED_FONT || isExtended))
			.filter((path) => path !== MOTION)
			.map(listed),
		program,
		later: [
			...readyMade,
			...others.filter((path) => path === MOTION),
			...sizesForPhones(others.filter((path) => PICTURE.test(path))),
		].map(listed),
	};
	const release = `${issued.number}-${hashName(JSON.stringify(parts)).slice(0, 8)}`;
	const list: EditionList = { edition, issued, release, ...parts };
	// The worker is one plain program, with what it has to take in front.
	const before = `const HANDBOOK_EDITION=${JSON.stringify(list)};`;
	site.write(WORKER_FILE, before + (await bundleProgram("worker.ts", words)));
	return list;
}
