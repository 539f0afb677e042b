/**
 * Makes a finished site one that works without a network: packs, and the worker that takes them.
 *
 *   1. read every file of the site that a reader needs: pages, styles, programs, search files, fonts
 *   2. put the text files into packs (pack-pages.ts), each named by the hash of what is in it, so that a
 *      pack that did not change is not fetched again
 *   3. list what the edition is made of, and bundle the worker with that list in front
 *
 * What devices can make of the rest (makers.ts) is left out of the packs.
 *
 * Data files and the binder are downloads for a desk, and stay on the host.
 */

import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { createContext, runInContext } from "node:vm";
import { build } from "esbuild";
import type { Words } from "../../words/words.ts";
import { browserWords } from "../browser-words.ts";
import {
	type Bundle,
	type EditionList,
	HASH_LENGTH,
	HEAD,
	type ListedFile,
	PACK_FOLDER,
	packPath,
	WORKER_FILE,
} from "./edition-list.ts";
import { forReader } from "./for-reader.ts";
import { START, startText } from "./heads-maker.ts";
import { type MadeFile, type Maker, type MakersScope, madeFiles } from "./makers.ts";
import { isLater, packFiles, type SiteFile, slotsFor } from "./pack-pages.ts";
import { bundlePacks } from "./packs.ts";
import { sizesForPhones } from "./picture-sizes.ts";
import { PLAN } from "./plan-file.ts";

const PROGRAMS = fileURLToPath(new URL("../../../layouts/browser/worker/", import.meta.url));

const TEXT = /\.(html|css|js|json|svg|txt|webmanifest)$/;
const PICTURE = /^media\/.*\.(avif|gif|jpe?g|png|svg|webp)$/i;
/** Folders whose files are not part of what is kept, and our own. */
const LEFT_OUT = ["data/", "media/", "print/", "previews/", PACK_FOLDER];
/**
 * Characters of a bundle: a handbook of a thousand drills in one, since compression gains by it. Larger ones
 * gain no more, as compression looks back over some four million, and begin anew where a net breaks off.
 */
const BUNDLE = 6_000_000;
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

