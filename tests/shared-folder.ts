/** A folder that all test files of a run share, for what many look at and none changes. Gone after the run. */

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";

declare module "vitest" {
	interface ProvidedContext {
		readonly shared: string;
	}
}

export default function setup(project: TestProject): () => void {
	const shared = mkdtempSync(join(tmpdir(), "tests-shared-"));
	project.provide("shared", shared);
	return () => rmSync(shared, { recursive: true, force: true });
}
