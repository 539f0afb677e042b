/**
 * Validates a club: source files → records, every field checked, or problems; all of them at once.
 *
 * Steps: judge each file by its schema; check what a schema cannot say (file names, folders,
 * intervals, Mondays); turn sound data into records; fill in for data files that a small club has
 * not written yet. A file or list entry with a problem makes no record, but its id is remembered,
 * so that what refers to it is not reported as well; and what it says in its sound parts is kept, so
 * that its other mistakes are found in the same run.
 */

import {
	type Drill,
	type FileKind,
	type Id,
	isPageKind,
	type LinkKind,
	type Records,
	type SourceFile,
	type Term,
	type WeekPlan,
} from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import type { ReadClub } from "../read/read-club.ts";
import {
	acceptedFrom,
	clubFrom,
	drillFrom,
	entriesFrom,
	guideFrom,
	partialDrillFrom,
	partialWeekFrom,
	targetsFrom,
	taughtFrom,
	termFrom,
	weekFrom,
	wordsFrom,
} from "./build-records.ts";
import { checkDrillFolder, checkFileNames, checkTerm } from "./check-files.ts";
import { checkStyle } from "./check-style.ts";
import { checkColours } from "./club-colours.ts";
import { impliedRecords } from "./imply-records.ts";
import { idFrom, judgeData, soundPartsOf } from "./judge-data.ts";

/** Records, and what is known to exist although it made no record. */
export interface ValidatedClub {
	readonly records: Records;
	/** Every file that could be read, at fault or not. */
	readonly files: readonly SourceFile[];
	/** The sound parts of pages at fault: for finding what else is wrong with them, and nothing more. */
	readonly partial: { readonly drills: readonly Drill[]; readonly weeks: readonly WeekPlan[] };
	readonly problems: readonly Problem[];
	/** The club's own style sheet as it is published. */
	readonly style?: string;
	/** Ids of things whose own file has a problem. */
	readonly broken: ReadonlyMap<LinkKind, ReadonlySet<Id>>;
	/** Kinds of which a whole file could not be read: any id may have been in it. */
	readonly unknown: ReadonlySet<LinkKind>;
	/** Kinds of files of which one is at fault or could not be read. */
	readonly brokenFiles: ReadonlySet<FileKind>;
}

const LISTED_KINDS = {
	levels: "level",
	apparatus: "apparatus",
	shapes: "shape",
	skills: "skill",
	equipment: "equipment",
} as const satisfies Partial<Record<FileKind, LinkKind>>;

const LINK_KIND_OF: Readonly<Partial<Record<FileKind, LinkKind>>> = {
	drill: "drill",
	week: "week",
	guide: "guide",
	...LISTED_KINDS,
};

/**
 * A file that was read stays the same for ever, and `serve` brings the same one again at every change of
 * another: it is judged once, and its record made once. What is counted of a week, a block or the term is
 * kept by that record: after a change of one week, the desk counts in half the time.
 */
const knownSound = new WeakSet<SourceFile>();
const drillOf = new WeakMap<SourceFile, Drill>();
const weekOf = new WeakMap<SourceFile, WeekPlan>();
const termOf = new WeakMap<SourceFile, Term>();

function once<T>(known: WeakMap<SourceFile, T>, file: SourceFile, make: (file: SourceFile) => T): T {
	const before = known.get(file);
	if (before !== undefined) return before;
	const made = make(file);
	known.set(file, made);
	return made;
}

