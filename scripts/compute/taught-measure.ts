/**
 * What was taught as data files, beside what was planned, and H350 to H353. All of it is empty unless the
 * handbook was opened with what coaches reported.
 */

import type { Column, Curriculum, Finding, Table } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import { groupLoads, groupLoadsIn } from "./load.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, apparatusName, drillName, groupName } from "./names.ts";
import { reach, reachIn } from "./reach.ts";
import { sortedRows } from "./tables.ts";
import { type BuiltOnMissed, builtOnMissed, learnedByGroup, minutesLost, taughtOf } from "./taught.ts";
import { keptOverBreaks, spacingFindings } from "./taught-spacing.ts";

const text = (name: string): Column => ({ name, order: "text" });
const number = (name: string): Column => ({ name, order: "number" });
const WEEK = number("week");
const GROUP: Column = { name: "group", order: "group" };

/** Every drill of every reported week, as planned and as taught. */
function practiceTable(curriculum: Curriculum): Table {
	const columns: readonly Column[] = [
		WEEK,
		GROUP,
		{ name: "apparatus", order: "apparatus" },
		number("block"),
		{ name: "drill", order: "drill" },
		number("station"),
		number("minutes"),
		number("reps"),
		number("share"),
		number("taught-minutes"),
		number("taught-reps"),
	];
	const rows = taughtOf(curriculum).weeks.flatMap(({ week, group, blocks }) =>
		blocks.flatMap(({ work, share }) =>
			work.stations.map(({ drill, station, minutes, done }) => [
				week,
				group.name,
				work.apparatus,
				work.block.number,
				drill.id,
				station,
				minutes,
				done,
				share,
				minutes * share,
				done === undefined ? undefined : done * share,
			]),
		),
	);
	return { name: "taught-practice", columns, rows: sortedRows(curriculum, columns, rows) };
}

function reachTable(curriculum: Curriculum): Table {
	const columns: readonly Column[] = [
		text("kind"),
		{ name: "id", order: "kind" },
		GROUP,
		...["weeks", "minutes", "performed", "prepared", "longest-gap"].flatMap((name) => [
			number(name),
			number(`taught-${name}`),
		]),
	];
	const keyOf = ({ kind, id, group }: ReturnType<typeof reach>[number]) => `${kind} ${id} ${group.name}`;
	const taught = new Map(
		reachIn(curriculum, taughtOf(curriculum).works).map((row) => [keyOf(row), row] as const),
	);
	const rows = reach(curriculum).map((row) => {
		const own = taught.get(keyOf(row));
		return [
			row.kind,
			row.id,
			row.group.name,
			row.weeks.length,
			own?.weeks.length ?? 0,
			row.minutes,
			own?.minutes ?? 0,
			row.performed,
			row.performed === undefined ? undefined : (own?.performed ?? 0),
			row.prepared,
			row.prepared === undefined ? undefined : (own?.prepared ?? 0),
			row.longestGap,
			own?.longestGap,
		];
	});
	return { name: "taught-reach", columns, rows: sortedRows(curriculum, columns, rows) };
}

function loadTable(curriculum: Curriculum): Table {
	const columns: readonly Column[] = [
		WEEK,
		GROUP,
		...["landings", "hands", "landings-step", "hands-step"].flatMap((name) => [
			number(name),
			number(`taught-${name}`),
		]),
	];
	const taught = new Map(
		groupLoadsIn(curriculum, taughtOf(curriculum).works).map((row) => [`${row.week} ${row.group.name}`, row]),
	);
	const rows = groupLoads(curriculum).map((row) => {
		const own = taught.get(`${row.week} ${row.group.name}`);
		return [
			row.week,
			row.group.name,
			row.landings,
			own?.landings ?? 0,
			row.hands,
			own?.hands ?? 0,
			row.landingsStep,
			own?.landingsStep,
			row.handsStep,
			own?.handsStep,
		];
	});
	return { name: "taught-load", columns, rows: sortedRows(curriculum, columns, rows) };
}

function learnedTable(curriculum: Curriculum): Table {
	const columns: readonly Column[] = [
		WEEK,
		GROUP,
		{ name: "skill", order: "skill" },
		...["of", "alone", "helped", "share", "low", "high"].map(number),
	];
	const rows = learnedByGroup(curriculum).map(({ week, group, skill, of, alone, helped, share }) => [
		week,
		group.name,
		skill,
		of,
		alone,
		helped,
		share?.share,
		share?.low,
		share?.high,
	]);
	return { name: "learned", columns, rows: sortedRows(curriculum, columns, rows) };
}

function keptTable(curriculum: Curriculum): Table {
	const columns: readonly Column[] = [
		{ name: "skill", order: "skill" },
		GROUP,
		...["before", "before-of", "before-alone", "after", "after-of", "after-alone", "weeks-without"].map(
			number,
		),
		...["kept", "share", "low", "high"].map(number),
	];
	const rows = keptOverBreaks(curriculum).map(({ group, before, after, weeks, kept }) => [
		after.skill,
		group.name,
		before.week,
		before.of,
		before.alone,
		after.week,
		after.of,
		after.alone,
		weeks,
		kept?.kept,
		kept?.share?.share,
		kept?.share?.low,
		kept?.share?.high,
	]);
	return { name: "kept", columns, rows: sortedRows(curriculum, columns, rows) };
}

function lostTable(curriculum: Curriculum): Table {
	const columns: readonly Column[] = [text("cause"), number("minutes"), number("blocks")];
	return {
		name: "minutes-lost",
		columns,
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
