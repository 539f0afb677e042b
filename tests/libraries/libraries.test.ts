/**
 * Libraries: a club that stands on a region's library, which stands on a federation's. What the club takes
 * is there as if it were written in its folder; what it does not name is not even read.
 */

import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { expect, it, onTestFinished } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import { openClub } from "../../scripts/commands/open-club.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { raw } from "../../scripts/views/html.ts";
import { binderView } from "../../scripts/views/sheets/binder.ts";
import { FIXTURES } from "../open-fixture.ts";

/** The three folders, beside each other; gives the club's. */
function scene(): string {
	const dir = mkdtempSync(join(tmpdir(), "libraries-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	cpSync(join(FIXTURES, "libraries"), dir, { recursive: true });
	return join(dir, "club");
}

function change(club: string, file: string, from: string, to: string): void {
	const path = join(club, file);
	const text = readFileSync(path, "utf8");
	expect(text).toContain(from);
	writeFileSync(path, text.replace(from, to));
}

function opened(club: string) {
	const { problems, handbook } = openHandbook(club);
	expect(problems).toEqual([]);
	if (handbook === undefined) throw new Error("no handbook");
	return handbook;
}

it("takes what the plan names, and what that names in turn, and nothing else", () => {
	const { curriculum } = opened(scene());
	// The week names the wedge and the wave; the wedge comes after the rock, whose easier form is another.
	expect([...curriculum.drills.keys()].sort()).toEqual([
		"rock-and-stand",
		"rock-on-back",
		"roll-down-wedge",
		"wave",
	]);
	expect([...curriculum.skills.keys()].sort()).toEqual(["forward-roll", "rock"]);
	expect([...curriculum.shapes.keys()].sort()).toEqual(["straight", "tuck"]);
	expect([...curriculum.equipment.keys()].sort()).toEqual(["panel-mat", "wedge"]);
	expect([...curriculum.guides.keys()]).toEqual([]);
	expect(curriculum.weeks[0]?.apparatus[0]?.blocks[0]?.stations[0]?.drill).toBe("roll-down-wedge");
});

it("changes a page field by field, and levels are the club's", () => {
	const { curriculum } = opened(scene());
	const rock = curriculum.drills.get("rock-and-stand");
	expect(rock?.cues).toEqual(["Chin in", "Feet under you"]);
	expect(rock?.summary).toBe("Rock, and stand up with no hands.");
	expect(rock?.shapes).toEqual(["tuck"]);
	expect(rock?.body).toContain("as we do it here");
	expect(rock?.media).toEqual([]);
	expect([...(rock?.levels.keys() ?? [])]).toEqual(["beginners", "level-1"]);
	expect(curriculum.levels.get("beginners")?.name).toBe("Small ones");
	expect([...curriculum.levels.keys()]).toEqual(["beginners", "level-1"]);
	// The club has no list of apparatus: the library's stands for it.
	expect([...curriculum.apparatus.keys()]).toEqual(["floor", "beam", "bars"]);
	expect(curriculum.equipment.get("panel-mat")).toMatchObject({ name: "Panel mat", owned: 6 });
	expect(curriculum.shapes.get("tuck")?.description).toBe("Knees to the chest, chin in.");
});

it("leaves out what a page says of drills that are for nobody here", () => {
	const wedge = opened(scene()).curriculum.drills.get("roll-down-wedge");
	expect(wedge?.after).toEqual(["rock-and-stand"]);
	expect(wedge?.harder).toEqual(["Roll onto the block", "Narrower."]);
	expect(wedge?.body).toBe("Roll down the slope, then onto the block.\n");
	// A plan that names such a drill is told so.
	const club = scene();
	change(club, "content/weeks/week-01.md", "drill: wave", "drill: roll-onto-block");
	expect(openHandbook(club).problems).toMatchObject([
		{
			code: "H201",
			what: "There is no level `level-2`.",
			place: { file: "../federation/content/drills/floor/roll-onto-block.md" },
		},
	]);
});

it("says on a page where it comes from, under which licence, and what is changed", () => {
	const handbook = opened(scene());
	const { origins } = handbook.curriculum;
	expect(origins.get("drill:rock-and-stand")).toEqual({
		from: [{ name: "Lakeside Region" }, { name: "Northern Federation", licence: "CC BY 4.0" }],
		changed: ["cues", "media", "text"],
	});
	expect(origins.get("drill:wave")).toBeUndefined();
	const page = sitePages(handbook).find(({ address }) => address === "drills/rock-and-stand/");
	if (page === undefined) throw new Error("no page");
	const text = documentOf(page, (_, code) => raw(code));
	expect(text).toContain("Lakeside Region, changed from Northern Federation (CC BY 4.0).");
	expect(text).toContain("This club changed cues, media, text.");
	const { sections } = binderSheets(binderView(handbook));
	const printed = JSON.stringify(sections);
	expect(printed).toContain("This club changed cues, media, text.");
	expect(printed.split("Northern Federation (CC BY 4.0)").length).toBeGreaterThan(3);
});

it("takes nothing of a library where a page stands for itself", () => {
	const club = scene();
	writeFileSync(
		join(club, "content/drills/floor/rock-and-stand.md"),
		"---\ntitle: Our rock\napparatus: floor\nlevels: [beginners]\nfrom-library: false\n---\nOurs.\n",
	);
	const { curriculum } = opened(club);
	expect(curriculum.drills.get("rock-and-stand")).toMatchObject({ title: "Our rock", shapes: [], cues: [] });
	expect(curriculum.origins.has("drill:rock-and-stand")).toBe(false);
	expect(curriculum.drills.has("rock-on-back")).toBe(false);
});

it("takes more where it is asked for: by id, or all", () => {
	const club = scene();
	change(club, "_data/club.yaml", "[../region]", "[{from: ../region, take: [guide:mats]}]");
	expect([...opened(club).curriculum.guides.keys()]).toEqual(["mats"]);
	change(join(club, "../region"), "_data/club.yaml", "[../federation]", "[{from: ../federation, take: all}]");
	// The cast is for Level 2, which the club has not.
	expect(opened(club).curriculum.drills.has("cast-to-stand")).toBe(false);
});

it("says whose file a problem is in", () => {
	const club = scene();
	change(
		join(club, "../federation"),
		"content/drills/floor/roll-down-wedge.md",
		"skills: [forward-roll]",
		"skills: [handspring]",
	);
	const [problem, ...others] = openHandbook(club).problems;
	expect(others).toEqual([]);
	expect(problem).toMatchObject({
		code: "H201",
		place: { file: "../federation/content/drills/floor/roll-down-wedge.md", line: 6, column: 10 },
	});
	// What nobody takes may be as wrong as it likes.
	change(
		join(club, "../federation"),
		"content/drills/floor/roll-down-wedge.md",
		"[handspring]",
		"[forward-roll]",
	);
	change(
		join(club, "../federation"),
		"content/drills/bars/cast-to-stand.md",
		"skills: [cast]",
		"skils: [cast",
	);
	opened(club);
});

it("is the same edition while what it takes is, and another when that changes", () => {
	const club = scene();
	const edition = () => opened(club).edition.content;
	const before = edition();
	change(join(club, "../federation"), "content/drills/bars/cast-to-stand.md", "Cast back", "Swing back");
	expect(edition()).toBe(before);
	change(join(club, "../federation"), "content/drills/floor/rock-on-back.md", "to and fro", "back and forth");
	expect(edition()).not.toBe(before);
});

it("shows pictures of the library's media folder, and the club's own before them", async () => {
	const club = scene();
	change(club, "content/drills/floor/rock-and-stand.md", "media: null\n", "");
	expect(openHandbook(club).problems.map(({ code }) => code)).toEqual(["H211"]);
	const picture = (red: number) =>
		sharp({ create: { width: 40, height: 20, channels: 3, background: { r: red, g: 0, b: 0 } } })
			.png()
			.toBuffer();
	const put = async (folder: string, red: number) => {
		mkdirSync(join(folder, "content/media"), { recursive: true });
		writeFileSync(join(folder, "content/media/rock.png"), await picture(red));
	};
	const shown = async () => {
		const { opened: one, problems } = await openClub(club, { keep: false });
		expect(problems).toEqual([]);
		return { content: one?.handbook.edition.content, of: one?.media.byDrill.get("rock-and-stand")?.length };
	};
	await put(join(club, "../federation"), 200);
	const theirs = await shown();
	expect(theirs.of).toBe(1);
	await put(club, 10);
	expect((await shown()).content).not.toBe(theirs.content);
});

it("is found by the name of an installed package too, and a circle ends", () => {
	const club = scene();
	const installed = join(club, "node_modules/northern-drills");
	cpSync(join(club, "../federation"), installed, { recursive: true });
	writeFileSync(join(installed, "package.json"), '{"name": "northern-drills", "version": "1.0.0"}');
	change(club, "_data/club.yaml", "[../region]", "[northern-drills]");
	writeFileSync(join(installed, "_data/club.yaml"), "name: Northern\nlibraries: [../..]\n");
	const { curriculum } = opened(club);
	expect(curriculum.origins.get("drill:roll-down-wedge")?.from).toEqual([{ name: "Northern" }]);
	expect(curriculum.drills.get("roll-down-wedge")?.source.file).toBe(
		"northern-drills/content/drills/floor/roll-down-wedge.md",
	);
});

it("reads of ten thousand drills only those that are taken", () => {
	const club = scene();
	const folder = join(club, "../federation/content/drills/floor");
	for (let i = 0; i < 2000; i++) writeFileSync(join(folder, `other-${i}.md`), "---\nnot: read\n---\n");
	const { curriculum } = opened(club);
	expect(readdirSync(folder).length).toBeGreaterThan(2000);
	expect(curriculum.drills.size).toBe(4);
});
