/**
 * Reads a club folder: files → source files with a line map, and what is wrong with them as files.
 *
 * Steps: list the folders that hold content; decode each file as UTF-8; split front matter from
 * body; parse the YAML. Nothing is judged here but whether a file can be read at all.
 */

import { Buffer, isUtf8 } from "node:buffer";
import { basename, dirname } from "node:path";
import { type Entry, type FileInfo, type Folder, LeadsOut, openFolder } from "../files/folder.ts";
import { type RunningHash, startHash } from "../files/hash.ts";
import {
	DATA_KINDS,
	type DataKind,
	type DataPath,
	type FileKind,
	type Id,
	PAGE_KINDS,
	type PageKind,
	type SourceFile,
} from "../model.ts";
import type { Place } from "../place.ts";
import { type Code, type Problem, problem } from "../problems.ts";
import { explainYaml, placeInYaml } from "./explain-yaml.ts";
import { nearestName } from "./nearest-name.ts";
import { parseYaml } from "./parse-yaml.ts";
import { splitPage } from "./split-page.ts";

/** What a club folder holds, as it was read. */
export interface ReadClub {
	readonly files: readonly SourceFile[];
	readonly problems: readonly Problem[];
	/** Files that exist but could not be read: what refers to them is not at fault. */
	readonly unreadable: readonly { readonly kind: FileKind; readonly id: Id }[];
	readonly style?: ReadStyle;
	/** Stands for everything that was read: equal content gives an equal fingerprint (SHA-256, hex). */
	readonly fingerprint: string;
}

/** A style sheet as it was read. */
export interface ReadStyle {
	readonly file: string;
	readonly text: string;
}

/** Larger data files are no handbook's; reading them would only use up memory. */
const MAX_BYTES = 1_000_000;
/** A page of 30,000 words. Some texts take Markdown a time that grows with the square of their length. */
const MAX_PAGE_BYTES = 200_000;

const PAGE_FOLDERS: ReadonlyMap<string, PageKind> = new Map(PAGE_KINDS.map((kind) => [`${kind}s`, kind]));

/** The folder of what coaches reported: `npm run taught` writes it. */
export const TAUGHT_FOLDER = "_data/taught";

/** The folder, inside `content`, for pictures and video. */
export const MEDIA_FOLDER = "content/media";

/** The club's own style sheet, for the site and for paper. */
const STYLE_FILE = "content/style.css";

/** Files that were read before, by their path. Kept between readings, only what has changed is read and parsed again. */
export type ReadCache = Map<
	string,
	{
		readonly text: string;
		readonly file: SourceFile;
		/** What the file system says of it while it stays as it is; undefined where that cannot be told. */
		readonly stamp: string | undefined;
	}
>;

/**
 * Milliseconds after a change of a file from which on another change would show in its time: file systems
 * count in steps, the coarsest in common use in steps of two seconds.
 */
const TIME_STEP = 2500;

/** Texts by their paths in the club folder, to be read in place of what stands there; undefined is no file. */
export type TriedTexts = ReadonlyMap<string, string | undefined>;

/**
 * Reads every page and data file below `clubDir`. Throws only where the folder itself cannot be listed.
 *
 * @param tried what the folder would hold after a change that is not written yet
 */
export function readClub(
	clubDir: string,
	cache: ReadCache = new Map(),
	tried: TriedTexts = new Map(),
): ReadClub {
	const reader = new ClubReader(clubDir, cache, tried);
	reader.readData();
	reader.readContent();
	reader.readTaught();
	const { files, problems, unreadable, style } = reader;
	return {
		files,
		problems,
		unreadable,
		...(style === undefined ? {} : { style }),
		fingerprint: reader.fingerprint(),
	};
}

/** The text of a file of the club, to be quoted; undefined for what `readClub` would not read either. */
export function textInClub(clubDir: string, file: string): string | undefined {
	try {
		const club = openFolder(clubDir);
		return (club.info(file)?.size ?? 0) > MAX_BYTES ? undefined : club.readText(file);
	} catch {
		return undefined;
	}
}

/** Reads the files of a club folder, or of a library, one by one. */
export class ClubReader {
	readonly files: SourceFile[] = [];
	readonly problems: Problem[] = [];
	readonly unreadable: { kind: FileKind; id: Id }[] = [];
	style: ReadStyle | undefined;
	readonly #root: Folder;
	readonly #hash: RunningHash = startHash();
	readonly #cache: ReadCache;
	readonly #tried: TriedTexts;
	/** Of the files of this reading. */
	readonly #stamps = new Map<string, string>();

