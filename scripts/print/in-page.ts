/**
 * Runs inside the browser's page, never in Node: lays out a part with Paged.js, and measures a
 * document of finished pages.
 *
 * The style sheet is an ordinary one, so the browser itself keeps headings with what follows, keeps
 * whole what must not be broken, and leaves no widows: Paged.js lays each page out as a column and
 * cuts where the browser would go on in the next column.
 */

import { packCards } from "./pack-cards.ts";

interface Paged {
	readonly Previewer: new () => Previewer;
	readonly Handler: new (chunker: unknown, polisher: unknown, caller: unknown) => object;
	registerHandlers(...handlers: readonly unknown[]): void;
}

interface Previewer {
	preview(
		content: DocumentFragment,
		styles: readonly Readonly<Record<string, string>>[],
		renderTo: Element,
	): Promise<unknown>;
	readonly polisher: { destroy(): void };
	readonly chunker: { destroy(): void };
}

/** Size of the text area, pixels. */
export interface Area {
	readonly width: number;
	readonly height: number;
}

/** One page as Paged.js cut it: its markup, and the ids that stand on it. */
export interface CutPage {
	readonly html: string;
	readonly ids: readonly string[];
}

/** Where a target stands: the leaf counted from 0, and pixels down from its top edge. */
export interface Spot {
	readonly id: string;
	readonly leaf: number;
	readonly top: number;
}

/** Something that stands outside its text area, or runs over the edge of its cell. */
export interface Spill {
	readonly leaf: number;
	readonly words: string;
	/** The id that stands last before it. */
	readonly after: string | undefined;
	readonly edge: "area" | "cell";
	/** It is a drawing, and the words are its title. */
	readonly drawing: boolean;
}

export interface Measures {
	readonly spots: readonly Spot[];
	readonly spills: readonly Spill[];
}

declare global {
	interface Window {
		Paged: Paged;
		handbookPrint: {
			layOut(markup: string, area: Area, continued: string): Promise<readonly CutPage[]>;
			measure(): Promise<Measures>;
		};
	}
}

/** Attributes that Paged.js leaves for itself; `data-split-…` and `data-align-…` carry styles. */
const TRACES =
	/^data-(ref|id|parent|page|children|undisplayed|(next-|previous-)?break-|after-page|before-page|nth-|range-)/;

let isReady = false;

/** @param continued what stands over a table that goes on, with % for the heading before it */
async function layOut(markup: string, area: Area, continued: string): Promise<readonly CutPage[]> {
	await loadFonts();
	if (!isReady) window.Paged.registerHandlers(...handlers(window.Paged));
	isReady = true;
	document.body.replaceChildren();
	const template = document.createElement("template");
	// One element around everything: Paged.js looks for the parent of what it cuts.
	template.innerHTML = `<div>${markup}</div>`;
	const taken = takeOut(template.content, area, continued);
	removeSpace(template.content);

	const host = document.body.appendChild(document.createElement("div"));
	host.className = "leaf-text";
	const previewer = new window.Paged.Previewer();
	const size = `@page { size: ${area.width}px ${area.height}px; margin: 0; }`;
	await previewer.preview(template.content, [{ "about:binder": size }], host);
	putBack(host, taken);
	const seen = new Set<string>();
	const pages = Array.from(host.querySelectorAll(".pagedjs_page_content"), (content) =>
		cutPage(content.querySelector(":scope > div > div") ?? content, seen),
	);
	previewer.chunker.destroy();
	previewer.polisher.destroy();
	document.body.replaceChildren();
	return pages;
}

async function loadFonts(): Promise<void> {
	await Promise.all(Array.from(document.fonts, (font) => font.load()));
	await document.fonts.ready;
}

/** What stays in one piece, unless it is taller than a page. */
const WHOLE = ".whole, .page-line, tbody > tr, figure:not(.plan-figure), .plan-drawing";

/** What was taken out of a part, to be put back into its pages. */
interface TakenOut {
	/** By the number that the emptied element carries. */
	readonly insides: readonly (readonly Node[])[];
	/** Columns and head of each table, by the number that the table carries. */
	readonly heads: readonly (readonly Element[])[];
}

/**
 * Empties what stays in one piece, and gives it the height it had: Paged.js then has nothing to walk
 * through and nothing to cut there. What is too tall for that is marked instead, so that the style
 * sheet lets it break. Tables lose their heads meanwhile; the room for one is a part of the first row.
 */
