/**
 * How the props of one station stand: a drill's equipment → rectangles in metres, x in the direction of
 * the work and y across it, the corner of their common rectangle at 0.
 *
 * Steps: sort the items by what they do; lay out what carries the work (bars across it, beams along it,
 * else a lane of bodies, mats and landings, one behind the other, in as many parallel lanes as gymnasts
 * go at once); lay lines and marks into it; put beside it what stands aside; leave at least the room
 * that the gymnasts need. How props are arranged is common practice, and no rule.
 */

import type { Drill, Id } from "../model.ts";
import type { Footprint, PlanSymbol, Role } from "./footprints.ts";

/** Metres. Left and top are the corner nearest to 0. */
export interface Rect {
	readonly left: number;
	readonly top: number;
	readonly length: number;
	readonly width: number;
}

export interface Prop extends Rect {
	readonly item: Id;
	readonly symbol: PlanSymbol;
	/** Quarter turns of its symbol, 0 where it points along x. */
	readonly turn: 0 | 1 | 2 | 3;
	/** Landed on: wants free space around it. */
	readonly landing: boolean;
}

/** An item at a station, and how many of it. */
export interface PropNeed {
	readonly item: Id;
	readonly count: number;
	readonly footprint: Footprint;
}

export interface Arrangement {
	readonly length: number;
	readonly width: number;
	readonly props: readonly Prop[];
	/** The stretch of a run before the take-off. */
	readonly run: Rect | undefined;
	/** The stretch after it that the drill asks for. */
	readonly runOut?: Rect | undefined;
	/** Its side at x = 0 wants to stand at the edge of the plan. */
	readonly wall: boolean;
}

/** Common sizes chosen by us, in metres. */
const ROOM = {
	/** A run before a board where the drill does not say. The norm allows up to 25 m; beginners take a few strides. */
	run: 6,
	/** The least length of a lane that is travelled. */
	travel: 5,
	/** A gymnast's place, and the least room of a station. */
	place: 1.5,
	least: 2,
	/** Between gymnasts side by side. */
	lane: 1,
	/** Between parallel lanes of mats. */
	seam: 0.4,
	/** Between two beams, and between what stands aside and the lane. */
	beams: 0.9,
	aside: 0.2,
} as const;

/** Lanes beyond these wait behind the others, and props beyond these are not drawn. */
const MOST = { lanes: 4, drawn: 24, inHand: 8 } as const;

interface Item {
	readonly id: Id;
	readonly print: Footprint;
}

/**
 * The props of a drill as they stand. `gymnasts` is the number at the station: as many as go at once
 * have a place of their own.
 */
export function arrange(
	drill: Pick<Drill, "direction" | "turn" | "contacts" | "run" | "runOut">,
	needs: readonly PropNeed[],
	gymnasts: number,
): Arrangement {
	const items = (...roles: readonly Role[]): readonly Item[] =>
		needs
			.filter(({ footprint }) => roles.includes(footprint.role))
			.flatMap(({ item, count, footprint }) =>
				Array.from({ length: Math.min(Math.ceil(count), MOST.drawn) }, () => ({
					id: item,
					print: footprint,
				})),
			);
	const atOnce = Math.max(1, Math.min(drill.turn?.atOnce ?? 1, gymnasts));
	const lanes = Math.min(atOnce, MOST.lanes);
	const travels = drill.direction !== undefined && drill.direction !== "none";
	const ground = new Ground();

	const bars = items("bar");
	const beams = items("beam");
	const walls = items("wall");
	if (bars.length > 0) {
		layBars(ground, bars, items("mat", "landing"), items("body", "board"));
		layAcross(ground, items("line"));
	} else if (beams.length > 0) {
		const off = (drill.contacts?.landings ?? 0) > 0 && /^(for|back)ward$/.test(drill.direction ?? "");
		layBeams(ground, [...items("line"), ...beams], items("mat"), items("landing"), off);
		ground.series(items("body", "board"), ground.length + ROOM.aside, 1);
	} else {
		const boards = items("board");
		const bodies = items("body");
		const mats = items("mat");
		const landings = items("landing");
		const solid = boards.length + bodies.length + mats.length + landings.length > 0;
		if (solid || walls.length > 0) {
			layWalls(ground, walls);
			const rows = Math.max(lanes, walls.length);
			if (boards.length > 0) {
				ground.startRun(Math.max(drill.run ?? ROOM.run, ground.length));
				const from = ground.length;
				for (const stage of [boards, bodies]) ground.series(stage, ground.length, rows);
				// Nobody runs over a mat: they lie on both sides of what is jumped over.
				ground.flank(mats, from);
			} else {
				for (const stage of [bodies, mats]) ground.series(stage, ground.length, rows);
			}
			layLandings(ground, landings, rows);
			// Something to go over, and nothing else: the way to it and on from it.
			if (travels && mats.length + landings.length + boards.length + walls.length === 0) {
				ground.centre(ROOM.travel);
			}
			layAcross(ground, items("line"));
		} else {
			layOpen(ground, items, { atOnce, lanes, travels });
		}
	}
	const free = bars.length + beams.length + walls.length > 0 || ground.solid;
	const marks = items("mark");
	if (free) {
		spread(
			ground,
			marks.filter(({ print }) => print.symbol !== "cone"),
		);
	}
	layPosts(
		ground,
		marks.filter(({ print }) => print.symbol === "cone"),
	);
	// A wall stands where the work begins: a run towards it comes from the other side.
	if (drill.run !== undefined && !ground.hasRun && walls.length === 0) ground.runBefore(drill.run);
	const after = (drill.runOut ?? 0) + (walls.length > 0 ? (drill.run ?? 0) : 0);
	if (after > 0) ground.roomAfter(after);
	ground.reserve(ROOM.least, ROOM.place);
	layInHand(ground, items("hand"));
	layAside(ground, items("aside"));
	return ground.finish(walls.length > 0);
}

