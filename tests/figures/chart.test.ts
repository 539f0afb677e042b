import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type BarChart, drawBars } from "../../scripts/figures/bar-chart.ts";
import { texture, textureDefs, textWidth, wrapText } from "../../scripts/figures/chart-frame.ts";
import { drawPairedBars, type PairedBars } from "../../scripts/figures/paired-bars.ts";
import { drawTermMatrix, stepsFor, type TermMatrix } from "../../scripts/figures/term-matrix.ts";
import { drawTimeLine, type TimeLine } from "../../scripts/figures/time-line.ts";
import { all, attribute, faultsOf, number, readSvg, textOf, withClass } from "./read-chart.ts";

const format = (value: number): string => String(Math.round(value * 10) / 10);
const options = {
	title: "Shapes & weeks",
	description: "What each week trains.",
	idPrefix: "chart-1",
	format,
};
const weeks = Array.from({ length: 6 }, (_, i) => ({ week: i + 1, name: `Week ${i + 1}` }));
const texts = (svg: string, className: string): string[] => withClass(readSvg(svg), className).map(textOf);
const description = (svg: string): string =>
	textOf(all(readSvg(svg)).find(({ name }) => name === "desc") ?? fail());
const fail = (): never => {
	throw new Error("nothing there");
};

/** Names as clubs write them, and as they would not: signs of markup, long words, other scripts. */
const name = fc.oneof(
	fc.constantFrom(
		'Hollow <hold> & "arch"',
		"Relevé walk",
		"Sprungrollenüberschlag-Vorbereitung",
		"倒立",
		"A",
		"</text>",
	),
	fc.string({ minLength: 1, maxLength: 30 }).filter((text) => text.trim() !== ""),
);
const value = fc.oneof(
	fc.constant(0),
	fc.integer({ min: 0, max: 5000 }),
	fc.double({ min: 0, max: 90, noNaN: true }),
);
const href = fc.option(fc.constantFrom("../a/?x=1&y=2", "#cell-1"), { nil: undefined });
const maybe = <T>(key: string, given: T | undefined): Record<string, T> =>
	given === undefined ? {} : { [key]: given };

