/** The one function of tar-fs that is used; the package has no types of its own. */
declare module "tar-fs" {
	import type { Writable } from "node:stream";

	/** A stream that unpacks the archive written to it into a folder. */
	export function extract(
		folder: string,
		options?: { readonly map?: (header: { name: string }) => { name: string } },
	): Writable;
}
