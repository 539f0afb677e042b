/** Eleventy, the last stage, as the build sets it up. */

import { afterEach, expect, it, vi } from "vitest";
import configure from "../../eleventy.config.ts";
import { REPOSITORY } from "../open-fixture.ts";

afterEach(() => vi.restoreAllMocks());

it("says nothing to who builds a handbook of how long examples of code took", async () => {
	// Not among what the package exports, as the build hands it over.
	const { default: UserConfig } = await import(`${REPOSITORY}/node_modules/@11ty/eleventy/src/UserConfig.js`);
	const said: unknown[] = [];
	for (const way of ["log", "warn", "error"] as const)
		vi.spyOn(console, way).mockImplementation((...text) => void said.push(text));
	const slow = (set: (config: unknown) => void): void => {
		const config = new UserConfig();
		set(config);
		const example = config.benchmarks.config.get("highlight");
		example.timeSpent = 1e6;
		example.timesCalled = 3;
		config.benchmarkManager.finish();
	};
	slow(() => undefined);
	expect(String(said)).toContain("highlight");
	said.length = 0;
	slow((config) => configure(config as Parameters<typeof configure>[0]));
	expect(said).toEqual([]);
});
