/**
 * Kinds of bad input, as a table: each takes a sound club folder and spoils it, differently for every seed.
 *
 * `must` says that a problem has to be reported: what is wrong is wrong in every case. The other kinds
 * may turn out harmless (an emptied optional field, a name in another letter case) and may then build.
 */

import { execFileSync } from "node:child_process";
import {
	chmodSync,
	cpSync,
	existsSync,
	lstatSync,
	mkdirSync,
	readdirSync,
	readFileSync,
	rmSync,
	symlinkSync,
	writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import fc from "fast-check";

/** The club whose files the kinds below know by name. */
const SMALL = fileURLToPath(new URL("../fixtures/base-club/", import.meta.url));

/** A club folder that can be spoilt and is whole again afterwards. */
export class SpoiltClub {
	readonly dir: string;
	readonly #pristine: string;
	readonly #touched = new Set<string>();
	readonly files: readonly string[];

	constructor(pristine: string, dir: string) {
		this.#pristine = pristine;
		this.dir = dir;
		for (const part of ["content", "_data"])
			cpSync(join(pristine, part), join(dir, part), { recursive: true });
		rmSync(join(dir, "_data/handbook.ts"), { force: true });
		this.files = readdirSync(dir, { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile())
			.map((entry) => join(entry.parentPath, entry.name).slice(dir.length + 1))
			.sort();
	}

	/** The text of a file; of the small club's own where this club has no such file. */
	text(path: string): string {
		const own = join(this.#pristine, path);
		return readFileSync(existsSync(own) ? own : join(SMALL, path), "utf8");
	}

	write(path: string, content: string | Uint8Array): void {
		this.#make(path, (to) => writeFileSync(to, content));
	}

	folder(path: string): void {
		this.#make(path, (to) => mkdirSync(to));
	}

	link(path: string, target: string): void {
		this.#make(path, (to) => symlinkSync(target, to));
	}

	pipe(path: string): void {
		this.#make(path, (to) => execFileSync("mkfifo", [to]));
	}

	lock(path: string): void {
		this.#touched.add(path);
		chmodSync(join(this.dir, path), 0o000);
	}

	remove(path: string): void {
		this.#touched.add(path);
		rmSync(join(this.dir, path), { recursive: true, force: true });
	}

	restore(): void {
		for (const path of this.#touched) {
			rmSync(join(this.dir, path), { recursive: true, force: true });
			if (lstatSync(join(this.#pristine, path), { throwIfNoEntry: false }) !== undefined) {
				mkdirSync(dirname(join(this.dir, path)), { recursive: true });
				cpSync(join(this.#pristine, path), join(this.dir, path), { recursive: true });
			}
		}
		this.#touched.clear();
	}

	#make(path: string, make: (to: string) => void): void {
		const parts = path.split("/");
		// The highest part that is new is what has to go again.
		const fresh = parts.findIndex((_, i) => !this.#inPristine(parts.slice(0, i + 1).join("/")));
		this.#touched.add(fresh < 0 ? path : parts.slice(0, fresh + 1).join("/"));
		const to = join(this.dir, path);
		mkdirSync(dirname(to), { recursive: true });
		rmSync(to, { recursive: true, force: true });
		make(to);
	}

	#inPristine(path: string): boolean {
		return lstatSync(join(this.#pristine, path), { throwIfNoEntry: false }) !== undefined;
	}
}

/** Chance, the same for the same seed. */
export interface Chance {
	readonly seed: number;
	/** From 0 up to 1. */
	readonly random: () => number;
	whole(below: number): number;
	pick<T>(from: readonly T[]): T;
	/** One value of an arbitrary of fast-check. */
	draw<T>(from: fc.Arbitrary<T>): T;
}

export function chance(seed: number, random: () => number): Chance {
	const whole = (below: number) => Math.floor(random() * below);
	return {
		seed,
		random,
		whole,
		pick: <T>(from: readonly T[]): T => {
			const one = from[whole(from.length)];
			if (one === undefined) throw new RangeError("nothing to choose from");
			return one;
		},
		draw: <T>(from: fc.Arbitrary<T>): T => {
			const [one] = fc.sample(from, { seed: whole(2 ** 31), numRuns: 1 });
			return one as T;
		},
	};
}

export interface BadKind {
	readonly kind: string;
	/** A problem has to be reported. */
	readonly must?: true;
	/** How large a share of the tries it gets; 1 unless given. Costly kinds get less. */
	readonly share?: number;
	/** @param outside a folder beside the club's, with a file `secret.md` that nothing may read */
	readonly spoil: (club: SpoiltClub, by: Chance, outside: string) => void;
}

/** Changes the text of one file. */
function inText(change: (text: string, by: Chance, path: string) => string | Uint8Array): BadKind["spoil"] {
	return (club, by) => {
		const path = by.pick(club.files);
		club.write(path, change(club.text(path), by, path));
	};
}

/** Changes one `field: value` of a file to another value. */
function inValue(values: readonly string[] | ((by: Chance) => string)): BadKind["spoil"] {
	return inText((text, by) => {
		const spots = [...text.matchAll(/([a-z][a-z-]*): *([^\s,{}[\]][^,{}[\]\n]*|\[[^\]\n]*\])/g)];
		const spot = by.pick(spots.length > 0 ? spots : [/^/.exec(text) as RegExpMatchArray]);
		const value = typeof values === "function" ? values(by) : by.pick(values);
		const start = (spot.index ?? 0) + (spot[1]?.length ?? 0) + 2;
		return spot[1] === undefined
			? text + value
			: text.slice(0, (spot.index ?? 0) + spot[1].length + 2) +
					value +
					text.slice(start - 2 + spot[0].length - spot[1].length);
	});
}

function insert(text: string, at: number, what: string): string {
	return text.slice(0, at) + what + text.slice(at);
}

/** Places where prose stands in a page or a data file. */
function inProse(words: (by: Chance) => string): BadKind["spoil"] {
	return (club, by) => {
		const fields: readonly (readonly [string, (word: string) => string])[] = [
			[
				"content/drills/floor/rock.md",
				(w) => withFields(club.text("content/drills/floor/rock.md"), `summary: ${q(w)}`),
			],
			[
				"content/drills/floor/rock.md",
				(w) =>
					withFields(
						club.text("content/drills/floor/rock.md"),
						`spotting: ${q(w)}\ncaution: ${q(w)}\naliases: [${q(w)}]\nfaults: [{see: ${q(w)}, say: ${q(w)}}]`,
					),
			],
			[
				"content/drills/floor/rock.md",
				(w) => club.text("content/drills/floor/rock.md").replace(/title: .*/, () => `title: ${q(w)}`),
			],
			["content/drills/floor/rock.md", (w) => `${club.text("content/drills/floor/rock.md")}\n${w}\n`],
			["content/guides/welcome.md", (w) => `---\ntitle: ${q(w)}\n---\n${w}\n`],
			[
				"content/weeks/week-1.md",
				(w) => club.text("content/weeks/week-1.md").replace(/theme: .*/, () => `theme: ${q(w)}`),
			],
			["_data/club.yaml", (w) => `name: ${q(w)}\nemergency: ${q(w)}\ncontact: ${q(w)}\n`],
			[
				"_data/shapes.yaml",
				(w) =>
					`${club.text("_data/shapes.yaml")}\n- {id: odd, name: ${q(w)}, aliases: [${q(w)}], description: ${q(w)}}\n`,
			],
		];
		const [path, make] = by.pick(fields.filter(([file]) => club.files.includes(file)));
		club.write(path, make(words(by)));
	};
}

/** As a YAML text in double quotes, whatever it holds. */
function q(text: string): string {
	return JSON.stringify(text);
}

function withFields(page: string, fields: string): string {
	return page.replace(/^---\n/, () => `---\n${fields}\n`);
}

const DRILL = "content/drills/floor/rock.md";
const SECRET = "secret.md";
const page = (fields: string, body = "Text.") => `---\n${fields}\n---\n${body}\n`;
const drill = (more: string, body?: string) =>
	page(`title: Odd one\napparatus: floor\nlevels: [junior]\n${more}`, body);

const utf16 = (text: string, order: "little" | "big", mark: boolean): Uint8Array => {
	const bytes = Buffer.from((mark ? "\uFEFF" : "") + text, "utf16le");
	return order === "little" ? bytes : bytes.swap16();
};

const deepest = 5000;

/** Text that some language would run or read. */
const TEMPLATES = [
	"{{ 7*7 }}",
	"{{ constructor.constructor('globalThis.canary = 1')() }}",
	"{% include '../../secret.md' %}",
	"{% raw %}{{ x }}",
	"<%= globalThis.canary = 1 %>",
	"$" + "{globalThis.canary = 1}",
	"#{canary}",
	"{{{ html }}}",
	"{# comment #}",
	"{%- set x = 1 -%}",
	"---js\nglobalThis.canary = 1\n---",
];

const LINKS = [
	"[a](javascript:globalThis.canary=1)",
	"[a](JaVaScRiPt:globalThis.canary=1)",
	"[a](java\tscript:globalThis.canary=1)",
	"[a](&#106;avascript:globalThis.canary=1)",
	"[a](data:text/html,<script>globalThis.canary=1</script>)",
	"[a](vbscript:x)",
	"![a](data:image/svg+xml;base64,PHN2Zy8+)",
	"![a](http://outside.example/pixel.png)",
	"[a](//outside.example/)",
	"[a](/\\outside.example/)",
	"<javascript:globalThis.canary=1>",
	"[a]: javascript:globalThis.canary=1\n\n[a]",
	"[a](file:///etc/passwd)",
	"[[javascript:globalThis.canary=1]]",
];

export const BAD_KINDS: readonly BadKind[] = [
	{
		kind: "broken YAML",
		share: 3,
		spoil: inText((text, by) =>
			insert(
				text,
				by.whole(text.length + 1),
				by.pick([..."':{}[]\"-#&*!|>%@`,?\\", "\n", ": ", "- ", "\n  ", "---\n", "...\n", "? "]),
			),
		),
	},
	{ kind: "text cut off", share: 2, spoil: inText((text, by) => text.slice(0, by.whole(text.length))) },
	{
		kind: "lines out of order",
		share: 2,
		spoil: inText((text, by) =>
			text
				.split("\n")
				.map((line) => [by.random() < 0.2 ? by.random() : 1, line] as const)
				.sort(([a], [b]) => a - b)
				.map(([, line]) => line)
				.join("\n"),
		),
	},
	{
		kind: "tabs",
		spoil: inText((text, by) =>
			text
				.replace(/^ +/gm, (spaces) => (by.random() < 0.6 ? "\t" : spaces))
				.replace(/: /, by.pick([":\t", ": ", "\t: "])),
		),
	},
	{
		kind: "duplicate keys",
		must: true,
		spoil: (club, by) => {
			const field = by.pick([
				"title: Twice",
				"apparatus: beam",
				"levels: [junior]",
				"cues: [Again]",
				'"title": Again',
				"? title\n: Again",
			]);
			club.write(DRILL, withFields(club.text(DRILL), field));
		},
	},
	{
		kind: "anchors and aliases",
		must: true,
		spoil: (club, by) =>
			club.write(
				DRILL,
				drill(
					by.pick([
						"shapes: &a [tuck]\nskills: *a",
						"cues: &x [A]",
						"summary: *none",
						"summary: &a Text",
						"faults:\n  - &f {see: A, say: B}\n  - *f",
					]),
				),
			),
	},
	{
		kind: "alias bombs",
		must: true,
		spoil: (club, by) => {
			const width = 2 + by.whole(9);
			const rows = Array.from(
				{ length: 9 + by.whole(20) },
				(_, i) =>
					`a${i}: &a${i} [${Array(width)
						.fill(i === 0 ? "x" : `*a${i - 1}`)
						.join(", ")}]`,
			);
			const path = by.pick([DRILL, "_data/club.yaml", "_data/term.yaml", "_data/targets.yaml"]);
			club.write(path, path === DRILL ? drill(rows.join("\n")) : rows.join("\n"));
		},
	},
	{
		kind: "merge keys",
		must: true,
		spoil: (club, by) =>
			club.write(
				DRILL,
				drill(
					by.pick([
						"<<: {summary: A}",
						"<<: [{summary: A}, {summary: B}]",
						"base: &b {summary: A}\n<<: *b",
						"levels2:\n  <<: {a: 1}",
					]),
				),
			),
	},
	{
		kind: "`__proto__`, `constructor` and their like as keys",
		share: 2,
		spoil: (club, by) => {
			const key = by.pick([
				"__proto__",
				"constructor",
				"prototype",
				"toString",
				"hasOwnProperty",
				"valueOf",
				"__defineGetter__",
			]);
			const value = by.pick([
				"{canary: 1, title: Got in}",
				"[1]",
				"x",
				"{prototype: {canary: 1}}",
				"null",
				"{length: 99999999}",
			]);
			const [path, text] = by.pick([
				[DRILL, drill(`${key}: ${value}`)],
				[DRILL, page(`title: T\napparatus: floor\nlevels: {${key}: ${value}}`)],
				[DRILL, drill(`equipment: {${key}: 1}`)],
				[DRILL, drill(`heights: {${key}: knee}`)],
				[DRILL, drill(`shapes: [${key}]`, `[[${key}]] [[shape:${key}]]`)],
				[`content/drills/floor/${key.toLowerCase()}.md`, drill("")],
				["content/weeks/week-1.md", page(`week: 1\ntheme: T\napparatus: {${key}: ${value}}`)],
				["_data/club.yaml", `${key}: ${value}\nname: Club\n`],
				["_data/targets.yaml", `${key}: ${value}\n`],
				["_data/shapes.yaml", `- {id: ${key}, name: N}\n`],
				["_data/shapes.yaml", `- {id: tuck, name: N, angles: {${key}: ${value}}}\n`],
			] as const);
			club.write(path, text);
		},
	},
	{
		kind: "values of the wrong type",
		share: 3,
		spoil: inValue([
			"[]",
			"{}",
			"null",
			"true",
			"12",
			"-1",
			"''",
			"[[[]]]",
			"{a: {b: c}}",
			"~",
			"[null]",
			"text text",
			"'1'",
		]),
	},
	{
		kind: "huge and odd numbers",
		share: 2,
		spoil: inValue([
			"1e308",
			"1e999",
			"999999999999999",
			"-999999999999999",
			"0.000000000000001",
			"9007199254740993",
			"123456789012345678901234567890",
			"-0",
			"0x7fffffff",
			"0o17",
			"1_000_000",
			"4294967296",
			"2147483648",
			"0.1e-400",
		]),
	},
	{
		kind: "NaN and infinity",
		spoil: inValue([".nan", ".NaN", "NaN", ".inf", "-.inf", "Infinity", "-Infinity", "+.INF", "1/0"]),
	},
	{
		kind: "numbers at their limits in every field",
		share: 3,
		spoil: (club, by) => {
			const n = by.pick([
				"0",
				"1",
				"-1",
				"0.5",
				"52",
				"60",
				"99",
				"100",
				"500",
				"1000",
				"9999",
				"100000",
				"1000000",
				"999999999",
				"999999999999999",
			]);
			const [path, text] = by.pick([
				["_data/term.yaml", `name: T\nstarts: 2027-01-04\nweeks: ${n}\n`],
				[
					"_data/term.yaml",
					`name: T\nstarts: 2027-01-04\nweeks: 2\nclasses: [{id: mon, name: M, level: junior, day: monday, start: "16:00", minutes: ${n}, warm-up: ${n}, cool-down: ${n}, gymnasts: ${n}, coaches: ${n}, ages: [1, ${n}], rotation: [floor]}]\n`,
				],
				[
					"_data/apparatus.yaml",
					`- {id: floor, name: F, order: ${n}, plan: [${n}, 12]}\n- {id: beam, name: B, plan: [8, ${n}]}\n`,
				],
				["_data/equipment.yaml", `- {id: mat, name: Mat, owned: ${n}}\n- {id: block, name: Block}\n`],
				[
					"_data/shapes.yaml",
					`- {id: hollow, name: H, angles: {shoulder: ${n}, hip: ${n}, knee: ${n}, ankle: ${n}, trunk: ${n}, spread: ${n}}}\n- {id: tuck, name: T}\n`,
				],
				[
					"_data/targets.yaml",
					`shape-weeks: ${n}\nskill-gap: ${n}\nload-step: ${n}\nactive-share: ${n}\nreview-months: ${n}\npair-directions: true\n`,
				],
				[
					"content/weeks/week-1.md",
					page(`week: ${n}\ntheme: T\napparatus: {floor: {blocks: [{drill: rock, minutes: 10}]}}`),
				],
				[
					"content/weeks/week-1.md",
					page(
						`week: 1\ntheme: T\napparatus: {floor: {blocks: [{stations: [{drill: rock, at: [${n}, 1]}, {drill: wedge-roll}], minutes: ${n}, change: ${n}}]}}`,
					),
				],
				[
					DRILL,
					drill(
						`sets: ${n}\nreps: ${n}\nhold: ${n}\nturn: {seconds: ${n}, at-once: ${n}}\ncontacts: {landings: ${n}, hands: ${n}}\nequipment: {mat: ${n}}`,
					),
				],
			] as const);
			club.write(path, text);
		},
	},
	{
		kind: "dates that are not",
		spoil: (club, by) => {
			const date = by.pick([
				"2027-02-30",
				"2027-13-01",
				"2027-00-00",
				"0000-00-00",
				"2027-W53-1",
				"99999-01-01",
				"-2027-01-04",
				"tomorrow",
				"04/01/2027",
				"2027-1-4",
				"2027-01-04T25:00:00",
				"2027-01-04/2026-01-04",
				"/",
				"2027-01-04/",
				"２０２７-01-04",
				"9999-12-27",
				"0001-01-01",
			]);
			const [path, text] = by.pick([
				["_data/term.yaml", `name: T\nstarts: ${date}\nweeks: 3\n`],
				["_data/term.yaml", `name: T\nstarts: 2027-01-04\nweeks: 3\nclosed: ["${date}"]\n`],
				[DRILL, drill(`reviewed: ${date}`)],
			] as const);
			club.write(path, text);
		},
	},
	{
		kind: "times and zones that are not",
		spoil: (club, by) => {
			if (by.random() < 0.5)
				club.write(
					"_data/club.yaml",
					`name: C\ntimezone: ${by.pick(["Europe/Nowhere", "../../etc/localtime", "+99:99", "UTC+1", "''", "GMT0BST", "Etc/GMT+14", "__proto__"])}\nlanguage: ${by.pick(["xx-yy-zz", "..", "en_GB", "''", "constructor", "de", "i-klingon"])}\n`,
				);
			else
				club.write(
					"_data/term.yaml",
					`name: T\nstarts: 2027-01-04\nweeks: 2\nclasses: [{id: mon, name: M, level: junior, day: ${by.pick(["monday", "Mon", "1", "someday"])}, start: ${by.pick(['"25:00"', '"16:60"', "16:00", '"9:00"', "960", '"-1:00"', '"24:00"'])}, minutes: 60, rotation: [floor]}]\n`,
				);
		},
	},
	{
		kind: "control characters",
		must: true,
		spoil: inText((text, by) =>
			insert(text, by.whole(text.length), String.fromCharCode(by.pick([0, 1, 2, 7, 8, 11, 12, 14, 27, 31]))),
		),
	},
	{
		kind: "escapes for terminals, written as YAML escapes",
		spoil: inProse((by) =>
			by.pick([
				"\u001b[2J\u001b[31mred",
				"\u001b]0;title\u0007",
				"\u009b31m",
				"a\u0008\u0008b",
				"\u001b]8;;http://outside.example\u0007x",
				"\r\noverwritten",
				"\u0000",
				"\u007f",
			]),
		),
	},
	{
		kind: "escapes for terminals in names and ids",
		spoil: (club, by) => {
			const odd = by.pick(["\u001b[31m", "\u0007", "\u009b", "\u202e", "\u0085"]);
			if (by.random() < 0.5) club.write(`content/drills/floor/a${odd}b.md`, drill(""));
			else club.write(DRILL, drill(`shapes: [${q(`x${odd}y`)}]\n${q(`k${odd}`)}: 1`));
		},
	},
	{
		kind: "bidirectional and invisible characters",
		spoil: inText((text, by) =>
			insert(
				text,
				by.whole(text.length),
				by.pick([
					"\u202e",
					"\u202d",
					"\u2066",
					"\u2069",
					"\u200b",
					"\u200d",
					"\u2060",
					"\u00ad",
					"\u200f",
					"\u061c",
					"\ufff9",
					"\u{e0001}",
					"\u2028",
					"\u2029",
					"\u0085",
				]),
			),
		),
	},
	{
		kind: "byte order marks",
		spoil: inText((text, by) =>
			by.pick([`\uFEFF${text}`, `\uFEFF\uFEFF${text}`, insert(text, by.whole(text.length), "\uFEFF")]),
		),
	},
	{
		kind: "line ends of other systems",
		spoil: inText((text, by) => text.replaceAll("\n", by.pick(["\r\n", "\r", "\n\r", "\r\r\n", "\u2028"]))),
	},
	{
		kind: "UTF-16 and UTF-32",
		must: true,
		spoil: inText((text, by) =>
			by.pick([
				utf16(text, "little", true),
				utf16(text, "big", true),
				utf16(text, "little", false),
				utf16(text, "big", false),
				Buffer.from([...text].flatMap((c) => [c.codePointAt(0) ?? 0, 0, 0, 0].map((b) => b & 255))),
			]),
		),
	},
	{
		kind: "invalid UTF-8",
		must: true,
		spoil: inText((text, by) => {
			const bytes = Buffer.from(text);
			const odd = Buffer.from(
				by.pick([
					[0xff],
					[0xc0, 0xaf],
					[0xed, 0xa0, 0x80],
					[0xf5, 0x80, 0x80, 0x80],
					[0xe2, 0x28, 0xa1],
					[0x80],
					[0xfe],
					[0xf0, 0x9f],
				]),
			);
			const at = by.whole(bytes.length);
			return Buffer.concat([bytes.subarray(0, at), odd, Buffer.from("x"), bytes.subarray(at)]);
		}),
	},
	{
		kind: "NUL bytes",
		must: true,
		spoil: inText((text, by) => insert(text, by.whole(text.length), "\0".repeat(1 + by.whole(3)))),
	},
	{
		kind: "random bytes",
		share: 2,
		spoil: (club, by) => club.write(by.pick(club.files), by.draw(fc.uint8Array({ maxLength: 400 }))),
	},
	{
		kind: "names in NFC and NFD",
		spoil: (club, by) => {
			const name = by.pick(["übung", "café", "ångström", "ﬁne", "ｆｌｏｏｒ"]);
			club.write(`content/drills/floor/${name.normalize("NFC")}.md`, drill(""));
			club.write(`content/drills/floor/${name.normalize("NFD")}.md`, drill("", `[[${name}]]`));
		},
	},
	{
		kind: "names that differ by letter case",
		must: true,
		spoil: (club, by) => {
			const [path, text] = by.pick([
				["content/drills/floor/Rock.md", drill("")],
				["content/drills/floor/ROCK.md", drill("")],
				["content/drills/beam/rock.md", drill("")],
				["content/guides/Welcome.md", page("title: T")],
				[
					"content/weeks/WEEK-1.md",
					page("week: 2\ntheme: T\napparatus: {floor: {blocks: [{drill: rock, minutes: 1}]}}"),
				],
			] as const);
			club.write(path, text);
		},
	},
	{
		kind: "names that Windows keeps, and other odd names",
		spoil: (club, by) => {
			const name = by.pick([
				"con",
				"aux",
				"nul",
				"prn",
				"com1",
				"lpt9",
				"CON",
				"a.",
				"a ",
				" a",
				"a:b",
				"a|b",
				"a?b",
				"a*b",
				'a"b',
				"a<b",
				"-",
				"--",
				"-a",
				"a-",
				"a--b",
				".hidden",
				"a.b",
				"x".repeat(240),
				"index",
				"404",
				"%2e%2e",
				"desktop.ini",
				"~",
				"'",
				"node_modules",
				"__proto__",
			]);
			club.write(
				by.pick([
					`content/drills/floor/${name}.md`,
					`content/guides/${name}.md`,
					`content/drills/${name}/a.md`,
					`_data/${name}.yaml`,
					`content/${name}`,
				]),
				drill(""),
			);
		},
	},
	{
		kind: "files of 10 MB",
		must: true,
		share: 0.4,
		spoil: (club, by) => {
			const path = by.pick([DRILL, "_data/skills.yaml", "_data/term.yaml", "content/guides/welcome.md"]);
			club.write(
				path,
				by.pick([
					() => "x".repeat(1e7),
					() => drill("", "word ".repeat(2e6)),
					() => "- a\n".repeat(2.5e6),
					() => new Uint8Array(1e7),
					() => `---\n${"a: b\n".repeat(2e6)}---\n`,
				])(),
			);
		},
	},
	{
		kind: "files just below the limit of size",
		share: 0.6,
		spoil: (club, by) => {
			const n = 195_000;
			const fill = by.pick([
				"a ",
				"*",
				"_",
				"[",
				"`",
				"> ",
				"- ",
				"[[a]] ",
				"![",
				"<",
				"&",
				"\\",
				"|",
				"# ",
				"~",
				"[a](",
				"[[",
				"**a",
				"|a|b|\n",
				"a\n\n",
				"1. ",
				"<a ",
				"&#",
				"\n---\n",
			]);
			club.write(
				by.pick([DRILL, "content/guides/welcome.md"]),
				drill("", fill.repeat(Math.floor((n * (0.05 + by.random() * 0.95)) / fill.length))).replace(
					/apparatus[\s\S]*?levels.*\n/,
					by.random() < 0.5 ? "apparatus: floor\nlevels: [junior]\n" : "",
				),
			);
		},
	},
	{
		kind: "long values in fields",
		share: 0.6,
		spoil: (club, by) => {
			const n = 1000 + by.whole(400_000);
			const long = by
				.pick(["a", "-", "a-", " ", "[", "*", "[[", "0", "é", ":", "a b "])
				.repeat(Math.floor(n / 2));
			const [path, text] = by.pick([
				[DRILL, drill(`summary: ${q(long)}`)],
				[DRILL, drill(`shapes: [${q(long)}]`)],
				[DRILL, drill(`${q(long)}: 1`)],
				[DRILL, drill(`aliases: [${q(long)}]`)],
				["_data/club.yaml", `name: ${q(long)}\n`],
				["_data/club.yaml", `name: C\nsite: ${q(`https://a.example/${long}`)}\ncontact: ${q(long)}\n`],
				["_data/term.yaml", `name: T\nstarts: ${q(long)}\nweeks: 2\n`],
			] as const);
			club.write(path, text);
		},
	},
	{
		kind: "nesting of 5,000 levels",
		share: 0.8,
		spoil: (club, by) => {
			const deep = by.pick([
				() => drill(`cues: ${"[".repeat(deepest)}${"]".repeat(deepest)}`),
				() => drill(`cues: ${"[".repeat(deepest)}`),
				() => drill(`levels2: ${"{a: ".repeat(deepest)}1${"}".repeat(deepest)}`),
				() => drill(Array.from({ length: 1200 }, (_, i) => `${" ".repeat(i)}a:`).join("\n")),
				() => drill(`cues:\n${"- ".repeat(deepest)}a`),
				() => drill("", ">".repeat(deepest)),
				() => drill("", `${"> ".repeat(deepest)}a`),
				() => drill("", `${"- ".repeat(deepest)}a`),
				() => drill("", "[".repeat(deepest)),
				() => drill("", `${"[".repeat(deepest)}a${"](b)".repeat(deepest)}`),
				() => drill("", `${"*a ".repeat(deepest)}${"b* ".repeat(deepest)}`),
				() => drill("", "[[".repeat(deepest)),
				() => drill("", `${"(".repeat(deepest)}${")".repeat(deepest)}`),
			]);
			club.write(DRILL, deep());
		},
	},
	{
		kind: "empty files",
		spoil: (club, by) =>
			club.write(
				by.pick(club.files),
				by.pick(["", "\n", "   ", "---\n---\n", "---\n", "#\n", "\uFEFF", "---", "null", "~"]),
			),
	},
	{
		kind: "files that are not there",
		spoil: (club, by) => {
			for (let i = by.whole(4); i >= 0; i--)
				club.remove(by.pick([...club.files, "content/drills", "content", "_data", "content/weeks"]));
		},
	},
	{
		kind: "folders where files belong, files where folders belong",
		must: true,
		spoil: (club, by) => {
			const path = by.pick(club.files.filter((f) => !/club|targets/.test(f)));
			if (by.random() < 0.6) club.folder(path);
			else club.write(by.pick(["content", "content/drills", "content/weeks", "_data"]), "a file");
		},
	},
	{
		kind: "links out of the folder",
		must: true,
		spoil: (club, by, outside) => {
			const target = by.pick([
				join(outside, SECRET),
				`../../../../${"../".repeat(8)}etc/passwd`,
				outside,
				"/",
				"/dev/zero",
				"/proc/self/environ",
				"..",
				"nowhere",
			]);
			const path = by.pick([
				DRILL,
				"content/drills/floor/other.md",
				"content/drills/floor",
				"content/drills/more",
				"_data/shapes.yaml",
				"content/guides/welcome.md",
				"_data",
				"content",
			]);
			club.link(path, target);
		},
	},
	{
		kind: "files that cannot be opened, pipes",
		must: true,
		spoil: (club, by) => {
			const path = by.pick([DRILL, "_data/shapes.yaml", "content/weeks/week-1.md"]);
			// Whoever may read everything can read a locked file, too.
			if (process.getuid?.() === 0 || by.random() < 0.5) club.pipe(path);
			else club.lock(path);
		},
	},
	{
		kind: "ways out in ids, links and media",
		share: 2,
		spoil: (club, by, outside) => {
			const way = by.pick([
				"../../secret",
				`${outside}/${SECRET}`,
				"..",
				".",
				"../",
				"/etc/passwd",
				"%2e%2e%2fsecret",
				"..\\..\\secret",
				"C:\\secret",
				"\\\\host\\share",
				"file:///etc/passwd",
				"rock/../../secret",
				"~/secret",
				"con",
				"a/b",
				"..;/",
				"\u2025/secret",
				"．．/secret",
				"http://outside.example/a.png",
				"//outside.example/a.png",
			]);
			const [path, text] = by.pick([
				[DRILL, drill(`media: [{file: ${q(way)}, alt: A}]`)],
				[DRILL, drill(`media: [{file: ${q(`${way}.png`)}, alt: A}]`)],
				[DRILL, drill(`media: [{file: a.mp4, alt: A, poster: ${q(way)}}]`)],
				[DRILL, drill(`skills: [${q(way)}]\npartner: ${q(way)}\nafter: [${q(way)}]`, `[[${way}]]`)],
				[DRILL, page(`title: T\napparatus: ${q(way)}\nlevels: [${q(way)}]`)],
				["_data/shapes.yaml", `- {id: ${q(way)}, name: N}\n`],
				["_data/apparatus.yaml", `- {id: ${q(way)}, name: N}\n`],
				["_data/levels.yaml", `- {id: ${q(way)}, name: N}\n- {id: junior, name: J}\n`],
				[
					"_data/term.yaml",
					`name: T\nstarts: 2027-01-04\nweeks: 2\nclasses: [{id: ${q(way)}, name: M, level: junior, day: monday, start: "16:00", minutes: 60, rotation: [floor]}]\n`,
				],
				[
					"content/weeks/week-1.md",
					page(`week: 1\ntheme: T\napparatus: {${q(way)}: {blocks: [{drill: ${q(way)}, minutes: 1}]}}`),
				],
			] as const);
			club.write(path, text);
		},
	},
	{
		kind: "front matter that runs",
		must: true,
		spoil: (club, by) => {
			const language = by.pick([
				"js",
				"javascript",
				"jsLegacy",
				"coffee",
				"coffeescript",
				"cson",
				"json",
				"toml",
				" js",
				"JS",
				"node",
				"ts",
				"python",
				"js\t",
				"-js",
				"../../secret",
			]);
			club.write(
				by.pick([DRILL, "content/guides/welcome.md", "content/weeks/week-1.md"]),
				`---${language}\n{ title: (globalThis.canary = 1, "T"), apparatus: "floor", levels: ["junior"] }\n---\nText.\n`,
			);
		},
	},
	{
		kind: "front matter for another program",
		must: true,
		spoil: (club, by) =>
			club.write(
				DRILL,
				drill(
					by.pick([
						"permalink: ../../x.html",
						"templateEngineOverride: njk",
						"layout: ../../secret",
						"eleventyComputed: {a: 1}",
						"pagination: {data: x}",
						"eleventyNavigation: {key: a}",
						"date: git Last Modified",
					]),
					"{{ 7*7 }}",
				),
			),
	},
	{
		kind: "YAML tags",
		must: true,
		spoil: (club, by) =>
			club.write(
				DRILL,
				drill(
					by.pick([
						"summary: !!js/function 'function(){globalThis.canary=1}'",
						"summary: !!js/regexp /a/",
						"summary: !<tag:yaml.org,2002:js/undefined> ''",
						"summary: !!binary aGVsbG8=",
						"cues: !!set {a}",
						"summary: !!python/object/apply:os.system ['touch canary']",
						"summary: !custom x",
						"%TAG ! tag:a,2000:\n",
						"reviewed: !!timestamp 2027-01-01",
					]),
				),
			),
	},
	{
		kind: "raw HTML",
		spoil: inProse((by) =>
			by.pick([
				"<script>globalThis.canary=1</script>",
				"<img src=x onerror=globalThis.canary=1>",
				"</title><script>globalThis.canary=1</script>",
				"<svg/onload=globalThis.canary=1>",
				"<!-- -->",
				"<![CDATA[x]]>",
				"</script>",
				'"><b>',
				"<iframe src=//outside.example>",
				"<style>*{}</style>",
				"<base href=//outside.example>",
				"<meta http-equiv=refresh content=0>",
			]),
		),
	},
	{ kind: "`javascript:` and `data:` links", spoil: inProse((by) => by.pick(LINKS)) },
	{ kind: "template syntax", spoil: inProse((by) => by.pick(TEMPLATES)) },
	{
		kind: "addresses of the club that run or lead away",
		spoil: (club, by) =>
			club.write(
				"_data/club.yaml",
				`name: C\nsite: ${q(by.pick(["javascript:alert(1)", "data:text/html,x", 'https://a.example/"><script>', "//x", "https://", "http://a b", "https://user:pw@a.example/", "https://a.example/?x=<", "file:///etc/passwd", "https://[::1]:99999/"]))}\ncontact: ${q(by.pick(["javascript:alert(1)", 'a@b.example"><script>', "mailto:x", "a@b.example?bcc=c@d.example", "a b@c", "a@b.example\r\nBcc: x@y.example"]))}\n`,
			),
	},
	{
		kind: "pictures and videos that are not, or do harm",
		share: 1.2,
		spoil: (club, by, outside) => {
			const png = Buffer.from(
				"iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR4nGNgYGBgAAAABQABh6FO1AAAAABJRU5ErkJggg==",
				"base64",
			);
			const svg = (inside: string, more = "") =>
				`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="10" height="10" ${more}>${inside}</svg>`;
			const huge = Buffer.from(png);
			huge.writeUInt32BE(0x7fffffff, 16);
			huge.writeUInt32BE(0x7fffffff, 20);
			const [name, bytes] = by.pick<readonly [string, string | Uint8Array]>([
				["a.svg", svg("<script>globalThis.canary=1</script>")],
				[
					"a.svg",
					svg('<rect width="5" height="5" onload="globalThis.canary=1"/>', 'onload="globalThis.canary=1"'),
				],
				["a.svg", svg(`<image xlink:href="file://${outside}/${SECRET}" width="10" height="10"/>`)],
				[
					"a.svg",
					`<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY x SYSTEM "file://${outside}/${SECRET}">]>${svg("<text>&x;</text>")}`,
				],
				[
					"a.svg",
					`<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 20 }, (_, i) => `<!ENTITY a${i} "${`&a${i === 0 ? "" : i - 1};`.repeat(10)}">`).join("")}]>${svg("<text>&a19;</text>")}`,
				],
				[
					"a.svg",
					svg(`<xi:include xmlns:xi="http://www.w3.org/2001/XInclude" href="file://${outside}/${SECRET}"/>`),
				],
				["a.svg", '<svg xmlns="http://www.w3.org/2000/svg" width="9999999" height="9999999"/>'],
				["a.svg", svg("<g>".repeat(deepest) + "</g>".repeat(deepest))],
				[
					"a.svg",
					svg(
						'<foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><script>globalThis.canary=1</script></body></foreignObject>',
					),
				],
				["a.png", huge],
				["a.png", png.subarray(0, 20 + by.whole(40))],
				["a.png", by.draw(fc.uint8Array({ maxLength: 200 }))],
				[
					"a.jpg",
					Buffer.concat([
						Buffer.from([0xff, 0xd8, 0xff, 0xe0]),
						Buffer.from(by.draw(fc.uint8Array({ maxLength: 300 }))),
					]),
				],
				[
					"a.gif",
					Buffer.concat([Buffer.from("GIF89a"), Buffer.from(by.draw(fc.uint8Array({ maxLength: 300 })))]),
				],
				[
					"a.webp",
					Buffer.concat([
						Buffer.from("RIFF\xff\xff\xff\x7fWEBPVP8 ", "latin1"),
						Buffer.from(by.draw(fc.uint8Array({ maxLength: 300 }))),
					]),
				],
				[
					"a.mp4",
					Buffer.concat([
						Buffer.from([0, 0, 0, 24]),
						Buffer.from("ftypisom"),
						Buffer.from(by.draw(fc.uint8Array({ maxLength: 300 }))),
					]),
				],
				[
					"a.mp4",
					Buffer.concat([
						Buffer.from([0, 0, 0, 16]),
						Buffer.from("ftypisom\0\0\0\0"),
						Buffer.from([0, 0, 0, 0]),
						Buffer.from("moov"),
					]),
				],
				[
					"a.webm",
					Buffer.concat([
						Buffer.from([0x1a, 0x45, 0xdf, 0xa3]),
						Buffer.from(by.draw(fc.uint8Array({ maxLength: 300 }))),
					]),
				],
				[
					"a.webm",
					Buffer.from([0x1a, 0x45, 0xdf, 0xa3, 0x01, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0, 0, 0]),
				],
				["a.png", ""],
			]);
			club.write(`content/media/${name}`, bytes);
			club.write(DRILL, drill(`media: [{file: ${name}, alt: A picture}]`));
		},
	},
	{
		kind: "media that are links out of the folder",
		must: true,
		spoil: (club, by, outside) => {
			club.link(
				"content/media/a.png",
				by.pick([join(outside, SECRET), "/dev/zero", "/etc/passwd", "nowhere", "a.png"]),
			);
			club.write(DRILL, drill("media: [{file: a.png, alt: A}]"));
		},
	},
	{
		kind: "odd `[[links]]`",
		spoil: inProse((by) =>
			by.pick([
				"[[",
				"[[]]",
				"[[|]]",
				"[[ ]]",
				"[[a|b|c]]",
				"[[[[tuck]]]]",
				"[[shape:]]",
				"[[:tuck]]",
				"[[tuck|]]",
				"[[tuck|[x](y)]]",
				"[[tuck|<b>]]",
				"[[tuck\n]]",
				"`[[nowhere]]`",
				"\\[[nowhere]]",
				"[[shape:shape:tuck]]",
				"[[constructor]]",
				"[[drill:__proto__]]",
				"[[TUCK]]",
				"[x]([[tuck]])",
			]),
		),
	},
	{
		kind: "circles of references",
		spoil: (club, by) => {
			const n = 2 + by.whole(30);
			if (by.random() < 0.5)
				club.write(
					"_data/skills.yaml",
					Array.from(
						{ length: n },
						(_, i) =>
							`- {id: ${["roll", "dive"][i] ?? `s${i}`}, name: S${i}, needs: [${["roll", "dive"][(i + 1) % n] ?? `s${(i + 1) % n}`}], opposite: ${["roll", "dive"][by.whole(n)] ?? `s${i}`}}`,
					).join("\n"),
				);
			else
				for (let i = 0; i < n; i++)
					club.write(
						`content/drills/floor/c${i}.md`,
						drill(`after: [c${(i + 1) % n}]\npartner: c${by.whole(n)}`),
					);
		},
	},
	{
		kind: "any data at all, in every kind of file (property-based)",
		share: 6,
		spoil: (club, by) => {
			const path = by.pick(club.files);
			const data = JSON.stringify(by.draw(fc.jsonValue({ maxDepth: 4 })));
			club.write(
				path,
				path.endsWith(".md")
					? `---\n${data}\n---\n${by.draw(fc.string({ unit: "binary", maxLength: 60 })).replaceAll("\0", "")}\n`
					: data,
			);
		},
	},
	{
		kind: "any value in a field that exists (property-based)",
		share: 6,
		spoil: inValue((by) =>
			JSON.stringify(
				by.draw(
					fc.oneof(
						fc.jsonValue({ maxDepth: 2 }),
						fc.string({ unit: "binary", maxLength: 12 }),
						fc.double(),
						fc.integer(),
					),
				),
			),
		),
	},
	{
		kind: "any text in a text field (property-based)",
		share: 5,
		spoil: inProse((by) =>
			by.draw(fc.string({ unit: by.pick(["binary", "grapheme"] as const), minLength: 1, maxLength: 80 })),
		),
	},
	{
		kind: "any Markdown (property-based)",
		share: 5,
		spoil: inProse((by) =>
			by
				.draw(
					fc.array(
						fc.constantFrom(
							"*",
							"_",
							"[",
							"]",
							"(",
							")",
							"`",
							"<",
							">",
							"!",
							"#",
							"\n",
							"\n\n",
							" ",
							"a",
							"[[tuck]]",
							"|",
							"-",
							"1.",
							"&amp;",
							"&#0;",
							"\\",
							"~",
							":",
							"    ",
							"```",
						),
						{ maxLength: 40 },
					),
				)
				.join(""),
		),
	},
	{
		kind: "several of these at once",
		share: 3,
		spoil: (club, by, outside) => {
			for (let i = 1 + by.whole(3); i >= 0; i--) {
				const kind = by.pick(
					BAD_KINDS.filter(
						(k) =>
							(k.share ?? 1) >= 1 &&
							k.kind !== "several of these at once" &&
							!/folders|links out|not there|pipes/.test(k.kind),
					),
				);
				kind.spoil(club, by, outside);
			}
		},
	},
];
