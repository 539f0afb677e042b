/**
 * Joins records whose references are proved: what each thing points at, it is pointed back from.
 *
 * Devices join the records that they are sent with the same function; the build has put those in order,
 * since browsers may sort letters in other ways.
 */

import {
	type Apparatus,
	type Curriculum,
	type Dose,
	type Drill,
	type EquipmentNeed,
	type Id,
	LINK_KINDS,
	type LinkedDrill,
	type LinkedSkill,
	type LinkKind,
	type LinkTarget,
	type Occurrence,
	type Records,
	type Station,
	type WeekPlan,
} from "../model.ts";
import { MadeMap } from "./made-map.ts";
import type { IdKind } from "./reference-fields.ts";

/** Records with as much of their drills as is asked for. */
type Joinable<D> = Omit<Records, "drills"> & { readonly drills: readonly D[] };

/** The name of every thing that has an id, by kind. */
export type Names = ReadonlyMap<IdKind, ReadonlyMap<Id, string>>;

export function namesOf(records: Joinable<Pick<Drill, "id" | "title">>): Names {
	const named = (things: readonly { readonly id: Id; readonly name: string }[]) =>
		new Map(things.map((t) => [t.id, t.name]));
	return new Map<IdKind, ReadonlyMap<Id, string>>([
		["drill", new Map(records.drills.map((d) => [d.id, d.title]))],
		["skill", named(records.skills)],
		["shape", named(records.shapes)],
		["apparatus", named(records.apparatus)],
		["level", named(records.levels)],
		["week", new Map(records.weeks.map((w) => [w.id, w.theme]))],
		["equipment", named(records.equipment)],
		["guide", new Map(records.guides.map((g) => [g.id, g.title]))],
		["class", named(records.term.classes)],
		["purpose", named(records.purposes)],
	]);
}

/** Splits `kind:id`; the kind is undefined where none is named. */
export function parseReference(reference: string): { readonly kind?: LinkKind; readonly id: Id } {
	const [head = "", tail] = reference.split(":");
	const kind = LINK_KINDS.find((k) => k === head.trim());
	return kind !== undefined && tail !== undefined ? { kind, id: tail.trim() } : { id: reference };
}

/** What a reference stands for; undefined where nothing has that id. */
export function resolveIn(names: Names, reference: string): LinkTarget | undefined {
	const { kind, id } = parseReference(reference);
	for (const candidate of kind === undefined ? LINK_KINDS : [kind]) {
		const name = names.get(candidate)?.get(id);
		if (name !== undefined) return { kind: candidate, id, name };
	}
	return undefined;
}

/** The records in the club's order: drills by apparatus then title, weeks by number, guides by `order`. */
export function inOrder(records: Records): Records {
	const apparatusRank = new Map(records.apparatus.map((a, i) => [a.id, i]));
	const compare = new Intl.Collator(records.club.language).compare;
	const rank = (drill: Drill): number => apparatusRank.get(drill.apparatus[0] ?? "") ?? apparatusRank.size;
	const drills = nearlyInOrder(records.drills).sort(
		(a, b) => rank(a) - rank(b) || compare(a.title, b.title) || (a.id < b.id ? -1 : 1),
	);
	drills.forEach((drill, i) => {
		lastPlace.set(drill, i);
	});
	const last = Number.POSITIVE_INFINITY;
	return {
		...records,
		drills,
		weeks: records.weeks.map((week) => atLandmarks(week, records.apparatus)).sort((a, b) => a.week - b.week),
		guides: [...records.guides].sort(
			(a, b) => (a.order ?? last) - (b.order ?? last) || compare(a.title, b.title),
		),
	};
}

/** What any level of a drill needs. */
function needsOf(drill: Pick<Joined, "equipment" | "levels">): readonly EquipmentNeed[] {
	return [...drill.equipment, ...[...drill.levels.values()].flatMap((level) => level.equipment ?? [])];
}

