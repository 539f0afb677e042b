/**
 * Every page of the staff site, in one list: where it stands, what kind it is, and its view.
 *
 * The index is worked out once; a view is made when its page is written, and not kept, so that a
 * club of ten thousand drills does not hold ten thousand finished pages.
 */

import type { PlanRecord } from "../compute/plan-record.ts";
import type { Handbook } from "../handbook.ts";
import { editionNameOf, type Words } from "../words/words.ts";
import { type Address, addressOf, classSheetAddress, HOME, weekApparatusAddress } from "./addresses.ts";
import { type ApparatusListView, type ApparatusView, apparatusListView, apparatusView } from "./apparatus.ts";
import { type AuthorGuideView, authorGuideView } from "./author-guide.ts";
import { type ClassesView, type ClassView, classesView, classView } from "./class.ts";
import { COVERAGE_TABLES, type CoverageView, coverageAddress, coveragePages } from "./coverage.ts";
import { type DrillView, drillView } from "./drill.ts";
import { type DrillsView, drillsView } from "./drills.ts";
import { type EquipmentListView, type EquipmentView, equipmentListView, equipmentView } from "./equipment.ts";
import { type FindingsView, findingsView } from "./findings.ts";
import { type GuidesView, type GuideView, guidesView, guideView } from "./guide.ts";
import { type HomeView, homeView } from "./home.ts";
import { type LevelsView, type LevelView, levelsView, levelView } from "./level.ts";
import { type Link, linkTo } from "./links.ts";
import { type BalanceView, balanceView } from "./measures/balance.ts";
import { type EquipmentMeasureView, equipmentMeasureView } from "./measures/equipment.ts";
import { type HeightsView, heightsView } from "./measures/heights.ts";
import { type LoadView, loadView } from "./measures/load.ts";
import { type MeasureId, type MeasuresView, measureAddress, measuresView } from "./measures/measure-page.ts";
import { type OrderView, orderView } from "./measures/order.ts";
import { type SpacingView, spacingView } from "./measures/spacing.ts";
import { type TimeView, timeView } from "./measures/time.ts";
import { NO_MEDIA, type PreparedMedia } from "./medium.ts";
import { previewOf } from "./previews.ts";
import { type SearchView, searchView } from "./search.ts";
import { type ShapesView, type ShapeView, shapesView, shapeView } from "./shape.ts";
import { indexSite, type SiteIndex } from "./site-index.ts";
import { type SkillsView, type SkillView, skillsView, skillView } from "./skill.ts";
import { type BinderFile, type TermView, termPages } from "./term.ts";
import {
	type ClassSheetView,
	classSheetView,
	type WeekApparatusView,
	type WeekView,
	weekApparatusView,
	weekView,
} from "./week.ts";
import { type WhatChangedView, whatChangedView } from "./what-changed.ts";

/** What each kind of page shows. */
export interface Views {
	readonly home: HomeView;
	readonly calendar: HomeView;
	readonly week: WeekView;
	readonly "week-apparatus": WeekApparatusView;
	readonly classes: ClassesView;
	readonly class: ClassView;
	readonly "class-sheet": ClassSheetView;
	readonly drills: DrillsView;
	readonly drill: DrillView;
	readonly shapes: ShapesView;
	readonly shape: ShapeView;
	readonly skills: SkillsView;
	readonly skill: SkillView;
	readonly levels: LevelsView;
	readonly level: LevelView;
	readonly "apparatus-list": ApparatusListView;
	readonly apparatus: ApparatusView;
	readonly "equipment-list": EquipmentListView;
	readonly equipment: EquipmentView;
	readonly "coverage-list": CoverageListView;
	readonly coverage: CoverageView;
	readonly findings: FindingsView;
	readonly term: TermView;
	readonly measures: MeasuresView;
	readonly "measure-spacing": SpacingView;
	readonly "measure-order": OrderView;
	readonly "measure-balance": BalanceView;
	readonly "measure-time": TimeView;
	readonly "measure-equipment": EquipmentMeasureView;
	readonly "measure-load": LoadView;
	readonly "measure-heights": HeightsView;
	readonly guides: GuidesView;
	readonly guide: GuideView;
	readonly "author-guide": AuthorGuideView;
	readonly about: AboutView;
	readonly search: SearchView;
	readonly "what-changed": WhatChangedView;
	readonly "not-found": NotFoundView;
}

export type SitePageKind = keyof Views;

export interface CoverageListView {
	readonly tables: readonly { readonly link: Link; readonly question: string }[];
	readonly files: readonly Link[];
}

