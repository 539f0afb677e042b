/**
 * What the preview shows of the binder: its sections, and one of them with the styles of the printed
 * sheets. Pages are cut and numbered when the binder is printed; here each part is shown in one piece.
 */

import type { SheetSection, Sheets } from "../../scripts/print/section.ts";
import { html } from "../../scripts/render/html.ts";

/** Where a section's preview stands, from the root of the preview. */
export function printPreviewAddress(section: number): string {
	return `print-preview/${section}/`;
}

/** The list of the binder's sections, as a whole document. */
export function printPreviewList(sheets: Sheets): string {
	return html`<!DOCTYPE html>
<html lang="${sheets.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Printed sheets: ${sheets.title}</title>
<link rel="stylesheet" href="/assets/site.css">
</head>
<body class="kind-problems">
<div class="sheet"><main id="main">
<h1>Printed sheets</h1>
<p class="lead">Each section of the binder with the styles of print, without printing it.</p>
<ol>${sheets.sections.map((section, i) => html`<li><a href="/${printPreviewAddress(i)}">${section.title}</a></li>`)}</ol>
</main></div>
</body>
</html>
`.text;
}

/** One section, as a whole document. The style sheets are `/print-preview/print.css` and `/preview.css`. */
export function printPreviewSection(sheets: Sheets, section: SheetSection, number: number): string {
	const beside = (at: number, words: string) =>
		sheets.sections[at] !== undefined &&
		html` <a href="/${printPreviewAddress(at)}">${words}: ${sheets.sections[at].title}</a>`;
	return html`<!DOCTYPE html>
<html lang="${sheets.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Printed sheet: ${section.title}</title>
<link rel="stylesheet" href="/print-preview/print.css">
<link rel="stylesheet" href="/preview.css">
</head>
<body class="print-preview">
<nav class="preview-bar"><a href="/print-preview/">All sheets</a>${beside(number - 1, "Before")}${beside(number + 1, "After")}
<span>Where a page ends, and the page numbers of references, are known when the binder is printed. Here each part is one long sheet.</span></nav>
${section.parts.map(
	({ head, label, html: part }) =>
		html`<section class="preview-sheet"><p class="preview-head"><span>${head === section.title ? "" : section.title}</span><span>${head}</span></p><div class="leaf-text">${part}</div><p class="preview-foot"><span>${label}</span><span>${sheets.foot}</span></p></section>`,
)}
</body>
</html>
`.text;
}