/** Nothing to go over or on: lines, marks, and a place for each who goes. */
function layOpen(
	ground: Ground,
	items: (...roles: readonly Role[]) => readonly Item[],
	{ atOnce, lanes, travels }: { readonly atOnce: number; readonly lanes: number; readonly travels: boolean },
): void {
	const lines = items("line");
	for (const [i, line] of lines.entries()) ground.put(line, 0, ROOM.place / 2 + i);
	const marks = items("mark").filter(({ print }) => print.symbol !== "cone");
	if (marks.length > 0) layMarks(ground, marks, lanes, lines.length > 0);
	const across = Math.min(atOnce, travels ? MOST.lanes : Math.ceil(Math.sqrt(atOnce)));
	const along = travels ? 1 : Math.ceil(atOnce / across);
	const posts = items("mark").some(({ print }) => print.symbol === "cone");
	ground.reserve(
		Math.max(travels || posts ? ROOM.travel : ROOM.least, along * ROOM.place),
		Math.max(ROOM.place, across * ROOM.lane),
	);
}

/** Where props are put down, and how large it has become. Coordinates may be below 0 until `finish`. */
class Ground {
	readonly #props: Prop[] = [];
	#left = 0;
	#top = 0;
	#right = 0;
	#bottom = 0;
	#run: Rect | undefined;
	#runOut: Rect | undefined;
	/** Whether anything stands here that has a lane of its own. */
	solid = false;

	get length(): number {
		return this.#right;
	}

	get box(): Rect {
		return {
			left: this.#left,
			top: this.#top,
			length: this.#right - this.#left,
			width: this.#bottom - this.#top,
		};
	}

	/** Puts an item with the middle of its near side at x, y; turned, its length lies across. */
	put(item: Item, x: number, y: number, turned = false, landing = false): void {
		const { symbol } = item.print;
		const length = turned ? item.print.width : item.print.length;
		const width = turned ? item.print.length : item.print.width;
		this.#props.push({
			item: item.id,
			symbol,
			left: x,
			top: y - width / 2,
			length,
			width,
			turn: turned ? 1 : 0,
			landing,
		});
		this.#grow(x, y - width / 2, x + length, y + width / 2);
	}

	/** The room up to a length and a width from the corner. */
	reserve(length: number, width: number): void {
		const { left, top } = this.box;
		this.#grow(left, top, left + length, top + width);
	}

	/** Room that nothing stands in. */
	claim(left: number, top: number, length: number, width: number): void {
		this.#grow(left, top, left + length, top + width);
	}

	/** Room before and after what stands here, up to a length. */
	centre(length: number): void {
		const more = Math.max(0, length - this.box.length) / 2;
		this.#grow(this.#left - more, this.#top, this.#right + more, this.#bottom);
	}

	startRun(length: number): void {
		this.#run = { left: 0, top: -0.5, length, width: 1 };
		this.#grow(0, -0.5, length, 0.5);
	}

	get hasRun(): boolean {
		return this.#run !== undefined;
	}

	/** A run to what stands here already. */
	runBefore(length: number): void {
		if (length <= 0) return;
		const top = (this.#top + this.#bottom) / 2 - 0.5;
		this.#run = { left: this.#left - length, top, length, width: 1 };
		this.#grow(this.#left - length, top, this.#left, top + 1);
	}

	/** Room behind what stands here, kept free. */
	roomAfter(length: number): void {
		const top = (this.#top + this.#bottom) / 2 - 0.5;
		this.#runOut = { left: this.#right, top, length, width: 1 };
		this.#grow(this.#right, this.#top, this.#right + length, this.#bottom);
	}

	/** Items one behind the other from x on, dealt out over parallel lanes around y = 0. */
	series(items: readonly Item[], x: number, lanes: number): void {
		if (items.length === 0) return;
		this.solid = true;
		const rows = Math.min(lanes, items.length);
		const pitch = Math.max(...items.map(({ print }) => print.width)) + ROOM.seam;
		const at = Array.from({ length: rows }, () => x);
		for (const [i, item] of items.entries()) {
			const lane = i % rows;
			const y = (lane - (rows - 1) / 2) * pitch;
			this.put(item, at[lane] ?? x, y, false, item.print.role === "landing");
			at[lane] = (at[lane] ?? x) + item.print.length;
		}
	}

	/** Items from x on, along both sides of all that stands here. */
	flank(items: readonly Item[], x: number): void {
		const { top, width } = this.box;
		const at = [x, x];
		for (const [i, item] of items.entries()) {
			const side = i % 2;
			const out = item.print.width / 2 + ROOM.aside;
			this.put(item, at[side] ?? x, side === 0 ? top - out : top + width + out);
			at[side] = (at[side] ?? x) + item.print.length;
		}
	}

	finish(wall: boolean): Arrangement {
		const { left, top, length, width } = this.box;
		const moved = <R extends Rect>(rect: R): R => ({
			...rect,
			left: centimetre(rect.left - left),
			top: centimetre(rect.top - top),
		});
		return {
			length: centimetre(length),
			width: centimetre(width),
			props: this.#props.map(moved),
			run: this.#run && moved(this.#run),
			runOut: this.#runOut && moved(this.#runOut),
			wall,
		};
	}

	#grow(left: number, top: number, right: number, bottom: number): void {
		this.#left = Math.min(this.#left, left);
		this.#top = Math.min(this.#top, top);
		this.#right = Math.max(this.#right, right);
		this.#bottom = Math.max(this.#bottom, bottom);
	}
}

