/**
 * Order as a page: what comes before what it is built on, the order in which each level meets its
 * skills, and the pictures of what leads to what.
 */

import { orderRows } from "../../compute/meeting-order.ts";
import { cellAddress } from "../coverage.ts";
import { type Link, linkTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { measureHead } from "./measure-head.ts";

export type OrderView = ReturnType<typeof orderView>;

export interface OrderRow {
	readonly skill: Link;
	/** The week it is first taught in, leading to its drills; undefined where it never is. */
	readonly first: Link | undefined;
	readonly arrives: boolean;
	readonly needs: readonly OrderNeed[];
}

export interface OrderNeed {
	readonly skill: Link;
	/** When it is met: before the term, in a week, or never. */
	readonly met: "arrives" | number | undefined;
	/** It comes after what is built on it. */
	readonly wrong: boolean;
}

export function orderView(site: SiteIndex) {
	const { curriculum } = site;
	const faults = new Set(
		orderRows(curriculum)
			.filter((row) => row.rule === "needs" && row.met === "no")
			.map((row) => `${row.level} ${row.skill} ${row.id}`),
	);
	const levels = Array.from(curriculum.levels.values(), (level) => {
		const entry = new Set(level.entry);
		const firsts = new Map(
			site.measures.standings("skill", level.id).map(({ spacing }) => [spacing.id, spacing.first]),
		);
		const rows = [...firsts]
			.map(([id, first]): { readonly at: number; readonly row: OrderRow } => ({
				at: first ?? Number.MAX_SAFE_INTEGER,
				row: {
					skill: linkTo(curriculum, "skill", id),
					first:
						first === undefined
							? undefined
							: { to: cellAddress("skill", first, id, { level: level.id }), name: site.words.week(first) },
					arrives: entry.has(id),
					needs: (curriculum.skills.get(id)?.needs ?? []).map((need) => ({
						skill: linkTo(curriculum, "skill", need),
						met: entry.has(need) ? "arrives" : firsts.get(need),
						wrong: faults.has(`${level.id} ${id} ${need}`),
					})),
				},
			}))
			.sort((a, b) => a.at - b.at)
			.map(({ row }) => row);
		const needs = rows.filter((row) => row.first !== undefined && !row.arrives).flatMap((row) => row.needs);
		return {
			id: level.id,
			level: linkTo(curriculum, "level", level.id),
			rows,
			/** How many needs were held against the plan, and how many of them come too late. */
			checked: needs.length,
			wrong: needs.filter(({ wrong }) => wrong).length,
		};
	});
	const byPlace = Map.groupBy(
		site.measures.mapSkills(),
		({ id }) => curriculum.skills.get(id)?.apparatus[0] ?? "",
	);
	return {
		head: measureHead(site, "order"),
		levels,
		/** Skills by the apparatus they name first, as pictures. */
		maps: [...curriculum.apparatus.keys(), ""].flatMap((id) => {
			const skills = byPlace.get(id);
			if (skills === undefined) return [];
			return [
				{
					id: id === "" ? "anywhere" : id,
					apparatus: id === "" ? undefined : linkTo(curriculum, "apparatus", id),
					skills,
				},
			];
		}),
	};
}
