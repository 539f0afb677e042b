/**
 * Pages and data as a club writes them. Generated from the schemas by `npm run generate`: do not edit.
 */

/**
 * This level's shapes, in place of the drill's.
 */
export type Sequence = (
	| (string | number)
	| {
			/**
			 * Lower-case letters and digits in words joined by hyphens.
			 */
			shape: string | number;
			/**
			 * What it is done on; left out, it follows from the drill's apparatus and equipment.
			 */
			on?:
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
			/**
			 * What the hands are on, in a body on hands and feet, where that is not what the feet are on.
			 */
			hands?: "floor" | "mat" | "soft-mat" | "block" | "box" | "floor-bar" | "table";
			/**
			 * What carries the body here, where it is not what the shape says.
			 */
			base?:
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
			/**
			 * How the trunk leans here: 0 upright, 90 face down, -90 face up, 180 upside down.
			 */
			tilt?: number;
			/**
			 * From the `side` or from the `front`.
			 */
			view?: "side" | "front";
			angles?: Angles;
	  }
)[];
/**
 * Who helps in this level's figures, in place of the drill's.
 */
export type Helpers = Helper[];
/**
 * Easier ways for this level.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts = string[];
/**
 * Harder ways for this level.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts1 = string[];
/**
 * What else coaches call it, for search.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts2 = string[];
/**
 * The body shapes it trains.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids = (string | number)[];
/**
 * Shapes in the order the body goes through them: a strip of figures. A shape alone, or with how it is carried here.
 */
export type Sequence1 = (
	| (string | number)
	| {
			/**
			 * Lower-case letters and digits in words joined by hyphens.
			 */
			shape: string | number;
			/**
			 * What it is done on; left out, it follows from the drill's apparatus and equipment.
			 */
			on?:
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
			/**
			 * What the hands are on, in a body on hands and feet, where that is not what the feet are on.
			 */
			hands?: "floor" | "mat" | "soft-mat" | "block" | "box" | "floor-bar" | "table";
			/**
			 * What carries the body here, where it is not what the shape says.
			 */
			base?:
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
			/**
			 * How the trunk leans here: 0 upright, 90 face down, -90 face up, 180 upside down.
			 */
			tilt?: number;
			/**
			 * From the `side` or from the `front`.
			 */
			view?: "side" | "front";
			angles?: Angles;
	  }
)[];
/**
 * The skills it leads to.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids1 = (string | number)[];
/**
 * The skills that the gymnast does here, helped or not; `skills` is what the drill prepares. What is performed counts as prepared too.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids2 = (string | number)[];
/**
 * Drills that should have been taught before this one.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids3 = (string | number)[];
/**
 * What to say, in a few words each.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts3 = string[];
/**
 * Coaches who help, drawn in grey beside the sequence's figures: at which step, from where, and where their hands are. For a level that needs no hands they are not drawn.
 */
export type Helpers1 = Helper[];
/**
 * Easier ways, shown beside the drill wherever it is taught.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts4 = string[];
/**
 * Harder ways, shown beside the drill wherever it is taught.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts5 = string[];
/**
 * What the drill is for, in the club's own words: ids of `_data/purposes.yaml`.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids4 = (string | number)[];
export type Block = {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	drill?: string | number;
	/**
	 * Stations side by side; the group splits over them and rotates.
	 *
	 * @minItems 1
	 */
	stations?: {
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		drill: string | number;
		/**
		 * Text; inline Markdown is read.
		 */
		note?: string;
		/**
		 * `[x, y]` in metres on the floor plan, or the name of one of the area's landmarks.
		 */
		at?: number[] | string;
	}[];
	/**
	 * Drills of which the coach chooses; each counts `choose / options` of the minutes and repetitions.
	 *
	 * @minItems 2
	 */
	options?: {
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		drill: string | number;
		/**
		 * Text; inline Markdown is read.
		 */
		note?: string;
	}[];
	/**
	 * How many of the options are done; 1 where it is left out.
	 */
	choose?: number;
	/**
	 * Minutes for the whole block.
	 */
	minutes: number;
	/**
	 * Of the block's minutes, those for showing it.
	 */
	show?: number;
	/**
	 * This week's dose in place of the drill's: for everybody, or by level.
	 */
	dose?:
		| Dose1
		| {
				[k: string]: Dose1;
		  };
	/**
	 * Minutes lost at each change of station; 0.5 where it is left out.
	 */
	change?: number;
	/**
	 * Levels that do this block; all where it is left out.
	 */
	levels?: (string | number) | (string | number)[];
	/**
	 * Only in these meetings of the week, counted from 1, for gymnasts who come more than once; in all where it is left out.
	 */
	session?: number | number[];
	/**
	 * `true` where this block is to stay as it is when a plan is mended.
	 */
	keep?: boolean;
	/**
	 * Text; inline Markdown is read.
	 */
	note?: string;
} & {
	[k: string]: unknown;
};
/**
 * Apparatus ids in the order the class visits them.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids5 = (string | number)[];
/**
 * Apparatus ids in the order the group visits them.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids6 = (string | number)[];
/**
 * Skills and drills a gymnast arrives with.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids7 = (string | number)[];
/**
 * _data/levels.yaml: the levels, lowest first.
 */
