/**
 * The lists of edits that are tried for each kind of finding, the plainest first. Each is a generator: a
 * list is made when those before it have failed.
 *
 * They are made of few moves: a block is exchanged with another, its stations are parted into two blocks
 * one after the other, one of them is left out; minutes go from one block to another; a dose is lowered.
 */

import type { Curriculum, Finding, Id, LinkedDrill, PlanChange } from "../model.ts";
import { oneWays } from "./balance.ts";
import { type DosePlace, dosesThatDoNotFit, heldInTurn, holdsThatDoNotFit, minutesWanting } from "./dose.ts";
import { doseOf } from "./dose-of.ts";
import { isWatched } from "./drill-at.ts";
import { groupsOf } from "./groups.ts";
import { type GroupLoad, groupLoads } from "./load.ts";
import type { Counted } from "./measure.ts";
import { type OrderRow, orderRows } from "./meeting-order.ts";
import {
	addAt,
	apart,
	atMost,
	type Edits,
	exchange,
	exchanges,
	halves,
	hasDone,
	leavesSome,
	leftOut,
	onceMore,
	type Place,
	placeAt,
	placeOfFinding,
	placesOf,
	setFields,
	spareMinutes,
	TRIED,
	WAYS,
	type Way,
	withDose,
	withMinutes,
} from "./mend-moves.ts";
import { nameOfSpot, weeksOf, writtenBlock, writtenStations } from "./plan-changes.ts";
import { performedBy, reach } from "./reach.ts";
import { setOutRows } from "./set-out.ts";
import { drillsTraining, gapWanted, type Spacing, spacings, weeksWanted } from "./spacing.ts";
import { builtOnMissed, taughtOf } from "./taught.ts";
import { classTime, drillTime } from "./time.ts";
import { type BlockWork, groupWorksIn, type StationWork } from "./work.ts";

// Order

/** H301, H302, H330: the easier thing just before, the harder one later, or not at all. */
export function* earlierOrLater(counted: Counted, { code, about }: Finding): Iterable<Edits> {
	const { curriculum } = counted;
	const rule = code === "H301" ? "needs" : code === "H302" ? "after" : "ready";
	const rows = orderRows(curriculum).filter(
		(row) =>
			row.met === "no" &&
			row.rule === rule &&
			row.level === about.level &&
			(about.skill === undefined ? row.drill === about.drill : row.skill === about.skill),
	);
	yield* easierOrLater(curriculum, rows, about);
}

