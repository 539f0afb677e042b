/**
 * Opens the drills of a coverage cell over the table instead of far below it. Without this program
 * the same links jump to the same lists.
 */

import { coverageCells } from "../../scripts/words/en.ts";

const dialog = document.createElement("dialog");
dialog.setAttribute("aria-label", coverageCells.title);
const close = document.createElement("button");
close.type = "button";
close.className = "button";
close.textContent = coverageCells.close;
close.addEventListener("click", () => dialog.close());
document.body.append(dialog);

document.querySelector("table.coverage")?.addEventListener("click", (event) => {
	if (!(event.target instanceof Element) || !(event instanceof MouseEvent)) return;
	const link = event.target.closest<HTMLAnchorElement>("td > a");
	if (link === null || event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return;
	const list = document.getElementById(decodeURIComponent(link.hash.slice(1)));
	if (list === null) return;
	event.preventDefault();
	const copy = list.cloneNode(true);
	if (!(copy instanceof HTMLElement)) return;
	copy.removeAttribute("id");
	copy.querySelector("p:last-child")?.remove();
	dialog.replaceChildren(copy, close);
	dialog.showModal();
});

// A press beside the box closes it.
dialog.addEventListener("click", (event) => {
	if (event.target === dialog) dialog.close();
});
