/**
 * Floor plans measured back from the drawing: everything to scale, in rotation order, named, inside its
 * frame; the legend is the equipment list.
 */

import { describe, expect, it } from "vitest";
import { floorPlanFigure } from "../../layouts/parts/floor-plan.ts";
import { equipmentForBlock } from "../../scripts/compute/equipment.ts";
import { crosses, routesOf } from "../../scripts/compute/floor-routes.ts";
import { type FloorPlan, FREE_SPACE } from "../../scripts/compute/placing.ts";
import { waitingOf } from "../../scripts/compute/waiting.ts";
import { textWidth } from "../../scripts/figures/chart-frame.ts";
import { drawFloorPlan, isLong, METRE } from "../../scripts/figures/floor-plan.ts";
import type { Block, Side } from "../../scripts/model.ts";
import { type FloorPlanView, floorPlanView } from "../../scripts/views/floor-plan.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { demoHandbook } from "../demo.ts";
import { pointsOf, viewBoxOf } from "./read-svg.ts";

const { curriculum, words } = demoHandbook();

const all = curriculum.weeks.flatMap((week) =>
	week.apparatus.flatMap((plan) =>
		plan.blocks.flatMap((block) => {
			const view = floorPlanView(curriculum, week, plan, block, words);
			return view === undefined ? [] : [{ week, plan, block, view }];
		}),
	),
);

const optionsOf = (view: FloorPlanView, upright = false) => ({
	title: `Floor plan: ${view.apparatus}, week ${view.week}, block ${view.block}`,
	description: "",
	idPrefix: "p",
	format: String,
	stations: view.stations.map(({ name }, i) => ({ label: String(i + 1), name })),
	equipment: view.equipment,
	...(view.coaches && { coaches: view.coaches.spots }),
	upright,
});

interface DrawnRect {
	readonly x: number;
	readonly y: number;
	readonly width: number;
	readonly height: number;
}

function rectsOf(svg: string, className: string): readonly DrawnRect[] {
	const found = svg.matchAll(
		new RegExp(
			`<rect class="${className}"[^>]*? x="([^"]+)" y="([^"]+)" width="([^"]+)" height="([^"]+)"`,
			"g",
		),
	);
	return [...found].map(([, x, y, width, height]) => ({
		x: Number(x),
		y: Number(y),
		width: Number(width),
		height: Number(height),
	}));
}

