/**
 * Sound data → records: hyphenated fields get their names in code, lists that may be left out become
 * empty lists, an id that YAML reads as a number becomes its text. One function for each kind; the
 * data must have passed its schema.
 */

import type {
	Acceptance,
	Apparatus,
	Block,
	ClassGroup,
	ClassReport,
	Club,
	ClubClass,
	ClubWord,
	Contacts,
	DataKind,
	DataPath,
	Dose,
	DoseNumbers,
	Drill,
	Element,
	Equipment,
	EquipmentNeed,
	Fault,
	Gate,
	Guide,
	Helper,
	Id,
	Landmark,
	Level,
	Manner,
	Phase,
	Purpose,
	Shape,
	Skill,
	SourceFile,
	Targets,
	Term,
	Turn,
	WeekPlan,
} from "../model.ts";
import { isData } from "../read/data.ts";
import type * as written from "./records.ts";

type WrittenId = string | number;

/** Minutes lost at a change of station where the block does not say. */
const USUAL_CHANGE = 0.5;

/** Minutes from one apparatus to the next where neither class nor term says. */
const USUAL_BETWEEN = 1;

export function drillFrom(file: SourceFile): Drill {
	return drillOf(file, file.data as written.Drill);
}

/**
 * What a drill says whose page has a fault: the fields that are sound. Undefined where the fields are
 * not there from which everything else about it follows.
 *
 * @param isSound whether the value at a path, and all inside it, has the form it should
 */
export function partialDrillFrom(file: SourceFile, isSound: (path: DataPath) => boolean): Drill | undefined {
	if (!isData(file.data)) return undefined;
	const sound = Object.fromEntries(Object.entries(file.data).filter(([field]) => isSound([field])));
	const data = { title: file.id, ...sound } as Partial<written.Drill> & { readonly title: string };
	const { apparatus, levels } = data;
	if (apparatus === undefined || levels === undefined) return undefined;
	return drillOf(file, { ...data, apparatus, levels });
}

function drillOf(file: SourceFile, data: written.Drill): Drill {
	return compact<Drill>({
		id: file.id,
		title: data.title,
		apparatus: ids(data.apparatus),
		levels: dosesFrom(data.levels),
		summary: data.summary,
		aliases: data.aliases ?? [],
		shapes: ids(data.shapes),
		...withoutHeights(data),
		sequence: (data.sequence ?? []).map(phaseFrom),
		// What is performed, alone or in a complex, is prepared too.
		skills: [
			...new Set([
				...ids(data.skills),
				...ids(data.performs),
				...(data.elements ?? []).flatMap(({ skill }) => (skill === undefined ? [] : [String(skill)])),
			]),
		],
		performs: ids(data.performs),
		elements: (data.elements ?? []).map(elementFrom),
		after: ids(data.after),
		ready: (data.ready ?? []).map(gateFrom),
		purpose: ids(data.purpose),
		direction: data.direction,
		partner: id(data.partner),
		sides: data.sides,
		equipment: needsFrom(data.equipment ?? {}),
		heights: new Map(
			Object.entries(data.heights ?? {}).map(([what, height]) => [
				what,
				typeof height === "string" ? height : new Map(Object.entries(height)),
			]),
		),
		easier: data.easier ?? [],
		harder: data.harder ?? [],
		cues: data.cues ?? [],
		faults: (data.faults ?? []).map(faultFrom),
		media: data.media ?? [],
		reviewed: data.reviewed,
		body: file.body,
		source: file,
	});
}

/** What a drill, or a level of it, says of how it is done; what it does not say is left out. */
function mannerFrom(data: Omit<WrittenManner, "do">): Manner {
	return compact<Manner>({
		sets: data.sets,
		reps: data.reps,
		hold: data.hold,
		holdOf: data["hold-of"],
		turn: data.turn && turnFrom(data.turn),
		contacts: data.contacts && contactsFrom(data.contacts),
		equipment: data.equipment && needsFrom(data.equipment),
		heights: data.heights && heightsFrom(data.heights),
		sequence: data.sequence?.map(phaseFrom),
		spotting: data.spotting,
		caution: data.caution,
		spotters: data.spotters,
		helpers: data.helpers?.map(helperFrom),
		watch: data.watch,
		easier: data.easier,
		harder: data.harder,
		run: data.run,
		runOut: data["run-out"],
	});
}

