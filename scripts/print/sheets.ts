/**
 * Prints the single sheets: class sheets, week packets, cards, plans, lists.
 *
 *   1. find and start a browser                                         find-browser, browser-pages
 *   2. each piece, largest first, in pages that work side by side: fit it into its sides, print it,
 *      read it back, and keep it for the next run                       in-sheet
 *   3. join the pieces of each file, with title, language, tags, outline and labels    join
 *   4. write each file
 *
 * A piece that stands in several files is printed once. A flaw is told with its place, and what has it is
 * printed; a piece that lacks a safety text, or could not be printed at all, is in no file.
 */

import { PDFDocument } from "pdf-lib";
import { type Paper, type PaperName, paperOf } from "../../layouts/sheets/paper.ts";
import type { SheetFile, SheetPiece } from "../../layouts/sheets/sheet-file.ts";
import { type Folder, makeFolder } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";
import { readProgramText } from "../files/program.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";
import type { Club } from "../model.ts";
import { objectCount } from "../pdf/pdf-file.ts";
import { slimPdf } from "../pdf/slim-pdf.ts";
import { type Problem, problem } from "../problems.ts";
import { html } from "../views/html.ts";
import type { Edition, EditionMark, Update } from "../views/sheets/edition.ts";
import type { Leaf, Target } from "./assemble.ts";
import {
	type BrowserChoice,
	type BrowserPages,
	type OpenPage,
	printedPage,
	scriptOf,
	startBrowser,
} from "./browser-pages.ts";
import { ATTACHMENT, editionText, updateBetween } from "./edition.ts";
import { editionFile } from "./edition-file.ts";
import type { FittedSheet } from "./in-sheet.ts";
import { joinSegments } from "./join.ts";
import {
	type FlawCode,
	flawsOf,
	illegible,
	isTooSmallForSafety,
	largestType,
	sizedLetters,
} from "./legible.ts";
import { hasWords, lettersOf } from "./letters.ts";
import { changedPieces, type PocketLook, pocketEdition } from "./pocket-edition.ts";
import { Press, sideBySide } from "./press.ts";
import type { Segment } from "./print-segments.ts";
import { embeddedFonts } from "./print-styles.ts";
import { type Box, isInside, readStretch } from "./read-back.ts";
import { headAndBytes, openCache, type SheetCache, withHead } from "./sheet-cache.ts";
import { STAMPS, type Stamp } from "./stamps.ts";

export interface SheetOptions {
	/** The output folder. */
	readonly outDir: string;
	readonly club: Club;
	/** The club's own style sheet, after ours. */
	readonly style?: string | undefined;
	readonly browser?: BrowserChoice;
	readonly progress?: (done: number, total: number, label: string) => void;
	readonly signal?: AbortSignal;
	/** Where printed pieces are kept for the next run; nowhere unless given. */
	readonly cacheDir?: Folder | undefined;
	/** Which edition the files are of: laid over every sheet, none of whose content it is. */
	readonly edition?: EditionMark;
	/** Of a pocket: its weeks keep their edition where they have not changed. */
	readonly earlier?: Edition | undefined;
	/** Prints what an earlier pocket needs, and no more, behind the sheet that says what to do. */
	readonly packet?: { readonly path: string; readonly front: (update: Update, now: Edition) => SheetPiece };
	/** Where it is not the club's own. */
	readonly paper?: PaperName | undefined;
	/** Two sides to a page that lies, to be cut or folded. */
	readonly twoUp?: boolean;
	/** Whether all sheets of the club are printed, so that others can be forgotten. */
	readonly all?: boolean;
	/** Browser pages that work side by side. */
	readonly workers?: number;
}

export interface PrintedSheets {
	/** H4..; the files whose pieces have an error are not among those written. */
	readonly problems: readonly Problem[];
	/** Paths of the files written, as the output names them. */
	readonly files: readonly string[];
	/** Paths of the editions beside them. */
	readonly editions: readonly string[];
	readonly sides: number;
}

const NOTHING_PRINTED: PrintedSheets = { problems: [], files: [], editions: [], sides: 0 };

