/**
 * The slow, exact look at a YAML text: used only where something is wrong or a place is wanted.
 *
 *   explainYaml  every syntax error of a text, with its line and column
 *   placeInYaml  the line and column of a value, by its path
 */

import {
	type Document,
	isAlias,
	isMap,
	isScalar,
	isSeq,
	LineCounter,
	type Node,
	parseDocument,
	visit,
} from "yaml";
import type { DataPath } from "../model.ts";

/** A spot in a YAML text; line and column count from 1. */
export interface Spot {
	readonly line: number;
	readonly column: number;
}

export interface YamlFault extends Spot {
	/** Whether the text is sound YAML that uses a part of the language which is not read here. */
	readonly kind: "syntax" | "refused";
	readonly what: string;
	/** What to do about it. */
	readonly fix?: string;
}

/** All faults of a text that `parseYaml` refused. Never empty. */
export function explainYaml(text: string): readonly YamlFault[] {
	const lines = new LineCounter();
	const faults: YamlFault[] = [];
	const deep = tooDeepAt(text);
	const blank = strangeBlankIn(text);
	// Each of its levels would be a fault of its own.
	if (deep !== undefined) return [{ kind: "syntax", what: TOO_DEEP, ...spotIn(text, deep) }];
	try {
		const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true, prettyErrors: false });
		for (const [i, error] of document.errors.entries()) {
			const [start] = error.pos;
			// A blank that looks like any other makes faults of all lines after it.
			if (blank !== undefined && spot(lines, start).line >= blank.line) break;
			// One slip, one message: a field that is indented too far is two faults to the library.
			const before = document.errors[i - 1];
			if (error.code === "MULTILINE_IMPLICIT_KEY" && before?.pos[0] === start) continue;
			const after = document.errors[i + 1];
			if (after?.code === "MULTILINE_IMPLICIT_KEY" && after.pos[0] === start) {
				// The library tells the text before, which it would go on with; its end is the field that is misplaced.
				const field = text.lastIndexOf("\n", after.pos[1] - 1) + 1;
				faults.push({ kind: "syntax", what: MISPLACED, fix: ALIGN, ...spot(lines, textAt(text, field)) });
				continue;
			}
			faults.push({
				kind: "syntax",
				what: plainWords(error.code, error.message),
				fix: cureOf(error.code, error.message, lineAt(text, start)),
				...spot(lines, openedAt(text, start, error.message) ?? textAt(text, start)),
			});
			// What is torn open there makes faults of lines that are sound.
			if (TEARS_OPEN.has(error.code) || /closing .quote/.test(error.message)) break;
		}
		if (blank !== undefined && document.errors.length > faults.length) faults.push(blank);
		if (faults.length === 0) {
			visit(document, {
				Node(_key, node) {
					const start = node.range?.[0] ?? 0;
					const refused = isAlias(node)
						? `alias \`*${node.source}\``
						: node.anchor !== undefined
							? `anchor \`&${node.anchor}\``
							: node.tag !== undefined && text[start] === "!"
								? `tag \`${node.tag}\``
								: undefined;
					if (refused === undefined) return;
					const what = `The ${refused} is not read here.`;
					faults.push({ kind: "refused", what, ...spot(lines, start) });
				},
			});
		}
	} catch (error) {
		if (!(error instanceof Error)) throw error;
		faults.length = 0;
	}
	return faults.length > 0 ? faults : [{ kind: "syntax", what: TOO_DEEP, line: 1, column: 1 }];
}

/** Faults after which nothing that is said of later lines can be relied on. */
const TEARS_OPEN = new Set(["TAB_AS_INDENT", "BAD_INDENT", "BAD_SCALAR_START", "BAD_DQ_ESCAPE"]);

