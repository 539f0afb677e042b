/**
 * Light or dark: applies the remembered choice before the page is drawn, then brings the switch to
 * life. Without a choice the device decides. A browser that keeps nothing still switches this page.
 * The same for large type, which has to be there before the page is drawn as well.
 */

import "./hall/large-type.ts";
import { themeSwitch } from "../../scripts/words/en.ts";
import { keep, recall } from "./hall/device-memory.ts";

const KEY = "handbook-theme";

const root = document.documentElement;
const kept = recall(KEY);
if (kept === "light" || kept === "dark") root.dataset.theme = kept;

document.addEventListener("DOMContentLoaded", () => {
	const button = document.querySelector<HTMLButtonElement>("button.theme-switch");
	if (button === null) return;
	const device = matchMedia("(prefers-color-scheme: dark)");
	const isDark = () => (root.dataset.theme ?? (device.matches ? "dark" : "light")) === "dark";
	const show = () => button.setAttribute("aria-pressed", String(isDark()));
	const words = button.querySelector("span");
	if (words !== null) words.textContent = themeSwitch.dark;
	button.hidden = false;
	show();
	device.addEventListener("change", show);
	button.addEventListener("click", () => {
		const next = isDark() ? "light" : "dark";
		root.dataset.theme = next;
		keep(KEY, next);
		show();
	});
});
