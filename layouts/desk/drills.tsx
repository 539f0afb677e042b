/** The drills beside the board: searched, and dropped where they shall be done. */

import { useState } from "preact/hooks";
import { desk as say } from "../../scripts/words/en.ts";
import type { DrillLine } from "./api.ts";
import { type BoardProps, drop } from "./board.tsx";
import { startDrag } from "./drag.ts";
import { Button, Choice, search, Typed } from "./parts.tsx";
import type { Carried } from "./plan.ts";
import { boardNow, current, desk, speak } from "./talk.ts";

const MOST_SHOWN = 40;

interface SearchProps extends Pick<BoardProps, "onCarry" | "onOver"> {
	readonly onEdit: (file: string) => void;
}

export function DrillSearch(props: SearchProps) {
	const board = boardNow();
	const { drills } = current();
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
			<Typed type="search" label={say.searchDrills} value={text} onType={setText} />
			<div class="row">
				<Choice label={say.area} among={board.areas} value={area} onChange={setArea} none={say.everyArea} />
				<Choice
					label={say.level}
					among={board.levels}
					value={level}
					onChange={setLevel}
					none={say.everyLevel}
				/>
			</div>
			<p class="soft" role="status">
				{say.drillsFound(found.length)}
			</p>
			<ul class="drill-list">
				{found.slice(0, MOST_SHOWN).map((drill) => (
					<DrillItem key={drill.id} drill={drill} {...props} />
				))}
			</ul>
			{found.length > MOST_SHOWN && <p class="soft">{say.moreDrills(found.length - MOST_SHOWN)}</p>}
		</section>
	);
}

function DrillItem(props: SearchProps & { readonly drill: DrillLine }) {
	const { drill, onCarry, onOver, onEdit } = props;
	const { readOnly } = desk();
	const board = boardNow();
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
						else drop(onCarry, carried, spot);
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
