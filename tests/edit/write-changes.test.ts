/** Change lists that the program writes are read back as what they say, by two readers of YAML. */

import fc from "fast-check";
import { load } from "js-yaml";
import { expect, it } from "vitest";
import { parse } from "yaml";
import { changeList } from "../../scripts/edit/write-changes.ts";

it("writes one line a change, as an author would", () => {
	expect(
		changeList([
			{ set: { block: "5/beam/1", minutes: 8 } },
			{ remove: "3/cool-down/2" },
			{
				add: { week: 2, apparatus: "floor", block: { drill: "rock", minutes: 5, levels: ["level-1", "no"] } },
			},
		] as never),
	).toBe(
		[
			"- set: {block: 5/beam/1, minutes: 8}",
			"- remove: 3/cool-down/2",
			'- add: {week: 2, apparatus: floor, block: {drill: rock, minutes: 5, levels: [level-1, "no"]}}',
		].join("\n"),
	);
});

it("says the same to every reader, whatever the texts are", () => {
	const value = fc.letrec((tie) => ({
		any: fc.oneof(
			{ maxDepth: 3 },
			fc.string(),
			fc.constantFrom(
				"null",
				"~",
				"1",
				"1e3",
				"0x1F",
				"2027-01-04",
				"- a",
				"a: b",
				"#x",
				"yes",
				"a-b",
				"3/x/1",
			),
			fc.integer(),
			fc.boolean(),
			fc.array(tie("any"), { maxLength: 3 }),
			fc.dictionary(
				fc.string({ minLength: 1 }).filter((name) => name !== "__proto__"),
				tie("any"),
				{ maxKeys: 3 },
			),
		),
	})).any;
	fc.assert(
		fc.property(value, (what) => {
			const list = changeList([{ set: what }] as never);
			expect(list).not.toContain("\n");
			const plain = JSON.parse(JSON.stringify([{ set: what }]));
			expect(parse(list)).toEqual(plain);
			expect(load(list)).toEqual(plain);
		}),
		{ numRuns: 500 },
	);
});
