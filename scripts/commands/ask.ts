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

export function terminalAsk(): Ask {
	return async ({ question, choices, several, usual, fault }) => {
		if (several && choices.length > 0 && choices.length <= LISTED) {
			const chosen = await checkbox({
				message: question,
				choices: choices.map(({ id, name }) => ({ value: id, name: name === id ? id : `${name} (${id})` })),
				validate: (picked) => fault(picked.map(({ value }) => value).join(",")) ?? true,
			});
			return chosen.join(",");
		}
		if (several && choices.length > 0) return pickSeveral(question, choices, fault);
		return input({
			message: question,
			...(usual === undefined ? {} : { default: usual }),
			validate: (answer) => fault(answer) ?? true,
		});
	};
}

/** One after the other out of a long list, which narrows with every letter; an empty choice ends it. */
async function pickSeveral(
	question: string,
	choices: readonly Choice[],
	fault: Question["fault"],
): Promise<string> {
	const { default: search } = await import("@inquirer/search");
	const picked: string[] = [];
	for (;;) {
		const left = choices.filter(({ id }) => !picked.includes(id));
		const next = await search({
			message: picked.length === 0 ? question : `${question} (${picked.join(", ")})`,
			source: (term) => {
				const found = suggestions(left, term ?? "").map(({ id, name }) => ({
					value: id,
					name: `${name} (${id})`,
				}));
				return fault(picked.join(",")) === undefined ? [{ value: "", name: "No more" }, ...found] : found;
			},
		});
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
