/**
 * The command line: arguments, help, exit codes. Each command is a file of its own.
 *
 * A command's file is loaded when it is asked for, so that `check` starts without the page engine.
 *
 * Exit codes: 0 all is well, 1 problems in the content (or in laying out print), 2 wrong use.
 */

import { relative, resolve } from "node:path";
import { Argument, Command, CommanderError, InvalidArgumentError, Option } from "commander";
import { HARMS } from "../compute/harm.ts";
import type { NewAcceptance } from "../edit/accept.ts";
import { givenKind } from "../files/given.ts";
import { authorGuide } from "../words/en.ts";
import type { BuildOptions } from "./build.ts";
import type { CheckOptions } from "./check.ts";
import type { LibraryChoice } from "./compare-library.ts";
import type { ImportOptions } from "./import.ts";
import type { NewOptions } from "./new.ts";
import { HOST_KINDS, NEW_KINDS, type NewKind } from "./new-kinds.ts";
import { ownOutput } from "./note-edition.ts";
import { isRunByNpm, keptByNpm, npmRun } from "./npm-options.ts";
import { isInstalled } from "./own-package.ts";
import type { PrintWish } from "./print.ts";
import { wantsColour } from "./report.ts";
import { reportFault } from "./report-fault.ts";
import type { Run } from "./run.ts";

/** A stream that lines are written to. */
interface Lines {
	write(text: string): unknown;
	readonly isTTY?: boolean;
}

export interface Surroundings {
	readonly stdout: Lines;
	readonly stderr: Lines;
	readonly env: Readonly<Record<string, string | undefined>>;
	/** The folder of the package where npm runs it, which is the club folder without `--club`. */
	readonly home: string;
}

/** Where a command works. */
interface Folders {
	readonly club?: string;
	readonly out?: string;
}

interface Writes {
	readonly write?: boolean;
}

const PRINT_HELP = `
What can be printed:
${Object.entries(authorGuide.commands.sheets)
	.map(([name, what]) => `  ${name.padEnd(15)}${what.replaceAll("`", "")}`)
	.join("\n")}

Without --week, --class, --level or --apparatus all of them are printed. For example:
  npm run print -- pocket --class mon-beginners,tue-level-2 --paper A5
  npm run print -- class-sheets --week 3 --class mon-beginners
  npm run print -- station-cards --week 3 --apparatus beam --up 4`;

/** Commands whose own last line names the club and its folder. */
const NAME_IT_THEMSELVES: ReadonlySet<string> = new Set(["check", "serve"]);

/**
 * Does what was typed.
 *
 * @param words what stands behind the program's name
 * @returns the exit code
 */
export async function runCommand(words: readonly string[], io: Surroundings): Promise<number> {
	const cli = new CommandLine(io);
	addReading(cli);
	addComparing(cli);
	addPublishing(cli);
	addPrinting(cli);
	addSolving(cli);
	addChanging(cli);
	addMaking(cli);
	addSpreadsheets(cli);
	return cli.parse(words);
}

/** The commands as they are put together, and how the one that runs ended. */
class CommandLine {
	readonly io: Surroundings;
	readonly usualClub: string;
	readonly program: Command;
	exitCode = 0;

