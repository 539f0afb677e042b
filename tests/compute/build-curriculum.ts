/**
 * Small linked curricula for tests of the measures, written as plain objects. What a test does not
 * say is left out or set to the simplest value; back links are made as linking makes them.
 */

import { exposuresOf } from "../../scripts/compute/exposures.ts";
import type { Counted } from "../../scripts/compute/measure.ts";
import type {
	Acceptance,
	Apparatus,
	ApparatusPlan,
	Block,
	BlockReport,
	ClassReport,
	Club,
	ClubClass,
	Curriculum,
	DataPath,
	Dose,
	DoseNumbers,
	Drill,
	Equipment,
	Id,
	Level,
	LinkedDrill,
	Occurrence,
	Shape,
	Skill,
	SkillReport,
	Source,
	Station,
	Targets,
	Term,
	WeekPlan,
} from "../../scripts/model.ts";

export type DrillDraft = Omit<Partial<Drill>, "levels"> & {
	readonly id: Id;
	readonly levels: readonly Id[] | Readonly<Record<Id, Dose>>;
};

export interface BlockDraft {
	readonly drill?: Id;
	readonly stations?: readonly (Id | Station)[];
	readonly minutes: number;
	readonly change?: number;
	readonly levels?: readonly Id[];
	readonly options?: readonly (Id | Station)[];
	readonly choose?: number;
	readonly show?: number;
	readonly sessions?: readonly number[];
	readonly dose?: DoseNumbers;
	readonly doses?: Readonly<Record<Id, DoseNumbers>>;
}

export type WeekDraft = Readonly<Record<Id, readonly BlockDraft[]>>;

export interface Draft {
	readonly club?: Partial<Club>;
	readonly levels?: readonly (Id | (Partial<Level> & { readonly id: Id }))[];
	readonly apparatus?: readonly (Id | (Partial<Apparatus> & { readonly id: Id }))[];
	readonly shapes?: readonly Id[];
	readonly skills?: readonly (Partial<Skill> & { readonly id: Id })[];
	readonly equipment?: readonly (Partial<Equipment> & { readonly id: Id })[];
	readonly drills: readonly DrillDraft[];
	/** By week number. */
	readonly weeks?: Readonly<Record<number, WeekDraft>>;
	readonly term?: Omit<Partial<Term>, "classes">;
	readonly classes?: readonly (Partial<ClubClass> & { readonly id: Id })[];
	readonly targets?: Targets;
	readonly accepted?: readonly Acceptance[];
	readonly taught?: readonly ClassReport[];
}

/** A source that can be recognised in a finding: its file, and a line made of the path. */
function sourceOf(file: string): Source {
	return {
		file,
		place: (path: DataPath) => ({ file, line: path.length + 1, column: 1 }),
		bodyPlace: (line: number) => ({ file, line: line + 1, column: 1 }),
	};
}

