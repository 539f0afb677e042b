/** Coverage pages against the tables they show: each total is recounted from the exposures. */

import { describe, expect, it } from "vitest";
import { coveredBy } from "../../scripts/compute/coverage.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import type { Exposure } from "../../scripts/model.ts";
import { COVERAGE_TABLES, choicesOf, coverageView, heatOf } from "../../scripts/views/coverage.ts";
import { indexSite } from "../../scripts/views/site-index.ts";
import { FIXTURES } from "../open-fixture.ts";

const { handbook } = openHandbook(`${FIXTURES}clubs/full-pages`);
if (handbook === undefined) throw new Error("The fixture does not open.");
const { curriculum, exposures } = handbook;
const site = indexSite(handbook);

const minutesOf = (list: readonly Exposure[]) => list.reduce((sum, e) => sum + e.minutes, 0);

describe.each(COVERAGE_TABLES.map((table) => [table.id, table] as const))("%s", (_, table) => {
	it("shows in every choice what the exposures add up to", () => {
		let shown = 0;
		for (const choice of choicesOf(site, table)) {
			const view = coverageView(site, table, choice);
			const kept = exposures.filter(
				(e) =>
					(choice.level === undefined || e.level === choice.level) &&
					(choice.apparatus === undefined || e.apparatus === choice.apparatus) &&
					coveredBy(curriculum, e.drill, table.kind).length > 0,
			);
			const total = view.foot.total.values[0];
			if (kept.length === 0) expect(total).toBeUndefined();
			else expect(total).toBeCloseTo(minutesOf(kept), 9);
			for (const row of view.rows) {
				const own = kept.filter((e) =>
					table.by === "week" ? `Week ${e.week}` === row.head.name : row.head.to.includes(`/${e[table.by]}/`),
				);
				if (own.length === 0) expect(row.total.values[0]).toBeUndefined();
				else expect(row.total.values[0]).toBeCloseTo(minutesOf(own), 9);
				expect(row.total.values[1] ?? 0).toBe(new Set(own.map((e) => e.drill)).size);
			}
			// Each cell's list is what its number was counted from.
			for (const list of view.lists.flatMap(({ cells }) => cells)) {
				const cell = view.rows.flatMap((row) => row.cells).find((c) => c.anchor === list.anchor);
				expect(list.lines).toHaveLength(cell?.values[1] ?? -1);
				expect(list.lines.reduce((sum, line) => sum + line.minutes, 0)).toBeCloseTo(cell?.values[0] ?? -1, 9);
				shown++;
			}
			// Shares over the columns add up to the minutes of the row.
			const share = view.measures.indexOf("share");
			if (share < 0) continue;
			for (const row of view.rows) {
				const shares = row.cells.reduce((sum, cell) => sum + (cell.values[share] ?? 0), 0);
				expect(shares).toBeCloseTo(row.total.values[0] ?? 0, 9);
			}
		}
		expect(shown).toBeGreaterThan(0);
	});
});

it("gives heat from 1 to 9 to what is there, and none to what is not", () => {
	expect([0, 1, 5, 9, 10].map((value) => heatOf(value, 10))).toEqual([0, 1, 5, 9, 9]);
	expect(heatOf(undefined, 10)).toBe(0);
	expect(heatOf(3, 0)).toBe(0);
});
