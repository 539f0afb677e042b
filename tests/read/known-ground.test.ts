/** A folder opened again: where weeks alone are others, what was counted of the rest holds, and nothing else does. */

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { originalOf } from "../../scripts/link/join-records.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

const WEEK = "content/weeks/week-1.md";

function change(dir: string, file: string, from: string, to: string): void {
	const text = readFileSync(join(dir, file), "utf8");
	expect(text).toContain(from);
	writeFileSync(join(dir, file), text.replace(from, to));
}

/** Opens a folder, again after a change, and anew. */
function openTwice(dir: string, make: () => void): Readonly<Record<"first" | "again" | "anew", Handbook>> {
	const options = { cache: new Map(), libraryCaches: new Map() };
	const sound = (opened: ReturnType<typeof openHandbook>): Handbook => {
		if (opened.handbook === undefined) throw new Error(opened.problems.map(({ what }) => what).join("\n"));
		return opened.handbook;
	};
	const opened = openHandbook(dir, options);
	const first = sound(opened);
	make();
	const before = { files: opened.files, curriculum: first.curriculum };
	return { first, again: sound(openHandbook(dir, { ...options, before })), anew: sound(openHandbook(dir)) };
}

const counted = ({ tables, findings, curriculum, markdown }: Handbook) => ({
	tables: [...tables.values()].map(({ name, rows }) => [name, rows]),
	findings: findings.map(({ code, what, about }) => [code, what, about]),
	planned: [...curriculum.drills.values()].map(({ id, planned }) => [id, planned]),
	link: markdown.plain("[[week-1]]"),
});

test("a week with another theme and another drill is counted as in a folder that is opened anew", () => {
	const dir = clubCopy();
	const { first, again, anew } = openTwice(dir, () => {
		change(dir, WEEK, "theme: Round shapes", "theme: Other shapes");
		change(dir, WEEK, "{drill: rock, minutes: 10}", "{drill: rock-back, minutes: 25}");
	});
	expect(counted(again)).toEqual(counted(anew));
	expect(counted(again)).not.toEqual(counted(first));
	expect(again.markdown.plain("[[week-1]]")).toBe("Other shapes");
	expect(originalOf(again.curriculum)).toBe(originalOf(first.curriculum));
});

test("where a drill is another, too, all is counted anew", () => {
	const dir = clubCopy();
	const { first, again, anew } = openTwice(dir, () => {
		change(dir, WEEK, "minutes: 10", "minutes: 12");
		change(dir, "content/drills/floor/rock.md", "title: ", "title: Other ");
	});
	expect(counted(again)).toEqual(counted(anew));
	expect(originalOf(again.curriculum)).not.toBe(originalOf(first.curriculum));
	expect(again.curriculum.drills.get("rock")?.title).toMatch(/^Other /);
});

test("an apparatus that only a week names is there where the club has no list of them", () => {
	const dir = clubCopy();
	rmSync(join(dir, "_data/apparatus.yaml"));
	const { again, anew } = openTwice(dir, () => {
		change(dir, WEEK, "apparatus:\n", "apparatus:\n  trampoline:\n    blocks: []\n");
	});
	expect([...again.curriculum.apparatus.keys()]).toEqual([...anew.curriculum.apparatus.keys()]);
	expect(counted(again)).toEqual(counted(anew));
});

test("a change of a library is seen together with one of a week", () => {
	const dir = mkdtempSync(join(tmpdir(), "libraries-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	cpSync(join(FIXTURES, "libraries"), dir, { recursive: true });
	const { first, again, anew } = openTwice(join(dir, "club"), () => {
		change(dir, "club/content/weeks/week-01.md", "minutes: ", "minutes: 1");
		change(dir, "federation/content/drills/floor/rock-on-back.md", "title: ", "title: Other ");
	});
	expect(counted(again)).toEqual(counted(anew));
	const title = ({ curriculum }: Handbook) => curriculum.drills.get("rock-on-back")?.title;
	expect(title(again)).toBe(`Other ${title(first)}`);
});
