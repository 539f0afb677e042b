/**
 * This program as an installed package, and the package.json by which a club's folder says which version
 * of it the club uses. In a checkout there is neither.
 */

import { spawn } from "node:child_process";
import { basename, dirname, join, relative, resolve } from "node:path";
import { givenKind, readGiven } from "../files/given.ts";
import { ownPackage, PROGRAM } from "../files/program.ts";

export const PACKAGE_FILE = "package.json";

/** Commands that a club's folder runs as `npm run …`. */
const SCRIPTS = [
	"check",
	"build",
	"serve",
	"print",
	"new",
	"import",
	"export",
	"compare",
	"rename",
	"move",
	"mend",
	"plan",
	"accept",
	"undo",
	"next-term",
	"upgrade",
	"update",
];

interface Described {
	readonly name?: string;
	readonly version?: string;
	readonly scripts?: Readonly<Record<string, string>>;
	readonly dependencies?: Readonly<Record<string, string>>;
	readonly devDependencies?: Readonly<Record<string, string>>;
}

/** Whether the program lies below somebody's `node_modules`, rather than in a checkout. */
export function isInstalled(program: string = PROGRAM): boolean {
	return basename(dirname(resolve(program))) === "node_modules";
}

/** What to install to get this program again: the file that it was installed from, else its version. */
export function installedFrom(program: string = PROGRAM): string {
	const { name, version } = ownPackage();
	const around = resolve(program, "../..");
	const file = join(around, PACKAGE_FILE);
	if (givenKind(file) !== "file") return version;
	const { dependencies, devDependencies } = JSON.parse(readGiven(file).toString("utf8")) as Described;
	const said = dependencies?.[name] ?? devDependencies?.[name] ?? "";
	return said.startsWith("file:") ? resolve(around, said.slice("file:".length)) : version;
}

/** The package.json of a club's folder; what one that is there says is kept. */
export function clubPackage(club: string, dir: string, spec: string, there = "{}"): string {
	const said = JSON.parse(there) as Described;
	const { name } = ownPackage();
	const known = said.dependencies?.[name] ?? said.devDependencies?.[name];
	return textOf({
		private: true,
		description: `${club}: curriculum handbook`,
		...said,
		scripts: { ...Object.fromEntries(SCRIPTS.map((one) => [one, `handbook ${one}`])), ...said.scripts },
		...(known === undefined
			? { devDependencies: { ...said.devDependencies, [name]: specIn(dir, spec) } }
			: {}),
	});
}

/** The same file with another version of the program; what else it holds stays. */
export function withProgram(text: string, dir: string, spec: string): string {
	const { name } = ownPackage();
	const said = JSON.parse(text) as Described;
	const of = said.dependencies?.[name] === undefined ? "devDependencies" : "dependencies";
	return textOf({ ...said, [of]: { ...said[of], [name]: specIn(dir, spec) } });
}

function specIn(dir: string, spec: string): string {
	return /[/\\]/.test(spec) ? `file:${relative(dir, spec).replaceAll("\\", "/")}` : spec;
}

function textOf(described: object): string {
	return `${JSON.stringify(described, null, 2)}\n`;
}

/** Runs npm in a folder; gives what it said where it failed. */
export async function npmIn(dir: string, words: readonly string[]): Promise<string | undefined> {
	const { npm_execpath: npm } = process.env;
	const options = { cwd: dir, stdio: ["ignore", "ignore", "pipe"] as const };
	const child =
		npm === undefined
			? spawn("npm", [...words], {
					...options,
					stdio: [...options.stdio],
					shell: process.platform === "win32",
				})
			: spawn(process.execPath, [npm, ...words], { ...options, stdio: [...options.stdio] });
	let said = "";
	child.stderr.on("data", (text) => {
		said += String(text);
	});
	return new Promise((done) => {
		child.once("error", (error) => done(error.message));
		child.once("close", (code) => done(code === 0 ? undefined : said.trim() || `npm ended with ${code}`));
	});
}
