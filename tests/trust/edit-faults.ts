/**
 * Faults while a command writes into a club folder, and what the folder holds afterwards.
 *
 *   killEdits    kill -9 before, or in the middle of, single changes of the file system that rename, move,
 *                import, new, next-term and undo make; every other time somebody writes in a file before
 *                the next command
 *   saveDuring   an editor that saves a file again and again while it is renamed and renamed back
 *
 * After each: every text that was there, and every line that somebody wrote, is there; `undo` brings the
 * folder back to what it was; nothing half made is left.
 */

import { spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { textsIn } from "../commands/texts-in.ts";
import { inScratch, REPOSITORY } from "./output-faults.ts";
import { count, newTally, seeded, type Tally } from "./tally.ts";

const FAULTS = pathToFileURL(fileURLToPath(new URL("./fault-at-call.ts", import.meta.url))).href;
const MAIN = join(REPOSITORY, "scripts/commands/main.ts");
const LATER = "Somebody wrote this later.";

export interface EditCommand {
	readonly name: string;
	/** What is done before, unhurt. */
	readonly first?: (base: string) => readonly string[];
	readonly args: (base: string) => readonly string[];
}

const RENAME = ["rename", "drill:rock", "rocking", "--write"];

export const EDIT_COMMANDS: readonly EditCommand[] = [
	{ name: "rename", args: () => RENAME },
	{ name: "move", args: () => ["move", "week", "1", "2", "--write"] },
	{ name: "import", args: (base) => ["import", join(base, "drills.csv"), "--write"] },
	{
		name: "new",
		args: () => ["new", "drill", "--title", "Log roll", "--apparatus", "floor", "--levels", "junior"],
	},
	{
		name: "next-term",
		args: (base) => ["next-term", "--to", join(base, "next"), "--starts", "2027-04-19", "--write"],
	},
	{ name: "undo", first: () => RENAME, args: () => ["undo"] },
	{
		name: "undo of next-term",
		first: (base) => ["next-term", "--to", join(base, "next"), "--starts", "2027-04-19", "--write"],
		args: () => ["undo"],
	},
];

/** A club of two weeks, and a spreadsheet beside it. */
function prepare(base: string): string {
	const club = join(base, "club");
	cpSync(join(REPOSITORY, "tests/fixtures/base-club"), club, { recursive: true });
	writeFileSync(
		join(base, "drills.csv"),
		"Title,Apparatus,Levels\nForward roll,floor,junior\nBridge,floor,junior\nHandstand,floor,junior\n",
	);
	return club;
}

function handbook(club: string, args: readonly string[], env: Readonly<Record<string, string>> = {}) {
	return spawnSync(process.execPath, ["--import", FAULTS, MAIN, ...args, "--club", club], {
		encoding: "utf8",
		cwd: REPOSITORY,
		env: { ...process.env, ...env },
	});
}

/** @param step every how many of the changing calls is tried */
export async function killEdits(
	how: "KILL" | "TEAR",
	step: number,
	commands: readonly EditCommand[] = EDIT_COMMANDS,
): Promise<readonly Tally[]> {
	const tallies: Tally[] = [];
	for (const command of commands) {
		const tally = newTally(
			`\`${command.name}\` killed ${how === "KILL" ? "before" : "in the middle of"} a change`,
		);
		tallies.push(tally);
		const calls = await inScratch((base) => {
			const club = prepare(base);
			if (command.first !== undefined) handbook(club, command.first(base));
			const { status, stderr, stdout } = handbook(club, command.args(base), { FAULT_IN: base });
			if (status !== 0) throw new Error(`${command.name} ends with ${status}: ${stdout}${stderr}`);
			return Number(/calls=(\d+)/.exec(stderr)?.[1]);
		});
		for (let at = 1; at <= calls; at += step) {
			await inScratch((base) => tryOne(tally, command, base, how, at, Math.ceil(at / step) % 2 === 0));
		}
	}
	return tallies;
}

function tryOne(
	tally: Tally,
	command: EditCommand,
	base: string,
	how: "KILL" | "TEAR",
	at: number,
	writesLater: boolean,
): void {
	tally.tried++;
	const club = prepare(base);
	const before = textsIn(club);
	if (command.first !== undefined) handbook(club, command.first(base));
	const hurt = handbook(club, command.args(base), { FAULT_IN: base, FAULT: how, FAULT_AT: String(at) });
	const note = (what: string) => `call ${at}${writesLater ? ", written in later" : ""}: ${what}`;
	if (hurt.signal !== "SIGKILL") count(tally, "crashed", note(`was not killed: ${hurt.stdout}`));
	const later = writesLater ? writeLater(club) : undefined;
	const undone = handbook(club, ["undo"]);
	if (undone.signal !== null || /^\s+at /m.test(undone.stderr)) count(tally, "crashed", note(undone.stderr));
	// A change that was whole before the end is not taken back over later work, and says so.
	const refused = later !== undefined && undone.status === 1;
	if (undone.status !== 0 && !refused)
		count(tally, "crashed", note(`undo: ${undone.stdout}${undone.stderr}`));
	const everywhere = allTexts(base);
	for (const [path, text] of before) {
		if (!everywhere.some((one) => one.includes(JSON.stringify(text).slice(1, -1)) || one.startsWith(text)))
			count(tally, "lost", note(`the text of ${path}`));
	}
	if (later !== undefined && !everywhere.some((text) => text.includes(LATER))) {
		count(tally, "lost", note(`what was written in ${later}`));
	}
	if (later === undefined) {
		const after = textsIn(club);
		const odd = [...new Set([...before.keys(), ...after.keys()])].filter(
			(p) => before.get(p) !== after.get(p),
		);
		if (odd.length > 0) count(tally, "lost", note(`not as before: ${odd.join(", ")}`));
		const half = readdirSync(base).filter((name) => name !== "club" && name !== "drills.csv");
		if (half.length > 0) count(tally, "lost", note(`left: ${half.join(", ")}`));
		for (const left of ["new", "kept"]) {
			if (existsSync(join(club, ".handbook", left))) count(tally, "lost", note(`left: .handbook/${left}`));
		}
	} else if (!refused && !allTexts(join(club, "content")).some((text) => text.includes(LATER))) {
		count(tally, "lost", note(`what was written in ${later} is no longer in its file`));
	}
	const next = handbook(club, ["new", "guide", "--title", "Next"]);
	if (next.status !== 0) count(tally, "crashed", note(`the next command: ${next.stdout}${next.stderr}`));
}

/** Adds a line to a page as the killed command left it. */
function writeLater(club: string): string | undefined {
	const pages = [...textsIn(club).keys()].filter((path) => /^content\/(weeks|drills)\/.*\.md$/.test(path));
	const page = pages.find((path) => /rock|week-0?2/.test(path) && !path.includes("/.")) ?? pages[0];
	if (page === undefined) return undefined;
	writeFileSync(join(club, page), `${readFileSync(join(club, page), "utf8")}\n${LATER}\n`);
	return page;
}

/** Every text in a folder, records among them. */
function allTexts(dir: string): readonly string[] {
	return readdirSync(dir, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => readFileSync(join(entry.parentPath, entry.name), "utf8"));
}

/** @param times how often the file is renamed while another program saves it */
export async function saveDuring(times: number, seed: number): Promise<Tally> {
	const tally = newTally("an editor saving during `rename`");
	const random = seeded(seed);
	await inScratch(async (base) => {
		const club = prepare(base);
		const page = join(club, "content/drills/floor/rock.md");
		const text = readFileSync(page, "utf8");
		for (let i = 0; i < times; i++) {
			tally.tried++;
			const child = spawn(process.execPath, [MAIN, ...RENAME, "--club", club], {
				cwd: REPOSITORY,
				stdio: "ignore",
			});
			const ended = new Promise((resolve) => child.once("exit", resolve));
			const saved: string[] = [];
			let over = false;
			void ended.then(() => {
				over = true;
			});
			for (let n = 0; !over; n++) {
				const word = `Saved ${i}.${n}.`;
				mkdirSync(join(club, "content/drills/floor"), { recursive: true });
				writeFileSync(page, `${text}\n${word}\n`);
				saved.push(word);
				await new Promise((resolve) => setTimeout(resolve, random() * 12));
			}
			const last = saved.at(-1) ?? "";
			if (!allTexts(club).some((one) => one.includes(last))) count(tally, "lost", `${last} is nowhere`);
			for (const folder of ["content", ".handbook"]) {
				const at = join(club, folder);
				if (existsSync(at)) spawnSync("rm", ["-rf", at]);
			}
			cpSync(join(REPOSITORY, "tests/fixtures/base-club/content"), join(club, "content"), {
				recursive: true,
			});
		}
	});
	return tally;
}
