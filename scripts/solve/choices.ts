/**
 * What may be chosen: the blocks of the plan as they stand, the other ways in which each may stand, and
 * the drills that each of their stations may hold.
 *
 * A piece is a block. It stands in exactly one of its forms (as written, with other minutes, at another
 * place, split in two, not at all); a form has one part for each block that it puts into the plan, and
 * a part has a seat for each station. A column is a drill on a seat. Forms and columns are made when a
 * rule asks for them (rules.ts): a library has many more than a plan can use.
 *
 * What a group does at a seat is asked of compute (work.ts), as the measures ask it.
 */

import { getOrMake, onceEach } from "../compute/get-or-make.ts";
import { type Group, groupsOf, isOfSession, isThere } from "../compute/groups.ts";
import { levelsOf } from "../compute/levels-of.ts";
import { likeness } from "../compute/likeness.ts";
import { Library } from "../compute/meeting-order.ts";
import { levelsDoing, type Share, type StationWork, shareOf, stationWork } from "../compute/work.ts";
import type { ApparatusPlan, Block, Curriculum, Id, LinkedDrill, WeekPlan } from "../model.ts";

/** What may be changed; everything where nothing is said. */
export interface Scope {
	readonly week?: number | undefined;
	readonly class?: Id | undefined;
	readonly level?: Id | undefined;
}

/** How a form differs from what is written. */
export type Move =
	| { readonly kind: "keep" }
	| { readonly kind: "minutes"; readonly minutes: number }
	| { readonly kind: "exchange"; readonly with: Piece }
	/** With everything in its week, in the place of another week. */
	| { readonly kind: "weeks"; readonly with: number }
	| { readonly kind: "move"; readonly week: number; readonly at: "first" | "last" }
	| { readonly kind: "split"; readonly after: number; readonly minutes: readonly [number, number] }
	| { readonly kind: "add" }
	| { readonly kind: "absent" };

export interface Piece {
	readonly number: number;
	readonly week: number;
	readonly apparatus: Id;
	/** As written; undefined for a block that could be added. */
	readonly block: Block | undefined;
	/** Whether anything about it may be changed. */
	readonly isFree: boolean;
	readonly forms: Form[];
}

export interface Form {
	readonly number: number;
	readonly piece: Piece;
	readonly move: Move;
	/** What it costs to choose it. */
	readonly price: number;
	readonly parts: readonly Part[];
}

/** A block of a form in the plan. */
export interface Part {
	readonly form: Form;
	readonly plan: WeekPlan;
	readonly apparatus: Id;
	/** Its place among what stands on the apparatus that week: lower comes first. */
	readonly rank: number;
	readonly block: Block;
	readonly levels: readonly Id[];
	/** Groups that do some of it, and where it is in the order of all that their gymnasts do. */
	readonly groups: readonly { readonly group: Group; readonly moment: number }[];
	readonly seats: readonly Seat[];
}

export interface Seat {
	readonly part: Part;
	/** From 0 among the block's stations. */
	readonly station: number;
	/** What is written; undefined where a week is planned anew. */
	readonly drill: LinkedDrill | undefined;
	/** Those that may be chosen, by drill. */
	readonly columns: Map<Id, Column>;
}

/** A drill on a seat. */
export interface Column {
	readonly seat: Seat;
	readonly drill: LinkedDrill;
	readonly price: number;
	/** What each group does there then. */
	readonly works: readonly SeatWork[];
}

/** Whether a level does a drill on a seat, in a class or not. */
export function isForLevel({ seat, drill }: Column, level: Id): boolean {
	return seat.part.levels.includes(level) && drill.levels.has(level);
}

/** The block with that drill on that seat. */
export const blockWith = onceEach(({ seat, drill }: Column): Block => {
	const { block } = seat.part;
	const { at } = block.stations[seat.station] ?? {};
	const station = { drill: drill.id, ...(at === undefined ? {} : { at }) };
	return { ...block, stations: block.stations.with(seat.station, station) };
});

export interface SeatWork {
	readonly group: Group;
	readonly moment: number;
	readonly station: StationWork;
}

