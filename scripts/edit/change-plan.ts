/**
 * A change list as it is written, and followed in a club's files: what `check --what-if` asks about.
 *
 * The list is YAML, or the same as JSON from a page (`readChanges`):
 *   - add: {week: 5, apparatus: beam, at: 2, block: {drill: beam-walk, minutes: 6}}   at: left out = last
 *   - remove: 5/beam/2                                week/apparatus/number of the block
 *   - move: {from: 3/beam/2, to: 5/beam/1}            the number it has when it is there
 *   - set: {block: 5/beam/1, minutes: 8, note: null}  any field of a block; with null it goes
 *   - swap: {block: 5/beam/1, station: 2, drill: beam-walk}   another drill; of a block of one drill no station
 *   - exchange: [3/beam/2, 5/beam/1]                  two blocks in each other's place
 *   - exchange: [3, 5]                                the plans of two weeks
 *   - split: {block: 5/beam/1, after: 2, minutes: [8, 7]}     a block of stations as two, one after the other
 * What each does is in compute/plan-changes.ts. The changed data is checked afterwards as if it had been
 * read from the files.
 */

import { type ChangeablePlan, ChangeFault, exchangeIn, follow } from "../compute/plan-changes.ts";
import type { Id, PlanChange, SourceFile, WrittenBlock } from "../model.ts";
import { nearestName } from "../read/nearest-name.ts";
import { parseYaml } from "../read/parse-yaml.ts";

export { ChangeFault } from "../compute/plan-changes.ts";

type Data = Record<string, unknown>;

/** The fields of each change that takes some; `set` takes any field of a block. */
const FIELDS: Readonly<Record<string, readonly string[] | undefined>> = {
	add: ["week", "apparatus", "at", "block"],
	move: ["from", "to"],
	swap: ["block", "station", "drill"],
	split: ["block", "after", "minutes"],
};
const CHANGES = ["add", "remove", "move", "set", "swap", "exchange", "split"];

/**
 * The files with the changes made; the files given are left as they are. A place in a changed file
 * is the start of that file, since its text has not changed.
 * @throws ChangeFault naming the change, counted from 1
 */
export function changePlan(files: readonly SourceFile[], list: string): readonly SourceFile[] {
	const parsed = parseYaml(list);
	const plan = new WrittenPlan(files);
	follow(plan, readChanges(parsed.ok ? parsed.data : undefined));
	return files.map((file) => {
		const data = plan.changed(file);
		if (data === file.data) return file;
		const start = { file: file.file, line: 1, column: 1 };
		const { kind, id, body } = file;
		return { kind, id, body, file: file.file, data, place: () => start, bodyPlace: () => start };
	});
}

/** A change list that somebody wrote. Blocks in it are checked where they are read as part of a week. */
export function readChanges(list: unknown): readonly PlanChange[] {
	if (!Array.isArray(list)) {
		throw new ChangeFault(
			"The change list is not a YAML list. Each change is a line like `- remove: 5/beam/2`.",
		);
	}
	return list.map((change: unknown, i) => {
		const wrong = faultOf(change);
		if (wrong !== undefined) throw new ChangeFault(`Change ${i + 1}: ${wrong}`);
		return change as PlanChange;
	});
}

