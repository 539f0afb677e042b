/**
 * `update`: another version of this program for a club's folder, shown before it is taken.
 *
 *   fetch    the other version is installed beside what is kept for the club, and not in its folder
 *   try      its `upgrade` runs on a copy of the folder, and both versions check: the folder as it is by
 *            this one, the copy by the other
 *   tell     the files that `upgrade` would change, and what would be found that is not found today
 *   take     with `--write` the folder's package.json names it, npm installs it, and it upgrades the folder
 *
 * Where npm cannot install it the package.json is as it was. Content is changed by `upgrade` alone, and
 * `undo` takes that back.
 */

import { spawnSync } from "node:child_process";
import { join, relative, resolve } from "node:path";
import { type Folder, makeFolder, openFolder } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
import { clubResults } from "../files/places.ts";
import { isProgramFile, ownPackage, PROGRAM } from "../files/program.ts";
import { GET_NEWEST } from "../validate/check-format.ts";
import { npmIn, PACKAGE_FILE, withProgram } from "./own-package.ts";
import { count } from "./report.ts";
import type { Run } from "./run.ts";

/** What of a club's folder is the club's. */
const CLUB_FOLDERS = ["content", "_data"];

export interface UpdateOptions {
	/** A version, or a file of `npm pack`; the newest version where it is left out. */
	readonly to?: string;
	readonly write?: boolean;
}

/** Installs a package into a folder; gives what went wrong. */
export type Install = (dir: string, spec: string) => Promise<string | undefined>;

const byNpm: Install = (dir, spec) =>
	npmIn(dir, ["install", "--no-audit", "--no-fund", "--save-exact", "--save-dev", spec]);

interface Checked {
	readonly problems: readonly { readonly code: string }[];
	readonly findings: readonly { readonly code: string }[];
}

/** @returns 0 where it was shown or taken, 1 where it could not be had, 2 where the folder is no club's own */
export async function update(run: Run, options: UpdateOptions, install: Install = byNpm): Promise<number> {
	const { clubDir, out } = run;
	const { name, version } = ownPackage();
	const club = openFolder(clubDir);
	if (!club.has(PACKAGE_FILE)) {
		out.line(
			`${relative(process.cwd(), join(clubDir, PACKAGE_FILE))} is not there, so nothing says which version this folder uses. ${GET_NEWEST}.`,
		);
		return 2;
	}
	const spec = specOf(options.to, name);
	run.progress.stream.write(`fetching ${spec}\n`);
	const place = makeFolder(join(clubResults(clubDir), "next"));
	for (const entry of place.list()) place.removeAll(entry.name);
	place.write(PACKAGE_FILE, JSON.stringify({ private: true }));
	const failed = await install(place.path, spec);
	if (failed !== undefined) return cannot(run, spec, failed);
	const program = place.inner(`node_modules/${name}`);
	const next = JSON.parse(program.readText(PACKAGE_FILE)) as { readonly version: string };
	out.line(`${version} is what this folder uses; ${next.version} is there.`);
	const told = tryOn(club, place, program);
	for (const entry of place.list()) place.removeAll(entry.name);
	for (const line of told) out.line(line);
	if (!options.write) {
		out.line("Nothing was changed; --write takes it.");
		return 0;
	}
	const before = club.readText(PACKAGE_FILE);
	const wanted = givenKind(spec) === "file" ? spec : next.version;
	club.write(PACKAGE_FILE, withProgram(before, clubDir, wanted));
	const broken = await install(clubDir, givenKind(spec) === "file" ? spec : `${name}@${next.version}`);
	if (broken !== undefined) {
		club.write(PACKAGE_FILE, before);
		return cannot(run, spec, broken);
	}
	const taken = openFolder(clubDir).inner(`node_modules/${name}`);
	// Its last line names the folder, as this command's own does.
	for (const line of said(taken, ["upgrade", "--club", clubDir]).trim().split("\n").slice(0, -1))
		out.line(line);
	out.line(`This folder uses ${next.version} now.`);
	return 0;
}

function specOf(to: string | undefined, name: string): string {
	if (to === undefined) return `${name}@latest`;
	return givenKind(to) === "file" ? resolve(to) : `${name}@${to}`;
}

function cannot({ out }: Run, spec: string, why: string): number {
	out.line(`${spec} could not be installed, and nothing was changed. npm says:`);
	for (const line of why.split("\n").slice(0, 8)) out.line(`  ${line}`);
	return 1;
}

/** What the other version would change in a copy of the club, and what it finds there. */
function tryOn(club: Folder, place: Folder, program: Folder): readonly string[] {
	const copy = copyOf(club, place);
	said(program, ["upgrade", "--club", copy.path]);
	const changed = filesOf(copy).filter((path) => !club.has(path) || !club.read(path).equals(copy.read(path)));
	const now = checkedBy(undefined, club.path);
	const then = checkedBy(program, copy.path);
	return [
		changed.length === 0
			? "No file of yours would change."
			: `${count(changed.length, "file")} would change: ${changed.join(", ")}`,
		...difference("problem", now?.problems, then?.problems),
		...difference("finding", now?.findings, then?.findings),
	];
}

function copyOf(club: Folder, place: Folder): Folder {
	place.makeFolder("trial");
	const copy = place.inner("trial");
	for (const path of filesOf(club)) copy.write(path, club.read(path));
	return copy;
}

function filesOf(club: Folder): readonly string[] {
	return CLUB_FOLDERS.filter((name) => club.has(name)).flatMap((name) =>
		club.files(name).map((file) => `${name}/${file}`),
	);
}

/** What a version says of a folder; undefined for one that says nothing that can be read. */
function checkedBy(program: Folder | undefined, clubDir: string): Checked | undefined {
	const words = ["check", "--json", "--club", clubDir];
	try {
		return JSON.parse(said(program, words)) as Checked;
	} catch {
		return undefined;
	}
}

/** What a version of the program says; this one where none is given. */
function said(program: Folder | undefined, words: readonly string[]): string {
	const start = program === undefined ? join(PROGRAM, ownStart()) : program.place("handbook.js");
	const options = { encoding: "utf8", maxBuffer: 512 * 1024 * 1024 } as const;
	return spawnSync(process.execPath, [start, ...words], options).stdout;
}

function ownStart(): string {
	return isProgramFile("handbook.js") ? "handbook.js" : "scripts/commands/main.ts";
}

function difference(
	what: string,
	now: Checked["findings"] = [],
	then: Checked["findings"] = [],
): readonly string[] {
	const by = (list: Checked["findings"]) => Map.groupBy(list, ({ code }) => code);
	const [before, after] = [by(now), by(then)];
	const codes = [...new Set([...before.keys(), ...after.keys()])].sort();
	return codes.flatMap((code) => {
		const more = (after.get(code)?.length ?? 0) - (before.get(code)?.length ?? 0);
		if (more === 0) return [];
		return [`${code}: ${count(Math.abs(more), what)} ${more > 0 ? "more" : "fewer"}`];
	});
}