/** A drill's own heights may differ by level, and are read by themselves. */
function withoutHeights({ heights: _byLevel, ...data }: written.Drill): Omit<Manner, "heights"> {
	return mannerFrom(data);
}

type WrittenManner = written.Dose;

function faultFrom({ shape, ...fault }: NonNullable<written.Drill["faults"]>[number]): Fault {
	return compact<Fault>({
		see: fault.see,
		say: fault.say,
		shape: shape === undefined ? undefined : String(shape),
		angles: fault.angles,
		tilt: fault.tilt,
	});
}

function helperFrom({ step = 1, from = "side", stance, hands }: written.Helper): Helper {
	return compact<Helper>({ step, from, stance, hands });
}

function turnFrom(turn: NonNullable<WrittenManner["turn"]>): Turn {
	return compact<Turn>({ seconds: turn.seconds, atOnce: turn["at-once"] ?? 1, reps: turn.reps });
}

function contactsFrom(contacts: NonNullable<WrittenManner["contacts"]>): Contacts {
	return { landings: contacts.landings ?? 0, hands: contacts.hands ?? 0 };
}

function needsFrom(equipment: NonNullable<WrittenManner["equipment"]>): readonly EquipmentNeed[] {
	return Object.entries(equipment).map(([item, need]) =>
		typeof need === "number"
			? { item, count: need, per: "station" as const }
			: { item, count: need.count, per: need.per ?? "station" },
	);
}

function heightsFrom(heights: NonNullable<WrittenManner["heights"]>): ReadonlyMap<string, Landmark> {
	return new Map(Object.entries(heights));
}

function elementFrom(element: written.Element): Element {
	return compact<Element>({
		skill: id(element.skill),
		drill: id(element.drill),
		text: element.text,
		count: element.count ?? 1,
		turn: element.turn,
	});
}

function gateFrom(gate: NonNullable<written.Drill["ready"]>[number]): Gate {
	if (typeof gate === "string") return { text: gate };
	const drill = id(gate.drill);
	const skill = id(gate.skill);
	return {
		...(drill === undefined ? {} : { drill }),
		...(skill === undefined ? {} : { skill }),
		reps: gate.reps,
	};
}

function phaseFrom(phase: NonNullable<written.Drill["sequence"]>[number]): Phase {
	return typeof phase === "object" ? { ...phase, shape: String(phase.shape) } : { shape: String(phase) };
}

export function weekFrom(file: SourceFile): WeekPlan {
	const data = file.data as written.Week;
	return compact<WeekPlan>({
		id: file.id,
		week: data.week,
		theme: data.theme,
		keep: data.keep,
		apparatus: Object.entries(data.apparatus).map(([apparatus, plan]) =>
			compact({
				apparatus,
				focus: plan.focus,
				blocks: plan.blocks.map((block, i) => blockFrom(block, i, ["apparatus", apparatus, "blocks", i])),
			}),
		),
		body: file.body,
		source: file,
	});
}

/** What a week says whose page has a fault: the blocks that are sound. As for `partialDrillFrom`. */
export function partialWeekFrom(
	file: SourceFile,
	isSound: (path: DataPath) => boolean,
): WeekPlan | undefined {
	const { data } = file;
	if (!isData(data) || !isSound(["week"]) || typeof data.week !== "number") return undefined;
	return {
		id: file.id,
		week: data.week,
		theme: file.id,
		apparatus: Object.entries(isData(data.apparatus) ? data.apparatus : {}).map(([apparatus, plan]) => {
			const blocks: readonly unknown[] = isData(plan) && Array.isArray(plan.blocks) ? plan.blocks : [];
			return {
				apparatus,
				blocks: blocks.flatMap((block, i) => {
					const path = ["apparatus", apparatus, "blocks", i];
					return isSound(path) ? [blockFrom(block as written.Block, i, path)] : [];
				}),
			};
		}),
		body: file.body,
		source: file,
	};
}

