/**
 * Which folder an output may be: one that is not there yet, one that is empty, or one that this program
 * wrote, by its own list. Everything else is somebody's, and is refused before anything is read or
 * written, with what to do.
 *
 * The list of what the program wrote lies beside the output, in its folder of editions, and never in it:
 * readers have no use for it. It is named by the folder's number in the file system and knows the numbers
 * of its files, so that it goes with the folder where that is renamed, and a folder that only has the
 * same name, or came from elsewhere, is not taken for the program's own.
 */

import { homedir } from "node:os";
import { basename, dirname, join, resolve } from "node:path";
import { type Folder, isInside, openFolder, realPlace } from "../files/folder.ts";
import { isMountPoint } from "../files/mounts.ts";
import type { Run } from "./run.ts";

/** An output that is not published into. Its message says why, and what to do. */
export class OutputRefused extends Error {}

/** Where an output stands: a folder, and the name of the output in it. */
export interface OutputPlace {
	readonly around: Folder;
	readonly name: string;
	/** The name, in the same folder, of the folder of editions. */
	readonly editions: string;
}

/** Numbers of files by path. */
type List = Readonly<Record<string, number>>;

/** A folder beside the output holds its editions and the lists of what is in them. */
export function editionsName(name: string): string {
	return `.${name}.editions`;
}

/** Whether a name in the folder of editions is that of a list. */
export function isList(name: string): boolean {
	return /^files-\d+\.json$/.test(name);
}

/** What is wrong with an output before a command starts; undefined where nothing is. Writes nothing. */
export function outputFault({ clubDir, outDir }: Pick<Run, "clubDir" | "outDir">): string | undefined {
	try {
		return faultOf(clubDir, outDir);
	} catch (error) {
		if (error instanceof Error && "code" in error && error.code === "ELOOP")
			return `${outDir} is a link that leads in a circle. Remove it, or name another folder with --out.`;
		throw error;
	}
}

function faultOf(clubDir: string, outDir: string): string | undefined {
	const club = realPlace(clubDir);
	const place = outputPlaceOf(outDir);
	const out = join(place.folder, place.name);
	const parts = ["content", "_data", ".handbook", ".handbook-cache", ".git"].map((part) =>
		realPlace(join(club, part)),
	);
	if (isInside(out, club) || parts.some((part) => isInside(part, out) || isInside(out, part)))
		return `${outDir} would overwrite the club's own files. Name another folder with --out.`;
	if (resolve(outDir) === join(resolve(clubDir), "_site") && !isInside(club, out))
		return `${outDir} is a link that leads out of the club folder, to ${out}. Remove the link, or name that folder with --out.`;
	return refusal(place.folder, place.name);
}

/** Says at once where a command may not write its output; gives whether it may. */
export function mayWriteTo(run: Pick<Run, "clubDir" | "outDir" | "out">): boolean {
	const fault = outputFault(run);
	if (fault !== undefined) run.out.line(`${fault} Nothing was written.`);
	return fault === undefined;
}

/** The place of an output that may be written, the folder around it made. Throws OutputRefused. */
export function openOutput(outDir: string): OutputPlace {
	const { folder, name } = outputPlaceOf(outDir);
	const fault = refusal(folder, name);
	if (fault !== undefined) throw new OutputRefused(fault);
	openFolderUp(folder);
	return { around: openFolder(folder), name, editions: editionsName(name) };
}

/** The files in an output that the program wrote, by its own list. */
export function listedFiles({ around, editions }: OutputPlace, path: string): readonly string[] {
	return Object.keys(listOf(around, editions, path) ?? {});
}

/** Whether a folder is the program's own work. */
export function isOurs({ around, editions }: OutputPlace, path: string): boolean {
	return listOf(around, editions, path) !== undefined;
}

/** Writes down which files of a folder the program wrote. */
export function writeList({ around, editions }: OutputPlace, path: string, files: readonly string[]): void {
	const list = Object.fromEntries(files.map((file) => [file, around.info(`${path}/${file}`)?.ino ?? 0]));
	const { ino } = around.info(path) ?? { ino: 0 };
	around.write(`${editions}/files-${ino}.json`, `${JSON.stringify(list, null, "\t")}\n`, { flush: true });
}

