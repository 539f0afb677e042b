/** Changes at the desk: made by the records of the commands, counted as a fresh reading counts, and never over somebody's text. */

import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { DeskState, FileText, Outcome, Refusal, SinceEdition, Taught } from "../../layouts/desk/api.ts";
import { compare } from "../../scripts/compute/compare.ts";
import { recordOf } from "../../scripts/compute/plan-record.ts";
import { Desk } from "../../scripts/desk/desk.ts";
import { DeskApi } from "../../scripts/desk/desk-api.ts";
import { changeClub } from "../../scripts/edit/change-club.ts";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { takeBack } from "../../scripts/edit/make-changes.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { type Done, markOf, readReports, reportText } from "../../scripts/records/report.ts";
import { takeReports } from "../../scripts/records/take-reports.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";

function deskOf(dir: string, readOnly = false) {
	const words = wordsFor("en");
	const desk = new Desk({
		clubDir: dir,
		outDir: join(dir, "_site"),
		readOnly,
		now: () => new Date(),
		words,
		open: openHandbook,
	});
	const api = new DeskApi(desk, join(dir, "_site"), () => undefined);
	const state = (): DeskState => api.get("state", new URLSearchParams())?.body as DeskState;
	const post = async (route: string, body: object) => {
		const reply = await api.post(route, body);
		return {
			status: reply?.status ?? 404,
			body: reply?.body as Outcome & Refusal & FileText & { path: string; id: string },
		};
	};
	const plan = (changes: readonly object[], what = "a change") =>
		post("plan", { revision: desk.revision, what, changes });
	const file = (path: string) => api.get("file", new URLSearchParams({ path }))?.body as FileText;
	return { desk, api, state, post, plan, file };
}

const demo = () => clubCopy(undefined, REPOSITORY);
const textsOf = (dir: string) => Object.fromEntries(readTexts(dir));

