/** Reading a folder again: what stayed is taken as it was, what changed is seen, however small the change. */

import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type ReadCache, readClub } from "../../scripts/read/read-club.ts";

let club = "";
beforeEach(() => {
	club = mkdtempSync(join(tmpdir(), "club-"));
	mkdirSync(join(club, "content/drills/floor"), { recursive: true });
	for (const id of ["roll", "walk"]) writeDrill(id, "Aaa");
});
afterEach(() => rmSync(club, { recursive: true, force: true }));

const fileOf = (id: string) => join(club, `content/drills/floor/${id}.md`);
const writeDrill = (id: string, title: string) =>
	writeFileSync(fileOf(id), `---\ntitle: ${title}\napparatus: floor\nlevels: [one]\n---\nBody.\n`);

test("a change of the same length with the same time of change is seen, and nothing else is read anew", () => {
	const cache: ReadCache = new Map();
	const before = readClub(club, cache);
	const time = new Date("2027-01-04T12:00:00Z");
	writeDrill("roll", "Bbb");
	utimesSync(fileOf("roll"), time, time);
	const after = readClub(club, cache);
	writeDrill("roll", "Ccc");
	utimesSync(fileOf("roll"), time, time);
	const last = readClub(club, cache);
	const drill = ({ files }: typeof before, id: string) => files.find((file) => file.id === id);
	expect(drill(after, "roll")?.data).toMatchObject({ title: "Bbb" });
	expect(drill(last, "roll")?.data).toMatchObject({ title: "Ccc" });
	expect(drill(last, "walk")).toBe(drill(before, "walk"));
	expect(last.fingerprint).toBe(readClub(club).fingerprint);
	expect(last.fingerprint).not.toBe(after.fingerprint);
});

test("a file that has long stayed as it is, is taken from the last reading, with the same fingerprint", async () => {
	const cache: ReadCache = new Map();
	await new Promise((resolve) => setTimeout(resolve, 2600));
	const before = readClub(club, cache);
	expect([...cache.values()].every(({ stamp }) => stamp !== undefined)).toBe(true);
	writeDrill("walk", "Bbb");
	const after = readClub(club, cache);
	expect(after.files.find(({ id }) => id === "roll")).toBe(before.files.find(({ id }) => id === "roll"));
	expect(after.files.find(({ id }) => id === "walk")?.data).toMatchObject({ title: "Bbb" });
	expect(after.fingerprint).toBe(readClub(club).fingerprint);
});
