/**
 * What the program stands on, and that the same content gives the same bytes: licences, install scripts,
 * exact versions; two builds with another clock, time zone, language and folder.
 */

import { execFile } from "node:child_process";
import {
	existsSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	realpathSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, sep } from "node:path";
import { promisify } from "node:util";
import { describe, expect, it, onTestFinished } from "vitest";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";

interface LockedPackage {
	readonly version?: string;
	readonly license?: string;
	readonly hasInstallScript?: boolean;
	readonly integrity?: string;
	readonly link?: boolean;
	readonly dev?: boolean;
	readonly optional?: boolean;
	readonly os?: string | readonly string[];
	readonly bin?: Readonly<Record<string, string>>;
}

const LOCK = JSON.parse(readFileSync(join(REPOSITORY, "package-lock.json"), "utf8")) as {
	readonly packages: Readonly<Record<string, LockedPackage>>;
};
const MANIFEST = JSON.parse(readFileSync(join(REPOSITORY, "package.json"), "utf8")) as {
	readonly dependencies: Readonly<Record<string, string>>;
	readonly devDependencies: Readonly<Record<string, string>>;
	readonly optionalDependencies: Readonly<Record<string, string>>;
	readonly allowScripts: Readonly<Record<string, boolean>>;
};

const packages = Object.entries(LOCK.packages).filter(([path]) => path !== "");
const nameOf = (path: string) => path.slice(path.lastIndexOf("node_modules/") + "node_modules/".length);

/**
 * SPDX identifiers that may be used and passed on together with MIT code. LGPL is a library of its own
 * file, which anybody may replace, and MPL binds only its own files.
 */
const COMPATIBLE = new Set([
	"0BSD",
	"Apache-2.0",
	"BlueOak-1.0.0",
	"BSD-2-Clause",
	"BSD-3-Clause",
	"CC-BY-4.0",
	"CC0-1.0",
	"ISC",
	"LGPL-3.0-or-later",
	"MIT",
	"MIT-0",
	"MPL-2.0",
	"OFL-1.1",
	"PSF-2.0",
	"Python-2.0",
	"Unlicense",
	"Zlib",
]);

/** Read by tests alone and passed on with nothing: the examples of the CommonMark standard. */
const TESTS_ONLY = new Set(["commonmark-spec: CC-BY-SA-4.0"]);

/** Whether an SPDX expression leaves a way that is compatible. */
function isCompatible(expression: string): boolean {
	const plain = expression.replace(/[()]/g, " ").trim();
	return plain
		.split(/\s+OR\s+/)
		.some((way) => way.split(/\s+AND\s+/).every((id) => COMPATIBLE.has(id.trim())));
}

function licenceOf(path: string, locked: LockedPackage): string {
	if (locked.license !== undefined) return locked.license;
	try {
		const { license } = JSON.parse(readFileSync(join(REPOSITORY, path, "package.json"), "utf8")) as {
			license?: string | { readonly type: string };
		};
		return typeof license === "string" ? license : (license?.type ?? "none said");
	} catch {
		return "none said";
	}
}

