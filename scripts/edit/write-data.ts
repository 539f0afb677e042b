/**
 * Writes data into the text of a file that has it already in another state: only what differs is written,
 * and every other letter stays: comments, order, quotes, ends of lines, what stands on one line.
 *
 * Steps: walk what the text says and what it shall say together, by the places of the parsed YAML; a value
 * that differs is replaced where it stands, a field or an item goes with its lines, a new one comes behind
 * the one before it; a list keeps the items that are still in it, wherever they are now. What comes of it is
 * read again and must say exactly what was wanted: what cannot be written like this is refused, never
 * half done.
 */

import { isDeepStrictEqual } from "node:util";
import { diffArrays } from "diff";
import {
	Document,
	isCollection,
	isMap,
	isScalar,
	isSeq,
	type Node,
	type Pair,
	visit,
	type YAMLMap,
	type YAMLSeq,
} from "yaml";
import { type Data, isData } from "../read/data.ts";
import { parseYaml } from "../read/parse-yaml.ts";
import { type Splice, spliced } from "./club-texts.ts";
import { EditRefused } from "./move-block.ts";
import { inFlow } from "./write-changes.ts";
import { type PlacedFile, placeFile, yamlRange } from "./yaml-places.ts";

/** A list or map of plain values stays on one line up to this length. */
const ONE_LINE = 90;

/** What the YAML of a file says; undefined where it cannot be read. */
export function dataIn(path: string, text: string): unknown {
	const { from, to } = yamlRange(path, text);
	const parsed = parseYaml(text.slice(from, to).replace(/\r\n?/g, "\n"));
	return parsed.ok ? parsed.data : undefined;
}

/** The Markdown of a page; empty for a data file. */
export function bodyIn(path: string, text: string): string {
	return text.slice(yamlRange(path, text).body);
}

/**
 * The text with other data, and another Markdown body where one is given.
 *
 * @throws EditRefused where the text cannot be made to say it
 */
export function writeData(path: string, text: string, wanted: unknown, body?: string): string {
	const said = dataIn(path, text);
	if (said === undefined && text.trim() !== "" && !isBare(path, text)) {
		throw new EditRefused(`${path} cannot be read, so it can only be mended as a text.`);
	}
	const writer = new Writer(path, text);
	writer.whole(said, wanted);
	if (body !== undefined) writer.body(body);
	const result = writer.text();
	if (!isDeepStrictEqual(plain(dataIn(path, result)), plain(wanted))) {
		throw new EditRefused(`${path} is written in a way that a form cannot change here. Change its text.`);
	}
	return result;
}

