/** A thread that packs what devices keep, while the pages are still being made (write-packs.ts). */

import { takePosts } from "../posts.ts";
import type { SiteFile } from "./pack-pages.ts";
import type { PackWriterOptions, WrittenPacks } from "./write-packs.ts";

export type ToPacking =
	| {
			readonly kind: "begin";
			readonly options: Omit<PackWriterOptions, "program">;
			/** Of the words of what devices run. */
			readonly language: string;
	  }
	| { readonly kind: "files"; readonly files: readonly SiteFile[] }
	/** No more files: answered when the packs are written. */
	| { readonly kind: "end" };

await takePosts<ToPacking, WrittenPacks>(async () => {
	const [{ PackWriter }, { bundleProgram }, { wordsFor }] = await Promise.all([
		import("./write-packs.ts"),
		import("./bundle-program.ts"),
		import("../../words/words.ts"),
	]);
	let writer: InstanceType<typeof PackWriter> | undefined;
	return {
		async take(post) {
			if (post.kind === "begin") {
				const program = await bundleProgram("makers.ts", wordsFor(post.language));
				writer = new PackWriter({ ...post.options, program });
			} else if (post.kind === "files") for (const file of post.files) writer?.add(file);
			else return writer?.write();
			return undefined;
		},
	};
});
