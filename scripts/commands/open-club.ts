/** Opens a club and prepares its media, so that a broken picture stops a command as any other error does. */

import { type Handbook, type OpenOptions, openHandbook } from "../handbook.ts";
import type { SourceFile } from "../model.ts";
import { byPlace, type Problem } from "../problems.ts";
import { mediaCacheOf, prepareMedia } from "../site/media/prepare-media.ts";
import type { PreparedMedia } from "../views/medium.ts";

export interface OpenedClub {
	/** All problems of the folder and of its media, by file and line. */
	readonly problems: readonly Problem[];
	/** Undefined where one of the problems is an error. */
	readonly opened?: {
		readonly handbook: Handbook;
		readonly media: PreparedMedia;
		readonly files: readonly SourceFile[];
	};
}

/** @param keep whether resized pictures are kept for the next time */
export async function openClub(
	clubDir: string,
	{ keep, ...options }: OpenOptions & { readonly keep: boolean },
): Promise<OpenedClub> {
	const { problems, handbook, files } = openHandbook(clubDir, options);
	if (handbook === undefined) return { problems };
	const media = await prepareMedia(handbook, { cacheDir: mediaCacheOf(clubDir), keep });
	const all = [...problems, ...media.problems].sort(byPlace);
	return media.problems.length > 0
		? { problems: all }
		: { problems: all, opened: { handbook, media, files } };
}

/** Most often that files are left out because of files that were left out before. */
const MOST_ROUNDS = 5;

export interface RestOfClub {
	readonly opened: NonNullable<OpenedClub["opened"]>;
	readonly leftOut: readonly string[];
}

/**
 * The club without its files that have errors, and without those that then name what is not there: for
 * looking at, never for publishing. Undefined where nothing sound is left.
 */
export async function openRest(
	clubDir: string,
	problems: readonly Problem[],
	options: OpenOptions & { readonly keep: boolean },
): Promise<RestOfClub | undefined> {
	const leaveOut = new Set<string>();
	let left = problems;
	for (let round = 0; round < MOST_ROUNDS; round++) {
		const faulty = left.flatMap(({ severity, place }) => (severity === "error" ? [place.file] : []));
		const before = leaveOut.size;
		for (const file of faulty) leaveOut.add(file);
		if (leaveOut.size === before) return undefined;
		const { opened, problems: now } = await openClub(clubDir, { ...options, leaveOut });
		if (opened !== undefined) return { opened, leftOut: [...leaveOut] };
		left = now;
	}
	return undefined;
}
