/**
 * What the coaches' site may show of what coaches reported, where the club says so: sums of the whole club
 * and term, none below five.
 *
 * How no smaller number is found in them:
 *   one sum   a number is of all groups together and of the last count of each: no parts by class, level or
 *             week are published that a total could be held against, and no total of the parts
 *   the rest  a skill is left out, whole, where fewer than five do it alone or fewer than five do not;
 *             a cause, where it is of fewer than five classes
 *   in fives  what is left is rounded down to a multiple of five: who knows her own class, or yesterday's
 *             site, finds no single gymnast by taking one number from the other
 *
 * That small counts are left out with their complement, and that sums are rounded to a base, is usual in
 * official statistics (Hundepool et al., Statistical Disclosure Control, 2012, chapters 4 and 5; from memory).
 */

import type { BlockReport, Curriculum, Id } from "../model.ts";
import { FEWEST, lastCounts, taughtOf } from "./taught.ts";

export interface TaughtSums {
	/** Skill by skill, in the club's order: at least so many do it alone, of at least so many. */
	readonly skills: readonly { readonly skill: Id; readonly alone: number; readonly of: number }[];
	/** At least so many minutes were lost by a cause that coaches named; the most first. */
	readonly lost: readonly { readonly cause: NonNullable<BlockReport["cause"]>; readonly minutes: number }[];
}

/** @param curriculum with what coaches reported */
export function taughtSums(curriculum: Curriculum): TaughtSums {
	const counts = Map.groupBy(lastCounts(curriculum), ({ skill }) => skill);
	const skills = [...curriculum.skills.keys()].flatMap((skill) => {
		const own = counts.get(skill) ?? [];
		const of = own.reduce((sum, row) => sum + row.of, 0);
		const alone = own.reduce((sum, row) => sum + row.alone, 0);
		return alone < FEWEST || of - alone < FEWEST ? [] : [{ skill, alone: inFives(alone), of: inFives(of) }];
	});
	const losses = taughtOf(curriculum).weeks.flatMap(({ week, group, blocks }) =>
		blocks.flatMap(({ cause, lost }) =>
			cause === undefined || lost === 0 ? [] : [{ cause, lost, of: `${week} ${group.class.id}` }],
		),
	);
	const lost = [...Map.groupBy(losses, ({ cause }) => cause)].flatMap(([cause, all]) => {
		const minutes = inFives(all.reduce((sum, one) => sum + one.lost, 0));
		return new Set(all.map(({ of }) => of)).size < FEWEST || minutes < FEWEST ? [] : [{ cause, minutes }];
	});
	return { skills, lost: lost.sort((a, b) => b.minutes - a.minutes || (a.cause < b.cause ? -1 : 1)) };
}

function inFives(count: number): number {
	return Math.floor(count / FEWEST) * FEWEST;
}
