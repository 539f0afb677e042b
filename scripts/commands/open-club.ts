/** Opens a club and prepares its media, so that a broken picture stops a command as any other error does. */

import { type Handbook, type OpenOptions, openHandbook } from "../handbook.ts";
import { byPlace, type Problem } from "../problems.ts";
import type { PreparedMedia } from "../render/media/medium.ts";
import { mediaCacheOf, prepareMedia } from "../render/media/prepare-media.ts";

export interface OpenedClub {
	/** All problems of the folder and of its media, by file and line. */
	readonly problems: readonly Problem[];
	/** Undefined where one of the problems is an error. */
	readonly opened?: { readonly handbook: Handbook; readonly media: PreparedMedia };
}

/** @param keep whether resized pictures are kept for the next time */
export async function openClub(
	clubDir: string,
	{ keep, ...options }: OpenOptions & { readonly keep: boolean },
): Promise<OpenedClub> {
	const { problems, handbook } = openHandbook(clubDir, options);
	if (handbook === undefined) return { problems };
	const media = await prepareMedia(handbook, { cacheDir: mediaCacheOf(clubDir), keep });
	const all = [...problems, ...media.problems].sort(byPlace);
	return media.problems.length > 0 ? { problems: all } : { problems: all, opened: { handbook, media } };
}
