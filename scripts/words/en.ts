/** The words of the handbook in English. Sections stand in the order in which a reader meets them. */

import type {
	Base,
	Direction,
	Drill,
	FileKind,
	Finding,
	Ground,
	Helper,
	HelpPlace,
	Landmark,
	Origin,
	Pattern,
	RecordedKind,
	Side,
	Weekday,
} from "../model.ts";
import { CATALOGUE, type CatalogueEntry, type Code } from "../problems.ts";
import { countsOf, datesOf, listsOf, numbersOf, type Sentence } from "./writers.ts";

// How the language writes ---------------------------------------------------------------------------

/** The name of this file, as a BCP 47 tag. */
export const language: string = "en";
export const number = /* @__PURE__ */ numbersOf(".");
export const date = /* @__PURE__ */ datesOf(
	[
		"January",
		"February",
		"March",
		"April",
		"May",
		"June",
		"July",
		"August",
		"September",
		"October",
		"November",
		"December",
	],
	["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sept", "Oct", "Nov", "Dec"],
	(day, date) => `${days[day]}, ${date}`,
);
export const and = /* @__PURE__ */ listsOf("and", (count) => `${count} more`);
export const or = /* @__PURE__ */ listsOf("or", (count) => `${count} more`);
const count = /* @__PURE__ */ countsOf(number, (written) => written === 1);
/** Between what belongs together and between parts of a list, where the language sets its own spaces. */
export const colon: string = ": ";
export const semicolon: string = "; ";
/** Around the name of a drill, skill or shape in a sentence. */
export const quoted = (name: string): string => `“${name}”`;

export const counts = {
	weeks: /* @__PURE__ */ count("# week", "# weeks"),
	minutes: /* @__PURE__ */ count("# minute", "# minutes"),
	gymnasts: /* @__PURE__ */ count("# gymnast", "# gymnasts"),
	coaches: /* @__PURE__ */ count("# coach", "# coaches"),
	classes: /* @__PURE__ */ count("# class", "# classes"),
	drills: /* @__PURE__ */ count("# drill", "# drills"),
	shapes: /* @__PURE__ */ count("# shape", "# shapes"),
	skills: /* @__PURE__ */ count("# skill", "# skills"),
	findings: /* @__PURE__ */ count("# finding", "# findings"),
	reps: /* @__PURE__ */ count("# repetition", "# repetitions"),
	adults: /* @__PURE__ */ count("# adult", "# adults"),
	turns: /* @__PURE__ */ count("# turn", "# turns"),
	times: /* @__PURE__ */ count("# time", "# times"),
	sets: /* @__PURE__ */ count("# set", "# sets"),
	stations: /* @__PURE__ */ count("# station", "# stations"),
	pages: /* @__PURE__ */ count("# page", "# pages"),
	leaves: /* @__PURE__ */ count("# leaf", "# leaves"),
	landings: /* @__PURE__ */ count("# landing", "# landings"),
	teachingWeeks: /* @__PURE__ */ count("# teaching week", "# teaching weeks"),
	gaps: /* @__PURE__ */ count("# gap", "# gaps"),
	needs: /* @__PURE__ */ count("# need", "# needs"),
	blocks: /* @__PURE__ */ count("# block", "# blocks"),
	items: /* @__PURE__ */ count("# item", "# items"),
	handContacts: /* @__PURE__ */ count("# hand contact", "# hand contacts"),
	errors: /* @__PURE__ */ count("# error", "# errors"),
	files: /* @__PURE__ */ count("# file", "# files"),
};

// The preview --------------------------------------------------------------------------------------

/** What `serve` shows in place of every page while the content has errors. */
export const problemsPage = {
	toMend: (errors: string) => `To mend: ${errors}`,
	errorsIn: (errors: number, files: number) => `${counts.errors(errors)} in ${counts.files(files)}`,
	hidden: "Nothing can be shown until this is mended",
	/** A link to the other pages. */
	lastGood: "The other pages, as they were before",
	before: "The pages are shown as they were before.",
	ownFile: "This page is written in the file with the mistake, and shown as it was before.",
	leftOut: (files: string) => `Left out of the pages until then: ${files}.`,
	all: (errors: number) =>
		errors === 1 ? "What is wrong, and why" : `All ${counts.errors(errors)}, and why`,
	place: (line: number, column: number) => `line ${line}, column ${column}`,
};

/** What `serve` adds to its pages, and its view of the printed sheets. */
export const preview = {
	bar: "Preview",
	writtenIn: "Written in",
	counted: "Counted from the whole folder.",
	sheets: "Printed sheets",
	sheetsOf: (title: string) => `Printed sheets: ${title}`,
	sheetOf: (title: string) => `Printed sheet: ${title}`,
	lead: "Each section of the binder with the styles of print, without printing it.",
	all: "All sheets",
	before: (title: string) => `Before: ${title}`,
	after: (title: string) => `After: ${title}`,
	oneLong:
		"Where a page ends, and the page numbers of references, are known when the binder is printed. Here each part is one long sheet.",
};

// Terms of the trade --------------------------------------------------------------------------------

export const directions: Readonly<Record<Direction, string>> = {
	forward: "forward",
	backward: "backward",
	sideways: "sideways",
	none: "none",
};
export const days: Readonly<Record<Weekday, string>> = {
	monday: "Monday",
	tuesday: "Tuesday",
	wednesday: "Wednesday",
	thursday: "Thursday",
	friday: "Friday",
	saturday: "Saturday",
	sunday: "Sunday",
};

/** From one day to another, both written out. */
export const fromTo = (from: string, to: string) => `${from} to ${to}`;

/** Where there is no room for more. */
export const shortDays: Readonly<Record<Weekday, string>> = {
	monday: "Mon",
	tuesday: "Tue",
	wednesday: "Wed",
	thursday: "Thu",
	friday: "Fri",
	saturday: "Sat",
	sunday: "Sun",
};

export const patterns: Readonly<Record<Pattern, string>> = {
	landing: "landing",
	statics: "statics",
	locomotion: "locomotion",
	rotation: "rotation",
	swing: "swing",
	spring: "spring",
	handling: "handling",
};
export const weights: Readonly<Record<Finding["weight"], string>> = {
	serious: "serious",
	"worth a look": "worth a look",
	note: "note",
};
export const sides: Readonly<Record<NonNullable<Drill["sides"]>, string>> = {
	both: "Both sides together",
	each: "Each side in turn",
	lead: "Favoured side only",
};
/** The number of a teaching week as its name. */
export const week = (number: number | string): string => `Week ${number}`;
/** A block of a plan, after the name of its apparatus. */
export const blockAt = (apparatus: string, block: number): string => `${apparatus}, block ${block}`;
export const ages = (from: number, to: number): string => `ages ${from} to ${to}`;

// The frame of every page ---------------------------------------------------------------------------

export const destinations = {
	thisWeek: "This week",
	weeks: "Weeks",
	classes: "Classes",
	apparatus: "Apparatus",
	drills: "Drills",
	search: "Search",
	shapes: "Shapes",
	skills: "Skills",
	levels: "Levels",
	equipment: "Equipment",
	coverage: "Coverage",
	termOverview: "Term overview",
	measures: "Measures",
	findings: "Findings",
	guides: "Guides",
	authorGuide: "Author guide",
	safety: "Safety",
};

export const frame = {
	/** Of a page that has no description of its own. */
	description: (page: string, club: string, term: string) =>
		`${page}. From the curriculum handbook of ${club}, ${term}.`,
	handbookOf: (club: string) => `${club}: curriculum handbook`,
	skip: "Skip to the page",
	largeType: "Large type",
	theme: "Light or dark",
	menu: "Menu",
	/** The key to what to do first: one word. */
	emergency: "Emergency",
	inEmergency: "In an emergency",
	/** Of a panel over the page. */
	close: "Close",
	main: "Main",
	crumbs: "Where this page stands",
	moreOnSafety: "More on safety",
	all: "The whole handbook",
	colophon: (club: string, term: string) => `${club}, ${term}.`,
	/** Where a page comes from that a library has. */
	origin: ({ from, changed }: Origin) =>
		`From ${from.map(({ name, licence }) => (licence === undefined ? name : `${name} (${licence})`)).join(", changed from ")}.${
			changed.length === 0 ? "" : ` This club changed ${changed.join(", ")}.`
		}`,
	edition: <T>(name: T): Sentence<T> => ["Edition ", name, "."],
	report: <T>(link: T, contact: string): Sentence<T> => [link, ` to ${contact}.`],
	reportLink: "Report a correction",
	/** The subject of a letter. */
	correction: (page: string) => `Correction: ${page}`,
};

/** The switch between light and dark, once it works. */
export const themeSwitch = { dark: "Dark colours" };

/** The usual caution of every page, its first sentence in bold. */
export const caution = {
	first: "Coaching gymnastics needs qualified supervision, matting and spotting suited to the gymnast.",
	rest: "Local codes, the governing body's rules and licensed practice come first. Computed loads and heights are planning aids.",
};

// Drills --------------------------------------------------------------------------------------------

export const safety = {
	spotting: "Spotting.",
	caution: "Caution.",
	both: "Spotting and caution.",
	nothingWritten: <T>(usual: T): Sentence<T> => [
		"Nothing of its own is written for this drill: ",
		usual,
		" holds.",
	],
	usual: "the usual caution",
};

/** Where the shares of stature come from. Published sources keep their names in every language. */
export const landmarkSources: Readonly<Record<Landmark, string>> = {
	knee: "Drillis & Contini 1966, as in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
	hip: "Drillis & Contini 1966, as in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
	chest:
		"no published row: two thirds of the way from the hip to the shoulder, from Drillis & Contini 1966, as in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
	shoulder:
		"Drillis & Contini 1966, as in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
	head: "stature itself",
	reach:
		"shoulder height with upper arm, forearm and hand above it, from Drillis & Contini 1966, as in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
};

export const setUp = {
	forEachGymnast: "for each gymnast",
	at: <T>(what: T, landmark: Landmark): Sentence<T> => [what, ` at ${landmarks[landmark]}`],
	range: (who: string | undefined, low: number, high: number) =>
		`${who === undefined ? "" : `${who}: `}${low}–${high} cm`,
	turn: (seconds: number, atOnce: number) =>
		`One turn takes about ${number(seconds)} s, ${counts.gymnasts(atOnce)} at a time`,
	heightsCaution:
		"The shares were measured on adults; for children every figure is approximate. Check it on the gymnast who stands there.",
	source:
		"Source: CDC growth charts 2000, stature for age (Vital and Health Statistics, series 11, number 246); shares of stature: Drillis & Contini 1966, as in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1.",
};

/** Where the landmarks of the body are, as coaches say it. */
export const landmarks: Readonly<Record<Landmark, string>> = {
	knee: "knee height",
	hip: "hip height",
	chest: "chest height",
	shoulder: "shoulder height",
	head: "the top of the head",
	reach: "fingertips overhead",
};

/** The same as heads of columns and titles. */
export const landmarkNames: Readonly<Record<Landmark, string>> = {
	knee: "knee",
	hip: "hip",
	chest: "chest",
	shoulder: "shoulder",
	head: "head",
	reach: "reach",
};

export const drill = {
	on: "On",
	forLevels: "For",
	levels: "What each level does",
	asDescribed: "As described.",
	say: "Say",
	see: "See",
	watchFor: "Watch for",
	setUp: "Set-up",
	how: "How it goes",
	pictures: "Pictures",
	whereNext: "Where next",
	easier: "Easier",
	harder: "Harder",
	otherDirection: "The other direction",
	elsewhere: "Same shapes elsewhere",
	comesBefore: "comes before",
	comesNext: "comes next",
	moreLikeThis: <T>(link: T): Sentence<T> => [
		link,
		": the same shapes and skills, other apparatus or levels",
	],
	moreLikeThisLink: "More like this",
	plannedIn: "Planned in",
	overTerm: "Over the term",
	about: "About this drill",
	shapes: "Shapes",
	leadsTo: "Leads to",
	direction: "Direction",
	sides: "Sides",
	eachRepetition: "Each repetition",
	contacts: (landings: number, hands: number) =>
		`${counts.landings(landings)}, ${counts.handContacts(hands)}`,
	alsoCalled: "Also called",
	reviewed: "Reviewed",
	writtenIn: "Written in",
	hold: (seconds: number) => `hold ${number(seconds)} s`,
};

// Pages ---------------------------------------------------------------------------------------------

/** Minutes beside their number, where the number stands large. */
export const minuteSign: string = "min";
/** An edition's number and day, after the word "edition". */
/** A group by the name of its class and its own. */
export const groupOf = (name: string, part: string): string => `${name} (${part})`;
export const editionName = (number: number, date: string): string => `${number}, ${date}`;
export const min = (minutes: number): string => `${number(minutes)} min`;
export const percent = (share: number): string => `${number(share * 100)} %`;
/** After the name of a class or an apparatus: "Beam, week 3". */
export const ofWeek = (week: number): string => `week ${week}`;
export const ofBlock = (apparatus: string, week: number, block: number): string =>
	`${apparatus}, week ${week}, block ${block}`;
export const fromLevel = <T>(level: T): Sentence<T> => ["From ", level];
export const alsoCalled = (names: string): string => `Also called ${names}.`;
export const allLevels: string = "All levels";
export const allApparatus: string = "All areas and apparatus";
/** Things without an apparatus. */
export const anywhere: string = "Anywhere";
export const noDirection: string = "no direction";
/** Read aloud for an empty cell. */
export const none: string = "none";
export const asTable = (title: string): string => `${title}, table`;

export const things = {
	shape: { title: "Body shapes", one: "Shape" },
	skill: { title: "Skills", one: "Skill" },
};

/** Heads of the columns of tables. */
export const heads = {
	week: "Week",
	weeks: "Weeks",
	level: "Level",
	apparatus: "Area or apparatus",
	class: "Class",
	group: "Group",
	planned: "Planned",
	free: "Free",
	moving: "Moving",
	target: "Target",
	countedFrom: "Counted from",
	forward: "Forward",
	backward: "Backward",
	sideways: "Sideways",
	noDirection: "None",
	missing: "Missing",
	landings: "Landings",
	hands: "Hands",
	step: "Step",
	first: "First",
	last: "Last",
	longestGap: "Longest gap",
	metIn: "Met in week",
	missedBy: "Target missed by",
	times: "Times",
	minutes: "Minutes",
	sum: "Sum",
	reps: "Reps",
};

export const home = {
	title: "What do we teach today?",
	today: "Today",
	find: "Find a drill",
	findExample: "hollow, Level 2, bars",
	myApparatus: "My area or apparatus",
	myLevel: "My level",
	allWeeks: "All weeks",
};

/** Beside a text that is meant to be copied. */
export const copying = {
	copy: "Copy",
	copied: "Copied",
	selected: "Selected: copy it with the keyboard",
};

/** Over the card of a week. */
export const tenses = {
	now: "This week",
	next: "Next up",
	past: "Last week of term",
	/** Beside the name of a week, and of a class. */
	badges: { week: "now", day: "today" },
};

/** The keys to the class sheets of today. */
export const today = {
	titles: {
		"class day": "Today",
		free: "No class sheet for today",
		closed: "The club is closed today",
		"before term": "The term has not begun",
		"after term": "The term is over",
	},
	closedUntil: (day: string) => `Closed until ${day}.`,
	first: (day: string) => `First class day: ${day}.`,
	next: (day: string) => `Next class day: ${day}.`,
	when: { "on now": "on now", over: "over" },
	openedLast: "opened last",
};

export const weekList = {
	none: <T>(link: T): Sentence<T> => [
		"No week is planned yet. The drills, shapes and skills are here already; ",
		link,
		" is in the author guide.",
	],
	howTo: "how to write a week",
};

export const calendar = {
	title: "Weeks of the term",
	lead: (term: string, weeks: number, written: number) =>
		`${term}: ${counts.teachingWeeks(weeks)}${written < weeks ? `, ${written} of them written` : ""}.`,
	closed: (days: string) => `Closed: ${days}.`,
	file: "Calendar file (.ics)",
	byClass: "Class by class",
};

export const classes = {
	none: <T>(file: T): Sentence<T> => ["No classes are written in ", file, " yet."],
	anyDay: "Any day",
	gymnasts: "Gymnasts",
	coaches: "Coaches",
	ages: "Ages",
	fromTo: (from: number, to: number) => `${from} to ${to}`,
	length: "Length",
	rotation: "Rotation",
	sheets: "Class sheets",
	closed: "closed",
	planned: (minutes: number) => `planned ${min(minutes)}`,
	minutes: "Minutes",
	moves: (share: string) => `Over the planned weeks a gymnast moves for ${share} of the class.`,
	allClasses: "All classes",
	weekByWeek: "Week by week",
	overTerm: "Skills over the term",
	skillBySkill: "Skill by skill",
	toTerm: "What this class does over the term",
	performed: "Performed",
	prepared: "Prepared",
	counted:
		"Repetitions for each gymnast that fit into the turns of this class: of drills that do the skill, and of drills that only prepare it.",
	wanted: (times: string) => `The club wants each skill performed at least ${times}.`,
	arrives: "arrives with it",
	neverMet: "never met",
	together: (performed: number) => `performed ${number(performed)} with the other days`,
};

export const classSheet = {
	planned: (planned: number, available: number | undefined) =>
		`planned ${number(planned)}${available === undefined ? "" : ` of ${number(available)}`} min`,
	moving: (share: string) => `active ${share}`,
	closedDay: "The club is closed on this day.",
	besides: (name: string) => `${name} in the weeks before and after`,
	before: "Before you start.",
	beforeRest:
		"Check the set-up and the matting, count the group, and keep waiting gymnasts clear of landings. Spot only what you are trained to spot.",
	glance: "The class at a glance",
	warmUp: "Gather and warm up",
	coolDown: "Cool down",
	end: "End",
	nothing: "Nothing is planned on the apparatus of this class's rotation.",
};

