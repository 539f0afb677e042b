/**
 * A key of this user on this machine, by which the program knows again what it wrote itself.
 *
 * What is kept in a club folder, records of changes and resized pictures, may come with the folder from
 * somebody else. It is sealed with a key that never lies in such a folder: what does not bear the seal is
 * not the program's own work, and is not used. The key stands in the user's folder for the state of
 * programs (XDG Base Directory Specification 0.8, on other systems where programs keep such things).
 */

import { createHmac, randomBytes } from "node:crypto";
import { chmodSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { type Folder, makeFolder } from "./folder.ts";

const FOLDER = "club-curriculum-handbook";
const FILE = "key";
const LENGTH = 32;

let known: Uint8Array | undefined;

/** The seal of parts, 64 hex digits; other parts, or the same ones cut elsewhere, have another. */
export function sealOf(parts: readonly (string | Uint8Array)[]): string {
	known ??= machineKey();
	const seal = createHmac("sha256", known);
	for (const part of parts) seal.update(`${Buffer.byteLength(part)}:`).update(part);
	return seal.digest("hex");
}

/** The key as it is kept, else a new one; where it cannot be kept, it is good for this run alone. */
function machineKey(): Uint8Array {
	const fresh = randomBytes(LENGTH);
	try {
		const folder = makeFolder(stateFolder());
		const kept = keyIn(folder);
		if (kept !== undefined) return kept;
		if (folder.has(FILE)) folder.write(FILE, fresh);
		else folder.writeNew(FILE, fresh);
		chmodSync(folder.place(FILE), 0o600);
		return fresh;
	} catch {
		// Two runs at once may both make it: the first stays. A home that cannot be written keeps none.
		return keyIn(makeFolderOrNone()) ?? fresh;
	}
}

function makeFolderOrNone(): Folder | undefined {
	try {
		return makeFolder(stateFolder());
	} catch {
		return undefined;
	}
}

function keyIn(folder: Folder | undefined): Uint8Array | undefined {
	const key = folder?.info(FILE)?.kind === "file" ? folder.read(FILE) : undefined;
	return key?.length === LENGTH ? key : undefined;
}

function stateFolder(): string {
	const { XDG_STATE_HOME, LOCALAPPDATA } = process.env;
	if (XDG_STATE_HOME?.startsWith("/")) return join(XDG_STATE_HOME, FOLDER);
	if (process.platform === "win32" && LOCALAPPDATA !== undefined) return join(LOCALAPPDATA, FOLDER);
	if (process.platform === "darwin") return join(homedir(), "Library", "Application Support", FOLDER);
	return join(homedir(), ".local", "state", FOLDER);
}
