/**
 * The plan as a board: weeks across, areas down. A block is a card; it is carried by mouse, finger or
 * keyboard, and put down where it shall stand.
 *
 * With the keyboard: arrows go from card to card, Space picks one up, arrows choose the place, Space puts it
 * down, Escape leaves it; Enter opens it. What happens is said aloud.
 */

import { useLayoutEffect, useRef } from "preact/hooks";
import { number, desk as say } from "../../scripts/words/en.ts";
import type { Board, BoardBlock, BoardWeek } from "./api.ts";
import { startDrag } from "./drag.ts";
import {
	areaAt,
	blocksIn,
	type Carried,
	fitsIn,
	isMoved,
	nameOf,
	placesIn,
	putDown,
	type Spot,
	spotOf,
	written,
} from "./plan.ts";
import { boardNow, change, current, desk, speak } from "./talk.ts";

/** Whose plan is shown: everybody's, a level's or a class's. */
export type Whose = { readonly kind: "all" | "level" | "class"; readonly id: string };

export interface BoardProps {
	readonly whose: Whose;
	readonly carried: Carried | undefined;
	readonly over: Spot | undefined;
	readonly selected: string | undefined;
	/** Weeks as an offer would make them. */
	readonly offered: readonly BoardWeek[];
	readonly onCarry: (carried: Carried | undefined, over?: Spot) => void;
	readonly onOver: (spot: Spot | undefined) => void;
	readonly onOpen: (at: string | undefined) => void;
	readonly onOpenWeek: (week: number) => void;
}

function isFor(block: BoardBlock, { kind, id }: Whose): boolean {
	return kind === "all" || (kind === "level" ? block.countsFor : block.classes).includes(id);
}

/** The areas that are shown: in the order of the class's rotation, or the club's. */
function areasOf(board: Board, { kind, id }: Whose) {
	const rotation = kind === "class" ? board.classes.find((one) => one.id === id)?.rotation : undefined;
	if (rotation === undefined || rotation.length === 0) return board.areas;
	return rotation.flatMap((area) => board.areas.find((one) => one.id === area) ?? []);
}

export function titleOf(block: BoardBlock): string {
	return block.stations.map(({ title }) => title).join(" · ");
}

/** What is beside its stations, which are named below. */
export function headOf({ kind, choose, stations }: BoardBlock): string {
	return kind === "stations" ? say.stations(stations.length) : say.options(choose, stations.length);
}

/** Where something stands, in words. */
export function whereOf({ week, area, number: at }: Spot): string {
	return say.place(week, boardNow().areas.find(({ id }) => id === area)?.name ?? area, at);
}

export async function drop(onCarry: BoardProps["onCarry"], carried: Carried, spot: Spot): Promise<void> {
	onCarry(undefined);
	const changes = putDown(boardNow(), carried, spot);
	if (changes === undefined) {
		speak(say.leftThere);
		return;
	}
	const where = whereOf(spot);
	const what = isMoved(carried)
		? say.moved(carried.title, where)
		: "from" in carried
			? say.copied(carried.title, where)
			: say.added(carried.title, where);
	const outcome = await change("plan", what, { changes });
	focusCard(outcome === undefined && "from" in carried ? carried.from : nameOf(spot));
}

/** The card of a block takes the focus, once it is there. */
function focusCard(at: string): void {
	requestAnimationFrame(() => {
		document.querySelector<HTMLElement>(`[data-card="${CSS.escape(at)}"] .card-open`)?.focus();
	});
}

export function BoardView(props: BoardProps) {
	const { whose, carried } = props;
	const board = boardNow();
	const areas = areasOf(board, whose);
	const scroll = useRef<HTMLDivElement>(null);
	// At once: a key may come before the next picture.
	useLayoutEffect(() => {
		if (carried === undefined) return undefined;
		const onKey = (event: KeyboardEvent) =>
			carryKey(
				event,
				props,
				areas.map(({ id }) => id),
			);
		window.addEventListener("keydown", onKey, true);
		return () => window.removeEventListener("keydown", onKey, true);
	});
	return (
		<section
			class={`board-scroll ${carried === undefined ? "" : "is-carrying"}`}
			ref={scroll}
			aria-label={say.board}
			tabIndex={-1}
		>
			<table class="board">
				<caption class="sr">{say.boardCaption}</caption>
				<thead>
					<tr>
						<th scope="col" class="corner">
							<span class="sr">{say.area}</span>
						</th>
						{board.weeks.map((week) => (
							<WeekHead key={week.week} week={week} {...props} />
						))}
					</tr>
				</thead>
				<tbody>
					{areas.map((area) => (
						<tr key={area.id}>
							<th scope="row" class="area">
								<span>{area.name}</span>
							</th>
							{board.weeks.map((week) => (
								<Cell key={week.week} week={week} area={area.id} areaName={area.name} {...props} />
							))}
						</tr>
					))}
				</tbody>
			</table>
		</section>
	);
}

