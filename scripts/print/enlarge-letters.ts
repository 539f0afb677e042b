/**
 * Runs inside the browser's page, never in Node: letters in a drawing shrink with it, and are set here as
 * large as the least type on paper is. A station's label grows with its letters.
 */

declare global {
	interface Window {
		handbookLetters: { enlarge(svg: SVGSVGElement): void };
	}
}

/** Pixels: 8.5 pt, with what rounding takes. */
const LEAST = 11.4;

function enlarge(svg: SVGSVGElement): void {
	const scale = svg.getScreenCTM()?.a ?? 0;
	if (scale <= 0) return;
	for (const text of svg.querySelectorAll("text")) {
		const size = Number.parseFloat(getComputedStyle(text).fontSize) * scale;
		if (size >= LEAST) continue;
		const label = text.closest(".plan-label");
		if (label === null) text.setAttribute("font-size", String(LEAST / scale));
		else label.setAttribute("transform", `${label.getAttribute("transform") ?? ""} scale(${LEAST / size})`);
	}
}

window.handbookLetters = { enlarge };

export {};
