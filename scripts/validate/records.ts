/**
 * Pages and data as a club writes them. Generated from the schemas by `npm run generate`: do not edit.
 */

/**
 * What else coaches call it, for search.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts = string[];
/**
 * The body shapes it trains.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids = (string | number)[];
/**
 * The skills it leads to.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids1 = (string | number)[];
/**
 * Drills that should have been taught before this one.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids2 = (string | number)[];
/**
 * What to say, in a few words each.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts1 = string[];
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
		 * `[x, y]` in metres on the floor plan.
		 *
		 * @minItems 2
		 * @maxItems 2
		 */
		at?: number[];
	}[];
	/**
	 * Minutes for the whole block.
	 */
	minutes: number;
	/**
	 * Minutes lost at each change of station; 0.5 where it is left out.
	 */
	change?: number;
	/**
	 * Levels that do this block; all where it is left out.
	 */
	levels?: (string | number) | (string | number)[];
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
export type Ids3 = (string | number)[];
/**
 * Skills a gymnast arrives with.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids4 = (string | number)[];
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
export type Texts2 = string[];
/**
 * _data/shapes.yaml: body shapes and the angles their figures are drawn from.
 */
export type Shapes = ShapesItem[];
/**
 * What else coaches call it.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts3 = string[];
/**
 * Skills taught before it.
 *
 * Items: Lower-case letters and digits in words joined by hyphens.
 */
export type Ids5 = (string | number)[];
/**
 * _data/skills.yaml: what the drills lead to.
 */
export type Skills = SkillsItem[];
/**
 * What else coaches call it.
 *
 * Items: Text; inline Markdown is read.
 */
export type Texts4 = string[];
/**
 * _data/equipment.yaml: what the club owns.
 */
export type Equipment = EquipmentItem[];

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
	equipment: Equipment;
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
	 * One sentence for lists, cards and search.
	 */
	summary?: string;
	aliases?: Texts;
	shapes?: Ids;
	/**
	 * Shapes in the order the body goes through them: a strip of figures. A shape alone, or with how it is carried here.
	 */
	sequence?: (
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
					| "floor-bar";
				/**
				 * What the hands are on, in a body on hands and feet, where that is not what the feet are on.
				 */
				hands?: "floor" | "mat" | "soft-mat" | "block" | "box" | "floor-bar";
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
	skills?: Ids1;
	after?: Ids2;
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
	/**
	 * What one station needs: a map of equipment id to a number, or to `{count, per}`.
	 */
	equipment?: {
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
	};
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
	 * How long one turn takes, and how many gymnasts go at once.
	 */
	turn?: {
		/**
		 * Seconds for one turn.
		 */
		seconds: number;
		/**
		 * Gymnasts who go at the same time; 1 where it is left out.
		 */
		"at-once"?: number;
	};
	/**
	 * Landings and hand contacts of one repetition.
	 */
	contacts?: {
		/**
		 * Landings on the feet in one repetition.
		 */
		landings?: number;
		/**
		 * Times a hand takes the weight in one repetition.
		 */
		hands?: number;
	};
	cues?: Texts1;
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
	emergency?: string;
	/**
	 * Lower-case letters and digits in words joined by hyphens.
	 */
	"emergency-guide"?: string | number;
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
		rotation?: Ids3;
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
	entry?: Ids4;
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
	aliases?: Texts2;
	/**
	 * Text; inline Markdown is read.
	 */
	description?: string;
	/**
	 * Where it stands in lists; without it, the order of the file.
	 */
	order?: number;
	angles?: Angles1;
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
}
/**
 * Joint angles in degrees.
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
	aliases?: Texts3;
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
	needs?: Ids5;
	/**
	 * Its movement pattern.
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
	aliases?: Texts4;
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
}
