/**
 * What the preview shows of the binder: its sections, and one of them with the styles of the printed
 * sheets. Pages are cut and numbered when the binder is printed; here each part is shown in one piece.
 */

import { html } from "../../scripts/views/html.ts";
import type { Words } from "../../scripts/words/words.ts";
import type { SheetSection, Sheets } from "../sheets/section.ts";

/** Where a section's preview stands, from the root of the preview. */
function printPreviewAddress(section: number): string {
	return `print-preview/${section}/`;
}

/** The list of the binder's sections, as a whole document. */
export function printPreviewList(sheets: Sheets, { preview: say }: Words): string {
	return html`<!DOCTYPE html>
<html lang="${sheets.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${say.sheetsOf(sheets.title)}</title>
<link rel="stylesheet" href="/assets/site.css">
<link rel="stylesheet" href="/preview.css">
</head>
<body class="kind-problems">
<div class="sheet"><main id="main">
<h1>${say.sheets}</h1>
<p class="lead">${say.lead}</p>
<ol>${sheets.sections.map((section, i) => html`<li><a href="/${printPreviewAddress(i)}">${section.title}</a></li>`)}</ol>
</main></div>
</body>
</html>
`.text;
}

/** One section, as a whole document. The style sheets are `/print-preview/print.css` and `/preview.css`. */
export function printPreviewSection(
	sheets: Sheets,
	section: SheetSection,
	number: number,
	{ preview: say }: Words,
): string {
	const beside = (at: number, words: (title: string) => string) =>
		sheets.sections[at] !== undefined &&
		html` <a href="/${printPreviewAddress(at)}">${words(sheets.sections[at].title)}</a>`;
	return html`<!DOCTYPE html>
<html lang="${sheets.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${say.sheetOf(section.title)}</title>
<link rel="stylesheet" href="/print-preview/print.css">
<link rel="stylesheet" href="/preview.css">
</head>
<body class="print-preview">
<nav class="preview-bar"><a href="/print-preview/">${say.all}</a>${beside(number - 1, say.before)}${beside(number + 1, say.after)}
<span>${say.oneLong}</span></nav>
${section.parts.map(
	({ head, label, html: part }) =>
		html`<section class="preview-sheet"><p class="preview-head"><span>${head === section.title ? "" : section.title}</span><span>${head}</span></p><div class="leaf-text">${part}</div><p class="preview-foot"><span>${label}</span><span>${sheets.foot}</span></p></section>`,
)}
</body>
</html>
`.text;
}