/** Adds packs and worker to the site in a folder. Throws where a page holds a control character. */
export async function writeOffline(siteDir: string, facts: OfflineFacts): Promise<WrittenOffline> {
	const paths = filesIn(siteDir);
	const isKept = (path: string) =>
		path !== WORKER_FILE && !LEFT_OUT.some((folder) => path.startsWith(folder));
	const texts = paths
		.filter((path) => TEXT.test(path) && isKept(path))
		.map((path) => new FileOnDisk(siteDir, path));
	/** What devices make files of, beside what the site has anyway; each goes with a maker. */
	const heads = texts.find(({ path }) => path === HEAD)?.text;
	const ingredients: readonly (SiteFile & { readonly maker: string })[] = [
		{ maker: "tables", path: PLAN, text: facts.plan },
		...(heads === undefined ? [] : [{ maker: "heads", path: START, text: startText(heads) }]),
	];
	const program = await programText(facts.words, "makers.ts");
	const { isExtended, made } = lookThrough([...texts, ...ingredients], makersOf(program));
	const listed = (path: string): ListedFile => ({ path, hash: hashName(readFileSync(join(siteDir, path))) });

	mkdirSync(join(siteDir, PACK_FOLDER), { recursive: true });
	const programFile = made.size === 0 ? undefined : `${PACK_FOLDER}${hashName(program)}.js`;
	if (programFile !== undefined) writeFileSync(join(siteDir, programFile), program);
	const isMade = new Set([...made.values()].flat());
	const packed = texts.filter(({ path }) => !isMade.has(path));
	const packs = packFiles([...packed, ...ingredients.filter(({ maker }) => made.has(maker))], {
		...facts,
		slots: slotsFor(facts.drills),
	});
	const write = (text: string) => {
		const hash = hashName(text);
		writeFileSync(join(siteDir, packPath(hash)), text);
		return hash;
	};
	const inOrder = [...packs].sort(([a], [b]) => (a < b ? -1 : 1));
	const first = inOrder.filter(([name]) => !isLater(name)).map(([, text]) => text);
	const later = inOrder.filter(([name]) => isLater(name)).map(([, text]) => text);
	const bundled = (texts: readonly string[]): readonly Bundle[] =>
		inBundles(texts).map((together) => ({ hash: write(bundlePacks(together)), packs: together.length }));
	const parts = {
		packs: first.map(write),
		later: later.map(write),
		bundles: { packs: bundled(first), later: bundled(later) },
		files: paths
			.filter((path) => path.endsWith(".woff2") && (path !== EXTENDED_FONT || isExtended))
			.map(listed),
		program: programFile,
		makers: [...made.keys()],
		pictures: sizesForPhones(paths.filter((path) => PICTURE.test(path))).map(listed),
	};
	const list: EditionList = {
		edition: facts.edition,
		release: `${facts.edition}-${hashName(JSON.stringify(parts)).slice(0, 8)}`,
		...parts,
	};
	writeFileSync(join(siteDir, WORKER_FILE), await workerText(list, facts));
	const bundles = [...parts.bundles.packs, ...parts.bundles.later].map(({ hash }) => hash);
	const programs = programFile === undefined ? [WORKER_FILE] : [WORKER_FILE, programFile];
	return { list, files: [...[...parts.packs, ...parts.later, ...bundles].map(packPath), ...programs] };
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

/** Read again each time its text is asked for: a large handbook is not held in memory. */
class FileOnDisk implements SiteFile {
	readonly path: string;
	readonly #siteDir: string;

	constructor(siteDir: string, path: string) {
		this.#siteDir = siteDir;
		this.path = path;
	}

	get text(): string {
		return readFileSync(join(this.#siteDir, this.path), "utf8");
	}
}

/**
 * Whether any page has letters that the smaller font lacks, and which makers make all their files as
 * they are here: their names, with the files' paths.
 */
function lookThrough(
	files: readonly SiteFile[],
	makers: readonly Maker[],
): {
	readonly isExtended: boolean;
	readonly made: ReadonlyMap<string, readonly string[]>;
} {
	const byPath = new Map(files.map((file) => [file.path, file]));
	let isExtended = false;
	for (const { path, text } of files) {
		isExtended ||= hasExtendedLetters(text);
		for (const maker of makers) maker.read(path, text);
	}
	const isSame = ([path, text]: MadeFile) => {
		const file = byPath.get(path);
		return file !== undefined && forReader(file) === text;
	};
	const made = new Map<string, readonly string[]>();
	const failed = new Set<string>();
	for (const { maker, files } of madeFiles(makers)) {
		if (!files.every(isSame)) failed.add(maker.name);
		made.set(maker.name, [...(made.get(maker.name) ?? []), ...files.map(([path]) => path)]);
	}
	return { isExtended, made: new Map([...made].filter(([name]) => !failed.has(name))) };
}

/** What a device has when it has run the program: apart, since it writes into what is global. */
function makersOf(program: string): readonly Maker[] {
	const scope: MakersScope = {};
	runInContext(program, createContext(scope));
	return scope.handbookMakers?.() ?? [];
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

/** The name of what is in a file: letters of its SHA-256. */
export function hashName(content: string | Uint8Array): string {
	return createHash("sha256").update(content).digest("hex").slice(0, HASH_LENGTH);
}

/** Whether a page, in which letters beyond Latin-1 are references, has one that the smaller font lacks. */
function hasExtendedLetters(text: string): boolean {
	for (const [, digits] of text.matchAll(/&#(\d+);/g)) {
		const code = Number(digits);
		if ((code >= 0x100 && code <= 0x2ba) || (code >= 0x1e00 && code <= 0x1eff)) return true;
	}
	return false;
}

function filesIn(dir: string): readonly string[] {
	return readdirSync(dir, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile() && !entry.name.startsWith("."))
		.map((entry) => relative(dir, join(entry.parentPath, entry.name)).split(sep).join("/"))
		.sort();
}
