/**
 * The rules of a plan as rows of a program: what each measure asks, in the measure's own numbers.
 *
 * A rule has three sides. `judge` asks the measure what a plan breaks. `wants` names the changes that
 * could help where it is broken. `rows` writes the rule for that one case: true of every plan that keeps
 * it, so a row that is not written yet only makes the program easier, and what it proves stays proved.
 * No rule is counted here a second time: minutes, turns, repetitions, hands and needs come from compute.
 *
 *   rule       broken where                                       row
 *   order      a drill comes before what it asks for, as it is    drill now ≤ what it asks for, before
 *              planned or as far as it was taught
 *   minutes    a class has more planned than its minutes          Σ blocks + ways ≤ minutes
 *   coaches    a block asks for more coaches than there are       Σ hands + one who watches ≤ coaches
 *   equipment  an apparatus, or a moment, needs more than owned   Σ needs ≤ owned
 *   heights    an item cannot stand as a drill asks               that drill ≤ 0; those two ≤ 1
 *   space      more groups at an apparatus than fit; stations     not all of these again
 *              over each other
 *   set-out    something is carried, or missing                   not all of these uses again
 *   something  a class has nothing to do                          Σ its blocks ≥ 1
 *   turns      nobody gets a turn, or showing eats the block      that drill, that block ≤ 0
 *   dose       a dose or a hold does not fit its turns            that drill in such minutes ≤ 0
 *   weeks      a shape or skill is taught in too few weeks        Σ weeks with it ≥ wanted
 *   gap        … or too far apart                                 taught here and past the gap ≤ taught between
 *   direction  forward without backward                           forward = backward
 *   reach      a group does a skill too seldom                    Σ repetitions ≥ wanted
 *   load       landings or hands step up; too many landings       week ≤ step × mean before; Σ ≤ most
 *   novelty    too much that is new to a class                    Σ (now and not before) ≤ most
 *   activity   a class moves too little                           Σ active ≥ share × known minutes
 *
 * Kept above all, and never newly broken: the first seven, but for what is carried or stands close.
 */

import { bodyDirection, directionBalances, drillsOfDirection, type Lacking } from "../compute/balance.ts";
import { meets } from "../compute/calendar.ts";
import { coachesFor, coachesRows } from "../compute/coaches.ts";
import { coveredBy } from "../compute/coverage.ts";
import { dosePlaces, isDoseTooLong, isHoldTooLong } from "../compute/dose.ts";
import { clashes, equipmentFor, stationUses } from "../compute/equipment.ts";
import { stationMinutes } from "../compute/exposures.ts";
import { getOrMake, onceEach } from "../compute/get-or-make.ts";
import { type Group, groupsOfClass } from "../compute/groups.ts";
import { groupLoads, stepsOver, weeksBefore } from "../compute/load.ts";
import type { Counted } from "../compute/measure.ts";
import { type OrderRow, orderRows } from "../compute/meeting-order.ts";
import { spareMinutes } from "../compute/mend-moves.ts";
import { aboutGroup } from "../compute/names.ts";
import { needsOf } from "../compute/needs.ts";
import { floorPlanOf } from "../compute/placing.ts";
import { performedBy, seldomReached } from "../compute/reach.ts";
import { setOutRows } from "../compute/set-out.ts";
import { canStand, countOf, settings, twoHeights } from "../compute/settings.ts";
import { crowds } from "../compute/space.ts";
import { gapWanted, type Spacing, spacings, weeksWanted } from "../compute/spacing.ts";
import { builtOnMissed, shareTaught, taughtOf } from "../compute/taught.ts";
import { classTime, drillTime } from "../compute/time.ts";
import { eatenUp } from "../compute/work.ts";
import { originalOf } from "../link/join-records.ts";
import type { Block, ClubClass, Curriculum, Finding, Id, LinkedDrill } from "../model.ts";
import {
	blockWith,
	type Choices,
	type Column,
	type Form,
	isForLevel,
	nameOfColumn,
	type Part,
	type Piece,
	type Seat,
	type SeatWork,
} from "./choices.ts";
import type { Program, Term, Variable } from "./program.ts";

/** A plan that is to be judged, and what was chosen for it. */
export interface Judged {
	readonly counted: Counted;
	/** The part of the choices that each block is. */
	readonly partOf: ReadonlyMap<Block, Part>;
	readonly chosen: ReadonlySet<Column>;
	readonly forms: ReadonlySet<Form>;
}

export interface Case {
	/** The same for the same case of any plan. */
	readonly key: string;
	readonly code: Finding["code"];
	readonly about: Finding["about"];
	/** What it is worth not to have it; of several findings for one cause, their sum. */
	readonly weight: number;
	/** Whether no change may bring it about. */
	readonly isHard?: boolean;
	/** Of a case that one row cannot say: what is not to be chosen again, as a key. */
	readonly again?: string;
	/** Where only what stands in some weeks, or only some drills, can bring it about or mend it. */
	readonly weeks?: readonly number[];
	drills?(choices: Choices): ReadonlySet<Id>;
	wants(choices: Choices): void;
	/** Whether a drill on a seat could do harm here; none can where it is not said. */
	mentions?(choices: Choices, seat: Seat, drill: LinkedDrill): boolean;
	/** @param broken the variable that gives the case up; undefined where it has to hold */
	rows(model: Model, broken: Variable | undefined): void;
}

/** The program with the variables of what can be chosen. */
export interface Model {
	readonly program: Program;
	readonly choices: Choices;
	at(column: Column): Variable;
	stands(form: Form): Variable;
}

/** What a finding is worth: the weights are so far apart that changes are counted only between equals. */
const WORTH = { serious: 1000, "worth a look": 300, note: 100 } as const;

/** Rules these drills out. */
function ruledOut({ program, at }: Model, broken: Variable | undefined, columns: readonly Column[]): void {
	for (const column of columns) program.unless(broken, [[at(column), 1]], 0);
}

/** Not all of these again: what one row cannot say is ruled out as it was found. */
function notAgain(program: Program, broken: Variable | undefined, all: readonly Variable[]): void {
	program.unless(
		broken,
		all.map((one): Term => [one, 1]),
		all.length - 1,
	);
}

/** Every case that a plan breaks. */
export function brokenCases(judged: Judged): readonly Case[] {
	return RULES.flatMap((rule) => rule(judged));
}

/** The rules, those first that nobody may break. */
const RULES: readonly ((judged: Judged) => readonly Case[])[] = [
	order,
	minutes,
	coaches,
	equipment,
	clashing,
	heights,
	space,
	placing,
	something,
	turns,
	carried,
	dose,
	weeks,
	gap,
	direction,
	reach,
	load,
	novelty,
	activity,
];

function worksFor(column: Column, gymnasts: string): readonly SeatWork[] {
	return column.works.filter(({ group }) => group.gymnastsId === gymnasts);
}

function isFor(seat: Seat, gymnasts: string): boolean {
	return seat.part.groups.some(({ group }) => group.gymnastsId === gymnasts);
}

function isForClass({ part }: Seat, one: Id): boolean {
	return part.groups.some(({ group }) => group.class.id === one);
}

/** Least minutes of a block that is added, and others that it may have. */
const ADDED = [3, 4, 5] as const;

