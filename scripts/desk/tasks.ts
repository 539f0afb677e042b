/**
 * What takes long, as commands of this program in processes of their own: building, printing, and the
 * search for a mend of a week. The desk goes on meanwhile, and a task can be stopped.
 */

import { type ChildProcess, spawn } from "node:child_process";
import { join } from "node:path";
import type { TaskNews } from "../../layouts/desk/api.ts";
import { PROGRAM } from "../files/program.ts";

type TaskName = TaskNews["task"];

/** Lines that are told of a task. */
const MOST_LINES = 200;

export class Tasks {
	readonly #tell: (news: TaskNews) => void;
	readonly #running = new Map<TaskName, ChildProcess>();
	readonly #last = new Map<TaskName, TaskNews>();

	constructor(tell: (news: TaskNews) => void) {
		this.#tell = tell;
	}

	isRunning(task: TaskName): boolean {
		return this.#running.has(task);
	}

	/** What was last told of each. */
	get last(): readonly TaskNews[] {
		return [...this.#last.values()];
	}

	/**
	 * Starts a command.
	 *
	 * @param done makes news of what it printed, once it has ended well
	 */
	start(
		task: TaskName,
		args: readonly string[],
		done: (printed: string) => Partial<TaskNews> | Promise<Partial<TaskNews>> = () => ({}),
	): void {
		const child = spawn(process.execPath, [join(PROGRAM, "scripts/commands/main.ts"), ...args], {
			stdio: ["ignore", "pipe", "pipe"],
			env: { ...process.env, NO_COLOR: "1" },
		});
		this.#running.set(task, child);
		let printed = "";
		let shown = "";
		const say = (news: Partial<TaskNews>): void => {
			const lines = shown
				.split("\n")
				.filter((line) => line.trim() !== "")
				.slice(-MOST_LINES);
			const all = { task, state: "running" as const, lines, ...progressIn(lines), ...news };
			this.#last.set(task, all);
			this.#tell(all);
		};
		child.stdout.setEncoding("utf8").on("data", (text: string) => {
			printed += text;
			if (task === "solve") return;
			shown += text;
			say({});
		});
		child.stderr.setEncoding("utf8").on("data", (text: string) => {
			shown += text.replaceAll("\r", "\n");
			say({});
		});
		child.on("error", (error) => {
			shown += `${error.message}\n`;
		});
		child.on("close", (code, signal) => {
			this.#running.delete(task);
			if (signal !== null) return say({ state: "stopped" });
			if (code !== 0 && task !== "solve") return say({ state: "failed" });
			Promise.resolve()
				.then(() => done(printed))
				.then((more) => say({ state: "done", share: 1, ...more }))
				.catch((error: unknown) => {
					shown += `${error instanceof Error ? error.message : String(error)}\n`;
					say({ state: "failed" });
				});
		});
		say({});
	}

	stop(task: TaskName): void {
		this.#running.get(task)?.kill("SIGTERM");
	}

	stopAll(): void {
		for (const child of this.#running.values()) child.kill("SIGTERM");
	}
}

/** The last line that says how far it is: "pages 50/321, about 4 s left". */
function progressIn(lines: readonly string[]): Pick<TaskNews, "share" | "label"> {
	for (const line of lines.toReversed()) {
		const [, label = "", done, total] = /^(.*?)\s*(\d+)\/(\d+)\b/.exec(line) ?? [];
		if (total !== undefined && Number(total) > 0) return { share: Number(done) / Number(total), label };
	}
	return {};
}
