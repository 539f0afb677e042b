/** What was tried and how it ended, for each kind of bad input or fault, and the table of it. */

export interface Tally {
	readonly kind: string;
	tried: number;
	/** Ended in an exception, a stack trace or a signal. */
	crashed: number;
	/** Took longer than is allowed. */
	hung: number;
	/** Something that was there is gone, or what is published is no whole edition. */
	lost: number;
	/** Something got in or out: code ran, a file outside was read or written, memory ran away. */
	leaked: number;
	/** What went wrong, the first few in words. */
	readonly notes: string[];
}

export type Ending = "crashed" | "hung" | "lost" | "leaked";

/** Notes kept for each kind. */
const MOST_NOTES = 5;

export function newTally(kind: string): Tally {
	return { kind, tried: 0, crashed: 0, hung: 0, lost: 0, leaked: 0, notes: [] };
}

export function count(tally: Tally, ending: Ending, note: string): void {
	tally[ending]++;
	if (tally.notes.length < MOST_NOTES) tally.notes.push(`${ending}: ${note}`);
}

export function faults(tallies: readonly Tally[]): readonly string[] {
	return tallies.flatMap(({ kind, notes }) => notes.map((note) => `${kind}: ${note}`));
}

/** The table, in Markdown, with a last row of sums. */
export function tableOf(tallies: readonly Tally[]): string {
	const columns = ["tried", "crashed", "hung", "lost", "leaked"] as const;
	const total = newTally("**all**");
	for (const tally of tallies) for (const column of columns) total[column] += tally[column];
	const row = (tally: Tally) => `| ${tally.kind} | ${columns.map((c) => tally[c]).join(" | ")} |`;
	return [
		`| kind | ${columns.join(" | ")} |`,
		`| --- |${columns.map(() => " ---: |").join("")}`,
		...[...tallies, total].map(row),
	].join("\n");
}

/** Numbers from 0 up to 1 that are the same for the same seed (mulberry32). */
export function seeded(seed: number): () => number {
	let state = seed >>> 0;
	return () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let mixed = Math.imul(state ^ (state >>> 15), state | 1);
		mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
	};
}
