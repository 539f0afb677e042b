import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { searchDocuments, searchFiles, searchOptions } from "../../scripts/search/build-search.ts";
import {
	FACETS,
	type Facet,
	type Filters,
	readChoice,
	toggled,
	writeChoice,
} from "../../scripts/search/choice.ts";
import {
	createIndex,
	type Hit,
	NO_EQUIPMENT,
	openIndex,
	type SearchDocument,
	type SearchIndex,
	searchData,
	type TextsFile,
} from "../../scripts/search/engine.ts";
import { openWhileReading } from "../../scripts/search/head-text.ts";
import { searchPages } from "../../scripts/search/search-pages.ts";
import { HEAD_FILE, SUMMARIES_FILE, textFiles } from "../../scripts/views/search-files.ts";
import * as english from "../../scripts/words/en.ts";
import { demoHandbook } from "../demo.ts";
import { HELD_QUERIES, KEPT, PAGE_QUERIES } from "./held-queries.ts";
import { findWith, judge, judgedQueries, mean } from "./judge.ts";
import { precisionOf } from "./precision.ts";
import { writtenDrills } from "./second-reader.ts";
import {
	fitting,
	idsFor,
	SMALL_DRILLS,
	SMALL_OPTIONS,
	SMALL_VALUES,
	smallIndex,
	wholeIdsFor,
} from "./small-club.ts";

