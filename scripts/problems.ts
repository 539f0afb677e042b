/**
 * The catalogue of problems: every code with its title, why it matters and what to do.
 *
 * Codes are permanent: one is never given a second meaning. The first figure is the stage:
 * H1 read and validate, H2 link, H3 measures (findings, which never stop a build), H4 print.
 * The author guide prints this catalogue; a test holds that every code has a paragraph and a
 * failing fixture.
 */

import type { Place } from "./place.ts";

export type Severity = "error" | "warning";

export interface CatalogueEntry {
	/** What is wrong, in a few words, for the author guide's heading. */
	readonly title: string;
	/** Why it matters. */
	readonly why: string;
	/** What to do about it. */
	readonly fix: string;
}

export const CATALOGUE = {
	H101: {
		title: "A page without front matter",
		why: "The fields between the two lines of three hyphens say what the page is about; without them it cannot be placed.",
		fix: "Start the file with a line of three hyphens, then the fields, then another line of three hyphens.",
	},
	H102: {
		title: "YAML that cannot be read",
		why: "A slip in the indentation, a bracket or a quote makes everything after it unreadable.",
		fix: "Look at the line named. Text that contains a colon followed by a space wants quotes around it.",
	},
	H103: {
		title: "Front matter in another language than YAML",
		why: "Only YAML is read. Front matter that would run as a program is refused.",
		fix: "Write the front matter as YAML and open it with three hyphens alone.",
	},
	H104: {
		title: "A field that does not exist",
		why: "A misspelt field would be lost in silence.",
		fix: "Use a field of the list in the author guide; the nearest name is suggested.",
	},
	H105: {
		title: "A required field is missing",
		why: "Without it the page cannot be placed in the handbook.",
		fix: "Add the field.",
	},
	H106: {
		title: "A value of the wrong kind",
		why: "The value cannot be used as it is written.",
		fix: "Write the value as the author guide shows for this field.",
	},
	H107: {
		title: "A name that cannot be an id",
		why: "Ids become addresses and file names, so they hold lower-case letters, digits and hyphens only.",
		fix: "Rename it to lower-case words joined by hyphens.",
	},
	H108: {
		title: "A drill in the folder of another apparatus",
		why: "A drill is looked for in the folder of an apparatus it names.",
		fix: "Move the file, or add the folder's apparatus to the drill's `apparatus`.",
	},
	H109: {
		title: "A file that is not plain text",
		why: "Files are read as UTF-8 text. Another encoding would garble names and cues.",
		fix: "Save the file again as UTF-8.",
	},
	H110: {
		title: "A file that is not read",
		why: "Nothing is done with this file, so what is in it is not in the handbook.",
		fix: "Move or rename it to one of the names in the author guide, or take it out of the folder.",
	},
	H111: {
		title: "A club folder without drills",
		why: "There is nothing to make a handbook from.",
		fix: "Point `--club` at a folder that holds `content/drills`, or write a first drill there.",
	},
	H112: {
		title: "A file that holds something else than expected",
		why: "Some data files hold a list and some hold fields; this one is the other way round, or empty.",
		fix: "Look at the author guide for the form of this file.",
	},
	H113: {
		title: "A term that does not start on a Monday",
		why: "Weeks are counted from Monday, as in ISO 8601.",
		fix: "Set `starts` to the Monday of the first week.",
	},
	H114: {
		title: "An interval that ends before it begins",
		why: "It covers no day or no age, so it would do nothing.",
		fix: "Write the earlier one first.",
	},
	H115: {
		title: "YAML anchors, aliases and tags",
		why: "They let one line stand for very many, and they are easy to break when a file is edited.",
		fix: "Write the value out where it is used, or put quotes around text that starts with & * or !.",
	},
	H116: {
		title: "A file or folder that cannot be read",
		why: "What is in it would be missing from the handbook.",
		fix: "Check its permissions, and that links inside the club folder lead to files inside it.",
	},
	H117: {
		title: "A club folder in another format",
		why: "The folder was written for another version of this program, in which fields may mean something else.",
		fix: "Run `npm run upgrade`, with `-- --club` and the folder where it is another one.",
	},
	H118: {
		title: "A record of the edition that cannot be read",
		why: "The program keeps the number of the last edition in this file; without it the numbers on paper would begin again at 1, and nobody could tell which leaf is newer.",
		fix: 'Where two versions of it meet, keep the one with the larger number, whole. Where it is lost, write the number at the foot of the newest leaf: `{"number": 7, "date": "2026-11-30", "content": ""}`.',
	},
	H119: {
		title: "A library that is not there",
		why: "What the club takes of it would be missing from the handbook.",
		fix: "Name its folder from the club's own folder, or install the package; or take the line out of `libraries`.",
	},
	H131: {
		title: "A colour on which words cannot be read",
		why: "The heads of the site's parts are of the club's colour, with words in the paper's. Low contrast shuts out coaches with weak eyes, and everybody in a bright hall.",
		fix: "Write a darker colour, or for the dark theme a lighter one.",
	},
	H132: {
		title: "A style sheet that cannot be used",
		why: "`content/style.css` goes onto every page, sheet and phone. It stands alone: the site loads nothing from elsewhere, and works without a network.",
		fix: "Take it out. A style sheet can set sizes, colours, borders and distances; pictures stand in drills, and the club's `logo` in `_data/club.yaml`.",
	},
	H201: {
		title: "A reference to something that does not exist",
		why: "The page would point at nothing.",
		fix: "Correct the id, or write what it names.",
	},
	H202: {
		title: "Two things with the same id",
		why: "A reference could mean either of them, and both would be written to the same page.",
		fix: "Give one of them another id.",
	},
	H203: {
		title: "A circle of things that come before each other",
		why: "Nothing in the circle could ever be taught first.",
		fix: "Take one of the links of the circle out.",
	},
	H204: {
		title: "A drill planned on an apparatus it does not name",
		why: "The coach would find it on the wrong apparatus, without its set-up.",
		fix: "Plan another drill, or add the apparatus to the drill.",
	},
	H205: {
		title: "A block names a level that its drill does not offer",
		why: "That level has nothing to do in this block, and nothing is counted for it.",
		fix: "Add the level to the drill, or take it out of the block.",
	},
	H206: {
		title: "A link in the text that leads nowhere",
		why: "The reader would be sent to a page that does not exist.",
		fix: "Correct the id between the double square brackets.",
	},
	H207: {
		title: "Two plans for the same week",
		why: "Only one of them can be taught.",
		fix: "Give one of them another week number, or join the two files.",
	},
	H208: {
		title: "A week after the end of the term",
		why: "It has no date, so nobody would teach it.",
		fix: "Raise `weeks` in _data/term.yaml, or change the week's number.",
	},
	H209: {
		title: "A station outside its floor plan",
		why: "It cannot be drawn where it stands.",
		fix: "Correct `at`, which is in metres from the corner, or the apparatus's `plan`.",
	},
	H210: {
		title: "A thing that refers to itself",
		why: "A drill cannot be its own partner, nor a skill its own opposite.",
		fix: "Name the other one, or take the field out.",
	},
	H211: {
		title: "A picture or video that cannot be used",
		why: "The page would show an empty frame, or none where the coach looks for it.",
		fix: "Put the file into `content/media` under the name written here.",
	},
	H212: {
		title: "A shape drawn as another than it is named",
		why: "Coaches look at the figure before they read its name, and learn the wrong shape.",
		fix: "Correct the shape's `angles`, or give it another name.",
	},
	H213: {
		title: "A station at a spot that the area does not have",
		why: "Nobody would know where to set it up, and it cannot be drawn.",
		fix: "Name one of the area's `landmarks` in _data/apparatus.yaml, add this one there, or write `[x, y]` in metres.",
	},
	H216: {
		title: "A set-up height whose words name a level",
		why: "Words are for readers: the height stands on the sheets of every level, also where it is far too high.",
		fix: "Write the thing once and each level under it, as in `heights: {box: {level-1: knee, level-2: hip}}`.",
	},
	H217: {
		title: "A set-up height for a level that does not do the drill",
		why: "No sheet shows it, so whoever wrote it waits for it in vain.",
		fix: "Name a level of the drill, or add the level to its `levels`.",
	},
	H218: {
		title: "A word that the club does not say",
		why: "What has two names is two things to a child, and a search finds one of them.",
		fix: "Write the word that the club says, or correct _data/words.yaml. What others say goes under `aliases`.",
	},
	H301: {
		title: "A skill before what it needs",
		why: "Gymnasts meet the harder thing before the easier one it is built on.",
		fix: "Plan a drill for the needed skill earlier, or list it under the level's `entry` if gymnasts arrive with it.",
	},
	H302: {
		title: "A drill before the one it comes after",
		why: "The drill says that another should have been taught before it.",
		fix: "Plan the other drill earlier for this level, or plan this one later; list its id under the level's `entry` if gymnasts arrive with it. A skill they arrive with does not stand in for a drill.",
	},
	H303: {
		title: "A shape trained in too few weeks",
		why: "The club's target wants each shape in more weeks than the plan gives it.",
		fix: "Plan one of the shape's drills in another week for this level.",
	},
	H304: {
		title: "A skill taught in too few weeks",
		why: "The club's target wants each skill of a level in more weeks than the plan gives it.",
		fix: "Plan one of the skill's drills in another week for this level.",
	},
	H305: {
		title: "A shape left alone for too long",
		why: "The gap between two weeks with the shape is longer than the club's target.",
		fix: "Plan one of the shape's drills between the two weeks.",
	},
	H306: {
		title: "A skill left alone for too long",
		why: "The gap between two weeks with the skill is longer than the club's target.",
		fix: "Plan one of the skill's drills between the two weeks.",
	},
	H307: {
		title: "Forward work without backward work, or the reverse",
		why: "It is common practice that work done forwards is matched by a backward version.",
		fix: "Plan a drill of the missing direction on this apparatus in the same week.",
	},
	H308: {
		title: "More planned than the class has minutes for",
		why: "Something at the end will be dropped, and every coach drops something else.",
		fix: "Shorten or take out a block on one of the apparatus the class visits.",
	},
	H309: {
		title: "A class that waits more than the club's target",
		why: "Gymnasts learn by moving. Here each of them moves for a smaller share of the class than the club wants.",
		fix: "Split the drill with the longest wait into stations, let more gymnasts go at once, or add a task for those who wait.",
	},
	H310: {
		title: "An apparatus that needs more equipment than the club owns",
		why: "The plan cannot be set up as it is written.",
		fix: "Use fewer stations with this item, choose another drill, or correct `owned` in _data/equipment.yaml.",
	},
	H311: {
		title: "A step in landings or hand contacts above the club's target",
		why: "The week asks for many more landings or hand contacts than the weeks before it, up to three of them. This is a count for planning, not a medical measure.",
		fix: "Spread the repetitions over the weeks, or build up to them over the weeks before.",
	},
	H312: {
		title: "A drill that nobody has reviewed for long",
		why: "The club wants each drill read through again after some months; at the start of this term that time was over.",
		fix: "Read the drill through, mend what is out of date, and write today's date under `reviewed`.",
	},
	H313: {
		title: "A class with nothing planned in a week",
		why: "The class meets and its coaches find no drill for its levels on any apparatus of its rotation.",
		fix: "Plan a block for the class's level on one of its apparatus.",
	},
	H314: {
		title: "A week of the term without a plan",
		why: "The classes meet, and no file says what is taught. Weeks without a plan at the end of the term are one finding.",
		fix: "Write a file in `content/weeks` for the week, or lower `weeks` in _data/term.yaml.",
	},
	H315: {
		title: "A class that a closed day takes out of a week",
		why: "The other classes have this week and this one does not, so its gymnasts miss what the week teaches.",
		fix: "Plan what must not be missed in the week after as well, or give the class another day.",
	},
	H316: {
		title: "A drill too short for everyone to have a turn",
		why: "With this many gymnasts and this long a turn, some of them never get to do it.",
		fix: "Give the block more minutes, let more gymnasts go at once, or split it into stations.",
	},
	H317: {
		title: "Classes that need the same equipment at the same moment",
		why: "Classes overlap in the timetable, and together they need more than the club owns.",
		fix: "Change the order of apparatus of one class, or plan another drill in one of the blocks.",
	},
	H318: {
		title: "Stations that overlap on the floor plan",
		why: "Two groups would work in the same place, and one could run or fall into the other.",
		fix: "Move one of them by its `at`, or take `at` out: without it a station is placed where there is room.",
	},
	H319: {
		title: "Too little free space between stations or around a landing area",
		why: "A gymnast who lands badly or steps back needs the space, and a coach has to get through. The distance is common practice; local codes come first.",
		fix: "Move one of them by its `at`, or take `at` out: without it a station is placed where there is room.",
	},
	H320: {
		title: "A station over the edge of its floor plan, or away from the wall it needs",
		why: "It cannot be set up where it is planned: it would stand in the way of the next apparatus, or its wall is somewhere else.",
		fix: "Move it by its `at`, which is the middle of the station, or take `at` out, or correct `plan` in _data/apparatus.yaml.",
	},
	H330: {
		title: "A drill before its gymnasts are ready for it",
		why: "The drill says what must have been done before the first try, and the plan has less of it.",
		fix: "Plan more of it before, or plan the drill later.",
	},
	H331: {
		title: "A block that asks for more coaches than are there",
		why: "A station that needs hands or eyes would run without them.",
		fix: "Plan a block whose stations run alone beside it, or raise `coaches` of the class in _data/term.yaml if more are there.",
	},
	H332: {
		title: "More groups on an apparatus than fit",
		why: "They would share one run or one landing area, or one of them would wait.",
		fix: "Change the rotation of one of them, or correct `groups` of the apparatus in _data/apparatus.yaml.",
	},
	H333: {
		title: "Equipment that is carried during a class",
		why: "It cannot all stand before the class, so somebody carries it while gymnasts wait.",
		fix: "Use fewer of the item at one of the stations, or keep the same item on one apparatus.",
	},
	H334: {
		title: "A dose that does not fit into the turns",
		why: "The sheet asks for more than the minutes give, so each coach leaves out something else.",
		fix: "Give the block more minutes, let more gymnasts go at once, plan fewer stations, or lower the dose.",
	},
	H335: {
		title: "A hold that is longer than the turn",
		why: "Who reads the sheet does not know whether each repetition is held, or the set, or the last one.",
		fix: "Say `hold-of: set` or `hold-of: last`, shorten the hold, or lengthen the turn.",
	},
	H336: {
		title: "A height that the equipment cannot have",
		why: "The station cannot be set up for this class as the drill says.",
		fix: "Name another landmark for this level, use other equipment, or correct `height`, `range` or `thickness` in _data/equipment.yaml.",
	},
	H337: {
		title: "One item at two heights in one class",
		why: "Somebody has to set it anew while gymnasts wait, or one of the drills is done at the wrong height.",
		fix: "Plan the drills in different weeks, or give the level the same landmark in both.",
	},
	H338: {
		title: "A skill that a class performs too seldom",
		why: "The club's target wants each skill of a level performed more often in a term. Preparing it is not doing it.",
		fix: "Plan a drill that performs the skill in more weeks, or for more turns.",
	},
	H339: {
		title: "More gymnasts to a coach than the club wants",
		why: "The club's own ratio for these ages is not kept.",
		fix: "Give the class another coach, or fewer gymnasts.",
	},
	H340: {
		title: "More landings in a session than the club wants",
		why: "A count for planning, not a medical measure.",
		fix: "Lower the repetitions of the drill with the most landings, or plan it on another day.",
	},
	H341: {
		title: "More new drills in a week than the club wants",
		why: "Each new drill has to be shown and learned, and its coach has to learn it first.",
		fix: "Keep drills of the weeks before in some of the blocks.",
	},
	H342: {
		title: "An accepted finding that the plan no longer has",
		why: "The reason is kept for nothing, and would hide the finding if it came back for another cause.",
		fix: "Take the entry out of _data/accepted.yaml, or correct what it is about.",
	},
	H343: {
		title: "A skill of a level that one of its classes never meets",
		why: "The plan has drills for it, where this class never goes.",
		fix: "Plan one of its drills on an apparatus of the class, or change the rotation.",
	},
	H344: {
		title: "A block whose changes take all its minutes",
		why: "Gymnasts would walk from station to station, and nobody would have a turn.",
		fix: "Give the block more minutes, plan fewer stations, or shorten `change` or `show`.",
	},
	H345: {
		title: "A closed day outside the term",
		why: "It closes no class. Often its year is wrong, and the day that was meant stays open.",
		fix: "Correct the date under `closed` in _data/term.yaml, or take it out.",
	},
	H346: {
		title: "No free way from one station to the next",
		why: "Gymnasts would have to go over a run, a landing area or another station to change.",
		fix: "Move a station by its `at` so that there is room to walk round it, or plan fewer stations.",
	},
	H350: {
		title: "A coming week that builds on what a class missed",
		why: "The plan has the easier thing first, but coaches reported that it was not taught, or not enough.",
		fix: "Teach what was missed before, or plan the harder thing later.",
	},
	H351: {
		title: "Two coaches of a class who say different things",
		why: "The more careful of the two is counted, which may be wrong.",
		fix: "Ask them, and correct the file under _data/taught.",
	},
	H352: {
		title: "A report of a block that the plan does not have",
		why: "The plan was changed after the coach had it, so what was reported counts for nothing.",
		fix: "Write the drills of the block that was meant into the file under _data/taught, or take the entry out.",
	},
	H353: {
		title: "A gap that grew since something was missed",
		why: "The plan keeps the club's target for gaps or weeks, but with what was really taught it is missed, and there are weeks to come.",
		fix: "Plan it once more for this class in the weeks to come.",
	},
	H401: {
		title: "No browser to lay out the pages",
		why: "The printed pages are laid out by Chromium. Everything else was built, and what was printed before and still says the same is kept. Each page of the site prints from the reader's own browser as a sheet.",
		fix: "Install Chromium, Chrome or Edge, or set HANDBOOK_BROWSER to the program's path. On Linux x64 `npm install @sparticuz/chromium` brings one too.",
	},
	H402: {
		title: "A printed section or sheet could not be laid out",
		why: "It is missing from what was printed; everything else is there.",
		fix: "Look at the page named; if it is sound, run the command again.",
	},
	H403: {
		title: "Words do not stand on their printed page as they should",
		why: "Something was printed that is cut off, stands in the punched margin, or lacks words. All other pages are sound.",
		fix: "Look at the printed page named. Shorten the text or split the table at the place named.",
	},
	H404: {
		title: "A printed page number that is wrong",
		why: "The contents or a reference would send the reader to another page.",
		fix: "This is a fault of the program: keep the folder and report it.",
	},
	H405: {
		title: "Something had to be broken or set smaller to be printed",
		why: "It was printed as well as it can be, but it is harder to read than the rest.",
		fix: "Shorten it, or split it into several, at the place named.",
	},
	H406: {
		title: "Printed in type that is too small",
		why: "Nothing should be smaller than 8.5 pt, and nothing that keeps people safe smaller than 9 pt: a sheet is read at arm's length, and not in the best light.",
		fix: "Look at the printed page named, and split what is too large for it: a wide table, a plan of a very long hall.",
	},
	H407: {
		title: "Printed words that lie on each other",
		why: "Neither can be read.",
		fix: "Look at the printed page named. In a drawing, give what stands there more room; elsewhere shorten the text.",
	},
	H408: {
		title: "A letter that no font on this machine has",
		why: "An empty box is printed in its place. Screens usually have more signs than the fonts of the machine that prints: emoji above all.",
		fix: "Write the word without the sign, or install a font that has it, and print again.",
	},
	H409: {
		title: "A drawing that is larger than its printed page",
		why: "A part of it is not on paper. The words beside it are.",
		fix: "Plan fewer or smaller stations in the block, or correct `plan` in _data/apparatus.yaml.",
	},
	H410: {
		title: "A sheet that needs more sides than it should",
		why: "It was printed whole, in the smallest type that can be read, but it is no longer the one sheet that hangs on a wall or lies on a beam.",
		fix: "Shorten the texts of what is planned there, or plan fewer stations for this class.",
	},
	H411: {
		title: "A safety text that is not on paper",
		why: "Nobody may coach from a sheet that lacks its spotting, caution or emergency words, so this one was not printed; all others were.",
		fix: "This is a fault of the program: coach from the drill's page, keep the folder and report it.",
	},
} as const satisfies Record<string, CatalogueEntry>;

