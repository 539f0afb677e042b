/** Questions in the terminal, with suggestions of ids while typing. */

import checkbox from "@inquirer/checkbox";
import input from "@inquirer/input";

export interface Choice {
	readonly id: string;
	readonly name: string;
}

export interface Question {
	readonly question: string;
	/** What may be chosen; empty for any text. */
	readonly choices: readonly Choice[];
	readonly several: boolean;
	readonly usual: string | undefined;
	/** Why an answer will not do; undefined where it will. */
	readonly fault: (answer: string) => string | undefined;
}

/** Asks one question; several ids come back joined with commas. */
export type Ask = (question: Question) => Promise<string>;

/** More choices than this are not shown as a list: their ids are completed while typing. */
const LISTED = 12;

/** A terminal's two sides. */
interface Terminal {
	readonly input: NodeJS.ReadableStream;
	readonly output: NodeJS.WritableStream;
}

/** The questions' way of being asked: it is rejected where a question is interrupted, or the input ends. */
type AskOne = <T>(prompt: (context: Terminal & { readonly signal: AbortSignal }) => Promise<T>) => Promise<T>;

export function terminalAsk(terminal: Terminal = { input: process.stdin, output: process.stdout }): Ask {
	const one: AskOne = async (prompt) => {
		// The library leaves a question open for ever whose input ends; all that is seen of it is a pause.
		const ended = new AbortController();
		const end = () => ended.abort();
		terminal.input.once("pause", end);
		try {
			return await prompt({ ...terminal, signal: ended.signal });
		} finally {
			terminal.input.off("pause", end);
		}
	};
	return async ({ question, choices, several, usual, fault }) => {
		if (several && choices.length > 0 && choices.length <= LISTED) {
			const config = {
				message: question,
				choices: choices.map(({ id, name }) => ({ value: id, name: name === id ? id : `${name} (${id})` })),
				validate: (picked: readonly { readonly value: string }[]) =>
					fault(picked.map(({ value }) => value).join(",")) ?? true,
			};
			return (await one((context) => checkbox(config, context))).join(",");
		}
		if (several && choices.length > 0) return pickSeveral(one, question, choices, fault);
		const config = {
			message: question,
			...(usual === undefined ? {} : { default: usual }),
			validate: (answer: string) => fault(answer) ?? true,
		};
		return one((context) => input(config, context));
	};
}

/** One after the other out of a long list, which narrows with every letter; an empty choice ends it. */
async function pickSeveral(
	one: AskOne,
	question: string,
	choices: readonly Choice[],
	fault: Question["fault"],
): Promise<string> {
	const { default: search } = await import("@inquirer/search");
	const picked: string[] = [];
	for (;;) {
		const left = choices.filter(({ id }) => !picked.includes(id));
		const config = {
			message: picked.length === 0 ? question : `${question} (${picked.join(", ")})`,
			source: (term: string | undefined) => {
				const found = suggestions(left, term ?? "").map(({ id, name }) => ({
					value: id,
					name: `${name} (${id})`,
				}));
				return fault(picked.join(",")) === undefined ? [{ value: "", name: "No more" }, ...found] : found;
			},
		};
		const next = await one((context) => search(config, context));
		if (next === "") return picked.join(",");
		picked.push(next);
	}
}

/** The choices that a few letters could mean: those that start so first, then those that hold them. */
export function suggestions(choices: readonly Choice[], typed: string): readonly Choice[] {
	const term = typed.trim().toLowerCase();
	const words = (choice: Choice) => [choice.id, choice.name.toLowerCase()];
	const starting = choices.filter((choice) => words(choice).some((word) => word.startsWith(term)));
	const holding = choices.filter(
		(choice) => !starting.includes(choice) && words(choice).some((word) => word.includes(term)),
	);
	return [...starting, ...holding];
}
