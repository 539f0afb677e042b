/**
 * Options that npm kept for itself: `npm run check --club ../x` without two hyphens of their own.
 *
 * npm reads every option before those hyphens as a setting, drops it from the command and hands it on as
 * `npm_config_<name>`. A command that went on would do something else than was typed, such as check
 * another club. The names looked for are those of the command's own options, so none can be forgotten;
 * what a settings file or the environment holds was not typed and does not count.
 */

import { join, relative } from "node:path";
import { givenKind, readGiven } from "../files/given.ts";

type Env = Readonly<Record<string, string | undefined>>;

/** An option of a command, as the library of the command line describes it. */
export interface KnownOption {
	/** With its hyphens: `--club`, `--no-print`. */
	readonly long?: string | undefined;
	readonly flags: string;
	/** Whether a value belongs to it. */
	readonly required: boolean;
}

/** Whether npm runs this program as a script of its package, rather than a test or another program under npm. */
export function isRunByNpm(env: Env): boolean {
	const script = env.npm_lifecycle_script ?? "";
	return script.includes("commands/main.ts") || /^handbook(\s|$)/.test(script);
}

/**
 * What to say about options that npm kept; undefined where it kept none.
 *
 * @param options those of the command that runs
 * @param given what reached the command behind its own name: arguments, and options behind the two hyphens
 * @param home the package's folder, in which npm starts its scripts
 * @param settings the text of npm's settings files
 */
export function keptByNpm(
	options: readonly KnownOption[],
	given: readonly string[],
	env: Env,
	home: string,
	settings: string = settingsOf(env, home),
): string | undefined {
	if (!isRunByNpm(env)) return undefined;
	const kept = options.flatMap((option) => {
		const { long = "" } = option;
		if (given.some((one) => one === long || one.startsWith(`${long}=`))) return [];
		const value = valueKept(option, env, settings);
		return value === undefined ? [] : [{ option, value }];
	});
	if (kept.length === 0) return undefined;
	const words = [...given];
	const valueless = kept.filter(({ option, value }) => option.required && value === true);
	const own = words.splice(Math.max(0, words.length - valueless.length));
	const typed = kept.flatMap(({ option: { long = "", flags, required }, value }) => {
		if (!required) return [long];
		if (value !== true) return value.split("\n\n").flatMap((one) => [long, quoted(one)]);
		// Its value reached the command as one more argument; of several, nobody can say which.
		const [only] = valueless.length === 1 ? own : [];
		return only === undefined ? [long, /<[^>]+>/.exec(flags)?.[0] ?? "<value>"] : [long, quoted(only)];
	});
	const names = kept.map(({ option }) => option.long ?? "").join(", ");
	const arguments_ = words.map(quoted);
	// What stands after an option's place holder would be read as its value.
	const command = [...arguments_, ...typed].join(" ");
	return `npm kept ${names} for itself, so the command did not get ${kept.length === 1 ? "it" : "them"}, and nothing was done. Two hyphens alone come first:\n  ${npmRun(env, home)} -- ${command}`;
}

/** How the script was started: `npm run check`, with `--prefix` where it was from outside the package. */
export function npmRun(env: Env, home: string): string {
	const script = env.npm_lifecycle_event ?? "";
	const from = env.INIT_CWD;
	const away = from === undefined ? "" : relative(home, from);
	const outside = away === ".." || /^\.\.[/\\]/.test(away) || /^([a-z]:|[/\\])/i.test(away);
	return outside && from !== undefined
		? `npm --prefix ${quoted(relative(from, home))} run ${script}`
		: `npm run ${script}`;
}

/** The value that npm kept of an option; true where it kept none. */
function valueKept({ long, required }: KnownOption, env: Env, settings: string): string | true | undefined {
	const isNegative = long?.startsWith("--no-") ?? false;
	const name = (long ?? "").replace(/^--(no-)?/, "").replaceAll("-", "_");
	if (name === "") return undefined;
	if (isTakenByLetters(name, settings, env)) return true;
	const key = `npm_config_${name}`;
	for (const [found, value = ""] of Object.entries(env)) {
		// npm lengthens a name that begins one of its own settings: `--to` becomes `token_description`.
		if (found !== key && !found.startsWith(key)) continue;
		const setting = found.slice("npm_config_".length);
		if (isSet(setting, settings, env)) continue;
		if (isNegative) {
			if (found === key && (value === "" || value === "false")) return true;
			continue;
		}
		const off = value === "" || value === "false" || value === "null";
		if (off) continue;
		if (!required || value === "true") return true;
		return value;
	}
	return undefined;
}

/** npm's settings of one letter. A long name made of these alone is taken letter by letter: `--map` as -m -a -p. */
const LETTERS = /^[acdfghlmnpqsvwy]+$/;
/** What letters without a value leave behind. */
const TRACES: Readonly<Record<string, string>> = { a: "all", f: "force", l: "long", p: "parseable" };

function isTakenByLetters(name: string, settings: string, env: Env): boolean {
	if (!LETTERS.test(name)) return false;
	const traces = [...name].flatMap((letter) => TRACES[letter] ?? []);
	return (
		traces.length > 0 &&
		traces.every((setting) => env[`npm_config_${setting}`] === "true" && !isSet(setting, settings, env))
	);
}

/** Whether a setting stands in a file or was in the environment before npm ran. */
function isSet(setting: string, settings: string, env: Env): boolean {
	const isOwn = (key: string): boolean =>
		/^NPM_CONFIG_/.test(key) && key.slice("NPM_CONFIG_".length).toLowerCase() === setting;
	if (Object.keys(env).some(isOwn)) return true;
	return settings
		.split("\n")
		.some((line) => (/^\s*([\w-]+)(\[\])?\s*(=|$)/.exec(line)?.[1] ?? "").replaceAll("-", "_") === setting);
}

function settingsOf(env: Env, home: string): string {
	const files = [env.npm_config_userconfig, env.npm_config_globalconfig, join(home, ".npmrc")];
	return files
		.flatMap((file) =>
			file !== undefined && givenKind(file) === "file" ? [readGiven(file).toString("utf8")] : [],
		)
		.join("\n");
}

function quoted(text: string): string {
	return /^[\w./:@%+=,~<>-]+$/.test(text) ? text : `"${text.replace(/["\\$`]/g, "\\$&")}"`;
}
