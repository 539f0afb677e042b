/**
 * Large type on demand, for a phone at arm's length: applies the remembered choice before the page is
 * drawn, then brings every switch of the page to life.
 */

import { keep, recall } from "./device-memory.ts";

const KEY = "handbook-type";

const root = document.documentElement;
if (recall(KEY) === "large") root.dataset.type = "large";

document.addEventListener("DOMContentLoaded", () => {
	const buttons = [...document.querySelectorAll<HTMLButtonElement>("button.type-switch")];
	const isLarge = () => root.dataset.type === "large";
	const show = () => {
		for (const button of buttons) {
			button.hidden = false;
			button.setAttribute("aria-pressed", String(isLarge()));
		}
	};
	show();
	for (const button of buttons) {
		button.addEventListener("click", () => {
			// What the coach reads must not run away while the lines above it grow.
			const before = button.getBoundingClientRect().top;
			if (isLarge()) delete root.dataset.type;
			else root.dataset.type = "large";
			keep(KEY, isLarge() ? "large" : undefined);
			show();
			window.scrollBy({ top: button.getBoundingClientRect().top - before, behavior: "instant" });
		});
	}
});
