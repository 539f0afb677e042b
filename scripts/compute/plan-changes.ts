/**
 * Changes of the plan, made: the one place where a change list is followed. The files of a club
 * (edit/change-plan.ts), the plan in memory (lists that are tried, the solver, the desk) and what a
 * finding offers are all changed here.
 *
 * Changes are made in order, and each address is that after those before it:
 *   add       a block at a number of an apparatus; the last where none is said
 *   remove    a block
 *   move      a block from one place to the number that it has when it is there
 *   set       fields of a block, as its week's file writes them; one that is null goes
 *   swap      another drill at a station; what was noted about the other goes
 *   exchange  two blocks in each other's place, or the plans of two weeks by their numbers
 *   split     a block of stations as two, one after the other
 *
 * In memory: `changedPlan(curriculum, changes)` gives the curriculum with the changes made, and throws a
 * `ChangeFault` with words for whoever asked; what it changes it makes new, and everything else stays the
 * same object, so that what was counted for it is still known (link/join-records.ts, `originalOf`).
 * What a change does to the findings: compare-findings.ts.
 */

import { withWeeks } from "../link/join-records.ts";
import type {
	ApparatusPlan,
	Block,
	Curriculum,
	Id,
	PlanChange,
	Station,
	WeekPlan,
	WrittenBlock,
	WrittenStation,
} from "../model.ts";
import { nearestName } from "../read/nearest-name.ts";
import { blockFrom } from "../validate/build-records.ts";

/** A change that cannot be made; the message is for its author. */
export class ChangeFault extends Error {}

/** Where a block stands; its number counts from 1. */
export interface Spot {
	readonly week: number;
	readonly apparatus: Id;
	readonly number: number;
}

/** A spot as a change list names it. */
export function nameOfSpot({ week, apparatus, number }: Spot): string {
	return `${week}/${apparatus}/${number}`;
}

function readSpot(name: string): Spot {
	const [, week, apparatus, number] = /^(\d+)\/([a-z0-9-]+)\/(\d+)$/.exec(name) ?? [];
	if (week === undefined || apparatus === undefined || number === undefined) {
		throw new ChangeFault("a block is named week/apparatus/number, such as 5/beam/2.");
	}
	return { week: Number(week), apparatus, number: Number(number) };
}

/** A plan whose blocks can be put elsewhere, whatever they are made of. */
export interface ChangeablePlan<B> {
	/** The apparatus of a week; undefined where it is not planned. */
	apparatusOf(week: number): readonly Id[] | undefined;
	/** The blocks of an apparatus as a list that may be changed; begun where there is none. */
	blocksOf(week: number, apparatus: Id): B[];
	/** Two weeks under each other's number. */
	exchangeWeeks(one: number, other: number): void;
	/** What a block says, and a block that says it. */
	open(block: B): WrittenBlock;
	close(block: WrittenBlock): B;
}

/** Makes changes, one after the other. @throws ChangeFault naming the change, counted from 1 */
export function follow<B>(plan: ChangeablePlan<B>, changes: readonly PlanChange[]): void {
	for (const [i, change] of changes.entries()) {
		try {
			make(plan, change);
		} catch (error) {
			if (error instanceof ChangeFault) throw new ChangeFault(`Change ${i + 1}: ${error.message}`);
			throw error;
		}
	}
}

