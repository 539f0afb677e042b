/** Names of files by what is in them. */

import { createHash } from "node:crypto";
import { HASH_LENGTH } from "./edition-list.ts";

/** Letters of its SHA-256. */
export function hashName(content: string | Uint8Array): string {
	return createHash("sha256").update(content).digest("hex").slice(0, HASH_LENGTH);
}
