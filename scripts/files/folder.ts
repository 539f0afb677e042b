/**
 * The one door to the file system: a folder, and nothing beyond it.
 *
 * Everything a command reads or writes lies in a folder that was opened here: the club, the output, the
 * program's own cache. A path is given from that folder, with forward slashes. Before anything is done,
 * its links are followed, part by part, and the real place is proved to lie inside; a path that does not
 * exist yet is proved as far as it does. A club folder may be a stranger's: a link in it, a path in a file
 * of it, or a name in it cannot lead a command anywhere else.
 *
 * A file is written beside its place, under a name nobody can have prepared, and renamed: whoever reads
 * it, and whenever the program is killed, it is the old one or the new one.
 */

import { randomUUID } from "node:crypto";
import {
	chmodSync,
	closeSync,
	constants,
	copyFileSync,
	linkSync,
	lstatSync,
	mkdirSync,
	openSync,
	readdirSync,
	readFileSync,
	readlinkSync,
	readSync,
	realpathSync,
	renameSync,
	rmdirSync,
	rmSync,
	statSync,
	symlinkSync,
	writeFileSync,
} from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";

/** A path that would lead out of its folder, or a link that leads nowhere. */
export class LeadsOut extends Error {
	/** As it was given, from the folder. */
	readonly path: string;
	readonly why: "out" | "nowhere";
	constructor(path: string, why: "out" | "nowhere", folder: string) {
		super(
			why === "out"
				? `${path} leads out of ${folder}; nothing beyond that folder is read or written`
				: `${path} is a link that leads nowhere`,
		);
		this.path = path;
		this.why = why;
	}
}

export interface Entry {
	readonly name: string;
	readonly kind: "file" | "folder" | "link" | "other";
}

export interface FileInfo {
	readonly kind: "file" | "folder" | "other";
	readonly size: number;
	readonly mtimeMs: number;
	readonly ctimeMs: number;
	readonly ino: number;
	/** Permissions alone. */
	readonly mode: number;
}

/** A folder that is there. Throws what the file system says where it is not. */
export function openFolder(path: string): Folder {
	return new Folder(realpathSync(path));
}

/** A folder, made where it is not there. */
export function makeFolder(path: string): Folder {
	mkdirSync(path, { recursive: true });
	return openFolder(path);
}

export class Folder {
	/** Its real place. */
	readonly path: string;

	/** @param real a real path: `openFolder` makes it one */
	constructor(real: string) {
		this.path = real;
	}

	/** The real place of a path, proved to lie inside; for programs that take a path themselves. Throws LeadsOut. */
	place(path: string): string {
		return this.#prove(path, "follow");
	}

	leadsOut(path: string): boolean {
		try {
			this.#prove(path, "follow");
			return false;
		} catch (error) {
			if (error instanceof LeadsOut) return true;
			throw error;
		}
	}

	/** A folder inside as a door of its own; it need not be there yet. */
	inner(path: string): Folder {
		return new Folder(this.place(path));
	}

