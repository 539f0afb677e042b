/** Times of day and minutes since midnight. */

/** Minutes since midnight of "HH:MM". */
export function minuteOf(clock: string): number {
	const [hours = 0, minutes = 0] = clock.split(":").map(Number);
	return hours * 60 + minutes;
}

/** "HH:MM" of minutes since midnight, to the minute begun. */
export function clockOf(minute: number): string {
	const whole = Math.floor(minute);
	const pad = (n: number): string => String(n).padStart(2, "0");
	return `${pad(Math.floor(whole / 60) % 24)}:${pad(whole % 60)}`;
}