export type Levels = LevelsItem[];
/**
 * _data/apparatus.yaml: where work is done.
 */
export type Apparatus = ApparatusItem[];
/**
 * What else coaches call it.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts6 = string[];
/**
 * _data/shapes.yaml: body shapes and the angles their figures are drawn from.
 */
export type Shapes = ShapesItem[];
/**
 * What else coaches call it.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts7 = string[];
/**
 * Skills taught before it.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids8 = (string | number)[];
/**
 * What must be seen for the skill to count; printed on check sheets.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts8 = string[];
/**
 * _data/skills.yaml: what the drills lead to.
 */
export type Skills = SkillsItem[];
/**
 * What else coaches call it.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts9 = string[];
/**
 * _data/equipment.yaml: what the club owns.
 */
export type Equipment2 = EquipmentItem[];
/**
 * What else coaches call it.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts10 = string[];
/**
 * _data/purposes.yaml: the club's own words for what drills are for.
 */
export type Purposes = PurposesItem[];
/**
 * _data/accepted.yaml: findings that the director accepts on purpose.
 */
export type Accepted = AcceptedItem[];
/**
 * _data/words.yaml: the words that the club says, and those that it does not say for them.
 */
export type Words = WordsItem[];
/**
 * Its drills, by which it is found again when the plan changes.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids9 = (string | number)[];
/**
 * _data/taught/<week>.yaml: what coaches reported of a week's classes. `npm run taught` writes it; correct it by hand where it is wrong. No name belongs here.
 *
 * @maxItems 400
 */
export type Taught = TaughtItem[];

export interface WrittenRecords {
	drill: Drill;
	week: Week;
	guide: Guide;
	club: Club;
	term: Term;
	targets: Targets;
	levels: Levels;
	apparatus: Apparatus;
	shapes: Shapes;
	skills: Skills;
	equipment: Equipment2;
	purposes: Purposes;
	accepted: Accepted;
	words: Words;
	taught: Taught;
}
/**
 * The front matter of content/drills/<apparatus>/<id>.md.
 */
