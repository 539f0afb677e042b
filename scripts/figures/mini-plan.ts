/** The small plan on a station card: where that station stands among those of its block. */

import type { FloorPlan } from "../compute/placing.ts";
import { clearPlaces } from "./floor-plan.ts";
import type { Point } from "./floor-plan-marks.ts";
import { tenth } from "./markup.ts";

/** Units between the middles of two spots: they are 16 wide, and grow on a small card. */
const SPOT_ROOM = 26;

/** A station's middle, and places beside it on the plan for when that is taken. */
function around(x: number, y: number, long: number, wide: number): readonly Point[] {
	const inside = (value: number, most: number) => Math.min(Math.max(value, 0), most);
	const turns = [0, 1, 2, 3, 4, 5, 6, 7].map((eighth) => (eighth * Math.PI) / 4);
	const beside = [1, 2, 3].flatMap((far) =>
		turns.map((turn) => ({
			x: inside(x + far * SPOT_ROOM * Math.cos(turn), long),
			y: inside(y + far * SPOT_ROOM * Math.sin(turn), wide),
		})),
	);
	return [{ x: inside(x, long), y: inside(y, wide) }, ...beside];
}

/**
 * A block's stations as numbered spots on their ground, one of them filled, as SVG text.
 *
 * @param where says in words where that one stands
 */
export function drawMiniPlan({ length, width, stations }: FloorPlan, own: number, where: string): string {
	const scale = 100 / Math.max(length, width * 1.4);
	const middles = stations.map(({ left, top, length: long, width: wide }) =>
		around((left + long / 2) * scale, (top + wide / 2) * scale, length * scale, width * scale),
	);
	const places = clearPlaces(middles, SPOT_ROOM);
	const spots = stations.map(({ number }, i) => {
		const x = tenth(places[i]?.x ?? 0);
		const y = tenth(places[i]?.y ?? 0);
		const isOwn = number === own;
		return (
			`<g class="plan-label" transform="translate(${x} ${y})"><circle r="8" fill="${isOwn ? "#000" : "#fff"}" stroke="#000" stroke-width="1.5"/>` +
			`<text y="3.600" font-size="10.500" font-weight="700" text-anchor="middle" fill="${isOwn ? "#fff" : "#000"}">${number}</text></g>`
		);
	});
	const w = tenth(length * scale);
	const h = tenth(width * scale);
	return `<svg class="mini" viewBox="-10 -10 ${w + 20} ${h + 20}" role="img" aria-label="${where}"><rect width="${w}" height="${h}" fill="none" stroke="#000" stroke-width="1.5"/>${spots.join("")}</svg>`;
}
