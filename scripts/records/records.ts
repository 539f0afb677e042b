/**
 * The curriculum as devices get it: records as plain data in a few files, so that a changed drill changes
 * one of them. Devices join them and make pages, tables and the search of them, by the functions that the
 * build uses.
 *
 *   write   handbook → records without what joins them (back links, plans of a drill) and without the
 *           text that each was read from. Findings are sent counted, since the words and places of each
 *           come from far; highlighted code is sent as markup, since what highlights it is large
 *   read    records → the handbook again
 *
 * Fields that hold nothing are left out, and filled in by `EMPTY_DRILL`.
 */

import { knowTeachingWeeks, type TeachingWeek, teachingWeeks } from "../compute/calendar.ts";
import { exposuresOf } from "../compute/exposures.ts";
import { rowCache, type WrittenRows } from "../figures/progression-layout.ts";
import { type Joined, join } from "../link/join-records.ts";
import type {
	Acceptance,
	ApparatusPlan,
	Area,
	Block,
	ClubEdition,
	DataPath,
	Dose,
	DoseNumbers,
	Drill,
	Exposure,
	Finding,
	Guide,
	Id,
	Landmark,
	LinkedDrill,
	Origin,
	PlanChange,
	Records,
	Source,
	Table,
	WeekPlan,
} from "../model.ts";
import type { Place } from "../place.ts";
import type { CatalogueEntry } from "../problems.ts";
import { placeOf } from "../views/finding-places.ts";
import { createMarkdown, type MarkdownOptions } from "../views/markdown.ts";
import type { Medium, Rendition } from "../views/medium.ts";
import { isStyled, type ShownHandbook, type SiteOptions } from "../views/pages.ts";
import type { Words } from "../words/words.ts";
import { type Marked, markedBody, markedTexts, renderMarked, withoutNames } from "./marked.ts";
import { inShards, shardIn, shardsFor } from "./shards.ts";

/** A file of records: its text, by a name that stays the same from edition to edition. */
export interface RecordFile {
	readonly name: string;
	readonly text: string;
}

/** What pages are made of, as it is read back. */
export interface ReadRecords {
	readonly handbook: ShownHandbook;
	readonly options: SiteOptions;
}

/** Everything but drills, weeks and guides. */
interface ClubFile extends Pick<Records, "club" | "term" | "targets">, WithMarked {
	readonly levels: readonly object[];
	readonly apparatus: readonly object[];
	readonly shapes: readonly object[];
	readonly skills: readonly object[];
	readonly equipment: readonly object[];
	readonly purposes: readonly object[];
	/** In the club's order, the file that each drill stands in: within a file they are in that order as well. */
	readonly drills: readonly number[];
	readonly options: {
		readonly kept: boolean;
		readonly printed: readonly string[];
		readonly changes: boolean;
		readonly logo?: Rendition | undefined;
		readonly leaveOut: readonly Area[];
		readonly program?: string | undefined;
	};
	/** Whether there are styles of the club's own; they are a file of the site. */
	readonly styled: boolean;
	readonly media: readonly (readonly [drill: Id, media: readonly (Medium | null)[]])[];
	/** Where things come from that a library has. */
	readonly origins: readonly (readonly [string, Origin])[];
	/** The dates of the term: what works them out is large. */
	readonly dates: readonly TeachingWeek[];
}

interface PlanFile extends WithMarked {
	readonly weeks: readonly LeanWeek[];
	readonly findings: readonly PlacedFinding[];
	/** What would mend some of them, by their position. */
	readonly mends: readonly (readonly [number, readonly PlanChange[]])[];
	readonly termMend: readonly PlanChange[];
	readonly accepted: readonly (PlacedFinding & { readonly by: Omit<Acceptance, "source" | "path"> })[];
	/** The rows of progression maps, as far as pages show them. */
	readonly rows: readonly (readonly [string, WrittenRows])[];
	/** What the findings' codes stand for. */
	readonly catalogue: Readonly<Record<string, CatalogueEntry>>;
	/** Rows of tables that pages look up; of others only the names. */
	readonly tables: readonly Table[];
}

/** A finding with its place in the club's files worked out. */
type PlacedFinding = Omit<Finding, "source" | "path"> & { readonly at: Place; readonly field: DataPath };