describe("a floor plan", () => {
	it("is drawn for every block of stations of the demo, and for none of one drill", () => {
		const blocks = curriculum.weeks.flatMap((w) => w.apparatus.flatMap((p): readonly Block[] => p.blocks));
		expect(all).toHaveLength(blocks.filter(({ kind }) => kind === "stations").length);
		expect(all.length).toBeGreaterThan(80);
	});

	it("is to scale: stations stand and measure as many metres as they should", () => {
		for (const { view } of all) {
			const { svg } = drawFloorPlan(view.plan, optionsOf(view));
			const drawn = rectsOf(svg, "plan-station");
			expect(drawn).toHaveLength(view.plan.stations.length);
			const [first] = drawn;
			const [origin] = view.plan.stations;
			if (first === undefined || origin === undefined) throw new Error("a plan without stations");
			for (const [i, station] of view.plan.stations.entries()) {
				const rect = drawn[i];
				if (rect === undefined) throw new Error("a station is missing");
				expect(rect.width / METRE).toBeCloseTo(station.length, 1);
				expect(rect.height / METRE).toBeCloseTo(station.width, 1);
				expect((rect.x - first.x) / METRE).toBeCloseTo(station.left - origin.left, 1);
				expect((rect.y - first.y) / METRE).toBeCloseTo(station.top - origin.top, 1);
			}
			const [metre = "", rest = ""] =
				/<g class="plan-scale" data-metre="20">(<rect[^>]*>)(<rect[^>]*>)/.exec(svg)?.slice(1) ?? [];
			expect(metre).toContain(`width="${METRE}"`);
			expect(rest).toContain(`width="${4 * METRE}"`);
		}
	});

	it("numbers the stations in rotation order, with an arrow from each to the next and back", () => {
		for (const { view } of all) {
			const { svg } = drawFloorPlan(view.plan, optionsOf(view));
			const labels = [...svg.matchAll(/<g class="plan-label"[^>]*>.*?<text[^>]*>([^<]*)<\/text>/g)].map(
				(m) => m[1],
			);
			expect(labels).toEqual(view.stations.map((_, i) => String(i + 1)));
			const arrows = /class="plan-arrow" d="([^"]*)"/.exec(svg)?.[1] ?? "";
			// Each arrow is a line and a head, each begun by its own move.
			expect(arrows.split("M").length - 1).toBe(2 * view.stations.length);
		}
	});

	it("shows who waits, every coach, and what stays clear beyond an open edge, named where there is room", () => {
		let named = 0;
		for (const { view } of all) {
			const { svg } = drawFloorPlan(view.plan, optionsOf(view));
			const lines = waitingOf(view.plan);
			expect(svg.match(/class="plan-queue"/g) ?? []).toHaveLength(lines.length);
			const dots = [...svg.matchAll(/<g class="plan-queue".*?<\/g>/g)].flatMap(
				([g]) => g.match(/<circle/g) ?? [],
			);
			expect(dots).toHaveLength(lines.reduce((sum, { spots }) => sum + spots.length, 0));
			const standing = (view.coaches?.spots ?? []).filter(({ at }) => at !== undefined);
			expect(svg.match(/class="plan-coach"/g) ?? []).toHaveLength(standing.length);
			named += svg.match(/>keep clear</g)?.length ?? 0;
		}
		expect(named).toBeGreaterThan(10);
	});

	it("keeps everything inside its frame", () => {
		for (const { view } of all) {
			for (const upright of [false, true]) {
				const { svg } = drawFloorPlan(view.plan, optionsOf(view, upright));
				const [, , width, height] = viewBoxOf(svg);
				for (const rect of [...rectsOf(svg, "plan-station"), ...rectsOf(svg, "plan-free")]) {
					expect(rect.x).toBeGreaterThanOrEqual(0);
					expect(rect.y).toBeGreaterThanOrEqual(0);
					expect(rect.x + rect.width).toBeLessThanOrEqual(width);
					expect(rect.y + rect.height).toBeLessThanOrEqual(height);
				}
			}
		}
	});

	it("has an arrow for each way, over free floor and never over a station", () => {
		for (const { view } of all) {
			for (const upright of [false, true]) {
				const { svg } = drawFloorPlan(view.plan, optionsOf(view, upright));
				const stations = rectsOf(svg, "plan-station");
				const moves = (/class="plan-arrow" d="([^"]*)"/.exec(svg)?.[1] ?? "").split("M").slice(1);
				expect(moves).toHaveLength(2 * stations.length);
				for (const [i, move] of moves.entries()) {
					// Every second one is a head.
					if (i % 2 === 1) continue;
					const spots = move.split("L").map((at) => {
						const [x = Number.NaN, y = Number.NaN] = at.split(" ").map(Number);
						return { x, y };
					});
					for (const [j, to] of spots.slice(1).entries()) {
						for (const { x, y, width, height } of stations) {
							// Drawn to a tenth of a unit.
							const ground = { left: x + 0.2, top: y + 0.2, length: width - 0.4, width: height - 0.4 };
							expect(crosses(spots[j] ?? to, to, ground)).toBe(false);
						}
					}
				}
			}
		}
	});

	it("draws every wall along its side, and every landmark with its name on its spot inside the plan", () => {
		let walls = 0;
		let landmarks = 0;
		for (const { plan } of [...all.map(({ view }) => view), GOLDEN, CROWDED]) {
			for (const upright of [false, true]) {
				const { svg } = drawFloorPlan(
					plan,
					optionsOf({ ...GOLDEN, plan, stations: plan.stations.map(() => ({ name: "" })) }, upright),
				);
				const { edges, drawnWalls, flags, names } = readMarks(svg, plan, upright);
				const sides = { start: "right", end: "left", left: "start", right: "end" } as const;
				expect(drawnWalls.map(({ side }) => side)).toEqual(
					plan.walls.map((side) => (upright ? sides[side] : side)),
				);
				for (const { side, points, word } of drawnWalls) {
					walls++;
					expect(word).toBe("wall");
					for (const [x, y] of points) {
						const beside = {
							start: edges.left - x,
							end: x - edges.right,
							left: edges.top - y,
							right: y - edges.bottom,
						};
						// Just outside its own side, as long as the plan, and at most round its corners.
						expect(beside[side]).toBeGreaterThan(0);
						expect(beside[side]).toBeLessThan(14);
						expect(Math.max(edges.left - x, x - edges.right, edges.top - y, y - edges.bottom)).toBeLessThan(
							14,
						);
					}
				}
				expect(names.map(({ words }) => words)).toEqual(plan.landmarks.map(({ name }) => name));
				for (const [i, { at }] of plan.landmarks.entries()) {
					landmarks++;
					const [across, down] = upright ? [at[1], plan.length - at[0]] : at;
					expect(flags[i]?.x).toBeCloseTo(edges.left + across * METRE, 0);
					expect(flags[i]?.y).toBeCloseTo(edges.top + down * METRE, 0);
					expect(
						inside(names[i]?.area, edges),
						`${plan.landmarks[i]?.name} ${upright} ${JSON.stringify(names[i])} ${JSON.stringify(edges)}`,
					).toBe(true);
				}
			}
		}
		expect(walls).toBeGreaterThan(300);
		expect(landmarks).toBeGreaterThan(900);
	});

	it("has no label that covers another: stations' labels, names, flags, the words of walls", () => {
		for (const { plan } of [...all.map(({ view }) => view), GOLDEN, CROWDED]) {
			for (const upright of [false, true]) {
				const { svg } = drawFloorPlan(
					plan,
					optionsOf({ ...GOLDEN, plan, stations: plan.stations.map(() => ({ name: "" })) }, upright),
				);
				const { drawnWalls, flags, names, discs } = readMarks(svg, plan, upright);
				const labels = [
					...discs.map(({ x, y }, i) => ({
						what: `station ${i + 1}`,
						area: { left: x - 9, right: x + 9, top: y - 9, bottom: y + 9 },
					})),
					...names.map(({ words, area }) => ({ what: words, area })),
					...flags.map(({ x, y }, i) => ({
						what: `flag ${i + 1}`,
						area: { left: x - 1, right: x + 8, top: y - 13, bottom: y + 2 },
					})),
					...drawnWalls.map(({ side, wordArea }) => ({ what: `wall ${side}`, area: wordArea })),
				];
				const covered = labels.flatMap((a, i) =>
					labels.slice(i + 1).flatMap((b) => {
						const over =
							a.area.left < b.area.right &&
							b.area.left < a.area.right &&
							a.area.top < b.area.bottom &&
							b.area.top < a.area.bottom;
						return over ? [`${a.what} and ${b.what}`] : [];
					}),
				);
				expect(covered).toEqual([]);
			}
		}
	});

	it("leaves what is set up around a landmark in sight", () => {
		// Shares of names that lie on props; a flag in the middle of a wide mat has its name on it.
		const shares = all.flatMap(({ view }) => {
			const { names, edges } = readMarks(drawFloorPlan(view.plan, optionsOf(view)).svg, view.plan, false);
			const props = view.plan.stations.flatMap(({ props }) => props);
			return names.map(({ area }) => {
				const covered = props.map(({ left, top, length, width }) => {
					const x = edges.left + left * METRE;
					const y = edges.top + top * METRE;
					const across = Math.min(area.right, x + length * METRE) - Math.max(area.left, x);
					const down = Math.min(area.bottom, y + width * METRE) - Math.max(area.top, y);
					return Math.max(0, across) * Math.max(0, down);
				});
				const own = (area.right - area.left) * (area.bottom - area.top);
				return covered.reduce((sum, one) => sum + one, 0) / own;
			});
		});
		expect(shares.length).toBeGreaterThan(300);
		expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeLessThan(0.07);
	});

	it("tells its walls and landmarks, and which way is shut, to who does not see it", () => {
		const described = (plan: FloorPlan, words?: Parameters<typeof drawFloorPlan>[1]["words"]) =>
			/<desc id="p-desc">([^<]*)</.exec(
				drawFloorPlan(plan, { ...optionsOf(GOLDEN), ...(words && { words }) }).svg,
			)?.[1] ?? "";
		const told = described(GOLDEN.plan);
		expect(told).toContain("A wall stands where the length ends and where the width ends.");
		expect(told).toContain("Landmarks: store door at 11.5, 5 m; clock at 3, 4.5 m.");
		expect(described({ ...GOLDEN.plan, walls: [], landmarks: [] })).not.toMatch(/wall|Landmarks/);
		const french = described(GOLDEN.plan, wordsFor("fr").floorPlan.drawing);
		expect(french).toContain("Un mur se trouve au bout de la longueur et au bout de la largeur.");
		expect(french).toMatch(/Repères.: store door à 11,5 m en longueur et 5 m en largeur/);
		const [one, two] = GOLDEN.plan.stations;
		if (one === undefined || two === undefined) throw new Error("two stations are in the plan");
		const shut: FloorPlan = {
			...GOLDEN.plan,
			walls: ["start", "end", "left", "right"],
			stations: [
				{ ...one, left: 0, top: 0, length: 6, width: 6, props: [], run: undefined },
				{ ...two, left: 6, top: 0, length: 6, width: 6, props: [] },
			],
		};
		expect(described(shut)).toContain("There is no free way from 1 to 2. There is no free way from 2 to 1.");
		const { text } = floorPlanFigure(
			wordsFor("en"),
			{ ...GOLDEN, plan: shut, blocked: routesOf(shut).filter(({ way }) => way.length === 0) },
			{ idPrefix: "p", upright: false },
		);
		expect(text).toContain("thick line: wall; flag: landmark; no free way from 1 to 2 and 2 to 1.");
		for (const { view } of all) {
			const whole = described(view.plan);
			for (const { name } of view.plan.landmarks) expect(whole).toContain(`${name} at `);
			expect(whole.includes("A wall stands")).toBe(view.plan.walls.length > 0);
		}
	});

	it("shows the free space around landing areas, cut off at the edge", () => {
		const found = all.find(({ view }) =>
			view.plan.stations.some(({ props }) => props.some(({ landing }) => landing)),
		);
		if (found === undefined) throw new Error("the demo has no landing area");
		const { svg } = drawFloorPlan(found.view.plan, optionsOf(found.view));
		const landings = found.view.plan.stations.flatMap(({ props }) => {
			const own = props.filter(({ landing }) => landing);
			return own.length === 0 ? [] : [own];
		});
		const drawn = rectsOf(svg, "plan-free");
		expect(drawn).toHaveLength(landings.length);
		for (const [i, own] of landings.entries()) {
			const right = Math.max(...own.map((p) => p.left + p.length)) + FREE_SPACE.landing;
			const left = Math.min(...own.map((p) => p.left)) - FREE_SPACE.landing;
			const expected = Math.min(right, found.view.plan.length) - Math.max(left, 0);
			expect((drawn[i]?.width ?? 0) / METRE).toBeCloseTo(expected, 1);
		}
	});

	it("stands upright turned and not mirrored", () => {
		const vault = all.find(({ view }) => isLong(view.plan));
		if (vault === undefined) throw new Error("the demo has no long plan");
		const { plan } = vault.view;
		const lying = rectsOf(drawFloorPlan(plan, optionsOf(vault.view)).svg, "plan-station");
		const standing = rectsOf(drawFloorPlan(plan, optionsOf(vault.view, true)).svg, "plan-station");
		for (const [i, flat] of lying.entries()) {
			const turned = standing[i];
			const station = plan.stations[i];
			if (turned === undefined || station === undefined) throw new Error("a station is missing");
			expect([turned.width, turned.height]).toEqual([flat.height, flat.width]);
			// What lies right of the first by some metres stands above it by as many.
			const first = { flat: lying[0]?.x ?? 0, turned: standing[0]?.y ?? 0, height: standing[0]?.height ?? 0 };
			expect(first.turned + first.height - (turned.y + turned.height)).toBeCloseTo(flat.x - first.flat, 0);
			expect(turned.x - (standing[0]?.x ?? 0)).toBeCloseTo(flat.y - (lying[0]?.y ?? 0), 0);
		}
	});

	it("has a title and a description with every station, and what is too near", () => {
		for (const { view } of all) {
			const { svg } = drawFloorPlan(view.plan, optionsOf(view));
			expect(svg).toMatch(/<svg[^>]* role="img" aria-labelledby="p-title" aria-describedby="p-desc"/);
			const description = /<desc id="p-desc">([^<]*)<\/desc>/.exec(svg)?.[1] ?? "";
			for (const { name } of view.stations) expect(description).toContain(name.replace(/&/g, "&#38;"));
		}
		const [one] = all;
		if (one === undefined) throw new Error("the demo has no plan");
		const crowded = {
			...one.view.plan,
			crowding: [{ kind: "between" as const, stations: [1, 2], gap: 0.4 }],
		};
		const { svg } = drawFloorPlan(crowded, optionsOf(one.view));
		expect(svg).toContain("Only 0.4 m between 1 and 2.");
		expect(rectsOf(svg, "plan-station").length).toBe(crowded.stations.length);
		expect(svg.match(/stroke="var\(--wrong/g)?.length).toBe(2);
	});

	it("has the block's equipment list as its legend", () => {
		for (const { plan, block, view } of all) {
			const { legend } = drawFloorPlan(view.plan, optionsOf(view));
			expect(legend.map(({ item, count }) => [item, count])).toEqual(
				equipmentForBlock(curriculum, plan, block).map(({ item, needed }) => [item, needed]),
			);
			for (const { item, stations } of legend) {
				// As the block's levels do the drill: a level may use other things.
				const users = block.stations.flatMap(({ drill: id }, i) => {
					const drill = curriculum.drills.get(id);
					const levels = [...(drill?.levels ?? [])].filter(
						([level]) => block.levels.length === 0 || block.levels.includes(level),
					);
					const needs = levels.flatMap(([, own]) => own.equipment ?? drill?.equipment ?? []);
					return needs.some((need) => need.item === item) ? [String(i + 1)] : [];
				});
				expect(stations).toEqual(users);
			}
		}
	});

	it("escapes what a club writes", () => {
		const [one] = all;
		if (one === undefined) throw new Error("the demo has no plan");
		const view: FloorPlanView = {
			...one.view,
			stations: one.view.stations.map(() => ({ name: `<script>alert("1")</script>` })),
			equipment: one.view.equipment.map((item) => ({ ...item, name: "<b>mat</b>" })),
		};
		const { text } = floorPlanFigure(wordsFor("en"), view, { idPrefix: "p", upright: false });
		expect(text).not.toMatch(/<script|<b>mat/);
	});

	it("is drawn as it was last looked at", async () => {
		const { svg } = drawFloorPlan(GOLDEN.plan, optionsOf(GOLDEN));
		await expect(`${svg.replace(/></g, ">\n<")}\n`).toMatchFileSnapshot("expected/floor-plan.svg");
	});
});

