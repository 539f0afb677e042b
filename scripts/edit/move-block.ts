/**
 * Takes a block out of a week's file and puts it into another place, its lines as they were written:
 * comments above it go with it, and only its indentation follows the new place.
 */

import { isMap, isScalar, isSeq, type Node } from "yaml";
import type { Id } from "../model.ts";
import { type ClubTexts, kindOf } from "./club-texts.ts";
import { nodeAt, placeFile } from "./yaml-places.ts";

/** A block by its week's number, its apparatus, and its place there, counted from 1. */
export interface BlockPlace {
	readonly week: number;
	readonly apparatus: Id;
	readonly block: number;
}

/** A mistake of the one who asks, as a sentence, or several on lines. */
export class EditRefused extends Error {
	/** What the other changes of a list make of the texts. */
	readonly rest: ClubTexts | undefined;
	constructor(message: string, rest?: ClubTexts) {
		super(message);
		this.rest = rest;
	}
}

/** Reads "3/beam/2". */
export function readPlace(text: string): BlockPlace {
	const [, week, apparatus, block] = /^(\d+)\/([a-z0-9-]+)\/([1-9]\d*)$/.exec(text) ?? [];
	if (apparatus === undefined) {
		throw new EditRefused(
			`\`${text}\` is no place of a block. Write week/apparatus/block, such as 3/beam/2.`,
		);
	}
	return { week: Number(week), apparatus, block: Number(block) };
}

/** The texts with one block moved; `to` is where it stands afterwards. */
export function moveBlock(texts: ClubTexts, from: BlockPlace, to: BlockPlace): ClubTexts {
	const taken = takeBlock(texts, from);
	return putBlock(taken.texts, to, taken.lines, taken.column);
}

/** The path of a week's file. Throws `EditRefused` where no file plans the week. */
export function weekPath(texts: ClubTexts, week: number): string {
	const weeks: number[] = [];
	for (const [path, text] of texts) {
		if (kindOf(path) !== "week") continue;
		const own = weekIn(path, text);
		if (own === week) return path;
		weeks.push(own);
	}
	throw new EditRefused(
		`Week ${week} has no plan. Planned are ${weeks.length === 0 ? "none" : weeks.sort((a, b) => a - b).join(", ")}.`,
	);
}

