/**
 * The club's own pictures and videos, built with the real command: sizes, formats, what is left of their
 * metadata, what is broken, and what is made again. Every picture is made here.
 */

import { execFile } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { openClub } from "../../scripts/commands/open-club.ts";
import { Cache } from "../../scripts/files/cache.ts";
import { cleanFilm } from "../../scripts/site/media/film.ts";
import { mediaCacheOf, WIDTHS } from "../../scripts/site/media/prepare-media.ts";
import type { PreparedMedia } from "../../scripts/views/medium.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";

/** A picture with a red left half, so that turning it shows, and with words and a place in its metadata. */
async function photo(width: number, height: number, orientation = 1): Promise<Buffer> {
	const half = await sharp({
		create: { width: Math.ceil(width / 2), height, channels: 3, background: "#c00000" },
	})
		.png()
		.toBuffer();
	return sharp({ create: { width, height, channels: 3, background: "#0000c0" } })
		.composite([{ input: half, left: 0, top: 0 }])
		.withMetadata({ orientation })
		.withExif({
			IFD0: { Artist: "Nobody", Copyright: "Hall 7" },
			IFD3: {
				GPSLatitudeRef: "N",
				GPSLatitude: "51/1 30/1 0/1",
				GPSLongitudeRef: "W",
				GPSLongitude: "0/1 7/1 0/1",
			},
		})
		.jpeg()
		.toBuffer();
}

interface ClubMedium {
	readonly name: string;
	readonly bytes: Uint8Array | string;
	/** Not named by the drill. */
	readonly beside?: boolean;
	readonly poster?: string;
}

/** The base club with media on its first drill. */
function clubWith(media: readonly ClubMedium[]): string {
	const dir = clubCopy();
	mkdirSync(join(dir, "content/media"), { recursive: true });
	for (const { name, bytes } of media) writeFileSync(join(dir, "content/media", name), bytes);
	const drill = join(dir, "content/drills/floor/rock.md");
	const lines = media
		.filter(({ beside }) => beside !== true)
		.map(
			({ name, poster }) =>
				`  - {file: "${name}", alt: "It shows <${name}>."${poster === undefined ? "" : `, poster: "${poster}"`}}`,
		);
	const text = readFileSync(drill, "utf8").replace("cues:", `media:\n${lines.join("\n")}\ncues:`);
	writeFileSync(drill, text);
	return dir;
}

async function mediaOf(dir: string, keep = false): Promise<PreparedMedia> {
	const { problems, opened } = await openClub(dir, { keep });
	if (opened === undefined) throw new Error(problems.map(({ what }) => what).join("\n"));
	return opened.media;
}

async function problemsOf(media: readonly ClubMedium[]): Promise<readonly string[]> {
	const { problems } = await openClub(clubWith(media), { keep: false });
	return problems.map(({ code, place, what }) => `${place.file}:${place.line} ${code} ${what}`);
}

const inLine = (line: number, what: string) => `content/drills/floor/rock.md:${line} H211 ${what}`;