describe("a change of the plan", () => {
	it("is one record: undo gives the same bytes back, redo makes it again, and so does the command", async () => {
		const dir = demo();
		const { plan, post, state } = deskOf(dir);
		const before = textsOf(dir);
		const moved = await plan([{ move: { from: "2/floor/1", to: "3/floor/2" } }], "Moved it");
		expect(moved.status, JSON.stringify(moved.body)).toBe(200);
		expect(moved.body.state.weeks?.map(({ week }) => week)).toEqual(expect.arrayContaining([2, 3]));
		expect(state().undo).toBe("Moved it");
		const after = textsOf(dir);
		expect(Object.keys(after).filter((path) => after[path] !== before[path])).toEqual([
			"content/weeks/week-02.md",
			"content/weeks/week-03.md",
		]);
		expect((await post("undo", {})).status).toBe(200);
		expect(textsOf(dir)).toEqual(before);
		expect(state().redo).toBe("Moved it");
		expect((await post("redo", {})).status).toBe(200);
		expect(textsOf(dir)).toEqual(after);
		expect(takeBack(dir)?.what).toBe("Moved it");
		expect(textsOf(dir)).toEqual(before);
	});

	it("is taken back one by one, further than anybody counts", async () => {
		const dir = clubCopy();
		const { plan, post } = deskOf(dir);
		const before = textsOf(dir);
		for (let i = 0; i < 55; i++) await plan([{ set: { block: "1/floor/1", minutes: 11 + i } }], `Step ${i}`);
		for (let i = 0; i < 55; i++) expect((await post("undo", {})).status, String(i)).toBe(200);
		expect(textsOf(dir)).toEqual(before);
		expect((await post("undo", {})).status).toBe(409);
	});

	it("answers what a fresh reading of the folder finds, by the same engine", async () => {
		const dir = demo();
		const { plan, state } = deskOf(dir);
		let shown = state();
		const steps: readonly (readonly object[])[] = [
			[{ set: { block: "2/floor/2", minutes: 40 } }],
			[{ move: { from: "2/floor/1", to: "4/floor/1" } }],
			[{ set: { block: "3/beam/1", levels: null, note: "For all of them" } }],
			[{ split: { block: "2/vault/1", after: 2, minutes: [10, 11] } }],
			[{ exchange: ["5/floor/1", "5/floor/2"] }],
			[{ remove: "4/floor/2" }],
		];
		for (const changes of steps) {
			const { status, body } = await plan(changes);
			expect(status, JSON.stringify(body)).toBe(200);
			const fresh = deskOf(dir).state();
			const keys = (one: readonly { readonly key: string }[] = []) => one.map(({ key }) => key).sort();
			expect(keys(body.state.findings)).toEqual(keys(fresh.findings));
			expect(body.state.findings).toEqual(fresh.findings);
			expect(keys(body.come)).toEqual(
				keys(fresh.findings.filter(({ key }) => !keys(shown.findings).includes(key))),
			);
			expect(keys(body.gone)).toEqual(
				keys(shown.findings.filter(({ key }) => !keys(fresh.findings).includes(key))),
			);
			const weeks = new Map(shown.board?.weeks.map((week) => [week.week, week]));
			for (const week of body.state.weeks ?? []) weeks.set(week.week, week);
			expect([...weeks.values()]).toEqual(fresh.board?.weeks);
			expect(body.state.revision).toBe(fresh.revision);
			shown = fresh;
		}
	});

	it("is refused where it would put an error into the files, with what would be wrong", async () => {
		const dir = demo();
		const { plan } = deskOf(dir);
		const before = textsOf(dir);
		const { status, body } = await plan([{ move: { from: "2/floor/1", to: "2/bars/1" } }]);
		expect(status).toBe(409);
		expect(body.refused).toBe("errors");
		expect(body.problems?.map(({ code }) => code)).toContain("H204");
		const away = await plan([{ remove: "2/floor/99" }]);
		expect(away.body.refused).toBe("wrong");
		expect(textsOf(dir)).toEqual(before);
	});

	it("is decided on what is there: after another's change she sees that first", async () => {
		const dir = demo();
		const { desk, post, plan } = deskOf(dir);
		const { revision } = desk;
		const path = join(dir, "content/weeks/week-02.md");
		writeFileSync(path, readFileSync(path, "utf8").replace("minutes: 7", "minutes: 6"));
		expect(desk.reread()).toBe(true);
		const old = await post("plan", { revision, what: "late", changes: [{ remove: "2/warm-up/1" }] });
		expect(old.body.refused).toBe("stale");
		expect(old.body.state).toBeDefined();
		// Not yet heard of: nothing is written over either.
		writeFileSync(path, readFileSync(path, "utf8").replace("minutes: 6", "minutes: 5"));
		await plan([{ set: { block: "2/warm-up/2", minutes: 9 } }]);
		expect(readFileSync(path, "utf8")).toContain("minutes: 5");
	});
});

