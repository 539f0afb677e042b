/**
 * Balance: forward against backward, work without its counterpart, sides, movement patterns.
 *
 * Minutes are added up over levels, as in the coverage tables; whether a direction is missing is judged for
 * each level, since what one level does backward is no use to another. That work done forwards is matched by
 * a backward version is common practice, which no published source was found for; the club's target
 * `pair-directions` decides whether it is looked for. The movement patterns are landing, statics,
 * locomotion, rotation, swing, spring and handling (Alberta SPHEReS).
 */

import type { Curriculum, Direction, Finding, Id, LinkedDrill, Pattern } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding } from "./finding.ts";
import { getOrMake, onceEach, onceForExposures } from "./get-or-make.ts";
import type { Counted, Measure } from "./measure.ts";
import { apparatusName, drillName, levelName } from "./names.ts";
import { DIRECTIONS, rounded } from "./tables.ts";

/** A sum and what it was counted from. */
export interface Tally {
	readonly minutes: number;
	/** Distinct drills, in the order they are met. */
	readonly drills: readonly Id[];
}

/** The directions of one apparatus in one week. */
export interface DirectionBalance {
	readonly week: number;
	readonly apparatus: Id;
	readonly directions: ReadonlyMap<Direction, Tally>;
	/** Levels that do one direction and not the other, in the club's order. */
	readonly lacking: readonly Lacking[];
	/** The first direction that a level lacks and the library could give it. */
	readonly missing: OneWay | undefined;
}

export type OneWay = "forward" | "backward";

/** A level that does the one direction on an apparatus in a week and has no minutes of the other. */
export interface Lacking {
	readonly level: Id;
	readonly missing: OneWay;
	/** What it does the other way. */
	readonly done: Tally;
}

/** Forward, backward, sideways and none for each week and apparatus with drills, in the club's order. */
export const directionBalances = onceForExposures(
	({ curriculum, exposures }: Counted): readonly DirectionBalance[] => {
		const cells = new Map<string, Map<Direction, Sum>>();
		const byLevel = new Map<string, Map<Direction, Sum>>();
		for (const exposure of exposures) {
			const { week, apparatus, level, minutes, drill: id } = exposure;
			const drill = curriculum.drills.get(id);
			const key = `${week} ${apparatus}`;
			const cell = getOrMake(cells, key, () => new Map<Direction, Sum>());
			if (drill?.direction === undefined) continue;
			getOrMake(cell, drill.direction, () => new Sum()).add(minutes, id);
			const own = getOrMake(byLevel, `${key} ${level}`, () => new Map<Direction, Sum>());
			getOrMake(own, bodyDirection(curriculum, drill), () => new Sum()).add(minutes, id);
		}
		return curriculum.weeks.flatMap(({ week }) =>
			[...curriculum.apparatus.keys()].flatMap((apparatus) => {
				const key = `${week} ${apparatus}`;
				const sums = cells.get(key);
				if (sums === undefined) return [];
				const directions = new Map<Direction, Tally>(
					DIRECTIONS.map((d) => [d, sums.get(d) ?? { minutes: 0, drills: [] }]),
				);
				const lacking = [...curriculum.levels.keys()].flatMap((level): readonly Lacking[] => {
					const own = byLevel.get(`${key} ${level}`);
					const forward = own?.get("forward");
					const backward = own?.get("backward");
					if ((forward?.minutes ?? 0) > 0 === (backward?.minutes ?? 0) > 0) return [];
					const done = (forward?.minutes ?? 0) > 0 ? forward : backward;
					return done === undefined
						? []
						: [{ level, missing: done === forward ? "backward" : "forward", done }];
				});
				const missing = lacking.find(
					(one) => drillsOfDirection(curriculum, one.missing, apparatus, [one.level]).length > 0,
				)?.missing;
				return [{ week, apparatus, directions, lacking, missing }];
			}),
		);
	},
);

/**
 * The direction of the body in what the drill performs, where all of that has one; else what the drill
 * says. Statics have none.
 */
export function bodyDirection(curriculum: Curriculum, drill: LinkedDrill): Direction {
	const performed = [
		...drill.performs,
		...drill.elements.flatMap(({ skill }) => (skill === undefined ? [] : [skill])),
	].flatMap((id) => curriculum.skills.get(id) ?? []);
	const directions = new Set(
		performed.map(({ pattern, direction }) => (pattern === "statics" ? "none" : direction)),
	);
	const [only] = directions;
	return directions.size === 1 && only !== undefined ? only : (drill.direction ?? "none");
}

