/**
 * Makes the coverage tables on the device, of the plan: the views and the page function are those of
 * the build. A hundred tables show the same minutes again and again, and were the largest part of what
 * a desk had to fetch.
 */

import { addressFile } from "../../../scripts/render/addresses.ts";
import { oneByte } from "../../../scripts/render/html.ts";
import type { MadeFile, Maker } from "../../../scripts/render/offline/makers.ts";
import { PLAN, readPlan } from "../../../scripts/render/offline/plan-file.ts";
import type { FrameFacts, PageOf } from "../../../scripts/render/site.ts";
import { COVERAGE_TABLES, type CoverageSite, coveragePages } from "../../../scripts/render/views/coverage.ts";
import * as english from "../../../scripts/words/en.ts";
import type { Words } from "../../../scripts/words/words.ts";
import { coveragePage } from "../../pages/coverage.ts";
import { frame } from "../../parts/frame.ts";
import { contextOf } from "../../parts/page.ts";

/** The sections that these pages use: the others stay out of the program. */
const WORDS = {
	allApparatus: english.allApparatus,
	allLevels: english.allLevels,
	asTable: english.asTable,
	caution: english.caution,
	colon: english.colon,
	counts: english.counts,
	coverage: english.coverage,
	destinations: english.destinations,
	directions: english.directions,
	frame: english.frame,
	heads: english.heads,
	min: english.min,
	noDirection: english.noDirection,
	none: english.none,
	number: english.number,
	week: english.week,
} satisfies Partial<Words>;

export class CoverageMaker implements Maker {
	readonly name = "coverage";
	#plan: string | undefined;

	read(path: string, text: string): void {
		if (path === PLAN) this.#plan = text;
	}

	/** The pages of a table at a time. */
	*files(): Generator<readonly MadeFile[]> {
		if (this.#plan === undefined) return;
		const { frame: facts, exposures, ...names } = readPlan(this.#plan);
		const curriculum = { ...names, guides: new Map(), equipment: new Map() };
		const site: CoverageSite = {
			curriculum,
			handbook: { curriculum, exposures },
			words: WORDS,
			weekByNumber: new Map(names.weeks.map((week) => [week.week, week])),
		};
		const said: FrameFacts = {
			...facts,
			// The build proves that no other section is asked for: each page has to come out as it was.
			words: WORDS as Words,
			printed: new Set(),
			site: undefined,
		};
		for (const table of COVERAGE_TABLES) {
			yield coveragePages(site, table).map(({ address, title, question, crumbs, view }): MadeFile => {
				const page: PageOf<"coverage"> = {
					address,
					kind: "coverage",
					title,
					description: question,
					crumbs,
					picture: undefined,
					view: view(),
					frame: said,
				};
				const ctx = contextOf(page, () => {
					throw new Error("No table has code in it.");
				});
				return [addressFile(address), oneByte(frame(ctx, coveragePage(ctx, page.view)).text)];
			});
		}
	}
}
