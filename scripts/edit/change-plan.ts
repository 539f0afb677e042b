/**
 * A change list applied to the week plans in memory: what `check --what-if` asks about.
 *
 * The list is YAML. Its changes are made in order, and each address is that after those before it:
 *   - add: {week: 5, apparatus: beam, at: 2, block: {drill: beam-walk, minutes: 6}}   at: left out = last
 *   - remove: 5/beam/2                                week/apparatus/number of the block
 *   - move: {from: 3/beam/2, to: 5/beam/1}            the number it has when it is there
 *   - set: {block: 5/beam/1, minutes: 8, note: null}  any field of a block; with null it goes
 *   - swap: {block: 5/beam/1, station: 2, drill: beam-walk}   another drill; of a block of one drill no station
 *   - exchange: [3/beam/2, 5/beam/1]                  two blocks in each other's place
 *   - split: {block: 5/beam/1, after: 2, minutes: [8, 7]}     a block of stations as two, one after the other
 * The changed data is checked afterwards as if it had been read from the files.
 */

import type { SourceFile } from "../model.ts";
import { nearestName } from "../read/nearest-name.ts";
import { parseYaml } from "../read/parse-yaml.ts";

/** A change list that cannot be followed; the message is for its author. */
export class ChangeFault extends Error {}

type Data = Record<string, unknown>;
const CHANGES = ["add", "remove", "move", "set", "swap", "exchange", "split"];

/**
 * The files with the changes made; the files given are left as they are. A place in a changed file
 * is the start of that file, since its text has not changed.
 * @throws ChangeFault naming the change, counted from 1
 */
export function changePlan(files: readonly SourceFile[], list: string): readonly SourceFile[] {
	const parsed = parseYaml(list);
	if (!parsed.ok || !Array.isArray(parsed.data)) {
		throw new ChangeFault(
			"The change list is not a YAML list. Each change is a line like `- remove: 5/beam/2`.",
		);
	}
	const weeks = new Map<number, Data>();
	for (const { kind, data } of files) {
		if (kind !== "week" || !isData(data) || typeof data.week !== "number") continue;
		weeks.set(data.week, structuredClone(data));
	}
	const touched = new Set<number>();
	parsed.data.forEach((change: unknown, index) => {
		try {
			for (const week of applyChange(weeks, change)) touched.add(week);
		} catch (error) {
			if (error instanceof ChangeFault) throw new ChangeFault(`Change ${index + 1}: ${error.message}`);
			throw error;
		}
	});
	return files.map((file) => {
		const week = file.kind === "week" && isData(file.data) ? file.data.week : undefined;
		if (typeof week !== "number" || !touched.has(week)) return file;
		const start = { file: file.file, line: 1, column: 1 };
		const { kind, id, body } = file;
		return {
			kind,
			id,
			body,
			file: file.file,
			data: weeks.get(week),
			place: () => start,
			bodyPlace: () => start,
		};
	});
}

/** Makes one change and says which weeks it touched. */
function applyChange(weeks: ReadonlyMap<number, Data>, change: unknown): readonly number[] {
	const [kind, ...more] = isData(change) ? Object.keys(change) : [];
	if (!isData(change) || kind === undefined || more.length > 0) {
		throw new ChangeFault(`a change has one of the names ${CHANGES.join(", ")}.`);
	}
	const what = change[kind];
	if (kind === "remove") {
		const from = address(what);
		takeOut(weeks, from);
		return [from.week];
	}
	if (!CHANGES.includes(kind)) {
		const nearest = nearestName(kind, CHANGES);
		throw new ChangeFault(
			`\`${kind}\` is none of ${CHANGES.join(", ")}.${nearest === undefined ? "" : ` Did you mean \`${nearest}\`?`}`,
		);
	}
	if (kind === "exchange") return exchange(weeks, what);
	if (!isData(what)) throw new ChangeFault(`\`${kind}\` takes fields in braces, as in the examples.`);
	if (kind === "add") {
		only(what, ["week", "apparatus", "at", "block"]);
		const { week, apparatus, at, block } = what;
		if (typeof week !== "number" || typeof apparatus !== "string" || !isData(block)) {
			throw new ChangeFault("`add` needs week, apparatus and block.");
		}
		putIn(weeks, week, apparatus, at, block);
		return [week];
	}
	if (kind === "move") {
		only(what, ["from", "to"]);
		const [from, to] = [address(what.from), address(what.to)];
		putIn(weeks, to.week, to.apparatus, to.number, takeOut(weeks, from));
		return [from.week, to.week];
	}
	if (kind === "swap") return swap(weeks, what);
	if (kind === "split") return split(weeks, what);
	const { block: at, ...fields } = what;
	const place = address(at);
	const blocks = blocksOf(weeks, place.week, place.apparatus);
	blocks[indexOf(blocks, place)] = withFields(asData(blocks[place.number - 1]), fields);
	return [place.week];
}

/** A block with some of its fields other ones; one that is null is left out. */
export function withFields(block: Data, fields: Data): Data {
	return Object.fromEntries(Object.entries({ ...block, ...fields }).filter(([, value]) => value !== null));
}

function exchange(weeks: ReadonlyMap<number, Data>, what: unknown): readonly number[] {
	if (!Array.isArray(what) || what.length !== 2) {
		throw new ChangeFault("`exchange` takes two blocks, as in `exchange: [3/beam/2, 5/beam/1]`.");
	}
	const places = what.map(address);
	const found = places.map((place) => {
		const blocks = blocksOf(weeks, place.week, place.apparatus);
		return { blocks, at: indexOf(blocks, place) };
	});
	const [one, other] = found;
	if (one === undefined || other === undefined) return [];
	[one.blocks[one.at], other.blocks[other.at]] = [other.blocks[other.at], one.blocks[one.at]];
	return places.map(({ week }) => week);
}

