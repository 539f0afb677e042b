/** An acceptance is added to the list as it stands: comments, order and line ends are kept. */

import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { accept } from "../../scripts/edit/accept.ts";

const PATH = "_data/accepted.yaml";
const ONE = {
	finding: "H309",
	about: { class: "mon", week: 6 },
	reason: "Test week: they wait.",
	until: undefined,
};
const ENTRY = { finding: "H309", about: { class: "mon", week: 6 }, reason: "Test week: they wait." };
const OTHER = { finding: "H333", reason: "x" };

const written = (text: string | undefined, one: Parameters<typeof accept>[1] = ONE): string =>
	accept(new Map(text === undefined ? [] : [[PATH, text]]), one).get(PATH) ?? "";

describe("an acceptance", () => {
	it.each([
		["no file", undefined, [ENTRY]],
		["an empty file", "", [ENTRY]],
		["comments alone", "# why we let things stand\n", [ENTRY]],
		["a list", "# ours\n- finding: H333 # mats\n  reason: x\n", [OTHER, ENTRY]],
		["a list without an end of line", "- {finding: H333, reason: x}", [OTHER, ENTRY]],
		["an indented list", "  - {finding: H333, reason: x}\n", [OTHER, ENTRY]],
		["a list in brackets", "[{finding: H333, reason: x}] # end\n", [OTHER, ENTRY]],
		["an empty list in brackets", "[]\n", [ENTRY]],
		["a list in brackets over lines", "[\n  {finding: H333, reason: x},\n]\n", [OTHER, ENTRY]],
	])("is added to %s, and nothing else changes", (_, text, wanted) => {
		const made = written(text);
		expect(parse(made)).toEqual(wanted);
		const [head = "", tail = ""] = made.split(/(?:, )?(?:- )?\{finding: H309[^}]*\}[^}]*\}/);
		for (const line of (text ?? "").split("\n").map((one) => one.replace("]", "").trim()))
			expect(head + tail).toContain(line.replace(/ # end$/, ""));
	});

	it("keeps the line ends of the file", () => {
		expect(written("- {finding: H333, reason: x}\r\n")).toMatch(/\r\n- \{finding: H309.*\}\r\n$/);
	});

	it("writes any reason so that it is read again, and its last day", () => {
		const reason = 'He said: "no" # {yes}\nand: more';
		expect(parse(written("", { ...ONE, reason, until: "2027-03-19" }))).toEqual([
			{ ...ENTRY, reason, until: "2027-03-19" },
		]);
	});
});
