/**
 * The club's pictures and videos as they are served: decoded, resized, in a modern format, and without
 * what they say of the place, the time and the camera.
 *
 *   1. each file once, by the hash of its bytes
 *   2. pictures: turned upright, resized to the widths below but never enlarged, written as WebP; nothing
 *      of the original file is served. Drawings in SVG are drawn to pixels, so that whatever a file holds,
 *      scripts among it, never reaches a browser
 *   3. videos: emptied of metadata (film.ts); a poster from the drill's `poster`, else drawn (draw-poster.ts)
 *   4. what cannot be decoded is a problem at the line that names it
 *
 * What was made is kept in the club's cache folder under the hash of the file and of the recipe, sealed, so
 * that a picture which came with somebody's cache is not shown for the one in the folder. AVIF would
 * be a little smaller and takes ten times as long: it is not made.
 */

import { basename, extname } from "node:path";
import type Sharp from "sharp";
import { Cache, cacheFolder } from "../../files/cache.ts";
import { type Folder, openFolder } from "../../files/folder.ts";
import { sha256 } from "../../files/hash.ts";
import type { Handbook } from "../../handbook.ts";
import type { DataPath, LinkedDrill, LinkedShape, Source } from "../../model.ts";
import { type Problem, problem } from "../../problems.ts";
import { mediaFolder, mediaHome, mediaKindOf } from "../../read/inspect-media.ts";
import type { Medium, Picture, PreparedMedia, Rendition, Video } from "../../views/medium.ts";
import { drawPoster } from "./draw-poster.ts";
import { cleanFilm } from "./film.ts";

/** Widths in pixels: a phone, a phone with a fine screen or a tablet, and a large screen. */
export const WIDTHS: readonly number[] = [480, 960, 1440];
/** Of a logo, in pixels. */
const LOGO_WIDTH = 480;

const QUALITY = 80;
/** A video's poster, in pixels. */
const POSTER_WIDTH = 960;
/** Part of every key: change it when the same file would give another result. */
const RECIPE = `webp ${QUALITY} ${WIDTHS.join(" ")} sharp`;

/** The program that reads and writes pictures. It is large, and a club without any does without it. */
async function pictureProgram(): Promise<typeof Sharp> {
	return (await import("sharp")).default;
}

export interface PrepareOptions {
	/** Where results are kept; undefined keeps nothing. */
	readonly cacheDir?: Folder | undefined;
	/** Whether new results are kept, and old ones that nothing uses are swept away. */
	readonly keep?: boolean;
}

/** The cache for a club's media; undefined where it leads out of the club. */
export function mediaCacheOf(clubDir: string): Folder | undefined {
	return cacheFolder(openFolder(clubDir), "media");
}

/** Prepares everything that drills name. Files that cannot be used are problems, and are left out. */
export async function prepareMedia(
	handbook: Pick<Handbook, "clubDir" | "libraries" | "curriculum">,
	{ cacheDir, keep = false }: PrepareOptions = {},
): Promise<PreparedMedia> {
	const workshop = new Workshop([handbook.clubDir, ...handbook.libraries], cacheDir, keep);
	const byDrill = new Map<string, readonly (Medium | undefined)[]>();
	const problems: Problem[] = [];
	for (const drill of handbook.curriculum.drills.values()) {
		const media: (Medium | undefined)[] = [];
		for (const [i, { file, poster }] of drill.media.entries()) {
			const attempt = async <T>(
				name: string,
				field: string,
				make: () => Promise<T>,
			): Promise<T | undefined> => {
				try {
					return await make();
				} catch (error) {
					problems.push(brokenMedia(drill.source, ["media", i, field], name, error));
					return undefined;
				}
			};
			if (mediaKindOf(file) === "picture") {
				media.push(await attempt(file, "file", () => workshop.picture(file)));
				continue;
			}
			const still =
				poster === undefined ? undefined : await attempt(poster, "poster", () => workshop.picture(poster));
			const shape = firstShape(handbook, drill);
			media.push(await attempt(file, "file", () => workshop.video(file, still, shape)));
		}
		if (media.length > 0) byDrill.set(drill.id, media);
	}
	const logo = await logoOf(handbook, workshop, problems);
	workshop.sweep();
	return { byDrill, ...(logo === undefined ? {} : { logo }), problems, files: workshop.files };
}

/** The logo, as wide as a phone's screen shows it sharply and a cover prints it. */
async function logoOf(
	{ curriculum: { club } }: Pick<Handbook, "curriculum">,
	workshop: Workshop,
	problems: Problem[],
): Promise<Rendition | undefined> {
	if (club.logo === undefined || club.source === undefined) return undefined;
	try {
		return (await workshop.picture(club.logo, [LOGO_WIDTH])).sizes[0];
	} catch (error) {
		problems.push(brokenMedia(club.source, ["logo"], club.logo, error));
		return undefined;
	}
}

function firstShape(
	{ curriculum }: Pick<Handbook, "curriculum">,
	drill: LinkedDrill,
): LinkedShape | undefined {
	return [...drill.sequence.map(({ shape }) => shape), ...drill.shapes]
		.flatMap((id) => curriculum.shapes.get(id) ?? [])
		.find(({ angles }) => angles !== undefined);
}

function brokenMedia(source: Source, path: DataPath, file: string, error: unknown): Problem {
	const why = error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);
	const fix =
		error instanceof MovingPicture ? error.fix : "Save the file again, and put it into `content/media`.";
	return problem("H211", source.place(path), `\`${file}\` cannot be shown: ${why.replace(/[.\s]+$/, "")}.`, {
		fix,
	});
}

