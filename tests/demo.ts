/** The demo club, opened once for all test files of a process: reading and counting it takes longer than most tests. */

import { once } from "../scripts/compute/get-or-make.ts";
import { openHandbook } from "../scripts/handbook.ts";
import { REPOSITORY } from "./open-fixture.ts";

/** Nothing of it is ever changed. */
export const demoHandbook = once(() => {
	const { handbook } = openHandbook(REPOSITORY);
	if (handbook === undefined) throw new Error("the demo club has errors");
	return handbook;
});