interface Area {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

const inside = (area: Area | undefined, of: Area): boolean =>
	area !== undefined &&
	area.left >= of.left &&
	area.right <= of.right &&
	area.top >= of.top &&
	area.bottom <= of.bottom;

/** Walls, landmarks and labels, read back from the drawing; words are as wide as common text faces make them. */
function readMarks(svg: string, plan: FloorPlan, upright: boolean) {
	const [, left = 0, top = 0] = (
		/<rect x="([^"]+)" y="([^"]+)"[^>]*fill="var\(--figure-paper,Canvas\)" stroke="currentColor"\/><path class="plan-grid"/.exec(
			svg,
		) ?? []
	).map(Number);
	const edges: Area = {
		left,
		top,
		right: left + (upright ? plan.width : plan.length) * METRE,
		bottom: top + (upright ? plan.length : plan.width) * METRE,
	};
	const drawnWalls = [
		...svg.matchAll(
			/<g class="plan-wall" data-side="(\w+)"><path d="([^"]*)"[^>]*\/><g[^>]*><text x="([^"]+)" y="([^"]+)"[^>]*>([^<]*)<\/text>/g,
		),
	].map(([, side = "", d = "", x, y, word = ""]) => {
		const half = textWidth(word, 11, true) / 2;
		const [cx, cy] = [Number(x), Number(y) - 3.8];
		const stands = side === "start" || side === "end";
		return {
			side: side as Side,
			points: pointsOf(d).map((spot) => [spot.x, spot.y] as const),
			word,
			wordArea: stands
				? { left: cx - 5, right: cx + 5, top: cy - half, bottom: cy + half }
				: { left: cx - half, right: cx + half, top: cy - 5, bottom: cy + 5 },
		};
	});
	const groups = [
		...svg.matchAll(
			/<g class="plan-landmark">(?:<path[^>]*>)?<g transform="translate\(([\d.-]+) ([\d.-]+)\)"[^>]*>.*?<\/g><path[^>]*>((?:<text[^>]*>[^<]*<\/text>)+)<\/g>/g,
		),
	];
	const names = groups.map(([, , , texts = ""]) => {
		const lines = [...texts.matchAll(/x="([^"]+)" y="([^"]+)"[^>]*>([^<]*)</g)].map(
			([, x, y, words = ""]) => ({
				x: Number(x),
				y: Number(y),
				words,
			}),
		);
		const wide = Math.max(...lines.map(({ words }) => textWidth(words, 11))) / 2;
		const [first] = lines;
		const last = lines.at(-1);
		if (first === undefined || last === undefined) throw new Error("a landmark without a name");
		return {
			words: lines.map(({ words }) => words).join(" "),
			area: { left: first.x - wide, right: first.x + wide, top: first.y - 9, bottom: last.y + 2.5 },
		};
	});
	const spotsOf = (pattern: RegExp) =>
		[...svg.matchAll(pattern)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));
	return {
		edges,
		drawnWalls,
		names,
		flags: groups.map(([, x, y]) => ({ x: Number(x), y: Number(y) })),
		discs: spotsOf(/<g class="plan-label" transform="translate\(([\d.-]+) ([\d.-]+)\)"/g),
	};
}

