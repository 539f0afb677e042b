/**
 * Doses and times of day as words a coach reads.
 */

import type { Dose, Drill } from "../model.ts";
import type { Words } from "../words/words.ts";

/** A level's dose, each factor from the drill where the level says nothing; empty with neither. */
export function doseWords(
	{ counts, drill: say }: Pick<Words, "counts" | "drill">,
	drill: Pick<Drill, "sets" | "reps" | "hold">,
	dose: Dose,
): string {
	const sets = dose.sets ?? drill.sets;
	const reps = dose.reps ?? drill.reps;
	const hold = dose.hold ?? drill.hold;
	const amount =
		sets !== undefined && reps !== undefined
			? `${sets} × ${reps}`
			: reps !== undefined
				? counts.times(reps)
				: sets !== undefined
					? counts.sets(sets)
					: "";
	const held = hold === undefined || hold === 0 ? "" : say.hold(hold);
	return [amount, held].filter((part) => part !== "").join(", ");
}

/** Minutes after midnight of "HH:MM"; undefined for no time. */
export function minutesOfDay(clock: string | undefined): number | undefined {
	const found = /^(\d{1,2}):(\d{2})$/.exec(clock ?? "");
	return found === null ? undefined : Number(found[1]) * 60 + Number(found[2]);
}

/** "16:05" for minutes after midnight, to the nearest minute, past midnight from 00:00 again. */
export function clockWords(minutes: number): string {
	const whole = ((Math.round(minutes) % 1440) + 1440) % 1440;
	return `${String(Math.floor(whole / 60)).padStart(2, "0")}:${String(whole % 60).padStart(2, "0")}`;
}

/** The first letter as a capital. */
export function capital(words: string): string {
	return words.charAt(0).toUpperCase() + words.slice(1);
}
