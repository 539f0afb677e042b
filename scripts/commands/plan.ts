/**
 * `plan`: the drills of weeks that have no plan yet, chosen from the library under the rules that `mend`
 * mends by. Weeks are planned one after the other, each as well as it can be after those before it; a
 * week that has a file is never touched.
 */

import { harmOf } from "../compute/harm.ts";
import { weekText } from "../edit/week-text.ts";
import type { Curriculum, WeekPlan } from "../model.ts";
import { inComponents } from "../solve/components.ts";
import { cannotPlan, choicesFor, emptyWeeks, withDraft } from "../solve/empty-week.ts";
import { type Mended, mend, type Solve } from "../solve/mend.ts";
import { Solver } from "../solve/solver.ts";
import { editClub } from "./edit-club.ts";
import { progressOn, proofWords } from "./mend.ts";
import { count } from "./report.ts";
import { type Run, untilInterrupted } from "./run.ts";
import { soundHandbook } from "./sound-club.ts";

export interface PlanOptions {
	/** Every empty week of the term where it is left out. */
	readonly week?: number;
	readonly seed: number;
	/** Seconds for all weeks together. */
	readonly timeLimit: number;
	readonly write?: boolean;
	readonly json?: boolean;
}

interface Planned {
	readonly plan: WeekPlan;
	readonly mended: Mended;
}

/** @returns 0 planned, or nothing to plan; 1 for errors; 2 for a week that has a plan or is not of the term */
export async function planCommand(run: Run, options: PlanOptions): Promise<number> {
	const { out } = run;
	const handbook = soundHandbook(run, "weeks are planned only in a folder without errors");
	if (handbook === undefined) return 1;
	const { curriculum } = handbook;
	const empty = emptyWeeks(curriculum);
	const weeks = options.week === undefined ? empty : [options.week];
	const wrong = wrongWeek(curriculum, options.week, empty) ?? cannotPlan(curriculum);
	if (wrong !== undefined) {
		out.line(options.json ? JSON.stringify({ error: wrong }) : `error: ${wrong}`);
		return 2;
	}
	if (weeks.length === 0) {
		out.line(options.json ? JSON.stringify({ weeks: [] }) : "Every week of the term has its plan.");
		return 0;
	}
	const solver = new Solver();
	try {
		const planned = await untilInterrupted((signal) =>
			plans(run, curriculum, weeks, options, solver, signal),
		);
		return planned === undefined ? 1 : tell(run, planned, options);
	} finally {
		await solver.end();
	}
}

function wrongWeek(
	{ term }: Curriculum,
	week: number | undefined,
	empty: readonly number[],
): string | undefined {
	if (week === undefined || empty.includes(week)) return undefined;
	if (week > term.weeks) return `The term has ${term.weeks} weeks, so there is no week ${week}.`;
	return `Week ${week} has its plan, which is left as it is.${empty.length === 0 ? "" : ` Without one: ${empty.join(", ")}.`} \`mend\` changes plans.`;
}

async function plans(
	run: Run,
	curriculum: Curriculum,
	weeks: readonly number[],
	{ seed, timeLimit }: PlanOptions,
	solver: Solver,
	signal: AbortSignal,
): Promise<readonly Planned[]> {
	const now = performance.now.bind(performance);
	const solve: Solve = inComponents((program, wish) => solver.solve(program, wish), now);
	const started = now();
	const planned: Planned[] = [];
	let soFar = curriculum;
	for (const [i, week] of weeks.entries()) {
		if (signal.aborted) break;
		const left = timeLimit - (now() - started) / 1000;
		const mended = await mend(choicesFor(withDraft(soFar, week), week, seed), {
			solve,
			isAsked: () => true,
			seconds: Math.max(1, left / (weeks.length - i)),
			signal,
			onProgress: progressOn(run),
			now,
		});
		run.progress.stream.write(run.progress.live ? "\r\u001b[K" : "");
		soFar = mended.curriculum;
		const plan = soFar.weeks.find((one) => one.week === week);
		if (plan !== undefined) planned.push({ plan, mended });
	}
	return planned;
}

const BODY =
	"Chosen by the program from the library: look it through, and give it a theme, before it is taught.";

function tell(run: Run, planned: readonly Planned[], { write, json, seed }: PlanOptions): number {
	const { out } = run;
	const files = planned.map(({ plan }) => [`content/weeks/${plan.id}.md`, weekText(plan, BODY)] as const);
	if (json) {
		const weeks = planned.map(({ plan, mended }, i) => ({
			week: plan.week,
			file: files[i]?.[0],
			text: files[i]?.[1],
			status: mended.status,
			proof: mended.proof,
			left: mended.after.map(({ code, about }) => ({ code, about })),
		}));
		out.line(JSON.stringify({ weeks }, null, "\t"));
	} else {
		for (const { plan, mended } of planned) {
			const own = mended.after.filter(({ about }) => about.week === plan.week);
			const safety = own.filter(({ code }) => harmOf(code) === "safety").length;
			const blocks = plan.apparatus.reduce((sum, { blocks: here }) => sum + here.length, 0);
			out.line(
				`week ${plan.week}: ${count(blocks, "block")}; ${count(own.length, "cause")} of findings in it${safety === 0 ? "" : `, ${safety} of safety`}. ${proofWords(mended)}`,
			);
		}
	}
	if (!write) {
		if (!json) {
			out.line(
				`${count(files.length, "week")} would be written, with seed ${seed}. Nothing was written; --write writes them.`,
			);
		}
		return 0;
	}
	return editClub(run, { what: `plan --seed ${seed}`, write: true }, (texts) => {
		const after = new Map(texts);
		for (const [path, text] of files) if (!after.has(path)) after.set(path, text);
		return after;
	});
}
