/**
 * The preview of a handbook: every page made the moment it is asked for, so that a change costs the
 * reading of what changed, the counting, and one page.
 *
 * What a published site has as files is answered from memory here: pages, data, the search's index,
 * media. Two things are in the preview alone: a bar that names where a page is written and lists the
 * warnings, and the printed sheets under `print-preview/`.
 */

import { printPreviewList, printPreviewSection } from "../../layouts/pages/print-preview.ts";
import { type SitePage, sitePages } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import { paperOf } from "../../layouts/sheets/paper.ts";
import type { Sheets } from "../../layouts/sheets/section.ts";
import { readProgramText } from "../files/program.ts";
import type { Handbook } from "../handbook.ts";
import { binderOf } from "../print/binder.ts";
import { printStyles } from "../print/print-styles.ts";
import type { Problem } from "../problems.ts";
import { searchFiles } from "../search/build-search.ts";
import { clubStyles } from "../site/club-styles.ts";
import { dataFiles } from "../site/data-files.ts";
import { highlightCode } from "../site/highlight-code.ts";
import { SCHEMA_FOLDER, schemaFiles } from "../site/schema-files.ts";
import { html, raw } from "../views/html.ts";
import { MANIFEST_FILE, manifestText } from "../views/manifest.ts";
import type { PreparedMedia } from "../views/medium.ts";
import { CLUB_STYLES } from "../views/pages.ts";

export interface Answer {
	readonly status: 200 | 302 | 404;
	readonly type: string;
	readonly body: string | Uint8Array;
	/** Where to look instead. */
	readonly location?: string;
}

const HTML = "text/html; charset=utf-8";

const TYPES: Readonly<Record<string, string>> = {
	json: "application/json; charset=utf-8",
	csv: "text/csv; charset=utf-8",
	ics: "text/calendar; charset=utf-8",
	webmanifest: "application/manifest+json; charset=utf-8",
	css: "text/css; charset=utf-8",
	webp: "image/webp",
	mp4: "video/mp4",
	webm: "video/webm",
};

/** The styles of what the preview adds; they are there while there is nothing else to see. */
export function previewStyles(): Answer {
	return fileOf("preview.css", readProgramText("layouts/styles/preview.css"));
}

/** One state of a handbook, answering for every path of its preview. */
export class Preview {
	readonly #handbook: Handbook;
	readonly #media: PreparedMedia;
	readonly #warnings: readonly Problem[];
	readonly #pages: ReadonlyMap<string, SitePage>;
	#data: ReadonlyMap<string, string> | undefined;
	#sheets: Promise<Sheets> | undefined;

	constructor(handbook: Handbook, media: PreparedMedia, warnings: readonly Problem[]) {
		this.#handbook = handbook;
		this.#media = media;
		this.#warnings = warnings;
		this.#pages = new Map(sitePages(handbook, { media }).map((page) => [page.address, page]));
	}

	/** How many pages there are to ask for. */
	get pages(): number {
		return this.#pages.size;
	}

	/** What stands at a path from the root; undefined where nothing of the handbook does. */
	async answer(path: string): Promise<Answer | undefined> {
		const address = path.replace(/(^|\/)index\.html$/, "$1");
		const page = this.#pages.get(address);
		if (page !== undefined) return { status: 200, type: HTML, body: this.#document(page) };
		if (this.#pages.has(`${address}/`) || address === "print-preview") {
			return { status: 302, type: HTML, body: "", location: `/${address}/` };
		}
		if (path.startsWith("print-preview/")) return this.#printed(path.slice("print-preview/".length));
		const medium = this.#media.files.get(path);
		if (medium !== undefined) return fileOf(path, medium());
		const text = this.#dataFiles().get(path);
		return text === undefined ? undefined : fileOf(path, text);
	}

	/** The file in which the page at a path is written; undefined for what is counted from many files. */
	writtenIn(path: string): string | undefined {
		const page = this.#pages.get(path.replace(/(^|\/)index\.html$/, "$1"));
		return page?.written?.().file;
	}

	/** The page for a path at which nothing stands. */
	notFound(): Answer {
		const page = this.#pages.get("404.html");
		const body = page === undefined ? "" : this.#document(page);
		return { status: 404, type: HTML, body };
	}

	#document(page: SitePage): string {
		const text = documentOf(page, (language, code) => raw(highlightCode(code, language)));
		const bar = this.#bar(page).text;
		return text
			.replace("</head>", '<link rel="stylesheet" href="/preview.css">\n</head>')
			.replace("</body>", () => `${bar}\n</body>`);
	}

	#bar(page: SitePage) {
		const place = page.written?.();
		const say = this.#handbook.words.preview;
		const where =
			place === undefined
				? html`${say.counted}`
				: html`${say.writtenIn} <code>${place.file}${place.line > 1 && `:${place.line}`}</code>`;
		return html`<aside class="preview-bar on-page" aria-label="${say.bar}"><span>${where}</span> <a href="/print-preview/">${say.sheets}</a>${
			this.#warnings.length > 0 &&
			html`<ul>${this.#warnings.map(
				({ code, place: at, what, fix }) =>
					html`<li lang="en"><code>${at.file}:${at.line}</code> ${code} ${what} ${fix}</li>`,
			)}</ul>`
		}</aside>`;
	}

	async #printed(path: string): Promise<Answer | undefined> {
		this.#sheets ??= binderOf(this.#handbook).then(binderSheets);
		const sheets = await this.#sheets;
		if (path === "") return { status: 200, type: HTML, body: printPreviewList(sheets, this.#handbook.words) };
		if (path === "print.css") {
			return fileOf(
				path,
				printStyles(paperOf(this.#handbook.curriculum.club), sheets.slots, this.#handbook.style),
			);
		}
		const number = /^(\d+)\/?$/.exec(path)?.[1];
		const section = number === undefined ? undefined : sheets.sections[Number(number)];
		if (section === undefined) return undefined;
		return {
			status: 200,
			type: HTML,
			body: printPreviewSection(sheets, section, Number(number), this.#handbook.words),
		};
	}

	#dataFiles(): ReadonlyMap<string, string> {
		if (this.#data !== undefined) return this.#data;
		const handbook = this.#handbook;
		const files = [
			...dataFiles(handbook, handbook.words, handbook.edition),
			...searchFiles(handbook),
			...schemaFiles(SCHEMA_FOLDER, handbook.curriculum.club.site),
		];
		const styles = clubStyles(handbook);
		const data = new Map([
			...(styles === undefined ? [] : [[CLUB_STYLES, styles] as const]),
			...files.map(({ path, text }) => [path, text] as const),
			[MANIFEST_FILE, manifestText(handbook)] as const,
		]);
		this.#data = data;
		return data;
	}
}

function fileOf(path: string, body: string | Uint8Array): Answer {
	const ending = path.split(".").at(-1) ?? "";
	return { status: 200, type: TYPES[ending] ?? "application/octet-stream", body };
}
