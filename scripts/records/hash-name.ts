/** Names of files by what is in them. */

import { sha256 } from "../files/hash.ts";
import { HASH_LENGTH } from "./edition-list.ts";

/** Letters of its SHA-256. */
export function hashName(content: string | Uint8Array): string {
	return sha256(content).slice(0, HASH_LENGTH);
}
