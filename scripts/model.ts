/**
 * The domain's types, and nothing else: what a club has, what it plans, what is counted.
 *
 * The stages hand these on, each with a type of its own, so that no stage can be skipped:
 *   SourceFile → (validate) Drill, WeekPlan, … → (link) Curriculum → (compute) Exposure, Table, Finding
 * Everything is readonly. A thing is named by its id; a reference is an id that linking has proved.
 */

import type { Place } from "./place.ts";
import type { FindingCode } from "./problems.ts";

export type Id = string;

/** Where a value stands in a YAML document: keys and list positions from the top. */
export type DataPath = readonly (string | number)[];

/** The file a thing was written in, and how to find one of its values again. */
export interface Source {
	/** Path inside the club folder, with forward slashes. */
	readonly file: string;
	/** Finds a value's place. Slow (it parses again with positions): for problems and findings only. */
	place(path: DataPath, key?: "key" | "value"): Place;
	/** The place of a line of the Markdown body, counted from 0, and a column counted from 0. */
	bodyPlace(line: number, column?: number): Place;
}

/** A file as it was read: its data not yet judged. */
export interface SourceFile extends Source {
	readonly kind: FileKind;
	/** The file's name without its ending. */
	readonly id: Id;
	readonly data: unknown;
	/** The Markdown after the front matter; empty for data files. */
	readonly body: string;
}

/** Kinds with a page for each thing, which stands in a folder of their own: `content/drills` and so on. */
export const PAGE_KINDS = ["drill", "week", "guide"] as const;
export type PageKind = (typeof PAGE_KINDS)[number];

export function isPageKind(kind: string): kind is PageKind {
	return PAGE_KINDS.some((one) => one === kind);
}

/** Kinds with a file in `_data`. */
export const DATA_KINDS = [
	"club",
	"term",
	"targets",
	"levels",
	"apparatus",
	"shapes",
	"skills",
	"equipment",
	"purposes",
	"accepted",
	"words",
] as const;
export type DataKind = (typeof DATA_KINDS)[number];
/** `taught`: what coaches reported, a file a week in a folder of its own. */
export type FileKind = PageKind | DataKind | "taught";

/** The data file that lists the things of a kind, for those that have no page each. */
export const LIST_FILES = {
	level: "levels",
	apparatus: "apparatus",
	shape: "shapes",
	skill: "skills",
	equipment: "equipment",
	purpose: "purposes",
} as const satisfies Readonly<Record<string, DataKind>>;

/** Files of things of which a club writes as many as it likes: a page each, then lists. */
export const FILES_OF_THINGS = ["drill", "week", "guide", ...Object.values(LIST_FILES)] as const;

/** Kinds that `[[id]]` can link to, in the order in which an id that two kinds share is looked up. */
export const LINK_KINDS = [
	"drill",
	"skill",
	"shape",
	"apparatus",
	"level",
	"week",
	"equipment",
	"guide",
] as const;
export type LinkKind = (typeof LINK_KINDS)[number];

export type Direction = "forward" | "backward" | "sideways" | "none";
export type Landmark = "knee" | "hip" | "chest" | "shoulder" | "head" | "reach";
export type Pattern = "landing" | "statics" | "locomotion" | "rotation" | "swing" | "spring" | "handling";
export type Weekday = "monday" | "tuesday" | "wednesday" | "thursday" | "friday" | "saturday" | "sunday";

/** How much of a drill: `hold` in seconds. */
export interface DoseNumbers {
	readonly sets?: number;
	readonly reps?: number;
	readonly hold?: number;
}

/** What `hold` is counted for. */
export type HoldOf = "rep" | "set" | "last";

