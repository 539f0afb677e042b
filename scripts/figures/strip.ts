/**
 * Shapes in the order in which a body goes through them, side by side on one floor.
 *
 *   1. pose each shape and give it a place as wide as it needs
 *   2. the path of the hips, as a fine broken line behind the figures
 *   3. numbers and arrows under the floor
 */

import { type Box, boxOf, drawBody, UNITS } from "./draw-body.ts";
import { drawFloor } from "./figure.ts";
import { INK, PAPER, picture, type Words } from "./markup.ts";
import { type Pose, type Posture, poseOf } from "./pose.ts";

/** Drawing units. */
const MARGIN = 80;
const GAP = 260;
const LEAST_WIDTH = 700;
const CAPTION = 440;
/** CSS pixels for one stature where no style sheet says otherwise. */
const PIXELS = 90;

interface Placed {
	readonly pose: Pose;
	readonly box: Box;
	/** Where the figure's x = 0 stands. */
	readonly dx: number;
	readonly middle: number;
	readonly right: number;
}

/** A strip of figures as SVG text. Throws without any shape: such a drill has no strip. */
export function drawStrip(postures: readonly Posture[], words: Words): string {
	if (postures.length === 0) throw new RangeError("a strip needs at least one shape");
	const placed = placeSideBySide(postures);
	const width = Math.ceil((placed.at(-1)?.right ?? 0) + MARGIN);
	const top = Math.floor(Math.min(...placed.map(({ box }) => box.top)) - MARGIN);
	const bottom = Math.ceil(Math.max(CAPTION, ...placed.map(({ box }) => box.bottom + MARGIN)));
	const height = bottom - top;
	const scale = PIXELS / UNITS;

	return picture(
		words,
		"figure-strip",
		[0, top, width, height],
		{ width: Math.round(width * scale), height: Math.round(height * scale) },
		drawHips(placed) +
			placed.map(({ pose, dx }) => `<g class="figure-step">${drawBody(pose, dx)}</g>`).join("") +
			drawFloor(MARGIN, width - MARGIN, false) +
			drawHipMarks(placed) +
			drawCaptions(placed),
	);
}

function placeSideBySide(postures: readonly Posture[]): readonly Placed[] {
	let edge = MARGIN;
	return postures.map((posture) => {
		const pose = poseOf(posture);
		const box = boxOf(pose);
		const width = Math.max(box.right - box.left, LEAST_WIDTH);
		const middle = edge + width / 2;
		const dx = middle - (box.left + box.right) / 2;
		edge += width + GAP;
		return { pose, box, dx, middle, right: edge - GAP };
	});
}

const hipOf = ({ pose, dx }: Placed): string =>
	`${Math.round(pose.hip.x * UNITS + dx)} ${Math.round(-pose.hip.y * UNITS)}`;

function drawHips(placed: readonly Placed[]): string {
	if (placed.length < 2) return "";
	return `<path class="figure-path" fill="none" stroke="${INK}" stroke-width="20" stroke-dasharray="60 50" d="M${placed
		.map(hipOf)
		.join("L")}"/>`;
}

/** A dot of paper on every hip, where the broken line passes behind the body. */
function drawHipMarks(placed: readonly Placed[]): string {
	if (placed.length < 2) return "";
	return `<path class="figure-hips" stroke="${PAPER}" stroke-width="70" stroke-linecap="round" d="${placed
		.map((one) => `M${hipOf(one)}h0`)
		.join("")}"/>`;
}

function drawCaptions(placed: readonly Placed[]): string {
	const numbers = placed.map(({ middle }, i) => `<text x="${Math.round(middle)}" y="360">${i + 1}</text>`);
	const arrows = placed.slice(1).map(({ middle }, i) => {
		const from = (placed[i]?.middle ?? middle) + 200;
		const to = middle - 200;
		return `M${Math.round(from)} 260H${Math.round(to)}m-80-60l80 60l-80 60`;
	});
	return (
		`<g class="figure-numbers" fill="${INK}" font-size="300" text-anchor="middle">${numbers.join("")}</g>` +
		(arrows.length === 0
			? ""
			: `<path class="figure-arrows" fill="none" stroke="${INK}" stroke-width="25" stroke-linecap="round" stroke-linejoin="round" d="${arrows.join("")}"/>`)
	);
}
