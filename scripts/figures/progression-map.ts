/**
 * The way to a skill and on from it: boxes from the easy at the top to the hard at the bottom.
 *
 *   1. boxes: the name wrapped, and when each level is first taught it
 *   2. arrows, and which of them a longer way already says
 *   3. a layout in rows that keeps to a phone's width
 *   4. the drawing, and the same as a list of words
 */

import type { Id } from "../model.ts";
import * as english from "../words/en.ts";
import {
	box,
	type ChartWords,
	chartFrame,
	hasLinks,
	INK,
	type LegendItem,
	LINE,
	legend,
	linked,
	PAPER,
	SMALL,
	SOFT,
	TEXT,
	TONE,
	tenth,
	text,
	textWidth,
	type Words,
	wrapText,
} from "./chart-frame.ts";
import { arrowsOf, type GraphNode, inOrder } from "./progression-graph.ts";
import { layOutInRows, type PlacedBox, type Way } from "./progression-layout.ts";

export interface MapSkill extends GraphNode {
	readonly name: string;
	readonly href?: string;
	/** When levels are first taught it, in the order they are shown; left out where the term does not matter. */
	readonly first?: readonly FirstTaught[];
}

export interface FirstTaught {
	readonly level: string;
	readonly week: number;
}

export interface MapOptions extends Words {
	/** What the map says by itself; English if left out. */
	readonly words?: ChartWords;
	/** The skill that stands out. */
	readonly focus?: Id;
	/** Arrows that a longer way already says: drawn broken, or left out. Broken if left out. */
	readonly redundant?: "broken" | "left out";
	/** The width to keep to where the boxes allow it, in CSS pixels; 340 if left out. */
	readonly width?: number;
}

/** One skill of the map in words. */
export interface MapItem {
	readonly id: Id;
	readonly name: string;
	readonly href: string | undefined;
	readonly place: "focus" | "before" | "after" | "beside";
	readonly words: string;
}

export interface ProgressionMap {
	readonly svg: string;
	/** Every box once, each after all it needs. */
	readonly items: readonly MapItem[];
}

/** CSS pixels. */
const PHONE_WIDTH = 340;
const EDGE = 4;
const BOX = { least: 70, text: 88, padding: 7, radius: 6 } as const;
const NAME_LEADING = 14;
const TAG_LEADING = 13;
const NAME_LINES = 4;
const HEAD = { half: 4.5, long: 7 } as const;

interface Sized {
	readonly id: Id;
	readonly skill: MapSkill;
	readonly name: readonly string[];
	readonly tags: readonly string[];
	readonly width: number;
	readonly height: number;
}

/**
 * The map of all given skills. Throws without skills, for a focus that is not among them, and for
 * skills that come before themselves.
 */
export function drawProgressionMap(skills: readonly MapSkill[], options: MapOptions): ProgressionMap {
	const { focus, redundant = "broken", width: wanted = PHONE_WIDTH, words: say = english.charts } = options;
	if (skills.length === 0) throw new RangeError("a map needs at least one skill");
	if (focus !== undefined && !skills.some(({ id }) => id === focus))
		throw new RangeError(`${focus} is not among the skills`);
	const arrows = arrowsOf(skills);
	const shown = redundant === "broken" ? arrows : arrows.filter((arrow) => !arrow.redundant);
	const known = new Set(skills.map(({ id }) => id));
	const sized = skills.map((skill) => sizeOf(skill, missingNeeds(skill, known), skill.id === focus, say));
	const placed = layOutInRows(sized, shown, wanted - 2 * EDGE);

	const width = Math.ceil(placed.width + 2 * EDGE);
	const items = itemsOf(skills, focus, known, say);
	const wordsOf = new Map(items.map(({ id, words }) => [id, words]));
	const boxes = placed.boxes.map((one) =>
		drawBox(one, one.skill.id === focus, wordsOf.get(one.skill.id) ?? ""),
	);
	const ways = [
		...placed.ways.filter(({ arrow }) => arrow.redundant),
		...placed.ways.filter(({ arrow }) => !arrow.redundant),
	];
	const key = legend(
		shown.some((arrow) => arrow.redundant)
			? [
					{ sample: arrowSample(false), words: say.arrow },
					{ sample: arrowSample(true), words: say.redundant },
				]
			: [],
		EDGE,
		placed.height + 2 * EDGE + 10,
		width - 2 * EDGE,
	);
	const svg = chartFrame(
		options,
		{ width, height: placed.height + 2 * EDGE + (key.height === 0 ? 0 : 10 + key.height) },
		"progression-map",
		hasLinks(skills) ? undefined : items.map(({ words }) => words),
		`<g class="map-arrows" aria-hidden="true">${ways.map((way) => drawWay(way)).join("")}</g>` +
			boxes.join("") +
			key.svg,
	);
	return { svg, items };
}

