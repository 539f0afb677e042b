/**
 * The search page's program.
 *
 *   start    take the choice from the address, fetch the heads, then the bodies
 *   choose   words typed, a filter ticked, a suggestion taken, a chip removed → a new choice
 *   show     search, and bring count, chips, filters and results up to date, without rebuilding filters
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
} from "../../scripts/render/search/choice.ts";
import {
	type BodiesFile,
	type FacetValue,
	type HeadFile,
	type Hit,
	openIndex,
	type SearchIndex,
	type SearchResult,
	type Suggestion,
} from "../../scripts/render/search/engine.ts";

const FACET_NAMES: Readonly<Record<Facet, string>> = {
	shape: "Shape",
	level: "Level",
	apparatus: "Apparatus",
	skill: "Skill",
	direction: "Direction",
	week: "Week",
	equipment: "Equipment",
	minutes: "Planned minutes",
};
const WORDS = {
	drills: (count: number) => (count === 0 ? "No drill" : count === 1 ? "1 drill" : `${count} drills`),
	near: (count: number) => `${count} more that come near`,
	nearOnly: (count: number) => `No drill has all of it; ${count} come near`,
	lacks: (parts: readonly string[]) => `without ${parts.join(", ")}`,
	read: (typed: string, used: string) => `“${typed}” was read as “${used}”.`,
	unknown: (part: string) => `Nothing found for “${part}”.`,
	filters: (chosen: number) => (chosen === 0 ? "Filters" : `Filters (${chosen})`),
	remove: (facet: string, value: string) => `Remove ${facet}: ${value}`,
	removeAll: "Remove all",
	failed: "The search could not be loaded. The lists below work without it.",
	copied: "Link copied",
	share: "Share this list",
	more: (count: number) => `Show ${count} more`,
};
/** Where the filters stand beside the results, as in the styles. */
const WIDE = "(min-width: 60rem)";
/** Results shown at first, and added at each "more". */
const PAGE = 30;
/** Milliseconds without typing before the address is written and the count is read out. */
const PAUSE = 400;

interface FacetControl {
	readonly facet: Facet;
	readonly fold: HTMLDetailsElement;
	readonly summary: HTMLElement;
	readonly values: readonly {
		readonly value: FacetValue;
		readonly row: HTMLElement;
		readonly box: HTMLInputElement;
		readonly count: HTMLElement;
	}[];
}

const tool = document.querySelector<HTMLElement>("#search");
if (tool !== null) start(tool);

