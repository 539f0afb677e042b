/** The drills beside the board: searched, and dropped where they shall be done. */

import { useState } from "preact/hooks";
import { desk as say } from "../../scripts/words/en.ts";
import type { Board, DrillLine } from "./api.ts";
import type { BoardProps } from "./board.tsx";
import { drop } from "./board.tsx";
import { startDrag } from "./drag.ts";
import { Button, search } from "./parts.tsx";
import type { Carried } from "./plan.ts";
import { speak } from "./talk.ts";

const MOST_SHOWN = 40;

export function DrillSearch(props: {
	readonly board: Board;
	readonly drills: readonly DrillLine[];
	readonly readOnly: boolean;
	readonly onCarry: BoardProps["onCarry"];
	readonly onOver: BoardProps["onOver"];
	readonly onEdit: (file: string) => void;
}) {
	const { board, drills, readOnly, onCarry, onOver, onEdit } = props;
	const [text, setText] = useState("");
	const [area, setArea] = useState("");
	const [level, setLevel] = useState("");
	const found = search(
		drills.filter(
			(drill) =>
				(area === "" || drill.areas.includes(area)) && (level === "" || drill.levels.includes(level)),
		),
		text,
		({ words, shapes, skills }) => [words, ...shapes, ...skills].join(" "),
	);
	return (
		<section class="panel" aria-labelledby="drills-title">
			<h2 id="drills-title">{say.drills}</h2>
			<label class="text">
				{say.searchDrills}
				<input type="search" value={text} onInput={(event) => setText(event.currentTarget.value)} />
			</label>
			<div class="row">
				<label class="text">
					{say.area}
					<select value={area} onChange={(event) => setArea(event.currentTarget.value)}>
						<option value="">{say.everyArea}</option>
						{board.areas.map((one) => (
							<option key={one.id} value={one.id}>
								{one.name}
							</option>
						))}
					</select>
				</label>
				<label class="text">
					{say.level}
					<select value={level} onChange={(event) => setLevel(event.currentTarget.value)}>
						<option value="">{say.everyLevel}</option>
						{board.levels.map((one) => (
							<option key={one.id} value={one.id}>
								{one.name}
							</option>
						))}
					</select>
				</label>
			</div>
			<p class="soft" role="status">
				{say.drillsFound(found.length)}
			</p>
			<ul class="drill-list">
				{found.slice(0, MOST_SHOWN).map((drill) => (
					<DrillItem key={drill.id} {...{ drill, board, readOnly, onCarry, onOver, onEdit }} />
				))}
			</ul>
			{found.length > MOST_SHOWN && <p class="soft">{say.moreDrills(found.length - MOST_SHOWN)}</p>}
		</section>
	);
}

function DrillItem(props: {
	readonly drill: DrillLine;
	readonly board: Board;
	readonly readOnly: boolean;
	readonly onCarry: BoardProps["onCarry"];
	readonly onOver: BoardProps["onOver"];
	readonly onEdit: (file: string) => void;
}) {
	const { drill, board, readOnly, onCarry, onOver, onEdit } = props;
	const carried: Carried = { drill: drill.id, title: drill.name, drills: [drill.id] };
	const areas = drill.areas.map((id) => board.areas.find((one) => one.id === id)?.name ?? id);
	return (
		<li
			class="card drill"
			data-card={`drill:${drill.id}`}
			onPointerDown={(event) => {
				if (readOnly) return;
				startDrag(event, carried, {
					onStart: (started) => onCarry(started),
					onOver,
					onEnd: (spot) => {
						if (spot === undefined) onCarry(undefined);
						else drop({ board, onCarry }, carried, spot);
					},
				});
			}}
		>
			{!readOnly && (
				<span class="handle" data-handle aria-hidden="true">
					⠿
				</span>
			)}
			<span class="drill-name">
				<b>{drill.name}</b>
				<span class="soft">
					{areas.join(", ")}
					{drill.weeks.length > 0 && ` · ${say.inWeeks(drill.weeks)}`}
				</span>
			</span>
			{!readOnly && (
				<span class="row">
					<Button
						kind="quiet"
						label={say.plan(drill.name)}
						onClick={() => {
							const [first] = board.weeks.filter(({ id }) => id !== undefined);
							const where = board.areas.find(({ id }) => drill.areas.includes(id));
							if (first === undefined || where === undefined) {
								speak(say.noWeekYet);
								return;
							}
							const there = first.areas.find((one) => one.area === where.id)?.blocks.length ?? 0;
							onCarry(carried, { week: first.week, area: where.id, number: there + 1 });
							speak(say.pickedUp(drill.name));
							// The keys choose the place now.
							if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
						}}
					>
						{say.planShort}
					</Button>
					<Button kind="quiet" label={say.edit(drill.name)} onClick={() => onEdit(drill.file)}>
						{say.editShort}
					</Button>
				</span>
			)}
		</li>
	);
}