describe("a photo", () => {
	it("is served as WebP in the widths below its own, and never enlarged", async () => {
		const media = await mediaOf(
			clubWith([
				{ name: "large.jpg", bytes: await photo(2000, 1000) },
				{ name: "middling.jpg", bytes: await photo(700, 350) },
				{ name: "small.jpg", bytes: await photo(320, 200) },
			]),
		);
		const widths = media.byDrill
			.get("rock")
			?.map((one) => (one?.kind === "picture" ? one.sizes.map(({ width }) => width) : []));
		expect(widths).toEqual([[...WIDTHS], [480, 700], [320]]);
		for (const medium of media.byDrill.get("rock") ?? []) {
			if (medium?.kind !== "picture") throw new Error("a picture is missing");
			for (const { path, width, height } of medium.sizes) {
				const bytes = media.files.get(path)?.();
				const read = await sharp(bytes).metadata();
				expect([read.format, read.width, read.height]).toEqual(["webp", width, height]);
			}
		}
	});

	it("keeps nothing of its place, its author or its camera", async () => {
		const original = await photo(600, 400);
		const before = await sharp(original).metadata();
		expect(before.exif?.includes("Nobody")).toBe(true);
		const media = await mediaOf(clubWith([{ name: "place.jpg", bytes: original }]));
		expect(media.files.size).toBeGreaterThan(0);
		for (const bytes of media.files.values()) {
			const { exif, xmp, iptc, orientation } = await sharp(bytes()).metadata();
			expect([exif, xmp, iptc, orientation]).toEqual([undefined, undefined, undefined, undefined]);
			const text = Buffer.from(bytes()).toString("latin1");
			expect(text).not.toMatch(/Nobody|Hall 7|Exif|GPS/);
		}
	});

	it("stands upright although its orientation is taken away", async () => {
		// Orientation 6: the camera was held on its side, the picture is to be turned clockwise.
		const media = await mediaOf(clubWith([{ name: "turned.jpg", bytes: await photo(800, 400, 6) }]));
		const [medium] = media.byDrill.get("rock") ?? [];
		if (medium?.kind !== "picture") throw new Error("a picture is missing");
		expect(medium.sizes.map(({ width, height }) => [width, height])).toEqual([[400, 800]]);
		const { data, info } = await sharp(media.files.get(medium.sizes[0]?.path ?? "")?.())
			.raw()
			.toBuffer({ resolveWithObject: true });
		const red = (y: number) => data[(y * info.width + 200) * info.channels] ?? 0;
		expect(red(100)).toBeGreaterThan(150);
		expect(red(700)).toBeLessThan(50);
	});
});