/** What a level may say of a drill in place of the drill's own, each whole. */
export interface Manner extends DoseNumbers {
	readonly holdOf?: HoldOf;
	readonly turn?: Turn;
	readonly contacts?: Contacts;
	readonly equipment?: readonly EquipmentNeed[];
	readonly heights?: ReadonlyMap<string, Landmark>;
	readonly sequence?: readonly Phase[];
	readonly spotting?: string;
	readonly caution?: string;
	/** Coaches whose hands are needed at the station. */
	readonly spotters?: number;
	/** Who helps in the figures, and where the hands are. */
	readonly helpers?: readonly Helper[];
	/** Whether a coach has to be looking; where nobody says, where `spotters` is more than 0. */
	readonly watch?: boolean;
	readonly easier?: readonly string[];
	readonly harder?: readonly string[];
	/** Metres of room before and after, for floor plans. */
	readonly run?: number;
	readonly runOut?: number;
}

/** Places on a gymnast's body where a helper's hand can be. */
export type HelpPlace =
	| "head"
	| "shoulder"
	| "upper-arm"
	| "forearm"
	| "hand"
	| "chest"
	| "stomach"
	| "upper-back"
	| "low-back"
	| "waist"
	| "hip"
	| "seat"
	| "thigh"
	| "back-of-thigh"
	| "knee"
	| "shin"
	| "foot";

/** A coach who helps in one step of a sequence. */
export interface Helper {
	/** Counted from 1. */
	readonly step: number;
	/** Of the gymnast. */
	readonly from: "side" | "front" | "back";
	readonly stance?: "stand" | "kneel";
	/** One or two. */
	readonly hands: readonly HelpPlace[];
}

/** How a level does a drill. */
export interface Dose extends Manner {
	readonly do?: string;
}

/** Seconds for one turn, and gymnasts who go together. */
export interface Turn {
	readonly seconds: number;
	readonly atOnce: number;
	/** Repetitions in one turn; where it is not said, one turn is one set. */
	readonly reps?: number;
}

/** Landings and hand contacts of one repetition. */
export interface Contacts {
	readonly landings: number;
	readonly hands: number;
}

/** One part of a complex: a skill that is performed, a drill that is done, or words. */
export interface Element {
	readonly skill?: Id;
	readonly drill?: Id;
	readonly text?: string;
	/** How often in one go. */
	readonly count: number;
	readonly turn?: "quarter" | "half" | "full";
}

/** What comes before the first try: repetitions of a drill or skill done this term, or what a coach must have seen. */
export type Gate =
	| { readonly drill?: Id; readonly skill?: Id; readonly reps: number; readonly text?: never }
	| { readonly text: string; readonly drill?: never; readonly skill?: never; readonly reps?: never };

export interface EquipmentNeed {
	readonly item: Id;
	readonly count: number;
	readonly per: "station" | "gymnast";
}

/** What a phase of a drill is done on. */
export type Ground =
	| "floor"
	| "mat"
	| "soft-mat"
	| "wedge"
	| "block"
	| "box"
	| "board"
	| "beam"
	| "bar"
	| "rails"
	| "wall"
	| "barrel"
	| "octagon"
	| "floor-bar"
	| "table";

/** One phase of a drill: a shape, and how it is carried here where that differs from the shape itself. */
export interface Phase extends Partial<Pick<Shape, "angles" | "view" | "tilt" | "base">> {
	readonly shape: Id;
	/** Where it is left out, it follows from the drill's apparatus and equipment. */
	readonly on?: Ground;
	/** What the hands are on, where that is not what carries the feet. */
	readonly hands?: Ground;
}

/** What it looks like when wrong, and what to say; with a shape, what of it is wrong then. */
export interface Fault extends Partial<Pick<Shape, "angles" | "tilt">> {
	readonly see: string;
	readonly say: string;
	readonly shape?: Id;
}

