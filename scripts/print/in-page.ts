/**
 * Runs inside the browser's page, never in Node: lays out a part with Paged.js, and measures a
 * document of finished pages.
 *
 * The style sheet is an ordinary one, so the browser itself keeps headings with what follows, keeps
 * whole what must not be broken, and leaves no widows: Paged.js lays each page out as a column and
 * cuts where the browser would go on in the next column.
 */

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

/** Something that stands outside its text area. */
export interface Spill {
	readonly leaf: number;
	readonly words: string;
}

export interface Measures {
	readonly spots: readonly Spot[];
	readonly spills: readonly Spill[];
}

declare global {
	interface Window {
		Paged: Paged;
		handbookPrint: {
			layOut(markup: string, area: Area): Promise<readonly CutPage[]>;
			measure(): Promise<Measures>;
		};
	}
}

/** Attributes that Paged.js leaves for itself; `data-split-…` and `data-align-…` carry styles. */
const TRACES =
	/^data-(ref|id|parent|page|children|undisplayed|(next-|previous-)?break-|after-page|before-page|nth-|range-)/;

let isReady = false;

async function layOut(markup: string, area: Area): Promise<readonly CutPage[]> {
	await loadFonts();
	if (!isReady) window.Paged.registerHandlers(...handlers(window.Paged));
	isReady = true;
	document.body.replaceChildren();
	const template = document.createElement("template");
	// One element around everything: Paged.js looks for the parent of what it cuts.
	template.innerHTML = `<div>${markup}</div>`;
	const insides = emptyWholes(template.content, area);
	removeSpace(template.content);

	const host = document.body.appendChild(document.createElement("div"));
	host.className = "leaf-text";
	const previewer = new window.Paged.Previewer();
	const size = `@page { size: ${area.width}px ${area.height}px; margin: 0; }`;
	await previewer.preview(template.content, [{ "about:binder": size }], host);
	fillWholes(host, insides);
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
const WHOLE = ".whole, .page-line, tbody > tr, figure";

/**
 * Empties what stays in one piece, and gives it the height it had: Paged.js then has nothing to walk
 * through and nothing to cut there. What is too tall for that is marked instead, so that the style
 * sheet lets it break.
 *
 * @returns what was inside, by the number that the emptied element carries
 */
function emptyWholes(content: DocumentFragment, area: Area): readonly (readonly Node[])[] {
	const bench = document.body.appendChild(document.createElement("div"));
	bench.className = "leaf-text";
	bench.style.width = `${area.width}px`;
	bench.append(content);
	for (const whole of bench.querySelectorAll(WHOLE)) {
		if (whole.getBoundingClientRect().height > area.height) whole.classList.add("too-tall");
	}
	// All heights are read before anything is emptied, so that the browser lays out once.
	const wholes = Array.from(bench.querySelectorAll<HTMLElement>(WHOLE)).filter(
		(whole) =>
			!whole.classList.contains("too-tall") &&
			whole.querySelector(".too-tall") === null &&
			whole.parentElement?.closest(":is(.whole, .page-line, tbody > tr, figure):not(.too-tall)") === null,
	);
	const heights = wholes.map((whole) => whole.getBoundingClientRect().height);
	const insides = wholes.map((whole, number) => {
		const inside = [...whole.childNodes];
		const height = `${heights[number]}px`;
		whole.dataset.emptied = String(number);
		if (whole instanceof HTMLTableRowElement) {
			const cell = document.createElement("td");
			cell.style.cssText = `height:${height};padding:0;border:0`;
			whole.replaceChildren(cell);
		} else {
			whole.replaceChildren();
			whole.style.height = height;
		}
		return inside;
	});
	content.append(...bench.childNodes);
	bench.remove();
	return insides;
}

/** Puts back what was inside; throws where a piece was lost on the way. */
function fillWholes(host: Element, insides: readonly (readonly Node[])[]): void {
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
}

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
	/** A table that goes on overleaf gets its head again, before its rows are measured. */
	class TableHeads extends paged.Handler {
		renderNode(clone: Node, node: Node): void {
			if (!(clone instanceof Element) || !(node instanceof Element)) return;
			const table = clone.closest("table[data-split-from]");
			const source = node.closest("table");
			if (table === null || source === null || table.querySelector(":scope > thead") !== null) return;
			const again = Array.from(source.querySelectorAll(":scope > colgroup, :scope > thead"), (part) => {
				const copy = part.cloneNode(true) as Element;
				for (const element of [copy, ...copy.querySelectorAll("*")]) {
					element.removeAttribute("data-ref");
					element.removeAttribute("id");
				}
				copy.classList.add("again");
				return copy;
			});
			table.prepend(...again);
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
	const spots: Spot[] = [];
	const spills: Spill[] = [];
	Array.from(document.querySelectorAll(".leaf")).forEach((leaf, number) => {
		const edge = leaf.getBoundingClientRect();
		const text = leaf.querySelector(".leaf-text");
		if (text === null) return;
		const box = text.getBoundingClientRect();
		for (const element of text.querySelectorAll<HTMLElement>("*")) {
			if (element.parentElement?.closest("svg")) continue;
			const at = element.getBoundingClientRect();
			if (element.id !== "") spots.push({ id: element.id, leaf: number, top: at.top - edge.top });
			if (at.width === 0 || at.height === 0) continue;
			// Half a pixel of rounding, and the swung ends of letters below the last line.
			if (
				at.left < box.left - 0.6 ||
				at.right > box.right + 0.6 ||
				at.top < box.top - 0.6 ||
				at.bottom > box.bottom + 3
			) {
				spills.push({ leaf: number, words: (element.textContent ?? "").trim().slice(0, 60) });
			}
		}
	});
	return { spots, spills };
}

window.handbookPrint = { layOut, measure };
