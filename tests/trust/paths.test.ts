/**
 * Attacks by paths, through the commands: a club folder that somebody prepared, and an output that would
 * destroy something. Each stands beside things that must be afterwards as they were, byte for byte.
 */

import {
	existsSync,
	lstatSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	realpathSync,
	rmSync,
	statSync,
	symlinkSync,
	writeFileSync,
} from "node:fs";
import { homedir, tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { build } from "../../scripts/commands/build.ts";
import { exportCommand } from "../../scripts/commands/export.ts";
import { importCommand } from "../../scripts/commands/import.ts";
import { nextTermCommand } from "../../scripts/commands/next-term.ts";
import { noteEdition, noteInClub } from "../../scripts/commands/note-edition.ts";
import { outputFault } from "../../scripts/commands/output-folder.ts";
import { printCommand } from "../../scripts/commands/print.ts";
import { readPlan } from "../../scripts/commands/read-plan.ts";
import { rename } from "../../scripts/commands/rename.ts";
import { reportFault } from "../../scripts/commands/report-fault.ts";
import { undo } from "../../scripts/commands/undo.ts";
import { updatePacket } from "../../scripts/commands/update-packet.ts";
import { lastRecord, writeRecord } from "../../scripts/edit/change-records.ts";
import { changesBetween } from "../../scripts/edit/change-set.ts";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { makeChanges, mendInterrupted } from "../../scripts/edit/make-changes.ts";
import { Cache, cacheFolder } from "../../scripts/files/cache.ts";
import { LeadsOut, openFolder } from "../../scripts/files/folder.ts";
import { sha256 } from "../../scripts/files/hash.ts";
import { sealOf } from "../../scripts/files/machine-key.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { binderOf } from "../../scripts/print/edition-file.ts";
import {
	CLUB_RECORD,
	clubRecord,
	contentHash,
	editionRecord,
	outputRecord,
} from "../../scripts/read/club-edition.ts";
import { textsIn } from "../commands/texts-in.ts";
import { clubCopy } from "../open-fixture.ts";
import { publishOne } from "./publish-editions.ts";

/** A club, and beside it a folder of somebody's with private things. */
function scene() {
	const base = realpathSync(mkdtempSync(join(tmpdir(), "paths-")));
	onTestFinished(() => rmSync(base, { recursive: true, force: true }));
	const club = join(base, "club");
	const source = clubCopy();
	for (const [path, text] of textsIn(source)) {
		mkdirSync(join(club, path, ".."), { recursive: true });
		writeFileSync(join(club, path), text);
	}
	const home = join(base, "home");
	mkdirSync(join(home, "sub"), { recursive: true, mode: 0o700 });
	for (const [name, text] of [
		["profile", "mine"],
		["tax.txt", "private"],
		["sub/id_rsa", "a key"],
		["week-1.md", "not a page"],
	] as const)
		writeFileSync(join(home, name), text);
	const said: string[] = [];
	const run = {
		clubDir: club,
		outDir: join(club, "_site"),
		out: { line: (text: string) => void said.push(text), colour: false },
		progress: { stream: { write: () => undefined }, live: false },
		now: new Date("2027-01-04T09:00:00Z"),
	};
	const before = state(home);
	return { base, club, home, run, said, isUntouched: () => expect(state(home)).toBe(before) };
}

function state(dir: string): string {
	return readdirSync(dir, { recursive: true, withFileTypes: true })
		.map((entry) => {
			const path = join(entry.parentPath, entry.name);
			const info = lstatSync(path);
			return `${path} ${info.mode} ${entry.isFile() ? `${info.nlink} ${readFileSync(path, "utf8")}` : ""}`;
		})
		.sort()
		.join("\n");
}

const RENAME = { thing: "drill:rock", to: "rocking" } as const;

describe("records of changes that came with the folder", () => {
	/** A record as this program writes them, but for the seal. */
	const planted = (changes: readonly object[], more: object = {}) =>
		JSON.stringify({ format: 1, what: "rename a b", state: "begun", seal: "0".repeat(64), changes, ...more });
	const RECORDS: readonly (readonly [string, (home: string) => string])[] = [
		["climbing out", () => planted([{ path: "../home/profile", before: "evil" }])],
		["absolute", (home) => planted([{ path: join(home, "profile"), before: "evil" }])],
		["making folders outside", () => planted([{ path: "../home/new/deep/authorized_keys", before: "evil" }])],
		["deleting outside", () => planted([{ path: "../home/tax.txt", after: "private" }])],
		[
			"climbing out of content",
			() => planted([{ path: "content/drills/../../../home/week-1.md", before: "evil" }]),
		],
		["of a hook of version control", () => planted([{ path: ".git/hooks/pre-commit", before: "evil" }])],
		["of the editor's tasks", () => planted([{ path: ".vscode/tasks.json", before: "evil" }])],
		[
			"of a whole folder",
			(home) =>
				JSON.stringify({
					format: 1,
					what: "next-term",
					state: "begun",
					seal: "0".repeat(64),
					made: { folder: home, beside: home, files: { "tax.txt": sha256("private") } },
				}),
		],
		[
			"in the old form",
			() =>
				JSON.stringify({ what: "x", state: "begun", changes: [{ path: "../home/profile", before: "evil" }] }),
		],
		["that is no JSON", () => "{"],
		["with a prototype in it", () => planted([], { __proto__: { state: "begun" } })],
	];

	it.each(RECORDS)("%s: no command writes by it, with or without --write", (_name, record) => {
		const { club, home, run, isUntouched } = scene();
		mkdirSync(join(club, ".handbook/changes"), { recursive: true });
		writeFileSync(join(club, ".handbook/changes/000001.json"), record(home));
		writeFileSync(join(club, ".git"), "");
		const before = textsIn(club);
		expect(rename(run, { ...RENAME, write: false })).toBe(0);
		expect(undo(run)).toBe(0);
		expect(textsIn(club)).toEqual(before);
		expect(rename(run, { ...RENAME, write: true })).toBe(0);
		expect(undo(run)).toBe(0);
		expect(textsIn(club)).toEqual(before);
		expect(undo(run)).toBe(0);
		expect(textsIn(club)).toEqual(before);
		isUntouched();
	});

	it.each([
		["another text", (text: string) => text.replace("Rock", "Evil")],
		[
			"another path",
			(text: string) =>
				text.replaceAll("content/drills/floor/rocking.md", "content/drills/floor/wedge-roll.md"),
		],
		["another state", (text: string) => text.replace('"made"', '"begun"')],
	])("this machine's own record with %s counts no more", (_what, change) => {
		const { club, run, said } = scene();
		rename(run, { ...RENAME, write: true });
		const file = join(club, ".handbook/changes/000001.json");
		const text = readFileSync(file, "utf8");
		expect(change(text)).not.toBe(text);
		writeFileSync(file, change(text));
		const before = textsIn(club);
		expect(undo(run)).toBe(0);
		expect(said.join("\n")).toContain("came from another machine or folder");
		expect(textsIn(club)).toEqual(before);
	});

	it("a record of another folder on this machine counts no more", () => {
		const { club, run } = scene();
		const other = scene();
		rename(run, { ...RENAME, write: true });
		mkdirSync(join(other.club, ".handbook/changes"), { recursive: true });
		writeFileSync(
			join(other.club, ".handbook/changes/000001.json"),
			readFileSync(join(club, ".handbook/changes/000001.json")),
		);
		const before = textsIn(other.club);
		expect(undo(other.run)).toBe(0);
		expect(textsIn(other.club)).toEqual(before);
	});

	it.each([".git/hooks/pre-commit", "package.json", "content/../package.json", ".vscode/../x.json"])(
		"even a record with the seal writes nothing to %s",
		(path) => {
			const { club, run } = scene();
			const record = { what: "rename a b", state: "begun", changes: [{ path, before: "evil" }] } as const;
			writeRecord(openFolder(club), "000001", record);
			expect(mendInterrupted(club)).toBeUndefined();
			expect(undo(run)).toBe(0);
			expect(existsSync(join(club, path))).toBe(false);
		},
	);

	it("records are left out by version control", () => {
		const { club, run } = scene();
		rename(run, { ...RENAME, write: true });
		expect(readFileSync(join(club, ".handbook/.gitignore"), "utf8")).toBe("*\n");
	});

	it("a folder of records that is a link out is not written into", () => {
		const { club, home, run, isUntouched } = scene();
		symlinkSync(home, join(club, ".handbook"));
		expect(() => rename(run, { ...RENAME, write: true })).toThrow("leads out");
		isUntouched();
	});
});

describe("an interrupted change and what was written after it", () => {
	/** A rename of which only some files are changed, as a kill leaves it. */
	function interrupted() {
		const all = scene();
		const before = readTexts(all.club);
		rename(all.run, { ...RENAME, write: true });
		const after = readTexts(all.club);
		undo(all.run);
		const changes = changesBetween(before, after);
		return { ...all, before, after, changes };
	}

	/** Stops a change after so many of its files by making the next one fail, and the way back as well. */
	function stopAfter(
		club: string,
		what: string,
		changes: Parameters<typeof makeChanges>[2],
		files: number,
	): void {
		const stuck = changes[files]?.path ?? "";
		// A folder that stands where the new text is laid cannot be written over by it.
		const number = "000001";
		mkdirSync(join(club, ".handbook/new", number, stuck, "in-the-way"), { recursive: true });
		expect(() => makeChanges(club, what, changes)).toThrow();
	}

	it("a change that fails in the middle is taken back at once", () => {
		const { club, changes, before } = interrupted();
		stopAfter(club, "rename", changes, 1);
		expect(readTexts(club)).toEqual(before);
		expect(existsSync(join(club, ".handbook/new"))).toBe(false);
		expect(mendInterrupted(club)).toBeUndefined();
	});

	it("leaves no folder of ours when undo was ended among the last of its steps, and is finished", () => {
		const { club, run } = scene();
		const before = textsIn(club);
		rename(run, { ...RENAME, write: true });
		const door = openFolder(club);
		const last = lastRecord(door);
		if (last === undefined) throw new Error("no record");
		expect(undo(run)).toBe(0);
		// Ended when all texts were back, between two folders of its own.
		writeRecord(door, last.number, { ...last.record, state: "undoing" });
		mkdirSync(join(club, ".handbook/kept"));
		expect(undo(run)).toBe(0);
		expect(textsIn(club)).toEqual(before);
		expect(readdirSync(join(club, ".handbook")).sort()).toEqual([".gitignore", "changes"]);
	});

	it.each([
		["wrote over the very lines", (page: string, text: string) => writeFileSync(page, text.toUpperCase())],
		["removed the file", (page: string) => rmSync(page)],
	])("keeps both texts, and names them, where somebody %s meanwhile", (_how, later) => {
		const { club, run, said, before } = interrupted();
		rename(run, { ...RENAME, write: true });
		const door = openFolder(club);
		const last = lastRecord(door);
		if (last === undefined) throw new Error("no record");
		// Ended before the change was written down as made.
		writeRecord(door, last.number, { ...last.record, state: "begun" });
		const path = "content/weeks/week-1.md";
		later(join(club, path), readFileSync(join(club, path), "utf8"));
		const theirs = existsSync(join(club, path)) ? readFileSync(join(club, path), "utf8") : undefined;
		undo(run);
		expect(existsSync(join(club, path)) ? readFileSync(join(club, path), "utf8") : undefined).toBe(theirs);
		const [, aside = ""] = /week-1\.md: .*the other text is in (\S+)\.$/m.exec(said.join("\n")) ?? [];
		expect(readFileSync(join(club, aside), "utf8")).toBe(before.get(path));
	});

	it("is not taken back over later work by undo, and says so", () => {
		const { club, run, said } = interrupted();
		rename(run, { ...RENAME, write: true });
		const page = join(club, "content/weeks/week-1.md");
		writeFileSync(page, `${readFileSync(page, "utf8")}Later.\n`);
		const before = textsIn(club);
		expect(undo(run)).toBe(1);
		expect(said.at(-1)).toContain("no later work is lost");
		expect(textsIn(club)).toEqual(before);
	});
});

describe("links in a club folder", () => {
	const page = "---\ntitle: A secret\napparatus: floor\nlevels: [junior]\n---\n";
	it.each([
		["content", (home: string) => home],
		["_data", (home: string) => home],
		["content/drills", (home: string) => home],
		["content/weeks", (home: string) => home],
		["content/drills/beam", (home: string) => home],
		["content/drills/floor/extra.md", (home: string) => join(home, "week-1.md")],
		["_data/targets.yaml", (home: string) => join(home, "profile")],
		["content/media", (home: string) => home],
		["content/media", (home: string) => join(home, "..", "nowhere")],
	] as const)("%s leading out is told and not read", (path, target) => {
		const { club, home } = scene();
		writeFileSync(join(home, "week-1.md"), page);
		rmSync(join(club, path), { recursive: true, force: true });
		mkdirSync(join(club, path, ".."), { recursive: true });
		symlinkSync(target(home), join(club, path));
		const { problems, handbook } = openHandbook(club);
		expect(problems.map(({ code, what }) => `${code} ${what}`).join("\n")).toMatch(
			/H116 .*(link out of the club folder|link that leads nowhere)/,
		);
		expect(handbook?.curriculum.drills.has("extra") ?? false).toBe(false);
		expect(existsSync(join(home, "sub/id_rsa"))).toBe(true);
	});

	it("a media folder that leads out shows no picture of it", () => {
		const { club, home } = scene();
		const png = Buffer.from(
			"iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
			"base64",
		);
		writeFileSync(join(home, "passport.png"), png);
		symlinkSync(home, join(club, "content/media"));
		const drill = join(club, "content/drills/floor/rock.md");
		writeFileSync(
			drill,
			readFileSync(drill, "utf8").replace(
				/^title:/m,
				"media: [{file: passport.png, alt: A passport}]\ntitle:",
			),
		);
		const codes = openHandbook(club).problems.map(({ what }) => what);
		expect(codes.join("\n")).toContain("There is no picture or video `passport.png`");
	});

	it("a name prepared for half-written data is not written through", () => {
		const { club, home, run, isUntouched } = scene();
		for (const name of readdirSync(join(club, "_data")))
			symlinkSync(join(home, "profile"), join(club, "_data", `${name}.part`));
		expect(rename(run, { thing: "level:junior", to: "juniors", write: true })).toBe(0);
		isUntouched();
		for (const name of readdirSync(join(club, "_data")).filter((one) => one.endsWith(".yaml")))
			expect(statSync(join(club, "_data", name)).isFile()).toBe(true);
	});

	it("an entry of a cache that is a link is neither read nor written through", () => {
		const { club, home, isUntouched } = scene();
		const kept = cacheFolder(openFolder(club), "print");
		const cache = new Cache(kept, true);
		expect(cache.put("sound", new Uint8Array([1]))).toBe(true);
		writeFileSync(
			join(home, "entry"),
			Buffer.concat([Buffer.from(sealOf(["other", "secret"]), "hex"), Buffer.from("secret")]),
		);
		const before = state(home);
		symlinkSync(join(home, "entry"), join(kept?.path ?? "", "other"));
		expect(cache.find("other")).toBeUndefined();
		expect(cache.put("other", new Uint8Array([2]))).toBe(false);
		cache.sweep();
		expect(state(home)).toBe(before);
		rmSync(join(home, "entry"));
		isUntouched();
	});

	it("a record of the edition that is a link is neither read nor written through", async () => {
		const { club, home, run, said, isUntouched } = scene();
		writeFileSync(join(home, "profile"), editionRecord({ number: 77, date: "2027-01-04", content: "x" }));
		const before = state(home);
		symlinkSync(join(home, "profile"), join(club, CLUB_RECORD));
		expect(clubRecord(club).edition).toBeUndefined();
		mkdirSync(join(club, "_site"));
		noteInClub(run, { number: 78, date: "2027-01-04", content: "y" });
		expect(said.join("\n")).toContain("could not be noted");
		expect(state(home)).toBe(before);
		writeFileSync(join(home, "profile"), "mine");
		isUntouched();
	});

	it("a picture in the media folder that is a link stands for nothing in the edition", () => {
		const { club, home } = scene();
		mkdirSync(join(club, "content/media"));
		symlinkSync(join(home, "tax.txt"), join(club, "content/media/wall.png"));
		const plain = contentHash({ fingerprint: "f" }, [club], []);
		expect(contentHash({ fingerprint: "f" }, [club], ["wall.png", "../../../home/tax.txt"])).toBe(plain);
	});

	it.each(["data", "data/record.json", "record.json"])(
		"an earlier plan whose %s leads out is not read",
		(path) => {
			const { base, home } = scene();
			const earlier = join(base, "earlier");
			mkdirSync(join(earlier, path, ".."), { recursive: true });
			const record = { format: 1, things: {} };
			writeFileSync(join(home, "record.json"), JSON.stringify(record));
			symlinkSync(path === "data" ? home : join(home, "record.json"), join(earlier, path));
			expect(() => readPlan(earlier)).toThrow("leads out");
			expect(readPlan(join(home, "record.json")).record).toEqual(record);
		},
	);

	it("a folder for spreadsheets leading out is not written into", async () => {
		const { club, home, run, isUntouched } = scene();
		symlinkSync(home, join(club, "spreadsheets"));
		await expect(exportCommand(run, { replace: true, json: false })).rejects.toThrow("leads out");
		isUntouched();
	});

	it("a spreadsheet that is a link is not written through", async () => {
		const { base, home, run, isUntouched } = scene();
		const to = join(base, "sheets");
		mkdirSync(to);
		symlinkSync(join(home, "profile"), join(to, "drills.csv"));
		await expect(exportCommand(run, { to, replace: true, json: false })).rejects.toThrow("leads out");
		isUntouched();
	});

	it("an apparatus folder that is a link takes no imported drill outside", async () => {
		const { base, club, home, run, isUntouched } = scene();
		rmSync(join(club, "content/drills/beam"), { recursive: true });
		symlinkSync(home, join(club, "content/drills/beam"));
		writeFileSync(join(base, "drills.csv"), "Title,Apparatus,Levels\nWalk,beam,junior\n");
		const asked = importCommand(run, { files: [join(base, "drills.csv")], write: true, json: false });
		await expect(asked).rejects.toThrow("leads out");
		isUntouched();
	});
});

describe("an output of ours in which something was made a link", () => {
	function published() {
		const found = scene();
		publishOne(found.run.outDir, 1);
		return { ...found, site: realpathSync(found.run.outDir) };
	}

	it.each(["print", "print/binder.pdf", "print/binder.edition.json"])(
		"the binder is not written through %s",
		async (path) => {
			const { home, run, site, isUntouched } = published();
			mkdirSync(join(site, path, ".."), { recursive: true });
			symlinkSync(path === "print" ? home : join(home, "profile"), join(site, path));
			if (path === "print/binder.edition.json") {
				const out = openFolder(site);
				expect(() => out.write(path, "")).toThrow("leads out");
				expect(binderOf(out, "print/binder.pdf", EDITION)).toBeUndefined();
			} else await expect(printCommand(run)).rejects.toThrow("leads out");
			isUntouched();
		},
	);

	it("sheets are not printed through a folder that leads out, and it is said before any is", async () => {
		const { home, run, site, isUntouched } = published();
		symlinkSync(home, join(site, "print"));
		const shown: string[] = [];
		const progress = { stream: { write: (text: string) => shown.push(text) }, live: false };
		const printing = printCommand({ ...run, progress }, { sheets: "store-room" });
		await expect(printing).rejects.toThrow("leads out");
		expect(shown).toEqual([]);
		isUntouched();
	});

	it("the update is not written through a folder that leads out", async () => {
		const { base, club, home, run, site, isUntouched } = published();
		symlinkSync(home, join(site, "print"));
		const { handbook } = openHandbook(club);
		if (handbook === undefined) throw new Error("no handbook");
		const { paper, punch } = handbook.curriculum.club;
		const since = join(base, "since.json");
		writeFileSync(since, JSON.stringify({ ...EARLIER, paper, punch }));
		await expect(updatePacket(run, since)).rejects.toThrow("leads out");
		isUntouched();
	});

	it("the edition is not noted through a folder that leads out", async () => {
		const { home, run, site, isUntouched } = published();
		rmSync(join(site, "data"), { recursive: true });
		symlinkSync(home, join(site, "data"));
		expect(() => noteEdition(run, EDITION)).toThrow("leads out");
		expect(outputRecord(site)).toBeUndefined();
		isUntouched();
	});

	it("such a fault is told in words, with what to do", () => {
		const said: string[] = [];
		reportFault(new LeadsOut("print", "out", "/club/_site"), (text) => said.push(text));
		expect(said.join("\n")).toContain("print leads out of /club/_site");
		expect(said.join("\n")).toContain("Remove the link");
		expect(said.join("\n")).not.toContain("fault");
	});
});

const EDITION = { number: 3, date: "2027-01-04", content: "0123456789" };
const EARLIER = {
	format: 1,
	edition: "1-a",
	title: "Earlier",
	look: "",
	slots: 10,
	issues: [{ id: "1-a", words: "Edition 1" }],
	sections: [],
	leaves: [],
	passages: {},
	numbers: {},
};

describe("an output that is somebody's", () => {
	type Scene = ReturnType<typeof scene>;
	const REFUSED: readonly (readonly [string, RegExp, (at: Scene) => string])[] = [
		["a folder with files", /not empty, and this program did not write it/, ({ home }) => home],
		["a file", /is a file/, ({ home }) => join(home, "profile")],
		["the club itself", /overwrite the club's own files/, ({ club }) => club],
		["around the club", /overwrite the club's own files/, ({ base }) => base],
		["the club's content", /overwrite the club's own files/, ({ club }) => join(club, "content")],
		["below the club's data", /overwrite the club's own files/, ({ club }) => join(club, "_data/new")],
		["the program's records", /overwrite the club's own files/, ({ club }) => join(club, ".handbook/x")],
		[
			"a link to the content",
			/overwrite the club's own files/,
			({ base, club }) => {
				symlinkSync(join(club, "content"), join(base, "lnk"));
				return join(base, "lnk");
			},
		],
		[
			"below a link to the content",
			/overwrite the club's own files/,
			({ base, club }) => {
				symlinkSync(join(club, "content"), join(base, "lnk"));
				return join(base, "lnk/sub");
			},
		],
		[
			"a link to a link to the club",
			/overwrite the club's own files/,
			({ base, club }) => {
				symlinkSync(club, join(base, "one"));
				symlinkSync("one", join(base, "two"));
				return join(base, "two");
			},
		],
		[
			"a checkout",
			/is a checkout: it holds \.git/,
			({ base }) => {
				mkdirSync(join(base, "pages/.git/refs"), { recursive: true });
				return join(base, "pages");
			},
		],
		[
			"a worktree, whose .git is a file",
			/is a checkout: it holds \.git/,
			({ base }) => {
				mkdirSync(join(base, "pages"));
				writeFileSync(join(base, "pages/.git"), "gitdir: elsewhere");
				return join(base, "pages");
			},
		],
		[
			"inside a folder of version control",
			/belongs to version control/,
			({ base }) => {
				mkdirSync(join(base, "pages/.git/refs"), { recursive: true });
				return join(base, "pages/.git/refs");
			},
		],
		["the home folder", /is a home folder/, () => homedir()],
		["around the home folder", /is a home folder|overwrite the club/, () => "/"],
		["a mount point", /is where a drive or a volume is mounted/, () => "/proc"],
		[
			"the club's own place for it, linked elsewhere",
			/is a link that leads out of the club folder/,
			({ club, home }) => {
				symlinkSync(home, join(club, "_site"));
				return join(club, "_site");
			},
		],
		[
			"a linked edition that is a link itself",
			/is a link that leads out of the club folder/,
			({ club, home }) => {
				mkdirSync(join(club, "._site.editions"));
				symlinkSync(home, join(club, "._site.editions/abcd1234"));
				symlinkSync("._site.editions/abcd1234", join(club, "_site"));
				return join(club, "_site");
			},
		],
		[
			"an edition that came with the folder",
			/this program did not write it/,
			({ club }) => {
				mkdirSync(join(club, "._site.editions/abcd1234"), { recursive: true });
				writeFileSync(join(club, "._site.editions/abcd1234/evil.html"), "evil");
				symlinkSync("._site.editions/abcd1234", join(club, "_site"));
				return join(club, "_site");
			},
		],
		[
			"beside a folder of editions that is a link",
			/is a link or a file/,
			({ club, home }) => {
				symlinkSync(home, join(club, "._site.editions"));
				return join(club, "_site");
			},
		],
		[
			"a link in a circle",
			/leads in a circle/,
			({ base }) => {
				symlinkSync("round", join(base, "round"));
				return join(base, "round");
			},
		],
		[
			"a folder with a list that came with it",
			/this program did not write it/,
			({ base }) => {
				mkdirSync(join(base, "site"));
				writeFileSync(join(base, "site/index.html"), "theirs");
				mkdirSync(join(base, ".site.editions"));
				const { ino } = statSync(join(base, "site"));
				// Right for the folder, but not for a single file in it.
				writeFileSync(join(base, ".site.editions", `files-${ino}.json`), '{"index.html": 1}');
				return join(base, "site");
			},
		],
	];

	it.each(REFUSED)("%s is refused before anything is done", (_what, words, lay) => {
		const at = scene();
		const out = lay(at);
		const before = state(at.base);
		expect(outputFault({ clubDir: at.club, outDir: out })).toMatch(words);
		expect(state(at.base)).toBe(before);
	});

	it("ends `build` with 2 and a line, and changes nothing", async () => {
		const { run, home, said, isUntouched } = scene();
		expect(await build({ ...run, outDir: home }, { print: false })).toBe(2);
		expect(said).toEqual([expect.stringMatching(/^\S+home is not empty, .* Nothing was written\.$/)]);
		isUntouched();
	});

	it("a set-aside folder that came with the club is not published", () => {
		const { club } = scene();
		mkdirSync(join(club, "._site.editions/before-1234abcd"), { recursive: true });
		writeFileSync(join(club, "._site.editions/before-1234abcd/evil.html"), "evil");
		publishOne(join(club, "_site"), 1);
		expect(existsSync(join(club, "_site/evil.html"))).toBe(false);
		expect(readFileSync(join(club, "_site/index.html"), "utf8")).toBe("1");
	});

	it("an empty folder, a new one, and one that was written before are taken", () => {
		const { base, club } = scene();
		mkdirSync(join(base, "empty"));
		for (const name of ["empty", "new/deep", "empty"]) {
			const outDir = join(base, name);
			expect(outputFault({ clubDir: club, outDir })).toBeUndefined();
			publishOne(outDir, 1);
			expect(outputFault({ clubDir: club, outDir })).toBeUndefined();
		}
	});

	it("files can be read by a web server whatever the mask, and hold no list of ours", () => {
		const { base } = scene();
		const mask = process.umask(0o077);
		try {
			publishOne(join(base, "site"), 2);
		} finally {
			process.umask(mask);
		}
		const site = realpathSync(join(base, "site"));
		for (const entry of readdirSync(site, { recursive: true, withFileTypes: true })) {
			const mode = statSync(join(entry.parentPath, entry.name)).mode & 0o777;
			expect([entry.name, mode.toString(8)]).toEqual([entry.name, entry.isFile() ? "644" : "755"]);
		}
		expect(statSync(site).mode & 0o777).toBe(0o755);
		expect(statSync(join(site, "..")).mode & 0o777).toBe(0o755);
		expect(readdirSync(site).filter((name) => name.startsWith("."))).toEqual([]);
	});
});

describe("a next term's folder", () => {
	const ask = (run: ReturnType<typeof scene>["run"], to: string) =>
		nextTermCommand(run, { to, starts: "2027-04-19", closed: [], empty: false, write: true });

	it.each([
		[
			"in the content, through a link",
			({ base, club }: ReturnType<typeof scene>) => {
				symlinkSync(join(club, "content"), join(base, "lnk"));
				return join(base, "lnk/next");
			},
		],
		["in the data", ({ club }: ReturnType<typeof scene>) => join(club, "_data/next")],
		["in the output", ({ club }: ReturnType<typeof scene>) => join(club, "_site/next")],
		["a folder with files", ({ home }: ReturnType<typeof scene>) => home],
		["a file", ({ home }: ReturnType<typeof scene>) => join(home, "profile")],
	] as const)("%s is refused", (_what, where) => {
		const at = scene();
		const to = where(at);
		const before = textsIn(at.club);
		expect(ask(at.run, to)).toBe(2);
		expect(textsIn(at.club)).toEqual(before);
		at.isUntouched();
	});

	it("is taken back by undo while nobody wrote in it, and not afterwards", () => {
		const { base, club, run, said } = scene();
		const to = join(base, "next");
		const before = textsIn(club);
		expect(ask(run, to)).toBe(0);
		writeFileSync(join(to, "content/notes.txt"), "mine");
		expect(undo(run)).toBe(1);
		expect(said.at(-1)).toContain("content/notes.txt");
		rmSync(join(to, "content/notes.txt"));
		expect(undo(run)).toBe(0);
		expect(existsSync(to)).toBe(false);
		expect(textsIn(club)).toEqual(before);
	});

	it("takes no file along that a link in the media folder leads to", () => {
		const { base, club, home, run } = scene();
		mkdirSync(join(club, "content/media"));
		symlinkSync(join(home, "sub/id_rsa"), join(club, "content/media/key.png"));
		const to = join(base, "next");
		expect(ask(run, to)).toBe(0);
		expect([...textsIn(to, "latin1").values()].join("\n")).not.toContain("a key");
	});
});
