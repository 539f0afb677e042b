/**
 * A page as text: everything that its document is made of, but for what all pages share.
 *
 * Whoever has such texts, what pages share, and the page functions can make every page: so the build
 * makes pages in another thread, and a device that keeps the handbook makes them when they are opened
 * (offline/makers.ts). A text is JSON. In it a string that begins with `<` is markup, one that begins
 * with `#` is the shape of that id, and one that only looks so has a `~` in front. What is undefined is
 * left out, and in lists it is null.
 *
 * Texts hold no character beyond Latin-1: one would double the memory of the whole.
 */

import type { Handbook } from "../handbook.ts";
import type { LinkedShape } from "../model.ts";
import type { Words } from "../words/words.ts";
import { Html } from "./html.ts";
import type { FrameFacts, PageOf, SitePage, SitePageKind } from "./site.ts";
import { sitePage } from "./site-page.ts";

/** What the pages of a handbook share. */
export interface SharedFacts {
	readonly frame: FrameFacts;
	readonly shapes: ReadonlyMap<string, LinkedShape>;
}

type PageFields = readonly [
	kind: SitePageKind,
	address: string,
	title: string,
	description: string | null,
	crumbs: PageOf<SitePageKind>["crumbs"],
	picture: string | null,
	view: unknown,
];

/** Writes pages of one handbook as texts. */
export class PageTexts {
	readonly #shapes: ReadonlyMap<unknown, string>;

	constructor({ shapes }: Pick<Handbook["curriculum"], "shapes">) {
		this.#shapes = new Map(Array.from(shapes.values(), (shape) => [shape, shape.id]));
	}

	of(page: SitePage): string {
		const { kind, address, title, description, crumbs, picture, view } = page;
		const fields = [kind, address, title, description, crumbs, picture, view];
		return oneByteJson(fields, (value) => {
			if (value instanceof Html) return `<${value.text}`;
			if (typeof value === "string") return /^[<#~]/.test(value) ? `~${value}` : value;
			const shape = typeof value === "object" ? this.#shapes.get(value) : undefined;
			return shape === undefined ? value : `#${shape}`;
		});
	}
}

/** What all pages of a handbook share, as text. */
export function sharedText({ shapes }: Pick<Handbook["curriculum"], "shapes">, frame: FrameFacts): string {
	const { words: _words, printed, ...said } = frame;
	return oneByteJson({ frame: { ...said, printed: [...printed] }, shapes: [...shapes.values()] });
}

/** @param words those of the handbook's language */
export function readShared(text: string, words: Words): SharedFacts {
	const { frame, shapes } = JSON.parse(text);
	return {
		frame: { ...frame, printed: new Set(frame.printed), words },
		shapes: new Map(shapes.map((shape: LinkedShape) => [shape.id, shape])),
	};
}

/** Whether a file of an edition is a page's text; the page itself begins with its document type. */
export function isPageText(text: string): boolean {
	return text.startsWith('["');
}

/** The page of a text. */
export function readPage(text: string, shared: SharedFacts): SitePage {
	const [kind, address, title, description, crumbs, picture, view] = readFields(text, (id) =>
		shared.shapes.get(id),
	);
	const about = {
		description: description ?? undefined,
		crumbs,
		picture: picture ?? undefined,
		frame: shared.frame,
	};
	// Its view was written from a page of the same kind.
	return sitePage(kind, address, title, about, () => view as never);
}

/** What the view of a page's text says, without what it shares with others: for what is read out of pages. */
export function readView(text: string): unknown {
	return readFields(text, () => undefined)[6];
}

function readFields(text: string, shapeOf: (id: string) => unknown): PageFields {
	return revived(JSON.parse(text), shapeOf) as PageFields;
}

/** The values that strings stand for, in place of them. */
function revived(value: unknown, shapeOf: (id: string) => unknown): unknown {
	if (typeof value === "string") {
		switch (value.charCodeAt(0)) {
			case 0x3c:
				return new Html(value.slice(1));
			case 0x23:
				return shapeOf(value.slice(1));
			case 0x7e:
				return value.slice(1);
			default:
				return value;
		}
	}
	if (value === null) return undefined;
	if (typeof value !== "object") return value;
	if (Array.isArray(value)) {
		for (let i = 0; i < value.length; i++) value[i] = revived(value[i], shapeOf);
		return value;
	}
	const record = value as Record<string, unknown>;
	for (const key in record) {
		const one = record[key];
		if (typeof one === "string" || (typeof one === "object" && one !== null))
			record[key] = revived(one, shapeOf);
	}
	return record;
}

function oneByteJson(value: unknown, written: (value: unknown) => unknown = (one) => one): string {
	return JSON.stringify(value, (_, one) => written(one)).replace(
		/[^\0-\xff]/g,
		(character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`,
	);
}
