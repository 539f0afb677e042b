/**
 * Finds a browser to lay out pages with, so that nobody has to download one.
 *
 *   1. the program that the environment variable HANDBOOK_BROWSER names
 *   2. an installed Chrome, Chromium or Edge: the usual places of the platform, then PATH
 *   3. on Linux x64 the Chromium inside the package @sparticuz/chromium, where it is installed, unpacked once into a private
 *      folder of the user's cache
 *   4. nothing: the caller reports H401
 *
 * The package's own unpacking is not used: it writes into the shared temporary folder and accepts a
 * half-written file there. Ours unpacks beside and renames, so that the folder is whole or absent.
 */

import { randomUUID } from "node:crypto";
import { homedir } from "node:os";
import { delimiter, isAbsolute, join, resolve } from "node:path";
import { givenKind, isExecutable } from "../files/given.ts";
import { cachePlace } from "../files/places.ts";
import { hasPackage, packageFolder, readProgramText } from "../files/program.ts";
import { unpackFolder, unpackProgram } from "../files/unpack.ts";

/** A browser and what it has to be started with. */
export interface Browser {
	readonly path: string;
	readonly kind: "named" | "installed" | "packaged";
	/** Whether it is the small program without windows, which has headless mode only. */
	readonly shell: boolean;
	/** Added to the environment it runs in. */
	readonly environment: Readonly<Record<string, string>>;
}

/** Where to look; everything has the machine's own value unless given. */
export interface BrowserSearch {
	readonly environment?: Readonly<Record<string, string | undefined>>;
	readonly platform?: NodeJS.Platform;
	readonly arch?: string;
	/** False leaves installed browsers out. */
	readonly installed?: boolean;
	/** False leaves the packaged browser out. */
	readonly packaged?: boolean;
	/** Whether the packaged browser uses the system libraries or its own; by default its own where one is missing. */
	readonly libraries?: "system" | "own";
}

export type FoundBrowser =
	| { readonly browser: Browser }
	/** Why there is none, as one sentence. */
	| { readonly missing: string };

/** Finds a browser by the order above. Throws only where the packaged one cannot be unpacked. */
export async function findBrowser(search: BrowserSearch = {}): Promise<FoundBrowser> {
	const environment = search.environment ?? process.env;
	const platform = search.platform ?? process.platform;
	const named = environment.HANDBOOK_BROWSER;
	if (named !== undefined && named !== "") {
		const path = programNamed(named, environment);
		if (path === undefined) return { missing: `HANDBOOK_BROWSER names \`${named}\`, where no program is.` };
		return { browser: { path, kind: "named", shell: isShell(path), environment: {} } };
	}
	if (search.installed !== false) {
		for (const place of usualPlaces(platform, environment)) {
			if (isExecutable(place)) {
				return { browser: { path: place, kind: "installed", shell: isShell(place), environment: {} } };
			}
		}
	}
	const isPackaged = platform === "linux" && (search.arch ?? process.arch) === "x64";
	if (search.packaged !== false && isPackaged && hasPackage(PACKAGE)) {
		return { browser: await packagedBrowser(environment, search.libraries) };
	}
	const brings = isPackaged ? `; \`npm install ${PACKAGE}\` brings one` : "";
	return { missing: `No Chrome, Chromium or Edge was found on this machine${brings}.` };
}

/** The program that HANDBOOK_BROWSER means: a path, or a name to look for in PATH. */
function programNamed(
	named: string,
	environment: Readonly<Record<string, string | undefined>>,
): string | undefined {
	const isPath = isAbsolute(named) || named.includes("/") || named.includes("\\");
	const places = isPath ? [resolve(named)] : foldersOf(environment).map((folder) => join(folder, named));
	return places.find(isExecutable);
}

function isShell(path: string): boolean {
	return /headless[-_]shell/i.test(path);
}

