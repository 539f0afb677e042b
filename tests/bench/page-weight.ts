/**
 * What the pages of a site weigh, by kind: the mean as written and with gzip, and of what it is made.
 * Run after a build: node tests/bench/page-weight.ts FOLDER [KIND …]. Shares are kB as written: bodies that
 * strips place, strips and other pictures, text that is read, and markup within and around `main`.
 */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

const [folder, ...kinds] = process.argv.slice(2);
if (folder === undefined) throw new Error("name the folder of a built site");

const sums = new Map<string, number[]>();
for (const name of readdirSync(folder, { recursive: true, encoding: "utf8" })) {
	if (!name.endsWith("index.html")) continue;
	const page = readFileSync(join(folder, name), "utf8");
	const kind = /<body class="kind-([\w-]+)"/.exec(page)?.[1] ?? "other";
	if (kinds.length > 0 && !kinds.includes(kind)) continue;
	const sum = sums.get(kind) ?? new Array<number>(8).fill(0);
	for (const [i, size] of sizesOf(page).entries()) sum[i] = (sum[i] ?? 0) + size;
	sums.set(kind, sum);
}

console.log("kind                pages    kB  gzip  bodies  pictures   text  markup   frame");
for (const [kind, sum] of [...sums].sort()) {
	const [pages = 1, ...rest] = sum;
	const means = rest.map((size) => (size / pages / 1000).toFixed(1));
	const widths = [6, 6, 8, 10, 7, 8, 8];
	const cells = means.map((mean, i) => mean.padStart(widths[i] ?? 8));
	console.log(kind.padEnd(20) + String(pages).padStart(5) + cells.join(""));
}

function sizesOf(page: string): readonly number[] {
	const all = Buffer.byteLength(page);
	const main = /<main[\s\S]*<\/main>/.exec(page)?.[0] ?? "";
	const bodies = (main.match(/<svg class="bodies"[\s\S]*?<\/svg>/g) ?? []).join("");
	const pictures = (main.match(/<svg(?! class="bodies")[\s\S]*?<\/svg>/g) ?? []).join("");
	const rest = main.replace(/<svg[\s\S]*?<\/svg>/g, "");
	const text = rest.replace(/<[^>]*>/g, "").replace(/\s+/g, " ");
	const size = Buffer.byteLength;
	const within = size(rest) - size(text);
	return [1, all, gzipSync(page).length, size(bodies), size(pictures), size(text), within, all - size(main)];
}
