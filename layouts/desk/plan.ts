/**
 * The board's arithmetic: where blocks stand, where one can be put, and the changes that put it there. A
 * block is named week/area/number; numbers count from 1.
 */

import type { DoseNumbers, Id, PlanChange, WrittenBlock, WrittenStation } from "../../scripts/model.ts";
import type { Board, BoardArea, BoardBlock, BoardWeek, DrillLine, Named } from "./api.ts";

export interface Spot {
	readonly week: number;
	readonly area: Id;
	/** The number that the block has when it is there. */
	readonly number: number;
}

/** What is being carried: a block of the board, moved or copied, or a drill from the search. */
export type Carried =
	| { readonly from: string; readonly copy: boolean; readonly title: string; readonly drills: readonly Id[] }
	| { readonly drill: Id; readonly title: string; readonly drills: readonly Id[] };

export function spotOf(at: string): Spot {
	const [week = "", area = "", number = ""] = at.split("/");
	return { week: Number(week), area, number: Number(number) };
}

export function nameOf({ week, area, number }: Spot): string {
	return `${week}/${area}/${number}`;
}

export function weekAt(board: Board, week: number): BoardWeek | undefined {
	return board.weeks.find((one) => one.week === week);
}

export function areaAt(board: Board, week: number, area: Id): BoardArea | undefined {
	return weekAt(board, week)?.areas.find((one) => one.area === area);
}

export function blockAt(board: Board, at: string): BoardBlock | undefined {
	const { week, area } = spotOf(at);
	return areaAt(board, week, area)?.blocks.find((block) => block.at === at);
}

/** How many numbers there are to choose from where a block would be put: one more than stand there besides it. */
export function placesIn(board: Board, carried: Carried, week: number, area: Id): number {
	const there = areaAt(board, week, area)?.blocks.length ?? 0;
	const isOwn = isMoved(carried) && carried.from.startsWith(`${week}/${area}/`);
	return there + (isOwn ? 0 : 1);
}

export function isMoved(carried: Carried): carried is Extract<Carried, { readonly from: string }> {
	return "from" in carried && !carried.copy;
}

/** Whether all the drills that are carried can be done there. */
export function fitsIn(drills: readonly DrillLine[], carried: Carried, area: Id): boolean {
	return carried.drills.every((id) => drills.find((drill) => drill.id === id)?.areas.includes(area) ?? true);
}

/** The change that puts down what is carried; undefined where it stays where it is. */
export function putDown(board: Board, carried: Carried, to: Spot): readonly PlanChange[] | undefined {
	if (!("from" in carried))
		return [
			{
				add: {
					week: to.week,
					apparatus: to.area,
					at: to.number,
					block: { drill: carried.drill, minutes: MINUTES_OF_NEW },
				},
			},
		];
	if (!carried.copy) {
		if (carried.from === nameOf(to)) return undefined;
		return [{ move: { from: carried.from, to: nameOf(to) } }];
	}
	const block = blockAt(board, carried.from);
	if (block === undefined) return undefined;
	return [{ add: { week: to.week, apparatus: to.area, at: to.number, block: written(block) } }];
}

const MINUTES_OF_NEW = 8;

/** A block as its file says it, without what is so anyway. */
export function written(block: BoardBlock): WrittenBlock {
	const { kind, stations, minutes, show, change, choose, levels, sessions, dose, doses, keep, note } = block;
	const list = stations.map(writtenStation);
	return {
		...(kind === "drill" ? { drill: stations[0]?.drill ?? "" } : {}),
		minutes,
		...(show > 0 ? { show } : {}),
		...(levels.length === 0 ? {} : { levels }),
		...(sessions.length === 0 ? {} : { session: sessions }),
		...(kind === "stations" ? { change, stations: list } : {}),
		...(kind === "options" ? { ...(choose > 1 ? { choose } : {}), options: list } : {}),
		...(dose === undefined ? (Object.keys(doses).length > 0 ? { dose: doses } : {}) : { dose }),
		...(keep ? { keep } : {}),
		...(note === undefined ? {} : { note }),
	};
}

