/**
 * All single sheets of a club as files, or those that were asked for.
 *
 * A week's packet is made of the very pieces of its other sheets.
 */

import { meets } from "../../compute/calendar.ts";
import type { ApparatusPlan, Id, WeekPlan } from "../../model.ts";
import { SHEET_FILES } from "../addresses.ts";
import type { ShownHandbook } from "../pages.ts";
import { indexSite, type SiteIndex } from "../site-index.ts";
import { checkSheet } from "./check-sheet.ts";
import { classLeaf } from "./class-leaf.ts";
import { dividers } from "./dividers.ts";
import { planSheet } from "./plan-sheet.ts";
import { pocketWeek } from "./pocket.ts";
import { ON_REQUEST, type Piece, type SheetFacts, type SheetFileOf, type SheetKind } from "./sheet.ts";
import { stationCards } from "./station-cards.ts";
import { labelSheet, storeRoomList } from "./store-room.ts";
import { termPage } from "./term-page.ts";
import { weekFront } from "./week-front.ts";

/** Which sheets are wanted; what is left out means all. Ids are known ones. */
export interface SheetChoice {
	readonly kinds?: readonly SheetKind[];
	readonly week?: Id;
	readonly class?: Id;
	/** Classes of one coach, whose weeks the pocket edition has one after the other; each on its own without. */
	readonly classes?: readonly Id[];
	readonly level?: Id;
	readonly apparatus?: Id;
	/** Station cards to a sheet. */
	readonly up?: 2 | 4;
}

export interface SingleSheets {
	readonly facts: SheetFacts;
	/** In the order of the term; those of a week are made when they are asked for. */
	readonly files: Iterable<SheetFileOf<Piece>>;
}

export function singleSheets(handbook: ShownHandbook, choice: SheetChoice = {}): SingleSheets {
	const { club, term } = handbook.curriculum;
	return {
		facts: {
			words: handbook.words,
			club: club.name,
			term: term.name,
			emergency: club.emergency,
			address: club.site === undefined ? undefined : new URL("./", club.site).href,
		},
		files: filesOf(indexSite(handbook), choice),
	};
}

type Wants = (kind: SheetKind) => boolean;

function* filesOf(site: SiteIndex, choice: SheetChoice): Iterable<SheetFileOf<Piece>> {
	const { levels, weeks } = site.curriculum;
	const wants: Wants = (kind) => choice.kinds?.includes(kind) ?? !ON_REQUEST.has(kind);
	for (const week of weeks) {
		if (choice.week === undefined || choice.week === week.id) yield* weekFiles(site, week, choice, wants);
	}
	if (wants("check-sheets")) {
		for (const level of levels.values()) {
			if (choice.level !== undefined && choice.level !== level.id) continue;
			yield* fileOf("check-sheets", SHEET_FILES.checkSheet(level.id), checkSheet(site, level));
		}
	}
	if (wants("term-overview")) {
		for (const file of fileOf("term-overview", SHEET_FILES.termOverview(), termPage(site))) {
			yield { ...file, landscape: true };
		}
	}
	if (wants("dividers")) yield* fileOf("dividers", SHEET_FILES.dividers(), dividers(site));
	if (wants("pocket")) yield* pocketFiles(site, choice);
}

/** A file for each class, or one for the classes of a coach: week by week, in the order of the timetable. */
function* pocketFiles(site: SiteIndex, choice: SheetChoice): Iterable<SheetFileOf<Piece>> {
	const { term, weeks } = site.curriculum;
	const chosen = choice.classes;
	const sets =
		chosen === undefined
			? term.classes.map((group) => [group])
			: [term.classes.filter(({ id }) => chosen.includes(id))];
	for (const groups of sets) {
		const pieces = weeks
			.filter(({ id }) => choice.week === undefined || choice.week === id)
			.flatMap((week) =>
				groups.filter((group) => meets(term, week.week, group)).map((group) => pocketWeek(site, week, group)),
			);
		if (pieces.length === 0) continue;
		yield {
			kind: "pocket",
			path: SHEET_FILES.pocket(groups.map(({ id }) => id)),
			title: site.words.sheets.pocketOf(groups.map(({ name }) => name)),
			landscape: false,
			leaves: true,
			pieces,
			pocket: {
				classes: groups.map(({ id }) => id),
				...(choice.week !== undefined && { week: choice.week }),
			},
		};
	}
}

function* weekFiles(
	site: SiteIndex,
	week: WeekPlan,
	choice: SheetChoice,
	wants: Wants,
): Iterable<SheetFileOf<Piece>> {
	const { curriculum, handbook, words } = site;
	const { term } = curriculum;
	const packet: Piece[] | undefined = wants("week-packet") ? [weekFront(site, week)] : undefined;
	/** A sheet that is a file where it was chosen, and part of the packet. */
	function* take(kind: SheetKind, path: string, isChosen: boolean, piece: () => Piece | undefined) {
		if (packet === undefined && !(isChosen && wants(kind))) return;
		const made = piece();
		if (made === undefined) return;
		packet?.push(made);
		if (isChosen && wants(kind)) yield* fileOf(kind, path, made);
	}
	for (const group of term.classes) {
		const isChosen = choice.class === undefined || choice.class === group.id;
		const path = SHEET_FILES.classSheet(week.id, group.id);
		// A class that a closed day cancels keeps its sheet; the packet of the week does without.
		if (meets(term, week.week, group)) {
			yield* take("class-sheets", path, isChosen, () => classLeaf(site, week, group));
		} else if (isChosen && wants("class-sheets")) {
			yield* fileOf("class-sheets", path, classLeaf(site, week, group));
		}
	}
	const isChosen = ({ apparatus }: ApparatusPlan) =>
		choice.apparatus === undefined || choice.apparatus === apparatus;
	for (const plan of week.apparatus) {
		const path = SHEET_FILES.floorPlans(week.id, plan.apparatus);
		yield* take("floor-plans", path, isChosen(plan), () => planSheet(site, week, plan));
	}
	yield* take("store-room", SHEET_FILES.storeRoom(week.id), true, () => storeRoomList(site, week));
	if (wants("labels")) yield* fileOf("labels", SHEET_FILES.labels(week.id), labelSheet(site, week));
	if (wants("station-cards")) {
		const ups = ([2, 4] as const).filter((up) => choice.up === undefined || choice.up === up);
		for (const plan of week.apparatus.filter(isChosen)) {
			for (const piece of stationCards(site, week, plan, ups)) {
				const path = SHEET_FILES.stationCards(week.id, plan.apparatus, piece.view.up);
				yield* fileOf("station-cards", path, piece);
			}
		}
	}
	if (packet !== undefined) {
		yield {
			kind: "week-packet",
			path: SHEET_FILES.weekPacket(week.id),
			title: words.sheets.weekAndTheme(week.week, handbook.markdown.plain(week.theme)),
			landscape: false,
			leaves: true,
			pieces: packet,
		};
	}
}

function fileOf(kind: SheetKind, path: string, piece: Piece | undefined): readonly SheetFileOf<Piece>[] {
	if (piece === undefined) return [];
	return [{ kind, path, title: piece.title, landscape: false, leaves: false, pieces: [piece] }];
}
