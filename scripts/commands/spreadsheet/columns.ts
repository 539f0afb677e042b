/**
 * Every sheet of a club's spreadsheet, and the columns of each: what a column is called on export, by
 * what other headings it is known on import, and where its value stands in the file.
 *
 * A test holds this list against the schemas, so that a field of the authoring format cannot be lost
 * on the way through a spreadsheet.
 */

import { type FileKind, isPageKind, LIST_FILES } from "../../model.ts";
import { type CellForm, type Form, fold, type RefKind } from "./cells.ts";
import { MORE_HEADINGS } from "./more-headings.ts";

export type SheetKind = FileKind | "plan" | "classes";

export interface Column extends CellForm {
	/** The heading, on export; and always known on import. */
	readonly heading: string;
	/** Where the value stands in the file's data; the body has none. */
	readonly path: readonly string[];
	readonly aliases: readonly string[];
	/** Without it a row makes nothing. */
	readonly required: boolean;
}

const DIRECTIONS = ["forward", "backward", "sideways", "none"];
const LANDMARKS = ["knee", "hip", "chest", "shoulder", "head", "reach"];
const BASES = [
	"feet",
	"hands",
	"hands-and-feet",
	"head",
	"hips",
	"seat",
	"back",
	"front",
	"shoulders",
	"knees",
	"hang",
	"air",
];

interface More {
	readonly path?: readonly string[];
	readonly of?: RefKind;
	readonly choices?: readonly string[];
	readonly unit?: "seconds" | "minutes";
	readonly aliases?: readonly string[];
}

function column(heading: string, form: Form, more: More = {}): Column {
	return { heading, form, path: [heading], aliases: [], required: false, ...more };
}

function required(heading: string, form: Form, more: More = {}): Column {
	return { ...column(heading, form, more), required: true };
}

const ID = column("id", "id", { aliases: ["file", "key"] });
const NAME = column("name", "text", { aliases: ["title"] });
const ORDER = column("order", "number", { aliases: ["position", "sort"] });
const ALIASES = column("aliases", "names", {
	aliases: ["also called", "other names", "other name", "also known as", "aka"],
});
const DESCRIPTION = column("description", "text", { aliases: ["what it looks like"] });
const BODY = column("text", "body", {
	path: [],
	aliases: ["description", "body", "how", "details", "notes"],
});

const FROM_LIBRARY = column("from-library", "flag");

/** What each entry of a list has. */
const ENTRY = [{ ...ID, required: true }, { ...NAME, required: true }, ORDER];

const angle = (name: string) =>
	column(`angle ${name}`, "number", { path: ["angles", name], aliases: [name] });
const side = (name: string) => column(`angles ${name}`, "data", { path: ["angles", name] });

const about = (name: string, of: RefKind) => column(name, "ref", { path: ["about", name], of });