export const block = {
	numbered: (number: number) => `Block ${number}`,
	forLevels: <T>(levels: T): Sentence<T> => ["For ", levels],
	nobody: "No level here does this block.",
	rotate: (change: number) => `Rotate; ${min(change)} for each change.`,
	minEach: (minutes: number) => `${min(minutes)} each`,
	minFor: (minutes: number, levels: string) => `${min(minutes)} for ${levels}`,
	here: (gymnasts: number) => `${counts.gymnasts(gymnasts)} here`,
	turnsEach: (turns: number) => `about ${counts.turns(turns)} each`,
	wait: (seconds: number) => `${number(seconds)} s between turns`,
	options: (options: number) => `${number(options)} to choose from`,
	choose: (choose: number) => `Choose ${number(choose)} of these.`,
	show: (minutes: number) => `${min(minutes)} to show it.`,
	/** Who stands where among several stations; of a block with one, without their numbers. */
	coachAt: {
		spots: (coach: number, stations: readonly string[]) => `Coach ${coach}: ${stationNames(stations)}.`,
		watches: (coach: number, stations: readonly string[]) =>
			`Coach ${coach} watches ${stationNames(stations)}.`,
		walks: (coach: number, stations: readonly string[]) =>
			stations.length === 1
				? `Coach ${coach} looks in at ${stationNames(stations)}.`
				: `Coach ${coach} walks between ${stationNames(stations)}.`,
	},
	coachHere: {
		spots: (coach: number) => `Coach ${coach} spots.`,
		watches: (coach: number) => `Coach ${coach} watches.`,
		walks: (coach: number) => `Coach ${coach} looks in.`,
	},
	alone: (stations: readonly string[]) =>
		`${stations.length === 1 ? `Station ${stations[0]} runs` : `Stations ${and(stations, 12)} run`} alone.`,
	coachesAsked: (needed: number, hands: number, watched: number) =>
		`Asks for ${counts.coaches(needed)} (${coachWork(hands, watched)}).`,
	coachesShort: (needed: number, hands: number, watched: number, present: number) =>
		`Too few coaches: ${number(needed)} needed (${coachWork(hands, watched)}), ${number(present)} there. Take a station out, or have help before you start.`,
	fits: (planned: number, fits: number, turns: number) =>
		`planned ${number(planned)}, fits ${number(fits)} in ${counts.turns(turns)}`,
	easierHarder: "Easier and harder",
};

/** With one coach fewer than the plan counts. */
export const fewerCoaches = {
	title: "If a coach is missing:",
	rules: "the club's rules and qualified coaches decide; no station without the hands or eyes it asks for.",
	nobody: "Nobody is left: no class without another qualified coach.",
	ratio: (coaches: number, gymnasts: number) =>
		`${counts.coaches(coaches)} to at most ${counts.gymnasts(gymnasts)}, or ask the director.`,
	/** A block's stations; none where all of it is left out. */
	at: (clock: string, apparatus: string, stations: readonly string[]) =>
		`${clock} ${apparatus}, ${stations.length === 0 ? "the whole block" : stationNames(stations)}`,
	leftOut: (places: readonly string[]) => `Leave out only ${places.join("; ")}.`,
};

function stationNames(stations: readonly string[]): string {
	return stations.length === 1 ? `station ${stations[0]}` : `stations ${and(stations, 12)}`;
}

function coachWork(hands: number, watched: number): string {
	return and([
		...(hands > 0 ? [`${number(hands)} with hands on`] : []),
		...(watched > 0 ? ["1 to watch"] : []),
	]);
}

export const setOut = {
	title: "Set out",
	owns: (owned: number) => `the club owns ${owned}`,
	carry: (count: number, item: string, from: string, clock: string, adults: number) =>
		`Carry ${number(count)} × ${item} here from ${from} by ${clock}, ${counts.adults(adults)} to each.`,
	missing: (count: number, item: string) =>
		`${number(count)} × ${item} missing here: in use on another apparatus.`,
	clear: "Clear the ticks",
	ready: (done: number, of: number) => `${done} of ${of} ready`,
};

/** The view of one block at a time, and the timer of a stations block. */
export const hall = {
	blockByBlock: "Block by block",
	toPresent: "What's on now",
	fromBlock: (at: number, of: number) => `From block ${at} of ${of}`,
	oneOf: (at: number, of: number) => `${at} of ${of}`,
	before: "Previous",
	whole: "Whole sheet",
	next: "Next",
	timer: (block: string) => `Station timer, ${block}`,
	start: "Start",
	skip: "Skip",
	reset: "Reset",
	sound: "Sound",
	buzz: "Buzz",
	howItWent: "How it went",
	keptHere:
		"Kept on this device until you send it. No names here, of nobody: how many is enough. An accident goes into the club's accident book, not here.",
	howMany: "How many can do it?",
	toSend: "Send it",
};

const causes = {
	late: "Late start",
	"set-up": "Setting up",
	coaches: "Too few coaches",
	settling: "Settling the group",
	other: "Something else",
};
const looks = { equipment: "Equipment", "near-miss": "A near miss" };

/** What the timer of a stations block says while it runs. */
/** What a coach says came of a class; of a program in the browser. */
export const reporting = {
	done: "This block was",
	dones: { done: "Done", shortened: "Shortened", "not-done": "Not done" },
	lost: "Minutes lost",
	minutes: (minutes: number) => `${minutes} min`,
	cause: "Because of",
	causes,
	felt: "For the group it was",
	felts: { "too-easy": "Too easy", right: "Right", "too-hard": "Too hard" },
	look: "To be looked at",
	looks,
	note: "A line for the director",
	noName: "No name belongs here.",
	alone: "Alone",
	helped: "With help",
	there: "Of how many",
	fewer: "One fewer",
	more: "One more",
	takeBack: "Not counted",
	allDone: "All the rest as planned",
	counted: (said: number, of: number) => `${said} of ${of} blocks reported.`,
	older: (blocks: number) =>
		`${blocks === 1 ? "One block" : `${blocks} blocks`} of an earlier edition, no longer on this sheet: sent with it.`,
	share: "Send",
	mail: "By mail",
	copy: "Copy",
	shared: "Sent. What you change now can be sent again.",
	notShared: "Not sent; it is still here.",
	mailed: "Your mail program has it. Tap “Not sent” if it did not go.",
	copied: "Copied: paste it into a message to the director.",
	copyByHand: "Copy the text below into a message to the director.",
	notSent: "Not sent",
	forget: "Delete",
	forgotten: "Deleted from this device.",
	nothing: "Nothing is reported yet.",
	unsent: "Not sent yet.",
	isSent: "Sent as it is here.",
	full: "There is no room for more: shorten a line.",
	notKept: "This browser keeps nothing: send it before you leave this page.",
};

/** For the director alone. */
export const taughtPage = {
	title: "What was taught",
	question: "What came of the plan, and who can do it now?",
	sums: {
		lead: "From what coaches reported of their classes this term, all classes together.",
		how: (fewest: number) =>
			`Every number is rounded down to fives: at least so many. A skill stands here where at least ${number(fewest)} gymnasts do it alone and at least ${number(fewest)} do not yet, by the last count of each group; a cause where it was named in at least ${number(fewest)} classes. Nothing smaller is published, nor any part of a sum, so that nothing can be worked out of a few gymnasts or one class.`,
		of: "Of",
		nothing: "There is no sum yet that is large enough to be shown.",
	},
	publishes: <T>(page: T): Sentence<T> => ["The club publishes sums of it: ", page, "."],
	lead: (reported: number, of: number) =>
		`${number(reported)} of ${number(of)} classes of the weeks until now were reported. What nobody reported counts as planned.`,
	privately: "For the director alone.",
	howToDelete: <T>(folder: T): Sentence<T> => [
		"Nothing of this page is in the build that coaches see. Coaches' words are shown as they typed them. To delete it, remove the files under ",
		folder,
		", what undo keeps of them under .handbook/changes, and this build; in earlier versions too where the folder is under version control.",
	],
	lines: "What coaches write",
	looks,
	felts: { "too-easy": "too easy", right: "right", "too-hard": "too hard" },
	weeks: "Class by class",
	ofPlanned: (planned: number) => `of ${number(planned)}`,
	notDone: "Not done",
	shortened: "Shortened",
	lost: "Minutes lost",
	cause: "Because of",
	causes,
	noCause: "Not said, or several",
	blocks: "Blocks",
	skills: "Who can do it",
	skill: "Skill",
	alone: "Alone",
	helped: "With help",
	share: "Share",
	range: "95 % range",
	interval:
		"The range is Wilson's score interval (1927): of ranges made like this, 19 in 20 hold the true share.",
	fewest: (fewest: number) => `Nothing is concluded from fewer than ${number(fewest)} gymnasts.`,
	of: (alone: number, of: number) => `${number(alone)} of ${number(of)}`,
	between: (low: string, high: string) => `${low} to ${high}`,
	tooFew: "too few",
	kept: "After a break",
	keptLead:
		"Counts of the same group before and after weeks without the skill. Counts know no names: of those who did it alone before, at most so many still do. Where fewer were there after, nothing is said. What was kept does not say why.",
	pause: "Weeks without",
	atMost: "Still alone, at most",
	fewerThere: "fewer were there",
	before: "Before",
	after: "After",
	inWeek: (count: string, week: number) => `${count} (week ${week})`,
	ofDrill: "What coaches say",
	felt: (easy: number, right: number, hard: number) =>
		`Its blocks were too easy ${counts.times(easy)}, right ${counts.times(right)}, too hard ${counts.times(hard)}.`,
};

/** On the home page; of a program in the browser. */
export const unsentReports = {
	notSentYet: (reports: number) =>
		reports === 1 ? "A class report was not sent yet" : `${reports} class reports were not sent yet`,
};

export const timer = {
	done: (stations: number) => `All ${stations} stations done`,
	/** Before the seconds that are left. */
	station: (at: number, of: number) => `Station ${at} of ${of}, change in`,
	lastStation: (at: number, of: number) => `Station ${at} of ${of}, end in`,
	change: (at: number, of: number) => `Change to station ${at} of ${of}, work in`,
	/** Read aloud. */
	doneSaid: (stations: number) => `All ${stations} stations done.`,
	stationSaid: (at: number, of: number) => `Station ${at} of ${of}.`,
	changeSaid: (at: number, of: number) => `Change to station ${at} of ${of}.`,
	paused: "Paused.",
	setBack: "Timer set back to the start.",
	pause: "Pause",
	startAgain: "Start again",
	goOn: "Go on",
};

export const drills = {
	lead: <T>(drills: number, search: T): Sentence<T> => [
		`${counts.drills(drills)}. `,
		search,
		" by shape, skill, level, apparatus and equipment.",
	],
	byApparatus: "Drills by area and apparatus",
	byLevel: "Drills by level",
	onApparatus: (drills: number, apparatus: string) => `${counts.drills(drills)} on ${apparatus}`,
	none: (apparatus: string) => `No drill names ${apparatus} yet.`,
};

export const shapes = {
	title: "Body shapes",
	lead: (shapes: number) => `${counts.shapes(shapes)} that every apparatus shares.`,
	noDrill: "No drill names this shape yet.",
};

export const angles = {
	title: "Angles",
	titleOfAll: "Their angles",
	table: "Angles the figure is drawn from",
	tableOfAll: "Angles of every shape, degrees",
	joint: "Joint",
	degrees: "Degrees",
	measured: "Measured",
	carriedBy: "Carried by",
	drawnAs: "Drawn as",
	carriedAndDrawn: (carried: string, position: string) => `Carried by: ${carried}. Drawn as: ${position}.`,
	joints: {
		shoulder: { name: "Shoulder", what: "arm to trunk: 0 by the side, 180 overhead" },
		elbow: { name: "Elbow", what: "upper arm to forearm: 180 straight" },
		hip: { name: "Hip", what: "trunk to thigh: 180 straight" },
		knee: { name: "Knee", what: "thigh to shank: 180 straight" },
		ankle: { name: "Ankle", what: "shank to foot: 90 flexed, 180 pointed" },
	},
	spread: { name: "Legs apart", what: "between the legs" },
	trunk: { name: "Trunk", what: "curve: positive rounded, negative arched" },
	neck: { name: "Neck", what: "head to upper trunk: 0 in line, positive chin to chest" },
	lean: { name: "Lean", what: "of the trunk: 0 upright, 90 face down, −90 face up, 180 upside down" },
	left: (angle: string) => `${angle} left`,
	right: (angle: string) => `${angle} right`,
	legsDiffer: "legs differ",
	positions: { straight: "straight", pike: "pike", tuck: "tuck" },
	straddled: (position: string) => `${position}, straddled`,
	carried: {
		feet: "feet",
		hands: "hands",
		"hands-and-feet": "hands and feet",
		head: "head and hands",
		hips: "hips over a bar",
		seat: "seat",
		back: "back",
		front: "front",
		shoulders: "shoulders",
		knees: "knees",
		hang: "hands, hanging",
		air: "nothing, in the air",
	} satisfies Record<Base, string>,
	borders: (trampoline: number, straddle: number) =>
		`Straight, pike and tuck by the borders of the FIG Trampoline Code of Points, §14.6, 2013–16 (${trampoline} degrees at hip and knee); straddle from ${straddle} degrees between the legs, FIG Aerobic code (edition not known). These are rules for judging another discipline, used here to name a drawing.`,
	addOne: <T>(file: T, guide: T): Sentence<T> => [
		"A club adds a shape by writing its angles in ",
		file,
		"; ",
		guide,
		" says how each is measured.",
	],
	authorGuide: "the author guide",
};

export const skills = {
	criteria: "What must be seen",
	needs: "Needs first",
	leadsTo: "Leads to",
	opposite: "Opposite",
	pattern: "Pattern",
	patternSource: "Movement patterns after Alberta SPHEReS; six of the seven are attributed to Russell.",
	noDrill: "No drill leads to this skill yet.",
	onTheWay: "On the way",
	mapTitle: (skill: string) => `What comes before ${skill}, and what it leads to`,
	mapDescription:
		"From the easy at the top to the hard at the bottom. The list under this picture has the same in words.",
};

export const levels = {
	besides: "Levels below and above",
	learns: "Learns",
	arrives: "Arrives with",
	noDrill: "No drill offers this level yet.",
};

export const apparatusPage = {
	/** The title of the list of all, where some are areas of the hall and no apparatus. */
	withAreas: "Areas and apparatus",
	areas: "Areas",
	area: "An area of the hall.",
	plannedIn: (weeks: number) => `planned in ${counts.weeks(weeks)}`,
	room: (length: number, width: number) => `Room in the hall: ${number(length)} by ${number(width)} m.`,
	drillsFrom: (level: string) => `Drills from ${level}`,
};

export const equipmentPage = {
	none: <T>(file: T): Sentence<T> => ["No equipment is written in ", file, " yet."],
	item: "Item",
	needed: "Needed",
	owned: "Owned",
	mostNeeded: "Most needed in one place",
	kept: "Kept",
	neededIn: "Needed in",
	noDrill: "No drill uses it yet.",
};

export const exposure = {
	table: "Planned over the term, by level",
	one: (contacts: string) => `One repetition: ${contacts}.`,
	load: "The load of each week",
};

export const coverage = {
	lead: "What the term as a whole trains. Every number opens to the drills it was counted from.",
	files: "For a spreadsheet",
	tables: {
		"week-shape": { title: "Week by shape", question: "Which body shapes does each week train?" },
		"week-skill": { title: "Week by skill", question: "Which skills does each week lead to?" },
		"week-direction": {
			title: "Week by direction",
			question: "Is forward work matched by backward work?",
		},
		"level-shape": { title: "Level by shape", question: "Does every level train every shape?" },
		"level-skill": { title: "Level by skill", question: "Which skills does each level work towards?" },
		"apparatus-shape": { title: "Area and apparatus by shape", question: "Where is each shape trained?" },
	},
	measures: {
		minutes: {
			name: "Minutes",
			says: "Planned minutes; a drill with two shapes or skills counts in full for both.",
		},
		drills: { name: "Drills", says: "Different drills." },
		share: {
			name: "Share",
			says: "Minutes divided between the shapes or skills of a drill, so that they add up.",
		},
		repetitions: {
			name: "Repetitions",
			says: "Sets × repetitions, where the drill or the level says them.",
		},
	},
	empty: "Nothing is planned here yet, so there is nothing to count.",
	count: "Count",
	totals:
		"Totals count each drill once where it is planned, however many columns it stands in. A stronger shade is more.",
	all: "All",
	csv: "Table as CSV",
	missing: "Not in this plan",
	lists: "What each number was counted from",
	back: "Back to the table",
	others: "Other tables",
};

export const coverageCells = {
	title: "What this number was counted from",
	close: "Close",
};

export const term = {
	lead: (term: string) => `What each week of ${term} trains, in minutes. Every number opens to its drills.`,
	pageDescription: (term: string) => `What each week of ${term} trains`,
	glance: "At a glance",
	nothing: "There is nothing here to train yet.",
	byWeek: { shape: "Body shapes by week", skill: "Skills by week" },
	asTable: { shape: "Body shapes as a table", skill: "Skills as a table" },
	description: (level: string) =>
		`${level}: minutes in each week. The table further down has the same numbers.`,
	toSpacing: "Spacing: every gap, held against the targets",
	toOrder: "Order: what comes before what",
	toCoverage: "Coverage: the tables behind these numbers",
	notes: {
		shape: {
			both: "A drill with two shapes counts in full for both.",
			noTarget: "The club has set no target for the weeks of a shape.",
		},
		skill: {
			both: "A drill with two skills counts in full for both.",
			noTarget: "The club has set no target for the weeks of a skill.",
		},
	},
	target: (target: string) => `The club's target: ${target}.`,
	targetOfEach: (target: string) =>
		`A gap is marked where no level at all meets it for longer than the target. The club's target for each level: ${target}.`,
	atLeast: (weeks: number) => `at least ${counts.weeks(weeks)}`,
	atMost: (weeks: number) => `at most ${counts.weeks(weeks)} from one to the next`,
};

