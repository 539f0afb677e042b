/**
 * Light or dark: applies the remembered choice before the page is drawn, then brings the switch to
 * life. Without a choice the device decides. A browser that keeps nothing still switches this page.
 */

const KEY = "handbook-theme";

type Theme = "light" | "dark";

function remembered(): Theme | undefined {
	try {
		const kept = localStorage.getItem(KEY);
		return kept === "light" || kept === "dark" ? kept : undefined;
	} catch {
		return undefined;
	}
}

function remember(theme: Theme): void {
	try {
		localStorage.setItem(KEY, theme);
	} catch {
		// Storage is off: the choice holds for this page alone.
	}
}

const root = document.documentElement;
const kept = remembered();
if (kept !== undefined) root.dataset.theme = kept;

document.addEventListener("DOMContentLoaded", () => {
	const button = document.querySelector<HTMLButtonElement>("button.theme-switch");
	if (button === null) return;
	const device = matchMedia("(prefers-color-scheme: dark)");
	const isDark = () => (root.dataset.theme ?? (device.matches ? "dark" : "light")) === "dark";
	const show = () => button.setAttribute("aria-pressed", String(isDark()));
	const words = button.querySelector("span");
	if (words !== null) words.textContent = "Dark colours";
	button.hidden = false;
	show();
	device.addEventListener("change", show);
	button.addEventListener("click", () => {
		const next = isDark() ? "light" : "dark";
		root.dataset.theme = next;
		remember(next);
		show();
	});
});