/** A group at a seat, whatever drill is there. */
interface Place {
	readonly group: Group;
	readonly moment: number;
	readonly levels: readonly Id[];
	readonly share: Share;
	/** What was asked for, by drill: the same for every block of the same shape. */
	readonly works: Map<LinkedDrill, StationWork>;
}

/** The price of one change; sizes are shares of it, so that the number of changes comes first. */
const CHANGE = 1;
const SIZE = {
	swap: 0.002,
	minute: 0.001,
	exchange: 0.006,
	weeks: 0.01,
	move: 0.006,
	split: 0.006,
	add: 0.008,
} as const;

export interface ChoicesOptions {
	readonly scope?: Scope;
	/** Weeks whose blocks have no drills yet. */
	readonly empty?: ReadonlySet<number>;
	/** Prices of the drills of an empty week, so that two seeds give two plans. */
	readonly taste?: (seat: Seat, drill: Id) => number;
	/** Ways of changing that are left out. */
	readonly without?: ReadonlySet<Move["kind"]>;
}

/** What may be chosen anew. */
export interface Touched {
	readonly seats: Set<Seat>;
	/** Blocks that may stand otherwise. */
	readonly pieces: Set<Piece>;
	/** Blocks that may be added, in a survey. */
	readonly added: Set<string>;
}

/** What one case may want while a plan is looked for: drills for a seat, and drills in a week of which one may do. */
const MOST = { drills: 4, inWeek: 3 } as const;

export class Choices {
	readonly curriculum: Curriculum;
	readonly library: Library;
	readonly pieces: Piece[] = [];
	readonly columns: Column[] = [];
	readonly #options: ChoicesOptions;
	readonly #byDrill = new Map<Id, Column[]>();
	readonly #seats: Seat[] = [];
	readonly #seatsByWeek = new Map<number, Seat[]>();
	readonly #seatsByApparatus = new Map<Id, Seat[]>();
	readonly #drillsOn = new Map<Id, readonly LinkedDrill[]>();
	readonly #loosened = new Set<Seat>();
	#touched: Touched = { seats: new Set(), pieces: new Set(), added: new Set() };
	/** How many drills the case that asks has wanted for a seat. */
	#wanted = new Map<Seat, number>();
	readonly #widened = new Set<string>();
	readonly #places = new Map<Seat, readonly Place[]>();
	readonly #works = new Map<string, Map<LinkedDrill, StationWork>>();
	/** All drills on an apparatus, the most like one of them first, by both. */
	readonly #likest = new Map<string, readonly LinkedDrill[]>();
	readonly #candidates = new Map<Seat, readonly LinkedDrill[]>();
	#forms = 0;
	/** Whether blocks may stand otherwise, or only their drills change. */
	allowsForms = true;
	/**
	 * While a plan is looked for, a few drills for each case and seat will do; a proof takes all of them. A
	 * survey makes none, and only says what they would be.
	 */
	mode: "look" | "prove" | "survey" = "prove";
	/** Drills on seats that were asked for in a survey. */
	surveyed = 0;

	constructor(curriculum: Curriculum, options: ChoicesOptions = {}) {
		this.curriculum = curriculum;
		this.library = new Library(curriculum);
		this.#options = options;
		for (const plan of curriculum.weeks) {
			for (const on of plan.apparatus) for (const block of on.blocks) this.#written(plan, on, block);
		}
	}

	get seats(): readonly Seat[] {
		return this.#seats;
	}

	seatsIn(week: number): readonly Seat[] {
		return this.#seatsByWeek.get(week) ?? [];
	}