function missingNeeds({ needs }: MapSkill, known: ReadonlySet<Id>): number {
	return new Set(needs.filter((need) => !known.has(need))).size;
}

function sizeOf(skill: MapSkill, needsMore: number, focus: boolean, say: ChartWords): Sized {
	const name = wrapText(skill.name, BOX.text, TEXT, NAME_LINES, true);
	const tags = [
		...(skill.first === undefined
			? []
			: skill.first.length === 0
				? [say.notTaught]
				: skill.first.flatMap((first) => tagLines(first, say))),
		...(needsMore === 0 ? [] : [say.more(needsMore)]),
	];
	const widest = Math.max(
		...name.map((line) => textWidth(line, TEXT, true)),
		...tags.map((line) => textWidth(line, SMALL)),
	);
	return {
		id: skill.id,
		skill,
		name,
		tags,
		width: Math.max(BOX.least, Math.ceil(widest)) + (focus ? 2 : 1) * BOX.padding,
		height:
			2 * BOX.padding +
			name.length * NAME_LEADING +
			(tags.length === 0 ? 0 : tags.length * TAG_LEADING + 4) -
			2,
	};
}

/** A level and its week on one line, or on two where the level's name is long. */
function tagLines(first: FirstTaught, say: ChartWords): readonly string[] {
	const whole = say.taught(first);
	if (textWidth(whole, SMALL) <= BOX.text) return [whole];
	return [...wrapText(first.level, BOX.text, SMALL, 2), say.week(first.week)];
}

function drawWay({ arrow, corners }: Way): string {
	const [first, ...rest] = corners.map(({ x, y }) => ({ x: tenth(x + EDGE), y: tenth(y + EDGE) }));
	const last = rest.at(-1);
	if (first === undefined || last === undefined) return "";
	let before = first;
	let d = `M${first.x} ${first.y}`;
	rest.forEach((corner, i) => {
		// The shaft ends inside the head.
		const y = i === rest.length - 1 ? tenth(corner.y - HEAD.long + 1) : corner.y;
		if (corner.x === before.x) d += `V${y}`;
		else {
			const middle = tenth((before.y + y) / 2);
			d += `C${before.x} ${middle} ${corner.x} ${middle} ${corner.x} ${y}`;
		}
		before = { x: corner.x, y };
	});
	const broken = arrow.redundant ? ' stroke-dasharray="2 4"' : "";
	return (
		`<path class="map-arrow${arrow.redundant ? " map-redundant" : ""}" fill="none" stroke="${arrow.redundant ? SOFT : INK}" stroke-width="1.5"${broken} d="${d}"/>` +
		headAt(last.x, last.y, arrow.redundant)
	);
}

function headAt(x: number, y: number, redundant: boolean): string {
	return `<path fill="${redundant ? PAPER : INK}" stroke="${redundant ? SOFT : INK}" stroke-linejoin="round" d="M${x} ${y}l${-HEAD.half}${-HEAD.long}h${2 * HEAD.half}z"/>`;
}

function arrowSample(redundant: boolean): LegendItem["sample"] {
	return (left, top) => {
		const x = tenth(left + 9);
		const broken = redundant ? ' stroke-dasharray="2 4"' : "";
		return (
			`<path fill="none" stroke="${redundant ? SOFT : INK}" stroke-width="1.5"${broken} d="M${x} ${tenth(top - 2)}V${tenth(top + 10)}"/>` +
			headAt(x, tenth(top + 15), redundant)
		);
	};
}

