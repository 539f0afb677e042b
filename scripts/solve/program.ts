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

	/** Yes or no. */
	choice(price: number): Variable {
		return this.#add(price, 0, 1, 1);
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
		const sums = new Map<Variable, number>();
		for (const [variable, by] of terms) sums.set(variable, (sums.get(variable) ?? 0) + by);
		for (const [variable, by] of sums) {
			if (by === 0) continue;
			this.#indices.push(variable);
			this.#values.push(by);
		}
		this.#starts.push(this.#indices.length);
		this.#rowLower.push(lower);
		this.#rowUpper.push(upper);
	}
}