export const weekPage = {
	besides: "Weeks before and after",
	byApparatus: "By area and apparatus",
	minutes: "Minutes of each class",
	minutesTable: "Planned and available minutes by class",
	everyWeek: "Every week",
	clashes: "Classes that need the same equipment",
	directionsDescription:
		"Minutes on each area and apparatus. The table beside this picture has the same numbers.",
	writtenIn: <T>(file: T): Sentence<T> => ["Written in ", file, "."],
};

export const weekApparatus = {
	neededOwned: "Needed against owned",
	neededOwnedTable: "Equipment needed and owned",
	addedUp: <T>(measure: T): Sentence<T> => [
		"Stations add up, blocks follow each other and the largest wins. ",
		measure,
		" has every week.",
	],
	blocks: (minutes: number) => `Blocks, ${min(minutes)}`,
	noBlock: "No block is planned here.",
	elsewhere: "Elsewhere this week",
	allDrills: (apparatus: string) => `All drills on ${apparatus}`,
};

export const suggestions = {
	title: "What would close gaps",
	ofWeek:
		"For each level and apparatus the fewest drills of the library that train what is due and not met this week, within the free minutes and in order. The free minutes of a level are the same ones on every apparatus: choose among these.",
	here: "The fewest drills of the library that train here what is due and not met this week, within the free minutes and in order.",
	summary: (gaps: number, closed: number) => {
		const can = closed === 0 ? "none" : closed === gaps ? "all" : String(closed);
		const words = gaps === 1 ? (closed === 1 ? "can be closed" : "stays open") : `${can} can be closed`;
		return `${counts.gaps(gaps)}: ${words}`;
	},
	noMinutes: "No class of this level says its minutes.",
	free: (minutes: number) => `${counts.minutes(minutes)} free in its fullest class.`,
	cutShort: "The search was cut short: a smaller choice may exist.",
	closes: (minutes: number) => `about ${min(minutes)}; closes`,
	staysOpen: "Stays open",
	swaps: "Another drill in place of one may do it without more minutes. This looks for the fewest:",
	found: "For the whole term these are the fewest changes that were found; in this week:",
	because: {
		untrained: "not met all term",
		"too few weeks": "met in too few weeks",
		"too long a gap": "within too long a gap",
		unmatched: "missing here this week",
	},
	reasons: {
		"no drill": "no further drill of the library trains it here",
		order: "its drills would come before what they are built on",
		minutes: "its drills do not fit into the free minutes",
	},
	work: {
		forward: "Forward work",
		backward: "Backward work",
		sideways: "Sideways work",
		none: "Work without a direction",
	} satisfies Record<Direction, string>,
};

export const guides = {
	besides: "Guides before and after",
	none: "No guide is written yet.",
	author: "Every field and every problem code, for those who write the handbook.",
};

export const about = {
	title: "Safety and about this handbook",
	caution: "The usual caution",
	first:
		"Coaching gymnastics needs qualified supervision, matting and spotting suited to the gymnast. Local codes, the governing body's rules and licensed practice come first, before anything written here.",
	rules: [
		"Teach only what your licence and your training cover, and spot only what you have been trained to spot.",
		"Check apparatus, fixings and mats before each class, and again after each change.",
		"A gymnast who is tired, unwell, hurt or frightened does the easier version, or rests.",
		"One gymnast on a landing area at a time; waiting gymnasts stand clear.",
	],
	computed:
		"Computed loads count planned landings and hand contacts. Computed heights come from tables of average growth. Both are planning aids, not medical measures, and say nothing about any one child.",
	reports: "What coaches report",
	reportsKept: [
		"“How it went” at the end of a class sheet stays on the coach's own device until the coach sends it; “Delete” there removes it, and so does clearing the browser's data for this site.",
		"It has no field for a person. What is written in its lines goes to the director as it was typed: no names, no injuries, nothing about one child.",
		"The director keeps what was sent in the club's own folder, and may delete it at any time: the files under _data/taught, what undo keeps of them under .handbook/changes, the director's own build, the messages they came in, and earlier versions where the folder is under version control.",
	],
	sums: {
		title: "What was taught, in sums",
		question: "How many can do what, and where do minutes go?",
	},
	reportsNotHere: "This site, its printed sheets and its data files hold none of it.",
	reportsSums: <T>(page: T): Sentence<T> => [
		"The club publishes sums of it, and nothing else: ",
		page,
		". They are of the whole club and term, none below five, rounded down to fives; nothing is shown of a class, a week, a coach or a drill, and no line that somebody wrote.",
	],
	handbook: "This handbook",
	curriculum: (club: string) =>
		`This is the curriculum of ${club}: one source for the site, the printed binder and the class sheets. No personal data of gymnasts is kept in it.`,
	edition: <T>(edition: T, findings: T): Sentence<T> => [
		"Edition ",
		edition,
		". The plan has ",
		findings,
		" against the club's targets.",
	],
	corrections: <T>(contact: T): Sentence<T> => ["Corrections are welcome at ", contact, "."],
	madeWith: (program: string) => `Made with ${program}.`,
	licences: "Licences of the typeface and the programs that this site carries",
	kept: "After the first visit the whole handbook opens without a network, in a browser with JavaScript.",
};

export const notFound = {
	page: "Page not found",
	title: "Nothing stands here",
	lead: "The page may have been renamed since the link was made.",
	drills: "All drills",
};

export const search = {
	label: "Shape, skill, level, apparatus, equipment or any words",
	suggestions: "Suggestions",
	share: "Share this list",
	chosen: "Chosen filters",
	pages: "Pages that are no drill",
	show: "Show the drills",
	filters: "Filters",
	found: "Drills found",
	more: "Show more",
	noScript: "Searching as you type needs JavaScript. Every list below works without it.",
	lists: "All lists of drills",
	all: (drills: number) => `All ${counts.drills(drills)}`,
	by: {
		level: "By level",
		apparatus: "By area and apparatus",
		shape: "By shape",
		skill: "By skill",
		equipment: "By equipment",
		week: "By week",
	},
};

/** What the search says while it works. */
export const searching = {
	facets: {
		shape: "Shape",
		level: "Level",
		apparatus: "Area or apparatus",
		skill: "Skill",
		direction: "Direction",
		week: "Week",
		equipment: "Equipment",
		minutes: "Planned minutes",
	},
	drills: (count: number) => (count === 0 ? "No drill" : counts.drills(count)),
	near: (count: number) => (count === 1 ? "1 more that comes near" : `${count} more that come near`),
	nearOnly: (count: number) => `No drill has all of it; ${count === 1 ? "1 comes" : `${count} come`} near`,
	lacks: (parts: readonly string[]) => `${parts.map(quoted).join(", ")} not found`,
	/** In front of what a fault looks like, and of what to say then. */
	see: "See:",
	say: "Say:",
	/** On the key that folds the filters away. */
	show: (count: number) => (count === 0 ? "Show that there is no drill" : `Show ${counts.drills(count)}`),
	allNeed: "Every drill that fits the rest needs some equipment.",
	/** A filter that was read from the words. */
	without: (names: string) => `Without ${names}`,
	asText: (facet: string, value: string, typed: string) =>
		`${facet}: ${value}, read from your words. Look for ${quoted(typed)} as a word instead`,
	/** Kinds of pages that are found beside drills, where no filter has their name. */
	kinds: { class: "Class", guide: "Guide", emergency: "Emergency" },
	/** What somebody types whom the page for an emergency should meet. */
	whenHurt: "hurt injured injury accident bleeding unconscious concussion fall first aid ambulance",
	read: (typed: string, used: string) => `${quoted(typed)} was read as ${quoted(used)}.`,
	unknown: (part: string) => `Nothing found for ${quoted(part)}.`,
	filters: (chosen: number) => (chosen === 0 ? "Filters" : `Filters (${chosen})`),
	remove: (facet: string, value: string) => `Remove ${facet}: ${value}`,
	removeAll: "Remove all",
	like: "Like",
	failed: "The search could not be loaded. The lists below work without it.",
	copied: "Link copied",
	share: "Share this list",
	more: (count: number) => `Show ${count} more`,
};

/** What is said about keeping the handbook on the device. */
export const keeping = {
	/** Behind the subject of a letter. */
	inEdition: (edition: string) => `(edition ${edition})`,
	ready: "A new edition is ready.",
	change: "Change to it",
	later: "Later",
	other: "This page is from the edition before.",
	again: "Open it again",
	taking: (done: number, of: number) => `Being kept on this device: ${done} of ${of} parts.`,
	kept: (edition: string) => `Edition ${edition} is kept on this device and opens without a network.`,
	pictures: (missing: number) =>
		missing === 1 ? "One picture is still missing." : `${missing} pictures are still missing.`,
	waiting: "A newer edition is here as well; it is taken when you change to it.",
	failed: (why: string) =>
		`This edition could not be kept on the device: ${why}. It is tried again with the next page.`,
	insecure: "Browsers keep a handbook only from an address that begins with https.",
	unable: "This browser cannot keep the handbook on the device.",
	preview: "This is a preview: nothing is kept on the device.",
	/** In the log of the browser. */
	notKept: "The handbook is not kept on this device:",
	/** In place of a page that cannot be had. */
	notHere: "This is not kept on this device. It opens when there is a network.",
};

/** Values of the search's filters that are not the club's own; other names are found as well. */
export const filterValues = {
	minutes: { short: "Under 5 minutes", medium: "5 to 10 minutes", long: "Over 10 minutes" },
	noEquipment: {
		name: "No equipment",
		aliases: ["without equipment", "no kit", "without kit", "no gear", "no props", "nothing to set out"],
	},
	directions: {
		forward: { name: "Forward", aliases: ["forwards"] },
		backward: { name: "Backward", aliases: ["backwards"] },
		sideways: { name: "Sideways", aliases: ["sideward"] },
		none: { name: "No direction", aliases: [] },
	} satisfies Record<Direction, { readonly name: string; readonly aliases: readonly string[] }>,
};

/** The printed sheets, as links on the pages where each is wanted. */
export const prints = {
	label: "To print",
	note: "PDF files, fetched over the network",
	termOverview: "The term on one page",
	/** @param size in megabytes */
	binder: (pages: number, size: number) => `The coaching binder, ${counts.pages(pages)}, ${number(size)} MB`,
	packet: "The week's packet",
	packetOf: (week: number) => `Packet of week ${week}`,
	classSheet: "This sheet on one leaf",
	storeRoom: "Store-room list",
	storeRoomOf: (week: number) => `Store-room list of week ${week}`,
	labels: "Equipment labels",
	checkSheet: "Blank skill check sheet",
	cardsByTwo: "Station cards, two to a sheet",
	cardsByFour: "four to a sheet",
	floorPlans: "Floor plans",
};

// Printed sheets ------------------------------------------------------------------------------------

/** What stands before a page's number, in its foot and in references: as short as can be told apart. */
export const pageLabels = {
	cover: "Cover",
	contents: "Contents",
	added: "N",
	guides: "G",
	drills: "D",
	shapes: "S",
	skills: "K",
	coverage: "C",
	equipment: "E",
	index: "X",
	week: (week: number) => `W${week}`,
	// Of the single sheets, in what shows the file.
	inWeek: (name: string, week: number) => `${name} W${week}`,
	check: (level: string) => `Check ${level}`,
	plan: (apparatus: string, week: number) => `${apparatus} plan W${week}`,
	storeRoom: (week: number) => `Store room W${week}`,
	labels: (week: number) => `Labels W${week}`,
	term: "Term",
};

/** What several sheets say. */
export const sheets = {
	/** Before what must be seen of a skill. */
	seenOf: (skill: string) => `${skill}, to be seen:`,
	weekAndTheme: (week: number, theme: string) => `Week ${week}: ${theme}`,
	/** Between two days as they are written. */
	span: (from: string, to: string) => `${from} to ${to}`,
	onDay: (day: string) => day,
	/** After the name of a day, with its number in the month. */
	dayOfMonth: (day: string, number: number) => `${day} ${number}`,
	emergency: "In an emergency.",
	withheld:
		"This page is not printed: what keeps people safe on it could not be found on paper. Coach from the drill's page on the site.",
	rotation: "Rotation",
	blocksAndMinutes: (blocks: number, minutes: number) => `${counts.blocks(blocks)}, ${min(minutes)}`,
	toChange: (minutes: number) => `${min(minutes)} to change`,
	nothingWritten: "Nothing of its own is written for this drill: matting and spotting suited to the gymnast.",
	/** Before the sign that two print-outs of the same content share. */
	mark: "mark",
	code: "Code to scan: this page on the club's site",
	dividers: "dividers",
	pocketOf: (classes: readonly string[]) => `Pocket edition: ${and(classes)}`,
};

/** The binder's own pages: cover, how to use it, contents, guides, index. */
export const binder = {
	volumes: { binder: "Coaching binder", library: "Drill library", director: "Director's volume" },
	dates: (weeks: number, from: string, to: string) => `${counts.weeks(weeks)}, ${from} to ${to}`,
	edition: (name: string) => `Edition ${name}`,
	use: "How to use this binder",
	useLead:
		"Take out the week you teach, with the drill cards it names. Everything on paper is also on the club's site; where the two differ, the edition with the larger number is right.",
	finding: "Finding a page",
	findingHow:
		"Pages are numbered within their section, so that a changed section can be replaced without the rest. The number stands at the outer foot of every page, the section at the tab.",
	parts: {
		guides: "guides and levels",
		week: (week: number) => `week ${week}: what it trains, its classes, then one apparatus after the other`,
		drills: "the drill cards, apparatus by apparatus",
		things: "shapes and skills, with the drills that train them",
		tables:
			"what the term covers and each class reaches; findings; equipment to set up, and where it is kept",
		index: "the index",
	},
	inHall: "In the hall",
	inHallHow: [
		"Open the week at your apparatus. The box at the top lists what to set up.",
		"Read the blocks from top to bottom: minutes at the left, then the stations of the block, each with the way every level does it, what to say, and how to keep it safe.",
		"Turn to the drill card for the faults to look for, and for what comes before and after.",
	],
	changing: "Changing a section",
	changingHow:
		"Pages whose number starts the same fill whole leaves of their own. Take them out, put the new ones in, and compare the number of the edition at the foot: the larger one is newer. A side that is left blank says so.",
	blank: "This side is left blank, so that these pages can be replaced on their own.",
	safety: "Safety.",
	caution:
		"Coaching gymnastics needs qualified supervision, and matting and spotting suited to the gymnast. Local codes, the governing body's rules and licensed practice come first, before anything printed here. Computed loads and heights are planning aids, not medical advice.",
	cautionInFront: "the usual caution at the front",
	corrections: (contact: string | undefined, site: string | undefined) =>
		`${and([
			...(contact === undefined ? [] : [`Corrections to ${contact}`]),
			...(site === undefined ? [] : [`site: ${site}`]),
		])}.`,
	contents: "Contents",
	guidesAndLevels: "Guides and levels",
	arriveWith: "Gymnasts arrive with",
	shapesLead: "The positions that everything is built from, and the drills that train each",
	skillsLead: "What the drills lead to, what each needs first, and the drills that train it",
	needs: "Needs",
	otherWay: "The other way",
	noDrill: "No drill yet.",
	index: "Index",
	indexLead: "Drills, shapes, skills and equipment, by all their names",
	added: "Added drills",
	addedLead:
		"Drills that came to the library after these lists were made, with their pages. Everything else, and the index, is as it was.",
};

export const weekSheet = {
	/** A week among those of the term, with its dates where they are known. */
	of: (week: number, weeks: number) => `Week ${week} of ${weeks}`,
	focus: "Focus",
	page: "Page",
	shapes: "Shapes this week",
	skills: "Skills this week",
	classes: "Classes this week",
	minutesPlanned: "Minutes planned",
	minutesOf: (planned: number, available: number | undefined) =>
		available === undefined ? number(planned) : `${number(planned)} of ${number(available)}`,
	setUp: "Set up before class",
	inAll: (blocks: number, minutes: number) => `${counts.blocks(blocks)}, ${counts.minutes(minutes)} in all.`,
	together: "Together",
};

export const drillCards = {
	title: "Drill cards",
	on: (apparatus: string) => `${apparatus} drills`,
	drill: "Drill",
	card: "Card",
	elsewhere: "Also done here, with their card elsewhere",
	sides: { each: "on each side", lead: "on the favoured side" },
	alsoOn: (apparatus: readonly string[]) => `also on ${apparatus.join(", ")}`,
	after: "After",
	andThen: "Then",
	seeAndSay: "See and say",
	setUp: "Set-up",
	height: <T>(what: string, height: T): Sentence<T> => [`${what}: `, height],
	turn: (seconds: number, atOnce: number) =>
		`a turn takes about ${number(seconds)} s${atOnce > 1 ? `, ${counts.gymnasts(atOnce)} at once` : ""}`,
	reviewed: (date: string) => `Reviewed ${date}.`,
	code: "Code to scan: this drill on the club's site",
	onSite: "On the site:",
	videoOnSite: "Video on the site:",
};

