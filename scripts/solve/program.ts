/**
 * A mixed-integer program: numbers to choose, each with its price, and rows that hold them together.
 * What it means is in rules.ts; here it is only arithmetic.
 */

/** The number of a variable. */
export type Variable = number;

/** A variable times a number. */
export type Term = readonly [Variable, number];

/** Plain arrays, so that a thread can be given them. Rows as compressed sparse rows. */
export interface ProgramData {
	readonly price: Float64Array;
	readonly lower: Float64Array;
	readonly upper: Float64Array;
	/** 1 for whole numbers. */
	readonly whole: Int32Array;
	readonly rowLower: Float64Array;
	readonly rowUpper: Float64Array;
	readonly starts: Int32Array;
	readonly indices: Int32Array;
	readonly values: Float64Array;
}

export class Program {
	readonly #price: number[] = [];
	readonly #lower: number[] = [];
	readonly #upper: number[] = [];
	readonly #whole: number[] = [];
	readonly #rowLower: number[] = [];
	readonly #rowUpper: number[] = [];
	readonly #starts: number[] = [0];
	readonly #indices: number[] = [];
	readonly #values: number[] = [];

	readonly #oneOf = new Map<Variable, number>();

	/** What lets a row go that is written already: classes that do the same ask the same. */
	readonly #letsGo = new Map<string, Variable>();
	readonly #sums = new Map<string, Variable>();

	/** Of these at most one is chosen. */
	exclusive(variables: readonly Variable[]): void {
		const [first] = variables;
		if (first !== undefined) for (const variable of variables) this.#oneOf.set(variable, first);
	}

	/**
	 * At most so much, unless a case is given up: then the row says nothing. What it lets go is no more
	 * than the sum can be, since a larger number would make the solver's bound a poor one.
	 */
	unless(broken: Variable | undefined, terms: readonly Term[], most: number): void {
		const over = this.#highest(terms) - most;
		if (over <= 1e-9) return;
		const key = keyOf(terms, most);
		let letsGo = this.#letsGo.get(key);
		if (letsGo === undefined) {
			letsGo = this.amount(0, 1);
			this.#letsGo.set(key, letsGo);
			this.atMost([...terms, [letsGo, -over]], most);
		}
		this.atMost([[letsGo, 1], ...(broken === undefined ? [] : [[broken, -1] as Term])], 0);
	}

	/** A number up to `most` and up to a sum; the same for the same sum. */
	upTo(most: number, terms: readonly Term[]): Variable {
		const key = keyOf(terms, most);
		const known = this.#sums.get(key);
		if (known !== undefined) return known;
		const sum = this.amount(0, most);
		this.#sums.set(key, sum);
		this.atMost([[sum, 1], ...terms.map(([variable, by]): Term => [variable, -by])], 0);
		return sum;
	}

	/** At least so much, unless a case is given up. */
	unlessLess(broken: Variable | undefined, terms: readonly Term[], least: number): void {
		this.unless(
			broken,
			terms.map(([variable, by]): Term => [variable, -by]),
			-least,
		);
	}

	/** The highest that a sum can be; of variables of which one is chosen, the largest counts. */
	#highest(terms: readonly Term[]): number {
		const most = new Map<Variable, number>();
		for (const [variable, by] of summed(terms)) {
			const group = this.#oneOf.get(variable) ?? variable;
			const value = by * ((by > 0 ? this.#upper : this.#lower)[variable] ?? 0);
			most.set(group, Math.max(most.get(group) ?? 0, value));
		}
		return [...most.values()].reduce((sum, value) => sum + value, 0);
	}

	/** Yes or no. */
	choice(price: number): Variable {
		return this.#add(price, 0, 1, 1);
	}

	/** What cannot be otherwise. */
	fixed(value: number): Variable {
		return this.#add(0, value, value, 0);
	}

	/** Any number from 0 to `most`. */
	amount(price: number, most: number): Variable {
		return this.#add(price, 0, most, 0);
	}

	atMost(terms: readonly Term[], most: number): void {
		this.#row(terms, Number.NEGATIVE_INFINITY, most);
	}

	atLeast(terms: readonly Term[], least: number): void {
		this.#row(terms, least, Number.POSITIVE_INFINITY);
	}

	equal(terms: readonly Term[], value: number): void {
		this.#row(terms, value, value);
	}

	get variables(): number {
		return this.#price.length;
	}

	get rows(): number {
		return this.#rowLower.length;
	}

	data(): ProgramData {
		return {
			price: Float64Array.from(this.#price),
			lower: Float64Array.from(this.#lower),
			upper: Float64Array.from(this.#upper),
			whole: Int32Array.from(this.#whole),
			rowLower: Float64Array.from(this.#rowLower),
			rowUpper: Float64Array.from(this.#rowUpper),
			starts: Int32Array.from(this.#starts),
			indices: Int32Array.from(this.#indices),
			values: Float64Array.from(this.#values),
		};
	}

	#add(price: number, lower: number, upper: number, whole: number): Variable {
		this.#price.push(price);
		this.#lower.push(lower);
		this.#upper.push(upper);
		this.#whole.push(whole);
		return this.#price.length - 1;
	}

	/** A variable that stands in a row twice counts with the sum. */
	#row(terms: readonly Term[], lower: number, upper: number): void {
		for (const [variable, by] of summed(terms)) {
			if (by === 0) continue;
			this.#indices.push(variable);
			this.#values.push(by);
		}
		this.#starts.push(this.#indices.length);
		this.#rowLower.push(lower);
		this.#rowUpper.push(upper);
	}
}

function summed(terms: readonly Term[]): ReadonlyMap<Variable, number> {
	const sums = new Map<Variable, number>();
	for (const [variable, by] of terms) sums.set(variable, (sums.get(variable) ?? 0) + by);
	return sums;
}

function keyOf(terms: readonly Term[], most: number): string {
	const sorted = [...summed(terms)].filter(([, by]) => by !== 0).sort(([a], [b]) => a - b);
	return `${most}: ${sorted.map(([variable, by]) => `${variable} ${by}`).join(", ")}`;
}
