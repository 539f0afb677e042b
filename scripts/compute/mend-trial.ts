/**
 * A trial of edits that should mend a finding: the plan is counted with and without them, and they count
 * as sure only where the finding is gone.
 *
 * Steps: count the weeks that they touch, for all classes, by the measures that look at one week; where
 * the finding is of the whole term, count the term as well, for the classes it is about; where drills are
 * done at another time or no more, count the order and what is covered, for all. Edits are refused that
 * leave the finding, that ask for more minutes than a class has, or that make a new finding which harms
 * as much or more. What coverage they cost, `--what-if` says.
 */

import { withWeeks } from "../link/join-records.ts";
import type { Block, Curriculum, Finding, Id, PlanChange } from "../model.ts";
import { wordsFor } from "../words/words.ts";
import { balanceMeasure } from "./balance.ts";
import { knowTeachingWeeks, meets, teachingWeeks } from "./calendar.ts";
import { coachesMeasure } from "./coaches.ts";
import { doseMeasure } from "./dose.ts";
import { equipmentMeasure } from "./equipment.ts";
import { exposuresOf } from "./exposures.ts";
import { getOrMake } from "./get-or-make.ts";
import { HARMS, harmOf } from "./harm.ts";
import { loadMeasure } from "./load.ts";
import type { Counted, Measure } from "./measure.ts";
import { orderMeasure } from "./order.ts";
import { placingMeasure } from "./placing.ts";
import { changedPlan, weeksOf } from "./plan-changes.ts";
import { reachMeasure } from "./reach.ts";
import { setOutMeasure } from "./set-out.ts";
import { settingsMeasure } from "./settings.ts";
import { spaceMeasure } from "./space.ts";
import { spacingMeasure } from "./spacing.ts";
import { missedMeasure } from "./taught-measure.ts";
import { timeMeasure, timeWithoutNew } from "./time.ts";

/** Measures whose findings follow from one week alone. */
const OF_A_WEEK = [
	coachesMeasure,
	timeMeasure,
	doseMeasure,
	equipmentMeasure,
	setOutMeasure,
	spaceMeasure,
	settingsMeasure,
	placingMeasure,
];

/** Measures that ask when drills are done, or whether; and those that ask what else is done there. */
const OF_ORDER = [orderMeasure, spacingMeasure, reachMeasure];
const OF_DRILLS = [...OF_ORDER, loadMeasure, balanceMeasure];

/** The measure of a finding that only the whole term shows. */
const OF_THE_TERM: Readonly<Partial<Record<Finding["code"], Measure>>> = {
	H301: orderMeasure,
	H302: orderMeasure,
	H303: spacingMeasure,
	H304: spacingMeasure,
	H305: spacingMeasure,
	H306: spacingMeasure,
	H307: balanceMeasure,
	H311: loadMeasure,
	H330: orderMeasure,
	H334: doseMeasure,
	H335: doseMeasure,
	H336: settingsMeasure,
	H337: settingsMeasure,
	H338: reachMeasure,
	H340: loadMeasure,
	H341: timeMeasure,
	H343: reachMeasure,
	H350: missedMeasure,
};

/** A block in which nobody has a turn mends nothing, whatever is counted as met by it. */
const NOTHING_DONE: readonly Finding["code"][] = ["H316", "H344"];

/** As many lists are tried for one finding. */
const TRIALS = 8;

/** What a finding is, whatever its words and numbers. */
function keyOf({ code, about }: Finding): string {
	return JSON.stringify([code, about]);
}

/**
 * The first of several lists of edits that mends a finding and makes no new one; else the one that makes
 * fewest; undefined where none is sure.
 */
export function firstThatMends(
	curriculum: Curriculum,
	finding: Finding,
	lists: Iterable<readonly PlanChange[]>,
): readonly PlanChange[] | undefined {
	let best: { readonly edits: readonly PlanChange[]; readonly made: number } | undefined;
	let tried = 0;
	for (const edits of lists) {
		if (edits.length === 0) continue;
		if (++tried > TRIALS) break;
		const made = findingsMade(curriculum, finding, edits);
		if (made === undefined || made >= (best?.made ?? Number.POSITIVE_INFINITY)) continue;
		best = { edits, made };
		if (made === 0) break;
	}
	return best?.edits;
}

/** How many findings edits make that mend this one; undefined where they do not, or must not be made. */
function findingsMade(
	curriculum: Curriculum,
	finding: Finding,
	edits: readonly PlanChange[],
): number | undefined {
	const touched = weeksOf(edits);
	const isMoved = edits.some(
		(edit) =>
			"move" in edit ||
			"remove" in edit ||
			("set" in edit && (edit.set.stations ?? edit.set.options) !== undefined),
	);
	const own = OF_THE_TERM[finding.code];
	const weeks = new Set([...touched, finding.about.week ?? [...touched][0] ?? 0]);
	const parts = [{ measures: OF_A_WEEK, part: partOf(curriculum, weeks, undefined) }];
	if (own !== undefined) {
		parts.push({ measures: [own], part: partOf(curriculum, undefined, classesOf(curriculum, finding)) });
	}
	const isSwapped = edits.some((edit) => "swap" in edit);
	if (isMoved || isSwapped)
		parts.push({
			measures: isSwapped ? OF_DRILLS : OF_ORDER,
			part: partOf(curriculum, undefined, undefined),
		});
	let made = 0;
	let isGone = false;
	for (const { measures, part } of parts) {
		const before = keysOf(part, measures);
		const changed = changedPlan(part, edits);
		if (!hasTime(part, changed) || !areKept(part, changed)) return undefined;
		const after = keysIn(changed, measures);
		if (after.has(keyOf(finding))) return undefined;
		isGone ||= before.has(keyOf(finding));
		for (const [key, code] of after) {
			if (before.has(key)) continue;
			if (NOTHING_DONE.includes(code)) return undefined;
			if (HARMS.indexOf(harmOf(code)) <= HARMS.indexOf(harmOf(finding.code))) return undefined;
			made++;
		}
	}
	return isGone ? made : undefined;
}

