/**
 * A program in pieces that have nothing to do with each other: no row speaks of two of them. Each is
 * solved for itself, and one that was solved before is not solved again: when the measures find something
 * new about one class, the others stay as they are.
 *
 * Worth, on the demo's term with 20 planted faults: see tests/bench/RESULTS.md.
 */

import type { ProgramData } from "./program.ts";
import type { Solved, Start, Wish } from "./solver.ts";

type Solve = (program: ProgramData, wish: Wish) => Promise<Solved>;

interface Component {
	/** Which variables of the whole it has, in order. */
	readonly variables: readonly number[];
	readonly rows: number[];
}

/** Components that are kept. */
const MOST_KNOWN = 100;

/** Solves a program component by component. The last ones that were solved are kept as long as the function is. */
export function inComponents(solve: Solve, now: () => number): Solve {
	const known = new Map<string, Solved>();
	return async (program, wish) => {
		const started = now();
		const values = Float64Array.from(program.lower);
		if (isImpossible(program)) return IMPOSSIBLE;
		const components = componentsOf(program);
		const done: Solved[] = [];
		let left = 0;
		for (const component of components) {
			const part = partOf(program, component);
			const key = `${wish.gap} ${keyOf(part)}`;
			let solved = known.get(key);
			if (solved === undefined) {
				const start = startOf(wish.start, component);
				const others = done.reduce((sum, { bound }) => sum + bound, 0);
				solved = await bettered(solve, part, start, {
					...wish,
					seconds: Math.max(0.1, wish.seconds - (now() - started) / 1000),
					onProgress: ({ bound }) => wish.onProgress?.({ best: undefined, bound: others + bound }),
				});
				if (solved.status === "optimal") known.set(key, solved);
				// The keys are as long as the programs.
				const [oldest] = known.keys();
				if (known.size > MOST_KNOWN && oldest !== undefined) known.delete(oldest);
			}
			done.push(solved);
			if (solved.status === "infeasible" || solved.values === undefined) {
				left = components.length - done.length;
				break;
			}
			for (const [i, variable] of component.variables.entries()) values[variable] = solved.values[i] ?? 0;
		}
		return joined(done, values, left);
	};
}

const IMPOSSIBLE: Solved = {
	status: "infeasible",
	values: undefined,
	price: Number.POSITIVE_INFINITY,
	bound: 0,
	memory: 0,
};

/** Whether a row cannot hold in which nothing can be chosen. */
function isImpossible({ starts, rowLower, rowUpper }: ProgramData): boolean {
	return rowLower.some(
		(lower, row) => starts[row] === starts[row + 1] && (lower > 1e-9 || (rowUpper[row] ?? 0) < -1e-9),
	);
}

/** Without the shares by which sizes differ. */
function whole(price: number): number {
	return Math.floor(price + 1e-9);
}

/**
 * Solves a component of which a choice is known: what is dearer than the whole of that choice is left out,
 * and only what is cheaper by the gap is looked for. Where there is nothing, the known choice is the best.
 *
 * The row that says so has whole numbers, which allow at least what the prices do: 2 changes are known, so
 * at most 1. Measured, 6.6 → 1.5 s for the hardest component of the demo's term.
 */
async function bettered(
	solve: Solve,
	part: ProgramData,
	start: Start | undefined,
	wish: Wish,
): Promise<Solved> {
	if (start === undefined) return solve(part, wish);
	const values = Float64Array.from(part.lower);
	for (const [i, variable] of start.indices.entries()) values[variable] = start.values[i] ?? 0;
	const price = part.price.reduce((sum, one, i) => sum + one * (values[i] ?? 0), 0);
	// Nothing is cheaper by the gap than what costs less.
	if (price < wish.gap) return { status: "optimal", values, price, bound: 0, memory: 0 };
	const priced = [...part.price.keys()].filter((i) => whole(part.price[i] ?? 0) !== 0);
	const solved = await solve(
		{
			...part,
			upper: part.upper.map((most, i) => ((part.price[i] ?? 0) > price ? (part.lower[i] ?? 0) : most)),
			rowLower: longer(part.rowLower, [Number.NEGATIVE_INFINITY]),
			rowUpper: longer(part.rowUpper, [whole(price - wish.gap)]),
			starts: longer(part.starts, [part.indices.length + priced.length]),
			indices: longer(part.indices, priced),
			values: longer(
				part.values,
				priced.map((i) => whole(part.price[i] ?? 0)),
			),
		},
		wish,
	);
	if (solved.status === "infeasible")
		return { ...solved, status: "optimal", values, price, bound: price - wish.gap };
	return solved.values === undefined ? { ...solved, values, price } : solved;
}