describe("a small club", () => {
	const index = smallIndex();
	const files = searchData(SMALL_DRILLS, SMALL_OPTIONS);

	test("finds by shape, skill, level, apparatus and equipment", () => {
		expect(idsFor(index, "hollow").slice(0, 2).toSorted()).toEqual(["band-kip", "boat-rocks"]);
		expect(idsFor(index, "kip")[0]).toBe("band-kip");
		expect(idsFor(index, "beginners").toSorted()).toEqual(["boat-rocks", "stork-stand"]);
		expect(idsFor(index, "beam").toSorted()).toEqual(["scale-steps", "stork-stand"]);
		expect(idsFor(index, "landing mat")[0]).toBe("hop-onto-block");
	});

	test("reads a whole question, and a level by its short name", () => {
		const question = "a drill for the hollow shape that Level 2 can do on bars";
		// "shape" stands in no drill: what remains is answered, and the answer says so.
		expect(idsFor(index, question)[0]).toBe("band-kip");
		expect(wholeIdsFor(index, "hollow L2 bars")).toEqual(["band-kip"]);
		expect(wholeIdsFor(index, "level 2 hollow bars")).toEqual(["band-kip"]);
	});

	test("an alias is the thing itself, whichever of the two the drill's author wrote", () => {
		expect(idsFor(index, "dish").toSorted()).toEqual(idsFor(index, "hollow").toSorted());
		expect(idsFor(index, "upstart")[0]).toBe("band-kip");
		expect(idsFor(index, "crash mat")).toEqual(["hop-onto-block"]);
		expect(idsFor(index, "arabesque")).toEqual(["scale-steps"]);
		expect(idsFor(index, "crouch on")).toEqual(["hop-onto-block"]);
	});

	test("an alias of two things means, in a drill's text, the one the drill is tagged with", () => {
		expect(idsFor(index, "block from the shoulders")).not.toContain("hop-onto-block");
		expect(wholeIdsFor(index, "foam block")).toEqual(["hop-onto-block"]);
	});

	test.each(["push-up", "pushup", "push up", "Push-Up"])("%s is the same word", (words) => {
		expect(idsFor(index, words)[0]).toBe("plank-taps");
	});

	test.each([
		["hand stand", "wall-handstand"],
		["wallhandstand", "wall-handstand"],
		["planktaps", "plank-taps"],
		["bunnyhop", "hop-onto-block"],
		["passe balance", "stork-stand"],
		["PASSÉ", "stork-stand"],
	])("%s is found joined, split, with or without accents", (words, id) => {
		expect(idsFor(index, words)[0]).toBe(id);
	});

	test.each([
		["handstnad ", "wall-handstand", "handstand"],
		["holow ", "boat-rocks", "hollow"],
		["plnak ", "plank-taps", "plank"],
		["arabesk ", "scale-steps", "arabesque"],
		["balence ", "stork-stand", "balance"],
	])("%s is corrected, and says so", (words, id, used) => {
		const bare = openIndex(files.head);
		bare.addSummaries(files.summaries);
		expect(idsFor(bare, words)).toContain(id);
		expect(bare.search(words).repairs).toEqual([{ typed: words.trim(), used }]);
	});

	test("a slip in a body never becomes a spelling", () => {
		// The body of the wall handstand says "handstnad".
		const bare = openIndex(files.head);
		expect(bare.search("handstnadd").repairs).toEqual([{ typed: "handstnadd", used: "handstand" }]);
		expect(index.search("handstnadd").repairs).toEqual([{ typed: "handstnadd", used: "handstand" }]);
	});

	test("finds what stands in cues, faults and bodies alone, once these are there", () => {
		expect(idsFor(index, "pull your trousers up")).toEqual(["band-kip"]);
		expect(idsFor(index, "elbows bend")).toEqual(["wall-handstand"]);
		expect(idsFor(index, "breath")).toEqual(["stork-stand"]);
		const opened = openIndex(files.head);
		expect(idsFor(opened, "trousers")).toEqual([]);
		opened.addTexts(files.texts);
		expect(idsFor(opened, "trousers")).toEqual(["band-kip"]);
	});

	test("finds what stands in summaries, and shows them, once these are there", () => {
		const opened = openIndex(files.head);
		expect(idsFor(opened, "stomach")).toEqual([]);
		expect(opened.summaryOf(2)).toBe("");
		opened.addSummaries(files.summaries);
		expect(idsFor(opened, "stomach")).toEqual(["wall-handstand"]);
		expect(opened.summaryOf(2)).toBe("A tall line with the stomach to the wall.");
	});

	test("nonsense finds nothing, and nonsense beside sense is named", () => {
		expect(index.search("qzxvw").hits).toEqual([]);
		expect(index.search("brontosaurus").unknown).toEqual(["brontosaurus"]);
		const mixed = index.search("handstand qzxvw");
		expect(mixed.whole).toBe(0);
		expect(mixed.unknown).toEqual(["qzxvw"]);
		expect(idsFor(index, "?!… -")).toHaveLength(SMALL_DRILLS.length);
	});

	test("every beginning of a query finds what the whole of it does", () => {
		for (const [words, id] of [
			["handstand", "wall-handstand"],
			["arabesque", "scale-steps"],
			["plank taps", "plank-taps"],
		]) {
			for (let length = 3; length <= (words?.length ?? 0); length++) {
				expect(idsFor(index, words?.slice(0, length) ?? "")).toContain(id);
			}
		}
	});

	test("a drill that answers everything stands before one that answers most, which says what it lacks", () => {
		const result = index.search("plank wall handstand");
		expect(result.hits.map((hit) => hit.lacks.length)).toEqual(
			result.hits.map((hit) => hit.lacks.length).toSorted((a, b) => a - b),
		);
		const near = index.search("hollow trousers breath");
		expect(near.whole).toBe(0);
		expect(near.hits.map((hit) => [index.entries[hit.drill]?.id, hit.lacks])).toEqual([
			["band-kip", ["breath"]],
		]);
	});

	test("suggests filters, with the words that stay", () => {
		expect(index.suggest("level 2 hol")).toContainEqual({
			facet: "shape",
			value: SMALL_VALUES.shape[0],
			count: 1,
			rest: "level 2",
		});
		expect(index.suggest("dis")[0]).toMatchObject({
			facet: "shape",
			value: { id: "hollow" },
			count: 2,
			rest: "",
		});
		expect(index.suggest("hollow", { shape: ["hollow"] })).not.toContainEqual(
			expect.objectContaining({ facet: "shape" }),
		);
		expect(index.suggest("")).toEqual([]);
	});

	test("shows drills as they were written, tags in the order of the values", () => {
		expect(index.entries).toEqual(SMALL_DRILLS.map(({ id, title }) => ({ id, title })));
		SMALL_DRILLS.forEach(({ summary, facets }, drill) => {
			expect(index.summaryOf(drill)).toBe(summary);
			for (const facet of FACETS) {
				expect(index.valuesOf(drill, facet)).toEqual(
					SMALL_VALUES[facet].filter(({ id }) => facets[facet]?.includes(id)),
				);
			}
		});
	});

	test("opened from its files, in whatever order they come, it answers the same", () => {
		const { head, summaries, texts } = JSON.parse(JSON.stringify(files)) as typeof files;
		const opened = openIndex(head);
		opened.addTexts(texts);
		opened.addSummaries(summaries);
		for (const words of [
			"",
			"hollow",
			"dish beam",
			"handstnad",
			"pushup",
			"trousers",
			"step back",
			"bunny h",
		]) {
			expect(opened.search(words, { level: ["level-2"] })).toEqual(
				index.search(words, { level: ["level-2"] }),
			);
			expect(opened.suggest(words)).toEqual(index.suggest(words));
		}
	});
});

