/**
 * The frame of every page: head, way in, way around, caution.
 *
 * On a phone the main destinations stand in a bar within reach of the thumb, with the menu of all and
 * what to do in an emergency. Menu and emergency are popovers, which a browser opens and closes by
 * itself; on a wide screen the same menu stands open, as tabs on the edge of the sheet. No markup runs
 * or styles anything: the policy allows files of the site alone.
 */

import { HOME } from "../../scripts/views/addresses.ts";
import { POLICY } from "../../scripts/views/host-headers.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import { isPlaceLeftOut } from "../../scripts/views/left-out.ts";
import { CLUB_STYLES } from "../../scripts/views/pages.ts";
import { HEAD_FILE } from "../../scripts/views/search-files.ts";
import type { Words } from "../../scripts/words/words.ts";
import { closeKey, emergencyKey, emergencyPanel } from "./emergency.ts";
import { drawnBodies } from "./figures.ts";
import { type Sign, sign } from "./icons.ts";
import { a, contextOf, type PageContext, type ShownPage } from "./page.ts";
import { correctionAddress, installHead, linkPicture } from "./share-head.ts";

interface Destination {
	readonly to: string;
	readonly name: keyof Words["destinations"];
	readonly sign: Sign;
	/** In the bar of a phone as well. */
	readonly main?: true;
}

const DESTINATIONS: readonly Destination[] = [
	{ to: HOME, name: "thisWeek", sign: "week", main: true },
	{ to: "weeks/", name: "weeks", sign: "week" },
	{ to: "classes/", name: "classes", sign: "classes", main: true },
	{ to: "apparatus/", name: "apparatus", sign: "apparatus" },
	{ to: "drills/", name: "drills", sign: "drills", main: true },
	{ to: "search/", name: "search", sign: "search", main: true },
	{ to: "shapes/", name: "shapes", sign: "shapes" },
	{ to: "skills/", name: "skills", sign: "skills" },
	{ to: "levels/", name: "levels", sign: "levels" },
	{ to: "equipment/", name: "equipment", sign: "equipment" },
	{ to: "coverage/", name: "coverage", sign: "coverage" },
	{ to: "term/", name: "termOverview", sign: "term" },
	{ to: "measures/", name: "measures", sign: "measures" },
	{ to: "findings/", name: "findings", sign: "findings" },
	{ to: "guides/", name: "guides", sign: "guides" },
	{ to: "author-guide/", name: "authorGuide", sign: "author" },
	{ to: "about/", name: "safety", sign: "about" },
];

/** The whole document of a page, of whatever kind: for the site, the preview and devices alike. */
export function documentOf(
	page: ShownPage & { readonly main: (ctx: PageContext) => Html },
	highlight: PageContext["highlight"],
): string {
	const ctx = contextOf(page, highlight);
	const main = page.main(ctx);
	return frame(ctx, main, drawnBodies(ctx)).text;
}