/** A week whose stations at a named spot have its place. What has none, or has it already, stays as it is. */
function atLandmarks(week: WeekPlan, all: Iterable<Apparatus>): WeekPlan {
	const isToPlace = ({ landmark, at }: Station): boolean => landmark !== undefined && at === undefined;
	if (!week.apparatus.some((p) => p.blocks.some((b) => b.stations.some(isToPlace)))) return week;
	const spots = new Map(Array.from(all, ({ id, landmarks }) => [id, landmarks]));
	return {
		...week,
		apparatus: week.apparatus.map((plan) => ({
			...plan,
			blocks: plan.blocks.map((block) => {
				if (!block.stations.some(isToPlace)) return block;
				const stations = block.stations.map((station) => {
					const spot = spots.get(plan.apparatus)?.find(({ name }) => name === station.landmark);
					return spot === undefined ? station : { ...station, at: spot.at };
				});
				return { ...block, stations };
			}),
		})),
	};
}

/** What joining asks of a drill. */
export interface Joined extends Pick<Drill, "id" | "title" | "after" | "skills" | "shapes" | "equipment"> {
	readonly partner?: Id | undefined;
	readonly levels: ReadonlyMap<Id, Pick<Dose, "equipment">>;
}

/**
 * Everything joined both ways. The records stand in the club's order.
 *
 * @param whole the drill with all that it says: devices read it when it is first asked for
 */
export function join<D extends Joined>(
	records: Joinable<D>,
	whole: (drill: D) => Drill,
	origins: Curriculum["origins"] = new Map(),
	names: Names = namesOf(records),
): Curriculum {
	const { drills, weeks } = records;
	const partners = pairs(drills.map((d) => [d.id, d.partner]));
	const opposites = pairs(records.skills.map((s) => [s.id, s.opposite]));
	const next = reversed(drills.map((d) => [d.id, d.after]));
	const leadsTo = reversed(records.skills.map((s) => [s.id, s.needs]));
	const ofSkill = reversed(drills.map((d) => [d.id, d.skills]));
	const ofShape = reversed(drills.map((d) => [d.id, d.shapes]));
	const ofEquipment = reversed(drills.map((d) => [d.id, needsOf(d).map((need) => need.item)]));
	const planned = occurrences({ ...records, drills: byId(drills) });

	return {
		club: records.club,
		origins,
		term: records.term,
		targets: records.targets,
		levels: byId(records.levels),
		apparatus: byId(records.apparatus),
		shapes: byId(records.shapes.map((shape) => ({ ...shape, drills: ofShape.get(shape.id) ?? [] }))),
		skills: byId(
			records.skills.map(
				(skill): LinkedSkill => ({
					...skill,
					leadsTo: leadsTo.get(skill.id) ?? [],
					opposites: opposites.get(skill.id) ?? [],
					drills: ofSkill.get(skill.id) ?? [],
				}),
			),
		),
		purposes: byId(records.purposes),
		accepted: records.accepted,
		taught: records.taught,
		equipment: byId(records.equipment.map((item) => ({ ...item, drills: ofEquipment.get(item.id) ?? [] }))),
		drills: new MadeMap(
			drills,
			(drill): LinkedDrill => ({
				...whole(drill),
				partners: partners.get(drill.id) ?? [],
				next: next.get(drill.id) ?? [],
				planned: planned.get(drill.id) ?? [],
			}),
		),
		weeks,
		guides: byId(records.guides),
		resolve: (reference) => resolveIn(names, reference),
	};
}

/** Where drills stood when a club was joined last: `serve` brings most of them again at every change. */
const lastPlace = new WeakMap<Drill, number>();

/** A copy in the order of the last time, new ones at the end: to sort what is in order already is quick. */
function nearlyInOrder(drills: readonly Drill[]): Drill[] {
	const placed: Drill[] = [];
	const others: Drill[] = [];
	for (const drill of drills) {
		const place = lastPlace.get(drill);
		if (place === undefined || placed[place] !== undefined) others.push(drill);
		else placed[place] = drill;
	}
	// Places of drills that are no more are holes, which `filter` passes over.
	return [...placed.filter(() => true), ...others];
}

const originals = new WeakMap<Curriculum, Curriculum>();

