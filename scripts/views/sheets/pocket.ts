/**
 * The pocket edition: a class in a week, one leaf for each area, for the coach who carries it. It shows what
 * the class sheet shows, with the floor plan of each block.
 */

import type { ClubClass, Id, WeekPlan } from "../../model.ts";
import { type Address, classSheetAddress } from "../addresses.ts";
import { type FloorPlanView, floorPlanView } from "../floor-plan.ts";
import type { SiteIndex } from "../site-index.ts";
import type { ClassSheetView } from "../week.ts";
import { classLeaf } from "./class-leaf.ts";
import type { PieceOf } from "./sheet.ts";

export interface PocketView {
	readonly sheet: ClassSheetView;
	/** The page of the class in the week. */
	readonly page: Address;
	/** By apparatus, then by the number of the block. Who coaches where is said of this class, in words. */
	readonly plans: ReadonlyMap<Id, ReadonlyMap<number, FloorPlanView>>;
}

export function pocketWeek(site: SiteIndex, week: WeekPlan, group: ClubClass): PieceOf<"pocket-week"> {
	const { curriculum, words } = site;
	const { view, ...leaf } = classLeaf(site, week, group);
	const plans = week.apparatus.map((plan): readonly [Id, ReadonlyMap<number, FloorPlanView>] => [
		plan.apparatus,
		new Map(
			plan.blocks.flatMap((block) => {
				const drawn = floorPlanView(curriculum, week, plan, block, words);
				return drawn === undefined ? [] : [[block.number, { ...drawn, coaches: undefined }]];
			}),
		),
	]);
	return {
		...leaf,
		kind: "pocket-week",
		view: { sheet: view, page: classSheetAddress(group.id, week.id), plans: new Map(plans) },
	};
}