	constructor(io: Surroundings) {
		this.io = io;
		this.usualClub = relative(process.cwd(), io.home) || ".";
		this.program = new Command("handbook")
			.description(
				"Makes a club's curriculum handbook: checked, counted, as a site, a binder and data files.",
			)
			.exitOverride()
			.configureOutput({
				writeOut: (text) => io.stdout.write(text),
				writeErr: (text) => io.stderr.write(text),
			})
			.configureHelp({ showGlobalOptions: true });
		// A command that worked on another folder than was meant looks as if all were well: each says which.
		this.program.hook("postAction", async (_program, command) => this.#nameClub(command));
	}

	command(name: string, description: string): Command {
		return this.clubCommand(this.program.command(name).description(description));
	}

	clubCommand(own: Command): Command {
		return own
			.option("--club <dir>", "the club folder, with content/ and _data/", clubFolder, this.usualClub)
			.exitOverride();
	}

	/** What a command does when it is asked for; it gives the exit code. */
	does<Options, Words extends readonly unknown[]>(
		work: (run: Run, options: Options, ...words: Words) => number | Promise<number>,
	) {
		return async (...given: readonly unknown[]): Promise<void> => {
			// What was typed as words comes first; the options, and the command itself, last.
			const options = given.at(-2) as Options & Folders;
			const words = given.slice(0, -2) as readonly unknown[] as Words;
			this.exitCode = await work(this.#run(options), options, ...words);
		};
	}

	/** The same by a function of the command's own file, which is loaded when it is asked for. */
	calls<Name extends string>(
		load: () => Promise<{ readonly [N in Name]: (run: Run, options: never) => number | Promise<number> }>,
		name: Name,
	) {
		return this.does<never, []>(async (run, options) => (await load())[name](run, options));
	}

	/** What every command is given. */
	#run({ club, out }: Folders): Run {
		const { stdout, stderr, env } = this.io;
		const clubDir = resolve(club ?? this.usualClub);
		return {
			clubDir,
			outDir: resolve(out ?? ownOutput(clubDir)),
			now: this.#startedAt(),
			out: { line: (text) => stdout.write(`${text}\n`), colour: wantsColour(stdout, env) },
			progress: { stream: stderr, live: stderr.isTTY ?? false },
		};
	}

	async parse(words: readonly string[]): Promise<number> {
		const { stderr, env, home } = this.io;
		try {
			const kept = this.#keptOptions(words);
			if (kept === undefined) await this.program.parseAsync(words, { from: "user" });
			else {
				this.exitCode = 2;
				stderr.write(`error: ${kept}\n`);
			}
		} catch (error) {
			this.exitCode = error instanceof CommanderError && error.exitCode === 0 ? 0 : 2;
			const isTooMuch = error instanceof CommanderError && error.code === "commander.excessArguments";
			if (isTooMuch && isRunByNpm(env)) {
				stderr.write(
					`Options come after two hyphens alone, as in ${npmRun(env, home)} -- --club ../my-club\n`,
				);
			}
			if (!(error instanceof CommanderError)) reportFault(error, (text) => stderr.write(`${text}\n`));
		}
		return this.exitCode;
	}

	async #nameClub(command: Command): Promise<void> {
		const { club, json } = command.opts<{ readonly club?: string; readonly json?: boolean }>();
		const isNewFolder = command.name() === "new" && command.args[0] === "club";
		if (this.exitCode === 2 || club === undefined || json === true || isNewFolder) return;
		if (NAME_IT_THEMSELVES.has(command.name())) return;
		const { clubAndFolder } = await import("./said-of-club.ts");
		this.io.stdout.write(`${clubAndFolder(club)}\n`);
	}

	/** The clock, or the moment that a reproducible build is given: https://reproducible-builds.org/specs/source-date-epoch/ */
	#startedAt(): Date {
		const { SOURCE_DATE_EPOCH: given } = this.io.env;
		if (given === undefined || given === "") return new Date();
		const moment = new Date(Number(given) * 1000);
		if (/^\d+$/.test(given) && !Number.isNaN(moment.getTime())) return moment;
		return this.program.error(`error: SOURCE_DATE_EPOCH is no whole number of seconds: ${given}`);
	}

	/** What npm kept of the options of the command that was typed. */
	#keptOptions(words: readonly string[]): string | undefined {
		let at: Command = this.program;
		for (const word of words) {
			const inner = at.commands.find((one) => one.name() === word);
			if (inner === undefined) break;
			at = inner;
		}
		if (at === this.program) return undefined;
		return keptByNpm(at.options, words.slice(1), this.io.env, this.io.home);
	}
}

/** What a finding that is accepted may be about, besides a week. */
const ABOUT = {
	class: "the class it is about",
	group: "the group, as class/group",
	level: "the level",
	apparatus: "the apparatus",
	drill: "the drill",
	skill: "the skill",
	shape: "the body shape",
	equipment: "the equipment",
};

