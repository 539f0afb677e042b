/**
 * Places boxes and arrows from top to bottom within a width.
 *
 *   1. dagre finds the rows, and in each row the order of boxes and of arrows passing by, with few
 *      crossings; a row too wide for the page gives the boxes on its right to a new row below
 *   2. within that order, everything moves as near to what it is joined to as the width allows
 *   3. arrows run straight down beside the boxes of a row and bend only between rows, so that none
 *      crosses a box
 *
 * The second step is ours, since dagre lays out for no given width and a phone has a narrow one.
 * Lengths are CSS pixels.
 */

import { Graph, layout } from "@dagrejs/dagre";
import type { Id } from "../model.ts";
import type { Arrow } from "./progression-graph.ts";

export interface Box {
	readonly id: Id;
	readonly width: number;
	readonly height: number;
}

export type PlacedBox<B extends Box = Box> = B & {
	/** Its middle. */
	readonly x: number;
	readonly top: number;
};

export interface Way {
	readonly arrow: Arrow;
	/** From the foot of one box to the head of the other. */
	readonly corners: readonly { readonly x: number; readonly y: number }[];
}

export interface MapLayout<B extends Box> {
	/** Row by row, from left to right. */
	readonly boxes: readonly PlacedBox<B>[];
	readonly ways: readonly Way[];
	readonly width: number;
	readonly height: number;
}

/** Least space between neighbours in a row, and between rows. */
const BETWEEN = { columns: 9, rows: 30 } as const;
/** Sweeps down and up until places hardly move. */
const SWEEPS = 40;
/** How much more an arrow passing a row wants to run straight than a box wants its middle. */
const STRAIGHT = 3;
/** Arrows leave and enter a box this far apart, and not near its corners. */
const PORT = { step: 11, corner: 12 } as const;

/** A box in its row, or an arrow that passes by. */
interface Slot {
	readonly width: number;
	readonly weight: number;
	/** Slots of the rows above and below that it is joined to. */
	readonly above: Slot[];
	readonly below: Slot[];
	x: number;
}

/**
 * The layout of boxes with unlike ids, and of arrows between them without circles. Wider than `width`
 * only where one box with the arrows beside it is. Long, since each step moves what the ones before it placed.
 */
export function layOutInRows<B extends Box>(
	boxes: readonly B[],
	arrows: readonly Arrow[],
	width: number,
): MapLayout<B> {
	const rows = rowsFor(boxes, arrows, width);
	const slots = new Map<Id, Slot>(boxes.map((box) => [box.id, slotOf(box.width, 1)]));
	const passing = new Map<Arrow, Slot[]>(arrows.map((arrow) => [arrow, []]));
	const lines = rows.map((row) =>
		row.map((place) => {
			if (place.arrow === undefined) return slots.get(place.box.id) ?? slotOf(place.box.width, 1);
			const slot = slotOf(0, STRAIGHT);
			passing.get(place.arrow)?.push(slot);
			return slot;
		}),
	);
	for (const [{ from, to }, between] of passing) {
		const chain = [slots.get(from), ...between, slots.get(to)];
		chain.slice(1).forEach((slot, i) => {
			const before = chain[i];
			if (before === undefined || slot === undefined) return;
			before.below.push(slot);
			slot.above.push(before);
		});
	}
	settle(lines, Math.max(width, ...lines.map(packedWidth)));

	const all = lines.flat();
	const left = Math.min(...all.map((slot) => slot.x - slot.width / 2));
	const right = Math.max(...all.map((slot) => slot.x + slot.width / 2));
	for (const slot of all) slot.x -= left;

	const placed: PlacedBox<B>[] = [];
	const bands: { top: number; bottom: number }[] = [];
	const rowOf = new Map<Id, number>();
	let top = 0;
	rows.forEach((row, i) => {
		let height = 0;
		for (const { box } of row) {
			if (box === undefined) continue;
			placed.push({ ...box, x: slots.get(box.id)?.x ?? 0, top });
			rowOf.set(box.id, i);
			height = Math.max(height, box.height);
		}
		bands.push({ top, bottom: top + height });
		top += height + BETWEEN.rows;
	});

	const byId = new Map(placed.map((box) => [box.id, box]));
	/** The x of what an arrow meets first from one of its ends. */
	const meets = (arrow: Arrow, end: "from" | "to"): number => {
		const between = passing.get(arrow)?.at(end === "from" ? 0 : -1);
		return between?.x ?? byId.get(end === "from" ? arrow.to : arrow.from)?.x ?? 0;
	};
	const outs = portsOf(arrows, "from", byId, meets);
	const ins = portsOf(arrows, "to", byId, meets);
	const ways = arrows.flatMap((arrow): readonly Way[] => {
		const from = byId.get(arrow.from);
		const to = byId.get(arrow.to);
		if (from === undefined || to === undefined) return [];
		const start = rowOf.get(arrow.from) ?? 0;
		const out = outs.get(arrow) ?? from.x;
		return [
			{
				arrow,
				corners: [
					{ x: out, y: from.top + from.height },
					{ x: out, y: bands[start]?.bottom ?? from.top },
					...(passing.get(arrow) ?? []).flatMap(({ x }, i) => {
						const band = bands[start + 1 + i];
						return band === undefined
							? []
							: [
									{ x, y: band.top },
									{ x, y: band.bottom },
								];
					}),
					{ x: ins.get(arrow) ?? to.x, y: to.top },
				],
			},
		];
	});
	return { boxes: placed, ways, width: right - left, height: bands.at(-1)?.bottom ?? 0 };
}