export const COLUMNS: ReadonlyMap<SheetKind, readonly Column[]> = new Map<SheetKind, readonly Column[]>([
	[
		"drill",
		[
			ID,
			required("title", "text", { aliases: ["drill", "drill name", "name", "exercise", "activity"] }),
			required("apparatus", "refs", {
				of: "apparatus",
				aliases: ["app", "event", "equipment area", "area", "where", "station"],
			}),
			required("levels", "doses", { of: "level", aliases: ["level", "group", "who", "for", "class"] }),
			column("summary", "text", { aliases: ["short description", "in short", "in one sentence"] }),
			ALIASES,
			column("shapes", "refs", { of: "shape", aliases: ["body shape", "body position"] }),
			column("sequence", "sequence", { of: "shape", aliases: ["phases", "shapes in order"] }),
			column("skills", "refs", { of: "skill", aliases: ["leads to", "skill", "goal", "goal skill"] }),
			column("performs", "refs", { of: "skill", aliases: ["skill performed", "does"] }),
			column("elements", "data", { aliases: ["complex", "chain"] }),
			column("after", "refs", { of: "drill", aliases: ["before this", "prerequisite", "comes after"] }),
			column("ready", "data", { aliases: ["before the first try"] }),
			column("direction", "choice", { choices: DIRECTIONS }),
			column("partner", "ref", { of: "drill", aliases: ["opposite", "partner drill"] }),
			column("sides", "choice", { choices: ["both", "each", "lead"], aliases: ["left right"] }),
			column("equipment", "needs", {
				of: "equipment",
				aliases: ["kit", "props", "set up", "you need", "gear", "equipment needed"],
			}),
			column("heights", "heights", { choices: LANDMARKS, aliases: ["set-up heights"] }),
			column("sets", "number", { aliases: ["no of sets"] }),
			column("reps", "number", { aliases: ["repetitions", "repeats", "sets x reps"] }),
			column("hold", "number", {
				unit: "seconds",
				aliases: ["hold s", "hold sec", "hold seconds", "seconds held"],
			}),
			column("hold of", "choice", {
				path: ["hold-of"],
				choices: ["rep", "set", "last"],
				aliases: ["hold is of"],
			}),
			column("turn seconds", "number", {
				path: ["turn", "seconds"],
				unit: "seconds",
				aliases: ["turn", "time per turn", "seconds per turn"],
			}),
			column("turn at once", "number", {
				path: ["turn", "at-once"],
				aliases: ["at once", "gymnasts at once"],
			}),
			column("turn reps", "number", {
				path: ["turn", "reps"],
				aliases: ["reps per turn", "repetitions in a turn"],
			}),
			column("landings", "number", { path: ["contacts", "landings"], aliases: ["landings per rep"] }),
			column("hands", "number", { path: ["contacts", "hands"], aliases: ["hand contacts"] }),
			column("cues", "texts", {
				aliases: ["coaching cues", "coaching points", "key points", "what to say", "say"],
			}),
			column("faults", "faults", { aliases: ["common faults", "mistakes", "common mistakes", "errors"] }),
			column("spotting", "text", { aliases: ["spot", "support", "how to spot"] }),
			column("caution", "text", { aliases: ["safety", "safety note", "warning", "risk", "watch out"] }),
			column("spotters", "number", { aliases: ["coaches needed", "hands on"] }),
			column("helpers", "data", { aliases: ["hands in the figures"] }),
			column("watch", "flag", { aliases: ["watched", "coach looks"] }),
			column("easier", "texts", { aliases: ["make it easier", "regressions"] }),
			column("harder", "texts", { aliases: ["make it harder", "progressions"] }),
			column("run", "number", { aliases: ["run-up", "run m", "metres of run"] }),
			column("run out", "number", { path: ["run-out"], aliases: ["run out m"] }),
			column("purpose", "refs", { of: "purpose", aliases: ["purposes"] }),
			column("media", "media", { aliases: ["pictures", "photos", "video"] }),
			column("reviewed", "date", {
				aliases: ["last reviewed", "review date", "date reviewed", "checked", "last checked"],
			}),
			FROM_LIBRARY,
			BODY,
		],
	],
	[
		"week",
		[
			ID,
			required("week", "number", { aliases: ["week no", "week number", "wk"] }),
			required("theme", "text", { aliases: ["topic", "about"] }),
			column("keep", "flag", { aliases: ["pinned"] }),
			BODY,
		],
	],
	[
		"plan",
		[
			required("week", "number", { aliases: ["week no", "week number", "wk"] }),
			column("theme", "text", { aliases: ["topic"] }),
			required("apparatus", "ref", { of: "apparatus", aliases: ["app", "event", "area", "where"] }),
			column("focus", "text", { aliases: ["apparatus focus"] }),
			column("block", "number", { aliases: ["block no"] }),
			column("kind", "choice", { choices: ["drill", "stations", "options"] }),
			column("minutes", "number", { unit: "minutes", aliases: ["min", "mins", "time", "duration"] }),
			column("show", "number", { unit: "minutes", aliases: ["show minutes", "minutes to show"] }),
			column("change", "number", { unit: "minutes", aliases: ["change minutes", "changeover"] }),
			column("choose", "number", { aliases: ["options to choose"] }),
			column("session", "numbers", { aliases: ["meeting"] }),
			column("dose", "data", { aliases: ["this week's dose"] }),
			column("levels", "refs", { of: "level", aliases: ["level", "group", "who"] }),
			column("keep", "flag", { aliases: ["pinned"] }),
			column("note", "text", { aliases: ["block note", "notes"] }),
			column("drill", "ref", { of: "drill", aliases: ["drill name", "title", "exercise", "activity"] }),
			column("at", "place", { aliases: ["place"] }),
			column("station note", "text"),
		],
	],
	["guide", [ID, required("title", "text"), ORDER, FROM_LIBRARY, BODY]],
	[
		"club",
		[
			required("name", "text"),
			column("format", "number"),
			column("language", "text"),
			column("timezone", "text"),
			column("paper", "choice", { choices: ["A4", "Letter"] }),
			column("punch", "choice", { choices: ["two-hole", "four-hole", "three-hole"] }),
			column("site", "text"),
			column("contact", "text"),
			column("place", "text"),
			column("emergency", "text"),
			column("emergency-guide", "text"),
			column("colour", "text", { aliases: ["color", "club colour"] }),
			column("colour-dark", "text"),
			column("logo", "text"),
			column("leave-out", "names"),
			column("taught-sums", "flag"),
			column("libraries", "data"),
			column("licence", "text"),
		],
	],
	[
		"term",
		[
			required("name", "text"),
			required("starts", "date"),
			required("weeks", "number"),
			column("closed", "days", { aliases: ["closed days"] }),
			column("between", "number", { aliases: ["minutes between apparatus"] }),
		],
	],
	[
		"classes",
		[
			{ ...ID, required: true },
			NAME,
			column("level", "refs", { of: "level", aliases: ["levels"] }),
			column("day", "choice", {
				choices: ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"],
			}),
			column("start", "text"),
			column("minutes", "number", { unit: "minutes" }),
			column("warm-up", "number", { unit: "minutes" }),
			column("cool-down", "number", { unit: "minutes" }),
			column("between", "number", { unit: "minutes", aliases: ["minutes between apparatus"] }),
			column("gymnasts", "number"),
			column("coaches", "number"),
			column("ages", "pair"),
			column("rotation", "refs", { of: "apparatus" }),
			column("groups", "data", { aliases: ["groups at the same time"] }),
			column("same as", "text", { path: ["same-as"], aliases: ["same gymnasts as"] }),
			column("closed", "days", { aliases: ["cancelled", "annulé", "no class on"] }),
			column("place", "text", { aliases: ["hall", "lieu", "salle", "where"] }),
		],
	],
	[
		"targets",
		[
			column("shape-weeks", "number"),
			column("skill-weeks", "number"),
			column("shape-gap", "number"),
			column("skill-gap", "number"),
			column("pair-directions", "flag"),
			column("active-share", "number"),
			column("load-step", "number"),
			column("review-months", "number"),
			column("skill-reps", "number"),
			column("ratio", "data", { aliases: ["gymnasts to a coach"] }),
			column("landings", "number"),
			column("new-drills", "number"),
			column("arrives-with", "number"),
		],
	],
	["levels", [...ENTRY, DESCRIPTION, column("entry", "refs", { of: "skill or drill" }), FROM_LIBRARY]],
	[
		"apparatus",
		[
			...ENTRY,
			column("kind", "choice", { choices: ["apparatus", "area"] }),
			column("plan", "pair"),
			column("groups", "number", { aliases: ["groups that fit"] }),
			column("walls", "names", { aliases: ["sides that are walls"] }),
			column("landmarks", "data", { aliases: ["spots"] }),
			FROM_LIBRARY,
		],
	],
	[
		"shapes",
		[
			...ENTRY,
			ALIASES,
			DESCRIPTION,
			...["shoulder", "elbow", "hip", "knee", "ankle", "spread", "trunk", "neck"].map(angle),
			side("left"),
			side("right"),
			column("view", "choice", { choices: ["side", "front"] }),
			column("tilt", "number"),
			column("base", "choice", { choices: BASES }),
			FROM_LIBRARY,
		],
	],
	[
		"skills",
		[
			...ENTRY,
			ALIASES,
			DESCRIPTION,
			column("apparatus", "refs", { of: "apparatus" }),
			column("levels", "refs", { of: "level" }),
			column("needs", "refs", { of: "skill" }),
			column("pattern", "choice", {
				choices: ["landing", "statics", "locomotion", "rotation", "swing", "spring", "handling"],
			}),
			column("direction", "choice", { choices: DIRECTIONS }),
			column("opposite", "ref", { of: "skill" }),
			column("criteria", "texts", { aliases: ["what must be seen", "counts when"] }),
			FROM_LIBRARY,
		],
	],
	[
		"equipment",
		[
			...ENTRY,
			ALIASES,
			column("owned", "number"),
			column("stored", "text"),
			column("size", "pair"),
			column("height", "number", { aliases: ["height cm"] }),
			column("range", "pair", { aliases: ["heights it can have"] }),
			column("step", "number", { aliases: ["step cm"] }),
			column("thickness", "number", { aliases: ["thickness cm"] }),
			column("adults", "number", { aliases: ["adults to carry one", "carried by"] }),
			FROM_LIBRARY,
		],
	],
	["purposes", [...ENTRY, ALIASES, FROM_LIBRARY]],
	[
		"accepted",
		[
			required("finding", "text", { aliases: ["code"] }),
			column("week", "number", { path: ["about", "week"] }),
			about("level", "level"),
			about("apparatus", "apparatus"),
			about("drill", "drill"),
			about("skill", "skill"),
			about("shape", "shape"),
			column("class", "text", { path: ["about", "class"] }),
			column("group", "text", { path: ["about", "group"] }),
			about("equipment", "equipment"),
			required("reason", "text", { aliases: ["why"] }),
			column("until", "date"),
		],
	],
	[
		"words",
		[
			required("say", "text", { aliases: ["we say"] }),
			required("not", "texts", { aliases: ["we do not say"] }),
			column("note", "text"),
		],
	],
]);

