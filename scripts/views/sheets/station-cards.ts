/** Station cards: what hangs or lies at each station of an apparatus in a week. */

import { equipmentForBlock } from "../../compute/equipment.ts";
import { type FloorPlan, floorPlanOf } from "../../compute/placing.ts";
import type { ApparatusPlan, Id, LinkedDrill, WeekPlan } from "../../model.ts";
import { type LevelText, levelsInOrder } from "../drill.ts";
import type { Html } from "../html.ts";
import { linkTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { plannedApparatus, type Station } from "../week.ts";
import { doseWords } from "../words.ts";
import { safetyOfDrill, wordsOfDrill } from "./must-have.ts";
import type { PieceOf } from "./sheet.ts";

export interface StationCardsView {
	/** Cards to a sheet. */
	readonly up: 2 | 4;
	readonly apparatus: string;
	readonly week: number;
	readonly cards: readonly StationCard[];
}

export interface StationCard {
	/** Of its block, from 1. */
	readonly number: number;
	readonly of: number;
	readonly station: Station;
	/** As many cues as are taken in at a glance. */
	readonly cues: readonly Html[];
	readonly props: readonly { readonly name: string; readonly needed: number }[];
	readonly easier: Nearby | undefined;
	readonly harder: Nearby | undefined;
	/** Of its block. */
	readonly plan: FloorPlan;
}

/** What to do instead: a text of the club's, how another level does it, or another drill. */
export interface Nearby extends Pick<LevelText, "levels"> {
	readonly text: Html | string;
	readonly dose: string;
}

/** As many as a gymnast or a coach takes in at a glance. */
const CUES = 3;

/** The cards of an apparatus in a week for each way of cutting them; nothing where it has no stations. */
export function stationCards(
	site: SiteIndex,
	week: WeekPlan,
	plan: ApparatusPlan,
	ups: readonly (2 | 4)[],
): readonly PieceOf<"station-cards">[] {
	const { curriculum, words } = site;
	const blocks = plan.blocks.filter(({ kind }) => kind === "stations");
	if (blocks.length === 0 || ups.length === 0) return [];
	const { blocks: shown } = plannedApparatus(site, week, { ...plan, blocks });
	const cards = blocks.flatMap((block, b) =>
		(shown[b]?.stations ?? []).flatMap((station, i): readonly StationCard[] => {
			const written = block.stations[i];
			const drill = curriculum.drills.get(station.core.id);
			if (written === undefined || drill === undefined) return [];
			const { easier, harder } = station.core.adapt;
			const near = nearby(
				site,
				drill,
				station.core.levels.map(({ id }) => id),
			);
			return [
				{
					number: i + 1,
					of: block.stations.length,
					station,
					cues: station.core.cues.slice(0, CUES),
					props: equipmentForBlock(curriculum, plan, { ...block, stations: [written] }).map(
						({ item, needed }) => ({ name: linkTo(curriculum, "equipment", item).name, needed }),
					),
					// The club's own words for this drill say more than another drill's title.
					easier: easier[0] === undefined ? near.easier : { ...easier[0], dose: "" },
					harder: harder[0] === undefined ? near.harder : { ...harder[0], dose: "" },
					plan: floorPlanOf(curriculum, plan, block),
				},
			];
		}),
	);
	const { name } = linkTo(curriculum, "apparatus", plan.apparatus);
	const stations = blocks.flatMap((block, b) =>
		(shown[b]?.stations ?? []).map(({ core }) => ({ block, core, levels: core.levels.map(({ id }) => id) })),
	);
	const must = {
		words: stations.flatMap(({ block, core, levels }) => wordsOfDrill(site, core.id, levels, block, CUES)),
		safety: stations.flatMap(({ core, levels }) => safetyOfDrill(site, core.id, levels)),
	};
	return ups.map((up) => ({
		kind: "station-cards",
		title: words.stationCards.title(name, week.week),
		label: words.pageLabels.inWeek(name, week.week),
		view: { up, apparatus: name, week: week.week, cards },
		...must,
		place: week.source.place(["apparatus", plan.apparatus]),
	}));
}

/** How the level below and the level above do it; else the nearest drill that comes before or after. */
function nearby(
	site: SiteIndex,
	drill: LinkedDrill,
	here: readonly Id[],
): { readonly easier: Nearby | undefined; readonly harder: Nearby | undefined } {
	const levels = levelsInOrder(site, drill);
	const way = (level: Id | undefined): Nearby | undefined => {
		const dose = level === undefined ? undefined : drill.levels.get(level);
		if (dose?.do === undefined) return undefined;
		return { levels: [], text: site.line("", dose.do), dose: doseWords(site.words, drill, dose) };
	};
	const first = levels.indexOf(here[0] ?? "");
	const last = levels.indexOf(here.at(-1) ?? "");
	const steps = site.progressions(drill);
	const other = (step: { readonly drill: Id } | undefined): Nearby | undefined =>
		step && { levels: [], text: linkTo(site.curriculum, "drill", step.drill).name, dose: "" };
	return {
		easier: way(first > 0 ? levels[first - 1] : undefined) ?? other(steps.easier[0]),
		harder: way(levels[last + 1]) ?? other(steps.harder[0]),
	};
}