	readonly #folders = new Map<string, Folder>();
	readonly #shownAs: string;

	/**
	 * @param tried texts that take the place of the folder's
	 * @param shownAs what stands before the files' own paths, where the folder is not the club's own
	 */
	constructor(clubDir: string, cache: ReadCache, tried: TriedTexts = new Map(), shownAs = "") {
		this.#cache = cache;
		this.#tried = tried;
		this.#root = openFolder(clubDir);
		this.#shownAs = shownAs;
	}

	/** What is wrong with the files, each at its path as it is shown. */
	faults(): readonly Problem[] {
		if (this.#shownAs === "") return this.problems;
		return this.problems.map((one) => ({
			...one,
			place: { ...one.place, file: this.#shownAs + one.place.file },
		}));
	}

	has(path: string): boolean {
		try {
			return this.#root.has(path);
		} catch {
			return false;
		}
	}

	/** The pages of a kind, by id, none of them read yet; the same id twice gives the first by path. */
	pages(kind: PageKind): ReadonlyMap<Id, string> {
		const found = new Map<Id, string>();
		const look = (at: string, depth: number): void => {
			for (const entry of this.#list(at)) {
				const path = `${at}/${entry.name}`;
				if (this.#leadsOut(path, entry)) continue;
				if (this.#isFolder(path, entry)) {
					if (depth > 0) look(path, depth - 1);
				} else if (entry.name.endsWith(".md") && !found.has(basename(path, ".md"))) {
					found.set(basename(path, ".md"), path);
				}
			}
		};
		look(`content/${kind}s`, kind === "drill" ? 1 : 0);
		return found;
	}

	/** Says that something is wrong with a file as a whole. */
	#tell(code: Code, file: string, what: string, cure?: Parameters<typeof problem>[3]): void {
		this.problems.push(problem(code, startOf(file), what, cure));
	}

	fingerprint(): string {
		return this.#hash.copy().digest("hex");
	}

	readData(): void {
		for (const entry of this.#list("_data")) {
			const name = entry.name;
			const match = /^(.*)\.ya?ml$/i.exec(name);
			const file = `_data/${name}`;
			if (match === null || this.#leadsOut(file, entry)) continue;
			const stem = match[1] ?? "";
			const kind = DATA_KINDS.find((k) => k === stem);
			if (kind === undefined) {
				const nearest = nearestName(stem, DATA_KINDS);
				this.#tell("H110", file, `\`${file}\` is none of the data files.`, {
					nearest: nearest === undefined ? undefined : `_data/${nearest}.yaml`,
				});
				continue;
			}
			if (this.files.some((f) => f.kind === kind)) {
				this.#tell("H202", file, `\`${kind}\` is there twice, as .yaml and as .yml.`);
				continue;
			}
			this.readDataFile(kind, file);
		}
	}

	/**
	 * What coaches reported: a file a week. It is of no edition, and so not in the fingerprint: nothing that
	 * is published follows from it.
	 */
	readTaught(): void {
		for (const entry of this.#list(TAUGHT_FOLDER)) {
			const file = `${TAUGHT_FOLDER}/${entry.name}`;
			const id = /^(.*)\.ya?ml$/i.exec(entry.name)?.[1];
			if (this.#leadsOut(file, entry)) continue;
			if (id === undefined) this.#notRead(file);
			else if (this.files.some((one) => one.kind === "taught" && one.id === id)) {
				this.#tell("H202", file, `\`${id}\` is there twice, as .yaml and as .yml.`);
			} else this.readDataFile("taught", file, id);
		}
	}

	readContent(): void {
		for (const entry of this.#list("content")) {
			const path = `content/${entry.name}`;
			if (this.#leadsOut(path, entry)) continue;
			if (path === MEDIA_FOLDER) continue;
			if (path === STYLE_FILE) {
				const text = this.#text(path);
				if (text !== undefined) this.style = { file: path, text };
				continue;
			}
			const kind = PAGE_FOLDERS.get(entry.name);
			if (kind === undefined) {
				this.#notRead(path, nearestName(entry.name, [...PAGE_FOLDERS.keys()]));
			} else if (!this.#isFolder(path, entry)) {
				this.#notRead(path);
			} else {
				this.#readPages(kind, path, kind === "drill" ? 1 : 0);
			}
		}
	}

	/** @param depth folders below this one in which pages may stand: drills are kept by apparatus */
	#readPages(kind: PageKind, folder: string, depth: number): void {
		const entries = this.#list(folder);
		const names = new Set(entries.map(({ name }) => name));
		for (const entry of entries) {
			const path = `${folder}/${entry.name}`;
			if (this.#leadsOut(path, entry)) continue;
			if (this.#isFolder(path, entry)) {
				if (depth > 0) this.#readPages(kind, path, depth - 1);
				else this.#notRead(path);
			} else if (entry.name.endsWith(".md")) {
				const original = originalOf(entry.name, names);
				if (original === undefined) this.readPage(kind, path);
				else if (original !== "") this.#isCopy(path, original);
			} else if (isLeftover(entry.name)) {
				// What systems and programs leave in every folder is nobody's page.
			} else {
				this.#notRead(path);
			}
		}
	}

	readDataFile(kind: DataKind | "taught", file: string, id: Id = kind): void {
		const text = this.#text(file);
		if (text !== undefined && this.#unchanged(file, text)) return;
		const data = text === undefined ? undefined : this.#parse(file, text, 0);
		if (text === undefined || data === undefined) {
			this.unreadable.push({ kind, id });
			return;
		}
		const shown = this.#shownAs + file;
		this.#keep(text, new TextFile({ kind, id, file: shown, data: data.value, body: "" }, text, 0, 1));
	}

	readPage(kind: PageKind, file: string): void {
		const id = basename(file, ".md");
		const text = this.#text(file);
		if (text !== undefined && this.#unchanged(file, text)) return;
		const page = text === undefined ? undefined : splitPage(text);
		if (page?.fault !== undefined) {
			this.problems.push(
				problem(page.fault.code, { file, line: page.fault.line, column: 1 }, page.fault.what),
			);
		}
		const sound = page?.fault === undefined ? page : undefined;
		const data = sound && this.#parse(file, sound.matter, 1);
		if (text === undefined || sound === undefined || data === undefined) {
			this.unreadable.push({ kind, id });
			return;
		}
		const { matter, body, bodyLine } = sound;
		const shown = this.#shownAs + file;
		this.#keep(text, new TextFile({ kind, id, file: shown, data: data.value, body }, matter, 1, bodyLine));
	}

	/** Takes a file as it was read before, where its text is the same. */
	#unchanged(file: string, text: string): boolean {
		const before = this.#cache.get(file);
		if (before?.text !== text) return false;
		this.files.push(before.file);
		const stamp = this.#stamps.get(file);
		if (before.stamp !== stamp) this.#cache.set(file, { ...before, stamp });
		return true;
	}

	#keep(text: string, file: SourceFile): void {
		const path = file.file.slice(this.#shownAs.length);
		this.#cache.set(path, { text, file, stamp: this.#stamps.get(path) });
		this.files.push(file);
	}

	#parse(file: string, text: string, lineOffset: number): { readonly value: unknown } | undefined {
		const parsed = parseYaml(text);
		if (parsed.ok) return { value: parsed.data };
		for (const fault of explainYaml(text)) {
			const place = { file, line: fault.line + lineOffset, column: fault.column };
			this.problems.push(
				problem(
					fault.kind === "syntax" ? "H102" : "H115",
					place,
					fault.what,
					fault.fix === undefined ? {} : { fix: fault.fix },
				),
			);
		}
		return undefined;
	}

	#text(file: string): string | undefined {
		const tried = this.#tried.get(file);
		if (tried !== undefined) {
			const bytes = Buffer.from(tried);
			return this.#isTooLarge(file, bytes.length) ? undefined : this.#decode(file, bytes);
		}
		try {
			const info = this.#info(file);
			if (info?.kind !== "file") {
				this.#tell("H116", file, `\`${file}\` is not a file.`);
				return undefined;
			}
			if (this.#isTooLarge(file, info.size)) return undefined;
			const stamp = `${info.ino} ${info.size} ${info.mtimeMs} ${info.ctimeMs}`;
			if (Date.now() - Math.max(info.mtimeMs, info.ctimeMs) > TIME_STEP) this.#stamps.set(file, stamp);
			const before = this.#cache.get(file);
			if (before?.stamp === stamp) return this.#heard(file, before.text);
			return this.#decode(file, this.#root.read(file));
		} catch (error) {
			this.#tell("H116", file, `\`${file}\` cannot be read (${errorCode(error)}).`);
			return undefined;
		}
	}

	/** What stands at a file. Its folder is proved once in a reading; a link in it may lead elsewhere in the club. */
	#info(file: string): FileInfo | undefined {
		const around = dirname(file);
		const folder = this.#folders.get(around) ?? this.#root.inner(around);
		this.#folders.set(around, folder);
		try {
			return folder.info(basename(file));
		} catch (error) {
			if (error instanceof LeadsOut) return this.#root.info(file);
			throw error;
		}
	}

	#isTooLarge(file: string, size: number): boolean {
		const most = file.endsWith(".md") ? MAX_PAGE_BYTES : MAX_BYTES;
		if (size <= most) return false;
		this.#tell("H116", file, `\`${file}\` is larger than ${most / 1000} kB, too large to be read.`, {
			fix: "Split it, or take out what does not belong into it; pictures go into `content/media`.",
		});
		return true;
	}

	#decode(file: string, bytes: Buffer): string | undefined {
		if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
			this.#tell("H109", file, `\`${file}\` is saved as UTF-16.`);
			return undefined;
		}
		if (!isUtf8(bytes)) {
			this.problems.push(
				problem("H109", spotOfByte(file, bytes, firstOdd(bytes)), "Here stands a byte that is not UTF-8."),
			);
			return undefined;
		}
		const control = controlIn(bytes);
		if (control >= 0) {
			this.problems.push(
				problem(
					"H109",
					spotOfByte(file, bytes, control),
					"Here stands a control character, which no text holds.",
				),
			);
			return undefined;
		}
		const text = bytes.toString("utf8");
		const plain = text.startsWith("\uFEFF") ? text.slice(1) : text;
		const unix = plain.includes("\r") ? plain.replace(/\r\n?/g, "\n") : plain;
		return this.#heard(file, unix);
	}

	/** A text as it counts for the fingerprint. */
	#heard(file: string, text: string): string {
		if (!file.startsWith(`${TAUGHT_FOLDER}/`)) this.#hash.update(`${file}\0${text}\0`);
		return text;
	}

	#list(folder: string): readonly Entry[] {
		const there = this.#listed(folder);
		const inside = [...this.#tried.keys()].filter((path) => path.startsWith(`${folder}/`));
		if (inside.length === 0) return there;
		const entries = new Map(there.map((entry) => [entry.name, entry]));
		for (const path of inside) {
			const [name = "", ...deeper] = path.slice(folder.length + 1).split("/");
			const text = this.#tried.get(path);
			if (deeper.length > 0) {
				if (text !== undefined && !entries.has(name)) entries.set(name, { name, kind: "folder" });
			} else if (text === undefined) entries.delete(name);
			else entries.set(name, { name, kind: "file" });
		}
		return [...entries.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
	}

	#listed(folder: string): readonly Entry[] {
		try {
			return this.#root.list(folder).filter(({ name }) => !name.startsWith("."));
		} catch (error) {
			if (error instanceof LeadsOut) this.#tellWay(folder, error);
			// A folder that is not there holds nothing; anything else is worth saying.
			else if (errorCode(error) !== "ENOENT") {
				this.#tell("H116", folder, `\`${folder}\` cannot be listed (${errorCode(error)}).`);
			}
			return [];
		}
	}

	/** Whether a symbolic link leads nowhere or out of the club folder; says so. */
	#leadsOut(file: string, entry: Entry): boolean {
		if (entry.kind !== "link") return false;
		try {
			this.#root.place(file);
			return false;
		} catch (error) {
			if (!(error instanceof LeadsOut)) throw error;
			this.#tellWay(file, error);
			return true;
		}
	}

	#tellWay(file: string, { why }: LeadsOut): void {
		this.#tell(
			"H116",
			file,
			why === "out"
				? `\`${file}\` is a link out of the club folder.`
				: `\`${file}\` is a link that leads nowhere.`,
		);
	}

	#isFolder(path: string, entry: Entry): boolean {
		return entry.kind === "link" ? this.#root.info(path)?.kind === "folder" : entry.kind === "folder";
	}

	/** A copy is no second drill: which of the two is right, only a person can say. */
	#isCopy(path: string, original: string): void {
		this.#tell(
			"H110",
			path,
			`\`${path}\` is a copy that a program left beside \`${original}\`; it is not read.`,
			{
				fix: `Look at both, keep what is right in \`${original}\`, and delete the copy.`,
			},
		);
	}

	#notRead(path: string, nearest?: string): void {
		const page = /^(.*\.(?:md|ya?ml))\.txt$/i.exec(path)?.[1];
		if (page !== undefined) {
			this.#tell("H110", path, `\`${path}\` is not read: its name ends in .txt.`, {
				fix: `Rename it to \`${basename(page)}\`. Where Windows hides endings, switch them on under View.`,
			});
			return;
		}
		this.#tell("H110", path, `\`${path}\` is not read.`, {
			nearest: nearest === undefined ? undefined : `content/${nearest}`,
		});
	}
}

