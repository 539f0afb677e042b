/**
 * Benchmark: the whole build of generated clubs, from the shell, beside plain Eleventy and Hugo.
 *
 *   node tests/bench/build.ts [drills …]      (200 1000 10000 if left out; the plan names 178 drills, so there are never fewer)
 *
 * Prints, for each size: each stage apart (in one process), the wall time, the processor's time and the
 * peak memory of the whole command, of a second build after one drill was changed, and of two others that
 * make just the drills' pages from the same files with an equal simple layout: Eleventy with Liquid, one
 * file for each drill, and Hugo where it is installed. The commands take turns, A B C A B C, so that all
 * meet the same machine; ratios are of neighbours, of wall time and of the processor's, which others that
 * work on the machine disturb less. Nothing here is asserted.
 */

import { execFileSync } from "node:child_process";
import {
	cpSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	statSync,
	writeFileSync,
} from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { measure } from "../../scripts/compute/measures.ts";
import { mendsOf } from "../../scripts/compute/mend.ts";
import { clubResults } from "../../scripts/files/places.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { linkClub } from "../../scripts/link/link-club.ts";
import { contentHash } from "../../scripts/read/club-edition.ts";
import { readClub } from "../../scripts/read/read-club.ts";
import { recordFiles } from "../../scripts/records/records.ts";
import { searchFiles } from "../../scripts/search/build-search.ts";
import { dataFiles } from "../../scripts/site/data-files.ts";
import { highlightCode } from "../../scripts/site/highlight-code.ts";
import { writeOffline } from "../../scripts/site/write-offline.ts";
import { writePages } from "../../scripts/site/write-pages.ts";
import { writeCommonFiles } from "../../scripts/site/write-site.ts";
import { validateClub } from "../../scripts/validate/validate-club.ts";
import { createMarkdown } from "../../scripts/views/markdown.ts";
import { editionNameOf } from "../../scripts/words/edition-name.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { writeLargeClub } from "./large-club.ts";
import { type Figures, run } from "./run-process.ts";

const REPOSITORY = fileURLToPath(new URL("../../", import.meta.url));
const NODE = process.execPath;
const WHOLE = "build --no-print";
/** Words of a drill in all its fields. */
const WORDS = 125;
/** Lists of ids that the plain layouts show. */
const FIELDS = ["shapes", "skills"] as const;

const { values: chosen, positionals } = parseArgs({
	allowPositionals: true,
	options: { rounds: { type: "string", default: "3" } },
});
const sizes = positionals.map(Number);
const rounds = Number(chosen.rounds);
const dir = mkdtempSync(join(tmpdir(), "bench-"));
process.on("exit", () => rmSync(dir, { recursive: true, force: true }));

const { handbook: demo } = openHandbook(REPOSITORY);
if (demo === undefined) throw new Error("The demo has errors.");
const hugo = hasHugo();
console.log(
	`${cpus().length} cores, load ${loadavg()[0]?.toFixed(1)}, Node ${process.version}${hugo ? "" : "; no Hugo on this machine"}`,
);

const whole: { readonly drills: number; readonly cpu: number }[] = [];
for (const drills of sizes.length > 0 ? sizes : [200, 1000, 10_000]) {
	const club = join(dir, `club-${drills}`);
	writeLargeClub(demo, club, { drills, words: WORDS });
	console.log(`\n${drills} drills of ${WORDS} words`);
	await stages(club);
	whole.push({ drills, cpu: await commands(club, drills) });
}
for (let i = 1; i < whole.length; i++) {
	const [a, b] = [whole[i - 1], whole[i]];
	if (a === undefined || b === undefined) continue;
	const exponent = Math.log(b.cpu / a.cpu) / Math.log(b.drills / a.drills);
	console.log(
		`exponent of the processor's time from ${a.drills} to ${b.drills} drills: ${exponent.toFixed(2)}`,
	);
}

