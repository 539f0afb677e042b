/**
 * Order: the easier thing before the harder one, for each group in the order it really meets things.
 *
 * The rows are counted in meeting-order.ts; here they become order.csv and findings, one for each cause:
 * the drill, the level and what is asked for, with the groups it is so for.
 */

import type { Curriculum, DataPath, Exposure, Finding, Id, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding } from "./finding.ts";
import { groupsOf } from "./groups.ts";
import type { Measure } from "./measure.ts";
import { type OrderRow, orderRows } from "./meeting-order.ts";
import { groupName } from "./names.ts";
import { tableOf } from "./tables.ts";

/** order.csv, and H301 (needs), H302 (after) and H330 (ready). */
export const orderMeasure: Measure = {
	name: "order",
	tables: ({ curriculum }) => [
		tableOf(
			curriculum,
			"order",
			curriculum.term.classes.length === 0 ? [] : orderRows(curriculum),
			{
				group: (r) => r.group.name,
				drill: (r) => r.drill,
				week: (r) => r.week,
				rule: (r) => r.rule,
				id: (r) => r.id,
				had: (r) => r.had,
				wanted: (r) => r.wanted,
				met: (r) => r.met,
			},
			{ id: "thing" },
		),
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
					rows.map((r) => groupName(words, r.group)),
				);
	const when =
		later === undefined ? say.never : later === week ? say.sameWeek : later < week ? "" : say.later(later);
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

export type Rank = (apparatus: Id) => number;

/** The different orders in which the groups of a level visit the apparatus. */
export function rotationsOf(curriculum: Curriculum, level: Id): readonly Rank[] {
	const standard = [...curriculum.apparatus.keys()];
	const groups = groupsOf(curriculum).filter(
		({ rotation, levels }) => rotation.length > 0 && levels.includes(level),
	);
	if (groups.length === 0) return [rankIn(standard)];
	return [...Map.groupBy(groups, ({ rotation }) => rotation.join(" ")).values()].map(([group]) =>
		rankIn([...(group?.rotation ?? []), ...standard]),
	);
}

function rankIn(order: readonly Id[]): Rank {
	const ranks = new Map<Id, number>();
	for (const id of order) if (!ranks.has(id)) ranks.set(id, ranks.size);
	return (apparatus) => ranks.get(apparatus) ?? ranks.size;
}

/** For each thing that exposures are of, the first of them. */
export function firstTimes(
	exposures: readonly Exposure[],
	thingsOf: (exposure: Exposure) => Iterable<Id>,
	rank: Rank,
): ReadonlyMap<Id, Exposure> {
	const first = new Map<Id, Exposure>();
	for (const exposure of exposures) {
		for (const id of thingsOf(exposure)) {
			const before = first.get(id);
			if (before === undefined || compare(exposure, before, rank) < 0) first.set(id, exposure);
		}
	}
	return first;
}

/** Less than 0 where `a` comes before `b`; stations of one block are at the same time. */
export function compare(a: Exposure, b: Exposure, rank: Rank): number {
	return a.week - b.week || rank(a.apparatus) - rank(b.apparatus) || a.block - b.block;
}

/** The week's file and the place in it where an exposure was planned. */
function blockOf(
	curriculum: Curriculum,
	{ week, apparatus, block }: Pick<Exposure, "week" | "apparatus" | "block">,
): { readonly source: WeekPlan["source"]; readonly path: DataPath } {
	const plan = curriculum.weeks.find((w) => w.week === week);
	const found = plan?.apparatus.find((p) => p.apparatus === apparatus)?.blocks[block - 1];
	if (plan === undefined || found === undefined)
		throw new Error(`no block ${block} on ${apparatus} in week ${week}`);
	return { source: plan.source, path: found.path };
}