interface WithMarked {
	/** Texts that are not shown as they are written. */
	readonly marked?: readonly Marked[];
}

interface WithFile {
	/** Where it was read from. */
	readonly file: string;
}

/** Tables that pages look rows up in (`SiteIndex.rows`). */
const LOOKED_UP: readonly string[] = ["equipment"];

const CLUB = "club";
const PLAN = "plan";
const GUIDES = "guides";

/** What a drill has where it says nothing. */
const EMPTY_DRILL = {
	aliases: [],
	shapes: [],
	sequence: [],
	skills: [],
	after: [],
	equipment: [],
	cues: [],
	faults: [],
	media: [],
	performs: [],
	elements: [],
	ready: [],
	purpose: [],
	easier: [],
	harder: [],
	heights: new Map<string, Landmark>(),
	body: "",
} satisfies Partial<Drill>;

/**
 * The records of a handbook whose pages have been made with the same options.
 *
 * @param highlight as the pages' own Markdown has it
 */
export function recordFiles(
	handbook: ShownHandbook,
	{ kept = false, media, printed = new Set(), since, leaveOut = [], program }: SiteOptions,
	highlight: NonNullable<MarkdownOptions["highlight"]>,
): readonly RecordFile[] {
	const { curriculum } = handbook;
	const { club, term, targets, levels, apparatus, shapes, skills, equipment, drills, weeks, guides } =
		curriculum;
	const { purposes } = curriculum;
	const markdown = createMarkdown({ resolve: withoutNames(curriculum.resolve), highlight });
	/** With its texts as markup where it is needed. */
	const prepared = <T extends object & { readonly body?: string }>({ body, ...record }: T): object => {
		const marked = markedTexts(record, markdown);
		return {
			...record,
			...(body && { body: markedBody(body, markdown) }),
			...(marked.length > 0 && { marked }),
		};
	};
	const clubFile: ClubFile = {
		club,
		term,
		targets,
		levels: [...levels.values()],
		apparatus: [...apparatus.values()],
		shapes: Array.from(shapes.values(), ({ drills: _, ...shape }) => shape),
		skills: Array.from(skills.values(), ({ drills: _, leadsTo: _to, opposites: _of, ...skill }) => skill),
		equipment: Array.from(equipment.values(), ({ drills: _, ...item }) => item),
		purposes: [...purposes.values()],
		drills: [...drills.values()].map(shardIn(drills.size)),
		options: {
			kept,
			printed: [...printed],
			changes: since !== undefined,
			logo: media?.logo,
			leaveOut,
			program,
		},
		styled: isStyled(handbook),
		media: Array.from(media?.byDrill ?? [], ([id, list]) => [id, list.map((medium) => medium ?? null)]),
		origins: [...curriculum.origins],
		dates: teachingWeeks(term),
	};
	const plan: PlanFile = {
		weeks: weeks.map((week) => leanWeek({ ...week, body: markedBody(week.body, markdown) })),
		findings: handbook.findings.map(placedFinding),
		mends: Array.from(handbook.mends(), ([finding, changes]) => [
			handbook.findings.indexOf(finding),
			changes,
		]),
		termMend: handbook.termMend(),
		accepted: handbook.accepted.map(({ finding, by }) => ({ ...placedFinding(finding), by })),
		rows: rowCache.used(),
		catalogue: Object.fromEntries(
			[...handbook.findings, ...handbook.accepted.map(({ finding }) => finding)].map(({ code }) => [
				code,
				handbook.words.catalogue[code],
			]),
		),
		tables: Array.from(handbook.tables.values(), ({ name, columns, rows }) => ({
			name,
			columns,
			rows: LOOKED_UP.includes(name) ? rows : [],
		})),
	};
	return [
		{ name: CLUB, text: written(prepared(clubFile)) },
		{ name: PLAN, text: written(prepared(plan)) },
		{
			name: GUIDES,
			text: written(
				Array.from(guides.values(), (guide) => byName(prepared({ ...guide, file: guide.source.file }))),
			),
		},
		...inShards([...drills.values()]).map((own, shard) => ({
			name: `drills-${shard}`,
			text: written(own.map((drill) => byName(prepared(leanDrill(drill))))),
		})),
	];
}

