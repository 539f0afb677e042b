/**
 * The kinds of pages: each with its address, its view and the function that writes it. Whatever is made
 * of all pages (the build, the preview, the program of devices) goes by this list.
 */

import type { Curriculum, Entry, Id, LinkedDrill } from "../../scripts/model.ts";
import {
	addressOf,
	classSheetAddress,
	HOME,
	TAUGHT,
	TAUGHT_SUMS,
	weekApparatusAddress,
} from "../../scripts/views/addresses.ts";
import { apparatusListView, apparatusView } from "../../scripts/views/apparatus.ts";
import { authorGuideView } from "../../scripts/views/author-guide.ts";
import { classesView, classView } from "../../scripts/views/class.ts";
import { COVERAGE_TABLES, coveragePages } from "../../scripts/views/coverage.ts";
import { drillView } from "../../scripts/views/drill.ts";
import { drillsView } from "../../scripts/views/drills.ts";
import { equipmentListView, equipmentView } from "../../scripts/views/equipment.ts";
import { findingsView } from "../../scripts/views/findings.ts";
import { guidesView, guideView } from "../../scripts/views/guide.ts";
import { homeView } from "../../scripts/views/home.ts";
import type { Html } from "../../scripts/views/html.ts";
import { levelsView, levelView } from "../../scripts/views/level.ts";
import { type Link, linkTo, type NamedKind } from "../../scripts/views/links.ts";
import { balanceView } from "../../scripts/views/measures/balance.ts";
import { equipmentMeasureView } from "../../scripts/views/measures/equipment.ts";
import { heightsView } from "../../scripts/views/measures/heights.ts";
import { loadView } from "../../scripts/views/measures/load.ts";
import { type MeasureId, measureAddress, measuresView } from "../../scripts/views/measures/measure-page.ts";
import { orderView } from "../../scripts/views/measures/order.ts";
import { spacingView } from "../../scripts/views/measures/spacing.ts";
import { timeView } from "../../scripts/views/measures/time.ts";
import {
	aboutView,
	coverageListView,
	type KindFacts,
	notFoundView,
	type PageFacts,
	type SiteOptions,
	WHAT_CHANGED,
} from "../../scripts/views/pages.ts";
import { previewOf } from "../../scripts/views/previews.ts";
import { searchView } from "../../scripts/views/search.ts";
import { shapesView, shapeView } from "../../scripts/views/shape.ts";
import type { SiteIndex } from "../../scripts/views/site-index.ts";
import { skillsView, skillView } from "../../scripts/views/skill.ts";
import { taughtSumsView, taughtView } from "../../scripts/views/taught-view.ts";
import { termPages } from "../../scripts/views/term.ts";
import { classSheetView, weekApparatusView, weekView } from "../../scripts/views/week.ts";
import { whatChangedView } from "../../scripts/views/what-changed.ts";
import type { Words } from "../../scripts/words/words.ts";
import type { PageContext } from "../parts/page.ts";
import { aboutPage } from "./about.ts";
import { apparatusPage } from "./apparatus.ts";
import { apparatusListPage } from "./apparatus-list.ts";
import { authorGuidePage } from "./author-guide.ts";
import { calendarPage } from "./calendar.ts";
import { classPage } from "./class.ts";
import { classSheetPage } from "./class-sheet.ts";
import { classesPage } from "./classes.ts";
import { coveragePage } from "./coverage.ts";
import { coverageListPage } from "./coverage-list.ts";
import { drillPage } from "./drill.ts";
import { drillsPage } from "./drills.ts";
import { equipmentPage } from "./equipment.ts";
import { equipmentListPage } from "./equipment-list.ts";
import { findingsPage } from "./findings.ts";
import { guidePage } from "./guide.ts";
import { guidesPage } from "./guides.ts";
import { homePage } from "./home.ts";
import { levelPage } from "./level.ts";
import { levelsPage } from "./levels.ts";
import { balancePage } from "./measures/balance.ts";
import { equipmentMeasurePage } from "./measures/equipment.ts";
import { heightsPage } from "./measures/heights.ts";
import { loadPage } from "./measures/load.ts";
import { measuresPage } from "./measures/measures.ts";
import { orderPage } from "./measures/order.ts";
import { spacingPage } from "./measures/spacing.ts";
import { timePage } from "./measures/time.ts";
import { notFoundPage } from "./not-found.ts";
import { searchPage } from "./search.ts";
import { shapePage } from "./shape.ts";
import { shapesPage } from "./shapes.ts";
import { skillPage } from "./skill.ts";
import { skillsPage } from "./skills.ts";
import { taughtPage, taughtSumsPage } from "./taught-page.ts";
import { termPage } from "./term.ts";
import { weekPage } from "./week.ts";
import { weekApparatusPage } from "./week-apparatus.ts";
import { whatChangedPage } from "./what-changed.ts";