/** The library's drills by direction and apparatus. */
const byPlace = onceEach((curriculum: Curriculum) => {
	const drills = [...curriculum.drills.values()].flatMap((drill) => {
		const way = bodyDirection(curriculum, drill);
		return drill.apparatus.map((place) => ({ drill, key: `${way} ${place}` }));
	});
	return Map.groupBy(drills, ({ key }) => key);
});

/** The library's drills of a direction for an apparatus that offer one of the levels, in the club's order. */
export function drillsOfDirection(
	curriculum: Curriculum,
	direction: Direction,
	apparatus: Id,
	levels: readonly Id[],
): readonly LinkedDrill[] {
	const here = byPlace(curriculum).get(`${direction} ${apparatus}`) ?? [];
	return here.flatMap(({ drill }) => (levels.some((level) => drill.levels.has(level)) ? [drill] : []));
}

/** A drill that a level does in a week without any of its partners in that week. */
export interface Unpaired {
	readonly week: number;
	readonly level: Id;
	readonly apparatus: Id;
	readonly drill: Id;
	/** The partners it has in the library that offer the level; empty where there is none. */
	readonly partners: readonly Id[];
}

/**
 * Forward and backward drills, and drills that name a partner, that a level does in a week in which
 * it does none of the drill's partners. Each drill once for each week and level, at the first
 * apparatus where it is met.
 */
export function unpaired({ curriculum, exposures }: Counted): readonly Unpaired[] {
	const done = new Set(exposures.map((e) => `${e.week} ${e.level} ${e.drill}`));
	const seen = new Set<string>();
	return exposures.flatMap(({ week, level, apparatus, drill: id }) => {
		const drill = curriculum.drills.get(id);
		const key = `${week} ${level} ${id}`;
		if (drill === undefined || seen.has(key)) return [];
		seen.add(key);
		const oneWay = drill.direction === "forward" || drill.direction === "backward";
		if (!oneWay && drill.partners.length === 0) return [];
		if (drill.partners.some((partner) => done.has(`${week} ${level} ${partner}`))) return [];
		const partners = drill.partners.filter((p) => curriculum.drills.get(p)?.levels.has(level));
		return [{ week, level, apparatus, drill: id, partners }];
	});
}

export const SIDES = ["both", "each", "lead", "unsaid"] as const;
/** How a drill treats the two sides; `unsaid` where the drill does not say. */
export type Sides = (typeof SIDES)[number];

/** Minutes by how the sides are treated, for each level, or for each week. */
export function sidesBalance(
	{ curriculum, exposures }: Counted,
	by: "week" | "level",
): ReadonlyMap<string, ReadonlyMap<Sides, Tally>> {
	const rows = new Map<string, Map<Sides, Sum>>();
	for (const exposure of exposures) {
		const sides = curriculum.drills.get(exposure.drill)?.sides ?? "unsaid";
		const row = getOrMake(rows, String(exposure[by]), () => new Map<Sides, Sum>());
		getOrMake(row, sides, () => new Sum()).add(exposure.minutes, exposure.drill);
	}
	return rows;
}

export const PATTERNS = [
	"landing",
	"statics",
	"locomotion",
	"rotation",
	"swing",
	"spring",
	"handling",
] as const satisfies readonly Pattern[];

/** A pattern's minutes: whole, and shared out over the patterns of each drill. */
export interface PatternTally extends Tally {
	readonly share: number;
}

/**
 * Minutes by movement pattern, for each week, level or apparatus. A drill has the patterns of its
 * skills; one with two patterns gives its minutes to both, and half of them as each one's share, so
 * shares add up to the minutes of drills that have a pattern.
 */
export function patternBalance(
	{ curriculum, exposures }: Counted,
	by: "week" | "level" | "apparatus",
): ReadonlyMap<string, ReadonlyMap<Pattern, PatternTally>> {
	const rows = new Map<string, Map<Pattern, Sum>>();
	for (const exposure of exposures) {
		const patterns = patternsOf(curriculum, exposure.drill);
		if (patterns.length === 0) continue;
		const row = getOrMake(rows, String(exposure[by]), () => new Map<Pattern, Sum>());
		for (const pattern of patterns) {
			getOrMake(row, pattern, () => new Sum()).add(
				exposure.minutes,
				exposure.drill,
				exposure.minutes / patterns.length,
			);
		}
	}
	return rows;
}

