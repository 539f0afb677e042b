/**
 * The search page. The tool's markup is all here, so that nothing moves when its program starts; the
 * lists below it are pages of their own and serve without JavaScript.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { SearchView } from "../../scripts/views/search.ts";
import { a, type PageContext } from "../parts/page.ts";

export function searchPage(ctx: PageContext, view: SearchView): Html {
	const { words } = ctx;
	const say = words.search;
	return html`<h1>${words.home.find}</h1>
<div class="search-tool" id="search" data-head="${ctx.way(view.head)}" data-summaries="${ctx.way(view.summaries)}" data-texts="${view.texts.map((file) => ctx.way(file)).join(" ")}" data-root="${ctx.way("")}">
<form class="search-form" role="search" action="${ctx.way("search/")}" method="get">
<label for="search-words">${say.label}</label>
<div class="search-box">
<input id="search-words" name="q" type="search" role="combobox" autocomplete="off" autocapitalize="none" spellcheck="false" enterkeyhint="search" placeholder="${words.home.findExample}" aria-expanded="false" aria-autocomplete="list" aria-haspopup="listbox" aria-controls="search-suggestions">
<ul id="search-suggestions" class="search-suggestions" role="listbox" aria-label="${say.suggestions}" hidden></ul>
<button type="submit">${words.destinations.search}</button>
</div>
</form>
<div class="search-line">
<p class="search-count">${words.counts.drills(view.count)}</p>
<p class="search-live" role="status"></p>
<button class="search-share" type="button" hidden>${say.share}</button>
</div>
<p class="search-note" hidden></p>
<ul class="search-pages" aria-label="${say.pages}" hidden></ul>
<ul class="search-chosen" aria-label="${say.chosen}"></ul>
<div class="search-body">
<details class="search-filters"><summary>${say.filters}</summary><div class="search-facets"></div><button class="search-show" type="button">${say.show}</button></details>
<section class="search-results" aria-labelledby="search-results-title">
<h2 id="search-results-title" class="search-hidden">${say.found}</h2>
<ol class="search-hits waiting"></ol>
<button class="search-more" type="button" hidden>${say.more}</button>
</section>
</div>
</div>
${
	// Here, and not once all is read: it fetches what is searched while the browser reads on.
	html`<script src="${ctx.way("assets/search.js")}"></script>`
}
<noscript><p class="lead">${say.noScript}</p></noscript>
<section class="search-lists" aria-labelledby="search-lists-title">
<h2 id="search-lists-title">${say.lists}</h2>
<p>${a(ctx, { to: "drills/", name: say.all(view.count) })}</p>
${view.lists.map(
	({ id, title, entries }) => html`<section aria-labelledby="${id}">
<h3 id="${id}">${title}</h3>
<ul>${entries.map(({ link, count }) => html`<li>${a(ctx, link)} <span class="search-number">${count}</span></li>`)}</ul>
</section>`,
)}
</section>`;
}