/** A page of a kind, which works out its view each time it is written, and keeps none. */
interface PageOf<V> extends PageFacts {
	readonly view: () => V;
}

interface KindOf<V> extends KindFacts {
	/** All of them, or no more than the one of a file: a device does not list a thousand drills for one. */
	readonly pages: (site: SiteIndex, options: SiteOptions, file?: string) => readonly PageOf<V>[];
	readonly write: (ctx: PageContext, view: V) => Html;
}

/** A kind whose pages write themselves. */
export interface Kind extends KindFacts {
	readonly pages: (site: SiteIndex, options: SiteOptions, file?: string) => readonly WrittenPage[];
}

export interface WrittenPage extends PageFacts {
	readonly main: (ctx: PageContext) => Html;
}

function kind<V>({ pages, write, ...facts }: KindOf<V>): Kind {
	return {
		...facts,
		pages: (site, options, file) =>
			pages(site, options, file).map(({ view, ...page }) => ({ ...page, main: (ctx) => write(ctx, view()) })),
	};
}

/** A page that there is one of. */
function one<V>(
	address: string,
	title: (words: Words, site: SiteIndex) => string,
	view: (site: SiteIndex, options: SiteOptions) => V,
): KindOf<V>["pages"] {
	return (site, options) => [{ address, title: title(site.words, site), view: () => view(site, options) }];
}

/** The page of a measure. */
function measure<V>(
	id: MeasureId,
	view: (site: SiteIndex) => V,
	write: (ctx: PageContext, view: V) => Html,
): Kind {
	return kind({
		under: "measures",
		pages: (site) => {
			const { title, question } = site.words.measures[id];
			const crumbs = [above("measures/", "measures")(site)];
			return [
				{ address: measureAddress(id), title, crumbs, description: () => question, view: () => view(site) },
			];
		},
		write,
	});
}

function above(to: string, name: keyof Words["destinations"]): (site: SiteIndex) => Link {
	return ({ words }) => ({ to, name: words.destinations[name] });
}

const inWeeks = above("weeks/", "weeks");
const inClasses = above("classes/", "classes");

/** A club's text as a description: in plain words. */
function plain({ handbook }: SiteIndex, text: string | undefined): () => string | undefined {
	return () => (text === undefined ? undefined : handbook.markdown.plain(text));
}

/** What the list of apparatus is called. */
function places({ curriculum, words }: SiteIndex): string {
	return [...curriculum.apparatus.values()].some(({ kind: what }) => what === "area")
		? words.apparatusPage.withAreas
		: words.destinations.apparatus;
}

/** All drills, or the one whose page stands in a file. */
function drillsAt({ drills }: Curriculum, file: string | undefined): readonly LinkedDrill[] {
	if (file === undefined) return [...drills.values()];
	const drill = drills.get(file.split("/")[1] ?? "");
	return drill === undefined || !file.startsWith("drills/") ? [] : [drill];
}

/** A page for each of the club's shapes, skills and so on. */
function each<T extends Entry & { readonly description?: string }, V>(
	name: NamedKind,
	things: (curriculum: Curriculum) => ReadonlyMap<Id, T>,
	top: (site: SiteIndex) => Link,
	view: (site: SiteIndex, thing: T) => V,
): KindOf<V>["pages"] {
	return (site) =>
		Array.from(things(site.curriculum).values(), (thing) => ({
			address: addressOf({ kind: name, id: thing.id }),
			title: thing.name,
			crumbs: [top(site)],
			description: plain(site, thing.description),
			origin: site.curriculum.origins.get(`${name}:${thing.id}`),
			written: () => thing.source.place(thing.path),
			view: () => view(site, thing),
		}));
}

