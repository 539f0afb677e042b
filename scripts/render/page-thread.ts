/** A thread that writes the pages of a site with Eleventy, of the texts that it is posted (write-pages.ts). */

import { takePosts } from "./posts.ts";
import type { ToPages, WrittenPages } from "./write-pages.ts";

await takePosts<ToPages, WrittenPages>(async () => {
	const { PageWriter } = await import("./write-pages.ts");
	return new PageWriter();
});
