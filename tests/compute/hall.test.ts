/**
 * Clubs whose plan looks sound and cannot be run. Each gives exactly the findings it should, by code and by
 * what they are about, and no other.
 */

import { join } from "node:path";
import { expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import type { Finding } from "../../scripts/model.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

type Expected = readonly (readonly [code: Finding["code"], about: Finding["about"], count?: number])[];

const mon = { class: "mon", group: "mon" };

const CLUBS: readonly (readonly [club: string, expected: Expected])[] = [
	[
		"one-minute-opener",
		[
			[
				"H301",
				{ week: 1, apparatus: "floor", drill: "walkover", skill: "back-walkover", level: "level-2", ...mon },
			],
			["H330", { week: 1, apparatus: "floor", drill: "walkover", level: "level-2", ...mon }],
			["H334", { week: 1, apparatus: "floor", drill: "shoulder-opener", level: "level-2", ...mon }],
		],
	],
	["never-on-bars", [["H343", { skill: "swing", ...mon }]]],
	["two-levels-a-coach-each", []],
	["two-levels-one-after-the-other", [["H308", { week: 1, class: "mon" }]]],
	["two-classes-on-one-runway", [["H332", { week: 1, apparatus: "vault", class: "late", group: "late" }]]],
	[
		"bar-at-two-heights",
		[["H337", { week: 1, apparatus: "bars", drill: "hang", equipment: "low-bar", ...mon }]],
	],
	[
		"ten-landings-then-a-thousand",
		[
			["H311", { week: 3, drill: "jump", ...mon }],
			["H340", { week: 3, drill: "jump", ...mon }],
		],
	],
	["eight-stations-in-three-minutes", [["H344", { week: 1, apparatus: "floor", ...mon }]]],
	[
		"twice-a-week",
		[
			// The block of the second meeting stands first in the file, and comes after the first meeting.
			["H302", { week: 1, apparatus: "floor", drill: "too-soon", level: "level-1", ...mon }],
			// What Monday's gymnasts did on Thursday is not new to them; one drill is.
			["H341", { week: 2, class: "mon" }],
		],
	],
	["options-to-choose-from", [["H331", { week: 1, apparatus: "floor", ...mon }]]],
	[
		"groups-that-need-the-same-mats",
		[["H317", { week: 1, apparatus: "beam", class: "mon", equipment: "panel-mat" }]],
	],
	// Fourteen beanbags in one minute, of twelve; the mats of both groups are eleven, and twelve are owned.
	["groups-side-by-side", [["H317", { week: 1, apparatus: "floor", class: "mon", equipment: "beanbag" }]]],
];

it.each(CLUBS)("%s", (club, expected) => {
	const { problems, handbook } = openHandbook(clubCopy(undefined, join(FIXTURES, "clubs", club)));
	expect(problems).toEqual([]);
	const told = (handbook?.findings ?? []).map(({ code, about, count = 1 }) => [code, about, count]);
	expect(told).toEqual(expected.map(([code, about, count = 1]) => [code, about, count]));
});

it("counts what groups use side by side, on one apparatus and on several", () => {
	const { handbook } = openHandbook(clubCopy(undefined, join(FIXTURES, "clubs", "groups-side-by-side")));
	expect(handbook?.tables.get("set-out")?.rows).toEqual([
		// Eight and six on the floor; then at most six mats on the floor, four on the beam, one at the vault.
		[1, "mon", "beanbag", 14, 14, 12],
		[1, "mon", "panel-mat", 11, 6, 12],
	]);
});
