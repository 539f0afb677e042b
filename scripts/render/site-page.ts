/**
 * A page that makes its view when it is asked for.
 *
 * A class, since Eleventy copies plain objects for every page, and would make every view to do so.
 */

import type { Address } from "./addresses.ts";
import type { PageOf, SitePage, SitePageKind, Views } from "./site.ts";
import type { Link } from "./views/links.ts";

/** A page of a kind; `view` is called each time that its view is read. */
export function sitePage<K extends SitePageKind>(
	kind: K,
	address: Address,
	title: string,
	about: Pick<PageOf<K>, "description" | "crumbs" | "picture" | "frame">,
	view: () => Views[K],
): SitePage {
	// Each kind is built with its own view; the union cannot follow that through a type parameter.
	return new LazyPage(kind, address, title, about, view) as unknown as SitePage;
}

class LazyPage<K extends SitePageKind> implements PageOf<K> {
	readonly kind: K;
	readonly address: Address;
	readonly title: string;
	readonly description: string | undefined;
	readonly crumbs: readonly Link[];
	readonly picture: string | undefined;
	readonly frame: PageOf<K>["frame"];
	readonly #view: () => Views[K];

	constructor(
		kind: K,
		address: Address,
		title: string,
		about: Pick<PageOf<K>, "description" | "crumbs" | "picture" | "frame">,
		view: () => Views[K],
	) {
		this.kind = kind;
		this.address = address;
		this.title = title;
		this.description = about.description;
		this.crumbs = about.crumbs;
		this.picture = about.picture;
		this.frame = about.frame;
		this.#view = view;
	}

	get view(): Views[K] {
		return this.#view();
	}
}
