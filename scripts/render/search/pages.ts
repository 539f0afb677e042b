/** Pages that are no drill (a class, a guide, a week, a skill), found by the same words. */

import type { Normaliser } from "./normalise.ts";
import { TermIndex } from "./term-index.ts";

/** A page as the search sees it. */
export interface SearchPage {
	/** From the root of the site. */
	readonly address: string;
	readonly name: string;
	/** What kind of page it is, in the reader's words. */
	readonly kind: string;
	readonly aliases: readonly string[];
	/** What else it is found by. */
	readonly words: string;
}

const WEIGHTS = { name: 4, alias: 3, words: 1 };

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
		pages.forEach(({ name, aliases, words }, page) => {
			for (const text of [name, ...aliases]) {
				normaliser.learn(text, -1);
				const key = normaliser.stemsOf(text).join(" ");
				this.#called.set(key, [...(this.#called.get(key) ?? []), page]);
			}
			this.#terms.add(page, {
				name: normaliser.stemsOf(name),
				alias: aliases.flatMap((alias) => normaliser.stemsOf(alias)),
				words: [...new Set(normaliser.stemsOf(words))],
			});
		});
	}

	/** The pages that answer all words, those called so first. */
	find(query: string, most: number): readonly SearchPage[] {
		const { terms, isLastBegun } = this.#normaliser.wordsAsked(query);
		if (terms.length === 0) return [];
		const called = this.#called.get(terms.join(" ")) ?? [];
		const found = new Set([...called, ...this.#terms.findAll(terms, isLastBegun)]);
		return [...found].slice(0, most).flatMap((page) => this.#pages[page] ?? []);
	}
}