	/** What stands at a path, links followed; undefined where nothing does. */
	info(path: string): FileInfo | undefined {
		const info = statSync(this.#prove(path, "follow"), { throwIfNoEntry: false });
		if (info === undefined) return undefined;
		const { size, mtimeMs, ctimeMs, ino } = info;
		const kind = info.isFile() ? "file" : info.isDirectory() ? "folder" : "other";
		return { kind, size, mtimeMs, ctimeMs, ino, mode: info.mode & 0o7777 };
	}

	has(path: string): boolean {
		return this.info(path) !== undefined;
	}

	isLink(path: string): boolean {
		const at = this.#prove(path, "itself");
		return lstatSync(at, { throwIfNoEntry: false })?.isSymbolicLink() ?? false;
	}

	/** What a link says, as it says it. */
	target(path: string): string {
		return readlinkSync(this.#prove(path, "itself"));
	}

	setMode(path: string, mode: number): void {
		chmodSync(this.#prove(path, "follow"), mode);
	}

	read(path: string): Buffer {
		return readFileSync(this.#file(path));
	}

	readText(path: string): string {
		return readFileSync(this.#file(path), "utf8");
	}

	/** The first bytes of a file, at most so many. */
	readHead(path: string, bytes: number): Buffer {
		const file = openSync(this.#file(path), "r");
		try {
			const head = Buffer.alloc(bytes);
			return head.subarray(0, readSync(file, head, 0, bytes, 0));
		} finally {
			closeSync(file);
		}
	}

	/** What a folder holds, by name; links are named as links. */
	list(path = ""): readonly Entry[] {
		return readdirSync(this.#prove(path, "follow"), { withFileTypes: true })
			.map((entry): Entry => {
				const kind = entry.isFile()
					? "file"
					: entry.isDirectory()
						? "folder"
						: entry.isSymbolicLink()
							? "link"
							: "other";
				return { name: entry.name, kind };
			})
			.sort((a, b) => (a.name < b.name ? -1 : 1));
	}

	/** All that is no folder, below a path and from there, sorted; no link is followed. Empty where there is no folder. */
	files(path = ""): readonly string[] {
		const at = this.#prove(path, "follow");
		if (statSync(at, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
		return readdirSync(at, { recursive: true, withFileTypes: true })
			.filter((entry) => !entry.isDirectory())
			.map((entry) => relative(at, join(entry.parentPath, entry.name)).split(sep).join("/"))
			.sort();
	}

	/** All folders below a path and from there, outer ones first; no link is followed. */
	folders(path = ""): readonly string[] {
		const at = this.#prove(path, "follow");
		if (statSync(at, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
		return readdirSync(at, { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isDirectory())
			.map((entry) => relative(at, join(entry.parentPath, entry.name)).split(sep).join("/"))
			.sort();
	}

	/**
	 * Writes a file whole or not at all, and the folders around it. What is there keeps its permissions.
	 *
	 * @param flush whether it is on the drive before it takes its place
	 */
	write(path: string, content: string | Uint8Array, { flush = false } = {}): void {
		const to = this.#prove(path, "follow");
		const before = statSync(to, { throwIfNoEntry: false });
		const beside = this.#beside(to, content, flush, before === undefined ? undefined : before.mode & 0o777);
		try {
			renameSync(beside, to);
		} catch (error) {
			rmSync(beside, { force: true });
			throw error;
		}
	}

	/** Writes a file that must not be there yet, whole or not at all. Throws EEXIST where it is. */
	writeNew(path: string, content: string | Uint8Array): void {
		const to = this.#prove(path, "itself");
		const beside = this.#beside(to, content, false, undefined);
		try {
			linkSync(beside, to);
		} catch (error) {
			if (hasCode(error, "EEXIST")) throw error;
			// A drive without hard links: nobody else is asked for the name either way.
			writeFileSync(to, content, { flag: "wx" });
		} finally {
			rmSync(beside, { force: true });
		}
	}

	/** Copies a file into a folder where nothing has its name yet. */
	copyTo(path: string, other: Folder, otherPath: string): void {
		const to = other.#prove(otherPath, "itself");
		mkdirSync(dirname(to), { recursive: true });
		copyFileSync(this.#file(path), to, constants.COPYFILE_EXCL | constants.COPYFILE_FICLONE);
	}

	makeFolder(path: string): void {
		mkdirSync(this.#prove(path, "follow"), { recursive: true });
	}

	/** Removes a file, or a link itself; nothing where there is none. */
	remove(path: string): void {
		rmSync(this.#prove(path, "itself"), { force: true });
	}

	/** Removes a folder and all in it; of a link the link alone. */
	removeAll(path: string): void {
		rmSync(this.#prove(path, "itself"), { recursive: true, force: true });
	}

	/** Removes a folder where it is empty; says whether it did. */
	removeIfEmpty(path: string): boolean {
		try {
			rmdirSync(this.#prove(path, "itself"));
			return true;
		} catch (error) {
			if (error instanceof LeadsOut) throw error;
			return false;
		}
	}

	/** Gives a file another name that nothing has yet. Throws EEXIST where something has it. */
	moveNew(from: string, to: string): void {
		const [old, now] = [this.#prove(from, "itself"), this.#prove(to, "itself")];
		try {
			linkSync(old, now);
		} catch (error) {
			if (hasCode(error, "EEXIST")) throw error;
			// A drive without hard links.
			if (lstatSync(now, { throwIfNoEntry: false }) !== undefined) {
				throw Object.assign(new Error(`there already: ${to}`), { code: "EEXIST", path: now });
			}
			renameSync(old, now);
			return;
		}
		rmSync(old);
	}

	/** Gives a file or folder another name; a file that has it is replaced. */
	rename(from: string, to: string): void {
		renameSync(this.#prove(from, "itself"), this.#prove(to, "itself"));
	}

	/** Gives a file a second name. */
	link(from: string, to: string): void {
		linkSync(this.#prove(from, "itself"), this.#prove(to, "itself"));
	}

	/** Makes a link at a path to another inside. */
	symlink(target: string, path: string): void {
		this.symlinkAs(target, path, path);
	}

	/** Makes a link at a path to another inside that will be right when it is renamed to `later`. */
	symlinkAs(target: string, path: string, later: string): void {
		const from = dirname(this.#prove(later, "itself"));
		symlinkSync(relative(from, this.#prove(target, "itself")), this.#prove(path, "itself"));
	}

	/** Gives a file, a link or a special file a second place as it is, whatever it is. */
	bring(from: string, to: string): void {
		const [old, now] = [this.#prove(from, "itself"), this.#prove(to, "itself")];
		mkdirSync(dirname(now), { recursive: true });
		const info = lstatSync(old);
		if (info.isSymbolicLink()) {
			symlinkSync(readlinkSync(old), now);
			return;
		}
		try {
			linkSync(old, now);
		} catch (error) {
			if (hasCode(error, "ENOSPC") || hasCode(error, "EEXIST") || !info.isFile()) throw error;
			// A drive without hard links, or a file of another user.
			const beside = `${now}.${randomUUID().slice(0, 8)}`;
			copyFileSync(old, beside);
			chmodSync(beside, info.mode & 0o7777);
			renameSync(beside, now);
		}
	}

	#file(path: string): string {
		const at = this.#prove(path, "follow");
		// Opening a pipe would wait for its other end.
		if (statSync(at).isFile()) return at;
		throw Object.assign(new Error(`not a file: ${path}`), { code: "EINVAL", path });
	}

	/** Puts a content beside a place, under a name of its own; gives that name. */
	#beside(to: string, content: string | Uint8Array, flush: boolean, mode: number | undefined): string {
		mkdirSync(dirname(to), { recursive: true });
		const beside = join(dirname(to), `.${basename(to).slice(0, 100)}.${randomUUID().slice(0, 12)}`);
		try {
			// "wx": a link that stands there is no place to write.
			writeFileSync(beside, content, { flag: "wx", flush });
			if (mode !== undefined) chmodSync(beside, mode);
		} catch (error) {
			rmSync(beside, { force: true });
			throw error;
		}
		return beside;
	}

	/** @param last whether a link that the path ends with is followed, or is what is meant */
	#prove(path: string, last: "follow" | "itself"): string {
		const parts = partsOf(path, this.path);
		let at = this.path;
		for (const [i, part] of parts.entries()) {
			const next = join(at, part);
			if (i === parts.length - 1 && last === "itself") return next;
			const info = lstatSync(next, { throwIfNoEntry: false });
			// Nothing stands here, so nothing below it can be a link.
			if (info === undefined) return join(next, ...parts.slice(i + 1));
			at = info.isSymbolicLink() ? this.#followed(next, path) : next;
		}
		return at;
	}

	#followed(link: string, path: string): string {
		let real: string;
		try {
			real = realpathSync(link);
		} catch {
			throw new LeadsOut(path, "nowhere", this.path);
		}
		if (!isInside(this.path, real)) throw new LeadsOut(path, "out", this.path);
		return real;
	}
}

/** Whether a path is the folder, or lies in it. Both are real paths. */
export function isInside(folder: string, path: string): boolean {
	const way = relative(folder, path);
	return way === "" || (way !== ".." && !way.startsWith(`..${sep}`) && resolve(folder, way) !== way);
}

/**
 * Where a path really is: its links followed as far as it exists, the rest as it is written. A link that
 * leads nowhere is followed to where it would lead.
 */
export function realPlace(path: string): string {
	let at = resolve(path);
	for (let links = 0; links < 40; links++) {
		const info = lstatSync(at, { throwIfNoEntry: false });
		if (info?.isSymbolicLink() === true && statSync(at, { throwIfNoEntry: false }) === undefined) {
			at = resolve(dirname(at), readlinkSync(at));
			continue;
		}
		if (info !== undefined) return realpathSync(at);
		const around = dirname(at);
		return around === at ? at : join(realPlace(around), basename(at));
	}
	throw Object.assign(new Error(`too many links: ${path}`), { code: "ELOOP", path });
}

/** The parts of a path from a folder. Throws LeadsOut for one that starts elsewhere or climbs out. */
function partsOf(path: string, folder: string): readonly string[] {
	const parts = path.split("/").filter((part) => part !== "" && part !== ".");
	const climbs = parts.some((part) => part === ".." || part.includes("\0") || part.includes(sep));
	if (path.startsWith("/") || climbs || (sep === "\\" && parts.some((part) => part.includes(":"))))
		throw new LeadsOut(path, "out", folder);
	return parts;
}

function hasCode(error: unknown, code: string): boolean {
	return error instanceof Error && "code" in error && error.code === code;
}