/** One drill as a club wrote it, every field checked. */
export interface Drill extends Omit<Manner, "heights"> {
	readonly id: Id;
	readonly title: string;
	readonly apparatus: readonly Id[];
	readonly levels: ReadonlyMap<Id, Dose>;
	readonly summary?: string;
	readonly aliases: readonly string[];
	readonly shapes: readonly Id[];
	/** The phases it goes through, in order of time. */
	readonly sequence: readonly Phase[];
	/** What it prepares, the performed ones among it. */
	readonly skills: readonly Id[];
	/** What the gymnast does here herself, helped or not. */
	readonly performs: readonly Id[];
	readonly elements: readonly Element[];
	readonly after: readonly Id[];
	readonly ready: readonly Gate[];
	/** What it is for, in the club's own words. */
	readonly purpose: readonly Id[];
	readonly direction?: Direction;
	readonly partner?: Id;
	readonly sides?: "both" | "each" | "lead";
	readonly equipment: readonly EquipmentNeed[];
	/** What stands how high: for every level alike, or for each level that it is written for. */
	readonly heights: ReadonlyMap<string, Landmark | ReadonlyMap<Id, Landmark>>;
	readonly easier: readonly string[];
	readonly harder: readonly string[];
	readonly cues: readonly string[];
	readonly faults: readonly Fault[];
	readonly media: readonly {
		readonly file: string;
		readonly alt: string;
		readonly caption?: string;
		/** The still picture of a video. */
		readonly poster?: string;
	}[];
	/** ISO 8601 date. */
	readonly reviewed?: string;
	readonly body: string;
	readonly source: Source;
}

export interface Station {
	readonly drill: Id;
	readonly note?: string;
	/** Metres from the corner of the floor plan; a named spot's once it is linked. */
	readonly at?: readonly [number, number];
	/** The named spot it stands at. */
	readonly landmark?: string;
}

/**
 * A stretch of work on one apparatus. A block of one drill is a block with one station; in a block of
 * options each option is a station of its own, and stands in place of the others.
 */
export interface Block {
	/** Counted from 1 within its week and apparatus. */
	readonly number: number;
	readonly kind: "drill" | "stations" | "options";
	readonly stations: readonly Station[];
	/** How many of the options are done; 1 in every other block. */
	readonly choose: number;
	readonly minutes: number;
	/** Of the minutes, those for showing it. */
	readonly show: number;
	/** Minutes lost at each change of station. */
	readonly change: number;
	/** The levels it names; empty means all. */
	readonly levels: readonly Id[];
	/** Meetings of the week, from 1, of gymnasts who come more than once; empty means all. */
	readonly sessions: readonly number[];
	/** This week's dose in place of the drill's: for every level, and by level. */
	readonly dose?: DoseNumbers;
	readonly doses: ReadonlyMap<Id, DoseNumbers>;
	/** What the director wants left as it is when a plan is mended. */
	readonly keep?: boolean;
	readonly note?: string;
	/** Where it stands in its week's front matter. */
	readonly path: DataPath;
}

export interface ApparatusPlan {
	readonly apparatus: Id;
	readonly focus?: string;
	readonly blocks: readonly Block[];
}

export interface WeekPlan {
	readonly id: Id;
	readonly week: number;
	readonly theme: string;
	/** In the order in which the week's file names them. */
	readonly apparatus: readonly ApparatusPlan[];
	/** The whole week is left as it is when a plan is mended. */
	readonly keep?: boolean;
	readonly body: string;
	readonly source: Source;
}

export interface Guide {
	readonly id: Id;
	readonly title: string;
	readonly order?: number;
	readonly body: string;
	readonly source: Source;
}

/** What every entry of a `_data` list has. `path` is where it stands in that list. */
export interface Entry {
	readonly id: Id;
	readonly name: string;
	readonly source: Source;
	readonly path: DataPath;
}

export interface Level extends Entry {
	readonly description?: string;
	/** Skills and drills a gymnast arrives with. */
	readonly entry: readonly Id[];
}

export interface Apparatus extends Entry {
	/** `area`: a place in the hall that is no apparatus; an apparatus where it is not said. */
	readonly kind?: "apparatus" | "area";
	/** Length and width in metres. */
	readonly plan?: readonly [number, number];
	/** How many groups fit at a time. */
	readonly groups: number;
	/** Sides that are walls. */
	readonly walls: readonly Side[];
	readonly landmarks: readonly { readonly name: string; readonly at: readonly [number, number] }[];
}

