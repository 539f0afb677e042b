/**
 * Where the values of a file stand: every scalar of its YAML with its path and its place in the text,
 * and where its Markdown body begins.
 */

import { type Document, isMap, isScalar, isSeq, type Node, parseDocument, type Scalar } from "yaml";
import type { DataPath } from "../model.ts";

/** A scalar of a file: a value, or the key of a map. */
export interface PlacedScalar {
	readonly path: DataPath;
	readonly isKey: boolean;
	readonly value: string;
	/** Its place in the whole text, quotes included. */
	readonly start: number;
	readonly end: number;
}

/** A file taken apart. Places count from the start of the text. */
export interface PlacedFile {
	readonly document: Document;
	/** Where the YAML begins. */
	readonly offset: number;
	/** Where the Markdown body begins; the end of the text in a data file. */
	readonly body: number;
	readonly scalars: readonly PlacedScalar[];
}

/** Takes a page or a data file apart. Throws for a page without front matter. */
export function placeFile(path: string, text: string): PlacedFile {
	const { from, to, body } = yamlRange(path, text);
	const document = parseDocument(text.slice(from, to), { keepSourceTokens: true, schema: "failsafe" });
	const scalars: PlacedScalar[] = [];
	const visit = (node: unknown, at: DataPath): void => {
		if (isScalar(node)) scalars.push(placed(node, at, false, from));
		else if (isSeq(node))
			node.items.forEach((item, i) => {
				visit(item, [...at, i]);
			});
		else if (isMap(node)) {
			for (const { key, value } of node.items) {
				const name = isScalar(key) ? String(key.value) : "";
				if (isScalar(key)) scalars.push(placed(key, [...at, name], true, from));
				visit(value, [...at, name]);
			}
		}
	};
	visit(document.contents, []);
	return { document, offset: from, body, scalars };
}

export function nodeAt(document: Document, path: DataPath): Node | undefined {
	const node = document.getIn(path, true);
	return isScalar(node) || isMap(node) || isSeq(node) ? node : undefined;
}

function placed(node: Scalar, path: DataPath, isKey: boolean, offset: number): PlacedScalar {
	const [start = 0, end = 0] = node.range ?? [];
	return { path, isKey, value: String(node.value ?? ""), start: offset + start, end: offset + end };
}

/** Where the YAML of a file stands, and where what comes behind it begins. Throws for a page without front matter. */
export function yamlRange(path: string, text: string) {
	if (path.endsWith(".md")) return frontMatter(path, text);
	return { from: text.startsWith("\ufeff") ? 1 : 0, to: text.length, body: text.length };
}

/** From behind the first line of hyphens to before the second. */
function frontMatter(path: string, text: string) {
	const first = /^\ufeff?---[^\n]*\n/.exec(text);
	const from = first?.[0].length ?? 0;
	const second = /^---[ \t]*(?:\r?\n|$)/m.exec(text.slice(from));
	if (first === null || second === null) throw new Error(`${path} has no front matter.`);
	return { from, to: from + second.index, body: from + second.index + second[0].length };
}
