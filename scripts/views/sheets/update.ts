/**
 * What the sheet in front of an update says: which leaves to take out of a binder, which to put in, and
 * where. Leaves of a part that follow each other are one run; they are called by the page numbers at
 * their foot: "D · Floor 1–4" is two leaves.
 */

import type { Words } from "../../words/words.ts";
import type { Edition, EditionLeaf, Insertion, Update } from "./edition.ts";

export type UpdateView = ReturnType<typeof updateView>;

/** What one row says of one part. */
interface Row {
	readonly section: string;
	readonly part: string;
	readonly out: readonly EditionLeaf[];
	readonly in: readonly Insertion[];
}

export function updateView(
	{ update: say }: Pick<Words, "update">,
	update: Update,
	earlier: Edition,
	now: Edition,
) {
	const words = (edition: Edition) =>
		edition.issues.find(({ id }) => id === edition.edition)?.words ?? edition.edition;
	const rows = rowsOf(update, earlier, now);
	return {
		binder: now.title,
		/** The editions, as they are printed. */
		from: words(earlier),
		to: words(now),
		/** How many leaves. */
		out: update.out.length,
		in: update.in.length,
		/** Whether every page may look different. */
		otherLook: earlier.look !== now.look,
		/** One for each part. */
		rows: rows.map(({ section, part, out, in: put }, i) => {
			const [first] = put;
			const behind = first?.after;
			const place = behind === undefined ? say.first : say.behind(leafWords(behind.part, [behind], "last"));
			return {
				section: rows[i - 1]?.section === section ? undefined : section,
				takeOut: runWords(say, part, out),
				putIn: runWords(
					say,
					part,
					put.map(({ leaf }) => leaf),
				),
				place: out.length === 0 && first?.leaf.number === 1 ? place : undefined,
			};
		}),
	};
}

/** A part's leaves, as they are numbered: "D · Floor 1–4, 7–8". */
function runWords(say: Words["update"], part: string, leaves: readonly EditionLeaf[]): string {
	if (leaves.length === 0) return say.nothing;
	const runs: EditionLeaf[][] = [];
	for (const leaf of leaves) {
		const run = runs.at(-1);
		if (run?.at(-1)?.number === leaf.number - 1) run.push(leaf);
		else runs.push([leaf]);
	}
	const words = runs.map((run) => leafWords(part, run, "all").slice(part.length).trim());
	return `${part} ${words.filter((one) => one !== "").join(", ")}`.trim();
}

/** The first and last page number of leaves, or the last alone. */
function leafWords(part: string, leaves: readonly EditionLeaf[], which: "all" | "last"): string {
	const first = leaves[0]?.front ?? "";
	const leaf = leaves.at(-1);
	const last = leaf?.back === "" || leaf === undefined ? (leaf?.front ?? "") : leaf.back;
	if (first === "") return part;
	if (which === "last" || first === last) return last;
	return `${first}–${last.slice(part.length).trim()}`;
}

/** A row for each part in the order of the new binder; parts that are gone stand where they stood. */
function rowsOf(update: Update, earlier: Edition, now: Edition): readonly Row[] {
	const rows: Row[] = [];
	const outs = Map.groupBy(update.out, ({ part }) => part);
	const ins = Map.groupBy(update.in, ({ leaf }) => leaf.part);
	const orderNow = [...new Set(now.leaves.map(({ part }) => part))];
	const isThere = new Set(orderNow);
	const order: string[] = [];
	for (const part of orderNow) order.push(part);
	let behind = "";
	for (const { part } of earlier.leaves) {
		if (!isThere.has(part)) {
			isThere.add(part);
			order.splice(behind === "" ? 0 : order.indexOf(behind) + 1, 0, part);
		}
		behind = part;
	}
	for (const part of order) {
		const out = outs.get(part) ?? [];
		const put = ins.get(part) ?? [];
		if (out.length === 0 && put.length === 0) continue;
		const section = put[0] ?? out[0];
		const titles = put.length > 0 ? now.sections : earlier.sections;
		const at = section === undefined ? 0 : "leaf" in section ? section.leaf.section : section.section;
		rows.push({ section: titles[at]?.title ?? "", part, out, in: put });
	}
	return rows;
}