/** Bars side by side across the work, each in the middle of its mats; blocks stand before it on the mats. */
function layBars(
	ground: Ground,
	bars: readonly Item[],
	mats: readonly Item[],
	bodies: readonly Item[],
): void {
	const widest = Math.max(...bars.map(({ print }) => print.width), ...mats.map(({ print }) => print.length));
	for (const [b, bar] of bars.entries()) {
		const y = b * (widest + ROOM.seam);
		const own = mats.filter((_, i) => i % bars.length === b);
		const long = own.reduce((sum, { print }) => sum + print.width, 0);
		let x = -long / 2;
		for (const mat of own) {
			ground.put(mat, x, y, true, mat.print.role === "landing");
			x += mat.print.width;
		}
		ground.put(bar, -bar.print.length / 2, y);
		let before = -bar.print.length / 2 - ROOM.aside;
		for (const body of bodies.filter((_, i) => i % bars.length === b)) {
			before -= body.print.length;
			ground.put(body, before, y);
		}
		// Without mats, room to swing and to land.
		if (own.length === 0) ground.claim(-ROOM.least, y - widest / 2, 2 * ROOM.least, widest);
	}
}

/**
 * Beams and lines side by side along the work, mats under them. Landing mats lie under the last beams,
 * up to two each and then on both sides; deep ones, and all where the drill goes off the end, lie there.
 */
function layBeams(
	ground: Ground,
	beams: readonly Item[],
	mats: readonly Item[],
	landings: readonly Item[],
	off: boolean,
): void {
	const real = beams.filter(({ print }) => print.role === "beam");
	const atEnd = landings.filter(({ print }) => off || print.symbol === "soft");
	const under = landings.filter((item) => !atEnd.includes(item));
	// From the last beam, which is the highest where a drill climbs from line to beam.
	const share = (list: readonly Item[], beam: number) =>
		list.filter((_, i) => real.length - 1 - (i % real.length) === beam);
	const high = Math.min(real.length, Math.max(1, Math.ceil(under.length / 2)));
	let y = 0;
	let half = 0;
	for (const [i, beam] of beams.entries()) {
		const b = real.indexOf(beam);
		const soft = b < 0 ? [] : share(atEnd, b);
		const below = b < 0 ? [] : under.filter((_, k) => real.length - 1 - (k % high) === b);
		const flat = b < 0 ? [] : mats.filter((_, k) => k % real.length === b);
		const sides = below.length > 2 ? 2 : 1;
		const widest = Math.max(
			beam.print.width,
			...flat.map(({ print }) => print.width),
			...soft.map(({ print }) => print.width),
			...below.map(({ print }) => print.width * sides),
		);
		if (i > 0) y += Math.max(ROOM.beams, half + widest / 2);
		half = widest / 2;
		const long = beam.print.length;
		for (const [k, mat] of flat.entries()) ground.put(mat, alongside(long, flat.length, k, mat), y);
		for (const [k, mat] of below.entries()) {
			const side = sides === 1 ? 0 : ((k % 2) - 0.5) * mat.print.width;
			const inRow = Math.ceil(below.length / sides);
			ground.put(mat, alongside(long, inRow, Math.floor(k / sides), mat), y + side, false, true);
		}
		let end = long;
		for (const mat of soft) {
			ground.put(mat, end, y, false, true);
			end += mat.print.length;
		}
		ground.put(beam, 0, y);
	}
}

