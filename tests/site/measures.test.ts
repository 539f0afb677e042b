/**
 * The measures as pages: every page is there, its numbers are those of the data files, its charts say
 * what its tables say, and the findings come weightiest first with the line to change.
 */

import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { frame } from "../../layouts/parts/frame.ts";
import { contextOf } from "../../layouts/parts/page.ts";
import { GROWTH_AGES, statureAt } from "../../scripts/compute/growth.ts";
import { HARMS } from "../../scripts/compute/harm.ts";
import { LANDMARKS } from "../../scripts/compute/heights.ts";
import { suggestions } from "../../scripts/compute/suggest.ts";
import { DIRECTIONS } from "../../scripts/compute/tables.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { dataFiles } from "../../scripts/site/data-files.ts";
import { html } from "../../scripts/views/html.ts";
import { MEASURE_IDS } from "../../scripts/views/measures/measure-page.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";

interface Made {
	readonly handbook: Handbook;
	/** The text of a page by its address; made when it is asked for. */
	page(address: string): string;
	readonly addresses: readonly string[];
	csv(name: string): readonly Readonly<Record<string, string>>[];
	text(file: string): string;
}

function make(club: string): Made {
	const { handbook } = openHandbook(club);
	if (handbook === undefined) throw new Error(`${club} does not open.`);
	const pages = new Map(sitePages(handbook).map((page) => [page.address, page]));
	const written = new Map<string, string>();
	const files = new Map(
		dataFiles(handbook, handbook.words, handbook.edition).map(({ path, text }) => [path, text]),
	);
	const text = (file: string) => files.get(file) ?? fail(`no file ${file}`);
	return {
		handbook,
		addresses: [...pages.keys()],
		page: (address) => {
			const known = written.get(address);
			if (known !== undefined) return known;
			const page = pages.get(address) ?? fail(`no page ${address}`);
			const ctx = contextOf(page, (_language, code) => html`<pre>${code}</pre>`);
			const made = frame(ctx, page.main(ctx)).text;
			written.set(address, made);
			return made;
		},
		csv: (name) =>
			Papa.parse<Record<string, string>>(text(`data/${name}.csv`), { header: true, skipEmptyLines: true })
				.data,
		text,
	};
}

function fail(why: string): never {
	throw new Error(why);
}

const words = (markup: string): string =>
	markup
		.replace(/<[^>]*>/g, "")
		.replace(/&#(\d+);/g, (_, code) => String.fromCodePoint(Number(code)))
		.replace(/&amp;/g, "&")
		.replace(/\s+/g, " ")
		.trim();

/** The cells of a row by its id: its head, then its data. */
function rowOf(page: string, id: string): readonly string[] {
	const row = new RegExp(`<tr id="${id}">(.*?)</tr>`, "s").exec(page)?.[1] ?? fail(`no row ${id}`);
	return [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell]) => words(cell ?? ""));
}

function rowIds(page: string, start: string): readonly string[] {
	return [...page.matchAll(/<tr id="([^"]+)"/g)].flatMap(([, id]) => (id?.startsWith(start) ? [id] : []));
}

/** A number of a data file as a page writes it. */
const short = (value: string | undefined): string =>
	value === undefined || value === "" ? "–" : wordsFor("en").number(Number(value));

const sum = (values: Iterable<number>): number => [...values].reduce((a, b) => a + b, 0);

const demo = make(REPOSITORY);
const small = make(`${FIXTURES}clubs/full-pages`);
const unplanned = make(`${FIXTURES}clubs/ten-drills`);

const CLUBS = [
	["the demo club", demo],
	["a small club with a full plan", small],
] as const;