/** @param clubName the club's name where _data/club.yaml does not say it */
export function validateClub(read: ReadClub, clubName: string): ValidatedClub {
	const problems: Problem[] = [...read.problems, ...checkFileNames(read.files)];
	const broken = new Map<LinkKind, Set<Id>>();
	const unknown = new Set<LinkKind>();
	const brokenFiles = new Set<FileKind>(read.unreadable.map(({ kind }) => kind));
	const sound: SourceFile[] = [];
	const partial = { drills: [] as Drill[], weeks: [] as WeekPlan[] };
	const remember = (kind: LinkKind, id: Id): void => {
		const ids = broken.get(kind) ?? new Set<Id>();
		// Whoever refers to a thing whose id is misspelt may well have spelt it right.
		broken.set(kind, ids.add(id).add(idFrom(id) ?? id));
	};

	for (const { kind, id } of read.unreadable) {
		const linkKind = LINK_KIND_OF[kind];
		if (isPageKind(kind)) remember(kind, id);
		else if (linkKind !== undefined) unknown.add(linkKind);
	}
	for (const file of read.files) {
		const found = knownSound.has(file) ? [] : judgeData(file);
		problems.push(...found);
		if (found.length > 0) brokenFiles.add(file.kind);
		if (found.length === 0) {
			knownSound.add(file);
			sound.push(file);
			continue;
		}
		const kind = LINK_KIND_OF[file.kind];
		if (kind === undefined) continue;
		if (file.kind === "drill") partial.drills.push(...some(partialDrillFrom(file, soundPartsOf(file))));
		if (file.kind === "week") partial.weeks.push(...some(partialWeekFrom(file, soundPartsOf(file))));
		if (isPageKind(file.kind)) remember(kind, file.id);
		else if (!Array.isArray(file.data)) unknown.add(kind);
		else for (const id of idsIn(file.data)) remember(kind, id);
	}

	const written = { ...recordsOf(sound), unknown };
	for (const drill of [...written.drills, ...partial.drills]) problems.push(...checkDrillFolder(drill));
	const termFile = sound.find((f) => f.kind === "term");
	if (termFile !== undefined) problems.push(...checkTerm(termFile, termFrom(termFile)));
	if (read.files.every((f) => f.kind !== "drill") && read.unreadable.every((f) => f.kind !== "drill")) {
		problems.push(problem("H111", { file: "content/drills", line: 1, column: 1 }, "No drill was found."));
	}
	const clubFile = sound.find((f) => f.kind === "club");
	if (clubFile !== undefined) problems.push(...checkColours(clubFile, clubFrom(clubFile)));
	const style = read.style && checkStyle(read.style);
	problems.push(...(style?.problems ?? []));
	const present = new Set<FileKind>([...read.files, ...read.unreadable].map((f) => f.kind));
	if (problems.some(({ severity }) => severity === "error")) {
		// Without a list of its own, what there is of a kind is what the pages name: those at fault, too.
		for (const [file, kind] of Object.entries(LISTED_KINDS)) {
			if (!present.has(file as FileKind)) unknown.add(kind);
		}
	}
	const records = impliedRecords(written, present, clubName);
	return {
		records,
		files: read.files,
		partial,
		problems,
		...(style?.css === undefined ? {} : { style: style.css }),
		broken,
		unknown,
		brokenFiles,
	};
}

function some<T>(thing: T | undefined): readonly T[] {
	return thing === undefined ? [] : [thing];
}

/** Records of the files that are sound; a kind whose file is not among them is left out. */
function recordsOf(files: readonly SourceFile[]) {
	const one = (kind: FileKind): SourceFile | undefined => files.find((f) => f.kind === kind);
	const all = (kind: FileKind): readonly SourceFile[] => files.filter((f) => f.kind === kind);
	const club = one("club");
	const term = one("term");
	const targets = one("targets");
	const accepted = one("accepted");
	const words = one("words");
	return {
		club: club && clubFrom(club),
		term: term && once(termOf, term, termFrom),
		targets: targets && targetsFrom(targets),
		...entriesFrom(one),
		accepted: accepted && acceptedFrom(accepted),
		taught: all("taught").flatMap(taughtFrom),
		words: words && wordsFrom(words),
		drills: all("drill").map((file) => once(drillOf, file, drillFrom)),
		weeks: all("week").map((file) => once(weekOf, file, weekFrom)),
		guides: all("guide").map(guideFrom),
	};
}

function idsIn(data: readonly unknown[]): readonly Id[] {
	return data.flatMap((item) =>
		typeof item === "object" && item !== null && "id" in item ? [String(item.id)] : [],
	);
}
