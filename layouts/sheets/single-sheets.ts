/**
 * All single sheets of a club as files, or those that were asked for.
 *
 * A week's packet is made of the very pieces of its other sheets.
 */

import { meets } from "../../scripts/compute/calendar.ts";
import type { Handbook } from "../../scripts/handbook.ts";
import type { ApparatusPlan, Id, WeekPlan } from "../../scripts/model.ts";
import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { indexSite } from "../../scripts/views/site-index.ts";
import { checkSheet } from "./check-sheet.ts";
import { classLeaf } from "./class-leaf.ts";
import { planSheet } from "./plan-sheets.ts";
import type { SheetFile, SheetKind, SheetPiece } from "./sheet-file.ts";
import type { SheetMaker } from "./side.ts";
import { stationCards } from "./station-cards.ts";
import { labelSheet, storeRoomList } from "./store-room.ts";
import { termPage } from "./term-page.ts";
import { weekFront } from "./week-front.ts";

/** Which sheets are wanted; what is left out means all. Ids are known ones. */
export interface SheetChoice {
	readonly kinds?: readonly SheetKind[];
	readonly week?: Id;
	readonly class?: Id;
	readonly level?: Id;
	readonly apparatus?: Id;
	/** Station cards to a sheet. */
	readonly up?: 2 | 4;
}

/** The files, in the order of the term. */
export function singleSheets(handbook: Handbook, choice: SheetChoice = {}): readonly SheetFile[] {
	const { curriculum } = handbook;
	const { site: at } = curriculum.club;
	const maker: SheetMaker = {
		site: indexSite(handbook),
		address: at === undefined ? undefined : new URL("./", at).href,
	};
	const wants = (kind: SheetKind) => choice.kinds === undefined || choice.kinds.includes(kind);
	const files = curriculum.weeks
		.filter(({ id }) => choice.week === undefined || choice.week === id)
		.flatMap((week) => weekFiles(maker, week, choice, wants));
	if (wants("check-sheets")) {
		for (const level of curriculum.levels.values()) {
			if (choice.level !== undefined && choice.level !== level.id) continue;
			files.push(...fileOf("check-sheets", SHEET_FILES.checkSheet(level.id), checkSheet(maker, level)));
		}
	}
	if (wants("term-overview")) {
		for (const file of fileOf("term-overview", SHEET_FILES.termOverview(), termPage(maker))) {
			files.push({ ...file, landscape: true });
		}
	}
	return files;
}

function weekFiles(
	maker: SheetMaker,
	week: WeekPlan,
	choice: SheetChoice,
	wants: (kind: SheetKind) => boolean,
): SheetFile[] {
	const { handbook, words } = maker.site;
	const { term } = maker.site.curriculum;
	const files: SheetFile[] = [];
	const packet = wants("week-packet");
	const inPacket: SheetPiece[] = packet ? [weekFront(maker, week)] : [];
	const take = (
		kind: SheetKind,
		path: string,
		piece: SheetPiece | undefined,
		chosen: boolean,
		filed = true,
	) => {
		if (piece === undefined) return;
		if (chosen && wants(kind)) files.push(...fileOf(kind, path, piece));
		if (packet && filed) inPacket.push(piece);
	};
	if (packet || wants("class-sheets")) {
		for (const group of term.classes) {
			const chosen = choice.class === undefined || choice.class === group.id;
			if (!packet && !chosen) continue;
			const path = SHEET_FILES.classSheet(week.id, group.id);
			// A class that a closed day cancels keeps its sheet; the packet of the week does without.
			take("class-sheets", path, classLeaf(maker, week, group), chosen, meets(term, week.week, group));
		}
	}
	const isChosen = ({ apparatus }: ApparatusPlan) =>
		choice.apparatus === undefined || choice.apparatus === apparatus;
	if (packet || wants("floor-plans")) {
		for (const plan of week.apparatus) {
			if (!packet && !isChosen(plan)) continue;
			const path = SHEET_FILES.floorPlans(week.id, plan.apparatus);
			take("floor-plans", path, planSheet(maker, week, plan), isChosen(plan));
		}
	}
	if (packet || wants("store-room")) {
		take("store-room", SHEET_FILES.storeRoom(week.id), storeRoomList(maker, week), true);
	}
	if (wants("labels")) {
		files.push(...fileOf("labels", SHEET_FILES.labels(week.id), labelSheet(maker, week)));
	}
	if (wants("station-cards")) {
		for (const plan of week.apparatus.filter(isChosen)) {
			for (const up of [2, 4] as const) {
				if (choice.up !== undefined && choice.up !== up) continue;
				const path = SHEET_FILES.stationCards(week.id, plan.apparatus, up);
				files.push(...fileOf("station-cards", path, stationCards(maker, week, plan, up)));
			}
		}
	}
	if (packet) {
		files.push({
			kind: "week-packet",
			path: SHEET_FILES.weekPacket(week.id),
			title: words.sheets.weekAndTheme(week.week, handbook.markdown.plain(week.theme)),
			landscape: false,
			leaves: true,
			pieces: inPacket,
		});
	}
	return files;
}

function fileOf(kind: SheetKind, path: string, piece: SheetPiece | undefined): readonly SheetFile[] {
	if (piece === undefined) return [];
	return [{ kind, path, title: piece.title, landscape: false, leaves: false, pieces: [piece] }];
}