/** A tab or a hard space at the start of a line, where spaces belong. */
function strangeBlankIn(text: string): YamlFault | undefined {
	const found = /^[ ]*(?:- )?[ ]*([\t\u00a0\u2007\u202f\u3000])/m.exec(text);
	if (found === null) return undefined;
	const [what, fix] =
		found[1] === "\t"
			? [TAB, "Replace the tab with two spaces, as the lines around it have them."]
			: [
					"A hard space stands where spaces should indent the line; it looks like a space and is none.",
					"Delete the blanks before the text, and type them again with the space bar.",
				];
	return { kind: "syntax", what, fix, ...spotIn(text, found.index + found[0].length - 1) };
}

/** Where a bracket or a quote was opened that is not closed: that is where people look for it. */
function openedAt(text: string, noticed: number, message: string): number | undefined {
	const bracket =
		/must be sufficiently indented and end with a ([\]}])|Expected flow .* to end with ([\]}])/.exec(message);
	const close = bracket?.[1] ?? bracket?.[2];
	if (close !== undefined) {
		const open = close === "]" ? "[" : "{";
		let depth = 0;
		for (let i = noticed - 1; i >= 0; i--) {
			if (text[i] === close) depth++;
			else if (text[i] === open && depth-- === 0) return i;
		}
	}
	const quote = /^Missing closing (.)quote/.exec(message)?.[1];
	if (quote === undefined) return undefined;
	let start = 0;
	for (const line of text.split("\n")) {
		if (line.split(quote).length % 2 === 0) return start + line.indexOf(quote);
		start += line.length + 1;
	}
	return undefined;
}

/** Where a line's text begins, of a fault that the library tells at its indent. */
function textAt(text: string, start: number): number {
	return start + (/^ +(?=\S)/.exec(text.slice(start))?.[0].length ?? 0);
}

function lineAt(text: string, offset: number): string {
	const start = text.lastIndexOf("\n", offset - 1) + 1;
	return text.slice(start, text.indexOf("\n", offset) < 0 ? text.length : text.indexOf("\n", offset));
}

/** What to do about a slip, by its kind and the line it is on. */
function cureOf(code: string, message: string, line: string): string {
	const [, name = "", value = ""] = /^\s*(?:- )?([\w-]+)\s*[=:]\s*(\S.*)$/.exec(line) ?? [];
	// Of 'Coach's favourite' the outer quotes are no part of the text.
	const [, bare = value] = /^'(.*)'$/.exec(value) ?? [];
	const quotes =
		name !== "" && !bare.includes('"')
			? `Write \`${name}: "${bare}"\`.`
			: "Put double quotes around the whole text.";
	switch (code) {
		case "DUPLICATE_KEY":
			return "Keep one of the two lines, and delete the other.";
		case "BLOCK_AS_IMPLICIT_KEY":
		case "BLOCK_IN_FLOW":
		case "BAD_SCALAR_START":
			return quotes;
		case "MULTIPLE_DOCS":
			return "Take that line out, or write the text below the fields.";
		case "BAD_DQ_ESCAPE":
			return "Write single quotes around the text, or two backslashes.";
		case "BAD_INDENT":
			return /end with a ([\]}])/.test(message)
				? "Write the missing bracket at the end of that list."
				: ALIGN;
		case "MULTILINE_IMPLICIT_KEY":
		case "MISSING_CHAR":
			if (message.startsWith("Sequence item without -")) return ALIGN;
			if (message.startsWith("Missing , or :"))
				return "Put a comma between two items, or double quotes around the whole of one.";
			if (/closing .quote/.test(message)) return "Write the missing quote at the end of the text.";
			if (/^\s*[\w-]+\s*=/.test(line))
				return `A colon and a space stand between a field and its value: ${quotes.replace(/^Write/, "write").replaceAll('"', "")}`;
			if (/^\s*[\w-]+:\S/.test(line))
				return `Write a space behind the colon: \`${line.trim().replace(/^([\w-]+):/, "$1: ")}\`.`;
			return "Write a name, a colon and a space before it, or move it below the second line of three hyphens.";
		case "UNEXPECTED_TOKEN":
			return /closes|"[\]}]"/.test(message)
				? "Take the bracket out, or write the one that opens it."
				: quotes;
		default:
			return "Look at the line named, and the one above it.";
	}
}