describe("words that are filters", () => {
	const index = smallIndex();
	const held = (words: string, asText: readonly string[] = []) =>
		index
			.search(words, {}, { asText })
			.held.map(({ typed, facet, values, without }) => [typed, facet, values.map(({ id }) => id), without]);

	test.each([
		["hollow bars", [["bars", "apparatus", ["bars"], false]], ["band-kip"]],
		["bar", [["bar", "apparatus", ["bars"], false]], ["band-kip"]],
		[
			"plank L1 floor",
			[
				["l1", "level", ["level-1"], false],
				["floor", "apparatus", ["floor"], false],
			],
			["plank-taps"],
		],
		[
			"level 1 and 2 beam",
			[
				["level 1 and 2", "level", ["level-1", "level-2"], false],
				["beam", "apparatus", ["beam"], false],
			],
			["stork-stand", "scale-steps"],
		],
		["backwards", [["backwards", "direction", ["backward"], false]], ["scale-steps"]],
		[
			"week 2 bars",
			[
				["week 2", "week", ["2"], false],
				["bars", "apparatus", ["bars"], false],
			],
			["band-kip"],
		],
	] as const)("%s", (words, filters, ids) => {
		expect(held(words)).toEqual(filters);
		expect(idsFor(index, words)).toEqual(ids);
	});

	test("a name of which such a word is a part is no filter", () => {
		const club = createIndex(SMALL_DRILLS, {
			...SMALL_OPTIONS,
			values: {
				...SMALL_VALUES,
				equipment: [...SMALL_VALUES.equipment, { id: "floor-beam", name: "Floor beam", aliases: [] }],
			},
		});
		expect(club.search("floor beam").held).toEqual([]);
		expect(club.search("beam floor").held).toHaveLength(2);
	});

	test("a drill's own name is no filter", () => {
		expect(index.search("scale and step back").held).toEqual([]);
		const club = createIndex(
			[{ ...(SMALL_DRILLS[0] as SearchDocument), title: "Roll to the beam" }],
			SMALL_OPTIONS,
		);
		expect(idsFor(club, "roll to the beam")).toEqual(["boat-rocks"]);
	});

	test("taken off, the words are looked for as words", () => {
		expect(held("hollow bars", ["bars"])).toEqual([]);
		// Nothing on the floor is hollow and says bars; what has one of the two comes near.
		const result = index.search("bars week 2", {}, { asText: ["bars"] });
		expect(result.held.map(({ typed }) => typed)).toEqual(["week 2"]);
		expect(result.hits.length).toBeGreaterThan(0);
	});

	test("with filters of the same kind either will do, as with two that are chosen", () => {
		expect(idsFor(index, "hollow level 1", { level: ["level-2"] }).toSorted()).toEqual([
			"band-kip",
			"boat-rocks",
		]);
	});

	test.each([
		["without a landing mat", "equipment", ["landing-mat"]],
		["no mats", "equipment", ["landing-mat"]],
		["no band", "equipment", ["band"]],
		["not on beam", "apparatus", ["beam"]],
		["no handstand", "shape", ["handstand"]],
	] as const)("%s", (words, facet, ids) => {
		expect(held(words)).toEqual([[words, facet, ids, true]]);
		const found = idsFor(index, words);
		const meant = SMALL_DRILLS.filter(({ facets }) => !ids.some((id) => facets[facet]?.includes(id)));
		expect(found).toEqual(meant.map(({ id }) => id));
		expect(meant.length).toBeLessThan(SMALL_DRILLS.length);
	});

	test.each(["no equipment", "no kit", "without any equipment", "without kit"])("%s is a filter", (words) => {
		const documents = SMALL_DRILLS.map((document) => ({
			...document,
			facets: { ...document.facets, equipment: document.facets.equipment ?? [NO_EQUIPMENT] },
		}));
		const none = { id: NO_EQUIPMENT, ...english.filterValues.noEquipment };
		const club = createIndex(documents, {
			...SMALL_OPTIONS,
			values: { ...SMALL_VALUES, equipment: [none, ...SMALL_VALUES.equipment] },
		});
		expect(club.search(words).held.map(({ values }) => values)).toEqual([[none]]);
		expect(idsFor(club, words)).toEqual(
			SMALL_DRILLS.filter(({ facets }) => facets.equipment === undefined).map(({ id }) => id),
		);
	});

	test("what is no thing of the club is no filter: its drills may say so", () => {
		expect(held("no hands")).toEqual([]);
		expect(idsFor(index, "no trousers")).toEqual(["band-kip"]);
	});
});

