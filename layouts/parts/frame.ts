/**
 * The frame of every page: head, way in, way around, caution.
 *
 * On a phone the main destinations stand in a bar within reach of the thumb, with the menu of all and
 * what to do in an emergency. Menu and emergency are popovers, which a browser opens and closes by
 * itself; on a wide screen the same menu stands open, as tabs on the edge of the sheet. No markup runs
 * or styles anything: the policy allows files of the site alone.
 */

import { POLICY } from "../../scripts/views/host-headers.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { SitePageKind } from "../../scripts/views/pages.ts";
import { HEAD_FILE } from "../../scripts/views/search-files.ts";
import type { Words } from "../../scripts/words/words.ts";
import { closeKey, emergencyKey, emergencyPanel } from "./emergency.ts";
import { type Sign, sign } from "./icons.ts";
import { a, type PageContext } from "./page.ts";
import { correctionAddress, installHead, linkPicture } from "./share-head.ts";

interface Destination {
	readonly to: string;
	readonly name: keyof Words["destinations"];
	readonly sign: Sign;
	/** In the bar of a phone as well. */
	readonly main?: true;
	readonly kinds: readonly SitePageKind[];
}

const DESTINATIONS: readonly Destination[] = [
	{ to: "", name: "thisWeek", sign: "week", main: true, kinds: ["home"] },
	{ to: "weeks/", name: "weeks", sign: "week", kinds: ["calendar", "week", "week-apparatus"] },
	{
		to: "classes/",
		name: "classes",
		sign: "classes",
		main: true,
		kinds: ["classes", "class", "class-sheet"],
	},
	{ to: "apparatus/", name: "apparatus", sign: "apparatus", kinds: ["apparatus-list", "apparatus"] },
	{ to: "drills/", name: "drills", sign: "drills", main: true, kinds: ["drills", "drill"] },
	{ to: "search/", name: "search", sign: "search", main: true, kinds: ["search"] },
	{ to: "shapes/", name: "shapes", sign: "shapes", kinds: ["shapes", "shape"] },
	{ to: "skills/", name: "skills", sign: "skills", kinds: ["skills", "skill"] },
	{ to: "levels/", name: "levels", sign: "levels", kinds: ["levels", "level"] },
	{ to: "equipment/", name: "equipment", sign: "equipment", kinds: ["equipment-list", "equipment"] },
	{ to: "coverage/", name: "coverage", sign: "coverage", kinds: ["coverage-list", "coverage"] },
	{ to: "term/", name: "termOverview", sign: "term", kinds: ["term"] },
	{
		to: "measures/",
		name: "measures",
		sign: "measures",
		kinds: [
			"measures",
			"measure-spacing",
			"measure-order",
			"measure-balance",
			"measure-time",
			"measure-equipment",
			"measure-load",
			"measure-heights",
		],
	},
	{ to: "findings/", name: "findings", sign: "findings", kinds: ["findings"] },
	{ to: "guides/", name: "guides", sign: "guides", kinds: ["guides", "guide"] },
	{ to: "author-guide/", name: "authorGuide", sign: "author", kinds: ["author-guide"] },
	{ to: "about/", name: "safety", sign: "about", kinds: ["about", "what-changed"] },
];

/** The browser programs that a kind of page needs besides those of every page; the search page names its own. */
const SCRIPTS: Partial<Record<SitePageKind, readonly string[]>> = {
	home: ["todays-sheets", "this-week"],
	calendar: ["this-week"],
	classes: ["this-week"],
	class: ["todays-sheets", "this-week"],
	apparatus: ["this-week"],
	"class-sheet": ["class-clock", "class-hall"],
	coverage: ["coverage-cells"],
	drill: ["motion"],
	findings: ["copy-text"],
};

/** Pages whose programs write at their top: nothing is painted before, so that nothing moves after. */
const FIRST_PAINT: readonly SitePageKind[] = ["home", "class"];

/** The whole document around what a page function wrote; `drawn` is what its pictures place, at the page's end. */
export function frame(ctx: PageContext, main: Html, drawn?: Html): Html {
	const { page } = ctx;
	const { club, term, language, contact } = page.frame;
	const say = ctx.words.frame;
	const title = page.kind === "home" ? `${club}${ctx.words.colon}${term}` : `${page.title} · ${club}`;
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
<meta name="description" content="${page.description ?? say.description(page.title, club, term)}">
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
${page.kind === "coverage" && html`<link rel="stylesheet" href="${ctx.way("assets/coverage.css")}">`}
${page.kind === "search" && html`<link rel="stylesheet" href="${ctx.way("assets/search.css")}">`}
${page.kind === "class-sheet" && html`<link rel="stylesheet" href="${ctx.way("assets/hall.css")}">`}
${(page.kind === "week-apparatus" || page.kind === "drill") && html`<link rel="stylesheet" href="${ctx.way("assets/pictures.css")}">`}
<script src="${ctx.way("assets/theme.js")}"></script>
${(SCRIPTS[page.kind] ?? []).map((name) => html`<script src="${ctx.way(`assets/${name}.js`)}" defer${FIRST_PAINT.includes(page.kind) && raw(' blocking="render"')}></script>`)}
${installHead(ctx)}
</head>
<body class="kind-${page.kind}">
<a class="skip" href="#main">${say.skip}</a>
<header class="top">
<a class="club" href="${ctx.way("")}"><svg class="mark" viewBox="0 0 32 32" aria-hidden="true" focusable="false"><path d="M7 3h18v26H7z"/><path class="holes" d="M11 8h.01M11 16h.01M11 24h.01"/><path class="tab" d="M25 7h4v6h-4z"/></svg><span>${club}</span></a>
<p class="term">${term}</p>
<button class="type-switch" type="button" hidden>${sign("type")}<span>${say.largeType}</span></button>
<button class="theme-switch" type="button" hidden>${sign("light")}<span>${say.theme}</span></button>
</header>
<div class="around">
<nav class="bar" aria-label="${say.main}"><ul>${page.frame.emergency && html`<li>${emergencyKey(ctx)}</li>`}${DESTINATIONS.filter(({ main }) => main).map((d) => destination(ctx, d, "main"))}<li class="main"><button type="button" popovertarget="all">${sign("menu")}<span>${say.menu}</span></button></li></ul></nav>
<nav id="all" class="panel all" popover aria-label="${say.all}"><ul>${DESTINATIONS.map((d) => destination(ctx, d))}</ul>${closeKey(ctx, "all")}</nav>
</div>
<div class="sheet">
<main id="main" tabindex="-1">
${
	page.crumbs.length > 0 &&
	html`<nav class="crumbs" aria-label="${say.crumbs}"><ol>${page.crumbs.map((crumb) => html`<li>${a(ctx, crumb)}</li>`)}</ol></nav>`
}
${main}
${drawn}
</main>
<footer>
<p class="usual">${sign("caution")}<strong>${ctx.words.caution.first}</strong> ${ctx.words.caution.rest} <a href="${ctx.way("about/")}">${say.moreOnSafety}</a></p>
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

function destination(ctx: PageContext, d: Destination, className = ""): Html {
	const here = d.kinds.includes(ctx.page.kind);
	const exact = here && ctx.page.address === d.to;
	const name = ctx.words.destinations[d.name];
	const classes = [className, here ? "here" : ""].filter((one) => one !== "").join(" ");
	return html`<li${classes !== "" && html` class="${classes}"`}><a href="${ctx.way(d.to)}"${here && html` aria-current="${exact ? "page" : "true"}"`}>${sign(d.sign)}<span>${name}</span></a></li>`;
}