/** Commands that write nothing of the plan: they count, compare, and let a finding stand. */
function addReading(cli: CommandLine): void {
	cli
		.command(
			"check",
			"read and check the club folder, and say what the plan misses: one line when all is well; writes nothing",
		)
		.option("--json", "print problems and findings as JSON")
		.option("--week <number>", "only findings of one week", wholeNumber)
		.option("--class <id>", "only findings of one class")
		.option("--kind <kind>", `only findings of one kind (${HARMS.join(", ")}) or one code`, findingKind)
		.option("--all", "show every finding, however many")
		.option("--what-if <file>", "ask what a change list would do to the plan; the plan itself is not changed")
		.action(
			cli.does(async (run, { whatIf: list, ...options }: CheckOptions & { readonly whatIf?: string }) => {
				if (list === undefined) return (await import("./check.ts")).check(run, options);
				const { whatIf } = await import("./compare.ts");
				return whatIf(run.clubDir, list, run.out, options);
			}),
		);

	const accepting = cli
		.command("accept", "let a finding stand on purpose, with the reason; `undo` takes it back")
		.argument("<code>", "the finding's code, such as H309", findingCode)
		.requiredOption("--reason <text>", "why it may stand")
		.option("--until <date>", "the last day on which it may, as 2027-03-19")
		.option("--week <number>", "the week it is about", wholeNumber);
	for (const [kind, what] of Object.entries(ABOUT)) accepting.option(`--${kind} <id>`, what);
	accepting.action(
		cli.does(async (run, options: Omit<NewAcceptance, "finding" | "about">, finding: string) => {
			const { acceptCommand } = await import("./accept.ts");
			const about = ["week", ...Object.keys(ABOUT)].flatMap((kind) => {
				const one: unknown = Reflect.get(options, kind);
				return one === undefined ? [] : [[kind, one] as const];
			});
			const { reason, until } = options;
			return acceptCommand(run, { finding, about: Object.fromEntries(about), reason, until });
		}),
	);

	cli
		.command("taught", "take what coaches sent of their classes into _data/taught")
		.argument("<files...>", "files or mails with reports, any number")
		.option("--write", "write it; without it nothing is changed")
		.action(
			cli.does(async (run, { write = false }: Writes, files: readonly string[]) =>
				(await import("./taught.ts")).taughtCommand(run, files, write),
			),
		);
}

function addComparing(cli: CommandLine): void {
	cli.program
		.command("compare")
		.description(
			"say what differs between two club folders, and what that did to the counts; with --library, what libraries changed",
		)
		.argument("[earlier]", "what to compare with: a club folder, an output folder, or a record.json")
		.argument("[later]", "the folder that is compared", cli.usualClub)
		.option("--library", "what the libraries of the club changed since you looked")
		.option("--take <things>", "take these changes of libraries, with commas, or all", listed)
		.option("--keep <things>", "keep what was there before, as the club's own word", listed)
		.option("--json", "print the comparison as JSON")
		.exitOverride()
		.action(
			cli.does(
				async (
					run,
					options: Partial<LibraryChoice> & { readonly library?: boolean },
					earlier: string | undefined,
					later: string,
				) => {
					const { library = false, take = [], keep = [], json = false } = options;
					if (library || take.length + keep.length > 0) {
						const { compareLibrary } = await import("./compare-library.ts");
						const clubDir = resolve(earlier ?? cli.usualClub);
						return compareLibrary({ ...run, clubDir }, { take, keep, json });
					}
					if (earlier === undefined)
						throw new InvalidArgumentError("Name the earlier folder, or say --library.");
					return (await import("./compare.ts")).compareFolders(earlier, later, run.out, { json });
				},
			),
		);
}

