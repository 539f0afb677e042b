/**
 * Which function writes which kind of page.
 */

import type { Html } from "../../scripts/views/html.ts";
import type { SitePage } from "../../scripts/views/pages.ts";
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
import { termPage } from "./term.ts";
import { weekPage } from "./week.ts";
import { weekApparatusPage } from "./week-apparatus.ts";
import { whatChangedPage } from "./what-changed.ts";

/** The main part of a page. */
export function mainOf(ctx: PageContext, page: SitePage): Html {
	switch (page.kind) {
		case "home":
			return homePage(ctx, page.view);
		case "calendar":
			return calendarPage(ctx, page.view);
		case "week":
			return weekPage(ctx, page.view);
		case "week-apparatus":
			return weekApparatusPage(ctx, page.view);
		case "classes":
			return classesPage(ctx, page.view);
		case "class":
			return classPage(ctx, page.view);
		case "class-sheet":
			return classSheetPage(ctx, page.view);
		case "drills":
			return drillsPage(ctx, page.view);
		case "drill":
			return drillPage(ctx, page.view);
		case "shapes":
			return shapesPage(ctx, page.view);
		case "shape":
			return shapePage(ctx, page.view);
		case "skills":
			return skillsPage(ctx, page.view);
		case "skill":
			return skillPage(ctx, page.view);
		case "levels":
			return levelsPage(ctx, page.view);
		case "level":
			return levelPage(ctx, page.view);
		case "apparatus-list":
			return apparatusListPage(ctx, page.view);
		case "apparatus":
			return apparatusPage(ctx, page.view);
		case "equipment-list":
			return equipmentListPage(ctx, page.view);
		case "equipment":
			return equipmentPage(ctx, page.view);
		case "coverage-list":
			return coverageListPage(ctx, page.view);
		case "findings":
			return findingsPage(ctx, page.view);
		case "measures":
			return measuresPage(ctx, page.view);
		case "measure-spacing":
			return spacingPage(ctx, page.view);
		case "measure-order":
			return orderPage(ctx, page.view);
		case "measure-balance":
			return balancePage(ctx, page.view);
		case "measure-time":
			return timePage(ctx, page.view);
		case "measure-equipment":
			return equipmentMeasurePage(ctx, page.view);
		case "measure-load":
			return loadPage(ctx, page.view);
		case "measure-heights":
			return heightsPage(ctx, page.view);
		case "guides":
			return guidesPage(ctx, page.view);
		case "guide":
			return guidePage(ctx, page.view);
		case "about":
			return aboutPage(ctx, page.view);
		case "search":
			return searchPage(ctx, page.view);
		case "what-changed":
			return whatChangedPage(ctx, page.view);
		case "not-found":
			return notFoundPage(ctx, page.view);
		case "author-guide":
			return authorGuidePage(ctx, page.view);
		case "coverage":
			return coveragePage(ctx, page.view);
		case "term":
			return termPage(ctx, page.view);
	}
}