describe("a file", () => {
	it("that somebody changed is not written over: both are shown, and she chooses", async () => {
		const dir = demo();
		const { post, file } = deskOf(dir);
		const path = "content/guides/house-rules.md";
		const opened = file(path);
		const theirs = opened.text.replace("---\n", "---\n# theirs\n");
		writeFileSync(join(dir, path), theirs);
		const mine = `${opened.text}\nMine.\n`;
		const late = await post("save", { path, base: opened.hash, text: mine, what: "saved" });
		expect(late.body).toMatchObject({ refused: "conflict", theirs, mine });
		expect(readFileSync(join(dir, path), "utf8")).toBe(theirs);
		const chosen = await post("save", { path, base: late.body.hash ?? null, text: mine, what: "saved" });
		expect(chosen.status).toBe(200);
		expect(readFileSync(join(dir, path), "utf8")).toBe(mine);
		// What was there is in the record.
		await post("undo", {});
		expect(readFileSync(join(dir, path), "utf8")).toBe(theirs);
	});

	it("with a mistake is mended in place, while the rest goes on", async () => {
		const dir = demo();
		const path = "content/weeks/week-04.md";
		const sound = readFileSync(join(dir, path), "utf8");
		writeFileSync(join(dir, path), sound.replace("week: 4", "week: four"));
		const { state, plan, post, file } = deskOf(dir);
		expect(state().problems.map(({ file: at }) => at)).toEqual([path]);
		expect(state().leftOut).toEqual([path]);
		expect(
			state()
				.board?.weeks.filter(({ id }) => id === undefined)
				.map(({ week }) => week),
		).toEqual([4]);
		expect((await plan([{ set: { block: "2/floor/1", minutes: 11 } }])).status).toBe(200);
		const opened = file(path);
		expect(opened.problems[0]).toMatchObject({ line: 2, code: "H106" });
		const worse = await post("save", {
			path,
			base: opened.hash,
			text: opened.text.replace("theme:", "thema:"),
			what: "x",
		});
		expect(worse.body.refused).toBe("errors");
		const better = await post("save", { path, base: opened.hash, text: sound, what: "mended" });
		expect(better.status).toBe(200);
		expect(better.body.state.problems?.filter(({ severity }) => severity === "error")).toEqual([]);
		expect(better.body.state.board ?? state().board).toBeDefined();
		expect(state().board?.weeks[3]?.id).toBe("week-04");
	});

	it("that is half done is a draft, which a new start finds, and saving ends", async () => {
		const dir = demo();
		const path = "content/guides/new-one.md";
		const text = "---\ntitle: New one\n---\nHalf a sent";
		const { post } = deskOf(dir);
		await post("draft", { path, base: null, text });
		expect(existsSync(join(dir, path))).toBe(false);
		const again = deskOf(dir);
		expect(again.state().drafts.map((draft) => draft.path)).toEqual([path]);
		expect(again.file(path)).toMatchObject({ hash: null, draft: { text, base: null } });
		expect((await again.post("save", { path, base: null, text, what: "saved" })).status).toBe(200);
		expect(again.state().drafts).toEqual([]);
		expect(readFileSync(join(dir, ".handbook/.gitignore"), "utf8")).toBe("*\n");
		// A draft that was tampered with, or is another file's, is none.
		mkdirSync(join(dir, ".handbook/drafts"), { recursive: true });
		writeFileSync(
			join(dir, ".handbook/drafts/x.json"),
			JSON.stringify({ path, base: null, text, at: "now" }),
		);
		expect(again.state().drafts).toEqual([]);
	});
});

describe("one press", () => {
	it("mends a finding by the changes that are sure to, or lets it stand with a reason", async () => {
		const dir = demo();
		const { plan, post, state, desk } = deskOf(dir);
		await plan([{ set: { block: "2/floor/2", minutes: 25 } }]);
		const full = state().findings.find(({ code, about }) => code === "H308" && about.week === 2);
		const { body } = await post("mends", { key: full?.key ?? "" });
		const { changes, words } = body as unknown as { changes: readonly object[]; words: readonly string[] };
		expect(changes.length).toBeGreaterThan(0);
		expect(words).toHaveLength(changes.length);
		const tried = await post("try", { changes });
		expect(tried.body.gone.map(({ key }) => key)).toContain(full?.key);
		expect(state().findings.map(({ key }) => key)).toContain(full?.key);
		const done = await plan(changes, "Mended");
		expect(done.body.gone.map(({ key }) => key)).toContain(full?.key);
		await post("undo", {});
		const accepted = await post("accept", {
			revision: desk.revision,
			what: "accept",
			key: full?.key ?? "",
			reason: "A long evening.",
		});
		expect(accepted.status).toBe(200);
		expect(accepted.body.gone.map(({ key }) => key)).toEqual([full?.key]);
		expect(state().accepted.map(({ reason }) => reason)).toContain("A long evening.");
		expect(openHandbook(dir).handbook?.accepted.map(({ by }) => by.reason)).toContain("A long evening.");
	});

	it("renames, replaces, retires and plans anew by the ways of the commands", async () => {
		const dir = demo();
		const { post, desk, state } = deskOf(dir);
		const renamed = await post("rename", {
			kind: "drill",
			from: "rock-to-stand",
			to: "rock-up",
			what: "renamed",
		});
		expect(renamed.status, JSON.stringify(renamed.body)).toBe(200);
		expect(existsSync(join(dir, "content/drills/floor/rock-up.md"))).toBe(true);
		const inUse = await post("retire", { path: "content/drills/floor/rock-up.md", what: "gone" });
		expect(inUse.body.refused).toBe("errors");
		const replaced = await post("replace", {
			revision: desk.revision,
			drill: "rock-up",
			by: "dish-to-arch-logs",
			what: "instead",
		});
		expect(replaced.status, JSON.stringify(replaced.body)).toBe(200);
		expect(
			Object.entries(textsOf(dir)).filter(
				([path, text]) => path.startsWith("content/weeks") && /drill: rock-up\b/.test(text),
			),
		).toEqual([]);
		const swapped = await post("weeks", {
			revision: desk.revision,
			what: "swap",
			from: 2,
			to: 3,
			swap: true,
		});
		expect(swapped.status, JSON.stringify(swapped.body)).toBe(200);
		rmSync(join(dir, "content/weeks/week-10.md"));
		desk.reread();
		const planned = await post("new-week", {
			revision: desk.revision,
			what: "plan",
			week: 10,
			theme: "Once more",
			like: 9,
		});
		expect(planned.status, JSON.stringify(planned.body)).toBe(200);
		expect(state().board?.weeks[9]).toMatchObject({ theme: "Once more", id: "week-10" });
		const named = await post("name", { kind: "drill", name: "Dish to arch logs", area: "floor" });
		expect(named.body.path).toBe("content/drills/floor/dish-to-arch-logs-2.md");
	});
});