/** As it is usually written, else by taking the file apart, which is slow. */
function weekIn(path: string, text: string): number {
	const plain = /^---[ \t]*\r?\n(?:#[^\n]*\n)*week:[ \t]*(\d+)[ \t]*\r?\n/.exec(text)?.[1];
	return Number(plain ?? nodeText(nodeAt(placeFile(path, text).document, ["week"])));
}

interface Taken {
	readonly texts: ClubTexts;
	/** The block's lines, with comments above it, ends of lines left out. */
	readonly lines: readonly string[];
	/** Where its hyphen stood. */
	readonly column: number;
}

/** A week's block as its lines, and the texts without it. */
export function takeBlock(texts: ClubTexts, place: BlockPlace): Taken {
	const path = weekPath(texts, place.week);
	const text = texts.get(path) ?? "";
	const list = blocksOf(path, text, place);
	const item = list.items[place.block - 1];
	if (item === undefined) {
		throw new EditRefused(
			`Week ${place.week} has ${list.items.length} block${list.items.length === 1 ? "" : "s"} on ${place.apparatus}, so no block ${place.block}.`,
		);
	}
	const { lines } = linesOf(text);
	const own = lines.slice(item.from, item.to).map((line) => line.replace(/\r$/, ""));
	const rest = [...lines.slice(0, item.from), ...lines.slice(item.to)];
	// The last block leaves an empty list behind, on the line of its name.
	if (list.items.length === 1)
		rest[list.nameLine] = (rest[list.nameLine] ?? "").replace(/\s*?(\r?)$/, " []$1");
	return {
		texts: new Map(texts).set(path, rest.join("\n")),
		lines: own,
		column: item.column,
	};
}

/** The texts with a block's lines put in, so that it stands at a place; `column` is where its hyphen stood. */
export function putBlock(
	texts: ClubTexts,
	place: BlockPlace,
	block: readonly string[],
	column: number,
): ClubTexts {
	const path = weekPath(texts, place.week);
	const text = texts.get(path) ?? "";
	const { lines, cr } = linesOf(text);
	if (!hasApparatus(path, text, place.apparatus)) {
		if (place.block !== 1) {
			throw new EditRefused(
				`Week ${place.week} has nothing on ${place.apparatus} yet, so the block can only be its first.`,
			);
		}
		const { line, indent } = endOfApparatus(path, text);
		const inner = `${indent}  `;
		const added = [
			`${indent}${place.apparatus}:`,
			`${inner}blocks:`,
			...shifted(block, inner.length + 2 - column),
		].map((line) => line + cr);
		return new Map(texts).set(path, [...lines.slice(0, line), ...added, ...lines.slice(line)].join("\n"));
	}
	const list = blocksOf(path, text, place);
	if (place.block > list.items.length + 1) {
		throw new EditRefused(
			`Week ${place.week} would have ${list.items.length + 1} blocks on ${place.apparatus}, so none could be number ${place.block}.`,
		);
	}
	const before = list.items[place.block - 1];
	const last = list.items.at(-1);
	const at = before?.from ?? last?.to ?? list.nameLine + 1;
	const wanted = (before ?? last)?.column ?? list.nameColumn + 2;
	const result = [
		...lines.slice(0, at),
		...shifted(block, wanted - column).map((line) => line + cr),
		...lines.slice(at),
	];
	if (last === undefined) result[list.nameLine] = (result[list.nameLine] ?? "").replace(/\s*\[\s*\]/, "");
	return new Map(texts).set(path, result.join("\n"));
}

interface ListedBlocks {
	/** Lines from `from` to before `to`, counted from 0 in the whole text. */
	readonly items: readonly { readonly from: number; readonly to: number; readonly column: number }[];
	/** The line and the column of the word `blocks`. */
	readonly nameLine: number;
	readonly nameColumn: number;
}

/** The blocks of an apparatus, each on lines of its own. */
function blocksOf(path: string, text: string, { week, apparatus }: BlockPlace): ListedBlocks {
	const { document, offset, scalars } = placeFile(path, text);
	const at = ["apparatus", apparatus, "blocks"];
	const seq = nodeAt(document, at);
	const name = scalars.find(({ isKey, path: own }) => isKey && own.join("/") === at.join("/"));
	if (!isSeq(seq) || name === undefined) {
		const places = scalars.filter(
			({ isKey, path: own }) => isKey && own.length === 2 && own[0] === "apparatus",
		);
		throw new EditRefused(
			`Week ${week} has no blocks on \`${apparatus}\`; it has some on ${places.map(({ value }) => value).join(", ")}.`,
		);
	}
	if (seq.flow === true && seq.items.length > 0) {
		throw new EditRefused(
			`${path}: the blocks of ${apparatus} stand on one line. Put each on a line of its own, beginning with a hyphen.`,
		);
	}
	const starts = lineStarts(text);
	const { lines } = linesOf(text);
	const lineOf = (place: number) => starts.findLastIndex((start) => start <= place);
	const heads = seq.items.map((item) => {
		const start = offset + ((item as Node).range?.[0] ?? 0);
		// The hyphen stands before the item, on its line or, above a first comment, on one before.
		const hyphen = text.lastIndexOf("-", start - 1);
		const line = lineOf(hyphen);
		return { line, column: hyphen - (starts[line] ?? 0) };
	});
	const froms = heads.map(({ line, column }) => {
		let from = line;
		// Comments right above belong to the block.
		while (from > 0 && /^\s*#/.test(lines[from - 1] ?? "") && indentOf(lines[from - 1] ?? "") >= column)
			from--;
		return from;
	});
	const items = heads.map(({ column }, i) => {
		const end = offset + ((seq.items[i] as Node).range?.[1] ?? 0);
		const last = lineOf(Math.max(0, end - 1));
		return { from: froms[i] ?? 0, to: froms[i + 1] ?? last + 1, column };
	});
	const nameLine = lineOf(name.start);
	return { items, nameLine, nameColumn: name.start - (starts[nameLine] ?? 0) };
}

function hasApparatus(path: string, text: string, apparatus: Id): boolean {
	return isMap(nodeAt(placeFile(path, text).document, ["apparatus", apparatus]));
}

/** The line behind everything below `apparatus:`, and how its names are indented. */
function endOfApparatus(path: string, text: string): { readonly line: number; readonly indent: string } {
	const { document, offset, scalars } = placeFile(path, text);
	const map = nodeAt(document, ["apparatus"]);
	if (!isMap(map)) throw new EditRefused(`${path} has no \`apparatus\`.`);
	const starts = lineStarts(text);
	const first = scalars.find(({ isKey, path: own }) => isKey && own.length === 2 && own[0] === "apparatus");
	const lineOf = (place: number) => starts.findLastIndex((start) => start <= place);
	const indent = first === undefined ? 2 : first.start - (starts[lineOf(first.start)] ?? 0);
	return { line: lineOf(offset + (map.range?.[1] ?? 1) - 1) + 1, indent: " ".repeat(indent) };
}

/** Lines moved to the right, or to the left as far as they have room. */
function shifted(lines: readonly string[], by: number): readonly string[] {
	return lines.map((line) => {
		if (line.trim() === "") return line;
		return by >= 0 ? " ".repeat(by) + line : line.slice(Math.min(-by, indentOf(line)));
	});
}

/**
 * A text as lines between line feeds, as `lineStarts` counts them: a file of mixed ends keeps each of its
 * own. `cr` is what new lines end with before the line feed: what most lines of the text do.
 */
function linesOf(text: string): { readonly lines: readonly string[]; readonly cr: "" | "\r" } {
	const lines = text.split("\n");
	const marked = lines.filter((line) => line.endsWith("\r")).length;
	return { lines, cr: marked * 2 > lines.length ? "\r" : "" };
}

function lineStarts(text: string): readonly number[] {
	const starts = [0];
	for (let i = text.indexOf("\n"); i >= 0; i = text.indexOf("\n", i + 1)) starts.push(i + 1);
	return starts;
}

function indentOf(line: string): number {
	return line.length - line.trimStart().length;
}

function nodeText(node: Node | undefined): string {
	return isScalar(node) ? String(node.value) : "";
}
