/** Tagging a release, in repositories of their own: what is missing is said at once, and nothing is tagged. */

import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it, onTestFinished } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";

function repository(version: string, locked: string, changelog: string) {
	const dir = mkdtempSync(join(tmpdir(), "release-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	mkdirSync(join(dir, ".github"));
	const write = (path: string, text: string) => writeFileSync(join(dir, path), text);
	write("package.json", JSON.stringify({ name: "p", version }));
	write("package-lock.json", JSON.stringify({ name: "p", version: locked }));
	write(".github/CHANGELOG.md", changelog);
	const git = (...words: readonly string[]) =>
		spawnSync("git", words, {
			cwd: dir,
			encoding: "utf8",
			env: {
				...process.env,
				GIT_AUTHOR_NAME: "t",
				GIT_AUTHOR_EMAIL: "t@t.invalid",
				GIT_COMMITTER_NAME: "t",
				GIT_COMMITTER_EMAIL: "t@t.invalid",
			},
		}).stdout.trim();
	git("init", "-q");
	git("add", "-A");
	git("commit", "-qm", "all");
	const release = () =>
		spawnSync(process.execPath, [join(REPOSITORY, "scripts/release.ts"), dir], {
			encoding: "utf8",
			timeout: 60_000,
			killSignal: "SIGKILL",
			env: {
				...process.env,
				GIT_COMMITTER_NAME: "t",
				GIT_COMMITTER_EMAIL: "t@t.invalid",
			},
		});
	return { git, write, release };
}

const CHANGES = "# Changes\n\n## 0.2.0, 1 December 2026\n- **Look.** A colour.\n\n## 0.1.0\n- **First.**\n";

it("tags what is committed with the changelog's words, once", () => {
	const { git, release } = repository("0.2.0", "0.2.0", CHANGES);
	expect(release()).toMatchObject({ status: 0, stdout: "tagged v0.2.0. Next: git push origin v0.2.0\n" });
	expect(git("cat-file", "-p", "v0.2.0").split("\n\n").slice(1).join("\n\n")).toBe(
		"0.2.0\n\n- **Look.** A colour.",
	);
	expect(git("rev-parse", "v0.2.0^{}")).toBe(git("rev-parse", "HEAD"));
	const again = release();
	expect([again.status, again.stderr]).toEqual([
		1,
		"v0.2.0 is there already: raise the number in package.json.\n",
	]);
});

it("says all that is missing, and tags nothing", () => {
	const { git, write, release } = repository("0.3.0", "0.2.0", CHANGES);
	write("note.txt", "not committed");
	const { status, stderr } = release();
	expect(status).toBe(1);
	expect(stderr.trim().split("\n")).toEqual([
		"package-lock.json says 0.2.0, package.json 0.3.0: run npm install.",
		'.github/CHANGELOG.md has no words under a heading "## 0.3.0".',
		"There are changes that are not committed.",
	]);
	expect(git("tag", "--list")).toBe("");
});
