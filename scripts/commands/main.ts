/**
 * The command line: arguments, help, exit codes. Each command is a file of its own.
 *
 * A command's file is loaded when it is asked for, so that `check` starts without the page engine.
 *
 * Exit codes: 0 all is well, 1 problems in the content (or in laying out print), 2 wrong use.
 */

import { existsSync, statSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { Argument, Command, CommanderError, InvalidArgumentError } from "commander";
import type { NewKind, NewOptions } from "./new.ts";
import { wantsColour } from "./report.ts";
import type { Run } from "./run.ts";

interface Options {
	readonly club: string;
	readonly out?: string;
	readonly json?: boolean;
	readonly print?: boolean;
	readonly port?: number;
	readonly to?: string;
	readonly replace?: boolean;
	readonly map?: string;
	readonly write?: boolean;
}

/** What `new` writes; here as well, so that help does not load the command. */
const NEW_KINDS: readonly NewKind[] = ["drill", "week", "guide", "skill", "club"];

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

command("new", `write something new: ${NEW_KINDS.join(", ")}; asks for what is not said, on a terminal`)
	.addArgument(new Argument("<kind>", "what to write").choices(NEW_KINDS))
	.argument("[folder]", "for a new club: its folder")
	.option("--id <id>", "the file's name; made from the title where it is left out")
	.option("--title <text>", "the title of a drill, a guide or a skill")
	.option("--apparatus <ids>", "apparatus, with commas (of a new club: their names)")
	.option("--levels <ids>", "levels, with commas (of a new club: their names)")
	.option("--shapes <ids>", "body shapes of a drill, with commas")
	.option("--skills <ids>", "skills of a drill, with commas")
	.option("--week <number>", "which week of the term")
	.option("--theme <text>", "what the week is about")
	.option("--name <text>", "the name of a new club")
	.option("--starts <date>", "the Monday on which a new club's term starts")
	.option("--weeks <number>", "how many weeks it has")
	.action(async (kind: NewKind, folder: string | undefined, options: Options & Omit<NewOptions, "kind">) => {
		const { newCommand } = await import("./new.ts");
		exitCode = await newCommand(run(options), {
			...options,
			kind,
			...(folder === undefined ? {} : { folder }),
		});
	});

command("export", "write the drill library, the plan and the lists as spreadsheets: one XLSX, and CSV files")
	.option("--to <dir>", "the folder for the spreadsheets (default: spreadsheets in the club folder)")
	.option("--replace", "write over spreadsheets that are there already")
	.option("--json", "say what was written as JSON")
	.action(async (options: Options) => {
		const { exportCommand } = await import("./export.ts");
		const given = run(options);
		const to = resolve(options.to ?? join(given.clubDir, "spreadsheets"));
		exitCode = await exportCommand(given, {
			to,
			replace: options.replace ?? false,
			json: options.json ?? false,
		});
	});

command(
	"import",
	"bring drills, plans and lists in from spreadsheets; lists what it would make, and writes with --write",
)
	.argument("<files...>", "CSV or XLSX files")
	.option("--map <file>", "a YAML file that says what sheets, columns and words stand for")
	.option("--write", "write the files; without it nothing is written")
	.option("--json", "say as JSON what would be made and what is unclear")
	.action(async (files: readonly string[], options: Options) => {
		const { importCommand } = await import("./import.ts");
		exitCode = await importCommand(run(options), {
			files,
			...(options.map === undefined ? {} : { mapping: options.map }),
			write: options.write ?? false,
			json: options.json ?? false,
		});
	});

program
	.command("generate")
	.description("for developers: write again what is made from the schemas")
	.action(async () => {
		const { generate } = await import("./generate.ts");
		exitCode = await generate((line) => process.stdout.write(`${line}\n`));
	});

// Whoever reads the lines may stop reading, as `head` does; that is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
	if (error.code !== "EPIPE") throw error;
	process.exit(exitCode);
});

try {
	await program.parseAsync();
} catch (error) {
	if (!(error instanceof CommanderError)) throw error;
	exitCode = error.exitCode === 0 ? 0 : 2;
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
		out: {
			line: (text) => process.stdout.write(`${text}\n`),
			colour: wantsColour(process.stdout, process.env),
		},
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
