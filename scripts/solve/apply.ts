/**
 * What was chosen, as weeks that the measures judge, and as a change list that a person reads.
 *
 * The weeks are made here from the choice, the list is followed by edit/change-plan.ts: that both give
 * the same plan is looked at each time (commands/mend.ts), since the measures judge the second as well.
 */

import { withWeeks } from "../link/join-records.ts";
import type { ApparatusPlan, Block, Curriculum, Id, PlanChange, Station, WeekPlan } from "../model.ts";
import type { Choices, Form, Part } from "./choices.ts";
import { type Chosen, changedColumns } from "./model.ts";

export interface Applied {
	readonly curriculum: Curriculum;
	readonly partOf: ReadonlyMap<Block, Part>;
}

/** What stands in the choices before anything is changed. */
export function asWritten(choices: Choices): Chosen {
	const forms = choices.pieces.flatMap(({ forms: [first] }) => (first === undefined ? [] : [first]));
	const columns = forms
		.flatMap(({ parts }) => parts.flatMap(({ seats }) => seats))
		.flatMap((seat) => {
			// A week that is planned anew begins with what its draft was made from.
			const written = seat.part.block.stations[seat.station]?.drill;
			return [...seat.columns.values()].filter(({ drill }) => drill.id === written);
		});
	return { forms: new Set(forms), columns: new Set(columns) };
}

/** The curriculum with the chosen plan. What stays as it is stays the same objects. */
export function applied(choices: Choices, chosen: Chosen): Applied {
	const { curriculum } = choices;
	const parts = Map.groupBy(
		[...chosen.forms].flatMap((form) => form.parts),
		({ plan, apparatus }) => `${plan.week} ${apparatus}`,
	);
	const partOf = new Map<Block, Part>();
	const weeks = curriculum.weeks.map((week): WeekPlan => {
		const apparatus = week.apparatus.map((plan): ApparatusPlan => {
			const here = [...(parts.get(`${week.week} ${plan.apparatus}`) ?? [])].sort((a, b) => a.rank - b.rank);
			const blocks = here.map((part, i) => {
				const block = blockOf(part, chosen, i + 1);
				partOf.set(block, part);
				return block;
			});
			const isSame = blocks.length === plan.blocks.length && blocks.every((one, i) => one === plan.blocks[i]);
			return isSame ? plan : { ...plan, blocks };
		});
		return apparatus.every((one, i) => one === week.apparatus[i]) ? week : { ...week, apparatus };
	});
	const isSame = weeks.every((one, i) => one === curriculum.weeks[i]);
	return { curriculum: isSame ? curriculum : withWeeks(curriculum, weeks), partOf };
}

function blockOf(part: Part, { columns }: Chosen, number: number): Block {
	const { block, seats } = part;
	const stations = seats.map((seat): Station => {
		const [drill] = [...seat.columns.values()]
			.filter((column) => columns.has(column))
			.map((column) => column.drill.id);
		const written = block.stations[seat.station];
		if (drill === undefined || written === undefined)
			throw new Error(
				`Nothing was chosen for station ${seat.station + 1} of a block in week ${part.plan.week}.`,
			);
		if (drill === written.drill) return written;
		// What was noted was about the other drill.
		const { note: _note, ...rest } = written;
		return { ...rest, drill };
	});
	const isSame = stations.every((one, i) => one === block.stations[i]);
	const isWritten = isSame && number === block.number && part.form.piece.block === block;
	return isWritten && part.form.move.kind === "keep" ? block : { ...block, stations, number };
}

/** Blocks of an apparatus in the order in which they stand while a list is followed. */
type Standing = Map<string, { part: Part | undefined; rank: number; form: Form }[]>;

