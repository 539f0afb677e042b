/**
 * A key beside every text that is meant to be taken along, a change list or a command: it puts the text on
 * the clipboard, and says that it did. Where the clipboard is closed to pages, the text is selected instead.
 */

import { copying } from "../../scripts/words/en.ts";

/** Milliseconds until the key says again what it does. */
const SAID = 2000;

for (const text of document.querySelectorAll<HTMLElement>("[data-copy]")) {
	const key = document.createElement("button");
	key.type = "button";
	key.className = "button copy-key";
	key.textContent = copying.copy;
	const said = document.createElement("span");
	said.setAttribute("role", "status");
	said.className = "small";
	key.addEventListener("click", () => void copy(text, said));
	text.after(key, said);
}

async function copy(text: HTMLElement, said: HTMLElement): Promise<void> {
	try {
		await navigator.clipboard.writeText(text.textContent ?? "");
		said.textContent = copying.copied;
	} catch {
		const range = document.createRange();
		range.selectNodeContents(text);
		getSelection()?.removeAllRanges();
		getSelection()?.addRange(range);
		said.textContent = copying.selected;
	}
	setTimeout(() => {
		said.textContent = "";
	}, SAID);
}