/** Prints the files. Throws where the signal was given, or the output folder cannot be written. */
export async function printSheets(
	files: readonly SheetFile[],
	options: SheetOptions,
): Promise<PrintedSheets> {
	if (files.length === 0) return NOTHING_PRINTED;
	options.signal?.throwIfAborted();
	const pages = await startBrowser(options.browser);
	if (!("open" in pages)) return { ...NOTHING_PRINTED, problems: [pages] };
	const stop = () => void pages.close();
	options.signal?.addEventListener("abort", stop, { once: true });
	try {
		// What cannot be written is not printed first.
		const out = makeFolder(options.outDir);
		for (const { path } of files) out.place(path);
		const tools: Tools = { pages, cache: openCache(options.cacheDir), settings: await settingsOf(options) };
		const { problems, written } =
			options.packet === undefined
				? await printWhole(files, tools, out, options)
				: await printPacket(files[0], tools, out, options);
		if (options.all === true && problems.length === 0) tools.cache.sweep();
		return { problems, ...written };
	} catch (error) {
		// Closing the browser makes whatever waits for it fail; the reason is the signal.
		options.signal?.throwIfAborted();
		throw error;
	} finally {
		options.signal?.removeEventListener("abort", stop);
		await pages.close();
	}
}

/** What printing is done with. */
interface Tools {
	readonly pages: BrowserPages;
	readonly cache: SheetCache;
	readonly settings: { readonly portrait: SheetSetting; readonly landscape: SheetSetting };
}

interface Written extends Omit<PrintedSheets, "problems"> {}

interface Outcome {
	readonly problems: readonly Problem[];
	readonly written: Written;
}

async function printWhole(
	files: readonly SheetFile[],
	tools: Tools,
	out: Folder,
	options: SheetOptions,
): Promise<Outcome> {
	const { printed, problems } = await printPieces(files, tools, options);
	const books = files.map((file) => editionOf(file, printed, tools, options));
	const stamps = await stampsFor(files, books, tools, options);
	return {
		problems,
		written: await writeFiles({ files, books, printed, stamps }, tools.cache, out, options),
	};
}

/** The changed weeks of a pocket, behind a sheet that says what to do with them; nothing where none has changed. */
async function printPacket(
	file: SheetFile | undefined,
	tools: Tools,
	out: Folder,
	options: SheetOptions,
): Promise<Outcome> {
	const { earlier, packet } = options;
	if (file === undefined || earlier === undefined || packet === undefined)
		return { problems: [], written: NOTHING_PRINTED };
	const changed = changedPieces(file, lookOf(tools, options), earlier);
	const { printed, problems } = await printPieces([{ ...file, pieces: changed }], tools, options);
	const now = editionOf(file, printed, tools, options);
	const update = now && updateBetween(earlier, now);
	if (now === undefined || update === undefined || update.in.length + update.out.length === 0)
		return { problems, written: NOTHING_PRINTED };
	const front = packet.front(update, now);
	const before = await printPieces([{ ...file, pieces: [front] }], tools, options);
	const files = [{ ...file, path: packet.path, pieces: [front, ...changed] }];
	const all = new Map([...before.printed, ...printed]);
	const stamps = await stampsFor(files, [now], tools, options);
	const written = await writeFiles({ files, books: [now], printed: all, stamps }, tools.cache, out, options);
	return { problems: [...before.problems, ...problems], written };
}

/** The edition of a pocket; other sheets have none of their own. */
function editionOf(
	file: SheetFile,
	printed: ReadonlyMap<SheetPiece, PrintedPiece>,
	tools: Tools,
	options: SheetOptions,
): Edition | undefined {
	const { edition: current, earlier } = options;
	const { pocket } = file;
	if (pocket === undefined || current === undefined) return undefined;
	const pages = (piece: SheetPiece) => printed.get(piece)?.sides;
	return pocketEdition({ ...file, pocket }, lookOf(tools, options), pages, { current, earlier });
}

function lookOf({ settings }: Tools, { club, paper = club.paper, twoUp = false }: SheetOptions): PocketLook {
	return { paper, punch: club.punch, styles: settings.portrait.styles, twoUp };
}

/** How a piece came out. */
interface PrintedHead extends Pick<FittedSheet, "sides" | "over" | "stamps"> {
	readonly flaws: readonly Flaw[];
}

interface PrintedPiece extends PrintedHead {
	readonly pdf: Uint8Array;
	/** Names these bytes and no others. */
	readonly sha: string;
}

/** What all pieces on paper of one direction share. */
interface SheetSetting {
	readonly paper: Paper;
	readonly styles: string;
	readonly script: string;
	readonly language: string;
}