const ALIGN = "Give the line as many spaces as its neighbours of the same list or map.";

const TOO_DEEP = "The text is nested too deeply or otherwise cannot be read as YAML.";

/** Lists and fields inside each other that nobody writes. */
const MOST_NESTED = 100;

/** Where brackets, or the indents and dashes of lists, stand too deep inside each other. */
function tooDeepAt(text: string): number | undefined {
	return bracketsTooDeepAt(text) ?? indentsTooDeepAt(text);
}

/** Brackets in quotes count as well: the text is refused either way. */
function bracketsTooDeepAt(text: string): number | undefined {
	let depth = 0;
	for (let i = 0; i < text.length; i++) {
		const letter = text[i];
		if (letter === "[" || letter === "{") depth++;
		else if ((letter === "]" || letter === "}") && depth > 0) depth--;
		if (depth > MOST_NESTED) return i;
	}
	return undefined;
}

function indentsTooDeepAt(text: string): number | undefined {
	/** The columns, each further in than the one before, at which what is open on this line begins. */
	const open: number[] = [];
	let start = 0;
	for (const line of text.split("\n")) {
		let column = 0;
		while (column < line.length) {
			const letter = line[column];
			if (letter === "#") break;
			if (letter !== " ") {
				while ((open.at(-1) ?? -1) >= column) open.pop();
				if (open.push(column) > MOST_NESTED) return start + column;
				const isDash = letter === "-" && (line[column + 1] ?? " ") === " ";
				if (!isDash) break;
			}
			column++;
		}
		start += line.length + 1;
	}
	return undefined;
}

function spotIn(text: string, offset: number): Spot {
	const before = text.slice(0, offset).split("\n");
	return { line: before.length, column: (before.at(-1) ?? "").length + 1 };
}

/** Whether a node of the text has an anchor, which a reader of data alone does not show. */
export function holdsAnchor(text: string): boolean {
	let found = false;
	try {
		visit(parseDocument(text, { uniqueKeys: false, prettyErrors: false }), {
			Node(_key, node) {
				if (isAlias(node) || node.anchor === undefined) return undefined;
				found = true;
				return visit.BREAK;
			},
		});
	} catch (error) {
		// Nested too deeply: the other parser says so as well.
		if (!(error instanceof Error)) throw error;
	}
	return found;
}

/**
 * Where a value stands; where the path leads further than the text, the deepest part that exists.
 *
 * @param what whether the key or the value is wanted; for the items of a list they are the same
 */
export function placeInYaml(text: string, path: DataPath, what: "key" | "value"): Spot {
	const { lines, document } = documentOf(text);
	let node: Node | null | undefined = document.contents;
	let at = node?.range?.[0] ?? 0;
	for (const [i, step] of path.entries()) {
		const last = i === path.length - 1;
		if (isMap(node)) {
			const pair: { key: unknown; value: unknown } | undefined = node.items.find(
				(item) => isScalar(item.key) && keyText(item.key) === String(step),
			);
			if (pair === undefined) break;
			const key = pair.key as Node;
			const value = pair.value as Node | null;
			const keyAt = key.range?.[0] ?? at;
			const valueAt =
				isScalar(value) && value.value === null && value.source === "" ? keyAt : value?.range?.[0];
			// A nested block begins on the line after its key: people look for the key.
			const block = isMap(value) || isSeq(value);
			at = last && what === "value" && !block ? (valueAt ?? keyAt) : keyAt;
			node = value;
		} else if (isSeq(node)) {
			// A list of ids may be asked for one of them by its text.
			const item = (
				typeof step === "number"
					? node.items[step]
					: node.items.find((i) => isScalar(i) && keyText(i) === step)
			) as Node | undefined;
			if (item === undefined) break;
			at = item.range?.[0] ?? at;
			node = item;
		} else break;
	}
	return spot(lines, at);
}