/** What was noted about the other drill goes with it. */
function swap(weeks: ReadonlyMap<number, Data>, what: Data): readonly number[] {
	only(what, ["block", "station", "drill"]);
	const place = address(what.block);
	const blocks = blocksOf(weeks, place.week, place.apparatus);
	const block = asData(blocks[indexOf(blocks, place)]);
	const stations = stationsOf(block);
	if (stations === undefined) {
		if (what.station !== undefined) throw new ChangeFault(`${what.block} is a block of one drill.`);
		const { note: _note, ...rest } = block;
		blocks[place.number - 1] = { ...rest, drill: what.drill };
		return [place.week];
	}
	const at = stationAt(what, stations.list.length);
	const { note: _note, ...rest } = asData(stations.list[at]);
	blocks[place.number - 1] = {
		...block,
		[stations.name]: stations.list.with(at, { ...rest, drill: what.drill }),
	};
	return [place.week];
}

function stationAt({ block, station }: Data, stations: number): number {
	if (typeof station === "number" && Number.isInteger(station) && station >= 1 && station <= stations)
		return station - 1;
	throw new ChangeFault(`${block} has stations 1 to ${stations}; say which, as in \`station: 1\`.`);
}

function stationsOf(block: Data): { readonly name: string; readonly list: readonly unknown[] } | undefined {
	const name = ["stations", "options"].find((one) => Array.isArray(block[one]));
	return name === undefined ? undefined : { name, list: block[name] as readonly unknown[] };
}

function split(weeks: ReadonlyMap<number, Data>, what: Data): readonly number[] {
	only(what, ["block", "after", "minutes"]);
	const { after, minutes } = what;
	const place = address(what.block);
	const blocks = blocksOf(weeks, place.week, place.apparatus);
	const block = asData(blocks[indexOf(blocks, place)]);
	const { stations } = block;
	if (!Array.isArray(stations) || typeof after !== "number" || after < 1 || after >= stations.length) {
		throw new ChangeFault(`${what.block} cannot be split after station ${after}.`);
	}
	if (!Array.isArray(minutes) || minutes.length !== 2) {
		throw new ChangeFault("`split` needs the minutes of both blocks, as in `minutes: [8, 7]`.");
	}
	const parts = [stations.slice(0, after), stations.slice(after)];
	blocks.splice(
		place.number - 1,
		1,
		...parts.map((own, i) => ({ ...block, minutes: minutes[i], stations: own })),
	);
	return [place.week];
}

interface Address {
	readonly week: number;
	readonly apparatus: string;
	readonly number: number;
}

function address(text: unknown): Address {
	const [, week, apparatus, number] = /^(\d+)\/([a-z0-9-]+)\/(\d+)$/.exec(String(text)) ?? [];
	if (week === undefined || apparatus === undefined || number === undefined) {
		throw new ChangeFault("a block is named week/apparatus/number, such as 5/beam/2.");
	}
	return { week: Number(week), apparatus, number: Number(number) };
}

function takeOut(weeks: ReadonlyMap<number, Data>, from: Address): unknown {
	const blocks = blocksOf(weeks, from.week, from.apparatus);
	return blocks.splice(indexOf(blocks, from), 1)[0];
}

/** Puts a block in so that it has the number `at`; without one it becomes the last. */
function putIn(
	weeks: ReadonlyMap<number, Data>,
	week: number,
	apparatus: string,
	at: unknown,
	block: unknown,
): void {
	const plan = planOf(weeks, week);
	plan[apparatus] ??= { blocks: [] };
	const blocks = blocksOf(weeks, week, apparatus);
	const number = at ?? blocks.length + 1;
	if (typeof number !== "number" || !Number.isInteger(number) || number < 1 || number > blocks.length + 1) {
		throw new ChangeFault(`a block can be put at 1 to ${blocks.length + 1} there.`);
	}
	blocks.splice(number - 1, 0, block);
}

function indexOf(blocks: readonly unknown[], { week, apparatus, number }: Address): number {
	if (number >= 1 && number <= blocks.length) return number - 1;
	throw new ChangeFault(
		`there is no block ${week}/${apparatus}/${number}; ${apparatus} has ${blocks.length} that week.`,
	);
}

function planOf(weeks: ReadonlyMap<number, Data>, week: number): Data {
	const plan = weeks.get(week)?.apparatus;
	if (!isData(plan)) throw new ChangeFault(`week ${week} is not planned.`);
	return plan;
}

function blocksOf(weeks: ReadonlyMap<number, Data>, week: number, apparatus: string): unknown[] {
	const plan = planOf(weeks, week);
	const found = plan[apparatus];
	const blocks = isData(found) ? found.blocks : undefined;
	if (Array.isArray(blocks)) return blocks;
	const nearest = nearestName(apparatus, Object.keys(plan));
	throw new ChangeFault(
		`week ${week} has no \`${apparatus}\`.${nearest === undefined ? "" : ` Did you mean \`${nearest}\`?`}`,
	);
}

function only(data: Data, names: readonly string[]): void {
	const other = Object.keys(data).find((name) => !names.includes(name));
	if (other !== undefined) throw new ChangeFault(`\`${other}\` is none of ${names.join(", ")}.`);
}

function asData(value: unknown): Data {
	return isData(value) ? value : {};
}

function isData(value: unknown): value is Data {
	return typeof value === "object" && value !== null && !Array.isArray(value);
}
