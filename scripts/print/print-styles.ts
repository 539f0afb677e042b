/**
 * The style sheet of the binder as one text: fonts within it, the sheet's measures, print.css, then the
 * club's own.
 */

import { join } from "node:path";
import type { Paper } from "../../layouts/sheets/paper.ts";
import { packageFolder, readProgram, readProgramText } from "../files/program.ts";

const FONTS = "@fontsource/atkinson-hyperlegible-next";

/** Files of single weights: of a variable font browsers write every letter as a drawing (Type 3). */
const FACES = ["400.css", "600.css", "700.css", "400-italic.css", "600-italic.css", "700-italic.css"];

/**
 * All styles. The fonts are embedded, so that a page needs no file and no network.
 *
 * @param slots places for tabs down the outer edge
 * @param own the club's style sheet
 */
export function printStyles(paper: Paper, slots: number, own = ""): string {
	const px = (length: number) => `${Math.round(length * 1000) / 1000}px`;
	return `${embeddedFonts()}
@page { size: ${px(paper.width)} ${px(paper.height)}; margin: 0; }
:root {
	--width: ${px(paper.width)};
	--height: ${px(paper.height)};
	--inner: ${px(paper.inner)};
	--top: ${px(paper.top)};
	--border: ${px(paper.border)};
	--area-width: ${px(paper.areaWidth)};
	--area-height: ${px(paper.areaHeight)};
	--tab-height: ${px(Math.min(90, Math.floor(paper.areaHeight / slots)))};
}
${readProgramText("layouts/styles/print.css")}
${own}`;
}

/** The package's own style sheets, upright and italic, with every font file inside them. */
export function embeddedFonts(from = FONTS, names: readonly string[] = FACES): string {
	const folder = packageFolder(from);
	const sheets = names.map((name) => readProgramText(join(folder, name)));
	// The older form of the same files, for browsers of long ago.
	const text = sheets.join("\n").replace(/,\s*url\([^)]*\.woff\) format\('woff'\)/g, "");
	const files = new Map<string, string>();
	for (const [, file] of text.matchAll(/url\((\.\/files\/[^)]+)\)/g)) {
		if (file === undefined || files.has(file)) continue;
		const bytes = readProgram(join(folder, file));
		files.set(file, `data:font/woff2;base64,${bytes.toString("base64")}`);
	}
	return text
		.replace(/url\((\.\/files\/[^)]+)\)/g, (_, file: string) => `url(${files.get(file) ?? ""})`)
		.replace(/font-display: *swap/g, "font-display: block");
}
