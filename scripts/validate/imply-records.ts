/**
 * Fills in for data files that are not there, so that ten drills make a handbook.
 *
 * Where a club has no file for a kind of thing, every id its pages use stands for such a thing, in
 * the order of first use, named after its id. Where the file is there it is taken at its word.
 */

import type { Drill, Entry, EquipmentNeed, FileKind, Id, Phase, Records, Source, Term } from "../model.ts";
import { wordsOf } from "./build-records.ts";

export type WrittenRecords = {
	readonly [K in keyof Records]: Records[K] | undefined;
} & Pick<Records, "drills" | "weeks" | "guides">;

/**
 * @param present the kinds of which a file is there, sound or not
 * @param clubName the club's name where no file says it
 */
export function impliedRecords(
	written: WrittenRecords,
	present: ReadonlySet<FileKind>,
	clubName: string,
): Records {
	const { drills, weeks } = written;
	const imply = (kind: FileKind, uses: Iterable<{ readonly id: Id; readonly source: Source }>) =>
		present.has(kind) ? [] : entriesNamed(uses);
	const fromDrills = (idsOf: (drill: Records["drills"][number]) => Iterable<Id>) =>
		drills.flatMap((drill) => [...idsOf(drill)].map((id) => ({ id, source: drill.source })));
	return {
		club: written.club ?? {
			name: clubName,
			language: "en",
			timezone: "UTC",
			paper: "A4",
			punch: "two-hole",
		},
		term: written.term ?? impliedTerm(weeks),
		targets: written.targets ?? {},
		levels:
			written.levels ??
			imply(
				"levels",
				fromDrills((d) => d.levels.keys()),
			).map((entry) => ({ ...entry, entry: [] })),
		apparatus:
			written.apparatus ??
			imply("apparatus", [
				...fromDrills((d) => d.apparatus),
				...weeks.flatMap((w) => w.apparatus.map(({ apparatus }) => ({ id: apparatus, source: w.source }))),
			]).map((entry) => ({ ...entry, groups: 1, walls: [], landmarks: [] })),
		shapes:
			written.shapes ??
			imply(
				"shapes",
				fromDrills((d) => [
					...d.shapes,
					...sequencesOf(d)
						.flat()
						.map((phase) => phase.shape),
				]),
			).map((entry) => ({ ...entry, aliases: [], view: "side", tilt: 0, base: "feet" })),
		skills:
			written.skills ??
			imply(
				"skills",
				fromDrills((d) => d.skills),
			).map((entry) => ({ ...entry, aliases: [], apparatus: [], levels: [], needs: [], criteria: [] })),
		equipment:
			written.equipment ??
			imply(
				"equipment",
				fromDrills((d) => equipmentOf(d).map((need) => need.item)),
			).map((entry) => ({ ...entry, aliases: [], adults: 1 })),
		purposes:
			written.purposes ??
			imply(
				"purposes",
				fromDrills((d) => d.purpose),
			).map((entry) => ({ ...entry, aliases: [] })),
		accepted: written.accepted ?? [],
		taught: written.taught ?? [],
		words: written.words ?? [],
		drills,
		weeks,
		guides: written.guides,
	};
}

/** What any level of a drill needs. */
function equipmentOf(drill: Drill): readonly EquipmentNeed[] {
	return [...drill.equipment, ...[...drill.levels.values()].flatMap((level) => level.equipment ?? [])];
}

/** The drill's sequence, and those that its levels have in its place. */
function sequencesOf(drill: Drill): readonly (readonly Phase[])[] {
	return [drill.sequence, ...[...drill.levels.values()].map((level) => level.sequence ?? [])];
}

function entriesNamed(uses: Iterable<{ readonly id: Id; readonly source: Source }>): readonly Entry[] {
	const entries = new Map<Id, Entry>();
	for (const { id, source } of uses) {
		if (!entries.has(id)) entries.set(id, { id, name: wordsOf(id), source, path: [] });
	}
	return [...entries.values()];
}

function impliedTerm(weeks: Records["weeks"]): Term {
	return {
		name: "This term",
		weeks: weeks.reduce((most, plan) => Math.max(most, plan.week), 0),
		closed: [],
		classes: [],
		source: NOWHERE,
	};
}

/** The source of what no file says. */
const NOWHERE: Source = {
	file: "_data/term.yaml",
	place: () => ({ file: "_data/term.yaml", line: 1, column: 1 }),
	bodyPlace: () => ({ file: "_data/term.yaml", line: 1, column: 1 }),
};
