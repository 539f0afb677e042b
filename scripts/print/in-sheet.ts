/**
 * Runs inside the browser's page, never in Node: fits a single sheet into its sides.
 *
 *   1. boxes of a fixed size get type as large as their content allows; one that is too full at the
 *      smallest shows less, and then gets a side of its own
 *   2. what flows is set in the first of the given ways that needs no more sides than it should; where
 *      none does, it goes on to further sides, and whole leaves are filled in the largest type they hold
 *   3. letters of drawings get the size that letters have
 *   4. sides get their number, and what stands outside its place is reported
 *
 * Nothing is ever hidden by an edge, and no type is smaller than the style sheet's least.
 */

import type { SheetStep } from "../../layouts/sheets/sheet-file.ts";
import type { Stamp } from "./stamps.ts";

/** What a piece wants; see `SheetPiece`. */
export interface FitWish {
	readonly most: number;
	readonly leaves: boolean;
	readonly steps: readonly SheetStep[];
	/** Two sides to a page. */
	readonly twoUp: boolean;
}

/** How a sheet came out. */
export interface FittedSheet {
	/** Pages: one for each side, or for two. */
	readonly sides: number;
	/** Where on each page the edition is laid over it. */
	readonly stamps: readonly Stamp[];
	/** It takes more sides than it should. */
	readonly over: boolean;
	/** What stands outside its place: words, or a drawing by its title. */
	readonly spills: readonly { readonly words: string; readonly drawing: boolean }[];
}

declare global {
	interface Window {
		handbookSheets: {
			fit(markup: string, wish: FitWish): Promise<FittedSheet>;
		};
	}
}

/** A box's type shrinks in such steps, down to this share of its design, and never below the style sheet's least. */
const BOX_STEP = 0.04;
const LEAST_BOX = 0.5;
/** A card is read from a step away. */
const LEAST_CARD = 0.7;

async function fit(markup: string, { most, leaves, steps, twoUp }: FitWish): Promise<FittedSheet> {
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
	for (const box of piece.querySelectorAll<HTMLElement>(".box")) fitBox(box);
	const designed = piece.querySelectorAll(".side").length;
	for (const box of piece.querySelectorAll<HTMLElement>(".cards > .box")) if (isOverfull(box)) giveSide(box);
	const poured = piece.querySelector(".pour") === null ? undefined : pour(piece, most, leaves, steps);
	for (const { svg, parts } of drawings) svg.replaceChildren(...parts);
	for (const { svg } of drawings) window.handbookLetters.enlarge(svg);
	piece.querySelector("template")?.remove();
	const sides = Array.from(piece.querySelectorAll<HTMLElement>(".side"));
	sides.forEach((side, i) => {
		side.classList.add(i % 2 === 0 ? "front" : "back");
		for (const of of side.querySelectorAll(".of")) of.textContent = `${i + 1} / ${sides.length}`;
	});
	const spills = sides.flatMap(spillsOf);
	const stamps = sides.map(stampOf).filter((_, i) => !twoUp || i % 2 === 0);
	const pages = twoUp ? spreadOut(piece, sides) : sides.length;
	return {
		sides: pages,
		stamps,
		over: poured?.over ?? sides.length > designed,
		spills,
	};
}

function stampOf(side: HTMLElement): Stamp {
	if (side.querySelector(".foot") !== null) return "foot";
	if (side.querySelector(".labels") !== null) return "labels";
	if (side.querySelector(".cards.alone") !== null) return "alone";
	if (side.querySelector(".cards") === null) return "none";
	return side.closest(".up-4") === null ? "up-2" : "up-4";
}

/** Puts two sides each beside each other; returns the pages. */
function spreadOut(piece: HTMLElement, sides: readonly HTMLElement[]): number {
	const pages: HTMLElement[] = [];
	for (let i = 0; i < sides.length; i += 2) {
		const page = document.createElement("div");
		page.className = "spread";
		page.append(...sides.slice(i, i + 2));
		pages.push(page);
	}
	piece.append(...pages);
	return pages.length;
}