export type Code = keyof typeof CATALOGUE;

/** What keeps nothing from being published. */
const WARNINGS = "H108 H110 H205 H209 H212 H216 H217 H218 H405 H406 H408 H409 H410".split(" ");

export function severityOf(code: string): Severity | "finding" {
	if (code.startsWith("H3")) return "finding";
	return WARNINGS.includes(code) ? "warning" : "error";
}

/** What a measure finds. */
export type FindingCode = Extract<Code, `H3${string}`>;

/** Something an author can mend, at a place. */
export interface Problem {
	readonly code: Code;
	readonly severity: Severity;
	readonly place: Place;
	/** What is wrong, with the names and values of this case. */
	readonly what: string;
	readonly why: string;
	readonly fix: string;
	/** The nearest known name, where one is near. */
	readonly nearest?: string;
}

/** For what is about no file: a missing browser, a page that cannot be traced to one. */
export const NOWHERE: Place = { file: "", line: 0, column: 0 };

/** A problem with the catalogue's words, and a fix of its own where the case allows a better one. */
export function problem(
	code: Code,
	place: Place,
	what: string,
	more: { readonly fix?: string; readonly nearest?: string | undefined } = {},
): Problem {
	const entry: CatalogueEntry = CATALOGUE[code];
	const fix =
		more.fix ?? (more.nearest === undefined ? entry.fix : `Did you mean \`${more.nearest}\`? ${entry.fix}`);
	return {
		code,
		severity: severityOf(code) === "error" ? "error" : "warning",
		place,
		what,
		why: entry.why,
		fix,
		...(more.nearest === undefined ? {} : { nearest: more.nearest }),
	};
}

/** Orders problems by file, then line, then column, then code. */
export function byPlace(a: Problem, b: Problem): number {
	return (
		compareText(a.place.file, b.place.file) ||
		a.place.line - b.place.line ||
		a.place.column - b.place.column ||
		compareText(a.code, b.code)
	);
}

function compareText(a: string, b: string): number {
	return a < b ? -1 : a > b ? 1 : 0;
}