it("merges two drills: shown first, made as one change, and undone to the letter", async () => {
	const dir = demo();
	const { post, desk } = deskOf(dir);
	const before = textsOf(dir);
	const wish = { drill: "rock-to-stand", into: "dish-to-arch-logs" };
	const named = (texts: Readonly<Record<string, string>>) =>
		Object.keys(texts).filter((path) => /\brock-to-stand\b/.test(texts[path] ?? ""));
	const tried = await post("try-merge", wish);
	expect(tried.status, JSON.stringify(tried.body)).toBe(200);
	expect(tried.body.lines).toContain("- content/drills/floor/rock-to-stand.md");
	expect(textsOf(dir)).toEqual(before);
	const done = await post("merge", { ...wish, revision: desk.revision, what: "merged" });
	expect(done.status, JSON.stringify(done.body)).toBe(200);
	expect(done.body.come.map(({ key }) => key)).toEqual(tried.body.come.map(({ key }) => key));
	const after = textsOf(dir);
	expect(Object.keys(before).filter((path) => !(path in after))).toEqual([
		"content/drills/floor/rock-to-stand.md",
	]);
	expect(named(before).length).toBeGreaterThan(1);
	expect(named(after)).toEqual([]);
	// The command that follows change lists makes the same of it.
	expect(after).toEqual(
		Object.fromEntries(
			changeClub(new Map(Object.entries(before)), `- merge: {drill: ${wish.drill}, into: ${wish.into}}`),
		),
	);
	await post("undo", {});
	expect(textsOf(dir)).toEqual(before);
	expect((await post("try-merge", { drill: "rock-to-stand", into: "rock-to-stand" })).body.refused).toBe(
		"wrong",
	);
});

describe("what coaches sent", () => {
	const report = (from: string, done: Done, note: string): string =>
		reportText({
			week: "week-1",
			class: "mon",
			from,
			revision: 1,
			edition: 1,
			blocks: [{ apparatus: "floor", block: 1, mark: markOf(["rock"]), done, note }],
			skills: [],
		});
	const [one, other] = [report("coachone1", "done", "Went well"), report("coachtwo2", "not-done", "No mats")];

	it("is judged, shown, and written as the command writes it, in any order, once", async () => {
		const dir = clubCopy();
		const { post, desk, state } = deskOf(dir);
		const path = join(dir, "_data/taught/week-1.yaml");
		const texts = [`Hello,\n> ${other}\nBye`, "no report at all", one.replace(/(.{70})/g, "$1=\n"), other];
		const tried = (await post("try-taught", { texts })).body as unknown as Taught;
		expect(tried.counts).toMatchObject({ new: 2, known: 1, refused: 0 });
		expect(tried.faults).toEqual([{ text: 1, fault: "There is no report in it." }]);
		expect(tried.outcome.lines?.join("\n")).toMatch(/Went well[\s\S]*No mats/);
		// Two coaches of a class who say different things of a block.
		expect(tried.outcome.come.map(({ code }) => code)).toContain("H351");
		expect(existsSync(path)).toBe(false);
		const { body } = await post("taught", { revision: desk.revision, texts, what: "reports" });
		expect(body.come.map(({ code }) => code)).toContain("H351");
		expect(state().findings.map(({ code }) => code)).toContain("H351");
		const reports = texts.flatMap((text) => readReports(text.replace(/=\n/g, "")).reports);
		const handbook = openHandbook(dir).handbook;
		if (handbook === undefined) throw new Error("the club has errors");
		const byCommand = takeReports(handbook.curriculum, new Map(), reports.toReversed()).texts;
		expect(readFileSync(path, "utf8")).toBe(byCommand.get("_data/taught/week-1.yaml"));
		// What the command writes meanwhile is seen, though it is of no edition.
		const { revision } = desk;
		const text = readFileSync(path, "utf8");
		writeFileSync(path, text.replace("Went well", "Went very well"));
		expect(desk.reread()).toBe(true);
		expect(desk.revision).not.toBe(revision);
		writeFileSync(path, text);
		desk.reread();
		expect(desk.revision).toBe(revision);
		const again = (await post("try-taught", { texts: [one] })).body as unknown as Taught;
		expect(again.outcome.lines).toEqual([]);
		await post("undo", {});
		expect(existsSync(path)).toBe(false);
		expect(state().findings.map(({ code }) => code)).not.toContain("H351");
	});

	it("waits while files have errors: what they hold would be lost", async () => {
		const dir = clubCopy();
		writeFileSync(join(dir, "content/weeks/week-1.md"), "---\nweek: one\n---\n");
		const { post } = deskOf(dir);
		const { status, body } = await post("try-taught", { texts: [one] });
		expect([status, body.refused]).toEqual([409, "errors"]);
		expect(body.problems?.length).toBeGreaterThan(0);
	});
});

