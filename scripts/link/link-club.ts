/**
 * Links a club: records → a curriculum in which every reference stands for something, or problems.
 *
 * Steps: find two things of one id; check every reference, and every `[[link]]` in text; look for
 * cycles; check the plans against the drills, and names of shapes against their angles; then join both ways and put everything in the club's
 * order.
 */

import type {
	Curriculum,
	DataPath,
	Drill,
	EquipmentNeed,
	FileKind,
	Id,
	LinkedDrill,
	LinkedSkill,
	LinkKind,
	LinkTarget,
	Occurrence,
	Place,
	Records,
	Source,
	WeekPlan,
} from "../model.ts";
import { LINK_KINDS } from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import { nearestName } from "../read/nearest-name.ts";
import type { ValidatedClub } from "../validate/validate-club.ts";
import { misplacedHeights } from "./check-heights.ts";
import { checkPlans } from "./check-plans.ts";
import { misnamedShapes } from "./check-shapes.ts";
import { findCycles } from "./find-cycles.ts";
import { findLinks } from "./link-syntax.ts";
import { type IdKind, referencesIn } from "./reference-fields.ts";
import { textsOf } from "./texts-of.ts";

export interface LinkedClub {
	readonly problems: readonly Problem[];
	/** Undefined where a problem is an error. */
	readonly curriculum?: Curriculum;
}

/** What is wrong with a picture or video, and what to do about it; undefined where nothing is. */
export type FaultOfMedia = (
	file: string,
	wanted?: "picture",
) => { readonly what: string; readonly fix?: string } | undefined;

/**
 * @param problemsSoFar whether an earlier stage found an error, so that no curriculum may be made
 * @param faultOfMedia what is wrong with a file of this name in the club's media folder
 */
export function linkClub(
	club: ValidatedClub,
	problemsSoFar: boolean,
	faultOfMedia: FaultOfMedia,
): LinkedClub {
	const { records, partial } = club;
	const names = namesOf(records);
	// What a page at fault says all the same is held against the rest as well.
	const all = {
		...records,
		drills: [...records.drills, ...partial.drills],
		weeks: [...records.weeks, ...partial.weeks],
	};
	const problems = [
		...duplicates(records),
		...deadReferences(club, names),
		...namingThemselves(all),
		...deadLinks(club, names),
		...cycles(all),
		...checkPlans(all),
		...misnamedShapes(records.shapes),
		...misplacedHeights(all.drills, all.levels),
		...unusableMedia(all.drills, faultOfMedia),
	];
	const failed = problemsSoFar || problems.some((p) => p.severity === "error");
	return failed ? { problems } : { problems, curriculum: join(records, names) };
}

type Names = ReadonlyMap<IdKind, ReadonlyMap<Id, string>>;