/** Commands that write or show the handbook. */
function addPublishing(cli: CommandLine): void {
	cli
		.command("build", "check, then write the site, the data files, the binder and the single sheets")
		.option(
			"--out <dir>",
			"where the result goes (default: in your folder for caches; _site where it is there)",
		)
		.option("--no-print", "leave the binder and the single sheets out")
		.option("--plain", "a plain folder as the result, not a link to one: for programs that follow no links")
		.option(
			"--director",
			"a site for you alone, with what coaches reported, without print; needs --out, and is not to be put online",
		)
		.option(
			"--since <plan>",
			"add a page of what changed since an earlier plan: a club or output folder, or a record.json",
		)
		.action(
			cli.does(async (run, options: BuildOptions & Folders) => {
				const { director = false, out } = options;
				if (director && out === undefined)
					return cli.program.error("error: --director needs --out <dir>: a folder that is never put online");
				const { build } = await import("./build.ts");
				return build(run, { ...options, print: options.print && !director });
			}),
		);

	cli
		.command(
			"serve",
			"show the site on this computer, new at every change, and the desk, where the plan is changed by hand",
		)
		.option("--port <number>", "the port to serve on", portNumber, 8080)
		.option(
			"--host <address>",
			"the address to serve on; with 0.0.0.0 whoever is in the same network reads along",
			"127.0.0.1",
		)
		.option("--read-only", "a desk to look at: nothing can be changed there")
		.action(cli.calls(() => import("./serve.ts"), "serve"));
}

function addPrinting(cli: CommandLine): void {
	cli
		.command("print", "check, then lay out the binder or single sheets as PDFs")
		.argument("[sheets]", "what to print (default: binder)")
		.option("--week <week>", "one week, by its number or id")
		.option("--class <id>", "one class; for the pocket, the classes of a coach with commas between them")
		.option("--level <id>", "one level")
		.option("--apparatus <id>", "one apparatus")
		.option(
			"--since <file>",
			"the edition of an earlier binder, volume or pocket: its .edition.json, or its PDF",
		)
		.addOption(
			new Option(
				"--up <number>",
				"station cards to a sheet: 2 or 4 (default: both); 2 sides of a pocket to a page",
			).choices(["2", "4"]),
		)
		.addOption(
			new Option("--paper <size>", "of the pocket: A4, A5 or Letter (default: the club's)").choices([
				"A4",
				"A5",
				"Letter",
			]),
		)
		.option("--bleed <mm>", "paper beyond the edge to be cut, such as 3mm, with crop marks", millimetres)
		.option("--out <dir>", "the output folder (default: where build writes)")
		.addHelpText("after", PRINT_HELP)
		.action(
			cli.does(
				async (
					run,
					{ up, ...wish }: Omit<PrintWish, "up"> & { readonly up?: "2" | "4" },
					sheets: string | undefined,
				) => {
					if (sheets !== "update-packet") {
						const { printCommand } = await import("./print.ts");
						return printCommand(run, { ...wish, sheets, up: up && (up === "2" ? 2 : 4) });
					}
					if (wish.since === undefined) return cli.program.error("error: update-packet needs --since <file>");
					return (await import("./update-packet.ts")).updatePacket(run, wish.since);
				},
			),
		);
}

/** Commands that find changes of the plan by themselves. */
function addSolving(cli: CommandLine): void {
	cli
		.command(
			"mend",
			"find the fewest changes of the plan that take its findings away, and prove it; --write makes them",
		)
		.option("--week <number>", "change only one week", wholeNumber)
		.option("--class <id>", "change only what one class does")
		.option("--level <id>", "change only what one level does")
		.option("--finding <kind>", `mend only one kind (${HARMS.join(", ")}) or one code`, findingKind)
		.option("--plans <number>", "offer so many plans that differ", wholeNumber, 1)
		.option("--time-limit <seconds>", "after this long the best so far is taken", wholeSeconds, 60)
		.option("--list <file>", "write the change list into a file, for check --what-if", path)
		.option("--json", "print the plans as JSON")
		.option("--write", "make the changes of the first plan")
		.action(cli.calls(() => import("./mend.ts"), "mendCommand"));

	cli
		.command(
			"plan",
			"plan weeks that have no plan yet, from the library; --write writes them, and no other file",
		)
		.option("--week <number>", "only one week", wholeNumber)
		.option("--seed <number>", "another number gives another plan", wholeNumber, 1)
		.option("--time-limit <seconds>", "after this long the best so far is taken", wholeSeconds, 60)
		.option("--json", "print the weeks as JSON")
		.option("--write", "write the files of the weeks")
		.action(cli.calls(() => import("./plan.ts"), "planCommand"));
}

