/**
 * `mend`: the fewest changes of the plan that take its findings away, proved; and `plan`: the drills of
 * weeks that have none yet. What is found is a change list, as `check --what-if` reads it.
 *
 * The measures judge the plan that the list makes, read and checked as any other: where they find
 * something that the program had ruled out, the command fails, since that is a mistake of the program.
 */

import { basename, dirname } from "node:path";
import { compareFindings } from "../compute/compare-findings.ts";
import { harmOf } from "../compute/harm.ts";
import { measure } from "../compute/measures.ts";
import { keptPast } from "../compute/taught.ts";
import { changePlan } from "../edit/change-plan.ts";
import { changeTexts } from "../edit/change-texts.ts";
import { changeList } from "../edit/write-changes.ts";
import { openFolder } from "../files/folder.ts";
import { type Handbook, openHandbook } from "../handbook.ts";
import type { Block, Curriculum, Finding, Id, PlanChange } from "../model.ts";
import { dayIn } from "../read/club-edition.ts";
import { keepMend } from "../read/kept-mend.ts";
import type { ReadCache } from "../read/read-club.ts";
import { changesOf } from "../solve/apply.ts";
import { Choices } from "../solve/choices.ts";
import { inComponents } from "../solve/components.ts";
import { conflictOf } from "../solve/conflict.ts";
import { type Mended, type MendProgress, mend, type Solve } from "../solve/mend.ts";
import type { Watched } from "../solve/model.ts";
import type { Case } from "../solve/rules.ts";
import { Solver } from "../solve/solver.ts";
import { editClub } from "./edit-club.ts";
import { count, reportProblems } from "./report.ts";
import { type Run, untilInterrupted } from "./run.ts";
import { wrongChoice } from "./sound-club.ts";

export interface MendOptions {
	readonly week?: number;
	readonly class?: Id;
	readonly level?: Id;
	/** A finding's code or a kind of findings: those have to go. */
	readonly finding?: string;
	/** How many plans that differ. */
	readonly plans: number;
	/** Seconds. */
	readonly timeLimit: number;
	/** A file for the change list of the first plan. */
	readonly list?: string;
	readonly write?: boolean;
	readonly json?: boolean;
}

/** One plan that was found, and what it does to the findings. */
interface Offer {
	readonly changes: readonly PlanChange[];
	readonly mended: Mended;
	readonly gone: readonly Finding[];
	readonly come: readonly Finding[];
}

/** @returns 0 where a plan was found or nothing is to mend; 1 for errors, and where what is asked for cannot be had; 2 for a choice that names nothing */
export async function mendCommand(run: Run, options: MendOptions): Promise<number> {
	// Its program is loaded while the folder is read.
	const solver = new Solver();
	try {
		return await mendWith(solver, run, options);
	} finally {
		await solver.end();
	}
}

async function mendWith(solver: Solver, run: Run, options: MendOptions): Promise<number> {
	const { clubDir, out } = run;
	const cache: ReadCache = new Map();
	const { problems, handbook } = openHandbook(clubDir, { taught: true, cache });
	if (handbook === undefined) {
		if (options.json) out.line(JSON.stringify({ problems }, null, "\t"));
		else {
			reportProblems(problems, clubDir, out);
			out.line("Mend these first: a plan is mended only in a folder without errors.");
		}
		return 1;
	}
	const wrong = wrongChoice(handbook.curriculum, options);
	if (wrong !== undefined) {
		out.line(options.json ? JSON.stringify({ error: wrong }) : `error: ${wrong}`);
		return 2;
	}
	// At a first signal to end, the best plan so far is told.
	const found = await untilInterrupted((signal) => offers(run, { handbook, cache }, options, solver, signal));
	const [best] = found?.offers ?? [];
	if (best !== undefined && isWholeTerm(options)) keepMend(handbook.fingerprint, best.changes);
	return found === undefined ? 1 : await tell(run, handbook, options, found);
}

