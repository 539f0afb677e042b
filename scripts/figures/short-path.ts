/**
 * The same path in fewer letters: steps from point to point are smaller numbers than places, and a minus
 * parts two numbers by itself. A page's bodies take a third less.
 *
 *   M104 -1060C85 -1252 122 -1444 86 -1636   →   m104-1060c-19-192 18-384-18-576
 */

import { tenth } from "./markup.ts";

/** How many numbers a command takes; the last two are where it leads. */
const NUMBERS: Readonly<Record<string, number>> = { M: 2, L: 2, Q: 4, C: 6, A: 7, Z: 0 };
const H_OR_V = 1;

/** Numbers of an arc that are no places: radii, turn and flags. */
const OF_ARC = 5;

/** The path with every step counted from where the pen stands. Paths that already hold such steps stay as they are. */
export function shortPath(path: string): string {
	if (/[a-df-y]/.test(path)) return path;
	let [x, y] = [0, 0];
	let start: readonly [number, number] = [0, 0];
	let said = "";
	for (const [, command = "", rest = ""] of path.matchAll(/([MLHVQCAZ])([^A-Z]*)/gi)) {
		const numbers = rest.match(/-?(?:\d+\.?\d*|\.\d+)/g)?.map(Number) ?? [];
		if (command === "z" || command === "Z") {
			said += "z";
			[x, y] = start;
			continue;
		}
		const size = NUMBERS[command] ?? H_OR_V;
		for (let at = 0; at < numbers.length; at += size) {
			const some = numbers.slice(at, at + size);
			const steps = some.map((number, i) => {
				if (command === "A" && i < OF_ARC) return number;
				const isAcross =
					command === "H" || (command !== "V" && (command === "A" ? i === OF_ARC : i % 2 === 0));
				return tenth(number - (isAcross ? x : y));
			});
			if (command === "V") y = some[0] ?? y;
			else if (command === "H") x = some[0] ?? x;
			else [x, y] = [some[size - 2] ?? x, some[size - 1] ?? y];
			if (command === "M") start = [x, y];
			said +=
				command.toLowerCase() + steps.map((step, i) => (i > 0 && step >= 0 ? ` ${step}` : step)).join("");
		}
	}
	return said;
}
