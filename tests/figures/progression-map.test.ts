import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { textWidth } from "../../scripts/figures/chart-frame.ts";
import { around, arrowsOf, type GraphNode, inOrder } from "../../scripts/figures/progression-graph.ts";
import { layOutInRows } from "../../scripts/figures/progression-layout.ts";
import { drawProgressionMap, type MapSkill } from "../../scripts/figures/progression-map.ts";
import { cases } from "../random-cases.ts";
import { all, attribute, faultsOf, number, readSvg, textOf, withClass } from "./read-chart.ts";

const node = (id: string, ...needs: readonly string[]): GraphNode => ({ id, needs });

/** Graphs without circles, in any order, some needing what is not there. */
const graph = fc
	.integer({ min: 1, max: 9 })
	.chain((count) =>
		fc.tuple(
			fc.array(fc.array(fc.nat(count), { maxLength: 4 }), { minLength: count, maxLength: count }),
			fc.shuffledSubarray(
				Array.from({ length: count }, (_, i) => i),
				{ minLength: count },
			),
		),
	)
	.map(([needs, order]) => {
		const nodes = needs.map((list, i) =>
			node(
				`s${i}`,
				...list
					.map((k) => (k < i ? `s${k}` : k === needs.length ? "elsewhere" : ""))
					.filter((id) => id !== ""),
			),
		);
		return order.flatMap((i) => nodes[i] ?? []);
	});

/** Pairs joined by a way of one or more arrows, found by trying all ways. */
function joined(arrows: readonly { readonly from: string; readonly to: string }[]): ReadonlySet<string> {
	const pairs = new Set<string>();
	const walk = (start: string, at: string): void => {
		for (const { from, to } of arrows) {
			if (from !== at) continue;
			pairs.add(`${start} ${to}`);
			walk(start, to);
		}
	};
	for (const { from } of arrows) walk(from, from);
	return pairs;
}

describe("arrows", () => {
	it("are redundant where a longer way says the same", () => {
		const arrows = arrowsOf([
			node("kip", "glide", "hang", "hang", "unknown"),
			node("glide", "swing"),
			node("swing", "hang"),
			node("hang"),
		]);
		expect(arrows).toEqual([
			{ from: "glide", to: "kip", redundant: false },
			{ from: "hang", to: "kip", redundant: true },
			{ from: "swing", to: "glide", redundant: false },
			{ from: "hang", to: "swing", redundant: false },
		]);
	});

	it("reduce to the fewest that join the same pairs: none can go, and every other one can", () => {
		fc.assert(
			fc.property(graph, (nodes) => {
				const arrows = arrowsOf(nodes);
				const kept = arrows.filter(({ redundant }) => !redundant);
				const pairs = joined(arrows);
				expect(joined(kept)).toEqual(pairs);
				for (const arrow of kept) expect(joined(kept.filter((other) => other !== arrow))).not.toEqual(pairs);
			}),
		);
	});

	it("agree with the smallest of all sets of arrows", () => {
		fc.assert(
			fc.property(
				graph.filter((nodes) => arrowsOf(nodes).length <= 9),
				(nodes) => {
					const arrows = arrowsOf(nodes);
					const pairs = joined(arrows);
					let smallest = arrows.length;
					for (let set = 0; set < 2 ** arrows.length; set++) {
						const some = arrows.filter((_, i) => (set >> i) & 1);
						const found = joined(some);
						if (some.length < smallest && found.size === pairs.size && pairs.isSubsetOf(found))
							smallest = some.length;
					}
					expect(arrows.filter(({ redundant }) => !redundant)).toHaveLength(smallest);
				},
			),
			{ numRuns: cases(40) },
		);
	});

	it("come in an order in which nothing precedes what it needs", () => {
		fc.assert(
			fc.property(graph, (nodes) => {
				const order = inOrder(nodes);
				expect([...order].sort()).toEqual(nodes.map(({ id }) => id).sort());
				for (const { id, needs } of nodes)
					for (const need of needs) expect(order.indexOf(need)).toBeLessThan(order.indexOf(id));
			}),
		);
		expect(() => inOrder([node("a", "b"), node("b", "a")])).toThrow(/before itself/);
	});
});

describe("the neighbourhood of a skill", () => {
	const chain = [
		node("a"),
		node("b", "a"),
		node("c", "b"),
		node("d", "c"),
		node("e", "d"),
		node("x"),
		node("y", "x", "c"),
	];
	it("goes as far as it is told, up and down, and not sideways", () => {
		const ids = (before: number, after: number): string[] =>
			around(chain, "c", { before, after }).map(({ id }) => id);
		expect(ids(0, 0)).toEqual(["c"]);
		expect(ids(1, 1)).toEqual(["b", "c", "d", "y"]);
		expect(ids(9, 9)).toEqual(["a", "b", "c", "d", "e", "y"]);
		expect(() => around(chain, "q", { before: 1, after: 1 })).toThrow(RangeError);
	});
});