describe("the term matrix", () => {
	const matrix: TermMatrix = {
		weeks,
		rows: [
			{ id: "hollow", name: "Hollow", group: "Lying", href: "../hollow/" },
			{ id: "arch", name: "Arch", group: "Lying" },
			{ id: "tuck", name: 'Tuck <"&">', group: "Sitting" },
		],
		cells: [
			{ row: "hollow", week: 1, value: 12, words: "12 minutes", href: "#hollow-1" },
			{ row: "hollow", week: 6, value: 37.5, words: "37.5 minutes", href: "#hollow-6" },
			{ row: "arch", week: 2, value: 3 },
			{ row: "arch", week: 4, value: 0 },
		],
		mostGap: 2,
	};
	const svg = drawTermMatrix(matrix, options);

	it("shows every cell's number, and links it to its drills by name", () => {
		expect(texts(svg, "chart-number")).toEqual(["12", "37.5", "3", "0"]);
		const links = all(readSvg(svg)).filter(({ name }) => name === "a");
		expect(links.map((link) => [attribute(link, "href"), attribute(link, "aria-label")])).toEqual([
			["../hollow/", "Hollow"],
			["#hollow-1", "Hollow, Week 1: 12 minutes"],
			["#hollow-6", "Hollow, Week 6: 37.5 minutes"],
		]);
		expect(withClass(readSvg(svg), "chart-cell").map((cell) => attribute(cell, "aria-label"))).toEqual([
			"",
			"",
			"Arch, Week 2: 3",
			"Arch, Week 4: 0",
		]);
	});

	it("marks only gaps longer than the target, over the weeks between", () => {
		const gaps = withClass(readSvg(svg), "chart-gap");
		expect(gaps.map(textOf)).toEqual(["5 wk gap"]);
		expect(gaps.map((gap) => attribute(gap, "aria-label"))).toEqual([
			"Hollow: gap of 5 weeks, from Week 1 to Week 6",
		]);
		// 18 places: 4 cells, 4 in the gap, the rest empty; one more in the key.
		expect(withClass(readSvg(svg), "chart-none")).toHaveLength(18 - 4 - 4 + 1);
	});

	it("gives every step a line of its own length and a range in words", () => {
		expect(stepsFor(37.5)).toEqual([10, 20, 30, 40]);
		const lengths = [1, 2, 3, 4].map((step) => {
			const line = withClass(readSvg(svg), `chart-step-${step}`).at(-1);
			return Number(/h([\d.]+)$/.exec(attribute(line ?? fail(), "d"))?.[1]);
		});
		expect(lengths).toEqual([3, 6, 9, 12]);
		const key = withClass(readSvg(svg), "chart-legend").map(textOf).join();
		for (const words of ["to 10", "to 20", "to 30", "to 40", "none", "gap of more than 2 weeks"])
			expect(key).toContain(words);
	});

	it("says everything in its description where it has no links", () => {
		const plain = drawTermMatrix(
			{
				...matrix,
				rows: matrix.rows.map(({ id, name }) => ({ id, name })),
				cells: matrix.cells.map(({ href, ...cell }) => cell),
			},
			options,
		);
		expect(attribute(readSvg(plain), "role")).toBe("img");
		expect(description(plain)).toBe(
			"What each week trains. Hollow: Week 1 12 minutes, Week 6 37.5 minutes, gap of 5 weeks, from Week 1 to Week 6. " +
				'Arch: Week 2 3, Week 4 0. Tuck <"&">: in no week.',
		);
	});

	it("has cells no smaller than a finger's target", () => {
		for (const cell of withClass(readSvg(svg), "chart-cell")) {
			const ground = all(cell).find(({ name }) => name === "rect") ?? fail();
			expect(number(ground, "width")).toBeGreaterThanOrEqual(24);
			expect(number(ground, "height")).toBeGreaterThanOrEqual(24);
		}
	});

	it("refuses what it cannot place", () => {
		const draw = (change: Partial<TermMatrix>) => () => drawTermMatrix({ ...matrix, ...change }, options);
		expect(draw({ weeks: [] })).toThrow(RangeError);
		expect(draw({ rows: [] })).toThrow(RangeError);
		expect(draw({ cells: [{ row: "arch", week: 7, value: 1 }] })).toThrow(/outside/);
		expect(draw({ cells: [{ row: "ring", week: 1, value: 1 }] })).toThrow(/outside/);
		expect(draw({ cells: [{ row: "arch", week: 1, value: -1 }] })).toThrow(/cannot be drawn/);
		const twice = { row: "arch", week: 1, value: 1 };
		expect(draw({ cells: [twice, twice] })).toThrow(/twice/);
	});

	it("holds for any matrix", () => {
		fc.assert(
			fc.property(
				fc.array(name, { minLength: 1, maxLength: 5 }),
				fc.integer({ min: 1, max: 12 }),
				fc.array(fc.record({ row: fc.nat(4), week: fc.nat(11), value, href })),
				fc.option(fc.integer({ min: 1, max: 4 }), { nil: undefined }),
				fc.boolean(),
				(names, count, wild, mostGap, grouped) => {
					const cells = [
						...new Map(
							wild
								.filter(({ row, week }) => row < names.length && week < count)
								.map(({ row, week, value, href }) => [
									`${row} ${week}`,
									{ row: `r${row}`, week: week + 1, value, ...maybe("href", href) },
								]),
						).values(),
					];
					const given: TermMatrix = {
						weeks: Array.from({ length: count }, (_, i) => ({ week: i + 1, name: `Week ${i + 1}` })),
						rows: names.map((n, i) => ({
							id: `r${i}`,
							name: n,
							...maybe("group", grouped ? `G${i % 2}` : undefined),
						})),
						cells,
						...maybe("mostGap", mostGap),
					};
					const drawn = drawTermMatrix(given, options);
					expect(faultsOf(drawn, textWidth)).toEqual([]);
					expect(drawTermMatrix(given, options)).toBe(drawn);
					const inOrder = cells.toSorted((a, b) =>
						a.row < b.row ? -1 : a.row > b.row ? 1 : a.week - b.week,
					);
					expect(texts(drawn, "chart-number")).toEqual(inOrder.map((cell) => format(cell.value)));
					const gaps = names.flatMap((_, i) => {
						const taught = inOrder.filter(({ row }) => row === `r${i}`).map(({ week }) => week);
						return taught
							.slice(1)
							.flatMap((week, k) =>
								mostGap !== undefined && week - (taught[k] ?? 0) > mostGap ? [week - (taught[k] ?? 0)] : [],
							);
					});
					expect(
						withClass(readSvg(drawn), "chart-gap").map((gap) => Number.parseInt(textOf(gap), 10)),
					).toEqual(gaps);
				},
			),
			{ numRuns: 60 },
		);
	});

	it("chooses round steps that reach the largest value", () => {
		fc.assert(
			fc.property(fc.double({ min: 0.001, max: 1e6, noNaN: true }), (most) => {
				const steps = stepsFor(most);
				expect(steps).toHaveLength(4);
				expect(steps.at(-1)).toBeGreaterThanOrEqual(most * (1 - 1e-9));
				// No more than 1.6 times too far: the widest space between round numbers, 1 to 1.5.
				expect(steps.at(-1)).toBeLessThanOrEqual(most * 1.6);
				for (const step of steps)
					expect(String(step).replace(/e.*$/, "").replace(/[.0]/g, "").length).toBeLessThanOrEqual(2);
			}),
		);
		expect(stepsFor(0)).toEqual([1, 2, 3, 4]);
	});
});

