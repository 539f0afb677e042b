/** A change list written into the files reads as the same list followed in memory. */

import { describe, expect, it } from "vitest";
import { changePlan } from "../../scripts/edit/change-plan.ts";
import { changeTexts } from "../../scripts/edit/change-texts.ts";
import { type ClubTexts, readTexts } from "../../scripts/edit/club-texts.ts";
import { EditRefused } from "../../scripts/edit/move-block.ts";
import { changeList } from "../../scripts/edit/write-changes.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import type { PlanChange } from "../../scripts/model.ts";
import { parseYaml } from "../../scripts/read/parse-yaml.ts";
import { readClub } from "../../scripts/read/read-club.ts";
import { REPOSITORY } from "../open-fixture.ts";

const TEXTS = readTexts(REPOSITORY);
const FILES = readClub(REPOSITORY).files;

/** The front matter of every week, from texts. */
function weeksIn(texts: ClubTexts): ReadonlyMap<string, unknown> {
	return new Map(
		[...texts]
			.filter(([path]) => path.startsWith("content/weeks/"))
			.map(([path, text]) => {
				const parsed = parseYaml(/^---\n([\s\S]*?)^---/m.exec(text)?.[1] ?? "");
				return [path, parsed.ok ? parsed.data : undefined];
			}),
	);
}

describe("a change list", () => {
	const cases: readonly (readonly [string, readonly PlanChange[]])[] = [
		["swaps a station", [{ swap: { block: "3/beam/1", station: 2, drill: "beam-passe-stand" } }]],
		["swaps one with a note", [{ swap: { block: "3/vault/2", station: 1, drill: "vault-board-squat-on" } }]],
		["swaps the drill of a block", [{ swap: { block: "3/warm-up/2", drill: "gallop-lane-lead" } }]],
		["sets minutes", [{ set: { block: "3/bars/2", minutes: 18 } }]],
		[
			"adds a block",
			[
				{
					add: { week: 3, apparatus: "beam", block: { drill: "beam-walk", minutes: 4, levels: ["level-1"] } },
				},
			],
		],
		["moves a block", [{ move: { from: "3/floor/2", to: "5/floor/1" } }]],
		["exchanges two of a week", [{ exchange: ["3/floor/1", "3/floor/4"] }]],
		["exchanges two that stand together", [{ exchange: ["3/floor/2", "3/floor/1"] }]],
		["exchanges two of two weeks", [{ exchange: ["3/vault/1", "7/vault/2"] }]],
		["splits a block", [{ split: { block: "3/floor/3", after: 1, minutes: [6, 15] } }]],
		[
			"does one after the other",
			[
				{ split: { block: "3/vault/2", after: 2, minutes: [15, 15] } },
				{ swap: { block: "3/vault/3", station: 2, drill: "vault-run-past-the-line" } },
				{ move: { from: "3/vault/1", to: "4/vault/1" } },
				{ set: { block: "4/vault/2", minutes: 11 } },
			],
		],
	];
	it.each(cases)("%s in the file as in memory", (_what, changes) => {
		const texts = changeTexts(TEXTS, changes);
		const inMemory = new Map(
			changePlan(FILES, changeList(changes))
				.filter(({ kind }) => kind === "week")
				.map(({ file, data }) => [file, data]),
		);
		expect(weeksIn(texts)).toEqual(inMemory);
		expect(inMemory).not.toEqual(weeksIn(TEXTS));
	});

	it("leaves the rest of a file letter by letter", () => {
		const after = changeTexts(TEXTS, [
			{ swap: { block: "3/vault/2", station: 1, drill: "vault-board-squat-on" } },
		]);
		const path = "content/weeks/week-03.md";
		const [before = "", now = ""] = [TEXTS.get(path), after.get(path)];
		const gone = before.split("\n").filter((line) => !now.split("\n").includes(line));
		expect(gone.map((line) => line.trim())).toEqual([
			"- drill: vault-board-flat-back-stack",
			'note: "Both coaches here. The other three stations run alone."',
		]);
	});

	it("takes a note out of a map in braces", () => {
		const path = "content/weeks/w.md";
		const week = (block: string): ClubTexts =>
			new Map([[path, `---\nweek: 1\ntheme: T\napparatus:\n  floor:\n    blocks:\n      - ${block}\n---\n`]]);
		const swapped = (block: string) =>
			changeTexts(week(block), [{ swap: { block: "1/floor/1", drill: "b" } }])
				.get(path)
				?.split("\n")[6]
				?.trim();
		expect(swapped("{drill: a, note: x, minutes: 5}")).toBe("- {drill: b, minutes: 5}");
		expect(swapped("{drill: a, minutes: 5, note: x}")).toBe("- {drill: b, minutes: 5}");
		expect(swapped("{note: x, drill: a, minutes: 5}")).toBe("- {drill: b, minutes: 5}");
	});

	it("is refused where it names no block", () => {
		expect(() => changeTexts(TEXTS, [{ set: { block: "3/beam/9", minutes: 4 } }])).toThrow(EditRefused);
		expect(openHandbook(REPOSITORY).handbook).toBeDefined();
	});
});
