/**
 * The door to the file system: every way to ask for something outside, with every way to lead there. Each
 * is refused, and what stands outside is afterwards as it was.
 */

import { execFileSync, spawnSync } from "node:child_process";
import {
	chmodSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	realpathSync,
	rmSync,
	statSync,
	symlinkSync,
	utimesSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished, vi } from "vitest";
import { Cache, cacheFolder, programCache } from "../../scripts/files/cache.ts";
import { type Folder, isInside, LeadsOut, openFolder, realPlace } from "../../scripts/files/folder.ts";
import { sha256 } from "../../scripts/files/hash.ts";
import { sealOf } from "../../scripts/files/machine-key.ts";

/** A club, and beside it what it must not reach: a folder whose name goes on from the club's, and a file. */
function scene() {
	const base = realpathSync(mkdtempSync(join(tmpdir(), "door-")));
	onTestFinished(() => rmSync(base, { recursive: true, force: true }));
	const club = join(base, "club");
	const outside = join(base, "club-secret");
	mkdirSync(join(club, "content"), { recursive: true });
	mkdirSync(join(outside, "inner"), { recursive: true });
	writeFileSync(join(outside, "file"), "outside");
	writeFileSync(join(outside, "inner", "file"), "outside");
	writeFileSync(join(club, "own"), "own");
	return { base, club, outside, door: openFolder(club) };
}

/** Ways that lead out, by what they are called; each gives the path to ask for. */
const WAYS: readonly (readonly [string, (club: string, outside: string) => string])[] = [
	["climbing", () => "../club-secret/file"],
	["climbing from within", () => "content/../../club-secret/file"],
	["an absolute path", (_club, outside) => join(outside, "file")],
	[
		"a linked folder",
		(club, outside) => {
			symlinkSync(outside, join(club, "way"));
			return "way/file";
		},
	],
	[
		"a linked folder, given from the club",
		(club) => {
			symlinkSync("../club-secret", join(club, "way"));
			return "way/inner/file";
		},
	],
	[
		"a link to a link",
		(club, outside) => {
			symlinkSync(outside, join(club, "far"));
			symlinkSync("far", join(club, "way"));
			return "way/file";
		},
	],
	[
		"a folder that is not there yet, behind a link",
		(club, outside) => {
			symlinkSync(outside, join(club, "way"));
			return "way/new/deep/file";
		},
	],
	[
		"a link to nowhere outside",
		(club, outside) => {
			symlinkSync(join(outside, "not-yet"), join(club, "way"));
			return "way/file";
		},
	],
	[
		"a link in a circle",
		(club) => {
			symlinkSync("way", join(club, "way"));
			return "way/file";
		},
	],
	["a name with a zero byte", () => "own\0/../../club-secret/file"],
];

const ASKED: readonly (readonly [string, (door: Folder, path: string) => unknown])[] = [
	["read", (door, path) => door.read(path)],
	["look at", (door, path) => door.info(path)],
	["list", (door, path) => door.list(path)],
	["write", (door, path) => door.write(path, "x")],
	["write new", (door, path) => door.writeNew(path, "x")],
	["make a folder at", (door, path) => door.makeFolder(path)],
	["remove", (door, path) => door.remove(path)],
	["remove all of", (door, path) => door.removeAll(path)],
	["rename to", (door, path) => door.rename("own", path)],
	["rename from", (door, path) => door.rename(path, "mine")],
	["link to", (door, path) => door.link("own", path)],
	["link from", (door, path) => door.link(path, "mine")],
	["make a link to", (door, path) => door.symlink(path, "mine")],
];

function everythingIn(folder: string): string {
	return readdirSync(folder, { recursive: true, withFileTypes: true })
		.map((entry) => {
			const path = join(entry.parentPath, entry.name);
			return `${path} ${statSync(path).mode} ${entry.isFile() ? readFileSync(path, "utf8") : ""}`;
		})
		.sort()
		.join("\n");
}

