/**
 * The plan as a device needs it to make the coverage tables and the term's overview: names, weeks, drills
 * that are planned, the minutes of each, and how shapes and skills stand against the targets. Things are named by their places in lists, so that it is a few kilobytes where
 * the tables, which show the same minutes by week, level, apparatus, shape and skill, are megabytes.
 */

import type { SpacedKind } from "../../compute/spacing.ts";
import type { Direction, Exposure, Id, LinkedDrill, Targets } from "../../model.ts";
import type { FrameFacts } from "../site.ts";
import type { BinderFile, TermStanding } from "../views/term.ts";

/** Where it stands in an edition; a host has it only within a pack. */
export const PLAN = "coverage/plan.json";

/** A standing is a sum of these. */
export const STANDS = { there: 1, tooFew: 2, tooFar: 4 } as const;

export type IdAndName = readonly [id: Id, name: string];

export interface PlanFile {
	/** Without its words, which come with the program, and what no table says. */
	readonly frame: Omit<FrameFacts, "words" | "printed" | "site"> & {
		/** Of printed sheets only those that the pages link to. */
		readonly printed: readonly string[];
	};
	readonly term: { readonly name: string; readonly weeks: number };
	readonly binder?: BinderFile;
	readonly targets: Pick<Targets, "shapeWeeks" | "skillWeeks" | "shapeGap" | "skillGap">;
	readonly levels: readonly IdAndName[];
	readonly apparatus: readonly IdAndName[];
	readonly shapes: readonly IdAndName[];
	readonly skills: readonly (readonly [...IdAndName, apparatus: readonly number[]])[];
	readonly weeks: readonly (readonly [id: Id, week: number])[];
	/** For each shape and skill a digit for each level: `STANDS` where it is met or should be, and what it misses. */
	readonly standings: Readonly<Record<SpacedKind, readonly string[]>>;
	/** Those that are planned; shapes and skills by their places. */
	readonly drills: readonly (readonly [
		id: Id,
		title: string,
		shapes: readonly number[],
		skills: readonly number[],
		direction?: Direction,
	])[];
	/** In the order of the plan; level, apparatus and drill by their places. */
	readonly exposures: readonly (readonly [
		week: number,
		level: number,
		apparatus: number,
		block: number,
		drill: number,
		minutes: number,
		repetitions?: number,
	])[];
}

/** What is read back: the parts of a curriculum that the tables are counted from and named by. */
export interface ReadPlan extends Pick<PlanFile, "binder" | "frame" | "targets" | "term"> {
	readonly levels: ReadonlyMap<Id, { readonly name: string }>;
	readonly apparatus: ReadonlyMap<Id, { readonly name: string }>;
	readonly shapes: ReadonlyMap<Id, { readonly name: string }>;
	readonly skills: ReadonlyMap<Id, { readonly name: string; readonly apparatus: readonly Id[] }>;
	readonly standings: readonly (TermStanding & { readonly kind: SpacedKind })[];
	readonly weeks: readonly { readonly id: Id; readonly week: number }[];
	readonly drills: ReadonlyMap<Id, Pick<LinkedDrill, "title" | "shapes" | "skills" | "direction">>;
	readonly exposures: readonly Exposure[];
}

export function readPlan(text: string): ReadPlan {
	const file = JSON.parse(text) as PlanFile;
	const named = (list: readonly IdAndName[]) => new Map(list.map(([id, name]) => [id, { name }]));
	const idAt = (list: readonly (readonly [Id, ...unknown[]])[]) => (place: number) => list[place]?.[0] ?? "";
	const [level, apparatus, drill] = [idAt(file.levels), idAt(file.apparatus), idAt(file.drills)];
	return {
		frame: file.frame,
		targets: file.targets,
		term: file.term,
		...(file.binder === undefined ? {} : { binder: file.binder }),
		levels: named(file.levels),
		apparatus: named(file.apparatus),
		shapes: named(file.shapes),
		skills: new Map(
			file.skills.map(([id, name, places]) => [id, { name, apparatus: places.map(apparatus) }]),
		),
		standings: (["shape", "skill"] as const).flatMap((kind) =>
			file.standings[kind].flatMap((digits, thing) =>
				Array.from(digits, Number).flatMap((stands, place) =>
					stands === 0
						? []
						: {
								kind,
								spacing: { id: file[`${kind}s`][thing]?.[0] ?? "", level: level(place) },
								tooFew: (stands & STANDS.tooFew) !== 0,
								tooFar: (stands & STANDS.tooFar) !== 0,
							},
				),
			),
		),
		weeks: file.weeks.map(([id, week]) => ({ id, week })),
		drills: new Map(
			file.drills.map(([id, title, shapes, skills, direction]) => [
				id,
				{
					title,
					shapes: shapes.map(idAt(file.shapes)),
					skills: skills.map(idAt(file.skills)),
					...(direction === undefined ? {} : { direction }),
				},
			]),
		),
		exposures: file.exposures.map((one) => ({
			week: one[0],
			level: level(one[1]),
			apparatus: apparatus(one[2]),
			block: one[3],
			drill: drill(one[4]),
			minutes: one[5],
			...(one[6] === undefined ? {} : { repetitions: one[6] }),
		})),
	};
}
