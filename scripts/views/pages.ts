/**
 * What is known of every page of the staff site, whatever it shows, and the views of the few pages that
 * only list. Which kinds of pages there are stands in `layouts/pages/kinds.ts`.
 */

import type { PlanRecord } from "../compute/plan-record.ts";
import type { Handbook } from "../handbook.ts";
import type { Area, Origin } from "../model.ts";
import type { Place } from "../place.ts";
import { editionNameOf } from "../words/edition-name.ts";
import type { Words } from "../words/words.ts";
import { type Address, HOME, TAUGHT_SUMS } from "./addresses.ts";
import { COVERAGE_TABLES, coverageAddress } from "./coverage.ts";
import { type Link, linkTo } from "./links.ts";
import type { PreparedMedia, Rendition } from "./medium.ts";
import type { SiteIndex } from "./site-index.ts";
import type { BinderFile } from "./term.ts";

/** A page without what it shows. */
export interface PageFacts {
	/** Its folder's path from the root, ending in a slash, or a file's path. */
	readonly address: Address;
	readonly title: string;
	/** One sentence for the page's head. */
	readonly description?: () => string | undefined;
	/** The pages above it, home left out. */
	readonly crumbs?: readonly Link[];
	/** The picture that a link to it is shown with, from the root of the site. */
	readonly picture?: string | undefined;
	/** Where what it shows comes from, if a library has it. */
	readonly origin?: Origin | undefined;
	/** Where what it shows is written; not for pages that are counted from many files. */
	readonly written?: () => Place;
}

/** What all pages of a kind have. */
export interface KindFacts {
	/** The place in the menu that it belongs to. */
	readonly under?: keyof Words["destinations"];
	/** Style sheets and programs that it needs besides those of every page, by their names in `assets/`. */
	readonly styles?: readonly string[];
	readonly scripts?: readonly string[];
	/** Its programs write at its top: nothing is painted before, so that nothing moves after. */
	readonly firstPaint?: true;
	/** Devices take it as the build made it: its words are large for one page, or of an earlier plan. */
	readonly readyMade?: true;
}

export type CoverageListView = ReturnType<typeof coverageListView>;

export type AboutView = ReturnType<typeof aboutView>;

export type NotFoundView = ReturnType<typeof notFoundView>;

export function coverageListView({ handbook, words }: SiteIndex) {
	return {
		tables: COVERAGE_TABLES.map((table) => ({
			link: { to: coverageAddress(table), name: words.coverage.tables[table.id].title },
			question: words.coverage.tables[table.id].question,
		})),
		files: [...handbook.tables.keys()].map((name) => ({ to: `data/${name}.csv`, name: `${name}.csv` })),
	};
}

export function aboutView(
	{ curriculum, handbook, words }: SiteIndex,
	{ binder, program }: Pick<SiteOptions, "binder" | "program">,
) {
	const { club } = curriculum;
	return {
		club: club.name,
		contact: club.contact,
		emergency: club.emergency,
		/** Sums of what coaches reported, where the club publishes them. */
		sums: club.taughtSums ? { to: TAUGHT_SUMS, name: words.about.sums.title } : undefined,
		/** Its number and day. */
		edition: editionNameOf(handbook),
		findings: handbook.findings.length,
		binder,
		/** The program that made the site, with its version. */
		program,
	};
}

export function notFoundView({ words }: SiteIndex) {
	return {
		places: [
			{ to: HOME, name: words.destinations.thisWeek },
			{ to: "drills/", name: words.notFound.drills },
			{ to: "search/", name: words.destinations.search },
		],
	};
}

/** What the frame of every page says of the club. */
export interface FrameFacts {
	readonly club: string;
	readonly term: string;
	readonly language: string;
	readonly words: Words;
	readonly contact: string | undefined;
	/** What to do first when somebody is hurt, and the guide that says more; undefined where the club says nothing. */
	readonly emergency: { readonly words: string; readonly guide: Link | undefined } | undefined;
	/** The path of the site on its host, for the page that stands at any address. */
	readonly root: string;
	/** The site's address, ending in a slash, where the club says it. */
	readonly site: string | undefined;
	/** Whether the site can be kept on a device; a preview cannot. */
	readonly kept: boolean;
	/** Printed sheets that can be linked to, as files from the root of the site. */
	readonly printed: ReadonlySet<string>;
	/** The page that says what changed, where there is one. */
	readonly changes: string | undefined;
	/** The club's logo, in the place of the mark. */
	readonly logo: Rendition | undefined;
	/** Whether the club has styles of its own, in `CLUB_STYLES`. */
	readonly styled: boolean;
	/** Areas that this site does without. */
	readonly leaveOut: ReadonlySet<Area>;
}

/** What pages show of a handbook: everything but the folder that it was read from. */
export type ShownHandbook = Omit<Handbook, "clubDir" | "fingerprint" | "libraries" | "theirs">;

export interface SiteOptions {
	/** Whether a worker is written that keeps the site on the reader's device. */
	readonly kept?: boolean;
	/** An earlier plan: with it, a page says what changed since. */
	readonly since?: PlanRecord;
	/** Whether there is such a page, where it is not made here. */
	readonly changed?: boolean;
	/** Pictures and videos as they are served; without them pages show none. */
	readonly media?: PreparedMedia;
	/** Printed sheets that stand beside the site, as files from its root. */
	readonly printed?: ReadonlySet<string>;
	/** The binder, where it is one of them. */
	readonly binder?: BinderFile;
	/** Areas that the site does without. */
	readonly leaveOut?: readonly Area[];
	/** The program that made it, with its version. */
	readonly program?: string;
}

/** The club's own styles, as a file from the root of the site. */
export const CLUB_STYLES = "assets/club.css";

/** Whether there are any: a colour, or a style sheet. */
export function isStyled({ curriculum, style }: Pick<Handbook, "curriculum" | "style">): boolean {
	return style !== undefined || curriculum.club.colour !== undefined;
}

const NOTHING_PRINTED: ReadonlySet<string> = new Set();

/** What the frame says, for all pages alike. */
export function frameFacts(
	handbook: Pick<Handbook, "curriculum" | "style" | "words">,
	{
		kept = false,
		since,
		changed = since !== undefined,
		printed = NOTHING_PRINTED,
		media,
		leaveOut = [],
	}: SiteOptions = {},
): FrameFacts {
	const { club, term } = handbook.curriculum;
	return {
		club: club.name,
		term: term.name,
		language: club.language,
		words: handbook.words,
		contact: club.contact,
		emergency:
			club.emergency === undefined ? undefined : { words: club.emergency, guide: emergencyGuide(handbook) },
		root: club.site === undefined ? "/" : new URL(".", club.site).pathname,
		site: club.site === undefined ? undefined : new URL(".", club.site).href,
		kept,
		printed,
		changes: changed ? WHAT_CHANGED : undefined,
		logo: media?.logo,
		styled: isStyled(handbook),
		leaveOut: new Set(leaveOut),
	};
}

function emergencyGuide({ curriculum }: Pick<Handbook, "curriculum">): Link | undefined {
	const id = curriculum.club.emergencyGuide;
	return id === undefined ? undefined : linkTo(curriculum, "guide", id);
}

/** Where the page stands that says what changed. */
export const WHAT_CHANGED = "what-changed/";