interface ParsedText {
	readonly lines: LineCounter;
	readonly document: Document.Parsed;
}

/** Texts that places were lately looked up in, the latest last: findings come many to a file. */
const parsed = new Map<string, ParsedText>();
const MOST_PARSED = 24;

function documentOf(text: string): ParsedText {
	let found = parsed.get(text);
	if (found === undefined) {
		const lines = new LineCounter();
		const document = parseDocument(text, { lineCounter: lines, uniqueKeys: false, prettyErrors: false });
		found = { lines, document };
	}
	parsed.delete(text);
	parsed.set(text, found);
	const oldest = parsed.keys().next();
	if (parsed.size > MOST_PARSED && oldest.done !== true) parsed.delete(oldest.value);
	return found;
}

function keyText(key: { value: unknown; source?: string | undefined }): string {
	return key.source ?? String(key.value);
}

function spot(lines: LineCounter, offset: number): Spot {
	const { line, col } = lines.linePos(offset);
	return { line: Math.max(1, line), column: Math.max(1, col) };
}

/** What the library says, in the words of somebody who writes drills; the column is told beside it. */
function plainWords(code: string, message: string): string {
	switch (code) {
		case "DUPLICATE_KEY":
			return "The same field stands here twice.";
		case "TAB_AS_INDENT":
			return TAB;
		case "BLOCK_AS_IMPLICIT_KEY":
			return "A colon followed by a space stands inside the text: put quotes around the text.";
		case "BLOCK_IN_FLOW":
			return "A colon followed by a space stands inside a text between brackets: put quotes around that text.";
		case "MULTILINE_IMPLICIT_KEY":
			return NO_FIELD;
		case "MISSING_CHAR":
			if (message.startsWith("Implicit map keys")) return NO_FIELD;
			if (/^Missing closing .quote/.test(message)) return "A quote that was opened before is not closed.";
			if (message.startsWith("Sequence item without -")) return MISPLACED;
			if (message.startsWith("Missing , or :"))
				return "More text follows where an item between brackets had ended.";
			return `Something is missing: ${firstSentence(message)}`;
		case "BAD_INDENT": {
			const bracket = /must be sufficiently indented and end with a ([\]}])/.exec(message)?.[1];
			if (bracket !== undefined)
				return `A bracket that was opened before is not closed: \`${bracket}\` is missing.`;
			return MISPLACED;
		}
		case "BAD_SCALAR_START": {
			const sign = /character (.)/.exec(message)?.[1] ?? "";
			return `A text cannot start with ${sign === "`" ? "a backquote" : `\`${sign}\``} here: put quotes around the text.`;
		}
		case "BAD_DQ_ESCAPE":
			return "A backslash between double quotes has a meaning of its own: use single quotes.";
		case "MULTIPLE_DOCS":
			return "A line of three hyphens or dots stands inside: there can be one part only.";
		case "UNEXPECTED_TOKEN": {
			if (message.startsWith("Unexpected scalar at node end"))
				return "More text follows where the value had ended: put quotes around the whole text.";
			const closing = /"([\]}])"$/.exec(firstSentence(message))?.[1];
			if (closing !== undefined) return `The bracket \`${closing}\` closes nothing that was opened.`;
			return firstSentence(message);
		}
		default:
			return firstSentence(message);
	}
}

/** A sentence of a page's text above the closing hyphens, or a field that lost its colon. */
const NO_FIELD =
	"This line is no field: a field has a name, a colon and a space, and an item of a list a hyphen and a space. The text of a page stands below the second line of three hyphens.";

const TAB = "A tab stands where spaces should indent the line.";
const MISPLACED = "The line starts further left or right than the lines it belongs with.";

function firstSentence(message: string): string {
	return message.split("\n")[0] ?? message;
}
