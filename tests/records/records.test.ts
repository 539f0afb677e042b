/**
 * Devices make every page of its records as the host has it, byte for byte, and the same search: the very
 * program that they get is run here, over the demo and a small club that uses every field.
 */

import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { createContext, runInContext } from "node:vm";
import { describe, expect, it } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import { openClub } from "../../scripts/commands/open-club.ts";
import { getOrMake } from "../../scripts/compute/get-or-make.ts";
import { recordOf } from "../../scripts/compute/plan-record.ts";
import type { ClubEdition } from "../../scripts/model.ts";
import { fromColumns, inColumns } from "../../scripts/records/columns.ts";
import type { DeviceHandbook, DeviceScope } from "../../scripts/records/device.ts";
import { type RecordFile, recordFiles } from "../../scripts/records/records.ts";
import { searchFiles } from "../../scripts/search/build-search.ts";
import { bundleProgram } from "../../scripts/site/bundle-program.ts";
import { highlightCode } from "../../scripts/site/highlight-code.ts";
import { addressFile, SHEET_FILES } from "../../scripts/views/addresses.ts";
import { raw } from "../../scripts/views/html.ts";
import type { SiteOptions } from "../../scripts/views/pages.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";

type BothWays = Awaited<ReturnType<typeof madeBothWays>>;

const kept = new Map<string, Promise<BothWays>>();

/** Every page of a club, as the build writes it and as a device makes it, by its file; made once for all tests. */
const bothWays = (clubDir: string, language?: string): Promise<BothWays> =>
	getOrMake(kept, `${clubDir} ${language}`, () => madeBothWays(clubDir, language));

async function madeBothWays(clubDir: string, language?: string) {
	const words = language === undefined ? {} : { words: wordsFor(language) };
	const { opened } = await openClub(clubDir, { highlight: highlightCode, keep: false, ...words });
	if (opened === undefined) throw new Error(`${clubDir} does not open`);
	const { handbook, media } = opened;
	const week = handbook.curriculum.weeks[0]?.id ?? "";
	const options: SiteOptions = {
		kept: true,
		media,
		printed: new Set([SHEET_FILES.weekPacket(week), SHEET_FILES.storeRoom(week)]),
		since: recordOf(handbook, "before"),
		leaveOut: handbook.curriculum.club.leaveOut ?? [],
	};
	const host = new Map<string, string>();
	const readyMade = new Set<string>();
	for (const page of sitePages(handbook, options)) {
		const file = addressFile(page.address);
		const text = documentOf(page, (name, code) => raw(highlightCode(code, name)));
		host.set(file, text);
		if (page.facts.readyMade) readyMade.add(file);
	}
	const records = recordFiles(handbook, options, highlightCode);
	const device = open(await bundleProgram("make.ts", handbook.words), records, handbook.edition);
	return { handbook, host, readyMade, records, device };
}

/** As a worker does: the program runs in a world without Node. */
function open(program: string, records: readonly RecordFile[], edition: ClubEdition): DeviceHandbook {
	// What workers have and the bare language has not.
	const scope: DeviceScope & Record<string, unknown> = { URL, URLSearchParams, structuredClone };
	runInContext(program, createContext(scope));
	const texts = new Map(records.map(({ name, text }) => [name, text]));
	if (scope.handbookOf === undefined) throw new Error("the program hands nothing over");
	return scope.handbookOf((name) => texts.get(name), edition);
}

