/** What a device makes of an edition's other files, against what the build wrote; and what is sent then. */

import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { TablesMaker } from "../../../layouts/browser/worker/tables-maker.ts";
import type { EditionList } from "../../../scripts/render/offline/edition-list.ts";
import { packPath } from "../../../scripts/render/offline/edition-list.ts";
import { forReader } from "../../../scripts/render/offline/for-reader.ts";
import { madeFiles } from "../../../scripts/render/offline/makers.ts";
import { unpack } from "../../../scripts/render/offline/packs.ts";
import { SHARED_FILE } from "../../../scripts/render/offline/page-makers.ts";
import { PLAN } from "../../../scripts/render/offline/plan-file.ts";
import { OfflineWriter } from "../../../scripts/render/offline/write-offline.ts";
import { isPageText } from "../../../scripts/render/page-text.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../../open-fixture.ts";
import { type BuiltSite, buildSite } from "../../site/build-site.ts";

const CLUBS = [
	["the demo club", REPOSITORY],
	["a small club with a full plan", `${FIXTURES}clubs/full-pages`],
] as const;

/** Each club is built once. */
const built = new Map<string, Promise<BuiltSite>>();
const siteOf = (club: string) => {
	const site = built.get(club) ?? buildSite(club);
	built.set(club, site);
	return site;
};
const listOf = (site: BuiltSite) =>
	JSON.parse(
		/HANDBOOK_EDITION=(\{.*?\});/s.exec(readFileSync(join(site.dir, "worker.js"), "utf8"))?.[1] ?? "",
	) as EditionList;
/** What a device has when it has opened all packs. */
const sentIn = (site: BuiltSite): ReadonlyMap<string, string> => {
	const { packs, later, edition } = listOf(site);
	const texts = (hashes: readonly string[]) =>
		hashes.map((hash) => readFileSync(join(site.dir, packPath(hash)), "utf8"));
	return new Map([...unpack(texts(packs), texts(later), edition)].flat());
};
/** What it makes of that, by maker. */
const madeOf = (files: ReadonlyMap<string, string>) => {
	const makers = [new TablesMaker()];
	for (const maker of makers) for (const [path, text] of files) maker.read(path, text);
	const made = new Map(makers.map(({ name }) => [name, new Map<string, string>()]));
	for (const { maker, files: some } of madeFiles(makers))
		for (const [path, text] of some) made.get(maker.name)?.set(path, text);
	return made;
};
const isTable = (path: string) => /^(coverage\/.+|term(\/.+)?)\/index\.html$/.test(path);
const MADE: readonly (readonly [maker: string, isMade: (path: string) => boolean])[] = [["tables", isTable]];

describe.each(CLUBS)("%s", (_, club) => {
	it.each(MADE)("comes without what %s makes, which is the same", async (name, isMade) => {
		const site = await siteOf(club);
		const sent = sentIn(site);
		const wanted = [...site.files].filter(isMade).sort();
		expect(wanted.length).toBeGreaterThan(name === "tables" ? 10 : 0);
		const files = madeOf(sent).get(name) ?? new Map<string, string>();
		expect([...files.keys()].sort()).toEqual(wanted);
		for (const path of wanted) {
			const text = readFileSync(join(site.dir, path), "utf8");
			expect(files.get(path), path).toBe(forReader({ path, text }));
		}
		expect(listOf(site).makers).toContain(name);
		expect([...sent.keys()].filter(isMade)).toEqual([]);
		// Every maker in one program, beside the worker.
		expect(readdirSync(join(site.dir, "offline")).filter((file) => file.endsWith(".js"))).toHaveLength(1);
	});
});

it("sends the tables where one of them is written in another way", async () => {
	const club = clubCopy(undefined, `${FIXTURES}clubs/full-pages`);
	const site = await buildSite(club);
	const other = join(site.dir, "coverage/week-shape/index.html");
	writeFileSync(other, readFileSync(other, "utf8").replace("</h1>", "!</h1>"));
	const { edition } = listOf(site);
	const before = sentIn(site);
	const plan = before.get(PLAN) ?? "";
	const shared = before.get(SHARED_FILE);
	const writer = new OfflineWriter(site.dir, {
		edition,
		plan,
		shared,
		weeks: [],
		drills: 10,
		words: { language: "en" },
	});
	const texts = [...before].filter(([, text]) => isPageText(text));
	for (const [path, text] of texts) writer.add(path, text);
	const asText = new Set(texts.map(([path]) => path));
	const others = [...site.files].filter((path) => !asText.has(path));
	await writer.finish(others, Promise.resolve({ isExtended: true }));
	await writer.close();
	expect(listOf(site).makers).toEqual([]);
	const sent = sentIn(site);
	expect([...sent.keys()].filter(isTable)).toHaveLength([...site.pages.keys()].filter(isTable).length);
	expect(sent.get("coverage/week-shape/index.html")).toContain("!</h1>");
	expect(sent.has(PLAN)).toBe(false);
});
