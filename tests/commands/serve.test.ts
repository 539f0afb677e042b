/** `serve` as a director meets it: a mistake appears on the page, and goes when it is mended. */

import { spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { expect, it, onTestFinished } from "vitest";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";

it("builds again at every change, shows problems on the page, and ends well", async () => {
	const dir = clubCopy();
	const port = await freePort();
	const server = spawn(
		process.execPath,
		["scripts/commands/main.ts", "serve", "--club", dir, "--port", String(port)],
		{ cwd: REPOSITORY, stdio: ["ignore", "pipe", "inherit"] },
	);
	onTestFinished(() => void server.kill("SIGKILL"));
	const page = async (path: string): Promise<string> => {
		try {
			const response = await fetch(`http://localhost:${port}/${path}`, { headers: { accept: "text/html" } });
			return await response.text();
		} catch {
			return "";
		}
	};
	const file = join(dir, "content/drills/floor/rock.md");
	const sound = readFileSync(file, "utf8");

	await until(async () => (await page("drills/rock/")).includes("Rock on the back"));

	writeFileSync(file, sound.replace("direction: forward", "direction: forwards"));
	await until(async () => (await page("drills/rock/")).includes("H106"));
	expect(await page("drills/rock/")).toMatch(/rock\.md.*line 9, column 12/s);

	writeFileSync(file, sound.replace("title: Rock on the back", "title: Rock and roll"));
	await until(async () => (await page("drills/rock/")).includes("Rock and roll"));
	expect(await page("drills/rock/")).not.toContain("H106");

	server.kill("SIGTERM");
	const [code] = (await once(server, "exit")) as [number | null];
	expect(code).toBe(0);
});

/** Waits for something to come true; the test's own limit ends it. */
async function until(happened: () => Promise<boolean>): Promise<void> {
	while (!(await happened())) await new Promise((resolve) => setTimeout(resolve, 100));
}

async function freePort(): Promise<number> {
	const probe = createServer().listen(0);
	await once(probe, "listening");
	const address = probe.address();
	probe.close();
	return typeof address === "object" && address !== null ? address.port : 0;
}
