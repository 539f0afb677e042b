/**
 * Load as a page: landings and hand contacts of each group, week by week, done and planned.
 */

import { groupsOf } from "../../compute/groups.ts";
import type { GroupLoad } from "../../compute/load.ts";
import { groupName } from "../../compute/names.ts";
import type { Bar } from "../../figures/bar-chart.ts";
import { addressOf } from "../addresses.ts";
import { type Link, linkTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { measureHead } from "./measure-head.ts";

export type LoadView = ReturnType<typeof loadView>;

export type LoadRow = ReturnType<typeof loadRow>;

/** Steps such as 1.5 exactly must not pass for more. */
const ROUNDING = 1e-9;

export function loadView(site: SiteIndex) {
	const { curriculum } = site;
	const byGroup = Map.groupBy(site.measures.loads(), (load) => load.group);
	return {
		head: measureHead(site, "load"),
		groups: groupsOf(curriculum).flatMap((group) => {
			const rows = (byGroup.get(group) ?? []).map((load) => loadRow(site, load));
			if (rows.length === 0) return [];
			return [
				{
					/** For addresses inside the page. */
					id: group.name.replace("/", "--"),
					group: groupLink(site, group),
					rows,
					charts: [
						{
							what: "landings" as const,
							bars: rows.map((row) => barOf(site, row, row.landings, row.landingsStep, row.landingsOver)),
						},
						{
							what: "hands" as const,
							bars: rows.map((row) => barOf(site, row, row.hands, row.handsStep, row.handsOver)),
						},
					],
				},
			];
		}),
	};
}

/** A group by its class's page. */
function groupLink({ words }: SiteIndex, group: GroupLoad["group"]): Link {
	return { to: `classes/${group.class.id}/`, name: groupName(words, group) };
}

export function loadRow(site: SiteIndex, load: GroupLoad) {
	const { curriculum } = site;
	const { loadStep } = curriculum.targets;
	const plan = site.weekByNumber.get(load.week);
	const over = (step: number | undefined) =>
		loadStep !== undefined && step !== undefined && step > loadStep + ROUNDING;
	return {
		week: {
			to: plan === undefined ? "weeks/" : addressOf({ kind: "week", id: plan.id }),
			name: site.words.week(load.week),
		},
		number: load.week,
		group: groupLink(site, load.group),
		/** What the whole dose would be. */
		plannedLandings: load.plannedLandings,
		plannedHands: load.plannedHands,
		/** Of the minutes of its drills, the share that says nothing of contacts. */
		unknownShare: load.minutes === 0 ? 0 : load.unknownMinutes / load.minutes,
		landings: load.landings,
		hands: load.hands,
		landingsStep: load.landingsStep,
		handsStep: load.handsStep,
		/** Over the club's target. */
		landingsOver: over(load.landingsStep),
		handsOver: over(load.handsStep),
		/** What each drill adds, most first. */
		drills: load.drills
			.filter(({ landings, hands }) => landings + hands > 0)
			.map(({ drill, landings, hands }) => ({ drill: linkTo(curriculum, "drill", drill), landings, hands })),
	};
}

function barOf(
	{ words }: SiteIndex,
	{ week, number }: LoadRow,
	value: number,
	step: number | undefined,
	over: boolean,
): Bar {
	return {
		name: words.week(number),
		values: [value],
		href: week.to,
		...(step === undefined ? {} : { note: { words: words.load.timesBefore(step), warns: over } }),
	};
}
