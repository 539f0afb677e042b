/**
 * Runs inside the browser's page, never in Node: draws a bar in the outer margin beside every passage
 * that is new, and a short one with a foot where something was taken away.
 *
 * Bars stand between the text and the tab, where nothing else is printed, so they move nothing.
 */

/** From the text to the bar, and the bar's own width; pixels. */
const GAP = 7;
const WIDTH = 3;

interface Stretch {
	readonly top: number;
	readonly bottom: number;
}

for (const leaf of document.querySelectorAll<HTMLElement>(".leaf")) {
	const text = leaf.querySelector(".leaf-text")?.getBoundingClientRect();
	if (text === undefined) continue;
	const edge = leaf.getBoundingClientRect();
	const isRight = leaf.classList.contains("right");
	const left = isRight ? text.right - edge.left + GAP : text.left - edge.left - GAP - WIDTH;
	const limits = { top: text.top, bottom: text.bottom };
	const draw = ({ top, bottom }: Stretch, width = WIDTH) => {
		const bar = leaf.appendChild(document.createElement("div"));
		bar.setAttribute("aria-hidden", "true");
		const start = isRight ? left : left + WIDTH - width;
		bar.style.cssText = `position:absolute;left:${start}px;top:${top - edge.top}px;width:${width}px;height:${bottom - top}px;background:#000`;
	};
	const changed = stretches(leaf, "[data-changed]").map(({ top, bottom }) => within({ top, bottom }, limits));
	for (const stretch of joined(changed)) draw(stretch);
	for (const { top } of stretches(leaf, "[data-removed-before]"))
		draw({ top: top - 1.5, bottom: top + 1.5 }, 10);
	for (const { bottom } of stretches(leaf, "[data-removed-after]")) {
		draw({ top: bottom - 1.5, bottom: bottom + 1.5 }, 10);
	}
}

/** Where elements stand; in several stretches where columns part them. */
function stretches(leaf: Element, selector: string): readonly Stretch[] {
	return Array.from(leaf.querySelectorAll(selector)).flatMap((element) =>
		Array.from(element.getClientRects()).filter(({ height }) => height > 0),
	);
}

function within({ top, bottom }: Stretch, limits: Stretch): Stretch {
	return { top: Math.max(top, limits.top), bottom: Math.min(bottom, limits.bottom) };
}

/** Stretches that touch, or nearly so, become one. */
function joined(all: readonly Stretch[]): readonly Stretch[] {
	const result: Stretch[] = [];
	for (const next of [...all].sort((a, b) => a.top - b.top)) {
		const last = result.at(-1);
		if (last === undefined || next.top > last.bottom + 4) result.push(next);
		else result[result.length - 1] = { top: last.top, bottom: Math.max(last.bottom, next.bottom) };
	}
	return result;
}
