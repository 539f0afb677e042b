/**
 * The place where a drill's body moves: the ground of every phase, and one body that a program moves.
 *
 * The program in the page gets the postures as compact text, works the poses between them out again
 * with the same functions as here (`between.ts`), and sets the outlines of the parts drawn here.
 */

import type { Ground } from "../model.ts";
import { between, type Moment, momentsOf } from "./between.ts";
import {
	type BodyParts,
	bodyParts,
	boxOf,
	drawHold,
	drawUprights,
	FAR_LAYER,
	NEAR_LAYER,
} from "./draw-body.ts";
import { drawFloor } from "./figure.ts";
import { drawGround, feetAt, isRoller, rollerAt, stepUnder, WALL_WIDTH, wallOnRight } from "./ground.ts";
import { PAPER } from "./markup.ts";
import { mirrored, type Pose, type Posture } from "./pose.ts";
import type { Movement, Stance } from "./support.ts";

/** What a stage is played from, as it stands in the page. */
export interface Score {
	readonly travel: Movement["travel"];
	readonly stances: readonly (Moment["stance"] & Pick<Stance, "overMat">)[];
}

/** A movement that can be played: phases in order, more than one. */
export function isPlayable({ stances, inOrder }: Movement): boolean {
	return inOrder && stances.length > 1;
}

/** A page's attributes take it as it is, where they write a quote in six letters. */
const QUOTE = "~";

/** The text of a score: a list of travel, then for each phase its ground and posture. */
export function scoreText({ stances, travel }: Score): string {
	const lines = stances.map(({ ground, hands, overMat, posture: { view, base, tilt, angles } }) => [
		// In one place there is no slope.
		ground === "wedge" ? "mat" : ground,
		base,
		tilt,
		angles ?? {},
		...(view === "front" || hands !== undefined || overMat === true ? [view === "front" ? 1 : 0] : []),
		...(hands === undefined && overMat !== true ? [] : [hands ?? null]),
		...(overMat === true ? [1] : []),
	]);
	return JSON.stringify([travel, ...lines]).replaceAll('"', QUOTE);
}

type WrittenStance = readonly [
	Ground,
	Posture["base"],
	number,
	NonNullable<Posture["angles"]>,
	(0 | 1)?,
	(Ground | null)?,
	1?,
];

/** Reads a score's text back; throws where it is none. */
export function scoreFrom(text: string): Score {
	const [travel, ...lines] = JSON.parse(text.replaceAll(QUOTE, '"')) as [
		Movement["travel"],
		...WrittenStance[],
	];
	return {
		travel,
		stances: lines.map(([ground, base, tilt, angles, front, hands, overMat]) => ({
			ground,
			...(hands === undefined || hands === null ? {} : { hands }),
			...(overMat === 1 ? { overMat: true } : {}),
			posture: { base, tilt, angles, view: front === 1 ? "front" : "side" },
		})),
	};
}

/** A pose as the stage shows it: one that travels backward faces left, as in its strip. */
export function facing(pose: Pose, travel: Movement["travel"]): Pose {
	return travel === "backward" && pose.view === "side" ? mirrored(pose) : pose;
}

/** Plays a score: the pose on the stage at a phase and a share of the way to the next. */
export function playerOf({ stances, travel }: Score): (phase: number, share: number) => Pose | undefined {
	const moments = momentsOf(stances, travel);
	return (phase, share) => {
		const from = moments[phase];
		if (from === undefined) return undefined;
		return facing(between(from, moments[phase + 1] ?? from, share, travel), travel);
	};
}

/** Where a body on its way is looked at, to make room for it. */
const WAYS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
/** Free space around, and half the width of the ground under a body, in drawing units. */
const MARGIN = 160;
const HALF_GROUND = 700;
/** How far what only hands or feet are on runs past them. */
const OVER = 110;

/**
 * The stage as SVG text: `figure-phase` groups with the ground of each phase, the first one shown, and
 * the parts of a body in its first pose. It says nothing to those who cannot see it: the strip does.
 */