it("tells what changed since the edition that was published, as the command does", async () => {
	const dir = clubCopy();
	const published = openHandbook(dir).handbook;
	if (published === undefined) throw new Error("the club has errors");
	const { plan, post } = deskOf(dir);
	const since = async () => (await post("since", {})).body as unknown as SinceEdition;
	expect(await since()).toEqual({ printed: [] });
	mkdirSync(join(dir, "_site/data"), { recursive: true });
	const record = recordOf(published, published.edition);
	writeFileSync(join(dir, "_site/data/record.json"), JSON.stringify(record));
	expect((await since()).view?.nothing).toBe(true);
	await plan([{ set: { block: "1/floor/1", minutes: 12 } }]);
	const { view } = await since();
	const lines = view?.weeks.changed.flatMap((week) => week.lines);
	expect(lines).toEqual([{ about: expect.stringContaining("block 1"), before: "10", after: "12" }]);
	const now = openHandbook(dir).handbook;
	const compared = now && compare(record, recordOf(now, now.edition));
	expect(compared?.things.week.changed.map(({ fields }) => fields.length)).toEqual([lines?.length]);
	expect(view?.numbers.length).toBe(Math.min(40, compared?.numbers.length ?? 0));
});

it("makes a form field of every field that a club can write, in both languages", () => {
	const dir = clubCopy();
	const french = clubCopy();
	cpSync(join(dir, "_data/club.yaml"), join(french, "_data/club.yaml"));
	writeFileSync(join(french, "_data/club.yaml"), "name: Club\nlanguage: fr\n");
	for (const [folder, language] of [
		[dir, "en"],
		[french, "fr"],
	] as const) {
		const { api } = deskOf(folder);
		for (const kind of [
			"drill",
			"week",
			"guide",
			"levels",
			"apparatus",
			"shapes",
			"skills",
			"equipment",
			"purposes",
			"term",
			"targets",
			"club",
		]) {
			const fields = api.get("form", new URLSearchParams({ kind }))?.body as readonly {
				name: string;
				label: string;
				help: string;
				required: boolean;
			}[];
			const schema = JSON.parse(
				readFileSync(join(REPOSITORY, `scripts/validate/schemas/${kind}.schema.json`), "utf8"),
			);
			const item = schema.definitions?.item ?? schema.definitions?.level ?? schema;
			const own = Object.keys(schema.properties ?? item.properties ?? schema.items.properties ?? {});
			const leftOut = kind === "week" ? ["apparatus"] : kind === "club" ? ["format"] : [];
			expect(
				fields.map(({ name }) => name),
				kind,
			).toEqual(own.filter((name) => !leftOut.includes(name)));
			for (const { name, label, help } of fields) {
				expect(label, `${language} ${kind}.${name}`).not.toBe("");
				expect(help, `${language} ${kind}.${name}`).not.toBe("");
			}
		}
	}
});
