/**
 * The edition as a director meets it: built again, changed, on another machine, from a folder that
 * cannot be written, and the same on site, in data and on paper.
 */

import {
	appendFileSync,
	chmodSync,
	cpSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { describe, expect, it, onTestFinished } from "vitest";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import { ownOutput } from "../../scripts/commands/note-edition.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import type { ClubEdition } from "../../scripts/model.ts";
import { binderOf } from "../../scripts/print/binder.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";
import { handbook as command } from "../run-command.ts";

/** Noon of a day in UTC, in the seconds of `SOURCE_DATE_EPOCH`. */
const noon = (day: string) => String(Date.parse(`${day}T12:00:00Z`) / 1000);

async function build(clubDir: string, day: string, args: readonly string[] = []) {
	const { status, stdout, stderr } = await command(["build", "--no-print", "--club", clubDir, ...args], {
		env: { ...process.env, SOURCE_DATE_EPOCH: noon(day) },
	});
	return { status, said: stdout + stderr };
}

function editionIn(file: string): ClubEdition {
	return JSON.parse(readFileSync(file, "utf8")) as ClubEdition;
}

const inOutput = (clubDir: string) => editionIn(join(ownOutput(clubDir), "data/edition.json"));
const inClub = (clubDir: string) => editionIn(join(clubDir, "_data/edition.json"));

function scratch(): string {
	const dir = mkdtempSync(join(tmpdir(), "edition-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	return dir;
}

const DRILL = "content/drills/floor/log-roll.md";

/** The one-drill club of the README. */
function smallClub(language = "en"): string {
	const dir = scratch();
	mkdirSync(join(dir, "content/drills/floor"), { recursive: true });
	mkdirSync(join(dir, "_data"));
	writeFileSync(
		join(dir, DRILL),
		"---\ntitle: Log roll\napparatus: floor\nlevels: [beginners]\n---\nRoll sideways, long and tight.\n",
	);
	writeFileSync(
		join(dir, "_data/club.yaml"),
		`format: 1\nname: Marrowby Gymnastics Club\nlanguage: ${language}\ntimezone: Europe/London\n`,
	);
	return dir;
}

describe("the edition of a club", () => {
	it("stays while nothing changes, grows by one when a drill does, and goes back for no one", async () => {
		const club = smallClub();
		expect((await build(club, "2026-11-28")).said).toContain("edition 1, 28 November 2026");
		const first = inOutput(club);
		expect(first).toMatchObject({ number: 1, date: "2026-11-28" });
		expect(inClub(club)).toEqual(first);

		await build(club, "2026-11-29");
		expect(inOutput(club)).toEqual(first);

		const before = readFileSync(join(club, DRILL), "utf8");
		appendFileSync(join(club, DRILL), "Arms by the ears.\n");
		await build(club, "2026-11-30");
		expect(inOutput(club)).toMatchObject({ number: 2, date: "2026-11-30" });

		writeFileSync(join(club, DRILL), before);
		await build(club, "2026-12-01");
		expect(inOutput(club)).toEqual({ number: 3, date: "2026-12-01", content: first.content });
	});

	it("is the same from the folder alone: another machine, another output, a fresh copy", async () => {
		const club = smallClub();
		await build(club, "2026-11-28");
		appendFileSync(join(club, DRILL), "Arms by the ears.\n");
		await build(club, "2026-11-30");
		const other = scratch();
		for (const folder of ["content", "_data"])
			cpSync(join(club, folder), join(other, folder), { recursive: true });
		await build(other, "2027-03-01");
		expect(inOutput(other)).toEqual(inOutput(club));

		const elsewhere = join(scratch(), "site");
		appendFileSync(join(other, DRILL), "Slowly.\n");
		await build(other, "2027-03-02", ["--out", elsewhere]);
		expect(editionIn(join(elsewhere, "data/edition.json"))).toMatchObject({ number: 3, date: "2027-03-02" });
		// A copy elsewhere leaves the club folder as it is.
		expect(inClub(other).number).toBe(2);
		await build(other, "2027-03-02");
		expect(inOutput(other)).toEqual(editionIn(join(elsewhere, "data/edition.json")));
	});

	it("gives the same bytes for the same edition on another day", async () => {
		const club = smallClub();
		await build(club, "2026-11-28");
		const bytes = () =>
			readdirSync(`${ownOutput(club)}/`, { recursive: true, withFileTypes: true })
				.filter((entry) => entry.isFile())
				.map((entry) => join(entry.parentPath, entry.name))
				.sort()
				.map((file) => [file, readFileSync(file, "latin1")]);
		const before = bytes();
		rmSync(ownOutput(club));
		rmSync(join(ownOutput(club), "../.site.editions"), { recursive: true });
		await build(club, "2027-02-01");
		const names = (list: readonly (readonly unknown[])[]) => list.length;
		expect(names(bytes())).toBe(names(before));
		expect(bytes()).toEqual(before);
	});

	it.skipIf(process.getuid?.() === 0)(
		"lives in the output where the folder cannot be written, and says so",
		async () => {
			const club = smallClub();
			chmodSync(join(club, "_data"), 0o555);
			onTestFinished(() => chmodSync(join(club, "_data"), 0o755));
			expect((await build(club, "2026-11-28")).said).toContain("could not be noted in _data/edition.json");
			appendFileSync(join(club, DRILL), "Arms by the ears.\n");
			await build(club, "2026-11-30");
			expect(inOutput(club)).toMatchObject({ number: 2, date: "2026-11-30" });
			expect(existsSync(join(club, "_data/edition.json"))).toBe(false);
		},
	);

	it("is said where the folder's record stands in the way of being written, and the build is whole", async () => {
		const club = smallClub();
		mkdirSync(join(club, "_data/edition.json"));
		const { status, said } = await build(club, "2026-11-28");
		expect(status).toBe(0);
		expect(said).toContain("Edition 1 could not be noted in _data/edition.json");
		expect(inOutput(club).number).toBe(1);
	});

	it("changes with a picture that a drill shows, and not with the cache or the output", async () => {
		const club = smallClub();
		mkdirSync(join(club, "content/media"));
		const picture = join(club, "content/media/roll.png");
		const paint = (red: number) =>
			sharp({ create: { width: 8, height: 8, channels: 3, background: { r: red, g: 0, b: 0 } } })
				.png()
				.toFile(picture);
		await paint(10);
		const text = readFileSync(join(club, DRILL), "utf8");
		writeFileSync(
			join(club, DRILL),
			text.replace("levels:", "media: [{file: roll.png, alt: A long roll}]\nlevels:"),
		);
		const now = new Date("2026-11-30T12:00:00Z");
		const content = () => openHandbook(club, { now }).handbook?.edition.content;
		const before = content();
		writeFileSync(join(club, "content/media/unused.png"), readFileSync(picture));
		expect(content()).toBe(before);
		await paint(200);
		expect(content()).not.toBe(before);
	});

	it("refuses a moment that is none", async () => {
		const { status, stderr } = await command(["check", "--club", smallClub()], {
			env: { ...process.env, SOURCE_DATE_EPOCH: "yesterday" },
		});
		expect(status).toBe(2);
		expect(stderr).toContain("SOURCE_DATE_EPOCH is no whole number of seconds: yesterday");
	});
});

describe("a reader meets the edition", () => {
	it.each([
		["en", "Edition 1, 30 November 2026", "Edition <b>1, 30 November 2026</b>"],
		["fr", "Édition 1 du 30 novembre 2026", "Édition <b>1 du 30 novembre 2026</b>"],
	])("in the same words on site and paper (%s)", async (language, words, markup) => {
		const club = smallClub(language);
		await build(club, "2026-11-30");
		const read = (file: string) => readFileSync(join(ownOutput(club), file), "utf8");
		expect(read("about/index.html")).toContain(markup);
		expect(read("assets/edition.js")).toContain(`"${words.slice("Edition ".length)}"`);
		const { handbook } = openHandbook(club);
		if (handbook === undefined) throw new Error("The club does not open.");
		const sheets = binderSheets(await binderOf(handbook));
		expect(sheets.edition.words).toBe(words);
		expect(sheets.date).toBe("2026-11-30");
		expect(sheets.sections[0]?.parts[0]?.html.text).toContain(words);
		// The hash stands in data, and in front of no reader.
		const { content } = handbook.edition;
		for (const page of readdirSync(`${ownOutput(club)}/`, { recursive: true }).map(String)) {
			if (page.endsWith(".html")) expect(read(page)).not.toContain(content.slice(0, 8));
		}
		expect(JSON.parse(read("data/handbook.json")).edition).toEqual(handbook.edition);
	});

	it("by a number that goes on in the next term's folder", async () => {
		const club = clubCopy(undefined, join(FIXTURES, "clubs/full-pages"));
		await build(club, "2026-11-30");
		const to = join(scratch(), "next");
		await command(["next-term", "--club", club, "--to", to, "--starts", "2027-04-19", "--write"]);
		await build(to, "2027-04-01");
		expect(inOutput(to)).toMatchObject({ number: 2, date: "2027-04-01" });
	});
});