/** Commands that change the plan, and take the change back. */
function addChanging(cli: CommandLine): void {
	cli
		.command("rename", "give a thing another id, everywhere; shows the change, and makes it with --write")
		.argument("<thing>", "its id, or kind:id, such as drill:log-roll")
		.argument("<new-id>", "lower-case letters and digits in words joined by hyphens")
		.option("--write", "make the change")
		.action(
			cli.does(async (run, { write = false }: Writes, thing: string, to: string) =>
				(await import("./rename.ts")).rename(run, { thing, to, write }),
			),
		);

	const moving = cli.program
		.command("move")
		.description("move a block or a whole week of the plan; shows the change, and makes it with --write")
		.exitOverride();
	const moves = (what: "block" | "week") =>
		cli.does(async (run, options: Writes & { readonly swap?: boolean }, from: string, to: string) => {
			const { move } = await import("./move.ts");
			return move(run, { swap: false, write: false, ...options, what, from, to });
		});

	cli
		.clubCommand(moving.command("block"))
		.description(
			"move one block: from week/apparatus/block to week/apparatus/block, such as 3/beam/2 5/beam/1",
		)
		.argument("<from>", "where it stands")
		.argument("<to>", "where it stands afterwards")
		.option("--write", "make the change")
		.action(moves("block"));

	cli
		.clubCommand(moving.command("week"))
		.description("move a week to another number; the weeks between close up by one")
		.argument("<from>", "its number")
		.argument("<to>", "its number afterwards")
		.option("--swap", "the two weeks trade places, and those between stay")
		.option("--write", "make the change")
		.action(moves("week"));

	cli
		.command(
			"apply",
			"make the changes of a list, as `check --what-if` tells them first; shows them, and makes them with --write",
		)
		.argument(
			"<list>",
			"a YAML file: replace, merge, insert-week, close, cancel, change, rename, and changes of blocks",
		)
		.option("--write", "make the changes")
		.action(
			cli.does(async (run, { write = false }: Writes, list: string) =>
				(await import("./apply.ts")).apply(run, { list, write }),
			),
		);

	cli
		.command("undo", "take back the last change that a command or the desk made; again, the one before")
		.action(cli.calls(() => import("./undo.ts"), "undo"));
}

/** Commands that make new files, terms and clubs. */
function addMaking(cli: CommandLine): void {
	cli
		.command("next-term", "make the next term's club folder from this one, which stays as it is")
		.requiredOption("--to <dir>", "the new folder", path)
		.requiredOption("--starts <date>", "the Monday of its first week, such as 2027-04-19", monday)
		.option("--weeks <number>", "how many teaching weeks (default: as many as now)", wholeNumber)
		.option("--name <name>", "the term's name")
		.option("--closed <days...>", "days without classes: dates, or intervals such as 2027-05-31/2027-06-04")
		.option("--empty", "leave the plans of the weeks out")
		.option("--write", "make the folder")
		.action(cli.calls(() => import("./next-term.ts"), "nextTermCommand"));

	cli
		.command("new", `write something new: ${NEW_KINDS.join(", ")}; asks for what is not said, on a terminal`)
		.addArgument(new Argument("<kind>", "what to write").choices(NEW_KINDS))
		.argument("[folder]", `for a new club: its folder; for a host: its kind (${HOST_KINDS.join(", ")})`)
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
		.action(
			cli.does(async (run, options: Omit<NewOptions, "kind">, kind: NewKind, folder: string | undefined) => {
				const { newCommand } = await import("./new.ts");
				return newCommand(run, { ...options, kind, ...(folder === undefined ? {} : { folder }) });
			}),
		);

	cli
		.command("upgrade", "bring a club folder to the present authoring format")
		.action(cli.calls(() => import("./upgrade.ts"), "upgrade"));

	cli
		.command(
			"update",
			"another version of this program for this folder: shows what it would change; --write takes it",
		)
		.option("--to <version>", "a version, or a file of it (default: the newest)")
		.option("--write", "take it; without it nothing is changed")
		.action(cli.calls(() => import("./update.ts"), "update"));

	if (isInstalled()) return;
	cli.program
		.command("generate")
		.description("for developers: write again what is made from the schemas")
		.action(cli.does(async ({ out }) => (await import("./generate.ts")).generate(out.line)));
}