async function printPieces(
	files: readonly SheetFile[],
	{ pages, cache, settings }: Tools,
	options: SheetOptions,
): Promise<{
	readonly printed: ReadonlyMap<SheetPiece, PrintedPiece>;
	readonly problems: readonly Problem[];
}> {
	const printed = new Map<SheetPiece, PrintedPiece>();
	const problems: Problem[] = [];
	const { twoUp = false, signal } = options;
	const total = new Set(files.flatMap(({ pieces }) => pieces)).size;
	let done = 0;
	for (const landscape of [false, true]) {
		const setting = landscape ? settings.landscape : settings.portrait;
		const own = files.filter((file) => file.landscape === landscape).flatMap(({ pieces }) => pieces);
		// The longest come first.
		const queue = [...new Set(own)].sort((a, b) => b.html.text.length - a.html.text.length);
		const press = () => pressOf(pages, setting, signal);
		await sideBySide(queue, options.workers ?? 2, press, signal, async (piece, press) => {
			const { title, most, leaves, steps, words, safety, place } = piece;
			const { styles, script, language } = setting;
			const wanted = { most, leaves, steps, words, safety, twoUp, printed: PRINTED_AS };
			const ingredients = [pages.version, styles, script, language, JSON.stringify(wanted), piece.html.text];
			try {
				const isFinal = (error: unknown) => error instanceof SheetFault;
				const print = () => press.run((open) => printPiece(open, piece, setting, twoUp), { isFinal });
				const bytes = await cache.keep(ingredients, print);
				const { head, bytes: pdf } = headAndBytes<PrintedHead>(bytes);
				printed.set(piece, { ...head, pdf, sha: sha256(bytes) });
				for (const { code, what } of head.flaws) problems.push(problem(code, place, `"${title}": ${what}.`));
				if (head.over) {
					const what = `"${title}" takes ${head.sides} sides instead of ${most}.`;
					problems.push(problem("H410", place, what));
				}
			} catch (error) {
				signal?.throwIfAborted();
				const why = error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);
				problems.push(
					error instanceof SheetFault
						? problem(error.code, place, `"${title}": ${why}.`)
						: problem("H402", place, `"${title}" could not be printed: ${why}.`),
				);
			}
			options.progress?.(++done, total, title);
		});
	}
	return { printed, problems };
}

/** Raised where the way in which pieces are printed and checked changes. */
const PRINTED_AS = 3;

/** Something of a sheet is not on paper as it should be; the sheet is printed nevertheless. */
interface Flaw {
	readonly code: FlawCode | "H403" | "H409";
	readonly what: string;
}

/** A sheet that nobody may use. */
class SheetFault extends Error {
	readonly code: "H402" | "H411";

	constructor(code: SheetFault["code"], what: string) {
		super(what);
		this.code = code;
	}
}

/** Pages with the styles and the script, for pieces. */
function pressOf(
	pages: BrowserPages,
	{ paper, styles, script, language }: SheetSetting,
	signal: AbortSignal | undefined,
): Press {
	const body = `sheet ${paper.name.toLowerCase()}`;
	return new Press(pages, { language, title: "Sheet", styles, body, scripts: [script] }, signal);
}

async function printPiece(
	open: OpenPage,
	piece: SheetPiece,
	{ paper }: SheetSetting,
	twoUp: boolean,
): Promise<Uint8Array> {
	const { fitted, pdf: printed } = await open.run(60_000, async (page) => {
		const wish = { most: piece.most, leaves: piece.leaves === true, steps: piece.steps, twoUp };
		const call = `window.handbookSheets.fit(${JSON.stringify(piece.html.text)}, ${JSON.stringify(wish)})`;
		const fitted = (await page.evaluate(call)) as FittedSheet;
		return { fitted, pdf: await printedPage(page, paper, true) };
	});
	const pdf = await slimPdf(steadyIds(printed));
	const flaws = await checkPiece(pdf, piece, fitted, paper);
	const { sides, over, stamps } = fitted;
	return withHead({ sides, over, flaws, stamps } satisfies PrintedHead, pdf);
}

/** Half a millimetre: browsers and PDF round, and strokes are as wide as they are. */
const SLACK = 2;

/** Flaws of one kind on a piece that are told; the rest is counted. */
const TOLD = 3;

/**
 * Reads the piece back: its sides, its words, that all can be read, and that nothing stands where printers
 * do not print. Gives what is wrong; throws where it must not be used.
 */
