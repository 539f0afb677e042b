/** A drill as one level does it. What the level says replaces what the drill says, each field whole. */

import type { Id, LinkedDrill, Manner } from "../model.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";

const made = onceEach((_: LinkedDrill) => new Map<Id, LinkedDrill>());

/** The drill with the level's own dose, turn, equipment, safety texts and so on; the drill itself where the level says nothing. */
export function drillAt(drill: LinkedDrill, level: Id): LinkedDrill {
	const own = drill.levels.get(level);
	if (own === undefined) return drill;
	return getOrMake(made(drill), level, () => {
		const { do: _how, ...manner } = own;
		const helpers = helpersAt(drill, manner);
		const alike = Object.keys(manner).length === 0 && helpers === drill.helpers;
		return alike ? drill : { ...drill, ...manner, ...(helpers && { helpers }) };
	});
}

/**
 * Who is drawn beside a level's figures: no more at a step than the level needs hands for. Steps of another
 * sequence are not the ones that the drill's helpers are at.
 */
function helpersAt(drill: LinkedDrill, own: Manner): LinkedDrill["helpers"] {
	const helpers = own.helpers ?? (own.sequence === undefined ? drill.helpers : []);
	const most = own.spotters ?? drill.spotters;
	if (helpers === undefined || most === undefined) return helpers;
	const seen = new Map<number, number>();
	const kept = helpers.filter(({ step }) => {
		seen.set(step, (seen.get(step) ?? 0) + 1);
		return (seen.get(step) ?? 0) <= most;
	});
	return kept.length === helpers.length ? helpers : kept;
}

/** What levels share of a drill: each value with the levels it is for; one for all where they do not differ. */
export function valuesAt<T>(
	drill: LinkedDrill,
	levels: readonly Id[],
	of: (drill: LinkedDrill) => T,
): readonly { readonly value: T; readonly levels: readonly Id[] | "all" }[] {
	if (levels.length === 0) return [{ value: of(drill), levels: "all" }];
	const values = levels.map((level) => ({ level, value: of(drillAt(drill, level)) }));
	const groups = [...Map.groupBy(values, ({ value }) => JSON.stringify(value)).values()];
	return groups.flatMap((same) => {
		const [one] = same;
		if (one === undefined) return [];
		return [{ value: one.value, levels: groups.length === 1 ? "all" : same.map(({ level }) => level) }];
	});
}

/** Whether a coach has to be looking: said, or where hands are needed. */
export function isWatched(drill: Pick<LinkedDrill, "watch" | "spotters">): boolean {
	return drill.watch ?? (drill.spotters ?? 0) > 0;
}
