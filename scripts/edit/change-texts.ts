/**
 * A change list written into the week files: each change replaces letters at places, and the lines of a
 * block that moves go with their comments. The result reads as change-plan.ts makes it in memory.
 */

import { isMap, isScalar, isSeq, type Node, type YAMLMap } from "yaml";
import { type NewFields, withFields } from "../compute/plan-changes.ts";
import type { DataPath, PlanChange, WrittenBlock } from "../model.ts";
import { type ClubTexts, type Splice, spliced } from "./club-texts.ts";
import {
	type BlockPlace,
	EditRefused,
	moveBlock,
	putBlock,
	readPlace,
	takeBlock,
	weekPath,
} from "./move-block.ts";
import { moveWeek } from "./move-week.ts";
import { inFlow } from "./write-changes.ts";
import { dataIn, writeData } from "./write-data.ts";
import { nodeAt, type PlacedFile, placeFile } from "./yaml-places.ts";

/** The texts with all changes made, one after the other. Throws `EditRefused` where one cannot be. */
export function changeTexts(texts: ClubTexts, changes: readonly PlanChange[]): ClubTexts {
	return changes.reduce(changed, texts);
}

function changed(texts: ClubTexts, change: PlanChange): ClubTexts {
	if ("swap" in change) return swap(texts, change.swap);
	if ("exchange" in change) {
		const [one, other] = change.exchange;
		if (typeof one === "number" || typeof other === "number")
			return moveWeek(texts, Number(one), Number(other), true);
		return exchange(texts, readPlace(one), readPlace(other));
	}
	if ("move" in change) return moveBlock(texts, readPlace(change.move.from), readPlace(change.move.to));
	if ("split" in change) return split(texts, change.split);
	if ("set" in change) {
		const { block, ...fields } = change.set;
		return setFields(texts, readPlace(block), fields);
	}
	if ("remove" in change) return takeBlock(texts, readPlace(change.remove)).texts;
	const { week, apparatus, at, block } = change.add;
	const number = at ?? blockCount(texts, { week, apparatus }) + 1;
	const lines = Object.entries(block).map(
		([field, value], i) => `${i === 0 ? "-" : " "} ${field}: ${inFlow(value)}`,
	);
	return putBlock(texts, { week, apparatus, block: number }, lines, 0);
}

function swap(
	texts: ClubTexts,
	{ block, station, drill }: { readonly block: string; readonly station?: number; readonly drill: string },
): ClubTexts {
	const place = readPlace(block);
	return edited(texts, place, (week) => {
		const own = week.map(blockPath(place));
		const list = ["stations", "options"].find((name) => own.has(name));
		const isOne = list === undefined || station === undefined;
		const at = isOne ? own : week.map([...blockPath(place), list, station - 1]);
		return [week.value(at, "drill", drill), ...week.without(at, "note")];
	});
}

function setFields(texts: ClubTexts, place: BlockPlace, fields: NewFields): ClubTexts {
	const { week, apparatus, block } = place;
	const path = weekPath(texts, week);
	const text = texts.get(path) ?? "";
	const data = structuredClone(dataIn(path, text));
	const plan = (data as WeekData | undefined)?.apparatus?.[apparatus]?.blocks;
	const before = plan?.[block - 1];
	if (plan === undefined || before === undefined)
		throw new EditRefused(`There is no block ${week}/${apparatus}/${block}.`);
	plan[block - 1] = withFields(before, fields);
	return new Map(texts).set(path, writeData(path, text, data));
}

interface WeekData {
	readonly apparatus?: Readonly<Record<string, { readonly blocks?: WrittenBlock[] } | null | undefined>>;
}

function setMinutes(texts: ClubTexts, place: BlockPlace, minutes: number): ClubTexts {
	return edited(texts, place, (week) => [week.value(week.map(blockPath(place)), "minutes", String(minutes))]);
}

function exchange(texts: ClubTexts, one: BlockPlace, other: BlockPlace): ClubTexts {
	if (one.week !== other.week || one.apparatus !== other.apparatus) {
		// Where the first comes to stand, the second goes one down.
		const moved = moveBlock(texts, one, other);
		return moveBlock(moved, { ...other, block: other.block + 1 }, one);
	}
	const [first, last] = one.block < other.block ? [one, other] : [other, one];
	const moved = moveBlock(texts, first, last);
	return last.block - 1 === first.block ? moved : moveBlock(moved, { ...last, block: last.block - 1 }, first);
}

