/**
 * Where the program keeps what it can make again, for one user on one machine: the platform's folder for
 * caches (XDG Base Directory Specification 0.8; on macOS and Windows where programs keep such things). It
 * lies in no club folder, which may be one that a program carries to other computers.
 */

import { homedir } from "node:os";
import { isAbsolute, join } from "node:path";
import { type Folder, makeFolder, realPlace } from "./folder.ts";
import { sha256 } from "./hash.ts";

type Environment = Readonly<Record<string, string | undefined>>;

const FOLDER = "club-curriculum-handbook";

/** A folder for caches; throws where none can be made. */
export function cachePlace(environment: Environment = process.env): Folder {
	return makeFolder(join(cacheHome(environment), FOLDER));
}

/** Where a club's own results and caches lie, from `cachePlace`: a folder of the same place has the same name. */
export function clubPlace(clubDir: string): string {
	return `clubs/${sha256(realPlace(clubDir)).slice(0, 16)}`;
}

/** The same as a path, whether it is there or not. */
export function clubResults(clubDir: string): string {
	return join(cacheHome(process.env), FOLDER, clubPlace(clubDir));
}

function cacheHome({ XDG_CACHE_HOME, LOCALAPPDATA, HOME }: Environment): string {
	if (XDG_CACHE_HOME !== undefined && isAbsolute(XDG_CACHE_HOME)) return XDG_CACHE_HOME;
	if (process.platform === "win32" && LOCALAPPDATA !== undefined) return LOCALAPPDATA;
	const home = HOME ?? homedir();
	return process.platform === "darwin" ? join(home, "Library", "Caches") : join(home, ".cache");
}
