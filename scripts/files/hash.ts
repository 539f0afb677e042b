/** SHA-256, the one hash that the program uses: for names, for "is it the same", for what is kept. */

import { createHash } from "node:crypto";

/**
 * The hash of parts, one after the other: parts that join to the same bytes have the same hash. Put the
 * lengths, or a sign that no part holds, between parts that must not.
 */
export function sha256(
	parts: string | Uint8Array | readonly (string | Uint8Array)[],
	encoding: "hex" | "base64url" = "hex",
): string {
	const hash = startHash();
	const list = typeof parts === "string" || parts instanceof Uint8Array ? [parts] : parts;
	for (const part of list) hash.update(part);
	return hash.digest(encoding);
}

export interface RunningHash {
	update(part: string | Uint8Array): unknown;
	digest(encoding: "hex" | "base64url"): string;
	digest(): Uint8Array;
	copy(): RunningHash;
}

/** A hash of what comes bit by bit. */
export function startHash(): RunningHash {
	return createHash("sha256");
}
