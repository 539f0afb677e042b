/** Data written into a text: it says what was wanted, and every line that nothing was to change stays. */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { EditRefused } from "../../scripts/edit/move-block.ts";
import { bodyIn, dataIn, freshText, writeData } from "../../scripts/edit/write-data.ts";
import { REPOSITORY } from "../open-fixture.ts";

const WEEK = `---
# The week.
week: 3
theme: "Upside down"   # as on the poster
apparatus:
  # first
  beam:
    focus: Heels high
    blocks:
      # the walk
      - drill: walk   # slow
        minutes: 6
        levels: [level-1, level-2]
      - minutes: 12
        stations:
          - drill: one
            note: Count aloud.
          - drill: two
---
A note, with [[walk]].
`;

type Block = Record<string, unknown>;
interface Week {
	week: number;
	theme: string;
	keep?: boolean;
	apparatus: Record<string, { focus?: string; blocks: Block[] }>;
}

function changed(change: (week: Week) => void, text = WEEK): string {
	const data = structuredClone(dataIn("content/weeks/w.md", text)) as Week;
	change(data);
	return writeData("content/weeks/w.md", text, data);
}

const beam = (week: Week) => week.apparatus.beam as { focus?: string; blocks: Block[] };

describe("data written into a text", () => {
	it("changes the value alone, with the quotes that it had", () => {
		expect(
			changed((week) => {
				week.theme = "Right way up";
			}),
		).toBe(WEEK.replace("Upside down", "Right way up"));
		expect(
			changed((week) => {
				Object.assign(beam(week).blocks[0] ?? {}, { minutes: 7.5 });
			}),
		).toBe(WEEK.replace("minutes: 6", "minutes: 7.5"));
	});

	it("adds fields behind those before them, and takes them out with their lines", () => {
		const withNote = changed((week) => {
			Object.assign(beam(week).blocks[0] ?? {}, { note: "Eyes up: always" });
		});
		expect(withNote).toBe(
			WEEK.replace(
				"        levels: [level-1, level-2]\n",
				'        levels: [level-1, level-2]\n        note: "Eyes up: always"\n',
			),
		);
		expect(
			changed((week) => {
				delete beam(week).blocks[0]?.note;
			}, withNote),
		).toBe(WEEK);
	});

	it("gives the hyphen's line to the next field where the first goes", () => {
		const text = changed((week) => {
			const { drill: _drill, ...rest } = beam(week).blocks[0] ?? {};
			beam(week).blocks[0] = { ...rest, stations: [{ drill: "walk" }, { drill: "turn" }] };
		});
		expect(text).toContain("      - minutes: 6\n");
		expect(text).toContain("# the walk");
		expect(text).toContain("- drill: turn");
	});

	it("moves the lines of an item that stands elsewhere in its list", () => {
		const text = changed((week) => {
			beam(week).blocks.reverse();
		});
		expect(text).toContain("- drill: walk   # slow\n        minutes: 6\n");
		expect(text.indexOf("- drill: walk")).toBeGreaterThan(text.indexOf("- drill: two"));
	});

	it("keeps ends of lines, and a last line that is not ended", () => {
		const crlf = WEEK.replaceAll("\n", "\r\n");
		const text = changed((week) => {
			beam(week).blocks.push({ drill: "jump", minutes: 3 });
		}, crlf);
		expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
		expect(
			writeData("_data/levels.yaml", "- {id: a, name: A}", [
				{ id: "a", name: "A" },
				{ id: "b", name: "B" },
			]),
		).toBe("- {id: a, name: A}\n- id: b\n  name: B\n");
	});

	it("writes the Markdown of a page, and a page that is new", () => {
		const data = dataIn("content/weeks/w.md", WEEK);
		const text = writeData("content/weeks/w.md", WEEK, data, "Other words.\n");
		expect(text).toBe(WEEK.replace("A note, with [[walk]].", "Other words."));
		const fresh = freshText("content/guides/g.md", { title: "House rules" }, "Be kind.\n");
		expect(fresh).toBe("---\ntitle: House rules\n---\nBe kind.\n");
		expect(bodyIn("content/guides/g.md", fresh)).toBe("Be kind.\n");
	});

	it("refuses what it would have to write anew, with comments in it", () => {
		const text = "ratio: {\n  4-8: 6, # young\n  9-12: 8\n}\n";
		expect(() => writeData("_data/targets.yaml", text, { ratio: { "4-8": 6 } })).toThrow(EditRefused);
	});

	it("says what was wanted after any change of any file of the demo club", () => {
		const texts = [...readTexts(REPOSITORY)];
		const samples = texts.filter(([path], i) => !path.startsWith("content/drills") || i % 9 === 0);
		let refused = 0;
		let written = 0;
		fc.assert(
			fc.property(fc.constantFrom(...samples), fc.infiniteStream(fc.nat()), ([path, text], random) => {
				const take = (most: number): number => (most <= 0 ? 0 : (random.next().value as number) % most);
				const data = dataIn(path, text);
				const wanted = mutated(structuredClone(data), take, 0);
				let after: string;
				try {
					after = writeData(path, text, wanted);
				} catch (error) {
					if (!(error instanceof EditRefused)) throw error;
					refused++;
					return;
				}
				written++;
				expect(dataIn(path, after)).toEqual(wanted);
				expect(comments(after), path).toEqual(expect.arrayContaining(comments(text)));
				expect(writeData(path, after, wanted)).toBe(after);
			}),
			{ numRuns: Number(process.env.WRITE_RUNS ?? 150) },
		);
		expect(refused).toBeLessThan(written / 20);
	});

	it("leaves every other line of the demo's weeks alone", () => {
		const path = "content/weeks/week-02.md";
		const text = readFileSync(join(REPOSITORY, path), "utf8");
		const data = structuredClone(dataIn(path, text)) as Week;
		Object.assign(data.apparatus.vault?.blocks[0] ?? {}, { minutes: 20 });
		const [before, after] = [text.split("\n"), writeData(path, text, data).split("\n")];
		expect(after.filter((line, i) => line !== before[i])).toEqual(["      - minutes: 20"]);
	});
});

