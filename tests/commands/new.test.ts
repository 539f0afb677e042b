/** `new` on folders of its own: what is written builds at once, teaches, and never takes another's place. */

import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PassThrough } from "node:stream";
import { type Schema, Validator } from "@cfworker/json-schema";
import { describe, expect, it, onTestFinished } from "vitest";
import { type Ask, suggestions, terminalAsk } from "../../scripts/commands/ask.ts";
import { type NewOptions, newCommand } from "../../scripts/commands/new.ts";
import { ownOutput } from "../../scripts/commands/note-edition.ts";
import type { Run } from "../../scripts/commands/run.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { referencesIn } from "../../scripts/link/reference-fields.ts";
import type { Curriculum, DataPath } from "../../scripts/model.ts";
import { readClub } from "../../scripts/read/read-club.ts";
import { SCHEMA_FILES_OF, schemaFiles } from "../../scripts/site/schema-files.ts";
import { SCHEMAS } from "../../scripts/validate/schemas.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";
import { handbook as command } from "../run-command.ts";
import { textsIn } from "./texts-in.ts";

const CLUB: NewOptions = { kind: "club", name: "Harlow Lane Gymnastics", starts: "2027-01-04" };

function scratch(): string {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	return dir;
}

function runIn(clubDir: string): { readonly run: Run; readonly lines: string[] } {
	const lines: string[] = [];
	return {
		lines,
		run: {
			clubDir,
			outDir: join(clubDir, "_site"),
			now: new Date("2026-11-30T12:00:00Z"),
			out: { line: (line) => void lines.push(line), colour: false },
			progress: { stream: { write: () => undefined }, live: false },
		},
	};
}

async function make(clubDir: string, options: NewOptions, ask?: Ask) {
	const { run, lines } = runIn(clubDir);
	return { status: await newCommand(run, options, ask), said: lines.join("\n") };
}

describe("new club", () => {
	it("checks and builds at once, with nothing to mend but weeks to plan", async () => {
		const folder = join(scratch(), "harlow lane");
		expect(await make(".", { ...CLUB, folder })).toMatchObject({ status: 0 });
		const { problems, handbook } = openHandbook(folder);
		expect(problems).toEqual([]);
		// Its first week is planned, and the others are still to be: that is all the plan misses.
		expect(handbook?.findings.map(({ code }) => code)).toEqual(["H314"]);
		const built = await command(["build", "--no-print", "--club", folder]);
		expect(built.stdout).toMatch(/^wrote \d+ pages/);
		expect(built.status).toBe(0);
		expect(existsSync(join(ownOutput(folder), "drills/log-roll/index.html"))).toBe(true);
		expect(existsSync(join(ownOutput(folder), "schemas/drill.schema.json"))).toBe(true);
	});

	it("takes names in other scripts and with signs that YAML knows", async () => {
		const folder = scratch();
		const odd = {
			...CLUB,
			folder,
			name: 'Ça va: "Été" #1',
			levels: "Débutants, Niveau 1: a, No",
			apparatus: "Sol",
		};
		expect(await make(".", odd)).toMatchObject({ status: 0 });
		const { problems, handbook } = openHandbook(folder);
		expect(problems).toEqual([]);
		expect(handbook?.curriculum.club.name).toBe('Ça va: "Été" #1');
		expect([...(handbook?.curriculum.levels.keys() ?? [])]).toEqual(["debutants", "niveau-1-a", "no"]);
	});

	it("writes nothing into a folder that holds a club", async () => {
		const folder = clubCopy();
		const before = textsIn(folder);
		const { status, said } = await make(".", { ...CLUB, folder });
		expect(status).toBe(2);
		expect(said).toContain("already");
		expect(textsIn(folder)).toEqual(before);
	});

	it.each([
		["2027-01-05", "is not a Monday"],
		["5 January", "Write the day as"],
		["2027-02-30", "Write the day as"],
	])("does not take a term that starts on %s", async (starts, why) => {
		const folder = scratch();
		expect(await make(".", { ...CLUB, folder, starts })).toMatchObject({
			status: 2,
			said: expect.stringContaining(why),
		});
		expect(readdirSync(folder)).toEqual([]);
	});
});

