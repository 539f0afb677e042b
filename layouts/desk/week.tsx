/** A week opened: what each class does in it as the measures count it, and what can be done with it. */

import { useState } from "preact/hooks";
import { number, percent, desk as say } from "../../scripts/words/en.ts";
import type { Board, BoardWeek, DrillLine, FindingLine, TaskNews } from "./api.ts";
import { FindingItem } from "./findings.tsx";
import { Button, Choices, useFocus } from "./parts.tsx";
import { change, post, show } from "./talk.ts";

export interface WeekProps {
	readonly board: Board;
	readonly week: BoardWeek;
	readonly drills: readonly DrillLine[];
	readonly findings: readonly FindingLine[];
	readonly solving: TaskNews | undefined;
	readonly readOnly: boolean;
	readonly onClose: () => void;
	readonly onEdit: (path: string) => void;
}

export function WeekPanel(props: WeekProps) {
	const { week, onClose } = props;
	const heading = useFocus<HTMLHeadingElement>(week.week);
	return (
		<section class="panel" aria-labelledby="week-title">
			<div class="panel-head">
				<h2 id="week-title" tabIndex={-1} ref={heading}>
					{say.week(week.week)}
					{week.theme !== "" && `: ${week.theme}`}
				</h2>
				<Button kind="quiet" onClick={onClose}>
					{say.close}
				</Button>
			</div>
			{week.id === undefined ? <NewWeek {...props} /> : <PlannedWeek {...props} />}
		</section>
	);
}

/** A week that no file plans yet: empty, or like another. */
function NewWeek({ board, week, readOnly }: WeekProps) {
	const [theme, setTheme] = useState("");
	const [like, setLike] = useState(0);
	const [areas, setAreas] = useState<readonly string[]>(board.areas.map(({ id }) => id));
	const planned = board.weeks.filter(({ id }) => id !== undefined);
	if (readOnly) return <p>{say.notPlannedYet}</p>;
	return (
		<form
			onSubmit={(event) => {
				event.preventDefault();
				if (theme.trim() === "") return;
				change("new-week", say.weekPlanned(week.week), {
					week: week.week,
					theme: theme.trim(),
					...(like > 0 ? { like } : { areas }),
				});
			}}
		>
			<label class="text">
				{say.theme}
				<input type="text" required value={theme} onInput={(event) => setTheme(event.currentTarget.value)} />
			</label>
			{planned.length > 0 && (
				<label class="text">
					{say.planLike}
					<select value={String(like)} onChange={(event) => setLike(Number(event.currentTarget.value))}>
						<option value="0">{say.fromNothing}</option>
						{planned.map((one) => (
							<option key={one.week} value={String(one.week)}>
								{say.week(one.week)}: {one.theme}
							</option>
						))}
					</select>
				</label>
			)}
			{like === 0 && <Choices label={say.areas} among={board.areas} chosen={areas} onChange={setAreas} />}
			<button type="submit" class="button main">
				{say.planWeek}
			</button>
		</form>
	);
}

function PlannedWeek(props: WeekProps) {
	const { board, week, findings, solving, readOnly, onEdit } = props;
	const [other, setOther] = useState(0);
	const planned = board.weeks.filter((one) => one.id !== undefined && one.week !== week.week);
	const own = findings.filter(({ about }) => about.week === week.week);
	const isSolving = solving?.state === "running";
	return (
		<>
			{week.days !== undefined && <p class="soft">{week.days}</p>}
			<ClassNumbers {...props} />
			<div class="row moves">
				{!readOnly && (
					<>
						{isSolving ? (
							<Button onClick={() => post("stop", { task: "solve" })}>{say.stop}</Button>
						) : (
							<Button
								kind="main"
								onClick={() => {
									show({ offer: undefined });
									post("solve", { week: week.week }).catch(() => undefined);
								}}
							>
								{say.mendWeek}
							</Button>
						)}
						<Button onClick={() => onEdit(week.file ?? "")}>{say.themeAndNote}</Button>
					</>
				)}
				<a class="button" href={`/weeks/${week.id}/`} target="_blank" rel="noopener">
					{say.asCoachesSee}
				</a>
			</div>
			<div aria-live="polite">
				{isSolving && <p class="soft">{say.solving}</p>}
				{solving?.state === "done" && solving.offer?.changes.length === 0 && <p>{say.nothingToMend}</p>}
				{solving?.state === "failed" && <p>{say.solveFailed}</p>}
			</div>
			{!readOnly && planned.length > 0 && (
				<form
					class="row"
					onSubmit={(event) => {
						event.preventDefault();
						const to = other === 0 ? planned[0]?.week : other;
						if (to !== undefined)
							change("weeks", say.weeksSwapped(week.week, to), { from: week.week, to, swap: true });
					}}
				>
					<label class="text">
						{say.swapWith}
						<select
							value={String(other === 0 ? (planned[0]?.week ?? 0) : other)}
							onChange={(event) => setOther(Number(event.currentTarget.value))}
						>
							{planned.map((one) => (
								<option key={one.week} value={String(one.week)}>
									{say.week(one.week)}: {one.theme}
								</option>
							))}
						</select>
					</label>
					<button type="submit" class="button">
						{say.swap}
					</button>
				</form>
			)}
			{!readOnly && <AreaOfWeek {...props} />}
			<h3>{say.findingsOfWeek(own.length)}</h3>
			<ul class="findings">
				{own.map((finding) => (
					<FindingItem key={finding.key} finding={finding} readOnly={readOnly} />
				))}
			</ul>
		</>
	);
}