function takeOut(content: DocumentFragment, area: Area, continued: string): TakenOut {
	const bench = document.body.appendChild(document.createElement("div"));
	bench.className = "leaf-text";
	bench.style.width = `${area.width}px`;
	bench.append(content);
	for (const cards of bench.querySelectorAll<HTMLElement>(".cards")) layCards(cards, area);
	for (const wide of bench.querySelectorAll("table, pre")) {
		// What is cut off would be lost: it is set smaller, and breaks where it must.
		const room = wide.parentElement?.clientWidth ?? area.width;
		if (wide.scrollWidth > room + 1) wide.classList.add("too-wide");
	}
	for (const whole of bench.querySelectorAll(WHOLE)) {
		if (heightOf(whole) <= area.height) continue;
		whole.classList.add("too-tall");
		if (whole instanceof HTMLTableRowElement) unrollRow(whole);
	}
	const isOuter = (element: Element) =>
		element.parentElement?.closest(`:is(${WHOLE}):not(.too-tall)`) === null;
	const wholes = Array.from(bench.querySelectorAll<HTMLElement>(WHOLE)).filter(
		(whole) =>
			!whole.classList.contains("too-tall") && whole.querySelector(".too-tall") === null && isOuter(whole),
	);
	const tables = Array.from(bench.querySelectorAll<HTMLTableElement>("table")).filter(isOuter);
	nameTables(bench, new Set(tables), continued);
	// Every height is read before anything changes, so that the browser lays out once.
	const heights = new Map<Element, number>();
	for (const whole of wholes) heights.set(whole, heightOf(whole));
	for (const table of tables) {
		heights.set(table, heightOf(table.querySelector(":scope > thead")));
	}

	const heads = tables.map((table, number) => {
		const parts = [...table.querySelectorAll(":scope > colgroup, :scope > thead")];
		const first = table.querySelector("tbody > tr");
		const head = heights.get(table) ?? 0;
		table.dataset.table = String(number);
		table.dataset.head = String(head + (table.dataset.again === undefined ? 0 : AGAIN_HEIGHT));
		for (const part of parts) part.remove();
		if (first !== null && heights.has(first)) heights.set(first, (heights.get(first) ?? 0) + head);
		return parts;
	});
	const insides = wholes.map((whole, number) => {
		const inside = [...whole.childNodes];
		const height = heights.get(whole) ?? 0;
		whole.dataset.emptied = String(number);
		if (whole instanceof HTMLTableRowElement) whole.replaceChildren(emptyCell(height));
		else {
			whole.replaceChildren();
			whole.style.height = `${height}px`;
		}
		return inside;
	});
	content.append(...bench.childNodes);
	bench.remove();
	return { insides, heads };
}

/** Gives each table the words for the pages on which it goes on: it has the name of the heading before it. */
function nameTables(bench: Element, tables: ReadonlySet<Element>, continued: string): void {
	let heading = "";
	for (const element of bench.querySelectorAll<HTMLElement>("h1, h2, h3, h4, h5, h6, table")) {
		if (!(element instanceof HTMLTableElement)) heading = (element.textContent ?? "").trim();
		else if (heading !== "" && tables.has(element))
			element.dataset.again = continued.replace("%", () => heading);
	}
}

/** Puts the cards of an apparatus onto pages that they fill well. */
function layCards(host: HTMLElement, area: Area): void {
	const cards = Array.from(host.children);
	const sizes = cards.map((card) => ({
		id: card.querySelector(":scope > .card-head h2")?.id ?? "opening",
		height: heightOf(card) + CARD_SPACE,
	}));
	const earlier = host.dataset.earlier?.split("|").map((ids) => ids.split(" "));
	delete host.dataset.earlier;
	const pages = packCards(sizes, area.height + CARD_SPACE, earlier);
	host.replaceChildren(
		...pages.map((positions) => {
			const page = document.createElement("div");
			page.className = "card-page";
			page.append(...positions.flatMap((position) => cards[position] ?? []));
			return page;
		}),
	);
}

/** Between two cards of a page, pixels, as in print.css. */
const CARD_SPACE = 12;

/**
 * Makes text of a row that is longer than a page: nothing cuts a row of a table. Its cells then stand
 * under each other, and what followed the row is a table of its own with the same head.
 */
function unrollRow(row: HTMLTableRowElement): void {
	const table = row.closest("table");
	if (table === null) return;
	const text = document.createElement("div");
	text.className = "tall-row too-tall";
	for (const cell of row.cells) {
		text.appendChild(document.createElement("div")).append(...cell.childNodes);
	}
	const rest = table.cloneNode(false);
	if (!(rest instanceof HTMLTableElement)) return;
	const rows = [...(row.parentElement?.children ?? [])];
	const after = rows.slice(rows.indexOf(row) + 1);
	for (const part of table.querySelectorAll(":scope > colgroup, :scope > thead")) {
		const copy = rest.appendChild(part.cloneNode(true));
		if (copy instanceof HTMLTableSectionElement) copy.classList.add("again");
	}
	rest.appendChild(document.createElement("tbody")).append(...after);
	row.remove();
	table.after(text, ...(after.length > 0 ? [rest] : []));
	if (table.querySelector("tbody > tr") !== null) return;
	// A head without rows: its words go before those of the cells.
	table.querySelectorAll("thead th").forEach((head, position) => {
		const label = document.createElement("b");
		label.append(...head.childNodes, " ");
		text.children[position]?.prepend(label);
	});
	table.remove();
}

