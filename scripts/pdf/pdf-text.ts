/**
 * PDF values as they are written: takes dictionaries and arrays apart and leaves what is in them as it
 * is. Texts are bytes as Latin-1. Syntax: ISO 32000-1, 7.3.
 */

/** A string, a hexadecimal string, an edge of a dictionary or array, a name, a number or a keyword. */
const TOKEN = /\((?:\\[\s\S]|[^\\()])*\)|<<|>>|<[^<>]*>|[[\]]|\/[^\s/[\]<>()]*|[^\s/[\]<>()]+/g;

/** The values that follow each other in a text. */
function valuesIn(text: string): string[] {
	const values: string[] = [];
	let depth = 0;
	let start = 0;
	for (const { 0: token, index } of text.matchAll(TOKEN)) {
		if (token === "<<" || token === "[") {
			if (depth === 0) start = index;
			depth++;
		} else if (token === ">>" || token === "]") {
			depth--;
			if (depth === 0) values.push(text.slice(start, index + token.length));
		} else if (depth === 0) {
			if (token === "R") values.push(`${values.splice(-2).join(" ")} R`);
			else values.push(token);
		}
	}
	return values;
}

/** The entries of a dictionary, by their names without the slash. Throws where it is none. */
export function entriesOf(dictionary: string): Map<string, string> {
	const text = dictionary.trim();
	if (!text.startsWith("<<") || !text.endsWith(">>")) throw new Error("A dictionary of a PDF was expected.");
	const values = valuesIn(text.slice(2, -2));
	const entries = new Map<string, string>();
	for (let i = 0; i + 1 < values.length; i += 2) entries.set((values[i] ?? "").slice(1), values[i + 1] ?? "");
	return entries;
}

/** The values of an array. Throws where it is none. */
export function itemsOf(array: string): readonly string[] {
	const text = array.trim();
	if (!text.startsWith("[") || !text.endsWith("]")) throw new Error("An array of a PDF was expected.");
	return valuesIn(text.slice(1, -1));
}

/** A dictionary as it is written; undefined entries are left out. */
export function dictionaryOf(
	entries: Readonly<Record<string, string | number | undefined>> | ReadonlyMap<string, string>,
): string {
	const pairs = entries instanceof Map ? [...entries] : Object.entries(entries);
	return `<<${pairs.flatMap(([name, value]) => (value === undefined ? [] : [`/${name} ${value}`])).join("\n")}>>`;
}

/** A reference to an object. */
export function refTo(number: number): string {
	return `${number} 0 R`;
}

/** The number of the object that a value refers to; undefined where it is another value. */
export function referred(value: string | undefined): number | undefined {
	const match = value === undefined ? null : /^(\d+) 0 R$/.exec(value);
	return match === null ? undefined : Number(match[1]);
}

/** A value with every reference in it turned to another object. */
export function withReferences(text: string, turned: (number: number) => number): string {
	return text.replace(REFERENCE, (all, number: string | undefined) =>
		number === undefined ? all : `${turned(Number(number))} 0 R`,
	);
}

/** A string, which is left as it is, or a reference. */
const REFERENCE = /\((?:\\[\s\S]|[^\\()])*\)|\b(\d+) 0 R\b/g;

/** A string of plain letters as it is written. */
export function literal(text: string): string {
	return `(${text.replace(/[\\()]/g, "\\$&")})`;
}

/** A string of any letters as it is written, for people to read. */
export function words(text: string): string {
	return `<FEFF${Buffer.from(text, "utf16le").swap16().toString("hex").toUpperCase()}>`;
}

/** What stands in a string that was written in plain letters; undefined where it is no such string. */
export function literalText(value: string | undefined): string | undefined {
	if (value === undefined || !value.startsWith("(") || !value.endsWith(")")) return undefined;
	return value
		.slice(1, -1)
		.replace(/\\(?:([0-7]{1,3})|([\s\S]))/g, (_, code: string | undefined, letter = "") =>
			code === undefined ? (ESCAPED[letter] ?? letter) : String.fromCharCode(Number.parseInt(code, 8)),
		);
}

/** ISO 32000-1, table 3. */
const ESCAPED: Readonly<Record<string, string>> = { n: "\n", r: "\r", t: "\t", b: "\b", f: "\f" };
