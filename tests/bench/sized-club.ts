/**
 * Writes a club whose binder has about as many pages as asked, from the demo: its weeks again and again,
 * the drills they name, and as many new drills as a handbook of that size has.
 */

import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Handbook } from "../../scripts/handbook.ts";
import { writeLargeClub } from "./large-club.ts";

export interface SizedClub {
	readonly weeks: number;
	/** At least those that the weeks name are written. */
	readonly drills: number;
}

/**
 * Weeks and drills in the demo's own proportion, for binders of about so many pages; the smallest comes
 * to about a hundred, since shapes, skills, equipment and coverage are printed whole.
 */
export const SIZES: ReadonlyMap<number, SizedClub> = new Map([
	[50, { weeks: 1, drills: 20 }],
	[200, { weeks: 6, drills: 90 }],
	[500, { weeks: 14, drills: 225 }],
	[1000, { weeks: 28, drills: 450 }],
]);

/** Writes the club folder anew. The same numbers give the same club. */
export function writeSizedClub(demo: Handbook, dir: string, { weeks, drills }: SizedClub): void {
	const named = new Set(
		demo.curriculum.weeks
			.slice(0, weeks)
			.flatMap((week) => week.apparatus.flatMap(({ blocks }) => blocks))
			.flatMap(({ stations }) => stations.map(({ drill }) => drill)),
	);
	const all = [...demo.curriculum.drills.values()];
	const chosen = [...all.filter(({ id }) => named.has(id)), ...all.filter(({ id }) => !named.has(id))].slice(
		0,
		Math.max(named.size, Math.min(drills, all.length)),
	);
	const curriculum = { ...demo.curriculum, drills: new Map(chosen.map((drill) => [drill.id, drill])) };
	writeLargeClub({ ...demo, curriculum }, dir, { drills: Math.max(drills, chosen.length), words: 330 });
	// The guides name drills that a small club does not have, and weeks name both.
	const isSmall = chosen.length < all.length;
	if (isSmall) rmSync(join(dir, "content/guides"), { recursive: true });

	const folder = join(dir, "content/weeks");
	const texts = readdirSync(folder)
		.sort()
		.map((name) => readFileSync(join(folder, name), "utf8"));
	for (const name of readdirSync(folder)) rmSync(join(folder, name));
	for (let week = 1; week <= weeks; week++) {
		const written = texts[(week - 1) % texts.length] ?? "";
		const text = isSmall ? written.replace(/\[\[([^\]|]*\|)?([^\]]*)\]\]/g, "$2") : written;
		const name = `week-${String(week).padStart(2, "0")}.md`;
		writeFileSync(join(folder, name), text.replace(/^week: \d+$/m, `week: ${week}`));
	}
	const term = join(dir, "_data/term.yaml");
	writeFileSync(term, readFileSync(term, "utf8").replace(/^weeks: \d+$/m, `weeks: ${Math.max(weeks, 10)}`));
}
