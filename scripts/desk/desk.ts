/**
 * A club at the desk: its files as they were last read, and every change that is made of them there.
 *
 * A change goes the way of the commands: made in the texts, read and counted as if it were written, refused
 * where the folder would have an error that it had not before, and then written by the record that `undo`
 * takes back. What is shown afterwards is what was just counted. Steps of a change:
 *
 *   edit     texts → texts, by scripts/edit, comments and lines kept
 *   try      the folder read with those texts in place of its own; only what changed is parsed
 *   compare  new errors refuse it; findings that came and went are told by what they are
 *   write    by a record; a file that is no longer what the change was worked out from stops it
 *
 * While files have errors, the plan is that of the sound ones, and they can be mended one by one.
 */

import type { Board, DeskPart, DeskState, Outcome, Refusal } from "../../layouts/desk/api.ts";
import type { Change } from "../edit/change-set.ts";
import { changesBetween, describeChanges } from "../edit/change-set.ts";
import { type ClubTexts, kindOf, readTexts } from "../edit/club-texts.ts";
import { FilesChanged, lastChange, makeChanges, mendInterrupted, takeBack } from "../edit/make-changes.ts";
import { EditRefused } from "../edit/move-block.ts";
import { newErrors } from "../edit/new-errors.ts";
import { openFolder } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
import { sha256 } from "../files/hash.ts";
import type { Handbook, openHandbook } from "../handbook.ts";
import type { LayerCaches } from "../libraries/layers.ts";
import type { SourceFile } from "../model.ts";
import type { Problem } from "../problems.ts";
import { type ReadCache, readClub, type TriedTexts } from "../read/read-club.ts";
import { RECORD_FILE, recordIn } from "../site/data-files.ts";
import { indexSite } from "../views/site-index.ts";
import { type WhatChangedView, whatChangedView } from "../views/what-changed.ts";
import type { Words } from "../words/words.ts";
import { boardOf } from "./board.ts";
import { draftLines } from "./drafts.ts";
import { comeAndGone, findingLine, findingLines } from "./finding-lines.ts";
import { problemLine } from "./problem-lines.ts";
import { namesIn } from "./things.ts";

/** Rounds in which files are left out because others are. */
const MOST_ROUNDS = 5;

export interface DeskOptions {
	readonly clubDir: string;
	readonly outDir: string;
	readonly readOnly: boolean;
	readonly now: () => Date;
	/** Reads and counts a folder: the stages before the desk. */
	readonly open: typeof openHandbook;
	/** The words of the club's language, while nothing can be read. */
	readonly words: Words;
	/** What the preview beside it has read. */
	readonly cache?: ReadCache;
	readonly libraryCaches?: LayerCaches;
}

/** One reading of the folder. */
interface Reading {
	readonly revision: string;
	readonly problems: readonly Problem[];
	readonly leftOut: readonly string[];
	readonly plan: DeskPlan | undefined;
	readonly files: readonly SourceFile[];
}

/** What the desk shows of a handbook. */
export type DeskPlan = Pick<Handbook, "curriculum" | "exposures" | "findings" | "accepted" | "words">;

/** Something that is not done; said to whoever asked. */
export class Refused extends Error {
	readonly refusal: Refusal;
	constructor(refusal: Refusal) {
		super(refusal.words);
		this.refusal = refusal;
	}
}

export class Desk {
	readonly #options: DeskOptions;
	readonly #cache: ReadCache;
	readonly #libraryCaches: LayerCaches;
	#reading: Reading;
	readonly #redo: { readonly what: string; readonly changes: readonly Change[] }[] = [];
	#shown: { readonly reading: Reading; readonly state: DeskState } | undefined;

	constructor(options: DeskOptions) {
		this.#options = options;
		this.#cache = options.cache ?? new Map();
		this.#libraryCaches = options.libraryCaches ?? new Map();
		if (!options.readOnly) mendInterrupted(options.clubDir);
		this.#reading = this.#read();
	}

	get clubDir(): string {
		return this.#options.clubDir;
	}

	get readOnly(): boolean {
		return this.#options.readOnly;
	}

	get cache(): ReadCache {
		return this.#cache;
	}

	get words(): Words {
		return this.#reading.plan?.words ?? this.#options.words;
	}

	get plan(): DeskPlan | undefined {
		return this.#reading.plan;
	}

	get revision(): string {
		return this.#reading.revision;
	}

	get problems(): readonly Problem[] {
		return this.#reading.problems;
	}

