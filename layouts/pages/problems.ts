/**
 * What the preview shows while the content has errors: a page of all of them, and on every other page,
 * which stays as it was, a notice that names them.
 */

import type { Problem } from "../../scripts/problems.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { Words } from "../../scripts/words/words.ts";

/**
 * A whole document, in the handbook's language. The messages themselves are written in English, as in
 * the terminal, and are marked so, for readers that speak them aloud.
 * `isShown` says that the other pages can be seen as they were.
 * The preview's server stands at the root of its host, so ways count from there.
 */
export function problemsPage(
	problems: readonly Problem[],
	words: Words,
	{ isShown = false }: { readonly isShown?: boolean } = {},
): string {
	const say = words.problemsPage;
	const byFile = Map.groupBy(problems, (problem) => problem.place.file);
	const summary = say.errorsIn(problems.length, byFile.size);
	const english = inEnglish(words);
	return html`<!DOCTYPE html>
<html lang="${words.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>${say.toMend(summary)}</title>
<link rel="stylesheet" href="/assets/site.css">
<link rel="stylesheet" href="/preview.css">
</head>
<body class="kind-problems">
<div class="sheet"><main id="main">
<p class="eyebrow">${isShown ? html`<a href="/">${say.lastGood}</a>` : say.hidden}</p>
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

/** Problems that a notice spells out; the page of all of them has the rest. */
const MOST_IN_NOTICE = 3;

/** What a page of the preview is missing while the content has errors. */
export interface LastGood {
	readonly problems: readonly Problem[];
	/** Files without which the handbook was read, because it had errors from the first. */
	readonly leftOut: readonly string[];
}

/**
 * A page of the last good state with a notice at its head that names what is to be mended, the mistakes
 * of the page's own file first.
 *
 * @param file where the page is written; undefined for pages that are counted from many files
 */
export function withNotice(page: string, good: LastGood, words: Words, file: string | undefined): string {
	const text = notice(good, words, file).text;
	const start = /<main\b[^>]*>/.exec(page) ?? /<body\b[^>]*>/.exec(page);
	if (start === null) return page;
	const at = start.index + start[0].length;
	return `${page.slice(0, at)}\n${text}${page.slice(at)}`;
}

function notice({ problems, leftOut }: LastGood, words: Words, file: string | undefined): Html {
	const say = words.problemsPage;
	const isOwn = ({ place }: Problem): boolean => place.file === file;
	const own = problems.filter(isOwn);
	const first = [...own, ...problems.filter((one) => !isOwn(one))].slice(0, MOST_IN_NOTICE);
	const summary = say.errorsIn(problems.length, new Set(problems.map(({ place }) => place.file)).size);
	const english = inEnglish(words);
	return html`<aside class="preview-notice" role="alert"><p><strong>${say.toMend(summary)}</strong> ${
		leftOut.length > 0 ? say.leftOut(words.and(leftOut)) : own.length > 0 ? say.ownFile : say.before
	}</p><ul>${first.map(
		({ code, place, what, fix }) =>
			html`<li><code>${place.file}</code> <b>${say.place(place.line, place.column)}</b> <span${english}>${code} ${what} ${fix}</span></li>`,
	)}</ul><p><a href="/${PROBLEMS_ADDRESS}">${say.all(problems.length)}</a></p></aside>`;
}

/** Where the preview lists all errors. */
export const PROBLEMS_ADDRESS = "problems/";

function inEnglish(words: Words): Html | undefined {
	return words.language === "en" ? undefined : html` lang="en"`;
}
