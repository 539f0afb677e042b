import type { ClubEdition } from "../model.ts";

/** What the device's program hands over to the worker, and to tests: a handbook made of its records. */

export interface DeviceHandbook {
	/** Whether there is a page in this file, by its path from the root of the site. */
	has(path: string): boolean;
	/** The page of a file, as the host has it. */
	page(path: string): string | undefined;
	/** The search's files. */
	search(): readonly { readonly path: string; readonly text: string }[];
}

export interface DeviceScope {
	/**
	 * @param textOf the text of a file of records; undefined where there is none
	 * @param edition which one it is, for pages that say so
	 */
	handbookOf?: (textOf: (name: string) => string | undefined, edition: ClubEdition) => DeviceHandbook;
}