const size = fc.record({
	width: fc.integer({ min: 60, max: 104 }),
	height: fc.integer({ min: 20, max: 90 }),
});

describe("the layout", () => {
	it("gives a hundred boxes that need nothing as many rows as their width asks for", () => {
		const boxes = Array.from({ length: 100 }, (_, i) => ({ id: `s${i}`, width: 100, height: 30 }));
		const rows = Map.groupBy(layOutInRows(boxes, [], 345).boxes, ({ top }) => top);
		expect(Array.from(rows.values(), (row) => row.length).toSorted()).toEqual([
			1,
			...Array<number>(33).fill(3),
		]);
	});

	it("keeps boxes apart, arrows off boxes and pointing down, and to the width where one box has room", () => {
		fc.assert(
			fc.property(graph, fc.array(size, { minLength: 9, maxLength: 9 }), (nodes, sizes) => {
				const boxes = nodes.map(({ id }, i) => ({ id, ...(sizes[i] ?? { width: 80, height: 40 }) }));
				const arrows = arrowsOf(nodes);
				const { boxes: placed, ways, width, height } = layOutInRows(boxes, arrows, 332);
				expect(placed.map(({ id }) => id).sort()).toEqual(nodes.map(({ id }) => id).sort());
				expect(ways.map(({ arrow }) => arrow)).toEqual(arrows);
				// One box and every arrow of the graph beside it always fit.
				expect(width).toBeLessThanOrEqual(Math.max(332, 104 + 9 * arrows.length) + 1e-6);
				for (const one of placed) {
					expect(one.x - one.width / 2).toBeGreaterThanOrEqual(-1e-6);
					expect(one.x + one.width / 2).toBeLessThanOrEqual(width + 1e-6);
					expect(one.top + one.height).toBeLessThanOrEqual(height + 1e-6);
					for (const other of placed) {
						if (other === one) continue;
						const apart =
							Math.abs(one.x - other.x) >= (one.width + other.width) / 2 + 8.9 ||
							one.top + one.height <= other.top ||
							other.top + other.height <= one.top;
						expect(apart, `${one.id} and ${other.id}`).toBe(true);
					}
				}
				for (const { arrow, corners } of ways) {
					const [from, to] = [arrow.from, arrow.to].map((id) => placed.find((box) => box.id === id));
					expect(corners[0]?.y).toBe((from?.top ?? 0) + (from?.height ?? 0));
					expect(corners.at(-1)?.y).toBe(to?.top);
					expect(Math.abs((corners[0]?.x ?? 0) - (from?.x ?? 0))).toBeLessThan((from?.width ?? 0) / 2);
					corners.slice(1).forEach((corner, i) => {
						const before = corners[i] ?? corner;
						expect(corner.y).toBeGreaterThanOrEqual(before.y);
						// A bend stays between the two x; it may share no height with a box that lies between them.
						for (const box of placed) {
							const beside =
								Math.max(before.x, corner.x) <= box.x - box.width / 2 ||
								Math.min(before.x, corner.x) >= box.x + box.width / 2;
							const clear = corner.y <= box.top + 1e-6 || before.y >= box.top + box.height - 1e-6;
							expect(beside || clear, `${arrow.from} to ${arrow.to} crosses ${box.id}`).toBe(true);
						}
					});
				}
			}),
			{ numRuns: cases(80) },
		);
	});
});

const skills: readonly MapSkill[] = [
	{
		id: "hang",
		name: "Hang",
		needs: [],
		href: "../hang/",
		first: [
			{ level: "Beginners", week: 1 },
			{ level: "Level 1", week: 2 },
		],
	},
	{ id: "cast", name: "Cast", needs: ["front-support"], first: [] },
	{
		id: "glide",
		name: 'Glide <swing> & "float"',
		needs: ["hang"],
		href: "../glide/?a=1&b=2",
		first: [{ level: "Level 3", week: 3 }],
	},
	{
		id: "kip",
		name: "Kip",
		needs: ["glide", "hang", "cast"],
		href: "../kip/",
		first: [{ level: "Level 3", week: 7 }],
	},
	{ id: "circle", name: "Clear hip circle", needs: ["kip"] },
];
const options = { title: "Kip", description: "The way to the kip.", idPrefix: "map-kip", focus: "kip" };

