/**
 * The sheet in front of an update: which leaves to take out of a binder, which to put in, and where.
 *
 * Leaves of a part that follow each other are one line. Words for leaves are the page numbers at
 * their foot: "W3 · Floor 1–4" is two leaves.
 */

import type { Edition, EditionLeaf, Insertion, Update } from "../../scripts/print/edition.ts";
import type { SheetSection } from "../../scripts/print/section.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import { counted } from "../../scripts/render/views/words.ts";
import { sheetHead } from "./pieces.ts";

export const UPDATE_LABEL = "Update";

const TITLE = "Leaves to change";
const NOTHING = "nothing";
const FIRST = "in front of everything";

/** What one line of the list says of one part. */
interface Row {
	readonly section: string;
	readonly part: string;
	readonly out: readonly EditionLeaf[];
	readonly in: readonly Insertion[];
}

export function updateSection(update: Update, earlier: Edition, now: Edition): SheetSection {
	const words = (edition: Edition) =>
		edition.issues.find(({ id }) => id === edition.edition)?.words ?? edition.edition;
	const rows = rowsOf(update, earlier, now);
	const leaves = `Take out ${counted(update.out.length, "leaf", "leaves")}, put in ${counted(update.in.length, "leaf", "leaves")}.`;
	return {
		title: TITLE,
		tab: "",
		slot: undefined,
		parts: [
			{
				label: UPDATE_LABEL,
				head: TITLE,
				html: html`${sheetHead("part-update", now.title, TITLE, `For a binder that is at: ${words(earlier)}`)}
<p class="lead">${leaves} The binder is then at: ${words(now)}.</p>
<ol>
<li>Print this file on both sides of the paper, turned over the long edge, at full size. Punch the leaves.</li>
<li>Go down the list: take the old leaves out of the binder, put the new ones in their place.</li>
<li>Tick each line. Throw the old leaves away, so that nobody teaches from them; keep this sheet in front.</li>
</ol>
<p>A bar in the outer margin stands beside everything that is new, a short one across where something was taken away. Leaves that only moved carry none. A leaf's edition is at its foot: leaves that stay in the binder keep the one they have.</p>
<table class="plan"><thead><tr><th scope="col">Done</th><th scope="col">Section</th><th scope="col">Take out</th><th scope="col">Put in</th></tr></thead>
<tbody>${rows.map((row, i) => rowHtml(row, rows[i - 1]?.section !== row.section))}</tbody></table>
${earlier.look !== now.look && html`<p>The look of the pages has changed since that edition. Leaves that say the same as before stay, and look as they did.</p>`}`,
			},
		],
		targets: [{ id: "part-update", title: TITLE, depth: 1 }],
	};
}

function rowHtml(row: Row, isNew: boolean): Html {
	const first = row.in[0];
	const isWhole = row.out.length === 0 && first?.leaf.number === 1;
	const place =
		first?.after === undefined ? FIRST : `behind ${leafWords(first.after.part, [first.after], "last")}`;
	return html`<tr><td><span style="display:inline-block;width:11px;height:11px;border:1.2px solid #000"></span></td><th scope="row">${isNew && row.section}</th><td>${runWords(row.part, row.out)}</td><td>${runWords(
		row.part,
		row.in.map(({ leaf }) => leaf),
	)}${isWhole && html`<br><span class="small">${place}</span>`}</td></tr>`;
}

/** A part's leaves, as they are numbered: "W3 · Floor 1–4, 7–8". */
function runWords(part: string, leaves: readonly EditionLeaf[]): string {
	if (leaves.length === 0) return NOTHING;
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