export function drawStage(movement: Score): string {
	const score = scoreFrom(scoreText(movement));
	const play = playerOf(score);
	const poses = score.stances.flatMap((_, phase) => play(phase, 0) ?? []);
	const [first] = poses;
	if (first === undefined) throw new RangeError("a stage needs at least one phase");
	const boxes = poses.map(boxOf);
	// On its way from one phase to the next a limb may swing out further than in either.
	const ways = poses.flatMap((_, phase) => WAYS.flatMap((share) => play(phase, share) ?? []));
	const all = [...boxes, ...ways.map(boxOf)];
	const out = MARGIN + HALF_GROUND;
	const left = Math.floor(Math.min(-out, ...all.map((box) => box.left - MARGIN)));
	const right = Math.ceil(Math.max(out, ...all.map((box) => box.right + MARGIN)));
	const top = Math.floor(Math.min(...all.map((box) => box.top)) - MARGIN);
	// No arm goes through a wall on its way from a lunge to the floor.
	const reach = Math.max(...all.map((box) => box.right));
	const grounds = score.stances.map(({ ground }, i) => {
		const overMat = movement.stances[i]?.overMat;
		const pose = poses[i] ?? first;
		const held = "y" in pose.support;
		const stretch = { ground, left: left + MARGIN, right: right - MARGIN };
		const stance = score.stances[i] ?? { ground, posture: { base: "feet", tilt: 0, view: "side" } };
		const step = stepUnder(stance, pose, 0, { ...stretch, over: OVER });
		const under =
			step !== undefined
				? step.map(drawGround).join("")
				: held
					? drawHold(pose, 0) + (overMat === true ? drawGround({ ...stretch, ground: "mat" }) : "")
					: drawGround(
							ground === "wall"
								? {
										...stretch,
										left: wallOnRight(stance.posture, score.stances, score.travel)
											? score.travel === "forward"
												? reach
												: (boxes[i]?.right ?? 0)
											: (boxes[i]?.left ?? 0) - WALL_WIDTH,
										wallTop: -top - MARGIN,
									}
								: isRoller(ground)
									? { ...stretch, endOn: rollerAt(pose, stance.posture.base, score.travel === "backward") }
									: ground === "floor-bar"
										? { ...stretch, endOn: feetAt(pose) }
										: ground === "beam" && pose.view === "front" && score.travel !== "sideways"
											? { ...stretch, endOn: 0 }
											: stretch,
						);
		return `<g class="figure-phase"${i === 0 ? "" : ' display="none"'}>${under}</g>`;
	});
	// The bar stands in one place, whatever the body does.
	const onBar = poses.find(({ support }) => support.kind === "bar");
	const uprights = onBar === undefined ? "" : drawUprights(onBar, 0, 0);
	return (
		`<svg xmlns="http://www.w3.org/2000/svg" class="figure-stage" viewBox="${left} ${top} ${right - left} ${MARGIN - top}" aria-hidden="true" focusable="false">` +
		`${uprights}${drawFloor(left + MARGIN, right - MARGIN, false)}${movingParts(bodyParts(first, 0))}${grounds.join("")}</svg>`
	);
}

/** The parts of a body in the order in which a program finds and moves them. */
function movingParts(parts: BodyParts): string {
	const layer = (values: Readonly<Record<string, string | number>>): string =>
		Object.entries(values)
			.map(([name, value]) => ` ${name}="${value}"`)
			.join("");
	const { farLeg, farArm, trunk, leg, legRoot, arm, armRoot, head, eyes } = parts;
	return (
		`<g class="figure-moving"><g${layer(FAR_LAYER)}><path d="${farLeg}"/><path d="${farArm}"/></g>` +
		`<g${layer(NEAR_LAYER)}><path d="${trunk}"/><path d="${leg}"/><path stroke="none" d="${legRoot}"/>` +
		`<path d="${arm}"/><path stroke="none" d="${armRoot}"/><path d="${head}"/>` +
		`<path fill="${PAPER}" stroke="none" d="${eyes}"/></g></g>`
	);
}
