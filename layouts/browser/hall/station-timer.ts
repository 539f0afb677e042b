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
const timers: StationTimer[] = [];

/** Brings a timer to life. */
export function startStationTimer(element: HTMLElement): void {
	timers.push(new StationTimer(element));
}

class StationTimer {
	readonly #element: HTMLElement;
	readonly #stations: number;
	readonly #course: readonly Stretch[];
	readonly #place: string;
	#run: Run;
	#look: ReturnType<typeof setInterval> | undefined;
	/** Where the clock stood when it was last looked at, to tell a change. */
	#seen: Stretch | undefined;

	constructor(element: HTMLElement) {
		const { stations, work, change } = element.dataset;
		this.#element = element;
		element.append(...timerParts());
		this.#stations = Number(stations);
		this.#course = courseOf(this.#stations, Number(work), Number(change));
		this.#place = `${location.pathname}#${element.id}`;
		this.#run = restore(this.#place, this.#course.at(-1)?.until ?? 0);
		this.#seen = this.#here();
		this.#part("go").addEventListener("click", () => this.#goOrPause());
		this.#part("skip").addEventListener("click", () => {
			this.#set(skipped(this.#run, this.#course, Date.now()));
			this.#seen = this.#here();
			this.#say();
		});
		this.#part("reset").addEventListener("click", () => {
			this.#set(NOT_STARTED);
			this.#seen = this.#course[0];
			this.#part("status").textContent = timer.setBack;
		});
		choice(this.#part<HTMLButtonElement>("sound"), SOUND, () => {
			readySound();
			beep(1);
		});
		if (CAN_VIBRATE) choice(this.#part<HTMLButtonElement>("vibration"), VIBRATION, () => vibrate(1));
		else this.#part("vibration").hidden = true;
		document.addEventListener("visibilitychange", () => {
			if (document.visibilityState === "visible" && this.running) this.#tick();
		});
		element.hidden = false;
		this.#show();
	}

	get running(): boolean {
		return this.#run.since !== undefined;
	}

	stop(): void {
		if (!this.running) return;
		this.#run = paused(this.#run, Date.now());
		this.#show();
	}

	#part<E extends HTMLElement>(name: string): E {
		const found = this.#element.querySelector<E>(`.timer-${name}`);
		if (found === null) throw new Error(`A station timer without its .timer-${name}.`);
		return found;
	}

	#here(now = Date.now()): Stretch | undefined {
		return stretchAt(this.#course, elapsedOf(this.#run, now));
	}

	#set(next: Run): void {
		this.#run = next;
		const pristine = next.since === undefined && next.before === 0;
		keep(RUN, pristine ? undefined : JSON.stringify({ place: this.#place, ...next }));
		this.#show();
	}

	#goOrPause(): void {
		const now = Date.now();
		if (this.running) {
			this.#set(paused(this.#run, now));
			this.#part("status").textContent = timer.paused;
			return;
		}
		for (const one of timers) if (one !== this) one.stop();
		if (chosen.get(SOUND)?.on) readySound();
		if (this.#here(now) === undefined) this.#run = NOT_STARTED;
		this.#seen = this.#here(now);
		this.#say();
		this.#set(started(this.#run, now));
	}

	#show(): void {
		const now = Date.now();
		const elapsed = elapsedOf(this.#run, now);
		const here = stretchAt(this.#course, elapsed);
		if (here === undefined && this.running) this.#run = paused(this.#run, now);
		const { running } = this;
		setText(
			this.#part("words"),
			here === undefined ? timer.done(this.#stations) : wordsOf(here, this.#stations),
		);
		setText(this.#part("clock"), here === undefined ? "" : countdown(here.until - elapsed));
		setText(this.#part("go"), goWords(running, elapsed, here));
		this.#element.classList.toggle("changing", here?.kind === "change");
		// Never disabled: a key that is must let go of the keyboard.
		this.#part("skip").setAttribute("aria-disabled", String(here === undefined));
		if (running === (this.#look !== undefined)) return;
		if (this.#look === undefined) this.#look = setInterval(() => this.#tick(), LOOK_MS);
		else {
			clearInterval(this.#look);
			this.#look = undefined;
		}
		this.#element.classList.toggle("running", running);
		keepScreenOn(running || timers.some((one) => one.running));
	}

	/** Says and signals what has changed since the last look; however many changes were missed, once. */
	#tick(): void {
		const here = this.#here();
		if (here !== this.#seen) {
			this.#seen = here;
			this.#say();
			const times = here === undefined ? 3 : here.kind === "change" ? 2 : 1;
			if (chosen.get(SOUND)?.on) beep(times);
			if (chosen.get(VIBRATION)?.on) vibrate(times);
		}
		this.#show();
	}

	/** Where it is, for those who do not see it. */
	#say(): void {
		const here = this.#seen;
		this.#part("status").textContent =
			here === undefined
				? timer.doneSaid(this.#stations)
				: here.kind === "change"
					? timer.changeSaid(here.station, this.#stations)
					: timer.stationSaid(here.station, this.#stations);
	}
}

/** Its face, its keys, and where it says what changed: made here, as without a program there is nothing to press. */
function timerParts(): readonly HTMLElement[] {
	const part = <K extends keyof HTMLElementTagNameMap>(tag: K, name: string, text = "") => {
		const made = document.createElement(tag);
		made.className = `timer-${name}`;
		made.textContent = text;
		return made;
	};
	const { start: go, skip, reset, sound, buzz: vibration } = hall;
	const [face, keys, status] = [part("p", "face"), part("div", "keys"), part("p", "status")];
	face.append(part("span", "words"), " ", part("span", "clock"));
	for (const [name, text] of Object.entries({ go, skip, reset, sound, vibration })) {
		const key = part("button", name, text);
		key.type = "button";
		keys.append(key);
	}
	status.classList.add("sr");
	status.role = "status";
	return [face, keys, status];
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
