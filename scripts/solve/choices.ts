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

import { getOrMake } from "../compute/get-or-make.ts";
import { type Group, groupsOf, isOfSession, isThere } from "../compute/groups.ts";
import { levelsOf } from "../compute/levels-of.ts";
import { Library } from "../compute/meeting-order.ts";
import { type StationWork, stationsOf } from "../compute/work.ts";
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
	/** Levels that it is for. */
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
	/** Levels that do it there, in a class or not. */
	readonly levels: readonly Id[];
}

export interface SeatWork {
	readonly group: Group;
	readonly moment: number;
	readonly station: StationWork;
	/** The block with this drill in it. */
	readonly block: Block;
}

/** The price of one change; sizes are shares of it, so that the number of changes comes first. */
const CHANGE = 1;
const SIZE = { swap: 0.002, minute: 0.001, exchange: 0.006, move: 0.006, split: 0.006, add: 0.008 } as const;

export interface ChoicesOptions {
	readonly scope?: Scope;
	/** Weeks whose blocks have no drills yet. */
	readonly empty?: ReadonlySet<number>;
	/** Prices of the drills of an empty week, so that two seeds give two plans. */
	readonly taste?: (seat: Seat, drill: Id) => number;
	/** Ways of changing that are left out. */
	readonly without?: ReadonlySet<Move["kind"]>;
}

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
	#touched = new Set<Seat>();
	readonly #widened = new Set<string>();
	readonly #looked = new Map<Seat, Map<Id, Column>>();
	readonly #candidates = new Map<Seat, readonly LinkedDrill[]>();
	#forms = 0;
	/** Whether blocks may stand otherwise, or only their drills change. */
	allowsForms = true;

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
		this.#touched.add(seat);
	}

	/** The seats that something asks for. */
	touchedBy(asking: () => void): ReadonlySet<Seat> {
		this.#touched = new Set();
		asking();
		return this.#touched;
	}

	mayChange({ part: { form } }: Seat): boolean {
		return (
			form.piece.isFree &&
			(form.move.kind === "keep" || form.move.kind === "minutes" || form.move.kind === "add")
		);
	}

	/** Lets a drill be chosen for a seat, where it may be there at all. */
	want(seat: Seat, drill: LinkedDrill): void {
		if (!this.mayChange(seat) || !this.isFit(seat, drill)) return;
		this.#touched.add(seat);
		if (!seat.columns.has(drill.id)) this.#register(this.look(seat, drill));
	}

	/** What a drill on a seat would be, whether it may be chosen or not. */
	look(seat: Seat, { id }: Pick<LinkedDrill, "id">): Column {
		return getOrMake(
			getOrMake(this.#looked, seat, () => new Map<Id, Column>()),
			id,
			() => {
				// A case may come from a plan that was tried, whose drills are other objects.
				const drill = this.curriculum.drills.get(id);
				if (drill === undefined) throw new Error(`No drill has the id ${id}.`);
				return this.#column(seat, drill);
			},
		);
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
			const fit = here.filter((drill) => this.isFit(seat, drill));
			const prices = new Map(fit.map((drill) => [drill, this.#price(seat, drill)]));
			return fit.sort((a, b) => (prices.get(a) ?? 0) - (prices.get(b) ?? 0));
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

	/** A block more at the end of an apparatus, for one level, of any drill. */
	wantAdded(plan: WeekPlan, apparatus: Id, level: Id, minutes: readonly number[]): readonly Seat[] {
		const key = `add ${plan.week} ${apparatus} ${level}`;
		const on = plan.apparatus.find((one) => one.apparatus === apparatus);
		if (on === undefined || plan.keep === true || this.#options.without?.has("add") === true) return [];
		const block = { ...ADDED, number: on.blocks.length + 1, levels: [level] };
		if (!this.#isInScope(plan, apparatus, block)) return [];
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
		return (this.#added.get(key)?.forms ?? []).flatMap(({ parts }) => parts.flatMap(({ seats }) => seats));
	}

	readonly #added = new Map<string, Piece>();

	#mayWiden(piece: Piece, how: string): boolean {
		const [kind] = how.split(" ");
		const key = `${how} ${piece.number}`;
		if (!this.allowsForms || !piece.isFree || this.#options.without?.has(kind as Move["kind"]) === true)
			return false;
		if (how !== "exchange" && this.#widened.has(key)) return false;
		this.#widened.add(key);
		return true;
	}

	#at(piece: Piece): { readonly plan: WeekPlan; readonly rank: number } {
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
		const { part, station } = seat;
		const stations = part.block.stations.map((one, i) =>
			i === station ? { drill: drill.id, ...(one.at === undefined ? {} : { at: one.at }) } : one,
		);
		const block: Block = { ...part.block, stations };
		const works = part.groups.flatMap(({ group, moment }): readonly SeatWork[] => {
			const all = stationsOf(this.curriculum, block, group);
			const own = all.find((one) => one.station === station + 1);
			return own === undefined ? [] : [{ group, moment, station: own, block }];
		});
		return {
			seat,
			drill,
			price: this.#price(seat, drill),
			works,
			levels: part.levels.filter((level) => drill.levels.has(level)),
		};
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

/** How much of what two drills train is the same, from 0 to 1. */
function likeness(a: LinkedDrill, b: LinkedDrill): number {
	const of = ({ skills, shapes, direction, performs }: LinkedDrill) =>
		new Set([
			...skills,
			...performs,
			...shapes,
			...(direction === undefined ? [] : [`${direction} direction`]),
		]);
	const [one, other] = [of(a), of(b)];
	const all = one.union(other).size;
	return all === 0 ? 0 : one.intersection(other).size / all;
}

/** The same for the same drill on the same seat. */
export function nameOfColumn({ seat: { part, station }, drill }: Column): string {
	return `${part.form.number}.${part.rank}.${station}.${drill.id}`;
}