describe("new drill, week, guide and skill", () => {
	it("say which flags are missing where there is no terminal, and write nothing", async () => {
		const dir = clubCopy();
		const before = textsIn(dir);
		const { status, said } = await make(dir, { kind: "drill", title: "Log roll" });
		expect(status).toBe(2);
		expect(said).toMatch(/--apparatus .*--levels/s);
		expect(said).not.toContain("--title");
		expect(textsIn(dir)).toEqual(before);
	});

	it("write what passes the check, and leave all other files as they were", async () => {
		const dir = clubCopy();
		const term = join(dir, "_data/term.yaml");
		writeFileSync(term, readFileSync(term, "utf8").replace("weeks: 1", "weeks: 3"));
		const before = textsIn(dir);
		const { apparatus, levels } = JSON.parse(JSON.stringify(thingsOf(dir))) as Record<string, string[]>;
		const [floor = "", level = ""] = [apparatus?.[0], levels?.[0]];
		const results = [
			await make(dir, { kind: "drill", title: "Épaulé: tall & still", apparatus: floor, levels: level }),
			await make(dir, { kind: "drill", title: "Epaule tall still", apparatus: floor, levels: level }),
			await make(dir, { kind: "week", week: "3", theme: "Late: and long", apparatus: floor }),
			await make(dir, { kind: "guide", title: "How we spot" }),
			await make(dir, { kind: "skill", title: "Swing down", levels: level }),
		];
		expect(results.map(({ status, said }) => `${status} ${said.replace(/.*\//s, "")}`)).toEqual([
			"0 epaule-tall-still.md",
			"0 epaule-tall-still-2.md",
			"0 week-03.md",
			"0 how-we-spot.md",
			"0 skills.yaml",
		]);
		expect(results.map(({ said }) => said.split("\n").slice(0, -1))).toEqual([
			[],
			["There is a drill `epaule-tall-still` already; this one is `epaule-tall-still-2`."],
			[],
			[],
			[],
		]);
		expect(openHandbook(dir).problems.filter(({ severity }) => severity === "error")).toEqual([]);
		const after = textsIn(dir);
		for (const [path, text] of before) {
			// A new skill is added at the end of its list; all before it stays, comments too.
			if (path === "_data/skills.yaml") expect(after.get(path)?.startsWith(text)).toBe(true);
			else expect([path, after.get(path)]).toEqual([path, text]);
		}
		expect(openHandbook(dir).handbook?.curriculum.drills.get("epaule-tall-still")?.title).toBe(
			"Épaulé: tall & still",
		);
	});

	it("refuse an id that is taken or cannot be one, and a level that is not there", async () => {
		const dir = clubCopy();
		const before = textsIn(dir);
		const [floor = ""] = thingsOf(dir).apparatus;
		const [level = ""] = thingsOf(dir).levels;
		const sound: NewOptions = { kind: "drill", title: "A", apparatus: floor, levels: level };
		expect((await make(dir, { ...sound, id: "rock" })).said).toContain("already");
		expect((await make(dir, { ...sound, id: "Log Roll" })).said).toContain("Did you mean `log-roll`?");
		expect((await make(dir, { ...sound, levels: "nobody" })).said).toContain("`nobody` is none of");
		expect((await make(dir, { ...sound, title: "!!!" })).said).toContain("at least one letter");
		expect(textsIn(dir)).toEqual(before);
	});

	it("tell all wrong flags, and those that are missing, at once", async () => {
		const dir = clubCopy();
		const wrong: NewOptions = {
			kind: "drill",
			levels: "nobody,no-one",
			apparatus: "moon",
			id: "rock",
			title: "!",
		};
		const { status, said } = await make(dir, wrong);
		expect(status).toBe(2);
		expect(said.split("\n").map((line) => line.slice(0, 30))).toEqual([
			"--title: A name needs at least",
			"--apparatus: `moon` is none of",
			"--levels: `nobody`, `no-one` a",
			"--id: there is a drill `rock` ",
		]);
		const { title: _, ...untitled } = wrong;
		expect((await make(dir, untitled)).said).toMatch(/--levels: .*--id: .*missing:\n {2}--title {2}What/s);
	});

	it("end in words, with nothing written, where the input of a terminal ends", async () => {
		const dir = clubCopy();
		const before = textsIn(dir);
		const [input, output] = [new PassThrough(), new PassThrough()];
		output.once("data", () => input.end());
		expect(await make(dir, { kind: "drill" }, terminalAsk({ input, output }))).toEqual({
			status: 2,
			said: "Nothing was written.",
		});
		expect(textsIn(dir)).toEqual(before);
	});

	it("ask for what was not said, with the club's own things to choose from", async () => {
		const dir = clubCopy();
		const asked: string[] = [];
		const ask: Ask = async ({ question, choices, fault }) => {
			asked.push(`${question} ${choices.length}`);
			if (question.startsWith("What")) {
				expect(fault("")).toBeDefined();
				return "Asked drill";
			}
			return question.includes("Where") || question.includes("levels") ? (choices[0]?.id ?? "") : "";
		};
		const { status } = await make(dir, { kind: "drill" }, ask);
		expect(status).toBe(0);
		expect(asked).toHaveLength(5);
		expect(asked[1]).toMatch(/Where is it done\? [1-9]/);
		expect(openHandbook(dir).handbook?.curriculum.drills.has("asked-drill")).toBe(true);
	});
});