describe("a device", () => {
	it.each([
		["the demo", REPOSITORY, undefined],
		["a club that uses every field", `${FIXTURES}clubs/full-pages`, undefined],
		["it in French", `${FIXTURES}clubs/full-pages`, "fr"],
		["a club with a look of its own", `${FIXTURES}clubs/own-look`, undefined],
		["a club of ten drills", `${FIXTURES}clubs/ten-drills`, undefined],
	])(
		"makes the pages and the search of %s as the host has them",
		{ timeout: 120_000 },
		async (_, dir, language) => {
			const { handbook, host, readyMade, device } = await bothWays(dir, language);
			expect(host.size).toBeGreaterThan(50);
			for (const [file, text] of host) {
				// These two are taken as they are.
				if (readyMade.has(file)) {
					expect(device.page(file), file).toBeUndefined();
					continue;
				}
				expect(device.has(file), file).toBe(true);
				// Not compared by `toBe` at once: the difference of two long texts takes minutes to show.
				const made = device.page(file) ?? "";
				if (made !== text) expect(made.slice(firstDifference(made, text) - 40).slice(0, 200), file).toBe("");
			}
			expect(device.search()).toEqual(searchFiles(handbook));
			expect(device.has("drills/nothing/index.html")).toBe(false);
			expect(device.page("drills/nothing/index.html")).toBeUndefined();
		},
	);

	it("is sent one other file of records for one changed sentence, and the file is named as before", async () => {
		const before = await bothWays(`${FIXTURES}clubs/full-pages`);
		const drill = before.handbook.curriculum.drills.get("rock");
		if (drill === undefined) throw new Error("the club has no such drill");
		const drills = new Map(before.handbook.curriculum.drills);
		drills.set("rock", { ...drill, body: `${drill.body}\nRock on, quietly.\n` });
		const handbook = { ...before.handbook, curriculum: { ...before.handbook.curriculum, drills } };
		const now = recordFiles(handbook, { kept: true }, highlightCode);
		const then = recordFiles(before.handbook, { kept: true }, highlightCode);
		const texts = new Map(then.map(({ name, text }) => [name, text]));
		expect(now.map(({ name }) => name)).toEqual(then.map(({ name }) => name));
		const changed = (files: readonly RecordFile[]) =>
			files.filter(({ name, text }) => texts.get(name) !== text).map(({ name }) => name);
		expect(changed(now)).toEqual(["drills-0"]);
		// Weeks and another drill link to it by its name.
		const { resolve: found } = before.handbook.curriculum;
		const resolve = (reference: string) => {
			const target = found(reference);
			return target?.id === "rock" ? { ...target, name: "Another name" } : target;
		};
		const renamed = { ...before.handbook, curriculum: { ...before.handbook.curriculum, resolve } };
		expect(changed(recordFiles(renamed, { kept: true }, highlightCode))).toEqual([]);
	});

	it("writes characters that a text names, and leaves what is no name and what is code", async () => {
		const dir = clubCopy(undefined, `${FIXTURES}clubs/ten-drills`);
		const path = drillFiles(dir)[0] ?? "";
		writeFileSync(
			path,
			`${readFileSync(path, "utf8")}\nCaf&eacute;&nbsp;&amp; &nosuch; \`&copy;\` &NotEqualTilde; &#233;\n`,
		);
		const { host, device } = await bothWays(dir);
		const [file, text = ""] = [...host].find(([, page]) => page.includes("Caf")) ?? [""];
		expect(text).toContain("<p>Café\u00a0&amp; &amp;nosuch; <code>&amp;copy;</code> ≂\u0338 é</p>");
		expect(device.page(file)).toBe(text);
	});

	it("gets its records together in columns, and has each file as it was", async () => {
		for (const dir of [REPOSITORY, `${FIXTURES}clubs/full-pages`]) {
			const texts = (await bothWays(dir)).records.map(({ text }) => text);
			expect(fromColumns(inColumns(texts))).toEqual(texts);
		}
		const odd = ["[]", '[{"a":1},{"b":[null],"c":0}]', "{}", '[["x",1]]', '"text"', '[{"b":""}]'];
		for (const most of [1, 12, 1000]) expect(fromColumns(inColumns(odd, most)), `${most}`).toEqual(odd);
	});

	it("says which file of records is missing, and opens nothing", async () => {
		const { records, handbook } = await bothWays(`${FIXTURES}clubs/full-pages`);
		const program = await bundleProgram("make.ts", handbook.words);
		for (const { name } of records) {
			const rest = records.filter((one) => one.name !== name);
			expect(() => open(program, rest, handbook.edition), name).toThrow(name);
		}
	});
});

function drillFiles(dir: string): readonly string[] {
	return readdirSync(join(dir, "content/drills"), { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => join(entry.parentPath, entry.name));
}

function firstDifference(a: string, b: string): number {
	let at = 0;
	while (a[at] !== undefined && a[at] === b[at]) at++;
	return at;
}
