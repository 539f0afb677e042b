/**
 * Changes of the plan as the YAML of a change list, which change-plan.ts reads.
 *
 * Devices write it too, so it does without a library: a list is one line of short values each.
 */

import type { PlanChange } from "../model.ts";

/** One line for each change. */
export function changeList(changes: readonly PlanChange[]): string {
	return changes
		.flatMap((change) => Object.entries(change))
		.map(([kind, what]) => `- ${kind}: ${inFlow(what)}`)
		.join("\n");
}

/** What YAML takes for text without quotes: ids and addresses of blocks. */
const PLAIN = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$|^\d+\/[a-z0-9-]+\/\d+$/;

/** Words that are no text without quotes. */
const NO_TEXT = new Set(["true", "false", "null", "yes", "no", "on", "off", "y", "n"]);

/** A value in flow style: every JSON is YAML (YAML 1.2.2, section 1.3). */
export function inFlow(value: unknown): string {
	if (Array.isArray(value)) return `[${value.map(inFlow).join(", ")}]`;
	if (typeof value === "object" && value !== null) {
		const fields = Object.entries(value).filter(([, field]) => field !== undefined);
		return `{${fields.map(([name, field]) => `${inFlow(name)}: ${inFlow(field)}`).join(", ")}}`;
	}
	if (typeof value !== "string") return JSON.stringify(value ?? null);
	return PLAIN.test(value) && !NO_TEXT.has(value) ? value : JSON.stringify(value);
}
