/**
 * A mixed-integer program: numbers to choose, each with its price, and rows that hold them together.
 * What it means is in rules.ts; here it is only arithmetic.
 *
 * Rows are kept as they are handed on, in lists of plain numbers: a term of forty weeks has a million of
 * them. What cannot be otherwise is added up at once, and is in no row.
 */

export type Variable = number;

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

/** Terms added up: each variable once, in order, those that can change. */
interface Sum {
	readonly variables: Int32Array;
	readonly by: Float64Array;
	/** Of what cannot be otherwise. */
	readonly constant: number;
}

/** Rows by a hash of what is in them: which row, with which numbers, and the variable that it is about. */
type KnownRows = Map<
	number,
	{ readonly row: number; readonly most: number; readonly constant: number; readonly by: Variable }[]
>;

export class Program {
	readonly #price = floats();
	readonly #lower = floats();
	readonly #upper = floats();
	readonly #whole = ints();
	readonly #rowLower = floats();
	readonly #rowUpper = floats();
	readonly #starts = ints();
	readonly #indices = ints();
	readonly #values = floats();
	/** The first of those of which at most one is chosen; the variable itself where nothing is said. */
	readonly #oneOf = ints();
	/** For adding up: a number for each variable, and whether it has one. */
	#sums = new Float64Array(64);
	#isSummed = new Uint8Array(64);

	/** What lets a row go that is written already: classes that do the same ask the same. By what is in it. */
	readonly #letsGo: KnownRows = new Map();
	readonly #totals: KnownRows = new Map();

