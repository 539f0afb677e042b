/**
 * What a page's head says to others than its reader: to the device that installs it, to services that
 * show a link to it, and to programs that read what a drill is.
 */

import { type Html, html, raw } from "../../scripts/render/html.ts";
import { GROUNDS, MANIFEST_FILE } from "../../scripts/render/manifest.ts";
import { WORKER_FILE } from "../../scripts/render/offline/edition-list.ts";
import type { DrillView } from "../../scripts/render/views/drill.ts";
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
 * For services that show links (Open Graph; a card of it is all that others read as well). Only where
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
<meta name="twitter:card" content="${page.picture === undefined ? "summary" : "summary_large_image"}">
`;
}

/** A drill for programs: schema.org's ExercisePlan as JSON-LD, a block of data that no browser runs. */
export function exercisePlan({ page, words }: PageContext, view: DrillView): Html {
	const { site, club, language } = page.frame;
	const names = (links: readonly { readonly name: string }[]) => links.map(({ name }) => name);
	const plan = {
		"@context": "https://schema.org",
		"@type": "ExercisePlan",
		name: view.title,
		description: page.description,
		alternateName: view.aliases.length > 0 ? view.aliases : undefined,
		inLanguage: language,
		exerciseType: names(view.apparatus).join(", "),
		category: names(view.skills),
		keywords: names(view.shapes),
		repetitions: view.levels
			.filter(({ dose }) => dose !== "")
			.map(({ level, dose }) => `${level.name}: ${dose}`),
		workload: view.contacts && {
			"@type": "QuantitativeValue",
			description: words.drill.contactsPlanned,
			value: view.contacts.landings + view.contacts.hands,
		},
		dateModified: view.reviewed?.iso,
		isPartOf: { "@type": "CreativeWork", name: words.frame.handbookOf(club) },
		author: { "@type": "SportsClub", name: club },
		...(site === undefined
			? {}
			: {
					url: site + page.address,
					image: page.picture === undefined ? undefined : site + page.picture,
				}),
	};
	// `<` would end the block wherever it stood, and a reference would not be read as the character.
	const text = JSON.stringify(plan).replace(
		/[<\u0100-\uffff]/g,
		(character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`,
	);
	return raw(`<script type="application/ld+json">${text}</script>`);
}

/** The address of a letter about this page, with what it is about; a program adds in which edition. */
export function correctionAddress({ page, words }: PageContext, contact: string): string {
	const subject = words.frame.correction(page.title);
	return `mailto:${contact}?subject=${encodeURIComponent(subject)}`;
}
