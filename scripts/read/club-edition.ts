/**
 * Editions: a number that grows and a day, by which coaches tell which of two leaves is newer.
 *
 *   - the number is that of the edition before plus one where the content is another, else the same, with
 *     the same day; the day is that on which this content was first issued, in the club's time zone
 *   - what was issued last is known from two records, of which the larger number counts: one in the club
 *     folder, which travels with the content, and one in the output, where the folder cannot be written
 *   - content is what the club wrote, letter for letter (pages name lines of files), and its media
 */

import { Temporal } from "temporal-polyfill";
import { type Folder, openFolder } from "../files/folder.ts";
import { sha256, startHash } from "../files/hash.ts";
import type { ClubEdition } from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import { mediaFolder, mediaHome } from "./inspect-media.ts";
import type { ReadClub } from "./read-club.ts";

export const CLUB_RECORD = "_data/edition.json";

export const OUTPUT_RECORD = "data/edition.json";

/** Letters of a hash that are kept: 80 bits. */
const CONTENT_LENGTH = 20;

/** The record's text, the same for the same edition. */
export function editionRecord({ number, date, content }: ClubEdition): string {
	return `${JSON.stringify({ number, date, content }, null, "\t")}\n`;
}

/** The record of the club folder, if there is one, and what is wrong with it. */
export function clubRecord(clubDir: string): { readonly edition?: ClubEdition; readonly problem?: Problem } {
	const text = textOf(clubDir, CLUB_RECORD);
	if (text === undefined) return {};
	const edition = recordIn(text);
	if (edition !== undefined) return { edition };
	const place = { file: CLUB_RECORD, line: 1, column: 1 };
	return { problem: problem("H118", place, `\`${CLUB_RECORD}\` is no record of an edition.`) };
}

/** The record of an output folder; undefined where there is none that can be read. */
export function outputRecord(outDir: string): ClubEdition | undefined {
	const text = textOf(outDir, OUTPUT_RECORD);
	return text === undefined ? undefined : recordIn(text);
}

/**
 * The hash of what a club wrote, and of the pictures and videos that it names, in its folder or a library's.
 *
 * @param sums what is published of reports, which are not in the fingerprint
 */
export function contentHash(
	{ fingerprint }: Pick<ReadClub, "fingerprint">,
	folders: readonly string[],
	media: readonly string[],
	sums = "",
): string {
	const hash = startHash();
	hash.update(fingerprint + sums);
	for (const file of [...new Set(media)].sort()) {
		const bytes = bytesOf(mediaFolder(mediaHome(folders, file)), file);
		if (bytes === undefined) continue;
		hash.update(`${file}\0${sha256(bytes)}\0`);
	}
	return hash.digest("hex").slice(0, CONTENT_LENGTH);
}

/**
 * The edition of a content.
 *
 * Where two records have the same number and are of different contents (two people issued it, each on a
 * machine of their own), the next number is taken: two different binders of one club never carry the same.
 *
 * @param known what was issued before, in any order
 * @param today ISO 8601
 */
export function editionAfter(known: readonly ClubEdition[], content: string, today: string): ClubEdition {
	const number = Math.max(0, ...known.map((edition) => edition.number));
	const last = known.filter((edition) => edition.number === number);
	const isSame = last.length > 0 && last.every((edition) => edition.content === content);
	if (!isSame) return { number: number + 1, date: today, content };
	const [date = today] = last.map((edition) => edition.date).sort();
	return { number, date, content };
}

/** The day at a moment in a time zone, as an ISO 8601 date. */
export function dayIn(timezone: string, now: Date): string {
	return Temporal.Instant.fromEpochMilliseconds(now.getTime())
		.toZonedDateTimeISO(timezone)
		.toPlainDate()
		.toString();
}

function recordIn(text: string): ClubEdition | undefined {
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch {
		return undefined;
	}
	if (typeof value !== "object" || value === null) return undefined;
	if (!("number" in value && "date" in value && "content" in value)) return undefined;
	const { number, date, content } = value;
	if (typeof number !== "number" || !Number.isSafeInteger(number) || number < 1) return undefined;
	if (typeof content !== "string" || typeof date !== "string" || !isDay(date)) return undefined;
	return { number, date, content };
}

function isDay(date: string): boolean {
	try {
		return Temporal.PlainDate.from(date).toString() === date;
	} catch {
		return false;
	}
}

/** Undefined where there is none that can be read: a folder that is not there, a link that leads out. */
function textOf(dir: string, file: string): string | undefined {
	try {
		return openFolder(dir).readText(file);
	} catch {
		return undefined;
	}
}

function bytesOf(folder: Folder | undefined, file: string): Buffer | undefined {
	try {
		return folder?.read(file);
	} catch {
		return undefined;
	}
}