/** What each sheet is called on export: its kind, and of pages that there are several. */
export const SHEET_NAMES: ReadonlyMap<SheetKind, string> = new Map(
	Array.from(COLUMNS.keys(), (kind) => [
		kind,
		`${kind.charAt(0).toUpperCase()}${kind.slice(1)}${isPageKind(kind) ? "s" : ""}`,
	]),
);

/** Sheets of which each row is an entry of a list with ids. */
export const LIST_KINDS: readonly SheetKind[] = Object.values(LIST_FILES);

/** The headings without which a row makes nothing. */
export function requiredOf(kind: SheetKind): readonly string[] {
	return (COLUMNS.get(kind) ?? []).flatMap((column) => (column.required ? [column.heading] : []));
}

/** Letters of a heading; longer texts are cells, or an accident. */
const LONGEST_HEADING = 300;

/** A heading compared without case, accents, signs and the s of a plural; "" for a text too long to be one. */
export function foldHeading(heading: string): string {
	if (heading.length > LONGEST_HEADING) return "";
	// The time of both patterns grows with the length: the text may be a cell of thousands.
	return fold(heading.replace(/\([^()]*\)/g, " ")).replace(/(?<=\p{L}{3})s\b/gu, "");
}

/** The column that a heading names; its own heading goes before another's alias. */
export function columnFor(kind: SheetKind, heading: string): Column | undefined {
	const folded = foldHeading(heading);
	return folded === "" ? undefined : namesOf(kind).get(folded);
}

/** Every name of a kind's columns, folded; made once, since every cell of a sheet's top is looked up. */
function namesOf(kind: SheetKind): ReadonlyMap<string, Column> {
	const known = namesByKind.get(kind);
	if (known !== undefined) return known;
	const columns = COLUMNS.get(kind) ?? [];
	const names = new Map<string, Column>();
	const lists = [
		(column: Column) => [column.heading],
		(column: Column) => column.aliases,
		(column: Column) => MORE_HEADINGS[kind]?.[column.heading] ?? [],
	];
	// A field's own heading goes before another's alias.
	for (const list of lists) {
		for (const column of columns) {
			for (const name of list(column))
				if (!names.has(foldHeading(name))) names.set(foldHeading(name), column);
		}
	}
	namesByKind.set(kind, names);
	return names;
}

const namesByKind = new Map<SheetKind, ReadonlyMap<string, Column>>();

/** The kind of sheet that a name says: its own name, or its kind's. */
export function sheetKindNamed(name: string): SheetKind | undefined {
	const folded = foldHeading(name);
	for (const [kind, own] of SHEET_NAMES) {
		if (foldHeading(own) === folded || foldHeading(kind) === folded) return kind;
	}
	return undefined;
}