/** Links a draft. References to what the draft does not list are a mistake of the test and throw. */
export function build(draft: Draft): Curriculum {
	const entry = (id: Id, i: number, file: string) => ({
		id,
		name: id,
		source: sourceOf(`_data/${file}.yaml`),
		path: [i] as DataPath,
	});
	const levels: readonly Level[] = (draft.levels ?? ["junior"]).map((level, i) =>
		typeof level === "string"
			? { ...entry(level, i, "levels"), entry: [] }
			: { ...entry(level.id, i, "levels"), entry: [], ...level },
	);
	const apparatus: readonly Apparatus[] = (draft.apparatus ?? ["floor"]).map((one, i) => {
		const written = typeof one === "string" ? { id: one } : one;
		return { ...entry(written.id, i, "apparatus"), groups: 1, walls: [], landmarks: [], ...written };
	});
	const shapes: readonly Shape[] = (draft.shapes ?? []).map((id, i) => ({
		...entry(id, i, "shapes"),
		aliases: [],
		view: "side",
		tilt: 0,
		base: "feet",
	}));
	const skills: readonly Skill[] = (draft.skills ?? []).map((skill, i) => ({
		...entry(skill.id, i, "skills"),
		aliases: [],
		apparatus: [],
		levels: [],
		needs: [],
		criteria: [],
		...skill,
	}));
	const equipment: readonly Equipment[] = (draft.equipment ?? []).map((item, i) => ({
		...entry(item.id, i, "equipment"),
		aliases: [],
		adults: 1,
		...item,
	}));
	const drills: readonly Drill[] = draft.drills.map((drill) => ({
		title: drill.id,
		apparatus: [apparatus[0]?.id ?? "floor"],
		aliases: [],
		shapes: [],
		sequence: [],
		performs: [],
		elements: [],
		after: [],
		ready: [],
		purpose: [],
		equipment: [],
		heights: new Map(),
		easier: [],
		harder: [],
		cues: [],
		faults: [],
		media: [],
		body: "",
		source: sourceOf(`content/drills/${drill.id}.md`),
		...drill,
		skills: [
			...new Set([
				...(drill.skills ?? []),
				...(drill.performs ?? []),
				...(drill.elements ?? []).flatMap((e) => e.skill ?? []),
			]),
		],
		levels: new Map(
			Array.isArray(drill.levels)
				? drill.levels.map((level: Id): [Id, Dose] => [level, {}])
				: Object.entries(drill.levels),
		),
	}));
	const weeks = Object.entries(draft.weeks ?? {})
		.map(([number, plan]) => weekOf(Number(number), plan))
		.sort((a, b) => a.week - b.week);
	const term: Term = {
		name: "Term",
		starts: "2027-01-04",
		weeks: Math.max(1, ...weeks.map((w) => w.week)),
		closed: [],
		source: sourceOf("_data/term.yaml"),
		...draft.term,
		classes: (draft.classes ?? []).map((group, i) => ({
			name: group.id,
			levels: [],
			warmUp: 0,
			coolDown: 0,
			between: 0,
			groups: [],
			gymnasts: 1,
			rotation: apparatus.map((a) => a.id),
			path: ["classes", i],
			...group,
		})),
	};
	check(drills, weeks, { levels, apparatus, shapes, skills, equipment });

	const linked = drills.map(
		(drill): LinkedDrill => ({
			...drill,
			partners: [
				...new Set([
					...(drill.partner === undefined ? [] : [drill.partner]),
					...drills.filter((other) => other.partner === drill.id).map((other) => other.id),
				]),
			],
			next: drills.filter((other) => other.after.includes(drill.id)).map((other) => other.id),
			planned: occurrences(drill, weeks, levels),
		}),
	);
	const naming = (list: (drill: Drill) => readonly Id[], id: Id): readonly Id[] =>
		drills.filter((drill) => list(drill).includes(id)).map((drill) => drill.id);
	return {
		club: {
			name: "Club",
			language: "en",
			timezone: "Europe/London",
			paper: "A4",
			punch: "two-hole",
			...draft.club,
		},
		origins: new Map(),
		term,
		targets: draft.targets ?? {},
		levels: byId(levels),
		apparatus: byId(apparatus),
		shapes: byId(shapes.map((shape) => ({ ...shape, drills: naming((d) => d.shapes, shape.id) }))),
		skills: byId(
			skills.map((skill) => ({
				...skill,
				leadsTo: skills.filter((s) => s.needs.includes(skill.id)).map((s) => s.id),
				opposites: skills.filter((s) => s.opposite === skill.id || skill.opposite === s.id).map((s) => s.id),
				drills: naming((d) => d.skills, skill.id),
			})),
		),
		equipment: byId(
			equipment.map((item) => ({
				...item,
				drills: naming((d) => d.equipment.map((need) => need.item), item.id),
			})),
		),
		purposes: new Map(),
		accepted: draft.accepted ?? [],
		taught: draft.taught ?? [],
		drills: byId(linked),
		weeks,
		guides: new Map(),
		resolve: () => undefined,
	};
}