it("suggestions narrow while one types: names and ids that start so first", () => {
	const choices = [
		{ id: "panel-mat", name: "Panel mat" },
		{ id: "mat-stack", name: "Mat stack" },
		{ id: "cone", name: "Cone" },
	];
	expect(suggestions(choices, "mat").map(({ id }) => id)).toEqual(["mat-stack", "panel-mat"]);
	expect(suggestions(choices, "")).toHaveLength(3);
});

describe("the published schemas", () => {
	const published = new Map(
		schemaFiles("schemas").map(({ path, text }) => [path, JSON.parse(text) as object]),
	);

	it("stand alone, say what they are, and take the whole demo, says a second validator", () => {
		const seen = new Set<string>();
		for (const { kind, data, file } of readClub(REPOSITORY).files) {
			const schema = published.get(`schemas/${kind}.schema.json`);
			expect(schema).toBeDefined();
			const verdict = new Validator(schema as Schema, "7", false).validate(JSON.parse(JSON.stringify(data)));
			expect([file, verdict.valid ? [] : verdict.errors]).toEqual([file, []]);
			seen.add(kind);
		}
		// Every kind of file is there, but for what coaches report during a term.
		const kinds = [...SCHEMAS.keys()].filter((kind) => kind !== "taught");
		expect([...seen].sort()).toEqual(kinds.sort());
	});

	it("refuse a field that does not exist, and a value that is none", () => {
		const drill = new Validator(published.get("schemas/drill.schema.json") as Schema, "7", false);
		const sound = { title: "A", apparatus: "floor", levels: ["level-1"] };
		expect(drill.validate(sound).valid).toBe(true);
		expect(drill.validate({ ...sound, titel: "A" }).valid).toBe(false);
		expect(drill.validate({ ...sound, direction: "forwards" }).valid).toBe(false);
		expect(drill.validate({ ...sound, levels: { "level-1": { reps: "many" } } }).valid).toBe(false);
	});

	it.each([...SCHEMAS.keys()])(
		"%s: every field has a description, and every reference leads inside",
		(kind) => {
			const schema = published.get(`schemas/${kind}.schema.json`) as {
				title?: string;
				description?: string;
				properties?: Record<string, { description?: string }>;
				definitions?: Record<string, { properties?: Record<string, { description?: string }> }>;
			};
			expect(schema.title).toBeDefined();
			expect(schema.description).toBeDefined();
			const text = JSON.stringify(schema);
			for (const [, name = ""] of text.matchAll(/"\$ref":"([^"]*)"/g)) {
				expect(name).toMatch(/^#\/definitions\//);
				expect(schema.definitions).toHaveProperty(name.replace("#/definitions/", ""));
			}
			const fields = schema.properties ?? schema.definitions?.item?.properties ?? {};
			const bare = Object.entries(fields).filter(
				([, field]) => field.description === undefined && !("$ref" in field),
			);
			expect(bare).toEqual([]);
		},
	);

	it("have an address that leads to them where the club has a site", () => {
		const files = schemaFiles("schemas", "https://handbook.quillmere.example/");
		for (const { path, text } of files) {
			expect(JSON.parse(text)).toHaveProperty("$id", `https://handbook.quillmere.example/${path}`);
		}
	});

	it("are wired to the files they are for in a new club's editor settings and first lines", async () => {
		const folder = scratch();
		await make(".", { ...CLUB, folder });
		const settings = JSON.parse(readFileSync(join(folder, ".vscode/settings.json"), "utf8")) as {
			"yaml.schemas": Record<string, string[]>;
		};
		expect(Object.keys(settings["yaml.schemas"])).toHaveLength(SCHEMA_FILES_OF.length);
		for (const path of Object.keys(settings["yaml.schemas"])) {
			expect(existsSync(join(folder, path))).toBe(true);
		}
		for (const [path, text] of textsIn(folder)) {
			if (path.startsWith(".")) continue;
			const schema = /# yaml-language-server: \$schema=(\S+)/.exec(text)?.[1];
			expect(existsSync(join(folder, path, "..", schema ?? "none")), path).toBe(true);
		}
	});
});

