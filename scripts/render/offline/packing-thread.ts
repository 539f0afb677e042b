/** A thread that packs what devices keep, while the pages are still being made (write-packs.ts). */

import { takePosts } from "../posts.ts";
import type { SiteFile } from "./pack-pages.ts";
import type { PackWriterOptions, WrittenPacks } from "./write-packs.ts";

export type ToPacking =
	| { readonly kind: "begin"; readonly options: PackWriterOptions }
	| { readonly kind: "files"; readonly files: readonly SiteFile[] }
	/** No more files: answered when the packs are written. */
	| { readonly kind: "end" };

await takePosts<ToPacking, WrittenPacks>(async () => {
	const { PackWriter } = await import("./write-packs.ts");
	let writer: InstanceType<typeof PackWriter> | undefined;
	return {
		take(post) {
			if (post.kind === "begin") writer = new PackWriter(post.options);
			else if (post.kind === "files") for (const file of post.files) writer?.add(file);
			else return writer?.write();
			return undefined;
		},
	};
});