/** Drills in blocks that are added, wherever the classes of a level have the time. */
function wantAdded(
	choices: Choices,
	level: Id,
	drills: readonly LinkedDrill[],
	isMeant: (week: number) => boolean,
): void {
	const { curriculum } = choices;
	for (const plan of curriculum.weeks) {
		if (!isMeant(plan.week)) continue;
		for (const { apparatus } of plan.apparatus) {
			const fit = drills.filter((drill) => drill.apparatus.includes(apparatus) && drill.levels.has(level));
			if (fit.length === 0) continue;
			const spare = spareMinutes(curriculum, plan, { apparatus, levels: [level] });
			const able = ADDED.filter((one) => one <= spare);
			if (able.length === 0) continue;
			for (const seat of choices.wantAdded(plan, apparatus, level, able)) {
				for (const drill of fit) choices.want(seat, drill);
			}
		}
	}
}

// Order: nothing before what it asks for.

function order({ counted: { curriculum } }: Judged): readonly Case[] {
	return [
		...orderRows(curriculum).flatMap((row) =>
			row.met === "no" ? [outOfOrder(row, ORDER_CODES[row.rule])] : [],
		),
		...builtOnMissed(curriculum).map(({ row }) => outOfOrder(row, "H350")),
	];
}

const ORDER_CODES = { after: "H302", needs: "H301", ready: "H330" } as const;

/**
 * The case of gymnasts, a drill and one thing that it asks for: as it is planned, or (H350) as far as it was
 * taught. The measures find one of the two, so both have one key and are given up together. Long, since what
 * it wants and its rows ask the same of a drill: whether it asks, and what it gives.
 */
function outOfOrder(row: OrderRow, code: (typeof ORDER_CODES)[OrderRow["rule"]] | "H350"): Case {
	const { group, drill, level, rule, id, kind, skill, wanted, week, apparatus } = row;
	const gymnasts = group.gymnastsId;
	const isTaught = code === "H350";
	/** The last week of which coaches reported. */
	const past = ({ curriculum }: Choices): number =>
		(isTaught && taughtOf(curriculum).until.get(gymnasts)) || Number.NEGATIVE_INFINITY;
	/** How much of what is asked for one time on a seat gives. */
	const given = (choices: Choices, column: Column, work: SeatWork): number => {
		const { plan, block } = column.seat.part;
		const share = isTaught ? shareTaught(choices.curriculum, plan.week, work.group, block) : 1;
		// What was done in the past is not asked for again.
		if (column.drill.id === drill && plan.week <= past(choices)) return share > 0 ? wanted : 0;
		const skills = choices.library.skillsDoneIn(column.drill);
		const times = kind === "drill" ? Number(column.drill.id === id) : (skills.get(id) ?? 0);
		return rule === "ready" ? times * share * (work.station.done ?? 0) : share > 0 ? Math.min(1, times) : 0;
	};
	const giving = (choices: Choices): readonly LinkedDrill[] =>
		[...choices.curriculum.drills.values()].filter((one) =>
			kind === "drill" ? one.id === id : choices.library.skillsDoneIn(one).has(id),
		);
	const isAsked = (choices: Choices, column: Column, work: SeatWork): boolean =>
		choices.library
			.asksOf(column.drill, work.station.level)
			.some((one) => !one.isEntry && one.rule === rule && one.id === id);
	return {
		key: `order ${gymnasts} ${drill} ${rule} ${id}`,
		...(isTaught ? { again: "as taught" } : {}),
		drills: (choices) => new Set([drill, ...giving(choices).map((one) => one.id)]),
		code,
		about: {
			week,
			level,
			apparatus,
			drill,
			...(skill === undefined ? {} : { skill }),
			...aboutGroup(group),
		},
		weight: WORTH.serious,
		isHard: true,
		wants(choices) {
			const harder = choices.columnsOf(drill).filter((column) => worksFor(column, gymnasts).length > 0);
			for (const { seat } of harder) {
				choices.loosen(seat);
				choices.wantMoves(seat.part.form.piece);
				choices.wantExchanges(seat.part.form.piece);
			}
			const last = Math.max(...harder.map(({ seat }) => seat.part.plan.week));
			const easier = giving(choices);
			for (const one of easier) {
				for (const seat of choices.seatsFor(one)) {
					if (seat.part.plan.week <= last && isFor(seat, gymnasts)) choices.want(seat, one);
				}
				for (const column of choices.columnsOf(one.id)) {
					if (column.seat.drill !== column.drill || worksFor(column, gymnasts).length === 0) continue;
					choices.wantMoves(column.seat.part.form.piece);
					choices.wantExchanges(column.seat.part.form.piece);
				}
				for (const later of weeksWritten(choices, one.id, gymnasts))
					for (const week of weeksWritten(choices, drill, gymnasts))
						if (week < later) choices.wantWeeks(week, later);
			}
			wantAdded(choices, level, easier, (week) => week <= last);
		},
		mentions: (_choices, seat, one) => one.id === drill && isFor(seat, gymnasts),
		rows({ program, choices, at }, broken) {
			const gifts = [...new Set([...giving(choices).map((one) => one.id), ...(isTaught ? [drill] : [])])]
				.flatMap((one) => choices.columnsOf(one))
				.flatMap((column) =>
					worksFor(column, gymnasts).map((work) => ({
						moment: work.moment,
						term: [at(column), given(choices, column, work)] as Term,
					})),
				);
			const chain = doneUpTo(program, gifts, wanted);
			for (const column of choices.columnsOf(drill)) {
				for (const work of worksFor(column, gymnasts)) {
					if (!isAsked(choices, column, work) || column.seat.part.plan.week <= past(choices)) continue;
					const before = chain.findLast(({ moment }) => moment < work.moment);
					program.unless(
						broken,
						[[at(column), wanted], ...(before === undefined ? [] : [[before.sum, -1] as Term])],
						0,
					);
				}
			}
		},
	};
}

/** What was done up to each moment at which something is done, as far as it is asked for. */
function doneUpTo(
	program: Program,
	gifts: readonly { readonly moment: number; readonly term: Term }[],
	wanted: number,
): readonly { readonly moment: number; readonly sum: Variable }[] {
	const given = gifts.filter(({ term }) => term[1] > 0);
	const moments = [...Map.groupBy(given, ({ moment }) => moment)].sort(([a], [b]) => a - b);
	const chain: { readonly moment: number; readonly sum: Variable }[] = [];
	for (const [moment, here] of moments) {
		const before = chain.at(-1);
		const sum = program.upTo(wanted, [
			...(before === undefined ? [] : [[before.sum, 1] as Term]),
			...here.map(({ term }) => term),
		]);
		chain.push({ moment, sum });
	}
	return chain;
}

/** Weeks in which gymnasts do a drill, as it is written. */
function weeksWritten(choices: Choices, drill: Id, gymnasts: string): ReadonlySet<number> {
	const written = choices
		.columnsOf(drill)
		.filter(({ seat }) => seat.drill?.id === drill && seat.part.form.move.kind === "keep");
	return new Set(
		written.filter((column) => worksFor(column, gymnasts).length > 0).map(({ seat }) => seat.part.plan.week),
	);
}

// Minutes: what a class has planned fits.

