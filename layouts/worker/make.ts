/**
 * The part of the worker that makes the handbook of its records: pages, and the search's files. It stands
 * in a file of its own, which does not change with every edition, as the worker does.
 */

import type { DeviceScope } from "../../scripts/records/device.ts";
import { readRecords } from "../../scripts/records/records.ts";
import { searchFiles } from "../../scripts/search/build-search.ts";
import { pageFinder } from "../pages/site-pages.ts";
import { documentOf } from "../parts/frame.ts";
import { WORDS } from "./words.ts";

(globalThis as DeviceScope).handbookOf = (textOf, edition) => {
	const { handbook, options } = readRecords(textOf, edition, WORDS);
	const pageOf = pageFinder(handbook, options);
	return {
		has: (path) => pageOf(path) !== undefined,
		page: (path) => {
			const page = pageOf(path);
			return page === undefined || page.facts.readyMade ? undefined : documentOf(page, noCode);
		},
		search: () => searchFiles(handbook),
	};
};

function noCode(): never {
	throw new Error("No page that devices make has code of its own.");
}