/** The sides of a floor plan: where its length begins and ends, and beside it. */
export type Side = "start" | "end" | "left" | "right";

/** Joint angles of one side, degrees. */
export interface SideAngles {
	readonly shoulder?: number;
	readonly elbow?: number;
	readonly hip?: number;
	readonly knee?: number;
	readonly ankle?: number;
}

/** Joint angles, degrees: see the author guide for what each is measured between. */
export interface Angles extends SideAngles {
	readonly spread?: number;
	readonly trunk?: number;
	/** Between the head and the upper trunk: 0 in line, positive chin to chest; left out, it follows from the rest. */
	readonly neck?: number;
	readonly left?: SideAngles;
	readonly right?: SideAngles;
}

export type Base =
	| "feet"
	| "hands"
	| "hands-and-feet"
	| "head"
	| "hips"
	| "seat"
	| "back"
	| "front"
	| "shoulders"
	| "knees"
	| "hang"
	| "air";

export interface Shape extends Entry {
	readonly aliases: readonly string[];
	readonly description?: string;
	readonly angles?: Angles;
	readonly view: "side" | "front";
	/** Lean of the trunk in degrees: 0 upright, 90 face down, -90 face up, 180 upside down. */
	readonly tilt: number;
	readonly base: Base;
}

export interface Skill extends Entry {
	readonly aliases: readonly string[];
	readonly description?: string;
	readonly apparatus: readonly Id[];
	readonly levels: readonly Id[];
	readonly needs: readonly Id[];
	readonly pattern?: Pattern;
	readonly direction?: Direction;
	readonly opposite?: Id;
	/** What must be seen for it to count. */
	readonly criteria: readonly string[];
}

export interface Equipment extends Entry {
	readonly aliases: readonly string[];
	readonly owned?: number;
	readonly stored?: string;
	/** Metres it takes of the floor: in the direction of the work, and across it. */
	readonly size?: readonly [number, number];
	/** Centimetres, where it cannot be changed. */
	readonly height?: number;
	/** Least and greatest centimetres, where it can be set. */
	readonly range?: readonly [number, number];
	/** Centimetres between two settings; any height where it is not said. */
	readonly step?: number;
	/** Centimetres of what is laid on the floor. */
	readonly thickness?: number;
	/** How many carry one; 0 for what stays where it is. */
	readonly adults: number;
}

/** What drills are for, in the club's own words. */
export interface Purpose extends Entry {
	readonly aliases: readonly string[];
}

/** A finding that the director accepts on purpose. */
export interface Acceptance {
	/** The finding's code. */
	readonly finding: string;
	/** A finding matches where all that is said here is so. */
	readonly about: Finding["about"];
	readonly reason: string;
	/** ISO 8601 date of the last day on which it is accepted; for good where it is not said. */
	readonly until?: string;
	readonly source: Source;
	readonly path: DataPath;
}

/** What came of one block, as a coach says. */
export interface BlockReport {
	/** The group, where the class has several. */
	readonly group?: Id;
	readonly apparatus: Id;
	/** Its number in the edition that the coach had. */
	readonly block: number;
	readonly drills: readonly Id[];
	readonly done?: "done" | "shortened" | "not-done";
	/** Minutes lost of a shortened block. */
	readonly lost?: number;
	readonly cause?: "late" | "set-up" | "coaches" | "settling" | "other";
	readonly felt?: "too-easy" | "right" | "too-hard";
	readonly look?: "equipment" | "near-miss";
	readonly note?: string;
	readonly path: DataPath;
}

/** How many can do a skill, as a coach says. */
export interface SkillReport {
	readonly group?: Id;
	readonly skill: Id;
	readonly of: number;
	readonly alone: number;
	readonly helped: number;
	readonly path: DataPath;
}

/** What one coach reported of one class in one week. No field is for a person. */
export interface ClassReport {
	/** The id of the week's file. */
	readonly week: Id;
	readonly class: Id;
	readonly edition?: number;
	readonly note?: string;
	readonly blocks: readonly BlockReport[];
	readonly skills: readonly SkillReport[];
	readonly source: Source;
	readonly path: DataPath;
}

