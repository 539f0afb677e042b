/**
 * Makes a site one that works without a network: packs, and the worker that takes them.
 *
 *   1. hand every text file of the site that a reader needs to the thread that packs them: texts of pages
 *      came there as they were made, the rest is read when it is written. A pack is named by the hash of
 *      what is in it, so that one that did not change is not fetched again
 *   2. list what the edition is made of, and bundle the worker with that list in front
 *
 * What devices can make of the rest (makers.ts) is left out of the packs.
 *
 * Data files and the binder are downloads for a desk, and stay on the host.
 */

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import type { Words } from "../../words/words.ts";
import { PostedThread } from "../posts.ts";
import { bundleProgram } from "./bundle-program.ts";
import { type EditionList, type ListedFile, PACK_FOLDER, packPath, WORKER_FILE } from "./edition-list.ts";
import { type SiteFile, slotsFor } from "./pack-pages.ts";
import type { ToPacking } from "./packing-thread.ts";
import { sizesForPhones } from "./picture-sizes.ts";
import { hashName, type WrittenPacks } from "./write-packs.ts";

const TEXT = /\.(html|css|js|json|svg|txt|webmanifest)$/;
const PICTURE = /^media\/.*\.(avif|gif|jpe?g|png|svg|webp)$/i;
/** Folders whose files are not part of what is kept, and our own. */
const LEFT_OUT = ["data/", "media/", "print/", "previews/", PACK_FOLDER];
/** The font for letters beyond Western European ones: kept where the handbook has any. */
const EXTENDED_FONT = "assets/text-latin-ext.woff2";

export interface OfflineFacts {
	/** The name that pages say. */
	readonly edition: string;
	/** Ids of the weeks. */
	readonly weeks: readonly string[];
	readonly drills: number;
	/** Of the handbook, for what the worker says. */
	readonly words: Pick<Words, "language">;
	/** As `planText` writes it: devices make tables of it. */
	readonly plan: string;
	/** As `sharedText` writes it: devices make pages of it; undefined where no page comes as its text. */
	readonly shared: string | undefined;
}

/** Characters that are posted together: each post has a cost of its own. */
const POST = 500_000;

export interface WrittenOffline {
	readonly list: EditionList;
	/** Files written, as paths from the root of the site. */
	readonly files: readonly string[];
}

/** Takes the texts of pages as they are made, and keeps the site for devices when it is whole. */
export class OfflineWriter {
	readonly #siteDir: string;
	readonly #facts: OfflineFacts;
	readonly #thread = new PostedThread<ToPacking, WrittenPacks>(
		new URL("./packing-thread.ts", import.meta.url),
	);
	#waiting: SiteFile[] = [];
	#size = 0;

	/** Starts the thread. */
	constructor(siteDir: string, facts: OfflineFacts) {
		this.#siteDir = siteDir;
		this.#facts = facts;
		const { edition, weeks, drills, plan, shared, words } = facts;
		const options = { siteDir, edition, weeks, slots: slotsFor(drills), plan, shared };
		this.#thread.post({ kind: "begin", options, language: words.language });
	}

	/** The text of a page that devices make of it, by the page's path from the root of the site. */
	add(path: string, text: string): void {
		this.#waiting.push({ path, text });
		this.#size += text.length;
		if (this.#size > POST) this.#post();
	}

	/**
	 * Adds packs and worker to the site.
	 *
	 * @param paths every other file of it, from its root; they lie there
	 * @param pages what is known of its pages when all are written
	 * Throws where a file holds a control character.
	 */
	async finish(
		paths: readonly string[],
		pages: Promise<{ readonly isExtended: boolean }>,
	): Promise<WrittenOffline> {
		const siteDir = this.#siteDir;
		const facts = this.#facts;
		mkdirSync(join(siteDir, PACK_FOLDER), { recursive: true });
		for (const path of paths) {
			if (isKeptText(path)) this.add(path, readFileSync(join(siteDir, path), "utf8"));
		}
		this.#post();
		// Up to here nothing is waited for: the thread packs while the caller goes on.
		const { first, later, bundles, makers, program } = await this.#thread.ask({ kind: "end" });
		const isUsed = makers.length > 0 || facts.shared !== undefined;
		const programFile = isUsed ? `${PACK_FOLDER}${hashName(program)}.js` : undefined;
		if (programFile !== undefined) writeFileSync(join(siteDir, programFile), program);
		const listed = (path: string): ListedFile => ({
			path,
			hash: hashName(readFileSync(join(siteDir, path))),
		});
		const { isExtended } = await pages;
		const parts = {
			packs: first,
			later,
			bundles,
			files: paths
				.filter((path) => path.endsWith(".woff2") && (path !== EXTENDED_FONT || isExtended))
				.map(listed),
			program: programFile,
			makers,
			pictures: sizesForPhones(paths.filter((path) => PICTURE.test(path))).map(listed),
		};
		const list: EditionList = {
			edition: facts.edition,
			release: `${facts.edition}-${hashName(JSON.stringify(parts)).slice(0, 8)}`,
			...parts,
		};
		// The worker is one plain program, with what it has to take in front.
		const before = `const HANDBOOK_EDITION=${JSON.stringify(list)};`;
		writeFileSync(join(siteDir, WORKER_FILE), before + (await bundleProgram("worker.ts", facts.words)));
		const bundled = [...bundles.packs, ...bundles.later].map(({ hash }) => hash);
		const programs = programFile === undefined ? [WORKER_FILE] : [WORKER_FILE, programFile];
		return { list, files: [...[...first, ...later, ...bundled].map(packPath), ...programs] };
	}

	/** Ends the thread, also where the site was not finished. */
	async close(): Promise<void> {
		await this.#thread.close();
	}

	#post(): void {
		if (this.#waiting.length > 0) this.#thread.post({ kind: "files", files: this.#waiting });
		this.#waiting = [];
		this.#size = 0;
	}
}

/** Adds packs and worker to the site in a folder, with its pages as they lie there. Throws where one holds a control character. */
export async function writeOffline(
	siteDir: string,
	facts: Omit<OfflineFacts, "shared">,
): Promise<WrittenOffline> {
	const writer = new OfflineWriter(siteDir, { ...facts, shared: undefined });
	try {
		return await writer.finish(filesIn(siteDir), Promise.resolve({ isExtended: true }));
	} finally {
		await writer.close();
	}
}

function isKeptText(path: string): boolean {
	return TEXT.test(path) && path !== WORKER_FILE && !LEFT_OUT.some((folder) => path.startsWith(folder));
}

function filesIn(dir: string): readonly string[] {
	return readdirSync(dir, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile() && !entry.name.startsWith("."))
		.map((entry) => relative(dir, join(entry.parentPath, entry.name)).split(sep).join("/"))
		.sort();
}
