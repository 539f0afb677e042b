/**
 * Prints how good, how large and how fast the search is.
 *
 *   node tests/bench/search.ts                quality, sizes, times of the engine, times in a browser
 *   node tests/bench/search.ts --no-browser   the same without the browser
 *
 * Quality is measured on the judged queries over the demo club, beside two general search libraries on
 * the same queries. Sizes and times are measured there and on 200, 1,000 and 10,000 generated drills
 * with the demo's mix (generated-drills.ts). Times depend on what else the machine does: its load is
 * printed with them.
 */

import { loadavg } from "node:os";
import { brotliCompressSync, constants } from "node:zlib";
import { openHandbook } from "../../scripts/handbook.ts";
import { searchDocuments, searchOptions } from "../../scripts/search/build-search.ts";
import {
	openIndex,
	type SearchData,
	type SearchDocument,
	type SearchIndex,
	searchData,
} from "../../scripts/search/engine.ts";
import { generatedDrills, mixOf } from "../search/generated-drills.ts";
import { type Find, findWith, type JudgedQuery, judge, judgedQueries, mean } from "../search/judge.ts";
import { startBrowser } from "./search-browser.ts";
import { fuse, miniSearch } from "./search-libraries.ts";

const SIZES = [200, 1_000, 10_000];
/** Typed letter by letter; filters stay set, as they would. */
const TYPED = [
	"hollow level 2",
	"handstnad wall",
	"stradle on",
	"pushup",
	"knees fall in on landing",
	"beam walk",
];
const FILTERS = { level: ["level-1", "level-2"] };

const { handbook } = openHandbook(process.cwd());
if (handbook === undefined)
	throw new Error("Run this from the repository: its demo club does not open here.");
const documents = searchDocuments(handbook);
const options = searchOptions(handbook);
const clubs = new Map([
	["demo", documents],
	...SIZES.map((size) => [size.toLocaleString("en"), generatedDrills(documents, size)] as const),
]);
const written = new Map(Array.from(clubs, ([name, drills]) => [name, searchData(drills, options)]));

printQuality();
printMix();
printSizes();
printEngineTimes();
if (!process.argv.includes("--no-browser")) await printBrowserTimes();

function printQuality(): void {
	const queries = judgedQueries();
	const files = written.get("demo") as SearchData;
	const index = openIndex(files.head);
	const rows: [string, readonly string[]][] = [];
	const measure = (name: string, find: Find, packed: string) =>
		rows.push([name, qualityOf(find, queries, packed)]);
	measure("own, heads alone", findWith(index), kilobytes(files.head));
	index.addSummaries(files.summaries);
	measure("own, with summaries", findWith(index), kilobytes(files.head, files.summaries));
	index.addTexts(files.texts);
	measure("own, everything", findWith(index), kilobytes(files.head, files.summaries, files.texts));
	for (const { name, find, file } of [miniSearch(documents, options), fuse(documents, options)]) {
		measure(name, find, kilobytes(JSON.parse(file)));
	}
	const kinds = [...new Set(queries.map(({ kind }) => kind))].filter((kind) => kind !== "nothing");
	printTable(
		[
			`${queries.length} judged queries`,
			"nDCG@10",
			"recall@20",
			...kinds.map((kind) => `nDCG ${kind}`),
			"nonsense found",
			"query ms",
			"brotli kB",
		],
		rows.map(([name, cells]) => [name, ...cells]),
	);
}

function qualityOf(find: Find, queries: readonly JudgedQuery[], packed: string): readonly string[] {
	const verdicts = judge(find, queries);
	const nonsense = queries.filter(({ best }) => best.length === 0);
	const times = queries.map(({ words }) => timed(() => find(words))[1]).sort((a, b) => a - b);
	const kinds = [...new Set(verdicts.map(({ query }) => query.kind))];
	return [
		mean(verdicts.map(({ ndcg }) => ndcg)).toFixed(3),
		mean(verdicts.map(({ recall }) => recall)).toFixed(3),
		...kinds.map((kind) =>
			mean(verdicts.filter(({ query }) => query.kind === kind).map(({ ndcg }) => ndcg)).toFixed(3),
		),
		`${nonsense.filter(({ words }) => find(words).length > 0).length} of ${nonsense.length}`,
		at(times, 0.5),
		packed,
	];
}

