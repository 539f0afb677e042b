/** What is easier and harder than a drill, on drills made for it. */

import { describe, expect, it } from "vitest";
import type { Dose, Id, LinkedDrill } from "../../scripts/model.ts";
import { progressionsIn } from "../../scripts/views/progressions.ts";

const LEVELS = ["one", "two", "three"];

interface Made {
	readonly levels: readonly Id[];
	readonly skills?: readonly Id[];
	readonly apparatus?: readonly Id[];
	readonly after?: readonly Id[];
	readonly next?: readonly Id[];
	readonly partners?: readonly Id[];
}

function source(made: Readonly<Record<Id, Made>>) {
	const drills = new Map(
		Object.entries(made).map(([id, drill]): [Id, LinkedDrill] => [
			id,
			{
				id,
				title: id,
				apparatus: drill.apparatus ?? ["floor"],
				levels: new Map(drill.levels.map((level): [Id, Dose] => [level, {}])),
				aliases: [],
				shapes: [],
				sequence: [],
				skills: drill.skills ?? ["roll"],
				performs: [],
				elements: [],
				ready: [],
				purpose: [],
				easier: [],
				harder: [],
				after: drill.after ?? [],
				next: drill.next ?? [],
				partners: drill.partners ?? [],
				planned: [],
				equipment: [],
				heights: new Map(),
				cues: [],
				faults: [],
				media: [],
				body: "",
				source: {
					file: `${id}.md`,
					place: () => ({ file: `${id}.md`, line: 1, column: 1 }),
					bodyPlace: () => ({ file: `${id}.md`, line: 1, column: 1 }),
				},
			},
		]),
	);
	const skills = new Map(
		[...new Set([...drills.values()].flatMap((d) => d.skills))].map((skill) => [
			skill,
			{ drills: [...drills.values()].filter((d) => d.skills.includes(skill)).map((d) => d.id) },
		]),
	);
	return {
		drills,
		skills,
		levelRank: new Map(LEVELS.map((id, i) => [id, i])),
		drillRank: new Map([...drills.keys()].map((id, i) => [id, i])),
	};
}

function around(made: Readonly<Record<Id, Made>>, id: Id, most?: number) {
	const from = source(made);
	const drill = from.drills.get(id);
	if (drill === undefined) throw new Error(id);
	const { easier, harder } = progressionsIn(from, most)(drill);
	return { easier: easier.map((s) => s.drill), harder: harder.map((s) => s.drill) };
}

describe("progressions", () => {
	it("go down to lower levels and up to higher ones of the same skill", () => {
		const made = {
			here: { levels: ["two"] },
			lower: { levels: ["one"] },
			higher: { levels: ["three"] },
			same: { levels: ["two"] },
			otherSkill: { levels: ["one"], skills: ["jump"] },
		};
		expect(around(made, "here")).toEqual({ easier: ["lower"], harder: ["higher"] });
	});

	it("leave out what fits both ways", () => {
		expect(around({ here: { levels: ["two"] }, wide: { levels: LEVELS } }, "here")).toEqual({
			easier: [],
			harder: [],
		});
	});

	it("put what a drill says itself first, whatever its level, and only once", () => {
		const made = {
			here: { levels: ["two"], after: ["told"], next: ["later"] },
			lower: { levels: ["one"] },
			told: { levels: ["three"] },
			later: { levels: ["one"] },
		};
		expect(around(made, "here")).toEqual({ easier: ["told", "lower"], harder: ["later"] });
	});

	it("name neither the drill itself nor its partner", () => {
		expect(
			around({ here: { levels: ["two"], partners: ["twin"] }, twin: { levels: ["one"] } }, "here").easier,
		).toEqual([]);
	});

	it("put drills on the same apparatus first, then those with more in common", () => {
		const made = {
			here: { levels: ["two"], skills: ["roll", "jump"] },
			far: { levels: ["one"], skills: ["roll", "jump"], apparatus: ["beam"] },
			near: { levels: ["one"] },
			nearest: { levels: ["one"], skills: ["roll", "jump"] },
		};
		expect(around(made, "here").easier).toEqual(["nearest", "near", "far"]);
	});

	it("stop at the most that is wanted, but never drop what is written", () => {
		const made = {
			here: { levels: ["two"], after: ["a", "b", "c"] },
			a: { levels: ["one"] },
			b: { levels: ["one"] },
			c: { levels: ["one"] },
			d: { levels: ["one"] },
		};
		expect(around(made, "here", 2).easier).toEqual(["a", "b", "c"]);
	});
});
