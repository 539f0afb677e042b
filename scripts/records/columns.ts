/**
 * Files of records as a few texts in which a field of all of them stands together: what is alike is near,
 * and compresses better than the files one after the other.
 *
 * The first text is a list of what each file is, or of how many records it holds. The others are lists of
 * columns: the name of a field, then its value in every record, `null` where one has not got it. A long
 * column stands in several parts: a changed drill changes the texts of its changed fields, and each is sent
 * to the host anew.
 */

type Fields = Readonly<Record<string, unknown>>;
type Column = readonly [name: string, ...values: unknown[]];

/** Characters of a text at most, but for the first: larger ones compress better. */
const MOST = 300_000;

/** @param texts JSON; the fields of records in the order of their names, so that the same text comes back */
export function inColumns(texts: readonly string[], most = MOST): readonly string[] {
	const files = texts.map((text) => JSON.parse(text) as unknown);
	const records = files.filter(isRecords).flat();
	const names = [...new Set(records.flatMap((record) => Object.keys(record)))].sort();
	const bundles: string[][] = [];
	let size = most;
	for (const part of names.flatMap((name) => parts(name, records, most))) {
		if (size + part.length > most) {
			bundles.push([]);
			size = 0;
		}
		bundles.at(-1)?.push(part);
		size += part.length;
	}
	return [
		JSON.stringify(files.map((file) => (isRecords(file) ? file.length : file))),
		...bundles.map((own) => `[${own.join()}]`),
	];
}

/** A column in parts of as many records each, so that a longer text moves none to the next part. */
function parts(name: string, records: readonly Fields[], most: number): readonly string[] {
	const values = records.map((record) => record[name] ?? null);
	const count = Math.ceil(JSON.stringify(values).length / most);
	const each = Math.ceil(values.length / count);
	return Array.from({ length: count }, (_, i) =>
		JSON.stringify([name, ...values.slice(i * each, (i + 1) * each)]),
	);
}

/** The files' texts again. */
export function fromColumns([first = "[]", ...bundles]: readonly string[]): readonly string[] {
	const files = JSON.parse(first) as readonly unknown[];
	const columns = new Map<string, unknown[]>();
	for (const [name, ...values] of bundles.flatMap((text) => JSON.parse(text) as readonly Column[]))
		columns.set(name, [...(columns.get(name) ?? []), ...values]);
	let at = 0;
	const next = () => {
		const own = Array.from(columns, ([name, values]) => [name, values[at]] as const);
		at++;
		return Object.fromEntries(own.filter(([, value]) => value !== null));
	};
	return files.map((file) =>
		JSON.stringify(typeof file === "number" ? Array.from({ length: file }, next) : file),
	);
}

function isRecords(file: unknown): file is readonly Fields[] {
	return (
		Array.isArray(file) && file.every((one) => typeof one === "object" && one !== null && !Array.isArray(one))
	);
}
