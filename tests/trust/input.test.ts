/** A fixed sample of the bad clubs that `npm run trust` tries whole. */

import { expect, it } from "vitest";
import { BAD_KINDS } from "./bad-clubs.ts";
import { faults } from "./tally.ts";
import { tryBadClubs } from "./try-clubs.ts";

it("whatever is in a club folder ends in a clear problem or in a handbook", {
	timeout: 600_000,
}, async () => {
	const tallies = await tryBadClubs(400, 1);
	expect(tallies).toHaveLength(BAD_KINDS.length);
	expect(faults(tallies)).toEqual([]);
});
