/** Printing that is interrupted from outside leaves the last good binder, and ends soon. */

import { spawn } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { claimFolder } from "../../scripts/commands/publish.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";

/** Prints, and sends the signal once the layout is under way. */
async function interrupted(signal: NodeJS.Signals) {
	const dir = clubCopy(join(FIXTURES, "clubs", "printed-binder"));
	const folder = join(dir, "_site/print");
	claimFolder(join(dir, "_site"));
	mkdirSync(folder, { recursive: true });
	writeFileSync(join(folder, "binder.pdf"), "the last good one");
	writeFileSync(join(folder, "binder.edition.json"), "its edition");
	const child = spawn(process.execPath, ["scripts/commands/main.ts", "print", "--club", dir], {
		cwd: REPOSITORY,
		stdio: ["ignore", "pipe", "pipe"],
	});
	let said = "";
	child.stdout.on("data", (text) => {
		said += text;
	});
	let isSent = false;
	child.stderr.on("data", (text) => {
		// The first line says that the browser starts; with the next one parts have been laid out.
		if (!isSent && /binder [1-9]\d*\/\d+/.test(String(text))) isSent = child.kill(signal);
	});
	const code = await new Promise((resolve) => child.once("exit", resolve));
	expect(isSent).toBe(true);
	expect(readdirSync(folder).sort()).toEqual(["binder.edition.json", "binder.pdf"]);
	expect(readFileSync(join(folder, "binder.pdf"), "utf8")).toBe("the last good one");
	expect(readFileSync(join(folder, "binder.edition.json"), "utf8")).toBe("its edition");
	return { code, said };
}

describe("printing that is interrupted", () => {
	it.each(["SIGINT", "SIGTERM"] as const)(
		"says so after %s and leaves the last good binder",
		async (signal) => {
			const { code, said } = await interrupted(signal);
			expect(code).toBe(130);
			expect(said).toContain("Interrupted; the last good binder stays as it is.");
		},
	);

	it("leaves the last good binder where it is killed outright", async () => {
		const { code } = await interrupted("SIGKILL");
		expect(code).toBeNull();
	});
});