describe("the map", () => {
	const map = drawProgressionMap(skills, options);
	const root = readSvg(map.svg);

	it("has a box for every skill, with its whole name and its weeks, linked to its page", () => {
		expect(faultsOf(map.svg, textWidth)).toEqual([]);
		const boxes = withClass(root, "map-box").map(textOf);
		expect(boxes).toHaveLength(5);
		for (const { name } of skills)
			expect(boxes.some((box) => box.replace(/\s/g, "").startsWith(name.replace(/\s/g, "")))).toBe(true);
		expect(withClass(root, "map-tag").map(textOf).sort()).toEqual(
			[
				"Beginners wk 1",
				"Level 1 wk 2",
				"Level 3 wk 3",
				"Level 3 wk 7",
				"needs 1 more",
				"not this term",
			].sort(),
		);
		const links = all(root).filter(({ name }) => name === "a");
		expect(links.map((link) => attribute(link, "href")).sort()).toEqual([
			"../glide/?a=1&b=2",
			"../hang/",
			"../kip/",
		]);
	});

	it("gives the focus a thick outline, and what is not taught a broken one", () => {
		const focus = withClass(root, "map-focus");
		expect(focus).toHaveLength(1);
		expect(textOf(focus[0] ?? root)).toContain("Kip");
		const outlines = withClass(root, "map-box").map(
			(box) => all(box).find(({ name }) => name === "rect") ?? box,
		);
		const widths = outlines.map((outline) => number(outline, "stroke-width"));
		expect(widths.filter((width) => width > 3)).toHaveLength(1);
		expect(widths.filter((width) => width < 2)).toHaveLength(4);
		expect(outlines.filter((outline) => outline.attributes.has("stroke-dasharray"))).toHaveLength(1);
	});

	it("draws redundant arrows broken and says so, or leaves them out", () => {
		expect(withClass(root, "map-arrow")).toHaveLength(5);
		expect(withClass(root, "map-redundant").map((arrow) => attribute(arrow, "stroke-dasharray"))).toEqual([
			"2 4",
		]);
		expect(withClass(root, "chart-legend").map(textOf)).toEqual(["first, thenalso directly"]);
		const without = readSvg(drawProgressionMap(skills, { ...options, redundant: "left out" }).svg);
		expect(withClass(without, "map-arrow")).toHaveLength(4);
		expect(withClass(without, "map-redundant")).toEqual([]);
	});

	it("says the same in words", () => {
		expect(map.items.map(({ id, place }) => `${id} ${place}`)).toEqual([
			"hang before",
			"cast before",
			"glide before",
			"kip focus",
			"circle after",
		]);
		expect(map.items.map(({ words }) => words)).toEqual([
			'Hang: Beginners from week 1, Level 1 from week 2; leads to Glide <swing> & "float" and Kip',
			"Cast: not this term; needs 1 more skill not shown here; leads to Kip",
			'Glide <swing> & "float": Level 3 from week 3; needs Hang; leads to Kip',
			'Kip: Level 3 from week 7; needs Glide <swing> & "float", Hang and Cast; leads to Clear hip circle',
			"Clear hip circle: needs Kip",
		]);
	});

	it("refuses no skills, an unknown focus and a circle", () => {
		expect(() => drawProgressionMap([], { ...options, focus: "kip" })).toThrow(RangeError);
		expect(() => drawProgressionMap(skills, { ...options, focus: "roll" })).toThrow(/roll/);
		const circle = [
			{ id: "a", name: "A", needs: ["b"] },
			{ id: "b", name: "B", needs: ["a"] },
		];
		expect(() => drawProgressionMap(circle, { title: "", description: "", idPrefix: "m" })).toThrow(
			/before itself/,
		);
	});

	it("holds for any graph and any names, the same every time", () => {
		const names = fc.array(
			fc.oneof(
				fc.constantFrom("Three-quarter handstand on the beam", 'A & "B" <C>'),
				fc.string({ minLength: 1, maxLength: 40 }),
			),
			{ minLength: 9, maxLength: 9 },
		);
		fc.assert(
			fc.property(graph, names, fc.boolean(), (nodes, given, links) => {
				const wild: MapSkill[] = nodes.map(({ id, needs }, i) => ({
					id,
					needs,
					name: given[i] ?? id,
					first: Array.from({ length: i % 4 }, (_, k) => ({ level: given[k] ?? "", week: k + 1 })),
					...(links ? { href: `../${id}/` } : {}),
				}));
				const drawn = drawProgressionMap(wild, { ...options, focus: nodes[0]?.id ?? "" });
				expect(faultsOf(drawn.svg, textWidth)).toEqual([]);
				expect(drawProgressionMap(wild, { ...options, focus: nodes[0]?.id ?? "" })).toEqual(drawn);
				expect(withClass(readSvg(drawn.svg), "map-box")).toHaveLength(nodes.length);
				expect(drawn.items.map(({ id }) => id)).toEqual(inOrder(nodes));
			}),
			{ numRuns: cases(60) },
		);
	});

	it("keeps a golden file", async () => {
		const two = drawProgressionMap(skills.slice(2, 4), options);
		await expect(`${two.svg.replace(/></g, ">\n<")}\n`).toMatchFileSnapshot("expected/progression-map.svg");
	});
});
