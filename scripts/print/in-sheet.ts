/**
 * Runs inside the browser's page, never in Node: fits a single sheet into its sides.
 *
 *   1. boxes of a fixed size get type as large as their content allows
 *   2. what flows is set in the first of the given ways that needs no more sides than it should
 *   3. sides get their number, and what stands outside its place is reported
 *
 * Nothing is ever hidden by an edge: what does not fit in the smallest way goes on to further sides.
 */

import type { SheetStep } from "./sheet-file.ts";

/** How a sheet came out. */
export interface FittedSheet {
	readonly sides: number;
	/** The step taken, and the smallest scale of a box. */
	readonly scale: number;
	readonly detail: number;
	/** It takes more sides than it should. */
	readonly over: boolean;
	/** Words that stand outside their place. */
	readonly spills: readonly string[];
}

declare global {
	interface Window {
		handbookSheets: {
			fit(markup: string, most: number, steps: readonly SheetStep[]): Promise<FittedSheet>;
		};
	}
}

/** A box's type shrinks in such steps, down to this share of its design. */
const BOX_STEP = 0.04;
const LEAST_BOX = 0.5;

async function fit(markup: string, most: number, steps: readonly SheetStep[]): Promise<FittedSheet> {
	await Promise.all(Array.from(document.fonts, (font) => font.load()));
	await document.fonts.ready;
	document.body.innerHTML = markup;
	const piece = document.querySelector<HTMLElement>(".piece");
	if (piece === null) throw new Error("a sheet without a piece");
	// What is in a drawing has no say in where things go, and costs most of the time of every try.
	const drawings = Array.from(piece.querySelectorAll("svg"), (svg) => ({
		svg,
		parts: [...svg.childNodes],
	}));
	for (const { svg } of drawings) svg.replaceChildren();
	const boxes = Array.from(piece.querySelectorAll<HTMLElement>(".box"), fitBox);
	const poured = piece.querySelector(".pour") === null ? undefined : pour(piece, most, steps);
	for (const { svg, parts } of drawings) svg.replaceChildren(...parts);
	piece.querySelector("template")?.remove();
	const sides = Array.from(piece.querySelectorAll<HTMLElement>(".side"));
	sides.forEach((side, i) => {
		side.classList.add(i % 2 === 0 ? "front" : "back");
		for (const of of side.querySelectorAll(".of")) of.textContent = `${i + 1} / ${sides.length}`;
	});
	return {
		sides: sides.length,
		scale: Math.min(poured?.step.scale ?? 1, ...boxes),
		detail: poured?.step.detail ?? 3,
		over: poured?.over ?? false,
		spills: sides.flatMap(spillsOf),
	};
}

/** Gives a box the largest type, up to its design, at which nothing is cut; returns its scale. */
function fitBox(box: HTMLElement): number {
	let scale = 1;
	while (scale > LEAST_BOX && isOverfull(box)) {
		scale = Math.round((scale - BOX_STEP) * 100) / 100;
		box.style.setProperty("--k", String(scale));
	}
	return scale;
}

function isOverfull(box: Element): boolean {
	return box.scrollHeight > box.clientHeight + 1 || box.scrollWidth > box.clientWidth + 1;
}

/** Pours in the first step that fits; steps get tighter one after the other, so half of them are skipped at a time. */
function pour(
	piece: HTMLElement,
	most: number,
	steps: readonly SheetStep[],
): { readonly step: SheetStep; readonly over: boolean } {
	const items = Array.from(piece.querySelectorAll(".pour > *"));
	let low = 0;
	let high = steps.length - 1;
	while (low < high) {
		const middle = Math.floor((low + high) / 2);
		const step = steps[middle];
		if (step !== undefined && pourOnce(piece, items, step, most) <= most) high = middle;
		else low = middle + 1;
	}
	const step = steps[low];
	if (step === undefined) throw new Error("a sheet without a way to set it");
	const sides = pourOnce(piece, items, step, Number.POSITIVE_INFINITY);
	return { step, over: sides > most };
}

/** Sets all items, on further sides as needed; stops after one side too many. Returns the sides. */
function pourOnce(piece: HTMLElement, items: readonly Element[], step: SheetStep, most: number): number {
	piece.style.setProperty("--k", String(step.scale));
	// A style for some detail holds for less as well: 1 is "1 2", and full detail is nothing.
	piece.dataset.detail = [0, 1, 2].filter((detail) => detail >= step.detail).join(" ");
	const [first, ...others] = piece.querySelectorAll(".side");
	for (const other of others) other.remove();
	let side = first;
	let rest = items;
	let sides = 1;
	while (side !== undefined) {
		const place: Element | null = side.querySelector(".pour");
		if (place === null) throw new Error("a side without a place to pour into");
		place.replaceChildren(...rest);
		const cut = firstOutside(place, rest);
		if (cut === rest.length) return sides;
		// An item that is taller than a side fits nowhere; in the last way it stays, and is reported.
		if (cut === 0 && Number.isFinite(most)) return most + 1;
		rest = rest.slice(Math.max(1, cut));
		if (rest.length === 0) return sides;
		sides++;
		if (sides > most) return sides;
		const template = piece.querySelector("template");
		const next = template?.content.firstElementChild?.cloneNode(true);
		if (!(next instanceof Element)) throw new Error("a sheet that goes on, without a next side");
		side.after(next);
		side = next;
	}
	return sides;
}

/** The position of the first item that does not stand wholly in the place, or their number. */
function firstOutside(place: Element, items: readonly Element[]): number {
	const edge = place.getBoundingClientRect();
	const found = items.findIndex((item) =>
		Array.from(item.getClientRects()).some(
			({ right, bottom }) => right > edge.right + 1 || bottom > edge.bottom + 1,
		),
	);
	return found < 0 ? items.length : found;
}

/** Words that stand outside the area or the box they belong to. */
function spillsOf(side: HTMLElement): readonly string[] {
	const spills: string[] = [];
	for (const place of side.querySelectorAll(".area, .box")) {
		const edge = place.getBoundingClientRect();
		if (place.scrollWidth > place.clientWidth + 1) spills.push(wordsIn(place));
		for (const element of place.querySelectorAll("*")) {
			if (element.parentElement?.closest("svg")) continue;
			for (const { left, right, top, bottom, width, height } of element.getClientRects()) {
				if (width === 0 || height === 0) continue;
				if (
					left < edge.left - 1 ||
					right > edge.right + 1 ||
					top < edge.top - 2 ||
					bottom > edge.bottom + 3
				) {
					spills.push(wordsIn(element));
					break;
				}
			}
		}
	}
	return [...new Set(spills)];
}

function wordsIn(element: Element): string {
	return (element.textContent ?? "").trim().slice(0, 60);
}

window.handbookSheets = { fit };