/** A plan that does not change with the demo: one of everything that is drawn. */
const GOLDEN: FloorPlanView = {
	block: 1,
	apparatus: "Hall",
	week: 1,
	sources: [],
	blocked: [],
	free: FREE_SPACE,
	waits: false,
	coaches: {
		group: "Monday",
		spots: [
			{ coach: 1, does: "spots", stations: [1], at: { x: 4, y: 2.6 } },
			{ coach: 2, does: "watches", stations: [2], at: { x: 8, y: 4.5 } },
		],
	},
	stations: [{ name: "Jump" }, { name: "Walk" }],
	equipment: [
		{ item: "landing-mat", name: "Landing mat", count: 1, stations: [0], symbol: "landing" },
		{ item: "beam", name: "Beam", count: 1, stations: [1], symbol: "beam" },
	],
	plan: {
		length: 12,
		width: 6,
		border: 0,
		walls: ["end", "right"],
		landmarks: [
			{ name: "store door", at: [11.5, 5] },
			{ name: "clock", at: [3, 4.5] },
		],
		from: "club",
		crowding: [{ kind: "landing", stations: [1, 2], gap: 0.9 }],
		stations: [
			{
				number: 1,
				drill: "jump",
				queue: 3,
				left: 0.5,
				top: 1,
				length: 4.1,
				width: 2,
				props: [
					{
						item: "board",
						symbol: "board",
						left: 0.5,
						top: 1.5,
						length: 1.2,
						width: 0.6,
						turn: 0,
						landing: false,
					},
					{
						item: "mat",
						symbol: "landing",
						left: 2.6,
						top: 1,
						length: 2,
						width: 1.5,
						turn: 0,
						landing: true,
					},
				],
				run: { left: 0.5, top: 1, length: 0.5, width: 1, turn: 0 },
				written: true,
				fromWall: undefined,
			},
			{
				number: 2,
				drill: "walk",
				left: 5.5,
				top: 1,
				length: 5,
				width: 1.5,
				props: [
					{
						item: "beam",
						symbol: "beam",
						left: 5.5,
						top: 1.5,
						length: 5,
						width: 0.1,
						turn: 0,
						landing: false,
					},
					{
						item: "wedge",
						symbol: "wedge",
						left: 6,
						top: 2,
						length: 0.6,
						width: 0.4,
						turn: 1,
						landing: false,
					},
				],
				run: undefined,
				written: false,
				fromWall: undefined,
			},
		],
	},
};

/** Landmarks beside each other, in corners, under stations and with a long name; a wall on every side. */
const CROWDED: FloorPlanView = {
	...GOLDEN,
	plan: {
		...GOLDEN.plan,
		crowding: [],
		walls: ["start", "end", "left", "right"],
		landmarks: [
			{ name: "door", at: [0, 0] },
			{ name: "clock", at: [12, 0] },
			{ name: "ropes", at: [12, 6] },
			{ name: "bench", at: [0, 6] },
			{ name: "first-aid box beside the small store", at: [6, 3.5] },
			{ name: "tap", at: [7, 3.5] },
			{ name: "red line", at: [0.5, 1] },
			{ name: "beam end", at: [5.5, 1] },
		],
	},
};
