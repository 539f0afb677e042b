/** Publishing and printing, as the commands do it, with how far they are. */

import { percent, desk as say } from "../../scripts/words/en.ts";
import type { DeskState, TaskNews } from "./api.ts";
import { Button, Reading } from "./parts.tsx";
import { NotDone, post, show } from "./talk.ts";

export function PublishView({
	state,
	tasks,
}: {
	readonly state: DeskState;
	readonly tasks: Readonly<Partial<Record<TaskNews["task"], TaskNews>>>;
}) {
	const isRunning = tasks.build?.state === "running" || tasks.print?.state === "running";
	const start = (task: "build" | "print") => async (): Promise<void> => {
		try {
			await post("run", { task });
		} catch (error) {
			if (!(error instanceof NotDone)) throw error;
			show({ refusal: error.refusal });
		}
	};
	return (
		<section class="page" aria-labelledby="publish-title">
			<h2 id="publish-title" tabIndex={-1}>
				{say.publishTitle}
			</h2>
			<p>{say.publishLead}</p>
			<div class="row">
				<Button kind="main" onClick={start("build")} disabled={isRunning || state.readOnly}>
					{say.publishSite}
				</Button>
				<Button onClick={start("print")} disabled={isRunning || state.readOnly}>
					{say.publishAll}
				</Button>
				<a class="button" href="/" target="_blank" rel="noopener">
					{say.asCoachesSee}
				</a>
				<a class="button" href="/print-preview/" target="_blank" rel="noopener">
					{say.printedSheets}
				</a>
			</div>
			{(["build", "print"] as const).map((name) => {
				const task = tasks[name];
				return task === undefined ? null : <Task key={name} task={task} />;
			})}
		</section>
	);
}

function Task({ task }: { readonly task: TaskNews }) {
	const names = { build: say.publishSite, print: say.publishAll, solve: say.mendWeek, compare: say.mendWeek };
	const isRunning = task.state === "running";
	return (
		<section class="task" aria-label={names[task.task]}>
			<h3>{names[task.task]}</h3>
			<p role="status">{say.taskState[task.state]}</p>
			{isRunning && (
				<>
					<progress
						max={1}
						{...(task.share === undefined ? {} : { value: task.share })}
						aria-label={names[task.task]}
					/>
					<p class="soft">
						{task.label} {task.share !== undefined && percent(task.share)}
					</p>
					<Button onClick={() => post("stop", { task: task.task })}>{say.stop}</Button>
				</>
			)}
			<Reading
				label={say.whatItSaid}
				text={task.lines.filter((line) => isRunning || !/^\S.* \d+\/\d+/.test(line)).join("\n")}
			/>
		</section>
	);
}