function isWholeTerm({ week, class: one, level, finding }: MendOptions): boolean {
	return [week, one, level, finding].every((choice) => choice === undefined);
}

/**
 * Whether a case is one that is asked for. What is about the whole term is asked of one week only where
 * something else says which it is: a week alone is mended of what is found in it.
 */
function isAsked({ about, code }: Case, { week, class: one, level, finding }: MendOptions): boolean {
	const isNarrow = one !== undefined || level !== undefined || finding !== undefined;
	return (
		(week === undefined || about.week === week || (about.week === undefined && isNarrow)) &&
		(one === undefined || about.class === undefined || about.class === one) &&
		(level === undefined || about.level === undefined || about.level === level) &&
		(finding === undefined || code === finding || harmOf(code) === finding)
	);
}

interface Found {
	readonly offers: readonly Offer[];
	/** Rules that cannot hold together with what is asked for. */
	readonly conflict: readonly Watched[];
}

/** A club that was opened, and its files as they were read. */
interface Opened {
	readonly handbook: Handbook;
	readonly cache: ReadCache;
}

async function offers(
	run: Run,
	opened: Opened,
	options: MendOptions,
	solver: Solver,
	signal: AbortSignal,
): Promise<Found> {
	const { curriculum: written } = opened.handbook;
	const curriculum = keptPast(written, dayIn(written.club.timezone, run.now));
	const { week, class: one, level, finding } = options;
	const now = performance.now.bind(performance);
	const solve: Solve = inComponents((program, wish) => solver.solve(program, wish), now);
	const choices = new Choices(curriculum, { scope: { week, class: one, level } });
	const found: Offer[] = [];
	const wish = {
		solve,
		isAsked: (case_: Case) => isAsked(case_, options),
		seconds: options.timeLimit,
		signal,
		onProgress: progressOn(run),
		now,
	};
	while (found.length < options.plans) {
		const mended = await mend(choices, {
			...wish,
			...(found.length > 0 ? { before: found.map((offer) => offer.mended) } : {}),
		});
		run.progress.stream.write(run.progress.live ? "\r\u001b[K" : "");
		if (found.length > 0 && !Number.isFinite(mended.price)) break;
		found.push(offered(opened, choices, mended));
		if (mended.status === "stopped" || mended.before.length === 0) break;
	}
	const left =
		finding === undefined ? undefined : found[0]?.mended.after.find((case_) => isAsked(case_, options));
	if (left === undefined || found[0]?.mended.status !== "best") return { offers: found, conflict: [] };
	const required = await mend(choices, { ...wish, isRequired: ({ key }) => key === left.key });
	const isImpossible = required.status === "impossible";
	return {
		offers: found,
		conflict: isImpossible
			? await conflictOf(choices, required.watched, solve, options.timeLimit)
			: required.watched.filter((one) => one.case.key === left.key).slice(0, 1),
	};
}

/** The plan as the change list makes it, judged as any other. */
function offered({ handbook, cache }: Opened, choices: Choices, mended: Mended): Offer {
	const changes = changesOf(choices, mended.chosen);
	if (changes.length === 0) return { changes, mended, gone: [], come: [] };
	const list = changeList(changes);
	const after = openHandbook(handbook.clubDir, {
		change: (files) => changePlan(files, list),
		taught: true,
		cache,
	});
	if (after.handbook === undefined) {
		throw new Error(
			`The change list makes a plan with errors: ${after.problems.map(({ what }) => what).join(" ")}\n${list}`,
		);
	}
	const [wanted, made] = [planOf(mended.curriculum), planOf(after.handbook.curriculum)];
	if (wanted !== made) throw new Error(`The change list makes another plan than was chosen:\n${list}`);
	// Much of both was counted while the plan was looked for.
	const { words } = handbook;
	const findings = compareFindings(
		measure(choices.curriculum, words).findings,
		measure(mended.curriculum, words).findings,
	);
	return { changes, mended, gone: findings.gone, come: findings.came };
}