	constructor() {
		this.#starts.push(0);
	}

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
		const sum = this.#added(terms);
		const over = this.#highest(sum) + sum.constant - most;
		if (over <= 1e-9) return;
		const left = most - sum.constant;
		let letsGo = this.#known(this.#letsGo, sum, left, 0);
		if (letsGo === undefined) {
			letsGo = this.amount(0, 1);
			this.#know(this.#letsGo, sum, left, 0, letsGo);
			this.#row(sum, Number.NEGATIVE_INFINITY, left, [letsGo, -over]);
		}
		if (broken === undefined) this.atMost([[letsGo, 1]], 0);
		else this.implies(letsGo, broken);
	}

	/** A number up to `most` and up to a sum; the same for the same sum. */
	upTo(most: number, terms: readonly Term[]): Variable {
		const sum = this.#added(terms);
		const known = this.#known(this.#totals, sum, most, sum.constant);
		if (known !== undefined) return known;
		if (sum.variables.length === 0) return this.fixed(Math.max(0, Math.min(most, sum.constant)));
		const total = this.amount(0, most);
		this.#know(this.#totals, sum, most, sum.constant, total);
		// The sum less the number is at least nothing.
		this.#row(sum, -sum.constant, Number.POSITIVE_INFINITY, [total, -1]);
		return total;
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
	#highest({ variables, by }: Sum): number {
		let highest = 0;
		const most = this.#sums;
		const groups: number[] = [];
		for (const [i, variable] of variables.entries()) {
			const times = by[i] ?? 0;
			const value = times * (times > 0 ? this.#upper.at(variable) : this.#lower.at(variable));
			const group = this.#oneOf.at(variable);
			if (this.#isSummed[group] === 0) {
				this.#isSummed[group] = 1;
				groups.push(group);
				most[group] = 0;
			}
			most[group] = Math.max(most[group] ?? 0, value);
		}
		for (const group of groups) {
			highest += most[group] ?? 0;
			this.#isSummed[group] = 0;
		}
		return highest;
	}

	/** Yes or no. */
	choice(price: number): Variable {
		return this.#add(price, 0, 1, 1);
	}

	/** What cannot be otherwise. */
	fixed(value: number): Variable {
		return this.#add(0, value, value, 0);
	}

	amount(price: number, most: number): Variable {
		return this.#add(price, 0, most, 0);
	}

	/** Where the one is chosen, so is the other; of numbers, the one is at most the other. */
	implies(one: Variable, other: Variable): void {
		this.atMost(
			[
				[one, 1],
				[other, -1],
			],
			0,
		);
	}

	atMost(terms: readonly Term[], most: number): void {
		const sum = this.#added(terms);
		this.#row(sum, Number.NEGATIVE_INFINITY, most - sum.constant);
	}

	atLeast(terms: readonly Term[], least: number): void {
		const sum = this.#added(terms);
		this.#row(sum, least - sum.constant, Number.POSITIVE_INFINITY);
	}

	equal(terms: readonly Term[], value: number): void {
		const sum = this.#added(terms);
		this.#row(sum, value - sum.constant, value - sum.constant);
	}

	get variables(): number {
		return this.#price.length;
	}

	get rows(): number {
		return this.#rowLower.length;
	}

	data(): ProgramData {
		return {
			price: this.#price.all(),
			lower: this.#lower.all(),
			upper: this.#upper.all(),
			whole: this.#whole.all(),
			rowLower: this.#rowLower.all(),
			rowUpper: this.#rowUpper.all(),
			starts: this.#starts.all(),
			indices: this.#indices.all(),
			values: this.#values.all(),
		};
	}

	#add(price: number, lower: number, upper: number, whole: number): Variable {
		const variable = this.#price.length;
		this.#price.push(price);
		this.#lower.push(lower);
		this.#upper.push(upper);
		this.#whole.push(whole);
		this.#oneOf.push(variable);
		if (variable >= this.#sums.length) {
			const sums = new Float64Array(2 * this.#sums.length);
			sums.set(this.#sums);
			this.#sums = sums;
			const isSummed = new Uint8Array(sums.length);
			isSummed.set(this.#isSummed);
			this.#isSummed = isSummed;
		}
		return variable;
	}

	#added(terms: readonly Term[]): Sum {
		const found: number[] = [];
		let constant = 0;
		for (const [variable, by] of terms) {
			if (by === 0) continue;
			const lower = this.#lower.at(variable);
			if (lower === this.#upper.at(variable)) {
				constant += by * lower;
				continue;
			}
			if (this.#isSummed[variable] === 0) {
				this.#isSummed[variable] = 1;
				this.#sums[variable] = 0;
				found.push(variable);
			}
			this.#sums[variable] = (this.#sums[variable] ?? 0) + by;
		}
		for (const variable of found) this.#isSummed[variable] = 0;
		const variables = Int32Array.from(found.filter((variable) => this.#sums[variable] !== 0)).sort();
		return { variables, by: Float64Array.from(variables, (variable) => this.#sums[variable] ?? 0), constant };
	}

	#row({ variables, by }: Sum, lower: number, upper: number, more?: Term): void {
		// What says nothing is not written; what cannot hold is.
		if (variables.length === 0 && more === undefined && lower <= 1e-9 && upper >= -1e-9) return;
		for (const [i, variable] of variables.entries()) {
			this.#indices.push(variable);
			this.#values.push(by[i] ?? 0);
		}
		if (more !== undefined) {
			this.#indices.push(more[0]);
			this.#values.push(more[1]);
		}
		this.#starts.push(this.#indices.length);
		this.#rowLower.push(lower);
		this.#rowUpper.push(upper);
	}

	/** The variable of a row with the same terms and the same numbers. */
	#known(rows: KnownRows, sum: Sum, most: number, constant: number): Variable | undefined {
		return rows
			.get(hashOf(sum, most))
			?.find((one) => one.most === most && one.constant === constant && this.#isRow(one.row, sum))?.by;
	}

	/** Remembers the row that is written next. */
	#know(rows: KnownRows, sum: Sum, most: number, constant: number, by: Variable): void {
		const hash = hashOf(sum, most);
		const before = rows.get(hash);
		const one = { row: this.#rowLower.length, most, constant, by };
		if (before === undefined) rows.set(hash, [one]);
		else before.push(one);
	}

	/** Whether a row has these terms, and one more. */
	#isRow(row: number, { variables, by }: Sum): boolean {
		const start = this.#starts.at(row);
		if (this.#starts.at(row + 1) - start !== variables.length + 1) return false;
		for (let i = 0; i < variables.length; i++) {
			if (this.#indices.at(start + i) !== variables[i] || this.#values.at(start + i) !== by[i]) return false;
		}
		return true;
	}
}

/** FNV-1a over the variables, and how much of them. */
function hashOf({ variables, by }: Sum, most: number): number {
	let hash = 0x811c9dc5;
	for (let i = 0; i < variables.length; i++) {
		hash = Math.imul(hash ^ (variables[i] ?? 0), 0x01000193);
		hash = Math.imul(hash ^ Math.round((by[i] ?? 0) * 1024), 0x01000193);
	}
	return Math.imul(hash ^ Math.round(most * 1024), 0x01000193);
}

/** A list of numbers that grows, without an object for each. */
class Numbers<List extends Float64Array | Int32Array> {
	#list: List;
	readonly #make: (length: number) => List;
	length = 0;

	constructor(make: (length: number) => List) {
		this.#make = make;
		this.#list = make(256);
	}

	push(value: number): void {
		if (this.length === this.#list.length) {
			const list = this.#make(2 * this.length);
			list.set(this.#list);
			this.#list = list;
		}
		this.#list[this.length++] = value;
	}

	set(i: number, value: number): void {
		this.#list[i] = value;
	}

	at(i: number): number {
		return this.#list[i] ?? 0;
	}

	all(): List {
		return this.#list.slice(0, this.length) as List;
	}
}

function floats(): Numbers<Float64Array> {
	return new Numbers((length) => new Float64Array(length));
}

function ints(): Numbers<Int32Array> {
	return new Numbers((length) => new Int32Array(length));
}
