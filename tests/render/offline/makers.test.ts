/** What a device makes of an edition's other files, against what the build wrote; and what is sent then. */

import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { TablesMaker } from "../../../layouts/browser/worker/tables-maker.ts";
import { BodiesMaker } from "../../../scripts/render/offline/bodies-maker.ts";
import type { EditionList } from "../../../scripts/render/offline/edition-list.ts";
import { packPath } from "../../../scripts/render/offline/edition-list.ts";
import { forReader } from "../../../scripts/render/offline/for-reader.ts";
import type { Maker } from "../../../scripts/render/offline/makers.ts";
import { unpack } from "../../../scripts/render/offline/packs.ts";
import { PLAN } from "../../../scripts/render/offline/plan-file.ts";
import { writeOffline } from "../../../scripts/render/offline/write-offline.ts";
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
const made = (maker: Maker, files: ReadonlyMap<string, string>) => {
	for (const [path, text] of files) maker.read(path, text);
	return new Map([...maker.files()].flat());
};
const isTable = (path: string) => /^(coverage\/.+|term(\/.+)?)\/index\.html$/.test(path);

it.each(CLUBS)("the search's last file is the same for %s, and so is not sent", async (_, club) => {
	const site = await siteOf(club);
	const sent = sentIn(site);
	expect(made(new BodiesMaker(), sent)).toEqual(
		new Map([["search/bodies.json", readFileSync(join(site.dir, "search/bodies.json"), "utf8")]]),
	);
	expect(listOf(site).makers).toContain("bodies");
	expect(sent.has("search/bodies.json")).toBe(false);
	expect(readdirSync(join(site.dir, "offline")).filter((name) => name.endsWith(".js"))).toHaveLength(1);
});

it.each(CLUBS)("the tables are the same for %s, and so are not sent", async (_, club) => {
	const site = await siteOf(club);
	const sent = sentIn(site);
	const tables = new Map([...site.pages].filter(([path]) => isTable(path)));
	expect(tables.size).toBeGreaterThan(10);
	const files = made(new TablesMaker(), sent);
	expect([...files.keys()].sort()).toEqual([...tables.keys()].sort());
	for (const [path, text] of tables) expect(files.get(path), path).toBe(forReader({ path, text }));
	expect(listOf(site).makers).toContain("tables");
	expect([...sent.keys()].filter(isTable)).toEqual([]);
	expect(sent.has("coverage/index.html")).toBe(true);
});

it("sends the tables where one of them is written in another way", async () => {
	const club = clubCopy(undefined, `${FIXTURES}clubs/full-pages`);
	const site = await buildSite(club);
	const other = join(site.dir, "coverage/week-shape/index.html");
	writeFileSync(other, readFileSync(other, "utf8").replace("</h1>", "!</h1>"));
	const { edition } = listOf(site);
	const plan = sentIn(site).get(PLAN) ?? "";
	await writeOffline(site.dir, { edition, plan, weeks: [], drills: 10, words: { language: "en" } });
	expect(listOf(site).makers).toEqual(["bodies"]);
	const sent = sentIn(site);
	expect([...sent.keys()].filter(isTable)).toHaveLength([...site.pages.keys()].filter(isTable).length);
	expect(sent.get("coverage/week-shape/index.html")).toContain("!</h1>");
	expect(sent.has(PLAN)).toBe(false);
});
