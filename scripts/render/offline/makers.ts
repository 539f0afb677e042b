/**
 * Files of an edition that a device makes from others of it, so that they need not be sent: the search's
 * files from the drills' pages, coverage tables and the term from the plan.
 *
 * The build runs the very program that devices get, and leaves a maker's files out only where each of
 * them comes out as it was written: otherwise they are sent, which costs kilobytes and never a result.
 */

/** A file's path from the root of the site, and its text as a reader needs it. */
export type MadeFile = readonly [path: string, text: string];

export interface Maker {
	/** What it is called in the list of an edition. */
	readonly name: string;
	/** Whether its files are made before the edition is ready, of what is there by then. */
	readonly isEarly: boolean;
	/** Whether a file may be one of its own. */
	mayMake(path: string): boolean;
	/** Reads a file of the edition, if it is one that counts. */
	read(path: string, text: string): void;
	/** What it makes, once all files have gone by, some files at a time; none where something was missing. */
	files(): Iterable<readonly MadeFile[]>;
}

/** Makes everything; what one maker has made, those behind it read. */
export function* madeFiles(makers: readonly Maker[]): Generator<{
	readonly maker: Maker;
	readonly files: readonly MadeFile[];
}> {
	for (const [i, maker] of makers.entries()) {
		for (const files of maker.files()) {
			for (const later of makers.slice(i + 1)) for (const [path, text] of files) later.read(path, text);
			yield { maker, files };
		}
	}
}

/** How the program with the makers hands them over, to the worker and to the build. */
export interface MakersScope {
	handbookMakers?: () => readonly Maker[];
	/** The page of a text (page-text.ts), of what all pages share. */
	handbookPage?: (text: string, shared: string) => string;
}
