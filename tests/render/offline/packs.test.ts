/** Packs against the pages they were made of, and what one change does to them. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isLater, packFiles, type SiteFile } from "../../../scripts/render/offline/pack-pages.ts";
import { bundlePacks, unbundle, unpack } from "../../../scripts/render/offline/packs.ts";

const OPTIONS = { edition: "5ca1ab1e", weeks: ["week-1", "week-2"], slots: 4 };

function unpacked(packs: ReadonlyMap<string, string>, edition: string, withLater = true) {
	const texts = (later: boolean) =>
		[...packs].filter(([name]) => isLater(name) === later).map(([, text]) => text);
	return new Map([...unpack(texts(false), withLater ? texts(true) : [], edition)].flat());
}

const asMap = (files: readonly SiteFile[]) => new Map(files.map(({ path, text }) => [path, text]));

/** A small site: drills whose texts stand on their own pages, in lists, in weeks and on class sheets. */
function site(
	drills: number,
	textOf = (drill: number) => `Text of ${drill} that goes on for a while`,
	/** What else it says, on its own page and on others. */
	more: (drill: number, isOwn: boolean) => object = () => ({}),
) {
	const page = (path: string, view: object) => ({
		path,
		text: JSON.stringify(["kind", path.replace(/index\.html$/, ""), path, null, [], null, view]),
	});
	const line = (drill: number) => ({
		link: { to: `drills/d-${drill}/`, name: textOf(drill) },
		summary: `<is what it is <b class="name">called</b>`,
		apparatus: [{ to: "apparatus/floor/", name: "Floor" }],
		levels: [{ to: "levels/one/", name: "One" }],
	});
	const core = (drill: number, isOwn: boolean) => ({
		cues: [`<${textOf(drill)}, at length`],
		...more(drill, isOwn),
	});
	const cores = () => ({ cores: numbers.map((n) => core(n, false)) });
	const numbers = Array.from({ length: drills }, (_, i) => i);
	return [
		page("about/index.html", { edition: OPTIONS.edition }),
		page("index.html", { club: "Home" }),
		...numbers.map((n) =>
			page(`drills/d-${n}/index.html`, {
				id: `d-${n}`,
				...core(n, true),
				title: textOf(n),
				body: `<<p><a href="../../drills/d-${n + 1}/">Another</a></p>`,
				elsewhere: [line((n + 1) % drills)],
			}),
		),
		...["a", "b", "c"].map((skill) => page(`skills/${skill}/index.html`, { drills: numbers.map(line) })),
		...OPTIONS.weeks.flatMap((week) => [
			page(`weeks/${week}/index.html`, cores()),
			page(`classes/mon/${week}/index.html`, cores()),
			page(`classes/tue/${week}/index.html`, cores()),
		]),
		...Array.from({ length: 40 }, (_, i) => ({
			path: `coverage/t-${i}/index.html`,
			text: `<!DOCTYPE html><h1>Table ${i}</h1><td class="cell">1</td><td class="cell">2</td>`,
		})),
	];
}