describe("the packages that this program stands on", () => {
	it("have licences that go together with its own", () => {
		const odd = packages
			.filter(([, { link }]) => link !== true)
			.map(([path, locked]) => ({
				line: `${nameOf(path)}: ${licenceOf(path, locked)}`,
				dev: locked.dev === true,
			}))
			.filter(({ line, dev }) => !(dev && TESTS_ONLY.has(line)))
			.map(({ line }) => line)
			.filter((line) => !isCompatible(line.slice(line.indexOf(": ") + 2)));
		expect([...new Set(odd)]).toEqual([]);
	});

	it("are named with exact versions, and locked by the hash of their bytes", () => {
		for (const version of Object.values({
			...MANIFEST.dependencies,
			...MANIFEST.devDependencies,
			...MANIFEST.optionalDependencies,
		})) {
			expect(version).toMatch(/^\d+\.\d+\.\d+(-[a-z0-9.]+)?$/);
		}
		const unlocked = packages.filter(([, { integrity, link }]) => integrity === undefined && link !== true);
		expect(unlocked.map(([path]) => path)).toEqual([]);
	});

	it("lie on disk as the lock file lists them, and nothing beside them", () => {
		const lists = packagesIn(join(REPOSITORY, "node_modules"));
		expect(lists.length).toBeGreaterThan(300);
		const unknown = lists.filter((path) => LOCK.packages[path]?.integrity === undefined);
		expect(unknown).toEqual([]);
	});

	it("run no script at their installation, and each that would is refused by name", () => {
		const withScripts = new Set(
			packages
				.filter(([, { hasInstallScript }]) => hasInstallScript === true)
				.map(([path]) => nameOf(path))
				// Only for one system that no build of ours runs on by itself.
				.filter((name) => name !== "fsevents"),
		);
		expect([...withScripts].sort()).toEqual(Object.keys(MANIFEST.allowScripts).sort());
		expect(Object.values(MANIFEST.allowScripts)).not.toContain(true);
	});

	it("bring Node itself, by hash, for each system: the one that runs this", () => {
		const nodes = packages.filter(([, { bin }]) => bin?.node !== undefined);
		expect(nodes.map(([path]) => nameOf(path)).sort()).toEqual(
			Object.keys(MANIFEST.optionalDependencies).sort(),
		);
		for (const [, { integrity, optional, hasInstallScript }] of nodes) {
			expect(integrity).toMatch(/^sha512-/);
			expect(optional).toBe(true);
			expect(hasInstallScript).toBeUndefined();
		}
		const systems = nodes.flatMap(([, { os }]) => os ?? []);
		expect([...new Set(systems)].sort()).toEqual(["darwin", "linux", "win32"]);
		const installed = nodes.flatMap(([path, { bin }]) => {
			const file = join(REPOSITORY, path, bin?.node ?? "");
			return existsSync(file) ? [realpathSync(file)] : [];
		});
		if (installed.length > 0) expect(installed).toEqual([realpathSync(process.execPath)]);
	});
});

/** Where packages lie below a folder of packages, as the lock file names them. */
function packagesIn(folder: string): readonly string[] {
	return readdirSync(folder, { withFileTypes: true })
		.filter((entry) => entry.isDirectory() && !entry.name.startsWith("."))
		.flatMap(({ name }) => {
			const path = join(folder, name);
			if (name.startsWith("@")) return readdirSync(path).map((inner) => join(path, inner));
			return [path];
		})
		.flatMap((path) => {
			const nested = join(path, "node_modules");
			const here = relative(REPOSITORY, path).split(sep).join("/");
			return [here, ...(existsSync(nested) ? packagesIn(nested) : [])];
		});
}

describe("the same content", () => {
	it("gives the same bytes by another clock, in another zone, language and folder", {
		timeout: 300_000,
	}, async () => {
		const scratch = mkdtempSync(join(tmpdir(), "same-"));
		onTestFinished(() => rmSync(scratch, { recursive: true, force: true }));
		const clock = join(scratch, "clock.mjs");
		writeFileSync(
			clock,
			`const late = 400 * 86400000;
const Real = Date;
globalThis.Date = class extends Real {
	constructor(...given) { if (given.length === 0) super(Real.now() + late); else super(...given); }
	static now() { return Real.now() + late; }
};
Math.random = () => 0.5;`,
		);
		const main = join(REPOSITORY, "scripts/commands/main.ts");
		const build = async (
			out: string,
			cwd: string,
			env: Readonly<Record<string, string>>,
			first: readonly string[],
		) => {
			await promisify(execFile)(
				process.execPath,
				[...first, main, "build", "--no-print", "--club", join(FIXTURES, "clubs/full-pages"), "--out", out],
				{ cwd, env: { ...process.env, SOURCE_DATE_EPOCH: "1796040000", ...env } },
			);
			return bytesOf(out);
		};
		const here = await build(
			join(scratch, "a/site"),
			REPOSITORY,
			{ TZ: "Pacific/Auckland", LANG: "C", LC_ALL: "C" },
			[],
		);
		const there = await build(
			join(scratch, "b/deeper/other-name"),
			scratch,
			{ TZ: "America/St_Johns", LANG: "tr_TR.UTF-8", LC_ALL: "tr_TR.UTF-8" },
			["--import", clock],
		);
		expect([...there.keys()]).toEqual([...here.keys()]);
		expect([...here].filter(([file, bytes]) => there.get(file) !== bytes).map(([file]) => file)).toEqual([]);
		expect(here.size).toBeGreaterThan(100);
	});
});

function bytesOf(dir: string): ReadonlyMap<string, string> {
	return new Map(
		readdirSync(dir, { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile())
			.map((entry) => join(entry.parentPath, entry.name))
			.sort()
			.map((file) => [relative(dir, file), readFileSync(file, "latin1")] as const),
	);
}
