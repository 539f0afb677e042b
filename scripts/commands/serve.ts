/**
 * `serve`: the handbook on this computer, new at every change of the club folder.
 *
 * Nothing is built: a page is made when it is asked for (preview.ts), and only files that changed are
 * parsed again. While the content has errors, every page stays as it was and names them, with file and
 * line, at its head; where there were errors from the first, the pages are those of the sound files. The
 * moment they are mended the notice is gone. A change that fails never ends the command.
 *
 * Beside the preview stands the desk, where the folder is changed (scripts/desk): on this computer alone,
 * by the address that is printed.
 */

import { once } from "node:events";
import type { IncomingMessage, ServerResponse } from "node:http";
import { join } from "node:path";
import { type FSWatcher, watch } from "chokidar";
import { PROBLEMS_ADDRESS, problemsPage, withNotice } from "../../layouts/pages/problems.ts";
import { Desk } from "../desk/desk.ts";
import { DeskServer } from "../desk/desk-server.ts";
import { CannotListen, isLoopback, startServer } from "../desk/local-server.ts";
import { type Answer, Preview, previewStyles } from "../desk/preview.ts";
import { openScratch } from "../files/scratch.ts";
import { type OpenOptions, openHandbook } from "../handbook.ts";
import type { LayerCaches } from "../libraries/layers.ts";
import type { Problem } from "../problems.ts";
import type { ReadCache } from "../read/read-club.ts";
import { highlightCode } from "../site/highlight-code.ts";
import { writeCommonFiles } from "../site/write-site.ts";
import { CLUB_STYLES } from "../views/pages.ts";
import { type Words, wordsFor } from "../words/words.ts";
import { renewEditorFiles } from "./editor-files.ts";
import { openClub, openRest } from "./open-club.ts";
import { count, reportProblems } from "./report.ts";
import type { Run } from "./run.ts";
import { clubAndFolder, saidOfClub } from "./said-of-club.ts";

/** Milliseconds without a further change before reading starts: editors write in several steps. */
const SETTLE = 8;

export interface ServeOptions {
	/** The address to listen on: this computer's own, or one that others can ask too. */
	readonly host: string;
	readonly port: number;
	/** The desk shows, and changes nothing. */
	readonly readOnly?: boolean;
	/** When it ends; by itself at a signal to the process. */
	readonly until?: Promise<void>;
}

/** @returns 0 when it was ended; 2 where it cannot listen */
export async function serve(run: Run, options: ServeOptions): Promise<number> {
	const scratch = openScratch("handbook-serve");
	// Watching starts before the first reading: a change made between the two would be missed.
	const watcher = watch(
		watchedIn(run.clubDir),
		// A link may lead out of the folder.
		{ ignoreInitial: true, followSymlinks: false },
	);
	try {
		return await serveFrom(run, options, scratch.folder.path, watcher);
	} catch (error) {
		if (!(error instanceof CannotListen)) throw error;
		run.out.line(error.message);
		return 2;
	} finally {
		// Whatever ended it: what still watches would keep the command from ending.
		await watcher.close();
		scratch.remove();
	}
}

/** What a club or a library writes. */
function watchedIn(folder: string): string[] {
	return ["content", "_data"].map((name) => join(folder, name));
}