/**
 * The curriculum that a tried one was made from: the same for all that differ in the plans of their weeks
 * alone. What is counted for a block, or for a group's week, is kept by it: a plan that is tried asks only
 * for what it changes.
 */
export function originalOf(curriculum: Curriculum): Curriculum {
	return originals.get(curriculum) ?? curriculum;
}

/**
 * A curriculum with other plans of its weeks, whose references are proved.
 *
 * @param resolve where their names are others, too
 */
export function withWeeks(
	curriculum: Curriculum,
	plans: readonly WeekPlan[],
	resolve = curriculum.resolve,
): Curriculum {
	const weeks = plans.map((week) => atLandmarks(week, curriculum.apparatus.values()));
	const [before, after] = [new Set(curriculum.weeks), new Set(weeks)];
	const touched = [...before.symmetricDifference(after)];
	const numbers = new Set(touched.map(({ week }) => week));
	const planned = occurrences({
		weeks: weeks.filter(({ week }) => numbers.has(week)),
		levels: [...curriculum.levels.values()],
		drills: curriculum.drills,
	});
	const drills = new Map(curriculum.drills);
	for (const id of new Set(touched.flatMap(stationsIn).map((station) => station.drill))) {
		const drill = curriculum.drills.get(id);
		if (drill === undefined) continue;
		const elsewhere = drill.planned.filter(({ week }) => !numbers.has(week));
		const now = [...elsewhere, ...(planned.get(id) ?? [])].sort((one, other) => one.week - other.week);
		if (JSON.stringify(now) !== JSON.stringify(drill.planned)) drills.set(id, { ...drill, planned: now });
	}
	const changed = { ...curriculum, weeks, drills, resolve };
	originals.set(changed, originalOf(curriculum));
	return changed;
}

function stationsIn({ apparatus }: WeekPlan): readonly Station[] {
	return apparatus.flatMap(({ blocks }) => blocks.flatMap(({ stations }) => stations));
}

function occurrences({
	weeks,
	levels,
	drills,
}: Pick<Records, "weeks" | "levels"> & {
	readonly drills: ReadonlyMap<Id, Pick<Joined, "levels">>;
}): ReadonlyMap<Id, readonly Occurrence[]> {
	const all = levels.map((level) => level.id);
	const found = new Map<Id, Occurrence[]>();
	for (const { week, apparatus } of weeks) {
		for (const plan of apparatus) {
			for (const block of plan.blocks) {
				const named = block.levels.length === 0 ? all : all.filter((id) => block.levels.includes(id));
				for (const drill of new Set(block.stations.map((s) => s.drill))) {
					const here = named.filter((level) => drills.get(drill)?.levels.has(level));
					const list = found.get(drill) ?? [];
					list.push({ week, apparatus: plan.apparatus, block: block.number, levels: here });
					found.set(drill, list);
				}
			}
		}
	}
	return found;
}

/** For each thing, the others of its pairs, whichever of the two named the other. */
function pairs(links: Iterable<readonly [Id, Id | undefined]>): ReadonlyMap<Id, readonly Id[]> {
	const found = new Map<Id, Set<Id>>();
	const add = (a: Id, b: Id): void => void found.set(a, (found.get(a) ?? new Set<Id>()).add(b));
	for (const [a, b] of links) {
		if (b === undefined) continue;
		add(a, b);
		add(b, a);
	}
	return new Map([...found].map(([id, others]) => [id, [...others]]));
}

/** For each target, what points at it, in order. */
function reversed(links: Iterable<readonly [Id, readonly Id[]]>): ReadonlyMap<Id, readonly Id[]> {
	const found = new Map<Id, Id[]>();
	for (const [from, targets] of links) {
		for (const target of new Set(targets)) {
			const list = found.get(target);
			if (list === undefined) found.set(target, [from]);
			else list.push(from);
		}
	}
	return found;
}

function byId<T extends { readonly id: Id }>(things: readonly T[]): ReadonlyMap<Id, T> {
	return new Map(things.map((thing) => [thing.id, thing]));
}
