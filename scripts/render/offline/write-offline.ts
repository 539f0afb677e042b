/**
 * Makes a site one that works without a network: packs, and the worker that takes them.
 *
 *   1. hand every text file of the site that a reader needs to a thread that packs them: pages while they
 *      are made, the rest when it is written (packing-thread.ts). A pack is named by the hash of what is
 *      in it, so that one that did not change is not fetched again
 *   2. list what the edition is made of, and bundle the worker with that list in front
 *
 * What devices can make of the rest (makers.ts) is left out of the packs.
 *
 * Data files and the binder are downloads for a desk, and stay on the host.
 */

import { once } from "node:events";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { getCompileCacheDir } from "node:module";
import { dirname, join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { build } from "esbuild";
import type { Words } from "../../words/words.ts";
import { browserWords } from "../browser-words.ts";
import { type EditionList, type ListedFile, PACK_FOLDER, packPath, WORKER_FILE } from "./edition-list.ts";
import { type SiteFile, slotsFor } from "./pack-pages.ts";
import type { PackingStart, ToPacking } from "./packing-thread.ts";
import { sizesForPhones } from "./picture-sizes.ts";
import { hashName, type WrittenPacks } from "./write-packs.ts";

const PROGRAMS = fileURLToPath(new URL("../../../layouts/browser/worker/", import.meta.url));

const TEXT = /\.(html|css|js|json|svg|txt|webmanifest)$/;
const PICTURE = /^media\/.*\.(avif|gif|jpe?g|png|svg|webp)$/i;
/** Folders whose files are not part of what is kept, and our own. */
const LEFT_OUT = ["data/", "media/", "print/", "previews/", PACK_FOLDER];
/** Characters that are posted together: each post has a cost of its own. */
const POST = 500_000;
/** Posts that may lie unread, and how long to wait for one: a thread that failed reads none. */
const UNREAD = 16;
const PATIENCE = 1000;
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
}

export interface WrittenOffline {
	readonly list: EditionList;
	/** Files written, as paths from the root of the site. */
	readonly files: readonly string[];
}

/** Takes the pages of a site as they are made, and keeps the site when it is whole. */
export class OfflineWriter {
	readonly #siteDir: string;
	readonly #facts: OfflineFacts;
	readonly #program: string;
	readonly #thread: Worker;
	readonly #written: Promise<WrittenPacks>;
	readonly #added = new Set<string>();
	/** How many posts the thread has read. */
	readonly #read = new Int32Array(new SharedArrayBuffer(4));
	#posts = 0;
	#waiting: SiteFile[] = [];
	#size = 0;

	/** Starts the thread, with the program that devices make files by. */
	static async start(siteDir: string, facts: OfflineFacts): Promise<OfflineWriter> {
		return new OfflineWriter(siteDir, facts, await programText(facts.words, "makers.ts"));
	}