function WeekHead({ week, whose, onOpenWeek }: BoardProps & { readonly week: BoardWeek }) {
	const { planned, available, trains, meets } = numbersOf(week, whose);
	const isPlanned = week.id !== undefined;
	return (
		<th scope="col" class={`week ${isPlanned ? "" : "is-empty"}`} id={`week-${week.week}`}>
			<button type="button" class="week-open" onClick={() => onOpenWeek(week.week)}>
				<b>{say.week(week.week)}</b>
				{week.days !== undefined && <span class="soft"> {week.days}</span>}
				<span class="theme">{isPlanned ? week.theme : desk().readOnly ? say.notPlannedYet : say.planIt}</span>
			</button>
			{isPlanned && meets === false && <p class="soft">{say.doesNotMeet}</p>}
			{isPlanned && meets !== false && planned !== undefined && (
				<Filled planned={planned} available={available} />
			)}
			{isPlanned && trains.length > 0 && (
				<p class="trains">
					{trains.slice(0, 5).map(({ name, minutes }) => (
						<span key={name}>
							{name} <span class="soft">{number(Math.round(minutes))}′</span>
						</span>
					))}
				</p>
			)}
		</th>
	);
}

function numbersOf(week: BoardWeek, { kind, id }: Whose) {
	const one = kind === "class" ? week.byClass[id] : undefined;
	const level = kind === "level" ? week.byLevel[id] : undefined;
	return {
		meets: one?.meets,
		planned: one?.planned ?? level?.minutes,
		available: one?.available,
		trains: one?.trains ?? level?.trains ?? [],
	};
}

function Filled({
	planned,
	available,
}: {
	readonly planned: number;
	readonly available: number | undefined;
}) {
	if (available === undefined) return <p class="filled">{say.minutesPlanned(number(round(planned)))}</p>;
	const free = available - planned;
	const words = free < -0.01 ? say.over(number(round(-free))) : say.free(number(round(free)));
	return (
		<p class={`filled ${free < -0.01 ? "is-over" : ""}`}>
			<meter
				min={0}
				max={Math.max(available, planned)}
				value={planned}
				aria-label={say.filled(number(round(planned)), number(available))}
			/>
			<span>
				{number(round(planned))}/{number(available)}′ <b>{words}</b>
			</span>
		</p>
	);
}

function round(minutes: number): number {
	return Math.round(minutes * 10) / 10;
}

interface CellProps extends BoardProps {
	readonly week: BoardWeek;
	readonly area: string;
	readonly areaName: string;
}

function Cell(props: CellProps) {
	const { week, area, areaName, whose, carried, over, offered, onCarry } = props;
	const plan = areaAt(boardNow(), week.week, area);
	const blocks = (plan?.blocks ?? []).filter((block) => isFor(block, whose));
	const isTarget = carried !== undefined && week.id !== undefined;
	const fits = carried === undefined || fitsIn(current().drills, carried, area);
	const here = over?.week === week.week && over.area === area ? over.number : undefined;
	const after = offered.find((one) => one.week === week.week);
	const gap = (at: number) => (
		<Gap
			key={`gap-${at}`}
			isHere={here === at}
			onPut={() => drop(onCarry, carried as Carried, { week: week.week, area, number: at })}
			where={say.place(week.week, areaName, at)}
		/>
	);
	const own = carried !== undefined && isMoved(carried) ? carried.from : undefined;
	const isOwnCell = own?.startsWith(`${week.week}/${area}/`) ?? false;
	/** The number a block would have that is put before this one. */
	const before = (at: string): number => {
		const { number: at_ } = spotOf(at);
		return isOwnCell && at_ > spotOf(own ?? "").number ? at_ - 1 : at_;
	};
	const last = blocks.filter(({ at }) => at !== own).at(-1);
	return (
		<td
			class={`cell ${isTarget && !fits ? "no-place" : ""} ${here === undefined ? "" : "is-target"}`}
			data-cell={week.id === undefined ? undefined : `${week.week}/${area}`}
		>
			{plan?.focus !== undefined && <p class="focus">{plan.focus}</p>}
			<ul>
				{blocks.flatMap((block) => [
					...(isTarget && fits && block.at !== own ? [gap(before(block.at))] : []),
					<Card key={block.at} block={block} isGone={isGone(block, area, after)} {...props} />,
				])}
				{isTarget &&
					fits &&
					gap(last === undefined ? (isOwnCell ? 1 : blocks.length + 1) : before(last.at) + 1)}
				{after !== undefined &&
					Array.from(blocksIn(after)).flatMap(([key, block]) =>
						key.startsWith(`${area} `) && !blocksIn(week).has(key) && isFor(block, whose)
							? [
									<li key={`new-${key}`} class="card is-new">
										<span class="card-open">
											<b class="minutes">{number(block.minutes)}′</b> {titleOf(block)}
											<span class="mark">{say.newHere}</span>
										</span>
									</li>,
								]
							: [],
					)}
			</ul>
			{blocks.length === 0 && !isTarget && <p class="nothing" aria-hidden="true" />}
		</td>
	);
}

