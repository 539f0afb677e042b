/**
 * From a drill to what its phases are drawn on.
 *
 *   1. the drill's setting: what of beam, bar, rails, wall and mat its apparatus and equipment name
 *   2. each phase: the shape, changed where the phase says so, and its ground: what the phase says
 *      (`on`), else what follows from the setting
 *
 * A thing is recognised by a whole word of its id, its name or one of its aliases, so a club that
 * writes another language adds the English word as an alias. The words are in `WORDS`.
 */

import type { Curriculum, Direction, Drill, Ground, Helper, Id, Phase, Shape } from "../model.ts";
import type { Words } from "../words/words.ts";
import type { Posture } from "./pose.ts";

/** One phase of a drill, ready to be drawn. */
export interface Stance {
	readonly shape: Pick<Shape, "id" | "name" | "description">;
	readonly posture: Posture;
	readonly ground: Ground;
	/** What the hands are on, where that is not the ground. */
	readonly hands?: Ground;
	/** A mat lies under what is held. */
	readonly overMat?: boolean;
	/** Coaches who help here. */
	readonly helpers?: readonly Helper[];
	/** What the hands hang on, where it is no bar. */
	readonly hung?: "wall-bars" | "rope";
}

/** A drill as a strip shows it. */
export interface Movement {
	/** Without shapes that have no angles: those cannot be drawn. */
	readonly stances: readonly Stance[];
	/** Names of all its shapes, drawn or not. */
	readonly names: readonly string[];
	/** The stances are phases in order of time; if not, only the shapes it trains. */
	readonly inOrder: boolean;
	readonly travel: Direction;
}

/** What a drill's apparatus and equipment offer to a body. */
type Setting = ReadonlySet<Ground | "wall-bars" | "rope">;

const WORDS: Readonly<Record<string, Ground>> = {
	beam: "beam",
	beams: "beam",
	bar: "bar",
	bars: "bar",
	parallettes: "rails",
	wall: "wall",
	mat: "mat",
	mats: "mat",
	matting: "mat",
};

/** Words that make another thing of the same word: wall bars are bars, a beam pad is no beam. */
const BUT_NOT: Readonly<Partial<Record<Ground, readonly string[]>>> = {
	wall: ["bars", "timer"],
	beam: ["pad", "step", "mat"],
};

/** What a drill is done on, from the ids, names and aliases of its apparatus and equipment. */
export function settingOf(
	drill: Pick<Drill, "apparatus" | "equipment">,
	{ apparatus, equipment }: Pick<Curriculum, "apparatus" | "equipment">,
): Setting {
	const setting = new Set<Ground | "wall-bars" | "rope">();
	const read = (...texts: readonly string[]): void => {
		const words = texts.flatMap((text) => text.toLowerCase().split(/[^\p{L}\p{N}]+/u));
		if (words.includes("wall") && (words.includes("bars") || words.includes("bar"))) setting.add("wall-bars");
		if (words.includes("rope") && words.includes("climbing")) setting.add("rope");
		for (const word of words) {
			const ground = WORDS[word];
			if (ground === undefined || BUT_NOT[ground]?.some((other) => words.includes(other))) continue;
			setting.add(ground);
		}
	};
	for (const { item } of drill.equipment) {
		const thing = equipment.get(item);
		read(item, thing?.name ?? "", ...(thing?.aliases ?? []));
	}
	// A drill for several apparatus is done on what its equipment says: only a single apparatus decides.
	const [only] = drill.apparatus;
	if (only !== undefined && drill.apparatus.length === 1) read(only, apparatus.get(only)?.name ?? "");
	return setting;
}

/**
 * What a posture is on in a setting. Hands that hang are on a bar; the hips of a fold are on a bar;
 * hands that press beside the hips are on the beam, the rails or the bar, the first that is there; a
 * body near a wall is drawn at it; else a beam, a mat and the floor carry, the first that is there.
 */
export function groundOf(posture: Posture, setting: Setting): Ground {
	if (posture.base === "hang" || posture.base === "hips") return "bar";
	const first = (...grounds: readonly Ground[]): Ground =>
		grounds.find((ground) => setting.has(ground)) ?? "floor";
	const shoulder = posture.angles?.shoulder ?? 0;
	if (posture.base === "hands" && Math.abs(shoulder) < PRESSING) return first("beam", "rails", "bar", "mat");
	return first("wall", "beam", "mat");
}

/** Degrees of lift below which arms press beside the body. */
const PRESSING = 60;

function postureOf(shape: Shape, phase: Phase): Posture {
	const { angles = shape.angles, view = shape.view, tilt = shape.tilt, base = shape.base } = phase;
	return {
		view,
		tilt,
		base,
		...(angles === undefined ? {} : { angles: { ...shape.angles, ...angles } }),
	};
}