/** Files that systems and office programs leave in folders. */
function isLeftover(name: string): boolean {
	return /^(~\$.*|desktop\.ini|thumbs\.db|icon\r)$/i.test(name);
}

/**
 * The page that a file is a copy of, by what programs that keep folders in step add to a name: " - Copy",
 * "(Jo's conflicted copy …)", "(1)", the name of a computer. "" for what is no page at all; undefined where it is
 * a page of its own.
 */
function originalOf(name: string, names: ReadonlySet<string>): string | undefined {
	if (isLeftover(name)) return "";
	const added =
		/^(.+?)(?:\s*\([^()]*\)| - (?:copy|copie)(?: \(\d+\))?| (?:copy|copie)(?: \d+)?|\.sync-conflict-[\w-]+|-[A-Z][A-Z0-9]*(?:-[A-Z0-9]+)+)\.md$/i;
	const [, base] = added.exec(name) ?? [];
	// The last form has capitals, which no page's own name has.
	if (base === undefined || /^[a-z0-9-]+\.md$/.test(name)) return undefined;
	return names.has(`${base}.md`) ? `${base}.md` : undefined;
}

/** A file that was read, keeping its YAML text so that a place can be looked up when one is wanted. */
class TextFile implements SourceFile {
	readonly kind: FileKind;
	readonly id: Id;
	readonly file: string;
	readonly data: unknown;
	readonly body: string;
	readonly #yaml: string;
	readonly #yamlLine: number;
	readonly #bodyLine: number;

