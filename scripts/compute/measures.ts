/**
 * All measures, in the order in which they are shown, and the one call that runs them.
 *
 * To add a measure: write its file, add it to this list. Its tables become data files and its
 * findings join the findings page by themselves.
 */

import type { Curriculum, Finding } from "../model.ts";
import { type Words, wordsFor } from "../words/words.ts";
import { partAccepted } from "./accepted.ts";
import { balanceMeasure } from "./balance.ts";
import { calendarMeasure } from "./calendar.ts";
import { coachesMeasure } from "./coaches.ts";
import { coverageMeasure } from "./coverage.ts";
import { doseMeasure } from "./dose.ts";
import { equipmentMeasure } from "./equipment.ts";
import { exposureMeasure } from "./exposure-table.ts";
import { exposuresOf } from "./exposures.ts";
import { lazy, once } from "./get-or-make.ts";
import { HARMS, harmOf } from "./harm.ts";
import { loadMeasure } from "./load.ts";
import type { Counted, Measure, Measured } from "./measure.ts";
import { orderMeasure } from "./order.ts";
import { placingMeasure } from "./placing.ts";
import { practiceMeasure } from "./practice.ts";
import { reachMeasure } from "./reach.ts";
import { setOutMeasure } from "./set-out.ts";
import { settingsMeasure } from "./settings.ts";
import { spaceMeasure } from "./space.ts";
import { spacingMeasure } from "./spacing.ts";
import { taughtMeasure } from "./taught-measure.ts";
import { timeMeasure } from "./time.ts";
import { waysMeasure } from "./ways.ts";

export const MEASURES: readonly Measure[] = [
	exposureMeasure,
	practiceMeasure,
	coverageMeasure,
	reachMeasure,
	orderMeasure,
	coachesMeasure,
	spacingMeasure,
	balanceMeasure,
	timeMeasure,
	doseMeasure,
	equipmentMeasure,
	setOutMeasure,
	spaceMeasure,
	settingsMeasure,
	placingMeasure,
	waysMeasure,
	loadMeasure,
	calendarMeasure,
	taughtMeasure,
];

/**
 * Counts everything: exposures once, then each measure's tables and findings, in the club's language.
 * Each is counted when it is first asked for: `serve` shows most pages without them.
 */
export function measure(curriculum: Curriculum, words: Words = wordsFor(curriculum.club.language)): Measured {
	const counted = lazy<Counted>({ curriculum: () => curriculum, exposures: () => exposuresOf(curriculum) });
	const part = once(() => {
		const found = MEASURES.flatMap((one) => one.findings(counted, words));
		return partAccepted(curriculum, found, words);
	});
	return lazy<Measured>({
		curriculum: () => curriculum,
		exposures: () => counted.exposures,
		tables: () => new Map(MEASURES.flatMap((one) => one.tables(counted)).map((table) => [table.name, table])),
		findings: () => [...part().standing].sort(byHarm),
		accepted: () => part().accepted,
	});
}

const WEIGHTS = ["serious", "worth a look", "note"] as const satisfies readonly Finding["weight"][];

/** By harm, then the weightiest, then by code and by week; findings of the whole term after those of a week. */
function byHarm(a: Finding, b: Finding): number {
	const week = (f: Finding): number => f.about.week ?? Number.MAX_SAFE_INTEGER;
	return (
		HARMS.indexOf(harmOf(a.code)) - HARMS.indexOf(harmOf(b.code)) ||
		WEIGHTS.indexOf(a.weight) - WEIGHTS.indexOf(b.weight) ||
		(a.code < b.code ? -1 : a.code > b.code ? 1 : 0) ||
		week(a) - week(b) ||
		(b.count ?? 1) - (a.count ?? 1)
	);
}