describe.each(WAYS)("%s leads nowhere", (_name, lay) => {
	it.each(ASKED)("asked to %s it", (_what, ask) => {
		const { club, outside, door } = scene();
		const path = lay(club, outside);
		const before = everythingIn(outside);
		expect(() => ask(door, path)).toThrow(LeadsOut);
		expect(everythingIn(outside)).toBe(before);
		expect(readFileSync(join(club, "own"), "utf8")).toBe("own");
	});
});

describe("a link at the very place", () => {
	it("is not written through when it leads out, and not read", () => {
		const { club, outside, door } = scene();
		symlinkSync(join(outside, "file"), join(club, "page.md"));
		expect(() => door.write("page.md", "x")).toThrow(LeadsOut);
		expect(() => door.read("page.md")).toThrow(LeadsOut);
		expect(() => door.writeNew("page.md", "x")).toThrow("EEXIST");
		expect(readFileSync(join(outside, "file"), "utf8")).toBe("outside");
	});

	it("is removed itself, and what it leads to stays", () => {
		const { club, outside, door } = scene();
		symlinkSync(outside, join(club, "way"));
		door.removeAll("way");
		expect(existsSync(join(club, "way"))).toBe(false);
		expect(readFileSync(join(outside, "inner", "file"), "utf8")).toBe("outside");
	});

	it("that stays inside is followed, and stays a link", () => {
		const { club, door } = scene();
		symlinkSync("own", join(club, "way"));
		door.write("way", "new");
		expect(door.isLink("way")).toBe(true);
		expect(readFileSync(join(club, "own"), "utf8")).toBe("new");
	});

	it("prepared under the old name for half-written files is not written through", () => {
		const { club, outside, door } = scene();
		symlinkSync(join(outside, "file"), join(club, "own.part"));
		door.write("own", "new");
		expect(readFileSync(join(outside, "file"), "utf8")).toBe("outside");
		expect(readFileSync(join(club, "own"), "utf8")).toBe("new");
		expect(readdirSync(club).sort()).toEqual(["content", "own", "own.part"]);
	});
});

describe("writing", () => {
	it("keeps permissions and leaves nothing beside", () => {
		const { club, door } = scene();
		chmodSync(join(club, "own"), 0o640);
		door.write("own", "new");
		expect(statSync(join(club, "own")).mode & 0o777).toBe(0o640);
		door.writeNew("content/drills/one.md", "one");
		expect(() => door.writeNew("content/drills/one.md", "two")).toThrow("EEXIST");
		expect(readFileSync(join(club, "content/drills/one.md"), "utf8")).toBe("one");
		expect(door.files()).toEqual(["content/drills/one.md", "own"]);
	});

	it("changes nothing where the place cannot be taken", () => {
		const { door } = scene();
		expect(() => door.write("content", "x")).toThrow();
		expect(door.files()).toEqual(["own"]);
	});
});

describe("where a path really is", () => {
	it("is told also for what is not there yet, through links", () => {
		const { base, club, outside } = scene();
		symlinkSync(outside, join(base, "lnk"));
		expect(realPlace(join(base, "lnk", "new", "deep"))).toBe(join(outside, "new", "deep"));
		symlinkSync(join(club, "later"), join(base, "soon"));
		expect(realPlace(join(base, "soon", "sub"))).toBe(join(club, "later", "sub"));
	});

	it("a folder whose name goes on from another's is not inside it", () => {
		expect(isInside("/a/club", "/a/club-secret")).toBe(false);
		expect(isInside("/a/club", "/a/club/..secret")).toBe(true);
		expect(isInside("/a/club", "/a")).toBe(false);
		expect(isInside("/", "/a")).toBe(true);
	});
});

it.runIf(process.platform !== "win32")("a pipe is not waited for", () => {
	const { club } = scene();
	execFileSync("mkfifo", [join(club, "pipe")]);
	// In another process: whoever opened it would wait for ever.
	const code = `import { openFolder } from ${JSON.stringify(DOOR)};
		try { openFolder(process.argv[1]).read("pipe"); } catch (error) { console.log(error.message); }`;
	const args = ["--input-type=module", "--eval", code, club];
	const { stdout } = spawnSync(process.execPath, args, { encoding: "utf8", timeout: 20_000 });
	expect(stdout).toContain("not a file: pipe");
});

