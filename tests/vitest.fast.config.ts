/**
 * The tests to run while writing: without a browser, without print, without files that start the
 * command anew for nearly every test. `npm test` runs all.
 */

import { mergeConfig } from "vitest/config";
import all from "./vitest.config.ts";

export default mergeConfig(all, {
	test: {
		exclude: [
			"tests/print/{again,binder,book,find-browser,interrupt,layout,sheets,strange-clubs,update-packet,verify}.test.ts",
			"tests/site/**",
			"tests/trust/**",
			"tests/views/one-view.test.ts",
			"tests/commands/{command-line,edit-commands,edition,serve,shown-commands,spreadsheet-round-trip}.test.ts",
			"tests/edit/edit-club.test.ts",
			"tests/figures/browser.test.ts",
			"tests/search/search-page.test.ts",
		],
	},
});