/** What stands at one place of a row. */
type Place<B extends Box> =
	| { readonly box: B; readonly arrow?: undefined }
	| { readonly box?: undefined; readonly arrow: Arrow };

/**
 * Rows that were found: dagre takes longer over the map of all skills than the rest of a build over two
 * hundred pages, and the same boxes and arrows get the same rows. A build keeps them for the next one, and
 * sends them to devices, which have no dagre.
 */
class RowCache {
	readonly #rows = new Map<string, WrittenRows>();
	readonly #used = new Set<string>();

	get(key: string): WrittenRows | undefined {
		this.#used.add(key);
		return this.#rows.get(key);
	}

	set(key: string, rows: WrittenRows): void {
		this.#rows.set(key, rows);
	}

	/** Takes rows that were found before, and lists from here on what is asked for. */
	begin(rows: Iterable<readonly [string, WrittenRows]>): void {
		this.#used.clear();
		for (const [key, found] of rows) this.#rows.set(key, found);
	}

	/** Those that were asked for since it began. */
	used(): readonly (readonly [string, WrittenRows])[] {
		return [...this.#used].sort().flatMap((key) => {
			const rows = this.#rows.get(key);
			return rows === undefined ? [] : [[key, rows] as const];
		});
	}
}

/** A box by its place in the list, an arrow by −1 less its place. */
export type WrittenRows = readonly (readonly number[])[];

export const rowCache = new RowCache();

function rowsFor<B extends Box>(
	boxes: readonly B[],
	arrows: readonly Arrow[],
	width: number,
): readonly (readonly Place<B>[])[] {
	const key = keyOf(
		JSON.stringify([
			width,
			boxes.map((box) => [box.id, box.width, box.height]),
			arrows.map(({ from, to, redundant }) => [from, to, redundant]),
		]),
	);
	const known = rowCache.get(key);
	if (known !== undefined) {
		return known.map((row) =>
			row.flatMap((at): readonly Place<B>[] => {
				const [box, arrow] = [boxes[at], arrows[-1 - at]];
				return box !== undefined ? [{ box }] : arrow !== undefined ? [{ arrow }] : [];
			}),
		);
	}
	const rows = findRows(boxes, arrows, width);
	const at = new Map<unknown, number>([
		...boxes.map((box, i) => [box, i] as const),
		...arrows.map((arrow, i) => [arrow, -1 - i] as const),
	]);
	rowCache.set(
		key,
		rows.map((row) => row.map(({ box, arrow }) => at.get(box ?? arrow) ?? 0)),
	);
	return rows;
}

