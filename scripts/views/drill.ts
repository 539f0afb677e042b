/**
 * A drill's page, and the short forms of a drill that other pages list.
 */

import { drillAt, valuesAt } from "../compute/drill-at.ts";
import { agesOfLevel, setUpHeights } from "../compute/heights.ts";
import { performedBy } from "../compute/reach.ts";
import { movementOf, wrongOf } from "../figures/support.ts";
import type { Block, Dose, Drill, Id, Landmark, LinkedDrill } from "../model.ts";
import type { Address } from "./addresses.ts";
import { addressOf, weekApparatusAddress } from "./addresses.ts";
import type { Html } from "./html.ts";
import { type Link, linksTo, linkTo } from "./links.ts";
import type { Medium } from "./medium.ts";
import type { Step } from "./progressions.ts";
import type { SiteIndex } from "./site-index.ts";
import { saidOfDrill } from "./taught-view.ts";
import { doseWords } from "./words.ts";

export interface DrillLine {
	readonly link: Link;
	readonly summary: Html | undefined;
	readonly apparatus: readonly Link[];
	readonly levels: readonly Link[];
	/** Why it is listed, where the list does not say it. */
	readonly because?: string;
}

/** How one level does a drill. */
export interface LevelWay {
	readonly id: Id;
	readonly level: Link;
	readonly how: Html | undefined;
	readonly dose: string;
}

/** What stands ready for a drill. */
export interface SetUp {
	readonly equipment: readonly {
		readonly item: Link;
		readonly count: number;
		readonly per: "station" | "gymnast";
		/** The levels it is for, where it is not for all that are shown. */
		readonly levels: readonly Link[];
	}[];
	readonly heights: readonly {
		readonly what: string;
		readonly landmark: Landmark;
		/** The levels it is for, where it is not for all that are shown. */
		readonly levels: readonly Link[];
		/** Centimetres from the smallest to the tallest gymnast, for each group whose ages are known. */
		readonly ranges: readonly { readonly who: string; readonly low: number; readonly high: number }[];
	}[];
	/** Several where levels have turns of their own; those are named. */
	readonly turns: readonly {
		readonly seconds: number;
		readonly atOnce: number;
		readonly levels: readonly Link[];
	}[];
}

/** A text of a drill, with the levels it is for, where it is not for all that are shown. */
export interface LevelText {
	readonly levels: readonly Link[];
	readonly text: Html;
}

/** What keeps people safe. Never empty: where nothing is written, that is what has to be said. */
export type Safety = readonly [SafetyLine, ...SafetyLine[]];

export type SafetyLine =
	| { readonly says: "spotting" | "caution"; readonly texts: readonly LevelText[] }
	| { readonly says: "nothing-written" };

/** Everything a coach needs at the apparatus, without what leads elsewhere. */
export type DrillCore = ReturnType<typeof drillCore>;

export type DrillView = ReturnType<typeof drillView>;

/** A picture or video with its words; paths are from the root of the site. */
export interface DrillMedium {
	readonly medium: Medium;
	readonly alt: string;
	readonly caption: Html | undefined;
}