/** What of a plan a choice decides. */
function planOf({ weeks }: Curriculum): string {
	const blockOf = ({ minutes, levels, sessions, stations, doses, dose, show, change }: Block) => [
		minutes,
		levels,
		sessions,
		stations.map(({ drill }) => drill),
		[...doses],
		dose,
		show,
		change,
	];
	return JSON.stringify(
		weeks.map(({ week, apparatus }) => [
			week,
			apparatus.map((plan) => [plan.apparatus, plan.blocks.map(blockOf)]),
		]),
	);
}

/** Seconds from one line of progress to the next where lines cannot be written over. */
const PAUSE = 5;

/** Tells how far a search is: one line written over on a terminal, a line now and then elsewhere. */
export function progressOn({ progress }: Run): (at: MendProgress) => void {
	let last = 0;
	let wasProving = false;
	return ({ round, isProving, rows, best, bound }) => {
		const now = performance.now();
		const isOld = now - last >= (progress.live ? 100 : PAUSE * 1000);
		if (!isOld && isProving === wasProving) return;
		last = now;
		wasProving = isProving;
		const so = Number.isFinite(best) ? `worth ${price(best)} so far` : "nothing so far";
		const least = bound > 0 ? `, at least ${price(bound)}` : "";
		const line = `${isProving ? "proving" : "looking"}, round ${round}, ${rows} rows: ${so}${least}`;
		progress.stream.write(progress.live ? `\r\u001b[K${line}` : `${line}\n`);
	};
}

/** A price as a person reads it: what stays broken counts by hundreds, changes by ones. */
function price(value: number): string {
	return value.toFixed(1);
}

async function tell(
	run: Run,
	handbook: Handbook,
	options: MendOptions,
	{ offers: all, conflict }: Found,
): Promise<number> {
	const { out } = run;
	const [first] = all;
	if (first === undefined) throw new Error("No plan was looked at.");
	const isRefused = options.finding !== undefined && first.mended.after.some((one) => isAsked(one, options));
	if (options.json) {
		out.line(
			JSON.stringify(
				{ plans: all.map(recordOfOffer), conflict: conflict.map((one) => conflictWords(handbook, one)) },
				null,
				"\t",
			),
		);
	} else if (first.mended.before.length === 0) out.line("There is nothing to mend here.");
	else {
		for (const [i, offer] of all.entries()) {
			if (all.length > 1) out.line(`${i === 0 ? "" : "\n"}Plan ${i + 1} of ${all.length}`);
			tellOffer(run, handbook, offer);
		}
		if (conflict.length > 0) {
			out.line("");
			out.line(
				conflict.length > 1 ? "These cannot hold together:" : "This cannot be had without something worse:",
			);
			for (const one of conflict) out.line(`  ${conflictWords(handbook, one)}`);
		}
	}
	const { changes } = first;
	if (changes.length === 0) return isRefused ? 1 : 0;
	if (options.list !== undefined) {
		openFolder(dirname(options.list)).write(basename(options.list), `${changeList(changes)}\n`);
		if (!options.json) out.line(`The change list is in ${options.list}.`);
	}
	if (options.write) {
		const code = editClub(run, { what: "mend", write: true }, (texts) => changeTexts(texts, changes));
		if (code !== 0) return code;
	} else if (!options.json)
		out.line("Nothing was written; --write makes the change, and `undo` takes it back.");
	return isRefused ? 1 : 0;
}

function recordOfOffer({ changes, mended, gone, come }: Offer) {
	const { status, proof, price: worth, bound, before, after } = mended;
	const said = ({ code, what }: Finding) => ({ code, what });
	const codes = (cases: readonly Case[]) => cases.map(({ code, about, weight }) => ({ code, about, weight }));
	return {
		status,
		proof,
		price: worth,
		bound,
		changes,
		findings: { gone: gone.map(said), come: come.map(said) },
		mended: codes(before),
		left: codes(after),
	};
}