/** Gives a box the largest type, up to its design, at which nothing is cut, then shows less. */
function fitBox(box: HTMLElement): void {
	const least = box.closest(".cards") === null ? LEAST_BOX : LEAST_CARD;
	for (const detail of [3, 2, 1]) {
		showDetail(box, detail);
		let scale = 1;
		box.style.setProperty("--k", "1");
		while (scale > least && isOverfull(box)) {
			scale = Math.round((scale - BOX_STEP) * 100) / 100;
			box.style.setProperty("--k", String(scale));
		}
		if (!isOverfull(box)) return;
	}
}

/** A style for some detail holds for less as well: 1 is "1 2", and full detail is nothing. */
function showDetail(element: HTMLElement, detail: number): void {
	element.dataset.detail = [0, 1, 2].filter((one) => one >= detail).join(" ");
}

/** Moves a card that is too full for its place to a side of its own, before the cards that follow it. */
function giveSide(box: HTMLElement): void {
	const side = box.closest(".side");
	const cards = box.closest(".cards");
	if (side === null || cards === null) return;
	const own = document.createElement("section");
	own.className = "side";
	const place = document.createElement("div");
	place.className = "cards alone";
	own.append(place);
	side.after(own);
	place.append(box);
	fitBox(box);
	if (cards.children.length === 0) side.remove();
}

function isOverfull(box: Element): boolean {
	return box.scrollHeight > box.clientHeight + 1 || box.scrollWidth > box.clientWidth + 1;
}

/** Pours in the first step that fits; steps get tighter one after the other, so half of them are skipped at a time. */
function pour(
	piece: HTMLElement,
	most: number,
	leaves: boolean,
	steps: readonly SheetStep[],
): { readonly step: SheetStep; readonly over: boolean } {
	const items = Array.from(piece.querySelectorAll(".pour > *"));
	const place = piece.querySelector(".pour");
	/** The first step in which the items take no more sides, or the last. */
	const firstThatFits = (among: readonly SheetStep[], sides: number): SheetStep => {
		let low = 0;
		let high = among.length - 1;
		while (low < high) {
			const middle = Math.floor((low + high) / 2);
			const step = among[middle];
			if (step !== undefined && pourOnce(piece, items, step, sides) <= sides) high = middle;
			else low = middle + 1;
		}
		const step = among[low];
		if (step === undefined) throw new Error("a sheet without a way to set it");
		return step;
	};
	const first = firstThatFits(steps, most);
	const sides = pourOnce(piece, items, first, Number.POSITIVE_INFINITY);
	if (sides <= most || !leaves) return { step: first, over: sides > most };
	// Further leaves have the room for everything: whole ones, in the largest type that fits them.
	place?.replaceChildren(...items);
	const whole = steps.filter(({ detail }) => detail === 3);
	const tightest = whole.at(-1) ?? first;
	const needed = pourOnce(piece, items, tightest, Number.POSITIVE_INFINITY);
	const roomy = firstThatFits(whole, needed + (needed % 2));
	const taken = pourOnce(piece, items, roomy, Number.POSITIVE_INFINITY);
	if (taken === needed || lastIsFilled(piece)) return { step: roomy, over: false };
	// Larger type is not worth a side with next to nothing on it.
	const step = firstThatFits(whole, needed);
	pourOnce(piece, items, step, Number.POSITIVE_INFINITY);
	return { step, over: false };
}

/** Whether a good part of the last side is used. */
function lastIsFilled(piece: HTMLElement): boolean {
	const place = Array.from(piece.querySelectorAll(".side .pour")).at(-1);
	if (place === undefined) return true;
	const edge = place.getBoundingClientRect();
	const area = Array.from(place.children, (item) =>
		Array.from(item.getClientRects(), ({ width, height }) => width * height),
	)
		.flat()
		.reduce((sum, own) => sum + own, 0);
	return area > edge.width * edge.height * LEAST_FILLED;
}

/** Of a side, of what type that is larger has to be worth. */
const LEAST_FILLED = 0.4;