	/**
	 * @param yamlLine lines of the file before its YAML
	 * @param bodyLine the file's line, from 1, on which the body starts
	 */
	constructor(
		{ kind, id, file, data, body }: Omit<SourceFile, "place" | "bodyPlace">,
		yaml: string,
		yamlLine: number,
		bodyLine: number,
	) {
		this.kind = kind;
		this.id = id;
		this.file = file;
		this.data = data;
		this.body = body;
		this.#yaml = yaml;
		this.#yamlLine = yamlLine;
		this.#bodyLine = bodyLine;
	}

	place(path: DataPath, what: "key" | "value" = "value"): Place {
		if (path.length === 0) return startOf(this.file);
		const spot = placeInYaml(this.#yaml, path, what);
		return { file: this.file, line: spot.line + this.#yamlLine, column: spot.column };
	}

	bodyPlace(line: number, column = 0): Place {
		return { file: this.file, line: this.#bodyLine + line, column: column + 1 };
	}
}

function startOf(file: string): Place {
	return { file, line: 1, column: 1 };
}

function errorCode(error: unknown): string {
	return error instanceof Error && "code" in error ? String(error.code) : String(error);
}

/** Where the first control character stands that no text holds, or -1. */
function controlIn(bytes: Uint8Array): number {
	for (let i = 0; i < bytes.length; i++) {
		const byte = bytes[i] as number;
		if (byte < 32 && byte !== 9 && byte !== 10 && byte !== 13) return i;
	}
	return -1;
}

/** Where the first byte stands that is no UTF-8: reading puts U+FFFD there, which a text may also hold itself. */
function firstOdd(bytes: Buffer): number {
	let offset = 0;
	for (const part of bytes.toString("utf8").split("\ufffd")) {
		offset += Buffer.byteLength(part);
		if (bytes.toString("latin1", offset, offset + 3) !== "\u00ef\u00bf\u00bd") break;
		offset += 3;
	}
	return offset;
}

function spotOfByte(file: string, bytes: Buffer, offset: number): Place {
	const before = bytes.subarray(0, offset).toString("latin1");
	const line = before.split("\n").length;
	const lineStart = before.lastIndexOf("\n") + 1;
	const column = Buffer.from(bytes.subarray(lineStart, offset)).toString("utf8").length + 1;
	return { file, line, column };
}
