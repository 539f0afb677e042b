/** A block opened: its minutes, levels, dose, stations and notes, and what can be done with it. */

import { useState } from "preact/hooks";
import type { DoseNumbers, PlanChange } from "../../scripts/model.ts";
import { number, desk as say } from "../../scripts/words/en.ts";
import type { BoardBlock } from "./api.ts";
import { headOf, titleOf, whereOf } from "./board.tsx";
import { Button, Choices, NumberField, Picker, TextField, useFocus } from "./parts.tsx";
import {
	areaAt,
	type Carried,
	canJoin,
	joined,
	nameOf,
	spotOf,
	withDose,
	withDoseOf,
	withoutStation,
	withStation,
	withStations,
	writtenStation,
} from "./plan.ts";
import { boardNow, change, current, desk, speak } from "./talk.ts";

export interface BlockProps {
	readonly block: BoardBlock;
	readonly onCarry: (carried: Carried) => void;
	readonly onOpen: (at: string | undefined) => void;
}

export function BlockPanel(props: BlockProps) {
	const { block, onOpen } = props;
	const heading = useFocus<HTMLHeadingElement>(block.at);
	const title = titleOf(block);
	return (
		<section class="panel" aria-labelledby="block-title">
			<div class="panel-head">
				<h2 id="block-title" tabIndex={-1} ref={heading}>
					{block.kind === "drill" ? title : headOf(block)}
				</h2>
				<Button kind="quiet" onClick={() => onOpen(undefined)}>
					{say.close}
				</Button>
			</div>
			<p class="soft">{whereOf(spotOf(block.at))}</p>
			<fieldset disabled={desk().readOnly} class="plain">
				<BlockMoves {...props} />
				<Stations {...props} />
				<BlockFields {...props} />
			</fieldset>
		</section>
	);
}

function send(what: string, changes: readonly PlanChange[]) {
	return change("plan", what, { changes });
}

function BlockFields({ block }: BlockProps) {
	const board = boardNow();
	const title = titleOf(block);
	const set = (what: string, fields: object) => send(what, [{ set: { block: block.at, ...fields } }]);
	return (
		<>
			<div class="row">
				<NumberField
					label={say.minutes}
					value={block.minutes}
					onChange={(minutes) => {
						if (minutes !== undefined) set(say.minutesChanged(title, number(minutes)), { minutes });
					}}
				/>
				<NumberField
					label={say.showing}
					value={block.show}
					onChange={(show) =>
						set(say.changed(title), { show: show === undefined || show === 0 ? null : show })
					}
				/>
				{block.kind === "stations" && (
					<NumberField
						label={say.changing}
						value={block.change}
						step={0.5}
						onChange={(value) => set(say.changed(title), { change: value ?? null })}
					/>
				)}
				{block.kind === "options" && (
					<NumberField
						label={say.choose}
						value={block.choose}
						least={1}
						onChange={(choose) => set(say.changed(title), { choose: choose ?? null })}
					/>
				)}
			</div>
			<Choices
				label={say.levelsOfBlock}
				among={board.levels}
				chosen={block.levels}
				onChange={(levels) =>
					set(say.levelsChanged(title), {
						levels: levels.length === 0 ? null : levels.length === 1 ? levels[0] : levels,
					})
				}
			/>
			{(board.meetings > 1 || block.sessions.length > 0) && (
				<Choices
					label={say.sessionsOfBlock}
					among={Array.from({ length: Math.max(board.meetings, ...block.sessions) }, (_, i) => ({
						id: String(i + 1),
						name: say.meeting(i + 1),
					}))}
					chosen={block.sessions.map(String)}
					onChange={(sessions) =>
						set(say.changed(title), { session: sessions.length === 0 ? null : sessions.map(Number) })
					}
				/>
			)}
			<Doses block={block} />
			<TextField
				label={say.note}
				value={block.note ?? ""}
				long
				onChange={(note) => set(say.noteChanged(title), { note: note === "" ? null : note })}
			/>
			<label class="tick">
				<input
					type="checkbox"
					checked={block.keep}
					onChange={(event) => set(say.changed(title), { keep: event.currentTarget.checked ? true : null })}
				/>
				{say.keep}
			</label>
		</>
	);
}

const DOSE = ["sets", "reps", "hold"] as const;