/** The tables at the end of the binder. */
export const binderTables = {
	allLevels: "all levels",
	weeksAnd: {
		shape: (level: string) => `Weeks and shapes: ${level}`,
		skill: (level: string) => `Weeks and skills: ${level}`,
	},
	/** Over a narrow column. */
	weeks: "Weeks",
	reach: { shape: "Shapes by class", skill: "Skills by class" },
	reachLead: {
		shape: "Weeks in which each class meets a shape, and the minutes",
		skill:
			"Weeks in which each class meets a skill; then how often a gymnast does it, or in brackets how often only what prepares it",
	},
	drillsLead: "Different drills in each week, whatever the level; a last column for the weeks that train it",
	minutesLead: "Minutes in each week; a drill that names several counts in full for each",
	owned: "What the club owns",
	heights: "Set-up heights",
	heightsLead:
		"Centimetres from the floor to a landmark of the body, for the ages of each level's classes: smallest to largest",
	weeksLead:
		"What stands ready on each apparatus: stations of a block add up, and of several blocks the largest counts",
	nothing: "Nothing to set up.",
	/** Over a table that goes on overleaf. */
	continued: (title: string) => `${title}, continued`,
};

export const classLeaf = {
	gather: "Gather",
	before:
		"Check the set-up and the matting, count the group, keep those who wait clear of landings. Spot only what you are trained to spot.",
	/** Before the name of an apparatus. */
	setOut: "Set out",
	atEach: (gymnasts: number) => `${counts.gymnasts(gymnasts)} at each`,
	turnsEach: (turns: number) => `About ${counts.turns(turns)} each`,
	turn: (seconds: number, atOnce: number) =>
		`${number(seconds)} s a turn, ${counts.gymnasts(atOnce)} at a time`,
	props: (count: number, item: string) => `${number(count)} ${item}`,
	propsEach: (count: number, item: string) => `${number(count)} ${item} each`,
	/** From the low to the high end, in centimetres, where ages are known. */
	height: (what: string, landmark: Landmark, range: readonly [number, number] | undefined) =>
		`${what} at ${landmarks[landmark]}${range === undefined ? "" : ` (${range[0]}–${range[1]} cm)`}.`,
	putBack: <T>(coolDown: T): Sentence<T> => [coolDown, ", count the group, put everything back."],
	/** At the head of a page that begins in the middle of an apparatus. */
	goesOn: (apparatus: string) => `${apparatus}, continued`,
	leftOut:
		"To fit this leaf, only the first thing to look for is printed for each drill; the rest is on the drill's card.",
};

export const stationCards = {
	title: (apparatus: string, week: number) => `Station cards: ${apparatus}, week ${week}`,
	station: (at: number, of: number) => `station ${at} of ${of}`,
	/** Read aloud for a small plan: metres from its corner. */
	standsAt: (along: number, across: number) =>
		`Stands at ${number(along)} m along and ${number(across)} m across.`,
};

export const planSheet = {
	title: (apparatus: string, week: number) => `Floor plans: ${apparatus}, week ${week}`,
	/** After the name of an apparatus. */
	plans: "floor plans",
	plansOfWeek: (week: number) => `floor plans, week ${week}`,
};

/** The store-room list, and the labels that go with it. */
export const storeRoom = {
	title: (week: number) => `Store room, week ${week}`,
	name: "Store room",
	goesOut: "what goes out",
	lead: 'By where things are kept. Each apparatus has what it needs at most at one time; "all" is every apparatus set out together.',
	short:
		'A number owned in a frame is smaller than "all": those apparatus cannot all stand set out at once, and share the item.',
	elsewhere: "Nobody wrote where these are kept",
	all: "All",
	/** Over a narrow column, as the two beside it. */
	owned: "Owned",
	days: "Days",
	back: "Back",
	classesOn: (day: string, classes: readonly string[]) => `${day}: ${classes.join(", ")}`,
	labels: (week: number) => `Equipment labels, week ${week}`,
	to: <T>(apparatus: T): Sentence<T> => ["to ", apparatus],
	backTo: (place: string) => `back to ${place}`,
};

/** Blank skill check sheets. */
export const checkSheet = {
	title: (level: string) => `Skill check: ${level}`,
	/** After the name of a level. */
	check: "skill check",
	sheetOf: (at: number, of: number) => `sheet ${at} of ${of}`,
	coach: "Coach",
	dates: "Dates",
	name: "Name",
	marks: {
		helped: "with help, or on the lower set-up",
		once: "alone and safely, once",
		twice: "alone and safely, in two classes or more",
		notSeen: "not seen yet: leave it empty",
	},
	mark: "A mark says what was seen on a day, never what a gymnast is.",
	noHealth:
		"First names or initials are enough. Write nothing about health, injuries or the family here; such things go to the person the club has named for them. Keep the sheet where only coaches see it, and destroy it when the club's own rules say so.",
};

/** The term on one page. */
export const termSheet = {
	title: (term: string) => `Term overview: ${term}`,
	closedBetween: (days: readonly string[]) => `Closed ${days.join(", ")}`,
	closedOn: (days: readonly string[]) => `closed ${days.join(", ")}`,
};

// Measures ------------------------------------------------------------------------------------------

/** What each measure asks, means and comes from. Published sources keep their names in every language. */
export const measures = {
	spacing: {
		title: "Spacing",
		question: "Is anything met too seldom, or forgotten for weeks?",
		means: "In how many weeks each level meets a shape or a skill, and how long it waits to meet it again.",
		source:
			"That practice spread over time is kept better than massed practice is well shown (Cepeda et al. 2006, for verbal recall; Lee & Genovese 1988, for movement). No best gap for children's gymnastics has been published, so the targets are the club's own.",
	},
	order: {
		title: "Order",
		question: "Does the easier thing come before the harder one?",
		means:
			"Whether each level first meets what a skill needs, or what a drill comes after, before the thing itself; skills that gymnasts arrive with count as met.",
		source:
			"What needs what is the club's own, from its skills and drills. That the easier comes before the harder is common practice.",
	},
	balance: {
		title: "Balance",
		question: "Is forward work matched by backward work, on both sides, in every movement pattern?",
		means:
			"Minutes forward against minutes backward on each apparatus in each week, how the two sides are treated, and which movement patterns are trained; minutes are added up over the levels.",
		source:
			"That work done forwards is matched by a backward version in the same week is common practice; no published source gives a share. The movement patterns (landing, statics, locomotion, rotation, swing, spring, handling) are after Alberta SPHEReS; six of the seven are attributed to Russell.",
	},
	time: {
		title: "Time",
		question: "Does the plan fit into each class, and how much of it does a gymnast move?",
		means:
			"Warm-up, blocks and cool-down against the minutes of each class, and the share of those minutes in which a gymnast moves rather than waits for a turn.",
		source:
			"Counted from the plan, the size of the class and the turns that drills give; a drill without a turn counts as everyone moving at once. That gymnasts learn by moving is common practice; the share wanted is the club's own.",
	},
	equipment: {
		title: "Equipment",
		question: "Is there enough in the store room, also while two classes share the hall?",
		means:
			"What each apparatus needs in each week: stations stand side by side and add up, blocks follow each other and the largest wins, items for each gymnast count for the largest class. Where they stand too close on a floor plan, or over its edge, is found here as well.",
		source: "Counted from the equipment lists of the drills and from what the club owns.",
	},
	load: {
		title: "Load",
		question: "Do landings and hand contacts step up gently?",
		means:
			"Landings and hand contacts that the plan asks of one gymnast who does everything planned for the level, and the step: this week over the mean of the three teaching weeks before.",
		source:
			"Landings and hand contacts are counted in studies of young gymnasts (wrist pain: DiFiori et al. 1996, 2002). The step wanted is the club's own: bands for such ratios (Gabbett 2016) have been strongly criticised (Impellizzeri et al. 2020), so none is used here.",
	},
	heights: {
		title: "Heights",
		question: "How high is knee, hip or chest height for this class?",
		means:
			"Centimetres at each body landmark for the ages of a class: the medians of girls and boys, and the band from the smaller 5th to the larger 95th percentile.",
		source:
			"CDC growth charts 2000, stature for age (Vital and Health Statistics, series 11, number 246); shares of stature: Drillis & Contini 1966, as in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1.",
	},
};

/** The club's targets as parts of one sentence, each beginning small. */
export const targets = {
	shapeWeeks: (weeks: number) => `each shape in at least ${counts.weeks(weeks)}`,
	shapeGap: (weeks: number) => `at most ${counts.weeks(weeks)} from one week with a shape to the next`,
	skillWeeks: (weeks: number) => `each skill in at least ${counts.weeks(weeks)}`,
	skillGap: (weeks: number) => `at most ${counts.weeks(weeks)} from one week with a skill to the next`,
	order: "nothing before what it is built on",
	pairDirections: "forward work is matched by backward work in the same week",
	time: "planned minutes fit into the class",
	activeShare: (share: number) => `each gymnast moves for at least ${percent(share)} of the class`,
	equipment: "never more needed at the same moment than the club owns",
	loadStep: (step: number) => `a week at most ${number(step, 2)} times the mean of the three before it`,
};

export const measurePage = {
	lead: "What is counted from the plan, and what the club wants of it. Every number opens to the drills it was counted from.",
	allFindings: (findings: number) => `All ${counts.findings(findings)}, weightiest first`,
	noFindings: "No findings",
	targetIs: (target: string) => `Target: ${target}`,
	target: "The club's target",
	noTarget: <T>(howTo: T): Sentence<T> => ["None is set. ", howTo, "."],
	howToSet: "How to set one",
	nothingMisses: "Nothing misses it.",
	finds: "What this measure finds",
	source: "Where this comes from",
	others: "Other measures",
	all: "All measures",
	nothing: <T>(howTo: T): Sentence<T> => [
		"No week is planned yet, so there is nothing to count. ",
		howTo,
		".",
	],
	howToWrite: "How to write a week",
	termQuestion: "What does each week train, at a glance?",
	coverageQuestion: "How many minutes go to each shape, skill and direction?",
	calendar: "Calendar",
	calendarQuestion: "On which dates does each class meet, around what is closed?",
};

export const spacing = {
	missing: "What misses a target",
	note: "Minutes in each week. The same rows are marked in the tables further down.",
	missingTitle: { shape: "Body shapes that miss a target", skill: "Skills that miss a target" },
	missingTable: {
		shape: "Body shapes that miss a target, minutes by week",
		skill: "Skills that miss a target, minutes by week",
	},
	missingDescription: "Minutes in each week, by level. The table beside this picture has the same numbers.",
	none: {
		shape: (level: string) => `No shape is met or wanted at ${level}.`,
		skill: (level: string) => `No skill is met or wanted at ${level}.`,
	},
	met: (met: number, expected: number) =>
		met === expected
			? `All ${expected} that the level should meet are met.`
			: `${met} of ${expected} that the level should meet are met.`,
	metAndMissed: (met: number, expected: number, missed: number, target: string) =>
		`${met === expected ? `All ${expected}` : `${met} of ${expected}`} that the level should meet are met; ${
			missed === 0 ? "none misses" : missed === 1 ? "1 misses" : `${missed} miss`
		} the target (${target}).`,
	levelMet: {
		shape: (met: number, expected: number) =>
			`${met === expected ? `All ${expected}` : `${met} of ${expected}`} shapes that the level should train are met.`,
		skill: (met: number, expected: number) =>
			`${met === expected ? `All ${expected}` : `${met} of ${expected}`} skills that the level should be taught are met.`,
	},
	allMeet: "All meet the target",
	missed: (missed: number) => `${missed === 1 ? "1 misses" : `${missed} miss`} the target`,
	extra: "extra",
	extraNote: "Extra: met, though the level need not.",
	tableOf: {
		shape: (level: string) => `Body shapes at ${level}`,
		skill: (level: string) => `Skills at ${level}`,
	},
	never: "never",
	weekByWeek: (level: string) => `${level} week by week`,
	weeksTable: "Weeks at each level",
	opens: "A week opens to its drills.",
	everything: "Spacing of everything, and the targets",
	everyThing: "Every shape and skill of this level, with its weeks",
	orderOf: "The order in which it meets its skills",
};

export const order = {
	none: "No skill is taught or wanted at this level.",
	checked: (needs: number, wrong: number) =>
		`${counts.needs(needs)} of taught skills held against the plan: ${wrong === 0 ? "all are met first" : `${wrong} come too late`}.`,
	tableOf: (level: string) => `The order of skills at ${level}`,
	first: "First taught",
	builtOn: "Built on",
	notThisTerm: "not this term",
	notTaught: "not taught",
	arrives: "arrives with it",
	tooLate: "too late",
	pictures: "What leads to what",
	note: "From the easy at the top to the hard at the bottom, with the week in which each level is first taught it. A skill's own page shows its neighbours on every apparatus.",
	mapTitle: (apparatus: string) => `Skills on ${apparatus}`,
	mapDescription: "What comes before what. The list under this picture has the same in words.",
};

export const balance = {
	directions: "Forward and backward",
	overAll: "Minutes over all levels.",
	note: "Minutes over all levels. Each apparatus has a scale of its own. A number opens to its drills.",
	pairs: (of: string) => `${of}: backward and forward`,
	tableOf: (apparatus: string) => `${apparatus}: minutes by direction`,
	byDirection: "Minutes by direction",
	sidesNote: "Minutes by how the drills treat the two sides of the body.",
	sidesTable: "Minutes by sides",
	sides: {
		both: "Both together",
		each: "Each in turn",
		lead: "Favoured only",
		unsaid: "Not said",
	},
	patterns: "Movement patterns",
	patternsNote:
		"A drill has the patterns of the skills it leads to; one with two patterns gives its full minutes to both. In brackets the minutes shared out over the patterns, which add up.",
	patternsTable: "Minutes by movement pattern",
	countedFrom: (level: string) => `Counted from, ${level}`,
	unpaired: "Without its counterpart",
	unpairedNote:
		"Drills in one direction that a level does in a week without the same work in the other. A director may want it so; nothing here is a fault by itself.",
	levelInWeeks: (level: string, weeks: readonly number[]) =>
		`${level} in ${weeks.length === 1 ? "week" : "weeks"} ${weeks.join(", ")}`,
	noCounterpart: "No counterpart in the library.",
	counterpart: <T>(drills: T): Sentence<T> => ["Counterpart: ", drills, "."],
};

export const time = {
	none: "No class with a rotation has anything planned yet, so there is nothing to hold against its minutes.",
	moving: "How much each class moves",
	movingNote:
		"Percent of the class's minutes over all planned weeks: the sum of moving minutes over the sum of minutes.",
	target: "target",
	under: "under the target",
	shareTitle: "Share of each class in which a gymnast moves",
	shareDescription: "In percent. The table beside this picture has the same numbers.",
	lineTitle: (group: string) => `${group}: planned and available minutes`,
	lineDescription: "Minutes in each week. The table beside this picture has the same numbers.",
	weekByWeek: (group: string) => `${group}, week by week`,
	byApparatus: "Minutes by area and apparatus",
	byApparatusNote:
		"Minutes of the plan's blocks that count for a level. A class does those on the apparatus of its rotation.",
	apparatusTitle: (level: string) => `${level}: planned minutes by area and apparatus`,
	allMove: "all move",
	someMove: (moving: number, gymnasts: number) => `${moving} of ${gymnasts} move`,
	turnsEach: (turns: number) => `${counts.turns(turns)} each`,
};

export const equipmentMeasure = {
	together: "Classes at the same time",
	nobody: "No two classes with a day, a start and minutes are in the hall at the same time.",
	who: "Who is in the hall at the same time:",
	overlap: (day: string, from: string, to: string) => `${day}, ${from} to ${to}:`,
	enough: "At no moment do they need more together than the club owns.",
	tightest: "Nearest to what is owned",
	tightestNote:
		"The most of an item that one apparatus needs in any week, the scarcest first. The tables below have all items and weeks.",
	chartTitle: "The most that is needed of an item, against what is owned",
	chartDescription: "Pieces. The tables below have all items and weeks.",
	ofOwned: (owned: number) => `of ${number(owned)} owned`,
	neededInWeeks: (apparatus: string) => `${apparatus}: needed in each week`,
	clashTable: "More needed at once than the club owns",
	when: "When",
	at: (day: string, from: string, to: string) => `${day}, ${from} to ${to}`,
	classAt: <T>(needed: number, group: T, place: T): Sentence<T> => [
		`${number(needed)} for `,
		group,
		" at ",
		place,
	],
};

export const load = {
	unknown: (share: number) => `${number(share * 100, 0)} % of the minutes say nothing of contacts`,
	title: "Landings and hand contacts",
	byLevel: "Landings and hand contacts by level",
	note: "For one gymnast who does everything planned for the level. A count for planning, not a medical measure. The step is this week over the mean of the three teaching weeks before.",
	notMedical: "A count for planning, not a medical measure.",
	caution:
		"It counts what is written, not how hard a landing is, how it is done, or how a gymnast is. No number and no step here is called safe or unsafe.",
	kinds: { landings: "Landings", hands: "Hand contacts" },
	chartTitle: {
		landings: (level: string) => `${level}: landings by week`,
		hands: (level: string) => `${level}: hand contacts by week`,
	},
	chartDescription:
		"With the step over the mean of the three weeks before. The table below has the same numbers.",
	timesBefore: (step: number) => `${number(step, 2)} × before`,
	tableOf: (level: string) => `${level}: landings and hand contacts by week`,
};

/** Landmarks as heads of columns. */
export const heights = {
	approximate: "For children every figure is approximate.",
	byClass: "By class",
	note: "In cm, from the 5th percentile of the youngest to the 95th of the oldest; bare feet, standing tall.",
	classTable: "Heights by class, in centimetres",
	/** What share of stature a landmark has, and who measured it. */
	share: (share: number, landmark: Landmark) =>
		`${share === 1 ? "Stature" : `Stature × ${number(share, 3)}`}; ${landmarkSources[landmark]}.`,
	medianGirls: "median, girls",
	medianBoys: "median, boys",
	age: (years: number) => `Age ${years}`,
	chartTitle: (landmark: string) => `${landmark} by age, in cm`,
	chartDescription:
		"From the 5th to the 95th percentile. The table beside this picture has the same numbers.",
	ageTable: (landmark: string) => `${landmark} by age, in centimetres`,
	ageHeads: ["Age", "5th percentile", "Median, girls", "Median, boys", "95th percentile"],
	usedBy: (drills: number) => `Used by ${counts.drills(drills)}`,
};

