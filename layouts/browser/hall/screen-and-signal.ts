/**
 * Keeps the screen on while something runs, and signals a change by sound and by vibration. Each does
 * nothing where the device cannot, or where the coach has not asked for it.
 */

let lock: WakeLockSentinel | undefined;
let wanted = false;

/** Keeps the screen on, or lets it sleep again. */
export function keepScreenOn(on: boolean): void {
	wanted = on;
	if (on) void request();
	else {
		void lock?.release();
		lock = undefined;
	}
}

async function request(): Promise<void> {
	if (!("wakeLock" in navigator) || lock !== undefined || document.visibilityState !== "visible") return;
	try {
		const got = await navigator.wakeLock.request("screen");
		// Two may have been asked for at once, or none be wanted any more.
		if (!wanted || lock !== undefined) {
			await got.release();
			return;
		}
		lock = got;
		got.addEventListener("release", () => {
			if (lock === got) lock = undefined;
		});
	} catch {
		// Battery saving, or a page that may not: the timer keeps right time all the same.
	}
}

// A screen that was left is let go by the browser; coming back asks again.
document.addEventListener("visibilitychange", () => {
	if (wanted) void request();
});

let audio: AudioContext | undefined;

/** Browsers play sound only after a tap: to be called in one. */
export function readySound(): void {
	try {
		audio ??= new AudioContext();
		void audio.resume();
	} catch {
		// No sound on this device.
	}
}

/** As many short tones as given. */
export function beep(times: number): void {
	if (audio === undefined || audio.state !== "running") return;
	for (let i = 0; i < times; i++) {
		const start = audio.currentTime + i * 0.35;
		const tone = audio.createOscillator();
		const volume = audio.createGain();
		tone.frequency.value = 880;
		// Soft edges: a tone cut off clicks.
		volume.gain.setValueAtTime(0, start);
		volume.gain.linearRampToValueAtTime(0.6, start + 0.02);
		volume.gain.setValueAtTime(0.6, start + 0.2);
		volume.gain.linearRampToValueAtTime(0, start + 0.25);
		tone.connect(volume).connect(audio.destination);
		tone.start(start);
		tone.stop(start + 0.26);
	}
}

export const CAN_VIBRATE = "vibrate" in navigator;

/** As many short pulses as given. */
export function vibrate(times: number): void {
	if (CAN_VIBRATE)
		navigator.vibrate(Array.from({ length: times * 2 - 1 }, (_, i) => (i % 2 === 0 ? 300 : 150)));
}