export function blockFrom(block: written.Block, index: number, path: DataPath): Block {
	const { dose } = block;
	const forAll = dose !== undefined && isDose(dose) ? dose : undefined;
	return compact<Block>({
		number: index + 1,
		kind: block.options !== undefined ? "options" : block.stations !== undefined ? "stations" : "drill",
		stations: stationsFrom(block),
		choose: Math.min(block.choose ?? 1, block.options?.length ?? 1),
		minutes: block.minutes,
		show: block.show ?? 0,
		change: block.change ?? USUAL_CHANGE,
		levels: ids(block.levels),
		sessions: typeof block.session === "number" ? [block.session] : (block.session ?? []),
		dose: forAll,
		doses: new Map(dose === undefined || forAll !== undefined ? [] : Object.entries(dose)),
		keep: block.keep,
		note: block.note,
		path,
	});
}

function stationsFrom({ drill, stations, options }: written.Block): Block["stations"] {
	if (options !== undefined)
		return options.map((one) => compact({ drill: String(one.drill), note: one.note }));
	if (stations === undefined) return [{ drill: String(drill) }];
	return stations.map((one) =>
		compact({
			drill: String(one.drill),
			note: one.note,
			at: typeof one.at === "object" ? ([one.at[0] ?? 0, one.at[1] ?? 0] as const) : undefined,
			landmark: typeof one.at === "string" ? one.at : undefined,
		}),
	);
}

/** Whether a block's dose is one for everybody, and not a map of levels. */
function isDose(dose: NonNullable<written.Block["dose"]>): dose is DoseNumbers {
	return Object.values(dose).every((value) => typeof value === "number");
}

export function guideFrom(file: SourceFile): Guide {
	const data = file.data as written.Guide;
	return compact<Guide>({
		id: file.id,
		title: data.title,
		order: data.order,
		body: file.body,
		source: file,
	});
}

export function clubFrom(file: SourceFile): Club {
	const data = file.data as written.Club;
	return compact<Club>({
		name: data.name,
		language: data.language ?? "en",
		timezone: data.timezone ?? "UTC",
		paper: data.paper ?? "A4",
		punch: data.punch ?? "two-hole",
		site: data.site,
		contact: data.contact,
		emergency: data.emergency,
		emergencyGuide: id(data["emergency-guide"]),
		colour: data.colour,
		colourDark: data["colour-dark"],
		logo: data.logo,
		leaveOut: data["leave-out"],
		taughtSums: data["taught-sums"],
		source: file,
		place: data.place,
	});
}

export function termFrom(file: SourceFile): Term {
	const data = file.data as written.Term;
	return {
		name: data.name,
		starts: data.starts,
		weeks: data.weeks,
		closed: intervals(data.closed),
		classes: (data.classes ?? []).map((group, i): ClubClass => {
			const { ages } = group;
			const parts = group.groups ?? [];
			const whole = {
				levels: ids(group.level),
				gymnasts: group.gymnasts ?? 1,
				coaches: group.coaches,
				rotation: ids(group.rotation),
			};
			// What a class does not say of itself is what its groups are together.
			const together = {
				levels:
					group.level === undefined && parts.every((part) => part.level !== undefined)
						? [...new Set(parts.flatMap((part) => ids(part.level)))]
						: whole.levels,
				gymnasts: group.gymnasts ?? Math.max(1, sum(parts.map((part) => part.gymnasts ?? 0))),
				coaches: group.coaches ?? (sum(parts.map((part) => part.coaches ?? 0)) || undefined),
				rotation:
					group.rotation === undefined
						? [...new Set(parts.flatMap((part) => ids(part.rotation)))]
						: whole.rotation,
			};
			return compact<ClubClass>({
				id: String(group.id),
				name: group.name ?? wordsOf(String(group.id)),
				...together,
				day: group.day,
				start: group.start,
				minutes: group.minutes,
				warmUp: group["warm-up"] ?? 0,
				coolDown: group["cool-down"] ?? 0,
				between: group.between ?? data.between ?? USUAL_BETWEEN,
				ages: ages && ([ages[0] ?? 0, ages[1] ?? 0] as const),
				groups: parts.map(
					(part): ClassGroup =>
						compact<ClassGroup>({
							id: String(part.id),
							levels: part.level === undefined ? whole.levels : ids(part.level),
							gymnasts: part.gymnasts ?? whole.gymnasts,
							coaches: part.coaches ?? whole.coaches,
							rotation: part.rotation === undefined ? whole.rotation : ids(part.rotation),
						}),
				),
				sameAs: id(group["same-as"]),
				closed: group.closed === undefined ? undefined : intervals(group.closed),
				place: group.place,
				path: ["classes", i],
			});
		}),
		source: file,
	};
}

