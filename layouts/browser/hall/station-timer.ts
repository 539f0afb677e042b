/**
 * The timer of a stations block. Its course (stations, seconds of work and of change) stands on its
 * element; the moment it was started is remembered on the device, so that it keeps right time while
 * the page is hidden, left for a drill, or thrown out of memory. One runs at a time.
 */

import { hall, timer } from "../../../scripts/words/en.ts";
import { keep, recall } from "./device-memory.ts";
import { beep, CAN_VIBRATE, keepScreenOn, readySound, vibrate } from "./screen-and-signal.ts";
import {
	countdown,
	courseOf,
	elapsedOf,
	NOT_STARTED,
	paused,
	type Run,
	type Stretch,
	skipped,
	started,
	stretchAt,
} from "./station-clock.ts";

const RUN = "handbook-timer";
const SOUND = "handbook-timer-sound";
const VIBRATION = "handbook-timer-vibration";
/** A timer that ended longer ago than this is a new one when its page is opened again. */
const STALE_MS = 30 * 60_000;
const LOOK_MS = 200;

/** Every timer of the page: one that starts stops the others. */
const timers: { readonly element: HTMLElement; stop(): void }[] = [];

/** Brings a timer to life. */
export function startStationTimer(element: HTMLElement): void {
	const part = <E extends HTMLElement>(name: string): E => {
		const found = element.querySelector<E>(`.timer-${name}`);
		if (found === null) throw new Error(`A station timer without its .timer-${name}.`);
		return found;
	};
	const stations = Number(element.dataset.stations);
	const course = courseOf(stations, Number(element.dataset.work), Number(element.dataset.change));
	const length = course.at(-1)?.until ?? 0;
	const words = part("words");
	const clock = part("clock");
	const status = part("status");
	const go = part<HTMLButtonElement>("go");
	const skip = part<HTMLButtonElement>("skip");
	const reset = part<HTMLButtonElement>("reset");

	const place = `${location.pathname}#${element.id}`;
	let run = restore(place, length);
	let look: ReturnType<typeof setInterval> | undefined;
	/** Where the clock stood when it was last looked at, to tell a change. */
	let seen = stretchAt(course, elapsedOf(run, Date.now()));

	const set = (next: Run) => {
		run = next;
		const pristine = run.since === undefined && run.before === 0;
		keep(RUN, pristine ? undefined : JSON.stringify({ place, ...run }));
		show();
	};

	function show(): void {
		const now = Date.now();
		const elapsed = elapsedOf(run, now);
		const here = stretchAt(course, elapsed);
		if (here === undefined && run.since !== undefined) run = paused(run, now);
		const running = run.since !== undefined;
		setText(words, here === undefined ? timer.done(stations) : wordsOf(here, stations));
		setText(clock, here === undefined ? "" : countdown(here.until - elapsed));
		setText(go, goWords(running, elapsed, here));
		element.classList.toggle("changing", here?.kind === "change");
		// Never disabled: a key that is must let go of the keyboard.
		skip.setAttribute("aria-disabled", String(here === undefined));
		if (running === (look !== undefined)) return;
		if (look === undefined) look = setInterval(tick, LOOK_MS);
		else {
			clearInterval(look);
			look = undefined;
		}
		element.classList.toggle("running", running);
		keepScreenOn(timers.some((timer) => timer.element.classList.contains("running")));
	}

	/** Says and signals what has changed since the last look; however many changes were missed, once. */
	function tick(): void {
		const here = stretchAt(course, elapsedOf(run, Date.now()));
		if (here !== seen) {
			seen = here;
			say(here);
			const times = here === undefined ? 3 : here.kind === "change" ? 2 : 1;
			if (chosen.get(SOUND)?.on) beep(times);
			if (chosen.get(VIBRATION)?.on) vibrate(times);
		}
		show();
	}

	function say(here: Stretch | undefined): void {
		status.textContent =
			here === undefined
				? timer.doneSaid(stations)
				: here.kind === "change"
					? timer.changeSaid(here.station, stations)
					: timer.stationSaid(here.station, stations);
	}

	const stop = () => {
		if (run.since === undefined) return;
		run = paused(run, Date.now());
		show();
	};
	timers.push({ element, stop });

	go.addEventListener("click", () => {
		const now = Date.now();
		if (run.since !== undefined) {
			set(paused(run, now));
			status.textContent = timer.paused;
			return;
		}
		for (const timer of timers) if (timer.element !== element) timer.stop();
		if (chosen.get(SOUND)?.on) readySound();
		if (stretchAt(course, elapsedOf(run, now)) === undefined) run = NOT_STARTED;
		seen = stretchAt(course, elapsedOf(run, now));
		say(seen);
		set(started(run, now));
	});
	skip.addEventListener("click", () => {
		set(skipped(run, course, Date.now()));
		seen = stretchAt(course, elapsedOf(run, Date.now()));
		say(seen);
	});
	reset.addEventListener("click", () => {
		set(NOT_STARTED);
		seen = course[0];
		status.textContent = timer.setBack;
	});
	choice(part<HTMLButtonElement>("sound"), SOUND, () => {
		readySound();
		beep(1);
	});
	if (CAN_VIBRATE) choice(part<HTMLButtonElement>("vibration"), VIBRATION, () => vibrate(1));
	else part("vibration").hidden = true;

	document.addEventListener("visibilitychange", () => {
		if (document.visibilityState === "visible" && run.since !== undefined) tick();
	});
	element.hidden = false;
	show();
}

function goWords(running: boolean, elapsed: number, here: Stretch | undefined): string {
	if (running) return timer.pause;
	if (here === undefined) return timer.startAgain;
	return elapsed > 0 ? timer.goOn : hall.start;
}

function wordsOf({ kind, station }: Stretch, stations: number): string {
	if (kind === "change") return timer.change(station, stations);
	return station === stations ? timer.lastStation(station, stations) : timer.station(station, stations);
}

/** What is chosen of the signals; the same for every timer. */
const chosen = new Map<string, { on: boolean; readonly buttons: HTMLButtonElement[] }>();

/** A signal that is switched on and off, and remembered. */
function choice(button: HTMLButtonElement, key: string, tried: () => void): void {
	const state = chosen.get(key) ?? { on: recall(key) === "on", buttons: [] };
	chosen.set(key, state);
	state.buttons.push(button);
	button.setAttribute("aria-pressed", String(state.on));
	button.addEventListener("click", () => {
		state.on = !state.on;
		keep(key, state.on ? "on" : undefined);
		for (const other of state.buttons) other.setAttribute("aria-pressed", String(state.on));
		if (state.on) tried();
	});
}

function setText(element: HTMLElement, text: string): void {
	if (element.textContent !== text) element.textContent = text;
}

/** The run of a timer that was going, or standing, when its page was left. */
function restore(place: string, length: number): Run {
	const kept = recall(RUN);
	if (kept === undefined) return NOT_STARTED;
	try {
		const run: unknown = JSON.parse(kept);
		if (typeof run !== "object" || run === null || !("place" in run) || run.place !== place)
			return NOT_STARTED;
		const before = "before" in run && typeof run.before === "number" ? run.before : 0;
		const since = "since" in run && typeof run.since === "number" ? run.since : undefined;
		const restored = { before, since };
		return elapsedOf(restored, Date.now()) > length + STALE_MS ? NOT_STARTED : restored;
	} catch {
		return NOT_STARTED;
	}
}
