/** Pictures and videos as pages show them. */

import type { Problem } from "../problems.ts";

/** One size of a picture. */
export interface Rendition {
	/** From the root of the site. */
	readonly path: string;
	readonly width: number;
	readonly height: number;
}

export interface Picture {
	readonly kind: "picture";
	/** Narrowest first, at least one. */
	readonly sizes: readonly Rendition[];
}

export interface Video {
	readonly kind: "video";
	readonly path: string;
	readonly type: string;
	readonly width: number;
	readonly height: number;
	readonly poster: Rendition;
}

export type Medium = Picture | Video;

export interface PreparedMedia {
	/** By drill, one for each of its `media`; undefined where it cannot be used. */
	readonly byDrill: ReadonlyMap<string, readonly (Medium | undefined)[]>;
	/** The club's logo. */
	readonly logo?: Rendition;
	readonly problems: readonly Problem[];
	/** The bytes of every file, by its path from the root of the site. */
	readonly files: ReadonlyMap<string, () => Uint8Array>;
}

/** What pages show where no media were prepared. */
export const NO_MEDIA: PreparedMedia = { byDrill: new Map(), problems: [], files: new Map() };