/** @param common the folder for what the pages of every club load */
async function serveFrom(
	run: Run,
	{ host, port, readOnly = false, until = signalled() }: ServeOptions,
	common: string,
	watcher: FSWatcher,
): Promise<number> {
	const { out } = run;
	const club = new ServedClub(run, common, isOwnAddress(host));
	let changedMeanwhile = false;
	let changed = (): void => {
		changedMeanwhile = true;
	};
	watcher.on("all", () => changed());
	await once(watcher, "ready");
	const read = async () => {
		await club.read();
		// Known folders are added once.
		watcher.add(club.libraries.flatMap(watchedIn));
	};
	await read();
	const desk = isLoopback(host) ? club.desk(readOnly) : undefined;
	const server: DevServer = await startServer(common, {
		host,
		port,
		desk: desk?.door((error) => out.line(`The desk failed: ${messageOf(error)}`)),
		domDiff: false,
		logger: { info: out.line, log: out.line, error: out.line },
		middleware: [
			(request, response, next) => {
				club
					.answer(request, response, next, (page) => server.augmentContentWithNotifier(page))
					.catch((error: unknown) => {
						out.line(`The page failed: ${messageOf(error)}`);
						response.statusCode = 500;
						response.end("This page failed; the terminal says why.");
					});
			},
		],
	});
	let timer: NodeJS.Timeout | undefined;
	let reading: Promise<void> = Promise.resolve();
	const readAgain = (): void => {
		clearTimeout(timer);
		timer = setTimeout(() => {
			// One reading after the other: a change during one starts the next.
			reading = reading
				.then(read)
				.catch((error: unknown) => out.line(`Reading the folder failed: ${messageOf(error)}`))
				.then(() => server.reload({}))
				.then(() => desk?.filesChanged())
				.catch((error: unknown) => out.line(`The desk failed: ${messageOf(error)}`));
		}, SETTLE);
	};
	changed = readAgain;
	if (desk !== undefined)
		out.line(`The desk${readOnly ? ", to be looked at" : ""}: ${desk.address(portOf(server))}`);
	// What changed while the first reading was under way.
	if (changedMeanwhile) readAgain();
	await until;
	clearTimeout(timer);
	desk?.end();
	await server.close();
	return 0;
}

function signalled(): Promise<void> {
	return new Promise((resolve) => {
		process.once("SIGINT", resolve);
		process.once("SIGTERM", resolve);
	});
}

function portOf(server: DevServer): number {
	const address = server.server.address();
	return typeof address === "object" && address !== null ? address.port : 0;
}

/** Whether only this computer can ask at an address. */
function isOwnAddress(host: string): boolean {
	return host === "localhost" || host === "::1" || /^127\./.test(host);
}

type DevServer = Awaited<ReturnType<typeof startServer>>;

/** The club as it was last read, and what is answered from it. */
class ServedClub {
	readonly #run: Run;
	readonly #common: string;
	readonly #cache: ReadCache = new Map();
	readonly #libraryCaches: LayerCaches = new Map();
	/** The folders of the club's libraries. */
	libraries: readonly string[] = [];
	#problems: readonly Problem[] = [];
	#before: OpenOptions["before"];
	#preview: Preview | undefined;
	/** Files without which the pages were made; none once there was a state without errors. */
	#leftOut: readonly string[] = [];
	#wasSound = false;
	/** Of the last good reading; while there was none, as the club's own file says. */
	#words: Words;
	/** The language that the browser programs speak; undefined before they are written. */
	#language: string | undefined;

	/** Nobody else reads along, so that what coaches reported is shown. */
	readonly #isAlone: boolean;

	constructor(run: Run, common: string, isAlone: boolean) {
		this.#run = run;
		this.#isAlone = isAlone;
		this.#common = common;
		this.#words = wordsFor(saidOfClub(run.clubDir, "language") ?? "en");
	}

	/** The desk of the same folder, in the language of its handbook. */
	desk(readOnly: boolean): DeskServer {
		const { clubDir, outDir } = this.#run;
		const desk = new Desk({
			clubDir,
			outDir,
			readOnly,
			now: () => new Date(),
			words: this.#words,
			cache: this.#cache,
			libraryCaches: this.#libraryCaches,
			open: openHandbook,
		});
		return new DeskServer(desk, outDir);
	}

