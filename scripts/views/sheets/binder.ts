/**
 * What the binder shows, section by section. Drills, blocks, shapes and skills have the same views as on
 * the site; their texts link to places in the binder instead of pages.
 *
 * Weeks and cards are made when they are written, and not kept: a binder may hold thousands.
 */

import { teachingWeeks } from "../../compute/calendar.ts";
import type { CoverageCell } from "../../compute/coverage.ts";
import { equipmentFor } from "../../compute/equipment.ts";
import { groupsOf } from "../../compute/groups.ts";
import { agesOfLevel, LANDMARKS, landmarksOf } from "../../compute/heights.ts";
import { groupName } from "../../compute/names.ts";
import { reach } from "../../compute/reach.ts";
import type { Club, Curriculum, Id, LinkedShape, Source, WeekPlan } from "../../model.ts";
import type { Words } from "../../words/words.ts";
import { type Address, addressOf, weekApparatusAddress } from "../addresses.ts";
import { drillLines, drillView } from "../drill.ts";
import { type FindingsView, findingsView } from "../findings.ts";
import { type GuideView, guideView } from "../guide.ts";
import { type LevelCore, levelCore } from "../level.ts";
import { type Link, linksTo, linkTo } from "../links.ts";
import { type Medium, NO_MEDIA, type PreparedMedia } from "../medium.ts";
import type { ShownHandbook } from "../pages.ts";
import { type ShapeCore, shapeCore } from "../shape.ts";
import { indexSite, type SiteIndex } from "../site-index.ts";
import { type SkillCore, skillCore } from "../skill.ts";
import { type PlannedWeek, plannedApparatus, plannedWeek } from "../week.ts";
import { capital } from "../words.ts";
import { type ClassAtWork, classAtWork } from "./class-at-work.ts";
import { type Edition, type EditionMark, editionMark } from "./edition.ts";
import { type BinderPlaces, binderPlaces, drillsUnder } from "./places.ts";

/** A view, and where what it shows is written. */
export type Written<V> = V & { readonly source: Source };

export interface BinderView {
	readonly words: Words;
	readonly club: Club;
	readonly term: string;
	readonly edition: EditionMark;
	/** ISO 8601: the day of the edition. */
	readonly date: string;
	readonly places: BinderPlaces;
	/** A picture, or a video's, as a `data:` address; undefined for what cannot be printed. */
	readonly picture: (medium: Medium) => string | undefined;
	/** The pages of drills that an earlier edition did not have, and that its lists still do not name. */
	readonly added: ReadonlySet<Address>;
	/** Those drills, for a list of their own. */
	readonly additions: readonly AddedDrill[];
	/** The drills that lists and index name. */
	readonly listed: readonly Id[];
	/** Where an earlier edition had what is printed, by its id. */
	readonly earlier: Edition["numbers"] | undefined;
	readonly cover: CoverView;
	readonly guides: readonly Written<GuideView>[];
	readonly levels: readonly LevelCore[];
	readonly weeks: readonly WeekLeaves[];
	/** Of every apparatus of the club. */
	readonly drills: readonly DrillLeaves[];
	readonly shapes: readonly Written<ShapeLeaf>[];
	readonly skills: readonly Written<SkillLeaf>[];
	/** Empty while no week is planned. */
	readonly coverage: readonly CoverageLeaf[];
	/** Empty without classes, and while no week is planned. */
	readonly reach: readonly ReachLeaf[];
	readonly findings: FindingsView;
	readonly equipment: EquipmentLeaves;
	/** Names under their first letters. */
	readonly index: readonly { readonly letter: string; readonly terms: readonly IndexTerm[] }[];
}

export interface CoverView {
	/** The first and last day of the term; undefined where it has no dates. */
	readonly dates: { readonly from: string; readonly to: string } | undefined;
	readonly weeks: number;
	/** A handful of the club's shapes. */
	readonly shapes: readonly LinkedShape[];
	/** A week to explain page numbers by. */
	readonly exampleWeek: number;
	/** The club's logo as an address of data; undefined for none. */
	readonly logo: string | undefined;
}

export type WeekLeaves = ReturnType<typeof weekLeaves>;

export interface WeekOverview {
	readonly week: PlannedWeek;
	readonly weeks: number;
	/** What the week trains, with the number of drills that do. */
	readonly shapes: readonly { readonly shape: LinkedShape; readonly drills: number }[];
	readonly skills: readonly Link[];
	/** Those that meet. */
	readonly classes: readonly ClassAtWork[];
}

export type DrillLeaves = ReturnType<typeof drillLeaves>;

/** A drill with everything that would list it. */
type AddedDrill = ReturnType<typeof addedDrill>;

