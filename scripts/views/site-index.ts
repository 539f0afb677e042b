/**
 * Everything that pages look up, worked out once for a build, so that no page walks the whole club.
 *
 * Steps: name and rank levels and drills; sort exposures by their block; sort drills by apparatus,
 * level, shape and skill; sort findings by what they are about; date the weeks.
 */

import { type TeachingWeek, teachingWeeks } from "../compute/calendar.ts";
import { type LandmarkHeights, landmarkHeights } from "../compute/heights.ts";
import type { Cell, Curriculum, Exposure, Finding, Id, Landmark, LinkedDrill, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import { type Address, addressOf, wayTo } from "./addresses.ts";
import { DrillRing } from "./drill-ring.ts";
import type { Html } from "./html.ts";
import type { Href } from "./markdown.ts";
import { indexMeasures, type MeasureIndex, once } from "./measure-index.ts";
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
	readonly language: string;
	/** The words that are not the club's, in that language. */
	readonly words: Words;
	/** 0 for the lowest level. */
	readonly levelRank: ReadonlyMap<Id, number>;
	readonly drillRank: ReadonlyMap<Id, number>;
	/** What is easier and harder than a drill. */
	progressions(drill: LinkedDrill): Progressions;
	readonly weekByNumber: ReadonlyMap<number, WeekPlan>;
	/** The dates of a teaching week; undefined where the term has no start. */
	datesOf(week: number): TeachingWeek | undefined;
	/** A landmark's heights for ages in years, worked out once for each. */
	heightOf(landmark: Landmark, ages: readonly [number, number]): LandmarkHeights | undefined;
	/** The minutes a level has at a drill in a block. */
	exposure(week: number, apparatus: Id, block: number, drill: Id, level: Id): Exposure | undefined;
	readonly drillsByApparatus: ReadonlyMap<Id, readonly LinkedDrill[]>;
	readonly drillsByLevel: ReadonlyMap<Id, readonly LinkedDrill[]>;
	/** Drills of a shape by apparatus. */
	readonly drillsByShape: ReadonlyMap<Id, ReadonlyMap<Id, readonly LinkedDrill[]>>;
	/** The same drills, to take a few from. */
	readonly ringsByShape: ReadonlyMap<Id, ReadonlyMap<Id, DrillRing<LinkedDrill>>>;
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
	/** A line of Markdown for a page. */
	line(page: Address, text: string): Html;
	/** The same, where it may be missing. */
	inline(page: Address, text: string | undefined): Html | undefined;
	/** Block Markdown for a page. */
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
	const { curriculum } = handbook;
	const byBlock = once(() => {
		const found = new Map<string, Exposure>();
		for (const e of handbook.exposures)
			found.set(blockKey(e.week, e.apparatus, e.block, e.drill, e.level), e);
		return found;
	});
	const drillsByApparatus = once(() => {
		const found = new Map<Id, LinkedDrill[]>([...curriculum.apparatus.keys()].map((id) => [id, []]));
		for (const drill of curriculum.drills.values()) {
			for (const apparatus of drill.apparatus) push(found, apparatus, drill);
		}
		return found;
	});
	const drillsByLevel = once(() => {
		const found = new Map<Id, LinkedDrill[]>([...curriculum.levels.keys()].map((id) => [id, []]));
		for (const drill of curriculum.drills.values()) {
			for (const level of drill.levels.keys()) push(found, level, drill);
		}
		return found;
	});
	const drillsByShape = once(() => {
		const found = new Map<Id, Map<Id, LinkedDrill[]>>();
		for (const drill of curriculum.drills.values()) {
			for (const shape of new Set(drill.shapes)) {
				let places = found.get(shape);
				if (places === undefined) {
					places = new Map();
					found.set(shape, places);
				}
				for (const apparatus of drill.apparatus) push(places, apparatus, drill);
			}
		}
		return found;
	});
	const ringsByShape = once(
		() =>
			new Map(
				Array.from(drillsByShape(), ([shape, places]) => [
					shape,
					new Map(Array.from(places, ([apparatus, drills]) => [apparatus, new DrillRing(drills)])),
				]),
			),
	);
	const levelRank = new Map([...curriculum.levels.keys()].map((id, i) => [id, i]));
	const drillRank = once(() => new Map([...curriculum.drills.keys()].map((id, i) => [id, i])));
	const progressions = once(() => progressionsIn({ ...curriculum, levelRank, drillRank: drillRank() }));
	const weekByNumber = new Map(curriculum.weeks.map((week) => [week.week, week]));
	const heights = new Map<string, LandmarkHeights | undefined>();
	const tables = new Map<string, ReadonlyMap<string, readonly TableRow[]>>();
	const findings = <K>(key: (about: Finding["about"]) => K | undefined) =>
		once(() => findingsBy(handbook.findings, ({ about }) => key(about)));
	const ofWeek = findings((about) => about.week);
	const ofDrill = findings((about) => about.drill);
	const ofSkill = findings((about) => about.skill);
	const ofShape = findings((about) => about.shape);
	const ofLevel = findings((about) => about.level);
	const ofClass = findings((about) => about.class);
	return {
		handbook,
		curriculum,
		media,
		language: curriculum.club.language,
		words: handbook.words,
		levelRank,
		get drillRank() {
			return drillRank();
		},
		progressions: (drill) => progressions()(drill),
		weekByNumber,
		datesOf: (week) => teachingWeeks(curriculum.term)[week - 1],
		heightOf: (landmark, ages) => {
			const key = `${landmark} ${ages.join(" ")}`;
			if (!heights.has(key)) heights.set(key, landmarkHeights(landmark, ages));
			return heights.get(key);
		},
		exposure: (week, apparatus, block, drill, level) =>
			byBlock().get(blockKey(week, apparatus, block, drill, level)),
		get drillsByApparatus() {
			return drillsByApparatus();
		},
		get drillsByLevel() {
			return drillsByLevel();
		},
		get drillsByShape() {
			return drillsByShape();
		},
		get ringsByShape() {
			return ringsByShape();
		},
		findings: {
			get week() {
				return ofWeek();
			},
			get drill() {
				return ofDrill();
			},
			get skill() {
				return ofSkill();
			},
			get shape() {
				return ofShape();
			},
			get level() {
				return ofLevel();
			},
			get class() {
				return ofClass();
			},
		},
		measures: indexMeasures(handbook),
		rows: (name, by) => {
			const key = [name, ...by].join(" ");
			let found = tables.get(key);
			if (found === undefined) {
				found = rowsBy(handbook, name, by);
				tables.set(key, found);
			}
			return found;
		},
		line: (page, text) => handbook.markdown.inline(text, href(page)),
		inline: (page, text) => (text === undefined ? undefined : handbook.markdown.inline(text, href(page))),
		block: (page, text) => handbook.markdown.block(text, href(page), topHeading(page)),
	};
}

function blockKey(week: number, apparatus: Id, block: number, drill: Id, level: Id): string {
	return `${week} ${apparatus} ${block} ${drill} ${level}`;
}

function rowsBy(handbook: ShownHandbook, name: string, by: readonly string[]) {
	const table = handbook.tables.get(name);
	const rows = new Map<string, TableRow[]>();
	if (table === undefined) return rows;
	for (const cells of table.rows) {
		const row: Record<string, Cell> = {};
		table.columns.forEach((column, i) => {
			row[column.name] = cells[i];
		});
		push(rows, by.map((column) => String(row[column] ?? "")).join(" "), row);
	}
	return rows;
}

function findingsBy<K>(findings: readonly Finding[], key: (finding: Finding) => K | undefined) {
	const map = new Map<K, Finding[]>();
	for (const finding of findings) {
		const at = key(finding);
		if (at !== undefined) push(map, at, finding);
	}
	return map;
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
	const list = map.get(key);
	if (list === undefined) map.set(key, [value]);
	else list.push(value);
}