export function drillView(site: SiteIndex, drill: LinkedDrill) {
	const { curriculum } = site;
	const page = addressOf({ kind: "drill", id: drill.id });
	const { easier, harder } = site.progressions(drill);
	const lines = (ids: readonly Id[]) => drillLines(site, page, ids);
	const steps = (list: readonly Step[], ifWritten: string) =>
		list.flatMap(({ drill: id, because }) =>
			drillLines(site, page, [id], because === "written" ? ifWritten : undefined),
		);
	return {
		...drillCore(site, page, drill, [...drill.levels.keys()]),
		figures: movementOf(drill, curriculum),
		summary: site.inline(page, drill.summary),
		/** In plain words. */
		aliases: drill.aliases.map((alias) => site.handbook.markdown.plain(alias)),
		apparatus: linksTo(curriculum, "apparatus", drill.apparatus),
		shapes: linksTo(
			curriculum,
			"shape",
			new Set([...drill.shapes, ...drill.sequence.map((phase) => phase.shape)]),
		),
		skills: linksTo(curriculum, "skill", drill.skills),
		direction: drill.direction === "none" ? undefined : drill.direction,
		sides: drill.sides,
		contacts: drill.contacts,
		body: site.block(page, drill.body),
		media: drill.media.flatMap(({ alt, caption }, i) => {
			const medium = site.media.byDrill.get(drill.id)?.[i];
			return medium === undefined ? [] : [{ medium, alt, caption: site.inline(page, caption) }];
		}),
		easier: steps(easier, site.words.drill.comesBefore),
		harder: steps(harder, site.words.drill.comesNext),
		partners: lines(drill.partners),
		/** What is written to come before it and after it; easier and harder have more, and are judged. */
		after: linksTo(curriculum, "drill", drill.after),
		next: linksTo(curriculum, "drill", drill.next),
		elsewhere: lines(elsewhereOf(site, drill)),
		planned: drill.planned.flatMap((at) => {
			const week = site.weekByNumber.get(at.week);
			if (week === undefined) return [];
			const apparatus = linkTo(curriculum, "apparatus", at.apparatus);
			return [
				{
					week: { to: addressOf({ kind: "week", id: week.id }), name: site.words.week(at.week) },
					apparatus: {
						to: `${weekApparatusAddress(week.id, at.apparatus)}#block-${at.block}`,
						name: site.words.blockAt(apparatus.name, at.block),
					},
					levels: linksTo(curriculum, "level", at.levels),
				},
			];
		}),
		/** What the term gives each level of it. */
		exposure: exposureOf(site, drill),
		/** Where it comes from, if a library has it. */
		origin: site.curriculum.origins.get(`drill:${drill.id}`),
		reviewed:
			drill.reviewed === undefined
				? undefined
				: { iso: drill.reviewed, words: site.words.date(drill.reviewed, "full") },
		/** What coaches say of it: for the director alone. */
		said: curriculum.taught.length === 0 ? undefined : saidOfDrill(site, drill.id),
		file: drill.source.file,
	};
}

function exposureOf(site: SiteIndex, drill: LinkedDrill) {
	const { curriculum } = site;
	const byLevel = Map.groupBy(site.measures.exposures(drill.id), (e) => e.level);
	return [...curriculum.levels.keys()].flatMap((level) => {
		const own = byLevel.get(level);
		if (own === undefined) return [];
		const known = own.flatMap((e) => e.repetitions ?? []);
		const turns = own.reduce((sum, e) => sum + (e.repetitions ?? 1), 0);
		return [
			{
				level: linkTo(curriculum, "level", level),
				/** Each leads to the week's page. */
				weeks: [...new Set(own.map((e) => e.week))].flatMap((number) => {
					const week = site.weekByNumber.get(number);
					return week === undefined
						? []
						: [{ to: addressOf({ kind: "week", id: week.id }), name: String(number) }];
				}),
				times: own.length,
				minutes: own.reduce((sum, e) => sum + e.minutes, 0),
				/** Undefined where no dose says them. */
				repetitions: known.length === 0 ? undefined : known.reduce((sum, count) => sum + count, 0),
				/** Over the term; a repetition count that nobody wrote counts as 1. Undefined without contacts. */
				landings: drill.contacts && drill.contacts.landings * turns,
				hands: drill.contacts && drill.contacts.hands * turns,
			},
		];
	});
}

/**
 * What a coach needs of a drill for some levels, written for the page at an address: each level's own
 * values in place of the drill's, named where levels differ; figures are the first level's. Heights are
 * at the ages given, else at the ages of the classes of each level.
 *
 * @param block whose dose stands in place of the drill's
 */