export interface Drill {
	/**
	 * The drill's name.
	 */
	title: string;
	/**
	 * Where it can be done: one apparatus id, or a list.
	 */
	apparatus: (string | number) | (string | number)[];
	/**
	 * Who it is for: a list of level ids, or a map of level id to how that level does it.
	 */
	levels:
		| (string | number)[]
		| {
				[k: string]: Dose | null;
		  };
	/**
	 * Text; inline Markdown is read.
	 */
	summary?: string;
	aliases?: Texts2;
	shapes?: Ids;
	sequence?: Sequence1;
	skills?: Ids1;
	performs?: Ids2;
	/**
	 * A complex: a chain done in one go along a line. One repetition performs each skill it names `count` times.
	 *
	 * @minItems 1
	 */
	elements?: Element[];
	after?: Ids3;
	/**
	 * What comes before the first try: repetitions of a drill or skill done this term, or, as text, what the coach must have seen.
	 */
	ready?: (
		| string
		| {
				/**
				 * Lower-case letters and digits in words joined by hyphens.
				 */
				drill?: string | number;
				/**
				 * Lower-case letters and digits in words joined by hyphens.
				 */
				skill?: string | number;
				/**
				 * Repetitions done before the first try.
				 */
				reps: number;
		  }
	)[];
	/**
	 * Which way the body travels or turns.
	 */
	direction?: "forward" | "backward" | "sideways" | "none";
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	partner?: string | number;
	/**
	 * `both`: done symmetrically; `each`: done on each side; `lead`: done on the favoured side only.
	 */
	sides?: "both" | "each" | "lead";
	equipment?: Equipment1;
	/**
	 * Set-up heights: what stands where on the gymnast's body, for every level alike or for each level by its id.
	 */
	heights?: {
		[k: string]:
			| "knee"
			| "hip"
			| "chest"
			| "shoulder"
			| "head"
			| "reach"
			| {
					/**
					 * A height on the gymnast's body; `reach` is the fingertips overhead.
					 */
					[k: string]: "knee" | "hip" | "chest" | "shoulder" | "head" | "reach";
			  };
	};
	/**
	 * Sets, where the level does not say.
	 */
	sets?: number;
	/**
	 * Repetitions in a set, where the level does not say.
	 */
	reps?: number;
	/**
	 * Seconds each repetition is held, where the level does not say.
	 */
	hold?: number;
	/**
	 * What `hold` is counted for: each repetition (as without it), the whole set, or the last repetition of a set.
	 */
	"hold-of"?: "rep" | "set" | "last";
	turn?: Turn1;
	contacts?: Contacts1;
	cues?: Texts3;
	/**
	 * What it looks like when it goes wrong, and what to say.
	 */
	faults?: {
		/**
		 * Text; inline Markdown is read.
		 */
		see: string;
		/**
		 * Text; inline Markdown is read.
		 */
		say: string;
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		shape?: string | number;
		angles?: Angles1;
		/**
		 * How the trunk leans then, where that is wrong.
		 */
		tilt?: number;
	}[];
	/**
	 * Text; inline Markdown is read.
	 */
	spotting?: string;
	/**
	 * Text; inline Markdown is read.
	 */
	caution?: string;
	/**
	 * Coaches whose hands are needed at the station.
	 */
	spotters?: number;
	helpers?: Helpers1;
	/**
	 * Whether a coach has to be looking (runs, heights, upside down); true where `spotters` is more than 0.
	 */
	watch?: boolean;
	easier?: Texts4;
	harder?: Texts5;
	/**
	 * Metres of room before it, for floor plans.
	 */
	run?: number;
	/**
	 * Metres of room after it, for floor plans.
	 */
	"run-out"?: number;
	purpose?: Ids4;
	/**
	 * Pictures or video kept in the club folder's `content/media`.
	 */
	media?: {
		/**
		 * The file's name inside `content/media`.
		 */
		file: string;
		/**
		 * Text; inline Markdown is read.
		 */
		alt: string;
		/**
		 * A picture in `content/media` that stands for a video until somebody starts it. Left out, one is drawn.
		 */
		poster?: string;
		/**
		 * Text; inline Markdown is read.
		 */
		caption?: string;
	}[];
	/**
	 * When somebody last read the drill through.
	 */
	reviewed?: string;
	/**
	 * `false` where nothing is taken of what a library has under the same id: this one stands for itself.
	 */
	"from-library"?: false;
}
export interface Dose {
	/**
	 * How this level does it.
	 */
	do?: string;
	/**
	 * Sets for this level.
	 */
	sets?: number;
	/**
	 * Repetitions in a set for this level.
	 */
	reps?: number;
	/**
	 * Seconds each repetition is held at this level.
	 */
	hold?: number;
	/**
	 * What `hold` is counted for at this level.
	 */
	"hold-of"?: "rep" | "set" | "last";
	turn?: Turn;
	contacts?: Contacts;
	equipment?: Equipment;
	heights?: Heights;
	sequence?: Sequence;
	/**
	 * Where to stand and how to help at this level, in place of the drill's.
	 */
	spotting?: string;
	/**
	 * What could hurt somebody at this level, in place of the drill's.
	 */
	caution?: string;
	/**
	 * Coaches whose hands are needed at this level.
	 */
	spotters?: number;
	helpers?: Helpers;
	/**
	 * Whether a coach has to be looking at this level.
	 */
	watch?: boolean;
	easier?: Texts;
	harder?: Texts1;
	/**
	 * Metres of room before it at this level.
	 */
	run?: number;
	/**
	 * Metres of room after it at this level.
	 */
	"run-out"?: number;
}
/**
 * This level's turn, in place of the drill's.
 */
export interface Turn {
	/**
	 * Seconds for one turn.
	 */
	seconds: number;
	/**
	 * Gymnasts who go at the same time; 1 where it is left out.
	 */
	"at-once"?: number;
	/**
	 * Repetitions in one turn; where it is left out, the level's `reps`: one turn is one set.
	 */
	reps?: number;
}
/**
 * This level's contacts, in place of the drill's.
 */
export interface Contacts {
	/**
	 * Landings on the feet in one repetition.
	 */
	landings?: number;
	/**
	 * Times a hand takes the weight in one repetition.
	 */
	hands?: number;
}
/**
 * What this level needs, in place of the drill's.
 */
