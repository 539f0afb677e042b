import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { defineConfig } from "vitest/config";

/** What the program keeps of its user is not the tester's own, and nothing is left of an earlier run. */
const kept = mkdtempSync(join(tmpdir(), "tests-kept-"));
process.once("exit", () => rmSync(kept, { recursive: true, force: true }));

export default defineConfig({
	test: {
		include: ["tests/**/*.test.ts"],
		setupFiles: ["tests/end-stuck-file.ts"],
		globalSetup: ["tests/shared-folder.ts"],
		// A file that loads what another has loaded spends half of its time on that: files of a process share it.
		isolate: false,
		// The program is loaded by Node itself, as it is for who runs it: a twentieth less than with vitest's own loader.
		server: { deps: { external: [/\/(scripts|layouts)\/.*\.ts$/] } },
		testTimeout: 120_000,
		hookTimeout: 240_000,
		// Two cores, and two more files for the time that browsers and started programs are waited for.
		maxWorkers: 4,
		env: { XDG_STATE_HOME: join(kept, "state"), XDG_CACHE_HOME: join(kept, "cache") },
	},
});
