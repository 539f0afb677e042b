/**
 * Order: the easier thing before the harder one, for each group in the order it really meets things.
 *
 * The rows are counted in meeting-order.ts; here they become order.csv and findings, one for each cause:
 * the drill, the level and what is asked for, with the groups it is so for.
 */

import type { Column, Curriculum, DataPath, Exposure, Finding, Id, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding } from "./finding.ts";
import type { Measure } from "./measure.ts";
import { type OrderRow, orderRows } from "./meeting-order.ts";
import { sortedRows } from "./tables.ts";

const COLUMNS: readonly Column[] = [
	{ name: "group", order: "group" },
	{ name: "drill", order: "drill" },
	{ name: "week", order: "number" },
	{ name: "rule", order: "text" },
	{ name: "id", order: "text" },
	{ name: "had", order: "number" },
	{ name: "wanted", order: "number" },
	{ name: "met", order: "text" },
];

/** order.csv, and H301 (needs), H302 (after) and H330 (ready). */
export const orderMeasure: Measure = {
	name: "order",
	tables: ({ curriculum }) => [
		{
			name: "order",
			columns: COLUMNS,
			rows:
				curriculum.term.classes.length === 0
					? []
					: sortedRows(
							curriculum,
							COLUMNS,
							orderRows(curriculum).map((r) => [
								r.group.name,
								r.drill,
								r.week,
								r.rule,
								r.id,
								r.had,
								r.wanted,
								r.met,
							]),
						),
		},
	],
	findings: ({ curriculum }, words) =>
		[
			...Map.groupBy(
				orderRows(curriculum).filter((row) => row.met === "no"),
				(row) => `${row.rule} ${row.level} ${row.skill ?? row.drill} ${row.id}`,
			).values(),
		]
			.map((rows) => findingOf(curriculum, rows, words))
			.sort((a, b) => (a.about.week ?? 0) - (b.about.week ?? 0)),
};

const CODES = { after: "H302", needs: "H301", ready: "H330" } as const;

function findingOf(curriculum: Curriculum, rows: readonly OrderRow[], words: Words): Finding {
	const say = words.findings.outOfOrder;
	const row = rows.reduce((a, b) => (b.week < a.week ? b : a));
	const { rule, level, drill, skill, kind, id, week, later, had, wanted } = row;
	const drillName = curriculum.drills.get(drill)?.title ?? drill;
	const first =
		kind === "skill" ? (curriculum.skills.get(id)?.name ?? id) : (curriculum.drills.get(id)?.title ?? id);
	const thing = skill === undefined ? drillName : (curriculum.skills.get(skill)?.name ?? skill);
	const who =
		curriculum.term.classes.length === 0
			? (curriculum.levels.get(level)?.name ?? level)
			: say.groups(
					curriculum.levels.get(level)?.name ?? level,
					rows.map((r) => groupName(curriculum, r)),
				);
	const when =
		later === undefined
			? say.never
			: later === week
				? say.laterSameWeek([])
				: later < week
					? ""
					: say.later(later);
	const { source, path } = blockOf(curriculum, row);
	return finding(
		words,
		CODES[rule],
		"serious",
		rule === "ready"
			? say.notReady(who, thing, week, first, had, wanted)
			: say.what(who, thing, week, first, when),
		{ source, path },
		{
			week,
			level,
			apparatus: row.apparatus,
			drill,
			...(skill === undefined ? {} : { skill }),
			...(rows.length === 1 && curriculum.term.classes.length > 0
				? { class: row.group.class.id, group: row.group.name }
				: {}),
		},
		rule === "ready"
			? say.fixReady(thing, first)
			: rule === "needs"
				? say.fixSkill(first)
				: say.fixDrill(thing, first),
		rows.length,
	);
}

function groupName(curriculum: Curriculum, { group }: OrderRow): string {
	const name = curriculum.term.classes.find((one) => one === group.class)?.name ?? group.class.id;
	return group.name === group.class.id ? name : `${name} (${group.name.slice(group.class.id.length + 1)})`;
}

export type Rank = (apparatus: Id) => number;

/** The different orders in which the classes of a level visit the apparatus. */
export function rotationsOf(
	curriculum: Curriculum,
	level: Id,
): readonly { readonly classes: readonly Id[]; readonly rank: Rank }[] {
	const standard = [...curriculum.apparatus.keys()];
	const classes = curriculum.term.classes.filter(
		(group) => group.rotation.length > 0 && (group.levels.length === 0 || group.levels.includes(level)),
	);
	if (classes.length === 0) return [{ classes: [], rank: rankIn(standard) }];
	return [...Map.groupBy(classes, (group) => group.rotation.join(" "))].map(([, groups]) => ({
		classes: groups.map((group) => group.id),
		rank: rankIn([...(groups[0]?.rotation ?? []), ...standard]),
	}));
}

function rankIn(order: readonly Id[]): Rank {
	const ranks = new Map<Id, number>();
	for (const id of order) if (!ranks.has(id)) ranks.set(id, ranks.size);
	return (apparatus) => ranks.get(apparatus) ?? ranks.size;
}

/** For each skill and drill, the exposures at the moment it is first done. */
export function firstTimes(curriculum: Curriculum, exposures: readonly Exposure[], rank: Rank) {
	const skills = new Map<Id, Exposure[]>();
	const drills = new Map<Id, Exposure[]>();
	const note = (map: Map<Id, Exposure[]>, id: Id, exposure: Exposure): void => {
		const first = map.get(id);
		const order = first?.[0] === undefined ? -1 : compare(exposure, first[0], rank);
		if (order < 0) map.set(id, [exposure]);
		else if (order === 0) first?.push(exposure);
	};
	for (const exposure of exposures) {
		note(drills, exposure.drill, exposure);
		for (const skill of curriculum.drills.get(exposure.drill)?.skills ?? []) note(skills, skill, exposure);
	}
	return { skills, drills };
}

/** Less than 0 where `a` comes before `b`; stations of one block are at the same time. */
export function compare(a: Exposure, b: Exposure, rank: Rank): number {
	return a.week - b.week || rank(a.apparatus) - rank(b.apparatus) || a.block - b.block;
}

/** The week's file and the place in it where an exposure was planned. */
export function blockOf(
	curriculum: Curriculum,
	{ week, apparatus, block }: Pick<Exposure, "week" | "apparatus" | "block">,
): { readonly source: WeekPlan["source"]; readonly path: DataPath } {
	const plan = curriculum.weeks.find((w) => w.week === week);
	const found = plan?.apparatus.find((p) => p.apparatus === apparatus)?.blocks[block - 1];
	if (plan === undefined || found === undefined)
		throw new Error(`no block ${block} on ${apparatus} in week ${week}`);
	return { source: plan.source, path: found.path };
}
