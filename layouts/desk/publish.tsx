/**
 * Publishing and printing, as the commands do it, with how far they are: all of it, single sheets, or the
 * leaves that have changed; and what is other now than in the last edition.
 */

import { useEffect, useState } from "preact/hooks";
import { CHOICES_OF_SHEETS, type SheetKind } from "../../scripts/views/sheets/sheet.ts";
import { percent, desk as say } from "../../scripts/words/en.ts";
import type { PrintedEdition, SinceEdition, TaskNews } from "./api.ts";
import { Button, Choice, Reading } from "./parts.tsx";
import { WhatChanged } from "./since.tsx";
import { current, desk, post } from "./talk.ts";

/** Tasks that write into the output. */
const TASKS = ["build", "print", "sheets", "packet"] as const;

const { week: BY_WEEK, class: BY_CLASS } = CHOICES_OF_SHEETS;

export function PublishView() {
	const state = desk();
	const { tasks } = current();
	const isRunning = TASKS.some((task) => tasks[task]?.state === "running");
	const start = (wish: object) => post("run", wish);
	const disabled = isRunning || state.readOnly;
	const [since, setSince] = useState<SinceEdition>();
	useEffect(() => {
		if (!isRunning) post<SinceEdition>("since", {}).then(setSince, () => setSince(undefined));
	}, [state.revision, isRunning]);
	return (
		<section class="page" aria-labelledby="publish-title">
			<h2 id="publish-title" tabIndex={-1}>
				{say.publishTitle}
			</h2>
			<p>
				{say.publishLead} {say.liesIn(state.output)}
			</p>
			<div class="row">
				<Button kind="main" onClick={() => start({ task: "build" })} disabled={disabled}>
					{say.publishSite}
				</Button>
				<Button onClick={() => start({ task: "print" })} disabled={disabled}>
					{say.publishAll}
				</Button>
				<a class="button" href="/" target="_blank" rel="noopener">
					{say.asCoachesSee}
				</a>
				<a class="button" href="/print-preview/" target="_blank" rel="noopener">
					{say.printedSheets}
				</a>
			</div>
			{TASKS.map((name) => {
				const task = tasks[name];
				return task === undefined ? null : <Task key={name} task={task} />;
			})}
			<Sheets disabled={disabled} onPrint={start} />
			{since !== undefined && (
				<>
					<Packet printed={since.printed} disabled={disabled} onPrint={start} />
					<h3>{say.sinceTitle}</h3>
					{since.view === undefined ? (
						<p class="soft">{say.sinceNothing}</p>
					) : (
						<WhatChanged view={since.view} />
					)}
				</>
			)}
		</section>
	);
}

/** Single sheets: of a week or all, of a class or all. */
function Sheets(props: { readonly disabled: boolean; readonly onPrint: (wish: object) => void }) {
	const { disabled, onPrint } = props;
	const [sheets, setSheets] = useState<SheetKind>("class-sheets");
	const [week, setWeek] = useState("");
	const [group, setGroup] = useState("");
	const { weeks = [], classes = [] } = desk().board ?? {};
	const byWeek = week !== "" && BY_WEEK.includes(sheets);
	const byClass = group !== "" && BY_CLASS.includes(sheets);
	return (
		<form
			onSubmit={(event) => {
				event.preventDefault();
				onPrint({
					task: "sheets",
					sheets,
					...(byWeek ? { week: Number(week) } : {}),
					...(byClass ? { class: group } : {}),
				});
			}}
		>
			<h3>{say.printSheets}</h3>
			<div class="row">
				<Choice
					label={say.whichSheets}
					value={sheets}
					onChange={(kind) => setSheets(kind as SheetKind)}
					among={Object.entries(say.sheetKinds).map(([id, name]) => ({ id, name }))}
				/>
				{BY_WEEK.includes(sheets) && (
					<Choice
						label={say.ofWeek}
						value={week}
						onChange={setWeek}
						none={say.everyWeek}
						among={weeks.flatMap(({ id, week: number, theme }) =>
							id === undefined ? [] : [{ id: String(number), name: `${number}: ${theme}` }],
						)}
					/>
				)}
				{BY_CLASS.includes(sheets) && (
					<Choice
						label={say.ofClass}
						value={group}
						onChange={setGroup}
						none={say.everyClass}
						among={classes}
					/>
				)}
				<Button disabled={disabled}>{say.print}</Button>
			</div>
		</form>
	);
}

/** The leaves that a printed binder needs. */
function Packet({
	printed,
	disabled,
	onPrint,
}: {
	readonly printed: readonly PrintedEdition[];
	readonly disabled: boolean;
	readonly onPrint: (wish: object) => void;
}) {
	const [chosen, setChosen] = useState<string>();
	const since = chosen ?? printed[0]?.file;
	return (
		<>
			<h3>{say.packetTitle}</h3>
			<p class="soft">{since === undefined ? say.noBinderYet : say.packetLead}</p>
			{since !== undefined && (
				<div class="row">
					<Choice
						label={say.packetSince}
						value={since}
						onChange={setChosen}
						among={printed.map(({ file, of, words }) => ({ id: file, name: say.printedAs[of](words) }))}
					/>
					<Button onClick={() => onPrint({ task: "packet", since })} disabled={disabled}>
						{say.packet}
					</Button>
				</div>
			)}
		</>
	);
}

function Task({ task }: { readonly task: TaskNews }) {
	const { output } = desk();
	const names = {
		build: say.publishSite,
		print: say.publishAll,
		sheets: say.printSheets,
		packet: say.packet,
		solve: say.mendWeek,
	};
	const isRunning = task.state === "running";
	return (
		<section class="task" aria-label={names[task.task]}>
			<h3>{names[task.task]}</h3>
			<p role="status">{say.taskState[task.state]}</p>
			{task.state === "done" && (
				<p>{say.liesIn(task.task === "build" ? output : `${output.replace(/[/\\]$/, "")}/print`)}</p>
			)}
			{task.printed !== undefined && task.printed.length > 0 && (
				<div class="row">
					{task.printed.map((file) => (
						<a key={file} class="button" href={`/desk/printed/${file}`} target="_blank" rel="noopener">
							{file.replace(/^print\//, "")}
						</a>
					))}
				</div>
			)}
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
