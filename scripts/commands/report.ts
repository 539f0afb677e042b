/**
 * Problems and findings as a person reads them in a terminal: grouped by file, the line quoted with
 * a caret under the spot, what to do about it, and a summary last. Coloured only on a terminal.
 */

import { styleText } from "node:util";
import type { Finding } from "../model.ts";
import { NOWHERE, type Problem } from "../problems.ts";
import { textInClub } from "../read/read-club.ts";

/** Where lines go, and whether colours are wanted there. */
export interface Output {
	readonly line: (text: string) => void;
	readonly colour: boolean;
}

/**
 * Whether lines are coloured: on a terminal alone, unless `FORCE_COLOR` asks for it elsewhere;
 * `NO_COLOR` with any value, or `FORCE_COLOR=0`, says no.
 */
export function wantsColour(
	stream: { readonly isTTY?: boolean },
	env: Readonly<Record<string, string | undefined>>,
): boolean {
	const { FORCE_COLOR: forced, NO_COLOR: none } = env;
	if (none !== undefined && none !== "") return false;
	if (forced !== undefined) return forced !== "0" && forced !== "false";
	return (stream.isTTY ?? false) && env.TERM !== "dumb";
}

type Style = Parameters<typeof styleText>[0];

/** Writes all problems, grouped by file in their order, and a summary line. */
export function reportProblems(problems: readonly Problem[], clubDir: string, out: Output): void {
	const style = styler(out);
	for (const [file, group] of Map.groupBy(problems, (p) => p.place.file)) {
		const isNowhere = file === NOWHERE.file;
		out.line("");
		if (!isNowhere) out.line(style("bold", visible(file)));
		const lines = isNowhere ? [] : linesOf(clubDir, file);
		for (const { code, severity, place, what, fix } of group) {
			const mark = severity === "error" ? style("red", "error") : style("yellow", "warning");
			const where = isNowhere ? "" : `${visible(file)}:${place.line}:${place.column}  `;
			out.line(`  ${where}${mark} ${code}  ${visible(what)}`);
			const quoted = lines[place.line - 1];
			if (quoted !== undefined && quoted.trim() !== "") {
				const { shown, caret } = quote(quoted, place.column);
				out.line(style("dim", `    ${String(place.line).padStart(4)} │ ${shown}`));
				out.line(`         │ ${" ".repeat(caret)}${style("bold", "^")}`);
			}
			out.line(`         ${visible(fix)}`);
		}
	}
	if (problems.length > 0) {
		out.line("");
		out.line(summary(problems));
	}
}

/** How many findings there are of each kind, the worst kind first; those without any are left out. */
export function reportKinds(
	kinds: readonly (readonly [kind: string, findings: number])[],
	out: Output,
): void {
	for (const [kind, findings] of kinds) {
		if (findings > 0) out.line(`  ${kind.padEnd(10)}${String(findings).padStart(5)}`);
	}
}

/** Findings as lines, in their order, at most `most` of them. */
export function reportFindings(findings: readonly Finding[], most: number, out: Output): void {
	const style = styler(out);
	for (const { code, weight, what, fix, source, path } of findings.slice(0, most)) {
		const { file, line, column } = source.place(path);
		const mark = weight === "serious" ? style("yellow", weight) : weight;
		out.line(`  ${visible(file)}:${line}:${column}  ${mark}  ${code}  ${visible(what)}`);
		out.line(style("dim", `         ${visible(fix)}`));
	}
	if (findings.length > most)
		out.line(`  … and ${findings.length - most} more: --all shows them, and the findings page`);
}

/** "3 errors and 1 warning in 2 files". */
export function summary(problems: readonly Problem[]): string {
	const errors = problems.filter((p) => p.severity === "error").length;
	const warnings = problems.length - errors;
	const files = new Set(problems.map((p) => p.place.file).filter((file) => file !== NOWHERE.file)).size;
	const parts = [
		...(errors > 0 ? [count(errors, "error")] : []),
		...(warnings > 0 ? [count(warnings, "warning")] : []),
	];
	return files === 0 ? parts.join(" and ") : `${parts.join(" and ")} in ${count(files, "file")}`;
}

export function count(number: number, noun: string): string {
	return `${number} ${noun}${number === 1 ? "" : "s"}`;
}

function styler(out: Output): (style: Style, text: string) => string {
	return (style, text) => (out.colour ? styleText(style, text, { validateStream: false }) : text);
}

/** A line cut to the window around a column, tabs and control characters made visible width. */
function quote(line: string, column: number): { readonly shown: string; readonly caret: number } {
	const start = column > 90 ? column - 60 : 0;
	const plain = line.replace(/[\p{Cc}\p{Cf}]/gu, " ");
	const head = start > 0 ? "…" : "";
	return { shown: head + plain.slice(start, start + 110), caret: head.length + column - 1 - start };
}

function linesOf(clubDir: string, file: string): readonly string[] {
	return textInClub(clubDir, file)?.split(/\r\n?|\n/) ?? [];
}

/** A club's own words without characters that would steer the terminal or turn its text around. */
function visible(text: string): string {
	return text.replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, "\ufffd");
}
