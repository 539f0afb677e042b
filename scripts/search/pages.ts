/** Pages that are no drill (a class, a guide, a week, a skill), found by the same words. */

import type { Normaliser } from "./normalise.ts";
import { TermIndex } from "./term-index.ts";

export interface SearchPage {
	/** From the root of the site. */
	readonly address: string;
	readonly name: string;
	/** What kind of page it is, in the reader's words. */
	readonly kind: string;
	readonly aliases: readonly string[];
	/** What else it goes by: the day and the levels of a class. */
	readonly words: string;
	/** What it says. */
	readonly text: string;
}

const WEIGHTS = { name: 4, alias: 3, words: 1, text: 0.5 };
/** Who looks for a drill is not led away by what guides happen to say. */
const MOST_BY_TEXT = 1;

export class PageIndex {
	readonly #pages: readonly SearchPage[];
	readonly #normaliser: Normaliser;
	readonly #terms = new TermIndex(WEIGHTS);
	/** Names and aliases as stems → pages that are called so. */
	readonly #called = new Map<string, number[]>();

	/** @param normaliser from now on knows the pages' names as spellings */
	constructor(pages: readonly SearchPage[], normaliser: Normaliser) {
		this.#pages = pages;
		this.#normaliser = normaliser;
		pages.forEach(({ name, aliases, words, text }, page) => {
			for (const text of [name, ...aliases]) {
				normaliser.learn(text, -1);
				const key = normaliser.stemsOf(text).join(" ");
				this.#called.set(key, [...(this.#called.get(key) ?? []), page]);
			}
			this.#terms.add(page, {
				name: normaliser.stemsOf(name),
				alias: aliases.flatMap((alias) => normaliser.stemsOf(alias)),
				words: normaliser.stemsOf(words),
				text: [...new Set(normaliser.stemsOf(text))],
			});
		});
	}

	/** The pages that answer all words, those called so first, those that only say so last. */
	find(query: string, most: number): readonly SearchPage[] {
		const { terms, isLastBegun } = this.#normaliser.wordsAsked(query);
		if (terms.length === 0) return [];
		const called = this.#called.get(terms.join(" ")) ?? [];
		const found = new Set([
			...called,
			...this.#terms.findAll(terms, isLastBegun, ["name", "alias", "words"]),
		]);
		const saying = this.#terms
			.findAll(terms, isLastBegun, ["name", "alias", "words", "text"])
			.filter((page) => !found.has(page));
		return [...found, ...saying.slice(0, MOST_BY_TEXT)]
			.slice(0, most)
			.flatMap((page) => this.#pages[page] ?? []);
	}
}