export interface ShapeLeaf extends ShapeCore {
	readonly drills: readonly Link[];
}

export interface SkillLeaf extends SkillCore {
	readonly drills: readonly Link[];
}

/** Week by shape or skill, at one level or at all. */
export interface CoverageLeaf {
	readonly kind: "shape" | "skill";
	/** Undefined for all levels together. */
	readonly level: { readonly id: Id; readonly name: string } | undefined;
	readonly weeks: readonly number[];
	readonly rows: readonly {
		readonly name: string;
		/** By week; undefined where nothing trains it. */
		readonly cells: readonly ({ readonly drills: number; readonly minutes: number } | undefined)[];
		readonly total: { readonly weeks: number; readonly minutes: number };
	}[];
}

/** What each group of each class meets in the term. */
export type ReachLeaf = ReturnType<typeof reachLeaves>[number];

export type EquipmentLeaves = ReturnType<typeof equipmentLeaves>;

export interface EquipmentOfWeek {
	readonly number: number;
	readonly theme: string;
	readonly apparatus: readonly string[];
	/** What is needed by apparatus; undefined where it is not. */
	readonly items: readonly {
		readonly name: string;
		readonly owned: number | undefined;
		readonly needed: readonly (number | undefined)[];
	}[];
}

export interface IndexTerm {
	readonly words: string;
	/** Which name it is listed under elsewhere, where these words are another name. */
	readonly see: string | undefined;
	readonly to: Address;
}

/** The binder of a handbook, with the club's pictures where they were prepared. */
export function binderView(
	handbook: ShownHandbook,
	media: PreparedMedia = NO_MEDIA,
	picture: BinderView["picture"] = () => undefined,
	since?: Pick<Edition, "numbers" | "drills">,
): BinderView {
	const { curriculum, markdown, words } = handbook;
	const { club, term, guides, levels, shapes, skills, weeks } = curriculum;
	const places = binderPlaces(curriculum, markdown, words);
	const site = indexSite(handbook, media, {
		href: () => (target) => {
			const place = places.at(addressOf(target));
			return place && `#${place.anchor}`;
		},
		// Guides stand under their title alone, other texts under a part of their sheet.
		topHeading: (page) => (page.startsWith("guides/") ? 2 : 3),
	});
	const added = addedSince(curriculum, since);
	const isListed = (id: Id) => !added.has(id);
	return {
		added: new Set(Array.from(added, (id) => addressOf({ kind: "drill", id }))),
		additions: Array.from(added, (id) => addedDrill(curriculum, id)),
		listed: [...curriculum.drills.keys()].filter(isListed),
		earlier: since?.numbers,
		words,
		club,
		term: term.name,
		edition: editionMark(handbook),
		date: handbook.edition.date,
		places,
		picture,
		cover: { ...coverView(site), logo: media.logo && picture({ kind: "picture", sizes: [media.logo] }) },
		guides: Array.from(guides.values(), (guide) => ({ ...guideView(site, guide), source: guide.source })),
		levels: Array.from(levels.values(), (level) => levelCore(site, level)),
		weeks: weeks.map((week) => weekLeaves(site, week)),
		drills: Array.from(curriculum.apparatus.keys(), (id) => drillLeaves(site, id, isListed)),
		shapes: Array.from(shapes.values(), (shape) => ({
			...shapeCore(site, shape),
			drills: linksTo(curriculum, "drill", shape.drills.filter(isListed)),
			source: shape.source,
		})),
		skills: Array.from(skills.values(), (skill) => ({
			...skillCore(site, skill),
			drills: linksTo(curriculum, "drill", skill.drills.filter(isListed)),
			source: skill.source,
		})),
		coverage: weeks.length === 0 ? [] : coverageLeaves(site),
		reach: weeks.length === 0 ? [] : reachLeaves(site),
		findings: findingsView(site),
		equipment: equipmentLeaves(site, isListed),
		index: indexOf(site, places, isListed),
	};
}

/** More than these are a new library: every list is made anew. */
const MOST_ADDED = 12;

/** The drills that an earlier edition's lists did not have. */
function addedSince({ drills }: Curriculum, since: Pick<Edition, "drills"> | undefined): ReadonlySet<Id> {
	const before = since?.drills;
	if (before === undefined) return new Set();
	const known = new Set(before);
	const added = [...drills.keys()].filter((id) => !known.has(id));
	return new Set(added.length > MOST_ADDED ? [] : added);
}

