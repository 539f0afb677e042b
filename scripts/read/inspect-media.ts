/**
 * Looks at a picture or video of the club before anything is made of it: whether it is there, inside the
 * media folder, of a kind that is shown, and what its name says it is. Whether all of it can be decoded
 * shows when it is resized (site/media).
 */

import { extname } from "node:path";
import { type Folder, LeadsOut, openFolder } from "../files/folder.ts";
import { MEDIA_FOLDER } from "./read-club.ts";

export type MediaKind = "picture" | "video";

/** What is wrong with a file, and what to do where the catalogue's words do not fit. */
export interface MediaFault {
	readonly what: string;
	readonly fix?: string;
}

interface Format {
	readonly kind: MediaKind;
	readonly name: string;
	/** Whether the first bytes are of this format. */
	readonly begins: (head: Buffer) => boolean;
}

const text = (head: Buffer, from: number, to: number): string => head.subarray(from, to).toString("latin1");

const JPEG: Format = {
	kind: "picture",
	name: "JPEG picture",
	begins: (head) => head[0] === 0xff && head[1] === 0xd8 && head[2] === 0xff,
};
const MP4: Format = { kind: "video", name: "MP4 video", begins: (head) => text(head, 4, 8) === "ftyp" };

/** Formats that are shown, by ending. */
const FORMATS: ReadonlyMap<string, Format> = new Map([
	[".jpg", JPEG],
	[".jpeg", JPEG],
	[
		".png",
		{ kind: "picture", name: "PNG picture", begins: (head) => text(head, 0, 8) === "\x89PNG\r\n\x1a\n" },
	],
	[
		".webp",
		{
			kind: "picture",
			name: "WebP picture",
			begins: (head) => text(head, 0, 4) === "RIFF" && text(head, 8, 12) === "WEBP",
		},
	],
	[
		".avif",
		{
			kind: "picture",
			name: "AVIF picture",
			begins: (head) => text(head, 4, 8) === "ftyp" && /^avi[fs]/.test(text(head, 8, 12)),
		},
	],
	[".gif", { kind: "picture", name: "GIF picture", begins: (head) => /^GIF8[79]a/.test(text(head, 0, 6)) }],
	[
		".svg",
		{ kind: "picture", name: "SVG drawing", begins: (head) => /<svg[\s>]/.test(head.toString("utf8")) },
	],
	[".mp4", MP4],
	[".m4v", MP4],
	[".webm", { kind: "video", name: "WebM video", begins: (head) => head.readUInt32BE(0) === 0x1a45dfa3 }],
]);

/** Common kinds that browsers do not show, and what to save them as. */
const ELSEWHERE: ReadonlyMap<string, string> = new Map([
	[".heic", "Save it as a JPEG."],
	[".heif", "Save it as a JPEG."],
	[".tif", "Save it as a JPEG or PNG."],
	[".tiff", "Save it as a JPEG or PNG."],
	[".bmp", "Save it as a PNG."],
	[".mov", "Save it as an MP4."],
	[".avi", "Save it as an MP4."],
	[".mkv", "Save it as an MP4 or WebM."],
	[".pdf", "Save the page as a PNG."],
]);

const KNOWN_ENDINGS = "JPEG, PNG, WebP, AVIF, GIF and SVG are shown as pictures, MP4 and WebM as videos";

/** Bytes looked at: an SVG may begin with a long comment. */
const HEAD = 4096;

/** What the ending of a name says; undefined where it is none that is shown. */
export function mediaKindOf(file: string): MediaKind | undefined {
	return FORMATS.get(extname(file).toLowerCase())?.kind;
}

/**
 * What is wrong with a file of the media folder; undefined where nothing is.
 *
 * @param file its name as a drill writes it, inside `content/media`
 * @param wanted what it has to be, where only one kind will do
 */
export function mediaFault(clubDir: string, file: string, wanted?: MediaKind): MediaFault | undefined {
	const absent = { what: `There is no picture or video \`${file}\` in \`content/media\`.` };
	if (!/^[^/\\:]+(\/[^/\\:]+)*$/.test(file) || file.split("/").some((part) => part.startsWith(".")))
		return absent;
	const media = mediaFolder(clubDir);
	if (media === undefined || !isFileWithin(media, file)) return absent;

	const ending = extname(file).toLowerCase();
	const format = FORMATS.get(ending);
	if (format === undefined) {
		return {
			what: `\`${file}\` is of a kind that pages cannot show.`,
			fix: ELSEWHERE.get(ending) ?? `${KNOWN_ENDINGS}: save it as one of these.`,
		};
	}
	if (wanted !== undefined && format.kind !== wanted) {
		return { what: `\`${file}\` is a ${format.kind}; here stands a ${wanted}.`, fix: `Name a ${wanted}.` };
	}
	let head: Buffer;
	try {
		head = media.readHead(file, HEAD);
	} catch (error) {
		return {
			what: `\`${MEDIA_FOLDER}/${file}\` cannot be read (${error instanceof Error && "code" in error ? String(error.code) : String(error)}).`,
			fix: "Check its permissions.",
		};
	}
	if (head.length < 12 || !format.begins(head)) {
		return {
			what:
				head.length === 0 ? `\`${file}\` is empty.` : `\`${file}\` is not a ${format.name}, or it is broken.`,
			fix: "Save the file again under the ending of its kind, and put it into `content/media`.",
		};
	}
	return undefined;
}

/** Of folders, the first that has a media file of this name; where none has it, the first. */
export function mediaHome(folders: readonly string[], file: string): string {
	const having = folders.find((folder) => {
		const media = mediaFolder(folder);
		return media !== undefined && isFileWithin(media, file);
	});
	return having ?? folders[0] ?? "";
}

/** The folder for pictures and video as a door of its own; undefined where it is none, or leads out of the club. */
export function mediaFolder(clubDir: string): Folder | undefined {
	try {
		return openFolder(clubDir).inner(MEDIA_FOLDER);
	} catch (error) {
		if (error instanceof LeadsOut) return undefined;
		throw error;
	}
}

/** Whether there is a file that does not lead out of the folder; a link in a circle leads to none. */
function isFileWithin(folder: Folder, file: string): boolean {
	try {
		return folder.info(file)?.kind === "file";
	} catch (error) {
		if (error instanceof LeadsOut) return false;
		throw error;
	}
}
