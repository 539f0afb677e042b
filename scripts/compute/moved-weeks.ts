/**
 * Weeks that have another number in a later plan, since one was inserted, taken out or moved.
 *
 * Steps: weeks that are the same under the same number stay; of the others those of equal content are
 * paired, then those of one theme, then those of one number. The earlier plan is then told under the later
 * numbers, so that a week is held against itself and not against its neighbour.
 */

import type { PlanRecord, Written } from "./plan-record.ts";

export interface MovedWeek {
	readonly from: number;
	readonly to: number;
}

/** The earlier plan under the numbers of the later one, and the weeks that have another. */
export function followWeeks(
	before: PlanRecord,
	after: PlanRecord,
): { readonly before: PlanRecord; readonly moved: readonly MovedWeek[] } {
	const pairs = pairWeeks(before.things.week, after.things.week);
	const moved = [...pairs]
		.filter(([from, to]) => from !== to)
		.map(([from, to]) => ({ from: Number(from), to: Number(to) }))
		.sort((a, b) => a.from - b.from);
	if (moved.length === 0) return { before, moved };
	const taken = new Set(pairs.values());
	// A week that is gone makes way for the one that has its number now.
	const numberOf = (old: string): string => pairs.get(old) ?? (taken.has(old) ? `(${old})` : old);
	const byNumber = <T>(weeks: Readonly<Record<string, T>>): Record<string, T> =>
		Object.fromEntries(Object.entries(weeks).map(([old, week]) => [numberOf(old), week]));
	const asCell = (cell: string | number | null) => {
		const number = numberOf(String(cell));
		return Number.isNaN(Number(number)) ? number : Number(number);
	};
	return {
		moved,
		before: {
			...before,
			things: { ...before.things, week: byNumber(before.things.week) },
			names: { ...before.names, week: byNumber(before.names.week) },
			tables: before.tables.map((table) => {
				const at = table.keys.includes("week") ? table.columns.indexOf("week") : -1;
				return at < 0
					? table
					: { ...table, rows: table.rows.map((row) => row.with(at, asCell(row[at] ?? null))) };
			}),
			findings: before.findings.map((finding) => {
				const { week, ...about } = finding.about;
				const now = week === undefined ? undefined : asCell(week);
				return {
					...finding,
					what: finding.what.replace(
						/\b(weeks?|semaines?) (\d+)/gi,
						(_all, word: string, number: string) => `${word} ${numberOf(number)}`,
					),
					about: typeof now === "number" ? { ...about, week: now } : about,
				};
			}),
		},
	};
}

type Weeks = Readonly<Record<string, Written>>;

/** New numbers by the old ones. */
function pairWeeks(before: Weeks, after: Weeks): ReadonlyMap<string, string> {
	const pairs = new Map<string, string>();
	const taken = new Set<string>();
	const pair = (from: string, to: string): void => {
		pairs.set(from, to);
		taken.add(to);
	};
	const open = (weeks: Weeks, done: { has(number: string): boolean }): readonly string[] =>
		Object.keys(weeks).filter((number) => !done.has(number));
	const pairBy = (said: (week: Written | undefined) => string | undefined): void => {
		const old = Map.groupBy(open(before, pairs), (number) => said(before[number]));
		const now = Map.groupBy(open(after, taken), (number) => said(after[number]));
		for (const [key, [from, ...more]] of old) {
			const [to, ...others] = now.get(key) ?? [];
			// What two weeks say says of neither where it went.
			if (key === undefined || from === undefined || to === undefined) continue;
			if (more.length + others.length === 0) pair(from, to);
		}
	};
	const same = (number: string) => JSON.stringify(before[number]) === JSON.stringify(after[number]);
	for (const number of Object.keys(before)) if (number in after && same(number)) pair(number, number);
	pairBy((week) => JSON.stringify(week));
	pairBy((week) => (typeof week?.theme === "string" ? week.theme : undefined));
	for (const number of open(before, pairs)) if (number in after && !taken.has(number)) pair(number, number);
	return pairs;
}

/** The first and the last of weeks that moved alike and lie side by side, by their old and their new numbers. */
export function runsOf(
	moved: readonly MovedWeek[],
): readonly { readonly from: readonly [number, number]; readonly to: readonly [number, number] }[] {
	const runs: { from: [number, number]; to: [number, number] }[] = [];
	for (const { from, to } of moved) {
		const run = runs.at(-1);
		if (run !== undefined && run.from[1] + 1 === from && run.to[1] + 1 === to) {
			run.from[1] = from;
			run.to[1] = to;
		} else runs.push({ from: [from, from], to: [to, to] });
	}
	return runs;
}