/** A few letters and digits for a text: two hashes of 32 bits (FNV-1a, and one with another factor). */
function keyOf(text: string): string {
	let a = 0x811c9dc5;
	let b = 0x01000193;
	for (let i = 0; i < text.length; i++) {
		a = Math.imul(a ^ text.charCodeAt(i), 0x01000193);
		b = Math.imul(b ^ text.charCodeAt(i), 0x85ebca6b);
	}
	return (a >>> 0).toString(36) + (b >>> 0).toString(36);
}

/**
 * Rows from top to bottom, each from left to right.
 *
 * A row too wide is broken into all rows that it needs at once, by telling dagre that the boxes of each come
 * below those of the one before. (A line from the first row to every other one took minutes where ninety
 * boxes need nothing.) Boxes of one row never come before one another, so this makes no circle; and each
 * round fixes the order of at least one more pair, so the rounds end.
 */
function findRows<B extends Box>(
	boxes: readonly B[],
	arrows: readonly Arrow[],
	width: number,
): readonly (readonly Place<B>[])[] {
	const below: { readonly from: Id; readonly to: Id }[] = [];
	const reached = new Set(arrows.map(({ to }) => to));
	for (;;) {
		const rows = rowsOf(boxes, arrows, below);
		let broken = false;
		for (const row of rows) {
			const inRow = row.flatMap(({ box }) => box ?? []);
			let keep = inRow.length;
			let needed = packedWidth(row.map((place) => ({ width: place.box?.width ?? 0 })));
			// An arrow to a box that leaves stays in the row, and so does the space beside it.
			while (keep > 1 && needed > width) {
				keep--;
				const { id, width: own } = inRow[keep] ?? { id: "", width: 0 };
				needed -= own + (reached.has(id) ? 0 : BETWEEN.columns);
			}
			// Four boxes where three have room make two and two.
			keep = Math.ceil(inRow.length / Math.ceil(inRow.length / keep));
			for (const [i, box] of inRow.entries()) {
				const row = Math.floor(i / keep);
				for (const from of inRow.slice(Math.max(0, row - 1) * keep, row * keep)) {
					below.push({ from: from.id, to: box.id });
					broken = true;
				}
			}
		}
		if (!broken) return rows;
	}
}

function rowsOf<B extends Box>(
	boxes: readonly B[],
	arrows: readonly Arrow[],
	below: readonly { readonly from: Id; readonly to: Id }[],
): readonly (readonly Place<B>[])[] {
	const graph: Graph<
		Record<string, unknown>,
		{ width: number; height: number; x: number; y: number },
		{ readonly weight: number; readonly points?: readonly { readonly x: number; readonly y: number }[] }
	> = new Graph({ multigraph: true });
	graph.setGraph({
		rankdir: "TB",
		nodesep: BETWEEN.columns,
		edgesep: BETWEEN.columns,
		ranksep: BETWEEN.rows,
	});
	for (const { id, width, height } of boxes) graph.setNode(id, { width, height, x: 0, y: 0 });
	for (const { from, to, redundant } of arrows) {
		graph.setEdge(from, to, { weight: redundant ? 1 : 2 }, "arrow");
	}
	for (const { from, to } of below) graph.setEdge(from, to, { weight: 0 }, "below");
	layout(graph);

	const rows = new Map<number, (Place<B> & { readonly x: number })[]>();
	for (const box of boxes) {
		const { x, y } = graph.node(box.id);
		const row = Math.round(y);
		rows.set(row, [...(rows.get(row) ?? []), { box, x }]);
	}
	for (const arrow of arrows) {
		const inside: readonly { readonly x: number; readonly y: number }[] = (
			graph.edge(arrow.from, arrow.to, "arrow").points ?? []
		).slice(1, -1);
		const [start, end] = [graph.node(arrow.from).y, graph.node(arrow.to).y];
		for (const [y, row] of rows) {
			if (y <= Math.round(start) || y >= Math.round(end)) continue;
			const nearest = inside.toSorted((a, b) => Math.abs(a.y - y) - Math.abs(b.y - y))[0];
			row.push({ arrow, x: nearest?.x ?? 0 });
		}
	}
	return [...rows].sort(([a], [b]) => a - b).map(([, row]) => row.toSorted((a, b) => a.x - b.x));
}