export const KINDS = {
	home: kind({
		under: "thisWeek",
		scripts: ["todays-sheets", "this-week", "unsent-reports"],
		firstPaint: true,
		pages: one(
			HOME,
			(_, { curriculum }) => curriculum.club.name,
			(site) => homeView(site, HOME),
		),
		write: homePage,
	}),
	calendar: kind({
		under: "weeks",
		scripts: ["this-week"],
		pages: (site) => [
			{
				address: "weeks/",
				title: site.words.calendar.title,
				written: () => site.curriculum.term.source.place([]),
				view: () => homeView(site, "weeks/"),
			},
		],
		write: calendarPage,
	}),
	week: kind({
		under: "weeks",
		pages: (site) =>
			site.curriculum.weeks.map((week) => {
				const theme = site.handbook.markdown.plain(week.theme);
				return {
					address: addressOf({ kind: "week", id: week.id }),
					title: `${site.words.week(week.week)}: ${theme}`,
					crumbs: [inWeeks(site)],
					description: () => theme,
					written: () => week.source.place([]),
					view: () => weekView(site, week),
				};
			}),
		write: weekPage,
	}),
	"week-apparatus": kind({
		under: "weeks",
		styles: ["pictures"],
		pages: (site) =>
			site.curriculum.weeks.flatMap((week) => {
				const here = { to: addressOf({ kind: "week", id: week.id }), name: site.words.week(week.week) };
				return week.apparatus.map((plan) => ({
					address: weekApparatusAddress(week.id, plan.apparatus),
					title: `${linkTo(site.curriculum, "apparatus", plan.apparatus).name}, ${site.words.ofWeek(week.week)}`,
					crumbs: [inWeeks(site), here],
					description: plain(site, plan.focus),
					written: () => week.source.place(["apparatus", plan.apparatus], "key"),
					view: () => weekApparatusView(site, week, plan),
				}));
			}),
		write: weekApparatusPage,
	}),
	classes: kind({
		under: "classes",
		scripts: ["this-week"],
		pages: (site) => [
			{
				address: "classes/",
				title: site.words.destinations.classes,
				written: () => site.curriculum.term.source.place([]),
				view: () => classesView(site),
			},
		],
		write: classesPage,
	}),
	class: kind({
		under: "classes",
		scripts: ["todays-sheets", "this-week"],
		firstPaint: true,
		pages: (site) =>
			site.curriculum.term.classes.map((group) => ({
				address: `classes/${group.id}/`,
				title: group.name,
				crumbs: [inClasses(site)],
				written: () => site.curriculum.term.source.place(group.path),
				view: () => classView(site, group),
			})),
		write: classPage,
	}),
	"class-sheet": kind({
		under: "classes",
		styles: ["hall"],
		scripts: ["class-clock", "class-hall"],
		pages: (site) =>
			site.curriculum.term.classes.flatMap((group) =>
				site.curriculum.weeks.map((week) => ({
					address: classSheetAddress(group.id, week.id),
					title: `${group.name}, ${site.words.ofWeek(week.week)}`,
					crumbs: [inClasses(site), { to: `classes/${group.id}/`, name: group.name }],
					description: plain(site, week.theme),
					written: () => week.source.place([]),
					view: () => classSheetView(site, week, group),
				})),
			),
		write: classSheetPage,
	}),
	drills: kind({
		under: "drills",
		pages: one("drills/", ({ destinations }) => destinations.drills, drillsView),
		write: drillsPage,
	}),
	drill: kind({
		under: "drills",
		styles: ["pictures"],
		scripts: ["motion"],
		pages: (site, _, file) =>
			drillsAt(site.curriculum, file).map((drill) => {
				const [first] = drill.apparatus;
				const top = above("drills/", "drills")(site);
				const shapes = [...drill.shapes, ...drill.sequence.map(({ shape }) => shape)];
				return {
					address: addressOf({ kind: "drill", id: drill.id }),
					title: drill.title,
					crumbs: first === undefined ? [top] : [top, linkTo(site.curriculum, "apparatus", first)],
					description: plain(site, drill.summary),
					origin: site.curriculum.origins.get(`drill:${drill.id}`),
					picture: previewOf(shapes, site.curriculum),
					written: () => drill.source.place([]),
					view: () => drillView(site, drill),
				};
			}),
		write: drillPage,
	}),
	shapes: kind({
		under: "shapes",
		pages: one("shapes/", ({ shapes }) => shapes.title, shapesView),
		write: shapesPage,
	}),
	shape: kind({
		under: "shapes",
		pages: (site) =>
			Array.from(site.curriculum.shapes.values(), (shape) => ({
				address: addressOf({ kind: "shape", id: shape.id }),
				title: shape.name,
				crumbs: [{ to: "shapes/", name: site.words.shapes.title }],
				description: plain(site, shape.description),
				origin: site.curriculum.origins.get(`shape:${shape.id}`),
				picture: previewOf([shape.id], site.curriculum),
				written: () => shape.source.place(shape.path),
				view: () => shapeView(site, shape),
			})),
		write: shapePage,
	}),
	skills: kind({
		under: "skills",
		pages: one("skills/", ({ destinations }) => destinations.skills, skillsView),
		write: skillsPage,
	}),
	skill: kind({
		under: "skills",
		pages: each("skill", ({ skills }) => skills, above("skills/", "skills"), skillView),
		write: skillPage,
	}),
	levels: kind({
		under: "levels",
		pages: one("levels/", ({ destinations }) => destinations.levels, levelsView),
		write: levelsPage,
	}),
	level: kind({
		under: "levels",
		pages: each("level", ({ levels }) => levels, above("levels/", "levels"), levelView),
		write: levelPage,
	}),
	"apparatus-list": kind({
		under: "apparatus",
		pages: one("apparatus/", (_, site) => places(site), apparatusListView),
		write: apparatusListPage,
	}),
	apparatus: kind({
		under: "apparatus",
		scripts: ["this-week"],
		pages: each(
			"apparatus",
			({ apparatus }) => apparatus,
			(site) => ({ to: "apparatus/", name: places(site) }),
			apparatusView,
		),
		write: apparatusPage,
	}),
	"equipment-list": kind({
		under: "equipment",
		pages: one("equipment/", ({ destinations }) => destinations.equipment, equipmentListView),
		write: equipmentListPage,
	}),
	equipment: kind({
		under: "equipment",
		pages: each("equipment", ({ equipment }) => equipment, above("equipment/", "equipment"), equipmentView),
		write: equipmentPage,
	}),
	"coverage-list": kind({
		under: "coverage",
		pages: one("coverage/", ({ destinations }) => destinations.coverage, coverageListView),
		write: coverageListPage,
	}),
	coverage: kind({
		under: "coverage",
		styles: ["coverage"],
		scripts: ["coverage-cells"],
		pages: (site) => COVERAGE_TABLES.flatMap((table) => coveragePages(site, table)),
		write: coveragePage,
	}),
	term: kind({
		under: "termOverview",
		pages: (site, { binder }) => termPages(site, binder),
		write: termPage,
	}),
	measures: kind({
		under: "measures",
		pages: one("measures/", ({ destinations }) => destinations.measures, measuresView),
		write: measuresPage,
	}),
	"measure-spacing": measure("spacing", spacingView, spacingPage),
	"measure-order": measure("order", orderView, orderPage),
	"measure-balance": measure("balance", balanceView, balancePage),
	"measure-time": measure("time", timeView, timePage),
	"measure-equipment": measure("equipment", equipmentMeasureView, equipmentMeasurePage),
	"measure-load": measure("load", loadView, loadPage),
	"measure-heights": measure("heights", heightsView, heightsPage),
	taught: kind({
		under: "measures",
		readyMade: true,
		pages: (site) =>
			site.curriculum.taught.length === 0
				? []
				: [
						{
							address: TAUGHT,
							title: site.words.taughtPage.title,
							crumbs: [above("measures/", "measures")(site)],
							view: () => taughtView(site),
						},
					],
		write: taughtPage,
	}),
	"taught-sums": kind({
		under: "safety",
		readyMade: true,
		pages: (site) =>
			site.curriculum.club.taughtSums === true
				? [
						{
							address: TAUGHT_SUMS,
							title: site.words.about.sums.title,
							crumbs: [above("about/", "safety")(site)],
							view: () => taughtSumsView(site),
						},
					]
				: [],
		write: taughtSumsPage,
	}),
	findings: kind({
		under: "findings",
		scripts: ["copy-text"],
		pages: one("findings/", ({ destinations }) => destinations.findings, findingsView),
		write: findingsPage,
	}),
	guides: kind({
		under: "guides",
		pages: one("guides/", ({ destinations }) => destinations.guides, guidesView),
		write: guidesPage,
	}),
	guide: kind({
		under: "guides",
		pages: (site) =>
			Array.from(site.curriculum.guides.values(), (guide) => ({
				address: addressOf({ kind: "guide", id: guide.id }),
				title: guide.title,
				crumbs: [above("guides/", "guides")(site)],
				written: () => guide.source.place([]),
				view: () => guideView(site, guide),
			})),
		write: guidePage,
	}),
	"author-guide": kind({
		under: "authorGuide",
		readyMade: true,
		pages: one(
			"author-guide/",
			({ destinations }) => destinations.authorGuide,
			({ words }) => authorGuideView(words),
		),
		write: authorGuidePage,
	}),
	about: kind({
		under: "safety",
		pages: one("about/", ({ about }) => about.title, aboutView),
		write: aboutPage,
	}),
	"what-changed": kind({
		under: "safety",
		readyMade: true,
		pages: (site, { since }) =>
			since === undefined
				? []
				: [
						{
							address: WHAT_CHANGED,
							title: site.words.whatChanged.title,
							view: () => whatChangedView(site, since),
						},
					],
		write: whatChangedPage,
	}),
	search: kind({
		under: "search",
		styles: ["search"],
		pages: one("search/", ({ destinations }) => destinations.search, searchView),
		write: searchPage,
	}),
	"not-found": kind({
		pages: one("404.html", ({ notFound }) => notFound.page, notFoundView),
		write: notFoundPage,
	}),
} as const satisfies Readonly<Record<string, Kind>>;

export type KindName = keyof typeof KINDS;