describe("short forms", () => {
	const index = smallIndex();

	// Common practice among coaches, not a published list.
	test.each([
		["hs", "wall-handstand"],
		["bwd", "scale-steps"],
		["fwd plank", "plank-taps"],
		["wk 2 ub", "band-kip"],
		["lvl 1 plank", "plank-taps"],
	])("%s", (words, id) => {
		expect(idsFor(index, words)[0]).toBe(id);
	});

	test("a short word that the club uses itself stays what it is", () => {
		const club = createIndex(
			[...SMALL_DRILLS, { ...(SMALL_DRILLS[0] as SearchDocument), id: "hs", title: "HS game" }],
			SMALL_OPTIONS,
		);
		expect(idsFor(club, "hs")).toEqual(["hs"]);
	});

	test("French coaches have their own, and ask for one or several", () => {
		const club = createIndex(
			[
				{
					...(SMALL_DRILLS[0] as SearchDocument),
					title: "Vers l'appui tendu renversé",
					facets: { apparatus: ["bars"], direction: ["forward"] },
				},
			],
			{
				language: "fr",
				values: {
					...SMALL_VALUES,
					apparatus: [{ id: "bars", name: "Barres", aliases: [] }],
					direction: [{ id: "forward", name: "Avant", aliases: [] }],
				},
			},
		);
		expect(idsFor(club, "atr")).toEqual(["boat-rocks"]);
		for (const words of ["barre", "barres", "av"]) expect(club.search(words).held, words).toHaveLength(1);
	});
});

describe("repairs of short words", () => {
	const club = createIndex(
		[
			{
				...(SMALL_DRILLS[0] as SearchDocument),
				title: "Sit and roll over the rope",
				summary: "A tall posture at the end.",
				facets: {},
			},
		],
		SMALL_OPTIONS,
	);

	// Words of another language, as coaches of a mixed club type them.
	test.each(["saut ", "roue ", "poutre "])("%s is not mended to another word", (words) => {
		expect(club.search(words).repairs).toEqual([]);
		expect(club.search(words).unknown).toEqual([words.trim()]);
	});

	test.each([
		["rop ", []],
		["rpoe ", ["rope"]],
		["posturr ", []],
	])("%s", (words, used) => {
		expect(club.search(words).repairs.map((repair) => repair.used)).toEqual(used);
	});
});

describe("what a fault looks like", () => {
	const fault = (see: string) => [{ see, say: "Say this." }];
	const blank = { summary: "", cues: [], body: "", aliases: [], facets: {} };
	const club = createIndex(
		[
			{ ...blank, id: "named", title: "Bent arm hang with long arms", faults: [] },
			{
				...blank,
				id: "apart",
				title: "Swing",
				faults: [
					{ see: "Arms swing", say: "x" },
					{ see: "Knees bend", say: "x" },
				],
			},
			{ ...blank, id: "seen", title: "Press", faults: fault("Arms bend too soon") },
			{ ...blank, id: "said", title: "Lever", faults: [{ see: "Too slow", say: "Do not bend the arms." }] },
		],
		SMALL_OPTIONS,
	);

	test("a line that says it stands before a title that does, and is shown", () => {
		const { hits } = club.search("bent arms");
		expect(hits.map(({ drill }) => club.entries[drill]?.id)[0]).toBe("seen");
		expect(hits[0]?.fault).toEqual({ see: "Arms bend too soon", say: "Say this." });
		expect(hits.slice(1).map((hit) => hit.fault)).toEqual([undefined, undefined, undefined]);
	});

	test("of one word the line is shown where nothing above it has the word", () => {
		const shown = (words: string) =>
			Object.fromEntries(club.search(words).hits.map((hit) => [club.entries[hit.drill]?.id, hit.fault?.see]));
		expect(shown("knees ")).toEqual({ apart: "Knees bend" });
		expect(shown("swing ")).toEqual({ apart: undefined });
	});
});

