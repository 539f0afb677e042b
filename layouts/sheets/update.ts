/**
 * The sheet in front of an update: which leaves to take out of a binder, which to put in, and where.
 *
 * Leaves of a part that follow each other are one line. Words for leaves are the page numbers at
 * their foot: "W3 · Floor 1–4" is two leaves.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { Words } from "../../scripts/words/words.ts";
import type { Edition, EditionLeaf, Insertion, Update } from "./edition.ts";
import { sheetHead } from "./pieces.ts";
import type { SheetSection } from "./section.ts";

/** What one line of the list says of one part. */
interface Row {
	readonly section: string;
	readonly part: string;
	readonly out: readonly EditionLeaf[];
	readonly in: readonly Insertion[];
}

export function updateSection(
	{ update: say }: Pick<Words, "update">,
	update: Update,
	earlier: Edition,
	now: Edition,
): SheetSection {
	const words = (edition: Edition) =>
		edition.issues.find(({ id }) => id === edition.edition)?.words ?? edition.edition;
	const rows = rowsOf(update, earlier, now);
	return {
		title: say.title,
		tab: "",
		slot: undefined,
		parts: [
			{
				label: say.label,
				head: say.title,
				html: html`${sheetHead("part-update", now.title, say.title, say.from(words(earlier)))}
<p class="lead">${say.leaves(update.out.length, update.in.length)} ${say.to(words(now))}</p>
<ol>
${say.steps.map((step) => html`<li>${step}</li>`)}
</ol>
<p>${say.bars}</p>
<table class="plan"><thead><tr><th scope="col">${say.done}</th><th scope="col">${say.section}</th><th scope="col">${say.takeOut}</th><th scope="col">${say.putIn}</th></tr></thead>
<tbody>${rows.map((row, i) => rowHtml(say, row, rows[i - 1]?.section !== row.section))}</tbody></table>
${earlier.look !== now.look && html`<p>${say.look}</p>`}`,
			},
		],
		targets: [{ id: "part-update", title: say.title, depth: 1 }],
	};
}

function rowHtml(say: Words["update"], row: Row, isNew: boolean): Html {
	const first = row.in[0];
	const isWhole = row.out.length === 0 && first?.leaf.number === 1;
	const place =
		first?.after === undefined ? say.first : say.behind(leafWords(first.after.part, [first.after], "last"));
	return html`<tr><td><span style="display:inline-block;width:11px;height:11px;border:1.2px solid #000"></span></td><th scope="row">${isNew && row.section}</th><td>${runWords(say, row.part, row.out)}</td><td>${runWords(
		say,
		row.part,
		row.in.map(({ leaf }) => leaf),
	)}${isWhole && html`<br><span class="small">${place}</span>`}</td></tr>`;
}

/** A part's leaves, as they are numbered: "W3 · Floor 1–4, 7–8". */
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