type Json = Readonly<Record<string, unknown>>;

/** What a schema offers at a path of the data: its enums, through lists, maps and alternatives. */
function offeredAt(schema: Json, path: DataPath, what: "key" | "value"): readonly unknown[] {
	const {
		anyOf = [],
		allOf = [],
		enum: own = [],
		items,
		properties,
		additionalProperties,
		propertyNames,
	} = schema;
	const among = [...(anyOf as Json[]), ...(allOf as Json[])].flatMap((one) => offeredAt(one, path, what));
	const [step, ...rest] = path;
	if (step === undefined) return [...(own as unknown[]), ...among];
	if (what === "key" && rest.length === 0)
		return [...among, ...(propertyNames === undefined ? [] : offeredAt(propertyNames as Json, [], "value"))];
	const named = (properties as Readonly<Record<string, Json>> | undefined)?.[step];
	const inner = named ?? (typeof step === "number" ? items : additionalProperties);
	return typeof inner === "object" ? [...among, ...offeredAt(inner as Json, rest, what)] : among;
}

describe("what editors complete", () => {
	const schemaIn = (folder: string, kind: string): Json =>
		JSON.parse(readFileSync(join(folder, `.vscode/schemas/${kind}.schema.json`), "utf8"));

	it("is each id that the demo names, beside all others of its kind, and takes the whole demo", async () => {
		const folder = clubCopy(undefined, REPOSITORY);
		expect(await make(folder, { kind: "editor" })).toMatchObject({ status: 0 });
		const { curriculum } = openHandbook(folder).handbook ?? {};
		const { skills, drills, shapes, levels, apparatus, equipment, purposes, guides, term } =
			curriculum as Curriculum;
		const classes = new Map(term.classes.map((one) => [one.id, one]));
		const all = { skill: skills, drill: drills, shape: shapes, level: levels, apparatus, equipment };
		const known: Readonly<Record<string, ReadonlyMap<string, unknown>>> = {
			...all,
			purpose: purposes,
			guide: guides,
			class: classes,
		};
		let seen = 0;
		for (const file of readClub(folder).files) {
			const schema = schemaIn(folder, file.kind);
			const verdict = new Validator(schema as Schema, "7", false).validate(
				JSON.parse(JSON.stringify(file.data)),
			);
			expect([file.file, verdict.valid ? [] : verdict.errors]).toEqual([file.file, []]);
			for (const { kinds, id, path, what } of referencesIn(file)) {
				const offered = offeredAt(schema, path, what);
				const wanted = kinds.flatMap((kind) => [...(known[kind]?.keys() ?? [])]);
				expect([path, [...offered].sort()]).toEqual([path, wanted.sort()]);
				expect(offered).toContain(id);
				seen += 1;
			}
		}
		expect(seen).toBeGreaterThan(1000);
	});

	it("is found by name and by id in Markdown, and follows the club; settings stay the director's", async () => {
		const folder = clubCopy();
		await make(folder, { kind: "editor" });
		const snippets = () =>
			JSON.parse(readFileSync(join(folder, ".vscode/club.code-snippets"), "utf8")) as Record<string, Json>;
		writeFileSync(join(folder, ".vscode/settings.json"), "{}\n");
		const drill = { title: "Seat drop", apparatus: "floor", levels: "junior" };
		expect(await make(folder, { kind: "drill", ...drill })).toMatchObject({ status: 0 });
		expect(snippets()["drill seat-drop"]).toEqual({
			scope: "markdown,yaml",
			prefix: ["seat-drop", "Seat drop"],
			body: "seat-drop",
			description: "drill: Seat drop",
		});
		expect(JSON.stringify(schemaIn(folder, "week"))).toContain('"seat-drop"');
		expect(readFileSync(join(folder, ".vscode/settings.json"), "utf8")).toBe("{}\n");
	});
});

function thingsOf(dir: string): {
	readonly apparatus: readonly string[];
	readonly levels: readonly string[];
} {
	const curriculum = openHandbook(dir).handbook?.curriculum;
	return {
		apparatus: [...(curriculum?.apparatus.keys() ?? [])],
		levels: [...(curriculum?.levels.keys() ?? [])],
	};
}