export interface Equipment {
	[k: string]:
		| number
		| {
				/**
				 * How many.
				 */
				count: number;
				/**
				 * For each station (as without it) or for each gymnast.
				 */
				per?: "station" | "gymnast";
		  };
}
/**
 * This level's set-up heights, in place of the drill's.
 */
export interface Heights {
	/**
	 * A height on the gymnast's body; `reach` is the fingertips overhead.
	 */
	[k: string]: "knee" | "hip" | "chest" | "shoulder" | "head" | "reach";
}
/**
 * Angles that are different here; the others are the shape's.
 */
export interface Angles {
	/**
	 * Between arm and trunk in degrees: 0 by the side, 180 overhead.
	 */
	shoulder?: number;
	/**
	 * Between upper arm and forearm in degrees, 180 straight.
	 */
	elbow?: number;
	/**
	 * Between trunk and thigh in degrees, 180 straight.
	 */
	hip?: number;
	/**
	 * Between thigh and shank in degrees, 180 straight.
	 */
	knee?: number;
	/**
	 * Between shank and foot in degrees: 90 flexed, 180 pointed.
	 */
	ankle?: number;
	/**
	 * Between the legs in degrees.
	 */
	spread?: number;
	/**
	 * Curve of the trunk in degrees: 0 straight, positive rounded, negative arched.
	 */
	trunk?: number;
	/**
	 * Of the head to the upper trunk in degrees: 0 in line, positive chin to chest; left out, it follows from the rest.
	 */
	neck?: number;
	left?: SideAngles;
	right?: SideAngles1;
}
/**
 * Angles of the left side, where it differs.
 */
export interface SideAngles {
	/**
	 * Between arm and trunk in degrees: 0 by the side, 180 overhead.
	 */
	shoulder?: number;
	/**
	 * Between upper arm and forearm in degrees, 180 straight.
	 */
	elbow?: number;
	/**
	 * Between trunk and thigh in degrees, 180 straight.
	 */
	hip?: number;
	/**
	 * Between thigh and shank in degrees, 180 straight.
	 */
	knee?: number;
	/**
	 * Between shank and foot in degrees: 90 flexed, 180 pointed.
	 */
	ankle?: number;
}
/**
 * Angles of the right side, where it differs.
 */
export interface SideAngles1 {
	/**
	 * Between arm and trunk in degrees: 0 by the side, 180 overhead.
	 */
	shoulder?: number;
	/**
	 * Between upper arm and forearm in degrees, 180 straight.
	 */
	elbow?: number;
	/**
	 * Between trunk and thigh in degrees, 180 straight.
	 */
	hip?: number;
	/**
	 * Between thigh and shank in degrees, 180 straight.
	 */
	knee?: number;
	/**
	 * Between shank and foot in degrees: 90 flexed, 180 pointed.
	 */
	ankle?: number;
}
export interface Helper {
	/**
	 * The step of the sequence, counted from 1; 1 where it is left out.
	 */
	step?: number;
	/**
	 * Where the coach is: at the gymnast's `side` (as without it), before her or behind her.
	 */
	from?: "side" | "front" | "back";
	/**
	 * Whether the coach stands (as without it) or kneels.
	 */
	stance?: "stand" | "kneel";
	/**
	 * Where on the gymnast's body the hands are.
	 *
	 * @minItems 1
	 * @maxItems 2
	 */
	hands: (
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
		| "foot"
	)[];
}
export interface Element {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	skill?: string | number;
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	drill?: string | number;
	/**
	 * Text; inline Markdown is read.
	 */
	text?: string;
	/**
	 * How often in one go; 1 where it is left out.
	 */
	count?: number;
	/**
	 * The turn at its end.
	 */
	turn?: "quarter" | "half" | "full";
}
/**
 * What one station needs: a map of equipment id to a number, or to `{count, per}`.
 */
export interface Equipment1 {
	[k: string]:
		| number
		| {
				/**
				 * How many.
				 */
				count: number;
				/**
				 * For each station (as without it) or for each gymnast.
				 */
				per?: "station" | "gymnast";
		  };
}
/**
 * How long one turn takes, and how many gymnasts go at once.
 */
export interface Turn1 {
	/**
	 * Seconds for one turn.
	 */
	seconds: number;
	/**
	 * Gymnasts who go at the same time; 1 where it is left out.
	 */
	"at-once"?: number;
	/**
	 * Repetitions in one turn; where it is left out, the level's `reps`: one turn is one set.
	 */
	reps?: number;
}
/**
 * Landings and hand contacts of one repetition.
 */
export interface Contacts1 {
	/**
	 * Landings on the feet in one repetition.
	 */
	landings?: number;
	/**
	 * Times a hand takes the weight in one repetition.
	 */
	hands?: number;
}
/**
 * Angles that are wrong then; the others are the shape's.
 */
