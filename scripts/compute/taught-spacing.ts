/**
 * Spacing as taught: gaps that grew since something was missed, and what was kept over breaks.
 *
 * H353   a group's gap or number of weeks keeps the club's target in the plan, and no longer does with what
 *        was taught until now and what is planned from then on; only where a week is still to come for it
 * kept   counts of one group on both sides of calendar weeks without the skill. Counts know no names: of
 *        those who did it alone before, at most so many still do. Where fewer were there after than before,
 *        the others may be the ones who can, and nothing is said
 *
 * Gaps are held against the club's own target alone; see spacing.ts for what is known of spacing.
 */

import type { Curriculum, Finding } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import type { Group } from "./groups.ts";
import { placeInCalendar } from "./load.ts";
import { aboutGroup, groupName } from "./names.ts";
import { type ReachRow, reach, reachIn } from "./reach.ts";
import { drillsTraining, gapWanted, isExpected, weeksWanted, widestGap } from "./spacing.ts";
import { FEWEST, type LearnedByGroup, learnedByGroup, taughtOf } from "./taught.ts";
import { type Share, wilson } from "./wilson.ts";

/** A thing that its gymnasts meet less evenly than the plan has it. */
export interface SpacedLess extends Pick<ReachRow, "kind" | "id" | "group"> {
	/** With what was taught, and what is planned for the weeks after. */
	readonly weeks: readonly number[];
	/** Weeks in which it was planned and not taught. */
	readonly missed: readonly number[];
	/** The two weeks too far apart, with some still to come between them; undefined where it is too few weeks. */
	readonly gap: readonly [number, number] | undefined;
	/** The longest gap that the club wants, or the least weeks. */
	readonly wanted: number;
}

/** Shapes before skills, in the club's order, then by group as in the term. */
export function spacedLess(curriculum: Curriculum): readonly SpacedLess[] {
	const { works, until } = taughtOf(curriculum);
	const taught = weeksMet(reachIn(curriculum, works));
	const last = Math.max(0, ...curriculum.weeks.map(({ week }) => week));
	return [...weeksMet(reach(curriculum))].flatMap(([key, { row, weeks: planned }]) => {
		const { kind, id, group } = row;
		const past = until.get(group.gymnastsId);
		if (past === undefined || past >= last) return [];
		if (!group.levels.some((level) => isExpected(curriculum, kind, id, level))) return [];
		const weeks = taught.get(key)?.weeks ?? [];
		const missed = planned.filter((week) => !weeks.includes(week));
		if (missed.length === 0) return [];
		const most = gapWanted(curriculum, kind);
		const gap = widestGap(weeks.filter((week, i) => week > past || (weeks[i + 1] ?? 0) > past + 1));
		const before = widestGap(planned);
		const common = { kind, id, group, weeks, missed };
		if (most !== undefined && lengthOf(gap) > most && lengthOf(before) <= most)
			return [{ ...common, gap, wanted: most }];
		const least = weeksWanted(curriculum, kind);
		return least !== undefined && weeks.length < least && planned.length >= least
			? [{ ...common, gap: undefined, wanted: least }]
			: [];
	});
}

function lengthOf(gap: readonly [number, number] | undefined): number {
	return gap === undefined ? 0 : gap[1] - gap[0];
}

/** The weeks of the same gymnasts on whatever day, by `kind id gymnasts`, with the first of their groups. */
function weeksMet(rows: readonly ReachRow[]) {
	const same = Map.groupBy(rows, ({ kind, id, group }) => `${kind} ${id} ${group.gymnastsId}`);
	return new Map(
		[...same].flatMap(([key, all]) => {
			const [row] = all;
			const weeks = [...new Set(all.flatMap((one) => one.weeks))].sort((a, b) => a - b);
			return row === undefined ? [] : [[key, { row, weeks }] as const];
		}),
	);
}

