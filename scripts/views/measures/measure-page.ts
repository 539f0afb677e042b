/**
 * The pages of the measures: what each asks, what it means, where that comes from, the club's own
 * target for it, and the data file that holds the same numbers.
 */

import type { Targets } from "../../model.ts";
import type { Code } from "../../problems.ts";
import type { Words } from "../../words/words.ts";
import { type Address, TAUGHT, TAUGHT_SUMS } from "../addresses.ts";
import type { Link } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { capital } from "../words.ts";

export const MEASURE_IDS = ["spacing", "order", "balance", "time", "equipment", "load", "heights"] as const;
export type MeasureId = (typeof MEASURE_IDS)[number];

/** What a measure is fed into, and how a club says what it wants of it. */
interface MeasureFacts {
	/** Data files with the same numbers, without their ending. */
	readonly files: readonly string[];
	readonly codes: readonly Code[];
	/** One sentence for each target that the club has set. */
	targets(targets: Targets, words: Words): readonly (string | undefined)[];
}

const MEASURES: Readonly<Record<MeasureId, MeasureFacts>> = {
	spacing: {
		files: ["spacing"],
		codes: ["H303", "H304", "H305", "H306"],
		targets: ({ shapeWeeks, shapeGap, skillWeeks, skillGap }, { targets }) => [
			said(shapeWeeks, targets.shapeWeeks),
			said(shapeGap, targets.shapeGap),
			said(skillWeeks, targets.skillWeeks),
			said(skillGap, targets.skillGap),
		],
	},
	order: {
		files: ["exposures"],
		codes: ["H301", "H302"],
		targets: (_, { targets }) => [targets.order],
	},
	balance: {
		files: ["coverage-directions"],
		codes: ["H307"],
		targets: ({ pairDirections }, { targets }) => [
			pairDirections === true ? targets.pairDirections : undefined,
		],
	},
	time: {
		files: ["time"],
		codes: ["H308", "H309", "H313", "H316"],
		targets: ({ activeShare }, { targets }) => [targets.time, said(activeShare, targets.activeShare)],
	},
	equipment: {
		files: ["equipment"],
		codes: ["H310", "H317", "H318", "H319", "H320", "H346"],
		targets: (_, { targets }) => [targets.equipment],
	},
	load: {
		files: ["load"],
		codes: ["H311"],
		targets: ({ loadStep }, { targets }) => [said(loadStep, targets.loadStep)],
	},
	heights: { files: [], codes: [], targets: () => [] },
};

export type MeasuresView = ReturnType<typeof measuresView>;

export function measureAddress(id: MeasureId): Address {
	return `measures/${id}/`;
}

export function measureLink({ measures }: Words, id: MeasureId): Link {
	return { to: measureAddress(id), name: measures[id].title };
}

/** The measure that makes findings of a code. */
export function measureOfCode(words: Words, code: Code): Link | undefined {
	const id = MEASURE_IDS.find((measure) => MEASURES[measure].codes.includes(code));
	return id && measureLink(words, id);
}

/** All measures, the term's overview and the coverage tables first. */
export function measuresView(site: SiteIndex) {
	const { words } = site;
	const count = (codes: readonly string[]) =>
		site.handbook.findings.filter((finding) => codes.includes(finding.code)).length;
	return {
		measures: [
			{
				link: { to: "term/", name: words.destinations.termOverview },
				question: words.measurePage.termQuestion,
				target: undefined,
				/** Undefined for a measure that finds nothing by itself. */
				findings: undefined,
			},
			{
				link: { to: "coverage/", name: words.destinations.coverage },
				question: words.measurePage.coverageQuestion,
				target: undefined,
				findings: undefined,
			},
			...MEASURE_IDS.map((id) => ({
				link: measureLink(words, id),
				question: words.measures[id].question,
				target: targetOf(site, id),
				findings: MEASURES[id].codes.length === 0 ? undefined : count(MEASURES[id].codes),
			})),
			...(site.curriculum.taught.length === 0
				? []
				: [
						{
							link: { to: TAUGHT, name: words.taughtPage.title },
							question: words.taughtPage.question,
							target: undefined,
							findings: count(["H350", "H351", "H352", "H353"]),
						},
					]),
			...(site.curriculum.club.taughtSums === true
				? [
						{
							link: { to: TAUGHT_SUMS, name: words.about.sums.title },
							question: words.about.sums.question,
							target: undefined,
							findings: undefined,
						},
					]
				: []),
			{
				link: { to: "weeks/", name: words.measurePage.calendar },
				question: words.measurePage.calendarQuestion,
				target: undefined,
				findings: count(["H312", "H314", "H315", "H345"]),
			},
		],
		files: [
			...filesOf(site, [...site.handbook.tables.keys()]),
			{ to: "data/calendar.ics", name: "calendar.ics" },
			{ to: "data/findings.json", name: "findings.json" },
		],
		count: site.handbook.findings.length,
	};
}

/** What of the program a measure is made of: its codes and files. */
export function measureFacts(id: MeasureId): Pick<MeasureFacts, "files" | "codes"> {
	return MEASURES[id];
}

/** The targets that the club has set for a measure, as one sentence; undefined for none. */
export function targetOf(site: SiteIndex, id: MeasureId): string | undefined {
	const set = MEASURES[id]
		.targets(site.curriculum.targets, site.words)
		.filter((target) => target !== undefined);
	return set.length === 0 ? undefined : `${capital(set.join(site.words.semicolon))}.`;
}

/** Links to data files, as far as they are written. */
export function filesOf(site: SiteIndex, names: readonly string[]): readonly Link[] {
	return names
		.filter((name) => site.handbook.tables.has(name))
		.map((name) => ({ to: `data/${name}.csv`, name: `${name}.csv` }));
}

function said(target: number | undefined, words: (target: number) => string): string | undefined {
	return target === undefined ? undefined : words(target);
}