export interface Angles1 {
	/**
	 * Between arm and trunk in degrees: 0 by the side, 180 overhead.
	 */
	shoulder?: number;
	/**
	 * Between upper arm and forearm in degrees, 180 straight.
	 */
	elbow?: number;
	/**
	 * Between trunk and thigh in degrees, 180 straight.
	 */
	hip?: number;
	/**
	 * Between thigh and shank in degrees, 180 straight.
	 */
	knee?: number;
	/**
	 * Between shank and foot in degrees: 90 flexed, 180 pointed.
	 */
	ankle?: number;
	/**
	 * Between the legs in degrees.
	 */
	spread?: number;
	/**
	 * Curve of the trunk in degrees: 0 straight, positive rounded, negative arched.
	 */
	trunk?: number;
	/**
	 * Of the head to the upper trunk in degrees: 0 in line, positive chin to chest; left out, it follows from the rest.
	 */
	neck?: number;
	left?: SideAngles;
	right?: SideAngles1;
}
/**
 * The front matter of content/weeks/<id>.md.
 */
export interface Week {
	/**
	 * Which teaching week of the term, counted from 1.
	 */
	week: number;
	/**
	 * Text; inline Markdown is read.
	 */
	theme: string;
	/**
	 * `true` where the whole week is to stay as it is when a plan is mended.
	 */
	keep?: boolean;
	/**
	 * A map of apparatus id to what is done there.
	 */
	apparatus: {
		[k: string]: {
			/**
			 * Text; inline Markdown is read.
			 */
			focus?: string;
			/**
			 * The blocks in the order they are taught.
			 */
			blocks: Block[];
		};
	};
}
export interface Dose1 {
	/**
	 * Sets in this block.
	 */
	sets?: number;
	/**
	 * Repetitions in a set in this block.
	 */
	reps?: number;
	/**
	 * Seconds of the hold in this block.
	 */
	hold?: number;
}
/**
 * The front matter of content/guides/<id>.md.
 */
export interface Guide {
	/**
	 * Text; inline Markdown is read.
	 */
	title: string;
	/**
	 * Where it stands in lists; without it, the order of the file.
	 */
	order?: number;
	/**
	 * `false` where nothing is taken of what a library has under the same id: this one stands for itself.
	 */
	"from-library"?: false;
}
/**
 * _data/club.yaml: the club itself.
 */
export interface Club {
	/**
	 * Text; inline Markdown is read.
	 */
	name: string;
	/**
	 * The version of the authoring format that this folder is written in; without it, the present one.
	 */
	format?: number;
	/**
	 * The language of the handbook, as a BCP 47 tag.
	 */
	language?: string;
	/**
	 * The club's time zone, by its IANA name.
	 */
	timezone?: string;
	/**
	 * The paper of the binder.
	 */
	paper?: "A4" | "Letter";
	/**
	 * How leaves are punched.
	 */
	punch?: "two-hole" | "four-hole" | "three-hole";
	/**
	 * Where the staff site is published.
	 */
	site?: string;
	/**
	 * Where corrections go: an e-mail address or a web address.
	 */
	contact?: string;
	/**
	 * Text; inline Markdown is read.
	 */
	place?: string;
	/**
	 * Text; inline Markdown is read.
	 */
	emergency?: string;
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	"emergency-guide"?: string | number;
	/**
	 * Libraries whose drills, guides, shapes, skills and equipment are there as if they were written here: what the club's files name, and what those name. A page or an entry of the same id changes it field by field.
	 */
	libraries?: (
		| string
		| {
				/**
				 * Its folder, from the club's own, or the name of an installed package.
				 */
				from: string;
				/**
				 * What is taken beside what the club's own files name: ids, or `all`.
				 */
				take?: string | string[];
		  }
	)[];
	/**
	 * Text; inline Markdown is read.
	 */
	licence?: string;
	/**
	 * The club's colour, in quotes: heads of parts and tables of the site are of it. White words have to be readable on it.
	 */
	colour?: string;
	/**
	 * The same where the reader has chosen the dark theme; without it, the nearest shade on which dark words can be read.
	 */
	"colour-dark"?: string;
	/**
	 * Text; inline Markdown is read.
	 */
	logo?: string;
	/**
	 * What the coaches' site does without, with every link to it: the findings, the measures, the author guide. The preview of `serve` has it all.
	 *
	 * @minItems 1
	 */
	"leave-out"?: ("findings" | "measures" | "author-guide")[];
	/**
	 * Whether the coaches' site shows sums of what coaches reported: of the whole club and term, none below five, rounded down to fives. Without it the site holds nothing of it.
	 */
	"taught-sums"?: boolean;
}
/**
 * _data/term.yaml: the weeks of the term and the classes of a week.
 */
