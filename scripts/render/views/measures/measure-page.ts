/**
 * The pages of the measures: what each asks, what it means, where that comes from, the club's own
 * target for it, and the data file that holds the same numbers.
 */

import { HEIGHTS_SOURCE } from "../../../compute/heights.ts";
import type { Targets } from "../../../model.ts";
import type { Address } from "../../addresses.ts";
import type { Link } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { capital, counted, shortNumber } from "../words.ts";

export const MEASURE_IDS = ["spacing", "order", "balance", "time", "equipment", "load", "heights"] as const;
export type MeasureId = (typeof MEASURE_IDS)[number];

export interface MeasureWords {
	readonly title: string;
	/** What a director would ask. */
	readonly question: string;
	readonly means: string;
	/** The published source, or that there is none. */
	readonly source: string;
	/** Data files with the same numbers, without their ending. */
	readonly files: readonly string[];
	readonly codes: readonly string[];
	/** One sentence for each target that the club has set. */
	targets(targets: Targets): readonly (string | undefined)[];
}

export const MEASURES: Readonly<Record<MeasureId, MeasureWords>> = {
	spacing: {
		title: "Spacing",
		question: "Is anything met too seldom, or forgotten for weeks?",
		means: "In how many weeks each level meets a shape or a skill, and how long it waits to meet it again.",
		source:
			"That practice spread over time is kept better than massed practice is well shown (Cepeda et al. 2006, for verbal recall; Lee & Genovese 1988, for movement). No best gap for children's gymnastics has been published, so the targets are the club's own.",
		files: ["spacing"],
		codes: ["H303", "H304", "H305", "H306"],
		targets: ({ shapeWeeks, shapeGap, skillWeeks, skillGap }) => [
			said(shapeWeeks, (n) => `Each shape in at least ${counted(n, "week")}`),
			said(shapeGap, (n) => `at most ${counted(n, "week")} from one week with a shape to the next`),
			said(skillWeeks, (n) => `each skill in at least ${counted(n, "week")}`),
			said(skillGap, (n) => `at most ${counted(n, "week")} from one week with a skill to the next`),
		],
	},
	order: {
		title: "Order",
		question: "Does the easier thing come before the harder one?",
		means:
			"Whether each level first meets what a skill needs, or what a drill comes after, before the thing itself; skills that gymnasts arrive with count as met.",
		source:
			"What needs what is the club's own, from its skills and drills. That the easier comes before the harder is common practice.",
		files: ["exposures"],
		codes: ["H301", "H302"],
		targets: () => ["Nothing before what it is built on"],
	},
	balance: {
		title: "Balance",
		question: "Is forward work matched by backward work, on both sides, in every movement pattern?",
		means:
			"Minutes forward against minutes backward on each apparatus in each week, how the two sides are treated, and which movement patterns are trained; minutes are added up over the levels.",
		source:
			"That work done forwards is matched by a backward version in the same week is common practice; no published source gives a share.",
		files: ["coverage-directions"],
		codes: ["H307"],
		targets: ({ pairDirections }) => [
			pairDirections === true ? "Forward work is matched by backward work in the same week" : undefined,
		],
	},
	time: {
		title: "Time",
		question: "Does the plan fit into each class, and how much of it does a gymnast move?",
		means:
			"Warm-up, blocks and cool-down against the minutes of each class, and the share of those minutes in which a gymnast moves rather than waits for a turn.",
		source:
			"Counted from the plan, the size of the class and the turns that drills give; a drill without a turn counts as everyone moving at once. That gymnasts learn by moving is common practice; the share wanted is the club's own.",
		files: ["time"],
		codes: ["H308", "H309", "H313", "H316"],
		targets: ({ activeShare }) => [
			"Planned minutes fit into the class",
			said(activeShare, (n) => `each gymnast moves for at least ${shortNumber(n * 100)} % of the class`),
		],
	},
	equipment: {
		title: "Equipment",
		question: "Is there enough in the store room, also while two classes share the hall?",
		means:
			"What each apparatus needs in each week: stations stand side by side and add up, blocks follow each other and the largest wins, items for each gymnast count for the largest class.",
		source: "Counted from the equipment lists of the drills and from what the club owns.",
		files: ["equipment"],
		codes: ["H310", "H317"],
		targets: () => ["Never more needed at the same moment than the club owns"],
	},
	load: {
		title: "Load",
		question: "Do landings and hand contacts step up gently?",
		means:
			"Landings and hand contacts that the plan asks of one gymnast who does everything planned for the level, and the step: this week over the mean of the three teaching weeks before.",
		source:
			"Landings and hand contacts are counted in studies of young gymnasts (wrist pain: DiFiori et al. 1996, 2002). The step wanted is the club's own: bands for such ratios (Gabbett 2016) have been strongly criticised (Impellizzeri et al. 2020), so none is used here.",
		files: ["load"],
		codes: ["H311"],
		targets: ({ loadStep }) => [
			said(loadStep, (n) => `A week at most ${n} times the mean of the three before it`),
		],
	},
	heights: {
		title: "Heights",
		question: "How high is knee, hip or chest height for this class?",
		means:
			"Centimetres at each body landmark for the ages of a class: the medians of girls and boys, and the band from the smaller 5th to the larger 95th percentile.",
		source: `${HEIGHTS_SOURCE}.`,
		files: [],
		codes: [],
		targets: () => [],
	},
};