/** The sheet in front of an update: which leaves of a binder to change. */
export const update = {
	label: "Update",
	title: "Leaves to change",
	nothing: "nothing",
	first: "in front of everything",
	behind: (page: string) => `behind ${page}`,
	from: (edition: string) => `For a binder that is at: ${edition}`,
	leaves: (out: number, into: number) => `Take out ${counts.leaves(out)}, put in ${counts.leaves(into)}.`,
	to: (edition: string) => `The binder is then at: ${edition}.`,
	steps: [
		"Print this file on both sides of the paper, turned over the long edge, at full size. Punch the leaves.",
		"Go down the list: take the old leaves out of the binder, put the new ones in their place.",
		"Tick each line. Throw the old leaves away, so that nobody teaches from them; keep this sheet in front.",
	],
	bars: "A bar in the outer margin stands beside everything that is new, a short one across where something was taken away. Leaves that only moved carry none. A leaf's edition is at its foot: leaves that stay in the binder keep the one they have.",
	done: "Done",
	section: "Section",
	takeOut: "Take out",
	putIn: "Put in",
	look: "The look of the pages has changed since that edition. Leaves that say the same as before stay, and look as they did.",
};

// What changed --------------------------------------------------------------------------------------

export const whatChanged = {
	title: "What changed",
	link: "What changed since the last edition",
	since: (term: string, edition: string | undefined) =>
		edition === undefined ? `Since ${term}.` : `Since ${term}, edition ${edition}.`,
	nothing: "Drills and plans are the same.",
	club: "Emergency and the club",
	term: "Dates of the term",
	added: "New",
	renamed: "Another name",
	/** From the first to the last of weeks side by side. */
	movedWeeks: ([from, last]: readonly [number, number], [to, lastTo]: readonly [number, number]) =>
		from === last
			? `Week ${from} is now week ${to}`
			: `Weeks ${from} to ${last} are now weeks ${to} to ${lastTo}`,
	changed: "Changed",
	removed: "No longer there",
	others: "Also changed",
	come: "Newly found",
	gone: "No longer found",
	numbers: "What that did",
	largestFirst: "The largest steps first.",
	more: (numbers: number) => `${numbers} smaller ones are in the data files.`,
	measure: "Number",
	about: "Of what",
	before: "Before",
	after: "Now",
	differences: (count: number) => (count === 1 ? "1 difference" : `${count} differences`),
	kinds: {
		drill: "Drills",
		week: "Weeks",
		level: "Levels",
		apparatus: "Apparatus",
		shape: "Shapes",
		skill: "Skills",
		equipment: "Equipment",
		class: "Classes",
		guide: "Guides",
	} satisfies Record<RecordedKind, string>,
	/** Fields of a drill that coaches call otherwise than the desk. */
	drillFields: { levels: "What each level does", body: "How it goes" } as Readonly<Record<string, string>>,
	/** In the order in which they are told. */
	clubFields: {
		emergency: "In an emergency",
		place: "Where classes are held",
		contact: "Contact for corrections",
		name: "Name of the club",
		timezone: "Time zone",
		site: "Address of the site",
		language: "Language",
		paper: "Paper",
		punch: "Punched holes",
	} as Readonly<Record<string, string>>,
	termFields: {
		name: "Term",
		starts: "Starts",
		weeks: "Weeks",
		closed: "Closed",
	} as Readonly<Record<string, string>>,
	classFields: {
		closed: "Cancelled",
		place: "Where",
		name: "Name",
		day: "Day",
		start: "Start",
		minutes: "Minutes",
		levels: "Levels",
		rotation: "Order of apparatus",
		coaches: "Coaches",
		gymnasts: "Gymnasts",
		ages: "Ages",
		warmUp: "Warm-up, minutes",
		coolDown: "Cool-down, minutes",
		between: "From one apparatus to the next, minutes",
		groups: "Groups at the same time",
		sameAs: "The same gymnasts on another day",
	} as Readonly<Record<string, string>>,
	weekFields: {
		theme: "Theme",
		focus: "focus",
		blocks: "blocks",
		apparatus: "Apparatus",
		body: "The director's note",
	} as Readonly<Record<string, string>>,
	blockKinds: { drill: "together", stations: "in stations", options: "one of several" },
	blockFields: {
		minutes: "minutes",
		change: "time for each change",
		show: "minutes for showing",
		choose: "how many are chosen",
		sessions: "meetings of the week",
		dose: "this week's dose",
		doses: "dose of each level",
		levels: "levels",
		note: "note",
		stations: "stations",
		kind: "together or in stations",
	} as Readonly<Record<string, string>>,
	tables: {
		"coverage-shapes": "Shapes",
		"coverage-skills": "Skills",
		"coverage-directions": "Directions",
		time: "Time",
		equipment: "Equipment",
		load: "Load",
	} as Readonly<Record<string, string>>,
	columns: {
		drills: "drills",
		minutes: "minutes",
		share: "shared minutes",
		repetitions: "repetitions",
		planned: "planned minutes",
		available: "minutes of the class",
		"active-share": "time in motion",
		needed: "needed",
		owned: "owned",
		landings: "landings",
		hands: "hand contacts",
		"planned-landings": "planned landings",
		"planned-hands": "planned hand contacts",
		"unknown-share": "minutes of which nobody says who moves",
		"new-drills": "new drills",
		"landings-step": "step of landings",
		"hands-step": "step of hand contacts",
	} as Readonly<Record<string, string>>,
};

// Pictures ------------------------------------------------------------------------------------------

const HELPER_AT: Readonly<Record<Helper["from"], string>> = {
	side: "at the side",
	front: "in front",
	back: "behind",
};
const HELP_PLACES: Readonly<Record<HelpPlace, string>> = {
	head: "the back of the head",
	shoulder: "the shoulder",
	"upper-arm": "the upper arm",
	forearm: "the forearm",
	hand: "the hand",
	chest: "the chest",
	stomach: "the stomach",
	"upper-back": "the upper back",
	"low-back": "the low back",
	waist: "the waist",
	hip: "the hip",
	seat: "the seat",
	thigh: "the thigh",
	"back-of-thigh": "the back of the thigh",
	knee: "the knee",
	shin: "the shin",
	foot: "the foot",
};

/** What a figure stands on, and where it goes. */
export const figures = {
	move: "Move",
	stop: "Stop",
	afterThat: "then",
	marks: { right: "right", wrong: "wrong" },
	on: {
		floor: "on the floor",
		mat: "on a mat",
		"soft-mat": "on a soft mat",
		wedge: "on a wedge",
		block: "on a block",
		box: "on a box",
		board: "on a springboard",
		beam: "on the beam",
		bar: "on the bar",
		rails: "on parallettes",
		wall: "on the floor at a wall",
		barrel: "at a barrel",
		octagon: "at an octagon roller",
		"floor-bar": "on a floor bar",
		table: "on a vault table",
	} satisfies Record<Ground, string>,
	/** After what carries the feet. */
	/** Who helps a figure. */
	helper: ({ from, stance, hands }: Pick<Helper, "from" | "stance" | "hands">) =>
		`A helper ${stance === "kneel" ? "kneels" : "stands"} ${HELPER_AT[from]}, hands at ${hands.map((place) => HELP_PLACES[place]).join(" and ")}.`,
	handsOn: (ground: string) => `hands ${ground}`,
	inAir: {
		floor: "in the air over the floor",
		mat: "in the air over a mat",
		"soft-mat": "in the air over a soft mat",
		wedge: "in the air over a wedge",
		block: "in the air over a block",
		box: "in the air over a box",
		board: "in the air over a springboard",
		beam: "in the air over the beam",
		bar: "in the air over the bar",
		rails: "in the air over parallettes",
		wall: "in the air over the floor at a wall",
		barrel: "in the air at a barrel",
		octagon: "in the air at an octagon roller",
		"floor-bar": "in the air over a floor bar",
		table: "in the air over a vault table",
	} satisfies Record<Ground, string>,
	/** The line under a strip of figures. */
	caption: (direction: string, shapes: string) => `${direction}: ${shapes}`,
	/** What a figure looks like, after its name and where it is. */
	look: (figure: string, description: string) => `${figure}: ${description}`,
	travels: {
		forward: "The body travels forward.",
		backward: "The body travels backward.",
		sideways: "The body travels sideways.",
	},
};

export const charts = {
	picture: (title: string) => `${title}, picture`,
	inWords: "The same in words",
	none: "none",
	// The matrix of a term.
	corner: "Week",
	gap: (weeks: number) => `${weeks} wk gap`,
	shortGap: (weeks: number) => `${weeks} wk`,
	shortestGap: (weeks: number) => `${weeks}w`,
	gapInFull: (weeks: number, from: string, to: string) => `gap of ${weeks} weeks, from ${from} to ${to}`,
	gapKey: (most: number) => `gap of more than ${counts.weeks(most)}`,
	never: "in no week",
	noneKey: "none",
	step: (upTo: string) => `to ${upTo}`,
	// The line of a class's minutes.
	weeks: "Week",
	difference: "+ / −",
	planned: "planned",
	available: "available",
	over: "more than there is",
	inFull: (planned: string, available: string | undefined) =>
		available === undefined ? `${planned} planned` : `${planned} planned of ${available}`,
	/** Bars from a low to a high number. */
	range: (low: string, high: string, unit: string) => `${low} to ${high} ${unit}`,
	// The map of what leads to what.
	week: (week: number) => `wk ${week}`,
	taught: ({ level, week }: { readonly level: string; readonly week: number }) => `${level} wk ${week}`,
	taughtInFull: ({ level, week }: { readonly level: string; readonly week: number }) =>
		`${level} from week ${week}`,
	notTaught: "not this term",
	more: (count: number) => `needs ${count} more`,
	moreInFull: (count: number) => `needs ${count} more ${count === 1 ? "skill" : "skills"} not shown here`,
	needs: (names: readonly string[]) => `needs ${and(names)}`,
	leadsTo: (names: readonly string[]) => `leads to ${and(names)}`,
	arrow: "first, then",
	redundant: "also directly",
};

const planSides: Readonly<Record<Side, string>> = {
	start: "where the length begins",
	end: "where the length ends",
	left: "where the width begins",
	right: "where the width ends",
};

export const floorPlan = {
	title: (place: string) => `Floor plan: ${place}`,
	landing: "hatched: landing area",
	free: (metres: number) => `dotted: ${number(metres)} m that should stay free around it`,
	arrows: "arrows: rotation",
	run: "thin arrow: run",
	runOut: "broken arrow: room after it",
	queue: "dots: who waits",
	beyond: "hatched beyond the edge: keep clear there too",
	coaches: (group: string, places: readonly string[]) =>
		`squares: coaches of ${group} (${places.join("; ")})`,
	coach: (coach: number, does: "spots" | "watches" | "walks", stations: readonly number[]) =>
		`${coach} ${does === "spots" ? "spots at" : does === "watches" ? "watches" : "walks between"} ${and(stations.map(String))}`,
	walls: "thick line: wall",
	landmarks: "flag: landmark",
	noWay: (pairs: readonly string[]) => `no free way from ${and(pairs)}`,
	fromTo: (from: string, to: string) => `${from} to ${to}`,
	plans: "Floor plans are drawn to scale.",
	placed: "Stations without a written place are placed where there is room.",
	published: (items: string, source: string) => `Size of ${items}: ${source}.`,
	common: (metres: number) =>
		`Other sizes, and the free space (${number(metres)} m between stations), are common practice; local codes and the makers' instructions come first.`,
	/** Read aloud for the drawing. */
	drawing: {
		/** Beside a wall. */
		wallWord: "wall",
		/** On what should stay free beyond the plan. */
		keepClear: "keep clear",
		queue: (label: string, count: string) => `${count} wait at ${label}.`,
		walls: (sides: readonly Side[]) => `A wall stands ${and(sides.map((side) => planSides[side]))}.`,
		landmark: (name: string, x: string, y: string) => `${name} at ${x}, ${y} m`,
		landmarks: (named: readonly string[]) => `Landmarks: ${named.join("; ")}.`,
		noWay: (from: string, to: string) => `There is no free way from ${from} to ${to}.`,
		size: (length: string, width: string) => `Floor plan, ${length} by ${width} m, drawn to scale.`,
		open: "Nobody gave the size of this place; the plan is as large as its stations need.",
		station: (label: string, name: string, x: string, y: string, long: string, wide: string) =>
			`${label}: ${name}, with its middle at ${x}, ${y} m, ${long} by ${wide} m.`,
		rotation: (labels: readonly string[]) =>
			`Groups move from ${labels.join(" to ")}, and back to the first.`,
		overlap: (a: string, b: string) => `${a} and ${b} overlap.`,
		gap: (a: string, b: string, gap: string) => `Only ${gap} m between ${a} and ${b}.`,
		landing: (a: string, b: string, gap: string) =>
			`Only ${gap} m between the landing area of ${a} and ${b}.`,
		wall: (a: string, away: string) => `${a} needs a wall and stands ${away} m from the edge.`,
		edge: (a: string, over: string) => `${a} stands ${over} m over the edge.`,
		metres: "m",
	},
};