function split(
	texts: ClubTexts,
	{
		block,
		after,
		minutes,
	}: { readonly block: string; readonly after: number; readonly minutes: readonly [number, number] },
): ClubTexts {
	const place = readPlace(block);
	const second = { ...place, block: place.block + 1 };
	const { lines, column } = takeBlock(texts, place);
	const twice = putBlock(texts, second, lines, column);
	const first = edited(twice, place, (week) => week.withoutStations(place, (i) => i >= after));
	const halves = edited(first, second, (week) => week.withoutStations(second, (i) => i < after));
	return setMinutes(setMinutes(halves, place, minutes[0]), second, minutes[1]);
}

/** A week's file with what a place of it says. */
class WeekText {
	readonly #text: string;
	readonly #file: PlacedFile;
	readonly #name: string;

	constructor(path: string, text: string, { week, apparatus, block }: BlockPlace) {
		this.#text = text;
		this.#file = placeFile(path, text);
		this.#name = `${week}/${apparatus}/${block}`;
	}

	map(path: DataPath): YAMLMap {
		const node = nodeAt(this.#file.document, path);
		if (isMap(node)) return node;
		throw new EditRefused(`${this.#name} is no block that can be changed like this.`);
	}

	/** Another value of a field that is there. */
	value(map: YAMLMap, name: string, value: string): Splice {
		const node = map.get(name, true);
		if (!isScalar(node)) throw new EditRefused(`${this.#name} has no \`${name}\`.`);
		const [start, end] = this.#range(node);
		return { start, end, text: value };
	}

	/** A field taken out: of a map in braces with its comma, of one on lines with its lines. */
	without(map: YAMLMap, name: string): readonly Splice[] {
		const at = map.items.findIndex(({ key }) => isScalar(key) && key.value === name);
		const pair = map.items[at];
		if (pair === undefined) return [];
		const [start] = this.#range(pair.key as Node);
		const [, end] = this.#range((pair.value ?? pair.key) as Node);
		const next = map.items[at + 1];
		const [nextStart] = next === undefined ? [undefined] : this.#range(next.key as Node);
		if (map.flow === true || at === 0)
			return [
				{
					start: this.#gapBefore(start, map, at),
					end: nextStart ?? end,
					text: at > 0 && nextStart !== undefined ? ", " : "",
				},
			];
		return [{ start: this.#lineStart(start), end: this.#lineEnd(end), text: "" }];
	}

	/** Where what parts a field from the one before it begins. */
	#gapBefore(start: number, map: YAMLMap, at: number): number {
		const before = map.items[at - 1];
		return before === undefined ? start : this.#range((before.value ?? before.key) as Node)[1];
	}

	/** Stations taken out, each with its lines. */
	withoutStations(place: BlockPlace, isOut: (index: number) => boolean): readonly Splice[] {
		const list = this.map(blockPath(place)).get("stations", true);
		if (!isSeq(list) || list.flow === true) {
			throw new EditRefused(
				`${this.#name}: stations that are split stand on lines of their own, each with a hyphen.`,
			);
		}
		const ranges = list.items.map((item) => this.#range(item as Node));
		const starts = ranges.map(([start]) => this.#lineStart(this.#text.lastIndexOf("-", start - 1)));
		const end = this.#lineEnd(ranges.at(-1)?.[1] ?? 0);
		return starts.flatMap((start, i) => (isOut(i) ? [{ start, end: starts[i + 1] ?? end, text: "" }] : []));
	}

	/** Places in the whole text; the end is that of the value, without what comes after it. */
	#range(node: Node): readonly [number, number] {
		const [start = 0, end = 0] = node.range ?? [];
		return [start + this.#file.offset, end + this.#file.offset];
	}

	#lineStart(at: number): number {
		return this.#text.lastIndexOf("\n", at - 1) + 1;
	}

	/** Behind the line that holds the letter before a place. */
	#lineEnd(at: number): number {
		const end = this.#text.indexOf("\n", Math.max(0, at - 1));
		return end < 0 ? this.#text.length : end + 1;
	}
}

function edited(
	texts: ClubTexts,
	place: BlockPlace,
	splicesOf: (week: WeekText) => readonly Splice[],
): ClubTexts {
	const path = weekPath(texts, place.week);
	const text = texts.get(path) ?? "";
	return new Map(texts).set(path, spliced(text, splicesOf(new WeekText(path, text, place))));
}

function blockPath({ apparatus, block }: BlockPlace): DataPath {
	return ["apparatus", apparatus, "blocks", block - 1];
}

function blockCount(texts: ClubTexts, { week, apparatus }: Pick<BlockPlace, "week" | "apparatus">): number {
	const path = weekPath(texts, week);
	const node = nodeAt(placeFile(path, texts.get(path) ?? "").document, ["apparatus", apparatus, "blocks"]);
	return isSeq(node) ? node.items.length : 0;
}
