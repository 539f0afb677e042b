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
import { BEYOND, narrow } from "../read/narrow.ts";
import type { Words } from "../words/words.ts";
import { Html } from "./html.ts";
import type { FrameFacts, PageOf, SitePage, SitePageKind } from "./site.ts";
import { sitePage } from "./site-page.ts";

/** What the pages of a handbook share. */
export interface SharedFacts {
	readonly frame: FrameFacts;
	readonly shapes: ReadonlyMap<string, SharedShape>;
}

type SharedShape = Omit<LinkedShape, "source" | "drills">;

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
	/** Of lines that lists of many pages have in common. */
	readonly #lines = new WeakMap<object, string>();

	constructor({ shapes }: Pick<Handbook["curriculum"], "shapes">) {
		this.#shapes = new Map(Array.from(shapes.values(), (shape) => [shape, shape.id]));
	}

	of(page: SitePage): string {
		const { kind, address, title, description, crumbs, picture, view } = page;
		return this.#write([kind, address, title, description, crumbs, picture, view]);
	}

	/** As JSON.stringify would with a function for the strings, in half of its time. */
	#write(value: unknown): string {
		switch (typeof value) {
			case "string":
				return quoted(/^[<#~]/.test(value) ? `~${value}` : value);
			case "number":
				if (!Number.isFinite(value)) throw new TypeError("text cannot stand for this number");
				return String(value);
			case "boolean":
				return value ? "true" : "false";
			case "undefined":
				return "null";
			case "object":
				return value === null ? "null" : this.#writeObject(value);
			default:
				throw new TypeError(`text cannot stand for a ${typeof value}`);
		}
	}

	#writeObject(value: object): string {
		if (value instanceof Html) return quoted(`<${value.text}`);
		if (Array.isArray(value)) {
			let text = "";
			for (const one of value) text += (text === "" ? "" : ",") + this.#write(one);
			return `[${text}]`;
		}
		const shape = this.#shapes.get(value);
		if (shape !== undefined) return `"#${shape}"`;
		const prototype: unknown = Object.getPrototypeOf(value);
		if (prototype !== Object.prototype && prototype !== null) {
			throw new TypeError(`text cannot stand for a ${value.constructor.name}`);
		}
		if (!("link" in value)) return this.#writeFields(value);
		let text = this.#lines.get(value);
		if (text === undefined) {
			text = this.#writeFields(value);
			this.#lines.set(value, text);
		}
		return text;
	}

	#writeFields(value: object): string {
		let text = "";
		for (const key of Object.keys(value)) {
			const one: unknown = Reflect.get(value, key);
			if (one !== undefined) text += `${text === "" ? "" : ","}"${key}":${this.#write(one)}`;
		}
		return `{${text}}`;
	}
}

/** What all pages of a handbook share, as text. */
export function sharedText({ shapes }: Pick<Handbook["curriculum"], "shapes">, frame: FrameFacts): string {
	const { words: _words, printed, ...said } = frame;
	// Of a shape only what it is drawn by and called: what all pages share should seldom change.
	const plain = Array.from(
		shapes.values(),
		({ source: _source, drills: _drills, ...shape }): SharedShape => shape,
	);
	return oneByteJson({ frame: { ...said, printed: [...printed] }, shapes: plain });
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

/** A string as JSON without a character beyond Latin-1. */
function quoted(text: string): string {
	return PLAIN.test(text) ? `"${text}"` : oneByteJson(text);
}

/** Characters that stand for themselves in a JSON string, as far as Latin-1 has them. */
const PLAIN = /^[ !#-[\]-\xff]*$/;

function oneByteJson(value: unknown): string {
	const text = JSON.stringify(value);
	if (!BEYOND.test(text)) return text;
	return narrow(
		text.replace(/[^\0-\xff]/g, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`),
	);
}