export interface Term {
	/**
	 * Text; inline Markdown is read.
	 */
	name: string;
	/**
	 * The Monday of the first week.
	 */
	starts: string;
	/**
	 * How many teaching weeks.
	 */
	weeks: number;
	/**
	 * Days without classes: dates, or intervals such as 2027-02-15/2027-02-19.
	 */
	closed?: string[];
	/**
	 * Minutes from one apparatus to the next; 1 where it is left out.
	 */
	between?: number;
	/**
	 * The classes of a week.
	 */
	classes?: {
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		id: string | number;
		/**
		 * Text; inline Markdown is read.
		 */
		name?: string;
		/**
		 * Its level, or its levels; all where it is left out.
		 */
		level?: (string | number) | (string | number)[];
		/**
		 * The day of the week.
		 */
		day?: "monday" | "tuesday" | "wednesday" | "thursday" | "friday" | "saturday" | "sunday";
		/**
		 * When it starts, as "16:30".
		 */
		start?: string;
		/**
		 * How long it lasts.
		 */
		minutes?: number;
		/**
		 * Minutes before the first apparatus.
		 */
		"warm-up"?: number;
		/**
		 * Minutes after the last apparatus.
		 */
		"cool-down"?: number;
		/**
		 * Minutes from one apparatus to the next; the term's where it is left out.
		 */
		between?: number;
		/**
		 * Gymnasts in the class.
		 */
		gymnasts?: number;
		/**
		 * Coaches with the class.
		 */
		coaches?: number;
		/**
		 * The youngest and the oldest age, `[from, to]`.
		 *
		 * @minItems 2
		 * @maxItems 2
		 */
		ages?: number[];
		rotation?: Ids5;
		/**
		 * Groups that work at the same time; what a group does not say is the class's.
		 *
		 * @minItems 1
		 */
		groups?: {
			/**
			 * Lower-case letters and digits in words joined by hyphens.
			 */
			id: string | number;
			/**
			 * Its level, or its levels; the class's where it is left out.
			 */
			level?: (string | number) | (string | number)[];
			/**
			 * Gymnasts in the group.
			 */
			gymnasts?: number;
			/**
			 * Coaches with the group.
			 */
			coaches?: number;
			rotation?: Ids6;
		}[];
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		"same-as"?: string | number;
		/**
		 * Days on which this class alone is cancelled.
		 */
		closed?: string[];
		/**
		 * Text; inline Markdown is read.
		 */
		place?: string;
	}[];
}
/**
 * _data/targets.yaml: the club's own thresholds. A target left out is not checked.
 */
