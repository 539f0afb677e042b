/**
 * Load: landings and hand contacts that the plan asks of one gymnast of a level in a week, and the
 * step from the weeks before.
 *
 * Steps: contacts × repetitions of every exposure, added up; then each week over the mean of the
 * three teaching weeks before it.
 *
 * A count for planning, not a medical measure. Landings and hand contacts are counted in studies of
 * young gymnasts (wrist pain: DiFiori et al. 1996, 2002). The club's own target decides which step is
 * listed; no step is called safe or unsafe, since bands for such ratios (Gabbett 2016) have been
 * strongly criticised (Impellizzeri et al. 2020).
 */

import type { Column, Curriculum, Finding, Id } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding } from "./finding.ts";
import type { Counted, Measure } from "./measure.ts";
import { sortedRows } from "./tables.ts";

/** Weeks that a week is held against. */
const WEEKS_BEFORE = 3;

/** One level in one week. */
export interface Load {
	readonly week: number;
	readonly level: Id;
	readonly landings: number;
	readonly hands: number;
	/** This week over the mean of the three teaching weeks before; undefined where there are fewer or their mean is 0. */
	readonly landingsStep: number | undefined;
	readonly handsStep: number | undefined;
	/** What each drill adds, most first. */
	readonly drills: readonly { readonly drill: Id; readonly landings: number; readonly hands: number }[];
}

/**
 * The load of each level in each week in which it has a drill, by week, then level. A repetition count
 * that nobody wrote counts as 1. A teaching week without drills for the level weighs 0 in the mean.
 */
export function loads({ curriculum, exposures }: Counted): readonly Load[] {
	const cells = new Map<string, Map<Id, { landings: number; hands: number }>>();
	for (const { week, level, drill, repetitions = 1 } of exposures) {
		const key = `${week} ${level}`;
		const cell = cells.get(key) ?? new Map<Id, { landings: number; hands: number }>();
		cells.set(key, cell);
		const contacts = curriculum.drills.get(drill)?.contacts;
		if (contacts === undefined) continue;
		const found = cell.get(drill) ?? { landings: 0, hands: 0 };
		cell.set(drill, found);
		found.landings += contacts.landings * repetitions;
		found.hands += contacts.hands * repetitions;
	}
	const totals = new Map(
		[...cells].map(([key, cell]) => [
			key,
			{
				landings: sum([...cell.values()].map((c) => c.landings)),
				hands: sum([...cell.values()].map((c) => c.hands)),
			},
		]),
	);
	const step = (week: number, level: Id, of: "landings" | "hands"): number | undefined => {
		if (week <= WEEKS_BEFORE) return undefined;
		const before = Array.from(
			{ length: WEEKS_BEFORE },
			(_, i) => totals.get(`${week - 1 - i} ${level}`)?.[of] ?? 0,
		);
		const mean = sum(before) / WEEKS_BEFORE;
		return mean === 0 ? undefined : (totals.get(`${week} ${level}`)?.[of] ?? 0) / mean;
	};
	return curriculum.weeks.flatMap(({ week }) =>
		[...curriculum.levels.keys()].flatMap((level) => {
			const key = `${week} ${level}`;
			const total = totals.get(key);
			if (total === undefined) return [];
			return [
				{
					week,
					level,
					...total,
					landingsStep: step(week, level, "landings"),
					handsStep: step(week, level, "hands"),
					drills: [...(cells.get(key) ?? [])]
						.map(([drill, contacts]) => ({ drill, ...contacts }))
						.sort((a, b) => b.landings + b.hands - (a.landings + a.hands)),
				},
			];
		}),
	);
}

const COLUMNS: readonly Column[] = [
	{ name: "week", order: "number" },
	{ name: "level", order: "level" },
	{ name: "landings", order: "number" },
	{ name: "hands", order: "number" },
	{ name: "landings-step", order: "number" },
	{ name: "hands-step", order: "number" },
];

/** load.csv, and H311. */
export const loadMeasure: Measure = {
	name: "load",
	tables: (counted) => [
		{
			name: "load",
			columns: COLUMNS,
			rows: sortedRows(
				counted.curriculum,
				COLUMNS,
				loads(counted).map((l) => [l.week, l.level, l.landings, l.hands, l.landingsStep, l.handsStep]),
			),
		},
	],
	findings: (counted, words) => loads(counted).flatMap((load) => stepped(counted.curriculum, load, words)),
};

function stepped(curriculum: Curriculum, load: Load, words: Words): readonly Finding[] {
	const say = words.findings.load;
	const target = curriculum.targets.loadStep;
	if (target === undefined) return [];
	const kinds = [
		{ of: "landings", step: load.landingsStep },
		{ of: "hands", step: load.handsStep },
	] as const;
	const over = kinds.flatMap(({ of, step }) =>
		step !== undefined && step > target + 1e-9 ? [{ of, step }] : [],
	);
	const first = over[0];
	const plan = curriculum.weeks.find((w) => w.week === load.week);
	if (first === undefined || plan === undefined) return [];
	const most = [...load.drills].sort((a, b) => b[first.of] - a[first.of])[0];
	return [
		finding(
			words,
			"H311",
			"worth a look",
			say.step(
				curriculum.levels.get(load.level)?.name ?? load.level,
				load.week,
				over.map(({ of, step }) => say[of](load[of], step)),
				target,
			),
			{
				source: plan.source,
				path: most === undefined ? ["apparatus"] : pathOf(curriculum, plan.week, load.level, most.drill),
			},
			{ week: load.week, level: load.level, ...(most === undefined ? {} : { drill: most.drill }) },
			most === undefined
				? undefined
				: (first.of === "landings" ? say.spreadLandings : say.spreadHands)(
						curriculum.drills.get(most.drill)?.title ?? most.drill,
						most[first.of],
					),
		),
	];
}

/** The block in which a level first does a drill in a week. */
function pathOf(curriculum: Curriculum, week: number, level: Id, drill: Id) {
	const at = curriculum.drills.get(drill)?.planned.find((o) => o.week === week && o.levels.includes(level));
	const plan = curriculum.weeks.find((w) => w.week === week);
	const block = plan?.apparatus.find((p) => p.apparatus === at?.apparatus)?.blocks[(at?.block ?? 0) - 1];
	return block?.path ?? ["apparatus"];
}

function sum(values: readonly number[]): number {
	return values.reduce((total, value) => total + value, 0);
}
