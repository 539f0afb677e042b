/** A change of the plan as a sentence, in the handbook's language. */

import type { Id, PlanChange } from "../model.ts";
import type { DeskPlan } from "./desk.ts";

export function changeWords(
	{ curriculum: { drills, apparatus }, words }: Pick<DeskPlan, "curriculum" | "words">,
	change: PlanChange,
): string {
	const say = words.desk.changes;
	const title = (id: Id | null | undefined): string => drills.get(id ?? "")?.title ?? id ?? "";
	const place = (name: string): string => {
		const [week = "", on = "", number = ""] = name.split("/");
		return say.place(Number(week), apparatus.get(on)?.name ?? on, Number(number));
	};
	if ("swap" in change)
		return say.swap(place(change.swap.block), title(change.swap.drill), change.swap.station);
	if ("exchange" in change) {
		const [one, other] = change.exchange;
		return typeof one === "number" || typeof other === "number"
			? words.desk.weeksSwapped(Number(one), Number(other))
			: say.exchange(place(one), place(other));
	}
	if ("move" in change) return say.move(place(change.move.from), place(change.move.to));
	if ("split" in change)
		return say.split(place(change.split.block), change.split.after, change.split.minutes);
	if ("remove" in change) return say.remove(place(change.remove));
	if ("set" in change) {
		const { block, minutes } = change.set;
		return typeof minutes === "number" ? say.minutes(place(block), minutes) : say.set(place(block));
	}
	const { week, apparatus: on, block } = change.add;
	const drill = block.drill ?? block.stations?.[0]?.drill ?? block.options?.[0]?.drill;
	return say.add(title(drill), block.minutes ?? 0, week, apparatus.get(on)?.name ?? on);
}