/** Commands that hand the library to spreadsheets, and take it from them. */
function addSpreadsheets(cli: CommandLine): void {
	cli
		.command(
			"export",
			"write the drill library, the plan and the lists as spreadsheets: one XLSX, and CSV files",
		)
		.option("--to <dir>", "the folder for the spreadsheets (default: spreadsheets in the club folder)", path)
		.option("--counts", "what was counted instead: names beside ids, in the signs of the club's language")
		.option("--replace", "write over spreadsheets that are there already")
		.option("--json", "say what was written as JSON")
		.action(cli.calls(() => import("./export.ts"), "exportCommand"));

	cli
		.command(
			"import",
			"bring drills, plans and lists in from spreadsheets; lists what it would make, and writes with --write",
		)
		.argument("<files...>", "XLSX, CSV or text with tabs, or HTML with tables")
		.option("--map <file>", "a YAML file that says what sheets, columns and words stand for")
		.option(
			"--map-out <file>",
			"write such a file to fill in: what was seen, what is known, what is missing",
			path,
		)
		.option(
			"--update",
			"take what the sheets say otherwise of what is there; shows each field, `undo` takes it back",
		)
		.option("--prefer-sheet", "with --update: where both sides changed, take the sheet's")
		.option("--remove", "with --update: take out what the sheet had before and has no longer")
		.option("--write", "write the files; without it nothing is written")
		.option("--json", "say as JSON what would be made and what is unclear")
		.action(
			cli.does(async (run, options: Omit<ImportOptions, "files">, files: readonly string[]) =>
				(await import("./import.ts")).importCommand(run, { ...options, files }),
			),
		);
}

/** A path from where the command was typed. */
function path(value: string): string {
	return resolve(value);
}

function listed(value: string): readonly string[] {
	return value
		.split(",")
		.map((one) => one.trim())
		.filter((one) => one !== "");
}

function clubFolder(value: string): string {
	const kind = givenKind(value);
	if (kind === undefined) throw new InvalidArgumentError(`There is no folder ${value}.`);
	if (kind !== "folder") throw new InvalidArgumentError(`${value} is not a folder.`);
	return value;
}

function findingCode(value: string): string {
	if (!/^H3\d\d$/.test(value)) throw new InvalidArgumentError("A finding's code is written as H309.");
	return value;
}

function findingKind(value: string): string {
	if (!HARMS.some((harm) => harm === value) && !/^H3\d\d$/.test(value)) {
		throw new InvalidArgumentError(`A kind is one of ${HARMS.join(", ")}, or a code such as H309.`);
	}
	return value;
}

function monday(value: string): string {
	const isDate = /^\d{4}-\d{2}-\d{2}$/.test(value);
	const day = isDate ? new Date(`${value}T00:00:00Z`) : undefined;
	if (day === undefined || Number.isNaN(day.getTime()) || day.getUTCDay() !== 1) {
		throw new InvalidArgumentError("A term starts on a Monday, written as 2027-04-19.");
	}
	return value;
}

function wholeNumber(value: string): number {
	if (!/^[1-9]\d?$/.test(value)) throw new InvalidArgumentError("A number of weeks is whole, from 1 to 99.");
	return Number(value);
}

/** "3mm", "3 mm" or "3". */
function millimetres(value: string): number {
	const found = /^(\d+(?:\.\d+)?)\s*(?:mm)?$/.exec(value);
	const length = Number(found?.[1]);
	if (found === null || length > 20)
		throw new InvalidArgumentError("A bleed is a number of millimetres up to 20, such as 3mm.");
	return length;
}

function wholeSeconds(value: string): number {
	if (!/^[1-9]\d{0,4}$/.test(value)) throw new InvalidArgumentError("A time is a whole number of seconds.");
	return Number(value);
}

function portNumber(value: string): number {
	const port = Number(value);
	if (!Number.isInteger(port) || port < 0 || port > 65535) {
		throw new InvalidArgumentError("A port is a whole number from 0 to 65535.");
	}
	return port;
}
