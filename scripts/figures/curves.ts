/**
 * Arcs of circles as curves: a printer's library takes every arc apart into a dozen short curves,
 * where two or four are as round as the eye can see.
 *
 * The usual approximation: a quarter of a circle as one cubic curve is off by less than 0.03 % of its radius.
 */

/** A picture with the arcs in its paths, and its whole circles, written as cubic curves; what is no circle stays. */
export function arcsAsCurves(svg: string): string {
	return svg
		.replace(/ d="([^"]*[Aa][^"]*)"/g, (all, d: string) => {
			const curved = curvedPath(d);
			return curved === undefined ? all : ` d="${curved}"`;
		})
		.replace(/<circle\b([^>]*?)\/>/g, (all, attributes: string) => {
			const of = (name: string) => new RegExp(`\\b${name}="([^"]*)"`).exec(attributes)?.[1];
			const [cx, cy, r] = [Number(of("cx") ?? 0), Number(of("cy") ?? 0), Number(of("r"))];
			if (!Number.isFinite(cx + cy + r)) return all;
			const rest = attributes.replace(/\s\b(?:cx|cy|r)="[^"]*"/g, "");
			const start = `M${n(cx + r)} ${n(cy)}`;
			return `<path${rest} d="${start}${arc(cx + r, cy, r, false, true, cx - r, cy)}${arc(cx - r, cy, r, false, true, cx + r, cy)}z"/>`;
		});
}

/** How many numbers each command takes; those in small letters count from where the pen is. */
const NUMBERS: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, A: 7, Z: 0 };

/** The path with its arcs as curves; undefined where it has other commands, several of a kind in one, an ellipse, or a smooth curve on from an arc. */
function curvedPath(d: string): string | undefined {
	let [out, before] = ["", ""];
	let [x, y, startX, startY] = [0, 0, 0, 0];
	for (const [, letter = "", text = ""] of d.matchAll(/([a-zA-Z])([^a-zA-Z]*)/g)) {
		const values = (text.match(/-?(?:\d+\.?\d*|\.\d+)/g) ?? []).map(Number);
		const command = letter.toUpperCase();
		if (values.length !== NUMBERS[command]) return undefined;
		// It would go on from the curve that the arc becomes.
		if (command === "S" && before === "A") return undefined;
		before = command;
		const [fromX, fromY] = letter === command ? [0, 0] : [x, y];
		const [endX = 0, endY = 0] = values.slice(-2);
		if (command === "A") {
			const [rx = 0, ry = 0, , large = 0, sweep = 0] = values;
			if (rx !== ry) return undefined;
			out += arc(x, y, rx, large === 1, sweep === 1, fromX + endX, fromY + endY);
		} else out += letter + text;
		if (command === "H") x = fromX + endX;
		else if (command === "V") y = fromY + endX;
		else if (command === "Z") [x, y] = [startX, startY];
		else [x, y] = [fromX + endX, fromY + endY];
		if (command === "M") [startX, startY] = [x, y];
	}
	return out;
}

/** An arc of a circle between two points as cubic curves, as SVG defines its flags. */
function arc(
	x0: number,
	y0: number,
	radius: number,
	large: boolean,
	sweep: boolean,
	x1: number,
	y1: number,
): string {
	const chord = Math.hypot(x1 - x0, y1 - y0);
	if (chord === 0 || radius === 0) return `L${n(x1)} ${n(y1)}`;
	const r = Math.max(radius, chord / 2);
	// From the chord's middle to the centre, across the chord.
	const away = Math.sqrt(Math.max(0, r * r - (chord * chord) / 4)) * (large === sweep ? 1 : -1);
	const cx = (x0 + x1) / 2 + (away * (y1 - y0)) / chord;
	const cy = (y0 + y1) / 2 - (away * (x1 - x0)) / chord;
	const from = Math.atan2(y0 - cy, x0 - cx);
	let turn = Math.atan2(y1 - cy, x1 - cx) - from;
	if (sweep && turn < 0) turn += 2 * Math.PI;
	if (!sweep && turn > 0) turn -= 2 * Math.PI;
	const parts = Math.max(1, Math.ceil(Math.abs(turn) / (Math.PI / 2) - 1e-6));
	const step = turn / parts;
	const reach = (4 / 3) * Math.tan(step / 4) * r;
	let curves = "";
	for (let i = 0; i < parts; i++) {
		const a = from + i * step;
		const b = i === parts - 1 ? from + turn : a + step;
		const end = i === parts - 1 ? [x1, y1] : [cx + r * Math.cos(b), cy + r * Math.sin(b)];
		const [endX = 0, endY = 0] = end;
		curves += `C${n(cx + r * Math.cos(a) - reach * Math.sin(a))} ${n(cy + r * Math.sin(a) + reach * Math.cos(a))} ${n(endX + reach * Math.sin(b))} ${n(endY - reach * Math.cos(b))} ${n(endX)} ${n(endY)}`;
	}
	return curves;
}

/** Two decimals: these pictures are in small units, and the printer's own are smaller still. */
function n(value: number): number {
	return Math.round(value * 100) / 100;
}