function minutes({ counted: { curriculum } }: Judged): readonly Case[] {
	return classWeeks(curriculum).flatMap(({ week, one, time }) =>
		time.available !== undefined && time.planned > time.available + 1e-9 && time.blocks.length > 0
			? [tooLong(curriculum, week, one, time.planned - time.available)]
			: [],
	);
}

function classWeeks(curriculum: Curriculum) {
	return curriculum.weeks.flatMap((plan) =>
		curriculum.term.classes
			.filter((one) => one.rotation.length > 0 && meets(curriculum.term, plan.week, one))
			.map((one) => ({ week: plan.week, one, time: classTime(curriculum, plan, one) })),
	);
}

function tooLong(curriculum: Curriculum, week: number, one: ClubClass, over: number): Case {
	return {
		key: `minutes ${week} ${one.id}`,
		weeks: [week],
		code: "H308",
		about: { week, class: one.id },
		weight: WORTH.serious,
		isHard: true,
		wants(choices) {
			for (const piece of piecesOf(choices, week, one.id)) {
				// No block gives more than a third of its minutes.
				const third = Math.floor((piece.block?.minutes ?? 0) / 3);
				choices.wantMinutes(piece, -Math.min(third, Math.ceil(over)), -1);
				choices.wantMoves(piece);
			}
		},
		rows({ program, choices, stands }, broken) {
			for (const group of groupsOfClass(curriculum, one)) {
				const parts = partsOf(choices, week, group);
				const stays = [...new Set(parts.map(({ apparatus }) => apparatus))].map((apparatus) => {
					const isThere = program.amount(0, 1);
					for (const part of parts.filter((own) => own.apparatus === apparatus))
						program.implies(stands(part.form), isThere);
					return isThere;
				});
				program.unless(
					broken,
					[
						...parts.map((part): Term => [stands(part.form), part.block.minutes]),
						...stays.map((isThere): Term => [isThere, one.between]),
					],
					(one.minutes ?? 0) - one.warmUp - one.coolDown + one.between,
				);
			}
		},
	};
}

function partsOf(choices: Choices, week: number, group: Group): readonly Part[] {
	const parts = new Set(choices.seatsIn(week).map(({ part }) => part));
	return [...parts].filter((part) => doesSome(part, group));
}

function doesSome({ seats, groups, form }: Part, group: Group): boolean {
	if (!groups.some((one) => one.group === group)) return false;
	const isWritten = form.piece.block !== undefined;
	return (
		!isWritten ||
		seats.some(({ columns }) =>
			[...columns.values()].some(({ works }) => works.some((work) => work.group === group)),
		)
	);
}

/** Pieces that stand in a week, of which a class does something. */
function piecesOf(choices: Choices, week: number, one: Id): readonly Piece[] {
	return choices.pieces.filter(
		({ week: own, forms }) =>
			own === week &&
			(forms[0]?.parts ?? []).some(({ groups }) => groups.some(({ group }) => group.class.id === one)),
	);
}

function something({ counted: { curriculum } }: Judged): readonly Case[] {
	return classWeeks(curriculum).flatMap(({ week, one, time }) => {
		return time.blocks.length > 0 ? [] : [nothingToDo(curriculum, week, one)];
	});
}

function nothingToDo(curriculum: Curriculum, week: number, one: ClubClass): Case {
	return {
		key: `something ${week} ${one.id}`,
		weeks: [week],
		code: "H313",
		about: { week, class: one.id },
		weight: WORTH.serious,
		isHard: true,
		wants: () => {},
		rows({ program, choices, stands }, broken) {
			const parts = groupsOfClass(curriculum, one).flatMap((group) => partsOf(choices, week, group));
			const terms = [...new Set(parts.map(({ form }) => form))].map((form): Term => [stands(form), -1]);
			program.unless(broken, terms, -1);
		},
	};
}

// Coaches: as many hands and eyes as a block asks for.

function coaches({ counted: { curriculum }, partOf }: Judged): readonly Case[] {
	return coachesRows(curriculum).flatMap(({ week, group, apparatus, block: { block }, needed, present }) => {
		const part = partOf.get(block);
		if (present === undefined || needed <= present || part === undefined) return [];
		const asks = (column: Column) => {
			const work = column.works.find((one) => one.group === group);
			return work === undefined
				? { hands: 0, watched: 0 }
				: coachesFor({ block: { ...block, kind: "stations" }, stations: [work.station] }, present);
		};
		// A hand counts for more than an eye, which one coach has for all.
		const weigh = (column: Column): number => 2 * asks(column).hands + asks(column).watched;
		const case_: Case = {
			key: `coaches ${group.name} ${nameOf(part)}`,
			weeks: [week],
			code: "H331",
			about: { week, apparatus, ...aboutGroup(group) },
			weight: WORTH.serious,
			isHard: true,
			wants(choices) {
				choices.wantSplit(part.form.piece);
				for (const seat of part.seats) wantOther(choices, seat, (now, was) => weigh(now) < weigh(was));
			},
			mentions: (choices, seat, drill) => seat.part === part && weigh(choices.look(seat, drill)) > 0,
			rows({ program, at }, broken) {
				const columns = part.seats.flatMap((seat) => [...seat.columns.values()]);
				if (part.block.kind === "options") {
					for (const column of columns) {
						const { hands, watched } = asks(column);
						if (hands + watched > present) program.unless(broken, [[at(column), 1]], 0);
					}
					return;
				}
				const looks = program.amount(0, 1);
				for (const column of columns) if (asks(column).watched > 0) program.implies(at(column), looks);
				const hands = columns.map((column): Term => [at(column), asks(column).hands]);
				program.unless(broken, [...hands, [looks, 1]], present);
			},
		};
		return [case_];
	});
}

function nameOf({ form, rank, plan, apparatus }: Part): string {
	return `${plan.week}/${apparatus} ${form.piece.number}.${form.number}.${rank}`;
}

// Equipment: no more at once than is owned.

function equipment({ counted: { curriculum } }: Judged): readonly Case[] {
	return curriculum.weeks.flatMap(({ week, apparatus: plans }) =>
		plans.flatMap((plan) =>
			equipmentFor(curriculum, plan).flatMap(({ item, needed, owned, drills }) =>
				owned !== undefined && needed > owned
					? [tooMuch(curriculum, week, plan.apparatus, item, owned, drills)]
					: [],
			),
		),
	);
}

function tooMuch(
	curriculum: Curriculum,
	week: number,
	apparatus: Id,
	item: Id,
	owned: number,
	drills: readonly Id[],
): Case {
	const [only, ...more] = drills;
	const needOf = (column: Column): number => {
		const { seat } = column;
		const own = blockWith(column);
		return stationUses(curriculum, { apparatus, blocks: [own] }, own)[seat.station]?.needs.get(item) ?? 0;
	};
	const seats = (choices: Choices): readonly Seat[] =>
		choices.seatsIn(week).filter(({ part }) => part.apparatus === apparatus);
	return {
		key: `equipment ${week} ${apparatus} ${item}`,
		weeks: [week],
		code: "H310",
		about: {
			week,
			apparatus,
			equipment: item,
			...(only !== undefined && more.length === 0 ? { drill: only } : {}),
		},
		weight: WORTH.serious,
		isHard: true,
		wants(choices) {
			for (const seat of seats(choices)) {
				if (![...seat.columns.values()].some((column) => needOf(column) > 0)) continue;
				wantLess(choices, seat, item);
				choices.wantSplit(seat.part.form.piece);
			}
		},
		mentions: (_choices, { part }, drill) =>
			part.plan.week === week && part.apparatus === apparatus && usesItem(drill, item),
		rows({ program, choices, at }, broken) {
			for (const part of new Set(seats(choices).map((seat) => seat.part))) {
				const terms = part.seats.flatMap(({ columns }) =>
					[...columns.values()].map((column): Term => [at(column), needOf(column)]),
				);
				program.unless(broken, terms, owned);
			}
		},
	};
}

