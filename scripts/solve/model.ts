/**
 * The program of a plan: what can be chosen, and the rows of the cases that are looked at.
 *
 * Steps: each piece stands in one of its forms; each seat of a form that stands holds one drill; two
 * blocks that trade places do it together; then each case writes its rows (rules.ts). What cannot be
 * otherwise is one variable that is 1.
 */

import type { Curriculum } from "../model.ts";
import type { Choices, Column, Form, Seat, Touched } from "./choices.ts";
import { Program, type ProgramData, type Term, type Variable } from "./program.ts";
import type { Case, Model } from "./rules.ts";
import type { Start } from "./solver.ts";

/** A case that is looked at. */
export interface Watched {
	readonly case: Case;
	/** What it is worth to be rid of it; undefined where it has to hold. */
	readonly weight: number | undefined;
	/** Whether what could mend it is to be chosen from; else it only keeps others from breaking it. */
	readonly asks: boolean;
	/** A plan that breaks it, to be told in words: kept only where what is required may be impossible. */
	readonly brokenBy?: Curriculum;
}

export interface Chosen {
	readonly forms: ReadonlySet<Form>;
	readonly columns: ReadonlySet<Column>;
}

export interface Written {
	readonly data: ProgramData;
	readonly rows: number;
	read(values: Float64Array): Chosen;
	/** A choice to begin with, and the cases that it leaves broken. */
	start(chosen: Chosen, broken: ReadonlySet<string>): Start;
	/** The cases that stay broken by the solver's word, by their keys. */
	brokenIn(values: Float64Array): ReadonlySet<string>;
}

/** A plan around which something better is looked for, and what of it may change. */
export interface Around {
	readonly chosen: Chosen;
	readonly free: Touched;
}

/** Whether a drill may be chosen for a seat around a plan: of a block that may stand otherwise, for every seat. */
function isFreeAround({ chosen, free }: Around, seat: Seat): boolean {
	const { form } = seat.part;
	return free.pieces.has(form.piece) || (free.seats.has(seat) && chosen.forms.has(form));
}

/** @param unlike plans that were found before, of which the next one differs */
export function writeProgram(
	choices: Choices,
	watched: Iterable<Watched>,
	unlike: readonly Chosen[] = [],
	around?: Around,
): Written {
	const program = new Program();
	const one = program.fixed(1);
	const none = program.fixed(0);
	const forms = new Map<Form, Variable>();
	const columns = new Map<Column, Variable>();
	const isFree = (seat: Seat): boolean => around === undefined || isFreeAround(around, seat);
	if (around !== undefined) fixAround(choices, around, { forms, columns, one, none });
	const stands = (form: Form): Variable => forms.get(form) ?? one;
	const at = (column: Column): Variable => columns.get(column) ?? stands(column.seat.part.form);
	for (const piece of choices.pieces) {
		if (piece.forms.length < 2 || piece.forms.some((form) => forms.has(form))) continue;
		for (const form of piece.forms) forms.set(form, program.choice(form.price));
		program.exclusive(piece.forms.map(stands));
		program.equal(
			piece.forms.map((form): Term => [stands(form), 1]),
			1,
		);
	}
	together(program, [...forms.keys()], stands);
	for (const seat of choices.seats) {
		if (!isFree(seat)) continue;
		const { columns: here, part } = seat;
		const [only, ...more] = here.values();
		if (only !== undefined && more.length === 0 && only.price === 0) continue;
		for (const column of here.values()) columns.set(column, program.choice(column.price));
		program.exclusive([...here.values()].map(at));
		program.equal([...[...here.values()].map((column): Term => [at(column), 1]), [stands(part.form), -1]], 0);
	}
	notTwice(choices.seats.filter(isFree), program, at);
	const model: Model = { program, choices, at, stands };
	const broken = new Map<string, Variable>();
	for (const { case: one, weight } of watched) {
		if (weight !== undefined && !broken.has(one.key)) broken.set(one.key, program.choice(weight));
		const own = broken.get(one.key);
		one.rows(model, own);
	}
	for (const other of unlike) different(choices, program, { at, stands }, other);
	return {
		data: program.data(),
		rows: program.rows,
		read: (values) => ({
			forms: new Set(
				choices.pieces.flatMap((piece) => piece.forms.filter((form) => isYes(values[stands(form)]))),
			),
			columns: new Set(choices.columns.filter((column) => isYes(values[at(column)]))),
		}),
		start(chosen, left) {
			const all = [
				...[...forms].map(([form, variable]) => [variable, chosen.forms.has(form)] as const),
				...[...columns].map(([column, variable]) => [variable, chosen.columns.has(column)] as const),
				...[...broken].map(([key, variable]) => [variable, left.has(key)] as const),
			];
			return { indices: all.map(([variable]) => variable), values: all.map(([, is]) => (is ? 1 : 0)) };
		},
		brokenIn: (values) => new Set([...broken].flatMap(([key, own]) => (isYes(values[own]) ? [key] : []))),
	};
}

