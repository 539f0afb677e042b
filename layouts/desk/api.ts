/**
 * What the desk's page and its server say to each other, as types. The server's routes stand in
 * scripts/desk/desk-api.ts; what it is sent is judged by scripts/desk/requests.ts.
 */

import type { Block, DoseNumbers, Finding, Id, PlanChange } from "../../scripts/model.ts";
import type { WhatChangedView } from "../../scripts/views/what-changed.ts";

/** Everything that the desk shows of a club's plan. */
export interface DeskState {
	/** Stands for every byte of the club folder: a change is made to the state that it was decided on. */
	readonly revision: string;
	readonly readOnly: boolean;
	readonly club: string;
	/** Where what is published and printed lies. */
	readonly output: string;
	/** Undefined while nothing sound can be read. */
	readonly board?: Board;
	readonly problems: readonly ProblemLine[];
	/** Files without which the board is shown, because they have errors. */
	readonly leftOut: readonly string[];
	readonly findings: readonly FindingLine[];
	readonly accepted: readonly { readonly finding: FindingLine; readonly reason: string }[];
	/** What would be taken back, and what made again. */
	readonly undo?: string;
	readonly redo?: string;
	readonly drafts: readonly DraftLine[];
	/** What a club has, by kind: for pickers. */
	readonly names: Names;
}

/** Ids and names, by kind of thing, in the club's order. */
export type Names = Readonly<Record<string, readonly Named[]>>;

export interface Named {
	readonly id: Id;
	readonly name: string;
}

export interface Board {
	readonly levels: readonly Named[];
	readonly classes: readonly BoardClass[];
	readonly areas: readonly Named[];
	/** The most often that the same gymnasts come in a week. */
	readonly meetings: number;
	readonly weeks: readonly BoardWeek[];
}

export interface BoardClass extends Named {
	/** Areas in the order in which it visits them. */
	readonly rotation: readonly Id[];
	readonly reach: Reach;
}

/** Of what a club has, how much a class meets in the term. */
export interface Reach {
	readonly shapes: number;
	readonly ofShapes: number;
	readonly skills: number;
	readonly ofSkills: number;
}

export interface BoardWeek {
	readonly week: number;
	/** Undefined where no file plans the week. */
	readonly id?: Id;
	readonly file?: string;
	readonly theme: string;
	/** Its days in words. */
	readonly days?: string;
	readonly areas: readonly BoardArea[];
	readonly byLevel: Readonly<Record<Id, LevelWeek>>;
	readonly byClass: Readonly<Record<Id, ClassWeek>>;
}

export interface BoardArea {
	readonly area: Id;
	readonly focus?: string;
	readonly blocks: readonly BoardBlock[];
}

export interface BoardBlock
	extends Pick<
		Block,
		"kind" | "minutes" | "show" | "change" | "choose" | "levels" | "sessions" | "dose" | "note"
	> {
	/** week/area/number, as in a change list. */
	readonly at: string;
	readonly doses: Readonly<Record<Id, DoseNumbers>>;
	readonly keep: boolean;
	readonly stations: readonly BoardStation[];
	/** Levels and classes for which it counts. */
	readonly countsFor: readonly Id[];
	readonly classes: readonly Id[];
}

export interface BoardStation {
	readonly drill: Id;
	readonly title: string;
	readonly note?: string;
	readonly at?: readonly [number, number] | string;
}

export interface Trained {
	readonly name: string;
	readonly minutes: number;
}

export interface LevelWeek {
	readonly minutes: number;
	readonly trains: readonly Trained[];
}

/** One class in one week, as the measures count it. */
export interface ClassWeek {
	readonly meets: boolean;
	readonly planned: number;
	readonly available?: number;
	readonly activeShare?: number;
	readonly newDrills: number;
	readonly landings: number;
	readonly hands: number;
	/** This week over the weeks before. */
	readonly landingsStep?: number;
	readonly handsStep?: number;
	/** Blocks that ask for more coaches than are there. */
	readonly shortOfCoaches: number;
	/** What comes before its time. */
	readonly outOfOrder: number;
	/** Items that are missing, and that are carried. */
	readonly missing: number;
	readonly carried: number;
	readonly trains: readonly Trained[];
}

export interface ProblemLine {
	readonly code: string;
	readonly severity: "error" | "warning";
	readonly file: string;
	readonly line: number;
	readonly column: number;
	readonly what: string;
	readonly fix: string;
}

export interface FindingLine extends Pick<Finding, "code" | "weight" | "what" | "why" | "fix"> {
	/** What it is, whatever its words and numbers. */
	readonly key: string;
	readonly title: string;
	readonly harm: string;
	readonly about: Readonly<Record<string, string | number>>;
}

export interface DrillLine extends Named {
	readonly file: string;
	readonly areas: readonly Id[];
	readonly levels: readonly Id[];
	/** What is searched beside the title. */
	readonly words: string;
	readonly shapes: readonly string[];
	readonly skills: readonly string[];
	/** Weeks in which it is planned. */
	readonly weeks: readonly number[];
}