/** Drills that use less of an item on a seat, or nothing. */
function wantLess(choices: Choices, seat: Seat, item: Id): void {
	choices.loosen(seat);
	wantOther(choices, seat, (now, was) => usedAt(now, item) < usedAt(was, item));
}

function usedAt({ works, seat }: Column, item: Id): number {
	return Math.max(0, ...works.map((work) => neededBy(seat, work, item)));
}

/** How many of an item a group needs at a seat. */
function neededBy({ part }: Seat, { station }: SeatWork, item: Id): number {
	return needsOf({ block: { ...part.block, kind: "stations" }, stations: [station] }).get(item)?.count ?? 0;
}

function usesItem(drill: LinkedDrill, item: Id): boolean {
	return [drill, ...drill.levels.values()].some(({ equipment }) =>
		equipment?.some((need) => need.item === item),
	);
}

/** Groups that use an item in the same minute: while all blocks keep their minutes, the same blocks do. */
function clashing({ counted: { curriculum }, partOf, forms }: Judged): readonly Case[] {
	return clashes(curriculum).map(({ week, day, item, owned, classes }) => {
		const users = classes.flatMap(({ group, block }) => {
			const part = partOf.get(block);
			return part === undefined ? [] : [{ group, part }];
		});
		const timed = [...forms].filter(
			({ piece, parts }) =>
				piece.forms.length > 1 &&
				parts.some(
					({ plan, groups }) =>
						plan.week === week && groups.some(({ group }) => users.some((one) => one.group === group)),
				),
		);
		const last = classes.at(-1);
		const needOf = ({ works, seat }: Column, group: Group): number => {
			const work = works.find((one) => one.group === group);
			return work === undefined ? 0 : neededBy(seat, work, item);
		};
		return {
			key: `at once ${week} ${day} ${item}`,
			weeks: [week],
			again: users.map(({ part, group }) => `${nameOf(part)} ${group.name}`).join(" "),
			code: "H317",
			about: {
				week,
				equipment: item,
				...(last === undefined ? {} : { apparatus: last.apparatus, class: last.class }),
			},
			weight: WORTH.serious,
			isHard: true,
			wants(choices) {
				for (const { part } of users) for (const seat of part.seats) wantLess(choices, seat, item);
			},
			mentions: (_choices, seat, drill) =>
				users.some(({ part }) => part === seat.part) && usesItem(drill, item),
			rows({ program, at, stands }, broken) {
				const terms = users.flatMap(({ part, group }) =>
					part.seats.flatMap(({ columns }) =>
						[...columns.values()].map((column): Term => [at(column), needOf(column, group)]),
					),
				);
				// Other minutes than these let the row go: whether they clash is seen when they are chosen.
				const much = terms.reduce((sum, [, by]) => sum + by, 0);
				const kept = timed.map((form): Term => [stands(form), much]);
				program.unless(broken, [...terms, ...kept], owned + much * timed.length);
			},
		};
	});
}

// Heights: what a drill asks for can be set.

function heights({ counted: { curriculum } }: Judged): readonly Case[] {
	const all = [...cannotStand(curriculum), ...standTwice(curriculum)];
	return [...new Map(all.map((one) => [one.key, one])).values()];
}

function cannotStand(curriculum: Curriculum): readonly Case[] {
	return settings(curriculum)
		.filter((setting) => !canStand(setting))
		.map(
			({ work: { week, group }, station: { drill }, item, block }): Case => ({
				key: `height ${group.name} ${drill.id} ${item.id}`,
				drills: () => new Set([drill.id]),
				code: "H336",
				about: {
					week,
					apparatus: block.apparatus,
					drill: drill.id,
					equipment: item.id,
					...aboutGroup(group),
				},
				weight: WORTH["worth a look"],
				isHard: true,
				wants(choices) {
					for (const { seat, works } of choices.columnsOf(drill.id))
						if (works.some((one) => one.group === group)) choices.loosen(seat);
				},
				mentions: (_choices, seat, one) =>
					one.id === drill.id && seat.part.groups.some((own) => own.group === group),
				rows(model, broken) {
					const all = model.choices.columnsOf(drill.id);
					ruledOut(
						model,
						broken,
						all.filter(({ works }) => works.some((one) => one.group === group)),
					);
				},
			}),
		);
}

function standTwice(curriculum: Curriculum): readonly Case[] {
	return twoHeights(curriculum).map(([first, second]): Case => {
		const { item, work, block } = second;
		const one = first.work.group.class.id;
		const drills = [first.station.drill.id, second.station.drill.id] as const;
		const inClass = (choices: Choices, drill: Id) =>
			choices.columnsOf(drill).flatMap((column) => {
				const of = column.works.find(({ group }) => group.class.id === one);
				return of === undefined
					? []
					: [{ column, week: column.seat.part.plan.week, count: countOf({ station: of.station, item }) }];
			});
		return {
			key: `heights ${one} ${item.id} ${[...drills].sort().join(" ")}`,
			drills: () => new Set(drills),
			code: "H337",
			about: {
				week: work.week,
				apparatus: block.apparatus,
				drill: second.station.drill.id,
				equipment: item.id,
				...aboutGroup(work.group),
			},
			weight: WORTH["worth a look"],
			isHard: true,
			wants(choices) {
				for (const drill of drills)
					for (const { column } of inClass(choices, drill)) choices.loosen(column.seat);
			},
			mentions: (_choices, seat, drill) => drills.includes(drill.id) && isForClass(seat, one),
			rows({ program, choices, at }, broken) {
				const others = Map.groupBy(inClass(choices, drills[1]), ({ week }) => week);
				for (const a of inClass(choices, drills[0])) {
					for (const b of others.get(a.week) ?? []) {
						if (item.owned !== undefined && a.count + b.count <= item.owned) continue;
						program.unless(
							broken,
							[
								[at(a.column), 1],
								[at(b.column), 1],
							],
							1,
						);
					}
				}
			},
		};
	});
}

// Space: groups beside each other, stations beside each other.

