/** Every page of the staff site, in one list. */

import { addressFile } from "../../scripts/views/addresses.ts";
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
export function sitePages(handbook: ShownHandbook, options?: SiteOptions): readonly SitePage[] {
	return pageLists(handbook, options).flatMap((pages) => pages());
}

/** The same for a device, which asks for one page by its file: kinds are listed until one has it. */
export function pageFinder(
	handbook: ShownHandbook,
	options: SiteOptions,
): (file: string) => SitePage | undefined {
	const lists = pageLists(handbook, options);
	return (file) => {
		for (const pages of lists) {
			const page = pages(file).find(({ address }) => addressFile(address) === file);
			if (page !== undefined) return page;
		}
		return undefined;
	};
}

/** The pages of each kind, listed when they are asked for. */
function pageLists(
	handbook: ShownHandbook,
	{ media = NO_MEDIA, ...options }: SiteOptions = {},
): readonly ((file?: string) => readonly SitePage[])[] {
	const site = indexSite(handbook, media);
	const frame = frameFacts(handbook, { ...options, media });
	const kinds = (Object.entries(KINDS) as readonly [KindName, Kind][]).filter(
		([, { under }]) => under === undefined || !isPlaceLeftOut(frame.leaveOut, under),
	);
	return kinds.map(
		([kind, facts]) =>
			(file) =>
				facts.pages(site, options, file).map((page) => ({ ...page, kind, facts, frame })),
	);
}