function start(root: HTMLElement): void {
	const input = part<HTMLInputElement>(root, "#search-words");
	const list = part<HTMLUListElement>(root, "#search-suggestions");
	const count = part(root, ".search-count");
	const live = part(root, ".search-live");
	const note = part(root, ".search-note");
	const chosen = part(root, ".search-chosen");
	const filters = part<HTMLDetailsElement>(root, ".search-filters");
	const facets = part(root, ".search-facets");
	const hits = part(root, ".search-hits");
	const more = part<HTMLButtonElement>(root, ".search-more");
	const share = part<HTMLButtonElement>(root, ".search-share");

	let index: SearchIndex | undefined;
	let choice: Choice = readChoice(location.search);
	let controls: readonly FacetControl[] = [];
	let result: SearchResult | undefined;
	let shown = PAGE;
	let pause: ReturnType<typeof setTimeout> | undefined;

	input.value = choice.words;
	const suggestions = combobox(input, list, {
		suggest: () => index?.suggest(input.value, choice.filters) ?? [],
		take: (suggestion) => {
			input.value = suggestion.rest;
			const filters = toggled(choice.filters, suggestion.facet, suggestion.value.id);
			choose({ words: suggestion.rest, filters }, true);
		},
	});

	input.addEventListener("input", () => {
		choose({ ...choice, words: input.value }, false);
		suggestions.open();
	});
	part(root, "form").addEventListener("submit", (event) => {
		event.preventDefault();
		suggestions.close();
		writeAddress(false);
		// On a phone the keyboard makes room for the results.
		if (!matchMedia(WIDE).matches) input.blur();
	});
	addEventListener("popstate", () => {
		choice = readChoice(location.search);
		input.value = choice.words;
		shown = PAGE;
		show();
	});
	more.addEventListener("click", () => {
		const next = hits.children.length;
		shown += PAGE;
		showHits();
		hits.children[next]?.querySelector("a")?.focus();
	});
	if ("share" in navigator || "clipboard" in navigator) {
		share.hidden = false;
		share.addEventListener("click", () => void shareLink());
	}
	void load();

	async function load(): Promise<void> {
		try {
			index = openIndex(await fetchJson<HeadFile>(root.dataset.head));
		} catch {
			count.textContent = WORDS.failed;
			return;
		}
		controls = buildFacets(index, facets, (facet, value) => {
			choose({ ...choice, filters: toggled(choice.filters, facet, value) }, true);
		});
		openFolds();
		show();
		try {
			index.addBodies(await fetchJson<BodiesFile>(root.dataset.bodies));
			// Nobody's list moves without words: only these can find more in bodies.
			if (choice.words.trim() !== "") show();
		} catch {
			// Heads alone still answer; the next visit tries again.
		}
	}

	/** On a wide screen the filters stand open, with the short lists and those in use. */
	function openFolds(): void {
		filters.open = matchMedia(WIDE).matches;
		for (const { facet, fold } of controls) {
			fold.open = facet === "level" || facet === "apparatus" || choice.filters[facet] !== undefined;
		}
	}

	function choose(next: Choice, step: boolean): void {
		choice = next;
		shown = PAGE;
		show();
		clearTimeout(pause);
		if (step) writeAddress(true);
		pause = setTimeout(() => {
			writeAddress(false);
			live.textContent = count.textContent;
		}, PAUSE);
	}

	/** A filter is a step that "back" undoes; typing is not. */
	function writeAddress(step: boolean): void {
		const address = location.pathname + writeChoice(choice);
		if (address === location.pathname + location.search) return;
		if (step) history.pushState(null, "", address);
		else history.replaceState(null, "", address);
	}

	function show(): void {
		if (index === undefined) return;
		result = index.search(choice.words, choice.filters);
		const near = result.hits.length - result.whole;
		count.textContent =
			near === 0
				? WORDS.drills(result.whole)
				: result.whole === 0
					? WORDS.nearOnly(near)
					: `${WORDS.drills(result.whole)}, ${WORDS.near(near)}`;
		const notes = [
			...result.repairs.map(({ typed, used }) => WORDS.read(typed, used)),
			...result.unknown.map(WORDS.unknown),
		];
		note.hidden = notes.length === 0;
		note.textContent = notes.join(" ");
		showChips();
		showFacets(result);
		showHits();
	}

	function showChips(): void {
		const items = FACETS.flatMap((facet) =>
			(choice.filters[facet] ?? []).map((id) => {
				const name = index?.options.values[facet].find((value) => value.id === id)?.name ?? id;
				const button = element("button", { type: "button", className: "search-chip" }, [
					name,
					element("span", { ariaHidden: "true" }, ["×"]),
				]);
				button.setAttribute("aria-label", WORDS.remove(FACET_NAMES[facet], name));
				button.addEventListener("click", () => {
					choose({ ...choice, filters: toggled(choice.filters, facet, id) }, true);
					// The chip is gone; the next one, or the words, take the focus.
					(chosen.querySelector("button") ?? input).focus();
				});
				return element("li", {}, [button]);
			}),
		);
		if (items.length > 1) {
			const button = element("button", { type: "button", className: "search-chip all" }, [WORDS.removeAll]);
			button.addEventListener("click", () => {
				choose({ ...choice, filters: {} }, true);
				input.focus();
			});
			items.push(element("li", {}, [button]));
		}
		chosen.replaceChildren(...items);
		const summary = filters.querySelector("summary");
		if (summary !== null) summary.textContent = WORDS.filters(countChosen(choice.filters));
	}

	function showFacets({ counts }: SearchResult): void {
		for (const { facet, fold, summary, values } of controls) {
			let offered = 0;
			for (const { value, row, box, count: number } of values) {
				const drills = counts[facet].get(value.id) ?? 0;
				box.checked = isChosen(choice.filters, facet, value.id);
				row.hidden = drills === 0 && !box.checked;
				if (!row.hidden) offered++;
				number.textContent = String(drills);
			}
			fold.hidden = offered === 0;
			const chosenHere = choice.filters[facet]?.length ?? 0;
			summary.textContent = FACET_NAMES[facet] + (chosenHere === 0 ? "" : ` (${chosenHere})`);
		}
	}

	function showHits(): void {
		if (index === undefined || result === undefined) return;
		const { entries, options } = index;
		const page = result.hits.slice(0, shown);
		hits.replaceChildren(...page.map((hit) => hitItem(hit, entries, options.values, drillAddress)));
		const left = result.hits.length - page.length;
		more.hidden = left <= 0;
		more.textContent = WORDS.more(Math.min(PAGE, left));
	}

	function drillAddress(drill: number): string {
		return `${root.dataset.root ?? ""}drills/${index?.entries[drill]?.id ?? ""}/`;
	}

	async function shareLink(): Promise<void> {
		writeAddress(false);
		try {
			if ("share" in navigator) await navigator.share({ url: location.href, title: document.title });
			else await (navigator as Navigator).clipboard.writeText(location.href);
			share.textContent = WORDS.copied;
			setTimeout(() => {
				share.textContent = WORDS.share;
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
			return { value, row, box, count };
		});
		const summary = element("summary", {}, [FACET_NAMES[facet]]);
		const group = element("div", { className: "search-values", role: "group" }, [
			...values.map(({ row }) => row),
		]);
		group.setAttribute("aria-label", FACET_NAMES[facet]);
		const fold = element("details", { className: "search-facet" }, [summary, group]);
		fold.dataset.facet = facet;
		return { facet, fold, summary, values };
	});
	into.replaceChildren(...controls.map(({ fold }) => fold));
	return controls;
}

function hitItem(
	hit: Hit,
	entries: SearchIndex["entries"],
	values: SearchIndex["options"]["values"],
	address: (drill: number) => string,
): HTMLElement {
	const entry = entries[hit.drill];
	const names = (facet: Facet) =>
		(entry?.facets[FACETS.indexOf(facet)] ?? []).map((place) => values[facet][place]?.name ?? "").join(", ");
	const about = [names("apparatus"), names("level"), names("shape")].filter((text) => text !== "");
	return element("li", { className: "search-hit" }, [
		element("a", { href: address(hit.drill) }, [entry?.title ?? ""]),
		...(hit.lacks.length === 0
			? []
			: [element("span", { className: "search-lacks" }, [WORDS.lacks(hit.lacks)])]),
		...(entry === undefined || entry.summary === "" ? [] : [element("p", {}, [entry.summary])]),
		element("p", { className: "search-about" }, [about.join(" · ")]),
	]);
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
				const about = `${FACET_NAMES[suggestion.facet]}, ${WORDS.drills(suggestion.count)}`;
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

async function fetchJson<T>(address: string | undefined): Promise<T> {
	const response = await fetch(address ?? "");
	if (!response.ok) throw new Error(`${response.status} ${address}`);
	return (await response.json()) as T;
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
