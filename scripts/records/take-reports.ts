/**
 * Takes coaches' reports into the club's files: any number of them, the same whatever the order and however
 * often, as `_data/taught/<week>.yaml`, which a person can read and correct.
 *
 * Steps: leave out what this club has not (a week, a class, a skill), and say so; find the drills of each
 * block by their mark; put each report in the place of an older one of the same coach, class and week (the
 * larger revision holds, of two equal ones the larger text); leave alone what was corrected by hand since;
 * write the file of each week, its entries by class, then by coach. What else stands in the file stays as
 * it is, letter for letter.
 */

import { isSeq, parseDocument } from "yaml";
import { groupsOf } from "../compute/groups.ts";
import { workOf } from "../compute/work.ts";
import type { ClubTexts } from "../edit/club-texts.ts";
import type { Curriculum, Id, WeekPlan } from "../model.ts";
import { parseYaml } from "../read/parse-yaml.ts";
import { TAUGHT_FOLDER } from "../read/read-club.ts";
import type { TaughtItem } from "../validate/records.ts";
import { isEmpty, markOf, type Report, type ReportedBlock } from "./report.ts";

export interface TakenReports {
	readonly texts: ClubTexts;
	/** How many reports came to each end. */
	readonly counts: Readonly<Record<Outcome, number>>;
	/** What the director should know of single ones. */
	readonly told: readonly string[];
}

/** New; in the place of an older one; there already, or older; corrected by hand, so left alone; of no class here. */
export type Outcome = "new" | "newer" | "known" | "corrected" | "refused";

/** One entry of a week's file. */
interface Entry {
	readonly item: TaughtItem;
	/** As it stands in the file, or is to stand there, with its end of line. */
	readonly text: string;
}

/** @param curriculum of these texts */
export function takeReports(
	curriculum: Curriculum,
	texts: ClubTexts,
	reports: readonly Report[],
): TakenReports {
	const counts = { new: 0, newer: 0, known: 0, corrected: 0, refused: 0 };
	const told: string[] = [];
	const after = new Map(texts);
	const groups = new Map([...Map.groupBy(reports, ({ week }) => week)].sort(([a], [b]) => (a < b ? -1 : 1)));
	for (const [week, own] of groups) {
		const plan = curriculum.weeks.find(({ id }) => id === week);
		if (plan === undefined) {
			counts.refused += own.length;
			told.push(`The plan has no week ${week}: ${own.length} left out.`);
			continue;
		}
		const path = fileOf(texts, week);
		const file = new WeekFile(texts.get(path));
		for (const report of own) {
			if (!curriculum.term.classes.some(({ id }) => id === report.class)) {
				counts.refused++;
				told.push(`${week}: the term has no class ${report.class}; its report is left out.`);
				continue;
			}
			const { item, lost } = itemOf(curriculum, plan, report);
			if (lost > 0)
				told.push(`${week}, ${report.class}: ${lost} entries of things that the club has not are left out.`);
			const outcome = isEmpty(report) ? "known" : file.take(item);
			counts[outcome]++;
			if (outcome === "corrected")
				told.push(
					`${week}, ${report.class}: corrected by hand since, so the report that came now is not taken.`,
				);
		}
		const text = file.text(curriculum, plan);
		if (text !== "") after.set(path, text);
	}
	return { texts: after, counts, told: [...new Set(told)].sort() };
}

function fileOf(texts: ClubTexts, week: Id): string {
	const yml = `${TAUGHT_FOLDER}/${week}.yml`;
	return texts.has(yml) ? yml : `${TAUGHT_FOLDER}/${week}.yaml`;
}

/** A report as an entry: the drills of its blocks in place of their mark. */
function itemOf(
	curriculum: Curriculum,
	plan: WeekPlan,
	report: Report,
): { readonly item: TaughtItem; readonly lost: number } {
	const groups = groupsOf(curriculum).filter(({ class: own }) => own.id === report.class);
	const isGroup = (id: Id | undefined): boolean =>
		groups.some(({ name, class: own }) => name === (id === undefined ? own.id : `${own.id}/${id}`));
	const blocks = report.blocks.filter(
		({ group, apparatus }) => isGroup(group) && curriculum.apparatus.has(apparatus),
	);
	const skills = report.skills.filter(({ group, skill }) => isGroup(group) && curriculum.skills.has(skill));
	const drillsOf = ({ group, apparatus, mark }: ReportedBlock): readonly Id[] | undefined =>
		groups
			.filter(({ name, class: own }) => name === (group === undefined ? own.id : `${own.id}/${group}`))
			.flatMap((one) => workOf(curriculum, plan, one).blocks)
			.filter((one) => one.apparatus === apparatus)
			.map((one) => [...new Set(one.stations.map(({ drill }) => drill.id))])
			.find((drills) => markOf(drills) === mark);
	const item: TaughtItem = {
		class: report.class,
		from: report.from,
		revision: report.revision,
		edition: report.edition,
		...(report.note === undefined ? {} : { note: report.note }),
		...(blocks.length === 0
			? {}
			: {
					blocks: blocks.map((block) => {
						const { group, apparatus, block: number, mark, ...rest } = block;
						const drills = drillsOf(block);
						return {
							...(group === undefined ? {} : { group }),
							apparatus,
							block: number,
							...(drills === undefined ? { mark } : { drills: [...drills] }),
							...rest,
						};
					}),
				}),
		...(skills.length === 0 ? {} : { skills: skills.map((skill) => ({ ...skill })) }),
	};
	const lost = report.blocks.length - blocks.length + report.skills.length - skills.length;
	return { item: { ...item, received: markOf([entryText(item)]) }, lost };
}