export const authorGuide = {
	lead: "How to write for this handbook: every file, every field, every message.",
	folder: <T>(at: {
		readonly content: T;
		readonly data: T;
		readonly required: T;
		readonly link: T;
		readonly named: T;
	}): Sentence<T> => [
		"A club folder holds ",
		at.content,
		" and ",
		at.data,
		". Only the fields marked ",
		at.required,
		" are needed: ten drills with a title, an apparatus and levels make a handbook, and each further field switches on what it feeds. Ids are lower-case words joined by hyphens, and a file's name is its id. Text may hold inline Markdown, and ",
		at.link,
		" or ",
		at.named,
		" links to anything that has an id.",
	],
	/** Stands for a link's own words. */
	wordsInLink: "words",
	required: "required",
	parts: "Parts of this guide",
	messages: "Messages",
	aboutMessages:
		"Each message has a code that never changes its meaning. It names the file, the line and the column, what is wrong, why it matters and what to do.",
	whatToDo: "What to do.",
	firstDrill: "A first drill",
	saveAs: <T>(file: T): Sentence<T> => ["Save this as ", file, ":"],
	example: `---
title: Log roll
apparatus: floor
levels: [beginners]
shapes: [straight]
cues: [Long and tight, "Roll hips and shoulders together"]
caution: One gymnast on the mat at a time.
---
Lie long with the arms overhead, and roll sideways like a log.`,
	/** What a director does in the terminal. Backquotes stand around code. */
	commands: {
		title: "Commands",
		lead: "Type these in the folder of this program. `--club` and a folder after it works on another club's folder; `--help` after any command lists its choices. `rename`, `move`, `import` and `next-term` first show what they would do, and do it only with `--write`. `new` writes at once, and never over a file that is there.",
		uses: {
			new: {
				title: "Begin something new",
				what: "Writes a drill, a week, a guide, a skill or a whole club folder with the fields that matter and comments that teach. In a terminal it asks for what you did not say. `new host` writes what puts the handbook online.",
			},
			editor: {
				title: "Have ids completed while you type",
				what: "Writes a `.vscode` folder with what your club has: `new club` writes it as well, and `build` and `serve` keep it up to date. In Visual Studio Code, with nothing to install, drills, skills, classes and all else come up in Markdown files and data files, by name or by id. With its YAML extension, fields are completed and checked in data files too; that extension does not look into Markdown. An editor that can be told to use `yaml-language-server` for Markdown completes fields and ids in the front matter; switch `yaml.validate` off there, since the server takes the text below for YAML. Tried with Visual Studio Code 1.100 and with the server itself, version 1.25; other editors were not.",
			},
			import: {
				title: "Bring in a spreadsheet",
				what: "Reads workbooks, CSV, text with tabs and HTML tables as clubs keep them: lists, or plans drawn as grids with weeks one way and areas the other, a sheet a week, a level or an area. Lists what it would make and what is unclear, by sheet, row and column. With `--write` it writes the new files; a file that is there already is kept as it is. With `--update` what the sheet says otherwise is taken field by field, where only the sheet changed since the last `import` or `export`; what changed on both sides is shown. A row that is gone is told and stays; `--remove` takes it out of the folder too, unless something still names it. `--map-out` writes a mapping file to fill in. A mapping file says what your own headings and words stand for; `skip` leaves a column out.",
			},
			check: {
				title: "Ask what is wrong",
				what: "Names every mistake with its file and line, what to do about it, and what the plan misses. One line when all is well.",
			},
			serve: {
				title: "See the handbook while you write",
				what: "Shows the site on this computer, at `http://localhost:8080`. A saved change is on the page at once, a mistake stands on the page until it is mended, each page names the file it is written in, and the printed sheets can be looked at without printing. It also prints the address of the desk, where you plan on a board and write in forms, on this computer alone; `--read-only` makes it one to show.",
			},
			whatIf: {
				title: "Ask what a change would do",
				what: "Takes a list of changes and tells how findings and counts would differ. The plan itself stays as it is. The changes are made in order, and a block is named by its week, apparatus and number.",
			},
			mend: {
				title: "Mend the plan",
				what: "Looks for the fewest changes that take findings away and bring no worse ones, and proves that there are none fewer. It swaps drills; where that helps it also lengthens or shortens blocks, moves them, lets two blocks or two whole weeks trade places, splits stations into two blocks, and adds a block where there is time. Nobody meets a drill before what it asks for, and minutes, coaches, equipment, heights and room hold, or are no worse than they are. `keep: true` on a block or a week leaves it as it is. The result is a change list: `--list` writes it into a file for `check --what-if`, `--write` makes the changes. `--class` and `--level` narrow what may change, `--plans 3` offers three that differ, and Ctrl-C takes the best so far. A gap is closed by teaching between, never by teaching less.",
			},
			plan: {
				title: "Plan empty weeks",
				what: "Chooses drills for weeks of the term that have no file yet, one after the other: the blocks are those of the nearest planned week, the drills come from the library under the same rules. Another `--seed` gives another plan. A week that has a file is never touched; `--write` writes the new files.",
			},
			apply: {
				title: "Make the changes of a list",
				what: "Makes what a change list says, in order, once `check --what-if` has told it. Beside changes of blocks a list can `replace: {drill: kick, with: kick-wall, weeks: 4-6}`, `merge: {drill: kick-2, into: kick}`, `insert-week: {at: 3, theme: Landings, like: 2}`, `close: 2027-02-15`, `cancel: {class: mon, on: 2027-01-11}`, `change: {thing: level:level-1, name: Ducklings}` (null takes a field out) and `rename: {thing: drill:kick, to: kick-up}`. It shows the lines first; `--write` makes them, and `undo` takes them back.",
			},
			accept: {
				title: "Let a finding stand",
				what: "Takes a finding out of the list, with your reason, and keeps it under “Accepted”. Name it by its code and what it is about: a week, a class, a drill. `--until` says the last day on which it may stand; one that no longer matches the plan is told. The findings page of the preview has the whole command beside each finding.",
			},
			taught: {
				title: "Take in what coaches report",
				what: "At the end of a class sheet a coach taps how it went, and sends a small text by whatever the phone sends with. Save the texts or mails, and give their files to this command, any number, in any order, as often as you like: it writes `_data/taught/<week>.yaml`, says where two coaches differ, and leaves alone what you corrected there. `check`, `mend` and the preview count it, and `mend` keeps weeks that are over. Coaches' builds hold none of it, unless `taught-sums` in `_data/club.yaml` publishes sums; `build -- --director --out DIR` makes a site with all of it for you alone.",
			},
			rename: {
				title: "Rename",
				what: "Gives a drill, a skill or anything else with an id another one, in every file that names it.",
			},
			move: {
				title: "Move a block or a week",
				what: "Moves one block to another place, or a whole week to another number; with `--swap` two weeks trade places.",
			},
			undo: {
				title: "Take back",
				what: "Takes back the last change that a command or the desk made to your files; again, the one before.",
			},
			export: {
				title: "Write spreadsheets",
				what: "Writes the drills, the plan and the lists as one workbook and as CSV files. Changed there and brought back with `import --update`, what was changed is changed in the club; brought into an empty folder, they are a club again.",
			},
			compare: {
				title: "Compare two plans",
				what: "Tells which drills and weeks differ between two club folders, and what that did to coverage, minutes, equipment and findings.",
			},
			library: {
				title: "Look at what a library changed",
				what: "Where `_data/club.yaml` names `libraries`, their drills, guides, shapes, skills and equipment are there as if they were written here: those that your files name, and those that these name. A page of the same id changes it, field by field; `field: null` takes one out, `from-library: false` takes nothing. This command tells what libraries changed since you looked. `--take` goes on with the new word, `--keep` writes the old one into your own files; `all` is for all of it. Levels and apparatus are always your own.",
			},
			since: {
				title: "Tell coaches what changed",
				what: "Builds the handbook with a page of what changed since an earlier plan: a club folder, the output of an earlier build, or a `record.json` from it.",
			},
			nextTerm: {
				title: "Begin the next term",
				what: "Makes the next term's folder from this one, with new dates and closed days, and keeps what was taught for `compare`. This folder stays as it is.",
			},
			update: {
				title: "Change to another version of the program",
				what: "In a folder whose `package.json` names the program: shows which of your files another version would change, and what it would find that is not found today. `--to` names a version, or a file of it; without it the newest is looked at. `--write` takes it, and `undo` takes back what it changed in your files.",
			},
			print: {
				title: "Print",
				what: "Lays out the term's binder, or the sheets that you name, as PDFs under `_site/print/`. `--week`, `--class`, `--level` and `--apparatus` choose some of them.",
			},
		},
		/** What can be printed, by its name in the command. */
		sheets: {
			pocket:
				"What a coach carries: her own classes, week by week, a leaf for each area with its clock, who stands where, the floor plan and every station (`--class`, with commas between several; `--week`; `--paper A5`; `--up 2` for two sides to a page). Not made by `build`.",
			library:
				"Every drill, two to a side, with shapes, skills and guides: for the shelf, printed once a year. Pages have the numbers that they have in the binder.",
			director:
				"What the term covers and each class reaches, findings, equipment, heights, and the index; with the binder's own page numbers.",
			binder:
				"The whole term bound: the weeks, the library and the director's volume; this is what is printed without a name. With `--since` cards keep their pages, and drills that were added stand on new leaves and in a list behind the contents; without it every list is made anew. `--bleed 3mm` adds crop marks for a printer who cuts.",
			"update-packet":
				"The leaves that an earlier binder, library, director's volume or pocket needs, and a list of what to take out: `--since` names the edition beside it, and says which of them it is.",
			"class-sheets": "One leaf for each class in each week (`--week`, `--class`).",
			"week-packet":
				"All that a week needs in one file: overview, class sheets, floor plans, store room (`--week`).",
			"station-cards":
				"A card for each station: two to a sheet, with cues of 24 pt that are read from two metres, or four, with 18 pt for a card that lies at the station (`--week`, `--apparatus`, `--up`).",
			"floor-plans": "Where each station stands (`--week`, `--apparatus`).",
			"store-room": "What goes out and comes back (`--week`).",
			labels: "A label for each item at each apparatus (`--week`).",
			"check-sheets":
				"Blank skill check sheets, with three boxes for each skill and what must be seen (`--level`).",
			dividers: "A leaf with a tab for each section of the binder.",
			"term-overview": "The term on one page.",
		},
	},
	/** How the club's handbook looks. Backquotes stand around code. */
	look: {
		title: "The club's own look",
		notes: [
			"`colour` in `_data/club.yaml` is the club's colour: heads of parts, chosen filters, tables and charts of the site are of it. Words have to be readable on it, at a contrast of 4.5 : 1 (WCAG 2.2), and the program names the nearest shade that passes. The shade for the dark theme is worked out, unless `colour-dark` names one. Amber stays what it is: it marks what matters now, and safety. Paper stays black and white.",
			"`logo` is a picture in `content/media`, and stands at the head of every page and on the binder's cover. A drawing in SVG becomes a picture, so that nothing in it can run.",
			"`content/style.css` is a style sheet of your own, after ours: on the site, in the preview, on phones without a network and on printed sheets. Rules between `@media screen { }` are for the site alone, those between `@media print { }` for paper. It can load nothing else. Names of classes may change with a new version of this program: look at a few pages and sheets after an update.",
			"`leave-out` takes the findings, the measures or this guide out of the coaches' site, with their data files and every link to them. The preview of `serve`, and `check`, still show you all of it.",
		],
	},
	/** For a site that only the club's coaches may see. Backquotes stand around code. */
	online: {
		title: "Putting it online",
		lead: "The site is for the club's own people. It holds no secrets and nothing about gymnasts, asks search engines to leave it out, and loads nothing from anywhere else. Who may open it is for the host to say: the pages themselves cannot keep anybody out. `npm run new -- host` and a kind writes what it takes into the club's folder, private from the start and over nothing that is there; its first lines say what to do.",
		hosts: [
			{
				name: "Pages of a forge: `host pages`.",
				how: "A workflow that checks and builds at every change. It publishes only when you have said that the pages are limited to members: unless the forge can do that, they are open to everybody.",
			},
			{
				name: "A static host.",
				how: "Upload the output folder, and switch on the host's own access control (a password for the site, or sign-in with the club's accounts). The file `_headers` in the output is read by many of these hosts.",
			},
			{
				name: "Object storage with a delivery network: `host storage`.",
				how: "Keep the storage private, let only the network read it, and put the sign-in at the network's edge. A script builds and copies, a file has the response headers for the edge, and a second script asks what is really answered.",
			},
			{
				name: "Apache: `host apache`.",
				how: "A file for a site of its own: HTTPS, a password, the headers. On a server that somebody else runs, the output's `.htaccess` sets the headers, and the host's own settings the password.",
			},
			{
				name: "nginx: `host nginx`.",
				how: "The same for nginx. It is no file of the output: whoever uploads the site would configure the server with it. `check.sh` beside it signs in, reads back every header and the page for what is not there, and says where anybody could read the handbook.",
			},
			{
				name: "Another web server.",
				how: "Set the headers listed in `_headers` for every path, and the server's own sign-in.",
			},
			{
				name: "Many clubs: `host clubs`.",
				how: "A workflow for a repository with a folder of clubs beside one library: it builds those that a change touches, twenty to a machine.",
			},
		],
		notes: [
			"Always serve over HTTPS: only then can the site be kept on a phone. A `_headers` or `.htaccess` that you put into the output yourself is never overwritten.",
			'Signing out: a phone that has opened the site keeps it for use without a network. Where the host has a page for signing out, let it send `Clear-Site-Data: "cache", "storage"`: the browser then removes the kept pages and the program that kept them. When somebody leaves the club, change the password as well; what a phone has kept stays readable on that phone until it is cleared.',
			"The number of the edition is kept in `_data/edition.json` of the club folder. Keep that file with the content, also in version control; whoever builds on another machine then goes on from the same number.",
			"The output folder is a link to the newest edition in a folder beside it. A program that copies it should follow links, as `rsync -a _site/` with the slash does.",
		],
	},
	kinds: {
		drill: "Drill",
		week: "Week",
		guide: "Guide",
		club: "Club",
		term: "Term",
		targets: "Targets",
		levels: "Levels",
		apparatus: "Apparatus",
		shapes: "Shapes",
		skills: "Skills",
		equipment: "Equipment",
		purposes: "Purposes",
		accepted: "Accepted findings",
		words: "Words",
		taught: "What was taught",
	} satisfies Record<FileKind, string>,
	severities: {
		error: "Stops the build",
		warning: "A warning; the build goes on",
		finding: "A finding; the build goes on",
	},
	stages: {
		H1: "Reading and checking a file",
		H2: "How files refer to each other",
		H3: "What the plan adds up to",
		H4: "Printing",
	},
	/** What may be written in a field. */
	forms: {
		or: "or",
		date: "date",
		clock: "time of day",
		dateOrInterval: "date or interval",
		listOf: (what: string) => `list of ${what}`,
		anything: "anything",
		mapByName: "map by name",
		fields: "fields",
		id: "id",
		truth: "true or false",
		nothing: "nothing",
		whole: "whole number",
		number: "number",
		text: "text",
		above: (least: number) => `above ${least}`,
		aboveTo: (least: number, most: number) => `above ${least}, to ${most}`,
		to: (most: number) => `to ${most}`,
		from: (least: number) => `from ${least}`,
		between: (least: number, most: number) => `${least} to ${most}`,
	},
};

/**
 * What files and fields mean, by kind ("drill") and field ("drill.levels.<id>.do"), where a language
 * says it in other words than the schemas. English has none: the schemas are English.
 */
export const fields: Readonly<Record<string, string>> = {};

// The desk ------------------------------------------------------------------------------------------