/** What a page function wrote within its frame; `drawn` is what its pictures place, at the page's end. */
export function frame(ctx: PageContext, main: Html, drawn?: Html): Html {
	const { page } = ctx;
	const { crumbs = [] } = page;
	const { styles = [], scripts = [], firstPaint = false } = page.facts;
	const { club, term, language, contact } = page.frame;
	const say = ctx.words.frame;
	const title = page.address === HOME ? `${club}${ctx.words.colon}${term}` : `${page.title} · ${club}`;
	return html`<!DOCTYPE html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${raw(POLICY)}">
<meta name="robots" content="noindex">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="same-origin">
<title>${title}</title>
<meta name="description" content="${page.description?.() ?? say.description(page.title, club, term)}">
${linkPicture(ctx)}<link rel="icon" href="${ctx.way("assets/icon.svg")}" type="image/svg+xml">
${
	// On the search page what is searched comes before how it looks; a browser does not look ahead for
	// programs behind a policy in the page.
	page.kind === "search"
		? html`<link rel="preload" href="${ctx.way(HEAD_FILE)}" as="fetch" crossorigin>
<link rel="preload" href="${ctx.way("assets/search.js")}" as="script">`
		: html`<link rel="preload" href="${ctx.way("assets/text-latin.woff2")}" as="font" type="font/woff2" crossorigin>`
}
<link rel="stylesheet" href="${ctx.way("assets/site.css")}">
${styles.map((name) => html`<link rel="stylesheet" href="${ctx.way(`assets/${name}.css`)}">`)}${
	page.frame.styled && html`<link rel="stylesheet" href="${ctx.way(CLUB_STYLES)}">`
}
<script src="${ctx.way("assets/theme.js")}"></script>
${scripts.map((name) => html`<script src="${ctx.way(`assets/${name}.js`)}" defer${firstPaint && raw(' blocking="render"')}></script>`)}
${installHead(ctx)}
</head>
<body class="kind-${page.kind}">
<a class="skip" href="#main">${say.skip}</a>
<header class="top">
<a class="club" href="${ctx.way("")}">${mark(ctx)}<span>${club}</span></a>
<p class="term">${term}</p>
<button class="type-switch" type="button" hidden>${sign("type")}<span>${say.largeType}</span></button>
<button class="theme-switch" type="button" hidden>${sign("light")}<span>${say.theme}</span></button>
</header>
<div class="around">
<nav class="bar" aria-label="${say.main}"><ul>${page.frame.emergency && html`<li>${emergencyKey(ctx)}</li>`}${DESTINATIONS.filter(({ main }) => main).map((d) => destination(ctx, d))}<li><button type="button" popovertarget="all">${sign("menu")}${say.menu}</button></li></ul></nav>
<nav id="all" class="panel all" popover aria-label="${say.all}"><ul>${DESTINATIONS.filter(({ name }) => !isPlaceLeftOut(page.frame.leaveOut, name)).map((d) => destination(ctx, d))}</ul>${closeKey(ctx, "all")}</nav>
</div>
<div class="sheet">
<main id="main" tabindex="-1">
${
	crumbs.length > 0 &&
	html`<nav class="crumbs" aria-label="${say.crumbs}"><ol>${crumbs.map((crumb) => html`<li>${a(ctx, crumb)}</li>`)}</ol></nav>`
}
${main}
${drawn}
</main>
<footer>
${
	page.origin &&
	html`<p class="small origin">${ctx.words.frame.origin(page.origin)}</p>
`
}<p class="usual">${sign("caution")}<strong>${ctx.words.caution.first}</strong> ${ctx.words.caution.rest} <a href="${ctx.way("about/")}">${say.moreOnSafety}</a></p>
<p class="small colophon">${say.colophon(club, term)}${
		// A program fills it in: with the edition's name in it, every page would change with every edition.
		html`<span class="edition" hidden> ${say.edition(html`<b></b>`)}</span>`
	}${contact && html` ${say.report(html`<a href="${correctionAddress(ctx, contact)}">${say.reportLink}</a>`, contact)}`}</p>
</footer>
</div>
${emergencyPanel(ctx)}
</body>
</html>
`;
}

/** The club's logo, else a binder. The name stands beside it. */
function mark(ctx: PageContext): Html {
	const { logo } = ctx.page.frame;
	if (logo !== undefined)
		return html`<img class="logo" src="${ctx.way(logo.path)}" width="${logo.width}" height="${logo.height}" alt="">`;
	return html`<svg class="mark" viewBox="0 0 32 32" aria-hidden="true" focusable="false"><path d="M7 3h18v26H7z"/><path class="holes" d="M11 8h.01M11 16h.01M11 24h.01"/><path class="tab" d="M25 7h4v6h-4z"/></svg>`;
}

function destination(ctx: PageContext, d: Destination): Html {
	const here = ctx.page.facts.under === d.name;
	const exact = here && ctx.page.address === d.to;
	const name = ctx.words.destinations[d.name];
	return html`<li><a href="${ctx.way(d.to)}"${here && html` aria-current="${exact ? "page" : "true"}"`}>${sign(d.sign)}${name}</a></li>`;
}