/** The changes in an order in which each address is right when its turn comes. */
export function changesOf(choices: Choices, chosen: Chosen): readonly PlanChange[] {
	const standing: Standing = new Map();
	for (const { forms } of choices.pieces) {
		const [form] = forms;
		for (const part of form?.parts ?? []) {
			const key = `${part.plan.week}/${part.apparatus}`;
			const here = standing.get(key) ?? [];
			standing.set(key, here);
			if (form !== undefined) here.push({ part, rank: part.rank, form });
		}
	}
	const address = (week: number, apparatus: Id, form: Form): string => {
		const here = standing.get(`${week}/${apparatus}`) ?? [];
		return `${week}/${apparatus}/${here.findIndex((one) => one.form === form) + 1}`;
	};
	const first = (form: Form): Form => form.piece.forms[0] ?? form;
	const forms = [...chosen.forms].sort((a, b) => a.piece.number - b.piece.number);
	const swaps = changedColumns(chosen)
		.filter(({ seat }) => seat.part.form.move.kind !== "add")
		.map(
			({ seat: { part, station }, drill }): PlanChange => ({
				swap: {
					block: address(part.form.piece.week, part.apparatus, first(part.form)),
					...(part.block.kind === "drill" ? {} : { station: station + 1 }),
					drill: drill.id,
				},
			}),
		);
	const minutes = forms.flatMap(({ move, piece, ...form }): readonly PlanChange[] =>
		move.kind === "minutes"
			? [
					{
						set: {
							block: address(piece.week, piece.apparatus, piece.forms[0] ?? { move, piece, ...form }),
							minutes: move.minutes,
						},
					},
				]
			: [],
	);
	const exchanges = forms.flatMap((form): readonly PlanChange[] => {
		const { move, piece } = form;
		if (move.kind !== "exchange" || piece.number > move.with.number) return [];
		const other = move.with.forms[0] ?? form;
		return [
			{
				exchange: [
					address(piece.week, piece.apparatus, first(form)),
					address(move.with.week, move.with.apparatus, other),
				],
			},
		];
	});
	const later = [...forms].reverse().flatMap((form) => splitting(form, first(form), standing, address));
	const moving = forms.flatMap((form) => moved(form, first(form), standing, address));
	const added = forms.flatMap((form) => addition(form, chosen));
	return [...swaps, ...minutes, ...exchanges, ...later, ...moving, ...added];
}

function splitting(
	form: Form,
	from: Form,
	standing: Standing,
	address: (week: number, apparatus: Id, form: Form) => string,
): readonly PlanChange[] {
	const { move, piece } = form;
	if (move.kind !== "split") return [];
	const block = address(piece.week, piece.apparatus, from);
	const here = standing.get(`${piece.week}/${piece.apparatus}`) ?? [];
	const at = here.findIndex((one) => one.form === from);
	here.splice(at + 1, 0, { part: undefined, rank: (here[at]?.rank ?? 0) + 0.5, form });
	return [{ split: { block, after: move.after, minutes: move.minutes } }];
}

function moved(
	form: Form,
	from: Form,
	standing: Standing,
	address: (week: number, apparatus: Id, form: Form) => string,
): readonly PlanChange[] {
	const { move, piece, parts } = form;
	const [part] = parts;
	if (move.kind !== "move" || part === undefined) return [];
	const before = address(piece.week, piece.apparatus, from);
	const here = standing.get(`${piece.week}/${piece.apparatus}`) ?? [];
	here.splice(
		here.findIndex((one) => one.form === from),
		1,
	);
	const key = `${move.week}/${piece.apparatus}`;
	const there = standing.get(key) ?? [];
	standing.set(key, there);
	const later = there.findIndex(({ rank }) => rank > part.rank);
	there.splice(later < 0 ? there.length : later, 0, { part, rank: part.rank, form: from });
	return [{ move: { from: before, to: address(move.week, piece.apparatus, from) } }];
}

function addition({ move, parts }: Form, { columns }: Chosen): readonly PlanChange[] {
	const [part] = parts;
	if (move.kind !== "add" || part === undefined) return [];
	const { plan, apparatus, block, seats } = part;
	const [drill] = seats.flatMap((seat) => [...seat.columns.values()].filter((column) => columns.has(column)));
	if (drill === undefined) return [];
	return [
		{
			add: {
				week: plan.week,
				apparatus,
				block: { drill: drill.drill.id, minutes: block.minutes, levels: block.levels },
			},
		},
	];
}
