/**
 * What a measure is. Each measure is one file that exports one `Measure`; the list in
 * measures.ts names them all, and everything else (data files, findings page, `check`) follows.
 */

import type { Curriculum, Exposure, Finding, Table } from "../model.ts";
import type { Words } from "../words/words.ts";
import type { AcceptedFinding } from "./accepted.ts";

/** What every measure counts from. */
export interface Counted {
	readonly curriculum: Curriculum;
	readonly exposures: readonly Exposure[];
}

export interface Measure {
	/** Its name in progress and benchmarks. */
	readonly name: string;
	/** The data files it feeds. */
	tables(counted: Counted): readonly Table[];
	/** The targets the plan misses by this measure, in the words of a language. */
	findings(counted: Counted, words: Words): readonly Finding[];
}

/** Everything that is known about a plan, ready to be shown. */
export interface Measured extends Counted {
	/** By data file name without its ending. */
	readonly tables: ReadonlyMap<string, Table>;
	/** The most harmful first. */
	readonly findings: readonly Finding[];
	/** What the director accepts, with her reasons. */
	readonly accepted: readonly AcceptedFinding[];
}
