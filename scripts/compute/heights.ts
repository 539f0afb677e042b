/**
 * Heights: from the ages of a class to centimetres at each body landmark, for setting up.
 *
 * Steps: stature for each birthday from the growth table (median of girls and of boys, and the band
 * from the smaller 5th to the larger 95th percentile); times the landmark's share of stature.
 *
 * The shares were measured on adults. Children's legs grow faster than the rest of them (Bogin &
 * Varela-Silva 2010), so for children every figure is approximate: a first setting, to be checked on
 * the gymnast who stands there.
 */

import type { Drill, Id, Landmark } from "../model.ts";
import { GROWTH_AGES, type Percentile, type Sex, statureAt } from "./growth.ts";

const SEGMENTS =
	"Drillis & Contini 1966, as in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1";

export interface LandmarkShare {
	readonly landmark: Landmark;
	/** Height of the landmark over stature, standing. */
	readonly share: number;
	/** Where the share comes from. */
	readonly source: string;
	/** Whether somebody published it, or it is worked out here from rows that were. */
	readonly published: boolean;
}

/** Segment heights and lengths over stature that the shares are made of. Source: see `SEGMENTS`. */
export const SEGMENT_SHARES = {
	shoulder: 0.818,
	hip: 0.53,
	knee: 0.285,
	ankle: 0.039,
	upperArm: 0.186,
	forearm: 0.146,
	hand: 0.108,
	foot: 0.152,
	thigh: 0.245,
	shank: 0.246,
} as const;

const { shoulder, hip, knee, upperArm, forearm, hand } = SEGMENT_SHARES;

/** Every landmark from the floor up. */
export const LANDMARKS: readonly LandmarkShare[] = [
	{ landmark: "knee", share: knee, source: SEGMENTS, published: true },
	{ landmark: "hip", share: hip, source: SEGMENTS, published: true },
	{
		landmark: "chest",
		share: hip + (2 / 3) * (shoulder - hip),
		source: `no published row: two thirds of the way from the hip to the shoulder, from ${SEGMENTS}`,
		published: false,
	},
	{ landmark: "shoulder", share: shoulder, source: SEGMENTS, published: true },
	{ landmark: "head", share: 1, source: "stature itself", published: true },
	{
		landmark: "reach",
		share: shoulder + upperArm + forearm + hand,
		source: `shoulder height with upper arm, forearm and hand above it, from ${SEGMENTS}`,
		published: false,
	},
];

/** One landmark at one birthday, in cm. */
export interface HeightAtAge {
	readonly years: number;
	/** The smaller 5th percentile of girls and boys. */
	readonly low: number;
	readonly medianGirls: number;
	readonly medianBoys: number;
	/** The larger 95th percentile. */
	readonly high: number;
}

/** One landmark over the ages of a class, in cm. */
export interface LandmarkHeights extends LandmarkShare {
	readonly ages: readonly HeightAtAge[];
	/** From the low of the youngest to the high of the oldest. */
	readonly low: number;
	readonly high: number;
}

/** Height of a landmark of somebody of that stature; both in the same unit. */
export function landmarkHeight(landmark: Landmark, stature: number): number {
	return shareOf(landmark).share * stature;
}

/**
 * The heights of a landmark at each birthday from the youngest age to the oldest, both in years; parts
 * of a year widen the range. Undefined where the growth table covers none of these ages; ages beyond
 * its ends are left out.
 */
export function landmarkHeights(
	landmark: Landmark,
	[from, to]: readonly [number, number],
): LandmarkHeights | undefined {
	const ages: HeightAtAge[] = [];
	const youngest = Math.max(Math.floor(Math.min(from, to)), GROWTH_AGES.from);
	const oldest = Math.min(Math.ceil(Math.max(from, to)), GROWTH_AGES.to);
	for (let years = youngest; years <= oldest; years++) {
		const at = (sex: Sex, percentile: Percentile): number =>
			landmarkHeight(landmark, statureAt(sex, years, percentile) ?? Number.NaN);
		ages.push({
			years,
			low: Math.min(at("girl", 5), at("boy", 5)),
			medianGirls: at("girl", 50),
			medianBoys: at("boy", 50),
			high: Math.max(at("girl", 95), at("boy", 95)),
		});
	}
	const first = ages[0];
	if (first === undefined) return undefined;
	// Girls are the taller ones at eleven: the last birthday need not hold the largest value of both sexes.
	return {
		...shareOf(landmark),
		ages,
		low: Math.min(...ages.map((a) => a.low)),
		high: Math.max(...ages.map((a) => a.high)),
	};
}

/** One line of a drill's set-up: what stands at which landmark. */
export interface SetUpHeight {
	readonly what: string;
	readonly landmark: Landmark;
	/** Of the levels asked for, those that it is for. */
	readonly levels: readonly Id[];
}

/** Every landmark that a drill's set-up names, for any level. */
export function landmarksOf(drill: Pick<Drill, "heights" | "levels">): ReadonlySet<Landmark> {
	return new Set(setUpHeights(drill, [...drill.levels.keys()]).map(({ landmark }) => landmark));
}

/** What stands how high for one level: the level's own heights, else what the drill writes for it or for all alike. */
export function heightsAt(
	{ heights, levels }: Pick<Drill, "heights" | "levels">,
	level: Id,
): ReadonlyMap<string, Landmark> {
	const own = levels.get(level)?.heights;
	if (own !== undefined) return own;
	return new Map(
		[...heights].flatMap(([what, height]) => {
			const landmark = typeof height === "string" ? height : height.get(level);
			return landmark === undefined ? [] : [[what, landmark] as const];
		}),
	);
}

/**
 * The set-up heights of a drill for some of its levels, as the drill lists them: no other level's is
 * among them, since a box that is right for one is out of reach for another. Levels of the same
 * landmark share a line, the lines of one thing in the order of the levels.
 */
export function setUpHeights(
	drill: Pick<Drill, "heights" | "levels">,
	levels: readonly Id[],
): readonly SetUpHeight[] {
	const byLevel = levels.map((level) => ({ level, heights: heightsAt(drill, level) }));
	const things = new Set([...drill.heights.keys(), ...byLevel.flatMap(({ heights }) => [...heights.keys()])]);
	return [...things].flatMap((what) =>
		[...Map.groupBy(byLevel, ({ heights }) => heights.get(what))].flatMap(([landmark, same]) =>
			landmark === undefined ? [] : [{ what, landmark, levels: same.map(({ level }) => level) }],
		),
	);
}

/** The ages of all classes that have a level: youngest to oldest; undefined where none gives its ages. */
export function agesOfLevel(
	classes: readonly { readonly levels: readonly Id[]; readonly ages?: readonly [number, number] }[],
	level: Id,
): readonly [number, number] | undefined {
	const ages = classes
		.filter((group) => group.levels.length === 0 || group.levels.includes(level))
		.flatMap((group) => (group.ages === undefined ? [] : [...group.ages]));
	return ages.length === 0 ? undefined : [Math.min(...ages), Math.max(...ages)];
}

function shareOf(landmark: Landmark): LandmarkShare {
	const found = LANDMARKS.find((l) => l.landmark === landmark);
	if (found === undefined) throw new Error(`No landmark is called ${landmark}.`);
	return found;
}