/** A curriculum with its exposures, as measures take it. */
export function count(draft: Draft): Counted {
	const curriculum = build(draft);
	return { curriculum, exposures: exposuresOf(curriculum) };
}

function weekOf(week: number, plan: WeekDraft): WeekPlan {
	return {
		id: `week-${week}`,
		week,
		theme: `Theme of week ${week}`,
		apparatus: Object.entries(plan).map(
			([apparatus, blocks]): ApparatusPlan => ({
				apparatus,
				blocks: blocks.map(
					(block, i): Block => ({
						number: i + 1,
						kind:
							block.options !== undefined ? "options" : block.stations === undefined ? "drill" : "stations",
						stations: (block.options ?? block.stations ?? [block.drill ?? ""]).map((s) =>
							typeof s === "string" ? { drill: s } : s,
						),
						choose: block.choose ?? 1,
						minutes: block.minutes,
						show: block.show ?? 0,
						change: block.change ?? 0.5,
						levels: block.levels ?? [],
						sessions: block.sessions ?? [],
						...(block.dose === undefined ? {} : { dose: block.dose }),
						doses: new Map(Object.entries(block.doses ?? {})),
						path: ["apparatus", apparatus, "blocks", i],
					}),
				),
			}),
		),
		body: "",
		source: sourceOf(`content/weeks/week-${week}.md`),
	};
}

function occurrences(
	drill: Drill,
	weeks: readonly WeekPlan[],
	levels: readonly Level[],
): readonly Occurrence[] {
	return weeks.flatMap(({ week, apparatus }) =>
		apparatus.flatMap((plan) =>
			plan.blocks
				.filter((block) => block.stations.some((s) => s.drill === drill.id))
				.map((block) => ({
					week,
					apparatus: plan.apparatus,
					block: block.number,
					levels: levels
						.map((l) => l.id)
						.filter((id) => drill.levels.has(id) && (block.levels.length === 0 || block.levels.includes(id))),
				})),
		),
	);
}

function check(
	drills: readonly Drill[],
	weeks: readonly WeekPlan[],
	known: Readonly<Record<string, readonly { readonly id: Id }[]>>,
): void {
	const require = (kind: string, id: Id, list: readonly { readonly id: Id }[] = []): void => {
		if (!list.some((thing) => thing.id === id)) throw new Error(`The draft has no ${kind} ${id}.`);
	};
	for (const drill of drills) {
		for (const id of drill.apparatus) require("apparatus", id, known.apparatus);
		for (const id of drill.levels.keys()) require("level", id, known.levels);
		for (const id of drill.shapes) require("shape", id, known.shapes);
		for (const id of drill.skills) require("skill", id, known.skills);
		for (const { item } of drill.equipment) require("equipment", item, known.equipment);
	}
	for (const plan of weeks.flatMap((week) => week.apparatus)) {
		require("apparatus", plan.apparatus, known.apparatus);
		for (const { drill } of plan.blocks.flatMap((b) => b.stations)) require("drill", drill, drills);
	}
}

function byId<T extends { readonly id: Id }>(things: readonly T[]): ReadonlyMap<Id, T> {
	return new Map(things.map((thing) => [thing.id, thing]));
}

/** What a coach says of a block; on the floor where nothing is said. */
export type Said = Omit<BlockReport, "path" | "apparatus"> & { readonly apparatus?: Id };

/** A report of a class in a week. */
export function reportOf(
	own: Id,
	week: number,
	blocks: readonly Said[],
	skills: readonly Omit<SkillReport, "path">[] = [],
): ClassReport {
	const place = () => ({ file: `_data/taught/week-${week}.yaml`, line: 1, column: 1 });
	return {
		week: `week-${week}`,
		class: own,
		blocks: blocks.map((one) => ({ apparatus: "floor", ...one, path: [] })),
		skills: skills.map((one) => ({ ...one, path: [] })),
		source: { file: place().file, place, bodyPlace: place },
		path: [0],
	};
}