/** H350: the same of what was missed, and in weeks that are still to come. */
export function* missedOrLater({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	const missed = builtOnMissed(curriculum).map(({ row }) => row);
	const rows = missed.filter(
		(row) =>
			row.level === about.level &&
			(about.skill === undefined ? row.drill === about.drill : row.skill === about.skill),
	);
	const past = Math.max(...taughtOf(curriculum).until.values());
	for (const edits of easierOrLater(curriculum, rows, about)) {
		if ([...weeksOf(edits)].every((week) => week > past)) yield edits;
	}
}

function* easierOrLater(
	curriculum: Curriculum,
	rows: readonly OrderRow[],
	about: Finding["about"],
): Iterable<Edits> {
	const [row] = rows.filter(({ week, drill }) => week === about.week && drill === about.drill);
	const place = row && placeAt(curriculum, { ...row, number: row.block });
	if (row === undefined || place === undefined) return;
	for (const easier of easierDrills(curriculum, row)) yield easierFirst(curriculum, rows, place, easier);
	const after = Math.max(row.week, ...rows.map(({ later = 0 }) => later));
	yield* exchanges(curriculum, place, (week) => week >= after);
	yield leftOut(place, (station) => station.drill === row.drill);
}

/** What comes first by a rule, or performs what comes first. */
function easierDrills(
	{ drills }: Curriculum,
	{ rule, id, level, apparatus }: OrderRow,
): readonly LinkedDrill[] {
	if (rule === "ready") return [];
	const easier = rule === "after" ? drills.get(id) : undefined;
	if (easier !== undefined) return [easier];
	return [...drills.values()]
		.filter(
			(drill) => drill.apparatus.includes(apparatus) && drill.levels.has(level) && performedBy(drill).has(id),
		)
		.slice(0, TRIED);
}

/** Minutes for the easier drill, out of those of the harder one, and the least that a block must have for it. */
const FIRST = { minutes: 4, of: 8 } as const;

/**
 * The easier drill in a block of its own before the harder one, in some of its minutes. Only where all
 * groups first meet the harder one there, and the easier one asks for nothing that they have not done.
 */
function easierFirst(
	curriculum: Curriculum,
	rows: readonly OrderRow[],
	{ block, spot }: Place,
	easier: LinkedDrill,
): Edits {
	const isThere = rows.every(
		(one) => one.week === spot.week && one.apparatus === spot.apparatus && one.block === spot.number,
	);
	const levels = [...curriculum.levels.keys()].filter(
		(level) =>
			easier.levels.has(level) &&
			rows.some((row) => curriculum.drills.get(row.drill)?.levels.has(level)) &&
			(block.levels.length === 0 || block.levels.includes(level)),
	);
	const minutes = block.minutes - FIRST.minutes;
	const isReady = levels.every((level) => asksNothingNew(curriculum, easier, level, spot.week));
	if (!isThere || !isReady || levels.length === 0 || !easier.apparatus.includes(spot.apparatus)) return [];
	if (block.minutes < FIRST.of || !leavesSome(block, minutes)) return [];
	return [
		addAt(spot, { drill: easier.id, minutes: FIRST.minutes, levels }),
		setFields({ ...spot, number: spot.number + 1 }, { minutes }),
	];
}

/** Whether a level has done all that a drill comes after, and arrives with all that its skills need. */
function asksNothingNew(curriculum: Curriculum, drill: LinkedDrill, level: Id, week: number): boolean {
	const entry = curriculum.levels.get(level)?.entry ?? [];
	const skills = [...drill.skills, ...performedBy(drill).keys()];
	return (
		drill.ready.length === 0 &&
		drill.after.every(
			(id) =>
				entry.includes(id) ||
				curriculum.drills.get(id)?.levels.has(level) !== true ||
				hasDone(curriculum, level, id, week),
		) &&
		skills.every((id) => (curriculum.skills.get(id)?.needs ?? []).every((need) => entry.includes(need)))
	);
}

// Coverage

/** H303 to H306: a block more in as few weeks as it takes, in free minutes or in some of a long block's. */
export function* moreOften(counted: Counted, { code, about }: Finding): Iterable<Edits> {
	const spacing = spacings(counted).find(
		({ kind, id, level }) => level === about.level && id === (kind === "shape" ? about.shape : about.skill),
	);
	if (spacing === undefined) return;
	const isGap = code === "H305" || code === "H306";
	for (const way of WAYS) {
		yield (isGap ? inGaps : inMoreWeeks)(counted.curriculum, spacing, way);
	}
}

/** A block in each of as many weeks more. */
function inMoreWeeks(curriculum: Curriculum, spacing: Spacing, from: Way): Edits {
	const { kind, id, level, taught } = spacing;
	const drills = drillsTraining(curriculum, kind, id, level);
	const weeks = (weeksWanted(curriculum, kind) ?? 0) - taught.length;
	const lists = curriculum.weeks
		.filter(({ week }) => !taught.includes(week))
		.map((plan) => onceMore(curriculum, plan, [level], drills, from))
		.filter((list) => list.length > 0);
	return lists.length < weeks ? [] : lists.slice(0, weeks).flat();
}

/** A block in as few weeks as bring every gap down to the longest wanted: each as late as it can be. */
function inGaps(curriculum: Curriculum, spacing: Spacing, way: Way): Edits {
	const { kind, id, level, taught } = spacing;
	const wanted = gapWanted(curriculum, kind) ?? Number.POSITIVE_INFINITY;
	const drills = drillsTraining(curriculum, kind, id, level);
	const edits: PlanChange[] = [];
	for (const [i, to] of taught.entries()) {
		for (let from = taught[i - 1] ?? to; to - from > wanted; ) {
			const next = curriculum.weeks
				.filter(({ week }) => week > from && week <= from + wanted)
				.toReversed()
				.map((plan) => ({ week: plan.week, list: onceMore(curriculum, plan, [level], drills, way) }))
				.find(({ list }) => list.length > 0);
			if (next === undefined) return [];
			edits.push(...next.list);
			from = next.week;
		}
	}
	return edits;
}

/** H307: a drill of the other direction, in free minutes or in some of a long block's. */
export function* otherWay(counted: Counted, { about }: Finding): Iterable<Edits> {
	const { curriculum } = counted;
	const plan = curriculum.weeks.find(({ week }) => week === about.week);
	const { apparatus } = about;
	if (plan === undefined || apparatus === undefined) return;
	const lacking = oneWays(counted, plan.week, apparatus).filter(
		({ levels }) => about.level === (levels.length === 1 ? levels[0] : undefined),
	);
	for (const way of WAYS) {
		const lists = lacking.map(({ levels, drills }) => {
			const forAll = drills.filter((drill) => levels.every((level) => drill.levels.has(level)));
			return onceMore(curriculum, plan, levels, forAll, way, [apparatus]);
		});
		yield lists.some((list) => list.length === 0) ? [] : lists.flat();
	}
}

/** H338, H343: a drill of the skill for the group, in one week more and then in more. */
export function* reached({ curriculum }: Counted, { code, about }: Finding): Iterable<Edits> {
	const { skill: id = "" } = about;
	const group = groupsOf(curriculum).find(({ name }) => name === about.group);
	const skill = curriculum.skills.get(id);
	if (group === undefined || skill === undefined) return;
	const levels = group.levels.filter((level) => skill.levels.includes(level)).slice(0, 1);
	const drills = skill.drills
		.flatMap((drill) => curriculum.drills.get(drill) ?? [])
		.filter(
			(drill) =>
				levels.every((level) => drill.levels.has(level)) && (code === "H343" || performedBy(drill).has(id)),
		);
	const weeks = reach(curriculum).find((row) => row.id === id && row.group === group)?.weeks ?? [];
	// First the weeks that do not have it.
	const plans = [...curriculum.weeks].sort(
		(a, b) => Number(weeks.includes(a.week)) - Number(weeks.includes(b.week)),
	);
	for (const way of WAYS) {
		const lists = plans
			.map((plan) => onceMore(curriculum, plan, levels, drills, way, group.rotation))
			.filter((list) => list.length > 0);
		for (let n = 1; n <= Math.min(TRIED, lists.length); n++) yield lists.slice(0, n).flat();
	}
}

/** H313: what the class's levels have done before, on one of its apparatus. */
export function* somethingToDo({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	const plan = curriculum.weeks.find(({ week }) => week === about.week);
	if (plan === undefined) return;
	for (const { class: one, levels, rotation } of groupsOf(curriculum)) {
		if (one.id !== about.class) continue;
		for (const level of levels) {
			const drills = [...curriculum.drills.values()].filter((drill) => drill.levels.has(level));
			yield onceMore(curriculum, plan, [level], drills, "free", rotation);
		}
	}
}

// Time and dose

/**
 * H308: the minutes that are too many off one block, else off the longest: off none more than a third.
 * Where a block has minutes to spare, nothing else is found wrong without them.
 */
export function* shorterBlocks({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	const plan = curriculum.weeks.find(({ week }) => week === about.week);
	const one = curriculum.term.classes.find(({ id }) => id === about.class);
	if (plan === undefined || one === undefined) return;
	const { planned, available = planned } = classTime(curriculum, plan, one);
	const over = Math.ceil(planned - available - 1e-9);
	// Groups at the same time are too long each for itself.
	const groups = groupWorksIn(curriculum, plan.week).filter(({ group }) => group.class === one);
	const tooLong = groups.filter(({ minutes }) => one.warmUp + minutes + one.coolDown > available + 1e-9);
	const places = placesOf(curriculum, about).sort((a, b) => b.block.minutes - a.block.minutes);
	const shortened = ({ block, spot }: Place, minutes: number): Edits => {
		const left = block.minutes - minutes;
		return left < (block.minutes * 2) / 3 || !leavesSome(block, left)
			? []
			: [setFields(spot, { minutes: left })];
	};
	for (const place of places) {
		const isOfAll = tooLong.every(({ blocks }) => blocks.some(({ block }) => block === place.block));
		if (isOfAll) yield shortened(place, over);
	}
	const edits: PlanChange[] = [];
	let left = over;
	for (const place of places) {
		const taken = Math.min(left, Math.floor(place.block.minutes / 3));
		const edit = taken === 0 ? [] : shortened(place, taken);
		edits.push(...edit);
		if (edit.length > 0) left -= taken;
	}
	if (left <= 0) yield edits;
}

/** H309: two drills that follow each other as two stations, so that fewer wait; else minutes from who waits to who moves. */
export function* besideOthers({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	const waiting = (work: BlockWork): number =>
		work.stations.reduce((sum, station) => sum + drillTime(station).waitingMinutes, 0);
	const share = (work: BlockWork): number => waiting(work) / (work.to - work.from);
	const places = placesOf(curriculum, about).sort((a, b) => waiting(b.work) - waiting(a.work));
	for (const place of places.slice(0, TRIED)) yield* sideBySide(place);
	const moving = [...places].sort((a, b) => share(a.work) - share(b.work));
	for (const still of places.slice(0, TRIED)) {
		for (const { spot, block } of moving.slice(0, 2)) {
			for (const minutes of [Math.floor(still.block.minutes / 6), Math.floor(still.block.minutes / 3)]) {
				const left = still.block.minutes - minutes;
				if (minutes < 1 || block === still.block || !leavesSome(still.block, left)) continue;
				yield [
					setFields(still.spot, { minutes: left }),
					setFields(spot, { minutes: block.minutes + minutes }),
				];
			}
		}
	}
}

/** A block of one drill and the next or the one before, both as stations of one block. */
function* sideBySide({ block, spot, others }: Place): Iterable<Edits> {
	if (block.kind !== "drill") return;
	for (const other of others) {
		const isNext = Math.abs(other.number - block.number) === 1;
		const isAlike =
			other.kind === "drill" &&
			String(other.levels) === String(block.levels) &&
			String(other.sessions) === String(block.sessions) &&
			[block, other].every((one) => one.dose === undefined && one.doses.size === 0);
		if (!isNext || !isAlike) continue;
		const pair = block.number < other.number ? [block, other] : [other, block];
		const first = { ...spot, number: Math.min(block.number, other.number) };
		const { note: _own, ...as } = block;
		const stations = pair.flatMap(({ stations, note }) =>
			stations.map(({ drill }) => ({ drill, ...(note === undefined ? {} : { note }) })),
		);
		const minutes = block.minutes + other.minutes;
		const show = block.show + other.show;
		yield [
			{ remove: nameOfSpot(first) },
			{ remove: nameOfSpot(first) },
			addAt(first, writtenBlock({ ...as, kind: "stations", stations, minutes, show, change: CHANGE })),
		];
	}
}

/** Minutes for the change between two stations that were blocks before: the format's own. */
const CHANGE = 0.5;

/** H316, H344: the minutes that its doses want, or that a turn for everybody takes, free ones or a longer block's; else a station less. */
export function* longer({ curriculum }: Counted, finding: Finding): Iterable<Edits> {
	const place = placeOfFinding(curriculum, finding);
	if (place === undefined) return;
	const { block } = place;
	const works = placesOf(curriculum, finding.about)
		.filter((one) => one.block === block)
		.map(({ work }) => work);
	const wanting = works.flatMap((work) => work.stations.map((one) => minutesWanting(work, one) ?? 0));
	yield* withMinutes(curriculum, place, block.minutes + Math.max(0, ...wanting));
	yield* withMinutes(curriculum, place, Math.max(0, ...works.map(minutesForATurn)));
	for (const number of block.stations.keys())
		yield leftOut(place, (_, at) => at === block.stations.length - number);
}

/** Whole minutes of a block in which everybody has a turn at each of its stations. */
function minutesForATurn({ block, stations }: BlockWork): number {
	const turns = stations.map(({ drill, gymnasts }) =>
		drill.turn === undefined
			? 1
			: (gymnasts * drill.turn.seconds) / (60 * Math.min(drill.turn.atOnce, gymnasts)),
	);
	const isRound = block.kind === "stations";
	const changes = isRound ? (stations.length - 1) * block.change : 0;
	return Math.ceil(block.show + changes + Math.max(...turns) * (isRound ? stations.length : 1) - 1e-9);
}

/** In every block of one cause what mends it there; nothing where one of them cannot be mended. */
function inEveryBlock(
	curriculum: Curriculum,
	all: readonly DosePlace[],
	{ drill, level }: Finding["about"],
	change: (place: Place, same: readonly [DosePlace, ...DosePlace[]]) => PlanChange | undefined,
): Edits {
	const own = all.filter(({ station }) => station.drill.id === drill && station.level === level);
	const edits = [...Map.groupBy(own, ({ block }) => block.block)].map(([{ number }, [first, ...more]]) => {
		if (first === undefined) return undefined;
		const { apparatus } = first.block;
		const place = placeAt(curriculum, { week: first.work.week, apparatus, number });
		return place && change(place, [first, ...more]);
	});
	const made = edits.filter((edit) => edit !== undefined);
	return made.length < edits.length ? [] : made;
}

/**
 * H334: every block of the cause with the minutes that its dose wants, where its classes have them; else, of
 * a block of one drill, with the sets and repetitions that fit: a dose of a block is that of all its stations.
 */
export function* thatFits({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	const extended = new Set<number>();
	yield inEveryBlock(curriculum, dosesThatDoNotFit(curriculum), about, (place, same) => {
		const { block, plan, spot } = place;
		if (block.kind === "options") return undefined;
		const wanting = Math.max(...same.map(({ block, station }) => minutesWanting(block, station) ?? 0));
		// Two blocks of a week would ask for the same minutes.
		const isFree = !extended.has(plan.week);
		if (wanting > 0 && isFree && wanting <= spareMinutes(curriculum, plan, { block })) {
			extended.add(plan.week);
			return setFields(spot, { minutes: block.minutes + wanting });
		}
		const { drill, level } = same[0].station;
		const fits = Math.min(...same.map(({ station }) => station.fits ?? 0));
		const lower = atMost(doseOf(drill, level, block), fits);
		return block.kind !== "drill" || lower === undefined
			? undefined
			: withDose(curriculum, place, level, lower);
	});
}

/** H335: in every block of one drill the hold that its turn has time for. */
export function* shorterHolds({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	yield inEveryBlock(curriculum, holdsThatDoNotFit(curriculum), about, (place, [first]) => {
		const { seconds = 0, reps = 1 } = heldInTurn(first) ?? {};
		const hold = Math.floor(seconds / reps);
		return place.block.kind !== "drill" || hold < 1
			? undefined
			: withDose(curriculum, place, first.station.level, { hold });
	});
}

/** H311, H340: a lower dose of the drill that adds most, its block in another week, or the week without it. */
export function* lighter({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	// Several groups that do the same are one finding.
	const load = groupLoads(curriculum).find(
		(one) =>
			one.week === about.week &&
			(about.group === undefined
				? one.drills.some(({ drill }) => drill === about.drill) && overOf(curriculum, one).length > 0
				: one.group.name === about.group),
	);
	if (load === undefined) return;
	const over = overOf(curriculum, load);
	const added = (station: StationWork): number =>
		over.reduce((sum, { of }) => sum + (station.drill.contacts?.[of] ?? 0) * (station.done ?? 1), 0);
	const sumOf = ({ stations }: BlockWork): number =>
		stations.reduce((sum, station) => sum + added(station), 0);
	const places = placesOf(curriculum, { week: load.week, group: load.group.name })
		.filter(({ work }) => sumOf(work) > 0)
		.sort((a, b) => sumOf(b.work) - sumOf(a.work))
		.slice(0, TRIED);
	for (const place of places) {
		const [station] = place.work.stations;
		if (station === undefined || place.block.kind !== "drill") continue;
		const fewer = Math.max(...over.map(({ of, by }) => by / (station.drill.contacts?.[of] || Number.NaN)));
		const dose = atMost(
			doseOf(station.drill, station.level, place.block),
			(station.done ?? 0) - fewer + 1e-9,
		);
		if (dose !== undefined) yield [withDose(curriculum, place, station.level, dose)];
	}
	for (const place of places) {
		yield* exchanges(curriculum, place, (week) => week !== about.week);
	}
	for (const place of places) {
		const most = Math.max(...place.work.stations.map(added));
		const numbers = place.work.stations.filter((one) => added(one) === most).map(({ station }) => station);
		yield leftOut(place, (_, number) => number === numbers[0]);
	}
}

/** By how many landings and hand contacts a week is over the club's targets. */
function overOf(
	{ targets }: Curriculum,
	load: GroupLoad,
): readonly { readonly of: "landings" | "hands"; readonly by: number }[] {
	const steps = { landings: load.landingsStep, hands: load.handsStep };
	return (["landings", "hands"] as const).flatMap((of) => {
		const step = steps[of];
		const most =
			of === "landings" ? (targets.landings ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
		const stepped =
			step === undefined || targets.loadStep === undefined
				? Number.POSITIVE_INFINITY
				: (load[of] / step) * targets.loadStep;
		const by = load[of] - Math.min(most, stepped);
		return by > 1e-9 ? [{ of, by }] : [];
	});
}

/** H341: a block with new drills in another week, or the week without it. */
export function* withFewerNew({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	const plan = curriculum.weeks.find(({ week }) => week === about.week);
	const one = curriculum.term.classes.find(({ id }) => id === about.class);
	if (plan === undefined || one === undefined) return;
	const fresh = new Set(classTime(curriculum, plan, one).newDrills);
	const freshIn = ({ block }: Place): number => block.stations.filter(({ drill }) => fresh.has(drill)).length;
	const places = placesOf(curriculum, about)
		.filter((place) => freshIn(place) > 0)
		.sort((a, b) => freshIn(b) - freshIn(a))
		.slice(0, TRIED);
	for (const place of places) {
		yield* exchanges(curriculum, place, (week) => week > plan.week);
	}
	for (const place of places) yield leftOut(place, ({ drill }) => fresh.has(drill));
}

// The hall

/** H331: a station that asks for a coach in a block of its own, the block in two, or without one of them. */
export function* withFewerCoaches({ curriculum }: Counted, finding: Finding): Iterable<Edits> {
	const place = placeOfFinding(curriculum, finding);
	const work = placesOf(curriculum, finding.about).find(({ block }) => block === place?.block)?.work;
	if (place === undefined || work === undefined) return;
	const asks = ({ drill }: StationWork): number => (drill.spotters ?? 0) + (isWatched(drill) ? 0.5 : 0);
	const order = [...work.stations].sort((a, b) => asks(b) - asks(a));
	const asking = order.filter((one) => asks(one) > 0).map(({ station }) => station);
	yield* apart(place, asking);
	yield halves(
		place,
		order.map(({ station }) => station),
	);
	for (const number of asking) yield leftOut(place, (_, at) => at === number);
}

/** H310, H317: a station that uses the item at another time, or without it. */
export function* withoutItem({ curriculum }: Counted, finding: Finding): Iterable<Edits> {
	const { equipment: item = "" } = finding.about;
	const place = placeOfFinding(curriculum, finding);
	if (place !== undefined) yield* lessOf(curriculum, place, item);
	else {
		const { week, class: one } = finding.about;
		for (const other of placesOf(curriculum, { week, class: one })) yield* lessOf(curriculum, other, item);
	}
}

/** H333: a station less that uses what is carried, or at another time. */
export function* lessToCarry({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	const { week, class: one, equipment } = about;
	const carried = setOutRows(curriculum).filter(
		(row) => row.week === week && row.class === one && row.carried.length + row.missing.length > 0,
	);
	for (const { item } of carried) {
		if (equipment !== undefined && item !== equipment) continue;
		for (const place of placesOf(curriculum, { week, class: one })) yield* lessOf(curriculum, place, item);
	}
}

function* lessOf(curriculum: Curriculum, place: Place, item: Id): Iterable<Edits> {
	const { block, others, spot } = place;
	const using = block.stations.flatMap(({ drill: id }, i) => {
		const drill = curriculum.drills.get(id);
		const manners = drill === undefined ? [] : [drill, ...drill.levels.values()];
		return manners.some(({ equipment = [] }) => equipment.some((need) => need.item === item)) ? [i + 1] : [];
	});
	if (using.length === 0) return;
	for (const other of others.slice(0, TRIED)) yield exchange(spot, { ...spot, number: other.number });
	yield* apart(place, using);
	for (const number of using) yield leftOut(place, (_, at) => at === number);
}

/** H318, H319, H320: stations where there is room, one of them on its own, or the block in two. */
export function* standingFree({ curriculum }: Counted, finding: Finding): Iterable<Edits> {
	const place = placeOfFinding(curriculum, finding);
	if (place === undefined) return;
	const { block, spot } = place;
	const without = (is: (number: number) => boolean): Edits => {
		const stations = block.stations.map((station, i) => {
			const { at: _at, landmark: _landmark, ...rest } = station;
			return is(i + 1) ? rest : station;
		});
		return [setFields(spot, writtenStations(block.kind, stations))];
	};
	const named = Number(finding.path[5]) + 1;
	if (block.stations.some(({ at }) => at !== undefined)) {
		if (Number.isFinite(named)) yield without((number) => number === named);
		yield without(() => true);
	}
	const numbers = block.stations.map((_, i) => i + 1);
	yield* apart(place, numbers);
	yield halves(place, numbers);
}

/** H336: the group's weeks without the drill. */
export function* withoutHeight({ curriculum }: Counted, { about }: Finding): Iterable<Edits> {
	const places = curriculum.weeks
		.flatMap(({ week }) => placesOf(curriculum, { week, class: about.class, group: about.group }))
		.filter(({ block }) => block.stations.some(({ drill }) => drill === about.drill))
		// The last first, so that a block taken out leaves the numbers of the others.
		.sort((a, b) => b.spot.number - a.spot.number);
	const lists = places.map((place) => leftOut(place, ({ drill }) => drill === about.drill));
	yield lists.some((list) => list.length === 0) ? [] : lists.flat();
}

/** H337: one of the two drills in another week, or the week without it. */
export function* inOtherPlaces({ curriculum }: Counted, finding: Finding): Iterable<Edits> {
	const place = placeOfFinding(curriculum, finding);
	if (place === undefined) return;
	yield* exchanges(curriculum, place, (week) => week !== place.plan.week);
	yield leftOut(place, ({ drill }) => drill === finding.about.drill);
}
