/** Every page of the staff site, in one list. */

import { isPlaceLeftOut } from "../../scripts/views/left-out.ts";
import { NO_MEDIA } from "../../scripts/views/medium.ts";
import {
	type FrameFacts,
	frameFacts,
	type KindFacts,
	type ShownHandbook,
	type SiteOptions,
} from "../../scripts/views/pages.ts";
import { indexSite } from "../../scripts/views/site-index.ts";
import { KINDS, type Kind, type KindName, type WrittenPage } from "./kinds.ts";

export interface SitePage extends WrittenPage {
	readonly kind: KindName;
	readonly facts: KindFacts;
	readonly frame: FrameFacts;
}

/**
 * The pages of a handbook, home first. Addresses are distinct because ids are. The index is worked out
 * once; a club of ten thousand drills does not hold ten thousand views.
 */
export function sitePages(
	handbook: ShownHandbook,
	{ media = NO_MEDIA, ...options }: SiteOptions = {},
): readonly SitePage[] {
	const site = indexSite(handbook, media);
	const frame = frameFacts(handbook, { ...options, media });
	const kinds = (Object.entries(KINDS) as readonly [KindName, Kind][]).filter(
		([, { under }]) => under === undefined || !isPlaceLeftOut(frame.leaveOut, under),
	);
	return kinds.flatMap(([kind, facts]) =>
		facts.pages(site, options).map((page) => ({ ...page, kind, facts, frame })),
	);
}
