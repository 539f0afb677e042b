/**
 * Numbers, doses, dates and times of day as words a coach reads.
 */

import type { Dose, Drill, Weekday } from "../../model.ts";
import type { Words } from "../../words/words.ts";

/** Minutes, seconds or counts with at most one decimal: 4, 4.5, 0.3. */
export function shortNumber(value: number): string {
	const tenths = Math.round(value * 10) / 10;
	return String(Object.is(tenths, -0) ? 0 : tenths);
}

/** "3 drills", "1 drill". */
export function counted(count: number, one: string, many = `${one}s`): string {
	return `${count} ${count === 1 ? one : many}`;
}

/** "a", "a and b", "a, b and c". */
export function joined(words: readonly string[]): string {
	if (words.length < 2) return words[0] ?? "";
	return `${words.slice(0, -1).join(", ")} and ${words.at(-1) ?? ""}`;
}

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

/** "Monday" for "monday". */
export function dayName(day: Weekday): string {
	return capital(day);
}

/** The first letter as a capital. */
export function capital(words: string): string {
	return words.charAt(0).toUpperCase() + words.slice(1);
}

const formats = new Map<string, Intl.DateTimeFormat>();
/** Formatting is dear, and a term's dates come up on every page. */
const written = new Map<string, string>();

/** An ISO 8601 date in the club's language: "4 Jan" (short) or "Monday 4 January 2027" (full). */
export function dateWords(iso: string, language: string, length: "short" | "full" = "short"): string {
	const key = `${language} ${length}`;
	const known = written.get(`${key} ${iso}`);
	if (known !== undefined) return known;
	let format = formats.get(key);
	if (format === undefined) {
		// Without a country, English would put the month first.
		const locale = language === "en" ? "en-GB" : language;
		format = new Intl.DateTimeFormat(locale, {
			timeZone: "UTC",
			day: "numeric",
			...(length === "short" ? { month: "short" } : { weekday: "long", month: "long", year: "numeric" }),
		});
		formats.set(key, format);
	}
	const words = format.format(new Date(`${iso}T00:00:00Z`));
	written.set(`${key} ${iso}`, words);
	return words;
}
