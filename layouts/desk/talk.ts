/** How the page talks with its server, and what it shows: one state, changed by answers alone. */

import { desk as say } from "../../scripts/words/en.ts";
import type {
	Board,
	DeskNews,
	DeskPart,
	DeskState,
	DrillLine,
	Offer,
	Outcome,
	Refusal,
	TaskNews,
} from "./api.ts";

/** What the page shows of the server's answers. */
export interface Shown {
	readonly state: DeskState | undefined;
	readonly drills: readonly DrillLine[];
	/** What the last change did. */
	readonly last: { readonly what: string; readonly outcome: Outcome } | undefined;
	readonly refusal: Refusal | undefined;
	readonly busy: boolean;
	readonly tasks: Readonly<Partial<Record<TaskNews["task"], TaskNews>>>;
	/** A plan that is offered, to be taken or left. */
	readonly offer: Offer | undefined;
	/** What a reader hears. */
	readonly spoken: string;
}

let shown: Shown = {
	state: undefined,
	drills: [],
	last: undefined,
	refusal: undefined,
	busy: false,
	tasks: {},
	offer: undefined,
	spoken: "",
};
const listeners = new Set<() => void>();

export function current(): Shown {
	return shown;
}

/** The club's plan as the page shows it. Every view is made again when it changes, and is made of it alone. */
export function desk(): DeskState {
	if (shown.state === undefined) throw new Error("The desk is not open yet.");
	return shown.state;
}

/** The plan's board, where there is a plan. */
export function boardNow(): Board {
	const { board } = desk();
	if (board === undefined) throw new Error("There is no plan to show.");
	return board;
}

export function onChange(listener: () => void): () => void {
	listeners.add(listener);
	return () => listeners.delete(listener);
}

export function show(part: Partial<Shown>): void {
	shown = { ...shown, ...part };
	for (const listener of listeners) listener();
}

export function speak(words: string): void {
	// The same words twice are two things to say.
	show({ spoken: shown.spoken === words ? `${words}\u00a0` : words });
}

/** A request that was refused. */
export class NotDone extends Error {
	readonly refusal: Refusal;
	constructor(refusal: Refusal) {
		super(refusal.words);
		this.refusal = refusal;
	}
}

export async function get<T>(route: string): Promise<T> {
	const answer = await fetch(`api/${route}`);
	if (!answer.ok) throw new NotDone(await refusalOf(answer));
	return (await answer.json()) as T;
}

export async function post<T>(route: string, body: unknown): Promise<T> {
	const answer = await fetch(`api/${route}`, {
		method: "POST",
		headers: { "Content-Type": "application/json" },
		body: JSON.stringify(body),
	});
	if (!answer.ok) throw new NotDone(await refusalOf(answer));
	return (await answer.json()) as T;
}

export async function sendPicture(name: string, file: Blob): Promise<string> {
	const answer = await fetch(`api/picture?name=${encodeURIComponent(name)}`, {
		method: "POST",
		headers: { "Content-Type": "application/octet-stream" },
		body: file,
	});
	if (!answer.ok) throw new NotDone(await refusalOf(answer));
	return ((await answer.json()) as { readonly file: string }).file;
}

async function refusalOf(answer: Response): Promise<Refusal> {
	try {
		return (await answer.json()) as Refusal;
	} catch {
		return { refused: "wrong", words: say.serverGone };
	}
}

export async function load(): Promise<void> {
	const state = await get<DeskState>("state");
	show({ state });
	const [drills, tasks] = await Promise.all([get<DrillLine[]>("drills"), get<TaskNews[]>("tasks")]);
	show({ drills, tasks: Object.fromEntries(tasks.map((task) => [task.task, task])) });
	const events = new EventSource("api/events");
	events.onmessage = ({ data }) => hear(JSON.parse(String(data)) as DeskNews);
}

async function hear(news: DeskNews): Promise<void> {
	if (news.news === "task") {
		const { task } = news;
		show({ tasks: { ...shown.tasks, [task.task]: task } });
		if (task.offer !== undefined && task.offer.changes.length > 0) {
			show({ offer: task.offer });
			speak(say.offerIsThere(task.offer.words.length));
		}
		return;
	}
	if (news.revision === shown.state?.revision || shown.busy) return;
	await refresh();
	speak(say.filesChanged);
}

/** Takes everything anew: the files are other ones. */
async function refresh(): Promise<void> {
	const [state, drills] = await Promise.all([get<DeskState>("state"), get<DrillLine[]>("drills")]);
	show({ state, drills });
}

let queue: Promise<unknown> = Promise.resolve();

/**
 * Asks for a change and shows what came of it. One after the other: each is decided on what the one before
 * made of the plan.
 *
 * @returns what came of it; undefined where it was refused
 */
export function change(route: string, what: string, body: object): Promise<Outcome | undefined> {
	const next = queue.then(() => changeNow(route, what, body));
	queue = next;
	return next;
}

const WITH_REVISION = ["plan", "weeks", "new-week", "accept", "replace", "merge", "taught"];

async function changeNow(route: string, what: string, body: object): Promise<Outcome | undefined> {
	show({ busy: true });
	const isUndo = route === "undo" || route === "redo";
	const named = isUndo
		? {}
		: { ...body, what, ...(WITH_REVISION.includes(route) ? { revision: shown.state?.revision } : {}) };
	try {
		const outcome = await post<Outcome>(route, named);
		take(outcome.state);
		show({ last: { what, outcome }, refusal: undefined, busy: false });
		speak(`${what}. ${say.findingsAfter(outcome.come.length, outcome.gone.length)}`);
		// Where each drill is planned may be another; nobody waits for that.
		get<DrillLine[]>("drills").then(
			(drills) => show({ drills }),
			() => undefined,
		);
		return outcome;
	} catch (error) {
		const refusal =
			error instanceof NotDone ? error.refusal : { refused: "wrong" as const, words: say.serverGone };
		show({ refusal, busy: false, ...(refusal.state === undefined ? {} : { state: refusal.state }) });
		if (refusal.refused === "stale") await refresh().catch(() => undefined);
		speak(`${say.notDone} ${refusal.words}`);
		return undefined;
	}
}

/** What is other now takes its place in the state. */
function take({ weeks, frame, hasUndo, hasRedo, ...part }: DeskPart): void {
	const before = shown.state;
	if (before === undefined) return;
	const { undo: _u, redo: _r, ...rest } = before;
	const board = part.board ?? before.board;
	const changed = new Map(weeks?.map((week) => [week.week, week]));
	const now: DeskState = {
		...rest,
		...part,
		...(board === undefined
			? {}
			: { board: { ...board, ...frame, weeks: board.weeks.map((week) => changed.get(week.week) ?? week) } }),
	};
	show({ state: now });
}