export interface AboutView {
	readonly club: string;
	readonly contact: string | undefined;
	readonly emergency: string | undefined;
	/** Its number and day. */
	readonly edition: string;
	readonly findings: number;
	readonly binder: BinderFile | undefined;
}

export interface NotFoundView {
	readonly places: readonly Link[];
}

/** One page. `address` is its folder's path from the root, ending in a slash, or a file's path. */
export interface PageOf<K extends SitePageKind> {
	readonly address: Address;
	readonly kind: K;
	readonly title: string;
	/** One sentence for the page's head. */
	readonly description: string | undefined;
	/** The pages above it, home left out. */
	readonly crumbs: readonly Link[];
	/** The picture that a link to it is shown with, from the root of the site. */
	readonly picture: string | undefined;
	/** Made anew each time it is asked for. */
	readonly view: Views[K];
	readonly frame: FrameFacts;
}

export type SitePage = { readonly [K in SitePageKind]: PageOf<K> }[SitePageKind];

/** A page that works out its view, and its description, when it is asked for them. */
class Page<K extends SitePageKind> implements PageOf<K> {
	readonly kind: K;
	readonly address: Address;
	readonly title: string;
	readonly crumbs: readonly Link[];
	readonly picture: string | undefined;
	readonly frame: FrameFacts;
	readonly #description: Described;
	readonly #view: () => Views[K];

	constructor(
		kind: K,
		address: Address,
		title: string,
		description: Described,
		crumbs: readonly Link[],
		picture: string | undefined,
		frame: FrameFacts,
		view: () => Views[K],
	) {
		this.kind = kind;
		this.address = address;
		this.title = title;
		this.crumbs = crumbs;
		this.picture = picture;
		this.frame = frame;
		this.#description = description;
		this.#view = view;
	}

	get description(): string | undefined {
		return typeof this.#description === "function" ? this.#description() : this.#description;
	}

	get view(): Views[K] {
		return this.#view();
	}
}

/** A sentence, or what works it out. */
type Described = string | undefined | (() => string | undefined);

/** What the frame of every page says of the club. */
export interface FrameFacts {
	readonly club: string;
	readonly term: string;
	readonly language: string;
	readonly words: Words;
	readonly contact: string | undefined;
	/** What to do first when somebody is hurt, and the guide that says more; undefined where the club says nothing. */
	readonly emergency: { readonly words: string; readonly guide: Link | undefined } | undefined;
	/** The path of the site on its host, for the page that stands at any address. */
	readonly root: string;
	/** The site's address, ending in a slash, where the club says it. */
	readonly site: string | undefined;
	/** Whether the site can be kept on a device; a preview cannot. */
	readonly kept: boolean;
	/** Printed sheets that can be linked to, as files from the root of the site. */
	readonly printed: ReadonlySet<string>;
	/** The page that says what changed, where there is one. */
	readonly changes: string | undefined;
}

/** What pages show of a handbook: everything but the folder that it was read from. */
export type ShownHandbook = Omit<Handbook, "clubDir" | "fingerprint">;

export interface SiteOptions {
	/** Whether a worker is written that keeps the site on the reader's device. */
	readonly kept?: boolean;
	/** An earlier plan: with it, a page says what changed since. */
	readonly since?: PlanRecord;
	/** Whether there is such a page, where it is not made here. */
	readonly changed?: boolean;
	/** Pictures and videos as they are served; without them pages show none. */
	readonly media?: PreparedMedia;
	/** Printed sheets that stand beside the site, as files from its root. */
	readonly printed?: ReadonlySet<string>;
	/** The binder, where it is one of them. */
	readonly binder?: BinderFile;
}

const NOTHING_PRINTED: ReadonlySet<string> = new Set();

/** What the frame says, for all pages alike. */
function frameFacts(
	handbook: Pick<Handbook, "curriculum" | "words">,
	{ kept = false, since, changed = since !== undefined, printed = NOTHING_PRINTED }: SiteOptions = {},
): FrameFacts {
	const { club, term } = handbook.curriculum;
	return {
		club: club.name,
		term: term.name,
		language: club.language,
		words: handbook.words,
		contact: club.contact,
		emergency:
			club.emergency === undefined ? undefined : { words: club.emergency, guide: emergencyGuide(handbook) },
		root: club.site === undefined ? "/" : new URL(".", club.site).pathname,
		site: club.site === undefined ? undefined : new URL(".", club.site).href,
		kept,
		printed,
		changes: changed ? WHAT_CHANGED : undefined,
	};
}