function space({ counted: { curriculum }, forms }: Judged): readonly Case[] {
	return crowds(curriculum).map(({ week, day, apparatus, groups }) => {
		const theirs = [...forms].filter(({ parts }) =>
			parts.some(
				({ plan, groups: own }) => plan.week === week && own.some(({ group }) => groups.includes(group)),
			),
		);
		const last = groups.at(-1);
		return {
			key: `space ${week} ${day} ${apparatus}`,
			weeks: [week],
			again: theirs.map(({ number }) => number).join(" "),
			code: "H332",
			about: { week, apparatus, ...(last === undefined ? {} : aboutGroup(last)) },
			weight: WORTH.serious,
			isHard: true,
			wants(choices) {
				for (const { piece } of theirs) {
					choices.wantMinutes(piece, -3, 3);
					choices.wantMoves(piece);
				}
			},
			rows({ program, stands }, broken) {
				notAgain(program, broken, theirs.map(stands));
			},
		};
	});
}

/** By block: a plan that is tried asks for no block that it leaves as it is. */
const crowdedOf = new WeakMap<Block, ReadonlySet<"H318" | "H319" | "H320">>();
const PLACING = { overlap: "H318", between: "H319", landing: "H319", edge: "H320", wall: "H320" } as const;

/** Stations over each other, too near, or over the edge: what stands in a block, as it stands. */
function placing({ counted: { curriculum }, partOf, chosen }: Judged): readonly Case[] {
	return curriculum.weeks.flatMap((week) =>
		week.apparatus.flatMap((plan) =>
			plan.blocks.flatMap((block): readonly Case[] => {
				const part = partOf.get(block);
				if (block.kind !== "stations" || part === undefined) return [];
				const found = getOrMake(crowdedOf, block, () => {
					return new Set(floorPlanOf(curriculum, plan, block).crowding.map(({ kind }) => PLACING[kind]));
				});
				const here = part.seats.flatMap(({ columns }) =>
					[...columns.values()].filter((column) => chosen.has(column)),
				);
				return Array.from(found, (code) => ({
					key: `${code} ${nameOf(part)}`,
					weeks: [week.week],
					again: here.map(nameOfColumn).join(" "),
					code,
					about: { week: week.week, apparatus: plan.apparatus },
					weight: code === "H318" ? WORTH.serious : WORTH["worth a look"],
					isHard: code === "H318",
					wants(choices) {
						for (const seat of part.seats) choices.loosen(seat);
					},
					rows({ program, at }, broken) {
						notAgain(program, broken, here.map(at));
					},
				}));
			}),
		),
	);
}

// Set-out: nothing is carried during a class, nothing is missing.

function carried({ counted: { curriculum }, chosen }: Judged): readonly Case[] {
	return setOutRows(curriculum).flatMap((row) => {
		if (row.carried.length === 0 && row.missing.length === 0) return [];
		const { week, class: one, item } = row;
		const users = [...chosen].filter(
			({ seat, works }) =>
				seat.part.plan.week === week &&
				works.some(
					({ group, station }) =>
						group.class.id === one && station.drill.equipment.some((need) => need.item === item),
				),
		);
		const missing = row.missing[0];
		const case_: Case = {
			key: `set-out ${week} ${one} ${item}`,
			weeks: [week],
			again: users.map(nameOfColumn).join(" "),
			code: "H333",
			about: {
				week,
				class: one,
				...(missing === undefined ? {} : { apparatus: missing.apparatus, equipment: item }),
			},
			weight: missing === undefined ? WORTH["worth a look"] : WORTH.serious,
			isHard: missing !== undefined,
			wants(choices) {
				for (const { seat } of users) wantLess(choices, seat, item);
			},
			mentions: (_choices, seat, drill) =>
				seat.part.plan.week === week && isForClass(seat, one) && usesItem(drill, item),
			rows({ program, at }, broken) {
				// Less use of an item never makes more to carry: one of these has to go.
				notAgain(program, broken, users.map(at));
			},
		};
		return users.length === 0 ? [] : [case_];
	});
}

// Turns and doses: what is planned can be done.

function turns({ counted: { curriculum }, partOf }: Judged): readonly Case[] {
	return classWeeks(curriculum).flatMap(({ week, one, time }) =>
		time.blocks.flatMap(({ apparatus, block, drills }) => {
			const part = partOf.get(block);
			if (part === undefined) return [];
			const noTurn = drills.filter((drill) => drill.turns === 0 && drill.minutes > 0);
			return [
				...noTurn.map(({ drill }) => withoutTurn(week, one.id, apparatus, drill)),
				...(part.groups.some(({ group }) => group.class === one && isEaten(part, group))
					? [eaten(part)]
					: []),
			];
		}),
	);
}

function isEaten(part: Part, group: Group): boolean {
	const stations = part.seats.flatMap(({ columns }) => {
		const [first] = columns.values();
		return first?.works.filter((work) => work.group === group).map(({ station }) => station) ?? [];
	});
	return (
		stations.length > 0 &&
		eatenUp({ apparatus: part.apparatus, block: part.block, stations, from: 0, to: 0 }) !== undefined
	);
}

function eaten(part: Part): Case {
	return {
		key: `eaten ${nameOf(part)}`,
		weeks: [part.plan.week],
		code: "H344",
		about: { week: part.plan.week, apparatus: part.apparatus },
		weight: WORTH.serious,
		isHard: true,
		wants: (choices) => choices.wantMinutes(part.form.piece, 1, 6),
		rows({ program, stands }, broken) {
			program.unless(broken, [[stands(part.form), 1]], 0);
		},
	};
}

function withoutTurn(week: number, one: Id, apparatus: Id, drill: Id): Case {
	const waits = ({ seat: { part }, works }: Column): boolean =>
		part.plan.week === week &&
		part.apparatus === apparatus &&
		works.some(({ group, station }) => group.class.id === one && station.turns === 0 && station.minutes > 0);
	return {
		key: `turn ${week} ${one} ${apparatus} ${drill}`,
		weeks: [week],
		code: "H316",
		about: { week, class: one, apparatus, drill },
		weight: WORTH["worth a look"],
		wants(choices) {
			for (const column of choices.columnsOf(drill)) {
				if (!waits(column)) continue;
				choices.loosen(column.seat);
				choices.wantMinutes(column.seat.part.form.piece, 1, 6);
			}
		},
		mentions: (_choices, seat, other) =>
			other.id === drill && seat.part.plan.week === week && isForClass(seat, one),
		rows: (model, broken) => ruledOut(model, broken, model.choices.columnsOf(drill).filter(waits)),
	};
}

function dose({ counted: { curriculum } }: Judged): readonly Case[] {
	const all = dosePlaces(curriculum);
	const kinds = [
		{ code: "H334", isBroken: isDoseTooLong },
		{ code: "H335", isBroken: isHoldTooLong },
	] as const;
	return kinds.flatMap(({ code, isBroken }) =>
		[...Map.groupBy(all.filter(isBroken), ({ station }) => `${station.drill.id} ${station.level}`)].flatMap(
			([key, [place]]): readonly Case[] => {
				if (place === undefined) return [];
				const { drill, level } = place.station;
				const isBad = ({ works, seat: { part } }: Column): boolean =>
					works.some(({ station }) => {
						const { apparatus, block } = part;
						const work = { apparatus, block, stations: [station], from: 0, to: 0 };
						return station.level === level && isBroken({ block: work, station });
					});
				return [
					{
						key: `${code} ${key}`,
						drills: () => new Set([drill.id]),
						code,
						about: { level, drill: drill.id, week: place.work.week, apparatus: place.block.apparatus },
						weight: WORTH["worth a look"],
						wants(choices) {
							for (const column of choices.columnsOf(drill.id)) {
								if (!isBad(column)) continue;
								choices.loosen(column.seat);
								if (code === "H334") choices.wantMinutes(column.seat.part.form.piece, 1, 6);
							}
						},
						mentions: (_choices, seat, one) => one.id === drill.id && seat.part.levels.includes(level),
						rows: (model, broken) => ruledOut(model, broken, model.choices.columnsOf(drill.id).filter(isBad)),
					},
				];
			},
		),
	);
}

