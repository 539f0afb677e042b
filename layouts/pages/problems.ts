/**
 * What the preview shows in place of every page while the content has errors.
 */

import type { Problem } from "../../scripts/problems.ts";
import { html } from "../../scripts/render/html.ts";

/** A whole document. The preview's server stands at the root of its host, so ways count from there. */
export function problemsPage(problems: readonly Problem[], summary: string): string {
	const byFile = Map.groupBy(problems, (problem) => problem.place.file);
	return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>To mend: ${summary}</title>
<link rel="stylesheet" href="/assets/site.css">
</head>
<body class="kind-problems">
<div class="sheet"><main id="main">
<p class="eyebrow">The last good page stays hidden until this is mended</p>
<h1>${summary}</h1>
${Array.from(
	byFile,
	([file, own]) =>
		html`<section class="part"><h2><span>${file}</span></h2><ul class="findings">${own.map(
			({ code, place, what, why, fix }) =>
				html`<li class="finding serious"><p><span class="code">${code}</span> <b>line ${place.line}, column ${place.column}</b> ${what}</p><p class="small">${why}</p><p>${fix}</p></li>`,
		)}</ul></section>`,
)}
</main></div>
</body>
</html>
`.text;
}