/** The dose this time: of everybody, or of each level by itself. */
function Doses({ block }: Pick<BlockProps, "block">) {
	const hasOwn = Object.keys(block.doses).length > 0;
	const [wantsOwn, setOwn] = useState(false);
	const isEach = hasOwn || wantsOwn;
	const levels = boardNow().levels.filter(({ id }) =>
		(block.levels.length === 0 ? block.countsFor : block.levels).includes(id),
	);
	const sendDose = (change: PlanChange) => send(say.doseChanged(titleOf(block)), [change]);
	const row = (dose: DoseNumbers, name: string | undefined, onChange: (dose: DoseNumbers) => void) => (
		<div class="row" key={name}>
			{DOSE.map((one) => (
				<NumberField
					key={one}
					label={name === undefined ? say[one] : say.ofLevel(say[one], name)}
					value={dose[one]}
					onChange={(value) => {
						const { [one]: _, ...rest } = dose;
						onChange(value === undefined ? rest : { ...rest, [one]: value });
					}}
				/>
			))}
		</div>
	);
	return (
		<fieldset class="choose">
			<legend>{say.doseHere}</legend>
			{isEach
				? levels.map(({ id, name }) =>
						row(block.doses[id] ?? block.dose ?? {}, name, (dose) =>
							sendDose(withDoseOf(block, levels, id, dose)),
						),
					)
				: row(block.dose ?? {}, undefined, (dose) => sendDose(withDose(block, dose)))}
			{levels.length > 1 && (
				<label class="tick">
					<input
						type="checkbox"
						checked={isEach}
						onChange={(event) => {
							setOwn(event.currentTarget.checked);
							if (hasOwn && !event.currentTarget.checked) sendDose(withDose(block, {}));
						}}
					/>
					{say.doseByLevel}
				</label>
			)}
		</fieldset>
	);
}

function Stations({ block }: BlockProps) {
	const { drills } = current();
	const { area } = spotOf(block.at);
	const here = drills.filter(({ areas }) => areas.includes(area));
	const nameOfDrill = (id: string) => drills.find((drill) => drill.id === id)?.name ?? id;
	const title = titleOf(block);
	const isOne = block.kind === "drill";
	const list = block.stations.map(writtenStation);
	return (
		<section class="station-list" aria-label={say.stationsTitle}>
			<h3>{isOne ? say.drill : block.kind === "options" ? say.optionsTitle : say.stationsTitle}</h3>
			<ol>
				{block.stations.map((station, i) => (
					<li key={`${station.drill}-${i}`}>
						<p>
							<a href={`/drills/${station.drill}/`} target="_blank" rel="noopener">
								{station.title}
							</a>
						</p>
						{!isOne && (
							<TextField
								label={say.stationNote(i + 1)}
								value={station.note ?? ""}
								onChange={(note) => {
									const { note: _, ...rest } = writtenStation(station);
									send(say.noteChanged(station.title), [
										withStations(block, list.with(i, note === "" ? rest : { ...rest, note })),
									]);
								}}
							/>
						)}
						<div class="row">
							<Picker
								label={say.otherDrill(station.title)}
								placeholder={say.otherDrillShort}
								among={here}
								onPick={(drill) =>
									send(say.swapped(station.title, nameOfDrill(drill)), [
										{ swap: { block: block.at, drill, ...(isOne ? {} : { station: i + 1 }) } },
									])
								}
							/>
							{!isOne && <StationMoves block={block} at={i} name={station.title} />}
						</div>
						{block.kind === "stations" && i < block.stations.length - 1 && (
							<Button
								kind="quiet"
								label={say.splitAfter(station.title)}
								onClick={() => {
									const first = Math.round((block.minutes * (i + 1)) / block.stations.length);
									send(say.wasSplit(title), [
										{ split: { block: block.at, after: i + 1, minutes: [first, block.minutes - first] } },
									]);
								}}
							>
								{say.splitHere}
							</Button>
						)}
					</li>
				))}
			</ol>
			<Picker
				label={block.kind === "options" ? say.addOption : say.addStation}
				among={here}
				onPick={(drill) => send(say.stationAdded(nameOfDrill(drill)), [withStation(block, drill)])}
			/>
		</section>
	);
}

function StationMoves(props: { readonly block: BoardBlock; readonly at: number; readonly name: string }) {
	const { block, at, name } = props;
	const list = block.stations.map(writtenStation);
	return (
		<>
			{at > 0 && (
				<Button
					kind="quiet"
					label={say.earlier(name)}
					onClick={() => {
						const order = [
							...list.slice(0, at - 1),
							...list.slice(at - 1, at + 1).reverse(),
							...list.slice(at + 1),
						];
						send(say.changed(titleOf(block)), [withStations(block, order)]);
					}}
				>
					↑
				</Button>
			)}
			<Button
				kind="quiet"
				label={say.withoutStation(name)}
				onClick={() => send(say.stationGone(name), [withoutStation(block, at)])}
			>
				×
			</Button>
		</>
	);
}

function BlockMoves({ block, onCarry, onOpen }: BlockProps) {
	const spot = spotOf(block.at);
	const next = areaAt(boardNow(), spot.week, spot.area)?.blocks[spot.number];
	const title = titleOf(block);
	const carry = (copy: boolean): void => {
		onCarry({ from: block.at, copy, title, drills: block.stations.map(({ drill }) => drill) });
		speak(say.pickedUp(title));
	};
	return (
		<div class="row moves">
			<Button onClick={() => carry(false)}>{say.move}</Button>
			<Button onClick={() => carry(true)}>{say.copy}</Button>
			{canJoin(block, next) && (
				<Button onClick={() => send(say.wereJoined(title, titleOf(next)), joined(block, next))}>
					{say.joinNext}
				</Button>
			)}
			<Button
				kind="danger"
				onClick={async () => {
					onOpen(undefined);
					await send(say.removed(title), [{ remove: nameOf(spot) }]);
				}}
			>
				{say.remove}
			</Button>
		</div>
	);
}