/** The name of every thing that can be linked to. */
function namesOf(records: Records): Names {
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

function duplicates(records: Records): readonly Problem[] {
	const classes = records.term.classes.map((c) => ({ ...c, source: records.term.source }));
	const lists = [
		records.levels,
		records.apparatus,
		records.shapes,
		records.skills,
		records.equipment,
		records.purposes,
		classes,
		...records.term.classes.map((c) =>
			c.groups.map((group, i) => ({ ...group, source: records.term.source, path: [...c.path, "groups", i] })),
		),
	];
	return lists.flatMap((list: readonly { id: Id; source: Source; path: DataPath }[]) => {
		const first = new Map<Id, (typeof list)[number]>();
		return list.flatMap((thing) => {
			const other = first.get(thing.id);
			if (other === undefined) {
				first.set(thing.id, thing);
				return [];
			}
			const { line } = other.source.place([...other.path, "id"]);
			return [
				problem(
					"H202",
					thing.source.place([...thing.path, "id"]),
					`\`${thing.id}\` is an id on line ${line} too.`,
				),
			];
		});
	});
}

/** Ids that stand for nothing. */
function deadReferences(club: ValidatedClub, names: Names): readonly Problem[] {
	return club.files.flatMap((file) =>
		referencesIn(file)
			.filter(
				({ kinds, id }) =>
					!kinds.some((kind) => names.get(kind)?.has(id) === true || isExcused(club, kind, id)),
			)
			.map(({ kinds, id, path, what }) => dead("H201", file.place(path, what), kinds, id, names)),
	);
}

/** Drills that are their own partner, skills that are their own opposite, classes of their own gymnasts. */
function namingThemselves({ drills, skills, term }: Records): readonly Problem[] {
	return [
		...drills.map((drill) => ({ ...drill, path: [], other: drill.partner, field: "partner" })),
		...skills.map((skill) => ({ ...skill, other: skill.opposite, field: "opposite" })),
		...term.classes.map((one) => ({ ...one, source: term.source, other: one.sameAs, field: "same-as" })),
	]
		.filter(({ id, other }) => id === other)
		.map(({ id, source, path, field }) =>
			problem("H210", source.place([...path, field]), `\`${id}\` names itself.`),
		);
}

function dead(code: "H201" | "H206", place: Place, kinds: readonly IdKind[], id: Id, names: Names): Problem {
	const elsewhere = LINK_KINDS.find((k) => !kinds.includes(k) && names.get(k)?.has(id));
	const nearest = nearestName(
		id,
		kinds.flatMap((kind) => [...(names.get(kind)?.keys() ?? [])]),
	);
	const words = kinds.map((kind) => KIND_WORDS[kind]);
	return problem(code, place, `There is no ${words.join(" or ")} \`${id}\`.`, {
		nearest,
		...(nearest === undefined && elsewhere !== undefined
			? {
					fix: `\`${id}\` is the id of ${withArticle(KIND_WORDS[elsewhere])}; name ${withArticle(words.join(" or "))} here.`,
				}
			: {}),
	});
}

/** Whether the thing exists but has a problem of its own, which is enough to say. */
function isExcused(club: ValidatedClub, kind: IdKind, id: Id): boolean {
	// A term or a list of purposes at fault as a whole may have held any id.
	if (kind === "class" || kind === "purpose")
		return isFileBroken(club, kind === "class" ? "term" : "purposes");
	return club.unknown.has(kind) || (club.broken.get(kind)?.has(id) ?? false);
}

function isFileBroken(club: ValidatedClub, file: FileKind): boolean {
	return club.brokenFiles.has(file);
}

function deadLinks(club: ValidatedClub, names: Names): readonly Problem[] {
	return club.files.flatMap(textsOf).flatMap(({ text, placeOf }) =>
		findLinks(text).flatMap(({ reference, line, column }) => {
			if (resolveIn(names, reference) !== undefined) return [];
			const { kind, id } = parseReference(reference);
			const kinds = kind === undefined ? LINK_KINDS : [kind];
			if (kinds.some((k) => isExcused(club, k, id))) return [];
			if (kind !== undefined) return [dead("H206", placeOf(line, column), [kind], id, names)];
			const nearest = nearestName(
				id,
				LINK_KINDS.flatMap((k) => [...(names.get(k)?.keys() ?? [])]),
			);
			return [
				problem("H206", placeOf(line, column), `\`[[${reference}]]\` leads nowhere: nothing has this id.`, {
					nearest,
				}),
			];
		}),
	);
}

/** Splits `kind:id`; the kind is undefined where none is named. */
function parseReference(reference: string): { readonly kind?: LinkKind; readonly id: Id } {
	const [head = "", tail] = reference.split(":");
	const kind = LINK_KINDS.find((k) => k === head.trim());
	return kind !== undefined && tail !== undefined ? { kind, id: tail.trim() } : { id: reference };
}

function resolveIn(names: Names, reference: string): LinkTarget | undefined {
	const { kind, id } = parseReference(reference);
	for (const candidate of kind === undefined ? LINK_KINDS : [kind]) {
		const name = names.get(candidate)?.get(id);
		if (name !== undefined) return { kind: candidate, id, name };
	}
	return undefined;
}

function cycles({ drills, skills }: Records): readonly Problem[] {
	const drillById = new Map(drills.map((d) => [d.id, d]));
	const skillById = new Map(skills.map((s) => [s.id, s]));
	const drillCycles = findCycles(drillById.keys(), (id) => drillById.get(id)?.after ?? []);
	const skillCycles = findCycles(skillById.keys(), (id) => skillById.get(id)?.needs ?? []);
	return [
		...drillCycles.map((cycle) => {
			const source = drillById.get(cycle[0] ?? "")?.source;
			return circle(cycle, "after", source?.place(["after"], "key"));
		}),
		...skillCycles.map((cycle) => {
			const skill = skillById.get(cycle[0] ?? "");
			return circle(cycle, "needs", skill?.source.place([...skill.path, "needs"], "key"));
		}),
	];
}

function circle(cycle: readonly Id[], field: string, place: Place | undefined): Problem {
	if (place === undefined) throw new Error("a cycle of unknown things");
	const path = [...cycle, cycle[0]].map((id) => `\`${id}\``).join(" → ");
	return problem("H203", place, `By \`${field}\`, each of these wants the next one first: ${path}.`);
}

function unusableMedia(drills: readonly Drill[], faultOf: FaultOfMedia): readonly Problem[] {
	return drills.flatMap((drill) => {
		const check = (name: string, path: DataPath, wanted?: "picture"): readonly Problem[] => {
			const fault = faultOf(name, wanted);
			if (fault === undefined) return [];
			return [
				problem(
					"H211",
					drill.source.place(path),
					fault.what,
					fault.fix === undefined ? {} : { fix: fault.fix },
				),
			];
		};
		return drill.media.flatMap(({ file, poster }, i) => [
			...check(file, ["media", i, "file"]),
			...(poster === undefined ? [] : check(poster, ["media", i, "poster"], "picture")),
		]);
	});
}

/** Everything joined both ways, in the club's order. */
function join(records: Records, names: Names): Curriculum {
	const apparatusRank = new Map(records.apparatus.map((a, i) => [a.id, i]));
	const compare = new Intl.Collator(records.club.language).compare;
	const rank = (drill: Drill): number => apparatusRank.get(drill.apparatus[0] ?? "") ?? apparatusRank.size;
	const drills = nearlyInOrder(records.drills).sort(
		(a, b) => rank(a) - rank(b) || compare(a.title, b.title) || (a.id < b.id ? -1 : 1),
	);
	drills.forEach((drill, i) => {
		lastPlace.set(drill, i);
	});
	const weeks = records.weeks.map((week) => atLandmarks(week, records)).sort((a, b) => a.week - b.week);

	const partners = pairs(drills.map((d) => [d.id, d.partner]));
	const opposites = pairs(records.skills.map((s) => [s.id, s.opposite]));
	const next = reversed(drills.map((d) => [d.id, d.after]));
	const leadsTo = reversed(records.skills.map((s) => [s.id, s.needs]));
	const ofSkill = reversed(drills.map((d) => [d.id, d.skills]));
	const ofShape = reversed(drills.map((d) => [d.id, d.shapes]));
	const ofEquipment = reversed(drills.map((d) => [d.id, needsOf(d).map((need) => need.item)]));
	const planned = occurrences({ ...records, weeks });

	return {
		club: records.club,
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
		equipment: byId(records.equipment.map((item) => ({ ...item, drills: ofEquipment.get(item.id) ?? [] }))),
		drills: byId(
			drills.map(
				(drill): LinkedDrill => ({
					...drill,
					partners: partners.get(drill.id) ?? [],
					next: next.get(drill.id) ?? [],
					planned: planned.get(drill.id) ?? [],
				}),
			),
		),
		weeks,
		guides: byId(
			[...records.guides].sort(
				(a, b) =>
					(a.order ?? Number.POSITIVE_INFINITY) - (b.order ?? Number.POSITIVE_INFINITY) ||
					compare(a.title, b.title),
			),
		),
		resolve: (reference) => resolveIn(names, reference),
	};
}

/** What any level of a drill needs. */
function needsOf(drill: Drill): readonly EquipmentNeed[] {
	return [...drill.equipment, ...[...drill.levels.values()].flatMap((level) => level.equipment ?? [])];
}

/** A week whose stations at a named spot have its place. */
function atLandmarks(week: WeekPlan, { apparatus: all }: Records): WeekPlan {
	if (!week.apparatus.some((p) => p.blocks.some((b) => b.stations.some((s) => s.landmark !== undefined))))
		return week;
	return {
		...week,
		apparatus: week.apparatus.map((plan) => {
			const spots = all.find(({ id }) => id === plan.apparatus)?.landmarks ?? [];
			return {
				...plan,
				blocks: plan.blocks.map((block) => ({
					...block,
					stations: block.stations.map((station) => {
						const at = spots.find(({ name }) => name === station.landmark)?.at;
						return at === undefined ? station : { ...station, at };
					}),
				})),
			};
		}),
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

function occurrences({ weeks, levels, drills }: Records): ReadonlyMap<Id, readonly Occurrence[]> {
	const all = levels.map((level) => level.id);
	const offered = new Map(drills.map((d) => [d.id, d.levels]));
	const found = new Map<Id, Occurrence[]>();
	for (const { week, apparatus } of weeks) {
		for (const plan of apparatus) {
			for (const block of plan.blocks) {
				const named = block.levels.length === 0 ? all : all.filter((id) => block.levels.includes(id));
				for (const drill of new Set(block.stations.map((s) => s.drill))) {
					const here = named.filter((level) => offered.get(drill)?.has(level));
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

const KIND_WORDS: Readonly<Record<IdKind, string>> = {
	drill: "drill",
	skill: "skill",
	shape: "shape",
	apparatus: "apparatus",
	level: "level",
	week: "week",
	equipment: "piece of equipment",
	guide: "guide",
	class: "class",
	purpose: "purpose",
};

function withArticle(words: string): string {
	return `${/^[aeiou]/.test(words) ? "an" : "a"} ${words}`;
}