/** Sets all items, on further sides as needed; stops after one side too many. Returns the sides. */
function pourOnce(piece: HTMLElement, items: readonly Element[], step: SheetStep, most: number): number {
	piece.style.setProperty("--k", String(step.scale));
	showDetail(piece, step.detail);
	const [first, ...others] = piece.querySelectorAll(".side");
	for (const other of others) other.remove();
	let side = first;
	let rest = items;
	let sides = 1;
	while (side !== undefined) {
		const place: Element | null = side.querySelector(".pour");
		if (place === null) throw new Error("a side without a place to pour into");
		const goesOn = side.querySelector(".on");
		if (goesOn !== null) goesOn.textContent = rest[0]?.getAttribute("data-on") ?? "";
		place.replaceChildren(...rest);
		const fits = firstOutside(place, rest);
		const cut = lastStart(rest, fits);
		if (cut === rest.length) return sides;
		const [tall] = rest;
		if (cut === 0 && tall !== undefined) {
			const parts = cutItem(place, tall);
			if (parts !== undefined) {
				place.replaceChildren(parts[0]);
				rest = [parts[1], ...rest.slice(1)];
			} else if (sides === 1) place.replaceChildren();
			// Below the head of the first side there was too little room; the next has more.
			else if (Number.isFinite(most)) return most + 1;
			// An item that is taller than a side fits nowhere; in the last way it stays, and is reported.
			else rest = rest.slice(1);
		} else rest = rest.slice(cut);
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

/** Rows of a table and paragraphs of a long text may be parted: what fits a side, and what does not, under the same head. */
const PARTS = "tbody > tr, .prose > *";

/** An item that is taller than a side, as two; nothing where it cannot be parted. */
function cutItem(place: Element, item: Element): readonly [Element, Element] | undefined {
	const edge = place.getBoundingClientRect().bottom + 1;
	const fits = partsOf(item).findIndex((part) => part.getBoundingClientRect().bottom > edge);
	if (fits < 1) return undefined;
	const half = (keeps: (part: number) => boolean): Element => {
		const copy = item.cloneNode(true) as Element;
		partsOf(copy).forEach((part, i) => {
			if (!keeps(i)) part.remove();
		});
		return copy;
	};
	return [half((part) => part < fits), half((part) => part >= fits)];
}

function partsOf(item: Element): readonly Element[] {
	return item.matches(".prose") ? Array.from(item.children) : Array.from(item.querySelectorAll(PARTS));
}

/**
 * Where a side ends of which so many items fit: before the last area that begins on it and goes on beyond it.
 * The first item of a side always stays.
 */
function lastStart(items: readonly Element[], fits: number): number {
	if (fits === items.length) return fits;
	for (let i = fits; i > 0; i--) if (items[i]?.hasAttribute("data-start")) return i;
	return fits;
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

/** What stands outside the area or the box it belongs to. */
function spillsOf(side: HTMLElement): FittedSheet["spills"] {
	const spills = new Map<string, boolean>();
	const spill = (element: Element) => {
		const drawing = element instanceof SVGSVGElement;
		const named = drawing ? (element.querySelector("title") ?? element) : element;
		spills.set((named.textContent ?? "").trim().slice(0, 60), drawing);
	};
	for (const place of side.querySelectorAll(".area, .box")) {
		const edge = place.getBoundingClientRect();
		for (const element of place.querySelectorAll("*")) {
			if (element.parentElement?.closest("svg")) continue;
			// The innermost says best what it is.
			const isSpilt = (one: Element) =>
				Array.from(one.getClientRects()).some(
					({ left, right, top, bottom, width, height }) =>
						width > 0 &&
						height > 0 &&
						(left < edge.left - 1 ||
							right > edge.right + 1 ||
							top < edge.top - 2 ||
							bottom > edge.bottom + 3),
				);
			const inner = element instanceof SVGSVGElement ? [] : Array.from(element.children);
			if (isSpilt(element) && !inner.some(isSpilt)) spill(element);
		}
		if (spills.size === 0 && place.scrollWidth > place.clientWidth + 1) spill(place);
	}
	return Array.from(spills, ([words, drawing]) => ({ words, drawing }));
}

window.handbookSheets = { fit };