async function checkPiece(
	pdf: Uint8Array,
	piece: SheetPiece,
	fitted: FittedSheet,
	paper: Paper,
): Promise<readonly Flaw[]> {
	const read = await readStretch({ pdf, part: 0, parts: 1, extremes: [] });
	if (read.pages.length !== fitted.sides) {
		throw new SheetFault("H402", `${fitted.sides} sides were printed on ${read.pages.length} pages`);
	}
	const letters = sizedLetters(read.pages.flatMap(({ words }) => words));
	const small: string[] = [];
	for (const words of piece.safety) {
		const points = largestType(letters, words);
		if (points === undefined) throw new SheetFault("H411", `"${words}" is not on paper`);
		if (isTooSmallForSafety(points)) small.push(`"${words}" is in ${points} pt, and is safety text`);
	}
	const free: Box = {
		left: paper.border - SLACK,
		top: paper.border - SLACK,
		right: paper.width - paper.border + SLACK,
		bottom: paper.height - paper.border + SLACK,
	};
	const flaws: Flaw[] = [];
	const tell = (code: Flaw["code"], found: readonly string[], where = "") => {
		const all = [...new Set(found)];
		for (const what of all.slice(0, TOLD)) flaws.push({ code, what: what + where });
		const more = all.length - TOLD;
		if (more > 0) flaws.push({ code, what: `${more} more such places${where}` });
	};
	tell("H406", small);
	for (const { words, drawing } of fitted.spills) {
		tell(drawing ? "H409" : "H403", [`"${words}" stands outside its place`]);
	}
	read.pages.forEach((page, i) => {
		const where = read.pages.length === 1 ? "" : `, side ${i + 1}`;
		if (page.words.length === 0) tell("H403", ["a side is empty"], where);
		const cut = page.words.filter((words) => !isInside(words, free));
		tell(
			"H403",
			cut.map(({ text }) => `"${text}" stands at the very edge of the paper`),
			where,
		);
		for (const [code, found] of flawsOf(illegible(page.words))) tell(code, found, where);
	});
	tell(
		"H403",
		piece.words
			.filter((words) => !hasWords(letters.letters, words))
			.map((words) => `"${words}" is not on paper`),
	);
	return flaws;
}

/**
 * Numbers the names of structure elements from 1. The browser counts them on from piece to piece of a
 * page, so that they would tell which pieces were printed before; every name keeps its length, and
 * with it every place in the file.
 */
export function steadyIds(pdf: Uint8Array): Uint8Array {
	const names = new Map<string, string>();
	const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString("latin1");
	const steady = text.replace(/\(node(\d{8})\)/g, (_, number: string) => {
		let name = names.get(number);
		if (name === undefined) {
			name = String(names.size + 1).padStart(8, "0");
			names.set(number, name);
		}
		return `(node${name})`;
	});
	return Buffer.from(steady, "latin1");
}

/** What is written: files, the editions of pockets among them, and what they are made of. */
interface Prints {
	readonly files: readonly SheetFile[];
	readonly books: readonly (Edition | undefined)[];
	readonly printed: ReadonlyMap<SheetPiece, PrintedPiece>;
	readonly stamps: Stamps | undefined;
}

async function writeFiles(
	{ files, books, printed, stamps }: Prints,
	cache: SheetCache,
	out: Folder,
	options: SheetOptions,
): Promise<Written> {
	const own = paperFor(options);
	const portrait = options.twoUp === true ? spread(own) : own;
	const written: string[] = [];
	const editions: string[] = [];
	let sides = 0;
	for (const [position, file] of files.entries()) {
		options.signal?.throwIfAborted();
		const pieces = file.pieces.flatMap((piece) => {
			const one = printed.get(piece);
			return one === undefined ? [] : [{ piece, ...one }];
		});
		// A week's packet goes without a sheet that nobody may use.
		if (pieces.length === 0) continue;
		const paper = file.landscape ? turned(portrait) : portrait;
		const about = { ...file, pieces: pieces.map(({ piece: { title, label }, sha }) => [title, label, sha]) };
		const book = books[position];
		const ingredients = [
			"joined",
			programFingerprint(),
			JSON.stringify([about, paper, options.club.language, stamps?.words ?? [], book]),
		];
		const pdf = await cache.keep(ingredients, () => joined(file, pieces, paper, options, { book, stamps }));
		out.write(file.path, pdf);
		written.push(file.path);
		if (book !== undefined) {
			const beside = editionFile(file.path);
			out.write(beside, editionText(book));
			editions.push(beside);
		}
		sides += sidesOf(file, pieces);
	}
	return { files: written, editions, sides };
}

