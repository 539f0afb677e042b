/**
 * Order: what must come first, by level, week, rotation and block.
 *
 * Outside check: the dressing example of Cormen, Leiserson, Rivest and Stein, Introduction to
 * Algorithms (topological sort: nine garments, nine arrows, socks and shoes …). Every order that the
 * arrows allow passes and every order that breaks an arrow is named with just the broken arrows. The
 * count of valid orders, 1,728, is computed here from the arrows, not from a printed figure.
 */

import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type OrderRow, orderRows } from "../../scripts/compute/meeting-order.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import type { Curriculum } from "../../scripts/model.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

const GARMENTS = ["undershorts", "pants", "belt", "shirt", "tie", "jacket", "socks", "shoes", "watch"];
const ARROWS: readonly (readonly [string, string])[] = [
	["undershorts", "pants"],
	["undershorts", "shoes"],
	["pants", "shoes"],
	["pants", "belt"],
	["belt", "jacket"],
	["shirt", "belt"],
	["shirt", "tie"],
	["tie", "jacket"],
	["socks", "shoes"],
];

/** A club that teaches the garments in an order, one a week. */
function dressingClub(order: readonly string[]): string {
	const dir = clubCopy(undefined, join(FIXTURES, "clubs/ten-drills"));
	mkdirSync(join(dir, "_data"), { recursive: true });
	mkdirSync(join(dir, "content/weeks"), { recursive: true });
	const needs = (id: string) => ARROWS.filter(([, to]) => to === id).map(([from]) => from);
	writeFileSync(
		join(dir, "_data/skills.yaml"),
		GARMENTS.map((id) => `- {id: ${id}, name: ${id}, needs: [${needs(id).join(", ")}]}\n`).join(""),
	);
	for (const id of GARMENTS) {
		writeFileSync(
			join(dir, `content/drills/floor/put-on-${id}.md`),
			`---\ntitle: Put on ${id}\napparatus: floor\nlevels: [one]\nskills: [${id}]\n---\n`,
		);
	}
	for (const [i, id] of order.entries()) {
		writeFileSync(
			join(dir, `content/weeks/w${i + 1}.md`),
			`---\nweek: ${i + 1}\ntheme: ${id}\napparatus: {floor: {blocks: [{drill: put-on-${id}, minutes: 5}]}}\n---\n`,
		);
	}
	return dir;
}

function brokenArrows(order: readonly string[]): readonly string[] {
	const { handbook, problems } = openHandbook(dressingClub(order));
	expect(problems).toEqual([]);
	if (handbook === undefined) throw new Error("the dressing club has errors");
	return unmet(handbook.curriculum).map((row) => `${row.id} → ${row.skill}`);
}

function unmet(curriculum: Curriculum): readonly OrderRow[] {
	return orderRows(curriculum).filter((row) => row.met === "no");
}

/** The number of orders the arrows allow, by counting over sets. */
function validOrders(): number {
	const index = new Map(GARMENTS.map((id, i) => [id, i]));
	const before = GARMENTS.map((id) =>
		ARROWS.filter(([, to]) => to === id).reduce((set, [from]) => set | (1 << (index.get(from) ?? 0)), 0),
	);
	const ways = new Array<number>(1 << GARMENTS.length).fill(0);
	ways[0] = 1;
	for (let set = 0; set < ways.length; set++) {
		for (let next = 0; next < GARMENTS.length; next++) {
			if (set & (1 << next) || ((before[next] ?? 0) & set) !== (before[next] ?? 0)) continue;
			const to = set | (1 << next);
			ways[to] = (ways[to] ?? 0) + (ways[set] ?? 0);
		}
	}
	return ways[ways.length - 1] ?? 0;
}