export function drillCore(
	site: SiteIndex,
	page: Address,
	drill: LinkedDrill,
	levels: readonly Id[],
	ages?: readonly [number, number],
	block?: Pick<Block, "dose" | "doses">,
) {
	const { curriculum } = site;
	const first = levels[0];
	return {
		id: drill.id,
		/** In plain words. */
		title: site.handbook.markdown.plain(drill.title),
		levels: levels.flatMap((level) => {
			const dose = drill.levels.get(level);
			if (dose === undefined) return [];
			return [
				{
					id: level,
					level: linkTo(curriculum, "level", level),
					how: site.inline(page, dose.do),
					dose: doseWords(site.words, drill, doseIn(block, level, dose)),
				},
			];
		}),
		cues: drill.cues.map((cue) => site.line(page, cue)),
		/** With the figures of what is right and wrong, where a fault says of which shape. */
		faults: drill.faults.map((fault) => {
			const wrong = wrongOf(fault, drill, curriculum);
			return { see: site.line(page, fault.see), say: site.line(page, fault.say), ...(wrong && { wrong }) };
		}),
		setUp: {
			equipment: equipmentOf(site, drill, levels),
			heights: setUpHeights(drill, levels).map(({ what, landmark, levels: those }) => ({
				// What can be set is written by its id, so that it is held against what it can be set to.
				what: curriculum.equipment.get(what)?.name ?? what,
				landmark,
				levels: those.length < levels.length ? linksTo(curriculum, "level", those) : [],
				ranges: rangesOf(site, landmark, those, ages),
			})),
			turns: alike(site, drill, levels, ({ turn }) => turn).flatMap(({ value, levels: those }) =>
				value === undefined ? [] : [{ seconds: value.seconds, atOnce: value.atOnce, levels: those }],
			),
		},
		safety: safetyOf(site, page, drill, levels),
		/** What to do where it is too hard or too easy, in the club's words. */
		adapt: {
			easier: textsOf(site, page, drill, levels, ({ easier }) => easier),
			harder: textsOf(site, page, drill, levels, ({ harder }) => harder),
		},
		/** What must be seen of the skills it performs, in the club's words. */
		criteria: [...performedBy(drill).keys()].flatMap((skill) => {
			const lines = criteriaOf(site, page, skill);
			return lines.length === 0 ? [] : [{ skill: linkTo(curriculum, "skill", skill), lines }];
		}),
		/** The phases it goes through, else the shapes it trains. */
		figures: movementOf(first === undefined ? drill : drillAt(drill, first), curriculum),
		/** The same for each way that levels have; their names are empty where all do the same. */
		strips: () => stripsOf(site, drill, levels),
	};
}

/** What must be seen of a skill. */
export function criteriaOf(site: SiteIndex, page: Address, skill: Id): readonly Html[] {
	const criteria = site.curriculum.skills.get(skill)?.criteria ?? [];
	return criteria.map((line) => site.line(page, line));
}

/** A level's dose with what a block gives it this week. */
export function doseIn(block: Pick<Block, "dose" | "doses"> | undefined, level: Id, dose: Dose): Dose {
	return { ...dose, ...(block?.doses.get(level) ?? block?.dose) };
}

/** What levels share of a drill: each value with the levels it is for, named only where they differ. */
function alike<T>(
	site: SiteIndex,
	drill: LinkedDrill,
	levels: readonly Id[],
	of: (drill: LinkedDrill) => T,
): readonly { readonly value: T; readonly levels: readonly Link[] }[] {
	return valuesAt(drill, levels, of).map(({ value, levels: those }) => ({
		value,
		levels: those === "all" ? [] : linksTo(site.curriculum, "level", those),
	}));
}

function stripsOf(site: SiteIndex, drill: LinkedDrill, levels: readonly Id[]) {
	const helpersOf = (one: LinkedDrill) => one.helpers?.length ?? 0;
	return valuesAt(drill, levels, ({ sequence }) => sequence).map(({ levels: those }) => {
		// One strip shows the hands that any of its levels needs.
		const same = (those === "all" ? levels : those).map((level) => drillAt(drill, level));
		const [most = drill] = same.toSorted((a, b) => helpersOf(b) - helpersOf(a));
		return {
			levels: those === "all" ? [] : linksTo(site.curriculum, "level", those),
			figures: movementOf(most, site.curriculum),
		};
	});
}

function equipmentOf(site: SiteIndex, drill: LinkedDrill, levels: readonly Id[]): SetUp["equipment"] {
	const at = levels.length === 0 ? [drill] : levels.map((level) => drillAt(drill, level));
	const items = new Set(at.flatMap(({ equipment }) => equipment.map(({ item }) => item)));
	return [...items].flatMap((id) => {
		const item = linkTo(site.curriculum, "equipment", id);
		return alike(site, drill, levels, ({ equipment }) => equipment.find((need) => need.item === id)).flatMap(
			({ value, levels: those }) =>
				value === undefined ? [] : [{ item, count: value.count, per: value.per, levels: those }],
		);
	});
}