/** Days and intervals as they are written. */
function intervals(texts: readonly string[] = []): Term["closed"] {
	return texts.map((text) => {
		const [from = "", to = from] = text.split("/");
		return { from, to };
	});
}

export function targetsFrom(file: SourceFile): Targets {
	const data = file.data as written.Targets;
	return compact<Targets>({
		shapeWeeks: data["shape-weeks"],
		skillWeeks: data["skill-weeks"],
		shapeGap: data["shape-gap"],
		skillGap: data["skill-gap"],
		pairDirections: data["pair-directions"],
		activeShare: data["active-share"],
		loadStep: data["load-step"],
		reviewMonths: data["review-months"],
		skillReps: data["skill-reps"],
		ratio:
			data.ratio &&
			Object.entries(data.ratio).map(([ages, gymnasts]) => {
				const [from = 0, to = from] = ages.split("-").map(Number);
				return { ages: [from, to] as const, gymnasts };
			}),
		landings: data.landings,
		newDrills: data["new-drills"],
		arrivesWith: data["arrives-with"],
	});
}

/** The `_data` lists, each in the club's order; a file that is not given stays undefined. */
export function entriesFrom(fileOf: (kind: DataKind) => SourceFile | undefined) {
	return {
		levels: list(
			fileOf("levels"),
			(item: written.LevelsItem, entry): Level =>
				compact<Level>({ ...entry, description: item.description, entry: ids(item.entry) }),
		),
		apparatus: list(
			fileOf("apparatus"),
			(item: written.ApparatusItem, entry): Apparatus =>
				compact<Apparatus>({
					...entry,
					kind: item.kind,
					plan: item.plan && [item.plan[0] ?? 0, item.plan[1] ?? 0],
					groups: item.groups ?? 1,
					walls: item.walls ?? [],
					landmarks: (item.landmarks ?? []).map(({ name, at }) => ({ name, at: [at[0] ?? 0, at[1] ?? 0] })),
				}),
		),
		shapes: list(
			fileOf("shapes"),
			(item: written.ShapesItem, entry): Shape =>
				compact<Shape>({
					...entry,
					aliases: item.aliases ?? [],
					description: item.description,
					angles: item.angles,
					view: item.view ?? "side",
					tilt: item.tilt ?? 0,
					base: item.base ?? "feet",
				}),
		),
		skills: list(
			fileOf("skills"),
			(item: written.SkillsItem, entry): Skill =>
				compact<Skill>({
					...entry,
					aliases: item.aliases ?? [],
					description: item.description,
					apparatus: ids(item.apparatus),
					levels: ids(item.levels),
					needs: ids(item.needs),
					pattern: item.pattern,
					direction: item.direction,
					opposite: id(item.opposite),
					criteria: item.criteria ?? [],
				}),
		),
		equipment: list(
			fileOf("equipment"),
			(item: written.EquipmentItem, entry): Equipment =>
				compact<Equipment>({
					...entry,
					aliases: item.aliases ?? [],
					owned: item.owned,
					stored: item.stored,
					size: item.size && [item.size[0] ?? 1, item.size[1] ?? 1],
					height: item.height,
					range: item.range && [item.range[0] ?? 0, item.range[1] ?? 0],
					step: item.step,
					thickness: item.thickness,
					adults: item.adults ?? 1,
				}),
		),
		purposes: list(
			fileOf("purposes"),
			(item: written.PurposesItem, entry): Purpose => ({ ...entry, aliases: item.aliases ?? [] }),
		),
	};
}

