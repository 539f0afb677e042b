/** The desk as a director has it: `serve` on a folder, and a browser at the address that it printed. */

import { spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import type { Browser, BrowserContext, ElementHandle, Page } from "puppeteer-core";
import { onTestFinished } from "vitest";
import { ownOutput } from "../../scripts/commands/note-edition.ts";
import { serve } from "../../scripts/commands/serve.ts";
import { quietRun } from "../commands/quiet-run.ts";
import { REPOSITORY } from "../open-fixture.ts";
import { openBrowser as startBrowser } from "../see-pages.ts";

export interface Served {
	/** With the token. */
	readonly address: string;
	/** Without anything behind the port. */
	readonly root: string;
	readonly token: string;
	readonly end: () => Promise<unknown>;
}

const DESK = /(http:\/\/127\.0\.0\.1:\d+\/desk\/\?token=[\w-]+)/;

/** `serve` in this process, with the desk's address; it ends with the test. */
export async function serveDesk(dir: string): Promise<Served> {
	const end = Promise.withResolvers<void>();
	const said = Promise.withResolvers<string>();
	const { run } = quietRun(dir);
	const line = (text: string) => {
		const [, address] = DESK.exec(text) ?? [];
		if (address !== undefined) said.resolve(address);
	};
	const ended = serve(
		{ ...run, outDir: ownOutput(dir), now: new Date(), out: { ...run.out, line } },
		{ host: "127.0.0.1", port: 0, until: end.promise },
	);
	ended.catch(said.reject);
	onTestFinished(() => {
		end.resolve();
		return ended.then(() => undefined);
	});
	return servedAt(await said.promise, () => {
		end.resolve();
		return ended;
	});
}

/** The same as a process of its own, which can be killed. */
export async function startDesk(dir: string): Promise<Served> {
	const { found, end } = await serveUntil(DESK, dir);
	return servedAt(found, () => end("SIGKILL"));
}

function servedAt(address: string, end: () => Promise<unknown>): Served {
	const url = new URL(address);
	return { address, root: url.origin, token: url.searchParams.get("token") ?? "", end };
}

/** Starts `serve` and waits until it has said something. */
export async function serveUntil(pattern: RegExp, dir: string, ...options: readonly string[]) {
	const served = spawn(
		join(REPOSITORY, "node_modules/.bin/node"),
		[join(REPOSITORY, "scripts/commands/main.ts"), "serve", "--club", dir, "--port", "0", ...options],
		{ stdio: ["ignore", "pipe", "pipe"] },
	);
	let said = "";
	const end = async (signal: NodeJS.Signals = "SIGTERM"): Promise<void> => {
		if (served.exitCode !== null || served.signalCode !== null) return;
		served.kill(signal);
		await once(served, "exit");
	};
	onTestFinished(() => end());
	const found = await new Promise<string>((resolve, reject) => {
		const hear = (text: Buffer): void => {
			said += String(text);
			const match = pattern.exec(said)?.[1];
			if (match !== undefined) resolve(match);
		};
		served.stdout.on("data", hear);
		served.stderr.on("data", hear);
		served.on("exit", () => reject(new Error(said)));
	});
	return { found, end, said: () => said };
}

/** One browser for all files of a process, which ends it when it ends. */
let running: Browser | undefined;

/** A browser as nobody has used it: without cookies, and closed when the test ends. */
export async function openBrowser(): Promise<BrowserContext> {
	if (running?.connected !== true) running = await startBrowser();
	const context = await running.createBrowserContext();
	onTestFinished(() => context.close());
	return context;
}

/** How somebody works: with a mouse, with the keyboard alone, or with a finger. */
export interface Hands {
	readonly page: Page;
	/** A button or a link, by what it is called. */
	press(name: string): Promise<void>;
	/** The same by a selector, for what is called by all that stands in it. */
	pressAt(selector: string): Promise<void>;
	type(field: string, text: string): Promise<void>;
	/** An option of a list, by its words. */
	choose(field: string, option: string): Promise<void>;
	/** A thing by its name in a picker. */
	pick(field: string, name: string): Promise<void>;
	/** A drill of the search into a week and an area, as the last there. */
	plan(drill: string, week: number, area: string): Promise<void>;
}

const CONTROLS = 'button, a, input[type="checkbox"]';
const FIELDS = "input, select, textarea, .cm-content";

/** A control by the name that a screen reader says. */
async function find(page: Page, name: string, kind: string): Promise<ElementHandle<HTMLElement>> {
	for (let tries = 0; tries < 200; tries++) {
		// What is looked at may be made anew in that moment.
		for (const element of await page.$$(`aria/${name}`).catch(() => [])) {
			const isOne = await element.evaluate((one, wanted) => (one as HTMLElement).matches?.(wanted), kind);
			if (isOne) return element as ElementHandle<HTMLElement>;
		}
		await new Promise((resolve) => setTimeout(resolve, 40));
	}
	throw new Error(`Nothing is called “${name}” (${kind})`);
}

/** Waits until the desk has answered, and says that all is saved. */
export async function settled(page: Page): Promise<void> {
	await page.waitForSelector('.saved[data-busy="false"]', { timeout: 20_000 });
}

abstract class CommonHands implements Hands {
	readonly page: Page;
	constructor(page: Page) {
		this.page = page;
	}
	abstract reach(element: ElementHandle<HTMLElement>, press: boolean): Promise<void>;
	abstract plan(drill: string, week: number, area: string): Promise<void>;

	async press(name: string): Promise<void> {
		await this.reachNew(() => find(this.page, name, CONTROLS));
		await settled(this.page);
	}

	/** Once more, where it was made anew between finding and pressing it. */
	private async reachNew(found: () => Promise<ElementHandle<HTMLElement>>): Promise<void> {
		try {
			await this.reach(await found(), true);
		} catch (error) {
			if (!/detached/.test(String(error))) throw error;
			await this.reach(await found(), true);
		}
	}

	async pressAt(selector: string): Promise<void> {
		const element = await this.page.waitForSelector(selector);
		await this.reach(element as unknown as ElementHandle<HTMLElement>, true);
		await settled(this.page);
	}

	async type(field: string, text: string): Promise<void> {
		const element = await find(this.page, field, FIELDS);
		await this.reach(element, false);
		await this.page.keyboard.down("Control");
		await this.page.keyboard.press("KeyA");
		await this.page.keyboard.up("Control");
		await this.page.keyboard.type(text);
	}

	async choose(field: string, option: string): Promise<void> {
		const element = await find(this.page, field, FIELDS);
		await this.reach(element, false);
		// A list chooses by the letters that are typed; the page of a phone has a list of its own.
		const value = await element.evaluate(
			(select, words) =>
				[...(select as unknown as HTMLSelectElement).options].find((one) => one.text === words)?.value,
			option,
		);
		if (value === undefined) throw new Error(`“${field}” has no “${option}”`);
		await element.select(value);
	}

	async pick(field: string, name: string): Promise<void> {
		await this.type(field, name);
		await this.page.waitForSelector('[role="option"]');
		await this.page.keyboard.press("Enter");
	}
}

export class MouseHands extends CommonHands {
	async reach(element: ElementHandle<HTMLElement>): Promise<void> {
		await element.evaluate((one) => one.scrollIntoView({ block: "center", inline: "center" }));
		await element.click();
	}

	async plan(drill: string, week: number, area: string): Promise<void> {
		const { page } = this;
		await this.type("Search the drills", drill);
		await page.waitForFunction(
			(name) => document.querySelector(".drill-list .drill-name b")?.textContent === name,
			{},
			drill,
		);
		const card = await page.$(".drill-list .card.drill");
		const cell = await page.waitForSelector(`[data-cell="${week}/${area}"]`);
		await cell?.evaluate((one) => one.scrollIntoView({ block: "center", inline: "center" }));
		const [from, to] = [await card?.boundingBox(), await cell?.boundingBox()];
		if (!from || !to) throw new Error("nothing to drag");
		await page.mouse.move(from.x + 30, from.y + 12);
		await page.mouse.down();
		await page.mouse.move(from.x + 60, from.y + 30, { steps: 3 });
		await page.mouse.move(to.x + to.width / 2, to.y + to.height - 6, { steps: 6 });
		await page.waitForSelector(".gap.is-here");
		await page.mouse.up();
		await page.waitForFunction(() => document.querySelector(".is-carrying") === null);
		await settled(page);
	}
}

/** Tab and Shift+Tab, arrows, Enter and Space; no pointer at all. */
export class KeyHands extends CommonHands {
	async reach(element: ElementHandle<HTMLElement>, press: boolean): Promise<void> {
		for (let i = 0; i < 400; i++) {
			if (await element.evaluate((one) => document.activeElement === one)) {
				if (press) await this.page.keyboard.press("Enter");
				return;
			}
			await this.page.keyboard.press("Tab");
		}
		throw new Error(`Tab does not lead to ${await element.evaluate((one) => one.outerHTML.slice(0, 200))}`);
	}

	override async choose(field: string, option: string): Promise<void> {
		const element = await find(this.page, field, FIELDS);
		await this.reach(element, false);
		await this.page.keyboard.type(option);
		const chosen = await element.evaluate(
			(select) => (select as unknown as HTMLSelectElement).selectedOptions[0]?.text,
		);
		if (chosen !== option) throw new Error(`“${field}” has “${chosen}” and not “${option}”`);
	}

	async plan(drill: string, week: number, area: string): Promise<void> {
		const { page } = this;
		await this.type("Search the drills", drill);
		await this.reach(await find(page, `Plan it: ${drill}`, CONTROLS), true);
		await page.waitForSelector(".gap.is-here");
		const at = () =>
			page.evaluate(
				() => document.querySelector(".gap.is-here")?.closest<HTMLElement>("[data-cell]")?.dataset.cell,
			);
		for (let i = 0; i < 30 && (await at()) !== `${week}/${area}`; i++) {
			const now = Number((await at())?.split("/")[0]);
			await page.keyboard.press(now < week ? "ArrowRight" : now > week ? "ArrowLeft" : "ArrowDown");
		}
		await page.keyboard.press("Space");
		await page.waitForFunction(() => document.querySelector(".is-carrying") === null);
		await settled(page);
	}
}

export class FingerHands extends CommonHands {
	async reach(element: ElementHandle<HTMLElement>): Promise<void> {
		await element.evaluate((one) => one.scrollIntoView({ block: "center", inline: "center" }));
		await element.tap();
	}

	async plan(drill: string, week: number, area: string): Promise<void> {
		const { page } = this;
		await this.type("Search the drills", drill);
		await this.reach(await find(page, `Plan it: ${drill}`, CONTROLS));
		const gap = await page.waitForSelector(`[data-cell="${week}/${area}"] .gap:last-child button`);
		await this.reach(gap as unknown as ElementHandle<HTMLElement>);
		await page.waitForFunction(() => document.querySelector(".is-carrying") === null);
		await settled(page);
	}
}
