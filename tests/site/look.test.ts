/**
 * A club's own look: its colour, logo and style sheet on every page and in the preview, and a coaches' site
 * without the areas that the club leaves out. That every link of it leads somewhere is held by pages.test.ts,
 * and that devices make the same pages by tests/records.
 */

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { paperOf } from "../../layouts/sheets/paper.ts";
import { openClub, openRest } from "../../scripts/commands/open-club.ts";
import { Preview } from "../../scripts/desk/preview.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { printStyles } from "../../scripts/print/print-styles.ts";
import {
	type ClubColours,
	coloursOf,
	contrastOf,
	DARK,
	LEAST_UNDER_PAPER,
	LIGHT,
	MOST_UNDER_INK,
	mixOf,
} from "../../scripts/validate/club-colours.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { AXE, objectionsTo } from "../see-pages.ts";
import { type BuiltSite, sharedSite } from "./build-site.ts";
import { openSite } from "./open-site.ts";

const CLUB = join(FIXTURES, "clubs/own-look");

/** Any colour, as a club writes it. */
const anyColour = fc.integer({ min: 0, max: 0xffffff }).map((n) => `#${n.toString(16).padStart(6, "0")}`);

describe("a site in the club's colours", () => {
	let site: BuiltSite;
	beforeAll(async () => {
		site = await sharedSite(CLUB);
	});

	it("has the club's styles after ours, and its logo, on every page", () => {
		for (const [file, text] of site.pages) {
			const sheets = Array.from(
				text.matchAll(/<link rel="stylesheet" href="[^"]*assets\/([^"]+)"/g),
				([, name]) => name,
			);
			expect([sheets[0], sheets.at(-1)], file).toEqual(["site.css", "club.css"]);
			expect(text, file).toMatch(
				/<img class="logo" src="[^"]*media\/crest-[0-9a-f]{8}-200\.webp" width="200" height="240" alt="">/,
			);
		}
	});

	it("is dressed by one file, which devices keep with the logo", () => {
		const styles = readFileSync(join(site.dir, "assets/club.css"), "utf8");
		expect(styles).toContain("--brand:light-dark(#7a1f3d,");
		expect(styles.endsWith("h2{text-transform:uppercase}\n")).toBe(true);
		const worker = readFileSync(join(site.dir, "worker.js"), "utf8");
		const list = JSON.parse(/^const HANDBOOK_EDITION=(.*?\});/s.exec(worker)?.[1] ?? "{}") as {
			files: { path: string }[];
			later: { path: string }[];
		};
		expect(list.files.map(({ path }) => path)).toContain("assets/club.css");
		expect(list.later.map(({ path }) => path).join()).toMatch(/media\/crest-/);
	});

	it("holds nothing of what the club leaves out, and says of no plan that all is met", () => {
		const areas =
			/^(findings|measures|author-guide|schemas)\/|^data\/(findings\.json|spacing\.csv|time\.csv|load\.csv|equipment\.csv)$/;
		expect([...site.files].filter((file) => areas.test(file))).toEqual([]);
		expect(openHandbook(CLUB).handbook?.findings.length).toBeGreaterThan(0);
		for (const [file, text] of site.pages) {
			expect(text, file).not.toMatch(/href="[^"]*(findings|measures|author-guide|schemas)\//);
			expect(text, file).not.toMatch(/class="findings"|\bH3\d\d\b|No finding|All targets/);
		}
		const record = JSON.parse(readFileSync(join(site.dir, "data/record.json"), "utf8")) as {
			findings: unknown;
		};
		expect(record.findings).toEqual([]);
		const offline = [...site.files].filter((file) => /^offline\/.*\.json$/.test(file));
		expect(offline.length).toBeGreaterThan(2);
		for (const file of offline)
			expect(readFileSync(join(site.dir, file), "utf8"), file).not.toMatch(/H3\d\d/);
	});

	it("is shown whole in the preview, dressed as it will be", async () => {
		const { opened } = await openClub(CLUB, { keep: false });
		if (opened === undefined) throw new Error("the club does not open");
		const preview = new Preview(opened.handbook, opened.media, []);
		for (const path of ["findings/", "measures/", "author-guide/", "data/findings.json"]) {
			expect((await preview.answer(path))?.status, path).toBe(200);
		}
		const home = String((await preview.answer(""))?.body);
		expect(home).toContain('href="findings/"');
		expect(home).toContain('<img class="logo"');
		expect((await preview.answer("assets/club.css"))?.body).toBe(
			readFileSync(join(site.dir, "assets/club.css"), "utf8"),
		);
		const sheets = String((await preview.answer("print-preview/print.css"))?.body);
		expect(sheets.trimEnd().endsWith("h2{text-transform:uppercase}")).toBe(true);
		const cover = String((await preview.answer("print-preview/0/"))?.body);
		expect(cover).toMatch(/class="cover-club"><img src="data:image\/webp;base64,/);
	});

	it("has no styles of its own where the club says nothing", async () => {
		const { pages, files } = await sharedSite(join(FIXTURES, "clubs/full-pages"));
		expect(files.has("assets/club.css")).toBe(false);
		expect(pages.get("index.html")).not.toContain("club.css");
	});
});

