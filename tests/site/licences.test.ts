/**
 * The licences of what a site carries: OFL 1.1 (condition 2), MIT and Apache-2.0 (section 4) ask that text
 * and copyright go along with every copy. Names of licences by SPDX; the lines are those of their published texts.
 */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { beforeAll, describe, expect, it } from "vitest";
import { readyMade } from "../../scripts/site/bundle-program.ts";
import { bundledPackages } from "../../scripts/site/licences.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { type BuiltSite, sharedSite } from "./build-site.ts";

const TYPEFACE = "node_modules/@fontsource-variable/atkinson-hyperlegible-next";

/** A line that the published text of each licence has, https://spdx.org/licenses/ */
const PUBLISHED: Readonly<Record<string, string>> = {
	MIT: "Permission is hereby granted, free of charge",
	"Apache-2.0": "TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION",
	"OFL-1.1": "SIL OPEN FONT LICENSE Version 1.1 - 26 February 2007",
	"BSD-2-Clause": "Redistribution and use in source and binary forms, with or without",
	ISC: "Permission to use, copy, modify, and/or distribute this software",
};

describe("a published site", () => {
	let site: BuiltSite;
	let text: string;
	let packages: readonly string[];
	beforeAll(async () => {
		site = await sharedSite(join(FIXTURES, "clubs/full-pages"));
		text = readFileSync(join(site.dir, "licences.txt"), "utf8");
		packages = [TYPEFACE, ...(await bundledPackages(wordsFor("en")))];
	});

	it("carries the licence text and the copyright of every package in it", () => {
		expect(packages).toContain("node_modules/@orama/stemmers");
		expect(packages).toContain("node_modules/minisearch");
		expect(packages).not.toContain("node_modules/markdown-it");
		for (const folder of packages) {
			const { name, version, license } = JSON.parse(
				readFileSync(join(REPOSITORY, folder, "package.json"), "utf8"),
			) as Readonly<Record<"name" | "version" | "license", string>>;
			const start = text.indexOf(`${name} ${version}: ${license}\n`);
			expect(start, name).toBeGreaterThan(-1);
			const own = text.slice(start, text.indexOf(`\n\n${"-".repeat(72)}\n\n`, start) >>> 0);
			expect(own).toContain(PUBLISHED[license] ?? `a text of ${license} to compare with`);
			const file = readdirSync(join(REPOSITORY, folder)).find((one) => /^licen[cs]e/i.test(one)) ?? "";
			const lines = readFileSync(join(REPOSITORY, folder, file), "utf8").match(/^.*copyright.*$/gim) ?? [];
			expect(lines.length, name).toBeGreaterThan(0);
			for (const line of lines) expect(own).toContain(line.trim());
		}
	});

	it("carries its own licence, and links the file from the page about the handbook", () => {
		expect(text).toContain(readFileSync(join(REPOSITORY, "LICENSE"), "utf8").trim());
		expect(site.pages.get("about/index.html")).toContain('<a href="../licences.txt" type="text/plain">');
	});

	it("names no package that is in none of its programs", () => {
		const named = [...text.matchAll(/^(\S+) \d+\.\d+\.\d+\S*: /gm)].map(([, name]) => name);
		expect(named.sort()).toEqual(packages.map((folder) => folder.replace(/^.*node_modules\//, "")).sort());
	});
});

describe("the list of what is bundled", () => {
	it("holds what the worker alone needs, whatever stands in front of it", async () => {
		// Told by another way: the bundler's own command line, for one program.
		const {
			metafile: { outputs },
		} = await build({
			absWorkingDir: REPOSITORY,
			entryPoints: ["layouts/worker/make.ts"],
			bundle: true,
			minify: true,
			metafile: true,
			write: false,
			outdir: REPOSITORY,
			plugins: [readyMade],
		});
		const inputs = Object.values(outputs).flatMap((one) => Object.entries(one.inputs));
		const used = inputs.filter(([path, one]) => path.includes("node_modules/") && one.bytesInOutput > 0);
		const listed = await bundledPackages(wordsFor("en"));
		expect(used.length).toBeGreaterThan(0);
		for (const [path] of used)
			expect(
				listed.some((folder) => path.startsWith(`${folder}/`)),
				path,
			).toBe(true);
	});
});
