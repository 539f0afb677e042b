/**
 * Pages of the browser that do one job after the other, side by side.
 *
 * A page keeps its styles and scripts from job to job, and is replaced when it fails: what fails in a fresh
 * page as well is at fault itself.
 */

import type { BrowserPages, OpenPage } from "./browser-pages.ts";

/** What a page has in it before its first job. */
export interface PageSetting {
	readonly language: string;
	/** In words; it stands on no paper. */
	readonly title: string;
	readonly styles: string;
	/** The class of its body. */
	readonly body: string;
	readonly scripts: readonly string[];
	/** After jobs of so much together the page is closed, and its memory is free. */
	readonly most?: number;
}

/** One page at a time. */
export class Press {
	readonly #pages: BrowserPages;
	readonly #setting: PageSetting;
	readonly #signal: AbortSignal | undefined;
	#open: OpenPage | undefined;
	#done = 0;

	constructor(pages: BrowserPages, setting: PageSetting, signal: AbortSignal | undefined) {
		this.#pages = pages;
		this.#setting = setting;
		this.#signal = signal;
	}

	/**
	 * Does a job. Throws where it fails twice, or the signal was given.
	 *
	 * @param isFinal whether an error is of what was printed, and would come again
	 */
	async run<T>(
		job: (open: OpenPage) => Promise<T>,
		{ size = 0, isFinal = () => false }: { size?: number; isFinal?: (error: unknown) => boolean } = {},
	): Promise<T> {
		if (this.#done + size > (this.#setting.most ?? Number.POSITIVE_INFINITY)) await this.#taken()?.close();
		for (let attempt = 1; ; attempt++) {
			try {
				this.#open ??= await this.#prepared();
				const result = await job(this.#open);
				this.#done += size;
				return result;
			} catch (error) {
				await this.#taken()?.close();
				this.#signal?.throwIfAborted();
				if (attempt === 2 || isFinal(error)) throw error;
			}
		}
	}

	/** Gives the page back. */
	async end(): Promise<void> {
		await this.#taken()?.release();
	}

	#taken(): OpenPage | undefined {
		const open = this.#open;
		this.#open = undefined;
		this.#done = 0;
		return open;
	}

	async #prepared(): Promise<OpenPage> {
		const { language, title, styles, body, scripts } = this.#setting;
		const open = await this.#pages.open();
		await open.run(60_000, async (page) => {
			await page.setContent(
				// Paged.js takes ordinary style elements away and rewrites them; this one is to stay.
				`<!doctype html><html lang="${language}"><head><meta charset="utf-8"><title>${title.replace(/[&<]/g, " ")}</title><style data-pagedjs-ignore>${styles}</style></head><body class="${body}"></body></html>`,
			);
			for (const script of scripts) await page.evaluate(script);
		});
		return open;
	}
}

/** Does jobs in their order, so many at a time, each by a press that does others too. */
export async function sideBySide<Job>(
	jobs: readonly Job[],
	workers: number,
	press: () => Press,
	signal: AbortSignal | undefined,
	work: (job: Job, press: Press) => Promise<void>,
): Promise<void> {
	const queue = jobs.values();
	const worker = async (): Promise<void> => {
		const own = press();
		try {
			for (const job of queue) {
				signal?.throwIfAborted();
				await work(job, own);
			}
		} finally {
			await own.end();
		}
	};
	await Promise.all(Array.from({ length: Math.min(workers, jobs.length) }, worker));
}