function heightOf(element: Element | null): number {
	return element?.getBoundingClientRect().height ?? 0;
}

function emptyCell(height: number): HTMLTableCellElement {
	const cell = document.createElement("td");
	cell.style.cssText = `height:${height}px;padding:0;border:0`;
	return cell;
}

/** Puts back what was taken out. Throws where a piece was lost on the way. */
function putBack(host: Element, { insides, heads }: TakenOut): void {
	const emptied = host.querySelectorAll<HTMLElement>("[data-emptied]");
	if (emptied.length !== insides.length) {
		throw new Error(`${insides.length - emptied.length} of ${insides.length} pieces were lost`);
	}
	for (const whole of emptied) {
		whole.replaceChildren(...(insides[Number(whole.dataset.emptied)] ?? []));
		whole.style.height = "";
		if (whole.getAttribute("style") === "") whole.removeAttribute("style");
		delete whole.dataset.emptied;
	}
	for (const row of host.querySelectorAll("tr.head-room")) row.remove();
	for (const table of host.querySelectorAll<HTMLElement>("table[data-table]")) {
		const parts = heads[Number(table.dataset.table)] ?? [];
		table.prepend(...parts.map((part) => part.cloneNode(true)));
		if (table.hasAttribute("data-split-from")) {
			const head = table.querySelector("thead") ?? document.createElement("thead");
			head.classList.add("again");
			if (table.dataset.again !== undefined) head.prepend(goesOn(table.dataset.again, table));
			if (head.parentElement === null && head.hasChildNodes()) table.prepend(head);
		}
		delete table.dataset.again;
		delete table.dataset.table;
		delete table.dataset.head;
	}
}

/** The line over the head of a table that goes on: what it is a part of. As high as `AGAIN_HEIGHT`. */
function goesOn(words: string, table: Element): HTMLTableRowElement {
	const row = document.createElement("tr");
	const cell = row.appendChild(document.createElement("th"));
	row.className = "goes-on";
	cell.colSpan = table.querySelector("tr")?.children.length ?? 1;
	cell.append(words);
	return row;
}

const AGAIN_HEIGHT = 21;

/** Blank text between blocks is nothing to be laid out, and costs as much as a block. */
function removeSpace(content: DocumentFragment): void {
	const walker = document.createTreeWalker(content, NodeFilter.SHOW_TEXT);
	const blank: Node[] = [];
	for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
		if (node.textContent?.trim() === "" && BLOCKS.has(node.parentNode?.nodeName ?? "")) blank.push(node);
	}
	for (const node of blank) node.parentNode?.removeChild(node);
}

/** Elements that hold blocks, and no text of their own. */
const BLOCKS = new Set(
	"ARTICLE SECTION HEADER UL OL DL TABLE COLGROUP THEAD TBODY TR FIGURE #document-fragment".split(" "),
);

/** Markup of one page without the traces of Paged.js; an id stays where it was met first. */
function cutPage(page: Element, seen: Set<string>): CutPage {
	const ids: string[] = [];
	for (const element of page.querySelectorAll("*")) {
		for (const name of element.getAttributeNames()) {
			if (TRACES.test(name)) element.removeAttribute(name);
			// Its value is a random name; the style sheet asks only whether it is there.
			else if (name.startsWith("data-split-")) element.setAttribute(name, "");
		}
		// Ids inside a drawing are its own business.
		if (element.id === "" || element instanceof SVGElement) continue;
		if (seen.has(element.id)) element.removeAttribute("id");
		else {
			seen.add(element.id);
			ids.push(element.id);
		}
	}
	return { html: page.innerHTML, ids };
}

function handlers(paged: Paged): readonly unknown[] {
	/** A table that goes on overleaf leaves room for its head, before its rows are measured. */
	class TableHeads extends paged.Handler {
		renderNode(clone: Node): void {
			if (!(clone instanceof HTMLTableRowElement)) return;
			const table = clone.closest<HTMLElement>("table[data-split-from]");
			if (table === null || table.querySelector(".head-room") !== null) return;
			const room = document.createElement("tr");
			room.className = "head-room";
			room.append(emptyCell(Number(table.dataset.head ?? 0)));
			clone.before(room);
		}
	}
	/** Pages that are done are not laid out again while later ones are. */
	class FinishedPages extends paged.Handler {
		finalizePage(page: HTMLElement): void {
			page.style.display = "none";
		}
	}
	return [TableHeads, FinishedPages];
}