function emergencyGuide({ curriculum }: Pick<Handbook, "curriculum">): Link | undefined {
	const id = curriculum.club.emergencyGuide;
	return id === undefined ? undefined : linkTo(curriculum, "guide", id);
}

/** The pages of a handbook, home first. Addresses are distinct because ids are. */
export function sitePages(
	handbook: ShownHandbook,
	{ media = NO_MEDIA, ...options }: SiteOptions = {},
): readonly SitePage[] {
	const site = indexSite(handbook, media);
	const { curriculum, words } = site;
	const names = words.destinations;
	const { club, term, weeks } = curriculum;
	const frame = frameFacts(handbook, options);
	const { since, binder } = options;
	const plain = (text: string | undefined) => () =>
		text === undefined ? undefined : handbook.markdown.plain(text);

	const pages: SitePage[] = [];
	const add = <K extends SitePageKind>(
		kind: K,
		address: Address,
		title: string,
		view: () => Views[K],
		crumbs: readonly Link[] = [],
		description?: Described,
		picture?: string,
	) => {
		// Each kind is built with its own view; the union cannot follow that through a type parameter.
		pages.push(
			new Page(kind, address, title, description, crumbs, picture, frame, view) as unknown as SitePage,
		);
	};

	add("home", HOME, club.name, () => homeView(site, HOME));
	add("calendar", "weeks/", words.calendar.title, () => homeView(site, "weeks/"));
	const inWeeks: Link = { to: "weeks/", name: names.weeks };
	for (const week of weeks) {
		const address = addressOf({ kind: "week", id: week.id });
		const here: Link = { to: address, name: words.week(week.week) };
		const theme = handbook.markdown.plain(week.theme);
		add("week", address, `${words.week(week.week)}: ${theme}`, () => weekView(site, week), [inWeeks], theme);
		for (const plan of week.apparatus) {
			const { name } = linkTo(curriculum, "apparatus", plan.apparatus);
			add(
				"week-apparatus",
				weekApparatusAddress(week.id, plan.apparatus),
				`${name}, ${words.ofWeek(week.week)}`,
				() => weekApparatusView(site, week, plan),
				[inWeeks, here],
				plain(plan.focus),
			);
		}
	}

	add("classes", "classes/", names.classes, () => classesView(site));
	for (const group of term.classes) {
		const inClasses: Link = { to: "classes/", name: names.classes };
		const here: Link = { to: `classes/${group.id}/`, name: group.name };
		add("class", here.to, group.name, () => classView(site, group), [inClasses]);
		for (const week of weeks) {
			const title = `${group.name}, ${words.ofWeek(week.week)}`;
			add(
				"class-sheet",
				classSheetAddress(group.id, week.id),
				title,
				() => classSheetView(site, week, group),
				[inClasses, here],
				plain(week.theme),
			);
		}
	}

	add("drills", "drills/", names.drills, () => drillsView(site));
	for (const drill of curriculum.drills.values()) {
		const first = drill.apparatus[0];
		const crumbs: Link[] = [{ to: "drills/", name: names.drills }];
		if (first !== undefined) crumbs.push(linkTo(curriculum, "apparatus", first));
		const address = addressOf({ kind: "drill", id: drill.id });
		const picture = previewOf([...drill.shapes, ...drill.sequence.map(({ shape }) => shape)], curriculum);
		add("drill", address, drill.title, () => drillView(site, drill), crumbs, plain(drill.summary), picture);
	}
	addThings(site, add);
	addCoverage(site, add);
	addMeasures(site, add, binder);

	add("findings", "findings/", names.findings, () => findingsView(site));
	add("guides", "guides/", names.guides, () => guidesView(site));
	for (const guide of curriculum.guides.values()) {
		const crumbs = [{ to: "guides/", name: names.guides }];
		add(
			"guide",
			addressOf({ kind: "guide", id: guide.id }),
			guide.title,
			() => guideView(site, guide),
			crumbs,
		);
	}
	add("author-guide", "author-guide/", names.authorGuide, () => authorGuideView(words));
	add("about", "about/", words.about.title, () => ({
		club: club.name,
		contact: club.contact,
		emergency: club.emergency,
		edition: editionNameOf(handbook),
		findings: handbook.findings.length,
		binder,
	}));
	if (since !== undefined) {
		add("what-changed", WHAT_CHANGED, words.whatChanged.title, () => whatChangedView(site, since));
	}
	add("search", "search/", names.search, () => searchView(site));
	add("not-found", "404.html", words.notFound.page, () => ({
		places: [
			{ to: HOME, name: names.thisWeek },
			{ to: "drills/", name: words.notFound.drills },
			{ to: "search/", name: names.search },
		],
	}));
	return pages;
}