/** Each stage once, in this process; the first size also pays for what is loaded. */
async function stages(club: string): Promise<void> {
	const out = join(dir, "stages");
	rmSync(out, { recursive: true, force: true });
	mkdirSync(out, { recursive: true });
	const rows: (readonly [string, number])[] = [];
	const timed = async <T>(name: string, run: () => T | Promise<T>): Promise<T> => {
		const started = performance.now();
		const result = await run();
		rows.push([name, performance.now() - started]);
		return result;
	};
	const read = await timed("read", () => readClub(club));
	const valid = await timed("validate", () => validateClub(read, "club"));
	const { curriculum } = await timed("link", () => linkClub(valid, false, () => undefined));
	if (curriculum === undefined) throw new Error("The generated club has errors.");
	const words = wordsFor("en");
	const measured = measure(curriculum, words);
	// Counted when it is asked for.
	await timed("compute", () => [measured.exposures, measured.tables, measured.findings]);
	const markdown = createMarkdown({ resolve: curriculum.resolve, highlight: highlightCode });
	const edition = { number: 1, date: "2026-11-30", content: contentHash(read, [club], []) };
	const mends = await timed("changes that mend", () => mendsOf(measured, measured.findings));
	const handbook = {
		...measured,
		mends: () => mends,
		termMend: () => [],
		words,
		markdown,
		clubDir: club,
		edition,
	};
	const options = { kept: true };
	await timed("views, pages, Eleventy", () => writePages(sitePages(handbook, options), out, () => undefined));
	const assets = await timed("styles, programs, icons", () =>
		writeCommonFiles(words, out, editionNameOf(handbook)),
	);
	const files = await timed("search index", () => searchFiles(handbook));
	const data = await timed("data", () => dataFiles(handbook, handbook.words, handbook.edition));
	for (const { path, text } of [...files, ...data]) {
		mkdirSync(join(out, path, ".."), { recursive: true });
		writeFileSync(join(out, path), text);
	}
	await timed("records and worker", () =>
		writeOffline(out, {
			words,
			edition: handbook.edition,
			records: recordFiles(handbook, options, highlightCode),
			others: assets,
			readyMade: [],
		}),
	);
	for (const [name, ms] of rows) console.log(`  ${name.padEnd(36)} ${ms.toFixed(0).padStart(7)} ms`);
	console.log(`  output ${(sizeOf(out) / 1e6).toFixed(1)} MB`);
}

/** The commands in turn; gives the median of the processor's time that ours takes, in seconds. */
async function commands(club: string, drills: number): Promise<number> {
	const main = join(REPOSITORY, "scripts/commands/main.ts");
	const eleventy = plainEleventy(club, drills);
	const ours = join(dir, "ours");
	const built = { command: NODE, args: [main, "build", "--no-print", "--club", club, "--out", ours] };
	const runs: readonly {
		readonly name: string;
		readonly command: string;
		readonly args: readonly string[];
		readonly cwd: string;
		/** What it makes anew: what stood there would be compared or left. */
		readonly fresh?: readonly string[];
		/** What is done before. */
		readonly first?: () => void;
	}[] = [
		{
			name: WHOLE,
			...built,
			cwd: REPOSITORY,
			fresh: [ours, join(dir, ".ours.editions"), clubResults(club)],
		},
		{ name: "nothing changed", ...built, cwd: REPOSITORY },
		{ name: "one drill changed", ...built, cwd: REPOSITORY, first: () => changeDrill(club) },
		{ name: "check", command: NODE, args: [main, "check", "--club", club], cwd: REPOSITORY },
		{
			name: "Eleventy, Liquid",
			command: NODE,
			args: [join(REPOSITORY, "node_modules/@11ty/eleventy/cmd.cjs"), "--quiet"],
			cwd: eleventy,
			fresh: [join(eleventy, "_site")],
		},
		...(hugo ? [hugoRun(plainHugo(club, drills))] : []),
	];
	const figures = new Map(runs.map(({ name }) => [name, [] as Figures[]]));
	for (let round = 0; round < rounds; round++) {
		for (const { name, command, args, cwd, fresh, first } of runs) {
			for (const made of fresh ?? []) rmSync(made, { recursive: true, force: true });
			first?.();
			figures.get(name)?.push(await run(command, args, cwd));
		}
	}
	const own = figures.get(WHOLE) ?? [];
	for (const [name, theirs] of figures) {
		const ratios = (of: (figure: Figures) => number) =>
			spread(theirs.map((figure, i) => of(own[i] ?? figure) / of(figure)));
		const beside =
			name === WHOLE
				? ""
				: `; ours is ${ratios((f) => f.seconds)} of its wall, ${ratios((f) => f.cpu)} of its cpu`;
		const [wall, cpu] = [spread(theirs.map((f) => f.seconds)), spread(theirs.map((f) => f.cpu))];
		const peak = spread(
			theirs.map((f) => f.mib),
			0,
		);
		console.log(`  ${name.padEnd(18)} wall ${wall} s, cpu ${cpu} s, peak ${peak} MiB${beside}`);
	}
	return median(own.map(({ cpu }) => cpu));
}

