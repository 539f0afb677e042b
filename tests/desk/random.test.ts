/**
 * Random work at the desk, with the program killed in the middle and somebody else writing in the same files:
 * the folder is valid after every step, and nothing that anybody wrote is lost. `DESK_STEPS` says how many
 * steps; a few dozen where it is not said, 500 for the whole proof. `DESK_SEED` begins another run.
 */

import { appendFileSync, readdirSync, readFileSync } from "node:fs";
import { request } from "node:http";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { DeskState } from "../../layouts/desk/api.ts";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { clubCopy } from "../open-fixture.ts";
import { type Served, startDesk } from "./open-desk.ts";

const STEPS = Number(process.env.DESK_STEPS ?? 40);
const SEED = Number(process.env.DESK_SEED ?? 20270104);

/** Numbers from 0 to below 1, the same for a seed (mulberry32, public domain). */
function randomFrom(seed: number): () => number {
	let state = seed;
	return () => {
		state = (state + 0x6d2b79f5) | 0;
		let t = Math.imul(state ^ (state >>> 15), 1 | state);
		t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
		return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
	};
}

class Client {
	served: Served;
	cookie = "";
	constructor(served: Served) {
		this.served = served;
		this.cookie = `desk-${new URL(served.root).port}=${served.token}`;
	}
	async state(): Promise<DeskState> {
		const { body } = await this.#ask("GET", "state");
		return JSON.parse(body) as DeskState;
	}
	async post(route: string, body: object): Promise<number> {
		return (await this.#ask("POST", route, JSON.stringify(body))).status;
	}
	/** On a connection of its own: one that was kept may be closed in the moment in which it is used again. */
	#ask(
		method: string,
		route: string,
		sent?: string,
	): Promise<{ readonly status: number; readonly body: string }> {
		const { origin } = new URL(this.served.root);
		const headers = { Cookie: this.cookie, Origin: origin, "Content-Type": "application/json" };
		return new Promise((resolve, reject) => {
			const asked = request(`${origin}/desk/api/${route}`, { method, headers, agent: false }, (response) => {
				let body = "";
				response.setEncoding("utf8").on("data", (part: string) => {
					body += part;
				});
				response.on("end", () => resolve({ status: response.statusCode ?? 0, body }));
				response.on("error", reject);
			});
			asked.on("error", reject);
			asked.end(sent);
		});
	}
}

/** Everything that lies in the club's folder, kept texts among it. */
function everything(dir: string): string {
	return readdirSync(dir, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => readFileSync(join(entry.parentPath, entry.name), "utf8"))
		.join("\n");
}

it(`keeps files valid and loses nothing in ${STEPS} steps`, async () => {
	const random = randomFrom(SEED);
	const upTo = (most: number): number => Math.floor(random() * most);
	const dir = clubCopy();
	let client = new Client(await startDesk(dir));
	/** Notes of blocks that were added, by the change that added them, oldest first; what undo takes back. */
	let done: { readonly what: string; readonly note?: string }[] = [];
	let undone: { readonly what: string; readonly note?: string }[] = [];
	const drafts = new Map<string, string>();
	const outside: string[] = [];
	let kills = 0;

	const check = (step: number): void => {
		const where = `seed ${SEED}, step ${step}`;
		const { problems, handbook } = openHandbook(dir);
		expect(
			problems.filter(({ severity }) => severity === "error"),
			where,
		).toEqual([]);
		expect(handbook, where).toBeDefined();
		const texts = [...readTexts(dir).values()].join("\n");
		for (const { note } of done)
			if (note !== undefined) expect(texts.split(note).length, `${where}: ${note}`).toBe(2);
		const all = everything(dir);
		for (const mark of outside) expect(all, `${where}: ${mark}`).toContain(mark);
		for (const text of drafts.values()) expect(all, `${where}: draft`).toContain(text);
	};

	/** The program is ended as a power cut ends it, and started again. */
	const restart = async (): Promise<void> => {
		kills++;
		await client.served.end();
		client = new Client(await startDesk(dir));
		undone = [];
	};

	for (let step = 1; step <= STEPS; step++) {
		const state = await client.state();
		const blocks = (state.board?.weeks ?? []).flatMap(({ areas }) => areas.flatMap((area) => area.blocks));
		const note = `note-${step}.`;
		const what = `step-${step}`;
		const block = blocks[upTo(blocks.length)];
		const make = async (change: object, own: { readonly note?: string } = {}): Promise<void> => {
			const wish = { revision: state.revision, what, changes: [change] };
			if (random() < 0.12) {
				// Killed somewhere on the way.
				const asked = client.post("plan", wish).catch(() => 0);
				await new Promise((resolve) => setTimeout(resolve, upTo(30)));
				await restart();
				await asked;
				if ((await client.state()).undo === what) done.push({ what, ...own });
				return;
			}
			if ((await client.post("plan", wish)) !== 200) return;
			done.push({ what, ...own });
			undone = [];
		};
		const kind = upTo(12);
		if (kind < 4) {
			const drill = ["rock", "rock-back", "wedge-roll"][upTo(3)] ?? "rock";
			await make(
				{ add: { week: 1, apparatus: "floor", at: 1, block: { drill, minutes: 1 + upTo(9), note } } },
				{ note },
			);
		} else if (kind < 6 && block !== undefined) {
			const floor = blocks.filter(({ at }) => at.startsWith("1/floor/"));
			const from = floor[upTo(floor.length)];
			if (from !== undefined)
				await make({ move: { from: from.at, to: `1/floor/${1 + upTo(floor.length)}` } });
		} else if (kind === 6 && block !== undefined) {
			await make({ set: { block: block.at, minutes: 1 + upTo(20) } });
		} else if (kind === 7) {
			if ((await client.post("undo", {})) === 200) {
				const last = done.at(-1);
				done = done.slice(0, -1);
				if (last !== undefined) undone.push(last);
			}
		} else if (kind === 8) {
			if ((await client.post("redo", {})) === 200) {
				const last = undone.pop();
				if (last !== undefined) done.push(last);
			}
		} else if (kind === 9) {
			const mark = `outside-${step}.`;
			const weeks = [...readTexts(dir).keys()].filter((path) => path.startsWith("content/"));
			appendFileSync(join(dir, weeks[upTo(weeks.length)] ?? ""), `\n${mark}\n`);
			outside.push(mark);
		} else if (kind === 10) {
			const path = `content/guides/draft-${upTo(3)}.md`;
			const text = `Half a thought ${step}`;
			if ((await client.post("draft", { path, base: null, text })) === 200) drafts.set(path, text);
		} else await restart();
		check(step);
	}
	// It was no quiet evening.
	expect(kills).toBeGreaterThan(0);
	expect(done.length).toBeGreaterThan(STEPS / 8);
	process.stdout.write(`${STEPS} steps, ${kills} kills, ${outside.length} written by others\n`);
});