/** A skill's box, from its own corner: it is the same text in every picture that shows it. */
function drawBox(
	{ skill, name, tags, width, height, x, top: boxTop }: PlacedBox<Sized>,
	focus: boolean,
	words: string,
): string {
	const left = x - width / 2 + EDGE;
	const top = boxTop + EDGE;
	const idle = skill.first?.length === 0;
	const middle = width / 2;
	const firstLine = BOX.padding + 10;
	const firstTag = firstLine + name.length * NAME_LEADING + 2;
	const stroke = focus ? INK : idle ? SOFT : TONE;
	const frame =
		`<rect width="${tenth(width)}" height="${tenth(height)}" rx="${BOX.radius}" fill="${PAPER}" ` +
		`stroke="${stroke}" stroke-width="${focus ? 3.5 : 1.5}"${idle ? ' stroke-dasharray="5 3"' : ""}/>` +
		(focus ? box(0, 0, width, height, TONE, 0.12, undefined, BOX.radius) : "");
	const label = `<g class="map-box${focus ? " map-focus" : ""}" transform="translate(${tenth(left)} ${tenth(top)})">${frame}${name
		.map((line, i) => text(middle, firstLine + i * NAME_LEADING, line, { anchor: "middle", bold: true }))
		.join("")}${
		tags.length === 0
			? ""
			: `<path stroke="${LINE}" d="M${tenth(BOX.padding)} ${tenth(firstTag - 11.5)}H${tenth(width - BOX.padding)}"/>`
	}${tags
		.map((line, i) =>
			text(middle, firstTag + 2 + i * TAG_LEADING, line, {
				anchor: "middle",
				size: SMALL,
				fill: SOFT,
				className: "map-tag",
			}),
		)
		.join("")}</g>`;
	return linked(skill.href, words, label, { left, top, width, height });
}

function itemsOf(
	skills: readonly MapSkill[],
	focus: Id | undefined,
	known: ReadonlySet<Id>,
	say: ChartWords,
): readonly MapItem[] {
	const byId = new Map(skills.map((skill) => [skill.id, skill]));
	const leadsTo = (id: Id): readonly Id[] =>
		skills.filter(({ needs }) => needs.includes(id)).map((skill) => skill.id);
	const reach = (next: (id: Id) => readonly Id[]): ReadonlySet<Id> => {
		const seen = new Set<Id>();
		const open = focus === undefined ? [] : [focus];
		for (let id = open.pop(); id !== undefined; id = open.pop()) {
			for (const other of next(id)) {
				if (seen.has(other)) continue;
				seen.add(other);
				open.push(other);
			}
		}
		return seen;
	};
	const before = reach((id) => byId.get(id)?.needs ?? []);
	const after = reach(leadsTo);
	const namesOf = (ids: Iterable<Id>): readonly string[] =>
		[...new Set(ids)].flatMap((id) => byId.get(id)?.name ?? []);
	return inOrder(skills).flatMap((id): readonly MapItem[] => {
		const skill = byId.get(id);
		if (skill === undefined) return [];
		const needs = namesOf(skill.needs);
		const next = namesOf(leadsTo(id));
		const needsMore = missingNeeds(skill, known);
		const parts = [
			...(skill.first === undefined
				? []
				: skill.first.length === 0
					? [say.notTaught]
					: [skill.first.map(say.taughtInFull).join(", ")]),
			...(needs.length === 0 ? [] : [say.needs(needs)]),
			...(needsMore === 0 ? [] : [say.moreInFull(needsMore)]),
			...(next.length === 0 ? [] : [say.leadsTo(next)]),
		];
		return [
			{
				id,
				name: skill.name,
				href: skill.href,
				place: id === focus ? "focus" : before.has(id) ? "before" : after.has(id) ? "after" : "beside",
				words: parts.length === 0 ? skill.name : `${skill.name}: ${parts.join("; ")}`,
			},
		];
	});
}
