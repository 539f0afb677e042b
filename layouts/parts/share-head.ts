/**
 * What a page's head says to others than its reader: to the device that installs it, and to services that
 * show a link to it. Nothing is said to search engines: a staff site asks not to be listed.
 */

import { WORKER_FILE } from "../../scripts/records/edition-list.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { GROUNDS, MANIFEST_FILE } from "../../scripts/views/manifest.ts";
import type { PageContext } from "./page.ts";

/** For installing: manifest, icons, colours, and the worker that keeps the site. */
export function installHead(ctx: PageContext): Html {
	return html`<link rel="manifest" href="${ctx.way(MANIFEST_FILE)}" crossorigin="use-credentials">
<link rel="apple-touch-icon" href="${ctx.way("assets/icon-touch.png")}">
<meta name="theme-color" content="${GROUNDS.light}" media="(prefers-color-scheme: light)">
<meta name="theme-color" content="${GROUNDS.dark}" media="(prefers-color-scheme: dark)">
${ctx.page.frame.kept && html`<meta name="handbook-worker" content="${ctx.way(WORKER_FILE)}">`}
<script src="${ctx.way("assets/edition.js")}" defer></script>`;
}

/**
 * For services that show links (Open Graph). Only where
 * the club says its address: they take none but whole ones. Whole lines, so that without them nothing
 * of them is left.
 */
export function linkHead({ page }: PageContext, title: string): Html | undefined {
	const { site, club, language } = page.frame;
	if (site === undefined || page.kind === "not-found") return undefined;
	const picture = page.picture ?? "assets/icon-512.png";
	return html`<meta property="og:type" content="website">
<meta property="og:site_name" content="${club}">
<meta property="og:locale" content="${language.replace("-", "_")}">
<meta property="og:title" content="${title}">
${
	page.description &&
	html`<meta property="og:description" content="${page.description}">
`
}<meta property="og:url" content="${site}${page.address}">
<meta property="og:image" content="${site}${picture}">
<meta property="og:image:alt" content="${page.picture === undefined ? club : page.title}">
`;
}

/** The address of a letter about this page, with what it is about; a program adds in which edition. */
export function correctionAddress({ page, words }: PageContext, contact: string): string {
	const subject = words.frame.correction(page.title);
	return `mailto:${contact}?subject=${encodeURIComponent(subject)}`;
}
