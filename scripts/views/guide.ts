/**
 * The club's guides: the list, and the page of one.
 */

import type { Guide } from "../model.ts";
import { addressOf } from "./addresses.ts";
import { linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export type GuidesView = ReturnType<typeof guidesView>;

export type GuideView = ReturnType<typeof guideView>;

/** All guides in the club's order. */
export function guidesView({ curriculum }: SiteIndex) {
	return { guides: [...curriculum.guides.keys()].map((id) => linkTo(curriculum, "guide", id)) };
}

export function guideView(site: SiteIndex, guide: Guide) {
	const ids = [...site.curriculum.guides.keys()];
	const at = ids.indexOf(guide.id);
	const beside = (id: string | undefined) =>
		id === undefined ? undefined : linkTo(site.curriculum, "guide", id);
	return {
		link: linkTo(site.curriculum, "guide", guide.id),
		/** In plain words. */
		title: site.handbook.markdown.plain(guide.title),
		body: site.block(addressOf({ kind: "guide", id: guide.id }), guide.body),
		previous: beside(ids[at - 1]),
		next: beside(ids[at + 1]),
	};
}