/** The classes of the same gymnasts, or of the level; all of them where the finding is of neither. */
function classesOf({ term }: Curriculum, { about }: Finding): ReadonlySet<Id> | undefined {
	const { class: own, level } = about;
	if (own === undefined && level === undefined) return undefined;
	const named = term.classes.filter(
		({ id, levels, groups }) =>
			id === own ||
			(own === undefined &&
				level !== undefined &&
				(levels.length === 0 ||
					levels.includes(level) ||
					groups.some((part) => part.levels.includes(level)))),
	);
	if (named.length === 0) return undefined;
	const found = new Set(named.map(({ id }) => id));
	// Those joined by `same-as`, one by one, whichever of them names the other.
	for (let size = 0; size < found.size; ) {
		size = found.size;
		for (const { id, sameAs } of term.classes) {
			if (sameAs !== undefined && (found.has(id) || found.has(sameAs))) found.add(id).add(sameAs);
		}
	}
	return found;
}

const parts = new WeakMap<Curriculum, Map<string, Curriculum>>();

/** The curriculum with some of its weeks and classes; all of those that are not said. */
function partOf(
	curriculum: Curriculum,
	weeks: ReadonlySet<number> | undefined,
	classes: ReadonlySet<Id> | undefined,
): Curriculum {
	const kept = getOrMake(parts, curriculum, () => new Map<string, Curriculum>());
	const key = `${weeks === undefined ? "" : [...weeks].sort().join(" ")}/${classes === undefined ? "" : [...classes].join(" ")}`;
	return getOrMake(kept, key, () => {
		const term =
			classes === undefined
				? curriculum.term
				: { ...curriculum.term, classes: curriculum.term.classes.filter(({ id }) => classes.has(id)) };
		// Which weeks are closed follows from the days of all classes.
		knowTeachingWeeks(term, teachingWeeks(curriculum.term));
		const own =
			weeks === undefined ? curriculum.weeks : curriculum.weeks.filter(({ week }) => weeks.has(week));
		return withWeeks(classes === undefined ? curriculum : { ...curriculum, term }, own);
	});
}

type Keys = ReadonlyMap<string, Finding["code"]>;
const counted = new WeakMap<Curriculum, Map<string, Keys>>();

/** The findings of a part of a curriculum as it is. */
function keysOf(part: Curriculum, measures: readonly Measure[]): Keys {
	const kept = getOrMake(counted, part, () => new Map<string, Keys>());
	return getOrMake(kept, measures.map(({ name }) => name).join(" "), () => keysIn(part, measures));
}

function keysIn(curriculum: Curriculum, measures: readonly Measure[]): Keys {
	let exposures: Counted["exposures"] | undefined;
	// Few measures ask for them.
	const counted: Counted = {
		curriculum,
		get exposures() {
			exposures ??= exposuresOf(curriculum);
			return exposures;
		},
	};
	const words = wordsFor(curriculum.club.language);
	const found = measures.flatMap((measure) => measure.findings(counted, words));
	return new Map(found.map((one) => [keyOf(one), one.code]));
}

/** Whether what the director keeps is there as it was. */
function areKept(before: Curriculum, after: Curriculum): boolean {
	return before.weeks.every((plan, i) => {
		const now = after.weeks[i];
		if (now === plan || now === undefined) return true;
		if (plan.keep === true) return false;
		return plan.apparatus.every(({ apparatus, blocks }) => {
			const here = now.apparatus.find((one) => one.apparatus === apparatus)?.blocks ?? [];
			const isThere = (block: Block): boolean =>
				here.some(({ stations, minutes }) => stations === block.stations && minutes === block.minutes);
			return blocks.every((block) => block.keep !== true || isThere(block));
		});
	});
}

/** Whether no class has more planned than it has minutes for, or than it had before. */
function hasTime(before: Curriculum, after: Curriculum): boolean {
	return after.weeks.every((plan, i) =>
		after.term.classes.every((one) => {
			const old = before.weeks[i];
			if (one.minutes === undefined || old === undefined || old === plan) return true;
			if (!meets(after.term, plan.week, one)) return true;
			const most = Math.max(one.minutes, timeWithoutNew(before, old, one).planned);
			return timeWithoutNew(after, plan, one).planned <= most + 1e-9;
		}),
	);
}
