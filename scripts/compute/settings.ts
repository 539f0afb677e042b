/**
 * Settings: whether equipment can be set to the height on the gymnast's body that a drill asks for.
 *
 * Steps: for each group take the heights that its level's drills name by an item of equipment; work out
 * the centimetres for the ages of the class; hold them against what the item can be set to, less the
 * mats that the drill lays under it; and see whether one item has to stand at two heights in one class.
 *
 * The centimetres are from published growth and segment tables (heights.ts), adult shares on children:
 * approximate. So a height is reported only where no setting lies in the whole range of the class.
 */

import type { Curriculum, Equipment, Finding, Id, Landmark } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import { onceEach } from "./get-or-make.ts";
import type { Group } from "./groups.ts";
import { heightsAt, landmarkHeights } from "./heights.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, apparatusName, groupName, itemName } from "./names.ts";
import { type BlockWork, type GroupWork, groupWorks, type StationWork } from "./work.ts";

/** An item that a drill wants at a height, for one group. */
export interface Setting {
	readonly work: GroupWork;
	readonly block: BlockWork;
	readonly station: StationWork;
	readonly item: Equipment;
	readonly landmark: Landmark;
	/** Centimetres above what the gymnast stands on, for the ages of the class. */
	readonly wanted: readonly [number, number];
	/** Centimetres of mats under it. */
	readonly mats: number;
}

/** Every height of an item of equipment that a group's drills name, where the class gives its ages. */
export const settings = onceEach((curriculum: Curriculum): readonly Setting[] => {
	const wantedOf = new Map<string, readonly [number, number] | undefined>();
	return groupWorks(curriculum).flatMap((work) => {
		const { ages } = work.group.class;
		if (ages === undefined) return [];
		return work.blocks.flatMap((block) =>
			block.stations.flatMap((station) =>
				[...heightsAt(station.drill, station.level)].flatMap(([name, landmark]) => {
					const item = curriculum.equipment.get(name);
					if (item === undefined) return [];
					const key = `${landmark} ${ages.join("-")}`;
					if (!wantedOf.has(key)) {
						const heights = landmarkHeights(landmark, ages);
						wantedOf.set(key, heights && [heights.low, heights.high]);
					}
					const wanted = wantedOf.get(key);
					if (wanted === undefined) return [];
					return [
						{ work, block, station, item, landmark, wanted, mats: matsOf(curriculum, station, item.id) },
					];
				}),
			),
		);
	});
});

/** The thickest mat that the drill lays down beside the item. */
function matsOf(curriculum: Curriculum, { drill }: StationWork, item: Id): number {
	const others = drill.equipment.filter((need) => need.item !== item && need.count > 0);
	return Math.max(0, ...others.map((need) => curriculum.equipment.get(need.item)?.thickness ?? 0));
}

/** Whether an item can stand at a height above its mats that lies within the wanted ones; true where nothing is said of it. */
export function canStand({
	item,
	wanted: [low, high],
	mats,
}: Pick<Setting, "item" | "wanted" | "mats">): boolean {
	if (item.height !== undefined) return item.height - mats >= low && item.height - mats <= high;
	if (item.range === undefined) return true;
	const [least, most] = item.range;
	const from = Math.max(least, low + mats);
	const to = Math.min(most, high + mats);
	if (from > to) return false;
	if (item.step === undefined) return true;
	return least + Math.ceil((from - least) / item.step - 1e-9) * item.step <= to;
}

/** H336 and H337. */
export const settingsMeasure: Measure = {
	name: "settings",
	tables: () => [],
	findings: ({ curriculum }, words) => [
		...[
			...Map.groupBy(
				settings(curriculum).filter((setting) => !canStand(setting)),
				({ work, station, item }) => `${work.group.name} ${station.drill.id} ${item.id}`,
			).values(),
		].flatMap((same) =>
			same[0] === undefined ? [] : [cannotStand(curriculum, same[0], same.length, words)],
		),
		...twoHeights(curriculum).map((pair) => atTwoHeights(curriculum, pair, words)),
	],
};

/** Pairs of settings that one class cannot have without setting an item anew, one for each class, item and pair of drills. */
export function twoHeights(curriculum: Curriculum): readonly (readonly [Setting, Setting])[] {
	const pairs = new Map<string, readonly [Setting, Setting]>();
	for (const same of Map.groupBy(
		settings(curriculum).filter(({ item }) => item.range !== undefined),
		({ work, item }) => `${work.week} ${work.group.class.id} ${item.id}`,
	).values()) {
		for (const [i, one] of same.entries()) {
			for (const other of same.slice(i + 1)) {
				if (one.landmark === other.landmark || one.station.drill.id === other.station.drill.id) continue;
				// Enough of them to leave each at its height.
				const needed = countOf(one) + countOf(other);
				if (one.item.owned !== undefined && needed <= one.item.owned) continue;
				const key = [one.work.group.class.id, one.item.id, one.station.drill.id, other.station.drill.id].join(
					" ",
				);
				if (!pairs.has(key)) pairs.set(key, [one, other]);
			}
		}
	}
	return [...pairs.values()];
}

export function countOf({ station, item }: Pick<Setting, "station" | "item">): number {
	const need = station.drill.equipment.find((one) => one.item === item.id);
	return need === undefined ? 1 : need.per === "gymnast" ? need.count * station.gymnasts : need.count;
}

function placeWords(curriculum: Curriculum, { work, block }: Setting, words: Words): string {
	return words.findings.hall.where(
		groupName(words, work.group),
		work.week,
		apparatusName(curriculum, block.apparatus),
	);
}

function aboutOf({ work, block, station, item }: Setting, group: Group): Finding["about"] {
	return {
		week: work.week,
		apparatus: block.apparatus,
		drill: station.drill.id,
		equipment: item.id,
		...aboutGroup(group),
	};
}

function cannotStand(curriculum: Curriculum, setting: Setting, count: number, words: Words): Finding {
	const say = words.findings.hall;
	const { item, wanted, mats, work, block, station } = setting;
	const can =
		item.height !== undefined
			? say.heightFixed(item.height)
			: say.heightRange(item.range?.[0] ?? 0, item.range?.[1] ?? 0, item.step);
	return finding(
		words,
		"H336",
		"worth a look",
		say.height(
			placeWords(curriculum, setting, words),
			station.drill.title,
			itemName(curriculum, item.id),
			[wanted[0] + mats, wanted[1] + mats],
			can,
		),
		{ source: sourceOfWeek(curriculum, work.week), path: block.block.path },
		aboutOf(setting, work.group),
		undefined,
		count,
	);
}

function atTwoHeights(
	curriculum: Curriculum,
	[one, other]: readonly [Setting, Setting],
	words: Words,
): Finding {
	return finding(
		words,
		"H337",
		"worth a look",
		words.findings.hall.twoHeights(
			placeWords(curriculum, other, words),
			itemName(curriculum, one.item.id),
			one.station.drill.title,
			other.station.drill.title,
		),
		{ source: sourceOfWeek(curriculum, other.work.week), path: other.block.block.path },
		aboutOf(other, other.work.group),
	);
}
