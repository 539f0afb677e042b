/**
 * Every page of built sites: links and fragments resolve, markup is valid, nothing is written inline.
 */

import { posix } from "node:path";
import { type ConfigData, HtmlValidate, type ResolvedConfig, StaticConfigLoader } from "html-validate";
import { beforeAll, describe, expect, it } from "vitest";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { type BuiltSite, sharedSite } from "./build-site.ts";

const CLUBS = [
	["the demo club", REPOSITORY],
	["a small club with a full plan", `${FIXTURES}clubs/full-pages`],
	["a club with groups, too few coaches and mats to carry", `${FIXTURES}clubs/hall-lines`],
	["a club with a look of its own, and without three areas", `${FIXTURES}clubs/own-look`],
	["ten drills and nothing else", `${FIXTURES}clubs/ten-drills`],
] as const;

/** Differences from the recommended rules, each with its reason. */
const RULES: ConfigData = {
	extends: ["html-validate:recommended"],
	rules: {
		// Elements without an end are written as HTML has them, in one style.
		"void-style": "off",
		// Markup is written for the reader's browser: nobody reads its line ends.
		"no-trailing-whitespace": "off",
		// A page's title carries the drill's own name and the club's, whatever their length.
		"long-title": "off",
	},
};

/** Works the rules out once: by itself the library does so for every page, in an eighth of its time. */
class OneConfig extends StaticConfigLoader {
	#resolved: ResolvedConfig | Promise<ResolvedConfig> | undefined;

	override getConfigFor(handle: string): ResolvedConfig | Promise<ResolvedConfig> {
		this.#resolved ??= super.getConfigFor(handle);
		return this.#resolved;
	}
}

const VALIDATOR = new HtmlValidate(new OneConfig(RULES));

/** The search field is a combobox that finds while one types: it has no list of fixed options, and no button. */
const SEARCH_FIELD = new Set(["wcag/h32", "prefer-native-element"]);

/** As many pages of each kind are validated, spread over them: a class sheet in week 9 is made as the one in week 1. */
const MOST_OF_A_KIND = 20;

describe.each(CLUBS)("%s", (_, club) => {
	let site: BuiltSite;
	beforeAll(async () => {
		site = await sharedSite(club);
	});

	it("has links and fragments that lead somewhere", () => {
		const ids = new Map(Array.from(site.pages, ([file, text]) => [file, idsIn(text)]));
		const broken: string[] = [];
		for (const [file, text] of site.pages) {
			for (const [, name, value = ""] of text.matchAll(
				/\s(href|src|action|data-head|data-bodies)="([^"]*)"/g,
			)) {
				const reference = value.replaceAll("&amp;", "&");
				if (/^(https?:|mailto:)/.test(reference)) continue;
				const [path = "", fragment] = reference.split("#");
				const target = path === "" ? file : fileOf(file, path);
				if (!site.files.has(target)) broken.push(`${file}: ${name}="${reference}"`);
				else if (
					fragment !== undefined &&
					fragment !== "" &&
					!ids.get(target)?.has(decodeURIComponent(fragment))
				)
					broken.push(`${file}: ${name}="${reference}" (no such anchor)`);
			}
		}
		expect(broken.slice(0, 20)).toEqual([]);
	});

	it("has every page reachable from home", () => {
		const reached = new Set<string>();
		const queue = ["index.html"];
		for (let file = queue.pop(); file !== undefined; file = queue.pop()) {
			if (reached.has(file)) continue;
			reached.add(file);
			for (const [, value = ""] of (site.pages.get(file) ?? "").matchAll(/<a [^>]*href="([^"#]*)[^"]*"/g)) {
				const target = value === "" ? file : fileOf(file, value);
				if (site.pages.has(target)) queue.push(target);
			}
		}
		expect([...site.pages.keys()].filter((file) => !reached.has(file))).toEqual(["404.html"]);
	});

	it("is valid HTML", async () => {
		const messages: string[] = [];
		const kinds = Map.groupBy(site.pages, ([, text]) => /<body class="([^"]+)"/.exec(text)?.[1] ?? "");
		const spread = (own: readonly (readonly [string, string])[]) => {
			const step = Math.max(1, Math.ceil(own.length / MOST_OF_A_KIND));
			return own.filter((_, at) => at % step === 0);
		};
		for (const [file, text] of [...kinds.values()].flatMap(spread)) {
			const report = await VALIDATOR.validateString(text, file);
			for (const { line, ruleId, message } of report.results.flatMap((result) => result.messages)) {
				if (file === "search/index.html" && SEARCH_FIELD.has(ruleId)) continue;
				messages.push(`${file}:${line} ${ruleId}: ${message}`);
			}
		}
		expect(messages.slice(0, 20)).toEqual([]);
	}, 300_000);

	it("has one heading of the first level, a title, a language, and noindex on every page", () => {
		for (const [file, text] of site.pages) {
			expect(text.match(/<h1[ >]/g), file).toHaveLength(1);
			expect(text, file).toMatch(/<title>[^<]+<\/title>/);
			expect(text, file).toMatch(/<html lang="[a-z]{2}[^"]*">/);
			expect(text, file).toContain('<meta name="robots" content="noindex">');
		}
	});

	it("has headings in order, and ids once", () => {
		for (const [file, text] of site.pages) {
			let last = 0;
			for (const [, level] of text.matchAll(/<h([1-6])[ >]/g)) {
				expect(Number(level), `${file}: h${level} after h${last}`).toBeLessThanOrEqual(last + 1);
				last = Number(level);
			}
			const ids = [...text.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
			expect(ids.length, file).toBe(new Set(ids).size);
		}
	});

	it("has no inline style, script or handler, and the policy that forbids them", () => {
		for (const [file, text] of site.pages) {
			expect(text, file).not.toMatch(/<style|\sstyle=|\son[a-z]+="|javascript:/);
			expect(
				text
					.replace(/<script src="[^"]+"( defer)?( blocking="render")?><\/script>/g, "")
					// Data for search engines: a browser never runs it, and it holds no sign that could end it.
					.replace(/<script type="application\/ld\+json">[^<]*<\/script>/g, ""),
				file,
			).not.toContain("<script");
			expect(text, file).toContain(
				`http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'`,
			);
		}
	});

	it("carries the usual caution on every page, and spotting or caution on every drill", () => {
		for (const [file, text] of site.pages) {
			expect(text, file).toContain("needs qualified supervision, matting and spotting suited to the gymnast");
			if (/^drills\/[^/]+\/index/.test(file)) expect(text, file).toMatch(/<strong>(Spotting|Caution)/);
		}
	});
});

/** The file that a reference from a page leads to. */
function fileOf(page: string, path: string): string {
	const at = path.startsWith("/") ? path.slice(1) : posix.join(posix.dirname(page), path);
	const clean = at === "." || at === "./" ? "" : (at.split("?")[0] ?? "");
	return clean === "" || clean.endsWith("/") ? `${clean}index.html` : clean;
}

function idsIn(text: string): ReadonlySet<string> {
	return new Set([...text.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id ?? ""));
}
