/**
 * The fewest changes that make a plan right, and the proof that there are none fewer.
 *
 * Steps: ask the measures what is broken; write the rows of those cases alone, and the choices that could
 * help there; solve; make the plan that was chosen and ask the measures again. What they find new becomes
 * rows, and the program is solved again, until the measures find nothing that the program did not say:
 * that is a plan. Then what could mend the new cases is chosen from as well, and the same goes on, until
 * nothing is better: that is the proof.
 *
 * Many cases at once make a program that no solver is quick with: then a plan is looked for part by part,
 * around the best one so far (`#partByPart`), and a survey of the whole says what no plan can be under
 * before anything is proved. What is too large for a proof ends with that gap.
 *
 * Why it is proved: every row holds for every plan that keeps its rule, so a program with few rows allows
 * more than the rules do, and its least price is at most that of the best plan. And a drill that no row
 * speaks of is worth as much on a seat as any other such drill: the one most like what is written stands
 * for all of them. What is proved is that no plan with fewer findings, or as many and fewer changes, can
 * be made of the changes that the rules look at (rules.ts, `wants`).
 */

import { isAccepted } from "../compute/accepted.ts";
import { exposuresOf } from "../compute/exposures.ts";
import { lazy } from "../compute/get-or-make.ts";
import type { Curriculum } from "../model.ts";
import { applied, asWritten } from "./apply.ts";
import type { Choices, Touched } from "./choices.ts";
import { type Chosen, priceOf, type Watched, type Written, writeProgram } from "./model.ts";
import type { ProgramData } from "./program.ts";
import { brokenCases, type Case, type Judged } from "./rules.ts";
import type { Solved, Wish } from "./solver.ts";

/** Solves a program: the solver's thread, or another solver in tests. */
export type Solve = (program: ProgramData, wish: Wish) => Promise<Solved>;

export interface MendWish {
	readonly solve: Solve;
	/** Whether a case that is broken now is one to mend; the others are let alone, and may not grow. */
	readonly isAsked: (one: Case) => boolean;
	/** Cases that have to be mended, whatever it costs. */
	readonly isRequired?: (one: Case) => boolean;
	readonly seconds: number;
	/** From more cases than this on a plan is looked for part by part. */
	readonly partsFrom?: number;
	readonly signal?: AbortSignal | undefined;
	readonly onProgress?: ((progress: MendProgress) => void) | undefined;
	/** Plans that were found before, of which this one is to differ, with the cases that were looked at. */
	readonly before?: readonly Mended[];
	/** Milliseconds that only rise. */
	readonly now: () => number;
}

export interface MendProgress {
	readonly round: number;
	/** Whether a plan is found, and proved to be the best. */
	readonly isProving: boolean;
	readonly rows: number;
	readonly choices: number;
	/** The price of the best plan so far, and what no plan can be under. */
	readonly best: number;
	readonly bound: number;
}

export interface Mended {
	readonly chosen: Chosen;
	readonly curriculum: Curriculum;
	/** Cases that were asked for and are broken before, and after. */
	readonly before: readonly Case[];
	readonly after: readonly Case[];
	/** Of the changes, and of what stays broken. */
	readonly price: number;
	/** What no plan can be under. */
	readonly bound: number;
	/** `best`: proved; `stopped`: by the clock or by hand; `impossible`: what is required cannot hold. */
	readonly status: "best" | "stopped" | "impossible";
	/**
	 * That no plan is better: `direct`, of those whose every change helps to mend what was asked for;
	 * `all`, of those too that mend what another change breaks.
	 */
	readonly proof: "none" | "direct" | "all";
	readonly watched: readonly Watched[];
	readonly size: { readonly rows: number; readonly choices: number; readonly memory: number };
}

/**
 * First drills alone; then every change that mends what is asked for; then also those that mend what
 * another change would break.
 */
type Step = "find" | "direct" | "all";
const PROOFS = { find: "none", direct: "direct", all: "all" } as const;