describe("a drawing", () => {
	const SVG = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" width="40" height="20" onload="alert(1)"><script>alert(2)</script><rect width="20" height="20" fill="#000"/><a href="javascript:alert(3)"><rect x="20" width="20" height="20" fill="#fff"/></a></svg>`;

	it("in SVG is drawn to pixels, sharp at every width, and its scripts are served nowhere", async () => {
		const media = await mediaOf(clubWith([{ name: "wedge.svg", bytes: SVG }]));
		const [medium] = media.byDrill.get("rock") ?? [];
		if (medium?.kind !== "picture") throw new Error("a picture is missing");
		expect(medium.sizes.map(({ width, height }) => [width, height])).toEqual(WIDTHS.map((w) => [w, w / 2]));
		for (const [path, bytes] of media.files) {
			expect(path).toMatch(/\.webp$/);
			expect(Buffer.from(bytes()).toString("latin1")).not.toMatch(/<svg|script|alert/);
		}
		const { data, info } = await sharp(media.files.get(medium.sizes.at(-1)?.path ?? "")?.())
			.greyscale()
			.raw()
			.toBuffer({ resolveWithObject: true });
		const row = Array.from(
			{ length: info.width },
			(_, x) => data[(300 * info.width + x) * info.channels] ?? 0,
		);
		// Enlarged from 40 pixels, the edge would be tens of pixels wide.
		expect(row.filter((grey) => grey > 40 && grey < 215).length).toBeLessThan(6);
	});

	it("in SVG shows what it holds itself, and reaches for no other file", async () => {
		const red = await sharp({ create: { width: 8, height: 8, channels: 3, background: "#ff0000" } })
			.png()
			.toBuffer();
		const dir = clubWith([{ name: "secret.png", bytes: red, beside: true }]);
		const drawn = async (address: string): Promise<readonly number[]> => {
			const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="20" height="20"><image width="20" height="20" href="${address}"/></svg>`;
			const media = await mediaOf(clubWith([{ name: "reach.svg", bytes: svg }]));
			const [bytes] = media.files.values();
			const { data } = await sharp(bytes?.())
				.ensureAlpha()
				.resize(1, 1)
				.raw()
				.toBuffer({ resolveWithObject: true });
			return [...data];
		};
		expect((await drawn(`data:image/png;base64,${red.toString("base64")}`))[3]).toBe(255);
		expect((await drawn(`file://${join(dir, "content/media/secret.png")}`))[3]).toBe(0);
	});
});

describe("what cannot be used", () => {
	it("is a problem at its line: missing, of another kind, broken, unsupported, moving", async () => {
		const whole = await photo(900, 600);
		const frames = await Promise.all(
			["#ff0000", "#0000ff"].map((background) =>
				sharp({ create: { width: 20, height: 20, channels: 3, background } })
					.png()
					.toBuffer(),
			),
		);
		const moving = await sharp(frames, { join: { animated: true } })
			.gif()
			.toBuffer();
		expect(
			await problemsOf([
				{ name: "text.jpg", bytes: "not a picture at all" },
				{ name: "photo.heic", bytes: whole },
				{ name: "disguised.png", bytes: whole },
			]),
		).toEqual([
			inLine(13, "`text.jpg` is not a JPEG picture, or it is broken."),
			inLine(14, "`photo.heic` is of a kind that pages cannot show."),
			inLine(15, "`disguised.png` is not a PNG picture, or it is broken."),
		]);
		const later = await problemsOf([
			{ name: "cut.jpg", bytes: whole.subarray(0, whole.length / 2) },
			{ name: "sound.jpg", bytes: whole },
			{ name: "moving.gif", bytes: moving },
		]);
		expect(later).toHaveLength(2);
		expect(later[0]).toContain(inLine(13, "`cut.jpg` cannot be shown: "));
		expect(later[1]).toContain(inLine(15, "`moving.gif` cannot be shown: it is a moving picture"));
	});

	it("stops `check` and `build` with the line, and nothing is written", async () => {
		const whole = await photo(300, 200);
		const dir = clubWith([{ name: "cut.jpg", bytes: whole.subarray(0, whole.length - 400) }]);
		const main = join(REPOSITORY, "scripts/commands/main.ts");
		for (const command of [["check"], ["build", "--out", join(dir, "out")]]) {
			const run = promisify(execFile)(process.execPath, [main, ...command, "--club", dir]);
			await expect(run).rejects.toMatchObject({
				code: 1,
				stdout: expect.stringMatching(/rock\.md:13.*H211/s) as unknown,
			});
		}
		expect(readdirSync(dir)).not.toContain("out");
	});
});

/** A box of an MP4 file. */
function mp4(type: string, ...parts: readonly Uint8Array[]): Buffer {
	const content = Buffer.concat(parts);
	const head = Buffer.alloc(8);
	head.writeUInt32BE(content.length + 8);
	head.write(type, 4, "latin1");
	return Buffer.concat([head, content]);
}

/** A track's header of so many pixels, turned by a quarter where `lying`. */
function trackHeader(width: number, height: number, lying = false): Buffer {
	const header = Buffer.alloc(84);
	const matrix = lying ? [0, 0x10000, 0, -0x10000, 0, 0] : [0x10000, 0, 0, 0, 0x10000, 0];
	for (const [i, value] of matrix.entries()) header.writeInt32BE(value, 40 + 4 * i);
	header.writeUInt32BE(width * 65536, 76);
	header.writeUInt32BE(height * 65536, 80);
	return mp4("tkhd", header);
}

const PLACE = "+51.5000-000.1200/";
const PICTURES = Buffer.from("udta meta Tags: these bytes only look like metadata");

function film(lying = false): Buffer {
	return Buffer.concat([
		mp4("ftyp", Buffer.from("isom\0\0\0\0isom")),
		mp4(
			"moov",
			mp4("mvhd", Buffer.alloc(100)),
			mp4("trak", trackHeader(640, 360, lying), mp4("udta", Buffer.from(`name${PLACE}`))),
			mp4("udta", mp4("\xa9xyz", Buffer.from(PLACE))),
			mp4("meta", Buffer.from(`com.apple.quicktime.location${PLACE}`)),
		),
		mp4("uuid", Buffer.from(`sixteen bytes...${PLACE}`)),
		mp4("mdat", PICTURES),
	]);
}

/** An element of a WebM file, its size in one byte or in eight. */
function ebml(id: number, content: Uint8Array, wide = false): Buffer {
	const hex = id.toString(16);
	const size = Buffer.alloc(wide ? 8 : 1);
	if (wide) size.writeBigUInt64BE((1n << 56n) | BigInt(content.length));
	else size[0] = 0x80 | content.length;
	return Buffer.concat([Buffer.from(hex.length % 2 === 0 ? hex : `0${hex}`, "hex"), size, content]);
}

function webm(wide: boolean): Buffer {
	const video = Buffer.concat([ebml(0xb0, Buffer.from([2, 128])), ebml(0xba, Buffer.from([1, 104]))]);
	return Buffer.concat([
		ebml(0x1a45dfa3, Buffer.from("0123456789")),
		ebml(
			0x18538067,
			Buffer.concat([
				ebml(0x1654ae6b, ebml(0xae, ebml(0xe0, video))),
				ebml(0x1254c367, Buffer.from(`LOCATION ${PLACE}`), wide),
				ebml(0x1f43b675, PICTURES),
			]),
			true,
		),
	]);
}

describe("a video", () => {
	it.each([
		["MP4", film(), "video/mp4", 640, 360],
		["MP4 taken on its side", film(true), "video/mp4", 360, 640],
		["WebM", webm(false), "video/webm", 640, 360],
		["WebM with sizes of eight bytes", webm(true), "video/webm", 640, 360],
	])(
		"%s keeps its pictures and loses its place, and not a byte moves",
		(_, original, type, width, height) => {
			const clean = cleanFilm(original);
			expect([clean.type, clean.width, clean.height]).toEqual([type, width, height]);
			expect(clean.bytes.length).toBe(original.length);
			const bytes = Buffer.from(clean.bytes);
			expect(bytes.includes(PLACE)).toBe(false);
			expect(bytes.indexOf(PICTURES)).toBe(original.indexOf(PICTURES));
			// What was made empty can be walked over again, and there is nothing more to empty.
			expect(Buffer.from(cleanFilm(clean.bytes).bytes).equals(bytes)).toBe(true);
		},
	);

	it("that is cut off is a problem at its line", async () => {
		const whole = film();
		expect(
			await problemsOf([
				{ name: "cut.mp4", bytes: whole.subarray(0, 200) },
				{ name: "cut.webm", bytes: webm(false).subarray(0, 60) },
				{ name: "bare.mp4", bytes: mp4("ftyp", Buffer.from("isom\0\0\0\0isom")) },
			]),
		).toEqual([
			inLine(13, "`cut.mp4` cannot be shown: ends in the middle of a part."),
			inLine(14, "`cut.webm` cannot be shown: ends in the middle of a part."),
			inLine(15, "`bare.mp4` cannot be shown: has no list of its pictures."),
		]);
	});

	it("has the poster the club names, a picture, else one drawn from the drill's shape", async () => {
		const media = await mediaOf(
			clubWith([
				{ name: "own.mp4", bytes: film(), poster: "still.jpg" },
				{ name: "still.jpg", bytes: await photo(1200, 800), beside: true },
				{ name: "drawn.mp4", bytes: film() },
			]),
		);
		const posters = media.byDrill.get("rock")?.map((one) => (one?.kind === "video" ? one.poster : undefined));
		expect(posters?.[0]).toMatchObject({ width: 960, height: 640 });
		expect(posters?.[1]).toMatchObject({ width: 960, height: 540 });
		expect(media.files.has(posters?.[1]?.path ?? "")).toBe(true);
		expect(await problemsOf([{ name: "own.mp4", bytes: film(), poster: "own.mp4" }])).toEqual([
			inLine(13, "`own.mp4` is a video; here stands a picture."),
		]);
	});
});

describe("the drill's page", () => {
	it("offers each width with the picture's size, and a video that waits to be started", async () => {
		const dir = clubWith([
			{ name: "Wall plank (side).JPG", bytes: await photo(1000, 500) },
			{ name: "roll.mp4", bytes: film() },
		]);
		const out = join(dir, "out");
		const main = join(REPOSITORY, "scripts/commands/main.ts");
		await promisify(execFile)(process.execPath, [main, "build", "--no-print", "--club", dir, "--out", out]);
		const page = readFileSync(join(out, "drills/rock/index.html"), "utf8");
		const figures = [...page.matchAll(/<figure class="medium">.*?<\/figure>/gs)].map(([markup]) => markup);
		expect(figures).toHaveLength(2);
		const [picture = "", video = ""] = figures;
		const srcset = /srcset="([^"]+)"/.exec(picture)?.[1] ?? "";
		expect(srcset.split(", ").map((part) => part.split(" ")[1])).toEqual(["480w", "960w", "1000w"]);
		expect(picture).toMatch(
			/ width="960" height="480" alt="It shows &lt;Wall plank \(side\).JPG&gt;." loading="lazy"/,
		);
		expect(video).toMatch(
			/<video controls playsinline preload="none" poster="[^"]+\.webp" width="640" height="360" aria-label="[^"]+">/,
		);
		expect(video).not.toMatch(/autoplay|\bloop\b/);
		const addresses = [...page.matchAll(/(?:src|poster)="([^"]*\/media\/[^"]+)"/g)].map(
			([, way]) => way ?? "",
		);
		expect(addresses.length).toBeGreaterThan(2);
		for (const way of [...addresses, ...srcset.split(", ").map((part) => part.split(" ")[0] ?? "")]) {
			expect(statSync(join(out, "drills/rock", way)).size).toBeGreaterThan(0);
			expect(way).not.toMatch(/[ ()A-Z]/);
		}
		// Nothing of the original is served.
		for (const file of readdirSync(join(out, "media")))
			expect(file).toMatch(/-[0-9a-f]{8}(-\d+\.webp|\.mp4)$/);
	});
});

