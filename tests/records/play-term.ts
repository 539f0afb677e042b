/**
 * A term as ten coaches report it over bad nets, from a seed: messages that are lost, sent twice or late, of
 * two editions; and what each of them said last.
 */

import { expect } from "vitest";
import { groupsOfClass, isThere } from "../../scripts/compute/groups.ts";
import { workOf } from "../../scripts/compute/work.ts";
import type { Curriculum } from "../../scripts/model.ts";
import {
	CAUSES,
	FELT,
	isSmallEnough,
	markOf,
	type Report,
	type ReportedBlock,
	reportText,
} from "../../scripts/records/report.ts";

/** Numbers from 0 to 1, the same for a seed (mulberry32). */
function seeded(seed: number): () => number {
	let state = seed;
	return () => {
		state = (state + 0x6d2b79f5) | 0;
		let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
		mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
	};
}

/**
 * The last word of each coach on each class and week, and every message that was sent on the way.
 *
 * @param editions the first and the second: some coaches have not the newer one yet
 */
export function playedTerm(editions: readonly [Curriculum, Curriculum], seed: number) {
	const [, curriculum] = editions;
	const random = seeded(seed);
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
	const maybe = <T>(share: number, value: () => T): T | undefined => (random() < share ? value() : undefined);
	const last: Report[] = [];
	const sent: string[] = [];
	for (const plan of curriculum.weeks.slice(0, 8)) {
		for (const own of curriculum.term.classes) {
			const groups = groupsOfClass(curriculum, own).filter((group) => isThere(curriculum, plan.week, group));
			// Ten coaches, two of the larger classes' reports by both.
			const coaches = own.coaches !== undefined && own.coaches > 2 ? 2 : 1;
			for (let coach = 0; coach < coaches; coach++) {
				if (random() < 0.08) continue;
				let report: Report | undefined;
				const from = Array.from({ length: 10 }, () => pick([..."abcdefghijklmnopqrstuvwxyz0123456789"])).join(
					"",
				);
				const revisions = pick([1, 1, 1, 2, 3]);
				for (let revision = 1; revision <= revisions; revision++) {
					const edition = random() < 0.5 ? 1 : 2;
					const theirs = editions[edition - 1] as Curriculum;
					const seen = theirs.weeks.find(({ id }) => id === plan.id) ?? plan;
					const blocks = groups.flatMap((group) =>
						workOf(theirs, seen, group).blocks.flatMap(
							({ apparatus, block, stations }): readonly ReportedBlock[] => {
								if (random() < 0.1) return [];
								const done = pick(["done", "done", "done", "shortened", "not-done"] as const);
								const part = group.name.slice(own.id.length + 1);
								return [
									JSON.parse(
										JSON.stringify({
											group: part === "" ? undefined : part,
											apparatus,
											block: block.number,
											mark: markOf(stations.map(({ drill }) => drill.id)),
											done,
											lost: done === "shortened" ? maybe(0.7, () => 1 + Math.floor(random() * 8)) : undefined,
											cause: done === "done" ? undefined : maybe(0.8, () => pick(CAUSES)),
											felt: maybe(0.5, () => pick(FELT)),
										}),
									),
								];
							},
						),
					);
					const skills = groups.flatMap((group) => {
						const part = group.name.slice(own.id.length + 1);
						const named = new Set(
							workOf(curriculum, plan, group).blocks.flatMap((block) =>
								block.stations.flatMap(({ drill }) => drill.performs),
							),
						);
						return [...named].slice(0, 4).map((skill) => {
							const alone = Math.floor(random() * (group.gymnasts + 1));
							return {
								...(part === "" ? {} : { group: part }),
								skill,
								of: group.gymnasts,
								alone,
								helped: Math.floor(random() * (group.gymnasts - alone + 1)),
							};
						});
					});
					const next: Report = {
						week: plan.id,
						class: own.id,
						from,
						revision,
						edition,
						...(random() < 0.2 ? { note: "The hall was cold: “brr”, #1 & <b>2</b>" } : {}),
						blocks,
						skills,
					};
					expect(isSmallEnough(next), JSON.stringify(next).length.toString()).toBe(true);
					report = next;
					// Bad nets: sent again, or not at all unless it is the last.
					const times = revision === revisions ? 1 + Math.floor(random() * 3) : Math.floor(random() * 3);
					for (let i = 0; i < times; i++) sent.push(reportText(next));
				}
				if (report !== undefined) last.push(report);
			}
		}
	}
	return { last, sent, random };
}