/** The movement patterns of a drill's skills, each once. */
export function patternsOf(curriculum: Curriculum, drill: Id): readonly Pattern[] {
	const skills = curriculum.drills.get(drill)?.skills ?? [];
	const found = new Set(skills.map((skill) => curriculum.skills.get(skill)?.pattern));
	return PATTERNS.filter((pattern) => found.has(pattern));
}

/** H307. Its table is `coverage-directions`, which coverage writes. */
export const balanceMeasure: Measure = {
	name: "balance",
	tables: () => [],
	findings: (counted, words) =>
		counted.curriculum.targets.pairDirections === true
			? directionBalances(counted).flatMap((balance) => unmatched(counted.curriculum, balance, words))
			: [],
};

/** Levels that do the same one way, and what they lack. */
interface OneWayWork {
	readonly levels: readonly Id[];
	readonly missing: OneWay;
	readonly done: Tally;
	/** Drills of the missing direction, partners of what is done first. */
	readonly drills: readonly LinkedDrill[];
}

/** What an apparatus lacks in a week, for each of its levels that does the same. */
export function oneWays(counted: Counted, week: number, apparatus: Id): readonly OneWayWork[] {
	const balance = directionBalances(counted).find((one) => one.week === week && one.apparatus === apparatus);
	return balance === undefined ? [] : oneWaysOf(counted.curriculum, balance);
}

function oneWaysOf(curriculum: Curriculum, { apparatus, lacking }: DirectionBalance): readonly OneWayWork[] {
	const able = lacking.filter(
		({ level, missing }) => drillsOfDirection(curriculum, missing, apparatus, [level]).length > 0,
	);
	// The same minutes of the same drills, in whatever order they were met: sums may differ in their last bit.
	const same = Map.groupBy(able, ({ missing, done }) =>
		[missing, rounded(done.minutes), ...[...done.drills].sort()].join(" "),
	);
	return [...same.values()].flatMap((list) => {
		const [first] = list;
		if (first === undefined) return [];
		const { missing, done } = first;
		const levels = list.map(({ level }) => level);
		const drills = drillsOfDirection(curriculum, missing, apparatus, levels);
		// The partners of what is planned come first: they are the same work the other way.
		const partners = new Set(done.drills.flatMap((id) => curriculum.drills.get(id)?.partners ?? []));
		const ordered = [
			...drills.filter((d) => partners.has(d.id)),
			...drills.filter((d) => !partners.has(d.id)),
		];
		return [{ levels, missing, done, drills: ordered }];
	});
}

/** One finding for the levels of which the same is so. */
function unmatched(curriculum: Curriculum, balance: DirectionBalance, words: Words): readonly Finding[] {
	const { week, apparatus } = balance;
	const plan = curriculum.weeks.find((w) => w.week === week);
	if (plan === undefined) return [];
	const say = words.findings.oneDirection;
	return oneWaysOf(curriculum, balance).map(({ levels, missing, done, drills }) => {
		const [finds, fixes] =
			missing === "backward"
				? ([say.onlyForward, say.planBackward] as const)
				: ([say.onlyBackward, say.planForward] as const);
		const [only] = levels;
		return finding(
			words,
			"H307",
			"worth a look",
			finds(
				week,
				apparatusName(curriculum, apparatus),
				levels.map((level) => levelName(curriculum, level)),
				done.minutes,
				done.drills.map((id) => drillName(curriculum, id)),
			),
			{ source: plan.source, path: ["apparatus", apparatus] },
			{ week, apparatus, ...(levels.length === 1 && only !== undefined ? { level: only } : {}) },
			fixes(drills.slice(0, 3).map((d) => d.title)),
			levels.length,
		);
	});
}

class Sum implements PatternTally {
	minutes = 0;
	share = 0;
	readonly #drills = new Set<Id>();

	get drills(): readonly Id[] {
		return [...this.#drills];
	}

	add(minutes: number, drill: Id, share = minutes): void {
		this.minutes += minutes;
		this.share += share;
		this.#drills.add(drill);
	}
}
