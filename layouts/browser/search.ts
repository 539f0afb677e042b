/**
 * The search page's program.
 *
 *   start    take the choice from the address, fetch the heads, then the typeface, summaries and texts
 *   choose   words typed, a filter ticked, a suggestion taken, a chip removed → a new choice
 *   show     search, and bring count, chips, filters and results up to date; elements are kept and only
 *            what differs is written, as this is done for every letter
 *   address  write the choice into the address, so that a link to it can be sent and "back" undoes it
 *
 * Everything is built from elements and text: no markup is ever parsed.
 */

import {
	type Choice,
	countChosen,
	FACETS,
	type Facet,
	isChosen,
	readChoice,
	toggled,
	writeChoice,
} from "../../scripts/search/choice.ts";
import {
	type FacetValue,
	type Held,
	type Hit,
	NO_EQUIPMENT,
	type SearchIndex,
	type SearchResult,
	type Suggestion,
	type SummariesFile,
	type TextsFile,
} from "../../scripts/search/engine.ts";
import { openWhileReading } from "../../scripts/search/head-text.ts";
import type { SearchPage } from "../../scripts/search/pages.ts";
import { searching } from "../../scripts/words/en.ts";

/** What a result says of its drill, besides title and summary. */
const ABOUT = ["apparatus", "level", "shape"] as const;
/** Where the filters stand beside the results, as in the styles. */
const WIDE = "(min-width: 60rem)";
/** Results shown at first, and added at each "more". */
const PAGE = 20;
/** Drills whose texts are taken in at once: on a phone slowed four times some 20 ms of work. */
const DRILLS_AT_ONCE = 25;
/** Milliseconds without typing before the address is written and the count is read out. */
const PAUSE = 400;

interface FacetControl {
	readonly facet: Facet;
	readonly fold: Shown<HTMLDetailsElement>;
	readonly summary: Shown;
	readonly values: readonly {
		readonly value: FacetValue;
		readonly row: Shown;
		readonly box: HTMLInputElement;
		readonly count: Shown;
	}[];
}

interface HitRow {
	/** Whose row it is, below 0 before it is anyone's. */
	drill: number;
	readonly item: HTMLElement;
	readonly link: Shown<HTMLAnchorElement>;
	readonly lacks: Shown;
	readonly summary: Shown;
	readonly fault: Shown;
	readonly about: Shown;
}

/**
 * An element and what it shows. What has not changed is not written again, and the page is not asked
 * what it shows: hundreds of such questions for every letter are dear on a phone.
 */
class Shown<E extends HTMLElement = HTMLElement> {
	readonly element: E;
	#text: string;
	#hidden: boolean;

	constructor(element: E) {
		this.element = element;
		this.#text = element.textContent;
		this.#hidden = element.hidden === true;
	}