describe("packs", () => {
	it("give back every page as it was, with and without those that come later", () => {
		const files = [...site(400), { path: "schemas/drill.json", text: '{"title": "What an editor reads"}' }];
		const packs = packFiles(files, OPTIONS);
		expect(unpacked(packs, OPTIONS.edition)).toEqual(asMap(files));
		const first = unpacked(packs, OPTIONS.edition, false);
		expect(first).toEqual(asMap(files.filter(({ path }) => !/^(coverage|schemas)\//.test(path))));
	});

	it("give back any text", () => {
		const words = fc.constantFrom(
			"<p>",
			"</p>",
			'"',
			"../",
			"../../",
			"long words again and again ",
			"é",
			"&#8594;",
			"\n",
		);
		const texts = fc.array(words, { maxLength: 60 }).map((parts) => parts.join(""));
		const paths = fc.constantFrom(
			"about/index.html",
			"drills/a/index.html",
			"drills/b/index.html",
			"weeks/week-1/index.html",
			"classes/x/week-1/index.html",
			"coverage/x/index.html",
			"index.html",
			"search/heads.txt",
		);
		fc.assert(
			fc.property(fc.uniqueArray(fc.tuple(paths, texts), { selector: ([path]) => path }), (pairs) => {
				const files = pairs.map(([path, text]): SiteFile => ({ path, text }));
				expect(unpacked(packFiles(files, OPTIONS), OPTIONS.edition)).toEqual(asMap(files));
			}),
		);
	});

	it("are the same for the same pages, and for another edition that changed none", () => {
		const files = site(50);
		const packs = packFiles(files, OPTIONS);
		expect(packFiles(files.toReversed(), OPTIONS)).toEqual(packs);
		const renamed = files.map(({ path, text }) => ({
			path,
			text: text.replaceAll(OPTIONS.edition, "0ddba115"),
		}));
		const next = packFiles(renamed, { ...OPTIONS, edition: "0ddba115" });
		expect(next).toEqual(packs);
		expect(unpacked(next, "0ddba115")).toEqual(asMap(renamed));
	});

	it("change in one place where one drill's text changes, though weeks and lists show it", () => {
		const files = site(50);
		const packs = packFiles(files, OPTIONS);
		const changed = site(50, (n) =>
			n === 7 ? "Another text of seven, as long as it likes" : `Text of ${n} that goes on for a while`,
		);
		const next = packFiles(changed, OPTIONS);
		expect(unpacked(next, OPTIONS.edition)).toEqual(asMap(changed));
		expect([...next].filter(([name, text]) => packs.get(name) !== text).map(([name]) => name)).toHaveLength(
			1,
		);
	});

	it("come out of a bundle as they went in", () => {
		const packs = [...packFiles(site(50), OPTIONS).values()];
		expect(unbundle(bundlePacks(packs))).toEqual(packs);
	});

	it("come out of a bundle as they went in where they hold what stands for words in it", () => {
		const texts = ["Āhold hold hold hold", "→ hold Ćhold ߿ é", "hold\n"];
		const packs = [
			...packFiles(
				texts.map((text, i) => ({ path: `search/${i}.txt`, text })),
				OPTIONS,
			).values(),
		];
		const bundle = bundlePacks(packs);
		expect(bundle.match(/hold/g)).toHaveLength(1);
		expect(unbundle(bundle)).toEqual(packs);
	});

	it("change in one place where a drill's section grows, though others copy from those after it", () => {
		const long = (n: number) => `Text of ${n} that goes on for a while`;
		const common = { setUp: { how: "<What others have as well, and at some length", last: "<one" } };
		const grown = (faults: readonly string[]) =>
			site(50, long, (n, isOwn) =>
				isOwn ? { faults: n === 7 ? faults : [`<Fault ${n}`], ...common } : common,
			);
		const packs = packFiles(grown(["<It is one"]), OPTIONS);
		const more = grown(["<It is one", "<And another", "<And one more, which is new"]);
		const next = packFiles(more, OPTIONS);
		expect(unpacked(next, OPTIONS.edition)).toEqual(asMap(more));
		expect([...next].filter(([name, text]) => packs.get(name) !== text)).toHaveLength(1);
	});

	it("are smaller than the pages by far", () => {
		const files = site(200);
		const size = (texts: Iterable<string>) => [...texts].reduce((sum, text) => sum + text.length, 0);
		expect(size(packFiles(files, OPTIONS).values())).toBeLessThan(size(files.map(({ text }) => text)) / 3);
	});

	it("refuse a page that holds one of their signs, and packs that do not belong together", () => {
		expect(() => packFiles([{ path: "index.html", text: "a\u0002b" }], OPTIONS)).toThrow(RangeError);
		const packs = packFiles(site(50), OPTIONS);
		const texts = [...packs].filter(([name]) => name !== "drills 1").map(([, text]) => text);
		expect(() => [...unpack(texts, [], OPTIONS.edition)]).toThrow(RangeError);
	});
});
