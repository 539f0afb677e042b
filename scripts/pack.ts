/**
 * `npm run pack [-- FOLDER]`: this program as a package that a club installs, in the folder it was started
 * from unless another is named.
 *
 *   1. every file of `scripts/` and `layouts/` is taken over; TypeScript becomes JavaScript, file by file
 *      and under the same path, since Node runs none below `node_modules`
 *   2. of large packages only the files that are used come along, without what those packages ask for
 *   3. the licences of what sites carry are written down, since only this checkout has the lock file
 *   4. `npm pack` makes one file of it
 *
 * Left out are what only developers need, and the browser that prints where a system has none: that is an
 * optional part, `npm install @sparticuz/chromium`.
 */

import { spawnSync } from "node:child_process";
import { join, resolve } from "node:path";
import { transform } from "esbuild";
import { type Folder, makeFolder, openFolder } from "./files/folder.ts";
import { PROGRAM, packageFolder } from "./files/program.ts";
import { licencesText, readyLicences } from "./site/licences.ts";
import { LANGUAGES, wordsFor } from "./words/words.ts";

/** For developers alone. */
const LEFT_OUT = new Set(["scripts/pack.ts", "scripts/run.mjs", "scripts/commands/generate.ts"]);

/** Files of a package that are used, where the rest of it and of what it asks for is large. */
const PARTS: Readonly<Record<string, readonly string[]>> = {
	"pagedjs-cli": ["dist/browser.js"],
	"pdfjs-dist": ["legacy/build/pdf.mjs", "legacy/build/pdf.worker.mjs"],
};

/** Which systems have it is decided where it is installed. */
const OPTIONAL = ["@sparticuz/chromium"];

/** The oldest Node whose language the files are written in. */
const NODE = 24;

/** Plain JavaScript for old versions too: it has to be able to say what is missing. */
const START = `#!/usr/bin/env node
const { node } = process.versions;
if (Number.parseInt(node, 10) >= ${NODE}) import("./scripts/commands/main.js");
else {
	console.error("This needs Node.js ${NODE} or later, from nodejs.org, and this is " + node + ".");
	process.exitCode = 2;
}
`;

interface Described {
	readonly name: string;
	readonly version: string;
	readonly description?: string;
	readonly license?: string;
	readonly type?: string;
	readonly main?: string;
	readonly dependencies?: Readonly<Record<string, string>>;
}

/** Writes the package's files into a folder that is empty. */
async function writePackage(to: Folder): Promise<void> {
	const from = openFolder(PROGRAM);
	const files = ["scripts", "layouts"].flatMap((name) => from.files(name).map((file) => `${name}/${file}`));
	for (const path of [...files, "eleventy.config.ts"]) {
		if (LEFT_OUT.has(path) || path.endsWith(".d.ts")) continue;
		if (/\.tsx?$/.test(path))
			to.write(path.replace(/\.tsx?$/, ".js"), await javascriptOf(path, from.readText(path)));
		else to.write(path, from.read(path));
	}
	for (const language of LANGUAGES) to.write(readyLicences(language), await licencesText(wordsFor(language)));
	for (const path of ["LICENSE", "README.md"]) to.write(path, from.read(path));
	to.write("handbook.js", START);
	for (const [name, parts] of Object.entries(PARTS)) takeParts(name, parts, to);
	to.write("package.json", `${JSON.stringify(description(from), null, "\t")}\n`);
}

/** One module; what it names with `.ts` at the end, an import or a file it loads itself, becomes `.js`. */
async function javascriptOf(path: string, source: string): Promise<string> {
	const { code } = await transform(source, {
		loader: path.endsWith("x") ? "tsx" : "ts",
		jsx: "automatic",
		jsxImportSource: "preact",
		format: "esm",
		target: `node${NODE}`,
	});
	return code.replace(/(["'`])([^"'`\s]*)\.tsx?\1/g, "$1$2.js$1");
}

function takeParts(name: string, parts: readonly string[], to: Folder): void {
	const own = openFolder(packageFolder(name));
	const { version, license = "", main } = JSON.parse(own.readText("package.json")) as Described;
	const described = { name, version, license, ...(main === undefined ? {} : { main }) };
	const folder = `node_modules/${name}`;
	to.write(`${folder}/package.json`, JSON.stringify(described));
	for (const path of [...parts, "LICENSE"]) to.write(`${folder}/${path}`, own.read(path));
}

function description(from: Folder): object {
	const own = JSON.parse(from.readText("package.json")) as Described;
	const all = Object.entries(own.dependencies ?? {});
	const optional = all.filter(([name]) => OPTIONAL.includes(name));
	return {
		name: own.name,
		version: own.version,
		description: own.description,
		license: own.license,
		type: own.type,
		bin: { handbook: "handbook.js" },
		engines: { node: `>=${NODE}` },
		dependencies: Object.fromEntries(all.filter(([name]) => !OPTIONAL.includes(name))),
		peerDependencies: Object.fromEntries(optional),
		peerDependenciesMeta: Object.fromEntries(optional.map(([name]) => [name, { optional: true }])),
		bundleDependencies: Object.keys(PARTS),
	};
}

/** Makes the one file, in a folder; gives its name. */
function packInto(source: Folder, folder: string): string {
	const { npm_execpath: npm } = process.env;
	const words = ["pack", source.path, "--pack-destination", folder, "--silent"];
	const packed =
		npm === undefined
			? spawnSync("npm", words, { encoding: "utf8", shell: process.platform === "win32" })
			: spawnSync(process.execPath, [npm, ...words], { encoding: "utf8" });
	if (packed.status !== 0) throw new Error(`npm pack: ${packed.stderr}`);
	return packed.stdout.trim().split("\n").at(-1) ?? "";
}

const cache = makeFolder(join(PROGRAM, "node_modules/.cache"));
cache.removeAll("package");
cache.makeFolder("package");
const staging = cache.inner("package");
await writePackage(staging);
const folder = resolve(process.argv[2] ?? process.env.INIT_CWD ?? ".");
console.log(`wrote ${join(folder, packInto(staging, folder))}`);
