/**
 * What `mend` found for a whole term, kept on this machine for exactly these files and this program: pages
 * show it, and no build ever looks for it.
 */

import { programCache } from "../files/cache.ts";
import { sha256 } from "../files/hash.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";
import type { PlanChange } from "../model.ts";

/** Folders as they once were that are remembered. */
const MOST = 20;

/** @param fingerprint stands for every byte of the folder */
export function keepMend(fingerprint: string, changes: readonly PlanChange[]): void {
	const cache = programCache("mends");
	cache.put(nameOf(fingerprint), Buffer.from(JSON.stringify(changes)));
	cache.leave(MOST);
}

/** Nothing where it was not looked for, or something has changed since. */
export function keptMend(fingerprint: string): readonly PlanChange[] {
	const kept = programCache("mends").findJson(nameOf(fingerprint));
	return Array.isArray(kept) ? kept : [];
}

function nameOf(fingerprint: string): string {
	return `${sha256(`${programFingerprint()} ${fingerprint}`).slice(0, 32)}.json`;
}