describe("a colour", () => {
	it("is checked against the paper and ink that the site's styles name", () => {
		const css = readFileSync(join(REPOSITORY, "layouts/styles/tokens.css"), "utf8");
		expect(css).toContain(`--sheet: light-dark(${LIGHT.sheet}, ${DARK.sheet});`);
		expect(css).toContain(`--ink: light-dark(${LIGHT.ink}, ${DARK.ink});`);
		const cells = readFileSync(join(REPOSITORY, "layouts/styles/coverage.css"), "utf8");
		const shares = Array.from(
			cells.matchAll(/color-mix\(in oklab, var\(--heat\) (\d+)%/g),
			([, share]) => Number(share) / 100,
		);
		expect(Math.max(...shares.slice(0, 5))).toBe(MOST_UNDER_INK);
		expect(Math.min(...shares.slice(5))).toBe(LEAST_UNDER_PAPER);
	});

	// WCAG 2.2, 1.4.3: at least 4.5 : 1. The contrast itself is held against axe-core and a browser below.
	it("has shades for both themes on which all words and numbers can be read, whatever it is", () => {
		fc.assert(
			fc.property(anyColour, (colour) => {
				const dir = colour;
				const shown = coloursOf({ colour: dir });
				if (shown === undefined) throw new Error("no colours");
				expect(contrastOf(shown.dark, DARK.sheet)).toBeGreaterThanOrEqual(4.5);
				for (const [shade, { sheet, ink }] of tablesOf(shown)) {
					expect(contrastOf(mixOf(shade, MOST_UNDER_INK, sheet), ink)).toBeGreaterThanOrEqual(4.5);
					expect(contrastOf(mixOf(shade, LEAST_UNDER_PAPER, sheet), sheet)).toBeGreaterThanOrEqual(4.5);
				}
			}),
			{ numRuns: 300 },
		);
	});

	it("on which words cannot be read is refused with a shade that passes, of the same hue", () => {
		const dir = clubCopy();
		const write = (lines: string) => writeFileSync(join(dir, "_data/club.yaml"), `name: Club\n${lines}\n`);
		const problemsOf = () => openHandbook(dir).problems.map(({ code, fix }) => `${code} ${fix}`);
		for (const [colour, field] of [
			["#ffcc00", "colour"],
			["#ff6600", "colour"],
			["#ffffff", "colour"],
		] as const) {
			write(`${field}: "${colour}"`);
			const [problem = ""] = problemsOf();
			const nearest = /`"(#[0-9a-f]{6})"`/.exec(problem)?.[1] ?? "";
			expect(problem).toMatch(/^H131 /);
			expect(contrastOf(nearest, LIGHT.sheet)).toBeGreaterThanOrEqual(4.5);
			// The nearest: hardly darker than it must be.
			expect(contrastOf(nearest, LIGHT.sheet)).toBeLessThan(4.7);
			write(`${field}: "${nearest}"`);
			expect(problemsOf()).toEqual([]);
		}
		write("colour: #7a1f3d");
		expect(problemsOf().join()).toMatch(/H106 .*in quotes|H106/);
		write('colour-dark: "#e58fa9"');
		expect(problemsOf().join()).toContain("H105");
	});
});

function tablesOf({ tables }: ClubColours) {
	return [
		[tables.light, LIGHT],
		[tables.dark, DARK],
	] as const;
}

describe("contrast and mixing", async () => {
	const { browser, root, close } = await openSite(CLUB);
	afterAll(close);

	it("are those of axe-core, and of a browser's own color-mix, for 300 pairs", async () => {
		const pairs = fc.sample(fc.tuple(anyColour, anyColour), { numRuns: 300, seed: 22 });
		const page = await browser.newPage();
		await page.goto(`${root}about/`);
		await page.evaluate(AXE);
		const theirs = await page.evaluate((all) => {
			type Colour = { parseString(text: string): void };
			const { color } = (
				window as unknown as {
					axe: { commons: { color: { Color: new () => Colour; getContrast(a: Colour, b: Colour): number } } };
				}
			).axe.commons;
			const parsed = (text: string) => {
				const one = new color.Color();
				one.parseString(text);
				return one;
			};
			const context = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
			if (context === null) throw new Error("no canvas");
			return all.map(([one, other]) => {
				context.fillStyle = `color-mix(in oklab, ${one} 36%, ${other})`;
				context.fillRect(0, 0, 1, 1);
				return {
					contrast: color.getContrast(parsed(one), parsed(other)),
					mixed: [...context.getImageData(0, 0, 1, 1).data],
				};
			});
		}, pairs);
		await page.close();
		for (const [i, [one, other]] of pairs.entries()) {
			expect(contrastOf(one, other), `${one} ${other}`).toBeCloseTo(theirs[i]?.contrast ?? 0, 2);
			const mixed = mixOf(one, 0.36, other);
			for (const channel of [0, 1, 2]) {
				const ours = Number.parseInt(mixed.slice(1 + 2 * channel, 3 + 2 * channel), 16);
				expect(Math.abs(ours - (theirs[i]?.mixed[channel] ?? -9)), `${one} ${other}`).toBeLessThanOrEqual(1);
			}
		}
	});

	it("leave nothing for axe-core to object to on a page in the club's colour, in both themes", async () => {
		for (const value of ["light", "dark"]) {
			const page = await browser.newPage();
			await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value }]);
			for (const path of ["", "coverage/week-shape/"]) {
				await page.goto(root + path);
				await page.evaluate(AXE);
				const found = await objectionsTo(page, { runOnly: ["color-contrast"] });
				expect(found, `${path} ${value}`).toEqual([]);
			}
			await page.close();
		}
	});
});

