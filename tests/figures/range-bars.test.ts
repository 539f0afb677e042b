import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { textWidth } from "../../scripts/figures/chart-frame.ts";
import { drawRangeBars, type RangeBars } from "../../scripts/figures/range-bars.ts";
import { all, faultsOf, number, readSvg, textOf, withClass } from "./read-chart.ts";

const options = {
	title: "Height by age",
	description: "From the 5th to the 95th percentile.",
	idPrefix: "range-1",
	format: (value: number): string => String(Math.round(value)),
};
const chart: RangeBars = {
	marks: ["girls", "boys"],
	unit: "cm",
	ranges: [
		{ name: "Age 5", low: 100, high: 116, marks: [108, 109] },
		{ name: "Age 6", low: 107, high: 124, marks: [115, 115] },
	],
};

describe("range bars", () => {
	it("write both ends of every range, and all its values in the description", () => {
		const root = readSvg(drawRangeBars(chart, options));
		expect(withClass(root, "chart-number").map(textOf)).toEqual(["100", "116", "107", "124"]);
		const description = all(root).find(({ name }) => name === "desc");
		expect(description && textOf(description)).toBe(
			"From the 5th to the 95th percentile. Age 5: 100 to 116 cm, girls 108, boys 109. Age 6: 107 to 124 cm, girls 115, boys 115.",
		);
	});

	it("keep one scale: equal steps in value are equal steps across", () => {
		const root = readSvg(drawRangeBars(chart, options));
		const [five, six] = withClass(root, "chart-range").map((row) =>
			all(row).find(({ name }) => name === "rect"),
		);
		if (five === undefined || six === undefined) throw new Error("no bars");
		const perUnit = number(five, "width") / 16;
		expect(number(six, "x") - number(five, "x")).toBeCloseTo(7 * perUnit, 0);
		expect(number(six, "width")).toBeCloseTo(17 * perUnit, 0);
	});

	it("stay inside their picture, whatever they are given", () => {
		const range = fc
			.tuple(
				fc.string({ minLength: 1, maxLength: 30 }),
				fc.array(fc.integer({ min: 0, max: 9000 }), { minLength: 4, maxLength: 4 }),
			)
			.map(([name, values]) => {
				const [low = 0, a = 0, b = 0, high = 0] = values.sort((x, y) => x - y);
				return { name, low, high, marks: [a, b] };
			});
		fc.assert(
			fc.property(
				fc.array(range, { minLength: 1, maxLength: 12 }),
				fc.integer({ min: 240, max: 900 }),
				(ranges, width) => {
					expect(faultsOf(drawRangeBars({ ...chart, ranges }, { ...options, width }), textWidth)).toEqual([]);
				},
			),
			{ numRuns: 200 },
		);
	});

	it("refuse what cannot be drawn", () => {
		expect(() => drawRangeBars({ ...chart, ranges: [] }, options)).toThrow(RangeError);
		const bad = (range: RangeBars["ranges"][number]) => () =>
			drawRangeBars({ ...chart, ranges: [range] }, options);
		expect(bad({ name: "x", low: 5, high: 4, marks: [4, 5] })).toThrow(/out of order/);
		expect(bad({ name: "x", low: 1, high: 4, marks: [2] })).toThrow(/1 values for 2 marks/);
		expect(bad({ name: "x", low: Number.NaN, high: 4, marks: [2, 3] })).toThrow(RangeError);
	});
});
