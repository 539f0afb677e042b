/**
 * Spacing: in which weeks each shape and skill is met at each level, and how far apart.
 *
 * Steps: gather the weeks of each thing at each level from the exposures; measure first, last and
 * longest gap; hold what a level is expected to train against the club's targets.
 *
 * Gaps are reported, and judged by nothing but the club's own target: that spread practice is kept
 * better than massed practice is well shown (Cepeda et al. 2006, for verbal recall; Lee & Genovese
 * 1988, for movement), but no best gap for children's gymnastics has been published.
 */

import type { Curriculum, DataPath, Finding, Id, LinkedDrill, Source } from "../model.ts";
import type { Words } from "../words/words.ts";
import { coveredBy } from "./coverage.ts";
import { finding } from "./finding.ts";
import { getOrMake, onceForExposures } from "./get-or-make.ts";
import type { Counted, Measure } from "./measure.ts";
import { tableOf } from "./tables.ts";

export type SpacedKind = "shape" | "skill";

const KINDS: readonly SpacedKind[] = ["shape", "skill"];

/** One thing at one level. */
export interface Spacing {
	readonly kind: SpacedKind;
	readonly id: Id;
	readonly level: Id;
	/** The numbers of the weeks it is met in, ascending; empty where it never is. */
	readonly taught: readonly number[];
	readonly first: number | undefined;
	readonly last: number | undefined;
	/** The two neighbouring weeks furthest apart (the earliest such pair); undefined with fewer than two weeks. */
	readonly gap: readonly [number, number] | undefined;
	/** Weeks from one of them to the other. */
	readonly longestGap: number | undefined;
	/** Whether the level should train it: see `isExpected`. */
	readonly expected: boolean;
}

/**
 * The spacing of everything that a level meets or should meet: shapes before skills, in the club's
 * order, then by level.
 */
export const spacings = onceForExposures(({ curriculum, exposures }: Counted): readonly Spacing[] => {
	const weeks = new Map<string, Set<number>>();
	for (const { drill, level, week } of exposures) {
		for (const kind of KINDS) {
			for (const id of coveredBy(curriculum, drill, kind)) {
				getOrMake(weeks, `${kind} ${id} ${level}`, () => new Set<number>()).add(week);
			}
		}
	}
	const rows: Spacing[] = [];
	for (const kind of KINDS) {
		for (const id of thingsOf(curriculum, kind).keys()) {
			for (const level of curriculum.levels.keys()) {
				const taught = [...(weeks.get(`${kind} ${id} ${level}`) ?? [])].sort((a, b) => a - b);
				const expected = isExpected(curriculum, kind, id, level);
				if (taught.length === 0 && !expected) continue;
				const gap = widestGap(taught);
				rows.push({
					kind,
					id,
					level,
					taught,
					first: taught[0],
					last: taught.at(-1),
					gap,
					longestGap: gap === undefined ? undefined : gap[1] - gap[0],
					expected,
				});
			}
		}
	}
	return rows;
});

/**
 * Whether a level should train a thing: a shape, where any drill of the library that offers the
 * level names it; a skill, where the skill lists the level.
 */
export function isExpected(curriculum: Curriculum, kind: SpacedKind, id: Id, level: Id): boolean {
	if (kind === "skill") return curriculum.skills.get(id)?.levels.includes(level) ?? false;
	const drills = curriculum.shapes.get(id)?.drills ?? [];
	return drills.some((drill) => curriculum.drills.get(drill)?.levels.has(level));
}

/** The library's drills that train a thing and offer a level, in the club's order. */
export function drillsTraining(
	curriculum: Curriculum,
	kind: SpacedKind,
	id: Id,
	level: Id,
): readonly LinkedDrill[] {
	const drills = thingsOf(curriculum, kind).get(id)?.drills ?? [];
	return drills.flatMap((drill) => {
		const found = curriculum.drills.get(drill);
		return found?.levels.has(level) ? [found] : [];
	});
}

/** The two neighbouring weeks of an ascending list that are furthest apart, the first of equals. */
export function widestGap(weeks: readonly number[]): readonly [number, number] | undefined {
	let widest: readonly [number, number] | undefined;
	for (let i = 1; i < weeks.length; i++) {
		const from = weeks[i - 1] ?? 0;
		const to = weeks[i] ?? 0;
		if (widest === undefined || to - from > widest[1] - widest[0]) widest = [from, to];
	}
	return widest;
}

/** The least number of weeks wanted, as far as the term has so many. */
export function weeksWanted(curriculum: Curriculum, kind: SpacedKind): number | undefined {
	const { shapeWeeks, skillWeeks } = curriculum.targets;
	const target = kind === "shape" ? shapeWeeks : skillWeeks;
	return target === undefined ? undefined : Math.min(target, curriculum.term.weeks);
}

/** The longest gap wanted, in weeks. */
export function gapWanted(curriculum: Curriculum, kind: SpacedKind): number | undefined {
	return kind === "shape" ? curriculum.targets.shapeGap : curriculum.targets.skillGap;
}

