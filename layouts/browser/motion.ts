/**
 * Moves a drill's figure through its phases, in one place, when somebody asks for it.
 *
 * Still until then. The poses between the phases are worked out here, by the functions that drew the
 * strip; only attributes of the parts in the page are set. Who wants less motion gets the phases one
 * after the other, with nothing between them.
 */

import { bodyParts } from "../../scripts/figures/draw-body.ts";
import { drawStage, playerOf, scoreFrom } from "../../scripts/figures/stage.ts";
import { figures } from "../../scripts/words/en.ts";

/** Milliseconds a phase is held, and from one phase to the next. */
const HOLD = 650;
const MOVE = 900;
/** The same where less motion is wanted: phases alone. */
const STILL_HOLD = 1600;

const lessMotion = matchMedia("(prefers-reduced-motion: reduce)");

for (const place of document.querySelectorAll<HTMLElement>("[data-motion]")) setUp(place);

function setUp(place: HTMLElement): void {
	const button = place.querySelector("button");
	const stage = place.querySelector<HTMLElement>(".stage");
	const label = button?.querySelector("span");
	if (!button || !stage || !label) return;
	const score = scoreFrom(place.dataset.motion ?? "");
	const play = playerOf(score);
	stage.append(pictureFrom(drawStage(score)));
	const phases = [...stage.querySelectorAll(".figure-phase")];
	const parts = [...stage.querySelectorAll(".figure-moving path")];
	if (phases.length < 2) return;

	const show = (phase: number, share: number): void => {
		const pose = play(phase, share);
		if (pose === undefined) return;
		const { farLeg, farArm, trunk, leg, legRoot, arm, armRoot, head, eyes } = bodyParts(pose, 0);
		for (const [i, d] of [farLeg, farArm, trunk, leg, legRoot, arm, armRoot, head, eyes].entries())
			parts[i]?.setAttribute("d", d);
		const near = share < 0.5 ? phase : phase + 1;
		for (const [i, ground] of phases.entries()) {
			if (i === near) ground.removeAttribute("display");
			else ground.setAttribute("display", "none");
		}
	};

	let frame = 0;
	let started = 0;
	const tick = (now: number): void => {
		const still = lessMotion.matches;
		const step = still ? STILL_HOLD : HOLD + MOVE;
		const at = (now - started) / step;
		const phase = Math.floor(at) % phases.length;
		const since = (at - Math.floor(at)) * step - HOLD;
		// From the last phase the body begins again, without a way back that nobody does.
		const last = phase === phases.length - 1;
		show(phase, still || last || since < 0 ? 0 : eased(since / MOVE));
		frame = requestAnimationFrame(tick);
	};

	const stop = (): void => {
		cancelAnimationFrame(frame);
		frame = 0;
		stage.hidden = true;
		label.textContent = figures.move;
	};
	button.addEventListener("click", () => {
		if (frame !== 0) {
			stop();
			return;
		}
		stage.hidden = false;
		label.textContent = figures.stop;
		started = performance.now();
		frame = requestAnimationFrame(tick);
	});
	addEventListener("pagehide", stop);
	button.hidden = false;
}

/** A picture of our own drawing as a part of the page. */
function pictureFrom(svg: string): Node {
	const { trustedTypes } = globalThis as { readonly trustedTypes?: TrustedTypes };
	const rules = { createHTML: (text: string) => text };
	const text = trustedTypes?.createPolicy("handbook-stage", rules).createHTML(svg) ?? svg;
	return document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true);
}

/** The compiler's own list has it in no version that we build for. */
interface TrustedTypes {
	createPolicy(
		name: string,
		rules: { createHTML(text: string): string },
	): { createHTML(text: string): string };
}

/** Slow at both ends: a share of the time → a share of the way. */
function eased(share: number): number {
	return share * share * (3 - 2 * share);
}
