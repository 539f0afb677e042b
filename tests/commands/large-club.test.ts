/** The clubs that benchmarks measure are clubs that build. */

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { writeLargeClub } from "../bench/large-club.ts";
import { REPOSITORY } from "../open-fixture.ts";

it("are written without an error, with as many drills as asked", () => {
	const { handbook: demo } = openHandbook(REPOSITORY);
	if (demo === undefined) throw new Error("The demo has errors.");
	const dir = mkdtempSync(join(tmpdir(), "large-"));
	try {
		writeLargeClub(demo, dir, { drills: 400, words: 125 });
		const { problems, handbook } = openHandbook(dir);
		expect(problems.filter(({ severity }) => severity === "error")).toEqual([]);
		expect(handbook?.curriculum.drills.size).toBe(400);
	} finally {
		rmSync(dir, { recursive: true, force: true });
	}
});
