/**
 * Tries everything: at least 5,000 bad clubs, and builds killed and refused at every step, and prints how
 * they ended. `npm run trust`; with names of parts (`input`, `output`, `hosts`, `print`) only these.
 */

import { tryHosts } from "./hosts.ts";
import { killAtEveryCall, killAtRandom, killBuilds, refuseFromEach } from "./output-faults.ts";
import { killPrints, printStrangeClubs } from "./print-faults.ts";
import { faults, type Tally, tableOf } from "./tally.ts";
import { tryBadClubs } from "./try-clubs.ts";

const parts = process.argv.slice(2);
const wanted = (part: string) => parts.length === 0 || parts.includes(part);
const number = Number(process.env.TRUST_CLUBS ?? 5000);
const tallies: Tally[] = [];

if (wanted("input")) tallies.push(...(await tryBadClubs(number, 1)));
if (wanted("output")) {
	const befores = ["nothing", "published", "published, with others' files", "an empty folder"] as const;
	tallies.push(await killAtEveryCall("KILL", befores));
	tallies.push(await killAtEveryCall("TEAR", befores));
	tallies.push(await killAtRandom(200, 20270104));
	tallies.push(await killBuilds(200, 7));
	tallies.push(await refuseFromEach("ENOSPC", befores));
	tallies.push(await refuseFromEach("EROFS", befores));
}

if (wanted("hosts")) tallies.push(...(await tryHosts()));

if (wanted("print")) {
	tallies.push(await killPrints(40));
	tallies.push(await printStrangeClubs(20));
}

const found = faults(tallies);
process.stdout.write(`${tableOf(tallies)}\n`);
for (const fault of found) process.stdout.write(`${fault}\n`);
process.exitCode = found.length > 0 ? 1 : 0;