/** The desk, where a director plans and writes; in her browser, on her own machine. */
export const desk = {
	title: "The desk",
	desk: "The desk",
	needsScript: "The desk works with JavaScript. The preview and the commands do without.",
	noToken: "Open the desk by the address that `serve` printed when it was started.",
	nothingHere: "Nothing stands at this address.",
	readOnly: "This desk is only to be looked at.",
	readOnlyMark: "To look at only",
	stale: "The plan has changed meanwhile. It is shown as it is now; look, and do it again.",
	changedMeanwhile: (files: string) => `Changed by somebody else meanwhile: ${files}.`,
	wouldBreak: "It would put something wrong in the files.",
	mendFirst: "Mend the errors in the files first: reports of what they hold would be lost.",
	nothingToUndo: "There is no change to take back.",
	nothingToRedo: "There is no change to make again.",
	noSuchFinding: "This is no longer found.",
	notPlanned: "It is not planned anywhere.",
	busy: "This is running already.",
	serverGone: "The program does not answer. Is `serve` still running?",
	filesChanged: "The files have changed; the plan is shown as it is now.",
	notDone: "Not done:",
	opening: "Opening …",
	skip: "To the content",
	views: "Parts of the desk",
	viewBoard: "Plan",
	viewFindings: (findings: number) => `Findings (${number(findings)})`,
	viewFiles: "Drills and files",
	viewPublish: "Publish and print",
	undo: "Undo",
	redo: "Redo",
	undone: "Taken back",
	redone: "Made again",
	saving: "Saving …",
	allSaved: "All is saved",
	close: "Close",
	yes: "yes",
	no: "no",
	notices: "What there is to say",
	lastChange: "The last change",
	cameOne: "New:",
	wentOne: "Gone:",
	findingsAfter: (came: number, gone: number) =>
		came + gone === 0 ? "The findings are the same." : `Findings: ${number(came)} new, ${number(gone)} gone.`,
	whichOnes: "Which ones",
	keptBeside: (files: string) => `Somebody saved in that moment; that text is kept in ${files}.`,
	problemsTitle: "To mend",
	errorsIn: (errors: number) => `${counts.errors(errors)} in the files.`,
	restGoesOn: "The rest goes on meanwhile.",
	mendFile: (file: string) => `Mend ${file}`,
	draftsThere: "Not saved yet:",
	nothingYet:
		"There is nothing to plan with yet. Begin under “Drills and files”: levels and apparatus first, then drills.",
	// The board
	board: "The plan",
	boardCaption: "The plan: weeks across, areas down. Arrows go from block to block.",
	area: "Area",
	areas: "Areas",
	level: "Level",
	levels: "Levels",
	classes: "Classes",
	planOf: "The plan of",
	everybody: "Everybody",
	keysHint: "Space picks a block up, arrows choose its place, Space puts it down; Enter opens it.",
	carryHint: (title: string) =>
		`Carrying ${title}: choose a place, or with arrows and Space. C copies, Escape leaves it.`,
	leave: "Leave it where it is",
	beside: "Beside the plan",
	week: (week: number) => `Week ${week}`,
	planIt: "Plan this week",
	notPlannedYet: "Not planned yet",
	doesNotMeet: "Does not meet",
	minutesPlanned: (minutes: string) => `${minutes} minutes`,
	filled: (planned: string, available: string) => `${planned} of ${available} minutes filled`,
	free: (minutes: string) => `${minutes} free`,
	over: (minutes: string) => `${minutes} over`,
	place: (week: number, area: string, at: number) => `week ${week}, ${area}, place ${at}`,
	here: "Here",
	putHere: (where: string) => `Put it here: ${where}`,
	newHere: "new",
	goes: "goes",
	stations: (stations: number) => counts.stations(stations),
	options: (choose: number, options: number) => `${number(choose)} of ${number(options)}`,
	pickedUp: (title: string) =>
		`Picked up: ${title}. Arrows choose the place, Space puts it down, C copies, Escape leaves it.`,
	wouldBe: (where: string, places: number) => `${where} of ${places}`,
	nowCopies: "A copy will be put there.",
	nowMoves: "It will be moved there.",
	leftThere: "Left where it was.",
	moved: (title: string, where: string) => `Moved ${quoted(title)} to ${where}`,
	copied: (title: string, where: string) => `Copied ${quoted(title)} to ${where}`,
	added: (title: string, where: string) => `Put ${quoted(title)} into ${where}`,
	noWeekYet: "No week is planned yet. Open a week and plan it first.",
	// A block
	minutes: "Minutes",
	showing: "Showing",
	changing: "Each change",
	choose: "How many are chosen",
	levelsOfBlock: "For the levels (none ticked: all)",
	doseHere: "Dose this time",
	doseByLevel: "Each level has its own",
	ofLevel: (field: string, level: string) => `${field}: ${level}`,
	sessionsOfBlock: "In the meetings of the week (none ticked: all)",
	meeting: (meeting: number) => `Meeting ${meeting}`,
	sets: "Sets",
	reps: "Repetitions",
	hold: "Hold, seconds",
	note: "Note for the coach",
	keep: "Leave it as it is when the plan is mended",
	drill: "Drill",
	stationsTitle: "Stations",
	optionsTitle: "To choose from",
	stationNote: (station: number) => `Note, station ${station}`,
	otherDrill: (title: string) => `Another drill than ${title}`,
	otherDrillShort: "Another drill …",
	earlier: (title: string) => `${title} one place earlier`,
	withoutStation: (title: string) => `Take out ${title}`,
	splitAfter: (title: string) => `Split here, after ${title}`,
	splitHere: "Split here",
	addStation: "One station more",
	addOption: "One more to choose from",
	move: "Move",
	copy: "Copy",
	joinNext: "Join with the next",
	remove: "Remove",
	less: (label: string) => `${label}: less`,
	more: (label: string) => `${label}: more`,
	minutesChanged: (title: string, minutes: string) => `${quoted(title)}: ${minutes} minutes`,
	levelsChanged: (title: string) => `Levels of ${quoted(title)} changed`,
	doseChanged: (title: string) => `Dose of ${quoted(title)} changed`,
	noteChanged: (title: string) => `Note of ${quoted(title)} changed`,
	changed: (title: string) => `${quoted(title)} changed`,
	swapped: (one: string, other: string) => `${quoted(other)} in the place of ${quoted(one)}`,
	stationGone: (title: string) => `${quoted(title)} taken out`,
	stationAdded: (title: string) => `${quoted(title)} added as a station`,
	wasSplit: (title: string) => `${quoted(title)} split`,
	wereJoined: (one: string, other: string) => `${quoted(one)} and ${quoted(other)} joined`,
	removed: (title: string) => `${quoted(title)} removed`,
	// A week
	theme: "Theme",
	planLike: "Begin with",
	fromNothing: "An empty plan",
	planWeek: "Plan this week",
	weekPlanned: (week: number) => `Week ${week} planned`,
	mendWeek: "Mend this week",
	solving: "Looking for the fewest changes that mend it …",
	nothingToMend: "Nothing better was found for this week.",
	solveFailed: "The search failed; the terminal says why.",
	themeAndNote: "Theme and note",
	asCoachesSee: "As coaches see it",
	swapWith: "Trade places with",
	swap: "Trade places",
	weeksSwapped: (one: number, other: number) => `Weeks ${one} and ${other} have traded places`,
	focusOfAreas: "What each area is about",
	findingsOfWeek: (findings: number) => `What is found in it (${number(findings)})`,
	classesOfWeek: "What each class does in it",
	moving: "Moving",
	newDrills: "New drills",
	landings: "Landings",
	hands: "Hand contacts",
	toLookAt: "To look at",
	reach: "Met in the term",
	reachOf: (shapes: number, ofShapes: number, skills: number, ofSkills: number) =>
		`${shapes} of ${ofShapes} shapes, ${skills} of ${ofSkills} skills`,
	shortOfCoaches: (blocks: number) => `${number(blocks)} × too few coaches`,
	outOfOrder: (drills: number) => `${number(drills)} × before its time`,
	missing: (items: number) => `${number(items)} × equipment missing`,
	carriedItems: (items: number) => `${number(items)} × carried over`,
	// Findings
	findingsTitle: (findings: number) => `What the measures find: ${number(findings)}`,
	noFindings: "The plan meets every target of the club.",
	whatMends: "What would mend it",
	mendOf: (title: string) => `What would mend it: ${title}`,
	looking: "Looking …",
	nothingKnown: "No change of the plan is sure to mend it. What is written above it says what to look at.",
	doIt: "Do it",
	lookOnBoard: "Look at it on the plan",
	mended: (title: string) => `Mended: ${title}`,
	letStand: "Let it stand",
	acceptOf: (title: string) => `Let it stand: ${title}`,
	wasAccepted: (title: string) => `Let stand: ${title}`,
	accepted: "Let stand on purpose",
	because: "Because:",
	reason: "Why it may stand",
	until: "Until (left empty: for good)",
	offer: "An offer",
	offerTitle: (changes: number) =>
		changes === 1 ? "One change is offered." : `${number(changes)} changes are offered.`,
	offerIsThere: (changes: number) => `${number(changes)} changes are offered; they are shown on the plan.`,
	offerTaken: "The offer taken",
	takeIt: "Take it",
	leaveIt: "Leave it",
	proved: "Proved: no fewer changes do as much.",
	notProved: "The best that was found in the time.",
	changes: {
		place: (week: number, area: string, at: number) => `week ${week}, ${area}, block ${at}`,
		swap: (place: string, drill: string, station: number | undefined) =>
			`${place}${station === undefined ? "" : `, station ${station}`}: ${quoted(drill)} in its place`,
		exchange: (one: string, other: string) => `${one} and ${other} trade places`,
		move: (from: string, to: string) => `${from} goes to ${to}`,
		split: (place: string, after: number, minutes: readonly [number, number]) =>
			`${place} becomes two, after station ${after}: ${minutes.map(number).join(" and ")} minutes`,
		remove: (place: string) => `${place} goes`,
		minutes: (place: string, minutes: number) => `${place}: ${number(minutes)} minutes`,
		set: (place: string) => `${place} changes`,
		add: (drill: string, minutes: number, week: number, area: string) =>
			`${quoted(drill)} for ${number(minutes)} minutes more in week ${week}, ${area}`,
	},
	// Drills beside the board
	drills: "Drills",
	searchDrills: "Search the drills",
	everyArea: "Every area",
	everyLevel: "Every level",
	drillsFound: (drills: number) => counts.drills(drills),
	moreDrills: (drills: number) => `and ${number(drills)} more: say more of the name`,
	inWeeks: (weeks: readonly number[]) =>
		`${weeks.length === 1 ? "week" : "weeks"} ${weeks.map(String).join(", ")}`,
	plan: (title: string) => `Plan it: ${title}`,
	planShort: "Plan it",
	edit: (title: string) => `Change: ${title}`,
	editShort: "Change",
	// Files
	files: "Drills and files",
	kindsOfFiles: "What a club writes",
	kindNames: {
		drill: "Drills",
		week: "Weeks",
		guide: "Guides",
		levels: "Levels",
		apparatus: "Apparatus and areas",
		shapes: "Body shapes",
		skills: "Skills",
		equipment: "Equipment",
		purposes: "Purposes",
		term: "Term, classes and closed days",
		targets: "Targets",
		club: "Club",
		accepted: "Accepted findings",
		taught: "What coaches reported",
		words: "Words",
	},
	taughtLead:
		"Drop here what coaches sent: files of mails or messages, as many as there are, in any order. What was taken before is not taken twice.",
	taughtChoose: "Choose files",
	taughtPaste: "Or paste their texts",
	taughtLook: "Look at what is pasted",
	taughtCounts: {
		new: (reports: number) => `${number(reports)} new`,
		newer: (reports: number) => `${number(reports)} in the place of an older one`,
		known: (reports: number) => `${number(reports)} here already, or older`,
		corrected: (reports: number) => `${number(reports)} of an entry that was corrected by hand`,
		refused: (reports: number) => `${number(reports)} of no week or class here`,
	},
	taughtNothing: "Nothing changes.",
	taughtTake: "Take them in",
	taughtTaken: "Coaches' reports taken in",
	taughtOf: (name: string) => `${name}:`,
	pasted: "What was pasted",
	search: "Search",
	name: "Name",
	newName: {
		drill: "Name of a new drill",
		guide: "Title of a new guide",
		levels: "Name of a new level",
		apparatus: "Name of a new area",
		shapes: "Name of a new shape",
		skills: "Name of a new skill",
		equipment: "Name of new equipment",
		purposes: "Name of a new purpose",
	},
	begin: "Begin",
	nothingOpen: "Choose something to change, or begin something new.",
	problemsHere: (problems: number) => `${number(problems)} to mend`,
	draft: "not saved",
	notSaved: "Not saved yet; kept as a draft on this machine.",
	draftGone: "What was not saved is gone.",
	dropDraft: "Drop what is not saved",
	save: "Save",
	wasSaved: (name: string) => `Saved ${quoted(name)}`,
	asText: "As text",
	textOf: (file: string) => `Text of ${file}`,
	body: "Text",
	bodyHelp: "Markdown. Two brackets begin a link: [[ and part of a name.",
	line: (line: number) => `Line ${line}:`,
	requiredMark: "(needed)",
	notSaid: "not said",
	pick: "Pick by name …",
	add: "Add",
	addTo: (label: string) => `Add: ${label}`,
	takeOut: (name: string) => `Take out ${name}`,
	earlierItem: (label: string, at: number) => `${label} ${at} one place earlier`,
	nameIn: (label: string) => `Name in: ${label}`,
	formOf: (label: string) => `How it is written: ${label}`,
	choosePicture: "Choose a picture",
	figure: "Figure",
	figureOf: (name: string) => `The figure of ${name} with these angles.`,
	jointsHint: "Drag a joint, or go to it with Tab and move it with the arrows.",
	jointAt: (joint: string, degrees: number) => `${joint}: ${number(degrees)} degrees`,
	sidesDiffer: "Left and right differ",
	conflictTitle: "Somebody else has changed this file",
	conflictLead: (file: string) =>
		`Nothing was written over. Look at both texts of ${file} and choose; the other one is not lost: your text is kept as a draft until you do.`,
	theirs: "As it is in the folder now",
	mine: "As you have it here",
	takeTheirs: "Keep the folder's",
	takeMine: "Save mine in its place",
	moreToDo: "Rename, replace or take away",
	newId: "Id, which its file is named by",
	renameEverywhere: "Rename it everywhere",
	wasRenamed: (from: string, to: string) => `Renamed ${from} to ${to}`,
	inItsPlace: "Plan another drill in its place",
	replaceEverywhere: "Replace it wherever it is planned",
	wasReplaced: (one: string, other: string) => `${quoted(other)} planned in place of ${quoted(one)}`,
	mergeInto: "Merge it into",
	seeFirst: "See what it would do",
	mergeHelp:
		"Whatever names this drill names the other one, in weeks, drills and texts, and this drill's file goes. The other drill stays as it is written.",
	merge: (one: string, other: string) => `Merge ${quoted(one)} into ${quoted(other)}`,
	wasMerged: (one: string, other: string) => `Merged ${quoted(one)} into ${quoted(other)}`,
	wouldWrite: "What would be written",
	retire: "Take it away",
	retireHelp: "Its file goes, where nothing names it any more. Undo brings it back.",
	wasRetired: (name: string) => `Took away ${quoted(name)}`,
	formNames: {
		text: "words",
		number: "a number",
		yes: "yes or no",
		choice: "one of a few",
		id: "one",
		ids: "a list",
		pair: "two numbers",
		list: "a list",
		group: "in detail",
		map: "each by itself",
		either: "either",
	},
	/** Fields of files, where the word is not the field's own name. */
	fieldNames: {
		id: "Id",
		aliases: "Also called",
		levels: "Levels",
		level: "Level",
		do: "How this level does it",
		reps: "Repetitions",
		hold: "Hold, seconds",
		"hold-of": "What hold is counted for",
		shapes: "Body shapes",
		shape: "Body shape",
		sequence: "Phases",
		skills: "Leads to the skills",
		performs: "Practises the skills",
		after: "Comes after",
		ready: "Before the first try",
		partner: "The same in the other direction",
		purpose: "What it is for",
		"at-once": "Gymnasts at once",
		contacts: "Contacts in one repetition",
		hands: "Hand contacts",
		cues: "What to say",
		faults: "What to watch for",
		see: "What it looks like",
		say: "What to say",
		spotters: "Coaches whose hands are needed",
		watch: "A coach has to be looking",
		run: "Run, metres",
		"run-out": "Room behind, metres",
		file: "File",
		alt: "What the picture shows",
		per: "For each",
		entry: "What they arrive with",
		needs: "Comes after the skills",
		criteria: "What must be seen",
		owned: "How many the club has",
		stored: "Where it is kept",
		size: "Size, metres",
		plan: "Floor plan, metres",
		groups: "Groups at a time",
		starts: "Starts (a Monday)",
		weeks: "Weeks",
		closed: "Closed days",
		between: "Minutes from one apparatus to the next",
		"warm-up": "Warm-up, minutes",
		"cool-down": "Cool-down, minutes",
		rotation: "Order of apparatus",
		"same-as": "The same gymnasts as",
		keep: "Leave it when the plan is mended",
		"load-step": "Largest step of load",
		"new-drills": "Most new drills in a week",
		"arrives-with": "Share that does a skill alone, to arrive with it",
		title: "Name",
		name: "Name",
		apparatus: "Apparatus",
		summary: "Summary",
		sets: "Sets",
		elements: "The chain",
		direction: "Direction",
		sides: "Sides",
		equipment: "Equipment",
		heights: "Heights of what stands there",
		turn: "Turns",
		seconds: "Seconds",
		landings: "Landings",
		spotting: "Spotting",
		caution: "Caution",
		helpers: "Who helps in the figures",
		easier: "Easier",
		harder: "Harder",
		media: "Pictures",
		caption: "Words under it",
		poster: "Still picture",
		reviewed: "Reviewed on",
		count: "How many",
		description: "Description",
		order: "Place in the list",
		pattern: "Movement pattern",
		opposite: "The opposite skill",
		walls: "Walls",
		landmarks: "Landmarks",
		kind: "Area or apparatus",
		at: "Where it is",
		week: "Week",
		theme: "Theme",
		classes: "Classes",
		day: "Day",
		start: "Start",
		minutes: "Minutes",
		gymnasts: "Gymnasts",
		coaches: "Coaches",
		ages: "Ages",
		language: "Language",
		timezone: "Time zone",
		paper: "Paper",
		punch: "Punched holes",
		site: "Address of the site",
		contact: "Where corrections go",
		emergency: "In an emergency",
		"emergency-guide": "Guide for an emergency",
		"shape-weeks": "Weeks with each shape, at least",
		"skill-weeks": "Weeks with each skill, at least",
		"shape-gap": "Longest gap of a shape, weeks",
		"skill-gap": "Longest gap of a skill, weeks",
		"pair-directions": "Forward and backward together",
		"active-share": "Share in motion, at least",
		"review-months": "Months until it is read again",
		"skill-reps": "Repetitions of a skill, at least",
		ratio: "Gymnasts to a coach, by age",
		tilt: "Lean",
		base: "Carried by",
		view: "Seen from",
		angles: "Angles",
		height: "Height, centimetres",
		range: "Heights, from and to",
		step: "Step, centimetres",
		thickness: "Thickness, centimetres",
		adults: "How many carry it",
		skill: "Skill",
		drill: "Drill",
		text: "Words",
	} as Readonly<Record<string, string>>,
	/** Choices of fields, where the word is not the value's own. */
	choices: {
		both: "both",
		each: "each",
		lead: "lead",
		rep: "rep",
		set: "set",
		last: "last",
		station: "station",
		gymnast: "gymnast",
		feet: "feet",
		hands: "hands",
		"hands-and-feet": "hands and feet",
		head: "head",
		hips: "hips",
		seat: "seat",
		back: "back",
		front: "front",
		shoulders: "shoulders",
		knees: "knees",
		hang: "hang",
		air: "air",
		side: "side",
		"two-hole": "two hole",
		"three-hole": "three hole",
		"four-hole": "four hole",
	} as Readonly<Record<string, string>>,
	// Publishing
	publishTitle: "Publish and print",
	publishLead:
		"The handbook is written into a folder of its own. The last good one stays until the new one is whole.",
	liesIn: (folder: string) => `It lies in ${folder}.`,
	publishSite: "Publish the site",
	publishAll: "Publish the site and print everything",
	printSheets: "Print single sheets",
	whichSheets: "Which sheets",
	sheetKinds: {
		"class-sheets": "Class sheets",
		"week-packet": "All that a week needs",
		"station-cards": "Station cards",
		"floor-plans": "Floor plans",
		"store-room": "Store-room list",
		labels: "Equipment labels",
		"check-sheets": "Skill check sheets",
		"term-overview": "The term on one page",
		pocket: "What a coach carries",
		dividers: "Leaves with tabs",
	},
	ofWeek: "Of week",
	everyWeek: "Every week",
	ofClass: "Of class",
	everyClass: "Every class",
	print: "Print",
	packetTitle: "Leaves that have changed",
	packetLead:
		"For a binder that is printed: the new leaves alone, with a list of which to take out and which to put in.",
	packetSince: "Since",
	printedAs: {
		binder: (edition: string) => `the binder, ${edition}`,
		packet: (edition: string) => `the last leaves, ${edition}`,
	},
	noBinderYet: "No binder is printed yet; “Publish the site and print everything” prints the first.",
	packet: "Print the changed leaves",
	sinceTitle: "What changed since the last edition",
	howMany: (things: number) => `(${number(things)})`,
	sinceNothing: "Nothing is published yet, so that there is no edition to compare with.",
	printedSheets: "Look at the sheets",
	stop: "Stop",
	whatItSaid: "What it said",
	taskState: {
		running: "Under way …",
		done: "Done.",
		failed: "It failed. What it said stands below.",
		stopped: "Stopped.",
	},
};

// Findings and problems -----------------------------------------------------------------------------

/** What each code means, why it matters and what to do. */
export const catalogue: Readonly<Record<Code, CatalogueEntry>> = CATALOGUE;

export const findingsPage = {
	/** The heading of findings on the page of a thing. */
	found: "What the measures find",
	allMet: "The plan meets every target of the club.",
	against: (findings: number) => `${counts.findings(findings)} against the club's targets.`,
	lead: <T>(file: T, meaning: T): Sentence<T> => [
		"Findings never stop a build: a director may have good reasons. The thresholds are the club's own, in ",
		file,
		"; ",
		meaning,
		".",
	],
	whatEachMeans: "what each means",
	measure: <T>(measure: T): Sentence<T> => ["Measure: ", measure, "."],
	all: (findings: number) => `All ${findings}`,
	/** A place in a list of a file. */
	item: (place: number) => `no. ${place}`,
	/** Kinds of findings by what they harm. */
	harms: {
		safety: "Safety: readiness, hands and eyes",
		"set-out": "Cannot be set out",
		time: "Does not fit the time",
		dose: "Dose and turns",
		coverage: "What a class misses",
		upkeep: "Upkeep of the files",
	},
	ways: "Findings by kind, week and class",
	kinds: "Kinds",
	accepted: "Accepted",
	acceptedLead: <T>(file: T): Sentence<T> => ["The director lets these stand, in ", file, "."],
	reason: "Reason:",
	until: (date: string) => `accepted until ${date}`,
	/** Heads of folds under a finding. */
	mend: "A change that would mend it",
	termMend: "The fewest changes that were found for the whole term",
	mendLead: <T>(file: T, command: T): Sentence<T> => [
		"Try it first: save it as ",
		file,
		" and run ",
		command,
		". That shows what would go and what would come, and writes nothing. Then make the change in the week's file.",
	],
	accept: "Let it stand",
	acceptLead: <T>(option: T): Sentence<T> => [
		"Copy the command, put your reason in it, and run it in a terminal; undo takes it back. For a club in another folder add ",
		option,
		" and its path.",
	],
	yourReason: "Why it may stand",
};

/** What a week's load is held against: up to three weeks, as many as there were. */
function meanOf(weeks: number): string {
	return weeks === 1 ? "the week before" : `the mean of the ${weeks === 2 ? "two" : "three"} weeks before`;
}

