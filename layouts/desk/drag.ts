/**
 * Dragging by mouse, finger or pen, by pointer events alone: one way for all three. A block is taken by its
 * whole card with a mouse, and by its handle with a finger, so that a finger elsewhere scrolls.
 *
 * Steps: after a few pixels the card is carried; what stands under the pointer says where it would be put;
 * near an edge the board scrolls; letting go puts it down, Escape leaves it where it was.
 */

import type { Carried, Spot } from "./plan.ts";

/** Pixels before a press is a drag. */
const FAR = 6;
/** Pixels from an edge within which the board scrolls, and how far at once. */
const EDGE = 60;
const STEP = 14;

export interface Dragging {
	readonly onStart: (carried: Carried) => void;
	readonly onOver: (spot: Spot | undefined) => void;
	/** @param spot where it is put; undefined where it is left */
	readonly onEnd: (spot: Spot | undefined, copy: boolean) => void;
}

/** Begins to watch a press on something that can be carried. */
export function startDrag(event: PointerEvent, carried: Carried, dragging: Dragging): void {
	if (event.button !== 0 || !event.isPrimary) return;
	const target = event.currentTarget as HTMLElement;
	const onHandle = (event.target as HTMLElement).closest("[data-handle]") !== null;
	if (event.pointerType !== "mouse" && !onHandle) return;
	const card = target.closest<HTMLElement>("[data-card]") ?? target;
	const [x, y] = [event.clientX, event.clientY];
	const listening = new AbortController();
	const { signal } = listening;
	let ghost: HTMLElement | undefined;
	let spot: Spot | undefined;
	let timer = 0;
	let last = event;
	const move = (now: PointerEvent): void => {
		last = now;
		if (ghost === undefined) {
			if (Math.hypot(now.clientX - x, now.clientY - y) < FAR) return;
			ghost = ghostOf(card);
			dragging.onStart(carried);
			timer = window.setInterval(scroll, 30);
		}
		now.preventDefault();
		ghost.style.transform = `translate(${now.clientX + 8}px, ${now.clientY + 8}px)`;
		look();
	};
	const look = (): void => {
		const next = spotUnder(last.clientX, last.clientY, carried);
		if (JSON.stringify(next) === JSON.stringify(spot)) return;
		spot = next;
		dragging.onOver(spot);
	};
	const scroll = (): void => {
		const board = document.querySelector<HTMLElement>(".board-scroll");
		if (board === null) return;
		const box = board.getBoundingClientRect();
		const by = (at: number, from: number, to: number): number =>
			at < from + EDGE ? -STEP : at > to - EDGE ? STEP : 0;
		board.scrollBy(by(last.clientX, box.left, box.right), by(last.clientY, box.top, box.bottom));
		look();
	};
	const end = (isDone: boolean, copy: boolean): void => {
		listening.abort();
		window.clearInterval(timer);
		if (ghost === undefined) return;
		ghost.remove();
		// The click that follows is none.
		window.addEventListener("click", stop, { capture: true, once: true });
		window.setTimeout(() => window.removeEventListener("click", stop, true), 50);
		dragging.onEnd(isDone ? spot : undefined, copy);
	};
	const up = (now: PointerEvent): void => end(true, now.ctrlKey || now.altKey || now.metaKey);
	const cancel = (): void => end(false, false);
	const key = (pressed: KeyboardEvent): void => {
		if (pressed.key !== "Escape" || ghost === undefined) return;
		pressed.preventDefault();
		pressed.stopPropagation();
		end(false, false);
	};
	window.addEventListener("pointermove", move, { passive: false, signal });
	window.addEventListener("pointerup", up, { signal });
	window.addEventListener("pointercancel", cancel, { signal });
	window.addEventListener("keydown", key, { capture: true, signal });
}

function stop(event: Event): void {
	event.preventDefault();
	event.stopPropagation();
}

function ghostOf(card: HTMLElement): HTMLElement {
	const ghost = card.cloneNode(true) as HTMLElement;
	ghost.className = `${card.className} ghost`;
	ghost.setAttribute("aria-hidden", "true");
	ghost.inert = true;
	ghost.style.width = `${Math.min(card.offsetWidth, 260)}px`;
	for (const inner of ghost.querySelectorAll("[id]")) inner.removeAttribute("id");
	document.body.append(ghost);
	return ghost;
}

/** The place in the list of the cell under a point: before the first card whose middle is below it. */
function spotUnder(x: number, y: number, carried: Carried): Spot | undefined {
	const cell = document
		.elementsFromPoint(x, y)
		.map((element) => element.closest<HTMLElement>("[data-cell]"))
		.find((one) => one !== null && one !== undefined);
	const [, week, area] = /^(\d+)\/(.+)$/.exec(cell?.dataset.cell ?? "") ?? [];
	if (cell === undefined || cell === null || week === undefined || area === undefined) return undefined;
	const own = "from" in carried && !carried.copy ? carried.from : "";
	const cards = [...cell.querySelectorAll<HTMLElement>("[data-card]")].filter(
		(card) => card.dataset.card !== own,
	);
	const before = cards.findIndex((card) => {
		const { top, height } = card.getBoundingClientRect();
		return y < top + height / 2;
	});
	// Cards that the chosen level or class does not do are not shown, and keep their numbers.
	const shown = before < 0 ? undefined : cards[before];
	const last = cards.at(-1);
	const numberOf = (card: HTMLElement): number => {
		const number = Number(card.dataset.card?.split("/")[2]);
		const isBehindOwn = own.startsWith(`${week}/${area}/`) && number > Number(own.split("/")[2]);
		return isBehindOwn ? number - 1 : number;
	};
	const number = shown !== undefined ? numberOf(shown) : last !== undefined ? numberOf(last) + 1 : 1;
	return { week: Number(week), area, number };
}
