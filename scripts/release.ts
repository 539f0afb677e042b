/**
 * `npm run release [-- FOLDER]`: tags what is committed as the version that package.json names.
 *
 *   1. package.json, package-lock.json and the changelog name one version, nothing is left uncommitted, and
 *      the version has no tag yet: whatever is missing is said, all of it, and nothing is tagged
 *   2. the tag `v<version>` carries the changelog's words for it; pushing it is left to whoever made it, and
 *      starts the workflow that packs the program and tries the packed file
 */

import { spawnSync } from "node:child_process";
import { resolve } from "node:path";
import { openFolder } from "./files/folder.ts";
import { PROGRAM } from "./files/program.ts";

const CHANGELOG = ".github/CHANGELOG.md";

const dir = resolve(process.argv[2] ?? PROGRAM);
const folder = openFolder(dir);

function git(words: readonly string[], input?: string): string {
	const ended = spawnSync("git", [...words], { cwd: dir, encoding: "utf8", input });
	if (ended.status !== 0) throw new Error(`git ${words[0]}: ${ended.stderr}`);
	return ended.stdout.trim();
}

/** What the changelog says of a version: the text under its heading; undefined where it has none. */
function wordsFor(version: string): string | undefined {
	const parts = folder.readText(CHANGELOG).split(/^## /m).slice(1);
	const own = parts.find((part) => part.split(/[\s,(]/, 1)[0] === version);
	const text = own?.slice(own.indexOf("\n") + 1).trim();
	return text === "" ? undefined : text;
}

const { version } = JSON.parse(folder.readText("package.json")) as { readonly version: string };
const lock = JSON.parse(folder.readText("package-lock.json")) as { readonly version: string };
const tag = `v${version}`;
const words = wordsFor(version);
const faults = [
	lock.version !== version &&
		`package-lock.json says ${lock.version}, package.json ${version}: run npm install.`,
	words === undefined && `${CHANGELOG} has no words under a heading "## ${version}".`,
	git(["status", "--porcelain"]) !== "" && "There are changes that are not committed.",
	git(["tag", "--list", tag]) !== "" && `${tag} is there already: raise the number in package.json.`,
].filter((fault) => fault !== false);

if (faults.length > 0 || words === undefined) {
	for (const fault of faults) console.error(fault);
	process.exitCode = 1;
} else {
	git(["tag", "--annotate", tag, "--cleanup=verbatim", "--file=-"], `${version}\n\n${words}\n`);
	console.log(`tagged ${tag}. Next: git push origin ${tag}`);
}
