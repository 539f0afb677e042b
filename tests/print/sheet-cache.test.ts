/** What a kept result is called by: everything it was made of, and where each part ends. */

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { expect, it, onTestFinished } from "vitest";
import { openFolder } from "../../scripts/files/folder.ts";
import { digestOf, openCache } from "../../scripts/print/sheet-cache.ts";

const bytes = (text: string) => new TextEncoder().encode(text);

it("two lists of ingredients have one name only where they are the same list", () => {
	const list = fc.array(fc.string({ unit: fc.constantFrom("a", "1", ":", "0"), maxLength: 4 }), {
		maxLength: 5,
	});
	fc.assert(
		fc.property(list, list, (a, b) => {
			expect(digestOf(a) === digestOf(b)).toBe(JSON.stringify(a) === JSON.stringify(b));
		}),
		{ numRuns: 2000 },
	);
	// The same letters, parted elsewhere.
	expect(new Set([["ab", "c"], ["a", "bc"], ["abc"], ["abc", ""], ["", "abc"]].map(digestOf)).size).toBe(5);
});

it("keeps by all of its ingredients, and sweeps what nobody asked for", async () => {
	const dir = mkdtempSync(join(tmpdir(), "cache-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	const first = openCache(openFolder(dir));
	expect(await first.keep(["page", "a"], async () => bytes("one"))).toEqual(bytes("one"));
	expect(await first.keep(["pagea"], async () => bytes("two"))).toEqual(bytes("two"));
	const again = openCache(openFolder(dir));
	const never = async () => {
		throw new Error("it was kept");
	};
	expect(Buffer.from(await again.keep(["page", "a"], never)).toString()).toBe("one");
	expect(again.find(["page", "b"])).toBeUndefined();
	again.sweep();
	expect(openCache(openFolder(dir)).find(["pagea"])).toBeUndefined();
	expect(openCache(openFolder(dir)).find(["page", "a"])).toBeDefined();
});