/** The one place that says what holds where a drill has neither spotting nor caution. */
function safetyOf(site: SiteIndex, page: Address, drill: LinkedDrill, levels: readonly Id[]): Safety {
	const written = (["spotting", "caution"] as const).flatMap((says): readonly SafetyLine[] => {
		const texts = textsOf(site, page, drill, levels, (one) => one[says] ?? []);
		return texts.length === 0 ? [] : [{ says, texts }];
	});
	const [first = { says: "nothing-written" as const }, ...others] = written;
	return [first, ...others];
}

/** Texts of a drill; where levels have their own, each with its levels. */
function textsOf(
	site: SiteIndex,
	page: Address,
	drill: LinkedDrill,
	levels: readonly Id[],
	of: (drill: LinkedDrill) => string | readonly string[],
): readonly LevelText[] {
	return alike(site, drill, levels, of).flatMap(({ value, levels: those }) =>
		[value].flat().map((line) => ({ levels: those, text: site.line(page, line) })),
	);
}

function rangesOf(
	site: SiteIndex,
	landmark: Landmark,
	levels: readonly Id[],
	ages: readonly [number, number] | undefined,
): SetUp["heights"][number]["ranges"] {
	const groups =
		ages === undefined
			? levels.map((level) => ({
					who: linkTo(site.curriculum, "level", level).name,
					ages: agesOfLevel(site.curriculum.term.classes, level),
				}))
			: [{ who: site.words.ages(ages[0], ages[1]), ages }];
	return groups.flatMap(({ who, ages: own }) => {
		const heights = own && site.heightOf(landmark, own);
		return heights === undefined ? [] : [{ who, low: heights.low, high: heights.high }];
	});
}

/** Drills as lines of a list, written for the page at an address. */
export function drillLines(
	site: SiteIndex,
	page: Address,
	drills: Iterable<Id | LinkedDrill>,
	because?: string,
): readonly DrillLine[] {
	const lines: DrillLine[] = [];
	for (const item of drills) {
		const drill = typeof item === "string" ? site.curriculum.drills.get(item) : item;
		if (drill === undefined) continue;
		const line = lineOf(site, page, drill);
		lines.push(because === undefined ? line : { ...line, because });
	}
	return lines;
}

/** A drill's line is the same wherever its summary links to nothing, and lists are long. */
const kept = new WeakMap<SiteIndex, Map<Id, DrillLine>>();

function lineOf(site: SiteIndex, page: Address, drill: LinkedDrill): DrillLine {
	const lines = kept.get(site) ?? new Map<Id, DrillLine>();
	kept.set(site, lines);
	const known = lines.get(drill.id);
	if (known !== undefined) return known;
	const line: DrillLine = {
		link: { to: addressOf({ kind: "drill", id: drill.id }), name: drill.title },
		summary: site.inline(page, drill.summary),
		apparatus: linksTo(site.curriculum, "apparatus", drill.apparatus),
		levels: linksTo(site.curriculum, "level", levelsInOrder(site, drill)),
	};
	if (line.summary?.text.includes("<a ") !== true) lines.set(drill.id, line);
	return line;
}

/** A drill's levels, lowest first. */
export function levelsInOrder(site: SiteIndex, drill: Drill): readonly Id[] {
	const rank = (id: Id) => site.levelRank.get(id) ?? 0;
	return [...drill.levels.keys()].sort((a, b) => rank(a) - rank(b));
}

/**
 * Drills of the same shapes on other apparatus for a level in common: up to two for each shape and
 * apparatus, six in all.
 */
function elsewhereOf(site: SiteIndex, drill: LinkedDrill): readonly Id[] {
	const found = new Set<Id>();
	for (const shape of new Set(drill.shapes)) {
		for (const [apparatus, ring] of site.ringsOfShape(shape)) {
			if (drill.apparatus.includes(apparatus)) continue;
			let taken = 0;
			for (const other of ring.after(drill.id, 12)) {
				if (taken === 2) break;
				if (found.has(other.id)) continue;
				if (!shareLevel(other, drill)) continue;
				if (other.apparatus.some((place) => drill.apparatus.includes(place))) continue;
				found.add(other.id);
				taken++;
			}
		}
	}
	return [...found].slice(0, 6);
}

function shareLevel(one: Drill, other: Drill): boolean {
	for (const level of one.levels.keys()) if (other.levels.has(level)) return true;
	return false;
}