/** Drills that differ in one thing, so that their order is decided by it alone. */
describe("order", () => {
	const blank = { aliases: [], summary: "", cues: [], faults: [], body: "", facets: {} };
	const order = (titles: readonly string[], words: string) => {
		const club = createIndex(
			titles.map((title, i) => ({ ...blank, id: `${i}`, title })),
			SMALL_OPTIONS,
		);
		return club.search(words).hits.map(({ drill }) => titles[drill]);
	};

	test("of two titles with the word, the shorter says more of it", () => {
		const long = "Lever into a slow and careful walk along the painted line of the gym";
		expect(order([long, "Lever tip"], "lever ")).toEqual(["Lever tip", long]);
	});

	test("of two words that one begins, the rarer says more, though the other is nearer", () => {
		const common = Array.from({ length: 12 }, (_, i) => `Swing number${i}`);
		expect(order([...common, "Swivelled number12"], "swi")[0]).toBe("Swivelled number12");
	});

	test("of two drills that lack one word each, the one with the rarer word comes first", () => {
		const common = Array.from({ length: 12 }, (_, i) => `Swing number${i}`);
		expect(order([...common, "Swing target", "Pulse target"], "swing pulse target ")[0]).toBe("Pulse target");
	});
});

describe("pages that are no drill", () => {
	const handbook = demoHandbook();
	const index = createIndex(searchDocuments(handbook), searchOptions(handbook), searchPages(handbook));

	test.each(PAGE_QUERIES)("%s leads to %s", (words, address) => {
		expect(index.pages(words).map((page) => page.address)).toContain(address);
	});

	test("stand where the site has pages, and none is a drill", () => {
		const addresses = new Set(sitePages(handbook).map((page) => page.address));
		const pages = searchPages(handbook);
		expect(pages.filter((page) => !addresses.has(page.address))).toEqual([]);
		expect(pages.filter((page) => page.address.startsWith("drills/"))).toEqual([]);
		expect(index.pages("no mats")).toEqual([]);
	});
});

describe("held queries", () => {
	const handbook = demoHandbook();
	const find = findWith(createIndex(searchDocuments(handbook), searchOptions(handbook)));
	const drills = writtenDrills();
	const all = HELD_QUERIES.map((query) => precisionOf(find, query, drills));

	test("are a hundred, none judged already, each with an answer", () => {
		expect(all).toHaveLength(100);
		const judged = new Set(judgedQueries().map(({ words }) => words));
		expect(HELD_QUERIES.filter(({ words }) => judged.has(words))).toEqual([]);
		expect(all.filter(({ answers }) => answers === 0).map(({ query }) => query.words)).toEqual([]);
	});

	test.each([
		["those looked at while the search was tuned", false],
		["those kept out", true],
	])("precision@5 of %s is at least .9", (_, kept) => {
		const half = all.filter(({ query }) => KEPT.has(query) === kept);
		const missed = half.filter(({ precision }) => precision < 1);
		expect(
			mean(half.map(({ precision }) => precision)),
			missed.map(({ query, first }) => `${query.words}: ${first.join(" ")}`).join("\n"),
		).toBeGreaterThanOrEqual(0.9);
	});

	test("no kind falls behind: precision@5 of each is at least .8", () => {
		for (const [kind, of] of Map.groupBy(all, ({ query }) => query.kind)) {
			expect(mean(of.map(({ precision }) => precision)), kind).toBeGreaterThanOrEqual(0.8);
		}
	});
});