/** A word that the club says, and those that it does not say for it. */
export interface ClubWord {
	readonly say: string;
	readonly not: readonly string[];
	/** Why, or when. */
	readonly note?: string;
}

/** An edition of a club's handbook. */
export interface ClubEdition {
	/** Counted from 1; one more wherever the content is another. */
	readonly number: number;
	/** ISO 8601: the day on which this content was first issued, in the club's time zone. */
	readonly date: string;
	/** The hash of the content. */
	readonly content: string;
}

export interface Club {
	readonly name: string;
	/** BCP 47. */
	readonly language: string;
	/** IANA. */
	readonly timezone: string;
	readonly paper: "A4" | "Letter";
	readonly punch: "two-hole" | "four-hole" | "three-hole";
	readonly site?: string;
	readonly contact?: string;
	readonly emergency?: string;
	/** The guide that says more of it. */
	readonly emergencyGuide?: Id;
	/** Its own colour, as "#rrggbb", and the shade of it for the dark theme where it names one. */
	readonly colour?: string;
	readonly colourDark?: string;
	/** A picture, by its name in `content/media`. */
	readonly logo?: string;
	/** Areas that the coaches' site does without. */
	readonly leaveOut?: readonly Area[];
	/** Whether the coaches' site shows sums of what coaches reported. */
	readonly taughtSums?: boolean;
	/** Undefined where no file says anything of it. */
	readonly source?: Source;
	/** Where classes are held. */
	readonly place?: string;
}

/** An area of the site that a club may leave out. */
export type Area = "findings" | "measures" | "author-guide";

export interface ClubClass {
	readonly id: Id;
	readonly name: string;
	/** Its levels; empty means all. */
	readonly levels: readonly Id[];
	readonly day?: Weekday;
	/** "HH:MM", 24 hours. */
	readonly start?: string;
	readonly minutes?: number;
	readonly warmUp: number;
	readonly coolDown: number;
	/** Minutes from one apparatus to the next. */
	readonly between: number;
	readonly gymnasts: number;
	readonly coaches?: number;
	readonly ages?: readonly [number, number];
	/** Apparatus in the order the class visits them. */
	readonly rotation: readonly Id[];
	/** Groups that work at the same time; empty where the class is one. */
	readonly groups: readonly ClassGroup[];
	/** The class of the same gymnasts on another day. */
	readonly sameAs?: Id;
	/** Days on which it alone is cancelled. */
	readonly closed?: Term["closed"];
	readonly place?: string;
	readonly path: DataPath;
}

/** A part of a class with its own work; what it does not say is the class's, filled in. */
export interface ClassGroup {
	readonly id: Id;
	readonly levels: readonly Id[];
	readonly gymnasts: number;
	readonly coaches?: number;
	readonly rotation: readonly Id[];
}

export interface Term {
	readonly name: string;
	/** ISO 8601 date of a Monday. */
	readonly starts?: string;
	readonly weeks: number;
	/** Closed days as closed intervals of ISO 8601 dates. */
	readonly closed: readonly { readonly from: string; readonly to: string }[];
	readonly classes: readonly ClubClass[];
	readonly source: Source;
}

/** The club's thresholds. One left out is not checked. */
export interface Targets {
	readonly shapeWeeks?: number;
	readonly skillWeeks?: number;
	readonly shapeGap?: number;
	readonly skillGap?: number;
	readonly pairDirections?: boolean;
	readonly activeShare?: number;
	readonly loadStep?: number;
	readonly reviewMonths?: number;
	/** Least performed repetitions of each skill of a level in the term. */
	readonly skillReps?: number;
	/** Most gymnasts to a coach, by age. */
	readonly ratio?: readonly { readonly ages: readonly [number, number]; readonly gymnasts: number }[];
	/** Most landings of a gymnast in one session. */
	readonly landings?: number;
	/** Most drills new to a class in one week, after the first. */
	readonly newDrills?: number;
	/** Least share of a level that does a skill alone, for it to be proposed as what they arrive with. */
	readonly arrivesWith?: number;
}