/** Of a page without fields, or a data file of comments alone. */
function isBare(path: string, text: string): boolean {
	const { from, to } = yamlRange(path, text);
	return /^(\s*(#.*)?(\r?\n|$))*$/.test(text.slice(from, to));
}

/** Data as JSON has it: a field that is undefined is none. */
function plain(data: unknown): unknown {
	return data === undefined ? null : JSON.parse(JSON.stringify(data));
}

/** A new text of data: for files that are not there yet. */
export function freshText(path: string, data: unknown, body = ""): string {
	const yaml = linesOf(data).join("\n");
	return path.endsWith(".md") ? `---\n${yaml}\n---\n${body}` : `${yaml}\n`;
}

class Writer {
	readonly #text: string;
	readonly #file: PlacedFile;
	readonly #yamlEnd: number;
	readonly #end: "\n" | "\r\n";
	readonly #splices: Splice[] = [];
	/** What comes in at a place, in order. */
	readonly #inserts = new Map<number, string>();

	constructor(path: string, text: string) {
		this.#text = text;
		this.#file = placeFile(path, text);
		this.#yamlEnd = yamlRange(path, text).to;
		const feeds = text.match(/\n/g)?.length ?? 0;
		this.#end = (text.match(/\r\n/g)?.length ?? 0) * 2 > feeds ? "\r\n" : "\n";
	}

	text(): string {
		const inserts = [...this.#inserts].map(([start, text]) => ({ start, end: start, text }));
		return spliced(this.#text, [...this.#splices, ...inserts]);
	}

	body(body: string): void {
		const { body: start } = this.#file;
		const now = this.#text.slice(start);
		if (now.replace(/\r\n/g, "\n") === body.replace(/\r\n/g, "\n")) return;
		this.#splices.push({ start, end: this.#text.length, text: this.#ended(body.replace(/\r\n/g, "\n")) });
	}

	whole(was: unknown, now: unknown): void {
		const root = this.#file.document.contents;
		if (root === null || !isCollection(root) || root.items.length === 0) {
			if (isDeepStrictEqual(plain(was), plain(now)) || isEmpty(now)) return;
			if (isCollection(root)) this.#replace(this.#start(root), this.#endOf(root), linesOf(now).join("\n"));
			else this.#insert(this.#yamlEnd, `${linesOf(now).join("\n")}\n`);
			return;
		}
		this.#value(root, was, now, () =>
			this.#replace(this.#start(root), this.#endOf(root), linesOf(now).join("\n")),
		);
	}

	/** @param instead writes the value whole, where it is of another kind now */
	#value(node: Node, was: unknown, now: unknown, instead: () => void): void {
		if (isDeepStrictEqual(plain(was), plain(now))) return;
		if (isMap(node) && isData(was) && isData(now) && !isEmpty(now)) {
			if (node.flow === true) this.#flowMap(node, was, now);
			else this.#map(node, was, now, instead);
		} else if (isSeq(node) && Array.isArray(was) && Array.isArray(now) && now.length > 0) {
			if (node.flow === true) this.#flowList(node, was, now);
			else this.#list(node, was, now, instead);
		} else instead();
	}

	#map(node: YAMLMap, was: Data, now: Data, instead: () => void): void {
		const pairs = node.items as Pair<Node, Node | null>[];
		const stays = pairs.filter(({ key }) => now[nameOf(key)] !== undefined);
		const [first] = stays;
		if (first === undefined) {
			instead();
			return;
		}
		const column = this.#columnOf(this.#start(pairs[0]?.key as Node));
		this.#removePairs(pairs, stays);
		const known = new Set(pairs.map(({ key }) => nameOf(key)));
		let after: Pair<Node, Node | null> | undefined;
		const pending: string[] = [];
		const insert = (pair: Pair<Node, Node | null>, name: string): void =>
			this.#insertLines(this.#pairEnd(pair), linesOf({ [name]: now[name] }), column);
		const ordered = Object.keys(now).filter((name) => now[name] !== undefined);
		// In the order of the text, so that what comes in behind an inner field stands before what comes behind it.
		for (const pair of stays) {
			const name = nameOf(pair.key);
			this.#pair(pair, was[name], now[name], column);
		}
		for (const name of ordered) {
			if (known.has(name)) after = stays.find(({ key }) => nameOf(key) === name);
			else if (after === undefined) pending.push(name);
			else insert(after, name);
		}
		for (const name of pending) insert(stays.at(-1) ?? first, name);
	}

	/** Fields that go, each with its lines; one on the line of a hyphen gives its place to the next that stays. */
	#removePairs(pairs: readonly Pair<Node, Node | null>[], stays: readonly Pair<Node, Node | null>[]): void {
		const [first] = stays;
		const firstStays = first === undefined ? -1 : pairs.indexOf(first);
		const start = this.#start(pairs[0]?.key as Node);
		const isOnHyphen = this.#text.slice(this.#lineStart(start), start).trim() !== "";
		pairs.forEach((pair, i) => {
			if (stays.includes(pair)) return;
			if (isOnHyphen && i < firstStays) {
				if (i === 0) this.#replace(start, this.#start(first?.key as Node), "");
				return;
			}
			this.#cut(this.#lineStart(this.#start(pair.key)), this.#lineEnd(this.#pairEnd(pair)));
		});
	}

	#pair(pair: Pair<Node, Node | null>, was: unknown, now: unknown, column: number): void {
		const name = nameOf(pair.key);
		const start = this.#start(pair.key);
		const whole = (): void => {
			const value = pair.value;
			const end = this.#pairEnd(pair);
			if (isScalar(value) && isLineOfText(value, now) && this.#endOf(value) > this.#start(value)) {
				this.#replace(this.#start(value), end, likeBefore(this.#slice(value), now));
				return;
			}
			this.#replace(
				start,
				end,
				shifted(linesOf({ [name]: now }), column)
					.join("\n")
					.trimStart(),
			);
		};
		if (pair.value === null) {
			if (!isDeepStrictEqual(plain(was), plain(now))) whole();
		} else this.#value(pair.value, was, now, whole);
	}

	#list(node: YAMLSeq, was: readonly unknown[], now: readonly unknown[], instead: () => void): void {
		const items = node.items as Node[];
		const keys = (list: readonly unknown[]) => list.map((item) => JSON.stringify(plain(item)));
		const steps = diffArrays(keys(was), keys(now));
		if (items.length !== was.length || items.some((item) => !isNode(item))) {
			instead();
			return;
		}
		const hyphens = items.map((item) => this.#text.lastIndexOf("-", this.#start(item) - 1));
		if (hyphens.some((at) => this.#text.slice(this.#lineStart(at), at).trim() !== "")) {
			instead();
			return;
		}
		const column = this.#columnOf(hyphens[0] ?? 0);
		const lineOf = (i: number) =>
			[this.#lineStart(hyphens[i] ?? 0), this.#lineEnd(this.#endOf(items[i] as Node))] as const;
		/** The lines of items that go, for those that only stand elsewhere now. */
		const gone = new Map<string, string[]>();
		let at = 0;
		for (const { value, removed, added } of steps) {
			if (added) continue;
			for (const key of value) {
				if (removed) {
					const [from, to] = lineOf(at);
					gone.set(key, [...(gone.get(key) ?? []), this.#text.slice(from, to)]);
				}
				at++;
			}
		}
		if (now.length > 0 && !steps.some((step) => !step.added && !step.removed) && gone.size === 0) {
			instead();
			return;
		}
		const insert = (before: number, item: unknown, key: string): void => {
			const place = before < 0 ? lineOf(0)[0] : lineOf(before)[1];
			const moved = gone.get(key)?.shift();
			if (moved === undefined) this.#insertLines(place, linesOf([item]), column, true);
			else this.#insert(this.#freshLine(place), moved.endsWith("\n") ? moved : `${moved}\n`);
		};
		let old = 0;
		let next = 0;
		let last = -1;
		for (let s = 0; s < steps.length; s++) {
			const step = steps[s] as (typeof steps)[number];
			const follower = steps[s + 1];
			if (!step.added && !step.removed) {
				old += step.value.length;
				next += step.value.length;
				last = old - 1;
				continue;
			}
			const [out, into] = step.removed
				? [step.value.length, follower?.added === true ? follower.value.length : 0]
				: follower?.removed === true
					? [follower.value.length, step.value.length]
					: [0, step.value.length];
			if (out > 0 && into > 0) s++;
			const own = keys(now).slice(next, next + into);
			const isElsewhere = own.some((key) => (gone.get(key)?.length ?? 0) > 0);
			const changed = isElsewhere ? 0 : Math.min(out, into);
			for (let i = 0; i < changed; i++) {
				const index = old + i;
				const item = items[index] as Node;
				this.#value(item, was[index], now[next + i], () => {
					const lines = shifted(linesOf([now[next + i]]), column)
						.join("\n")
						.trimStart();
					this.#replace(hyphens[index] ?? 0, this.#endOf(item), lines);
				});
				last = index;
			}
			for (let i = changed; i < out; i++) this.#cut(...lineOf(old + i));
			const behind = changed > 0 ? last : old - 1;
			for (let i = changed; i < into; i++) insert(behind, now[next + i], own[i] ?? "");
			old += out;
			next += into;
		}
	}

	#flowMap(node: YAMLMap, was: Data, now: Data): void {
		const pairs = node.items as Pair<Node, Node | null>[];
		const names = pairs.map(({ key }) => nameOf(key));
		const wanted = Object.keys(now).filter((name) => now[name] !== undefined);
		const isSame = names.length === wanted.length && names.every((name) => wanted.includes(name));
		if (isSame && pairs.every(({ value }) => value !== null && isNode(value))) {
			for (const { key, value } of pairs) {
				const name = nameOf(key);
				this.#value(value as Node, was[name], now[name], () => this.#inFlow(value as Node, now[name]));
			}
			return;
		}
		this.#noComments(node);
		const kept = names.filter((name) => wanted.includes(name));
		const order = [...kept, ...wanted.filter((name) => !names.includes(name))];
		const parts = order.map((name) => {
			const pair = pairs[names.indexOf(name)];
			const isUnchanged = pair?.value && isDeepStrictEqual(plain(was[name]), plain(now[name]));
			return isUnchanged
				? this.#text.slice(this.#start(pair.key), this.#endOf(pair.value as Node))
				: `${inFlow(name)}: ${inFlow(now[name])}`;
		});
		this.#replace(this.#start(node), this.#endOf(node), `{${parts.join(", ")}}`);
	}

	#flowList(node: YAMLSeq, was: readonly unknown[], now: readonly unknown[]): void {
		const items = node.items as Node[];
		if (was.length === now.length && items.length === was.length) {
			items.forEach((item, i) => {
				this.#value(item, was[i], now[i], () => this.#inFlow(item, now[i]));
			});
			return;
		}
		this.#noComments(node);
		const sources = was.map(
			(item, i) => [JSON.stringify(plain(item)), this.#slice(items[i] as Node)] as const,
		);
		const parts = now.map((item) => {
			const key = JSON.stringify(plain(item));
			return sources.find(([own]) => own === key)?.[1] ?? inFlow(item);
		});
		this.#replace(this.#start(node), this.#endOf(node), `[${parts.join(", ")}]`);
	}

	#inFlow(node: Node, now: unknown): void {
		this.#replace(this.#start(node), this.#endOf(node), inFlow(now));
	}

	#noComments(node: Node): void {
		if (/#[^\n]*\n/.test(this.#slice(node)))
			throw new EditRefused("Comments stand between these brackets. Change the text of the file here.");
	}

	#replace(start: number, end: number, text: string): void {
		this.#splices.push({ start, end, text: this.#ended(text) });
	}

	/** Lines that go; two that touch are two splices that do not overlap. */
	#cut(start: number, end: number): void {
		this.#splices.push({ start, end, text: "" });
	}

	#insert(at: number, text: string): void {
		this.#inserts.set(at, (this.#inserts.get(at) ?? "") + this.#ended(text));
	}

	#insertLines(behind: number, lines: readonly string[], column: number, isLineStart = false): void {
		const place = isLineStart ? behind : this.#lineEnd(behind);
		this.#insert(this.#freshLine(place), `${shifted(lines, column).join("\n")}\n`);
	}

	/** At the end of a text whose last line is not ended, the line ends first. */
	#freshLine(place: number): number {
		if (
			place === this.#text.length &&
			place > 0 &&
			this.#text[place - 1] !== "\n" &&
			!this.#inserts.has(place)
		)
			this.#insert(place, "\n");
		return place;
	}

	#ended(text: string): string {
		const unix = text.replace(/\r\n/g, "\n");
		return this.#end === "\n" ? unix : unix.replaceAll("\n", "\r\n");
	}

	#slice(node: Node): string {
		return this.#text.slice(this.#start(node), this.#endOf(node));
	}

	#start(node: Node): number {
		return (node.range?.[0] ?? 0) + this.#file.offset;
	}

	/** Behind the last letter of a value. */
	#endOf(node: Node): number {
		const [start = 0, end = 0] = node.range ?? [];
		const from = start + this.#file.offset;
		return from + this.#text.slice(from, end + this.#file.offset).trimEnd().length;
	}

	#pairEnd({ key, value }: Pair<Node, Node | null>): number {
		const end = value === null || !isNode(value) ? 0 : this.#endOf(value);
		// Nothing behind the colon: that is where the value would stand.
		return Math.max(end, this.#text.indexOf(":", this.#endOf(key)) + 1);
	}

	#columnOf(at: number): number {
		return at - this.#lineStart(at);
	}

	#lineStart(at: number): number {
		return this.#text.lastIndexOf("\n", at - 1) + 1;
	}

	#lineEnd(at: number): number {
		const end = this.#text.indexOf("\n", at);
		return end < 0 ? this.#text.length : end + 1;
	}
}