function isGone(block: BoardBlock, area: string, after: BoardWeek | undefined): boolean {
	return after !== undefined && !blocksIn(after).has(`${area} ${JSON.stringify(written(block))}`);
}

/** A place between cards: shown while something is carried. */
function Gap({
	isHere,
	onPut,
	where,
}: {
	readonly isHere: boolean;
	readonly onPut: () => void;
	readonly where: string;
}) {
	return (
		<li class={`gap ${isHere ? "is-here" : ""}`}>
			<button type="button" onClick={onPut} tabIndex={-1} aria-label={say.putHere(where)}>
				<span aria-hidden="true">{say.here}</span>
			</button>
		</li>
	);
}

function Card(props: CellProps & { readonly block: BoardBlock; readonly isGone: boolean }) {
	const { block, selected, carried, isGone: goes, onCarry, onOver, onOpen } = props;
	const { readOnly } = desk();
	const title = titleOf(block);
	const levels = block.levels.map((id) => boardNow().levels.find((level) => level.id === id)?.name ?? id);
	const own: Carried = {
		from: block.at,
		copy: false,
		title,
		drills: block.stations.map(({ drill }) => drill),
	};
	const isCarried = carried !== undefined && "from" in carried && carried.from === block.at;
	return (
		<li
			class={`card ${selected === block.at ? "is-open" : ""} ${isCarried ? "is-carried" : ""} ${goes ? "is-gone" : ""}`}
			data-card={block.at}
			onPointerDown={(event) => {
				if (readOnly || carried !== undefined) return;
				startDrag(event, own, {
					onStart: (started) => onCarry(started),
					onOver,
					onEnd: (spot, copy) => {
						if (spot === undefined) {
							onCarry(undefined);
							speak(say.leftThere);
						} else drop(onCarry, { ...own, copy }, spot);
					},
				});
			}}
		>
			{!readOnly && (
				<span class="handle" data-handle aria-hidden="true">
					⠿
				</span>
			)}
			<button
				type="button"
				class="card-open"
				aria-expanded={selected === block.at}
				onClick={() => onOpen(selected === block.at ? undefined : block.at)}
				onKeyDown={(event) => {
					if (event.key === " " && !readOnly && carried === undefined) {
						event.preventDefault();
						event.stopPropagation();
						onCarry(own, spotOf(block.at));
						speak(say.pickedUp(title));
					} else if (event.key.startsWith("Arrow") && carried === undefined) {
						event.preventDefault();
						nextCard(event.currentTarget, event.key)?.focus();
					}
				}}
				onKeyUp={(event) => {
					// A button presses itself when Space comes up.
					if (event.key === " ") event.preventDefault();
				}}
			>
				<b class="minutes">
					{number(block.minutes)}′<span class="sr"> {say.minutes}</span>
				</b>
				{block.kind === "drill" ? <span>{title}</span> : <StationNames block={block} />}
				{levels.length > 0 && <span class="levels">{levels.join(", ")}</span>}
				{block.note !== undefined && <span class="note">{block.note}</span>}
				{goes && <span class="mark">{say.goes}</span>}
				<span class="sr">{whereOf(spotOf(block.at))}</span>
			</button>
		</li>
	);
}