describe("bars", () => {
	it("are as long as their numbers", () => {
		const svg = drawBars(
			{
				parts: ["Landings"],
				bars: [40, 80, 0].map((value, i) => ({ name: `Week ${i + 1}`, values: [value] })),
			},
			options,
		);
		expect(texts(svg, "chart-sum")).toEqual(["40", "80", "0"]);
		const [first = fail(), second = fail(), ...more] = all(readSvg(svg)).filter(
			({ name }) => name === "rect",
		);
		expect(number(second, "width") / number(first, "width")).toBeCloseTo(2, 2);
		expect(more).toEqual([]);
		expect(description(svg)).toBe("What each week trains. Week 1: 40. Week 2: 80. Week 3: 0.");
	});

	const stacked: BarChart = {
		parts: ["Floor", "Vault", "Bars"],
		bars: [
			{ name: "Week 1", values: [20, 1, 19], href: "../1/" },
			{
				name: "Week 2",
				values: [30, 0, 35],
				note: { words: "more than last week by far & wide", warns: true },
			},
		],
		limit: { value: 60, words: "class" },
	};

	it("write every part's number in it, or under the bar where it is narrow", () => {
		const svg = drawBars(stacked, options);
		expect(texts(svg, "chart-number")).toEqual(["20", "19", "30", "35"]);
		expect(texts(svg, "chart-under")).toEqual(["Vault 1"]);
		expect(texts(svg, "chart-sum")).toEqual(["40", "65"]);
		expect(texts(svg, "chart-limit")).toEqual(["class 60"]);
		expect(withClass(readSvg(svg), "chart-warns")).toHaveLength(1);
		expect(all(readSvg(svg)).flatMap((element) => element.attributes.get("aria-label") ?? [])).toEqual([
			"Week 1: 40, Floor 20, Vault 1, Bars 19",
		]);
	});

	it("give every part its own texture, named in the key", () => {
		const svg = drawBars(stacked, options);
		const patterns = all(readSvg(svg)).filter(({ name }) => name === "pattern");
		expect(patterns).toHaveLength(3);
		expect(withClass(readSvg(svg), "chart-legend").map(textOf)).toEqual(["FloorVaultBars"]);
		const looks = [...textureDefs("x", 18).matchAll(/<pattern[^>]*>(.*?)<\/pattern>/g)].map(
			([, inside]) => inside,
		);
		expect(new Set(looks).size).toBe(18);
		expect(texture("x", 2)).toBe("url(#x-texture-3)");
	});

	it("refuse values that do not fit", () => {
		expect(() => drawBars({ parts: ["A"], bars: [] }, options)).toThrow(RangeError);
		expect(() => drawBars({ parts: [], bars: [{ name: "W", values: [] }] }, options)).toThrow(RangeError);
		expect(() => drawBars({ parts: ["A", "B"], bars: [{ name: "W", values: [1] }] }, options)).toThrow(
			/1 values for 2/,
		);
		expect(() => drawBars({ parts: ["A"], bars: [{ name: "W", values: [Number.NaN] }] }, options)).toThrow(
			RangeError,
		);
	});

	it("hold for any numbers", () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 1, max: 8 }).chain((count) =>
					fc.record({
						parts: fc.array(name, { minLength: count, maxLength: count }),
						bars: fc.array(
							fc.record({
								name,
								values: fc.array(value, { minLength: count, maxLength: count }),
								note: fc.option(fc.record({ words: name, warns: fc.boolean() }), { nil: undefined }),
								href,
							}),
							{ minLength: 1, maxLength: 6 },
						),
						limit: fc.option(value, { nil: undefined }),
					}),
				),
				({ parts, bars, limit }) => {
					const chart: BarChart = {
						parts,
						bars: bars.map(({ note, href, ...bar }) => ({
							...bar,
							...maybe("note", note),
							...maybe("href", href),
						})),
						...maybe("limit", limit === undefined ? undefined : { value: limit, words: "class" }),
					};
					const svg = drawBars(chart, options);
					expect(faultsOf(svg, textWidth)).toEqual([]);
					expect(drawBars(chart, options)).toBe(svg);
					expect(texts(svg, "chart-sum")).toEqual(
						bars.map(({ values }) => format(values.reduce((a, b) => a + b, 0))),
					);
					if (parts.length === 1) return;
					withClass(readSvg(svg), "chart-bar").forEach((bar, i) => {
						const shown = withClass(bar, "chart-number").length;
						const positive = bars[i]?.values.filter((v) => v > 0) ?? [];
						const under = withClass(bar, "chart-under").map(textOf).join(" ").replace(/\s/g, "");
						if (shown === positive.length) expect(under).toBe("");
						else if (!under.endsWith("…"))
							expect(under.split("·").length).toBeGreaterThanOrEqual(positive.length - shown);
					});
				},
			),
			{ numRuns: 60 },
		);
	});
});