/** A picture that would move by itself. */
class MovingPicture extends Error {
	readonly fix =
		"Save it as an MP4 or WebM video, which plays when somebody starts it, or as a still picture.";
}

/** Makes files, each once, and keeps them. */
class Workshop {
	readonly files = new Map<string, () => Uint8Array>();
	readonly #folders: readonly string[];
	readonly #cache: Cache;
	readonly #pictures = new Map<string, Promise<Picture>>();

	/** @param folders the club's, and those of its libraries */
	constructor(folders: readonly string[], cache: Folder | undefined, keep: boolean) {
		this.#folders = folders;
		this.#cache = new Cache(cache, keep);
	}

	picture(file: string, widths = WIDTHS): Promise<Picture> {
		const key = `${widths.join(" ")} ${file}`;
		let made = this.#pictures.get(key);
		if (made === undefined) {
			made = this.#resize(this.#source(file), widths);
			this.#pictures.set(key, made);
		}
		return made;
	}

	async video(file: string, still: Picture | undefined, shape: LinkedShape | undefined): Promise<Video> {
		const source = this.#source(file);
		const { hash, type, width, height } = await known(source, async () => {
			const original = source.read();
			const { bytes: _, ...film } = cleanFilm(original);
			return { ...film, hash: hashOf([original]) };
		});
		const path = nameOf(file, hash, extname(file).toLowerCase());
		this.files.set(path, () => cleanFilm(source.read()).bytes);
		const wide = still?.sizes.findLast((size) => size.width <= POSTER_WIDTH) ?? still?.sizes[0];
		const poster = wide ?? (await this.#drawnPoster(shape));
		return {
			kind: "video",
			path,
			type,
			width: width ?? poster.width,
			height: height ?? poster.height,
			poster,
		};
	}

	/** Removes what is kept and was not used this time. */
	sweep(): void {
		this.#cache.sweep();
	}

	async #drawnPoster(shape: LinkedShape | undefined): Promise<Rendition> {
		const drawing = Buffer.from(drawPoster(shape));
		const source = { file: `${shape?.id ?? "film"}-poster.svg`, stamp: undefined, read: () => drawing };
		const picture = await this.#resize(source, [POSTER_WIDTH]);
		const [poster] = picture.sizes;
		if (poster === undefined) throw new Error("a poster without a size");
		return poster;
	}

	#source(file: string): MediaSource {
		const media = mediaFolder(mediaHome(this.#folders, file));
		const info = media?.info(file);
		if (media === undefined || info === undefined) throw new Error("it is not in `content/media`");
		const stamp = `${media.path} ${file} ${info.size} ${info.mtimeMs}`;
		return { file, stamp, read: () => media.read(file) };
	}

	async #resize(source: MediaSource, widths: readonly number[] = WIDTHS): Promise<Picture> {
		const { file } = source;
		const drawing = extname(file).toLowerCase() === ".svg";
		const { hash, own } = await known(source, async () => {
			const bytes = source.read();
			const sharp = await pictureProgram();
			const { autoOrient, pages = 1 } = await sharp(bytes, { failOn: "error" }).metadata();
			if (pages > 1) throw new MovingPicture("it is a moving picture, which would play by itself");
			return { hash: hashOf([bytes, `${RECIPE} ${sharp.versions.sharp}`]), own: autoOrient };
		});
		// A drawing has no pixels of its own: it is sharp at every width.
		const fitting = drawing ? widths : widths.filter((width) => width < own.width);
		const largest = Math.min(own.width, widths.at(-1) ?? own.width);
		const wanted = drawing || fitting.includes(largest) ? fitting : [...fitting, largest];
		const preset = drawing || /\.(png|gif)$/i.test(file) ? ({ preset: "drawing" } as const) : {};
		const sizes: Rendition[] = [];
		for (const width of wanted) {
			const height = Math.max(1, Math.round((width * own.height) / own.width));
			const path = nameOf(file, hash, `-${width}.webp`);
			const made = await this.#cache.keep(`${hash}-${width}.webp`, async () => {
				const sharp = await pictureProgram();
				return sharp(source.read(), { failOn: "error" })
					.autoOrient()
					.resize({ width, height, fit: "fill" })
					.webp({ quality: QUALITY, ...preset })
					.toBuffer();
			});
			this.files.set(path, made);
			sizes.push({ path, width, height });
		}
		return { kind: "picture", sizes };
	}
}

/** A file to make something of. */
interface MediaSource {
	readonly file: string;
	/** Changes when the file does; undefined for what is drawn. */
	readonly stamp: string | undefined;
	readonly read: () => Uint8Array;
}

/** What was found out of files that have not changed since: `serve` asks at every change of a text. */
const found = new Map<string, unknown>();

async function known<T>({ stamp }: MediaSource, find: () => Promise<T>): Promise<T> {
	if (stamp === undefined) return find();
	// A stamp is of one file, and a file is always asked the same.
	const before = found.get(stamp) as T | undefined;
	if (before !== undefined) return before;
	const facts = await find();
	found.set(stamp, facts);
	return facts;
}

function hashOf(parts: readonly (Uint8Array | string)[]): string {
	return sha256(parts).slice(0, 40);
}

/** A name that says what it is and changes with what is in it: `media/wall-plank-1a2b3c4d-960.webp`. */
function nameOf(file: string, hash: string, end: string): string {
	const words = basename(file, extname(file))
		.toLowerCase()
		.replace(/[^a-z0-9]+/g, "-")
		.replace(/^-|-$/g, "");
	return `media/${words === "" ? "file" : words}-${hash.slice(0, 8)}${end}`;
}