/** spacing.csv, and H303 to H306. A club that has planned no week yet has nothing to find. */
export const spacingMeasure: Measure = {
	name: "spacing",
	tables: (counted) => {
		const taught = spacings(counted).filter((s) => s.taught.length > 0);
		return [
			tableOf(counted.curriculum, "spacing", taught, {
				kind: (s) => s.kind,
				id: (s) => s.id,
				level: (s) => s.level,
				weeks: (s) => s.taught.length,
				first: (s) => s.first,
				last: (s) => s.last,
				"longest-gap": (s) => s.longestGap,
			}),
		];
	},
	findings: (counted, words) => {
		const { curriculum } = counted;
		if (curriculum.weeks.length === 0) return [];
		return spacings(counted)
			.filter((s) => s.expected)
			.flatMap((s) => [...tooFew(curriculum, s, words), ...tooFarApart(curriculum, s, words)]);
	},
};

function tooFew(curriculum: Curriculum, spacing: Spacing, words: Words): readonly Finding[] {
	const { kind, id, level, taught } = spacing;
	const wanted = weeksWanted(curriculum, kind);
	if (wanted === undefined || taught.length >= wanted) return [];
	const say = words.findings.spacing;
	const { thing, group } = namesOf(curriculum, spacing);
	const arrivesWith = kind === "skill" && curriculum.levels.get(level)?.entry.includes(id) === true;
	const met =
		taught.length === 0
			? (kind === "shape" ? say.shapeNever : say.skillNever)(group, thing)
			: (kind === "shape" ? say.shapeMet : say.skillMet)(group, thing, taught);
	return [
		finding(
			words,
			kind === "shape" ? "H303" : "H304",
			taught.length === 0 && !arrivesWith ? "serious" : "worth a look",
			say.tooFew(met, wanted),
			whereToAdd(curriculum, spacing, undefined),
			aboutOf(spacing),
			fixOf(curriculum, spacing, words, undefined, wanted),
		),
	];
}

function tooFarApart(curriculum: Curriculum, spacing: Spacing, words: Words): readonly Finding[] {
	const wanted = gapWanted(curriculum, spacing.kind);
	const { gap, longestGap } = spacing;
	if (wanted === undefined || gap === undefined || longestGap === undefined || longestGap <= wanted)
		return [];
	const say = words.findings.spacing;
	const { thing, group } = namesOf(curriculum, spacing);
	return [
		finding(
			words,
			spacing.kind === "shape" ? "H305" : "H306",
			"worth a look",
			(spacing.kind === "shape" ? say.shapeGap : say.skillGap)(group, thing, {
				from: gap[0],
				to: gap[1],
				weeks: longestGap,
				wanted,
			}),
			whereToAdd(curriculum, spacing, gap),
			aboutOf(spacing),
			fixOf(curriculum, spacing, words, gap),
		),
	];
}

function namesOf(curriculum: Curriculum, { kind, id, level }: Spacing) {
	return {
		thing: thingsOf(curriculum, kind).get(id)?.name ?? id,
		group: curriculum.levels.get(level)?.name ?? level,
	};
}

function aboutOf({ kind, id, level }: Spacing): Finding["about"] {
	return kind === "shape" ? { level, shape: id } : { level, skill: id };
}

function fixOf(
	curriculum: Curriculum,
	spacing: Spacing,
	words: Words,
	gap: readonly [number, number] | undefined,
	wanted = 1,
): string {
	const say = words.findings.spacing;
	const drills = drillsTraining(curriculum, spacing.kind, spacing.id, spacing.level);
	const { thing, group } = namesOf(curriculum, spacing);
	if (drills.length === 0) return say.noDrill(group, thing);
	const titles = drills.map((d) => d.title);
	if (gap !== undefined) return say.planBetween(titles, group, gap[0], gap[1]);
	return spacing.taught.length === 0 ? say.planIn(titles, group, wanted) : say.planAgain(titles, group);
}

/**
 * The line to change: the apparatus, in a planned week where the thing is not yet met, furthest from
 * the weeks where it is (inside the gap, if there is one). Without such a week, the thing's own entry.
 */
function whereToAdd(
	curriculum: Curriculum,
	{ kind, id, level, taught }: Spacing,
	gap: readonly [number, number] | undefined,
): { readonly source: Source; readonly path: DataPath } {
	const apparatus = new Set(drillsTraining(curriculum, kind, id, level).flatMap((d) => d.apparatus));
	let best: { source: Source; path: DataPath } | undefined;
	let bestDistance = -1;
	for (const week of curriculum.weeks) {
		if (taught.includes(week.week)) continue;
		if (gap !== undefined && (week.week <= gap[0] || week.week >= gap[1])) continue;
		const plan = week.apparatus.find((p) => apparatus.has(p.apparatus));
		if (plan === undefined) continue;
		const distance = Math.min(...taught.map((t) => Math.abs(t - week.week)), Number.MAX_SAFE_INTEGER);
		if (distance <= bestDistance) continue;
		bestDistance = distance;
		best = { source: week.source, path: ["apparatus", plan.apparatus] };
	}
	const entry = thingsOf(curriculum, kind).get(id);
	if (best !== undefined) return best;
	if (entry === undefined) throw new Error(`No ${kind} has the id ${id}.`);
	return { source: entry.source, path: entry.path };
}

function thingsOf(curriculum: Curriculum, kind: SpacedKind) {
	return kind === "shape" ? curriculum.shapes : curriculum.skills;
}