describe("the cache", () => {
	it("keeps what was made, makes again what changed, and sweeps what is gone", async () => {
		const dir = clubWith([{ name: "one.jpg", bytes: await photo(600, 300) }]);
		const folder = mediaCacheOf(dir);
		const cache = folder?.path ?? "";
		await mediaOf(dir, false);
		expect(() => readdirSync(cache)).toThrow();
		const first = await mediaOf(dir, true);
		const kept = readdirSync(cache).sort();
		expect(kept).toHaveLength(2);
		// What is in the cache is what is served: the file is not made again.
		const [name = ""] = kept;
		const marked = await sharp({ create: { width: 480, height: 240, channels: 3, background: "#00ff00" } })
			.webp()
			.toBuffer();
		// A file that somebody laid there is not: it does not bear this machine's seal.
		writeFileSync(join(cache, name), marked);
		const planted = await mediaOf(dir, true);
		expect([...planted.files.values()].some((bytes) => Buffer.from(bytes()).equals(marked))).toBe(false);
		new Cache(folder, true).put(name, marked);
		const second = await mediaOf(dir, true);
		expect([...second.files.keys()]).toEqual([...first.files.keys()]);
		expect([...second.files.values()].some((bytes) => Buffer.from(bytes()).equals(marked))).toBe(true);
		writeFileSync(join(dir, "content/media/one.jpg"), await photo(640, 300));
		const third = await mediaOf(dir, true);
		expect([...third.files.keys()]).not.toEqual([...first.files.keys()]);
		expect(readdirSync(cache).filter((file) => kept.includes(file))).toEqual([]);
	});
});
