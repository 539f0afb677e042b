/** Checks the week plans against the drills, the levels, the term and the floor plans. */

import type { Block, Drill, Id, Records, WeekPlan } from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import { nearestName } from "../read/nearest-name.ts";
import { ID_PATTERN } from "../validate/schemas.ts";

/** @param termIsSound whether _data/term.yaml says how many weeks there are */
export function checkPlans(records: Records, termIsSound: boolean): readonly Problem[] {
	const drills = new Map(records.drills.map((d) => [d.id, d]));
	return [
		...weekNumbers(records, termIsSound),
		...records.weeks.flatMap((week) =>
			week.apparatus.flatMap(({ apparatus, blocks }) =>
				blocks.flatMap((block) => [
					...drillsFit(week, apparatus, block, drills),
					...stationsInside(week, apparatus, block, records),
				]),
			),
		),
	];
}

function weekNumbers({ weeks, term }: Records, termIsSound: boolean): readonly Problem[] {
	const first = new Map<number, WeekPlan>();
	return weeks.flatMap((week) => {
		const place = () => week.source.place(["week"]);
		const other = first.get(week.week);
		if (other !== undefined) {
			return [problem("H207", place(), `Week ${week.week} is planned in \`${other.source.file}\` too.`)];
		}
		first.set(week.week, week);
		return termIsSound && week.week > term.weeks
			? [
					problem(
						"H208",
						place(),
						`Week ${week.week} comes after the end of the term, which has ${term.weeks === 1 ? "1 week" : `${term.weeks} weeks`}.`,
					),
				]
			: [];
	});
}

function drillsFit(
	week: WeekPlan,
	apparatus: Id,
	block: Block,
	drills: ReadonlyMap<Id, Drill>,
): readonly Problem[] {
	// An area that is misspelt is told by itself; its drills are not at fault.
	if (!ID_PATTERN.test(apparatus)) return [];
	return block.stations.flatMap((station, i) => {
		const drill = drills.get(station.drill);
		if (drill === undefined) return [];
		const path = [...block.path, ...(block.kind === "drill" ? ["drill"] : [block.kind, i, "drill"])];
		const problems: Problem[] = [];
		if (!drill.apparatus.includes(apparatus)) {
			problems.push(
				problem(
					"H204",
					week.source.place(path),
					`\`${drill.id}\` is planned on \`${apparatus}\` but names ${drill.apparatus.map((a) => `\`${a}\``).join(", ")}.`,
				),
			);
		}
		const missing = block.levels.filter((level) => !drill.levels.has(level));
		if (missing.length > 0) {
			problems.push(
				problem(
					"H205",
					week.source.place(path),
					`\`${drill.id}\` does not offer ${missing.map((m) => `\`${m}\``).join(", ")}, which this block names.`,
				),
			);
		}
		return problems;
	});
}

function stationsInside(
	week: WeekPlan,
	apparatus: Id,
	block: Block,
	{ apparatus: all }: Records,
): readonly Problem[] {
	const area = all.find((a) => a.id === apparatus);
	const spots = area?.landmarks.map(({ name }) => name) ?? [];
	const nowhere = block.stations.flatMap(({ landmark }, i) => {
		if (area === undefined || landmark === undefined || spots.includes(landmark)) return [];
		const nearest = nearestName(landmark, spots);
		return [
			problem(
				"H213",
				week.source.place([...block.path, "stations", i, "at"]),
				`\`${apparatus}\` has no landmark “${landmark}”.`,
				{ nearest },
			),
		];
	});
	const plan = area?.plan;
	if (plan === undefined) return nowhere;
	const [length, width] = plan;
	return [
		...nowhere,
		...block.stations.flatMap(({ at }, i) =>
			at === undefined || (at[0] <= length && at[1] <= width)
				? []
				: [
						problem(
							"H209",
							week.source.place([...block.path, "stations", i, "at"]),
							`The station stands at ${at[0]} × ${at[1]} m, on a plan of ${length} × ${width} m.`,
						),
					],
		),
	];
}