	/** Reads the folder again; the last good state stays where it has errors. */
	async read(): Promise<void> {
		await this.#reread();
		// While there are errors the page that shows them needs its styles.
		if (this.#language === undefined) await this.#speak(this.#words);
	}

	async #reread(): Promise<void> {
		const { clubDir, outDir, now, out } = this.#run;
		const started = performance.now();
		const options = {
			highlight: highlightCode,
			keep: true,
			cache: this.#cache,
			libraryCaches: this.#libraryCaches,
			before: this.#before,
			taught: this.#isAlone,
		};
		const club = await openClub(clubDir, { ...options, outDir, now });
		const had = this.#problems.length;
		this.#problems = club.problems.filter((p) => p.severity === "error");
		reportProblems(club.problems, clubDir, out);
		if (club.opened === undefined) {
			if (this.#wasSound) return;
			const rest = await openRest(clubDir, this.#problems, options);
			this.#leftOut = rest?.leftOut ?? [];
			this.#preview = rest && new Preview(rest.opened.handbook, rest.opened.media, []);
			if (rest !== undefined) await this.#speak(rest.opened.handbook.words);
			return;
		}
		this.#wasSound = true;
		this.#before = { files: club.opened.files, curriculum: club.opened.handbook.curriculum };
		this.libraries = club.opened.handbook.libraries;
		this.#leftOut = [];
		await this.#speak(club.opened.handbook.words);
		if (had > 0) out.line("All errors are mended.");
		renewEditorFiles(this.#run, club.opened.handbook);
		this.#preview = new Preview(
			club.opened.handbook,
			club.opened.media,
			club.problems.filter((p) => p.severity === "warning"),
		);
		out.line(
			`${count(this.#preview.pages, "page")} ready in ${Math.round(performance.now() - started)} ms: ${clubAndFolder(clubDir)}`,
		);
	}

	/** The browser programs speak the language of the handbook: they are written again where it changes. */
	async #speak(wanted: Words): Promise<void> {
		this.#words = wanted;
		if (wanted.language === this.#language) return;
		this.#language = wanted.language;
		await writeCommonFiles(wanted, this.#common);
	}

	/** @param withReload puts the program into a page that loads it again after a change */
	async answer(
		request: IncomingMessage,
		response: ServerResponse,
		next: () => void,
		withReload: (page: string) => string,
	): Promise<void> {
		const wantsPage = request.headers.accept?.includes("text/html") ?? false;
		const path = pathOf(request.url);
		const preview = this.#preview;
		const problems = this.#problems;
		const isOurs = path?.startsWith(".11ty/") || (path?.startsWith("assets/") && path !== CLUB_STYLES);
		if (isOurs) return next();
		if (wantsPage && (preview === undefined || (path === PROBLEMS_ADDRESS && problems.length > 0))) {
			const isShown = preview !== undefined;
			response.setHeader("Content-Type", "text/html; charset=utf-8");
			response.end(withReload(problemsPage(problems, this.#words, { isShown })));
			return;
		}
		if (path === PROBLEMS_ADDRESS)
			return send(response, { status: 302, type: "text/html", body: "", location: "/" });
		if (path === "preview.css") return send(response, previewStyles());
		// What cannot be a path is answered here: the package would call it a fault of its own.
		const found =
			(path === undefined ? preview?.notFound() : await preview?.answer(path)) ??
			(wantsPage ? preview?.notFound() : undefined);
		if (found === undefined) return next();
		const isPage = found.type.startsWith("text/html") && typeof found.body === "string";
		if (!isPage || found.status === 302) return send(response, found);
		const text = String(found.body);
		const writtenIn = path === undefined ? undefined : preview?.writtenIn(path);
		const page =
			problems.length > 0
				? withNotice(text, { problems, leftOut: this.#leftOut }, this.#words, writtenIn)
				: text;
		send(response, { ...found, body: withReload(page) });
	}
}

function send(response: ServerResponse, { status, type, body, location }: Answer): void {
	response.statusCode = status;
	response.setHeader("Content-Type", type);
	response.setHeader("Cache-Control", "no-store");
	if (location !== undefined) response.setHeader("Location", location);
	response.end(body);
}

/** The path from the root, decoded; undefined for what cannot be one. */
function pathOf(url = "/"): string | undefined {
	try {
		return decodeURIComponent(new URL(url, "http://localhost").pathname).slice(1);
	} catch {
		return undefined;
	}
}

function messageOf(error: unknown): string {
	return error instanceof Error ? error.message : String(error);
}