/** Removes lists of folders that are gone. */
export function sweepLists({ around, name, editions }: OutputPlace): void {
	const there = around
		.list(editions)
		.flatMap((entry) => (entry.kind === "folder" ? [around.info(`${editions}/${entry.name}`)?.ino] : []));
	if (around.has(name)) there.push(around.info(name)?.ino);
	for (const { name: file } of around.list(editions)) {
		if (isList(file) && !there.includes(Number(file.slice(6, -5)))) around.remove(`${editions}/${file}`);
	}
}

/** Whether the output is a link to one of its editions, as the program makes it. */
export function isOwnLink(around: Folder, name: string): boolean {
	if (!around.isLink(name)) return false;
	const target = resolve(around.path, around.target(name));
	const editions = editionsName(name);
	if (dirname(target) !== join(around.path, editions) || around.isLink(editions)) return false;
	return !around.isLink(`${editions}/${basename(target)}`);
}

/** The real folder around an output and its name there: a link that somebody made is a way to it, not part of it. */
function outputPlaceOf(outDir: string, links = 0): { readonly folder: string; readonly name: string } {
	const out = resolve(outDir);
	const folder = realPlace(dirname(out));
	const name = basename(out);
	const around = folderOrNone(folder);
	if (around === undefined || !around.isLink(name) || isOwnLink(around, name)) return { folder, name };
	if (links > 40) throw Object.assign(new Error(`too many links: ${out}`), { code: "ELOOP", path: out });
	return outputPlaceOf(resolve(folder, around.target(name)), links + 1);
}

function refusal(folder: string, name: string): string | undefined {
	const out = join(folder, name);
	if (name === "" || isInside(out, realPlace(homedir())))
		return `${out} is a home folder, or holds one. Name a folder inside it with --out.`;
	if (out.split(/[\\/]/).includes(".git"))
		return `${out} belongs to version control. Name another folder with --out.`;
	if (isMountPoint(out))
		return `${out} is where a drive or a volume is mounted, and cannot be changed for another folder in one step. Name a folder inside it with --out, such as ${join(out, "site")}.`;
	const around = folderOrNone(folder);
	if (around === undefined) return undefined;
	const editions = editionsName(name);
	if (around.isLink(editions) || (around.has(editions) && around.info(editions)?.kind !== "folder"))
		return `${join(folder, editions)} should be a folder of this program and is a link or a file. Remove it, or name another folder with --out.`;
	// Of a link that the program made, what it leads to is what counts.
	const own = isOwnLink(around, name) ? `${editions}/${basename(around.target(name))}` : name;
	const info = around.info(own);
	if (info === undefined) return undefined;
	if (info.kind !== "folder") return `${out} is a file. Name a folder with --out.`;
	if (around.list(own).some((entry) => entry.name === ".git"))
		return `${out} is a checkout: it holds .git. Build into an empty folder and copy from there, such as with rsync -a --delete --exclude=.git.`;
	if (around.list(own).length === 0 || listOf(around, editions, own) !== undefined) return undefined;
	return `${out} is not empty, and this program did not write it. Name another folder with --out, or remove this one if nothing in it is needed.`;
}

function listOf(around: Folder, editions: string, path: string): List | undefined {
	const info = around.info(path);
	if (info?.kind !== "folder") return undefined;
	let list: unknown;
	try {
		list = JSON.parse(around.readText(`${editions}/files-${info.ino}.json`));
	} catch {
		// A list that cannot be read claims nothing.
		return undefined;
	}
	if (typeof list !== "object" || list === null || Array.isArray(list)) return undefined;
	const files = Object.entries(list);
	if (!files.every(([, ino]) => typeof ino === "number")) return undefined;
	const known = files.length === 0 || files.some(([file, ino]) => inoOf(around, `${path}/${file}`) === ino);
	return known ? (list as List) : undefined;
}

function inoOf(around: Folder, path: string): number | undefined {
	try {
		return around.info(path)?.ino;
	} catch {
		return undefined;
	}
}

function folderOrNone(path: string): Folder | undefined {
	try {
		return openFolder(path);
	} catch {
		return undefined;
	}
}

/** Makes the folders up to one. */
function openFolderUp(path: string): void {
	if (folderOrNone(path) !== undefined) return;
	const around = dirname(path);
	openFolderUp(around);
	openFolder(around).makeFolder(basename(path));
}