/** Reads the records back, kind by kind, which makes it long. Throws where a file of them is missing. */
export function readRecords(
	textOf: (name: string) => string | undefined,
	edition: ClubEdition,
	words: Words,
): ReadRecords {
	const open = <T>(name: string): T => {
		const text = textOf(name);
		if (text === undefined) throw new Error(`the records lack ${name}`);
		return JSON.parse(text) as T;
	};
	const club = open<ClubFile>(CLUB);
	const plan = open<PlanFile>(PLAN);
	const files = Array.from({ length: shardsFor(club.drills.length) }, (_, shard) =>
		open<readonly LeanDrill[]>(`drills-${shard}`).values(),
	);
	const guides = open<readonly (Guide & WithFile & WithMarked)[]>(GUIDES);
	// Those of drills come when they are read.
	const marked = new Map([club, plan, ...guides].flatMap((one) => one.marked ?? []));
	const placed = <T>(things: readonly object[]) =>
		things.map((thing) => ({ source: sourceOf(""), path: [], ...thing })) as unknown as readonly T[];
	const records: Omit<Records, "drills"> = {
		club: club.club,
		targets: club.targets,
		term: { ...club.term, source: sourceOf("") },
		levels: placed(club.levels),
		apparatus: placed(club.apparatus),
		shapes: placed(club.shapes),
		skills: placed(club.skills),
		equipment: placed(club.equipment),
		purposes: placed(club.purposes),
		accepted: [],
		taught: [],
		words: [],
		weeks: plan.weeks.map(wholeWeek),
		guides: guides.map(({ file, marked: _, ...guide }) => ({ ...guide, source: sourceOf(file) })),
	};
	const curriculum = join(
		{
			...records,
			drills: club.drills.flatMap((file) => {
				const { value } = files[file]?.next() ?? {};
				return value === undefined ? [] : [joinedDrill(value)];
			}),
		},
		({ lean: { marked: own = [], ...lean } }) => {
			for (const [text, markup] of own) marked.set(text, markup);
			return wholeDrill(lean);
		},
		new Map(club.origins),
	);
	knowTeachingWeeks(curriculum.term, club.dates);
	rowCache.begin(plan.rows);
	let exposures: readonly Exposure[] | undefined;
	const findings = plan.findings.map(wholeFinding);
	const mends = new Map(
		plan.mends.flatMap(([at, changes]) => {
			const finding = findings[at];
			return finding === undefined ? [] : [[finding, changes] as const];
		}),
	);
	return {
		handbook: {
			curriculum,
			edition,
			style: club.styled ? "" : undefined,
			words: { ...words, catalogue: plan.catalogue as Words["catalogue"] },
			findings,
			mends: () => mends,
			termMend: () => plan.termMend,
			accepted: plan.accepted.map(({ by, ...finding }) => ({
				finding: wholeFinding(finding),
				by: { ...by, source: sourceOf(""), path: [] },
			})),
			tables: new Map(plan.tables.map((table) => [table.name, table])),
			get exposures() {
				exposures ??= exposuresOf(curriculum);
				return exposures;
			},
			markdown: renderMarked(marked, curriculum.resolve),
		},
		options: {
			kept: club.options.kept,
			printed: new Set(club.options.printed),
			changed: club.options.changes,
			leaveOut: club.options.leaveOut,
			...(club.options.program === undefined ? {} : { program: club.options.program }),
			media: {
				...(club.options.logo === undefined ? {} : { logo: club.options.logo }),
				byDrill: new Map(club.media.map(([id, list]) => [id, list.map((medium) => medium ?? undefined)])),
				problems: [],
				files: new Map(),
			},
		},
	};
}

/** JSON with maps as lists of pairs, and without what names a place in a file. */
function written(value: unknown): string {
	return JSON.stringify(value, (key, part: unknown) => {
		if (key === "source" || (key === "path" && Array.isArray(part))) return undefined;
		return part instanceof Map ? [...part] : part;
	});
}

/** Fields in the order of their names, as `inColumns` asks for. */
function byName(record: object): object {
	return Object.fromEntries(Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1)));
}

type Emptied = Exclude<keyof typeof EMPTY_DRILL, "heights">;

