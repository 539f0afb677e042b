/**
 * Tries everything, and prints how it ended: at least 5,000 bad clubs, every attack that is a test, builds,
 * prints and edits killed and refused at their steps, commands that run at the same time. `npm run trust`;
 * with names of parts, or their beginnings, only these. What a part found is printed when it ends.
 */

import { EDIT_COMMANDS, every, killEdits, saveDuring } from "./edit-faults.ts";
import { tryHosts } from "./hosts.ts";
import { killAtEveryCall, killAtRandom, killBuilds, refuseFromEach } from "./output-faults.ts";
import { killPrints, printHostileClubs, printStrangeClubs } from "./print-faults.ts";
import { runTests } from "./run-tests.ts";
import { faults, type Tally, tableOf } from "./tally.ts";
import { buildBesideServe, buildTogether } from "./together.ts";
import { tryBadClubs } from "./try-clubs.ts";

const BEFORES = ["nothing", "published", "published, with others' files", "an empty folder"] as const;

type Part = () => Promise<Tally | readonly Tally[]>;

const PARTS: Readonly<Record<string, readonly Part[]>> = {
	input: [() => tryBadClubs(Number(process.env.TRUST_CLUBS ?? 5000), 1)],
	paths: [
		() => runTests("attacks on paths by commands", "leaked", "tests/trust/paths.test.ts"),
		() => runTests("attacks on paths at the door", "leaked", "tests/files/folder.test.ts"),
	],
	reports: [() => runTests("strangers' reports", "crashed", "tests/trust/reports.test.ts")],
	import: [() => runTests("hostile spreadsheets and names", "crashed", "tests/trust/import.test.ts")],
	output: [
		() => killAtEveryCall("KILL", BEFORES),
		() => killAtEveryCall("TEAR", BEFORES),
		() => killAtRandom(200, 20270104),
		() => refuseFromEach("ENOSPC", BEFORES),
		() => refuseFromEach("EROFS", BEFORES),
	],
	build: [() => killBuilds(200, 7)],
	...Object.fromEntries(
		EDIT_COMMANDS.map((command) => [
			`edits-${command.name.replaceAll(" ", "-")}`,
			[() => killEdits("KILL", every(2), [command]), () => killEdits("TEAR", every(3), [command])],
		]),
	),
	saves: [() => saveDuring(40, 11)],
	together: [() => buildTogether(20), () => buildTogether(5, 4), () => buildBesideServe(20)],
	hosts: [tryHosts],
	kills: [() => killPrints(40)],
	print: [() => printHostileClubs(), () => printStrangeClubs(20)],
};

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !Object.keys(PARTS).some((part) => part.startsWith(name)));
if (unknown.length > 0) {
	throw new RangeError(`No such part: ${unknown.join(", ")}. There are: ${Object.keys(PARTS).join(", ")}.`);
}
const tallies: Tally[] = [];
for (const [name, parts] of Object.entries(PARTS)) {
	if (wanted.length > 0 && !wanted.some((part) => name.startsWith(part))) continue;
	for (const part of parts) {
		const found = [await part()].flat();
		tallies.push(...found);
		process.stdout.write(`${tableOf(found)}\n${faults(found).join("\n")}\n`);
	}
}
process.stdout.write(`\n${tableOf(tallies)}\n`);
process.exitCode = faults(tallies).length > 0 ? 1 : 0;