function startOf(start: Start | undefined, { variables }: Component): Start | undefined {
	if (start === undefined) return undefined;
	const values = new Map(start.indices.map((variable, i) => [variable, start.values[i] ?? 0]));
	const own = variables.flatMap((variable, i) => {
		const value = values.get(variable);
		return value === undefined ? [] : [{ i, value }];
	});
	return { indices: own.map(({ i }) => i), values: own.map(({ value }) => value) };
}

function joined(done: readonly Solved[], values: Float64Array, left: number): Solved {
	const isInfeasible = done.some(({ status }) => status === "infeasible");
	const isWhole = left === 0 && done.every((one) => one.values !== undefined);
	const sum = (of: "price" | "bound"): number => done.reduce((total, one) => total + one[of], 0);
	return {
		status: isInfeasible
			? "infeasible"
			: isWhole && done.every(({ status }) => status === "optimal")
				? "optimal"
				: "stopped",
		values: isWhole ? values : undefined,
		price: isWhole ? sum("price") : Number.POSITIVE_INFINITY,
		bound: sum("bound"),
		memory: Math.max(0, ...done.map(({ memory }) => memory)),
	};
}

/** Variables that rows tie together. One that cannot change ties nothing. */
export function componentsOf(program: ProgramData): readonly Component[] {
	const { price, starts, indices } = program;
	const root = Int32Array.from(price, (_, i) => i);
	const rootOf = (variable: number): number => {
		let at = variable;
		for (let next = root[at] ?? at; next !== at; next = root[at] ?? at) {
			root[at] = root[next] ?? next;
			at = next;
		}
		return at;
	};
	const rows = starts.length - 1;
	const firstOf = new Int32Array(rows).fill(-1);
	for (let row = 0; row < rows; row++) {
		for (let i = starts[row] ?? 0; i < (starts[row + 1] ?? 0); i++) {
			const variable = indices[i] ?? 0;
			if (isFixed(program, variable)) continue;
			const first = firstOf[row] ?? -1;
			if (first < 0) firstOf[row] = variable;
			else root[rootOf(variable)] = rootOf(first);
		}
	}
	const found = new Map<number, { variables: number[]; rows: number[] }>();
	const componentOf = (variable: number) => {
		const key = rootOf(variable);
		const before = found.get(key);
		if (before !== undefined) return before;
		const made = { variables: [], rows: [] };
		found.set(key, made);
		return made;
	};
	for (let row = 0; row < rows; row++) {
		const first = firstOf[row] ?? -1;
		if (first >= 0) componentOf(first).rows.push(row);
	}
	for (let variable = 0; variable < price.length; variable++) {
		// What stands in no row costs nothing at its least.
		if (!isFixed(program, variable) && found.has(rootOf(variable)))
			componentOf(variable).variables.push(variable);
	}
	return [...found.values()];
}

function isFixed({ lower, upper }: ProgramData, variable: number): boolean {
	return lower[variable] === upper[variable];
}

function partOf(program: ProgramData, { variables, rows }: Component): ProgramData {
	const { price, lower, upper, whole, rowLower, rowUpper, starts, indices, values } = program;
	const place = new Map(variables.map((variable, i) => [variable, i]));
	const pick = (from: Float64Array): Float64Array => Float64Array.from(variables, (v) => from[v] ?? 0);
	const part = {
		starts: [0],
		indices: [] as number[],
		values: [] as number[],
		low: [] as number[],
		high: [] as number[],
	};
	for (const row of rows) {
		let fixed = 0;
		for (let i = starts[row] ?? 0; i < (starts[row + 1] ?? 0); i++) {
			const variable = indices[i] ?? 0;
			const at = place.get(variable);
			if (at === undefined) fixed += (values[i] ?? 0) * (lower[variable] ?? 0);
			else {
				part.indices.push(at);
				part.values.push(values[i] ?? 0);
			}
		}
		part.starts.push(part.indices.length);
		part.low.push((rowLower[row] ?? 0) - fixed);
		part.high.push((rowUpper[row] ?? 0) - fixed);
	}
	return {
		price: pick(price),
		lower: pick(lower),
		upper: pick(upper),
		whole: Int32Array.from(variables, (v) => whole[v] ?? 0),
		rowLower: Float64Array.from(part.low),
		rowUpper: Float64Array.from(part.high),
		starts: Int32Array.from(part.starts),
		indices: Int32Array.from(part.indices),
		values: Float64Array.from(part.values),
	};
}

/** A list of numbers with more behind it. */
function longer<List extends Float64Array | Int32Array>(list: List, more: readonly number[]): List {
	const joined = new (list.constructor as new (length: number) => List)(list.length + more.length);
	joined.set(list);
	joined.set(more, list.length);
	return joined;
}

function keyOf(part: ProgramData): string {
	return Object.values(part)
		.map((list) => list.join(","))
		.join(";");
}
