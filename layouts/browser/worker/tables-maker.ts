/**
 * Makes the coverage tables and the term's overview on the device, of the plan: the views and the page
 * functions are those of the build. A hundred tables show the same minutes again and again, and were the
 * largest part of what a desk had to fetch.
 */

import { type CoverageTable, coverage } from "../../../scripts/compute/coverage.ts";
import { addressFile } from "../../../scripts/render/addresses.ts";
import { type Html, oneByte } from "../../../scripts/render/html.ts";
import { forReader } from "../../../scripts/render/offline/for-reader.ts";
import type { MadeFile, Maker } from "../../../scripts/render/offline/makers.ts";
import { PLAN, readPlan } from "../../../scripts/render/offline/plan-file.ts";
import type { FrameFacts, PageOf } from "../../../scripts/render/site.ts";
import { COVERAGE_TABLES, type CoverageSite, coveragePages } from "../../../scripts/render/views/coverage.ts";
import { type TermSite, termPages } from "../../../scripts/render/views/term.ts";
import * as english from "../../../scripts/words/en.ts";
import type { Words } from "../../../scripts/words/words.ts";
import { coveragePage } from "../../pages/coverage.ts";
import { termPage } from "../../pages/term.ts";
import { frame } from "../../parts/frame.ts";
import { contextOf, type PageContext } from "../../parts/page.ts";

/** The sections that these pages use: the others stay out of the program. */
const WORDS = {
	allApparatus: english.allApparatus,
	allLevels: english.allLevels,
	anywhere: english.anywhere,
	asTable: english.asTable,
	caution: english.caution,
	charts: english.charts,
	colon: english.colon,
	counts: english.counts,
	coverage: english.coverage,
	destinations: english.destinations,
	directions: english.directions,
	frame: english.frame,
	heads: english.heads,
	measurePage: english.measurePage,
	min: english.min,
	noDirection: english.noDirection,
	none: english.none,
	number: english.number,
	ofWeek: english.ofWeek,
	prints: english.prints,
	semicolon: english.semicolon,
	term: english.term,
	things: english.things,
	week: english.week,
} satisfies Partial<Words>;

export class TablesMaker implements Maker {
	readonly name = "tables";
	readonly isEarly = false;
	#plan: string | undefined;

	mayMake(path: string): boolean {
		return /^(coverage|term)\/.*\.html$/.test(path);
	}

	read(path: string, text: string): void {
		if (path === PLAN) this.#plan = text;
	}

	/** The pages of a table at a time. */
	*files(): Generator<readonly MadeFile[]> {
		if (this.#plan === undefined) return;
		const { frame: facts, binder, exposures, standings, ...plan } = readPlan(this.#plan);
		const curriculum = { ...plan, guides: new Map(), equipment: new Map() };
		const handbook = { curriculum, exposures };
		const tables = new Map<string, CoverageTable>();
		const site: CoverageSite & TermSite = {
			curriculum,
			handbook,
			measures: {
				coverage(kind, level) {
					const key = `${kind} ${level ?? ""}`;
					const table =
						tables.get(key) ??
						coverage(handbook, kind, "week", level === undefined ? undefined : (e) => e.level === level);
					tables.set(key, table);
					return table;
				},
				standings: (kind, level) =>
					standings.filter((one) => one.kind === kind && one.spacing.level === level),
				standingsOf: (kind, id) => standings.filter((one) => one.kind === kind && one.spacing.id === id),
			},
			words: WORDS,
			weekByNumber: new Map(plan.weeks.map((week) => [week.week, week])),
		};
		const said: FrameFacts = {
			...facts,
			// The build proves that no other section is asked for: each page has to come out as it was.
			words: WORDS as Words,
			printed: new Set(facts.printed),
			site: undefined,
		};
		for (const table of COVERAGE_TABLES) {
			yield coveragePages(site, table).map(({ question, ...about }) =>
				made(said, { ...about, kind: "coverage", description: question }, (ctx) =>
					coveragePage(ctx, about.view()),
				),
			);
		}
		yield termPages(site).map((about) =>
			made(said, { ...about, kind: "term" }, (ctx) => termPage(ctx, about.view())),
		);
	}
}

function made(
	said: FrameFacts,
	about: Pick<PageOf<"coverage" | "term">, "kind" | "address" | "title" | "description" | "crumbs">,
	main: (ctx: PageContext) => Html,
): MadeFile {
	const { kind, address, title, description, crumbs } = about;
	// Its view has been written by the time that the frame is.
	const page = { kind, address, title, description, crumbs, picture: undefined, frame: said };
	const path = addressFile(address);
	const ctx = contextOf(page as PageContext["page"], () => {
		throw new Error("No table has code in it.");
	});
	return [path, forReader({ path, text: oneByte(frame(ctx, main(ctx)).text) })];
}
