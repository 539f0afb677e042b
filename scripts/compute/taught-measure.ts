/**
 * What was taught as data files, beside what was planned, and H350 to H353. All of it is empty unless the
 * handbook was opened with what coaches reported.
 */

import type { Cell, Curriculum, Finding, Table } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import { groupLoads, groupLoadsIn } from "./load.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, apparatusName, drillName, groupName } from "./names.ts";
import { reach, reachIn } from "./reach.ts";
import { tableOf } from "./tables.ts";
import { type BuiltOnMissed, builtOnMissed, learnedByGroup, minutesLost, taughtOf } from "./taught.ts";
import { keptOverBreaks, spacingFindings } from "./taught-spacing.ts";

/** Every drill of every reported week, as planned and as taught. */
function practiceTable(curriculum: Curriculum): Table {
	const rows = taughtOf(curriculum).weeks.flatMap(({ week, group, blocks }) =>
		blocks.flatMap(({ work, share }) =>
			work.stations.map((station) => ({ week, group, work, share, ...station })),
		),
	);
	return tableOf(curriculum, "taught-practice", rows, {
		week: (r) => r.week,
		group: (r) => r.group.name,
		apparatus: (r) => r.work.apparatus,
		block: (r) => r.work.block.number,
		drill: (r) => r.drill.id,
		station: (r) => r.station,
		minutes: (r) => r.minutes,
		reps: (r) => r.done,
		share: (r) => r.share,
		"taught-minutes": (r) => r.minutes * r.share,
		"taught-reps": (r) => (r.done === undefined ? undefined : r.done * r.share),
	});
}

/** Each row of a plan with the same as it was taught, if anything was. */
function beside<Row>(planned: readonly Row[], taught: readonly Row[], keyOf: (row: Row) => string) {
	const known = new Map(taught.map((row) => [keyOf(row), row]));
	return planned.map((row) => ({ row, own: known.get(keyOf(row)) }));
}

function reachTable(curriculum: Curriculum): Table {
	const taught = reachIn(curriculum, taughtOf(curriculum).works);
	const rows = beside(reach(curriculum), taught, ({ kind, id, group }) => `${kind} ${id} ${group.name}`);
	/** Of a shape neither is known. */
	const asTaught = (planned: Cell, own: Cell): Cell => (planned === undefined ? undefined : (own ?? 0));
	return tableOf(curriculum, "taught-reach", rows, {
		kind: ({ row }) => row.kind,
		id: ({ row }) => row.id,
		group: ({ row }) => row.group.name,
		weeks: ({ row }) => row.weeks.length,
		"taught-weeks": ({ own }) => own?.weeks.length ?? 0,
		minutes: ({ row }) => row.minutes,
		"taught-minutes": ({ own }) => own?.minutes ?? 0,
		performed: ({ row }) => row.performed,
		"taught-performed": ({ row, own }) => asTaught(row.performed, own?.performed),
		prepared: ({ row }) => row.prepared,
		"taught-prepared": ({ row, own }) => asTaught(row.prepared, own?.prepared),
		"longest-gap": ({ row }) => row.longestGap,
		"taught-longest-gap": ({ own }) => own?.longestGap,
	});
}

function loadTable(curriculum: Curriculum): Table {
	const taught = groupLoadsIn(curriculum, taughtOf(curriculum).works);
	const rows = beside(groupLoads(curriculum), taught, ({ week, group }) => `${week} ${group.name}`);
	return tableOf(curriculum, "taught-load", rows, {
		week: ({ row }) => row.week,
		group: ({ row }) => row.group.name,
		landings: ({ row }) => row.landings,
		"taught-landings": ({ own }) => own?.landings ?? 0,
		hands: ({ row }) => row.hands,
		"taught-hands": ({ own }) => own?.hands ?? 0,
		"landings-step": ({ row }) => row.landingsStep,
		"taught-landings-step": ({ own }) => own?.landingsStep,
		"hands-step": ({ row }) => row.handsStep,
		"taught-hands-step": ({ own }) => own?.handsStep,
	});
}

function learnedTable(curriculum: Curriculum): Table {
	return tableOf(curriculum, "learned", learnedByGroup(curriculum), {
		week: (r) => r.week,
		group: (r) => r.group.name,
		skill: (r) => r.skill,
		of: (r) => r.of,
		alone: (r) => r.alone,
		helped: (r) => r.helped,
		share: (r) => r.share?.share,
		low: (r) => r.share?.low,
		high: (r) => r.share?.high,
	});
}

function keptTable(curriculum: Curriculum): Table {
	return tableOf(curriculum, "kept", keptOverBreaks(curriculum), {
		skill: (r) => r.after.skill,
		group: (r) => r.group.name,
		before: (r) => r.before.week,
		"before-of": (r) => r.before.of,
		"before-alone": (r) => r.before.alone,
		after: (r) => r.after.week,
		"after-of": (r) => r.after.of,
		"after-alone": (r) => r.after.alone,
		"weeks-without": (r) => r.weeks,
		kept: (r) => r.kept?.kept,
		share: (r) => r.kept?.share?.share,
		low: (r) => r.kept?.share?.low,
		high: (r) => r.kept?.share?.high,
	});
}