const DOOR = new URL("../../scripts/files/folder.ts", import.meta.url).href;

describe("what is kept", () => {
	it("is taken again only as it was written, under its own name, by this machine", () => {
		const { door } = scene();
		const folder = cacheFolder(door, "things");
		const bytes = Buffer.from("made with care");
		new Cache(folder, true).put("one", bytes);
		const again = () => new Cache(folder, true);
		expect(again().find("one")).toEqual(bytes);

		const file = join(folder?.path ?? "", "one");
		const whole = readFileSync(file);
		writeFileSync(join(folder?.path ?? "", "two"), whole);
		expect(again().find("two")).toBeUndefined();
		for (const at of [0, 20, whole.length - 1]) {
			const damaged = Buffer.from(whole);
			damaged[at] = (damaged[at] ?? 0) ^ 1;
			writeFileSync(file, damaged);
			expect(again().find("one")).toBeUndefined();
		}
		writeFileSync(file, whole.subarray(0, -1));
		expect(again().find("one")).toBeUndefined();
		// Somebody else's, made by the same rule without the key.
		writeFileSync(file, Buffer.concat([Buffer.from(sha256(["one", bytes]), "hex"), bytes]));
		expect(again().find("one")).toBeUndefined();
	});

	it("is left to a number, the newest of it", () => {
		const { door } = scene();
		const place = cacheFolder(door, "things");
		const cache = new Cache(place, true);
		for (const name of ["one", "two", "three"]) {
			cache.put(name, Buffer.from(name));
			const time = new Date(2027, 0, name.length + (name === "two" ? 1 : 0));
			utimesSync(join(place?.path ?? "", name), time, time);
		}
		cache.leave(3);
		expect(readdirSync(place?.path ?? "")).toHaveLength(3);
		cache.leave(2);
		expect(readdirSync(place?.path ?? "")).toEqual(["three", "two"]);
		expect(cache.findJson("two")).toBeUndefined();
		cache.put("list", Buffer.from("[1]"));
		expect(cache.findJson("list")).toEqual([1]);
	});

	it("lies in no club folder, and two clubs share none of it", () => {
		const one = scene();
		const other = scene();
		const folder = cacheFolder(one.door, "things")?.path ?? "";
		const before = readdirSync(one.club, { recursive: true }).sort();
		new Cache(cacheFolder(one.door, "things"), true).put("one", Buffer.from("x"));
		expect(readdirSync(folder)).toContain("one");
		expect(readdirSync(one.club, { recursive: true }).sort()).toEqual(before);
		expect(cacheFolder(other.door, "things")?.path).not.toBe(folder);
		// A way to the folder through a link is the same club.
		symlinkSync(one.club, join(other.outside, "link"));
		expect(cacheFolder(openFolder(join(other.outside, "link")), "things")?.path).toBe(folder);
	});

	it("where it cannot be written is made anew, and that is no fault", () => {
		const { door, outside } = scene();
		writeFileSync(join(outside, "no-folder"), "");
		vi.stubEnv("XDG_CACHE_HOME", join(outside, "no-folder"));
		expect(cacheFolder(door, "things")).toBeUndefined();
		const cache = programCache("things");
		expect(cache.put("one", Buffer.from("x"))).toBe(false);
		expect(cache.find("one")).toBeUndefined();
		vi.unstubAllEnvs();
	});

	it("parts that are cut elsewhere have another seal", () => {
		expect(sealOf(["ab", "c"])).not.toBe(sealOf(["a", "bc"]));
		expect(sealOf(["ab", "c"])).toBe(sealOf(["ab", "c"]));
	});
});

it("the hash is SHA-256 as it is published", () => {
	// FIPS 180-4's example for "abc", as NIST's "SHA256" example values give it.
	expect(sha256("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
	expect(sha256(["a", Buffer.from("bc")])).toBe(sha256("abc"));
});
