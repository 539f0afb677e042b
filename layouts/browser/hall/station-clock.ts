/**
 * The course of a stations block as a clock sees it: work at a station, a change, work at the next.
 * Pure: moments in milliseconds are passed in, so that the same rules hold however late a page looks.
 */

/** A stretch of the block. Times are milliseconds from the block's start. */
export interface Stretch {
	readonly kind: "work" | "change";
	/** The station being worked at, or changed to, counted from 1. */
	readonly station: number;
	readonly from: number;
	readonly until: number;
}

/** Seconds at each station and at each change; changes of no length are left out. */
export function courseOf(stations: number, work: number, change: number): readonly Stretch[] {
	const course: Stretch[] = [];
	let at = 0;
	const add = (kind: Stretch["kind"], station: number, seconds: number) => {
		if (seconds <= 0) return;
		const until = at + seconds * 1000;
		course.push({ kind, station, from: at, until });
		at = until;
	};
	for (let station = 1; station <= stations; station++) {
		if (station > 1) add("change", station, change);
		add("work", station, work);
	}
	return course;
}

/** The stretch in which a time since the start falls; undefined once all is done. */
export function stretchAt(course: readonly Stretch[], elapsed: number): Stretch | undefined {
	return course.find(({ until }) => elapsed < until);
}

/** A run of the clock: what ran before the last pause, and since when it runs; undefined while it stands. */
export interface Run {
	readonly before: number;
	readonly since: number | undefined;
}

export const NOT_STARTED: Run = { before: 0, since: undefined };

/** Milliseconds run so far. A device clock that was set back does not take any away. */
export function elapsedOf(run: Run, now: number): number {
	return run.before + (run.since === undefined ? 0 : Math.max(0, now - run.since));
}

export function started(run: Run, now: number): Run {
	return run.since === undefined ? { before: run.before, since: now } : run;
}

export function paused(run: Run, now: number): Run {
	return { before: elapsedOf(run, now), since: undefined };
}

/** To the start of the next stretch, running or standing as before; past the last, to the end. */
export function skipped(run: Run, course: readonly Stretch[], now: number): Run {
	const here = stretchAt(course, elapsedOf(run, now));
	if (here === undefined) return run;
	return { before: here.until, since: run.since === undefined ? undefined : now };
}

/** "3:10": what is left, to the second begun, so that 0:00 is the end and nothing before it. */
export function countdown(milliseconds: number): string {
	const seconds = Math.max(0, Math.ceil(milliseconds / 1000));
	return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