function addedDrill(curriculum: Curriculum, id: Id) {
	const drill = curriculum.drills.get(id);
	return {
		link: linkTo(curriculum, "drill", id),
		apparatus: linksTo(curriculum, "apparatus", drill?.apparatus ?? []),
		levels: linksTo(curriculum, "level", drill?.levels.keys() ?? []),
		shapes: linksTo(
			curriculum,
			"shape",
			new Set([...(drill?.shapes ?? []), ...(drill?.sequence ?? []).map(({ shape }) => shape)]),
		),
		skills: linksTo(curriculum, "skill", drill?.skills ?? []),
	};
}

const COVER_FIGURES = 6;

function coverView({ curriculum }: SiteIndex): Omit<CoverView, "logo"> {
	const { shapes, term, weeks } = curriculum;
	const dates = teachingWeeks(term);
	const drawn = [...shapes.values()].filter((shape) => shape.angles !== undefined);
	// Spread over the whole list, so that they differ.
	const step = Math.max(1, drawn.length / COVER_FIGURES);
	const [first, last] = [dates[0], dates.at(-1)];
	return {
		dates: first && last && { from: first.monday, to: last.sunday },
		weeks: term.weeks,
		shapes: Array.from(
			{ length: Math.min(COVER_FIGURES, drawn.length) },
			(_, i) => drawn[Math.floor(i * step)],
		).filter((shape) => shape !== undefined),
		exampleWeek: weeks[0]?.week ?? 3,
	};
}

function weekLeaves(site: SiteIndex, week: WeekPlan) {
	const { curriculum, measures } = site;
	const { apparatus, shapes, skills, term } = curriculum;
	const plans = week.apparatus.filter((plan) => apparatus.has(plan.apparatus));
	const trained = (kind: "shape" | "skill"): ReadonlyMap<Id, CoverageCell> =>
		measures.coverage(kind, undefined).cells.get(String(week.week)) ?? new Map();
	return {
		link: { to: addressOf({ kind: "week", id: week.id }), name: site.words.week(week.week) },
		number: week.week,
		/** In plain words. */
		theme: site.handbook.markdown.plain(week.theme),
		source: week.source,
		/** The addresses of its apparatus, with their names. */
		parts: plans.map(({ apparatus: id }) => ({
			to: weekApparatusAddress(week.id, id),
			name: linkTo(curriculum, "apparatus", id).name,
		})),
		overview: () => ({
			week: plannedWeek(site, week),
			weeks: term.weeks,
			shapes: [...shapes.values()].flatMap((shape) => {
				const cell = trained("shape").get(shape.id);
				return cell === undefined ? [] : [{ shape, drills: cell.drills.length }];
			}),
			skills: linksTo(
				curriculum,
				"skill",
				[...skills.keys()].filter((id) => trained("skill").has(id)),
			),
			classes: term.classes.map((group) => classAtWork(site, week, group)).filter(({ meets }) => meets),
		}),
		apparatus: plans.map((plan) => () => plannedApparatus(site, week, plan)),
	};
}

function drillLeaves(site: SiteIndex, id: Id, isListed: (drill: Id) => boolean) {
	const { curriculum } = site;
	const own = drillsUnder(curriculum, id);
	const elsewhere = (site.drillsByApparatus.get(id) ?? []).filter(
		(drill) => drill.apparatus[0] !== id && isListed(drill.id),
	);
	const listed = own.filter((drill) => isListed(drill.id));
	return {
		apparatus: linkTo(curriculum, "apparatus", id),
		levels: linksTo(curriculum, "level", curriculum.levels.keys()),
		/** Those that its list names. */
		drills: drillLines(site, addressOf({ kind: "apparatus", id }), listed),
		cards: own.map((drill) => ({
			link: linkTo(curriculum, "drill", drill.id),
			view: () => drillView(site, drill),
			source: drill.source,
		})),
		/** Drills that are printed under another apparatus. */
		elsewhere: linksTo(
			curriculum,
			"drill",
			elsewhere.map((drill) => drill.id),
		),
	};
}

function coverageLeaves({ curriculum, measures }: SiteIndex): readonly CoverageLeaf[] {
	const { levels, shapes, skills, weeks } = curriculum;
	const things = { shape: [...shapes.values()], skill: [...skills.values()] };
	return (["shape", "skill"] as const).flatMap((kind) =>
		things[kind].length === 0
			? []
			: [undefined, ...levels.values()].map((level) => {
					const { cells: table } = measures.coverage(kind, level?.id);
					return {
						kind,
						level,
						weeks: weeks.map(({ week }) => week),
						rows: things[kind].map(({ id, name }) => {
							const cells = weeks.map(({ week }) => {
								const cell = table.get(String(week))?.get(id);
								return cell && { drills: cell.drills.length, minutes: cell.minutes };
							});
							const taught = cells.filter((cell) => cell !== undefined);
							const minutes = taught.reduce((sum, cell) => sum + cell.minutes, 0);
							return { name, cells, total: { weeks: taught.length, minutes } };
						}),
					};
				}),
	);
}