/** What an area is about this week. */
function AreaOfWeek({ week, board }: WeekProps) {
	if (week.areas.length === 0) return null;
	return (
		<details>
			<summary>{say.focusOfAreas}</summary>
			<ul>
				{week.areas.map(({ area, focus }) => (
					<li key={area}>
						{board.areas.find(({ id }) => id === area)?.name ?? area}
						{focus !== undefined && <span class="soft">: {focus}</span>}
					</li>
				))}
			</ul>
		</details>
	);
}

/** Minutes, load, coaches, order and set-out of each class. */
function ClassNumbers({ board, week }: WeekProps) {
	const rows = board.classes.flatMap((one) => {
		const numbers = week.byClass[one.id];
		return numbers === undefined ? [] : [{ one, numbers }];
	});
	if (rows.length === 0) return null;
	return (
		// biome-ignore lint/a11y/noNoninteractiveTabindex: keys scroll a wide table.
		<section class="table-scroll" aria-label={say.classesOfWeek} tabIndex={0}>
			<table class="numbers">
				<caption>{say.classesOfWeek}</caption>
				<thead>
					<tr>
						<th scope="col">{say.class}</th>
						<th scope="col">{say.minutes}</th>
						<th scope="col">{say.moving}</th>
						<th scope="col">{say.newDrills}</th>
						<th scope="col">{say.landings}</th>
						<th scope="col">{say.hands}</th>
						<th scope="col">{say.toLookAt}</th>
						<th scope="col">{say.reach}</th>
					</tr>
				</thead>
				<tbody>
					{rows.map(({ one, numbers }) => (
						<tr key={one.id}>
							<th scope="row">{one.name}</th>
							{numbers.meets ? (
								<>
									<td
										class={
											numbers.available !== undefined && numbers.planned > numbers.available + 0.01
												? "is-over"
												: ""
										}
									>
										{number(Math.round(numbers.planned * 10) / 10)}
										{numbers.available !== undefined && `/${number(numbers.available)}`}
									</td>
									<td>{numbers.activeShare === undefined ? "–" : percent(numbers.activeShare)}</td>
									<td>{number(numbers.newDrills)}</td>
									<td>{withStep(numbers.landings, numbers.landingsStep)}</td>
									<td>{withStep(numbers.hands, numbers.handsStep)}</td>
									<td>
										{[
											numbers.shortOfCoaches > 0 && say.shortOfCoaches(numbers.shortOfCoaches),
											numbers.outOfOrder > 0 && say.outOfOrder(numbers.outOfOrder),
											numbers.missing > 0 && say.missing(numbers.missing),
											numbers.carried > 0 && say.carriedItems(numbers.carried),
										]
											.filter((words) => words !== false)
											.join(", ") || "–"}
									</td>
									<td>
										{say.reachOf(one.reach.shapes, one.reach.ofShapes, one.reach.skills, one.reach.ofSkills)}
									</td>
								</>
							) : (
								<td colSpan={7}>{say.doesNotMeet}</td>
							)}
						</tr>
					))}
				</tbody>
			</table>
		</section>
	);
}

function withStep(count: number, step: number | undefined): string {
	const own = number(Math.round(count));
	return step === undefined ? own : `${own} (×${number(Math.round(step * 100) / 100)})`;
}