async function measure(): Promise<Measures> {
	await loadFonts();
	removeIdleHyphens();
	for (const svg of document.querySelectorAll("svg")) window.handbookLetters.enlarge(svg);
	const spots: Spot[] = [];
	const spills: Spill[] = [];
	Array.from(document.querySelectorAll(".leaf")).forEach((leaf, number) => {
		const edge = leaf.getBoundingClientRect();
		const text = leaf.querySelector(".leaf-text");
		if (text === null) return;
		const box = text.getBoundingClientRect();
		let after: string | undefined;
		const spill = (of: Node, where: Spill["edge"]) => {
			const label = of instanceof Element ? (of.getAttribute("aria-label") ?? of.localName) : "";
			const drawing = of instanceof SVGElement;
			const named = drawing ? (of.querySelector("title") ?? of) : of;
			const words = ((named.textContent ?? "").trim() || label).slice(0, 60);
			spills.push({ leaf: number, words, after, edge: where, drawing });
		};
		const walker = document.createTreeWalker(text, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
		for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
			if (node instanceof HTMLElement || node instanceof SVGElement) {
				// What is in a drawing is its own business.
				if (node instanceof SVGElement) walker.currentNode = lastWithin(node);
				const at = node.getBoundingClientRect();
				if (node.id !== "") {
					spots.push({ id: node.id, leaf: number, top: at.top - edge.top });
					after = node.id;
				}
				if (at.width > 0 && at.height > 0 && !isWithin(at, box, 0.6, 3)) spill(node, "area");
			} else if (node.textContent?.trim() !== "") {
				const cell = node.parentElement?.closest("td, th")?.getBoundingClientRect();
				// The box of an element says nothing of letters that run over it.
				const lines = linesOf(node);
				if (lines.some((line) => !isWithin(line, box, 0.6, 3))) spill(node, "area");
				else if (cell !== undefined && lines.some((line) => !isWithin(line, cell, 1.5, 6)))
					spill(node, "cell");
			}
		}
	});
	return { spots, spills };
}

/**
 * Takes the soft hyphens away at which no line ends: in a PDF each one would part its word in two, for
 * whoever searches or listens. A paragraph that would come out higher or lower without them keeps them.
 */
function removeIdleHyphens(): void {
	const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	const range = document.createRange();
	const boxAt = (node: Node, at: number) => {
		range.setStart(node, at);
		range.setEnd(node, at + 1);
		return range.getBoundingClientRect();
	};
	const edits: { node: Text; before: string; after: string; block: Element; height: number }[] = [];
	for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
		if (!(node instanceof Text) || !node.data.includes(SOFT_HYPHEN)) continue;
		const block = node.parentElement?.closest("p, li, dt, dd, td, th, figcaption, div");
		if (!block) continue;
		const { data } = node;
		// Most stand on one line, at whose end there is no hyphen of theirs.
		if (linesOf(node).length === 1) {
			const whole = data.replace(/(?!^)\u00ad(?!$)/g, "");
			if (whole !== data) edits.push({ node, before: data, after: whole, block, height: heightOf(block) });
			continue;
		}
		let after = "";
		for (let i = 0; i < data.length; i++) {
			if (data[i] === SOFT_HYPHEN && i > 0 && i < data.length - 1) {
				const [left, right] = [boxAt(node, i - 1), boxAt(node, i + 1)];
				if (Math.abs(left.bottom - right.bottom) < 2 && right.left > left.left) continue;
			}
			after += data[i];
		}
		edits.push({ node, before: data, after, block, height: heightOf(block) });
	}
	for (const { node, after } of edits) node.data = after;
	const moved = new Set(
		edits.filter(({ block, height }) => Math.abs(heightOf(block) - height) > 0.5).map(({ block }) => block),
	);
	for (const { node, before, block } of edits) if (moved.has(block)) node.data = before;
}

const SOFT_HYPHEN = "\u00ad";

/** The last node in a node, itself where there is none. */
function lastWithin(node: Node): Node {
	let last = node;
	while (last.lastChild !== null) last = last.lastChild;
	return last;
}

/** The boxes of a text's lines. */
function linesOf(text: Node): readonly DOMRect[] {
	const range = document.createRange();
	range.selectNodeContents(text);
	return [...range.getClientRects()].filter(({ width, height }) => width > 0 && height > 0);
}

/** Whether a box lies in another, with some slack for rounding; more below, for the swung ends of letters. */
function isWithin(at: DOMRect, box: DOMRect, slack: number, below: number): boolean {
	return (
		at.left >= box.left - slack &&
		at.right <= box.right + slack &&
		at.top >= box.top - below &&
		at.bottom <= box.bottom + below
	);
}

window.handbookPrint = { layOut, measure };
