/**
 * The tests to run while writing: without a browser, without print, and without the files that take
 * longest: builds and programs that are started, everything counted a second time, plans that are mended by
 * search. Of random cases a tenth is tried (`random-cases.ts`). `npm test` runs all.
 */

import { mergeConfig } from "vitest/config";
import all from "./vitest.config.ts";

export default mergeConfig(all, {
	test: {
		env: { HANDBOOK_FAST: "1" },
		exclude: [
			"tests/print/{again,binder,book,every-sheet,find-browser,interrupt,layout,pocket,sheets,strange-clubs,update-packet,verify}.test.ts",
			"tests/site/!(golden).test.ts",
			"tests/pack/**",
			"tests/trust/**",
			"tests/commands/{command-line,edit-commands,edition,import,launcher,mend,npm-options,release,serve,shown-commands,spreadsheet-round-trip}.test.ts",
			"tests/compute/recount.test.ts",
			"tests/desk/{forms,from-nothing,look,offers,print,random,session}.test.ts",
			"tests/edit/{edit-club,next-term}.test.ts",
			"tests/figures/browser.test.ts",
			"tests/outside/exposures-recount.test.ts",
			"tests/records/records.test.ts",
			"tests/search/search-page.test.ts",
			"tests/solve/brute-force.test.ts",
			"tests/views/{html,one-view}.test.ts",
		],
	},
});