	private constructor(siteDir: string, facts: OfflineFacts, program: string) {
		this.#siteDir = siteDir;
		this.#facts = facts;
		this.#program = program;
		const { edition, weeks, drills, plan } = facts;
		const options = { siteDir, edition, weeks, slots: slotsFor(drills), program, plan };
		// The folder of this version of Node lies in the one that is named when the cache is turned on.
		const compiled = getCompileCacheDir();
		const start: PackingStart = {
			options,
			read: this.#read,
			compiled: compiled === undefined ? undefined : dirname(compiled),
		};
		this.#thread = new Worker(new URL("./packing-thread.ts", import.meta.url), {
			workerData: start,
			resourceLimits: { maxYoungGenerationSizeMb: 48 },
		});
		this.#written = once(this.#thread, "message").then(([message]) => message as WrittenPacks);
		// Told again by `finish`; before it nobody listens.
		this.#written.catch(() => undefined);
	}

	/** A file as it is written, from the root of the site; those that are not added are read when all is written. */
	add(path: string, text: string): void {
		if (!isKeptText(path)) return;
		this.#added.add(path);
		this.#waiting.push({ path, text });
		this.#size += text.length;
		if (this.#size > POST) this.#post();
	}

	/** Adds packs and worker to the finished site. Throws where a page holds a control character. */
	async finish(): Promise<WrittenOffline> {
		const siteDir = this.#siteDir;
		const facts = this.#facts;
		const paths = filesIn(siteDir);
		mkdirSync(join(siteDir, PACK_FOLDER), { recursive: true });
		for (const path of paths) {
			if (isKeptText(path) && !this.#added.has(path)) {
				this.add(path, readFileSync(join(siteDir, path), "utf8"));
			}
		}
		this.#post();
		this.#tell("end");
		const { first, later, bundles, isExtended, makers } = await this.#written;
		const program = makers.length === 0 ? undefined : `${PACK_FOLDER}${hashName(this.#program)}.js`;
		if (program !== undefined) writeFileSync(join(siteDir, program), this.#program);
		const listed = (path: string): ListedFile => ({
			path,
			hash: hashName(readFileSync(join(siteDir, path))),
		});
		const parts = {
			packs: first,
			later,
			bundles,
			files: paths
				.filter((path) => path.endsWith(".woff2") && (path !== EXTENDED_FONT || isExtended))
				.map(listed),
			program,
			makers,
			pictures: sizesForPhones(paths.filter((path) => PICTURE.test(path))).map(listed),
		};
		const list: EditionList = {
			edition: facts.edition,
			release: `${facts.edition}-${hashName(JSON.stringify(parts)).slice(0, 8)}`,
			...parts,
		};
		writeFileSync(join(siteDir, WORKER_FILE), await workerText(list, facts));
		const bundled = [...bundles.packs, ...bundles.later].map(({ hash }) => hash);
		const programs = program === undefined ? [WORKER_FILE] : [WORKER_FILE, program];
		return { list, files: [...[...first, ...later, ...bundled].map(packPath), ...programs] };
	}

	/** Ends the thread, also where the site was not finished. */
	async close(): Promise<void> {
		await this.#thread.terminate();
	}

	#post(): void {
		if (this.#waiting.length > 0) {
			const read = Atomics.load(this.#read, 0);
			// What lies unread takes memory, a copy of each page.
			if (this.#posts - read > UNREAD) Atomics.wait(this.#read, 0, read, PATIENCE);
			this.#tell(this.#waiting);
			this.#posts++;
		}
		this.#waiting = [];
		this.#size = 0;
	}

	#tell(message: ToPacking): void {
		this.#thread.postMessage(message);
	}
}

/** Adds packs and worker to the site in a folder. Throws where a page holds a control character. */
export async function writeOffline(siteDir: string, facts: OfflineFacts): Promise<WrittenOffline> {
	const writer = await OfflineWriter.start(siteDir, facts);
	try {
		return await writer.finish();
	} finally {
		await writer.close();
	}
}

function isKeptText(path: string): boolean {
	return TEXT.test(path) && path !== WORKER_FILE && !LEFT_OUT.some((folder) => path.startsWith(folder));
}

/** The worker as one plain program, with what it has to take. */
function workerText(list: EditionList, { words }: OfflineFacts): Promise<string> {
	return programText(words, "worker.ts", `const HANDBOOK_EDITION=${JSON.stringify(list)};`);
}

async function programText(words: OfflineFacts["words"], program: string, before = ""): Promise<string> {
	const result = await build({
		entryPoints: [join(PROGRAMS, program)],
		bundle: true,
		minify: true,
		format: "iife",
		target: "es2022",
		banner: { js: before },
		plugins: [browserWords(words)],
		write: false,
		logLevel: "silent",
	});
	return result.outputFiles[0]?.text ?? "";
}

function filesIn(dir: string): readonly string[] {
	return readdirSync(dir, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile() && !entry.name.startsWith("."))
		.map((entry) => relative(dir, join(entry.parentPath, entry.name)).split(sep).join("/"))
		.sort();
}