function StationNames({ block }: { readonly block: BoardBlock }) {
	return (
		<span class="stations">
			<span class="kind">{headOf(block)}</span>
			{block.stations.map(({ drill, title }, i) => (
				<span key={`${drill}-${i}`} class="station">
					{title}
				</span>
			))}
		</span>
	);
}

/** The card that an arrow leads to: up and down within a week, left and right to the next week. */
function nextCard(from: HTMLElement, key: string): HTMLElement | undefined {
	const all = [...document.querySelectorAll<HTMLElement>("[data-card] .card-open")];
	const weekOf = (card: HTMLElement): number =>
		Number(card.closest<HTMLElement>("[data-card]")?.dataset.card?.split("/")[0]);
	const week = weekOf(from);
	if (key === "ArrowDown" || key === "ArrowUp") {
		const own = all.filter((card) => weekOf(card) === week);
		return own[own.indexOf(from) + (key === "ArrowDown" ? 1 : -1)];
	}
	const by = key === "ArrowRight" ? 1 : -1;
	const top = from.getBoundingClientRect().top;
	const beside = all
		.filter((card) => (by > 0 ? weekOf(card) > week : weekOf(card) < week))
		.sort(
			(a, b) =>
				Math.abs(weekOf(a) - week) - Math.abs(weekOf(b) - week) ||
				Math.abs(a.getBoundingClientRect().top - top) - Math.abs(b.getBoundingClientRect().top - top),
		);
	return beside[0];
}

/** Chooses the place of what is carried, puts it down, or leaves it. */
function carryKey(event: KeyboardEvent, props: BoardProps, areas: readonly string[]): void {
	const { carried, over, onCarry, onOver } = props;
	const board = boardNow();
	if (carried === undefined) return;
	if (event.key === "Escape") {
		event.preventDefault();
		event.stopPropagation();
		onCarry(undefined);
		speak(say.leftThere);
		if ("from" in carried) focusCard(carried.from);
		return;
	}
	const target = event.target as HTMLElement | null;
	const isTyping = target?.matches("input, textarea, select, [contenteditable]") ?? false;
	if (isTyping) return;
	const weeks = board.weeks.filter(({ id }) => id !== undefined).map(({ week }) => week);
	const fitting = areas.filter((area) => fitsIn(current().drills, carried, area));
	const [firstWeek] = weeks;
	const [firstArea] = fitting;
	if (firstWeek === undefined || firstArea === undefined) return;
	if (event.key === " " || event.key === "Enter") {
		event.preventDefault();
		event.stopPropagation();
		if (over !== undefined) drop(onCarry, carried, over);
		return;
	}
	if (event.key === "c" && "from" in carried) {
		const copy = !carried.copy;
		onCarry({ ...carried, copy }, over);
		speak(copy ? say.nowCopies : say.nowMoves);
		return;
	}
	if (!event.key.startsWith("Arrow")) return;
	event.preventDefault();
	event.stopPropagation();
	const at = over ?? { week: firstWeek, area: firstArea, number: 0 };
	const next = moved(at, event.key, { board, carried, weeks, areas: fitting });
	onOver(next);
	speak(say.wouldBe(whereOf(next), placesIn(board, carried, next.week, next.area)));
	requestAnimationFrame(() =>
		document.querySelector(".gap.is-here")?.scrollIntoView({ block: "nearest", inline: "nearest" }),
	);
}

function moved(
	{ week, area, number: at }: Spot,
	key: string,
	{
		board,
		carried,
		weeks,
		areas,
	}: {
		readonly board: Board;
		readonly carried: Carried;
		readonly weeks: readonly number[];
		readonly areas: readonly string[];
	},
): Spot {
	const places = (ofWeek: number, ofArea: string) => placesIn(board, carried, ofWeek, ofArea);
	if (key === "ArrowLeft" || key === "ArrowRight") {
		const to = weeks[weeks.indexOf(week) + (key === "ArrowRight" ? 1 : -1)] ?? week;
		return { week: to, area, number: Math.max(1, Math.min(at, places(to, area))) };
	}
	const by = key === "ArrowDown" ? 1 : -1;
	if (at + by >= 1 && at + by <= places(week, area)) return { week, area, number: at + by };
	const other = areas[areas.indexOf(area) + by];
	if (other === undefined) return { week, area, number: Math.max(1, at) };
	return { week, area: other, number: by > 0 ? 1 : places(week, other) };
}