describe("a club's style sheet", () => {
	const stylesOf = (css: string) => {
		const dir = clubCopy();
		writeFileSync(join(dir, "content/style.css"), css);
		const { handbook, problems } = openHandbook(dir);
		return {
			style: handbook?.style,
			problems: problems.map(({ code, place }) => `${code} ${place.file}:${place.line}`),
		};
	};

	it.each([
		"@import 'https://elsewhere.example/a.css';",
		"@\\69mport 'a.css';",
		"h1 { background: url(https://elsewhere.example/a.png) }",
		"h1 { background: \\75rl(//elsewhere.example/a.png) }",
		"h1 { --x: u\\72l('//elsewhere.example/a.png'); background: var(--x) }",
		"h1 { background: image-set('a.png' 1x) }",
		"h1 { background: -webkit-image-set('a.png' 1x) }",
		"@font-face { font-family: A; src: url(a.woff2) }",
		"h1 { background: src('a.png') }",
	])("may load nothing: %s", (css) => {
		expect(stylesOf(css)).toEqual({ style: undefined, problems: ["H132 content/style.css:1"] });
	});

	it.each([
		["h1 { color: red", 1],
		["h1 { color: red; }\nh2 { size 3 }", 2],
		["h1 {}\n/* without an end", 2],
		["h1 {}\n</style><script>alert(1)</script>", 2],
	])("is told its mistake at its line: %s", (css, line) => {
		expect(stylesOf(css).problems[0]).toBe(`H132 content/style.css:${line}`);
	});

	it("is looked at without what is faulty, be it the sheet itself or another file", async () => {
		const restOf = async (path: string, text: string) => {
			const dir = clubCopy();
			writeFileSync(join(dir, "content/style.css"), "h1 { color: red }");
			writeFileSync(join(dir, path), text);
			const { problems } = await openClub(dir, { keep: false });
			expect(problems.length).toBeGreaterThan(0);
			return openRest(dir, problems, { keep: false });
		};
		const withStyle = await restOf("content/guides/other.md", "no front matter");
		expect(withStyle?.opened.handbook.style).toBe("h1{color:red}\n");
		const without = await restOf("content/style.css", "h1 { color: red");
		expect(without?.leftOut).toEqual(["content/style.css"]);
		expect(without?.opened.handbook.style).toBeUndefined();
	});

	it("is one edition of the handbook, and cannot end the element it stands in on paper", () => {
		const plain = openHandbook(clubCopy()).handbook;
		const dir = clubCopy();
		writeFileSync(join(dir, "content/style.css"), "h1::after { content: '</style><script>' }");
		const { handbook } = openHandbook(dir);
		expect(handbook?.edition.content).not.toBe(plain?.edition.content);
		if (handbook === undefined) throw new Error("no handbook");
		expect(printStyles(paperOf(handbook.curriculum.club), 9, handbook.style)).not.toContain("</style");
	});
});
