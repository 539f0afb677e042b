/** Data to the text of a club's file, in the house's YAML: read back before it is handed on. */

import { isDeepStrictEqual } from "node:util";
import { Document, isMap, isScalar, type Node, visit } from "yaml";
import { type FileKind, type Id, isPageKind } from "../model.ts";
import { parseYaml } from "../read/parse-yaml.ts";
import { splitPage } from "../read/split-page.ts";
import { isPortable } from "../validate/schemas.ts";

/** Where the file of a page or of data stands in a club folder. */
export function clubFilePath(kind: FileKind, id: Id, data: unknown): string {
	if (kind === "week") return `content/weeks/${id}.md`;
	if (kind === "guide") return `content/guides/${id}.md`;
	if (kind !== "drill") return `_data/${kind}.yaml`;
	const { apparatus } = data as { readonly apparatus: string | readonly string[] };
	const folder = typeof apparatus === "string" ? apparatus : apparatus[0];
	return drillPath(folder ?? "", id);
}

/** Where a drill stands: in the folder of its apparatus, if every system can have a folder of that name. */
export function drillPath(apparatus: Id, id: Id): string {
	return isPortable(apparatus) && apparatus !== ""
		? `content/drills/${apparatus}/${id}.md`
		: `content/drills/${id}.md`;
}

/** The text of a file. Throws where reading it back would not give the same data. */
export function clubFileText(kind: FileKind, data: unknown, body: string): string {
	const yaml = yamlOf(data, kind === "week");
	const isPage = isPageKind(kind);
	const text = isPage ? `---\n${yaml}---\n${body}` : yaml;
	const page = isPage ? splitPage(text) : { matter: text, body };
	if (!("matter" in page) || page.body !== body)
		throw new Error("a page would not be read as it was written");
	const read = parseYaml(page.matter);
	const same = read.ok && isDeepStrictEqual(plain(read.data), plain(data));
	if (!same) throw new Error(`data would not be read as it was written:\n${yaml}`);
	return text;
}

/** A list or map on one line is at most this long. */
const ONE_LINE = 110;

/** Short lists and maps on one line each, as a person writes them; the blocks of a week a line a field. */
function yamlOf(data: unknown, isWeek: boolean): string {
	const doc = new Document(plain(data));
	visit(doc, {
		Collection: (_key, node, path) => {
			const isTop = path.length === 1;
			if (isTop || (isWeek && isMap(node))) return;
			const length = JSON.stringify(node.toJSON()).length;
			if (length <= ONE_LINE && isPlain(node) && !(isWeek && hasMap(node))) node.flow = true;
		},
	});
	return doc.toString({ lineWidth: 0, flowCollectionPadding: false });
}

function hasMap(node: Node): boolean {
	let found = false;
	visit(node, {
		Map: () => {
			found = true;
			return visit.BREAK;
		},
	});
	return found;
}

/** Whether all that a collection holds are single lines. */
function isPlain(node: Node): boolean {
	let plain = true;
	visit(node, {
		Scalar: (_key, scalar) => {
			if (isScalar(scalar) && String(scalar.value).includes("\n")) plain = false;
		},
	});
	return plain;
}

function plain(data: unknown): unknown {
	return JSON.parse(JSON.stringify(data));
}