/** Data as lines of YAML from the first column on; short lists and maps on one line. */
function linesOf(data: unknown): readonly string[] {
	const document = new Document(plain(data));
	visit(document, {
		Collection: (_, node, path) => {
			// The items of a list of maps stand on lines of their own.
			const isItem = isMap(node) && isSeq(path.at(-1));
			if (path.length > 1 && !isItem && isShort(node as YAMLMap | YAMLSeq)) {
				(node as YAMLMap | YAMLSeq).flow = true;
				return visit.SKIP;
			}
			return undefined;
		},
	});
	return document.toString({ lineWidth: 0, flowCollectionPadding: false }).trimEnd().split("\n");
}

function isShort(node: YAMLMap | YAMLSeq): boolean {
	const data: unknown = node.toJSON();
	if (isEmpty(data)) return true;
	const values = Array.isArray(data) ? data : Object.values(data as Data);
	const isPlain = values.every(
		(value) => (typeof value !== "object" || value === null) && !String(value).includes("\n"),
	);
	return isPlain && inFlow(data).length <= ONE_LINE;
}

function shifted(lines: readonly string[], column: number): readonly string[] {
	return lines.map((line) => (line === "" ? line : " ".repeat(column) + line));
}

/** Whether one line of text or a number stands there and comes there. */
function isLineOfText(node: Node, now: unknown): boolean {
	const isBlock = isScalar(node) && (node.type === "BLOCK_LITERAL" || node.type === "BLOCK_FOLDED");
	return !isBlock && (typeof now !== "object" || now === null) && !String(now).includes("\n");
}

/** A value with the quotes that stood there. */
function likeBefore(before: string, now: unknown): string {
	if (typeof now !== "string") return JSON.stringify(now ?? null);
	if (before.startsWith('"')) return JSON.stringify(now);
	if (before.startsWith("'")) return `'${now.replaceAll("'", "''")}'`;
	return linesOf({ k: now }).join("\n").slice("k: ".length);
}

function nameOf(key: Node): string {
	return isScalar(key) ? String(key.value) : "";
}

function isNode(value: unknown): value is Node {
	return isScalar(value) || isCollection(value);
}

function isEmpty(value: unknown): boolean {
	return (
		value === undefined ||
		value === null ||
		(Array.isArray(value) ? value.length === 0 : isData(value) && Object.keys(value).length === 0)
	);
}