/** Two blocks that trade places do it together, and so does everything in two weeks. */
function together(program: Program, forms: readonly Form[], stands: (form: Form) => Variable): void {
	const same = (one: Form, other: Form): void =>
		program.equal(
			[
				[stands(one), 1],
				[stands(other), -1],
			],
			0,
		);
	for (const form of forms) {
		if (form.move.kind !== "exchange" || form.piece.number > form.move.with.number) continue;
		const other = form.move.with.forms.find(
			({ move }) => move.kind === "exchange" && move.with === form.piece,
		);
		if (other !== undefined) same(form, other);
	}
	const pairs = Map.groupBy(
		forms.filter(({ move }) => move.kind === "weeks"),
		({ move, piece }) => (move.kind === "weeks" ? [piece.week, move.with].sort().join() : ""),
	);
	for (const [first, ...more] of pairs.values()) {
		if (first === undefined) continue;
		for (const other of more) same(first, other);
		// Nothing else comes into weeks that trade places.
		const weeks = [first, ...more].map(({ piece }) => piece.week);
		for (const coming of forms) {
			const { kind } = coming.move;
			if (kind !== "add" && kind !== "move") continue;
			if (!coming.parts.some(({ plan }) => weeks.includes(plan.week))) continue;
			program.atMost(
				[
					[stands(first), 1],
					[stands(coming), 1],
				],
				1,
			);
		}
	}
}

function isYes(value = 0): boolean {
	return value > 0.5;
}

/** What does not change around a plan is what it is there. */
function fixAround(
	choices: Choices,
	around: Around,
	{
		forms,
		columns,
		one,
		none,
	}: {
		readonly forms: Map<Form, Variable>;
		readonly columns: Map<Column, Variable>;
		readonly one: Variable;
		readonly none: Variable;
	},
): void {
	const { chosen, free } = around;
	for (const piece of choices.pieces) {
		if (free.pieces.has(piece)) continue;
		for (const form of piece.forms) forms.set(form, chosen.forms.has(form) ? one : none);
	}
	for (const seat of choices.seats) {
		if (isFreeAround(around, seat)) continue;
		for (const column of seat.columns.values()) columns.set(column, chosen.columns.has(column) ? one : none);
	}
}

/** No drill stands in a block twice that does not do so already. */
function notTwice(free: readonly Seat[], program: Program, at: (column: Column) => Variable): void {
	const parts = new Set(free.map(({ part }) => part));
	for (const { seats } of parts) {
		if (seats.length < 2) continue;
		const all = seats.flatMap(({ columns }) => [...columns.values()]);
		for (const same of Map.groupBy(all, ({ drill }) => drill.id).values()) {
			const written = same.filter(({ seat, drill }) => seat.drill?.id === drill.id).length;
			if (same.length > Math.max(1, written))
				program.atMost(
					same.map((column): Term => [at(column), 1]),
					Math.max(1, written),
				);
		}
	}
}

/** Share of a plan's changes that another one may have as well. */
const LIKE = 2 / 3;

/** A plan that has at most two thirds of the changes of another one. */
function different(
	choices: Choices,
	program: Program,
	{ at, stands }: Pick<Model, "at" | "stands">,
	other: Chosen,
): void {
	const changes = [
		...changedForms(other).map((form): Term => [stands(form), 1]),
		...changedColumns(other).map((column): Term => [at(column), 1]),
	];
	const most = Math.floor(changes.length * LIKE);
	if (changes.length > 0) program.atMost(changes, Math.min(changes.length - 1, most));
	else {
		const any = [
			...choices.pieces.flatMap(({ forms }) => forms.filter((form) => form.price > 0)).map(stands),
			...choices.columns.filter(({ price }) => price > 0).map(at),
		];
		program.atLeast(
			any.map((variable): Term => [variable, 1]),
			1,
		);
	}
}

function changedForms({ forms }: Chosen): readonly Form[] {
	return [...forms].filter(({ move }) => move.kind !== "keep" && move.kind !== "absent");
}

/** Drills on seats where another is written. */
function changedColumns({ columns }: Chosen): readonly Column[] {
	return [...columns].filter(({ seat, drill }) => seat.drill !== undefined && seat.drill.id !== drill.id);
}

/** What the changes of a plan cost. */
export function priceOf(chosen: Chosen): number {
	return (
		[...chosen.forms].reduce((sum, { price }) => sum + price, 0) +
		[...chosen.columns].reduce((sum, { price }) => sum + price, 0)
	);
}
