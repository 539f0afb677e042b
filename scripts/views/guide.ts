/**
 * The club's guides: the list, and the page of one.
 */

import type { Guide } from "../model.ts";
import { addressOf } from "./addresses.ts";
import type { Html } from "./html.ts";
import { type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export interface GuidesView {
	readonly guides: readonly Link[];
}

export interface GuideView {
	readonly link: Link;
	/** In plain words. */
	readonly title: string;
	readonly body: Html;
	readonly previous: Link | undefined;
	readonly next: Link | undefined;
}

/** All guides in the club's order. */
export function guidesView({ curriculum }: SiteIndex): GuidesView {
	return { guides: [...curriculum.guides.keys()].map((id) => linkTo(curriculum, "guide", id)) };
}

/** One guide. */
export function guideView(site: SiteIndex, guide: Guide): GuideView {
	const ids = [...site.curriculum.guides.keys()];
	const at = ids.indexOf(guide.id);
	const beside = (id: string | undefined) =>
		id === undefined ? undefined : linkTo(site.curriculum, "guide", id);
	return {
		link: linkTo(site.curriculum, "guide", guide.id),
		title: site.handbook.markdown.plain(guide.title),
		body: site.block(addressOf({ kind: "guide", id: guide.id }), guide.body),
		previous: beside(ids[at - 1]),
		next: beside(ids[at + 1]),
	};
}