	/** Every seat on an apparatus where a drill may be done. */
	seatsFor(drill: LinkedDrill): readonly Seat[] {
		return drill.apparatus.flatMap((apparatus) => this.#seatsByApparatus.get(apparatus) ?? []);
	}

	columnsOf(drill: Id): readonly Column[] {
		return this.#byDrill.get(drill) ?? [];
	}

	/** Seats from which what is written may have to go, whatever comes. */
	get loosened(): Iterable<Seat> {
		return this.#loosened;
	}

	loosen(seat: Seat): void {
		if (!this.mayChange(seat)) return;
		this.#loosened.add(seat);
		this.#touched.seats.add(seat);
	}

	/** What something asks for. */
	touchedBy(asking: () => void): Touched {
		this.#touched = { seats: new Set(), pieces: new Set(), added: new Set() };
		asking();
		return this.#touched;
	}

	/** Another case begins to ask. */
	nextAsks(): void {
		this.#wanted = new Map();
	}

	/** Whether the case that asks has as many drills for a seat as it may have. */
	isFull(seat: Seat): boolean {
		return this.mode === "look" && (this.#wanted.get(seat) ?? 0) >= MOST.drills;
	}

	mayChange({ part: { form } }: Seat): boolean {
		return (
			form.piece.isFree &&
			(form.move.kind === "keep" || form.move.kind === "minutes" || form.move.kind === "add")
		);
	}

	/** Lets a drill be chosen for a seat, where it may be there at all. */
	want(seat: Seat, drill: LinkedDrill): void {
		if (this.isFull(seat) || !this.mayChange(seat) || !this.isFit(seat, drill)) return;
		this.#wanted.set(seat, (this.#wanted.get(seat) ?? 0) + 1);
		this.#touched.seats.add(seat);
		if (this.mode === "survey") this.surveyed++;
		else if (!seat.columns.has(drill.id)) this.#register(this.look(seat, drill));
	}

	/** The same of many of which one may do: those most like what is written in each week, while a plan is looked for. */
	wantSome(places: readonly { readonly seat: Seat; readonly drill: LinkedDrill }[]): void {
		const able = places.filter(({ seat, drill }) => this.mayChange(seat) && this.isFit(seat, drill));
		if (this.mode !== "look") {
			for (const { seat, drill } of able) this.want(seat, drill);
			return;
		}
		for (const here of Map.groupBy(able, ({ seat }) => seat.part.plan.week).values()) {
			const priced = here.map(({ seat, drill }) => ({ seat, drill, price: this.#price(seat, drill) }));
			for (const { seat, drill } of priced.sort((a, b) => a.price - b.price).slice(0, MOST.inWeek))
				this.want(seat, drill);
		}
	}

	/** What a drill on a seat would be, whether it may be chosen or not. */
	look(seat: Seat, { id }: Pick<LinkedDrill, "id">): Column {
		const known = seat.columns.get(id);
		if (known !== undefined) return known;
		// A case may come from a plan that was tried, whose drills are other objects.
		const drill = this.curriculum.drills.get(id);
		if (drill === undefined) throw new Error(`No drill has the id ${id}.`);
		return this.#column(seat, drill);
	}

	/**
	 * Whether a drill may take a seat: on its apparatus, not twice in a block, and for the same levels as
	 * what is written, so that the other stations keep their minutes and their gymnasts.
	 */
	isFit({ part, drill: written }: Seat, drill: LinkedDrill): boolean {
		if (!drill.apparatus.includes(part.apparatus)) return false;
		if (part.seats.some((other) => other.drill?.id === drill.id)) return false;
		return part.levels.every((level) => (written?.levels.has(level) ?? true) === drill.levels.has(level));
	}

	/** Every drill that may take a seat, the most like what is written first. */
	candidates(seat: Seat): readonly LinkedDrill[] {
		return getOrMake(this.#candidates, seat, () => {
			const { apparatus } = seat.part;
			const here = getOrMake(this.#drillsOn, apparatus, () =>
				[...this.curriculum.drills.values()].filter((drill) => drill.apparatus.includes(apparatus)),
			);
			const cheapestFirst = () => {
				const prices = new Map(here.map((drill) => [drill, this.#price(seat, drill)]));
				return [...here].sort((a, b) => (prices.get(a) ?? 0) - (prices.get(b) ?? 0));
			};
			const all =
				seat.drill === undefined
					? cheapestFirst()
					: getOrMake(this.#likest, `${seat.drill.id} ${apparatus}`, cheapestFirst);
			return all.filter((drill) => this.isFit(seat, drill));
		});
	}

	/** Other minutes of a block. */
	wantMinutes(piece: Piece, least: number, most: number): void {
		const { block } = piece;
		if (block === undefined || !this.#mayWiden(piece, "minutes")) return;
		const from = Math.max(1, Math.ceil(block.minutes + least));
		for (let minutes = from; minutes <= block.minutes + most; minutes++) {
			if (minutes === block.minutes || minutes <= block.show) continue;
			const price = CHANGE + SIZE.minute * Math.abs(minutes - block.minutes);
			this.#form(piece, { kind: "minutes", minutes }, price, [
				{ ...this.#at(piece), block: { ...block, minutes } },
			]);
		}
	}

	/** A block of stations as two, each half of the stations in half of the minutes. */
	wantSplit(piece: Piece): void {
		const { block } = piece;
		if (block?.kind !== "stations" || block.stations.length < 2 || !this.#mayWiden(piece, "split")) return;
		for (let after = 1; after < block.stations.length; after++) {
			const first = Math.round((block.minutes * after) / block.stations.length);
			const minutes = [first, block.minutes - first] as const;
			if (minutes.some((one) => one <= block.show + 1)) continue;
			const at = this.#at(piece);
			const parts = [block.stations.slice(0, after), block.stations.slice(after)].map((stations, i) => ({
				...at,
				rank: at.rank + i / 2,
				block: { ...block, stations, minutes: minutes[i] ?? 0 },
			}));
			this.#form(piece, { kind: "split", after, minutes }, CHANGE + SIZE.split, parts);
		}
	}

	/** A block at the beginning or the end of the same apparatus, in any week that plans it. */
	wantMoves(piece: Piece): void {
		const { block } = piece;
		if (block === undefined || !this.#mayWiden(piece, "move")) return;
		for (const plan of this.curriculum.weeks) {
			const on = plan.apparatus.find(({ apparatus }) => apparatus === piece.apparatus);
			if (on === undefined || !this.#isInScope(plan, piece.apparatus, block)) continue;
			for (const at of ["first", "last"] as const) {
				const isThere = plan.week === piece.week && block.number === (at === "first" ? 1 : on.blocks.length);
				if (isThere) continue;
				const rank = at === "first" ? -piece.number - 1 : 1e6 + piece.number;
				const price = CHANGE + SIZE.move;
				this.#form(piece, { kind: "move", week: plan.week, at }, price, [{ plan, rank, block }]);
			}
		}
	}

	/** Two blocks for the same levels, on the same apparatus, in each other's place. */
	wantExchanges(piece: Piece): void {
		const { block } = piece;
		if (block === undefined || !this.#mayWiden(piece, "exchange")) return;
		for (const other of this.pieces) {
			if (
				other === piece ||
				!other.isFree ||
				other.block === undefined ||
				other.apparatus !== piece.apparatus
			)
				continue;
			const isSame =
				other.block.levels.join() === block.levels.join() &&
				other.block.sessions.join() === block.sessions.join();
			if (!isSame || !this.#mayWiden(other, `exchange ${piece.number}`)) continue;
			if (!this.#mayWiden(piece, `exchange ${other.number}`)) continue;
			// One change, which the first of the two pays.
			const price = CHANGE + SIZE.exchange;
			this.#form(piece, { kind: "exchange", with: other }, price, [{ ...this.#at(other), block }]);
			this.#form(other, { kind: "exchange", with: piece }, 0, [{ ...this.#at(piece), block: other.block }]);
		}
	}

	/** The plans of two weeks in each other's place: every block of both goes with them, or none. */
	wantWeeks(one: number, other: number): void {
		const [first, last] = [Math.min(one, other), Math.max(one, other)];
		const key = `weeks ${first} ${last}`;
		const pieces = this.pieces.filter(
			({ week, block }) => block !== undefined && (week === first || week === last),
		);
		const isOff = this.#options.without?.has("weeks") === true || this.mode === "look";
		if (first === last || isOff || !this.allowsForms || !pieces.every(({ isFree }) => isFree)) return;
		for (const piece of pieces) this.#touched.pieces.add(piece);
		if (this.mode === "survey" || this.#widened.has(key)) return;
		this.#widened.add(key);
		const planOf = (week: number) => this.curriculum.weeks.find((plan) => plan.week === week);
		for (const [i, piece] of pieces.entries()) {
			const at = this.#at(piece);
			const to = piece.week === first ? last : first;
			const price = i === 0 ? CHANGE + SIZE.weeks : 0;
			const plan = planOf(to) ?? at.plan;
			this.#form(piece, { kind: "weeks", with: to }, price, [{ ...at, plan }]);
		}
	}

	/** A block more at the end of an apparatus, for one level, of any drill. */
	wantAdded(plan: WeekPlan, apparatus: Id, level: Id, minutes: readonly number[]): readonly Seat[] {
		const key = `add ${plan.week} ${apparatus} ${level}`;
		const on = plan.apparatus.find((one) => one.apparatus === apparatus);
		if (on === undefined || plan.keep === true || this.#options.without?.has("add") === true) return [];
		const block = { ...ADDED, number: on.blocks.length + 1, levels: [level] };
		if (!this.#isInScope(plan, apparatus, block)) return [];
		if (this.mode === "survey") {
			this.#touched.added.add(key);
			return [];
		}
		if (!this.#widened.has(key)) {
			if (!this.allowsForms) return [];
			this.#widened.add(key);
			const piece: Piece = {
				number: this.pieces.length,
				week: plan.week,
				apparatus,
				block: undefined,
				isFree: true,
				forms: [],
			};
			this.pieces.push(piece);
			this.#added.set(key, piece);
			this.#form(piece, { kind: "absent" }, 0, []);
			for (const one of minutes) {
				const price = CHANGE + SIZE.add + SIZE.minute * one;
				const part = { plan, rank: 2e6 + piece.number, block: { ...block, minutes: one } };
				this.#form(piece, { kind: "add" }, price, [part]);
			}
		}
		const added = this.#added.get(key);
		if (added === undefined) return [];
		if (this.allowsForms) this.#touched.pieces.add(added);
		return added.forms.flatMap(({ parts }) => parts.flatMap(({ seats }) => seats));
	}

	readonly #added = new Map<string, Piece>();

	#mayWiden(piece: Piece, how: string): boolean {
		const [kind] = how.split(" ");
		const key = `${how} ${piece.number}`;
		if (!this.allowsForms || !piece.isFree || this.#options.without?.has(kind as Move["kind"]) === true)
			return false;
		this.#touched.pieces.add(piece);
		if (this.mode === "survey") return false;
		if (how !== "exchange" && this.#widened.has(key)) return false;
		this.#widened.add(key);
		return true;
	}

	#at(piece: Piece): Part {
		const [part] = piece.forms[0]?.parts ?? [];
		if (part === undefined) throw new Error(`Piece ${piece.number} stands nowhere.`);
		return part;
	}

	#written(plan: WeekPlan, { apparatus }: ApparatusPlan, block: Block): void {
		const piece: Piece = {
			number: this.pieces.length,
			week: plan.week,
			apparatus,
			block,
			isFree: plan.keep !== true && block.keep !== true && this.#isInScope(plan, apparatus, block),
			forms: [],
		};
		this.pieces.push(piece);
		this.#form(piece, { kind: "keep" }, 0, [{ plan, rank: block.number, block }]);
	}

	#isInScope(plan: WeekPlan, apparatus: Id, block: Block): boolean {
		const { week, class: one, level } = this.#options.scope ?? {};
		if (week !== undefined && plan.week !== week) return false;
		if (level !== undefined && !levelsOf(block, this.curriculum).includes(level)) return false;
		return (
			one === undefined || this.#groupsAt(plan, apparatus, block).some(({ group }) => group.class.id === one)
		);
	}

	/** Groups that may do a block, and its place in the order of all that their gymnasts do. */
	#groupsAt(
		plan: WeekPlan,
		apparatus: Id,
		block: Block,
	): readonly { readonly group: Group; readonly stay: number }[] {
		const levels = levelsOf(block, this.curriculum);
		return groupsOf(this.curriculum).flatMap((group) => {
			const stay = group.rotation.indexOf(apparatus);
			const isHere =
				stay >= 0 &&
				isOfSession(block, group) &&
				group.levels.some((level) => levels.includes(level)) &&
				isThere(this.curriculum, plan.week, group);
			return isHere ? [{ group, stay }] : [];
		});
	}

	#form(
		piece: Piece,
		move: Move,
		price: number,
		stands: readonly { readonly plan: WeekPlan; readonly rank: number; readonly block: Block }[],
	): void {
		const isEmpty = this.#options.empty?.has(piece.week) === true;
		const parts: Part[] = [];
		const form: Form = { number: this.#forms++, piece, move, price, parts };
		for (const { plan, rank, block } of stands) {
			const seats: Seat[] = [];
			const part: Part = {
				form,
				plan,
				apparatus: piece.apparatus,
				rank,
				block,
				levels: levelsOf(block, this.curriculum),
				groups: this.#groupsAt(plan, piece.apparatus, block).map(({ group, stay }) => ({
					group,
					moment: ((plan.week * 32 + group.session) * 64 + stay) * 1e8 + rank + 2e7,
				})),
				seats,
			};
			parts.push(part);
			for (const [station, { drill }] of block.stations.entries()) {
				const written = isEmpty || drill === "" ? undefined : this.curriculum.drills.get(drill);
				const seat: Seat = { part, station, drill: written, columns: new Map() };
				seats.push(seat);
				this.#seats.push(seat);
				getOrMake(this.#seatsByWeek, plan.week, (): Seat[] => []).push(seat);
				getOrMake(this.#seatsByApparatus, piece.apparatus, (): Seat[] => []).push(seat);
			}
		}
		piece.forms.push(form);
		for (const part of parts) {
			for (const seat of part.seats)
				if (seat.drill !== undefined) this.#register(this.look(seat, seat.drill));
		}
	}

	#price(seat: Seat, drill: LinkedDrill): number {
		const { drill: written } = seat;
		if (written?.id === drill.id) return 0;
		if (written === undefined) return this.#options.taste?.(seat, drill.id) ?? 0;
		return CHANGE + SIZE.swap * (1 - likeness(written, drill));
	}

	#column(seat: Seat, drill: LinkedDrill): Column {
		const works = this.#placesAt(seat).flatMap(
			({ group, moment, levels, share, works: known }): readonly SeatWork[] => {
				const level = levels.find((one) => drill.levels.has(one));
				if (level === undefined) return [];
				const station = getOrMake(known, drill, () => stationWork(share, seat.station + 1, drill, level));
				return [{ group, moment, station }];
			},
		);
		return { seat, drill, price: this.#price(seat, drill), works };
	}

	/** A drill that may take a seat is for the levels of what is written: the others keep their share. */
	#placesAt(seat: Seat): readonly Place[] {
		return getOrMake(this.#places, seat, () => {
			const { block, groups } = seat.part;
			return groups.map(({ group, moment }) => {
				const levels = levelsDoing(block, group);
				const others = block.stations.filter(({ drill }, i) => {
					const { levels: offered } = this.curriculum.drills.get(drill) ?? {};
					return i !== seat.station && levels.some((level) => offered?.has(level));
				});
				const { kind, minutes, show, change, choose, dose, doses } = block;
				const shape = [kind, minutes, show, change, choose, dose, [...doses], levels, group.gymnasts];
				const key = JSON.stringify([shape, others.length, seat.station]);
				const works = getOrMake(this.#works, key, () => new Map<LinkedDrill, StationWork>());
				return { group, moment, levels, share: shareOf(block, group, others.length + 1), works };
			});
		});
	}

	#register(column: Column): void {
		this.columns.push(column);
		column.seat.columns.set(column.drill.id, column);
		getOrMake(this.#byDrill, column.drill.id, (): Column[] => []).push(column);
	}
}

/** A block that is added, before anything is chosen for it. */
const ADDED: Omit<Block, "number" | "levels"> = {
	kind: "drill",
	stations: [{ drill: "" }],
	choose: 1,
	minutes: 0,
	show: 0,
	change: 0.5,
	sessions: [],
	doses: new Map(),
	path: [],
};

/** The same for the same drill on the same seat. */
export function nameOfColumn({ seat: { part, station }, drill }: Column): string {
	return `${part.form.number}.${part.rank}.${station}.${drill.id}`;
}
