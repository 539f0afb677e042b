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
 * The picture that services show with a link (Open Graph); title and description they take from the
 * page's own. Only where the club says its address: they take none but whole ones.
 */
export function linkPicture({ page }: PageContext): Html | undefined {
	const { site } = page.frame;
	if (site === undefined || page.picture === undefined) return undefined;
	return html`<meta property="og:image" content="${site}${page.picture}">
`;
}

/** The address of a letter about this page, with what it is about; a program adds in which edition. */
export function correctionAddress({ page, words }: PageContext, contact: string): string {
	const subject = words.frame.correction(page.title);
	return `mailto:${contact}?subject=${encodeURIComponent(subject)}`;
}