export interface Targets {
	/**
	 * Least number of weeks in which a level trains each shape.
	 */
	"shape-weeks"?: number;
	/**
	 * Least number of weeks in which a level is taught each of its skills.
	 */
	"skill-weeks"?: number;
	/**
	 * Longest gap between two weeks with a shape, in weeks.
	 */
	"shape-gap"?: number;
	/**
	 * Longest gap between two weeks with a skill, in weeks.
	 */
	"skill-gap"?: number;
	/**
	 * Whether forward work wants backward work in the same week.
	 */
	"pair-directions"?: boolean;
	/**
	 * Least share of the class in which each gymnast moves, 0 to 1.
	 */
	"active-share"?: number;
	/**
	 * Largest step of landings, and of hand contacts, over the mean of the three weeks before.
	 */
	"load-step"?: number;
	/**
	 * Months after which a drill wants to be read again.
	 */
	"review-months"?: number;
	/**
	 * Least performed repetitions of each skill of the level in the term, for a gymnast.
	 */
	"skill-reps"?: number;
	/**
	 * Most gymnasts to a coach, by age.
	 */
	ratio?: {
		[k: string]: number;
	};
	/**
	 * Most landings of a gymnast in one session.
	 */
	landings?: number;
	/**
	 * Least share of a level's gymnasts who do a skill alone, for `next-term` to propose it as what the level arrives with.
	 */
	"arrives-with"?: number;
	/**
	 * Most drills new to a class in one week, after the first.
	 */
	"new-drills"?: number;
}
export interface LevelsItem {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	id: string | number;
	/**
	 * Text; inline Markdown is read.
	 */
	name: string;
	/**
	 * Where it stands in lists; without it, the order of the file.
	 */
	order?: number;
	/**
	 * Text; inline Markdown is read.
	 */
	description?: string;
	entry?: Ids7;
	/**
	 * `false` where nothing is taken of what a library has under the same id: this one stands for itself.
	 */
	"from-library"?: false;
}
export interface ApparatusItem {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	id: string | number;
	/**
	 * Text; inline Markdown is read.
	 */
	name: string;
	/**
	 * `area`: a place in the hall that is no apparatus, such as one for warming up; an apparatus where it is left out.
	 */
	kind?: "apparatus" | "area";
	/**
	 * Where it stands in lists; without it, the order of the file.
	 */
	order?: number;
	/**
	 * `[length, width]` of its space in metres.
	 *
	 * @minItems 2
	 * @maxItems 2
	 */
	plan?: number[];
	/**
	 * How many groups fit at a time; 1 where it is left out.
	 */
	groups?: number;
	/**
	 * Sides that are walls: `start` where the length begins, `end` where it ends, `left` and `right` beside it.
	 */
	walls?: ("start" | "end" | "left" | "right")[];
	/**
	 * Named spots on the floor plan; a station can stand `at` one.
	 */
	landmarks?: {
		/**
		 * Text; inline Markdown is read.
		 */
		name: string;
		/**
		 * `[x, y]` in metres.
		 *
		 * @minItems 2
		 * @maxItems 2
		 */
		at: number[];
	}[];
	/**
	 * `false` where nothing is taken of what a library has under the same id: this one stands for itself.
	 */
	"from-library"?: false;
}
export interface ShapesItem {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	id: string | number;
	/**
	 * Text; inline Markdown is read.
	 */
	name: string;
	aliases?: Texts6;
	/**
	 * Text; inline Markdown is read.
	 */
	description?: string;
	/**
	 * Where it stands in lists; without it, the order of the file.
	 */
	order?: number;
	angles?: Angles2;
	/**
	 * Drawn from the side (as without it) or from the front.
	 */
	view?: "side" | "front";
	/**
	 * How the trunk leans in degrees: 0 upright, 90 face down, -90 face up, 180 upside down.
	 */
	tilt?: number;
	/**
	 * What carries the body; `feet` where it is left out.
	 */
	base?:
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
	/**
	 * `false` where nothing is taken of what a library has under the same id: this one stands for itself.
	 */
	"from-library"?: false;
}
/**
 * Joint angles in degrees.
 */
