/** The thread of solver.ts: takes programs, tells how far it is, gives what it found. */

import { parentPort } from "node:worker_threads";
import highsModule, { type InterruptCallbackEvent } from "highs";
import type { Answer, Task } from "./solver.ts";

/** Least milliseconds from one word about progress to the next. */
const PAUSE = 250;

/** Programs of fewer choices are not simplified first, which would take longer: measured, 5.0 → 3.8 s for a week. */
const SMALL = 2500;

/** A search that takes more memory than this is ended, with its gap: beside it the process has half of 1 GB. */
const MOST_BYTES = 500 * 2 ** 20;

// Its types are written for CommonJS, where the function is the module's `default`.
const loadHighs = highsModule as unknown as typeof highsModule.default;
const highs = await loadHighs();
parentPort?.on("message", (task: Task) => {
	try {
		tell(solve(task));
	} catch (error) {
		tell({ kind: "failed", message: String(error) });
	}
});

function tell(answer: Answer): void {
	parentPort?.postMessage(answer);
}

function solve({ program, gap, seconds, stop }: Task): Answer {
	const { price, lower, upper, whole, rowLower, rowUpper, starts, indices, values } = program;
	const numCols = price.length;
	const numRows = rowLower.length;
	const { callbackType, modelStatus } = highs.constants;
	const model = highs.createModel({
		numCols,
		numRows,
		colCost: price,
		colLower: lower,
		colUpper: upper,
		rowLower,
		rowUpper,
		matrix: { format: "csr", numRows, numCols, starts, indices, values },
		integrality: whole,
	});
	try {
		model.options.set({
			output_flag: false,
			time_limit: seconds,
			mip_rel_gap: 0,
			mip_abs_gap: gap,
			// Most programs here are small and tell little at their root: measured, 20.7 s against 10.5.
			mip_allow_restart: false,
			presolve: numCols < SMALL ? "off" : "choose",
		});
		let last = performance.now();
		const interrupt = (event: InterruptCallbackEvent): undefined => {
			if (Atomics.load(stop, 0) !== 0 || highs.memoryBytes > MOST_BYTES) event.interrupt();
		};
		model.run({
			[callbackType.mipLogging](event) {
				const { mip_primal_bound: best = Number.POSITIVE_INFINITY, mip_dual_bound: bound = 0 } = event.data;
				if (performance.now() - last < PAUSE) return;
				last = performance.now();
				tell({ kind: "progress", best: Number.isFinite(best) ? best : undefined, bound });
			},
			[callbackType.mipInterrupt]: interrupt,
			[callbackType.simplexInterrupt]: interrupt,
		});
		const status = model.getModelStatus();
		const isSolved = status === modelStatus.optimal;
		const isInfeasible = status === modelStatus.infeasible || status === modelStatus.unboundedOrInfeasible;
		const hasValues = !isInfeasible && model.info.get("primal_solution_status") === 2;
		const found = hasValues ? Float64Array.from(model.getSolution().colValue) : undefined;
		const worth = found === undefined ? Number.POSITIVE_INFINITY : model.getObjectiveValue();
		const bound = isSolved ? worth : Number(model.info.get("mip_dual_bound"));
		return {
			kind: "solved",
			status: isSolved ? "optimal" : isInfeasible ? "infeasible" : "stopped",
			values: found,
			price: worth,
			bound: Number.isFinite(bound) ? bound : 0,
			memory: highs.memoryBytes,
		};
	} finally {
		model.dispose();
	}
}
