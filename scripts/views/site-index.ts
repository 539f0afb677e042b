/**
 * Everything that pages look up, worked out once for a build, so that no page walks the whole club.
 *
 * Steps: name and rank levels and drills; sort exposures by their block; sort drills by apparatus,
 * level, shape and skill; sort findings by what they are about; date the weeks.
 */

import { type TeachingWeek, teachingWeeks } from "../compute/calendar.ts";
import { getOrMake, lazy, once } from "../compute/get-or-make.ts";
import { type LandmarkHeights, landmarkHeights } from "../compute/heights.ts";
import { asRecords } from "../compute/tables.ts";
import type { Cell, Curriculum, Exposure, Finding, Id, Landmark, LinkedDrill, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import { type Address, addressOf, wayTo } from "./addresses.ts";
import { DrillRing } from "./drill-ring.ts";
import type { Html } from "./html.ts";
import type { Href } from "./markdown.ts";
import { indexMeasures, type MeasureIndex } from "./measure-index.ts";
import { NO_MEDIA, type PreparedMedia } from "./medium.ts";
import type { ShownHandbook } from "./pages.ts";
import { type Progressions, progressionsIn } from "./progressions.ts";

/** A table's row by column name. */
export type TableRow = Readonly<Record<string, Cell>>;

export interface SiteIndex {
	readonly handbook: ShownHandbook;
	readonly curriculum: Curriculum;
	/** Pictures and videos as they are served. */
	readonly media: PreparedMedia;
	/** The words that are not the club's, in that language. */
	readonly words: Words;
	/** 0 for the lowest level. */
	readonly levelRank: ReadonlyMap<Id, number>;
	/** What is easier and harder than a drill. */
	progressions(drill: LinkedDrill): Progressions;
	readonly weekByNumber: ReadonlyMap<number, WeekPlan>;
	/** The dates of a teaching week; undefined where the term has no start. */
	datesOf(week: number): TeachingWeek | undefined;
	/** A landmark's heights for ages in years, worked out once for each. */
	heightOf(landmark: Landmark, ages: readonly [number, number]): LandmarkHeights | undefined;
	exposure(week: number, apparatus: Id, block: number, drill: Id, level: Id): Exposure | undefined;
	readonly drillsByApparatus: ReadonlyMap<Id, readonly LinkedDrill[]>;
	readonly drillsByLevel: ReadonlyMap<Id, readonly LinkedDrill[]>;
	drillsOfShape(shape: Id): ReadonlyMap<Id, readonly LinkedDrill[]>;
	/** The same drills, to take a few from. */
	ringsOfShape(shape: Id): ReadonlyMap<Id, DrillRing<LinkedDrill>>;
	readonly findings: {
		readonly week: ReadonlyMap<number, readonly Finding[]>;
		readonly drill: ReadonlyMap<Id, readonly Finding[]>;
		readonly skill: ReadonlyMap<Id, readonly Finding[]>;
		readonly shape: ReadonlyMap<Id, readonly Finding[]>;
		readonly level: ReadonlyMap<Id, readonly Finding[]>;
		readonly class: ReadonlyMap<Id, readonly Finding[]>;
	};
	/** What the measures say of the plan. */
	readonly measures: MeasureIndex;
	/** Rows of a data table by the values of some columns, joined by spaces; empty where there is no such table. */
	rows(table: string, by: readonly string[]): ReadonlyMap<string, readonly TableRow[]>;
	line(page: Address, text: string): Html;
	/** The same, where it may be missing. */
	inline(page: Address, text: string | undefined): Html | undefined;
	block(page: Address, text: string): Html;
}

/** How what is shown writes the club's texts. */
export interface TextManner {
	/** Where the links of a text lead that stands on a page. */
	href(page: Address): Href;
	/** The level of a text's highest heading, 1 to 6. */
	topHeading(page: Address): number;
}

const ON_SITE: TextManner = {
	href: (page) => (target) => wayTo(page, addressOf(target)),
	topHeading: () => 2,
};

/** Works nothing out before it is asked for: the preview makes one page of a whole handbook. */
export function indexSite(
	handbook: ShownHandbook,
	media: PreparedMedia = NO_MEDIA,
	{ href, topHeading }: TextManner = ON_SITE,
): SiteIndex {
	const { curriculum, markdown } = handbook;
	const byBlock = once(
		() =>
			new Map(handbook.exposures.map((e) => [blockKey(e.week, e.apparatus, e.block, e.drill, e.level), e])),
	);
	const sorted = sortedDrills(curriculum);
	const levelRank = rankOf(curriculum.levels);
	const progressions = once(() =>
		progressionsIn({ ...curriculum, levelRank, drillRank: rankOf(curriculum.drills) }),
	);
	const heights = new Map<string, LandmarkHeights | undefined>();
	const ofShape = new Map<Id, ReadonlyMap<Id, readonly LinkedDrill[]>>();
	const rings = new Map<Id, ReadonlyMap<Id, DrillRing<LinkedDrill>>>();
	const drillsOfShape = (shape: Id) =>
		getOrMake(ofShape, shape, () => {
			const own = curriculum.shapes.get(shape)?.drills.flatMap((id) => curriculum.drills.get(id) ?? []);
			return sortedBy(own ?? [], [], (drill) => drill.apparatus);
		});
	const tables = new Map<string, ReadonlyMap<string, readonly TableRow[]>>();
	return {
		handbook,
		curriculum,
		media,
		words: handbook.words,
		levelRank,
		progressions: (drill) => progressions()(drill),
		weekByNumber: new Map(curriculum.weeks.map((week) => [week.week, week])),
		datesOf: (week) => teachingWeeks(curriculum.term)[week - 1],
		heightOf: (landmark, ages) => {
			const key = `${landmark} ${ages.join(" ")}`;
			if (!heights.has(key)) heights.set(key, landmarkHeights(landmark, ages));
			return heights.get(key);
		},
		exposure: (week, apparatus, block, drill, level) =>
			byBlock().get(blockKey(week, apparatus, block, drill, level)),
		get drillsByApparatus() {
			return sorted.drillsByApparatus;
		},
		get drillsByLevel() {
			return sorted.drillsByLevel;
		},
		drillsOfShape,
		ringsOfShape: (shape) =>
			getOrMake(rings, shape, () => mapped(drillsOfShape(shape), (own) => new DrillRing(own))),
		findings: sortedFindings(handbook),
		measures: indexMeasures(handbook),
		rows: (name, by) => getOrMake(tables, [name, ...by].join(" "), () => rowsBy(handbook, name, by)),
		line: (page, text) => markdown.inline(text, href(page)),
		inline: (page, text) => (text === undefined ? undefined : markdown.inline(text, href(page))),
		block: (page, text) => markdown.block(text, href(page), topHeading(page)),
	};
}

type SortedDrills = Pick<SiteIndex, "drillsByApparatus" | "drillsByLevel">;

function sortedDrills({ apparatus, drills, levels }: Curriculum): SortedDrills {
	return lazy({
		drillsByApparatus: () => sortedBy(drills.values(), apparatus.keys(), (drill) => drill.apparatus),
		drillsByLevel: () => sortedBy(drills.values(), levels.keys(), (drill) => drill.levels.keys()),
	});
}

function sortedFindings(handbook: ShownHandbook): SiteIndex["findings"] {
	const by = <K>(key: (about: Finding["about"]) => K | undefined) => {
		return () =>
			sortedBy(handbook.findings, [], ({ about }) => [key(about)].filter((one) => one !== undefined));
	};
	return lazy({
		week: by(({ week }) => week),
		drill: by(({ drill }) => drill),
		skill: by(({ skill }) => skill),
		shape: by(({ shape }) => shape),
		level: by(({ level }) => level),
		class: by((about) => about.class),
	});
}

/** Things by each of their keys; the keys given are there in any case, and come first. */
function sortedBy<K, T>(
	things: Iterable<T>,
	keys: Iterable<K>,
	keysOf: (thing: T) => Iterable<K>,
): ReadonlyMap<K, readonly T[]> {
	const sorted = new Map(Array.from(keys, (key): [K, T[]] => [key, []]));
	for (const thing of things) for (const key of keysOf(thing)) getOrMake(sorted, key, () => []).push(thing);
	return sorted;
}

function mapped<K, V, W>(map: ReadonlyMap<K, V>, change: (value: V) => W): ReadonlyMap<K, W> {
	return new Map(Array.from(map, ([key, value]) => [key, change(value)]));
}

function rankOf(things: ReadonlyMap<Id, unknown>): ReadonlyMap<Id, number> {
	return new Map([...things.keys()].map((id, i) => [id, i]));
}

function blockKey(week: number, apparatus: Id, block: number, drill: Id, level: Id): string {
	return `${week} ${apparatus} ${block} ${drill} ${level}`;
}

function rowsBy(handbook: ShownHandbook, name: string, by: readonly string[]) {
	const table = handbook.tables.get(name);
	return Map.groupBy(table === undefined ? [] : asRecords(table), (row) =>
		by.map((column) => String(row[column] ?? "")).join(" "),
	);
}
