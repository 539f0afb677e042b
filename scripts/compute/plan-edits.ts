/**
 * Edits of the week plans: made in memory, to try them, and written as the changes of a change list.
 * Edits are made in order, and each address is that after those before it, as in a change list.
 */

import type { ApparatusPlan, Block, Id, PlanChange, Station, WeekPlan, WrittenBlock } from "../model.ts";

/** The number of a block that is put after all others. */
export const LAST = Number.POSITIVE_INFINITY;

/** Where a block stands; its number counts from 1. */
export interface Spot {
	readonly week: number;
	readonly apparatus: Id;
	readonly number: number;
}

export type PlanEdit =
	| { readonly add: Spot; readonly block: Block }
	| { readonly remove: Spot }
	| { readonly move: Spot; readonly to: Spot }
	| { readonly set: Spot; readonly fields: BlockFields };

/** Some fields of a block; `kind` stands beside `stations`, and `doses` takes the place of `dose`. */
export type BlockFields = { readonly [Name in keyof Block]?: Block[Name] | undefined };

/** The weeks with the edits made; blocks are counted and placed anew. */
export function edited(weeks: readonly WeekPlan[], edits: readonly PlanEdit[]): readonly WeekPlan[] {
	const plans = new Map(weeks.map((plan) => [plan.week, plan.apparatus.map((one) => ({ ...one }))]));
	const blocksAt = ({ week, apparatus }: Spot): Block[] => {
		const plan = plans.get(week) ?? [];
		const found = plan.find((one) => one.apparatus === apparatus);
		const blocks = [...(found?.blocks ?? [])];
		if (found === undefined) plan.push({ apparatus, blocks });
		else Object.assign(found, { blocks });
		return blocks;
	};
	for (const edit of edits) {
		if ("add" in edit) blocksAt(edit.add).splice(edit.add.number - 1, 0, edit.block);
		else if ("remove" in edit) blocksAt(edit.remove).splice(edit.remove.number - 1, 1);
		else if ("move" in edit) {
			const taken = blocksAt(edit.move).splice(edit.move.number - 1, 1);
			blocksAt(edit.to).splice(edit.to.number - 1, 0, ...taken);
		} else {
			const blocks = blocksAt(edit.set);
			const before = blocks[edit.set.number - 1];
			if (before !== undefined) blocks[edit.set.number - 1] = { ...before, ...edit.fields } as Block;
		}
	}
	return weeks.map((plan) => ({ ...plan, apparatus: (plans.get(plan.week) ?? []).map(renumbered) }));
}

function renumbered(plan: ApparatusPlan): ApparatusPlan {
	const path = ["apparatus", plan.apparatus, "blocks"];
	return {
		...plan,
		blocks: plan.blocks.map((block, i) => ({ ...block, number: i + 1, path: [...path, i] })),
	};
}

/** The weeks that edits touch. */
export function weeksOf(edits: readonly PlanEdit[]): ReadonlySet<number> {
	return new Set(
		edits.flatMap((edit) =>
			"add" in edit
				? [edit.add.week]
				: "remove" in edit
					? [edit.remove.week]
					: "move" in edit
						? [edit.move.week, edit.to.week]
						: [edit.set.week],
		),
	);
}

/** An edit as a change list has it. */
export function writtenChange(edit: PlanEdit): PlanChange {
	if ("add" in edit) {
		const { week, apparatus, number } = edit.add;
		const at = number === LAST ? {} : { at: number };
		return { add: { week, apparatus, ...at, block: writtenBlock(edit.block) } };
	}
	if ("remove" in edit) return { remove: nameOf(edit.remove) };
	if ("move" in edit) return { move: { from: nameOf(edit.move), to: nameOf(edit.to) } };
	return { set: { block: nameOf(edit.set), ...writtenBlock(edit.fields) } };
}

function nameOf({ week, apparatus, number }: Spot): string {
	return `${week}/${apparatus}/${number}`;
}

/** What a block says, without what it leaves to the format; of some of its fields, those that `set` takes. */
function writtenBlock({ kind, stations, dose, doses, note, ...fields }: BlockFields): WrittenBlock {
	const { choose = 1, minutes, show = 0, change, levels = [], sessions = [] } = fields;
	const own = stations?.map(writtenStation);
	return {
		...(own === undefined
			? {}
			: kind === "drill"
				? { drill: own[0]?.drill ?? "" }
				: kind === "options"
					? { options: own }
					: { stations: own }),
		...(choose > 1 ? { choose } : {}),
		...(minutes === undefined ? {} : { minutes }),
		...(show > 0 ? { show } : {}),
		...(change === undefined || kind !== "stations" ? {} : { change }),
		...(levels.length === 0 ? {} : { levels }),
		...(sessions.length === 0 ? {} : { session: sessions }),
		...(dose !== undefined
			? { dose }
			: doses !== undefined && doses.size > 0
				? { dose: Object.fromEntries(doses) }
				: {}),
		...(note === undefined ? {} : { note }),
	};
}

function writtenStation({ drill, note, at, landmark }: Station) {
	const where = landmark ?? at;
	return { drill, ...(note === undefined ? {} : { note }), ...(where === undefined ? {} : { at: where }) };
}