/** The phases of a drill; without a sequence, the shapes it trains. */
export function movementOf(
	drill: Pick<Drill, "apparatus" | "equipment" | "sequence" | "shapes" | "direction" | "helpers">,
	curriculum: Pick<Curriculum, "apparatus" | "equipment"> & { readonly shapes: ReadonlyMap<Id, Shape> },
): Movement {
	const setting = settingOf(drill, curriculum);
	const inOrder = drill.sequence.length > 0;
	const phases: readonly Phase[] = inOrder ? drill.sequence : drill.shapes.map((shape) => ({ shape }));
	const known = phases.flatMap((phase, i) => {
		const shape = curriculum.shapes.get(phase.shape);
		return shape === undefined ? [] : [{ shape, phase, step: i + 1 }];
	});
	return {
		stances: known.flatMap(({ shape, phase, step }) => {
			const posture = postureOf(shape, phase);
			if (posture.angles === undefined) return [];
			const overMat = setting.has("mat");
			const ground = phase.on ?? groundOf(posture, setting);
			const hands = phase.hands === undefined ? {} : { hands: phase.hands };
			const other = (["wall-bars", "rope"] as const).find((one) => setting.has(one));
			const hung = ground === "bar" && other !== undefined ? { hung: other } : {};
			const here = drill.helpers?.filter((helper) => helper.step === step) ?? [];
			const helpers = here.length === 0 ? {} : { helpers: here };
			return [{ shape, posture, ground, ...hands, overMat, ...hung, ...helpers }];
		}),
		names: known.map(({ shape }) => shape.name),
		inOrder,
		travel: drill.direction ?? "none",
	};
}

/** A shape as it should be in a drill, and as a fault has it. */
export interface Wrong {
	readonly name: string;
	readonly ground: Ground;
	readonly right: Posture;
	readonly wrong: Posture;
}

/**
 * What a fault's figures show: the shape as the drill's first phase of it carries it, else as it is by itself.
 * Undefined where the fault names no shape, or one without a figure.
 */
export function wrongOf(
	{ shape: id, angles, tilt }: Drill["faults"][number],
	drill: Parameters<typeof movementOf>[0],
	curriculum: Parameters<typeof movementOf>[1],
): Wrong | undefined {
	if (id === undefined) return undefined;
	const phase = movementOf(drill, curriculum).stances.find(({ shape }) => shape.id === id);
	const alone = movementOf({ ...drill, sequence: [{ shape: id }], helpers: [] }, curriculum).stances[0];
	const stance = phase ?? alone;
	if (stance === undefined) return undefined;
	const { posture, ground, shape } = stance;
	const wrong = { ...posture, angles: { ...posture.angles, ...angles }, tilt: tilt ?? posture.tilt };
	return { name: shape.name, ground, right: posture, wrong };
}

// ── words ──────────────────────────────────────────────────────────────────────────────────────

type FigureWords = Pick<Words, "figures" | "directions">;

/** A strip's short name, as plain text. */
export function stripTitle({ names, inOrder }: Movement, { figures }: FigureWords): string {
	return names.join(inOrder ? `, ${figures.afterThat} ` : ", ");
}

/**
 * What a strip shows, as plain text: each phase with what it is on, and where the body travels.
 *
 * @param withLooks whether each shape's own description is said as well; without them it stands beside the caption
 */
export function stripDescription(
	{ stances, inOrder, travel }: Movement,
	{ figures }: FigureWords,
	withLooks = true,
): string {
	const places = stances.map(({ posture, ground, hands }) => {
		const carried = posture.base === "air" ? figures.inAir[ground] : figures.on[ground];
		return hands === undefined ? carried : `${carried}, ${figures.handsOn(figures.on[hands])}`;
	});
	const [first = ""] = places;
	const isAlike =
		places.every((place) => place === first) && stances.every(({ helpers = [] }) => helpers.length === 0);
	// The caption names the shapes and the way: nothing is left to say but what all are done on.
	if (!withLooks && isAlike) return `${first.charAt(0).toUpperCase()}${first.slice(1)}.`;
	const phases = stances.map(({ shape, helpers = [] }, i) => {
		const where = places[i] ?? "";
		const figure = `${inOrder ? `${i + 1}. ` : ""}${shape.name}, ${where}`;
		const isPlain = shape.description === undefined || !withLooks;
		const body = isPlain ? `${figure}.` : figures.look(figure, shape.description);
		return [body, ...helpers.map((helper) => figures.helper(helper))].join(" ");
	});
	const way = inOrder && travel !== "none" ? ` ${figures.travels[travel]}` : "";
	return `${phases.join(" ")}${way}`;
}

/** The line under a strip. */
export function stripCaption(
	{ names, inOrder, travel }: Movement,
	{ directions, figures }: FigureWords,
): string {
	if (!inOrder) return names.join(", ");
	const name = directions[travel];
	const shapes = names.join(" → ");
	return travel === "none"
		? shapes
		: figures.caption(`${name.charAt(0).toUpperCase()}${name.slice(1)}`, shapes);
}