// Coverage: every shape and skill in enough weeks, none too far apart.

function weeks({ counted }: Judged): readonly Case[] {
	const { curriculum } = counted;
	return expected(counted).flatMap((spacing): readonly Case[] => {
		const { kind, id, level, taught } = spacing;
		const wanted = weeksWanted(curriculum, kind);
		if (wanted === undefined || taught.length >= wanted) return [];
		const arrivesWith = kind === "skill" && curriculum.levels.get(level)?.entry.includes(id) === true;
		const inWeeks = (name: string, least: number, weight: number): Case => ({
			key: `${name} ${kind} ${id} ${level}`,
			drills: () => new Set(covering(curriculum, kind, id).map((one) => one.id)),
			code: kind === "shape" ? "H303" : "H304",
			about: kind === "shape" ? { level, shape: id } : { level, skill: id },
			weight,
			wants: (choices) => wantTaught(choices, spacing, (week) => !taught.includes(week)),
			rows(model, broken) {
				const sums = taughtIn(model, spacing).map(({ isTaught }): Term => [isTaught, 1]);
				model.program.unlessLess(broken, sums, least);
			},
		});
		const isNever = taught.length === 0 && !arrivesWith;
		return [
			inWeeks("weeks", wanted, WORTH["worth a look"]),
			// That it is never taught is worse.
			...(isNever ? [inWeeks("never", 1, WORTH.serious - WORTH["worth a look"])] : []),
		];
	});
}

function gap({ counted }: Judged): readonly Case[] {
	const { curriculum } = counted;
	return expected(counted).flatMap((spacing): readonly Case[] => {
		const { kind, id, level, taught, longestGap } = spacing;
		const wanted = gapWanted(curriculum, kind);
		if (wanted === undefined || longestGap === undefined || longestGap <= wanted) return [];
		return [
			{
				key: `gap ${kind} ${id} ${level}`,
				drills: () => new Set(covering(curriculum, kind, id).map((one) => one.id)),
				code: kind === "shape" ? "H305" : "H306",
				about: kind === "shape" ? { level, shape: id } : { level, skill: id },
				weight: WORTH["worth a look"],
				wants(choices) {
					const isBetween = (week: number): boolean => {
						const next = taught.findIndex((one) => one > week);
						return (taught[next] ?? week) - (taught[next - 1] ?? week) > wanted;
					};
					// While a plan is looked for, only in the gaps that it has.
					const isMeant = (week: number): boolean => choices.mode !== "look" || isBetween(week);
					wantTaught(choices, spacing, (week) => !taught.includes(week) && isMeant(week));
				},
				mentions: (_choices, seat, drill) =>
					seat.part.levels.includes(level) && coveredBy(curriculum, drill.id, kind).includes(id),
				rows(model, broken) {
					const { program, at } = model;
					const all = taughtIn(model, spacing);
					for (const { isTaught, columns } of all)
						for (const column of columns) program.implies(at(column), isTaught);
					/** Whether anything is taught in a week or after it, the last week first. */
					const since: { readonly week: number; readonly isAny: Variable }[] = [];
					for (const { week, isTaught } of all.toReversed()) {
						const isAny = program.amount(0, 1);
						for (const part of [isTaught, ...since.slice(-1).map((later) => later.isAny)])
							program.implies(part, isAny);
						since.push({ week, isAny });
					}
					for (const first of all) {
						const between = all.filter(({ week }) => week > first.week && week <= first.week + wanted);
						const past = since.findLast(({ week }) => week > first.week + wanted);
						if (past === undefined) continue;
						// Whatever is taught past the gap asks for something within it.
						program.unless(
							broken,
							[[first.isTaught, 1], [past.isAny, 1], ...between.map(({ isTaught }): Term => [isTaught, -1])],
							1,
						);
					}
				},
			},
		];
	});
}

function expected(counted: Counted): readonly Spacing[] {
	return counted.curriculum.weeks.length === 0 ? [] : spacings(counted).filter((one) => one.expected);
}

const coveringOf = onceEach((_original: Curriculum) => new Map<string, readonly LinkedDrill[]>());

/** The drills of the library that teach a shape or a skill. */
function covering(curriculum: Curriculum, kind: Spacing["kind"], id: Id): readonly LinkedDrill[] {
	return getOrMake(coveringOf(originalOf(curriculum)), `${kind} ${id}`, () =>
		[...curriculum.drills.values()].filter((drill) => coveredBy(curriculum, drill.id, kind).includes(id)),
	);
}

function wantTaught(
	choices: Choices,
	{ kind, id, level }: Spacing,
	isMeant: (week: number) => boolean,
): void {
	const drills = covering(choices.curriculum, kind, id).filter((drill) => drill.levels.has(level));
	const places = drills.flatMap((drill) =>
		choices
			.seatsFor(drill)
			.filter(({ part }) => part.levels.includes(level) && isMeant(part.plan.week))
			.map((seat) => ({ seat, drill })),
	);
	choices.wantSome(places);
	wantAdded(choices, level, drills, isMeant);
}

/** Whether a thing is taught to a level, week by week: a number that is at most the columns that teach it. */
function taughtIn({ program, choices, at }: Model, { kind, id, level }: Spacing) {
	const { curriculum } = choices;
	const columns = covering(curriculum, kind, id)
		.flatMap((drill) => choices.columnsOf(drill.id))
		.filter((column) => isForLevel(column, level));
	return [...Map.groupBy(columns, ({ seat }) => seat.part.plan.week)]
		.sort(([a], [b]) => a - b)
		.map(([week, here]) => {
			const isTaught = program.upTo(
				1,
				here.map((column): Term => [at(column), 1]),
			);
			return { week, isTaught, columns: here };
		});
}

// Direction: forward matched by backward.

function direction({ counted }: Judged): readonly Case[] {
	const { curriculum } = counted;
	if (curriculum.targets.pairDirections !== true) return [];
	return directionBalances(counted).flatMap(({ week, apparatus, lacking }) =>
		lacking
			.filter(({ level, missing }) => drillsOfDirection(curriculum, missing, apparatus, [level]).length > 0)
			.map((one) => oneWay(curriculum, week, apparatus, one)),
	);
}