/** What is wrong with the form of a change; undefined where nothing is. */
function faultOf(change: unknown): string | undefined {
	const [kind, ...more] = isData(change) ? Object.keys(change) : [];
	if (!isData(change) || kind === undefined || more.length > 0)
		return `a change has one of the names ${CHANGES.join(", ")}.`;
	if (!CHANGES.includes(kind)) {
		const nearest = nearestName(kind, CHANGES);
		return `\`${kind}\` is none of ${CHANGES.join(", ")}.${nearest === undefined ? "" : ` Did you mean \`${nearest}\`?`}`;
	}
	const what = change[kind];
	if (kind === "remove")
		return isText(what) ? undefined : "`remove` takes a block, as in `remove: 5/beam/2`.";
	if (kind === "exchange") {
		const isPair = Array.isArray(what) && what.length === 2;
		return isPair && (what.every(isText) || what.every(Number.isInteger))
			? undefined
			: "`exchange` takes two blocks, as in `exchange: [3/beam/2, 5/beam/1]`, or the numbers of two weeks.";
	}
	if (!isData(what)) return `\`${kind}\` takes fields in braces, as in the examples.`;
	const other = Object.keys(what).find((name) => FIELDS[kind]?.includes(name) === false);
	if (other !== undefined) return `\`${other}\` is none of ${FIELDS[kind]?.join(", ")}.`;
	const { week, apparatus, at, block, from, to, station, drill, after, minutes } = what;
	if (kind === "add") {
		const isWhole = typeof week === "number" && isText(apparatus) && isData(block);
		if (!isWhole) return "`add` needs week, apparatus and block.";
		return at === undefined || typeof at === "number"
			? undefined
			: "`at` is the number that the block has then.";
	}
	if (kind === "move") return isText(from) && isText(to) ? undefined : "`move` needs from and to.";
	if (!isText(block)) return `\`${kind}\` needs a block, as in \`block: 5/beam/2\`.`;
	if (kind === "swap") {
		if (station !== undefined && typeof station !== "number") return "`station` is a number, from 1.";
		return isText(drill) ? undefined : "`swap` needs a drill.";
	}
	if (kind !== "split") return undefined;
	if (typeof after !== "number") return `${block} cannot be split after station ${after}.`;
	const areMinutes = Array.isArray(minutes) && minutes.length === 2;
	return areMinutes ? undefined : "`split` needs the minutes of both blocks, as in `minutes: [8, 7]`.";
}

/** Weeks as their files write them. */
class WrittenPlan implements ChangeablePlan<unknown> {
	readonly #weeks = new Map<number, Data>();
	readonly #before = new Map<unknown, { readonly copy: Data; readonly text: string }>();

	constructor(files: readonly SourceFile[]) {
		for (const { kind, data } of files) {
			if (kind !== "week" || !isData(data) || typeof data.week !== "number") continue;
			const copy = structuredClone(data);
			this.#weeks.set(data.week, copy);
			this.#before.set(data, { copy, text: JSON.stringify(data) });
		}
	}

	/** What a file says now; the same object where nothing in it was changed. */
	changed({ data }: SourceFile): unknown {
		const own = this.#before.get(data);
		return own === undefined || JSON.stringify(own.copy) === own.text ? data : own.copy;
	}

	apparatusOf(week: number): readonly Id[] | undefined {
		const plan = this.#weeks.get(week)?.apparatus;
		return isData(plan) ? Object.keys(plan).filter((id) => blocksIn(plan[id]) !== undefined) : undefined;
	}

	blocksOf(week: number, apparatus: Id): unknown[] {
		const plan = this.#weeks.get(week)?.apparatus;
		if (!isData(plan)) return [];
		const blocks = blocksIn(plan[apparatus]) ?? [];
		plan[apparatus] = { ...asData(plan[apparatus]), blocks };
		return blocks;
	}

	exchangeWeeks(one: number, other: number): void {
		exchangeIn(this.#weeks, one, other);
		for (const [week, data] of this.#weeks) data.week = week;
	}

	open(block: unknown): WrittenBlock {
		return asData(block);
	}

	close(block: WrittenBlock): unknown {
		return block;
	}
}

function blocksIn(plan: unknown): unknown[] | undefined {
	return isData(plan) && Array.isArray(plan.blocks) ? plan.blocks : undefined;
}

function isText(value: unknown): value is string {
	return typeof value === "string";
}

function asData(value: unknown): Data {
	return isData(value) ? value : {};
}

function isData(value: unknown): value is Data {
	return typeof value === "object" && value !== null && !Array.isArray(value);
}