export function writtenStation({ drill, note, at }: BoardBlock["stations"][number]): WrittenStation {
	return { drill, ...(note === undefined ? {} : { note }), ...(at === undefined ? {} : { at }) };
}

/** A block of stations out of two that follow each other. */
export function joined(first: BoardBlock, second: BoardBlock): readonly PlanChange[] {
	const stations = [...stationsWithNotes(first), ...stationsWithNotes(second)];
	return [
		{
			set: {
				block: first.at,
				minutes: first.minutes + second.minutes,
				stations,
				...(first.kind === "drill" ? { drill: null, note: null } : {}),
			},
		},
		{ remove: second.at },
	];
}

/** What was said of a block of one drill is said of its station. */
function stationsWithNotes(block: BoardBlock): readonly WrittenStation[] {
	if (block.kind !== "drill" || block.note === undefined) return block.stations.map(writtenStation);
	return block.stations.map((station) => ({ ...writtenStation(station), note: block.note ?? "" }));
}

/** Whether two blocks can be one of stations: neither is a choice, and both are for the same. */
export function canJoin(first: BoardBlock, second: BoardBlock | undefined): second is BoardBlock {
	return (
		second !== undefined &&
		first.kind !== "options" &&
		second.kind !== "options" &&
		[...first.levels].sort().join() === [...second.levels].sort().join() &&
		[...first.sessions].join() === [...second.sessions].join()
	);
}

/** A station more: a block of one drill becomes one of stations. */
export function withStation(block: BoardBlock, drill: Id): PlanChange {
	const list = block.kind === "options" ? "options" : "stations";
	const stations = [...stationsWithNotes(block), { drill }];
	return {
		set: {
			block: block.at,
			[list]: stations,
			...(block.kind === "drill" ? { drill: null, note: null } : {}),
		},
	};
}

/** A station less: of two stations one drill is left, which the whole group does. */
export function withoutStation(block: BoardBlock, index: number): PlanChange {
	const left = block.stations.toSpliced(index, 1);
	const list = block.kind === "options" ? "options" : "stations";
	const [only] = left;
	if (left.length === 1 && only !== undefined)
		return {
			set: {
				block: block.at,
				drill: only.drill,
				[list]: null,
				...(block.kind === "options" ? { choose: null } : { change: null }),
				...(only.note === undefined || block.note !== undefined ? {} : { note: only.note }),
			},
		};
	return { set: { block: block.at, [list]: left.map(writtenStation) } };
}

export function withStations(block: BoardBlock, stations: readonly WrittenStation[]): PlanChange {
	return { set: { block: block.at, [block.kind === "options" ? "options" : "stations"]: stations } };
}

/** The dose of everybody in a block; without numbers there is none. */
export function withDose(block: BoardBlock, dose: DoseNumbers): PlanChange {
	return { set: { block: block.at, dose: Object.keys(dose).length === 0 ? null : dose } };
}

/** The dose of a level, where what was said of everybody stays said of the others. */
export function withDoseOf(
	block: BoardBlock,
	levels: readonly Named[],
	level: Id,
	dose: DoseNumbers,
): PlanChange {
	const before = levels.map(({ id }) => [id, block.doses[id] ?? block.dose ?? {}] as const);
	const all = { ...block.doses, ...Object.fromEntries(before), [level]: dose };
	const said = Object.entries(all).filter(([, numbers]) => Object.keys(numbers).length > 0);
	return { set: { block: block.at, dose: said.length === 0 ? null : Object.fromEntries(said) } };
}

/** Blocks of a week that another state of it has not, by what they say. */
export function blocksIn(week: BoardWeek | undefined): ReadonlyMap<string, BoardBlock> {
	return new Map(
		(week?.areas ?? []).flatMap(({ area, blocks }) =>
			blocks.map((block) => [`${area} ${JSON.stringify(written(block))}`, block] as const),
		),
	);
}