describe.each(CLUBS)("%s", (_, club) => {
	const { curriculum } = club.handbook;
	const weekNumbers = curriculum.weeks.map(({ week }) => week);

	it("has a page of every measure and an overview of the term for every level, in the navigation", () => {
		const levels = [...curriculum.levels.keys()];
		expect(club.addresses).toEqual(
			expect.arrayContaining([
				"term/",
				...levels.map((level) => `term/level/${level}/`),
				"measures/",
				...MEASURE_IDS.map((id) => `measures/${id}/`),
			]),
		);
		expect(club.page("about/")).toMatch(
			/<nav class="bar".*href="\.\.\/term\/".*href="\.\.\/measures\/".*<\/nav>/s,
		);
		for (const id of MEASURE_IDS) expect(club.page("measures/")).toContain(`href="${`../measures/${id}/`}"`);
	});

	it("shows the spacing that its file has", () => {
		const page = club.page("measures/spacing/");
		const rows = club.csv("spacing");
		expect(rows.length).toBeGreaterThan(0);
		for (const row of rows) {
			const [, weeks, first, last, gap, met] = rowOf(page, `${row.kind}--${row.id}--${row.level}`);
			expect([weeks, first, last, gap], JSON.stringify(row)).toEqual([
				row.weeks,
				row.first,
				row.last,
				row["longest-gap"] === "" ? "–" : row["longest-gap"],
			]);
			expect(met?.split(", ")).toHaveLength(Number(row.weeks));
		}
		const never = [...rowIds(page, "shape--"), ...rowIds(page, "skill--")].filter(
			(id) => rowOf(page, id).at(-1) === "never",
		);
		expect(rowIds(page, "shape--").length + rowIds(page, "skill--").length).toBe(rows.length + never.length);
	});

	it("shows the minutes of every week of the term that its files have, for each level and for all", () => {
		for (const kind of ["shape", "skill"]) {
			const rows = club.csv(`coverage-${kind}s`);
			for (const level of [undefined, ...curriculum.levels.keys()]) {
				const page = club.page(level === undefined ? "term/" : `term/level/${level}/`);
				const own = Map.groupBy(
					rows.filter((row) => level === undefined || row.level === level),
					(row) => `${row[kind]} ${row.week}`,
				);
				const last = Math.max(curriculum.term.weeks, ...weekNumbers);
				let shown = 0;
				for (const id of rowIds(page, `${kind}--`)) {
					const cells = rowOf(page, id).slice(-last);
					cells.forEach((cell, i) => {
						const counted = own.get(`${id.slice(kind.length + 2)} ${i + 1}`);
						if (counted === undefined) expect(cell, id).toBe("none");
						else {
							// Rounded in the file, row by row.
							expect(Number(cell), id).toBeCloseTo(sum(counted.map((row) => Number(row.minutes))), 0);
							shown++;
						}
					});
				}
				expect(shown).toBe(own.size);
			}
		}
	});

	it("shows the order in which each level is first taught its skills", () => {
		const page = club.page("measures/order/");
		const taught = club.csv("spacing").filter((row) => row.kind === "skill");
		for (const row of taught)
			expect(rowOf(page, `skill--${row.id}--${row.level}`)[1]).toMatch(new RegExp(`^Week ${row.first}( |$)`));
		for (const level of curriculum.levels.keys()) {
			const own = rowIds(page, "skill--").filter((id) => id.endsWith(`--${level}`));
			const firsts = own.map((id) => Number(/^Week (\d+)/.exec(rowOf(page, id)[1] ?? "")?.[1] ?? 999));
			expect(firsts).toEqual([...firsts].sort((a, b) => a - b));
		}
	});

	it("shows directions that add up to those of its file", () => {
		const page = club.page("measures/balance/");
		const cells = Map.groupBy(
			club.csv("coverage-directions"),
			(row) => `${row.apparatus}--${row.week} ${row.direction}`,
		);
		for (const id of rowIds(page, "direction--")) {
			const values = rowOf(page, id);
			DIRECTIONS.forEach((direction, i) => {
				const counted = cells.get(`${id.slice("direction--".length)} ${direction}`);
				const minutes = sum((counted ?? []).map((row) => Number(row.minutes)));
				expect(Number((values[i + 1] ?? "").replace("–", "0")), `${id} ${direction}`).toBeCloseTo(minutes, 0);
			});
		}
		expect(rowIds(page, "direction--").length).toBeGreaterThan(0);
		expect(new Set([...cells.keys()].map((key) => `direction--${key.split(" ")[0]}`))).toEqual(
			new Set(
				rowIds(page, "direction--").filter((id) =>
					rowOf(page, id)
						.slice(1, 5)
						.some((v) => v !== "–"),
				),
			),
		);
	});

	it("shows the times that its file has", () => {
		const page = club.page("measures/time/");
		const rows = club.csv("time");
		for (const row of rows) {
			const [, planned, available, free, moving, drills] = rowOf(page, `time--${row.class}--${row.week}`);
			expect([planned, available], JSON.stringify(row)).toEqual([short(row.planned), short(row.available)]);
			if (row.available !== "") {
				expect(Number(free?.replace("−", "-"))).toBeCloseTo(Number(row.available) - Number(row.planned), 1);
				expect(Number(moving?.replace(" %", ""))).toBeCloseTo(100 * Number(row["active-share"]), 0);
			}
			expect(drills).toMatch(/^\d+ drills?/);
		}
		expect(rowIds(page, "time--")).toHaveLength(rows.length);
	});

	it("shows the equipment that its file has", () => {
		const page = club.page("measures/equipment/");
		const rows = club.csv("equipment");
		for (const row of rows) {
			const cells = rowOf(page, `needed--${row.apparatus}--${row.item}`);
			expect(cells[1]).toBe(short(row.owned));
			expect(cells[2 + weekNumbers.indexOf(Number(row.week))], JSON.stringify(row)).toBe(short(row.needed));
		}
		const shown = rowIds(page, "needed--").flatMap((id) =>
			rowOf(page, id)
				.slice(2)
				.filter((cell) => cell !== "none"),
		);
		expect(shown).toHaveLength(rows.length);
	});

	it("shows the load that its file has, with its caution and no verdict", () => {
		const page = club.page("measures/load/");
		const rows = club.csv("load");
		for (const row of rows) {
			const id = `load--${row.group?.replace("/", "--")}--${row.week}`;
			const [, landings, plannedLandings, landingsStep, hands, plannedHands, handsStep] = rowOf(page, id);
			expect([landings, hands, plannedLandings, plannedHands], JSON.stringify(row)).toEqual(
				[row.landings, row.hands, row["planned-landings"], row["planned-hands"]].map(short),
			);
			for (const [shown, counted] of [
				[landingsStep, row["landings-step"]],
				[handsStep, row["hands-step"]],
			]) {
				if (counted === "") expect(shown).toBe("–");
				else expect(Math.abs(Number(shown) - Number(counted))).toBeLessThanOrEqual(0.0056);
			}
		}
		expect(rowIds(page, "load--")).toHaveLength(rows.length);
		expect(page).toContain("A count for planning, not a medical measure.");
		expect(words(page)).not.toMatch(/\b(is|are) (safe|unsafe|dangerous)\b/);
	});

	it("adds up each level's planned minutes on each apparatus", () => {
		const page = club.page("measures/time/");
		const value = (cell: string | undefined): number => (cell === "–" ? 0 : Number(cell));
		for (const level of curriculum.levels.keys()) {
			for (const { week, apparatus } of curriculum.weeks) {
				const cells = rowOf(page, `apparatus--${level}--${week}`).slice(1).map(value);
				const planned = apparatus
					.flatMap(({ blocks }) => blocks)
					.filter(({ levels }) => levels.length === 0 || levels.includes(level))
					.map(({ minutes }) => minutes);
				const sum = planned.reduce((all, one) => all + one, 0);
				expect(cells.at(-1), `${level}, week ${week}`).toBeCloseTo(sum, 1);
				expect(cells.slice(0, -1).reduce((all, one) => all + one, 0)).toBeCloseTo(sum, 1);
			}
		}
		expect(page.match(/id="apparatus-[a-z0-9-]+-chart-title"/g)).toHaveLength(curriculum.levels.size);
	});

	it("shows heights that are stature times the landmark's share, with their sources", () => {
		const page = club.page("measures/heights/");
		let shown = 0;
		for (const { landmark, share, source } of LANDMARKS) {
			expect(words(page)).toContain(words(source));
			for (let years = GROWTH_AGES.from; years <= GROWTH_AGES.to; years++) {
				if (!page.includes(`id="${landmark}--${years}"`)) continue;
				const [, , girls, boys] = rowOf(page, `${landmark}--${years}`);
				expect(girls).toBe(String(Math.round((statureAt("girl", years, 50) ?? 0) * share)));
				expect(boys).toBe(String(Math.round((statureAt("boy", years, 50) ?? 0) * share)));
				shown++;
			}
		}
		expect(shown).toBeGreaterThanOrEqual(LANDMARKS.length);
		expect(page).toContain("CDC growth charts 2000");
		expect(page).toContain("For children every figure is approximate.");
	});

	it("has beside every chart a table with the same numbers, or the same in words", () => {
		let charts = 0;
		for (const address of club.addresses) {
			if (!/^(term|measures|weeks|classes|skills)\//.test(address)) continue;
			const page = club.page(address);
			const numbers = new Set(
				[...page.matchAll(/<td[^>]*>(.*?)<\/td>/gs)].flatMap(([, cell]) => {
					const value = Number.parseFloat(words(cell ?? ""));
					return Number.isNaN(value)
						? []
						: [String(value), String(Math.round(value)), String(Math.ceil(value - 0.5))];
				}),
			);
			for (const [chart, kind] of page.matchAll(
				/<svg[^>]* class="chart (chart-[a-z]+|progression-map)".*?<\/svg>/gs,
			)) {
				charts++;
				expect(chart, address).toMatch(/<desc[^>]*>.*(table|list).*<\/desc>/);
				if (kind === "progression-map") {
					const boxes = chart.match(/class="map-box/g) ?? [];
					const list =
						page.slice(page.indexOf(chart) + chart.length).match(/<ol class="rows">(.*?)<\/ol>/s)?.[1] ?? "";
					expect(list.match(/<li>/g) ?? [], address).toHaveLength(boxes.length);
					continue;
				}
				for (const [, drawn] of chart.matchAll(/<text class="chart-(?:number|sum)"[^>]*>([^<]*)<\/text>/g)) {
					if (drawn !== "0" && drawn !== "none")
						expect(numbers, `${address} ${kind} ${drawn}`).toContain(drawn);
				}
			}
		}
		expect(charts).toBeGreaterThan(10);
	});

	it("lists findings most harmful and weightiest first, each with its file, its line and what to do", () => {
		// What the director accepts stands apart, below.
		const [page = ""] = club.page("findings/").split('<h2 id="accepted"');
		const known: readonly { weight: string; file: string; line: number; what: string; fix: string }[] =
			JSON.parse(club.text("data/findings.json"));
		const shown = [...page.matchAll(/<li class="finding.*?<\/li>/gs)].map(([line]) => line);
		expect(shown).toHaveLength(known.length);
		const weights = ["serious", "worth a look", "note"];
		// Under a heading for each harm, the most harmful first.
		const parts = page.split(/(?=<h2 id=")/).map((part) => ({
			harm: /^<h2 id="([^"]+)"/.exec(part)?.[1] ?? "",
			order: [...part.matchAll(/<li class="finding.*?<span class="weight">(.*?)<\/span>/gs)].map(
				([, weight = ""]) => weights.indexOf(words(weight)),
			),
		}));
		const filled = parts.filter(({ order }) => order.length > 0);
		expect(filled.map(({ harm }) => harm)).toEqual(
			HARMS.filter((harm) => filled.some((part) => part.harm === harm)),
		);
		for (const { order } of filled) {
			expect(order).not.toContain(-1);
			expect(order).toEqual([...order].sort((a, b) => a - b));
		}
		expect(filled.flatMap(({ order }) => order)).toHaveLength(known.length);
		const said = (line: string) =>
			words(line).replaceAll("&quot;", '"').replaceAll("&lt;", "<").replaceAll("&gt;", ">");
		for (const { file, line, what, fix } of known) {
			const one =
				shown.find((markup) => said(markup).includes(what.replaceAll("`", ""))) ?? fail(`not shown: ${what}`);
			expect(one).toContain(`<code>${file}:${line}</code>`);
			// Names in backquotes are code there.
			expect(said(one)).toContain(fix.replaceAll("`", ""));
		}
	});

	it("offers on a week's page what would close its gaps, and says what stays open", () => {
		const suggest = suggestions(club.handbook);
		for (const week of curriculum.weeks) {
			const page = club.page(`weeks/${week.id}/`);
			const part = /<h2 id="suggestions">.*?<\/section>/s.exec(page)?.[0] ?? "";
			const wanted = [...curriculum.levels.keys()].flatMap((level) =>
				week.apparatus
					.map((plan) => suggest(week.week, level, plan.apparatus))
					.filter(({ gaps }) => gaps.length > 0),
			);
			expect(part.match(/<details>/g) ?? []).toHaveLength(wanted.length);
			const drills = wanted.flatMap((one) => one.drills);
			for (const { drill } of drills) expect(part).toContain(`href="../../drills/${drill}/"`);
			expect(part.match(/ min; closes /g) ?? []).toHaveLength(drills.length);
		}
	});
});

describe("a club that has planned no week", () => {
	it("has every page of a measure, saying that there is nothing to count", () => {
		for (const address of ["term/", ...MEASURE_IDS.map((id) => `measures/${id}/`)]) {
			const page = unplanned.page(address);
			if (address === "measures/heights/") continue;
			expect(page, address).toContain("there is nothing to count");
			expect(page, address).not.toMatch(/chart-(matrix|bars|pairs|line)/);
		}
	});
});