/** While a plan is looked for, and while it is proved: less than one change. */
const GAP = { find: 0.05, prove: 0.5 } as const;
/** Seconds for one program while a plan is looked for: what it has by then is good enough to go on with. */
const FIND_SECONDS = 8;
const PARTS_FROM = 12;
/** Seconds for one part, programs for it, and cases of the whole term in it. */
const PART = { seconds: 2, rounds: 8, cases: 2 } as const;
/** Share of the time in which a plan is looked for part by part; the rest is for the proof. */
const FIND_SHARE = 0.6;
/** From more drills on seats than this on no program is written of all of them: it takes minutes and gigabytes. */
const MOST_CHOICES = 80_000;
/** Plans of which the cases that were found in them are remembered, part by part: each holds megabytes of counts. */
const MOST_PLANS = 60;
/** Rounds after which the best plan so far is taken. */
const MOST_ROUNDS = 400;

/** What the measures find that the program did not say, in the plan that it chose. */
interface Found {
	readonly curriculum: Curriculum;
	readonly cases: readonly Case[];
}

/** Mends a plan. Throws where the measures and the program disagree: that is a mistake of this program. */
export async function mend(choices: Choices, wish: MendWish): Promise<Mended> {
	const search = new Search(choices, wish);
	return search.run();
}

