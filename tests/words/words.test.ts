/**
 * The languages of the handbook: no word stands outside of their files, and French says everything
 * that English says.
 */

import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { frame } from "../../layouts/parts/frame.ts";
import { contextOf } from "../../layouts/parts/page.ts";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { calendarIcs } from "../../scripts/compute/calendar.ts";
import { once } from "../../scripts/compute/get-or-make.ts";
import { recordOf } from "../../scripts/compute/plan-record.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { authorGuideView } from "../../scripts/views/author-guide.ts";
import { html } from "../../scripts/views/html.ts";
import { type Medium, NO_MEDIA } from "../../scripts/views/medium.ts";
import { binderView } from "../../scripts/views/sheets/binder.ts";
import { SHEET_KINDS } from "../../scripts/views/sheets/sheet.ts";
import { singleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { type Words, wordsFor } from "../../scripts/words/words.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";
import { wordsOnPage } from "./read-words.ts";
import { strangeWords, writeInGreek } from "./strange-words.ts";

const ENGLISH = wordsFor("en");
const FRENCH = wordsFor("fr");

/**
 * What stays in Latin letters in every language: codes, names of files and fields, addresses, times as
 * "16:30–17:30" have no letters, and an edition or the mark of a sheet is no word. `UTF` and the like never reach a page.
 */
const NAMES =
	/^(?:[HL]\d{3}|[\w./<>-]+\.(?:md|yaml|csv|json|ics|pdf|webp|svg)(?::\d+)?|[\w.+-]+@[\w.-]+|https?:\S+|[0-9a-f]{6}|[0-9a-f]{8})$/;

function latinWords(page: string): readonly string[] {
	const latin = (text: string) => /[A-Za-z]{2}/.test(text);
	return wordsOnPage(page)
		.filter(latin)
		.flatMap((text) =>
			text
				.split(/[\s,;·()„“”«»]+/)
				.map((word) => word.replace(/[.:!?]+$/, ""))
				.filter((word) => latin(word) && !NAMES.test(word)),
		);
}

function opened(dir: string, words: Words): Handbook {
	const { handbook, problems } = openHandbook(dir, { words });
	if (handbook === undefined) throw new Error(JSON.stringify(problems.slice(0, 3)));
	return handbook;
}

/** The demo in Greek letters, with words that nobody speaks. Nothing of its folder is read again. */
const strangeHandbook = once(() => {
	const dir = clubCopy(undefined, REPOSITORY);
	writeInGreek(dir);
	return opened(dir, strangeWords({ ...ENGLISH, fields: FRENCH.fields }));
});

describe("a page", () => {
	const pageOf = (page: ReturnType<typeof sitePages>[number]) => {
		const ctx = contextOf(page, (_language, code) => html`<pre>${code}</pre>`);
		return frame(ctx, page.main(ctx)).text;
	};

	it("has no word that is not the club's or the language's", () => {
		const handbook = strangeHandbook();
		// An earlier plan with one drill less, and with another plan in one week.
		const since = structuredClone(recordOf(handbook, "abcdefab"));
		const [drills, weeks] = [since.things.drill, since.things.week] as Record<string, unknown>[];
		delete drills?.[Object.keys(drills)[0] ?? ""];
		for (const [id, thing] of Object.entries(drills ?? {}).slice(0, 3))
			Object.assign(drills ?? {}, { [id]: { ...(thing as object), sides: "lead", cues: [] } });
		Object.assign(weeks ?? {}, { "2": weeks?.["3"] });
		const pages = sitePages(handbook, { kept: true, since });
		const found = new Map<string, string>();
		const kinds = new Set<string>();
		for (const page of pages) {
			kinds.add(page.kind);
			for (const word of latinWords(pageOf(page))) {
				if (!found.has(word)) found.set(word, page.address);
			}
		}
		expect(Object.fromEntries(found)).toEqual({});
		expect(kinds.size).toBeGreaterThan(35);
	});

	it("is in French where the club is", () => {
		const dir = clubCopy(undefined, join(REPOSITORY, "tests/fixtures/base-club"));
		const page = sitePages(opened(dir, FRENCH)).find(({ kind }) => kind === "home");
		if (page === undefined) throw new Error("no home page");
		expect(wordsOnPage(pageOf(page))).toContain("Au programme aujourd'hui");
	});
});

describe("a printed sheet", () => {
	/** Words in Latin letters, with where each was met first. */
	class Found {
		readonly words = new Map<string, string>();
		texts = 0;

		add(markup: string, where: string): void {
			this.texts++;
			for (const word of latinWords(markup)) if (!this.words.has(word)) this.words.set(word, where);
		}
	}

	it("has no word in the binder that is not the club's or the language's", () => {
		const handbook = strangeHandbook();
		const size = { path: "", width: 1, height: 1 };
		const film: Medium = { kind: "video", path: "", type: "", width: 1, height: 1, poster: size };
		const byDrill = new Map(
			Array.from(handbook.curriculum.drills.values(), ({ id, media }) => [id, media.map(() => film)]),
		);
		const picture = () => "data:image/webp;base64,AAAA";
		const sheets = binderSheets(binderView(handbook, { ...NO_MEDIA, byDrill }, picture));
		const found = new Found();
		for (const words of [sheets.title, sheets.foot, sheets.blank]) found.add(words, "every page");
		for (const { title, tab, parts, targets } of sheets.sections) {
			for (const words of [title, tab, ...targets.map((target) => target.title)]) found.add(words, title);
			for (const part of parts) {
				for (const text of [part.label, part.head, part.html.text]) found.add(text, `${title}, ${part.head}`);
			}
		}
		expect(Object.fromEntries(found.words)).toEqual({});
		expect(found.texts).toBeGreaterThan(500);
	});

	it("has no word of its own when it is printed alone", () => {
		const files = drawSheets(singleSheets(strangeHandbook(), { kinds: SHEET_KINDS, week: "week-05" }));
		const found = new Found();
		for (const { path, title, pieces } of files) {
			found.add(title, path);
			for (const piece of pieces) {
				for (const text of [piece.title, piece.label, piece.html.text, ...piece.words]) found.add(text, path);
			}
		}
		expect(Object.fromEntries(found.words)).toEqual({});
		expect(new Set(files.map(({ kind }) => kind))).toEqual(new Set(SHEET_KINDS));
	});

	it("is in French where the club is, with labels that can be told apart", () => {
		const dir = clubCopy(undefined, join(REPOSITORY, "tests/fixtures/base-club"));
		const handbook = opened(dir, FRENCH);
		const { sections } = binderSheets(binderView(handbook));
		expect(sections.map(({ title }) => title)).toContain("Sommaire");
		const { week, ...others } = FRENCH.pageLabels;
		const all = [...Object.values(others).filter((label) => typeof label === "string"), week(1)];
		expect(new Set(all).size).toBe(all.length);
		expect(calendarIcs(handbook.curriculum, FRENCH)).toContain(", semaine 1");
	});
});

describe("French", () => {
	it("says each thing in other words than English, but for what is the same word", () => {
		const same: string[] = [];
		compare(ENGLISH, FRENCH, "", same);
		expect(same.sort()).toMatchInlineSnapshot(`
			[
			  ".angles.title: Angles",
			  ".authorGuide.forms.date: date",
			  ".authorGuide.kinds.club: Club",
			  ".authorGuide.kinds.guide: Guide",
			  ".authorGuide.messages: Messages",
			  ".binder.index: Index",
			  ".checkSheet.dates: Dates",
			  ".classes.minutes: Minutes",
			  ".classes.rotation: Rotation",
			  ".coverage.measures.minutes.name: Minutes",
			  ".desk.fieldNames.angles: Angles",
			  ".desk.fieldNames.description: Description",
			  ".desk.fieldNames.minutes: Minutes",
			  ".desk.fieldNames.sequence: Phases",
			  ".desk.figure: Figure",
			  ".desk.kindNames.club: Club",
			  ".desk.kindNames.guide: Guides",
			  ".desk.minutes: Minutes",
			  ".desk.viewBoard: Plan",
			  ".destinations.guides: Guides",
			  ".frame.menu: Menu",
			  ".heads.minutes: Minutes",
			  ".minuteSign: min",
			  ".patterns.rotation: rotation",
			  ".search.suggestions: Suggestions",
			  ".searching.kinds.guide: Guide",
			  ".sheets.rotation: Rotation",
			  ".timer.pause: Pause",
			  ".update.section: Section",
			  ".weekSheet.page: Page",
			  ".whatChanged.kinds.guide: Guides",
			]
		`);
	});

	it("explains every field of every file", () => {
		const names = authorGuideView(ENGLISH).files.flatMap(({ kind, fields }) => [
			kind as string,
			...fields.map(({ name }) => `${kind}.${name}`),
		]);
		expect(names.filter((name) => FRENCH.fields[name] === undefined)).toEqual([]);
		expect(Object.keys(FRENCH.fields).filter((name) => !names.includes(name))).toEqual([]);
	});

	it.each([
		// Unicode CLDR, plural rules for fr: "one" for a whole part of 0 or 1.
		[0, "0 semaine"],
		[1, "1 semaine"],
		[1.5, "1,5 semaine"],
		[2, "2 semaines"],
		[10, "10 semaines"],
	])("counts %s", (count, words) => {
		expect(FRENCH.counts.weeks(count)).toBe(words);
	});

	it("writes numbers, shares, lists and dates in its own way", () => {
		expect(FRENCH.number(4.25, 2)).toBe("4,25");
		expect(FRENCH.percent(0.448)).toBe("44,8\u00a0%");
		expect(FRENCH.and(["a", "b", "c"])).toBe("a, b et c");
		expect(FRENCH.and(["a", "b", "c", "d"], 3)).toBe("a, b et 2 autres");
		expect(FRENCH.date("2027-01-04", "full")).toBe("lundi 4 janvier 2027");
	});
});

describe("English", () => {
	it.each([
		// Unicode CLDR, plural rules for en: "one" for exactly 1.
		[0, "0 weeks"],
		[1, "1 week"],
		[1.5, "1.5 weeks"],
	])("counts %s", (count, words) => {
		expect(ENGLISH.counts.weeks(count)).toBe(words);
	});

	it("stands in for a language that is not there", () => {
		expect(wordsFor("nl")).toBe(ENGLISH);
		expect(wordsFor("fr-CA")).toBe(FRENCH);
	});
});

/** Collects the places of texts that are equal in both; throws where one has more than the other. */
function compare(english: unknown, french: unknown, place: string, same: string[]): void {
	if (typeof english === "string") {
		if (english === french && /\p{L}{2}/u.test(english) && !place.endsWith(".severity")) {
			same.push(`${place}: ${english}`);
		}
		return;
	}
	if (typeof english !== "object" || english === null || place === ".fields" || place.endsWith(".aliases"))
		return;
	const other = french as Readonly<Record<string, unknown>>;
	expect(Object.keys(other).sort(), place).toEqual(Object.keys(english).sort());
	for (const [name, value] of Object.entries(english)) compare(value, other[name], `${place}.${name}`, same);
}
