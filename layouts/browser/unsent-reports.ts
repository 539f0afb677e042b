/** Tells on the home page which reports of classes were not sent yet, with the way to each. */

import { unsentReports } from "../../scripts/words/en.ts";
import { allKept, isUnsent } from "./hall/kept-reports.ts";

const head = document.querySelector("main h1");

function tell(): void {
	document.querySelector(".unsent")?.remove();
	const open = allKept().filter(isUnsent);
	if (head === null || open.length === 0) return;
	const box = document.createElement("section");
	box.className = "unsent";
	const title = document.createElement("h2");
	title.textContent = unsentReports.notSentYet(open.length);
	const list = document.createElement("ul");
	for (const { at, title: name } of open) {
		const item = document.createElement("li");
		const link = document.createElement("a");
		link.href = `${at}#taught`;
		link.textContent = name;
		item.append(link);
		list.append(item);
	}
	box.append(title, list);
	head.after(box);
}

tell();
// A page that comes back as it was left knows nothing of what was sent since.
window.addEventListener("pageshow", ({ persisted }) => {
	if (persisted) tell();
});