export interface Angles2 {
	/**
	 * Between arm and trunk in degrees: 0 by the side, 180 overhead.
	 */
	shoulder?: number;
	/**
	 * Between upper arm and forearm in degrees, 180 straight.
	 */
	elbow?: number;
	/**
	 * Between trunk and thigh in degrees, 180 straight.
	 */
	hip?: number;
	/**
	 * Between thigh and shank in degrees, 180 straight.
	 */
	knee?: number;
	/**
	 * Between shank and foot in degrees: 90 flexed, 180 pointed.
	 */
	ankle?: number;
	/**
	 * Between the legs in degrees.
	 */
	spread?: number;
	/**
	 * Curve of the trunk in degrees: 0 straight, positive rounded, negative arched.
	 */
	trunk?: number;
	/**
	 * Of the head to the upper trunk in degrees: 0 in line, positive chin to chest; left out, it follows from the rest.
	 */
	neck?: number;
	left?: SideAngles;
	right?: SideAngles1;
}
export interface SkillsItem {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	id: string | number;
	/**
	 * Text; inline Markdown is read.
	 */
	name: string;
	aliases?: Texts7;
	/**
	 * Text; inline Markdown is read.
	 */
	description?: string;
	/**
	 * Where it stands in lists; without it, the order of the file.
	 */
	order?: number;
	/**
	 * Where it is done.
	 */
	apparatus?: (string | number) | (string | number)[];
	/**
	 * Levels that learn it.
	 */
	levels?: (string | number) | (string | number)[];
	needs?: Ids8;
	/**
	 * Its movement pattern, after Alberta SPHEReS; six of the seven are attributed to Russell.
	 */
	pattern?: "landing" | "statics" | "locomotion" | "rotation" | "swing" | "spring" | "handling";
	/**
	 * Which way the body travels or turns.
	 */
	direction?: "forward" | "backward" | "sideways" | "none";
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	opposite?: string | number;
	criteria?: Texts8;
	/**
	 * `false` where nothing is taken of what a library has under the same id: this one stands for itself.
	 */
	"from-library"?: false;
}
export interface EquipmentItem {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	id: string | number;
	/**
	 * Text; inline Markdown is read.
	 */
	name: string;
	aliases?: Texts9;
	/**
	 * Where it stands in lists; without it, the order of the file.
	 */
	order?: number;
	/**
	 * How many the club owns.
	 */
	owned?: number;
	/**
	 * Text; inline Markdown is read.
	 */
	stored?: string;
	/**
	 * `[length, width]` of the floor it takes in metres, length in the direction of the work. Left out, a published or common size is taken.
	 *
	 * @minItems 2
	 * @maxItems 2
	 */
	size?: number[];
	/**
	 * Height in cm, where it cannot be changed.
	 */
	height?: number;
	/**
	 * Least and greatest height in cm, `[least, most]`, where it can be set.
	 *
	 * @minItems 2
	 * @maxItems 2
	 */
	range?: number[];
	/**
	 * Steps in cm in which the height is set; any height where it is left out.
	 */
	step?: number;
	/**
	 * Thickness in cm of what is laid on the floor, for heights above it.
	 */
	thickness?: number;
	/**
	 * Adults who carry one; 1 where it is left out, 0 for what stays where it is.
	 */
	adults?: number;
	/**
	 * `false` where nothing is taken of what a library has under the same id: this one stands for itself.
	 */
	"from-library"?: false;
}
export interface PurposesItem {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	id: string | number;
	/**
	 * Text; inline Markdown is read.
	 */
	name: string;
	aliases?: Texts10;
	/**
	 * Where it stands in lists; without it, the order of the file.
	 */
	order?: number;
	/**
	 * `false` where nothing is taken of what a library has under the same id: this one stands for itself.
	 */
	"from-library"?: false;
}
export interface AcceptedItem {
	/**
	 * The finding's code.
	 */
	finding: string;
	/**
	 * What it is about; a finding matches where all that is said here is so.
	 */
	about?: {
		/**
		 * The week, by its number.
		 */
		week?: number;
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		level?: string | number;
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		apparatus?: string | number;
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		drill?: string | number;
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		skill?: string | number;
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		shape?: string | number;
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		class?: string | number;
		/**
		 * Lower-case letters and digits in words joined by hyphens.
		 */
		equipment?: string | number;
		/**
		 * The group it is about: `class` or `class/group`.
		 */
		group?: string;
	};
	/**
	 * Text; inline Markdown is read.
	 */
	reason: string;
	/**
	 * The last day on which it is accepted; for good where it is left out.
	 */
	until?: string;
}
export interface WordsItem {
	/**
	 * Text; inline Markdown is read.
	 */
	say: string;
	/**
	 * Words that it does not say for it, each as it would be written.
	 *
	 * Items: Text; inline Markdown is read.
	 */
	not: string[];
	/**
	 * Text; inline Markdown is read.
	 */
	note?: string;
}
export interface TaughtItem {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	class: string | number;
	/**
	 * What tells two coaches of a class apart: drawn by the device, for this class and week alone.
	 */
	from?: string;
	/**
	 * How often it was sent changed; the larger holds.
	 */
	revision?: number;
	/**
	 * The edition that the coach had.
	 */
	edition?: number;
	/**
	 * Stands for what came in: an entry that was corrected since is not written over.
	 */
	received?: string;
	/**
	 * A line about the class.
	 */
	note?: string;
	/**
	 * What came of each block; one that is not named counts as planned.
	 *
	 * @maxItems 60
	 */
	blocks?: TaughtBlock[];
	/**
	 * How many can do each skill.
	 *
	 * @maxItems 60
	 */
	skills?: TaughtSkill[];
}
export interface TaughtBlock {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	group?: string | number;
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	apparatus: string | number;
	/**
	 * The block's number in the edition that the coach had.
	 */
	block: number;
	drills?: Ids9;
	/**
	 * Stands for its drills, where the plan no longer has such a block.
	 */
	mark?: string;
	/**
	 * Whether it was taught.
	 */
	done?: "done" | "shortened" | "not-done";
	/**
	 * Minutes lost of a shortened block; half of it where nothing is said.
	 */
	lost?: number;
	/**
	 * Why minutes were lost.
	 */
	cause?: "late" | "set-up" | "coaches" | "settling" | "other";
	/**
	 * How it was for the group.
	 */
	felt?: "too-easy" | "right" | "too-hard";
	/**
	 * Something for the director to look at.
	 */
	look?: "equipment" | "near-miss";
	/**
	 * A line about the block.
	 */
	note?: string;
}
export interface TaughtSkill {
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	group?: string | number;
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	skill: string | number;
	/**
	 * Gymnasts who were there.
	 */
	of: number;
	/**
	 * How many do it alone, by its criteria.
	 */
	alone: number;
	/**
	 * How many do it with help.
	 */
	helped?: number;
}
