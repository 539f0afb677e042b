/**
 * Space: how many groups are at one apparatus in the same minute, against how many fit.
 *
 * Steps: lay every group of a day along the clock by its class's start; at each beginning of a stay
 * count the groups that are there. Classes without a day or a start are not in the timetable.
 */

import type { Curriculum, Finding, Id, Weekday } from "../model.ts";
import type { Words } from "../words/words.ts";
import { clockOf, minuteOf } from "./clock.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import type { Group } from "./groups.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, apparatusName, groupName } from "./names.ts";
import { groupWorksIn } from "./work.ts";

export interface Crowd {
	readonly week: number;
	readonly day: Weekday;
	readonly apparatus: Id;
	readonly groups: readonly Group[];
	/** How many fit. */
	readonly fits: number;
	/** Minutes since midnight: while all of them are there. */
	readonly from: number;
	readonly to: number;
}

/** Where more groups are at an apparatus than fit: the worst moment for each week, day and apparatus. */
export function crowds(curriculum: Curriculum): readonly Crowd[] {
	return curriculum.weeks.flatMap(({ week }) => {
		const stays = groupWorksIn(curriculum, week).flatMap(({ group, stays }) => {
			const { day, start } = group.class;
			if (day === undefined || start === undefined) return [];
			const begin = minuteOf(start);
			return stays.map(({ apparatus, from, to }) => ({
				group,
				day,
				apparatus,
				from: begin + from,
				to: begin + to,
			}));
		});
		return [...Map.groupBy(stays, ({ day, apparatus }) => `${day} ${apparatus}`).values()].flatMap((same) => {
			let worst: Crowd | undefined;
			for (const { day, apparatus, from } of same) {
				const there = same.filter((other) => other.from <= from && from < other.to);
				const fits = curriculum.apparatus.get(apparatus)?.groups ?? 1;
				if (there.length <= fits || there.length <= (worst?.groups.length ?? 0)) continue;
				worst = {
					week,
					day,
					apparatus,
					groups: there.map(({ group }) => group),
					fits,
					from,
					to: Math.min(...there.map(({ to }) => to)),
				};
			}
			return worst === undefined ? [] : [worst];
		});
	});
}

/** H332. It has no table: floor plans and class sheets show it. */
export const spaceMeasure: Measure = {
	name: "space",
	tables: () => [],
	findings: ({ curriculum }, words) => crowds(curriculum).map((crowd) => crowded(curriculum, crowd, words)),
};

function crowded(curriculum: Curriculum, crowd: Crowd, words: Words): Finding {
	const { week, day, apparatus, groups, fits, from, to } = crowd;
	const last = groups.at(-1);
	return finding(
		words,
		"H332",
		"serious",
		words.findings.hall.crowd(
			week,
			day,
			clockOf(from),
			clockOf(to),
			apparatusName(curriculum, apparatus),
			groups.map((group) => groupName(words, group)),
			fits,
		),
		{ source: sourceOfWeek(curriculum, week), path: ["apparatus", apparatus] },
		{ week, apparatus, ...(last === undefined ? {} : aboutGroup(last)) },
	);
}
