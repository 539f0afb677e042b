/**
 * What a class has to be told in the hall: who stands where, the dose that fits, what is carried, and
 * what is done where a drill is too hard; each as the group's level does it.
 */

import { beforeAll, describe, expect, it } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { openClub } from "../../scripts/commands/open-club.ts";
import { binderOf } from "../../scripts/print/binder.ts";
import { addressFile, SHEET_FILES } from "../../scripts/views/addresses.ts";
import { raw } from "../../scripts/views/html.ts";
import { singleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { FIXTURES } from "../open-fixture.ts";

async function shown(language: string, kept = false) {
	const { problems, opened } = await openClub(`${FIXTURES}clubs/hall-lines`, {
		keep: false,
		words: wordsFor(language),
	});
	if (opened === undefined) throw new Error(JSON.stringify(problems));
	const { handbook } = opened;
	const pages = new Map(
		sitePages(handbook, { kept }).map((page) => [addressFile(page.address), page] as const),
	);
	const sheets = new Map(drawSheets(singleSheets(handbook)).map(({ path, pieces }) => [path, pieces]));
	const sheet = (path: string) => {
		const [piece] = sheets.get(path) ?? [];
		if (piece === undefined) throw new Error(`no sheet ${path}`);
		return piece;
	};
	return {
		page: (file: string) => {
			const page = pages.get(file);
			if (page === undefined) throw new Error(`no page ${file}`);
			return documentOf(page, (_, code) => raw(code));
		},
		leaf: (week: string, id: string) => sheet(SHEET_FILES.classSheet(week, id)),
		binder: async () =>
			binderSheets(await binderOf(handbook))
				.sections.flatMap(({ parts }) => parts)
				.map(({ html }) => html.text)
				.join(""),
		check: (id: string) => sheet(SHEET_FILES.checkSheet(id)).html.text,
	};
}

/** As it is read: without markup, spaces once. */
const plain = (html: string): string =>
	html
		.replace(/<(svg|script)\b.*?<\/\1>/gs, "")
		.replace(/<\/(p|li|h\d|dt|dd|summary)>/g, " ")
		.replace(/<[^>]+>/g, "")
		.replaceAll("&#39;", "'")
		.replace(/\s+/g, " ");

let en: Awaited<ReturnType<typeof shown>>;
let fr: Awaited<ReturnType<typeof shown>>;
beforeAll(async () => {
	en = await shown("en");
	fr = await shown("fr");
});

const MONDAY = "classes/mon/week-1/index.html";

describe("a class sheet", () => {
	it("says who stands where, and which stations run alone", () => {
		const text = plain(en.page(MONDAY));
		expect(text).toContain("Coach 1: station 1. Coach 2 watches station 3. Station 2 runs alone.");
		expect(plain(fr.page(MONDAY))).toContain(
			"Entraîneur 1 : atelier 1. L'entraîneur 2 surveille l'atelier 3. L'atelier 2 est en autonomie.",
		);
	});

	it("says plainly where there are too few coaches, with the need", () => {
		const text = plain(en.page("classes/tue/week-1/index.html"));
		expect(text).toContain("Too few coaches: 2 needed (1 with hands on and 1 to watch), 1 there.");
		expect(text).not.toContain("Coach 1:");
	});

	it("says on page and paper what is left out where a coach is missing", () => {
		const rules =
			"If a coach is missing: the club's rules and qualified coaches decide; no station without the hands or eyes it asks for.";
		for (const text of [en.page(MONDAY), en.leaf("week-1", "mon").html.text])
			expect(plain(text)).toContain(`${rules} Leave out only 16:10 Floor, station 1.`);
		expect(plain(en.page("classes/tue/week-1/index.html"))).toContain(
			`${rules} Nobody is left: no class without another qualified coach.`,
		);
		expect(plain(fr.page(MONDAY))).toContain("Laissez de côté seulement 16:10 Floor, atelier 1.");
	});

	// By hand: (21 − 2 · 1) / 3 = 6⅓ minutes are 380 s; 3 gymnasts, 30 s a turn: 4 turns of 4 repetitions.
	it("says the dose that fits beside the planned one only where they differ", () => {
		expect(plain(en.page(MONDAY))).not.toContain("planned 12,");
		const text = plain(en.page("classes/mon/week-3/index.html"));
		expect(text.match(/planned \d+, fits \d+ in \d+ turns?/g)).toEqual(["planned 24, fits 16 in 4 turns"]);
		expect(text).toContain("6 × 4");
	});

	it("folds what is easier and harder beside its drill, and works without a program", () => {
		const page = en.page(MONDAY);
		const fold = /<details><summary>Easier and harder<\/summary>(.*?)<\/details>/s.exec(page)?.[1] ?? "";
		expect(plain(fold)).toContain("Easier From a squat on the top edge. Harder Stand up without hands.");
	});

	it("says at an apparatus what is carried there, from where, when, by how many", () => {
		// 16:00, 10 to warm up, 21 on floor, 2 on the way.
		expect(plain(en.page(MONDAY))).toContain("Carry 2 × Mat here from Floor by 16:33, 2 adults to each.");
		const beam = en.page(MONDAY).split('id="at-beam"')[1] ?? "";
		expect(beam).toContain("Carry 2 × Mat here");
	});

	it("counts the ways between apparatus into its clock", () => {
		const page = en.page(MONDAY);
		expect(page).toContain('data-from="16:10" data-until="16:31"');
		expect(page).toContain('data-from="16:33" data-until="16:43"');
		expect(page).toMatch(/<li class="end" data-from="16:48">/);
	});

	it("gives each group its own way and clock, with anchors of its own", () => {
		const page = en.page("classes/wed/week-1/index.html");
		const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
		expect(new Set(ids).size).toBe(ids.length);
		for (const id of ["block-small-floor-1", "block-tall-floor-1", "block-tall-beam-1"])
			expect(ids).toContain(id);
		expect(plain(page)).toContain("Tall: Beam");
		// Both begin at once.
		expect(page.match(/<li data-from="17:00">/g)).toHaveLength(2);
	});

	it("shows the level's own spotting and equipment in place of the drill's", () => {
		const text = plain(en.page(MONDAY));
		expect(text).toContain("Kneel beside the wedge");
		expect(text).not.toContain("Stand at the foot of the wedge");
		expect(text).toContain("Set out Floor 2 Mat Store");
		const wednesday = en.page("classes/wed/week-1/index.html");
		const [, tall = ""] = wednesday.split('id="at-tall-floor"');
		expect(plain(tall)).toContain("Stand at the foot of the wedge");
		expect(plain(tall)).not.toContain("Kneel beside the wedge");
	});
});

describe("a printed class sheet", () => {
	it("says what must be seen of a skill where the skill itself is done, and on the check sheet", () => {
		const page = en.page(MONDAY);
		const stations = page.split('<li id="').slice(1);
		const of = (title: string) => stations.find((station) => station.includes(title)) ?? "";
		expect(plain(of("Roll down a wedge"))).toContain(
			"What must be seen Forward roll Hips pass over the hands Stands up without hands",
		);
		// It only prepares the roll.
		expect(of("Rock on the back")).not.toContain("What must be seen");
		expect(plain(en.page("skills/roll/index.html"))).toContain("Stands up without hands");
		expect(plain(en.check("junior"))).toMatch(
			/What must be seen.*Forward roll.*Hips pass over the hands.*Stands up without hands/,
		);
		expect(plain(fr.page(MONDAY))).toContain("Ce qui doit être vu");
	});

	it("has each level's own spotting, equipment and dose on the leaves of the binder", async () => {
		const binder = await en.binder();
		const [card = ""] = (
			binder.split('<article class="card').find((one) => one.includes("A roll down the slope")) ?? ""
		).split("</article>");
		expect(plain(card)).toContain(
			"Spotting. Junior: Kneel beside the wedge, one hand on the thigh. Senior: Stand at the foot of the wedge.",
		);
		expect(plain(card)).toContain("Junior: 2 Mat Senior: 1 Mat");
		expect(plain(card)).toContain("Caution. Nobody walks across the landing.");
		const stations = binder
			.split('<div class="station whole">')
			.slice(1)
			.filter((one) => one.split("</h3>")[0]?.includes("Roll down a wedge"));
		expect(stations.map((one) => plain(one).includes("Junior: Kneel beside the wedge"))).toEqual([
			true,
			true,
		]);
		// Week 3 has a dose of its own.
		expect(stations.map((one) => /6 × 4/.test(plain(one)))).toEqual([false, true]);
	});

	it("has the same lines, short", () => {
		const { html, safety } = en.leaf("week-3", "mon");
		const text = plain(html.text);
		expect(text).toContain("Coach 1: station 1. Coach 2 watches station 3. Station 2 runs alone.");
		expect(text).toContain("planned 24, fits 16 in 4 turns");
		expect(text).toContain("Easier From a squat on the top edge.");
		expect(text).toContain("Harder Stand up without hands.");
		expect(text).toContain("Forward roll, to be seen: Hips pass over the hands · Stands up without hands");
		expect(text).toContain("Carry 2 × Mat here from Floor by 16:33");
		expect(safety).toContain("Kneel beside the wedge, one hand on the thigh.");
		expect(safety).not.toContain("Stand at the foot of the wedge.");
	});
});

describe("the findings page", () => {
	it("sorts by harm under a heading each, counts each cause, and leads to each kind, week and class", () => {
		const page = en.page("findings/index.html");
		const heads = [...page.matchAll(/<h2 id="([^"]+)"><span>([^<]+)</g)].map(
			([, id, text]) => `${id} ${text}`,
		);
		expect(heads.slice(0, 3)).toEqual([
			"safety Safety: readiness, hands and eyes: 4",
			"set-out Cannot be set out: 4",
			"time Does not fit the time: 1",
		]);
		expect(plain(page)).toContain("A block that asks for more coaches than are there 2 ");
		expect(page).toMatch(/href="#safety">[^<]+<span class="small">4</);
		// What a chip counts is what stands where it leads.
		expect(page).toContain('href="../weeks/week-1/#findings"');
		expect(page).toContain('href="../classes/tue/#findings"');
		for (const [, to = "", wanted] of page.matchAll(
			/href="\.\.\/([^"#]+)#findings">[^<]*<span class="small">(\d+)</g,
		))
			expect(en.page(`${to}index.html`).match(/<li class="finding/g), to).toHaveLength(Number(wanted));
		expect(plain(fr.page("findings/index.html"))).toContain(
			"Sécurité : préparation, parade et surveillance : 4",
		);
	});

	it("folds under a finding what would mend it, as a list that can be tried", () => {
		const page = en.page("findings/index.html");
		const [, roll = ""] = page.split("“Roll down a wedge”, Junior: 24 planned");
		const item = roll.split("</li>")[0] ?? "";
		expect(item).toContain("<details><summary>A change that would mend it</summary>");
		expect(item).toContain("npm run check -- --what-if changes.yaml");
		expect(item).toMatch(/<pre data-copy><code>- set: \{block: 3\/floor\/1, minutes: \d+\}<\/code><\/pre>/);
		expect(plain(fr.page("findings/index.html"))).toContain("Un changement qui y remédierait");
		expect(page).toContain("assets/copy-text.js");
	});

	it("gives the director's preview the command that accepts a finding, and the coaches' site none", async () => {
		const page = en.page("findings/index.html");
		expect(page).toContain(
			'<pre data-copy><code>npm run accept -- H333 --week 1 --class mon --reason "Why it may stand"</code></pre>',
		);
		expect(page.match(/npm run accept -- /g)).toHaveLength(page.match(/<li class="finding/g)?.length ?? 0);
		const published = (await shown("en", true)).page("findings/index.html");
		expect(published).toContain("A change that would mend it");
		expect(published).not.toContain("npm run accept");
	});
});

describe("a class over the term", () => {
	/** The cells of a skill's row. */
	const row = (page: string, skill: string): readonly string[] => {
		const found = [...page.matchAll(/<tr><th scope="row">(.*?)<\/tr>/gs)].find(([, text = ""]) =>
			text.includes(`>${skill}<`),
		);
		return [...(found?.[1] ?? "").matchAll(/<td[^>]*>(.*?)<\/td>/gs)].map(([, cell = ""]) => plain(cell));
	};

	// By hand, Monday: rolling down 12 in week 1 and 16 (4 turns of 4) in week 3; rocking 2 × 5, in week 3
	// 6 × 4 as the block says; the beam 1 × 2 twice.
	it("says what it performs and prepares of each skill, when, and by how much it misses the target", () => {
		const page = en.page("classes/mon/index.html");
		const term = page.split('<h2 id="term">')[1] ?? "";
		expect(row(term, "Forward roll")).toEqual(["28", "34", "2", "1", "3", "2", "–"]);
		expect(row(term, "Beam stand")).toEqual(["0", "4", "2", "1", "3", "2", "20"]);
		expect(row(term, "Cartwheel")).toEqual(["0", "0", "0", "–", "–", "–", "20"]);
		expect(plain(term)).toContain("The club wants each skill performed at least 20 times.");
		expect(plain(term)).toContain("Cartwheel never met");
		expect(page).toContain('<a href="#term">What this class does over the term</a>');
		expect(term).toContain('href="../../classes/mon/week-3/"');
	});

	it("has a table for each group of a class, in the language of the handbook", () => {
		const page = plain(fr.page("classes/wed/index.html"));
		expect(page).toContain("Éléments sur la période");
		expect(page).toContain("Wednesday class (small)");
		expect(page).toContain("Wednesday class (tall)");
	});
});
