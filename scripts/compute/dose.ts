/**
 * Dose: whether what the sheet asks for can be done in the turns beside it.
 *
 * Steps: hold each station's planned repetitions against those that fit; hold what is held against the
 * seconds of a turn. One drill at one level is one cause, however often the term plans it.
 */

import type { Curriculum, Finding } from "../model.ts";
import type { Words } from "../words/words.ts";
import { doseOf } from "./dose-of.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, apparatusName, groupName, levelName } from "./names.ts";
import { type BlockWork, eatenUp, type GroupWork, groupWorks, type StationWork } from "./work.ts";

export interface DosePlace {
	readonly work: GroupWork;
	readonly block: BlockWork;
	readonly station: StationWork;
}

/** Whether a station's planned repetitions are more than fit into its turns. */
export function isDoseTooLong({
	block,
	station: { planned, fits },
}: Pick<DosePlace, "block" | "station">): boolean {
	return (
		planned !== undefined &&
		fits !== undefined &&
		fits < planned - 1e-9 &&
		// Where nothing is left of the block, that is the one cause.
		eatenUp(block) === undefined
	);
}

/** What is held in one turn, in seconds, and how often; undefined where nothing is held or no turn is said. */
export function heldInTurn({
	block: { block },
	station: { drill, level },
}: Pick<DosePlace, "block" | "station">):
	| { readonly hold: number; readonly reps: number; readonly seconds: number }
	| undefined {
	const { hold, reps } = doseOf(drill, level, block);
	if (hold === undefined || drill.turn === undefined) return undefined;
	const ofEach = (drill.holdOf ?? "rep") === "rep";
	return { hold, reps: ofEach ? (drill.turn.reps ?? reps ?? 1) : 1, seconds: drill.turn.seconds };
}

/** Whether a station's holds are longer than the turn they are done in. */
export function isHoldTooLong(place: Pick<DosePlace, "block" | "station">): boolean {
	const held = heldInTurn(place);
	return held !== undefined && held.hold * held.reps > held.seconds + 1e-9;
}

/** Stations whose planned repetitions do not fit into their turns. */
export function dosesThatDoNotFit(curriculum: Curriculum): readonly DosePlace[] {
	return dosePlaces(curriculum).filter(isDoseTooLong);
}

/** Stations whose holds are longer than the turn they are done in. */
export function holdsThatDoNotFit(curriculum: Curriculum): readonly DosePlace[] {
	return dosePlaces(curriculum).filter(isHoldTooLong);
}

/** Every station of every group. */
export function dosePlaces(curriculum: Curriculum): readonly DosePlace[] {
	return groupWorks(curriculum).flatMap((work) =>
		work.blocks.flatMap((block) => block.stations.map((station) => ({ work, block, station }))),
	);
}

/** H334 and H335. Its table is `practice`. */
export const doseMeasure: Measure = {
	name: "dose",
	tables: () => [],
	findings: ({ curriculum }, words) => [
		...byCause(dosesThatDoNotFit(curriculum)).map((same) => notFitting(curriculum, same, words)),
		...byCause(holdsThatDoNotFit(curriculum)).map((same) => heldTooLong(curriculum, same, words)),
	],
};

type Cause = readonly [DosePlace, ...DosePlace[]];

function byCause(all: readonly DosePlace[]): readonly Cause[] {
	const causes = Map.groupBy(all, ({ station }) => `${station.drill.id} ${station.level}`);
	return [...causes.values()] as unknown as readonly Cause[];
}

function notFitting(curriculum: Curriculum, same: Cause, words: Words): Finding {
	const say = words.findings.hall;
	const missing = ({ station }: DosePlace): number => (station.planned ?? 0) - (station.fits ?? 0);
	const { work, block, station } = same.reduce((a, b) => (missing(b) > missing(a) ? b : a));
	const { drill, level, planned = 0, fits = 0, turns = 0 } = station;
	return finding(
		words,
		"H334",
		"worth a look",
		say.fits(
			drill.title,
			levelName(curriculum, level),
			planned,
			fits,
			turns,
			same.length,
			say.where(groupName(words, work.group), work.week, apparatusName(curriculum, block.apparatus)),
		),
		{ source: sourceOfWeek(curriculum, work.week), path: block.block.path },
		{
			week: work.week,
			level,
			apparatus: block.apparatus,
			drill: drill.id,
			...(same.length === 1 ? aboutGroup(work.group) : {}),
		},
		say.fitsFix(minutesWanting(block, station), drill.title),
		same.length,
	);
}

/** Minutes that the block lacks for the whole dose of one station; undefined where the drill has no turn. */
export function minutesWanting({ block, stations }: BlockWork, station: StationWork): number | undefined {
	const { drill, level, planned, gymnasts, minutes } = station;
	if (drill.turn === undefined || planned === undefined) return undefined;
	const perTurn = drill.turn.reps ?? doseOf(drill, level, block).reps ?? 1;
	const turns = Math.ceil(planned / perTurn);
	const wanted = (turns * gymnasts * drill.turn.seconds) / (60 * Math.min(drill.turn.atOnce, gymnasts));
	return Math.ceil((wanted - minutes) * (block.kind === "stations" ? stations.length : 1));
}

function heldTooLong(curriculum: Curriculum, same: Cause, words: Words): Finding {
	const say = words.findings.hall;
	const [place] = same;
	const { drill, level } = place.station;
	const held = heldInTurn(place) ?? { hold: 0, reps: 1, seconds: 0 };
	const name = levelName(curriculum, level);
	return finding(
		words,
		"H335",
		"worth a look",
		held.reps === 1
			? say.holdOnce(drill.title, name, held.hold, held.seconds)
			: say.hold(drill.title, name, held.hold, held.reps, held.seconds),
		{
			source: drill.source,
			path: drill.levels.get(level)?.hold === undefined ? ["hold"] : ["levels", level, "hold"],
		},
		{ level, drill: drill.id },
		undefined,
		same.length,
	);
}