describe("more like one drill", () => {
	const index = smallIndex();
	const like = (id: string, words = "", filters: Filters = {}) =>
		index.search(words, filters, { like: id }).hits.map((hit) => index.entries[hit.drill]?.id ?? "");

	test("the same shapes and skills, itself left out", () => {
		expect(like("boat-rocks")).toEqual(["band-kip"]);
		expect(like("band-kip")).toEqual(["boat-rocks"]);
		// Nothing else trains the handstand, and nothing has that id.
		expect(like("wall-handstand")).toEqual([]);
		expect(like("no-such-drill")).toEqual([]);
	});

	test("another apparatus or level comes before the same again", () => {
		const drill = (id: string, level: string, apparatus: string): SearchDocument => ({
			...(SMALL_DRILLS[0] as SearchDocument),
			id,
			facets: { shape: ["hollow"], level: [level], apparatus: [apparatus] },
		});
		const club = createIndex(
			[
				drill("one", "level-1", "floor"),
				drill("again", "level-1", "floor"),
				drill("harder", "level-2", "floor"),
				drill("elsewhere", "level-1", "bars"),
			],
			SMALL_OPTIONS,
		);
		expect(club.search("", {}, { like: "one" }).hits.map(({ drill: at }) => club.entries[at]?.id)).toEqual([
			"harder",
			"elsewhere",
			"again",
		]);
	});

	test("words and filters narrow it, and its counts are of what it finds", () => {
		expect(like("boat-rocks", "band")).toEqual(["band-kip"]);
		expect(like("boat-rocks", "stork")).toEqual([]);
		expect(like("boat-rocks", "", { apparatus: ["beam"] })).toEqual([]);
		const { counts } = index.search("", {}, { like: "boat-rocks" });
		expect(counts.apparatus.get("bars")).toBe(1);
		expect(counts.apparatus.get("beam")).toBe(0);
	});
});

describe("counts", () => {
	test("equal a recount drill by drill, for any words and any filters", () => {
		const index = smallIndex();
		holdsRecount(index, SMALL_DRILLS, ["", "hollow", "plank", "level 2", "qzxvw", "block", "step backward"]);
	});

	test("a value that does not exist matches nothing", () => {
		const result = smallIndex().search("", { shape: ["no-such-shape"] });
		expect(result.hits).toEqual([]);
		expect(result.counts.shape.get("hollow")).toBe(2);
		expect(result.counts.level.get("level-1")).toBe(0);
	});
});

describe("the shared link", () => {
	const anyFilters = fc.record(
		Object.fromEntries(
			FACETS.map((facet) => [
				facet,
				fc.uniqueArray(fc.string({ minLength: 1, maxLength: 8 }), { minLength: 1, maxLength: 4 }),
			]),
		) as Record<Facet, fc.Arbitrary<string[]>>,
		{ requiredKeys: [] },
	);

	test("gives back every choice it was written from", () => {
		fc.assert(
			fc.property(fc.string({ minLength: 1 }), anyFilters, (words, filters) => {
				fc.pre(words.trim() !== "");
				expect(readChoice(writeChoice({ words, filters }))).toEqual({ words, filters });
				expect(readChoice(writeChoice({ words: "", filters, like: "boat-rocks" }))).toEqual({
					words: "",
					filters,
					like: "boat-rocks",
				});
			}),
		);
	});

	test("is empty for no choice, and passes over what it does not know", () => {
		expect(writeChoice({ words: "  ", filters: {} })).toBe("");
		expect(readChoice("?q=dish&colour=red&shape=&shape=hollow&shape=hollow")).toEqual({
			words: "dish",
			filters: { shape: ["hollow"] },
		});
	});

	test("a filter put in twice is out again", () => {
		fc.assert(
			fc.property(
				anyFilters,
				fc.constantFrom(...FACETS),
				fc.string({ minLength: 1 }),
				(filters, facet, value) => {
					fc.pre(!(filters[facet] as readonly string[] | undefined)?.includes(value));
					const twice = toggled(toggled(filters as Filters, facet, value), facet, value);
					expect(twice).toEqual(filters);
				},
			),
		);
	});
});