function slotOf(width: number, weight: number): Slot {
	return { width, weight, above: [], below: [], x: 0 };
}

function packedWidth(row: readonly { readonly width: number }[]): number {
	return row.reduce((sum, { width }) => sum + width, 0) + BETWEEN.columns * Math.max(0, row.length - 1);
}

/** Moves every row towards the rows above and below, in turn, within a width. */
function settle(lines: readonly (readonly Slot[])[], width: number): void {
	for (const line of lines) placeLine(line, () => width / 2, width);
	const mean = (slots: readonly Slot[], own: number): number =>
		slots.length === 0 ? own : slots.reduce((sum, { x }) => sum + x, 0) / slots.length;
	for (let sweep = 0; sweep < SWEEPS; sweep++) {
		const down = sweep % 2 === 0;
		for (const line of down ? lines : lines.toReversed()) {
			placeLine(
				line,
				(slot) => {
					const towards = mean(down ? slot.above : slot.below, slot.x);
					const all = mean([...slot.above, ...slot.below], slot.x);
					return (towards + all) / 2;
				},
				width,
			);
		}
	}
}

/**
 * Places the slots of a line as near as possible to where they want to be, in their order and with
 * space between: least squares by pooling neighbours that are in each other's way (isotonic regression),
 * then moved inside the width.
 */
function placeLine(line: readonly Slot[], wish: (slot: Slot) => number, width: number): void {
	let offset = 0;
	const offsets = line.map((slot, i) => {
		const before = line[i - 1];
		if (before !== undefined) offset += before.width / 2 + BETWEEN.columns + slot.width / 2;
		return offset;
	});
	const pools: { sum: number; weight: number; count: number }[] = [];
	line.forEach((slot, i) => {
		pools.push({ sum: (wish(slot) - (offsets[i] ?? 0)) * slot.weight, weight: slot.weight, count: 1 });
		for (;;) {
			const last = pools.at(-1);
			const before = pools.at(-2);
			if (last === undefined || before === undefined) break;
			if (before.sum / before.weight <= last.sum / last.weight) break;
			pools.splice(-2, 2, {
				sum: before.sum + last.sum,
				weight: before.weight + last.weight,
				count: before.count + last.count,
			});
		}
	});
	const least = (line[0]?.width ?? 0) / 2;
	const most = width - offset - (line.at(-1)?.width ?? 0) / 2;
	const places = pools.flatMap(({ sum, weight, count }) => Array<number>(count).fill(sum / weight));
	line.forEach((slot, i) => {
		slot.x = (offsets[i] ?? 0) + Math.max(least, Math.min(most, places[i] ?? least));
	});
}

/** Where arrows leave or enter their boxes: side by side around the middle, in the order of where they go. */
function portsOf(
	arrows: readonly Arrow[],
	end: "from" | "to",
	boxes: ReadonlyMap<Id, PlacedBox>,
	meets: (arrow: Arrow, end: "from" | "to") => number,
): ReadonlyMap<Arrow, number> {
	const ports = new Map<Arrow, number>();
	for (const [id, group] of Map.groupBy(arrows, (arrow) => arrow[end])) {
		const box = boxes.get(id);
		if (box === undefined) continue;
		const room = Math.max(0, box.width - 2 * PORT.corner);
		const step = Math.min(PORT.step, room / Math.max(1, group.length - 1));
		group
			.toSorted((a, b) => meets(a, end) - meets(b, end))
			.forEach((arrow, i) => {
				ports.set(arrow, box.x + (i - (group.length - 1) / 2) * step);
			});
	}
	return ports;
}