	/** Reads the folder again; says whether anything is another. */
	reread(): boolean {
		const now = this.#read();
		if (now.revision === this.#reading.revision) return false;
		this.#reading = now;
		return true;
	}

	state(): DeskState {
		const reading = this.#reading;
		if (this.#shown?.reading !== reading) this.#shown = { reading, state: this.#stateOf(reading) };
		return { ...this.#shown.state, ...this.#backAndForth(), drafts: draftLines(this.clubDir) };
	}

	/** What would be taken back, and what made again. */
	#backAndForth(): Pick<DeskState, "undo" | "redo"> {
		const undo = this.readOnly ? undefined : lastChange(this.clubDir);
		const redo = this.#redo.at(-1)?.what;
		return { ...(undo === undefined ? {} : { undo }), ...(redo === undefined ? {} : { redo }) };
	}

	/**
	 * Makes a change of the club's texts.
	 *
	 * @param what what `undo` calls it
	 * @param revision the state that it was decided on; undefined where it does not matter
	 * @param only the files that it reads and changes; all of them where it is left out
	 */
	change(
		what: string,
		revision: string | undefined,
		edit: (texts: ClubTexts) => ClubTexts,
		only?: (path: string) => boolean,
	): Outcome {
		this.mayWrite();
		const { next, changes } = this.#tried(revision, edit, only);
		return this.#write(what, changes, next);
	}

	/** What a change would do; nothing is written. */
	tryChange(edit: (texts: ClubTexts) => ClubTexts, only?: (path: string) => boolean): Outcome {
		const { next, changes } = this.#tried(undefined, edit, only);
		// Of a new file the whole is what is new.
		const lines = changes.flatMap((one) => [
			...describeChanges([one]),
			...(one.before === undefined ? (one.after ?? "").trimEnd().split("\n") : []).map(
				(line) => `    +${line}`,
			),
		]);
		return { ...this.#outcome(this.#reading, next), lines };
	}

	/** Takes back the last change of the folder, whoever made it. */
	undo(): Outcome {
		this.mayWrite();
		const before = this.#reading;
		try {
			const taken = lastChange(this.clubDir) === undefined ? undefined : takeBack(this.clubDir);
			if (taken === undefined) throw this.#refused("wrong", this.words.desk.nothingToUndo);
			this.#redo.push({
				what: taken.what,
				changes: taken.changes.map(({ path, before: made, after: was }) => ({
					path,
					...(was === undefined ? {} : { before: was }),
					...(made === undefined ? {} : { after: made }),
				})),
			});
		} catch (error) {
			throw this.#told(error);
		}
		this.#reading = this.#read();
		return this.#outcome(before, this.#reading);
	}

	/** Makes the change again that was taken back last. */
	redo(): Outcome {
		this.mayWrite();
		const last = this.#redo.at(-1);
		if (last === undefined) throw this.#refused("wrong", this.words.desk.nothingToRedo);
		const before = this.#reading;
		try {
			makeChanges(this.clubDir, last.what, last.changes);
		} catch (error) {
			this.#redo.length = 0;
			throw this.#told(error);
		}
		this.#redo.pop();
		this.#reading = this.#read();
		return this.#outcome(before, this.#reading);
	}

	/** The folder as it would be with some texts: its problems and what it is read as. */
	trying(tried: TriedTexts): Pick<Reading, "problems" | "plan"> {
		return this.#read(tried);
	}

	#tried(
		revision: string | undefined,
		edit: (texts: ClubTexts) => ClubTexts,
		only?: (path: string) => boolean,
	): { readonly next: Reading; readonly changes: readonly Change[] } {
		if (revision !== undefined && revision !== this.#reading.revision)
			throw this.#refused("stale", this.words.desk.stale);
		try {
			const before = readTexts(this.clubDir, only);
			const changes = changesBetween(before, edit(before));
			const tried = new Map(changes.map(({ path, after }) => [path, after]));
			const next = changes.length === 0 ? this.#reading : this.#read(tried);
			const news = newErrors(this.#reading.problems, next.problems);
			if (news.length > 0) throw this.#refused("errors", this.words.desk.wouldBreak, news);
			return { next, changes };
		} catch (error) {
			throw this.#told(error);
		}
	}

	#write(what: string, changes: readonly Change[], next: Reading): Outcome {
		const before = this.#reading;
		if (changes.length === 0) return this.#outcome(before, before);
		try {
			const kept = makeChanges(this.clubDir, what, changes);
			this.#redo.length = 0;
			this.#reading = next;
			const outcome = this.#outcome(before, next);
			return kept.length === 0 ? outcome : { ...outcome, kept: kept.map(({ keptAs }) => keptAs) };
		} catch (error) {
			throw this.#told(error);
		}
	}

	/** What is other now than in the edition that was published last; undefined where none was, or files have errors. */
	sinceEdition(): WhatChangedView | undefined {
		const { clubDir, outDir, open } = this.#options;
		const out = givenKind(outDir) === "folder" ? openFolder(outDir) : undefined;
		const before = out?.has(RECORD_FILE) === true ? recordIn(out, RECORD_FILE) : undefined;
		if (before === undefined) return undefined;
		// What coaches reported is never published, so that it is nothing new.
		const { handbook } = open(clubDir, { ...this.#openOptions(), taught: false });
		return handbook && whatChangedView(indexSite(handbook), before);
	}

	#openOptions() {
		const { outDir, now } = this.#options;
		const [cache, libraryCaches] = [this.#cache, this.#libraryCaches];
		// None while the folder is read for the first time.
		const reading: Reading | undefined = this.#reading;
		const { files, plan, leftOut = [] } = reading ?? {};
		const before = plan && leftOut.length === 0 ? { files, curriculum: plan.curriculum } : undefined;
		return { cache, libraryCaches, before, outDir, now: now(), taught: true };
	}

	#read(tried?: TriedTexts): Reading {
		const { clubDir, open } = this.#options;
		const options = { ...this.#openOptions(), ...(tried === undefined ? {} : { tried }) };
		const whole = open(clubDir, options);
		const { problems, files } = whole;
		if (whole.handbook !== undefined) {
			const revision = revisionOf(whole.handbook.fingerprint, files);
			return { revision, problems, files, leftOut: [], plan: whole.handbook };
		}
		const revision = revisionOf(readClub(clubDir, this.#cache, tried).fingerprint, files);
		const leaveOut = new Set<string>();
		let left = problems;
		for (let round = 0; round < MOST_ROUNDS; round++) {
			const size = leaveOut.size;
			for (const { severity, place } of left) if (severity === "error") leaveOut.add(place.file);
			if (leaveOut.size === size) break;
			const rest = open(clubDir, { ...options, leaveOut });
			if (rest.handbook !== undefined)
				return { revision, problems, files, leftOut: [...leaveOut], plan: rest.handbook };
			left = rest.problems;
		}
		return { revision, problems, files, leftOut: [...leaveOut], plan: undefined };
	}

	#stateOf(reading: Reading): DeskState {
		const { plan, problems, leftOut, revision } = reading;
		return {
			revision,
			readOnly: this.readOnly,
			club: plan?.curriculum.club.name ?? "",
			output: this.#options.outDir,
			...(plan === undefined ? {} : { board: boardOf(plan) }),
			problems: problems.map(problemLine),
			leftOut,
			findings: plan === undefined ? [] : findingLines(plan),
			accepted:
				plan === undefined
					? []
					: plan.accepted.map(({ finding, by }) => ({
							finding: findingLine(plan, JSON.stringify(by), finding),
							reason: by.reason,
						})),
			drafts: [],
			names: namesIn(plan, reading.files),
		};
	}

	/** What is other than before; what was shown before is remembered. */
	#outcome(before: Reading, after: Reading): Outcome {
		const old = this.#shown?.reading === before ? this.#shown.state : this.#stateOf(before);
		const now = before === after ? old : this.#stateOf(after);
		if (after === this.#reading) this.#shown = { reading: after, state: now };
		const board = boardPart(old.board, now.board);
		const history = this.#backAndForth();
		return {
			state: {
				revision: now.revision,
				findings: now.findings,
				accepted: now.accepted,
				problems: now.problems,
				leftOut: now.leftOut,
				...(same(now.names, old.names) ? {} : { names: now.names }),
				club: now.club,
				...board,
				drafts: draftLines(this.clubDir),
				hasUndo: history.undo !== undefined,
				hasRedo: history.redo !== undefined,
				...history,
			},
			...comeAndGone(old.findings, now.findings),
		};
	}

	mayWrite(): void {
		if (this.readOnly) throw new Refused({ refused: "read-only", words: this.words.desk.readOnly });
	}

	#refused(refused: Refusal["refused"], words: string, problems: readonly Problem[] = []): Refused {
		return new Refused({
			refused,
			words,
			...(problems.length === 0 ? {} : { problems: problems.map(problemLine) }),
			...(refused === "stale" ? { state: this.state() } : {}),
		});
	}

	#told(error: unknown): unknown {
		if (error instanceof EditRefused) return this.#refused("wrong", error.message);
		if (!(error instanceof FilesChanged)) return error;
		this.reread();
		return this.#refused("stale", this.words.desk.changedMeanwhile(error.paths.join(", ")));
	}
}

/** Stands for all that is counted here: what coaches reported is of no edition, and so in no fingerprint. */
function revisionOf(fingerprint: string, files: readonly SourceFile[]): string {
	const taught = files.flatMap(({ kind, file, data }) => (kind === "taught" ? [[file, data]] : []));
	return taught.length === 0 ? fingerprint : sha256(JSON.stringify([fingerprint, taught]));
}

/** What of a board is another: some weeks, or all of it. */
function boardPart(
	old: Board | undefined,
	now: Board | undefined,
): Pick<DeskPart, "weeks" | "frame" | "board"> {
	if (now === undefined) return {};
	if (old?.weeks.length !== now.weeks.length) return { board: now, weeks: now.weeks };
	const frameOf = ({ weeks: _, ...frame }: Board) => frame;
	return {
		weeks: now.weeks.filter((week, i) => !same(week, old.weeks[i])),
		...(same(frameOf(old), frameOf(now)) ? {} : { frame: frameOf(now) }),
	};
}

export function isWeek(path: string): boolean {
	return kindOf(path) === "week";
}

function same(a: unknown, b: unknown): boolean {
	return JSON.stringify(a) === JSON.stringify(b);
}