/** The entries of a week's file. */
class WeekFile {
	readonly #head: string | undefined;
	readonly #entries: Entry[];

	constructor(text: string | undefined) {
		const { head, entries } = text === undefined ? { head: undefined, entries: [] } : entriesIn(text);
		this.#head = head;
		this.#entries = entries;
	}

	take(item: TaughtItem): Exclude<Outcome, "refused"> {
		const at = this.#entries.findIndex(
			(one) => String(one.item.class) === item.class && one.item.from === item.from,
		);
		const next = { item, text: entryText(item) };
		const before = this.#entries[at];
		if (before === undefined) {
			this.#entries.push(next);
			return "new";
		}
		if (isCorrected(before.item)) return before.item.received === item.received ? "known" : "corrected";
		const [old, now] = [before.item.revision ?? 0, item.revision ?? 0];
		if (now < old || (now === old && next.text <= entryText(before.item))) return "known";
		// Comments after it stay where they are.
		const tail = /(?:\n[ \t]*(?:#[^\n]*)?)*$/.exec(`${before.text.trimEnd()}\n`)?.[0] ?? "\n";
		this.#entries[at] = { item, text: next.text + tail.slice(1) };
		return "newer";
	}

	text({ term }: Curriculum, { week }: WeekPlan): string {
		if (this.#entries.length === 0) return this.#head ?? "";
		const rank = new Map(term.classes.map(({ id }, i) => [id, i]));
		const sorted = this.#entries.toSorted(
			(a, b) =>
				(rank.get(String(a.item.class)) ?? 0) - (rank.get(String(b.item.class)) ?? 0) ||
				((a.item.from ?? "") < (b.item.from ?? "") ? -1 : (a.item.from ?? "") > (b.item.from ?? "") ? 1 : 0),
		);
		const head =
			this.#head ??
			`# What coaches reported of week ${week}. \`npm run taught\` writes it; correct it where it is wrong.\n`;
		return head + sorted.map(({ text }) => text).join("");
	}
}

/** Whether an entry no longer says what came in. One without the mark of it was written by hand. */
function isCorrected({ received, ...item }: TaughtItem): boolean {
	return received === undefined || received !== markOf([entryText(item)]);
}

/** What stands before the entries, and each with the lines that follow it. */
function entriesIn(text: string): { readonly head: string; readonly entries: Entry[] } {
	const unix = text.replace(/\r\n?/g, "\n");
	const whole = unix === "" || unix.endsWith("\n") ? unix : `${unix}\n`;
	const parsed = parseYaml(whole);
	const items = (parsed.ok && Array.isArray(parsed.data) ? parsed.data : []) as readonly TaughtItem[];
	const list = parseDocument(whole, { schema: "failsafe" }).contents;
	// A list between brackets is written anew, as lines.
	if (!isSeq(list) || list.flow === true)
		return { head: "", entries: items.map((item) => ({ item, text: entryText(item) })) };
	const starts = list.items.map((node) => {
		const [at = 0] = (node as { readonly range?: readonly number[] }).range ?? [];
		return whole.lastIndexOf("\n", at - 1) + 1;
	});
	return {
		head: whole.slice(0, starts[0] ?? whole.length),
		entries: items.map((item, i) => ({ item, text: whole.slice(starts[i], starts[i + 1] ?? whole.length) })),
	};
}

/** An entry as it is written: always the same for the same. */
function entryText({
	class: own,
	from,
	revision,
	edition,
	received,
	note,
	blocks,
	skills,
}: TaughtItem): string {
	const lines = [
		...pairs({ from: quoted(from), revision, edition, received: quoted(received), note: quoted(note) }),
		...(blocks === undefined || blocks.length === 0 ? [] : ["blocks:"]),
		...(blocks ?? []).map(
			({ group, apparatus, block, drills, mark, done, lost, cause, felt, look, note: line }) =>
				`  - {${pairs({
					group: plain(group),
					apparatus: plain(apparatus),
					block,
					drills: drills && `[${drills.map(plain).join(", ")}]`,
					mark: quoted(mark),
					done,
					lost,
					cause,
					felt,
					look,
					note: quoted(line),
				}).join(", ")}}`,
		),
		...(skills === undefined || skills.length === 0 ? [] : ["skills:"]),
		...(skills ?? []).map(
			({ group, skill, of, alone, helped }) =>
				`  - {${pairs({ group: plain(group), skill: plain(skill), of, alone, helped }).join(", ")}}`,
		),
	];
	return [`- class: ${plain(own)}`, ...lines.map((line) => `  ${line}`)].map((line) => `${line}\n`).join("");
}

function pairs(fields: Readonly<Record<string, string | number | undefined>>): readonly string[] {
	return Object.entries(fields).flatMap(([name, value]) =>
		value === undefined ? [] : [`${name}: ${value}`],
	);
}

/** JSON's strings are YAML's as well, whatever stands in them. */
function quoted(text: string | undefined): string | undefined {
	return text === undefined ? undefined : JSON.stringify(text);
}

/** An id, in quotes where YAML would read something else. */
function plain<T extends string | number | undefined>(id: T): string | (T & undefined) {
	if (id === undefined) return id as T & undefined;
	const text = String(id);
	return /^[a-z]/.test(text) && !/^(?:true|false|null|yes|no|on|off|y|n)$/.test(text)
		? text
		: JSON.stringify(text);
}
