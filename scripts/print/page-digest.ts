/**
 * What verifying needs to know of a page that was read back: the letters of its text area, what stands
 * at its foot, what stands where nothing may, and what is written in its links. Pure.
 */

import type { Paper } from "../../layouts/sheets/paper.ts";
import type { Leaf } from "./assemble.ts";
import { illegible, sizedLetters } from "./legible.ts";
import { type Box, isInside, middleOf, type ReadPage } from "./read-back.ts";

export type PageDigest = ReturnType<typeof digestPage>;

/** Half a pixel: browsers and PDF round. */
export const SLACK = 0.5;

export function digestPage(page: ReadPage, side: Leaf["side"], paper: Paper) {
	const { width, height, words, painted } = page;
	const free = freeArea(paper, side);
	const area = textArea(paper, side);
	const text = words.filter((one) => isInside(middleOf(one), area));
	const lowest = Math.max(paper.top, ...text.map(({ bottom }) => bottom));
	return {
		/** Pixels. */
		width,
		height,
		...sizedLetters(text),
		/** How far down its text area words stand, as a share of its height; 0 for none. */
		filled: Math.round(((lowest - paper.top) / paper.areaHeight) * 1000) / 1000,
		/** What cannot be read, wherever on the page it stands. */
		illegible: illegible(words),
		/** The words below the text area. */
		foot: words
			.filter(({ top }) => top > paper.top + paper.areaHeight)
			.map(({ text }) => text)
			.join(" ")
			.replace(/\s+/g, " "),
		/** Words that stand in the punched margin or at the very edge. */
		outside: words.filter((one) => !isInside(one, free)).map(({ text }) => text),
		/** Whether something else is painted there. */
		isPaintedOutside: painted !== undefined && !isInside(painted, free),
		/** Its links, with the words that stand in each. */
		links: page.links.map((link) => ({
			destination: link.destination,
			printed: words
				.filter((one) => isInside(middleOf(one), link))
				.map(({ text }) => text)
				.join("")
				.replace(/\s+/g, " ")
				.trim(),
		})),
	};
}

/** Where the text of a sheet stands. */
function textArea(paper: Paper, side: Leaf["side"]): Box {
	const left = side === "right" ? paper.inner : paper.width - paper.inner - paper.areaWidth;
	return {
		left: left - 2,
		right: left + paper.areaWidth + 2,
		top: paper.top - 2,
		bottom: paper.top + paper.areaHeight + 2,
	};
}

/** Where a sheet may carry anything. */
function freeArea(paper: Paper, side: Leaf["side"]): Box {
	const { width, height, punched, border } = paper;
	return {
		left: (side === "right" ? punched : border) - SLACK,
		right: width - (side === "right" ? border : punched) + SLACK,
		top: border - SLACK,
		bottom: height - border + SLACK,
	};
}
