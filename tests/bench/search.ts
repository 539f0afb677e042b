/**
 * Prints how good, how large and how fast the search is.
 *
 *   node tests/bench/search.ts
 *
 * Quality is measured on the judged queries over the demo club. Sizes and times are measured there and
 * on 200, 1,000 and 10,000 generated drills, whose texts are demo texts cut and joined anew: real
 * clubs repeat themselves less, so read the sizes of generated bodies as a floor.
 */

import { readFileSync } from "node:fs";
import { brotliCompressSync, constants } from "node:zlib";
import { openHandbook } from "../../scripts/handbook.ts";
import { searchDocuments, searchOptions } from "../../scripts/render/search/build-search.ts";
import {
	createIndex,
	openIndex,
	type SearchDocument,
	type SearchIndex,
} from "../../scripts/render/search/engine.ts";
import { type JudgedQuery, judge, mean } from "../search/judge.ts";

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

printQuality();
console.log(
	"\n| drills | build ms | heads kB | bodies kB | open ms | bodies ms | keystroke median ms | 95 % ms |",
);
console.log("| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
printRow(documents);
for (const size of SIZES) printRow(generated(size));

function printQuality(): void {
	const queries = JSON.parse(
		readFileSync(new URL("../search/judged.json", import.meta.url), "utf8"),
	) as readonly JudgedQuery[];
	const full = createIndex(documents, options);
	const headsAlone = openIndex(full.toFiles().head);
	const verdicts = judge(full, queries);
	const early = judge(headsAlone, queries);
	console.log("| queries | number | nDCG@10 | recall@20 | nDCG@10 before bodies |");
	console.log("| --- | ---: | ---: | ---: | ---: |");
	for (const kind of ["all", ...new Set(verdicts.map(({ query }) => query.kind))]) {
		const of = (list: typeof verdicts) => list.filter(({ query }) => kind === "all" || query.kind === kind);
		const row = [
			kind,
			of(verdicts).length,
			mean(of(verdicts).map(({ ndcg }) => ndcg)).toFixed(3),
			mean(of(verdicts).map(({ recall }) => recall)).toFixed(3),
			mean(of(early).map(({ ndcg }) => ndcg)).toFixed(3),
		];
		console.log(`| ${row.join(" | ")} |`);
	}
}

function printRow(drills: readonly SearchDocument[]): void {
	const [index, build] = timed(() => createIndex(drills, options));
	const files = index.toFiles();
	const [head, bodies] = [JSON.stringify(files.head), JSON.stringify(files.bodies)];
	const [opened, open] = timed(() => openIndex(JSON.parse(head)));
	const [, late] = timed(() => opened.addBodies(JSON.parse(bodies)));
	const strokes = keystrokes(opened);
	const row = [
		drills.length.toLocaleString("en"),
		build.toFixed(0),
		kilobytes(head),
		kilobytes(bodies),
		open.toFixed(0),
		late.toFixed(0),
		(strokes[strokes.length >> 1] ?? 0).toFixed(2),
		(strokes[Math.floor(strokes.length * 0.95)] ?? 0).toFixed(2),
	];
	console.log(`| ${row.join(" | ")} |`);
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
						index.search(typed, FILTERS);
						index.suggest(typed, FILTERS);
					})[1],
				);
			}
		}
	}
	return times.sort((a, b) => a - b);
}

function timed<T>(work: () => T): readonly [T, number] {
	const start = performance.now();
	const result = work();
	return [result, performance.now() - start];
}

function kilobytes(text: string): string {
	const packed = brotliCompressSync(text, { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } });
	return (packed.length / 1000).toFixed(1);
}

/** Drills with texts made from the demo's, the same on every run. */
function generated(size: number): readonly SearchDocument[] {
	let state = 20_270_104;
	const below = (limit: number) => {
		state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
		return Math.floor((state / 2 ** 32) * limit);
	};
	const any = () => documents[below(documents.length)] as SearchDocument;
	const joined = (first: string, second: string) => {
		const [a, b] = [first.split(" "), second.split(" ")];
		return [...a.slice(0, 1 + below(a.length)), ...b.slice(below(b.length))].join(" ");
	};
	return Array.from({ length: size }, (_, number): SearchDocument => {
		const [tags, words, other] = [any(), any(), any()];
		return {
			id: `${tags.id}-${number}`,
			title: joined(tags.title, words.title),
			aliases: words.aliases,
			summary: joined(tags.summary, other.summary),
			facets: { ...tags.facets, equipment: other.facets.equipment ?? [], skill: words.facets.skill ?? [] },
			cues: [...words.cues.slice(0, 2), ...other.cues.slice(0, 2)],
			faults: [...tags.faults.slice(0, 1), ...other.faults.slice(0, 2)],
			body: joined(joined(tags.body, words.body), other.body),
		};
	});
}
