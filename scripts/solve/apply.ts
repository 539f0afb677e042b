/**
 * What was chosen, as a change list that a person reads, and as the plan that the list makes: what the
 * measures judge is made by the changes that are offered.
 */

import { getOrMake } from "../compute/get-or-make.ts";
import { changedWeeks } from "../compute/plan-changes.ts";
import { withWeeks } from "../link/join-records.ts";
import type { Block, Curriculum, Id, PlanChange, WeekPlan } from "../model.ts";
import type { Choices, Form, Part } from "./choices.ts";
import type { Chosen } from "./model.ts";

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

/** Weeks that are kept, with what was counted for them. */
const MOST_BEFORE = 400;

/** Weeks as they were chosen before, by what was chosen: what was counted for them is still known. */
const weeksBefore = new WeakMap<Choices, Map<string, WeekPlan>>();

/** The curriculum with the chosen plan: its changes made as those of any list. */
export function applied(choices: Choices, chosen: Chosen): Applied {
	const { curriculum } = choices;
	const before = getOrMake(weeksBefore, choices, () => new Map<string, WeekPlan>());
	const parts = Map.groupBy(
		[...chosen.forms].flatMap((form) => form.parts),
		({ plan }) => plan.week,
	);
	if (before.size > MOST_BEFORE) before.clear();
	const partOf = new Map<Block, Part>();
	const weeks = changedWeeks(curriculum, changesOf(choices, chosen)).map((made, i) => {
		const places = Map.groupBy(parts.get(made.week) ?? [], ({ apparatus }) => apparatus);
		const week =
			made === curriculum.weeks[i]
				? made
				: getOrMake(before, [...places.values()].map((all) => namesOf(all, chosen)).join(), () => made);
		for (const { apparatus, blocks } of week.apparatus) {
			const here = (places.get(apparatus) ?? []).sort((a, b) => a.rank - b.rank);
			if (here.length !== blocks.length) {
				throw new Error(
					`The changes make ${blocks.length} blocks in ${week.week}/${apparatus}, not ${here.length}.`,
				);
			}
			for (const [at, part] of here.entries()) partOf.set(blocks[at] as Block, part);
		}
		return week;
	});
	const isSame = weeks.every((one, i) => one === curriculum.weeks[i]);
	return { curriculum: isSame ? curriculum : withWeeks(curriculum, weeks), partOf };
}

/** What stands in the parts of an apparatus. */
function namesOf(parts: readonly Part[], { columns }: Chosen): string {
	return parts
		.map(({ form, rank, seats }) => {
			const drills = seats.map(
				(seat) => [...seat.columns.values()].find((one) => columns.has(one))?.drill.id,
			);
			return `${form.number} ${rank} ${drills.join(" ")}`;
		})
		.join(";");
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
	const swaps = [...chosen.columns]
		.filter(
			({ seat: { part, station }, drill }) =>
				part.form.move.kind !== "add" && part.block.stations[station]?.drill !== drill.id,
		)
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
	// Nothing else is changed in weeks that trade places.
	const weeks = new Map(
		forms.flatMap(({ move, piece }) =>
			move.kind === "weeks" && piece.week < move.with
				? [[`${piece.week} ${move.with}`, { exchange: [piece.week, move.with] as const }]]
				: [],
		),
	);
	const later = [...forms].reverse().flatMap((form) => splitting(form, first(form), standing, address));
	const moving = forms.flatMap((form) => moved(form, first(form), standing, address));
	const added = forms.flatMap((form) => addition(form, chosen));
	return [...swaps, ...minutes, ...exchanges, ...weeks.values(), ...later, ...moving, ...added];
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
