import { defineConfig } from "vitest/config";

export default defineConfig({
	test: {
		include: ["tests/**/*.test.ts"],
		testTimeout: 120_000,
		hookTimeout: 240_000,
		// Browsers and layout are heavy: as many files at once as a small machine has cores.
		maxWorkers: 2,
	},
});
