/** What `print` can print: apart from the command itself, so that help needs no page engine. */

import type { SheetKind } from "../views/sheets/sheet.ts";

/** What can be printed, as the help lists it. */
export const PRINT_CHOICES: readonly {
	readonly name: "binder" | "library" | "director" | "update-packet" | SheetKind;
	readonly what: string;
}[] = [
	{
		name: "pocket",
		what: "what a coach carries: her classes, week by week, a leaf for each area (--class, --week, --paper, --up)",
	},
	{
		name: "library",
		what: "every drill, two to a side, with shapes, skills and guides: printed once a year",
	},
	{
		name: "director",
		what: "coverage, what each class reaches, findings, equipment, heights and the index",
	},
	{
		name: "binder",
		what: "the whole term bound: weeks, library and director's volume; printed without a choice",
	},
	{
		name: "update-packet",
		what: "the leaves that an earlier binder, volume or pocket needs, and a list of what to take out (--since)",
	},
	{ name: "class-sheets", what: "one leaf for each class in each week (--week, --class)" },
	{
		name: "week-packet",
		what: "all a week needs in one file: overview, class sheets, floor plans, store room (--week)",
	},
	{
		name: "station-cards",
		what: "a card for each station, two or four to a sheet (--week, --apparatus, --up)",
	},
	{ name: "floor-plans", what: "where each station stands (--week, --apparatus)" },
	{ name: "store-room", what: "what goes out and comes back (--week)" },
	{ name: "labels", what: "a label for each item at each apparatus (--week)" },
	{ name: "check-sheets", what: "blank skill check sheets (--level)" },
	{ name: "dividers", what: "a leaf with a tab for each section of the binder" },
	{ name: "term-overview", what: "the term on one page" },
];