describe("paired bars", () => {
	const pairs: PairedBars = {
		sides: ["Backward", "Forward"],
		groups: [
			{
				name: "Floor",
				bars: [
					{ name: "Week 1", left: 10, right: 20 },
					{ name: "Week 2", left: 0, right: 5 },
					{ name: "Week 3", left: 0, right: 0 },
				],
			},
			{ name: "Empty", bars: [] },
		],
	};

	it("grow both ways from one axis, and show what is missing on a side", () => {
		const svg = drawPairedBars(pairs, options);
		expect(texts(svg, "chart-number")).toEqual(["10", "20", "5", "0", "0"]);
		expect(texts(svg, "chart-missing")).toEqual(["none"]);
		expect(texts(svg, "chart-group")).toEqual(["Floor"]);
		const [left = fail(), right = fail()] = all(withClass(readSvg(svg), "chart-pair")[0] ?? fail()).filter(
			({ name }) => name === "rect",
		);
		expect(number(left, "x") + number(left, "width")).toBeCloseTo(number(right, "x"), 5);
		expect(number(right, "width") / number(left, "width")).toBeCloseTo(2, 2);
		// Told apart on a grey copy: one hatched, one plain.
		expect(attribute(left, "fill")).toMatch(/^url/);
		expect(attribute(right, "fill")).not.toMatch(/^url/);
		expect(description(svg)).toContain("Floor, Week 2: Backward 0, Forward 5.");
	});

	it("refuse to draw nothing", () => {
		expect(() => drawPairedBars({ sides: ["L", "R"], groups: [] }, options)).toThrow(RangeError);
	});

	it("hold for any numbers", () => {
		const bar = fc.record({ name, left: value, right: value, href });
		fc.assert(
			fc.property(
				fc.array(fc.record({ name, bars: fc.array(bar, { minLength: 1, maxLength: 4 }) }), {
					minLength: 1,
					maxLength: 3,
				}),
				(groups) => {
					const chart: PairedBars = {
						sides: ["Backward", "Forward"],
						groups: groups.map((group) => ({
							...group,
							bars: group.bars.map(({ href, ...rest }) => ({ ...rest, ...maybe("href", href) })),
						})),
					};
					const svg = drawPairedBars(chart, options);
					expect(faultsOf(svg, textWidth)).toEqual([]);
					const drawn = groups.flatMap(({ bars }) =>
						bars.flatMap(({ left, right }) =>
							left === 0 && right === 0 ? ["0", "0"] : [left, right].filter((v) => v > 0).map(format),
						),
					);
					expect(texts(svg, "chart-number")).toEqual(drawn);
				},
			),
			{ numRuns: 60 },
		);
	});
});

