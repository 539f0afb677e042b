/**
 * The club's own style sheet, `content/style.css`: whether it is one, and loads nothing.
 *
 *   1. esbuild reads it and writes it anew, short, with escapes resolved; what it does not understand is a
 *      problem at its line, since browsers skip such rules without a word
 *   2. what was written is searched for all that makes a browser fetch something: the site's policy would
 *      refuse other hosts, and a file of the club's would not be among those that are published
 */

import { type Message, transformSync } from "esbuild";
import { type Problem, problem } from "../problems.ts";
import type { ReadStyle } from "../read/read-club.ts";

export interface CheckedStyle {
	/** Undefined where there is a problem. */
	readonly css?: string;
	readonly problems: readonly Problem[];
}

/** What loads a file: CSS Values 4 and CSS Images 4 (`url`, `src`, `image`, `image-set`, `cross-fade`), CSS Cascade 5 (`@import`). */
const LOADS = /@import|\b(?:url|src|image|image-set|cross-fade)\(/i;

/** The last one that was judged: `serve` asks at every change of another file. */
let last: { readonly text: string; readonly checked: CheckedStyle } | undefined;

export function checkStyle({ file, text }: ReadStyle): CheckedStyle {
	if (last?.text !== text) last = { text, checked: judged(file, text) };
	return last.checked;
}

function judged(file: string, text: string): CheckedStyle {
	const notRead = ({ text: what, location }: Message): Problem =>
		problem(
			"H132",
			{ file, line: location?.line ?? 1, column: (location?.column ?? 0) + 1 },
			`A style sheet has no such thing here: ${what}.`,
			{ fix: "Correct the line. A brace or quote that is missing before it is a common cause." },
		);
	try {
		const { code, warnings } = transformSync(text, {
			loader: "css",
			minify: true,
			target: "es2022",
			charset: "utf8",
			logLevel: "silent",
		});
		if (warnings.length > 0) return { problems: warnings.map(notRead) };
		const loads = LOADS.exec(code)?.[0];
		return loads === undefined ? { css: code, problems: [] } : { problems: [loading(file, text, loads)] };
	} catch (error) {
		const messages = (error as { readonly errors?: readonly Message[] }).errors;
		if (messages === undefined) throw error;
		return { problems: messages.map(notRead) };
	}
}

function loading(file: string, text: string, what: string): Problem {
	// Written with escapes it is not found, and the file alone is named.
	const before = text.slice(0, Math.max(0, text.toLowerCase().indexOf(what.toLowerCase())));
	const line = before.split("\n").length;
	const column = before.length - before.lastIndexOf("\n");
	return problem("H132", { file, line, column }, `\`${what.replace("(", "")}\` would load another file.`);
}