describe("the dressing example", () => {
	it("has 1,728 valid orders", () => {
		expect(validOrders()).toBe(1728);
	});

	it("takes valid orders without a word", () => {
		expect(
			brokenArrows(["socks", "undershorts", "pants", "shoes", "watch", "shirt", "belt", "tie", "jacket"]),
		).toEqual([]);
		expect(
			brokenArrows(["watch", "shirt", "tie", "socks", "undershorts", "pants", "belt", "jacket", "shoes"]),
		).toEqual([]);
	});

	it("names every broken arrow of an order, and no other", () => {
		const order = ["shoes", "jacket", "belt", "tie", "shirt", "pants", "undershorts", "socks", "watch"];
		const broken = ARROWS.filter(([from, to]) => order.indexOf(from) > order.indexOf(to)).map(
			([from, to]) => `${from} → ${to}`,
		);
		expect([...brokenArrows(order)].sort()).toEqual([...broken].sort());
		expect(broken).toHaveLength(9);
	});

	it("finds random orders exactly as the arrows say", () => {
		for (let seed = 1; seed <= 12; seed++) {
			const order = shuffled(GARMENTS, seed);
			const broken = ARROWS.filter(([from, to]) => order.indexOf(from) > order.indexOf(to)).map(
				([from, to]) => `${from} → ${to}`,
			);
			expect([...brokenArrows(order)].sort()).toEqual([...broken].sort());
		}
	});
});

function shuffled(items: readonly string[], seed: number): readonly string[] {
	let state = seed;
	const next = () => (state = (state * 48271) % 2147483647);
	return [...items]
		.map((item) => ({ item, key: next() }))
		.sort((a, b) => a.key - b.key)
		.map(({ item }) => item);
}

describe("within one week", () => {
	const week = (floor: string, beam: string, classes: string) => {
		const dir = clubCopy(undefined, join(FIXTURES, "clubs/ten-drills"));
		mkdirSync(join(dir, "_data"), { recursive: true });
		mkdirSync(join(dir, "content/weeks"), { recursive: true });
		const write = (path: string, text: string) => writeFileSync(join(dir, path), text);
		write("_data/apparatus.yaml", "- {id: floor, name: Floor}\n- {id: beam, name: Beam}\n");
		write("_data/levels.yaml", "- {id: one, name: One}\n- {id: two, name: Two, entry: [easy]}\n");
		write("_data/skills.yaml", "- {id: easy, name: Easy}\n- {id: hard, name: Hard, needs: [easy]}\n");
		write("_data/term.yaml", `name: T\nstarts: 2027-01-04\nweeks: 2\nclasses: ${classes}\n`);
		for (const id of ["easy", "hard", "easy-hard"]) {
			write(
				`content/drills/floor/do-${id}.md`,
				`---\ntitle: ${id}\napparatus: [floor, beam]\nlevels: [one, two]\nskills: [${id === "easy-hard" ? "easy, hard" : id}]\n---\n`,
			);
		}
		write(
			"content/weeks/w1.md",
			`---\nweek: 1\ntheme: T\napparatus:\n  floor: {blocks: [${floor}]}\n  beam: {blocks: [${beam}]}\n---\n`,
		);
		const { handbook, problems } = openHandbook(dir);
		expect(problems).toEqual([]);
		if (handbook === undefined) throw new Error("the club has errors");
		const hasClasses = handbook.curriculum.term.classes.length > 0;
		return unmet(handbook.curriculum).map(
			(row) => `${row.level} ${row.id} → ${row.skill}${hasClasses ? ` ${row.group.name}` : ""}`,
		);
	};
	const easy = "{drill: do-easy, minutes: 5}";
	const hard = "{drill: do-hard, minutes: 5}";

	it("goes by block on one apparatus", () => {
		expect(week(`${easy}, ${hard}`, "", "[]")).toEqual([]);
		expect(week(`${hard}, ${easy}`, "", "[]")).toEqual(["one easy → hard"]);
	});

	it("stations of one block are at the same time", () => {
		expect(week("{stations: [{drill: do-easy}, {drill: do-hard}], minutes: 8}", "", "[]")).toEqual([
			"one easy → hard",
		]);
	});

	it("goes by the order of the apparatus without classes", () => {
		expect(week(easy, hard, "[]")).toEqual([]);
		expect(week(hard, easy, "[]")).toEqual(["one easy → hard"]);
	});

	it("goes by the rotation of each class, and names the classes it is wrong for", () => {
		const classes =
			"[{id: a, level: one, rotation: [beam, floor]}, {id: b, level: one, rotation: [floor, beam]}]";
		expect(week(easy, hard, classes)).toEqual(["one easy → hard a"]);
	});

	it("is content where the same drill teaches both", () => {
		expect(week("{drill: do-easy-hard, minutes: 5}", "", "[]")).toEqual([]);
	});

	it("says what is never taught at all", () => {
		expect(week(hard, "", "[]")).toEqual(["one easy → hard"]);
	});
});
