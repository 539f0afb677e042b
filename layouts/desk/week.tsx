/** A week opened: what each class does in it as the measures count it, and what can be done with it. */

import { useState } from "preact/hooks";
import { number, percent, desk as say } from "../../scripts/words/en.ts";
import type { BoardClass, BoardWeek, ClassWeek } from "./api.ts";
import { FindingItem } from "./findings.tsx";
import { Button, Choice, Choices, Typed, useFocus } from "./parts.tsx";
import { boardNow, change, current, desk, post, show } from "./talk.ts";

export interface WeekProps {
	readonly week: BoardWeek;
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
function NewWeek({ week }: WeekProps) {
	const board = boardNow();
	const [theme, setTheme] = useState("");
	const [like, setLike] = useState("");
	const [areas, setAreas] = useState<readonly string[]>(board.areas.map(({ id }) => id));
	const planned = board.weeks.filter(({ id }) => id !== undefined);
	if (desk().readOnly) return <p>{say.notPlannedYet}</p>;
	return (
		<form
			onSubmit={(event) => {
				event.preventDefault();
				if (theme.trim() === "") return;
				change("new-week", say.weekPlanned(week.week), {
					week: week.week,
					theme: theme.trim(),
					...(like === "" ? { areas } : { like: Number(like) }),
				});
			}}
		>
			<Typed required label={say.theme} value={theme} onType={setTheme} />
			{planned.length > 0 && (
				<Choice
					label={say.planLike}
					among={planned.map(weekChoice)}
					value={like}
					onChange={setLike}
					none={say.fromNothing}
				/>
			)}
			{like === "" && <Choices label={say.areas} among={board.areas} chosen={areas} onChange={setAreas} />}
			<Button kind="main">{say.planWeek}</Button>
		</form>
	);
}

function weekChoice({ week, theme }: BoardWeek) {
	return { id: String(week), name: `${say.week(week)}: ${theme}` };
}

function PlannedWeek(props: WeekProps) {
	const { week, onEdit } = props;
	const { findings, readOnly } = desk();
	const { solve: solving } = current().tasks;
	const [chosen, setOther] = useState<number>();
	const planned = boardNow().weeks.filter((one) => one.id !== undefined && one.week !== week.week);
	const other = chosen ?? planned[0]?.week ?? 0;
	const own = findings.filter(({ about }) => about.week === week.week);
	const isSolving = solving?.state === "running";
	return (
		<>
			{week.days !== undefined && <p class="soft">{week.days}</p>}
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
						const wish = { from: week.week, to: other, swap: true };
						change("weeks", say.weeksSwapped(week.week, other), wish);
					}}
				>
					<Choice
						label={say.swapWith}
						among={planned.map(weekChoice)}
						value={String(other)}
						onChange={(week) => setOther(Number(week))}
					/>
					<Button>{say.swap}</Button>
				</form>
			)}
			{!readOnly && <AreaOfWeek {...props} />}
			<h3>{say.findingsOfWeek(own.length)}</h3>
			<ul class="findings">
				{own.map((finding) => (
					<FindingItem key={finding.key} finding={finding} />
				))}
			</ul>
			<ClassNumbers {...props} />
		</>
	);
}

function AreaOfWeek({ week }: WeekProps) {
	if (week.areas.length === 0) return null;
	return (
		<details>
			<summary>{say.focusOfAreas}</summary>
			<ul>
				{week.areas.map(({ area, focus }) => (
					<li key={area}>
						{boardNow().areas.find(({ id }) => id === area)?.name ?? area}
						{focus !== undefined && <span class="soft">: {focus}</span>}
					</li>
				))}
			</ul>
		</details>
	);
}

/** Minutes, load, coaches, order and set-out of each class. */
function ClassNumbers({ week }: WeekProps) {
	const rows = boardNow().classes.flatMap((one) => {
		const numbers = week.byClass[one.id];
		return numbers === undefined ? [] : [{ one, numbers }];
	});
	if (rows.length === 0) return null;
	return (
		<section aria-label={say.classesOfWeek}>
			<h3>{say.classesOfWeek}</h3>
			<ul class="class-weeks">
				{rows.map(({ one, numbers }) => (
					<li key={one.id}>
						<b>{one.name}</b>
						{numbers.meets ? <Numbers one={one} numbers={numbers} /> : <p class="soft">{say.doesNotMeet}</p>}
					</li>
				))}
			</ul>
		</section>
	);
}

function Numbers({ one, numbers }: { readonly one: BoardClass; readonly numbers: ClassWeek }) {
	const { planned, available, activeShare, newDrills, landings, landingsStep, hands, handsStep } = numbers;
	const { shortOfCoaches, outOfOrder, missing, carried } = numbers;
	const { shapes, ofShapes, skills, ofSkills } = one.reach;
	const toLookAt = [
		shortOfCoaches > 0 && say.shortOfCoaches(shortOfCoaches),
		outOfOrder > 0 && say.outOfOrder(outOfOrder),
		missing > 0 && say.missing(missing),
		carried > 0 && say.carriedItems(carried),
	].filter((words) => words !== false);
	const isOver = available !== undefined && planned > available + 0.01;
	const minutes = number(Math.round(planned * 10) / 10);
	return (
		<dl>
			<div class={isOver ? "is-over" : ""}>
				<dt>{say.minutes}</dt>
				<dd>{available === undefined ? minutes : `${minutes}/${number(available)}`}</dd>
			</div>
			<div>
				<dt>{say.moving}</dt>
				<dd>{activeShare === undefined ? "–" : percent(Math.round(activeShare * 100) / 100)}</dd>
			</div>
			<div>
				<dt>{say.newDrills}</dt>
				<dd>{number(newDrills)}</dd>
			</div>
			<div>
				<dt>{say.landings}</dt>
				<dd>{withStep(landings, landingsStep)}</dd>
			</div>
			<div>
				<dt>{say.hands}</dt>
				<dd>{withStep(hands, handsStep)}</dd>
			</div>
			{toLookAt.length > 0 && (
				<div class="wide">
					<dt>{say.toLookAt}</dt>
					<dd>{toLookAt.join(", ")}</dd>
				</div>
			)}
			<div class="wide">
				<dt>{say.reach}</dt>
				<dd>{say.reachOf(shapes, ofShapes, skills, ofSkills)}</dd>
			</div>
		</dl>
	);
}

function withStep(count: number, step: number | undefined): string {
	const own = number(Math.round(count));
	return step === undefined ? own : `${own} (×${number(Math.round(step * 100) / 100)})`;
}