/** H353: one for each group and thing. */
export function spacingFindings(curriculum: Curriculum, words: Words): readonly Finding[] {
	const say = words.findings.spacing;
	return spacedLess(curriculum).map(({ kind, id, group, weeks, missed, gap, wanted }) => {
		const who = groupName(words, group);
		const thing = (kind === "shape" ? curriculum.shapes : curriculum.skills).get(id)?.name ?? id;
		const past = taughtOf(curriculum).until.get(group.gymnastsId) ?? 0;
		const drills = new Set(
			group.levels.flatMap((level) => drillsTraining(curriculum, kind, id, level).map(({ title }) => title)),
		);
		const what =
			gap === undefined
				? say.tooFew((kind === "shape" ? say.shapeMet : say.skillMet)(who, thing, weeks), wanted)
				: (kind === "shape" ? say.shapeGap : say.skillGap)(who, thing, {
						from: gap[0],
						to: gap[1],
						weeks: lengthOf(gap),
						wanted,
					});
		const week = curriculum.weeks.find((plan) => plan.week > Math.max(past, gap?.[0] ?? 0))?.week ?? past;
		return finding(
			words,
			"H353",
			"worth a look",
			`${what} ${words.findings.taught.wasPlanned(missed)}`,
			{ source: sourceOfWeek(curriculum, week), path: ["apparatus"] },
			{ week, ...(kind === "shape" ? { shape: id } : { skill: id }), ...aboutGroup(group) },
			gap === undefined
				? say.planAgain([...drills], who)
				: say.planBetween([...drills], who, Math.max(past, gap[0]), gap[1]),
		);
	});
}

/** Counts of a group before and after calendar weeks without a skill. */
export interface KeptOverBreak {
	readonly group: Group;
	readonly before: LearnedByGroup;
	readonly after: LearnedByGroup;
	/** Calendar weeks between the two counts, closed ones too. */
	readonly weeks: number;
	/** Undefined where fewer were there after. */
	readonly kept: Kept | undefined;
}

/** Of those who did it alone before, at most so many still do. */
export interface Kept {
	readonly kept: number;
	readonly of: number;
	/** Undefined where fewer than five did it. */
	readonly share: Share | undefined;
}

/** By skill in the club's order, then by group and week; nothing of fewer than five gymnasts. */
export function keptOverBreaks(curriculum: Curriculum): readonly KeptOverBreak[] {
	const met = weeksMet(reachIn(curriculum, taughtOf(curriculum).works));
	const same = Map.groupBy(learnedByGroup(curriculum), ({ group, skill }) => `${skill} ${group.name}`);
	return [...same.values()].flatMap((counts) =>
		counts.slice(1).flatMap((after, i) => {
			const before = counts[i];
			if (before === undefined || before.of < FEWEST || after.of < FEWEST) return [];
			const { group, skill } = after;
			const weeks = placeInCalendar(curriculum, after.week) - placeInCalendar(curriculum, before.week) - 1;
			const isTaught = met
				.get(`skill ${skill} ${group.gymnastsId}`)
				?.weeks.some((week) => week > before.week && week < after.week);
			if (weeks < 1 || isTaught === true) return [];
			const kept =
				after.of < before.of ? undefined : keptOf(Math.min(before.alone, after.alone), before.alone);
			return [{ group, before, after, weeks, kept }];
		}),
	);
}

/** The same by the length of the break, all groups and skills together. */
export function keptByWeeks(rows: readonly KeptOverBreak[]): readonly (Kept & { readonly weeks: number })[] {
	return [...Map.groupBy(rows, ({ weeks }) => weeks)]
		.map(([weeks, all]) => {
			const sum = (of: "kept" | "of") => all.reduce((total, { kept }) => total + (kept?.[of] ?? 0), 0);
			return { weeks, ...keptOf(sum("kept"), sum("of")) };
		})
		.filter(({ of }) => of > 0)
		.sort((a, b) => a.weeks - b.weeks);
}

function keptOf(kept: number, of: number): Kept {
	return { kept, of, share: of < FEWEST ? undefined : wilson(kept, of) };
}