function make<B>(plan: ChangeablePlan<B>, change: PlanChange): void {
	if ("add" in change) {
		const { week, apparatus, at, block } = change.add;
		putIn(plan, week, apparatus, at, plan.close(block));
	} else if ("remove" in change) takeOut(plan, readSpot(change.remove));
	else if ("move" in change) {
		const [from, to] = [readSpot(change.move.from), readSpot(change.move.to)];
		putIn(plan, to.week, to.apparatus, to.number, takeOut(plan, from));
	} else if ("exchange" in change) exchange(plan, change.exchange);
	else if ("set" in change) {
		const { block, ...fields } = change.set;
		changeBlock(plan, readSpot(block), (before) => withFields(before, fields));
	} else if ("swap" in change) {
		const { block, station, drill } = change.swap;
		changeBlock(plan, readSpot(block), (before) => swapped(before, block, station, drill));
	} else {
		const { block, after, minutes } = change.split;
		const spot = readSpot(block);
		const { blocks, at } = placeOf(plan, spot);
		const whole = plan.open(blocks[at] as B);
		const { stations } = whole;
		if (stations === undefined || after < 1 || after >= stations.length)
			throw new ChangeFault(`${block} cannot be split after station ${after}.`);
		const parts = [stations.slice(0, after), stations.slice(after)];
		blocks.splice(
			at,
			1,
			...parts.map((own, i) => plan.close({ ...whole, minutes: minutes[i] ?? 0, stations: own })),
		);
	}
}

function exchange<B>(
	plan: ChangeablePlan<B>,
	[one, other]: readonly [string, string] | readonly [number, number],
): void {
	if (typeof one === "number" || typeof other === "number") {
		for (const week of [one, other]) apparatusIn(plan, Number(week));
		plan.exchangeWeeks(Number(one), Number(other));
		return;
	}
	const [a, b] = [placeOf(plan, readSpot(one)), placeOf(plan, readSpot(other))];
	[a.blocks[a.at], b.blocks[b.at]] = [b.blocks[b.at] as B, a.blocks[a.at] as B];
}

/** Fields that a block is to have, and, where they are null, to have no more. */
export type NewFields = { readonly [Name in keyof WrittenBlock]: WrittenBlock[Name] | null };

/**
 * A block with other fields. It says its drills in one way: stations take the place of a drill, and the
 * other way round.
 */
export function withFields(block: WrittenBlock, fields: NewFields): WrittenBlock {
	const others = [fields.drill, fields.stations, fields.options].some(
		(one) => one !== undefined && one !== null,
	);
	const { drill: _drill, stations: _stations, options: _options, ...rest } = block;
	const all = Object.entries({ ...(others ? rest : block), ...fields });
	return Object.fromEntries(all.filter(([, value]) => value !== null));
}

function swapped(block: WrittenBlock, name: string, station: number | undefined, drill: Id): WrittenBlock {
	const list = block.stations === undefined ? "options" : "stations";
	const all = block[list];
	if (all === undefined) {
		if (station !== undefined) throw new ChangeFault(`${name} is a block of one drill.`);
		const { note: _note, ...rest } = block;
		return { ...rest, drill };
	}
	const written = all[(station ?? 0) - 1];
	if (station === undefined || written === undefined)
		throw new ChangeFault(`${name} has stations 1 to ${all.length}; say which, as in \`station: 1\`.`);
	const { note: _note, ...rest } = written;
	return { ...block, [list]: all.with(station - 1, { ...rest, drill }) };
}

function changeBlock<B>(
	plan: ChangeablePlan<B>,
	spot: Spot,
	by: (before: WrittenBlock) => WrittenBlock,
): void {
	const { blocks, at } = placeOf(plan, spot);
	blocks[at] = plan.close(by(plan.open(blocks[at] as B)));
}

function takeOut<B>(plan: ChangeablePlan<B>, spot: Spot): B {
	const { blocks, at } = placeOf(plan, spot);
	return blocks.splice(at, 1)[0] as B;
}

/** Puts a block in so that it has the number `at`; without one it becomes the last. */
function putIn<B>(
	plan: ChangeablePlan<B>,
	week: number,
	apparatus: Id,
	at: number | undefined,
	block: B,
): void {
	apparatusIn(plan, week);
	const blocks = plan.blocksOf(week, apparatus);
	const number = at ?? blocks.length + 1;
	if (!Number.isInteger(number) || number < 1 || number > blocks.length + 1)
		throw new ChangeFault(`a block can be put at 1 to ${blocks.length + 1} there.`);
	blocks.splice(number - 1, 0, block);
}

