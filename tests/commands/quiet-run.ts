/** What a command is run with in tests: a fixed moment, and its lines kept. */

import { join } from "node:path";
import type { Run } from "../../scripts/commands/run.ts";

export function quietRun(club: string): { readonly run: Run; readonly lines: string[] } {
	const lines: string[] = [];
	return {
		lines,
		run: {
			clubDir: club,
			outDir: join(club, "_site"),
			now: new Date("2026-11-30T12:00:00Z"),
			out: { line: (line) => void lines.push(line), colour: false },
			progress: { stream: { write: () => undefined }, live: false },
		},
	};
}