/** What came of a change, or would come of it. */
export interface Outcome {
	readonly state: DeskPart;
	readonly come: readonly FindingLine[];
	readonly gone: readonly FindingLine[];
	/** Texts that somebody else saved in that moment, and where they are kept. */
	readonly kept?: readonly string[];
	/** Of a change that is only tried: what it would write, line by line. */
	readonly lines?: readonly string[];
}

/** What coaches' reports would change, and what is wrong with some of them. */
export interface Taught {
	readonly outcome: Outcome;
	/** How many reports came to each end. */
	readonly counts: Readonly<Record<"new" | "newer" | "known" | "corrected" | "refused", number>>;
	readonly told: readonly string[];
	/** By the place of their text among those that were sent. */
	readonly faults: readonly { readonly text: number; readonly fault: string }[];
}

/** An edition whose pages are printed, as a file of the output. */
export interface PrintedEdition {
	readonly file: string;
	/** Of the binder, or of leaves that were changed since. */
	readonly of: "binder" | "packet";
	/** As it is printed. */
	readonly words: string;
}

/** What is other now than in the last edition that was published. */
export interface SinceEdition {
	/** Undefined where nothing is published yet. */
	readonly view?: WhatChangedView;
	/** The newest first. */
	readonly printed: readonly PrintedEdition[];
}

/** A state without what is as it was. */
export interface DeskPart extends Partial<DeskState> {
	readonly revision: string;
	/** The weeks that are other ones now, and what else of the board is; all of it is sent where weeks come or go. */
	readonly weeks?: readonly BoardWeek[];
	readonly frame?: Omit<Board, "weeks">;
	readonly hasUndo: boolean;
	readonly hasRedo: boolean;
}

/** Why something was not done: in words, with what would be wrong. */
export interface Refusal {
	readonly refused: "stale" | "errors" | "conflict" | "wrong" | "read-only" | "busy";
	readonly words: string;
	readonly problems?: readonly ProblemLine[];
	readonly state?: DeskState;
	/** Of a file that somebody changed: as it is there now, and as it would be saved. */
	readonly theirs?: string;
	readonly mine?: string;
	readonly hash?: string;
}

export interface FileText {
	readonly path: string;
	readonly text: string;
	/** Null where there is no file yet. */
	readonly hash: string | null;
	/** Undefined where the YAML cannot be read. */
	readonly data?: unknown;
	readonly body: string;
	readonly problems: readonly ProblemLine[];
	readonly draft?: Draft;
}

/** What is typed and not saved, kept on this machine. */
export interface Draft {
	readonly path: string;
	readonly base: string | null;
	readonly text: string;
	/** ISO 8601. */
	readonly at: string;
}

export type DraftLine = Pick<Draft, "path" | "at">;

/** One thing of a kind, and the file and the place in it where it is written. */
export interface Thing extends Named {
	readonly path: string;
	/** In a data file, the place of its entry. */
	readonly index?: number;
	readonly problems: number;
	readonly isDraft: boolean;
}

/** A field of a form, made of the schemas. */
export interface Field {
	readonly name: string;
	readonly label: string;
	readonly help: string;
	readonly required: boolean;
	readonly form: FieldForm;
}

export type FieldForm =
	| { readonly is: "text"; readonly long: boolean; readonly format?: string }
	| {
			readonly is: "number";
			readonly whole: boolean;
			readonly least?: number;
			readonly most?: number;
	  }
	| { readonly is: "yes" }
	| { readonly is: "choice"; readonly of: readonly Named[] }
	/** One id, of any of these kinds. */
	| { readonly is: "id"; readonly kinds: readonly string[] }
	/** A list of ids; `oneAlone` where a single one stands without brackets. */
	| { readonly is: "ids"; readonly kinds: readonly string[]; readonly oneAlone: boolean }
	| { readonly is: "pair"; readonly of: FieldForm }
	| { readonly is: "list"; readonly of: FieldForm }
	| { readonly is: "group"; readonly fields: readonly Field[] }
	/** Values by id, or by a name. */
	| { readonly is: "map"; readonly kinds: readonly string[]; readonly of: FieldForm }
	/** Several forms, of which one is used. */
	| { readonly is: "either"; readonly forms: readonly FieldForm[] };

/** Something that runs in the background. */
export interface TaskNews {
	readonly task: "build" | "print" | "packet" | "sheets" | "solve";
	readonly state: "running" | "done" | "failed" | "stopped";
	readonly lines: readonly string[];
	/** 0 to 1, where it is known. */
	readonly share?: number;
	readonly label?: string;
	/** Printed files to look at, from the output. */
	readonly printed?: readonly string[];
	/** What the solver found. */
	readonly offer?: Offer;
}

export interface Offer {
	readonly changes: readonly PlanChange[];
	readonly words: readonly string[];
	readonly outcome: Pick<Outcome, "come" | "gone"> & { readonly weeks: readonly BoardWeek[] };
	readonly proof: string;
}

export type DeskNews =
	| { readonly news: "changed"; readonly revision: string }
	| { readonly news: "task"; readonly task: TaskNews };