export interface MeasuresView {
	readonly measures: readonly {
		readonly link: Link;
		readonly question: string;
		readonly target: string | undefined;
		/** Undefined for a measure that finds nothing by itself. */
		readonly findings: number | undefined;
	}[];
	readonly files: readonly Link[];
	readonly count: number;
}

/** The address of a measure's page. */
export function measureAddress(id: MeasureId): Address {
	return `measures/${id}/`;
}

/** The name of a measure. */
export function measureTitle(id: MeasureId): string {
	return MEASURES[id].title;
}

/** What a measure asks, for the head of its page. */
export function measureQuestion(id: MeasureId): string {
	return MEASURES[id].question;
}

/** A link to a measure's page. */
export function measureLink(id: MeasureId): Link {
	return { to: measureAddress(id), name: MEASURES[id].title };
}

/** The measure that makes findings of a code. */
export function measureOfCode(code: string): Link | undefined {
	const id = MEASURE_IDS.find((measure) => MEASURES[measure].codes.includes(code));
	return id && measureLink(id);
}

/** All measures, the term's overview and the coverage tables first. */
export function measuresView(site: SiteIndex): MeasuresView {
	const count = (codes: readonly string[]) =>
		site.handbook.findings.filter((finding) => codes.includes(finding.code)).length;
	return {
		measures: [
			{
				link: { to: "term/", name: "Term overview" },
				question: "What does each week train, at a glance?",
				target: undefined,
				findings: undefined,
			},
			{
				link: { to: "coverage/", name: "Coverage" },
				question: "How many minutes go to each shape, skill and direction?",
				target: undefined,
				findings: undefined,
			},
			...MEASURE_IDS.map((id) => ({
				link: measureLink(id),
				question: MEASURES[id].question,
				target: targetOf(site, id),
				findings: MEASURES[id].codes.length === 0 ? undefined : count(MEASURES[id].codes),
			})),
			{
				link: { to: "weeks/", name: "Calendar" },
				question: "On which dates does each class meet, around what is closed?",
				target: undefined,
				findings: count(["H312", "H314", "H315"]),
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

/** The targets that the club has set for a measure, as one sentence; undefined for none. */
export function targetOf(site: SiteIndex, id: MeasureId): string | undefined {
	const set = MEASURES[id].targets(site.curriculum.targets).filter((target) => target !== undefined);
	return set.length === 0 ? undefined : `${capital(set.join("; "))}.`;
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