	write(text: string): void {
		if (this.#text === text) return;
		this.#text = text;
		this.element.textContent = text;
	}

	hide(hidden: boolean): void {
		if (this.#hidden === hidden) return;
		this.#hidden = hidden;
		this.element.hidden = hidden;
	}
}

/** The search as a page shows it. */
class SearchTool {
	readonly #root: HTMLElement;
	readonly #input: HTMLInputElement;
	readonly #count: Shown;
	readonly #live: HTMLElement;
	readonly #note: Shown;
	readonly #chosen: HTMLElement;
	readonly #filters: HTMLDetailsElement;
	readonly #facets: HTMLElement;
	readonly #fold: Shown<HTMLButtonElement>;
	readonly #pages: HTMLUListElement;
	readonly #hits: HTMLElement;
	readonly #more: Shown<HTMLButtonElement>;
	readonly #share: HTMLButtonElement;
	#index: SearchIndex | undefined;
	#choice: Choice = readChoice(location.search);
	#controls: readonly FacetControl[] = [];
	#result: SearchResult | undefined;
	#shown = PAGE;
	/** Rows of results made so far; those beyond the results are out of the page. */
	readonly #rows: HitRow[] = [];
	/** The filters that the chips show, and the pages that are shown. */
	#chipsOf: string | undefined;
	#pagesOf: string | undefined;
	#pause: ReturnType<typeof setTimeout> | undefined;

	constructor(root: HTMLElement) {
		this.#root = root;
		this.#input = part<HTMLInputElement>(root, "#search-words");
		this.#count = new Shown(part(root, ".search-count"));
		this.#live = part(root, ".search-live");
		this.#note = new Shown(part(root, ".search-note"));
		this.#chosen = part(root, ".search-chosen");
		this.#filters = part<HTMLDetailsElement>(root, ".search-filters");
		this.#facets = part(root, ".search-facets");
		this.#fold = new Shown(part<HTMLButtonElement>(root, ".search-show"));
		this.#pages = part<HTMLUListElement>(root, ".search-pages");
		this.#hits = part(root, ".search-hits");
		this.#more = new Shown(part<HTMLButtonElement>(root, ".search-more"));
		this.#share = part<HTMLButtonElement>(root, ".search-share");
		this.#listen();
		// A kept handbook comes from the device: nothing there waits for anything.
		if (navigator.serviceWorker?.controller) takeTypeface();
		void this.#load();
	}

	#listen(): void {
		this.#input.value = this.#choice.words;
		const suggestions = combobox(this.#input, part<HTMLUListElement>(this.#root, "#search-suggestions"), {
			suggest: () => this.#index?.suggest(this.#input.value, this.#choice.filters, this.#choice.like) ?? [],
			take: (suggestion) => {
				this.#input.value = suggestion.rest;
				const filters = toggled(this.#choice.filters, suggestion.facet, suggestion.value.id);
				this.#choose({ ...this.#choice, words: suggestion.rest, filters }, true);
			},
		});

		this.#input.addEventListener("input", () => {
			// Who starts again means what she writes then.
			const { asText: _, ...others } = this.#choice;
			this.#choose(
				{ ...(this.#input.value.trim() === "" ? others : this.#choice), words: this.#input.value },
				false,
			);
			suggestions.open();
		});
		part(this.#root, "form").addEventListener("submit", (event) => {
			event.preventDefault();
			suggestions.close();
			this.#writeAddress(false);
			// On a phone the keyboard makes room for the results.
			if (!matchMedia(WIDE).matches) this.#input.blur();
		});
		addEventListener("popstate", () => {
			this.#choice = readChoice(location.search);
			this.#input.value = this.#choice.words;
			this.#shown = PAGE;
			this.#show();
		});
		this.#more.element.addEventListener("click", () => {
			const next = this.#hits.children.length;
			this.#shown += PAGE;
			this.#show();
			this.#hits.children[next]?.querySelector("a")?.focus();
		});
		this.#fold.element.addEventListener("click", () => {
			this.#filters.open = false;
			// The filters' own head is where she came from; what she asked for begins below it.
			this.#filters.querySelector("summary")?.focus({ preventScroll: true });
			this.#filters.scrollIntoView({ block: "start" });
		});
		if ("share" in navigator || "clipboard" in navigator) {
			this.#share.hidden = false;
			this.#share.addEventListener("click", () => void this.#shareLink());
		}
	}

	async #load(): Promise<void> {
		try {
			this.#index = await openWhileReading(fetchPieces(this.#root.dataset.head));
		} catch {
			takeTypeface();
			this.#count.write(searching.failed);
			// The lists, which work without it, take the place that was kept for results.
			part(this.#root, ".search-body").hidden = true;
			this.#share.hidden = true;
			return;
		}
		// What she came for first; the filters fill their place right after.
		this.#show();
		await painted();
		takeTypeface();
		this.#controls = buildFacets(this.#index, this.#facets, (facet, value) => {
			const read = this.#heldHere(facet).find(({ values }) => values.some(({ id }) => id === value));
			this.#choose(
				read === undefined
					? { ...this.#choice, filters: toggled(this.#choice.filters, facet, value) }
					: this.#released(read),
				true,
			);
		});
		this.#openFolds();
		for (const control of this.#controls) {
			control.fold.element.addEventListener("toggle", () => {
				if (this.#result !== undefined) this.#showValues(control, this.#result.counts[control.facet]);
			});
		}
		if (this.#result !== undefined) this.#showFacets(this.#result);
		try {
			await painted();
			this.#index.addSummaries(await fetchJson<SummariesFile>(this.#root.dataset.summaries));
			this.#hits.classList.remove("waiting");
			this.#show();
			await painted();
			const files = this.#root.dataset.texts?.match(/\S+/g) ?? [];
			const texts = await Promise.all(files.map((file) => fetchJson<TextsFile>(file)));
			const drills = texts.flatMap((file) => file.drills);
			for (const _ of this.#index.takeTexts({ drills }, DRILLS_AT_ONCE)) await idle();
			// Nobody's list moves without words: only these can find more in texts.
			if (this.#choice.words.trim() !== "") this.#show();
			await idle();
			this.#index.prepare();
		} catch {
			// Heads alone still answer; the next visit tries again.
			this.#hits.classList.remove("waiting");
		}
	}

	/** On a wide screen the filters stand open, with the short lists and those in use. */
	#openFolds(): void {
		this.#filters.open = matchMedia(WIDE).matches;
		for (const { facet, fold } of this.#controls) {
			fold.element.open =
				facet === "level" || facet === "apparatus" || this.#choice.filters[facet] !== undefined;
		}
	}

	#choose(next: Choice, step: boolean): void {
		this.#choice = next;
		this.#shown = PAGE;
		this.#show();
		clearTimeout(this.#pause);
		if (step) this.#writeAddress(true);
		this.#pause = setTimeout(() => {
			this.#writeAddress(false);
			this.#live.textContent = this.#count.element.textContent;
		}, PAUSE);
	}

	/** A filter is a step that "back" undoes; typing is not. */
	#writeAddress(step: boolean): void {
		const address = location.pathname + writeChoice(this.#choice);
		if (address === location.pathname + location.search) return;
		if (step) history.pushState(null, "", address);
		else history.replaceState(null, "", address);
	}

	/** Results come first: the filters' counts follow when these are on the screen. */
	#show(): void {
		if (this.#index === undefined) return;
		const { words, like, asText = [] } = this.#choice;
		const found = this.#index.search(words, this.#choice.filters, { like, most: this.#shown, asText });
		this.#result = found;
		const near = found.found - found.whole;
		this.#count.write(
			near === 0
				? searching.drills(this.#result.whole)
				: this.#result.whole === 0
					? searching.nearOnly(near)
					: `${searching.drills(this.#result.whole)}, ${searching.near(near)}`,
		);
		const pagesHere = this.#choice.like === undefined ? this.#index.pages(this.#choice.words) : [];
		const notes = [
			...this.#result.repairs.map(({ typed, used }) => searching.read(typed, used)),
			// A word that no drill has may still be a page's name.
			...(pagesHere.length > 0 ? [] : this.#result.unknown.map(searching.unknown)),
			...(this.#result.found === 0 && this.#asksForNothing() ? [searching.allNeed] : []),
		];
		this.#note.hide(notes.length === 0);
		this.#note.write(notes.join(" "));
		const choices = writeChoice({ ...this.#choice, words: "" }) + JSON.stringify(this.#result.held);
		if (choices !== this.#chipsOf) {
			this.#chipsOf = choices;
			this.#showChips();
		}
		this.#fold.write(searching.show(found.found));
		this.#showPages(pagesHere);
		this.#showHits();
		void painted().then(() => {
			if (this.#result === found) this.#showFacets(found);
		});
	}

	/** What words are filters of a facet, and must be there. */
	#heldHere(facet: Facet): readonly Held[] {
		return (this.#result?.held ?? []).filter((held) => held.facet === facet && !held.without);
	}

	/** The choice with words that were a filter taken as words. */
	#released({ typed }: Held): Choice {
		return { ...this.#choice, asText: [...(this.#choice.asText ?? []), typed] };
	}

	#asksForNothing(): boolean {
		return (
			isChosen(this.#choice.filters, "equipment", NO_EQUIPMENT) ||
			this.#heldHere("equipment").some(({ values }) => values.some(({ id }) => id === NO_EQUIPMENT))
		);
	}

	/** Pages that are no drill: few, and written again only when others are found. */
	#showPages(found: readonly SearchPage[]): void {
		const key = JSON.stringify(found.map(({ address }) => address));
		if (key === this.#pagesOf) return;
		this.#pagesOf = key;
		this.#pages.hidden = found.length === 0;
		this.#pages.replaceChildren(
			...found.map(({ address, name, kind }) => {
				const link = element("a", { href: (this.#root.dataset.root ?? "") + address }, [name]);
				// Week 4 says itself that it is a week.
				const isSaid = name.startsWith(kind);
				const about = element("span", { className: "search-about" }, [`${kind} `]);
				return element("li", {}, isSaid ? [link] : [about, link]);
			}),
		);
	}

	#showChips(): void {
		const chip = (
			kind: string,
			name: string,
			without: () => Choice,
			shown = name,
			label = searching.remove(kind, name),
		) => {
			const button = element("button", { type: "button", className: "search-chip" }, [
				shown,
				element("span", { ariaHidden: "true" }, ["×"]),
			]);
			button.setAttribute("aria-label", label);
			button.addEventListener("click", () => {
				this.#choose(without(), true);
				// The chip is gone; the next one, or the words, take the focus.
				(this.#chosen.querySelector("button") ?? this.#input).focus();
			});
			return element("li", {}, [button]);
		};
		const items = FACETS.flatMap((facet) =>
			(this.#choice.filters[facet] ?? []).map((id) => {
				const name = this.#index?.options.values[facet].find((value) => value.id === id)?.name ?? id;
				return chip(searching.facets[facet], name, () => ({
					...this.#choice,
					filters: toggled(this.#choice.filters, facet, id),
				}));
			}),
		);
		for (const held of this.#result?.held ?? []) {
			const names = held.values.map(({ name }) => name).join(", ");
			const name = held.without ? searching.without(names) : names;
			const label = searching.asText(searching.facets[held.facet], name, held.typed);
			items.push(chip(searching.facets[held.facet], name, () => this.#released(held), name, label));
		}
		if (this.#choice.like !== undefined) {
			const place = this.#index?.placeOf(this.#choice.like);
			const title =
				place === undefined ? this.#choice.like : (this.#index?.entries[place]?.title ?? this.#choice.like);
			items.unshift(
				chip(
					searching.like,
					title,
					() => {
						const { like: _, ...others } = this.#choice;
						return others;
					},
					`${searching.like}: ${title}`,
				),
			);
		}
		if (countChosen(this.#choice.filters) + (this.#choice.like === undefined ? 0 : 1) > 1) {
			const button = element("button", { type: "button", className: "search-chip all" }, [
				searching.removeAll,
			]);
			button.addEventListener("click", () => {
				const { like: _, ...others } = this.#choice;
				this.#choose({ ...others, filters: {} }, true);
				this.#input.focus();
			});
			items.push(element("li", {}, [button]));
		}
		this.#chosen.replaceChildren(...items);
		const summary = this.#filters.querySelector("summary");
		if (summary !== null)
			summary.textContent = searching.filters(
				countChosen(this.#choice.filters) + (this.#result?.held.length ?? 0),
			);
	}

	#showFacets({ counts, found }: SearchResult): void {
		for (const control of this.#controls) {
			const { facet, fold, summary, values } = control;
			const chosenHere =
				(this.#choice.filters[facet]?.length ?? 0) +
				this.#heldHere(facet).reduce((sum, held) => sum + held.values.length, 0);
			// What every drill has, or none, filters nothing.
			const narrows = values.some(({ value }) => {
				const drills = counts[facet].get(value.id) ?? 0;
				return drills > 0 && drills < found;
			});
			fold.hide(chosenHere === 0 && !narrows);
			summary.write(searching.facets[facet] + (chosenHere === 0 ? "" : ` (${chosenHere})`));
			this.#showValues(control, counts[facet]);
		}
	}

	/** The values of a filter; nothing is written into a fold that is closed, until it is opened. */
	#showValues({ facet, fold, values }: FacetControl, counts: ReadonlyMap<string, number>): void {
		if (!fold.element.open) return;
		const read = new Set(this.#heldHere(facet).flatMap((held) => held.values.map(({ id }) => id)));
		for (const { value, row, box, count: number } of values) {
			const drills = counts.get(value.id) ?? 0;
			const checked = isChosen(this.#choice.filters, facet, value.id) || read.has(value.id);
			if (box.checked !== checked) box.checked = checked;
			row.hide(drills === 0 && !checked);
			number.write(String(drills));
		}
	}

	#showHits(): void {
		if (this.#index === undefined || this.#result === undefined) return;
		const page = this.#result.hits;
		for (const [i, hit] of page.entries()) {
			let row = this.#rows[i];
			if (row === undefined) {
				row = hitRow();
				this.#rows.push(row);
			}
			this.#fillRow(row, hit, this.#index);
			if (this.#hits.children.length <= i) this.#hits.append(row.item);
		}
		while (this.#hits.children.length > page.length) this.#hits.lastElementChild?.remove();
		const left = this.#result.found - page.length;
		this.#more.hide(left <= 0);
		this.#more.write(searching.more(Math.min(PAGE, left)));
	}

	#fillRow(row: HitRow, { drill, lacks, fault }: Hit, from: SearchIndex): void {
		if (row.drill !== drill) row.link.element.href = this.#drillAddress(drill);
		row.drill = drill;
		row.link.write(from.entries[drill]?.title ?? "");
		row.lacks.write(lacks.length === 0 ? "" : searching.lacks(lacks));
		row.summary.write(from.summaryOf(drill));
		row.fault.write(
			fault === undefined ? "" : `${searching.see} ${sentence(fault.see)} ${searching.say} ${fault.say}`,
		);
		const names = ABOUT.map((facet) =>
			from
				.valuesOf(drill, facet)
				.map(({ name }) => name)
				.join(", "),
		);
		row.about.write(names.filter((text) => text !== "").join(" · "));
	}

	#drillAddress(drill: number): string {
		return `${this.#root.dataset.root ?? ""}drills/${this.#index?.entries[drill]?.id ?? ""}/`;
	}

	async #shareLink(): Promise<void> {
		this.#writeAddress(false);
		try {
			if ("share" in navigator) await navigator.share({ url: location.href, title: document.title });
			else await (navigator as Navigator).clipboard.writeText(location.href);
			this.#share.textContent = searching.copied;
			setTimeout(() => {
				this.#share.textContent = searching.share;
			}, 2000);
		} catch {
			// She closed the share sheet; the address bar still has the link.
		}
	}
}

/** Filters as folds of boxes, built once; showing them again only changes numbers. */
function buildFacets(
	index: SearchIndex,
	into: HTMLElement,
	toggle: (facet: Facet, value: string) => void,
): readonly FacetControl[] {
	const controls = FACETS.map((facet): FacetControl => {
		const values = index.options.values[facet].map((value) => {
			const box = element("input", { type: "checkbox", value: value.id });
			box.addEventListener("change", () => toggle(facet, value.id));
			const count = element("span", { className: "search-number" });
			const row = element("label", { className: "search-value" }, [
				box,
				element("span", {}, [value.name]),
				count,
			]);
			return { value, row: new Shown(row), box, count: new Shown(count) };
		});
		const summary = element("summary", {}, [searching.facets[facet]]);
		const group = element("div", { className: "search-values", role: "group" }, [
			...values.map(({ row }) => row.element),
		]);
		group.setAttribute("aria-label", searching.facets[facet]);
		const fold = element("details", { className: "search-facet" }, [summary, group]);
		fold.dataset.facet = facet;
		return { facet, fold: new Shown(fold), summary: new Shown(summary), values };
	});
	into.replaceChildren(...controls.map(({ fold }) => fold.element));
	return controls;
}

function hitRow(): HitRow {
	const link = new Shown(element("a"));
	const lacks = new Shown(element("span", { className: "search-lacks" }));
	const summary = new Shown(element("p", { className: "search-summary" }));
	const fault = new Shown(element("p", { className: "search-fault" }));
	const about = new Shown(element("p", { className: "search-about" }));
	const children = [link, lacks, summary, fault, about].map((shown): HTMLElement => shown.element);
	const item = element("li", { className: "search-hit" }, children);
	return { drill: -1, item, link, lacks, summary, fault, about };
}

/**
 * A combobox with a list of suggestions, none taken unless she takes it (WAI-ARIA: editable, list
 * autocomplete with manual selection). The focus stays in the words; arrows move a mark.
 */
function combobox(
	input: HTMLInputElement,
	list: HTMLUListElement,
	actions: {
		suggest(): readonly Suggestion[];
		take(suggestion: Suggestion): void;
	},
): { open(): void; close(): void } {
	let offered: readonly Suggestion[] = [];
	let active = -1;

	input.addEventListener("keydown", (event) => {
		if (event.isComposing) return;
		if (event.key === "ArrowDown" || event.key === "ArrowUp") {
			if (list.hidden) open();
			if (offered.length === 0) return;
			event.preventDefault();
			// From the words down to the first, up to the last, and through the words again.
			const places = offered.length + 1;
			mark(((active + 1 + (event.key === "ArrowDown" ? 1 : -1) + places) % places) - 1);
		} else if (event.key === "Enter") {
			const suggestion = offered[active];
			if (list.hidden || suggestion === undefined) return;
			event.preventDefault();
			take(suggestion);
		} else if (event.key === "Escape" && !list.hidden) {
			event.preventDefault();
			close();
		} else if (event.key === "Tab") close();
	});
	input.addEventListener("blur", close);
	// A press must not take the focus from the words before it counts.
	list.addEventListener("pointerdown", (event) => event.preventDefault());
	list.addEventListener("mousedown", (event) => event.preventDefault());

	function open(): void {
		offered = actions.suggest();
		list.replaceChildren(
			...offered.map((suggestion, i) => {
				const about = `${searching.facets[suggestion.facet]}, ${searching.drills(suggestion.count)}`;
				const option = element("li", { id: `${list.id}-${i}`, role: "option" }, [
					element("span", {}, [suggestion.value.name]),
					element("span", { className: "search-about" }, [about]),
				]);
				option.addEventListener("click", () => take(suggestion));
				return option;
			}),
		);
		list.hidden = offered.length === 0;
		input.setAttribute("aria-expanded", String(!list.hidden));
		mark(-1);
	}

	function close(): void {
		offered = [];
		list.hidden = true;
		list.replaceChildren();
		input.setAttribute("aria-expanded", "false");
		mark(-1);
	}

	function mark(place: number): void {
		active = place;
		[...list.children].forEach((option, i) => {
			option.setAttribute("aria-selected", String(i === place));
			if (i === place) option.scrollIntoView({ block: "nearest" });
		});
		if (place < 0) input.removeAttribute("aria-activedescendant");
		else input.setAttribute("aria-activedescendant", `${list.id}-${place}`);
	}

	function take(suggestion: Suggestion): void {
		close();
		actions.take(suggestion);
	}

	return { open, close };
}

/** The typeface is as large as the heads of a thousand drills: over a weak net it comes after the results. */
function takeTypeface(): void {
	document.documentElement.dataset.typeface = "";
}

/** After what has been changed is on the screen. */
function painted(): Promise<void> {
	return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}

/** When there is nothing else to do, as far as the browser says so. */
function idle(): Promise<void> {
	return new Promise((resolve) => {
		if ("requestIdleCallback" in globalThis) requestIdleCallback(() => resolve());
		else setTimeout(resolve, PAUSE);
	});
}

async function fetchFile(address: string | undefined): Promise<Response> {
	const response = await fetch(address ?? "");
	if (!response.ok) throw new Error(`${response.status} ${address}`);
	return response;
}

async function fetchJson<T>(address: string | undefined): Promise<T> {
	return (await (await fetchFile(address)).json()) as T;
}

/** The pieces of a text, each as it comes. */
async function* fetchPieces(address: string | undefined): AsyncGenerator<string> {
	const reader = (await fetchFile(address)).body?.getReader();
	const decoder = new TextDecoder();
	for (;;) {
		const { done = true, value } = (await reader?.read()) ?? {};
		yield decoder.decode(value, { stream: !done });
		if (done) return;
	}
}

/** A line as a sentence: with a full stop, unless it ends in a mark of its own. */
function sentence(line: string): string {
	return /[.!?…]$/.test(line) ? line : `${line}.`;
}

function part<E extends HTMLElement = HTMLElement>(root: HTMLElement, selector: string): E {
	const found = root.querySelector<E>(selector);
	if (found === null) throw new Error(`The search page lacks ${selector}.`);
	return found;
}

function element<K extends keyof HTMLElementTagNameMap>(
	name: K,
	properties: Partial<HTMLElementTagNameMap[K]> = {},
	children: readonly (Node | string)[] = [],
): HTMLElementTagNameMap[K] {
	const made = Object.assign(document.createElement(name), properties);
	made.append(...children);
	return made;
}

const tool = document.querySelector<HTMLElement>("#search");
if (tool !== null) new SearchTool(tool);
