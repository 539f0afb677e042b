/** Changes of the plan as the YAML of a change list, which change-plan.ts reads. */

import { stringify } from "yaml";
import type { PlanChange } from "../model.ts";

/** One line for each change. */
export function changeList(changes: readonly PlanChange[]): string {
	return changes
		.flatMap((change) => Object.entries(change))
		.map(
			([kind, what]) =>
				`- ${kind}: ${stringify(what, { collectionStyle: "flow", flowCollectionPadding: false, lineWidth: 0 }).trim()}`,
		)
		.join("\n");
}