function oneWay(curriculum: Curriculum, week: number, apparatus: Id, { level, missing }: Lacking): Case {
	const isHere = ({ part }: Seat): boolean =>
		part.plan.week === week && part.apparatus === apparatus && part.levels.includes(level);
	const wayOf = (drill: LinkedDrill) => bodyDirection(curriculum, drill);
	const isAble = (way: "forward" | "backward"): boolean =>
		drillsOfDirection(curriculum, way, apparatus, [level]).length > 0;
	return {
		key: `direction ${week} ${apparatus} ${level}`,
		weeks: [week],
		code: "H307",
		about: { week, apparatus, level },
		weight: WORTH["worth a look"],
		wants(choices) {
			for (const seat of choices.seatsIn(week)) {
				if (!isHere(seat)) continue;
				for (const drill of drillsOfDirection(curriculum, missing, apparatus, [level]))
					choices.want(seat, drill);
				if ([...seat.columns.values()].some(({ drill }) => isOneWay(wayOf(drill)))) choices.loosen(seat);
			}
			const plan = choices.curriculum.weeks.find((one) => one.week === week);
			if (plan === undefined) return;
			wantAdded(
				choices,
				level,
				drillsOfDirection(curriculum, missing, apparatus, [level]),
				(one) => one === week,
			);
		},
		mentions: (_choices, seat, drill) => isHere(seat) && isOneWay(wayOf(drill)),
		rows({ program, choices, at }, broken) {
			const ways = (["forward", "backward"] as const).map((way) => {
				const columns = choices
					.seatsIn(week)
					.filter(isHere)
					.flatMap((seat) => [...seat.columns.values()])
					.filter(
						(column) =>
							isForLevel(column, level) &&
							column.drill.direction !== undefined &&
							wayOf(column.drill) === way &&
							stationMinutes(column.seat.part.block, column.seat.part.seats.length) > 0,
					);
				const isDone = program.amount(0, 1);
				program.atMost([[isDone, 1], ...columns.map((column): Term => [at(column), -1])], 0);
				for (const column of columns) program.implies(at(column), isDone);
				return { way, isDone };
			});
			for (const [one, other] of [ways, ways.toReversed()]) {
				if (one === undefined || other === undefined || !isAble(other.way)) continue;
				program.unless(
					broken,
					[
						[one.isDone, 1],
						[other.isDone, -1],
					],
					0,
				);
			}
		},
	};
}

function isOneWay(way: string): boolean {
	return way === "forward" || way === "backward";
}

// Reach: every gymnast does the skills that she learns.

function reach({ counted: { curriculum } }: Judged): readonly Case[] {
	const wanted = curriculum.targets.skillReps;
	const same = Map.groupBy(
		seldomReached(curriculum),
		({ skill, group }) => `${skill.id} ${group.gymnastsId}`,
	);
	return [...same].flatMap(([key, [first, ...more]]): readonly Case[] => {
		if (first === undefined) return [];
		const { skill, group } = first;
		const gymnasts = group.gymnastsId;
		/** What a column gives of it: repetitions that are performed, or that it is met at all. */
		const given = ({ drill, works }: Column): number => {
			const count = performedBy(drill).get(skill.id) ?? 0;
			const own = works.filter((work) => work.group.gymnastsId === gymnasts);
			if (wanted !== undefined) return own.reduce((sum, { station }) => sum + count * (station.done ?? 0), 0);
			return own.length > 0 && (count > 0 || drill.skills.includes(skill.id)) ? 1 : 0;
		};
		const drills = [...curriculum.drills.values()].filter(
			(drill) =>
				performedBy(drill).has(skill.id) || (wanted === undefined && drill.skills.includes(skill.id)),
		);
		const least = wanted ?? 1;
		return [
			{
				key: `reach ${key}`,
				drills: () => new Set(drills.map(({ id }) => id)),
				code: first.wanted === undefined ? "H343" : "H338",
				about: { skill: skill.id, ...aboutGroup(group) },
				weight: WORTH["worth a look"] * (1 + more.length),
				wants(choices) {
					for (const drill of drills) {
						for (const seat of choices.seatsFor(drill)) if (isFor(seat, gymnasts)) choices.want(seat, drill);
						for (const column of choices.columnsOf(drill.id)) {
							if (column.seat.drill === column.drill && worksFor(column, gymnasts).length > 0)
								choices.wantMinutes(column.seat.part.form.piece, 1, 4);
						}
					}
					for (const level of group.levels) wantAdded(choices, level, drills, () => true);
				},
				rows({ program, choices, at }, broken) {
					const terms = drills
						.flatMap((drill) => choices.columnsOf(drill.id))
						.map((column): Term => [at(column), given(column)]);
					program.unlessLess(broken, terms, least);
				},
			},
		];
	});
}

// Load: no sudden step, not too many landings.

function load({ counted: { curriculum } }: Judged): readonly Case[] {
	const { loadStep, landings } = curriculum.targets;
	return groupLoads(curriculum).flatMap((one): readonly Case[] => {
		const { week, group } = one;
		const before = weeksBefore(curriculum, week);
		const most = [...one.drills].sort((a, b) => b.landings + b.hands - (a.landings + a.hands))[0]?.drill;
		const about = { week, ...aboutGroup(group), ...(most === undefined ? {} : { drill: most }) };
		const cases: Case[] = [];
		if (loadStep !== undefined && stepsOver(one, loadStep).length > 0) {
			cases.push(
				contacts({
					key: `step ${week} ${group.name}`,
					code: "H311",
					about,
					group,
					week,
					kinds: KINDS,
					rowOf: (sum) => [...sum(week, before.length), ...before.flatMap((past) => sum(past, -loadStep))],
					most: 0,
					before,
					// Where nothing was done before, there is no step.
					noneBefore: KINDS.filter((kind) => one[`${kind}Step`] === undefined),
				}),
			);
		}
		if (landings !== undefined && one.landings > landings + 1e-9) {
			cases.push(
				contacts({
					key: `landings ${week} ${group.name}`,
					code: "H340",
					about,
					group,
					week,
					kinds: ["landings"],
					rowOf: (sum) => sum(week, 1),
					most: landings,
					before: [],
					noneBefore: [],
				}),
			);
		}
		return cases;
	});
}

const KINDS = ["landings", "hands"] as const;
type Kind = (typeof KINDS)[number];

function contactsOf({ works }: Column, group: Group, kind: Kind): number {
	const work = works.find((one) => one.group === group);
	return work === undefined ? 0 : (work.station.drill.contacts?.[kind] ?? 0) * (work.station.done ?? 1);
}

/** A sum of contacts that is too large. */
interface Contacts extends Pick<Case, "key" | "code" | "about"> {
	readonly group: Group;
	readonly week: number;
	readonly kinds: readonly Kind[];
	/** The row of one kind, made of sums of weeks; nothing is done in one that is closed. */
	rowOf(sum: (week: number | undefined, by: number) => readonly Term[]): readonly Term[];
	readonly most: number;
	/** The weeks that it is held against. */
	readonly before: readonly (number | undefined)[];
	/** Kinds of which nothing is done in these. */
	readonly noneBefore: readonly Kind[];
}