/** Where the k-th of n mats begins along something of a length: evenly spread. */
function alongside(long: number, n: number, k: number, mat: Item): number {
	const free = long - n * mat.print.length;
	return free >= 0 ? free / 2 + k * mat.print.length : (k * (long - mat.print.length)) / Math.max(1, n - 1);
}

/** Landings at the end of the lane; a deep mat lies on top of a stack. */
function layLandings(ground: Ground, landings: readonly Item[], rows: number): void {
	const stacks = landings.filter(({ print }) => print.symbol === "stack");
	const onTop = stacks.length === 0 ? [] : landings.filter(({ print }) => print.symbol === "soft");
	const start = ground.length;
	ground.series(
		[...stacks, ...landings.filter((item) => !stacks.includes(item) && !onTop.includes(item))],
		start,
		rows,
	);
	for (const item of onTop) {
		const { length } = stacks[0]?.print ?? item.print;
		ground.put(item, start + Math.max(0, (length - item.print.length) / 2), 0, false, true);
	}
}

/** Walls one beside the other at x = 0. */
function layWalls(ground: Ground, walls: readonly Item[]): void {
	const total = walls.reduce((sum, { print }) => sum + print.width, 0);
	let y = -total / 2;
	for (const wall of walls) {
		ground.put(wall, 0, y + wall.print.width / 2);
		y += wall.print.width;
	}
}

/** Lines across a lane that has other things in it: the first at its start. */
function layAcross(ground: Ground, lines: readonly Item[]): void {
	const { left, top, length, width } = ground.box;
	for (const [i, line] of lines.entries()) {
		const print = { ...line.print, length: line.print.width, width: Math.min(line.print.length, width) };
		ground.put({ ...line, print }, left + Math.min(i, length), top + width / 2);
	}
}

/** Marks in rows, a stride apart. */
function layMarks(ground: Ground, marks: readonly Item[], lanes: number, lined: boolean): void {
	const rows = Math.min(lanes, marks.length);
	for (const [i, mark] of marks.entries()) {
		const x = 0.2 + Math.floor(i / rows) * Math.max(1, mark.print.length + 0.2);
		ground.put(mark, x, ROOM.place / 2 + (lined ? 0 : (i % rows) * ROOM.lane));
	}
}

/** Marks evenly along what stands there already. */
function spread(ground: Ground, marks: readonly Item[]): void {
	const { left, top, length, width } = ground.box;
	for (const [i, mark] of marks.entries()) {
		const x = left + (length * (i + 1)) / (marks.length + 1) - mark.print.length / 2;
		const narrow = { ...mark.print, width: Math.min(mark.print.width, width) };
		ground.put({ ...mark, print: narrow }, x, top + width / 2);
	}
}

/** Cones at both ends, half of them at each. */
function layPosts(ground: Ground, cones: readonly Item[]): void {
	const { left, top, length, width } = ground.box;
	const near = Math.ceil(cones.length / 2);
	for (const [i, cone] of cones.entries()) {
		const start = i < near;
		const count = start ? near : cones.length - near;
		const k = start ? i : i - near;
		const y = count === 1 ? width / 2 : cone.print.width / 2 + (k * (width - cone.print.width)) / (count - 1);
		ground.put(cone, start ? left : left + length - cone.print.length, top + y);
	}
}

/** What is held lies ready along the side. */
function layInHand(ground: Ground, things: readonly Item[]): void {
	const { left, top, length, width } = ground.box;
	for (const [i, thing] of things.slice(0, MOST.inHand).entries()) {
		const x = left + Math.min(0.1 + i * 0.35, length - thing.print.length);
		ground.put(thing, x, top + width - thing.print.width / 2);
	}
}

/** What stands beside the lane, at its middle. */
function layAside(ground: Ground, things: readonly Item[]): void {
	const { left, top, length, width } = ground.box;
	const total = things.reduce((sum, { print }) => sum + print.length + ROOM.aside, -ROOM.aside);
	let x = left + Math.max(0, (length - total) / 2);
	for (const thing of things) {
		ground.put(thing, x, top + width + ROOM.aside + thing.print.width / 2);
		x += thing.print.length + ROOM.aside;
	}
}

function centimetre(metres: number): number {
	return Math.round(metres * 100) / 100;
}
