/**
 * Commands that write into a club folder, killed in the middle, and written beside by an editor: nothing that
 * was there or that somebody wrote is lost. A sample of what `npm run trust` tries whole.
 */

import { expect, it } from "vitest";
import { EDIT_COMMANDS, killEdits, saveDuring } from "./edit-faults.ts";
import { faults } from "./tally.ts";

it.each(["rename", "import", "next-term", "undo"])(
	"`%s` killed in the middle loses nothing, and is finished by `undo`",
	async (name) => {
		const commands = EDIT_COMMANDS.filter((command) => command.name === name);
		const tallies = await killEdits("KILL", (calls) => [Math.ceil(calls / 2)], commands);
		expect(faults(tallies)).toEqual([]);
		expect(tallies.map(({ tried }) => tried)).toEqual([1]);
	},
);

it("an editor that saves while a page is renamed loses nothing it saved", async () => {
	expect(faults([await saveDuring(2, 11)])).toEqual([]);
});
