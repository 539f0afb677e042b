/** The class sheet on paper: it shows what the page of the class in the week shows. */

import type { ClubClass, WeekPlan } from "../../model.ts";
import type { SiteIndex } from "../site-index.ts";
import { type ClassSheetView, classSheetView } from "../week.ts";
import { safetyOfDrill, wordsOfDrill } from "./must-have.ts";
import type { PieceOf } from "./sheet.ts";

export function classLeaf(site: SiteIndex, week: WeekPlan, group: ClubClass): PieceOf<"class-leaf"> {
	const { curriculum, words } = site;
	const view = classSheetView(site, week, group);
	const { emergency } = curriculum.club;
	return {
		kind: "class-leaf",
		title: `${view.name}, ${words.ofWeek(week.week)}`,
		label: words.pageLabels.inWeek(view.name, week.week),
		view,
		words: [`${view.name} ${words.ofWeek(week.week)}`, ...mustHave(site, week, view)],
		safety: [
			...(emergency === undefined ? [] : [emergency]),
			...view.stops.flatMap(({ blocks }) =>
				blocks.flatMap(({ stations }) =>
					stations.flatMap(({ core }) =>
						safetyOfDrill(
							site,
							core.id,
							core.levels.map(({ id }) => id),
						),
					),
				),
			),
		],
		place: week.source.place(["apparatus"]),
	};
}

function mustHave(site: SiteIndex, week: WeekPlan, { stops }: ClassSheetView): readonly string[] {
	return stops.flatMap((stop) => {
		const plan = week.apparatus.find(({ apparatus }) => apparatus === stop.id);
		return [
			`${stop.clock} ${stop.name}`,
			...stop.blocks.flatMap(({ number, stations }) => {
				const block = plan?.blocks.find((one) => one.number === number);
				return stations.flatMap(({ core }) =>
					wordsOfDrill(
						site,
						core.id,
						core.levels.map(({ id }) => id),
						block,
					),
				);
			}),
		];
	});
}
