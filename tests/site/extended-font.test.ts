/** Devices keep the font for letters beyond Western European ones where the club writes such, and else not. */

import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it, onTestFinished } from "vitest";
import { openFolder } from "../../scripts/files/folder.ts";
import { writeOffline } from "../../scripts/site/write-offline.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { REPOSITORY } from "../open-fixture.ts";

const FONT = "assets/text-latin-ext.woff2";

async function isKept(text: string): Promise<boolean> {
	const dir = mkdtempSync(join(tmpdir(), "font-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	openFolder(dir).write(FONT, "a font");
	const { files } = await writeOffline(dir, {
		edition: { number: 1, date: "2026-11-30", content: "" },
		words: wordsFor("fr"),
		records: [{ name: "club", text: JSON.stringify({ name: text }) }],
		others: [FONT],
		readyMade: [],
	});
	return files.length === 1;
}

it.each([
	["Club de Łódź", true],
	["Győr", true],
	["Cœur de chœur, été, naïf, Straße", false],
])("for %s: %s", async (name, expected) => {
	expect(await isKept(name)).toBe(expected);
});

it.each(["en", "fr"])("the words in %s have none of these letters", async (language) => {
	expect(await isKept(readFileSync(join(REPOSITORY, `scripts/words/${language}.ts`), "utf8"))).toBe(false);
});