function hugoRun(cwd: string) {
	return { name: "Hugo", command: "hugo", args: ["--quiet"], cwd, fresh: [join(cwd, "public")] };
}

/** Another sentence at the end of a drill's page. */
function changeDrill(club: string): void {
	const folder = join(club, "content/drills/floor");
	const file = join(folder, readdirSync(folder)[9] ?? "");
	writeFileSync(file, `${readFileSync(file, "utf8")}\nA quiet end is worth more than a high start.\n`);
}

/** Eleventy as it comes: a Markdown file for each drill, a Liquid layout with the same fields. */
function plainEleventy(club: string, drills: number): string {
	const folder = join(dir, `eleventy-${drills}`);
	cpSync(join(club, "content/drills"), join(folder, "drills"), { recursive: true });
	mkdirSync(join(folder, "_includes"), { recursive: true });
	writeFileSync(join(folder, "drills/drills.json"), JSON.stringify({ layout: "drill.liquid" }));
	const list = (name: string) => `<ul>{% for one in ${name} %}<li>{{ one }}</li>{% endfor %}</ul>`;
	writeFileSync(
		join(folder, "_includes/drill.liquid"),
		`<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>{{ title }}</title></head><body>
<h1>{{ title }}</h1><p>{{ summary }}</p><p>{{ spotting }}</p><p>{{ caution }}</p>
<dl>{% for level in levels %}<dt>{{ level[0] }}</dt><dd>{{ level[1].do }} {{ level[1].sets }} {{ level[1].reps }}</dd>{% endfor %}</dl>
${list("cues")}<dl>{% for fault in faults %}<dt>{{ fault.see }}</dt><dd>{{ fault.say }}</dd>{% endfor %}</dl>
${FIELDS.map(list).join("")}{{ content }}</body></html>`,
	);
	writeFileSync(join(folder, "package.json"), "{}");
	return folder;
}

/** The same files and fields for Hugo. */
function plainHugo(club: string, drills: number): string {
	const folder = join(dir, `hugo-${drills}`);
	cpSync(join(club, "content/drills"), join(folder, "content/drills"), { recursive: true });
	mkdirSync(join(folder, "layouts/_default"), { recursive: true });
	writeFileSync(
		join(folder, "config.toml"),
		'baseURL = "https://handbook.example/"\ndisableKinds = ["taxonomy", "term", "RSS", "sitemap", "section", "home", "404"]\n',
	);
	const list = (name: string) => `<ul>{{ range .Params.${name} }}<li>{{ . }}</li>{{ end }}</ul>`;
	writeFileSync(
		join(folder, "layouts/_default/single.html"),
		`<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>{{ .Title }}</title></head><body>
<h1>{{ .Title }}</h1><p>{{ .Params.summary }}</p><p>{{ .Params.spotting }}</p><p>{{ .Params.caution }}</p>
<dl>{{ range $level, $way := .Params.levels }}<dt>{{ $level }}</dt><dd>{{ $way.do }} {{ $way.sets }} {{ $way.reps }}</dd>{{ end }}</dl>
${list("cues")}<dl>{{ range .Params.faults }}<dt>{{ .see }}</dt><dd>{{ .say }}</dd>{{ end }}</dl>
${FIELDS.map(list).join("")}{{ .Content }}</body></html>`,
	);
	return folder;
}

function hasHugo(): boolean {
	try {
		execFileSync("hugo", ["version"], { stdio: "ignore" });
		return true;
	} catch {
		return false;
	}
}

function sizeOf(folder: string): number {
	return readdirSync(folder, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.reduce((sum, entry) => sum + statSync(join(entry.parentPath, entry.name)).size, 0);
}

function median(values: readonly number[]): number {
	return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}

/** "1.23 (1.20 to 1.31)": the median, the least and the most. */
function spread(values: readonly number[], decimals = 2): string {
	const [least, most] = [Math.min(...values), Math.max(...values)];
	return `${median(values).toFixed(decimals)} (${least.toFixed(decimals)} to ${most.toFixed(decimals)})`;
}