/** Comments on lines of their own. */
function comments(text: string): string[] {
	return text
		.split("\n")
		.filter((line) => /^\s*#[^#]/.test(line) && !/^#+ /.test(line))
		.map((line) => line.trim());
}

/** Something else in one place of the data: a value, a field more or less, an item moved, gone or come. */
function mutated(value: unknown, take: (most: number) => number, depth: number): unknown {
	if (Array.isArray(value)) {
		const list = [...value];
		if (list.length === 0) return list;
		const at = take(list.length);
		switch (take(5)) {
			case 0:
				return list.length > 1 ? list.toSpliced(at, 1) : list;
			case 1:
				return list.toSpliced(at, 0, structuredClone(list[take(list.length)]));
			case 2:
				return [...list.slice(at), ...list.slice(0, at)];
			default:
				return list.with(at, mutated(list[at], take, depth + 1));
		}
	}
	if (typeof value === "object" && value !== null) {
		const names = Object.keys(value);
		const name = names[take(names.length)] ?? "x";
		const own = value as Record<string, unknown>;
		if (take(6) === 0 && depth > 0) return { ...own, [`new-${take(9)}`]: ["a", "b c: d", { e: 1 }][take(3)] };
		if (take(8) === 0 && names.length > 1) {
			const { [name]: _, ...rest } = own;
			return rest;
		}
		return { ...own, [name]: mutated(own[name], take, depth + 1) };
	}
	if (typeof value === "number") return value + 1 + take(5);
	return ["plain words", "with: colon", "yes", "# no comment", "two\nlines", "16:30", " x", 'say "so"'][
		take(8)
	];
}