/** All pages and data of a club, each sound in itself; references not yet proved. */
export interface Records {
	readonly club: Club;
	readonly term: Term;
	readonly targets: Targets;
	readonly levels: readonly Level[];
	readonly apparatus: readonly Apparatus[];
	readonly shapes: readonly Shape[];
	readonly skills: readonly Skill[];
	readonly equipment: readonly Equipment[];
	readonly purposes: readonly Purpose[];
	readonly accepted: readonly Acceptance[];
	readonly taught: readonly ClassReport[];
	readonly words: readonly ClubWord[];
	readonly drills: readonly Drill[];
	readonly weeks: readonly WeekPlan[];
	readonly guides: readonly Guide[];
}

/** One place in the plan where a drill is done. */
export interface Occurrence {
	readonly week: number;
	readonly apparatus: Id;
	readonly block: number;
	/** The levels that do it there: the block's, as far as the drill offers them. */
	readonly levels: readonly Id[];
}

/** A drill whose references are proved, with what points back at it. */
export interface LinkedDrill extends Drill {
	/** Drills of the same work in the opposite direction, whichever of the two says so. */
	readonly partners: readonly Id[];
	/** Drills that name this one in `after`. */
	readonly next: readonly Id[];
	/** Where the term does it, in order. */
	readonly planned: readonly Occurrence[];
}

export interface LinkedSkill extends Skill {
	/** Skills that name this one in `needs`. */
	readonly leadsTo: readonly Id[];
	/** Opposites, whichever of the two says so. */
	readonly opposites: readonly Id[];
	/** Drills that lead to it. */
	readonly drills: readonly Id[];
}

export interface LinkedShape extends Shape {
	/** Drills that train it. */
	readonly drills: readonly Id[];
}

export interface LinkedEquipment extends Equipment {
	/** Drills that use it. */
	readonly drills: readonly Id[];
}

/** What `[[id]]` points at: enough to write a link. */
export interface LinkTarget {
	readonly kind: LinkKind;
	readonly id: Id;
	readonly name: string;
}

/**
 * The linked curriculum: every reference stands for something that exists. Maps keep the club's own
 * order (levels lowest first, apparatus and data lists as ordered, drills by apparatus then title,
 * weeks by number).
 */
/** Where a thing comes from that a library has. */
export interface Origin {
	/** The libraries that say something of it, nearest first. */
	readonly from: readonly { readonly name: string; readonly licence?: string }[];
	/** The fields that the club says itself; `text` stands for what follows the front matter. */
	readonly changed: readonly string[];
}

export interface Curriculum {
	readonly club: Club;
	/** Of what libraries have, by `kind:id`. */
	readonly origins: ReadonlyMap<string, Origin>;
	readonly term: Term;
	readonly targets: Targets;
	readonly levels: ReadonlyMap<Id, Level>;
	readonly apparatus: ReadonlyMap<Id, Apparatus>;
	readonly shapes: ReadonlyMap<Id, LinkedShape>;
	readonly skills: ReadonlyMap<Id, LinkedSkill>;
	readonly equipment: ReadonlyMap<Id, LinkedEquipment>;
	readonly purposes: ReadonlyMap<Id, Purpose>;
	readonly accepted: readonly Acceptance[];
	/** What coaches reported; empty unless the handbook was opened with it. */
	readonly taught: readonly ClassReport[];
	readonly drills: ReadonlyMap<Id, LinkedDrill>;
	readonly weeks: readonly WeekPlan[];
	readonly guides: ReadonlyMap<Id, Guide>;
	/** Resolves the text between `[[` and `]]` (without words); undefined where nothing has that id. */
	readonly resolve: (reference: string) => LinkTarget | undefined;
}