/** What the measures find, sentence by sentence. Days are the ISO dates of the club's own files. */
export const findings = {
	outOfOrder: {
		what: (level: string, thing: string, week: number, first: string, when: string) =>
			`${level} does ${quoted(thing)} in week ${week} without ${quoted(first)} before it: ${when}.`,
		groups: (level: string, groups: readonly string[]) => `${level} (${and(groups, 4)})`,
		notReady: (who: string, thing: string, week: number, first: string, had: number, wanted: number) =>
			`${who} meets ${quoted(thing)} in week ${week} after ${counts.reps(had)} of ${quoted(first)}; ${number(wanted)} are wanted before.`,
		fixReady: (thing: string, first: string) =>
			`Plan more of ${quoted(first)} before, or plan ${quoted(thing)} later.`,
		never: "that never comes",
		later: (week: number) => `that comes in week ${week}`,
		sameWeek: "that comes in the same week, but not before",
		fixSkill: (first: string) =>
			`Plan a drill for ${quoted(first)} earlier, or list it under the level's \`entry\` if gymnasts arrive with it.`,
		fixDrill: (thing: string, first: string) =>
			`Plan ${quoted(first)} earlier for this level, or ${quoted(thing)} later; if gymnasts arrive with the first, list its id under the level's \`entry\`.`,
	},
	spacing: {
		shapeNever: (level: string, shape: string) => `${level} never trains ${quoted(shape)}`,
		skillNever: (level: string, skill: string) => `${level} is never taught ${quoted(skill)}`,
		shapeMet: (level: string, shape: string, weeks: readonly number[]) =>
			`${level} trains ${quoted(shape)} in ${counts.weeks(weeks.length)} (${inWeeks(weeks)})`,
		skillMet: (level: string, skill: string, weeks: readonly number[]) =>
			`${level} is taught ${quoted(skill)} in ${counts.weeks(weeks.length)} (${inWeeks(weeks)})`,
		tooFew: (met: string, wanted: number) => `${met}; the target is ${counts.weeks(wanted)}.`,
		shapeGap: (level: string, shape: string, gap: Gap) =>
			`${level} trains ${quoted(shape)} in week ${gap.from} and not again before week ${gap.to}, ${counts.weeks(gap.weeks)} later; the target is at most ${gap.wanted}.`,
		skillGap: (level: string, skill: string, gap: Gap) =>
			`${level} is taught ${quoted(skill)} in week ${gap.from} and not again before week ${gap.to}, ${counts.weeks(gap.weeks)} later; the target is at most ${gap.wanted}.`,
		noDrill: (level: string, thing: string) =>
			`No drill of the library for ${level} leads to ${quoted(thing)}: write one, or take the level out of the skill's \`levels\`.`,
		planAgain: (drills: readonly string[], level: string) =>
			`Plan ${or(drills.map(quoted), 4)} in another week for ${level}.`,
		planIn: (drills: readonly string[], level: string, weeks: number) =>
			`Plan ${or(drills.map(quoted), 4)} in ${counts.weeks(weeks)} for ${level}.`,
		planBetween: (drills: readonly string[], level: string, from: number, to: number) =>
			`Plan ${or(drills.map(quoted), 4)} between weeks ${from} and ${to} for ${level}.`,
	},
	oneDirection: {
		onlyForward: (
			week: number,
			apparatus: string,
			levels: readonly string[],
			minutes: number,
			drills: readonly string[],
		) =>
			`Week ${week}, ${apparatus}, ${and(levels, 4)}: ${counts.minutes(minutes)} forward (${and(drills.map(quoted), 4)}) and none backward.`,
		onlyBackward: (
			week: number,
			apparatus: string,
			levels: readonly string[],
			minutes: number,
			drills: readonly string[],
		) =>
			`Week ${week}, ${apparatus}, ${and(levels, 4)}: ${counts.minutes(minutes)} backward (${and(drills.map(quoted), 4)}) and none forward.`,
		planForward: (drills: readonly string[]) =>
			`Plan a forward drill on this apparatus in the same week, such as ${or(drills.map(quoted))}.`,
		planBackward: (drills: readonly string[]) =>
			`Plan a backward drill on this apparatus in the same week, such as ${or(drills.map(quoted))}.`,
	},
	time: {
		nothing: (group: string, week: number) => `${group} has nothing to do in week ${week}.`,
		before: (minutes: number) => `${number(minutes)} before`,
		between: (minutes: number) => `${number(minutes)} from one to the next`,
		after: (minutes: number) => `${number(minutes)} after`,
		tooLong: (group: string, week: number, planned: number, available: number, parts: readonly string[]) =>
			`${group}, week ${week}: ${counts.minutes(planned)} planned in a class of ${number(available)} (${and(parts, 9)}).`,
		takeOut: (minutes: number, apparatus: string) =>
			`Take ${counts.minutes(minutes)} out; ${apparatus} has the most. Or raise the class's \`minutes\` in _data/term.yaml.`,
		tooStill: (group: string, week: number, still: Still) =>
			`${group}, week ${week}: each gymnast moves for ${number(still.active)} of ${counts.minutes(still.available)}, ${number(still.share * 100)} %; the target is ${number(still.target * 100)} %.${
				still.empty < 0.05 ? "" : ` Nothing is planned for ${counts.minutes(still.empty)}.`
			}${
				still.waits.length === 0
					? ""
					: ` Most waiting: ${and(
							still.waits.map(({ drill, minutes }) => `${quoted(drill)} (${counts.minutes(minutes)})`),
							4,
						)}.`
			}`,
		nobodyWaits: "Nobody waits: more of the class's minutes have to be planned.",
		planRest: (minutes: number) => `Plan something in the empty time (${counts.minutes(minutes)}).`,
		beside: (drill: string) =>
			`Add a station beside ${quoted(drill)}, let more gymnasts go at once, or give those who wait a task of their own.`,
		split: (drill: string) =>
			`Split ${quoted(drill)} into stations, let more gymnasts go at once, or give those who wait a task of their own.`,
		noTurn: (place: ClassPlace, minutes: number, drill: string, gymnasts: number) =>
			`${place.group}, week ${place.week}, ${place.apparatus}: ${counts.minutes(minutes)} of ${quoted(drill)} will not do for ${counts.gymnasts(gymnasts)} to have a turn each.`,
		eaten: (place: BlockPlace, groups: readonly string[], eaten: Eaten) =>
			`Week ${place.week}, ${place.apparatus}, block ${place.block} (${and(groups, 4)}): ${and([
				...(eaten.show > 0 ? [`${counts.minutes(eaten.show)} for showing it`] : []),
				...(eaten.changes > 0
					? [`${counts.minutes(eaten.changes)} for the changes between ${counts.stations(eaten.stations)}`]
					: []),
			])} leave nothing of its ${counts.minutes(eaten.minutes)}.`,
	},
	equipment: {
		short: (week: number, apparatus: string, need: Need, drills: readonly string[]) =>
			`Week ${week}, ${apparatus}: ${number(need.needed)} × ${need.item} needed for ${and(drills.map(quoted), 4)}, ${number(need.owned)} owned.`,
		wanted: (group: string, needed: number, apparatus: string) =>
			`${group} ${number(needed)} on ${apparatus}`,
		clash: (week: number, day: Weekday, clock: string, need: Need, who: readonly string[]) =>
			`Week ${week}, ${days[day]} at ${clock}: ${number(need.needed)} × ${need.item} needed at once, ${number(need.owned)} owned (${and(who, 4)}).`,
	},
	load: {
		landings: (value: number, step: number, before: number) =>
			`${number(value)} landings, ${number(step, 2)} times ${meanOf(before)}`,
		hands: (value: number, step: number, before: number) =>
			`${number(value)} hand contacts, ${number(step, 2)} times ${meanOf(before)}`,
		step: (groups: readonly string[], week: number, parts: readonly string[], target: number) =>
			`${and(groups, 6)}, week ${week}: ${and(parts)}; the target is at most ${number(target, 2)} times. A count for planning, not a medical measure.`,
		spreadLandings: (drill: string, value: number) =>
			`Spread the repetitions over the weeks; ${quoted(drill)} asks for the most landings (${number(value)}).`,
		spreadHands: (drill: string, value: number) =>
			`Spread the repetitions over the weeks; ${quoted(drill)} asks for the most hand contacts (${number(value)}).`,
	},
	calendar: {
		reviewed: (drill: string, reviewed: string, due: string, starts: string) =>
			`${quoted(drill)} was last reviewed on ${reviewed}; a review was due by ${due}, before the term's start on ${starts}.`,
		hole: (week: number, last: number) => `Week ${week} has no plan, and week ${last} has one.`,
		unplannedEnd: (from: number, to: number) =>
			from === to
				? `Week ${from}, the last of the term, has no plan.`
				: `Weeks ${from} to ${to}, to the end of the term, have no plan.`,
		closedOutside: (from: string, to: string, first: string, last: string) =>
			`${from === to ? `${from} is` : `${from} to ${to} are`} closed outside the term, which is from ${first} to ${last}.`,
		missed: (group: string, week: number, date: string) =>
			`${group} does not meet in week ${week}: ${date} is closed, and other classes have the week.`,
	},
	hall: {
		coachesShort: (place: BlockPlace, group: string, need: CoachNeed) =>
			`Week ${place.week}, ${place.apparatus}, block ${place.block}, ${group}: ${counts.coaches(need.needed)} needed (${and(
				[
					...(need.hands > 0 ? [`${number(need.hands)} with hands on`] : []),
					...(need.watched > 0 ? ["1 to watch"] : []),
				],
			)}), ${number(need.present)} there.`,
		coachesFix: (drills: readonly string[]) =>
			`Take one of ${or(drills.map(quoted), 4)} out of the block, or put it where the other stations run alone.`,
		ratio: (group: string, gymnasts: number, coaches: number, ages: string, most: number) =>
			`${group}: ${counts.gymnasts(gymnasts)} of ${ages} years with ${counts.coaches(coaches)}; the club wants at most ${number(most)} to a coach.`,
		crowd: (
			week: number,
			day: Weekday,
			from: string,
			to: string,
			apparatus: string,
			groups: readonly string[],
			fits: number,
		) =>
			`Week ${week}, ${days[day]} ${from} to ${to}: ${and(groups, 4)} are on ${apparatus} together; ${number(fits)} fits.`,
		atOnce: (week: number, group: string, item: string, needed: number, owned: number) =>
			`Week ${week}, ${group}: its groups use ${number(needed)} × ${item} in the same minute, ${number(owned)} owned.`,
		carried: (week: number, group: string, parts: readonly string[]) =>
			`Week ${week}, ${group}: not everything can stand before the class. ${parts.join("; ")}.`,
		carry: (count: number, item: string, from: string, to: string, at: string, adults: number) =>
			`${number(count)} × ${item} from ${from} to ${to} by ${at} (${counts.adults(adults)} each)`,
		noTimeToCarry: "There are no minutes between to carry it in.",
		missing: (week: number, group: string, item: string, apparatus: string, missing: number) =>
			`Week ${week}, ${group}: ${number(missing)} × ${item} for ${apparatus} cannot be brought, since they are in use.`,
		fits: (
			drill: string,
			level: string,
			planned: number,
			fits: number,
			turns: number,
			times: number,
			example: string,
		) =>
			`${quoted(drill)}, ${level}: ${number(planned)} planned, ${number(fits)} ${fits === 1 ? "fits" : "fit"} in ${counts.turns(turns)} (${example})${times > 1 ? `; so ${counts.times(times)} in the term` : ""}.`,
		where: (group: string, week: number, apparatus: string) => `${group}, week ${week}, ${apparatus}`,
		fitsFix: (minutes: number | undefined, drill: string) =>
			minutes === undefined
				? `Lower the dose of ${quoted(drill)}, or let more gymnasts go at once.`
				: `Give it ${counts.minutes(minutes)} more, let more gymnasts go at once, plan fewer stations, or lower the dose.`,
		hold: (drill: string, level: string, hold: number, reps: number, seconds: number) =>
			`${quoted(drill)}, ${level}: ${counts.reps(reps)} held ${number(hold)} s each are ${number(hold * reps)} s, in a turn of ${number(seconds)} s.`,
		holdOnce: (drill: string, level: string, hold: number, seconds: number) =>
			`${quoted(drill)}, ${level}: a hold of ${number(hold)} s in a turn of ${number(seconds)} s.`,
		height: (place: string, drill: string, item: string, wanted: readonly [number, number], can: string) =>
			`${place}: ${quoted(drill)} wants ${item} at ${number(wanted[0], 0)} to ${number(wanted[1], 0)} cm; it ${can}.`,
		heightFixed: (height: number) => `stands at ${number(height, 0)} cm`,
		heightRange: (from: number, to: number, step: number | undefined) =>
			`can be set from ${number(from, 0)} to ${number(to, 0)} cm${step === undefined ? "" : ` in steps of ${number(step)} cm`}`,
		twoHeights: (place: string, item: string, one: string, other: string) =>
			`${place}: ${item} has to stand at two heights, for ${quoted(one)} and for ${quoted(other)}.`,
		reps: (group: string, skill: string, performed: number, prepared: number, wanted: number) =>
			`${group} performs ${quoted(skill)} ${counts.times(performed)} in the term (${number(prepared)} more that only prepare it); the club wants ${number(wanted)}.`,
		repsNever: (group: string, skill: string, prepared: number, wanted: number) =>
			`${group} never performs ${quoted(skill)} in the term (${counts.reps(prepared)} that only prepare it); the club wants ${number(wanted)}.`,
		notReached: (group: string, skill: string) =>
			`${group} never meets ${quoted(skill)}, which its level learns.`,
		landings: (group: string, week: number, landings: number, most: number, drill: string) =>
			`${group}, week ${week}: ${counts.landings(landings)} for a gymnast in one session; the club wants at most ${number(most)}. Most come from ${quoted(drill)}.`,
		newDrills: (group: string, week: number, fresh: number, most: number) =>
			`${group}, week ${week}: ${counts.drills(fresh)} that its gymnasts have not met; the club wants at most ${number(most)}.`,
		unmatched: (code: string, reason: string) =>
			`${code} is accepted (“${reason}”), and the plan has no such finding.`,
		ended: (code: string, until: string, reason: string) =>
			`${code} was accepted until ${until} (“${reason}”), and the term goes on.`,
	},
	taught: {
		missed: (who: string, thing: string, week: number, first: string, missed: number) =>
			`${who} starts ${quoted(thing)} in week ${week}, which builds on ${quoted(first)}: planned for week ${missed}, and not taught as planned.`,
		teach: (thing: string, first: string, week: number) =>
			`Teach ${quoted(first)} before ${quoted(thing)} in week ${week}, or plan ${quoted(thing)} later.`,
		wasPlanned: (weeks: readonly number[]) => `It was planned for ${inWeeks(weeks)}, and not taught.`,
		differ: (who: string, week: number, things: readonly string[]) =>
			`${who}, week ${week}: two coaches say different things about ${and(things, 4)}.`,
		unplaced: (who: string, week: number, apparatus: string, block: number) =>
			`${who}, week ${week}: a report of ${apparatus}, block ${block}, which the plan no longer has as it was.`,
	},
	placing: {
		what: (place: BlockPlace, size: readonly [number, number], parts: readonly string[]) =>
			`Week ${place.week}, ${place.apparatus}, block ${place.block}, on ${number(size[0], 2)} × ${number(size[1], 2)} m: ${and(parts, 4)}.`,
		station: (number: number, drill: string) => `${number} ${quoted(drill)}`,
		overlap: (a: string, b: string) => `stations ${a} and ${b} overlap`,
		landing: (a: string, b: string, gap: number, wanted: number) =>
			`${number(gap, 2)} m between the landing area of station ${a} and station ${b}, ${number(wanted, 2)} m wanted`,
		between: (a: string, b: string, gap: number, wanted: number) =>
			`${number(gap, 2)} m between stations ${a} and ${b}, ${number(wanted, 2)} m wanted`,
		wall: (a: string, gap: number) =>
			`station ${a} needs a wall and stands ${number(gap, 2)} m from the edge`,
		edge: (a: string, over: number) => `station ${a} stands ${number(over, 2)} m over the edge`,
		noWay: (from: number, to: number) => `there is no free way from station ${from} to station ${to}`,
		planFewer: "Plan fewer or smaller stations in this block, or correct `plan` in _data/apparatus.yaml.",
	},
};

/** A gap in weeks, and the longest the club wants. */
interface Gap {
	readonly from: number;
	readonly to: number;
	readonly weeks: number;
	readonly wanted: number;
}

/** How long a class moves, in minutes; shares from 0 to 1. */
interface Still {
	readonly active: number;
	readonly available: number;
	readonly share: number;
	readonly target: number;
	/** Minutes of the class for which nothing is planned. */
	readonly empty: number;
	readonly waits: readonly { readonly drill: string; readonly minutes: number }[];
}

interface ClassPlace {
	readonly group: string;
	readonly week: number;
	readonly apparatus: string;
}

interface BlockPlace {
	readonly week: number;
	readonly apparatus: string;
	readonly block: number;
}

/** What takes up the minutes of a block before anybody has a turn. */
interface Eaten {
	readonly minutes: number;
	readonly show: number;
	readonly changes: number;
	readonly stations: number;
}

/** Coaches that a block asks for, and those who are there. */
interface CoachNeed {
	readonly needed: number;
	readonly hands: number;
	readonly watched: number;
	readonly present: number;
}

interface Need {
	readonly item: string;
	readonly needed: number;
	readonly owned: number;
}

function inWeeks(weeks: readonly number[]): string {
	return `${weeks.length === 1 ? "week" : "weeks"} ${and(weeks.map(String), 8)}`;
}