/** Where the page stands that says what changed. */
const WHAT_CHANGED = "what-changed/";

type Add = <K extends SitePageKind>(
	kind: K,
	address: Address,
	title: string,
	view: () => Views[K],
	crumbs?: readonly Link[],
	description?: Described,
	picture?: string,
) => void;

function addThings(site: SiteIndex, add: Add): void {
	const { curriculum, handbook, words } = site;
	const names = words.destinations;
	const plain = (text: string | undefined) => () =>
		text === undefined ? undefined : handbook.markdown.plain(text);
	add("shapes", "shapes/", words.shapes.title, () => shapesView(site));
	for (const shape of curriculum.shapes.values()) {
		const address = addressOf({ kind: "shape", id: shape.id });
		const crumbs = [{ to: "shapes/", name: words.shapes.title }];
		const picture = previewOf([shape.id], curriculum);
		const view = () => shapeView(site, shape);
		add("shape", address, shape.name, view, crumbs, plain(shape.description), picture);
	}
	add("skills", "skills/", names.skills, () => skillsView(site));
	for (const skill of curriculum.skills.values()) {
		const address = addressOf({ kind: "skill", id: skill.id });
		const crumbs = [{ to: "skills/", name: names.skills }];
		add("skill", address, skill.name, () => skillView(site, skill), crumbs, plain(skill.description));
	}
	add("levels", "levels/", names.levels, () => levelsView(site));
	for (const level of curriculum.levels.values()) {
		const address = addressOf({ kind: "level", id: level.id });
		const crumbs = [{ to: "levels/", name: names.levels }];
		add("level", address, level.name, () => levelView(site, level), crumbs, plain(level.description));
	}
	const places = [...curriculum.apparatus.values()].some(({ kind }) => kind === "area")
		? words.apparatusPage.withAreas
		: names.apparatus;
	add("apparatus-list", "apparatus/", places, () => apparatusListView(site));
	for (const apparatus of curriculum.apparatus.values()) {
		const address = addressOf({ kind: "apparatus", id: apparatus.id });
		const crumbs = [{ to: "apparatus/", name: places }];
		add("apparatus", address, apparatus.name, () => apparatusView(site, apparatus), crumbs);
	}
	add("equipment-list", "equipment/", names.equipment, () => equipmentListView(site));
	for (const item of curriculum.equipment.values()) {
		const address = addressOf({ kind: "equipment", id: item.id });
		add("equipment", address, item.name, () => equipmentView(site, item), [
			{ to: "equipment/", name: names.equipment },
		]);
	}
}

function addMeasures(site: SiteIndex, add: Add, binder: BinderFile | undefined): void {
	const { words } = site;
	for (const { address, title, description, crumbs, view } of termPages(site, binder))
		add("term", address, title, view, crumbs, description);
	const top: Link = { to: "measures/", name: words.destinations.measures };
	add("measures", top.to, top.name, () => measuresView(site));
	const one = <K extends MeasureId>(id: K, view: () => Views[`measure-${K}`]) =>
		add(
			`measure-${id}`,
			measureAddress(id),
			words.measures[id].title,
			view,
			[top],
			words.measures[id].question,
		);
	one("spacing", () => spacingView(site));
	one("order", () => orderView(site));
	one("balance", () => balanceView(site));
	one("time", () => timeView(site));
	one("equipment", () => equipmentMeasureView(site));
	one("load", () => loadView(site));
	one("heights", () => heightsView(site));
}

function addCoverage(site: SiteIndex, add: Add): void {
	const { words } = site;
	const top: Link = { to: "coverage/", name: words.destinations.coverage };
	add("coverage-list", top.to, top.name, () => ({
		tables: COVERAGE_TABLES.map((table) => ({
			link: { to: coverageAddress(table), name: words.coverage.tables[table.id].title },
			question: words.coverage.tables[table.id].question,
		})),
		files: [...site.handbook.tables.keys()].map((name) => ({ to: `data/${name}.csv`, name: `${name}.csv` })),
	}));
	for (const table of COVERAGE_TABLES)
		for (const { address, title, question, crumbs, view } of coveragePages(site, table))
			add("coverage", address, title, view, crumbs, question);
}
