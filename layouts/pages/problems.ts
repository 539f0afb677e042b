/**
 * What the preview shows in place of every page while the content has errors.
 */

import type { Problem } from "../../scripts/problems.ts";
import { html } from "../../scripts/render/html.ts";
import type { Words } from "../../scripts/words/words.ts";

/**
 * A whole document, in the handbook's language. The messages themselves are written in English, as in
 * the terminal, and are marked so, for readers that speak them aloud.
 * The preview's server stands at the root of its host, so ways count from there.
 */
export function problemsPage(problems: readonly Problem[], words: Words): string {
	const say = words.problemsPage;
	const byFile = Map.groupBy(problems, (problem) => problem.place.file);
	const summary = say.errorsIn(problems.length, byFile.size);
	const english = words.language === "en" ? undefined : html` lang="en"`;
	return html`<!DOCTYPE html>
<html lang="${words.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>${say.toMend(summary)}</title>
<link rel="stylesheet" href="/assets/site.css">
</head>
<body class="kind-problems">
<div class="sheet"><main id="main">
<p class="eyebrow">${say.hidden}</p>
<h1>${summary}</h1>
${Array.from(
	byFile,
	([file, own]) =>
		html`<section class="part"><h2><span>${file}</span></h2><ul class="findings">${own.map(
			({ code, place, what, why, fix }) =>
				html`<li class="finding serious"><p><span class="code">${code}</span> <b>${say.place(place.line, place.column)}</b> <span${english}>${what}</span></p><p class="small"${english}>${why}</p><p${english}>${fix}</p></li>`,
		)}</ul></section>`,
)}
</main></div>
</body>
</html>
`.text;
}