function lostTable(curriculum: Curriculum): Table {
	return {
		name: "minutes-lost",
		columns: [
			{ name: "cause", order: "text" },
			{ name: "minutes", order: "number" },
			{ name: "blocks", order: "number" },
		],
		rows: minutesLost(curriculum).map(({ cause, minutes, blocks }) => [cause, minutes, blocks]),
	};
}

/** taught-practice.csv, taught-reach.csv, taught-load.csv, learned.csv, kept.csv and minutes-lost.csv; H350 to H353. */
export const taughtMeasure: Measure = {
	name: "taught",
	tables: ({ curriculum }) =>
		curriculum.taught.length === 0
			? []
			: [
					practiceTable(curriculum),
					reachTable(curriculum),
					loadTable(curriculum),
					learnedTable(curriculum),
					keptTable(curriculum),
					lostTable(curriculum),
				],
	findings: ({ curriculum }, words) =>
		curriculum.taught.length === 0
			? []
			: [
					...missedFindings(curriculum, words),
					...differing(curriculum, words),
					...unplaced(curriculum, words),
					...spacingFindings(curriculum, words),
				],
};

/** H350 alone, for trials of what would mend it. */
export const missedMeasure: Measure = {
	name: "missed",
	tables: () => [],
	findings: ({ curriculum }, words) => missedFindings(curriculum, words),
};

/** One for each cause and level, with the groups it is so for. */
function missedFindings(curriculum: Curriculum, words: Words): readonly Finding[] {
	const same = Map.groupBy(
		builtOnMissed(curriculum),
		({ row }) => `${row.level} ${row.skill ?? row.drill} ${row.id}`,
	);
	return [...same.values()].flatMap((all) => {
		const first = all.reduce((a, b) => (b.row.week < a.row.week ? b : a));
		return missedFinding(curriculum, words, first, all);
	});
}

function missedFinding(
	curriculum: Curriculum,
	words: Words,
	{ row, missed }: BuiltOnMissed,
	all: readonly BuiltOnMissed[],
): Finding {
	const say = words.findings.taught;
	const { level, drill, week, apparatus, block, skill, kind, id } = row;
	const first = kind === "skill" ? (curriculum.skills.get(id)?.name ?? id) : drillName(curriculum, id);
	const thing =
		skill === undefined ? drillName(curriculum, drill) : (curriculum.skills.get(skill)?.name ?? skill);
	const plan = curriculum.weeks.find((one) => one.week === week);
	const path = plan?.apparatus.find((one) => one.apparatus === apparatus)?.blocks[block - 1]?.path ?? [];
	const groups = [...new Set(all.map((one) => one.row.group))];
	const who = words.and(
		groups.map((group) => groupName(words, group)),
		4,
	);
	return finding(
		words,
		"H350",
		"serious",
		say.missed(who, thing, week, first, missed),
		{ source: sourceOfWeek(curriculum, week), path },
		{
			week,
			level,
			apparatus,
			drill,
			...(skill === undefined ? {} : { skill }),
			...(groups.length === 1 ? aboutGroup(row.group) : {}),
		},
		say.teach(thing, first, week),
		groups.length,
	);
}

/** One for each group and week, with everything that its coaches see differently. */
function differing(curriculum: Curriculum, words: Words): readonly Finding[] {
	const counts = Map.groupBy(
		learnedByGroup(curriculum).filter(({ differ }) => differ),
		({ week, group }) => `${week} ${group.name}`,
	);
	return taughtOf(curriculum).weeks.flatMap(({ week, group, blocks, reports }) => {
		const things = [
			...blocks
				.filter(({ differ }) => differ.length > 0)
				.map(({ work }) => words.blockAt(apparatusName(curriculum, work.apparatus), work.block.number)),
			...(counts.get(`${week} ${group.name}`) ?? []).map(({ skill }) =>
				words.quoted(curriculum.skills.get(skill)?.name ?? skill),
			),
		];
		const [report] = reports;
		if (things.length === 0 || report === undefined) return [];
		const what = words.findings.taught.differ(groupName(words, group), week, things);
		return [finding(words, "H351", "note", what, report, { week, ...aboutGroup(group) })];
	});
}

function unplaced(curriculum: Curriculum, words: Words): readonly Finding[] {
	return taughtOf(curriculum).unplaced.map(({ week, report, said }) => {
		const own = curriculum.term.classes.find(({ id }) => id === report.class)?.name ?? report.class;
		const what = words.findings.taught.unplaced(
			own,
			week,
			apparatusName(curriculum, said.apparatus),
			said.block,
		);
		const about = { week, class: report.class, apparatus: said.apparatus };
		return finding(words, "H352", "note", what, { source: report.source, path: said.path }, about);
	});
}
