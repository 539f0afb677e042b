/**
 * The command line: arguments, help, exit codes. Each command is a file of its own.
 *
 * A command's file is loaded when it is asked for, so that `check` starts without the page engine.
 *
 * Exit codes: 0 all is well, 1 problems in the content (or in laying out print), 2 wrong use.
 */

import { existsSync, statSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { Command, CommanderError, InvalidArgumentError } from "commander";
import { reportFault } from "./report-fault.ts";
import type { Run } from "./run.ts";

interface Options {
	readonly club: string;
	readonly out?: string;
	readonly json?: boolean;
	readonly print?: boolean;
	readonly port?: number;
}

const program = new Command("handbook")
	.description("Makes a club's curriculum handbook: checked, counted, as a site, a binder and data files.")
	.exitOverride()
	.configureHelp({ showGlobalOptions: true });

let exitCode = 0;

command("check", "read and check the club folder, and say what the plan misses; writes nothing")
	.option("--json", "print problems and findings as JSON")
	.action(async (options: Options) => {
		const { check } = await import("./check.ts");
		exitCode = await check(run(options), { json: options.json ?? false });
	});

command("build", "check, then write the site, the data files and the binder")
	.option("--out <dir>", "where the result goes (default: _site in the club folder)")
	.option("--no-print", "leave the binder out")
	.action(async (options: Options) => {
		const { build } = await import("./build.ts");
		exitCode = await build(run(options), { print: options.print ?? true });
	});

command("print", "check, then lay out the binder as a PDF")
	.option("--out <dir>", "the output folder (default: _site in the club folder)")
	.action(async (options: Options) => {
		const { printCommand } = await import("./print.ts");
		exitCode = await printCommand(run(options));
	});

command("serve", "show the site on this computer and build it again at every change")
	.option("--port <number>", "the port to serve on", portNumber, 8080)
	.action(async (options: Options) => {
		const { serve } = await import("./serve.ts");
		exitCode = await serve(run(options), { port: options.port ?? 8080 });
	});

command("upgrade", "bring a club folder to the present authoring format").action(async (options: Options) => {
	const { upgrade } = await import("./upgrade.ts");
	exitCode = await upgrade(run(options));
});

program
	.command("generate")
	.description("for developers: write again what is made from the schemas")
	.action(async () => {
		const { generate } = await import("./generate.ts");
		exitCode = await generate((line) => process.stdout.write(`${line}\n`));
	});

try {
	await program.parseAsync();
} catch (error) {
	exitCode = error instanceof CommanderError && error.exitCode === 0 ? 0 : 2;
	if (!(error instanceof CommanderError)) reportFault(error, (text) => process.stderr.write(`${text}\n`));
}
process.exitCode = exitCode;

function command(name: string, description: string): Command {
	return program
		.command(name)
		.description(description)
		.option("--club <dir>", "the club folder, with content/ and _data/", clubFolder, ".")
		.exitOverride();
}

function run(options: Options): Run {
	const clubDir = resolve(options.club);
	const outDir = resolve(options.out ?? join(clubDir, "_site"));
	for (const kept of [clubDir, join(clubDir, "content"), join(clubDir, "_data")]) {
		if (isWithin(outDir, kept)) {
			program.error(`error: --out would overwrite the club's own files: ${options.out ?? outDir}`);
		}
	}
	return {
		clubDir,
		outDir,
		out: { line: (text) => process.stdout.write(`${text}\n`), colour: process.stdout.isTTY ?? false },
		progress: { stream: process.stderr, live: process.stderr.isTTY ?? false },
	};
}

/** Whether `outDir` is `kept` itself, lies around it, or is inside the club's content or data. */
function isWithin(outDir: string, kept: string): boolean {
	const around = relative(outDir, kept);
	if (around === "" || (!around.startsWith(`..${sep}`) && around !== ".." && !/^[a-z]:|^[/\\]/i.test(around)))
		return true;
	const inside = relative(kept, outDir);
	const isContent = kept.endsWith(`${sep}content`) || kept.endsWith(`${sep}_data`);
	return isContent && inside !== ".." && !inside.startsWith(`..${sep}`) && !/^[a-z]:|^[/\\]/i.test(inside);
}

function clubFolder(value: string): string {
	if (!existsSync(value)) throw new InvalidArgumentError(`There is no folder ${value}.`);
	if (!statSync(value).isDirectory()) throw new InvalidArgumentError(`${value} is not a folder.`);
	return value;
}

function portNumber(value: string): number {
	const port = Number(value);
	if (!Number.isInteger(port) || port < 0 || port > 65535) {
		throw new InvalidArgumentError("A port is a whole number from 0 to 65535.");
	}
	return port;
}