function printMix(): void {
	const mixes = Array.from(clubs, ([name, drills]) => [name, mixOf(drills)] as const);
	printTable(
		["mean of a drill", ...mixes.map(([name]) => name)],
		Array.from(mixes[0]?.[1].keys() ?? [], (key) => [
			key,
			...mixes.map(([, mix]) => (mix.get(key) ?? 0).toFixed(2)),
		]),
	);
}

function printSizes(): void {
	printTable(
		["brotli kB", "heads", "summaries", "texts"],
		Array.from(written, ([name, { head, summaries, texts }]) => [
			name,
			kilobytes(head),
			kilobytes(summaries),
			kilobytes(texts),
		]),
	);
}

function printEngineTimes(): void {
	const rows = Array.from(clubs, ([name, drills]) => engineTimes(name, drills));
	printTable(
		["ms", "write", "open heads", "add summaries", "add texts", "key median", "key 95 %", "load"],
		rows,
	);
}

function engineTimes(name: string, drills: readonly SearchDocument[]): readonly string[] {
	const [files, write] = timed(() => searchData(drills, options));
	const [head, summaries, texts] = [files.head, files.summaries, files.texts].map((file) =>
		JSON.stringify(file),
	) as [string, string, string];
	const [index, open] = timed(() => openIndex(JSON.parse(head)));
	const [, second] = timed(() => index.addSummaries(JSON.parse(summaries)));
	const [, third] = timed(() => index.addTexts(JSON.parse(texts)));
	const keys = keystrokes(index);
	const whole = [write, open, second, third].map((time) => time.toFixed(0));
	return [name, ...whole, at(keys, 0.5), at(keys, 0.95), load()];
}

/** Times of search and suggestions together for every letter typed, shortest first; milliseconds. */
function keystrokes(index: SearchIndex): readonly number[] {
	const times: number[] = [];
	for (let round = 0; round < 3; round++) {
		for (const words of TYPED) {
			for (let length = 1; length <= words.length; length++) {
				const typed = words.slice(0, length);
				times.push(
					timed(() => {
						// As many as the page shows.
						index.search(typed, FILTERS, { most: 20 });
						index.suggest(typed, FILTERS);
					})[1],
				);
			}
		}
	}
	return times.sort((a, b) => a - b);
}

async function printBrowserTimes(): Promise<void> {
	const browser = await startBrowser(handbook as NonNullable<typeof handbook>);
	const rows: (readonly string[])[] = [];
	try {
		for (const [name, files] of written) {
			if (name === "demo") continue;
			const { cold, keys, bare, filterWork, filterPaint } = await browser.measure(files, TYPED);
			rows.push([
				name,
				...[at(cold, 0), at(cold, 0.5)],
				...[at(keys, 0.5), at(keys, 0.95), at(bare, 0.5)],
				...[at(filterWork, 0.5), at(filterWork, 0.95), at(filterPaint, 0.5)],
				load(),
			]);
		}
	} finally {
		await browser.close();
	}
	printTable(
		[
			"browser, 4× slower, 1.6 Mb/s; ms",
			"first result, best",
			"median",
			"key to paint, median",
			"95 %",
			"bare page, median",
			"filter's work, median",
			"95 %",
			"filter to paint, median",
			"load",
		],
		rows,
	);
}

function timed<T>(work: () => T): readonly [T, number] {
	const start = performance.now();
	const result = work();
	return [result, performance.now() - start];
}

/** The time that so much of a sorted list stays below. */
function at(times: readonly number[], share: number): string {
	const time = times[Math.min(times.length - 1, Math.floor(times.length * share))] ?? 0;
	return time < 10 ? time.toFixed(2) : time.toFixed(0);
}

/** Processes that wanted to run in the last minute. */
function load(): string {
	return (loadavg()[0] ?? 0).toFixed(1);
}

function kilobytes(...files: readonly unknown[]): string {
	const sizes = files.map(
		(file) =>
			brotliCompressSync(JSON.stringify(file), { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }).length,
	);
	return (sizes.reduce((sum, size) => sum + size, 0) / 1000).toFixed(1);
}

function printTable(head: readonly string[], rows: readonly (readonly string[])[]): void {
	console.log(`\n| ${head.join(" | ")} |`);
	console.log(`| --- |${" ---: |".repeat(head.length - 1)}`);
	for (const row of rows) console.log(`| ${row.join(" | ")} |`);
}