function placedFinding(finding: Finding): PlacedFinding {
	return { ...finding, at: placeOf(finding), field: finding.path };
}

function wholeFinding({ at, field, ...finding }: PlacedFinding): Finding {
	return { ...finding, source: sourceOf(at.file, at), path: field };
}

/** A map as JSON has it. */
type Pairs<T> = readonly (readonly [string, T])[];

type LeanDose = Omit<Dose, "heights" | "do"> & { readonly heights?: Pairs<Landmark> };

type LeanBlock = Omit<Block, "doses" | "path"> & { readonly doses: Pairs<DoseNumbers> };

type LeanWeek = Omit<WeekPlan, "source" | "apparatus"> &
	WithFile & {
		readonly apparatus: readonly (Omit<ApparatusPlan, "blocks"> & {
			readonly blocks: readonly LeanBlock[];
		})[];
	};

function leanWeek({ source, ...week }: WeekPlan): LeanWeek {
	return {
		...week,
		file: source.file,
		apparatus: week.apparatus.map((plan) => ({
			...plan,
			blocks: plan.blocks.map(({ path: _, ...block }) => ({ ...block, doses: [...block.doses] })),
		})),
	};
}

function wholeWeek({ file, ...week }: LeanWeek): WeekPlan {
	return {
		...week,
		source: sourceOf(file),
		apparatus: week.apparatus.map((plan) => ({
			...plan,
			blocks: plan.blocks.map((block, i) => ({
				...block,
				doses: new Map(block.doses),
				path: ["apparatus", plan.apparatus, "blocks", i],
			})),
		})),
	};
}

type LeanDrill = Omit<Drill, Emptied | "heights" | "levels" | "source"> &
	Partial<Pick<Drill, Emptied>> &
	WithMarked & {
		readonly levels: readonly (readonly [Id, LeanDose])[];
		/** What each of them does, by itself: text beside text compresses better. */
		readonly ways: readonly (Dose["do"] | null)[];
		readonly heights?: readonly (readonly [string, Landmark | Pairs<Landmark>])[];
		/** Left out where it follows from id and apparatus. */
		readonly file?: string;
	};

/** A drill without what joining finds, and without what is empty. */
function leanDrill(drill: LinkedDrill): object {
	const { partners: _partners, next: _next, planned: _planned, source, ...own } = drill;
	const said = Object.entries(own).filter(([, value]) => {
		if (Array.isArray(value) || typeof value === "string") return value.length > 0;
		return value instanceof Map ? value.size > 0 : value !== undefined;
	});
	const levels = [...drill.levels];
	return {
		...Object.fromEntries(said),
		levels: levels.map(([level, { do: _, ...dose }]) => [level, dose]),
		ways: levels.map(([, dose]) => dose.do ?? null),
		...(source.file === usualFile(drill) ? {} : { file: source.file }),
	};
}

/** What joining asks of a drill; the rest is read when the drill is. */
function joinedDrill(lean: LeanDrill): Joined & { readonly lean: LeanDrill } {
	const { id, title, levels, partner, after, skills, shapes, equipment } = lean;
	return {
		id,
		title,
		levels: new Map(levels),
		partner,
		after: after ?? [],
		skills: skills ?? [],
		shapes: shapes ?? [],
		equipment: equipment ?? [],
		lean,
	};
}

function wholeDrill({ file, levels, ways, heights, ...own }: LeanDrill): Drill {
	return {
		...EMPTY_DRILL,
		...own,
		levels: new Map(
			levels.map(([level, { heights: own, ...dose }], i): [Id, Dose] => [
				level,
				{ ...dose, ...(ways[i] && { do: ways[i] }), ...(own && { heights: new Map(own) }) },
			]),
		),
		heights: new Map(
			(heights ?? []).map(([what, height]) => [what, typeof height === "string" ? height : new Map(height)]),
		),
		source: sourceOf(file ?? usualFile(own)),
	};
}

function usualFile({ id, apparatus }: Pick<Drill, "id" | "apparatus">): string {
	return `content/drills/${apparatus[0]}/${id}.md`;
}

/** A file that is not there: only its name is shown, and the place of a finding. */
function sourceOf(file: string, at: Place = { file, line: 1, column: 1 }): Source {
	return { file, place: () => at, bodyPlace: () => at };
}
