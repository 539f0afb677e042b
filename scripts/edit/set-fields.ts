/**
 * Fields of a page or a data file given other values, added or taken out: only the letters of those fields
 * change, so that comments, order and the way of writing stay. Read back before it is handed on.
 */

import { isDeepStrictEqual } from "node:util";
import { isMap, isScalar, isSeq, type Pair, parseDocument, stringify, type YAMLMap } from "yaml";
import type { DataPath } from "../model.ts";
import { parseYaml } from "../read/parse-yaml.ts";
import { splitPage } from "../read/split-page.ts";
import { type Splice, spliced } from "./club-texts.ts";
import { inFlow } from "./write-changes.ts";
import { yamlRange } from "./yaml-places.ts";

/** A field at a path; without a value it is taken out. */
export interface FieldEdit {
	readonly path: DataPath;
	readonly value?: unknown;
}

type Json = Record<string, unknown> | unknown[];

/** The text with the edits made one after the other; undefined where reading it back gives something else. */
export function setFields(path: string, text: string, edits: readonly FieldEdit[]): string | undefined {
	const isPage = path.endsWith(".md");
	const before = dataIn(text, isPage);
	if (before === undefined) return undefined;
	let result = text;
	for (const edit of edits) {
		const { from, to } = yamlRange(path, result);
		const own = result.slice(from, to);
		const splice = spliceFor(own, edit);
		if (splice === undefined) return undefined;
		result = result.slice(0, from) + spliced(own, [splice]) + result.slice(to);
	}
	const wanted = structuredClone(before) as Json;
	for (const edit of edits) put(wanted, edit.path, edit.value);
	return isDeepStrictEqual(plain(dataIn(result, isPage)), plain(wanted)) ? result : undefined;
}

function dataIn(text: string, isPage: boolean): unknown {
	const page = isPage ? splitPage(text.replaceAll("\r\n", "\n")) : { matter: text.replaceAll("\r\n", "\n") };
	if (!("matter" in page)) return undefined;
	const read = parseYaml(page.matter);
	return read.ok ? read.data : undefined;
}

function spliceFor(text: string, { path, value }: FieldEdit): Splice | undefined {
	const name = path.at(-1);
	const document = parseDocument(text, { keepSourceTokens: true });
	const parent = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
	if (isSeq(parent) && typeof name === "number" && value !== undefined && name === parent.items.length) {
		return appended(text, parent.range?.[0] ?? 0, parent.flow === true, value);
	}
	if (!isMap(parent) || typeof name !== "string") return undefined;
	const at = parent.items.findIndex(({ key }) => isScalar(key) && String(key.value) === name);
	const pair = parent.items[at];
	if (pair === undefined) return value === undefined ? undefined : added(text, parent, name, value);
	const [start, end] = rangeOf(text, pair);
	if (value === undefined) return takenOut(text, parent, at);
	const written =
		parent.flow === true ? flowField(name, value) : blockField(name, value, columnOf(text, start), text);
	return { start, end, text: written };
}

/** From the first letter of a field's name to the last of its value. */
function rangeOf(text: string, { key, value }: Pair): readonly [number, number] {
	const of = (node: unknown) => (node as { range?: [number, number, number] | null } | null)?.range;
	const start = of(key)?.[0] ?? 0;
	const end = Math.max(of(value)?.[1] ?? 0, of(key)?.[1] ?? 0);
	return [start, start + text.slice(start, end).trimEnd().length];
}

function columnOf(text: string, at: number): number {
	return at - (text.lastIndexOf("\n", at - 1) + 1);
}

function lineEndOf(text: string): string {
	return text.includes("\r\n") ? "\r\n" : "\n";
}

function flowField(name: string, value: unknown): string {
	return `${inFlow(name)}: ${inFlow(value)}`;
}

/** A field on lines of its own; short lists and maps in brackets. */
function blockField(name: string, value: unknown, column: number, text: string): string {
	const flow = inFlow(value);
	const isCollection = typeof value === "object" && value !== null;
	if (isCollection && flow.length <= 100 && !flow.includes("\\n")) return `${inFlow(name)}: ${flow}`;
	const lines = stringify({ [name]: value }, { lineWidth: 0 })
		.trimEnd()
		.split("\n");
	return lines
		.map((line, i) => (i === 0 || line === "" ? line : " ".repeat(column) + line))
		.join(lineEndOf(text));
}

function added(text: string, parent: YAMLMap, name: string, value: unknown): Splice {
	const last = parent.items.at(-1);
	if (last === undefined) {
		const [start = 0, end = start] = parent.range ?? [];
		return { start, end, text: `{${flowField(name, value)}}` };
	}
	const [first] = rangeOf(text, parent.items[0] ?? last);
	const [, end] = rangeOf(text, last);
	if (parent.flow === true) return { start: end, end, text: `, ${flowField(name, value)}` };
	const column = columnOf(text, first);
	// Behind a remark on the same line.
	const lineEnd = /[\r\n]|$/.exec(text.slice(end))?.index ?? 0;
	const at = end + lineEnd;
	return {
		start: at,
		end: at,
		text: `${lineEndOf(text)}${" ".repeat(column)}${blockField(name, value, column, text)}`,
	};
}

function takenOut(text: string, parent: YAMLMap, at: number): Splice | undefined {
	const pair = parent.items[at];
	if (pair === undefined) return undefined;
	const [start, end] = rangeOf(text, pair);
	const before = parent.items[at - 1];
	const after = parent.items[at + 1];
	if (parent.flow === true) {
		if (after !== undefined) return { start, end: rangeOf(text, after)[0], text: "" };
		return { start: before === undefined ? start : rangeOf(text, before)[1], end, text: "" };
	}
	const lineStart = start - columnOf(text, start);
	// The first field of an item stands behind its hyphen: what follows moves up to it.
	if (/\S/.test(text.slice(lineStart, start))) {
		return after === undefined ? undefined : { start, end: rangeOf(text, after)[0], text: "" };
	}
	const newline = text.indexOf("\n", end);
	return { start: lineStart, end: newline < 0 ? text.length : newline + 1, text: "" };
}

/** One more item of a list. */
function appended(text: string, start: number, isFlow: boolean, value: unknown): Splice | undefined {
	if (isFlow) return undefined;
	const end = text.trimEnd().length;
	const newline = lineEndOf(text);
	return {
		start: end,
		end: text.length,
		text: `${newline}${" ".repeat(columnOf(text, start))}- ${inFlow(value)}${newline}`,
	};
}

function put(data: Json, path: DataPath, value: unknown): void {
	let at = data as Record<string | number, unknown>;
	for (const step of path.slice(0, -1)) at = at[step] as Record<string | number, unknown>;
	const last = path.at(-1) ?? "";
	if (value === undefined) delete at[last];
	else at[last] = value;
}

function plain(data: unknown): unknown {
	return data === undefined ? undefined : JSON.parse(JSON.stringify(data));
}
