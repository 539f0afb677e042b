/**
 * The packed file, installed as a club would have it: unpacked below `node_modules` of an empty folder,
 * beside the packages that it declares and no others. A club is made, built, printed and updated with it.
 *
 * npm's own part, fetching what is declared, is left out: tests need no registry. Which packages come is
 * read from the lock file, as npm reads it.
 */

import { spawn, spawnSync } from "node:child_process";
import {
	cpSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	symlinkSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, it, onTestFinished } from "vitest";
import type { Run } from "../../scripts/commands/run.ts";
import { update } from "../../scripts/commands/update.ts";
import { findBrowser } from "../../scripts/print/find-browser.ts";
import { REPOSITORY } from "../open-fixture.ts";
import { unpackTarball } from "../unpack-tarball.ts";

const NAME = "club-curriculum-handbook";
const work = mkdtempSync(join(tmpdir(), "installed-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

interface Described {
	readonly version: string;
	readonly dependencies?: Readonly<Record<string, string>>;
	readonly optionalDependencies?: Readonly<Record<string, string>>;
	readonly peerDependencies?: Readonly<Record<string, string>>;
	readonly peerDependenciesMeta?: Readonly<Record<string, { readonly optional?: boolean }>>;
}

/** Where each package lies that the named ones need, as npm finds them. */
function closure(names: readonly string[]): readonly string[] {
	const lock = JSON.parse(readFileSync(join(REPOSITORY, "package-lock.json"), "utf8")) as {
		readonly packages: Readonly<Record<string, Described>>;
	};
	const found = new Set<string>();
	const visit = (from: string, name: string): void => {
		for (let at = from; ; ) {
			const folder = `${at === "" ? "" : `${at}/`}node_modules/${name}`;
			const here = lock.packages[folder];
			if (here !== undefined) {
				if (found.has(folder) || !existsSync(join(REPOSITORY, folder))) return;
				found.add(folder);
				const optional = here.peerDependenciesMeta ?? {};
				const peers = Object.keys(here.peerDependencies ?? {}).filter(
					(one) => optional[one]?.optional !== true,
				);
				for (const one of [
					...Object.keys(here.dependencies ?? {}),
					...Object.keys(here.optionalDependencies ?? {}),
					...peers,
				])
					visit(folder, one);
				return;
			}
			if (at === "") return;
			at = at.slice(0, Math.max(0, at.lastIndexOf("node_modules/") - 1));
		}
	};
	for (const name of names) visit("", name);
	return [...found];
}

/** Puts a packed file below a folder's `node_modules`, as npm does. */
async function installInto(dir: string, file: string): Promise<void> {
	const to = join(dir, "node_modules", NAME);
	rmSync(join(dir, "node_modules"), { recursive: true, force: true });
	await unpackTarball(file, to);
	const { dependencies = {} } = JSON.parse(readFileSync(join(to, "package.json"), "utf8")) as Described;
	const own = readdirSync(join(to, "node_modules"));
	for (const folder of closure(Object.keys(dependencies).filter((name) => !own.includes(name)))) {
		if (folder.indexOf("node_modules/") !== folder.lastIndexOf("node_modules/")) continue;
		const place = join(dir, folder);
		mkdirSync(dirname(place), { recursive: true });
		symlinkSync(join(REPOSITORY, folder), place);
	}
}

function handbook(dir: string, ...words: readonly string[]) {
	return spawnSync(process.execPath, [join(dir, "node_modules", NAME, "handbook.js"), ...words], {
		cwd: dir,
		encoding: "utf8",
		timeout: 200_000,
		killSignal: "SIGKILL",
		env: { ...process.env, ...browser },
	});
}

/** A browser to print with: none is in the package, and this checkout's may be one that it unpacks. */
let browser: Readonly<Record<string, string>>;
let packed: string;
const club = join(work, "club");

beforeAll(async () => {
	const { stdout, stderr, status } = spawnSync(process.execPath, ["scripts/pack.ts", work], {
		cwd: REPOSITORY,
		encoding: "utf8",
		timeout: 100_000,
		killSignal: "SIGKILL",
	});
	expect(stderr).toBe("");
	expect(status).toBe(0);
	packed = stdout.trim().replace(/^wrote /, "");
	await installInto(work, packed);
	const found = await findBrowser();
	if ("missing" in found) throw new Error(found.missing);
	browser = { ...found.browser.environment, HANDBOOK_BROWSER: found.browser.path };
});

it("holds no TypeScript, no tests, and nothing that runs at its installation", () => {
	const files = readdirSync(join(work, "node_modules", NAME), { recursive: true }).map(String);
	expect(files.filter((file) => file.endsWith(".ts"))).toEqual([]);
	expect(files.filter((file) => /(^|\/)tests?\//.test(file))).toEqual([]);
	const described = JSON.parse(readFileSync(join(work, "node_modules", NAME, "package.json"), "utf8"));
	expect(described.scripts).toBeUndefined();
	expect(described.devDependencies).toBeUndefined();
	expect(Object.keys(described.dependencies)).not.toContain("@sparticuz/chromium");
	expect(described.peerDependenciesMeta).toEqual({ "@sparticuz/chromium": { optional: true } });
});

it("makes a club that says which version it uses", () => {
	writeFileSync(join(work, "package.json"), JSON.stringify({ dependencies: { [NAME]: `file:${packed}` } }));
	const made = handbook(
		work,
		"new",
		"club",
		"club",
		"--name",
		"Hilltop Gymnastics",
		"--starts",
		"2027-01-04",
	);
	expect(made.stderr).toBe("");
	expect(made.status).toBe(0);
	const own = JSON.parse(readFileSync(join(club, "package.json"), "utf8"));
	expect(own.scripts.build).toBe("handbook build");
	expect(own.devDependencies).toEqual({ [NAME]: `file:../${packed.slice(work.length + 1)}` });
});

it("builds and prints it, and leaves nothing in the folder but what the club writes", () => {
	cpSync(join(work, "node_modules"), join(club, "node_modules"), { recursive: true, verbatimSymlinks: true });
	const before = readdirSync(club).sort();
	const out = join(work, "site");
	const built = handbook(club, "build", "--out", out);
	expect(built.stdout).toContain("print/binder.pdf");
	expect(built.stderr).not.toMatch(/warning/i);
	expect(built.status).toBe(0);
	expect(readdirSync(`${out}/drills`)).toContain("log-roll");
	expect(readFileSync(join(out, "licences.txt"), "utf8")).toContain("OFL");
	expect(readdirSync(club).sort()).toEqual(before);
	// Every output says which version made it.
	const { version } = JSON.parse(readFileSync(join(REPOSITORY, "package.json"), "utf8")) as Described;
	const program = `${NAME} ${version}`;
	expect(readFileSync(join(out, "about/index.html"), "utf8")).toContain(`Made with ${program}.`);
	expect(JSON.parse(readFileSync(join(out, "data/handbook.json"), "utf8")).program).toEqual({
		name: NAME,
		version,
	});
	const sheet = readdirSync(join(out, "print"), { recursive: true })
		.map(String)
		.find((name) => /(?<!binder)\.pdf$/.test(name));
	for (const pdf of ["binder.pdf", sheet ?? "none"]) {
		expect(readFileSync(join(out, "print", pdf), "latin1")).toContain(
			`<xmp:CreatorTool>${program}</xmp:CreatorTool>`,
		);
	}
	// Another checkout writes the same pages.
	const here = join(work, "from-checkout");
	const again = spawnSync(
		process.execPath,
		["scripts/commands/main.ts", "build", "--no-print", "--club", club, "--out", here],
		{ cwd: REPOSITORY, encoding: "utf8", timeout: 100_000, killSignal: "SIGKILL" },
	);
	expect(again.status).toBe(0);
	const page = (site: string) => readFileSync(join(site, "drills/log-roll/index.html"), "utf8");
	expect(page(here)).toBe(page(out));
});

it("says what brings the binder where there is no browser, and builds the rest", () => {
	const out = join(work, "without");
	const built = spawnSync(
		process.execPath,
		[join(club, "node_modules", NAME, "handbook.js"), "build", "--out", out],
		{
			cwd: club,
			encoding: "utf8",
			timeout: 100_000,
			killSignal: "SIGKILL",
			env: { ...process.env, PATH: "" },
		},
	);
	// Only systems whose browsers are looked up in PATH can be without one here.
	if (process.platform !== "linux") return;
	expect(built.stdout).toContain("No Chrome, Chromium or Edge was found on this machine");
	if (process.arch === "x64") expect(built.stdout).toContain("`npm install @sparticuz/chromium` brings one");
	expect(built.stdout).toContain("H401");
	expect(built.status).toBe(1);
	expect(readdirSync(`${out}/drills`)).toContain("log-roll");
});

it("serves the preview and the desk, programs and typeface with them", async () => {
	const start = join(club, "node_modules", NAME, "handbook.js");
	const serving = spawn(process.execPath, [start, "serve", "--port", "0"], { cwd: club });
	onTestFinished(() => void serving.kill());
	const address = await new Promise<string>((found, failed) => {
		let said = "";
		const hear = (text: unknown) => {
			said += String(text);
			const desk = /The desk: (\S+)/.exec(said)?.[1];
			if (desk !== undefined) found(desk);
		};
		serving.stdout.on("data", hear);
		serving.once("exit", () => failed(new Error(said)));
	});
	// The address is good for once, and gives the cookie by which the browser is known again.
	const first = await fetch(address, { redirect: "manual" });
	const cookie = first.headers.get("set-cookie")?.split(";")[0] ?? "";
	for (const name of ["", "desk.js", "desk.css", "text-latin.woff2"]) {
		const answer = await fetch(new URL(name, address.split("?")[0]), { headers: { cookie } });
		expect([name, answer.status]).toEqual([name, 200]);
		expect((await answer.arrayBuffer()).byteLength).toBeGreaterThan(400);
	}
	const page = await fetch(new URL("/drills/log-roll/", address));
	expect(await page.text()).toContain("Log roll");
});

/** The next version, which reads a newer format and brings folders to it. */
async function installNext(dir: string): Promise<undefined> {
	await installInto(dir, packed);
	const own = join(dir, "node_modules", NAME);
	const change = (file: string, from: string, to: string) => {
		const text = readFileSync(join(own, file), "utf8");
		expect(text).toContain(from);
		writeFileSync(join(own, file), text.replace(from, to));
	};
	change("package.json", '"version": "', '"version": "9.');
	change("scripts/validate/check-format.js", "FORMAT = 1", "FORMAT = 2");
	change(
		"scripts/commands/upgrade.js",
		"const STEPS = [",
		'const STEPS = [{ from: 1, does: "a newer one", apply: (dir) => sayFormat(dir, 2) },',
	);
}

it("is updated: first shown, then taken, with the club's own words kept", async () => {
	const file = join(club, "_data/club.yaml");
	writeFileSync(file, readFileSync(file, "utf8").replace(/^name:/m, "# Ours.\nname:"));
	const before = readFileSync(file, "utf8");
	const said: string[] = [];
	const run: Run = {
		clubDir: club,
		outDir: join(work, "site"),
		now: new Date("2026-11-30T12:00:00Z"),
		out: { line: (text) => said.push(text), colour: false },
		progress: { stream: { write: () => true }, live: false },
	};
	expect(await update(run, { write: false }, installNext)).toBe(0);
	expect(said.join("\n")).toContain("1 file would change: _data/club.yaml");
	expect(said.join("\n")).toContain("Nothing was changed; --write takes it.");
	expect(readFileSync(file, "utf8")).toBe(before);

	// Where npm fails, nothing has changed.
	const own = readFileSync(join(club, "package.json"), "utf8");
	const failing = async (dir: string) => (dir === club ? "no network" : installNext(dir));
	expect(await update(run, { write: true }, failing)).toBe(1);
	expect(readFileSync(join(club, "package.json"), "utf8")).toBe(own);
	expect(readFileSync(file, "utf8")).toBe(before);

	expect(await update(run, { write: true }, installNext)).toBe(0);
	expect(JSON.parse(readFileSync(join(club, "package.json"), "utf8")).devDependencies).toEqual({
		[NAME]: expect.stringMatching(/^9\./),
	});
	expect(readFileSync(file, "utf8")).toBe(before.replace("format: 1", "format: 2"));
	expect(handbook(club, "check").stdout).toContain("no errors");
});
