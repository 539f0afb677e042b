/**
 * Moves a whole week to another number: the weeks between close up by one, as when a leaf is taken out
 * of a binder and put in elsewhere, or two weeks trade places. Files named by their number follow.
 */

import type { Id } from "../model.ts";
import { type ClubTexts, idOf, kindOf, spliced } from "./club-texts.ts";
import { EditRefused, weekPath } from "./move-block.ts";
import { type Renaming, renameIds } from "./rename-ids.ts";
import { placeFile } from "./yaml-places.ts";

/** The texts with week `from` at `to`. */
export function moveWeek(texts: ClubTexts, from: number, to: number, swap: boolean): ClubTexts {
	weekPath(texts, from);
	if (!Number.isInteger(to) || to < 1) throw new EditRefused(`${to} is no number of a week.`);
	const numberAfter = (week: number): number => {
		if (week === from) return to;
		if (swap) return week === to ? from : week;
		if (from < to && week > from && week <= to) return week - 1;
		return from > to && week >= to && week < from ? week + 1 : week;
	};
	const renamings: Renaming[] = [];
	const changed = new Map<string, string>();
	for (const [path, text] of texts) {
		const place = kindOf(path) === "week" ? weekNumber(path, text) : undefined;
		const week = place && Number(place.value);
		const after = week === undefined ? undefined : numberAfter(week);
		if (place === undefined || week === undefined || after === undefined || after === week) {
			changed.set(path, text);
			continue;
		}
		const { start, end } = place;
		changed.set(
			path,
			spliced(text, [{ start, end, text: text.slice(start, end).replace(/\d+/, String(after)) }]),
		);
		const id = idOf(path);
		const renamed = renumbered(id, week, after);
		if (renamed !== id) renamings.push({ kind: "week", from: id, to: renamed });
	}
	const ids = new Set([...texts.keys()].filter((path) => kindOf(path) === "week").map(idOf));
	const leaving = new Set(renamings.map((one) => one.from));
	const taken = renamings.find((one) => ids.has(one.to) && !leaving.has(one.to));
	if (taken !== undefined) {
		throw new EditRefused(
			`content/weeks/${taken.from}.md would become ${taken.to}.md, and that file is there already, with another week in it.`,
		);
	}
	return renameIds(changed, renamings);
}

function weekNumber(path: string, text: string) {
	return placeFile(path, text).scalars.find(
		({ path: at, isKey }) => !isKey && at.length === 1 && at[0] === "week",
	);
}

/** "week-03" as week 7 is "week-07"; an id without the number keeps its name. */
function renumbered(id: Id, from: number, to: number): Id {
	return id.replace(/(^|-)(0*)(\d+)(?=-|$)/, (all, dash: string, zeros: string, digits: string) =>
		Number(digits) === from ? `${dash}${String(to).padStart(zeros.length + digits.length, "0")}` : all,
	);
}
