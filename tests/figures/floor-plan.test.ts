/**
 * Floor plans measured back from the drawing: everything to scale, in rotation order, named, inside its
 * frame; the legend is the equipment list.
 */

import { describe, expect, it } from "vitest";
import { floorPlanFigure } from "../../layouts/parts/floor-plan.ts";
import { equipmentForBlock } from "../../scripts/compute/equipment.ts";
import { FREE_SPACE } from "../../scripts/compute/placing.ts";
import { drawFloorPlan, isLong, METRE } from "../../scripts/figures/floor-plan.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import type { Block } from "../../scripts/model.ts";
import { type FloorPlanView, floorPlanView } from "../../scripts/render/views/floor-plan.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { REPOSITORY } from "../open-fixture.ts";
import { viewBoxOf } from "./read-svg.ts";

const { handbook } = openHandbook(REPOSITORY);
if (handbook === undefined) throw new Error("the demo club has errors");
const { curriculum } = handbook;

const all = curriculum.weeks.flatMap((week) =>
	week.apparatus.flatMap((plan) =>
		plan.blocks.flatMap((block) => {
			const view = floorPlanView(curriculum, week, plan, block);
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
			expect(arrows.split("M").length - 1).toBe(view.stations.length === 2 ? 3 : 2 * view.stations.length);
		}
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

/** A plan that does not change with the demo: one of everything that is drawn. */
const GOLDEN: FloorPlanView = {
	block: 1,
	apparatus: "Hall",
	week: 1,
	sources: [],
	stations: [{ name: "Jump" }, { name: "Walk" }],
	equipment: [
		{ item: "landing-mat", name: "Landing mat", count: 1, stations: [0], symbol: "landing" },
		{ item: "beam", name: "Beam", count: 1, stations: [1], symbol: "beam" },
	],
	plan: {
		length: 12,
		width: 6,
		border: 0,
		from: "club",
		crowding: [{ kind: "landing", stations: [1, 2], gap: 0.9 }],
		stations: [
			{
				number: 1,
				drill: "jump",
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
