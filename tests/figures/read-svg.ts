/**
 * Reads drawn figures back, so that tests measure what is on the page and not what was meant.
 *
 * A limb's segment is drawn as the outline of two discs: two straight sides and two arcs. The discs'
 * middles follow from the middles of the sides' ends and the arcs' radii.
 */

export interface Spot {
	readonly x: number;
	readonly y: number;
}

export interface Segment {
	readonly from: Spot & { readonly r: number };
	readonly to: Spot & { readonly r: number };
	/** The side on the right hand of someone who walks from `from` to `to`. */
	readonly rightSide: readonly [Spot, Spot];
}

export function viewBoxOf(svg: string): readonly [number, number, number, number] {
	const found = /viewBox="([^"]*)"/.exec(svg)?.[1]?.split(" ").map(Number) ?? [];
	const [left, top, width, height] = found;
	if (left === undefined || top === undefined || width === undefined || height === undefined) {
		throw new Error("no viewBox");
	}
	return [left, top, width, height];
}

/** The `d` of every path whose tag matches. */
export function pathsOf(svg: string, tag = /./): readonly string[] {
	return [...svg.matchAll(/<path[^>]*? d="([^"]*)"\/>/g)]
		.filter(([whole]) => tag.test(whole))
		.map(([, d]) => d ?? "");
}

/** The segments of a limb's path, in order; whole discs are left out. */
export function segmentsOf(d: string): readonly Segment[] {
	return d
		.split("z")
		.filter((part) => part.includes("l"))
		.map((part) => {
			const [a, b, c, e] = pointsOf(part);
			const rTo = Number(/a([\d.]+)/.exec(part)?.[1]);
			if (a === undefined || b === undefined || c === undefined || e === undefined) {
				throw new Error(`not a segment: ${part}`);
			}
			const start = { x: (a.x + e.x) / 2, y: (a.y + e.y) / 2 };
			const end = { x: (b.x + c.x) / 2, y: (b.y + c.y) / 2 };
			const span = Math.hypot(end.x - start.x, end.y - start.y);
			// The first end may be a straight line: its disc is as wide as the two sides that touch it leave it.
			const [half, halfTo] = [apart(a, e) / 2, apart(b, c) / 2];
			const rFrom = half * Math.hypot(1, (half - halfTo) / span);
			const wider = rFrom - rTo;
			const distance = (span + Math.sqrt(span * span + 4 * wider * wider)) / 2;
			const along = { x: (end.x - start.x) / span, y: (end.y - start.y) / span };
			const shift = wider / distance;
			const disc = (from: Spot, r: number) => ({
				x: from.x - along.x * r * shift,
				y: from.y - along.y * r * shift,
				r,
			});
			return { from: disc(start, rFrom), to: disc(end, rTo), rightSide: [a, b] as const };
		});
}

/** Points a path goes through; curves are sampled, arcs and curves that go on from curves give their ends. */
export function pointsOf(d: string): readonly Spot[] {
	const points: Spot[] = [];
	let x = 0;
	let y = 0;
	const go = (toX: number, toY: number): void => {
		x = toX;
		y = toY;
		points.push({ x, y });
	};
	for (const [, letter = "", rest = ""] of d.matchAll(/([a-zA-Z])([^a-zA-Z]*)/g)) {
		const n = [...rest.matchAll(/-?[\d.]+/g)].map(([digits]) => Number(digits));
		const at = (i: number): number => n[i] ?? Number.NaN;
		if (letter === "M" || letter === "L") go(at(0), at(1));
		else if (letter === "m" || letter === "l") go(x + at(0), y + at(1));
		else if (letter === "H") go(at(0), y);
		else if (letter === "h") go(x + at(0), y);
		else if (letter === "V") go(x, at(0));
		else if (letter === "v") go(x, y + at(0));
		else if (letter === "A") go(at(5), at(6));
		else if (letter === "a") go(x + at(5), y + at(6));
		else if (letter === "C" || letter === "c") {
			const [x0, y0] = [x, y];
			const own = letter === "c" ? [x, y] : [0, 0];
			for (let i = 1; i <= 16; i++) {
				const t = i / 16;
				const u = 1 - t;
				const cubic = (p0: number, p1: number, p2: number, p3: number): number =>
					u * u * u * p0 + 3 * u * u * t * p1 + 3 * u * t * t * p2 + t * t * t * p3;
				const to = (k: number): number => at(k) + (own[k % 2] ?? 0);
				go(cubic(x0, to(0), to(2), to(4)), cubic(y0, to(1), to(3), to(5)));
			}
		} else if (letter === "s") {
			go(x + at(2), y + at(3));
		} else if (letter !== "z") throw new Error(`unknown path letter ${letter}`);
		if (letter === "M" && n.length > 2) throw new Error("a move with more than one point");
	}
	return points;
}

export const apart = (a: Spot, b: Spot): number => Math.hypot(b.x - a.x, b.y - a.y);

/** Degrees from one direction to another, clockwise on the page, from 0 to 360. */
export function clockwise(a: Spot, b: Spot): number {
	const turn = Math.atan2(b.y, b.x) - Math.atan2(a.y, a.x);
	return ((((turn * 180) / Math.PI) % 360) + 360) % 360;
}

export const direction = (from: Spot, to: Spot): Spot => ({ x: to.x - from.x, y: to.y - from.y });
