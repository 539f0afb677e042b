/** How far a long command is: lines of a log, with the time that is left. */

import { expect, it } from "vitest";
import { Progress } from "../../scripts/commands/run.ts";

it("tells what is left of the step that is shown, whatever went before", () => {
	let clock = 0;
	let log = "";
	const progress = new Progress({ live: false, stream: { write: (text) => (log += text) } }, () => clock);
	const show = (at: number, label: string, done: number): void => {
		clock = at * 1000;
		progress.show(label, done, 100);
	};
	show(0, "pages", 0);
	show(10, "pages", 50);
	show(20, "pages", 100);
	// Ten minutes of something else, and a step that is first heard of when a part of it is done.
	show(600, "binder", 10);
	show(602, "binder", 20);
	show(610, "binder", 60);
	show(618, "binder", 100);
	expect(log.trimEnd().split("\n")).toEqual([
		"pages 0/100",
		"pages 50/100, about 10 s left",
		"pages 100/100",
		"binder 10/100",
		"binder 20/100",
		"binder 60/100, about 8 s left",
		"binder 100/100",
	]);
});