describe("the demo club", () => {
	const handbook = demoHandbook();
	const documents = searchDocuments(handbook);
	const index = createIndex(documents, searchOptions(handbook));

	test("has a document for every drill, planned weeks and minutes included", () => {
		expect(documents.map((document) => document.id)).toEqual([...handbook.curriculum.drills.keys()]);
		for (const document of documents) {
			const planned = handbook.exposures.filter((exposure) => exposure.drill === document.id);
			if (planned.length === 0) expect(document.facets.minutes).toEqual([]);
			const weeks = new Set(
				handbook.curriculum.drills.get(document.id)?.planned.map(({ week }) => String(week)),
			);
			expect(new Set(document.facets.week)).toEqual(weeks);
		}
	});

	test("every drill is found first by its own title", () => {
		const missed = documents.filter(({ id, title }) => idsFor(index, title)[0] !== id);
		expect(missed.map(({ title }) => title)).toEqual([]);
	});

	test("every shape, level, skill, apparatus and equipment finds the drills tagged with it", () => {
		for (const facet of ["shape", "level", "skill", "apparatus", "equipment"] as const) {
			for (const value of index.options.values[facet]) {
				const tagged = fitting(documents, { [facet]: [value.id] }).map(({ id }) => id);
				for (const name of [value.name, ...value.aliases]) {
					expect(idsFor(index, name), `${facet} ${name}`).toEqual(expect.arrayContaining(tagged));
				}
			}
		}
	});

	test("every filter finds what the pages and the ten weeks say", () => {
		const { drills } = handbook.curriculum;
		const minutes = (id: string) =>
			handbook.exposures.filter(({ drill }) => drill === id).map((exposure) => exposure.minutes);
		const has: Record<Facet, (id: string, value: string) => boolean> = {
			shape: (id, value) => drills.get(id)?.shapes.includes(value) ?? false,
			level: (id, value) => drills.get(id)?.levels.has(value) ?? false,
			apparatus: (id, value) => drills.get(id)?.apparatus.includes(value) ?? false,
			skill: (id, value) => drills.get(id)?.skills.includes(value) ?? false,
			direction: (id, value) => drills.get(id)?.direction === value,
			week: (id, value) =>
				handbook.exposures.some(({ drill, week }) => drill === id && week === Number(value)),
			equipment: (id, value) =>
				value === NO_EQUIPMENT
					? drills.get(id)?.equipment.length === 0
					: (drills.get(id)?.equipment.some(({ item }) => item === value) ?? false),
			minutes: (id, value) =>
				minutes(id).some((m) =>
					value === "short" ? m < 5 : value === "medium" ? m >= 5 && m <= 10 : m > 10,
				),
		};
		const counts = index.search("").counts;
		for (const facet of FACETS) {
			expect(
				[...counts[facet].values()].some((count) => count > 0),
				facet,
			).toBe(true);
			for (const { id: value } of index.options.values[facet]) {
				const expected = [...drills.keys()].filter((id) => has[facet](id, value));
				expect(idsFor(index, "", { [facet]: [value] }), `${facet} ${value}`).toEqual(expected);
				expect(counts[facet].get(value), `${facet} ${value}`).toBe(expected.length);
			}
		}
		expect(index.options.values.week).toHaveLength(handbook.curriculum.weeks.length);
	});

	test("every drill that trains something is like another one", () => {
		for (const [at, { facets, id }] of documents.entries()) {
			const { hits } = index.search("", {}, { like: id });
			expect(
				hits.map(({ drill }) => drill),
				id,
			).not.toContain(at);
			for (const { drill } of hits) {
				const shared = (["shape", "skill"] as const).flatMap((facet) =>
					(documents[drill]?.facets[facet] ?? []).filter((value) => facets[facet]?.includes(value)),
				);
				expect(shared, `${id} ${documents[drill]?.id}`).not.toEqual([]);
			}
		}
	});

	test("counts equal a recount", () => {
		holdsRecount(index, documents, [
			"",
			"hollow",
			"handstand wall",
			"landing",
			"roll backward",
			"level 1 beam",
		]);
	});

	test("judged queries are answered: nDCG@10 and recall@20", () => {
		const queries = judgedQueries();
		expect(queries.length).toBeGreaterThanOrEqual(100);
		const known = new Set(documents.map(({ id }) => id));
		for (const { words, best, also } of queries) {
			expect(
				[...best, ...also].filter((id) => !known.has(id)),
				words,
			).toEqual([]);
		}
		const verdicts = judge(findWith(index), queries);
		expect(mean(verdicts.map(({ ndcg }) => ndcg))).toBeGreaterThanOrEqual(0.95);
		expect(mean(verdicts.map(({ recall }) => recall))).toBeGreaterThanOrEqual(0.97);
		for (const { words } of queries.filter(({ best }) => best.length === 0)) {
			expect(index.search(words).hits, words).toEqual([]);
		}
	});

	test("the first file is opened from pieces that end anywhere, and not when it is cut off", async () => {
		const heads = searchFiles(handbook)[0]?.text ?? "";
		for (const length of [97, heads.length]) {
			const opened = await openWhileReading(pieces(heads, length));
			expect(opened.entries).toEqual(index.entries);
		}
		for (const end of [0, 50, heads.lastIndexOf("\n")]) {
			await expect(openWhileReading(pieces(heads.slice(0, end), 4096))).rejects.toThrow();
		}
	});

	test("the files hold the whole search, and the same bytes every time", async () => {
		const files = searchFiles(handbook);
		expect(files.map(({ path }) => path)).toEqual([
			HEAD_FILE,
			SUMMARIES_FILE,
			...textFiles(handbook.curriculum.drills.size).map(({ path }) => path),
		]);
		const [heads = "", summaries = "", ...texts] = files.map(({ text }) => text);
		expect(texts.length).toBeGreaterThan(1);
		const opened = await openWhileReading(pieces(heads, 4096));
		opened.addSummaries(JSON.parse(summaries));
		opened.addTexts({ drills: texts.flatMap((text) => (JSON.parse(text) as TextsFile).drills) });
		expect(opened.search("dish level 2 bars")).toEqual(index.search("dish level 2 bars"));
		expect(searchFiles(handbook)).toEqual(files);
	});
});

