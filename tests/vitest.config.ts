import { tmpdir } from "node:os";
import { join } from "node:path";
import { defineConfig } from "vitest/config";

export default defineConfig({
	test: {
		include: ["tests/**/*.test.ts"],
		setupFiles: ["tests/end-stuck-file.ts"],
		globalSetup: ["tests/shared-folder.ts"],
		testTimeout: 120_000,
		hookTimeout: 240_000,
		// Two cores, and one more file for the time that browsers and started programs are waited for.
		maxWorkers: 3,
		// What the program keeps of its user is not the tester's own.
		env: {
			XDG_STATE_HOME: join(tmpdir(), "handbook-tests-state"),
			XDG_CACHE_HOME: join(tmpdir(), "handbook-tests-cache"),
		},
	},
});
