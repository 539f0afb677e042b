/**
 * Turns the list of what to set out into one that can be ticked off. The ticks stay on the device,
 * for this class in this week; the plain list stays what it was without JavaScript.
 */

import { setOut } from "../../../scripts/words/en.ts";
import { keep, recall } from "./device-memory.ts";

const KEY = "handbook-ticks";
/** As many class sheets are remembered; the oldest go. */
const MOST_SHEETS = 40;

/** Brings the lists of a region to life. `data-ticks` names the sheet, `data-tick` each item. */
export function startTickList(region: HTMLElement): void {
	const sheet = region.dataset.ticks ?? "";
	const ticked = new Set(read().get(sheet));
	const boxes = new Map<string, HTMLInputElement>();
	for (const row of region.querySelectorAll<HTMLElement>("[data-tick]")) {
		const item = row.dataset.tick ?? "";
		const label = document.createElement("label");
		label.className = "tick";
		const box = document.createElement("input");
		box.type = "checkbox";
		box.checked = ticked.has(item);
		box.addEventListener("change", () => {
			if (box.checked) ticked.add(item);
			else ticked.delete(item);
			write(sheet, [...ticked]);
			show();
		});
		boxes.set(item, box);
		const words = document.createElement("span");
		words.append(...row.childNodes);
		label.append(box, words);
		row.append(label);
	}

	const foot = region.querySelector<HTMLElement>(".tick-foot");
	const count = region.querySelector<HTMLElement>(".tick-count");
	const clear = region.querySelector<HTMLButtonElement>(".tick-clear");
	const show = () => {
		const done = [...boxes.values()].filter((box) => box.checked).length;
		if (count !== null) count.textContent = setOut.ready(done, boxes.size);
		if (clear !== null) clear.disabled = done === 0;
	};
	clear?.addEventListener("click", () => {
		for (const box of boxes.values()) box.checked = false;
		ticked.clear();
		write(sheet, []);
		show();
		boxes.values().next().value?.focus();
	});
	show();
	if (foot !== null) foot.hidden = false;
}

function read(): Map<string, readonly string[]> {
	const sheets = new Map<string, readonly string[]>();
	try {
		const kept: unknown = JSON.parse(recall(KEY) ?? "[]");
		if (!Array.isArray(kept)) return sheets;
		for (const entry of kept as readonly unknown[]) {
			if (!Array.isArray(entry)) continue;
			const [sheet, items] = entry as readonly unknown[];
			if (typeof sheet !== "string" || !Array.isArray(items)) continue;
			sheets.set(
				sheet,
				items.filter((item): item is string => typeof item === "string"),
			);
		}
	} catch {
		// Kept by something else: start anew.
	}
	return sheets;
}

function write(sheet: string, items: readonly string[]): void {
	const sheets = read();
	sheets.delete(sheet);
	if (items.length > 0) sheets.set(sheet, items);
	keep(KEY, sheets.size === 0 ? undefined : JSON.stringify([...sheets].slice(-MOST_SHEETS)));
}
