/**
 * Strangers' reports: 2,000 hostile files (`TAUGHT_FILES=2000`; fewer in a usual run) through the real
 * command. None ends it with a fault of the program, none writes anything but `_data/taught/`, none is
 * taken that breaks a rule, and nothing that is taken shows as markup on the director's page.
 */

import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { afterAll, describe, expect, it, onTestFinished } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import { taughtCommand } from "../../scripts/commands/taught.ts";
import { undo } from "../../scripts/commands/undo.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { markOf, type Report, reportText } from "../../scripts/records/report.ts";
import { raw } from "../../scripts/views/html.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { quietRun } from "../commands/quiet-run.ts";
import { clubCopy } from "../open-fixture.ts";

const FILES = Number(process.env.TAUGHT_FILES ?? 150);
/** Files given to one start of the command. */
const TOGETHER = Math.max(50, Math.ceil(FILES / 8));

function seeded(seed: number): () => number {
	let state = seed;
	return () => {
		state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
		return state / 4294967296;
	};
}

const SOUND: Report = {
	week: "week-1",
	class: "mon",
	from: "k3f9a2b81c",
	revision: 1,
	edition: 1,
	note: "a line",
	blocks: [
		{ apparatus: "floor", block: 1, mark: markOf(["rock"]), done: "shortened", lost: 5, cause: "late" },
	],
	skills: [{ skill: "roll", of: 8, alone: 5, helped: 2 }],
};

const EVIL = [
	"<script>alert(1)</script>",
	"<img src=x onerror=alert(1)>",
	"[click](javascript:alert(1))",
	'"><svg onload=alert(1)>',
	"]]><!--",
	"&lt;b&gt;&amp;&#60;script&#62;",
	"{{constructor.constructor('x')()}}",
	"'; drop table said; --",
	"\u0000",
	"\u202eevil",
	"a\u200bb",
	"\ud800",
	"- class: mon\n  from: x",
	"x: &a [*a]",
	"!!js/function 'x'",
	"=cmd|' /C calc'!A0",
	"[[rock]]",
	"../../../../etc/passwd",
	"..\\..\\windows",
	"con",
	"__proto__",
	"constructor",
	"1e999",
	"null",
	"",
	"x".repeat(5000),
	"é".repeat(140),
];
const ODD = [
	null,
	true,
	-1,
	0,
	1.5,
	1e308,
	[],
	{},
	[[[[[]]]]],
	{ a: { b: { c: {} } } },
	"x",
	[1, 2],
	99999999999,
];

/** One hostile file of a kind that the number chooses. */
function hostile(number: number, random: () => number): string | Buffer {
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
	const from = `f${number.toString(36).padStart(9, "0")}`;
	const value = JSON.parse(reportText({ ...SOUND, from })) as Record<string, unknown>;
	const fields = () =>
		pick([
			value,
			(value.b as Record<string, unknown>[])[0] ?? {},
			(value.k as Record<string, unknown>[])[0] ?? {},
		]);
	switch (number % 12) {
		case 0: {
			const at = fields();
			at[pick(Object.keys(at))] = pick(EVIL);
			return JSON.stringify(value);
		}
		case 1: {
			const at = fields();
			at[pick(Object.keys(at))] = pick(ODD);
			return JSON.stringify(value);
		}
		case 2:
			return JSON.stringify({ ...value, [pick(EVIL)]: pick(ODD) });
		case 3:
			return `{"__proto__":{"x":1},${JSON.stringify(value).slice(1)}`;
		case 4:
			return JSON.stringify(value).replace('"b":', `"b":${"[".repeat(100_000)}`);
		case 5:
			return JSON.stringify(value).slice(0, Math.floor(random() * 200));
		case 6:
			return Buffer.from(Array.from({ length: 500 }, () => Math.floor(random() * 256)));
		case 7:
			return JSON.stringify({ ...value, t: EVIL[Math.floor(number / 12) % EVIL.length]?.slice(0, 140) });
		case 8:
			return JSON.stringify({
				...value,
				w: pick(["../week-1", "week-1/../../x", "..", "con", "week-9", "x".repeat(300)]),
			});
		case 9:
			return '{"handbook":"taught"'.repeat(2000);
		case 10:
			return Buffer.from(JSON.stringify(value), random() < 0.5 ? "utf16le" : "latin1");
		default:
			return JSON.stringify(value).replace(/"r":1/, `"r":1,"r":${pick(["2", "1e3", "-1", '"x"'])}`);
	}
}