function placeOf<B>(plan: ChangeablePlan<B>, { week, apparatus, number }: Spot) {
	const known = apparatusIn(plan, week);
	if (!known.includes(apparatus)) {
		const nearest = nearestName(apparatus, known);
		throw new ChangeFault(
			`week ${week} has no \`${apparatus}\`.${nearest === undefined ? "" : ` Did you mean \`${nearest}\`?`}`,
		);
	}
	const blocks = plan.blocksOf(week, apparatus);
	if (number >= 1 && number <= blocks.length) return { blocks, at: number - 1 };
	throw new ChangeFault(
		`there is no block ${week}/${apparatus}/${number}; ${apparatus} has ${blocks.length} that week.`,
	);
}

function apparatusIn<B>(plan: ChangeablePlan<B>, week: number): readonly Id[] {
	const known = plan.apparatusOf(week);
	if (known === undefined) throw new ChangeFault(`week ${week} is not planned.`);
	return known;
}

/** The curriculum with changes of its plan made. @throws ChangeFault */
export function changedPlan(curriculum: Curriculum, changes: readonly PlanChange[]): Curriculum {
	const weeks = changedWeeks(curriculum, changes);
	return weeks.every((one, i) => one === curriculum.weeks[i]) ? curriculum : withWeeks(curriculum, weeks);
}

/** Its weeks alone. @throws ChangeFault */
export function changedWeeks(curriculum: Curriculum, changes: readonly PlanChange[]): readonly WeekPlan[] {
	const plan = new TypedPlan(curriculum.weeks);
	follow(plan, changes);
	const { weeks } = plan;
	for (const [i, week] of weeks.entries()) mustStand(curriculum, week, curriculum.weeks[i]);
	return weeks;
}

/** Every drill is in the library, and on an apparatus where it is done: else the week's file would have an error. */
function mustStand(
	{ drills, apparatus: places }: Curriculum,
	week: WeekPlan,
	before: WeekPlan | undefined,
): void {
	if (week === before) return;
	for (const { apparatus, blocks } of week.apparatus) {
		for (const { drill: id } of blocks.flatMap(({ stations }) => stations)) {
			const drill = drills.get(id);
			if (drill?.apparatus.includes(apparatus)) continue;
			const nearest = drill === undefined ? nearestName(id, [...drills.keys()]) : undefined;
			throw new ChangeFault(
				drill !== undefined
					? `${drill.title} is not done on ${places.get(apparatus)?.name ?? apparatus}.`
					: `there is no drill \`${id}\`.${nearest === undefined ? "" : ` Did you mean \`${nearest}\`?`}`,
			);
		}
	}
}

/** Weeks as they are in memory. */
class TypedPlan implements ChangeablePlan<Block> {
	readonly #weeks: Map<number, WeekPlan>;
	readonly #lists = new Map<number, Map<Id, Block[]>>();

	constructor(weeks: readonly WeekPlan[]) {
		this.#weeks = new Map(weeks.map((plan) => [plan.week, plan]));
	}

	get weeks(): readonly WeekPlan[] {
		return [...this.#weeks].map(([week, plan]) => {
			const lists = this.#lists.get(week);
			const own = plan.week === week ? plan : { ...plan, week };
			if (lists === undefined) return own;
			const begun = [...lists.keys()].filter((id) =>
				plan.apparatus.every(({ apparatus }) => apparatus !== id),
			);
			const apparatus = [
				...plan.apparatus.map((one) => numbered(one, lists.get(one.apparatus))),
				...begun.map((id) => numbered({ apparatus: id, blocks: [] }, lists.get(id))),
			];
			const isSame = begun.length === 0 && apparatus.every((one, i) => one === plan.apparatus[i]);
			return isSame ? own : { ...own, apparatus };
		});
	}

	apparatusOf(week: number): readonly Id[] | undefined {
		const planned = this.#weeks.get(week)?.apparatus.map(({ apparatus }) => apparatus);
		return planned && [...new Set([...planned, ...(this.#lists.get(week)?.keys() ?? [])])];
	}

	blocksOf(week: number, apparatus: Id): Block[] {
		const lists = this.#lists.get(week) ?? new Map<Id, Block[]>();
		this.#lists.set(week, lists);
		const plan = this.#weeks.get(week)?.apparatus.find((one) => one.apparatus === apparatus);
		const blocks = lists.get(apparatus) ?? [...(plan?.blocks ?? [])];
		lists.set(apparatus, blocks);
		return blocks;
	}

	exchangeWeeks(one: number, other: number): void {
		exchangeIn(this.#weeks, one, other);
		exchangeIn(this.#lists, one, other);
	}

	open(block: Block): WrittenBlock {
		return writtenBlock(block);
	}

	close(block: WrittenBlock): Block {
		const { minutes = 0 } = block;
		return blockFrom({ ...block, minutes } as Parameters<typeof blockFrom>[0], 0, []);
	}
}

/** What two numbers of a map stand for, the other way round. */
export function exchangeIn<T>(map: Map<number, T>, one: number, other: number): void {
	const [a, b] = [map.get(one), map.get(other)];
	for (const [week, value] of [
		[one, b],
		[other, a],
	] as const)
		if (value === undefined) map.delete(week);
		else map.set(week, value);
}

/** Blocks counted and placed anew, as far as they have another number than before. */
function numbered(plan: ApparatusPlan, blocks: readonly Block[] = plan.blocks): ApparatusPlan {
	if (blocks.length === plan.blocks.length && blocks.every((one, i) => one === plan.blocks[i])) return plan;
	const path = ["apparatus", plan.apparatus, "blocks"];
	return {
		...plan,
		blocks: blocks.map((block, i) => {
			const isSameApparatus = block.path[1] === plan.apparatus;
			if (block.number === i + 1 && isSameApparatus) return block;
			// Named spots are those of the apparatus.
			const stations = isSameApparatus ? block.stations : block.stations.map(withoutSpot);
			return { ...block, stations, number: i + 1, path: [...path, i] };
		}),
	};
}

function withoutSpot(station: Station): Station {
	if (station.landmark === undefined) return station;
	const { at: _at, ...rest } = station;
	return rest;
}

export function weeksOf(changes: readonly PlanChange[]): ReadonlySet<number> {
	const week = (name: string): number => readSpot(name).week;
	return new Set(
		changes.flatMap((change): readonly number[] => {
			if ("add" in change) return [change.add.week];
			if ("remove" in change) return [week(change.remove)];
			if ("move" in change) return [week(change.move.from), week(change.move.to)];
			if ("exchange" in change)
				return change.exchange.map((one) => (typeof one === "number" ? one : week(one)));
			return [
				week("set" in change ? change.set.block : "swap" in change ? change.swap.block : change.split.block),
			];
		}),
	);
}

/** A block as its week's file would say it, without what it leaves to the format. */
export function writtenBlock(block: Block): WrittenBlock {
	const { kind, stations, choose, minutes, show, change, levels, sessions, dose, doses, keep, note } = block;
	return {
		...writtenStations(kind, stations),
		...(choose > 1 ? { choose } : {}),
		minutes,
		...(show > 0 ? { show } : {}),
		...(kind === "stations" ? { change } : {}),
		...(levels.length === 0 ? {} : { levels }),
		...(sessions.length === 0 ? {} : { session: sessions }),
		...(dose !== undefined ? { dose } : doses.size > 0 ? { dose: Object.fromEntries(doses) } : {}),
		...(keep === undefined ? {} : { keep }),
		...(note === undefined ? {} : { note }),
	};
}

/** The drills of a block, by the name that they have for a block of that kind. */
export function writtenStations(
	kind: Block["kind"],
	stations: readonly Station[],
): Pick<WrittenBlock, "drill" | "stations" | "options"> {
	if (kind === "drill") return { drill: stations[0]?.drill ?? "" };
	return { [kind]: stations.map(writtenStation) };
}

function writtenStation({ drill, note, at, landmark }: Station): WrittenStation {
	const where = landmark ?? at;
	return { drill, ...(note === undefined ? {} : { note }), ...(where === undefined ? {} : { at: where }) };
}