function reachLeaves({ curriculum, words }: SiteIndex) {
	const groups = groupsOf(curriculum);
	if (groups.length === 0) return [];
	const rows = Map.groupBy(reach(curriculum), ({ kind, id, group }) => `${kind} ${id} ${group.name}`);
	const things = { shape: [...curriculum.shapes.values()], skill: [...curriculum.skills.values()] };
	return (["shape", "skill"] as const).flatMap((kind) =>
		things[kind].length === 0
			? []
			: [
					{
						kind,
						groups: groups.map((group) => groupName(words, group)),
						rows: things[kind].map(({ id, name }) => ({
							name,
							/** By group; undefined where it does not meet it. */
							cells: groups.map((group) => rows.get(`${kind} ${id} ${group.name}`)?.[0]),
						})),
					},
				],
	);
}

function equipmentLeaves(site: SiteIndex, isListed: (drill: Id) => boolean) {
	const { curriculum } = site;
	const { apparatus, drills, equipment, levels, term, weeks } = curriculum;
	const named = new Set([...drills.values()].flatMap((drill) => [...landmarksOf(drill)]));
	const landmarks = LANDMARKS.map(({ landmark }) => landmark).filter((landmark) => named.has(landmark));
	return {
		items: Array.from(equipment.values(), ({ id, aliases, owned, stored, drills: own }) => ({
			link: linkTo(curriculum, "equipment", id),
			aliases,
			owned,
			stored,
			drills: own.filter(isListed).length,
		})),
		/** Of the landmarks that drills name, for levels whose ages are known, in cm. */
		heights: {
			landmarks,
			rows: [...levels.values()].flatMap(({ id, name }) => {
				const ages = agesOfLevel(term.classes, id);
				if (ages === undefined) return [];
				return [{ level: name, ages, heights: landmarks.map((landmark) => site.heightOf(landmark, ages)) }];
			}),
		},
		weeks: weeks.map((week) => {
			const lists = week.apparatus.map(
				(plan) => new Map(equipmentFor(curriculum, plan).map(({ item, needed }) => [item, needed])),
			);
			return {
				number: week.week,
				theme: site.handbook.markdown.plain(week.theme),
				apparatus: week.apparatus.map((plan) => apparatus.get(plan.apparatus)?.name ?? plan.apparatus),
				items: [...equipment.values()].flatMap(({ id, name, owned }) => {
					const needed = lists.map((list) => list.get(id));
					return needed.every((count) => count === undefined) ? [] : [{ name, owned, needed }];
				}),
			};
		}),
	};
}

/** Drills, shapes, skills and equipment by name and by every other name they go by. */
function indexOf(
	site: SiteIndex,
	places: BinderPlaces,
	isListed: (drill: Id) => boolean,
): BinderView["index"] {
	const { curriculum, handbook } = site;
	const { club, drills, shapes, skills, equipment } = curriculum;
	const plain = (text: string) => capital(handbook.markdown.plain(text));
	const termsOf = (kind: "drill" | "shape" | "skill" | "equipment", id: Id, aliases: readonly string[]) => {
		const to = addressOf({ kind, id });
		const name = places.at(to)?.name;
		if (name === undefined) return [];
		const own: IndexTerm = { words: capital(name), see: undefined, to };
		const others = aliases.map(plain).filter((words) => words !== own.words);
		return [own, ...others.map((words) => ({ words, see: name, to }))];
	};
	const terms: readonly IndexTerm[] = [
		...[...drills.values()].flatMap(({ id, aliases }) => (isListed(id) ? termsOf("drill", id, aliases) : [])),
		...[...shapes.values()].flatMap(({ id, aliases }) => termsOf("shape", id, aliases)),
		...[...skills.values()].flatMap(({ id, aliases }) => termsOf("skill", id, aliases)),
		...[...equipment.values()].flatMap(({ id, aliases }) => termsOf("equipment", id, aliases)),
	];
	const order = new Intl.Collator(club.language, { sensitivity: "base", numeric: true });
	const sorted = terms.toSorted((a, b) => order.compare(a.words, b.words) || order.compare(a.to, b.to));
	return Array.from(
		Map.groupBy(sorted, ({ words }) => initial(words)),
		([letter, own]) => ({ letter, terms: own }),
	);
}

/** The letter a word is listed under, without its accent; a sign for all that is no letter. */
function initial(words: string): string {
	const first = words.normalize("NFD").charAt(0).toUpperCase();
	return /\p{L}/u.test(first) ? first : "#";
}