describe("the line of minutes", () => {
	const point = (week: number, planned: number, available?: number) => ({
		name: `Week ${week}`,
		short: String(week),
		planned,
		...maybe("available", available),
	});
	const line: TimeLine = { points: [point(1, 55, 60), point(2, 63.5, 60), point(3, 75, 75), point(4, 20)] };

	it("shows planned, available where it changes, and the difference with its sign", () => {
		const svg = drawTimeLine(line, options);
		expect(texts(svg, "chart-number")).toEqual(["55", "63.5", "75", "20"]);
		expect(texts(svg, "chart-available")).toEqual(["60", "75"]);
		expect(texts(svg, "chart-difference")).toEqual(["−5", "+3.5", "0"]);
		// One for the week that asks for too much, one in the key.
		expect(withClass(readSvg(svg), "chart-over")).toHaveLength(2);
		expect(description(svg)).toContain(
			"Week 2: 63.5 planned of 60. Week 3: 75 planned of 75. Week 4: 20 planned.",
		);
	});

	it("puts a higher number higher, in proportion", () => {
		const svg = drawTimeLine({ points: [point(1, 30), point(2, 60), point(3, 0)] }, options);
		const path = attribute(withClass(readSvg(svg), "chart-planned")[0] ?? fail(), "d");
		const [half = 0, full = 0, none = 0] = [...path.matchAll(/[ML][\d.]+ ([\d.]+)/g)].map(([, y]) =>
			Number(y),
		);
		expect((none - half) / (none - full)).toBeCloseTo(0.5, 2);
	});

	it("refuses to draw nothing", () => {
		expect(() => drawTimeLine({ points: [] }, options)).toThrow(RangeError);
		expect(() => drawTimeLine({ points: [point(1, -3)] }, options)).toThrow(RangeError);
	});

	it("holds for any numbers", () => {
		fc.assert(
			fc.property(
				fc.array(fc.record({ name, planned: value, available: fc.option(value, { nil: undefined }), href }), {
					minLength: 1,
					maxLength: 12,
				}),
				(points) => {
					const svg = drawTimeLine(
						{
							points: points.map(({ name: n, planned, available, href: to }, i) => ({
								name: n,
								short: String(i + 1),
								planned,
								...maybe("available", available),
								...maybe("href", to),
							})),
						},
						options,
					);
					expect(faultsOf(svg, textWidth)).toEqual([]);
					expect(texts(svg, "chart-number")).toEqual(points.map(({ planned }) => format(planned)));
				},
			),
			{ numRuns: 60 },
		);
	});
});

describe("text without a browser", () => {
	it("is wrapped to its width, keeping its letters", () => {
		fc.assert(
			fc.property(name, fc.integer({ min: 20, max: 120 }), (words, width) => {
				const lines = wrapText(words, width, 12, 99);
				for (const part of lines)
					expect(textWidth(part)).toBeLessThanOrEqual(Math.max(width, textWidth([...part][0] ?? "")));
				expect(lines.join("").replace(/\s/g, "")).toBe(words.replace(/\s/g, ""));
			}),
		);
		expect(wrapText("Three-quarter handstand on the beam", 88, 12, 3, true)).toEqual([
			"Three-quarter",
			"handstand on",
			"the beam",
		]);
		expect(wrapText("Cartwheel to side handstand dismount", 80, 12, 2)).toEqual([
			"Cartwheel to",
			expect.stringMatching(/…$/),
		]);
	});
});

describe("golden files", () => {
	const few = [1, 2].map((week) => ({ week, name: `Week ${week}` }));
	it.each([
		[
			"matrix",
			drawTermMatrix(
				{
					weeks: few,
					rows: [{ id: "a", name: "Arch & hollow" }],
					cells: [{ row: "a", week: 1, value: 8, href: "#a-1" }],
				},
				options,
			),
		],
		[
			"bars",
			drawBars(
				{
					parts: ["Floor", "Beam"],
					bars: [{ name: "Week 1", values: [20, 15] }],
					limit: { value: 30, words: "class" },
				},
				options,
			),
		],
		[
			"pairs",
			drawPairedBars(
				{
					sides: ["Backward", "Forward"],
					groups: [{ name: "", bars: [{ name: "Week 1", left: 4, right: 9 }] }],
				},
				options,
			),
		],
		["line", drawTimeLine({ points: [{ name: "Week 1", short: "1", planned: 61, available: 60 }] }, options)],
	])("%s", async (file, svg) => {
		await expect(`${svg.replace(/></g, ">\n<")}\n`).toMatchFileSnapshot(`expected/${file}.svg`);
	});
});