function tellOffer({ out }: Run, handbook: Handbook, { changes, mended, gone, come }: Offer): void {
	for (const change of changes) out.line(`  ${changeWords(handbook.curriculum, change)}`);
	if (changes.length > 0) {
		out.line("");
		for (const line of changeList(changes).split("\n")) out.line(line);
		out.line("");
	}
	for (const { code, what } of gone) out.line(`no longer found: ${code}  ${what}`);
	for (const { code, what } of come) out.line(`newly found: ${code}  ${what}`);
	const left = mended.after.length;
	out.line(
		`${count(changes.length, "change")}. Findings: ${gone.length} gone, ${come.length} new${left === 0 ? "" : `; ${count(left, "cause")} left`}. ${proofWords(mended)}`,
	);
}

/** How sure it is that there is nothing better. */
export function proofWords({ status, proof, price: worth, bound }: Mended): string {
	const direct = "Proved: no fewer changes do as much, of those that each help to mend what is found";
	if (proof === "all") return "Proved: no fewer changes do as much.";
	if (proof === "direct")
		return `${direct}; whether a change that breaks something could help was not looked through to the end.`;
	// A bound is of the changes that were chosen from.
	const least = bound > 0 ? `, at least ${price(Math.min(bound, worth))} with changes that each help` : "";
	const gap = Number.isFinite(worth) ? ` (worth ${price(worth)}${least})` : "";
	return status === "impossible"
		? "What is asked for cannot be had."
		: `Stopped before it was proved${gap}; --time-limit gives it longer.`;
}

function changeWords({ drills, apparatus }: Curriculum, change: PlanChange): string {
	const title = (id: Id): string => `“${drills.get(id)?.title ?? id}”`;
	const block = (name: string): string => {
		const [week, on = "", number] = name.split("/");
		return `week ${week}, ${apparatus.get(on)?.name ?? on}, block ${number}`;
	};
	if ("swap" in change) {
		const { station } = change.swap;
		return `${block(change.swap.block)}${station === undefined ? "" : `, station ${station}`}: ${title(change.swap.drill)}`;
	}
	if ("exchange" in change) {
		const [one, other] = change.exchange.map((name) =>
			typeof name === "number" ? `week ${name}` : block(name),
		);
		return `${one} and ${other} trade places`;
	}
	if ("move" in change) return `${block(change.move.from)} goes to ${block(change.move.to)}`;
	if ("split" in change) {
		const { block: name, after, minutes } = change.split;
		return `${block(name)} becomes two, after station ${after}: ${minutes.join(" and ")} minutes`;
	}
	if ("set" in change) return `${block(change.set.block)}: ${change.set.minutes} minutes`;
	if ("remove" in change) return `${block(change.remove)} goes`;
	const { week, apparatus: on, block: added } = change.add;
	return `week ${week}, ${apparatus.get(on)?.name ?? on}: ${title(added.drill ?? "")} for ${added.minutes} minutes more`;
}

/**
 * A rule that cannot hold, as the measures tell it of a plan that breaks it ("three coaches needed, two
 * there"); where they tell nothing of it alone, what its finding is called.
 */
function conflictWords({ curriculum, words }: Handbook, { case: one, brokenBy }: Watched): string {
	const { code, about } = one;
	const told = brokenBy && measure(brokenBy, words).findings.filter((finding) => finding.code === code);
	const alike = (finding: Finding): number =>
		Object.entries(about).filter(([kind, value]) =>
			Object.entries(finding.about).some(([k, v]) => k === kind && v === value),
		).length;
	const best = told?.toSorted((a, b) => alike(b) - alike(a))[0];
	return `${code}  ${best?.what ?? `${words.catalogue[code].title} (${curriculum.drills.get(about.drill ?? "")?.title ?? about.apparatus ?? ""})`}`;
}