/** The places where browsers are installed, likeliest first. */
function usualPlaces(
	platform: NodeJS.Platform,
	environment: Readonly<Record<string, string | undefined>>,
): readonly string[] {
	if (platform === "darwin") {
		const applications = [
			"Google Chrome.app/Contents/MacOS/Google Chrome",
			"Chromium.app/Contents/MacOS/Chromium",
			"Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
		];
		const folders = ["/Applications", join(environment.HOME ?? homedir(), "Applications")];
		return folders.flatMap((folder) => applications.map((name) => join(folder, name)));
	}
	if (platform === "win32") {
		const programs = [
			"Google\\Chrome\\Application\\chrome.exe",
			"Chromium\\Application\\chrome.exe",
			"Microsoft\\Edge\\Application\\msedge.exe",
		];
		const folders = [
			environment.PROGRAMFILES,
			environment["PROGRAMFILES(X86)"],
			environment.LOCALAPPDATA,
		].filter((folder) => folder !== undefined);
		return folders.flatMap((folder) => programs.map((name) => join(folder, name)));
	}
	const names = [
		"google-chrome-stable",
		"google-chrome",
		"chromium",
		"chromium-browser",
		"microsoft-edge-stable",
		"microsoft-edge",
	];
	const folders = foldersOf(environment);
	return names.flatMap((name) => folders.map((folder) => join(folder, name)));
}

function foldersOf(environment: Readonly<Record<string, string | undefined>>): readonly string[] {
	const path = environment.PATH ?? environment.Path ?? "";
	return path.split(delimiter).filter((folder) => folder !== "");
}

const PACKAGE = "@sparticuz/chromium";

/** Where the dynamic linker looks on the Linux systems in use. */
const LIBRARY_FOLDERS = [
	"/usr/lib/x86_64-linux-gnu",
	"/lib/x86_64-linux-gnu",
	"/usr/lib64",
	"/lib64",
	"/usr/lib",
	"/lib",
];

/** Libraries of the packaged browser that a bare system lacks. */
const LIBRARIES = ["libnss3.so", "libnssutil3.so", "libnspr4.so"];

async function packagedBrowser(
	environment: Readonly<Record<string, string | undefined>>,
	libraries: BrowserSearch["libraries"],
): Promise<Browser> {
	const folder = await unpackedFolder(environment);
	const own =
		libraries === "own" || (libraries !== "system" && !LIBRARIES.every((name) => isLibraryThere(name)));
	return {
		path: join(folder, "headless-shell"),
		kind: "packaged",
		shell: true,
		environment: {
			...(own
				? {
						LD_LIBRARY_PATH: [join(folder, "libraries", "lib"), environment.LD_LIBRARY_PATH]
							.filter((part) => part !== undefined && part !== "")
							.join(delimiter),
					}
				: {}),
			// Without any font set-up at all the browser cannot even fall back.
			...(givenKind("/etc/fonts/fonts.conf") === "file" ? {} : { FONTCONFIG_PATH: join(folder, "fonts") }),
		},
	};
}

function isLibraryThere(name: string): boolean {
	return LIBRARY_FOLDERS.some((folder) => givenKind(join(folder, name)) === "file");
}

/** The private folder with the unpacked browser; unpacks it if this version is not there yet. */
async function unpackedFolder(environment: Readonly<Record<string, string | undefined>>): Promise<string> {
	const source = packageFolder(PACKAGE);
	const bin = join(source, "bin");
	const described: unknown = JSON.parse(readProgramText(join(source, "package.json")));
	const version =
		typeof described === "object" && described !== null && "version" in described
			? String(described.version)
			: "0";
	const folder = cachePlace(environment);
	const name = `chromium-${version}`;
	if (folder.has(name)) return folder.place(name);

	const beside = `${name}.${randomUUID().slice(0, 8)}`;
	folder.makeFolder(beside);
	folder.setMode(beside, 0o700);
	try {
		await Promise.all([
			unpackProgram(join(bin, "chromium.br"), folder, `${beside}/headless-shell`),
			unpackFolder(join(bin, "al2023.tar.br"), folder, `${beside}/libraries`),
			unpackFolder(join(bin, "fonts.tar.br"), folder, `${beside}/fonts`),
		]);
		folder.rename(beside, name);
	} catch (error) {
		folder.removeAll(beside);
		// Another run was faster: its folder is as good.
		if (!folder.has(name)) throw error;
	}
	return folder.place(name);
}