export function wordsFrom(file: SourceFile): readonly ClubWord[] {
	return (file.data as readonly written.WordsItem[]).map(({ say, not, note }) =>
		compact<ClubWord>({ say, not, note }),
	);
}

/** Findings that are accepted, in the order of the file. */
export function acceptedFrom(file: SourceFile): readonly Acceptance[] {
	return (file.data as readonly written.AcceptedItem[]).map((item, i) => {
		const { week, ...ids } = item.about ?? {};
		return compact<Acceptance>({
			finding: item.finding,
			about: {
				...(week === undefined ? {} : { week }),
				...Object.fromEntries(Object.entries(ids).map(([kind, one]) => [kind, String(one)])),
			},
			reason: item.reason,
			until: item.until,
			source: file,
			path: [i],
		});
	});
}

/** What coaches reported of a week, in the order of the file. */
export function taughtFrom(file: SourceFile): readonly ClassReport[] {
	return (file.data as readonly written.TaughtItem[]).map((item, i) =>
		compact<ClassReport>({
			week: file.id,
			class: String(item.class),
			edition: item.edition,
			note: item.note,
			blocks: (item.blocks ?? []).map(({ group, apparatus, drills = [], mark: _mark, ...rest }, b) =>
				compact<ClassReport["blocks"][number]>({
					...rest,
					group: group === undefined ? undefined : String(group),
					apparatus: String(apparatus),
					drills: drills.map(String),
					path: [i, "blocks", b],
				}),
			),
			skills: (item.skills ?? []).map(({ group, skill, helped = 0, ...rest }, s) =>
				compact<ClassReport["skills"][number]>({
					...rest,
					group: group === undefined ? undefined : String(group),
					skill: String(skill),
					helped,
					path: [i, "skills", s],
				}),
			),
			source: file,
			path: [i],
		}),
	);
}

/** An id in words: level-1 → Level 1. */
export function wordsOf(text: Id): string {
	const words = text.split("-").join(" ");
	return words.charAt(0).toUpperCase() + words.slice(1);
}

type Listed = { readonly id: WrittenId; readonly name: string; readonly order?: number };
type EntryHead = {
	readonly id: Id;
	readonly name: string;
	readonly source: SourceFile;
	readonly path: DataPath;
};

function list<W extends Listed, T>(
	file: SourceFile | undefined,
	make: (item: W, entry: EntryHead) => T,
): readonly T[] | undefined {
	if (file === undefined) return undefined;
	return (file.data as readonly W[])
		.map((item, i) => ({
			order: item.order ?? i + 1,
			made: make(item, { id: String(item.id), name: item.name, source: file, path: [i] }),
		}))
		.sort((a, b) => a.order - b.order)
		.map(({ made }) => made);
}

function dosesFrom(levels: written.Drill["levels"]): ReadonlyMap<Id, Dose> {
	if (Array.isArray(levels)) return new Map(levels.map((level: WrittenId) => [String(level), {}]));
	return new Map(
		Object.entries(levels).map(([level, dose]) => [
			level,
			dose === null || dose === undefined ? {} : compact<Dose>({ do: dose.do, ...mannerFrom(dose) }),
		]),
	);
}

function ids(value: WrittenId | readonly WrittenId[] | undefined): readonly Id[] {
	if (value === undefined) return [];
	return typeof value === "object" ? value.map(String) : [String(value)];
}

function id(value: WrittenId | undefined): Id | undefined {
	return value === undefined ? undefined : String(value);
}

/** Leaves out what is undefined, so that a missing field is missing and not there with no value. */
function compact<T>(data: { readonly [K in keyof T]: T[K] | undefined }): T {
	return Object.fromEntries(Object.entries(data).filter(([, value]) => value !== undefined)) as T;
}

function sum(values: readonly number[]): number {
	return values.reduce((total, value) => total + value, 0);
}