function contacts({ key, code, about, group, week, kinds, rowOf, most, before, noneBefore }: Contacts): Case {
	const isAny = (test: (kind: Kind) => boolean): boolean => kinds.some(test);
	return {
		key,
		weeks: [week, ...before.filter((past) => past !== undefined)],
		code,
		about,
		weight: WORTH["worth a look"],
		wants(choices) {
			const own = (one: number) =>
				choices.seatsIn(one).filter(({ part }) => part.groups.some((work) => work.group === group));
			const of = (column: Column, kind: Kind): number => contactsOf(column, group, kind);
			for (const seat of own(week)) {
				if (seat.drill === undefined || !hasContacts(seat.drill)) continue;
				wantOther(choices, seat, (now, was) => isAny((kind) => of(now, kind) < of(was, kind)));
			}
			for (const past of before) {
				if (past === undefined) continue;
				for (const seat of own(past))
					wantOther(choices, seat, (now, was) => isAny((kind) => of(now, kind) > of(was, kind)), hasContacts);
			}
			for (const piece of piecesOf(choices, week, group.class.id)) choices.wantMinutes(piece, -4, -1);
		},
		mentions: (_choices, { part }, drill) =>
			part.plan.week === week && part.groups.some((one) => one.group === group) && hasContacts(drill),
		rows({ program, choices, at }, broken) {
			for (const kind of kinds) {
				const sum = (one: number | undefined, by: number): readonly Term[] => {
					const terms: Term[] = [];
					if (one === undefined) return terms;
					for (const { columns, part } of choices.seatsIn(one)) {
						if (!part.groups.some((own) => own.group === group)) continue;
						for (const column of columns.values()) {
							const count = contactsOf(column, group, kind);
							if (count > 0) terms.push([at(column), by * count]);
						}
					}
					return terms;
				};
				const terms = rowOf(sum);
				if (!noneBefore.includes(kind)) {
					program.unless(broken, terms, most);
					continue;
				}
				const past = before.flatMap((one) => sum(one, 1));
				// Either something was done before, and the step counts, or nothing at all was.
				const isSome = program.choice(0);
				program.unless(isSome, past, 0);
				const either = program.upTo(1, [
					...(broken === undefined ? [] : [[broken, 1] as Term]),
					[program.fixed(1), 1],
					[isSome, -1],
				]);
				program.unless(either, terms, most);
			}
		},
	};
}

const hasContacts = onceEach((drill: LinkedDrill): boolean =>
	[drill, ...drill.levels.values()].some(
		({ contacts }) => contacts !== undefined && contacts.landings + contacts.hands > 0,
	),
);

/** Drills that would change a sum at a seat the right way. @param mayBe whether a drill could at all */
function wantOther(
	choices: Choices,
	seat: Seat,
	isBetter: (now: Column, was: Column) => boolean,
	mayBe: (drill: LinkedDrill) => boolean = () => true,
): void {
	if (!choices.mayChange(seat)) return;
	const written = [...seat.columns.values()].find(({ drill }) => drill === seat.drill);
	if (written === undefined) return;
	for (const drill of choices.candidates(seat)) {
		if (choices.isFull(seat)) return;
		if (drill !== seat.drill && mayBe(drill) && isBetter(choices.look(seat, drill), written))
			choices.want(seat, drill);
	}
}

// Novelty: not too much that is new at once.

function novelty({ counted: { curriculum } }: Judged): readonly Case[] {
	const most = curriculum.targets.newDrills;
	if (most === undefined) return [];
	return classWeeks(curriculum).flatMap(({ week, one, time }): readonly Case[] => {
		if (time.newDrills.length <= most || week === curriculum.weeks[0]?.week) return [];
		const fresh = new Set(time.newDrills);
		return [
			{
				key: `novelty ${week} ${one.id}`,
				code: "H341",
				about: { week, class: one.id },
				weight: WORTH["worth a look"],
				wants(choices) {
					for (const seat of choices.seatsIn(week)) {
						if (!isForClass(seat, one.id)) continue;
						for (const drill of choices.candidates(seat))
							if (isDoneBefore(choices, drill.id, week, one.id)) choices.want(seat, drill);
					}
					for (const id of fresh) {
						const drill = curriculum.drills.get(id);
						if (drill === undefined) continue;
						for (const seat of choices.seatsFor(drill))
							if (seat.part.plan.week < week && isForClass(seat, one.id)) choices.want(seat, drill);
					}
				},
				mentions: (_choices, seat) => seat.part.plan.week === week && isForClass(seat, one.id),
				rows({ program, choices, at }, broken) {
					for (const group of groupsOfClass(curriculum, one)) {
						const isHere = (column: Column): boolean => column.works.some((work) => work.group === group);
						const here = choices.seatsIn(week).flatMap((seat) => [...seat.columns.values()].filter(isHere));
						const start = Math.min(
							...here.flatMap(({ works }) =>
								works.filter((work) => work.group === group).map(({ moment }) => moment),
							),
						);
						const news = [...Map.groupBy(here, ({ drill }) => drill.id)].map(([drill, columns]) => {
							const before = choices
								.columnsOf(drill)
								.filter((column) => worksFor(column, group.gymnastsId).some(({ moment }) => moment < start));
							const isNew = program.amount(0, 1);
							for (const column of columns)
								program.atMost(
									[[at(column), 1], [isNew, -1], ...before.map((past): Term => [at(past), -1])],
									0,
								);
							return isNew;
						});
						program.unless(
							broken,
							news.map((isNew): Term => [isNew, 1]),
							most,
						);
					}
				},
			},
		];
	});
}

function isDoneBefore(choices: Choices, drill: Id, week: number, one: Id): boolean {
	return choices
		.columnsOf(drill)
		.some(
			({ seat, drill: own, works }) =>
				seat.drill === own && seat.part.plan.week < week && works.some(({ group }) => group.class.id === one),
		);
}

// Activity: enough of the class's time on the move.

function activity({ counted: { curriculum } }: Judged): readonly Case[] {
	const target = curriculum.targets.activeShare;
	if (target === undefined) return [];
	return classWeeks(curriculum).flatMap(({ week, one, time }): readonly Case[] => {
		const { activeShare, available, blocks } = time;
		if (blocks.length === 0 || activeShare === undefined || available === undefined) return [];
		if (activeShare >= target - 1e-9) return [];
		const groups = groupsOfClass(curriculum, one);
		const gymnasts = groups.reduce((sum, group) => sum + group.gymnasts, 0);
		/** Active minutes of a gymnast, and what she need not move of minutes nobody knows of. */
		const given = ({ works }: Column): number =>
			works
				.filter(({ group }) => groups.includes(group))
				.reduce((sum, { group, station }) => {
					const { activeMinutes, turns, minutes } = drillTime(station);
					return (
						sum + ((activeMinutes + (turns === undefined ? target * minutes : 0)) * group.gymnasts) / gymnasts
					);
				}, 0);
		return [
			{
				key: `activity ${week} ${one.id}`,
				weeks: [week],
				code: "H309",
				about: { week, class: one.id },
				weight: WORTH["worth a look"],
				wants(choices) {
					for (const seat of choices.seatsIn(week))
						if (isForClass(seat, one.id)) wantOther(choices, seat, (now, was) => given(now) > given(was));
					for (const piece of piecesOf(choices, week, one.id)) choices.wantMinutes(piece, -3, 3);
				},
				mentions: (_choices, seat) => seat.part.plan.week === week && isForClass(seat, one.id),
				rows({ program, choices, at }, broken) {
					const terms = choices
						.seatsIn(week)
						.flatMap((seat) => [...seat.columns.values()])
						.map((column): Term => [at(column), given(column)]);
					program.unlessLess(broken, terms, target * available - one.warmUp);
				},
			},
		];
	});
}
