/**
 * Links a club: records → a curriculum in which every reference stands for something, or problems.
 *
 * Steps: find two things of one id; check every reference, and every `[[link]]` in text; look for
 * cycles; check the plans against the drills, and names of shapes against their angles; then join both ways and put everything in the club's
 * order.
 */

import type { Curriculum, DataPath, FileKind, Id, Records, Source, SourceFile } from "../model.ts";
import { LINK_KINDS, LIST_FILES } from "../model.ts";
import type { Place } from "../place.ts";
import { type Problem, problem } from "../problems.ts";
import { nearestName } from "../read/nearest-name.ts";
import type { ValidatedClub } from "../validate/validate-club.ts";
import { misplacedHeights } from "./check-heights.ts";
import { checkPlans } from "./check-plans.ts";
import { misnamedShapes } from "./check-shapes.ts";
import { unsaidWords } from "./check-words.ts";
import { findCycles } from "./find-cycles.ts";
import { inOrder, join, type Names, namesOf, parseReference, resolveIn } from "./join-records.ts";
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
 * @param origins of what libraries have
 */
export function linkClub(
	club: ValidatedClub,
	problemsSoFar: boolean,
	faultOfMedia: FaultOfMedia,
	origins?: Curriculum["origins"],
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
		...checkPlans(all, !isFileBroken(club, "term")),
		...misnamedShapes(records.shapes),
		...misplacedHeights(all.drills, all.levels),
		...unsaidWords(club.files, records.words),
		...unusableMedia(all, faultOfMedia),
	];
	const failed = problemsSoFar || problems.some((p) => p.severity === "error");
	return failed
		? { problems }
		: { problems, curriculum: join(inOrder(records), (drill) => drill, origins, names) };
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
	const found = club.files.flatMap((file) =>
		referencesIn(file)
			.filter(
				({ kinds, id }) =>
					!kinds.some((kind) => names.get(kind)?.has(id) === true || isExcused(club, kind, id)),
			)
			.map((reference) => ({ file, ...reference })),
	);
	const weeks = club.files
		.filter(
			({ kind, id }) => kind === "taught" && !names.get("week")?.has(id) && !isExcused(club, "week", id),
		)
		.map((file) => dead("H201", file.place([]), ["week"], file.id, names));
	// An entry that was taken out of its list is one mistake, however often it is named.
	const others = [...Map.groupBy(found, ({ kinds, id }) => `${kinds.join(" ")} ${id}`).values()].flatMap(
		(alike) => {
			const [first] = alike;
			const list = first === undefined ? undefined : listOf(club, first.kinds);
			if (first !== undefined && list !== undefined && alike.length >= MANY)
				return [takenOut(list, first, alike)];
			return alike.map(({ file, kinds, id, path, what }) =>
				dead("H201", file.place(path, what), kinds, id, names),
			);
		},
	);
	return [...others, ...weeks];
}

/** So many uses of one id are no misspelling of each. */
const MANY = 5;

/** The file that lists the things of a kind; undefined for those that have a file each. */
function listOf(club: ValidatedClub, kinds: readonly IdKind[]): SourceFile | undefined {
	const [kind] = kinds;
	const name = kind === undefined ? undefined : LISTS[kind];
	return kinds.length > 1 || name === undefined ? undefined : club.files.find((file) => file.kind === name);
}

const LISTS: Readonly<Partial<Record<IdKind, FileKind>>> = LIST_FILES;

function takenOut(
	list: SourceFile,
	{ kinds, id }: { readonly kinds: readonly IdKind[]; readonly id: Id },
	uses: readonly { readonly file: SourceFile }[],
): Problem {
	const kind = kinds[0] ?? "level";
	const files = new Set(uses.map(({ file }) => file.file));
	return problem(
		"H201",
		list.place([]),
		`There is no ${kindWords(kind)} \`${id}\`, and ${uses.length} places in ${files.size} files name it.`,
		{
			fix: `Put \`- {id: ${id}, name: …}\` back into \`${list.file}\`. To give it another id everywhere, put it back and run \`rename ${kind}:${id} <new-id>\`.`,
		},
	);
}

/** Drills that are their own partner, skills that are their own opposite, classes of their own gymnasts. */
function namingThemselves({ drills, skills, term }: Records): readonly Problem[] {
	return [
		...drills.filter(({ id, partner }) => id === partner).map((one) => ({ ...one, path: ["partner"] })),
		...skills
			.filter(({ id, opposite }) => id === opposite)
			.map((one) => ({ ...one, path: [...one.path, "opposite"] })),
		...term.classes
			.filter(({ id, sameAs }) => id === sameAs)
			.map((one) => ({ ...one, source: term.source, path: [...one.path, "same-as"] })),
	].map(({ id, source, path }) => problem("H210", source.place(path), `\`${id}\` names itself.`));
}

function dead(code: "H201" | "H206", place: Place, kinds: readonly IdKind[], id: Id, names: Names): Problem {
	const elsewhere = LINK_KINDS.find((k) => !kinds.includes(k) && names.get(k)?.has(id));
	const nearest = nearestName(
		id,
		kinds.flatMap((kind) => [...(names.get(kind)?.keys() ?? [])]),
	);
	const words = kinds.map(kindWords);
	return problem(code, place, `There is no ${words.join(" or ")} \`${id}\`.`, {
		nearest,
		...(nearest === undefined && elsewhere !== undefined
			? {
					fix: `\`${id}\` is the id of ${withArticle(kindWords(elsewhere))}; name ${withArticle(words.join(" or "))} here.`,
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

function unusableMedia({ club, drills }: Records, faultOf: FaultOfMedia): readonly Problem[] {
	const fault = (source: Source, name: string, path: DataPath, wanted?: "picture"): readonly Problem[] => {
		const found = faultOf(name, wanted);
		if (found === undefined) return [];
		const { what, fix } = found;
		return [problem("H211", source.place(path), what, fix === undefined ? {} : { fix })];
	};
	const { logo, source: clubFile } = club;
	const ofClub =
		logo === undefined || clubFile === undefined ? [] : fault(clubFile, logo, ["logo"], "picture");
	const ofDrills = drills.flatMap((drill) => {
		const check = (name: string, path: DataPath, wanted?: "picture") =>
			fault(drill.source, name, path, wanted);
		return drill.media.flatMap(({ file, poster }, i) => [
			...check(file, ["media", i, "file"]),
			...(poster === undefined ? [] : check(poster, ["media", i, "poster"], "picture")),
		]);
	});
	return [...ofClub, ...ofDrills];
}

function kindWords(kind: IdKind): string {
	return kind === "equipment" ? "piece of equipment" : kind;
}

function withArticle(words: string): string {
	return `${/^[aeiou]/.test(words) ? "an" : "a"} ${words}`;
}