/** A text in pieces, as a net brings it. */
async function* pieces(text: string, length: number): AsyncGenerator<string> {
	for (let at = 0; at < text.length; at += length) yield text.slice(at, at + length);
}

/** Holds hits and counts against drills gone through one by one, for random filters. */
function holdsRecount(
	index: SearchIndex,
	documents: readonly SearchDocument[],
	queries: readonly string[],
): void {
	const anyFilters = fc.record(
		Object.fromEntries(
			FACETS.map((facet) => [
				facet,
				fc.subarray(
					index.options.values[facet].map(({ id }) => id),
					{ maxLength: Math.min(3, index.options.values[facet].length) },
				),
			]),
		) as Record<Facet, fc.Arbitrary<string[]>>,
		{ requiredKeys: [] },
	);
	fc.assert(
		fc.property(fc.constantFrom(...queries), anyFilters, (words, filters) => {
			const result = index.search(words, filters);
			// Words that are filters are filters: what is left answers by itself.
			const rest = result.held.reduce((left, { typed }) => left.replace(typed, ""), words).trim();
			const answering = new Set(idsFor(index, rest === "" ? "" : `${rest} `));
			const matched = documents.filter(({ id }) => answering.has(id));
			const all: Partial<Record<Facet, readonly string[]>> = { ...filters };
			for (const { facet, values } of result.held) {
				all[facet] = [...(all[facet] ?? []), ...values.map(({ id }) => id)];
			}
			expect(new Set(result.hits.map((hit) => index.entries[hit.drill]?.id))).toEqual(
				new Set(fitting(matched, all).map(({ id }) => id)),
			);
			expect(result.found).toBe(result.hits.length);
			expect(result.whole).toBe(result.hits.filter(({ lacks }) => lacks.length === 0).length);
			expect(result.hits).toEqual(result.hits.toSorted(inOrder));
			for (const most of [0, 1, 3, 20, result.found + 1]) {
				const best = index.search(words, filters, { most });
				expect(best, `the first ${most}`).toEqual({ ...result, hits: result.hits.slice(0, most) });
			}
			for (const facet of FACETS) {
				const others = fitting(matched, all, facet);
				for (const { id } of index.options.values[facet]) {
					const recount = others.filter((document) => document.facets[facet]?.includes(id)).length;
					expect(result.counts[facet].get(id), `${facet} ${id}`).toBe(recount);
				}
			}
		}),
		{ numRuns: 60 },
	);
}

/** What lacks nothing before what does, best first, and by the order of the drills where it is the same. */
function inOrder(a: Hit, b: Hit): number {
	const incomplete = ({ lacks }: Hit) => Number(lacks.length > 0);
	return incomplete(a) - incomplete(b) || b.score - a.score || a.drill - b.drill;
}