async function joined(
	file: SheetFile,
	pieces: readonly (PrintedPiece & { readonly piece: SheetPiece })[],
	paper: Paper,
	{ club, edition }: SheetOptions,
	{ book, stamps: laid }: { readonly book: Edition | undefined; readonly stamps: Stamps | undefined },
): Promise<Uint8Array> {
	/** A week of a pocket has the edition in which it last changed. */
	const issueOf = ({ label }: SheetPiece) => {
		const issue = book?.leaves.find(({ part }) => part === label)?.issue;
		return book?.issues.find(({ id }) => id === issue)?.words ?? edition?.words ?? "";
	};
	const segments: Segment[] = [];
	const leaves: Leaf[] = [];
	const targets = new Map<string, Target>();
	const leaf = (section: number, label: string, number: number, blank: boolean, issue: string): Leaf => ({
		section,
		side: leaves.length % 2 === 0 ? "right" : "left",
		label: `${label} ${number}`,
		prefix: label,
		number,
		blank,
		issue,
		html: "",
		text: "",
	});
	for (const [position, { piece, pdf, sides, stamps }] of pieces.entries()) {
		const first = leaves.length;
		const id = `piece-${position + 1}`;
		const isLast = position === pieces.length - 1;
		segments.push({
			first,
			leaves: sides,
			...asSegment(pdf),
			measures: { spots: [{ id, leaf: 0, top: 0 }], spills: [] },
		});
		targets.set(id, { id, title: piece.title, depth: 1, leaf: first });
		for (let i = 1; i <= sides; i++)
			leaves.push(leaf(position, piece.label, i, false, stampName(stamps[i - 1] ?? "none", issueOf(piece))));
		if (!isLast && getsBlankBack(file, sides)) {
			const blank = await blankSide(paper);
			segments.push({ first: leaves.length, leaves: 1, ...asSegment(blank), measures: NOTHING });
			leaves.push(leaf(position, piece.label, sides + 1, true, ""));
		}
	}
	// Without a date: no later edition makes another file of a sheet that says the same.
	const sheets = { title: file.title, language: club.language };
	const stamp = file.landscape ? laid?.landscape : laid?.portrait;
	const added = {
		...(laid !== undefined && stamp !== undefined && { issues: { words: laid.words, pdf: stamp } }),
		...(book !== undefined && { attachment: { name: ATTACHMENT, text: editionText(book) } }),
	};
	return (await joinSegments(segments, { leaves, targets }, sheets, paper, added)).pdf;
}

/** Pages with nothing but an edition: for each place that it may have, as on a front and as on a back. */
interface Stamps {
	/** The name of each, as leaves have it. */
	readonly words: readonly string[];
	readonly portrait: Uint8Array;
	readonly landscape: Uint8Array | undefined;
}

const STAMPED = STAMPS.filter((stamp) => stamp !== "none");

const stampName = (stamp: Stamp, edition: string) => (stamp === "none" ? "" : `${stamp} ${edition}`);