/** The atom of every count: one level does one drill in one block of one week. */
export interface Exposure {
	readonly week: number;
	readonly level: Id;
	readonly apparatus: Id;
	readonly block: number;
	readonly drill: Id;
	readonly minutes: number;
	/** Sets × repetitions; undefined where neither is written. */
	readonly repetitions?: number;
}

/**
 * How a column sorts: as numbers, as text, or by the club's order of a kind of thing; `thing` for skills and
 * drills in one column; `kind` for
 * ids of shapes and skills whose kind stands in the row's column named `kind`.
 */
export type ColumnOrder =
	| "number"
	| "text"
	| "level"
	| "apparatus"
	| "shape"
	| "skill"
	| "direction"
	| "drill"
	| "equipment"
	| "class"
	| "group"
	| "thing"
	| "kind";

export interface Column {
	readonly name: string;
	readonly order: ColumnOrder;
}

export type Cell = string | number | undefined;

/** A computed table as it is written to CSV: cells in the order of the columns. */
export interface Table {
	/** The data file's name without its ending. */
	readonly name: string;
	readonly columns: readonly Column[];
	readonly rows: readonly (readonly Cell[])[];
}

/** A block as a change list writes it: the fields of a week's file. */
export interface WrittenBlock {
	readonly drill?: Id;
	readonly stations?: readonly WrittenStation[];
	readonly options?: readonly WrittenStation[];
	readonly choose?: number;
	readonly minutes?: number;
	readonly show?: number;
	readonly change?: number;
	readonly levels?: readonly Id[];
	readonly session?: readonly number[];
	readonly dose?: DoseNumbers | Readonly<Record<Id, DoseNumbers>>;
	readonly keep?: boolean;
	readonly note?: string;
}

export interface WrittenStation {
	readonly drill: Id;
	readonly note?: string;
	/** Metres, or the name of a landmark. */
	readonly at?: readonly [number, number] | string;
}

/** A change of the week plans; a block is named week/apparatus/number, as in a change list. */
export type PlanChange =
	| {
			readonly add: {
				readonly week: number;
				readonly apparatus: Id;
				/** The number that it has then; the last where it is left out. */
				readonly at?: number;
				readonly block: WrittenBlock;
			};
	  }
	| { readonly remove: string }
	| { readonly move: { readonly from: string; readonly to: string } }
	/** Some fields of a block; one that is null goes. */
	| {
			readonly set: { readonly block: string } & {
				readonly [Name in keyof WrittenBlock]: WrittenBlock[Name] | null;
			};
	  }
	| {
			/** Another drill, at a station from 1 where the block has several. */
			readonly swap: { readonly block: string; readonly station?: number; readonly drill: Id };
	  }
	/** Two blocks in each other's place, or the plans of two weeks. */
	| { readonly exchange: readonly [string, string] | readonly [number, number] }
	| {
			/** A block of stations as two, one after the other: so many stations in the first, and the minutes of both. */
			readonly split: {
				readonly block: string;
				readonly after: number;
				readonly minutes: readonly [number, number];
			};
	  };

/** A target the plan misses. Findings never stop a build. */
export interface Finding {
	readonly code: FindingCode;
	readonly weight: "serious" | "worth a look" | "note";
	readonly what: string;
	readonly why: string;
	readonly fix: string;
	/** Where to change it. */
	readonly source: Source;
	readonly path: DataPath;
	/** How often the one cause shows; 1 where it is left out. */
	readonly count?: number;
	/** What it is about, to list it beside that thing. */
	readonly about: {
		readonly week?: number;
		readonly level?: Id;
		readonly apparatus?: Id;
		readonly drill?: Id;
		readonly skill?: Id;
		readonly shape?: Id;
		readonly class?: Id;
		/** A group by its `class` or `class/group`. */
		readonly group?: string;
		readonly equipment?: Id;
	};
}

/** Kinds of things that are compared one by one, by their ids. */
export const RECORDED_KINDS = [
	"drill",
	"week",
	"level",
	"apparatus",
	"shape",
	"skill",
	"equipment",
	"class",
	"guide",
] as const;
export type RecordedKind = (typeof RECORDED_KINDS)[number];