describe("strangers' reports", () => {
	const dir = mkdtempSync(join(tmpdir(), "reports-"));
	afterAll(() => rmSync(dir, { recursive: true, force: true }));

	it(`${FILES} of them end nothing, write nowhere else and show no markup`, {
		timeout: 120_000 + FILES * 300,
	}, () => {
		const random = seeded(26);
		const clubDir = clubCopy();
		const { run, lines } = quietRun(clubDir);
		const outside = () =>
			treeOf(clubDir).filter(([path]) => !path.startsWith("_data/taught") && !path.startsWith(".handbook"));
		const before = outside();
		const around = readdirSync(join(clubDir, "..")).filter(
			(name) => name.startsWith("etc") || name.startsWith("week"),
		);
		for (let first = 0; first < FILES; first += TOGETHER) {
			const files = Array.from({ length: Math.min(TOGETHER, FILES - first) }, (_, i) => {
				const file = join(dir, `${first + i}.txt`);
				writeFileSync(file, hostile(first + i, random));
				return file;
			});
			expect([0, 1]).toContain(taughtCommand(run, files, true));
			expect(openHandbook(clubDir, { taught: true }).problems).toEqual([]);
		}
		expect(outside()).toEqual(before);
		expect(
			readdirSync(join(clubDir, "..")).filter((name) => name.startsWith("etc") || name.startsWith("week")),
		).toEqual(around);
		expect(readdirSync(join(clubDir, "_data/taught"))).toEqual(["week-1.yaml"]);
		expect(Reflect.get({}, "x")).toBeUndefined();

		const handbook = openHandbook(clubDir, { taught: true }).handbook;
		if (handbook === undefined) throw new Error("no handbook");
		const { taught } = handbook.curriculum;
		expect(taught.length).toBeGreaterThan(FILES / 12);
		for (const { note = "", class: own, blocks, skills } of taught) {
			expect(own).toBe("mon");
			expect([...note].length).toBeLessThanOrEqual(140);
			expect(note).not.toMatch(/[\p{Cc}\p{Cf}]/u);
			for (const { alone, helped, of } of skills) expect(alone + helped).toBeLessThanOrEqual(of);
			expect(blocks.length).toBeLessThanOrEqual(60);
		}
		const pages = sitePages(handbook).filter(
			({ address }) =>
				address === "taught/" ||
				address.startsWith("drills/floor") ||
				address === "drills/rock/" ||
				address === "findings/",
		);
		const html = pages.map((page) => documentOf(page, (_, code) => raw(code))).join("\n");
		expect(html).toContain("&lt;script&gt;alert(1)&lt;/script&gt;");
		expect(html).not.toMatch(/<script>alert|<img src=x|<svg onload|href="javascript:/);
		// A terminal is told nothing that steers it.
		expect(lines.join(" ").replaceAll("\n", " ")).not.toMatch(/[\p{Cc}\p{Cf}\p{Co}]/u);
	});

	it("are taken back by undo", () => {
		const clubDir = clubCopy();
		const { run, lines } = quietRun(clubDir);
		const file = join(dir, "sound.txt");
		writeFileSync(file, `Hello,\n${reportText(SOUND)}\n`);
		const before = treeOf(clubDir).filter(([path]) => !path.startsWith(".handbook"));
		expect(taughtCommand(run, [file], false)).toBe(0);
		expect(treeOf(clubDir).filter(([path]) => !path.startsWith(".handbook"))).toEqual(before);
		expect(taughtCommand(run, [file, file], true)).toBe(0);
		expect(lines.join("\n")).toContain("2 reports: 1 new, 1 here already, or older.");
		expect(taughtCommand(run, [file], true)).toBe(0);
		expect(lines.at(-1)).toBe("Nothing changes.");
		expect(undo(run)).toBe(0);
		expect(treeOf(clubDir).filter(([path]) => !path.startsWith(".handbook"))).toEqual(before);
		expect(taughtCommand(run, [join(dir, "none.txt"), dir], true)).toBe(1);
	});
});

it("what coaches wrote stands in the folders that the safety page names for deleting, and nowhere else", () => {
	const clubDir = clubCopy();
	const { run } = quietRun(clubDir);
	const files = ["aaaaaaaa1", "bbbbbbbb2"].map((from, i) => {
		const file = join(clubDir, "..", `${basename(clubDir)}-${i}.txt`);
		onTestFinished(() => rmSync(file, { force: true }));
		writeFileSync(file, reportText({ ...SOUND, from, note: `findable words ${i}` }));
		return file;
	});
	for (const file of files) expect(taughtCommand(run, [file], true)).toBe(0);
	const folders = treeOf(clubDir).flatMap(([path, text]) =>
		text.includes("findable words") ? [dirname(path)] : [],
	);
	expect(new Set(folders)).toEqual(new Set(["_data/taught", ".handbook/changes"]));
	for (const folder of folders) {
		expect(wordsFor("en").about.reportsKept.join()).toContain(folder);
		rmSync(join(clubDir, folder), { recursive: true, force: true });
	}
	expect(openHandbook(clubDir, { taught: true }).handbook?.curriculum.taught).toEqual([]);
});

/** Every file with its text. */
function treeOf(folder: string): readonly (readonly [string, string])[] {
	return readdirSync(folder, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => {
			const path = join(entry.parentPath, entry.name);
			return [path.slice(folder.length + 1), readFileSync(path, "latin1")] as const;
		})
		.sort(([a], [b]) => (a < b ? -1 : 1));
}