/** Prints every edition for all places at once. Throws where one is not there afterwards. */
async function stampsFor(
	files: readonly SheetFile[],
	books: readonly (Edition | undefined)[],
	{ pages, settings }: Tools,
	{ edition: current, twoUp = false }: SheetOptions,
): Promise<Stamps | undefined> {
	if (current === undefined) return undefined;
	const editions = [
		...new Set([current.words, ...books.flatMap((book) => book?.issues.map(({ words }) => words) ?? [])]),
	];
	const wanted = editions.flatMap((edition) => STAMPED.map((stamp) => ({ edition, stamp })));
	const side = (edition: string, stamp: Stamp, face: "front" | "back") =>
		`<section class="side ${face}"><div class="stamps ${stamp}">${html`<b>${edition}</b>`.text.repeat(COUNTS[stamp])}</div></section>`;
	const print = async (setting: SheetSetting) => {
		const press = pressOf(pages, setting, undefined);
		const markup = wanted
			.flatMap(({ edition, stamp }) =>
				(["front", "back"] as const).map((face) =>
					twoUp
						? `<div class="spread">${side(edition, stamp, "front")}${side(edition, stamp, "back")}</div>`
						: side(edition, stamp, face),
				),
			)
			.join("");
		const call = `document.body.innerHTML = ${JSON.stringify(`<div class="piece bound">${markup}</div>`)}; Promise.all(Array.from(document.fonts, (font) => font.load()))`;
		const pdf = await press.run((open) =>
			open.run(60_000, async (page) => {
				await page.evaluate(call);
				return printedPage(page, setting.paper, false);
			}),
		);
		await press.end();
		const read = await readStretch({ pdf, part: 0, parts: 1, extremes: [] });
		wanted.forEach(({ edition }, i) => {
			const faces = read.pages.slice(2 * i, 2 * i + 2);
			const isThere = ({ words }: (typeof faces)[number]) =>
				hasWords(lettersOf(words.map(({ text }) => text).join("")), edition);
			if (faces.length !== 2 || !faces.every(isThere)) throw new Error(`"${edition}" could not be printed.`);
		});
		return pdf;
	};
	return {
		words: wanted.map(({ edition, stamp }) => stampName(stamp, edition)),
		portrait: await print(settings.portrait),
		landscape: files.some(({ landscape }) => landscape) ? await print(settings.landscape) : undefined,
	};
}

const COUNTS: Readonly<Record<Stamp, number>> = {
	foot: 1,
	"up-2": 2,
	"up-4": 4,
	alone: 1,
	labels: 14,
	none: 0,
};

/** Printed sides as the joiner takes them. */
function asSegment(pdf: Uint8Array): Pick<Segment, "size" | "name" | "pdf"> {
	return { size: objectCount(pdf), name: "", pdf: async () => pdf };
}

function getsBlankBack({ leaves }: SheetFile, sides: number): boolean {
	return leaves && sides % 2 === 1;
}

/** All sides of a file, blank backs among them. */
function sidesOf(file: SheetFile, pieces: readonly PrintedPiece[]): number {
	const last = pieces.length - 1;
	return pieces.reduce(
		(sum, { sides }, i) => sum + sides + (i < last && getsBlankBack(file, sides) ? 1 : 0),
		0,
	);
}

const NOTHING: Segment["measures"] = { spots: [], spills: [] };

async function blankSide(paper: Paper): Promise<Uint8Array> {
	const blank = await PDFDocument.create({ updateMetadata: false });
	blank.addPage([paper.width * 0.75, paper.height * 0.75]);
	return blank.save();
}

/** The paper of one side. */
function paperFor({ club, paper = club.paper }: SheetOptions): Paper {
	return paperOf({ ...club, paper });
}

/** Two sides beside each other. */
function spread(paper: Paper): Paper {
	return { ...paper, width: 2 * paper.width };
}

/** The same paper lying down: for walls, so without a punched edge. */
function turned(paper: Paper): Paper {
	return { ...paper, width: paper.height, height: paper.width };
}

/** Fonts of one weight each: a variable font is taken apart into drawings of its letters in a PDF. */
const FONTS = "@fontsource/atkinson-hyperlegible-next";

async function settingsOf(
	options: SheetOptions,
): Promise<{ readonly portrait: SheetSetting; readonly landscape: SheetSetting }> {
	const fonts = embeddedFonts(FONTS, ["400.css", "400-italic.css", "700.css", "700-italic.css"]);
	const sheet = readProgramText("layouts/styles/sheets.css");
	const script = await scriptOf("in-sheet.ts");
	const setting = (side: Paper, paper: Paper): SheetSetting => ({
		paper,
		styles: `${fonts}\n${measuresOf(side, paper)}\n${sheet}\n${options.style ?? ""}`,
		script,
		language: options.club.language,
	});
	const paper = paperFor(options);
	const page = options.twoUp === true ? spread(paper) : paper;
	return { portrait: setting(paper, page), landscape: setting(turned(paper), turned(paper)) };
}

/** The lengths of a side, and the size of the page on which it, or two of it, are printed. */
function measuresOf({ width, height, punched, border }: Paper, page: Paper): string {
	const px = (length: number) => `${Math.round(length * 1000) / 1000}px`;
	return `@page { size: ${px(page.width)} ${px(page.height)}; margin: 0; }
:root { --width: ${px(width)}; --height: ${px(height)}; --punched: ${px(punched)}; --border: ${px(border)}; }`;
}