class Search {
	readonly #choices: Choices;
	readonly #wish: MendWish;
	readonly #watched = new Map<string, Watched>();
	/** Names of the cases that were learned, by the plan in which they were found: the oldest first. */
	readonly #learned = new Map<Curriculum, string[]>();
	/** Broken as it is written, and not to be mended: accepted, or not asked for. */
	readonly #letAlone = new Set<string>();
	readonly #atFirst: readonly Case[];
	readonly #started: number;
	#best: {
		readonly chosen: Chosen;
		readonly curriculum: Curriculum;
		readonly cases: readonly Case[];
		readonly price: number;
	};
	#bound = 0;
	#memory = 0;
	#proof: Mended["proof"] = "none";

	constructor(choices: Choices, wish: MendWish) {
		this.#choices = choices;
		this.#wish = wish;
		this.#started = wish.now();
		const written = asWritten(choices);
		const { curriculum, cases } = this.#judge(written);
		for (const one of cases) {
			if (isAccepted(choices.curriculum, one) || !wish.isAsked(one)) this.#letAlone.add(one.key);
			else this.#watch(one, wish.isRequired?.(one) === true ? undefined : one.weight, true, curriculum);
		}
		this.#atFirst = cases.filter(({ key }) => !this.#letAlone.has(key));
		for (const { watched } of wish.before ?? [])
			for (const one of watched) this.#watched.set(nameOf(one.case), one);
		const price = [...this.#watched.values()].some(({ weight }) => weight === undefined)
			? Number.POSITIVE_INFINITY
			: this.#priceOf(written, this.#atFirst);
		this.#best = {
			chosen: written,
			curriculum,
			cases: this.#atFirst,
			price: wish.before === undefined ? price : Number.POSITIVE_INFINITY,
		};
	}

	async run(): Promise<Mended> {
		const { solve, signal, onProgress, before: others } = this.#wish;
		let step: Step = "find";
		this.#choices.allowsForms = false;
		if (this.#atFirst.length > (this.#wish.partsFrom ?? PARTS_FROM)) {
			const { bound, choices: asked } = this.#survey();
			const isLarge = asked > MOST_CHOICES;
			this.#bound = bound;
			await this.#partByPart(isLarge ? 1 : FIND_SHARE);
			if (isLarge) return this.#ended("stopped", { rows: 0, choices: asked });
			step = "direct";
			this.#choices.allowsForms = true;
		}
		for (let round = 1; round <= MOST_ROUNDS; round++) {
			const isProving = step !== "find";
			if (this.#left() <= 0) return this.#ended("stopped", { rows: 0, choices: 0 });
			this.#widen();
			const program = writeProgram(
				this.#choices,
				this.#watched.values(),
				others?.map(({ chosen }) => chosen),
			);
			const left = this.#left();
			const size = { rows: program.rows, choices: program.data.price.length };
			const tell = (bound: number): void =>
				onProgress?.({
					round,
					isProving,
					...size,
					best: this.#best.price,
					bound: Math.max(this.#bound, isProving ? bound : 0),
				});
			tell(0);
			if (left <= 0) return this.#ended("stopped", size);
			const { chosen: best, cases: leftBroken, price } = this.#best;
			const solved = await solve(program.data, {
				seconds: isProving ? left : Math.min(left, FIND_SECONDS),
				signal,
				gap: isProving ? GAP.prove : GAP.find,
				onProgress: ({ bound }) => tell(bound),
				start:
					isProving && Number.isFinite(price)
						? program.start(best, new Set(leftBroken.map(({ key }) => key)))
						: undefined,
			});
			this.#memory = Math.max(this.#memory, solved.memory);
			if (solved.status === "infeasible" && step === "all") return this.#ended("impossible", size);
			// A lower price of fewer choices says nothing of all of them.
			if (isProving) this.#bound = Math.max(solved.bound, step === "direct" ? this.#bound : 0);
			if (solved.values === undefined && solved.status !== "infeasible") return this.#ended("stopped", size);
			const fresh = solved.values === undefined ? undefined : this.#found(program, solved.values);
			if (solved.status === "stopped" && isProving) return this.#ended("stopped", size);
			if (fresh !== undefined && fresh.cases.length > 0) {
				for (const one of fresh.cases) this.#learn(one, step === "all", fresh.curriculum);
				continue;
			}
			this.#proof = PROOFS[step];
			if (step === "all") return this.#ended("best", size);
			step = step === "find" ? "direct" : "all";
			this.#choices.allowsForms = true;
			if (step === "all") {
				for (const [name, one] of this.#watched) this.#watched.set(name, { ...one, asks: true });
			}
		}
		return this.#ended("stopped", { rows: 0, choices: 0 });
	}

	/**
	 * A plan to begin the proof with, each part around the best plan so far: week by week, and what is
	 * about the whole term level by level, with other drills; then what is left case by case, with every
	 * change; then week by week, to do with fewer changes. So long as it gets better.
	 */
	async #partByPart(share: number): Promise<void> {
		const { seconds } = this.#wish;
		this.#choices.mode = "look";
		const isOver = (): boolean => this.#left() <= seconds * (1 - share);
		for (let worth = Number.POSITIVE_INFINITY; this.#best.price < worth - GAP.prove; ) {
			worth = this.#best.price;
			for (const batch of this.#batches()) if (!isOver()) await this.#part(batch);
			if (this.#best.cases.length > 0 && this.#best.price > worth - GAP.prove) {
				this.#choices.allowsForms = true;
				for (const one of this.#best.cases) if (!isOver()) await this.#part([one]);
			}
			for (const { week } of this.#choices.curriculum.weeks) if (!isOver()) await this.#part([], week);
			if (isOver()) break;
		}
		this.#choices.mode = "prove";
	}

	/**
	 * How much there is to choose from, and what no plan can be under: cases that no block has to do with
	 * twice take a change each, since each change is made in a block.
	 */
	#survey(): { readonly bound: number; readonly choices: number } {
		const choices = this.#choices;
		choices.mode = "survey";
		choices.allowsForms = true;
		choices.surveyed = 0;
		const asking = [...this.#watched.values()].filter(({ asks }) => asks);
		const touched = asking.map((one) => {
			const { seats, pieces, added } = this.#ask([one], []);
			return new Set<unknown>([...pieces, ...added, ...[...seats].map(({ part }) => part.form.piece)]);
		});
		choices.mode = "prove";
		choices.allowsForms = false;
		const taken = new Set<unknown>();
		let bound = 0;
		for (const own of touched.sort((a, b) => a.size - b.size)) {
			// What nothing can mend costs more than a change.
			if (!own.isDisjointFrom(taken)) continue;
			for (const one of own) taken.add(one);
			bound++;
		}
		return { bound, choices: choices.surveyed };
	}

	/** What is left to mend, in parts that have to do with each other. */
	#batches(): readonly (readonly Case[])[] {
		const left = new Set(this.#best.cases.map(({ key }) => key));
		const asking = [...this.#watched.values()].flatMap((one) =>
			one.asks && left.has(one.case.key) ? [one.case] : [],
		);
		const together = Map.groupBy(asking, ({ about: { week, level, group } }) =>
			week === undefined ? `${level ?? ""} ${group ?? ""}` : week,
		);
		const ofWeeks = [...together].flatMap(([key, cases]) => (typeof key === "number" ? [cases] : []));
		const ofTerm = [...together].flatMap(([key, cases]) => (typeof key === "number" ? [] : [cases]));
		// What is about the whole term touches all of it: a few at once.
		return [
			...ofWeeks,
			...ofTerm.flatMap((cases) =>
				Array.from({ length: Math.ceil(cases.length / PART.cases) }, (_, i) =>
					cases.slice(i * PART.cases, (i + 1) * PART.cases),
				),
			),
		];
	}

	/**
	 * Looks for something better around the best plan: where cases ask for it, or anywhere in a week among
	 * the drills that were asked for before.
	 */
	async #part(asking: readonly Case[], week?: number): Promise<void> {
		this.#forget();
		const own = new Set(asking.map(nameOf));
		/** Cases that had no row in the last program, though they are near. */
		const fresh = new Set<string>();
		for (let round = 1; round <= PART.rounds; round++) {
			const left = this.#left();
			if (left <= 0) return;
			const { solve, signal, onProgress, before } = this.#wish;
			const { chosen, cases } = this.#best;
			const free = this.#ask(
				asking.flatMap((one) => this.#watched.get(nameOf(one)) ?? []),
				[...this.#watched.values()],
			);
			if (week !== undefined) for (const seat of this.#choices.seatsIn(week)) free.seats.add(seat);
			const isNear = nearTo(this.#choices, free);
			const watched = [...this.#watched.values()].filter(
				({ case: one }) => own.has(nameOf(one)) || fresh.has(nameOf(one)) || isNear(one),
			);
			const unlike = before?.map((other) => other.chosen);
			const program = writeProgram(this.#choices, watched, unlike, { chosen, free });
			const size = { rows: program.rows, choices: program.data.price.length };
			onProgress?.({ round: 0, isProving: false, ...size, best: this.#best.price, bound: this.#bound });
			const solved = await solve(program.data, {
				seconds: Math.min(left, PART.seconds),
				signal,
				gap: GAP.prove,
				start: program.start(chosen, new Set(cases.map(({ key }) => key))),
			});
			if (solved.values === undefined) return;
			const known = new Set(cases.map(({ key }) => key));
			const judged = this.#found(program, solved.values);
			const found = judged.cases.filter(({ key }) => !known.has(key));
			if (found.length === 0) return;
			const names = new Set(watched.map((one) => nameOf(one.case)));
			for (const one of found) {
				const name = nameOf(one);
				if (names.has(name)) throw disagreement(one);
				if (!this.#watched.has(name)) this.#learn(one, false, judged.curriculum);
				fresh.add(name);
			}
		}
	}

	#left(): number {
		const { seconds, signal, now } = this.#wish;
		return signal?.aborted === true ? 0 : seconds - (now() - this.#started) / 1000;
	}

	/** Judges what was chosen, keeps it where it is the best so far, and gives what the program did not say. */
	#found(program: Written, values: Float64Array): Found {
		const chosen = program.read(values);
		const { curriculum, cases } = this.#judge(chosen);
		const counted = cases.filter(({ key }) => !this.#letAlone.has(key));
		const said = program.brokenIn(values);
		this.#keep(chosen, curriculum, counted);
		return { curriculum, cases: counted.filter((one) => !said.has(one.key)) };
	}

	/** A case that the measures found and the program did not say. */
	#learn(one: Case, asks: boolean, by: Curriculum): void {
		const name = nameOf(one);
		if (this.#watched.has(name)) throw disagreement(one);
		const known = [...this.#watched.values()].find((other) => other.case.key === one.key);
		const weight = known === undefined ? (one.isHard ? undefined : one.weight) : known.weight;
		this.#watch(one, weight, asks, by);
		this.#learned.set(by, [...(this.#learned.get(by) ?? []), name]);
	}

	/** Cases of the oldest plans, but for what the best plan breaks: they are found again where they matter. */
	#forget(): void {
		const broken = new Set(this.#best.cases.map(nameOf));
		const old = [...this.#learned].slice(0, -MOST_PLANS);
		for (const [plan, names] of old) {
			this.#learned.delete(plan);
			for (const name of names) if (!broken.has(name)) this.#watched.delete(name);
		}
	}

	#watch(one: Case, weight: number | undefined, asks: boolean, by: Curriculum): void {
		const brokenBy = this.#wish.isRequired === undefined ? {} : { brokenBy: by };
		this.#watched.set(nameOf(one), { case: one, weight, asks, ...brokenBy });
	}

	/** Lets the watched cases ask for what could help, and gives seats that may have to change something harmless. */
	#widen(): void {
		const all = [...this.#watched.values()];
		this.#ask(
			all.filter(({ asks }) => asks),
			all,
		);
	}

	#ask(asking: readonly Watched[], watched: readonly Watched[]): Touched {
		const choices = this.#choices;
		const touched = choices.touchedBy(() => {
			for (const { case: one } of asking) {
				choices.nextAsks();
				one.wants(choices);
			}
		});
		choices.nextAsks();
		for (const seat of choices.loosened) {
			if (!touched.seats.has(seat)) continue;
			const { week } = seat.part.plan;
			const here = watched.filter(({ case: one }) => one.weeks?.includes(week) !== false);
			let harmless = seat.part.seats.length;
			for (const drill of choices.candidates(seat)) {
				if (harmless <= 0) break;
				if (drill.id === seat.drill?.id) continue;
				const mayHarm = here.some(({ case: one }) => one.mentions?.(choices, seat, drill) === true);
				if (!mayHarm || choices.mode !== "look") choices.want(seat, drill);
				if (!mayHarm) harmless--;
			}
		}
		return touched;
	}

	#judge(chosen: Chosen): { readonly curriculum: Curriculum; readonly cases: readonly Case[] } {
		const { curriculum, partOf } = applied(this.#choices, chosen);
		const counted = lazy<Judged["counted"]>({
			curriculum: () => curriculum,
			exposures: () => exposuresOf(curriculum),
		});
		const cases = brokenCases({ counted, partOf, chosen: chosen.columns, forms: chosen.forms });
		const standing = cases.filter((one) => !isAccepted(curriculum, one));
		return { curriculum, cases: [...new Map(standing.map((one) => [nameOf(one), one])).values()] };
	}

	#priceOf(chosen: Chosen, cases: readonly Case[]): number {
		const weights = new Map(cases.map(({ key, weight }) => [key, weight]));
		return priceOf(chosen) + [...weights.values()].reduce((sum, weight) => sum + weight, 0);
	}

	/** The best plan so far: without anything that may not be. */
	#keep(chosen: Chosen, curriculum: Curriculum, cases: readonly Case[]): void {
		const weightOf = new Map([...this.#watched.values()].map((one) => [one.case.key, one.weight]));
		const isAllowed = cases.every(({ key, isHard }) =>
			weightOf.has(key) ? weightOf.get(key) !== undefined : !isHard,
		);
		const price = this.#priceOf(chosen, cases);
		if (isAllowed && price < this.#best.price - 1e-9) this.#best = { chosen, curriculum, cases, price };
	}

	#ended(status: Mended["status"], size: { readonly rows: number; readonly choices: number }): Mended {
		const { chosen, curriculum, cases, price } = this.#best;
		return {
			chosen,
			curriculum,
			before: this.#atFirst,
			after: cases,
			price,
			bound: status === "best" ? Math.min(price, this.#bound) : this.#bound,
			status,
			proof: this.#proof,
			watched: [...this.#watched.values()],
			size: { ...size, memory: this.#memory },
		};
	}
}

/** Whether what may change can bring a case about, or mend it. */
function nearTo(choices: Choices, { seats, pieces }: Touched): (one: Case) => boolean {
	const free = [...seats, ...choices.seats.filter((seat) => pieces.has(seat.part.form.piece))];
	const weeks = new Set(free.map(({ part }) => part.plan.week));
	const drills = new Set(free.flatMap(({ columns }) => [...columns.keys()]));
	return (one) => {
		if (one.weeks !== undefined && !one.weeks.some((week) => weeks.has(week))) return false;
		return one.drills === undefined || !one.drills(choices).isDisjointFrom(drills);
	};
}

function nameOf({ key, again = "" }: Case): string {
	return `${key} ${again}`;
}

function disagreement({ code, key }: Case): Error {
	return new Error(
		`The measures find ${code} (${key}), which the program had ruled out. This is a mistake of the program.`,
	);
}
